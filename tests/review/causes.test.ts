import { describe, expect, it } from 'vitest';
import { causes, nextTests } from '../../src/review/why/causes.js';
import { type Evidence, type EvidenceId, evidenceKinds, observed } from '../../src/review/why/evidence.js';
import { rankCauses } from '../../src/review/why/rank.js';
import { evidenceOf, placeOf, plantedBy, saysNothing } from './simulate/judge.js';

const seen = (...all: [EvidenceId, number][]): Map<EvidenceId, Evidence> =>
  new Map(all.map(([id, value]) => [id, observed(id, value, String(value))]));

describe('the table of causes', () => {
  it('gives a source for every line, shares between 0 and 1, and evidence that exists', () => {
    for (const cause of Object.values(causes))
      for (const { shows, p, source } of cause.expects) {
        expect(p).toBeGreaterThan(0);
        expect(p).toBeLessThan(1);
        expect(source.length).toBeGreaterThan(3);
        for (const id of [shows].flat()) expect(Object.hasOwn(evidenceKinds, id)).toBe(true);
      }
  });
  it('has a next test for every cause', () => {
    const tested = new Set<string>(nextTests.flatMap((t) => t.yes));
    expect(Object.keys(causes).filter((id) => !tested.has(id))).toEqual([]);
  });
});

describe('weighing', () => {
  it('says nothing is wrong when nothing was seen', () => {
    expect(saysNothing(rankCauses(new Map()))).toBe(true);
  });
  it('names two causes that the same evidence speaks for, and a test that parts them', () => {
    const v = rankCauses(seen(['mask-missing', 1], ['base-tinted', 0.25], ['clipped', 0.01]));
    expect(new Set([v.ranked[0]?.id, v.ranked[1]?.id])).toEqual(new Set(['scan-automatic', 'scan-light']));
  });
  it('says when two causes are there at once', () => {
    const v = rankCauses(seen(['dev-cold', 3], ['dev-short', 0.2]));
    expect(v.besides).not.toBeNull();
    expect([v.ranked[0]?.id, v.besides?.id].sort()).toEqual(['dev-cold', 'dev-short']);
  });
  it('holds against a cause what it should have shown', () => {
    const v = rankCauses(seen(['bleach-short', 0.6], ['colours-pale', 0], ['contrast-high', 0]));
    expect(v.ranked[0]?.id).toBe('silver-retained');
    expect(v.ranked[0]?.against.map((a) => a.id)).toContain('colours-pale');
  });
});

describe('simulated runs with one planted cause', () => {
  // a few here, to hold the level; tests/bench/review-causes.ts measures thousands
  it('are mostly seen through', { timeout: 240_000 }, () => {
    const runs = 46;
    let first = 0;
    let three = 0;
    for (let i = 0; i < runs; i++) {
      const planted = plantedBy(i);
      const verdict = rankCauses(evidenceOf(91_000 + i, planted));
      if (placeOf(verdict, planted) === 0 && !saysNothing(verdict)) first++;
      if (placeOf(verdict, planted) < 3) three++;
    }
    expect(first / runs).toBeGreaterThanOrEqual(0.72);
    expect(three / runs).toBeGreaterThanOrEqual(0.9);
  });
  it('with none planted are mostly left alone', { timeout: 240_000 }, () => {
    let said = 0;
    for (let i = 0; i < 20; i++) if (saysNothing(rankCauses(evidenceOf(92_000 + i, null)))) said++;
    expect(said).toBeGreaterThanOrEqual(17);
  });
});
