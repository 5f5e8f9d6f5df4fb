import type { Moment } from '../../../src/ledger/clock.js';
import type { NewEntry } from '../../../src/ledger/entry.js';
import type { Fact } from '../../../src/world/fact.js';

/**
 * A bench that can be worked out from an entry's number alone, so that a parent can tell what a killed child
 * must have left behind. Every tenth entry starts a developer step; the others pour, spill, set and undo.
 */
export const DEVELOPER_MS = 180_000;
export const STARTS_EVERY = 10;

export function factsFor(seq: number): Fact[] {
  const runId = `run-${Math.ceil(seq / 40)}`;
  const pour = (to: 'in' | 'back'): Fact => ({
    type: 'poured',
    runId,
    from: to === 'in' ? { kind: 'bottle', number: 2 } : { kind: 'tank' },
    to: to === 'in' ? { kind: 'tank' } : { kind: 'bottle', number: 2 },
    liquid: 'developer',
    volumeMl: 500 + (seq % 7),
    overridden: false,
  });
  switch (seq % STARTS_EVERY) {
    case 1:
      return [
        {
          type: 'run-started',
          runId,
          sheetId: 'crash',
          tankMl: 600,
          films: [{ stock: 'test', format: '35mm' }],
        },
        { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 900, capacityMl: 1000 },
        { type: 'bottle-set', bottle: 3, liquid: 'fixer', volumeMl: 800 + (seq % 90), capacityMl: 1000 },
      ];
    case 2:
      return [
        pour('in'),
        { type: 'step-started', runId, stepId: 'developer', liquid: 'developer', tempC: 41.1 },
      ];
    case 4:
      return [{ type: 'spilled', runId, from: { kind: 'tank' }, liquid: 'developer', volumeMl: 5 }];
    case 5:
      return [{ type: 'undone', runId, what: 'spill', facts: factsFor(seq - 1) }];
    case 6:
      return [
        pour('back'),
        { type: 'step-ended', runId, stepId: 'developer', plannedS: 180, actualS: 181, heldS: 0 },
      ];
    case 8:
      return [{ type: 'temperature', vessel: { kind: 'bottle', number: 3 }, tempC: 38 }];
    case 0:
      return [{ type: 'run-finished', runId, complete: true }];
    default:
      return [];
  }
}

export const entryFor = (seq: number, atMs: number, now: Moment): NewEntry => ({
  event:
    factsFor(seq).length === 0
      ? { type: 'time', atMs, wallMs: now.wallMs }
      : {
          type: 'intent',
          intent: { type: 'note', text: `entry ${seq}` },
          atMs,
          wallMs: now.wallMs,
          heard: { by: 'typed', words: `note entry ${seq}`, confidence: 1, close: [] },
        },
  source: 'typed',
  facts: factsFor(seq),
  upMs: now.upMs,
  bootId: now.bootId,
});

/** What a desk would keep: the last developer start and how many events it has seen. */
export interface Tally {
  events: number;
  startedAtMs: number | null;
}

export const tallyAfter = (tally: Tally, seq: number, atMs: number): Tally => ({
  events: tally.events + 1,
  startedAtMs: seq % STARTS_EVERY === 2 ? atMs : tally.startedAtMs,
});
