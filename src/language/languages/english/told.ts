import { limits } from '../../../limits.js';
import type { Moment } from '../../../process/desk.js';
import type { Intent } from '../../../process/intent.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { HANDLED, HANDLED_OF_OTHERS } from './handled.js';
import { phBy, SINK } from './lists.js';
import { inABottle, inAJug, partInto } from './measured-out.js';
import { MISHAPS } from './mishaps.js';
import { IN_THE_MIX } from './mixed.js';
import { ORDINALS } from './numbers.js';
import { PUT_RIGHT } from './put-right.js';
import { RECOUNTED, RECOUNTED_OF_OTHERS, usedBefore } from './recounted.js';
import {
  A_SHARE,
  ABOUT,
  AGO,
  BATH,
  bathInTank,
  bottleRef,
  made,
  madeOf,
  match,
  type Reader,
  type Sentence,
  sentenceOf,
  shaped,
  shareOf,
  VESSEL,
  words,
} from './sentence.js';
import { bothFell, noSpill } from './spilled.js';
import { WARMTH } from './warmth.js';

/**
 * What is told at the sink in short, in words that no grammar has: two bottles that changed places, how old a bath is and
 * what it has done, what got into what, how much of it went in. Each reader takes a whole sentence or nothing.
 */
export function toldAtSink(
  plain: string,
  now: Moment,
  grammars: Grammars,
): (readers: readonly Reader[]) => Interpretation | undefined {
  let sentence: Sentence | undefined;
  return (readers) => {
    sentence ??= sentenceOf(plain, now, grammars);
    for (const read of readers) {
      const intent = read(sentence);
      if (intent?.type === 'unsure') return { kind: 'unsure', candidates: intent.candidates, words: plain };
      if (intent)
        return { kind: 'understood', intent, words: plain, situation: now.situations[0] ?? 'anytime' };
    }
    return undefined;
  };
}

/** "Bottles three and four are swapped", "I mixed up the bleach and the fixer". */
const swapped: Reader = ({ line, bottle, liquid }) => {
  const pair = `(?:labels (?:of|on) )?(?:bottles? )?(?<a>${VESSEL}|${BATH}) and (?:bottle )?(?<b>${VESSEL}|${BATH})(?: bottles?)?`;
  const done =
    '(?:swapped|switched|reversed|exchanged|interchanged|mixed up|confused|wrong way (?:round|around))';
  const m = match(
    line,
    new RegExp(
      `^(?:i think )?(?:that )?${pair} (?:are|were|is|got|have been|had been|have)(?: been)?(?: other)? ${done}(?: (?:over|round|around))?(?<tail>(?: (?:and )?(?:so )?_bottle\\d+ (?:is|holds|has) _liquid\\d+)*)$`,
    ),
    new RegExp(
      `^(?:i (?:think )?(?:i )?|we )(?:have )?(?:${done}|got) ${pair}(?: (?:over|round|around|${done}))?$`,
    ),
  );
  if (!m) return undefined;
  return made('swapped', {
    bottle: bottle(m.a),
    other: bottle(m.b),
    liquid: liquid(m.a),
    otherLiquid: liquid(m.b),
    ...(m.tail && { sure: true }),
  });
};

const SWAPPED =
  /\b(?:swapped|switched|reversed|exchanged|interchanged|mixed up|muddled(?: up)?|confused|wrong way (?:round|around|about))\b/;
const MAYBE =
  /\b(?:think|might|may|could|maybe|perhaps|possibly|probably|not (?:really |quite |so )?sure|unsure|wonder|afraid|fear|suspect|believe|guess)\b/;
