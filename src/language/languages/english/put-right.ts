import { SINK } from './lists.js';
import { BATH, bathInTank, bottleRef, made, match, type Reader, type Sentence, VESSEL } from './sentence.js';

/**
 * A movement put right: which bottle a bath left for, or came out of, in whatever words. Said without a way, what was moved
 * last is meant; the assistant knows what that was, and tells the day again with it.
 */

const SORRY =
  "(?:no|nope|wait|sorry|actually|correction|oops|rather|i lied|i was wrong|my (?:mistake|bad)|hang on|hold on|i (?:said|told you|got) (?:that|it|this)(?: all)? wrong|(?:that|it) (?:is|was) wrong|(?:scrap|scratch|strike) that|i (?:mean|meant)|make (?:that|it)|in fact|do not|don't)";
const [LED, LEADS] = [new RegExp(`^${SORRY}\\b`), `(?:(?:${SORRY}|oh|well|er|um|and|but|so) )*`];
/** It cries out, and puts nothing right. */
const CRY = /^(?:(?:oh|ah|oh god) )*(?:oh|ah) no /;
const BEHIND =
  '(?: (?:instead|after all|in fact|actually|by mistake|by accident|for sure|definitely|in end|back|again))*';
const NOT = `(?: (?:and )?(?:not|instead of|rather than)(?: (?:in|into|to|from))? (?<not>${VESSEL})(?: bottle)?)?`;
const WHAT = `(?:(?<what>${BATH})(?: bath)?|it|that|this|(?:all|lot|rest|remainder|(?:other|second) half)(?: of it)?|everything)`;
const PLACE = `(?:(?<to>${VESSEL})|(?<own>${BATH}) bottle|(?<jug>jug|beaker|cylinder|measuring \\w+)|(?<sink>${SINK}|_place\\d+))`;
const INTO = `(?:back |straight |right )*(?:in|into|to|down|in to)(?: (?:my|clean|empty|spare|other))* ${PLACE}`;
const DONE = '(?:poured|put|tipped|emptied|returned|drained|dumped|sent|decanted)';

const isLed = ({ plain }: Sentence): boolean => LED.test(plain.replace(CRY, ''));

/** "No, it went back into three", "it was bottle three I put it into, not four", "sorry, I poured it down the sink". */
const leftFor: Reader = (said) => {
  const { line, liquid, bottle, place, situations } = said;
  const told = match(
    line,
    new RegExp(
      `^${LEADS}${WHAT} (?:(?:is|was|has|have|had|all|only|been|got|did) )*(?:went|gone|go|ended up|going|came|come|${DONE}|landed) ${INTO}${BEHIND}${NOT}${BEHIND}$`,
    ),
    new RegExp(
      `^${LEADS}(?:i |we )(?:have )?(?:only )?${DONE} (?:${WHAT} )?${INTO}${BEHIND}${NOT}${BEHIND}$`,
    ),
  );
  const which = match(
    line,
    new RegExp(
      `^${LEADS}(?:it|that) (?:was|is) (?:only )?${PLACE} (?!(?:that went|(?:that )?(?:i|we) (?:have )?\\w+) in(?: tank| by \\w+)*$)(?:(?:that|where|which) )?(?:(?:${WHAT}|i|we) )(?:(?:have|has|had|was) )?(?:went|gone|ended up|${DONE})(?: it| that)?(?: back)? (?:in|into|to|in to)${BEHIND}${NOT}$`,
    ),
  );
  const alone = bathInTank(situations)
    ? undefined
    : match(line, new RegExp(`^${LEADS}(?:back )?(?:in|into) ${PLACE}${BEHIND}${NOT}$`));
  const m = which ?? told ?? alone;
  if (!m || !(which || m.not || (isLed(said) && !situations.includes('mixing')))) return undefined;
  // of what is weighed a number is no bottle
  if (situations.includes('mixing') && said.due[0]?.type !== 'part' && /^_num/.test(m.not ?? ''))
    return undefined;
  if (m.sink?.startsWith('_place') && place(m.sink) !== 'sink') return undefined;
  const vessel = m.jug ? { kind: 'jug' } : m.sink ? { kind: 'sink' } : bottleRef(bottle(m.to));
  return made('poured', {
    liquid: liquid(m.what),
    to: vessel,
    toOf: liquid(m.own),
    instead: m.not ? bottleRef(bottle(m.not)) : true,
  });
};

