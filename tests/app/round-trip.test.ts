import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { replayCheck } from '../../src/app/import-check.js';
import { letTimePass } from '../../src/app/play-script.js';
import { readSpan } from '../../src/app/script.js';
import { openSession } from '../../src/app/session.js';
import { normaliseTyped } from '../../src/language/languages/english/typed.js';
import { backupJournal, restoreJournal } from '../../src/ledger/backup.js';
import { checkJournal } from '../../src/ledger/check.js';
import { exportJournal, importJournal } from '../../src/ledger/exchange.js';
import { JOURNAL_FILE, type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { INTENT_TYPES } from '../../src/process/intent.js';
import { invitedIn } from './invited.js';
import { wholeRoll } from './untidy-days/usual.js';

/**
 * A day in which everything that can be said is said, into a real journal: every example sentence of every command, in
 * several situations of a run. Whatever that writes must survive all ways out and in.
 */
const sheet = 'ecn2-ferricyanide';
const bench = createBench({ sheet });
const begun = ['begin the run', 'next step', 'developer is 41.1', 'next step', 'film is loaded'];
const intoDeveloper = [
  'prebath is in',
  12_000,
  'tank is empty',
  'water is in',
  40_000,
  'tank is empty',
  'developer is in',
];
const mixing = [
  'mix 600 ml of developer',
  'confirm',
  'where was I',
  'start over',
  'confirm',
  'put 500 g of borax on the shelf',
];
let dir: string;
let types: Set<string>;
let facts: Set<string>;
/** each sentence that was asked to be said, and the situations in which no grammar had it */
let invited: Map<string, readonly string[]>;

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-round-trip-'));
  const session = openSession(join(dir, 'day'), bench.assumed, () => bench);
  const clock = new SimulatedClock();
  const texts: string[] = [];
  invited = new Map();
  const conversation = new Conversation({
    ...bench,
    clock,
    journal: session.port,
    speech: { say: ({ text }) => texts.push(text), prepare() {}, quiet() {}, sayAgain() {}, adjust() {} },
  });
  const listen = (): void => {
    const open = conversation.situations();
    for (const sentence of texts.splice(0).flatMap(invitedIn)) {
      const words = normaliseTyped(sentence);
      const heard = bench.language.heard(words, open).kind === 'understood';
      invited.set(words, [...(invited.get(words) ?? []), ...(heard ? [] : [open.join(' ')])]);
    }
  };
  const examples = bench.language.records().flatMap((record) => record.examples);
  const thirds = [0, 1, 2].map((n) => examples.filter((_, i) => i % 3 === n));
  const openings = [[], begun, [...begun, ...intoDeveloper]];
  for (const [n, opening] of openings.entries()) {
    for (const step of [...opening, ...thirds.flatMap((_, i) => thirds[(i + n) % 3] ?? [])]) {
      if (typeof step === 'number') letTimePass(conversation, clock, step);
      else conversation.typed(step);
      listen();
      letTimePass(conversation, clock, 700);
      listen();
    }
    for (const step of ['close the run', 'confirm']) {
      conversation.typed(step);
      listen();
    }
  }
  for (const line of ['undo that', ...wholeRoll, ...mixing]) {
    const words = typeof line === 'string' ? line : line[0];
    if (words.startsWith('+')) letTimePass(conversation, clock, readSpan(words.slice(1)) ?? 0);
    else conversation.typed(words);
  }
  const entries = [...session.journal.entriesAfter(0)];
  types = new Set(entries.flatMap(({ event }) => (event.type === 'intent' ? [event.intent.type] : [])));
  facts = new Set([...session.journal.facts()].map(({ fact }) => fact.type));
  session.close();
}, 600_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const opened = (where: string): Journal => {
  const journal = openJournal(join(dir, where));
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
};
const contents = (journal: Journal): string =>
  JSON.stringify([...journal.rowsAfter(0)].map(({ event, facts: told }) => [event, told]));

describe('a day in which everything is said', () => {
  it('has nearly all kinds of intents and of facts in it; what is only talk is never written down', () => {
    expect(types.size).toBeGreaterThan(70);
    expect(
      INTENT_TYPES.filter((t) => types.has(t)).filter((t) =>
        /^(?:help|louder|thanks|greeting|more)$/.test(t),
      ),
    ).toEqual([]);
    expect(facts.size).toBeGreaterThan(15);
  });

  it('hears every sentence that it asks for, where it asks for it', () => {
    expect(invited.size).toBeGreaterThan(15);
    expect([...invited].filter(([, unheard]) => unheard.length > 0)).toEqual([]);
  });

  it('comes through export and import, with the facts worked out anew', async () => {
    const day = opened('day');
    expect(day.takeNotes()).toEqual([]);
    expect(exportJournal(day, join(dir, 'day.jsonl'))).toBe(day.lastSeq);
    const other = opened('imported');
    const read = await importJournal(other, join(dir, 'day.jsonl'), (assumed) =>
      replayCheck(createBench({ sheet, assumed }).assistant, false),
    );
    expect(read).toBe(day.lastSeq);
    expect(contents(other)).toBe(contents(day));
    expect(JSON.stringify(other.bottles())).toBe(JSON.stringify(day.bottles()));
    expect(checkJournal(other.db, other.path).findings).toEqual([]);
    other.close();
    day.close();
  }, 600_000);

  it('comes through backup and restore, and starts', () => {
    const day = opened('day');
    const before = contents(day);
    expect(backupJournal(day, join(dir, 'day.backup'))).toBeGreaterThan(0);
    day.close();
    expect(restoreJournal(join(dir, 'day.backup'), join(dir, 'restored', JOURNAL_FILE))).toMatchObject({
      movedAside: null,
    });
    const session = openSession(join(dir, 'restored'), bench.assumed, () => bench);
    expect(session.doubts.filter((d) => !d.includes('clock'))).toEqual([]);
    expect(contents(session.journal)).toBe(before);
    session.close();
  }, 600_000);
});
