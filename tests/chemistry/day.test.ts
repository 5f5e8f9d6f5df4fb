import { describe, expect, it } from 'vitest';
import {
  controlLimits,
  deviations,
  drifts,
  plotLines,
  readStrips,
  type Strip,
  writeStrips,
} from '../../src/chemistry/control-strip.js';
import { disposalOf } from '../../src/chemistry/safety/disposal.js';
import { dayList } from '../../src/chemistry/shelf/buying.js';

describe('a list for a day of films', () => {
  const list = (films: number, shelf: Parameters<typeof dayList>[2] = []) => {
    const day = dayList(films, 600, shelf);
    if (!day.ok) throw new Error(day.why);
    return day.list;
  };

  it('covers every part of every bath in whole packages, and no package more than it takes', () => {
    const { buy, baths } = list(4);
    expect(baths.map((b) => b.recipe)).toContain('ecn2-developer');
    // bromide is in the developer and in the bleach: one line
    const bromide = buy.filter((b) => b.substance === 'sodium-bromide');
    expect(bromide).toHaveLength(1);
    const volumes = Object.fromEntries(baths.map((b) => [b.recipe, b.volumeMl / 1000]));
    const wanted = 1.2 * (volumes['ecn2-developer'] ?? 0) + 25 * (volumes['ecn2-bleach'] ?? 0);
    expect(bromide[0]?.need).toBeCloseTo(wanted, 6);
    for (const b of buy) {
      expect(b.packs.count * b.packs.size).toBeGreaterThanOrEqual(b.short);
      expect((b.packs.count - 1) * b.packs.size).toBeLessThan(b.short);
    }
  });

  it('takes off what the shelf has, and prices what has a price', () => {
    const none = list(2).buy.find((b) => b.substance === 'cd3');
    const shelf = [{ substance: 'cd3', massG: (none?.need ?? 0) - 1, pricePerKg: 400 }];
    const day = list(2, shelf);
    const cd3 = day.buy.find((b) => b.substance === 'cd3');
    expect(cd3?.short).toBeCloseTo(1, 9);
    expect(cd3?.price).toBeCloseTo((400 * (cd3?.packs.size ?? 0)) / 1000, 9);
    expect(day.unpriced).not.toContain(cd3?.name);
    expect(list(2, [{ substance: 'cd3', massG: 1000 }]).buy.map((b) => b.substance)).not.toContain('cd3');
  });

  it('refuses no films and no tank', () => {
    expect(dayList(0, 600, [])).toMatchObject({ ok: false });
    expect(dayList(2, Number.NaN, [])).toMatchObject({ ok: false });
  });
});

describe('control strips', () => {
  const strip = (date: string, shift = 0): Strip => ({
    date,
    patches: {
      dMin: { red: 0.22, green: 0.58, blue: 0.9 },
      lowDensity: { red: 0.62 + shift, green: 1.05, blue: 1.4 },
      highDensity: { red: 1.45 + shift, green: 2.05, blue: 2.5 },
    },
  });

  it('a strip like the reference is in control; one denser by more than the limit is out, in its own colour', () => {
    const reference = strip('2026-04-01');
    expect(deviations(strip('2026-04-02'), reference).every((d) => d.level === 'in')).toBe(true);
    const off = deviations(strip('2026-04-03', controlLimits.speed.control + 0.01), reference);
    expect(off.filter((d) => d.level === 'out')).toEqual([
      expect.objectContaining({ measure: 'speed', channel: 'red' }),
    ]);
  });

  it('a steady climb is called a drift with strips left; scatter is not', () => {
    const climb = [0, 0.01, 0.02, 0.03, 0.04].map((s, i) => strip(`2026-04-0${i + 1}`, s));
    const found = drifts(climb, climb[0] as Strip);
    expect(found).toEqual([expect.objectContaining({ measure: 'speed', channel: 'red', stripsLeft: 4 })]);
    const scatter = [0, 0.02, -0.02, 0.02, -0.02, 0].map((s, i) => strip(`2026-04-0${i + 1}`, s));
    expect(drifts(scatter, scatter[0] as Strip)).toEqual([]);
  });

  it('is written and read back, and a spoiled line is named', () => {
    const strips = [strip('2026-04-01'), strip('2026-04-02', 0.05)];
    expect(readStrips(writeStrips(strips))).toEqual({ ok: true, strips });
    const spoiled = writeStrips(strips).replace('lowDensity,0.62', 'lowDensity,x');
    expect(readStrips(spoiled)).toMatchObject({ ok: false, why: expect.stringContaining('Line 3') });
  });

  it('plots the colours left and right of the reference', () => {
    const [line = ''] = plotLines([strip('2026-04-02', 0.06)], strip('2026-04-01'), 'speed');
    expect(line.indexOf('R')).toBeGreaterThan(
      line.lastIndexOf('*') === -1 ? line.indexOf('|') : line.indexOf('*'),
    );
  });
});

describe('where it goes', () => {
  it('acid and ferricyanide never in one jug; who decides is always said', () => {
    expect(disposalOf('bleach')[0]).toContain('hydrogen cyanide');
    expect(disposalOf('fixer').join(' ')).toContain('silver');
    for (const liquid of ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse', undefined])
      expect(disposalOf(liquid).at(-1)).toContain('local rules');
  });
});
