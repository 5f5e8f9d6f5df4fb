import type { Situation } from '../../process/desk.js';
import { line, saidLiquid } from './names.js';
import { spillReport } from './spill-report.js';

/**
 * How people type what the grammars say in fewer ways. Nothing here means anything by itself: a pattern only turns
 * a whole line into a sentence that the grammars must know. Tried when the line as it stands means nothing.
 */
interface Way {
  /** the situations in which it is meant so; everywhere when missing */
  in?: readonly Situation[];
  say: RegExp;
  /** sentences of the grammars; `$1` is what was captured. Two mean that both are possible, and are asked about */
  as: string | readonly string[];
}

/** Said before a sentence without changing it. */
const LEAD =
  /^(?:oh no|oh dear|damn|shit|just|okay|ok|alright|all right|right|well|so|oh|oops|whoops|sorry|um+|uh+|hm+|er+|erm|hey|now|then|great|good|cool|perfect|and|but|actually|yay) (?=\S)/;
const TAIL =
  / (?:just now|please|pls|plz|thanks|thank you|thx|yet|then|again now|now|though|okay|ok|mate|everyone|already)$/;

const wet: readonly Situation[] = [
  'pouring',
  'immersed',
  'draining',
  'hanging',
  'challenged',
  'loading',
  'warming',
  'preparing',
];
const due: readonly Situation[] = ['pouring', 'draining', 'loading', 'challenged'];

const way = (say: string, as: Way['as'], where?: readonly Situation[]): Way => ({
  say: line(say),
  as,
  ...(where && { in: where }),
});

