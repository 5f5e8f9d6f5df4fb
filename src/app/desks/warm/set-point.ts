import type { WarmMessage } from '../../../language/languages/english/phrases/warm-message.js';
import { type Aim, isWithin } from '../../../thermal/aim.js';
import type { BenchEstimate } from '../../../thermal/bench/estimate.js';
import { parameterOf, temperatureAt, tubKey } from '../../../thermal/bench/estimate.js';
import { holdC } from '../../../thermal/bench/model.js';
import { assumeTub, holdSdC } from '../../../thermal/bench/setup.js';
import { setPointVerdict } from '../../../thermal/tub.js';
import { say, type Turn } from './calls.js';
import { aimFor, developerOf, subjectOf, tankKey, type WarmConfig, type WarmState } from './state.js';

/** Readings have taught the hold temperature once its spread is below this, °C … */
const learntSdC = 0.2;
/** … and only a gap that clears the limit by so many spreads is spoken of. */
const clearSds = 1.65;

/** Compares what the tub is set to, and what it is seen to hold, with every bath that stands in it; says it once. */
export function checkSetPoint(turn: Turn, config: WarmConfig, atMs: number): Turn {
  const { bench } = turn.state;
  if (!bench || !(turn.effects.length > 0 || isRead(bench))) return turn;
  const tubC = shownC(turn.state, bench);
  const verdict =
    fromReadings(turn.state, config, bench, atMs) ??
    // nobody said what it is set to, and it is warmer than that
    (tubC - bench.setC > learntSdC ? null : fromSetting(turn.state, config, bench, atMs));
  const { called } = turn.state;
  const told = turn.effects.some((e) => e.type === 'say' && e.message.id === 'warm-tub-set');
  const tubKnown = told || bench.tubReadings > 0;
  const found = [
    verdict?.verdict === 'slow' && !tubKnown ? null : verdict,
    takeOut(turn.state, config, bench, tubC),
  ].find((f) => f !== null && marksOf(f).some((mark) => !called.setPoint.includes(mark)));
  if (!found) return turn;
  const mild = found.id === 'warm-take-out' || found.verdict === 'slow' || found.from === 'reading';
  return {
    state: {
      ...turn.state,
      called: { ...called, setPoint: [...new Set([...called.setPoint, ...marksOf(found)])] },
    },
    effects: [...turn.effects, say(found, atMs, mild ? 'answer' : 'warning')],
  };
}

/** What the tub is set to, as somebody said; else as it is taken to be, and no less than it was last read at. */
function shownC({ log }: WarmState, bench: BenchEstimate): number {
  const read = log.findLast((r) => r.key === tubKey)?.tempC ?? bench.setC;
  return isSetTold(bench) ? bench.setC : Math.max(read, bench.setC);
}

/** Somebody said what it is set to. */
const isSetTold = (bench: BenchEstimate): boolean => parameterOf(bench.before, holdC).sd <= holdSdC.seen;

/** While nobody has spoken of warming, a tub that is only assumed is no reason to speak up. */
const isRead = (bench: BenchEstimate): boolean =>
  bench.tubReadings > 0 || bench.vessels.some((v) => v.readings > 0);

/** What has been said once is not said again for another tenth of a degree; what the tub is set to begins anew. */
const marksOf = (f: Found | TakeOut): string[] =>
  f.id === 'warm-take-out' ? f.subjects.map((s) => `take-out-${s.liquid}`) : [f.verdict];

type TakeOut = Extract<WarmMessage, { id: 'warm-take-out' }>;
type Found = Extract<WarmMessage, { id: 'warm-set-point' }>;

function fromSetting(state: WarmState, config: WarmConfig, bench: BenchEstimate, atMs: number): Found | null {
  const from = isSetTold(bench) || bench.setC === config.tub.targetC ? 'sheet' : 'reading';
  return worst(state, config, bench, from, bench.setC, 0, atMs);
}

