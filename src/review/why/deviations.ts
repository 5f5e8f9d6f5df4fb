import type { RateLaw } from '../../thermal/rate-data.js';
import type { RunHistory, StepHistory } from '../record/history.js';
import { type Effect, type Evidence, evidenceKinds } from './evidence.js';
import { effectiveS, recordEvidence, wettedS } from './record-evidence.js';

/** One thing that was not as the sheet, the recipe or the film's maker has it, and what to expect of it. */
export interface Deviation {
  stepId: string | null;
  /** one clause */
  what: string;
  /** 0 (just outside tolerance) to 1 (plain) */
  strength: number;
  effects: readonly Effect[];
  source: string;
}

const fromEvidence = (e: Evidence): Deviation => {
  const kind = evidenceKinds[e.id];
  return {
    stepId: e.stepId ?? null,
    what: e.words,
    strength: e.strength,
    effects: 'effects' in kind ? kind.effects : [],
    source: kind.source,
  };
};

/** All deviations of a run, the gravest first; of two as grave, those the causes reason from before steps merely out of their limits. */
export function deviationsOf(history: RunHistory, law: RateLaw): Deviation[] {
  const plain = [...recordEvidence(history, law).values()].filter((e) => e.strength > 0).map(fromEvidence);
  const told = new Set(plain.map((d) => d.stepId));
  const all = [
    ...plain,
    ...development(history, law),
    ...history.steps.filter((s) => !told.has(s.id)).flatMap(outOfLimits),
    ...history.steps
      .filter((s) => s.outOfOrder)
      .map(
        (s): Deviation => ({
          stepId: s.id,
          what: `the ${s.name} came out of order`,
          strength: 1,
          effects: [{ on: 'colour', way: 'shifts' }],
          source: 'the order of the process sheet',
        }),
      ),
    ...history.baths.flatMap((b) =>
      b.mixing.map(
        (m): Deviation => ({
          stepId: history.steps.find((s) => s.liquid === b.liquid)?.id ?? null,
          what: `${m.substance} in the ${b.liquid} was weighed at ${Math.round(m.ratio * 100)} percent${m.phShift !== null && Math.abs(m.phShift) >= 0.01 ? `, moving its pH by ${m.phShift.toFixed(2)}` : ''}`,
          strength: Math.min(1, Math.abs(m.ratio - 1) / 0.2),
          effects: [],
          source: 'the batch record against the recipe; pH by the solution model',
        }),
      ),
    ),
  ];
  return all.sort((a, b) => b.strength - a.strength);
}

/** A wash that was left out is less than a bath. source: common practice */
const WASH_LEFT_OUT = 0.6;

/** Outside the sheet's own limits, though no cause follows from it: a time counts in full where it was four times over or short. */
function outOfLimits(step: StepHistory): Deviation[] {
  const found: Deviation[] = [];
  const wetted = wettedS(step);
  const add = (what: string, strength: number): void => {
    found.push({ stepId: step.id, what, strength, effects: [], source: 'limits of the process sheet' });
  };
  if (!step.done) add(`the ${step.name} was left out`, step.role === 'water' ? WASH_LEFT_OUT : 1);
  if (wetted !== null && step.timeS && (wetted < step.timeS.low || wetted > step.timeS.high))
    add(
      `the ${step.name} was in for ${Math.round(wetted)} seconds, not ${step.timeS.aim}`,
      Math.min(1, Math.abs(Math.log(Math.max(1, wetted) / step.timeS.aim)) / Math.log(4)),
    );
  const [first] = step.temps;
  if (first && step.tempC && (first.tempC < step.tempC.low || first.tempC > step.tempC.high))
    add(
      `the ${step.name} went in at ${first.tempC} degrees, not ${step.tempC.aim}`,
      Math.min(1, Math.abs(first.tempC - step.tempC.aim) / 10),
    );
  return found;
}

/** Time and temperature of the developer in one number: what it did, as seconds at its own temperature. */
function development(history: RunHistory, law: RateLaw): Deviation[] {
  const step = history.steps.find((s) => s.role === 'developer');
  const seconds = step ? effectiveS(step, law) : null;
  if (!step?.timeS || !step.tempC || seconds === null || step.temps.length === 0) return [];
  const share = seconds / step.timeS.aim;
  const off = Math.abs(share - 1);
  if (off < WORTH_SAYING) return [];
  return [
    {
      stepId: step.id,
      what: `time and temperature together did the work of ${Math.round(seconds)} seconds at ${step.tempC.aim} degrees, ${Math.round(share * 100)} percent of the ${Math.round(step.timeS.aim)} wanted`,
      strength: Math.min(1, (off - WORTH_SAYING) / 0.15),
      effects: [{ on: 'contrast', way: share > 1 ? 'up' : 'down' }],
      source: law.source,
    },
  ];
}

/** A development this near to the one wanted is as wanted. source: common practice */
const WORTH_SAYING = 0.03;
