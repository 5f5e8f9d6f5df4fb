import type { Moment, Situation } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import type { Interpretation, Understood } from '../interpretation.js';
import { amountOf } from '../languages/english/fill.js';
import { intentKey } from '../meaning/meanings.js';
import { factsIn, isDeed, isQuestion, POURS } from '../meaning/weight.js';
import { placeOf } from './moments.js';
import type { Evidence, Ranker } from './ranker.js';

/** One meaning that a sentence or a clause of it may have. */
export interface Found {
  readonly intent: Intent;
  /** the situation in which it is said */
  readonly situation: Situation;
  readonly outOfPlace: boolean;
  /** whether people say it, and nobody here: it is asked about in no other place */
  readonly elsewhere: boolean;
  /** how many values were said that it has no place for */
  readonly left: number;
  /** the grammars or wordings have it word for word */
  readonly taught: boolean;
  /** how likely it is what these words mean, 0 to 1 */
  readonly p: number;
  /** whether the words negate it, doubt it, ask about it or tell it of somebody else */
  readonly forbidden: boolean;
  /** whether a word that no command was taught with may change it: one that is no English, or any */
  readonly strange: 'no' | 'english' | 'unknown';
}

/** What a sentence or a clause of it may mean, likeliest first, and how likely it is nothing of ours. */
export interface Reading {
  readonly words: string;
  readonly found: readonly Found[];
  readonly nothing: number;
  /** the grammars have it word for word */
  readonly exact: boolean;
  /** whether it ends with a question mark, or only has the form of a question */
  readonly asks: 'mark' | 'form' | 'no';
  /** whether it names a value, a bath or a vessel */
  readonly names: boolean;
  /** it puts right what was said before it in the line */
  readonly repairs?: boolean;
  /** which sentence of the line it is in */
  readonly sentence?: number;
}

/**
 * What each outcome costs; what costs least on the average is done. A question costs less when what is meant is among its
 * choices, and more when nobody spoke to us; to do a part of what is meant costs the question about the rest, to answer more than
 * was meant costs time, and a clause that nobody understood makes what is done beside it as many times dearer.
 */
const COST = {
  act: 4,
  told: 2,
  answer: 1.3,
  part: 0.5,
  extra: 0.2,
  unread: 5,
  ask: 1,
  meant: 0.5,
  disturb: 0.6,
  silence: 2,
};
/** How likely somebody is hurt, for that to go before all else; and nothing of ours, for it to be left alone. */
const SURE = { hurt: 0.4, nothing: 0.5, clause: 0.5, said: 0.8 };
/** Less likely meanings of the whole or of a clause are not looked at. */
const LEAST_CONSIDERED = 0.02;
/** A meaning as likely as this is worth a choice of its own. */
const LEAST_ASKED = 0.04;
const MOST_ASKED = 3;
/** What is as likely told beside what is done is asked about. */
const LEAST_OFFERED = 0.15;
/** A menu whose first choice is less likely than this offers nonsense. */
const LEAST_MENU = 0.12;
const LEAST_P = 1e-3;

interface Weighed extends Omit<Found, 'p'> {
  readonly evidence: Evidence;
  readonly p: number;
}

/** What is only written down and judged, and soon put right. */
const READINGS = new Set<Intent['type']>(['reading', 'ph-reading', 'temperature', 'made-up']);

const NEARLY = 0.25;

const log = (p: number): number => Math.log(p + LEAST_P);

