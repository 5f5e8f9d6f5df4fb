import { findingsOf, readFrame } from '../../../src/review/scan/reading.js';
import { scanEvidence } from '../../../src/review/scan/scan-evidence.js';
import { allEvidence } from '../../../src/review/why/answer.js';
import { type CauseId, causes } from '../../../src/review/why/causes.js';
import type { Observed } from '../../../src/review/why/evidence.js';
import type { Verdict } from '../../../src/review/why/rank.js';
import { rateLaws } from '../../../src/thermal/rate-data.js';
import { faults } from './faults.js';
import { simulate } from './run.js';

/** What a simulated run shows, pixels and record alike, through the whole review. */
export function evidenceOf(seed: number, planted: CauseId | null): Observed {
  const run = simulate(seed, planted === null ? () => {} : faults[planted]);
  const findings = findingsOf(run.scans.map((s) => readFrame(s)));
  return allEvidence(run.history, scanEvidence(findings), rateLaws['ecn-2']);
}

const ids = Object.keys(causes) as CauseId[];
/** Causes in turn, so that each is planted equally often. */
export const plantedBy = (n: number): CauseId => ids[n % ids.length] as CauseId;

export const saysNothing = (v: Verdict): boolean => v.nothingWrong >= (v.ranked[0]?.probability ?? 0);
export const placeOf = (v: Verdict, id: CauseId): number => v.ranked.findIndex((c) => c.id === id);
