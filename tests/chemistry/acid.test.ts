import { expect, it } from 'vitest';
import { classesOfBath } from '../../src/chemistry/mixture.js';
import { equilibriumOf, water, withSubstance } from '../../src/chemistry/solution/bath.js';
import { substanceById } from '../../src/chemistry/substances.js';

it('a bath is an acid towards what acid must not meet as long as it is below pH 4.5', () => {
  const vinegar = substanceById('vinegar-5');
  const soda = substanceById('sodium-bicarbonate');
  if (!vinegar || !soda) throw new Error('expected vinegar and bicarbonate');
  const found = [0, 4, 8, 12, 16, 20, 24].map((sodaG) => {
    const bath = withSubstance(withSubstance(water(600), vinegar, 400), soda, sodaG);
    const solved = equilibriumOf(bath);
    if (!solved.ok) throw new Error(solved.why);
    return { ph: solved.value.ph, acid: classesOfBath(null, bath).has('acid') };
  });
  for (const { ph, acid } of found) expect(acid, `pH ${ph.toFixed(2)}`).toBe(ph < 4.5);
  // plain vinegar is about pH 2.6, and half of it neutralised is at the pK of acetic acid, 4.76 (CRC Handbook)
  expect(found[0]?.ph).toBeCloseTo(2.6, 0);
  expect(found.filter(({ ph }) => ph > 2.65 && ph < 4.5).length).toBeGreaterThan(1);
  expect(found.some(({ ph }) => ph > 4.5)).toBe(true);
  expect(classesOfBath(null, water(500)).has('acid')).toBe(false);
});
