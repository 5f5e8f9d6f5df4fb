import { assign, type SnapshotFrom, setup, transition } from 'xstate';
import type { LiquidId } from '../world/vessel.js';
import { aimMs, type Bath, multiplesUpTo } from './bath.js';
import type { Pending } from './pending.js';
import type { ProcessSheet } from './sheet.js';

export interface Spill {
  liquid: LiquidId | null;
  volumeMl: number | null;
  place: string | null;
}

export interface RunContext {
  /** the step that is due or in the tank */
  stepIndex: number;
  bath: Bath | null;
  /** when the next bath should go in */
  pourNextMs: number | null;
  spill: Spill | null;
  pending: Pending | null;
}

export type CallKey = 'agitate' | 'rest' | 'ten-seconds' | 'drain' | 'pour-next' | 'overdue';

export type RunEvent =
  | { type: 'BEGIN' }
  | { type: 'NEXT' }
  | { type: 'LOADED' }
  | { type: 'BATH_IN'; bath: Bath }
  | { type: 'HOLD'; atMs: number }
  | { type: 'RESUME'; atMs: number }
  | { type: 'ADD'; seconds: number; elapsedS: number }
  /** the user drains; the call to drain at its time is DUE */
  | { type: 'DRAIN'; atMs: number }
  | { type: 'EMPTY' }
  | { type: 'RINSED' }
  | { type: 'SKIP' }
  | { type: 'HUNG' }
  | { type: 'CLOSE' }
  | { type: 'DUE'; call: CallKey }
  | { type: 'SPILLED'; spill: Spill }
  | { type: 'CLEANED' }
  | { type: 'CHALLENGE'; pending: Pending }
  | { type: 'SETTLE' };

const fresh = { stepIndex: 0, bath: null, pourNextMs: null } as const;

/**
 * The run as a statechart of three parallel regions: the run itself, an open spill, a challenged pour. It has no
 * timers: deadlines are computed from the context (timing.ts) and come back as DUE events.
 */
