import { describe, expect, it } from 'vitest';
import { planBatch } from '../../../src/chemistry/batch.js';
import { whatIf } from '../../../src/chemistry/contamination.js';
import { explainPh } from '../../../src/chemistry/effects.js';
import { recipes } from '../../../src/chemistry/recipes/index.js';
import { cautionsForSubstance } from '../../../src/chemistry/safety/cautions.js';
import { hazardsOf } from '../../../src/chemistry/safety/hazards.js';
import { substanceById } from '../../../src/chemistry/substances.js';
import { bottlesPhrase } from '../../../src/language/languages/english/phrases/bottles.js';
import { ecn2Ferricyanide } from '../../../src/process/sheets/ecn2-ferricyanide.js';
import { ecn2FerricyanideHome } from '../../../src/process/sheets/ecn2-ferricyanide-home.js';
import { tempState } from '../../../src/process/temperature.js';
import { talk } from './talk.js';

/**
 * What a photographic chemist asked, in free words, and what has to be in the answer. Written from chemistry and from what labels
 * print; nothing here is a sentence of the grammars.
 */
const questions: readonly [string, RegExp, RegExp?][] = [
  // two things meet
  ['can i mix bleach and vinegar', /hydrogen cyanide.*household bleach.*chlorine/],
  ['what happens if bleach and acid meet', /hydrogen cyanide/],
  ['what if i poured water into acid', /never water into acid/],
  ['what if lemon juice gets into the fixer', /sulphur dioxide/],
  ['what happens when i add lye to the fixer', /ammonia/],
  ['is it safe to mix drain cleaner with fixer', /chloramine/],
  ['can i mix ammonia and household bleach', /chloramine/],
  ['does ammonia react with the bleach', /household bleach: .*chloramine/],
  ['can i mix acetone with peroxide', /explosive/],
  ['can i neutralize the stop bath with baking soda', /foams up/],
  ['i poured vinegar into the bleach', /hydrogen cyanide/],
  ['some vinegar got into the fixer', /sulphur dioxide/],
  ['i poured drain cleaner into the sink after the fixer', /chloramine/],
  ['what if i pour the bleach and the stop together down the drain', /hydrogen cyanide/],
  ['why must acid not touch the bleach', /hydrogen cyanide/],
  // what nobody knows is not cleared
  ['what if i poured 50 ml of clorox into 600 ml of stop', /I do not know clorox\. Do not pour it/],
  ['what if i put coffee in the developer', /I do not know coffee/],
  ['what if i add 1 gram of vitamin c to 600 ml of developer', /Do not use it/, /Use it\./],
  ['what if i poured 0.2 ml of toilet cleaner into 600 ml of developer', /Do not use it/, /Use it\./],
  // how much until it is ruined: from the verdict itself
  [
    'how much more prebath in the developer until it is ruined',
    /About \d+ millilitres .* ends .*It shows from .*no leave to pour/,
  ],
  ['how much bleach ruins the developer', /None: any/, /About/],
  ['how much household bleach can the fixer take', /chloramine.*None: any/],
  ['how much zorblax can the developer take', /./, /\d+ millilitres of zorblax|Even as much/],
  // cleaning and spills of what is no bath
  ['can i clean the tank with bleach', /poison gas/],
  ['i cleaned the spill with household bleach', /poison gas/],
  [
    'spilled fifty ml of household bleach on the table',
    /household chlorine bleach on the table.*chlorine/,
    /It is ferricyanide/,
  ],
  ['the spill is cleaned up', /Spill closed/],
  [
    'i knocked over the kitchen bleach',
    /household chlorine bleach.*chlorine.*chloramine/i,
    /It is ferricyanide/,
  ],
  ['the spill is cleaned up', /./],
  [
    'i spilled some bathroom cleaner with bleach',
    /Was it household bleach\?.*acid, ammonia or fixer|chlorine.*chloramine/,
  ],
  ['the spill is cleaned up', /./],
  ['spilled some bleach for the laundry', /chlorine.*chloramine/, /It is ferricyanide/],
  ['the spill is cleaned up', /./],
  ['i spilled bleach', /ferricyanide.*Was it household bleach\?.*acid, ammonia or fixer/],
  ['it was household bleach', /chlorine.*chloramine/],
  ['the spill is cleaned up', /./],
  ['spilled some turpentine on the floor', /flammable/],
  ['spilled 20 ml of zorblax on the floor', /I do not know zorblax/],
  // somebody is hurt: the first minute first
  ['i got some stop bath in my eye', /^Rinse the eye with water now/],
  ['vinegar in my eye', /^Rinse the eye/],
  ['developer on my hand', /^Take off what is soaked; rinse/],
  ['my hands are itching', /rinse the skin/],
  ['i drank some fixer', /^Rinse the mouth\. Do not bring on vomiting.*poison centre/],
  ['i inhaled fumes', /^Out into fresh air/],
  // smells and reactions that go on
  ['it smells of bitter almonds', /^Everybody out of the room now.*cyanide/],
  ['it smells of rotten eggs', /^Out into fresh air now.*hydrogen sulphide/],
  ['it smells like chlorine', /^Out into fresh air now/],
  ['there is smoke', /^Leave the room now/],
  ['the bottle is hissing', /^Open the cap/],
  // where it goes
  ['what goes down the drain', /silver.*ferricyanide/],
  ['where does used fixer go', /silver.*local rules/],
  ['how do i throw away the fixer', /silver/],
  ['can i throw the bleach away', /Never acid.*hydrogen cyanide/],
  ['can i pour fixer down the drain', /silver/],
  ['what do i do with used stop bath', /Never into the jug of bleach/],
  ['pouring the fixer into the sink', /silver/],
  ['how do i dispose of old cd3', /hazardous waste/],
  // dangers
  ['what should not meet the bleach', /keep acids.* away, or poison gas forms/],
  ['what are the dangers of formalin', /cancer/],
  ['is the fixer toxic', /keep chlorine cleaner, acids .* away, or poison gas forms/, /hydrogen cyanide/],
  ['what happens if i heat the bleach', /heat can give off hydrogen cyanide/],
  ['can i keep the fixer in a soda bottle', /never a bottle for food or drink/],
  ['can i drink coffee while mixing', /No food, no drink/],
  // time, push, checks, keeping, buying
  ['push one stop', /No table for a push is published/],
  ['i want to push one stop', /No table for a push/],
  ['can i develop longer at 38 degrees', /No time is published.*layers.*Bring it to 41\.1/],
  ['how do i correct for 39 degrees', /No time is published/],
  ['what is the specific gravity of the developer', /1\.035/],
  ['what ph should the bleach have', /No specific gravity is published/],
  ['how long does the developer keep', /14 days unused and 7 days once used/],
  ['shopping list for 3 films', /For 3 films.*CD-3.*keeps 14 days/],
  ['how are the control strips', /No control strip is noted yet/],
];

