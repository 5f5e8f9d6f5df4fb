import type { Intent } from '../../process/intent.js';

/** Deeds that a guess must never set off. */
const GUARDED = new Set<Intent['type']>([
  ...([
    'pour-in',
    'pour-back',
    'pour-between',
    'pour-away',
    'bath-in',
    'next-step',
    'drain-now',
    'tank-empty',
  ] as const),
  ...([
    'override',
    'no-film',
    'confirm',
    'cancel',
    'undo',
    'bottle-holds',
    'bottle-discarded',
    'close-run',
    'film-loaded',
    'poured',
    'bottle-empty',
    'correct',
    'withdraw',
    'redo',
    'skip',
    'several',
  ] as const),
]);

/** Announcements: the guard judges them, so asking is as good as telling. */
export const POURS = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-between', 'pour-away']);

/** Told as done; with a question mark they are asked back. */
export const REPORTS = new Set<Intent['type']>([
  ...(['film-hung', 'start-clock', 'hold-clock', 'resume-clock', 'add-time', 'spill-cleaned'] as const),
  ...([
    'dissolved',
    'scale-zeroed',
    'made-up',
    'mix-stop',
    'bottle-named',
    'heater',
    'vessel-moved',
  ] as const),
]);

export const isGuarded = (intent: Intent): boolean => GUARDED.has(intent.type);

export const isQuestion = ({ type }: Intent): boolean =>
  type.startsWith('ask-') || type === 'shelf-have' || type === 'mix-plan';

/** What a sentence tells, each by itself. */
export const factsIn = (intent: Intent): readonly Intent[] =>
  intent.type === 'several' ? intent.intents : [intent];
/** The same with each thing that it tells as `change` has it. */
export const withFacts = (intent: Intent, change: (fact: Intent) => Intent): Intent =>
  intent.type === 'several' ? { ...intent, intents: intent.intents.map(change) } : change(intent);

/** What can be told together in one sentence. */
const FACTS = new Set<Intent['type']>([
  ...(['bath-in', 'tank-empty', 'poured', 'bottle-empty', 'bottle-holds', 'temperature', 'spill'] as const),
  ...(['spill-cleaned', 'film-loaded', 'films', 'heater', 'tub-set', 'vessel-moved', 'start-clock'] as const),
  ...(['tank-takes', 'use-tank', 'bath-history', 'bath-ph', 'contaminated', 'had-before'] as const),
]);

/** What changes the world or the record of it when it is done. */
export const isDeed = (intent: Intent): boolean =>
  isGuarded(intent) || REPORTS.has(intent.type) || FACTS.has(intent.type) || ALSO_DEEDS.has(intent.type);

/** What tells how it is at the sink, and does not only steer or take back. */
export const tellsOfSink = (intent: Intent): boolean =>
  factsIn(intent).some((f) => (isDeed(f) && !STEERS.has(f.type)) || f.type === 'tank-without-film');

const STEERS = new Set<Intent['type']>([
  ...(['confirm', 'cancel', 'override', 'skip', 'withdraw', 'stop', 'undo', 'redo'] as const),
  ...([
    'next-step',
    'drain-now',
    'begin-run',
    'close-run',
    'mix-stop',
    'hold-clock',
    'resume-clock',
  ] as const),
]);

const ALSO_DEEDS = new Set<Intent['type']>([
  'begin-run',
  'swapped',
  'bath-history',
  'shelf-add',
  'reading',
  'ph-reading',
  'stop',
]);
