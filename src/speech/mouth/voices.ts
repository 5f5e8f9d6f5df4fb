import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hasCommand, runCommand } from '../commands.js';
import { decodeWav, type Problem, type Sound } from '../wav.js';
import { FLITE_VOICES, fliteWasmVoice } from './flite-wasm.js';
import { speakable, type Voice } from './voice.js';

interface CommandVoice {
  command: string;
  label: string;
  args(rate: number, out: string, text: string): string[];
  /** whether the text goes in by standard input */
  reads: boolean;
}

/** eSpeak's own speed is 175 words a minute (its manual page). */
const ESPEAK_WORDS_A_MINUTE = 175;

/** Programmes that write a WAV file. No shell is between. */
const COMMANDS: Record<string, CommandVoice> = {
  festival: {
    command: 'text2wave',
    label: 'festival, the system voice that say uses on Linux',
    args: (rate, out) => ['-eval', `(Parameter.set 'Duration_Stretch ${(1 / rate).toFixed(3)})`, '-o', out],
    reads: true,
  },
  'espeak-ng': {
    command: 'espeak-ng',
    label: 'espeak-ng',
    args: (rate, out) => [
      '-v',
      'en-gb',
      '-s',
      String(Math.round(ESPEAK_WORDS_A_MINUTE * rate)),
      '-w',
      out,
      '--stdin',
    ],
    reads: true,
  },
  flite: {
    command: 'flite',
    label: 'flite',
    args: (rate, out, text) => [
      '-voice',
      'slt',
      '--setf',
      `duration_stretch=${(1 / rate).toFixed(3)}`,
      '-o',
      out,
      '-t',
      text,
    ],
    reads: false,
  },
};

function commandVoice(id: string, voice: CommandVoice): Voice {
  return {
    id,
    label: voice.label,
    synthesise: (text, rate) =>
      throughFile(voice.label, async (out) => {
        const plain = speakable(text);
        const args = voice.args(rate, out, plain);
        const result = await runCommand(voice.command, args, voice.reads ? `${plain}\n` : '');
        return result.code === 0
          ? null
          : result.stderr.trim().split('\n').at(-1) || `exit code ${result.code}`;
      }),
    close() {},
  };
}

/** The system's voice on macOS and Windows, exported to a file so that it can be prepared ahead and cut off. */
function systemVoice(): Voice {
  return {
    id: 'system',
    label: 'the system voice',
    synthesise: (text, rate) =>
      throughFile('the system voice', async (out) => {
        const { default: say } = await import('say');
        return new Promise((resolve) => {
          try {
            // say's own types forget that "no voice named" is how the system's default is asked for
            const exportTo: (...args: unknown[]) => void = say.export.bind(say) as (
              ...args: unknown[]
            ) => void;
            exportTo(speakable(text), null, rate, out, (error: unknown) =>
              resolve(error ? String(error) : null),
            );
          } catch (error) {
            resolve(String(error));
          }
        });
      }),
    close() {},
  };
}

async function throughFile(
  label: string,
  make: (out: string) => Promise<string | null>,
): Promise<Sound | Problem> {
  const folder = await mkdtemp(join(tmpdir(), 'tankside-voice-'));
  try {
    const out = join(folder, 'said.wav');
    const failed = await make(out);
    if (failed) return { problem: `${label} could not speak: ${failed}.` };
    return decodeWav(await readFile(out), label);
  } catch (error) {
    return { problem: `${label} could not speak: ${String(error)}.` };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

export interface VoiceWorld {
  platform: string;
  has(command: string): boolean;
}
const HERE: VoiceWorld = { platform: process.platform, has: (command) => hasCommand(command) };

/** The voices that this machine has, best first. The last ones come with the installation. */
export function availableVoices(world: VoiceWorld = HERE): Voice[] {
  const voices: Voice[] = [];
  if (world.platform === 'darwin' || world.platform === 'win32') voices.push(systemVoice());
  for (const [id, voice] of Object.entries(COMMANDS)) {
    if (world.has(voice.command)) voices.push(commandVoice(id, voice));
  }
  return [...voices, ...FLITE_VOICES.map(fliteWasmVoice)];
}

/** The voice of this id, or of `flite-wasm:NAME`; null when the machine has none such. */
export function findVoice(id: string, world: VoiceWorld = HERE): Voice | null {
  return availableVoices(world).find((voice) => voice.id === id) ?? null;
}
