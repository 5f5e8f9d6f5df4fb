import {
  type Cause,
  type CauseId,
  causes,
  type Expectation,
  type NextTest,
  nextTests,
  nothingWrongPrior,
} from './causes.js';
import { type Evidence, type EvidenceId, evidenceKinds, type Observed } from './evidence.js';

export interface RankedCause {
  id: CauseId;
  name: string;
  /** 0 to 1, over all causes and "nothing" */
  probability: number;
  /** share of what was seen that this cause accounts for, 0 to 1 */
  explains: number;
  for: Evidence[];
  /** what it should have shown and did not, the weightiest first */
  against: { id: EvidenceId; words: string }[];
  change: string;
  source: string;
}

export interface Verdict {
  /** "nothing is wrong that this evidence can show", 0 to 1 */
  nothingWrong: number;
  /** the most probable first; all of them */
  ranked: RankedCause[];
  /** the two that what is known cannot tell apart, the first with the second; empty when the first stands clear */
  tied: CauseId[];
  /** a second cause beside the first: it alone accounts for something that was plainly seen */
  besides: RankedCause | null;
  /** seen, but not accounted for by the first cause */
  leftOver: Evidence[];
  nextTest: NextTest | null;
}

/** The second cause within this factor of the first is not told apart from it. */
const TIE = 2.5;
/** Evidence weaker than this is not spoken of. */
const PLAIN = 0.25;

/**
 * Weighs every cause by what was seen: one cause at a time, evidence taken as independent given the cause. Evidence
 * that could not be known counts neither way. No single piece can decide alone by more than `MOST`.
 */
export function rankCauses(seen: Observed): Verdict {
  const weights = entries().map(([id, cause]) => ({
    id,
    cause,
    weight: Math.log(cause.prior) + evidenceFor(cause, seen).reduce((s, e) => s + e.says, 0),
  }));
  const nothing = Math.log(nothingWrongPrior);
  const top = Math.max(nothing, ...weights.map((w) => w.weight));
  const total = Math.exp(nothing - top) + weights.reduce((s, w) => s + Math.exp(w.weight - top), 0);
  const ranked = weights
    .map(({ id, cause, weight }) => ({
      id,
      probability: Math.exp(weight - top) / total,
      ...account(cause, seen),
      name: cause.name,
      change: cause.change,
      source: cause.source,
    }))
    .sort((a, b) => b.probability - a.probability);
  const nothingWrong = Math.exp(nothing - top) / total;
  const [first, second] = ranked;
  const clear = !first || !second || nothingWrong > first.probability;
  const tied = clear || second.probability * TIE < first.probability ? [] : [first.id, second.id];
  const explained = new Set<EvidenceId>(first ? causes[first.id].expects.flatMap(shownBy) : []);
  const leftOver = [...seen.values()].filter((e) => e.strength >= PLAIN && !explained.has(e.id));
  const besides = clear ? null : besideFirst(ranked, leftOver);
  return {
    nothingWrong,
    ranked,
    tied: besides ? [] : tied,
    besides,
    leftOver,
    nextTest: first ? testFor(first.id, second?.id ?? null) : null,
  };
}

/** The likeliest other cause whose own mark, one that it nearly always shows, is plain and not accounted for by the first. */
function besideFirst(ranked: readonly RankedCause[], leftOver: readonly Evidence[]): RankedCause | null {
  const plain = new Set(leftOver.filter((e) => e.strength >= 2 * PLAIN).map((e) => e.id));
  return (
    ranked
      .slice(1)
      .find((c) => causes[c.id].expects.some((x) => x.p >= MARK && shownBy(x).some((id) => plain.has(id)))) ??
    null
  );
}

/** A cause that shows something this often is marked by it. */
const MARK = 0.9;

const entries = (): [CauseId, Cause][] => Object.entries(causes) as [CauseId, Cause][];

const MOST = Math.log(150);

/** Log of how much likelier each thing seen is under the cause than without it; half seen counts half each way. */
function evidenceFor(cause: Cause, seen: Observed): { evidence: Evidence; says: number }[] {
  return cause.expects.flatMap((expected) => {
    const known = shownBy(expected).flatMap((id) => seen.get(id) ?? []);
    const evidence = known.toSorted((a, b) => b.strength - a.strength)[0];
    if (!evidence) return [];
    const b = 1 - known.reduce((none, e) => none * (1 - evidenceKinds[e.id].background), 1);
    const present = Math.log(expected.p / b);
    const absent = Math.log((1 - expected.p) / (1 - b));
    const says = evidence.strength * present + (1 - evidence.strength) * absent;
    return [{ evidence, says: Math.max(-MOST, Math.min(MOST, says)) }];
  });
}

const shownBy = ({ shows }: Pick<Expectation, 'shows'>): readonly EvidenceId[] =>
  typeof shows === 'string' ? [shows] : shows;

/** How surprising a thing seen is when nothing is wrong: what there is to explain. */
const surprise = (e: Evidence): number => e.strength * -Math.log(evidenceKinds[e.id].background);

function account(cause: Cause, seen: Observed): Pick<RankedCause, 'explains' | 'for' | 'against'> {
  const weighed = evidenceFor(cause, seen);
  const supports = weighed.filter((w) => w.evidence.strength >= PLAIN && w.says > 0);
  const toExplain = [...seen.values()].reduce((s, e) => s + surprise(e), 0);
  const expected = new Set<EvidenceId>(cause.expects.flatMap(shownBy));
  const explained = [...seen.values()].reduce((s, e) => s + (expected.has(e.id) ? surprise(e) : 0), 0);
  return {
    explains: toExplain > 0 ? explained / toExplain : 0,
    for: supports.sort((a, b) => b.says - a.says).map((w) => w.evidence),
    against: weighed
      .filter((w) => w.evidence.strength < PLAIN && w.says < -0.3)
      .sort((a, b) => a.says - b.says)
      .map((w) => ({ id: w.evidence.id, words: notSeen(w.evidence.id) })),
  };
}

/** "the fixer was at {v} of…" as what was expected and not found */
const notSeen = (id: EvidenceId): string =>
  `not found: ${evidenceKinds[id].says
    .replace(
      / ?\(\{v\}\)| by \{v\}|,? ?\{v\} (?=below|above|less|more|low|high|over|under)|\{v\} (?:of )?/g,
      ' ',
    )
    .replace(/\s+/g, ' ')
    .trim()}`;

/** The cheapest test under which the two would come out differently; without a rival, one that bears the first out. */
function testFor(first: CauseId, second: CauseId | null): NextTest | null {
  const has = (t: NextTest, id: CauseId): boolean => (t.yes as readonly string[]).includes(id);
  return (
    nextTests.find((t) => second !== null && has(t, first) && !has(t, second)) ??
    nextTests.find((t) => second !== null && has(t, second) && !has(t, first)) ??
    nextTests.find((t) => has(t, first)) ??
    null
  );
}
