import { OF_A_LOSS, SALTS } from './lists.js';
import {
  ABOUT,
  BATH,
  bathInTank,
  bottleRef,
  EXCLAIMED,
  made,
  madeOf,
  match,
  type Reader,
  SHARES,
  several,
  VESSEL,
  words,
} from './sentence.js';

/**
 * What happened, told afterwards and at more length than a report at the sink: where a bath really went, what stands
 * where today, what was done before the first word, what a thermometer really says, what runs out of a tank.
 */

const BOTTLE = String.raw`_bottle\d+`;

/** "Today the developer is in bottle three and the stop bath in bottle two". */
const standIn: Reader = ({ line, liquid, bottle }) => {
  const where = '(?:is|are|stands|sits|lives|goes|comes)?(?: standing| kept)?(?: today)? ?(?:in|into) ';
  const one = `(?:i (?:have|put|keep|filled) )?${BATH} ${where}${BOTTLE}(?: today)?`;
  const turned = `${BOTTLE} (?:is|has|holds|contains) ${BATH}`;
  const pair = `(?:${one}|${turned})`;
  if (!new RegExp(`^${pair}(?: (?:and |but |while )?${pair})+$`).test(line)) return undefined;
  const pairs = [
    ...line.matchAll(new RegExp(`(${BATH}) ${where}(${BOTTLE})|(${BOTTLE}) \\w+ (${BATH})`, 'g')),
  ];
  return several(
    pairs.map((m) => made('bottle-holds', { bottle: bottle(m[2] ?? m[3]), liquid: liquid(m[1] ?? m[4]) })),
  );
};

const PART = `(?:(?:${ABOUT}(?<ml>_volume\\d+)|(?<half>half|first half|one half)|(?<rest>(?:other )?half|second half|rest|remainder))(?: of)? )?`;
const WENT =
  '(?:is|are|was|were|has|have|got|went|gone|ran|came|landed|ended up|poured|put|tipped|emptied|returned|been|now|back|all|straight)';

/** A bath left for a bottle: "the prebath went into bottle two, not bottle one", "half of it is back in bottle two". */
const wentInto: Reader = (said) => {
  const { line, liquid, bottle, volumeMl, situations } = said;
  const not = `(?: (?:and )?(?:not|instead of|rather than)(?: in| into| to)? (?<not>${VESSEL}))?`;
  const m = match(
    line,
    new RegExp(
      `^(?:i |we )?(?:have )?(?:(?:accidentally|wrongly|mistakenly) )?(?:poured|put|tipped|emptied|returned|drained) (?:back )?${PART}(?<what>${BATH}|it|that|them)? ?(?:back )?(?:in|into|to) (?<to>${BOTTLE})(?: instead)?${not}$`,
    ),
    new RegExp(
      `^${PART}(?<what>${BATH}|it|that)(?: ${WENT})+ (?:in|into|to) (?<to>${BOTTLE})(?: instead)?${not}$`,
    ),
    new RegExp(`^${PART}(?:${WENT} )+(?:in|into|to) (?<to>${BOTTLE})$`),
  );
  const part = m?.ml ?? m?.half ?? m?.rest;
  // without a part or a "not" it is a report that the grammars have
  const out = m && /^(?:i |we )?(?:have )?(?:emptied|drained)\b/.test(line) && bathInTank(situations);
  if (!m || (part === undefined && m.not === undefined && !out)) return undefined;
  // an amount that got there and not back is one bath in another
  if (m.ml !== undefined && m.not === undefined && !/\bback\b|\breturned\b/.test(line)) return undefined;
  return made('poured', {
    liquid: liquid(m.what),
    from: { kind: 'tank' },
    to: bottleRef(bottle(m.to)),
    volumeMl: volumeMl(m.ml),
    share: m.half === undefined || m.rest !== undefined ? undefined : 0.5,
    instead: bottleRef(bottle(m.not)),
  });
};

/** Of the parts of one bath, those whose amount nobody said, and what takes what is left. */
const POURED_BY_HAND = '(?:poured|put|tipped|emptied)';
const LITTLE =
  '(?:(?:little|tiny|small|good|quite)(?: of)? )*(?:some|bit|little|few drops|splash|drops?|dribble|drip|touch|dash)';
const [UNTOLD, LEFT_OVER] = [new RegExp(`^${LITTLE}$`), /^(?:rest|remainder|other half|second half|other)$/];
const ONE_PART = `(?<part>_volume\\d+|(?:first |other |second |one )?half|three quarters|(?:one )?(?:third|quarter)|most|rest|remainder|${LITTLE})(?: of)?(?: (?<of>${BATH}|it|that))?`;
const ONE_PLACE = `(?:(?:in|into|to|inside)(?: with)? (?:(?<to>${VESSEL}|${BATH})|(?<own>its own|its|own|where it came from|it))(?: bottle)?(?: where it belongs| by (?:mistake|accident))?|(?<back>back)(?! (?:in|into|to) _)(?: (?:where it came from|in its own|home))?)`;
const PARTED = new RegExp(
  `(?:(?:and|but|then|so|only|i|we|have|has|accidentally|poured|put|tipped|emptied|returned) )*${ONE_PART} (?:(?:${WENT}|accidentally|${POURED_BY_HAND}) )*?${ONE_PLACE}(?: (?:by mistake|by accident|instead|too|as well))*(?: |$)`,
  'y',
);

