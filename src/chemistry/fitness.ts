import { type Gas, gasesOf, lidPressureL, pressing } from './gas.js';
import { type BathLimits, type Limit, limitsOf, unnamed } from './limits.js';
import { freshBath, type KnownPart, knownPart, type Part, recipeNamed, together } from './mixture.js';
import { type Recipe, recipes } from './recipes/index.js';
import { type IncompatiblePair, pairsBetweenClasses } from './safety/incompatible.js';
import { type Bath, equilibriumOf, molarity, pourTogether, withSubstance } from './solution/bath.js';
import { oxidise, type Reaction } from './solution/reactions.js';
import type { Equilibrium } from './solution/solver.js';
import type { TotalId } from './solution/species.js';
import { type Substance, substanceById } from './substances.js';

/**
 * What a bath is good for. `fit`: as it is. `fit-changed-time`: with `time`. `restorable`: after `add`, which the
 * model has checked. `discard`: for the waste. `unknown`: something in it is not known; it is not to be used.
 */
export type FitnessVerdict = 'fit' | 'fit-changed-time' | 'restorable' | 'discard' | 'unknown';

/** How far one figure is off: nothing felt, felt, the end of the bath, or not known. */
export type Level = 'use' | 'care' | 'discard' | 'unknown';

/** One figure held against its limit. */
export interface Finding {
  id: 'ph' | 'strength' | 'part' | 'foreign' | 'danger' | 'gas' | 'check' | 'model' | 'unknown';
  /** what it is about: a kind of matter, a danger, a name */
  of?: string;
  value: number;
  unit: 'pH' | 'fraction' | 'g/l' | 'mol/l' | 'ml/l' | 'litres' | '';
  level: Level;
  why: string;
  source: string;
}

/** Something to stir in, to bring a bath back. */
export interface Addition {
  /** substance id, or the recipe id of fresh bath */
  of: string;
  name: string;
  amount: number;
  unit: 'g' | 'ml';
  /** of a recipe: its parts for that volume, without the water */
  dry?: boolean;
}

/** How long the step lasts with this bath: times the sheet's time, and at least so many seconds. */
export interface ChangedTime {
  factor: number;
  atLeastS?: number;
  why: string;
  source: string;
}

export interface FitnessAsk {
  /** what the bath is meant to be: recipe id, or a liquid's id for its first recipe */
  bath: string;
  /** all that is in it, its own bath among them */
  parts: readonly Part[];
  /** what it is really made of, when the weighings are known; `parts` then only says what else was poured in */
  made?: Bath;
  /** what a check at mixing or a reading since then has shown */
  checks?: { ok: boolean; why: readonly string[] };
}

export interface Fitness {
  verdict: FitnessVerdict;
  /** why, in whole clauses for the ear, worst first; empty when fit */
  reasons: string[];
  findings: Finding[];
  dangers: IncompatiblePair[];
  gases: Gas[];
  /** gas enough to press on the lid of a shut tank: open it first */
  openLid: boolean;
  reactions: Reaction[];
  /** restorable only */
  add: Addition[];
  /** fit-changed-time only */
  time?: ChangedTime;
  /** pH of the recipe and of what there is; null when not modelled */
  phFresh: number | null;
  ph: number | null;
  /** working part now as a share of the recipe's concentration; null when it has none */
  strength: number | null;
  volumeMl: number;
  /** sources of the findings that set the verdict */
  sources: string[];
}

/** It may be used, if need be for another time than usual. */
export const isUsable = ({ verdict }: Fitness): boolean =>
  verdict === 'fit' || verdict === 'fit-changed-time';

const rank: Record<Level, number> = { use: 0, care: 1, unknown: 2, discard: 3 };

/** A hair of rounding must not turn "at the limit" into "over it". */
const levelOf = (value: number, limit: { use: number; care: number }): Level =>
  value <= limit.use * (1 + 1e-9) + 1e-9
    ? 'use'
    : value <= limit.care * (1 + 1e-9) + 1e-9
      ? 'care'
      : 'discard';

