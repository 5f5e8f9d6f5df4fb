import { liquidIn, volumeIn } from './names.js';

/** Words that tell of liquid where it should not be. */
const SPILLED =
  /\b(?:spill(?:ed|s|ing)?|spilt|splash(?:ed|es|ing)?|splattered|drip(?:ped|ping|s)?|knocked over|tipped over|dropped|sprayed|leak(?:ed|s|ing)?|overflow(?:ed|ing)?|ran over)\b/;

/** Questions and plans are no reports. */
const NO_REPORT =
  /^(?:what|how|can|could|should|when|if|is|did|does|do|would)\b|\b(?:not|no|never|don't|didn't|won't|haven't|without)\b/;

/** Where on a person, or in the room: what was typed → the place of the grammar. */
const PLACES: readonly (readonly [RegExp, string])[] = [
  [/\beyes?\b/, 'in my eye'],
  [/\b(?:mouth|lips?|tongue)\b/, 'in my mouth'],
  [/\b(?:face|cheek|nose)\b/, 'on my face'],
  [/\b(?:hands?|fingers?|thumb|palm)\b/, 'on my hand'],
  [/\b(?:skin|arms?|wrist|legs?|foot|feet|neck)\b/, 'on my skin'],
  [/\b(?:clothes|shirt|apron|trousers|pants|jeans|sleeve|shoes?|sock|socks)\b/, 'on my clothes'],
  [/\bgloves?\b(?! no)/, 'on my glove'],
  [/\b(?:table|bench|desk)\b/, 'on the table'],
  [/\b(?:counter|worktop)\b/, 'on the counter'],
  [/\b(?:floor|ground|tiles)\b/, 'on the floor'],
  [/\bcarpet\b/, 'on the carpet'],
  [/\bscale\b/, 'on the scale'],
  [/\b(?:in|into) (?:the )?sink\b/, 'in the sink'],
  [/\b(?:in|into) (?:the )?(?:tub|water bath)\b/, 'in the tub'],
];

const LOOSE =
  /\b(?:on|all over|over|onto) (?:the |my )?(?:table|bench|desk|counter|worktop|floor|ground|tiles|carpet|scale)\b/;

const ON_A_PERSON = /^(?:in|on) my (?!glove)/;

/**
 * A spill or a splash, however it was put, as the grammar's own sentence; undefined when the line tells of none.
 * What was not said stays open, and is asked.
 */
export function spillReport(words: string): string | undefined {
  if (NO_REPORT.test(words)) return undefined;
  const place = PLACES.find(([typed]) => typed.test(words))?.[1];
  const somebody =
    place !== undefined && ON_A_PERSON.test(place) && /\b(?:in|on|into|onto|over)\b/.test(words);
  const [liquid, volume] = [liquidIn(words), volumeIn(words)];
  // "bleach on the floor": a liquid stands nowhere but in a vessel
  const loose = liquid !== undefined && place !== undefined && LOOSE.test(words);
  if (!SPILLED.test(words) && !somebody && !loose) return undefined;
  const what = volume ? (liquid ? `${volume} of ${liquid}` : volume) : liquid;
  return ['spilled', what, place].filter(Boolean).join(' ');
}
