import { describe, expect, it } from 'vitest';
import { inOneBreath, namesNewCaution } from '../../src/language/breath.js';

const none = new Set<string>();
const words = (t: string) => t.split(/\s+/).filter(Boolean).length;
const start =
  'Run started: ECN-2. Wear gloves and eye protection, and keep the room aired. The developer at 41.1 degrees comes later. Get the bottles ready, then say next step.';

describe('one breath', () => {
  it('says whole sentences up to twenty words, keeps what to say next, and leaves the rest for more', () => {
    const { said, rest } = inOneBreath(start, 'brief', none);
    expect(words(said)).toBeLessThanOrEqual(20);
    expect(said).toMatch(/^Run started: ECN-2\./);
    expect(said).toMatch(/say next step\.$/);
    expect(rest).toContain('41.1 degrees');
  });

  it('says everything in full, and a short text as it is', () => {
    expect(inOneBreath(start, 'full', none)).toMatchObject({ said: start, rest: '' });
    expect(inOneBreath('Rest.', 'brief', none)).toMatchObject({ said: 'Rest.', rest: '' });
  });

  it('says a caution once in full and then in three words', () => {
    const { cautions } = inOneBreath(start, 'normal', none);
    expect(cautions).toEqual(['Wear gloves and eye protection, and keep the room aired.']);
    const warned = new Set(cautions);
    expect(namesNewCaution(start, none)).toBe(true);
    expect(namesNewCaution(start, warned)).toBe(false);
    const again = inOneBreath(
      'Spill noted. Wear gloves and eye protection, and keep the room aired.',
      'brief',
      warned,
    );
    expect(again.said).toBe('Spill noted. Gloves, goggles, air.');
  });
});
