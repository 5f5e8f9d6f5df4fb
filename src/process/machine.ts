import { assign, type SnapshotFrom, setup, transition } from 'xstate';
import type { Exposure, Person } from '../chemistry/safety/first-aid.js';
import type { World } from '../world/records.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import { dueOf } from './due.js';
import type { ReasonId } from './guard-table.js';
import type { Pending } from './pending.js';
import type { ProcessSheet } from './sheet.js';

export interface Spill {
  liquid: LiquidId | null;
  volumeMl: number | null;
  place: string | null;
}

/** A pour that was cleared and is about to happen. */
export type Announced = {
  liquid: LiquidId;
  overridden: boolean;
  clearedMs: number;
  /** what already spoke against it then, and was accepted */
  against: ReasonId[];
  /** so much of it, where that was said, ml */
  volumeMl?: number;
} & ({ kind: 'in'; from: VesselRef } | { kind: 'out'; to: VesselRef });

/** What the run itself remembers; what is true at the sink it reads from the world. */
export interface RunContext {
  /** every call due up to here has been made, ms on the bench clock */
  calledMs: number;
  /** added to the time of the bath in the tank, s */
  addedS: number;
  /** when the liquid began to leave, or was called to, ms; null: not yet */
  drainMs: number | null;
  announced: Announced | null;
  pending: Pending | null;
  spill: Spill | null;
  /** others that were told of before it and are not cleaned up either */
  otherSpills?: Spill[];
  /** how somebody was hurt, the last of it last, until that is over */
  hurt?: Exposure[];
  /** and who; null: nobody said */
  whose?: Whose;
}
type Whose = Partial<Record<Exposure, readonly (Person | null)[]>>;
const withWho = (known: Whose[Exposure] = [], who?: Person): Whose[Exposure] =>
  who === undefined ? (known.length > 0 ? known : [null]) : [...new Set([...known, who])].filter(Boolean);

/** `pour-next`: the next bath may go in. `in-asked`, `empty-asked`: a word that is missing is asked for. */
export type CallKey =
  | 'agitate'
  | 'rest'
  | 'ten-seconds'
  | 'drain'
  | 'pour-next'
  | 'overdue'
  | 'get-out'
  | 'in-asked'
  | 'empty-asked';

export type RunEvent =
  | { type: 'BEGIN'; atMs: number }
  | { type: 'NEXT' }
  | { type: 'LOADED' }
  | { type: 'FILLED'; atMs: number }
  | { type: 'ADD'; seconds: number }
  /** the liquid begins to leave */
  | { type: 'DRAIN'; atMs: number }
  /** the tank is empty, or a rinse or a left-out step is behind the film */
  | { type: 'FILM_MOVED_ON'; world: World }
  | { type: 'UNLOADED' }
  | { type: 'HUNG' }
  | { type: 'CLOSE' }
  | { type: 'CALLED'; calls: readonly CallKey[]; atMs: number }
  /** `beside`: another one than the one that is open */
  | { type: 'SPILLED'; spill: Spill; beside?: true }
  | { type: 'CLEANED' }
  | { type: 'HURT'; how: Exposure; who?: Person }
  /** of these hurts alone; else of all: those of whoever speaks, or all others; else of everybody */
  | { type: 'HEALED'; of?: readonly Exposure[]; who?: Person }
  | { type: 'CLEARED'; announced: Announced }
  | { type: 'WITHDRAWN' }
  | { type: 'CHALLENGE'; pending: Pending }
  | { type: 'SETTLE' };

const clockFrom = (atMs: number): Omit<RunContext, 'spill'> => ({
  calledMs: atMs,
  addedS: 0,
  drainMs: null,
  announced: null,
  pending: null,
});

/**
 * The run as a statechart of three parallel regions: the run itself, the pour in hand, an open spill. It has no
 * timers: deadlines are computed (timing.ts) and come back as CALLED. Its guards read the world.
 */
