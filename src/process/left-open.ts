import type { World } from '../world/records.js';
import { bottleFor } from './guard-checks.js';
import type { Intent } from './intent.js';
import { answerWithinMs, type Pending } from './pending.js';
import type { Turn } from './turn.js';

/** Numbers of the bottles that hold something else than by the record, if these words are meant. */
export function bottlesAtStake(world: World, intent: Intent): number[] {
  const other = (number: number | null | undefined, liquid?: string | null): number[] => {
    const held = number == null ? undefined : world.bottles[number];
    return held && held.contents.volumeMl > 0 && held.liquid !== liquid ? [held.number] : [];
  };
  switch (intent.type) {
    case 'several':
      return intent.intents.flatMap((one) => bottlesAtStake(world, one));
    case 'bottle-holds':
      return intent.liquid === undefined ? [] : other(intent.bottle, intent.liquid);
    case 'swapped':
      return [
        ...other(intent.bottle ?? bottleFor({ world }, intent.liquid ?? '')),
        ...other(intent.other ?? bottleFor({ world }, intent.otherLiquid ?? '')),
      ];
    case 'contaminated': {
      const { intoBottle, intoLiquid, intoVessel, liquid } = intent;
      if (intoBottle !== undefined) return other(intoBottle, intent.with ?? liquid);
      if (intoLiquid !== undefined) return other(bottleFor({ world }, intoLiquid), liquid);
      // into one of them, and nobody said which
      return intoVessel === undefined
        ? Object.values(world.bottles).flatMap((b) => other(b.number, liquid))
        : [];
    }
    case 'pour-between':
    case 'poured': {
      const { from, to } = intent;
      if (to?.kind !== 'bottle') return [];
      const held = from?.kind === 'bottle' ? world.bottles[from.number]?.liquid : undefined;
      const inTank = from === undefined || from.kind === 'tank' ? world.tank.bath?.liquid : undefined;
      return other(to.number, intent.liquid ?? held ?? inTank);
    }
    default:
      return [];
  }
}

/** What a question of the run that waits is about, as it was said. */
function saidOf(pending: Pending, world: World): Intent[] {
  switch (pending.kind) {
    case 'bottle-holds':
      return pending.intents;
    case 'swap':
      return [{ type: 'swapped', bottle: pending.bottles[0], other: pending.bottles[1] }];
    case 'got-into':
      return [pending.said];
    case 'went-elsewhere':
      return [pending.said];
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

/**
 * A question about a bottle that something else is said over, or that is answered too late, holds that bottle: it is not
 * cleared as if nothing had been said. Its answer lets go of it, and so do words that tell of the bottle.
 */
export function holdUnanswered(turn: Turn, intent: Intent) {
  const { pending } = turn.context;
  if (!pending || intent.type.startsWith('ask-')) return;
  const told = bottlesAtStake(turn.world, intent);
  const late = turn.late || turn.atMs - pending.askedMs > answerWithinMs;
  for (const bottle of saidOf(pending, turn.world).flatMap((said) => bottlesAtStake(turn.world, said))) {
    const answered = told.includes(bottle) || (answers.has(intent.type) && !late);
    for (const fact of unanswered(turn.world, bottle, answered)) turn.fact(fact);
  }
}

/** The fact that a bottle is held by an open question, or is so no more; none: it is so already, or something else speaks against it. */
export function unanswered({ bottles: all }: World, bottle: number, answered = false) {
  const doubt = all[bottle]?.doubt ?? null;
  const wanted = answered ? null : ('unanswered' as const);
  return doubt === wanted || (doubt !== null && doubt !== 'unanswered')
    ? []
    : [{ type: 'bottle-doubted' as const, bottle, doubt: wanted }];
}
