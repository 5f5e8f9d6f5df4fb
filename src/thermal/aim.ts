/** What a process sheet asks of a bath's temperature, °C: the aim and the limits it may lie between. */
export interface Aim {
  aimC: number;
  lowC: number;
  highC: number;
}

/** A reading on the limit counts as within; the whisper is for sums such as 41.1 − 0.1. */
export const isWithin = (aim: Aim, tempC: number): boolean =>
  tempC >= aim.lowC - 1e-9 && tempC <= aim.highC + 1e-9;
