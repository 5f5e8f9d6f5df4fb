/** So many things in a burst, refilled evenly: what comes faster is refused. */
export class Budget {
  #left: number;
  #atMs: number;
  constructor(
    private readonly burst: number,
    private readonly perSecond: number,
    private readonly nowMs: () => number,
  ) {
    this.#left = burst;
    this.#atMs = nowMs();
  }
  /** true: there was enough for one more */
  take(): boolean {
    const nowMs = this.nowMs();
    this.#left = Math.min(this.burst, this.#left + ((nowMs - this.#atMs) / 1000) * this.perSecond);
    this.#atMs = nowMs;
    if (this.#left < 1) return false;
    this.#left -= 1;
    return true;
  }
}
