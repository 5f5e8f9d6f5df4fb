/**
 * What really happens at the sink, in a page, written apart from the assistant: what the film went through, what stands
 * in which vessel with what got into it, and how much film each bath has seen. Times in s, volumes in ml, temperatures
 * in °C. Chemistry: common practice.
 */
export type Bath = 'prebath' | 'developer' | 'stop bath' | 'bleach' | 'fixer' | 'final rinse' | 'water';
/** A bottle by its number. */
export type Place = number | 'jug' | 'tap';

/** What an experienced hand knows of a process. */
export interface Process {
  sheet: string;
  /** as they stand on the bench, bottle 1 first */
  baths: readonly Exclude<Bath, 'water'>[];
  /** of no use in this process, and in the bottle after them all the same */
  stranger: Exclude<Bath, 'water'> | null;
  picture: 'dye' | 'silver';
  developer: { aimC: number; withinC: number; wantedS: number; timesPer10C: number };
  /** how long the film stays in the other baths, those of a minute and more, s */
  staysS: Partial<Record<Bath, number>>;
  /** an acid iron bleach stops the developer; ferricyanide is stained by it */
  bleachAfterDeveloper: boolean;
  /** rolls of 35 mm that a litre of developer does: so many surely, more than so many never */
  rollsPerL: { surely: number; atMost: number } | null;
  /** charts of times by temperature are printed for it between these */
  chartC: readonly [number, number] | null;
}

export const processes: readonly Process[] = [
  {
    sheet: 'ecn2-ferricyanide',
    baths: ['prebath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'],
    stranger: null,
    picture: 'dye',
    developer: { aimC: 41.1, withinC: 0.1, wantedS: 180, timesPer10C: 2.5 },
    staysS: { bleach: 180, fixer: 120 },
    bleachAfterDeveloper: false,
    rollsPerL: { surely: 4, atMost: 8 },
    chartC: null,
  },
  {
    sheet: 'c41',
    baths: ['developer', 'bleach', 'fixer', 'final rinse'],
    stranger: 'prebath',
    picture: 'dye',
    developer: { aimC: 37.8, withinC: 0.15, wantedS: 195, timesPer10C: 2.5 },
    staysS: { bleach: 390, fixer: 390 },
    bleachAfterDeveloper: true,
    rollsPerL: { surely: 6, atMost: 12 },
    chartC: null,
  },
  {
    sheet: 'black-and-white',
    baths: ['developer', 'stop bath', 'fixer', 'final rinse'],
    stranger: 'bleach',
    picture: 'silver',
    developer: { aimC: 20, withinC: 0.5, wantedS: 405, timesPer10C: 2.2 },
    staysS: { fixer: 420 },
    bleachAfterDeveloper: true,
    rollsPerL: { surely: 2.5, atMost: 6 },
    chartC: [18, 24],
  },
];

interface Mix {
  ml: Partial<Record<Bath, number>>;
  /** what clung to film that went into it, and spoils it */
  taints: Set<Bath>;
  /** rolls of film that it has done */
  rolls: number;
  /** fresh solution that was added to it, ml */
  freshMl: number;
}
export const tankMl = 500;
const fullMl = 600;
/** a bottle takes so much; what is more runs over, ml */
const brimMl = 1000;
const mixOf = (bath: Bath, ml: number): Mix => ({
  ml: { [bath]: ml },
  taints: new Set(),
  rolls: 0,
  freshMl: 0,
});
const latent = () => ({ developedS: 0, stopped: false, bleached: false, fixed: false, lost: false });
const none = (): Mix => ({ ml: {}, taints: new Set(), rolls: 0, freshMl: 0 });
const total = (mix: Mix): number => Object.values(mix.ml).reduce((sum, ml) => sum + ml, 0);
const add = (into: Mix, from: Mix) => {
  // work done is spread over what it was done in
  const [a, b] = [total(into), total(from)];
  into.rolls = a + b <= 0 ? 0 : a === 0 ? from.rolls : into.rolls + from.rolls;
  for (const [bath, ml] of Object.entries(from.ml) as [Bath, number][])
    into.ml[bath] = (into.ml[bath] ?? 0) + ml;
  for (const t of from.taints) into.taints.add(t);
};
/** Takes so much of it out. */
const take = (from: Mix, ml: number): Mix => {
  const share = Math.min(1, ml / Math.max(1e-9, total(from)));
  const taken: Mix = { ml: {}, taints: new Set(from.taints), rolls: from.rolls * share, freshMl: 0 };
  for (const [bath, held] of Object.entries(from.ml) as [Bath, number][]) {
    taken.ml[bath] = held * share;
    from.ml[bath] = held * (1 - share);
  }
  from.rolls *= 1 - share;
  // nothing is left to be spoilt
  if (total(from) < 1e-6) from.taints.clear();
  return taken;
};

