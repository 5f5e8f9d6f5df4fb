import { knownPart } from '../chemistry/mixture.js';
import type { Exposure, Person } from '../chemistry/safety/first-aid.js';
import { substanceById } from '../chemistry/substances.js';
import { limits } from '../limits.js';
import { runAtWork } from '../world/run-record.js';
import { type LiquidId, tank, type VesselRef } from '../world/vessel.js';
import { bottlesFor, contentsOf, jugsOf, volumeOf } from '../world/vessels.js';
import { furtherCautions, hurtBy, onSkin, spillCautions } from './cautions.js';
import { stepFor } from './due.js';
import { bottleFor } from './guard-checks.js';
import type { BottleHolds, IntentOf } from './intent.js';
import { unanswered } from './left-open.js';
import type { Spill } from './machine.js';
import type { StillOpen, SwapSide } from './message.js';
import { bottleHolds, nowOf } from './now.js';
import { emptyTank, sayEmpty, sayNoSuchLiquid, warningOf } from './run-baths.js';
import { judgeAgain, lastReturn, poured, pouredBetween } from './run-pours.js';
import { bottledLiquids, liquidOf } from './sheet.js';
import { gasesOf, sayMet } from './sink.js';
import type { Turn } from './turn.js';

/** Limits for what a bench can hold, ml; a word outside them was misheard. Source: common practice. */
const tankLimits = { minMl: 50, maxMl: 10_000 };
const bottleMaxMl = 20_000;

/** Told of a bath alone, it is of the one bottle that holds it. */
export function bottleTold(turn: Turn, intent: IntentOf<'bottle-holds'>) {
  const bottle = intent.bottle ?? bottleFor(turn, intent.liquid ?? '');
  if (bottle !== null) return bottleHoldsNow(turn, { ...intent, bottle });
  turn.say('question', { id: 'poured-what' });
}

