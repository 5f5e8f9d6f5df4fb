import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolderOf } from '../ledger/folders.js';
import {
  findDevice,
  type SoundDevice,
  SYSTEM_NAMES,
  soundDevices,
  soundSystem,
} from '../speech/sound-system.js';
import { Refusal } from './exit.js';

/** Devices as the sound system names them; null: its own choice. */
export interface SoundChoice {
  microphone: string | null;
  speaker: string | null;
}

type Which = keyof SoundChoice;
const fileName = 'sound.json';
const optionOf: Record<Which, string> = { microphone: '--mic', speaker: '--speaker' };

/** What the sound system is, which devices are used, and what is wrong with them, a line each. */
export interface ChosenSound extends SoundChoice {
  lines: string[];
}

/**
 * The devices that were asked for now, else those of last time. What is asked for is remembered in the data folder.
 * @throws Refusal for a device that is not there, with the names of those that are
 */
export async function chooseSound(
  dataFolder: string,
  asked: { [which in Which]?: string | undefined },
): Promise<ChosenSound> {
  const system = soundSystem();
  const kept = remembered(dataFolder);
  const chosen: ChosenSound = { microphone: null, speaker: null, lines: [] };
  const names: string[] = [];
  for (const which of ['microphone', 'speaker'] as const) {
    const devices = await soundDevices(which, system);
    const { device, lines } = choose(which, devices, asked[which], kept[which]);
    chosen[which] = device;
    chosen.lines.push(...lines);
    const used = devices.find(({ id, standard }) => (device === null ? standard : id === device));
    if (used) names.push(`${which} “${used.name}”`);
  }
  const lasting = asked.microphone !== undefined || asked.speaker !== undefined;
  if (lasting) remember(dataFolder, { ...kept, ...pick(chosen, asked) });
  const found = system === 'none' ? 'No sound system is found' : `Sound by ${SYSTEM_NAMES[system]}`;
  chosen.lines.unshift(`${[found, ...names].join(', ')}.`);
  return chosen;
}

function choose(
  which: Which,
  devices: readonly SoundDevice[],
  asked: string | undefined,
  kept: string | null,
): { device: string | null; lines: string[] } {
  if (asked !== undefined) {
    const found = findDevice(asked, devices);
    if ('problem' in found) throw new Refusal(found.problem);
    return { device: found.id, lines: monitorWarning(found) };
  }
  const known = devices.find(({ id }) => id === kept);
  if (known) return { device: known.id, lines: monitorWarning(known) };
  const lines = kept === null ? [] : [`The ${which} of last time (${kept}) is not here; I use another.`];
  const standard = devices.find((d) => d.standard);
  if (which !== 'microphone' || !standard?.monitor) return { device: null, lines };
  const real = devices.find(({ monitor }) => !monitor);
  if (!real) return { device: null, lines: [...lines, ...monitorWarning(standard)] };
  const instead = `“${standard.name}” only repeats what the speaker plays, so I listen to “${real.name}”. Another: ${optionOf.microphone} NAME.`;
  return { device: real.id, lines: [...lines, instead] };
}

function monitorWarning({ monitor, name }: SoundDevice): string[] {
  if (!monitor) return [];
  return [
    `“${name}” only repeats what the speaker plays: nobody is heard through it. Connect a microphone, or choose one with --mic NAME.`,
  ];
}

function pick(chosen: SoundChoice, asked: { [which in Which]?: string | undefined }): Partial<SoundChoice> {
  return {
    ...(asked.microphone === undefined ? {} : { microphone: chosen.microphone }),
    ...(asked.speaker === undefined ? {} : { speaker: chosen.speaker }),
  };
}

function remembered(folder: string): SoundChoice {
  try {
    const kept = JSON.parse(readFileSync(join(folder, fileName), 'utf8')) as Partial<Record<Which, unknown>>;
    const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);
    return { microphone: text(kept.microphone), speaker: text(kept.speaker) };
  } catch {
    return { microphone: null, speaker: null };
  }
}

function remember(folder: string, choice: SoundChoice): void {
  try {
    const path = join(folder, fileName);
    makeFolderOf(path);
    writeFileSync(path, `${JSON.stringify(choice, null, 2)}\n`);
  } catch {
    // used now all the same; asked for anew next time
  }
}
