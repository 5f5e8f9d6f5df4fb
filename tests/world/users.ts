import { goAhead, heldBack, Sink } from '../app/untidy-days/play.js';
import { type Bath, Oracle, type Place, type Process, tankMl } from './oracle.js';

/**
 * `honest` does what it is told and says all of it; `lazy` leaves out every line that another one makes up for, has its
 * slips and pours against warnings; `misheard` says it right, is taken for something else, and puts that right.
 */
export const kinds = ['honest', 'lazy', 'misheard'] as const;
export type Kind = (typeof kinds)[number];

/** so much of a day is shown with each fault */
const shownLines = Number(process.env.TANKSIDE_ORACLE_LINES ?? 16);
const placeOf = (from: Place): string => (typeof from === 'number' ? `bottle ${from}` : `the ${from}`);
/** What was answered to the words, and not what was called meanwhile. */
const answerIn = (text: string): string =>
  text
    .split(' / ')
    .filter((said) => !said.startsWith('call:'))
    .join(' / ');
/** A bottle is told to hold something else, or to be no good. */
const warnsOfBottle =
  /do not use|spoil|destroy|ruin|has .* in it|went into it|mixed|discard|not know what that does|use nothing/i;
const tellsOfWork = /exhausted|spent|done \d+ films|no more films|0 more/i;

/** A day of some films with the same bottles, with what was found wrong on the way. */
export class Day {
  readonly sink: Sink;
  readonly oracle: Oracle;
  readonly faults: string[] = [];
  readonly log: string[] = [];
  utterances = 0;
  cleared = 0;
  refused = 0;
  slips = 0;
  overridden = 0;
  films = 0;
  hung = 0;
  lost = 0;
  ended: 'hung' | 'lost' | null = null;
  #slippery: boolean;
  /** the desk that forecasts temperatures takes most of the time: without it nobody speaks of them */
  readonly #warming: boolean;
  /** how long this tank takes to run empty, s */
  readonly #drainS: number;
  /** time that was asked for beyond what the bath wants, s */
  #addedS = 0;

  constructor(
    readonly process: Process,
    readonly kind: Kind,
    readonly random: () => number,
  ) {
    this.#warming = random() < (kind === 'honest' ? 1 / 3 : 1 / 2);
    this.#drainS = 11 + Math.floor(random() * 7);
    this.sink = new Sink(process.sheet, this.#warming);
    this.oracle = new Oracle(process);
    this.#slippery = kind !== 'honest';
  }

  #chance = (p: number): boolean => this.#slippery && this.random() < p;
  #any = <T>(list: readonly T[]): T => list[Math.floor(this.random() * list.length)] as T;
  #home = (bath: Bath): Place => (bath === 'water' ? 'tap' : this.oracle.bench.indexOf(bath) + 1);

  /** Who does not say from where takes what fills the tank. */
  #handy(bath: Bath): Place {
    const home = this.#home(bath);
    const short = typeof home === 'number' && this.oracle.volume(home) < tankMl - 1;
    return short && this.oracle.jugs.has(bath) ? 'jug' : home;
  }

