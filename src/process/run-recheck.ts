import { judge, type PourRequest } from './guard.js';
import { decide } from './run-moves.js';
import type { Announced } from './run-state.js';
import type { Turn } from './turn.js';

const requestOf = (said: Announced): PourRequest =>
  said.kind === 'in'
    ? { kind: 'in', liquid: said.liquid, from: said.from }
    : { kind: 'back', liquid: said.liquid, to: said.to, from: { kind: 'tank' } };

/**
 * A pour that was cleared and has not happened is judged again when something it hangs on has changed since, such
 * as what a bottle holds. What is no longer right is taken back aloud.
 */
export function recheckAnnounced(turn: Turn, before: Announced | null) {
  const said = turn.core.announced;
  if (!said || said !== before || said.overridden) return;
  const request = requestOf(said);
  const found = judge(request, turn.view, ['film-unknown', 'tank-not-empty', 'jug-unknown']);
  const changed =
    found.verdict === 'ruinous' ||
    (found.verdict === 'ask' && (found.reason === 'mismatch' || found.reason === 'bottle-unknown'));
  if (!changed) return;
  turn.set({ announced: null });
  decide(turn, request, []);
}
