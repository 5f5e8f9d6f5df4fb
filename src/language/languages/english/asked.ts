import type { Intent } from '../../../process/intent.js';
import { FILM_AT_STAKE } from '../../meaning/situations.js';
import { SALTS } from './lists.js';
import { BATH, bathInTank, bottleRef, made, madeOf, match, type Reader, shaped, words } from './sentence.js';

/**
 * What is asked of the day's record in short, with "it" for what was spoken of last: whether a bath may still be used and
 * for how many films, how the film will come out, and whether it had enough.
 */

const FILM = '(?:film|picture|pictures|roll|negatives?|negs?|photos|shots|whole thing|whole film)';
const IT = '(?:it|that|this|they|them)';
const TAIL =
  '(?: (?:still|then|now|anyway|at all|you think|do you think|again|for (?:it|film|this|one)|to use|enough|or not|or what|like (?:this|that)|after (?:that|this|all)|film))*';
/** Not one more film, which is a question of how many. */
const ON_THIS = String.raw`(?!.*\b(?:next|another|more|second|other|how|instead)\b)[a-z ]+`;
const GOOD =
  '(?:good|usable|fine|any good|any use|okay|ok|all right|alright|safe to use|fit to use|safe|useable|worth keeping|worth saving)';
const DEAD =
  '(?:ruined|wrecked|spoiled|spoilt|lost|gone|dead|knackered|toast|destroyed|done for|a goner|goner|buggered|cooked|past saving)';

/** "Is it still alright", "can I use it as it is": of what was spoken against last. */
const stillGood: Reader = ({ line, situations, bottle, liquid }) => {
  if (situations.includes('mixing')) return undefined;
  const what = `(?:${IT}|(?<what>_bottle\\d+))`;
  const m = match(
    line,
    new RegExp(
      `^(?:so |and )?(?:can|may|could|should|shall|do|will|dare) (?:i|we) (?:still |then |safely )*(?:use|trust|take|pour|keep|reuse)(?: with)? ${what}(?: as (?:it is|is|it stands))?(?: (?:for|on|with) ${ON_THIS})?${TAIL}$`,
    ),
    new RegExp(
      `^(?:so |and )?(?:can|may|could|should|shall|dare) (?:i|we) (?:still |then |safely )*(?:use|trust|take|pour) (?:that |this |old )*(?<bath>${BATH})(?: bath)? (?:for|on|with) ${ON_THIS}${TAIL}$`,
    ),
    // "okay" by itself is taken for a courtesy
    new RegExp(
      `^(?:is|are) (?:${what} (?:still |then )?${GOOD}|(?<b>_bottle\\d+)(?: still)?|(?<bath>${BATH})(?: still| then| now)* (?:okay|ok|all right|alright|usable|any good|spoiled|spoilt|ruined))${TAIL}$`,
    ),
    new RegExp(`^what (?:do|should|shall|can|must) (?:i|we) do (?:with|about) ${what}${TAIL}$`),
  );
  return (
    m && made('ask-advice', { topic: 'still-good', bottle: bottle(m.what ?? m.b), liquid: liquid(m.bath) })
  );
};

/** "Can I get one more through it", "how many are left in it". */
const oneMore: Reader = ({ line, number, situations }) => {
  if (situations.includes('mixing')) return undefined;
  const m = match(
    line,
    new RegExp(
      `^(?:can|could|will|would|may|should|do you think) (?:i|we|it) (?:still )?(?:get|run|put|do|take|squeeze|push|manage|develop)(?: out)? (?<n>_num\\d+|one|another)(?: more| last| further)?(?: (?:films?|rolls?))?(?<of> (?:out of|through|in|with|into|from) ${IT})?${TAIL}$`,
    ),
    new RegExp(
      `^is ${IT} (?:still )?good (?:enough )?for (?<n>_num\\d+|one|another)(?: more| last| further)?(?: (?:films?|rolls?))?${TAIL}$`,
    ),
    new RegExp(
      `^(?:how many|how much)(?: more)?(?: (?:films?|rolls?|life))? (?:are|is|have i got|do i have)(?: still)?(?: left)? (?:in|with) ${IT}(?: left)?${TAIL}$`,
    ),
  );
  if (!m) return undefined;
  const films = m.n === 'another' || m.n === 'one' ? 1 : number(m.n);
  // "can I do another" is of all the baths that a film goes through
  return made(/^\S+ (?:i|we) /.test(line) && !m.of ? 'ask-next-roll' : 'ask-life', { films });
};

