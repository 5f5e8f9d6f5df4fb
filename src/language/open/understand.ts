import type { Moment, Situation } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import type { Interpretation } from '../interpretation.js';
import { compileGrammar } from '../jsgf/compile.js';
import { type Catalogue, english } from '../languages/english.js';
import { type Grammars, PACKAGE } from '../load.js';
import { intentKey } from '../meaning/meanings.js';
import { runTags } from '../meaning/tags.js';
import { isDeed, isGuarded, POURS } from '../meaning/weight.js';
import {
  type CommandRecord,
  commandRecords,
  lessonsOf,
  type Moments,
  type Said,
  type Wordings,
} from '../records.js';
import { longForm, normaliseTyped } from '../typed.js';
import { tagPaths } from '../walk.js';
import type { Encoder } from './encoder.js';
import { amountOf, fill } from './fill.js';
import { classify, type Model, train } from './model.js';
import { evidence, momentName } from './moments.js';
import { type Slot, type Spotted, slotSpotter } from './slots.js';

/** Understands sentences that no grammar has, from what the grammars' commands have in common. */
export interface OpenUnderstanding {
  /** every word that means something to it */
  readonly words: ReadonlySet<string>;
  /** undefined when nothing of ours is meant, or not surely enough even to ask */
  understand(words: readonly string[], now: Moment, asked: boolean): Interpretation | undefined;
  /** whether a word is English, though no command was taught with it */
  isEnglish(word: string): boolean;
  /** how likely a meaning of these kinds is, whatever its values */
  plausible(words: readonly string[], ...types: readonly Intent['type'][]): number;
  /** whether a sentence is an amount or a name and nothing else */
  isBare(words: readonly string[]): boolean;
  /** whether anything in a sentence speaks of what stands at a sink */
  mentions(words: readonly string[]): boolean;
  /** whether a sentence may do anything at all: not when it tells of others, of other times or of what might be */
  mayAct(words: readonly string[]): boolean;
}

/**
 * How likely a meaning must be: to do a deed, to answer, and to be asked about; and how likely nothing of ours is meant
 * where no deed is done, where what is negated or doubted is not asked about, where nothing is asked, and nothing answered.
 */
const SURE = {
  deed: 0.7,
  elsewhere: 0.85,
  talk: 0.5,
  hurt: 0.4,
  ask: 0.08,
  certain: 0.9,
  addressed: 0.05,
  unaddressed: 0.2,
  forbidden: 0.1,
  unasked: 0.5,
  nothing: 0.6,
};
/** It must be this many times likelier than the next; and what is asked about, at least one so many times as likely as the first. */
const MARGIN = { deed: 5, talk: 2, ask: 8 };
const MOST_ASKED = 3;
/** What each slot without a place in the intent, and a command out of its situation, take off the log probability. */
const LEFT_OVER = 2.5;
const OUT_OF_PLACE = 2.2;
/** What a command of the present situation has over one that is always open. */
const FOREMOST = 1;
/** What a command has over others that is due, one whose amount is nearly what is due, and what another answer than the due one lacks. */
const DUE = { kind: 1, amount: 2.5, other: 1.5 };
/** What is left of a meaning whose value was not heard: it may be meant, and said in words that are not known. */
const UNFILLED = 0.5;
/** What a sentence that was taught word for word adds. */
const TAUGHT = 4;
const MOST_CONSIDERED = 12;
/** How far each of the two judges is trusted; at this the shares are true to what comes out right. */
const TRUST = 0.7;
const MOST_RECENT = 16;
/** No meaning is less likely than this to either judge. */
const LEAST_P = 1e-6;
/** Slots that may be said without a field for them; an amount or a bottle never is. */
const IDLE = new Set(['_liquid', '_substance', '_place', 'tank', 'tub', 'jug', 'tap']);

/** Slots that are only spoken of at a sink. */
const OURS = new Set(['_liquid', '_bottle', '_substance', '_stock', 'tank', 'tub', 'jug']);

/** One for each set of grammars, made when it is first asked for. */
const known = new WeakMap<Grammars, OpenUnderstanding>();
const given = new WeakMap<Grammars, () => Learnt>();

/** What these grammars understand beyond their sentences; they learn it now unless it was given. */
export function openFor(grammars: Grammars): OpenUnderstanding {
  const open =
    known.get(grammars) ?? openUnderstanding(grammars, (given.get(grammars) ?? (() => learn(grammars)))());
  known.set(grammars, open);
  return open;
}

