import { describe, expect, it } from 'vitest';
import { type Circumstances, TalkMeter, weigh } from '../../src/app/evidence.js';
import type { Intent } from '../../src/process/intent.js';

const said = (type: Intent['type'], change: Partial<Circumstances> = {}) =>
  weigh({
    intent: { type } as Intent,
    confidence: 0.9,
    words: 'words',
    overVoice: false,
    ownWords: '',
    sinceAskedMs: Number.POSITIVE_INFINITY,
    talk: false,
    called: false,
    ...change,
  });

const STEERING = [
  'next-step',
  'drain-now',
  'tank-empty',
  'bath-in',
  'begin-run',
  'close-run',
  'film-loaded',
  'undo',
  'override',
] as const;

describe('what is acted on', () => {
  it.each(STEERING)('%s: plainly said, yes; faintly, it is asked', (type) => {
    expect(said(type)).toBe('act');
    expect(said(type, { confidence: 0.55 })).toBe('ask');
  });

  it.each(STEERING)('%s: never while a radio talks', (type) => {
    expect(said(type, { talk: true, confidence: 1 })).toBe('ask');
  });

  it.each(STEERING)('%s: not when it may be its own words', (type) => {
    expect(said(type, { overVoice: true, words: 'ready', ownWords: 'Say so when you are ready.' })).not.toBe(
      'act',
    );
  });

  it('a question is answered on less, and in talk on more', () => {
    expect(said('ask-next', { confidence: 0.52 })).toBe('act');
    expect(said('ask-next', { confidence: 0.6, talk: true })).toBe('pass');
  });

  it('a yes counts only just after the assistant asked', () => {
    expect(said('confirm')).toBe('pass');
    expect(said('confirm', { sinceAskedMs: 2_000 })).toBe('act');
    expect(said('confirm', { sinceAskedMs: 60_000 })).toBe('pass');
    expect(said('confirm', { sinceAskedMs: 2_000, talk: true, words: 'yes' })).toBe('pass');
    expect(said('confirm', { sinceAskedMs: 2_000, talk: true, words: 'confirm' })).toBe('act');
  });

  it('quiet is heard over its voice and over a radio', () => {
    expect(said('quiet', { overVoice: true, talk: true, confidence: 0.5 })).toBe('act');
    expect(said('quiet', { talk: true, confidence: 0.6 })).toBe('pass');
  });

  it('with the call word or the key, anything', () => {
    expect(said('close-run', { called: true, talk: true, confidence: 0.5 })).toBe('act');
  });
});

it('talk goes on while much of the last half minute was no command', () => {
  const meter = new TalkMeter();
  meter.heard(0, 4_000);
  expect(meter.goesOn(4_000)).toBe(false);
  meter.heard(5_000, 9_000);
  expect(meter.goesOn(9_000)).toBe(true);
  expect(meter.goesOn(40_000)).toBe(false);
});