/** "Is the film ruined", "will it come out alright", "what'll that do to it", "how bad is it". */
const outlook: Reader = ({ line, situations }) =>
  situations.some((s) => FILM_AT_STAKE.includes(s)) &&
  !situations.includes('mixing') &&
  [
    `^(?:so |and )?(?:is|are|was|has|have) (?:(?:${FILM}|${IT}) )+(?:now |then |all |completely |totally |been )*(?:${DEAD})(?: (?:${FILM}))?${TAIL}$`,
    `^(?:is|are|has) ${FILM}(?: now| then| still| going to be| all)*(?: ${GOOD}| saved| worth going on with)?${TAIL}$`,
    `^(?:have|did) (?:i|we) (?:ruin|ruined|wreck|wrecked|spoil|spoiled|spoilt|kill|killed|lose|lost|destroy|destroyed|mess up|messed up|muck up|damage|damaged) (?:${FILM}|${IT})${TAIL}$`,
    `^(?:will|would|is|does|do) (?:${FILM}|${IT}|there) (?:still |now |going to |be |all )*(?:come|turn|work|be|look|survive|anything) ?(?:out|on it|on film|left)?(?: be)?(?: ${GOOD})?(?: on (?:it|film))?${TAIL}$`,
    `^what (?:will|would|does|is|do|can|could)(?: (?:${IT}|${FILM}|all))*(?: going to)? (?:do|mean|cost)(?: me)?(?: (?:to|for) (?:${FILM}|${IT}))${TAIL}$`,
    `^what (?:will|would) (?:${FILM}|${IT}) (?:look like|be like|come out like)${TAIL}$`,
    `^is ${IT} (?:so |very |that )?(?:bad|serious|a problem|problem|disaster)${TAIL}$`,
    `^how (?:bad|serious|much harm) (?:is|was) ${IT}${TAIL}$`,
    `^how will (?:${FILM}|${IT}) (?:look|come out|turn out)${TAIL}$`,
    `^(?:can|could) (?:${FILM}|${IT}) (?:still |yet )?be saved${TAIL}$`,
    `^(?:can|could) (?:i|we|you) (?:still )?(?:save|rescue) (?:${FILM}|${IT})${TAIL}$`,
    `^how (?:is|will|does|would|did) (?:${IT}|${FILM})?(?: going to| be going to)? ?(?:show|matter|(?:affect|change|hurt|harm) (?:${FILM}|${IT}|anything))(?: up)?${ON_FILM}${TAIL}$`,
    `^(?:will|would|can|could) (?:you|i|we|one|anybody|anyone|they) (?:be able to )?(?:see|notice|tell|spot) (?:${IT}|anything)${ON_FILM}${TAIL}$`,
    `^(?:does|will|would|did|could|can) (?:${IT} )?(?:really |even |much )*(?:matter|show|(?:hurt|harm|damage|affect|spoil)(?: (?:${FILM}|it))?|do (?:any )?(?:harm|damage)|make (?:any )?difference)(?: much| anything| any more)*(?: up)?${ON_FILM}${TAIL}$`,
    `^${IT} (?:does not|doesn't|will not|won't|did not|didn't) (?:really )?(?:matter|hurt|show)(?: (?:much|any more|now|then|${FILM}))* (?:does|will|did) (?:${IT}|it)$`,
    `^(?:(?:is|has|was|did) (?:there )?)?anything (?:gone |been |go )?(?:wrong|off|amiss|not right)${ON_FILM}(?: so far| up to now| yet)?${TAIL}$`,
    `^(?:was|is) (?:${FILM}|${IT})(?: then| now| all)* (?:fogged|exposed|lit)${TAIL}$`,
    `^was ${IT} (?:${GOOD}|right|correct)(?: so| then| like that)?${TAIL}$`,
  ].some((p) => new RegExp(p).test(line))
    ? made('ask-film', { about: 'outlook' })
    : undefined;
const ON_FILM = `(?: (?:in|on|to|with|for) (?:${FILM}|end|print|scan))?`;

