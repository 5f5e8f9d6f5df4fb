import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { derivedDamage } from '../../src/ledger/check.js';
import { JOURNAL_FILE, type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { loadLedger, refold } from '../../src/ledger/projection.js';
import type { Fact } from '../../src/world/fact.js';
import { history } from './arbitraries.js';

const opened = (folder: string): Journal => {
  const journal = openJournal(folder);
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
};

/** What a program before a change of its code leaves: state that bears another mark. */
function leaveAsAnotherProgram(folder: string): void {
  const db = new DatabaseSync(join(folder, JOURNAL_FILE));
  db.exec("UPDATE snapshots SET version = '1 another'; UPDATE ledger_base SET sum = sum + 1");
  db.close();
}

type Step = { do: 'write'; facts: Fact[] } | { do: 'keep' | 'restart' | 'change' | 'tidy' };

const write = (facts: Fact[]): Step => ({ do: 'write', facts });

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 6, arbitrary: history.map(write) },
  { weight: 3, arbitrary: fc.constant(write([])) },
  {
    weight: 2,
    arbitrary: fc.constantFrom<Step>({ do: 'keep' }, { do: 'restart' }, { do: 'tidy' }),
  },
  { weight: 2, arbitrary: fc.constant<Step>({ do: 'change' }) },
);

/** Enough facts for a bench written whole, a change of the program, then an entry that only tells the time. */
const longThenChanged: Step[] = [
  write(
    Array.from({ length: 200 }, (_, i): Fact[] => [
      {
        type: 'bottle-set',
        bottle: 3,
        liquid: 'fixer',
        volumeMl: 300 + i,
        capacityMl: 1000,
      },
      {
        type: 'spilled',
        from: { kind: 'bottle', number: 3 },
        liquid: 'fixer',
        volumeMl: 5,
      },
    ]).flat(),
  ),
  { do: 'change' },
  write([]),
  { do: 'restart' },
];

it('keeps a bench that follows from the entries after every one of them, over restarts and changes of the program', () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 12, maxLength: 24, size: 'max' }), (steps) => {
      const folder = mkdtempSync(join(tmpdir(), 'tankside-kept-'));
      let journal = opened(folder);
      try {
        steps.forEach((one, i) => {
          if (one.do === 'write')
            journal.append([
              {
                event: {
                  type: 'time',
                  atMs: i * 1000,
                  wallMs: 1_700_000_000_000 + i * 1000,
                },
                source: 'clock',
                facts: one.facts,
              },
            ]);
          if (one.do === 'keep') journal.saveSnapshot({ seq: journal.lastSeq, states: {} });
          if (one.do === 'tidy') journal.tidy();
          if (one.do === 'restart' || one.do === 'change') {
            if (one.do === 'change') journal.saveSnapshot({ seq: journal.lastSeq, states: {} });
            journal.close();
            if (one.do === 'change') leaveAsAnotherProgram(folder);
            journal = opened(folder);
          }
          const follows = JSON.stringify(refold(journal.db).bench);
          expect(JSON.stringify(loadLedger(journal.db).state.bench)).toBe(follows);
          expect(JSON.stringify(journal.ledger.bench)).toBe(follows);
          expect(derivedDamage(journal.db)).toBeNull();
          expect(journal.takeNotes()).toEqual([]);
        });
      } finally {
        journal.close();
        rmSync(folder, { recursive: true, force: true });
      }
    }),
    { numRuns: 4, examples: [[longThenChanged]], endOnFailure: true },
  );
}, 60_000);
