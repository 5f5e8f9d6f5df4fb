import { type Way, way } from './way.js';

/** Temperatures told and asked, the tub and the heater. */
export const WARMTH: readonly Way[] = [
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
];
