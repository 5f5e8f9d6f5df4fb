import type { VoiceActivity } from '../ears/silero.js';
import { type Span, speechSpan, VOICE_FRAME } from './acoustics/speech-span.js';
import type { Reader, Reading, SphinxModels } from './hmm/sphinx.js';

/**
 * Sound that is still coming, cut to the voice in it and read while it comes. What is made of it depends on the sound alone,
 * not on the pieces it came in.
 */
export class Ongoing {
  private sound = new Float32Array(32_000);
  private length = 0;
  /** probability of speech, by whole frames */
  private readonly speech: number[] = [];
  private reader: Reader | null = null;
  private readFrom = 0;

  constructor(
    private readonly activity: VoiceActivity | null,
    private readonly hmm: SphinxModels,
  ) {
    activity?.reset();
  }

  async push(pcm: Float32Array): Promise<void> {
    if (this.length + pcm.length > this.sound.length) {
      const more = new Float32Array(2 * (this.length + pcm.length));
      more.set(this.sound.subarray(0, this.length));
      this.sound = more;
    }
    this.sound.set(pcm, this.length);
    this.length += pcm.length;
    if (!this.activity) return;
    for (let at = this.speech.length * VOICE_FRAME; at + VOICE_FRAME <= this.length; at += VOICE_FRAME)
      this.speech.push(await this.activity.probability(this.sound.subarray(at, at + VOICE_FRAME)));
  }

  /** Reads what came; `push` alone leaves it, for whoever has everything already. */
  read(): void {
    const span = this.voice(this.length);
    if (this.activity && span) this.readUpTo(span);
  }

  /** All that came, or its first samples. */
  all(samples = this.length): Float32Array {
    return this.sound.subarray(0, Math.min(samples, this.length));
  }

  /** Where the voice is; all of it where no voice is found. */
  span(samples = this.length): Span {
    const length = Math.min(samples, this.length);
    return this.voice(length) ?? { from: 0, to: length };
  }

  guess(): string {
    return this.reader?.current ? this.reader.guess() : '';
  }

  /** The best whole sentence in this part. What comes after cannot be read with it: it is read anew then. */
  reading(span: Span): Reading | null {
    this.readUpTo(span);
    return this.reader?.end() ?? null;
  }

  private voice(length: number): Span | null {
    return speechSpan(this.all(length), this.speech.slice(0, Math.floor(length / VOICE_FRAME)));
  }

  private readUpTo({ from, to }: Span): void {
    if (!this.reader?.current || this.readFrom !== from || this.reader.length > to - from) {
      this.reader = this.hmm.begin();
      this.readFrom = from;
    }
    this.reader?.push(this.sound.subarray(from + this.reader.length, to));
  }
}
