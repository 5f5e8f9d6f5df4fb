import type { Recipe } from './recipes/index.js';
import type { TotalId } from './solution/species.js';

/** Up to `use` nothing is felt; beyond `care` the bath is no longer that bath. */
export interface Span {
  use: number;
  care: number;
}

export interface Limit extends Span {
  why: string;
  source: string;
}

/** What decides whether a bath still does its work. Every row has its own source. */
export interface BathLimits {
  /** change from the recipe's own pH, units */
  ph: { fall: Limit; rise: Limit } | null;
  /** where nothing holds the pH, the pH it must stay between instead */
  phWindow?: { low: Limit; high: Limit };
  /** working part against the recipe's: loss and excess as fractions */
  strength: { lost: Limit; gained: Limit };
  /** other parts of the recipe that it cannot do without, lost or gained as fractions */
  parts: readonly { id: TotalId; lost: Limit; gained: Limit }[];
  /** foreign matter, mol/l above the recipe's own */
  foreign: readonly ({ id: TotalId } & Limit)[];
  /** salts that only add to what is dissolved (sodium, potassium, chloride, sulphate, nitrate), mol/l above the recipe's */
  salts: Limit;
  /** goods without a formula (wetting agents, sequestrants), ml or g per litre above the recipe's */
  goods: Limit;
  /** the step runs to completion, so that a weaker bath only needs longer, at most this many times as long */
  toCompletion?: { atMost: number; source: string };
  /** what may be stirred in to bring a pH back; nothing where it would do harm */
  mend: { raisePh?: string; lowerPh?: string; source: string };
}

const practice = 'common practice';
const h2407 = (what: string): string => `${what}, from memory of Kodak Publication H-24.07 (1996)`;
const at = (use: number, care: number, why: string, source = practice): Limit => ({ use, care, why, source });
const foreign = (id: TotalId, use: number, care: number, why: string, source = practice) => ({
  id,
  ...at(use, care, why, source),
});

/** Oxidisers, poisons and hardeners: no bath here takes any. */
const neverIn = (bath: string) =>
  [
    foreign('hypochlorite', 0, 0, `chlorine destroys the dyes, the developing agent and the ${bath}`),
    foreign('permanganate', 0, 0, `permanganate oxidises the ${bath}`),
    foreign('chromate', 0, 0, `dichromate oxidises the ${bath} and hardens the film`),
    foreign('peroxide', 0, 0, `peroxide oxidises the ${bath} or falls apart in it`),
    foreign('formaldehyde', 0, 0, `formalin hardens the film and reacts with the ${bath}`),
    foreign('sulfide', 0, 0, `sulphide fogs and stains at once`),
    foreign('thiocyanate', 0, 0.00005, `thiocyanate dissolves silver and fogs`),
  ] as const;

const persulphateOut = (bath: string) => foreign('persulfate', 0, 0, `persulphate oxidises the ${bath}`);

const saltsLittle = at(0.05, 0.15, 'more salt than the bath was made with');
/** Matter that no row names, mol/l: beyond `use` nothing is known. */
export const unnamed = at(0.0001, 0.0001, 'nothing is known of it in this bath');
const goodsTrace = at(0.5, 0.5, 'nothing is known of it in this bath');

const latent = 'the film in this bath is not developed yet';

