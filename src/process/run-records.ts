import { type LiquidId, type VesselRef, vesselKey } from '../world/vessel.js';
import { bottleOf, bottlesFor, put, take, withBottle } from './bench.js';
import { onBody, spillCautions } from './cautions.js';
import { stepFor } from './guard-checks.js';
import type { IntentOf } from './intent.js';
import type { Spill } from './machine.js';
import { bottleHolds, named } from './now.js';
import { sayNoSuchLiquid } from './run-bath.js';
import { challenge, decide, unsure } from './run-moves.js';
import { liquidOf, roleOf } from './sheet.js';
import type { Turn } from './turn.js';

/** Limits for what a bench can hold, ml; a word outside them was misheard. Source: common practice. */
const tankLimits = { minMl: 50, maxMl: 10_000 };
const bottleMaxMl = 20_000;
/** A vessel whose liquid is not known: from ice to a kettle, °C. */
const anyPlausible = { minC: 1, maxC: 70 };

/** "Developer is 40.8 degrees": kept, read back against the aim, and used by the guard. */
export function temperature(turn: Turn, of: LiquidId | VesselRef, tempC: number, agreed: boolean) {
  const liquid = typeof of === 'string' ? of : contentOf(turn, of);
  if (typeof of === 'string' && !liquidOf(turn.sheet, of)) return sayNoSuchLiquid(turn, of);
  const { minC, maxC } = (liquid !== null && liquidOf(turn.sheet, liquid)?.plausibleC) || anyPlausible;
  const spoken = typeof of === 'string' ? named(turn.sheet, of).name : vesselName(of);
  const odd = !(tempC >= minC && tempC <= maxC);
  if (!agreed && (odd || unsure(turn.heard, turn.config.confidenceFloor))) {
    challenge(turn, { kind: 'temperature', of, tempC });
    return turn.say('question', { id: 'temperature-doubt', of: spoken, tempC, minC, maxC });
  }
  const vessel = typeof of === 'string' ? whereIs(turn, of) : of;
  const reading = { tempC, atMs: turn.atMs };
  const byLiquid = liquid === null ? {} : { [`liquid:${liquid}`]: reading };
  turn.set({ temps: { ...turn.core.temps, [vesselKey(vessel)]: reading, ...byLiquid } });
  turn.deed('temperature');
  turn.fact({ type: 'temperature', ...turn.runId, vessel, ...(liquid !== null && { liquid }), tempC });
  const aim = liquid === null ? null : (stepFor({ sheet: turn.sheet }, liquid)?.temp ?? null);
  const off = aim && (tempC < aim.minC || tempC > aim.maxC) ? tempC - aim.aimC : null;
  turn.say('answer', { id: 'temperature', of: spoken, tempC, aimC: aim?.aimC ?? null, offC: off });
  judgeAgain(turn);
}

function contentOf(turn: Turn, vessel: VesselRef): LiquidId | null {
  if (vessel.kind === 'bottle') return bottleOf(turn.core.bench, vessel.number)?.liquid ?? null;
  if (vessel.kind === 'tank') return turn.core.bench.tank?.liquid ?? null;
  return vessel.kind === 'tub' || vessel.kind === 'tap' ? 'water' : null;
}

function whereIs(turn: Turn, liquid: LiquidId): VesselRef {
  if (turn.core.bench.tank?.liquid === liquid) return { kind: 'tank' };
  const [number] = bottlesFor(turn.core.bench, liquid);
  if (number !== undefined) return { kind: 'bottle', number };
  return roleOf(turn.sheet, liquid) === 'water' ? { kind: 'tap' } : { kind: 'jug' };
}

const vesselName = (v: VesselRef): string => (v.kind === 'bottle' ? `bottle ${v.number}` : v.kind);

/** A pour that waits is judged again when what it hangs on has changed. */
export function judgeAgain(turn: Turn) {
  const pending = turn.context.pending;
  if (pending?.kind !== 'pour') return;
  const heardDoubt = pending.reason === 'heard-two' || pending.reason === 'unsure-heard';
  if (pending.verdict === 'ruinous' || heardDoubt) return;
  decide(turn, pending.request, pending.vouched);
}

export function bottleHoldsNow(turn: Turn, intent: IntentOf<'bottle-holds'>, agreed = false) {
  const { bottle: number } = intent;
  const before = bottleOf(turn.core.bench, number);
  const liquid = intent.liquid ?? before?.liquid ?? null;
  if (liquid === null) return turn.say('question', { id: 'bottle-holds-what', bottle: number });
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const capacityMl = intent.capacityMl ?? before?.capacityMl ?? turn.config.bottleCapacityMl;
  const keeps = before?.liquid === liquid ? before.volumeMl : null;
  const volumeMl = intent.volumeMl ?? keeps ?? Math.min(turn.config.bottleVolumeMl, capacityMl);
  const why = badBottle(number, volumeMl, capacityMl);
  if (why) return turn.say('question', { id: 'bad-bottle', why, volumeMl, capacityMl });
  if (!agreed && contradicted(turn, number, liquid)) {
    const { pending } = turn.context;
    const waiting =
      pending?.kind === 'pour' && pending.verdict === 'ask'
        ? { kind: pending.kind, request: pending.request, vouched: pending.vouched }
        : null;
    challenge(turn, { kind: 'bottle-holds', intent, waiting });
    const holds = bottleHolds(turn.core, turn.sheet, number);
    return turn.say('question', {
      id: 'bottle-doubt',
      bottle: number,
      bath: named(turn.sheet, liquid),
      holds,
    });
  }
  const was = before?.liquid && before.liquid !== liquid ? bottleHolds(turn.core, turn.sheet, number) : null;
  const { [`bottle-${number}`]: _stale, ...temps } = turn.core.temps;
  turn.set({
    bench: withBottle(turn.core.bench, number, { liquid, volumeMl, capacityMl, assumed: false }),
    temps,
  });
  turn.deed('bottle');
  turn.fact({ type: 'bottle-set', bottle: number, liquid, volumeMl, capacityMl });
  const bath = named(turn.sheet, liquid);
  turn.say('answer', { id: 'bottle-noted', bottle: number, bath, volumeMl, capacityMl, was });
  judgeAgain(turn);
}