export function bottleHoldsNow(turn: Turn, intent: BottleHolds, agreed = false) {
  const { bottle: number } = intent;
  const before = turn.world.bottles[number];
  const liquid = intent.liquid ?? before?.liquid ?? null;
  // what was taken to stand in a jug is back in its bottle, unless nobody would pour it there
  const inJug = (liquid !== null && turn.world.jugs[liquid]?.volumeMl) || 0;
  const to: VesselRef = { kind: 'bottle', number };
  const spoils =
    inJug > 0 && warningOf(turn, { liquid: liquid ?? '', from: { kind: 'jug' }, to, volumeMl: inJug });
  const jugMl = spoils ? 0 : inJug;
  const full = (before?.contents.volumeMl ?? 0) + jugMl;
  if (
    intent.share === undefined &&
    liquid !== null &&
    jugMl > 0 &&
    before?.liquid === liquid &&
    (intent.volumeMl ?? full) >= full
  ) {
    pouredBetween(turn, liquid, { kind: 'jug' }, to, undefined);
    if (intent.volumeMl === undefined && intent.capacityMl === undefined) return;
    return bottleHoldsNow(turn, intent, agreed);
  }
  if (liquid === null) return bottleTakes(turn, intent);
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const capacityMl = intent.capacityMl ?? before?.capacityMl ?? turn.config.bottleCapacityMl;
  const keeps = before?.liquid === liquid ? before.contents.volumeMl : null;
  const usualMl = Math.min(turn.config.bottleVolumeMl, capacityMl);
  // "it is full": no less than it had, and no less than a bottle usually holds
  const fullMl = before?.capacityTold ? capacityMl : Math.max(keeps ?? 0, usualMl);
  const volumeMl =
    intent.volumeMl ??
    (intent.share === undefined
      ? intent.full
        ? fullMl
        : (keeps ?? usualMl)
      : Math.round(intent.share * fullMl));
  const volumeAssumed =
    intent.volumeMl === undefined &&
    (keeps !== volumeMl || before?.assumed || before?.volumeAssumed || false);
  const onlySize =
    intent.capacityMl !== undefined && intent.volumeMl === undefined && intent.liquid === undefined;
  const why = badBottle(number, volumeMl, capacityMl);
  const told = intent.capacityMl !== undefined || (before?.capacityTold ?? false);
  const of = why === 'volume' ? { of: { bottle: number, told } } : {};
  if (why) return turn.say('question', { id: 'bad-bottle', why, volumeMl, capacityMl, ...of });
  if (!agreed && contradicted(turn, number, liquid)) {
    const { pending } = turn.context;
    const waiting =
      pending?.kind === 'pour' && pending.verdict === 'ask'
        ? { kind: pending.kind, request: pending.request, vouched: pending.vouched }
        : null;
    // two bottles in one sentence are confirmed together
    const before = pending?.kind === 'bottle-holds' && pending.askedMs === turn.atMs ? pending.intents : [];
    return turn.ask({ kind: 'bottle-holds', intents: [...before, intent], waiting }, 'question', {
      id: 'bottle-doubt',
      bottle: number,
      bath: turn.named(liquid),
      holds: bottleHolds(turn, number),
    });
  }
  const was = before?.liquid && before.liquid !== liquid ? bottleHolds(turn, number) : null;
  turn.fact({
    type: 'bottle-set',
    bottle: number,
    liquid,
    volumeMl,
    capacityMl,
    ...(intent.capacityMl !== undefined && { capacityTold: true }),
    ...(volumeAssumed && { volumeAssumed }),
    // its size alone says nothing of what it holds
    ...(onlySize && before?.assumed && { assumed: true }),
  });
  if (onlySize && keeps !== null) {
    turn.say('answer', { id: 'bottle-takes', bottle: number, capacityMl });
    return judgeAgain(turn);
  }
  turn.say('answer', {
    id: 'bottle-noted',
    bottle: number,
    bath: turn.named(liquid),
    volumeMl,
    capacityMl,
    volumeAssumed,
    was,
  });
  judgeAgain(turn);
}

/** How much of a bath came back out of the tank, told while it runs back or later: its bottle holds that. */
export function cameBack(turn: Turn, said: IntentOf<'poured'>): boolean {
  const { volumeMl } = said;
  if (said.from?.kind !== 'tank' || (said.to ?? said.toOf) !== undefined || volumeMl === undefined)
    return false;
  const { bath } = turn.world.tank;
  const { announced } = turn.context;
  if (bath && announced?.kind === 'out' && (said.liquid === undefined || said.liquid === bath.liquid))
    poured(turn, { type: 'poured', from: said.from, to: announced.to });
  const last = runAtWork(turn.world)?.pours.findLast(
    (p) =>
      p.from.kind === 'tank' &&
      p.to.kind === 'bottle' &&
      (said.liquid === undefined || p.liquid === said.liquid),
  );
  if (last?.to.kind !== 'bottle') return false;
  const { number: bottle } = last.to;
  const holdsMl = volumeOf(turn.world, bottle);
  // more than went through the tank is all that the bottle holds
  const total = volumeMl <= last.volumeMl ? Math.max(0, holdsMl - last.volumeMl) + volumeMl : volumeMl;
  bottleHoldsNow(turn, { type: 'bottle-holds', bottle, volumeMl: total });
  return true;
}

/** Of a bottle that nobody said the contents of its size can be told; that is no word of what it holds. */
function bottleTakes(turn: Turn, { bottle, volumeMl, capacityMl }: BottleHolds) {
  if (capacityMl === undefined || volumeMl !== undefined)
    return turn.say('question', { id: 'bottle-holds-what', bottle });
  const why = badBottle(bottle, 0, capacityMl);
  if (why) return turn.say('question', { id: 'bad-bottle', why, volumeMl: 0, capacityMl });
  turn.fact({
    type: 'bottle-set',
    bottle,
    liquid: null,
    volumeMl: 0,
    capacityMl,
    capacityTold: true,
    assumed: true,
  });
  turn.say('answer', { id: 'bottle-takes', bottle, capacityMl });
}