/** A bath went into several vessels, or some of it where it does not belong: "half into bottle two and half into bottle three". */
const parted: Reader = ({ line, liquid, bottle, volumeMl }) => {
  const split = match(
    line,
    new RegExp(
      `^(?:i |we )?(?:have )?(?:split|divided|shared|parted)(?: up)? ?(?<of>${BATH}|it|that)?(?: up| out)? ?(?:between|over|across|among|into|in)(?: bottles)? (?<a>${VESSEL}|${BATH})(?: bottle)? and (?:into |in )?(?<b>${VESSEL}|${BATH})(?: bottle)?$`,
    ),
  );
  const lead = match(
    line,
    new RegExp(
      `^(?:i |we )?(?:have )?(?:poured |put |tipped |emptied |returned )?(?<of>${BATH}|it|that) (?=half|most|some|bit|part|_volume)`,
    ),
  );
  const parts: Record<string, string | undefined>[] = split
    ? [
        { part: 'half', to: split.a },
        { part: 'rest', to: split.b },
      ]
    : [];
  for (
    let at = lead ? line.search(/(?<= )(?:half|most|some|bit|part|_volume)/) : 0;
    !split && at < line.length;
    at = PARTED.lastIndex
  ) {
    PARTED.lastIndex = at;
    const found = PARTED.exec(line)?.groups;
    if (!found) return undefined;
    parts.push(found);
  }
  const [first, second] = parts;
  if (!first || (!second && !UNTOLD.test(first.part ?? ''))) return undefined;
  const what = liquid(split?.of ?? lead?.of ?? parts.map((p) => p.of).find((of) => liquid(of) !== undefined));
  const shares = parts.map(({ part = '' }) => LOST_SHARES.find(([words]) => words.test(part))?.[1] ?? 0);
  const whole = shares.reduce((sum, share) => sum + share, 0) > 0.99;
  const told = parts.map(({ part = '', to, own, back }, i) => {
    const [into, of] = [bottleRef(bottle(to)), liquid(to)];
    if (!into && !of && !own && !back) return undefined;
    const some = UNTOLD.test(part);
    // each share is one of what the others before it left
    const before = shares.slice(0, i).reduce((sum, share) => sum + share, 0);
    const share = (shares[i] ?? 0) / (1 - before);
    const last = LEFT_OVER.test(part) || (whole && i === parts.length - 1) || (part === 'most' && second);
    return {
      some,
      intent: made('poured', {
        ...{ liquid: what, from: { kind: 'tank' }, to: into, toOf: of, some: some || undefined },
        volumeMl: volumeMl(part),
        share: some || last || !share ? undefined : share,
      }),
    };
  });
  if (told.some((t) => t === undefined)) return undefined;
  // what got astray comes last: its amount may be told next
  const inOrder = [...told.filter((t) => !t?.some), ...told.filter((t) => t?.some)];
  const [only, another] = inOrder;
  return another ? several(inOrder.map((t) => t?.intent)) : only?.intent;
};

/** "That was the wrong thermometer, the developer is 37": the reading counts afresh. */
const readAnew: Reader = ({ line, liquid, bottle, tempC }) => {
  const wrong =
    '(?:(?:(?:that|it|this|i) (?:was|is|used|had|took|read)(?: with| from| off| on)? (?:wrong|other|bad|kitchen|broken) thermometer|(?:\\w+ )?thermometer (?:was|is|reads|read) (?:wrong|broken|off|bad|false|faulty|lying)|i (?:misread|read)(?: it| that| thermometer)?(?: wrong| wrongly)?|wrong thermometer|(?:and )?(?:looking|reading|checking|measuring)(?: it)? again|second look) )?';
  const m = match(
    line,
    new RegExp(
      `^${wrong}(?:and |but )?(?<of>${BATH}|${BOTTLE}) (?:is|was|has|reads|shows)(?: at)? (?<c>_num\\d+)(?: degrees)?(?: not _num\\d+)?$`,
    ),
    new RegExp(
      `^${wrong}(?:and |but )?(?:(?:right|good|proper|real|other|new|second|better) (?:one|thermometer) (?:says|shows|reads)|i get|it (?:says|shows|reads|is)) (?<c>_num\\d+)(?: degrees)? (?:for|in) (?<of>${BATH}|${BOTTLE})$`,
    ),
  );
  const read = tempC(m?.c);
  if (!m || read === undefined || !/thermometer|\bread\b|misread|\bagain\b|second look|not _num/.test(line))
    return undefined;
  return made('temperature', {
    of: liquid(m.of) ?? bottleRef(bottle(m.of)),
    tempC: read,
    anew: true,
    byOther:
      /\b(?:right|good|proper|real|other|new|second|better|wrong|bad|kitchen|broken) (?:one|thermometer)\b/.test(
        line,
      ) || undefined,
  });
};

/** "Oh wait, that 41.1 was the tub, never had the thermometer in the developer": what was read is no bath's. */
const ofTheTub: Reader = ({ line }) =>
  /^(?:no |wait |oh |hang on |sorry )*(?:(?:it|that)(?: (?:_num\d+|reading|number|one))?|_num\d+) (?:was|is) (?:only |just |for |of |in |from |water )*(?:tub|water bath|tub water)(?: (?:and |but )?(?:it was |that is )?(?:not|never|i never)\b.*)?$/.test(
    line,
  )
    ? made('correct', { vessel: { kind: 'tub' } })
    : undefined;

/** "The developer was 41.1 earlier", "it was 41.1 an hour ago": no reading of now, and what it is now is said. */
const readEarlier: Reader = ({ line, liquid, bottle, tempC }) => {
  const m = match(
    line,
    new RegExp(
      `^(?<of>${BATH}|${BOTTLE}) (?:was|read|had|showed)(?: at)? (?<c>_num\\d+)(?: degrees)? (?:earlier(?: on)?|before|this morning|last time|(?:_duration\\d+|hour|half hour|while) ago|when i (?:left|started|looked|measured|went)\\b.*)(?: so)?$`,
    ),
  );
  return tempC(m?.c) === undefined
    ? undefined
    : made('ask-temperature', { of: liquid(m?.of) ?? bottleRef(bottle(m?.of)) });
};

