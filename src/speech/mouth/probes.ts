import { microphone } from '../ears/microphone.js';
import { availableRecorders, howToGetPlayer, howToGetRecorder } from '../ears/recorders.js';
import { isProblem } from '../wav.js';
import { availablePlayers } from './player.js';
import { availableVoices } from './voices.js';

/** What one part of hearing or speaking is like on this machine, in one line that says what to do. */
export interface Probe {
  part: 'microphone' | 'speaker' | 'voice';
  ok: boolean;
  line: string;
}

const LISTEN_MS = 2500;
const LISTEN_FRAMES = 15;

export interface MicrophoneProbe {
  device?: string | null;
  /** a meter is shown for so long, ms; half a second without one when not given */
  meterMs?: number;
  /** the loudest of the last frames, dB of full scale */
  onLevel?(peakDb: number): void;
}

const decibels = (peak: number): number => Math.max(-90, Math.round(20 * Math.log10(peak + 1e-9)));
/** no more than the dither of a recorder */
const NOTHING_DB = -82;
const FAINT_DB = -45;

/** Listens for a moment. `now`: monotonic, ms. */
export async function probeMicrophone(now: () => number, how: MicrophoneProbe = {}): Promise<Probe> {
  const part = 'microphone';
  if (availableRecorders().length === 0) return { part, ok: false, line: howToGetRecorder() };
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), Math.max(LISTEN_MS, how.meterMs ?? 0));
  let [frames, loudest] = [0, 0];
  let recorder = '';
  try {
    for await (const event of microphone({ now, retryMs: [100], device: how.device ?? null }).open(
      stop.signal,
    )) {
      if (event.type === 'lost') return { part, ok: false, line: event.sentence };
      if (event.type === 'listening') recorder = event.recorder;
      if (event.type === 'frame') {
        const peak = event.pcm.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
        loudest = Math.max(loudest, peak);
        how.onLevel?.(decibels(peak));
        if (++frames >= LISTEN_FRAMES && !how.meterMs) break;
      }
    }
  } finally {
    clearTimeout(timer);
    stop.abort();
  }
  if (frames === 0) return { part, ok: false, line: 'The microphone sends nothing. Check its plug.' };
  const peakDb = decibels(loudest);
  if (peakDb <= NOTHING_DB)
    return { part, ok: false, line: 'I hear nothing at all. Is the microphone muted?' };
  const advice =
    loudest > 0.999
      ? ' It clips: turn its level down.'
      : how.meterMs && peakDb < FAINT_DB
        ? ' That is faint: turn its level up.'
        : '';
  return {
    part,
    ok: true,
    line: `The microphone works, through ${recorder}; the loudest sound was ${peakDb} decibels.${advice}`,
  };
}

/** Plays a tenth of a second of silence. */
export async function probeSpeaker(device: string | null = null): Promise<Probe> {
  const part = 'speaker';
  const [player] = availablePlayers(undefined, device);
  if (!player) return { part, ok: false, line: howToGetPlayer() };
  const end = await player.play({ pcm: new Float32Array(1600), sampleRate: 16_000 }).done;
  if (typeof end === 'object') return { part, ok: false, line: end.problem };
  return { part, ok: true, line: `The speaker works, through ${player.id}.` };
}

/** Makes one word into sound with the best voice. */
export async function probeVoice(): Promise<Probe> {
  const part = 'voice';
  for (const voice of availableVoices()) {
    const sound = await voice.synthesise('Ready.', 1);
    voice.close();
    if (isProblem(sound)) continue;
    const hint =
      voice.id.startsWith('flite-wasm') && process.platform === 'linux'
        ? ' Others can be had: sudo apt install espeak-ng'
        : '';
    return { part, ok: true, line: `I speak with ${voice.label}.${hint}` };
  }
  return { part, ok: false, line: 'No voice works, so I answer in text only. Run npm ci again.' };
}
