/** Stretches of a day that go as they should, for the days on which something else does not. */

/** A bath is in, and its bottle was cleared for it. */
export const pour = (name: string, bottle: number): string[] => [
  `pouring the ${name} from bottle ${bottle}`,
  `${name} in`,
];
export const bath = (name: string, bottle: number, stay: string): string[] => [
  ...pour(name, bottle),
  stay,
  `${name} back into bottle ${bottle}`,
  'tank empty',
];
export const water = (stay: string): string[] => ['water in', stay, 'tank empty'];

export const begun = ['start a run', 'developer is at 41.1', 'the film is loaded'];
export const cleared = [...bath('prebath', 1, '+12s'), ...water('+50s')];
/** Film loaded, prebath and backing done: the developer is due. */
export const toDeveloper = [...begun, ...cleared];
/** The developer is in, and no time has passed. */
export const inDeveloper = [...toDeveloper, ...pour('developer', 2)];
/** Developed, the tank empty: the stop bath is due. */
export const developed = [...inDeveloper, '+172s', 'developer back into bottle 2', '+5s', 'tank empty'];
/** The same on the black-and-white sheet. */
export const developedBlackAndWhite = [
  'start a run',
  'developer is at 20',
  'the film is loaded',
  ...pour('developer', 1),
  '+6m50s',
  'developer back into bottle 1',
  'tank empty',
];
export const toBleach = [...developed, ...bath('stop bath', 3, '+28s'), ...water('+34s')];
export const toFixer = [...toBleach, ...bath('bleach', 4, '+176s'), ...water('+64s')];
export const toFinalRinse = [...toFixer, ...bath('fixer', 5, '+116s'), ...water('+122s')];
export const wholeRoll = [
  ...toFinalRinse,
  ...bath('final rinse', 6, '+11s'),
  'the film is hung',
  'close the run',
];
/** The first part of a bleach is in. */
export const mixingBleach = ['mix half a litre of bleach', 'next', 'next', '20 grams', 'dissolved'];
/** Both parts are in: it is to be made up. */
export const bleachMixed = [...mixingBleach, '12.5 grams', 'dissolved'];
/** The first two parts of a developer are in. */
export const mixingDeveloper = [
  'mix one litre of developer',
  'next',
  'next',
  ...['2 ml', 'dissolved', '2 g', 'dissolved'],
];

const DEVELOPER = [
  ['anti-calcium', '2 ml'],
  ['sulfite', '2 g'],
  ['anti-fog', '0.22 g'],
  ['bromide', '1.2 g'],
  ['carbonate', '25.6 g'],
  ['bicarbonate', '2.7 g'],
  ['CD-3', '4 g'],
] as const;
/** A litre of developer, as far as the part that is to be weighed next. */
export const partsOfDeveloper = (next: (typeof DEVELOPER)[number][0]): readonly string[] => [
  'mix one litre of developer',
  'next',
  'next',
  ...DEVELOPER.slice(
    0,
    DEVELOPER.findIndex(([part]) => part === next),
  ).flatMap(([, much]) => [much, 'dissolved']),
];
