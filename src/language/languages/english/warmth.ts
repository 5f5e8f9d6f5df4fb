import { limits } from '../../../limits.js';
import type { Intent } from '../../../process/intent.js';
import { MOVING } from '../../meaning/situations.js';
import {
  ABOUT,
  BATH,
  bathInTank,
  bottleRef,
  made,
  madeOf,
  match,
  type Reader,
  several,
  VESSEL,
  words,
} from './sentence.js';

/** What is told of how warm it is, and no grammar has: several readings in a row, one of what nobody named, a number by itself for one that is asked about. */

/** "Stop", "rinse" and "fix" alone are no names of a bath but beside how warm it is. */
const SHORT: Readonly<Record<string, string>> = { stop: 'stop', rinse: 'final-rinse', fix: 'fixer' };
const ALL = words('all both each every everything bottles baths');
const OTHERS = words('rest others other else');
const BUT = words('but except apart bar save besides not');
const OF_SEVERAL = new Set([
  ...[...ALL, ...OTHERS, ...BUT, ...Object.keys(SHORT)],
  ...words(
    'tub is are was at reads shows says now about around roughly maybe nearly almost over and while then',
  ),
  ...words('degrees of for from them they it that which ones same on row ish touch bit little just under'),
]);

/** "Fixer's 30 and rinse is 35", "stop and bleach are both 38", "all 38 but the developer, which is 41.1", "everything else is 38". */
const inARow: Reader = ({ line, liquid, bottle, tempC, situations }) => {
  if (situations.includes('mixing') || !madeOf(line, OF_SEVERAL, /^_(?:num|degrees|liquid|bottle)\d+$/))
    return undefined;
  const read: (() => Intent | undefined)[] = [];
  const all: { tempC?: number; others?: true; except?: string } = {};
  // what was named since the last figure; whether it is all, and now those that are none of it
  let named: (string | undefined)[] = [];
  let [ofAll, but] = [false, false];
  for (const token of line.split(' ')) {
    const figure = /^_(?:num|degrees)/.test(token) ? tempC(token) : undefined;
    const open = ofAll && all.tempC === undefined;
    if (OTHERS.has(token) || (ALL.has(token) && named.length === 0)) {
      ofAll = true;
      if (OTHERS.has(token)) all.others = true;
    } else if (BUT.has(token)) but = ofAll;
    else if (token === 'tub' || SHORT[token] || /^_(?:liquid|bottle)/.test(token)) {
      const of = liquid(token) ?? SHORT[token];
      // one may be left out, and by its name
      if (but && (of === undefined || all.except !== undefined)) return undefined;
      if (but && of) all.except = of;
      if (!but || !open) named.push(token);
    } else if (/^_/.test(token) && figure === undefined) return undefined;
    else if (figure !== undefined && open && named.length === 0) {
      all.tempC = figure;
      read.push(() => made('all-at', all));
    } else if (figure !== undefined) {
      const of = named.map((n) =>
        n === 'tub' ? { kind: 'tub' } : (liquid(n) ?? bottleRef(bottle(n)) ?? SHORT[n ?? '']),
      );
      if (of.length === 0) return undefined;
      read.push(...of.map((o) => () => made('temperature', { of: o, tempC: figure })));
      named = [];
    }
  }
  if ((ofAll && all.tempC === undefined) || (named.length > 0 && !but)) return undefined;
  const told = several(read.map((one) => one()));
  return told?.type === 'temperature' && !SHORT[line.split(' ')[0] ?? ''] ? undefined : told;
};

