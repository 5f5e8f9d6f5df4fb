import { type Interpretation, intentKey } from '../language/interpret.js';
import { english } from '../language/languages/english/catalogue.js';
import { isQuestion, POURS } from '../language/meaning/weight.js';
import type { Hearing, OpenReading } from '../language/types.js';
import type { Intent } from '../process/intent.js';

/** What comes of words that no grammar has: they are answered, or it is asked whether that was meant. */
export interface Opened {
  understood: Understood;
  /** whether to ask */
  ask: boolean;
  reading: OpenReading;
}
type Understood = Interpretation & { kind: 'understood' | 'unsure' };

/** Readings with less than this share of the likeliest are not looked at. */
const NEAR = 0.25;
const MOST_READ = 3;

/**
 * From which the words count as heard: by frame, how far they may lie behind the free path of phones; by word, how usual they are among
 * what is said at a sink; how sure the words are that tell one meaning from another; and the share of the readings that mean it. Chosen
 * so that of 210 pieces of talk (8 minutes) none is answered or asked about; what the understanding itself is not sure of must be more usual.
 */
const LEAST = { score: -0.2, usual: -6.5, usualUnsure: -6, telling: 0.75, share: 0.5, words: 3 };
const MOST_ASKED = 2;

/** What nobody is asked about: it is said plainly, or not at all. */
const PLAINLY = new Set<Intent['type']>([
  ...(['confirm', 'cancel', 'override', 'quiet', 'stop', 'say-again', 'more', 'greeting', 'thanks'] as const),
  ...(['busy', 'part', 'note', 'bottle-named', 'ask-identity', 'verbosity'] as const),
]);

/**
 * The readings that are worth understanding. Where the grammar's best, which it refused, is the best of the whole vocabulary too, its words
 * were heard however unusual the speaker's vowels are.
 */
export function worthReading({ best: refused, open = [] }: Hearing): OpenReading[] {
  const [best] = open;
  if (!best || best.usual < LEAST.usual) return [];
  if (best.score < LEAST.score && best.words !== refused?.words) return [];
  if (best.wordTimes.length < LEAST.words) return [];
  return open.filter((r) => r.confidence >= NEAR * best.confidence).slice(0, MOST_READ);
}

/**
 * Whether to answer or to ask; null: neither. What changes anything is always asked about.
 * @param meanings of each of the readings, in their order
 */
export function opened(readings: readonly OpenReading[], meanings: readonly Interpretation[]): Opened | null {
  const [reading] = readings;
  const [first] = meanings;
  if (!reading || !first || first.kind === 'nothing') return null;
  const meant = first.kind === 'understood' ? [first.intent] : first.candidates;
  if (meant.length > MOST_ASKED || meant.some((i) => PLAINLY.has(i.type) || isVague(i))) return null;
  const doubtful = first.kind === 'unsure' || first.others !== undefined;
  if (doubtful && reading.usual < LEAST.usualUnsure) return null;
  const key = keyOf(first);
  const share = (of: (r: OpenReading, i: number) => boolean): number =>
    readings.reduce((sum, r, i) => (of(r, i) ? sum + r.confidence : sum), 0);
  const sure =
    first.kind === 'understood' &&
    answers(first.intent) &&
    share((_, i) => keyOf(meanings[i]) === key) >= LEAST.share * share(() => true) &&
    reading.wordTimes.every((w) => !english.telling.test(w.word) || w.confidence >= LEAST.telling);
  return { understood: first, ask: !sure, reading };
}

const answers = (intent: Intent): boolean =>
  isQuestion(intent) || intent.type === 'what-if' || intent.type === 'help';

/** A pour of nothing in particular. */
const isVague = (intent: Intent): boolean => POURS.has(intent.type) && Object.keys(intent).length === 1;

const keyOf = (m: Interpretation | undefined): string =>
  m?.kind === 'understood'
    ? intentKey(m.intent)
    : m?.kind === 'unsure'
      ? m.candidates.map(intentKey).join()
      : '';
