import type { WarmMessage } from '../../language/languages/english/phrases/warm-message.js';
import type { Desk } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import type { World } from '../../world/records.js';
import type { LiquidId, VesselRef } from '../../world/vessel.js';
import {
  answerBlend,
  answerDoubted,
  answerReady,
  answerTemperature,
  heater,
  moved,
  tubSet,
} from './warm/answers.js';
import { attend, say, type Turn } from './warm/calls.js';
import { hear } from './warm/facts.js';
import { hearAll, hearNameless, hearQuietly, hearReading, readLast, resolve } from './warm/readings.js';
import { checkSetPoint } from './warm/set-point.js';
import {
  initialState,
  keptOf,
  opened,
  seen,
  targetOf,
  type WarmConfig,
  type WarmKept,
  type WarmState,
} from './warm/state.js';

export type { WarmConfig, WarmKept, WarmLiquid, WarmState } from './warm/state.js';
export { seen } from './warm/state.js';
export type { WarmMessage };

/** The vessel that holds a liquid, tank first, then the fullest bottle; null when none does. For a probe named after a liquid. */
export const warmVesselOf = (
  state: WarmState,
  config: WarmConfig,
  of: LiquidId | VesselRef,
): VesselRef | null => targetOf(state, config, of)?.vessel ?? null;

/**
 * The desk that warms the bench: it takes readings of any vessel, questions the odd ones, says when each bath will
 * be within the sheet's limits, and calls when the last one is or when one drifts out. It follows what every
 * vessel holds from the other desks' facts (a `temperature` fact from elsewhere, a probe's, is taken in silence), and gives a `temperature` fact for every reading it takes.
 *
 * Bath temperatures are reckoned by `thermal/bench`; reckoned values are spoken as such, readings as readings.
 */
export function createWarmDesk(config: WarmConfig): Desk<WarmKept, WarmMessage> {
  return {
    id: 'warm',
    initial: initialState,
    due: ({ pending }) => {
      if (!pending) return [];
      const of = pending.vessel ?? pending.liquid;
      const reading: Intent = { type: 'temperature', ...(of && { of }), tempC: pending.heardC };
      return pending.doubt.why === 'which' ? [{ type: 'part' }, reading] : of ? [reading] : [];
    },
    situations: (state) => (state.pending ? ['challenged', 'warming'] : ['warming']),
    apply(kept, event, truth) {
      const { atMs } = event;
      const state = seen(kept, truth.world);
      const turn = ((): Turn | null => {
        switch (event.type) {
          case 'time':
            return state.bench ? { state, effects: [] } : null;
          case 'fact': {
            if (event.fact.type === 'temperature') return hearQuietly(state, config, event.fact, atMs);
            const next = hear(state, config, event.fact, atMs);
            return next.bench === state.bench && next.spent === state.spent
              ? null
              : { state: next, effects: [] };
          }
          case 'intent':
            return answered(state, config, event.intent, atMs, truth.world);
        }
      })();
      if (!turn) return { state: kept, effects: [] };
      for (const fact of turn.facts ?? []) truth.tell(fact);
      if (event.past) return { state: keptOf(turn.state), effects: [] };
      const done = attend(checkSetPoint(turn, config, atMs), config, atMs);
      const changed =
        event.type === 'intent' && ['tub-set', 'heater', 'vessel-moved'].includes(event.intent.type);
      return {
        state: keptOf(done.state),
        effects: changed ? [...done.effects, { type: 'did' }] : done.effects,
      };
    },
  };
}

/** Null: not ours. */
function answered(
  state: WarmState,
  config: WarmConfig,
  intent: Intent,
  atMs: number,
  world: World,
): Turn | null {
  switch (intent.type) {
    case 'temperature':
      return intent.of === undefined
        ? hearNameless(state, config, intent, atMs, world)
        : hearReading(state, config, intent.of, intent.tempC, atMs, world.jugs);
    case 'all-at':
      return hearAll(state, config, intent, atMs);
    case 'part': {
      const of = intent.liquid ?? intent.vessel;
      return state.pending && of
        ? hearReading(state, config, of, state.pending.heardC, atMs, world.jugs)
        : null;
    }
    case 'confirm':
    case 'cancel':
      return state.pending ? resolve(state, config, intent.type === 'confirm', atMs) : null;
    case 'ask-ready':
    case 'ask-temperature': {
      const of =
        intent.type === 'ask-ready' ? intent.liquid : (intent.of ?? readLast(state, config, world.tank));
      const turn =
        answerDoubted(state, config, of, atMs, world) ??
        (intent.type === 'ask-ready' || of === undefined
          ? answerReady(
              state,
              config,
              { type: 'ask-ready', ...(typeof of === 'string' && { liquid: of }) },
              atMs,
            )
          : answerTemperature(state, config, of, atMs));
      return of === undefined ? turn : { ...turn, state: { ...turn.state, asked: { of, atMs } } };
    }
    case 'tub-set':
      return tubSet(state, config, intent, atMs);
    case 'heater':
      return heater(state, config, intent, atMs);
    case 'vessel-moved':
      return moved(state, config, intent, atMs);
    case 'ask-blend':
      return answerBlend(opened(state, config, atMs), intent, atMs);
    case 'show-curves': {
      const open = opened(state, config, atMs);
      const any = open.bench.tubReadings > 0 || open.bench.vessels.some((v) => v.readings > 0);
      return { state: open, effects: [say({ id: 'warm-curves', any }, atMs)] };
    }
    default:
      return null;
  }
}
