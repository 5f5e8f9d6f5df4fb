import { hasCommand } from '../commands.js';
import { alsaArgs, deviceEnv, type SoundSystem, SYSTEM_NAMES, soundSystem } from '../sound-system.js';
import { SAMPLE_RATE_HZ } from '../wav.js';

export type RecorderName = 'pw-record' | 'parec' | 'arecord' | 'sox' | 'rec';

interface Recorder {
  /** the sound systems that it reaches */
  for: readonly SoundSystem[];
  args(device: string | null): string[];
}

const rate = String(SAMPLE_RATE_HZ);
/** small pieces, often: what waits in a recorder is time that nobody can get back */
const PIECE_MS = 20;
const pieceSamples = (SAMPLE_RATE_HZ * PIECE_MS) / 1000;
const soxArgs = [
  '-q',
  '--buffer',
  '1024',
  '-t',
  'raw',
  '-r',
  rate,
  '-c',
  '1',
  '-e',
  'signed',
  '-b',
  '16',
  '-',
];
const anySystem: readonly SoundSystem[] = ['pipewire', 'pulseaudio', 'alsa', 'coreaudio', 'windows', 'none'];

/** Best first. A server's own recorder goes before one that reaches it by way of ALSA. */
const RECORDERS: Record<RecorderName, Recorder> = {
  parec: {
    for: ['pipewire', 'pulseaudio'],
    args: (device) => [
      ...['--raw', '--format=s16le', `--rate=${rate}`, '--channels=1', `--latency-msec=${PIECE_MS}`],
      ...(device ? [`--device=${device}`] : []),
    ],
  },
  'pw-record': {
    for: ['pipewire'],
    args: (device) => [
      ...['--raw', '--format=s16', `--rate=${rate}`, '--channels=1', `--latency=${PIECE_MS}ms`],
      ...(device ? [`--target=${device}`] : []),
      '-',
    ],
  },
  arecord: {
    for: ['pipewire', 'pulseaudio', 'alsa', 'none'],
    args: (device) => [
      ...alsaArgs(device),
      ...['-q', '-t', 'raw', '-f', 'S16_LE', '-r', rate, '-c', '1'],
      ...[`--period-size=${pieceSamples}`, `--buffer-size=${pieceSamples * 8}`, '-'],
    ],
  },
  sox: { for: anySystem, args: () => ['-d', ...soxArgs] },
  rec: { for: anySystem, args: () => soxArgs },
};

export interface RecorderWorld {
  system: SoundSystem;
  has(command: string): boolean;
}

export const thisMachine = (): RecorderWorld => ({
  system: soundSystem(),
  has: (command) => hasCommand(command),
});

/** The recorders of this machine that reach its sound system, best first. */
export function availableRecorders(world: RecorderWorld = thisMachine()): RecorderName[] {
  const names = Object.keys(RECORDERS) as RecorderName[];
  return names.filter((name) => RECORDERS[name].for.includes(world.system) && world.has(name));
}

/** What node-record-lpcm16 is to run for this recorder. */
export function recorderCommand(name: RecorderName, device: string | null) {
  return { command: name, args: RECORDERS[name].args(device), env: deviceEnv('microphone', device) };
}

const PACKAGES: Record<SoundSystem, string> = {
  pipewire: 'Install one: sudo apt install pulseaudio-utils',
  pulseaudio: 'Install one: sudo apt install pulseaudio-utils',
  alsa: 'Install one: sudo apt install alsa-utils',
  none: 'Install one: sudo apt install alsa-utils',
  coreaudio: 'Install one: brew install sox',
  windows: 'Install SoX and put it on PATH.',
};

/** One line that names the package to install. */
export function howToGetRecorder(system: SoundSystem = soundSystem()): string {
  return `No recorder is installed, so I cannot hear. ${PACKAGES[system]}`;
}

/** One line naming the package for a player. */
export function howToGetPlayer(system: SoundSystem = soundSystem()): string {
  return `No player is installed, so I answer in text. ${PACKAGES[system]}`;
}

interface Complaint {
  when: RegExp;
  sentence: string;
}

const NO_MICROPHONE: Complaint = {
  when: /no such file|cannot find card|no default audio device|no soundcards|ENODEV|no such device|invalid card/i,
  sentence: 'There is no microphone. Connect one.',
};

/** What a recorder wrote, as one sentence a person can act on. */
const COMPLAINTS: readonly Complaint[] = [
  NO_MICROPHONE,
  {
    when: /no such entity/i,
    sentence: 'The sound server has no such microphone. Choose one that tankside doctor lists.',
  },
  {
    when: /busy/i,
    sentence: 'Another programme holds the microphone. Close it.',
  },
  {
    when: /permission denied|not permitted|access denied/i,
    sentence:
      'The microphone may not be used. Add your user to the group audio, or allow it in the system settings.',
  },
  {
    when: /can't open input|no handler for given file type|connection refused|connection terminated|host is down/i,
    sentence: 'The sound system does not answer, so I cannot hear. Start it, or connect a microphone.',
  },
];

export function complaint(recorder: string, stderr: string, world: RecorderWorld = thisMachine()): string {
  const known = COMPLAINTS.find(({ when }) => when.test(stderr));
  const another = recorder === 'arecord' && RECORDERS.parec.for.includes(world.system) && !world.has('parec');
  // ALSA knows no card; the server may have a microphone all the same
  if (known === NO_MICROPHONE && another)
    return `${SYSTEM_NAMES[world.system]} cannot be reached through ALSA here. ${PACKAGES[world.system]}`;
  if (known) return known.sentence;
  const first = stderr.trim().split('\n')[0];
  return `The microphone stopped${first ? ` (${recorder}: ${first})` : ''}. Check its plug.`;
}
