import { FRAME_MS } from './frames.js';
import { NoiseFloor } from './noise-floor.js';

export type EndReason =
  /** quiet for the full hang-over */
  | 'silence'
  /** a short pause, and what was said is a whole command */
  | 'complete'
  | 'too-long'
  /** the source ended, or the push-to-talk key was let go */
  | 'closed';

export type EndpointDecision =
  /** frames are numbered from 0 in the order pushed; `fromFrame` includes the pre-roll */
  | { type: 'start'; fromFrame: number }
  /** speech may have ended: time to guess what it was; nothing is decided */
  | { type: 'lull'; fromFrame: number; toFrame: number; speechEndFrame: number }
  /** speech paused: ask whether it is complete, and call `complete` if so */
  | { type: 'pause'; fromFrame: number; toFrame: number; speechEndFrame: number }
  | { type: 'end'; fromFrame: number; toFrame: number; speechEndFrame: number; reason: EndReason };

export interface EndpointSettings {
  /** sound kept before the first frame of speech, ms */
  preRollMs: number;
  /** quiet after which a guess at what was said may begin, ms */
  lullMs: number;
  /** quiet after which a complete command ends, and after which what may be one is asked about once more, ms */
  shortHangMs: number;
  secondHangMs: number;
  /** quiet after which anything ends, ms */
  longHangMs: number;
  maxMs: number;
  /** at least so much speech within a window half as long again; clicks are shorter, ms */
  minSpeechMs: number;
  /** the model's line between speech and not: to begin, and to go on */
  beginAbove: number;
  goOnAbove: number;
}

export const ENDPOINT_DEFAULTS: EndpointSettings = {
  preRollMs: 320,
  lullMs: 64,
  shortHangMs: 200,
  secondHangMs: 400,
  longHangMs: 640,
  maxMs: 12_000,
  minSpeechMs: 96,
  beginAbove: 0.5,
  goOnAbove: 0.35,
};

/** The model is asked about frames this far above the floor, dB; in a loud room speech stands out less. */
const ASK_ABOVE_DB = { quietRoom: 3, loudRoom: 1 };
const LOUD_ROOM_DB = -50;
/** once asked, it is asked on for so long: it needs to hear what came before */
const KEEP_ASKING_FRAMES = Math.round(500 / FRAME_MS);
/** quieter than this above the floor is no speech, whatever the model still remembers */
const SPEECH_ABOVE_DB = 1;
/** without a model, by level alone */
const LEVEL_ONLY_DB = { begin: 9, goOn: 5 };

interface Open {
  fromFrame: number;
  lastSpeechFrame: number;
  lullTold: boolean;
  /** how often it was asked whether it is complete, since the last voice */
  asked: number;
}

/** Frames' levels and speech probabilities in, utterances' limits out. It knows no sound, no model and no clock. */
export class EndpointCore {
  readonly floor = new NoiseFloor();
  private readonly settings: EndpointSettings;
  private frame = -1;
  private keepAsking = 0;
  private recent: boolean[] = [];
  private open: Open | null = null;
  private earliest = 0;

  constructor(settings: Partial<EndpointSettings> = {}) {
    this.settings = { ...ENDPOINT_DEFAULTS, ...settings };
  }

  get inSpeech(): boolean {
    return this.open !== null;
  }

  /** Whether this frame is worth the model's time. */
  wantsModel(levelDb: number): boolean {
    return this.open !== null || this.keepAsking > 0 || this.standsOut(levelDb);
  }

  /** One frame: its level in dB of full scale, and the model's word, or null when it was not asked. */
  push(levelDb: number, speech: number | null, hasModel = true): EndpointDecision[] {
    this.frame++;
    const aboveDb = levelDb - this.floor.db;
    const voiced = hasModel ? this.voicedByModel(aboveDb, speech) : this.voicedByLevel(aboveDb);
    this.keepAsking = this.standsOut(levelDb) ? KEEP_ASKING_FRAMES : Math.max(0, this.keepAsking - 1);
    this.floor.update(levelDb, hasModel ? speech : null);
    return this.open ? this.during(this.open, voiced) : this.before(voiced);
  }

  /** The answer to a `pause`: what was said is a whole command. */
  complete(): EndpointDecision | null {
    return this.open && this.open.lastSpeechFrame < this.frame ? this.end(this.open, 'complete') : null;
  }

  /** Ends what is open now. */
  close(): EndpointDecision | null {
    return this.open ? this.end(this.open, 'closed') : null;
  }

  /** Begins an utterance whatever is heard, as on a push-to-talk key. */
  force(): EndpointDecision | null {
    if (this.open) return null;
    return this.begin(this.frame);
  }

  private standsOut(levelDb: number): boolean {
    const aboveDb = this.floor.db > LOUD_ROOM_DB ? ASK_ABOVE_DB.loudRoom : ASK_ABOVE_DB.quietRoom;
    return levelDb > this.floor.db + aboveDb;
  }

  private voicedByModel(aboveDb: number, speech: number | null): boolean {
    const line = this.open ? this.settings.goOnAbove : this.settings.beginAbove;
    return speech !== null && speech >= line && aboveDb > SPEECH_ABOVE_DB;
  }

  private voicedByLevel(aboveDb: number): boolean {
    return aboveDb > (this.open ? LEVEL_ONLY_DB.goOn : LEVEL_ONLY_DB.begin);
  }

  private before(voiced: boolean): EndpointDecision[] {
    const need = Math.ceil(this.settings.minSpeechMs / FRAME_MS);
    this.recent.push(voiced);
    if (this.recent.length > Math.ceil(need * 1.5)) this.recent.shift();
    if (this.recent.filter(Boolean).length < need) return [];
    const first = this.frame - (this.recent.length - 1) + this.recent.indexOf(true);
    return [this.begin(first)];
  }

  private begin(firstFrame: number): EndpointDecision {
    this.recent = [];
    const fromFrame = Math.max(this.earliest, firstFrame - Math.round(this.settings.preRollMs / FRAME_MS));
    this.open = { fromFrame, lastSpeechFrame: this.frame, lullTold: false, asked: 0 };
    return { type: 'start', fromFrame };
  }

  private during(open: Open, voiced: boolean): EndpointDecision[] {
    if (voiced) {
      open.lastSpeechFrame = this.frame;
      open.lullTold = false;
      open.asked = 0;
    }
    const quietMs = (this.frame - open.lastSpeechFrame) * FRAME_MS;
    if ((this.frame - open.fromFrame) * FRAME_MS >= this.settings.maxMs) return [this.end(open, 'too-long')];
    if (quietMs >= this.settings.longHangMs) return [this.end(open, 'silence')];
    const { shortHangMs, secondHangMs } = this.settings;
    if (quietMs >= ([shortHangMs, secondHangMs][open.asked] ?? Number.POSITIVE_INFINITY)) {
      open.asked++;
      return [{ type: 'pause', ...this.soFar(open) }];
    }
    if (quietMs >= this.settings.lullMs && !open.lullTold) {
      open.lullTold = true;
      return [{ type: 'lull', ...this.soFar(open) }];
    }
    return [];
  }

  private end(open: Open, reason: EndReason): EndpointDecision {
    this.open = null;
    this.recent = [];
    this.earliest = this.frame + 1;
    return { type: 'end', ...this.soFar(open), reason };
  }

  private soFar({ fromFrame, lastSpeechFrame }: Open) {
    return { fromFrame, toFrame: this.frame, speechEndFrame: lastSpeechFrame };
  }
}
