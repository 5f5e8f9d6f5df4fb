import { hasCommand } from '../commands.js';

export type RecorderName = 'arecord' | 'sox' | 'rec';

/** In the order tried. On Linux sox needs an extra package to reach the sound card, so arecord comes first there. */
const ORDER: Record<string, readonly RecorderName[]> = {
  linux: ['arecord', 'sox', 'rec'],
  other: ['sox', 'rec', 'arecord'],
};

export interface RecorderWorld {
  platform: string;
  has(command: string): boolean;
}

export const THIS_MACHINE: RecorderWorld = {
  platform: process.platform,
  has: (command) => hasCommand(command),
};

/** The recorders that this machine has, best first. */
export function availableRecorders(world: RecorderWorld = THIS_MACHINE): RecorderName[] {
  return (ORDER[world.platform] ?? ORDER.other ?? []).filter((name) => world.has(name));
}

/** One line that names the package to install. */
export function howToGetRecorder(platform: string = process.platform): string {
  if (platform === 'darwin')
    return 'No recorder is installed, so I cannot hear. Install one: brew install sox';
  if (platform === 'win32')
    return 'No recorder is installed, so I cannot hear. Install SoX and put it on PATH.';
  return 'No recorder is installed, so I cannot hear. Install one: sudo apt install alsa-utils';
}

/** What a recorder wrote, as one sentence a person can act on. */
const COMPLAINTS: readonly { when: RegExp; sentence: string }[] = [
  {
    when: /no such file|cannot find card|no default audio device|no soundcards|ENODEV|no such device|invalid card/i,
    sentence: 'There is no microphone. Connect one.',
  },
  {
    when: /busy/i,
    sentence: 'Another programme holds the microphone. Close it.',
  },
  {
    when: /permission denied|not permitted/i,
    sentence:
      'The microphone may not be used. Add your user to the group audio, or allow it in the system settings.',
  },
  {
    when: /can't open input|no handler for given file type|connection refused/i,
    sentence: 'The recorder cannot reach a microphone. Connect one, or install alsa-utils.',
  },
];

export function complaint(recorder: string, stderr: string): string {
  const known = COMPLAINTS.find(({ when }) => when.test(stderr));
  if (known) return known.sentence;
  const first = stderr.trim().split('\n')[0];
  return `The microphone stopped${first ? ` (${recorder}: ${first})` : ''}. Check its plug.`;
}
