import type { FormChoice } from '../../../chemistry/batch.js';
import type { MixInHand } from '../../../chemistry/coach/state.js';
import { afterSet, afterUse, type ShelfItem } from '../../../chemistry/shelf/plan.js';
import type { Fact } from '../../../world/fact.js';
import type { VesselRef } from '../../../world/vessel.js';

export interface MixDeskConfig {
  /** what stands on the shelf before any fact */
  shelf?: readonly ShelfItem[];
  /** smallest step of the scale, g; 0.01 when not given */
  scaleStepG?: number;
  /** largest volume the mixing jug takes, ml; half as much again as the batch when not given */
  jugMl?: number;
  /** calendar date YYYY-MM-DD of a wall time; UTC when not given */
  dateOf?: (wallMs: number) => string;
  /** a liquid's spoken name; its id when not given */
  liquidName?: (id: string) => string;
  /** what each bottle is taken to hold before any fact, by number */
  bottles?: Readonly<Record<string, BottleSeen>>;
}

type FactOf<T extends Fact['type']> = Extract<Fact, { type: T }>;

export interface BottleSeen {
  liquid: string;
  volumeMl: number;
  capacityMl: number;
  /** the batch's recipe, when it was mixed here, and what was wrong with it */
  recipe?: string;
  problems?: string[];
}

/** Plain data: JSON in, JSON out. */
export interface MixState {
  open: MixInHand | null;
  /** the last one finished, for its label */
  last: MixInHand | null;
  /** earlier states of the open mix, newest last */
  past: MixInHand[];
  /** asked for without a volume */
  waiting: { recipe: string } | null;
  /** a bottle that holds something else by the record: is it free for the finished mix? */
  askedBottle: number | null;
  shelf: ShelfItem[];
  bottles: Record<string, BottleSeen>;
  /** batches opened by date, for numbering */
  batches: Record<string, number>;
  /** what each finished batch is, by its number */
  mixed: Record<string, { recipe: string; problems: string[] }>;
}

export const emptyMixState = (config: MixDeskConfig): MixState => ({
  open: null,
  last: null,
  past: [],
  waiting: null,
  askedBottle: null,
  shelf: [...(config.shelf ?? [])],
  bottles: { ...config.bottles },
  batches: {},
  mixed: {},
});

const bottleKey = (v: VesselRef): string | null => (v.kind === 'bottle' ? String(v.number) : null);

/** What a fact changes here: the shelf, and what each bottle holds. */
export function remember(state: MixState, fact: Fact): MixState {
  switch (fact.type) {
    case 'shelf-set': {
      const { type: _type, ...item } = fact;
      return { ...state, shelf: afterSet(state.shelf, item) };
    }
    case 'shelf-used':
      return { ...state, shelf: afterUse(state.shelf, fact.substance, fact.massG) };
    case 'bottle-set':
      return setBottle(
        state,
        String(fact.bottle),
        fact.liquid === null
          ? null
          : {
              liquid: fact.liquid,
              volumeMl: fact.volumeMl,
              capacityMl: fact.capacityMl,
              ...state.mixed[fact.batch ?? ''],
            },
      );
    case 'mixed':
      return mixed(state, fact);
    case 'bottle-discarded':
      return setBottle(state, String(fact.bottle), null);
    case 'poured':
      return poured(state, fact.from, fact.to, fact.liquid, fact.volumeMl);
    case 'undone':
      return fact.facts.reduce(takenBack, state);
    default:
      return state;
  }
}

/** A batch is what its recipe says, and keeps what its checks showed, also in a bottle that was named before. */
function mixed(state: MixState, fact: FactOf<'mixed'>): MixState {
  const batch = { recipe: fact.recipe, problems: fact.checks?.why ?? [] };
  const next = { ...state, mixed: { ...state.mixed, [fact.batch]: batch } };
  const there = fact.bottle === undefined ? undefined : next.bottles[String(fact.bottle)];
  return there === undefined || there.liquid !== fact.liquid
    ? next
    : setBottle(next, String(fact.bottle), { ...there, ...batch });
}

const takenBack = (state: MixState, fact: Fact): MixState =>
  fact.type === 'poured' ? poured(state, fact.to, fact.from, fact.liquid, fact.volumeMl) : state;

function setBottle(state: MixState, key: string, holds: BottleSeen | null): MixState {
  const { [key]: _before, ...others } = state.bottles;
  return { ...state, bottles: holds === null ? others : { ...others, [key]: holds } };
}

function poured(state: MixState, from: VesselRef, to: VesselRef, liquid: string, volumeMl: number): MixState {
  const source = bottleKey(from);
  const target = bottleKey(to);
  let next = state;
  const held = source === null ? undefined : next.bottles[source];
  if (source !== null && held !== undefined) {
    const left = Math.max(0, held.volumeMl - volumeMl);
    next = setBottle(next, source, left > 0 ? { ...held, volumeMl: left } : null);
  }
  if (target === null) return next;
  const there = next.bottles[target];
  const volume = (there?.volumeMl ?? 0) + volumeMl;
  return setBottle(next, target, {
    ...there,
    liquid,
    volumeMl: volume,
    capacityMl: Math.max(there?.capacityMl ?? 0, volume),
  });
}

/** Most earlier states kept for undo. */
const undoDepth = 40;

export const remembering = (past: readonly MixInHand[], mix: MixInHand): MixInHand[] =>
  [...past, mix].slice(-undoDepth);

export type Forms = Record<string, FormChoice>;
