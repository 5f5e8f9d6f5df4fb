import type { Verbosity } from '../language/breath.js';
import { type Interpretation, intentKey } from '../language/interpret.js';
import type { Words } from '../language/languages/words.js';
import { factsIn, isQuestion, POURS, tellsOfSink } from '../language/meaning/weight.js';
import type { Hearing } from '../language/types.js';
import type { Language } from '../language/understanding.js';
import type { DeskEvent, Heard, Situation } from '../process/desk.js';
import type { Intent, IntentOf } from '../process/intent.js';
import { leftOpen } from '../process/left-open.js';
import { answerWithinMs } from '../process/pending.js';
import { passed } from '../speech/stages.js';
import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import { noMatterMs } from './assistant/putting-right.js';
import type { Assistant, AssistantState, Reply } from './assistant.js';
import type { BenchClock } from './clock.js';
import { type Opened, opened, worthReading } from './openly.js';
import type { TalkAnswer } from './talk.js';

/** Where events go before anything is said about them. */
export interface JournalPort {
  /**
   * Takes an event to be written, in order; null once it is synced to the disk. A value means that it waits in memory
   * and will be written later; its sentence says so, and is empty when that was said before.
   */
  append(event: DeskEvent, facts: Fact[], state: AssistantState): { problem: string } | null;
}

/** Where replies go: a screen, a voice, a list in a test. */
export interface SpeechPort {
  say(reply: Reply): void;
  /** texts that will be wanted at an instant that is already known */
  prepare(texts: string[]): void;
  /** what was prepared is said within a second */
  ready?(): void;
  quiet(): void;
  sayAgain(): void;
  adjust(change: 'louder' | 'softer' | 'slower' | 'faster'): void;
  /** what the last answer left out to be short */
  more?(): void;
  /** how much is said aloud from now on */
  verbosity?(level: Verbosity): void;
}

export interface ConversationPorts {
  assistant: Assistant;
  language: Language;
  journal: JournalPort;
  speech: SpeechPort;
  clock: BenchClock;
  /** why the picture is off, in two sentences; asking changes nothing */
  why(intent: IntentOf<'ask-why'>, state: AssistantState): string;
  /** answers to talk and to questions of the trade, which change nothing; null for everything else */
  talk?(intent: Intent, wallMs: number): TalkAnswer | null;
  /** what was done, for a screen that can show more than words say */
  acted?(intent: Intent, state: AssistantState): void;
}

/** What became of an utterance, for a screen or a test to show. */
export type Taken =
  | { done: 'acted'; intent: Intent }
  | { done: 'asked'; candidates: Intent[] }
  | { done: 'not-understood'; why: string }
  | { done: 'ignored'; why: string };

/** What an utterance means, and, where another reading is too close to choose, all that may be meant. */
export interface Made {
  understood: Interpretation;
  heard: Heard;
  rivals: Intent[];
}

/** A pour that was said, and when; `ask`: it is not sure that it was. */
interface Waiting {
  meant: readonly [Intent, ...Intent[]];
  ask: boolean;
  heard: Heard;
  atMs: number;
}

/** A question of the conversation's own. */
interface Question {
  /** what may have been meant */
  of: readonly Intent[];
  by: Heard['by'];
  askedMs: number;
  /** only offered behind the answer to the first of them: it may be picked by its place, and lapses with the next line */
  offer?: true;
  /** it was put a second time */
  again?: true;
  /** a pour that was said over it, and that its answer may change */
  waits?: Waiting;
  /** takes back what counts against bottles and film as long as it is open */
  settles?: readonly Fact[];
  /** when it was first asked, if a bath may have gone in then: no clock runs until it is answered */
  sinceMs?: number;
  /** when it is asked again by itself, ms on the bench clock, soonest first */
  againMs?: readonly number[];
}

/** So long after it whether a bath is in is asked again, s. Source: common practice. */
const inAskedAgainS = [15, 60];

/** Said of a pour that waits, these let go of it. */
const TAKES_BACK = new Set<Intent['type']>(['undo', 'withdraw', 'stop']);
/** What becomes of a pour is told with these. */
const OF_POURS = new Set<Intent['type']>([...POURS, 'bath-in', 'poured']);

