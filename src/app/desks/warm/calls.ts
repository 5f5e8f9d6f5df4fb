import type { WarmMessage } from '../../../language/languages/english/phrases/warm-message.js';
import type { Effect, ReplyKind } from '../../../process/effect.js';
import type { Fact } from '../../../world/fact.js';
import { awaited, type Bath, FRESH_S, lastOf, type Outlook, outlookOf, withReadySince } from './items.js';
import { developerOf, tankKey, type WarmConfig, type WarmState } from './state.js';

export type WarmEffect = Effect<WarmMessage>;
export interface Turn {
  state: WarmState;
  effects: WarmEffect[];
  /** what is to be told to the world */
  facts?: Fact[];
}

export const say = (message: WarmMessage, atMs: number, kind: ReplyKind = 'answer'): WarmEffect => ({
  type: 'say',
  kind,
  message,
  dueMs: atMs,
});

/** A bath that nobody has read is not called: its curve is a guess. */
const isRead = (b: Bath): boolean => b.item.readAgoS !== null;

/** Back in its bottle after the film: it may cool. */
const isSpent = (state: WarmState, b: Bath): boolean =>
  b.key !== tankKey && state.spent.includes(state.holds[b.key]?.liquid ?? '');

/** Nearer than this is now, ms: wakes come a little late, crossings are interpolated. */
const slackMs = 1000;

/** A bath must be this far from ready again before "everything is ready" is worth a second call, ms. */
const againMs = 120_000;

/**
 * Says what is due at `atMs` (all ready; one drifting out) and sets the next wake. Called after every event, so
 * that a reading moves the calls.
 */
export function attend(turn: Turn, config: WarmConfig, atMs: number): Turn {
  const outlook = outlookOf(turn.state, config, atMs);
  if (!outlook) return turn;
  const state = withReadySince(turn.state, outlook, atMs);
  const effects = [...turn.effects];
  const called = { ...state.called, drift: [...state.called.drift] };

  const wanted = awaited(outlook).filter((b) => !isSpent(turn.state, b));
  const read = wanted.filter(isRead);
  const unread = wanted.filter((b) => !isRead(b));
  const last = lastOf(outlook);
  const ready = read.filter((b) => b.readiness?.state === 'in');
  const enoughRead = unread.length === 0 || read.length > 1;
  const developer = read.find((b) => turn.state.holds[b.key]?.liquid === developerOf(config));
  const developerOut = developer !== undefined && developer.readiness?.state !== 'in';
  if (ready.length > 0 && enoughRead && !last && !developerOut && !called.allReady) {
    called.allReady = true;
    const latest = ready.reduce((a, b) =>
      (state.readySinceMs[b.key] ?? 0) >= (state.readySinceMs[a.key] ?? 0) ? b : a,
    );
    const out = read.filter((b) => b.readiness?.state === 'never').map((b) => b.item.subject);
    const told = effects.some(
      (e) => e.type === 'say' && e.message.id === 'warm-reading' && e.message.allReady,
    );
    if (!told) {
      effects.push(
        say(
          { id: 'warm-all-ready', last: latest.item, unread: unread.map((b) => b.item.subject), out },
          atMs,
          'call',
        ),
      );
    }
  } else if ((last?.readiness?.state === 'coming' && last.readiness.inMs > againMs) || developerOut) {
    called.allReady = false;
  }

  for (const bath of read) {
    const way = drifted(turn.state, bath);
    if (way && !called.drift.includes(bath.key)) {
      called.drift.push(bath.key);
      // a reading that shows it says so itself
      if (bath.item.readAgoS !== 0)
        effects.push(say({ id: 'warm-drift', item: bath.item, way, inTub: bath.inTub }, atMs, 'call'));
    } else if (bath.readiness?.state === 'in') {
      called.drift = called.drift.filter((k) => k !== bath.key);
    }
  }
  effects.push({ type: 'wake', atMs: nextWakeMs(outlook, state, read, atMs) });
  return { ...turn, state: { ...state, called }, effects };
}

/** Was in tolerance, and is out of it now with some certainty. */
function drifted(before: WarmState, bath: Bath): 'hot' | 'cold' | null {
  if (before.readySinceMs[bath.key] === undefined || bath.leaves?.inMs !== 0) return null;
  if (bath.item.fresh) return null;
  return bath.leaves.way;
}

function nextWakeMs(outlook: Outlook, state: WarmState, read: readonly Bath[], atMs: number): number | null {
  const due: number[] = [];
  for (const { key, readiness: r, leaves, item } of read) {
    if (r?.state === 'coming') due.push(r.inMs);
    else if (!leaves || state.readySinceMs[key] === undefined) continue;
    else if (leaves.inMs > 0) due.push(leaves.inMs);
    // what the reading still speaks against is called when it is old
    else if (item.fresh && item.readAgoS !== null) due.push((FRESH_S - item.readAgoS) * 1000);
  }
  const horizonMs = outlook.forecast.afterMs.at(-1) ?? 0;
  const soonest = Math.min(...due.filter((ms) => ms <= horizonMs));
  return Number.isFinite(soonest) ? atMs + Math.max(slackMs, Math.ceil(soonest) + slackMs) : null;
}
