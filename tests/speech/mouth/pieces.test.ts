import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lastPause, pieces } from '../../../src/speech/mouth/pieces.js';

describe('a text in pieces', () => {
  it('begins with the first sentence alone, and takes short ones after it together', () => {
    expect(pieces('Drain now. Back to bottle 2. Next: the stop bath.')).toEqual([
      'Drain now.',
      'Back to bottle 2. Next: the stop bath.',
    ]);
  });

  it('cuts a long first sentence at a comma, so that its sound is there soon, and no other', () => {
    const temperatures =
      'Bring to temperature: prebath 27.0 degrees, developer 41.1 degrees, stop bath 38.0 degrees.';
    expect(pieces(temperatures)).toEqual(['Bring to temperature:', temperatures.slice(22)]);
    expect(pieces(`Yes. ${temperatures}`)).toEqual(['Yes.', temperatures]);
    expect(pieces('Developer 41.1, read just now.')).toEqual(['Developer 41.1, read just now.']);
  });
  it('parts a long sentence at a comma, and leaves decimals whole', () => {
    const long = `Bring to temperature: ${'developer 41.1 degrees, '.repeat(12)}and wait.`;
    for (const piece of pieces(long)) expect(piece).toMatch(/(,|:|wait\.)$/);
  });

  it('loses no word, and makes no piece too long for an engine', () => {
    const word = fc.stringMatching(/^[a-z0-9]{1,12}[.,;:!?]?$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 300 }), (words) => {
        const made = pieces(words.join(' '));
        expect(made.join(' ')).toBe(words.join(' '));
        for (const piece of made) expect(piece.length).toBeLessThanOrEqual(160);
      }),
    );
  });
});

it('goes on at the last pause before the cut, and never before the last second and a half', () => {
  const pcm = new Float32Array(64_000).fill(0.5).fill(0, 30_000, 31_000);
  expect(lastPause(pcm, 16_000, 2.5)).toBeCloseTo(31_000 / 16_000, 1);
  expect(lastPause(pcm, 16_000, 4)).toBeCloseTo(2.5);
  expect(lastPause(pcm, 16_000, 0)).toBe(0);
});
