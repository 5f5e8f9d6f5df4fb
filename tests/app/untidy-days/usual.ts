/** Stretches of a day that go as they should, for the days on which something else does not. */
export const bath = (name: string, bottle: number, stay: string): string[] => [
  `pouring the ${name} from bottle ${bottle}`,
  `${name} in`,
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
export const inDeveloper = [...toDeveloper, 'pouring the developer from bottle 2', 'developer in'];
/** Developed, the tank empty: the stop bath is due. */
export const developed = [...inDeveloper, '+172s', 'developer back into bottle 2', '+5s', 'tank empty'];
export const toBleach = [...developed, ...bath('stop bath', 3, '+28s'), ...water('+34s')];
export const toFixer = [...toBleach, ...bath('bleach', 4, '+176s'), ...water('+64s')];
export const toFinalRinse = [...toFixer, ...bath('fixer', 5, '+116s'), ...water('+122s')];
export const wholeRoll = [
  ...toFinalRinse,
  ...bath('final rinse', 6, '+11s'),
  'the film is hung',
  'close the run',
];
