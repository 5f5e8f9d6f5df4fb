import type { Command } from 'commander';
import { type BatchLine, keepUntil, refusalOf } from '../../chemistry/batch.js';
import { labelText, openMix } from '../../chemistry/coach/coach.js';
import { emptyLine } from '../../chemistry/coach/state.js';
import { parseMassG, parseVolumeMl, type QuantityResult } from '../../chemistry/quantities.js';
import { findRecipe, type Recipe, recipes } from '../../chemistry/recipes/index.js';
import { volumeNeeded } from '../../chemistry/recipes/volume.js';
import { cautionsFor } from '../../chemistry/safety/cautions.js';
import { type MixPlan, planMix, type ShelfItem } from '../../chemistry/shelf/plan.js';
import { substanceById } from '../../chemistry/substances.js';
import { writtenLines } from '../../language/languages/english/numbers.js';
import type { Fact } from '../../world/fact.js';
import { usedFact } from '../desks/mix/facts.js';
import { Refusal } from '../exit.js';
import { localDate } from '../local-date.js';

/** What the mixing and shelf commands need of the rest of the app. */
export interface ShelfDeps {
  readShelf(): ShelfItem[] | Promise<ShelfItem[]>;
  recordFacts(facts: Fact[]): Promise<void>;
  now(): Date;
  print(line: string): void;
}

interface MixOptions {
  volume?: string;
  tank?: string;
  films?: string;
  scale: string;
  json?: boolean;
  label?: boolean;
  record?: boolean;
}

export function registerMix(program: Command, deps: ShelfDeps): void {
  program
    .command('mix [recipe]')
    .description('what a bath is mixed from, in order; without a recipe, the recipes there are')
    .option('--volume <amount>', 'how much to mix, like 600ml or 1.5l')
    .option('--tank <amount>', 'how much the tank takes; with --films, finds the volume')
    .option('--films <count>', '135-36 films, or as much area, to be developed')
    .option('--scale <step>', 'smallest step of your scale', '0.01g')
    .option('--json', 'as JSON')
    .option('--label', 'the label for the bottle')
    .option('--record', 'note it as mixed today, and take it off the shelf')
    .addHelpText(
      'after',
      '\nExample: tankside mix ecn2-developer --volume 600ml\nExit code 2: a recipe or an amount cannot be used.',
    )
    .action(async (name: string | undefined, options: MixOptions) => {
      if (name === undefined) {
        for (const r of recipes) deps.print(`${r.id.padEnd(24)} ${r.name}`);
        return;
      }
      const recipe = recipeOr(name);
      const volumeMl = volumeFor(recipe, options);
      const stepG = quantityOr(parseMassG, options.scale);
      if (stepG <= 0)
        throw new Refusal(`A scale has steps above 0; write --scale 0.01g, not ${options.scale}.`);
      const shelf = await deps.readShelf();
      const result = planMix(recipe, volumeMl, shelf, stepG);
      if (!result.ok) throw new Refusal(result.why);
      const refused = refusalOf(result.plan.batch, { forms: result.plan.forms, scaleStepG: stepG });
      if (refused !== null) throw new Refusal(refused);
      // an empty shelf is one nobody keeps, not one where all is missing
      const plan = shelf.length === 0 ? { ...result.plan, short: [] } : result.plan;
      const date = localDate(deps.now().getTime());
      const batch = `${recipe.short}-${date.replace(/-/g, '')}-${timeMark(deps.now())}`;
      if (options.label === true) deps.print(labelFor(recipe, plan, date, batch));
      else if (options.json === true) deps.print(JSON.stringify(asJson(recipe, plan, date), null, 2));
      else for (const line of asText(recipe, plan, date)) deps.print(line);
      if (options.record === true) {
        await deps.recordFacts(recorded(recipe, plan, batch));
        if (options.json !== true) deps.print(`Noted as batch ${batch}, and taken off the shelf.`);
      }
    });
}

/** A recipe by name. @throws Refusal with the ids there are */
export function recipeOr(name: string): Recipe {
  const found = findRecipe(name);
  if (!found.ok) throw new Refusal(found.why);
  return found.recipe;
}

/** @throws Refusal with what was expected */
function valueOr(result: QuantityResult): number {
  if (!result.ok) throw new Refusal(result.why);
  return result.value;
}

/**
 * A quantity as people of both habits write it ("1,000g", "0,5 kg").
 * @throws Refusal where it may mean two, with both
 */
export function quantityOr(parse: (text: string) => QuantityResult, text: string): number {
  const results = writtenLines(text).map(parse);
  const [first = parse(text), second] = results.filter((r) => r.ok);
  if (first.ok && second?.ok)
    throw new Refusal(
      `"${text}" may mean ${first.value} or ${second.value}. Write it without a mark for thousands, and with a point for decimals.`,
    );
  return valueOr(first.ok ? first : (results[0] ?? first));
}

export function volumeFor(recipe: Recipe, options: Pick<MixOptions, 'volume' | 'tank' | 'films'>): number {
  if (options.volume !== undefined) return quantityOr(parseVolumeMl, options.volume);
  if (options.tank === undefined && options.films === undefined) {
    throw new Refusal('Say how much: --volume 600ml, or --tank 500ml --films 2.');
  }
  const tankMl = options.tank === undefined ? 0 : quantityOr(parseVolumeMl, options.tank);
  const films = options.films === undefined ? 0 : Number(options.films);
  if (!Number.isInteger(films) || (options.films !== undefined && films < 1))
    throw new Refusal(`"${options.films}" is not a number of films; write 1, 2 or more.`);
  return volumeNeeded(recipe, tankMl, films);
}

