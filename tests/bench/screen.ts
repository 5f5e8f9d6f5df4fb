/**
 * What the screens cost and how well their digits keep to the machine. Run by `npm run bench:screen`; needs Chromium.
 * Digits: when the digits of the page change, against when they should by the machine's own clock and plan, over three
 * baths of the short sheet. Processor time: the programme with no, one and two screens. Frame
 * time: in the browser, slowed down four times.
 */
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { PassThrough } from 'node:stream';
import headless from '@xterm/headless';
import type { BrowserContext, Page } from 'playwright-core';
import { WebSocket } from 'ws';
import type { ToScreen } from '../../src/screen/server/wire.js';
import { screenRows } from '../../src/screen/terminal/layout.js';
import { openTerminal } from '../../src/screen/terminal/terminal.js';
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
await size(page);
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
    new MutationObserver(() => globalThis.changes.push({ text: clock.textContent, wallMs: performance.timeOrigin + performance.now() }))
      .observe(clock, { childList: true, characterData: true, subtree: true });
  `);
  const machine = await benchClock(run);
  await pause(17_000);
  for (const label of ['I am about to return', 'Tank is empty', 'Water is in']) await press(page, label);
  await pause(11_000);
  for (const label of ['I drain now', 'Tank is empty', 'I am about to pour', 'Developer is in'])
    await press(page, label);
  await pause(16_000);
  for (const label of ['I am about to return', 'Tank is empty', 'I am about to pour', 'Stop bath is in'])
    await press(page, label);
  await pause(16_000);
  const changes = (await page.evaluate('globalThis.changes')) as { text: string; wallMs: number }[];
  // the seconds that a countdown passed by itself; a press changes the digits at its own time
  const counted = changes.filter(({ text }, i) => {
    const [now, last] = [text, changes[i - 1]?.text ?? ''].map(secondsLeft);
    return now !== null && last !== null && last !== undefined && now === last - 1;
  });
  const planned = [...machine.dues].flatMap((dueMs) =>
    Array.from({ length: 40 }, (_, i) => machine.wallMs(dueMs - 1000 * i)),
  );
  const offsets = counted.map(({ wallMs }) => Math.min(...planned.map((p) => Math.abs(p - wallMs))));
  const mean = offsets.reduce((a, b) => a + b, 0) / offsets.length;
  const over = offsets.filter((ms) => ms > 100).length;
  console.log(
    `digits of the page against the machine's clock and plan, ${counted.length} seconds counted down in three baths`,
  );
  console.log(
    `  worst ${Math.max(...offsets).toFixed(0)} ms, mean ${mean.toFixed(0)} ms, over 100 ms: ${over} of ${offsets.length}`,
  );
}

/** "0:07 left" → 7 */
function secondsLeft(text: string): number | null {
  const [, minutes, seconds] = /^(\d+):(\d\d) left$/.exec(text) ?? [];
  return seconds === undefined ? null : 60 * Number(minutes) + Number(seconds);
}

/** The machine's clock and plan, learnt by another screen: the quickest beat tells how the clocks stand to each other. */
async function benchClock(run: Watched): Promise<{ dues: Set<number>; wallMs(benchMs: number): number }> {
  const before = run.link();
  run.say('screen');
  while (run.link() === before) await pause(50);
  const { origin, hash } = new URL(run.link());
  const paired = await fetch(`${origin}/pair`, {
    method: 'POST',
    headers: { Origin: origin },
    body: hash.slice(1),
  });
  const cookie = paired.headers.getSetCookie()[0]?.split(';')[0] ?? '';
  const socket = new WebSocket(`${origin.replace('http', 'ws')}/live`, {
    headers: { Origin: origin, Cookie: cookie },
  });
  const dues = new Set<number>();
  let offset = Number.NEGATIVE_INFINITY;
  socket.on('message', (data) => {
    const message = JSON.parse(String(data)) as ToScreen;
    const wallMs = performance.timeOrigin + performance.now();
    if (message.type === 'beat') offset = Math.max(offset, message.benchMs - wallMs);
    if (message.type === 'view' && message.view.act.dueMs !== null) dues.add(message.view.act.dueMs);
  });
  return { dues, wallMs: (benchMs) => benchMs - offset };
}

