import type { ReactiveClass, Substance } from '../substances.js';

/** What comes of two things meeting. `pressure`: gas enough to burst or blow open what is shut. */
export type Danger = 'deadly gas' | 'toxic gas' | 'explosion' | 'fire' | 'heat' | 'pressure';

export interface IncompatiblePair {
  a: ReactiveClass;
  b: ReactiveClass;
  danger: Danger;
  /** said before a jar of either is opened, and on a spill */
  spoken: string;
  source: string;
}

const bretherick = 'Bretherick’s Handbook of Reactive Chemical Hazards, from memory';
const sheets = 'safety data sheets of the substances, section 10, from memory; common practice';
const labels = 'warnings on household labels; common practice';

/** Pairs of one danger and one source: what is said of each. */
const pairs = (
  danger: Danger,
  source: string,
  said: Partial<Record<`${ReactiveClass} + ${ReactiveClass}`, string>>,
): IncompatiblePair[] =>
  Object.entries(said).map(([pair, spoken]) => {
    const [a, b] = pair.split(' + ') as [ReactiveClass, ReactiveClass];
    return { a, b, danger, spoken, source };
  });

/** Whether what two things do to each other comes off as a gas. */
export const comesAsGas = ({ danger }: Pick<IncompatiblePair, 'danger'>): boolean =>
  danger === 'deadly gas' || danger === 'toxic gas';

/** Pairs that must not meet on a bench, worst first. */
export const incompatiblePairs: readonly IncompatiblePair[] = [
  ...pairs('deadly gas', sheets, {
    'acid + ferricyanide':
      'Ferricyanide with strong acid or heat can give off hydrogen cyanide. Keep every acid away from it.',
    'hypochlorite + ferricyanide':
      'No household chlorine bleach near ferricyanide or its spills: it can free cyanogen compounds and chlorine.',
  }),
  ...pairs('deadly gas', 'CLP Annex VI, EUH032 of thiocyanates, from memory', {
    'acid + thiocyanate': 'Acid on thiocyanate gives off a very toxic gas.',
  }),
  ...pairs('deadly gas', bretherick, {
    'hypochlorite + thiocyanate': 'Chlorine cleaner on thiocyanate gives off cyanogen chloride.',
    'permanganate + thiocyanate': 'Permanganate on thiocyanate heats and can give off cyanide.',
    'dichromate + thiocyanate': 'Dichromate on thiocyanate heats and can give off cyanide.',
    'peroxide + thiocyanate': 'Peroxide on thiocyanate heats and can give off cyanide.',
    'persulphate + thiocyanate': 'Persulphate on thiocyanate heats and can give off cyanide.',
  }),
  ...pairs('deadly gas', sheets, {
    'acid + sulphide': 'Acid on sulphide toner gives off hydrogen sulphide, which numbs the nose and kills.',
  }),
  ...pairs('deadly gas', bretherick, {
    'acid + hypochlorite': 'Chlorine cleaner and acid give off chlorine. Never let them meet.',
    'ammonium + hypochlorite':
      'Chlorine cleaner and ammonia or ammonium fixer give off chloramine gas. Never let them meet.',
  }),
  ...pairs('explosion', bretherick, {
    'peroxide + ketone': 'Peroxide and acetone can form an explosive. Never let them meet.',
    'permanganate + acid':
      'Permanganate and strong acid can explode, and with hydrochloric acid give off chlorine.',
    'permanganate + peroxide': 'Permanganate and peroxide throw off oxygen with violence.',
    'permanganate + ammonium': 'Permanganate with ammonia or its salts can form an explosive.',
  }),
  ...pairs('deadly gas', bretherick, {
    'permanganate + chloride-acid': 'Permanganate and hydrochloric acid give off chlorine.',
  }),
  ...pairs('toxic gas', `${bretherick}; stoichiometry: too much persulphate frees bromine`, {
    'persulphate + bromide':
      'Too much persulphate on bromide frees bromine. Weigh less than the bleach needs, and air the room.',
  }),
  ...pairs('toxic gas', bretherick, {
    'hypochlorite + bromide': 'Chlorine cleaner on bromide frees bromine.',
    'permanganate + bromide': 'Permanganate on bromide frees bromine, with acid at once.',
  }),
  ...pairs('toxic gas', sheets, {
    'persulphate + hypochlorite': 'Persulphate is acid: on chlorine cleaner it gives off chlorine.',
    'acid + thiosulphate': 'Acid on fixer gives off sulphur dioxide and drops sulphur. Keep acids away.',
    'acid + sulphite':
      'Acid on sulphite or metabisulphite gives off sulphur dioxide. Air the room and keep acids away.',
    'caustic + ammonium': 'Caustic soda on ammonium fixer or an ammonium salt gives off ammonia.',
  }),
  ...pairs('toxic gas', labels, {
    'alcohol + hypochlorite': 'Chlorine cleaner and alcohol give chloroform and other poisons.',
    'ketone + hypochlorite': 'Chlorine cleaner and acetone give chloroform, with heat.',
    'acid + peroxide': 'Peroxide and vinegar or another acid make a biting per-acid. Never in one bottle.',
  }),
  ...pairs('toxic gas', sheets, {
    'formaldehyde + chloride-acid': 'Formalin and hydrochloric acid give off a vapour that causes cancer.',
    'formaldehyde + hypochlorite': 'Formalin and chlorine cleaner react with heat and toxic fumes.',
    'developing-agent + hypochlorite': 'Chlorine cleaner on a developing agent gives heat and toxic fumes.',
  }),
  ...pairs('fire', bretherick, {
    'permanganate + alcohol': 'Permanganate sets alcohol on fire.',
    'permanganate + ketone': 'Permanganate sets acetone on fire.',
    'permanganate + formaldehyde': 'Permanganate and formalin boil over and give off formaldehyde vapour.',
    'dichromate + alcohol': 'Dichromate sets alcohol on fire.',
    'dichromate + ketone': 'Dichromate sets acetone on fire.',
    'persulphate + alcohol': 'Persulphate feeds fire in alcohol.',
    'persulphate + ketone': 'Persulphate feeds fire in acetone.',
  }),
  ...pairs('heat', sheets, {
    'dichromate + acid': 'Dichromate and acid make chromic acid: it burns, and its mist causes cancer.',
  }),
  ...pairs('heat', bretherick, {
    'hypochlorite + thiosulphate': 'Chlorine cleaner on fixer heats, and gives off toxic gas.',
    'hypochlorite + sulphite': 'Chlorine cleaner on sulphite heats, and gives off toxic gas.',
    'permanganate + thiosulphate': 'Permanganate on fixer heats and spits.',
    'permanganate + sulphite': 'Permanganate on sulphite heats and spits.',
    'dichromate + sulphite': 'Dichromate on sulphite heats.',
    'dichromate + thiosulphate': 'Dichromate on fixer heats.',
  }),
  ...pairs('heat', sheets, {
    'persulphate + thiosulphate': 'Persulphate on fixer heats and turns it acid.',
    'persulphate + sulphite': 'Persulphate on sulphite heats.',
    'persulphate + caustic': 'Persulphate and caustic heat, and throw off oxygen.',
  }),
  ...pairs('heat', bretherick, {
    'peroxide + thiosulphate': 'Peroxide on fixer heats and turns it acid.',
    'peroxide + sulphite': 'Peroxide on sulphite heats.',
    'peroxide + sulphide': 'Peroxide on sulphide toner heats.',
  }),
  ...pairs('heat', sheets, {
    'peroxide + developing-agent': 'Peroxide on a developing agent heats.',
    'permanganate + developing-agent': 'Permanganate on a developing agent heats.',
    'persulphate + developing-agent': 'Persulphate on a developing agent heats.',
    'dichromate + developing-agent': 'Dichromate on a developing agent heats.',
    'formaldehyde + ammonium': 'Formalin and ammonia heat.',
  }),
  ...pairs('pressure', bretherick, {
    'formaldehyde + peroxide': 'Formalin and peroxide heat and give off hydrogen.',
  }),
  ...pairs('heat', sheets, {
    'formaldehyde + caustic': 'Formalin and caustic heat.',
    'formaldehyde + sulphite': 'Formalin on sulphite heats and turns the bath strongly alkaline.',
    'caustic + acid': 'Caustic and acid together boil and spit.',
    'ammonia + acid': 'Ammonia and strong acid together boil and spit.',
    'concentrated + water':
      'Strong acid heats with water: pour acid slowly into much cold water, never water into acid.',
  }),
  ...pairs('pressure', bretherick, {
    'peroxide + hypochlorite': 'Chlorine cleaner and peroxide throw off oxygen: a shut bottle bursts.',
    'peroxide + ferricyanide': 'Peroxide on ferricyanide gives off oxygen: keep the bottle open.',
    'peroxide + dichromate': 'Peroxide on dichromate throws off oxygen.',
    'peroxide + persulphate': 'Peroxide on persulphate gives off oxygen.',
    'peroxide + caustic': 'Caustic makes peroxide fall apart: oxygen and heat.',
  }),
  ...pairs('pressure', sheets, {
    'acid + carbonate': 'Acid on carbonate foams up: open the lid, go slowly and away from your face.',
  }),
];

