import { describe, expect, it } from 'vitest';
import { Conversation, type Exchange, ids } from './conversation.js';

/** 600 ml of developer: sulphite 1.20 g, bromide 0.72, carbonate 15.36, bicarbonate 1.62, CD-3 2.40. */
const developer = (): Conversation => {
  const c = new Conversation();
  c.begin('ecn2-developer', 600);
  c.say({ type: 'mix-next' });
  c.yes();
  return c;
};
const pastSulphite = (): Conversation => {
  const c = developer();
  c.weigh();
  return c;
};
/** At the carbonate. */
const atCarbonate = (): Conversation => {
  const c = pastSulphite();
  c.say({ type: 'mix-next' });
  c.yes();
  c.weigh();
  return c;
};

describe('the ounces slip', () => {
  it('a reading that is right in ounces is asked about, and nothing is stirred in', () => {
    const c = atCarbonate();
    const asked = c.reads(0.542);
    expect(ids(asked)).toEqual(['mix-ask-unit']);
    expect(asked.kinds).toEqual(['question']);
    expect(asked.texts[0]).toContain('ounces');
    expect(ids(c.dissolved())).toEqual(['mix-ask-doubted']);
  });

  it('yes: set the scale to grams and read again', () => {
    const c = atCarbonate();
    c.reads(0.542);
    const again = c.yes();
    expect(again.texts[0]).toBe(
      'Set the scale to grams, leave the powder on, and read it again. I need 15.36 grams of anhydrous sodium carbonate.',
    );
    expect(ids(c.reads(15.4))).toEqual(['mix-right']);
  });

  it('no: it is a first part, in grams, and the rest is named', () => {
    const c = atCarbonate();
    c.reads(0.542);
    expect(c.no().texts[0]).toBe('0.54 grams. Add 14.82 grams more.');
  });

  it('ounces said aloud are converted, judged, and the scale is corrected', () => {
    const c = atCarbonate();
    const said = c.reads(0.542, 'oz');
    expect(ids(said)).toEqual(['mix-set-grams', 'mix-right']);
    expect(said.texts[0]).toBe('That is 15.37 grams. Set the scale to grams.');
  });

  it('grains too', () => {
    const c = atCarbonate();
    expect(c.reads(237).messages[0]).toMatchObject({ id: 'mix-ask-unit', unit: 'grain' });
  });

  it('a number finer than the scale did not come from it in grams', () => {
    const c = atCarbonate();
    expect(c.reads(0.123).messages[0]).toMatchObject({ id: 'mix-ask-unit', unit: 'oz' });
  });
});

describe('the tare slip', () => {
  it('the component before still counted is recognised by its weight', () => {
    const c = atCarbonate();
    c.weigh();
    const asked = c.reads(15.36 + 1.62);
    expect(asked.messages[0]).toMatchObject({ id: 'mix-ask-tare', sameAs: 'anhydrous sodium carbonate' });
    expect(c.no().texts[0]).toBe(
      'Empty boat on, zero the scale, then weigh again. I need 1.62 grams of sodium bicarbonate.',
    );
    c.say({ type: 'scale-zeroed' });
    expect(ids(c.reads(1.62))).toEqual(['mix-right']);
  });

  it('an unknown boat: asked, and "it was zeroed" makes it an overshoot', () => {
    const c = atCarbonate();
    expect(c.reads(27.1).messages[0]).toMatchObject({ id: 'mix-ask-tare' });
    expect(ids(c.yes())).toEqual(['mix-over']);
  });

  it('a reading below zero is no weight', () => {
    expect(atCarbonate().reads(-3.1).texts[0]).toContain('not zeroed');
  });
});

describe('the wrong hydrate', () => {
  it('a weight that fits the monohydrate asks for the jar', () => {
    const asked = atCarbonate().reads(17.97);
    expect(asked.messages[0]).toMatchObject({ id: 'mix-ask-form', other: 'sodium carbonate monohydrate' });
  });

  it('yes: the weight is right for that jar, and the shelf loses that form', () => {
    const c = atCarbonate();
    c.reads(41.47);
    expect(ids(c.yes())).toEqual(['mix-form-changed', 'mix-right']);
    c.dissolved();
    c.weigh();
    c.weigh();
    c.say({ type: 'made-up' });
    c.say({ type: 'ph-reading', ph: 10.26 });
    c.say({ type: 'mix-next' });
    const done = c.say({ type: 'mix-next' });
    expect(done.facts).toContainEqual({
      type: 'shelf-used',
      substance: 'sodium-carbonate-decahydrate',
      massG: 41.47,
      batch: 'DEV-20260402-1',
    });
  });

  it('no: too much of the right jar', () => {
    const c = atCarbonate();
    c.reads(17.97);
    expect(c.no().texts[0]).toMatch(/^2\.61 grams too much anhydrous sodium carbonate/);
  });

  it('a low pH at the end names the slip it would fit', () => {
    const c = atCarbonate();
    c.weigh();
    c.weigh();
    c.weigh();
    c.say({ type: 'made-up' });
    const off = c.say({ type: 'ph-reading', ph: 9.89 });
    expect(off.kinds).toEqual(['warning']);
    expect(off.texts[0]).toContain('sodium carbonate decahydrate taken for anhydrous sodium carbonate');
  });
});