export const prebathLimits: BathLimits = {
  ph: {
    fall: at(0.1, 0.3, 'a less alkaline remover leaves backing on', h2407('pH 9.25 ± 0.10')),
    rise: at(0.1, 0.3, 'a more alkaline remover swells the emulsion', h2407('pH 9.25 ± 0.10')),
  },
  strength: {
    lost: at(0.1, 0.25, 'weaker remover leaves backing on', h2407('borax ± 10 percent')),
    gained: at(0.1, 0.3, 'stronger than it was meant', h2407('borax ± 10 percent')),
  },
  parts: [
    {
      id: 'sulfate',
      lost: at(
        0.15,
        0.3,
        'without its salt the emulsion swells and may lift',
        h2407('sulphate ± 10 percent'),
      ),
      gained: at(0.15, 0.3, 'so much salt hinders the remover', h2407('sulphate ± 10 percent')),
    },
  ],
  foreign: [
    foreign('thiosulfate', 0, 0, `${latent}: thiosulphate dissolves the latent image`),
    foreign('ferricyanide', 0, 0, `${latent}: ferricyanide bleaches the latent image away`),
    foreign('ferrocyanide', 0.0001, 0.0005, 'a bleach went in here'),
    foreign('cd3', 0.0001, 0.0004, `${latent}: developer in the remover develops it unevenly`),
    foreign('sulfite', 0.002, 0.01, 'sulphite carried on into the developer'),
    foreign('Br', 0.002, 0.006, 'bromide carried on into the developer restrains it'),
    foreign('I', 0.00002, 0.00005, 'iodide carried on into the developer restrains it strongly'),
    foreign('carbonate', 0.03, 0.1, 'carbonate swells the emulsion more than borate'),
    foreign('acetate', 0.01, 0.03, 'acid was poured in here'),
    foreign('citrate', 0.003, 0.01, 'acid was poured in here'),
    foreign('ammonia', 0.002, 0.006, 'ammonia is carried on into the developer'),
    foreign('phosphate', 0.005, 0.02, 'phosphate swells the emulsion'),
    foreign('tetrathionate', 0, 0, 'fixer and bleach met here'),
    persulphateOut('remover'),
    ...neverIn('remover'),
  ],
  salts: at(0.1, 0.2, 'more salt than the bath was made with'),
  goods: goodsTrace,
  mend: {
    raisePh: 'sodium-hydroxide',
    lowerPh: 'boric-acid',
    source: practice,
  },
};

export const developerLimits: BathLimits = {
  ph: {
    fall: at(0.05, 0.1, 'a lower pH develops less', `${h2407('pH 10.25 ± 0.05')}; twice that for care`),
    rise: at(
      0.05,
      0.1,
      'a higher pH develops more and fogs',
      `${h2407('pH 10.25 ± 0.05')}; twice that for care`,
    ),
  },
  strength: {
    lost: at(
      0.05,
      0.1,
      'less developing agent develops less',
      `${h2407('CD-3 4.0 ± 0.2 g/l')}; twice that for care`,
    ),
    gained: at(
      0.05,
      0.1,
      'more developing agent develops more',
      `${h2407('CD-3 4.0 ± 0.2 g/l')}; twice that for care`,
    ),
  },
  parts: [
    {
      id: 'Br',
      lost: at(
        0.08,
        0.2,
        'less bromide fogs',
        'Processing Kodak Motion Picture Films, Module 3, bromide procedure: SD-49 up to 1.5 g/l, ± 0.05 g/l',
      ),
      gained: at(
        0.08,
        0.2,
        'more bromide restrains',
        'Processing Kodak Motion Picture Films, Module 3, bromide procedure: SD-49 up to 1.5 g/l, ± 0.05 g/l',
      ),
    },
    {
      id: 'sulfite',
      lost: at(0.1, 0.3, 'less sulphite lets the agent spoil and stain', h2407('sulphite ± 5 percent')),
      gained: at(
        0.1,
        0.25,
        'sulphite competes with the couplers for oxidised agent',
        h2407('sulphite ± 5 percent'),
      ),
    },
    {
      id: 'carbonate',
      lost: at(0.07, 0.15, 'less carbonate holds the pH less well', h2407('carbonate ± 5 percent')),
      gained: at(0.07, 0.15, 'more carbonate than the recipe', h2407('carbonate ± 5 percent')),
    },
  ],
  foreign: [
    foreign('thiosulfate', 0, 0.0001, 'thiosulphate in a developer fogs and stains, even a trace'),
    foreign('ferricyanide', 0, 0.0002, 'ferricyanide burns the developing agent'),
    foreign('ferrocyanide', 0.0001, 0.0005, 'a bleach went in here'),
    foreign('borate', 0.02, 0.04, 'borate from the prebath pulls the pH down'),
    foreign('I', 0.00002, 0.00005, 'iodide restrains strongly'),
    foreign('acetate', 0.01, 0.02, 'acid was poured in here'),
    foreign('citrate', 0.002, 0.005, 'acid was poured in here'),
    foreign('ammonia', 0.001, 0.003, 'ammonia fogs colour film'),
    foreign('phosphate', 0.005, 0.02, 'phosphate drops the hardness of the water as mud'),
    foreign('tetrathionate', 0, 0, 'fixer and bleach met here'),
    foreign('cd4', 0, 0, 'another developing agent makes other dyes'),
    persulphateOut('developer'),
    ...neverIn('developer'),
  ],
  salts: saltsLittle,
  goods: goodsTrace,
  mend: {
    raisePh: 'sodium-hydroxide',
    lowerPh: 'sodium-bicarbonate',
    source: practice,
  },
};

