import { SINK } from './lists.js';
import {
  bathInTank,
  bottleRef,
  EXCLAIMED,
  made,
  madeOf,
  type Reader,
  type Sentence,
  words,
} from './sentence.js';

/**
 * What went otherwise than was said or meant, with its words in any order: the wrong bottle, down the sink, no film in the
 * tank, no pour at all, a probe in another bottle. A sentence with any other word in it is none of these.
 */

const OF_A_SENTENCE =
  'it that this these is was has had have been be i we am a of one my me the to which by mistake accident habit force stupid stupidly idiot';
const POURED = 'poured put tipped dumped emptied chucked sloshed went gone got came used took grabbed picked';
const INTO = 'in into there here tank from out up';
const NOT_BUT = 'not instead rather than and';

const OF_WRONG_BOTTLE = words(EXCLAIMED, OF_A_SENTENCE, POURED, INTO, NOT_BUT, 'wrong bottle jug number');
const RATHER_THAN = / (?:instead of|rather than|and not|not) /;
const DENIES_IT = /\b(?:not|instead of|rather than|and not) $/;

/** The one bottle that is said to be it, of those that are named. */
function meantBottle({ line, bottle }: Sentence): number | undefined {
  const named = [...line.matchAll(/_(?:bottle|num)\d+/g)];
  const meant = named.filter((m) => !DENIES_IT.test(line.slice(0, m.index)));
  const [only, ...more] = meant.map((m) => bottle(m[0]));
  return more.length === 0 ? only : undefined;
}

/** What else it may be is a second bath on top of the first. */
const IT_WAS = /\b(?:it|that) (?:is|was) (?:bottle )?(?:number )?_(?:bottle|num)|\bcame\b.* (?:from|of)\b/;

/** "Wrong jug, it's bottle 3 I tipped in there, not 2", with a bath in the tank. */
const wrongBottleIn: Reader = (said) => {
  const { line, situations } = said;
  if (!situations.includes('immersed') || !madeOf(line, OF_WRONG_BOTTLE, /^_(?:bottle|num)\d+$/))
    return undefined;
  const number = meantBottle(said);
  const poured = POURED.split(' ').some((w) => line.split(' ').includes(w));
  const contrary = /\b(?:wrong|not|instead|rather)\b/.test(line);
  return number !== undefined && poured && (contrary || IT_WAS.test(line))
    ? made('correct', { vessel: bottleRef(number) })
    : undefined;
};

const OF_WRONG_BATH = words(EXCLAIMED, OF_A_SENTENCE, POURED, INTO, NOT_BUT, 'wrong just think');
const INTO_TANK = /\b(?:poured|put|tipped|sloshed|went|gone|got)\b.*\b(?:in|into|tank)\b/;
/** "I poured the fixer in instead of the developer", where a bath is due: it is in. */
const wrongBathIn: Reader = ({ line, situations, liquid }) => {
  if (!situations.includes('pouring') || bathInTank(situations)) return undefined;
  const [told = '', denied] = line.split(RATHER_THAN);
  if (denied === undefined || !INTO_TANK.test(told) || !madeOf(line, OF_WRONG_BATH, /^_liquid\d+$/))
    return undefined;
  const [first, ...more] = told.match(/_liquid\d+/g) ?? [];
  return first !== undefined && more.length === 0 && !/\bnot\b/.test(told)
    ? made('bath-in', { liquid: liquid(first) })
    : undefined;
};

const INTO_SINK = new RegExp(`\\b(?:down|into|in) (?:${SINK}|_place\\d+)\\b`);
const OF_THE_SINK = words(
  EXCLAIMED,
  OF_A_SENTENCE,
  POURED,
  NOT_BUT,
  'let run ran straight down into in back bottle tank all drained its own from out',
);
const A_PLACE = new RegExp(`^(?:${SINK}|_(?:liquid|bottle|place)\\d+)$`);
/** "I let the developer run down the sink instead of back in the bottle", with that bath in the tank or leaving it. */
const downTheSink: Reader = ({ line, situations, liquid }) => {
  if (!bathInTank(situations) || !madeOf(line, OF_THE_SINK, A_PLACE)) return undefined;
  const [away = line] = line.split(RATHER_THAN);
  const gone = /\b(?:let|ran|poured|put|tipped|dumped|emptied|chucked|drained|went|gone)\b/.test(away);
  if (!gone || !INTO_SINK.test(away) || /\b(?:not|_bottle\d+)\b/.test(away)) return undefined;
  return made('poured', { liquid: liquid(/_liquid\d+/.exec(away)?.[0]), to: { kind: 'sink' } });
};

const FILM = '(?:film|reel|roll|spiral|spool)';
const ELSEWHERE =
  '(?:dark bag|changing bag|bag|can|cassette|cartridge|bench|table|box|drawer|fridge|counter|shelf|_place\\d+)';
const STILL_ELSEWHERE = new RegExp(
  `\\b(?:(?:reel|spiral|spool) is(?: still)?|${FILM} is still) (?:lying |sitting |all |there )*(?:in|on|inside) (?:it is )?${ELSEWHERE}\\b`,
);
const EMPTY_TANK =
  /\b(?:closed|shut|sealed|capped|been filling|filled) (?:up )?(?:an )?empty tank\b|\b(?:no film|no reel) (?:is |was )?(?:in|inside) tank\b/;
