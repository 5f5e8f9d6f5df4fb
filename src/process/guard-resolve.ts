import type { World } from '../world/records.js';
import { runAtWork } from '../world/run-record.js';
import { type LiquidId, tank, type VesselRef } from '../world/vessel.js';
import { bottleAt, bottlesFor, contentsOf, isUnknown, jugsOf, volumeOf } from '../world/vessels.js';
import { dueOf } from './due.js';
import type { AskParams, GuardView, Move, PourRequest } from './guard.js';
import { bottleFor } from './guard-checks.js';
import { liquidOf, roleOf } from './sheet.js';

/** What the guard must know before it can judge. */
export type AskId =
  | 'missing-liquid'
  | 'missing-bottle'
  /** the records leave one possibility; say it back and wait for confirm */
  | 'propose'
  | 'no-such-liquid'
  | 'no-such-vessel'
  | 'bottle-unknown'
  | 'bottle-empty'
  | 'mismatch'
  | 'jug-unknown'
  | 'film-unknown'
  | 'tank-not-empty'
  | 'nothing-to-pour'
  | 'tank-mismatch'
  | 'bad-volume'
  | 'unsure-heard'
  | 'heard-two';

export type Resolved =
  | { open: false; move: Move }
  | { open: true; ask: AskId; params: AskParams; proposal: PourRequest | null; would?: Move };

const ask = (
  id: AskId,
  params: AskParams = {},
  proposal: PourRequest | null = null,
  would?: Move,
): Resolved => ({
  open: true,
  ask: id,
  params,
  proposal,
  ...(would && { would }),
});

/** Fills in a request from the records, or says what is open. Nothing is guessed: a proposal needs a confirm. */
export function resolve(request: PourRequest, view: GuardView, vouched: readonly AskId[]): Resolved {
  if (request.liquid !== undefined && !liquidOf(view.sheet, request.liquid))
    return ask('no-such-liquid', { liquid: request.liquid });
  if (request.volumeMl !== undefined && !(request.volumeMl > 0 && request.volumeMl <= 20_000))
    return ask('bad-volume');
  switch (request.kind) {
    case 'in':
      return resolveIn(request, view, vouched);
    case 'back':
      return request.to?.kind === 'sink'
        ? resolveAway({ ...request, kind: 'away' }, view)
        : resolveBack(request, view);
    case 'between':
      return request.to?.kind === 'tank'
        ? resolveIn({ ...request, kind: 'in' }, view, vouched)
        : resolveBetween(request, view, vouched);
    case 'away':
      return resolveAway(request, view);
  }
}

function resolveIn(request: PourRequest, view: GuardView, vouched: readonly AskId[]): Resolved {
  const { liquid, from } = request;
  if (from === undefined) return askSource(request, view);
  if (from.kind === 'tank' || from.kind === 'sink')
    return ask('no-such-vessel', { ...(liquid && { liquid }) });
  const held = contentOf(view, from, liquid);
  if (liquid === undefined) {
    if (held.liquid === null) return ask('missing-liquid', bottleParam(from));
    return ask('propose', { liquid: held.liquid, ...bottleParam(from) }, { ...request, liquid: held.liquid });
  }
  const move: Move = { liquid, from, to: tank, volumeMl: request.volumeMl ?? view.tankMl };
  const doubt = sourceDoubt(move, held, request, view, vouched);
  if (doubt) return doubt;
  const known = view.filmKnown || roleOf(view.sheet, liquid) === 'water' || vouched.includes('film-unknown');
  // "yes" could mean that there is film, so no confirm answers this
  if (!known) return ask('film-unknown', { liquid, ...bottleParam(from) });
  const inTank = view.world.tank.bath;
  if (inTank && inTank.liquid !== liquid && !vouched.includes('tank-not-empty'))
    return ask('tank-not-empty', { liquid, holds: inTank.liquid }, request, move);
  return { open: false, move };
}