export class Oracle {
  readonly bottles: Map<number, Mix>;
  readonly jugs = new Map<Bath, Mix>();
  tank: Mix = none();
  inTank: Bath | null = null;
  /** the developer's temperature as it was told last, and when; null: never */
  toldC: { tempC: number; atS: number } | null = null;
  nowS = 0;
  film = latent();
  /** clings to the film; null: plain water did its work */
  carry: Bath | null = null;
  rolls = 1;
  /** all that was said to be spilled, ml */
  spiltMl = 0;
  /** what did not fit the bottle that it was poured into, ml */
  ranOverMl = 0;
  /** every stay of this film in a bath, s */
  stays: { bath: Bath; seconds: number }[] = [];
  #stayS = 0;
  #inARow: { bath: Bath | null; seconds: number } = { bath: null, seconds: 0 };
  /** the developer at work, as it is in the tank */
  #tankC: number | null = null;
  /** baths whose work on this film is counted */
  #worked = new Set<Bath>();

  /** every bath on the bench, bottle 1 first */
  readonly bench: readonly Exclude<Bath, 'water'>[];

  constructor(readonly process: Process) {
    this.bench = [...process.baths, ...(process.stranger === null ? [] : [process.stranger])];
    this.bottles = new Map(this.bench.map((b, i) => [i + 1, mixOf(b, fullMl)]));
  }
  /** Another film goes into a dry tank. */
  load(rolls: number) {
    this.film = latent();
    this.carry = null;
    this.rolls = rolls;
    this.stays = [];
    this.#inARow = { bath: null, seconds: 0 };
    this.#worked.clear();
    this.tank = none();
    this.inTank = null;
  }