export function createRunMachine(sheet: ProcessSheet) {
  return setup({
    types: { context: {} as RunContext, events: {} as RunEvent },
    guards: {
      filmIsThrough: ({ event }) =>
        event.type === 'FILM_MOVED_ON' && dueOf(event.world.film, sheet).step?.kind === 'hang',
      filmIsOut: ({ event }) => event.type === 'FILM_MOVED_ON' && !event.world.film.loaded,
      drainCalled: ({ event }) => event.type === 'CALLED' && event.calls.includes('drain'),
      stillCleared: ({ context }) => context.announced !== null,
      othersSpilled: ({ context }) => (context.otherSpills?.length ?? 0) > 0,
    },
    actions: {
      startClock: assign(({ event }) => ('atMs' in event ? clockFrom(event.atMs) : {})),
      called: assign(({ event }) => (event.type === 'CALLED' ? { calledMs: event.atMs } : {})),
      addTime: assign(({ context, event }) =>
        event.type === 'ADD' ? { addedS: context.addedS + event.seconds, drainMs: null } : {},
      ),
      drain: assign(({ event }) => ('atMs' in event ? { drainMs: event.atMs } : {})),
      emptied: assign(({ context }) => ({
        drainMs: null,
        announced: context.announced?.kind === 'out' ? null : context.announced,
      })),
      clear: assign(({ event }) =>
        event.type === 'CLEARED' ? { announced: event.announced, pending: null } : {},
      ),
      withdraw: assign({ announced: null, pending: null }),
      challenge: assign(({ event }) => (event.type === 'CHALLENGE' ? { pending: event.pending } : {})),
      settle: assign({ pending: null }),
      spill: assign(({ event }) => (event.type === 'SPILLED' ? { spill: event.spill } : {})),
      setAside: assign(({ context, event }) =>
        event.type === 'SPILLED' && event.beside && context.spill
          ? { otherSpills: [...(context.otherSpills ?? []), context.spill] }
          : {},
      ),
      cleaned: assign(({ context: { otherSpills = [] } }) => ({
        spill: otherSpills.at(-1) ?? null,
        otherSpills: otherSpills.slice(0, -1),
      })),
      hurt: assign(({ context, event }) =>
        event.type === 'HURT'
          ? {
              hurt: [...(context.hurt ?? []).filter((how) => how !== event.how), event.how],
              whose: { ...context.whose, [event.how]: withWho(context.whose?.[event.how], event.who) },
            }
          : {},
      ),
      healed: assign(({ context: { hurt = [], whose = {} }, event }) => {
        const { of, who } = event.type === 'HEALED' ? event : {};
        const left = hurt.map((how): [Exposure, Whose[Exposure]] => [
          how,
          of && !of.includes(how)
            ? whose[how]
            : (whose[how] ?? [null]).filter((one) => who && (one === 'speaker') !== (who === 'speaker')),
        ]);
        const open = left.filter(([, who]) => who?.length !== 0);
        return { hurt: open.map(([how]) => how), whose: Object.fromEntries(open) };
      }),
    },
  }).createMachine({
    id: 'run',
    type: 'parallel',
    context: { ...clockFrom(0), spill: null },
    on: { HURT: { actions: 'hurt' }, HEALED: { actions: 'healed' } },
    states: {
      run: {
        initial: 'idle',
        states: {
          idle: { on: { BEGIN: { target: 'underWay', actions: 'startClock' } } },
          underWay: {
            initial: 'preparing',
            on: { CLOSE: 'closed' },
            states: {
              preparing: { on: { NEXT: 'warming', LOADED: 'processing' } },
              warming: { on: { NEXT: 'loading', LOADED: 'processing' } },
              loading: { on: { LOADED: 'processing' } },
              processing: {
                initial: 'dry',
                on: { HUNG: 'cleaning' },
                states: {
                  dry: {
                    on: {
                      UNLOADED: '#run.run.underWay.loading',
                      FILLED: { target: 'wet', actions: 'startClock' },
                      FILM_MOVED_ON: { target: 'through', guard: 'filmIsThrough' },
                      CALLED: { actions: 'called' },
                    },
                  },
                  wet: {
                    initial: 'working',
                    on: {
                      FILLED: { target: 'wet', actions: 'startClock', reenter: true },
                      FILM_MOVED_ON: [
                        { target: '#run.run.underWay.loading', guard: 'filmIsOut', actions: 'emptied' },
                        { target: 'through', guard: 'filmIsThrough', actions: 'emptied' },
                        { target: 'dry', actions: 'emptied' },
                      ],
                      ADD: { target: '.working', actions: 'addTime' },
                    },
                    states: {
                      working: {
                        on: {
                          DRAIN: { target: 'draining', actions: 'drain' },
                          CALLED: [
                            { target: 'draining', guard: 'drainCalled', actions: ['called', 'drain'] },
                            { actions: 'called' },
                          ],
                        },
                      },
                      draining: { on: { CALLED: { actions: 'called' } } },
                    },
                  },
                  /** every bath is behind the film: it hangs next */
                  through: { on: { FILLED: { target: 'wet', actions: 'startClock' } } },
                },
              },
              cleaning: {},
            },
          },
          closed: { on: { BEGIN: { target: 'underWay', actions: 'startClock' } } },
        },
      },
      pour: {
        initial: 'none',
        on: {
          CLEARED: { target: '.cleared', actions: 'clear' },
          CHALLENGE: { target: '.questioned', actions: 'challenge' },
          WITHDRAWN: { target: '.none', actions: 'withdraw' },
          FILLED: '.none',
          BEGIN: '.none',
        },
        states: {
          none: {},
          cleared: {},
          questioned: {
            on: {
              SETTLE: [
                { target: 'cleared', guard: 'stillCleared', actions: 'settle' },
                { target: 'none', actions: 'settle' },
              ],
            },
          },
        },
      },
      spill: {
        initial: 'none',
        states: {
          none: { on: { SPILLED: { target: 'open', actions: 'spill' } } },
          open: {
            on: {
              SPILLED: { actions: ['setAside', 'spill'] },
              CLEANED: [
                { guard: 'othersSpilled', actions: 'cleaned' },
                { target: 'none', actions: 'cleaned' },
              ],
            },
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

export const startPosition = (machine: RunMachine): RunPosition => ({
  value: { run: 'idle', pour: 'none', spill: 'none' },
  context: machine.config.context as RunContext,
});

/** One event; the same position comes back when the event means nothing here. */
export function step(machine: RunMachine, position: RunPosition, event: RunEvent): RunPosition {
  const before = machine.resolveState({ value: position.value, context: position.context });
  const [after] = transition(machine, before, event);
  return { value: after.value, context: after.context };
}

/** Where the user is, in one word. */
export type RunPlace =
  | 'idle'
  | 'preparing'
  | 'warming'
  | 'loading'
  /** a bath is due: waiting for liquid to go in */
  | 'pouring'
  /** liquid is in the tank and its clock runs */
  | 'immersed'
  /** time is up: liquid is leaving the tank */
  | 'draining'
  | 'hanging'
  | 'closing'
  | 'closed';

const places: Readonly<Record<string, RunPlace>> = {
  idle: 'idle',
  'underWay.preparing': 'preparing',
  'underWay.warming': 'warming',
  'underWay.loading': 'loading',
  'underWay.processing.dry': 'pouring',
  'underWay.processing.wet.working': 'immersed',
  'underWay.processing.wet.draining': 'draining',
  'underWay.processing.through': 'hanging',
  'underWay.cleaning': 'closing',
  closed: 'closed',
};

const pathOf = (value: unknown): string =>
  typeof value === 'string'
    ? value
    : Object.entries(value as Record<string, unknown>)
        .map(([key, inner]) => `${key}.${pathOf(inner)}`)
        .join();

export function placeOf({ value }: RunPosition): RunPlace {
  const path = pathOf((value as Record<string, unknown>).run);
  const place = places[path];
  if (!place) throw new Error(`expected a state of the run, got ${path}`);
  return place;
}
