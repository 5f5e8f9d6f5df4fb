import type { Moment, Situation } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import type { Interpretation } from '../interpretation.js';
import { amountOf } from '../languages/english/fill.js';
import { OF_A_POUR } from '../languages/english/lists.js';
import { intentKey } from '../meaning/meanings.js';
import { FACTS, isDeed, POURS } from '../meaning/weight.js';

/** One meaning that a sentence or a clause of it may have. */
export interface Found {
  readonly intent: Intent;
  /** the situation in which it is said */
  readonly situation: Situation;
  readonly outOfPlace: boolean;
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
}

/**
 * What each outcome costs; what costs least on the average is done. A question costs less when what is meant is among its
 * choices, and more when nobody spoke to us.
 */
const COST = { act: 4, pour: 4, told: 3, answer: 1.3, ask: 1, meant: 0.5, disturb: 0.6, silence: 2 };
/** How likely somebody is hurt, for that to go before all else; and nothing of ours, for it to be left alone. */
const SURE = { hurt: 0.4, nothing: 0.5, clause: 0.5, said: 0.8 };
/** Less likely meanings of the whole or of a clause are not looked at. */
const LEAST_CONSIDERED = 0.02;
/** A meaning as likely as this is worth a choice of its own. */
const LEAST_ASKED = 0.04;
const MOST_ASKED = 3;
const LEAST_P = 1e-3;

/** What each kind of evidence counts for, in log odds, as three writers weigh it whose sentences taught nothing. */
const EVIDENCE = {
  whole: 0.56,
  clause: 0.16,
  due: 0.29,
  dueSaid: 0.29,
  dueAmount: 0.2,
  left: -0.2,
  deed: 0.12,
  advice: -0.25,
  forbidden: -0.29,
  strange: -0.16,
  exact: 0.28,
  clauseOnly: -0.15,
  taught: 1.5,
  together: 4,
  nothing: 0.7,
};
export type Evidence = Partial<Record<keyof typeof EVIDENCE, number>>;

interface Weighed extends Omit<Found, 'p'> {
  readonly evidence: Evidence;
  readonly p: number;
}

/** What is only written down and judged, and soon put right. */
const READINGS = new Set<Intent['type']>(['reading', 'ph-reading', 'temperature', 'made-up']);

const NEARLY = 0.25;

const log = (p: number): number => Math.log(p + LEAST_P);

