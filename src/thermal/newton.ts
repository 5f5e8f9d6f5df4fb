/** Newton's law of cooling: dT/dt = (T_surroundings − T)/τ. Times and τ in the same unit, here seconds. */

/** Temperature after `seconds` in surroundings that stay at `aroundC`. */
export const newtonTempC = (startC: number, aroundC: number, tauS: number, seconds: number): number =>
  aroundC + (startC - aroundC) * Math.exp(-seconds / tauS);

/** Mean temperature over the first `seconds`. */
export function newtonMeanC(startC: number, aroundC: number, tauS: number, seconds: number): number {
  if (seconds <= 0) return startC;
  return aroundC + (startC - aroundC) * (tauS / seconds) * (1 - Math.exp(-seconds / tauS));
}
