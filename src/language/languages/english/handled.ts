import { ABOUT, BATH, bottleRef, made, match, type Reader, VESSEL } from './sentence.js';

/**
 * What hands at the sink have just done, told in the perfect and with the parts of a sentence in any order: film loaded,
 * a bath in, a bath out and where it is now, what was knocked over.
 */

const I = '(?:i |we )?(?:have )?(?:only )?';

/** "Everything is at temp and the film's loaded". */
const ALL_WARM =
  /^(?:(?:okay|right|now) )*(?:everything|all|all of it|they|baths|bottles|chemistry|chemicals) (?:is|are) (?:all |now )*(?:(?:at|up to) (?:temp|temperature)|warm|ready|set|good)(?: to go)?(?: (?:and|so))* film is (?:loaded|in|in tank)(?: tank)?(?: now)?$/;
/** "I've loaded the film", "loaded the film, lid's on". */
const loaded: Reader = ({ line, situations, number }) => {
  if (situations.includes('mixing')) return undefined;
  if (ALL_WARM.test(line)) return made('film-loaded', {});
  const m = new RegExp(
    `^${I}(?:loaded|wound|spooled|threaded) (?:(?:color |right |new |other )*(?:(?<n>_num\\d+) )?(?:film|films|roll|rolls|reel|reels))(?: (?:in|into|in to|on|onto|and|with|tank|reel|reels|spiral|spool|lid|cap|it|is|shut|closed|closed it|up|tight|dark|bag))*$`,
  ).exec(line);
  const films = made('films', { count: number(m?.groups?.n) });
  if (!m) return undefined;
  return m.groups?.n && films
    ? { type: 'several', intents: [films, { type: 'film-loaded' }] }
    : made('film-loaded', {});
};

/** "I've poured the prebath in from one", "prebath's in from one": it is in. */
const pouredIn: Reader = ({ line, liquid, bottle }) => {
  const m = match(
    line,
    new RegExp(
      `^${I}(?:poured|put|tipped|got) (?<what>${BATH}) (?:in|into tank|in tank)(?: (?:from|out of) (?<from>${VESSEL}))?$`,
    ),
    new RegExp(`^${I}(?:poured|put|tipped) in (?<what>${BATH})(?: (?:from|out of) (?<from>${VESSEL}))?$`),
    new RegExp(
      `^(?<what>${BATH}) (?:is|has|went) (?:gone |now )?in (?:tank )?(?:from|out of) (?<from>${VESSEL})$`,
    ),
    new RegExp(`^(?:it is|that is|it went) in (?<what>${BATH})$`),
  );
  const from = bottleRef(bottle(m?.from));
  if (!m) return undefined;
  return from
    ? made('poured', { liquid: liquid(m.what), from, to: { kind: 'tank' } })
    : made('bath-in', { liquid: liquid(m.what) });
};

