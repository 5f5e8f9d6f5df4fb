import { limits } from '../../../limits.js';
import type { Moment } from '../../../process/desk.js';
import { asIntent, type Intent } from '../../../process/intent.js';
import { type Interpretation, settle, type Understood } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { intentKey, meaningsElsewhere, meaningsHere } from '../../meaning/meanings.js';
import { factsIn, isGuarded, isQuestion, POURS } from '../../meaning/weight.js';
import { type Harm, harmTold } from './harm.js';
import { ALONE_MEANS_NOTHING, DENIES, DOUBTS, IDLE, SUPPOSES } from './lists.js';
import { saidIn } from './matter.js';
import { sayingOf } from './sayings.js';
import { toldInAnyOrder } from './told.js';
import { germanClauses, germanNote, mended, normaliseGerman } from './typed.js';

const tooLong = 'Das ist zu lang für einen Satz, darum habe ich nichts getan.';

/**
 * What a typed German line means: people and alarms first, then the sentences of the grammars, then what is told at the
 * sink in any order of its words; each clause by itself where all of them are understood. Nothing else is guessed at.
 */
export function readGerman(
  line: string,
  now: Moment,
  grammars: Grammars,
  help: () => string,
): Interpretation {
  const nothing = (why: string): Interpretation => ({ kind: 'nothing', why, near: [] });
  if (line.length > limits.lineChars) return nothing(tooLong);
  const text = germanNote(line);
  const note = text === undefined ? null : asIntent('note', { text });
  if (note) return { kind: 'understood', intent: note, words: line, situation: 'anytime' };
  const plain = mended(normaliseGerman(line), grammars);
  if (plain === '') return nothing('Das waren keine Worte. Tippe „Hilfe“.');
  if (plain.split(' ').length > limits.commandWords) return nothing(tooLong);
  const clauses = clausesIn(line, grammars);
  const harm = harmTold(plain, clauses, grammars, now.due);
  return (
    (harm && besideHarm(harm, plain, now, grammars)) ??
    readClause(plain, now, grammars) ??
    readClauses(clauses, plain, now, grammars) ??
    toldOf(plain, now, grammars, line.includes('?')) ??
    (isBareReading(plain, now)
      ? nothing('Welches Bad hat so viel? Sag es mit seinem Namen, zum Beispiel: Entwickler 41,1.')
      : undefined) ??
    outOfPlace(plain, grammars) ??
    readSome(clauses, plain, now, grammars) ??
    nothing(`Das habe ich nicht verstanden. ${help()}`)
  );
}

/** A number by itself, of whatever bath. */
const BARE_DEGREES =
  /^(?:(?:jetzt|nun|erst|schon|sind|hat|zeigt|steht|auf|bei|es|immer|noch|endlich) )*(?:thirty|forty|twenty)(?: (?:one|two|three|four|five|six|seven|eight|nine))?(?: point \w+(?: \w+)?)?(?: degrees)?(?: jetzt)?$/;

const isBareReading = (plain: string, { situations }: Moment): boolean =>
  BARE_DEGREES.test(plain) &&
  situations.some((s) => s === 'warming' || s === 'immersed') &&
  !situations.includes('mixing');

/** The clauses of a line, an amount or a place alone with the one before it, and without cries. */
function clausesIn(line: string, grammars: Grammars): readonly string[] {
  const clauses: string[] = [];
  for (const typed of germanClauses(line)) {
    const clause = mended(normaliseGerman(typed), grammars);
    if (clause === '' || ALONE_MEANS_NOTHING.test(clause)) continue;
    const { words, things, volumeMl, place } = saidIn(clause, grammars);
    const amount = (volumeMl !== undefined || place !== undefined) && words.length <= 5 && things.length <= 1;
    const before = clauses.at(-1);
    if (amount && before !== undefined && !/\b(?:ist|sind|hat|habe)\b/.test(clause))
      clauses.splice(-1, 1, `${before} ${clause}`);
    else clauses.push(clause);
  }
  return clauses;
}

const understood = (intent: Intent, words: string): Understood => ({
  kind: 'understood',
  intent,
  words,
  situation: 'anytime',
});

