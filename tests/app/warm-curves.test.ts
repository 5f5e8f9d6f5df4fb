import { describe, expect, it } from 'vitest';
import { plotOf } from '../../src/app/desks/warm/plot-data.js';
import { curvesBraille } from '../../src/screen/pictures/braille.js';
import { WarmBench, warmConfig } from './warm-bench.js';

function plot() {
  const b = new WarmBench();
  for (const m of [0, 4, 8]) {
    b.say({ type: 'temperature', of: { kind: 'tub' }, tempC: 38 + m / 3 }, m);
    b.say({ type: 'temperature', of: 'developer', tempC: 24 + 1.1 * m }, m);
  }
  return plotOf(b.state, warmConfig, 9 * 60_000);
}

describe('curves of the bench', () => {
  it('shows what was read: names, aims, readings, a band around each curve', () => {
    const p = plot();
    expect(p.series.map((s) => s.name)).toEqual(['Tub', 'Developer']);
    const developer = p.series[1];
    expect(developer?.readings).toHaveLength(3);
    expect(developer?.aim?.aimC).toBe(41.1);
    expect(developer?.curve.every((c) => c.lowC < c.tempC && c.tempC < c.highC)).toBe(true);
    expect(developer?.curve.at(-1)?.tempC).toBeGreaterThan(38);
    expect(p.toMs).toBeGreaterThan(p.nowMs + 19 * 60_000);
  });

  it('draws the same in braille, as wide as asked', () => {
    const lines = curvesBraille(plot(), 60, 16).split('\n');
    expect(lines.some((l) => /[\u2801-\u28ff]{3}/.test(l))).toBe(true);
    expect(Math.max(...lines.slice(0, -1).map((l) => [...l].length))).toBeLessThanOrEqual(64);
    expect(lines.at(-1)).toBe('a Tub, b Developer');
    expect(lines.at(-2)).toContain('now');
  });

  it('an empty bench draws an empty frame', () => {
    const empty = plotOf(new WarmBench().state, warmConfig, 0);
    expect(empty.series).toEqual([]);
    expect(curvesBraille(empty)).toContain('now');
  });
});
