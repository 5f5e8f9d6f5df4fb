import type { BottleLine, BottlesMessage, WasteKind, WrongPour } from '../../../../ledger/messages.js';
import type { BottleDoubt } from '../../../../world/records.js';
import { type PhrasesOf, phraseOf } from '../../phrases.js';
import { sayTime } from './mix-what-if.js';
import { bare, sentences, spokenMass, spokenVolume } from './units.js';

/** What the bottles' desk has to say, in short sentences for someone with wet gloves. */
export const bottlesPhrase = (m: BottlesMessage): string => phraseOf(phrases, m, 'id');

type Of<Id extends BottlesMessage['id']> = Extract<BottlesMessage, { id: Id }>;

const capital = (text: string): string =>
  text.startsWith('pH') ? `The ${text}` : text.charAt(0).toUpperCase() + text.slice(1);
const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

function days(n: number): string {
  if (n < 1) return 'less than a day';
  return n < 60 ? count(Math.floor(n), 'day') : count(Math.round(n / 30.4), 'month');
}

function holds(line: BottleLine): string {
  const who = line.name === null ? `bottle ${line.bottle}` : `bottle ${line.bottle}, ${line.name},`;
  const unsure = line.assumed || line.volumeAssumed;
  if (line.volumeMl <= 0) return `${who} is empty${unsure ? ', as far as I know' : ''}`;
  const what = line.liquid ?? 'something without a label';
  if (line.volumeAssumed)
    return `${who} holds ${what}; nobody said how much, and I take ${spokenVolume(line.volumeMl)}`;
  return `${who} holds ${spokenVolume(line.volumeMl)} of ${what}${line.assumed ? ', if nobody changed it' : ''}`;
}

const fullest = (line: BottleLine): string => {
  const who = line.name === null ? `bottle ${line.bottle}` : `bottle ${line.bottle}, ${line.name}`;
  return `${who}, with ${spokenVolume(line.volumeMl)} of ${line.liquid ?? 'something without a label'}`;
};

function bottleIs(m: Of<'bottle-is'>): string {
  if (m.discarded) return `Bottle ${m.line.bottle} is empty; it was discarded.`;
  const parts = [`${capital(holds(m.line))}.`];
  if (m.inJugMl !== undefined) parts.push(`Another ${spokenVolume(m.inJugMl)} of it are in a jug.`);
  if (m.line.volumeMl > 0 && m.ageDays !== null) parts.push(`It is ${days(m.ageDays)} old.`);
  if (m.films > 0) parts.push(`It has done ${count(m.films, 'film')}.`);
  if (m.problem !== null) parts.push(`Do not use it: its batch failed its checks, ${m.problem}.`);
  if (m.wrongPour !== null) parts.push(wrongPour(m.wrongPour));
  if (m.doubt !== null) parts.push(doubts[m.doubt](m.doubtOf ?? null));
  if (m.taint !== null && m.wrongPour === null) parts.push(taintedBy(m.taint));
  return parts.join(' ');
}

const taintedBy = (other: string): string => `Do not use it: it has had ${other} in it. Mix fresh.`;

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

const doubts: Record<BottleDoubt, (of: string | null) => string> = {
  oxidised: () => 'It was said to be brown, or to have stood open: it may be oxidised.',
  'gone-off': () => 'It was said to be milky, or of another colour: do not use it, mix fresh.',
  'mixed-wrong': () => 'It was said to be mixed wrong: put that right, or mix fresh.',
  'label-lost': () => 'Its label came off: check what is in it.',
  'ph-off': () => 'The pH that was read of it is not what it should be: read it anew.',
  unanswered: (of) =>
    `A question about it was left open${of === null ? '' : `: ${of} may be in it`}. Do not use it until that is settled; if you know, say so.`,
  spilled: () =>
    'Some of it was spilled or poured off, and nobody said how much is left. Say how much it holds.',
};

function wrongPour(wrong: WrongPour): string {
  const what =
    wrong.volumeMl === null
      ? `some ${wrong.liquid} got into it, nobody measured how much`
      : `${spokenVolume(wrong.volumeMl)} of ${wrong.liquid} went into it`;
  const why = wrong.why === '' ? '' : ` ${capital(bare(wrong.why))}.`;
  switch (wrong.verdict) {
    case 'discard':
      return `Do not use it: ${what}.${why}`;
    case 'care':
      return `Careful: ${what}.${why} Test it on a strip first.`;
    case 'use':
      return wrong.time === null
        ? `${capital(what)}${wrong.volumeMl === null ? '. A splash does no harm; more might' : ', too little to matter'}.`
        : `${capital(what)}. Use it ${sayTime(wrong.time)}.`;
    case null:
      return `Careful: ${what}. I cannot tell what that does.`;
  }
}

