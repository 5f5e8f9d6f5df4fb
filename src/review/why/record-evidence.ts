import { effectiveSeconds, speedAt } from '../../thermal/rate.js';
import type { RateLaw } from '../../thermal/rate-data.js';
import { type BathHistory, bathOf, type RunHistory, type StepHistory, stepOf } from '../record/history.js';
import { type Evidence, type EvidenceId, type Observed, observed } from './evidence.js';

const percent = (share: number): string => `${Math.round(share * 100)} percent`;
const degrees = (k: number): string => `${Math.round(k * 10) / 10} degrees`;

/** How strongly a wrong liquid in the developer counts, per share of volume. source: common practice, bleach and fixer worst */
const foreignWeight: Readonly<Record<string, number>> = {
  bleach: 1,
  fixer: 1,
  stop: 0.6,
  prebath: 0.15,
  water: 0.1,
};

/**
 * Time in the bath, s: from full to empty, and half of the filling, for which the film was wetted on average. What was drained at its call, and
 * told at once, has had its draining too.
 */
export function wettedS({ contactS, calledS, timeS, fillS }: StepHistory): number | null {
  if (contactS === null) return null;
  const wetted = contactS + (fillS ?? 0) / 2;
  const atCall = calledS != null && contactS >= calledS;
  return atCall && timeS ? Math.max(wetted, timeS.aim) : wetted;
}

/**
 * Seconds at the step's own temperature that do what its time and temperatures did: the readings over the whole time
 * in contact, the first one from the start and the last one to the end, with half of the filling at the first. Null
 * without a time. Without a reading the step is taken to have had its temperature.
 */
export function effectiveS(step: StepHistory, law: RateLaw): number | null {
  const { contactS, tempC, temps } = step;
  const [first] = temps;
  const last = temps.at(-1);
  const wetted = wettedS(step);
  if (contactS === null || wetted === null) return null;
  if (!first || !last || !tempC) return wetted;
  const inside = temps.filter((t) => t.atS > 0 && t.atS < contactS);
  const history = [{ atS: 0, tempC: first.tempC }, ...inside, { atS: contactS, tempC: last.tempC }];
  const atAim = effectiveSeconds(law, history) / speedAt(law, tempC.aim, law.referenceC);
  return atAim + (wetted - contactS) * speedAt(law, first.tempC, tempC.aim);
}

/** One temperature that would have developed as far as the history did, °C; null without a reading. */
export function effectiveTempC(step: StepHistory, law: RateLaw): number | null {
  const [first] = step.temps;
  const wetted = wettedS(step);
  const seconds = effectiveS(step, law);
  if (!first || !step.tempC) return null;
  if (wetted === null || seconds === null || wetted <= 0) return first.tempC;
  return step.tempC.aim + (10 * Math.log(seconds / wetted)) / Math.log(law.q10);
}

/** How much of a step was missing, 0 to 1; null when it is not known. */
function missing(step: StepHistory | undefined): number | null {
  if (!step) return null;
  if (!step.done) return 1;
  const wetted = wettedS(step);
  return wetted === null || !step.timeS ? null : Math.max(0, 1 - wetted / step.timeS.aim);
}

/** Said of a step that was missing in whole or in part: by the record, which knows only what it was told. */
const missed = (share: number): string =>
  share >= 0.995 ? 'has no time on record' : `was cut short by ${percent(share)}`;

const worn = (bath: BathHistory | undefined): number | null => {
  if (!bath) return null;
  const age = bath.ageDays === null || bath.keepsDays === null ? null : bath.ageDays / bath.keepsDays;
  const weak = bath.strength === null ? null : 1 + (1 - bath.strength) * 2 - 0.1;
  const known = [age, bath.loadShare, weak].filter((v) => v !== null);
  return known.length === 0 ? null : Math.max(...known);
};

