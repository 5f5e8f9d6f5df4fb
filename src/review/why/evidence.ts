/** Which way a deviation pulls the negative. `layer`: where it is known to differ; else all three. */
export interface Effect {
  on: 'density' | 'contrast' | 'fog' | 'saturation' | 'colour' | 'evenness' | 'keeping';
  way: 'up' | 'down' | 'shifts';
  layer?: 'red' | 'green' | 'blue';
}

/**
 * One thing that a run's record or a scan can show. `edge` and `full` are in the unit of its value: up to the edge it
 * is within what happens anyway, from `full` on it is plain.
 */
export interface EvidenceKind {
  edge: number;
  full: number;
  /** how often it shows when nothing is wrong, 0 to 1 */
  background: number;
  /** `{v}` stands for the value in words */
  says: string;
  effects?: readonly Effect[];
  source: string;
}

const mechanical =
  'directions: Kodak control strip manuals for Process ECN-2, “Effects of Mechanical and Chemical Variations” (trends, not amounts), from memory';
const minilab = 'Kodak publication CIS-254, interpretation of control plots (LD, HD-LD, D-min)';
const army = 'US Army correspondence course SS0514, developer solution variables and retained silver';
const layers =
  'B. Pritchard, film archive course, physical control of processing: speed or temperature moves the layers apart, highlights and shadows take opposite tints';
const practice = 'common practice';
const keeping = 'keeping and capacity of the recipe, with its own sources';

const less: readonly Effect[] = [
  { on: 'contrast', way: 'down' },
  { on: 'density', way: 'down', layer: 'red' },
];
const more: readonly Effect[] = [
  { on: 'contrast', way: 'up' },
  { on: 'fog', way: 'up', layer: 'blue' },
];

/** What silver left behind by the bleach does. */
const silverStays: readonly Effect[] = [
  { on: 'density', way: 'up' },
  { on: 'saturation', way: 'down' },
];
/** What silver salts left behind by the fixer do. */
const halideStays: readonly Effect[] = [
  { on: 'fog', way: 'up' },
  { on: 'keeping', way: 'down' },
];
/** What age and heat do to film. */
const aged: readonly Effect[] = [
  { on: 'fog', way: 'up', layer: 'blue' },
  { on: 'contrast', way: 'down' },
];

/** How often it shows when nothing is wrong, and where its numbers are from, unless a row says so itself. */
const usually =
  (usual: Pick<EvidenceKind, 'background' | 'source'>) =>
  (row: Omit<EvidenceKind, keyof typeof usual> & Partial<typeof usual>): EvidenceKind => ({
    ...usual,
    ...row,
  });

/** Of a run's record: careful work seldom shows it. */
const record = usually({ background: 0.008, source: practice });
const scan = usually({ background: 0.04, source: practice });

