/** Transmittance as density. source: ISO 5-1, D = −log10 T (and D = log10 of opacity) */
export const densityOf = (transmittance: number): number => -Math.log10(transmittance);

/**
 * Pixels as a scanner or camera gave them, red, green and blue in turn, with what turns each code into light.
 * `codes`: number of code values (256 or 65536).
 */
export interface Scan {
  width: number;
  height: number;
  data: Uint8Array | Uint16Array;
  codes: 256 | 65536;
  transfer: Transfer;
}

/** Light 0 to 1 of a code 0 to 1, for each channel. */
export type Transfer = readonly [Curve, Curve, Curve];
export type Curve = (code: number) => number;

export type Tables = readonly [Float32Array, Float32Array, Float32Array];

const kept = new WeakMap<Transfer, Map<number, Tables>>();

/** Density of every code value, one table a channel. The darkest code stands at half a step above no light. */
export function densityTables(codes: number, transfer: Transfer): Tables {
  const known = kept.get(transfer) ?? new Map<number, Tables>();
  kept.set(transfer, known);
  const found = known.get(codes);
  if (found) return found;
  const top = codes - 1;
  const table = (curve: Curve): Float32Array => {
    const floor = Math.max(curve(0.5 / top), 1e-5);
    return Float32Array.from({ length: codes }, (_, i) => densityOf(Math.max(floor, curve(i / top))));
  };
  const same = transfer[0] === transfer[1] && transfer[1] === transfer[2];
  const first = table(transfer[0]);
  const tables: Tables = same ? [first, first, first] : [first, table(transfer[1]), table(transfer[2])];
  known.set(codes, tables);
  return tables;
}
