import type { Intent, IntentOf } from '../../../process/intent.js';
import { factsIn, isQuestion } from '../../meaning/weight.js';

/**
 * What is said beside a pour and speaks against it, whatever else of the sentence was taken: the guard holds the pour until
 * that is settled. Each pattern is looked for in one clause.
 */
const AGAINST: readonly RegExp[] = [
  /\b(?:some|bit|little|drops?|rest|half|lot)\b.*\b(?:still|left)\b.*\b(?:in|inside|on)\b|\bstill (?:some|got|a bit|a little|full|has)\b/i,
  /\b(?:not|never|haven'?t|hasn'?t|didn'?t|did not|without|forgot(?:ten)?(?: to)?|skipped)\b.*\b(?:rins\w*|wash\w*|drain\w*|clean\w*|measur\w*|filter\w*|dissol\w*|stop(?:ped)?)\b/i,
  /\b(?:smells?|smelling|stinks?|reeks?|whiffs?)\b/i,
  /\b(?:label|sticker|cap|tape|lid) (?:says|reads|said)\b|\b(?:no|without an?|wrong) label\b/i,
  /\b(?:lid|top)(?:'s)? (?:\w+ )?(?:open|off|loose)\b|\b(?:no|without (?:the|a)) lid\b/i,
  /\b(?:gone|turned|went|goes|looks?|looking|is|it's|all)\b(?: \w+)?(?: a (?:bit|little))? (?:black|brown|green|pink|blue|purple|cloudy|milky|murky|muddy|dirty|curdled|off|funny|odd|weird|strange|wrong)\b/i,
  /\bthere(?:'s| is| was) (?!only|just|about|nothing|no)\w+(?: \w+)? in (?:it|there)\b|\bgot (?:in|into) (?:it|there)\b/i,
];
const NOT_SO =
  /\b(?:no|not|isn'?t|doesn'?t|don'?t|nothing|never)\b.*\b(?:smells?|label|open|off|loose|black|brown|green|pink|cloudy|milky|murky|still|left|in it|in there)\b/i;
/** Of how somebody pours. */
const HOW =
  /^(?:but|and)? ?(?:slow\w*|gentl\w*|careful\w*|quick\w*|not too|wait\b|never mind|whatever|go\b|because\b)/i;
const CLAUSES =
  /[,;.!?]+\s+|\s+[-\u2014\u2026]+\s+|\s+(?=(?:but|though|although|even though|while|with|because|and (?:it|there|the|i|that))\b)/i;
const POURS_IT =
  /\b(?:pour\w*|putting|tipping|returning|going (?:in|back)|goes (?:in|back)|go (?:in|back))\b/i;
const LEADS = /^(?:but|and|although|even though|though|because)\s+/i;
const CONCEDES = /^(?:but|although|even though)\b|\bthough$/i;
const CONTENT =
  /\b(?!but|although|even|though|now|then|it|is|the|a|okay|ok|right|yes|please|first|again|that|this|all)[a-z]{3,}\b/i;

/** The clause that speaks against it, as it was said. `taken`: a clause that was read for a fact of its own is judged by that. */
function saidAgainst(line: string, taken: boolean): string | undefined {
  const clauses = line
    .replace(/\u2019/g, "'")
    .split(CLAUSES)
    .map((c) => c.trim());
  const beside = clauses.filter((c) => !POURS_IT.test(c) && !HOW.test(c));
  const found =
    beside.find((c) => AGAINST.some((p) => p.test(c)) && !NOT_SO.test(c)) ??
    (taken ? undefined : beside.find((c) => CONCEDES.test(c) && CONTENT.test(c)));
  return found?.replace(LEADS, '').replace(/[\s.,!?]+(?:though)?$/i, '');
}

type Pour = IntentOf<'pour-in' | 'pour-back' | 'pour-between'>;
const HELD = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-between']);
const isHeld = (intent: Intent): intent is Pour => HELD.has(intent.type);
/** A fact that was read beside it. */
const isFact = (intent: Intent): boolean => !isHeld(intent) && !isQuestion(intent);

/** A pour with what was said against it beside it; everything else as it is. */
export function withBesides(intent: Intent, line: string): Intent {
  const all = factsIn(intent);
  if (!all.some(isHeld)) return intent;
  const besides = saidAgainst(line, all.some(isFact));
  if (besides === undefined) return intent;
  const held = all.map((i) => (isHeld(i) ? { ...i, besides } : i));
  return intent.type === 'several' ? { ...intent, intents: held } : (held[0] ?? intent);
}
