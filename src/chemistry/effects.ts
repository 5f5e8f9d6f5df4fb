import { type Batch, type BatchLine, bathOf } from './batch.js';
import { equilibriumOf } from './solution/bath.js';
import { formsOf, substitute } from './substances.js';

/** What a weighing error does to a batch: new pH (null when not modelled), change, and the concentration ratio. */
export interface ErrorEffect {
  ph: number | null;
  phShift: number | null;
  ratio: number;
}

/** Effect of `actual` g or ml of one line in place of its amount. */
export function errorEffect(batch: Batch, line: BatchLine, actual: number): ErrorEffect {
  const ratio = actual / line.amount;
  if (batch.expectedPh === null) return { ph: null, phShift: null, ratio };
  const solved = equilibriumOf(bathOf(batch.lines, batch.volumeMl, (l) => (l === line ? ratio : 1)));
  const ph = solved.ok ? solved.value.ph : null;
  return { ph, phShift: ph === null ? null : ph - batch.expectedPh, ratio };
}

export interface PhExplanation {
  kind: 'left-out' | 'doubled' | 'wrong-form' | 'ten-times';
  substance: string;
  name: string;
  /** the form that was taken instead, for wrong-form */
  otherForm?: string;
  ph: number;
  /** distance from the reading */
  misfit: number;
}

/** Salts of these baths dissolve to about this, g per ml at room temperature. source: CRC Handbook, sodium sulphate 0.28, carbonate 0.3 */
const dissolvesGPerMl = 0.45;

/**
 * Slips that would give a measured pH, nearest first: a component left out, doubled, weighed tenfold, or another
 * hydrate weighed as if it were the planned one. Only slips nearer to the reading than the right bath is.
 */
export function explainPh(batch: Batch, measured: number, within = 0.15): PhExplanation[] {
  if (batch.expectedPh === null) return [];
  const out: PhExplanation[] = [];
  const add = (kind: PhExplanation['kind'], line: BatchLine, ratio: number, otherForm?: string): void => {
    // more than dissolves is no slip of a weighing: the jug would have shown it
    if (line.unit === 'g' && (line.amount * ratio) / batch.volumeMl > dissolvesGPerMl) return;
    const { ph } = errorEffect(batch, line, line.amount * ratio);
    if (ph === null) return;
    const misfit = Math.abs(ph - measured);
    if (misfit > within || misfit >= Math.abs((batch.expectedPh ?? 0) - measured)) return;
    const base = { kind, substance: line.form.id, name: line.form.name, ph, misfit };
    out.push(otherForm === undefined ? base : { ...base, otherForm });
  };
  for (const line of batch.lines) {
    add('left-out', line, 0);
    add('doubled', line, 2);
    add('ten-times', line, 10);
    for (const other of formsOf(line.form)) {
      if (other.id === line.form.id || other.measure !== line.unit) continue;
      // the planned mass of the wrong form holds less (or more) of the active part
      const equal = substitute(line.form, line.amount, other);
      if (equal.ok && Math.abs(equal.amount / line.amount - 1) > 0.02) {
        add('wrong-form', line, line.amount / equal.amount, other.name);
      }
    }
  }
  return out.sort((a, b) => a.misfit - b.misfit);
}