/** "The lid leaks, about 100 ml of developer ran out": out of the tank. */
const leaked: Reader = ({ line, liquid, volumeMl }) => {
  const out =
    '(?:ran|leaked|dripped|came|went|escaped|splashed|sloshed|spilled|poured|is|are|was|were)(?: (?:gone|lost|out|away|down|past|by|through|from|of|over|on|onto|tank|lid|cap|floor|it|me|everywhere|sink|into|in))*';
  const lid =
    '(?:(?:lid|cap|tank|seal|top|it|light trap) (?:of tank )?(?:is |was |has |had )?(?:not )?(?:leaks?|leaking|leaked|drips?|dripping|loose|tight|shut|closed|not tight|properly|fully|on|right)+(?: (?:a )?(?:bit|little|closed|shut|on))* (?:and |so )?)?';
  const m = match(
    line,
    new RegExp(
      `^${lid}(?:i (?:have )?(?:lost|spilled|am missing) )?${ABOUT}(?<ml>_volume\\d+)(?: of)?(?: (?<what>${BATH}|it))?(?: ${out})?(?: (?:on|onto|over|all over|into|in) _place\\d+)?$`,
    ),
    new RegExp(
      `^${lid}(?:some |little |bit of |quite )?(?<what>${BATH}) ${out}(?: ${ABOUT}(?<ml>_volume\\d+))?$`,
    ),
  );
  if (!m || !/\b(?:lid|cap|tank|seal|top|leak\w*|light trap)\b/.test(line)) return undefined;
  return made('spill', { liquid: liquid(m.what), volumeMl: volumeMl(m.ml), tank: true });
};

const LOST =
  /\b(?:spilled|spilt|lost|wasted|knocked|kicked|toppled|smashed|shattered|burst|broke|broken|slopped|leaked|dropped)\b|\b(?:tipped|fell|fallen|went|gone|keeled|caught|bumped) (?:\w+ )?over\b|\b(?:is|are|went|gone|got|landed|ran|fell|run|tipped|all|lost)(?: \w+)? (?:(?:on|onto|down|over) (?:bench|worktop|side|table|counter|shelf)|_place\d+)\b|\bran out\b/;
/** How much of it is gone, by the words for it. Source for "most": common practice. */
const LOST_SHARES: readonly (readonly [RegExp, number])[] = [
  [/\b(?:all|everything|whole (?:lot|tank)|empty|emptied)\b(?! over\b(?! _place))/, 1],
  ...SHARES.map(([words, share]) => [new RegExp(`\\b${words}\\b`), share] as const),
  [/\bmost\b/, 0.8],
];
/** "I spilled 200 ml from bottle four", "knocked bottle six over with my elbow, half of it is on the floor", "the tank fell over". */
const lost: Reader = ({ line, bottle, liquid, volumeMl, place: placeOf, situations }) => {
  const tokens = line.split(' ');
  const slots = (kind: string): string[] => [...new Set(tokens.filter((t) => t.startsWith(kind)))];
  const [b, otherBottle] = slots('_bottle');
  const [what, other] = slots('_liquid');
  const [ml, more] = slots('_volume');
  const place = placeOf(slots('_place')[0]) ?? (/\b(?:in|into) tub\b/.test(line) ? 'tub' : undefined);
  if (!LOST.test(line) || situations.includes('mixing') || otherBottle || other || more) return undefined;
  // somebody is hurt
  if (place !== undefined && !SURFACES.test(place)) return undefined;
  if (!tokens.every((t) => OF_A_LOSS.has(t) || /^(?:tub|_(?:bottle|liquid|volume|place)\d+)$/.test(t)))
    return undefined;
  // into something, and out of nothing
  if (/\b(?:in|into|inside|back to) (?:_bottle|_liquid|tank|its|bottle)/.test(line)) return undefined;
  const tank = tokens.includes('tank') && b === undefined;
  const share = LOST_SHARES.find(([said]) => said.test(line))?.[1];
  const some = /\b(?:some|bit|little|lots?|few|drops?|splash|dribble|slug|glug|much)\b/.test(line);
  const broke = /\b(?:smashed|shattered|burst|broke|broken)\b/.test(line);
  const unsaid = share === undefined && ml === undefined;
  const whole = b !== undefined && (share === 1 || (unsaid && !some));
  // of a bath alone, a drop may have fallen, or a bottle of it
  const surely = tank ? some || broke : broke && /\bbottle\b/.test(line);
  if (b === undefined && unsaid && !surely) return undefined;
  const spill = made('spill', {
    bottle: bottle(b),
    ...(tank && { tank }),
    liquid: liquid(what),
    volumeMl: volumeMl(ml),
    share: ml !== undefined || whole ? undefined : (share ?? (broke && b === undefined ? 1 : undefined)),
    ...(some && unsaid && { some }),
    place: place ?? (broke || whole ? 'floor' : undefined),
  });
  const fell = tank && /\b(?:fell|fallen|tipped|knocked|kicked|toppled|dropped|keeled)\b/.test(line);
  return fell ? several([spill, made('ask-advice', { topic: 'tank-dropped' })]) : spill;
};
const SURFACES = /^(?:table|floor|counter|carpet|sink|tub)$/;