/** g/mol for saying a foreign amount in g per litre. source: IUPAC standard atomic weights 2021 */
const gramsPerMol: Readonly<Partial<Record<TotalId, number>>> = {
  thiosulfate: 112.1,
  ferricyanide: 211.9,
  ferrocyanide: 211.9,
  Br: 79.9,
  cd3: 436.5,
  cd4: 292.4,
  sulfite: 80.06,
  borate: 61.83,
  carbonate: 60.01,
  I: 126.9,
  acetate: 60.05,
  citrate: 192.1,
  phosphate: 94.97,
  ammonia: 17.03,
  hypochlorite: 51.45,
  permanganate: 118.9,
  chromate: 116.0,
  peroxide: 34.01,
  persulfate: 192.1,
  thiocyanate: 58.08,
  formaldehyde: 30.03,
  sulfide: 32.06,
  tetrathionate: 224.2,
};

/** Goods without a formula that some recipe names. */
const ownGoods: ReadonlySet<string> = new Set(recipes.flatMap((r) => r.components.map((c) => c.substance)));

const plainSalts: readonly TotalId[] = ['Na', 'K', 'Cl', 'sulfate'];

/**
 * The verdict of one bath, from what it is made of. Model: ionic equilibrium at 25 °C; reactions run to their end, the
 * developing agent first, which is the worst case. Pure. A bath without limits, or with something in it that nobody
 * knows, is `unknown`, never fit.
 */
export function fitness(ask: FitnessAsk): Fitness {
  const recipe = recipeNamed(ask.bath);
  const parts = ask.parts.map(knownPart);
  const limits = recipe === undefined ? undefined : limitsOf(recipe);
  if (recipe === undefined || limits === undefined) return notKnown(ask, parts);
  const poured = ask.made === undefined ? together(parts) : pourTogether(ask.made, together(parts));
  const pairs = dangersIn(parts, poured);
  const looked = look(recipe, limits, poured);
  const findings = [
    ...dangerFindings(pairs),
    ...parts.filter((p) => p.kind === 'unknown').map(unknownFinding),
    ...looked.findings,
    ...failedChecks(ask),
  ];
  const base: Fitness = {
    verdict: 'fit',
    reasons: [],
    findings,
    dangers: pairs,
    gases: looked.gases,
    openLid: pressing(looked.gases) > lidPressureL,
    reactions: looked.reactions,
    add: [],
    phFresh: looked.phFresh,
    ph: looked.ph,
    strength: looked.strength,
    volumeMl: poured.volumeMl,
    sources: [],
  };
  return decide(base, recipe, limits, poured);
}

/** Liquids for which no recipe or no limits are kept, and substances. Dangers are still named. */
function notKnown(ask: FitnessAsk, parts: KnownPart[]): Fitness {
  const mixed = together(parts);
  const pairs = dangersIn(parts, mixed);
  const name = ask.bath.replace(/-/g, ' ');
  const why = `nothing is known of ${name} as a bath`;
  const findings: Finding[] = [
    ...dangerFindings(pairs),
    ...parts.filter((p) => p.kind === 'unknown').map(unknownFinding),
    {
      id: 'unknown',
      of: name,
      value: 1,
      unit: '',
      level: 'unknown',
      why,
      source: 'no data',
    },
  ];
  const gases = gasesOf(mixed);
  const worst = findings.some((f) => f.level === 'discard') ? 'discard' : 'unknown';
  return {
    verdict: worst,
    reasons: reasonsOf(findings, worst),
    findings,
    dangers: pairs,
    gases,
    openLid: pressing(gases) > lidPressureL,
    reactions: [],
    add: [],
    phFresh: null,
    ph: null,
    strength: null,
    volumeMl: mixed.volumeMl,
    sources: sourcesOf(findings, worst),
  };
}

const unknownFinding = (p: KnownPart): Finding => ({
  id: 'unknown',
  of: p.name,
  value: 1,
  unit: '',
  level: 'unknown',
  why: `I do not know ${p.name}`,
  source: 'no data',
});

/** Warnings that stand by themselves; a verdict follows from a deadly or violent one, whatever the amounts. */
const dangerFindings = (pairs: readonly IncompatiblePair[]): Finding[] =>
  pairs.map((d) => ({
    id: 'danger',
    of: d.danger,
    value: 1,
    unit: '',
    level: d.danger === 'deadly gas' || d.danger === 'explosion' || d.danger === 'fire' ? 'discard' : 'use',
    why: d.spoken,
    source: d.source,
  }));

