import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { batchOf } from '../../src/chemistry/coach/state.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import type { Intent } from '../../src/process/intent.js';
import { Conversation, ids } from './conversation.js';

describe('a bleach from start to bottle', () => {
  it('weighs, waits for dissolved, makes up, bottles, labels, and takes it off the shelf', () => {
    const c = new Conversation({}, [
      { type: 'shelf-set', substance: 'potassium-ferricyanide', massG: 250 },
      { type: 'shelf-set', substance: 'potassium-bromide', massG: 100 },
    ]);
    const opened = c.say({ type: 'mix-start', recipe: 'ecn2-bleach', volumeMl: 500 });
    expect(opened.texts[0]).toContain('hydrogen cyanide');
    expect(opened.texts[0]).toContain('The safety data sheet and your local rules decide.');
    expect(c.desk.situations(c.state)).toEqual(['mixing']);
    expect(c.say({ type: 'mix-next' }).texts[0]).toContain('450 millilitres of water at 32 to 43 degrees');
    c.say({ type: 'mix-next' });
    expect(c.reads(20).texts[0]).toBe(
      '20.00 grams of potassium ferricyanide is right. Stir it in, and say dissolved when it is clear.',
    );
    // the shelf has only potassium bromide: as much bromide as 12.5 g of the sodium salt
    expect(c.dissolved().messages[0]).toMatchObject({
      id: 'mix-weigh',
      name: 'potassium bromide',
      said: { amount: expect.closeTo(14.46, 2) },
    });
    c.reads(14.46);
    expect(ids(c.dissolved())).toEqual(['mix-make-up']);
    expect(ids(c.say({ type: 'made-up', volumeMl: 500 }))).toEqual(['mix-ask-bottle']);
    const done = c.say({ type: 'bottle-holds', bottle: 4, liquid: 'bleach' });
    expect(done.facts).toEqual([
      { type: 'shelf-used', substance: 'potassium-ferricyanide', massG: 20, batch: 'BLEACH-20260402-1' },
      { type: 'shelf-used', substance: 'potassium-bromide', massG: 14.46, batch: 'BLEACH-20260402-1' },
      {
        type: 'mixed',
        batch: 'BLEACH-20260402-1',
        recipe: 'ecn2-bleach',
        liquid: 'bleach',
        volumeMl: 500,
        bottle: 4,
      },
      {
        type: 'bottle-set',
        bottle: 4,
        liquid: 'bleach',
        volumeMl: 500,
        capacityMl: 500,
        batch: 'BLEACH-20260402-1',
      },
    ]);
    expect(c.truth.world.shelf['potassium-ferricyanide']?.massG).toBe(230);
    expect(c.desk.situations(c.state)).toEqual([]);
    const label = c.say({ type: 'ask-label' }).texts[0] ?? '';
    expect(label).toContain('ECN-2 FERRICYANIDE BLEACH');
    expect(label).toContain('keep until 2027-04-02');
    expect(label).toContain('EUH032');
    expect(Math.max(...label.split('\n').map((l) => l.length))).toBeLessThanOrEqual(48);
  });

  it('a bottle named to another desk finishes the mix without a second bottle fact', () => {
    const c = new Conversation();
    c.begin('ecn2-bleach', 500);
    c.weigh();
    c.weigh();
    c.say({ type: 'made-up' });
    const done = c.hear({ type: 'bottle-set', bottle: 3, liquid: 'bleach', volumeMl: 500, capacityMl: 1000 });
    expect(done.facts.map((f) => f.type)).toEqual(['shelf-used', 'shelf-used', 'mixed']);
    expect(done.facts.at(-1)).toMatchObject({ bottle: 3 });
  });
});

