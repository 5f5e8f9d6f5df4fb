import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { equivalents } from './equivalents.js';
import { faults } from './faults.js';
import { type Mutant, mutantsOf } from './mutants.js';
import type { Answer, Task } from './tasks.js';

/**
 * Plants one fault at a time in the guard, the timing and the reducer, and says which ones no test of the project
 * notices. `npm run mutation -- --count 80 --seed 1`; see `--help`.
 */
const help = `npm run mutation -- [options]
  --count N     faults drawn by chance beside those made by hand (80)
  --seed N      another draw (1)
  --all         every fault there is
  --file TEXT   only in files whose path has this in it; more than one with commas
  --part I/N    only every Nth fault, from the Ith
  --jobs N      so many at a time (half the cores)
  --quick       only by the tests that take seconds: what survives may yet be caught
  --only TEXT   only by tests whose path begins so: what they alone notice; more than one with commas
  --verbose     also say what caught each fault
  --list        only say which faults`;

const files = [
  'src/process/guard.ts',
  'src/process/guard-checks.ts',
  'src/process/guard-resolve.ts',
  'src/process/guard-table.ts',
  'src/process/timing.ts',
  'src/process/due.ts',
  'src/process/temperature.ts',
  'src/process/machine.ts',
  'src/process/run-answers.ts',
  'src/process/run-baths.ts',
  'src/process/run-desk.ts',
  'src/process/run-flow.ts',
  'src/process/run-pours.ts',
  'src/process/run-records.ts',
  'src/process/run-state.ts',
  'src/process/run-view.ts',
  'src/world/reduce.ts',
  'src/world/contents.ts',
  'src/world/vessels.ts',
  'src/world/life.ts',
  'src/world/contamination.ts',
  'src/world/film.ts',
];

/** The tests that say what these files must do, quick ones first: one that fails is enough. */
const quick = [
  'tests/process/guard-',
  'tests/process/due',
  'tests/process/film-state',
  'tests/process/clock',
  'tests/process/machine',
  'tests/process/sheet',
  'tests/process/run-desk',
  'tests/process/run-words',
  'tests/process/run-moves',
  'tests/process/run-records',
  'tests/process/run-pours',
  'tests/process/run-answers',
  'tests/process/run-baths',
  'tests/process/run-told',
  'tests/process/run-view',
  'tests/process/own-time',
  'tests/process/asked',
  'tests/process/edges',
  'tests/process/in-the-developer',
  'tests/process/said-whole',
  'tests/process/run-walk',
  'tests/process/timing',
  'tests/world/contents',
  'tests/world/reduce',
  'tests/world/life',
  'tests/ledger/state',
  'tests/ledger/bottle-desk',
  'tests/ledger/plan',
  'tests/outside/ledger-',
  'tests/outside/ecn2-',
];
const chemistry = ['tests/chemistry/'];
const slow = [
  'tests/world/oracle',
  'tests/app/dialogues/',
  'tests/app/untidy-days/',
  'tests/app/dangers',
  'tests/app/undo',
  'tests/app/other-process',
  'tests/screen/view',
  'tests/process/run-properties',
];

const { values: options } = parseArgs({
  options: {
    count: { type: 'string', default: '80' },
    seed: { type: 'string', default: '1' },
    all: { type: 'boolean', default: false },
    file: { type: 'string', default: '' },
    part: { type: 'string', default: '1/1' },
    jobs: { type: 'string', default: String(Math.max(1, availableParallelism() / 2)) },
    quick: { type: 'boolean', default: false },
    only: { type: 'string', default: '' },
    verbose: { type: 'boolean', default: false },
    list: { type: 'boolean', default: false },
    help: { type: 'boolean', default: false },
  },
});
if (options.help) {
  console.log(help);
  process.exit(0);
}

interface Planted {
  file: string;
  text: string;
  /** what it is, for people */
  says: string;
}

