import fc from 'fast-check';
import { acidSystems, ionCharges, type TotalId } from '../../src/chemistry/solution/species.js';

const ids = [...acidSystems.map((s) => s.id), ...Object.keys(ionCharges)] as TotalId[];

/** Any mixture of up to eight kinds, 1 nmol/kg to 3 mol/kg each. */
export const anyTotals = fc
  .uniqueArray(fc.tuple(fc.constantFrom(...ids), fc.double({ min: -9, max: 0.477, noNaN: true })), {
    maxLength: 8,
    selector: ([id]) => id,
  })
  .map(
    (pairs) =>
      Object.fromEntries(pairs.map(([id, log]) => [id, 10 ** log])) as Partial<Record<TotalId, number>>,
  );

export const anyTemp = fc.double({ min: 0, max: 60, noNaN: true });
