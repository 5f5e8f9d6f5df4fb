import { readlinkSync, writeSync } from 'node:fs';
import { resumeClock } from '../../../src/ledger/clock.js';
import { openJournal } from '../../../src/ledger/journal.js';
import { isProblem } from '../../../src/ledger/problem.js';
import { systemMoment } from '../../../src/ledger/system-clock.js';
import { entryFor, STARTS_EVERY, type Tally, tallyAfter } from './scenario.js';

/**
 * Works as the app does: pick up where the journal ends, then append, and only after that tell. Each line it
 * prints is a promise: "seq atMs upMs" of an entry that must still be there after any kill.
 *   node child.js FOLDER ENTRIES
 */
const [folder = '', count = '20'] = process.argv.slice(2);
const journal = openJournal(folder, { stateVersion: 'tally' });
if (isProblem(journal)) {
  writeSync(1, `problem ${journal.problem} ${journal.sentence}\n`);
  process.exit(3);
}

const last = journal.lastMoment;
const opened = systemMoment();
let offsetMs = last === null ? -opened.upMs : resumeClock(last, opened).atMs - opened.upMs;
if (!Number.isFinite(offsetMs)) offsetMs = 0;

const snapshot = journal.latestSnapshot();
let tally: Tally = (snapshot?.states as Tally | undefined) ?? { events: 0, startedAtMs: null };
for (const entry of journal.entriesAfter(snapshot?.seq ?? 0))
  tally = tallyAfter(tally, entry.seq, entry.event.atMs);

for (let i = 0; i < Number(count); i += 1) {
  const now = systemMoment();
  const atMs = now.upMs + offsetMs;
  const seq = journal.append([entryFor(journal.lastSeq + 1, atMs, now)]);
  if (isProblem(seq)) {
    writeSync(1, `problem ${seq.problem} ${seq.sentence}\n`);
    process.exit(4);
  }
  tally = tallyAfter(tally, seq, atMs);
  writeSync(1, `${seq} ${atMs} ${now.upMs}\n`);
  if (seq % STARTS_EVERY === 7) journal.saveSnapshot({ seq, states: tally });
  if (seq % STARTS_EVERY === 9) journal.tidy();
}
journal.close();

if (process.env.FAULT_DIR !== undefined) {
  const kinds = ['open', 'write', 'sync', 'truncate', 'rename', 'unlink'];
  const counts = kinds.map((kind) => [kind, Number(readlinkSync(`/fault/count/${kind}`))]);
  writeSync(1, `${JSON.stringify(Object.fromEntries(counts))}\n`);
}
