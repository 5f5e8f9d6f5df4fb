import { describe, expect, it } from 'vitest';
import { inOneBreath } from '../../src/language/breath.js';
import { englishAloud } from '../../src/language/languages/english/aloud.js';

const { shorter } = englishAloud;

import { talkingDay } from '../app/talking-day.js';

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
    expect(next).toMatchObject({ said: `Next: prebath. ${long.owed[0]}`, owed: [] });
  });

  it('knows a caution by what it is about: other words of it are three words, a new danger is in full', () => {
    const mix = 'Gloves and goggles on. Open a window. The safety data sheet and your local rules decide.';
    const known = new Set(inOneBreath(`Fixer. ${mix}`, 'brief', none).told);
    const run = inOneBreath(start, 'brief', known);
    expect(run.said).toMatch(/Gloves, goggles, air\.$/);
    expect(run.owed).toEqual([]);
    const acid = 'Keep acid away from ferricyanide, sulphite and metabisulphite.';
    expect(inOneBreath(`Bleach. ${acid}`, 'brief', known).said).toBe(`Bleach. ${acid}`);
    const sulphite = inOneBreath(
      'Fixer. Acid on sulphite or metabisulphite gives off sulphur dioxide.',
      'brief',
      known,
    );
    const more = inOneBreath(`Bleach. ${acid}`, 'brief', new Set([...known, ...sulphite.told]));
    expect(more.said).toBe(`Bleach. ${acid}`);
    expect(inOneBreath(`Bleach. ${acid}`, 'brief', new Set(more.told)).said).toBe('Bleach. No acid near.');
  });

  it('says with the acid that it goes into the water', () => {
    const measure =
      '7 normal sulphuric acid: burns skin and eyes severely, and eats metal. Measure 50 millilitres of 7 normal sulphuric acid. Part 1 of 1, within 1.7 millilitres. Pour the acid slowly into the water, never water into acid.';
    expect(inOneBreath(measure, 'brief', none).said).toMatch(
      /Measure 50 millilitres\. Acid slowly into the water/,
    );
  });

  it('says what to do now before what is known of it, and what to say next once', () => {
    const weigh =
      'Soda: burns skin and eyes badly. Caustic soda on ammonium salts gives off ammonia. Part 2 of 3. Weigh 1 gram of soda.';
    expect(inOneBreath(weigh, 'brief', none).said).toMatch(/Weigh 1 gram\.$/);
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

  it('shortens only what is really said, and "more" still has it', async () => {
    const texts = (await talkingDay()).map((r) => r.text);
    const told = new Set<string>();
    const used = new Set<number>();
    for (const text of texts) {
      for (const heard of [false, true]) {
        let short = text;
        shorter.forEach(({ said, instead, once }, i) => {
          const then = short.replace(said, instead);
          if (then !== short) used.add(i);
          if (heard || once === undefined) short = then;
        });
      }
      const breath = inOneBreath(text, 'brief', told);
      for (const t of breath.told) told.add(t);
      expect(words(breath.said)).toBeLessThanOrEqual(20);
      // no number is lost between what is said and what more says
      for (const number of text.match(/\d+(?:\.\d+)?/g) ?? [])
        expect(`${breath.said} ${breath.rest}`).toContain(number);
    }
    expect(shorter.filter((_, i) => !used.has(i)).map((s) => s.said.source)).toEqual([]);
  });

  it('says in a few words what was heard in full today', () => {
    const told = new Set<string>();
    const aloud = (text: string): string => {
      const breath = inOneBreath(text, 'brief', told);
      for (const t of breath.told) told.add(t);
      return breath.said;
    };
    const drain = (n: number) => `Drain the bath now. Back to bottle ${n}, through the filter. Next: water.`;
    expect(aloud(drain(1))).toBe('Drain the bath now. Back to bottle 1, through the filter.');
    expect(aloud(drain(2))).toBe('Drain the bath. Bottle 2.');
    expect(aloud('Agitate: 2 inversions.')).toBe('Agitate: 2 inversions.');
    expect(aloud('Agitate: 2 inversions.')).toBe('Agitate.');
    // another number is news
    expect(aloud('Agitate: 4 inversions.')).toBe('Agitate: 4 inversions.');
    const acid = 'Soda: burns skin. Weigh 1.00 gram of soda.';
    expect(aloud(acid)).toBe('Soda: burns skin. Weigh 1 gram.');
    expect(aloud(acid)).toBe('Weigh 1 gram of soda.');
    expect(aloud('No. The bleach ruins it. Do not pour.')).toBe('No. The bleach ruins it. Do not pour.');
    const skip = 'Wait. Without it there is no picture. Say confirm to skip it.';
    expect(aloud(skip)).toBe(skip);
  });
});