const keep = (left: number | null): string => {
  if (left === null) return '';
  return left < 0
    ? ` It is ${days(-left)} past its keeping time. Mix fresh.`
    : ` It keeps ${days(left)} more.`;
};

function historyNoted(m: Of<'history-noted'>): string {
  const what = `the ${m.liquid} in bottle ${m.bottle}`;
  const told =
    m.films !== null
      ? `Noted: ${what} has done ${count(m.films, 'film')}${m.aged ? ` and is ${days(m.ageDays ?? 0)} old` : ''}.`
      : `Noted: ${what} is ${days(m.ageDays ?? 0)} old.`;
  const old = m.keepDaysLeft !== null && m.keepDaysLeft < 0;
  if (old || m.films === null) return `${told}${keep(m.keepDaysLeft)}`;
  if (m.spent) return `${told} It is exhausted: mix fresh, or replenish it.`;
  return m.left === null
    ? told
    : `${told} About ${count(m.left, 'more film', 'more films')} of ${m.filmWords}.`;
}

function phNoted(m: Of<'ph-noted'>): string {
  const of = `the ${m.liquid} in bottle ${m.bottle}`;
  if (m.aim === null) return `Noted: ${of} has a pH of ${m.ph}. I know of no pH that it should have.`;
  const aim = `it should have ${m.aim.aim}, within ${m.aim.tolerance}`;
  if (m.says === 'off')
    return `pH ${m.ph} is off for ${of}: ${aim}. Do not use it. Check it with another strip or a meter, at 25 degrees, or mix fresh.`;
  return sentences(
    `Noted: ${of} has a pH of ${m.ph}; ${aim}.`,
    m.says !== 'good' && 'A strip shows half a unit and no more.',
    m.says === 'unclear' && 'If a meter read it, it is off: do not use it.',
    m.says !== 'good' && m.off && 'What was read before still stands against it: a meter settles that.',
  );
}

/** A date as spoken: "4 May 2026". */
const date = (wallMs: number): string =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' }).format(wallMs);

function mixedOn(m: Of<'mixed-on'>): string {
  if (m.wallMs !== null && m.ageDays !== null) {
    const ago = m.ageDays < 1 ? '' : `, ${days(m.ageDays)} ago`;
    return `The ${m.liquid} in bottle ${m.bottle} was mixed on ${date(m.wallMs)}${ago}.`;
  }
  return m.filledWallMs === null
    ? `Nobody told me when the ${m.liquid} was mixed.`
    : `Nobody told me when the ${m.liquid} was mixed. It has been in bottle ${m.bottle} since ${date(m.filledWallMs)}.`;
}

/** Nobody said how used it is: no yes on a guess. */
const isGuess = (m: Of<'life-is'>): boolean =>
  Math.round(m.doneFilms) < 1 && !m.mixedHere && m.enough === 'yes';

