import { describe, expect, it } from 'vitest';
import { writtenLines } from '../../src/language/languages/english/numbers.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();

describe('numbers as people of both habits write them', () => {
  it.each([
    ['1000 g', ['1000 g']],
    ['1,000 g', ['1000 g']],
    ['20,000 ml', ['20 litres']],
    ['9,999 ml', ['9999 ml', '9.999 ml']],
    ['10 000 g', ['10 kg']],
    ['10000 grams of borax', ['10 kg of borax']],
    ['12.500 g', ['12.500 g', '12.5 kg']],
    ['1 000,5 g', ['1000.5 g']],
    ['1.250,5 ml', ['1251 ml']],
    ['ten thousand grams', ['ten thousand grams']],
    ['nine thousand grams', ['nine thousand grams']],
    ['0,5 l', ['0.5 l']],
    ['1,234,567', ['1234567']],
    ['1.234.567', ['1234567']],
    ['1,234.5 g', ['1234.5 g']],
    ['1.234,5 g', ['1234.5 g']],
    ["1'000 g", ['1000 g']],
    ['1\u202f000 g', ['1000 g']],
    ['1\u00a0000,5 g', ['1000.5 g']],
    ['mix 1 000 ml of developer', ['mix 1000 ml of developer']],
    ['2,5 g', ['2.5 g']],
    ['41,12', ['41.12']],
    ['0,500 g', ['0.500 g']],
    ['0.500 g', ['0.500 g']],
    ['2.013 g', ['2.013 g']],
    ['2,013 g', ['2013 g', '2.013 g']],
    ['1.000 ml', ['1.000 ml', '1000 ml']],
    ['1.500 l', ['1.500 l']],
    ['1,500 l', ['1.500 l']],
    ['41,500 degrees', ['41.500 degrees']],
    ['1,0000 g', ['1.0000 g']],
    // a number that names a thing is not the front of another, and a list is a list
    ['bottle 2 500 ml', ['bottle 2 500 ml']],
    ['bottles 1 and 2 500 ml', ['bottles 1 and 2 500 ml']],
    ['20, 30 and 40', ['20, 30 and 40']],
    ['at 1.2.2026', ['at 1.2.2026']],
    ['it is 41.1.', ['it is 41.1.']],
  ])('%s', (line, lines) => {
    expect(writtenLines(line)).toEqual(lines);
  });

  it('asks where the two habits differ, and takes no more than a few doubts in a line', () => {
    expect(interpretTyped('2,013 g', ['mixing'], grammars)).toMatchObject({
      kind: 'unsure',
      candidates: [
        { type: 'reading', value: 2013, unit: 'g' },
        { type: 'reading', value: 2.013, unit: 'g' },
      ],
    });
    expect(writtenLines('2,013 '.repeat(40)).length).toBeLessThanOrEqual(4);
  });

  it.each([
    ['spilled ten thousand milliliters of bleach', 10_000],
    ['spilled twelve and a half thousand mils of bleach', 12_500],
    ['spilled twenty five thousand five hundred mils of bleach', 25_500],
    ['spilled twelve and a half liters of bleach', 12_500],
    ['spilled 5,5 ml of bleach', 5.5],
    ['spilled 10 000 ml of bleach', 10_000],
  ])('%s', (line, volumeMl) => {
    expect(interpretTyped(line, ['anytime'], grammars)).toMatchObject({
      kind: 'understood',
      intent: { type: 'spill', volumeMl },
    });
  });

  it.each([
    ['i bought ten thousand grams of borax', 10_000],
    ['i bought twelve and a half thousand grams of borax', 12_500],
    ['i bought ten and a half grams of borax', 10.5],
    ['i bought two and a half kilos of borax', 2500],
  ])('%s', (line, massG) => {
    expect(interpretTyped(line, ['anytime'], grammars)).toMatchObject({
      kind: 'understood',
      intent: { type: 'shelf-add', massG },
    });
  });

  it('reads thousands as thousands', () => {
    expect(interpretTyped('1,000 g', ['mixing'], grammars)).toMatchObject({
      kind: 'understood',
      intent: { type: 'reading', value: 1000, unit: 'g' },
    });
    expect(interpretTyped('spilled 20,000 ml of bleach', ['anytime'], grammars)).toMatchObject({
      kind: 'understood',
      intent: { type: 'spill', volumeMl: 20_000 },
    });
  });
});
