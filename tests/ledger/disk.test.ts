import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { checkJournal } from '../../src/ledger/check.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { buildChild } from './crash/build-child.js';

let root: string;
let child: string;
let dir: string;
const strace =
  spawnSync('strace', ['-o', '/dev/null', '-e', 'inject=write:signal=SIGKILL:when=9999', 'true']).status ===
  0;
if (!strace) console.log('strace is missing or may not trace: disk faults are not injected');

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'tankside-disk-'));
  child = buildChild(join(root, 'program'));
});
afterAll(() => rmSync(root, { recursive: true, force: true }));
beforeEach(() => {
  dir = mkdtempSync(join(root, 'bench-'));
});
afterEach(() => chmodSync(dir, 0o755));

function opened(options = {}): Journal {
  const journal = openJournal(dir, options);
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
}

/** Runs the journaling child with one kind of call failing; what it printed. */
function withFault(fault: string, entries = 12, at: string[] = []): { lines: string[]; promised: number } {
  const out = spawnSync(
    'strace',
    ['-f', '-qq', '-o', '/dev/null', ...at, '-e', fault, process.execPath, child, dir, String(entries)],
    { encoding: 'utf8' },
  );
  const lines = out.stdout.trim().split('\n');
  return { lines, promised: lines.filter((line) => /^\d/.test(line)).length };
}

/** After a fault the journal must hold every promise, be sound, and go on. */
function expectWhole(promised: number): void {
  const journal = opened();
  expect(journal.lastSeq).toBeGreaterThanOrEqual(promised);
  expect(checkJournal(journal.db, journal.path).findings).toEqual([]);
  const next = journal.append([
    { event: { type: 'time', atMs: 1e9, wallMs: 1e12 }, source: 'clock', facts: [] },
  ]);
  expect(next).toBe(journal.lastSeq);
  journal.close();
}

describe.skipIf(!strace)('a failing disk', () => {
  it('that is full from the first write is named at once', () => {
    const { lines, promised } = withFault('inject=pwrite64:error=ENOSPC:when=1+');
    expect(lines.at(-1)).toMatch(/^problem disk-full The disk that holds .* is full/);
    expect(promised).toBe(0);
    expectWhole(0);
  });

  it.each([120, 180, 240])(
    'that fills up at write %i loses nothing confirmed and half-applies nothing',
    (n) => {
      const { lines, promised } = withFault(`inject=pwrite64:error=ENOSPC:when=${n}+`);
      expect(lines.at(-1)).toMatch(/^problem disk-full .*Nothing before it is lost/);
      expect(promised).toBeGreaterThan(0);
      expectWhole(promised);
    },
  );

  it('that fails to sync is not believed', () => {
    const { lines, promised } = withFault('inject=fsync,fdatasync:error=EIO:when=12+');
    expect(lines.at(-1)).toMatch(/^problem disk-error The disk did not take the last entry/);
    expectWhole(promised);
  });

  it('that is read-only is named, and can still be read', () => {
    const before = opened();
    before.append([{ event: { type: 'time', atMs: 1, wallMs: 1 }, source: 'clock', facts: [] }]);
    const { path } = before;
    before.close();
    const at = ['-P', `${path}.lock`, '-P', path, '-P', `${path}-wal`, '-P', `${path}.pid`];
    const { lines } = withFault('inject=openat:error=EROFS', 3, at);
    expect(lines).toEqual([
      expect.stringMatching(/^problem read-only .* cannot be written: .*It can still be read\.$/),
    ]);
    const reader = opened({ readOnly: true });
    expect(reader.lastSeq).toBe(1);
    reader.close();
  });
});

it.skipIf(!strace)('every promise is made after a sync to the disk', () => {
  const log = join(dir, 'calls');
  spawnSync('strace', [
    '-f',
    '-qq',
    '-o',
    log,
    '-e',
    'trace=fsync,fdatasync,write',
    process.execPath,
    child,
    dir,
    '9',
  ]);
  const calls = readFileSync(log, 'utf8')
    .split('\n')
    .flatMap((line) =>
      / f(data)?sync\(/.test(line) ? ['sync'] : / write\(1, "\d+ /.test(line) ? ['promise'] : [],
    );
  expect(calls.filter((call) => call === 'promise')).toHaveLength(9);
  calls.forEach((call, i) => {
    if (call === 'promise') expect(calls[i - 1]).toBe('sync');
  });
});

it.skipIf(process.getuid?.() === 0)('a folder without permission to write is named', () => {
  chmodSync(dir, 0o555);
  const journal = openJournal(dir);
  expect(isProblem(journal) && journal.problem).toBe('read-only');
});

it('a path that runs through a file is named', () => {
  mkdirSync(join(dir, 'a'));
  opened().close();
  const journal = openJournal(join(dir, 'tankside.journal', 'deeper'));
  expect(isProblem(journal) && journal.sentence).toMatch(/Check the name/);
});

it('two processes: the second is told which one writes, and the first goes on', async () => {
  const holder = spawn(process.execPath, [
    '--input-type=module',
    '-e',
    `import { openJournal } from ${JSON.stringify(join(root, 'program/src/ledger/journal.js'))};
     const j = openJournal(${JSON.stringify(dir)});
     process.stdin.on('data', () => {
       console.log(j.append([{ event: { type: 'time', atMs: 1, wallMs: 1 }, source: 'clock', facts: [] }]));
     });
     console.log('ready');`,
  ]);
  try {
    await line(holder);
    const second = spawnSync(process.execPath, [child, dir, '3'], { encoding: 'utf8' });
    expect(second.stdout).toMatch(
      new RegExp(`^problem in-use Another tankside \\(process ${holder.pid}\\) is already writing`),
    );
    expect(second.status).toBe(3);
    holder.stdin.write('go\n');
    expect(await line(holder)).toBe('1');
  } finally {
    holder.kill('SIGKILL');
    await new Promise((resolve) => holder.once('close', resolve));
  }
  const after = opened();
  expect(after.lastSeq).toBe(1);
  after.close();
});

const line = (from: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    from.stdout?.once('data', (chunk: Buffer) => resolve(chunk.toString().trim()));
    from.once('error', reject);
  });
