import type { WarmItem, WarmReady } from '../../../language/languages/english/phrases/warm-message.js';
import { tempState } from '../../../process/temperature.js';
import {
  curveOf,
  type Forecast,
  forecast,
  leaving,
  nowOf,
  type Readiness,
  readiness,
} from '../../../thermal/bench/forecast.js';
import { aimFor, subjectOf, tankKey, type WarmConfig, type WarmState } from './state.js';

/** One bath of the bench as it stands now. */
export interface Bath {
  key: string;
  item: WarmItem;
  inTub: boolean;
  /** null: no aim on the sheet */
  readiness: Readiness | null;
  /** when it will have left its limits; null: not foreseen */
  leaves: { inMs: number; way: 'hot' | 'cold' } | null;
}

export interface Outlook {
  forecast: Forecast;
  baths: Bath[];
}

/** Within tolerance at a reading no older than this, s, the reading itself is the answer. */
export const FRESH_S = 120;

/** All vessels at `atMs`, in bench order; null before the first event. */
export function outlookOf(state: WarmState, config: WarmConfig, atMs: number): Outlook | null {
  const { bench } = state;
  if (!bench) return null;
  const f = forecast(bench, atMs);
  const baths = bench.vessels.flatMap((v): Bath[] => {
    const curve = curveOf(f, v.key);
    if (!curve) return [];
    const held = state.holds[v.key];
    const aim = aimFor(config, held?.liquid ?? null);
    const now = nowOf(curve);
    const lastReadC = state.log.filter((e) => e.key === v.key).at(-1)?.tempC ?? null;
    const before = lastReadC === null ? state.log.find((e) => e.atMs === v.lastReadMs) : undefined;
    const read =
      aim && lastReadC !== null
        ? tempState({ aimC: aim.aimC, minC: aim.lowC, maxC: aim.highC }, lastReadC)
        : null;
    const readAgoS = v.lastReadMs === null ? null : (atMs - v.lastReadMs) / 1000;
    const fresh = (read === 'in' || read === 'near') && readAgoS !== null && readAgoS <= FRESH_S;
    const leaves = aim ? leaving(f, curve, aim) : null;
    const ready = aim ? believed(readiness(f, curve, aim), leaves, fresh) : null;
    return [
      {
        key: v.key,
        readiness: ready,
        inTub: v.placement === 'tub',
        leaves,
        item: {
          subject: subjectOf(
            config,
            held?.liquid ?? null,
            held?.vessel ?? (v.key === tankKey ? { kind: 'tank' } : null),
          ),
          ready: spoken(ready, aim?.aimC ?? 0, atMs - (state.readySinceMs[v.key] ?? atMs)),
          tempC: now.tempC,
          halfBandC: now.highC - now.tempC,
          aim: aim && { aimC: aim.aimC, lowC: aim.lowC, highC: aim.highC },
          lastReadC,
          read,
          readAgoS,
          fresh,
          ...(before && { readBeforeC: before.tempC }),
        },
      },
    ];
  });
  return { forecast: f, baths };
}

/** A reading within the limits just now outweighs a curve that grazes them. */
const believed = (r: Readiness, leaves: Bath['leaves'], fresh: boolean): Readiness =>
  fresh && r.state !== 'in'
    ? {
        state: 'in',
        sureInMs: 0,
        leavesInMs: leaves?.inMs || null,
        leaving: leaves?.inMs ? leaves.way : null,
      }
    : r;

function spoken(r: Readiness | null, aimC: number, sinceMs: number): WarmReady {
  if (!r) return { state: 'no-aim' };
  switch (r.state) {
    case 'in':
      return {
        state: 'in',
        sinceS: sinceMs / 1000,
        leavesInS: r.leavesInMs === null ? null : r.leavesInMs / 1000,
        leaving: r.leaving,
        sure: r.sureInMs === 0,
      };
    case 'coming':
      return {
        state: 'coming',
        inS: r.inMs / 1000,
        earliestS: r.earliestMs / 1000,
        latestS: r.latestMs === null ? null : r.latestMs / 1000,
        from: r.from,
      };
    case 'never':
      return { state: 'never', endC: r.endC, aimC, from: r.from };
  }
}

/** The baths that count for "everything": with an aim, standing in bottles, not in the tank. */
export const awaited = (outlook: Outlook): Bath[] =>
  outlook.baths.filter((b) => b.readiness !== null && b.key !== tankKey);

/** The read bath that comes into tolerance last; null when none is on its way. */
export function lastOf(outlook: Outlook): Bath | null {
  let last: Bath | null = null;
  let lastMs = -1;
  for (const bath of awaited(outlook)) {
    if (bath.item.readAgoS === null || bath.readiness?.state !== 'coming') continue;
    if (bath.readiness.inMs > lastMs) {
      last = bath;
      lastMs = bath.readiness.inMs;
    }
  }
  return last;
}

/** Keeps account of when each bath came into tolerance. */
export function withReadySince(state: WarmState, outlook: Outlook, atMs: number): WarmState {
  const readySinceMs: Record<string, number> = {};
  const expectedMs: Record<string, number> = {};
  for (const { key, readiness: r, leaves } of outlook.baths) {
    const lingers = state.readySinceMs[key] !== undefined && leaves?.inMs !== 0;
    if (r?.state === 'in' || (r && lingers)) {
      readySinceMs[key] = state.readySinceMs[key] ?? Math.min(atMs, state.expectedMs[key] ?? atMs);
    } else if (r?.state === 'coming') expectedMs[key] = atMs + r.inMs;
  }
  return { ...state, readySinceMs, expectedMs };
}
