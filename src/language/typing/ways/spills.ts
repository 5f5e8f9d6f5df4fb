import { type Way, way } from './way.js';

/** The answers that a spill asks for, and its end; its report is in `../spill-report.ts`. */
export const SPILLS: readonly Way[] = [
  way(
    "(?:{me}(?:wiped|mopped|cleaned|washed) (?:it|that|everything|{the}spill)(?: all)? up)|(?:{the}spill(?:'s| is)? (?:all )?(?:gone|cleaned|wiped|mopped|dealt with|done|dry|clean)(?: up)?)|all (?:clean|cleaned)|(?:it's|it is) (?:clean|dry|gone)|cleaned(?: it)?|clean|(?:done )?{me}cleaned (?:it|that)(?: all)? up|(?:{me}cleaned|done cleaning)(?: up)?(?: {the}spill)?",
    'the spill is cleaned up',
    ['spill'],
  ),
  way(
    "{me}(?:cleaned up|wiped up|mopped up) {the}spill|{the}spill(?:'s| is) (?:gone|cleaned)",
    'the spill is cleaned up',
  ),
  way('(?:it was |it is )?{liquid}', 'it was $1', ['spill']),
  way('(?:roughly|maybe|around|approx|approximately|like|about|some|circa){0,2} ?{volume}', 'about $1', [
    'spill',
  ]),
  way('(?:roughly|maybe|around|approx|approximately|like|about) {volume} of {liquid}', 'about $1 of $2', [
    'spill',
  ]),
  way(
    '(?:on |in )?(?:the |my )?(floor|table|bench|counter|worktop|carpet|scale|hand|hands|skin|arm|face|clothes|shirt|glove)',
    'on the $1',
    ['spill'],
  ),
];
