import { describe, expect, it } from 'vitest';
import { opened, worthReading } from '../../src/app/openly.js';
import type { Interpretation } from '../../src/language/interpret.js';
import type { Hearing, OpenReading } from '../../src/language/types.js';
import type { Intent } from '../../src/process/intent.js';

const reading = (words: string, sure = 0.95, more: Partial<OpenReading> = {}): OpenReading => ({
  words,
  confidence: 0.9,
  score: -0.05,
  usual: -4.5,
  wordTimes: words.split(' ').map((word, i) => ({ word, startMs: i, endMs: i + 1, confidence: sure })),
  ...more,
});

const understood = (intent: Intent): Interpretation => ({
  kind: 'understood',
  intent,
  words: '',
  situation: 'anytime',
});
const none: Interpretation = { kind: 'nothing', why: '', near: [] };

const age: Intent = { type: 'ask-age', liquid: 'bleach' };
const asks = reading('how old is the bleach by now');

describe('what no grammar has', () => {
  it('is answered where it asks, and was heard well', () => {
    expect(opened([asks], [understood(age)])).toMatchObject({ ask: false });
  });

  it('is asked about where a word that tells one meaning from another was poorly heard', () => {
    expect(opened([reading(asks.words, 0.6)], [understood(age)])).toMatchObject({ ask: true });
  });

  it('is asked about where other readings mean something else', () => {
    const others = [reading('how cold is the bleach by now'), reading('how gold is the bleach by now')];
    const cold = understood({ type: 'ask-temperature', of: 'bleach' } as Intent);
    expect(opened([asks, ...others], [understood(age), cold, cold])).toMatchObject({ ask: true });
  });

  it.each<Intent>([
    { type: 'pour-in', liquid: 'bleach' },
    { type: 'next-step' },
    { type: 'tank-empty' },
    { type: 'close-run' },
    { type: 'remind', seconds: 60 },
    { type: 'temperature', of: 'developer', tempC: 41 },
  ])('is always asked about where it changes anything: %j', (intent) => {
    expect(opened([reading('well that is that then')], [understood(intent)])).toMatchObject({ ask: true });
  });

  it.each<Intent>([{ type: 'confirm' }, { type: 'cancel' }, { type: 'override' }, { type: 'pour-away' }])(
    'never becomes, and is never asked to be, %j',
    (intent) => {
      expect(opened([reading('of course it is')], [understood(intent)])).toBeNull();
      expect(
        opened([reading('of course it is')], [{ kind: 'unsure', candidates: [intent, age], words: '' }]),
      ).toBeNull();
    },
  );

  it('is let pass where it means nothing', () => {
    expect(opened([asks], [none])).toBeNull();
    expect(opened([], [])).toBeNull();
  });

  const heard = (...open: OpenReading[]): Hearing => ({
    ...{ accepted: false, best: null, alternatives: [], open },
    milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
  });

  it('is not worth understanding where it was poorly heard, is unusual or is short', () => {
    expect(worthReading(heard(asks))).toEqual([asks]);
    expect(worthReading(heard(reading(asks.words, 0.95, { score: -0.4 })))).toEqual([]);
    expect(worthReading(heard(reading(asks.words, 0.95, { usual: -8 })))).toEqual([]);
    expect(worthReading(heard(reading('of course')))).toEqual([]);
  });

  it('is worth understanding however poorly it was heard, where the grammar came to the same words and refused them', () => {
    const poor = reading('stop bath is in', 0.6, { score: -0.3 });
    const refused = (best: OpenReading): Hearing => ({ ...heard(poor), best });
    expect(worthReading(refused(poor))).toEqual([poor]);
    expect(worthReading(refused(reading('stop bath is ten')))).toEqual([]);
    expect(worthReading({ ...refused(poor), open: [{ ...poor, usual: -8 }] })).toEqual([]);
  });

  it('leaves out readings that are far less likely than the first', () => {
    const far = reading('how odd is the bleach', 0.95, { confidence: 0.05 });
    expect(worthReading(heard(asks, far))).toEqual([asks]);
  });
});