export const stopLimits: BathLimits = {
  ph: {
    fall: at(0.35, 1, 'a stronger acid swells and softens the emulsion', h2407('pH 0.8 to 1.5')),
    rise: at(0.6, 1, 'a weaker acid stops development late', h2407('pH 0.8 to 1.5')),
  },
  strength: {
    lost: at(0.25, 0.5, 'weaker acid stops development late'),
    gained: at(0.3, 1, 'stronger acid than the film should meet'),
  },
  parts: [],
  foreign: [
    foreign('ferricyanide', 0, 0, 'acid and ferricyanide must never meet'),
    foreign('ferrocyanide', 0, 0, 'acid and a used bleach must never meet'),
    foreign('thiosulfate', 0, 0.0001, 'thiosulphate in acid drops sulphur onto the film within a minute'),
    foreign('tetrathionate', 0, 0, 'fixer and bleach met here'),
    foreign('sulfite', 0.01, 0.03, 'sulphite gives off sulphur dioxide all the while'),
    foreign('cd3', 0.003, 0.006, 'developer carried over builds up'),
    foreign('borate', 0.1, 0.3, 'borate is harmless in an acid, much of it is not'),
    foreign('carbonate', 0.05, 0.1, 'carbonate uses up the acid and foams'),
    foreign('Br', 0.02, 0.1, 'bromide carried over builds up'),
    foreign('I', 0.002, 0.01, 'iodide carried over builds up'),
    foreign('acetate', 0.2, 0.5, 'another acid, harmless'),
    foreign('citrate', 0.05, 0.2, 'another acid, harmless'),
    foreign('phosphate', 0.05, 0.2, 'phosphate uses up some acid'),
    foreign('ammonia', 0.02, 0.1, 'ammonia uses up some acid'),
    persulphateOut('image'),
    ...neverIn('image'),
  ],
  salts: at(0.3, 0.8, 'more salt than an acid bath is made with'),
  goods: goodsTrace,
  toCompletion: {
    atMost: 2,
    source: `${practice}: a stop may last longer, never shorter`,
  },
  mend: { source: practice },
};

