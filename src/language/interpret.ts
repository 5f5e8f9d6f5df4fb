import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { type Grammars, SITUATIONS } from './load.js';
import { asIntent } from './meaning/schema.js';
import { runTags } from './meaning/tags.js';
import { nearSentences } from './near.js';
import { teenTyTwins } from './numbers.js';
import { type Mending, mendings } from './slips.js';
import { longForm, normaliseTyped, typedBottleName, typedNote } from './typed.js';
import { otherWays } from './typing/ways.js';
import { tagPaths } from './walk.js';

/** What a sentence was taken to mean. `words` is the sentence as the grammars say it. */
export type Interpretation =
  | {
      kind: 'understood';
      intent: Intent;
      words: string;
      /** the situation whose grammar has the sentence */
      situation: Situation;
      /** understood, but it belongs to a situation that is not the present one */
      outOfPlace?: true;
      /** typing slips that were mended */
      mended?: { from: string; to: string }[];
    }
  /** more than one meaning, or one that is too weighty for a mended slip: ask */
  | { kind: 'unsure'; candidates: Intent[]; words: string }
  /** `why` is a whole sentence; `near` are sentences it resembles, likeliest first */
  | { kind: 'nothing'; why: string; near: string[] };

/** Deeds that a guess must never set off. */
const GUARDED = new Set<Intent['type']>([
  ...([
    'pour-in',
    'pour-back',
    'pour-between',
    'pour-away',
    'bath-in',
    'next-step',
    'drain-now',
    'tank-empty',
  ] as const),
  ...([
    'override',
    'no-film',
    'confirm',
    'cancel',
    'undo',
    'bottle-holds',
    'bottle-discarded',
    'close-run',
    'film-loaded',
  ] as const),
]);

/** Announcements: the guard judges them, so asking is as good as telling. */
const POURS = new Set<Intent['type']>(['pour-in', 'pour-back', 'pour-between', 'pour-away']);

/** Told as done; with a question mark they are asked back. */
const REPORTS = new Set<Intent['type']>([
  ...(['film-hung', 'start-clock', 'hold-clock', 'resume-clock', 'add-time', 'spill-cleaned'] as const),
  ...([
    'dissolved',
    'scale-zeroed',
    'made-up',
    'mix-stop',
    'bottle-named',
    'heater',
    'vessel-moved',
  ] as const),
]);

/** Where a sentence out of place may belong; the parts of a spill mean nothing until one is told of. */
const ELSEWHERE = SITUATIONS.filter((s) => s !== 'spill');

export const isGuarded = (intent: Intent): boolean => GUARDED.has(intent.type);

interface Meaning {
  intent: Intent;
  situation: Situation;
}

/**
 * What the recogniser's words mean in these situations (`anytime` is always among them). A sentence of a present
 * situation goes before the same sentence of `anytime`; two meanings of equal standing are unsure.
 */
export function interpretHeard(
  words: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  const said = words.toLowerCase().split(/\s+/).filter(Boolean);
  const meanings = meaningsHere(said, situations, grammars, false);
  return settle(meanings, said) ?? nothing(said, situations, grammars);
}

/**
 * What a typed line means: as `interpretHeard`, and also with digits, units, other spellings, missing articles and
 * small typing slips; sentences of another situation are understood and marked `outOfPlace`.
 */
export function interpretTyped(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  const free = freeText(withoutCourtesy(line), situations);
  if (free) return free;
  const meant = readTyped(line, situations, grammars);
  return line.trim().endsWith('?') ? asAQuestion(meant) : meant;
}

function readTyped(line: string, situations: readonly Situation[], grammars: Grammars): Interpretation {
  const plain = normaliseTyped(line);
  const said = fitted(plain.split(' ').filter(Boolean), grammars);
  return (
    asTyped(plain, situations, grammars) ??
    inClauses(line, situations, grammars) ??
    withSpareWords(plain, situations, grammars) ??
    mended(said, situations, grammars) ??
    mended(barely(plain, situations, grammars) ?? said, situations, grammars) ??
    nothing(said, situations, grammars)
  );
}