/** "Oops, that was the fixer I had in there", "no, ignore that reading". */
const takenBack: Reader = ({ line, liquid }) => {
  const oops = '^(?:oops |no |wait |oh |sorry |actually )*';
  if (new RegExp(`${oops}(?:ignore|forget|disregard) (?:that|last) reading$`).test(line))
    return made('undo', { reading: true });
  const m = match(
    line,
    new RegExp(
      `${oops}(?:that|it) was (?<what>_liquid\\d+) (?:that |which )?(?:i|we) (?:had|put|poured|got)(?: (?:in|into|there|tank|it))+$`,
    ),
  );
  return m && made('correct', { liquid: liquid(m.what) });
};

/** "I have already done the prebath and the rinse": before the first word. */
const doneBefore: Reader = ({ line, liquid, situations }) => {
  if (!situations.some((s) => s === 'pouring' || s === 'loading')) return undefined;
  const rinse = '(?:rinse|rinsing|wash|washing|backing|rem ?jet)(?: removal| rinse)?';
  const one = `(?:${BATH}|${rinse})`;
  const list = `(?<list>${one}(?: (?:and |then |and then )?(?:with )?${one})*)`;
  const film =
    '(?:film|it|roll) (?:(?:has |had |is |was )?(?:been )?(?:had|through|done|seen|given|got)|(?:has |had )?been in|was in)(?: through)? ';
  const m = match(
    line,
    new RegExp(
      `^(?:i|we) (?:have |had )?(?:done|did|finished|given it|gave it|been through|went through|made) ${list}(?: before| earlier| (?:is|was) done)?$`,
    ),
    new RegExp(`^${film}${list}(?: before| earlier)?$`),
    new RegExp(
      `^${list} (?:is|are|was|were|have been|has been) (?:done|finished|over|behind (?:me|us|it)|complete|completed|through)(?: before| earlier)?$`,
    ),
    new RegExp(`^${list} (?:is|are|was|has been) done(?: and (?:rinsed|washed)(?: off| out)?)$`),
  );
  if (m?.list === undefined) return undefined;
  const baths = m.list
    .split(/ (?:and |then |with )*(?=_liquid|rins|wash|back|rem)/)
    .map((one) => (one.startsWith('_liquid') ? liquid(one.split(' ')[0]) : 'water'));
  if (/ and (?:rinsed|washed)(?: off| out)?$/.test(line)) baths.push('water');
  return several(baths.map((of) => made('had-before', { liquid: of })));
};

/** "I use plain water instead of the stop bath": water does its work. */
const waterFor: Reader = ({ line, liquid }) => {
  const water = '(?:plain |clean |tap |just |only |simple )*_liquid\\d+';
  const m = match(
    line,
    new RegExp(
      `^(?:i|we) (?:use|used|am using|will use|take|took|stop with|stopped with|will stop with|am taking|do|did|go with|want to use|always use) (?<by>${water}) (?:instead of|in place of|for|as|rather than|and no) (?<for>_liquid\\d+)$`,
    ),
    new RegExp(
      `^no (?<for>_liquid\\d+)(?: for me)? (?:i|we) (?:use|take|stop with|am using|go with|only use) (?<by>${water})(?: instead)?$`,
    ),
    new RegExp(`^(?<by>${water}) (?:instead of|in place of|for) (?<for>_liquid\\d+)$`),
  );
  const by = /_liquid\d+/.exec(m?.by ?? '')?.[0];
  const of = liquid(m?.for);
  if (liquid(by) !== 'water' || of === undefined || of === 'water') return undefined;
  return made('skip', { liquid: of, for: 'water' });
};