export const bleachLimits: BathLimits = {
  ph: null,
  phWindow: {
    low: at(4.8, 4.8, 'acid and ferricyanide must never meet'),
    high: at(11, 11.7, 'alkali swells the film and drops iron from a bleach in time'),
  },
  strength: {
    lost: at(0.1, 0.25, 'weaker bleach leaves silver', h2407('ferricyanide ± 10 percent')),
    gained: at(0.2, 0.5, 'stronger than it was meant', practice),
  },
  parts: [
    {
      id: 'Br',
      lost: at(0.15, 0.4, 'without bromide the silver goes back to no halide', h2407('bromide ± 10 percent')),
      gained: at(0.3, 0.8, 'more bromide than the recipe', practice),
    },
  ],
  foreign: [
    foreign(
      'thiosulfate',
      0,
      0.002,
      'thiosulphate turns a bleach into a reducer that eats the image silver unevenly',
    ),
    foreign('cd3', 0.0003, 0.001, 'developing agent couples in the bleach and stains'),
    foreign('cd4', 0, 0, 'developing agent couples in the bleach and stains'),
    foreign('sulfite', 0.002, 0.01, 'sulphite uses up ferricyanide'),
    foreign('ferrocyanide', 0.012, 0.03, 'used-up bleach slows what is left'),
    foreign('tetrathionate', 0.001, 0.002, 'fixer went in here'),
    foreign('carbonate', 0.02, 0.06, 'an alkaline bleach swells the film and drops iron in time'),
    foreign('borate', 0.03, 0.08, 'borate makes the bleach alkaline'),
    foreign('phosphate', 0.05, 0.1, 'phosphate buffers, and is in some bleaches'),
    foreign('acetate', 0, 0, 'acid must never meet ferricyanide'),
    foreign('citrate', 0, 0, 'acid must never meet ferricyanide'),
    foreign('ammonia', 0.005, 0.02, 'ammonia from a fixer'),
    foreign('I', 0.0005, 0.002, 'iodide makes silver that is slow to fix'),
    foreign('persulfate', 0, 0.003, 'persulphate left over frees bromine'),
    ...neverIn('bleach'),
  ],
  salts: at(0.1, 0.3, 'more salt than the bath was made with'),
  goods: goodsTrace,
  toCompletion: {
    atMost: 2,
    source: `${practice}: bleaching runs to its end; longer does no harm`,
  },
  mend: {
    source: `${practice}: a ferricyanide bleach is never mended with acid`,
  },
};

export const fixerLimits: BathLimits = {
  ph: {
    fall: at(0.3, 0.8, 'an acid fixer drops sulphur', practice),
    rise: at(0.4, 1, 'an alkaline fixer swells the film and smells of ammonia', practice),
  },
  strength: {
    lost: at(0.15, 0.3, 'weaker fixer works more slowly', practice),
    gained: at(0.2, 0.5, 'stronger than it was meant', practice),
  },
  parts: [
    {
      id: 'sulfite',
      lost: at(0.3, 0.6, 'sulphite keeps the sulphur in', practice),
      gained: at(0.4, 1, 'more sulphite than the recipe', practice),
    },
  ],
  foreign: [
    foreign(
      'ferricyanide',
      0.0005,
      0.003,
      'ferricyanide and thiosulphate destroy each other and bleach dyes on the way',
    ),
    foreign('ferrocyanide', 0.003, 0.01, 'bleach carried over builds up'),
    foreign('cd3', 0.0005, 0.002, 'developing agent in a fixer stains'),
    foreign('cd4', 0.0005, 0.002, 'developing agent in a fixer stains'),
    foreign('carbonate', 0.02, 0.06, 'carbonate makes the fixer alkaline'),
    foreign('borate', 0.05, 0.15, 'borate makes the fixer alkaline'),
    foreign('acetate', 0.02, 0.06, 'acid was poured in here'),
    foreign('citrate', 0.005, 0.015, 'acid was poured in here'),
    foreign('phosphate', 0.02, 0.06, 'phosphate makes the fixer alkaline'),
    foreign('ammonia', 0.1, 0.4, 'ammonia beyond the recipe’s'),
    foreign('tetrathionate', 0.003, 0.01, 'bleach and fixer met here'),
    foreign('Br', 0.02, 0.06, 'bromide slows fixing'),
    foreign('I', 0.0005, 0.002, 'iodide slows fixing'),
    persulphateOut('fixer'),
    ...neverIn('fixer'),
  ],
  salts: at(0.15, 0.4, 'more salt than the bath was made with'),
  goods: goodsTrace,
  toCompletion: {
    atMost: 2,
    source: `${practice}: fixing runs to its end; longer does no harm`,
  },
  mend: { source: `${practice}: acid is never poured into a fixer` },
};

