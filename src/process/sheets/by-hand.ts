import { liquidById } from '../../world/liquids.js';
import type { LiquidId } from '../../world/vessel.js';
import type { Agitation, ProcessSheet, SheetStep } from '../sheet.js';

export const practice = 'common practice';

/** Machines keep film and bath in motion otherwise: these are for hands and a small inversion tank. */
export const inversions = (initialS: number, everyS: number | null, turns: number): Agitation => ({
  style: 'inversion',
  initialS,
  everyS,
  inversions: turns,
  source: practice,
});
export const swirl = (initialS: number): Agitation => ({
  style: 'swirl',
  initialS,
  everyS: null,
  inversions: 0,
  source: practice,
});

/** A published time, and what hands can keep of it, which is marked as such. */
export const seconds = (aimS: number, belowS: number, aboveS: number, source: string) => ({
  aimS,
  minS: aimS - belowS,
  maxS: aimS + aboveS,
  source,
  toleranceSource: practice,
});
export const within = (aimC: number, offC: number, source: string) => ({
  aimC,
  minC: Math.round((aimC - offC) * 10) / 10,
  maxC: Math.round((aimC + offC) * 10) / 10,
  source,
});
export const lead = (leadS: number) => ({ leadS, source: practice });

type Own = Partial<SheetStep> & Pick<SheetStep, 'id'>;

/** Baths by hand in a small tank, poured back when they are done: of the step's own name, unless that says otherwise. */
export const byHand =
  (turns: number, temp: SheetStep['temp']) =>
  (own: Own): SheetStep => ({
    name: own.id.replaceAll('-', ' '),
    liquid: own.id,
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

/** Water from the tap, that goes down the drain. */
export const inWater = (turns: number, temp: SheetStep['temp'], own: Own): SheetStep =>
  byHand(turns, temp)({ liquid: 'water', reusable: false, returnsToBottle: false, cautions: [], ...own });

/** A wash in water after one of the baths. */
export const washAfter = (
  bath: string,
  temp: SheetStep['temp'],
  time: SheetStep['time'],
  agitation: Agitation,
) =>
  inWater(0, temp, {
    id: `wash-after-${bath}`,
    name: `wash after the ${bath}`,
    kind: 'wash',
    time,
    agitation,
  });

/** The last step of every sheet. */
export const hang: SheetStep = {
  ...inWater(0, null, { id: 'hang', name: 'hang to dry', kind: 'hang' }),
  liquid: null,
  agitation: null,
  drain: lead(0),
};

type SheetLiquid = NonNullable<ProcessSheet['liquids']>[number];

/** A well-known bath, of which this process knows how many 135-36 films a litre does. */
export function capacityOf(id: LiquidId, filmsPerLitre: number, source: string): SheetLiquid {
  const known = liquidById(id);
  if (!known) throw new Error(`expected a well-known liquid, got ${id}`);
  return { ...known, capacity: { filmsPerLitre, source } };
}
