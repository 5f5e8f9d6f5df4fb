/** The value below which `share` (0 to 1) of the sorted values lie, between neighbours by proportion. */
export function quantile(sorted: ArrayLike<number>, share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const x = share * (sorted.length - 1);
  const i = Math.floor(x);
  const low = sorted[i] as number;
  return low + (x - i) * ((sorted[Math.min(sorted.length - 1, i + 1)] as number) - low);
}

export const sorted = (values: Iterable<number>): Float64Array => Float64Array.from(values).sort();
export const median = (values: Iterable<number>): number => quantile(sorted(values), 0.5);
export const mean = (values: readonly number[]): number =>
  values.reduce((s, v) => s + v, 0) / Math.max(1, values.length);
export const spread = (values: readonly number[]): number => {
  const m = mean(values);
  return Math.sqrt(mean(values.map((v) => (v - m) ** 2)));
};
