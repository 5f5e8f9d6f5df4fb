import { describe, expect, it } from 'vitest';
import {
  blend,
  DROP_ML,
  draw,
  foreignShare,
  fresh,
  mainLiquid,
  NOTHING,
  scale,
} from '../../src/world/contents.js';

const used = { volumeMl: 800, parts: { developer: 600, prebath: 200 }, workM2: 0.4, traces: ['stop'] };

describe('what a vessel holds', () => {
  it('is one liquid and no work when it is fresh, and nothing when there is none of it', () => {
    expect(fresh('fixer', 250)).toEqual({ volumeMl: 250, parts: { fixer: 250 }, workM2: 0, traces: [] });
    expect(fresh('fixer', 0.5)).toMatchObject({ volumeMl: 0.5, parts: { fixer: 0.5 } });
    for (const none of [0, -3]) expect(fresh('fixer', none)).toEqual(NOTHING);
    expect(NOTHING).toEqual({ volumeMl: 0, parts: {}, workM2: 0, traces: [] });
  });

  it('goes out as it is mixed: each part, and the work done, by the same share', () => {
    expect(draw(used, 200)).toEqual({
      taken: { volumeMl: 200, parts: { developer: 150, prebath: 50 }, workM2: 0.1, traces: ['stop'] },
      left: {
        volumeMl: 600,
        parts: { developer: 450, prebath: 150 },
        workM2: expect.closeTo(0.3, 12),
        traces: ['stop'],
      },
    });
  });

  it('gives no more than there is, and nothing for less than nothing', () => {
    expect(draw(used, 900)).toEqual({ taken: used, left: NOTHING });
    expect(draw(used, -5)).toEqual({ taken: { ...NOTHING, traces: ['stop'] }, left: used });
    expect(draw(NOTHING, 5)).toEqual({ taken: NOTHING, left: NOTHING });
    expect(draw(fresh('stop', 0.4), 0.1).taken.volumeMl).toBeCloseTo(0.1, 12);
  });

  it('is empty below a thousandth of a millilitre, and not from there on', () => {
    expect(draw(fresh('stop', 1), 1 - DROP_ML * 0.9).left).toEqual(NOTHING);
    expect(draw(fresh('stop', 1), 1 - DROP_ML * 1.1).left.volumeMl).toBeCloseTo(0.0011, 9);
    expect(draw({ ...fresh('stop', 2 * DROP_ML) }, DROP_ML).left.volumeMl).toBe(DROP_ML);
  });

  it('adds up when it is poured together, and a trace is named once', () => {
    const other = {
      volumeMl: 100,
      parts: { developer: 40, fixer: 60 },
      workM2: 0.2,
      traces: ['stop', 'bleach'],
    };
    expect(blend(used, other)).toEqual({
      volumeMl: 900,
      parts: { developer: 640, prebath: 200, fixer: 60 },
      workM2: expect.closeTo(0.6, 12),
      traces: ['stop', 'bleach'],
    });
  });

  it('scaled down leaves out what is not there any more', () => {
    expect(scale(used, 0)).toEqual({ volumeMl: 0, parts: {}, workM2: 0, traces: ['stop'] });
    expect(scale({ ...used, parts: { developer: 0.6, prebath: 0 } }, 0.5).parts).toEqual({ developer: 0.3 });
  });

  it('is called by what there is most of', () => {
    expect(mainLiquid(used)).toBe('developer');
    expect(mainLiquid({ ...used, parts: { prebath: 200, developer: 600 } })).toBe('developer');
    expect(mainLiquid({ ...used, parts: { a: 5, b: 5 } })).toBe('a');
    expect(mainLiquid(NOTHING)).toBeNull();
  });

  it('has the traces of both where two are mixed, each once', () => {
    const other = { ...fresh('bleach', 100), traces: ['fixer', 'stop'] };
    expect(blend(used, other).traces).toEqual(['stop', 'fixer']);
    expect(blend(other, used).traces).toEqual(['fixer', 'stop']);
    expect(blend(used, fresh('bleach', 100)).traces).toEqual(['stop']);
  });

  it('has a share that is foreign to its label', () => {
    expect(foreignShare(used, 'developer')).toBeCloseTo(0.25, 12);
    expect(foreignShare(used, 'bleach')).toBe(1);
    expect(foreignShare(fresh('stop', 0.5), 'stop')).toBe(0);
    expect(foreignShare(NOTHING, 'stop')).toBe(0);
    // rounding never makes it less than nothing
    expect(foreignShare({ ...NOTHING, volumeMl: 1, parts: { stop: 1.0000001 } }, 'stop')).toBe(0);
  });
});
