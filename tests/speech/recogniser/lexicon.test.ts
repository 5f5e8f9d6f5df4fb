import { dictionary as imported } from 'cmu-pronouncing-dictionary';
import { describe, expect, test } from 'vitest';
import { Tokens } from '../../../src/speech/recogniser/acoustics/tokens.js';
import { dictionary } from '../../../src/speech/recogniser/lexicon/dictionary.js';
import { lexiconFor, pronunciations } from '../../../src/speech/recogniser/lexicon/lexicon.js';
import { lexiconFiles } from './support.js';

const say = pronunciations(lexiconFiles);
const plain = (word: string): string[] => say(word).map((p) => p.replace(/\d/g, ''));

describe('dictionary', () => {
  test('its compact form answers as the package itself', () => {
    const words = Object.keys(imported);
    expect(dictionary().size).toBe(words.length);
    for (let i = 0; i < words.length; i += 97) {
      const word = words[i] ?? '';
      expect(dictionary().find(word)[0]).toBe(imported[word]);
    }
  });

  test('lists every pronunciation and knows what it lacks', () => {
    expect(dictionary().find('a')).toEqual(['AH0', 'EY1']);
    expect(dictionary().find('qqqq')).toEqual([]);
    // without the remark behind it
    expect(dictionary().find('fine')).toEqual(['F AY1 N', 'F IH1 N AH0']);
  });
});

describe('lexicon', () => {
  test('knows the words of the trade', () => {
    expect(plain('ferricyanide')).toContain('F EH R IH S AY AH N AY D');
    expect(plain('thiosulphate')).toEqual(plain('thiosulfate'));
    for (const word of ['metabisulphite', 'prebath', 'millilitres', 'stabiliser', 'hydroquinone', 'rem-jet'])
      expect(plain(word).length).toBeGreaterThan(0);
  });

  test('keeps British and American ways side by side', () => {
    expect(plain('bath')).toEqual(expect.arrayContaining(['B AE TH', 'B AA TH']));
    expect(plain('wash')).toEqual(expect.arrayContaining(['W AA SH', 'W AO SH']));
  });

  test('finds words through spelling, ending, parts and letters', () => {
    expect(plain('neutralise')).toEqual(plain('neutralize'));
    expect(plain('graduates')[0]).toMatch(/ S$/);
    expect(plain('bleachtank-two')[0]).toBe('B L IY CH T AE NG K T UW');
    expect(plain('xqz').length).toBe(1);
    expect(plain('dslr')[0]).toBe('D IY EH S EH L AA R');
  });

  test('says new names by letter-to-sound rules', () => {
    expect(plain('brindle')).toEqual(['B R IH N D AH L']);
    expect(plain('stimber')).toEqual(['S T IH M B ER']);
  });

  test('refuses what cannot be spoken, in one sentence', () => {
    for (const word of ['41', '###', '', 'a1', '水'])
      expect(() => say(word)).toThrow(/cannot be spoken: expected letters a to z/);
  });

  test('takes stress from models that tell it apart, and drops it for those that do not', () => {
    const withStress = lexiconFor(new Tokens(['_', 'F', 'IH0', 'IH1', 'T', 'IY0', 'IY1', 'N']), lexiconFiles);
    const [teen] = withStress.pronounce('fifteen');
    const [ty] = withStress.pronounce('fifty');
    expect(teen).toEqual([1, 2, 1, 4, 6, 7]);
    expect(ty).toEqual([1, 3, 1, 4, 5]);
    const without = lexiconFor(new Tokens(['_', 'F', 'IH', 'T', 'IY', 'N']), lexiconFiles);
    expect(without.pronounce('fifty')[0]).toEqual([1, 2, 1, 3, 4]);
  });

  test('a phone the model lacks is named', () => {
    expect(() => lexiconFor(new Tokens(['_', 'F']), lexiconFiles).pronounce('fifty')).toThrow(/no phone "IH/);
  });
});