/** "The reel's still in the bag, I closed an empty tank", of a film that was called loaded. */
const noFilmIn: Reader = ({ line, situations }) =>
  situations.includes('pouring') &&
  !situations.includes('loading') &&
  !/\b(?:if|not|(?<!\bin (?:it is )?)can|could|may|should|would|how|what|other|second|next|another|spare)\b/.test(
    line,
  ) &&
  (STILL_ELSEWHERE.test(line) || EMPTY_TANK.test(line))
    ? made('no-film', {})
    : undefined;

const PROBE = '(?:probe|thermometer|sensor)';
const READ_ELSEWHERE = [
  new RegExp(
    `\\b${PROBE} (?:is|was|has|had|has been|had been|been)(?: been)? (?:\\w+ )?(?:in|inside|on) (?:_bottle\\d+|wrong (?:bottle|jug|one|bath)|tub|air|_liquid\\d+|jug|glass|bench|counter)\\b.*\\b(?:not|never|all along|whole|all this|instead|wrong)\\b`,
  ),
  new RegExp(
    `\\b${PROBE} (?:is|was|has been|has) (?:\\w+ )?(?:in|on) (?:the )?wrong (?:bottle|jug|one|bath)\\b`,
  ),
  /\b(?:_num\d+|that|reading|it) (?:was|is) never (?:of )?_liquid\d+\b/,
];
/** "The probe's been in bottle 1 this whole time, so that 41.1 was never the developer": what was read counts for nothing until it is read anew. */
const probeElsewhere: Reader = ({ line, situations }) =>
  !situations.includes('mixing') && READ_ELSEWHERE.some((p) => p.test(line))
    ? made('ask-advice', { topic: 'thermometer-elsewhere' })
    : undefined;

const CONVEYS = '(?:funnel|filter|hose|beaker|cylinder|measure|graduate|jug)';
/** "The funnel I poured that back through still had bleach in it, 10 ml or so": into what was poured back last. */
const throughAFunnel: Reader = ({ line, situations, liquid, volumeMl }) => {
  if (situations.includes('mixing') || /\b(?:if|clean|rinsed|never|not|no)\b/.test(line)) return undefined;
  const [bath, ...others] = line.match(/_liquid\d+/g) ?? [];
  const wet = new RegExp(
    `\\b${CONVEYS}\\b.* (?:had|has|was|is)(?: still| some| bit| of| drops?| dregs| little| rest| remains| wet| with| full| about| _volume\\d+)* _liquid\\d+`,
  );
  const through = /\b(?:through|back|poured|returned|used|ran|tipped)\b/;
  if (bath === undefined || others.length > 0 || liquid(bath) === 'water') return undefined;
  return wet.test(line) && through.test(line)
    ? made('contaminated', {
        liquid: liquid(bath),
        back: true,
        volumeMl: volumeMl(/_volume\d+/.exec(line)?.[0]),
      })
    : undefined;
};

const PARTS_OF = '(?:powders?|chemicals|parts|packets?|sachets?|kit|_substance\\d+)';
const NOT_PUT_IN =
  /\b(?:never|not|forgot|forgotten|left out|without|skipped|missed|unopened|still in (?:bag|jar|tin|packet|box))\b/;
const WRONG_MUCH =
  /\b(?:twice|double|triple|half|ten times|three times|too much|too little|way more|far more|wrong (?:amount|weight|volume)|not enough|instead of|rather than|by mistake)\b/;
/** "I never put the CD-3 in the developer", "the powders for 600 ml went into a litre": of a bath that stands mixed. */
const mixedWrong: Reader = ({ line, situations, liquid }) => {
  if (situations.includes('mixing') || /\b(?:if|should|can|could|may|what|when|how|maybe)\b/.test(line))
    return undefined;
  const of = [...line.matchAll(/_liquid\d+/g)].map(([t]) => liquid(t)).find((l) => l && l !== 'water');
  const forgot = NOT_PUT_IN.test(line) && /_substance/.test(line) && /\b(?:in|into|with|out|to)\b/.test(line);
  const volumes = new Set(line.match(/_(?:volume|num)\d+/g) ?? []).size;
  const thin =
    new RegExp(`\\b${PARTS_OF} (?:for|of) .*_volume\\d+.* (?:in|into|with|to) .*_volume`).test(line) &&
    volumes > 1;
  const wrong =
    WRONG_MUCH.test(line) &&
    /\b(?:_substance\d+|powders?|chemicals|water|_liquid\d+)\b/.test(line) &&
    /\b(?:mixed|made(?: up)?|dissolved|weighed)\b/.test(line);
  return of !== undefined && (forgot || thin || wrong)
    ? made('ask-advice', { topic: 'mixed-wrong', liquid: of })
    : undefined;
};