/** "I poured the developer into the wrong tank": the film is not in what was poured. */
const wrongTank: Reader = ({ line, liquid }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:i |we )?(?:have )?(?:poured|put|tipped|filled) (?<what>${BATH}|it|that) (?:in|into|in to) (?:wrong|other|empty|second|another) tank\\b.*$`,
    ),
    new RegExp(
      `^(?<what>${BATH}|it|that) (?:is|went|was poured|has gone|got|ended up) (?:in|into) (?:wrong|other|empty|second|another) tank\\b.*$`,
    ),
  );
  return m && made('tank-without-film', { liquid: liquid(m.what) });
};

/** "The fixer has done twelve films", "I developed two rolls with bottle two yesterday". */
export const usedBefore: Reader = ({ line, liquid, bottle, number }) => {
  const what = `(?<what>${BATH}|${BOTTLE})`;
  const count = `${ABOUT}(?<n>_num\\d+|couple of|few)(?: (?:whole|other|more|test|old|black and white|colour|color|rolls? of|_format\\d+|_stock\\d+))* (?:films?|rolls?|cartridges?)`;
  const when =
    '(?: (?:(?:back )?(?:on|in|at|since|before|earlier|yesterday|today|last|this|already|so far|(?:the )?day before|weekend|monday|tuesday|wednesday|thursday|friday|saturday|sunday|week|month|night|morning|evening|afternoon|year|january|february|march|april|may|june|july|august|september|october|november|december|_num\\d+|days?|weeks?|months?|ago|time|and|with it|in it|through it)))*';
  const did =
    '(?:developed|processed|done|did|put|ran|run|had|souped|sent|took|pushed|used|fixed|bleached|taken)';
  const m = match(
    line,
    new RegExp(
      `^(?:i |we )(?:have |had )?${did} ${count}${when} (?:with|in|through|using|out of|from) ${what}${when}$`,
    ),
    new RegExp(
      `^(?:that )?${what} (?:has |had |was |is )?(?:already |been )*(?:did|done|seen|processed|developed|had|taken|used|run|through|got|fixed|bleached)(?: (?:for|on|with|through))? ${count}${when}(?: (?:and |but )?(?:i )?(?:have )?never (?:topped|replenished|refreshed)(?: it)?(?: up)?)?$`,
    ),
    new RegExp(
      `^(?:there (?:have|has) been )?${count}${when} (?:have |has |had )?(?:already )?(?:gone|went|been|passed|ran|run|were)(?: developed| done| processed| fixed| bleached)? (?:through|in|with) ${what}(?: in (?<b>${BOTTLE}))?${when}$`,
    ),
  );
  if (m?.what === undefined) return undefined;
  const films = { 'couple of': 2, few: 3 }[m.n ?? ''] ?? number(m.n);
  return made('bath-history', { liquid: liquid(m.what), bottle: bottle(m.b ?? m.what), films });
};

/** Words for what a film is that no sheet of its own needs: its kind, or a name on its box. Source: the makers' names. */
const FILM_KINDS: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:slide|slides|reversal|transparency|positive film|ektachrome|velvia|provia|e six|e _num\d+)\b/,
    'slide',
  ],
  [
    /\b(?:c forty one|c _num\d+|c41|colou?r print|still film|portra|ultramax|colou?rplus|colou?r plus|superia|ektar|kodak gold|cinestill|normal colou?r)\b/,
    'c41',
  ],
  [
    /\b(?:black and white|monochrome|bw|b w|b and w|tri ?x|t ?max|fomapan|ilford|hp (?:five|_num\d+)|fp (?:four|_num\d+)|delta|panchromatic|double (?:x|ex)|double ?x|plus x|_stock\d+ film)\b/,
    'black-and-white',
  ],
];
const STOCK_NUMBERS: Readonly<Record<number, string>> = {
  5219: '500T',
  7219: '500T',
  5207: '250D',
  7207: '250D',
  5203: '50D',
  7203: '50D',
  5213: '200T',
  7213: '200T',
};
const IT_IS =
  '(?:(?:it|this|that|film|roll|one|what (?:i|we) loaded|film in tank)(?: in (?:tank|it|here|reel))? (?:is|was)(?: not motion picture (?:it|film) is)?|(?:i|we) (?:have |am |are )?(?:loaded|loading|put in|shot|got|have|developing|doing|using)|there is|in (?:tank|it|here|reel) is)';

/** "It's a slide film", "it's C-41 film", "the film is 5219". */
const filmIs: Reader = ({ line, number, stock: stockOf, situations }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:oh |no |wait |but )*${IT_IS} (?:some |also |old |kodak |one |fuji )*(?<what>.+?)(?: (?:in (?:tank|it|here|there)|on reel))?(?: (?:and )?i (?:have )?(?:mixed up|swapped|confused|took|grabbed|loaded|picked)\\b.*)?$`,
    ),
  );
  if (!m?.what || situations.includes('mixing')) return undefined;
  const ofNumber = STOCK_NUMBERS[number(/^_num\d+(?= film$|$)/.exec(m.what)?.[0]) ?? 0];
  if (ofNumber) return made('films', { stock: ofNumber });
  if (
    m.what.split(' ').length > 9 ||
    !/\b(?:films?|rolls?|stock|negative|slides?|ektachrome|velvia|provia|portra|ultramax|ektar|superia|fomapan|ilford|(?:tri|double|plus) ?x)\b/.test(
      line,
    )
  )
    return undefined;
  const c = /\bc (_num\d+)/.exec(m.what)?.[1];
  if (c !== undefined && number(c) !== 41) return undefined;
  // "Double-X, the black and white stuff": the name says it
  const called = m.what.replace(/(?<=.) (?:it is |that is )?_stock\d+(?: stuff| one| kind)$/, '');
  const stock = FILM_KINDS.find(([said]) => said.test(called))?.[1];
  const said =
    stockOf(/_stock\d+(?= film| roll)/.exec(called)?.[0]) ?? (/_stock/.test(called) ? undefined : stock);
  return said === undefined ? undefined : made('films', { stock: said });
};

/** "Just looked at the can, it's black and white this": the film in the tank, whatever it was taken for. */
const kindSeen: Reader = ({ line, situations, stock: stockOf }) => {
  const m = match(
    line,
    /^(?:(?:i )?(?:have )?(?:just |only )*(?:looked|checked|read|seen|saw|noticed|found)(?: at| on| out)?(?: that)? (?:can|box|tin|canister|cassette|label|film|cartridge) (?:and |but )?(?:that )?)?(?:(?:it|this|that|film|roll|can|box|tin|canister|cassette|label|cartridge) (?:is|was|says|said|reads|has)|(?:it )?turns out (?:it is |to be )?)(?: (?:in fact|only|actually|it is|all|written|some))* (?<kind>.+?)(?: (?:film|films|roll|stuff|one|this|that|negative|on it|after all))*(?: (?:and |it is )?not (?:color|colour|motion picture|cinema|movie)\b.*)?$/,
  );
  const kind = m?.kind;
  if (kind === undefined || situations.includes('mixing') || kind.split(' ').length > 4) return undefined;
  const whole = stockOf(kind) ?? FILM_KINDS.find(([said]) => kind.replace(said, '').trim() === '')?.[1];
  const sure =
    /\b(?:film|roll|can|box|tin|canister|cassette|cartridge|label|not (?:colou?r|motion|cinema|movie))\b/.test(
      line,
    );
  return whole !== undefined && sure ? made('films', { stock: whole }) : undefined;
};

