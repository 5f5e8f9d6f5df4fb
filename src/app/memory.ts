import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

let collect: (() => void) | null = null;

/**
 * Gives back what is no longer used, in some tens of ms. V8 would keep it resident until the heap grows again, which
 * after a start may take minutes; it has no other call for this.
 */
export function collectGarbage(): void {
  if (!collect) {
    setFlagsFromString('--expose-gc');
    collect = runInNewContext('gc') as () => void;
  }
  collect();
}