/** No vessel said: water comes from the tap; anything else is proposed or asked for. */
function askSource(request: PourRequest, view: GuardView): Resolved {
  const { liquid } = request;
  if (liquid === undefined) return ask('missing-liquid');
  if (roleOf(view.sheet, liquid) === 'water') return resolve({ ...request, from: { kind: 'tap' } }, view, []);
  const holding = bottlesFor(view.world, liquid).filter((n) => volumeOf(view.world, n) > 0);
  const [only, ...others] = holding;
  if (only === undefined || others.length > 0)
    return ask('missing-bottle', { liquid, ...(others.length > 0 && { candidates: holding }) });
  return ask('propose', { liquid, bottle: only }, { ...request, from: { kind: 'bottle', number: only } });
}

interface Held {
  liquid: LiquidId | null;
  state: 'holds' | 'empty' | 'unknown';
}

function contentOf(view: GuardView, vessel: VesselRef, said?: LiquidId): Held {
  switch (vessel.kind) {
    case 'bottle': {
      const bottle = view.world.bottles[vessel.number];
      if (!bottle || isUnknown(bottle)) return { liquid: null, state: 'unknown' };
      if (bottle.contents.volumeMl <= 0) return { liquid: bottle.liquid, state: 'empty' };
      return bottle.liquid === null
        ? { liquid: null, state: 'unknown' }
        : { liquid: bottle.liquid, state: 'holds' };
    }
    case 'jug': {
      const [jug, another] = jugsOf(view.world).filter((liquid) => said === undefined || liquid === said);
      return jug !== undefined && another === undefined
        ? { liquid: jug, state: 'holds' }
        : { liquid: null, state: 'unknown' };
    }
    case 'tank':
      return view.world.tank.bath
        ? { liquid: view.world.tank.bath.liquid, state: 'holds' }
        : { liquid: null, state: 'empty' };
    default:
      return { liquid: 'water', state: 'holds' };
  }
}

const bottleParam = (v: VesselRef): AskParams => (v.kind === 'bottle' ? { bottle: v.number } : {});

/** Said one thing, holds another, or nobody knows what it holds. */
function sourceDoubt(
  move: Move,
  held: Held,
  request: PourRequest,
  view: GuardView,
  vouched: readonly AskId[],
): Resolved | null {
  const params = { liquid: move.liquid, ...bottleParam(move.from) };
  if (move.from.kind === 'jug') return held.state === 'holds' ? null : jugDoubt(move, request, view, vouched);
  if (held.state === 'unknown') return ask('bottle-unknown', params);
  if (held.state === 'empty') return ask('bottle-empty', params);
  if (held.liquid !== null && held.liquid !== move.liquid)
    return ask('mismatch', { ...params, holds: held.liquid }, null, { ...move, liquid: held.liquid });
  return null;
}

/** No jug is known to hold it; a jug that is known to hold another bath is named, with what that would do. */
function jugDoubt(
  move: Move,
  request: PourRequest,
  view: GuardView,
  vouched: readonly AskId[],
): Resolved | null {
  if (vouched.includes('jug-unknown')) return null;
  const holds = jugsOf(view.world)[0];
  const params = { liquid: move.liquid, ...(holds !== undefined && { holds }) };
  return ask('jug-unknown', params, request, holds === undefined ? move : { ...move, liquid: holds });
}

function resolveBack(request: PourRequest, view: GuardView): Resolved {
  const inTank = view.world.tank.bath;
  const jugs = jugsOf(view.world);
  // "put it back in": the rest of a bath that was cut short
  const due = inTank || request.to || request.liquid ? null : dueOf(view.film, view.sheet);
  const rest = due?.restS != null ? (due.step?.liquid ?? null) : null;
  if (rest !== null && jugs.includes(rest))
    return resolveIn({ ...request, kind: 'in', liquid: rest, from: { kind: 'jug' } }, view, []);
  const label = bottleAt(view.world, request.to)?.liquid ?? undefined;
  const liquid = request.liquid ?? inTank?.liquid ?? inJugFor(view.world, label);
  if (!inTank && jugs.length === 0) return ask('nothing-to-pour');
  if (liquid === undefined) return ask('missing-liquid');
  const inJug = jugs.includes(liquid);
  const wanted = request.from?.kind;
  const from: VesselRef | null =
    inTank?.liquid === liquid && wanted !== 'jug' ? tank : inJug ? { kind: 'jug' } : null;
  if (!from) return ask('tank-mismatch', { liquid, ...(inTank && { holds: inTank.liquid }) }, null);
  const to = request.to ?? onlyBottle(view, liquid);
  if (!to) return ask('missing-bottle', { liquid });
  // the bottle was named and its label is what the tank holds: nothing is left open
  const fits = to.kind === 'bottle' && view.world.bottles[to.number]?.liquid === liquid;
  if (request.to === undefined || (request.liquid === undefined && !fits))
    return ask('propose', { liquid, ...bottleParam(to) }, { ...request, liquid, to, from });
  const available = from.kind === 'tank' ? view.world.tank.volumeMl : view.world.jugs[liquid]?.volumeMl;
  return intoBottle({ liquid, from, to, volumeMl: request.volumeMl ?? available ?? view.tankMl }, view);
}

