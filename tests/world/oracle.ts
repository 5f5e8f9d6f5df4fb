/**
 * What really happens at the sink, in a page, written apart from the assistant: what the film went through and what
 * stands in which vessel. Times in s, volumes in ml. Chemistry: common practice.
 */
export const baths = ['prebath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'] as const;
export type Bath = (typeof baths)[number] | 'water';
/** A bottle by its number. */
export type Place = number | 'jug' | 'tap';
type Mix = Partial<Record<Bath, number>>;

const total = (mix: Mix): number => Object.values(mix).reduce((sum, ml) => sum + ml, 0);
/** More than a splash of anything else. */
const foul = (mix: Mix, bath: Bath): boolean => total(mix) - (mix[bath] ?? 0) > 1;

export class Oracle {
  readonly bottles = new Map<number, Mix>(baths.map((b, i) => [i + 1, { [b]: 600 }]));
  readonly jugs = new Map<Bath, Mix>();
  tank: Mix = {};
  inTank: Bath | null = null;
  film = { developedS: 0, stopped: false, bleached: false, fixed: false, lost: false };
  /** clings to the film; null: plain water did its work */
  carry: Bath | null = null;
  #stayS = 0;

  /** Time passes, and what is in the tank works. */
  pass(seconds: number) {
    const { film } = this;
    const bath = this.inTank;
    if (bath === null) return;
    this.#stayS += seconds;
    const picture = film.developedS >= 15;
    if (bath === 'developer') {
      // bleached silver develops again, over the whole picture
      if (film.bleached) film.lost = true;
      else if (!film.fixed) film.developedS += seconds;
    } else if (bath === 'stop bath') film.stopped ||= picture;
    else if (bath === 'bleach') {
      if (!picture) film.lost = true;
      else if (this.#stayS >= 15 && !film.fixed) film.bleached = true;
    } else if (bath === 'fixer') {
      if (!picture) film.lost = true;
      else if (this.#stayS >= 15) film.fixed = true;
    }
    if (bath !== 'water') this.carry = bath;
    else if (this.#stayS >= (this.carry === 'developer' ? 45 : 10)) this.carry = null;
  }
  #vessel(bath: Bath, from: Place): Mix {
    if (from === 'tap') return { water: 500 };
    return (from === 'jug' ? this.jugs.get(bath) : this.bottles.get(from)) ?? {};
  }
  pourIn(bath: Bath, from: Place) {
    const held = this.#vessel(bath, from);
    const share = Math.min(1, 500 / Math.max(1, total(held)));
    for (const [b, ml] of Object.entries(held) as [Bath, number][]) {
      this.tank[b] = (this.tank[b] ?? 0) + ml * share;
      held[b] = ml * (1 - share);
    }
    if (from === 'jug') this.jugs.delete(bath);
    this.inTank = bath;
    this.#stayS = 0;
    this.pass(0.01);
  }
  drain(to: number | 'jug' | 'sink') {
    const bath = this.inTank ?? 'water';
    const into =
      to === 'jug' ? (this.jugs.get(bath) ?? {}) : to === 'sink' ? {} : (this.bottles.get(to) ?? {});
    for (const [b, ml] of Object.entries(this.tank) as [Bath, number][]) into[b] = (into[b] ?? 0) + ml;
    if (to === 'jug') this.jugs.set(bath, into);
    this.tank = {};
    this.inTank = null;
  }
  refill(number: number, bath: Bath) {
    this.bottles.set(number, { [bath]: 600 });
  }
  volume(number: number): number {
    return total(this.bottles.get(number) ?? {});
  }

  /** Why a pour into the tank cannot be put right; null: it can. */
  ruins(bath: Bath, from: Place): string | null {
    const { film } = this;
    if (!film.lost && film.developedS < 15 && (bath === 'bleach' || bath === 'fixer'))
      return 'no picture yet, and this takes it';
    if (bath === 'developer' && !film.lost && !film.fixed) {
      if (film.bleached) return 'it would all develop';
      if (film.developedS >= 170) return 'developed already';
    }
    const clings = this.inTank === 'water' || this.inTank === null ? this.carry : this.inTank;
    if (!film.lost && clings === 'developer' && bath === 'bleach') return 'developer in the bleach';
    if (bath === 'developer' && (clings === 'bleach' || clings === 'fixer'))
      return `${clings} in the developer`;
    if (from !== 'tap' && foul(this.#vessel(bath, from), bath)) return 'the bath is spoilt';
    return null;
  }
  /** Why a return cannot be put right: it meets another bath in the bottle. */
  spoils(number: number): string | null {
    const there = this.bottles.get(number) ?? {};
    const bath = this.inTank;
    return bath !== null && total(there) > 1 && foul(there, bath) ? 'two baths in one bottle' : null;
  }
}