/** Which bottle that is, and that nothing is left in the tank. */
const BESIDE = `(?: (?:and |but |which |that |it )*is ${BATH}(?: bottle| one)?)?(?: (?:and |so )*tank is (?:empty|dry))?`;
/** "The prebath's out, back in its bottle, bottle one", "I've put the developer back in two". */
const wentBack: Reader = ({ line, liquid, bottle }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:(?:i|we) (?:have )?(?:only )?put|${I}(?:poured|tipped|returned|drained)) (?<what>${BATH}) (?:out )?(?:and )?(?:back )?(?:in|into|to)(?: its| it is| own| old)*(?: bottle| place)?(?: bottle)? (?<to>${VESSEL})(?: again| too)?${BESIDE}$`,
    ),
    new RegExp(
      `^(?<what>${BATH}) (?:is |has |went |was )(?:been |gone |poured |all |safely )*(?:(?:out|back|returned) (?:and |it is |is |went |gone |poured )*)+(?:in|into|to)(?: its| it is| own| old)*(?: bottle| place)?(?: bottle)? (?<to>${VESSEL})(?: again| too)?$`,
    ),
  );
  const to = bottleRef(bottle(m?.to));
  // "put the bleach in bottle four" may have come from a jug
  if (!m || !to || !/\b(?:back|out|returned|drained)\b/.test(line)) return undefined;
  return made('poured', { liquid: liquid(m.what), to });
};

/** "Bottle one is cracked, so the prebath is in bottle seven today". */
const standsElsewhere: Reader = ({ line, liquid, bottle }) => {
  const m = match(
    line,
    new RegExp(
      `^_bottle\\d+ (?:is|has|got|was) (?:\\w+ )?(?:cracked|broken|broke|split|leaking|leaks|gone|lost|smashed|dirty|in use)(?: (?:and|so|which is why))* (?:i (?:have )?(?:put|keep|moved) )?(?<what>${BATH}) (?:is |lives |stands )?(?:in|into|to) (?<b>_bottle\\d+)(?: today| instead| this time| for today)*$`,
    ),
    new RegExp(
      `^(?<what>${BATH}) (?:is|lives|stands) in (?<b>_bottle\\d+) (?:today|instead|this time)(?: (?:because|as|since)? ?_bottle\\d+ .*)?$`,
    ),
  );
  return m && made('bottle-holds', { bottle: bottle(m.b), liquid: liquid(m.what) });
};

/** "Bottle five's been leaking, there's only 300 ml left in it", "there's only 300 ml of fixer left". */
const onlyLeft: Reader = ({ line, bottle, liquid, volumeMl }) => {
  const left = `(?:and |so )?(?:there is|it has|i have|i have got|that leaves|which leaves|leaves|it holds) ${ABOUT}(?:only )?${ABOUT}(?<ml>_volume\\d+)`;
  const m = match(
    line,
    new RegExp(
      `^(?<b>_bottle\\d+|${BATH})(?: bottle)? (?:is|has|has been|was|is been) (?:leaking|leaked|dripping|cracked|knocked over|tipped over|spilled)(?: \\w+){0,3}? ${left}(?: (?:left|still|in|of it|it))*$`,
    ),
    new RegExp(`^${left}(?: (?:left|still))* in (?<b>_bottle\\d+|${BATH})(?: bottle)?$`),
    new RegExp(`^${left}(?: of)? (?<b>${BATH}) left(?: in bottle)?$`),
  );
  return m && made('bottle-holds', { bottle: bottle(m.b), liquid: liquid(m.b), volumeMl: volumeMl(m.ml) });
};

/** "How much is left in two", "what happened to bottle two": all that is known of it. */
const leftIn: Reader = ({ line, bottle }) => {
  const m = match(
    line,
    /^(?:and )?(?:how much|what)(?: (?:is|do|have|i|we|you|got|there|left|still|be|will))* in (?<b>_(?:num|bottle)\d+)(?: left| still| then)*$/,
    /^(?:and )?what (?:happened|is wrong|is up|is matter|went wrong) (?:to|with|in) (?<b>_bottle\d+)(?: then)?$/,
  );
  const number = bottle(m?.b);
  return number === undefined ? undefined : made('ask-bottle', { bottle: number });
};

/** "How much is in the tank", "was that the whole bottle": how full the tank is, and what is left of its bath. */
const howFull: Reader = ({ line }) =>
  /^(?:and |so )?(?:how much|how full)(?: (?:is|there|do|have|i|we|got|liquid|stuff|left|of it))* (?:in )?tank$/.test(
    line,
  )
    ? made('ask-where', {})
    : /^(?:was|is) (?:that|it) (?:whole|entire|all of|all|full|everything in) (?:_bottle\d+|bottle)$/.test(
          line,
        )
      ? made('ask-volume', {})
      : undefined;

/** "It's still milky", "the negatives look cloudy": the film, and no bath. */
const milky: Reader = ({ line }) =>
  /^(?:but |and |why )*(?:is |are )?(?:my )?(?:it|film|negatives?|negs?|strip|roll|they|pictures?)(?: (?:is|are|looks?|looking|stays?|came out|comes out|come out|turned out|have gone|has gone|went|gone|seems?))*(?: still| all| bit| rather| kind of| sort of| very)* (?:milky|cloudy|creamy|opaque|not clear)(?: .*)?$/.test(
    line,
  )
    ? made('ask-advice', { topic: 'milky' })
    : undefined;

/** "What goes in next": of the run, where nothing is being mixed. */
const nextIn: Reader = ({ line, situations }) =>
  !situations.includes('mixing') &&
  /^(?:right |so |okay |and )*what (?:(?:goes|do i put|do i pour|comes) in(?: next| after that)?|(?:is|comes) next(?: here| now| up)?)(?: then)?$/.test(
    line,
  )
    ? made('ask-next', {})
    : undefined;

/** "No it isn't, ignore that, it's still in there": what was said last is taken back. */
const stillIn: Reader = ({ line, situations }) =>
  situations.includes('pouring') &&
  /^(?:no |wait |sorry )*(?:it (?:is not|isn't|didn't|has not|hasn't) )?(?:ignore|scrap|forget|strike) (?:that|it|what i said) (?:it|_liquid\d+) is still in(?: there| tank)?$/.test(
    line,
  )
    ? made('undo', {})
    : undefined;

/** "I said it too soon, I've only just poured the developer in": its time begins now. */
const saidTooSoon: Reader = ({ line, situations }) =>
  situations.includes('immersed') &&
  /^(?:no |wait |sorry |hang on )*(?:i (?:have )?(?:said|told you|spoke|called)(?: it| that| so)? too (?:soon|early))(?: (?:and |but )?(?:i (?:have |am )?(?:only )?(?:poured|put|pouring|putting|tipped) (?:it|_liquid\d+) in|(?:it|_liquid\d+) (?:is|has|went)(?: only)?(?: gone)? in|it is only going in)(?: second| moment| minute| right)*)?$/.test(
    line,
  )
    ? made('correct', { agoS: 1 })
    : undefined;

const HALT =
  "(?:no|nope|nah|not yet|not now|wait|oh|sorry|hang on|hold on|hold it|whoa|halt|stop|_liquid\\d+|do not|don't|actually|(?:scrap|scratch|forget|undo|cancel) (?:that|it))";
/** One word of them is a command of the grammars, or half a sentence. */
const HALTED = new RegExp(
  `^(?=.*\\b(?:no|nope|nah|not|don't)\\b)(?=.*\\b(?:stop|halt|wait|whoa|yet|pour)\\b)(?:${HALT} )+(?:${HALT}|pour(?: it)?)$`,
);
const HELD =
  '(?:(?:and |but )?(?:(?:i am |it is |_liquid\\d+ is )?(?:still|only) (?:holding|got|have|with|in)(?: (?:it|jug|my|hand|hands|bottle|_bottle\\d+|beaker|here|in))+|(?:i am )?(?:sticking|putting|checking|reading|measuring)\\b.*))';
/** What is said beside it and names nothing of the sink. */
const BESIDE_IT =
  '(?!(?:all|everything|whole|completely|fully|but|rest|enough|much)\\b)(?!.*(?:_liquid|_bottle|_volume|_num|_duration|\\btank\\b))(?:and |but )?(?:i (?:am |have )?|just |only |was )?(?:still |doing|moved|moving|wiping|looking|waiting|getting|changing|changed|fetching|on|standing|busy|because|as|since)\\b.*';
const HAS_NOT = "(?:have not|haven't|did not|didn't|never)";
const POUR_IT =
  '(?:pour|poured|put|tip|tipped|do|done|start|started|begin|begun)(?: (?:it|that|any|anything|any of it|one drop|drop|_liquid\\d+))?';
const NOT_POURED = new RegExp(
  `^(?!(?:i |we )?${HAS_NOT}$)(?:${HALT} )*(?:(?:i|we) )?${HAS_NOT}(?: even| actually| really)?(?: ${POUR_IT}(?: in)?(?: yet)?(?: (?<beside>${BESIDE_IT}))?)?(?: in| out| away| back)?(?: yet)?(?: at all)?(?: so)?(?: undo(?: that| it)?)?(?: ${HELD})?$`,
);
/** The pour did not happen, by the pour itself or by what is where. */
const NOTHING_POURED = new RegExp(
  `^(?:${HALT} |i |and |it )*(?:held off|holding off|not poured|nothing (?:is |was |has been |got )?(?:poured|gone in|went in|in)(?: yet)?|(?:it |_liquid\\d+ )?is (?:all )?still in (?:its |my )?(?:bottle|bottles|_bottle\\d+|jug))(?: (?:nothing (?:is |was |has been )?poured|yet|so|and|but))*(?: ${BESIDE_IT})?$`,
);
const NOT_IN = new RegExp(
  `^(?:${HALT} )+(?:(?:it|that|_liquid\\d+) (?:is not|isn't) in(?: (?:there|tank))?(?: yet)?|${HELD})$`,
);
/** "No wait, I haven't poured it yet", "no, stop", "no, it's still in the bottle": that it is in is taken back, as far as who said it is sure, or the pour called off. */
const notPouredYet: Reader = ({ line, situations }) => {
  const not = NOT_POURED.exec(line);
  const told = not !== null && not.groups?.beside === undefined;
  const beside = (not !== null && !told) || NOTHING_POURED.test(line);
  if (beside && situations.includes('immersed')) return undefined;
  if (!told && !beside && !HALTED.test(line) && !NOT_IN.test(line)) return undefined;
  if (situations.includes('immersed') && told) return made('undo', { denied: true });
  return situations.some((s) => s === 'immersed' || s === 'pouring' || s === 'draining')
    ? made('withdraw', { yet: true, no: true })
    : undefined;
};

/** "The developer has 41.1", "the bleach stands at 38". */
const hasDegrees: Reader = ({ line, liquid, tempC }) => {
  const m = match(
    line,
    new RegExp(
      `^(?<of>${BATH}) (?:has|got|gives|says|shows|(?:stands|sits|stays|comes in|comes out) at)(?: now| only| about)*(?: at)? (?<c>_num\\d+)(?: degrees)?$`,
    ),
  );
  const read = tempC(m?.c);
  return read === undefined ? undefined : made('temperature', { of: liquid(m?.of), tempC: read });
};

/** "Only 400 ml went in, the rest is still in the bottle": of the bath that is in. */
const onlySoMuch: Reader = ({ line, situations, volumeMl }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:so |well )*only ${ABOUT}(?<ml>_volume\\d+)(?: of (?:it|${BATH}))? (?:went|has gone|is|got|fitted|would go) in(?: tank)?(?: (?:and )?rest (?:of it )?(?:is|stayed|was)(?: still| left)* in (?:bottle|_bottle\\d+))?$`,
    ),
  );
  return m && situations.includes('immersed') ? made('correct', { volumeMl: volumeMl(m.ml) }) : undefined;
};

/** "Can I put it through the bleach": the guard answers. */
const through: Reader = ({ line, liquid }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:can|may|could|should|shall|must|do) (?:i|we) (?:still |then )?(?:(?:put|send|take|pass|pull) (?:film|roll)|(?:put|run|send|take|pass|pull) (?:it|that|this|them|this one)) (?:straight |right )?(?:through|in|into) (?<what>${BATH})(?: (?:like|as) .*| too| now| next| then| as well| anyway)*$`,
    ),
  );
  return m && made('pour-in', { liquid: liquid(m.what) });
};