/** A second reading with this share of the best one's confidence is not to be told apart by ear. */
const closeShare = 0.2;

/** Fifteen and fifty differ by so little that a much weaker second reading counts as close. */
const closeTeenShare = 0.02;

/**
 * The one path of every sentence: words → intent → desks → journal → voice. A question of the conversation's own
 * ("fifteen or fifty?") is kept here; it changes nothing until it is answered.
 */
export class Conversation {
  #state: AssistantState;
  #question: Question | null = null;
  /** what "more" says after help, or after an answer that left some of itself for it */
  #more = '';
  readonly #ports: ConversationPorts;
  #speaksNext = false;

  constructor(ports: ConversationPorts, state: AssistantState = ports.assistant.initial) {
    this.#ports = ports;
    this.#state = state;
    // a run that is taken up again has its next call made into sound before anything else is
    this.#prepareNext();
  }

  get state(): AssistantState {
    return this.#state;
  }

  situations(): Situation[] {
    const open = this.#ports.assistant.situations(this.#state);
    const asks = this.#asks || this.#offersOne;
    return asks && !open.includes('challenged') ? [...open, 'challenged'] : open;
  }

  /** What would be said next if all goes as it should; a question of the conversation's own goes before it. */
  due(): Intent[] {
    return this.#asks ? [] : this.#ports.assistant.due(this.#state);
  }

  /** Whether something is said at the next deadline. */
  get speaksNext(): boolean {
    return this.#speaksNext;
  }

