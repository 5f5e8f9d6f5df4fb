import { type Way, way, wet } from './way.js';

/** What leaves the tank: draining, pouring back, pouring away; and a tank with no film. */
export const DRAINING: readonly Way[] = [
  // draining
  way(
    "(?:draining|drain|emptying|empty) (?:out )?(?:{liquid}|{the}tank|it)(?: out)?(?: now)?|(?:start|begin) (?:to )?drain(?:ing)?|done|(?:time to|i'll|i will) drain",
    'drain now',
    ['immersed', 'draining'],
  ),
  way(
    "(?:that's it )?(?:{the}tank(?:'s| is)? )?(?:now )?(?:all |completely )?(?:empty|emptied|drained)(?: now)?|(?:done|finished) (?:draining|emptying)|{me}(?:emptied|drained) (?:it|{the}tank)(?: out)?|{me}poured it (?:all )?out|(?:it's|it is) (?:all )?(?:drained|out)|all (?:out|gone)|{liquid}(?:'s| is)? (?:out|drained|gone)|done",
    'tank is empty',
    ['draining'],
  ),
  way(
    "{the}tank(?:'s| is)? empty(?: now)?|empty tank|{me}(?:emptied|drained) {the}tank",
    'tank is empty',
    wet,
  ),
  // back and away
  way(
    '(?:{me}(?:poured|put) |returned )?{liquid} back(?: in| into)?(?: (?:its|the) (?:own )?bottle)?',
    'pouring the $1 back',
    wet,
  ),
  way(
    '(?:(?:{me}(?:poured|put)|pouring|pour|putting|put|returning|return) )?{liquid} (?:back )?(?:to|into|in|in to) {bottle}',
    'pouring the $1 back into $2',
    ['draining'],
  ),
  way(
    '(?:{me}(?:poured|put)|pouring|pour|putting|put|returning|return) {liquid} back (?:to|into|in|in to) {bottle}',
    'pouring the $1 back into $2',
    wet,
  ),
  way(
    '(?:(?:pouring|putting|going|returning) )?(?:it )?back (?:to|into|in|in to) (?:number )?{n}',
    'back into bottle $1',
    ['draining', 'immersed', 'challenged'],
  ),
  way(
    '(?:pouring |going |put(?:ting)? )?(?:it )?(?:back )?(?:to|into|in) {bottle}|{bottle}',
    'back into $1$2',
    ['draining'],
  ),
  way('returning (?:it )?(?:to|into|in) {bottle}', 'back into $1', wet),
  way(
    "(?:(?:pouring|putting|pour|put|returning|going) )?(?:it )?back(?: in| into| to)?(?: (?:the|its|it's)(?: own)? bottle)?|return it",
    'pouring it back',
    wet,
  ),
  way(
    'down {the}(?:drain|sink)|into {the}(?:drain|sink)|away|to waste|(?:pouring|tipping|pour) (?:it )?(?:down|into) {the}(?:drain|sink)|(?:binning|bin|chucking|chuck|tossing|toss) it(?: away| out)?|(?:it goes )?down {the}(?:drain|sink)',
    'pouring it away',
    ['draining', 'challenged', 'immersed'],
  ),
  way(
    "(?:there(?:'s| is| isn't any)? )?no film(?: in (?:it|{the}tank|there))?(?: yet)?|(?:{the}tank|it) has no film(?: in it)?|without film|film is not in(?: {the}tank)?",
    'there is no film',
    ['challenged'],
  ),
];
