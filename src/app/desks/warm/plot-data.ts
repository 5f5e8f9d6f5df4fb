import { capital, named } from '../../../language/languages/english/phrases/warm-words.js';
import type { Aim } from '../../../thermal/aim.js';
import { tubKey } from '../../../thermal/bench/estimate.js';
import { type Curve, curveOf, forecast, nowOf } from '../../../thermal/bench/forecast.js';
import { lastOf, outlookOf } from './items.js';
import { aimFor, targetAt, type WarmConfig, type WarmState } from './state.js';

/** Everything a picture of the bench needs; times in ms on the bench clock, temperatures °C. */
export interface CurvePlot {
  fromMs: number;
  nowMs: number;
  toMs: number;
  series: CurveSeries[];
}

export interface CurveSeries {
  name: string;
  aim: Aim | null;
  readings: { atMs: number; tempC: number }[];
  /** the reckoned curve with its 90 % band */
  curve: { atMs: number; tempC: number; lowC: number; highC: number }[];
}

const least = { pastMs: 5 * 60_000, aheadMs: 20 * 60_000 };
const most = { pastMs: 60 * 60_000, aheadMs: 2 * 60 * 60_000 };

/** The bench's curves around `atMs`: read vessels and the tub; empty before the first reading. */
export function plotOf(state: WarmState, config: WarmConfig, atMs: number): CurvePlot {
  const { bench, log } = state;
  const outlook = outlookOf(state, config, atMs);
  if (!bench || !outlook)
    return { fromMs: atMs - least.pastMs, nowMs: atMs, toMs: atMs + least.aheadMs, series: [] };
  const last = lastOf(outlook)?.readiness;
  const aheadMs = Math.min(
    most.aheadMs,
    Math.max(least.aheadMs, last?.state === 'coming' ? 1.3 * last.inMs : 0),
  );
  const firstMs = Math.min(atMs - least.pastMs, ...log.map((r) => r.atMs));
  const fromMs = Math.max(firstMs, atMs - most.pastMs);
  const toMs = atMs + aheadMs;
  const path = forecast(bench, Math.max(bench.anchorMs, fromMs));
  const shown = [tubKey, ...bench.vessels.map((v) => v.key)].filter((key) => log.some((r) => r.key === key));
  const series = shown.flatMap((key): CurveSeries[] => {
    const target = targetAt(state, config, key);
    const curve = curveOf(path, key);
    if (!curve) return [];
    return [
      {
        name: target ? capital(named(target.subject)) : capital(key.replace('-', ' ')),
        aim: aimFor(config, target?.liquid ?? null),
        readings: log
          .filter((r) => r.key === key && r.atMs >= fromMs)
          .map(({ atMs: t, tempC }) => ({ atMs: t, tempC })),
        curve: within(curve, path.atMs, path.afterMs, toMs),
      },
    ];
  });
  return { fromMs, nowMs: atMs, toMs, series };
}

function within(curve: Curve, startMs: number, afterMs: Float64Array, toMs: number): CurveSeries['curve'] {
  const points: CurveSeries['curve'] = [];
  afterMs.forEach((after, i) => {
    const atMs = startMs + after;
    if (atMs > toMs) return;
    const { tempC, lowC, highC } = nowOf({
      key: curve.key,
      tempC: curve.tempC.subarray(i, i + 1),
      sdC: curve.sdC.subarray(i, i + 1),
    });
    points.push({ atMs, tempC, lowC, highC });
  });
  return points;
}
