import type { Aim } from '../../src/thermal/aim.js';

/** An aim with the same tolerance both ways, as in "41.1 ± 0.1". */
export const aimWithin = (aimC: number, tolC: number): Aim => ({
  aimC,
  lowC: aimC - tolC,
  highC: aimC + tolC,
});
