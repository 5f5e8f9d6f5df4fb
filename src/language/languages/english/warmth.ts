import { ABOUT, BATH, bottleRef, made, match, type Reader, VESSEL } from './sentence.js';

/** What is told of how warm it is, and no grammar has: several readings in a row, a number by itself for one that is asked about. */

/** "Stop", "rinse" and "fix" alone are no names of a bath but beside how warm it is. */
const SHORT: Readonly<Record<string, string>> = { stop: 'stop', rinse: 'final-rinse', fix: 'fixer' };
const OF = `(?:${BATH}|_bottle\\d+|tub|${Object.keys(SHORT).join('|')})`;
const IS = `(?:(?:is|was|at|reads|shows|says|now) |${ABOUT})*`;
const WARM = '_(?:num|degrees)\\d+(?: degrees)?';
const ONE = `${OF} ${IS}${WARM}`;
const AND = '(?: (?:and|but|while|then))*';

/** "Fixer's 30 and rinse is 35", "stop 38 bleach 38 fixer 38": each is a reading. */
const inARow: Reader = ({ line, liquid, bottle, tempC, situations }) => {
  if (situations.includes('mixing') || !new RegExp(`^(?:${ONE}${AND} ?)+$`).test(line)) return undefined;
  const read = [...line.matchAll(new RegExp(`(?<of>${OF}) ${IS}(?<c>_(?:num|degrees)\\d+)`, 'g'))].map(
    ({ groups = {} }) =>
      made('temperature', {
        of:
          groups.of === 'tub'
            ? { kind: 'tub' }
            : (liquid(groups.of) ?? bottleRef(bottle(groups.of)) ?? SHORT[groups.of ?? '']),
        tempC: tempC(groups.c),
      }),
  );
  const [first, ...others] = read.flatMap((r) => r ?? []);
  if (!first || others.length + 1 < read.length) return undefined;
  return others.length > 0
    ? { type: 'several', intents: [first, ...others] }
    : SHORT[line.split(' ')[0] ?? '']
      ? first
      : undefined;
};

/** "No, 27.5", where a reading is asked about: of the same. */
const readAgain: Reader = ({ line, tempC, due }) => {
  const asked = due.find((d) => d.type === 'temperature');
  const m = match(
    line,
    /^(?:(?:no|sorry|wait|it is|it reads|it says|i mean|make that|now|at|actually) )*(?<c>_(?:num|degrees)\d+)(?: degrees)?(?: now)?$/,
  );
  const read = tempC(m?.c);
  return asked && read !== undefined ? made('temperature', { of: asked.of, tempC: read }) : undefined;
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
const SHOWN = new RegExp(
  `(?:^| )(?:says|reads|shows|showed|gives|read|said|is at|stands at|at) ${ABOUT}(?<below>minus |-)?${SO_MUCH}(?<under> (?:below|under)(?: zero)?)?`,
);
/** "In ice water it shows one and a half": ice water is at zero, so that is what it reads too much. */
const inIceWater: Reader = ({ line, degrees }) => {
  if (!IN_ICE.test(line) || /\b(?:if|should|would|supposed|ought)\b/.test(line)) return undefined;
  const m = match(line, SHOWN);
  const whole = m && (PARTS[m.part ?? ''] ?? (m.n?.startsWith('_') ? degrees(m.n) : 1));
  return whole === undefined
    ? undefined
    : made('thermometer-reads', {
        byC: whole + (m?.and ? 0.5 : 0),
        way: m?.below || m?.under ? 'low' : 'high',
      });
};

const PROBE = '(?:thermometer|probe|sensor)';
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
  powerBack,
  inIceWater,
  thermometerOff,
  anotherThermometer,
  readElsewhere,
  probeReads,
  inARow,
  readAgain,
  outOfTub,
];
