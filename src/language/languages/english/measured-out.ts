import { A_SHARE, ABOUT, BATH, bottleRef, made, match, type Reader, shareOf, VESSEL } from './sentence.js';

/** What is done with a bath outside the tank: it is measured out into a jug, or a part of a bottle is tipped into another. */

const JUG =
  '(?:(?:clean|empty|spare|small|big|other|glass|plastic|mixing|pouring|kitchen|second|another|one) )*(?:jug|beaker|cylinder|graduate|cup|bowl|bucket|pitcher|carafe|measure|measuring (?:jug|cup|beaker|cylinder|glass))';
const FUNNEL = '(?:(?:in|into) )(?:funnel|filter)';
const STILL = '(?: (?:all|still|only|ready|waiting|sitting|standing|just|measured|out|over here))*';
const NOT_IN = '(?: (?:(?:and|but) )?(?:it is )?not in(?: tank)?(?: yet)?| first| for now| ready| yet)*';
const DID =
  '(?:i |we )?(?:have )?(?:got|put|poured|tipped|emptied|decanted|measured|transferred|have)(?: out)?';

/** "It's in the jug", "I've got the developer in a beaker", "poured bottle two into the measuring cup": in no tank. */
export const inAJug: Reader = ({ line, situations, liquid, bottle, volumeMl }) => {
  if (!situations.includes('pouring') || situations.includes('mixing')) return undefined;
  const what = `(?:${ABOUT}(?<ml>_volume\\d+)(?: of)? )?(?<what>${BATH}|_bottle\\d+|it|that|this)(?: bath)?`;
  if (new RegExp(`^(?:no |but )*${what} (?:is|sits|stands)${STILL} ${FUNNEL}${NOT_IN}$`).test(line))
    return made('ask-where', {});
  const m = match(
    line,
    new RegExp(
      `^(?:no |but |so )*${what} (?:(?:is|sits|stands|waits|has|went|gone|poured|now)${STILL} )+(?:in|into) ${JUG}${NOT_IN}$`,
    ),
    new RegExp(`^${DID} ${what}${STILL} (?:in|into|out into|over into) ${JUG}${NOT_IN}$`),
  );
  const of = liquid(m?.what);
  const from = bottleRef(bottle(/^_bottle/.test(m?.what ?? '') ? m?.what : undefined));
  return m && made('poured', { liquid: of, from, to: { kind: 'jug' }, volumeMl: volumeMl(m.ml) });
};

/** "It's in bottle one", of a bath that left the tank: in this one, and in no jug. */
export const inABottle: Reader = ({ line, situations, bottle }) => {
  const m = situations.includes('pouring')
    ? match(
        line,
        /^(?:no )?(?:it|that) (?:is|went|has gone)(?: back| safely)? (?:in|into) (?<to>_bottle\d+)(?: again| too)?$/,
      )
    : undefined;
  return m && made('poured', { to: bottleRef(bottle(m.to)) });
};

/** "Some" is nobody's guess. */
const UNTOLD =
  '(?:(?:little|tiny|small|good|quite|fair) )*(?:some|part|parts|bit|most|little|few drops|splash|drops?|dribble|touch|dash|glug|slug|lot|much)';
const PART = `${ABOUT}(?:(?<share>${A_SHARE})|(?<ml>_volume\\d+)|${UNTOLD})(?: of)?`;
const WHEN =
  '(?: (?:by mistake|by accident|earlier(?: on)?|before(?: (?:we|i) (?:started|began|start)| run| starting)?|this morning|last night|yesterday|today|too|as well|instead))*';

/** "I tipped half of bottle two into bottle one", "some of two got into bottle five before we started". */
export const partInto: Reader = ({ line, situations, liquid, bottle, volumeMl }) => {
  if (situations.includes('mixing')) return undefined;
  const source = `(?<source>_bottle\\d+|${BATH}(?: (?:from|in) (?<from>_bottle\\d+))?|(?:(?<=of )_num\\d+))(?: bottle)?`;
  const into = `(?:over )?(?:in|into|to|in to|in with) (?:(?<to>${VESSEL})|(?<own>${BATH})(?: bottle)?)${WHEN}`;
  const m = match(
    line,
    new RegExp(
      `^(?:i |we )?(?:have )?(?:accidentally |must have )?(?:poured|put|tipped|moved|decanted|transferred|emptied|added|got|splashed|slopped) ${PART} ${source} ${into}$`,
    ),
    new RegExp(
      `^${PART} ${source} (?:(?:is|was|has|have|been|accidentally) )*(?:went|gone|got|ran|ended up|poured|put|tipped|is|landed|spilled) ${into}$`,
    ),
  );
  const number = bottle(m?.from ?? m?.source);
  // of a bath alone that may be in the tank others read
  if (
    !m ||
    (number === undefined && (m.share === undefined || !/\b(?:moved|decanted|transferred)\b/.test(line)))
  )
    return undefined;
  return made('poured', {
    liquid: liquid(m.source?.split(' ')[0]),
    from: bottleRef(number),
    to: bottleRef(bottle(m.to)),
    toOf: liquid(m.own),
    volumeMl: volumeMl(m.ml),
    share: shareOf(m.share),
    some: (m.share ?? m.ml) === undefined || undefined,
  });
};