/** Every meaning that the whole or a clause may have, and several facts together, each with what speaks for it and how likely that makes it. */
export function weighed(
  whole: Reading,
  clauses: readonly Reading[],
  { due }: Moment,
): { found: Weighed[]; nothing: number; evidence: Evidence } {
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
  const share = (of: Reading | undefined, f: Found): number =>
    of?.found.reduce((sum, g) => (agree(f.intent, g.intent) ? sum + g.p : sum), 0) ?? 0;
  const kind = (of: Reading, f: Found): number =>
    of.found.reduce((sum, g) => (f.intent.type === g.intent.type ? sum + g.p : sum), 0);
  const told = parts.flatMap((part, i) => {
    const best = part.found.find(
      (f) => f.p >= SURE.clause && isDeed(f.intent) && !WHOLE_ONLY.has(f.intent.type),
    );
    // a bottle behind what was poured is no pour of its own
    const bare =
      best &&
      i > 0 &&
      best.intent.type === 'pour-in' &&
      !('liquid' in best.intent) &&
      !OF_A_POUR.test(part.words);
    return best && !best.outOfPlace && !bare ? [best] : [];
  });
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
      deed: isDeed(f.intent) ? 1 : 0,
      advice: f.intent.type === 'ask-advice' ? 1 : 0,
      forbidden: f.forbidden ? 1 : 0,
      strange: f.strange === 'no' ? 0 : 1,
      exact: parts.some((c) => c.exact && share(c, f) > 0.5) ? 1 : 0,
      clauseOnly: kind(whole, f) < 0.02 ? 1 : 0,
      taught: f.taught ? 1 : 0,
    };
  };
  // what a clause leaves out of what the whole says is not left out
  const fuller = (f: Found): boolean =>
    whole.found.some(
      (g) =>
        g.p >= SURE.clause &&
        tellsMore(g.intent, f.intent) &&
        !whole.found.some((w) => intentKey(w.intent) === intentKey(f.intent) && w.p >= g.p),
    );
  const found = [...all.values()].flatMap((f) => (fuller(f) ? [] : [{ ...f, evidence: evidenceOf(f) }]));
  const joint = together(told);
  if (joint) {
    const each = joint.map(evidenceOf);
    const [first] = joint;
    const worst = (name: keyof Evidence): number => Math.min(...each.map((e) => e[name] ?? 0));
    const most = (name: keyof Evidence): number => Math.max(...each.map((e) => e[name] ?? 0));
    if (first)
      found.push({
        ...first,
        intent: { type: 'several', intents: joint.map((f) => f.intent) },
        left: 0,
        forbidden: joint.some((f) => f.forbidden),
        strange: joint.find((f) => f.strange !== 'no')?.strange ?? 'no',
        evidence: {
          whole: most('whole'),
          clause: worst('clause'),
          deed: 1,
          forbidden: most('forbidden'),
          strange: most('strange'),
          exact: worst('exact'),
          together: told.length === parts.length ? 1 : 0,
        },
      });
  }
  const evidence: Evidence = { nothing: log(whole.nothing) };
  const scores = found.map((f) => score(f.evidence));
  const none = score(evidence);
  const top = Math.max(none, ...scores);
  const sum = [none, ...scores].reduce((s, v) => s + Math.exp(v - top), 0);
  return {
    found: found
      .map((f, i) => ({ ...f, p: Math.exp((scores[i] ?? 0) - top) / sum }))
      .sort((a, b) => b.p - a.p),
    nothing: Math.exp(none - top) / sum,
    evidence,
  };
}

const score = (evidence: Evidence): number =>
  Object.entries(evidence).reduce((s, [name, v]) => s + EVIDENCE[name as keyof Evidence] * v, 0);

/** The facts of a sentence that can be told together, each once and as fully as it is told. */
function together(told: readonly Found[]): readonly Found[] | undefined {
  const distinct = [...new Map(told.map((f) => [intentKey(f.intent), f])).values()];
  const each = distinct.filter(
    (f) =>
      !isVague(f.intent) &&
      !distinct.some(
        (g) =>
          g !== f && agree(f.intent, g.intent) && Object.keys(g.intent).length > Object.keys(f.intent).length,
      ),
  );
  const [last] = each.slice(-1);
  const before = each.slice(0, -1);
  if (!last || before.length === 0 || each.length > 3) return undefined;
  const facts = before.every((f) => FACTS.has(f.intent.type));
  const returned =
    before[0]?.intent.type === 'pour-back' && ['tank-empty', 'bath-in'].includes(last.intent.type);
  return (facts && (FACTS.has(last.intent.type) || POURS.has(last.intent.type))) || returned
    ? each
    : undefined;
}

/** What a sentence means: done or answered, asked about, or left alone (undefined). */
export function decided(
  whole: Reading,
  clauses: readonly Reading[],
  now: Moment,
  doubted = false,
): Interpretation | undefined {
  const { found, nothing } = weighed(whole, clauses, now);
  const { words } = whole;
  const [best] = found;
  if (!best) return undefined;
  const understood = ({ intent, situation, outOfPlace }: Weighed): Interpretation => ({
    kind: 'understood',
    intent,
    words,
    situation,
    ...(outOfPlace && { outOfPlace: true }),
  });
  // somebody is hurt, whoever it is: that goes before what else it may be
  const hurt = found.find((f) => f.intent.type === 'hurt');
  if (hurt && hurt.p >= SURE.hurt) return understood(hurt);
  if (nothing >= SURE.nothing) return undefined;
  const p = found.reduce((sum, f) => (isSame(f.intent, best.intent, now) ? sum + f.p : sum), 0);
  const deed = isDeed(best.intent);
  // the guard judges what is poured
  const cost = POURS.has(best.intent.type)
    ? COST.pour
    : READINGS.has(best.intent.type)
      ? COST.told
      : deed
        ? COST.act
        : COST.answer;
  const done = cost * (1 - p);
  const choices = found.filter((f) => f.p >= LEAST_ASKED).slice(0, MOST_ASKED);
  const among = choices.reduce((sum, f) => sum + f.p, 0);
  const ask = COST.ask - COST.meant * among + COST.disturb * nothing;
  const silence = COST.silence * (1 - nothing);
  const mayDo =
    !deed ||
    (!doubted &&
      !best.forbidden &&
      (best.left === 0 || Object.keys(best.intent).length === 1) &&
      // a word that nobody knows may be the unit, or which of two
      best.strange !== 'unknown');
  if (mayDo && done <= Math.min(ask, silence)) return understood(best);
  if (choices.length === 0 || silence < ask) return undefined;
  return { kind: 'unsure', candidates: choices.map((f) => f.intent), words };
}