/**
 * Pairs that the parts form with one another. Between two baths, a pair that needs acid or alkali counts only if some
 * of it is left over in the mixture or strikes on the way in; anything neat from a jar always counts.
 */
function dangersIn(parts: readonly KnownPart[], mixed: Bath): IncompatiblePair[] {
  const seen = new Set<IncompatiblePair>();
  const solved = mixed.volumeMl > 0 ? equilibriumOf(mixed) : null;
  const ph = solved?.ok === true ? solved.value.ph : null;
  const gases = mixed.volumeMl > 0 ? gasesOf(mixed) : [];
  parts.forEach((a, i) => {
    for (const b of parts.slice(i + 1)) {
      const neat = a.kind !== 'bath' || b.kind !== 'bath';
      const lesser = Math.min(a.bath.volumeMl, b.bath.volumeMl) / mixed.volumeMl;
      for (const pair of pairsBetweenClasses(a.classes, b.classes)) {
        const strong = a.classes.has('concentrated') || b.classes.has('concentrated');
        if (ph === null || happens(pair, { ph, lesser, gases, neat, strong })) seen.add(pair);
      }
    }
  });
  return [...seen];
}

/** What two things do to each other in amounts that matter: each a bath or a thing, by id or name, or as it is known. */
export function dangersBetween(...both: readonly (string | KnownPart)[]): IncompatiblePair[] {
  const parts = both.map((of) => (typeof of === 'string' ? knownPart({ of, volumeMl: 100, massG: 20 }) : of));
  return dangersIn(parts, together(parts));
}

/** Below this share of the mixture, what strikes on the way in is not noticed. source: common practice */
const noticedShare = 0.02;

interface Meeting {
  ph: number;
  /** volume of the lesser as a share of the whole */
  lesser: number;
  gases: readonly Gas[];
  /** one of them comes straight from a jar */
  neat: boolean;
  /** and is strong enough to act where it strikes */
  strong: boolean;
}

function happens(pair: IncompatiblePair, m: Meeting): boolean {
  if (pair.a === 'acid' && pair.danger === 'toxic gas' && pair.b !== 'peroxide') {
    const here = m.gases.some((g) => g.id === 'sulphur dioxide');
    return here || m.strong || (m.ph < 7.5 && (m.neat || m.lesser > noticedShare));
  }
  if (pair.b === 'carbonate') return m.strong || pressing(m.gases) > lidPressureL || (m.neat && m.ph < 8.5);
  if (pair.a === 'caustic' && pair.b === 'ammonium') return m.neat || m.ph > 9;
  return true;
}

interface Look {
  findings: Finding[];
  gases: Gas[];
  reactions: Reaction[];
  phFresh: number | null;
  ph: number | null;
  strength: number | null;
}

/** Holds a mixture against the limits of a bath. */
function look(recipe: Recipe, limits: BathLimits, poured: Bath): Look {
  const { bath, reactions } = oxidise(poured);
  const fresh = freshBath(recipe, poured.volumeMl);
  const phFresh = phOf(fresh, recipe);
  const state = stateOf(bath, recipe);
  const ph = state?.ph ?? null;
  const gases = gasesOf(poured);
  const findings: Finding[] = [];
  if (limits.ph !== null && phFresh !== null && ph !== null) {
    const change = ph - phFresh;
    const limit = change < 0 ? limits.ph.fall : limits.ph.rise;
    findings.push({
      id: 'ph',
      value: change,
      unit: 'pH',
      level: levelOf(Math.abs(change), limit),
      ...words(limit),
    });
  }
  if (limits.phWindow !== undefined && ph !== null && Object.keys(poured.moles).length > 0) {
    const { low, high } = limits.phWindow;
    const limit = ph < 7 ? low : high;
    const level: Level =
      ph < low.care || ph > high.care ? 'discard' : ph < low.use || ph > high.use ? 'care' : 'use';
    findings.push({ id: 'ph', value: ph, unit: 'pH', level, ...words(limit) });
  }
  const wanted = limits.ph !== null || limits.phWindow !== undefined;
  if (wanted && Object.keys(poured.moles).length > 0 && state?.withinModel !== true)
    findings.push({
      id: 'model',
      value: 1,
      unit: '',
      level: 'unknown',
      why: 'it holds more salt than I can reckon a pH for',
      source: 'range of the solution model',
    });
  const strength = strengthOf(recipe, bath, fresh);
  const ratio = strength ?? goodsRatio(poured, fresh) ?? 1;
  findings.push(shareFinding('strength', recipe.working ?? recipe.name, ratio, limits.strength));
  for (const part of limits.parts) {
    const aim = molarity(fresh, part.id);
    if (aim > 0) findings.push(shareFinding('part', part.id, molarity(bath, part.id) / aim, part));
  }
  findings.push(...foreignFindings(recipe, limits, poured, bath, fresh));
  const press = pressing(gases);
  if (press > lidPressureL) {
    const why = `${press.toFixed(press < 1 ? 2 : 1)} litres of gas would press on a shut lid`;
    findings.push({
      id: 'gas',
      value: press,
      unit: 'litres',
      level: 'use',
      why,
      source: 'ideal gas law; the solution model',
    });
  }
  return { findings, gases, reactions, phFresh, ph, strength };
}