/** "Was that long enough", "how long was it in", "did it get enough developer". */
const longEnough: Reader = ({ line, liquid }) => {
  const long = match(
    line,
    /^how long (?:was|were|did) (?<what>_liquid\d+)(?: (?:stay|spend))? in(?: for)?(?: in all| altogether| in end)?$/,
  );
  if (long) return made('ask-actual', { liquid: liquid(long.what) });
  const m = match(
    line,
    new RegExp(
      `^(?:was|is) (?<what>${IT}|_liquid\\d+) (?:in )?(?:(?:for )?(?:long|short) ?(?:enough)?|too (?:long|short)|enough|in long enough|enough time)${TAIL}$`,
    ),
    new RegExp(
      `^(?:did|has) (?:${IT}|${FILM}) (?:have|had|get|got|been) (?:(?:long )?enough|too (?:much|little))(?: (?:time|of))*(?: (?:in )?(?<what>_liquid\\d+))?${TAIL}$`,
    ),
    new RegExp(
      `^how long (?:was|were|did) (?<what>${IT}|_liquid\\d+)(?: (?:stay|spend))? in(?: for)?(?: in all| altogether| in end)?$`,
    ),
  );
  if (m) return made('ask-film', { about: 'time', liquid: liquid(m.what) });
  const done = match(
    line,
    new RegExp(
      `^(?:did|have) (?:i|we) (?:(?<what>_liquid\\d+)|(?<did>\\w+)) (?:(?:${IT}|${FILM}) )?(?:for )?(?:long )?enough${TAIL}$`,
    ),
  );
  const by = Object.keys(DONE_BY).find((past) => done?.did && past.startsWith(done.did));
  if (!done || (done.did && !by)) return undefined;
  return made('ask-film', { about: 'time', liquid: by ? DONE_BY[by] : liquid(done.what) });
};

/** "And the tub", after a question: the same of that. */
const andThat: Reader = ({ line, plain, liquid, bottle }) => {
  if (!/^(?:so )?(?:and|what about|how about)\b/.test(plain)) return undefined;
  const m = match(
    line,
    /^(?:what about |how about )?(?:in |for )?(?<what>_liquid\d+|_bottle\d+|tub)(?: (?:then|what did i say(?: for (?:it|that))?))*$/,
  );
  if (!m) return undefined;
  const vessel = m.what === 'tub' ? { kind: 'tub' } : bottleRef(bottle(m.what));
  return made('part', { liquid: liquid(m.what), vessel });
};

const DONE_BY: Readonly<Record<string, string>> = {
  bleached: 'bleach',
  fixed: 'fixer',
  developed: 'developer',
  stopped: 'stop',
  washed: 'water',
  rinsed: 'water',
};

/** "Did I do the bleach or not", "have I fixed it yet": what the film has had. */
const hadIt: Reader = ({ line, liquid, situations }) => {
  if (!situations.some((s) => FILM_AT_STAKE.includes(s)) || situations.includes('mixing')) return undefined;
  const it = `(?: (?:${IT}|${FILM}))?`;
  const when = '(?: (?:already|yet|or not|or did (?:i|we) not|before|step|bath|in|at all|then))*';
  const m = match(
    line,
    new RegExp(
      `^(?:have|did|has|had) (?:(?:i|we|it|film) )?(?:do|done|give|given|have|had|get|got|pour|poured|put|use|used|been through|gone through|been in)${it}(?: through| in)? (?<what>_liquid\\d+)${when}$`,
    ),
    new RegExp(`^(?:have|has|did) (?:i|we) (?<verb>${Object.keys(DONE_BY).join('|')})${it}${when}$`),
  );
  return m && made('ask-film', { liquid: liquid(m.what) ?? DONE_BY[m.verb ?? ''] });
};

/** "Is there film in the tank right now" */
const isLoaded: Reader = ({ line }) =>
  /^(?:and |so |wait )*(?:(?:is|was) there (?:any )?(?:film|reel|roll)|(?:is|was|have i got|did i (?:put|load|get)) (?:film|reel|roll)(?= (?:loaded|in|inside)\b))(?: (?:loaded|in|inside|there|tank|right|still|then|at all|or not|yet))*$/.test(
    line,
  )
    ? made('ask-film', {})
    : undefined;

