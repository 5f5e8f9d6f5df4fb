import type { SheetStep } from '../sheet.js';
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
