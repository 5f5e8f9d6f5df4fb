import { due, type Way, way, wet } from './way.js';

/** Short forms of many subjects; they are tried before the longer ones of their own subject. */
export const SHORT: readonly Way[] = [
  way("(?:all )?{liquid} (?:is|'s) (?:all )?in|all of {liquid} is in", '$1$2 is in', wet),
  way('(?:can i )?go ahead with {liquid}', 'pouring the $1 in', wet),
  way('(?:using|take|taking) {bottle} for {liquid}', 'pouring the $2 in from $1', wet),
  way('{liquid} out of {bottle}|{liquid} (?:from|using|with) {bottle}', 'pouring the $1$3 in from $2$4', due),
  way('from (?:number )?{n}', 'from bottle $1', ['pouring', 'challenged']),
  way('(?:throw|pour|tip|bin|dump)(?:ing)?(?: it)?(?: away| out)?', 'pouring it away', ['draining']),
  way('{liquid} from (?:number )?{n}', 'pouring the $1 in from bottle $2', ['pouring']),
  way('(?:can|may|could|should) (?:i|we) (?:add|put|tip) {liquid}(?: in)?', 'pouring the $1 in', wet),
  way(
    'how (?:many minutes|many seconds|much time) (?:until|till|before|to) {liquid}',
    'how long until the $1',
  ),
  way('what follows(?: this| that)?', 'what is next'),
  way('{liquid} (?:back )?(?:into|to) (?:number )?{n}', 'pouring the $1 back into bottle $2', ['draining']),
  way("(?:it's |it is |it )?(?:going|goes|gone) down {the}(?:drain|sink)", 'pouring it away', ['draining']),
  way('{volume} or so|{volume} ish', 'about $1$2', ['spill']),
  way("what(?:'s| is) in (?:each|every) bottle", "what's in the bottles"),
  way('(?:what )?have (?:we|i|you) got in {bottle}|what have we got in {bottle}', 'what is in $1$2'),
  way('is {liquid} (?:still )?(?:ok|okay|good|fine) to use', 'is the $1 still good'),
  way("yes (?:that's it|that one|indeed)", 'yes'),
  way('no (?:wrong one|not that|that one is wrong)|wrong one', 'no'),
  way('what should i (?:say|type)', 'help'),
  way('undo', 'undo that'),
  way('mix me {volume}(?: of)? {recipe}', 'mix $1 of $2'),
];
