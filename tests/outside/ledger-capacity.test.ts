import { describe, expect, it } from 'vitest';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { ledgerFrom } from '../../src/ledger/state.js';
import type { Fact } from '../../src/world/fact.js';
import { filmAreaM2, HUNDRED_FEET_35MM_M2 } from '../../src/world/film-area.js';
import { bottleLife, capacityM2PerL, replenishAdvice } from '../../src/world/life.js';
import { bathRates, filmSilver, molar, rateOf } from '../../src/world/life-data.js';
import type { BottleRecord } from '../../src/world/records.js';
import { emptyWorld } from '../../src/world/reduce.js';

const SQUARE_FOOT_M2 = 0.09290304;
const GALLON_L = 3.785411784;

const bench = (facts: Fact[]) =>
  ledgerFrom(
    emptyWorld(),
    facts.map((fact, i) => ({ fact, atMs: i, wallMs: i })),
  ).bench;

function used(liquid: string, recipe: string, films: number, volumeMl = 1000): BottleRecord {
  const tank = { kind: 'tank' as const };
  const bottle = { kind: 'bottle' as const, number: 1 };
  const pour = (from: typeof tank | typeof bottle, to: typeof tank | typeof bottle): Fact => ({
    type: 'poured',
    runId: 'r',
    from,
    to,
    liquid,
    volumeMl,
    overridden: false,
  });
  const record = bench([
    { type: 'mixed', batch: 'A', recipe, liquid, volumeMl, bottle: 1 },
    {
      type: 'run-started',
      runId: 'r',
      sheetId: 's',
      tankMl: volumeMl,
      films: [{ stock: 'x', format: '35mm', count: films }],
    },
    pour(bottle, tank),
    pour(tank, bottle),
  ]).bottles[1];
  if (record === undefined) throw new Error('no bottle');
  return record;
}

describe('capacity from replenishment rates', () => {
  it('is volume over rate, as the published table of Process E-6AR works it out', () => {
    // Kodak, Process E-6AR chemicals, table 2-1 "Processing Capacity": gallons, mL per sq ft, sq ft processed
    const published = [
      { gallons: 25, mlPerSqFt: 200, sqFt: 475 },
      { gallons: 100, mlPerSqFt: 100, sqFt: 3780 },
      { gallons: 50, mlPerSqFt: 100, sqFt: 1890 },
      { gallons: 5, mlPerSqFt: 20, sqFt: 950 },
      { gallons: 320, mlPerSqFt: 100, sqFt: 12110 },
    ];
    for (const { gallons, mlPerSqFt, sqFt } of published)
      expect((gallons * GALLON_L * 1000) / mlPerSqFt / sqFt).toBeCloseTo(1, 2);
    // the same rule on our figures, in the table's own unit
    const developer = recipes.find((one) => one.id === 'ecn2-developer');
    const rate = rateOf('developer');
    const high = capacityM2PerL(developer)?.high ?? 0;
    const perSqFt = ((rate?.per100ftMl ?? 0) / HUNDRED_FEET_35MM_M2) * SQUARE_FOOT_M2;
    expect((high / SQUARE_FOOT_M2) * perSqFt).toBeCloseTo(1000, 6);
  });

  it('has the prebath rate that R. Schaller prints for 100 ft of 16 mm', () => {
    // R. Schaller, "Process ECP2-A and ECN-2" (2004), overview table: prebath 200 ml per 100 ft of 16 mm
    expect((rateOf('prebath')?.per100ftMl ?? 0) / 2).toBe(200);
  });

  it('gives every rate a source, and stays within the range of colour film processes', () => {
    // Kodak H-24.09 table 9-4 (ECP-2E): 200 to 770 ml per 100 ft of 35 mm; E-6AR 20 to 200 ml per sq ft
    for (const rate of bathRates) {
      expect(rate.source).toMatch(/H-24\.07/);
      expect(rate.per100ftMl).toBeGreaterThanOrEqual(200);
      expect(rate.per100ftMl).toBeLessThanOrEqual(900);
    }
  });

  it('asks after 100 ft of 35 mm for exactly the published replenisher, and for 16 mm about half', () => {
    const film = { stock: 'x', format: '35mm' as const, lengthM: 30.48 };
    const facts = (format: '35mm' | '16mm'): Fact[] => [
      { type: 'bottle-set', bottle: 1, liquid: 'developer', volumeMl: 1000, capacityMl: 2000 },
      { type: 'run-started', runId: 'r', sheetId: 's', tankMl: 600, films: [{ ...film, format }] },
      {
        type: 'poured',
        runId: 'r',
        from: { kind: 'bottle', number: 1 },
        to: { kind: 'tank' },
        liquid: 'developer',
        volumeMl: 600,
        overridden: false,
      },
    ];
    const advice = (format: '35mm' | '16mm') =>
      replenishAdvice(bench(facts(format)).bottles[1] as BottleRecord);
    expect(advice('35mm')?.addMl).toBe(900);
    expect(advice('16mm')?.addMl).toBeGreaterThan(400);
    expect(advice('16mm')?.addMl).toBeLessThan(450);
  });
});