  #say(line: string): string {
    if (!/^\+\d+s$/.test(line)) this.utterances++;
    return this.#noted(line, () => this.sink.say(line));
  }
  /** Waits for a call, or so long, s. */
  #waitFor(call: RegExp, mostS: number): string {
    return this.#noted(`(waits for ${call})`, () => this.sink.waitFor(call, mostS));
  }
  #noted(what: string, does: () => string[]): string {
    const beforeMs = this.sink.nowMs;
    const text = does().join(' / ');
    this.oracle.pass((this.sink.nowMs - beforeMs) / 1000);
    this.log.push(`> ${what}`, `    ${text}`);
    this.#balance();
    return text;
  }
  #fault(what: string) {
    this.faults.push(
      `${this.process.sheet}, ${this.kind}: ${what}\n${this.log.slice(-shownLines).join('\n')}`,
    );
  }
  /** What was brought, less what is gone, is what stands there. */
  #balance() {
    const { bottles, tank, jugs, account: a } = this.sink.state.world;
    const held = [...Object.values(bottles).map((b) => b.contents), tank, ...Object.values(jugs)];
    const heldMl = held.reduce((sum, c) => sum + c.volumeMl, 0);
    const out = heldMl - (a.broughtMl + a.foundMl - a.spilledMl - a.drainedMl - a.lostMl);
    if (Math.abs(out) > 1) this.#fault(`the volumes are ${out} ml out`);
    const { spiltMl, ranOverMl } = this.oracle;
    // who leaves words out has other bottles run over than is believed
    const over = a.spilledMl - spiltMl;
    if (this.kind === 'lazy' ? over < -1 : Math.abs(over - ranOverMl) > 1)
      this.#fault(`${spiltMl} ml were spilled and ${ranOverMl} ran over; ${a.spilledMl} are written down`);
  }

  /** The developer is read: right, off, not at all, or misheard and put right. */
  #readDeveloper() {
    const { aimC } = this.process.developer;
    if (!this.#warming) return;
    const tell = (tempC: number) => this.#say(`developer is at ${tempC.toFixed(1)}`);
    if (this.kind === 'lazy' && this.random() < 0.25) return;
    const off = this.kind !== 'honest' && this.random() < 0.4 ? this.#any([-3, -2, -1, 1, 2]) : 0;
    const tempC = Math.round((aimC + off) * 10) / 10;
    if (this.kind === 'misheard' && this.random() < 0.4) {
      this.slips++;
      tell(Math.round((tempC - this.#any([4, 10, -6])) * 10) / 10);
      const meant = this.#any([`no, I meant ${tempC.toFixed(1)}`, `I said ${tempC.toFixed(1)}`]);
      if (/\? confirm/i.test(this.#say(meant))) this.#say('confirm');
    } else if (/\? confirm/i.test(tell(tempC))) this.#say('confirm');
    this.oracle.read(tempC);
  }

  /** Misheard, asked about, and left at that: nothing is known of how warm it is. */
  #leaveInDoubt() {
    const { aimC } = this.process.developer;
    const oddC = aimC - 13;
    // the first reading of all is believed
    if (!/confirm/i.test(this.#say(`developer is at ${oddC.toFixed(1)}`))) return this.oracle.read(oddC);
    this.slips++;
    if (goAhead.test(this.#say(`pouring the developer from bottle ${this.#home('developer')}`)))
      this.#fault('cleared a developer whose reading was asked about and never confirmed');
    this.#say('cancel');
    this.#say('cancel');
  }
  /** What must have been said when the developer may go in. */
  #aboutTemperature(text: string) {
    const { oracle, process } = this;
    if (!this.#warming) return;
    const off = oracle.developerOffC();
    const unread = oracle.unread();
    const told = oracle.toldC?.tempC ?? process.developer.aimC;
    const chart = process.chartC && told >= process.chartC[0] && told <= process.chartC[1];
    if (
      unread === null &&
      off > 0 &&
      !/cold|hot|degrees off/i.test(text) &&
      !(chart && /minute|second/i.test(text))
    )
      this.#fault(`the developer is ${off.toFixed(1)} degrees off, and is cleared without a word of it`);
    if (unread === null && off >= 1 && !chart && !heldBack.test(text))
      this.#fault(`the developer is ${off.toFixed(1)} degrees off, and goes in without a warning`);
    if (unread !== null && !/read|measured|\bago\b/i.test(text))
      this.#fault(`the developer was ${unread} read, and is cleared without a word of it`);
  }
  #aboutWork(text: string, bath: Bath, from: Place) {
    const worn = this.oracle.worn(bath, from);
    // a bath that is spoilt is not to be used at all
    if (worn === 2 && !this.oracle.spoilt(bath, from) && !tellsOfWork.test(text))
      this.#fault(`the ${bath} is exhausted, and is cleared without a word of it`);
    if (bath === 'developer' && worn === 0 && /exhausted/i.test(text))
      this.#fault(`the ${bath} is called exhausted, and is not`);
  }

  /** Announces a pour as it is understood; true: it may go in. */
  #announce(bath: Bath, from: Place, instructed: boolean): boolean {
    let text = this.#say(`pouring the ${bath} from ${placeOf(from)}`);
    let warned = text;
    let goneAhead = false;
    /** `anyway`: the user takes it on himself. */
    const judge = (anyway = false) => {
      if (!goAhead.test(text)) return false;
      this.cleared++;
      const why = anyway ? null : this.oracle.ruins(bath, from);
      goneAhead = true;
      if (why !== null) this.#fault(`cleared ${bath} from ${placeOf(from)}: ${why}`);
      if (bath === 'developer') this.#aboutTemperature(warned);
      this.#aboutWork(warned, bath, from);
      this.#aboutVolume(warned, from);
      return !this.#calledOff(bath, from, anyway);
    };
    if (judge()) return true;
    if (goAhead.test(text)) return false;
    this.refused++;
    // a yes is no leave for what was refused
    if (/warning: no\b/i.test(text) && this.kind !== 'honest' && this.random() < 0.3) {
      text = this.#say('confirm');
      warned += text;
      if (judge()) return true;
    }
    const spoilt = typeof from === 'number' && this.oracle.spoilt(bath, from);
    if (instructed && /warning: no\b/i.test(text) && !spoilt)
      this.#fault(`told to pour ${bath}, then refused`);
    const expected =
      spoilt ||
      (bath === 'developer' && (this.oracle.developerOffC() > 0 || this.oracle.worn(bath, from) > 0));
    if (instructed && this.kind === 'honest' && !expected)
      this.#fault(`told to pour ${bath}, then held back`);
    if (spoilt && from === this.#home(bath) && !warnsOfBottle.test(warned))
      this.#fault(`${placeOf(from)} is spoilt, and that is not said`);
    if (
      instructed &&
      typeof from === 'number' &&
      (spoilt || /empty|too little|only \d+|exhausted/i.test(text))
    ) {
      this.#say('cancel');
      if (!spoilt && this.oracle.jugs.has(bath) && this.#announce(bath, 'jug', false))
        return this.#from('jug');
      this.#fresh(from, bath);
      text = this.#say(`pouring the ${bath} from ${placeOf(from)}`);
      warned = text;
      if (judge()) return true;
    }
    if (instructed && heldBack.test(text)) {
      text = this.#say('confirm');
      warned += text;
      if (judge()) return true;
    }
    // some pour all the same
    if (!instructed && this.kind === 'lazy' && /override/i.test(text) && this.#chance(0.4)) {
      this.overridden++;
      text = this.#say('override the guard and pour anyway');
      warned += text;
      if (judge(true)) return true;
      // it may be called off after that
      if (!goneAhead) this.#fault(`an override of ${bath} from ${placeOf(from)} is not taken`);
    }
    this.#say('cancel');
    return false;
  }
  /** Between the word that it may go in and the pour: somebody thinks better of it, or finds the bath spoilt. */
  #calledOff(bath: Bath, from: Place, anyway: boolean): boolean {
    if (this.kind === 'honest') return false;
    const what = this.random();
    if (what < 0.04) {
      const text = this.#say(this.#any(['wait', 'not yet', 'cancel']));
      if (!/called off|cancelled/i.test(text)) this.#fault(`the ${bath} is not called off`);
      return true;
    }
    const other = this.#any(['bleach', 'fixer'] as const);
    const splash = what < 0.1 && bath === 'developer' && typeof from === 'number' && !anyway;
    if (!splash || !this.oracle.bench.includes(other) || this.oracle.spoilt(bath, from)) return false;
    this.oracle.splash(other, from);
    const text = this.#say(`some ${other} got into ${placeOf(from)}`);
    if (!/warning: no\b/i.test(text))
      this.#fault(`${other} got into the ${bath} that was cleared, and the pour is not taken back`);
    this.#say('cancel');
    return true;
  }
  /** A bottle that cannot fill the tank is no secret. */
  #aboutVolume(text: string, from: Place) {
    if (typeof from !== 'number' || this.kind === 'lazy' || this.oracle.inTank !== null) return;
    const volumeMl = this.oracle.volume(from);
    if (volumeMl < tankMl - 1 && !/only|too little|less|empty|short|not enough|\bml\b|spoil|ruin/i.test(text))
      this.#fault(`${Math.round(volumeMl)} ml in ${placeOf(from)}, and no word of it`);
  }
  #developedAlike(withinS: number) {
    const really = this.oracle.film.developedS;
    const taken = this.sink.state.world.film.developedS;
    if (!this.oracle.film.lost && Math.abs(really - taken) > withinS + 0.07 * really)
      this.#fault(`developed like ${Math.round(really)} s at the aim, taken for ${Math.round(taken)} s`);
  }
  /** What the film is believed to have been in, and for how long, is what it was in. */
  #history() {
    if (this.kind === 'lazy') return;
    const names: Record<string, Bath> = { stop: 'stop bath', 'final-rinse': 'final rinse' };
    const believed = this.sink.state.world.film.history.map((c) => ({
      bath: names[c.liquid ?? ''] ?? (c.liquid as Bath),
      seconds: c.seconds,
    }));
    const told = (stays: typeof believed) =>
      stays.map((s) => `${s.bath} ${Math.round(s.seconds)} s`).join(', ');
    const { stays } = this.oracle;
    const alike = stays.every((s, i) => {
      const b = believed[i];
      return b !== undefined && b.bath === s.bath && Math.abs(b.seconds - s.seconds) < 5;
    });
    if (!alike || believed.length !== stays.length)
      this.#fault(`the film was in ${told(stays)}; it is taken to have been in ${told(believed)}`);
    this.#developedAlike(8);
  }
  /** The bottle is thrown out, and a fresh bath made up in it. */
  #fresh(number: number, bath: Bath) {
    this.oracle.refill(number, bath);
    if (/confirm/i.test(this.#say(`mark bottle ${number} as discarded`))) this.#say('confirm');
    this.#say(`bottle ${number} holds 600 ml of ${bath}`);
    if (bath === 'developer' && this.random() < 0.6) this.#readDeveloper();
  }
  /** Some of a bath goes on the table: out of its bottle, or nobody can say out of which vessel. */
  #spill(bath: Bath = this.#any(this.process.baths)) {
    const { oracle } = this;
    if (bath === 'water') return;
    const ml = 10 + Math.floor(this.random() * 30);
    const number = this.#home(bath) as number;
    const inTank = oracle.inTank === bath;
    if (oracle.jugs.has(bath) || oracle.spoilt(bath, number) || oracle.volume(number) < ml + 1) return;
    oracle.spill(bath, inTank ? null : number, ml);
    this.#say(`spilled ${ml} ml of ${bath} on the table`);
    this.#say('the spill is cleaned up');
  }
  /** Fresh solution from a jug, as a replenisher; or another bath by mistake. */
  #topUp() {
    const { oracle, process } = this;
    const delicate = process.baths.filter((b) => ['developer', 'bleach', 'fixer'].includes(b));
    const bath = this.#any(delicate);
    const number = this.#home(bath) as number;
    if (oracle.jugs.has(bath) || oracle.inTank !== null || oracle.spoilt(bath, number)) return;
    if (this.kind !== 'honest' && this.random() < 0.6) {
      const other = this.#any(delicate.filter((b) => b !== bath));
      const from = this.#home(other) as number;
      if (oracle.spoilt(other, from) || oracle.volume(from) < 51) return;
      const text = this.#say(`pouring 50 ml of ${other} from bottle ${from} into bottle ${number}`);
      if (goAhead.test(text)) this.#fault(`cleared ${other} into the bottle of the ${bath}`);
      if (!/override/i.test(text) || this.kind !== 'lazy' || this.random() < 0.6) {
        this.#say('cancel');
        return;
      }
      this.overridden++;
      this.#say('override the guard and pour anyway');
      oracle.pourBetween(other, from, number, 50);
      return;
    }
    const text = this.#say(`pouring 60 ml of ${bath} from the jug into bottle ${number}`);
    if (/confirm/i.test(text)) this.#say('confirm');
    oracle.pourBetween(bath, 'tap', number, 60);
  }
  #source: Place = 'tap';
  #from(place: Place): true {
    this.#source = place;
    return true;
  }

  #in(bath: Bath, stayS: number | null, announced: boolean) {
    const { oracle } = this;
    const spoilt = oracle.spoilt(bath, this.#source);
    let wantedS = spoilt ? null : oracle.wantsS(bath);
    const chart = bath === 'developer' && this.process.chartC !== null;
    if (chart && oracle.developerOffC() > 0) wantedS = null;
    oracle.pourIn(bath, this.#source);
    const lateS = announced && (wantedS ?? 0) >= 90 && this.#chance(0.12) ? this.#any([20, 30, 40]) : 0;
    if (lateS > 0) {
      this.slips++;
      this.#say(`+${lateS}s`);
      this.#say(`${bath} went in ${lateS} seconds ago`);
    } else if (this.kind === 'misheard' && this.#chance(0.15)) {
      this.slips++;
      const other = this.#any([...this.oracle.bench, 'water'] as const);
      this.#say(`${other} in`);
      if (other !== bath) this.#say(`that was the ${bath}`);
    } else if (!(announced && this.kind === 'lazy' && this.#chance(0.15))) this.#say(`${bath} in`);
    else {
      this.slips++;
      wantedS = null;
    }
    this.#addedS = 0;
    if (
      bath === 'developer' &&
      this.#warming &&
      this.kind !== 'honest' &&
      this.random() < 0.3 &&
      this.#readTank()
    )
      wantedS = null;
    if (stayS === null && wantedS !== null && wantedS >= 60) {
      if (this.random() < 0.1) {
        const moreS = this.#any([20, 30, 60]);
        if (/added/i.test(this.#say(`add ${moreS} seconds`))) this.#addedS = moreS;
      }
      if (this.random() < 0.1) this.#say(this.#any(['hold on', 'pause']));
      if (this.random() < 0.1) this.#spill(bath);
    }
    if (stayS !== null) this.#say(`+${stayS}s`);
    else {
      this.#waitFor(/call: .*(drain|pour it away).* now/i, 1200);
      if (wantedS !== null) this.#onTime(bath, wantedS + this.#addedS);
    }
  }
  /** The call to drain leaves the time that draining takes, and no more. */
  #onTime(bath: Bath, wantedS: number) {
    const outS = this.oracle.stayS + this.#drainS + 2;
    if (wantedS >= 60 && Math.abs(outS - wantedS) > 11)
      this.#fault(
        `called out of the ${bath} so that it is empty after ${Math.round(outS)} s, and it is to stay ${Math.round(wantedS)} s`,
      );
  }
  /** Read in the tank, and the time changed by what is offered; true: it was. */
  #readTank(): boolean {
    const { aimC } = this.process.developer;
    const tempC = Math.round((aimC + this.#any([-2, -1.5, 0, 1.5])) * 10) / 10;
    this.#say('+15s');
    let text = this.#say(`the developer in the tank is at ${tempC.toFixed(1)}`);
    if (/expected/i.test(text)) text = this.#say('confirm');
    this.oracle.readInTank(tempC);
    if (Math.abs(tempC - aimC) >= 1.5 && !/cold|warm|hot/i.test(text))
      this.#fault(`${tempC} in the tank, and no word of what that does`);
    if (!/confirm/i.test(text)) return false;
    const answer = this.#any(['confirm', 'cancel']);
    this.#say(answer);
    return answer === 'confirm';
  }
  /** Emptied before its time, and the word for the next bath comes when the tank has run empty. */
  #drainEarly(bath: Bath, spoilt: boolean) {
    const answer = this.#say('drain now');
    if (/^question: is the .* in\?/i.test(answer)) return;
    if (/confirm/i.test(answer)) this.#say('confirm');
    const text = this.#waitFor(/call: .*tank empty\?/i, 25);
    // after a spoilt one the film is washed, and nothing waits to go in
    if (bath === 'developer' && !spoilt && !/tank empty\?/i.test(text))
      this.#fault('drained early, and no word when the next bath goes in');
  }
  #out(bath: Bath) {
    const { oracle } = this;
    const home = this.#home(bath);
    const doneS = bath === 'developer' ? oracle.film.developedS : null;
    const spoilt = oracle.tank.taints.size > 0 || oracle.foreign(oracle.tank, bath) > 0.01;
    let text = '';
    const early = bath === 'developer' && oracle.stayS < 100 && oracle.film.developedS < 100;
    if (early && this.#chance(0.6)) this.#drainEarly(bath, spoilt);
    if (typeof home !== 'number' || home === 0) {
      this.#say(`+${this.#drainS}s`);
      oracle.drain('sink');
    } else if (this.#chance(0.18)) {
      this.slips++;
      // a wrong bottle: never without leave
      const wrong = 1 + Math.floor(this.random() * this.oracle.bench.length);
      text = this.#say(`${bath} back into bottle ${wrong}`);
      const why = oracle.spoils(wrong);
      if (goAhead.test(text) && why !== null) this.#fault(`cleared ${bath} to bottle ${wrong}: ${why}`);
      const against =
        !goAhead.test(text) && this.kind === 'lazy' && /override/i.test(text) && this.#chance(0.5);
      if (against) {
        this.overridden++;
        text += this.#say('override the guard and pour anyway');
      }
      if (goAhead.test(text)) {
        this.#say(`+${this.#drainS}s`);
        oracle.drain(wrong);
      } else {
        this.#say('cancel');
        oracle.drain('jug');
      }
    } else if (this.kind === 'lazy' && this.#chance(0.12)) oracle.drain('jug');
    else {
      text = this.#say(`${bath} back into bottle ${home}`);
      const why = oracle.spoils(home);
      if (goAhead.test(text) && why !== null) this.#fault(`cleared ${bath} to bottle ${home}: ${why}`);
      if (!goAhead.test(text) && !/tank (is )?empty|back in/i.test(answerIn(text))) {
        const expected = why !== null || (doneS !== null && oracle.inTank === 'developer');
        if (this.kind === 'honest' && !expected) this.#fault(`the return of the ${bath} is held back`);
        // into its own bottle all the same, with what clung to the film in it
        const taint = why !== null && oracle.spoilsByTrace() && this.kind === 'lazy' && this.random() < 0.6;
        if (taint) {
          text = this.#say('confirm');
          if (/override/i.test(text)) text = this.#say('override the guard and pour anyway');
          if (goAhead.test(text)) {
            this.overridden++;
            this.#say(`+${this.#drainS}s`);
            oracle.drain(home);
            this.#say('tank empty');
            return;
          }
        }
        if (why !== null) {
          this.#throwOut(bath);
          return;
        }
        text += this.#say('confirm');
        if (/yes is not enough/i.test(text)) {
          this.#throwOut(bath);
          return;
        }
      }
      this.#say(`+${this.#drainS}s`);
      oracle.drain(home);
    }
    text += this.#say('tank empty');
    // what a spoilt developer has done is nothing to reckon with
    if (doneS !== null && !spoilt) this.#aboutDevelopment(doneS, text);
    if (doneS !== null) this.#developedAlike(this.kind === 'lazy' ? 20 : 8);
  }
  #throwOut(bath: Bath) {
    this.#say('cancel');
    this.oracle.drain('sink');
    this.#say(`pouring the ${bath} down the drain`);
    this.#say('confirm');
    this.#say('tank empty');
  }
  /** Much too little or too much development is no secret. */
  #aboutDevelopment(doneS: number, said: string) {
    // more was refused, or warned of as it went in
    const text = `${said} ${this.log.slice(-24).join(' ').includes('already developed') ? 'more' : ''}`;
    const wantedS = this.process.developer.wantedS + this.#addedS;
    // time that was added may do no more than make up for the cold
    const share = [wantedS, this.process.developer.wantedS]
      .map((s) => doneS / s - 1)
      .reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
    if (this.kind === 'honest' && Math.abs(share) > 0.12)
      this.#fault(`called out of the developer after ${Math.round(doneS)} s of ${wantedS} s`);
    const told = /less|more|short|long|thin|dense|early|cold|warm|hot|lost|rest|overdue/i.test(text);
    if (Math.abs(share) > 0.25 && doneS >= 15 && !this.oracle.film.lost && !told)
      this.#fault(`developed by ${Math.round(share * 100)} %, and no word of it`);
  }

  /** Some bath, announced, and poured when it is cleared. */
  #slip() {
    this.slips++;
    const delicate = this.oracle.bench.filter((b) => ['developer', 'bleach', 'fixer'].includes(b));
    const bath = this.#any(this.random() < 0.6 ? delicate : this.oracle.bench);
    const from = this.#chance(0.8)
      ? this.#home(bath)
      : 1 + Math.floor(this.random() * this.oracle.bench.length);
    // now and then one goes in without a word before
    const announced = !this.#chance(0.1);
    if (!announced || this.#announce(bath, from, false)) {
      this.#from(announced ? from : this.#handy(bath));
      this.#in(bath, 5 + Math.floor(this.random() * 60), announced);
      this.#out(bath);
    }
  }

  /** Water for a moment, and then what the bath before it would spoil. */
  #splashOfWater() {
    const { oracle } = this;
    const clings = oracle.carry;
    const bath = oracle.bench.find((b) => clings !== null && oracle.traceSpoils(clings, b));
    if (clings === null || bath === undefined || oracle.inTank !== null) return;
    this.slips++;
    this.#from('tap');
    this.#in('water', clings === 'developer' ? 12 : 1, false);
    oracle.drain('sink');
    this.#say('tank empty');
    if (!this.#announce(bath, this.#home(bath), false)) return;
    this.#from(this.#home(bath));
    this.#in(bath, 20, true);
    this.#out(bath);
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
      this.#history();
      const lacks = this.oracle.lacks();
      if (lacks !== null) this.#fault(`told to hang a film that lacks ${lacks}`);
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
    const straightOn =
      this.kind === 'honest' && this.process.bleachAfterDeveloper && this.oracle.carry === 'developer';
    if (bath === 'water' && straightOn) this.#fault('told to wash where the next bath goes straight in');
    if (bath === 'developer' && this.#warming) {
      // somebody is called to the door
      if (this.random() < 0.35) this.#say(`+${1000 + Math.floor(this.random() * 1500)}s`);
      if (this.#chance(0.4)) this.#leaveInDoubt();
    }
    const home = this.#home(bath);
    const announced = home !== 'tap' && !(this.kind === 'lazy' && this.#chance(0.3));
    const from = announced ? home : this.#handy(bath);
    this.#from(from);
    if (announced && !this.#announce(bath, from, true)) return true;
    const rest = /rest of the developer, (?:(\d+) minutes? ?)?(?:(\d+) seconds)?/i.exec(now);
    this.#in(
      bath,
      this.#chance(bath === 'developer' ? 0.25 : 0.08)
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

  /** A film to its end: with slips at first, then by the book. */
  #film() {
    const rolls = 1 + Math.floor(this.random() * 3);
    this.films++;
    this.ended = null;
    this.#slippery = this.kind !== 'honest';
    this.#say('start a run');
    this.oracle.load(rolls);
    this.#readDeveloper();
    this.#say('film is loaded');
    this.#say(`${rolls} ${rolls === 1 ? 'roll' : 'rolls'} of 35 mm film`);
    if (this.random() < 0.3) this.#topUp();
    const untidy = this.#slippery ? 2 + Math.floor(this.random() * 14) : 0;
    for (let i = 0; i < untidy && this.ended === null; i++) {
      const what = this.random();
      if (what < 0.28) this.#slip();
      else if (what < 0.32) this.#spill();
      else if (what < 0.38) this.#topUp();
      else if (what < 0.44) this.#splashOfWater();
      else if (!this.#step()) this.#fault('no way on');
    }
    this.#slippery = false;
    for (let i = 0; i < 60 && this.ended === null; i++)
      if (!this.#step()) {
        this.#fault('no way on');
        break;
      }
    if (this.ended === null) this.#fault('no end in 60 steps');
    if (this.ended === 'lost') this.#history();
    if (this.ended === 'hung') this.hung++;
    if (this.ended === 'lost') this.lost++;
    this.#labels();
    if (this.oracle.inTank !== null) this.#out(this.oracle.inTank);
    if (/confirm/i.test(this.#say('close the run'))) this.#say('confirm');
  }
  /** A bottle that is no good is told, and a good one is not called so. */
  #labels() {
    for (const [i, bath] of this.oracle.bench.entries()) {
      const number = i + 1;
      const mix = this.oracle.bottle(number);
      const text = this.#say(`what is in bottle ${number}`);
      const bad = this.oracle.foreign(mix, bath) > 0.05;
      if (bad && !warnsOfBottle.test(text)) this.#fault(`bottle ${number} is spoilt, and is not called so`);
      const freshMl = this.sink.state.world.bottles[number]?.replenishedMl ?? 0;
      if (Math.abs(freshMl - mix.freshMl) > 1)
        this.#fault(
          `bottle ${number} was replenished with ${mix.freshMl} ml, and is taken to have had ${freshMl}`,
        );
      if (this.kind !== 'honest') continue;
      if (!bad && warnsOfBottle.test(text)) this.#fault(`bottle ${number} is called spoilt, and is not`);
      const known = this.sink.state.world.bottles[number]?.contents.volumeMl ?? 0;
      const really = this.oracle.volume(number);
      if (Math.abs(known - really) > 1)
        this.#fault(`bottle ${number} holds ${really} ml, and is taken to hold ${known}`);
      const rolls = Math.round(mix.rolls * 10) / 10;
      const done = Number(/done (\d+) film/i.exec(text)?.[1] ?? 0);
      if (mix.rolls > 0 && Math.abs(done - rolls) > 1)
        this.#fault(`bottle ${number} has done ${rolls} films, and is said to have done ${done}`);
    }
  }

  /** Up to three films with the same bottles. */
  play(): this {
    const films = 1 + Math.floor(this.random() * 3);
    const { stranger } = this.process;
    if (stranger !== null) this.#say(`bottle ${this.oracle.bench.length} holds 600 ml of ${stranger}`);
    for (let i = 0; i < films && this.faults.length === 0; i++) this.#film();
    return this;
  }
}