describe('a chemist’s questions in free words', () => {
  it('are all answered, dangers first, and nothing that nobody knows is cleared', async () => {
    const d = await talk(questions.map(([q]) => `${q}\n`).join(''));
    const wrong = questions.flatMap(([q, want, never]) => {
      const said = d.text(q);
      return want.test(said) && !never?.test(said) ? [] : [`${q}: ${said}`];
    });
    expect(wrong).toEqual([]);
  });

  it('under another process’s sheet no formula of this one is taken for its baths', async () => {
    const d = await talk(
      'begin the run\nwhat if i poured 20 ml of developer into 600 ml of bleach\nwhat if i poured household bleach into the bleach\nwhat are the cautions for the bleach\n',
      'c41',
    );
    expect(d.text('what if i poured 20 ml of developer into 600 ml of bleach')).toMatch(/no formula/);
    expect(d.text('what if i poured household bleach into the bleach')).toMatch(/chloramine/);
    expect(d.text('what are the cautions for the bleach')).not.toMatch(/cyanide/);
  });

  it('under another process’s sheet its bleach is no ferricyanide, before a run, in one and in what the bottles say', async () => {
    const d = await talk(
      `what if I pour bleach into the developer
what if bleach and stop meet
can i mix bleach and ammonia
begin the run
some bleach got into the fixer
what's in bottle 3
some bleach got into the developer
what's in bottle 1
developer is 37.8
film is loaded
pouring the developer from bottle 1
`,
      'c41',
    );
    expect(d.text('what if I pour bleach into the developer')).toMatch(/no formula of this process/);
    expect(d.text('what if bleach and stop meet')).toMatch(/no formula of this process/);
    expect(d.text('can i mix bleach and ammonia')).toMatch(/household bleach.*chloramine/);
    expect(d.text("what's in bottle 3")).toMatch(/some bleach got into it, nobody measured how much/);
    expect(d.kind('some bleach got into the developer')).toBe('warning');
    expect(d.kind('pouring the developer from bottle 1')).toBe('warning');
    for (const { line } of d.turns.filter((t) => t.line !== 'begin the run'))
      expect(d.text(line)).not.toMatch(/cyanide/i);
  });

  it('black and white off its aim: the chart’s time is offered, and the run goes by it', async () => {
    const d = await talk(
      'begin the run\nhow long do i develop at 22 degrees\nhow long do i develop at 30 degrees\nnext step\nnext step\nfilm is loaded\ndeveloper is 22\npouring the developer in from bottle two\ndeveloper is in\n',
      'black-and-white',
    );
    // D-76 type: 6:45 at 20 °C, about 5:40 at 22 by makers' charts (Kodak F-4017, from memory)
    expect(d.text('how long do i develop at 22 degrees')).toMatch(
      /5 minutes (?:3|4)\d seconds, in place of 6 minutes 45/,
    );
    expect(d.text('how long do i develop at 30 degrees')).toMatch(
      /charts run from 18\.0 degrees to 24\.0 degrees/,
    );
    expect(d.text('developer is in')).toMatch(/5 minutes (?:3|4)\d seconds, because the chart has it so/);
  });
});