const textOf = new Map<string, string>();
function read(file: string): string {
  const known = textOf.get(file) ?? readFileSync(file, 'utf8');
  textOf.set(file, known);
  return known;
}

const brief = (text: string): string => {
  const line = text.replace(/\s+/g, ' ');
  return line.length <= 70 ? line : `${line.slice(0, 67)}…`;
};

function lineOf({ file, start }: Mutant): string {
  const text = read(file);
  return text.slice(text.lastIndexOf('\n', start) + 1, `${text}\n`.indexOf('\n', start)).trim();
}

/** How often the text of a fault stands on its line up to there. */
function nthOf({ file, start, was }: Mutant): number {
  const text = read(file);
  return text.slice(text.lastIndexOf('\n', start) + 1, start + was.length).split(was).length - 1;
}

const isEquivalent = (m: Mutant): boolean =>
  equivalents.some(
    (e) =>
      e.file === m.file &&
      e.line === lineOf(m) &&
      e.was === m.was &&
      e.now === m.now &&
      (e.nth === undefined || e.nth === nthOf(m)),
  );

const planted = (m: Mutant): Planted => {
  const text = read(m.file);
  return {
    file: m.file,
    text: text.slice(0, m.start) + m.now + text.slice(m.end),
    says: `${m.file}:${m.line} ${m.kind}: ${brief(m.was)} → ${brief(m.now)}   in: ${brief(lineOf(m))}`,
  };
};

function byHand(): Planted[] {
  return faults.map(({ file, what, was, now }) => {
    const text = read(file);
    const at = text.indexOf(was);
    if (at < 0 || text.indexOf(was, at + 1) >= 0)
      throw new Error(`expected “${was}” once in ${file}, for the fault “${what}”`);
    return { file, text: text.replace(was, () => now), says: `by hand: ${what} (${file})` };
  });
}

/** One from each of `count` stretches of equal length, so that the draw is spread over files and places. */
function draw(from: readonly Mutant[], count: number, random: () => number): Mutant[] {
  if (count >= from.length) return [...from];
  return Array.from({ length: count }, (_, i) => {
    const at = Math.floor(((i + random()) * from.length) / count);
    return from[at] as Mutant;
  });
}

/** Small seeded generator (xorshift), uniform in [0, 1). */
function seeded(seed: number): () => number {
  let x = Math.imul(seed + 1, 0x9e3779b1) | 1;
  const next = () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 4294967296;
  };
  for (let i = 0; i < 20; i++) next();
  return next;
}

const named = options.file.split(',');
const chosen = files.filter((f) => named.some((n) => f.includes(n)));
const every = chosen.flatMap((file) => mutantsOf(file, read(file)));
const equivalent = every.filter(isEquivalent);
const counted = every.filter((m) => !isEquivalent(m));
const drawn = options.all ? counted : draw(counted, Number(options.count), seeded(Number(options.seed)));
const hand = options.file === '' ? byHand() : [];
const [part = 1, parts = 1] = options.part.split('/').map(Number);
const tried = [...hand, ...drawn.map(planted)].filter((_, i) => i % parts === part - 1);
console.log(
  `${every.length} faults of fixed kinds in ${chosen.length} files, ${equivalent.length} of them change nothing (equivalents.ts); ` +
    `tried: ${tried.length}${hand.length > 0 ? `, of which ${hand.length / parts} made by hand` : ''}`,
);
if (options.list) {
  for (const one of tried) console.log(one.says);
  process.exit(0);
}

const tests = options.only !== '' ? options.only.split(',') : options.quick ? quick : [...quick, ...slow];
const roomOf = (path: string): string => path.split('/')[1] ?? '';
const wordOf = (path: string): string | undefined => path.split('/').at(-1)?.split(/[-.]/)[0];
/** The tests that are nearest to the file first: of its name, of its room, the others. */
const testsFor = (file: string): string[] => {
  if (options.only !== '') return tests;
  const near = (test: string) =>
    Number(roomOf(test) === roomOf(file)) + Number(wordOf(test) === wordOf(file));
  const own = roomOf(file) === 'chemistry' ? chemistry : quick.filter((t) => near(t) > 0);
  return [...new Set([...own.toSorted((x, y) => near(y) - near(x)), ...tests])];
};
/** A fault that makes a test go round for ever is caught too: so many times as long as all tests take. */
const patience = 4;

