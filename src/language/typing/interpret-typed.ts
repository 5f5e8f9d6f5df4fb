import { limits } from '../../limits.js';
import type { Situation } from '../../process/desk.js';
import { type Interpretation, nothing, sayTheWords } from '../interpretation.js';
import type { Grammars } from '../load.js';
import { foremost, intentKey } from '../meaning/meanings.js';
import { asIntent } from '../meaning/schema.js';
import { FACTS, isGuarded, POURS, REPORTS } from '../meaning/weight.js';
import { writtenLines } from '../numbers.js';
import { normaliseTyped, typedBottleName, typedNote } from '../typed.js';
import { asTyped, fitted } from './as-typed.js';
import { mended } from './mended.js';
import { withSpareWords } from './spare-words.js';
import { otherWays } from './ways.js';

/**
 * What a typed line means: as `interpretHeard`, and also with digits, units, other spellings, missing articles and
 * small typing slips; sentences of another situation are understood and marked `outOfPlace`.
 */
export function interpretTyped(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  if (line.length > limits.lineChars) return tooLong;
  const free = freeText(withoutCourtesy(line), situations);
  if (free) return free;
  if (countWords(line) > limits.commandWords) return tooLong;
  const meant = readNumbers(line, situations, grammars);
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

/** The line without what people say before and after a sentence. */
const barely = (
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): string[] | undefined => {
  const bare = otherWays(plain, foremost(situations))[0]?.[0];
  return bare === undefined ? undefined : fitted(bare.split(' '), grammars);
};

/** "Film is in the tank, lid on": one thing said twice; "tank is empty and the stop bath is in": several facts. */
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
  const intents = meant.flatMap((m) => (m?.kind === 'understood' ? [m.intent] : []));
  if (intents.length < meant.length) return undefined;
  const distinct = [...new Map(intents.map((i) => [intentKey(i), i])).values()];
  const words = normaliseTyped(line);
  if (distinct.length === 1)
    return meant.some((m) => m?.kind === 'understood' && m.outOfPlace) ? undefined : { ...first, words };
  return distinct.every((i) => FACTS.has(i.type))
    ? { ...first, intent: { type: 'several', intents: distinct }, words }
    : undefined;
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
