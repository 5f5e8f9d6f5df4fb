import { type AssistantState, createAssistant } from '../../../src/app/assistant.js';
import { type Bench, createBench } from '../../../src/app/bench.js';
import { SimulatedClock } from '../../../src/app/clock.js';
import { Conversation } from '../../../src/app/conversation.js';
import { letTimePass } from '../../../src/app/play-script.js';
import { postsFor } from '../../../src/app/posts.js';
import { PrintedSpeech } from '../../../src/app/printed-speech.js';
import { readScript } from '../../../src/app/script.js';
import { assistantWords } from '../../../src/language/languages/english/phrases/assistant.js';
import { emptyLedger } from '../../../src/ledger/state.js';

/**
 * A typed line or a wait (“+90s”), and what the replies to it must say and must never say, as “kind: text / kind: text”. `whatever`: it need not
 * even be understood.
 */
export type Line =
  | string
  | readonly [line: string, says: RegExp | readonly RegExp[] | null, never?: RegExp]
  | readonly [line: string, says: 'whatever', never: RegExp];

/** One day at the sink on which something goes otherwise than the sheet has it. */
export interface Day {
  name: string;
  sheet?: string;
  lines: readonly Line[];
}

/** Nothing may be poured yet: a warning, or a question to be answered first. */
export const heldBack = /(warning|question): /i;
/** Everybody out of the room. */
export const away = /leave the room/i;
export const cyanide = /hydrogen cyanide/i;
/** The words that let a pour go ahead. */
export const goAhead = /answer: (clear|no harm)|go ahead/i;

/** Pure parts, shared: a bench keeps nothing between conversations. */
const benches = new Map<string, Bench>();

/** What a line means in a situation is pure, and the same lines come again and again. */
function remembering(bench: Bench): Bench {
  const known = new Map<string, ReturnType<Bench['language']['typed']>>();
  const typed: Bench['language']['typed'] = (line, situations, due) => {
    const key = `${line}|${situations.join()}|${JSON.stringify(due)}`;
    const meant = known.get(key) ?? bench.language.typed(line, situations, due);
    known.set(key, meant);
    return meant;
  };
  return { ...bench, language: { ...bench.language, typed } };
}

/** `warming` false: without the desk that forecasts temperatures, which takes most of the time. */
function benchFor(sheet: string, warming: boolean): Bench {
  const bench = remembering(createBench({ sheet }));
  if (warming) return bench;
  const posts = postsFor(bench.sheets, bench.warm, () => undefined).filter((p) => p.desk.id !== 'warm');
  return { ...bench, assistant: createAssistant(posts, emptyLedger(bench.assumed).bench, assistantWords) };
}

/** Somebody at the sink with the whole assistant on a simulated clock. */
export class Sink {
  readonly #clock = new SimulatedClock();
  readonly #conversation: Conversation;
  #replies: string[] = [];

  constructor(sheet = 'ecn2-ferricyanide', warming = true) {
    const key = `${sheet} ${warming}`;
    const bench = benches.get(key) ?? benchFor(sheet, warming);
    benches.set(key, bench);
    this.#conversation = new Conversation({
      ...bench,
      clock: this.#clock,
      journal: { append: () => null },
      speech: new PrintedSpeech((r) => this.#replies.push(`${r.kind}: ${r.text}`), this.#clock),
    });
  }
  get state(): AssistantState {
    return this.#conversation.state;
  }
  get nowMs(): number {
    return this.#clock.nowMs();
  }
  /** Time passes until this is called, or for so long, s. Everything that was called. */
  waitFor(call: RegExp, mostS: number): string[] {
    this.#replies = [];
    const untilMs = this.nowMs + mostS * 1000;
    while (this.nowMs < untilMs && !this.#replies.some((r) => call.test(r)))
      letTimePass(
        this.#conversation,
        this.#clock,
        Math.min(this.#conversation.nextWakeMs() ?? untilMs, untilMs) - this.nowMs,
      );
    return this.#replies;
  }
  /** A line, and a second to say it in; or a wait. Everything that it brought. */
  say(line: string): string[] {
    this.#replies = [];
    const read = readScript(line);
    if ('problem' in read) throw new Error(read.problem);
    for (const step of read.steps) {
      if (step.do === 'wait') letTimePass(this.#conversation, this.#clock, step.ms);
      if (step.do !== 'type') continue;
      letTimePass(this.#conversation, this.#clock, 1000);
      this.#conversation.typed(step.line);
    }
    return this.#replies;
  }
}

/** What was said otherwise than the day wants it; empty: all as it should be. */
export function faultsOf(day: Day): string[] {
  const sink = new Sink(day.sheet);
  return day.lines.flatMap((one, i) => {
    const [line, says, never] = typeof one === 'string' ? [one, null] : one;
    const text = sink.say(line).join(' / ');
    const wanted = says === null || says === 'whatever' ? [] : says instanceof RegExp ? [says] : says;
    const slip = never?.exec(text)?.[0];
    return [
      ...wanted.filter((w) => !w.test(text)).map((w) => `line ${i} “${line}” wants ${w}, got: ${text}`),
      ...(slip === undefined ? [] : [`line ${i} “${line}” must not say “${slip}”: ${text}`]),
      ...(says !== 'whatever' && /not the sentence|I do not know/i.test(text)
        ? [`line ${i} “${line}” was not understood: ${text}`]
        : []),
    ];
  });
}