/** Every meaning that the whole or a clause may have, and several facts together, each with what speaks for it and how likely that makes it. */
function weighed(
  whole: Reading,
  clauses: readonly Reading[],
  now: Moment,
  rank: Ranker,
): { found: Weighed[]; nothing: number } {
  const { due } = now;
  const parts = clauses.length > 0 ? clauses : [whole];
  const all = new Map<string, Found>();
  const named = clauses.some((c) => c.found[0]?.intent.type === 'part');
  for (const reading of [whole, ...clauses])
    for (const f of reading.found.slice(0, reading === whole ? 8 : 3)) {
      const key = intentKey(f.intent);
      if (f.p < LEAST_CONSIDERED || (reading !== whole && WHOLE_ONLY.has(f.intent.type))) continue;
      const known = all.get(key);
      // what a clause says plainly is so, whatever is asked behind it; but not what only names something beside it
      if (!known || f.p >= SURE.clause)
        all.set(key, {
          ...f,
          taught: reading === whole ? f.taught : (known?.taught ?? false),
          forbidden: f.forbidden && (known?.forbidden ?? true),
          left: named && known ? known.left : f.left,
        });
    }
  const share = (of: Reading, f: Found): number =>
    of.found.reduce((sum, g) => (agree(f.intent, g.intent) ? sum + g.p : sum), 0);
  const kind = (of: Reading, f: Found): number =>
    of.found.reduce((sum, g) => (f.intent.type === g.intent.type ? sum + g.p : sum), 0);
  const toldBy = toldIn(clauses, now);
  /** How much of what the clauses say is left out, if these alone were meant. */
  const dropped = (kept: readonly Found[]): number =>
    clauses.reduce((sum, c, i) => {
      const covers = (g: Found): boolean => !once([...kept, g].map((f) => f.intent)).includes(g.intent);
      const rest = toldBy[i]?.find((g) => !kept.some((f) => isOneFact(g.intent, f.intent)) && !covers(g));
      if (!rest || (!c.exact && kind(whole, rest) < LEAST_HINTED)) return sum;
      return kept.some((f) => share(c, f) > rest.p) ? sum : sum + rest.p;
    }, 0);
  const evidenceOf = (f: Found): Evidence => {
    const clause = Math.max(...parts.map((c) => share(c, f)));
    const match = due.find((d) => d.type === f.intent.type);
    const [wanted, got] = [match && amountOf(match), amountOf(f.intent)];
    return {
      whole: log(share(whole, f)),
      clause: log(clause),
      due: match ? 1 : 0,
      dueSaid: match && clause >= SURE.said ? 1 : 0,
      dueAmount: wanted && got && Math.abs(got - wanted) <= NEARLY * wanted ? 1 : 0,
      left: isDeed(f.intent) ? Math.min(f.left, 2) : 0,
      advice: f.intent.type === 'ask-advice' ? 1 : 0,
      forbidden: f.forbidden ? 1 : 0,
      strange: f.strange === 'no' ? 0 : 1,
      exact: parts.some((c) => c.exact && share(c, f) > 0.5) ? 1 : 0,
      clauseOnly: kind(whole, f) < 0.02 ? 1 : 0,
      taught: f.taught ? 1 : 0,
    };
  };
  // what a clause leaves out of what the whole says is not left out, nor what another says word for word
  const fuller = (f: Found): boolean =>
    clauses.some((c) => c.exact && c.found.some((g) => tellsMore(g.intent, f.intent))) ||
    whole.found.some(
      (g) =>
        g.p >= SURE.clause &&
        tellsMore(g.intent, f.intent) &&
        !whole.found.some((w) => intentKey(w.intent) === intentKey(f.intent) && w.p >= g.p),
    );
  const ways = jointly(clauses, now);
  // values that the whole has no place for, and the clauses have
  const halved = (f: Found): boolean =>
    whole.found.some((w) => w.left > 1 && intentKey(w.intent) === intentKey(f.intent)) &&
    ways.some(
      (told) =>
        told.length > 1 &&
        told.every((g) => g.intent.type === f.intent.type && g.p >= SURE.said && g.left === 0) &&
        told.some((g) => isOneFact(f.intent, g.intent)),
    );
  const found = [...all.values()].flatMap((f) =>
    fuller(f) || halved(f) ? [] : [{ ...f, evidence: { ...evidenceOf(f), dropped: dropped([f]) } }],
  );
  for (const told of ways) {
    // the whole may have a value that a clause leaves out
    const joint = told.map(
      (f) => whole.found.find((g) => g.p >= LEAST_TOLD && tellsMore(g.intent, f.intent)) ?? f,
    );
    const [first, second] = joint;
    if (!first || !second) continue;
    const each = joint.map(evidenceOf);
    // what the grammars have word for word needs no hint in the rest of the line
    const hinted = joint.filter(
      (f) => !f.taught && !clauses.some((c) => c.exact && share(c, f) > SURE.clause),
    );
    const worst = (name: keyof Evidence): number => Math.min(...each.map((e) => e[name] ?? 0));
    const most = (name: keyof Evidence): number => Math.max(...each.map((e) => e[name] ?? 0));
    found.push({
      ...first,
      intent: together(joint.map((f) => f.intent)),
      left: 0,
      forbidden: joint.some((f) => f.forbidden),
      strange: joint.find((f) => f.strange !== 'no')?.strange ?? 'no',
      evidence: {
        whole: log(joint.reduce((sum, f) => sum + share(whole, f), 0)),
        clause: each.reduce((sum, e) => sum + (e.clause ?? 0), 0),
        forbidden: most('forbidden'),
        strange: most('strange'),
        exact: worst('exact'),
        dropped: dropped(joint),
        together: 1,
        least: Math.min(...joint.map((f) => (hinted.includes(f) ? log(kind(whole, f)) : 0))),
        alien: hinted.filter((f) => kind(whole, f) < LEAST_HINTED).length,
        due: most('due'),
      },
    });
  }
  const unsaid: Evidence = {
    nothing: log(whole.nothing),
    dropped: Math.min(dropped([]), ...found.map((f) => f.evidence.dropped ?? 0)),
  };
  const places = new Map(whole.found.map((f, i) => [intentKey(f.intent), i]));
  const [none = 0, ...scores] = rank(
    [{ evidence: unsaid }, ...found.map((f) => ({ ...f, rank: places.get(intentKey(f.intent)) ?? -1 }))],
    { words: whole.words, asks: whole.asks, clauses: clauses.length, place: placeOf(now) },
  );
  const top = Math.max(none, ...scores);
  const sum = [none, ...scores].reduce((s, v) => s + Math.exp(v - top), 0);
  return {
    found: found
      .map((f, i) => ({ ...f, p: Math.exp((scores[i] ?? 0) - top) / sum }))
      .sort((a, b) => b.p - a.p),
    nothing: Math.exp(none - top) / sum,
  };
}

