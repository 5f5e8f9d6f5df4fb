import type { MixInHand } from '../../../chemistry/coach/state.js';
import type { Strip } from '../../../chemistry/control-strip.js';
import type { ShelfItem } from '../../../chemistry/shelf/plan.js';
import { bathsAtWork, formulasHold, ofRecipes, type SheetBaths } from '../../../world/contamination.js';
import type { World } from '../../../world/records.js';

export interface MixDeskConfig {
  /** smallest step of the scale, g; 0.01 when not given */
  scaleStepG?: number;
  /** largest volume the mixing jug takes, ml; half as much again as the batch when not given */
  jugMl?: number;
  /** what the chosen sheet says of its baths; a run's own sheet goes before it. Left out: the baths are those of the recipes */
  baths?: SheetBaths;
  /** a liquid's spoken name; its id when not given */
  liquidName?: (id: string) => string;
}

export interface BottleSeen {
  liquid: string;
  volumeMl: number;
  capacityMl: number;
  /** all that is in it, ml by liquid */
  parts: Readonly<Record<string, number>>;
  /** the batch's recipe, when it was mixed here, and what was wrong with it */
  recipe?: string;
  problems?: string[];
}

/** What the mixing bench remembers itself. Plain data: JSON in, JSON out. */
export interface MixKept {
  open: MixInHand | null;
  /** the last one finished, for its label */
  last: MixInHand | null;
  /** … and it is in no bottle, by the record */
  loose: boolean;
  /** asked for without a volume */
  waiting: {
    recipe: string /** offered in place of a volume that cannot be weighed, ml */;
    volumeMl?: number;
  } | null;
  /** a bottle that holds something else by the record: is it free for the finished mix? */
  askedBottle: number | null;
  /** batches opened by date, for numbering */
  batches: Record<string, number>;
}

/** … and what it reads from the world at each event. */
export interface MixState extends MixKept {
  shelf: ShelfItem[];
  bottles: Record<string, BottleSeen>;
  /** the sheet is of another process than the one that the recipes are for */
  otherProcess: boolean;
  strips: readonly Strip[];
  /** what the tank takes, ml; null: nobody said */
  tankMl: number | null;
}

export const emptyMixState: MixKept = {
  open: null,
  last: null,
  loose: false,
  waiting: null,
  askedBottle: null,
  batches: {},
};

export function seen(kept: MixKept, world: World, baths: SheetBaths = ofRecipes): MixState {
  const shelf = Object.values(world.shelf).map(
    ({ substance, massG, purity, pricePerKg }): ShelfItem => ({
      substance,
      massG,
      ...(purity !== null && { purity }),
      ...(pricePerKg !== null && { pricePerKg }),
    }),
  );
  const bottles = Object.fromEntries(
    Object.values(world.bottles).flatMap((b): [string, BottleSeen][] =>
      b.liquid === null || b.contents.volumeMl <= 0
        ? []
        : [
            [
              String(b.number),
              {
                liquid: b.liquid,
                volumeMl: b.contents.volumeMl,
                parts: b.contents.parts,
                capacityMl: b.capacityMl ?? b.contents.volumeMl,
                ...(b.recipe !== null && { recipe: b.recipe }),
                ...(b.problems.length > 0 && { problems: b.problems }),
              },
            ],
          ],
    ),
  );
  return {
    ...kept,
    shelf,
    bottles,
    otherProcess: !formulasHold(bathsAtWork(world, baths)),
    tankMl: world.tankMl,
    strips: world.strips ?? [],
  };
}

export const keptOf = ({ open, last, loose, waiting, askedBottle, batches }: MixState): MixKept => ({
  ...{ open, last, loose, waiting, askedBottle, batches },
});