/** A bath and the bottle that it is said to be in, either way round. */
const STANDS = new RegExp(
  `(?<what>${BATH}) (?:(?:is|are|was|now|really|actually|stands|sits) )*(?:in|under) (?<in>${VESSEL})|(?<has>${VESSEL}) (?:(?:is|has|holds|are|could|might|may|must|be|now|really|actually|then|with) )*(?<held>${BATH})`,
  'g',
);
/** "My labels two and three are swapped, the developer is in three", "I think I swapped the caps, two may be the fixer": two bottles in the line changed places. */
const swappedSomehow: Reader = ({ line, plain, bottle, liquid, situations }) => {
  if (!SWAPPED.test(line) || !/\b(?:labels?|caps?|lids?|tops?|stickers?|bottles?|swapped)\b/.test(plain))
    return undefined;
  if (/\b(?:never|nearly|almost|if|should|can|shall|what|nobody)\b|\bnot (?!(?:\w+ )?sure)|n't\b/.test(plain))
    return undefined;
  const numbers = [...new Set([...line.matchAll(new RegExp(VESSEL, 'g'))].map((m) => bottle(m[0])))];
  const [one, other, ...more] = numbers;
  if (one === undefined || other === undefined || more.length > 0 || situations.includes('mixing'))
    return undefined;
  const told = [...line.matchAll(STANDS)].map(({ groups = {} }) => [
    liquid(groups.what ?? groups.held),
    bottle(groups.in ?? groups.has),
  ]);
  const sure = told.length > 0 && !MAYBE.test(plain);
  return made('swapped', { bottle: one, other, ...(sure && { sure }) });
};

const DAYS: Record<string, number> = { day: 1, week: 7, month: 30.4, year: 365 };
const HOW_MANY: Record<string, number> = { one: 1, last: 1, 'couple of': 2, few: 3 };
const MONTHS = 'january february march april may june july august september october november december'.split(
  ' ',
);
/** "In early June", "on the 20th of June", "June 20th". */
const DATE = new RegExp(
  `^(?:(?:in|on|about|around|back|early|late|mid|last|some time|beginning of|middle of|end of|since) )*(?:(?<n>_num\\d+)(?: (?:st|nd|rd|th))?(?: of)? )?(?<month>${MONTHS.join('|')})(?: (?<after>_num\\d+)(?: (?:st|nd|rd|th))?)?$`,
);
const WEEKDAYS = 'sunday monday tuesday wednesday thursday friday saturday'.split(' ');
const WEEKDAY = new RegExp(
  `^(?:(?:on|last|this|past|since) )*(?<day>${WEEKDAYS.join('|')})(?: (?:morning|afternoon|evening|night))?$`,
);
const MIXED = '(?:mixed|made(?: up)?|prepared|opened|brewed|stirred up)';

/** "The bleach is five weeks old", "I mixed the fixer two weeks ago", "the stop was mixed on the 20th of June". */
const age: Reader = ({ line, bottle, liquid, number }) => {
  const what = `(?<what>${BATH}|_bottle\\d+)(?: (?:in|from) (?<in>_bottle\\d+))?`;
  const m = match(
    line,
    new RegExp(`^${what} is ${ABOUT}${AGO} old$`),
    new RegExp(`^(?:i |we )(?:have )?${MIXED} ${what}(?: up)? (?<when>.+)$`),
    new RegExp(`^${what} (?:is|was|has been|were)? ?${MIXED}(?: up)? (?<when>.+)$`),
  );
  if (!m) return undefined;
  const of = { liquid: liquid(m.what), bottle: bottle(m.in ?? m.what) };
  const days = (n = 'one', unit = 'day'): number | undefined => {
    const many = HOW_MANY[n] ?? number(n);
    return many === undefined ? undefined : Math.round(many * (DAYS[unit] ?? 1));
  };
  if (m.unit) return made('bath-history', { ...of, ageDays: days(m.n, m.unit) });
  const when = m.when ?? '';
  const ago = match(when, new RegExp(`^${ABOUT}${AGO}(?: ago| back)?$`));
  if (ago) return made('bath-history', { ...of, ageDays: days(ago.n, ago.unit) });
  if (/^(?:yesterday|last night)\b/.test(when)) return made('bath-history', { ...of, ageDays: 1 });
  if (/^(?:today|this morning|this afternoon|tonight|fresh(?: today)?|minute ago)$/.test(when))
    return made('bath-history', { ...of, ageDays: 0 });
  const weekday = WEEKDAYS.indexOf(match(when, WEEKDAY)?.day ?? '');
  if (weekday >= 0) return made('bath-history', { ...of, weekday });
  const date = match(when, DATE);
  const month = MONTHS.indexOf(date?.month ?? '') + 1;
  return date && made('bath-history', { ...of, month, day: number(date.n ?? date.after) });
};

/** "The fixer has done four films and is three weeks old": both of the one bath. */
const ageAndUse: Reader = (said) => {
  const m = match(
    said.line,
    new RegExp(
      `^(?<what>${BATH}|_bottle\\d+) (?<one>(?:is|has|was) .+?) (?:and|but) (?:it )?(?<two>(?:is|has|was) .+)$`,
    ),
  );
  const both = [m?.one, m?.two].map((told) => {
    const alone = { ...said, line: `${m?.what} ${told}` };
    return age(alone) ?? usedBefore(alone);
  });
  const [one, two] = both;
  return one?.type === 'bath-history' && two?.type === 'bath-history' ? { ...one, ...two } : undefined;
};

/** "No, yesterday", "sorry, two weeks ago": when a bath was mixed. */
const agePutRight: Reader = ({ line, number }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:(?:no|sorry|wait|actually|i mean|make that|it was|that was) )*(?:(?<day>yesterday|last night)|(?<now>today|this morning)|${ABOUT}${AGO} ago)$`,
    ),
  );
  if (!m) return undefined;
  if (m.day) return made('correct', { ageDays: 1 });
  if (m.now) return made('correct', { ageDays: 0 });
  const many = HOW_MANY[m.n ?? 'one'] ?? number(m.n);
  return made('correct', { ageDays: many && Math.round(many * (DAYS[m.unit ?? ''] ?? 1)) });
};

/** "The stop is also in bottle four now", "a splash of bleach got into bottle two". */
const gotInto: Reader = ({ line, liquid, bottle, volumeMl }) => {
  const into = `(?:in|into|in to|inside|to) (?<into>_bottle\\d+|${BATH})(?: bottle| too| as well| by (?:mistake|accident))*`;
  const m = match(
    line,
    new RegExp(`^(?<what>${BATH}) is also ${into}$`),
    new RegExp(
      `^(?:i |we )?(?:accidentally |must have )?(?:got |get |splashed |dripped |spilled |slopped |sloshed |dropped |poured |tipped |put )?(?:about )?(?:(?<ml>_volume\\d+)(?: of)?|(?:tiny |little |small |good |big )?(?:splash|drop|drops|few drops|bit|dash|glug|slug|slosh|little|some|lot)(?: of)?) (?<what>${BATH}) (?:is |has |have |must have |accidentally )?(?:got|gotten|gone|splashed|dripped|went|leaked|ran|fell|spilled|slopped|landed|ended up)? ?${into}(?: ${ABOUT}(?<say>_volume\\d+)(?: or so| ish| maybe| i think| tops)*)?$`,
    ),
  );
  if (!m) return undefined;
  return made('contaminated', {
    liquid: liquid(m.what),
    intoLiquid: liquid(m.into),
    intoBottle: bottle(m.into),
    volumeMl: volumeMl(m.ml ?? m.say),
  });
};

/** "I put the fixer and the bleach into one bottle": which one, and how much, is asked. */
const intoOne = shaped(
  `^(?:i |we )(?:have )?(?:accidentally )?(?:put|poured|mixed|combined|tipped|filled) (?<a>${BATH}) and (?<b>${BATH}) (?:both )?(?:in|into|together in|together into|together) ?(?:one|_num\\d+|same|single)? ?(?:(?:bottle|jug|jar)|(?<into>_bottle\\d+))?(?: together)?$`,
  (m, { liquid, bottle }) =>
    made('contaminated', {
      liquid: liquid(m.a),
      with: liquid(m.b),
      intoBottle: bottle(m.into),
    }),
);

/** "I poured all of the fixer into the developer", "the rest of the stop went into the bleach bottle". */
const allInto = shaped(
  `^(?:i |we )?(?:have )?(?:accidentally )?(?:poured |tipped |put |dumped )?(?:all(?: of)?|whole|entire|rest of|remaining|remainder of|everything of) (?<what>${BATH})(?: bottle)? ?(?:has |have )?(?:went|gone|got|is|ran)? ?(?:in|into) (?<into>_bottle\\d+|${BATH})(?: bottle)?$`,
  (m, { liquid, bottle }) =>
    made('contaminated', {
      liquid: liquid(m.what),
      intoLiquid: liquid(m.into),
      intoBottle: bottle(m.into),
      all: true,
    }),
);

const INTO = `(?<into>${BATH}|_bottle\\d+)(?: bottle)?`;
const SOME_OF =
  '(?:(?:tiny |little |small |good )*(?:bit|drops?|few drops|splash|dash|dribble|touch|little|some)(?: of)? )?';
const ADDED = `${ABOUT}(?:(?<ml>_volume\\d+)(?: of)? )?${SOME_OF}(?:(?:tap|cold|hot|warm|plain|clean|distilled) )*(?<what>${BATH})`;
const [THIN, MUCH] = ['(?:watered|diluted|thinned)', '(?: down| out| bit| little| slightly| somewhat)*'];

/** "I topped up the bleach with 100 ml of water", "put a drop of tap water in bottle two", "the fixer is watered down a bit". */
const toppedUp: Reader = ({ line, situations, liquid, bottle, volumeMl }) => {
  const by = '(?:i |we )?(?:have )?(?:just )?';
  const tank = bathInTank(situations)
    ? match(
        line,
        new RegExp(
          `^${by}(?:topped|filled|made|diluted|thinned)(?: up)? (?:tank|it|rest)(?: up| out)?(?: to (?:top|brim|mark))? with ${ADDED}$`,
        ),
        new RegExp(
          `^${by}(?:added|put|poured|tipped|ran) ${ADDED} (?:to|into|in|on top of) (?:tank|it)(?: to (?:fill|top|make|bring|stretch) .*)?$`,
        ),
      )
    : undefined;
  const got = tank && (liquid(tank.what) ?? (tank.what ? undefined : 'water'));
  if (got === 'water')
    return made('contaminated', { liquid: got, intoVessel: 'tank', volumeMl: volumeMl(tank?.ml) });
  const m =
    match(
      line,
      new RegExp(
        `^${by}(?:topped(?: up)?|filled(?: up)?|diluted|thinned|stretched|watered) ${INTO}(?: up| out| down| again)*(?: to (?:top|neck|brim|mark|shoulder))? with ${ADDED}$`,
      ),
      new RegExp(`^${INTO} (?:is|was|has been)(?: been)? (?:topped|filled)(?: up)? with ${ADDED}$`),
    ) ?? watered(line, by);
  const added = liquid(m?.what) ?? (m && !m.what ? 'water' : undefined);
  if (added === undefined || added === liquid(m?.into)) return undefined;
  return made('contaminated', {
    liquid: added,
    intoLiquid: liquid(m?.into),
    intoBottle: bottle(m?.into),
    volumeMl: volumeMl(m?.ml),
  });

  /** Of water alone: other baths that are poured in are a report that others read. */
  function watered(said: string, who: string): Record<string, string> | undefined {
    const found = match(
      said,
      new RegExp(
        `^${who}(?:added|put|poured|tipped|ran) ${ADDED} (?:to|into|in) ${INTO}(?: to (?:fill|top|make|bring|stretch) .*)?$`,
      ),
      new RegExp(`^${who}${THIN} ${INTO}${MUCH}$`),
      new RegExp(`^${INTO} (?:is|was|got|has been)(?: been)? ${THIN}${MUCH}$`),
    );
    return found?.what === undefined || liquid(found.what) === 'water' ? found : undefined;
  }
};

const DRAIN = `(?:away )?(?:down|into|in|to)(?: (?:same|kitchen|bathroom|waste|rubbish))? (?:${SINK}|bin|bucket)`;
const AWAY = `(?:${DRAIN}|down|away)`;
const THREW =
  '(?:threw|thrown|chucked|slung|tossed|binned|ditched|discarded|disposed of|got rid of|gotten rid of|flushed)';
const POURED = '(?:poured|tipped|dumped|emptied|drained|put|washed|sent)';
const ALL_OF =
  '(?:(?:rest|remainder|last|all|whole lot|what was left)(?: of)? |old |used |spent |exhausted )*';
/** "I poured the stop bath down the sink", "threw the bleach out", "the old fixer went down the drain": done. */
const sunk: Reader = ({ line: told, situations, liquid, bottle, place }) => {
  if (SINK_RINSED.test(told)) return made('poured', { liquid: 'water', to: { kind: 'sink' } });
  const line = told
    .replace(/^(?:(?:and|then|now|so|oh|after that) )+/, '')
    .replace(LIKEWISE, '')
    .replace(/ (?:down (?:it|there)|(?:in|into) there)$/, ' down sink');
  const what = `${ALL_OF}(?<what>${BATH}|it|that|stop|rest|remainder|_bottle\\d+)(?: bath)?`;
  const I = '^(?:i |we )?(?:have )?(?:accidentally |already |only |then |even )*';
  // of what is in the tank, "tipped it out" tells of the tank alone
  // on the shelf again
  if (/\bput\b.* away$/.test(line)) return undefined;
  const out = bathInTank(situations) ? AWAY : `(?:${AWAY}|out)`;
  const m = match(
    line,
    new RegExp(`${I}${POURED} (?:${out} )?${what} ${out}$`),
    new RegExp(`${I}${THREW} (?:away |out )?${what}(?: (?:${AWAY}|out))?$`),
    new RegExp(
      `^${what} (?:(?:is|has|have|was|all) )*(?:went|gone|been poured|poured|been thrown|thrown|got poured|is) ${AWAY}$`,
    ),
    new RegExp(`^${what} (?:is|has been|was) (?:in bin|${DRAIN}|${THREW}(?: away| out)?)$`),
    new RegExp(`${I}(?:${POURED}|${THREW}) ${what} (?:away )?(?:down |into |in )?(?<at>_place\\d+)$`),
    new RegExp(`^${what} (?:went|has gone|is) (?:down |into |in )?(?<at>_place\\d+)$`),
    new RegExp(`${I}(?:dumped|emptied) ${what}$`),
  );
  if (!m || (m.at !== undefined && place(m.at) !== 'sink')) return undefined;
  if (bathInTank(situations) && /^(?:i |we )?(?:dumped|emptied) \S+$/.test(line)) return undefined;
  const number = bottle(m.what);
  if (number !== undefined && !INTO_DRAIN.test(line)) return made('bottle-discarded', { bottle: number });
  return made('poured', {
    liquid: m.what === 'stop' ? 'stop' : liquid(m.what),
    from: bottleRef(number),
    to: { kind: 'sink' },
  });
};
const INTO_DRAIN = new RegExp(`\\b(?:${SINK}|down)\\b|_place`);

/** Water went after it. */
const SINK_RINSED =
  /^(?:(?:and|then|i|we|have|just) )*(?:(?:flushed|rinsed|washed|swilled|ran|run) (?:out |down )?(?:sink|drain|basin|plughole|trap|_place\d+)(?: (?:out|down|through|well|clean))*(?: with (?:\S+ ){0,3}\S+)?|(?:ran|let|left|kept) (?:(?:cold|hot|lots of|plenty of) )*(?:tap|water|_bath\d*|_liquid\d*)(?: run| running)?(?: (?:down|into|in) (?:sink|drain|_place\d+))?(?: for \S+(?: \S+)?)?)$/;
const LIKEWISE =
  /(?: (?:too|as well|also|after it|after that|right after|straight after|afterwards|behind it))+$/;

/** "I never rinsed before the bleach". */
const NEVER_RINSED =
  /^(?:no |wait |actually )*(?:i |we )?(?:have |had )?(?:never|did not|didn't|have not|haven't)(?: actually)? (?:rinsed?|wash(?:ed)?|rins|give it (?:rinse|wash))(?: (?:it|film))?(?: (?:before|after|between|in between) ?(?:it|that|_liquid\d+)?(?: and _liquid\d+)?| first| actually| at all| out)*$/;
const neverRinsed: Reader = ({ line }) =>
  NEVER_RINSED.test(line) ? made('left-out', { liquid: 'water' }) : undefined;

/** "The film has been in the tank since last night", "lights out, now the film is loaded for real". */
const longIn: Reader = ({ line, situations }) =>
  !bathInTank(situations) &&
  !/\b(?:not|if|when|before|until|_liquid\d+)\b/.test(line) &&
  (LONG_IN.test(line) || AT_LAST.test(line))
    ? made('film-loaded', {})
    : undefined;

/** "The film is already in the tank", "two films are loaded". */
const filmIn: Reader = ({ line, number }) => {
  if (/^(?:yes )?film is (?:in|inside)(?: of)? (?:tank|it|reel|there)$/.test(line))
    return made('film-loaded', {});
  if (/^(?:no )?film is not (?:in tank|in|loaded|on reel)(?: yet| after all)$/.test(line))
    return made('no-film', {});
  const m = match(
    line,
    /^(?<n>_num\d+) (?:films?|rolls?) (?:are|is|have been) (?:loaded|in|in tank|in reel|on reels?)$/,
  );
  const films = m && made('films', { count: number(m.n) });
  return films && { type: 'several', intents: [films, { type: 'film-loaded' }] };
};

const LONG_IN =
  /^(?:film|roll|reel) (?:is|was|has been|has|sits|lies|stands|waits)(?: (?:been|already|sitting|lying|waiting|safe|safely|loaded|closed up|dry|ready))* (?:in|inside) (?:(?:closed|dark|light tight|dry) )*tank (?:since|already|all|overnight|from)\b/;
const AT_LAST =
  /\b(?:film|roll|reel) is (?:now |really |finally |actually )*(?:loaded|in tank)(?: (?:for real|now|properly|this time|at last|really))+$/;

/** "I moved the fixer from bottle five to bottle eight", "I've moved the bleach, it's in seven now, four is empty". */
const moved: Reader = ({ line, liquid, bottle, volumeMl }) => {
  const was =
    '(?: (?:and )?(?<a>_(?:bottle|num)\\d+) (?:is|has|was)(?: (?:been|now|all|washed|rinsed|cleaned|clean|out|and|is|empty|free))+)?';
  const m = match(
    line,
    new RegExp(
      `^(?:i |we )(?:have )?(?:moved|decanted|transferred|shifted|rebottled) (?<what>${BATH})(?: over| across)?(?: (?:and )?(?:so )?(?:it|that) (?:is|lives|stands|goes))?(?: now)? (?:in|into|to) (?<b>${VESSEL})(?: now| today| instead)*${was}$`,
    ),
    new RegExp(
      `^(?:i |we )(?:have )?(?:moved|poured|decanted|transferred|tipped|put|emptied|filled) (?:all |all of )?(?:(?<ml>_volume\\d+)(?: of)? )?(?:(?<what>${BATH})|it|everything|contents)? ?(?:over )?(?:from|out of) (?<a>_bottle\\d+) (?:over )?(?:to|into|in) (?<b>_bottle\\d+)$`,
    ),
  );
  const [from, to] = [bottle(m?.a), bottle(m?.b)];
  return m && from !== undefined && to !== undefined
    ? made('poured', {
        liquid: liquid(m.what),
        volumeMl: volumeMl(m.ml),
        from: { kind: 'bottle', number: from },
        to: { kind: 'bottle', number: to },
      })
    : undefined;
};

/** "I topped up bottle two with 300 ml of fresh developer". */
const replenished = shaped(
  [
    `^(?:i |we )(?:have )?(?:topped(?: up)?|filled(?: up)?|replenished) (?<b>_bottle\\d+)(?: up)? (?:with|by) (?:about )?(?<ml>_volume\\d+)(?: of)?(?: (?:fresh|new|more))? (?<what>${BATH})(?: replenisher)?$`,
    `^(?:i |we )(?:have )?(?:added|put|poured|gave) (?:about )?(?<ml>_volume\\d+)(?: of)? (?:(?<what>${BATH}) )?replenisher (?:to|into|in) (?<b>_bottle\\d+)$`,
  ],
  (m, { liquid, bottle, volumeMl }) => {
    const number = bottle(m.b);
    return number !== undefined && liquid(m.what) !== 'water'
      ? made('poured', {
          liquid: liquid(m.what),
          volumeMl: volumeMl(m.ml),
          from: { kind: 'jug' },
          to: { kind: 'bottle', number },
        })
      : undefined;
  },
);

/** "The other half is in now", "I poured in the rest". */
const restIn: Reader = ({ line, situations }) =>
  situations.includes('immersed') &&
  /\b(?:rest|other half|remainder|topped)\b/.test(line) &&
  /\b(?:in|topped)\b/.test(line) &&
  madeOf(line, OF_THE_REST, /^_liquid\d+$/)
    ? made('bath-in', {})
    : undefined;
const OF_THE_REST = words(
  "rest other half remainder topped up of it bath tank in is gone went going that that's i we i've we've have",
  'poured put added tipped with now too all of as well and there',
);

/** Somebody is called away. */
const calledAway: Reader = ({ line, seconds, number }) => {
  const m = match(
    line,
    /^(?:(?:there is |it is |that is )?(?:someone|somebody|postman|delivery|parcel|courier|neighbou?r|kids?|baby|loo|toilet)?(?: (?:is )?at)?(?: ?(?:door ?bell|door|bell|phone|telephone))?(?: (?:is )?(?:ringing|rang|calling|crying|goes|went))? (?:i (?:will|am) )?(?:be )?|i (?:will|am)(?: be)? |be )(?:back|gone|away) (?:in|for) (?:about )?(?<s>_duration\d+|_num\d+)$/,
  );
  if (m && !/^back\b/.test(line))
    return made('away', { seconds: seconds(m.s) ?? 60 * (number(m.s) ?? Number.NaN) });
  return GOES_AWAY.test(line) ? made('away', {}) : atTheDoor(line);
};
const GOES_AWAY =
  /^(?:(?:i|gotta|got to|have to|need to|must|will|just|quickly|am going to|going to) )+(?:take|answer|get) (?:call|phone|door|it)(?: (?:i (?:will|am) )?(?:be )?back in (?:bit|minute|moment|sec|second|few|no time)(?: minutes)?)?$/;
const atTheDoor = (line: string): Intent | undefined =>
  /^(?:there is )?(?:someone|somebody|postman|delivery) (?:is )?at door$|^(?:door ?bell|phone) (?:is )?(?:ringing|rang)$/.test(
    line,
  )
    ? made('away', {})
    : undefined;

/** "I will do the final rinse now". */
const doNext = shaped(
  `^(?:right |then )*(?:i will|i am going to|let me|us) do (?<what>${BATH})(?: next| then)?$`,
  (m, { liquid }) => made('pour-in', { liquid: liquid(m.what) }),
);

const HESITANT = '(?:no |wait |sorry |hold on |hang on |oh |actually )*';
const standsIn = (bottle: string): string =>
  `(?:in|sitting in|standing in) (?:jug|${bottle}|_bottle\\d+|beaker|graduate|cylinder|measure|measuring \\w+|hand)`;

/** "No, not yet", "hang on, it's not in yet, it's still in the jug". */
const notYet: Reader = ({ line, situations }) =>
  new RegExp(
    `^(?!_liquid\\d+ is not (?:in )?yet$)${HESITANT}(?:(?:it|_liquid\\d+) is )?not (?:quite |actually |even )?(?:in )?yet(?: (?:(?:it|that|_liquid\\d+) is )?(?:still|only) ${standsIn('bottle')})?$`,
  ).test(line) ||
  /^(?:no |wait |sorry )+tank is not empty(?: yet)?(?: i meant .*)?$/.test(line) ||
  (situations.includes('immersed') &&
    new RegExp(
      `^${HESITANT}(?:it|that|_liquid\\d+) is (?:(?:actually )?still|only) ${standsIn('its bottle')}(?: (?:it is )?not in(?: tank)? yet)?$`,
    ).test(line))
    ? made('withdraw', { yet: true, no: /^(?:no|wait|hold on|hang on|actually) /.test(line) || undefined })
    : undefined;

/** "Half of the fixer is in", "only 250 ml of developer went in", "the tank is about a third full". */
const partIn: Reader = ({ line, situations, liquid, volumeMl }) => {
  const share = shareOf(A_PART.exec(line)?.[1]);
  const ml = volumeMl(/_volume\d+/.exec(line)?.[0]);
  const of = line.match(/_liquid\d+/g) ?? [];
  if ((share === undefined) === (ml === undefined) || of.length > 1 || !IN_OR_FULL.test(line))
    return undefined;
  if (!madeOf(line, OF_A_PART_IN, /^_(?:liquid|volume)\d+$/)) return undefined;
  const part = { share, volumeMl: ml };
  return situations.includes('immersed')
    ? made('correct', part)
    : made('bath-in', { ...part, liquid: liquid(of[0]) });
};
const A_PART = new RegExp(`\\b(${A_SHARE})\\b`);
const IN_OR_FULL = /\b(?:is|are|went|gone|got|fit|fitted|have)\b.* in\b|\b(?:in|full)$/;
const OF_A_PART_IN = words(
  'three quarters two thirds half third quarter of way it its bath tank is was are went has gone got fit fitted in full',
  "i we i've we've have had only just barely so far yet about around almost managed to get put poured pouring there now",
);

/** "Yes it's in five", to a return that was refused: a yes to nothing, and where the bath is. */
const inAllTheSame = shaped(
  `^(?:yes |well |but |too late )+(?:it|that|all of it|(?:i )?(?:have )?(?:poured|put|tipped) it)?(?: (?:is|has|went|gone|all))* (?:in|into) (?<b>${VESSEL})$`,
  (m, { situations, bottle }) =>
    situations.includes('challenged') && situations.includes('draining')
      ? made('poured', { from: { kind: 'tank' }, to: bottleRef(bottle(m.b)) })
      : undefined,
);

/** "Already did it", "too late, it went in anyway", to a pour that was refused or asked about: it has happened. */
const doneAllTheSame: Reader = ({ line, plain, situations }) =>
  situations.includes('challenged') &&
  !situations.includes('mixing') &&
  (HAS_HAPPENED.test(line) || (/\balready\b/.test(plain) && IN_ALREADY.test(line)))
    ? made('poured', { to: { kind: 'tank' } })
    : undefined;
const IN_IT = '(?: in)?(?: there| it)?(?: (?:anyway|now|all same|though))*';
const OWNS_UP = '^(?:no |yes |yeah |well |but |sorry |shit |too late )*';
const HAS_HAPPENED = new RegExp(
  `${OWNS_UP}(?:too late|(?:(?:i |we )?(?:have )?(?:just )?(?:did|done|poured|tipped)|(?:i |we )(?:have )?put)(?: (?:it|that|so))?${IN_IT}|(?:it |that )?(?:(?:is|has|have|all) )*(?:went|gone) in${IN_IT})$`,
);
const IN_ALREADY = new RegExp(`${OWNS_UP}(?:(?:it|that) (?:is|has) )?in${IN_IT}$`);

const HEDGED_BEHIND = / (?:i (?:think|believe|guess|reckon|suppose|fear)|maybe|perhaps|possibly|probably)$/;
const HEDGE =
  '(?:(?:i |i am |am )?(?:think|believe|fear|suspect|reckon|guess|not (?:so |at all |quite |completely |totally )?(?:sure|certain)|(?:fairly|pretty|almost|nearly|not entirely) (?:sure|certain)|unsure|afraid|worried|do not know|wonder(?:ing)?|have feeling)(?: that| if| whether| now)?|maybe|perhaps|possibly|probably)';
const MAY_BE = '(?:might|may|could|must)(?: well)? (?:have been|be)';
const WENT_IN =
  '(?: (?:that |which |what )?(?:(?:i )?(?:have )?(?:poured|put|tipped|used|grabbed|took)(?: in)?|went in|is in|got in|(?:has )?gone in|in)(?: (?:there|tank|it))?| instead| by mistake| by accident)*';
const NOT_THAT = `(?:,? (?:and )?(?:not|instead of|rather than|in place of) (?:${BATH}|_bottle\\d+|_num\\d+))?`;
/** "I think it was the fixer I poured in", "it may have been bottle five", "not sure that was the bleach, might be the stop": nobody knows. */
export const mayHaveBeen: Reader = ({ line: said, plain, situations, liquid, bottle }) => {
  if (!situations.some((s) => s === 'pouring' || s === 'hanging' || bathInTank([s]))) return undefined;
  // "it was the fixer, I think"
  const line =
    HEDGED_BEHIND.test(plain) && !situations.includes('challenged')
      ? `maybe ${said.replace(HEDGED_BEHIND, '')}`
      : said;
  const which = `(?<which>${BATH}|_bottle\\d+)(?: bottle)?`;
  const it = '(?:it|that|this|one|what (?:i poured|i put|went|is)(?: in)?(?: tank)?)';
  const itMay = `(?:${it} )?${MAY_BE}`;
  const m = match(
    line,
    new RegExp(`^(?:${HEDGE} )*${itMay} ${which}${WENT_IN}${NOT_THAT}${WENT_IN}(?: (?:${HEDGE}|though))?$`),
    new RegExp(
      `^(?:${HEDGE} )+${it} (?:was|is) ${which}${situations.includes('challenged') ? '(?=.)' : ''}${WENT_IN}${NOT_THAT}${WENT_IN}$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )+(?:${it} (?:was|is) |from |out of )*(?<which>${BATH}|${VESSEL}) or (?:it was |maybe |from |out of )*(?<other>${BATH}|${VESSEL})${WENT_IN}$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )+(?:${it} (?:was|is) )?${BATH}${WENT_IN} (?:it |or |was it |maybe |perhaps |that )*(?:${MAY_BE} )?${which}${WENT_IN}$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )*i (?:have )?(?:just )?(?:poured|put|tipped|used|grabbed|took)(?: in)? (?<which>${BATH}|_bottle\\d+)${WENT_IN} (?:but |or )*(?:it |that |maybe |perhaps |possibly )*(?:${MAY_BE} |could have been |or |maybe |perhaps |it was )+(?<other>${BATH}|_bottle\\d+)$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )+i (?:have )?(?:just )?(?:poured|put|tipped|used|grabbed|took|taken|picked)(?: in)? ${which}${WENT_IN}${NOT_THAT}${WENT_IN}$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )*${which} (?:might|may|could|must)(?: well)? have (?:gone|been|got)${WENT_IN}$`,
    ),
    new RegExp(
      `^(?:${HEDGE} )*(?:i )?(?:might|may|could|must)(?: well)? have (?:poured|put|tipped|used|grabbed|taken|picked)(?: in)? ${which}${WENT_IN}${NOT_THAT}${WENT_IN}$`,
    ),
  );
  const named = (token: string | undefined) => liquid(token) ?? bottleRef(bottle(token));
  return m && made('in-doubt', { suspect: named(m.which), other: named(m.other) });
};

/** "It was the bleach", "phew, that was only bottle three": what was in the tank. */
const itWas: Reader = ({ line, situations, liquid, bottle, number }) => {
  if (!bathInTank(situations) && !situations.includes('pouring')) return undefined;
  if (situations.some((s) => s === 'challenged' || s === 'spill' || s === 'mixing')) return undefined;
  const m = match(
    line,
    new RegExp(
      `^(?:no |yes |okay |phew |ah |wait |sorry |actually |checked )*(?:it|that) was (?:only |definitely |indeed |right |in fact |after all |actually )*(?<which>${BATH}|${VESSEL})(?<its> bottle)?(?: (?:after all|for sure|definitely|i checked|all along))*${WENT_IN}${NOT_THAT}$`,
    ),
  );
  if (!m) return undefined;
  const which = bottle(m.which);
  const vessel = bottleRef(which);
  if (which !== undefined && which <= limits.fewBottles) return made('correct', { vessel, moved: 'either' });
  return m.which?.startsWith('_num')
    ? made('correct', { value: number(m.which) })
    : made('correct', { liquid: liquid(m.which), vessel, ...(m.its && { moved: 'either' }) });
};

const NO_MORE_THAN = '(?:(?:only|just|plain|pure|clean|tap|nothing but|clear|ordinary|simply) )+';
/** "That was not the developer, I grabbed the jug with plain water", with a bath in the tank: it is water. */
const onlyWater: Reader = ({ line, situations, liquid, bottle }) => {
  if (
    situations.includes('spill') ||
    !bathInTank(situations) ||
    /\b(?:if|maybe|might|could|should|topped|added|rinsed with)\b/.test(line)
  )
    return undefined;
  const [bath] = [...line.matchAll(new RegExp(BATH, 'g'))].filter(([t]) => liquid(t) === 'water');
  if (!bath) return undefined;
  const water = bath[0];
  const took = `(?:poured|put|tipped|grabbed|took|used|picked(?: up)?)(?: in)? (?:(?:jug|bottle|beaker|one|can) (?:with|of) )?(?:${NO_MORE_THAN})?`;
  const it = '(?:it|that|this|what (?:i poured|went)(?: in)?|stuff(?: in tank)?)';
  const contrast = new RegExp(
    `\\bnot (?:at all )?${BATH}|(?:instead of|rather than) ${BATH}|^(?:no|oh|wait)\\b|only|just|nothing but|plain`,
  );
  const said = [
    `\\b${it} was (?:${NO_MORE_THAN})?${water}\\b(?! (?:bottle|too|that)\\b)`,
    `\\bi (?:have |must have |just )?${took}${water}\\b`,
  ].some((p) => new RegExp(p).test(line));
  if (said && contrast.test(line)) return made('correct', { liquid: 'water' });
  const held = match(
    line,
    new RegExp(
      `(?<b>_bottle\\d+) (?:is|was|has|holds|held|had) (?:really |actually )?${NO_MORE_THAN}${water}\\b`,
    ),
  );
  const right = made('correct', { liquid: 'water' });
  const holds = made('bottle-holds', { bottle: bottle(held?.b), liquid: 'water' });
  return held && right && holds ? { type: 'several', intents: [right, holds] } : undefined;
};

const TOO_SOON =
  /\b(?:spoke|said (?:it|that|so)|told you|was|called (?:it|that)|that was|it was) (?:\w+ )?(?:too (?:soon|early)|a bit early|early|before it was)\b|\bnothing (?:had |has )?(?:went|gone|was) in\b|\b(?:was|had|were) not (?:really |actually |even )?(?:been )?in (?:yet|then|before)\b|\bstuck\b/;
const IN_NOW =
  /\b(?:is|went|has gone|goes|came|got|it) (?:only |just )+(?:now )?(?:gone |went )?in(?: (?:now|this moment|this second))*\b|\b(?:is|went|has gone) in (?:only |just )*now\b|\b(?:only|just) (?:now )?(?:in|went in|gone in|poured (?:it )?in) ?now\b|\b(?:clock|time|timer|count|timing|it)(?: again| over)? (?:\w+ )?from now\b|\bonly now in\b/;
/** "I spoke too soon, it is only in now, count from now": it went in just now. */
const inOnlyNow: Reader = ({ line, situations }) =>
  situations.includes('immersed') && TOO_SOON.test(line) && IN_NOW.test(line)
    ? made('correct', { agoS: 1 })
    : undefined;

/** "Not the tank, the jug is empty, the developer is still in", once the tank was called empty. */
const stillIn: Reader = ({ line, situations }) =>
  situations.includes('pouring') &&
  !bathInTank(situations) &&
  /\b(?:no|not|wrong|wait|sorry|jug|bottle|meant|tank is not empty)\b/.test(line) &&
  !/\b(?:if|in (?:jug|_bottle|bottle|its))/.test(line) &&
  /(?:^|\b)(?:it|_liquid\d+|everything|all of it) is (?:all )?still (?:all )?in(?: (?:tank|there|it))?(?:$| (?:and|not|it|now)\b)/.test(
    line,
  )
    ? made('withdraw', { yet: true, no: true })
    : undefined;

/** "Oh crap, that was fixer not developer", where the developer is due: it is in. */
const notTheDue = shaped(
  `(?:^| )(?:it|that|this) (?:was|is) (?<right>${BATH})(?: bottle)? (?:and )?(?:not|instead of|rather than) (?<wrong>${BATH})$`,
  (m, { due, situations, liquid }) => {
    const isDue = due.some((d) => d.type === 'bath-in' && d.liquid === liquid(m.wrong));
    return isDue && !bathInTank(situations) ? made('bath-in', { liquid: liquid(m.right) }) : undefined;
  },
);

/** "No, other way round, 41.1": the digits of a reading were turned. */
const turned = shaped(
  /^(?:no |wait |sorry |hang on )*(?:(?:it is |that is |i said it )?(?:other|wrong) way (?:round|around|about)|back to front|i (?:swapped|turned|mixed up) (?:digits|numbers|them)(?: round| around)?)(?: (?:it is |that is )?(?<all>(?:_num\d+ ?)+))(?:degrees)?$/,
  (m, { number }) => {
    const values = [...new Set(m.all?.trim().split(' ').map(number))];
    return values.length === 1 ? made('correct', { value: values[0] }) : undefined;
  },
);

/** "No, two minutes ago". */
const agoPutRight = shaped(
  /^(?:no|sorry|actually|rather)(?: it (?:was|went in))?(?: (?:more like|about|rather|actually|already))* (?<s>_duration\d+) ago$/,
  (m, { seconds }) => made('correct', { agoS: seconds(m.s) }),
);

const VALUE = String.raw`_(?:num|bottle|volume|duration|liquid)\d+`;
/** "Two, I mean": what was said last, otherwise. */
const iMean = shaped(
  `^(?:no |sorry |wait |into |in |to |from )*(?<v>${VALUE}) i (?:mean|meant)(?: to say)?$`,
  (m, { number, bottle, liquid, volumeMl, seconds }) =>
    made('correct', {
      value: m.v?.startsWith('_num') ? number(m.v) : undefined,
      vessel: m.v?.startsWith('_bottle') ? bottleRef(bottle(m.v)) : undefined,
      liquid: liquid(m.v),
      volumeMl: volumeMl(m.v),
      seconds: seconds(m.v),
    }),
);

const NO_BUT =
  '(?:(?:no|nope|phew|sorry|wait|er|oh|well|actually|correction|right) )*(?:(?:it|that) (?:is|was) |i (?:mean|meant) |make (?:that|it) )?(?:only )?(?:(?:from|in|into|at|of) )?';
const THEN = '(?: (?!.*_)[^_]*)?$';
/** "Fifteen millilitres, not fifty", "from four, I said three": of two of a kind the one is meant. */
const notThat = shaped(
  [
    `^${NO_BUT}(?<right>${VALUE}) (?:and )?(?:not|rather than|instead of|i said)(?: (?:from|in|into|at|of))? (?<wrong>${VALUE})${THEN}`,
    `^${NO_BUT}(?:i said|not|it was not|that was not) (?<wrong>${VALUE}) (?:but|i (?:mean|meant)|it (?:is|was)|make (?:that|it)) (?:(?:from|in|into|at|of) )?(?<right>${VALUE})${THEN}`,
  ],
  (m, { number, bottle, liquid, volumeMl, seconds }) => {
    const kinds = [m.right, m.wrong].map((t = '') => t.replace(/\d+$/, ''));
    const kind = kinds.find((k) => k !== '_num') ?? '_num';
    if (kinds.some((k) => k !== kind && k !== '_num') || m.right === undefined) return undefined;
    return made(
      'correct',
      {
        _num: { value: number(m.right), wrong: number(m.wrong) },
        _bottle: { vessel: bottleRef(bottle(m.right)) },
        _volume: { volumeMl: volumeMl(m.right) ?? number(m.right) },
        _duration: { seconds: seconds(m.right) },
        _liquid: { liquid: liquid(m.right) },
      }[kind] ?? {},
    );
  },
);

/** "Plus point six": so much more is in the water. */
const plus: Reader = ({ line, situations, number }) => {
  const m = situations.includes('mixing')
    ? match(line, /^(?:and )?plus (?:another )?(?<n>_num\d+)$/)
    : undefined;
  return m && made('reading', { value: number(m.n), added: true });
};

/** "The film is out of the tank", while a bath is in it. */
const filmOut: Reader = ({ line, situations }) =>
  bathInTank(situations) &&
  /^(?:(?:i|we) (?:have )?(?:took|taken|pulled|lifted|got) (?:film|reel|spiral) out|film (?:is|came|fell|slipped)(?: right)? out)(?: of .*| after .*)?$/.test(
    line,
  )
    ? made('film-hung', {})
    : undefined;

/** "I poured it out already", while a bath is in. */
const out: Reader = ({ line, situations, liquid }) =>
  bathInTank(situations) &&
  (liquid(/^(_liquid\d+) is (?:all )?(?:away|gone|thrown away|poured away)$/.exec(line)?.[1]) === 'water' ||
    /^(?:(?:i|we) )?(?:have )?(?:poured|tipped|dumped|emptied|drained) (?:it|that|everything|_liquid\d+) (?:all )?out$/.test(
      line,
    ))
    ? made('tank-empty', {})
    : undefined;

/** "Straight to the fixer without the wash": what leaving it out does. */
const straight = shaped(
  `^(?:no (?<no>${BATH}|wash)(?: today| this time)? )?(?:can |could |may |shall |should )?(?:i |we )?(?:am |are )?(?:go(?:ing)? )?(?:straight|directly|right) (?:on )?(?:to|into) ${BATH}(?: (?:without|skipping|and skip|and leave out) (?<not>${BATH}|wash(?:ing)?|rinse|rinsing))?$`,
  (m, { liquid }) => {
    const skipped = m.not ?? m.no;
    const of = skipped === undefined ? undefined : (liquid(skipped) ?? 'water');
    return made('left-out', { liquid: of });
  },
);

/** "The strip in the developer says pH 7.9": of a bath that stands mixed. */
const phRead: Reader = ({ line, situations, liquid, bottle, number }) => {
  if (situations.includes('mixing') || PH_ASKED.test(line)) return undefined;
  const m = match(
    line,
    new RegExp(
      `^(?=.*?(?<what>${BATH}|_bottle\\d+)).*\\b(?:p h|acidity)\\b(?: [a-z_]+\\d*){0,5}? (?<n>_num\\d+)(?! (?:ml|gram|degree))`,
    ),
  );
  const of = m && { liquid: liquid(m.what), bottle: bottle(m.what) };
  const by = phBy(line);
  return m && made('bath-ph', { ...of, ph: number(m.n), ...(by && { by }) });
};
const PH_ASKED =
  /^(?:what|how|is|are|should|does|do|why|can|could|if|when|would|which|i wonder)\b|\b(?:should|supposed|meant|aim|not)\b/;

/** "It was more like eighty, I've mopped it up": how much it was, and that it is gone. */
const moreLike = shaped(
  /^(?:no )?(?:it|that) (?:was|is) (?:more like|rather|really|only)(?: about)? (?<v>_(?:num|volume)\d+) (?:and |but )?(?:(?:i|we) (?:have )?(?:mopped|wiped|cleaned)(?: (?:it|that|everything))?(?: all)? up|(?:it|that) is (?:all )?(?:mopped|wiped|cleaned) up)(?: now)?$/,
  (m, { situations, number, volumeMl }) => {
    const amount = made('correct', { volumeMl: volumeMl(m.v) ?? number(m.v) });
    return amount && situations.includes('spill')
      ? { type: 'several', intents: [amount, { type: 'spill-cleaned' }] }
      : undefined;
  },
);

/** "Make it only half a litre", of what is being mixed. */
const batchOf = shaped(
  `^(?:no |wait |sorry |actually )*make (?:it|that) (?:only )*${ABOUT}(?<ml>_volume\\d+)(?: (?:only|instead|batch|time|in all))*$`,
  (m, { situations, volumeMl }) =>
    situations.includes('mixing') ? made('correct', { volumeMl: volumeMl(m.ml) }) : undefined,
);

/** "Change the wash to two minutes": of the bath that is in, as "make it"; "cut it short": out with it. */
const otherTime: Reader = ({ line, situations, seconds }) => {
  if (!bathInTank(situations)) return undefined;
  const it = `(?:it|this|that|time|${BATH}|wash|rinse|washing|rinsing)(?: time)?`;
  const m = match(
    line,
    new RegExp(
      `^(?:change|set|extend|shorten|stretch|reduce|cut|bring) ${it}(?: down| up)? to (?<s>_duration\\d+)$`,
    ),
  );
  if (m) return made('correct', { seconds: seconds(m.s) });
  return new RegExp(`^(?:cut ${it} short|end ${it} early|stop ${it} early)$`).test(line)
    ? made('drain-now', {})
    : undefined;
};

/** "Make it four minutes", "leave it in five minutes instead of three": of the bath that is in. */
const inAll: Reader = ({ line, situations, seconds }) => {
  const lead = '^(?:no |actually |right |then |so |let us |i will |we will |i want to |and )*';
  const it = `(?: (?:it|that|this|${BATH}))?(?: (?:in|have|stay|run|go|be in))*(?: for| to)? (?<s>_duration\\d+)`;
  const whole = '(?: (?:in all|in total|altogether|total|all told|instead))+';
  const not = ' (?:rather than|instead of|and not|not) (?:_duration|_num)\\d+';
  const m = match(
    line,
    new RegExp(`${lead}make${it}(?:${whole})?(?:${not})?(?: (?:because |since |as )?(?:i|we) .*)?$`),
    new RegExp(`${lead}(?:give|leave|keep|let|have|do|want)${it}(?:${whole}|${not})+$`),
  );
  return m && bathInTank(situations) ? made('correct', { seconds: seconds(m.s) }) : undefined;
};

/** Before all else: words of it override nothing. */
export const TOLD_ALL_THE_SAME: readonly Reader[] = [doneAllTheSame];

/** Of days that are past, and of others: such words do nothing in any other sentence. */
export const TOLD_OF_OTHERS: readonly Reader[] = [
  ...PUT_RIGHT,
  inAJug,
  inABottle,
  noSpill,
  bothFell,
  neverRinsed,
  partInto,
  mayHaveBeen,
  longIn,
  onlyWater,
  inOnlyNow,
  stillIn,
  ...WARMTH,
  ...IN_THE_MIX,
  ...RECOUNTED_OF_OTHERS,
  ...MISHAPS,
  ...HANDLED_OF_OTHERS,
  ageAndUse,
  age,
  agePutRight,
  calledAway,
  swappedSomehow,
];

/** "Pouring the blix in": a bath of some other process is never taken for the one that is due. */
const ofAnotherProcess: Reader = ({ line }) => {
  const [name] = OTHER_BATHS.exec(line) ?? [];
  if (
    name === undefined ||
    !/\b(?:in|into tank)$/.test(line.replace(/ (?:now|then|next|tank)\b/g, '')) ||
    NO_DEED.test(line)
  )
    return undefined;
  return made(/\b(?:pouring|pour|putting|going)\b/.test(line) ? 'pour-in' : 'bath-in', { liquid: name });
};
/** Source: common practice. */
const OTHER_BATHS = /\b(?:blix|conditioner|reversal bath|wash(?:ing)? aid|toner|intensifier|reducer)\b/;
const NO_DEED = /\b(?:not|never|when|if|should|shall|can|do|does|what|how|why|before|after|until|is it)\b/;

/** Before the grammars: sentences that they would read for something else. */
export const TOLD_FIRST: readonly Reader[] = [
  ...RECOUNTED,
  ...HANDLED,
  swapped,
  gotInto,
  intoOne,
  allInto,
  toppedUp,
  partIn,
  ofAnotherProcess,
  inAllTheSame,
  notTheDue,
  itWas,
  turned,
  agoPutRight,
  iMean,
  notThat,
  plus,
  filmOut,
  out,
  straight,
  sunk,
  filmIn,
  moved,
  replenished,
  doNext,
  restIn,
  notYet,
  phRead,
  moreLike,
  batchOf,
  otherTime,
  inAll,
];

/** "3", to the question which bottle. */
const bottleAlone = shaped(
  [
    /^(?:no |sorry |i mean |rather |it is |that is |make it |number |into |in |to |from |bottle )*(?<b>_num\d+)(?: then)?$/,
    `^(?:no |sorry |i mean )*(?:into |in |to |from )?(?<nth>${ORDINALS.join('|')}) (?:one|bottle)$`,
  ],
  (m, { situations, bottle }) => {
    const number = bottle(m.b) ?? (m.nth === undefined ? undefined : ORDINALS.indexOf(m.nth) + 1);
    const vessel = bottleRef(number);
    if (!vessel) return undefined;
    if (situations.includes('challenged')) return made('part', { vessel });
    return m.nth && situations.includes('draining') ? made('pour-back', { to: vessel }) : undefined;
  },
);

/** "About 5 ml": how much of what was told last. */
const amount = shaped(
  `^(?:(?:it|that) was |it is |no )?(?:only )?${ABOUT}(?<ml>_volume\\d+)$`,
  (m, { volumeMl }) => made('correct', { volumeMl: volumeMl(m.ml) }),
);

/** "Developer's fourteen point one": colder than the grammars take without a verb. */
const cold = shaped(
  `^(?<of>${BATH}|_bottle\\d+) is (?:at )?${ABOUT}(?<c>_num\\d+)(?: degrees| or so| ish| i think)*$`,
  (m, { liquid, bottle, tempC }) => {
    const read = tempC(m.c);
    return read === undefined
      ? undefined
      : made('temperature', { of: liquid(m.of) ?? bottleRef(bottle(m.of)), tempC: read });
  },
);

/** After the grammars. */
export const TOLD_LAST: readonly Reader[] = [bottleAlone, amount, cold];