/** "What did I just say", "what was that again": the last answer has it. */
const saidLast: Reader = ({ line }) =>
  /^what (?:did (?:i|you) (?:last )?(?:say|tell (?:you|me))|was (?:that|it)|was last thing (?:that )?(?:i|you) (?:said|told (?:you|me)))(?: (?:again|last|before))*$/.test(
    line,
  )
    ? made('say-again', {})
    : undefined;

/** "Does it matter", "can I leave it at that", of a weight that was just judged: the judgement again. */
const asWeighed: Reader = ({ line, situations }) =>
  situations.includes('mixing') &&
  (new RegExp(
    `^(?:can|may|could|shall|should|do) (?:i|we) leave ${IT}(?: (?:like (?:that|this)|as it is|so|at that|be))*$`,
  ).test(line) ||
    new RegExp(`^(?:does|will|would) (?:${IT} )?(?:really |even )?matter(?: much)?$`).test(line) ||
    new RegExp(`^(?:is|was) ${IT} (?:(?:way |far |a bit )?too (?:much|little)|right|fine|all right)$`).test(
      line,
    ) ||
    NEAR_ENOUGH.test(line))
    ? made('say-again', {})
    : undefined;
const NEAR_ENOUGH = new RegExp(`^is ${IT} (?:(?:near|close|good|warm) enough|close|near)(?: like that)?$`);

/** "Can I use tap water instead", "would vinegar do for the stop": what is no powder in the place of another. */
const inPlace: Reader = ({ line, plain, situations }) => {
  if (!/^(?:can|could|may|might|should|would|will|is|does|shall|what about|how about)\b/.test(plain))
    return undefined;
  if (!/\b(?:instead|in place of|rather than|substitute|do (?:for|as)|as (?:the |a )?stop)\b/.test(plain))
    return undefined;
  const topic =
    /\b(?:tap|mineral|bottled|boiled|rain|filtered|spring|distilled|deionised|deionized) water\b/.test(plain)
      ? 'tap-water'
      : /\bvinegar\b/.test(plain) && (/_liquid/.test(line) || !situations.includes('mixing'))
        ? 'vinegar-stop'
        : /\b(?:chlorine|household|kitchen|toilet|domestic|laundry)[- ]bleach\b/.test(plain)
          ? 'clean-with-chlorine'
          : undefined;
  return topic && made('ask-advice', { topic });
};

/** "Is 41.3 too hot", "would 38 be all right for the bleach". */
const rightAt: Reader = ({ line, situations, liquid, tempC }) => {
  const how =
    '(?:too (?:hot|warm|cold|cool|high|low)|ok|okay|all right|alright|fine|good|good enough|warm enough|right|acceptable|in (?:range|tolerance))';
  const m = match(
    line,
    new RegExp(
      `^(?:is|would|will|are) (?:(?<a>${BATH}) (?:${how} )?at )?(?<c>_num\\d+)(?: degrees)?(?: be)?(?: bit| much| still| far| way)*(?: ${how})?(?: for (?<b>${BATH}))?(?: ${how})?(?: then| now)*$`,
    ),
  );
  const read = situations.includes('mixing') ? undefined : tempC(m?.c);
  return read === undefined ? undefined : made('ask-target', { liquid: liquid(m?.a ?? m?.b), tempC: read });
};

const OF_DRAINING = words(
  'is it time to do should shall can could may must am are when i we have supposed due already yet now then about soon still',
  'drain draining drained empty emptying pour pouring tip tipping take tank bath out',
);
/** "Is it time to drain", "shall I pour it out yet": how long there still is. */
export const drainYet: Reader = ({ line, situations }) =>
  bathInTank(situations) &&
  /^(?:is|do|should|shall|can|could|may|must|am|are|when)\b/.test(line) &&
  /\bdrain|\b(?:i|we|to) (?:empty|(?:pour|tip|take)\b.* out)/.test(line) &&
  madeOf(line, OF_DRAINING, BATHS)
    ? made('ask-time-left', {})
    : undefined;
const BATHS = /^_liquid\d+$/;

