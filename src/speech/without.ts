/**
 * For the tests of a real room alone: parts that the environment takes out, so that a measure can be shown to fall without
 * them. Named in TANKSIDE_WITHOUT, with commas between.
 */
export const without = (part: 'barge-in' | 'supervision'): boolean =>
  (process.env.TANKSIDE_WITHOUT ?? '').split(',').includes(part);
