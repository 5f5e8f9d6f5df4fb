import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runCommand } from './commands.js';

export type SoundSystem = 'pipewire' | 'pulseaudio' | 'alsa' | 'coreaudio' | 'windows' | 'none';

/** What is asked of the machine, so that tests can stand in for it. */
export interface SoundWorld {
  platform: string;
  env: Readonly<Record<string, string | undefined>>;
  exists(path: string): boolean;
  /** empty when it cannot be read */
  read(path: string): string;
}

export const THIS_WORLD: SoundWorld = {
  platform: process.platform,
  env: process.env,
  exists: existsSync,
  read(path) {
    try {
      return readFileSync(path, 'utf8');
    } catch {
      return '';
    }
  },
};

export const SYSTEM_NAMES: Record<SoundSystem, string> = {
  pipewire: 'PipeWire',
  pulseaudio: 'PulseAudio',
  alsa: 'ALSA',
  coreaudio: 'Core Audio',
  windows: 'Windows audio',
  none: 'no sound system',
};

/** The sound system that serves this session. */
export function soundSystem(world: SoundWorld = THIS_WORLD): SoundSystem {
  if (world.platform === 'darwin') return 'coreaudio';
  if (world.platform === 'win32') return 'windows';
  const { env } = world;
  const runtime = env.XDG_RUNTIME_DIR ?? '';
  if (runtime !== '' && world.exists(join(runtime, 'pipewire-0'))) return 'pipewire';
  const server = /^(?:unix:)?(\/.*)$/.exec(env.PULSE_SERVER ?? '')?.[1];
  const sockets = [
    ...(server ? [server] : []),
    ...(env.PULSE_RUNTIME_PATH ? [join(env.PULSE_RUNTIME_PATH, 'native')] : []),
    ...(runtime === '' ? [] : [join(runtime, 'pulse', 'native')]),
  ];
  if ((env.PULSE_SERVER && !server) || sockets.some((path) => world.exists(path))) return 'pulseaudio';
  return /^\s*\d+ \[/m.test(world.read('/proc/asound/cards')) ? 'alsa' : 'none';
}

export interface SoundDevice {
  /** what recorders and players are given */
  id: string;
  name: string;
  /** plays back what a speaker is given: nobody is heard through it */
  monitor: boolean;
  standard: boolean;
}

/** The microphones or speakers of the sound system, by name; empty where they cannot be listed. */
export async function soundDevices(
  what: 'microphone' | 'speaker',
  system = soundSystem(),
): Promise<SoundDevice[]> {
  if (system === 'pipewire' || system === 'pulseaudio') return toldApart(await serverDevices(what));
  if (system === 'alsa') return toldApart(await alsaDevices(what));
  return [];
}

/** Two of a kind have one name: their ids are added, so that a person can choose. */
const toldApart = (devices: readonly SoundDevice[]): SoundDevice[] =>
  devices.map((d) => {
    const alone = devices.filter(({ name }) => name === d.name).length === 1;
    return alone ? d : { ...d, name: `${d.name} (${d.id})` };
  });

async function serverDevices(what: 'microphone' | 'speaker'): Promise<SoundDevice[]> {
  const kind = what === 'microphone' ? 'source' : 'sink';
  const said = async (...args: string[]): Promise<string> =>
    (await runCommand('pactl', args, '', 3_000)).stdout.toString();
  const standard = (await said(`get-default-${kind}`)).trim();
  const text = await said('list', `${kind}s`);
  return text.split(/^(?:Source|Sink) #/m).flatMap((block) => {
    const id = /^\s*Name: (.+)$/m.exec(block)?.[1];
    if (!id) return [];
    const name = /^\s*Description: (.+)$/m.exec(block)?.[1] ?? id;
    const of = /^\s*Monitor of Sink: (.+)$/m.exec(block)?.[1] ?? 'n/a';
    return [{ id, name, monitor: kind === 'source' && of !== 'n/a', standard: id === standard }];
  });
}

async function alsaDevices(what: 'microphone' | 'speaker'): Promise<SoundDevice[]> {
  const { stdout } = await runCommand(what === 'microphone' ? 'arecord' : 'aplay', ['-l'], '', 3_000);
  const found = stdout.toString().matchAll(/^card (\d+): \S+ \[(.*?)\], device (\d+): .*?\[(.*?)\]/gm);
  return [...found].map(([, card, cardName, device, deviceName], i) => ({
    id: `plughw:${card},${device}`,
    name: `${cardName}, ${deviceName}`,
    monitor: false,
    standard: i === 0,
  }));
}

/** Whether ALSA knows a device by this name; any other is one of a sound server. */
const isAlsaDevice = (id: string): boolean => /^(plug)?hw:/.test(id);

/** What names a device to ALSA's recorder and player; one of a sound server they reach by `deviceEnv`. */
export const alsaArgs = (id: string | null): string[] => (id && isAlsaDevice(id) ? ['-D', id] : []);

/** What names a device to a programme that takes none as an argument, or only ALSA's: it reaches a server's as its default. */
export function deviceEnv(what: 'microphone' | 'speaker', id: string | null): Record<string, string> {
  if (id === null) return {};
  if (isAlsaDevice(id)) return { AUDIODEV: id };
  return { [what === 'microphone' ? 'PULSE_SOURCE' : 'PULSE_SINK']: id };
}

/** The device that a person means by an id or a part of a name; a sentence when there is none such. */
export function findDevice(
  asked: string,
  devices: readonly SoundDevice[],
): SoundDevice | { problem: string } {
  const wanted = asked.toLowerCase();
  const found =
    devices.find(({ id }) => id === asked) ?? devices.find(({ name }) => name.toLowerCase().includes(wanted));
  if (found) return found;
  const known = devices
    .filter(({ monitor }) => !monitor)
    .map(({ name }) => `“${name}”`)
    .join(', ');
  return {
    problem: `There is no device “${asked}”. ${known === '' ? 'None can be listed here.' : `There are: ${known}.`}`,
  };
}
