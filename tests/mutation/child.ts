import { createVitest, type TestSpecification, type Vitest } from 'vitest/node';
import type { Answer, Task } from './tasks.js';

/** What stands in the place of a file's own text while a fault is tried. Nothing is written to disk. */
let fault: { path: string; text: string } | null = null;

const root = process.cwd();
const vitest: Vitest = await createVitest(
  'test',
  {
    config: 'tests/vitest.config.ts',
    watch: false,
    bail: 1,
    // one worker that loads the modules once for all files: the rooms under test keep nothing between tests
    pool: 'threads',
    isolate: false,
    maxWorkers: 1,
    fileParallelism: false,
    reporters: [{}],
    sequence: { sequencer: InOrder() },
  },
  {
    logLevel: 'error',
    plugins: [
      {
        name: 'fault',
        enforce: 'pre',
        load: (id: string) => (fault !== null && id.split('?')[0] === fault.path ? fault.text : null),
      },
    ],
  },
);

function InOrder() {
  return class {
    shard(files: TestSpecification[]) {
      return files;
    }
    sort(files: TestSpecification[]) {
      return files;
    }
  };
}

const known = await vitest.globTestSpecifications();

/** The test files whose path begins so, in the order of the list. */
const under = (starts: readonly string[]): TestSpecification[] =>
  starts.flatMap((start) =>
    known
      .filter((s) => s.moduleId.startsWith(`${root}/${start}`))
      .sort((a, b) => a.moduleId.localeCompare(b.moduleId)),
  );

async function answerTo(task: Task): Promise<Answer> {
  const before = fault;
  fault = task.text === null ? null : { path: `${root}/${task.file}`, text: task.text };
  for (const one of [before, fault]) if (one) vitest.invalidateFile(one.path);
  const startedMs = performance.now();
  const specs = under(task.tests).filter((s) => !task.without.includes(s.moduleId.slice(root.length + 1)));
  // vitest gives back every file it ever ran: only what runs now tells of this fault
  vitest.state.filesMap.clear();
  vitest.state.clearErrors();
  const run = await vitest.runTestSpecifications(specs);
  const seconds = (performance.now() - startedMs) / 1000;
  const failed = run.testModules.find((m) => m.state() === 'failed' || m.errors().length > 0);
  const test = failed && [...failed.children.allTests('failed')][0];
  const by = failed && `${failed.moduleId.slice(root.length + 1)}${test ? ` › ${test.fullName}` : ''}`;
  const error = run.unhandledErrors[0];
  const passed = run.testModules.filter((m) => m.state() === 'passed').length;
  return { id: task.id, seconds, passed, caughtBy: by ?? (error === undefined ? null : String(error)) };
}

process.on('disconnect', () => process.exit(0));
process.on('message', (task: Task) => {
  answerTo(task).then(
    (answer) => process.send?.(answer),
    (error: unknown) => {
      console.error(error);
      process.exit(1);
    },
  );
});
process.send?.('ready');