const OF_A_TRUE_READING = words(
  'what is it that so then value true real corrected correct actual with correction actually temperature reading in truth does make come to would be and how warm hot of',
);
/** "What is it really", "so what does that make it": what was read last, as it is. */
const readTrue: Reader = ({ line, plain, liquid, situations }) =>
  !situations.includes('mixing') &&
  /^(?:so |and )*(?:what|how (?:warm|hot))\b/.test(line) &&
  /\b(?:really|actually|actual|truth|true|real|corrected|correction)\b|\bmake (?:it|that)$/.test(plain) &&
  madeOf(line, OF_A_TRUE_READING, BATHS)
    ? made('ask-temperature', { of: liquid(line.split(' ').find((t) => BATHS.test(t))) })
    : undefined;

/** "Is the developer too hot". */
const tooWarm: Reader = ({ line, liquid }) => {
  const m = match(line, new RegExp(`^is (?<a>${BATH}) too (?:hot|warm|cold|cool)(?: now| still| yet)*$`));
  return m && made('ask-temperature', { of: liquid(m.a) });
};

/** "Lights on?": whether they may be. */
const lightsOn: Reader = ({ line, situations }) =>
  situations.some((s) => FILM_AT_STAKE.includes(s)) &&
  /^(?:(?:can|may|shall) i (?:have |turn |switch |put )?)?(?:room )?(?:lights?|lamps?)(?: back)? on(?: now| yet| again)*$/.test(
    line,
  )
    ? made('ask-advice', { topic: 'light-on' })
    : undefined;

