import { type Way, way } from './way.js';

/** Chemicals on the shelf. */
export const SHELF: readonly Way[] = [
  way(
    "what (?:do i have|have i got|is|'s) (?:on|in) {the}shelf|shelf|{the}stock|what(?:'s| is| do i have) in stock|what chemicals (?:have i got|are there)|show(?: me)? {the}shelf",
    "what's on the shelf",
  ),
  way(
    '(?:is there|have i got|have i|do we have|got) (?:any|enough|some) ([a-z ]+?)(?: left| on the shelf)?',
    'do i have any $1',
  ),
  way(
    'how much ([a-z ]+?) (?:have i got|have i|is on the shelf|on the shelf|do we have|is there left|do i still have)(?: left)?',
    'how much $1 do i have',
  ),
  way('((?:[a-z]+ ){1,6}(?:grams?|kilograms?|kilos?))(?: of)? ([a-z ]+?) on the shelf', 'i bought $1 of $2'),
  way(
    "(?:i(?:'ve)? )?(?:have |got |bought |received |ordered ){1,2}((?:[a-z]+ ){1,6}(?:grams?|kilograms?|kilos?))(?: of)? ([a-z ]+?)(?: to (?:put )?on the shelf| on the shelf)?",
    'i bought $1 of $2',
  ),
];