export function createRunMachine(sheet: ProcessSheet) {
  const kindAt = (index: number) => sheet.steps[index]?.kind ?? 'hang';
  const afterBath = (c: RunContext): number => c.bath?.advanceTo ?? c.stepIndex;
  const step = (c: RunContext) => sheet.steps.find((s) => s.id === c.bath?.stepId);

  return setup({
    types: { context: {} as RunContext, events: {} as RunEvent },
    guards: {
      needsRinse: ({ context }) =>
        context.bath !== null &&
        context.bath.advanceTo > context.stepIndex &&
        step(context)?.rinseAfter != null,
      hangsNext: ({ context }) => kindAt(afterBath(context)) === 'hang',
      hangsAfterSkip: ({ context }) => kindAt(context.stepIndex + 1) === 'hang',
    },
    actions: {
      reset: assign(() => ({ ...fresh })),
      fill: assign(({ event }) => (event.type === 'BATH_IN' ? { bath: event.bath, pourNextMs: null } : {})),
      advance: assign(({ context }) => ({ stepIndex: afterBath(context), bath: null })),
      skip: assign(({ context }) => ({ stepIndex: context.stepIndex + 1, pourNextMs: null })),
      forgetPourNext: assign({ pourNextMs: null }),
      hold: assign(({ context, event }) =>
        context.bath && event.type === 'HOLD' ? { bath: { ...context.bath, heldAtMs: event.atMs } } : {},
      ),
      resume: assign(({ context, event }) => {
        const { bath } = context;
        if (!bath || bath.heldAtMs === null || !('atMs' in event)) return {};
        return { bath: { ...bath, heldMs: bath.heldMs + event.atMs - bath.heldAtMs, heldAtMs: null } };
      }),
      addTime: assign(({ context, event }) => {
        const { bath } = context;
        if (!bath || bath.aimS === null || event.type !== 'ADD') return {};
        const aimS = bath.aimS + event.seconds;
        const tenDueS = aimS - bath.leadS - 10;
        const called = bath.called.filter(
          (k) => k === 'rest' || (k === 'ten-seconds' && tenDueS <= event.elapsedS),
        );
        const agitated = Math.max(bath.agitated, multiplesUpTo(bath.agitation, event.elapsedS));
        return { bath: { ...bath, aimS, called, agitated }, pourNextMs: null };
      }),
      plan: assign(({ context, event }) => {
        const aim = context.bath && aimMs(context.bath);
        // without a lead there is no moment between the two calls
        if (!context.bath || aim === null || context.bath.leadS === 0) return { pourNextMs: null };
        const soonest = event.type === 'DRAIN' ? event.atMs + context.bath.leadS * 1000 : aim;
        return { pourNextMs: Math.min(aim, soonest) };
      }),
      tick: assign(({ context, event }) => {
        const { bath } = context;
        if (!bath || event.type !== 'DUE') return {};
        if (event.call === 'agitate') return { bath: { ...bath, agitated: bath.agitated + 1 } };
        if (event.call === 'rest' || event.call === 'ten-seconds' || event.call === 'overdue')
          return { bath: { ...bath, called: [...bath.called, event.call] } };
        return {};
      }),
      spill: assign(({ event }) => (event.type === 'SPILLED' ? { spill: event.spill } : {})),
      cleaned: assign({ spill: null }),
      challenge: assign(({ event }) => (event.type === 'CHALLENGE' ? { pending: event.pending } : {})),
      settle: assign({ pending: null }),
    },
  }).createMachine({
    id: 'run',
    type: 'parallel',
    context: { ...fresh, spill: null, pending: null },
    states: {
      run: {
        initial: 'idle',
        on: { CLOSE: '.closed' },
        states: {
          idle: { on: { BEGIN: { target: 'preparing', actions: 'reset' } } },
          preparing: { on: { NEXT: 'warming', LOADED: 'pouring' } },
          warming: { on: { NEXT: 'loading', LOADED: 'pouring' } },
          loading: { on: { LOADED: 'pouring' } },
          pouring: {
            on: {
              BATH_IN: { target: 'immersed', actions: 'fill' },
              SKIP: [
                { target: 'hanging', guard: 'hangsAfterSkip', actions: 'skip' },
                { target: 'pouring', actions: 'skip' },
              ],
              DUE: { actions: 'forgetPourNext' },
            },
          },
          immersed: {
            initial: 'running',
            on: {
              BATH_IN: { target: 'immersed', actions: 'fill', reenter: true },
              DRAIN: { target: 'draining', actions: ['resume', 'plan'] },
              EMPTY: [
                { target: 'rinsing', guard: 'needsRinse', actions: 'advance' },
                { target: 'hanging', guard: 'hangsNext', actions: 'advance' },
                { target: 'pouring', actions: 'advance' },
              ],
              ADD: { actions: 'addTime' },
            },
            states: {
              running: {
                on: {
                  HOLD: { target: 'held', actions: 'hold' },
                  DUE: [
                    {
                      target: '#run.run.draining',
                      guard: ({ event }) => event.call === 'drain',
                      actions: 'plan',
                    },
                    { actions: 'tick' },
                  ],
                },
              },
              held: { on: { RESUME: { target: 'running', actions: 'resume' } } },
            },
          },
          draining: {
            on: {
              EMPTY: [
                { target: 'rinsing', guard: 'needsRinse', actions: ['advance', 'forgetPourNext'] },
                { target: 'hanging', guard: 'hangsNext', actions: ['advance', 'forgetPourNext'] },
                { target: 'pouring', actions: 'advance' },
              ],
              BATH_IN: { target: 'immersed', actions: 'fill' },
              ADD: { target: 'immersed', actions: 'addTime' },
              DUE: [
                { guard: ({ event }) => event.call === 'pour-next', actions: 'forgetPourNext' },
                { actions: 'tick' },
              ],
            },
          },
          rinsing: {
            on: {
              RINSED: [{ target: 'hanging', guard: 'hangsNext' }, { target: 'pouring' }],
              BATH_IN: { target: 'immersed', actions: 'fill' },
            },
          },
          hanging: { on: { HUNG: 'closing', BATH_IN: { target: 'immersed', actions: 'fill' } } },
          closing: {},
          closed: { on: { BEGIN: { target: 'preparing', actions: 'reset' } } },
        },
      },
      spill: {
        initial: 'none',
        states: {
          none: { on: { SPILLED: { target: 'open', actions: 'spill' } } },
          open: { on: { SPILLED: { actions: 'spill' }, CLEANED: { target: 'none', actions: 'cleaned' } } },
        },
      },
      challenge: {
        initial: 'none',
        states: {
          none: { on: { CHALLENGE: { target: 'open', actions: 'challenge' } } },
          open: {
            on: { CHALLENGE: { actions: 'challenge' }, SETTLE: { target: 'none', actions: 'settle' } },
          },
        },
      },
    },
  });
}

export type RunMachine = ReturnType<typeof createRunMachine>;
export type RunValue = SnapshotFrom<RunMachine>['value'];

/** What is kept of the machine between events: plain JSON. */
export interface RunPosition {
  value: RunValue;
  context: RunContext;
}

export function startPosition(machine: RunMachine): RunPosition {
  return {
    value: { run: 'idle', spill: 'none', challenge: 'none' },
    context: machine.config.context as RunContext,
  };
}

/** One event; the same position comes back when the event means nothing here. */
export function step(machine: RunMachine, position: RunPosition, event: RunEvent): RunPosition {
  const before = machine.resolveState({ value: position.value, context: position.context });
  const [after] = transition(machine, before, event);
  return { value: after.value, context: after.context };
}

export type RunPlace =
  | 'idle'
  | 'preparing'
  | 'warming'
  | 'loading'
  | 'pouring'
  | 'immersed'
  | 'draining'
  | 'rinsing'
  | 'hanging'
  | 'closing'
  | 'closed';

export function placeOf({ value }: RunPosition): RunPlace {
  const run = value.run;
  return typeof run === 'string' ? (run as RunPlace) : 'immersed';
}
