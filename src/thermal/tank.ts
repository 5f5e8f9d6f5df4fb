import type { Aim } from './aim.js';
import { type Body, mixedTempC, solid, water } from './calorimetry.js';
import { type BottleMaterial, materials } from './materials.js';
import { newtonMeanC, newtonTempC } from './newton.js';

/** A developing tank with its reels and film. Masses in g. */
export interface TankBuild {
  material: BottleMaterial;
  tankMassG: number;
  reelMassG: number;
  filmMassG: number;
  /** liquid left on film, reel and walls by the bath before, ml */
  heldBackMl: number;
}

/**
 * A small tank for one or two rolls. source: common practice (a plastic tank body of 180–250 g, of which about
 * half follows the liquid within a step; a reel 60 g; 1.6 m of 35 mm film 12 g; 15 ml left after draining)
 */
export const smallPlasticTank: TankBuild = {
  material: 'plastic',
  tankMassG: 110,
  reelMassG: 60,
  filmMassG: 12,
  heldBackMl: 15,
};

/**
 * Time constant of a filled tank, s, per cube root of volume: source: own estimate by the arithmetic of
 * `priorTauS`, with the better stirring of agitation inside. Uncertain by a third.
 */
const tauSPerCubeRootMl = { tub: 55, air: 700 } as const;

export const tankTauS = (volumeMl: number, standingIn: 'tub' | 'air'): number =>
  tauSPerCubeRootMl[standingIn] * volumeMl ** (1 / 3);

const vesselBodies = (tank: TankBuild, tempC: number): Body[] => [
  solid(tank.tankMassG, materials[tank.material].heatJPerGK, tempC),
  solid(tank.reelMassG, materials[tank.material].heatJPerGK, tempC),
  solid(tank.filmMassG, materials.film.heatJPerGK, tempC),
];

/** What stands in the tank before the pour: dry at room temperature, or wet from a rinse or the bath before. */
export interface TankBefore {
  tempC: number;
  wet: boolean;
}

/** Temperature of `volumeMl` poured at `pourC`, once liquid, tank, reel and film are at one temperature. */
export function afterPourC(tank: TankBuild, before: TankBefore, volumeMl: number, pourC: number): number {
  const left = before.wet && tank.heldBackMl > 0 ? [water(tank.heldBackMl, before.tempC)] : [];
  return mixedTempC([...vesselBodies(tank, before.tempC), ...left, water(volumeMl, pourC)]);
}

export interface StepTemperatures {
  startC: number;
  endC: number;
  meanC: number;
}

/** Start, end and mean of a step of `seconds`; the tank stands in the tub, or on the table in the room. */
export function stepTemperatures(
  tank: TankBuild,
  before: TankBefore,
  volumeMl: number,
  pourC: number,
  around: { standingIn: 'tub' | 'air'; tempC: number },
  seconds: number,
): StepTemperatures {
  const startC = afterPourC(tank, before, volumeMl, pourC);
  const tauS = tankTauS(volumeMl, around.standingIn);
  return {
    startC,
    endC: newtonTempC(startC, around.tempC, tauS, seconds),
    meanC: newtonMeanC(startC, around.tempC, tauS, seconds),
  };
}

export interface PourAdvice {
  /** pour at this temperature, °C: within the sheet's limits */
  pourC: number;
  /** what would make the mean of the step the aim, °C */
  wantedC: number;
  /** the wanted temperature lies outside the sheet's tolerance: warm the tank first, or stand it in the tub */
  beyondTolerance: boolean;
  at: StepTemperatures;
}

/** How warm to pour so that the mean over the step is the aim, held within the sheet's tolerance. */
export function pourAdvice(
  tank: TankBuild,
  before: TankBefore,
  volumeMl: number,
  aim: Aim,
  around: { standingIn: 'tub' | 'air'; tempC: number },
  seconds: number,
): PourAdvice {
  const meanAt = (pourC: number): number =>
    stepTemperatures(tank, before, volumeMl, pourC, around, seconds).meanC;
  const slope = meanAt(aim.aimC + 1) - meanAt(aim.aimC);
  const wantedC = aim.aimC + (aim.aimC - meanAt(aim.aimC)) / slope;
  const pourC = Math.min(aim.highC, Math.max(aim.lowC, wantedC));
  return {
    pourC,
    wantedC,
    beyondTolerance: Math.abs(wantedC - pourC) > 1e-9,
    at: stepTemperatures(tank, before, volumeMl, pourC, around, seconds),
  };
}

/** Fall (positive) or rise of the next bath, °C, because tank, reel and film come from a rinse at `rinseC`. */
export const rinseCostC = (tank: TankBuild, rinseC: number, nextMl: number, nextC: number): number =>
  nextC - afterPourC(tank, { tempC: rinseC, wet: true }, nextMl, nextC);
