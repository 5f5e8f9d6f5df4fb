import { describe, expect, it } from 'vitest';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { substances } from '../../src/chemistry/substances.js';
import type { IntentOf } from '../../src/process/intent.js';
import { Conversation, type Exchange, ids } from './conversation.js';

type Reading = IntentOf<'reading'>;
const grams = (value: number, substance: string, added?: true): Reading => ({
  type: 'reading',
  value,
  unit: 'g',
  substance,
  ...(added && { added }),
});

/** A litre of developer, its sulphite asked for: 2 g. */
function atSulphite(): Conversation {
  const c = new Conversation();
  c.begin('ecn2-developer', 1000);
  c.reads(2);
  expect(c.dissolved().messages[0]).toMatchObject({ id: 'mix-weigh', name: 'anhydrous sodium sulphite' });
  return c;
}

const finished = (c: Conversation): Exchange | undefined => {
  for (let i = 0; i < 12 && c.state.open?.phase !== 'making-up'; i++) c.weigh();
  c.say({ type: 'made-up' });
  return c.log.at(-1);
};

describe('a reading that names what was weighed', () => {
  it('what was asked for, by any of its names, is taken as without the name', () => {
    for (const name of ['sodium-sulfite', 'sodium-sulfite-anhydrous', 'sulfite'])
      expect(ids(atSulphite().say(grams(2, name))), name).toEqual(['mix-right']);
  });

  it('another form is reckoned with as that form', () => {
    const c = atSulphite();
    expect(ids(c.say(grams(4, 'sodium-sulfite-heptahydrate')))).toEqual(['jar-noted', 'mix-right']);
  });

  it('another form of a part that is in already is of a second jar, and counts by what is in it', () => {
    const c = atSulphite();
    c.weigh();
    expect(c.say(grams(1.2, 'sodium-sulfite-heptahydrate', true)).messages).toMatchObject([
      { id: 'mix-offer-scale', excess: { amount: expect.closeTo(0.6, 2) } },
    ]);
  });

  it('another part, though its weight is that of the one asked for, is not taken for it', () => {
    const c = atSulphite();
    const asked = c.say(grams(2, 'sodium-carbonate'));
    expect(asked.messages).toMatchObject([
      { id: 'mix-ask-jar', other: 'anhydrous sodium carbonate', early: 3 },
    ]);
    expect(ids(c.yes())).toEqual(['mix-aside']);
    expect(c.reads(2).messages).toMatchObject([{ id: 'mix-right', name: 'anhydrous sodium sulphite' }]);
  });

  it('another part that is in counts for as much as went in, and the turn stays', () => {
    const c = atSulphite();
    expect(c.say(grams(20, 'carbonate', true)).messages).toMatchObject([
      { id: 'mix-out-of-order', risky: true },
      { id: 'mix-weigh', name: 'anhydrous sodium sulphite' },
    ]);
    for (let i = 0; i < 3; i++) c.weigh();
    const carbonate = c.log.at(-1)?.messages.find((m) => m.id === 'mix-weigh');
    expect(carbonate).toMatchObject({ name: 'anhydrous sodium carbonate' });
    expect(carbonate?.id === 'mix-weigh' && carbonate.said.amount).toBeCloseTo(5.6);
  });

  it('too much of another part is said at once', () => {
    expect(ids(atSulphite().say(grams(30, 'carbonate', true)))).toEqual(['mix-offer-scale']);
  });

  it('a part that is in already is not added twice', () => {
    const c = atSulphite();
    c.weigh();
    expect(c.say(grams(2, 'sulfite')).texts[0]).toMatch(/is in already\. Add no more of it\./);
  });

  it('while the one before is not called dissolved, the next by name asks for that', () => {
    const c = atSulphite();
    c.reads(2);
    expect(ids(c.say(grams(0.22, 'anti-fog-9')))).toEqual(['mix-ask-dissolved']);
    expect(c.yes().messages.at(-1)).toMatchObject({ id: 'mix-right', name: 'Anti-Fog Number 9' });
  });

  it('what is no part of the recipe stays out, with what it would do there', () => {
    const c = atSulphite();
    const warned = c.say(grams(2, 'citric-acid'));
    expect(warned.kinds).toEqual(['warning']);
    expect(warned.texts[0]).toMatch(/^Do not put it in\..*sulphur dioxide/);
    expect(ids(c.yes())).toEqual(['mix-weigh-again']);
    const done = c.reads(2);
    expect(ids(done)).toEqual(['mix-right']);
  });

  it('in the water it spoils the batch, which says so when it is made up', () => {
    const c = atSulphite();
    c.say(grams(2, 'potassium-iodide'));
    expect(c.dissolved().texts[0]).toMatch(/Stop, add nothing more.*cannot be used/);
    c.no();
    expect(finished(c)?.messages[0]).toMatchObject({
      id: 'mix-failed',
      problems: expect.arrayContaining(['potassium iodide is in it']),
    });
  });

  it('or it is given up', () => {
    const c = atSulphite();
    c.say(grams(2, 'potassium-iodide', true));
    expect(ids(c.yes())).toEqual(['mix-stopped']);
  });

  it('has an answer for everything on any shelf, in every recipe', () => {
    for (const recipe of recipes)
      for (const { id, measure } of substances)
        for (const added of [undefined, true] as const) {
          const c = new Conversation();
          c.begin(recipe.id, 1000);
          const unit = measure === 'ml' ? 'ml' : 'g';
          const said = c.say({ ...grams(2, id, added), unit });
          expect(said.messages.length, `${recipe.id} ${id}`).toBeGreaterThan(0);
        }
  });
});
