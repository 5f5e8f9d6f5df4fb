import { type Way, way } from './way.js';

const thing =
  '(?:it|this|that|they|(?:the|these|those) (?:picture|pictures|film|films|negative|negatives|scan|scans|photo|photos|frame|frames|roll|shots|images?))';
const verb = "(?:'s|'re| is| are| look| looks| come out| came out| turn out| turned out)?";
const cast = '(green|magenta|red|cyan|blue|yellow|orange|dark|light|flat)(?:ish)?';
const purple = '(?:purple|pink|violet)(?:ish)?';
const degree = '(?: so| too| very| all| really| rather| a bit)*';

/** Why the picture is off. */
export const REVIEW: readonly Way[] = [
  way(`why(?:'s| is| are| do| does| did)? ${thing}${verb}${degree} ${cast}`, 'why is it so $1'),
  way(`why(?:'s| is| are| do| does| did)? ${thing}${verb}${degree} ${purple}`, 'why is it so magenta'),
  way(`why is there (?:such )?an? ${cast} cast|where does the ${cast} cast come from`, 'why is it so $1$2'),
  way(
    `what(?:'s| is)? (?:went |gone |going )?wrong(?: with ${thing})?|why(?:'s| is| are| do| does)? ${thing}${verb} (?:off|wrong|bad|weird|strange|odd)|what did i do wrong`,
    'what went wrong',
  ),
  way(
    'what (?:should|can|could|must|do) i (?:change|do differently|do better|do otherwise|improve)(?: (?:next time|for next time|on the next (?:roll|run|film)))?|how (?:do|can) i (?:fix|improve|avoid) (?:it|this|that)(?: next time)?',
    'what should i change',
  ),
];