/** "Bottle two is empty." */
export function bottleEmpty(turn: Turn, { bottle: number }: IntentOf<'bottle-empty'>) {
  if (badBottle(number, 0, 1))
    return turn.say('question', { id: 'bad-bottle', why: 'number', volumeMl: 0, capacityMl: 0 });
  const before = turn.world.bottles[number];
  turn.fact({
    type: 'bottle-set',
    bottle: number,
    liquid: before?.liquid ?? null,
    volumeMl: 0,
    capacityMl: before?.capacityMl ?? turn.config.bottleCapacityMl,
  });
  turn.say('answer', { id: 'bottle-empty', bottle: number, was: bottleHolds(turn, number) });
  judgeAgain(turn);
}

/** Two bottles changed places, or their labels did: asked first, since every pour goes by it. */
export function swapAsked(turn: Turn, said: IntentOf<'swapped'>) {
  const a = said.bottle ?? (said.liquid === undefined ? null : bottleFor(turn, said.liquid));
  const b = said.other ?? (said.otherLiquid === undefined ? null : bottleFor(turn, said.otherLiquid));
  if (a === null || b === null || a === b) return turn.say('question', { id: 'swap-what' });
  for (const [held, into] of [
    [a, b],
    [b, a],
  ] as const) {
    const volumeMl = volumeOf(turn.world, held);
    const bottle = turn.world.bottles[into];
    const capacityMl = bottle?.capacityTold ? bottle.capacityMl : null;
    if (capacityMl !== null && volumeMl > capacityMl)
      return turn.say('question', {
        id: 'bad-bottle',
        why: 'volume',
        volumeMl,
        capacityMl,
        of: { bottle: into, told: true },
      });
  }
  if (said.sure) return swap(turn, [a, b]);
  turn.ask({ kind: 'swap', bottles: [a, b] }, 'question', {
    id: 'swap-asked',
    bottles: swapSides(turn, a, b),
  });
}

/** Two bottles with what each holds once the other's is its own. */
const swapSides = (turn: Turn, a: number, b: number): readonly [SwapSide, SwapSide] => [
  { bottle: a, bath: bottleHolds(turn, b) },
  { bottle: b, bath: bottleHolds(turn, a) },
];

export function swap(turn: Turn, [a, b]: readonly [number, number]) {
  turn.send({ type: 'SETTLE' });
  const bottles = swapSides(turn, a, b);
  turn.fact({ type: 'bottles-swapped', bottle: a, other: b });
  turn.did();
  turn.say('answer', { id: 'swapped', bottles });
  judgeAgain(turn);
}

/** A full bottle does not change by a word: from when film is at stake, or once its contents were told, it is asked. */
function contradicted(turn: Turn, number: number, liquid: LiquidId): boolean {
  const before = turn.world.bottles[number];
  if (!before || before.liquid === null || before.liquid === liquid || before.contents.volumeMl <= 0)
    return false;
  // a bath that the sheet has no use for was misheard, or belongs to another
  return turn.world.film.loaded || !before.assumed || !stepFor(turn.sheet, liquid);
}

function badBottle(number: number, volumeMl: number, capacityMl: number) {
  if (!Number.isInteger(number) || number < 1 || number > limits.bottles) return 'number';
  if (!(capacityMl > 0 && capacityMl <= bottleMaxMl)) return 'capacity';
  if (!(volumeMl >= 0 && volumeMl <= capacityMl)) return 'volume';
  return null;
}

