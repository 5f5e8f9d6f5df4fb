import { due, type Way, way, wet } from './way.js';

/** What goes into the tank: a bath that is in, and a pour that is about to be made. */
export const POURING: readonly Way[] = [
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
];
