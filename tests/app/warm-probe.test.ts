import { Readable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import {
  createProbe,
  type ProbeProblem,
  type ProbeReading,
  parseProbeLine,
  probeTarget,
  probeWords,
  readProbe,
} from '../../src/app/probe.js';
import { liquids } from '../../src/world/liquids.js';

function probe(everyMs = 60_000) {
  const readings: ProbeReading[] = [];
  const problems: ProbeProblem[] = [];
  const p = createProbe({
    target: (name) => probeTarget(name, liquids),
    onReading: (r) => readings.push(r),
    onProblem: (x) => problems.push(x),
    everyMs,
  });
  return { p, readings, problems };
}

describe('lines of a probe', () => {
  it.each([
    ['fixer 36.4', { name: 'fixer', tempC: 36.4 }],
    ['Bottle 3: 37,8 C', { name: 'bottle 3', tempC: 37.8 }],
    ['bottle_3 37.8', { name: 'bottle 3', tempC: 37.8 }],
    ['tub=41.3', { name: 'tub', tempC: 41.3 }],
    ['cold tap -1', { name: 'cold tap', tempC: -1 }],
    ['tub 106 F', { name: 'tub', tempC: 41.1 }],
    ['room\t21', { name: 'room', tempC: 21 }],
  ])('%s', (line, want) => {
    const got = parseProbeLine(line);
    expect(got?.name).toBe(want.name);
    expect(got?.tempC).toBeCloseTo(want.tempC, 1);
  });
  it.each(['', 'fixer', '36.4', 'fixer 36.4.1', 'fixer nan', '{"t":3}'])('not a reading: %o', (line) => {
    expect(parseProbeLine(line)).toBeNull();
  });
  it('names a vessel, a bottle, the room or a liquid', () => {
    expect(probeTarget('bottle 3', liquids)).toEqual({ kind: 'bottle', number: 3 });
    expect(probeTarget('tub', liquids)).toEqual({ kind: 'tub' });
    expect(probeTarget('room', liquids)).toBe('room');
    expect(probeTarget('final rinse', liquids)).toBe('final-rinse');
    expect(probeTarget('kettle', liquids)).toBeNull();
  });
});

describe('a probe over time', () => {
  it('gives its first value at once, then the median of each minute', () => {
    const { p, readings } = probe();
    for (let s = 0; s <= 120; s += 10) p.line(`fixer ${s === 60 ? 34 : 30 + s / 100}`, s * 1000);
    expect(readings).toHaveLength(3);
    expect(readings[0]).toEqual({ name: 'fixer', of: 'fixer', tempC: 30, atMs: 0 });
    expect(readings[1]?.tempC).toBeCloseTo(30.35, 1);
  });
  it('notices a vanished probe once, and its return', () => {
    const { p, problems } = probe();
    p.line('tub 41', 0);
    p.line('tub 41', 1000);
    p.tick(20_000);
    expect(problems).toEqual([]);
    p.tick(32_000);
    p.tick(60_000);
    expect(problems).toEqual([{ why: 'vanished', name: 'tub', silentS: 31, atMs: 32_000 }]);
    p.line('tub 41', 70_000);
    expect(problems.at(-1)?.why).toBe('back');
  });
  it('leaves a slow probe its own pace, and misses it after three lines', () => {
    const { p, problems } = probe();
    for (let s = 0; s <= 3600; s += 5) {
      if (s % 60 === 0) p.line('tub 41', s * 1000);
      p.tick(s * 1000);
    }
    expect(problems).toEqual([]);
    p.tick(3_779_000);
    expect(problems).toEqual([]);
    p.tick(3_780_000);
    expect(problems.map((x) => x.why)).toEqual(['vanished']);
  });
  it('notices an absurd probe once per fault, and takes none of it', () => {
    const { p, problems, readings } = probe(1000);
    for (let s = 0; s < 5; s++) p.line('fixer -127', s * 1000);
    p.line('fixer 85', 6000);
    expect(problems.map((x) => x.why)).toEqual(['absurd']);
    expect(readings).toEqual([]);
    p.line('fixer 36', 8000);
    expect(readings.map((r) => r.tempC)).toEqual([36]);
    p.line('fixer 410', 9000);
    expect(problems.map((x) => x.why)).toEqual(['absurd', 'absurd']);
  });
  it('asks when a probe jumps', () => {
    const { p, problems } = probe();
    p.line('fixer 36', 0);
    p.line('fixer 22', 5000);
    expect(problems).toEqual([{ why: 'jumped', name: 'fixer', fromC: 36, toC: 22, atMs: 5000 }]);
  });
  it('says what is wrong and what is expected, and an unknown name once', () => {
    const { p, problems } = probe();
    p.line('garbage', 0);
    p.line('kettle 90', 0);
    p.line('kettle 91', 1);
    p.line('# a comment', 1);
    expect(problems.map(probeWords)).toEqual([
      'The probe sent "garbage". I expect a name and a temperature, such as: fixer 36.4.',
      'I do not know the probe "kettle". Name it after a bath, a bottle, the tub or the room.',
    ]);
  });
  it('reads a stream to its end', async () => {
    const readings: ProbeReading[] = [];
    const problems: ProbeProblem[] = [];
    const source = readProbe(Readable.from(['fixer 36.4\r\ntub 41', '.2\n', 'room 20\n']), {
      target: (name) => probeTarget(name, liquids),
      onReading: (r) => readings.push(r),
      onProblem: (x) => problems.push(x),
      now: () => 5,
    });
    await source.done;
    expect(readings.map((r) => [r.name, r.tempC])).toEqual([
      ['fixer', 36.4],
      ['tub', 41.2],
      ['room', 20],
    ]);
    expect(problems).toEqual([{ why: 'ended', atMs: 5 }]);
  });
});