const PROBE = '(?:thermometer|probe|sensor)';
/** "Now 41", "it's up to 41": of what was read last. */
const CHANGED = /\b(?:now|up|down|gone|risen|rose|dropped|fell|fallen|cooled|warmed|crept|climbed|come)\b/;
const SHOWN = /\b(?:says|reads|shows|showing|reading|gives)\b/;
const OF_A_READING = words(
  'i have got found took using there is it has and but so my mine that other another different new old second spare one which thermometer probe',
  'says reads shows showing reading gives at up down to gone went risen rose dropped fell fallen cooled warmed crept climbed come just only still',
  'degrees now about around roughly maybe nearly almost over with',
);
/** "Got another one, it says 42.5", "now 41", and "it's 41" while nothing but the tub is worked with: what was read is not said. */
const ofWhat: Reader = ({ line, plain, degrees, situations, due }) => {
  const said = line.replace(new RegExp(`\\b(?!_)\\w+ (?=${PROBE})`), '');
  const [figure, ...more] = line.split(' ').filter((t) => t.startsWith('_'));
  const read = degrees(figure);
  const about = situations.some((s) => s === 'mixing' || s === 'spill');
  if (about || more.length > 0 || !madeOf(said, OF_A_READING, /^_(?:num|degrees)\d+$/)) return undefined;
  if (read === undefined || read <= limits.fewBottles || read > limits.bathMostF) return undefined;
  const last = CHANGED.test(plain) && !new RegExp(`\\b${ANOTHER}\\b`).test(line);
  const warming = situations.includes('warming') && !situations.some((s) => MOVING.has(s));
  const heard =
    last ||
    (warming ? due.length === 0 || SHOWN.test(line) : SHOWN.test(line) && !situations.includes('pouring'));
  const of = bathInTank(situations) ? { kind: 'tank' } : undefined;
  return heard ? made('temperature', { of, tempC: read, last: (!of && last) || undefined }) : undefined;
};

const OF_AN_ANSWER = words(
  'i think guess it is was in of for from my mine one yes sorry no them tub',
  [...ALL, ...Object.keys(SHORT)].join(' '),
);
/** "No, 27.5", where a reading is asked about: of the same; "all of them", "it's the tub's", where it is asked what was read. */
const readAgain: Reader = ({ line, liquid, bottle, tempC, due }) => {
  const asked = due.find((d) => d.type === 'temperature');
  const tokens = line.split(' ');
  if (asked && asked.of === undefined && madeOf(line, OF_AN_ANSWER, /^_(?:liquid|bottle)\d+$/)) {
    const [of, ...more] = tokens.filter((t) => t === 'tub' || SHORT[t] || t.startsWith('_'));
    if (of !== undefined && more.length === 0)
      return made('part', {
        liquid: liquid(of) ?? SHORT[of],
        vessel: of === 'tub' ? { kind: 'tub' } : bottleRef(bottle(of)),
      });
    return of === undefined && tokens.some((t) => ALL.has(t))
      ? made('all-at', { tempC: asked.tempC })
      : undefined;
  }
  const m = match(
    line,
    /^(?:(?:no|sorry|wait|it is|it reads|it says|i mean|make that|now|at|actually) )*(?<c>_(?:num|degrees)\d+)(?: degrees)?(?: now)?$/,
  );
  const read = tempC(m?.c);
  return asked && read !== undefined ? made('temperature', { of: asked.of, tempC: read }) : undefined;
};

