/** What a process sheet asks of a bath's temperature, °C: the aim and the limits it may lie between. */
export interface Aim {
  aimC: number;
  lowC: number;
  highC: number;
}

/** An aim with the same tolerance both ways, as in "41.1 ± 0.1". */
export const aimWithin = (aimC: number, tolC: number): Aim => ({
  aimC,
  lowC: aimC - tolC,
  highC: aimC + tolC,
});

/** A reading on the limit counts as within; the whisper is for sums such as 41.1 − 0.1. */
export const isWithin = (aim: Aim, tempC: number): boolean =>
  tempC >= aim.lowC - 1e-9 && tempC <= aim.highC + 1e-9;
