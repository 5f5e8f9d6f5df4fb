import { type Way, way } from './way.js';

/** Mixing by a recipe, and what would come of mixing two liquids. */
export const MIXING: readonly Way[] = [
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
];
