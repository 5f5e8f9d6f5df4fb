import { mkdirSync, readlinkSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Reply } from '../../../src/app/assistant.js';
import { createBench } from '../../../src/app/bench.js';
import { SimulatedClock } from '../../../src/app/clock.js';
import { Conversation } from '../../../src/app/conversation.js';
import { letTimePass } from '../../../src/app/play-script.js';
import { openSession } from '../../../src/app/session.js';
import { openJournal } from '../../../src/ledger/journal.js';
import { isProblem } from '../../../src/ledger/problem.js';

/**
 * Plays a short day into a real journal again and again, with one call of the file layer failing each time (faults.c,
 * preloaded), and prints what became of it as one JSON line a place. Run by the bench and the test:
 *   FAULT_DIR=FOLDER LD_PRELOAD=faults.so node day.js FOLDER [every n-th place] [the first of them]
 */
const folder = process.argv[2] ?? '';
const every = Number(process.argv[3] ?? 1);
const from = Number(process.argv[4] ?? 0) % every;
const KINDS = ['open', 'read', 'write', 'sync', 'truncate', 'rename', 'unlink'] as const;
const ERRNO: Record<(typeof KINDS)[number], readonly number[]> = {
  open: [5, 28],
  read: [5],
  write: [5, 28],
  sync: [5],
  truncate: [5],
  rename: [5],
  unlink: [5],
};
const fault = (what: string): number => Number(readlinkSync(`/fault/${what}`));
const day: (string | number)[] = [
  ...[
    'begin the run',
    'next step',
    'developer is 41.1',
    'next step',
    'film is loaded',
    'prebath is in',
    10_000,
  ],
  ...['tank is empty', 'water is in', 40_000, 'tank is empty', 'developer is in', 95_000],
  ...[
    'spilled 20 ml of developer on the table',
    'note the tub is warm',
    90_000,
    'tank is empty',
    'stop bath is in',
  ],
  ...[40_000, 'tank is empty'],
];
const bench = createBench({ sheet: 'ecn2-ferricyanide' });

interface Played {
  /** why it could not start */
  refused: string | null;
  calls: string[];
  warnings: string[];
  /** events that were handed over to be written, as JSON */
  handed: string[];
}

function play(where: string): Played {
  const played: Played = { refused: null, calls: [], warnings: [], handed: [] };
  const clock = new SimulatedClock();
  const warn = (text: string): void => void (text && played.warnings.push(text));
  let session: ReturnType<typeof openSession>;
  try {
    session = openSession(where, bench.assumed, () => bench, { said: warn });
  } catch (error) {
    played.refused = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
    return played;
  }
  session.doubts.forEach(warn);
  const said = (reply: Reply): void => {
    if (reply.kind === 'call') played.calls.push(`${reply.atMs}@${clock.nowMs()} ${reply.text}`);
    else if (reply.desk === 'talk' && reply.kind === 'warning') warn(reply.text);
  };
  const conversation = new Conversation({
    ...bench,
    clock,
    journal: {
      append(event, facts, state) {
        played.handed.push(JSON.stringify(event));
        return session.port.append(event, facts, state);
      },
    },
    speech: { say: said, prepare() {}, quiet() {}, sayAgain() {}, adjust() {} },
  });
  for (const step of day) {
    if (typeof step === 'number') letTimePass(conversation, clock, step);
    else conversation.typed(step);
    if (step === 'tank is empty') session.journal.tidy();
  }
  warn(session.close() ?? '');
  return played;
}

/** What the next start finds, without any fault. */
function found(where: string): { events: string[]; notes: string[] } {
  const journal = openJournal(where);
  if (isProblem(journal)) return { events: [], notes: [journal.sentence] };
  const events = [...journal.entriesAfter(0)].map((e) => JSON.stringify(e.event));
  const notes = journal.takeNotes();
  journal.close();
  return { events, notes };
}

mkdirSync(folder, { recursive: true });
fault('arm/none/0/0');
const plain = play(join(folder, 'plain'));
const places = KINDS.map((kind) => ({ kind, count: fault(`count/${kind}`) }));
const first = found(join(folder, 'plain'));
process.stdout.write(
  `${JSON.stringify({ plain: true, calls: plain.calls.length, entries: first.events.length, places })}\n`,
);
let place = 0;
for (const { kind, count } of places) {
  for (const errno of ERRNO[kind]) {
    for (let n = 1; n <= count; n += 1) {
      place += 1;
      if (place % every !== from) continue;
      const where = join(folder, `place-${place}`);
      fault(`arm/${kind}/${n}/${errno}`);
      let crashed: string | null = null;
      let played: Played | null = null;
      try {
        played = play(where);
      } catch (error) {
        crashed = error instanceof Error ? (error.stack ?? error.message) : String(error);
      }
      const fired = fault('fired');
      fault('arm/none/0/0');
      const after = found(where);
      const kept = new Set(after.events);
      const lost = played?.handed.filter((e) => !kept.has(e)).length ?? 0;
      const said = [...(played?.warnings ?? []), ...after.notes].join(' ');
      process.stdout.write(
        `${JSON.stringify({
          ...{ kind, errno, n, fired, crashed, refused: played?.refused ?? null },
          callsOnTime:
            played?.refused != null || JSON.stringify(played?.calls) === JSON.stringify(plain.calls),
          ...{ lost, said: lost > 0 ? said : said.slice(0, 160) },
        })}\n`,
      );
      rmSync(where, { recursive: true, force: true });
    }
  }
}