const words = (limit: Limit): Pick<Finding, 'why' | 'source'> => ({
  why: limit.why,
  source: limit.source,
});

function shareFinding(
  id: 'strength' | 'part',
  of: string,
  ratio: number,
  limit: { lost: Limit; gained: Limit },
): Finding {
  const side = ratio < 1 ? limit.lost : limit.gained;
  return {
    id,
    of,
    value: ratio - 1,
    unit: 'fraction',
    level: levelOf(Math.abs(ratio - 1), side),
    ...words(side),
  };
}

/** Working part as a share of the recipe's; null when the recipe names none. */
const strengthOf = (recipe: Recipe, bath: Bath, fresh: Bath): number | null => {
  if (recipe.working === null) return null;
  const aim = molarity(fresh, recipe.working);
  return aim > 0 ? molarity(bath, recipe.working) / aim : null;
};

/** For a bath whose goods have no formula: the first of them as a share of the recipe's. */
function goodsRatio(bath: Bath, fresh: Bath): number | null {
  const [id] = Object.keys(fresh.others);
  if (id === undefined) return null;
  const aim = (fresh.others[id] ?? 0) / fresh.volumeMl;
  return aim > 0 && bath.volumeMl > 0 ? (bath.others[id] ?? 0) / bath.volumeMl / aim : null;
}

function foreignFindings(
  recipe: Recipe,
  limits: BathLimits,
  poured: Bath,
  after: Bath,
  fresh: Bath,
): Finding[] {
  const out: Finding[] = [];
  const own = new Set<string>([
    ...limits.parts.map((p) => p.id),
    ...(recipe.working === null ? [] : [recipe.working]),
  ]);
  const excess = (id: TotalId): number =>
    Math.max(molarity(poured, id), molarity(after, id)) - molarity(fresh, id);
  // in the order of the table, which has the worst first
  const order = limits.foreign.map((f) => f.id);
  const ids = new Set([...order, ...Object.keys(poured.moles), ...Object.keys(after.moles)] as TotalId[]);
  for (const id of ids) {
    if (own.has(id) || plainSalts.includes(id)) continue;
    const value = excess(id);
    if (value <= 1e-9) continue;
    const row = limits.foreign.find((f) => f.id === id);
    const limit = row ?? unnamed;
    const level = row === undefined && levelOf(value, limit) !== 'use' ? 'unknown' : levelOf(value, limit);
    out.push({
      id: 'foreign',
      of: id,
      value: value * (gramsPerMol[id] ?? 0),
      unit: 'g/l',
      level,
      ...words(limit),
    });
  }
  // sodium for potassium, chloride for sulphate: one salt for another adds nothing
  const salts = (...of: TotalId[]): number =>
    of.filter((id) => !own.has(id)).reduce((sum, id) => sum + molarity(poured, id) - molarity(fresh, id), 0);
  const salt = Math.max(salts('Na', 'K'), salts('Cl', 'sulfate'));
  if (salt > 1e-6) {
    out.push({
      id: 'foreign',
      of: 'salt',
      value: salt,
      unit: 'mol/l',
      level: levelOf(salt, limits.salts),
      ...words(limits.salts),
    });
  }
  for (const [id, amount] of Object.entries(poured.others)) {
    const inRecipe = fresh.others[id];
    const value = (amount * 1000) / poured.volumeMl - ((inRecipe ?? 0) * 1000) / fresh.volumeMl;
    if (value <= 1e-9 || inRecipe !== undefined) continue;
    // a wetting agent or sequestrant that some bath here is made with may come over in a trace; nothing else may
    const trace = ownGoods.has(id) && levelOf(value, limits.goods) === 'use';
    const level = trace ? 'use' : 'unknown';
    const name = substanceById(id)?.name ?? id;
    const why = `nothing is known of ${name} in this bath`;
    out.push({ id: 'foreign', of: name, value, unit: 'ml/l', level, why, source: limits.goods.source });
  }
  return out;
}

