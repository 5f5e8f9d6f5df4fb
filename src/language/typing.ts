import { limits } from '../limits.js';
import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { type Interpretation, nothing, sayTheWords, settle } from './interpretation.js';
import { english } from './languages/english.js';
import type { Grammars } from './load.js';
import { distinct, intentKey, type Meaning, meaningsHere } from './meaning/meanings.js';
import { asIntent } from './meaning/schema.js';
import { FACTS, isDeed, isGuarded, POURS } from './meaning/weight.js';
import { writtenLines } from './numbers.js';
import { openFor, withoutCourtesies } from './open/understand.js';
import { mendings } from './slips.js';
import { longForm, normaliseTyped, typedBottleName, typedNote } from './typed.js';

/**
 * What a typed line means: as `interpretHeard`, and also with digits, units, other spellings, missing articles and
 * small typing slips; a sentence that no grammar has goes to the open understanding.
 */
export function interpretTyped(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  if (line.length > limits.lineChars) return tooLong;
  const bare = line
    .replace(/^\s*(?:(?:hey|okay|ok)\s+)?tank\s?side[\s,:]+/i, '')
    .replace(/[\s,]+please[.!\s]*$/i, '');
  const free = freeText(bare, situations);
  if (free) return free;
  if (countWords(line) > limits.commandWords) return tooLong;
  const meant = readNumbers(bare, situations, grammars);
  return line.trim().endsWith('?') ? asAQuestion(meant) : meant;
}

const tooLong: Interpretation = {
  kind: 'nothing',
  why: `That is too long for one sentence, so I left it. At most ${limits.commandWords} words at a time; a note may have ${limits.lineChars} characters.`,
  near: [],
};
const countWords = (line: string): number => line.split(/[\s,;.]+/).length;

/** "2,013 g" is two thousand grams to some and two to others: where both make sense, both are asked about. */
function readNumbers(line: string, situations: readonly Situation[], grammars: Grammars): Interpretation {
  const [likely = line, ...others] = writtenLines(line);
  const meant = readTyped(likely, situations, grammars);
  if (others.length === 0) return meant;
  const all = [meant, ...others.map((l) => readTyped(l, situations, grammars))];
  const intents = all.flatMap((m) => (m.kind === 'understood' ? [m.intent] : []));
  const candidates = [...new Map(intents.map((i) => [intentKey(i), i])).values()];
  const first = all.find((m) => m.kind === 'understood') ?? meant;
  if (candidates.length < 2 || first.kind !== 'understood') return first;
  return { kind: 'unsure', candidates, words: first.words };
}

function readTyped(line: string, situations: readonly Situation[], grammars: Grammars): Interpretation {
  const plain = normaliseTyped(line);
  const said = fitted(plain, grammars);
  const bare = fitted(withoutCourtesies(plain, english), grammars);
  const asked = line.trim().endsWith('?');
  const open = openFor(grammars);
  const words = plain.split(' ').filter(Boolean);
  const strange = words.some((w) => !open.words.has(w) && !longForm(w));
  if (words.some((w) => w === 'override' || w === 'anyway'))
    return exact(said, [...situations, 'challenged'], grammars) ?? sayTheWords;
  return (
    exact(said, situations, grammars) ??
    exact(bare, situations, grammars) ??
    (strange ? mended(bare, situations, asked, grammars) : undefined) ??
    inClauses(line, situations, grammars) ??
    askedWithAmounts(open.understand(words, situations, asked), plain) ??
    nothing(said, situations, grammars)
  );
}

/** What would come of a mixture is answered with its amounts or not at all. */
const askedWithAmounts = (meant: Interpretation | undefined, plain: string): Interpretation | undefined =>
  /^what (?:if|happens if|would happen if) (?:i |we )?(?:pour|mix|add|spill|put|get|got)/.test(plain) &&
  !(
    meant?.kind === 'understood' &&
    meant.intent.type === 'what-if' &&
    (meant.intent.volumeMl ?? meant.intent.massG)
  )
    ? undefined
    : meant;

/** By the grammars of these situations: as it stands, else with small words added or left out. */
function exact(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  return (
    settle(meaningsHere(words, situations, grammars, false), words) ??
    settle(meaningsHere(words, situations, grammars, true), words)
  );
}

