import { joined } from '../../wav.js';

/** Pieces of sound that are worked on at once: three models take turns, and each begins with an empty cache. */
const AT_ONCE = 4;
/** Where speech may have ended somebody waits: fewer then, for the next so many pieces. */
const SOONER = 2;
const SOONER_FOR = 8;

/** Sound that comes in small pieces and is given on several at once. */
export class Together {
  private waiting: Float32Array[] = [];
  private hurried = 0;

  constructor(private readonly give: (pcm: Float32Array) => void) {}

  push(pcm: Float32Array): void {
    this.waiting.push(pcm);
    if (this.waiting.length >= (this.hurried-- > 0 ? SOONER : AT_ONCE)) this.flush();
  }

  /** Gives on what is waiting. */
  flush(): void {
    const pcm = joined(this.waiting);
    this.waiting = [];
    if (pcm.length > 0) this.give(pcm);
  }

  /** Speech may have ended: what comes next is waited for. */
  hurry(): void {
    this.flush();
    this.hurried = SOONER_FOR;
  }
}