describe('too much', () => {
  const overshot = (jugMl?: number): Conversation => {
    const c = new Conversation(jugMl === undefined ? {} : { jugMl });
    c.begin('ecn2-bleach', 500);
    return c;
  };

  it('on the scale: take it off', () => {
    const c = overshot();
    const over = c.reads(23);
    expect(over.kinds).toEqual(['warning']);
    expect(over.texts[0]).toMatch(/^3\.00 grams too much potassium ferricyanide\. Take it off/);
    expect(ids(c.reads(20))).toEqual(['mix-right']);
  });

  it('in the water: the batch grows, and what was right before comes round for the difference', () => {
    const c = overshot();
    c.weigh();
    c.reads(14);
    const offer = c.dissolved();
    expect(offer.messages[0]).toMatchObject({ id: 'mix-offer-scale', volumeMl: 560 });
    expect(c.desk.situations(c.state)).toContain('challenged');
    const grown = c.yes();
    expect(grown.messages[0]).toMatchObject({ id: 'mix-scaled', volumeMl: 560, toAdd: 1 });
    expect(grown.messages[1]).toMatchObject({
      id: 'mix-weigh',
      name: 'potassium ferricyanide',
      said: { amount: expect.closeTo(2.4, 6) },
    });
    c.reads(2.4);
    expect(c.dissolved().messages[0]).toMatchObject({ id: 'mix-make-up', volumeMl: 560 });
  });

  it('a part that the larger batch leaves less than a tenth short comes round as well', () => {
    const c = overshot();
    c.weigh();
    c.reads(13.5);
    c.dissolved();
    const grown = c.yes();
    expect(grown.messages[0]).toMatchObject({ id: 'mix-scaled', volumeMl: 540, toAdd: 1 });
    expect(grown.messages[1]).toMatchObject({
      id: 'mix-weigh',
      name: 'potassium ferricyanide',
      said: { amount: expect.closeTo(1.6, 6) },
    });
  });

  it('and when the jug is too small it says so', () => {
    const c = overshot(500);
    c.weigh();
    c.reads(14);
    expect(c.dissolved().messages[0]).toMatchObject({ id: 'mix-cannot-scale', because: 'jug' });
  });

  it('and a batch that would be more than 50 litres is not offered, by a part or by its water', () => {
    const powder = new Conversation();
    powder.begin('ecn2-bleach', 50_000);
    powder.reads(2100);
    expect(powder.dissolved().messages[0]).toMatchObject({ id: 'mix-cannot-scale', because: 'range' });
    powder.yes();
    const water = new Conversation();
    water.begin('ecn2-bleach', 40_000);
    expect(water.say({ type: 'made-up', volumeMl: 55_000 }).messages).toMatchObject([
      { id: 'mix-too-full', grow: false },
    ]);
    water.yes();
    water.weigh();
    expect(water.say({ type: 'made-up', volumeMl: 50_000 }).messages[0]).toMatchObject({ grow: true });
    expect(water.yes().messages[0]).toMatchObject({ id: 'mix-scaled', volumeMl: 50_000 });
  });

  it('nothing else goes on until that question is answered', () => {
    const c = overshot();
    c.weigh();
    c.reads(14);
    c.dissolved();
    expect(ids(c.reads(3))).toEqual(['mix-untaken', 'mix-offer-scale']);
    expect(ids(c.say({ type: 'mix-next' }))).toEqual(['mix-offer-scale']);
    expect(ids(c.no())).toEqual(['mix-kept', 'mix-make-up']);
  });
});

describe('parts and stop', () => {
  it('one part after another counts the scale’s total, and what is stirred in counts from zero', () => {
    const c = new Conversation();
    c.begin('ecn2-bleach', 500);
    expect(c.reads(12).texts[0]).toBe('12.00 grams. Add 8.00 grams more.');
    expect(ids(c.dissolved())).toEqual(['mix-part-in']);
    expect(ids(c.reads(8))).toEqual(['mix-right']);
  });

  it('stop asks, and what is in the water is off the shelf', () => {
    const c = new Conversation();
    c.begin('ecn2-bleach', 500);
    c.weigh();
    expect(c.say({ type: 'mix-stop' }).kinds).toEqual(['question']);
    const stopped = c.yes();
    expect(stopped.facts).toEqual([
      { type: 'shelf-used', substance: 'potassium-ferricyanide', massG: 20, batch: 'BLEACH-20260402-1' },
    ]);
    expect(c.state.open).toBeNull();
  });

  it('one mix at a time', () => {
    const c = new Conversation();
    c.begin('ecn2-bleach', 500);
    expect(ids(c.say({ type: 'mix-start', recipe: 'ecn2-fixer', volumeMl: 500 }))).toEqual(['mix-busy']);
  });

  it('asks for the volume when it was not said', () => {
    const c = new Conversation();
    expect(c.say({ type: 'mix-start', recipe: 'ecn2-fixer' }).kinds).toEqual(['question']);
    expect(c.reads(500, 'ml').messages[0]).toMatchObject({ id: 'mix-opened', volumeMl: 500 });
  });

  it('says what is wrong with a recipe or a volume', () => {
    const c = new Conversation();
    expect(c.say({ type: 'mix-start', recipe: 'moonshine', volumeMl: 500 }).texts[0]).toContain(
      'There is no recipe',
    );
    expect(c.say({ type: 'mix-start', recipe: 'ecn2-bleach', volumeMl: 5 }).texts[0]).toContain(
      'from 20 millilitres',
    );
  });
});

