/** Newton's law of cooling: dT/dt = (T_surroundings − T)/τ. Times and τ in the same unit, here seconds. */

/** Temperature after `seconds` in surroundings that stay at `aroundC`. */
export const newtonTempC = (startC: number, aroundC: number, tauS: number, seconds: number): number =>
  aroundC + (startC - aroundC) * Math.exp(-seconds / tauS);

/** Seconds until `targetC`; null when the surroundings never bring it there; 0 when it is there already. */
export function newtonSecondsTo(
  targetC: number,
  startC: number,
  aroundC: number,
  tauS: number,
): number | null {
  if (targetC === startC) return 0;
  const share = (targetC - aroundC) / (startC - aroundC);
  return share > 0 && share < 1 ? -tauS * Math.log(share) : null;
}

/** Time constant from two readings taken `seconds` apart in steady surroundings; null when they tell nothing. */
export function newtonTauS(firstC: number, secondC: number, aroundC: number, seconds: number): number | null {
  const share = (secondC - aroundC) / (firstC - aroundC);
  return share > 0 && share < 1 ? -seconds / Math.log(share) : null;
}

/** Mean temperature over the first `seconds`. */
export function newtonMeanC(startC: number, aroundC: number, tauS: number, seconds: number): number {
  if (seconds <= 0) return startC;
  return aroundC + (startC - aroundC) * (tauS / seconds) * (1 - Math.exp(-seconds / tauS));
}
