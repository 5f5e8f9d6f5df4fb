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
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-day.js [lines]
 */
const lines = Number(process.argv[2] ?? 20_000);
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
const round = [
  ...['begin the run', 'next step', 'developer is 41.1', 'how long until everything is ready', 'next step'],
  ...['film is loaded', 'prebath is in', 'how long left', 'tank is empty', 'water is in', 'tank is empty'],
  ...[
    'developer is in',
    'spilled 20 ml of developer on the table',
    'note all well',
    'how long left',
    'undo that',
  ],
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
const files = (): number => readdirSync('/proc/self/fd').length;
const mb = (bytes: number): number => Math.round(bytes / 1e5) / 10;
const rows: Record<string, number>[] = [];
for (let n = 0; n < lines; n += 1) {
  conversation.typed(round[n % round.length] as string);
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
