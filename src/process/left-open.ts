import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import { lastBath } from '../world/reduce.js';
import { runOf } from '../world/run-record.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import { bottleAt, bottlesFor } from '../world/vessels.js';
import { bottleFor } from './guard-checks.js';
import type { Intent } from './intent.js';
import { answerWithinMs, type Pending } from './pending.js';
import type { Turn } from './turn.js';

/** What is otherwise than by the record, if some words are meant: what may be in a bottle, that some of it is gone, what may have been on the film. */
export type Stake = { bottle: number; of?: LiquidId; spilled?: true } | { film: LiquidId };

/** What these words would change if they are meant. `expected`: baths that are about to go in. */
export function stakesIn(world: World, intent: Intent, expected: readonly LiquidId[] = []): Stake[] {
  const holding = (liquid: LiquidId | undefined): number | null | undefined =>
    liquid === undefined ? undefined : bottleFor({ world }, liquid);
  const held = (vessel: VesselRef | undefined) => bottleAt(world, vessel)?.liquid ?? undefined;
  const numbered = (number: number | null | undefined) =>
    number == null ? undefined : world.bottles[number];
  const other = (number: number | null | undefined, of?: LiquidId, spilled?: true): Stake[] => {
    const bottle = numbered(number);
    if (!bottle || bottle.contents.volumeMl <= 0 || (!spilled && bottle.liquid === of)) return [];
    return [{ bottle: bottle.number, ...(of !== undefined && { of }), ...(spilled && { spilled }) }];
  };
  const onFilm = (liquid: LiquidId | undefined): Stake[] => {
    const { tank, film } = world;
    // a wash as well, if that was the last
    const washed = liquid !== undefined && liquid === (tank.bath ?? film.history.at(-1))?.liquid;
    const known = liquid === undefined || washed || liquid === lastBath(world) || expected.includes(liquid);
    return known || !film.loaded ? [] : [{ film: liquid }];
  };
  switch (intent.type) {
    case 'several':
      return intent.intents.flatMap((one) => stakesIn(world, one, expected));
    case 'bottle-holds':
      return intent.liquid === undefined ? [] : other(intent.bottle, intent.liquid);
    case 'swapped': {
      const a = intent.bottle ?? holding(intent.liquid);
      const b = intent.other ?? holding(intent.otherLiquid);
      return [...other(a, numbered(b)?.liquid ?? undefined), ...other(b, numbered(a)?.liquid ?? undefined)];
    }
    case 'contaminated': {
      const { intoBottle, intoLiquid, intoVessel, liquid } = intent;
      if (intoVessel === 'tank') return onFilm(liquid);
      if (intoBottle !== undefined) return other(intoBottle, intent.with ?? liquid);
      if (intoLiquid !== undefined)
        return [
          ...other(holding(intoLiquid), liquid),
          // it may have been the one in the tank
          ...(intoLiquid === lastBath(world) ? onFilm(liquid) : []),
        ];
      // into one of them, and nobody said which
      return intoVessel === undefined
        ? Object.values(world.bottles).flatMap((b) => other(b.number, liquid))
        : [];
    }
    case 'spill':
      return intent.liquid !== undefined && bottlesFor(world, intent.liquid).length > 1
        ? []
        : other(intent.bottle ?? holding(intent.liquid), undefined, true);
    case 'bath-in':
      return onFilm(intent.liquid);
    case 'ask-advice':
      // that a bath looks strange, or stood open
      return MAY_SPOIL.has(intent.topic) ? other(intent.bottle ?? holding(intent.liquid)) : [];
    case 'in-doubt':
      return [intent.suspect, intent.other].flatMap((s) => onFilm(typeof s === 'object' ? held(s) : s));
    case 'correct': {
      const { type: _, liquid, vessel, value, moved: _moved, ...amounts } = intent;
      // how long or how warm a bath was is told of the one that was in; a number alone may be its bottle
      const numbered = value === undefined ? undefined : held({ kind: 'bottle', number: value });
      return Object.keys(amounts).length > 0 ? [] : onFilm(liquid ?? held(vessel) ?? numbered);
    }
    case 'bottle-discarded':
    case 'bottle-empty':
      return other(intent.bottle, undefined, true);
    case 'pour-away':
      return other(intent.from?.kind === 'bottle' ? intent.from.number : undefined, undefined, true);
    case 'pour-between':
    case 'poured': {
      const { from, to } = intent;
      if (from?.kind === 'bottle' && to?.kind === 'sink') return other(from.number, undefined, true);
      const inTank = from === undefined || from.kind === 'tank' ? world.tank.bath?.liquid : undefined;
      if (to?.kind === 'bottle') return other(to.number, intent.liquid ?? held(from) ?? inTank);
      return intent.type === 'poured' && (to === undefined || to.kind === 'tank') && from?.kind !== 'tank'
        ? onFilm(intent.liquid ?? held(from))
        : [];
    }
    default:
      return [];
  }
}

