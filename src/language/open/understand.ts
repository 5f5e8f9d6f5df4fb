import type { Moment, Situation } from '../../process/desk.js';
import { asIntent, type Intent } from '../../process/intent.js';
import { compileGrammar } from '../jsgf/compile.js';
import { type Catalogue, english } from '../languages/english/catalogue.js';
import { CORRECTIONS } from '../languages/english/clauses.js';
import { amountOf, fill } from '../languages/english/fill.js';
import { AHEAD, ARTICLES, ASKS_LEAVE, ELIDED, INFLECTED, PERHAPS } from '../languages/english/lists.js';
import { longForm, normaliseTyped } from '../languages/english/typed.js';
import { type Grammars, PACKAGE } from '../load.js';
import { intentKey } from '../meaning/meanings.js';
import { runTags } from '../meaning/tags.js';
import { isDeed, isGuarded, POURS } from '../meaning/weight.js';
import { type CommandRecord, commandRecords, lessonsOf, type Said, type Wordings } from '../records.js';
import { tagPaths } from '../walk.js';
import type { Reading } from './decide.js';
import type { Encoder } from './encoder.js';
import { classify, type Model, softmax, train } from './model.js';
import { momentName, placeOf } from './moments.js';
import { PRIOR, type Ranker, rankerOf } from './ranker.js';
import { type Slot, type Spotted, slotSpotter } from './slots.js';

/** Understands sentences that no grammar has, from what the grammars' commands have in common. */
export interface OpenUnderstanding {
  /** every word that means something to it */
  readonly words: ReadonlySet<string>;
  /** what the words may mean; `asked`: they end with a question mark */
  read(words: readonly string[], now: Moment, asked: boolean): Reading;
  /** how well each meaning of a line fits */
  rank: Ranker;
  /** whether a word is English, though no command was taught with it */
  isEnglish(word: string): boolean;
  /** how likely a meaning of these kinds is, whatever its values */
  plausible(words: readonly string[], now: Moment, ...types: readonly Intent['type'][]): number;
  /** whether a sentence is an amount or a name and nothing else */
  isBare(words: readonly string[]): boolean;
  /** whether anything in a sentence speaks of what stands at a sink */
  mentions(words: readonly string[]): boolean;
  /** whether a sentence may do anything at all: not when it tells of others, of other times or of what might be */
  mayAct(words: readonly string[]): boolean;
}

/** So likely a deed is meant whatever doubt or hearsay is in it. */
const CERTAIN = { guarded: 0.95, other: 0.9 };
/**
 * What each kind of evidence counts for, in log probability, as sentences of writers that were kept back weigh it: the two
 * judges, a command that is said in other situations, one that is due and one whose amount is nearly what is due, what is not
 * for us, and a meaning whose value was not heard. What the grammars have word for word is as good as said.
 */
const WEIGHT = {
  encoder: 0.74,
  words: 0.31,
  taught: 4,
  outOfPlace: -2.1,
  dueKind: 0.77,
  dueAmount: 1.6,
  nothing: 0.35,
  unfilled: -0.2,
  leftOver: -0.7,
};
const MOST_CONSIDERED = 12;
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
  /** whole sentences of the grammars and wordings → their commands */
  taught: ReadonlyMap<string, readonly string[]>;
  /** the places in which nobody says a command, by its id */
  elsewhere: ReadonlyMap<string, readonly string[]>;
  /** knows English beyond the commands */
  encoder?: Encoder;
  /** what speaks for each meaning of a line, where people's sentences taught it */
  rank?: Ranker;
}

export function learn(
  grammars: Grammars,
  wordings: Wordings = new Map(),
  said: Said = new Map(),
  elsewhere: Learnt['elsewhere'] = new Map(),
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
  for (const { words, label } of worded) {
    const key = words.join(' ');
    taught.set(key, [...(taught.get(key) ?? []), label]);
  }
  return { model: train(examples, random), own: ownOf, taught, elsewhere };
}