function lifeIs(m: Of<'life-is'>): string {
  const which = m.bottles.length === 1 ? `bottle ${m.bottles[0]}` : `bottles ${m.bottles.join(' and ')}`;
  if (m.limit === 'age' && m.keepDaysLeft !== null)
    return `No. The ${m.liquid} in ${which} is ${days(-m.keepDaysLeft)} past its keeping time.`;
  if (m.limit === 'faulty')
    return `No. The ${m.liquid} in ${which} failed its checks${m.problem ? `: ${m.problem}` : ''}. Do not use it.`;
  if (m.limit === 'spoiled' && m.wrongPour !== null)
    return `No. The ${m.liquid} in ${which} is spoiled. ${wrongPour(m.wrongPour)}`;
  if (m.against !== null) {
    const { doubt, doubtOf, taint } = m.against;
    const why = taint === null ? doubt && doubts[doubt](doubtOf) : taintedBy(taint);
    return `No. The ${m.liquid} in ${which} is not to be used as it is. ${why}`;
  }
  if (m.limit === 'unknown') return `I have no capacity figure for ${m.liquid}.`;
  if (m.limit === 'silver' && m.silverGPerL !== null)
    return `No. The ${m.liquid} in ${which} holds about ${Math.round(m.silverGPerL)} grams of silver per litre. Mix fresh.`;
  const { low, usual } = m.left;
  const done = Math.round(m.doneFilms);
  const guess = isGuess(m);
  const verdict =
    m.enough === null
      ? ''
      : guess
        ? 'If it is fresh, yes. '
        : { yes: 'Yes. ', tight: 'Just. ', no: 'No. ' }[m.enough];
  // one figure to act on; the low edge is for who cannot risk a film
  const number =
    usual === 0
      ? `Not enough for a ${m.filmWords.replace(/s$/, '')}.`
      : `About ${usual} more ${m.filmWords}${low < usual ? `; ${low} to be safe` : ''}.`;
  const why =
    done >= 1
      ? `The ${m.liquid} in ${which} has done ${done}.`
      : m.mixedHere
        ? `The ${m.liquid} in ${which} is unused.`
        : `That is for fresh ${m.liquid}: nobody has told me how old or how used it is. Tell me.`;
  const longer = m.compensation === null || m.enough === 'yes' ? '' : ` ${m.compensation}`;
  const wrong = m.wrongPour === null || m.wrongPour.verdict === 'use' ? '' : ` ${wrongPour(m.wrongPour)}`;
  return `${verdict}${number} ${why}${wrong}${longer}`;
}

/** What speaks against another film, bath by bath; else what has to be done for it. */
function nextRoll({ short, lives }: Of<'next-roll'>): string {
  const lacking = short.map(({ liquid, haveMl, wantMl }) =>
    haveMl <= 0
      ? `No ${liquid} is left.`
      : `Of the ${liquid} there are ${spokenVolume(haveMl)}, and it takes ${spokenVolume(wantMl)}.`,
  );
  const worn = lives.filter((one) => one.enough === 'no').map(lifeIs);
  const tight = lives.filter((one) => one.enough === 'tight').map(lifeIs);
  if (lacking.length + worn.length > 0)
    return ['No.', ...lacking, ...worn.map((why) => why.replace(/^No\. /, ''))].join(' ');
  const guess = lives.some((one) => isGuess(one));
  const yes = guess ? 'If the baths are fresh, yes: nobody has told me how used they are.' : 'Yes.';
  return [
    ...(tight.length > 0 ? tight : [yes]),
    'Dry the reel well, tell me the films, and warm the developer again.',
  ].join(' ');
}

function replenishIs(m: Of<'replenish-is'>): string {
  const parts =
    m.addMl < 1
      ? [`The ${m.liquid} in bottle ${m.bottle} needs no replenisher now.`]
      : [
          m.removeMl > 0 ? `Take ${spokenVolume(m.removeMl)} out of bottle ${m.bottle} first.` : '',
          `Add ${spokenVolume(m.addMl)} of ${m.liquid} replenisher to bottle ${m.bottle}.`,
        ];
  if (m.regenerate !== null && m.regenerate.persulphateG >= 0.1)
    parts.push(
      `Or bring it back with ${spokenMass(m.regenerate.persulphateG, 1)} of potassium persulphate and ${spokenMass(m.regenerate.bromideG, 1)} of sodium bromide: no more, for too much persulphate frees bromine. ${m.regenerate.cautions.join(' ')} Gloves and goggles; never acid near ferricyanide.`,
    );
  return parts.filter(Boolean).join(' ');
}

/** Disposal follows local rules; these only say what to look up. */
const disposal: Readonly<Record<WasteKind, string>> = {
  silver:
    'Used fixer carries silver. Many places forbid it in the drain: keep it in a labelled container for a collection point, as your local rules say.',
  ferricyanide:
    'Ferricyanide is not for the drain where the rules forbid it. Keep it apart from every acid, in a labelled container, and ask your local collection point.',
  developer: 'Follow the safety data sheet and your local rules for used developer.',
  plain: 'Follow the safety data sheet and your local rules.',
};

function runsAre(m: Of<'runs-are'>): string {
  const state =
    m.last.complete === null ? 'is still going on' : m.last.complete ? 'was finished' : 'was left unfinished';
  const off = m.last.deviations === 0 ? 'nothing off' : count(m.last.deviations, 'deviation');
  const films = m.last.films > 0 ? ` with ${count(m.last.films, 'film')},` : '';
  return `${capital(count(m.total, 'run'))} so far. The last, on ${date(m.last.startedWallMs)},${films} ${state}, ${off}.`;
}