/** What each clause tells or asks beside the others, likeliest first. */
function toldIn(clauses: readonly Reading[], { due, situations }: Moment): readonly (readonly Found[])[] {
  const isDue = ({ type }: Intent): boolean => due.some((d) => d.type === type);
  return clauses.map(({ found, asks }, i) => {
    const told = found.filter(({ intent, outOfPlace, taught, forbidden, p }) => {
      if ((outOfPlace && !taught) || ALONE.has(intent.type) || isVague(intent)) return false;
      // what is wrong with a bath or the film is told, and answered as what is asked
      if (isQuestion(intent)) return asks !== 'no' || (intent.type === 'ask-advice' && p >= SURE.said);
      // "done" in front of what was done is no step of its own
      if (STEPS.has(intent.type) && i < clauses.length - 1) return false;
      if (intent.type === 'bath-in' && !intent.liquid && !isDue(intent)) return false;
      // nothing near the amount that is due is a reading of it
      if (intent.type === 'reading' && due.some((d) => isFarFrom(intent, d))) return false;
      // a lid that is on says nothing new of a film that is in the tank
      if (intent.type === 'film-loaded' && situations.some((s) => IN_TANK.has(s))) return false;
      return BESIDE.has(intent.type) || (isDeed(intent) && !forbidden && asks !== 'mark');
    });
    return (told[0]?.p ?? 0) >= SURE.clause ? told.filter((f) => f.p >= LEAST_TOLD) : [];
  });
}
/** A scale that stood in other units is off by less. */
const MOST_OFF = 50;
const isFarFrom = (read: Intent, due: Intent): boolean => {
  const [got, wanted] = [amountOf(read), due.type === read.type ? amountOf(due) : undefined];
  return got !== undefined && wanted !== undefined && wanted > 0 && got > MOST_OFF * wanted;
};
const STEPS = new Set<Intent['type']>(['next-step', 'mix-next']);
const IN_TANK = new Set<Situation>(['pouring', 'immersed', 'draining']);