export function openUnderstanding(
  grammars: Grammars,
  { model, own, taught, elsewhere, encoder, rank = rankerOf(PRIOR) }: Learnt,
  language: Catalogue = english,
): OpenUnderstanding {
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
  const isEnglish = (word: string): boolean =>
    encoder !== undefined && [word, ...stemsOf(word)].some((w) => encoder.knows(w));
  const known = (token: string): boolean =>
    token.startsWith('_') || language.small.has(token) || model.features.has(token);
  const read = (line: readonly string[], now: Moment, asked: boolean): Reading => {
    const { situations } = now;
    const long = spelledOut(withoutCourtesies(line.join(' '), language).split(' ').filter(Boolean));
    const spotted = repaired(spot(long));
    const all = bare(spotted.tokens);
    const said = { ...spotted, line, tokens: all.filter(known) };
    const text = line.join(' ');
    if (said.tokens.length === 0 || language.others.test(text))
      return { words: text, found: [], nothing: 1, exact: false, names: false, asks: asked ? 'mark' : 'no' };
    const { found, nothing } = ranked(said, now);
    const doubled = long.includes('yes') && (long.includes('no') || long.includes('not'));
    const isOdd = (t: string): boolean => !t.startsWith('_') && !words.has(t);
    const unknown = all.flatMap((t, i) => (isOdd(t) && !isEnglish(t) ? [i] : []));
    // beside a value it may be its unit
    const beside = unknown.some((i) => [all[i - 1], all[i + 1]].some((t) => t?.startsWith('_')));
    const strangeTo = (intent: Intent): 'no' | 'english' | 'unknown' =>
      (isGuarded(intent) ? unknown.length > 0 : beside) ? 'unknown' : all.some(isOdd) ? 'english' : 'no';
    return {
      words: text,
      nothing,
      exact: false,
      names: said.slots.length > 0,
      asks: asking(text, asked, language),
      found: found.map(({ record, intent, left, taught, p }) => {
        const here = openNow(record, situations);
        const mine = own.get(record.id) ?? new Set<string>();
        const forbidden =
          isDeed(intent) &&
          (doubled || blocked(sure(said), long.join(' '), intent, mine, asked, p, language));
        return {
          intent,
          situation: here ?? record.situations[0] ?? 'anytime',
          outOfPlace: !here,
          elsewhere: elsewhere.get(record.id)?.includes(placeOf(now)) ?? false,
          left: left.length,
          taught,
          p,
          forbidden,
          strange: strangeTo(intent),
        };
      }),
    };
  };

  interface Ranked {
    record: CommandRecord;
    intent: Intent;
    left: readonly Slot[];
    /** the grammars or wordings have it word for word */
    taught: boolean;
    p: number;
  }

  /** What a sentence may mean, likeliest first, and how likely it is nothing of ours. */
  function ranked(said: Spotted, now: Moment): { found: Ranked[]; nothing: number } {
    const { situations, due } = now;
    const lesson = taught.get(said.tokens.join(' '));
    const bareSlots = said.tokens.every((t) => t.startsWith('_'));
    const shares = judged(said, momentName(now)).map((read, c) =>
      lesson?.includes(model.classes[c] ?? '') ? read + WEIGHT.taught / lesson.length : read,
    );
    const order = [...shares.keys()]
      .sort((a, b) => (shares[b] ?? 0) - (shares[a] ?? 0))
      .slice(0, MOST_CONSIDERED);
    let [nothing, rest] = [0, 0];
    const top = shares[order[0] ?? 0] ?? 0;
    const found = order.flatMap((c): Ranked[] => {
      const record = records.get(model.classes[c] ?? '');
      // the words that override are said whole or not at all
      if (!record || record.intent === 'override') return [];
      const here = openNow(record, situations);
      const filled = fill(record, said, recipeIn, now);
      const mine = own.get(record.id) ?? new Set<string>();
      // a slot that the command was taught with and has no field for changes nothing; a second bath does
      const taken = new Set(filled?.used.map((s) => s.token));
      const left = (filled?.left ?? []).filter(
        (s) =>
          (!IDLE.has(s.token) || !mine.has(s.token) || taken.has(s.token)) &&
          !filled?.used.some((used) => isSaidAgain(s, used)),
      );
      const weight = Math.exp(
        (shares[c] ?? 0) -
          top +
          (here || lesson?.includes(record.id) ? 0 : WEIGHT.outOfPlace) +
          expected(record, filled?.intent, due) +
          (record.intent === 'none'
            ? WEIGHT.nothing
            : filled
              ? WEIGHT.leftOver * left.length
              : WEIGHT.unfilled),
      );
      if (record.intent === 'none') nothing += weight;
      // what is told of a mix is told while one is open, and the parts of a spill behind one
      const only = record.situations.join();
      if (!here && (only === 'spill' || (only === 'mixing' && isDeed({ type: record.intent } as Intent))))
        return [];
      // amounts and names alone say nothing that was not taught so
      const answers = due.some((d) => d.type === record.intent);
      if (bareSlots && !answers && !(lesson?.includes(record.id) && (here || record.intent === 'part')))
        return [];
      if (!filled) {
        if (record.intent !== 'none') rest += weight;
        return [];
      }
      const { intent } = filled;
      // what was poured where a bath is due is in
      const isIn = intent.type === 'poured' && !intent.to && !intent.from && !intent.volumeMl;
      const into =
        isIn &&
        due.some((d) => d.type === 'bath-in') &&
        asIntent('bath-in', intent.liquid ? { liquid: intent.liquid } : {});
      const taught = lesson?.includes(record.id) ?? false;
      return [{ record, intent: into || elided(intent, said.tokens), left, taught, p: weight }];
    });
    // two commands of one meaning are one
    const merged = new Map<string, Ranked>();
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

  /** What the words that were taught and what English say together, in log probability, for each class of the model. */
  function judged(said: Spotted, moment: string): Float64Array {
    const meant = encoder && encoded(encoder, said.line ?? said.words, moment);
    const worded = classify(model, said.tokens);
    return Float64Array.from(model.classes, (_, c) => {
      const words = Math.log((worded[c] ?? 0) + LEAST_P);
      // what the encoder was not trained on, the words judge alone
      const e = meant?.[encoderClass[c] ?? -1];
      return WEIGHT.words * words + WEIGHT.encoder * (e === undefined ? words : Math.log(e + LEAST_P));
    });
  }
  /** Clauses and mended words of one line come back: the last few are kept. */
  const recent = new Map<string, Float64Array>();
  function encoded(by: Encoder, words: readonly string[], moment: string): Float64Array {
    const line = `${moment}: ${words.join(' ')}`;
    const p = recent.get(line) ?? by.classify(words, moment);
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
  const plausible = (line: readonly string[], now: Moment, ...types: readonly Intent['type'][]): number => {
    const long = spelledOut(line);
    const spotted = spot(long);
    const tokens = bare(spotted.tokens).filter(known);
    const p = softmax(judged({ ...spotted, line, tokens }, momentName(now)));
    return model.classes.reduce(
      (sum, id, c) => sum + (types.some((t) => t === records.get(id)?.intent) ? (p[c] ?? 0) : 0),
      0,
    );
  };
  return { read, rank, isEnglish, plausible, isBare, mentions, mayAct, words };
}

/** "The fixer, five, pouring from five": the same number or name once more. */
const isSaidAgain = (slot: Slot, used: Slot): boolean => {
  const [again, before] = [Object.values(slot.fields), JSON.stringify(used.fields)];
  return JSON.stringify(slot.fields) === before || (again.length === 1 && isSmallIn(again[0], used));
};
const isSmallIn = (value: unknown, { token, fields }: Slot): boolean =>
  token === '_bottle' && typeof value === 'number' && JSON.stringify(fields).includes(`:${value}}`);

/** The situation in which a command can be said now, if there is one. */
const openNow = (record: CommandRecord, situations: readonly Situation[]): Situation | undefined =>
  record.situations.find((s) => s === 'anytime' || situations.includes(s));

/** What the moment adds to the log probability of a command: what is due is likely, at its amount more so. */
function expected(record: CommandRecord, meant: Intent | undefined, due: readonly Intent[]): number {
  const match = due.find((d) => d.type === record.intent);
  if (!match) return 0;
  const [wanted, got] = [amountOf(match), meant && amountOf(meant)];
  if (wanted === undefined || got === undefined) return WEIGHT.dueKind;
  return Math.abs(got - wanted) <= NEARLY * wanted ? WEIGHT.dueAmount : WEIGHT.dueKind;
}

const NEARLY = 0.25;

/** What an English word may be an inflection of: "weighing" → "weigh", "agitated" → "agitate". */
const stemsOf = (word: string): string[] => {
  const stem = INFLECTED.exec(word)?.[1];
  if (stem === undefined) return [];
  const single = /([b-df-hj-np-tv-z])\1$/.test(stem) ? [stem.slice(0, -1)] : [];
  return [stem, `${stem}e`, `${stem}y`, ...single];
};

/** "Bleach in, four": without a verb it is told as done; "about to tip it in" is not. */
const elided = (intent: Intent, tokens: readonly string[]): Intent => {
  if (intent.type === 'poured' && intent.to?.kind === 'tank' && AHEAD.test(tokens.join(' '))) {
    const { liquid, from } = intent;
    return { type: 'pour-in', ...(liquid && { liquid }), ...(from && { from }) };
  }
  if (intent.type !== 'pour-in' || !ELIDED.test(tokens.join(' '))) return intent;
  const { liquid, from } = intent;
  return from
    ? { ...intent, type: 'poured', to: { kind: 'tank' } }
    : { type: 'bath-in', ...(liquid && { liquid }) };
};
const AMOUNTS = new Set(['_num', '_mass', '_volume', '_duration', '_degrees']);

/** "Maybe nine hundred" doubts how much, and not that. */
const sure = ({ words, slots }: Spotted): string =>
  words
    .filter((w, i) => !PERHAPS.test(w) || !slots.some((s) => s.from === i + 1 && AMOUNTS.has(s.token)))
    .join(' ');

/** What may itself be said with a "not". */
const DENIALS = new Set<Intent['type']>(['withdraw', 'cancel', 'correct', 'no-film', 'skip']);

const GUARDED_POURS = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-away']);

/** What negates, doubts or asks about a deed, or tells of somebody else's, never does it. */
function blocked(
  words: string,
  line: string,
  intent: Intent,
  own: ReadonlySet<string>,
  asked: boolean,
  p: number,
  language: Catalogue,
): boolean {
  const certain = p >= (isGuarded(intent) ? CERTAIN.guarded : CERTAIN.other);
  const meant = (pattern: RegExp, of = words): boolean => {
    const found = pattern.exec(of);
    return found !== null && !own.has(found[0]);
  };
  if (DENIALS.has(intent.type)) return asked || (!certain && meant(language.negation));
  if (language.denial.test(words) || meant(language.negation)) return true;
  if (!certain && meant(language.hearsay)) return true;
  // the guard judges what goes into the tank or comes out of it, and so answers whoever asks
  if (GUARDED_POURS.has(intent.type))
    return !ASKS_LEAVE.test(line) && (meant(language.doubt) || language.question.test(line));
  return (
    asked ||
    (language.question.test(line) && !language.request.test(line)) ||
    ((!certain || isGuarded(intent)) && meant(language.doubt, words.replace(language.meanwhile, '')))
  );
}

/** "set to 40, no wait, 41": of two values of one kind with a repair between them the later one was meant. */
export function repaired(said: Spotted): Spotted {
  const dropped = said.slots.find((slot, i) => {
    const next = said.slots[i + 1];
    const between = said.words.slice(slot.to, next?.from).join(' ');
    return next?.token === slot.token && CORRECTIONS.between.test(between);
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
const bare = (words: readonly string[]): string[] => words.filter((w) => !ARTICLES.has(w));

/** Contractions in their long form: "it's gone" → "it is gone". */
export const spelledOut = (words: readonly string[]): string[] =>
  words.flatMap((w) => (w === "let's" ? ['us'] : (longForm(w) ?? [w])));

/** Whether it ends with a question mark, or begins as a question does whatever joins it to what was said before. */
export const asking = (
  words: string,
  mark: boolean,
  { question, joins, forbids }: Catalogue,
): Reading['asks'] =>
  mark ? 'mark' : question.test(words.replace(joins, '')) && !forbids.test(words) ? 'form' : 'no';

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
