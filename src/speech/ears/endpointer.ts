import { joined } from '../wav.js';
import {
  EndpointCore,
  type EndpointDecision,
  type EndpointSettings,
  type EndReason,
} from './endpoint-core.js';
import { FRAME_MS } from './frames.js';
import type { VoiceActivity } from './silero.js';

/** One stretch of speech, mono 16 kHz, with a little room before and after. */
export interface Utterance {
  readonly pcm: Float32Array;
  /** on the clock of the frames, ms */
  readonly startMs: number;
  readonly endMs: number;
  /** when the last frame with speech ended: the start of every delay that the user feels */
  readonly speechEndMs: number;
  readonly reason: EndReason;
}

export type EndpointEvent = { type: 'speech'; startMs: number } | { type: 'utterance'; utterance: Utterance };

export interface EndpointerOptions {
  /** null: by level alone */
  model: VoiceActivity | null;
  settings?: { [K in keyof EndpointSettings]?: EndpointSettings[K] };
  /**
   * Whether what was said so far is a whole command, so that it may end after a short pause. Awaited before the next
   * frame is taken, so that a recording gives the same utterances at any speed.
   */
  isComplete?(partial: SoFar): boolean | Promise<boolean>;
  /** Speech may have ended: a chance to get ready. Awaited too; it decides nothing. */
  onLull?(partial: SoFar): void | Promise<void>;
  /** The sound of an utterance, piece after piece while it comes; `startMs` is that of the utterance. */
  onSound?(piece: { pcm: Float32Array; startMs: number }): void;
}

/** An utterance so far. */
export interface SoFar {
  pcm: Float32Array;
  startMs: number;
  /** when the last frame with speech ended */
  speechEndMs: number;
}

/** the model wakes with what was just before, so that it knows the room */
const WAKE_FRAMES = 4;
/** A minute of a running tap makes the model deaf to the voice after it: without speech it is woken afresh after so long */
const FRESH_FRAMES = Math.round(8_000 / FRAME_MS);
/** but not where speech may be beginning */
const NO_SPEECH = 0.2;
/** quiet kept after the last speech frame; more would only be more to decode */
const TAIL_MS = 250;
/** below this hums and rumble hide no speech: they are not counted in the level. Hertz */
const HIGH_PASS_HZ = 120;

interface Kept {
  pcm: Float32Array;
  startMs: number;
}

/** Frames in, utterances out. */
export class Endpointer {
  readonly core: EndpointCore;
  private readonly kept: Kept[] = [];
  private firstKept = 0;
  private pushed = 0;
  private asleep = true;
  /** frames that the model heard since it was woken */
  private sinceWake = 0;
  /** the utterance whose sound is told as it comes: its first frame, and the first that was not told yet */
  private told: { from: number; next: number } | null = null;
  private readonly level = new LevelMeter();
  /** how likely the last frame holds speech; 0 where the model was not asked */
  voice = 0;
  /** its level above the room's floor, dB */
  aboveDb = 0;
  /** frames the model was asked about: for measuring its share of the work */
  modelFrames = 0;

  constructor(private readonly options: EndpointerOptions) {
    this.core = new EndpointCore(options.settings);
  }

  /** Takes one frame of 512 samples; `startMs` on the caller's monotonic clock. */
  async push(pcm: Float32Array, startMs: number): Promise<EndpointEvent[]> {
    this.kept.push({ pcm, startMs });
    this.pushed++;
    const levelDb = this.level.db(pcm);
    const speech = await this.ask(pcm, levelDb);
    this.voice = speech ?? 0;
    this.aboveDb = levelDb - this.core.floor.db;
    const decisions = this.core.push(levelDb, speech, this.options.model !== null);
    const events: EndpointEvent[] = [];
    for (const decision of decisions) if (decision.type === 'start') this.begun(decision.fromFrame);
    this.tell();
    for (const decision of decisions) events.push(...(await this.act(decision)));
    this.forget();
    return events;
  }

  /** The push-to-talk key went down: an utterance begins now whatever is heard. */
  open(): void {
    const decision = this.core.force();
    if (decision?.type === 'start') this.begun(decision.fromFrame);
  }

