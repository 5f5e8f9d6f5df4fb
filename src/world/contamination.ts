import { recipeForLiquid, type Verdict, whatIfPoured } from '../chemistry/index.js';
import type { BottleRecord, Contamination } from './records.js';
import type { LiquidId } from './vessel.js';

export interface ContaminationEffect {
  contamination: Contamination;
  /** null: nothing is known of one of the two liquids */
  verdict: Verdict | null;
  /** the finding that decides, in words; '' when nothing does */
  why: string;
  phBefore: number | null;
  phAfter: number | null;
  /** share of the bath's working part lost, 0 to 1 */
  strengthLost: number | null;
  sources: string[];
}

/** What one wrong pour did to a bath, by the solution model; both baths are taken as fresh. */
export function effectOf(contamination: Contamination): ContaminationEffect {
  const into = recipeForLiquid(contamination.intoLiquid) ?? null;
  const poured = contamination.liquid === 'water' ? null : recipeForLiquid(contamination.liquid);
  const unknown = {
    contamination,
    verdict: null,
    why: '',
    phBefore: null,
    phAfter: null,
    strengthLost: null,
    sources: [],
  };
  if (into === null || poured === undefined) return unknown;
  const result = whatIfPoured(poured, contamination.volumeMl, into, contamination.intoMl);
  if (!result.ok) return unknown;
  const { value } = result;
  const deciding = value.findings.filter((finding) => finding.level === value.verdict);
  const decisive =
    deciding.find((finding) => finding.id === 'danger' || finding.id === 'foreign') ?? deciding[0];
  return {
    contamination,
    verdict: value.verdict,
    why: value.verdict === 'use' ? '' : (decisive?.why ?? ''),
    phBefore: value.phBefore,
    phAfter: value.phAfter,
    strengthLost: value.strengthLost,
    sources: value.restsOn,
  };
}

const order: readonly (Verdict | null)[] = ['discard', 'care', null, 'use'];

/** The worst of a bottle's wrong pours, or null when there were none. */
export function worstContamination(bottle: BottleRecord): ContaminationEffect | null {
  const effects = bottle.contaminations.map(effectOf);
  return effects.sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict))[0] ?? null;
}

/** Share of a bottle that came over from each other bath, 0 to 1, largest first; below a tenth of a percent left out. */
export function carryOver(bottle: BottleRecord): { liquid: LiquidId; share: number }[] {
  const { parts, volumeMl } = bottle.contents;
  return Object.entries(parts)
    .filter(([liquid]) => liquid !== bottle.liquid)
    .map(([liquid, ml]) => ({ liquid, share: volumeMl <= 0 ? 0 : ml / volumeMl }))
    .filter(({ share }) => share >= 0.001)
    .sort((a, b) => b.share - a.share);
}