/** "There's no film in the tank, it's still on the bench". */
const filmElsewhere: Reader = ({ line }) =>
  /\bthere (?:is|was) no film in (?:it|tank|there|here)\b.*\b(?:it|film|reel) is (?:still )?(?:on|in|over|_place\d+)\b.*$|^(?:i (?:have )?)?(?:left|forgot) (?:film|reel) (?:_place\d+|(?:on|in) (?!tank).*)$/.test(
    line,
  )
    ? made('no-film', {})
    : undefined;

const SHAKING =
  '(?:shak(?:e|en|ing)|shook|agitat(?:e|ed|ing|ion)|invert(?:ed|ing)|inversions?|turn(?:ed|ing)|rock(?:ed|ing)|swirl(?:ed|ing)|twirl(?:ed|ing))';
const TOO_MUCH =
  '(?:(?:for |almost |nearly |pretty much |bit |little |way |far |rather )*(?:whole time|all time|all along|entire time|non ?-?stop|constantly|continuously|without (?:stop|stopping|break|rest|pause)|too (?:much|often|hard|long|many)|twice (?:too much|as much|as often|as long)|like mad|like crazy|more than (?:i should|you said|needed|called)))';
/** "I've been shaking it the whole time", "gave it too much agitation": more than was called. */
const turnedMore: Reader = ({ line, situations }) =>
  !situations.includes('mixing') &&
  new RegExp(
    `^(?:i (?:am |have |had |was )?)?(?:been |only |kept |keep )*(?:${SHAKING} (?:(?:it|that|tank|film|_liquid\\d+) )?(?:so far )?${TOO_MUCH}|(?:gave|given|did|done|had) (?:it |_liquid\\d+ )?(?:${TOO_MUCH} (?:of )?${SHAKING}|${SHAKING} ${TOO_MUCH})|(?:never|did not|have not) stop(?:ped)? ${SHAKING}(?: it)?|(?:overdid|overdone|over did|over) (?:it with |on )?${SHAKING}(?: it)?)(?: (?:so far|until now|by mistake|too|already|now))*$`,
  ).test(line)
    ? made('ask-advice', { topic: 'over-agitation' })
    : undefined;

/** With words that tell elsewhere of others. */
export const HANDLED_OF_OTHERS: readonly Reader[] = [
  filmElsewhere,
  turnedMore,
  through,
  saidTooSoon,
  stillIn,
  notPouredYet,
  onlySoMuch,
];

export const HANDLED: readonly Reader[] = [
  nextIn,
  loaded,
  pouredIn,
  hasDegrees,
  wentBack,
  onlyLeft,
  standsElsewhere,
  leftIn,
  howFull,
  milky,
];
