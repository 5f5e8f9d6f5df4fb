import { PassThrough } from 'node:stream';
import headless from '@xterm/headless';
import { describe, expect, it } from 'vitest';
import { screenRows, wrap } from '../../src/screen/terminal/layout.js';
import { openTerminal } from '../../src/screen/terminal/terminal.js';
import { inDeveloper, RunOnClock } from './run-on-clock.js';

const sizes = [
  [80, 24],
  [100, 30],
  [160, 50],
] as const;

/** A terminal without a window: what a person would see, and what was sent. */
async function shown(run: RunOnClock, columns: number, rows: number) {
  const screen = new headless.Terminal({ cols: columns, rows, allowProposedApi: true, convertEol: true });
  const sent: string[] = [];
  const stdout = Object.assign(new PassThrough(), { columns, rows, isTTY: true });
  stdout.on('data', (chunk: Buffer) => {
    sent.push(String(chunk));
    screen.write(String(chunk));
  });
  const stdin = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => {} });
  const typed: string[] = [];
  const terminal = openTerminal({
    stdin,
    stdout,
    benchMs: () => run.clock.nowMs(),
    key: () => false,
    line: (text) => typed.push(text),
    leave() {},
    resumed() {},
    mostChars: 40,
  });
  const seen = () =>
    Array.from({ length: rows }, (_, i) => screen.buffer.active.getLine(i)?.translateToString(true) ?? '');
  /** until nothing has changed for a while, however slow the machine is */
  const settled = async (): Promise<void> => {
    for (let quiet = 0, last = sent.length; quiet < 6; quiet = sent.length === last ? quiet + 1 : 0) {
      last = sent.length;
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
  };
  for (const line of run.lines) terminal.line(line);
  terminal.show(run.view());
  await settled();
  return {
    terminal,
    settled,
    sent,
    typed,
    type: (text: string) => stdin.write(text),
    rows: seen,
  };
}

describe('the screen in the terminal', () => {
  for (const [columns, rows] of sizes) {
    it(`stands at ${columns}×${rows}: digits, what is next, every bottle, the conversation, the prompt`, async () => {
      const run = inDeveloper(100);
      const { rows: seen, terminal } = await shown(run, columns, rows);
      const all = seen();
      await expect(all.join('\n')).toMatchFileSnapshot(`screens/developer-${columns}x${rows}.txt`);
      const text = all.join('\n');
      expect(text).toContain('Developer in the tank, 500 ml');
      expect(text).toContain('Let it rest');
      expect(text).toContain('then 2 inversions · drain in 1:05');
      expect(text).toContain('Next: stop bath, bottle 3, 38.0 °C');
      expect(text).toMatch(/▼ ≈?\d\d\.\d °C of 37\.0–39\.0/);
      expect(text).toContain('NOW Agitate: 2 inversions.');
      expect(text).toMatch(/[▄█▀]{2,}/);
      expect(all.at(-1)).toContain('› ▏');
      terminal.close();
    });
  }

  it('shows a warning with its word, not only its colour, until it is answered', async () => {
    const run = new RunOnClock().say('begin the run', 'next step', 'next step', 'film is loaded');
    run.say('pouring the bleach in from bottle four');
    const { rows: seen, terminal, settled } = await shown(run, 80, 24);
    expect(seen().join(' ')).toMatch(/▌ WARNING\s+No\. Bleach before the developer destroys the picture\./);
    run.say('cancel');
    terminal.show(run.view());
    await settled();
    expect(seen().join('\n')).not.toContain('▌');
    terminal.close();
  });

  it('does not flicker: after the first frame nothing is cleared and only rows that changed are sent', async () => {
    const run = inDeveloper(100);
    const { sent, terminal, settled } = await shown(run, 100, 30);
    sent.length = 0;
    run.pass(1);
    terminal.show(run.view());
    await settled();
    const bytes = sent.join('');
    expect(bytes).not.toContain('\u001b[2J');
    const rowsSent = bytes.split('\u001b[K').length - 1;
    expect(rowsSent).toBeGreaterThan(0);
    expect(rowsSent).toBeLessThan(16);
    sent.length = 0;
    terminal.show(run.view());
    await settled();
    expect(sent).toEqual([]);
    terminal.close();
  });

  it('takes typed lines, corrects them, and drops what is too long', async () => {
    const { type, typed, rows: seen, settled, terminal } = await shown(inDeveloper(1), 80, 24);
    type('how long lefx');
    await settled();
    type('\u007f');
    type('t');
    await settled();
    expect(seen().at(-1)).toContain('› how long left▏');
    type('\r');
    await settled();
    expect(typed).toEqual(['how long left']);
    type('x'.repeat(60));
    await settled();
    type('\r');
    await settled();
    expect(typed[1]).toBe('x'.repeat(40));
    terminal.close();
  });
});

describe('its rows', () => {
  it('never run over, from 60×20 to 200×60, in any state', () => {
    const states = [
      new RunOnClock(),
      new RunOnClock().say('begin the run', 'next step'),
      inDeveloper(5),
      inDeveloper(171),
    ];
    const asking = new RunOnClock().say('begin the run', 'next step', 'next step', 'film is loaded');
    states.push(asking.say('pouring the bleach in from bottle four'));
    for (const run of states) {
      for (const [columns, rows] of [
        [60, 20],
        [80, 24],
        [109, 30],
        [110, 30],
        [200, 60],
      ] as const) {
        const drawn = screenRows(
          { view: run.view(), lines: run.lines, levelDb: -30, input: 'tank is empty', back: 0 },
          columns,
          rows,
          run.clock.nowMs(),
        );
        expect(drawn).toHaveLength(rows);
        for (const row of drawn) {
          const text = row.map((p) => p.text).join('');
          expect([...text].length, text).toBeLessThanOrEqual(columns);
        }
      }
    }
  });

  it('break at spaces; only a word longer than a row is broken', () => {
    expect(wrap('Drain the developer now. Back to bottle 2', 20)).toEqual([
      'Drain the developer',
      'now. Back to bottle',
      '2',
    ]);
    expect(wrap('a verylongwordindeed b', 8)).toEqual(['a verylo', 'ngwordin', 'deed b']);
  });
});
