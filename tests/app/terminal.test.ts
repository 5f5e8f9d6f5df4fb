import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { harmless, plainLine } from '../../src/app/screen.js';
import { BoundedLines } from '../../src/app/terminal.js';

const main = new URL('../../dist/app/main.js', import.meta.url).pathname;
const untilInDeveloper = [
  ...['begin the run', 'next step', 'next step', 'film is loaded', 'prebath is in', 'tank is empty'],
  ...['water is in', 'tank is empty', 'developer is in'],
];
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tankside-terminal-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The real command behind a terminal of its own (`script`, util-linux), spoken to by keys. */
function atATerminal(data: string) {
  const command = `stty cols 400; echo SHELL; ${process.execPath} ${main} run --text --data ${join(folder, data)}; echo "LEFT $?"; stty -a`;
  const child = spawn('script', ['-qfec', `bash -c '${command}'`, '/dev/null'], {
    env: { ...process.env, TERM: 'dumb', NO_COLOR: '1' },
  });
  let shown = '';
  let from = 0;
  child.stdout.on('data', (chunk: Buffer) => {
    shown += chunk.toString();
  });
  const seen = async (what: RegExp): Promise<void> => {
    for (let i = 0; i < 400; i++) {
      const found = what.exec(shown.slice(from));
      if (found) {
        from += found.index + found[0].length;
        return;
      }
      await new Promise((r) => setTimeout(r, 50));
    }
    throw new Error(`not seen: ${what} in ${JSON.stringify(shown.slice(from, from + 2000))}`);
  };
  return { press: (keys: string) => child.stdin.write(keys), seen, kill: () => child.kill('SIGKILL') };
}

const pid = (): string => `$(cat ${folder}/*/tankside.journal.pid)`;
const shell = (line: string): Promise<void> =>
  new Promise((resolve) => spawn('bash', ['-c', line]).once('close', () => resolve()));

describe.skipIf(process.platform !== 'linux')('at a terminal', () => {
  it('asks before a bath is left, goes on through stop and continue, and leaves the terminal as it was', async () => {
    const at = atATerminal('one');
    try {
      await at.seen(/Wear gloves/);
      for (const line of untilInDeveloper) at.press(`${line}\r`);
      await at.seen(/Developer is in/);
      at.press('\u0003');
      await at.seen(/developer is in.*nobody calls.*ask again/);
      at.press('how long left\r');
      await at.seen(/(minutes|seconds)[^\n]* left/);
      at.press('exit\r');
      await at.seen(/nobody calls/);
      await shell(`kill -STOP ${pid()}; sleep 0.3; kill -CONT ${pid()}`);
      at.press('where are we\r');
      await at.seen(/Step 3/);
      at.press('\u0004');
      await at.seen(/nobody calls/);
      at.press('\u0003');
      await at.seen(/LEFT 0/);
      await at.seen(/ icanon/);
    } finally {
      at.kill();
    }
  }, 60_000);

  it('ends at once on SIGTERM, with the exit code of one', async () => {
    const at = atATerminal('two');
    try {
      await at.seen(/Wear gloves/);
      at.press('begin the run\r');
      await at.seen(/Run started/);
      await shell(`kill -TERM $(cat ${folder}/two/tankside.journal.pid)`);
      await at.seen(/LEFT 143/);
      await at.seen(/ icanon/);
    } finally {
      at.kill();
    }
  }, 60_000);
});

describe('what is typed', () => {
  const through = (chunks: string[], mostChars = 5) => {
    const lost: number[] = [];
    const lines = new BoundedLines(mostChars, (chars) => lost.push(chars));
    let out = '';
    lines.on('data', (c) => {
      out += c;
    });
    for (const c of chunks) lines.write(Buffer.from(c));
    lines.end();
    return new Promise<{ out: string; lost: number[] }>((resolve) =>
      lines.on('end', () => resolve({ out, lost })),
    );
  };

  it('goes through to its most characters, line by line, and what is dropped is counted', async () => {
    expect(await through(['abc\nabcdefgh', 'ij\nab\n'])).toEqual({ out: 'abc\nabcde\nab\n', lost: [5] });
    expect(await through(['abcde\u007ff\n'])).toEqual({ out: 'abcde\u007ff\n', lost: [] });
    expect(await through(['é'.repeat(9)])).toEqual({ out: 'é'.repeat(5), lost: [4] });
  });

  it('cannot steer the terminal when it is shown again', () => {
    expect(harmless('a\u001b]0;title\u0007b\u001b[2Jc\u202ed\re')).toBe(
      'a\\u001b]0;title\\u0007b\\u001b[2Jc\\u202ed\\u000de',
    );
    expect(harmless('\u001b[1m\u001b[31mred\u001b[39m\u001b[22m é 日本\tx\n')).toBe(
      '\u001b[1m\u001b[31mred\u001b[39m\u001b[22m é 日本\tx\n',
    );
    // what hides or turns text round is none of the colours that are set here, and a reply's words set none at all
    expect(harmless('\u001b[8mhidden\u001b[7m')).toBe('\\u001b[8mhidden\\u001b[7m');
    expect(plainLine({ id: 1, atMs: 0, kind: 'answer', text: 'Noted: \u001b[31mred.' })).toBe(
      'Noted: \\u001b[31mred.',
    );
  });
});
