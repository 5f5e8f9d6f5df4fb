import { type Way, way } from './way.js';

/** The clock: how long, what is next, where we are, holding and going on. */
export const CLOCK: readonly Way[] = [
  way(
    "(?:how long|how much time|time|time check|how(?:'s| is) the time|is it time|what(?:'s| is) the (?:clock|timer)(?: at)?|how much longer|what time is left|how many more (?:seconds|minutes)|time remaining|remaining|how much is left|how long(?: have (?:i|we))?(?: got)? left|how long does it have|what's the time left|how much time (?:is |have (?:i|we) (?:got )?)?left(?: (?:on|for|in) {liquid})?|how (?:long|much) (?:is )?(?:left|remaining)|how much time (?:remains|remaining)|how many (?:minutes|seconds) to go|how long is it|how long do we have)(?: left)?",
    'how long left',
  ),
  way(
    'how (?:long|much longer|much more time)(?: is)?(?: left)? (?:on|for|in|does) {liquid}(?: have| need)?',
    'how long left',
    ['immersed', 'draining'],
  ),
  way(
    "(?:when|what time)(?:'s| is| do i need| do we need| does| comes| will)? {liquid}(?: be)?(?: go in| going in| due| needed| come| next)?|how long (?:before|until|till|to)(?: i need| we need)? {liquid}(?: is needed| comes)?|time (?:to|until|till) {liquid}",
    'how long until the $1$2$3',
  ),
  way(
    "what next|then what|what then|and then|what do (?:i|we) do|what do (?:i|we) do (?:after(?: this| that)?|after)|what(?:'s| is) {the}next (?:step|bath|one|thing)|what(?:'s| is) after (?:this|that)|which (?:bath|one)(?: is| comes)? next|what(?:'s| is) coming(?: next| up)?|what should i do(?: next)?|next bath|(?:what|which) bath(?: is|'s) next|which bath|what(?:'s| is) after {liquid}",
    'what is next',
  ),
  way(
    "what are we doing|where (?:was i|were we|am i|are we at)|(?:which|what) (?:step|bath|stage)(?: are we (?:at|on|in)| is it| now| is in|'s in| is (?:this|that))?|what(?:'s| is) (?:in {the}tank|the status|going on)|is {liquid} in(?: {the}tank)?|is {the}tank empty|is {the}(?:clock|timer) (?:running|on|going)|what(?:'s| is) up",
    'where are we',
  ),
  way('hold|hold it|pause it|freeze', 'hold the clock', ['immersed']),
  way(
    'wait|hang on|one moment|just a (?:sec|second|moment)|hold on a (?:sec|second|seconds|minute|moment)',
    ['hold the clock'],
    ['immersed'],
  ),
  way(
    "unpause|keep going|restart(?: the)? (?:clock|timer)|go on(?: with {the}clock)?|(?:resume|restart|unpause)(?: {the})?(?: clock| timer)|start (?:it )?again|back|i'm back|continue {the}clock",
    'resume',
    ['immersed'],
  ),
  way(
    '(?:plus|extra|add on|add another|give it(?: another)?|needs?) {duration}(?: extra| more| longer)?',
    'add $1',
    ['immersed', 'draining'],
  ),
  way('{duration} extra', 'add $1', ['immersed', 'draining']),
];