const OF_GOOD = words(
  EXCLAIMED,
  OF_A_SENTENCE,
  'fine ok okay good right alright correct correctly properly proper well all after checked check again looked weighed mixed made put batch bath mix powder powders part bottle jar thing amount weight out turned turns nothing wrong with about after false alarm',
);
/** "That batch is fine after all", "I checked it, it was the right powder": takes back that a bath was mixed wrong, or has gone off. */
const goodAfterAll: Reader = ({ line, liquid, bottle }) => {
  const isGood =
    /\b(?:fine|ok|okay|good|right|alright|correct(?:ly)?|proper(?:ly)?|nothing wrong|false alarm)\b/;
  const known =
    /\bafter all\b|\bcheck(?:ed)?\b|\b(?:right|correct) (?:powders?|part|jar|thing|amount|weight)\b|\b(?:mixed|made|weighed)\b.*(?:right|correct|proper|ok|fine)/;
  if (!isGood.test(line) || !known.test(line) || !madeOf(line, OF_GOOD, /^_(?:liquid|bottle|substance)\d+$/))
    return undefined;
  return made('ask-advice', {
    topic: 'good-after-all',
    liquid: liquid(/_liquid\d+/.exec(line)?.[0]),
    bottle: bottle(/_bottle\d+/.exec(line)?.[0]),
  });
};

/** "It is the developer I poured in", with another bath on record in the tank. */
const pouredThat: Reader = ({ line, situations, liquid }) => {
  const m =
    /\b(?:it|that|this) (?:is|was) (_liquid\d+) (?:that |which )?i (?:have )?(?:just )?(?:poured|put|tipped)(?: in)?(?: there| tank)?(?:$| (?:not|instead|and)\b)/.exec(
      line,
    ) ??
    /\b(?:so|yes|definitely|must be)\b.* ?(?:it|that|this) (?:is|was) (_liquid\d+) in (?:there|tank)$/.exec(
      line,
    );
  return m && situations.includes('immersed') && !/\b(?:if|maybe|think|might|may|could|not sure)\b/.test(line)
    ? made('correct', { liquid: liquid(m[1]) })
    : undefined;
};

/** "Pouring the developer from the jug back into bottle two". */
const outOfJug: Reader = ({ line, liquid, bottle }) => {
  const m =
    /^(?:(?:i am|now|just) )*(?:pouring|putting|tipping|returning) (?<what>_liquid\d+|it) (?:from|out of) jug (?:back )?(?:in|into|to) (?<b>_(?:bottle|num)\d+)(?: now| again)*$/.exec(
      line,
    )?.groups;
  const to = bottleRef(bottle(m?.b));
  return m && to ? made('pour-between', { liquid: liquid(m.what), from: { kind: 'jug' }, to }) : undefined;
};

/** "That came out black as coffee", of the water that is to take the backing off. */
const blackRinse: Reader = ({ line, plain, due }) =>
  due.some((d) => 'liquid' in d && (d.liquid === 'water' || d.liquid === 'developer')) &&
  !/_liquid/.test(line.replace(/^(?:the )?_liquid\d+/, '')) &&
  /^(?:and |so |wow |oh |okay )*(?:that|it|this|the water|water|the rinse|rinse|that one|what came out)(?: has| is| was|'s| all| still| really| pretty| came| comes| ran| runs| poured| went| looks| looked| out| very| quite)* (?:jet |pitch )?(?:black|inky|sooty|like (?:coffee|ink|tar))\b/.test(
    plain,
  )
    ? made('ask-advice', { topic: 'backing-left' })
    : undefined;

const DRINK = '(?:cup of |mug of |glass of |can of )?(?:coffee|tea|beer|juice|lemonade|cola|wine|soup|cocoa)';
const DRINK_OVER = new RegExp(
  `^(?:oh no |oops |damn |i (?:have )?(?:just )?)*(?:knocked|spilled|spilt|tipped|kicked|dropped)(?: over)? (?:my|the|a|some|his|her) ${DRINK}(?: over)?\\b(?!.*\\b(?:in|into|on|onto|near|over|in(?:side)?)\\b (?!(?:the )?(?:floor|carpet|table|counter|chemicals|chemistry|bottles|baths|rug)\\b))`,
);
/** "Knocked my coffee over, it's nowhere near the chemicals": nothing of the sink. */
const drinkSpilled: Reader = ({ plain }) =>
  DRINK_OVER.test(plain) && !/\b(?:(?<!nowhere |not |away )near|powder|film|plug|socket)\b/.test(plain)
    ? made('busy', {})
    : undefined;

/** "Loading it now": not loaded yet. */
const stillLoading: Reader = ({ line, situations }) =>
  situations.includes('loading') &&
  /^(?:i am |i'm |we are |still |just |busy )*loading(?: (?:it|film|roll|reel))?(?: (?:now|still|up|at moment))*$/.test(
    line,
  )
    ? made('busy', {})
    : undefined;

export const MISHAPS: readonly Reader[] = [
  wrongBottleIn,
  wrongBathIn,
  downTheSink,
  noFilmIn,
  probeElsewhere,
  throughAFunnel,
  mixedWrong,
  goodAfterAll,
  pouredThat,
  outOfJug,
  blackRinse,
  drinkSpilled,
  stillLoading,
];
