import type { EvidenceId } from './evidence.js';

/** How often a cause shows this evidence, 0 to 1, and where that is from. */
export interface Expectation {
  /** one of several means: any of them, the plainest counts */
  shows: EvidenceId | readonly EvidenceId[];
  p: number;
  source: string;
}

export interface Cause {
  /** "the developer was too cold" */
  name: string;
  /** how often it is what is wrong, before anything is looked at; only ratios matter */
  prior: number;
  expects: readonly Expectation[];
  /** what to do otherwise next time, and whether this film can be helped */
  change: string;
  source: string;
}

const practice = 'common practice';
const mechanical =
  'Kodak control strip manuals, “Effects of Mechanical and Chemical Variations”, from memory';
const minilab = 'Kodak publication CIS-254, control plots';
const army = 'US Army correspondence course SS0514';
const layers = 'B. Pritchard, film archive course, physical control of processing';

const sees = (shows: Expectation['shows'], p: number, source = practice): Expectation => ({
  shows,
  p,
  source,
});

/** What too little development leaves on film, whatever held it back. */
const weakPicture: readonly Expectation[] = [
  sees('contrast-low', 0.5, minilab),
  sees('image-thin', 0.45, minilab),
  sees('red-flat', 0.5, layers),
];
/** What too much development leaves on film. */
const strongPicture: readonly Expectation[] = [
  sees('contrast-high', 0.45, minilab),
  sees('image-dense', 0.4, minilab),
  sees('red-steep', 0.4, layers),
  sees('base-fog', 0.3, mechanical),
  sees('base-yellow', 0.2, mechanical),
];

/**
 * Every cause the review knows, with the evidence it is expected to show. Evidence that a cause does not name is as
 * likely under it as when nothing is wrong (`background` in evidence.ts). A new cause is a new entry.
 */
