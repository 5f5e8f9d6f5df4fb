import { dictionary } from 'cmu-pronouncing-dictionary';
import { describe, expect, it } from 'vitest';
import { lastTime } from '../../src/app/desks/bottle-answers.js';
import {
  type BottleDeskConfig,
  type BottlesState,
  createBottleDesk,
} from '../../src/app/desks/bottle-desk.js';
import { bottlesPhrase } from '../../src/language/languages/english/phrases/bottles.js';
import type { Heard } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';
import type { Fact } from '../../src/world/fact.js';
import { truthOf } from '../process/truth.js';

const DAY = 86_400_000;
const START = Date.UTC(2026, 4, 4, 10);
const phonesOf = (word: string): string[] | undefined =>
  (dictionary as Record<string, string | undefined>)[word]?.replace(/\d/g, '').split(' ');

/** A desk with facts told and questions asked; answers come as spoken text. `before`: what was true before that. */
function bench(config: BottleDeskConfig = {}, before: readonly Fact[] = []) {
  const desk = createBottleDesk({ liquidName: (id) => (id === 'stop' ? 'stop bath' : id), ...config });
  const truth = truthOf(undefined, before);
  let state: BottlesState = desk.initial;
  let wallMs = START;
  const facts: Fact[] = [];
  return {
    get state() {
      return state;
    },
    get world() {
      return truth.world;
    },
    facts,
    situations: () => desk.situations(state),
    after(days: number) {
      wallMs += days * DAY;
    },
    told(...told: Fact[]) {
      for (const fact of told) {
        truth.at({ atMs: 0, wallMs }).tell(fact);
        state = desk.apply(state, { type: 'fact', fact, atMs: 0, wallMs }, truth).state;
      }
      truth.news();
    },
    ask(intent: Intent, by: Heard['by'] = 'typed'): string {
      const heard: Heard = { by, words: '', confidence: 1, close: [] };
      const event = { type: 'intent', intent, atMs: 0, wallMs, heard } as const;
      const out = desk.apply(state, event, truth.at(event));
      state = out.state;
      facts.push(...truth.news());
      return out.effects
        .flatMap((effect) => (effect.type === 'say' ? [bottlesPhrase(effect.message)] : []))
        .join(' ');
    },
  };
}

const developer: Fact = {
  type: 'mixed',
  batch: 'DEV 3',
  recipe: 'ecn2-developer',
  liquid: 'developer',
  volumeMl: 1000,
  bottle: 2,
};
const fixer: Fact = { type: 'bottle-set', bottle: 5, liquid: 'fixer', volumeMl: 850, capacityMl: 1000 };
const oneRun = (runId: string, count: number): Fact[] => [
  {
    type: 'run-started',
    runId,
    sheetId: 'ecn2-ferricyanide',
    tankMl: 600,
    films: [{ stock: 'test', format: '35mm', count }],
  },
  {
    type: 'poured',
    runId,
    from: { kind: 'bottle', number: 2 },
    to: { kind: 'tank' },
    liquid: 'developer',
    volumeMl: 600,
    overridden: false,
  },
  {
    type: 'poured',
    runId,
    from: { kind: 'tank' },
    to: { kind: 'bottle', number: 2 },
    liquid: 'developer',
    volumeMl: 600,
    overridden: false,
  },
  { type: 'run-finished', runId, complete: true },
];

