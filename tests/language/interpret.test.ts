import { describe, expect, it } from 'vitest';
import { intentKey, interpretHeard, teenTyIntents } from '../../src/language/interpret.js';
import { describeIntent } from '../../src/language/languages/english/describe.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { commandRecords } from '../../src/language/records.js';
import type { Situation } from '../../src/process/desk.js';
import { INTENT_TYPES } from '../../src/process/intent.js';
import { loadOwnGrammars } from './grammar-files.js';
import { SAID } from './said.js';

const grammars = loadOwnGrammars();

describe('what people say', () => {
  it.each(SAID)('in %s: %j', (situation, sentences, intent) => {
    for (const words of sentences) {
      const heard = interpretHeard(words, [situation], grammars);
      expect(heard, words).toMatchObject({ kind: 'understood', words });
      if (heard.kind === 'understood') expect(heard.intent, words).toEqual(intent);
      // a typed line means the same, and a call word before it changes nothing
      expect(interpretTyped(`Hey tankside, ${words}.`, [situation], grammars)).toMatchObject({
        kind: 'understood',
        intent,
      });
    }
  });

  it('the table above, or the examples of its command, cover every intent', () => {
    const exemplary = new Set(
      commandRecords(grammars).flatMap((r) => (r.examples.length > 0 ? [r.intent] : [])),
    );
    expect(
      INTENT_TYPES.filter((t) => !exemplary.has(t) && !SAID.some(([, , intent]) => intent.type === t)),
    ).toEqual([]);
  });

  it('every intent has a phrase to read it back', () => {
    const phrases = SAID.map(([, , intent]) => describeIntent(intent));
    for (const p of phrases) expect(p).not.toMatch(/undefined|NaN|\[object|^$| {2}/);
    expect(describeIntent({ type: 'pour-in', liquid: 'bleach', from: { kind: 'bottle', number: 3 } })).toBe(
      'pour the bleach in from bottle 3',
    );
    expect(describeIntent({ type: 'temperature', of: 'fixer', tempC: 36.4 })).toBe(
      'the fixer is at 36.4 degrees',
    );
  });
});

describe('situations', () => {
  it('a present situation goes before anytime', () => {
    expect(interpretHeard("what's next", ['mixing'], grammars)).toMatchObject({
      intent: { type: 'mix-next' },
    });
    expect(interpretHeard("what's next", ['immersed'], grammars)).toMatchObject({
      intent: { type: 'ask-next' },
    });
  });

  it('two meanings of equal standing are unsure', () => {
    const both = interpretHeard('twenty milliliters', ['spill', 'mixing'], grammars);
    expect(both).toMatchObject({ kind: 'unsure' });
    if (both.kind === 'unsure') expect(both.candidates.map((c) => c.type)).toEqual(['spill', 'reading']);
  });

  it('film in the process goes before a mix, a mix before a run that has not begun', () => {
    const meant = (words: string, ...situations: Situation[]) => {
      const r = interpretHeard(words, situations, grammars);
      return r.kind === 'understood' ? r.intent.type : r.kind;
    };
    expect(meant('pouring the fixer into bottle four', 'draining', 'mixing', 'warming')).toBe('pour-back');
    expect(meant('next', 'pouring', 'mixing')).toBe('next-step');
    expect(meant("what's next", 'immersed', 'mixing')).toBe('ask-next');
    expect(meant('next', 'preparing', 'mixing', 'warming')).toBe('mix-next');
    expect(meant("what's next", 'preparing', 'mixing', 'warming')).toBe('mix-next');
  });

  it('a typed sentence of another situation is understood and marked; a heard one is not', () => {
    const typed = interpretTyped('add 15 seconds', ['preparing'], grammars);
    expect(typed).toMatchObject({
      kind: 'understood',
      outOfPlace: true,
      intent: { type: 'add-time', seconds: 15 },
    });
    expect(interpretHeard('add fifteen seconds', ['preparing'], grammars).kind).toBe('nothing');
  });

  it('override needs its whole sentence', () => {
    for (const words of [
      'override',
      'yes override',
      'pour anyway',
      'override the guard',
      'go ahead',
      'yes pour it anyway',
    ]) {
      const result = interpretTyped(words, ['challenged'], grammars);
      expect(result.kind === 'understood' && result.intent.type === 'override', words).toBe(false);
    }
  });
});

describe('what cannot be understood', () => {
  it('says why, with sentences that are near', () => {
    const r = interpretTyped("hasn't dissolved", ['mixing'], grammars);
    expect(r).toMatchObject({ kind: 'nothing' });
    if (r.kind === 'nothing') expect(r.near.length).toBeGreaterThan(0);
    expect(interpretTyped('frobnicate', ['immersed'], grammars)).toMatchObject({
      kind: 'nothing',
      why: expect.stringContaining('"frobnicate"'),
    });
    expect(interpretHeard('', ['immersed'], grammars)).toMatchObject({ kind: 'nothing', near: [] });
  });
});

describe('-teen and -ty', () => {
  const twins = (words: string) => teenTyIntents(words, ['immersed', 'mixing'], grammars);

  it('names the other reading where there is one', () => {
    expect(twins('add fifteen seconds')).toEqual([{ type: 'add-time', seconds: 50 }]);
    expect(twins('add fifty seconds')).toEqual([{ type: 'add-time', seconds: 15 }]);
    expect(twins('spilled thirteen mils of fixer')).toEqual([
      { type: 'spill', volumeMl: 30, liquid: 'fixer' },
    ]);
    expect(twins('fixer is forty point five')).toEqual([{ type: 'temperature', of: 'fixer', tempC: 14.5 }]);
  });

  it('knows none where the other reading cannot be said', () => {
    expect(twins('add fifty five seconds')).toEqual([]);
    expect(twins('add twenty seconds')).toEqual([]);
  });
});

it('intents are the same whatever the order of their fields', () => {
  expect(intentKey({ type: 'spill', volumeMl: 5, liquid: 'stop' })).toBe(
    intentKey({ liquid: 'stop', type: 'spill', volumeMl: 5 }),
  );
});
