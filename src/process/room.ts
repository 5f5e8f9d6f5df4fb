import type { Exposure } from '../chemistry/safety/first-aid.js';
import type { Intent, IntentOf } from './intent.js';
import { nobodyStays } from './remarks.js';
import { away, whatNext } from './run-answers.js';
import { clockRuns } from './run-baths.js';
import type { Turn } from './turn.js';

/** Whoever is hurt so is brought out, or must not be touched. */
const HELPED_FIRST: ReadonlySet<Exposure> = new Set([
  'breathed',
  'breathless',
  'collapsed',
  'alight',
  'shocked',
]);
/** Hands that are at the tank again. */
const AT_THE_TANK: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  ...(['begin-run', 'film-loaded', 'next-step', 'bath-in', 'poured', 'pour-in', 'pour-back'] as const),
  ...(['pour-between', 'pour-away', 'drain-now', 'tank-empty', 'film-hung'] as const),
  ...(['start-clock', 'resume-clock'] as const),
]);

function sendsOut(turn: Turn, intent: Intent): boolean {
  if (intent.type === 'ask-advice') return nobodyStays(intent.topic);
  if (intent.type === 'hurt')
    return (
      intent.about === undefined &&
      [intent.how, ...(intent.also ?? [])].some((how) => how !== undefined && HELPED_FIRST.has(how))
    );
  return turn.effects.some(
    (e) => e.type === 'say' && e.kind === 'warning' && 'gas' in e.message && e.message.gas === true,
  );
}

/** From the word that sends everybody out to the first one of hands at the tank, nothing is called. */
export function leaveOrBack(turn: Turn, intent: Intent): void {
  const { out } = turn.state;
  if (sendsOut(turn, intent)) turn.set({ out: { sinceMs: turn.atMs, told: false } });
  else if (out && out.sinceMs < turn.atMs && AT_THE_TANK.has(intent.type)) turn.set({ out: null });
}

/** A call fell due while nobody is to be there: once it is said that the film can wait. */
export function calledTo(turn: Turn, dueMs: number): void {
  if (turn.state.out?.told === false) sayOutside(turn, 'call', dueMs);
}

function sayOutside(turn: Turn, kind: 'answer' | 'call', dueMs = turn.atMs): void {
  turn.set({ out: { sinceMs: turn.state.out?.sinceMs ?? turn.atMs, told: true } });
  turn.say(kind, { id: 'outside', film: turn.world.film.loaded }, dueMs);
}

/** Out of the room, asked whether to go back in, or back where the air is clear: then how the film stands. */
export function told(turn: Turn, is: IntentOf<'room'>['is']): void {
  if (is === 'left' && !turn.state.out) away(turn, undefined);
  else if (is !== 'safe') sayOutside(turn, 'answer');
  else {
    turn.set({ out: null });
    if (turn.isActive) clockRuns(turn);
    else whatNext(turn);
  }
  turn.did();
}
