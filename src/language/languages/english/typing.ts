import { limits } from '../../../limits.js';
import type { Moment, Situation } from '../../../process/desk.js';
import { asIntent, type Intent, type IntentOf } from '../../../process/intent.js';
import { type Interpretation, settle } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { distinct, intentKey, type Meaning, meaningsHere } from '../../meaning/meanings.js';
import { MOVING } from '../../meaning/situations.js';
import { factsIn, isDeed, isGuarded, isQuestion, POURS, withFacts } from '../../meaning/weight.js';
import { decided, jointly, type Reading, together } from '../../open/decide.js';
import { type Spotted, slotSpotter } from '../../open/slots.js';
import { asking, openFor, spelledOut, withoutCourtesies } from '../../open/understand.js';
import { mendings } from '../../slips.js';
import { ASKED, drainYet } from './asked.js';
import { withBesides } from './besides.js';
import { english } from './catalogue.js';
import { CORRECTIONS, clausesOf } from './clauses.js';
import { asDue, inDigitsOf } from './fill.js';
import { type Harm, harmTold, mayBeRelief } from './harm.js';
import { ofTheJug } from './jug.js';
import { leftOut, type ToldClause, toldIn, withReading } from './left-out.js';
import { MAY_BE_HURT, ON_SOMEBODY } from './lists.js';
import { aboutMatter, asksOfDanger, withHouseholdBleach } from './matter.js';
import { impossible, nothing, sayTheWords } from './nothing.js';
import { NUMBER_WORDS, writtenLines } from './numbers.js';
import { toldInDoubt, toldInTurn } from './past.js';
import { PUT_RIGHT } from './put-right.js';
import { gotAstray } from './stray.js';
import { asTold } from './telling.js';
import { TOLD_ALL_THE_SAME, TOLD_FIRST, TOLD_LAST, TOLD_OF_OTHERS, toldAtSink } from './told.js';
import { longForm, normaliseTyped, typedBottleName, typedNote } from './typed.js';

/**
 * What a typed line means: as `interpretHeard`, and also with digits, units, other spellings, missing articles and
 * small typing slips; a sentence that no grammar has goes to the open understanding.
 */
export function interpretTyped(
  line: string,
  situations: readonly Situation[],
  grammars: Grammars,
  due: readonly Intent[] = [],
): Interpretation {
  const now: Moment = { situations, due };
  if (line.length > limits.lineChars) return tooLong;
  const bare = line
    .replace(/^\s*(?:(?:hey|okay|ok)\s+)?tank\s?side[\s,:]+/i, '')
    .replace(/[\s,]+please[.!\s]*$/i, '');
  const free = freeText(bare, situations);
  if (free) return free;
  if (countWords(line) > limits.commandWords) return tooLong;
  const cannotBe = impossible(normaliseTyped(bare));
  if (cannotBe) return cannotBe;
  const meant = readNumbers(
    putRight(
      bare
        .replace(HESITATIONS, ' ')
        .replace(BROKEN_OFF, (_, word: string) => (isWord(word, grammars) ? ` ${word}, ` : ', '))
        .replace(BEGUN_ANEW, ''),
      grammars,
    ),
    now,
    grammars,
  );
  const told = toldIn(bare, grammars);
  const whole = (intent: Intent): Intent =>
    withReading(
      withWhatIsLeft(ofItsBottle(withAmount(withBesides(intent, bare, grammars), told), told), told),
      told,
    );
  if (meant.kind === 'understood') {
    const intent = whole(meant.intent);
    const facts = [intent, ...(meant.beside ? [meant.beside] : [])].flatMap(factsIn);
    const rest = leftOut(told, together(facts), due);
    return {
      ...meant,
      intent,
      ...(meant.others && { others: meant.others.map(whole) }),
      ...(rest !== null && { rest }),
    };
  }
  // whichever is chosen, what was said against it still holds
  return meant.kind === 'unsure' ? { ...meant, candidates: meant.candidates.map(whole) } : meant;
}

/** A spill with the one amount of the line, where a clause tells that so much got out: "… over. Lost maybe eighty mil". */
function withAmount(intent: Intent, told: readonly ToldClause[]): Intent {
  const facts = factsIn(intent);
  const [spill, ...others] = facts.filter((f) => f.type === 'spill');
  if (!spill || others.length > 0 || facts.some((f) => 'volumeMl' in f || 'share' in f)) return intent;
  const volumes = told.flatMap(({ words, slots }) =>
    slots.flatMap(({ token, from, to, fields }) =>
      token !== '_volume' ? [] : [{ volumeMl: fields.volumeMl, words, from, to }],
    ),
  );
  const [only, ...more] = volumes;
  if (!only || more.length > 0 || typeof only.volumeMl !== 'number') return intent;
  const { words, from, to, volumeMl } = only;
  const gotOut = GOT_OUT.test(words.join(' ')) && !STAYED.test(words.join(' '));
  if (!gotOut || OF_A_VESSEL.test(words[to] ?? '') || /^(?:the|not)$/.test(words[from - 1] ?? ''))
    return intent;
  return withFacts(intent, (f) => (f === spill ? { ...f, volumeMl } : f));
}
/** A bottle that leaked, with what is left in it: so much it holds. */
function withWhatIsLeft(intent: Intent, told: readonly ToldClause[]): Intent {
  if (intent.type !== 'spill' || intent.bottle === undefined || intent.volumeMl !== undefined) return intent;
  const left = told.filter(({ words }) => /\b(?:left|still|remains?)\b/.test(words.join(' ')));
  const [volumeMl, ...others] = left.flatMap(({ slots }) => slots.flatMap((s) => s.fields.volumeMl ?? []));
  if (typeof volumeMl !== 'number' || others.length > 0) return intent;
  const { bottle, share: _share, ...spill } = intent;
  return {
    type: 'several',
    intents: [
      { ...spill, bottle, some: true },
      { type: 'bottle-holds', bottle, volumeMl },
    ],
  };
}
/** A spill of the one bottle that the line names, where nothing else in it is told of a bottle; an open lid is then that bottle's. */
function ofItsBottle(intent: Intent, told: readonly ToldClause[]): Intent {
  const facts = factsIn(intent);
  const spill = facts.find((f) => f.type === 'spill');
  if (!spill || spill.bottle !== undefined || spill.tank || ON_SOMEBODY.has(spill.place ?? '')) return intent;
  if (
    /"(?:bottle|vessel|with)"/.test(JSON.stringify(facts)) ||
    told.some(({ words }) => words.includes('tank'))
  )
    return intent;
  const bottles = told.flatMap(({ slots }) =>
    slots.flatMap(({ fields: { vessel } }) =>
      typeof vessel === 'object' && vessel.kind === 'bottle' && typeof vessel.number === 'number'
        ? [vessel.number]
        : [],
    ),
  );
  const [bottle, ...others] = new Set(bottles);
  if (bottle === undefined || others.length > 0) return intent;
  const kept = facts.filter((f) => f.type !== 'ask-advice' || f.topic !== 'light-got-in');
  const [only, ...more] = kept.map((f) => (f === spill ? { ...spill, bottle } : f));
  return only && more.length === 0 ? only : { type: 'several', intents: only ? [only, ...more] : more };
}
const GOT_OUT =
  /\b(?:spill\w*|spilt|lost|lose|dropped|slopped|splashed|leaked|ran|dripped|tipped|knocked|went|gone)\b/;