/** Gives these grammars what was learnt from them before; it is read when it is first needed. */
export const giveLearnt = (grammars: Grammars, learnt: () => Learnt): void => {
  given.set(grammars, learnt);
};

/** What the commands of some grammars taught. */
export interface Learnt {
  model: Model;
  /** the words that each command was taught with, by its id */
  own: ReadonlyMap<string, ReadonlySet<string>>;
  /** whole sentences → the commands that were taught them */
  taught: ReadonlyMap<string, readonly string[]>;
  /** how often each was said in each moment */
  moments: Moments;
  /** knows English beyond the commands */
  encoder?: Encoder;
}

export function learn(
  grammars: Grammars,
  wordings: Wordings = new Map(),
  said: Said = new Map(),
  moments: Moments = new Map(),
  language: Catalogue = english,
): Learnt {
  const random = dice(20_260_101);
  const lessons = lessonsOf(commandRecords(grammars), wordings, grammars, random);
  const strange = [...said.keys()].find((id) => !lessons.some(({ record }) => record.id === id));
  if (strange !== undefined) throw new Error(`People's sentences name ${strange}, which is no command.`);
  const spot = slotSpotter(grammars);
  const example = (record: CommandRecord, words: readonly string[]) => ({
    words: bare(spot(spelledOut(words)).tokens),
    label: record.id,
    pours: record.intent !== 'none' && POURS.has(record.intent),
    part: record.intent === 'part',
  });
  const lines = (id: string): string[][] =>
    (said.get(id) ?? []).map((line) => withoutCourtesies(normaliseTyped(line), language).split(' '));
  const some = ({ words, pours }: ReturnType<typeof example>): boolean =>
    words.length > 0 && !(pours && words.every((w) => w.startsWith('_')));
  const worded = lessons
    .flatMap(({ record, sentences }) => sentences.map((s) => example(record, s)))
    .filter(some);
  const people = lessons
    .flatMap(({ record }) => lines(record.id).map((line) => example(record, line)))
    // a name alone is a part of a sentence, whatever its writer had in mind
    .filter((e) => some(e) && (e.part || !e.words.every((w) => w.startsWith('_'))));
  const examples = [...worded, ...people];
  const own = lessons.map(({ record, words }) => [record.id, new Set(spelledOut([...words]))] as const);
  const ownOf = new Map(own);
  for (const { words, label } of worded) for (const w of words) ownOf.get(label)?.add(w);
  const taught = new Map<string, string[]>();
  for (const { words, label } of examples) {
    const key = words.join(' ');
    taught.set(key, [...(taught.get(key) ?? []), label]);
  }
  return { model: train(examples, random), own: ownOf, taught, moments };
}