/** A full bottle does not change by a word: from when film is at stake, or once its contents were told, it is asked. */
function contradicted(turn: Turn, number: number, liquid: LiquidId): boolean {
  const before = bottleOf(turn.core.bench, number);
  if (!before || before.liquid === null || before.liquid === liquid || before.volumeMl <= 0) return false;
  return turn.core.film.loaded || !before.assumed;
}

function badBottle(number: number, volumeMl: number, capacityMl: number) {
  if (!Number.isInteger(number) || number < 1 || number > 99) return 'number';
  if (!(capacityMl > 0 && capacityMl <= bottleMaxMl)) return 'capacity';
  if (!(volumeMl >= 0 && volumeMl <= capacityMl)) return 'volume';
  return null;
}

export function tankTakes(turn: Turn, volumeMl: number) {
  if (!(volumeMl >= tankLimits.minMl && volumeMl <= tankLimits.maxMl))
    return turn.say('question', { id: 'bad-tank', volumeMl });
  turn.set({ bench: { ...turn.core.bench, tankMl: volumeMl } });
  turn.deed('tank');
  turn.say('answer', { id: 'tank-noted', volumeMl });
}

/** A spill: cautions at once, then whatever is missing; recorded when it is known. */
export function spill(turn: Turn, intent: IntentOf<'spill'>) {
  if (intent.liquid !== undefined && !liquidOf(turn.sheet, intent.liquid))
    return sayNoSuchLiquid(turn, intent.liquid);
  if (intent.volumeMl !== undefined && !(intent.volumeMl > 0 && intent.volumeMl <= bottleMaxMl))
    return turn.say('question', {
      id: 'bad-bottle',
      why: 'volume',
      volumeMl: intent.volumeMl,
      capacityMl: bottleMaxMl,
    });
  const open = turn.context.spill;
  const recorded = open !== null && open.liquid !== null && open.volumeMl !== null;
  const before = recorded ? null : open;
  const now: Spill = {
    liquid: intent.liquid ?? before?.liquid ?? null,
    volumeMl: intent.volumeMl ?? before?.volumeMl ?? null,
    place: intent.place ?? before?.place ?? null,
  };
  turn.send({ type: 'SPILLED', spill: now });
  turn.deed('spill');
  const role = now.liquid === null ? null : (roleOf(turn.sheet, now.liquid) ?? null);
  const known = before !== null && before.liquid === now.liquid && before.place === now.place;
  // said once when the bath and the place were named
  const cautions = known ? [] : spillCautions(role, now.place);
  if (now.liquid === null || now.volumeMl === null) {
    const hurt = onBody(now.place) && role !== 'water';
    const missing = hurt
      ? 'later'
      : now.liquid !== null
        ? 'volume'
        : now.volumeMl !== null
          ? 'liquid'
          : 'both';
    return turn.say('warning', { id: 'spill-ask', missing, cautions });
  }
  recordSpill(turn, now.liquid, now.volumeMl, now.place);
  const bath = named(turn.sheet, now.liquid);
  turn.say('warning', { id: 'spill-open', bath, volumeMl: now.volumeMl, place: now.place, cautions });
}

/** Only when one vessel alone holds the liquid is it known where the spill came from. */
function recordSpill(turn: Turn, liquid: LiquidId, volumeMl: number, place: string | null) {
  const { bench } = turn.core;
  const vessels: VesselRef[] = [
    ...bottlesFor(bench, liquid)
      .filter((n) => (bottleOf(bench, n)?.volumeMl ?? 0) > 0)
      .map((number): VesselRef => ({ kind: 'bottle', number })),
    ...(bench.tank?.liquid === liquid ? [{ kind: 'tank' } as const] : []),
    ...(bench.jugs.some((j) => j.liquid === liquid) ? [{ kind: 'jug' } as const] : []),
  ];
  const [from, ...others] = vessels;
  const known = from !== undefined && others.length === 0 ? from : undefined;
  if (known) {
    const [rest, out] = take(bench, known, liquid, volumeMl);
    turn.set({ bench: put(rest, { kind: 'sink' }, out) });
  }
  turn.fact({
    type: 'spilled',
    ...turn.runId,
    ...(known && { from: known }),
    liquid,
    volumeMl,
    ...(place !== null && { place }),
  });
}

export function spillCleaned(turn: Turn) {
  const open = turn.context.spill;
  if (!open) return turn.say('answer', { id: 'no-spill' });
  if (open.liquid === null || open.volumeMl === null) {
    const place = open.place === null ? {} : { place: open.place };
    const liquid = open.liquid ?? 'unknown';
    turn.fact({ type: 'spilled', ...turn.runId, liquid, volumeMl: open.volumeMl ?? 0, ...place });
  }
  turn.send({ type: 'CLEANED' });
  turn.deed('spill-cleaned');
  turn.say('answer', { id: 'spill-cleaned' });
}

export function note(turn: Turn, text: string | undefined) {
  const words = text?.trim() ?? '';
  if (words === '') return turn.say('question', { id: 'note-empty' });
  turn.fact({ type: 'note', ...turn.runId, text: words });
  turn.deed('note');
  turn.say('answer', { id: 'note-taken', text: words });
}
