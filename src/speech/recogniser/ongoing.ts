import type { VoiceActivity } from '../ears/silero.js';
import { CLEANED_AT_MOST, CLEANED_AT_ONCE, type Cleaning, type Denoiser } from './acoustics/denoiser.js';
import {
  levelDb,
  type Span,
  sameSpan,
  speechSpan,
  VOICE_FRAME,
  type VoiceFrame,
} from './acoustics/speech-span.js';
import type { Reader, Reading, SphinxModels } from './hmm/sphinx.js';
import type { DecoderSettings } from './settings.js';

/** One voice model listens to the sound as it came, one to the cleaner mixture. */
export type TwoListeners = readonly [came: VoiceActivity, cleaner: VoiceActivity];

/**
 * Sound that is still coming, freed of noise, cut to the voice in it and read while it comes. What is made of it depends on the sound
 * alone, not on the pieces it came in.
 */
export class Ongoing {
  private came = new Float32Array(32_000);
  private clean = new Float32Array(32_000);
  private length = 0;
  private taken = 0;
  /** samples that are clean by now */
  private cleaned = 0;
  private readonly cleaning: Cleaning;
  /**
   * The whole frames, with the probability of speech that both agree on: what the denoiser leaves of a noise can sound like a
   * voice, and in noise a voice like none.
   */
  private readonly frames: VoiceFrame[] = [];
  private reader: Reader | null = null;
  private readFrom = 0;
  /** the last whole sentence that was read, and where */
  private whole: { span: Span; reading: Reading | null } | null = null;

  constructor(
    denoiser: Denoiser,
    private readonly listeners: TwoListeners | null,
    private readonly hmm: SphinxModels,
    private readonly settings: () => DecoderSettings,
  ) {
    for (const listener of listeners ?? []) listener.reset();
    this.cleaning = denoiser.begin();
  }

  async push(pcm: Float32Array): Promise<void> {
    this.makeRoom(this.length + pcm.length);
    this.came.set(pcm, this.length);
    this.length += pcm.length;
    while (this.taken + CLEANED_AT_ONCE <= this.length) {
      const from = this.taken;
      const waiting = Math.min(this.length - from, CLEANED_AT_MOST);
      this.taken += waiting - (waiting % CLEANED_AT_ONCE);
      const clean = await this.cleaning.push(this.came.subarray(from, this.taken));
      this.clean.set(clean, this.cleaned);
      this.cleaned += clean.length;
    }
    if (!this.listeners) return;
    const [listener, cleanerListener] = this.listeners;
    for (let at = this.frames.length * VOICE_FRAME; at + VOICE_FRAME <= this.cleaned; at += VOICE_FRAME) {
      const came = await listener.probability(this.came.subarray(at, at + VOICE_FRAME));
      const cleaner = await cleanerListener.probability(
        this.mixed(this.settings().clean.fit, at, at + VOICE_FRAME),
      );
      const speech = Math.sqrt(came * cleaner);
      this.frames.push({ speech, cameDb: levelDb(this.came, at), cleanDb: levelDb(this.clean, at) });
    }
  }

  /** Where the voice is so far; null while none is found. */
  begun(): Span | null {
    return this.listeners && this.voice(this.cleaned);
  }

  /** All that came, or its first samples, as it came. */
  all(samples = this.length): Float32Array {
    return this.came.subarray(0, Math.min(samples, this.length));
  }

  /** Where the voice is; all of it where no voice is found. Makes the last moment of the sound ready too. */
  async span(samples = this.length): Promise<Span> {
    const length = Math.min(samples, this.length);
    if (length > this.cleaned)
      this.clean.set(await this.cleaning.rest(this.came.subarray(this.taken, this.length)), this.cleaned);
    return this.voice(length) ?? { from: 0, to: length };
  }

  /** The sound to find words in. */
  part({ from, to }: Span): Float32Array {
    return this.mixed(this.settings().clean.network, from, to);
  }

  /** The sound to ask how well words fit. */
  cleanerPart({ from, to }: Span): Float32Array {
    return this.mixed(this.settings().clean.fit, from, to);
  }

  /** Whether quiet came after this voice: should no more be said, this is what will be asked for. */
  isOver({ to }: Span): boolean {
    return to < this.cleaned;
  }

  guess(): string {
    if (this.reader?.current) return this.reader.guess();
    return this.whole?.reading?.words ?? '';
  }

  /** The best whole sentence in this part. What comes after cannot be read with it: it is read anew then. */
  reading(span: Span): Reading | null {
    if (!this.whole || !sameSpan(this.whole.span, span)) {
      this.read(span);
      this.whole = { span, reading: this.reader?.end() ?? null };
    }
    return this.whole.reading;
  }

  /** A part of the sound, of which this share is replaced by the clean one. */
  private mixed(share: number, from: number, to: number): Float32Array {
    const out = this.came.slice(from, to);
    for (let i = 0; i < out.length; i++)
      out[i] = (out[i] as number) + share * ((this.clean[from + i] as number) - (out[i] as number));
    return out;
  }

  private voice(length: number): Span | null {
    return speechSpan(length, this.frames.slice(0, Math.floor(length / VOICE_FRAME)), this.settings().span);
  }

  /** Reads this part of what came; `push` alone leaves it, for whoever has everything already. */
  read({ from, to }: Span): void {
    if (!this.reader?.current || this.readFrom !== from || this.reader.length > to - from) {
      this.reader = this.hmm.begin();
      this.readFrom = from;
    }
    this.reader?.push(this.mixed(this.settings().clean.hmm, from + (this.reader?.length ?? 0), to));
  }

  private makeRoom(samples: number): void {
    if (samples <= this.came.length) return;
    const wider = (old: Float32Array): Float32Array<ArrayBuffer> => {
      const more = new Float32Array(2 * samples);
      more.set(old);
      return more;
    };
    this.came = wider(this.came);
    this.clean = wider(this.clean);
  }
}
