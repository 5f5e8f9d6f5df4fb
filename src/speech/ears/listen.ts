import { isProblem, type Problem, SAMPLE_RATE_HZ } from '../wav.js';
import { type Attention, attention, type Hears, hears, keyIsDown } from './attention.js';
import type { EndpointSettings } from './endpoint-core.js';
import { type EndpointEvent, Endpointer, type SoFar, type Utterance } from './endpointer.js';
import { FRAME_MS, type FrameSource } from './frames.js';
import { Interruption } from './interruption.js';
import type { SelfHearing } from './self-hearing.js';
import { loadSilero, type VoiceActivity } from './silero.js';

export type EarsEvent =
  | { type: 'listening'; recorder: string }
  /** one clear sentence; the ears go on */
  | { type: 'problem'; sentence: string }
  /** somebody begins to speak */
  | { type: 'speech'; startMs: number }
  /** what was said, what of it counts, and whether the assistant spoke meanwhile */
  | { type: 'utterance'; utterance: Utterance; hears: Hears; overVoice: boolean }
  /** what seemed somebody's was the assistant's own voice */
  | { type: 'own-voice'; utterance: Utterance };

export interface EarsOptions {
  source: FrameSource;
  /** asked anew at every frame, so that a change of mode or a key counts at once; always listening when not given */
  attention?: () => Attention;
  /** tell it what the mouth plays; without it the assistant may hear itself */
  selfHearing?: SelfHearing;
  /** whether what was said so far is a whole command: it may then end after a shorter pause */
  isComplete?(soFar: SoFar): boolean | Promise<boolean>;
  /** speech may have ended: a chance to get ready; it decides nothing */
  onLull?(soFar: SoFar): void | Promise<void>;
  /** the sound of an utterance, piece after piece while it comes */
  onSound?(piece: { pcm: Float32Array; startMs: number }): void;
  settings?: Partial<EndpointSettings>;
  /** the voice-activity model, loaded when the first frame comes; Silero's when not given; null: by level alone */
  loadModel?: (() => Promise<VoiceActivity | Problem>) | null;
}

/** It falls silent for what may be somebody's voice; where no speech begins within so many frames it was not. */
const HINT_FRAMES = 8;
/** and its voice may have covered the beginning of a word for so long, ms */
export const COVERED_MS = 480;
/** speech that seemed the assistant's own may turn out to be somebody's: it is looked at again after so many frames */
const ASK_AGAIN_FRAMES = 3;

/** From the microphone, or a recording in its place, to utterances. Ends with the source or the signal; never throws. */
export async function* listen(options: EarsOptions, signal: AbortSignal): AsyncIterable<EarsEvent> {
  const attentive = options.attention ?? (() => attention());
  let endpointer: Endpointer | null = null;
  let keyWasDown = false;
  /** speech that may still be the assistant's own voice */
  let begun: { startMs: number; frames: number } | null = null;
  /** frames since somebody was taken to begin over its own voice */
  let hinted: number | null = null;
  /** why there is no microphone, as it was told */
  let lost = '';
  const interruption = options.selfHearing && new Interruption(options.selfHearing);
  const unheard = options.selfHearing?.problem;
  if (unheard) yield { type: 'problem', sentence: unheard };
  for await (const event of options.source.open(signal)) {
    if (event.type === 'listening') {
      lost = '';
      yield event;
    } else if (event.type === 'remark') yield { type: 'problem', sentence: event.sentence };
    else if (event.type === 'lost') {
      yield* report(endpointer?.close() ?? [], options, attentive());
      // each further try may fail as the one before
      if (event.sentence !== lost) yield { type: 'problem', sentence: `${event.sentence} I will try again.` };
      lost = event.sentence;
    } else {
      if (!endpointer) {
        const { model, problem } = await load(options);
        if (problem) yield { type: 'problem', sentence: problem };
        endpointer = endpointerFor(options, model);
      }
      const down = keyDown(attentive(), event.startMs + FRAME_MS);
      if (keyWasDown && !down) yield* report(endpointer.close(), options, attentive());
      if (!keyWasDown && down) endpointer.open();
      keyWasDown = down;
      const pcm = options.selfHearing?.frame(event.pcm, event.startMs) ?? event.pcm;
      const events = await endpointer.push(pcm, event.startMs);
      for (const e of events)
        if (e.type === 'speech') {
          // told already
          begun = hinted === null ? { startMs: e.startMs, frames: 0 } : null;
          hinted = null;
        }
      if (hinted !== null && ++hinted > HINT_FRAMES) {
        hinted = null;
        yield { type: 'own-voice', utterance: hint(endpointer, event.startMs + FRAME_MS) };
      } else if (
        interruption?.begins(event.pcm, event.startMs, endpointer) &&
        hinted === null &&
        !endpointer.core.inSpeech
      ) {
        hinted = 0;
        yield { type: 'speech', startMs: event.startMs };
      }
      if (begun && events.some((e) => e.type === 'utterance')) begun = null;
      if (
        begun &&
        begun.frames++ % ASK_AGAIN_FRAMES === 0 &&
        !options.selfHearing?.isOwn(event.startMs + FRAME_MS)
      ) {
        yield { type: 'speech', startMs: begun.startMs };
        begun = null;
      }
      yield* report(events, options, attentive());
    }
  }
  yield* report(endpointer?.close() ?? [], options, attentive());
}

/** What no speech came of: a short word may lie in it, most of it under its own voice. */
function hint(endpointer: Endpointer, endMs: number): Utterance {
  const pcm = endpointer.since(endMs - HINT_FRAMES * FRAME_MS - COVERED_MS);
  return {
    pcm,
    startMs: endMs - (1000 * pcm.length) / SAMPLE_RATE_HZ,
    endMs,
    speechEndMs: endMs,
    reason: 'silence',
  };
}

function endpointerFor(options: EarsOptions, model: VoiceActivity | null): Endpointer {
  return new Endpointer({
    model,
    ...(options.settings ? { settings: options.settings } : {}),
    ...(options.isComplete ? { isComplete: options.isComplete } : {}),
    ...(options.onLull ? { onLull: options.onLull } : {}),
    ...(options.onSound ? { onSound: options.onSound } : {}),
  });
}

function keyDown(state: Attention, nowMs: number): boolean {
  return state.mode === 'push-to-talk' && keyIsDown(state, nowMs);
}

async function load(options: EarsOptions): Promise<{ model: VoiceActivity | null; problem: string | null }> {
  if (options.loadModel === null) return { model: null, problem: null };
  const model = await (options.loadModel ?? loadSilero)();
  return isProblem(model) ? { model: null, problem: model.problem } : { model, problem: null };
}

function* report(events: EndpointEvent[], options: EarsOptions, state: Attention): Iterable<EarsEvent> {
  for (const event of events) {
    if (event.type === 'speech') continue;
    const { utterance } = event;
    const whose = options.selfHearing?.judge(utterance) ?? 'clear';
    if (whose === 'own-voice') {
      yield { type: 'own-voice', utterance };
      continue;
    }
    const how = hears(state, { ...utterance, endMs: utterance.speechEndMs });
    yield { type: 'utterance', utterance, hears: how, overVoice: whose === 'over-voice' };
  }
}