/** "It reads half a degree high"; what another one read before stays as it was put right. */
export function thermometerReads(turn: Turn, { byC, way, anew }: IntentOf<'thermometer-reads'>) {
  const wasC = turn.world.thermometerErrorC ?? 0;
  const errorC = way === 'high' || byC === 0 ? byC : -byC;
  turn.fact({ type: 'thermometer-told', errorC, shiftC: anew ? 0 : wasC - errorC });
  turn.say('answer', { id: 'thermometer-noted', errorC, ...(anew && { wasC }) });
}

export function tankTakes(turn: Turn, volumeMl: number) {
  if (!(volumeMl >= tankLimits.minMl && volumeMl <= tankLimits.maxMl))
    return turn.say('question', { id: 'bad-tank', volumeMl });
  turn.fact({ type: 'tank-told', volumeMl });
  const { bath, volumeMl: inMl } = turn.world.tank;
  const over = bath && inMl > volumeMl ? { over: { bath: turn.named(bath.liquid), ml: inMl } } : {};
  const bottles = Object.values(turn.world.bottles).filter((b) => b.liquid && b.contents.volumeMl < volumeMl);
  const least = bottles.sort((a, b) => a.contents.volumeMl - b.contents.volumeMl)[0];
  turn.say('over' in over ? 'question' : 'answer', {
    id: 'tank-noted',
    volumeMl,
    ...over,
    ...(least && !('over' in over) && { least: { bottle: least.number, ml: least.contents.volumeMl } }),
  });
}

/** The smaller or larger of two tanks of which it was told what they take; null: that was not told. */
function bySize({ world, tankMl }: Turn, size: 'small' | 'large'): string | null {
  const [first, second, third] = Object.entries(world.tanksAside)
    .concat([[world.tankKey, { ...world, tankMl }]])
    .flatMap(([key, tank]) => (tank.tankMl === null ? [] : [{ key, ml: tank.tankMl }]))
    .sort((a, b) => a.ml - b.ml);
  if (!first || !second || third || first.ml === second.ml) return null;
  return size === 'small' ? first.key : second.key;
}

/** Another tank; never away from a film that is being processed. */
export function useTank(turn: Turn, said: IntentOf<'use-tank'>) {
  const { tank, tankKey, tanksAside } = turn.world;
  const key = said.size ? bySize(turn, said.size) : String(said.tank ?? tankKey);
  if (key === null)
    return turn.say('answer', {
      id: 'tank-size',
      volumeMl: turn.tankMl,
      aside: Object.keys(tanksAside).length,
    });
  const busy =
    tank.bath !== null || !['idle', 'closed', 'preparing', 'warming', 'loading'].includes(turn.place);
  if (busy && key !== tankKey)
    return turn.say('question', { id: 'tank-busy', tank: tankKey, now: nowOf(turn) });
  turn.fact({ type: 'tank-chosen', tank: key });
  const { film, filmKnown } = turn.world;
  turn.say('answer', {
    id: 'tank-used',
    tank: key,
    volumeMl: turn.tankMl,
    told: turn.world.tankMl !== null,
    film: filmKnown && film.loaded,
  });
}

/** What a share, or some, was spilled of, as far as words and record tell: the tank, else the bottle; a share of it as an amount. */
function withSource(turn: Turn, { share, some, ...said }: IntentOf<'spill'>): IntentOf<'spill'> {
  if (share === undefined && !some) return said;
  const { bath } = turn.world.tank;
  const leaving = turn.context.announced?.kind === 'out';
  const { bottle: named, liquid } = said;
  const ofTank =
    named === undefined &&
    (said.tank || liquid === undefined || (liquid === bath?.liquid && turn.place === 'draining'));
  const amountOf = ({ volumeMl }: { volumeMl: number }) =>
    share === undefined ? {} : { volumeMl: Math.round(share * volumeMl) };
  if (bath && ofTank)
    return { ...said, liquid: bath.liquid, ...amountOf(turn.world.tank), ...(!leaving && { tank: true }) };
  const jug = named === undefined && liquid !== undefined ? turn.world.jugs[liquid] : undefined;
  if (jug) return { ...said, ...amountOf(jug) };
  const number = named ?? (liquid === undefined ? lastReturn(turn) : bottleFor(turn, liquid));
  const source = number === null ? undefined : turn.world.bottles[number];
  if (source?.liquid == null || source.contents.volumeMl <= 0) return said;
  if (share !== undefined)
    return { ...said, bottle: source.number, liquid: source.liquid, ...amountOf(source.contents) };
  const spilled = { bottle: source.number, spilled: true } as const;
  for (const fact of unanswered(turn.world, [spilled])) turn.fact(fact);
  // a bottle that is named would be all of it
  const { bottle: _number, ...rest } = said;
  return { ...rest, liquid: source.liquid };
}

