/** Paired comparison of two recognisers on the same clips. */
interface Paired {
  onlyA: number;
  onlyB: number;
  /** exact two-sided McNemar test */
  p: number;
  verdict: 'ahead' | 'behind' | 'tie';
}

function paired(a: readonly boolean[], b: readonly boolean[]): Paired {
  let onlyA = 0;
  let onlyB = 0;
  a.forEach((right, i) => {
    if (right && !b[i]) onlyA++;
    if (!right && b[i]) onlyB++;
  });
  const n = onlyA + onlyB;
  let tail = 0;
  for (let k = 0; k <= Math.min(onlyA, onlyB); k++) tail += Math.exp(logChoose(n, k) - n * Math.LN2);
  const p = n === 0 ? 1 : Math.min(1, 2 * tail);
  return { onlyA, onlyB, p, verdict: p >= 0.05 ? 'tie' : onlyA > onlyB ? 'ahead' : 'behind' };
}

/** The heads of what `beside` gives. */
export const besideHead = ['PocketSphinx right', 'only ours / only theirs', 'McNemar p', 'we are'];

/** Another recogniser on the same clips, right or not clip by clip. */
export function beside(ours: readonly boolean[], theirs: readonly boolean[]): string[] {
  const { onlyA, onlyB, p, verdict } = paired(ours, theirs);
  const right = share(theirs.filter(Boolean).length, theirs.length);
  return [right, `${onlyA} / ${onlyB}`, p < 0.001 ? '< 0.001' : p.toFixed(3), verdict];
}

function logChoose(n: number, k: number): number {
  let sum = 0;
  for (let i = 1; i <= k; i++) sum += Math.log((n - k + i) / i);
  return sum;
}

export const percentile = (values: readonly number[], q: number): number =>
  [...values].sort((x, y) => x - y)[Math.min(values.length - 1, Math.floor(q * values.length))] ?? Number.NaN;

export const percent = (part: number, whole: number): string =>
  `${((100 * part) / (whole || 1)).toFixed(1)} %`;

export const share = (right: number, of: number): string =>
  of === 0 ? 'none' : `${right}/${of} (${((100 * right) / of).toFixed(1)} %)`;

export function table(head: string[], rows: string[][]): string {
  return [head, head.map(() => '---'), ...rows].map((r) => `| ${r.join(' | ')} |`).join('\n');
}