/** What the clauses of a line say together, each way in which it may be meant, as it is to be done: what is read, what is done, what is poured, what is asked. */
export function jointly(clauses: readonly Reading[], now: Moment): (readonly Found[])[] {
  if (clauses.some((c) => c.repairs)) return [];
  const ways = toldIn(clauses, now).reduce<readonly (readonly Found[])[]>(
    (before, told) =>
      told.length === 0 ? before : before.flatMap((way) => told.slice(0, 2).map((f) => [...way, f])),
    [[]],
  );
  const marked = clauses.filter((c) => c.asks === 'mark').length;
  return ways.flatMap((way) => {
    const all = way.flatMap((f) => factsIn(f.intent).map((intent) => ({ ...f, intent })));
    const each = all.reduce<Found[]>((before, f) => {
      const at = before.findIndex((g) => isOneFact(f.intent, g.intent) && isOneAmount(f.intent, g.intent));
      const same = before[at];
      if (!same) return before.concat(f);
      const one = agree(f.intent, same.intent) ? ({ ...same.intent, ...f.intent } as Intent) : same.intent;
      return before.with(at, { ...same, intent: one });
    }, []);
    const facts = once(each.map((f) => f.intent));
    const kept = each
      .filter((f) => facts.includes(f.intent))
      .toSorted((a, b) => turn(a.intent) - turn(b.intent));
    // of two questions the second may be the first in other words
    const asked = facts.filter(isQuestion).length;
    const many = asked > 1 && asked > marked;
    return kept.length > 0 && kept.length <= mostOf(facts) && !many && areCompatible(facts) ? [kept] : [];
  });
}
/** What came of so much says nothing of where the rest went. */
const isOneAmount = (a: Intent, b: Intent): boolean =>
  a.type !== 'poured' ||
  b.type !== 'poured' ||
  a.volumeMl === b.volumeMl ||
  (a.to !== undefined) === (b.to !== undefined);
/** A list, such as how warm each bath is, may be longer than what differs. */
const mostOf = (facts: readonly Intent[]): number =>
  facts.every((f) => f.type === facts[0]?.type) ? MOST_LISTED : MOST_TOGETHER;
const MOST_LISTED = 8;
const MOST_TOGETHER = 3;
const LEAST_TOLD = 0.3;
/** What the whole line gives less than this to is told by a clause alone. */
const LEAST_HINTED = 0.005;

/** The guard judges a pour by what was read before it, a bath goes back before the tank is empty and in after it, and what is asked is of what is so then. */
const turn = (intent: Intent): number => {
  if (isQuestion(intent)) return 5;
  if (intent.type === 'pour-in') return 4;
  if (intent.type === 'tank-empty' || STEPS.has(intent.type) || isIn(intent)) return 3;
  if (POURS.has(intent.type)) return 2;
  return intent.type === 'temperature' ? 0 : 1;
};

/** Two of a kind are of two things, else the later puts the earlier right; and into the tank goes one bath at a time. */
const areCompatible = (facts: readonly Intent[]): boolean =>
  facts.filter((f) => INTO_TANK.has(f.type)).length < 2 &&
  // how much went beside the scale is no weight on it
  !(facts.some((f) => f.type === 'spill') && facts.some((f) => f.type === 'reading')) &&
  facts.every((a, i) =>
    facts.every((b, j) => j <= i || a.type !== b.type || isQuestion(a) || areOfTwo(a, b)),
  );
const INTO_TANK = new Set<Intent['type']>(['pour-in', 'bath-in']);
const areOfTwo = (a: Intent, b: Intent): boolean => {
  const theirs = new Map(Object.entries(b));
  return Object.entries(a).some(
    ([k, v]) => OF.has(k) && theirs.has(k) && JSON.stringify(theirs.get(k)) !== JSON.stringify(v),
  );
};
const OF = new Set(['of', 'liquid', 'bottle', 'substance', 'place', 'to']);

/** Whether nobody understood a clause that may change what is done. */
function isUnread(
  clauses: readonly Reading[],
  told: ReturnType<typeof toldIn>,
  meant: Intent,
  now: Moment,
): boolean {
  return clauses.some(
    (c, i) =>
      (c.names || c.asks === 'mark') &&
      c.nothing < SURE.nothing &&
      told[i]?.length === 0 &&
      !c.found.some((f) => f.p >= LEAST_TOLD && isDoneBy(f.intent, meant, now)),
  );
}

