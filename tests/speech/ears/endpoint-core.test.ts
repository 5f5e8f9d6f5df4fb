import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EndpointCore, type EndpointDecision } from '../../../src/speech/ears/endpoint-core.js';
import { FRAME_MS } from '../../../src/speech/ears/frames.js';
import { NoiseFloor } from '../../../src/speech/ears/noise-floor.js';

const QUIET: [number, number | null] = [-60, 0.02];
const SPEECH: [number, number | null] = [-25, 0.95];
const times = (count: number, frame: [number, number | null]) => Array.from({ length: count }, () => frame);

function run(core: EndpointCore, frames: [number, number | null][], hasModel = true): EndpointDecision[] {
  return frames.flatMap(([db, speech]) => core.push(db, speech, hasModel));
}

describe('one utterance', () => {
  it('begins with its pre-roll and ends after the long hang-over', () => {
    const decisions = run(new EndpointCore(), [
      ...times(30, QUIET),
      ...times(20, SPEECH),
      ...times(40, QUIET),
    ]);
    expect(decisions.map((d) => d.type)).toEqual(['start', 'lull', 'pause', 'pause', 'end']);
    expect(decisions[0]).toEqual({ type: 'start', fromFrame: 20 });
    expect(decisions[4]).toMatchObject({ fromFrame: 20, toFrame: 69, speechEndFrame: 49, reason: 'silence' });
  });

  it('ends at once after the short hang-over when it is complete', () => {
    const core = new EndpointCore();
    run(core, [...times(30, QUIET), ...times(20, SPEECH)]);
    const pause = run(core, times(7, QUIET));
    expect(pause.map((d) => d.type)).toEqual(['lull', 'pause']);
    expect(core.complete()).toMatchObject({ reason: 'complete', speechEndFrame: 49, toFrame: 56 });
    expect(run(core, times(60, QUIET))).toEqual([]);
  });

  it('goes on through a pause within it, and asks anew after each', () => {
    const words = [...times(10, SPEECH), ...times(10, QUIET)];
    const decisions = run(new EndpointCore(), [...times(30, QUIET), ...words, ...words, ...times(20, QUIET)]);
    expect(decisions.map((d) => d.type)).toEqual(['start', 'lull', 'pause', 'lull', 'pause', 'pause', 'end']);
  });

  it('is cut at its greatest length, as the radio never pauses', () => {
    const decisions = run(new EndpointCore({ maxMs: 1000 }), [...times(30, QUIET), ...times(90, SPEECH)]);
    const ends = decisions.filter((d) => d.type === 'end');
    expect(ends.map((d) => d.reason)).toEqual(['too-long', 'too-long', 'too-long']);
    const starts = decisions.filter((d) => d.type === 'start');
    expect(starts[1]?.fromFrame).toBeGreaterThan(ends[0]?.toFrame ?? 0);
  });

  it('ends when the source or the key closes it, and begins when the key opens it', () => {
    const core = new EndpointCore();
    run(core, times(30, QUIET));
    expect(core.close()).toBeNull();
    expect(core.force()).toMatchObject({ type: 'start' });
    expect(core.force()).toBeNull();
    run(core, times(5, QUIET));
    expect(core.close()).toMatchObject({ reason: 'closed' });
  });
});

describe('what is no speech', () => {
  it('clicks and drops', () => {
    const click: [number, number | null][] = [
      ...times(1, [-10, 0.9]),
      ...times(12, QUIET),
      ...times(2, [-15, 0.7]),
    ];
    const frames = Array.from({ length: 10 }, () => [...click, ...times(15, QUIET)]).flat();
    expect(run(new EndpointCore(), frames)).toEqual([]);
  });

  it('a tap or a pump switched on, whether the model knows it or is not there', () => {
    const tap = [...times(60, QUIET), ...times(300, [-30, 0.1])] as [number, number | null][];
    expect(run(new EndpointCore(), tap)).toEqual([]);
    const core = new EndpointCore();
    const byLevel = run(core, tap, false);
    expect(byLevel.filter((d) => d.type === 'start').length).toBeLessThanOrEqual(1);
    expect(run(core, times(200, [-30, null]), false)).toEqual([]);
  });

  it('is not worth the model: a steady room is asked about only at first', () => {
    const core = new EndpointCore();
    let asked = 0;
    for (let i = 0; i < 1000; i++) {
      const db = -58 + Math.sin(i * 1.7);
      const asks = core.wantsModel(db);
      if (asks) asked++;
      core.push(db, asks ? 0.02 : null);
    }
    expect(asked).toBeLessThan(100);
  });
});

it('speech over the tap is heard as soon as the model hears it', () => {
  const over: [number, number | null] = [-27, 0.9];
  const core = new EndpointCore();
  const frames: [number, number | null][] = [
    ...times(60, QUIET),
    ...times(100, [-30, 0.1]),
    ...times(15, over),
  ];
  expect(run(core, frames).map((d) => d.type)).toEqual(['start']);
  expect(core.floor.db).toBeGreaterThan(-35);
});

it('the floor falls back when the tap is closed', () => {
  const floor = new NoiseFloor();
  for (let i = 0; i < 200; i++) floor.update(-30, 0.1);
  expect(floor.db).toBeGreaterThan(-32);
  for (let i = 0; i < 30; i++) floor.update(-60, null);
  expect(floor.db).toBeLessThan(-57);
});

it('whatever comes, utterances are in order, never overlap and are never longer than the greatest length', () => {
  const frame = fc.tuple(
    fc.double({ min: -95, max: 0, noNaN: true }),
    fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
  );
  const burst = fc.tuple(frame, fc.integer({ min: 1, max: 40 })).map(([f, n]) => times(n, f));
  fc.assert(
    fc.property(fc.array(burst, { maxLength: 40 }), (bursts) => {
      const decisions = run(new EndpointCore({ maxMs: 2000 }), bursts.flat());
      let last = -1;
      for (const d of decisions.filter((x) => x.type === 'end')) {
        expect(d.fromFrame).toBeGreaterThan(last);
        expect(d.toFrame).toBeGreaterThanOrEqual(d.speechEndFrame);
        expect((d.toFrame - d.fromFrame) * FRAME_MS).toBeLessThanOrEqual(2000 + FRAME_MS);
        last = d.toFrame;
      }
    }),
    { numRuns: 60 },
  );
});