const STAYED = /\b(?:left|still|remains?|not|never|saved|held)\b/;
const OF_A_VESSEL = /^(?:bottles?|jugs?|beakers?|cylinders?|graduates?|tanks?|measures?)$/;

/** "Seven. No wait, two": a value by itself that the next one puts right was not meant. */
function putRight(line: string, grammars: Grammars): string {
  const clauses = clausesOf(line);
  if (clauses.length < 2) return line;
  const repairs = clauses.map((c) => CORRECTIONS.alone.test(c.trim()));
  const spotted = clauses.map((c) => slotSpotter(grammars)(spelledOut(normaliseTyped(c).split(' '))));
  // "Two. Bottle two, sorry", "forty one point one. One!": said once more
  const [first, second] = spotted;
  const says = (said: Spotted | undefined): string => (said?.tokens.length === 1 ? said.words.join(' ') : '');
  if (repairs.slice(2).every(Boolean) && says(first) && says(second)) {
    if (says(second).endsWith(` ${says(first)}`)) return clauses[1] ?? line;
    if (says(first).endsWith(` ${says(second)}`)) return clauses[0] ?? line;
  }
  const refused = spotted.findIndex(
    ({ words, slots: [slot] }) => slot && NOT_IT.test(words.slice(slot.to).join(' ')),
  );
  const kind = kindOf(spotted[refused]?.slots[0]?.token ?? '');
  if (
    kind === 'number' &&
    spotted.some(({ slots }, i) => i !== refused && slots.some((s) => kindOf(s.token) === kind))
  )
    return `no, ${putRight(clauses.toSpliced(refused, 1).join(', '), grammars).replace(/^n(?:o|ah|ope)[\s,.]+/i, '')}`;
  if (!repairs.includes(true)) return line;
  for (const [i, said] of spotted.entries()) {
    const [slot] = said.slots;
    const next = clauses.findIndex((_, j) => j > i && !repairs[j]);
    const then = spotted[next]?.slots[0];
    if (
      next > i + 1 &&
      slot &&
      said.tokens.length === 1 &&
      then?.from === 0 &&
      kindOf(slot.token) === kindOf(then.token)
    )
      return putRight([...clauses.slice(0, i), ...clauses.slice(next)].join(', '), grammars);
    const amended = next > i + 1 && amendedBy(said, spotted[next]);
    if (amended)
      return putRight([...clauses.slice(0, i), amended, ...clauses.slice(next + 1)].join(', '), grammars);
  }
  return line;
}

/** "Give it ten seconds", put right by "make it fifteen": the clause with the amount that was meant, which may lack its unit. */
function amendedBy({ words, slots }: Spotted, by: Spotted | undefined): string | undefined {
  const [amount, ...more] = by?.slots ?? [];
  if (!by || !amount || more.length > 0) return undefined;
  const [before, after] = [by.words.slice(0, amount.from), by.words.slice(amount.to)].map((w) => w.join(' '));
  if (!MAKE_IT.test(`${before} `) || !IS_ENOUGH.test(after ?? '')) return undefined;
  const meant = by.words.slice(amount.from, amount.to);
  const wrong = slots.findLast(
    ({ token }) => token === amount.token || (amount.token === '_num' && AMENDED.has(token)),
  );
  if (!wrong || slots.some((s) => s !== wrong && s.token === wrong.token)) return undefined;
  const said = words.slice(wrong.from, wrong.to);
  const [first, last] = [said.findIndex(isOfNumber), said.findLastIndex(isOfNumber)];
  if (first < 0) return undefined;
  const put = wrong.token === amount.token ? meant : said.toSpliced(first, last - first + 1, ...meant);
  return words.toSpliced(wrong.from, said.length, ...put).join(' ');
}
const isOfNumber = (word: string): boolean => NUMBER_WORDS.has(word) || /^[\d.]+$/.test(word);
const AMENDED = new Set(['_duration', '_volume', '_mass', '_degrees', '_bottle']);
const MAKE_IT =
  /^(?:(?:no|sorry|wait|actually|make|call|it|that|is|was|say|i|mean|think|meant|rather|more|like|about|maybe|just|only|another|the|a|of) )* ?$/;
const IS_ENOUGH =
  /^(?:(?:it|that)? ?(?:is|was|will be|would be) ?)?(?:enough|really|then|it is|i think|do|will do|please|instead|now|more|in all|sorry)?$/;
