import { type BottleMaterial, materials, wallM, wallMassShare } from './materials.js';
import { waterCapacityJPerK } from './water.js';

/** Where a vessel stands: in the tub's water, or in the air of the room. */
export type Placement = 'tub' | 'air';

/**
 * Film coefficients, W/(m²·K). source: Incropera et al., Fundamentals of Heat and Mass Transfer, table 1.1
 * (from memory): free convection of liquids 50–1000, of gases 2–25, to which radiation adds about 6 near 40 °C;
 * forced convection of liquids 100–20 000. The tub's water moves (circulating heater), the bottle's hardly.
 */
const insideWPerM2K = 300;
const outsideWPerM2K: Record<Placement, number> = { tub: 600, air: 11 };

/** Spread of the logarithm of a prior time constant: shape, wall, filling, how freely the tub's water flows. */
export const priorLogTauSd: Record<Placement, number> = { tub: 0.35, air: 0.35 };

/**
 * Time constant of a bottle of liquid before any reading, s: τ = (C_liquid + C_wall)/(U·A), for an upright
 * cylinder twice as tall as wide (wall and bottom wetted), U from inside film, wall and outside film in series.
 * Good to about ±35 % (1 sd); readings then take over. Volume 50 to 20 000 ml.
 */
export function priorTauS(volumeMl: number, material: BottleMaterial, placement: Placement): number {
  const diameterM = (2 * (volumeMl * 1e-6)) ** (1 / 3) / Math.PI ** (1 / 3);
  const areaM2 = Math.PI * diameterM * 2 * diameterM + (Math.PI / 4) * diameterM ** 2;
  const wall = materials[material];
  const resistance =
    1 / insideWPerM2K + wallM[material] / wall.conductivityWPerMK + 1 / outsideWPerM2K[placement];
  return (bottleCapacityJPerK(volumeMl, material) * resistance) / areaM2;
}

/** Heat capacity of a bottle with its liquid, J/K. */
export const bottleCapacityJPerK = (volumeMl: number, material: BottleMaterial): number =>
  waterCapacityJPerK(volumeMl, 30) + wallMassShare[material] * volumeMl * materials[material].heatJPerGK;