const DOUBTING =
  /\b(?:not|no|never|nearly|almost|half|maybe|if|before|after|when|should|wish|was|were|think|or|anyway|override|\w+n't)\b/;
const MOST_WORDS = 9;

/** A question with up to two words too many; only questions are answered so, for nothing can come of them. */
function withSpareWords(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const words = plain.split(' ').filter(Boolean);
  if (DOUBTING.test(plain) || words.length < 3 || words.length > MOST_WORDS) return undefined;
  const shorter = (list: string[]): string[][] => list.map((_, i) => list.filter((_w, k) => k !== i));
  const once = shorter(words);
  for (const lines of [once, once.flatMap(shorter)]) {
    const meanings = distinct(
      lines.flatMap((l) => {
        const said = fitted(l, grammars);
        return said.length < 2 ? [] : meaningsHere(said, situations, grammars, true);
      }),
    );
    const [only, second] = meanings;
    if (only && !second && isQuestion(only.intent)) return { kind: 'understood', ...only, words: plain };
    if (only) return undefined;
  }
  return undefined;
}

const isQuestion = ({ type }: Intent): boolean =>
  type.startsWith('ask-') || type === 'shelf-have' || type === 'mix-plan';

/** The line without what people say before and after a sentence. */
const barely = (
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): string[] | undefined => {
  const bare = otherWays(plain, foremost(situations))[0]?.[0];
  return bare === undefined ? undefined : fitted(bare.split(' '), grammars);
};

/** "Film is in the tank, lid on": taken when every part by itself means one and the same thing. */
function inClauses(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const clauses = line.split(/[,;.!]+\s+|\s+(?:and|then)\s+/i).filter((c) => /\w/.test(c));
  if (clauses.length < 2 || clauses.length > 4) return undefined;
  const meant = clauses.map((c) => asTyped(normaliseTyped(c), situations, grammars));
  const [first] = meant;
  if (first?.kind !== 'understood') return undefined;
  const same = meant.every(
    (m) => m?.kind === 'understood' && intentKey(m.intent) === intentKey(first.intent) && !m.outOfPlace,
  );
  return same ? { ...first, words: normaliseTyped(line) } : undefined;
}

/** What the line means as it stands, or said another way; first here, then in other situations. */
function asTyped(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const said = fitted(plain.split(' ').filter(Boolean), grammars);
  const ways = otherWays(plain, foremost(situations)).map((sentences) =>
    sentences.map((s) => fitted(s.split(' '), grammars)),
  );
  const here = (words: readonly string[], loose: boolean) => meaningsHere(words, situations, grammars, loose);
  const there = (words: readonly string[], loose: boolean) =>
    distinct(ELSEWHERE.flatMap((s) => meaningsIn(words, s, grammars, loose)));
  for (const [find, outOfPlace] of [
    [here, false],
    [there, true],
  ] as const) {
    for (const sentences of [[said], ...ways]) {
      const found = loosened(sentences, find);
      if (found?.kind === 'understood' && outOfPlace) return { ...found, outOfPlace };
      if (found) return found;
    }
  }
  return undefined;
}

/** What the sentences mean together: as they stand, else with small words added or left out. */
function loosened(
  sentences: readonly (readonly string[])[],
  find: (words: readonly string[], loose: boolean) => Meaning[],
): Interpretation | undefined {
  for (const loose of [false, true]) {
    const meanings = distinct(sentences.flatMap((words) => find(words, loose)));
    const found = settle(meanings, sentences[0] ?? []);
    if (found) return found;
  }
  return undefined;
}

/** "The developer is in?" asks; only the words of a pour may be a question, for the guard answers it. */
function asAQuestion(meant: Interpretation): Interpretation {
  if (meant.kind !== 'understood' || POURS.has(meant.intent.type)) return meant;
  if (!isGuarded(meant.intent) && !REPORTS.has(meant.intent.type)) return meant;
  if (meant.intent.type === 'next-step') return { ...meant, intent: { type: 'ask-next' } };
  // a yes must never stand for the words that override
  if (meant.intent.type === 'override') return sayTheWords;
  return { kind: 'unsure', candidates: [meant.intent], words: meant.words };
}

/** The intents that an ear would confuse with this sentence by -teen and -ty ("fifteen", "fifty"). */
export function teenTyIntents(words: string, situations: readonly Situation[], grammars: Grammars): Intent[] {
  return teenTyTwins(words.toLowerCase().split(/\s+/).filter(Boolean)).flatMap((twin) =>
    meaningsHere(twin, situations, grammars, false).map((m) => m.intent),
  );
}

/** A typed line without the call word before it and "please" after it. */
const withoutCourtesy = (line: string): string =>
  line.replace(/^\s*(?:(?:hey|okay|ok)\s+)?tank\s?side[\s,:]+/i, '').replace(/[\s,]+please[.!\s]*$/i, '');

/** Notes and names keep the words as they were typed; they are no grammar's. */
function freeText(line: string, situations: readonly Situation[]): Interpretation | undefined {
  const text = typedNote(line);
  const named = text === undefined ? typedBottleName(line) : undefined;
  const intent = text === undefined ? asIntent('bottle-named', named ?? {}) : asIntent('note', { text });
  if (!intent) return undefined;
  return { kind: 'understood', intent, words: normaliseTyped(line), situation: situations[0] ?? 'anytime' };
}

function meaningsHere(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
  loose: boolean,
): Meaning[] {
  for (const rank of ranked(situations)) {
    const meanings = distinct(rank.flatMap((s) => meaningsIn(words, s, grammars, loose)));
    if (meanings.length > 0) return meanings;
  }
  return [];
}

/** The situations that short words such as "done" belong to. */
const foremost = (situations: readonly Situation[]): Situation[] =>
  ranked(situations).find((rank) => rank.length > 0) ?? [];

const filmAtStake: readonly Situation[] = ['loading', 'pouring', 'immersed', 'draining', 'hanging'];

/**
 * The same words may belong to several situations. What was asked comes first; film in the process goes before a
 * mix, a mix before all else; and bottles that stand warming beside it come last but for `anytime`.
 */
function ranked(situations: readonly Situation[]): Situation[][] {
  const open = (...among: readonly Situation[]) => among.filter((s) => situations.includes(s));
  const film = open(...filmAtStake);
  const mix = open('mixing');
  const asked = open('challenged', 'spill');
  const idle = open('preparing', 'closing');
  return film.length > 0
    ? [
        [...asked, ...film],
        idle,
        ['warming', 'anytime'].filter(
          (s): s is Situation => s === 'anytime' || situations.includes('warming'),
        ),
        mix,
      ]
    : [[...asked, ...mix], idle, open('warming'), ['anytime']];
}

function meaningsIn(
  words: readonly string[],
  situation: Situation,
  grammars: Grammars,
  loose: boolean,
): Meaning[] {
  if (words.length === 0) return [];
  const paths = tagPaths(grammars.graphs[situation], words, { loose });
  return distinct(
    paths.flatMap((tags) => {
      const { intent: type, ...fields } = runTags(tags);
      const intent = asIntent(type, fields);
      return intent ? [{ intent, situation }] : [];
    }),
  );
}

function distinct(meanings: readonly Meaning[]): Meaning[] {
  const seen = new Map<string, Meaning>();
  for (const m of meanings) {
    const key = intentKey(m.intent);
    if (!seen.has(key)) seen.set(key, m);
  }
  return [...seen.values()];
}

/** The same text for the same intent, whatever the order of its fields. */
export function intentKey(intent: Intent): string {
  return JSON.stringify(intent, (_, v: unknown) =>
    v !== null && typeof v === 'object' && !Array.isArray(v)
      ? Object.fromEntries(Object.entries(v).sort())
      : v,
  );
}

function settle(meanings: readonly Meaning[], words: readonly string[]): Interpretation | undefined {
  const [only, second] = meanings;
  if (!only) return undefined;
  if (second) return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: words.join(' ') };
  return { kind: 'understood', ...only, words: words.join(' ') };
}