const ofRecipe = (id: string) => recipes.find((r) => r.id === id) ?? recipes[0];

/** The rows of a chemist's review of an earlier state: each is held here, or in the test that is named. */
describe('the chemist’s review, row by row', () => {
  const mixed = (lines: string) => `${lines}\n`;

  it('1: stocks come off the start water, and 355 ml told for 300 are not called good', async () => {
    const d = await talk(
      mixed(
        'mix 300 ml of developer\nnext\nnext\n50 ml\ndissolved\n0.60 g\ndissolved\n50 ml\ndissolved\n0.36 g\ndissolved\n7.68 g\ndissolved\n0.81 g\ndissolved\n1.20 g\ndissolved\nmade up to 355 ml',
      ),
    );
    expect(d.text('next')).toMatch(/Put 1\d\d millilitres/);
    expect(d.text('made up to 355 ml')).toMatch(/85 percent strong.*not right/);
  });
  it('2: a bottle’s own batch is what is poured from it', async () => {
    const d = await talk(
      mixed(
        'mix one litre of home backing remover\nnext\nnext\n80 g\ndissolved\nmade up\nph is 8\nbottle one\nwhat if i poured 20 ml of backing remover into 600 ml of developer',
      ),
    );
    expect(d.text('what if i poured 20 ml of backing remover into 600 ml of developer')).toMatch(/Discard/);
  });
  it('3 to 6: what ruins is never called usable (every pair: tests/outside/chem-matrix)', async () => {
    const lines = [
      'bleach into 600 ml of prebath',
      'fixer into 600 ml of prebath',
      'developer into 600 ml of final rinse',
      'fixer into 600 ml of stop',
    ];
    const d = await talk(lines.map((l) => `what if i poured 20 ml of ${l}\n`).join(''));
    for (const l of lines) expect(d.text(`what if i poured 20 ml of ${l}`), l).toMatch(/Discard it/);
  });
  it('7: a batch past saving is marked, and the guard refuses it', async () => {
    const d = await talk(
      mixed(
        'mix one litre of prebath\nnext\nnext\n20 g\ndissolved\n100 g\ndissolved\n10 g\nno\ndissolved\nmade up\nnext\nbottle one\nread me the label\nbegin the run\nnext step\nnext step\nfilm is loaded\npouring the prebath in from bottle one',
      ),
    );
    expect(d.text('bottle one')).toMatch(/Do not use it/);
    expect(d.text('read me the label')).toMatch(/DO NOT USE/);
    expect(d.text('pouring the prebath in from bottle one')).toMatch(/^No\. .*failed its checks.*override/);
  });
  it('11: the run goes by the batch in the bottle', async () => {
    const d = await talk(
      mixed(
        'mix one litre of hypo fixer\nnext\nnext\n240 g\ndissolved\n10 g\ndissolved\n8.4 g\ndissolved\nmade up\nnext\nbottle five\nbegin the run\nhow long is the fixer',
      ),
    );
    expect(d.text('how long is the fixer')).toMatch(/4 minutes, because/);
  });
  it('13: persulphate is named with its hazards, and less than the whole of it', () => {
    const persulphate = substanceById('potassium-persulfate');
    const said = bottlesPhrase({
      id: 'replenish-is',
      liquid: 'bleach',
      bottle: 4,
      addMl: 0,
      removeMl: 0,
      regenerate: {
        persulphateG: 2.3,
        bromideG: 2,
        cautions: persulphate ? cautionsForSubstance(persulphate) : [],
      },
    });
    expect(said).toMatch(/no more, for too much persulphate frees bromine.*asthma.*allergy.*never acid/);
  });
  it('14: one verdict on a reading, and none finer than a thermometer', () => {
    const aim = { aimC: 41.1, minC: 41, maxC: 41.2 };
    expect([40.9, 41.1, 41.3, 42].map((t) => tempState(aim, t))).toEqual(['near', 'in', 'near', 'hot']);
  });
  it('18 and 29: the water of a mix is held against its recipe; form and purity are told aloud', async () => {
    const d = await talk(
      mixed(
        'mix 300 ml of prebath\nnext\nthe water is 60 degrees\nnext\nit is 98 percent pure\nstop mixing\nyes',
      ),
    );
    expect(d.text('the water is 60 degrees')).toMatch(/too hot: this is mixed at 27 to 38/);
    // 20 g a litre: 6.00 g pure, 6.12 g at 98 percent
    expect(d.text('it is 98 percent pure')).toMatch(/6\.12 grams/);
  });
  it('21: CD-3 is toxic when swallowed and irritates the eyes', () => {
    const cd3 = substanceById('cd3');
    expect(cd3 && hazardsOf(cd3).map((h) => h.code)).toEqual(
      expect.arrayContaining(['H301', 'H317', 'H319', 'H410']),
    );
  });
  it('22: the words for a bath say what it is and what it must not meet', async () => {
    const d = await talk(
      ['stop bath', 'prebath', 'fixer', 'developer']
        .map((bath) => `what are the cautions for the ${bath}\nmore\n`)
        .join(''),
    );
    const said = (bath: string): string => d.text(`what are the cautions for the ${bath}`);
    expect(said('stop bath')).toMatch(
      /keep bleach, .*fixer.* away, or poison gas forms\. it burns skin and eyes/i,
    );
    expect(d.text('more', 1)).toMatch(/sulphuric acid: it burns.*hydrogen cyanide/);
    expect(said('prebath')).toMatch(/sodium hydroxide, which burns/);
    expect(said('fixer')).toMatch(/keep chlorine cleaner, acids and caustic soda away, or poison gas forms/i);
    expect(d.text('more', 3)).toMatch(/chloramine.*ammonia.*poison centre/);
    expect(said('developer')).toMatch(/lasting skin allergy/);
    for (const bath of ['stop bath', 'fixer', 'developer'])
      expect(
        said(bath).replace(' Gloves, goggles, air. Say more for the rest.', '').split(' ').length,
      ).toBeLessThanOrEqual(20);
  });
  it('23 and 24: limits name where they are from; no sulphur dioxide at pH 10', () => {
    const poured = whatIf({ of: 'stop', volumeMl: 20 }, { of: 'developer', volumeMl: 600 });
    expect(poured.ok && poured.value.dangers).toEqual([]);
    expect(poured.ok && poured.value.restsOn.join()).toMatch(/from memory of Kodak/);
  });
  it('25: an impossible slip explains no pH', () => {
    const prebath = planBatch(ofRecipe('ecn2-prebath') as (typeof recipes)[number], 1000);
    const slips = prebath.ok ? explainPh(prebath.batch, 8.9) : [];
    expect(slips[0]).toMatchObject({ kind: 'left-out', name: 'sodium hydroxide' });
    expect(slips.some((s) => s.kind === 'ten-times' && s.name.includes('sulphate'))).toBe(false);
  });
  it('26 to 28: water is water, ferrocyanide takes up a proton, gas in a shut tank is said', async () => {
    const d = await talk(
      'what if i poured 50 ml of developer into 600 ml of water\nwhat if i poured 30 ml of home backing remover into 500 ml of stop\n',
    );
    expect(d.text('what if i poured 50 ml of developer into 600 ml of water')).toMatch(/waste/);
    expect(d.text('what if i poured 30 ml of home backing remover into 500 ml of stop')).toMatch(
      /^It gives off gas: keep the lid off/,
    );
    const met = whatIf({ of: 'fixer', volumeMl: 20 }, { of: 'bleach', volumeMl: 600 });
    expect(met.ok && met.value.phAfter).toBeGreaterThan(3);
  });
  it('30: a specific gravity is told, asked for, and shows a part left out', async () => {
    const d = await talk(
      mixed(
        'mix one litre of prebath\nnext\nnext\n20 g\ndissolved\n100 g\ndissolved\n1 g\ndissolved\nmade up\nthe hydrometer shows 1.02',
      ),
    );
    expect(d.text('made up')).toMatch(/hydrometer should show 1\.093/);
    expect(d.text('the hydrometer shows 1.02')).toMatch(/is off: it should be 1\.093/);
  });
  it('31 to 33: what has no source is gone from the home sheet, and the fixer has one name', () => {
    const warm = ecn2FerricyanideHome.steps.filter((s) =>
      ['pre-wet', 'prebath', 'backing-removal'].includes(s.id),
    );
    for (const s of warm) expect(s.temp?.maxC, s.id).toBeLessThanOrEqual(30);
    // the published table's own range; hand processing goes by the narrower of R. Schaller (2004), 27 ± 3 °C
    const removal = ecn2Ferricyanide.steps.find((s) => s.id === 'backing-removal');
    expect(removal?.temp).toMatchObject({ minC: 27, maxC: 38, source: expect.stringContaining('H-24.07') });
    expect(ofRecipe('ecn2-fixer')?.source).toMatch(/F-34a/);
  });
  it('34: one figure for the films a bath still does', async () => {
    const d = await talk('begin the run\nhow much can the bleach still do\n');
    expect(d.text('how much can the bleach still do')).toMatch(
      /About 7 more 36 exposure films; 4 to be safe\./,
    );
  });
  /** The rest: 8 to 10, 19, 20 in the questions above; 12 in tests/chemistry/mix-desk; 15 to 17 in tests/chemistry. */
});
