import { describe, expect, it } from 'vitest';
import { checkSheet, parseSheet } from '../../src/process/sheet.js';
import { sheets } from '../../src/process/sheets/index.js';
import { BenchUser, bottle, ids } from './bench-user.js';

const copy = () =>
  JSON.parse(JSON.stringify(sheets[0])) as { steps: Record<string, unknown>[] } & Record<string, unknown>;

describe('process sheets', () => {
  it.each(sheets.map((s) => [s.id, s] as const))('%s passes its own check, also as JSON', (_, sheet) => {
    expect(parseSheet(JSON.stringify(sheet))).toEqual({ ok: true, sheet });
  });

  it.each<[string, (sheet: ReturnType<typeof copy>) => void, string]>([
    [
      'a word for a number',
      (s) => Object.assign(s.steps[2]?.time as object, { aimS: 'three' }),
      'Step 3 (developer), time.aimS: expected seconds, a number from 1 to 7200, got "three".',
    ],
    [
      'a tolerance the wrong way round',
      (s) => Object.assign(s.steps[2]?.temp as object, { minC: 42 }),
      'Step 3 (developer), temp: expected minC ≤ aimC ≤ maxC.',
    ],
    [
      'a missing source',
      (s) => {
        Reflect.deleteProperty(s.steps[5]?.time as object, 'source');
      },
      'Step 6 (bleach), time.source: expected where the number comes from, in words, but it is missing.',
    ],
    [
      'a misspelt field',
      (s) => Object.assign(s.steps[0] ?? {}, { agitaton: 1 }),
      'Step 1 (prebath): "agitaton" is not a field I know. Remove it or check its spelling.',
    ],
    [
      'an unknown liquid',
      (s) => Object.assign(s.steps[0] ?? {}, { liquid: 'lemonade' }),
      '"lemonade" is not a known liquid',
    ],
    [
      'a step used twice',
      (s) => Object.assign(s.steps[3] ?? {}, { id: 'prebath' }),
      '"prebath" is used twice',
    ],
    ['hanging in the middle', (s) => s.steps.push(s.steps[0] as never), 'hanging must be the last step'],
    [
      'a drain longer than the bath',
      (s) => Object.assign(s.steps[3] ?? {}, { drain: { leadS: 40, source: 'common practice' } }),
      'Step 4 (stop bath): expected a drain lead shorter than the time in the bath.',
    ],
    [
      'a developer step that pours water',
      (s) => Object.assign(s.steps[2] ?? {}, { liquid: 'water' }),
      'Step 3 (developer), liquid: the step "developer" pours water, whose role is water; expected a liquid whose role is developer, or another name for the step.',
    ],
    [
      'a wash in the fixer',
      (s) => Object.assign(s.steps[4] ?? {}, { liquid: 'fixer' }),
      'a wash pours fixer, whose role is fixer; expected a liquid whose role is water or rinse',
    ],
    [
      'a developer of its own that is water to the guard',
      (s) =>
        Object.assign(s, {
          liquids: [
            {
              ...{ id: 'my-developer', name: 'my developer', spoken: ['mine'], role: 'water' },
              plausibleC: { minC: 10, maxC: 50 },
            },
          ],
        }),
      '"my developer" is a developer by its name, and its role here is water; expected the role developer, or another name',
    ],
    [
      'no steps',
      (s) => {
        s.steps = [];
      },
      'The field steps: expected at least one step',
    ],
  ])('%s gets a clear sentence', (_, spoil, sentence) => {
    const sheet = copy();
    spoil(sheet);
    const result = checkSheet(sheet);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems.join('\n')).toContain(sentence);
  });

  it('text that is no JSON, and JSON that is no sheet', () => {
    expect(parseSheet('{"id": ')).toMatchObject({ ok: false });
    for (const text of ['{"id": ', '[]', 'null', '3', '""']) {
      const result = parseSheet(text);
      if (result.ok) throw new Error('expected a problem');
      for (const p of result.problems) expect(p).toMatch(/^(The|Step|Check).*\.$/);
    }
  });

  it("a user's own sheet with its own liquid can be run", () => {
    const own = copy();
    Object.assign(own, {
      id: 'my-sheet',
      name: 'my sheet',
      spoken: [],
      liquids: [
        {
          id: 'second-bleach',
          name: 'second bleach',
          spoken: ['second bleach'],
          role: 'bleach',
          plausibleC: { minC: 10, maxC: 50 },
        },
      ],
    });
    Object.assign(own.steps[5] ?? {}, { liquid: 'second-bleach' });
    const result = checkSheet(own);
    if (!result.ok) throw new Error(result.problems.join('\n'));
    const user = new BenchUser({ sheets: [result.sheet] }).ready();
    const said = user.say({ type: 'pour-in', liquid: 'second-bleach', from: bottle(4) });
    expect(said[0]?.message).toMatchObject({ id: 'ruinous', reason: 'bleach-kills-latent' });
    expect(ids(user.say({ type: 'pour-in', liquid: 'bleach', from: bottle(4) }))).toEqual(['ask']);
  });
});
