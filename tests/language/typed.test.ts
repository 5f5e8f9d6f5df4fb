import { describe, expect, it } from 'vitest';
import { normaliseTyped } from '../../src/language/languages/english/typed.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import type { Situation } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();
const typed = (line: string, situation: Situation = 'pouring') => interpretTyped(line, [situation], grammars);

describe('a typed line in the words of the grammars', () => {
  it.each([
    ['Fixer is 36.4°C!', 'fixer is thirty six point four degrees c'],
    ['FIXER AT 38 ° C', 'fixer at thirty eight degrees c'],
    ['fixer at 38c', 'fixer at thirty eight degrees c'],
    ['fixer at 100.4°F', 'fixer at one hundred point four degrees fahrenheit'],
    ['fixer at 38 deg', 'fixer at thirty eight degrees'],
    ['600ml', 'six hundred milliliters'],
    ['600 mL', 'six hundred milliliters'],
    ['600 Millilitres', 'six hundred milliliters'],
    ['1,500 ml', 'one point five liters'],
    ['1.5 L', 'one point five liters'],
    ['2.01g', 'two point zero one grams'],
    ['2.01 grammes', 'two point zero one grams'],
    ['bottle 3', 'bottle three'],
    ['bottle #3', 'bottle three'],
    ['#3', 'bottle three'],
    ['bottle no. 3', 'bottle three'],
    ['bottle3', 'bottle three'],
    ['pre-bath', 'pre bath'],
    ['rem-jet / remjet remover', 'rem jet rem jet remover'],
    ['stabiliser', 'stabilizer'],
    [
      'sodium sulphite, sodium metabisulphite; sodium thiosulphate',
      'sodium sulfite sodium metabisulfite sodium thiosulfate',
    ],
    ['colour developer', 'color developer'],
    ['CD-3 CD3 cd 3', 'c d three c d three c d three'],
    ['pH 10.2', 'p h ten point two'],
    ['add 2:30', 'add two minutes and thirty seconds'],
    ['add 90s', 'add ninety seconds'],
    ['add 120 secs', 'add two minutes'],
    ['add 2 mins', 'add two minutes'],
    ['What’s left?', "what's left"],
    ['whats left', "what's left"],
    ['-3', 'minus three'],
    ['Tankside, how long left?', 'tank side how long left'],
    ['ok', 'yes'],
    ['Y', 'yes'],
    ['n', 'no'],
    ['12345 ml', 'twelve point three four five liters'],
    ['bottle 12345', 'bottle 12345'],
    ['only half litre', 'only half a liter'],
    ['a half litre batch', 'half a liter batch'],
    ['the full litre', 'one liter'],
    ['a third of a litre', 'zero point three three three liters'],
    ['three quarters of a litre', 'zero point seven five liters'],
    ['two and a quarter litres', 'two point two five liters'],
    ['another quarter minute', 'another fifteen seconds'],
    ['three and three quarter minutes', 'three minutes and forty five seconds'],
    ['two and a half minutes', 'two and a half minutes'],
    ['twenty five and three fifths', 'twenty five point six'],
    ['nine and seven tenths', 'nine point seven'],
    ['three quarters of an hour', 'forty five minutes'],
    ['an hour and a quarter', 'seventy five minutes'],
    ['half an hour', 'half an hour'],
    ['a dozen rolls', 'twelve rolls'],
    ['two dozen', 'twenty four'],
    ['hundred grams', 'one hundred grams'],
    ['a couple of hundred mil', 'two hundred mil'],
    ['a few hundred', 'a few hundred'],
    ['one thousand and twenty mil', 'one point zero two liters'],
    ['bottle one, thirty seconds', 'bottle one thirty seconds'],
    ['one gram twenty of bromide', 'one point two zero grams of bromide'],
    ["a hundred and five, that's fahrenheit mind", 'one hundred and five degrees fahrenheit'],
    ['into the third bottle', 'into bottle three'],
    ['from the first bottle', 'from bottle one'],
    ['the first bottle of the evening', 'the first bottle of the evening'],
    ['a second bottle', 'a second bottle'],
    ['', ''],
    ['¿¡…', ''],
  ])('%s', (line, words) => {
    expect(normaliseTyped(line)).toBe(words);
  });
});