/** "No, I poured from five", "it was bottle five that went in", "two was empty actually, I took bottle five". */
const cameFrom: Reader = (said) => {
  const { line, bottle, situations } = said;
  if (situations.includes('mixing')) return undefined;
  const took = '(?:i |we )?(?:have )?(?:only )?(?:poured|used|took|taken|grabbed|tipped|picked|put)(?: in)?';
  const led = match(
    line,
    new RegExp(
      `^(?<empty>_bottle\\d+) (?:was|is) (?:already |all )?(?:empty|dry)(?: (?:actually|in fact|so|and|after all|though))* ${took}(?: ${WHAT})?(?: (?:from|out of))? (?<b>${VESSEL})(?: in)?${BEHIND}$`,
    ),
    new RegExp(
      `^(?:(?:no|actually) )*(?:it|that|that one) (?:came|was|is|poured)(?: actually)? (?:from|out of) (?<b>${VESSEL})${BEHIND}${NOT}$`,
    ),
    new RegExp(
      `^${LEADS}(?:it|that) was (?<b>${VESSEL}) (?:that )?(?:(?:i |we )(?:poured|used|took|put in|grabbed|tipped in|picked)|went|is|(?:that )?went)(?: in)?(?: tank)?${BEHIND}${NOT}$`,
    ),
  );
  const behindIt =
    isLed(said) || / instead$/.test(line)
      ? match(
          line,
          new RegExp(
            `^${LEADS}${took}(?: ${WHAT})?(?: (?:from|out of))? (?<b>_bottle\\d+)(?: in)?${BEHIND}${NOT}$`,
          ),
          new RegExp(`^${LEADS}${took}(?: ${WHAT})? (?:from|out of) (?<b>_num\\d+)(?: in)?${BEHIND}${NOT}$`),
          new RegExp(`^${LEADS}(?:from|out of) (?<b>${VESSEL})${BEHIND}${NOT}$`),
          new RegExp(`^${LEADS}(?<b>_bottle\\d+) (?:went|is) in${BEHIND}$`),
        )
      : undefined;
  const m = led ?? behindIt;
  const vessel = bottleRef(bottle(m?.b));
  if (!m || !vessel) return undefined;
  const right = made('correct', { vessel, moved: 'from' });
  // in a hand it may be meant for the next pour
  const inHand = made('pour-in', { from: vessel });
  if (right && inHand && m === behindIt && !m.not && IN_HAND.test(line))
    return { type: 'unsure', candidates: [right, inHand] };
  const empty = made('bottle-empty', { bottle: bottle(m.empty) });
  return right && m.empty && empty ? { type: 'several', intents: [right, empty] } : right;
};

const IN_HAND = /\b(?:grabbed|picked|put)\b(?!.* in\b)(?!.*\b(?:from|out of)\b)/;

/** "I said that wrong, bottle four": of what was said last. */
const saidWrong: Reader = ({ line, plain, bottle }) => {
  const m = match(line, new RegExp(`^${LEADS}(?:it (?:was|is) )?(?:${SORRY} )*(?<b>_bottle\\d+)${BEHIND}$`));
  return m && WRONG.test(plain)
    ? made('correct', { vessel: bottleRef(bottle(m.b)), moved: 'either' })
    : undefined;
};
const WRONG = /\b(?:wrong|i lied|mistake|my bad|scrap|scratch|strike|after all|correction|no no)\b/;

/** "No, I was right the first time": what was put right last was right before. */
const rightAtFirst: Reader = ({ line }) =>
  new RegExp(
    `^${LEADS}(?:i (?:was|am|had it|said it) right(?: (?:at|on))?(?: first)?(?: time)?(?: before| already)?|(?:it|that|what i (?:first )?said(?: first| before| at first)?) was right(?: (?:at )?first(?: time)?| before| already| after all)?|as i (?:first )?said(?: first| before| at first)?|(?:scrap|forget|ignore|undo|cancel) (?:that |my |last )*correction)(?: (?:it|that) (?:was|is) (?:${VESSEL}|${BATH}))?${BEHIND}$`,
  ).test(line) && /first|before|correction/.test(line)
    ? made('undo', { mended: true })
    : undefined;

/** Before all else: no other reader knows that it is told a second time. */
export const PUT_RIGHT: readonly Reader[] = [rightAtFirst, leftFor, cameFrom, saidWrong];
