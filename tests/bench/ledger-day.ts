import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { collectGarbage } from '../../src/app/memory.js';
import { letTimePass } from '../../src/app/play-script.js';
import { openSession } from '../../src/app/session.js';

/**
 * A day of eight hours on a simulated clock with 20,000 typed lines into a real journal: what it keeps in memory, its
 * open files, its children, and what the journal takes.
 * With `open`, all of them within one run that is never closed.
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-day.js [lines] [open]
 */
const lines = Number(process.argv[2] ?? 20_000);
const oneRun = process.argv[3] === 'open';
const dayMs = 8 * 3_600_000;
const dir = mkdtempSync(join(tmpdir(), 'tankside-day-'));
const bench = createBench({ sheet: 'ecn2-ferricyanide' });
const session = openSession(dir, bench.assumed, () => bench);
const clock = new SimulatedClock();
let replies = 0;
const conversation = new Conversation({
  ...bench,
  clock,
  journal: session.port,
  speech: { say: () => void replies++, prepare() {}, quiet() {}, sayAgain() {}, adjust() {} },
});
const begun = [
  ...['begin the run', 'next step', 'developer is 41.1', 'how long until everything is ready', 'next step'],
  ...['film is loaded', 'prebath is in', 'how long left', 'tank is empty', 'water is in', 'tank is empty'],
];
const inTank = ['developer is in'];
const round = [
  ...begun,
  ...inTank,
  ...['spilled 20 ml of developer on the table', 'note all well', 'how long left', 'undo that'],
  ...[
    'tank is empty',
    'stop bath is in',
    'tank is empty',
    'where are we',
    'close the run',
    'confirm',
    'what is in bottle three',
  ],
];
const within = [
  ...[
    'note all well',
    'how long left',
    'spilled 20 ml of water on the table',
    'the spill is cleaned up',
    'undo that',
  ],
  ...[
    'developer is 41.1',
    'where are we',
    'bottle 5 is at 39',
    'what is in bottle three',
    'note one more',
    'more',
  ],
  ...[
    'tank is empty',
    'water is in',
    'how much fixer is left',
    'the heater is on',
    'is the fixer ready',
    'note dry',
  ],
  ...[
    'what time is it',
    'bottle 6 is at 38',
    'how long left',
    'where are we',
    'developer is 41.0',
    'tank is empty',
  ],
  ...[
    'water is in',
    'how old is the fixer',
    'note another',
    'the heater is off',
    'what is in bottle two',
    'confirm',
  ],
];
const said = (n: number): string => {
  const opening = [...begun, ...inTank];
  if (!oneRun) return round[n % round.length] as string;
  return opening[n] ?? (within[(n - opening.length) % within.length] as string);
};
const files = (): number => readdirSync('/proc/self/fd').length;
const mb = (bytes: number): number => Math.round(bytes / 1e5) / 10;
const rows: Record<string, number>[] = [];
for (let n = 0; n < lines; n += 1) {
  conversation.typed(said(n));
  letTimePass(conversation, clock, dayMs / lines);
  if (n % 50 === 0) session.journal.tidy();
  if ((n + 1) % Math.ceil(lines / 10) === 0) {
    collectGarbage();
    const { rss, heapUsed } = process.memoryUsage();
    rows.push({
      ...{
        lines: n + 1,
        entries: session.journal.lastSeq,
        heapMb: mb(heapUsed),
        rssMb: mb(rss),
        openFiles: files(),
      },
      ...{
        journalMb: mb(statSync(session.journal.path).size),
        stateKb: Math.round(JSON.stringify(conversation.state).length / 1000),
      },
    });
    console.log(JSON.stringify(rows.at(-1)));
  }
}
session.close();
console.table(rows);
console.log(`${replies} replies; children left: ${childrenOf(process.pid)}`);
rmSync(dir, { recursive: true, force: true });
const [, second] = rows;
const end = rows.at(-1);
if (second && end)
  console.log(`heap at the end / after two tenths: ${((end.heapMb ?? 0) / (second.heapMb ?? 1)).toFixed(2)}`);

/** Processes whose parent this is. */
function childrenOf(pid: number): number {
  return readdirSync('/proc').filter((name) => {
    try {
      // the name of the program stands in brackets, then the state, then the parent
      const parent = /\) \S (\d+)/.exec(readFileSync(`/proc/${name}/stat`, 'latin1'))?.[1];
      return Number(parent) === pid;
    } catch {
      return false;
    }
  }).length;
}