/** "I opened the tank and had a look", "somebody switched on the light": light was where the film is. */
const lightIn: Reader = ({ line, situations }) =>
  !situations.includes('hanging') &&
  (/^(?:i |we )?(?:have |had )?(?:opened|took|taken|lifted|removed|lost|pulled) (?:open )?(?:tank|lid|cap|top)(?: off| up)?(?: of tank)?(?:(?: for| to| and| in| by| while| too| with| before| without| too early)\b.*)?$/.test(
    line,
  ) ||
    /^(?:lid|cap|top)(?: of tank)? (?:came|fell|popped|slipped|is|was|has come|flew|jumped) (?:off|open|up)\b.*$/.test(
      line,
    ) ||
    /^(?:i |we )?(?:have )?(?:switched|turned|put|flipped) (?:on )?(?:room |big |ceiling |main )?(?:light|lights|lamp)(?: on)?\b.*$/.test(
      line,
    ) ||
    /^(?:room |big )?(?:light|lights|lamp) (?:was|were|went|is|are|has been|have been|came|got|fell|leaked) (?:on|in|switched on|turned on|into tank|to film)\b.*$/.test(
      line,
    )) &&
  !/\b(?:when|can i|may i)\b/.test(line)
    ? made('ask-advice', { topic: 'light-got-in' })
    : undefined;

/** By whom ever: "he has come in and put the big light on". */
const lightPutOn: Reader = ({ line, situations }) =>
  LIGHT_PUT_ON.test(line) &&
  (situations.includes('loading') || /\b(?:film|reel|spiral|roll|spool)\b/.test(line)) &&
  !situations.includes('hanging') &&
  !/\b(?:when|can|may|must|should|do not|never|not|nobody|if|before|until|will|radio|tv|yesterday|says)\b/.test(
    line,
  )
    ? made('ask-advice', { topic: 'light-got-in' })
    : undefined;
const LIGHT_PUT_ON =
  /\b(?:put|switched|turned|flicked|flipped|knocked|hit|left|got) (?:\w+ ){0,2}(?:lights?|lamp|torch)(?: back)? on\b|\b(?:put|switched|turned|flicked|flipped|knocked) (?:back )?on (?:\w+ ){0,2}(?:lights?|lamp|torch)\b|\b(?:opened|came through) (?:\w+ )?door\b.*\blight\b/;

/** What a report of a bath that is in, or just out, comes to: "it was in for four minutes", "it's been out for 20 seconds". */
const inOrOut: Reader = ({ line, seconds, situations }) => {
  const wet = situations.includes('immersed') || situations.includes('draining');
  const out = match(
    line,
    new RegExp(
      `^(?:it|that|${BATH}) (?:is|has|has been|is been)(?: been)? out(?: of tank)? (?:for|since) (?:about )?(?<s>_duration\\d+)$`,
    ),
  );
  if (wet && out) return made('tank-empty', { agoS: seconds(out.s) });
  if (
    situations.includes('draining') &&
    /^(?:it|that) was in (?:tank )?for (?:about )?_duration\d+(?: in all| altogether)?$/.test(line)
  )
    return made('tank-empty', {});
  const still = match(
    line,
    new RegExp(
      `^(?:i (?:have )?(?:nodded off|dozed off|fell asleep|lost track(?: of (?:it|time))?|forgot(?: about)? (?:it|time)|was asleep) (?:and )?)?(?<of>${BATH}|it) is still (?:in|inside|in there|in it)(?: tank)?(?: (?:is not it|isn't it|isnt it|right))?$`,
    ),
  );
  if (wet && still) return made('resume-clock', {});
  return undefined;
};

/** "The phone rang, I was away for two minutes": what went on meanwhile. */
const wasAway: Reader = ({ line }) =>
  /^(?:(?:phone|doorbell|door bell|bell|telephone) (?:rang|was ringing) )?(?:and |so )?i was (?:away|gone|out|distracted|on phone|at door|not here|called away|interrupted)(?: for (?:about )?_duration\d+)?(?: and (?:am |i am )?back)?$/.test(
    line,
  )
    ? made('resume-clock', {})
    : undefined;

/** "Rinsed", "I rinsed it twice with water": the rinse that was due. */
const rinsed: Reader = ({ line, seconds, number, liquid, situations }) => {
  if (!situations.includes('pouring') || situations.includes('spill')) return undefined;
  const rinsedIt =
    /\b(?:rinsed|washed)\b/.test(line) &&
    !UNRINSED.test(line) &&
    (line.match(/_liquid\d+/g) ?? []).every((of) => liquid(of) === 'water') &&
    madeOf(line, OF_A_RINSE, /^_(?:num|duration|liquid)\d+$/);
  const done = match(
    line,
    /^(?:all )?(?:(?<n>_num\d+) (?:rinses?|wash(?:es)?|fills?|changes?(?: of water)?)|rinses?|rinsing|wash(?:es|ing)?)(?: (?:is|are|have been))? (?:done|over|finished|complete|completed)$/,
    /^(?:i |we )?(?:have )?(?:did|done|made|gave it) (?:all )?(?<n>_num\d+) (?:rinses?|wash(?:es)?|fills?|changes?(?: of water)?)(?: is)?$/,
  );
  if (done) return made('had-before', { liquid: 'water', seconds: done.n && (number(done.n) ?? 0) * FILL_S });
  if (!rinsedIt) return undefined;
  const { s, n } = /(?<s>_duration\d+)|(?<n>_num\d+) times/.exec(line)?.groups ?? {};
  const times = / twice\b/.test(line) ? 2 : number(n);
  return made('had-before', { liquid: 'water', seconds: seconds(s) ?? (times && times * FILL_S) });
};
const OF_A_RINSE = words(
  EXCLAIMED,
  'i we have rinsed washed it film tank that well with water in under tap out off twice again times for about of then',
  'before told you tell said mentioned already too just never forgot to earlier myself say',
);
const UNRINSED = /\b(?:never|not|forgot)\b(?! (?:told|tell|to tell|said|to say|say|mentioned)\b)/;
/** One fill of a rinse, s. Source: common practice. */
const FILL_S = 10;