function stateOf(bath: Bath, recipe: Recipe): Equilibrium | null {
  if (Object.keys(bath.moles).length === 0) return null;
  const solved = equilibriumOf(bath, { startPh: recipe.ph?.aim ?? 7 });
  return solved.ok ? solved.value : null;
}

const phOf = (bath: Bath, recipe: Recipe): number | null => stateOf(bath, recipe)?.ph ?? null;

/** What a check at mixing or a reading since then has shown against it. */
const failedChecks = ({ checks }: FitnessAsk): Finding[] =>
  (checks === undefined || checks.ok ? [] : checks.why).map((why) => ({
    id: 'check',
    value: 1,
    unit: '',
    level: 'discard',
    why,
    source: 'its own record',
  }));

const worstOf = (findings: readonly Finding[]): Level =>
  findings.reduce<Level>((w, f) => (rank[f.level] > rank[w] ? f.level : w), 'use');

function reasonsOf(findings: readonly Finding[], verdict: FitnessVerdict): string[] {
  if (verdict === 'fit') return [];
  return [...findings]
    .filter((f) => f.level !== 'use')
    .sort((a, b) => rank[b.level] - rank[a.level])
    .map((f) => f.why)
    .filter((why, i, all) => all.indexOf(why) === i);
}

const sourcesOf = (findings: readonly Finding[], verdict: FitnessVerdict): string[] => {
  const worst = worstOf(findings);
  const deciding = findings.filter((f) => (verdict === 'fit' ? f.id !== 'danger' : f.level === worst));
  return [...new Set(deciding.map((f) => f.source))];
};

function decide(base: Fitness, recipe: Recipe, limits: BathLimits, poured: Bath): Fitness {
  const { findings } = base;
  const worst = worstOf(findings);
  const done = (verdict: FitnessVerdict, more: Partial<Fitness> = {}): Fitness => ({
    ...base,
    verdict,
    reasons: reasonsOf(findings, verdict),
    sources: sourcesOf(findings, verdict),
    ...more,
  });
  if (worst === 'use') {
    if (recipe.time === undefined) return done('fit');
    return done('fit-changed-time', {
      reasons: [recipe.time.why],
      time: recipe.time,
      sources: [recipe.time.source],
    });
  }
  const hopeless = findings.some(
    (f) => (f.level === 'discard' || f.level === 'unknown') && !mendable.has(f.id),
  );
  if (hopeless) return done(worst === 'unknown' ? 'unknown' : 'discard');
  const weak = findings.filter((f) => f.level !== 'use');
  if (limits.toCompletion !== undefined && base.strength !== null && weak.every(onlyThinned)) {
    const factor = (recipe.time?.factor ?? 1) / base.strength;
    if (factor <= limits.toCompletion.atMost * (recipe.time?.factor ?? 1)) {
      const time = {
        factor: Math.ceil(factor * 4) / 4,
        ...(recipe.time?.atLeastS === undefined ? {} : { atLeastS: recipe.time.atLeastS }),
        why: 'it is weaker, and the step runs to its end',
        source: limits.toCompletion.source,
      };
      return done('fit-changed-time', { time });
    }
  }
  const add = restore(recipe, limits, poured);
  if (add !== null) return done('restorable', { add });
  return done(worst === 'unknown' ? 'unknown' : 'discard');
}