describe('the bottles’ desk', () => {
  it('answers what a bottle holds', () => {
    const b = bench();
    expect(b.ask({ type: 'ask-bottle', bottle: 2 })).toBe(
      'Nobody has told me about bottle 2. Say what it holds and how much.',
    );
    b.told(developer, ...oneRun('r1', 2));
    b.after(3);
    expect(b.ask({ type: 'ask-bottle', bottle: 2 })).toBe(
      'Bottle 2 holds 1 litre of developer. It is 3 days old. It has done 2 films.',
    );
  });

  it('says what it only assumes', () => {
    const b = bench({}, [
      { type: 'bottle-set', bottle: 3, liquid: 'stop', volumeMl: 900, capacityMl: 1000, assumed: true },
    ]);
    expect(b.ask({ type: 'ask-bottle', bottle: 3 })).toBe(
      'Bottle 3 holds 900 millilitres of stop bath, if nobody changed it.',
    );
  });

  it('tells of a wrong pour, with what the chemistry makes of it', () => {
    const wrong = (liquid: string, volumeMl: number): string[] => {
      const b = bench();
      b.told(developer, {
        type: 'poured',
        from: { kind: 'jug' },
        to: { kind: 'bottle', number: 2 },
        liquid,
        volumeMl,
        overridden: true,
      });
      return [
        b.ask({ type: 'ask-bottle', bottle: 2 }),
        b.ask({ type: 'ask-life', liquid: 'developer', films: 1 }),
      ];
    };
    expect(wrong('prebath', 5)).toEqual([
      'Bottle 2 holds 1.01 litres of developer. It is less than a day old. 5 millilitres of prebath went into it, too little to matter.',
      'Yes. About 6 more 36 exposure films; 4 to be safe. The developer in bottle 2 is unused.',
    ]);
    expect(wrong('prebath', 100)).toEqual([
      expect.stringContaining('Careful: 100 millilitres of prebath went into it.'),
      expect.stringMatching(/^Just\. About 6 .* Test it on a strip first\.$/),
    ]);
    expect(wrong('fixer', 30)).toEqual([
      expect.stringContaining(
        'Do not use it: 30 millilitres of fixer went into it. Thiosulphate in a developer fogs',
      ),
      expect.stringMatching(/^No\. The developer in bottle 2 is spoiled\. Do not use it/),
    ]);
    expect(wrong('mystery', 30)).toEqual([
      expect.stringContaining('I cannot tell what that does.'),
      expect.stringMatching(/^Just\./),
    ]);
  });

  it('lists the bottles and the fullest', () => {
    const b = bench();
    expect(b.ask({ type: 'ask-bottles' })).toBe('I know of no full bottle. Say what each bottle holds.');
    b.told(developer, fixer);
    expect(b.ask({ type: 'ask-bottles' })).toBe(
      'Bottle 2 holds 1 litre of developer. Bottle 5 holds 850 millilitres of fixer.',
    );
    expect(b.ask({ type: 'ask-fullest' })).toBe('The fullest is bottle 2, with 1 litre of developer.');
  });

  it('knows ages and mixing dates, and owns up when it does not', () => {
    const b = bench();
    b.told(developer, fixer);
    b.after(9);
    expect(b.ask({ type: 'ask-age', liquid: 'developer' })).toBe(
      'The developer in bottle 2 is 9 days old. It keeps 5 days more.',
    );
    b.told(...oneRun('r1', 1));
    expect(b.ask({ type: 'ask-age', liquid: 'developer' })).toBe(
      'The developer in bottle 2 is 9 days old. It is 2 days past its keeping time. Mix fresh.',
    );
    expect(b.ask({ type: 'ask-mixed', liquid: 'developer' })).toBe(
      'The developer in bottle 2 was mixed on 4 May 2026, 9 days ago.',
    );
    expect(b.ask({ type: 'ask-mixed', liquid: 'fixer' })).toBe(
      'Nobody told me when the fixer was mixed. It has been in bottle 5 since 4 May 2026.',
    );
    expect(b.ask({ type: 'ask-age', liquid: 'bleach' })).toBe('I know of no bottle with bleach.');
  });

  it('takes a day and a month for the last that was here', () => {
    const at = (year: number, month: number, day: number, hour = 0) =>
      new Date(year, month - 1, day, hour).getTime();
    expect(lastTime(1, 11, at(2026, 1, 11, 1))).toBe(at(2026, 1, 11));
    expect(lastTime(1, 12, at(2026, 1, 11, 23))).toBe(at(2025, 1, 12));
    expect(lastTime(1, undefined, at(2026, 1, 9))).toBe(at(2026, 1, 5));
    expect(lastTime(2, undefined, at(2026, 1, 9))).toBe(at(2025, 2, 15));
    expect(lastTime(2, 29, at(2026, 3, 1))).toBe(at(2024, 2, 29));
  });

  it('answers “can I run two more films” with a number, a band and a reason', () => {
    const b = bench();
    b.told(developer);
    expect(b.ask({ type: 'ask-life', liquid: 'developer', films: 2 })).toBe(
      'Yes. About 6 more 36 exposure films; 4 to be safe. The developer in bottle 2 is unused.',
    );
    b.told(...oneRun('r1', 3));
    expect(b.ask({ type: 'ask-life', liquid: 'developer', films: 2 })).toBe(
      'Just. About 3 more 36 exposure films; 1 to be safe. The developer in bottle 2 has done 3. No longer time is published for a used E C N two developer; replenish it or mix fresh.',
    );
    b.told(...oneRun('r2', 3));
    expect(b.ask({ type: 'ask-life', liquid: 'developer', films: 2 })).toMatch(
      /^No\. Not enough for a 36 exposure film/,
    );
    b.after(30);
    expect(b.ask({ type: 'ask-life', liquid: 'developer', films: 2 })).toBe(
      'No. The developer in bottle 2 is 23 days past its keeping time.',
    );
  });

  it('advises on replenishing by published rates, bleach with its salts', () => {
    const b = bench();
    b.told(developer, ...oneRun('r1', 2));
    // 2 films of 0.0577 m² at 900 ml per 1.066 m²
    expect(b.ask({ type: 'ask-replenish', liquid: 'developer' })).toBe(
      'Add 97 millilitres of developer replenisher to bottle 2.',
    );
    b.told({ type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 1000, capacityMl: 1000 });
    expect(b.ask({ type: 'ask-replenish', liquid: 'developer' })).toBe(
      'Take 97 millilitres out of bottle 2 first. Add 97 millilitres of developer replenisher to bottle 2.',
    );
    expect(b.ask({ type: 'ask-replenish', liquid: 'water' })).toBe('I know of no bottle with water.');
  });

  it('asks before it marks a bottle discarded that it heard, and adds the caution', () => {
    const b = bench();
    b.told(fixer);
    expect(b.ask({ type: 'bottle-discarded', bottle: 5 }, 'voice')).toBe(
      'Bottle 5 holds 850 millilitres of fixer. Mark it discarded? Say confirm or cancel.',
    );
    expect(b.situations()).toEqual(['challenged']);
    expect(b.ask({ type: 'cancel' })).toBe('Left as it was.');
    // it counts as open until it is answered
    expect(b.facts.map((f) => f.type === 'bottle-doubted' && f.doubt)).toEqual(['unanswered', null]);
    b.ask({ type: 'bottle-discarded', bottle: 5 }, 'voice');
    expect(b.ask({ type: 'confirm' })).toMatch(
      /^Bottle 5 is marked discarded\. Used fixer carries silver\. .*local rules/,
    );
    expect(b.facts.at(-1)).toEqual({ type: 'bottle-discarded', bottle: 5, liquid: 'fixer', volumeMl: 850 });
    expect(b.situations()).toEqual([]);
    expect(b.ask({ type: 'ask-bottle', bottle: 5 })).toBe('Bottle 5 is empty; it was discarded.');
    expect(b.ask({ type: 'bottle-discarded', bottle: 5 })).toBe(
      'As far as I know bottle 5 is empty already.',
    );
  });

  it('takes a typed word that a bottle was thrown away as it is told', () => {
    const b = bench();
    b.told(fixer);
    expect(b.ask({ type: 'bottle-discarded', bottle: 5 })).toMatch(/^Bottle 5 is marked discarded\. /);
    expect(b.facts).toEqual([{ type: 'bottle-discarded', bottle: 5, liquid: 'fixer', volumeMl: 850 }]);
    expect(b.situations()).toEqual([]);
  });

  it('names a bottle, unless the name sounds like something else', () => {
    const b = bench({ phonesOf, spokenWords: ['bleach', 'developer', 'fixer'] });
    b.told(developer, fixer);
    expect(b.ask({ type: 'bottle-named', bottle: 2, name: 'juniper' })).toBe(
      'Bottle 2 is now called juniper.',
    );
    expect(b.ask({ type: 'bottle-named', bottle: 5, name: 'beach' })).toMatch(
      /^Beach sounds too much like bleach\. Shall I call bottle 5 \w+\?$/,
    );
    expect(b.ask({ type: 'confirm' })).toMatch(/^Bottle 5 is now called \w+\.$/);
    expect(b.world.bottles[5]?.name).not.toBe('beach');
    expect(b.ask({ type: 'bottle-named', bottle: 5, name: 'zzyxt' })).toMatch(
      /^I would not know zzyxt when I hear it\./,
    );
  });

  it('tells of the runs', () => {
    const b = bench();
    expect(b.ask({ type: 'ask-runs' })).toBe('No run is written down yet.');
    b.told(developer, ...oneRun('r1', 2));
    expect(b.ask({ type: 'ask-runs' })).toBe(
      '1 run so far. The last, on 4 May 2026, with 2 films, was finished, nothing off.',
    );
  });

  it('keeps its state as plain JSON and leaves other desks’ intents alone', () => {
    const b = bench();
    b.told(developer, ...oneRun('r1', 2));
    const before = b.state;
    expect(b.ask({ type: 'next-step' })).toBe('');
    expect(b.state).toBe(before);
    expect(JSON.parse(JSON.stringify(b.state))).toEqual(b.state);
  });
});
