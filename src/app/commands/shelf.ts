import type { Command } from 'commander';
import { parseMassG, parseVolumeMl } from '../../chemistry/quantities.js';
import { disposalOf } from '../../chemistry/safety/disposal.js';
import { hazardLine } from '../../chemistry/safety/hazards.js';
import { type DayList, dayList, usualBathMl } from '../../chemistry/shelf/buying.js';
import { amountOf, type MixPlan, planMix, type ShelfItem } from '../../chemistry/shelf/plan.js';
import { formsNamed, type Substance, substanceById } from '../../chemistry/substances.js';
import type { Fact } from '../../world/fact.js';
import { Refusal } from '../exit.js';
import { quantityOr, recipeOr, type ShelfDeps, volumeFor } from './mix.js';

export function registerShelf(program: Command, deps: ShelfDeps): void {
  const shelf = program
    .command('shelf')
    .description('dry chemicals and acids in stock')
    .addHelpText('after', '\nExample: tankside shelf set sodium-carbonate-anhydrous 500g --price 9');
  shelf
    .command('list')
    .description('what is there')
    .option('--json', 'as JSON')
    .action(async (options: { json?: boolean }) => {
      const items = (await deps.readShelf()).filter((i) => i.massG > 0);
      if (options.json === true) return deps.print(JSON.stringify(items, null, 2));
      if (items.length === 0)
        return deps.print('The shelf is empty. Add a jar: tankside shelf set NAME 500g');
      for (const item of items) deps.print(row(item));
    });
  shelf
    .command('have <substance>')
    .description('how much there is of one chemical, in any form')
    .action(async (name: string) => {
      const forms = formsOr(name);
      const items = (await deps.readShelf()).filter(
        (i) => i.massG > 0 && forms.some((f) => f.id === i.substance),
      );
      if (items.length === 0)
        deps.print(`There is none on the shelf: ${forms.map((f) => f.name).join(', ')}.`);
      for (const item of items) deps.print(row(item));
    });
  for (const verb of ['set', 'add'] as const) {
    shelf
      .command(`${verb} <substance> <mass>`)
      .description(verb === 'set' ? 'says how much there is of a chemical' : 'adds to what there is')
      .option('--purity <fraction>', 'share of the jar that is the chemical, like 0.99')
      .option('--price <perKg>', 'price of a kilogram')
      .action(async (name: string, mass: string, options: { purity?: string; price?: string }) => {
        const form = oneFormOr(name);
        const before = (await deps.readShelf()).find((i) => i.substance === form.id)?.massG ?? 0;
        const massG = quantityOr(parseMassG, mass) + (verb === 'add' ? before : 0);
        await deps.recordFacts([shelfSet(form, massG, options)]);
        deps.print(`${form.name}: ${massG} g.`);
        const hazards = hazardLine(form);
        if (hazards !== null) deps.print(`! ${hazards}. The safety data sheet decides.`);
      });
  }
  shelf
    .command('buy')
    .description('one shopping list for a day of films, in whole packages')
    .requiredOption('--films <count>', '135-36 films, or as much area')
    .option('--tank <amount>', 'how much the tank takes', `${usualBathMl}ml`)
    .option('--json', 'as JSON')
    .action(async (options: { films: string; tank: string; json?: boolean }) => {
      const tankMl = quantityOr(parseVolumeMl, options.tank);
      const day = dayList(Number(options.films), tankMl, await deps.readShelf());
      if (!day.ok) throw new Refusal(day.why);
      if (options.json === true) deps.print(JSON.stringify(day.list, null, 2));
      else for (const line of dayText(day.list)) deps.print(line);
    });
  shelf
    .command('waste [bath]')
    .description('where a used bath usually goes, and what it must not meet')
    .action((bath: string | undefined) => {
      for (const line of disposalOf(bath === undefined ? undefined : recipeOr(bath).liquid)) deps.print(line);
    });
  shelf
    .command('plan <recipe>')
    .description('what a mix takes, what is short, and the cost per film')
    .option('--volume <amount>', 'how much to mix, like 600ml or 1.5l')
    .option('--tank <amount>', 'how much the tank takes; with --films, finds the volume')
    .option('--films <count>', '135-36 films, or as much area, to be developed')
    .option('--json', 'as JSON')
    .action(
      async (name: string, options: { volume?: string; tank?: string; films?: string; json?: boolean }) => {
        const recipe = recipeOr(name);
        const planned = planMix(recipe, volumeFor(recipe, options), await deps.readShelf());
        if (!planned.ok) throw new Refusal(planned.why);
        if (options.json === true) deps.print(JSON.stringify(asJson(planned.plan), null, 2));
        else for (const line of asText(planned.plan)) deps.print(line);
      },
    );
}

