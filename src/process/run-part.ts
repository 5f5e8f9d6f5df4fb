import type { IntentOf } from './intent.js';
import { named } from './now.js';
import { bathIn, sayNoSuchLiquid } from './run-bath.js';
import { pourWith } from './run-moves.js';
import { spill } from './run-records.js';
import { liquidOf } from './sheet.js';
import type { Turn } from './turn.js';

/** "Bleach", or "bottle two": the answer to what was asked; with nothing asked it only asks what is meant. */
export function part(turn: Turn, said: IntentOf<'part'>) {
  const { liquid, vessel } = said;
  const { pending, spill: open } = turn.context;
  if (liquid !== undefined && !liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  if (pending?.kind === 'pour') return pourWith(turn, said, pending.request);
  if (liquid !== undefined && (pending?.kind === 'bath-in' || pending?.kind === 'which-bath'))
    return bathIn(turn, { type: 'bath-in', liquid });
  if (liquid !== undefined && open?.liquid === null) return spill(turn, { type: 'spill', liquid });
  turn.say('question', {
    id: 'part-alone',
    bath: liquid === undefined ? null : named(turn.sheet, liquid),
    bottle: vessel?.kind === 'bottle' ? vessel.number : null,
  });
}