/** Help comes first, then what else was told. */
function besideHarm({ intent, beside }: Harm, plain: string, now: Moment, grammars: Grammars): Understood {
  const facts = beside
    .flatMap((clause) => {
      const meant = readClause(clause, now, grammars) ?? toldOf(clause, now, grammars);
      return meant?.kind === 'understood' ? factsIn(meant.intent) : [];
    })
    .filter((i) => !isQuestion(i) && !OF_THE_CRY.has(i.type));
  return understood(facts.length === 0 ? intent : { type: 'several', intents: [intent, ...facts] }, plain);
}
const OF_THE_CRY = new Set<Intent['type']>([
  ...(['hurt', 'confirm', 'cancel', 'override', 'stop', 'help', 'greeting', 'thanks', 'note'] as const),
  ...(['say-again', 'more', 'undo', 'redo', 'part', 'correct', 'next-step'] as const),
]);

/** A sentence of the open grammars, with or without words that tell nothing. */
function readClause(plain: string, { situations }: Moment, grammars: Grammars): Interpretation | undefined {
  for (const said of waysToSay(plain)) {
    const meant = settle(meaningsHere(said, situations, grammars, false), said);
    if (meant) return meant;
  }
  return undefined;
}
const waysToSay = (plain: string): readonly string[][] =>
  [...new Set([plain, plain.replace(COURTESY, ''), withoutIdle(plain.replace(/\bis\b/g, 'ist'))])].map(
    (said) => said.split(' ').filter(Boolean),
  );
const COURTESY = /^(?:bitte|so|also|okay|gut) |(?: bitte)$/g;
const withoutIdle = (plain: string): string =>
  plain
    .split(' ')
    .filter((w) => !IDLE.has(w))
    .join(' ');

function toldOf(plain: string, now: Moment, grammars: Grammars, asked = false): Interpretation | undefined {
  const intent =
    toldInAnyOrder(plain, grammars, now.situations.includes('spill')) ??
    sayingOf(plain, asked, now, grammars);
  return intent && understood(intent, plain);
}

/** Each clause by itself, where every one is understood. */
function readClauses(clauses: readonly string[], plain: string, now: Moment, grammars: Grammars) {
  const meant = clauses.map((clause) => readClause(clause, now, grammars) ?? toldOf(clause, now, grammars));
  return clauses.length > 1 || (clauses[0] !== plain && clauses.length === 1)
    ? together(meant, plain)
    : undefined;
}
function together(meant: readonly (Interpretation | undefined)[], plain: string): Understood | undefined {
  const all = meant.filter((m): m is Understood => m?.kind === 'understood' && !FRAGMENTS.has(m.intent.type));
  const [first] = all;
  if (!first || all.length < meant.length) return undefined;
  const intents = [...new Map(all.flatMap((m) => factsIn(m.intent)).map((i) => [intentKey(i), i])).values()];
  return {
    ...first,
    intent: intents.length === 1 && intents[0] ? intents[0] : { type: 'several', intents },
    words: plain,
  };
}
/** What a clause means only by itself. */
const FRAGMENTS = new Set<Intent['type']>([
  'part',
  'confirm',
  'cancel',
  'correct',
  'stop',
  'withdraw',
  'help',
]);

/** What harms nothing is taken though another clause is not understood, which is named then. */
function readSome(clauses: readonly string[], plain: string, now: Moment, grammars: Grammars) {
  if (clauses.length < 2 || DOUBTS.test(plain) || SUPPOSES.test(plain) || DENIES.test(plain))
    return undefined;
  const read = clauses.map((clause) => ({
    clause,
    meant: readClause(clause, now, grammars) ?? toldOf(clause, now, grammars),
  }));
  const taken = together(
    read.flatMap(({ meant }) => (meant ? [meant] : [])),
    plain,
  );
  if (!taken || factsIn(taken.intent).some(isGuarded)) return undefined;
  const rest = read.filter(({ meant }) => !meant).map(({ clause }) => clause);
  return { ...taken, rest: rest.join(', ') };
}

/** Out of place these are asked about, judged or answered with what is due by the desk itself. */
const JUDGED = new Set<Intent['type']>(['close-run', 'film-loaded', 'tank-empty', 'drain-now', ...POURS]);

/** What belongs to another moment is done all the same where nothing can be harmed by it. */
function outOfPlace(plain: string, grammars: Grammars): Interpretation | undefined {
  for (const said of waysToSay(plain)) {
    const meant = settle(meaningsElsewhere(said, grammars, false), said);
    if (meant?.kind === 'understood' && (!isGuarded(meant.intent) || JUDGED.has(meant.intent.type)))
      return { ...meant, outOfPlace: true };
  }
  return undefined;
}