/** What to buy, what to mix and how long it keeps, and where it goes afterwards. */
function dayText(list: DayList): string[] {
  const amount = (n: number, unit: string): string => `${n.toFixed(n < 10 ? 2 : 0)} ${unit}`;
  return [
    `For ${list.films} ${list.films === 1 ? 'film' : 'films'} of 36:`,
    ...list.baths.map(
      (b) =>
        `  ${`${b.volumeMl} ml`.padEnd(9)}${b.name}, keeps ${b.unusedDays} days unused, ${b.usedDays} used`,
    ),
    list.buy.length === 0 ? 'Nothing to buy: all of it is on the shelf.' : 'To buy:',
    ...list.buy.map(
      (b) =>
        `  ${`${b.packs.count} x ${b.packs.size} ${b.unit}`.padEnd(13)}${b.name}` +
        ` (needs ${amount(b.need, b.unit)}${b.have > 0 ? `, has ${amount(b.have, b.unit)}` : ''})` +
        `${b.price === null ? '' : `, ${b.price.toFixed(2)}`}${b.optional ? ', may be left out' : ''}`,
    ),
    ...(list.cost > 0
      ? [
          `Cost: ${list.cost.toFixed(2)}${list.unpriced.length === 0 ? '' : `, not counting what has no price: ${list.unpriced.join(', ')}`}.`,
        ]
      : []),
    ...disposalOf(undefined),
  ];
}

function row(item: ShelfItem): string {
  const s = substanceById(item.substance);
  const liquid = s?.measure === 'ml' ? ` (${amountOf(s, item.massG).toFixed(0)} ml)` : '';
  const more = [
    item.purity === undefined ? null : `purity ${item.purity}`,
    item.pricePerKg === undefined ? null : `${item.pricePerKg} a kilogram`,
    item.date ?? null,
  ].filter((t) => t !== null);
  const tail = more.length === 0 ? '' : `  ${more.join(', ')}`;
  return `${(s?.name ?? item.substance).padEnd(44)}${item.massG.toFixed(1).padStart(9)} g${liquid}${tail}`;
}

/** @throws Refusal for a name that means nothing */
function formsOr(name: string): Substance[] {
  const forms = formsNamed(name);
  if (forms.length === 0) {
    throw new Refusal(
      `The shelf knows no "${name}". Write it as on the jar, like "sodium carbonate monohydrate".`,
    );
  }
  return forms;
}

/** @throws Refusal when the hydrate or strength was not said */
function oneFormOr(name: string): Substance {
  const forms = formsOr(name);
  const [only] = forms;
  if (only === undefined || forms.length > 1) {
    throw new Refusal(`Which "${name}"? Read the jar and give one of: ${forms.map((f) => f.id).join(', ')}.`);
  }
  return only;
}

function shelfSet(form: Substance, massG: number, options: { purity?: string; price?: string }): Fact {
  const purity = options.purity === undefined ? undefined : Number(options.purity);
  const price = options.price === undefined ? undefined : Number(options.price);
  if (purity !== undefined && !(purity > 0 && purity <= 1)) {
    throw new Refusal(`A purity lies between 0 and 1, like 0.99, not "${options.purity}".`);
  }
  if (price !== undefined && !(price >= 0 && Number.isFinite(price))) {
    throw new Refusal(`"${options.price}" is not a price; write a number, the cost of a kilogram.`);
  }
  return {
    type: 'shelf-set',
    substance: form.id,
    massG,
    ...(purity === undefined ? {} : { purity }),
    ...(price === undefined ? {} : { pricePerKg: price }),
  };
}

const rounded = (n: number): number => Math.round(n * 1000) / 1000;

function asJson(plan: MixPlan): Record<string, unknown> {
  return {
    recipe: plan.batch.recipe.id,
    volumeMl: plan.batch.volumeMl,
    uses: plan.batch.lines.map((l) => ({ substance: l.form.id, amount: rounded(l.amount), unit: l.unit })),
    short: plan.short.map((s) => ({ ...s, need: rounded(s.need), have: rounded(s.have) })),
    cost: rounded(plan.cost),
    costPerFilm: rounded(plan.costPerFilm),
    films: rounded(plan.filmsServed),
    unpriced: plan.unpriced,
  };
}

function asText(plan: MixPlan): string[] {
  const { batch, short } = plan;
  return [
    `${batch.recipe.name}, ${batch.volumeMl} ml:`,
    ...batch.lines.map(
      (l) => `  ${l.form.name.padEnd(44)}${l.amount.toFixed(l.unit === 'g' ? 2 : 1).padStart(9)} ${l.unit}`,
    ),
    short.length === 0
      ? 'All of it is on the shelf.'
      : `Short: ${short.map((s) => `${(s.need - s.have).toFixed(2)} ${s.unit} ${s.name}${s.optional ? ' (optional)' : ''}`).join(', ')}.`,
    `Cost ${plan.cost.toFixed(2)}, or ${plan.costPerFilm.toFixed(2)} a film for ${Math.floor(plan.filmsServed)} films of 36.`,
    ...(plan.unpriced.length === 0 ? [] : [`Without a price: ${plan.unpriced.join(', ')}.`]),
  ];
}
