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

/** "My thermometer reads half a degree high": so much is taken off what it shows. */
const thermometerOff: Reader = ({ line, degrees }) => {
  const m = match(
    line,
    new RegExp(
      `^${PUT_RIGHT}(?:it turns out )?(?:thermometer|probe) (?:always )?(?:reads|shows|is|runs|says|measures|is reading|is showing) ${SO_MUCH} ${WAY}`,
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
    : made('thermometer-reads', { byC: whole + (m.and ? 0.5 : 0), way: m.high ? 'high' : 'low' });
};

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

export const WARMTH: readonly Reader[] = [disagree, thermometerOff, inARow, readAgain, outOfTub];
