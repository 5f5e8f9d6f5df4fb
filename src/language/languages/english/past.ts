import type { Moment } from '../../../process/desk.js';
import type { Intent, IntentOf } from '../../../process/intent.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import type { Grammars } from '../../load.js';
import { openFor } from '../../open/understand.js';
import { clausesOf } from './clauses.js';
import { BATH, bottleRef, made, match, type Sentence, sentenceOf, VESSEL } from './sentence.js';
import { asTold } from './telling.js';
import { mayHaveBeen } from './told.js';
import { normaliseTyped } from './typed.js';

/** What one clause tells of a bath: that it went in, how long it was in, that it is out. Times in s before now. */
type Event =
  | { type: 'in'; liquid?: LiquidId; from?: VesselRef; agoS?: number; stayS?: number }
  | { type: 'stay'; stayS: number }
  | { type: 'out'; to?: VesselRef; agoS?: number };

const LEAD = '^(?:(?:then|after that|next|so|oh|sorry|i should have said|forgot to say|no) )*';
const TIME = '(?: for| about| good| like| or so| since)*';
const AGO = `(?:${TIME} (?<ago>_duration\\d+) ago)?`;
const STAY = `(?:${TIME} (?<stay>_duration\\d+))?`;
const TAIL =
  '(?: (?:straight after(?: that| it)?|right after(?: that| it)?|after that|then|again|too|next))*$';
const IS = '(?:is|was|has|went|gone|been|got|came|had|i put|i poured|all|straight|right)';
const PUT = '(?:poured|put|tipped|got|did|gave it|used)';
const FROM = `(?: (?:from|out of) (?<from>${VESSEL}))?`;
const TO = `(?:back )?(?:in|into|to)(?: its)?(?: bottle)? (?<to>${VESSEL})`;

/** "Stop went in from three", "water has been in a minute", "I did the bleach". */
const IN = [
  new RegExp(
    `${LEAD}(?<what>${BATH})(?: ${IS})* in(?: tank)?${FROM}(?: ${IS})*${AGO}${STAY}(?: (?:from|out of) (?<late>${VESSEL}))?${TAIL}`,
  ),
  new RegExp(
    `${LEAD}(?:i |we )?(?:have )?${PUT} (?:in )?(?<what>${BATH})(?: in(?: tank)?)?${FROM}${AGO}${STAY}${TAIL}`,
  ),
  new RegExp(`${LEAD}(?<what>${BATH})(?: ${IS})* done${AGO}${STAY}${TAIL}`),
];
/** "Had its half minute", "gave it forty seconds". */
const STAYED = [
  new RegExp(
    `${LEAD}(?:(?:it|that) )?(?:had|has had|got|gave it|left it(?: in)?|was in|stayed in|had been in|for|after)(?: its| it is| full| whole| good| about| for)* (?<stay>_duration\\d+)(?: in all)?${TAIL}`,
  ),
  new RegExp(`${LEAD}(?<stay>_duration\\d+)${TAIL}`),
];
/** "Then out", "it's back in three", "tank's empty", "dumping it now". */
const OUT = [
  new RegExp(`${LEAD}(?:(?:it|that|${BATH}) )?(?:${IS} )*(?:back )?out(?: of tank)?${AGO}${TAIL}`),
  new RegExp(`${LEAD}(?:(?:it|that|${BATH}) )?(?:${IS} )*(?:out )?${TO}${AGO}${TAIL}`),
  new RegExp(`${LEAD}tank (?:is|was) (?:empty|dry)${AGO}${TAIL}`),
  new RegExp(
    `${LEAD}(?:i |we )?(?:have )?(?:poured|tipped|dumped|dumping|drained|threw|thrown|emptied) (?:it|that|${BATH})(?: out| away| down sink| down drain)?${AGO}${TAIL}`,
  ),
];