const MAY_SPOIL: ReadonlySet<string> = new Set([
  'developer-brown',
  'fixer-milky',
  'bleach-blue',
  'air-got-in',
]);

const isSame = (a: Stake, b: Stake): boolean =>
  'film' in a ? 'film' in b && a.film === b.film : 'bottle' in b && a.bottle === b.bottle;

/** The facts of questions that were left open, or (`answered`) are so no more; none where something else speaks against a bottle. */
export function unanswered(world: World, stakes: readonly Stake[], answered = false): Fact[] {
  const each = stakes.filter((s, i) => stakes.findIndex((o) => isSame(o, s)) === i);
  const films = each.flatMap((s) => ('film' in s ? [s.film] : []));
  const before = world.film.doubt?.of ?? [];
  const others = before.filter((liquid) => !films.includes(liquid));
  const changed = answered ? others.length < before.length : films.length > 0;
  return [
    ...each.flatMap((s) => ('film' in s ? [] : bottleDoubted(world, s, answered))),
    ...(changed
      ? [{ type: 'film-doubted' as const, ...runOf(world), of: answered ? others : [...others, ...films] }]
      : []),
  ];
}

function bottleDoubted(
  world: World,
  { bottle, of, spilled }: Extract<Stake, { bottle: number }>,
  answered: boolean,
): Fact[] {
  const doubt = world.bottles[bottle]?.doubt ?? null;
  const wanted = answered ? null : spilled ? 'spilled' : 'unanswered';
  return doubt === wanted || (doubt !== null && doubt !== 'unanswered')
    ? []
    : [{ type: 'bottle-doubted', bottle, doubt: wanted, ...(of !== undefined && { of }) }];
}

/** What was asked in these words and is not told by these: it counts as open from now on. */
export function leftOpen(
  world: World,
  asked: readonly Intent[],
  told: Intent | undefined,
  expected: readonly LiquidId[],
): Fact[] {
  const tells = told === undefined ? [] : stakesIn(world, told);
  const each = asked.map((one) => stakesIn(world, one, expected));
  const isSpill = (s: Stake): boolean => 'bottle' in s && s.spilled === true;
  // a spill that was one choice of several is no more than that, unless some of it is gone by each of them
  const inAll = (s: Stake): boolean => each.every((e) => e.some((t) => isSame(s, t) && isSpill(t)));
  const open = each
    .flat()
    .map((s): Stake => ('bottle' in s && !inAll(s) ? { bottle: s.bottle, ...(s.of && { of: s.of }) } : s));
  return unanswered(
    world,
    open.filter((s) => !tells.some((t) => isSame(t, s))),
  );
}

/** What a question of the run that waits is about, as it was said. */
function saidOf(pending: Pending, world: World): Intent[] {
  switch (pending.kind) {
    case 'bottle-holds':
      return pending.intents;
    case 'swap':
      return [{ type: 'swapped', bottle: pending.bottles[0], other: pending.bottles[1] }];
    case 'got-into':
    case 'went-elsewhere':
      return [pending.said];
    case 'bath-in':
      return [{ type: 'bath-in', liquid: pending.liquid }];
    case 'where-went': {
      const { message } = pending;
      return message.id === 'where-went'
        ? [{ type: 'poured', liquid: message.bath.id, to: { kind: 'bottle', number: message.bottle } }]
        : [];
    }
    case 'pour': {
      const { kind, ...said } = pending.request;
      // of what is in the tank it is asked where it went
      const ofTank = said.liquid === undefined || said.liquid === world.tank.bath?.liquid;
      return kind === 'between' || (kind === 'back' && !ofTank) ? [{ type: 'pour-between', ...said }] : [];
    }
    default:
      return [];
  }
}

/** These settle a question one way or the other. */
const answers: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  'confirm',
  'cancel',
  'override',
  'withdraw',
  'stop',
  'skip',
  'part',
]);
/** … and these what is in the tank. */
const tellsOfTank: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  'bath-in',
  'poured',
  'tank-empty',
  'film-loaded',
  'tank-without-film',
]);

/** What a question is about. */
const atStake = (world: World, pending: Pending): Stake[] =>
  saidOf(pending, world).flatMap((said) => stakesIn(world, said));

/** It counts against that from the moment that it is asked. */
export const questionOpens = (world: World, pending: Pending): Fact[] =>
  unanswered(world, atStake(world, pending));

/** The answer to a question lets go of what it was about, where it does not come too late, and so do words that tell of it. */
export function settleOpen(turn: Turn, intent: Intent) {
  const { pending } = turn.context;
  if (!pending) return;
  const told = stakesIn(turn.world, intent);
  const inTime = turn.atMs - pending.askedMs <= answerWithinMs;
  // a late yes is none, a late no is
  const answered = answers.has(intent.type) && inTime && (!turn.late || intent.type === 'cancel');
  const settled = atStake(turn.world, pending).filter(
    (s) => answered || ('film' in s ? tellsOfTank.has(intent.type) : told.some((t) => isSame(t, s))),
  );
  for (const fact of unanswered(turn.world, settled, true)) turn.fact(fact);
}