describe('what is typed is understood', () => {
  it.each<[string, Intent]>([
    ['fixer 36.4', { type: 'temperature', of: 'fixer', tempC: 36.4 }],
    [
      'Pouring bleach in from the bottle #3, please',
      { type: 'pour-in', liquid: 'bleach', from: { kind: 'bottle', number: 3 } },
    ],
    ["bleach's in", { type: 'bath-in', liquid: 'bleach' }],
    ['spilled 20 ml bleach on the table', { type: 'spill', volumeMl: 20, liquid: 'bleach', place: 'table' }],
    ['what is in bottle 3?', { type: 'ask-bottle', bottle: 3 }],
    ['temp of fixer', { type: 'ask-temperature', of: 'fixer' }],
    ['call bottle 2 "Old Faithful"', { type: 'bottle-named', bottle: 2, name: '"Old Faithful"' }],
    ['note: second reel was stiff, 40 °C!', { type: 'note', text: 'second reel was stiff, 40 °C!' }],
    ['take a note that the lid leaks', { type: 'note', text: 'the lid leaks' }],
    ['note', { type: 'note' }],
    ['mix 600 ml of ecn2-bleach', { type: 'mix-start', recipe: 'ecn2-bleach', volumeMl: 600 }],
    ['mix developer 600ml', { type: 'mix-start', recipe: 'ecn2-developer', volumeMl: 600 }],
    ['how long left in the developer', { type: 'ask-time-left' }],
    ['the tank takes 1 litre', { type: 'tank-takes', volumeMl: 1000 }],
    ['mix 1200 ml of developer', { type: 'mix-start', recipe: 'ecn2-developer', volumeMl: 1200 }],
    ['add ten seconds, no, make it twelve', { type: 'add-time', seconds: 12 }],
    [
      'mix 1200 ml of developer. Sorry, half a litre',
      { type: 'mix-start', recipe: 'ecn2-developer', volumeMl: 500 },
    ],
    ['fixer is 36.4, no wait, 37', { type: 'temperature', of: 'fixer', tempC: 37 }],
    ['the fixer has gone cold, 33.5 now', { type: 'temperature', of: 'fixer', tempC: 33.5 }],
    ['spilled 20 ml of bleach, no, thirty really', { type: 'spill', volumeMl: 30, liquid: 'bleach' }],
  ])('%s', (line, intent) => {
    const result = typed(line);
    expect(result).toMatchObject({ kind: 'understood', intent });
  });
});

describe('typing slips', () => {
  it.each<[string, Intent]>([
    ['how lomg left', { type: 'ask-time-left' }],
    ['hwo long left', { type: 'ask-time-left' }],
    ['is the develpoer ready', { type: 'ask-ready', liquid: 'developer' }],
    ['is the fxier ready', { type: 'ask-ready', liquid: 'fixer' }],
    ['how warm is the bleech', { type: 'ask-temperature', of: 'bleach' }],
    ['whcih bottle is the fullest', { type: 'ask-fullest' }],
    ['spiled 20 ml of bleach', { type: 'spill', volumeMl: 20, liquid: 'bleach' }],
    ['louder pleese', { type: 'louder' }],
  ])('%s is mended', (line, intent) => {
    const result = typed(line);
    expect(result).toMatchObject({ kind: 'understood', intent });
    if (result.kind === 'understood') expect(result.mended?.length).toBeGreaterThan(0);
  });

  it.each<[string, Intent[]]>([
    // a pour, an answer and a number are never mended without asking
    ['puring the bleach in', [{ type: 'pour-in', liquid: 'bleach' }]],
    ['pouring the beach in', [{ type: 'pour-in', liquid: 'bleach' }]],
    ['yess', [{ type: 'confirm' }]],
    ['what is in bottle thre', [{ type: 'ask-bottle', bottle: 3 }]],
  ])('%s is asked about', (line, candidates) => {
    expect(typed(line, 'challenged')).toMatchObject({ kind: 'unsure', candidates });
  });

  it('never offers the override for a yes', () => {
    for (const line of ['override the gaurd and pour anyway', 'override the guard and pour anyway?'])
      expect(typed(line, 'challenged')).toMatchObject({
        kind: 'nothing',
        why: expect.stringContaining('the words are'),
      });
  });

  it('takes a report beside a sentence of nothing, but not where it is somebody else who said it', () => {
    expect(typed("Tank's empty. That took the whole of a song.", 'draining')).toMatchObject({
      kind: 'understood',
      intent: { type: 'tank-empty' },
    });
    expect(typed("Tank's empty. That is what he said.", 'draining').kind).toBe('nothing');
  });

  it('asks when a slip could be two words', () => {
    // one letter from "hot" and from "how"
    const result = typed('hox warm is the bleach');
    expect(result.kind === 'understood' ? result.intent.type : result.kind).toBe('ask-temperature');
    const two = typed('add ten minutex');
    expect(two).toMatchObject({ kind: 'understood', intent: { type: 'add-time', seconds: 600 } });
    // "tub" and "tap" are both one letter off, and only one of them makes a sentence
    expect(typed('how warm is the tup')).toMatchObject({
      kind: 'understood',
      intent: { of: { kind: 'tub' } },
    });
    expect(typed('the tub is in the tup', 'warming').kind).not.toBe('nothing');
  });

  it('never turns one known word into another', () => {
    for (const line of [
      'pouring the bleach in from bottle tree',
      'no way',
      'yes no',
      'fix the tap',
      'bottle four five',
    ]) {
      const result = typed(line);
      expect(
        result.kind === 'understood' && result.mended === undefined,
        `${line}: ${JSON.stringify(result)}`,
      ).toBe(false);
    }
  });
});
