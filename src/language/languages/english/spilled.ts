import { A_SHARE, ABOUT, BATH, bottleRef, made, match, type Reader, shareOf, VESSEL } from './sentence.js';

/** Spills that were none, and two bottles that fell at once. */

const SORRY = '(?:(?:no|nope|wait|sorry|actually|oh|well|phew|but|it is fine|false alarm) )*';
const ANY =
  '(?: (?:any|anything|it|that|some|drop|single|one|of|over|at all|after all|actually|false alarm|no|and|bottle|there|in end|_bottle\\d+|_liquid\\d+))*';
const OUT =
  '(?:spilled|spilt|lost|leaked|gone|wasted|(?:came|ran|got|went|come) out|ran over|went anywhere|out)';
const DENIED: readonly RegExp[] = [
  new RegExp(
    `^${SORRY}(?:i|we) (?:did not|didn't|have not|haven't|never)(?: (?:actually|even|really))? (?:spill|spilled|spilt|lose|lost|drop|dropped|knock|knocked|tip|tipped)${ANY}$`,
  ),
  new RegExp(
    `^${SORRY}(?:(?:it|_bottle\\d+) (?:did not|didn't|never) (?:break|leak|spill|fall|tip)(?: over| down)? (?:and )?)?(?:nothing|none(?: of it)?|not (?:one |single )*drop)(?: (?:is|was|has|got|been|actually|came))* ${OUT}(?: after all| at all| in end)*$`,
  ),
];
/** Water on the floor is no bath that is gone. */
const WAS_WATER = new RegExp(
  `^${SORRY}(?:it|that) was (?:(?:only|just|nothing but|in fact|actually) )*(?:tap |plain |clean )*(?<what>${BATH})(?: (?:after all|actually|from (?:tap|tub|rinse)|i think))*$`,
);

/** "No, I did not spill any", "nothing came out", "it was only water after all": what was told of a spill was not so. */
export const noSpill: Reader = ({ line, situations, liquid }) => {
  const water = situations.includes('spill') ? match(line, WAS_WATER) : undefined;
  return liquid(water?.what) === 'water' || DENIED.some((denied) => denied.test(line))
    ? made('undo', { spill: true })
    : undefined;
};

const FELL =
  '(?:tipped|fell|fallen|knocked|toppled|keeled|kicked|dropped|went|tip)(?: (?:over|down|off|out))*';
const WHERE = '(?: (?:in|into|on|onto|off|over|_place\\d+|tub|shelf|bench|worktop))*';

/** "Bottles four and five fell over, half each left", "the fixer and the bleach both tipped over in the tub". */
export const bothFell: Reader = ({ line, situations, liquid, bottle, volumeMl, place }) => {
  if (situations.includes('mixing')) return undefined;
  const pair = `(?:both )?(?:bottles? )?(?<a>${VESSEL}|${BATH})(?: bottle)? and (?:bottles? )?(?<b>${VESSEL}|${BATH})(?: bottles?)?`;
  const left = `(?: (?:and |so |but )*(?:(?:i (?:have )?picked (?:them|both)(?: of them)? up|there is|they have|with) )*${ABOUT}(?:only )?(?:(?<ml>_volume\\d+)|(?<share>${A_SHARE}))(?: (?:of|is|it|each|left|in|still|both|one|them|every))*)?`;
  const m = match(
    line,
    new RegExp(`^${pair}(?: (?:are|is|have|has|both|just|all|got|were))* ${FELL}${WHERE}${left}$`),
    new RegExp(
      `^(?:i |we )(?:have )?(?:both )?(?:knocked|tipped|kicked|dropped)(?: over)? ${pair}(?: over)?${WHERE}${left}$`,
    ),
  );
  if (!m) return undefined;
  const stays = shareOf(m.share);
  const share = stays === undefined ? undefined : 1 - stays;
  const where = /\btub\b/.test(line) ? 'tub' : place(/_place\d+/.exec(line)?.[0]);
  const all = [m.a, m.b].flatMap((of) => {
    const number = bottle(of);
    const leftMl = volumeMl(m.ml);
    const holds =
      leftMl === undefined
        ? []
        : [made('bottle-holds', { bottle: number, liquid: liquid(of), volumeMl: leftMl })];
    const some = share === undefined && leftMl === undefined ? true : undefined;
    const spill = made('spill', { bottle: number, liquid: liquid(of), share, some, place: where });
    return leftMl === undefined ? [spill] : holds;
  });
  const intents = all.flatMap((i) => i ?? []);
  return intents.length === 2 && bottleRef(1) ? { type: 'several', intents } : undefined;
};
