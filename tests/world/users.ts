import { goAhead, heldBack, Sink } from '../app/untidy-days/play.js';
import { type Bath, baths, Oracle, type Place } from './oracle.js';

/**
 * `honest` does what it is told and says all of it; `lazy` leaves out every line that another one makes up for, and
 * has its slips; `misheard` says it right, is taken for something else, and puts that right.
 */
export const kinds = ['honest', 'lazy', 'misheard'] as const;
export type Kind = (typeof kinds)[number];

const numberOf = (bath: Bath): Place => (bath === 'water' ? 'tap' : baths.indexOf(bath) + 1);
const placeOf = (from: Place): string => (typeof from === 'number' ? `bottle ${from}` : `the ${from}`);

/** One film from loading to its end, with what was found wrong on the way. */
export class Episode {
  /** without the warming desk: what it forecasts is no part of this */
  readonly sink = new Sink('ecn2-ferricyanide', false);
  readonly oracle = new Oracle();
  readonly faults: string[] = [];
  readonly log: string[] = [];
  utterances = 0;
  cleared = 0;
  refused = 0;
  slips = 0;
  ended: 'hung' | 'lost' | null = null;
  #slippery: boolean;

  constructor(
    readonly kind: Kind,
    readonly random: () => number,
  ) {
    this.#slippery = kind !== 'honest';
  }

  #chance = (p: number): boolean => this.#slippery && this.random() < p;
  #any = <T>(list: readonly T[]): T => list[Math.floor(this.random() * list.length)] as T;