const phrases: PhrasesOf<BottlesMessage> = {
  'bottle-is': bottleIs,
  'bottle-unknown': (m) => `Nobody has told me about bottle ${m.bottle}. Say what it holds and how much.`,
  'bottles-are': (m) =>
    [
      ...(m.inTank ? [`The ${m.inTank} is in the tank.`] : []),
      ...(m.inJugs ?? []).map((j) => `${capital(spokenVolume(j.volumeMl))} of ${j.liquid} is in a jug.`),
      ...(m.spoiled === undefined
        ? []
        : [`Do not use ${m.spoiled.map((b) => `bottle ${b}`).join(' or ')}; ask what is in it.`]),
      ...m.lines.map((line) => `${capital(holds(line))}.`),
      ...(m.shortOfMl === undefined
        ? []
        : [`That is too little: the tank takes ${spokenVolume(m.shortOfMl)}.`]),
    ].join(' '),
  'no-bottles': () => 'I know of no full bottle. Say what each bottle holds.',
  'no-such-liquid': (m) => `I know of no bottle with ${m.liquid}.`,
  'age-is': (m) =>
    m.ageDays === null
      ? `I do not know when the ${m.liquid} in bottle ${m.bottle} was mixed.`
      : `The ${m.liquid} in bottle ${m.bottle} is ${days(m.ageDays)} old.${keep(m.keepDaysLeft)}`,
  'mixed-on': mixedOn,
  'fullest-is': (m) => `The fullest is ${fullest(m.line)}.`,
  'life-is': lifeIs,
  'next-roll': nextRoll,
  'replenish-is': replenishIs,
  'replenish-unknown': (m) => `I have no replenishment rate for ${m.liquid}.`,
  'history-which-day': (m) => `Today is ${WEEKDAYS[m.weekday]}: was it today, or a week ago?`,
  'history-of-which': (m) =>
    m.bottles.length > 1
      ? `Bottles ${m.bottles.join(' and ')} hold ${m.liquid}. Which one? Say it again with the bottle.`
      : `I know of no such bottle${m.liquid === null ? '' : ` of ${m.liquid}`}. Say first what it holds.`,
  'history-noted': historyNoted,
  'ph-noted': phNoted,
  'vouch-asked': (m) =>
    `Bottle ${m.line.bottle}: ${doubts[m.doubt](null).replace(/[:.].*/, '.')} Is it well after all? Say confirm or cancel.`,
  vouched: (m) => `Noted: bottle ${m.bottle} is as it should be.`,
  'nothing-against': () => 'By my record nothing was said against it.',
  'spilt-is': ({ each, unsaid, allMl }) => {
    const sumMl = each.reduce((ml, { volumeMl }) => ml + volumeMl, 0);
    const told = each.map(({ volumeMl, liquid }) => `${spokenVolume(volumeMl)} of ${liquid}`);
    return sentences(
      told.length > 0 && `By my record ${told.join(', ')}.`,
      ...unsaid.map((liquid) => `Of the ${liquid} some, and nobody said how much.`),
      allMl !== null && allMl > sumMl && `${capital(spokenVolume(allMl))} in all.`,
      told.length + unsaid.length === 0 &&
        !allMl &&
        'No amount is on record. If something was spilled, say how much of what.',
    );
  },
  'discard-asked': (m) => `${capital(holds(m.line))}. Mark it discarded? Say confirm or cancel.`,
  discarded: (m) => `Bottle ${m.bottle} is marked discarded. ${disposal[m.waste]}`,
  'nothing-to-discard': (m) => `As far as I know bottle ${m.bottle} is empty already.`,
  'name-asked': (m) =>
    m.better === null
      ? `${capital(m.name)} sounds too much like ${m.soundsLike}. Choose another name.`
      : `${capital(m.name)} sounds too much like ${m.soundsLike}. Shall I call bottle ${m.bottle} ${m.better}?`,
  'name-unknown-word': (m) =>
    m.better === null
      ? `I would not know ${m.word} when I hear it. Choose another name.`
      : `I would not know ${m.word} when I hear it. Shall I call bottle ${m.bottle} ${m.better}?`,
  named: (m) => `Bottle ${m.bottle} is now called ${m.name}.`,
  'left-alone': () => 'Left as it was.',
  'runs-are': runsAre,
  'no-runs': () => 'No run is written down yet.',
};
