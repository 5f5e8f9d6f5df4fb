import type { LiquidId } from '../world/vessel.js';
import { bottledLiquids, type ProcessSheet } from './sheet.js';

/** A bottle taken to stand ready before anyone has said so. */
export interface Bottle {
  bottle: number;
  liquid: LiquidId;
  volumeMl: number;
  capacityMl: number;
}

/** Bottles 1, 2, 3… hold the sheet's baths in the order they are used, until somebody says otherwise. */
export const bottlesOf = (
  sheet: ProcessSheet,
  usual: { bottleVolumeMl: number; bottleCapacityMl: number },
): Bottle[] =>
  bottledLiquids(sheet).map((liquid, i) => ({
    bottle: i + 1,
    liquid,
    volumeMl: usual.bottleVolumeMl,
    capacityMl: usual.bottleCapacityMl,
  }));
