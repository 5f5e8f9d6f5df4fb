import type { Situation } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import type { Interpretation } from '../interpretation.js';
import { compileGrammar } from '../jsgf/compile.js';
import { type Catalogue, english } from '../languages/english.js';
import { type Grammars, PACKAGE } from '../load.js';
import { intentKey } from '../meaning/meanings.js';
import { runTags } from '../meaning/tags.js';
import { isDeed, isGuarded, POURS } from '../meaning/weight.js';
import { type CommandRecord, commandRecords, lessonsOf, type Wordings } from '../records.js';
import { longForm } from '../typed.js';
import { tagPaths } from '../walk.js';
import { fill } from './fill.js';
import { classify, type Model, train } from './model.js';
import { type Plain, plainWords } from './plain.js';
import { type Slot, type Spotted, slotSpotter } from './slots.js';

/** Understands sentences that no grammar has, from what the grammars' commands have in common. */
export interface OpenUnderstanding {
  /** every word that means something to it */
  readonly words: ReadonlySet<string>;
  /** undefined when nothing of ours is meant, or not surely enough even to ask */
  understand(
    words: readonly string[],
    situations: readonly Situation[],
    asked: boolean,
  ): Interpretation | undefined;
  /** whether a sentence is an amount or a name and nothing else */
  isBare(words: readonly string[]): boolean;
  /** whether anything in a sentence speaks of what stands at a sink */
  mentions(words: readonly string[]): boolean;
  /** whether a sentence may do anything at all: not when it tells of others, of other times or of what might be */
  mayAct(words: readonly string[]): boolean;
}

/** How sure the model must be, as a share of all that fits: to act, to answer a question, and to ask back. */
const SURE = { deed: 0.4, talk: 0.3, ask: 0.2 };
/** A deed must be this many times likelier than the next meaning. */
const MARGIN = 2.5;
/** What each slot without a place in the intent, and a command out of its situation, take off the log probability. */
const LEFT_OVER = 2.5;
const OUT_OF_PLACE = 1.2;
/** What a command of the present situation has over one that is always open. */
const FOREMOST = 0.4;
const FOREIGN_WORD = 1;
/** What a word that no command was taught with takes off the trust in all of them. */
const UNKNOWN_WORD = 0.4;
/** At most one word in so many may be unknown where a deed is done unasked. */
const KNOWN_PER_UNKNOWN = 3;
/** What a sentence that was taught word for word adds. */
const TAUGHT = 1;
const MOST_CONSIDERED = 12;
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
}

export function learn(
  grammars: Grammars,
  wordings: Wordings = new Map(),
  language: Catalogue = english,
): Learnt {
  const random = dice(20_260_101);
  const lessons = lessonsOf(commandRecords(grammars), wordings, grammars, random);
  const spot = slotSpotter(grammars);
  const plain = plainOf(language);
  const examples = lessons
    .flatMap(({ record, sentences }) =>
      sentences.map((words) => ({
        words: bare(spot(plain(spelledOut(words))).tokens),
        label: record.id,
        pours: record.intent !== 'none' && POURS.has(record.intent),
      })),
    )
    .filter(({ words, pours }) => words.length > 0 && !(pours && words.every((w) => w.startsWith('_'))));
  const own = lessons.map(
    ({ record, words }) => [record.id, new Set(plain(spelledOut([...words])))] as const,
  );
  const ownOf = new Map(own);
  for (const { words, label } of examples) for (const w of words) ownOf.get(label)?.add(w);
  const taught = new Map<string, string[]>();
  for (const { words, label } of examples) {
    const key = words.join(' ');
    taught.set(key, [...(taught.get(key) ?? []), label]);
  }
  return { model: train(examples, random), own: ownOf, taught };
}