/** "Bottle three is half full". */
const partFull: Reader = ({ line, bottle }) => {
  const m = match(
    line,
    new RegExp(
      `^(?<b>${BOTTLE}) (?:is|was) (?:only |about |just |still )*(?<how>half full|half empty|half|nearly empty|almost empty|nearly full|almost full|quarter full|third full|three quarters full)$`,
    ),
  );
  const share = { half: 0.5, near: 0.1, almo: 0.1, quar: 0.25, thir: 1 / 3, thre: 0.75 }[
    m?.how?.slice(0, 4) ?? ''
  ];
  return (
    m &&
    made('bottle-holds', {
      bottle: bottle(m.b),
      share: / full$/.test(m.how ?? '') && /^(?:near|almo)/.test(m.how ?? '') ? 0.9 : share,
    })
  );
};

/** "I poured the stop into the developer bottle", "it went in the fixer's bottle": all that was in hand. */
const intoBottleOf: Reader = ({ line, liquid, due, situations }) => {
  const back = due.find((d) => d.type === 'pour-back')?.liquid;
  const what = `(?<what>${BATH}|it|that|all|everything|lot|jug|tank)(?: of it| bath)?`;
  // what leaves the tank goes into a bottle, whether that is said or not
  const bottle = `(?<bottle> (?:is )?(?:bottle|one|jug))${back === undefined ? '' : '?'}`;
  const into = `(?:back |straight |right )?(?:in|into|in with) (?<into>${BATH})${bottle}(?: instead)?`;
  const done =
    '(?:accidentally |only |just )?(?:gone and )?(?:poured|put|tipped|returned|emptied|dumped|drained|chucked|bunged)';
  const moved = match(
    line,
    new RegExp(`^(?:i |we )?(?:have )?${done} ${what} ${into}$`),
    new RegExp(`^${what} (?:is |has |have )?(?:went|gone|ended up|got|been put) ${into}$`),
  );
  const m = moved ?? match(line, new RegExp(`^${what} is ${into}$`));
  const to = liquid(m?.into);
  const named = liquid(m?.what);
  // what "it" is the sink knows: what was in the tank, or left it last
  if (to !== undefined && m?.bottle && named === undefined && back === undefined)
    return situations.includes('pouring')
      ? made('poured', { toOf: to })
      : moved && bathInTank(situations)
        ? made('poured', { from: { kind: 'tank' }, toOf: to })
        : undefined;
  const from = named ?? back;
  if (to === undefined || from === undefined) return undefined;
  if (from === to) return made('poured', { liquid: from, from: { kind: 'tank' } });
  return made('contaminated', { liquid: from, intoLiquid: to });
};

/** "The heater is broken", "the power is out". */
const noHeat: Reader = ({ line }) =>
  /^(?:heater|power|electricity|immersion heater|sous vide)(?: (?:is|has|was))? (?:broken|off|dead|stopped|died|failed|out|gone|cut|went off|went out|went|broke)(?: off| out| down)?$/.test(
    line,
  )
    ? made('heater', { on: false })
    : undefined;

/** "The carbonate was baking soda", "I used soda instead of sulphite": another thing is in the water. */
const otherPowder: Reader = ({ line, situations, substance }) => {
  if (!situations.includes('mixing')) return undefined;
  const m = match(
    line,
    new RegExp(
      `${OH}(?:what i (?:took|used|put in|thought was) )?(?!what|is|was|how)(?<a>(?:_substance\\d+|_liquid\\d+|[a-z]+)(?: (?:powder|jar|bag))?) (?:was|is|were)(?: in fact| in truth| really| actually)? (?<b>${A_SALT})(?: (?:and )?(?:not|instead of) .*)?$`,
    ),
    new RegExp(
      `${OH}(?:i |we )(?:have )?(?:used|took|taken|put in|added|weighed|grabbed|poured in) (?<b>${A_SALT}|[a-z]+(?: [a-z]+)?) (?:instead of|in place of|rather than|not|for) (?<a>${A_SALT}|_liquid\\d+)(?: [a-z]+)?(?: for (?:that|this|last|one| )+)?$`,
    ),
    new RegExp(
      `${OH}(?:i |we )(?:have )?(?:used|took|taken|put in|added|weighed|grabbed|poured in) (?<b>${A_SALT}) (?:instead of|in place of|rather than|not|for) (?<a>[a-z]+)(?: [a-z]+)?$`,
    ),
    /^(?:i |we )(?:have )?(?:used|took|taken|put in|added|weighed|grabbed|poured in) (?<b>_substance\d+)(?: (?:instead|by mistake|by accident|in its place|in place of it|for it))+$/,
  );
  const put = m && (substance(m.b) ?? m.b?.replace(/ /g, '-'));
  return m && m.a !== m.b ? made('reading', { value: 0, substance: put, added: true }) : undefined;
};
const OH = '^(?:(?:wait|oh|no|oops|damn|sorry|hang on|actually|i think) )*';
const A_SALT = `(?:_substance\\d+|${SALTS}|sulfate|bicarb)`;

