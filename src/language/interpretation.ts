import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import type { Meaning } from './meaning/meanings.js';

/** What a sentence was taken to mean. `words` is the sentence as the grammars say it. */
export type Interpretation =
  | Understood
  /** more than one meaning, or one that is too weighty for a mended slip: ask */
  | { kind: 'unsure'; candidates: Intent[]; words: string }
  /** `why` is a whole sentence; `near` are sentences it resembles, likeliest first */
  | { kind: 'nothing'; why: string; near: string[] };

/** One meaning, the only one or by far the likeliest, or a question that is answered at once. */
export interface Understood {
  kind: 'understood';
  intent: Intent;
  words: string;
  /** the situation whose grammar has the sentence */
  situation: Situation;
  /** understood, but it belongs to a situation that is not the present one */
  outOfPlace?: true;
  /** typing slips that were mended */
  mended?: { from: string; to: string }[];
  /** other questions that may have been meant, likeliest first: they are offered behind the answer */
  others?: Intent[];
  /** what may have been told as well: asked about when this is done */
  beside?: Intent;
  /** amounts that were said beside it, and that it has no place for */
  rest?: string;
}

/** One meaning is understood, several are unsure, none is `undefined`. */
export function settle(meanings: readonly Meaning[], words: readonly string[]): Interpretation | undefined {
  const [only, second] = meanings;
  if (!only) return undefined;
  if (second) return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: words.join(' ') };
  return { kind: 'understood', ...only, words: words.join(' ') };
}
