/**
 * What the screens cost and how well their digits keep to the machine. Run by `npm run bench:screen`; needs Chromium.
 * Digits: when the page, and a terminal beside it, come to 0:00 against when the programme's own call arrives on
 * standard output, over a run of the short sheet. Processor time: the programme with no, one and two screens. Frame
 * time: in the browser, slowed down four times.
 */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { PassThrough } from 'node:stream';
import headless from '@xterm/headless';
import type { BrowserContext, Page } from 'playwright-core';
import { screenRows } from '../../src/screen/terminal/layout.js';
import { scratch } from '../app/cli.js';
import { inDeveloper } from '../screen/run-on-clock.js';
import { shortSheet } from '../screen/short-sheet.js';
import { browser, pairedPage, press, type Watched, watched } from '../screen/watched.js';

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** User and system time of a process and, with it, its children, ms. Linux counts in hundredths of a second. */
function cpuMs(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? [];
  return 10 * (Number(fields[11]) + Number(fields[12]));
}

async function share(pid: number, seconds: number): Promise<string> {
  const [from, fromMs] = [cpuMs(pid), performance.now()];
  await pause(seconds * 1000);
  return `${((100 * (cpuMs(pid) - from)) / (performance.now() - fromMs)).toFixed(2)} %`;
}

const data = scratch();
const run = await watched(data, ['--text', '--sheet', shortSheet(data)]);
const pid = run.child.pid ?? 0;
const chrome = await browser();
await pause(8_000);

console.log('processor time of the programme, of one core, in the state in which nothing is timed');
console.log(`  no screen     ${await share(pid, 20)}`);
const context = await chrome.newContext({ viewport: { width: 1280, height: 800 } });
const page = await pairedPage(context, run);
await pause(3_000);
console.log(`  one screen    ${await share(pid, 20)}`);
const link = run.link();
run.say('screen');
while (run.link() === link) await pause(50);
const second: BrowserContext = await chrome.newContext();
await pairedPage(second, run);
await pause(3_000);
console.log(`  two screens   ${await share(pid, 20)}`);
await second.close();

await digits(page, run);
await frames(page);
await terminal();
await run.kill();
await chrome.close();
process.exit(0);

/** A bath of 18 s with three agitations: what the page shows at the moment the programme calls. */
async function digits(page: Page, run: Watched): Promise<void> {
  for (const label of [
    'Begin the run',
    'Next step',
    'Next step',
    'Film is loaded',
    'I am about to pour',
    'Prebath is in',
  ])
    await press(page, label);
  await page.evaluate(`
    globalThis.changes = [];
    const clock = document.getElementById('spoken-clock');
    new MutationObserver(() => globalThis.changes.push(performance.timeOrigin + performance.now()))
      .observe(clock, { childList: true, characterData: true, subtree: true });
  `);
  const calls: { text: string; wallMs: number }[] = [];
  run.child.stdout.on('data', (chunk: Buffer) => {
    for (const line of String(chunk).split('\n'))
      if (/^NOW/.test(line)) calls.push({ text: line, wallMs: performance.timeOrigin + performance.now() });
  });
  await pause(17_000);
  for (const label of ['I am about to return', 'Tank is empty', 'Water is in']) await press(page, label);
  await pause(11_000);
  for (const label of ['I drain now', 'Tank is empty', 'I am about to pour', 'Developer is in'])
    await press(page, label);
  await pause(16_000);
  for (const label of ['I am about to return', 'Tank is empty', 'I am about to pour', 'Stop bath is in'])
    await press(page, label);
  await pause(16_000);
  const changes = (await page.evaluate('globalThis.changes')) as number[];
  // at a call the digits go on to the next act: the change nearest to it
  const offsets = calls
    .filter((c) => /Rest|Agitate|Drain the/.test(c.text))
    .map((c) => Math.min(...changes.map((wallMs) => Math.abs(wallMs - c.wallMs))));
  const mean = offsets.reduce((a, b) => a + b, 0) / offsets.length;
  console.log(
    `digits of the page against ${offsets.length} calls of the programme, ${changes.length} changes of the digits`,
  );
  console.log(
    `  worst ${Math.max(...offsets).toFixed(0)} ms, mean ${mean.toFixed(0)} ms (how long the call takes to arrive counts in)`,
  );
}