const surfaces: ReadonlySet<string> = new Set(['floor', 'table', 'counter', 'carpet', 'sink']);

/** A spill: cautions at once, then whatever is missing; recorded when it is known. */
export function spill(turn: Turn, told: IntentOf<'spill'>) {
  const said = withSource(turn, told);
  const whole = said.bottle === undefined ? undefined : turn.world.bottles[said.bottle];
  const all = whole?.liquid && { liquid: whole.liquid, volumeMl: whole.contents.volumeMl };
  // what goes astray while a bath moves is of that bath
  const moving = turn.context.announced?.liquid;
  const ofIt =
    said.liquid === undefined && moving !== undefined && !turn.context.spill ? { liquid: moving } : {};
  const inTank = said.tank && said.liquid === undefined ? turn.world.tank.bath?.liquid : undefined;
  const intent: IntentOf<'spill'> =
    all && all.volumeMl > 0
      ? { ...all, ...said }
      : { ...said, ...(inTank === undefined ? ofIt : { liquid: inTank }) };
  if (intent.volumeMl !== undefined && !(intent.volumeMl > 0 && intent.volumeMl <= bottleMaxMl))
    return turn.say('question', {
      id: 'bad-bottle',
      why: 'volume',
      volumeMl: intent.volumeMl,
      capacityMl: bottleMaxMl,
    });
  const open = turn.context.spill;
  // "water", with the wash due, is what goes in next and no second spill
  const { step, wash } = turn.due;
  const due = wash !== null || step?.liquid === 'water';
  const alone = intent.liquid === 'water' && intent.volumeMl === undefined && intent.place === undefined;
  if (open && open.liquid !== null && open.liquid !== 'water' && alone && due)
    return turn.say('question', {
      id: 'part-alone',
      bath: turn.named('water'),
      bottle: null,
    });
  const leaks = said.tank === true && said.volumeMl === undefined;
  if (leaks && !open && intent.liquid === undefined)
    return turn.say('answer', { id: 'spill-ask', missing: 'nothing', leak: true, cautions: [] });
  const recorded = open !== null && open.liquid !== null && open.volumeMl !== null;
  // of what is on record only the place was missing
  if (open && recorded && isItsPlace(open, intent)) {
    turn.send({ type: 'SPILLED', spill: { ...open, place: intent.place ?? null } });
    turn.did();
    return turn.say('warning', {
      id: 'spill-open',
      bath: turn.named(open.liquid ?? ''),
      volumeMl: open.volumeMl ?? 0,
      place: intent.place ?? null,
      cautions: [],
    });
  }
  const goesOn = open !== null && !recorded && (intent.again === true || isOneSpill(open, intent));
  if (open && !recorded && !goesOn) tellSpilled(turn, open);
  const before = goesOn ? open : null;
  const now: Spill = {
    liquid: intent.liquid ?? before?.liquid ?? null,
    volumeMl: intent.volumeMl ?? before?.volumeMl ?? null,
    place: intent.place ?? before?.place ?? null,
  };
  turn.send({ type: 'SPILLED', spill: now, ...(!goesOn && { beside: true }) });
  turn.did();
  const liquid = liquidOf(turn.sheet, now.liquid) ?? null;
  // whoever tells again that it got on somebody hears again what to do; all else is said once the bath and the place are named
  const hurts = hurtBy(now.place, liquid);
  const known =
    said.place === undefined && before !== null && before.liquid === now.liquid && before.place === now.place;
  if (hurts && !known) noteHurt(turn, hurts, said.who);
  // to somebody who is hurt nothing else is said
  const cautions = known
    ? []
    : hurts === 'skin'
      ? onSkin(liquid ?? undefined)
      : hurts
        ? []
        : spillCautions(turn.sheet, liquid);
  const more = known || hurts ? [] : furtherCautions(now.liquid, liquid);
  const further = { ...(more.length > 0 && { further: more }), ...(hurts && !known && { aid: hurts }) };
  if (now.liquid === null || now.volumeMl === null) {
    // of water nobody needs to know how much
    if (now.liquid === 'water' && !leaks && (now.place === null || surfaces.has(now.place)))
      return turn.say('answer', { id: 'spill-ask', missing: null, cautions, ...further });
    const missing = hurts
      ? now.liquid === null
        ? 'later'
        : 'volume-later'
      : now.liquid !== null
        ? 'volume'
        : now.volumeMl !== null
          ? 'liquid'
          : 'both';
    return turn.say('warning', {
      id: 'spill-ask',
      missing,
      ...(leaks && { leak: true }),
      cautions,
      ...further,
    });
  }
  const leak = intent.tank === true && turn.world.tank.bath?.liquid === now.liquid;
  const bottle: VesselRef | undefined =
    intent.bottle === undefined ? undefined : { kind: 'bottle', number: intent.bottle };
  const bath = turn.named(now.liquid);
  const from = bottle ?? (leak ? tank : spilledFrom(turn, now.liquid, now.volumeMl));
  const gone = from?.kind === 'tank' && now.volumeMl >= turn.world.tank.volumeMl - 1;
  const slip = gone ? emptyTank(turn, { to: { kind: 'sink' } }) : null;
  // what is gone was told by the empty tank
  if (gone) tellSpilled(turn, now);
  else tellSpilled(turn, now, from);
  turn.say('warning', {
    id: 'spill-open',
    bath,
    volumeMl: now.volumeMl,
    place: now.place,
    cautions,
    ...(all &&
      whole &&
      said.volumeMl === undefined && {
        allOf: { bottle: whole.number, sure: !whole.assumed && !whole.volumeAssumed },
      }),
    ...further,
    ...(leak && !gone && { left: { ml: turn.world.tank.volumeMl, ofMl: turn.tankMl } }),
  });
  if (gone) sayEmpty(turn, slip);
}

