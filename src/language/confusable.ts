import type { Intent } from '../process/intent.js';
import { intentKey, isGuarded } from './interpret.js';

/** In what two intents differ; `kind` when they are different things to do. */
export type Difference = 'kind' | 'liquid' | 'vessel' | 'number' | 'words';

const LIQUID_FIELDS = new Set(['liquid', 'intoLiquid', 'recipe', 'substance']);
const VESSEL_FIELDS = new Set(['from', 'to', 'bottle', 'intoBottle']);

/** The differences of two intents, each kind once; empty when they mean the same. */
export function differences(a: Intent, b: Intent): Difference[] {
  if (a.type !== b.type) return ['kind'];
  const [x, y] = [Object.entries(a), Object.entries(b)].map((e) => new Map<string, unknown>(e));
  const found = new Set<Difference>();
  for (const key of new Set([...(x?.keys() ?? []), ...(y?.keys() ?? [])])) {
    const [p, q] = [x?.get(key), y?.get(key)];
    if (JSON.stringify(p) === JSON.stringify(q)) continue;
    if (VESSEL_FIELDS.has(key)) found.add('vessel');
    else if (LIQUID_FIELDS.has(key)) found.add('liquid');
    else if (key === 'of') found.add(typeof p === 'string' && typeof q === 'string' ? 'liquid' : 'vessel');
    else found.add(typeof p === 'number' || typeof q === 'number' ? 'number' : 'words');
  }
  return [...found];
}

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
