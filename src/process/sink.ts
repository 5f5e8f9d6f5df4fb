import { dangersBetween } from '../chemistry/fitness.js';
import { bathOfKind } from '../chemistry/mixture.js';
import { comesAsGas } from '../chemistry/safety/incompatible.js';
import { formulasHold } from '../world/contamination.js';
import type { Fact } from '../world/fact.js';
import type { LiquidId } from '../world/vessel.js';
import type { IntentOf } from './intent.js';
import { liquidOf, roleOf } from './sheet.js';
import type { Turn } from './turn.js';

/** So long what was poured away may stand in the trap of a sink, ms. Source: common practice. */
const standsMs = 30 * 60_000;

const intoSink = (fact: Fact): LiquidId[] =>
  fact.type === 'poured' && fact.to.kind === 'sink' ? [fact.liquid] : [];

/** What is poured away meets in the trap what went down before it, where no water went between. */
export function meetInSink(turn: Turn): void {
  for (const liquid of turn.told.flatMap(intoSink)) {
    const before = (turn.state.sink ?? []).filter((p) => turn.atMs - p.atMs < standsMs);
    const found = before.flatMap((p) =>
      gasesOf(turn, liquid, p.liquid).map((say) => ({ of: p.liquid, say })),
    )[0];
    turn.set({ sink: liquid === 'water' ? [] : [...before, { liquid, atMs: turn.atMs }] });
    if (found) sayMet(turn, liquid, found.of, [found.say]);
  }
}

/** A bath as chemistry knows it: by its recipe where the sheet's are ours, else by its kind. */
export const kindOf = (turn: Turn, id: LiquidId) =>
  liquidOf(turn.sheet, id) && !formulasHold(turn.sheet) ? bathOfKind(id, 100) : id;

/** What comes off as a gas where these two meet, in whole sentences. The little sulphite of a developer is everybody's drain. */
export function gasesOf(turn: Turn, a: LiquidId, b: LiquidId): string[] {
  const roles = [a, b].map((id) => roleOf(turn.sheet, id));
  if (a === b || roles.includes('water') || roles.includes('developer')) return [];
  return dangersBetween(kindOf(turn, a), kindOf(turn, b))
    .filter(comesAsGas)
    .map((d) => d.spoken);
}

export function sayMet(turn: Turn, liquid: LiquidId, other: LiquidId, dangers: readonly string[]): void {
  turn.say('warning', { id: 'met', bath: turn.named(liquid), with: turn.named(other), gas: true, dangers });
}

/** Water after what was poured away, from no vessel of ours; whether it was that. */
export function rinsed(turn: Turn, { liquid, from, to }: IntentOf<'poured'>): boolean {
  if (liquid !== 'water' || from || to?.kind !== 'sink' || turn.world.tank.bath?.liquid === 'water')
    return false;
  turn.set({ sink: [] });
  turn.did();
  turn.say('answer', { id: 'sink-rinsed' });
  return true;
}