  /** Whether an answer is waited for. */
  get #asks(): boolean {
    return this.#question !== null && !this.#question.offer;
  }

  /** Whether it asked, a moment ago, if something was told as well. */
  get #offersOne(): boolean {
    const { offer, of = [], askedMs = 0 } = this.#question ?? {};
    return offer === true && of.length === 1 && this.#ports.clock.nowMs() - askedMs <= answerWithinMs;
  }

  nextWakeMs(): number | null {
    const due = this.#ports.assistant.nextWakeMs(this.#state);
    const { waits, againMs: [again] = [] } = this.#question ?? {};
    const all = [due, waits && waits.atMs + answerWithinMs, again].filter((ms) => ms != null);
    return all.length > 0 ? Math.min(...all) : null;
  }

  /** A typed line; `understood`: what it was found to mean elsewhere. */
  typed(line: string, understood = this.#ports.language.typed(line, this.situations(), this.due())): Taken {
    const heard: Heard = { by: 'typed', words: line, confidence: 1, close: [] };
    const { of } = this.#question ?? { of: [] };
    const chosen = of[chosenOf(line, of, this.#ports.language.words)];
    return chosen ? this.#settled(chosen, heard) : this.#take(understood, heard);
  }

  /**
   * What the recogniser made of one utterance. Speech that is no command changes nothing and is not answered.
   * `sure` false: it is asked whether that was meant.
   */
  heard(hearing: Hearing, sure = true, made = this.madeOf(hearing)): Taken {
    if (!made) return { done: 'ignored', why: hearing.why ?? 'That was not a command.' };
    const { understood, heard, rivals } = made;
    if (rivals.length > 0) return this.#unsure(rivals, heard);
    if (!sure && understood.kind === 'understood') return this.#unsure([understood.intent], heard);
    return this.#take(understood, heard);
  }

  /**
   * A sentence that may be ending, and would count in so many ms: the answer that desks would give is made into sound
   * ahead. Desks are pure, so they can be asked; nothing changes, nothing is journaled and nothing is said.
   */
  expect(hearing: Hearing, inMs: number): void {
    const { assistant, clock, speech } = this.#ports;
    const made = this.#asks ? null : this.madeOf(hearing);
    if (made?.understood.kind !== 'understood' || made.rivals.length > 0) return;
    const { replies } = assistant.apply(this.#state, {
      type: 'intent',
      intent: made.understood.intent,
      heard: made.heard,
      atMs: clock.nowMs() + inMs,
      wallMs: clock.wallMs() + inMs,
    });
    speech.prepare(replies.map((r) => r.text));
  }

  /** What no grammar has; nothing comes of it where it is not likely to be meant. */
  heardOpenly(hearing: Hearing): Taken {
    const readings = worthReading(hearing);
    const meanings = readings.map((r) => this.#ports.language.typed(r.words, this.situations(), this.due()));
    const found = opened(readings, meanings);
    return found ? this.open(found) : { done: 'ignored', why: hearing.why ?? 'That was not a command.' };
  }

  /** Answers it, or asks whether it was meant. */
  open({ understood, ask, reading }: Opened): Taken {
    const { words, confidence } = reading;
    const heard: Heard = { by: 'voice', words, confidence, close: [] };
    return ask && understood.kind === 'understood'
      ? this.#unsure([understood.intent], heard)
      : this.#take(understood, heard);
  }

  /** What an utterance means; null: no command. */
  madeOf(hearing: Hearing): Made | null {
    const { language } = this.#ports;
    const best = hearing.best;
    if (!hearing.accepted || !best) return null;
    const understood = language.heard(best.words, this.situations());
    const close = this.#readings(hearing, closeShare * best.confidence);
    const heard: Heard = { by: 'voice', words: best.words, confidence: best.confidence, close };
    if (understood.kind !== 'understood') return { understood, heard, rivals: [] };
    const teens = this.#teenTwins(best.words, this.#readings(hearing, closeTeenShare * best.confidence));
    const twins = language.twins(understood.intent, [...close, ...teens]);
    return { understood, heard, rivals: twins.length > 0 ? [understood.intent, ...twins] : [] };
  }

  /** What the recogniser's other readings mean, from this confidence up. */
  #readings(hearing: Hearing, leastConfidence: number): Intent[] {
    return hearing.alternatives
      .filter((a) => a.confidence > leastConfidence)
      .map((a) => this.#ports.language.heard(a.words, this.situations()))
      .flatMap((u) => (u.kind === 'understood' ? [u.intent] : []));
  }

  /** Among the weaker readings, those that are this sentence with -teen for -ty or the other way round. */
  #teenTwins(words: string, readings: Intent[]): Intent[] {
    const twins = this.#ports.language.teenTy(words, this.situations()).map(intentKey);
    return readings.filter((r) => twins.includes(intentKey(r)));
  }

  /** Something that happened without words, such as a probe's reading; all desks hear it. */
  noticed(fact: Fact): void {
    this.#apply({ type: 'fact', fact, ...this.#now });
  }

  /** Lets the desks meet every deadline due by now. */
  timePassed(): void {
    const { assistant, clock } = this.#ports;
    this.#lapse();
    this.#askAgain();
    const due = assistant.nextWakeMs(this.#state);
    if (due === null || due > clock.nowMs()) return;
    this.#apply({ type: 'time', ...this.#now });
  }

  #take(understood: Interpretation, heard: Heard): Taken {
    switch (understood.kind) {
      case 'nothing':
        return this.#notUnderstood(understood, heard);
      case 'unsure': {
        const { candidates } = understood;
        const refused = candidates.find((c) => POURS.has(c.type) && this.#refused(c, heard));
        // whether it is to go in or has, the guard's warning cannot wait for the answer
        const isIn = candidates.some((c) => startsClock(c) && liquidOf(c) === (refused && liquidOf(refused)));
        return refused && (candidates.length === 1 || isIn)
          ? this.#act(refused, heard)
          : this.#unsure(candidates, heard);
      }
      case 'understood': {
        const { assistant, clock } = this.#ports;
        const may = assistant.mayMean(this.#state, understood.intent, clock.nowMs());
        if (may.length > 1) return this.#unsure(may, heard);
        const intent = may[0] ?? understood.intent;
        const taken = this.#act(intent, heard);
        if (understood.rest) this.#answer(this.#ports.language.words.leftOut(understood.rest));
        if (understood.others && heard.by === 'typed') this.#offer([intent, ...understood.others]);
        if (understood.beside) this.#askBeside(understood.beside, heard.by);
        return taken;
      }
    }
  }

  #act(intent: Intent, heard: Heard): Taken {
    this.#lapse();
    const question = this.#question;
    const [only, other] = question?.of ?? [];
    const answers = intent.type === 'confirm' || intent.type === 'cancel';
    if (this.#offersOne && only && answers)
      return this.#settled(intent.type === 'confirm' ? only : null, heard);
    if (!question || question.offer) {
      this.#question = null;
      return this.#done(intent, heard);
    }
    if (intent.type === 'cancel') return this.#settled(null, heard);
    if (intent.type === 'confirm')
      return only && !other ? this.#settled(only, heard) : this.#put({ ...question, by: heard.by });
    const { of, again, waits, sinceMs } = question;
    const spilled = spilledSo(of, intent);
    if (spilled) return this.#settled(spilled, heard);
    const held = this.#held([intent], false, heard);
    if (held) return held;
    const settles = this.#leaveOpen(intent);
    if (waits && TAKES_BACK.has(intent.type)) {
      this.#answer(this.#ports.language.words.nothingChanged);
      return { done: 'acted', intent };
    }
    const taken = this.#done(intent, heard);
    if (isQuestion(intent) && (!again || waits || sinceMs !== undefined) && of.some(tellsOfSink))
      this.#put({ ...question, by: heard.by, again: true, settles });
    else if (waits && !OF_POURS.has(intent.type)) this.#notCleared(waits);
    return taken;
  }

  #done(intent: Intent, heard: Heard): Taken {
    this.#do(intent, heard);
    this.#ports.acted?.(intent, this.#state);
    return { done: 'acted', intent };
  }

  /** One of the choices was meant, or (null) none; then what waited for that. */
  #settled(chosen: Intent | null, heard: Heard): Taken {
    const question = this.#question;
    // a late yes is none, a late no is
    const late = question && !question.offer && this.#ports.clock.nowMs() - question.askedMs > answerWithinMs;
    if (chosen && late) return this.#put({ ...question, by: heard.by, again: true });
    this.#settle();
    const { waits } = question ?? {};
    let taken: Taken = { done: 'acted', intent: { type: 'cancel' } };
    if (chosen) taken = this.#done(this.#sinceAsked(chosen, question?.sinceMs), heard);
    else this.#answer(this.#ports.language.words.nothingChanged);
    if (!waits) return taken;
    return waits.ask ? this.#ask(waits.meant, waits.heard.by) : this.#act(waits.meant[0], waits.heard);
  }

  /** A bath that is in has been since it was first asked about. */
  #sinceAsked(chosen: Intent, sinceMs = Number.POSITIVE_INFINITY): Intent {
    const ago = this.#ports.clock.nowMs() - sinceMs;
    return ago >= noMatterMs && startsClock(chosen)
      ? ({ ...chosen, agoS: Math.round(ago / 1000) } as Intent)
      : chosen;
  }

  /** A pour that the guard would clear has to wait where the answer to the open question may change its verdict. */
  #held(said: readonly Intent[], ask: boolean, heard: Heard): Taken | null {
    const question = this.#question;
    const [first, ...others] = said;
    if (!first || !question || question.offer || question.waits || !question.of.some(tellsOfSink))
      return null;
    const pour = said.find((one) => POURS.has(one.type));
    const ofPour = question.of.some((one) => factsIn(one).some((f) => POURS.has(f.type)));
    if (!pour || ofPour || this.#refused(pour, heard)) return null;
    const open = this.#open(first).map((fact): DeskEvent => ({ type: 'fact', fact, ...this.#now }));
    const meant = question.of.map((one) =>
      factsIn(one).map((intent): DeskEvent => ({ type: 'intent', intent, heard, ...this.#now })),
    );
    const verdict = (before: readonly DeskEvent[]): string =>
      this.#answersTo(pour, { ...heard, confidence: 1, close: [] }, this.#after(before))
        .map((r) => r.text)
        .join(' ');
    const now = verdict([]);
    if ([open, ...meant].every((way) => verdict(way) === now)) return null;
    const waits: Waiting = { meant: [first, ...others], ask, heard, atMs: this.#ports.clock.nowMs() };
    return this.#put({ ...question, by: heard.by, again: true, waits });
  }

  /** Nothing is called while nobody knows whether a bath is in. */
  #askAgain(): void {
    const question = this.#question;
    const [again, ...later] = question?.againMs ?? [];
    if (!question || again === undefined || again > this.#ports.clock.nowMs()) return;
    if (this.#state.world.tank.bath) this.#question = { ...question, againMs: [] };
    else this.#put({ ...question, again: true, againMs: later });
  }

  /** A pour that waited too long is to be said anew. */
  #lapse(): void {
    const question = this.#question;
    if (!question?.waits || this.#ports.clock.nowMs() - question.waits.atMs < answerWithinMs) return;
    const { waits, ...open } = question;
    this.#question = open;
    this.#notCleared(waits);
  }

  #notCleared({ meant: [intent] }: Waiting): void {
    const { clock, speech, language } = this.#ports;
    const liquid = liquidOf(intent);
    const bath = liquid && language.describe({ type: 'part', liquid });
    const text = language.words.notCleared(bath);
    speech.say({ atMs: clock.nowMs(), kind: 'warning', text, desk: 'talk' });
  }

  /** Talk is answered here, several facts are done one after another, everything else goes to the desks. */
  #do(intent: Intent, heard: Heard): void {
    const { clock } = this.#ports;
    if (this.#aboutTalking(intent)) return;
    const said = (one: Intent): DeskEvent => ({
      type: 'intent',
      intent: one,
      heard,
      atMs: clock.nowMs(),
      wallMs: clock.wallMs(),
    });
    const answer = this.#ports.talk?.(intent, clock.wallMs()) ?? null;
    if (answer && 'say' in answer) {
      if (answer.tells) this.#apply(said(answer.tells));
      this.#answer(answer.say);
    } else if (answer) this.#do(answer.as, heard);
    else if (intent.type === 'several') for (const each of intent.intents) this.#do(each, heard);
    else this.#apply(said(intent));
  }

  /**
   * Journal first, words after: nothing is confirmed that a power cut could lose, unless it was said that the disk
   * does not take it. A timed call waits for no disk.
   */
  #apply(event: DeskEvent): void {
    const { assistant, journal, speech, clock } = this.#ports;
    const outcome = assistant.apply(this.#state, event);
    const matters = event.type !== 'time' || outcome.replies.length > 0 || outcome.facts.length > 0;
    const timed = event.type === 'time';
    const say = (): void => {
      for (const reply of stillOfUse(outcome.replies, clock.nowMs())) {
        const { kind, text, atMs } = reply;
        if (kind === 'call') passed(timed ? 'due' : 'answers', { text }, clock.nowMs() - atMs);
        this.#more = reply.more ?? '';
        speech.say(reply);
      }
    };
    this.#state = outcome.state;
    if (timed) say();
    const kept = matters ? journal.append(event, outcome.facts, outcome.state) : null;
    if (kept?.problem) speech.say({ atMs: clock.nowMs(), kind: 'warning', text: kept.problem, desk: 'talk' });
    if (!timed) say();
    this.#prepareNext();
  }

  /** Desks are pure, so what the next deadline will say can be known, and synthesised, before it is due. */
  #prepareNext(): void {
    const { assistant, speech, clock } = this.#ports;
    const due = this.nextWakeMs();
    this.#speaksNext = false;
    if (due === null) return;
    const wallMs = clock.wallMs() + (due - clock.nowMs());
    const ahead = assistant.apply(this.#state, { type: 'time', atMs: due, wallMs });
    this.#speaksNext = ahead.replies.length > 0;
    speech.prepare(ahead.replies.map((r) => r.text));
  }

  #aboutTalking(intent: Intent): boolean {
    const { speech, language } = this.#ports;
    switch (intent.type) {
      case 'quiet':
        speech.quiet();
        return true;
      case 'say-again':
        speech.sayAgain();
        return true;
      case 'louder':
      case 'softer':
      case 'slower':
      case 'faster':
        speech.adjust(intent.type);
        this.#prepareNext();
        return true;
      case 'more':
        if (this.#more) this.#answer(this.#more);
        else if (speech.more) speech.more();
        else this.#answer(language.words.thatWasAll);
        return true;
      case 'verbosity':
        speech.verbosity?.(intent.level);
        this.#prepareNext();
        this.#answer(`${intent.level[0]?.toUpperCase()}${intent.level.slice(1)} answers.`);
        return true;
      case 'help': {
        const { text, more } = language.help(this.situations(), intent.topic);
        this.#answer(text);
        this.#more = more;
        return true;
      }
      case 'ask-why':
        this.#answer(this.#ports.why(intent, this.#state));
        return true;
      default:
        return false;
    }
  }

  /** Whether the guard would refuse a pour: nobody is asked to confirm what is refused then. */
  #refused(intent: Intent, heard: Heard): boolean {
    return POURS.has(intent.type) && this.#answersTo(intent, heard).some((r) => r.kind === 'warning');
  }
  #answersTo(intent: Intent, heard: Heard, state = this.#state): readonly Reply[] {
    return this.#ports.assistant.apply(state, { type: 'intent', intent, heard, ...this.#now }).replies;
  }

  /** What it would be like with these. */
  #after(events: readonly DeskEvent[]): AssistantState {
    return events.reduce((state, event) => this.#ports.assistant.apply(state, event).state, this.#state);
  }

  get #now(): { atMs: number; wallMs: number } {
    const { clock } = this.#ports;
    return { atMs: clock.nowMs(), wallMs: clock.wallMs() };
  }

  /** The open question is over: what counted against bottles and film meanwhile does so no more. */
  #settle(): void {
    for (const fact of this.#question?.settles ?? []) this.noticed(fact);
    this.#question = null;
  }

  /**
   * What was asked of a bottle or the tank and something else was said over counts against it until it is told.
   * Gives what takes that back.
   */
  #leaveOpen(told?: Intent): Fact[] {
    const question = this.#question;
    this.#settle();
    if (question?.offer) return [];
    const open = this.#open(told, question?.of);
    const { world } = this.#state;
    for (const fact of open) this.noticed(fact);
    return open.flatMap((fact) => asBefore(world, fact));
  }
  #open(told?: Intent, of: readonly Intent[] = this.#question?.of ?? []): Fact[] {
    const due = this.#ports.assistant.due(this.#state);
    const expected = due.flatMap((d) => ('liquid' in d && d.liquid !== undefined ? [d.liquid] : []));
    return leftOpen(this.#state.world, of, told, expected);
  }

  /** Asks which of these was meant, or whether it was. */
  #unsure(meant: readonly Intent[], heard: Heard): Taken {
    this.#lapse();
    return this.#held(meant, true, heard) ?? this.#ask(meant, heard.by);
  }

  #ask(of: readonly Intent[], by: Heard['by']): Taken {
    const { waits } = this.#question ?? {};
    this.#leaveOpen();
    if (waits) this.#notCleared(waits);
    const sinceMs = this.#ports.clock.nowMs();
    const mayBeIn = !this.#state.world.tank.bath && of.some(startsClock);
    return this.#put({
      of,
      by,
      ...(mayBeIn && { sinceMs, againMs: inAskedAgainS.map((s) => sinceMs + 1000 * s) }),
    });
  }

  #put(question: Omit<Question, 'askedMs'>): Taken {
    const { clock, speech, language } = this.#ports;
    const unlike = this.#unlike(question.of);
    const of = unlike.map(({ intent }) => intent);
    this.#question = { ...question, of, askedMs: clock.nowMs() };
    const said = unlike.map((one) => one.said);
    const text = language.words.didYouMean(said, question.by === 'typed', question.again === true);
    speech.say({ atMs: clock.nowMs(), kind: 'question', text, desk: 'talk' });
    return { done: 'asked', candidates: of };
  }

  /** Says, behind an answer, what else its question may have meant, where nothing else is asked; it lapses with the next line. */
  #offer(meant: Intent[]): void {
    const unlike = this.#unlike(meant);
    if (unlike.length < 2 || this.#asks) return;
    const of = unlike.map(({ intent }) => intent);
    this.#question = { of, by: 'typed', askedMs: this.#ports.clock.nowMs(), offer: true };
    const text = this.#ports.language.words.orDidYouMean(unlike.map((one) => one.said));
    this.#ports.speech.say({ atMs: this.#ports.clock.nowMs(), kind: 'answer', text, desk: 'talk' });
  }

  /** Asks, behind what is done, whether this was told as well, where nothing else is asked; it lapses with the next line. */
  #askBeside(intent: Intent, by: Heard['by']): void {
    const { clock, speech, language } = this.#ports;
    const said = language.describe(intent);
    const asks = this.situations().includes('challenged');
    const text = asks ? language.words.leftOut(said) : language.words.alsoMean(said);
    if (!asks) this.#question = { of: [intent], by, askedMs: clock.nowMs(), offer: true };
    speech.say({ atMs: clock.nowMs(), kind: 'question', text, desk: 'talk' });
  }

  /** Meanings with how each is said: nobody can choose between two that sound alike. */
  #unlike(meant: readonly Intent[]): { intent: Intent; said: string }[] {
    const all = meant.map((intent) => ({ intent, said: this.#ports.language.describe(intent) }));
    return all.filter(({ said }, i) => all.findIndex((one) => one.said === said) === i);
  }

  #notUnderstood(none: Interpretation & { kind: 'nothing' }, heard: Heard): Taken {
    if (this.#question?.offer) this.#question = null;
    if (heard.by === 'typed') this.#answer(none.why);
    return { done: 'not-understood', why: none.why };
  }

  #answer(text: string): void {
    this.#more = '';
    this.#ports.speech.say({ atMs: this.#ports.clock.nowMs(), kind: 'answer', text, desk: 'talk' });
  }
}

