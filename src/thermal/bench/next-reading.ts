import { modelSdC, quadratic } from './estimate.js';
import type { Forecast } from './forecast.js';

export interface NextReading {
  /** which vessel, or the tub, to read */
  key: string;
  atMs: number;
  /** standard deviation of the awaited ready time, s, without and with that reading */
  sdBeforeS: number;
  sdAfterS: number;
}

const soonestMs = 60_000;
const farthestMs = 15 * 60_000;
/** A reading that brings this share of the best one's gain, but earlier, is the better advice. */
const goodEnough = 0.8;

/**
 * Which reading, and when, tells most of the moment (`readyInMs` from now) at which `awaited` comes into
 * tolerance. For a normal belief a reading y lowers the variance of x by cov(x, y)²/(var y + σ²), whatever it
 * says; all vessels and all half minutes up to a quarter of an hour ahead are compared. Null when
 * that reading would not take at least a tenth off the uncertainty.
 */
export function nextReading(
  f: Forecast,
  awaited: string,
  readyInMs: number,
  thermometerSdC: number,
): NextReading | null {
  const row = f.curves.findIndex((c) => c.key === awaited);
  const curve = f.curves[row];
  const end = f.afterMs.findIndex((ms) => ms >= readyInMs);
  const endSens = f.sensitivities[end];
  if (!curve || !endSens || end < 1) return null;
  const p = endSens.length / f.curves.length;
  const span = (f.afterMs[end] ?? 0) - (f.afterMs[end - 1] ?? 0);
  const slopeCPerS = Math.abs(((curve.tempC[end] ?? 0) - (curve.tempC[end - 1] ?? 0)) / (span / 1000));
  const variance = quadratic(endSens, row * p, endSens, row * p, f.covariance, p);

  let best = { gain: 0, key: '', index: 0 };
  const all: { gain: number; key: string; index: number }[] = [];
  f.curves.forEach((c, r) => {
    for (let i = 0; i < f.afterMs.length; i++) {
      const ms = f.afterMs[i] ?? 0;
      if (ms < soonestMs) continue;
      if (ms > farthestMs || ms > readyInMs) break;
      const sens = f.sensitivities[i];
      if (!sens) continue;
      const common = quadratic(endSens, row * p, sens, r * p, f.covariance, p);
      const gain = common ** 2 / ((c.sdC[i] ?? 0) ** 2 + thermometerSdC ** 2 + modelSdC ** 2);
      const candidate = { gain, key: c.key, index: i };
      all.push(candidate);
      if (gain > best.gain) best = candidate;
    }
  });
  const early = all
    .filter((c) => c.gain >= goodEnough * best.gain)
    .reduce((a, b) => (b.index < a.index || (b.index === a.index && b.gain > a.gain) ? b : a), best);
  const after = Math.max(0, variance - early.gain);
  if (early.key === '' || slopeCPerS === 0 || after > 0.81 * variance) return null;
  return {
    key: early.key,
    atMs: f.atMs + (f.afterMs[early.index] ?? 0),
    sdBeforeS: Math.sqrt(variance) / slopeCPerS,
    sdAfterS: Math.sqrt(after) / slopeCPerS,
  };
}
