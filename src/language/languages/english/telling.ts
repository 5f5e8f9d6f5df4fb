import type { Grammars } from '../../load.js';
import { openFor } from '../../open/understand.js';
import { ANOTHER } from './lists.js';

/**
 * A report without what stands around it: how it came to be told ("it turns out that", "and I forgot to tell you"), who
 * did it ("my wife poured"), how sure the number is ("is really 37"). Only what speaks of a bath, a bottle or the tank is
 * changed, so that talk of something else stays as it is. Words as `normaliseTyped` leaves them.
 */
export function asTold(plain: string, grammars: Grammars): string {
  const calm = inTurn(
    ONCE_MORE,
    repeated(plain, (s) => s.replace(EXCLAIMS, '').replace(IN_FAHRENHEIT, '').replace(FILLED, '')),
  );
  if (!openFor(grammars).mentions(calm.split(' '))) return calm;
  const bare = repeated(calm, (s) => s.replace(BEFORE, '').replace(AFTER, ''));
  const who = bare.replace(ACTOR, 'i ').replace(CLAUSE_ACTOR, '$1i ');
  return inTurn(TIMES, who) || plain;
}

const inTurn = (all: readonly (readonly [RegExp, string])[], text: string): string =>
  all.reduce((s, [said, meant]) => s.replace(said, meant), text);

function repeated(text: string, change: (text: string) => string): string {
  const next = change(text).trim();
  return next === text ? text : repeated(next, change);
}

const THAT = '(?: now| just now| only now)?(?: that)?';
const BEGINS =
  "(?=(?:\\S+ ){3}\\S)(?=(?:i|i've|i'm|we|the|my|our|it|it's|that|there|there's|this|half|some|all|one|two|three|about|a|bottle|he|she|they|somebody|someone|only|in)\\b)";
