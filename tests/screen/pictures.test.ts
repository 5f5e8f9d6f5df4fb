import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseHTML } from 'linkedom';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { keepPicture } from '../../src/app/screen-pictures.js';
import { picturesView } from '../../src/app/screen-view.js';
import { bottlesSvg, daySvg } from '../../src/screen/pictures/bottles.js';
import { curvesSvg } from '../../src/screen/pictures/curves.js';
import { night } from '../../src/screen/pictures/plot.js';
import { timelineSvg } from '../../src/screen/pictures/timeline.js';
import { runReport } from '../../src/screen/report.js';
import type { BottleView, TimelineView } from '../../src/screen/view.js';
import { inDeveloper } from './run-on-clock.js';

const minute = 60_000;
const timeline: TimelineView = {
  runId: 'r1',
  sheet: 'A <sheet> & more',
  films: ['daylight stock 35mm'],
  tankMl: 500,
  startedMs: 0,
  startedWallMs: Date.UTC(2026, 3, 4, 18, 0),
  endedMs: 9 * minute,
  nowMs: 9 * minute,
  complete: true,
  planned: [
    { name: 'prebath', fromMs: 0, toMs: 10_000 },
    { name: 'developer', fromMs: 10_000, toMs: 190_000 },
  ],
  real: [
    {
      name: 'prebath',
      fromMs: 0,
      toMs: 14_000,
      plannedS: 10,
      actualS: 14,
      heldS: 0,
      startTempC: null,
      endTempC: null,
    },
    {
      name: 'developer',
      fromMs: 20_000,
      toMs: 206_000,
      plannedS: 180,
      actualS: 186,
      heldS: 0,
      startTempC: 41.1,
      endTempC: null,
    },
  ],
  temps: [{ name: 'developer', atMs: 5_000, tempC: 41.1 }],
  marks: [
    { kind: 'call', text: 'Rest.', atMs: 35_000 },
    { kind: 'slip', text: 'developer: 6 s over', atMs: 206_000 },
    { kind: 'spill', text: '20 ml of developer spilled', atMs: 100_000 },
    { kind: 'note', text: 'the lid <leaks>', atMs: 120_000 },
  ],
};
const bottle: BottleView = {
  bottle: 2,
  name: null,
  holds: 'developer',
  known: 'told',
  volumeMl: 600,
  capacityMl: 1000,
  ageDays: 12,
  keepDaysLeft: 18,
  doneM2: 0.2,
  leftM2: { low: 0.1, usual: 0.2, high: 0.4 },
  limit: 'its age',
};