/** Told anew it is the same spill where nothing that was told of it is otherwise; what is on somebody is told with its place. */
const isOneSpill = (open: Spill, { liquid, volumeMl, place }: IntentOf<'spill'>): boolean =>
  (place !== undefined || hurtBy(open.place, null) === null) &&
  (
    [
      [open.liquid, liquid],
      [open.volumeMl, volumeMl],
      [open.place, place],
    ] as const
  ).every(([before, now]) => before === null || now === undefined || before === now);

const isItsPlace = (open: Spill, { place, liquid, volumeMl, bottle, tank }: IntentOf<'spill'>): boolean =>
  place !== undefined &&
  hurtBy(place, null) === null &&
  (open.place === null || open.place === place) &&
  [liquid, volumeMl, bottle, tank].every((more) => more === undefined);

/** Somebody is hurt: it is written down, and open until it is over. */
export function noteHurt(turn: Turn, how: Exposure, who?: Person) {
  turn.send({ type: 'HURT', how, ...(who && { who }) });
  if (turn.world.run !== null) turn.fact({ type: 'note', ...turn.runId, text: `somebody was hurt: ${how}` });
}

/** Only when one vessel alone holds the liquid, or so much of it, is it known where the spill came from. */
function spilledFrom(
  { world, context: { announced } }: Turn,
  liquid: LiquidId,
  volumeMl: number,
): VesselRef | undefined {
  if (announced?.kind === 'out' && announced.liquid === liquid) return tank;
  if ((world.jugs[liquid]?.volumeMl ?? 0) >= volumeMl) return { kind: 'jug' } as const;
  const vessels: VesselRef[] = [
    ...bottlesFor(world, liquid)
      .filter((n) => volumeOf(world, n) > 0)
      .map((number): VesselRef => ({ kind: 'bottle', number })),
    ...(world.tank.bath?.liquid === liquid ? [tank] : []),
    ...(jugsOf(world).includes(liquid) ? [{ kind: 'jug' } as const] : []),
  ];
  const big = vessels.filter((v) => (contentsOf(world, v, liquid)?.volumeMl ?? 0) >= volumeMl);
  const [from, ...others] = vessels.length === 1 ? vessels : big;
  return others.length === 0 ? from : undefined;
}

