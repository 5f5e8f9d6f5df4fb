import type { VoiceActivity } from '../ears/silero.js';
import { CLEANED_AT_ONCE, type Cleaning, type Denoiser } from './acoustics/denoiser.js';
import { type Span, speechSpan, VOICE_FRAME } from './acoustics/speech-span.js';
import type { Reader, Reading, SphinxModels } from './hmm/sphinx.js';

/**
 * How much of the sound is replaced by what the denoiser makes of it: it takes a little of the voice along, and what is left of
 * the noise hides that. The words are looked for in one mixture; where the voice is, and how well words fit, is asked of a cleaner one. Chosen on the
 * 310 strangers' commands.
 */
const HEARD_CLEAN = 0.5;
const FITTED_CLEAN = 0.85;

/**
 * Sound that is still coming, freed of noise, cut to the voice in it and read while it comes. What is made of it depends on the sound
 * alone, not on the pieces it came in.
 */
export class Ongoing {
  /** as it came; the part that is clean by now is heard and cleaner */
  private came = new Float32Array(32_000);
  private heard = new Float32Array(32_000);
  private cleaner = new Float32Array(32_000);
  private length = 0;
  private taken = 0;
  private clean = 0;
  private readonly cleaning: Cleaning;
  /** probability of speech, by whole frames */
  private readonly speech: number[] = [];
  private reader: Reader | null = null;
  private readFrom = 0;

  constructor(
    denoiser: Denoiser,
    private readonly activity: VoiceActivity | null,
    private readonly hmm: SphinxModels,
  ) {
    activity?.reset();
    this.cleaning = denoiser.begin();
  }

  async push(pcm: Float32Array): Promise<void> {
    this.makeRoom(this.length + pcm.length);
    this.came.set(pcm, this.length);
    this.length += pcm.length;
    while (this.taken + CLEANED_AT_ONCE <= this.length) {
      const from = this.taken;
      this.taken += CLEANED_AT_ONCE;
      const clean = await this.cleaning.push(this.came.subarray(from, this.taken));
      this.mix(clean);
      this.clean += clean.length;
    }
    if (!this.activity) return;
    for (let at = this.speech.length * VOICE_FRAME; at + VOICE_FRAME <= this.clean; at += VOICE_FRAME)
      this.speech.push(await this.activity.probability(this.cleaner.subarray(at, at + VOICE_FRAME)));
  }

  /** Reads what came; `push` alone leaves it, for whoever has everything already. */
  read(): void {
    const span = this.voice(this.clean);
    if (this.activity && span) this.readUpTo(span);
  }

  /** All that came, or its first samples, as it came. */
  all(samples = this.length): Float32Array {
    return this.came.subarray(0, Math.min(samples, this.length));
  }

  /** Where the voice is; all of it where no voice is found. Makes the last moment of the sound ready too. */
  async span(samples = this.length): Promise<Span> {
    const length = Math.min(samples, this.length);
    if (length > this.clean) this.mix(await this.cleaning.rest(this.came.subarray(this.taken, this.length)));
    return this.voice(length) ?? { from: 0, to: length };
  }

  /** The sound to find words in. */
  part({ from, to }: Span): Float32Array {
    return this.heard.slice(from, to);
  }

  /** The sound to ask how well words fit. */
  cleanerPart({ from, to }: Span): Float32Array {
    return this.cleaner.slice(from, to);
  }

  guess(): string {
    return this.reader?.current ? this.reader.guess() : '';
  }

  /** The best whole sentence in this part. What comes after cannot be read with it: it is read anew then. */
  reading(span: Span): Reading | null {
    this.readUpTo(span);
    return this.reader?.end() ?? null;
  }

  private mix(clean: Float32Array): void {
    clean.forEach((c, i) => {
      const at = this.clean + i;
      const came = this.came[at] as number;
      this.heard[at] = came + HEARD_CLEAN * (c - came);
      this.cleaner[at] = came + FITTED_CLEAN * (c - came);
    });
  }

  private voice(length: number): Span | null {
    return speechSpan(
      this.cleaner.subarray(0, length),
      this.speech.slice(0, Math.floor(length / VOICE_FRAME)),
    );
  }

  private readUpTo({ from, to }: Span): void {
    if (!this.reader?.current || this.readFrom !== from || this.reader.length > to - from) {
      this.reader = this.hmm.begin();
      this.readFrom = from;
    }
    this.reader?.push(this.heard.subarray(from + this.reader.length, to));
  }

  private makeRoom(samples: number): void {
    if (samples <= this.came.length) return;
    const wider = (old: Float32Array): Float32Array<ArrayBuffer> => {
      const more = new Float32Array(2 * samples);
      more.set(old);
      return more;
    };
    this.came = wider(this.came);
    this.heard = wider(this.heard);
    this.cleaner = wider(this.cleaner);
  }
}
