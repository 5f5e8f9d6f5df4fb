import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { rankerFile } from '../../src/app/paths.js';
import { featuresOf, PRIOR, rankerOf } from '../../src/language/open/ranker.js';
import { INTENT_TYPES, type Intent } from '../../src/process/intent.js';

const line = { words: 'it was bottle 4', asks: 'no', clauses: 1, place: 'immersed' } as const;
const spill = { evidence: { whole: -1 }, intent: { type: 'spill', volumeMl: 40 } } as const;
const bath = { evidence: { whole: -1 }, intent: { type: 'bath-in' } } as const;

it('names what speaks for a meaning so that a person can read it', () => {
  expect(featuresOf({ ...spill, outOfPlace: true, rank: 2 }, line)).toEqual([
    ['whole', -1],
    ['deed asked no', 1],
    ['deed of 1', 1],
    ['out of place', 1],
    ['second', 1],
    ['is spill', 1],
    ['is spill asked no', 1],
    ['is spill at immersed', 1],
    ['is spill with volumeMl', 1],
    ...['it', 'was', 'bottle', '4'].map((word) => [`is spill said ${word}`, 1]),
  ]);
});

it('counts once what speaks for two facts of a line', () => {
  const two: Intent = { type: 'several', intents: [spill.intent, { type: 'spill', place: 'floor' }] };
  const names = featuresOf({ evidence: {}, intent: two }, line).map(([name]) => name);
  expect(names.filter((name) => name === 'is spill')).toHaveLength(1);
  expect(names).toContain('is spill with place');
});

it('prefers what its weights speak for, and nobody where they know nothing of it', () => {
  const by = (weights: Record<string, number>) => rankerOf(weights)([{ evidence: {} }, spill, bath], line);
  expect(by({})).toEqual([0, 0, 0]);
  expect(by({ whole: 2, 'is bath-in said bottle': 1 })).toEqual([0, -2, -1]);
  expect(by({ 'is nothing at immersed': 3, 'is spill with volumeMl': 4 })).toEqual([3, 4, 0]);
});

it('has learnt of evidence and meanings that there are', () => {
  const weights = JSON.parse(readFileSync(rankerFile, 'utf8')) as Record<string, number>;
  expect(Object.keys(weights)).toEqual(expect.arrayContaining(Object.keys(PRIOR)));
  const named = Object.keys(weights).flatMap((name) => /^is ([\w-]+)/.exec(name)?.[1] ?? []);
  const known = new Set<string>([...INTENT_TYPES, 'nothing', 'several']);
  expect(named.filter((type) => !known.has(type))).toEqual([]);
});
