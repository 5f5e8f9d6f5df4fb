import fc from 'fast-check';
import type { Heard } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';
import type { VesselRef } from '../../src/world/vessel.js';

/** Anything a user could say to the run desk, in any order, well or badly heard, with time in between. */
const liquid = fc.constantFrom('prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse', 'water');
const bottle = fc.integer({ min: 1, max: 8 });
const vessel: fc.Arbitrary<VesselRef> = fc.oneof(
  { weight: 5, arbitrary: bottle.map((number): VesselRef => ({ kind: 'bottle', number })) },
  fc.constantFrom<VesselRef>(
    { kind: 'jug' },
    { kind: 'tap' },
    { kind: 'tank' },
    { kind: 'sink' },
    { kind: 'tub' },
  ),
);
const maybe = <T>(key: string, value: fc.Arbitrary<T>) =>
  fc.option(value, { nil: undefined, freq: 4 }).map((v) => (v === undefined ? {} : { [key]: v }));
const said = (type: Intent['type'], ...parts: fc.Arbitrary<object>[]): fc.Arbitrary<Intent> =>
  fc.tuple(...parts).map((p) => Object.assign({ type }, ...p) as Intent);
const plain = (...types: Intent['type'][]): fc.Arbitrary<Intent> =>
  fc.constantFrom(...types).map((type) => ({ type }) as Intent);

export const anyPour = fc.oneof(
  said('pour-in', maybe('liquid', liquid), maybe('from', vessel)),
  said('pour-back', maybe('liquid', liquid), maybe('to', vessel)),
  said('pour-between', maybe('liquid', liquid), maybe('from', vessel), maybe('to', vessel)),
  said('pour-away', maybe('liquid', liquid), maybe('from', vessel)),
);

export const anyIntent: fc.Arbitrary<Intent> = fc.oneof(
  { weight: 8, arbitrary: anyPour },
  {
    weight: 6,
    arbitrary: said('bath-in', maybe('liquid', liquid), maybe('agoS', fc.integer({ min: 1, max: 120 }))),
  },
  {
    weight: 2,
    arbitrary: said('poured', maybe('liquid', liquid), maybe('from', vessel), maybe('to', vessel)),
  },
  {
    weight: 6,
    arbitrary: plain('tank-empty', 'next-step', 'drain-now', 'start-clock', 'hold-clock', 'resume-clock'),
  },
  { weight: 4, arbitrary: plain('confirm', 'cancel', 'withdraw', 'skip', 'stop', 'no-film') },
  { weight: 1, arbitrary: plain('override') },
  {
    weight: 2,
    arbitrary: plain('ask-where', 'ask-next', 'ask-time-left', 'ask-cautions', 'film-hung', 'spill-cleaned'),
  },
  { weight: 1, arbitrary: plain('begin-run', 'film-loaded', 'close-run') },
  said(
    'ask-time-until',
    liquid.map((l) => ({ liquid: l })),
  ),
  said('part', maybe('liquid', liquid), maybe('vessel', vessel)),
  said(
    'add-time',
    fc.integer({ min: -5, max: 300 }).map((seconds) => ({ seconds })),
  ),
  said(
    'bottle-holds',
    bottle.map((b) => ({ bottle: b })),
    liquid.map((l) => ({ liquid: l })),
    maybe('volumeMl', fc.integer({ min: 0, max: 1200 })),
  ),
  said('spill', maybe('liquid', liquid), maybe('volumeMl', fc.integer({ min: 1, max: 500 }))),
  said('note', maybe('text', fc.string())),
  said(
    'tank-takes',
    fc.integer({ min: 10, max: 900 }).map((volumeMl) => ({ volumeMl })),
  ),
);

export const anyHeard: fc.Arbitrary<Partial<Heard>> = fc.oneof(
  { weight: 4, arbitrary: fc.constant({}) },
  {
    weight: 1,
    arbitrary: fc.record({
      by: fc.constant('voice' as const),
      confidence: fc.double({ min: 0, max: 1, noNaN: true }),
      close: fc.array(fc.oneof(anyPour, plain('cancel', 'confirm', 'override')), { maxLength: 2 }),
    }),
  },
);

type Moment = [seconds: number, intent: Intent, heard: Partial<Heard>];
const anyMoment: fc.Arbitrary<Moment> = fc.tuple(fc.integer({ min: 0, max: 200 }), anyIntent, anyHeard);

const baths = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse'];
/** A bath handled as people do, in whatever order: asked for, poured, waited out, and poured back somewhere. */
const wholeBath: fc.Arbitrary<Moment[]> = fc
  .record({
    index: fc.nat(5),
    other: fc.integer({ min: 1, max: 6 }),
    right: fc.boolean(),
    insist: fc.constantFrom<Intent['type']>('confirm', 'override', 'cancel'),
    seconds: fc.integer({ min: 0, max: 240 }),
    wash: fc.boolean(),
  })
  .map(({ index, other, right, insist, seconds, wash }): Moment[] => {
    const id = baths[index] ?? 'prebath';
    const own: VesselRef = { kind: 'bottle', number: index + 1 };
    const to: VesselRef = right ? own : { kind: 'bottle', number: other };
    const steps: [number, Intent][] = [
      [1, { type: 'pour-in', liquid: id, from: own }],
      [1, { type: insist } as Intent],
      [5, { type: 'bath-in', liquid: id }],
      [seconds, { type: 'pour-back', liquid: id, to }],
      [1, { type: insist } as Intent],
      [10, { type: 'tank-empty' }],
      ...(wash
        ? ([
            [1, { type: 'bath-in', liquid: 'water' }],
            [30, { type: 'tank-empty' }],
          ] as [number, Intent][])
        : []),
    ];
    return steps.map(([wait, intent]) => [wait, intent, {}]);
  });

export const anyPath: fc.Arbitrary<Moment[]> = fc
  .array(fc.oneof({ weight: 3, arbitrary: anyMoment.map((m) => [m]) }, { weight: 1, arbitrary: wholeBath }), {
    minLength: 4,
    maxLength: 40,
    size: 'max',
  })
  .map((parts) => parts.flat());