export const causes = {
  'film-aged': {
    name: 'the film is old or was kept warm',
    prior: 1,
    expects: [
      sees(['film-expired', 'film-warm'], 0.85),
      sees('base-fog', 0.75),
      sees('base-yellow', 0.5),
      sees('contrast-low', 0.45),
      sees('image-thin', 0.3),
      sees('blue-flat', 0.5),
      sees('shadows-empty', 0.3),
      sees('colours-pale', 0.3),
    ],
    change: 'Give old film a stop more light for every ten years past its date, and keep film cold',
    source: practice,
  },
  'dev-short': {
    name: 'the developer was in too short',
    prior: 0.9,
    expects: [sees('dev-short', 0.95, army), ...weakPicture],
    change: 'Keep the full time in the developer: have the drain begin so that the tank is empty on time',
    source: army,
  },
  'dev-long': {
    name: 'the developer was in too long',
    prior: 0.9,
    expects: [sees('dev-long', 0.95, army), ...strongPicture],
    change: 'Start draining the developer earlier: the time counts until the tank is empty',
    source: army,
  },
  'dev-cold': {
    name: 'the developer was too cold',
    prior: 1,
    expects: [sees('dev-cold', 0.95, army), ...weakPicture],
    change: 'Warm the tank before the developer goes in, and pour at the sheet’s temperature',
    source: army,
  },
  'dev-warm': {
    name: 'the developer was too warm',
    prior: 0.9,
    expects: [sees('dev-warm', 0.95, army), ...strongPicture],
    change: 'Let the developer come down to the sheet’s temperature before pouring',
    source: army,
  },
  'dev-ph-low': {
    name: 'the developer’s pH was too low',
    prior: 0.6,
    expects: [
      sees('dev-ph-low', 0.9, mechanical),
      sees('contrast-low', 0.5, mechanical),
      sees('image-thin', 0.4, mechanical),
      sees('blue-flat', 0.35, mechanical),
      sees('red-flat', 0.25, mechanical),
    ],
    change: 'Mix fresh developer and check its pH at room temperature before the next film',
    source: mechanical,
  },
  'dev-ph-high': {
    name: 'the developer’s pH was too high',
    prior: 0.5,
    expects: [
      sees('dev-ph-high', 0.9, mechanical),
      sees('contrast-high', 0.45, mechanical),
      sees('base-fog', 0.45, mechanical),
      sees('base-yellow', 0.45, mechanical),
      sees('image-dense', 0.4, mechanical),
      sees('blue-steep', 0.35, mechanical),
    ],
    change: 'Mix fresh developer and check its pH at room temperature before the next film',
    source: mechanical,
  },
  'dev-weak': {
    name: 'the developer had lost its developing agent, or held too little or a wrong one',
    prior: 1,
    expects: [
      sees(['dev-aged', 'dev-loaded', 'dev-agent-low'], 0.92, minilab),
      sees('contrast-low', 0.6, minilab),
      sees('image-thin', 0.5, minilab),
      sees('red-flat', 0.4, layers),
    ],
    change: 'Mix fresh developer, weigh the developing agent twice, and replenish after every film',
    source: minilab,
  },
  'dev-strong': {
    name: 'the developer held too much developing agent',
    prior: 0.4,
    expects: [
      sees('dev-agent-high', 0.92, minilab),
      sees('contrast-high', 0.45, minilab),
      sees('image-dense', 0.4, minilab),
      sees('base-fog', 0.3, mechanical),
      sees('red-steep', 0.2, layers),
    ],
    change: 'Mix fresh developer and weigh the developing agent twice',
    source: minilab,
  },
  'dev-contaminated': {
    name: 'another bath got into the developer',
    prior: 0.7,
    expects: [
      sees('dev-foreign', 0.92, minilab),
      sees('dev-ph-low', 0.15, 'the solution model: acids lower its pH'),
      sees('dev-agent-low', 0.2, 'the solution model: bleach oxidises the developing agent'),
      sees('base-fog', 0.6, minilab),
      sees('cast-green', 0.25, mechanical),
      sees('cast-magenta', 0.25, mechanical),
      sees('contrast-low', 0.35, mechanical),
      sees('blue-flat', 0.2, mechanical),
    ],
    change:
      'Throw that developer away, rinse tank and funnel between baths, and keep one funnel for it alone',
    source: minilab,
  },
  'agitation-poor': {
    name: 'the developer was agitated too little',
    prior: 0.6,
    expects: [
      sees('agitation-missed', 0.92, army),
      sees('uneven', 0.6, practice),
      sees('contrast-low', 0.4, army),
      sees('image-thin', 0.35, army),
      sees('red-flat', 0.3, layers),
    ],
    change: 'Follow every call to agitate, and turn the tank fully over each time',
    source: army,
  },
  'silver-retained': {
    name: 'the bleach left silver in the film',
    prior: 1,
    expects: [
      sees(['bleach-short', 'bleach-worn', 'bleach-cold', 'bleach-foreign'], 0.92, army),
      sees('colours-pale', 0.8, army),
      sees('contrast-high', 0.6, army),
      sees('image-dense', 0.55, army),
    ],
    change:
      'Bleach and fix this film again in good baths: retained silver comes out, even now; then use fresh bleach',
    source: army,
  },
  'halide-retained': {
    name: 'the fixer left silver salts in the film',
    prior: 0.9,
    expects: [
      sees(['fixer-short', 'fixer-worn'], 0.9),
      sees('base-fog', 0.75),
      sees('colours-pale', 0.25),
      sees('contrast-low', 0.15),
    ],
    change: 'Fix this film again in fresh fixer and wash it before it sees more light; then use fresh fixer',
    source: practice,
  },
  'stop-missed': {
    name: 'developer was carried into the bleach',
    prior: 0.4,
    expects: [
      sees('stop-missed', 0.95),
      sees('base-fog', 0.5),
      sees('uneven', 0.4),
      sees('cast-magenta', 0.15),
    ],
    change: 'Use a stop bath for its full time, and rinse before the bleach',
    source: practice,
  },
  'scan-light': {
    name: 'the light or white balance of the scan is off',
    prior: 1,
    expects: [sees('base-tinted', 0.93), sees('base-yellow', 0.3), sees('mask-missing', 0.35)],
    change: 'Scan with a daylight-like light of high colour rendering, white balance fixed on the bare light',
    source: practice,
  },
  'scan-automatic': {
    name: 'the scanner’s automatic levels changed each colour by itself',
    prior: 1,
    expects: [
      sees('mask-missing', 0.93),
      sees('levels-stretched', 0.95),
      sees('base-tinted', 0.7),
      sees('base-wanders', 0.5),
      sees('clipped', 0.75),
      sees('red-flat', 0.2),
      sees('red-steep', 0.2),
      sees('blue-flat', 0.2),
      sees('blue-steep', 0.2),
    ],
    change:
      'Scan again as a plain positive with every automatic correction off and one exposure for the roll',
    source: practice,
  },
  'light-too-blue': {
    name: 'tungsten film saw daylight without a filter',
    prior: 0.8,
    expects: [
      sees('daylight-on-tungsten', 0.95, 'Kodak Wratten 85'),
      sees('cast-blue', 0.92, 'Kodak Wratten 85'),
      sees('base-tinted', 0.04),
    ],
    change:
      'Put an 85 filter before the lens in daylight, or use daylight film; this roll can be balanced in the positive',
    source: 'Kodak Wratten 85',
  },
  'light-too-orange': {
    name: 'daylight film saw tungsten light without a filter',
    prior: 0.7,
    expects: [
      sees('tungsten-on-daylight', 0.95, 'Kodak Wratten 80A'),
      sees('cast-orange', 0.92, 'Kodak Wratten 80A'),
      sees('image-thin', 0.25),
      sees('shadows-empty', 0.2),
    ],
    change: 'Put an 80A filter before the lens in lamp light, or use tungsten film, and give more light',
    source: 'Kodak Wratten 80A',
  },
  'exposed-little': {
    name: 'the film got too little light',
    prior: 1,
    expects: [
      sees('rated-above', 0.9),
      sees('image-thin', 0.85),
      sees('shadows-empty', 0.85),
      sees('contrast-low', 0.35),
    ],
    change: 'Give a stop more light, or rate the film lower',
    source: practice,
  },
  'exposed-much': {
    name: 'the film got too much light',
    prior: 0.7,
    expects: [sees('rated-below', 0.85), sees('image-dense', 0.9), sees('contrast-high', 0.1)],
    change: 'Give less light; colour negative takes two stops too many well, so this roll should still print',
    source: practice,
  },
  'light-struck': {
    name: 'light reached the film outside the camera’s gate',
    prior: 0.7,
    expects: [sees('base-uneven', 0.93), sees('base-fog', 0.5), sees('uneven', 0.3), sees('edge-stain', 0.2)],
    change: 'Check the changing bag, the tank’s lid and the camera’s seals for light',
    source: practice,
  },
  'backing-left': {
    name: 'backing was left on the film',
    prior: 0.7,
    expects: [sees('backing-short', 0.55), sees('edge-stain', 0.9)],
    change:
      'Soak this film in prebath again, wipe its base under water and rinse; remove backing longer next time',
    source: practice,
  },
  'drying-marks': {
    name: 'the film dried with marks',
    prior: 0.4,
    expects: [sees('rinse-missed', 0.9), sees('edge-stain', 0.6)],
    change: 'Wash and rinse this film again in final rinse made with pure water, and hang it without wiping',
    source: practice,
  },
} as const satisfies Record<string, Cause>;