const tellSpilled = (turn: Turn, { liquid, volumeMl, place }: Spill, from?: VesselRef) =>
  turn.fact({
    type: 'spilled',
    ...turn.runId,
    ...(from && { from }),
    liquid: liquid ?? 'unknown',
    volumeMl: volumeMl ?? 0,
    ...(place !== null && { place }),
  });

export function spillCleaned(turn: Turn, { by, liquid }: Omit<IntentOf<'spill-cleaned'>, 'type'> = {}) {
  const open = turn.context.spill;
  const hurts = (turn.context.hurt ?? []).slice(-1);
  // what is on somebody is not closed by a rinse
  if (hurts.length > 0 && openSpills(turn).length === 0)
    return turn.say('warning', { id: 'hurt', hows: hurts, asks: 'rinsing', cautions: [] });
  const of = liquid ?? (open ? (open.liquid ?? 'chlorine-bleach') : undefined);
  // what nobody knows may be any cleaner
  const as = by !== undefined && knownPart({ of: by }).kind === 'unknown' ? 'any-cleaner' : by;
  const gases = as === undefined || of === undefined ? [] : gasesOf(turn, as, of);
  if (by !== undefined && of !== undefined && gases.length > 0)
    return sayMet(turn, by, of, as === 'any-cleaner' ? [substanceById(as)?.note ?? '', ...gases] : gases);
  if (!open) {
    const gas = as !== undefined && bottledLiquids(turn.sheet).some((of) => gasesOf(turn, as, of).length > 0);
    return turn.say(gas ? 'warning' : 'answer', { id: 'no-spill', never: by && gas ? turn.named(by) : null });
  }
  if (open.liquid === null || open.volumeMl === null) tellSpilled(turn, open);
  turn.send({ type: 'CLEANED' });
  // what is on somebody was not meant
  if (hurtBy(open.place, null) !== null && turn.context.spill) turn.send({ type: 'CLEANED' });
  turn.did();
  turn.say('answer', { id: 'spill-cleaned', spills: openSpills(turn) });
}

/** What was spilled and is not cleaned up; what is on somebody is no matter of the floor. */
export function openSpills(turn: Turn): StillOpen['spills'] {
  const { spill, otherSpills = [] } = turn.context;
  return [...otherSpills, ...(spill ? [spill] : [])]
    .filter((s) => hurtBy(s.place, null) === null)
    .map(({ liquid, place }) => ({ bath: liquid === null ? null : turn.named(liquid), place }));
}

export function note(turn: Turn, text: string | undefined) {
  const words = text?.trim() ?? '';
  if (words === '') return turn.say('question', { id: 'note-empty' });
  turn.fact({ type: 'note', ...turn.runId, text: words });
  turn.say('answer', { id: 'note-taken', text: words });
}