/** How likely one of these is meant. */
const shareOf = (found: readonly Weighed[], of: (f: Weighed) => boolean = () => true): number =>
  found.reduce((all, f) => (of(f) ? all + f.p : all), 0);

/** Whether to do one meaning does another, or a part of it, and what it costs on the average. */
function outcomes(found: readonly Weighed[], whole: Reading, clauses: readonly Reading[], now: Moment) {
  const told = toldIn(clauses, now);
  const plainly = told.flatMap(([f]) => (f ? factsIn(f.intent) : [])).filter(ofTheTank);
  const serves = (best: Weighed, f: Weighed): boolean => isDoneBy(f.intent, best.intent, now, plainly);
  const isMore = (best: Weighed, f: Weighed): boolean =>
    !serves(best, f) && isFuller(f.intent, best.intent, now);
  const answersMore = (best: Weighed, f: Weighed): boolean =>
    serves(best, f) &&
    isFuller(best.intent, f.intent, now) &&
    factsIn(best.intent).some((one) => isQuestion(one) && !isTold(one, f.intent, now));
  const isUnreadBeside = ({ intent }: Weighed): boolean =>
    isDeed(intent) &&
    // a line that as a whole is read for this leaves nothing out
    !whole.found.some((f) => f.p >= SURE.clause && isOneFact(f.intent, intent)) &&
    isUnread(clauses, told, intent, now);
  const costOf = (best: Weighed): number => {
    if (isDeed(best.intent) && !isPlain(best)) return Number.POSITIVE_INFINITY;
    const share = (how: typeof serves): number => shareOf(found, (f) => how(best, f));
    const [all, part] = [share(serves), share(isMore)];
    const missed =
      priceOf(best.intent) * (1 - all - part) + COST.part * part + COST.extra * share(answersMore);
    return missed * (isUnreadBeside(best) ? COST.unread : 1);
  };
  return { serves, isMore, costOf };
}
/** Nothing in the words forbids to do it. */
const isPlain = (f: Weighed): boolean =>
  !f.forbidden &&
  (f.left === 0 || Object.keys(f.intent).length === 1) &&
  // a word that nobody knows may be the unit, or which of two
  f.strange !== 'unknown';

/** What a sentence means: done or answered, asked about, or left alone (undefined). */
export function decided(
  whole: Reading,
  clauses: readonly Reading[],
  now: Moment,
  rank: Ranker,
  doubted = false,
): Interpretation | undefined {
  const { found, nothing } = weighed(whole, clauses, now, rank);
  const { words } = whole;
  const [likeliest] = found;
  if (!likeliest) return undefined;
  const understood = ({ intent, situation, outOfPlace }: Weighed): Understood => ({
    kind: 'understood',
    intent,
    words,
    situation,
    ...(outOfPlace && { outOfPlace: true }),
  });
  // somebody is hurt, whoever it is: that goes before what else it may be
  const hurts = found.filter((f) => factsIn(f.intent).some((i) => i.type === 'hurt'));
  const [likely] = hurts;
  // that it is only asked about ("what if") is never left out
  const hurt = likely && (hurts.find((f) => tellsMore(f.intent, likely.intent)) ?? likely);
  if (hurt && shareOf(hurts) >= SURE.hurt) return understood(hurt);
  if (nothing >= SURE.nothing) return undefined;
  const { serves, isMore, costOf } = outcomes(found, whole, clauses, now);
  const costIfDone = (f: Weighed): number =>
    !doubted || !isDeed(f.intent) ? costOf(f) : Number.POSITIVE_INFINITY;
  // what also answers the question beside it serves whoever meant the deed alone, and what all of them mean is done
  const [best, done] = found
    .filter((f) => f.p >= LEAST_ASKED && (serves(f, likeliest) || isMore(f, likeliest)))
    .map((f) => [f, costIfDone(f)] as const)
    .reduce((before, one) => (one[1] < before[1] ? one : before), [
      likeliest,
      costIfDone(likeliest),
    ] as const);
  const choices = found.filter((f) => f.p >= LEAST_ASKED && !f.elsewhere).slice(0, MOST_ASKED);
  const among = shareOf(choices);
  const ask = COST.ask - COST.meant * among + COST.disturb * nothing;
  const silence = COST.silence * (1 - nothing);
  if (done <= Math.min(ask, silence)) {
    const more = found.find((f) => f.p >= LEAST_OFFERED && isMore(best, f));
    const beside = more && factsIn(more.intent).filter((f) => !isTold(f, best.intent, now));
    return { ...understood(best), ...(beside && beside.length > 0 && { beside: together(beside) }) };
  }
  const p = shareOf(found, (f) => serves(best, f));
  if (choices.length === 0 || silence < ask || p < LEAST_MENU) return undefined;
  // an answer, and what else may be meant beside it, costs less than a question back
  if (
    isAnswered(best.intent) &&
    best.intent.type !== 'busy' &&
    (whole.asks !== 'no' || choices.every((c) => factsIn(c.intent).every(isAnswered)))
  )
    return { ...understood(best), others: choices.filter((c) => c !== best).map((c) => c.intent) };
  return { kind: 'unsure', candidates: choices.map((f) => f.intent), words };
}

