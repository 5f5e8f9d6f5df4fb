/**
 * The stages of a day at the sink in which somebody may say something, each as the lines that lead to it (typed words, or
 * “+90s” for time passing) from the stage before it.
 */
const STAGES: Readonly<Record<string, { after?: string; lines: readonly string[] }>> = {
  idle: { lines: [] },

  'mixing: before the first part': { lines: ['mix a liter of developer', 'next'] },
  'mixing: first part asked for': { after: 'mixing: before the first part', lines: ['next'] },
  'mixing: first part weighed': { after: 'mixing: first part asked for', lines: ['2 ml'] },
  'mixing: sulphite asked for': { after: 'mixing: first part weighed', lines: ['dissolved'] },
  'mixing: sulphite weighed': { after: 'mixing: sulphite asked for', lines: ['2 g'] },
  'mixing: bromide asked for': {
    after: 'mixing: sulphite weighed',
    lines: ['dissolved', '0.22 g', 'dissolved'],
  },
  'mixing: carbonate asked for': { after: 'mixing: bromide asked for', lines: ['1.2 g', 'dissolved'] },
  'mixing: top up': {
    after: 'mixing: carbonate asked for',
    lines: ['25.6 g', 'dissolved', '2.7 g', 'dissolved', '4 g', 'dissolved'],
  },
  'mixing: acidity asked for': { after: 'mixing: top up', lines: ['made up'] },
  'mixing: bottle asked for': { after: 'mixing: acidity asked for', lines: ['the ph is 10.2'] },

  'mixing: developing agent asked for': {
    after: 'mixing: carbonate asked for',
    lines: ['25.6 g', 'dissolved', '2.7 g', 'dissolved'],
  },
  'mixing: prebath': { lines: ['mix a liter of prebath', 'next'] },
  'mixing: prebath sulphate next': { after: 'mixing: prebath', lines: ['next', '20 g', 'dissolved'] },
  'mixing: stop bath': { lines: ['mix a liter of stop bath'] },
  'mixing: bleach': { lines: ['mix a liter of bleach', 'next', 'next'] },
  'mixing: bleach top up': { after: 'mixing: bleach', lines: ['40 g', 'dissolved', '25 g', 'dissolved'] },
  'mixing: fixer': { lines: ['mix a liter of fixer', 'next', 'next'] },

  warming: { lines: ['start a run', 'next'] },
  'warming: warm': { after: 'warming', lines: ['developer is at 41.1', 'the tub is at 41'] },
  loading: { after: 'warming: warm', lines: ['next'] },
  'pouring: film loaded': { after: 'loading', lines: ['the film is loaded'] },
  'immersed: backing removal': {
    after: 'immersed: prebath',
    lines: ['+8s', 'prebath back into bottle 1', 'tank empty', 'water in', '+20s'],
  },
  'pouring: prebath cleared': { after: 'pouring: film loaded', lines: ['pouring the prebath from bottle 1'] },
  'immersed: prebath': { after: 'pouring: prebath cleared', lines: ['prebath in', '+4s'] },
  'pouring: water due': {
    after: 'immersed: prebath',
    lines: ['+8s', 'prebath back into bottle 1', 'tank empty'],
  },
  'pouring: developer due': { after: 'pouring: water due', lines: ['water in', '+50s', 'tank empty'] },
  'pouring: developer cleared': {
    after: 'pouring: developer due',
    lines: ['pouring the developer from bottle 2'],
  },
  'pouring: wrong bottle refused': {
    after: 'pouring: developer due',
    lines: ['pouring the bleach from bottle 4'],
  },
  'immersed: developer': { after: 'pouring: developer cleared', lines: ['developer in', '+60s'] },
  'immersed: clock held': { after: 'immersed: developer', lines: ['hold the clock'] },
  'immersed: extra time told': { after: 'immersed: developer', lines: ['give it fourteen seconds more'] },
  'immersed: spill': { after: 'immersed: developer', lines: ['spilled 50 ml of developer on the floor'] },
  'draining: developer called': { after: 'immersed: developer', lines: ['+125s'] },
  'draining: developer going back': {
    after: 'draining: developer called',
    lines: ['pouring it back into bottle 2'],
  },
  'draining: bottle of the developer asked for': {
    after: 'draining: developer called',
    lines: ['pouring the developer back'],
  },
  'pouring: stop due': { after: 'draining: developer going back', lines: ['+5s', 'tank empty'] },
  'pouring: stop cleared': { after: 'pouring: stop due', lines: ['pouring the stop bath from bottle 3'] },
  'immersed: stop': { after: 'pouring: stop cleared', lines: ['stop bath in', '+10s'] },
  'draining: prebath called': { after: 'immersed: prebath', lines: ['+8s'] },
  'draining: stop called': { after: 'immersed: stop', lines: ['+18s'] },
  'immersed: wash after the stop': {
    after: 'draining: stop called',
    lines: ['stop bath back into bottle 3', 'tank empty', 'water in', '+10s'],
  },
  'pouring: bleach due': {
    after: 'immersed: stop',
    lines: ['+18s', 'stop bath back into bottle 3', 'tank empty', 'water in', '+34s', 'tank empty'],
  },
  'immersed: bleach': {
    after: 'pouring: bleach due',
    lines: ['pouring the bleach from bottle 4', 'bleach in', '+60s'],
  },
  'draining: bleach called': { after: 'immersed: bleach', lines: ['+120s'] },
  'pouring: second wash due': {
    after: 'draining: bleach called',
    lines: ['bleach back into bottle 4', 'tank empty'],
  },
  'immersed: second wash': { after: 'pouring: second wash due', lines: ['water in', '+30s'] },
  'pouring: fixer due': {
    after: 'immersed: bleach',
    lines: ['+120s', 'bleach back into bottle 4', 'tank empty', 'water in', '+64s', 'tank empty'],
  },
  'immersed: fixer': {
    after: 'pouring: fixer due',
    lines: ['pouring the fixer from bottle 5', 'fixer in', '+60s'],
  },
  'draining: fixer called': { after: 'immersed: fixer', lines: ['+60s'] },
  'immersed: wash': {
    after: 'immersed: fixer',
    lines: ['+60s', 'fixer back into bottle 5', 'tank empty', 'water in', '+30s'],
  },
  'pouring: final rinse due': { after: 'immersed: wash', lines: ['+95s', 'tank empty'] },
  'immersed: final rinse': {
    after: 'pouring: final rinse due',
    lines: ['pouring the final rinse from bottle 6', 'final rinse in'],
  },
  hanging: {
    after: 'immersed: final rinse',
    lines: ['+12s', 'final rinse back into bottle 6', 'tank empty'],
  },
  closing: { after: 'hanging', lines: ['the film is hung'] },
  closed: { after: 'closing', lines: ['close the run'] },
};

export const SITUATIONS: readonly string[] = Object.keys(STAGES);

/** Every line from the beginning of the day to this stage. */
export function linesTo(name: string): string[] {
  const stage = STAGES[name];
  if (!stage) throw new Error(`There is no situation “${name}”. Known: ${SITUATIONS.join(', ')}.`);
  return [...(stage.after === undefined ? [] : linesTo(stage.after)), ...stage.lines];
}