const OF_THE_SHEET = words(
  'it that was is just only what sheet book recipe says should ought to be supposed meant i we have had did do not never actually measured measure measuring read reading real check checked',
  "didn't wasn't haven't isn't take taken took number figure value one target aim guess guessed assumed made up yet no sorry wait but and so from temperature thermometer of in for at degrees properly tank tub",
);
/** What it should be is as well said beside a reading that was taken. */
const UNMEASURED =
  /(?:\b(?:not|never)\b|n't)(?: \w+){0,3}? (?:measur|read\b|reading\b|check|real reading)|\b(?:just|only) .*\b(?:what|target|aim|supposed|guess)/;
/** "41.1 is only what the sheet says", "I never measured that": it counts as no reading. */
const unmeasured: Reader = ({ line, plain, liquid, degrees, situations }) => {
  const tokens = line.split(' ');
  const [figure, ...more] = tokens.filter((t) => /^_(?:num|degrees)/.test(t));
  const [of, ...others] = tokens.filter((t) => t.startsWith('_liquid'));
  const known = madeOf(line, OF_THE_SHEET, /^_(?:num|degrees|liquid)\d+$/);
  if (!known || more.length + others.length > 0 || situations.includes('mixing')) return undefined;
  const named =
    figure ??
    of ??
    /\b(?:reading|measured?|read)\b/.exec(line)?.[0] ??
    /^(?:that|it) (?:was|is) (?:just |only )*(?:target|aim|what)/.exec(line)?.[0];
  return UNMEASURED.test(plain) && named !== undefined && !/^(?:what|do|did|have|is|was)\b/.test(line)
    ? made('undo', { reading: true, tempC: degrees(figure), of: figure ? undefined : liquid(of) })
    : undefined;
};

/** "Tank is 500", "bottle two's 600": no temperature is that. */
const takesSo: Reader = ({ line, number, bottle }) => {
  const m = match(
    line,
    /^(?:(?<tank>(?:my )?tank(?: size)?)|(?<of>_bottle\d+)) (?:is|has|holds)(?: about)? (?<ml>_num\d+)$/,
  );
  const volumeMl = number(m?.ml);
  if (!m || volumeMl === undefined || volumeMl <= limits.bathMostF || volumeMl % 10 > 0) return undefined;
  return m.tank ? made('tank-takes', { volumeMl }) : made('bottle-holds', { bottle: bottle(m.of), volumeMl });
};

/** "Prebath's out", with nothing in the tank and the bottles in the tub. */
const outOfTub: Reader = ({ line, liquid, bottle, situations }) => {
  if (!situations.includes('warming') || situations.some((s) => /pouring|immersed|draining|mixing/.test(s)))
    return undefined;
  const m = match(line, new RegExp(`^(?<of>${BATH}|${VESSEL}|stop) (?:is )?(?:now )?out(?: now)?$`));
  return (
    m &&
    made('vessel-moved', { of: liquid(m.of) ?? bottleRef(bottle(m.of)) ?? SHORT[m.of ?? ''], into: false })
  );
};

const SO_MUCH =
  '(?:about )?(?:(?<part>half|quarter) degrees?|(?:(?<n>_(?:num|degrees)\\d+|one)(?: degrees?)?|degrees?)(?<and> and half)?)';
const WAY =
  '(?:too )?(?:(?<high>high|much|hot|warm|over|above|more)|(?:low|little|cold|cool|under|below|less))(?: i think)?$';
/** Told anew, the last figure counts. */
const PUT_RIGHT = '(?:(?:no|nope|sorry|wait|actually|i mean|i meant|rather) )*';
const PARTS: Readonly<Record<string, number>> = { half: 0.5, quarter: 0.25 };

const ANOTHER = '(?:new|other|another|different|second|replacement|spare)';

/** "My thermometer reads half a degree high": so much is taken off what it shows. */
const thermometerOff: Reader = ({ line, degrees }) => {
  const m = match(
    line,
    new RegExp(
      `^${PUT_RIGHT}(?:it turns out )?(?:thermometer|probe) (?:always )?(?:reads|shows|is|runs|says|measures|is reading|is showing) ${SO_MUCH} ${WAY}`,
    ),
    new RegExp(
      `^${PUT_RIGHT}(?:(?:i|we|have|got|am|use|using) )*(?<anew>${ANOTHER}) (?:(?:thermometer|probe|one|and|but|which|that|it) )+(?:always )?(?:reads|shows|is|runs|is reading|is showing) ${SO_MUCH} ${WAY}`,
    ),
    new RegExp(
      `^${PUT_RIGHT}(?:it|that one) (?:always )?(?:reads|shows|runs|is reading|is showing) (?=.*degrees)${SO_MUCH} ${WAY}`,
    ),
    new RegExp(
      `^${PUT_RIGHT}(?:thermometer|probe|it) is (?:off|out|wrong) by ${SO_MUCH}(?: and)?(?: it| thermometer)?(?: reads| shows| is)? ${WAY}`,
    ),
  );
  if (!m) return undefined;
  const whole = PARTS[m.part ?? ''] ?? (m.n?.startsWith('_') ? degrees(m.n) : 1);
  return whole === undefined
    ? undefined
    : made('thermometer-reads', {
        byC: whole + (m.and ? 0.5 : 0),
        way: m.high ? 'high' : 'low',
        anew: m.anew ? true : undefined,
      });
};

/** Somebody else's, or one in a shop, measures nothing here. */
const IN_USE = /\b(?:i|we)\b|^(?:got|new|another|changed|swapped|switched|replaced|using|this|that|it|now)\b/;

/** "I have a new thermometer", "the new one reads right": what the one of before showed wrong ends with it. */
const anotherThermometer: Reader = ({ line }) => {
  if (
    /_(?:num|degrees|liquid|bottle)\d|\b(?:if|should|not|need|where|how|want|without|says)\b|^(?:is|can|could|may|does|do|what|which|or)\b/.test(
      line,
    )
  )
    return undefined;
  const right =
    /\b(?:thermometer|probe|one|it) (?:(?:is|reads|shows|seems|now) )*(?:right|fine|true|accurate|correct|correctly|spot on|good|ok|okay|zero in ice(?: water)?)(?: (?:now|again|after all|though))*$/.test(
      line,
    );
  const anew =
    IN_USE.test(line) &&
    new RegExp(
      `\\b${ANOTHER} (?:\\w+ )?(?:thermometer|probe)\\b|\\b(?:changed|swapped|switched|replaced) (?:my |the )?(?:thermometers?|probe)\\b`,
    ).test(line);
  return anew || (right && /\b(?:thermometer|probe)\b/.test(line))
    ? made('thermometer-reads', { byC: 0, way: 'high', anew: anew || undefined })
    : undefined;
};

const IN_ICE =
  /\b(?:ice(?:d)?(?: and)? (?:_liquid\d+|water|bath|slush)|(?:melting|crushed) ice|ice cubes|freezing point)\b/;
const IN_ICE_SHOWN = new RegExp(
  `(?:^| )(?:says|reads|shows|showed|gives|read|said|is at|stands at|at) ${ABOUT}(?<below>minus |-)?${SO_MUCH}(?<under> (?:below|under)(?: zero)?)?`,
);
/** "In ice water it shows one and a half": ice water is at zero, so that is what it reads too much. */
const inIceWater: Reader = ({ line, degrees }) => {
  if (!IN_ICE.test(line) || /\b(?:if|should|would|supposed|ought)\b/.test(line)) return undefined;
  const m = match(line, IN_ICE_SHOWN);
  const whole = m && (PARTS[m.part ?? ''] ?? (m.n?.startsWith('_') ? degrees(m.n) : 1));
  return whole === undefined
    ? undefined
    : made('thermometer-reads', {
        byC: whole + (m?.and ? 0.5 : 0),
        way: m?.below || m?.under ? 'low' : 'high',
      });
};

const READ =
  '(?:reading|temperature|figure|number|value|_(?:num|degrees)\\d+(?: degrees)?)(?: (?:i|that i) (?:have )?(?:read|told you|gave you|said|measured|just gave))?';
const OF_IT = `(?<of>${BATH}|_bottle\\d+|tub|jug)`;
const TAKEN_ELSEWHERE = [
  new RegExp(
    `\\b${READ} (?:was|came from|belongs to|is (?=in |of |from |that of )) *(?:(?:really|actually|only|just|in|of|for|from|that of) )*${OF_IT}(?!.* _(?:num|degrees)\\d+)`,
  ),
  new RegExp(
    `\\b(?:it|that|this) (?:was|is) (?:(?:really|actually|only|just|in|of|for|from|that of) )*${OF_IT}(?= .*\\b${PROBE} (?:was|is|stood|sat) (?:\\w+ )?in wrong\\b)`,
  ),
  new RegExp(
    `\\b${PROBE} (?:(?:was|is|has|been|still|stood|sat|stuck|all|along|really|actually|only) )*in ${OF_IT}(?: \\w+)*? (?:not|instead of|rather than) (?:in )?${BATH}`,
  ),
];
/** "That 41 was the tub", "the thermometer stood in the fixer, not the developer": the last reading is of that. */
const readElsewhere: Reader = ({ line, liquid, bottle, situations }) => {
  const m = situations.includes('mixing') ? undefined : match(line, ...TAKEN_ELSEWHERE);
  if (!m || /^(?:what|how|which)\b|\b(?:if|whether|should|maybe|might|could|not sure)\b/.test(line))
    return undefined;
  const kind = m.of === 'tub' || m.of === 'jug' ? m.of : undefined;
  return made('correct', {
    liquid: liquid(m.of),
    vessel: kind ? { kind } : bottleRef(bottle(m.of)),
    reading: true,
  });
};

const NOW_IT =
  '(?:(?:is|was|now|really|properly|actually|finally|back|right|standing|sitting|stands|sits) )*';
/** "The thermometer is really in the developer now, 41.1", "it shows 42.6 in the bleach, so it is really 41.1". */
const probeReads: Reader = ({ line, liquid, bottle, tempC, situations }) => {
  if (situations.includes('mixing') || /\b(?:if|not|should|other|another)\b/.test(line)) return undefined;
  const m = match(
    line,
    new RegExp(
      `^(?:\\w+ ){0,3}?${PROBE} ${NOW_IT}in ${OF_IT}(?: (?:now|and|it|reads|says|shows|is|at|really|instead))* (?<c>_(?:num|degrees)\\d+)(?: degrees)?(?: now)?$`,
    ),
    new RegExp(
      `^(?:\\w+ ){0,3}?${PROBE} (?:reads|says|shows|is at|gives) ${ABOUT}(?<shown>_(?:num|degrees)\\d+)(?: degrees)? in ${OF_IT}(?: now)?(?: (?:so|that|it|is|means|which|really|actually|in truth|then))* (?<c>_(?:num|degrees)\\d+)(?: degrees)?(?: really| then| now)*$`,
    ),
    new RegExp(
      `^(?:\\w+ ){0,3}?${PROBE} (?:reads|says|shows|is at|gives) ${ABOUT}(?<c>_(?:num|degrees)\\d+)(?: degrees)? in ${OF_IT}(?: now)?$`,
    ),
  );
  const read = tempC(m?.c);
  return m && read !== undefined
    ? made('temperature', {
        of: m.of === 'tub' || m.of === 'jug' ? { kind: m.of } : (liquid(m.of) ?? bottleRef(bottle(m.of))),
        tempC: read,
        // what it really is has the thermometer's error off already
        ...(m.shown && { byOther: true }),
      })
    : undefined;
};

/** "The power is back": and the heater with it. */
const powerBack: Reader = ({ line }) =>
  /^(?:(?:and|now|okay|right|finally) )*(?:power|electricity|current|mains|heater) (?:is|came|has come|comes)(?: now)? (?:back|on again)(?: on| again)?(?=$| (?!if|when))/.test(
    line,
  )
    ? made('heater', { on: true })
    : undefined;

const ONE_THERMOMETER = '(?:thermometer|probe|one|first|one thermometer|one of them)';
const SAYS = '(?:says|reads|shows|is|at|gives)';
/** "One says 40, the other 38": neither is taken; of a bath it is asked which, else how a thermometer is checked. */
const disagree: Reader = ({ line, liquid, bottle, tempC, due }) => {
  const m = match(
    line,
    new RegExp(
      `^(?:(?:for |of |in )?(?<first>${BATH}|${VESSEL}|tub) )?(?:${ONE_THERMOMETER} )*${SAYS} (?<a>_(?:num|degrees)\\d+)(?: degrees)?(?: (?:and|but|while))* (?:other|another|second)(?: one| thermometer)?(?: ${SAYS})?(?: only)? (?<b>_(?:num|degrees)\\d+)(?: degrees)?(?: (?:for|of|in) (?<last>${BATH}|${VESSEL}|tub))?$`,
    ),
  );
  if (
    !m &&
    !/\bthermometers (?:do not agree|don't agree|disagree|differ|say different|show different)/.test(line)
  )
    return undefined;
  const [a, b] = [tempC(m?.a), tempC(m?.b)];
  const named = m?.first ?? m?.last;
  const asked = due.find((d) => d.type === 'temperature')?.of;
  const of =
    named === 'tub' ? { kind: 'tub' as const } : (liquid(named) ?? bottleRef(bottle(named)) ?? asked);
  if (a === undefined || b === undefined || of === undefined)
    return made('ask-advice', { topic: 'thermometer' });
  return {
    type: 'unsure',
    candidates: [Math.min(a, b), Math.max(a, b)].map((c) => ({ type: 'temperature', of, tempC: c })),
  };
};

export const WARMTH: readonly Reader[] = [
  disagree,
  unmeasured,
  takesSo,
  powerBack,
  inIceWater,
  thermometerOff,
  anotherThermometer,
  readElsewhere,
  probeReads,
  inARow,
  readAgain,
  ofWhat,
  outOfTub,
];
