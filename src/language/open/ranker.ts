import type { Intent } from '../../process/intent.js';
import { factsIn, isQuestion } from '../meaning/weight.js';
import type { Reading } from './decide.js';

/**
 * What each kind of evidence counts for, in log odds, where nothing was learnt: as 974 sentences of people weigh it whose words
 * taught nothing, fitted by a conditional logit.
 */
export const PRIOR = {
  whole: 0.6,
  clause: 0.17,
  due: 0.29,
  dueSaid: 0.7,
  dueAmount: 0.13,
  left: -0.2,
  advice: -0.8,
  forbidden: -0.2,
  strange: -0.16,
  exact: 0.4,
  clauseOnly: -0.34,
  taught: 1.55,
  nothing: 0.96,
  together: 1,
  dropped: -0.9,
  alien: -2.5,
  least: 0.6,
};
export type Evidence = Partial<Record<keyof typeof PRIOR, number>>;

/** One of the meanings that a line may have; without an intent, that it is nothing of ours. */
export interface Candidate {
  readonly evidence: Evidence;
  readonly intent?: Intent;
  readonly outOfPlace?: boolean;
  readonly elsewhere?: boolean;
  /** its place among what the whole line may mean; −1: only a clause means it */
  readonly rank?: number;
}

/** What all its meanings have in common. */
export interface Line {
  readonly words: string;
  readonly asks: Reading['asks'];
  readonly clauses: number;
  /** where the user is, e.g. `mixing` */
  readonly place: string;
}

/** How well each meaning fits a line, in log odds. */
export type Ranker = (candidates: readonly Candidate[], line: Line) => readonly number[];

/** A conditional logit: what is not in `weights` counts for nothing. */
export const rankerOf =
  (weights: Readonly<Record<string, number>>): Ranker =>
  (candidates, line) => {
    const words = wordsOf(line);
    return candidates.map((c) =>
      featuresOf(c, line, words).reduce((sum, [name, value]) => sum + (weights[name] ?? 0) * value, 0),
    );
  };

const wordsOf = ({ words }: Line): ReadonlySet<string> => new Set(words.match(/[a-z']+|\d/g));

const kindOf = (intent: Intent | undefined): string => {
  if (intent === undefined) return 'nothing';
  if (intent.type === 'several') return 'several';
  return isQuestion(intent) ? 'question' : 'deed';
};

/** What speaks for a meaning, by names that a person can read, and how much of it there is. */
export function featuresOf(
  { evidence, intent, outOfPlace, elsewhere, rank = 0 }: Candidate,
  line: Line,
  words = wordsOf(line),
): (readonly [string, number])[] {
  const kind = kindOf(intent);
  const facts = intent === undefined ? [{ type: 'nothing' }] : factsIn(intent);
  const names = [
    `${kind} asked ${line.asks}`,
    `${kind} of ${Math.min(line.clauses, MOST_CLAUSES)}`,
    ...(outOfPlace ? ['out of place'] : []),
    ...(elsewhere ? ['elsewhere'] : []),
    ...(rank > 0 ? ['second'] : rank < 0 ? ['clause alone'] : []),
    ...facts.flatMap((fact) => {
      const is = `is ${fact.type}`;
      return [
        is,
        `${is} asked ${line.asks}`,
        `${is} at ${line.place}`,
        ...Object.keys(fact).flatMap((field) => (field === 'type' ? [] : [`${is} with ${field}`])),
        ...('topic' in fact ? [`${is} ${String(fact.topic)}`] : []),
        ...[...words].map((word) => `${is} said ${word}`),
      ];
    }),
  ];
  // two facts of a kind are one reason
  return [...Object.entries(evidence), ...[...new Set(names)].map((name) => [name, 1] as const)];
}
const MOST_CLAUSES = 3;