function eventIn({ line, liquid, bottle, seconds }: Sentence): Event | undefined {
  const stay = match(line, ...STAYED);
  const stayS = seconds(stay?.stay);
  if (stayS !== undefined) return { type: 'stay', stayS };
  const out = match(line, ...OUT);
  if (out) return { type: 'out', ...given({ to: bottleRef(bottle(out.to)), agoS: seconds(out.ago) }) };
  const into = match(line, ...IN);
  return (
    into && {
      type: 'in',
      ...given({
        liquid: liquid(into.what),
        from: bottleRef(bottle(into.from ?? into.late)),
        agoS: seconds(into.ago),
        stayS: seconds(into.stay),
      }),
    }
  );
}

const given = <T extends object>(fields: T): { [K in keyof T]?: NonNullable<T[K]> } =>
  Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined)) as {
    [K in keyof T]?: NonNullable<T[K]>;
  };

/**
 * Baths that went in and came out, told in one line afterwards: "the water went in a minute ago, then out, and now the fixer's in". Each
 * counts from when it was. Undefined: the line tells something else, or of one bath alone.
 */
export function toldInTurn(
  line: string,
  now: Moment,
  grammars: Grammars,
  read: (rest: string, then: Moment) => Intent | undefined,
): Intent | undefined {
  const parts = clausesOf(line);
  if (parts.length < 2 || /\?/.test(line) || now.situations.includes('mixing')) return undefined;
  const clauses = parts
    .map((text) => ({ text, said: sentenceOf(asTold(normaliseTyped(text), grammars), now, grammars) }))
    .filter(({ said }) => said.line !== '' && !BESIDE.test(said.line));
  const { mayAct } = openFor(grammars);
  if (clauses.length < 2 || !clauses.every(({ said }) => mayAct(said.plain.split(' ')))) return undefined;
  const events: Event[] = [];
  let rest: Intent | undefined;
  for (const [i, { text, said }] of clauses.entries()) {
    const event = eventIn(said);
    if (!event && events.length === 0 && isChatter(said, grammars)) continue;
    if (!event) {
      // what comes last may be what is done now
      const inTank = events.at(-1)?.type === 'in';
      if (i < clauses.length - 1 || events.length < 2) return undefined;
      rest = read(text, { ...now, situations: [inTank ? 'immersed' : 'pouring'] });
      if (!rest) return undefined;
      break;
    }
    const last = events.at(-1);
    // "it's back in three, tank's empty": once
    if (event.type === 'out' && last?.type === 'out') {
      if (event.agoS !== undefined) last.agoS ??= event.agoS;
      if (event.to !== undefined) last.to ??= event.to;
    } else if (event.type === 'stay') {
      if (last?.type !== 'in' || last.stayS !== undefined) return undefined;
      last.stayS = event.stayS;
    } else events.push(event);
  }
  const entered = events.filter((e) => e.type === 'in');
  if (entered.length === 0 || events.length < 2) return undefined;
  // a bath that came and went without a time is asked about
  const timed = events.every((e, i) => e.type !== 'in' || events[i + 1] === undefined || e.agoS || e.stayS);
  if (!timed) return undefined;
  const intents = reckoned(events).map((e) => intentOf(e));
  const facts = intents.flatMap((i) => i ?? []);
  return facts.length === intents.length
    ? { type: 'several', intents: rest ? [...facts, rest] : facts }
    : undefined;
}