  /** Seconds at the aim that a second at this temperature does as much as. */
  #speed(): number {
    const { aimC, timesPer10C } = this.process.developer;
    const tempC = this.#tankC ?? aimC;
    return timesPer10C ** ((tempC - aimC) / 10);
  }
  read(tempC: number) {
    this.toldC = { tempC, atS: this.nowS };
  }
  /** It was read in the tank: the same developer goes back into its bottle. */
  readInTank(tempC: number) {
    this.read(tempC);
    this.#tankC = tempC;
  }

  /** Time passes, and what is in the tank works. */
  pass(seconds: number) {
    this.nowS += seconds;
    const { film } = this;
    const bath = this.inTank;
    if (bath === null) return;
    this.#stayS += seconds;
    if (bath !== 'water') {
      const before = this.#inARow.bath === bath ? this.#inARow.seconds : 0;
      this.#inARow = { bath, seconds: before + seconds };
    }
    const picture = film.developedS >= 15;
    if (bath === 'developer') {
      // bleached silver develops again, over the whole picture
      if (film.bleached && !film.fixed) film.lost = true;
      else if (!film.fixed) film.developedS += seconds * this.#speed();
    } else if (bath === 'stop bath') film.stopped ||= picture;
    else if (bath === 'bleach') {
      if (!picture || this.process.picture === 'silver') film.lost = true;
      else if (this.#hasDone(bath) && !film.bleached) {
        // what silver the fixer had left is halide again, for another fixer
        film.bleached = true;
        film.fixed = false;
      }
    } else if (bath === 'fixer') {
      if (!picture) film.lost = true;
      else if (this.#hasDone(bath)) film.fixed = true;
    }
    if (bath !== 'water') this.carry = bath;
    else if (this.#stayS >= (this.carry === 'developer' ? 45 : 10)) this.carry = null;
  }
  /** Bleach and fixer are given for about twice as long as the film takes to clear; in parts, with nothing but water between. */
  #hasDone(bath: Bath): boolean {
    return this.#inARow.seconds >= Math.max(15, (this.process.staysS[bath] ?? 0) * 0.45);
  }
  #vessel(bath: Bath, from: Place): Mix {
    if (from === 'tap') return mixOf('water', tankMl);
    return (from === 'jug' ? this.jugs.get(bath) : this.bottles.get(from)) ?? none();
  }
  pourIn(bath: Bath, from: Place) {
    const taken = take(this.#vessel(bath, from), tankMl);
    const clings = this.carry;
    if (clings !== null && this.traceSpoils(clings, bath)) taken.taints.add(clings);
    if (!this.#worked.has(bath)) {
      this.#worked.add(bath);
      taken.rolls += this.rolls;
    }
    add(this.tank, taken);
    if (from === 'jug' && total(this.#vessel(bath, from)) <= 1) this.jugs.delete(bath);
    this.inTank = bath;
    this.#stayS = 0;
    this.#tankC = bath === 'developer' ? (this.toldC?.tempC ?? null) : null;
    this.pass(0.01);
  }
  drain(to: number | 'jug' | 'sink') {
    const bath = this.inTank ?? 'water';
    if (this.inTank !== null) this.stays.push({ bath, seconds: this.#stayS });
    const into = to === 'jug' ? (this.jugs.get(bath) ?? none()) : to === 'sink' ? none() : this.bottle(to);
    add(into, this.tank);
    if (typeof to === 'number') this.#runsOver(into);
    if (to === 'jug') this.jugs.set(bath, into);
    this.tank = none();
    this.inTank = null;
  }
  bottle(number: number): Mix {
    const known = this.bottles.get(number) ?? none();
    this.bottles.set(number, known);
    return known;
  }
  refill(number: number, bath: Bath) {
    this.bottles.set(number, mixOf(bath, fullMl));
    if (bath === 'developer') this.toldC = null;
  }
  /** Straight from one vessel into another; water and what is new come from the tap. */
  pourBetween(bath: Bath, from: Place, to: number, ml: number) {
    const into = this.bottle(to);
    const taken = from === 'tap' ? mixOf(bath, ml) : take(this.#vessel(bath, from), ml);
    if (from === 'tap' && (into.ml[bath] ?? 0) > 0) into.freshMl += ml;
    add(into, taken);
    this.#runsOver(into);
  }
  #runsOver(bottle: Mix) {
    this.ranOverMl += total(take(bottle, Math.max(0, total(bottle) - brimMl)));
  }
  /** Some of it is gone, from here. */
  spill(bath: Bath, from: Place | null, ml: number) {
    this.spiltMl += ml;
    if (from !== null) take(this.#vessel(bath, from), ml);
  }
  /** A splash of one bath got into a bottle. */
  splash(bath: Bath, number: number) {
    this.bottle(number).taints.add(bath);
  }
  volume(number: number): number {
    return total(this.bottle(number));
  }
  /** Share of other baths in a bottle that is called so, 0 to 1. */
  foreign(mix: Mix, bath: Bath): number {
    return total(mix) <= 1 ? 0 : (total(mix) - (mix.ml[bath] ?? 0)) / total(mix);
  }

  /** A splash of this on the film spoils that bath for good. */
  traceSpoils(clings: Bath, bath: Bath): boolean {
    if (bath === 'developer') return clings === 'bleach' || clings === 'fixer';
    if (this.process.bleachAfterDeveloper) return false;
    // ferricyanide bleach: stained by developer, and no acid may meet it
    return (bath === 'bleach' && clings === 'developer') || (bath === 'stop bath' && clings === 'bleach');
  }
  /** More than a splash of another bath is in it, or a splash that is enough. */
  spoilt(bath: Bath, from: Place): boolean {
    const mix = this.#vessel(bath, from);
    return from !== 'tap' && (total(mix) - (mix.ml[bath] ?? 0) > 1 || mix.taints.size > 0);
  }
  /** What the film still lacks to be a picture that lasts; null: it hangs with good reason. */
  lacks(): string | null {
    const { lost, developedS, bleached, fixed } = this.film;
    if (lost) return 'a picture';
    if (developedS < 15) return 'the developer';
    if (this.process.picture === 'dye' && !bleached) return 'the bleach';
    return fixed ? null : 'the fixer';
  }
  /** Why a pour into the tank cannot be put right; null: it can. */
  ruins(bath: Bath, from: Place): string | null {
    const { film, process } = this;
    const silver = process.picture === 'silver';
    if (!film.lost && film.developedS < 15 && (bath === 'bleach' || bath === 'fixer'))
      return 'no picture yet, and this takes it';
    if (!film.lost && bath === 'bleach' && silver) return 'the silver is the picture';
    if (bath === 'developer' && !film.lost && !film.fixed) {
      if (film.bleached) return 'it would all develop';
      if (film.developedS >= process.developer.wantedS * 0.95) return 'developed already';
    }
    const clings = this.inTank === 'water' || this.inTank === null ? this.carry : this.inTank;
    if (!film.lost && clings !== null && clings !== bath && this.traceSpoils(clings, bath))
      return `${clings} in the ${bath}`;
    if (this.spoilt(bath, from)) return 'the bath is spoilt';
    return null;
  }
  /** Why a return cannot be put right: it meets another bath in the bottle. */
  spoils(number: number): string | null {
    const there = this.bottle(number);
    const bath = this.inTank;
    if (bath === null || total(there) <= 1) return null;
    // what came out of it with the same in it does it no more harm
    const others = (Object.keys(there.ml) as Bath[]).filter((b) => b !== bath && (there.ml[b] ?? 0) > 1);
    if (others.some((b) => (this.tank.ml[b] ?? 0) <= 0.5)) return 'two baths in one bottle';
    const taints = [...this.tank.taints].filter((t) => !there.taints.has(t));
    return taints.length > 0 ? `${taints} in it, and back to the others` : null;
  }
  /** It is the bottle's own bath, with what clung to the film in it. */
  spoilsByTrace(): boolean {
    const others = Object.entries(this.tank.ml).filter(([b, ml]) => b !== this.inTank && ml > 1);
    return others.length === 0 && this.tank.taints.size > 0;
  }
  /** How far the developer is off what the process allows and a thermometer can be out by, °C; 0: it is not, or nobody read it. */
  developerOffC(): number {
    const { aimC, withinC } = this.process.developer;
    const off = Math.abs((this.toldC?.tempC ?? aimC) - aimC);
    return off > withinC + 0.3 + 1e-6 ? off : 0;
  }
  /** What the film has had of the time that this bath works by itself, s. */
  get stayS(): number {
    return this.#stayS;
  }
  /** How long it should stay in this bath from now, s; null: nothing to hold it against. */
  wantsS(bath: Bath): number | null {
    const { developer, staysS } = this.process;
    // a second stay gives what the first one left
    if (bath !== 'developer') return this.stays.some((s) => s.bath === bath) ? null : (staysS[bath] ?? null);
    return Math.max(5, developer.wantedS - this.film.developedS);
  }
  /** Nobody has read the developer for longer than a reading is good for. */
  unread(): 'never' | 'old' | null {
    return this.toldC === null ? 'never' : this.nowS - this.toldC.atS > 15 * 60 + 5 ? 'old' : null;
  }
  /** How this bath's bottle stands to what its litre does; 1: it has done all that it surely does, 2: more than any does. */
  worn(bath: Bath, from: Place): 0 | 1 | 2 {
    const { rollsPerL } = this.process;
    if (bath !== 'developer' || rollsPerL === null || typeof from !== 'number') return 0;
    const mix = this.bottle(from);
    const perL = total(mix) <= 0 ? 0 : mix.rolls / (total(mix) / 1000);
    return perL > rollsPerL.atMost ? 2 : perL >= rollsPerL.surely ? 1 : 0;
  }
}