describe('what film does to a bath', () => {
  it('puts as much silver into a fixer, at the published rate, as replenished fixers carry', () => {
    // common practice: replenished colour negative fixers run at about 8 to 14 g of silver per litre
    const steady =
      (filmSilver.coatedGPerM2.usual * HUNDRED_FEET_35MM_M2) / ((rateOf('fixer')?.per100ftMl ?? 1) / 1000);
    expect(steady).toBeGreaterThan(8);
    expect(steady).toBeLessThan(14);
  });

  it('exhausts a fixer later than plain hypo did, whose clearing time doubled past 200 ft a gallon', () => {
    // Crabtree and Hartt, "Some Properties of Fixing Baths", Trans. SMPE (1929): F-2 (25 % hypo, still) clears in
    // over 10 minutes after 200 ft of 35 mm negative per US gallon, in over 300 ft with agitation
    const still = (200 * 0.3048 * 0.034975) / GALLON_L;
    const agitated = (300 * 0.3048 * 0.034975) / GALLON_L;
    const hypo = capacityM2PerL(recipes.find((one) => one.id === 'ecn2-fixer-sodium'));
    expect(hypo?.usual).toBeLessThan(agitated);
    expect(hypo?.usual ?? 0).toBeGreaterThan(still * 0.7);
  });

  it('balances silver, bromide and persulphate by the equations', () => {
    // Ag + Fe(CN)6³⁻ + Br⁻ → AgBr + Fe(CN)6⁴⁻; 2 Fe(CN)6⁴⁻ + S2O8²⁻ → 2 Fe(CN)6³⁻ + 2 SO4²⁻ (standard texts)
    const record = used('bleach', 'ecn2-bleach', 10);
    const back = replenishAdvice(record)?.regenerate;
    const silverG =
      10 *
      filmAreaM2({ stock: 'x', format: '35mm' }) *
      filmSilver.coatedGPerM2.usual *
      filmSilver.developedShare.usual;
    const mol = silverG / molar.silver;
    // short of the whole, since persulphate that is left over would free bromine from the bromide (common practice)
    expect(back?.potassiumPersulphateG).toBeCloseTo(0.85 * (mol / 2) * 270.32, 6);
    expect(back?.sodiumBromideG).toBeCloseTo(mol * 102.894, 6);
  });

  it('a developer does what is customary, and no more', () => {
    const life = bottleLife(used('developer', 'ecn2-developer', 6), 0);
    expect(life.filmsLeft.usual).toBe(0);
    expect(bottleLife(used('developer', 'ecn2-developer', 2), 0).filmsLeft.usual).toBe(4);
  });
});