/** What begins to say that something else may have gone in, behind what is told; and such words that say no more than that. */
const DOUBT_BEGINS =
  /(?:[,;.!?\u2026]+\s*|\s+-+\s+|\s+)(?:(?:but|though|although|only|and|or|well|um|uh|er|oh|now|actually|wait)[\s,]+)*(?=(?:(?:i(?:['\u2019]m| am)? )?(?:not (?:so |at all |quite |completely |totally |entirely )?sure|(?:fairly|pretty) sure|think|fear|suspect|reckon|guess|believe|afraid|worried|wonder(?:ing)?)|i (?:might|may|could)|unsure|maybe|perhaps|possibly|probably|might|may|could|(?:it|that|this)(?: (?:might|may|could)|['\u2019]s maybe|['\u2019]ll be))\b)/gi;
const NO_MORE_THAN_A_DOUBT =
  /^(?:(?:i )?(?:think|believe|guess|reckon|suppose|suspect|fear)|i(?:['\u2019]m| am) not (?:quite |so |at all |entirely )?sure|not (?:quite |so |at all |entirely )?sure|maybe|perhaps|possibly|probably)[\s.!]*$/i;

/**
 * "The stop's in but it might have been the final rinse": that it is in stands, and so does the doubt. A bath other than the one that is
 * due, "the bleach is in, I think", may have been that.
 */
export function toldInDoubt(
  line: string,
  now: Moment,
  grammars: Grammars,
  read: (rest: string) => Intent | undefined,
): Intent | undefined {
  const due = now.due.find((d) => d.type === 'bath-in')?.liquid;
  for (const begins of line.matchAll(DOUBT_BEGINS)) {
    const tail = line.slice(begins.index + begins[0].length);
    const bare = NO_MORE_THAN_A_DOUBT.test(tail);
    const said = sentenceOf(
      asTold(normaliseTyped(tail), grammars),
      { ...now, situations: ['immersed'] },
      grammars,
    );
    const doubt = bare ? made('in-doubt', { suspect: due }) : mayHaveBeen(said);
    const told = doubt && read(line.slice(0, begins.index));
    if (
      !told ||
      !isIn(told) ||
      (bare && (due === undefined || told.liquid === undefined || told.liquid === due))
    )
      continue;
    return { type: 'several', intents: [told, doubt] };
  }
  return undefined;
}
const isIn = (told: Intent): told is IntentOf<'bath-in' | 'poured'> =>
  told.type === 'bath-in' ||
  (told.type === 'poured' &&
    told.from?.kind !== 'tank' &&
    (told.to === undefined || told.to.kind === 'tank'));

/** Said before or beside such a report. */
const BESIDE =
  /^(?:(?:oh|sorry|so|and|i|we|should|shoulda|have|no|said|told|you|forgot|to|say|tell|right|okay) ?)+$/;

/** What comes before a report and speaks of nothing here: "got talking to next door". */
const isChatter = ({ line, plain }: Sentence, grammars: Grammars): boolean =>
  !line.includes('_') && !openFor(grammars).mentions(plain.split(' ')) && !UNSURE.test(plain);
const UNSURE =
  /n't\b|\b(?:not|never|if|when|whether|should|would|could|might|maybe|almost|nearly|going|about|will|says?|said|told|tells?|jok\w+|kidding|imagine|wait|forget|ignore|scrap|wrong|think|sure)\b/;

/** When each was, from the last one back: what was not said follows from what was. */
function reckoned(events: readonly Event[]): Event[] {
  let laterS = 0;
  const back = [...events].reverse().map((e, i, all) => {
    if (e.type === 'stay') return e;
    const next = all[i - 1];
    const stayS = e.type === 'in' ? e.stayS : undefined;
    const agoS = e.agoS ?? (stayS === undefined ? laterS : (next ? laterS : 0) + stayS);
    laterS = Math.max(laterS, agoS);
    return { ...e, agoS };
  });
  // out after its time, where that was said
  return back.reverse().map((e, i, all) => {
    const before = all[i - 1];
    if (e.type !== 'out' || events[i]?.type !== 'out' || before?.type !== 'in' || before.stayS === undefined)
      return e;
    const told = events[i];
    return told.agoS === undefined ? { ...e, agoS: Math.max(0, (before.agoS ?? 0) - before.stayS) } : e;
  });
}

function intentOf(event: Event): Intent | undefined {
  if (event.type === 'stay') return undefined;
  const ago = event.agoS ? { agoS: event.agoS } : {};
  if (event.type === 'out')
    return event.to
      ? made('poured', { from: { kind: 'tank' }, to: event.to, ...ago })
      : made('tank-empty', ago);
  const { liquid, from } = event;
  return from
    ? made('poured', { liquid, from, to: { kind: 'tank' }, ...ago })
    : made('bath-in', { liquid, ...ago });
}
