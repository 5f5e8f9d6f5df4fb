import { performance } from 'node:perf_hooks';
import type { AssistantState } from '../../../src/app/assistant.js';
import { type Bench, createBench } from '../../../src/app/bench.js';
import { SimulatedClock } from '../../../src/app/clock.js';
import { Conversation, type Taken } from '../../../src/app/conversation.js';
import { letTimePass } from '../../../src/app/play-script.js';
import { PrintedSpeech } from '../../../src/app/printed-speech.js';
import { readScript } from '../../../src/app/script.js';
import { isDeed, isQuestion } from '../../../src/language/meaning/weight.js';
import type { Intent } from '../../../src/process/intent.js';
import { type Expected, matches, readExpected, written } from './expect.js';
import { linesTo } from './situations.js';

/** One sentence in its situation, with what it may be taken for. */
export interface Line {
  situation: string;
  words: string;
  expected: Expected;
}

export const VERDICTS = ['right', 'asked', 'not understood', 'wrong answer', 'wrong act'] as const;
export type Verdict = (typeof VERDICTS)[number];

export interface Played extends Line {
  verdict: Verdict;
  /** what it was taken for, in the notation of the tables */
  taken: string;
  replies: readonly string[];
  /** what the line means, decided */
  understoodMs: number;
  /** the same as the processor's own time, which other programs do not add to */
  cpuMs: number;
  /** from the line to the end of its replies */
  answeredMs: number;
}

/** `situation TAB words TAB expected`, the first line a heading; `#` begins a comment. */
export function readLines(text: string): Line[] {
  return text
    .split('\n')
    .slice(1)
    .filter((l) => l.trim() !== '' && !l.startsWith('#'))
    .map((l) => {
      const [situation = '', words = '', expected = ''] = l.split('\t');
      return { situation, words, expected: readExpected(expected) };
    });
}

/** Says sentences as `tankside talk` takes typed lines, each from a fresh copy of its situation. */
export class Stage {
  readonly #bench: Bench = createBench({ sheet: 'ecn2-ferricyanide' });
  readonly #states = new Map<string, { state: AssistantState; atMs: number }>();

  get bench(): Bench {
    return this.#bench;
  }

  /** A conversation that stands in this situation. */
  at(situation: string, replied: (text: string) => void = () => undefined): Conversation {
    const known = this.#states.get(situation) ?? this.#arrive(situation);
    this.#states.set(situation, known);
    const clock = new SimulatedClock();
    clock.moveTo(known.atMs);
    return this.#conversation(clock, replied, known.state);
  }

  say(line: Line): Played {
    const replies: string[] = [];
    const conversation = this.at(line.situation, (text) => replies.push(text));
    const situations = conversation.situations();
    const began = performance.now();
    const busy = process.cpuUsage();
    this.#bench.language.typed(line.words, situations);
    const { user, system } = process.cpuUsage(busy);
    const understoodMs = performance.now() - began;
    const taken = conversation.typed(line.words);
    const answeredMs = performance.now() - began;
    return {
      ...line,
      ...judged(taken, line.expected, replies),
      replies,
      understoodMs,
      cpuMs: (user + system) / 1000,
      answeredMs,
    };
  }

  #arrive(situation: string): { state: AssistantState; atMs: number } {
    const clock = new SimulatedClock();
    const conversation = this.#conversation(clock, () => undefined);
    for (const line of linesTo(situation)) {
      const read = readScript(line);
      if ('problem' in read) throw new Error(read.problem);
      for (const step of read.steps) {
        if (step.do === 'wait') letTimePass(conversation, clock, step.ms);
        if (step.do !== 'type') continue;
        const taken = conversation.typed(step.line);
        if (taken.done !== 'acted') throw new Error(`${situation}: “${step.line}” was not understood.`);
      }
    }
    return { state: conversation.state, atMs: clock.nowMs() };
  }

  #conversation(
    clock: SimulatedClock,
    replied: (text: string) => void,
    state?: AssistantState,
  ): Conversation {
    const speech = new PrintedSpeech((r) => replied(`${r.kind}: ${r.text}`), clock);
    return new Conversation({ ...this.#bench, clock, speech, journal: { append: () => null } }, state);
  }
}

/** Whether what became of a sentence is what it may be taken for. */
export function judged(
  taken: Taken,
  expected: Expected,
  replies: readonly string[] = [],
): { verdict: Verdict; taken: string } {
  if (taken.done === 'asked') {
    const sensible = expected.askedIsRight || taken.candidates.some((c) => matches(c, expected));
    const verdict = expected.askedIsRight ? 'right' : sensible ? 'asked' : 'wrong answer';
    return { verdict, taken: `asked: ${taken.candidates.map(written).join(' | ')}` };
  }
  // nobody said what was read, and the desk asks
  const asks = replies.some((r) => r.startsWith('question: '));
  if (asks && taken.done === 'acted' && taken.intent.type === 'temperature' && !taken.intent.of) {
    const { tempC } = taken.intent;
    const candidates = (['developer', { kind: 'tub' }] as const).map(
      (of): Intent => ({ type: 'temperature', of, tempC }),
    );
    return judged({ done: 'asked', candidates }, expected);
  }
  if (taken.done !== 'acted') return { verdict: expected.nothing ? 'right' : 'not understood', taken: '-' };
  const right = matches(taken.intent, expected);
  const acted = isDeed(taken.intent) && !matches(deedOf(taken.intent), expected);
  return { verdict: right ? 'right' : acted ? 'wrong act' : 'wrong answer', taken: written(taken.intent) };
}

/** What is done, without what is answered beside it: an answer too many is no wrong act. */
function deedOf(intent: Intent): Intent {
  if (intent.type !== 'several') return intent;
  const deeds = intent.intents.filter((i) => !isQuestion(i));
  return deeds[0] && deeds.length === 1 ? deeds[0] : { ...intent, intents: deeds };
}