/** What somebody says to whom something happens. */
const EXCLAIMS =
  /^(?:oh |oh my )?(?:oh no|god|hell|bloody hell|bugger|blimey|crap|dammit|damn it|heck|lord|blast|cripes|christ|jesus|my goodness|goodness|ow|ouch|you are kidding(?: me)?|you're kidding(?: me)?|for (?:god's|heaven's|crying out) (?:sake|loud)|silly me|oh well|ah|aha|ugh|uh oh|hang on|hold on a (?:second|minute|moment)) (?!(?:it|that) was )(?=(?:\S+ ){2}\S)/;
/** What is said between words to win time. */
const FILLED =
  /(?<=\w )(?<!\b(?:do|did|if|would|how|don't|should|can|as|let|could|will) )you (?:know|see)\b(?! (?:if|how|what|where|when|why|which|who|whether|that|about|any|anything)\b) ?/g;
/** A thermometer that reads otherwise is said by the reading itself. */
const IN_FAHRENHEIT =
  /^(?:my |the |this )?thermometer(?:'s| is| reads| shows)(?: only)?(?: in)? fahrenheit (?:so |and |but )?(?=.* fahrenheit$)/;
/** In front of what is told. */
const BEFORE = new RegExp(
  `^(?:(?:i|we) (?:have |had |just |only )*(?:made|make) a (?:\\w+ )?mistake(?: (?:and|earlier|before))?|(?:i|we) (?:have |just |only |now )*(?:noticed|notice|realised|realized|realise|realize|found out|discovered|learned|learnt|heard)${THAT}|i (?:have to|must|should|need to|ought to|forgot to|did not|didn't|want to) (?:say|tell you|tell|confess|admit|mention|report)${THAT}|i should have (?:said|told you|mentioned)(?: that)?|(?:as )?it turns out(?: that)?|turns out(?: that)?|(?:just )?so you know|for your information|for the record|in case it matters|guess what|bad news|good news|unfortunately|sadly|luckily|fortunately|i'm sorry(?: but)?|i am sorry(?: but)?|i'm afraid(?: that)?|i am afraid(?: that)?|sorry(?: but)?|my (?:mistake|fault|bad)|silly me|stupid me|how stupid|i (?:see|saw)(?: now)? that|i (?:can )?see now(?: that)?|what happened is(?: that)?|it happened that|the thing is(?: that)?|the truth is(?: that)?|to be honest|(?:i was|we were) (?:distracted|busy|away|on the phone|interrupted|elsewhere)(?: and)?|while (?:i|you|we) (?:was|were) (?:away|out|gone|busy|upstairs|on the phone|not listening|not looking)|today|this time|for today|tonight|this (?:morning|afternoon|evening)|as (?:a )?(?:usual|always)|in fact|by (?:mistake|accident)|now|first|and|but|so|then|because) ${BEGINS}`,
);
/** Behind it. */
const AFTER =
  / (?:(?:and |but |which )?(?:i |we )?(?:just |only )?(?:(?:forgot|failed) to (?:tell you|tell|say|mention|report)|did not (?:tell you|tell|say|mention)|didn't (?:tell you|tell|say|mention)|never (?:told you|said|mentioned))(?: (?:you|so|it|that|about it|earlier|before|you that|you so|you about it))?|without (?:telling|saying|a word)(?: (?:you|anything|so|me|it))*|by (?:mistake|accident)|in (?:my|the|a) (?:hurry|haste|rush|excitement)|out of habit|as (?:usual|always|you said|you told me)|i'm afraid|i am afraid|i'm sorry|i am sorry|sorry|my (?:mistake|fault|bad)|stupidly|to be honest|if that matters|in case it matters|just so you know|so you know|for your information|(?<=\b(?:into|in|to) (?:bottle |number )?\w+ )(?:right )?on top of (?:the|my|all the|what was|what is) \w+(?: \w+){0,3})$/;

const DONE =
  '(?:poured|put|tipped|filled|emptied|drained|returned|moved|added|topped|dumped|threw|thrown|swapped|spilled|spilt|mixed|rinsed|washed|opened|knocked|dropped|loaded|used|ran|developed)';
const OFTEN = '(?:has |have |had |already |just |accidentally |kindly |then )*';
const WHO = `${ANOTHER}(?: (?:here|else))?`;
/** Whoever's hands it were: what is so at the sink is the same. */
const ACTOR = new RegExp(`^${WHO}(?:'s)? ${OFTEN}(?=${DONE}\\b)`);
const CLAUSE_ACTOR = new RegExp(`\\b(and |but |then )${WHO}(?:'s)? ${OFTEN}(?=${DONE}\\b)`, 'g');

/** What a report speaks of, and says once more: "the film it is loaded", "that developer, I mixed it six weeks ago". */
const THING =
  '(?:film|roll|tank|tub|water|prebath|developer|stop(?: bath)?|bleach|fixer|fix|wash|(?:final )?rinse|stabilizer|bottle \\w+)';
const ONCE_MORE: readonly (readonly [RegExp, string])[] = [
  [/(?<=\w)'s (?=(?:had|been|seen|done) )/g, ' has '],
  [
    new RegExp(`(^|\\band )((?:the |my |our |this |that )?${THING}) (?:it|he|she)'s (?=\\S)`, 'g'),
    '$1$2 is ',
  ],
  [
    new RegExp(
      `(^|\\band )((?:the |my |our |this |that )?${THING}) (?:it|he|she) (?=(?:is|has|was|had|reads|shows|went|goes)\\b)`,
      'g',
    ),
    '$1$2 ',
  ],
  [
    new RegExp(
      `^(?:the|my|our|this|that) (${THING}(?: (?:in|from) (?:the )?bottle \\w+)?) ((?:i|we)(?:'ve| have| had)?(?: just| only)? (?!am\\b|was\\b|have\\b)\\w+) (?:that|it|this)\\b`,
    ),
    '$2 the $1',
  ],
];

/** Other ways to say how long ago, and that a number is one. */
const TIMES: readonly (readonly [RegExp, string])[] = [
  [/ (minutes?|seconds?) (?:back|earlier|before(?: now)?)$/, ' $1 ago'],
  [/\bbeen (in|out)(?: for)? a (?:good |full )?minute\b/, 'been $1 one minute'],
  [/\bhalf (?:a|of a) minute ago\b/, 'thirty seconds ago'],
  [/\ba (?:good |full )?minute ago\b/, 'one minute ago'],
  [/\ba (?:couple of|couple) (minutes|seconds) ago\b/, 'two $1 ago'],
  [
    /\b(?:some|about|around|roughly|maybe|perhaps|like|already) (?=(?:\w+ ){1,3}(?:minutes?|seconds?) ago\b)/,
    '',
  ],
  [
    /\b(is|was|reads|shows|has) (?:really|actually|in fact|in truth|more like|rather|only|just) (?=(?:at )?(?:\w+ ){0,4}\w+$)/,
    '$1 ',
  ],
];
