import type { Exposure } from '../chemistry/safety/first-aid.js';
import { hurtBy } from './cautions.js';
import type { Intent, IntentOf } from './intent.js';
import { answerWithinMs } from './pending.js';
import { nobodyStays } from './remarks.js';
import { away, firstOfAll, hurt, whatNext } from './run-answers.js';
import { clockRuns } from './run-baths.js';
import type { Danger } from './run-state.js';
import { liquidOf } from './sheet.js';
import type { Turn } from './turn.js';

/** Whoever is hurt so is brought out, or must not be touched; and from what. */
const HELPED_FIRST: Partial<Readonly<Record<Exposure, Danger>>> = {
  breathed: 'air',
  breathless: 'air',
  collapsed: 'air',
  alight: 'fire',
  shocked: 'current',
};
const NO_AIR: Readonly<Record<string, Danger>> = {
  fire: 'fire',
  'water-on-fire': 'fire',
  electric: 'current',
  mercury: 'mercury',
};
/** Whoever has it in an eye or in the mouth, or is scalded, is rinsed for many minutes: the film is nothing beside that. */
const TAKES_ALL_HANDS: ReadonlySet<Exposure | null> = new Set<Exposure | null>([
  'eye',
  'face',
  'swallowed',
  'burnt',
]);
/** Hands that are at the tank again. */
const AT_THE_TANK: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  ...(['film-loaded', 'bath-in', 'poured', 'pour-in', 'pour-back'] as const),
  ...(['pour-between', 'pour-away', 'drain-now', 'tank-empty', 'film-hung'] as const),
  ...(['start-clock'] as const),
]);
/** What leads on with the film. */
const LEADS_ON: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  ...(['begin-run', 'next-step', 'ask-next', 'ask-film', 'resume-clock', 'ask-why'] as const),
]);

function sentFrom(turn: Turn, intent: Intent): Danger | undefined {
  if (intent.type === 'ask-advice')
    return nobodyStays(intent.topic) ? (NO_AIR[intent.topic] ?? 'air') : undefined;
  if (intent.type === 'hurt') {
    const hows = intent.about === undefined ? [intent.how, ...(intent.also ?? [])] : [];
    return hows.map((how) => how && HELPED_FIRST[how]).find(Boolean);
  }
  const gas = turn.effects.some(
    (e) => e.type === 'say' && e.kind === 'warning' && 'gas' in e.message && e.message.gas === true,
  );
  return gas ? 'air' : undefined;
}

function needsHands(turn: Turn, intent: Intent): boolean {
  const hows =
    intent.type === 'spill'
      ? [hurtBy(intent.place ?? null, liquidOf(turn.sheet, intent.liquid ?? null) ?? null)]
      : intent.type === 'hurt' && intent.about === undefined
        ? [intent.how ?? null, ...(intent.also ?? [])]
        : [];
  return hows.some((how) => TAKES_ALL_HANDS.has(how));
}

/** From the word that sends everybody out to the first one of hands at the tank, nothing is called. */
export function leaveOrBack(turn: Turn, intent: Intent): void {
  const { out } = turn.state;
  const from = sentFrom(turn, intent);
  const sinceMs = turn.atMs;
  if (from) turn.set({ out: { sinceMs, told: false, from } });
  else if (!out && needsHands(turn, intent)) turn.set({ out: { sinceMs, told: false, from: 'hurt' } });
  else if (out && out.sinceMs < turn.atMs && (AT_THE_TANK.has(intent.type) || isHelped(turn)))
    turn.set({ out: null });
}

/** Nobody is hurt any more who kept the hands from the tank. */
const isHelped = ({ state, context }: Turn): boolean =>
  state.out?.from === 'hurt' && !(context.hurt ?? []).some((how) => TAKES_ALL_HANDS.has(how));

/** A call fell due while nobody is to be there: once it is said that the film can wait. */
export function calledTo(turn: Turn, dueMs: number): void {
  if (turn.state.out?.told === false) sayOutside(turn, 'call', dueMs);
}

function sayOutside(turn: Turn, kind: 'answer' | 'call' | 'warning', dueMs = turn.atMs, leave = false): void {
  const { sinceMs = turn.atMs, from = 'air' } = turn.state.out ?? {};
  turn.set({ out: { sinceMs, told: true, from } });
  const film = turn.world.film.loaded;
  if (from === 'hurt' && !leave) turn.say(kind, { id: 'hands-full', film }, dueMs);
  else turn.say(kind, { id: 'outside', film, ...(leave && { leave }) }, dueMs);
}

/** Before anything of the film: whether what sent everybody out is over. */
function askSafe(turn: Turn): void {
  const { out } = turn.state;
  if (!out || out.from === 'hurt') return;
  turn.set({ out: { ...out, askedMs: turn.atMs } });
  turn.say('question', { id: 'aired', from: out.from });
}

/** Whether everybody was sent away. */
export const isOut = ({ out }: Turn['state']): boolean => out != null && out.from !== 'hurt';

/** Whether that was asked, and is not answered. */
export const isAsked = ({ out }: Turn['state']): boolean => out?.askedMs !== undefined;

/** While everybody is out, nothing leads on with the film; whether something was said instead. */
export function holds(turn: Turn, intent: Intent): boolean {
  const { out } = turn.state;
  if (!out) return false;
  if (out.from === 'hurt') {
    if (intent.type === 'ask-next') hurt(turn, { type: 'hurt', about: 'still' });
    return intent.type === 'ask-next';
  }
  const { askedMs } = out;
  if (intent.type === 'confirm' && askedMs !== undefined) {
    if (turn.late || turn.atMs - askedMs > answerWithinMs) askSafe(turn);
    else told(turn, 'safe');
    return true;
  }
  if (intent.type === 'cancel' && askedMs !== undefined) {
    sayOutside(turn, 'answer');
    return true;
  }
  const leadsOn = LEADS_ON.has(intent.type);
  if (!leadsOn || (intent.type === 'ask-next' && firstOfAll(turn))) return leadsOn;
  askSafe(turn);
  return true;
}

/** Called out, out of the room, asked whether to go back in, or back: where the air is clear, how the film stands. */
export function told(turn: Turn, is: IntentOf<'room'>['is']): void {
  if (is === 'out') sayOutside(turn, 'warning', turn.atMs, true);
  else if (is === 'left' && !isOut(turn.state)) away(turn, undefined);
  else if (is === 'back' && isOut(turn.state)) askSafe(turn);
  else if (is === 'left' || is === 'asks') sayOutside(turn, 'answer');
  else {
    turn.set({ out: null });
    if (turn.isActive) clockRuns(turn);
    else whatNext(turn);
  }
  turn.did();
}
