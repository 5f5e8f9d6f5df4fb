import { type Way, way } from './way.js';

/** The run: starting it, its steps, film loaded, film hung, closing. */
export const RUN: readonly Way[] = [
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
];