/** Between the words of one clause, whose commas are theirs. */
const HESITATIONS = /(?<=\w),? (?:um+|uh+(?! (?:huh|oh)\b)|er+m?|hmm+),? (?=\w)/gi;
/** A number that was broken off and is said from its beginning: "eight hundred and... eight eighty". */
const BEGUN_ANEW = new RegExp(
  `\\b(${[...NUMBER_WORDS].join('|')})(?:[ -](?:and|${[...NUMBER_WORDS].join('|')}))*\\s*(?:\\.\\.\\.|\\u2026)\\s*(?=\\1\\b)`,
  'gi',
);
/** "Two gra- no, one point nine" */
const BROKEN_OFF = /(?<=\w) ([a-z]+)-(?:\s+|,\s*)/gi;
const isWord = (word: string, grammars: Grammars): boolean => openFor(grammars).words.has(word.toLowerCase());
/** "Twenty, fourteen is too short": behind an amount, that it is not the one. */
const NOT_IT = /^(?:is|was)(?:(?:n't| not) (?:enough|right|it|so|long)| (?:too|wrong|no (?:good|use)))\b/;
/** A number may be a bottle or an amount. */
const kindOf = (token: string): string =>
  /^_(?:num|mass|volume|bottle|degrees)$/.test(token) ? 'number' : token;

const tooLong: Interpretation = {
  kind: 'nothing',
  why: `That is too long for one sentence, so I left it. At most ${limits.commandWords} words at a time; a note may have ${limits.lineChars} characters.`,
  near: [],
};
const countWords = (line: string): number => line.split(/[\s,;.]+/).length;

/** "2,013 g" is two thousand grams to some and two to others: where both make sense, both are asked about. */
function readNumbers(line: string, now: Moment, grammars: Grammars): Interpretation {
  const [likely = line, ...others] = writtenLines(line);
  const meant = readTyped(likely, now, grammars);
  if (others.length === 0) return meant;
  const all = [meant, ...others.map((l) => readTyped(l, now, grammars))];
  const intents = all.flatMap((m) => (m.kind === 'understood' ? [m.intent] : []));
  const candidates = [...new Map(intents.map((i) => [intentKey(i), i])).values()];
  const first = all.find((m) => m.kind === 'understood') ?? meant;
  if (candidates.length < 2 || first.kind !== 'understood') return first;
  return { kind: 'unsure', candidates, words: first.words };
}

function readTyped(line: string, now: Moment, grammars: Grammars): Interpretation {
  const understood = (meant: Interpretation): Intent | undefined =>
    meant.kind === 'understood' ? meant.intent : undefined;
  const inTurn =
    toldInTurn(line, now, grammars, (rest, then) => understood(readWhole(rest, then, grammars))) ??
    toldInDoubt(line, now, grammars, (rest) => understood(readTyped(rest, now, grammars)));
  if (inTurn)
    return {
      kind: 'understood',
      intent: inTurn,
      words: normaliseTyped(line),
      situation: now.situations[0] ?? 'anytime',
    };
  const whole = readWhole(line, now, grammars);
  const told = whole.kind === 'understood' ? whole.intent : undefined;
  const ago = told === undefined || isTimed(told) ? agoIn(line, grammars) : undefined;
  if (ago === undefined || (told !== undefined && 'agoS' in told)) return whole;
  const meant = told === undefined ? readWhole(ago.without, now, grammars) : whole;
  if (meant.kind !== 'understood') return whole;
  const { intent } = meant;
  return isTimed(intent) ? { ...meant, intent: { ...intent, agoS: ago.seconds } } : whole;
}

/** What may be told of a moment that is past. */
const isTimed = (intent: Intent): intent is IntentOf<'bath-in' | 'tank-empty' | 'poured'> =>
  intent.type === 'bath-in' || intent.type === 'tank-empty' || intent.type === 'poured';

/** How long ago something was, s, and the sentence without that. */
function agoIn(line: string, grammars: Grammars): { seconds: number; without: string } | undefined {
  const words = spelledOut(asTold(normaliseTyped(line), grammars).split(' ').filter(Boolean));
  const spotted = slotSpotter(grammars)(words);
  const slot = spotted.slots.find((s) => s.token === '_duration' && words[s.to] === 'ago');
  const seconds = slot?.fields.seconds;
  if (!slot || typeof seconds !== 'number') return undefined;
  return { seconds, without: [...words.slice(0, slot.from), ...words.slice(slot.to + 1)].join(' ') };
}

/** Behind what was said of a pour: it has happened, and ought not to have. */
const OATH_BEHIND =
  /[\s,.!-]+(?:oops|whoops|shit|crap|damn(?: it)?|dammit|fuck|bugger|blast|hell|oh no|oh dear|oh god|ah no)[\s.!]*$/i;

/** Behind what was done: when the current failed or came back. */
const POWER_BEHIND =
  /[\s,]+(?:when|as|before|after|while|during|until|because)(?: the)? (?:power(?: ?cut)?|lights?|electric\w*|mains|current|blackout|outage)(?: (?:cut|went|gone|came|come|was|were|had|been|is|off|out|back|on|down|failed|tripped|again|blew))*[\s.!]*$/i;

function readWhole(whole: string, now: Moment, grammars: Grammars): Interpretation {
  const done = whole.replace(POWER_BEHIND, '');
  if (done !== whole && done.trim() !== '') {
    const meant = readWhole(done, now, grammars);
    const intent = meant.kind === 'understood' ? (hasHappened(meant.intent) ?? meant.intent) : undefined;
    if (meant.kind === 'understood' && intent && isTimed(intent)) return { ...meant, intent };
  }
  const told = whole.replace(OATH_BEHIND, '');
  if (told !== whole && told.trim() !== '') {
    const meant = readWhole(told, now, grammars);
    const happened = meant.kind === 'understood' ? hasHappened(meant.intent) : undefined;
    if (meant.kind === 'understood' && happened) return { ...meant, intent: happened };
  }
  const harm = harmTold(whole, grammars, now.due);
  return harm ? besideHarm(harm, whole, now, grammars) : readPlain(whole, now, grammars);
}

/** Help comes first, then what else was told. */
function besideHarm(
  { intent, beside }: Harm,
  whole: string,
  now: Moment,
  grammars: Grammars,
): Interpretation {
  const told = beside === '' ? undefined : readTyped(beside, now, grammars);
  const all = told?.kind === 'understood' ? factsIn(told.intent) : [];
  const facts = all.filter((i) => !isQuestion(i) && !OF_THE_CRY.has(i.type));
  return {
    kind: 'understood',
    intent: facts.length === 0 ? intent : { type: 'several', intents: [intent, ...facts] },
    words: normaliseTyped(whole),
    situation: told?.kind === 'understood' ? told.situation : 'anytime',
  };
}
/** What stands beside a cry for help and is no fact is part of the cry. */
const OF_THE_CRY = new Set<Intent['type']>([
  ...(['hurt', 'confirm', 'cancel', 'override', 'stop', 'help', 'quiet', 'greeting', 'thanks'] as const),
  ...(['note', 'say-again', 'more', 'undo', 'redo', 'part', 'correct'] as const),
]);

/** A pour into a bottle, or out of one into the tank, as one that has happened. */
function hasHappened(intent: Intent): Intent | undefined {
  if (intent.type === 'pour-in' && intent.from)
    return {
      type: 'poured',
      ...(intent.liquid && { liquid: intent.liquid }),
      from: intent.from,
      to: { kind: 'tank' },
    };
  if ((intent.type !== 'pour-back' && intent.type !== 'pour-between') || !intent.to) return undefined;
  const { liquid, to } = intent;
  const from = intent.type === 'pour-back' ? ({ kind: 'tank' } as const) : intent.from;
  return { type: 'poured', ...(liquid && { liquid }), ...(from && { from }), to };
}

function readPlain(whole: string, now: Moment, grammars: Grammars): Interpretation {
  const plainOf = (text: string): string =>
    asTold(withHouseholdBleach(normaliseTyped(text)), grammars).replace(WHAT_FOR, '$<deed>');
  // what is told is told, whatever is asked about it
  const line = whole.replace(ASKS_ABOUT_IT, '').replace(SEEN_BY, '$<fact>').replace(TOLD_LATE, '');
  const plain = plainOf(line);
  const said = fitted(plain, grammars);
  const bare = fitted(withoutCourtesies(plain, english), grammars);
  const asked = line.trim().endsWith('?');
  const open = openFor(grammars);
  const words = plain.split(' ').filter(Boolean);
  const strange = words.filter((w) => !open.words.has(w) && !longForm(w) && !w.endsWith("n't"));
  const slips = strange.some((w) => !open.isEnglish(w));
  const atSink = toldAtSink(plain, now, grammars);
  const told: typeof atSink = (patterns) => {
    const meant = asked ? undefined : atSink(patterns);
    // what the words alone take for a spill may be told of something else
    const spilled = meant?.kind === 'understood' && meant.intent.type === 'spill';
    if (spilled && open.plausible(words, now, ...MATTERS) < LEAST_PLAUSIBLE) return undefined;
    return meant?.kind === 'understood' ? { ...meant, intent: asDue(meant.intent, now.due) } : meant;
  };
  const acts = open.mayAct(words);
  // "there is some life left in the bleach"
  const astray = (how: 'told' | 'bare'): Interpretation | undefined => {
    const meant = gotAstray(plain, now.situations, grammars, how);
    return isOfAThing(meant) && open.plausible(words, now, ...MATTERS) >= LEAST_ASTRAY ? meant : undefined;
  };
  const doubted = DOUBTS.test(normaliseTyped(line));
  const read = new Map<string, Reading[]>();
  const clausesIn = (text: string): readonly Reading[] => {
    const known = read.get(text) ?? severalIn(text, grammars).map((c) => readClause(c, now, grammars));
    read.set(text, known);
    return known;
  };
  // "start a run anyway", where nothing was refused; whether it may be done all the same is asked, and overrides nothing
  const overrides =
    words.includes('override') ||
    (words.includes('anyway') && challenged(now) && asking(plain, asked, english) === 'no');
  const happened = acts && !asked ? atSink(TOLD_ALL_THE_SAME) : undefined;
  // what makes it a second telling is no part of what is told
  const again = happened ?? (asked ? undefined : toldAtSink(normaliseTyped(line), now, grammars)(PUT_RIGHT));
  if (again) return again;
  const plainly = overrides
    ? (exact(said, [...now.situations, 'challenged'], grammars) ??
      exact(fitted(normaliseTyped(saidLast(line)), grammars), ['challenged'], grammars) ??
      sayTheWords)
    : (withMore(line, now, grammars) ??
      ofTheJug(plain, now.situations, grammars, asked) ??
      atSink([drainYet]) ??
      asksOfDanger(plain, grammars, now.situations) ??
      (asked ? undefined : astray('told')) ??
      atSink(ASKED) ??
      told(TOLD_OF_OTHERS) ??
      (acts ? told(TOLD_FIRST) : undefined) ??
      (doubted ? undefined : allTold(clausesIn(line), plain, now)) ??
      named(exact(said, now.situations, grammars), words, now, grammars) ??
      named(exact(bare, now.situations, grammars), words, now, grammars) ??
      (asked ? undefined : astray('bare')) ??
      (acts ? told(TOLD_LAST) : undefined) ??
      matterMeant(plain, now, grammars) ??
      (strange.length > 0 ? mended(bare, now, asked, true, grammars) : undefined));
  if (plainly) return asked ? asAQuestion(plainly) : withLoss(plainly, () => clausesIn(line));
  const meant = ofAll(
    plain,
    surest(
      () => openly(whole, line === whole ? plain : plainOf(whole), asked, clausesIn(whole), now, grammars),
      () => (slips ? mended(bare, now, asked, false, grammars) : undefined),
    ),
  );
  if (meant?.kind === 'understood' && isRelief(meant.intent) && !mayBeRelief(plain))
    return { ...meant, intent: { type: 'hurt', about: 'unsure' } };
  // a question about what nobody knows is not one of a menu, nor one of ours
  const odd = strange.filter((w) => !open.isEnglish(w)).length;
  const ventured = meant?.kind === 'unsure' || (meant?.kind === 'understood' && isQuestion(meant.intent));
  const unknown = ventured && odd >= MOST_UNKNOWN * words.length && !open.mentions(words);
  if (!meant || unknown)
    return MAY_BE_HURT.test(plain)
      ? { kind: 'understood', intent: { type: 'hurt' }, words: plain, situation: 'anytime' }
      : nothing(said, now.situations, grammars);
  return asked && clausesIn(line).length === 0
    ? asAQuestion(meant)
    : someMore(inWhichBottle(meant, words), words);
}

/** "I spilled some more, ten mils" is no other amount of what was spilled before. */
function someMore(meant: Interpretation, words: readonly string[]): Interpretation {
  if (meant.kind !== 'understood' || meant.intent.type !== 'spill' || !meant.intent.again) return meant;
  const { again: _, ...anew } = meant.intent;
  return words.some((w) => MORE.has(w)) ? { ...meant, intent: anew } : meant;
}
const MORE = new Set(['more', 'another', 'second']);

/** What went wrong, and beside it how much was lost by it: "the lid came off and half of it is on the floor". */
function withLoss(meant: Interpretation, clauses: () => readonly Reading[]): Interpretation {
  if (meant.kind !== 'understood' || meant.intent.type !== 'ask-advice') return meant;
  const lost = clauses()
    .flatMap((c) => (c.exact ? c.found : []))
    .find((f) => f.intent.type === 'spill' && !f.forbidden && (f.intent.volumeMl ?? f.intent.share));
  return lost ? { ...meant, intent: together([lost.intent, meant.intent]) } : meant;
}

/** "It is in bottle 5, the developer": where it is kept, or where it has gone. */
function inWhichBottle(meant: Interpretation, words: readonly string[]): Interpretation {
  if (meant.kind !== 'understood' || meant.intent.type !== 'poured' || meant.intent.from) return meant;
  const stands = words.some((w) => IS.test(w)) && !words.some((w) => GONE_BACK.has(w));
  return stands ? { ...meant, intent: { ...meant.intent, stands } } : meant;
}
const IS = /^(?:is|.+'s)$/;
const GONE_BACK = new Set('back now poured put tipped gone went emptied returned all again out'.split(' '));

/** Without any of these no reading is of every bath. */
const OF_ALL =
  /\b(?:all|every\w*|each|they\w*|th?em|both|rest|others?|lot|set|row|same|across|bottles|baths|chemicals|chemistry|temp\w*s|six|seven)\b/;

/** … it is of something that was not named. */
function ofAll(plain: string, meant: Interpretation | undefined): Interpretation | undefined {
  if (!meant || meant.kind === 'nothing' || OF_ALL.test(plain)) return meant;
  const one = (i: Intent): Intent => (i.type === 'all-at' ? { type: 'temperature', tempC: i.tempC } : i);
  return meant.kind === 'unsure'
    ? { ...meant, candidates: meant.candidates.map(one) }
    : { ...meant, intent: one(meant.intent) };
}

const isRelief = (intent: Intent): boolean => intent.type === 'hurt' && intent.about === 'over';

/** Fewer of the words are strange in what is asked back. */
const MOST_UNKNOWN = 0.25;
/** What somebody put in something for changes nothing of its being in. */
const WHAT_FOR =
  /^(?<deed>(?:i |we )?(?:have |just |then )*(?:added|poured|tipped|stirred|mixed|dropped|splashed) .*?) to (?:get|lower|bring|raise|drop|adjust|reduce|help|clear|correct|fix|sort|speed|thin|stretch)\b.*$/;
/** "No, it was bottle two, it's brown and smells right": by what somebody knows which it was, in words that tell of nothing else. */
const SEEN_BY =
  /^(?<fact>(?:(?:no|wait|sorry|actually|oh|phew|hang on)[\s,]+)*(?:it|that)(?:['\u2019]s| is| was) [^,.;?]+)[,.;](?:[\s,]+(?:because|since|and|so|i|can|it|that|this|the|is|was|(?:it|that)['\u2019]s|on|of|like|as|it should|always|right|fine|good|smell|smells|smelled|looks?|looked|see|read|says|written|label|bottle|brown|yellow|orange|clear|vinegar))+[.!\s]*$/i;
/** "I rinsed it already, I just never told you" */
const TOLD_LATE =
  /(?<=\w)[,.;]?\s+(?:and |but |oh |sorry )*i(?:['\u2019]ve)? (?:just |only |simply )?(?:never|forgot to|did not|didn['\u2019]t|should have|haven['\u2019]t|have not) (?:even )?(?:tell|told|say|said|mention|mentioned)(?: (?:you|it|so|that|anything|about it))*[.!\s]*$/i;
const ASKS_ABOUT_IT =
  /(?<=\S)[.,;!]+\s+(?:(?:and|so|but|oh god|help)\s+)?(?:what (?:do|should|can|must) i do(?: now)?|what now|now what|what next|is (?:that|it|this) (?:bad|ok|okay|fine|a problem|dangerous|serious|all right|alright|too (?:hot|warm))|(?:ok|okay|all right|alright|too hot)|(?:that|this) (?:ok|okay|bad|fine)|will (?:that|it|this) (?:work|do|matter|hurt))\s*\?+\s*$/i;

/** What stands by itself behind why it is said: "I have no stop bath. Override the guard and pour anyway". */
const saidLast = (line: string): string => {
  const [, before = '', last = ''] = /^(.*\w)["')]*\s*[.;,!:]\s+(.+)$/s.exec(line.trim()) ?? [];
  return LEANS_ON_IT.test(before) || /\?/.test(line) ? '' : last;
};
/** What is said behind such words is no order by itself. */
const LEANS_ON_IT =
  /\b(?:cancel|stop|wait|if|what|how|whether|should|shall|can|could|would|might|say|says|said|saying|words?|sentence)\b(?!\s*bath)|\b(?:don['’]t|not|never|do not|or)$/i;

const challenged = ({ situations }: Moment): boolean => situations.includes('challenged');

/**
 * How warm a bath is, or how much of it there is, said behind its pour: "…, but it's only at 38", "…, but only 250 ml".
 * "The developer is at 38" is a reading and no pour.
 */
const MORE_BEHIND =
  /^(.*\w)(?<!\b(?:is|was|reads?)|['’]s)[,;]?\s+(?:(?:but|and|though|although|at|only)\b,?\s*)(?:(?:it(?:'s|’s|\s+is)|only|just|still|at|about|with|there(?:'s|’s| is| was)|i had|i have)\s+)*(\d+(?:\.\d+)?)\s*(degrees|celsius|c|ml|mls|millilit(?:er|re)s?|cc)?\b(?:\s+(?:of it|in it|went in|left))*[.!]?$/i;

/** The reading counts before the pour that it was said with; the amount is of that pour. */
function withMore(line: string, now: Moment, grammars: Grammars): Interpretation | undefined {
  const [, deed, number, unit] = MORE_BEHIND.exec(line.trim()) ?? [];
  const meant = deed === undefined ? undefined : readTyped(deed, now, grammars);
  if (meant?.kind !== 'understood') return undefined;
  const { intent } = meant;
  if (intent.type !== 'pour-in' && intent.type !== 'bath-in') return undefined;
  // "developer now at 40.8" tells how warm it is, and of no pour
  if (!/\b(?:in|into|pour\w*|add\w*|tip\w*|go(?:es|ing))\b/.test(normaliseTyped(deed ?? '')))
    return undefined;
  const value = Number(number);
  if (unit !== undefined && /^m|^cc/i.test(unit)) {
    if (intent.type !== 'bath-in' || value <= 0) return undefined;
    return { ...meant, intent: { ...intent, volumeMl: value } };
  }
  if (value < limits.bathLeastC || value > limits.bathMostC) return undefined;
  // a bath without its name is known once it is in
  const unnamed = intent.liquid === undefined;
  if (unnamed && intent.type !== 'bath-in') return undefined;
  const reading: Intent = { type: 'temperature', of: intent.liquid ?? { kind: 'tank' }, tempC: value };
  const intents = unnamed ? [intent, reading] : [reading, intent];
  return { ...meant, intent: { type: 'several', intents } };
}

/** What only a warmth is said with: "the developer is at twelve". */
const OF_WARMTH = /^(?:at|degrees?|celsius|reads?|reading|shows?|measures?|cold|warm)$/;

/** A bath or a bottle by itself is a name, and corrects nothing. */
function named(
  meant: Interpretation | undefined,
  words: readonly string[],
  { due: all, situations }: Moment,
  grammars: Grammars,
): Interpretation | undefined {
  if (meant?.kind !== 'understood') return meant;
  const intent = asDue(meant.intent, all);
  if (intent !== meant.intent) return { ...meant, intent };
  const [due] = all;
  if (intent.type === 'reading' && due) return { ...meant, intent: inDigitsOf(intent, words, due) };
  // "the stop bath is three": so cold is none
  if (
    intent.type === 'temperature' &&
    typeof intent.of === 'string' &&
    intent.of !== 'water' &&
    Number.isInteger(intent.tempC) &&
    intent.tempC <= limits.fewBottles &&
    !words.some((w) => OF_WARMTH.test(w))
  ) {
    const { of, tempC } = intent;
    const bottle = asIntent('part', { liquid: of, vessel: { kind: 'bottle', number: tempC } });
    return bottle ? { ...meant, intent: bottle } : undefined;
  }
  // "water's in", "it's gone in": in the beaker
  if (
    situations.includes('mixing') &&
    !situations.some((s) => MOVING.has(s)) &&
    (intent.type === 'bath-in' || (intent.type === 'poured' && isIntoTank(intent)))
  )
    return due?.type === 'mix-next' ? { ...meant, intent: due } : undefined;
  if (intent.type !== 'correct' || !openFor(grammars).isBare(words)) return meant;
  const { liquid, vessel, value } = intent;
  // a number by itself puts right only what was just asked about
  if (value !== undefined && meant.situation !== 'challenged') return undefined;
  const part: Intent = {
    type: 'part',
    ...(liquid && { liquid }),
    ...(vessel && { vessel }),
  };
  return liquid === undefined && vessel === undefined ? meant : { ...meant, intent: part };
}

const isIntoTank = ({ to, from }: IntentOf<'poured'>): boolean => to?.kind === 'tank' && !from;

/** Things that meet, where the open understanding does not take it for something else altogether. */
function matterMeant(plain: string, now: Moment, grammars: Grammars): Interpretation | undefined {
  const meant = aboutMatter(plain, grammars);
  if (meant?.kind !== 'understood' || !isOfAThing(meant)) return undefined;
  const { intent } = meant;
  // how much of this that can take is asked in so many words
  if (intent.type === 'what-if' && intent.untilSpoiled) return meant;
  const words = plain.split(' ');
  // a spill on nobody is heard only where that itself is likely
  const [of = intent] = factsIn(intent);
  const beside = of.type === 'spill' && of.place === undefined ? [] : MATTERS;
  return openFor(grammars).plausible(words, now, ...beside, of.type) >= LEAST_PLAUSIBLE ? meant : undefined;
}
const isOfAThing = (meant: Interpretation | undefined): boolean =>
  meant?.kind === 'understood' && !('liquid' in meant.intent && NO_THING.test(meant.intent.liquid ?? ''));
/** What may be in a bath and is nothing that got into it: it is how much is left, or what it looks like. */
const NO_THING =
  /(?:^|-)(?:life|left|room|space|use|time|films?|rolls?|bits?|flakes?|specks?|bubbles?|foam|froth|sediment|smoke|smoking|smell)(?:-|$)/;
const LEAST_PLAUSIBLE = 0.2;
/** What is where it does not belong counts however unsure, but where all words say something else. */
const LEAST_ASTRAY = 0.02;
/** What is said where things meet, get out or get on somebody. */
const MATTERS: readonly Intent['type'][] = [
  'what-if',
  'contaminated',
  'ask-cautions',
  'ask-disposal',
  'ask-advice',
  'spill',
  'hurt',
];

/** The first reading that is understood, else the first at all. */
function surest(...readings: readonly (() => Interpretation | undefined)[]): Interpretation | undefined {
  let first: Interpretation | undefined;
  for (const read of readings) {
    const meant = read();
    // another word in its place settles a doubt, and raises none
    if (
      meant?.kind === 'understood' &&
      (first?.kind !== 'unsure' || first.candidates.some((c) => c.type === meant.intent.type))
    )
      return meant;
    first ??= meant;
  }
  return first;
}

/** By the open understanding: the whole and its clauses weighed together. */
function openly(
  line: string,
  plain: string,
  asked: boolean,
  clauses: readonly Reading[],
  now: Moment,
  grammars: Grammars,
): Interpretation | undefined {
  const words = plain.split(' ').filter(Boolean);
  if (namesSomebody(line, grammars)) return undefined;
  const open = openFor(grammars);
  // an amount that only a question has is told of by none: "a hundred grams? That's the whole bag"
  const doubtful = clauses.some((c) => c.asks === 'mark' && c.names && READS.has(c.found[0]?.intent.type));
  const told = clauses.some((c) => c.asks !== 'mark' && c.names);
  const whole = open.read(words, now, asked || (doubtful && !told));
  return askedWithAmounts(decided(whole, clauses, now, open.rank, DOUBTS.test(plain)), plain);
}

const READS = new Set<string | undefined>(['reading', 'ph-reading', 'made-up']);

/** A capital within a sentence, of a word that is none of ours, is somebody or somewhere else. */
const namesSomebody = (line: string, grammars: Grammars): boolean =>
  [...line.matchAll(/[a-z,;]['"]?\s+([A-Z][a-z]{2,})(?:'s)?\b/g)].some(
    ([, name = '']) => !openFor(grammars).words.has(name.toLowerCase()) && !NAMES.test(name),
  );
const NAMES =
  /^(?:Kodak|Vision|Celsius|Fahrenheit|(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day|January|February|March|April|May|June|July|August|September|October|November|December)$/;

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

/** What a clause says: in words that are known, else as the open understanding has it. */
function readClause({ said, asked, sentence, acts }: Clause, now: Moment, grammars: Grammars): Reading {
  const words = fitted(withoutCourtesies(said, english), grammars);
  const readers = acts ? [...TOLD_OF_OTHERS, ...TOLD_FIRST] : TOLD_OF_OTHERS;
  const meant = named(
    (asked ? undefined : toldAtSink(said, now, grammars)(readers)) ??
      (acts ? exact(words, now.situations, grammars) : undefined) ??
      (asked ? undefined : harmIn(said, grammars)),
    words,
    now,
    grammars,
  );
  const repairs = CORRECTIONS.begins.test(said);
  if (meant?.kind !== 'understood')
    return { ...openFor(grammars).read(words, now, asked), repairs, sentence };
  const { situation } = meant;
  const intent = asDue(meant.intent, now.due);
  const forbidden = asked && isDeed(intent) && !POURS.has(intent.type);
  const found = {
    intent,
    situation,
    outOfPlace: false,
    elsewhere: false,
    left: 0,
    taught: true,
    p: 1,
    forbidden,
    strange: 'no',
  } as const;
  return {
    words: meant.words,
    found: [found],
    nothing: 0,
    exact: true,
    names: true,
    asks: asking(said, asked, english),
    repairs,
    sentence,
  };
}

/** A clause that tells of a spill or of somebody hurt, in whatever words. */
function harmIn(said: string, grammars: Grammars): Interpretation | undefined {
  const meant = aboutMatter(said, grammars);
  return meant?.kind === 'understood' && isHarm(meant.intent) ? meant : undefined;
}

/**
 * Clauses that each tell a fact of its own in words that are known: all of them count, and nothing is to be weighed. Sentences
 * beside them that are nothing of ours take nothing from them: "Tank's empty. That looked like ink".
 */
function allTold(all: readonly Reading[], plain: string, now: Moment): Interpretation | undefined {
  const clauses = all.filter((c) => !all.filter((o) => o.sentence === c.sentence).every(isChatter));
  const allPlain = clauses.length > 0 && clauses.every((c) => c.exact);
  // beside what is spilled or hurts another fact counts where it is likely enough by itself
  const harm = clauses.some((c) => c.exact && c.found.some((f) => isHarm(f.intent)));
  const [facts] = allPlain || harm ? jointly(clauses, now) : [];
  if (!facts || facts.some((f) => f.forbidden)) return undefined;
  if (!allPlain && (facts.length < 2 || facts.some((f) => f.p < LEAST_BESIDE))) return undefined;
  // what is spilled beside a bath that goes in is of that bath
  const bath = facts
    .flatMap(({ intent: i }) =>
      (i.type === 'bath-in' || (i.type === 'poured' && i.to?.kind === 'tank')) && i.liquid ? [i.liquid] : [],
    )
    .at(0);
  const intents = facts.map(({ intent }) =>
    intent.type === 'spill' && intent.liquid === undefined && bath !== undefined
      ? { ...intent, liquid: bath }
      : intent,
  );
  return {
    kind: 'understood',
    intent: together(intents),
    words: plain,
    situation: now.situations[0] ?? 'anytime',
  };
}

const isHarm = ({ type }: Intent): boolean => type === 'spill' || type === 'hurt';
const LEAST_BESIDE = 0.5;

/** Neither of ours nor against what stands beside it. */
const isChatter = (c: Reading): boolean =>
  c.nothing >= CHATTER &&
  !c.exact &&
  !c.names &&
  !c.repairs &&
  c.asks === 'no' &&
  !english.denial.test(c.words) &&
  !TAKEN_BACK.test(c.words);
const CHATTER = 0.9;
const TAKEN_BACK = /\b(?:wait|hang on|hold on|jok\w+|kidding|almost|nearly|wrong|mistake|scrap|forget)\b/;

/** A clause, whether it ends with a question mark, and its sentence, which may do something unless it or another quotes. */
interface Clause {
  said: string;
  asked: boolean;
  sentence: number;
  acts: boolean;
}
const QUOTES = /\b(?:sa(?:id|ys|ying)|told|tells?|telling|quot\w+|shout\w*)\b/;

/** The clauses of a sentence that has several, each with what "it" stands for: what the one before it spoke of first. */
function severalIn(line: string, grammars: Grammars): Clause[] {
  const empty = (c: string): boolean => {
    const words = withoutCourtesies(`${normaliseTyped(c)} .`, english);
    return words === '.' || HESITATES.test(words);
  };
  const open = openFor(grammars);
  const sentences = line
    .split(SENTENCE_ENDS)
    .filter((s) => /\w/.test(s))
    .map((said) => ({ said, words: normaliseTyped(said) }));
  const quoted = sentences.filter(({ words }) => QUOTES.test(words));
  const mayAct = (words: string): boolean =>
    open.mayAct(words.split(' ')) && quoted.every((q) => q.words === words);
  let named: string | undefined;
  const clauses = sentences
    .flatMap(({ said, words }, sentence) => {
      const acts = mayAct(words);
      return clausesOf(said).map((c) => ({ c, sentence, acts }));
    })
    .filter(({ c }) => !empty(c))
    .map(({ c, sentence, acts }): Clause => {
      const plain = asTold(normaliseTyped(c), grammars);
      const said = named === undefined ? plain : withIt(plain, named);
      const words = said.split(' ').filter(Boolean);
      const slot = slotSpotter(grammars)(words).slots.find(
        (s) => s.token === '_bottle' || s.token === '_liquid',
      );
      if (slot) named = words.slice(slot.from, slot.to).join(' ');
      return { said, asked: c.trim().endsWith('?'), sentence, acts };
    })
    .reduce<Clause[]>((before, clause) => {
      const last = before.at(-1);
      const one = last && WARMTH.test(last.said) && isOnlyWarmth(clause.said, last.said, grammars);
      return one
        ? before.with(-1, { ...clause, said: `${last.said} ${clause.said}` })
        : before.concat(clause);
    }, []);
  return clauses.length > 1 && clauses.length <= MOST_CLAUSES ? clauses : [];
}

/** "The tub is a bit hot, forty two": how warm it is, and nothing else, behind what it is told of. */
function isOnlyWarmth(clause: string, of: string, grammars: Grammars): boolean {
  const spot = slotSpotter(grammars);
  const { tokens } = spot(spelledOut(clause.split(' ')));
  const isAmount = (t: string): boolean => t === '_num' || t === '_degrees';
  return (
    tokens.filter(isAmount).length === 1 &&
    tokens.every((t) => isAmount(t) || ABOUT_NOW.has(t)) &&
    !spot(spelledOut(of.split(' '))).tokens.some((t) => isAmount(t) || (AMENDED.has(t) && t !== '_bottle'))
  );
}
const ABOUT_NOW = new Set('now about at only just or so it is like maybe still by the glass'.split(' '));
const WARMTH =
  /\b(?:hot|warm|cold|cool)(?:er|ish)?\b|\b(?:over|up|down|low|high|crept|rose|fell|off)\b|\b(?:dropp|slipp|fall|climb|ris|cool|warm|creep|drift)(?:ed|ing|en)\b/;

/** Said while thinking; what is meant comes behind it. */
const HESITATES = /^(?:(?:wait|hang on|hold on|hold it|one (?:moment|second|minute)|hmm?|sorry) )+\.$/;

const withIt = (clause: string, named: string): string =>
  clause
    .replace(
      /\b(of|from|out of|(?:got|gone|went|fell|dripped|splashed|leaked|ran) in(?:to)?) (?:it|that|this)\b/,
      `$1 ${named}`,
    )
    .replace(/^(?:it|that)(?:'s| is| was)\b(?! in\b)/, `${named} is`);

/** Contractions that no grammar has, in their long form: "bleach's in" → "bleach is in". */
const fitted = (plain: string, grammars: Grammars): string[] =>
  plain
    .split(' ')
    .filter(Boolean)
    .flatMap((w) => (grammars.vocabulary.has(w) ? [w] : (longForm(w) ?? negated(w) ?? [w])));

/** "don't" → "do not" */
const negated = (word: string): string[] | undefined => {
  const verb = /^(do|does|did|is|are|was|were|has|have|had)n't$/.exec(word)?.[1];
  return verb === undefined ? undefined : [verb, 'not'];
};

/** Nothing is told by who says that he does not know it. */
const DOUBTS =
  /\b(?:sure|unsure|know|remember|recall|certain|forget|forgot|idea) (?:if|whether|that i|which|what)\b|\b(?:or not|or did i)\b/;

const MOST_CLAUSES = 8;
const SENTENCE_ENDS = /(?<=[.!?])\s+/;
/** "The developer is in?" asks; only the words of a pour may be a question, for the guard answers it. */
function asAQuestion(meant: Interpretation): Interpretation {
  const candidates =
    meant.kind === 'understood' ? [meant.intent] : meant.kind === 'unsure' ? meant.candidates : [];
  if (meant.kind !== 'nothing' && candidates.some((c) => c.type === 'drain-now'))
    return {
      kind: 'understood',
      intent: { type: 'ask-time-left' },
      words: meant.words,
      situation: 'immersed',
    };
  // somebody who is hurt is told what to do, not asked
  if (
    meant.kind === 'understood' &&
    meant.intent.type === 'spill' &&
    ON_SOMEBODY.has(meant.intent.place ?? '')
  )
    return meant;
  if (meant.kind === 'understood' && meant.intent.type === 'part' && meant.intent.vessel?.kind === 'bottle')
    return {
      ...meant,
      intent: { type: 'ask-bottle', bottle: meant.intent.vessel.number },
    };
  if (meant.kind !== 'understood' || POURS.has(meant.intent.type) || !isDeed(meant.intent)) return meant;
  // what is asked behind a fact is asked of it
  if (meant.intent.type === 'several' && meant.intent.intents.some(isQuestion)) return meant;
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
  return {
    kind: 'understood',
    intent,
    words: normaliseTyped(line),
    situation: situations[0] ?? 'anytime',
  };
}

/** Most mended sentences that the open understanding is asked about. */
const MOST_MENDED = 2;

/** What the line means with its typing slips mended, by the grammars `only` where every strange word is English: one light meaning is taken, several or a weighty one are asked about. */
function mended(
  words: readonly string[],
  now: Moment,
  asked: boolean,
  only: boolean,
  grammars: Grammars,
): Interpretation | undefined {
  const open = openFor(grammars);
  // behind a number what is English is no further part of it that slipped: "1.2 even"
  const all = mendings(words, grammars.vocabulary, open.words).filter(
    ({ changed }) =>
      !changed.some(
        ({ from, to }) =>
          NUMBER_WORDS.has(to) &&
          NUMBER_WORDS.has(words[words.indexOf(from) - 1] ?? '') &&
          open.isEnglish(from),
      ),
  );
  const meaningsOf = (read: (words: readonly string[]) => Interpretation | undefined, of: typeof all) =>
    of.flatMap((mending) => {
      const meant = read(mending.words);
      if (!meant || meant.kind === 'nothing') return [];
      const intents: Intent[] = meant.kind === 'understood' ? [meant.intent] : meant.candidates;
      const situation = meant.kind === 'understood' ? meant.situation : 'anytime';
      const sure = meant.kind === 'understood';
      return intents.map((intent) => ({
        meaning: { intent, situation } satisfies Meaning,
        mending,
        sure,
      }));
    });
  const plain = meaningsOf((w) => exact(w, now.situations, grammars), all);
  const found =
    plain.length > 0 || only
      ? plain
      : meaningsOf((w) => decided(open.read(w, now, asked), [], now, open.rank), all.slice(0, MOST_MENDED));
  const [first] = found;
  if (!first) return undefined;
  const meanings = distinct(found.map((f) => f.meaning));
  if (meanings.some((m) => m.intent.type === 'override')) return sayTheWords;
  const said = first.mending.words.join(' ');
  if (meanings.length > 3) return undefined;
  if (meanings.length > 1 || !first.sure || first.mending.mustAsk || isGuarded(first.meaning.intent))
    return {
      kind: 'unsure',
      candidates: meanings.map((m) => m.intent),
      words: said,
    };
  return {
    kind: 'understood',
    ...first.meaning,
    words: said,
    mended: first.mending.changed,
  };
}