/** What it costs to do this where something else was meant; what is read is soon put right. */
const priceOf = (intent: Intent): number => {
  if (!isDeed(intent)) return COST.answer;
  return factsIn(intent).every((f) => READINGS.has(f.type) || isQuestion(f)) ? COST.told : COST.act;
};

/** Whether two meanings are of one kind, and what both say is the same. */
const agree = (a: Intent, b: Intent): boolean => {
  const theirs = new Map(Object.entries(b));
  return Object.entries(a).every(
    ([k, v]) => !theirs.has(k) || JSON.stringify(theirs.get(k)) === JSON.stringify(v),
  );
};

const tellsMore = (a: Intent, b: Intent): boolean =>
  agree(a, b) && Object.keys(a).length > Object.keys(b).length;

/** Whether two meanings are one fact: the same more or less exactly, or by another name. */
const isOneFact = (a: Intent, b: Intent): boolean =>
  agree(a, b) ||
  (b.type === 'spill' && b.place !== undefined && a.type === 'hurt') ||
  (isIn(a) && isIn(b)) ||
  isOneBottle(a, b) ||
  isOneLoss(a, b) ||
  KIN.some((kin) => areKin(kin, a, b));

/** So much of a bath is gone: that it went down the sink says no more than that it was spilled. */
const isOneLoss = (a: Intent, b: Intent): boolean =>
  a.type === 'poured' &&
  a.to?.kind === 'sink' &&
  b.type === 'spill' &&
  a.volumeMl !== undefined &&
  a.volumeMl === b.volumeMl &&
  a.liquid === b.liquid;

/** How much was spilled, put right or told again. */
const isSpilledAmount = (a: Intent, b: Intent): boolean => {
  const [of, told] = a.type === 'correct' ? [a, b] : [b, a];
  return (
    of.type === 'correct' &&
    told.type === 'spill' &&
    told.again === true &&
    told.volumeMl !== undefined &&
    told.volumeMl === (of.volumeMl ?? of.value)
  );
};

/** What is no rival of what is likeliest. */
const isSame = (a: Intent, best: Intent, { due: [due], situations }: Moment): boolean =>
  isOneFact(a, best) ||
  (situations.includes('spill') && isSpilledAmount(a, best)) ||
  // as warm is what there is, whichever way its place is named
  (best.type === 'temperature' && 'tempC' in a && a.tempC === best.tempC) ||
  isBack(a, best) ||
  isBetween(a, best) ||
  (SAY_NEXT.has(best.type) && ASK_NEXT.has(a.type)) ||
  isPartOf(a, best) ||
  areKin(due && KIN_WHEN_DUE[due.type], a, best);

/** A bath that is in the tank, whichever bottle it is from. */
const isIn = (intent: Intent): boolean =>
  intent.type === 'bath-in' ||
  (intent.type === 'poured' && (intent.to?.kind === 'tank' || (!intent.to && !intent.from)));

/** What goes back, or has gone back, into the same bottle. */
const isBack = (a: Intent, b: Intent): boolean => goesBack(a) && goesBack(b) && bottleOf(a) === bottleOf(b);
/** One bath out, another in. */
const ofTheTank = (intent: Intent): boolean =>
  intent.type === 'tank-empty' || isIn(intent) || goesBack(intent);
