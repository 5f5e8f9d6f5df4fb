import { describe, expect, it } from 'vitest';
import {
  spokenDuration,
  spokenTemp,
  spokenVolume,
} from '../../src/language/languages/english/phrases/units.js';

describe('quantities as spoken', () => {
  it.each([
    [0, '0 seconds'],
    [1, '1 second'],
    [130, '2 minutes 10 seconds'],
    [180, '3 minutes'],
    [3900, '1 hour 5 minutes'],
  ])('%i s is "%s"', (s, words) => expect(spokenDuration(s)).toBe(words));
  it('says temperatures with one decimal', () => expect(spokenTemp(38)).toBe('38.0 degrees'));
  it.each([
    [600, '600 millilitres'],
    [1500, '1.5 litres'],
    [1000, '1 litre'],
  ])('%i ml is "%s"', (ml, words) => expect(spokenVolume(ml)).toBe(words));
});