/** Stands alone: well-formed, with a title, without script, link or a number that is none. */
function whole(svg: string) {
  expect(svg.startsWith('<svg')).toBe(true);
  expect(svg).toContain('xmlns="http://www.w3.org/2000/svg"');
  expect(svg).not.toMatch(/NaN|Infinity|undefined|<script|<style|href=|url\(/);
  const { document } = parseHTML(svg);
  const root = document.querySelector('svg');
  if (!root) throw new Error('no svg');
  expect(root.querySelector('title')?.textContent).toBeTruthy();
  return root;
}

describe('pictures of the work', () => {
  it('curves: a dot for each reading, a band and a line for each bath, the limits, now', () => {
    const run = inDeveloper(30);
    const { curves } = picturesView(run.source(), null, []);
    const svg = whole(curvesSvg(curves));
    const readings = curves.series.reduce((n, s) => n + s.readings.length, 0);
    const ready = curves.series.filter((s) => s.readyMs !== null).length;
    expect(svg.querySelectorAll('circle').length).toBe(readings + ready);
    expect(svg.querySelectorAll('[aria-label="area"] path').length).toBe(curves.series.length);
    expect(svg.textContent).toContain('now');
    for (const s of curves.series) expect(svg.textContent).toContain(s.name);
    whole(curvesSvg({ fromMs: 0, nowMs: 1, toMs: 60_000, series: [] }));
  });

  it('the run: a frame for each planned step, a bar for each real one, at its very place in time', () => {
    const svg = whole(timelineSvg(timeline));
    const bars = [...svg.querySelectorAll('[aria-label="bar"]')].map((g) =>
      [...g.querySelectorAll('rect')].map((r) => ['x', 'width'].map((a) => Number(r.getAttribute(a)))),
    );
    expect(bars.map((b) => b.length)).toEqual([2, 2]);
    const [planned, real] = bars.map((b) => b[1] ?? []);
    const perMinute = (planned?.[1] ?? 0) / 3;
    expect((real?.[1] ?? 0) / perMinute).toBeCloseTo(186 / 60, 1);
    expect(((real?.[0] ?? 0) - (planned?.[0] ?? 0)) / perMinute).toBeCloseTo(10 / 60, 1);
    expect(svg.querySelectorAll('[aria-label="tick"] line').length).toBe(1);
    expect(svg.textContent).toContain('3:06, 41.1 °C');
    for (const sign of ['▲', '●', '✎']) expect(svg.textContent).toContain(sign);
  });

  it('the bottles: how far each is through its life by film and by age', () => {
    const svg = whole(bottlesSvg([bottle]));
    const widths = [...svg.querySelectorAll('[aria-label="bar"] rect')].map((r) =>
      Number(r.getAttribute('width')),
    );
    // 0.2 of 0.4 m², and 12 of 30 days
    expect((widths[1] ?? 0) / (widths[0] ?? 1)).toBeCloseTo(0.4 / 0.5, 2);
    expect(svg.textContent).toContain('0.20 of 0.40 m²');
    expect(svg.textContent).toContain('12 of 30 days');
    expect(whole(bottlesSvg([{ ...bottle, ageDays: null, keepDaysLeft: null }])).textContent).toContain(
      'age not known',
    );
    whole(bottlesSvg([]));
  });

  it('the day: its runs on a clock', () => {
    const startsWallMs = Date.UTC(2026, 3, 4, 9, 0);
    const runs = [0, 1].map((i) => ({
      label: `run ${i + 1}`,
      startsWallMs: startsWallMs + i * 40 * minute,
      endsWallMs: startsWallMs + (i * 40 + 30) * minute,
    }));
    const svg = whole(
      daySvg({
        startsWallMs,
        runs,
        marks: [{ text: 'developer used up', wallMs: startsWallMs + 75 * minute }],
        note: null,
      }),
    );
    expect(svg.querySelectorAll('[aria-label="bar"] rect').length).toBe(2);
    expect(svg.textContent).toContain('Developer used up');
  });

  it('by night nothing but red on black', () => {
    for (const svg of [timelineSvg(timeline, night), bottlesSvg([bottle], night)]) {
      const colours = new Set([...svg.matchAll(/#[0-9a-f]{6}/g)].map(String));
      expect(colours.size).toBeGreaterThan(1);
      for (const colour of colours) {
        const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
        expect(Math.max(g, b), colour).toBeLessThanOrEqual(r * 0.75);
      }
    }
  });

  it('are kept as SVG and as a PNG of the same shape that is not blank', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tankside-pictures-'));
    const svg = timelineSvg(timeline);
    expect(await keepPicture(folder, 'run', svg)).toContain(join(folder, 'run.svg'));
    expect(readFileSync(join(folder, 'run.svg'), 'utf8')).toBe(svg);
    const { width = 0, height = 0 } = await sharp(join(folder, 'run.png')).metadata();
    expect(width).toBe(1720);
    expect(height).toBeGreaterThan(300);
    const { channels } = await sharp(join(folder, 'run.png')).stats();
    expect(Math.max(...channels.slice(0, 3).map((c) => c.stdev))).toBeGreaterThan(10);
    expect(await keepPicture(join(folder, 'missing'), 'run', svg)).toContain('was not kept');
  });
});

describe('the report of a run', () => {
  it('stands alone, holds the pictures and every thing that was noted, and nothing in it is markup of a person', () => {
    const html = runReport({
      curves: { fromMs: 0, nowMs: 1, toMs: 2, series: [] },
      timeline,
      bottles: [bottle],
    });
    const { document } = parseHTML(html);
    expect(document.querySelectorAll('svg').length).toBe(2);
    expect(html).not.toMatch(/<script|src=|href=|@import|url\(|<leaks>|<sheet>/);
    const text = document.body.textContent ?? '';
    for (const told of [
      '3:06 (+0:06)',
      'developer: 6 s over',
      '20 ml of developer spilled',
      'the lid <leaks>',
      'A <sheet> & more',
    ])
      expect(text).toContain(told);
    expect(text).toContain('It was taken to its end. It took 9:00.');
  });
});