describe('what if', () => {
  const ask = (c: Conversation, intent: Omit<Extract<Intent, { type: 'what-if' }>, 'type'>): string =>
    c.say({ type: 'what-if', ...intent }).texts[0] ?? '';

  it('is answered at any time, with figures, verdict and ground', () => {
    const c = new Conversation();
    const text = ask(c, { volumeMl: 80, liquid: 'prebath', intoVolumeMl: 600, intoLiquid: 'developer' });
    expect(text).toContain('lose 12 percent of its developing agent');
    expect(text).toContain('pH 10.28 would go to 10.16');
    expect(text).toContain('Discard it.');
    expect(text).toContain('H-24.07');
  });

  it('knows a bottle by what was put in it and poured out of it', () => {
    const c = new Conversation();
    c.hear({ type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 1000, capacityMl: 1000 });
    c.hear({
      type: 'poured',
      from: { kind: 'bottle', number: 2 },
      to: { kind: 'tank' },
      liquid: 'developer',
      volumeMl: 600,
      overridden: false,
    });
    expect(
      c.say({ type: 'what-if', volumeMl: 10, liquid: 'water', intoBottle: 2 }).messages[0],
    ).toMatchObject({
      answer: { into: { volumeMl: 400 } },
    });
  });

  it('asks for what it cannot know', () => {
    const c = new Conversation();
    expect(ask(c, { volumeMl: 10, liquid: 'bleach', intoBottle: 9 })).toContain('which bath');
    expect(ask(c, { volumeMl: 10, liquid: 'bleach', intoLiquid: 'developer' })).toContain('how much');
    expect(ask(c, { volumeMl: 10, liquid: 'soup', intoVolumeMl: 9, intoLiquid: 'developer' })).toContain(
      'I do not know soup',
    );
  });
});

describe('the shelf by voice', () => {
  it('asks for the hydrate where it matters, and adds where it is settled', () => {
    const c = new Conversation();
    expect(ids(c.say({ type: 'shelf-add', substance: 'sodium-carbonate', massG: 500 }))).toEqual([
      'shelf-which',
    ]);
    c.say({ type: 'shelf-add', substance: 'sodium-carbonate-monohydrate', massG: 500 });
    const more = c.say({ type: 'shelf-add', substance: 'sodium-carbonate', massG: 250 });
    expect(more.facts).toEqual([
      { type: 'shelf-set', substance: 'sodium-carbonate-monohydrate', massG: 750 },
    ]);
    expect(c.say({ type: 'shelf-have', substance: 'sodium-carbonate' }).texts[0]).toBe(
      '750 grams of sodium carbonate monohydrate.',
    );
  });

  it('a plan says what is short', () => {
    const c = new Conversation({}, [
      { type: 'shelf-set', substance: 'potassium-ferricyanide', massG: 10, pricePerKg: 40 },
    ]);
    const text = c.say({ type: 'mix-plan', recipe: 'ecn2-bleach', volumeMl: 500 }).texts[0];
    expect(text).toContain(
      'short of 10.00 grams of potassium ferricyanide and 12.50 grams of sodium bromide',
    );
    expect(text).toContain('a film');
  });
});

/** Any talk at all, in any order. */
const anyIntent: fc.Arbitrary<Intent> = fc.oneof(
  fc.record({
    type: fc.constant('mix-start' as const),
    recipe: fc.constantFrom(...recipes.map((r) => r.id)),
    volumeMl: fc.constantFrom(100, 600, 2000),
  }),
  fc.constantFrom<Intent>(
    { type: 'mix-next' },
    { type: 'dissolved' },
    { type: 'scale-zeroed' },
    { type: 'confirm' },
    { type: 'cancel' },
    { type: 'undo' },
    { type: 'made-up' },
    { type: 'mix-where' },
    { type: 'ask-label' },
    { type: 'mix-stop' },
    { type: 'ask-cautions' },
    { type: 'bottle-holds', bottle: 1, liquid: 'developer' },
  ),
  fc.record({ type: fc.constant('ph-reading' as const), ph: fc.double({ min: 0, max: 14, noNaN: true }) }),
  fc.record({ type: fc.constant('reading' as const), value: fc.double({ min: 0, max: 100, noNaN: true }) }),
  // a reading that is right, over, in ounces, or tenfold: filled in from the state when it is said
  fc.constantFrom<Intent>(
    { type: 'reading', value: -1 },
    { type: 'reading', value: -1.2 },
    { type: 'reading', value: -10 },
    { type: 'reading', value: -0.0353 },
  ),
);

