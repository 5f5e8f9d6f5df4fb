import { describe, expect, it } from 'vitest';
import { ecn2Ferricyanide, h2407 } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { ecn2FerricyanideHome } from '../../src/process/sheets/ecn2-ferricyanide-home.js';

/**
 * Kodak Publication H-24.07, "Process ECN-2 Specifications" (Processing KODAK Motion Picture Films, Module 7),
 * table "Mechanical Specifications for Process ECN-2 with FERRICYANIDE Bleach". The figures were compared with a
 * public transcription of that table; the publication itself could not be opened, so the split of the tolerance
 * columns is from memory of H-24.07.
 */
const table: [step: string, timeS: number | null, lowC: number, highC: number][] = [
  // Prebath PB-2, 0:10, 27 ± 1 °C
  ['prebath', 10, 26, 28],
  // Rem-jet removal and rinse, no time given, 27 to 38 °C
  ['backing-removal', null, 27, 38],
  // Developer SD-49, 3:00, 41.1 ± 0.1 °C
  ['developer', 180, 41.0, 41.2],
  // Stop SB-14, 0:30, 27 to 38 °C
  ['stop', 30, 27, 38],
  // Wash, 0:30, 27 to 38 °C
  ['wash-after-stop', 30, 27, 38],
  // Ferricyanide bleach SR-29, 3:00, 38 ± 1 °C
  ['bleach', 180, 37, 39],
  // Wash, 1:00, 27 to 38 °C
  ['wash-after-bleach', 60, 27, 38],
  // Fixer F-34a, 2:00, 38 ± 1 °C
  ['fixer', 120, 37, 39],
  // Wash, 2:00, 27 to 38 °C
  ['wash-after-fixer', 120, 27, 38],
  // Final rinse FR-1, 0:10, 27 to 38 °C
  ['final-rinse', 10, 27, 38],
];

describe('the published sheet against Kodak Publication H-24.07', () => {
  const byId = new Map(ecn2Ferricyanide.steps.map((s) => [s.id, s]));

  it('has the steps of the table, in its order, and then hangs the film', () => {
    expect(ecn2Ferricyanide.steps.map((s) => s.id)).toEqual([...table.map(([id]) => id), 'hang']);
  });
  it.each(table)('%s', (id, timeS, lowC, highC) => {
    const step = byId.get(id);
    expect(step?.time?.aimS ?? null).toBe(timeS);
    if (step?.time) expect(step.time.source).toBe(h2407);
    expect(step?.temp).toMatchObject({ minC: lowC, maxC: highC, source: h2407 });
  });
  it('the developer aims at 41.1 °C, which is 106 °F', () => {
    const aimC = byId.get('developer')?.temp?.aimC ?? 0;
    expect(aimC).toBe(41.1);
    expect((aimC * 9) / 5 + 32).toBeCloseTo(106, 0);
  });
});

describe('the home sheet: common practice', () => {
  const byId = new Map(ecn2FerricyanideHome.steps.map((s) => [s.id, s]));
  it('gives the prebath 1:00 and the removal rinse 0:30 at 27 °C, as a table for hand processing has them', () => {
    // from memory of R. Schaller, Process ECP2-A and ECN-2 (2004): prebath 1:00 at 27 ± 1 °C, rinse 0:30 at 27 ± 3 °C
    const source = expect.stringContaining('ECP2-A and ECN-2 (2004)');
    expect(byId.get('prebath')).toMatchObject({
      time: { aimS: 60, source },
      temp: { aimC: 27, minC: 26, maxC: 28, source },
    });
    expect(byId.get('backing-removal')).toMatchObject({
      time: { aimS: 30, source },
      temp: { aimC: 27, minC: 24, maxC: 30, source },
    });
  });
  it('rinses between baths where a machine washes', () => {
    for (const id of ['stop', 'bleach']) expect(byId.get(id)?.rinseAfter?.source).toBe('common practice');
  });
  it('leaves the developer as published', () => {
    expect(byId.get('developer')).toEqual(ecn2Ferricyanide.steps.find((s) => s.id === 'developer'));
  });
});

it('every number of both sheets names its source', () => {
  for (const sheet of [ecn2Ferricyanide, ecn2FerricyanideHome])
    for (const step of sheet.steps) {
      const sources = [
        step.time?.source,
        step.time?.toleranceSource,
        step.temp?.source,
        step.agitation?.source,
        step.drain.source,
        step.rinseAfter?.source,
      ].filter((s) => s !== undefined);
      for (const source of sources)
        expect(source).toMatch(/^(?:Kodak Publication H-24\.07|common practice|from memory of )/);
    }
});