/** What the page costs to load: all that a browser fetches for it, packed and as it lies. */
async function size(page: Page): Promise<void> {
  const { origin } = new URL(page.url());
  const { pageFiles } = await import('../../src/screen/page-files.js');
  let [packed, plain] = [0, 0];
  for (const path of Object.keys(pageFiles)) {
    const answer = await fetch(origin + path, { headers: { 'Accept-Encoding': 'gzip' } });
    packed += Number(answer.headers.get('content-length'));
    plain += (await answer.arrayBuffer()).byteLength;
  }
  console.log(`the page: ${(plain / 1000).toFixed(0)} kB, ${(packed / 1000).toFixed(0)} kB under way`);
}

async function frames(page: Page): Promise<void> {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await cdp.send('Performance.enable');
  const metric = async (name: string): Promise<number> =>
    (await cdp.send('Performance.getMetrics')).metrics.find((m) => m.name === name)?.value ?? 0;
  const names = ['ScriptDuration', 'LayoutDuration', 'RecalcStyleDuration', 'TaskDuration'];
  const before = await Promise.all(names.map(metric));
  // from the start of a frame until its layout and paint are through: a message posted in it comes after them
  const work = (await page.evaluate(`new Promise((resolve) => {
    const seen = [];
    const channel = new MessageChannel();
    const clock = document.getElementById('spoken-clock');
    let began = 0;
    let text = '';
    channel.port1.onmessage = () => {
      seen.push({ ms: performance.now() - began, changed: clock.textContent !== text });
      text = clock.textContent;
      if (seen.length < 900) requestAnimationFrame(next);
      else resolve(seen);
    };
    const next = () => {
      began = performance.now();
      channel.port2.postMessage(0);
    };
    requestAnimationFrame(next);
  })`)) as { ms: number; changed: boolean }[];
  const after = await Promise.all(names.map(metric));
  const of = (all: { ms: number }[], share: number): string =>
    (all.map((f) => f.ms).sort((a, b) => a - b)[Math.floor(share * (all.length - 1))] ?? 0).toFixed(1);
  const changed = work.filter((f) => f.changed);
  console.log('work of one frame of the page, processor slowed down four times; 16 ms are to spare for it');
  console.log(
    `  ${work.length} frames: median ${of(work, 0.5)} ms, 99 of 100 ${of(work, 0.99)} ms, longest ${of(work, 1)} ms; over 16 ms: ${work.filter((f) => f.ms > 16).length}`,
  );
  console.log(
    `  ${changed.length} in which the digits changed: median ${of(changed, 0.5)} ms, longest ${of(changed, 1)} ms`,
  );
  console.log(
    `  ${names.map((n, i) => `${n} ${(1000 * ((after[i] ?? 0) - (before[i] ?? 0))).toFixed(0)} ms`).join(', ')} in ${work.length} frames`,
  );
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 1 });
}

/** One frame of the terminal each second, as in a run, at its largest usual size. */
async function terminal(): Promise<void> {
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
      stdin,
      stdout,
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
    let usedUs = 0;
    for (let second = 0; second < 20; second++) {
      clocked.pass(1);
      const view = clocked.view();
      const cpu = process.cpuUsage();
      shown.show(view);
      await pause(150);
      const used = process.cpuUsage(cpu);
      usedUs += used.user + used.system;
      const left = columns >= 110 ? Math.min(92, Math.floor(columns * 0.56)) : columns;
      const rowsWanted = screenRows(
        { view, lines: [], levelDb: null, input: '', back: 0 },
        columns,
        rows,
        clocked.clock.nowMs(),
      );
      const wanted = (rowsWanted[2] ?? [])
        .map((p) => p.text)
        .join('')
        .slice(0, left)
        .trimEnd();
      if (!(screen.buffer.active.getLine(2)?.translateToString(true) ?? '').startsWith(wanted)) wrong++;
    }
    console.log(
      `terminal at ${columns}×${rows}: ${(usedUs / 20_000).toFixed(1)} ms of processor time (with the terminal emulator's) and ${Math.round(bytes / 20)} bytes a frame; digits other than the machine's: ${wrong} of 20`,
    );
    shown.close();
  }
}
