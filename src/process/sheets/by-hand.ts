import { liquidById } from '../../world/liquids.js';
import type { LiquidId } from '../../world/vessel.js';
import type { ProcessSheet, SheetStep } from '../sheet.js';
import { inversions, lead } from './ecn2-ferricyanide.js';

type Own = Partial<SheetStep> & Pick<SheetStep, 'id' | 'name' | 'liquid'>;

/** A bath by hand in a small tank, poured back when it is done; `own` says what is otherwise, and how warm it is. */
export const byHand = (turns: number, temp: SheetStep['temp'], own: Own): SheetStep => ({
  kind: 'bath',
  time: null,
  temp,
  agitation: inversions(30, 30, turns),
  drain: lead(10),
  reusable: true,
  returnsToBottle: true,
  filter: false,
  rinseAfter: null,
  cautions: ['gloves'],
  ...own,
});

type SheetLiquid = NonNullable<ProcessSheet['liquids']>[number];

/** A well-known bath, of which this process knows how many 135-36 films a litre does. */
export function capacityOf(id: LiquidId, filmsPerLitre: number, source: string): SheetLiquid {
  const known = liquidById(id);
  if (!known) throw new Error(`expected a well-known liquid, got ${id}`);
  const { spoken, cautions, onSpill, tolerates, ...same } = known;
  return {
    ...same,
    spoken: [...spoken],
    cautions: [...cautions],
    onSpill: [...onSpill],
    ...(tolerates && { tolerates: [...tolerates] }),
    capacity: { filmsPerLitre, source },
  };
}
