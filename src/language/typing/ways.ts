import type { Situation } from '../../process/desk.js';
import { saidLiquid } from './names.js';
import { spillReport } from './spill-report.js';
import { ANSWERS } from './ways/answers.js';
import { BOTTLES } from './ways/bottles.js';
import { CLOCK } from './ways/clock.js';
import { DRAINING } from './ways/draining.js';
import { MIXING } from './ways/mixing.js';
import { POURING } from './ways/pouring.js';
import { REVIEW } from './ways/review.js';
import { RUN } from './ways/run.js';
import { SHELF } from './ways/shelf.js';
import { SHORT } from './ways/short.js';
import { SPILLS } from './ways/spills.js';
import { WARMTH } from './ways/warmth.js';
import type { Way } from './ways/way.js';

/** Said before a sentence without changing it. */
const LEAD =
  /^(?:oh no|oh dear|damn|shit|just|okay|ok|alright|all right|right|well|so|oh|oops|whoops|sorry|um+|uh+|hm+|er+|erm|hey|now|then|great|good|cool|perfect|and|but|actually|yay) (?=\S)/;
const TAIL =
  / (?:just now|please|pls|plz|thanks|thank you|thx|yet|then|again now|now|though|okay|ok|mate|everyone|already)$/;

/** In the order in which they are tried: the first whose sentences mean something is taken. */
const WAYS: readonly Way[] = [
  ...RUN,
  ...SHORT,
  ...POURING,
  ...DRAINING,
  ...CLOCK,
  ...SPILLS,
  ...WARMTH,
  ...BOTTLES,
  ...ANSWERS,
  ...MIXING,
  ...SHELF,
  ...REVIEW,
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