const goesBack = (intent: Intent): boolean => intent.type === 'pour-back' || hasGoneBack(intent);

/** What is poured, or was, out of one vessel into another: either way the guard says what is wrong with it. */
const isBetween = (a: Intent, b: Intent): boolean =>
  a.type === 'pour-between' &&
  b.type === 'poured' &&
  a.from !== undefined &&
  a.to !== undefined &&
  [a.from, a.to].every((v, i) => JSON.stringify(v) === JSON.stringify([b.from, b.to][i]));

/** These say what comes next by themselves. */
const SAY_NEXT = new Set<Intent['type']>(['tank-empty', 'dissolved', 'film-loaded']);
const ASK_NEXT = new Set<Intent['type']>(['ask-next', 'next-step', 'mix-next']);

/** Whether `best` does what is meant: an answer too many does no harm, nor does what another clause says of the tank. */
function isDoneBy(a: Intent, best: Intent, now: Moment, plainly: readonly Intent[] = []): boolean {
  if (isSame(a, best, now) || !once([best, a]).includes(a)) return true;
  const [all, part] = [factsIn(best), factsIn(a)];
  const isMeant = (f: Intent): boolean => part.some((g) => isSame(g, f, now));
  return (
    all.length > part.length &&
    part.every((g) => all.some((f) => isSame(g, f, now))) &&
    // the guard judges what goes back, and with the tank empty it has gone back
    all.every(
      (f) =>
        isMeant(f) ||
        isQuestion(f) ||
        BY_THE_WAY.has(f.type) ||
        goesBack(f) ||
        plainly.some((g) => isSame(g, f, now)),
    )
  );
}

const isTold = (fact: Intent, by: Intent, now: Moment): boolean =>
  factsIn(by).some((g) => isSame(fact, g, now));

/** Whether a meaning tells all that another does, and more. */
const isFuller = (a: Intent, b: Intent, now: Moment): boolean =>
  factsIn(a).length > factsIn(b).length && factsIn(b).every((f) => isTold(f, a, now));

/** What is told by the way is written down, whichever of the rest was meant. */
const BY_THE_WAY = new Set<Intent['type']>(['temperature', 'films', 'tank-takes', 'use-tank']);

/** Each of these answers the same. */
const KIN: readonly ReadonlySet<Intent['type']>[] = [
  new Set(['ask-next', 'mix-next']),
  new Set(['ask-where', 'mix-where']),
  new Set(['ask-why', 'ask-reason']),
  new Set(['bottle-discarded', 'bottle-empty']),
  new Set(['hold-clock', 'withdraw']),
  new Set(['withdraw', 'cancel']),
];
/** What comes to the same while this is due: a cleared bath that is poured is in, a yes to nothing is none, and who goes on has seen it dissolve. */
const KIN_WHEN_DUE: Partial<Record<Intent['type'], ReadonlySet<Intent['type']>>> = {
  'bath-in': new Set(['bath-in', 'pour-in', 'poured', 'start-clock', 'confirm']),
  dissolved: new Set(['dissolved', 'mix-next', 'next-step']),
  'drain-now': new Set(['drain-now', 'confirm']),
};
const areKin = (kin: ReadonlySet<Intent['type']> | undefined, a: Intent, b: Intent): boolean =>
  [a, b].every(({ type }) => kin?.has(type));

/** "The prebath, from bottle one": what is poured, and out of what, beside the pour itself. */
const isPartOf = (a: Intent, best: Intent): boolean =>
  a.type === 'part' &&
  best.type === 'pour-in' &&
  best.liquid !== undefined &&
  (a.liquid === undefined || a.liquid === best.liquid) &&
  (a.vessel === undefined || bottleOf(a) === bottleOf(best));

/** A bottle that is named, put right or poured with is one and the same choice of it. */
const isOneBottle = (a: Intent, b: Intent): boolean => {
  const [of, other] = [bottleOf(a), bottleOf(b)];
  return of !== undefined && of === other && (CHOOSES.has(a.type) || CHOOSES.has(b.type));
};
const CHOOSES = new Set<Intent['type']>(['correct', 'part']);
const bottleOf = (intent: Intent): number | undefined => {
  const vessel =
    intent.type === 'correct' || intent.type === 'part'
      ? intent.vessel
      : intent.type === 'pour-in'
        ? intent.from
        : intent.type === 'pour-back' || intent.type === 'poured'
          ? intent.to
          : undefined;
  return vessel?.kind === 'bottle' ? vessel.number : undefined;
};