  /** The source ended or the key was let go: what is open ends now. */
  close(): EndpointEvent[] {
    const decision = this.core.close();
    return decision?.type === 'end' ? [this.utterance(decision)] : [];
  }

  /** What came of late, as far as it is kept. */
  since(ms: number): Float32Array {
    return joined(this.kept.filter(({ startMs }) => startMs >= ms).map(({ pcm }) => pcm));
  }

  private begun(frame: number): void {
    this.told = { from: frame, next: frame };
  }

  private tell(): void {
    const { told } = this;
    if (!told || this.pushed <= told.next) return;
    const pcm = this.join(told.next, this.pushed - 1);
    told.next = this.pushed;
    this.options.onSound?.({ pcm, startMs: this.at(told.from).startMs });
  }

  private async ask(pcm: Float32Array, levelDb: number): Promise<number | null> {
    const { model } = this.options;
    if (!model || !this.core.wantsModel(levelDb)) {
      this.asleep = true;
      return null;
    }
    const stale = this.sinceWake >= FRESH_FRAMES && this.voice < NO_SPEECH && !this.core.inSpeech;
    if (this.asleep || stale) {
      model.reset();
      for (const { pcm: before } of this.kept.slice(-1 - WAKE_FRAMES, -1)) await model.probability(before);
      this.asleep = false;
      this.sinceWake = 0;
    }
    this.sinceWake++;
    this.modelFrames++;
    return model.probability(pcm);
  }

  private async act(decision: EndpointDecision): Promise<EndpointEvent[]> {
    if (decision.type === 'start') return [{ type: 'speech', startMs: this.at(decision.fromFrame).startMs }];
    if (decision.type === 'end') return [this.utterance(decision)];
    const partial: SoFar = {
      pcm: this.join(decision.fromFrame, decision.toFrame),
      startMs: this.at(decision.fromFrame).startMs,
      speechEndMs: this.at(decision.speechEndFrame).startMs + FRAME_MS,
    };
    if (decision.type === 'lull') {
      await this.options.onLull?.(partial);
      return [];
    }
    const complete = await this.options.isComplete?.(partial);
    const end = complete ? this.core.complete() : null;
    return end?.type === 'end' ? [this.utterance(end)] : [];
  }

  private utterance(end: EndpointDecision & { type: 'end' }): EndpointEvent {
    this.told = null;
    const toFrame = Math.min(end.toFrame, end.speechEndFrame + Math.round(TAIL_MS / FRAME_MS));
    return {
      type: 'utterance',
      utterance: {
        pcm: this.join(end.fromFrame, toFrame),
        startMs: this.at(end.fromFrame).startMs,
        endMs: this.at(toFrame).startMs + FRAME_MS,
        speechEndMs: this.at(end.speechEndFrame).startMs + FRAME_MS,
        reason: end.reason,
      },
    };
  }

  private at(frame: number): Kept {
    const kept = this.kept[Math.max(0, frame - this.firstKept)];
    if (!kept) throw new Error(`frame ${frame} is no longer kept`);
    return kept;
  }

  private join(fromFrame: number, toFrame: number): Float32Array {
    const frames = this.kept.slice(Math.max(0, fromFrame - this.firstKept), toFrame + 1 - this.firstKept);
    return joined(frames.map(({ pcm }) => pcm));
  }

  private forget(): void {
    if (this.core.inSpeech) return;
    const keep = Math.ceil(1000 / FRAME_MS);
    const extra = this.kept.length - keep;
    if (extra <= 0) return;
    this.kept.splice(0, extra);
    this.firstKept = this.pushed - this.kept.length;
  }
}

/** The level of a frame above the rumble, dB of full scale. */
export class LevelMeter {
  private previousIn = 0;
  private previousOut = 0;

  db(pcm: Float32Array): number {
    const keep = 1 / (1 + (2 * Math.PI * HIGH_PASS_HZ) / 16_000);
    let { previousIn, previousOut } = this;
    let sum = 0;
    for (const sample of pcm) {
      previousOut = keep * (previousOut + sample - previousIn);
      previousIn = sample;
      sum += previousOut * previousOut;
    }
    this.previousIn = previousIn;
    this.previousOut = previousOut;
    return 10 * Math.log10(sum / pcm.length + 1e-10);
  }
}
