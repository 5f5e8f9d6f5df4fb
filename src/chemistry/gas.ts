import { type Bath, equilibriumOf, molarity } from './solution/bath.js';

/** Litres of a mole of gas at 25 °C and 1 bar. source: ideal gas law, CODATA gas constant */
const litresPerMol = 24.79;

/** Carbon dioxide that a litre of water holds under its own gas at 1 bar, mol. source: USGS pitzer.dat, log K -1.468 */
const co2HeldMolPerL = 0.034;

export interface Gas {
  id: 'carbon dioxide' | 'sulphur dioxide' | 'chlorine' | 'ammonia' | 'oxygen' | 'hydrogen sulphide';
  /** what comes off if the vessel is shaken open, litres at room temperature; 0: only smelt */
  litres: number;
  /** dissolved and ready to come off, mol/l */
  molPerL: number;
}

/** Above this a dissolved gas is smelt over the bath, mol/l. source: common practice, from vapour pressures */
const smelt = { so2: 0.0005, nh3: 0.01, h2s: 0.00001, cl2: 0.0001 } as const;

/**
 * Gases over a mixture at equilibrium, 25 °C. Carbon dioxide is given as the volume beyond what the water holds: in a
 * tank with its lid shut it presses on the lid.
 */
export function gasesOf(bath: Bath): Gas[] {
  const solved = equilibriumOf(bath);
  if (!solved.ok) return [];
  const { species, ph } = solved.value;
  const out: Gas[] = [];
  const litres = bath.volumeMl / 1000;
  const co2 = species.H2CO3 ?? 0;
  if (co2 > co2HeldMolPerL) {
    out.push({
      id: 'carbon dioxide',
      litres: (co2 - co2HeldMolPerL) * litres * litresPerMol,
      molPerL: co2,
    });
  }
  const so2 = (species.H2SO3 ?? 0) + (ph < 3.5 ? molarity(bath, 'thiosulfate') : 0);
  if (so2 > smelt.so2) out.push({ id: 'sulphur dioxide', litres: 0, molPerL: so2 });
  const nh3 = species.NH3 ?? 0;
  if (nh3 > smelt.nh3) out.push({ id: 'ammonia', litres: 0, molPerL: nh3 });
  const h2s = species.H2S ?? 0;
  if (h2s > smelt.h2s)
    out.push({
      id: 'hydrogen sulphide',
      litres: h2s * litres * litresPerMol,
      molPerL: h2s,
    });
  const hocl = species.HOCl ?? 0;
  if (ph < 6 && hocl > smelt.cl2) out.push({ id: 'chlorine', litres: 0, molPerL: hocl });
  // two moles of peroxide give one of oxygen, and so does peroxide with hypochlorite
  const peroxide = bath.moles.peroxide ?? 0;
  const split = (bath.moles.hypochlorite ?? 0) > 0 ? Math.min(peroxide, bath.moles.hypochlorite ?? 0) : 0;
  if (split > 0)
    out.push({
      id: 'oxygen',
      litres: split * litresPerMol,
      molPerL: split / litres,
    });
  return out;
}

/** Gas that presses on a shut lid, as litres; below this a tank's own air space takes it. source: common practice */
export const lidPressureL = 0.05;

export const pressing = (gases: readonly Gas[]): number => gases.reduce((sum, g) => sum + g.litres, 0);