/** What a bench like this one has in its bottles, and the one cleaner that is in every house. */
const onTheBench: ReadonlySet<ReactiveClass> = new Set([
  'acid',
  'ferricyanide',
  'hypochlorite',
  'ammonium',
  'sulphite',
  'thiosulphate',
  'caustic',
  'carbonate',
  'bromide',
]);

const household = (classes: ReadonlySet<ReactiveClass>): boolean =>
  [...classes].some((c) => !onTheBench.has(c) && c !== 'developing-agent');

/**
 * Pairs to warn of beside something of these classes: the worst for each thing it must not meet on a bench.
 * Metabisulphite is an acid and a sulphite at once: no enemy of itself, and too weak an acid to warn of heat and foam.
 */
export function pairsFor(s: Pick<Substance, 'classes'>): IncompatiblePair[] {
  const own = new Set(s.classes);
  const mild = own.has('acid') && own.has('sulphite');
  const enemies = new Map<ReactiveClass, IncompatiblePair>();
  for (const p of incompatiblePairs) {
    if (mild && (p.danger === 'heat' || p.danger === 'pressure')) continue;
    for (const [mine, other] of [
      [p.a, p.b],
      [p.b, p.a],
    ] as const) {
      // of chlorine cleaner the deadly pairs are enough, or nobody listens
      if (other === 'hypochlorite' && p.danger !== 'deadly gas' && !household(own)) continue;
      if (own.has(mine) && onTheBench.has(other) && !enemies.has(other)) enemies.set(other, p);
    }
  }
  return [...new Set(enemies.values())];
}

/** What something of these classes must not meet on a bench, worst first, and what comes of it. */
export const enemiesOf = (s: Pick<Substance, 'classes'>): { of: ReactiveClass; danger: Danger }[] =>
  pairsFor(s).map(({ a, b, danger }) => ({ of: s.classes.includes(a) ? b : a, danger }));

/** Pairs that two sets of classes form with each other. */
export const pairsBetweenClasses = (
  s: ReadonlySet<ReactiveClass>,
  t: ReadonlySet<ReactiveClass>,
): IncompatiblePair[] =>
  incompatiblePairs.filter((p) => (s.has(p.a) && t.has(p.b)) || (s.has(p.b) && t.has(p.a)));