export function openUnderstanding(
  grammars: Grammars,
  { model, own, taught }: Learnt,
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
  const plain = plainOf(language);
  const known = (token: string): boolean =>
    token.startsWith('_') || language.small.has(token) || model.features.has(token);
  const understand = (
    line: readonly string[],
    situations: readonly Situation[],
    asked: boolean,
  ): Interpretation | undefined => {
    const long = spelledOut(withoutCourtesies(line.join(' '), language).split(' ').filter(Boolean));
    const spotted = spot(nonEmpty(plain(long), long));
    const all = bare(spotted.tokens);
    const said = { ...spotted, line, tokens: all.filter(known) };
    const unknown = all.length - said.tokens.length;
    if (said.tokens.length === 0 || unknown > said.tokens.length) return undefined;
    const found = ranked(said, situations, unknown);
    const [best, second] = found;
    if (!best) return undefined;
    const words = line.join(' ');
    const { intent, p, foreign } = best;
    if (intent.type !== 'hurt' && language.others.test(words)) return undefined;
    const deed = isDeed(intent);
    if (deed && long.includes('yes') && (long.includes('no') || long.includes('not'))) return undefined;
    if (
      deed &&
      blocked(
        said.words.join(' '),
        long.join(' '),
        intent,
        own.get(best.record.id) ?? new Set(),
        asked,
        language,
      )
    )
      return undefined;
    const clear = p >= (deed ? SURE.deed : SURE.talk) && (!second || p >= (deed ? MARGIN : 1.2) * second.p);
    const whole =
      best.left.length === 0 &&
      (!deed ||
        (foreign === 0 &&
          (isGuarded(intent) ? unknown === 0 : unknown * KNOWN_PER_UNKNOWN <= said.tokens.length)));
    const here = best.record.situations.find((s) => s === 'anytime' || situations.includes(s));
    const situation = here ?? best.record.situations[0] ?? 'anytime';
    if (clear && whole && (here || intent.type !== 'no-film'))
      return { kind: 'understood', intent, words, situation, ...(!here && { outOfPlace: true }) };
    if (p < SURE.ask || best.left.length > 1 || foreign > said.tokens.length / 3) return undefined;
    // a question answered in vain does no harm
    if (!deed && foreign === 0 && (!second || p >= 1.5 * second.p))
      return { kind: 'understood', intent, words, situation, ...(!here && { outOfPlace: true }) };
    const rivals = found.filter((f) => f.p >= p / MARGIN && f.left.length === best.left.length).slice(0, 3);
    if (rivals.length > 2) return undefined;
    return { kind: 'unsure', candidates: rivals.map((r) => r.intent), words };
  };

  interface Found {
    record: CommandRecord;
    intent: Intent;
    left: readonly Slot[];
    /** words that this command was never taught with */
    foreign: number;
    p: number;
  }

  function ranked(said: Spotted, situations: readonly Situation[], unknown: number): Found[] {
    const p = classify(model, said.tokens);
    const lesson = taught.get(said.tokens.join(' '));
    const bareSlots = said.tokens.every((t) => t.startsWith('_'));
    for (const id of lesson ?? []) {
      const c = model.classes.indexOf(id);
      const here = records.get(id)?.situations.some((s) => s === 'anytime' || situations.includes(s));
      if (here) p[c] = (p[c] ?? 0) + TAUGHT;
    }
    const order = [...p.keys()].sort((a, b) => (p[b] ?? 0) - (p[a] ?? 0)).slice(0, MOST_CONSIDERED);
    let rest = 0;
    const found = order.flatMap((c): Found[] => {
      const record = records.get(model.classes[c] ?? '');
      // the words that override are said whole or not at all
      if (!record || record.intent === 'override') return [];
      const here = record.situations.some((s) => s === 'anytime' || situations.includes(s));
      const foremost = situations.some((s) => s !== 'anytime' && record.situations.includes(s));
      const weight = (p[c] ?? 0) * Math.exp(foremost ? FOREMOST : here ? 0 : -OUT_OF_PLACE);
      if (record.intent === 'none') rest += weight;
      // amounts and names alone say nothing that was not taught so
      if (bareSlots && !(lesson?.includes(record.id) && (here || record.intent === 'part'))) return [];
      const filled = fill(record, said, recipeIn);
      if (!filled) return [];
      const mine = own.get(record.id) ?? new Set<string>();
      const foreign = said.tokens.filter((t) => !language.small.has(t) && !mine.has(t)).length;
      // a slot that the command was taught with and has no field for changes nothing; a second bath does
      const taken = new Set(said.slots.filter((s) => !filled.left.includes(s)).map((s) => s.token));
      const left = filled.left.filter((s) => !IDLE.has(s.token) || !mine.has(s.token) || taken.has(s.token));
      return [
        {
          record,
          intent: filled.intent,
          left,
          foreign,
          p: weight * Math.exp(-LEFT_OVER * left.length - FOREIGN_WORD * foreign),
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
    const sum = all.reduce((s, f) => s + f.p, rest) || 1;
    const trust = (foreign: number): number =>
      Math.exp((-(FOREIGN_WORD * foreign + UNKNOWN_WORD * unknown) * 3) / Math.max(3, said.tokens.length));
    return all.map((f) => ({ ...f, p: (f.p / sum) * trust(f.foreign) })).sort((a, b) => b.p - a.p);
  }

  const words: ReadonlySet<string> = new Set([
    ...grammars.vocabulary,
    ...language.small,
    ...[...own.values()].flatMap((w) => [...w]),
    ...plain.words,
  ]);
  const mentions = (line: readonly string[]): boolean =>
    spot(plain(spelledOut(line))).slots.some(({ token }) => OURS.has(token));
  const mayAct = (line: readonly string[]): boolean => {
    const said = plain(spelledOut(line)).join(' ');
    return !language.hearsay.test(said) && !language.unreal.test(said);
  };
  const isBare = (line: readonly string[]): boolean =>
    bare(spot(plain(spelledOut(line))).tokens).every((t) => t.startsWith('_'));
  return { understand, isBare, mentions, mayAct, words };
}

/** What may itself be said with a "not". */
const DENIALS = new Set<Intent['type']>(['withdraw', 'cancel', 'correct', 'no-film', 'skip', 'undo']);

/** What negates, doubts or asks about a deed, or tells of somebody else's, never does it. */
function blocked(
  words: string,
  line: string,
  intent: Intent,
  own: ReadonlySet<string>,
  asked: boolean,
  language: Catalogue,
): boolean {
  const meant = (pattern: RegExp): boolean => {
    const found = pattern.exec(words);
    return found !== null && !own.has(found[0]);
  };
  if (!DENIALS.has(intent.type) && language.denial.test(words)) return true;
  if (meant(language.negation) || meant(language.hearsay)) return true;
  if (POURS.has(intent.type)) return meant(language.doubt) && !/^(?:can|may|could|should|shall) /.test(line);
  return asked || language.question.test(line) || meant(language.doubt);
}

const nonEmpty = (words: string[], or: string[]): string[] => (words.length > 0 ? words : or);

/** Articles tell nothing apart. */
const ARTICLES = new Set(['the', 'a', 'an', 'my', 'our', 'just', 'please']);
const bare = (words: readonly string[]): string[] => words.filter((w) => !ARTICLES.has(w));

/** Contractions in their long form: "it's gone" → "it is gone". */
export const spelledOut = (words: readonly string[]): string[] =>
  words.flatMap((w) => (w === "let's" ? ['us'] : (longForm(w) ?? [w])));

const plains = new WeakMap<Catalogue, Plain>();
function plainOf(language: Catalogue): Plain {
  const plain = plains.get(language) ?? plainWords(language.spoken, language.alike);
  plains.set(language, plain);
  return plain;
}

export function withoutCourtesies(words: string, { courtesies }: Catalogue): string {
  let [before, after] = ['', words];
  while (after !== before) [before, after] = [after, after.replace(courtesies, '')];
  return after;
}

/** Numbers from 0 to below 1 that look random, the same for the same seed. */
function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