async function frames(page: Page): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await cdp.send('Performance.enable');
  const metric = async (name: string): Promise<number> =>
    (await cdp.send('Performance.getMetrics')).metrics.find((m) => m.name === name)?.value ?? 0;
  const names = ['ScriptDuration', 'LayoutDuration', 'RecalcStyleDuration', 'TaskDuration'];
  const before = await Promise.all(names.map(metric));
  const longest = (await page.evaluate(`new Promise((resolve) => {
    const gaps = [];
    let last = performance.now();
    const next = (now) => {
      gaps.push(now - last);
      last = now;
      if (gaps.length < 300) requestAnimationFrame(next);
      else resolve(gaps.slice(1).sort((a, b) => a - b));
    };
    requestAnimationFrame(next);
  })`)) as number[];
  const after = await Promise.all(names.map(metric));
  console.log('frames of the page, processor slowed down four times');
  console.log(
    `  between frames: median ${longest[150]?.toFixed(1)} ms, 99 of 100 ${longest[296]?.toFixed(1)} ms`,
  );
  console.log(
    `  ${names.map((n, i) => `${n} ${(1000 * ((after[i] ?? 0) - (before[i] ?? 0))).toFixed(0)} ms`).join(', ')} in 300 frames`,
  );
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 1 });
}

/** One frame of the terminal each second, as in a run, at its largest usual size. */
async function terminal(): Promise<void> {
  // as the command does
  process.env.NODE_ENV = 'production';
  process.env.CI = 'false';
  const { openTerminal } = await import('../../src/screen/terminal/terminal.js');
  const clocked = inDeveloper(20);
  for (const [columns, rows] of [
    [80, 24],
    [160, 50],
  ] as const) {
    const stdout = Object.assign(new PassThrough(), { columns, rows, isTTY: true });
    const screen = new headless.Terminal({ cols: columns, rows, allowProposedApi: true, convertEol: true });
    let bytes = 0;
    stdout.on('data', (chunk: Buffer) => {
      bytes += chunk.length;
      screen.write(String(chunk));
    });
    const stdin = Object.assign(new PassThrough(), { isTTY: true, setRawMode() {}, ref() {}, unref() {} });
    const shown = openTerminal({
      stdin: stdin as unknown as NodeJS.ReadStream,
      stdout: stdout as unknown as NodeJS.WriteStream,
      benchMs: () => clocked.clock.nowMs(),
      key: () => false,
      line() {},
      leave() {},
      resumed() {},
      mostChars: 200,
    });
    for (const line of clocked.lines) shown.line(line);
    shown.show(clocked.view());
    await pause(500);
    bytes = 0;
    let wrong = 0;
    const cpu = process.cpuUsage();
    for (let second = 0; second < 20; second++) {
      clocked.pass(1);
      shown.show(clocked.view());
      await pause(250);
      const wanted = screenRows(
        { view: clocked.view(), lines: [], levelDb: null, input: '', back: 0 },
        columns,
        rows,
        clocked.clock.nowMs(),
      );
      const top = screen.buffer.active.getLine(2)?.translateToString(true).trimEnd() ?? '';
      const left = columns >= 110 ? Math.min(92, Math.floor(columns * 0.56)) : columns;
      const expected = (wanted[2] ?? [])
        .map((p) => p.text)
        .join('')
        .slice(0, left)
        .trimEnd();
      if (!top.startsWith(expected.trimEnd())) wrong++;
    }
    const used = process.cpuUsage(cpu);
    console.log(
      `terminal at ${columns}×${rows}: ${((used.user + used.system) / 20_000).toFixed(1)} ms and ${Math.round(bytes / 20)} bytes a frame; frames whose digits were not the machine's: ${wrong} of 20`,
    );
    shown.close();
  }
}
