import type { Intent, IntentOf } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import { factsIn, isQuestion, withFacts } from '../../meaning/weight.js';
import { slotSpotter } from '../../open/slots.js';
import { clausesOf } from './clauses.js';
import { TELLS_NOTHING } from './lists.js';
import { ORDINALS } from './numbers.js';

/**
 * What is said beside a pour and speaks against it, whatever else of the sentence was taken: the guard holds the pour until
 * that is settled. Each pattern is looked for in one clause.
 */
const AGAINST: readonly RegExp[] = [
  /\b(?:some|bit|little|drops?|rest|half|lot)\b.*\b(?:still|left)\b.*\b(?:in|inside|on)\b|\bstill (?:some|got|a bit|a little|full|has)\b/i,
  /\b(?:not|never|haven'?t|hasn'?t|didn'?t|did not|without|forgot(?:ten)?(?: to)?|skipped)\b.*\b(?:rins\w*|wash\w*|drain\w*|clean\w*|measur\w*|filter\w*|dissol\w*|stop(?:ped)?)\b/i,
  /\b(?:smells?|smelling|stinks?|reeks?|whiffs?)\b/i,
  /\b(?:it|this|that|bottle|label|sticker|cap|tape|lid) (?:says|reads|said)\b|\bsays \w+ on (?:it|the)\b|\b(?:written|marked|labell?ed)\b|\b(?:no|without an?|wrong) label\b/i,
  /\b(?:lid|top)(?:'s)? (?:\w+ )?(?:open|off|loose)\b|\b(?:no|without (?:the|a)) lid\b/i,
  /\b(?:gone|turned|went|goes|looks?|looking|is|it's|all)\b(?: \w+)?(?: a (?:bit|little))? (?:black|brown|green|pink|blue|purple|cloudy|milky|murky|muddy|dirty|off|funny|odd|weird|strange|wrong)\b/i,
  /\b(?:i (?:think|believe|guess|suspect) (?:it|that|this|one|bottle)|it (?:might|may|could) be|or (?:(?:was|is) (?:it|that)|maybe)\b)|\blooks?\b.*\blike\b/i,
  /\b(?:with|has|had|have|got|put|poured|added|mixed)\b.*\b\w+\b.*\b(?:in|into) (?:it|there)\b|^with \w+(?: \w+){0,2} in\b/i,
  /\b(?:half|part|mostly|quarter|third|rest|partly)\b.*\bwater\b|\bwatered|\b(?:diluted|thinned|topped)\b/i,
  /\b(?:swollen|bulg\w*|bloated|cracked|leak\w*|rust\w*|mou?ld\w*|expired|out of date|past its|gone off|went off|hiss\w*|fizz\w*|bubbl\w*|foam\w*|steam\w*|boiling|scalding|(?:as|too|very|really|red|piping) hot|froze\w*|freezing|ice cold|sludg\w*|slim\w*|crust\w*|curdled)\b/i,
  /\b(?:like|as) (?:plain |tap )?water\b|\bcolou?rless\b|\bno colou?r\b/i,
  /\bthere(?:'s| is| was) (?!only|just|about|nothing|no)\w+(?: \w+)? in (?:it|there)\b|\bgot (?:in|into) (?:it|there)\b/i,
];
/** A contrast, a denial or a doubt: whatever the rest of the clause says. */
const SPEAKS_AGAINST =
  /^(?:but|though|although|even though|except|only|while|with)\b|\b(?:not|no|never|nothing|none|without|forgot\w*|wrong|old|older|other|another|different|same|maybe|perhaps|probably|might|may|hope|hopefully|think|guess|sure|should|yesterday|unless|if|instead|already|found|dropped|fell)\b|n'?t\b|^(?:my|our|his|her|somebody|someone|he|they|we)\b|\b(?:\w{3,}ed|made|left|gave|took|put|got|had|drank)\b.*\b(?:it|that|this|them)\b/i;
const NOT_SO =
  /\b(?:no|not|isn'?t|doesn'?t|don'?t|nothing|never)\b.*\b(?:smells?|label|open|off|loose|black|brown|green|pink|cloudy|milky|murky|still|left|in it|in there)\b/i;
/** Said of how and why somebody pours, or to nobody. */
const HOW =
  /^(?:but|and)? ?(?:slow\w*|gentl\w*|careful\w*|quick\w*|not too|wait\b|never mind|whatever|oh (?:no|dear|well)$|(?:that|it|this)(?:'ll| will) do\b|go\b|because\b|i (?:can't wait|said)|my heart|wish me|here goes|same\b|with (?:the|that|this|a)\b(?!.*\b(?:lids?|tops?|in it|in there)\b|.*\blights?\b(?!.*\b(?:off|out)\b))|(?:(?:it|it's|is|looks?|all|still|and|nice|nicely|good|fine|okay|ok|fresh|freshly|mixed|warm|clean|great|perfect|lovely|normal|as usual|as always|up to temperature|at temperature|today|now) ?)+$|(?!.*\b(?:fizzy|foamy|hot|brown|black|green|blue|pink|cloudy|leaky|open|wrong|old|unlabelled|cracked|smelly)\b)(?:\w+ )*(?:one|stuff|batch|lot)$|(?:shall|should) (?:i|we)\b|how (?:long|warm|hot|much)\b|what (?:temp\w*|next|now|time)\b|steady|big moment|next lot|brim\b|(?:what|where) else|the (?:\w+ )?(?:thingy?|brown one)$|that(?:'s| is) (?:plenty|enough|long enough|all|that|me|done)\b|(?:got |that's )?(?:about |nearly |almost )?(?:all of it|every (?:last )?drop|the lot)(?: (?:bar|but|except|minus) (?:a |the )?(?:last )?(?:dribble|drips?|drops?|few drops))?$|(?:(?:no|yes|er|uh|oops|sorry|hang on) ?)+$)/i;
const POURS_IT =
  /\b(?:pour\w*|putting|tipping|returning|emptying|going (?:in|back)|(?:goes|go|comes|coming|running|run) (?:in|back|out|down|into|through|off)|in it goes|back it goes|on its way|(?:about|going|ready) to|gonna)\b/i;
const LEADS = /^(?:but|and|although|even though|though|because)\s+/i;

/** The clause that speaks against it, as it was said. `taken`: a clause that was read for a fact of its own is judged by that. */
function saidAgainst(line: string, taken: boolean, grammars: Grammars): string | undefined {
  const clauses = clausesOf(line.replace(/\u2019/g, "'"), 'beside').map((c) =>
    c.replace(/[\s,;.!?]+$/, '').trim(),
  );
  if (clauses.length < 2) return undefined;
  const beside = clauses.filter((c) => !POURS_IT.test(c) && !HOW.test(c));
  const found =
    beside.find((c) => AGAINST.some((p) => p.test(c)) && !NOT_SO.test(c)) ??
    (taken ? undefined : beside.find((c) => SPEAKS_AGAINST.test(c) && !NOT_SO.test(c) && tells(c, grammars)));
  return found?.replace(LEADS, '').replace(/\s+though$/i, '');
}

/** A clause of its own that names no bath and no vessel: what nobody read may be the reason not to pour. */
function tells(clause: string, grammars: Grammars): boolean {
  const words = clause
    .toLowerCase()
    .replace(/'s\b/g, ' is')
    .replace(/[^a-z0-9' ]/g, '')
    .split(/\s+/)
    .filter(Boolean);
  const { tokens } = slotSpotter(grammars)(words);
  return (
    words.length > 1 &&
    !tokens.some((t) => NAMES_IT.test(t)) &&
    !words.some((w) => NUMBERED.test(w)) &&
    tokens.some((t) => !t.startsWith('_') && !TELLS_NOTHING.has(t))
  );
}
const NUMBERED = new RegExp(`\\d|^(?:bottle|number|${ORDINALS.join('|')})$`);
const NAMES_IT = /^_(?:liquid|bottle|num|volume|mass|stock)$|^(?:jug|tap)$/;

type Pour = IntentOf<'pour-in' | 'pour-back' | 'pour-between'>;
const HELD = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-between']);
const isHeld = (intent: Intent): intent is Pour => HELD.has(intent.type);
/** A fact that was read beside it. */
const isFact = (intent: Intent): boolean => !isHeld(intent) && !isQuestion(intent);

/** A pour with what was said against it beside it; everything else as it is. */
export function withBesides(intent: Intent, line: string, grammars: Grammars): Intent {
  const all = factsIn(intent);
  if (!all.some(isHeld)) return intent;
  const besides = saidAgainst(line, all.some(isFact), grammars);
  return besides === undefined ? intent : withFacts(intent, (i) => (isHeld(i) ? { ...i, besides } : i));
}
