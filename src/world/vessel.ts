/** Where liquid can stand. Bottles are numbered as the user numbers them, from 1. */
export type VesselRef =
  | BottleRef
  | { kind: 'tank' }
  | { kind: 'jug' }
  /** the bath of warm water the bottles stand in */
  | { kind: 'tub' }
  /** wash and rinse water from the tap or a bucket */
  | { kind: 'tap' }
  | { kind: 'sink' };

export interface BottleRef {
  kind: 'bottle';
  number: number;
}

/** A liquid's id in a process sheet, e.g. `developer`; `water` is always known. */
export type LiquidId = string;

export const tank: VesselRef = { kind: 'tank' };

export const vesselKey = (v: VesselRef): string => (v.kind === 'bottle' ? `bottle-${v.number}` : v.kind);