class Worker {
  #child: ChildProcess | null = null;
  #waiting: ((answer: Answer | null) => void) | null = null;

  async #started(): Promise<ChildProcess> {
    if (this.#child) return this.#child;
    const child = fork(fileURLToPath(new URL('child.js', import.meta.url)), {
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    this.#child = child;
    await new Promise<void>((ready, failed) => {
      child.once('message', () => ready());
      child.once('exit', () => failed(new Error('the test runner does not start')));
    });
    child.on('message', (answer: Answer) => this.#waiting?.(answer));
    child.once('exit', () => this.#waiting?.(null));
    return child;
  }
  /** null: it took longer than `limitS`, or the runner broke. */
  async try(task: Task, limitS: number): Promise<Answer | null> {
    const child = await this.#started();
    const answer = await new Promise<Answer | null>((done) => {
      const timer = setTimeout(() => done(null), limitS * 1000);
      this.#waiting = (a) => {
        clearTimeout(timer);
        done(a);
      };
      child.send(task);
    });
    this.#waiting = null;
    if (answer === null) this.end();
    return answer;
  }
  end() {
    this.#child?.kill('SIGKILL');
    this.#child = null;
  }
}

const without: string[] = [];
const first = new Worker();
async function unharmed(): Promise<Answer> {
  const answer = await first.try({ id: -1, file: '', text: null, tests, without }, 3600);
  if (!answer) throw new Error('the test runner broke without any fault');
  if (answer.caughtBy === null) return answer;
  const [file = ''] = answer.caughtBy.split(' › ');
  if (without.includes(file)) throw new Error(`expected the tests to pass, got ${answer.caughtBy}`);
  console.log(`LEFT OUT ${file}, which fails without any fault: ${answer.caughtBy}`);
  without.push(file);
  return unharmed();
}
const baseline = await unharmed();
console.log(`without a fault ${baseline.passed} test files pass in ${baseline.seconds.toFixed(1)} s`);

const survivors: { n: number; says: string }[] = [];
let [caught, timedOut, next] = [0, 0, 0];
const startedMs = performance.now();

async function work(worker: Worker, limitS: number) {
  for (let n = next++; n < tried.length; n = next++) {
    const one = tried[n] as Planted;
    const answer = await worker.try(
      { id: n, file: one.file, text: one.text, tests: testsFor(one.file), without },
      limitS,
    );
    if (answer === null) timedOut++;
    else if (answer.caughtBy !== null) caught++;
    else survivors.push({ n, says: one.says });
    if (answer !== null && answer.caughtBy === null) console.log(`SURVIVED ${one.says}`);
    else if (options.verbose)
      console.log(
        `caught   ${one.says}\n         by ${answer?.caughtBy ?? `time or a broken runner, ${limitS.toFixed(0)} s`} (${answer?.seconds.toFixed(1) ?? '-'} s)`,
      );
  }
  worker.end();
}

const jobs = Math.max(1, Math.min(Math.floor(Number(options.jobs)), tried.length));
const limitS = Math.max(30, baseline.seconds * patience);
await Promise.all(Array.from({ length: jobs }, (_, i) => work(i === 0 ? first : new Worker(), limitS)));

const total = tried.length;
const killed = caught + timedOut;
console.log(
  `seed ${options.seed}: caught ${killed} of ${total} = ${((100 * killed) / Math.max(1, total)).toFixed(1)} %` +
    ` (${timedOut} of them by going on for ever or breaking the runner); survived ${survivors.length};` +
    ` ${((performance.now() - startedMs) / 1000 / Math.max(1, total)).toFixed(1)} s each with ${jobs} at a time`,
);
process.exit(0);
