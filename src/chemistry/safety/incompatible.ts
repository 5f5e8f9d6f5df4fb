import type { ReactiveClass, Substance } from '../substances.js';

/** What comes of two things meeting. `pressure`: gas enough to burst or blow open what is shut. */
export type Danger = 'deadly gas' | 'toxic gas' | 'explosion' | 'fire' | 'heat' | 'pressure';

export interface IncompatiblePair {
  a: ReactiveClass;
  b: ReactiveClass;
  danger: Danger;
  /** GHS hazard statements of what forms, or of what happens */
  ghs: readonly string[];
  /** said before a jar of either is opened, and on a spill */
  spoken: string;
  source: string;
}

const bretherick = 'Bretherick’s Handbook of Reactive Chemical Hazards, from memory';
const sheets = 'safety data sheets of the substances, section 10, from memory; common practice';
const labels = 'warnings on household labels; common practice';

const row = (
  a: ReactiveClass,
  b: ReactiveClass,
  danger: Danger,
  ghs: readonly string[],
  source: string,
  spoken: string,
): IncompatiblePair => ({ a, b, danger, ghs, spoken, source });

const cyanide = ['H300', 'H310', 'H330'];
const chlorine = ['H315', 'H319', 'H330', 'H335', 'H400'];
const sulphurDioxide = ['H314', 'H331'];
const ammoniaGas = ['H314', 'H331'];
const bromine = ['H314', 'H330', 'H400'];
const oxygen = ['H270'];
const hot = ['H314'];

/** Whether what two things do to each other comes off as a gas. */
export const comesAsGas = ({ danger }: Pick<IncompatiblePair, 'danger'>): boolean =>
  danger === 'deadly gas' || danger === 'toxic gas';