const WAYS: readonly Way[] = [
  // the run
  way(
    "(?:i(?:'d| would) like to|i want to|can we|can i|we can|let's|shall we|should we) (?:start|begin) (?:a |the )?(?:new )?(?:run|processing|developing)",
    'start a run',
  ),
  way(
    "(?:let's|let us) (?:get going|get started|do this|go ahead)|begin|start|(?:start |begin )?(?:a )?new run|shall we (?:start|begin|go)|(?:i want to |i'd like to |let's )?develop (?:a |my |the )?films?",
    'start a run',
    ['preparing', 'closing'],
  ),
  way(
    '(?:start|begin) (?:a |the )?home (?:run|process|sheet)|(?:start|begin) (?:a |the )?run with (?:the )?home (?:practice )?(?:sheet|process)|(?:start|begin) (?:a |the )?run at home',
    'start a run with the home sheet',
  ),
  way(
    "done|all set|proceed|go|{the}bottles(?: are)? (?:ready|warm|up to temperature)(?: next)?|everything(?:'s| is) (?:ready|warm)|ready to go|i am ready|we are ready|(?:go|move) to {the}next (?:step|one)|what now next step",
    'next step',
    ['preparing', 'warming'],
  ),
  way('next(?: step)? (?:one|thing)|moving on|onwards?|keep going', 'next step', [
    'preparing',
    'warming',
    'loading',
    'pouring',
    'draining',
    'hanging',
  ]),
  way(
    "(?:{the}(?:film|tank|reel)(?:'s| is)? )?(?:loaded|closed)(?: and {the}(?:lid|tank|lights)(?: is| are)? (?:on|closed|loaded))*|{me}(?:loaded|closed) {the}(?:film|tank|reel)(?: in| into)?(?: {the}tank)?|(?:it's|it is) (?:loaded|closed)|{me}(?:loaded|closed) {the}(?:film|tank|reel)(?: and .*lid is on)?|{the}(?:film|reel)(?:'s| is)? (?:in|inside)(?: {the}tank)?|film(?:'s| is) on {the}reel and {the}tank(?: is)? closed|{the}lid(?:'s| is)? (?:back )?on|{the}lights?(?:'s| is| are)? (?:back )?on|{the}tank is loaded and closed|{the}film is loaded and {the}lid is on",
    'film is loaded',
    ['preparing', 'warming', 'loading'],
  ),
  way(
    "{the}film(?:'s| is) (?:hanging|hung|drying)(?: up)?(?: to dry)?|{the}film hung(?: up)?|{the}film(?:'s| is) up(?: drying)?|{me}hung (?:up )?{the}film(?: up)?|{me}hung it up|hanging|done",
    'the film is hanging',
    ['hanging'],
  ),
  way("{the}film(?:'s| is)? hanging up to dry", 'the film is hanging'),
  way(
    "done|finished|(?:i'm|i am|we're|we are) done|that's (?:it|all)(?: all done)?|finish|end|close",
    'close the run',
    ['closing'],
  ),
  way(
    "(?:i am|i'm|we're|we are) ready to (?:start|begin)(?: (?:the|a) run)?|(?:kick off|launch|do) (?:a |the )?run|let's develop",
    'start a run',
    ['preparing', 'closing'],
  ),
  way(
    "{the}film(?:'s| is)? (?:loaded )?(?:on {the}reel and )?in {the}tank(?: and {the}(?:lid|tank)(?: is)? (?:on|closed))?|{the}lid(?:'s| is)? (?:closed|shut)",
    'film is loaded',
    ['preparing', 'warming', 'loading'],
  ),
  way("what(?:'s| is) next next", 'next step', ['preparing', 'warming']),
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
  way('mix me {volume}(?: of)? {recipe}', 'mix $1 of $2'),
  // a bath is in
  way(
    '{me}(?:poured|put|added|tipped)(?: in)? {liquid}(?: in| into| in to)?(?: {the}tank)?',
    '$1 is in',
    wet,
  ),
  way(
    "{liquid}(?:'s| is| has| are)? (?:now )?(?:in|gone in|went in|in there|in now)(?: {the}tank)?",
    '$1 is in',
    wet,
  ),
  way(
    '{liquid} (?:has been|was|is) (?:poured|added|put)(?: in)?|filled(?: {the}tank| it)? with {liquid}',
    '$1$2 is in',
    wet,
  ),
  way('(?:going )?in with {liquid}|in goes {liquid}|{liquid} in goes', ['pouring the $1$2$3 in'], wet),
  way("{the}film(?:'s| is)? (?:now )?in {liquid}", '$1 is in', wet),
  way("rinse(?:'s| is)? in(?: now)?", ['water is in', 'final rinse is in'], wet),
  way("it'?s in(?: there)?|it is in(?: there)?|in", "it's in the tank", ['pouring']),
  way('(?:clock|timer) on|start(?: the)? timing|go|start', 'start the clock', ['pouring']),
  // about to pour
  way(
    "(?:okay to|ok to|safe to|is it (?:ok|okay|safe|alright|fine|time) to|should (?:i|we)|shall (?:i|we)|do i|i will|i'll|we will|i am going to|i'm gonna|gonna|going to|time to|want to|i want to|let me|i'd like to|ready to|could i|can we|am i ok to|now i) (?:pour|add|put|tip)(?: in)? {liquid}(?: in| into)?(?: {the}tank)?",
    'pouring the $1 in',
    wet,
  ),
  way(
    "(?:okay to|ok to|is it (?:ok|okay|safe|alright|fine|time) to|should (?:i|we)|shall (?:i|we)|i will|i'll|could i|can we|can i|pouring|pour|adding|add) (?:pour |add |put |tip )?(?:in )?{liquid}(?: in| into)?(?: {the}tank)? (?:in )?(?:from|with|using) {bottle}",
    'pouring the $1 in from $2',
    wet,
  ),
  way(
    '(?:adding|add|tipping|tip|pouring|pour|putting|put)(?: in)? {liquid}(?: in| into)?(?: {the}tank)?',
    'pouring the $1 in',
    wet,
  ),
  way(
    '(?:(?:pouring|pour|adding|add|tipping|tip)(?: in)? )?{liquid}(?: in| into {the}tank)?(?: in)? from {bottle}|{liquid} {bottle}|{liquid} in {bottle} going in',
    'pouring the $1$3$5 in from $2$4$6',
    due,
  ),
  way('{bottle} {liquid}(?: going in)?', 'pouring the $2 in from $1', ['pouring']),
  way('(?:pouring|pour|adding|add)(?: in)? {liquid}(?: in)? {bottle}', 'pouring the $1 in from $2', [
    'pouring',
  ]),
  way(
    'is {liquid} (?:ok|okay)(?: now)?|is it time for {liquid}|can {liquid} go in|may {liquid} go in',
    'pouring the $1$2$3$4 in',
    ['pouring', 'draining'],
  ),
  way('wash', 'pouring water in', ['pouring']),
  way(
    '(?:pouring|pour|adding|add|tipping|tip)(?: in)? {liquid}(?: in)? from (?:number )?{n}',
    'pouring the $1 in from bottle $2',
    wet,
  ),
  way(
    '(?:pouring|pour|adding|tipping|putting)(?: in)?(?: from)? {bottle}(?: in| into {the}tank)?|{bottle}(?: is)? going in|(?:now |using ){bottle}',
    'pouring $1$2$3 in',
    wet,
  ),
  way('{bottle}', 'from $1', ['pouring']),
  way(
    '{liquid} (?:now|next|going in|next going in|is next|coming up)|(?:now|next)(?: is| comes)? {liquid}',
    'pouring the $1$2 in',
    ['pouring'],
  ),
  way('(?:rinsing|washing)(?: (?:it|the film))?(?: with| in)?(?: {the}water)?', 'pouring water in', [
    'pouring',
    'draining',
  ]),
  way('rinse', ['pouring water in', 'pouring the final rinse in'], ['pouring', 'draining']),
  way('fill(?:ing)?(?: it)?(?: up)?(?: {the}tank)? with {liquid}', 'filling the tank with $1', wet),
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
  // the clock
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
  // spills
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
  // warmth
  way(
    "(?:{the}temp(?:erature)? of )?{liquid}(?:'s)?(?: temp(?:erature)?)?(?: is| at| reads| now| now at| measures| measured| is now)*(?: about)? {n}(?: degrees?)?(?: c| celsius)?",
    '$1 is at $2 degrees',
  ),
  way(
    "(?:{the}temp(?:erature)? of )?{liquid}(?:'s)?(?: temp(?:erature)?)?(?: is| at| reads| now| measures)* {n} degrees fahrenheit",
    '$1 is at $2 degrees fahrenheit',
  ),
  way('{n} degrees fahrenheit {liquid}', '$2 is at $1 degrees fahrenheit'),
  way('{n} degrees(?: c)? {liquid}', '$2 is at $1 degrees'),
  way(
    '(?:measured|i measured|i get|i read|got|reading) {n}(?: degrees?)?(?: c)?(?: degrees)? (?:in|for|on) {liquid}',
    '$2 is at $1 degrees',
  ),
  way(
    "(?:what(?:'s| is) )?{liquid}(?:'s)? temperature|temperature {liquid}|how(?:'s| is) {liquid} temperature|what(?:'s| is) {liquid} at|(?:check|what(?:'s| is)) {the}temperature of {liquid}",
    'how warm is the $1$2$3$4$5',
  ),
  way(
    'are (?:we|{the}bottles|they|{the}baths|all {the}baths|things) (?:all )?(?:ready|warm|warm enough|up to temperature)|(?:is it |is it all )?(?:ready|warm)(?: enough)?|everything ready',
    'is everything ready',
  ),
  way(
    "is {liquid} (?:at|up to) (?:temperature|temp)(?: ready)?|(?:is {liquid} (?:hot|warm) enough)|{liquid} ready|how long (?:until|till|before) {liquid}(?: is|'s)? (?:ready|warm|up to temperature|at temperature)",
    'is the $1$2$3$4 ready',
  ),
  way(
    "how long (?:until|till|before) (?:everything(?:'s| is) |it's |it is |we are |they are )?(?:ready|warm|up to temperature)|when(?: will| is|'s)? everything(?: be)? ready",
    'how long until everything is ready',
  ),
  way(
    "{the}(?:tub|heater|water bath|controller|circulator)(?:'s| is)? (?:set (?:to|at)|to) {n}(?: degrees?)?(?: c)?",
    'set the tub to $1 degrees',
  ),
  way(
    'set {the}(?:controller|circulator|temperature) (?:to|at) {n}(?: degrees?)?(?: c)?',
    'set the tub to $1 degrees',
  ),
  way('(?:{me}(?:turned|switched) )?{the}heater(?: is)? (on|off)', 'the heater is $1'),
  way(
    'how do i (?:get|make) {n} degrees?(?: c)? water|how do i (?:get|make) water (?:at|of) {n}(?: degrees?)?(?: c)?',
    'how do i blend water to $1$2 degrees',
  ),
  way(
    "{the}(?:tub|water bath)(?:'s)?(?: temperature)?(?: is| at| reads| now)* {n}(?: degrees?)?(?: c)?",
    'the tub is at $1 degrees',
  ),
  way('{the}tank(?: size| volume| capacity)(?: is)? {volume}', 'the tank takes $1', ['preparing', 'warming']),
  way('(?:the )?temperature (?:of )?{liquid}(?: is| at)? {n}(?: degrees?)?(?: c)?', '$1 is at $2 degrees'),
  // bottles
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
  // answers
  way(
    "yup|ya|right|sure(?: thing)?|affirmative|aye|do it|yes do it|(?:i|yes i) confirm|yes (?:confirm|please|yes|sure|that's right|correct|it is)|that is (?:right|correct)|correct yes|yes (?:i'm|i am) sure|go ahead|yes go ahead",
    'yes',
  ),
  way(
    "nah|no (?:cancel (?:that|it|this)|don't|no|cancel|wait|stop|never mind|thank you|it isn't|it's not)|nevermind|don't|do not|cancel (?:it|this|the pour)|negative|stop cancel|don't pour(?: it)?|no i (?:don't|didn't)",
    'no',
  ),
  way(
    "(?:undo|revert)(?: it| this| last| {the}last(?: step| thing| one)?)?|(?:go|step) back|take it back|that was wrong|(?:i )?made a mistake|(?:that was )?(?:my|a) mistake|i didn't mean that|mistake|wrong|(?:no |wrong )*(?:wait )?(?:undo that|undo|go back|scratch that)",
    'undo',
  ),
  way('mute|silent|sh+|ssh+|stop speaking|stop it talking|enough', 'quiet'),
  way(
    "what|sorry|(?:can|could) you (?:repeat|say)(?: that| it)?(?: again)?|again|once more|what was that|i didn't (?:hear|catch|get) (?:that|it)|huh|eh|repeat that|pardon me|didn't (?:hear|catch|get) (?:that|it)|missed (?:that|it)|(?:please )?(?:repeat|say again)",
    'say that again',
  ),
  way('(?:a bit|much|more|speak) (louder|softer|quieter|slower|faster)', '$1'),
  way('too (?:loud|noisy)', 'quieter'),
  way("too (?:quiet|soft)|(?:i )?can't hear(?: you)?", 'louder'),
  way('too fast', 'slower'),
  way('too slow', 'faster'),
  way(
    '(?:i need |i want )?help(?: me)?|commands|what are (?:my|the) (?:options|commands)|what can (?:i|you) (?:say|type|do)|how do(?:es)? (?:this|it) work|menu|options',
    'help',
  ),
  way(
    '(?:is|are) {liquid} (?:toxic|poisonous|harmful|hazardous|safe|bad)|(?:hazards|dangers|safety)(?: of| for)? {liquid}',
    'is the $1$2 dangerous',
  ),
  way('what about safety|is (?:it|this) (?:safe|dangerous)|first aid|emergency', 'cautions'),
  way(
    "(?:{me}(?:swallowed|drank|inhaled|breathed)\\b.*)|(?:i (?:feel|am|'m) (?:dizzy|sick|ill|i'll).*)|.*\\b(?:burns?|burning|burnt|smells (?:like|of) gas|fumes|poisoned|poisoning|choking|gas smell|can't breathe|cannot breathe)\\b.*",
    'cautions',
  ),
  way('skip(?: it)?|leave it out|without it', 'yes', ['challenged']),
  way('skip(?: it)?|leave it out', 'next component', ['mixing']),
  way('skip(?: (?:it|this|this step|{liquid}))?', 'next step', ['pouring']),
  // mixing
  way(
    "(?:let's |i want to |i'd like to |i'm |we're )?(?:mix|make|prepare|mixing|making|preparing)(?: up)? (?:the |a |some )?(?:new |fresh |batch of )?{recipe}",
    'mix $1',
  ),
  way(
    "(?:let's |i (?:want|need) to |i'd like to |i'm |we're )?(?:mix|make|prepare|mixing|making|preparing)(?: up)? {volume}(?: of)?(?: the)?(?: new| fresh)? {recipe}",
    'mix $1 of $2',
  ),
  way(
    "what goes (?:in|into)(?: the)? {recipe}|(?:what(?:'s| is) in |what goes (?:into|in) |show(?: me)? )(?:the )?{recipe} recipe|(?:ingredients|components|recipe|chemicals) (?:for|of)(?: the)? {recipe}|what (?:chemicals|do i need)(?: do i need)?(?: for| to make)(?: the)? {recipe}|what(?:'s| is) {the}recipe for {recipe}",
    'what do i need for $1$2$3$4$5',
  ),
  way(
    "(?:next|what's the next|what is the next) (?:ingredient|component|powder|chemical|thing)",
    'next component',
    ['mixing'],
  ),
  way(
    "(?:(?:i )?(?:weighed|measured|got|have|added|poured)(?: out)?|that's|that is|now|reads?|reading|scale(?: says| reads)?|weight|weighs|about|it weighs|it's at)+ {n}(?: (grams?|kilograms?|milligrams?|ounces?|grains?|milliliters?|liters?))?",
    '$1 $2',
    ['mixing'],
  ),
  way("(?:it's |it is |pour(?:ing)? it |it goes |goes )?(?:in|into|in to) {bottle}", 'in $1', ['mixing']),
  way(
    '{n} (grams?|kilograms?|milligrams?|ounces?|grains?|milliliters?|liters?)(?: of)? (?:[a-z]+ ?){1,3}',
    '$1 $2',
    ['mixing'],
  ),
  way(
    "(?:done |fully |completely |it's |it is |it |has |everything (?:is |has )?|all )*(?:dissolved|dissolving|clear|gone)(?: (?:completely|fully|next))?|(?:it's )?(?:all |completely )?clear|done",
    'dissolved',
    ['mixing'],
  ),
  way(
    "{the}scale (?:reads|says|shows|is at) zero|tare|tare(?:d)? it|{me}(?:tared|zeroed)(?: it)?|zero|(?:scale )?(?:back )?at zero|reset the scale|{the}scale(?:'s| is)? (?:at )?(?:zero|zeroed|tared)",
    'the scale is zeroed',
    ['mixing'],
  ),
  way(
    '(?:(?:the )?(?:meter|strip)s? (?:says|reads|shows) )?(?:the )?p h(?: is| reads| of| measures| at| was| now| about| around)* {n}',
    'the p h is $1',
    ['mixing'],
  ),
  way(
    'volume made up|(?:made|topped|filled|make)(?: it)? up(?: to| with water to)?(?: {volume})?(?: with water)?|(?:topped|filled) (?:off|to) {volume}',
    'made up',
    ['mixing'],
  ),
  way("label|(?:show|print|read|what(?:'s| is))(?: me)?(?: on)? {the}label", 'read the label', [
    'mixing',
    'preparing',
  ]),
  way('(?:abort|quit|cancel|stop|give up)(?: the| this)?(?: mix| mixing| batch)', 'stop mixing', ['mixing']),
  // what if
  way(
    '(?:what (?:if|happens if|would happen if|happens when|will happen if)|is it (?:bad|ok|okay|a problem) if|would it matter if) (?:i |we )?(?:pour|poured|mix|mixed|add|added|spill|spilled|get|got|drop|dropped|put|tip|tipped)? ?{volume}(?: of)? {liquid} (?:(?:gets?|got|goes|went|go|spills?|fell|falls|ran|runs|is poured|was poured|came|comes|ended up) )?(?:into|in|to) (?:{volume}(?: of)? {liquid}|{liquid}|{bottle})',
    'what if i poured $1 of $2 into [$3 of $4]$5$6',
  ),
  way(
    'what (?:would|does|will|do) {volume}(?: of)? {liquid} do (?:to|in) (?:{volume}(?: of)? {liquid}|{liquid}|{bottle})',
    'what if i poured $1 of $2 into [$3 of $4]$5$6',
  ),
  // the shelf
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

/** Recipe names by the order of their ids: "stop citric" is the citric stop. */
const RECIPES: readonly (readonly [RegExp, string])[] = [
  [/\bstop (citric|vinegar)\b/, '$1 stop'],
  [/\b(developer|prebath|final rinse) home\b/, 'home $1'],
  [/\bfixer sodium\b/, 'sodium fixer'],
];

/**
 * Other ways to read a typed line, likeliest first; each is a list of sentences of the grammars that are all meant
 * by it. `words` is as `normaliseTyped` gives it.
 */
export function otherWays(words: string, situations: readonly Situation[]): string[][] {
  const bare = withoutFrills(words);
  const plain = RECIPES.reduce(
    (w, [from, to]) => w.replace(from, to),
    bare.replace(/\b(?:my|our)\b/g, 'the'),
  );
  const found: string[][] = [];
  if (bare !== words) found.push([bare]);
  if (plain !== bare) found.push([plain]);
  for (const w of WAYS) {
    if (w.in && !w.in.some((s) => situations.includes(s))) continue;
    const match = w.say.exec(plain) ?? w.say.exec(words);
    if (match) found.push([w.as].flat().map((as) => filledIn(as, match)));
  }
  const spill = spillReport(plain);
  if (spill) found.push([spill]);
  return found;
}

/** "ok so the developer is in now" → "the developer is in" */
function withoutFrills(words: string): string {
  let [before, after] = ['', words];
  while (after !== before) [before, after] = [after, after.replace(LEAD, '').replace(TAIL, '')];
  return after;
}

/** Captures go in where the sentence wants them; a part in brackets falls away when its captures are missing. */
function filledIn(as: string, match: RegExpExecArray): string {
  const put = (text: string): string =>
    text.replace(/\$(\d+)/g, (_, n: string) => saidLiquid(match[Number(n)]?.trim() ?? ''));
  return put(
    as.replace(/\[([^\]]*)\]/g, (_, part: string) =>
      [...part.matchAll(/\$(\d+)/g)].every((m) => match[Number(m[1])]) ? part : '',
    ),
  )
    .replace(/\bthe (?:water)\b/g, 'water')
    .replace(/\s+/g, ' ')
    .trim();
}
