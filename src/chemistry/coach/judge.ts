import type { BatchLine } from '../batch.js';
import { gramsPer } from '../quantities.js';
import { formsOf, substitute } from '../substances.js';
import { batchOf, decimalsOf, type LineState, type MixInHand, remaining } from './state.js';

/** What a reading means. `amount` is what is on the scale, in the component's unit. */
export type Judgement =
  | { kind: 'right'; amount: number }
  | { kind: 'under'; amount: number; more: number }
  | { kind: 'over'; amount: number; excess: number }
  | { kind: 'unit'; unit: 'oz' | 'grain' }
  | { kind: 'tenfold'; direction: 'more' | 'less' }
  | { kind: 'tare'; excess: number; sameAs: string | null }
  | { kind: 'form'; form: string }
  | { kind: 'jar'; line: number };

interface Candidate {
  judgement: Judgement;
  /** distance from a perfect match, relative */
  misfit: number;
  /** how unlikely the slip is before looking; breaks near ties */
  prior: number;
}

/** How closely a reading must match a slip's own number to be taken for it: 1.5 %, or the tolerance. */
const slipMatch = 0.015;

/**
 * Judges a reading given without a unit, or in the component's own unit. In tolerance is right whatever else it
 * could be. Otherwise the slip that explains it best is asked about; a plain partial weight or an overshoot is what
 * remains.
 */
export function judgeReading(mix: MixInHand, line: BatchLine, state: LineState, value: number): Judgement {
  const target = remaining(line, state);
  if (Math.abs(value - target) <= line.tolerance * (1 + 1e-9)) return { kind: 'right', amount: value };
  const best = slips(mix, line, value, target).sort((a, b) => a.misfit + a.prior - (b.misfit + b.prior))[0];
  if (best !== undefined) return best.judgement;
  if (value < target) return { kind: 'under', amount: value, more: target - value };
  const excess = value - target;
  // nobody overshoots by half on purpose: an empty boat not zeroed is likelier
  if (line.unit === 'g' && excess > Math.max(0.5 * target, 5 * line.tolerance))
    return { kind: 'tare', excess, sameAs: null };
  return { kind: 'over', amount: value, excess };
}

/** The same for a reading whose unit was said; converted, then in tolerance, under or over, with no guessing. */
export function judgeConverted(line: BatchLine, state: LineState, amount: number): Judgement {
  const target = remaining(line, state);
  if (Math.abs(amount - target) <= line.tolerance * (1 + 1e-9)) return { kind: 'right', amount };
  return amount < target
    ? { kind: 'under', amount, more: target - amount }
    : { kind: 'over', amount, excess: amount - target };
}

function slips(mix: MixInHand, line: BatchLine, value: number, target: number): Candidate[] {
  const out: Candidate[] = [];
  const consider = (judgement: Judgement, expected: number, prior: number, slack = 0): void => {
    const off = Math.abs(value - expected);
    if (expected > 0 && off <= Math.max(slipMatch * expected, slack)) {
      out.push({ judgement, misfit: off / expected, prior });
    }
  };
  if (line.unit === 'g') {
    const ounce = gramsPer('oz') ?? 28.35;
    // a scale of 0.01 g shows 0.001 or 0.01 oz; half of the coarser step must still match
    if (value > 0) consider({ kind: 'unit', unit: 'oz' }, target / ounce, 0, 0.005);
    consider({ kind: 'unit', unit: 'grain' }, target / (gramsPer('grain') ?? 0.0648), 0.002, 0.1);
    if (moreDecimals(value, mix.scaleStepG) && value < target / 5) {
      out.push({ judgement: { kind: 'unit', unit: 'oz' }, misfit: 0.02, prior: 0.01 });
    }
    if (mix.lastWeighed !== null && mix.lastWeighed.name !== line.form.name) {
      consider(
        { kind: 'tare', excess: value - target, sameAs: mix.lastWeighed.name },
        target + mix.lastWeighed.amount,
        0.001,
        line.tolerance,
      );
    }
    for (const other of formsOf(line.form)) {
      if (other.id === line.form.id || other.measure !== 'g') continue;
      const equal = substitute(line.form, target, other);
      if (equal.ok && Math.abs(equal.amount / target - 1) > 0.03) {
        consider({ kind: 'form', form: other.id }, equal.amount, 0.002, line.tolerance);
      }
    }
  }
  consider({ kind: 'tenfold', direction: 'more' }, target * 10, 0.001, line.tolerance);
  // a tenth of a small amount is shown to half a step
  if (value > 0)
    consider({ kind: 'tenfold', direction: 'less' }, target / 10, 0.001, 0.51 * stepShown(mix, line));
  batchOf(mix).lines.forEach((l, i) => {
    const s = mix.lines[i];
    if (l === line || s === undefined || s.aside !== null || l.unit !== line.unit) return;
    // a part that is in may be weighed once more
    consider(
      { kind: 'jar', line: i },
      s.settled ? l.amount : remaining(l, s),
      s.settled ? 0.003 : 0.0005,
      Math.min(l.tolerance, 0.05 * l.amount),
    );
  });
  return out;
}

/** Smallest amount the scale or syringe shows, in the line's unit. */
const stepShown = (mix: MixInHand, line: BatchLine): number => (line.unit === 'g' ? mix.scaleStepG : 0.1);

/** A reading finer than the scale's step did not come from that scale in grams. */
const moreDecimals = (value: number, step: number): boolean => {
  const steps = value / step;
  return Math.abs(steps - Math.round(steps)) > 1e-6 && decimalsOf(step) > 0;
};