/** "I put that in twice", "the carbonate went in twice". */
const inTwice: Reader = ({ line, situations, substance, amount }) => {
  if (!situations.includes('mixing')) return undefined;
  const m = match(
    line,
    /^(?:i (?:think|believe|fear) )?(?:i |we )?(?:have |must have |may have |might have )?(?:put|added|poured|tipped)(?: in)? (?:(?<much>_(?:mass|volume)\d+)(?: of)? ?)?(?<what>_substance\d+|[a-z]+)??(?: ?(?:in|into it|to it|in there|powder|one))* ?(?<n>twice|two times|double|three times)(?: (?:over|by mistake|by accident|now|i think|did i say|you know))*$/,
  );
  const what = /^(?:it|that|this|one)$/.test(m?.what ?? 'it') ? undefined : (substance(m?.what) ?? m?.what);
  const times = m?.n === 'three times' ? 3 : 2;
  const each = m?.much === undefined ? { value: 0 } : amount(m.much);
  return m && each && made('reading', { ...each, substance: what, added: true, times });
};

/** "The other one", to a question of one bottle: not this one. */
const otherOne: Reader = ({ line, situations }) =>
  situations.includes('challenged') &&
  /^(?:no )?(?:not (?:this|that) one|other one|other bottle|other|from other one)$/.test(line)
    ? made('withdraw', { wrong: true })
    : undefined;

/** "Only nine thirty of the fixer came back", "the bleach came back at 950", "nine forty in two". */
const cameBack: Reader = ({ line, situations, liquid, bottle, number, volumeMl }) => {
  if (situations.includes('mixing')) return undefined;
  const many = `(?:only |just )?${ABOUT}(?:only )?(?<ml>_volume\\d+|_num\\d+)(?: or so| ish| maybe| milliliters)?`;
  const m = match(
    line,
    new RegExp(
      `^(?:(?:and|but) )?(?:i |we )?(?:have )?(?:only )?(?:got |poured |put |returned )?${many}(?: (?:of|from)(?: (?<what>${BATH}|it|that))?)?(?: (?:is|was|has|have|came|come|went|got|made it|all|going))* back(?: (?:in|into|to) (?<to>${VESSEL})| in| out)?(?: all told| altogether| in all| this time)?$`,
    ),
    new RegExp(
      `^(?:(?:and|but) )?(?<what>${BATH}|it) (?:is |was |has )?(?:only )?(?:came|come|went|got)? ?back(?: (?:in|into|to) (?<to>${VESSEL}))?(?: (?:at|with|as|short at|to|and is))? ${many}$`,
    ),
    new RegExp(
      // a bath by its name may have got into another
      `^${many} (?:of it )?(?:is |went |got |made it )?(?:in|into) (?<to>${VESSEL})$`,
    ),
    new RegExp(
      `^(?:it |that )?(?:came|comes|measured|measures) (?:out )?(?:to |at )?${many} (?:when|as|after) (?:i )?(?:had )?(?:poured|put|tipped) (?:(?<what>${BATH}|it) )?back(?: (?<late>${BATH}))?$`,
    ),
    situations.includes('draining')
      ? new RegExp(
          `^(?:it|she|level|bottle|side|scale) (?:is |was )?(?:reads?|reading|says|shows|showing|measures|stands? at|standing at) ${many}(?: (?:on|by|at|off) (?:side|scale|marks?|bottle|label|cylinder|jug))*$`,
        )
      : NEVER,
  );
  const amount = volumeMl(m?.ml) ?? number(m?.ml);
  if (!m || amount === undefined || amount < LEAST_BACK_ML || amount > MOST_BACK_ML) return undefined;
  const into = bottle(m.to);
  const of = liquid(m.what ?? m.late);
  if (!bathInTank(situations) && into === undefined)
    return of === undefined ? undefined : made('bottle-holds', { liquid: of, volumeMl: amount });
  return into === undefined
    ? made('poured', { liquid: of, volumeMl: amount, from: { kind: 'tank' } })
    : made('bottle-holds', { bottle: into, liquid: of, volumeMl: amount });
};
const NEVER = /(?!)/;
/** What comes back from a tank that somebody holds, ml. Source: common practice. */
const [LEAST_BACK_ML, MOST_BACK_ML] = [50, 5000];

/** "The scales have been on ounces the whole time", "I weighed all of it in grains": of the last weighing, or of all in this mix. */
const scaleWas: Reader = ({ line }) => {
  const unit = '(?<unit>ounces?|grains?|kilos|kilograms|milligrams)';
  const m = match(
    line,
    new RegExp(
      `\\b(?:scales?|balance)\\b.* (?:in|on|to|show(?:s|ing|ed)?|reads?|reading|says|said) ${unit}\\b`,
    ),
    new RegExp(`\\bweighed (?:(?:it|them|that|this|all|everything|every|one|of) )+in ${unit}\\b`),
  );
  if (!m || /\b(?:not|never|if|whether|should|grams)\b/.test(line)) return undefined;
  const all =
    /\b(?:whole time|all (?:along|this time|of (?:it|them))|all time|from start|from beginning|everything|it all|every one|always)\b/.test(
      line,
    );
  return made('correct', { unit: SCALE_UNITS[m.unit?.slice(0, 3) ?? ''], all: all || undefined });
};
const SCALE_UNITS: Readonly<Record<string, string>> = { oun: 'oz', gra: 'grain', kil: 'kg', mil: 'mg' };

export const RECOUNTED: readonly Reader[] = [
  scaleWas,
  cameBack,
  standIn,
  wentInto,
  parted,
  leaked,
  lost,
  doneBefore,
  waterFor,
  takenBack,
  wrongTank,
  filmIs,
  lightIn,
  otherPowder,
  inTwice,
  otherOne,
  inOrOut,
  wasAway,
  rinsed,
  partFull,
  intoBottleOf,
  noHeat,
];

/** Of days that are past, and with words that tell elsewhere of others. */
export const RECOUNTED_OF_OTHERS: readonly Reader[] = [
  kindSeen,
  usedBefore,
  readAnew,
  ofTheTub,
  readEarlier,
  lightPutOn,
];