describe('the forgotten component', () => {
  it('"next" does not skip: what is missing and what it would do are said', () => {
    const c = atCarbonate();
    const missing = c.say({ type: 'mix-next' });
    expect(missing.kinds).toEqual(['warning']);
    expect(missing.texts[0]).toMatch(
      /The anhydrous sodium carbonate is not in yet\. Without it the pH would be \d/,
    );
    expect(ids(c.reads(15.36))).toEqual(['mix-right']);
  });

  it('"made up" before the end goes back to what is missing', () => {
    const c = atCarbonate();
    expect(c.say({ type: 'made-up' }).messages[0]).toMatchObject({
      id: 'mix-weigh',
      name: 'anhydrous sodium carbonate',
    });
  });

  it('"dissolved" without a weight asks for it', () => {
    expect(ids(atCarbonate().dissolved())).toEqual(['mix-no-weight']);
  });

  it('the next weight before "dissolved" asks whether the last is in', () => {
    const c = atCarbonate();
    c.reads(15.36);
    expect(c.reads(1.62).messages[0]).toMatchObject({ id: 'mix-ask-dissolved', other: 'sodium bicarbonate' });
    expect(c.yes().messages.at(-1)).toMatchObject({ id: 'mix-right', name: 'sodium bicarbonate' });
  });

  it('only what may be left out can be left out', () => {
    const c = pastSulphite();
    expect(c.say({ type: 'mix-next' }).messages[0]).toMatchObject({ id: 'mix-missing', optional: true });
    expect(c.yes().messages[0]).toMatchObject({ id: 'mix-weigh', name: 'sodium bromide' });
  });
});

describe('two components swapped', () => {
  it('the weight of another jar is recognised, set aside, and taken up in its turn', () => {
    const c = atCarbonate();
    expect(c.reads(1.62).messages[0]).toMatchObject({ id: 'mix-ask-jar', other: 'sodium bicarbonate' });
    expect(ids(c.yes())).toEqual(['mix-aside']);
    c.reads(15.36);
    const turn = c.dissolved();
    expect(turn.kinds).toEqual(['question']);
    expect(turn.texts[0]).toContain('You set 1.62 grams of sodium bicarbonate aside');
    expect(c.yes().messages[0]).toMatchObject({ id: 'mix-right', name: 'sodium bicarbonate' });
    expect(c.dissolved().messages[0]).toMatchObject({ id: 'mix-weigh', name: 'developing agent CD-3' });
  });

  it('already in the water: counted, the risk is said, and the turn stays', () => {
    const c = developer();
    c.reads(2.4);
    const told = c.dissolved();
    expect(told.messages[0]).toMatchObject({ id: 'mix-out-of-order', risky: true });
    expect(told.messages[1]).toMatchObject({ id: 'mix-weigh', name: 'anhydrous sodium sulphite' });
    expect(told.kinds[0]).toBe('warning');
  });

  it('no: it is a first part of what was asked for', () => {
    const c = atCarbonate();
    c.reads(1.62);
    expect(c.no().texts[0]).toBe('1.62 grams. Add 13.74 grams more.');
  });
});

describe('a scale that stood in another unit all the time', () => {
  const bleach = (): Conversation => {
    const c = new Conversation();
    c.begin('ecn2-bleach', 1000);
    return c;
  };
  const allIn = (c: Conversation, unit: 'oz' | 'grain') => c.say({ type: 'correct', all: true, unit });

  it('what is in counts as so much, and the rest is asked for', () => {
    const c = bleach();
    c.reads(1);
    c.dissolved();
    expect(allIn(c, 'oz').messages).toMatchObject([
      { id: 'mix-set-grams', said: { amount: expect.closeTo(28.35, 2) } },
      { id: 'mix-weigh', said: { amount: expect.closeTo(11.65, 2) } },
    ]);
    expect(c.state.open?.lines[0]?.inWater).toBeCloseTo(28.35, 2);
  });

  it('said twice it is counted once', () => {
    const c = bleach();
    c.reads(2);
    c.dissolved();
    const once = allIn(c, 'oz');
    expect(ids(once)).toEqual(['mix-set-grams', 'mix-offer-scale']);
    const twice = allIn(c, 'oz');
    expect(ids(twice)).toEqual(['mix-unit-known', 'mix-offer-scale']);
    expect(c.state.open?.lines[0]?.inWater).toBeCloseTo(56.7, 2);
  });

  it('what was told in ounces at the time is left as it is', () => {
    const c = bleach();
    c.reads(1, 'oz');
    c.dissolved();
    expect(ids(allIn(c, 'oz'))).toEqual(['mix-unit-known', 'mix-weigh']);
    expect(c.state.open?.lines[0]?.inWater).toBeCloseTo(28.35, 2);
  });

  it('in grains a part that was right is far too little, and is weighed on', () => {
    const c = bleach();
    c.weigh();
    expect(allIn(c, 'grain').messages).toMatchObject([
      { id: 'mix-set-grams', said: { amount: expect.closeTo(2.59, 2) } },
      { id: 'mix-weigh', name: 'potassium ferricyanide', said: { amount: expect.closeTo(37.41, 2) } },
    ]);
  });

  it('too much of a liquid stays the question', () => {
    const c = new Conversation();
    c.begin('ecn2-fixer', 1000);
    c.reads(3);
    c.dissolved();
    const asked = ids(c.log.at(-1) as Exchange);
    expect(ids(allIn(c, 'oz'))).toEqual(asked);
    expect(c.state.open?.question).not.toBeNull();
  });
});

describe('ten times too much', () => {
  it('asks about the point', () => {
    const c = atCarbonate();
    expect(c.reads(153.6).messages[0]).toMatchObject({ id: 'mix-ask-tenfold', direction: 'more' });
    expect(ids(c.yes())).toEqual(['mix-weigh-again']);
  });
});