/** Pairs that must not meet on a bench, worst first. */
export const incompatiblePairs: readonly IncompatiblePair[] = [
  row(
    'acid',
    'ferricyanide',
    'deadly gas',
    cyanide,
    sheets,
    'Ferricyanide with strong acid or heat can give off hydrogen cyanide. Keep every acid away from it.',
  ),
  row(
    'hypochlorite',
    'ferricyanide',
    'deadly gas',
    cyanide,
    sheets,
    'No household chlorine bleach near ferricyanide or its spills: it can free cyanogen compounds and chlorine.',
  ),
  row(
    'acid',
    'thiocyanate',
    'deadly gas',
    cyanide,
    'CLP Annex VI, EUH032 of thiocyanates, from memory',
    'Acid on thiocyanate gives off a very toxic gas.',
  ),
  row(
    'hypochlorite',
    'thiocyanate',
    'deadly gas',
    cyanide,
    bretherick,
    'Chlorine cleaner on thiocyanate gives off cyanogen chloride.',
  ),
  row(
    'permanganate',
    'thiocyanate',
    'deadly gas',
    cyanide,
    bretherick,
    'Permanganate on thiocyanate heats and can give off cyanide.',
  ),
  row(
    'dichromate',
    'thiocyanate',
    'deadly gas',
    cyanide,
    bretherick,
    'Dichromate on thiocyanate heats and can give off cyanide.',
  ),
  row(
    'peroxide',
    'thiocyanate',
    'deadly gas',
    cyanide,
    bretherick,
    'Peroxide on thiocyanate heats and can give off cyanide.',
  ),
  row(
    'persulphate',
    'thiocyanate',
    'deadly gas',
    cyanide,
    bretherick,
    'Persulphate on thiocyanate heats and can give off cyanide.',
  ),
  row(
    'acid',
    'sulphide',
    'deadly gas',
    ['H330', 'H400'],
    sheets,
    'Acid on sulphide toner gives off hydrogen sulphide, which numbs the nose and kills.',
  ),
  row(
    'acid',
    'hypochlorite',
    'deadly gas',
    chlorine,
    bretherick,
    'Chlorine cleaner and acid give off chlorine. Never let them meet.',
  ),
  row(
    'ammonium',
    'hypochlorite',
    'deadly gas',
    ['H314', 'H330'],
    bretherick,
    'Chlorine cleaner and ammonia or ammonium fixer give off chloramine gas. Never let them meet.',
  ),
  row(
    'peroxide',
    'ketone',
    'explosion',
    ['H200'],
    bretherick,
    'Peroxide and acetone can form an explosive. Never let them meet.',
  ),
  row(
    'permanganate',
    'acid',
    'explosion',
    ['H271', ...chlorine],
    bretherick,
    'Permanganate and strong acid can explode, and with hydrochloric acid give off chlorine.',
  ),
  row(
    'permanganate',
    'peroxide',
    'explosion',
    oxygen,
    bretherick,
    'Permanganate and peroxide throw off oxygen with violence.',
  ),
  row(
    'permanganate',
    'ammonium',
    'explosion',
    ['H200'],
    bretherick,
    'Permanganate with ammonia or its salts can form an explosive.',
  ),
  row(
    'permanganate',
    'chloride-acid',
    'deadly gas',
    chlorine,
    bretherick,
    'Permanganate and hydrochloric acid give off chlorine.',
  ),
  row(
    'persulphate',
    'bromide',
    'toxic gas',
    bromine,
    `${bretherick}; stoichiometry: too much persulphate frees bromine`,
    'Too much persulphate on bromide frees bromine. Weigh less than the bleach needs, and air the room.',
  ),
  row(
    'hypochlorite',
    'bromide',
    'toxic gas',
    bromine,
    bretherick,
    'Chlorine cleaner on bromide frees bromine.',
  ),
  row(
    'permanganate',
    'bromide',
    'toxic gas',
    bromine,
    bretherick,
    'Permanganate on bromide frees bromine, with acid at once.',
  ),
  row(
    'persulphate',
    'hypochlorite',
    'toxic gas',
    chlorine,
    sheets,
    'Persulphate is acid: on chlorine cleaner it gives off chlorine.',
  ),
  row(
    'acid',
    'thiosulphate',
    'toxic gas',
    sulphurDioxide,
    sheets,
    'Acid on fixer gives off sulphur dioxide and drops sulphur. Keep acids away.',
  ),
  row(
    'acid',
    'sulphite',
    'toxic gas',
    sulphurDioxide,
    sheets,
    'Acid on sulphite or metabisulphite gives off sulphur dioxide. Air the room and keep acids away.',
  ),
  row(
    'caustic',
    'ammonium',
    'toxic gas',
    ammoniaGas,
    sheets,
    'Caustic soda on ammonium fixer or an ammonium salt gives off ammonia.',
  ),
  row(
    'alcohol',
    'hypochlorite',
    'toxic gas',
    ['H302', 'H331', 'H351'],
    labels,
    'Chlorine cleaner and alcohol give chloroform and other poisons.',
  ),
  row(
    'ketone',
    'hypochlorite',
    'toxic gas',
    ['H302', 'H331', 'H351'],
    labels,
    'Chlorine cleaner and acetone give chloroform, with heat.',
  ),
  row(
    'acid',
    'peroxide',
    'toxic gas',
    ['H314', 'H335'],
    labels,
    'Peroxide and vinegar or another acid make a biting per-acid. Never in one bottle.',
  ),
  row(
    'formaldehyde',
    'chloride-acid',
    'toxic gas',
    ['H350'],
    sheets,
    'Formalin and hydrochloric acid give off a vapour that causes cancer.',
  ),
  row(
    'formaldehyde',
    'hypochlorite',
    'toxic gas',
    ['H331'],
    sheets,
    'Formalin and chlorine cleaner react with heat and toxic fumes.',
  ),
  row(
    'developing-agent',
    'hypochlorite',
    'toxic gas',
    ['H331'],
    sheets,
    'Chlorine cleaner on a developing agent gives heat and toxic fumes.',
  ),
  row('permanganate', 'alcohol', 'fire', ['H271'], bretherick, 'Permanganate sets alcohol on fire.'),
  row('permanganate', 'ketone', 'fire', ['H271'], bretherick, 'Permanganate sets acetone on fire.'),
  row(
    'permanganate',
    'formaldehyde',
    'fire',
    ['H271', 'H331'],
    bretherick,
    'Permanganate and formalin boil over and give off formaldehyde vapour.',
  ),
  row('dichromate', 'alcohol', 'fire', ['H271'], bretherick, 'Dichromate sets alcohol on fire.'),
  row('dichromate', 'ketone', 'fire', ['H271'], bretherick, 'Dichromate sets acetone on fire.'),
  row('persulphate', 'alcohol', 'fire', ['H272'], bretherick, 'Persulphate feeds fire in alcohol.'),
  row('persulphate', 'ketone', 'fire', ['H272'], bretherick, 'Persulphate feeds fire in acetone.'),
  row(
    'dichromate',
    'acid',
    'heat',
    ['H314', 'H330', 'H350'],
    sheets,
    'Dichromate and acid make chromic acid: it burns, and its mist causes cancer.',
  ),
  row(
    'hypochlorite',
    'thiosulphate',
    'heat',
    [...hot, ...sulphurDioxide],
    bretherick,
    'Chlorine cleaner on fixer heats, and gives off toxic gas.',
  ),
  row(
    'hypochlorite',
    'sulphite',
    'heat',
    hot,
    bretherick,
    'Chlorine cleaner on sulphite heats, and gives off toxic gas.',
  ),
  row('permanganate', 'thiosulphate', 'heat', hot, bretherick, 'Permanganate on fixer heats and spits.'),
  row('permanganate', 'sulphite', 'heat', hot, bretherick, 'Permanganate on sulphite heats and spits.'),
  row('dichromate', 'sulphite', 'heat', hot, bretherick, 'Dichromate on sulphite heats.'),
  row('dichromate', 'thiosulphate', 'heat', hot, bretherick, 'Dichromate on fixer heats.'),
  row('persulphate', 'thiosulphate', 'heat', hot, sheets, 'Persulphate on fixer heats and turns it acid.'),
  row('persulphate', 'sulphite', 'heat', hot, sheets, 'Persulphate on sulphite heats.'),
  row('persulphate', 'caustic', 'heat', hot, sheets, 'Persulphate and caustic heat, and throw off oxygen.'),
  row('peroxide', 'thiosulphate', 'heat', hot, bretherick, 'Peroxide on fixer heats and turns it acid.'),
  row('peroxide', 'sulphite', 'heat', hot, bretherick, 'Peroxide on sulphite heats.'),
  row('peroxide', 'sulphide', 'heat', hot, bretherick, 'Peroxide on sulphide toner heats.'),
  row('peroxide', 'developing-agent', 'heat', hot, sheets, 'Peroxide on a developing agent heats.'),
  row('permanganate', 'developing-agent', 'heat', hot, sheets, 'Permanganate on a developing agent heats.'),
  row('persulphate', 'developing-agent', 'heat', hot, sheets, 'Persulphate on a developing agent heats.'),
  row('dichromate', 'developing-agent', 'heat', hot, sheets, 'Dichromate on a developing agent heats.'),
  row('formaldehyde', 'ammonium', 'heat', hot, sheets, 'Formalin and ammonia heat.'),
  row(
    'formaldehyde',
    'peroxide',
    'pressure',
    ['H220'],
    bretherick,
    'Formalin and peroxide heat and give off hydrogen.',
  ),
  row('formaldehyde', 'caustic', 'heat', hot, sheets, 'Formalin and caustic heat.'),
  row(
    'formaldehyde',
    'sulphite',
    'heat',
    hot,
    sheets,
    'Formalin on sulphite heats and turns the bath strongly alkaline.',
  ),
  row('caustic', 'acid', 'heat', hot, sheets, 'Caustic and acid together boil and spit.'),
  row('ammonia', 'acid', 'heat', hot, sheets, 'Ammonia and strong acid together boil and spit.'),
  row(
    'concentrated',
    'water',
    'heat',
    hot,
    sheets,
    'Strong acid heats with water: pour acid slowly into much cold water, never water into acid.',
  ),
  row(
    'peroxide',
    'hypochlorite',
    'pressure',
    oxygen,
    bretherick,
    'Chlorine cleaner and peroxide throw off oxygen: a shut bottle bursts.',
  ),
  row(
    'peroxide',
    'ferricyanide',
    'pressure',
    oxygen,
    bretherick,
    'Peroxide on ferricyanide gives off oxygen: keep the bottle open.',
  ),
  row('peroxide', 'dichromate', 'pressure', oxygen, bretherick, 'Peroxide on dichromate throws off oxygen.'),
  row('peroxide', 'persulphate', 'pressure', oxygen, bretherick, 'Peroxide on persulphate gives off oxygen.'),
  row(
    'peroxide',
    'caustic',
    'pressure',
    oxygen,
    bretherick,
    'Caustic makes peroxide fall apart: oxygen and heat.',
  ),
  row(
    'acid',
    'carbonate',
    'pressure',
    ['H280'],
    sheets,
    'Acid on carbonate foams up: open the lid, go slowly and away from your face.',
  ),
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
