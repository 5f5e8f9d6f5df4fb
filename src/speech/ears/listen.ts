import { isProblem, type Problem } from '../wav.js';
import { type Attention, attention, type Hears, hears, keyIsDown } from './attention.js';
import type { EndpointSettings } from './endpoint-core.js';
import { type EndpointEvent, Endpointer, type Utterance } from './endpointer.js';
import { FRAME_MS, type FrameSource } from './frames.js';
import type { SelfHearing } from './self-hearing.js';
import { loadSilero, type VoiceActivity } from './silero.js';

export type EarsEvent =
  | { type: 'listening'; recorder: string }
  /** one clear sentence; the ears go on */
  | { type: 'problem'; sentence: string }
  /** somebody begins to speak */
  | { type: 'speech'; startMs: number }
  /** what was said, and what of it counts */
  | { type: 'utterance'; utterance: Utterance; hears: Hears };

export interface EarsOptions {
  source: FrameSource;
  /** asked anew at every frame, so that a change of mode or a key counts at once; always listening when not given */
  attention?: () => Attention;
  /** tell it what the mouth plays; without it the assistant may hear itself */
  selfHearing?: SelfHearing;
  /** whether what was said so far is a whole command: it may then end after a shorter pause */
  isComplete?(partial: { pcm: Float32Array; startMs: number }): boolean | Promise<boolean>;
  /** speech may have ended: a chance to get ready; it decides nothing */
  onLull?(partial: { pcm: Float32Array }): void | Promise<void>;
  settings?: Partial<EndpointSettings>;
  /** the voice-activity model, loaded when the first frame comes; Silero's when not given; null: by level alone */
  loadModel?: (() => Promise<VoiceActivity | Problem>) | null;
}

/** From the microphone, or a recording in its place, to utterances. Ends with the source or the signal; never throws. */
export async function* listen(options: EarsOptions, signal: AbortSignal): AsyncIterable<EarsEvent> {
  const attentive = options.attention ?? (() => attention());
  let endpointer: Endpointer | null = null;
  let keyWasDown = false;
  for await (const event of options.source.open(signal)) {
    if (event.type === 'listening') yield event;
    else if (event.type === 'silent') yield { type: 'problem', sentence: event.sentence };
    else if (event.type === 'lost') {
      yield* report(endpointer?.close() ?? [], options, attentive());
      yield { type: 'problem', sentence: `${event.sentence} I will try again.` };
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
      yield* report(await endpointer.push(pcm, event.startMs), options, attentive());
    }
  }
  yield* report(endpointer?.close() ?? [], options, attentive());
}

function endpointerFor(options: EarsOptions, model: VoiceActivity | null): Endpointer {
  return new Endpointer({
    model,
    ...(options.settings ? { settings: options.settings } : {}),
    ...(options.isComplete ? { isComplete: options.isComplete } : {}),
    ...(options.onLull ? { onLull: options.onLull } : {}),
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
    if (event.type === 'speech') {
      yield event;
      continue;
    }
    const { utterance } = event;
    const mayDo = options.selfHearing?.judge(utterance) ?? 'all';
    if (mayDo === 'own-voice') continue;
    const how =
      mayDo === 'stop-words' ? 'stop-words' : hears(state, { ...utterance, endMs: utterance.speechEndMs });
    yield { type: 'utterance', utterance, hears: how };
  }
}