const mendable = new Set<Finding['id']>(['ph', 'strength', 'part', 'model']);
const onlyThinned = (f: Finding): boolean =>
  (f.id === 'strength' || f.id === 'part') && f.value < 0 && f.level === 'care';

/** Most fresh bath worth pouring on, as a multiple of what is there. source: common practice; beyond it mix afresh */
const mostFresh = 1;

/** Additions that bring a bath within its limits, each checked by the model; null when none does. */
function restore(recipe: Recipe, limits: BathLimits, poured: Bath): Addition[] | null {
  const good = (bath: Bath): boolean => worstOf(look(recipe, limits, bath).findings) === 'use';
  const { bath, reactions } = oxidise(poured);
  // what reacted cannot be weighed back in: only fresh bath thins it
  if (reactions.length === 0) {
    const parts = thinnedParts(recipe, poured);
    for (const first of parts === null ? [[]] : [[], [parts]]) {
      const start = withAdditions(bath, first);
      if (first.length > 0 && good(start)) return first;
      const ph = phAddition(recipe, limits, start);
      if (ph !== null && good(withAdditions(start, [ph]))) return [...first, ph];
    }
  }
  for (const times of [0.25, 0.5, 0.75, mostFresh]) {
    const volumeMl = Math.ceil((poured.volumeMl * times) / 10) * 10;
    if (good(pourTogether(poured, freshBath(recipe, volumeMl)))) {
      return [
        {
          of: recipe.id,
          name: `fresh ${recipe.name}`,
          amount: volumeMl,
          unit: 'ml',
        },
      ];
    }
  }
  return null;
}

/** The parts of the recipe for as much as the bath was thinned by; null when it was not. */
function thinnedParts(recipe: Recipe, bath: Bath): Addition | null {
  const fresh = freshBath(recipe, bath.volumeMl);
  const own =
    recipe.working === null ? null : molarity(bath, recipe.working) / molarity(fresh, recipe.working);
  const share = own ?? goodsRatio(bath, fresh);
  if (share === null || share > 0.99) return null;
  const amount = Math.round(bath.volumeMl * (1 - share));
  return { of: recipe.id, name: recipe.name, amount, unit: 'ml', dry: true };
}

const addition = (s: Substance, amount: number): Addition => ({
  of: s.id,
  name: s.name,
  amount,
  unit: s.measure,
});

const withAdditions = (bath: Bath, add: readonly Addition[]): Bath =>
  add.reduce((b, a) => {
    const recipe = a.dry === true ? recipeNamed(a.of) : undefined;
    if (recipe !== undefined) {
      return { ...pourTogether(b, freshBath(recipe, a.amount)), volumeMl: b.volumeMl };
    }
    const s = substanceById(a.of);
    return s === undefined ? b : withSubstance(b, s, a.amount);
  }, bath);

/** Most of a mending chemical that is still a touch, g per litre. source: common practice */
const mostMendGPerL = 4;

/** How much of the bath's own mending chemical brings the pH back; null when none or too much is needed. */
function phAddition(recipe: Recipe, limits: BathLimits, bath: Bath): Addition | null {
  const aim = phOf(freshBath(recipe, bath.volumeMl), recipe);
  const now = phOf(bath, recipe);
  if (aim === null || now === null || limits.ph === null) return null;
  const id = now < aim ? limits.mend.raisePh : limits.mend.lowerPh;
  const s = id === undefined ? undefined : substanceById(id);
  if (s === undefined || s.measure !== 'g') return null;
  let low = 0;
  let high = (mostMendGPerL * bath.volumeMl) / 1000;
  const off = (grams: number): number =>
    ((phOf(withSubstance(bath, s, grams), recipe) ?? now) - aim) * Math.sign(aim - now);
  if (off(high) < 0) return null;
  // to a thousandth of a gram a litre, finer than any scale here
  for (let i = 0; i < 12; i++) {
    const mid = (low + high) / 2;
    if (off(mid) < 0) low = mid;
    else high = mid;
  }
  return addition(s, Math.round(high * 100) / 100);
}