describe('any conversation', () => {
  it('never breaks, never loses matter, replays to the same state, and always has words', () => {
    fc.assert(
      fc.property(fc.array(anyIntent, { maxLength: 60 }), fc.boolean(), (intents, begun) => {
        const c = new Conversation();
        if (begun) c.begin('ecn2-developer', 600);
        for (const intent of intents) {
          const open = c.state.open;
          const line = open === null ? undefined : batchOf(open).lines[open.index];
          const real: Intent =
            intent.type === 'reading' && intent.value < 0
              ? {
                  type: 'reading',
                  value:
                    -intent.value *
                    (line === undefined ? 1 : line.amount - (open?.lines[open.index]?.inWater ?? 0)),
                }
              : intent;
          const { texts, facts } = c.say(real);
          for (const t of texts) {
            expect(t).not.toMatch(/undefined|NaN|null|Infinity|\[object/);
            expect(t.length).toBeGreaterThan(0);
          }
          for (const f of facts) if (f.type === 'shelf-used') expect(f.massG).toBeGreaterThan(0);
          for (const l of c.state.open?.lines ?? []) expect(l.inWater).toBeGreaterThanOrEqual(0);
          expect(JSON.parse(JSON.stringify(c.state))).toEqual(c.state);
        }
        const again = new Conversation();
        for (const e of c.log) again.say(e.intent);
        expect(again.state).toEqual(c.state);
      }),
      { numRuns: 100 },
    );
  });

  it('a mix that is done has all it needs, within tolerance, unless the user kept it otherwise', () => {
    for (const recipe of recipes) {
      const c = new Conversation();
      c.begin(recipe.id, 1000);
      while (c.state.open?.phase === 'weighing') c.weigh();
      expect(c.state.open?.phase).toBe('making-up');
      c.say({ type: 'made-up' });
      if (c.state.open?.phase === 'ph') c.say({ type: 'mix-next' });
      // its bottle is asked for once more
      expect(c.say({ type: 'mix-next' }).facts).toEqual([]);
      const done = c.say({ type: 'mix-next' });
      expect(done.facts.filter((f) => f.type === 'shelf-used')).toHaveLength(recipe.components.length);
      expect(done.facts.at(-1)).toMatchObject({ type: 'mixed', recipe: recipe.id, volumeMl: 1000 });
    }
  });
});

describe('the date of a batch', () => {
  const { TZ } = process.env;
  afterEach(() => {
    if (TZ === undefined) delete process.env.TZ;
    else process.env.TZ = TZ;
  });

  it.each([
    ['America/Los_Angeles', '2026-01-10'],
    ['Asia/Tokyo', '2026-01-11'],
  ])('is the day where the user is: %s', (zone, day) => {
    process.env.TZ = zone;
    const c = new Conversation();
    c.wallMs = Date.parse('2026-01-11T01:30:00Z');
    c.begin('ecn2-bleach', 500);
    expect(c.state.open?.date).toBe(day);
    expect(c.say({ type: 'ask-label' }).texts[0]).toContain(`mixed ${day}`);
  });
});

describe('the pH reading', () => {
  const atPh = (): Conversation => {
    const c = new Conversation();
    c.begin('ecn2-fixer-sodium', 1000);
    while (c.state.open?.phase === 'weighing') c.weigh();
    c.say({ type: 'made-up' });
    return c;
  };

  it('a half number may be a strip, which cannot tell closer', () => {
    expect(ids(atPh().say({ type: 'ph-reading', ph: 6 }))).toEqual(['mix-ph-good', 'mix-ask-bottle']);
    const c = new Conversation();
    c.begin('ecn2-fixer', 1000);
    while (c.state.open?.phase === 'weighing') c.weigh();
    c.say({ type: 'made-up' });
    expect(ids(c.say({ type: 'ph-reading', ph: 7 }))).toEqual(['mix-ask-meter']);
    const strip = c.no();
    expect(ids(strip)).toEqual(['mix-ph-near', 'mix-ask-bottle']);
    expect(strip.texts[0]).not.toContain('would show');
  });

  it('a meter’s number that is off is a warning, kept, and can be gone on from', () => {
    const c = atPh();
    expect(c.say({ type: 'ph-reading', ph: 4.83 }).kinds).toEqual(['warning']);
    c.say({ type: 'mix-next' });
    c.say({ type: 'mix-next' });
    expect(c.say({ type: 'mix-next' }).facts.at(-1)).toMatchObject({ type: 'mixed', ph: 4.83 });
  });
});

describe('what no kitchen measure can show', () => {
  it('goes by way of a dilution, and the part taken of it counts', () => {
    const c = new Conversation();
    expect(c.begin('ecn2-final-rinse', 600).texts[0]).toContain(
      'You need 0.08 millilitres of stabiliser additive, too little to measure. Put 0.8 millilitres in 100 millilitres of water and take 10 millilitres of that; the rest keeps as stock.',
    );
    expect(ids(c.reads(10, 'ml'))).toEqual(['mix-right']);
    c.dissolved();
    expect(c.state.open?.phase).toBe('making-up');
    expect(c.state.open?.lines[0]?.inWater).toBeCloseTo(0.084, 9);
  });

  it('a corrosive says so at the jar', () => {
    const c = new Conversation();
    const acid = c.begin('ecn2-stop', 600).texts[0];
    expect(acid).toContain('burns skin and eyes severely');
    expect(acid).toContain('never water into acid');
  });
});