const rounded = (n: number, digits: number): number => Math.round(n * 10 ** digits) / 10 ** digits;
const pad = (n: number): string => String(n).padStart(2, '0');

const timeMark = (d: Date): string => `${pad(d.getHours())}${pad(d.getMinutes())}`;

function jsonLine(line: BatchLine, order: number): Record<string, unknown> {
  return {
    order,
    name: substanceById(line.component.substance)?.name ?? line.component.substance,
    form: line.form.name,
    substance: line.form.id,
    amount: rounded(line.amount, 3),
    unit: line.unit,
    [line.unit === 'g' ? 'toleranceG' : 'toleranceMl']: rounded(line.tolerance, 3),
    ...(line.stock === null ? {} : { stock: line.stock }),
    ...(line.component.optional === true ? { optional: true } : {}),
    ...(line.component.note === undefined ? {} : { note: line.component.note }),
  };
}

function asJson(recipe: Recipe, plan: MixPlan, date: string): Record<string, unknown> {
  const { batch } = plan;
  const { lowC, highC } = recipe.startWater;
  return {
    recipe: recipe.id,
    name: recipe.name,
    volumeMl: batch.volumeMl,
    startWater: { volumeMl: batch.startWaterMl, lowC, highC },
    components: batch.lines.map((l, i) => jsonLine(l, i + 1)),
    expectedPh: batch.expectedPh === null ? null : rounded(batch.expectedPh, 2),
    phAim: recipe.ph?.aim ?? null,
    phTolerance: recipe.ph?.tolerance ?? null,
    specificGravity: recipe.specificGravity?.aim ?? null,
    cautions: cautionsFor(
      recipe,
      batch.lines.map((l) => l.form),
    ),
    keepUntil: keepUntil(recipe, date),
    films: rounded(plan.filmsServed, 1),
    short: plan.short.map((s) => ({ form: s.name, missing: rounded(s.need - s.have, 3), unit: s.unit })),
    source: recipe.source,
  };
}

function asText(recipe: Recipe, plan: MixPlan, date: string): string[] {
  const { batch } = plan;
  const { lowC, highC } = recipe.startWater;
  const width = Math.max(...batch.lines.map((l) => l.form.name.length));
  const amount = (n: number, unit: 'g' | 'ml'): string =>
    `${n.toFixed(unit === 'g' ? 2 : n < 1 ? 2 : 1)} ${unit}`;
  const short = plan.short.map(
    (s) => `${amount(s.need - s.have, s.unit)} ${s.name}${s.optional ? ' (optional)' : ''}`,
  );
  return [
    `${recipe.name}, ${batch.volumeMl} ml`,
    `  water, ${lowC} to ${highC} °C`.padEnd(width + 8) + amount(batch.startWaterMl, 'ml').padStart(12),
    ...batch.lines.flatMap((l, i) => [
      `  ${i + 1}. ${l.form.name.padEnd(width + 3)}${amount(l.amount, l.unit).padStart(12)}  ${l.stock === null ? `± ${amount(l.tolerance, l.unit)}` : 'from stock'}` +
        `${l.component.optional === true ? '  (optional)' : ''}`,
      ...(l.stock === null
        ? []
        : [
            `     stock: ${amount(l.stock.amount, l.unit)} in ${l.stock.inMl} ml of water, take ${l.stock.takeMl} ml; keeps ${l.stock.keepDays} days`,
          ]),
      ...(l.purity === 1 ? [] : [`     at a purity of ${rounded(l.purity * 100, 1)} %`]),
    ]),
    `  water to make ${batch.volumeMl} ml`,
    'Read the volume at eye level, at the bottom of the curve; a bath made up at 40 °C is 0.6 % short at 20 °C.',
    ...(recipe.specificGravity === undefined
      ? []
      : [
          `Specific gravity ${recipe.specificGravity.aim} ± ${recipe.specificGravity.tolerance} by hydrometer, at the temperature printed on it.`,
        ]),
    ...(recipe.time === undefined
      ? []
      : [
          `Its step lasts ${recipe.time.factor} times as long${recipe.time.atLeastS === undefined ? '' : `, at least ${recipe.time.atLeastS} s`}: ${recipe.time.why}.`,
        ]),
    ...(recipe.ph === null
      ? []
      : [
          `pH at 25 °C: ${recipe.ph.aim} ± ${recipe.ph.tolerance}, expected ${batch.expectedPh?.toFixed(2) ?? 'unknown'}`,
        ]),
    `Keeps unused until ${keepUntil(recipe, date)}; good for about ${Math.floor(plan.filmsServed)} films of 36.`,
    ...(short.length === 0 ? [] : [`Short on the shelf: ${short.join(', ')}.`]),
    ...cautionsFor(
      recipe,
      batch.lines.map((l) => l.form),
    ).map((c) => `! ${c}`),
    `Source: ${recipe.source}`,
  ];
}

function labelFor(recipe: Recipe, plan: MixPlan, date: string, batch: string): string {
  const opened = openMix({
    recipe: recipe.id,
    volumeMl: plan.batch.volumeMl,
    batch,
    date,
    forms: plan.forms,
  });
  if (!opened.ok) return opened.why;
  // every part weighed as planned
  const lines = plan.batch.lines.map((l) => ({ ...emptyLine(), inWater: l.amount, settled: true }));
  return labelText({ ...opened.mix, phase: 'done', lines });
}

function recorded(recipe: Recipe, plan: MixPlan, batch: string): Fact[] {
  const { volumeMl, lines } = plan.batch;
  return [
    { type: 'mixed', batch, recipe: recipe.id, liquid: recipe.liquid, volumeMl },
    ...lines.map((l) => usedFact(l, l.amount, batch)),
  ];
}
