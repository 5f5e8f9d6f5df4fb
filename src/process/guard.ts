import type { FilmState } from '../world/film.js';
import type { World } from '../world/records.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import {
  type Checks,
  checksFor,
  type Finding,
  intoTankFinding,
  outFinding,
  recoverable,
} from './guard-checks.js';
import { type AskId, resolve } from './guard-resolve.js';
import { type ReasonId, severity, type Verdict } from './guard-table.js';
import type { ProcessSheet } from './sheet.js';

/** A pour as it was said; what was not said is missing. */
export interface PourRequest {
  kind: 'in' | 'back' | 'between' | 'away';
  liquid?: LiquidId;
  from?: VesselRef;
  to?: VesselRef;
  volumeMl?: number;
  /** what was said against it in the same sentence, and nobody weighed */
  besides?: string;
}

/** A pour with nothing left open. */
export interface Move {
  liquid: LiquidId;
  from: VesselRef;
  to: VesselRef;
  /** planned, ml; null when nobody knows */
  volumeMl: number | null;
}

export interface GuardView {
  sheet: ProcessSheet;
  /** the film as it is now */
  film: FilmState;
  /** whether film is in the tank is known; a run that has begun without word of it leaves it open */
  filmKnown: boolean;
  world: World;
  tankMl: number;
  funnelMl: number;
  atMs: number;
  wallMs: number;
  /** what is left of the bath in the tank before draining is right, s; null: no clock */
  earlyS: number | null;
}

/** `ask`: something is missing or two things disagree; no word but the missing one lets it through. */
export type Judgement =
  | {
      verdict: 'ask';
      reason: AskId;
      params: AskParams;
      /** the request completed from the records; a confirm means exactly this */
      proposal: PourRequest | null;
      /** what the move would do if it went ahead as the records have it */
      stake: ReasonId | null;
    }
  | {
      verdict: Verdict;
      reason: ReasonId;
      params: ReasonParams;
      move: Move;
      checks: Checks;
      /** what else speaks against it, the worst left out */
      also: { reason: ReasonId; params: ReasonParams }[];
    };

export interface AskParams {
  liquid?: LiquidId;
  bottle?: number;
  holds?: LiquidId;
  candidates?: number[];
}

export interface ReasonParams {
  liquid: LiquidId;
  /** the liquid that clings, is in the tank, or is in the bottle */
  other?: LiquidId;
  bottle?: number;
  tempC?: number;
  aimC?: number;
  ml?: number;
  ofMl?: number;
  seconds?: number;
  /** how old a reading is, s */
  agoS?: number;
  /** films done, and about how many it does */
  films?: number;
  /** why a batch or a mixture is not to be trusted, in words */
  why?: string;
  /** it is an open question whether that is so */
  unsettled?: true;
}

/**
 * Judges a pour before it happens, from what the film is and what each vessel holds; never from whether it is
 * the next step. `vouched` names questions the user has answered with a confirm.
 */
export function judge(request: PourRequest, view: GuardView, vouched: readonly AskId[] = []): Judgement {
  const resolved = resolve(request, view, vouched);
  if (resolved.open) {
    const completed = resolved.ask === 'propose' && resolved.proposal ? resolved.proposal : null;
    const ahead = completed && judge(completed, view, vouched);
    if (ahead && (settles(request) || isBad(ahead))) return ahead;
    const stake = resolved.would ? weigh(resolved.would, view) : null;
    return {
      verdict: 'ask',
      reason: resolved.ask,
      params: resolved.params,
      proposal: resolved.proposal,
      stake: stake?.verdict === 'ruinous' ? stake.reason : null,
    };
  }
  return weigh(resolved.move, view, request.besides);
}

/**
 * In and back: the bath was named and one bottle holds it, or the bottle was named and its label says the bath. The
 * records leave one possibility, and the answer names both. Between vessels nothing else vouches for the source.
 */
const settles = (request: PourRequest): boolean => request.kind === 'in' || request.kind === 'back';

/** What would do harm is said at once, whatever is still open. */
const isBad = (j: Judgement): boolean => j.verdict === 'ruinous' || j.verdict === 'recoverable';

export type Weighed = Exclude<Judgement, { verdict: 'ask' }>;

/** The verdict on a complete move: the worst of every rule that speaks about it, and what was said `besides`. */
export function weigh(move: Move, view: GuardView, besides?: string): Weighed {
  const checks = checksFor(move, view);
  const candidates: Finding[] = [
    move.to.kind === 'tank' ? intoTankFinding(move, view) : outFinding(move, view),
    ...checks.entries,
    ...(besides === undefined ? [] : [recoverable('said-against', { why: besides })]),
  ];
  const worst = candidates.reduce((a, b) => (severity[b.entry[0]] > severity[a.entry[0]] ? b : a));
  const [verdict, reason] = worst.entry;
  const withLiquid = (params: Partial<ReasonParams>): ReasonParams => ({ liquid: move.liquid, ...params });
  const also = candidates
    .filter((f) => f !== worst && severity[f.entry[0]] >= severity.recoverable)
    .sort((a, b) => severity[b.entry[0]] - severity[a.entry[0]])
    .map((f) => ({ reason: f.entry[1], params: withLiquid(f.params) }));
  return { verdict, reason, params: withLiquid(worst.params), move, checks: checks.shown, also };
}