/** Whether two meanings are of one kind, and what both say is the same. */
export const agree = (a: Intent, b: Intent): boolean => {
  const theirs = new Map(Object.entries(b));
  return Object.entries(a).every(
    ([k, v]) => !theirs.has(k) || JSON.stringify(theirs.get(k)) === JSON.stringify(v),
  );
};

const tellsMore = (a: Intent, b: Intent): boolean =>
  agree(a, b) && Object.keys(a).length > Object.keys(b).length;

/** What is no rival of what is likeliest: the same more or less exactly, or by another name. */
const isSame = (a: Intent, best: Intent, { due: [due] }: Moment): boolean =>
  agree(a, best) ||
  (best.type === 'spill' && best.place !== undefined && a.type === 'hurt') ||
  // as warm is what there is, whichever way its place is named
  (best.type === 'temperature' && 'tempC' in a && a.tempC === best.tempC) ||
  (isIn(a) && isIn(best)) ||
  isBack(a, best) ||
  (SAY_NEXT.has(best.type) && ASK_NEXT.has(a.type)) ||
  isOneBottle(a, best) ||
  KIN.some((kin) => kin.has(a.type) && kin.has(best.type)) ||
  (due !== undefined &&
    (KIN_WHEN_DUE[due.type] ?? NO_KIN).has(a.type) &&
    (KIN_WHEN_DUE[due.type] ?? NO_KIN).has(best.type));

/** A bath that is in the tank, whichever bottle it is from. */
const isIn = (intent: Intent): boolean =>
  intent.type === 'bath-in' ||
  (intent.type === 'poured' && (intent.to?.kind === 'tank' || (!intent.to && !intent.from)));

/** What goes back, or has gone back, into the same bottle. */
const isBack = (a: Intent, b: Intent): boolean =>
  (a.type === 'poured' || a.type === 'pour-back') &&
  (b.type === 'poured' || b.type === 'pour-back') &&
  a.to !== undefined &&
  bottleOf(a) !== undefined &&
  bottleOf(a) === bottleOf(b);

/** These say what comes next by themselves. */
const SAY_NEXT = new Set<Intent['type']>(['tank-empty', 'dissolved', 'film-loaded']);
const ASK_NEXT = new Set<Intent['type']>(['ask-next', 'next-step', 'mix-next']);

/** Each of these answers the same. */
const KIN: readonly ReadonlySet<Intent['type']>[] = [
  new Set(['ask-next', 'mix-next']),
  new Set(['ask-where', 'mix-where']),
  new Set(['ask-why', 'ask-reason']),
  new Set(['bottle-discarded', 'bottle-empty']),
  new Set(['hold-clock', 'withdraw']),
  new Set(['withdraw', 'cancel']),
];
/** What comes to the same while this is due: a cleared bath that is poured is in, and who goes on has seen it dissolve. */
const KIN_WHEN_DUE: Partial<Record<Intent['type'], ReadonlySet<Intent['type']>>> = {
  'bath-in': new Set(['bath-in', 'pour-in', 'poured']),
  dissolved: new Set(['dissolved', 'mix-next', 'next-step']),
  'drain-now': new Set(['drain-now', 'confirm']),
};
const NO_KIN: ReadonlySet<Intent['type']> = new Set();

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
export const isVague = (intent: Intent): boolean =>
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