/** Contractions that no grammar has, in their long form: "bleach's in" → "bleach is in". */
const fitted = (plain: string, grammars: Grammars): string[] =>
  plain
    .split(' ')
    .filter(Boolean)
    .flatMap((w) => (grammars.vocabulary.has(w) ? [w] : (longForm(w) ?? [w])));

/** "Film is in the tank, lid on": one thing said twice; "tank is empty and the stop bath is in": several facts. */
function inClauses(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const clauses = line.split(/[,;.!]+\s+|\s+(?:and then|and|then)\s+/i).filter((c) => /\w/.test(c));
  if (clauses.length < 2 || clauses.length > 4) return undefined;
  const open = openFor(grammars);
  const meant = clauses.map((c) => {
    const plain = withoutCourtesies(normaliseTyped(c), english);
    const words = fitted(plain, grammars);
    return exact(words, situations, grammars) ?? open.understand(words, situations, false);
  });
  const intents = meant.flatMap((m) => (m?.kind === 'understood' ? [m.intent] : []));
  const [first] = meant;
  if (intents.length < meant.length || first?.kind !== 'understood') return undefined;
  const each = [...new Map(intents.map((i) => [intentKey(i), i])).values()];
  const words = normaliseTyped(line);
  if (each.length === 1) return { ...first, words };
  return each.every((i) => FACTS.has(i.type))
    ? { ...first, intent: { type: 'several', intents: each }, words }
    : undefined;
}

/** "The developer is in?" asks; only the words of a pour may be a question, for the guard answers it. */
function asAQuestion(meant: Interpretation): Interpretation {
  if (meant.kind === 'understood' && meant.intent.type === 'part' && meant.intent.vessel?.kind === 'bottle')
    return { ...meant, intent: { type: 'ask-bottle', bottle: meant.intent.vessel.number } };
  if (meant.kind !== 'understood' || POURS.has(meant.intent.type) || !isDeed(meant.intent)) return meant;
  if (meant.intent.type === 'next-step') return { ...meant, intent: { type: 'ask-next' } };
  // a yes must never stand for the words that override
  if (meant.intent.type === 'override') return sayTheWords;
  return { kind: 'unsure', candidates: [meant.intent], words: meant.words };
}

/** Notes and names keep the words as they were typed; they are no grammar's. */
function freeText(line: string, situations: readonly Situation[]): Interpretation | undefined {
  const text = typedNote(line);
  const named = text === undefined ? typedBottleName(line) : undefined;
  const intent = text === undefined ? asIntent('bottle-named', named ?? {}) : asIntent('note', { text });
  if (!intent) return undefined;
  return { kind: 'understood', intent, words: normaliseTyped(line), situation: situations[0] ?? 'anytime' };
}

/** Most mended sentences that the open understanding is asked about. */
const MOST_MENDED = 4;

/** What the line means with its typing slips mended: one light meaning is taken, several or a weighty one are asked about. */
function mended(
  words: readonly string[],
  situations: readonly Situation[],
  asked: boolean,
  grammars: Grammars,
): Interpretation | undefined {
  const open = openFor(grammars);
  const all = mendings(words, grammars.vocabulary, open.words);
  const meaningsOf = (read: (words: readonly string[]) => Interpretation | undefined, of: typeof all) =>
    of.flatMap((mending) => {
      const meant = read(mending.words);
      if (!meant || meant.kind === 'nothing') return [];
      const intents: Intent[] = meant.kind === 'understood' ? [meant.intent] : meant.candidates;
      const situation = meant.kind === 'understood' ? meant.situation : 'anytime';
      return intents.map((intent) => ({ meaning: { intent, situation } satisfies Meaning, mending }));
    });
  const plain = meaningsOf((w) => exact(w, situations, grammars), all);
  const found =
    plain.length > 0
      ? plain
      : meaningsOf((w) => open.understand(w, situations, asked), all.slice(0, MOST_MENDED));
  const [first] = found;
  if (!first) return undefined;
  const meanings = distinct(found.map((f) => f.meaning));
  if (meanings.some((m) => m.intent.type === 'override')) return sayTheWords;
  const said = first.mending.words.join(' ');
  if (meanings.length > 3) return undefined;
  if (meanings.length > 1 || first.mending.mustAsk || isGuarded(first.meaning.intent))
    return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: said };
  return { kind: 'understood', ...first.meaning, words: said, mended: first.mending.changed };
}