/** The spill that was asked about, with how much it was; null: these words say nothing of that. */
function spilledSo(asked: readonly Intent[], said: Intent): Intent | null {
  const spill = asked.find((one) => one.type === 'spill');
  const {
    type,
    volumeMl,
    value,
    again: _,
    ...more
  } = { volumeMl: undefined, value: undefined, again: true, ...said };
  const amount = volumeMl ?? value;
  const isAmount = (type === 'correct' || type === 'spill') && Object.keys(more).length === 0;
  return spill?.type === 'spill' && !spill.volumeMl && isAmount && typeof amount === 'number'
    ? { ...spill, volumeMl: amount }
    : null;
}

const liquidOf = (intent: Intent) => ('liquid' in intent ? intent.liquid : undefined);

/** Whether a bath is in by it that was not before. */
const startsClock = (intent: Intent): boolean =>
  intent.type === 'bath-in' || (intent.type === 'poured' && intent.to?.kind === 'tank');

/** Which of several meanings an answer picks, by its place or by a number that it alone has; -1: none. */
function chosenOf(line: string, among: readonly Intent[], { ordinals, choice }: Words): number {
  if (among.length < 2) return -1;
  const { place, number } = choice.exec(line.trim().toLowerCase())?.groups ?? {};
  if (place !== undefined) return ordinals.indexOf(place);
  if (number === undefined) return -1;
  const having = among.filter((intent) => numbersIn(intent).includes(Number(number)));
  return having.length === 1 ? among.indexOf(having[0] as Intent) : -1;
}

const numbersIn = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(numbersIn)
      : [];

/** A call this late has been overtaken by the next one, as after the machine slept, ms. */
const staleMs = 5_000;

export const isMissedCall = ({ kind, atMs }: Reply, nowMs: number): boolean =>
  kind === 'call' && nowMs - atMs > staleMs;

/** Leaves out calls that came too late to follow when a later call says what matters now. */
function stillOfUse(replies: readonly Reply[], nowMs: number): Reply[] {
  const lastCall = replies.findLastIndex((r) => r.kind === 'call');
  return replies.filter((r, i) => i === lastCall || !isMissedCall(r, nowMs));
}

/** What takes a doubt back to what it was in this world. */
function asBefore({ bottles, film }: World, fact: Fact): Fact[] {
  if (fact.type === 'film-doubted') {
    const { of = [], asked = false } = film.doubt ?? {};
    return [{ ...fact, of: [...of], asked }];
  }
  if (fact.type !== 'bottle-doubted') return [];
  const { doubt = null, doubtOf } = bottles[fact.bottle] ?? {};
  return [{ type: 'bottle-doubted', bottle: fact.bottle, doubt, ...(doubtOf && { of: doubtOf }) }];
}
