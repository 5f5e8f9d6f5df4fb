import { describe, expect, it } from 'vitest';
import { inOneBreath } from '../../src/language/breath.js';

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
    const { told } = inOneBreath(start, 'normal', none);
    expect(told).toContain('Wear gloves and eye protection, and keep the room aired.');
    const warned = new Set(told);
    const again = inOneBreath(
      'Spill noted. Wear gloves and eye protection, and keep the room aired.',
      'brief',
      warned,
    );
    expect(again.said).toBe('Spill noted. Gloves, goggles, air.');
  });

  it('keeps a new caution that has no room for the next answer', () => {
    const long = inOneBreath(start, 'brief', none);
    expect(long.said).not.toContain('Wear gloves');
    expect(long.owed).toEqual(['Wear gloves and eye protection, and keep the room aired.']);
    const next = inOneBreath('Film loaded. Next: the prebath.', 'brief', none, long.owed);
    expect(next).toMatchObject({ said: `Film loaded. Next: the prebath. ${long.owed[0]}`, owed: [] });
  });

  it('says what to do now before what is known of it, and what to say next once', () => {
    const weigh =
      'Soda: burns skin and eyes badly. Caustic soda on ammonium salts gives off ammonia. Part 2 of 3. Weigh 1 gram of soda.';
    expect(inOneBreath(weigh, 'brief', none).said).toMatch(/Weigh 1 gram of soda\.$/);
    const stir = 'Right. Stir it in, and say dissolved when it is clear.';
    const { said, told } = inOneBreath(stir, 'brief', none);
    expect(said).toBe(stir);
    expect(inOneBreath(stir, 'brief', new Set(told)).said).toBe('Right. Stir it in.');
  });

  it('cuts a long list, and more has all of it', () => {
    const list = `Bring: ${Array.from({ length: 8 }, (_, i) => `bath ${i} to 38 degrees`).join(', ')}. Then say next.`;
    const { said, rest } = inOneBreath(list, 'brief', none);
    expect(words(said)).toBeLessThanOrEqual(20);
    expect(said).toMatch(/, and more\. Then say next\.$/);
    expect(rest).toContain('bath 7');
  });
});