/** A pour or a spill of nothing in particular. */
const isVague = (intent: Intent): boolean =>
  Object.keys(intent).length === 1 && (POURS.has(intent.type) || intent.type === 'spill');

/** What is in one clause of a longer sentence is never one of these: too short to be told from chatter. */
const WHOLE_ONLY = new Set<Intent['type']>([
  'confirm',
  'cancel',
  'override',
  'stop',
  'no-film',
  'more',
  'redo',
]);
/** What is only answered, and changes nothing. */
const isAnswered = (f: Intent): boolean => isQuestion(f) || ANSWERED.has(f.type);
const ANSWERED = new Set<Intent['type']>(['busy', 'say-again', 'what-if', 'help']);

/** What is no deed and yet no answer to a question that was not asked. */
const BESIDE = new Set<Intent['type']>(['remind', 'hurt']);

/** These put right, name a part of or end what is said beside them. */
const ALONE = new Set<Intent['type']>([
  ...WHOLE_ONLY,
  ...([
    'correct',
    'part',
    'undo',
    'greeting',
    'thanks',
    'quiet',
    'say-again',
    'help',
    'note',
    'mix-stop',
  ] as const),
]);

const hasGoneBack = (fact: Intent): boolean =>
  fact.type === 'poured' &&
  (fact.to?.kind === 'bottle' || (!fact.to && fact.from?.kind === 'tank')) &&
  !fact.volumeMl &&
  !fact.share;

/** What is told is told once: the first of these says nothing that the second does not. */
const SAID_BY: readonly ((fact: Intent, by: Intent) => boolean)[] = [
  // what has left the tank for a bottle left it empty
  (fact, by) => fact.type === 'tank-empty' && hasGoneBack(by),
  // nor does it drain when it is empty, and what goes back drains
  (fact, by) =>
    fact.type === 'drain-now' &&
    (by.type === 'tank-empty' || by.type === 'pour-back' || INTO_TANK.has(by.type)),
  // a clock starts with the bath that goes in, and goes on by itself
  (fact, by) => fact.type === 'start-clock' && (INTO_TANK.has(by.type) || by.type === 'resume-clock'),
  (fact, by) => STEPS.has(fact.type) && SAY_NEXT.has(by.type),
  // who has poured waited for no leave
  (fact, by) => fact.type === 'confirm' && isIn(by),
  (fact, by) =>
    fact.type === 'reading' &&
    by.type === 'made-up' &&
    fact.value * (fact.unit === 'l' ? 1000 : 1) === by.volumeMl,
  (fact, by) =>
    fact.type === 'bottle-holds' &&
    bottleOf(by) === fact.bottle &&
    'liquid' in by &&
    by.liquid === fact.liquid &&
    fact.volumeMl === undefined,
  (fact, by) =>
    (fact.type === 'bottle-empty' || fact.type === 'bottle-discarded') &&
    by.type === 'pour-away' &&
    by.from?.kind === 'bottle' &&
    by.from.number === fact.bottle,
];

function once(intents: readonly Intent[]): Intent[] {
  return intents.filter((fact) => !intents.some((by) => SAID_BY.some((said) => said(fact, by))));
}

/** Several facts as they are to be done. */
export function together(facts: readonly Intent[]): Intent {
  const intents = once(asDone(facts));
  const [first, second] = intents;
  return first && !second ? first : { type: 'several', intents };
}

/** What goes back has gone back, where the tank is said to be empty beside it, or another bath to be in. */
const asDone = (facts: readonly Intent[]): readonly Intent[] =>
  facts.some((f) => f.type === 'tank-empty' || isIn(f))
    ? facts.map((f): Intent => {
        if (f.type !== 'pour-back') return f;
        const by = f.to ? { to: f.to } : { from: { kind: 'tank' } as const };
        return { type: 'poured', ...by, ...(f.liquid && { liquid: f.liquid }) };
      })
    : facts;
