import { type Way, way } from './way.js';

/** What the bottles and the tank hold, how old it is, and how much work is left in it. */
export const BOTTLES: readonly Way[] = [
  way(
    "(?:what(?:'s| is) )?{bottle}|what does {bottle} (?:contain|have)|what(?:'s| is| have i got| do i have) (?:inside|in) {bottle}|how much (?:is |do i have )?(?:left )?in {bottle}|(?:contents|content) of {bottle}|(?:is )?{bottle} (?:full|empty)",
    'what is in $1$2$3$4$5',
  ),
  way(
    "what is {bottle}|what does {bottle} (?:contain|have)|what(?:'s| is) inside {bottle}",
    'what is in $1$2$3',
  ),
  way(
    'what do {the}bottles (?:hold|contain|have)|(?:list|show)(?: me)?(?: all)? {the}bottles|bottles',
    "what's in the bottles",
  ),
  way("(?:which|what)(?: is|'s) the fullest(?: bottle)?|fullest(?: bottle)?", 'which bottle is fullest'),
  way(
    'how many (?:more )?(?:films|rolls) (?:left|are left|can i do|are there)(?: in| with| for) {liquid}',
    'how many films are left in the $1',
  ),
  way("how old(?:'s| is) {liquid}|age of {liquid}", 'how old is the $1$2'),
  way(
    'is {liquid} (?:ok|okay|fine|good|exhausted|spent|used up|dead|usable)(?: still)?|can i (?:still )?(?:use|reuse) {liquid}',
    'is the $1$2 still good',
  ),
  way(
    "{bottle}(?:'s| is| has| holds| contains| full of| with| have| now holds)* {volume}(?: of)? {liquid}(?: in it| inside)?",
    '$1 holds $2 of $3',
  ),
  way(
    "(?:there(?:'s| is) |i have |i put )?{volume}(?: of)? {liquid} (?:is |are )?(?:in|into) {bottle}",
    '$3 holds $1 of $2',
    ['preparing', 'warming', 'closing', 'mixing', 'loading'],
  ),
  way("there(?:'s| is) {liquid} in {bottle}", '$2 holds $1', [
    'preparing',
    'warming',
    'closing',
    'mixing',
    'loading',
  ]),
  way('{bottle} (?:has|holds) {volume}(?: in it| left| inside)', '$1 holds $2'),
  way('{liquid} is {bottle}', '$2 holds $1', ['preparing', 'warming', 'closing', 'mixing', 'loading']),
  way(
    "{bottle}(?:'s| is| has| holds| contains| full of| with| now holds| now has)*(?: now)? {liquid}",
    '$1 holds $2',
    ['preparing', 'warming', 'closing', 'mixing', 'loading'],
  ),
  way("(?:{me}put )?{liquid}(?:'s| is| goes| lives)? (?:now )?in {bottle}", '$2 holds $1', [
    'preparing',
    'warming',
    'closing',
    'mixing',
    'loading',
  ]),
  way(
    "{the}tank(?:'s| is| takes| holds| needs| volume| volume is| capacity is)* {volume}|{volume} tank",
    'the tank takes $1$2',
    ['preparing', 'warming'],
  ),
  way('{me}(?:threw|poured|tipped) (?:away|out) {bottle}', 'i threw away $1'),
];