export type CauseId = keyof typeof causes;

/** Odds of "nothing is wrong that this evidence can show", on the scale of the priors. */
export const nothingWrongPrior = 3;

/** A test that tells causes apart, the cheapest first. `yes`: causes under which it comes out changed. */
export interface NextTest {
  id: string;
  /** one sentence to follow "Next:" */
  does: string;
  yes: readonly CauseId[];
  source: string;
}

export const nextTests: readonly NextTest[] = [
  {
    id: 'look-at-base',
    does: 'look at the film’s clear edge against a white light: the orange is there or it is not, whatever the scan says',
    yes: ['scan-automatic', 'scan-light'],
    source: practice,
  },
  {
    id: 'rescan',
    does: 'scan one frame again with every automatic correction off and the white balance on the bare light',
    yes: ['scan-automatic', 'scan-light'],
    source: practice,
  },
  {
    id: 'wipe',
    does: 'wet one end of the film and wipe its base with a soft cloth: backing comes off black, drying marks just go',
    yes: ['backing-left', 'drying-marks'],
    source: practice,
  },
  {
    id: 'wipe-colour',
    does: 'look at the cloth after wiping the base: black is backing, clean is drying marks',
    yes: ['backing-left'],
    source: practice,
  },
  {
    id: 'refix-clip',
    does: 'put a clip of the film in fresh fixer for five minutes: if it clears, the fixer was at fault',
    yes: ['halide-retained'],
    source: practice,
  },
  {
    id: 'rebleach-clip',
    does: 'bleach and fix a clip of the film again in fresh baths: if it gets lighter and its colours stronger, it held silver',
    yes: ['silver-retained'],
    source: army,
  },
  {
    id: 'second-thermometer',
    does: 'check the thermometer against another one in the same water',
    yes: ['dev-cold', 'dev-warm'],
    source: practice,
  },
  {
    id: 'ph',
    does: 'measure the developer’s pH at room temperature',
    yes: ['dev-ph-low', 'dev-ph-high', 'dev-contaminated'],
    source: practice,
  },
  {
    id: 'fresh-developer',
    does: 'put a clip of the same stock, exposed alike, through fresh developer: if it comes out right, the old developer was at fault',
    yes: ['dev-weak', 'dev-strong', 'dev-contaminated', 'dev-ph-low', 'dev-ph-high'],
    source: practice,
  },
  {
    id: 'grey-card',
    does: 'expose a frame of a grey card in known light on the next roll: if its grey is neutral, the light was at fault',
    yes: ['light-too-blue', 'light-too-orange', 'exposed-little', 'exposed-much'],
    source: practice,
  },
  {
    id: 'fresh-film',
    does: 'run a clip of fresh film beside the next one: if its base is clear, the old film was at fault',
    yes: ['film-aged', 'light-struck'],
    source: practice,
  },
  {
    id: 'control-strip',
    does: 'run a control strip with the next film: it shows development, bleach and fixer apart from film and light',
    yes: [
      'dev-short',
      'dev-long',
      'dev-cold',
      'dev-warm',
      'dev-weak',
      'dev-strong',
      'dev-ph-low',
      'dev-ph-high',
      'dev-contaminated',
      'agitation-poor',
      'silver-retained',
      'halide-retained',
      'stop-missed',
    ],
    source: minilab,
  },
];
