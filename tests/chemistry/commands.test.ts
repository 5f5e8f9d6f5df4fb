import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { registerMix } from '../../src/app/commands/mix.js';
import { registerShelf } from '../../src/app/commands/shelf.js';
import { Refusal } from '../../src/app/exit.js';
import type { ShelfItem } from '../../src/chemistry/shelf/plan.js';
import type { Fact } from '../../src/world/fact.js';

/** The two commands on a shelf in memory. */
function bench(shelf: ShelfItem[] = []) {
  const lines: string[] = [];
  const facts: Fact[] = [];
  let items = shelf;
  const deps = {
    readShelf: () => items,
    recordFacts: async (told: Fact[]) => {
      facts.push(...told);
      for (const f of told) {
        if (f.type === 'shelf-set') {
          const { type: _t, ...item } = f;
          items = [
            ...items.filter((i) => i.substance !== item.substance),
            { ...items.find((i) => i.substance === item.substance), ...item },
          ];
        }
        if (f.type === 'shelf-used')
          items = items.map((i) => (i.substance === f.substance ? { ...i, massG: i.massG - f.massG } : i));
      }
    },
    now: () => new Date(2026, 3, 2, 10, 30),
    print: (line: string) => void lines.push(line),
  };
  const run = async (...args: string[]): Promise<string[]> => {
    lines.length = 0;
    const program = new Command().exitOverride();
    registerMix(program, deps);
    registerShelf(program, deps);
    await program.parseAsync(args, { from: 'user' });
    return [...lines];
  };
  return { run, facts };
}

describe('tankside mix', () => {
  it('JSON: components in mixing order, form, amount, tolerance, pH, cautions, keep-until', async () => {
    const { run } = bench();
    const out = JSON.parse((await run('mix', 'ecn2-developer', '--volume', '600ml', '--json')).join('\n'));
    expect(out).toMatchObject({
      recipe: 'ecn2-developer',
      volumeMl: 600,
      expectedPh: 10.28,
      phAim: 10.25,
      phTolerance: 0.05,
      keepUntil: '2026-04-16',
    });
    expect(out.components.map((c: { order: number }) => c.order)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(out.components[4]).toMatchObject({
      name: 'anhydrous sodium carbonate',
      form: 'anhydrous sodium carbonate',
      amount: 15.36,
      unit: 'g',
      toleranceG: expect.closeTo(0.256, 3),
    });
    expect(out.components.at(-1)).toMatchObject({ substance: 'cd3', amount: 2.4 });
    expect(out.components[0]).toMatchObject({ unit: 'ml', toleranceMl: expect.any(Number), optional: true });
    expect(out.cautions.join(' ')).toContain('H317');
    expect(out.cautions.join(' ')).toContain('The safety data sheet and your local rules decide.');
    expect(out.source).toContain('H-24.07');
  });

  it('takes the form that is on the shelf', async () => {
    const { run } = bench([{ substance: 'sodium-carbonate-monohydrate', massG: 500 }]);
    const out = JSON.parse((await run('mix', 'ecn2-developer', '--volume', '1l', '--json')).join('\n'));
    expect(out.components[4]).toMatchObject({
      form: 'sodium carbonate monohydrate',
      amount: expect.closeTo(29.95, 2),
    });
  });

  it('finds the volume for a tank and films', async () => {
    const { run } = bench();
    // four films at six a litre need 667 ml, more than the tank's 500, and 5 percent for losses
    const text = (await run('mix', 'ecn2-developer', '--tank', '500ml', '--films', '4')).join('\n');
    expect(text).toContain('ECN-2 developer, 700 ml');
  });

  it('records a mix and takes it off the shelf', async () => {
    const { run, facts } = bench([{ substance: 'potassium-ferricyanide', massG: 100 }]);
    await run('mix', 'ecn2-bleach', '--volume', '500ml', '--record');
    expect(facts[0]).toMatchObject({ type: 'mixed', batch: 'BLEACH-20260402-1030', volumeMl: 500 });
    expect((await run('shelf', 'have', 'ferricyanide')).join()).toMatch(/none|80\.0 g/);
    expect((await run('shelf', 'list')).join()).toContain('80.0 g');
  });

  it('prints a label', async () => {
    const label = (await bench().run('mix', 'ecn2-fixer', '--volume', '1l', '--label')).join('\n');
    expect(label).toContain('ECN-2 FIXER');
    expect(label).toContain('keep until 2026-07-01');
  });

  it.each([
    [
      ['mix', 'ecn3-developer', '--volume', '600ml'],
      /There is no recipe "ecn3-developer"\. There are: ecn2-prebath/,
    ],
    [['mix', 'ecn2-developer', '--volume', 'lots'], /"lots" is not a volume; write it like 600ml/],
    [['mix', 'ecn2-developer', '--volume', '3ml'], /from 20 millilitres to 50 litres/],
    [['mix', 'ecn2-developer'], /Say how much/],
    [['mix', 'ecn2-developer', '--films', 'two'], /not a number of films/],
    [['mix', 'ecn2-developer', '--films', '0'], /not a number of films/],
    [['mix', 'ecn2-developer', '--volume', '600ml', '--scale', '0g'], /steps above 0/],
    [['shelf', 'set', 'unobtainium', '500g'], /The shelf knows no "unobtainium"/],
    [['shelf', 'set', 'sodium carbonate', '500g'], /sodium-carbonate-monohydrate/],
    [['shelf', 'set', 'cd3', 'some'], /"some" is not an amount/],
    [['shelf', 'set', 'cd3', '50g', '--purity', '98'], /between 0 and 1/],
  ])('%j is refused with one sentence', async (args, why) => {
    const failed = bench().run(...args);
    await expect(failed).rejects.toThrow(Refusal);
    await expect(failed).rejects.toThrow(why);
  });

  it('lists the recipes', async () => {
    const listed = await bench().run('mix');
    for (const id of [
      'ecn2-prebath',
      'ecn2-developer',
      'ecn2-stop',
      'ecn2-stop-vinegar',
      'ecn2-bleach',
      'ecn2-fixer',
      'ecn2-fixer-sodium',
      'ecn2-final-rinse',
    ]) {
      expect(listed.some((l) => l.startsWith(id))).toBe(true);
    }
  });
});

describe('tankside shelf', () => {
  it('sets, adds, lists and plans with cost per film', async () => {
    const { run } = bench();
    await run('shelf', 'set', 'potassium-ferricyanide', '0.5kg', '--price', '40', '--purity', '0.98');
    await run('shelf', 'add', 'potassium ferricyanide', '100g');
    await run('shelf', 'set', 'sodium-bromide', '5g', '--price', '20');
    const list = await run('shelf', 'list');
    expect(list[0]).toContain('600.0 g');
    expect(list[0]).toContain('purity 0.98');
    const plan = JSON.parse(
      (await run('shelf', 'plan', 'ecn2-bleach', '--volume', '1l', '--json')).join('\n'),
    );
    // 40 g at 98 percent is 40.816 g, at 40 a kilogram; 25 g of bromide at 20
    expect(plan.cost).toBeCloseTo((40 / 0.98) * 0.04 + 25 * 0.02, 3);
    expect(plan.costPerFilm).toBeCloseTo(plan.cost / 12, 3);
    expect(plan.short).toEqual([expect.objectContaining({ substance: 'sodium-bromide', need: 25, have: 5 })]);
  });

  it('says what a jar can do when it is put up', async () => {
    const said = await bench().run('shelf', 'set', 'sodium hydroxide', '250g');
    expect(said.join()).toContain('burns skin and eyes severely (H314)');
  });
});