export function openUnderstanding(
  grammars: Grammars,
  { model, own, taught, moments, encoder }: Learnt,
  language: Catalogue = english,
): OpenUnderstanding {
  const saidThere = evidence(moments);
  const records = new Map(commandRecords(grammars).map((r) => [r.id, r]));
  const spot = slotSpotter(grammars);
  const recipes = compileGrammar(grammars.parsed.get(`${PACKAGE}.recipes`) ?? '', (n) =>
    grammars.parsed.get(n),
  );
  const recipeIn = (words: readonly string[]): string | undefined => {
    if (!recipes.ok) return undefined;
    for (let length = Math.min(6, words.length); length > 0; length--)
      for (let at = 0; at + length <= words.length; at++) {
        const [tags] = tagPaths(recipes.graph, words.slice(at, at + length));
        if (tags) return String(runTags(tags).recipe);
      }
    return undefined;
  };
  const known = (token: string): boolean =>
    token.startsWith('_') || language.small.has(token) || model.features.has(token);
  const understand = (line: readonly string[], now: Moment, asked: boolean): Interpretation | undefined => {
    const { situations } = now;
    const long = spelledOut(withoutCourtesies(line.join(' '), language).split(' ').filter(Boolean));
    const spotted = repaired(spot(long));
    const all = bare(spotted.tokens);
    const said = { ...spotted, line, tokens: all.filter(known) };
    if (said.tokens.length === 0) return undefined;
    const { found, nothing } = ranked(said, now);
    const [best] = found;
    if (!best) return undefined;
    // what says the same more or less exactly is no rival
    const onSomebody = best.intent.type === 'spill' && best.intent.place !== undefined;
    const same = (f: Found): boolean =>
      agree(f.intent, best.intent) || (onSomebody && f.intent.type === 'hurt');
    const second = found.find((f) => !same(f));
    const text = line.join(' ');
    const understood = ({ record, intent }: Found): Interpretation => {
      const here = openNow(record, situations);
      const situation = here ?? record.situations[0] ?? 'anytime';
      return {
        kind: 'understood',
        intent,
        words: text,
        situation,
        ...(!here && { outOfPlace: true }),
      };
    };
    const { intent } = best;
    const p = found.reduce((sum, f) => (same(f) ? sum + f.p : sum), 0);
    // somebody is hurt, whoever it is: that goes before what else it may be
    const hurt = found.find((f) => f.intent.type === 'hurt');
    if (hurt && hurt.p >= SURE.hurt && nothing < SURE.nothing) return understood(hurt);
    if (language.others.test(text) || nothing >= SURE.nothing) return undefined;
    const forbids = (f: Found): boolean => {
      if (!isDeed(f.intent)) return false;
      const doubled = long.includes('yes') && (long.includes('no') || long.includes('not'));
      const mine = own.get(f.record.id) ?? new Set<string>();
      const certain = !isGuarded(f.intent) && p >= SURE.certain && nothing < SURE.addressed;
      return (
        doubled || blocked(said.words.join(' '), long.join(' '), f.intent, mine, asked, certain, language)
      );
    };
    const deed = isDeed(intent);
    // a word that no command was taught with may change what is meant
    const strange = isGuarded(intent) && all.some((t) => !t.startsWith('_') && !words.has(t));
    const clear = (least: number, margin: number): boolean =>
      p >= least &&
      p >= margin * (second?.p ?? 0) &&
      (best.left.length === 0 || (!deed && p >= SURE.certain));
    const here = openNow(best.record, situations);
    const taughtAlone = taught.get(said.tokens.join(' '))?.join() === best.record.id;
    if (!deed && clear(SURE.talk, MARGIN.talk)) return understood(best);
    if (
      deed &&
      clear(
        here || POURS.has(intent.type) ? SURE.deed : SURE.elsewhere,
        taughtAlone ? MARGIN.talk : MARGIN.deed,
      ) &&
      nothing < SURE.unaddressed &&
      !strange &&
      !forbids(best)
    )
      return understood(best);
    const rivals = found.filter((f) => f.p >= SURE.ask && f.p * MARGIN.ask >= p && f.left.length < 2);
    // a question of which no other comes near does no harm when it is answered in vain
    if (!deed && rivals.length === 1 && best.left.length === 0 && nothing < SURE.unaddressed)
      return understood(best);
    if (rivals.length === 0 || nothing >= (rivals.some(forbids) ? SURE.forbidden : SURE.unasked))
      return undefined;
    return {
      kind: 'unsure',
      candidates: rivals.slice(0, MOST_ASKED).map((r) => r.intent),
      words: text,
    };
  };

  interface Found {
    record: CommandRecord;
    intent: Intent;
    left: readonly Slot[];
    p: number;
  }

  /** What a sentence may mean, likeliest first, and how likely it is nothing of ours. */
  function ranked(said: Spotted, now: Moment): { found: Found[]; nothing: number } {
    const { situations, due } = now;
    const moment = momentName(now);
    const p = judged(said);
    const lesson = taught.get(said.tokens.join(' '));
    const bareSlots = said.tokens.every((t) => t.startsWith('_'));
    for (const id of lesson ?? []) {
      const c = model.classes.indexOf(id);
      const record = records.get(id);
      const here = record && openNow(record, situations);
      p[c] = (p[c] ?? 0) + (here || lesson?.length === 1 ? TAUGHT : TAUGHT / 8);
    }
    const order = [...p.keys()].sort((a, b) => (p[b] ?? 0) - (p[a] ?? 0)).slice(0, MOST_CONSIDERED);
    let [nothing, rest] = [0, 0];
    const found = order.flatMap((c): Found[] => {
      const record = records.get(model.classes[c] ?? '');
      // the words that override are said whole or not at all
      if (!record || record.intent === 'override') return [];
      const here = openNow(record, situations);
      const foremost = situations.some((s) => s !== 'anytime' && record.situations.includes(s));
      const filled = fill(record, said, recipeIn, due);
      const idle = record.intent === 'confirm' && !situations.includes('challenged') && due.length > 0;
      const place =
        (foremost && !idle ? FOREMOST : here && !idle ? 0 : -OUT_OF_PLACE) + saidThere(record.id, moment);
      const weight = (p[c] ?? 0) * Math.exp(place + expected(record, filled?.intent, due));
      if (record.intent === 'none') nothing += weight;
      // what is told of a mix is told while one is open
      if (!here && record.situations.join() === 'mixing' && isDeed({ type: record.intent } as Intent))
        return [];
      // amounts and names alone say nothing that was not taught so
      const answers = due.length > 0 && due[0]?.type === record.intent;
      if (bareSlots && !answers && !(lesson?.includes(record.id) && (here || record.intent === 'part')))
        return [];
      if (!filled) {
        if (record.intent !== 'none') rest += UNFILLED * weight;
        return [];
      }
      const mine = own.get(record.id) ?? new Set<string>();
      // a slot that the command was taught with and has no field for changes nothing; a second bath does
      const taken = new Set(filled.used.map((s) => s.token));
      const left = filled.left.filter((s) => !IDLE.has(s.token) || !mine.has(s.token) || taken.has(s.token));
      return [
        {
          record,
          intent: filled.intent,
          left,
          p: weight * Math.exp(-LEFT_OVER * left.length),
        },
      ];
    });
    // two commands of one meaning are one
    const merged = new Map<string, Found>();
    for (const f of found) {
      const key = intentKey(f.intent);
      const known = merged.get(key);
      merged.set(key, known ? { ...(known.p >= f.p ? known : f), p: known.p + f.p } : f);
    }
    const all = [...merged.values()];
    const sum = all.reduce((s, f) => s + f.p, nothing + rest) || 1;
    return {
      found: all.map((f) => ({ ...f, p: f.p / sum })).sort((a, b) => b.p - a.p),
      nothing: nothing / sum,
    };
  }

  /** What the words that were taught and what English say together, for each class of the model. */
  function judged(said: Spotted): Float32Array {
    const p = classify(model, said.tokens);
    if (!encoder) return p;
    const meant = encoded(encoder, said.line ?? said.words);
    const both = p.map((v, c) => {
      const e = meant[encoderClass[c] ?? -1];
      return e === undefined ? v : ((v + LEAST_P) * (e + LEAST_P)) ** TRUST;
    });
    const sum = both.reduce((s, v) => s + v, 0);
    return both.map((v) => v / sum);
  }
  /** Clauses and mended words of one line come back: the last few are kept. */
  const recent = new Map<string, Float64Array>();
  function encoded(by: Encoder, words: readonly string[]): Float64Array {
    const line = words.join(' ');
    const p = recent.get(line) ?? by.classify(words);
    recent.set(line, p);
    const [oldest = ''] = recent.keys();
    if (recent.size > MOST_RECENT) recent.delete(oldest);
    return p;
  }
  const encoderClass = model.classes.map((id) => encoder?.classes.indexOf(id) ?? -1);

  const words: ReadonlySet<string> = new Set([
    ...grammars.vocabulary,
    ...language.small,
    ...[...own.values()].flatMap((w) => [...w]),
  ]);
  const mentions = (line: readonly string[]): boolean =>
    spot(spelledOut(line)).slots.some(({ token }) => OURS.has(token));
  const mayAct = (line: readonly string[]): boolean => {
    const said = spelledOut(line).join(' ');
    return !language.hearsay.test(said) && !language.unreal.test(said);
  };
  const isBare = (line: readonly string[]): boolean =>
    bare(spot(spelledOut(line)).tokens).every((t) => t.startsWith('_'));
  const plausible = (line: readonly string[], ...types: readonly Intent['type'][]): number => {
    const long = spelledOut(line);
    const spotted = spot(long);
    const p = judged({
      ...spotted,
      line,
      tokens: bare(spotted.tokens).filter(known),
    });
    return model.classes.reduce(
      (sum, id, c) => sum + (types.some((t) => t === records.get(id)?.intent) ? (p[c] ?? 0) : 0),
      0,
    );
  };
  const isEnglish = (word: string): boolean => encoder?.knows(word) ?? false;
  return { understand, isEnglish, plausible, isBare, mentions, mayAct, words };
}