/** A tub this much colder than the sheet wants it is still warming up, °C. source: common practice, some four minutes of heating */
const warmingC = 5;
/** Two readings this far apart show a tub that warms, °C. source: common practice, more than the last digit of a thermometer wavers */
const risingC = 0.3;

/**
 * Nobody said what the tub is set to: a reading near what the sheet wants, or above it, is taken for what it holds, unless it
 * was colder before.
 */
export function tubAsRead(
  state: WarmState,
  config: WarmConfig,
  bench: BenchEstimate,
  read: number,
  atMs: number,
) {
  if (isSetTold(bench)) return bench;
  const { targetC } = config.tub;
  const before = state.log.findLast((r) => r.key === tubKey)?.tempC ?? read;
  const warming = read < targetC && (read < targetC - warmingC || read - before > risingC);
  const holdsC = warming ? targetC : read;
  return Math.abs(holdsC - bench.setC) > risingC ? assumeTub(bench, holdsC, atMs) : bench;
}

function fromReadings(
  state: WarmState,
  config: WarmConfig,
  bench: BenchEstimate,
  atMs: number,
): Found | null {
  const hold = parameterOf(bench.after, holdC);
  if (!bench.heaterOn || bench.tubReadings < 2 || hold.sd > learntSdC) return null;
  return worst(state, config, bench, 'readings', hold.mean, clearSds * hold.sd, atMs);
}

/** The bath that needs most and will not get it; else the one that will get most too much. */
function worst(
  state: WarmState,
  config: WarmConfig,
  bench: BenchEstimate,
  from: Found['from'],
  holdsC: number,
  marginC: number,
  atMs: number,
): Found | null {
  let low: Found | null = null;
  let other: Found | null = null;
  for (const v of bench.vessels) {
    const held = state.holds[v.key];
    const aim = aimFor(config, held?.liquid ?? null);
    if (!held || !aim || v.placement !== 'tub') continue;
    const found = (verdict: Found['verdict'], wantedC: number): Found => ({
      id: 'warm-set-point',
      from,
      verdict,
      setC: bench.setC,
      assumed: !isSetTold(bench),
      holdsC,
      subject: subjectOf(config, held.liquid, held.vessel),
      aimC: aim.aimC,
      // the scale shows less than the tub holds, or more: what to dial in
      setToC: wantedC + (from === 'readings' ? bench.setC - holdsC : 0),
    });
    if (setPointVerdict(holdsC + marginC, aim) === 'too-low') {
      if (!low || aim.aimC > low.aimC) low = found('too-low', aim.aimC);
    } else if (held.liquid === developerOf(config)) {
      const verdict = setPointVerdict(holdsC - marginC, aim);
      if (verdict === 'too-high') other = found('too-high', aim.aimC);
      else if (setPointVerdict(holdsC, aim) === 'slow' && !isThere(bench, v.key, aim, atMs))
        other = found('slow', aim.highC);
    }
  }
  return low ?? other;
}

/** A bath that has arrived does not mind that the last tenths are slow. */
function isThere(bench: BenchEstimate, key: string, aim: Aim, atMs: number): boolean {
  const now = temperatureAt(bench, key, atMs);
  return now !== null && isWithin(aim, now.tempC);
}

/** The tub is right for the developer; the baths with lower limits may not stay in it. */
function takeOut(state: WarmState, config: WarmConfig, bench: BenchEstimate, tubC: number): TakeOut | null {
  const subjects = bench.vessels.flatMap((v) => {
    const held = state.holds[v.key];
    const aim = aimFor(config, held?.liquid ?? null);
    if (!held || !aim || v.placement !== 'tub' || v.key === tankKey) return [];
    if (held.liquid === developerOf(config)) return [];
    return setPointVerdict(tubC, aim) === 'too-high' ? [subjectOf(config, held.liquid, held.vessel)] : [];
  });
  return subjects.length > 0 ? { id: 'warm-take-out', setC: tubC, subjects } : null;
}