export const evidenceKinds = {
  'dev-short': record({
    edge: 0.035,
    full: 0.1,
    says: 'the developer was in for {v} less than its time',
    effects: less,
    source: `${minilab}; ${army}; ${layers}`,
  }),
  'dev-long': record({
    edge: 0.045,
    full: 0.12,
    says: 'the developer was in for {v} more than its time',
    effects: more,
    source: `${minilab}; ${army}; ${layers}`,
  }),
  'dev-cold': record({
    edge: 0.3,
    full: 1.2,
    says: 'the developer was {v} below its temperature',
    effects: less,
    source: `${minilab}; ${army}; ${layers}`,
  }),
  'dev-warm': record({
    edge: 0.3,
    full: 1.2,
    says: 'the developer was {v} above its temperature',
    effects: more,
    source: `${minilab}; ${army}; ${layers}`,
  }),
  'dev-aged': record({
    edge: 1,
    full: 1.8,
    says: 'the developer was {v} of its keeping time old',
    effects: less,
    source: `${minilab} (oxidation lowers contrast); ${keeping}`,
  }),
  'dev-loaded': record({
    edge: 0.95,
    full: 1.5,
    says: 'the developer had done {v} of the film it is good for',
    effects: less,
    source: `${minilab} (too little replenishment lowers speed); ${keeping}`,
  }),
  'dev-agent-low': record({
    edge: 0.04,
    full: 0.15,
    says: 'the developer held {v} less developing agent than its recipe',
    effects: less,
    source: `${minilab} (dilution lowers contrast); ${mechanical}`,
  }),
  'dev-agent-high': record({
    edge: 0.05,
    full: 0.18,
    says: 'the developer held {v} more developing agent than its recipe',
    effects: more,
    source: `${minilab} (overconcentration raises contrast); ${mechanical}`,
  }),
  'dev-ph-low': record({
    edge: 0.06,
    full: 0.18,
    says: 'the developer’s pH was {v} low',
    effects: [
      { on: 'contrast', way: 'down' },
      { on: 'density', way: 'down' },
    ],
    source: mechanical,
  }),
  'dev-ph-high': record({
    edge: 0.06,
    full: 0.18,
    says: 'the developer’s pH was {v} high',
    effects: more,
    source: mechanical,
  }),
  'dev-foreign': record({
    edge: 0.002,
    full: 0.012,
    says: 'other baths were in the developer ({v})',
    effects: [
      { on: 'fog', way: 'up' },
      { on: 'contrast', way: 'shifts' },
    ],
    source: `${minilab} (contamination); ${mechanical}`,
  }),
  'agitation-missed': record({
    edge: 0.15,
    full: 0.5,
    says: '{v} of the agitation was left out',
    effects: [
      { on: 'contrast', way: 'down' },
      { on: 'evenness', way: 'down' },
    ],
    source: `${army} (low agitation looks like a cold or short developer); ${minilab}`,
  }),
  'stop-missed': record({
    edge: 0.2,
    full: 0.6,
    says: 'the stop bath {v}',
    effects: [
      { on: 'fog', way: 'up' },
      { on: 'evenness', way: 'down' },
    ],
    source: `${practice}: developer carried into the bleach is oxidised there and stains`,
  }),
  'bleach-short': record({
    edge: 0.08,
    full: 0.35,
    says: 'the bleach {v}',
    effects: silverStays,
    source: `${army} (retained silver); ${practice}`,
  }),
  'bleach-cold': record({
    edge: 2,
    full: 7,
    says: 'the bleach was {v} below its temperature',
    effects: silverStays,
  }),
  'bleach-worn': record({
    edge: 0.95,
    full: 1.5,
    says: 'the bleach was at {v} of what it is good for',
    effects: silverStays,
    source: `${army} (retained silver); ${keeping}`,
  }),
  'bleach-foreign': record({
    edge: 0.01,
    full: 0.06,
    says: 'other baths were in the bleach ({v})',
    effects: silverStays,
    source: `stoichiometry: sulphite, thiosulphate and developing agent use up ferricyanide; ${practice}`,
  }),
  'fixer-short': record({
    edge: 0.08,
    full: 0.35,
    says: 'the fixer {v}',
    effects: halideStays,
    source: `${practice}: silver halide left behind is milky and darkens`,
  }),
  'fixer-worn': record({
    edge: 0.95,
    full: 1.5,
    says: 'the fixer was at {v} of what it is good for',
    effects: halideStays,
    source: `${practice}; ${keeping}`,
  }),
  'wash-short': record({
    edge: 0.2,
    full: 0.7,
    says: 'the last wash {v}',
    effects: [{ on: 'keeping', way: 'down' }],
  }),
  'rinse-missed': record({
    edge: 0.3,
    full: 0.8,
    says: 'the final rinse {v}',
    effects: [{ on: 'evenness', way: 'down' }],
    source: `${practice}: without a wetting agent water dries in drops`,
  }),
  'backing-short': record({
    edge: 0.3,
    full: 0.9,
    says: 'the backing removal {v}',
    effects: [{ on: 'evenness', way: 'down' }],
    source: `${practice}: backing that stays prints as dark specks and smears`,
  }),
  'film-expired': record({
    edge: 1.5,
    full: 6,
    says: 'the film was {v} past its date',
    effects: aged,
    source: `${practice}: age and heat raise fog and lower speed, unevenly between the layers`,
  }),
  'film-warm': record({
    edge: 0.2,
    full: 0.9,
    says: 'the film had been kept warm',
    effects: aged,
  }),
  'daylight-on-tungsten': record({
    edge: 0.2,
    full: 0.9,
    says: 'tungsten film was exposed in daylight without a filter on record',
    effects: [{ on: 'colour', way: 'shifts', layer: 'blue' }],
    source: 'Kodak Wratten 85: 5500 K to 3200 K, about 131 mired',
  }),
  'tungsten-on-daylight': record({
    edge: 0.2,
    full: 0.9,
    says: 'daylight film was exposed in tungsten light without a filter on record',
    effects: [{ on: 'colour', way: 'shifts', layer: 'red' }],
    source: 'Kodak Wratten 80A: 3200 K to 5500 K, about 131 mired',
  }),
  'rated-above': record({
    edge: 0.6,
    full: 1.5,
    says: 'the film was exposed {v} below its speed without as much of a push',
    effects: [{ on: 'density', way: 'down' }],
  }),
  'rated-below': record({
    edge: 1.2,
    full: 2.6,
    background: 0.04,
    says: 'the film was exposed {v} above its speed',
    effects: [{ on: 'density', way: 'up' }],
  }),

  'contrast-low': scan({
    edge: 0.3,
    full: 0.65,
    background: 0.06,
    says: 'the negative’s range of densities is short ({v})',
    source: 'range of the green layer against a scene of seven stops at a gamma of 0.55, common practice',
  }),
  'contrast-high': scan({
    edge: 0.3,
    full: 0.6,
    background: 0.06,
    says: 'the negative’s range of densities is long ({v})',
    source: 'range of the green layer against a scene of seven stops at a gamma of 0.55, common practice',
  }),
  'image-thin': scan({
    edge: 0.15,
    full: 0.3,
    says: 'the picture lies low on the film, {v} under the usual density',
    source: 'middle tones of a normal negative lie 0.5 to 0.7 over its base: common practice',
  }),
  'image-dense': scan({
    edge: 0.15,
    full: 0.38,
    says: 'the picture lies high on the film, {v} over the usual density',
    source: 'middle tones of a normal negative lie 0.5 to 0.7 over its base: common practice',
  }),
  'shadows-empty': scan({
    edge: 0.06,
    full: 0.25,
    background: 0.05,
    says: '{v} of the picture is bare base: shadows left nothing',
  }),
  'base-fog': scan({
    edge: 0.02,
    full: 0.1,
    says: 'the base is {v} denser than a clear one',
    source:
      'red D-min of colour negative film, about 0.2 with its support: makers’ characteristic curves, from memory',
  }),
  'base-yellow': scan({
    edge: 0.08,
    full: 0.2,
    says: 'the base is {v} yellower than usual: fog of the blue layer',
    source: `${mechanical}; ${minilab}`,
  }),
  'mask-missing': scan({
    edge: 0.2,
    full: 0.7,
    background: 0.02,
    says: 'the orange of the base is gone from the scan ({v} of it missing)',
    source:
      'every masked colour negative film has an orange base; software that balances each scan takes it out: common practice',
  }),
  'base-tinted': scan({
    edge: 0.09,
    full: 0.22,
    says: 'the base has not the colour of a colour negative’s, by {v}',
    source: 'differences of D-min between layers: makers’ characteristic curves, from memory',
  }),
  clipped: scan({
    edge: 0.004,
    full: 0.015,
    background: 0.03,
    says: '{v} of the scan is cut off at both ends',
  }),
  'levels-stretched': scan({
    edge: 0.8,
    full: 0.95,
    background: 0.01,
    says: 'each colour by itself fills {v} of the scan’s range',
    source:
      'through an orange base the three colours cannot reach black and white alike; stretching each by itself makes them: common practice',
  }),
  'base-wanders': scan({
    edge: 0.02,
    full: 0.06,
    background: 0.03,
    says: 'the colour of the base differs from frame to frame, by {v}',
    source: 'one roll has one base, and a fixed scan shows it alike in every frame: common practice',
  }),
  'cast-blue': scan({
    edge: 0.05,
    full: 0.11,
    says: 'greys lean blue, shadows and highlights alike ({v})',
  }),
  'cast-orange': scan({
    edge: 0.05,
    full: 0.11,
    says: 'greys lean orange, shadows and highlights alike ({v})',
  }),
  'cast-green': scan({
    edge: 0.06,
    full: 0.14,
    says: 'greys lean green ({v})',
  }),
  'cast-magenta': scan({
    edge: 0.06,
    full: 0.14,
    says: 'greys lean magenta ({v})',
  }),
  'red-flat': scan({
    edge: 0.08,
    full: 0.18,
    background: 0.05,
    says: 'the red layer is flatter than the green by {v}',
    source: `${layers}; the red layer lies lowest and is developed last`,
  }),
  'red-steep': scan({
    edge: 0.05,
    full: 0.14,
    background: 0.05,
    says: 'the red layer is steeper than the green by {v}',
    source: layers,
  }),
  'blue-flat': scan({
    edge: 0.08,
    full: 0.18,
    background: 0.05,
    says: 'the blue layer is flatter than the green by {v}',
    source: layers,
  }),
  'blue-steep': scan({
    edge: 0.08,
    full: 0.18,
    background: 0.06,
    says: 'the blue layer is steeper than the green by {v}',
    source: layers,
  }),
  'colours-pale': scan({
    edge: 0.4,
    full: 0.9,
    background: 0.06,
    says: 'colours are pale for the picture’s contrast ({v})',
    source: `${army} (retained silver is neutral density over the dyes); ${practice}`,
  }),
  'edge-stain': scan({
    edge: 0.05,
    full: 0.15,
    says: 'the edges are stained or smeared ({v})',
  }),
  uneven: scan({
    edge: 0.08,
    full: 0.17,
    background: 0.05,
    says: 'density wanders across all frames alike ({v})',
    source: `${practice}: poor agitation`,
  }),
  'base-uneven': scan({
    edge: 0.04,
    full: 0.12,
    background: 0.03,
    says: 'the base itself is uneven ({v}): light has been there',
  }),
} as const satisfies Record<string, EvidenceKind>;

export type EvidenceId = keyof typeof evidenceKinds;

/** A value that was seen, and how plainly, 0 (within what happens anyway) to 1. */
export interface Evidence {
  id: EvidenceId;
  value: number;
  strength: number;
  /** the value in words, and the clause it makes */
  said: string;
  words: string;
  stepId?: string;
}

/** What was looked at; an id that is missing could not be known. */
export type Observed = ReadonlyMap<EvidenceId, Evidence>;

export function observed(id: EvidenceId, value: number, said: string, stepId?: string): Evidence {
  const { edge, full, says } = evidenceKinds[id];
  const strength = Math.min(1, Math.max(0, (value - edge) / (full - edge)));
  return {
    id,
    value,
    strength,
    said,
    words: says.replace('{v}', said),
    ...(stepId === undefined ? {} : { stepId }),
  };
}