/** Everything the record shows, with its strength; what it cannot show is left out. */
export function recordEvidence(history: RunHistory, law: RateLaw): Observed {
  const seen = new Map<EvidenceId, Evidence>();
  const note = (id: EvidenceId, value: number | null | undefined, said: string, stepId?: string): void => {
    if (value !== null && value !== undefined) seen.set(id, observed(id, value, said, stepId));
  };
  const pair = (low: EvidenceId, high: EvidenceId, over: number | null, said: string, stepId?: string) => {
    note(low, over === null ? null : -over, said, stepId);
    note(high, over, said, stepId);
  };
  const short = (id: EvidenceId, step: StepHistory | undefined): void => {
    const share = missing(step);
    if (share !== null) note(id, share, missed(share), step?.id);
  };

  const dev = stepOf(history, 'developer');
  const developer = bathOf(history, 'developer');
  if (dev) {
    const wetted = wettedS(dev);
    const over = wetted === null || !dev.timeS ? null : wetted / dev.timeS.aim - 1;
    const offS = wetted === null || !dev.timeS ? 0 : Math.round(Math.abs(wetted - dev.timeS.aim));
    pair('dev-short', 'dev-long', over, `${offS} seconds`, dev.id);
    const tempC = effectiveTempC(dev, law);
    const off = tempC === null || !dev.tempC ? null : tempC - dev.tempC.aim;
    pair('dev-cold', 'dev-warm', off, degrees(Math.abs(off ?? 0)), dev.id);
    const { agitation } = dev;
    if (agitation && agitation.missed !== null && agitation.calls > 0)
      note(
        'agitation-missed',
        agitation.missed / agitation.calls,
        percent(agitation.missed / agitation.calls),
        dev.id,
      );
  }
  if (developer) {
    const { ageDays, keepsDays, loadShare, strength, ph, phAim, foreign } = developer;
    if (ageDays !== null && keepsDays !== null)
      note('dev-aged', ageDays / keepsDays, percent(ageDays / keepsDays), dev?.id);
    note('dev-loaded', loadShare, percent(loadShare ?? 0), dev?.id);
    const richer = strength === null ? null : strength - 1;
    pair('dev-agent-low', 'dev-agent-high', richer, percent(Math.abs(richer ?? 0)), dev?.id);
    const phOff = ph === null || phAim === null ? null : ph - phAim;
    pair('dev-ph-low', 'dev-ph-high', phOff, Math.abs(phOff ?? 0).toFixed(2), dev?.id);
    const wrong = foreign.reduce((s, f) => s + f.share * (foreignWeight[f.liquid] ?? 0.5), 0);
    const names = foreign.map((f) => `${(f.share * 100).toFixed(1)} percent ${f.liquid}`).join(', ');
    note('dev-foreign', wrong, names, dev?.id);
  }

  const bleach = stepOf(history, 'bleach');
  const bleachBath = bathOf(history, 'bleach');
  short('bleach-short', bleach);
  const bleachC = bleach?.temps[0]?.tempC;
  if (bleach?.tempC && bleachC !== undefined)
    note('bleach-cold', bleach.tempC.low - bleachC, degrees(bleach.tempC.aim - bleachC), bleach.id);
  note('bleach-worn', worn(bleachBath), percent(worn(bleachBath) ?? 0), bleach?.id);
  if (bleachBath) {
    const share = bleachBath.foreign.reduce((s, f) => s + (f.liquid === 'water' ? 0.2 : 1) * f.share, 0);
    note('bleach-foreign', share, percent(share), bleach?.id);
  }
  const fixer = stepOf(history, 'fixer');
  const fixerBath = bathOf(history, 'fixer');
  short('fixer-short', fixer);
  note('fixer-worn', worn(fixerBath), percent(worn(fixerBath) ?? 0), fixer?.id);
  short('stop-missed', stepOf(history, 'stop'));
  short('rinse-missed', stepOf(history, 'rinse'));
  short(
    'wash-short',
    history.steps.findLast((s) => s.role === 'water' && s.timeS !== null),
  );
  short('backing-short', stepOf(history, 'backing-remover'));

  for (const film of history.films) {
    const { yearsExpired, keptWarm, balance, exposedIn, ratedAboveStops, pushStops } = film;
    note('film-expired', yearsExpired, `${yearsExpired} years`);
    if (keptWarm !== null) note('film-warm', keptWarm ? 1 : 0, '');
    if (balance !== null && exposedIn !== null) {
      note('daylight-on-tungsten', balance === 'tungsten' && exposedIn === 'daylight' ? 1 : 0, '');
      note('tungsten-on-daylight', balance === 'daylight' && exposedIn === 'tungsten' ? 1 : 0, '');
    }
    if (ratedAboveStops !== null) {
      const short = ratedAboveStops - (pushStops ?? 0);
      note('rated-above', short, `${Math.abs(short)} stops`);
      note('rated-below', -ratedAboveStops, `${Math.abs(ratedAboveStops)} stops`);
    }
  }
  return seen;
}