/** The situation in which a command can be said now, if there is one. */
const openNow = (record: CommandRecord, situations: readonly Situation[]): Situation | undefined =>
  record.situations.find((s) => s === 'anytime' || situations.includes(s));

/** What the moment adds to the log probability of a command: what is due is likely, at its amount more so. */
function expected(record: CommandRecord, meant: Intent | undefined, due: readonly Intent[]): number {
  const match = due.find((d) => d.type === record.intent);
  if (!match) return due.some((d) => ANSWERS.has(d.type)) && ANSWERS.has(record.intent) ? -DUE.other : 0;
  const [wanted, got] = [amountOf(match), meant && amountOf(meant)];
  if (wanted === undefined || got === undefined) return DUE.kind;
  return Math.abs(got - wanted) <= NEARLY * wanted ? DUE.amount : DUE.kind;
}

/** What answers a question of the mix; only one of them is asked at a time. */
const ANSWERS = new Set<CommandRecord['intent']>(['reading', 'ph-reading', 'made-up', 'part', 'dissolved']);
const NEARLY = 0.25;

/** Whether two meanings are of one kind, and what both say is the same. */
const agree = (a: Intent, b: Intent): boolean => {
  const theirs = new Map(Object.entries(b));
  return Object.entries(a).every(
    ([k, v]) => !theirs.has(k) || JSON.stringify(theirs.get(k)) === JSON.stringify(v),
  );
};