const dries = 'it is the last bath: what is in it dries in the film';

export const finalRinseLimits: BathLimits = {
  ph: null,
  phWindow: { low: at(5, 4.5, dries), high: at(8.5, 9, dries) },
  strength: {
    lost: at(0.3, 0.6, 'too little wetting leaves drying spots', practice),
    gained: at(0.3, 1, 'too much wetting leaves streaks', practice),
  },
  parts: [],
  foreign: [
    foreign('thiosulfate', 0, 0, `${dries}; thiosulphate eats the dyes`),
    foreign('ferricyanide', 0, 0, `${dries}; ferricyanide stains`),
    foreign('ferrocyanide', 0, 0, `${dries}; it turns blue`),
    foreign('cd3', 0, 0, `${dries}; developing agent stains`),
    foreign('cd4', 0, 0, `${dries}; developing agent stains`),
    foreign('sulfite', 0.0001, 0.0003, dries),
    foreign('Br', 0.0003, 0.001, dries),
    foreign('I', 0.0001, 0.0003, dries),
    foreign('borate', 0.0003, 0.001, dries),
    foreign('carbonate', 0.0005, 0.002, dries),
    foreign('acetate', 0.0003, 0.001, dries),
    foreign('citrate', 0.0003, 0.001, dries),
    foreign('phosphate', 0.0003, 0.001, dries),
    foreign('ammonia', 0.0002, 0.0005, dries),
    foreign('tetrathionate', 0, 0, dries),
    persulphateOut('dyes'),
    ...neverIn('dyes').filter((l) => l.id !== 'formaldehyde'),
    foreign('formaldehyde', 0, 0, 'a stabiliser with formalin is another bath; its vapour is poison'),
  ],
  salts: at(0.001, 0.003, `${dries}; salt leaves spots`),
  goods: at(0.05, 0.1, `${dries}; another product leaves streaks or spots`),
  mend: { source: practice },
};

const byLiquid: Readonly<Record<string, BathLimits>> = {
  prebath: prebathLimits,
  developer: developerLimits,
  stop: stopLimits,
  bleach: bleachLimits,
  fixer: fixerLimits,
  'final-rinse': finalRinseLimits,
};

const weakAcid = {
  fall: at(0.6, 1.5, 'a stronger acid than it was meant'),
  rise: at(0.5, 1.2, 'a weaker acid stops development late'),
};

/** What differs from the bath of the same name, by recipe. */
const byRecipe: Readonly<Record<string, Partial<BathLimits>>> = {
  'ecn2-stop-vinegar': { ph: weakAcid },
  'ecn2-stop-citric': { ph: weakAcid },
  'ecn2-prebath-home': {
    ph: {
      fall: at(0.3, 0.8, 'a less alkaline remover leaves backing on'),
      rise: at(0.5, 0.9, 'a more alkaline remover swells the emulsion'),
    },
    strength: {
      lost: at(0.15, 0.35, 'weaker remover leaves backing on'),
      gained: at(0.2, 0.5, 'stronger than it was meant'),
    },
    parts: [],
    foreign: [
      ...prebathLimits.foreign.filter((f) => f.id !== 'carbonate'),
      foreign('borate', 0.05, 0.2, 'borate makes it more alkaline; it is what the usual remover is made of'),
    ],
    mend: { raisePh: 'sodium-carbonate-anhydrous', source: practice },
  },
  'ecn2-fixer-sodium': {
    foreign: [
      ...fixerLimits.foreign.filter((f) => f.id !== 'ammonia'),
      foreign('ammonia', 0.5, 1.5, 'ammonium is what the usual fixer is made of'),
    ],
  },
};

/** Limits of a recipe's bath; undefined where none are kept, and then nothing may be said of it. */
export function limitsOf(recipe: Pick<Recipe, 'id' | 'liquid'>): BathLimits | undefined {
  const base = byLiquid[recipe.liquid];
  return base === undefined ? undefined : { ...base, ...byRecipe[recipe.id] };
}
