import { describe, expect, it } from 'vitest';
import { dueOf } from '../../src/process/due.js';
import { placeOf } from '../../src/process/machine.js';
import { bottledLiquids, roleOf } from '../../src/process/sheet.js';
import { sheets } from '../../src/process/sheets/index.js';
import { stageOf } from '../../src/world/film.js';
import { BenchUser, bottle, ids } from './bench-user.js';

describe.each(sheets.map((s) => [s.id, s] as const))('a whole run by %s', (id, sheet) => {
  it('goes from the first bottle to the hung film with nothing to warn of', () => {
    const user = new BenchUser();
    user.say({ type: 'begin-run', sheet: id });
    user.say({ type: 'next-step' });
    user.say({ type: 'next-step' });
    user.say({ type: 'film-loaded' });
    const numbers = new Map(bottledLiquids(sheet).map((l, i) => [l, i + 1]));
    for (const step of sheet.steps) {
      if (step.liquid === null) continue;
      const number = numbers.get(step.liquid);
      if (number !== undefined) {
        const said = user.say({ type: 'pour-in', liquid: step.liquid, from: bottle(number) });
        expect(ids(said), step.id).toEqual(['clear']);
      }
      expect(ids(user.say({ type: 'bath-in', liquid: step.liquid })), step.id).toEqual(['bath-in']);
      if (step.time) {
        const said = user.wait(step.time.aimS);
        expect(ids(said), step.id).toContain('drain');
      } else {
        user.wait(45);
        expect(ids(user.say({ type: 'drain-now' }))).toEqual(['drain']);
      }
      if (number !== undefined && step.returnsToBottle) {
        const said = user.say({ type: 'pour-back', liquid: step.liquid, to: bottle(number) });
        expect(
          said.map((s) => s.message),
          step.id,
        ).toMatchObject([
          { id: 'clear', checks: { filter: step.filter, portions: { count: 2, eachMl: 250 } } },
        ]);
      }
      user.say({ type: 'tank-empty' });
      if (step.rinseAfter) expect(ids(user.say({ type: 'next-step' }))).toEqual(['now']);
    }
    expect(stageOf(user.world.film)).toBe('finished');
    expect(user.world.film.backing).toBe('off');
    expect(ids(user.say({ type: 'film-hung' }))).toEqual(['film-hung']);
    expect(ids(user.say({ type: 'close-run' }))).toEqual(['run-closed']);

    expect(user.facts('run-finished')).toMatchObject([{ complete: true }]);
    const timed = sheet.steps.filter((s) => s.liquid !== null).map((s) => s.id);
    expect(user.facts('step-started').map((f) => f.stepId)).toEqual(timed);
    expect(user.facts('step-ended').map((f) => f.stepId)).toEqual(timed);
    expect(user.facts('deviation')).toEqual([]);
    expect(user.facts('overridden')).toEqual([]);
    // every bottle has its bath back
    for (const [liquid, number] of numbers)
      expect(user.world.bottles[number]).toMatchObject({ liquid, contents: { volumeMl: 600 } });
    for (const step of sheet.steps)
      if (step.liquid !== null) expect(roleOf(sheet, step.liquid)).toBeDefined();
  });

  it('"next step" alone walks through as well, saying each time what to do', () => {
    const user = new BenchUser();
    user.say({ type: 'begin-run', sheet: id });
    const seen: string[] = [];
    for (let i = 0; i < 120 && user.facts('run-finished').length === 0; i++) {
      const now = user.say({ type: 'next-step' }).at(-1)?.message;
      seen.push(now?.id ?? '');
      if (now?.id === 'now' && now.now.do === 'load') user.say({ type: 'film-loaded' });
      // a bath that is due: pour it, and stay the time the sheet says
      const due = dueOf(user.world.film, sheet).step;
      if (placeOf(user.state.position) === 'pouring' && due?.fills === null) {
        user.say({ type: 'bath-in' });
        user.wait(due.time?.aimS ?? 45);
      }
    }
    expect(user.facts('run-finished')).toMatchObject([{ complete: true }]);
    expect(user.facts('deviation')).toEqual([]);
    expect(new Set(seen)).toEqual(
      new Set([
        'now',
        'tank-is-empty',
        'film-hung',
        'run-closed',
        ...(seen.includes('drain') ? ['drain'] : []),
      ]),
    );
  });
});