  #say(line: string): string {
    const waits = /^\+(\d+)s$/.exec(line);
    const text = this.sink.say(line).join(' / ');
    this.oracle.pass(waits ? Number(waits[1]) : 1);
    if (!waits) this.utterances++;
    this.log.push(`> ${line}`, `    ${text}`);
    this.#balance();
    return text;
  }
  #fault(what: string) {
    this.faults.push(`${this.kind}: ${what}\n${this.log.slice(-14).join('\n')}`);
  }
  /** What was brought, less what is gone, is what stands there. */
  #balance() {
    const { bottles, tank, jugs, account: a } = this.sink.state.world;
    const held = [...Object.values(bottles).map((b) => b.contents), tank, ...Object.values(jugs)];
    const heldMl = held.reduce((sum, c) => sum + c.volumeMl, 0);
    const out = heldMl - (a.broughtMl + a.foundMl - a.spilledMl - a.drainedMl - a.lostMl);
    if (Math.abs(out) > 1) this.#fault(`the volumes are ${out} ml out`);
  }

  /** Announces a pour as it is understood; true: it may go in. */
  #announce(bath: Bath, from: Place, instructed: boolean): boolean {
    let text = this.#say(`pouring the ${bath} from ${placeOf(from)}`);
    const judge = () => {
      if (!goAhead.test(text)) return false;
      this.cleared++;
      const why = this.oracle.ruins(bath, from);
      if (why !== null) this.#fault(`cleared ${bath} from ${placeOf(from)}: ${why}`);
      return true;
    };
    if (judge()) return true;
    this.refused++;
    if (instructed && /warning: no\b/i.test(text)) this.#fault(`told to pour ${bath}, then refused`);
    if (instructed && this.kind === 'honest') this.#fault(`told to pour ${bath}, then held back`);
    if (instructed && /empty|too little|only \d+/i.test(text) && typeof from === 'number') {
      this.#say('cancel');
      if (this.oracle.jugs.has(bath) && this.#announce(bath, 'jug', false)) return this.#from('jug');
      // a fresh one is made up
      this.oracle.refill(from, bath);
      this.#say(`bottle ${from} holds 600 ml of ${bath}`);
      text = this.#say(`pouring the ${bath} from ${placeOf(from)}`);
      if (judge()) return true;
    }
    if (instructed && heldBack.test(text)) {
      text = this.#say('confirm');
      if (judge()) return true;
    }
    this.#say('cancel');
    return false;
  }
  #source: Place = 'tap';
  #from(place: Place): true {
    this.#source = place;
    return true;
  }

  #in(bath: Bath, stayS: number | null, announced: boolean) {
    const from = this.#source;
    this.oracle.pourIn(bath, from);
    if (this.kind === 'misheard' && this.#chance(0.15)) {
      this.slips++;
      const other = this.#any([...baths, 'water'] as const);
      this.#say(`${other} in`);
      if (other !== bath) this.#say(`that was the ${bath}`);
    } else if (!(announced && this.kind === 'lazy' && this.#chance(0.15))) this.#say(`${bath} in`);
    else this.slips++;
    if (stayS !== null) this.#say(`+${stayS}s`);
    else for (let i = 0; i < 30 && !/call: [^/]*(drain|pour it away)[^/]* now/i.test(this.#say('+10s')); i++);
  }
  #out(bath: Bath) {
    const home = numberOf(bath);
    if (typeof home !== 'number') this.oracle.drain('sink');
    else if (this.#chance(0.08)) {
      this.slips++;
      // a wrong bottle: never without leave
      const wrong = 1 + Math.floor(this.random() * 6);
      const text = this.#say(`${bath} back into bottle ${wrong}`);
      const why = this.oracle.spoils(wrong);
      if (goAhead.test(text) && why !== null) this.#fault(`cleared ${bath} to bottle ${wrong}: ${why}`);
      if (goAhead.test(text)) this.oracle.drain(wrong);
      else {
        this.#say('cancel');
        this.oracle.drain('jug');
      }
    } else if (this.kind === 'lazy' && this.#chance(0.1)) this.oracle.drain('jug');
    else {
      const text = this.#say(`${bath} back into bottle ${home}`);
      if (!goAhead.test(text) && !/tank (is )?empty|back in/i.test(text)) {
        if (this.kind === 'honest') this.#fault(`the return of the ${bath} is held back`);
        this.#say('confirm');
      }
      this.oracle.drain(home);
    }
    this.#say('tank empty');
  }

  /** Some bath, announced, and poured when it is cleared. */
  #slip() {
    this.slips++;
    const bath = this.#any(baths);
    const from = this.#chance(0.8) ? numberOf(bath) : 1 + Math.floor(this.random() * 6);
    // now and then one goes in without a word before
    const announced = !this.#chance(0.1);
    if (!announced || this.#announce(bath, from, false)) {
      this.#from(announced ? from : numberOf(bath));
      this.#in(bath, 5 + Math.floor(this.random() * 60), announced);
      this.#out(bath);
    }
  }

  /** One step as the assistant has it; false: it knows none that leads on. */
  #step(): boolean {
    const now = this.#say('where are we');
    if (/start a run|begin the run/i.test(now)) return /run started/i.test(this.#say('start a run'));
    if (/say next step/i.test(now)) return this.#say('next step') !== '';
    if (/(load|film is loaded)/i.test(now)) return this.#say('film is loaded') !== '';
    if (/picture is (lost|gone)|nothing more can be done|\blost\b/i.test(now)) {
      this.ended = 'lost';
      return true;
    }
    if (/\bhang\b/i.test(now)) {
      if (/not yet/i.test(this.#say('film is hung'))) return false;
      this.ended = 'hung';
      return true;
    }
    if (/warm|temperature/i.test(now) && !/next: /i.test(now)) return this.#say('next step') !== '';
    const due =
      /(?:next: |first|pour )[^.]*?(prebath|developer|stop bath|bleach|fixer|final rinse|water)/i.exec(now);
    const inside = /(prebath|developer|stop bath|bleach|fixer|final rinse|water) is in/i.exec(now);
    if (inside || /\bdrain\b/i.test(now)) {
      this.#out(this.oracle.inTank ?? 'water');
      return true;
    }
    const bath = (
      /wash|rinse the film|backing/i.test(now) && /water/i.test(now) ? 'water' : due?.[1]?.toLowerCase()
    ) as Bath | undefined;
    if (bath === undefined) return false;
    const from = numberOf(bath);
    this.#from(from);
    const announced = from !== 'tap' && !(this.kind === 'lazy' && this.#chance(0.3));
    if (announced && !this.#announce(bath, from, true)) return true;
    const rest = /rest of the developer, (?:(\d+) minutes? ?)?(?:(\d+) seconds)?/i.exec(now);
    this.#in(
      bath,
      this.#chance(0.08)
        ? 5 + Math.floor(this.random() * 90)
        : rest
          ? Number(rest[1] ?? 0) * 60 + Number(rest[2] ?? 0)
          : bath === 'water' && !/wash after/i.test(now)
            ? 50
            : null,
      announced,
    );
    this.#out(bath);
    return true;
  }

  /** To the end of the film: with slips at first, then by the book. */
  play(): this {
    this.#say('start a run');
    this.#say('developer is at 41.1');
    this.#say('film is loaded');
    const untidy = this.#slippery ? 2 + Math.floor(this.random() * 14) : 0;
    for (let i = 0; i < untidy && this.ended === null; i++) {
      if (this.#chance(0.25)) this.#slip();
      else if (!this.#step()) this.#fault('no way on');
    }
    this.#slippery = false;
    for (let i = 0; i < 60 && this.ended === null; i++)
      if (!this.#step()) {
        this.#fault('no way on');
        break;
      }
    if (this.ended === null) this.#fault('no end in 60 steps');
    if (this.ended === 'hung' && this.kind === 'honest')
      for (const n of this.oracle.bottles.keys()) {
        const known = this.sink.state.world.bottles[n]?.contents.volumeMl ?? 0;
        if (Math.abs(known - this.oracle.volume(n)) > 1)
          this.#fault(`bottle ${n} holds ${this.oracle.volume(n)} ml, and is taken to hold ${known}`);
      }
    return this;
  }
}
