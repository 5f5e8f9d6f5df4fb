import { waterCapacityJPerK } from './water.js';

/** Something with a heat capacity and a temperature. */
export interface Body {
  capacityJPerK: number;
  tempC: number;
}

/** Common temperature of bodies brought together without loss: heat gained equals heat lost. */
export function mixedTempC(bodies: readonly Body[]): number {
  const capacity = bodies.reduce((s, b) => s + b.capacityJPerK, 0);
  return bodies.reduce((s, b) => s + b.capacityJPerK * b.tempC, 0) / capacity;
}

export const water = (volumeMl: number, tempC: number): Body => ({
  capacityJPerK: waterCapacityJPerK(volumeMl, tempC),
  tempC,
});

export const solid = (massG: number, heatJPerGK: number, tempC: number): Body => ({
  capacityJPerK: massG * heatJPerGK,
  tempC,
});
