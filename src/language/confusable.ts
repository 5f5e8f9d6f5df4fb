import type { Intent } from '../process/intent.js';
import { intentKey, isGuarded } from './interpret.js';

/**
 * Among `close`, those that must not be settled by a guess: the same deed with another liquid, vessel or number, or
 * another deed where either would move liquid or the run. Each once, in the order given.
 */
export function twinsOf(intent: Intent, close: readonly Intent[]): Intent[] {
  const seen = new Set([intentKey(intent)]);
  return close.filter((c) => {
    const key = intentKey(c);
    if (seen.has(key)) return false;
    seen.add(key);
    return c.type === intent.type || isGuarded(c) || isGuarded(intent);
  });
}
