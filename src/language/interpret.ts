import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { type Interpretation, settle } from './interpretation.js';
import { nothing } from './languages/english/nothing.js';
import { teenTyTwins } from './languages/english/numbers.js';
import type { Grammars } from './load.js';
import { meaningsHere } from './meaning/meanings.js';

export type { Interpretation } from './interpretation.js';
export { intentKey } from './meaning/meanings.js';
export { isGuarded } from './meaning/weight.js';

/**
 * What the recogniser's words mean in these situations (`anytime` is always among them). A sentence of a present
 * situation goes before the same sentence of `anytime`; two meanings of equal standing are unsure.
 */
export function interpretHeard(
  words: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  const said = words.toLowerCase().split(/\s+/).filter(Boolean);
  const meanings = meaningsHere(said, situations, grammars, false);
  return settle(meanings, said) ?? nothing(said, situations, grammars);
}

/** The intents that an ear would confuse with this sentence by -teen and -ty ("fifteen", "fifty"). */
export function teenTyIntents(words: string, situations: readonly Situation[], grammars: Grammars): Intent[] {
  return teenTyTwins(words.toLowerCase().split(/\s+/).filter(Boolean)).flatMap((twin) =>
    meaningsHere(twin, situations, grammars, false).map((m) => m.intent),
  );
}
