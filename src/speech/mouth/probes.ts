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

/** Listens for half a second. `now`: monotonic, ms. */
export async function probeMicrophone(now: () => number): Promise<Probe> {
  const part = 'microphone';
  if (availableRecorders().length === 0) return { part, ok: false, line: howToGetRecorder() };
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), LISTEN_MS);
  let [frames, loudest] = [0, 0];
  let recorder = '';
  try {
    for await (const event of microphone({ now, retryMs: [100] }).open(stop.signal)) {
      if (event.type === 'lost') return { part, ok: false, line: event.sentence };
      if (event.type === 'listening') recorder = event.recorder;
      if (event.type === 'frame') {
        loudest = event.pcm.reduce((most, v) => Math.max(most, Math.abs(v)), loudest);
        if (++frames >= LISTEN_FRAMES) break;
      }
    }
  } finally {
    clearTimeout(timer);
    stop.abort();
  }
  if (frames === 0) return { part, ok: false, line: 'The microphone sends nothing. Check its plug.' };
  if (loudest === 0)
    return { part, ok: false, line: 'The microphone gives no sound at all. Check that it is not muted.' };
  const peakDb = Math.round(20 * Math.log10(loudest));
  return {
    part,
    ok: true,
    line: `The microphone works, through ${recorder}; the loudest sound was ${peakDb} decibels.`,
  };
}

/** Plays a tenth of a second of silence. */
export async function probeSpeaker(): Promise<Probe> {
  const part = 'speaker';
  const [player] = availablePlayers();
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