/** Also where the line ends with a question mark. */
const BITS = '(?:sludge|deposits?|flakes?|bits|sediment|precipitate|scum|crystals|clumps|stuff|powder)';
const MILKY = new RegExp(
  `\\b(?:cloudy|milky|murky|sulfured|sulphured)\\b|\\b(?:white|yellow|yellowish|pale|creamy)\\b.*\\b${BITS}\\b|\\b${BITS}\\b.*\\b(?:white|yellow|yellowish|pale|creamy)\\b`,
);
const BLUE =
  /\b(?:turned|turning|gone|going|went|is|looks?|it's|bleach|all|bit) (?:dark |light |deep |kind of |sort of )*(?:blue|green|bluish|greenish)\b/;
/** Not as it is now, or not of the bath. */
const OTHERWISE = /\b(?:if|would|could|might|never|not|film|negatives?|bottle|jug|gloves?)\b|n't\b/;

/** "My fixer is cloudy", "white sludge in the fixer", "the bleach turned blue", told or asked about: that bath has gone off. */
const goneOff: Reader = ({ line, plain, liquid }) => {
  const [bath, ...others] = line.match(/_liquid\d+/g) ?? [];
  if (bath === undefined || others.length > 0 || OTHERWISE.test(plain)) return undefined;
  const of = liquid(bath);
  if (of === 'fixer' && MILKY.test(plain)) return made('ask-advice', { topic: 'fixer-milky' });
  return of === 'bleach' && BLUE.test(plain) ? made('ask-advice', { topic: 'bleach-blue' }) : undefined;
};

/** "The probe fell into the tub" */
const thermometerWet: Reader = ({ plain }) =>
  /\b(?:thermometer|probe)(?: has| just)? (?:fell|fallen|dropped|slipped|slid|went|gone|landed|sank|is lying|is)(?: right| all the way| down)? (?:in|into|to the bottom of) (?:the |my )?(?:tub|water|water bath|bath|sink|bucket)\b|\bdropped (?:the |my )?(?:thermometer|probe) (?:in|into) (?:the |my )?(?:tub|water|water bath|sink|bucket)\b/.test(
    plain,
  )
    ? made('ask-advice', { topic: 'thermometer-wet' })
    : undefined;

/** A thermometer in pieces, and what ran out of one; whether it was mercury is asked once. */
const MERCURY = /\b(?:mercury|quicksilver)\b(?! (?:lamp|vapou?r lamp|battery|switch))/;
const NO_MERCURY =
  /\b(?:no|not|never|without|isn't|wasn't) (?:\w+ ){0,2}(?:mercury|quicksilver)\b|\bmercury[ -]free\b/;
const IN_PIECES =
  /\b(?:thermometer|probe)\b.*\b(?:broke|broken|smashed|shattered|snapped|cracked|burst|in (?:two|pieces|bits|shards))\b|\b(?:broke|broken|smashed|shattered|snapped|cracked|dropped) (?:the |my |a |our )?(?:\w+ )?thermometer\b/;
const thermometerBroke: Reader = ({ line, plain, liquid, bottle }) => {
  if (MERCURY.test(plain))
    return made('ask-advice', { topic: NO_MERCURY.test(plain) ? 'no-mercury' : 'mercury' });
  if (!IN_PIECES.test(plain) || /\b(?:reads?|says?|shows?|if|fell)\b|(?<!\bin )_(?:num|degrees)/.test(line))
    return undefined;
  const broke = made('ask-advice', { topic: 'thermometer-broken' });
  const into = /\b(?:in|into|inside) (_(?:bottle|liquid)\d+)/.exec(line)?.[1];
  const met = { intoBottle: bottle(into), intoLiquid: liquid(into) };
  const glass = (met.intoBottle ?? met.intoLiquid) !== undefined && met.intoLiquid !== 'water';
  const got = glass && made('contaminated', { liquid: 'thermometer-glass', ...met });
  return broke && got ? { type: 'several', intents: [broke, got] } : broke;
};

const A_SALT = new RegExp(`_substance\\d+|\\b${SALTS}\\b`, 'g');
const A_SALT_ALONE = new RegExp(`^(?:_substance\\d+|${SALTS})$`);
const HYDRATE = /\b(?:anhydrous|(?:mono|penta|hepta|deca)hydrate)\b/;
const OF_A_FORM = words(
  'can could may would will i we use have got only it ok okay fine instead of in place for as do my if how much many grams crystals powder form one need anhydrous monohydrate pentahydrate heptahydrate decahydrate',
);
/** "Can I use washing soda instead of the carbonate", "how much of the decahydrate": it may be another form of the same salt. */
const otherForm: Reader = ({ line, plain, substance }) => {
  const [what, of, ...others] = line.match(A_SALT) ?? [];
  const asks = /^(?:can|could|may|would|will|how much|how many|if)\b|\bonly\b/;
  if (others.length > 0 || !asks.test(line) || !madeOf(line, OF_A_FORM, A_SALT_ALONE)) return undefined;
  if (what === undefined) return made('ask-amount', { substance: HYDRATE.exec(line)?.[0] });
  // alone it must be called what has other forms: nobody asks for vinegar by its crystals
  const isForm = of !== undefined || /\b(?:soda|crystals)\b|hydrate/.test(plain);
  return isForm && /\b(?:use|only)\b/.test(line)
    ? made('ask-advice', {
        topic: 'instead',
        liquid: substance(what) ?? what,
        substance: substance(of) ?? of,
      })
    : undefined;
};

/** "How much did I spill", of what is on record. */
const howMuchSpilled = shaped(
  /^(?:so |and |but )*how (?:much|big|many \w+)(?: of)?(?: it| (?<what>_liquid\d+))? (?:(?:did|have|had) (?:i|we) (?:spill|spilled|spilt|lose|lost)|(?:was|is|got) (?:spilled|spilt|lost|spill))(?: in all| so far| of (?<of>_liquid\d+)| on \S+)*$/,
  (m, { liquid }) => made('ask-advice', { topic: 'how-much-spilled', liquid: liquid(m.what ?? m.of) }),
);

/** "The timer on my phone says three minutes are over": what mine says. */
const otherTimer: Reader = ({ plain, situations }) =>
  bathInTank(situations) &&
  /\b(?:timer|stopwatch|alarm clock)\b.* (?:over|up|done|gone|elapsed|passed|past|finished|rang|rings|ringing|beep\w*|went off)\b|\b(?:phone|watch|clock)\b.* says\b.* (?:over|up|gone|passed|past)\b/.test(
    plain,
  ) &&
  !/\b(?:not|n't|if|when|your)\b/.test(plain)
    ? made('ask-time-left', {})
    : undefined;

/** "Black film no images", once it is out of the developer. */
const blackFilm: Reader = ({ plain, situations }) =>
  !bathInTank(situations) &&
  /^(?!.*\b(?:not|n't|if|leader|backing|and white|b and w)\b).*(?:\bblack (?:film|negatives?|strip|roll)\b|\b(?:film|negatives?|negs|strip|roll)\b(?: \w+){0,4} (?:all|totally|completely|pitch|jet|just|solid|entirely|is|are|turned|came out) black\b)/.test(
    plain,
  )
    ? made('ask-advice', { topic: 'black-film' })
    : undefined;

/** "What've I missed", "did I skip anything": what the film has had and lacks, and what is open. */
const missed: Reader = ({ line, situations }) => {
  const asks =
    /^(?:so |and |okay )*(?:(?:what|anything)(?: else)?(?: did| have| has)?(?: i| we)(?: have)?(?: just)? (?:miss|missed|forget|forgot|forgotten|skip|skipped|left out|leave out|overlook|overlooked|not done)|(?:did|have) (?:i|we) (?:miss|missed|forget|forgot|forgotten|skip|skipped|left out|leave out|overlook|overlooked) (?:any|a|one|some)?(?:thing|step|bath|rinse)?s?)(?: out)?(?: so far| yet| now)*$/.test(
      line,
    );
  if (!asks) return undefined;
  return situations.includes('mixing') && !situations.some((s) => FILM_AT_STAKE.includes(s))
    ? made('mix-where', {})
    : { type: 'several', intents: [{ type: 'ask-film' }, { type: 'ask-where' }] };
};

/** "So what do I use", where a bottle was refused: the one to pour, or that there is none. */
const whatToUse: Reader = ({ line, situations }) =>
  situations.includes('pouring') &&
  /^(?:so |and |then |but )*(?:what|which (?:bottle|one))(?: else)? (?:do|should|shall|can|must) (?:i|we) (?:use|take)(?: instead| then| now)*$/.test(
    line,
  )
    ? made('ask-where', {})
    : undefined;

/** "How late am I", "carry on with the mix", "read me all the temperatures": of the clock, of the mix, of all that warms. */
const SHORT_QUESTIONS: readonly (readonly [RegExp, Intent['type']])[] = [
  [
    /^(?:so |and )*(?:how (?:late|far behind|far over|much over|overdue) (?:am i|are we|is it|is that|is _liquid\d+|was i)|(?:am i|are we|is it) (?:too )?(?:late|overdue|behind|over time|running late))(?: (?:with|for|on|in|now|already|by now|then|it|this|that|_liquid\d+|bath))*$/,
    'ask-time-left',
  ],
  [
    /^(?:so |and )*(?:(?:i am|i'm|we are|we're|it is|that is) (?:(?:too|running|bit|very|way) )*(?:late|overdue|behind)(?: (?:aren't|isn't|ain't|am|are|is|not|right|i|we|it|that|huh|yes))+|(?:did|have) (?:i|we) (?:just )?miss(?:ed)? (?:drain|it|call|my moment))$/,
    'ask-time-left',
  ],
  [
    /^(?:(?:okay|so|now|and|let us|let me|i|we|can|could|shall|will|should|want to|i'll) )*(?:carry on|go on|get on|go back|get back|continue|resume|keep going|back) ?(?:with|to|at)? (?:my |our |this )?(?:mix|mixing|weighing|mixture|batch|powders?|recipe)(?: (?:now|then|again|please))*$/,
    'mix-where',
  ],
  [
    /^(?:(?:can|could|will|would|you|please|just) )*(?:(?:read|tell|give|show|say|list) (?:(?:me|out|off|us|back) )*|what (?:are|is) )(?:all |every |each |current |latest )*(?:of )?(?:temperatures?|temps)(?: (?:of|for) (?:all |every |each )?(?:of )?(?:baths?|bottles?|them|everything))?(?: (?:again|now|please|right|at moment|are|so far))*$/,
    'ask-ready',
  ],
];
const inShort: Reader = ({ line }) => {
  const type = SHORT_QUESTIONS.find(([asks]) => asks.test(line))?.[1];
  return type && made(type, {});
};

export const ASKED: readonly Reader[] = [
  inShort,
  missed,
  whatToUse,
  thermometerBroke,
  howMuchSpilled,
  otherForm,
  otherTimer,
  blackFilm,
  thermometerWet,
  goneOff,
  rightAt,
  tooWarm,
  readTrue,
  lightsOn,
  inPlace,
  hadIt,
  isLoaded,
  saidLast,
  asWeighed,
  stillGood,
  oneMore,
  outlook,
  longEnough,
  andThat,
];