/** What is poured from a jug into a bottle of this: of it, else what left the tank last, else the only one that stands in a jug. */
export function inJugFor(world: World, label: LiquidId | undefined): LiquidId | undefined {
  const jugs = jugsOf(world);
  if (label !== undefined && (jugs.length === 0 || jugs.includes(label))) return label;
  const last = runAtWork(world)?.pours.findLast((p) => p.from.kind === 'tank' || p.to.kind === 'tank');
  if (last?.to.kind === 'jug' && jugs.includes(last.liquid)) return last.liquid;
  return jugs.length === 1 ? jugs[0] : undefined;
}

function onlyBottle(view: GuardView, liquid: LiquidId): VesselRef | null {
  const number = bottleFor(view, liquid);
  return number === null ? null : { kind: 'bottle', number };
}

function intoBottle(move: Move, view: GuardView): Resolved {
  if (move.to.kind !== 'bottle') return ask('no-such-vessel', { liquid: move.liquid });
  const held = contentOf(view, move.to);
  if (held.state === 'unknown') return ask('bottle-unknown', { liquid: move.liquid, bottle: move.to.number });
  return { open: false, move };
}

function resolveBetween(request: PourRequest, view: GuardView, vouched: readonly AskId[]): Resolved {
  const { liquid, from, to } = request;
  if (to === undefined) return ask('missing-bottle', { ...(liquid && { liquid }) });
  if (from?.kind === 'tank') return resolveBack({ ...request, kind: 'back' }, view);
  if (from === undefined) {
    if (liquid === undefined) return ask('missing-liquid', bottleParam(to));
    return ask('propose', { liquid, ...bottleParam(to) }, { ...request, from: { kind: 'jug' } });
  }
  const held = contentOf(view, from, liquid);
  if (liquid === undefined) {
    if (held.liquid === null) return ask('missing-liquid', bottleParam(from));
    return ask('propose', { liquid: held.liquid, ...bottleParam(to) }, { ...request, liquid: held.liquid });
  }
  const whole =
    from.kind === 'bottle' ? volumeOf(view.world, from.number) : view.world.jugs[liquid]?.volumeMl;
  const move: Move = { liquid, from, to, volumeMl: request.volumeMl ?? whole ?? null };
  return sourceDoubt(move, held, request, view, vouched) ?? intoBottle(move, view);
}

function resolveAway(request: PourRequest, view: GuardView): Resolved {
  const from = request.from ?? tank;
  const held = contentOf(view, from, request.liquid);
  if (held.state === 'empty') return ask('nothing-to-pour', bottleParam(from));
  if (held.liquid === null) return ask('bottle-unknown', bottleParam(from));
  if (request.liquid !== undefined && request.liquid !== held.liquid)
    return ask(from.kind === 'tank' ? 'tank-mismatch' : 'mismatch', {
      liquid: request.liquid,
      holds: held.liquid,
      ...bottleParam(from),
    });
  const { liquid } = held;
  const volumeMl = request.volumeMl ?? contentsOf(view.world, from, liquid)?.volumeMl ?? null;
  return { open: false, move: { liquid, from, to: { kind: 'sink' }, volumeMl } };
}