/** What may itself be said with a "not". */
const DENIALS = new Set<Intent['type']>(['withdraw', 'cancel', 'correct', 'no-film', 'skip', 'undo']);

const GUARDED_POURS = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-away']);

/** What negates, doubts or asks about a deed, or tells of somebody else's, never does it. */
function blocked(
  words: string,
  line: string,
  intent: Intent,
  own: ReadonlySet<string>,
  asked: boolean,
  certain: boolean,
  language: Catalogue,
): boolean {
  const meant = (pattern: RegExp): boolean => {
    const found = pattern.exec(words);
    return found !== null && !own.has(found[0]);
  };
  if (!DENIALS.has(intent.type) && language.denial.test(words)) return true;
  if (meant(language.negation) || (!certain && meant(language.hearsay))) return true;
  // the guard judges what goes into the tank or comes out of it, and so answers whoever asks
  const asksLeave = /^(?:can|may|could|should|shall) /.test(line);
  if (GUARDED_POURS.has(intent.type))
    return !asksLeave && (meant(language.doubt) || language.question.test(line));
  return asked || (language.question.test(line) && !language.request.test(line)) || meant(language.doubt);
}

/** "set to 40, no wait, 41": of two values of one kind with a repair between them the later one was meant. */
function repaired(said: Spotted): Spotted {
  const dropped = said.slots.find((slot, i) => {
    const next = said.slots[i + 1];
    const between = said.words.slice(slot.to, next?.from).join(' ');
    return next?.token === slot.token && REPAIR.test(between);
  });
  const after = dropped && said.slots[said.slots.indexOf(dropped) + 1];
  if (!dropped || !after) return said;
  const gone = after.from - dropped.from;
  const at = said.tokens.indexOf(dropped.token);
  const next = said.tokens.indexOf(after.token, at + 1);
  return repaired({
    ...said,
    words: said.words.toSpliced(dropped.from, gone),
    tokens: said.tokens.toSpliced(at, next - at),
    slots: said.slots
      .filter((s) => s !== dropped)
      .map((s) => (s.from > dropped.from ? { ...s, from: s.from - gone, to: s.to - gone } : s)),
  });
}
const REPAIR = /^(?:(?:no|wait|sorry|rather|i mean|make that|hang on|yes|oh) ?)+$/;

/** Articles tell nothing apart. */
const ARTICLES = new Set(['the', 'a', 'an', 'my', 'our', 'just', 'please']);
const bare = (words: readonly string[]): string[] => words.filter((w) => !ARTICLES.has(w));

/** Contractions in their long form: "it's gone" → "it is gone". */
export const spelledOut = (words: readonly string[]): string[] =>
  words.flatMap((w) => (w === "let's" ? ['us'] : (longForm(w) ?? [w])));

export function withoutCourtesies(words: string, { courtesies }: Catalogue): string {
  let [before, after] = ['', words];
  while (after !== before) [before, after] = [after, after.replace(courtesies, '')];
  return after;
}

/** Numbers from 0 to below 1 that look random, the same for the same seed. */
export function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
