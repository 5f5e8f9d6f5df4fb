import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { AssistantState } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { openSession } from '../../src/app/session.js';
import { checksum } from '../../src/ledger/entry.js';
import { programMark } from '../../src/ledger/program-mark.js';
import type { LedgerState } from '../../src/ledger/state.js';
import type { DeskEvent, Heard } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide' });
let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-older-'));
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const open = () => {
  const said: string[] = [];
  const session = openSession(dir, bench.assumed, () => bench, { said: (s) => said.push(s) });
  let { state } = session;
  return {
    session,
    said,
    get state() {
      return state;
    },
    say(intent: Intent): string {
      const heard: Heard = { by: 'typed', words: '', confidence: 1, close: [] };
      const nowMs = session.clock.nowMs();
      const event: DeskEvent = {
        type: 'intent',
        intent,
        atMs: nowMs,
        wallMs: session.clock.wallMs(),
        heard,
      };
      const out = bench.assistant.apply(state, event);
      state = out.state;
      session.port.append(event, out.facts, state);
      return out.replies.map((r) => r.text).join(' ');
    },
  };
};

/** Every world in what a program kept, without what a later one has put into it. */
function olden(kept: unknown): unknown {
  if (Array.isArray(kept)) return kept.map(olden);
  if (typeof kept !== 'object' || kept === null) return kept;
  const fields = Object.entries(kept).filter(
    ([key]) => !['handling', 'doubts', 'tanksAside', 'tankKey', 'readings', 'problems'].includes(key),
  );
  return Object.fromEntries(fields.map(([key, value]) => [key, olden(value)]));
}

/** The file as a program before this one left it: its own mark, its own shapes, in every place where state is kept. */
function asLeftByAnOlderBuild(): void {
  const db = new DatabaseSync(join(dir, 'tankside.journal'));
  const older = (version: string): string => version.replace(programMark(), 'older');
  type Kept = { id: number; seq: number; version: string; states: string };
  for (const row of db.prepare('SELECT id, seq, version, states FROM snapshots').all() as Kept[]) {
    const text = JSON.stringify(olden(JSON.parse(row.states) as AssistantState));
    db.prepare('UPDATE snapshots SET version = ?, states = ?, sum = ? WHERE id = ?').run(
      older(row.version),
      text,
      checksum(row.seq, older(row.version), text),
      row.id,
    );
  }
  const base = db.prepare('SELECT fact, state FROM ledger_base').get() as
    | { fact: number; state: string }
    | undefined;
  if (base) {
    const text = JSON.stringify(olden(JSON.parse(base.state) as LedgerState));
    db.prepare('UPDATE ledger_base SET state = ?, sum = ?').run(text, checksum(base.fact, text));
  }
  for (const { number, record } of db.prepare('SELECT number, record FROM bottles').all() as {
    number: number;
    record: string;
  }[])
    db.prepare('UPDATE bottles SET record = ? WHERE number = ?').run(
      JSON.stringify(olden(JSON.parse(record))),
      number,
    );
  db.close();
}

const developing: Intent[] = [
  { type: 'begin-run' },
  { type: 'film-loaded' },
  { type: 'pour-in', liquid: 'developer', from: { kind: 'bottle', number: 2 } },
  { type: 'override' },
  { type: 'bath-in' },
];

describe('a journal that an older build has written', () => {
  it.each([
    ['a short one', 0],
    ['one long enough for a bench written whole', 300],
  ])('goes on from its entries, with nothing called damaged: %s', (_, readings) => {
    const first = open();
    for (let i = 0; i < readings; i += 1)
      first.say({ type: 'bottle-holds', bottle: 6, liquid: 'stop', volumeMl: 300 + i });
    for (const intent of developing) first.say(intent);
    expect(first.state.world.tank.bath?.liquid).toBe('developer');
    const before = first.state.world;
    first.session.close();
    asLeftByAnOlderBuild();

    const again = open();
    expect(again.session.doubts).toEqual([]);
    expect(again.said).toEqual([]);
    expect(again.state.world).toEqual(before);
    expect(again.session.journal.ledger.bench.bottles).toEqual(before.bottles);
    expect(again.say({ type: 'temperature', of: { kind: 'tank' }, tempC: 41 })).toMatch(/41/);
    again.session.close();
    expect(open().session.doubts).toEqual([]);
  });
});