/** Contractions that no grammar has, in their long form: "bleach's in" → "bleach is in". */
function fitted(words: readonly string[], grammars: Grammars): string[] {
  return words.flatMap((w) => (grammars.vocabulary.has(w) ? [w] : (longForm(w) ?? [w])));
}

/** Most mended sentences that are tried in situations other than the present ones. */
const MOST_ELSEWHERE = 8;

function mended(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const all = mendings(words, grammars.vocabulary);
  const here = chosen(all, (m, loose) => meaningsHere(m, situations, grammars, loose));
  if (here) return here;
  const there = chosen(all.slice(0, MOST_ELSEWHERE), (m, loose) =>
    distinct(ELSEWHERE.flatMap((s) => meaningsIn(m, s, grammars, loose))),
  );
  return there?.kind === 'understood' ? { ...there, outOfPlace: true } : there;
}

/** What mended sentences mean: one light meaning is taken, several or a weighty one are asked about. */
function chosen(
  all: readonly Mending[],
  meaningsOf: (words: readonly string[], loose: boolean) => Meaning[],
): Interpretation | undefined {
  const found = all.flatMap((mending) => {
    const meanings = [false, true]
      .map((loose) => meaningsOf(mending.words, loose))
      .find((list) => list.length > 0);
    return (meanings ?? []).map((meaning) => ({ meaning, mending }));
  });
  const [first] = found;
  if (!first) return undefined;
  const meanings = distinct(found.map((f) => f.meaning));
  if (meanings.some((m) => m.intent.type === 'override')) return sayTheWords;
  const said = first.mending.words.join(' ');
  if (meanings.length > 1 || first.mending.mustAsk || isGuarded(first.meaning.intent)) {
    return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: said };
  }
  return { kind: 'understood', ...first.meaning, words: said, mended: first.mending.changed };
}

const WHAT_IF = 'what if i poured 20 millilitres of bleach into 600 millilitres of developer';
const sayTheWords: Interpretation = {
  kind: 'nothing',
  why: 'To let a refused pour go ahead, the words are: override the guard and pour anyway.',
  near: [],
};

function nothing(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  if (words.length === 0)
    return { kind: 'nothing', why: 'There were no words. Say "help" to hear what you can say.', near: [] };
  if (/^(hey |okay )?tank side$/.test(words.join(' '))) {
    return { kind: 'nothing', why: 'I am listening. Say "help" to hear what you can say.', near: [] };
  }
  if (words.some((w) => w === 'override' || w === 'anyway')) return sayTheWords;
  if (/^what (?:if|happens|would)\b/.test(words.join(' ')))
    return { kind: 'nothing', why: `Ask it with the amounts: "${WHAT_IF}".`, near: [] };
  const unknown = words.filter((w) => !grammars.vocabulary.has(w));
  const near = nearSentences(words.join(' '), situations, grammars);
  const what =
    unknown.length > 0 ? `I do not know the word "${unknown[0]}"` : 'I know the words, but not the sentence';
  const how =
    near[0] === undefined ? 'say "help" to hear what you can say' : `you can say, for example, "${near[0]}"`;
  return { kind: 'nothing', why: `${what}; ${how}.`, near };
}
