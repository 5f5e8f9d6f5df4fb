import type { FileEntry, ImportCheck } from '../ledger/exchange.js';
import { asIntent, type Intent } from '../process/intent.js';
import type { Fact } from '../world/fact.js';
import type { Assistant } from './assistant.js';

/**
 * Plays the events of a file through the assistant, as every later start will: what it cannot take is refused, and the
 * facts must be those that follow. `recompute`: they are replaced by those that follow.
 */
export function replayCheck(assistant: Assistant, recompute: boolean): ImportCheck {
  return (entries) => {
    let state = assistant.initial;
    const facts: Fact[][] = [];
    for (const entry of entries) {
      const wrong = wrongEvent(entry);
      if (wrong !== null) return { seq: entry.seq, what: wrong };
      try {
        const outcome = assistant.apply(state, entry.event);
        // what other programs read must be data that is still the same after writing and reading
        const followed = JSON.parse(JSON.stringify(outcome.facts)) as Fact[];
        if (!recompute && JSON.stringify(followed) !== JSON.stringify(entry.facts))
          return {
            seq: entry.seq,
            what: 'its facts do not follow from what was said. A file of an older tankside is read with --recompute, which works them out anew; one of another process sheet with --sheet.',
          };
        facts.push(followed);
        ({ state } = outcome);
      } catch {
        return { seq: entry.seq, what: 'no tankside could have written this event.' };
      }
    }
    return facts;
  };
}

function wrongEvent({ event }: FileEntry): string | null {
  if (event.type !== 'intent') return null;
  const { heard, intent } = event;
  const plain = typeof heard === 'object' && heard !== null && typeof heard.words === 'string';
  if (!plain || !['typed', 'voice'].includes(heard.by) || !Array.isArray(heard.close))
    return 'it does not say how its words came in.';
  return isIntent(intent, 0) ? null : 'it names nothing that can be said.';
}

const mostNested = 3;

function isIntent(value: unknown, depth: number): value is Intent {
  if (typeof value !== 'object' || value === null || depth > mostNested) return false;
  const { type, ...fields } = value as { type?: unknown; candidates?: unknown; intents?: unknown };
  if (type === 'unsure' || type === 'several') {
    const inner = type === 'unsure' ? fields.candidates : fields.intents;
    return Array.isArray(inner) && inner.every((i) => isIntent(i, depth + 1));
  }
  return typeof type === 'string' && asIntent(type, fields) !== undefined;
}
