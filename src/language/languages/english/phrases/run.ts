import type { Exposure } from '../../../../chemistry/safety/first-aid.js';
import type { AskId } from '../../../../process/guard-resolve.js';
import type { ReasonId } from '../../../../process/guard-table.js';
import type { FilmDoubt, Named, Now, RunMessage, Spoken, StillOpen } from '../../../../process/message.js';
import type { FilmRef } from '../../../../world/fact.js';
import type { Role } from '../../../../world/liquids.js';
import type { VesselRef } from '../../../../world/vessel.js';
import { type PhrasesOf, phraseOf } from '../../phrases.js';
import {
  sayAgitation,
  sayAsk,
  sayChecks,
  sayCount,
  sayEffect,
  sayMove,
  sayNow,
  sayOutlet,
  saySlip,
  sayTimeAt,
} from './run-parts.js';
import { awayFromGas, capital, reasons, sayAid, sayCautions, the, thenCall } from './run-reasons.js';
import { list, sentences, spokenDuration, spokenTemp, spokenVolume } from './units.js';

const andNow = (lead: string, now: Now): string => `${lead} ${sayNow(now, true)}`;

/** How long a bath was in, and whether that was long enough. */
function sayHad(
  bath: Named,
  times: readonly { seconds: number }[],
  { time, inNow }: { time: { aimS: number; minS: number; maxS: number } | null; inNow: boolean },
): string {
  const seconds = times.reduce((sum, h) => sum + h.seconds, 0);
  const had = `it ${inNow ? 'has had' : 'had'} ${spokenDuration(seconds)} of ${bath.name}`;
  if (!time) return `Yes, ${had}.`;
  const asked = `of ${spokenDuration(time.aimS)}`;
  if (inNow && seconds < time.minS) return `${capital(had)} so far, ${asked}.`;
  const verdict =
    seconds < time.minS - HANDS_S ? 'too short' : seconds > time.maxS + HANDS_S ? 'too long' : 'long enough';
  return `${capital(had)}, ${asked}: ${verdict}.`;
}
/** What hands take to fill and drain, s. Source: common practice. */
const HANDS_S = 10;

const stained = 'Developer was still in it: stains, fog or streaks of colour may show.';
const specks = 'Bits of backing may stick to the picture as dark specks: wipe the back after the last wash.';
const weakened = 'The developer worked less: thinner, with less contrast.';
const silverKept = 'Silver may be left in it, grey and dark: bleach, wash and fix it once more.';
const dryPart = 'Part of it was not covered: an uneven edge along one side.';
const badBath = 'One of its baths was in doubt: thin, stained or off in colour, as that bath was.';

/** What comes of a pour that was made against these reasons. Source: common practice. */
const cameOf: Partial<Record<ReasonId, string>> = {
  'developer-in-bleach': stained,
  'developer-in-fixer': stained,
  'water-before-stop': stained,
  'backing-in-developer': specks,
  'backing-loose': specks,
  'backing-still-on': specks,
  'prebath-in-developer': weakened,
  'acid-before-developer': weakened,
  'developer-short': weakened,
  'fixer-before-bleach': silverKept,
  'silver-left': silverKept,
  'bath-cold': silverKept,
  'fixer-left': 'Fixer left in it makes it fade: wash it well and rinse again.',
  'not-covered': dryPart,
  'too-little': dryPart,
  spoilt: badBath,
  tainted: badBath,
  'doubtful-mixture': badBath,
  'faulty-batch': badBath,
  spent: badBath,
  'too-old': badBath,
  oxidised: badBath,
  unanswered: badBath,
  spilled: dryPart,
  'ph-off': badBath,
  'developer-cold': 'The developer was too cold: thin, and the colours off.',
  'developer-hot': 'The developer was too hot: dense, with more contrast.',
};

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** What may have been in the tank in place of what is on record, and what that would have done. */
const sayDoubt = ({ of, last, warn }: FilmDoubt): string =>
  sentences(
    `You said that ${list(of.map(the))} may have been in the tank${last ? `; by my record it was ${the(last)}` : ''}. That is not settled.`,
    warn && `If so: ${lower(reasons[warn.reason](warn.about))}`,
    `See which bottle is short, and say which bath it was, for example: that was ${of[0] ? the(of[0]) : 'water'}.`,
  );

/** The explicit words, as the grammar has them. */
const overrideWords = 'override the guard and pour anyway';

const onPlace = (place: string): string =>
  `${['sink', 'tub', 'eye', 'mouth'].includes(place) ? 'in' : 'on'} the ${place.replace(/^(the|my) /, '')}`;

/** A yes or an override that does not answer what was asked. */
const needed: Partial<Record<AskId, string>> = {
  'film-unknown': 'Yes is not enough: say film is loaded, or say there is no film.',
  'nothing-to-pour': 'Tell me first what is in the tank: say which bath is in.',
  'bottle-empty': 'Tell me first what the bottle holds.',
  'bottle-unknown': 'Tell me first what the bottle holds.',
  'bad-volume': 'Tell me first how much it is.',
};

const stillSpilled = (spills: StillOpen['spills']): string =>
  `Still open: ${list(spills.map((s) => `a spill${s.bath ? ` of ${s.bath.name}` : ''}${s.place ? ` ${onPlace(s.place)}` : ''}`))}. Gloves on, then say the spill is cleaned up.`;

const place = (v: VesselRef): string => (v.kind === 'bottle' ? `bottle ${v.number}` : `the ${v.kind}`);

/** What a bottle does not take is lost; by a size that nobody told it may be. */
const sayRunOver = (ml: number, sizeTold = false): string =>
  `${capital(spokenVolume(ml))} more than it takes${sizeTold ? ': run over and lost' : ', by the size I take it to have: they may have run over. Tell me what it holds'}.`;

const inAJug = (bath: Named): string => `I take it ${the(bath)} is in a jug.`;

const sayFilm = (f: FilmRef): string =>
  [
    f.count === undefined || f.count === 1 ? 'one' : String(f.count),
    f.format === '35mm' ? '35 millimetre' : f.format,
    f.stock === 'film' ? '' : f.stock.replaceAll('-', ' '),
    f.count !== undefined && f.count !== 1 ? 'films' : 'film',
    f.lengthM === undefined ? '' : `of ${f.lengthM} metres`,
    f.pushStops ? `${f.pushStops > 0 ? 'pushed' : 'pulled'} ${Math.abs(f.pushStops)}` : '',
    f.name === undefined ? '' : `called ${f.name}`,
  ]
    .filter(Boolean)
    .join(' ');

/** What a bath that was left out on purpose leaves behind. */
const leftOutWords: Partial<Record<ReasonId, string>> = {
  'backing-in-developer': 'The backing is still on and comes off into the developer: filter it afterwards.',
  'backing-loose': 'The loose backing fouls the developer: filter it afterwards.',
  'fixer-before-bleach': 'The silver stays in the picture, as you chose.',
  'silver-left': 'The silver stays in the picture, as you chose.',
  'wetting-early': 'The film is not fixed, as you chose, and darkens in the light.',
};

/** Everything that speaks against a move, the worst first. */
const sayAlso = (also: { reason: ReasonId; about: Spoken }[]): string =>
  also.map((a) => reasons[a.reason](a.about)).join(' ');

/** What is left, or by how much it is over. */
const sayLeft = (leftS: number): string =>
  leftS < -0.5 ? `That is ${spokenDuration(-leftS)} too long.` : sayCount(leftS);

/** What comes of leaving a bath out. */
const without: Record<Role, string> = {
  'backing-remover': 'Without it the backing comes off into the developer.',
  developer: 'Without it there is no picture.',
  stop: 'Without it the developer in the film works on and stains in the bleach.',
  bleach: 'Without it the silver stays in the picture.',
  fixer: 'Without it the film darkens in the light.',
  rinse: 'Without it the film may dry with spots.',
  water: 'Without it what clings to the film gets into the next bath.',
};

/** What a film lacks that did not get its baths. */
const withoutIt = (missing: Named[]): string =>
  missing.some((b) => b.id.includes('fix'))
    ? 'An unfixed film darkens in the light: fix and wash it.'
    : missing.some((b) => b.id.includes('bleach'))
      ? 'The silver is still in it: bleach and fix it.'
      : 'It can still be given.';

/** More than the bottle takes; a size that nobody told is said to be no more than that. */
const doesNotFit = ({ volumeMl, capacityMl, of }: Extract<RunMessage, { id: 'bad-bottle' }>): string =>
  of === undefined
    ? `${spokenVolume(volumeMl)} does not fit ${spokenVolume(capacityMl)}. How much is it?`
    : sentences(
        `${spokenVolume(volumeMl)} does not fit bottle ${of.bottle}: it takes ${spokenVolume(capacityMl)}${of.told ? '' : ' as far as I know'}. How much is it?`,
        !of.told &&
          `If it takes more, say how much, for example: bottle ${of.bottle} takes ${spokenVolume(Math.ceil(volumeMl / 500) * 500)}.`,
      );

export const runPhrases: PhrasesOf<RunMessage> = {
  'run-begun': (m) =>
    sentences(
      `Run started: ${m.sheet}.`,
      sayCautions(m.cautions),
      m.assumed && m.bottles.length > 0
        ? `Unless you say otherwise: ${list(m.bottles.map((b) => `bottle ${b.bottle} ${b.bath.name}`))}, and the tank takes ${spokenVolume(m.tankMl)}.`
        : `The tank takes ${spokenVolume(m.tankMl)}.`,
      'Get the bottles ready, then say next step.',
    ),
  'run-already': (m) => andNow('A run is under way.', m.now),
  'no-such-sheet': (m) => `I have no sheet called ${m.said}. I have: ${list(m.known)}.`,
  now: (m) => sayNow(m.now, m.brief),
  where: (m) =>
    sentences(
      m.step === null ? null : `Step ${m.step} of ${m.of}.`,
      m.inTank?.ml === 0 && 'The tank is empty.',
      sayNow(m.now, true),
      m.inTank !== undefined &&
        m.inTank.ml > 0 &&
        `${capital(spokenVolume(m.inTank.ml))} of ${spokenVolume(m.inTank.ofMl)} are in the tank.`,
      m.jugs.length > 0 && `In jugs: ${list(m.jugs.map((j) => j.name))}.`,
      m.doubt && sayDoubt(m.doubt),
      m.spill && 'A spill is still open.',
      m.hurt !== undefined && `Somebody is hurt: ${sayAid(m.hurt)}`,
    ),
  next: (m) =>
    sentences(
      m.omitted !== undefined && `Left out by my record: ${m.omitted.map(the).join(' and ')}.`,
      `Next: ${m.step}.`,
      m.after && `After that, ${the(m.after)}.`,
    ),
  'film-loaded': (m) => (m.now ? andNow('Film loaded.', m.now) : 'Film loaded.'),
  'film-already-loaded': () => 'The film is already loaded.',
  'film-loaded-no-run': () => 'Film loaded, and no run is under way. Say begin the run.',
  'films-noted': (m) =>
    sentences(
      `Noted: ${m.films.map(sayFilm).join(', and ')}.`,
      m.push ?? null,
      m.warn !== undefined && reasons[m.warn.reason](m.warn.about),
      m.shifts === 'slide' && 'Slide film comes out of this process as a negative, with strange colours.',
      m.shifts === 'other-colour' &&
        'It is made for another developer: it comes out, with shifted colours. It has no black backing.',
    ),
  'time-at-what': () => 'At how many degrees? Say, for example: how long do I develop at 38 degrees.',
  'time-at': sayTimeAt,
  duration: (m) =>
    m.seconds === null
      ? `The sheet gives no time for ${the(m.bath)}.`
      : `${capital(the(m.bath))} takes ${spokenDuration(m.seconds)}${m.why === null ? '' : `, because ${m.why}`}.`,
  'where-it-goes': (m) => m.lines.join(' '),
  'films-what': () => 'What film is it, and how many?',

  clear: (m) =>
    sentences(
      `${m.leftOut ? 'Go on with a bath left out' : m.harmless ? 'No harm' : 'Clear'}: ${sayMove(m.move)}.`,
      m.leftOut
        ? (leftOutWords[m.reason] ?? null)
        : (m.harmless || m.reason === 'rest-of-development') && reasons[m.reason](m.about),
      sayChecks(m.checks),
    ),
  recoverable: (m) =>
    sentences(
      `Wait. ${reasons[m.reason](m.about)}`,
      sayAlso(m.also),
      m.checks.localCodes && 'Local rules decide what may go down the drain.',
      'Say confirm to do it anyway, or cancel.',
    ),
  ruinous: (m) =>
    sentences(
      `No. ${reasons[m.reason](m.about)}`,
      sayAlso(m.also),
      `Do not pour. Cancel, or say: ${overrideWords}.`,
    ),
  ask: sayAsk,
  overridden: (m) =>
    sentences(
      `Noted. Go ahead: ${sayMove(m.move)}.`,
      m.overridden.length > 0 && `Overridden: ${sayAlso(m.overridden)}`,
      m.lostMl !== undefined &&
        `${m.sizeTold ? '' : 'By the size I take it to have, '}${spokenVolume(m.lostMl)} run over and are lost.`,
      sayChecks(m.checks),
    ),
  'where-went': (m) =>
    sentences(
      `Where did ${the(m.bath)} go? I refused bottle ${m.bottle}. ${reasons[m.reason](m.about)}`,
      m.gas && `If any of it went in: ${lower(awayFromGas)}`,
      'Say which bottle, or cancel if it stands in a jug.',
    ),
  'needs-override': () => `That pour is refused, and yes is not enough. Cancel, or say: ${overrideWords}.`,
  'needs-answer': (m) => needed[m.ask] ?? 'I need the answer first: which bath, and which bottle?',
  'nothing-waiting': () => 'Nothing is waiting for that.',
  cancelled: () => 'Cancelled.',
  'called-off': (m) => andNow(m.bath ? `Called off: ${the(m.bath)} is not poured.` : 'Called off.', m.now),
  'was-it-in': (m) =>
    `You were to pour ${the(m.bath)} ${spokenDuration(m.agoS)} ago. Did it go in? Confirm, or cancel if it did not.`,
  'taken-in': (m) =>
    `I take it that ${the(m.bath)} went in ${spokenDuration(m.agoS)} ago. If not, say when it went in.`,
  'taken-next': (m) =>
    `I take it that ${m.out === null ? '' : `${the(m.out)} came out and `}${the(m.bath)} went in ${spokenDuration(m.agoS)} ago. If not, say when it went in.`,
  'taken-out': (m) => `I take it that ${the(m.bath)} is back in ${place(m.to)}.`,
  poured: (m) =>
    sentences(
      m.gas && awayFromGas,
      m.warn && reasons[m.warn.reason](m.warn.about),
      `Noted: ${m.bath.name} ${m.from.kind === 'tap' ? '' : `from ${place(m.from)} `}to ${place(m.to)}.`,
      m.lostMl !== undefined && sayRunOver(m.lostMl, m.sizeTold),
    ),
  'got-into-which': (m) =>
    sentences(
      `Into which bottle did ${m.both === null ? the(m.bath) : `${the(m.bath)} and ${the(m.both)}`} go, and how much?`,
      `Until you say, ${m.both === null ? 'pour nothing' : 'use neither'}. Say, for example: bottle 5.`,
      ...m.further,
    ),
  'went-elsewhere': (m) =>
    `By my record ${the(m.bath)} left the tank into bottle ${m.stands}. If it went into bottle ${m.bottle} instead, say: no, I meant bottle ${m.bottle}. If it was moved on, say: I poured bottle ${m.stands} into bottle ${m.bottle}.`,
  'swap-asked': (m) =>
    `${capital(m.bottles.map((b) => `bottle ${b.bottle} then holds ${b.bath ? the(b.bath) : 'nothing'}`).join(', and '))}. Confirm, or cancel.`,
  swapped: (m) =>
    `Noted: ${list(m.bottles.map((b) => `bottle ${b.bottle} holds ${b.bath ? the(b.bath) : 'nothing'}`))}. Label them.`,
  'swap-what': () => 'Which two bottles changed places? Say, for example: bottle 3 and bottle 4 are swapped.',
  'film-out': (m) =>
    sentences(
      `Put the film back: it has had ${spokenDuration(m.doneS)} of ${the(m.bath)}${m.leftS !== null && m.leftS > 0 ? `, and ${spokenDuration(m.leftS)} are missing` : ''}.`,
      m.light && 'In the dark, if light can still reach it: what light fogs stays fogged.',
      'If the bath is out of the tank, say tank is empty.',
    ),
  'warm-it': (m) =>
    `Stand the bottle of ${m.bath.name} in ${m.hot ? 'cooler' : 'warm'} water, from ${spokenTemp(m.tempC)} ${m.hot ? 'down' : 'up'} to ${spokenTemp(m.aimC)}, and read it again. Then say the pour once more.`,
  'gas-there': (m) =>
    `${capital(m.bath.name)} and ${m.into.name} are together in bottle ${m.bottle}. ${awayFromGas} Do not move it, and do not close it tight. When the air is clear, collect it apart, marked; use it for no film. If you feel unwell, call your poison centre or emergency number.`,
  'poured-what': (m) =>
    m.amount
      ? 'How much of it, in millilitres?'
      : 'What went where? Say the bath, from which bottle, and into which.',
  contaminated: (m) =>
    sentences(
      m.gas && awayFromGas,
      ...(m.gases ?? []),
      m.why && reasons[m.why.reason](m.why.about),
      `${m.volumeMl === null ? 'Some' : spokenVolume(m.volumeMl)} ${m.volumeMl === null ? '' : 'of '}${m.bath.name} in ${the(m.into)}${m.bottle === null ? '' : `, bottle ${m.bottle}`}.`,
      m.found.length > 0
        ? sayAlso(m.found)
        : m.volumeMl === null
          ? 'A splash does no harm by my reckoning, more might.'
          : 'By my reckoning that does no harm.',
      m.volumeMl === null && 'How much it was is not known: if you know, say so.',
      m.lostMl !== undefined && sayRunOver(m.lostMl, m.sizeTold),
    ),
  'got-into-tank': (m) =>
    sentences(
      m.gas && awayFromGas,
      ...m.dangers,
      `${capital(m.bath.name)} in ${m.into === null ? 'the empty tank' : `${the(m.into)} in the tank`}.`,
      m.warn && reasons[m.warn.reason](m.warn.about),
      m.thins
        ? 'Thinned it works more weakly, by how much nobody knows. Give it its full time, and keep it apart afterwards.'
        : m.harmless
          ? 'A little of it does no harm there by my reckoning.'
          : m.into === null || m.into.id === 'water'
            ? 'Pour it out, and rinse the tank with fresh water before the next bath.'
            : `Drain ${the(m.into)} now, not back into its bottle: keep it apart in a jug. Then wash before the next bath.`,
    ),
  'film-so-far': (m) => {
    const { asked } = m;
    const times = m.had.filter((h) => h.bath.id === asked?.id);
    if (asked !== null)
      return times.length > 0 ? sayHad(asked, times, m) : `No, the film has not had ${the(asked)}.`;
    return sentences(
      m.had.length === 0
        ? m.loaded
          ? 'The film is loaded and has had nothing yet.'
          : 'No film is in the tank, as far as I was told.'
        : `The film has had: ${list(m.had.map((h) => `${h.bath.name} ${spokenDuration(h.seconds)}`))}.`,
      m.missing.length > 0 &&
        `${m.hung ? 'It never had' : 'Still to come'}: ${list(m.missing.map((b) => b.name))}.`,
      m.light &&
        'Light reached it: what is fogged stays fogged, the rest of it may be fine. Go on to the end.',
      m.off > 0 &&
        `Not all went as the sheet has it, ${m.off === 1 ? 'once' : `${m.off} times`}: ask what went wrong.`,
    );
  },
  outlook: (m) => {
    const against = sentences(
      m.effect !== null && `${capital(sayEffect(m.effect))}.`,
      m.light && 'Light reached it: what is fogged stays fogged, the rest of it may be fine.',
      m.lightBefore &&
        'Light came on before it was loaded: what lay in the open is fogged, what was in its can is safe.',
      m.turnedMore && 'It was turned more than it should be: more contrast, if that was in the developer.',
      m.notTurned &&
        'It was not turned as it should be: streaks or uneven density may show, and less density.',
      ...m.reasons.map((id) => cameOf[id as ReasonId]),
    );
    if (!m.loaded) return 'No film has been in the tank.';
    if (m.lost)
      return m.doubt
        ? `The picture may be lost. ${sayDoubt(m.doubt)}`
        : 'The picture is lost. Nothing brings it back.';
    return sentences(
      m.doubt
        ? `I cannot say. ${sayDoubt(m.doubt)}`
        : against === ''
          ? 'Nothing in my record is against the film: it should come out as it should.'
          : 'The picture is not lost.',
      against,
      m.bath && `Leave ${the(m.bath)} in until I call.`,
      m.now && sayNow(m.now, true),
    );
  },
  'film-settled': (m) => andNow(`Good: it was ${the(m.bath)}, as I have it.`, m.now),
  'no-film-in': (m) => andNow('Then nothing has touched the film.', m.now),
  'say-again-clearly': (m) =>
    `I am not sure I heard you. Say ${m.word === 'override' ? overrideWords : m.word} again, or cancel.`,

  'bath-in': (m) =>
    sentences(
      m.named?.own !== undefined &&
        `Bottle ${m.named.bottle} is ${m.named.holds ? the(m.named.holds) : 'another bath'} by my record: if so, get it out now! If not, say${m.named.own === null ? ' which bottle it was' : `: it was bottle ${m.named.own}`}. If so, say: it was bottle ${m.named.bottle}.`,
      m.slip && saySlip(m.slip),
      m.jugged && inAJug(m.jugged),
      m.warn && reasons[m.warn.reason](m.warn.about),
      m.missingMl !== undefined &&
        `${capital(spokenVolume(m.missingMl))} short: part of the film is dry. Pour in the rest now, and say it is in.`,
      `${capital(m.bath.name)} is in${m.agoS < 1 ? '' : `, since ${spokenDuration(m.agoS)}`}${m.aimS === null ? '.' : `: ${spokenDuration(m.aimS)}${m.why === undefined ? '' : `, because ${m.why}`}.`}`,
      m.aimS === null && 'Say drain now or tank is empty when it is done.',
      sayAgitation(m.agitation),
      m.assumed && 'If it is another bath, say which bath is in.',
      m.named !== undefined &&
        m.named.own === undefined &&
        (m.named.holds
          ? `If it came from bottle ${m.named.bottle}, that is ${the(m.named.holds)} by my record: get it out now, and say: it was bottle ${m.named.bottle}.`
          : `If it came from bottle ${m.named.bottle}, say: it was bottle ${m.named.bottle}.`),
    ),
  'wrong-bath-in': (m) =>
    sentences(
      `Get it out now! ${reasons[m.reason](m.about)}`,
      sayOutlet(m.outlet),
      'Wash the film, and say tank is empty.',
      m.due && `${capital(the(m.due))} was due.`,
    ),
  'bath-already-in': (m) =>
    `${capital(the(m.bath))} is already in, since ${spokenDuration(m.sinceS)}.${m.leftS === null ? '' : ` ${sayCount(m.leftS)}`}`,
  'confirm-bath-in': (m) =>
    m.heard.length > 0
      ? `Is it ${the(m.bath)} that is in, or ${list(m.heard.map(the))}? Confirm ${the(m.bath)}, or say it again.`
      : `Is ${the(m.bath)} in? Confirm or cancel.`,
  'in-instead': (m) =>
    `By my record ${the(m.holds)} has been in the tank for ${spokenDuration(m.sinceS)}: ${m.inferred ? 'I took it so from what you said' : 'you said so'}. Is it ${the(m.bath)} that is in? Confirm, or cancel and ${the(m.holds)} stays in.`,
  'in-and-empty': (m) =>
    `You said that ${the(m.bath)} is in, and that the tank is empty. I take it to be in. If not, say tank is empty.`,
  'which-bath-in': () => 'Which bath is in?',
  'part-alone': (m) =>
    m.bath
      ? `${capital(m.bath.name)}: is it going in, or is it in? Say pouring ${the(m.bath)} in, or ${m.bath.name} is in.`
      : m.bottle === null
        ? 'Say what you are pouring, and from where.'
        : `Bottle ${m.bottle}: what about it? Say what is in bottle ${m.bottle}.`,
  'film-first': (m) =>
    `${capital(the(m.bath))} is in, with the film in the tank? Then say film is loaded, or cancel.`,
  'tank-is-empty': (m) =>
    sentences(
      'Tank empty.',
      m.slip && saySlip(m.slip),
      m.jugged && inAJug(m.jugged),
      (m.slip === null || m.slip.restS === null) && sayNow(m.now),
    ),
  'tank-already-empty': (m) => andNow('The tank is empty already.', m.now),
  'confirm-early': (m) =>
    `${capital(the(m.bath))} has had ${spokenDuration(m.doneS)} of ${spokenDuration(m.aimS)}. Confirm to drain early, or cancel.`,
  'confirm-skip': (m) => sentences(m.role && without[m.role], `To skip ${m.step}, say confirm.`),
  skipped: (m) => andNow(`Skipped ${m.step}.`, m.now),
  'still-good': (m) =>
    m.bath === null
      ? 'Of which bath? I know of nothing against any. Name it.'
      : m.found
        ? `No, not as it is. ${reasons[m.found.reason](m.found.about)}`
        : `I know of nothing against ${the(m.bath)}. Ask how many films it can still do.`,
  'light-in': (m) =>
    sentences(
      {
        'no-film': 'A film that was out in the open is fogged; in its can or cassette it is safe.',
        fixed: 'The film is fixed: light does it no harm. Close the tank and go on.',
        fixing:
          'A little light does no more harm, but it is not fixed through. Close the tank and leave the fixer in until I call.',
        bleached: 'After the bleach a little light does no harm. Close the tank and go on.',
        bleaching:
          'Close it at once. The bleach has not done its work yet: what the light reached may be fogged. It is noted.',
        sensitive: 'Close it at once, in the dark. What the light reached is fogged, the rest may be saved.',
      }[m.stage],
      (m.stage === 'sensitive' || m.stage === 'bleaching') &&
        m.bath &&
        `Go on: ${the(m.bath)} works as before.`,
      m.now && sayNow(m.now),
    ),
  // source of this and the next: common practice; fixed for twice as long as it takes to clear, as `world/film.ts` has it
  'backing-left': (m) =>
    m.stage === 'rinsing'
      ? sentences(
          'Then it is still coming off: keep the tank closed and go on with fresh water until it runs clear.',
          m.now && sayNow(m.now),
        )
      : `That is backing. ${m.stage === 'dark' ? 'Once it is fixed, and not in the light before: wet' : 'Wet'} it and wipe that side gently with a soft cloth; then rinse.`,
  'mixed-wrong': (m) =>
    `Pour ${the(m.bath)} on no film yet. A part that is missing goes in now, weighed and stirred until it is clear. What is too much, or too thin, does not come right: mix fresh.`,
  'agitated-more': (m) =>
    m.developing
      ? 'Rest now until I call, and keep the time. In the developer more agitation gives more contrast.'
      : 'No harm in this bath: only a developer does more for it.',
  milky: (m) =>
    ({
      before: 'Before the fixer a film is milky: that is as it should be. Keep it in the dark.',
      fixing:
        'Then it is not fixed yet: keep it in, moving, for twice as long as it takes to clear. If it is still milky after its time, the fixer is weak: fix it in a fresh one.',
      after:
        'A milky film is not fixed: fix it again in fresh fixer, for twice as long as it takes to clear, and wash it.',
    })[m.stage],
  'water-stops': (m) =>
    andNow(
      `Noted: water in place of the ${m.step}. Give it ${spokenDuration(m.seconds)} or more, moving: the developer works on until it is out of the film.`,
      m.now,
    ),
  'had-before': (m) =>
    sentences(
      `Noted: the film has had ${the(m.bath)}.`,
      m.lost && 'That was before its turn: the picture is lost.',
    ),
  'tank-without-film': (m) =>
    andNow(
      `So the film has had nothing of ${the(m.bath)}: its clock is stopped, and it counts as in a jug. ${sayOutlet(m.outlet)} It is as good as before.`,
      m.now,
    ),

  'held-up': (m) =>
    sentences(
      `Take your time, but ${the(m.bath)} keeps working on the film.`,
      m.leftS !== null && sayLeft(m.leftS),
      'I go on calling.',
    ),
  'clock-runs': (m) =>
    sentences(
      `${capital(the(m.bath))} has been in for ${spokenDuration(m.sinceS)}.`,
      m.leftS !== null && sayLeft(m.leftS),
      m.leftS !== null && m.leftS < 0 && 'Drain it now.',
    ),
  away: (m) =>
    m.bath === null
      ? m.first === null
        ? andNow('Nothing works in the tank.', m.now)
        : `Not yet: the developer in the film goes on working. Put ${the(m.first)} in first.`
      : sentences(
          `${capital(the(m.bath))} goes on while you are away.`,
          m.drainS !== null &&
            (m.drainS > 0
              ? `It has to come out in ${spokenDuration(m.drainS)}.`
              : m.harmless
                ? 'Its time is up, and some minutes more do no harm.'
                : 'Drain it now, and go then.'),
          m.overS !== null &&
            m.overS >= 1 &&
            !(m.harmless && (m.drainS ?? 0) <= 0) &&
            `In ${spokenDuration(m.backS ?? 0)} it would be ${spokenDuration(m.overS)} over.${m.effect !== null && m.effect > 0.03 ? ` ${capital(sayEffect(m.effect))}.` : ''} ${m.bath.id.includes('developer') ? 'Drain it first, or have somebody do it.' : 'That does the film little harm: drain it when you are back.'}`,
          'I go on calling.',
        ),
  outside: (m) =>
    m.leave
      ? `Everybody out now, and go back for nothing. ${m.film ? 'The film can wait. ' : ''}Then say: I am back.`
      : `Stay away, and go back for nothing, until it is safe. ${m.film ? 'The film can wait. ' : ''}Then say: I am back.`,
  'hands-full': (m) =>
    `First whoever is hurt. ${m.film ? 'The film can wait: I call nothing more. ' : ''}Then say: I am back.`,
  aired: (m) => `Go in only once ${SAFE_FROM[m.from]}. Is that so? Say yes or no.`,
  'wrong-bottle': (m) =>
    `By my record ${the(m.bath)} is in the tank${m.bottle === null ? '' : `, from bottle ${m.bottle}`}. What is it really? Say, for example: that was bottle ${m.bottle === 3 ? 4 : 3}; or tank is empty.`,
  'left-out': (m) =>
    sentences(
      m.hadS >= 1 && `By my record the film had ${spokenDuration(m.hadS)} of ${m.bath.name}.`,
      m.reason === null
        ? m.role === 'water'
          ? 'As the film is now that does no harm.'
          : without[m.role]
        : reasons[m.reason](m.about),
      m.inNow !== null && m.reason !== null
        ? `${capital(the(m.inNow))} is in now: that cannot be undone. Afterwards keep it apart and wash the film well.`
        : sayNow(m.now, true),
    ),
  'in-doubt': (m) =>
    m.doubt
      ? sayDoubt(m.doubt)
      : sentences(
          m.holds
            ? `By my record ${the(m.holds.bath)} has been in for ${spokenDuration(m.holds.sinceS)}: ${m.holds.inferred ? 'I took it so from what you said' : 'you said so'}.`
            : `By my record the tank is empty. ${sayNow(m.now, true)}`,
          'Lift the tank: a full one is heavy and laps. Keep it closed.',
          m.holds
            ? 'If it is empty, say tank is empty.'
            : 'If something is in, say which bath is in, and since when.',
        ),
  'no-clock': (m) => andNow('No clock runs.', m.now),
  'time-added': (m) =>
    `${m.seconds < 0 ? 'Taken off' : 'Added'} ${spokenDuration(Math.abs(m.seconds))}. ${sayCount(m.leftS)}${m.effect === null ? '' : ` ${capital(sayEffect(m.effect))}.`}`,
  'tank-off': (m) =>
    sentences(
      `${spokenTemp(Math.abs(m.offC))} ${m.offC < 0 ? 'too cold' : 'too warm'} in the tank.`,
      m.effect !== null && `In the planned time ${sayEffect(m.effect)}.`,
      m.changeS !== null &&
        `${spokenDuration(Math.abs(m.changeS))} ${m.changeS < 0 ? 'less' : 'more'} would make up for ${m.colour ? 'the contrast, though not for all of the colour' : 'it'}. Confirm, or cancel and keep the time.`,
    ),
  target: (m) =>
    m.temp
      ? `${capital(the(m.bath))} at ${spokenTemp(m.temp.aimC)}, between ${spokenTemp(m.temp.minC)} and ${spokenTemp(m.temp.maxC)}.`
      : `The sheet gives no temperature for ${the(m.bath)}.`,
  'tank-slow': (m) =>
    sentences(
      `${spokenTemp(-m.offC)} too cold: it works more slowly, and may leave silver.`,
      'Warm the tank.',
      m.longerS !== null && `${spokenDuration(m.longerS)} longer? Confirm or cancel.`,
    ),
  'bad-seconds': () => 'I can change the time by 1 second to 30 minutes. How much?',
  'time-left': (m) =>
    m.leftS === null
      ? `${capital(the(m.bath))} has no set time.`
      : m.leftS < -0.5 || m.drainS === null || m.drainS <= 0 || m.leftS - m.drainS < 1
        ? `${sayLeft(m.leftS)}${m.leftS < 0.5 && m.leftS >= -0.5 ? ` Drain ${the(m.bath)} now.` : ''}`
        : `${capital(spokenDuration(m.drainS))} until you drain, ${spokenDuration(m.leftS)} left in all.${m.effect !== undefined && Math.abs(m.effect) > 0.03 ? ` As it was read, ${sayEffect(m.effect)}.` : ''}`,
  'time-until': (m) =>
    m.seconds < 1 && !m.atLeast
      ? `${capital(the(m.bath))} is due now.`
      : m.seconds < 1
        ? `No set time until ${the(m.bath)}: it depends on you.`
        : `${m.atLeast ? 'At least ' : ''}${spokenDuration(m.seconds)} until ${the(m.bath)}.`,
  'time-until-none': (m) =>
    ({
      'not-in-sheet': `${capital(the(m.bath))} is not on this sheet.`,
      done: `${capital(the(m.bath))} is behind us.`,
      'in-it': `${capital(the(m.bath))} is in now.`,
    })[m.why],

  agitate: (m) => (m.style === 'inversion' && m.turns > 0 ? `Agitate: ${m.turns} inversions.` : 'Agitate.'),
  rest: () => 'Rest.',
  'ten-seconds': () => '10 seconds to drain.',
  drain: (m) =>
    sentences(
      `Drain ${the(m.bath)} now.`,
      m.outlet.to === 'sink' ? null : sayOutlet(m.outlet),
      m.next && `Next: ${the(m.next)}.`,
    ),
  'pour-next': (m) =>
    `Tank empty? Then ${m.bath.name} in now${m.bottle === null ? '' : `, bottle ${m.bottle}`}.`,
  overdue: (m) =>
    sentences(
      `${capital(the(m.bath))} is still in, ${spokenDuration(m.overS)} over. Drain it, or say tank is empty.`,
      m.effect !== null && m.effect > 0.03 && `${capital(sayEffect(m.effect))}.`,
    ),
  'get-out': (m) => `${capital(the(m.bath))} is still in. Get it out.`,
  'in-asked': (m) =>
    m.again
      ? `If ${the(m.bath)} went in, its time is nearly up. Is it in? Say ${m.bath.name} is in, or not yet.`
      : `Is ${the(m.bath)} in? Say ${m.bath.name} is in, or not yet.`,
  'empty-asked': () => 'Is the tank empty? Say tank is empty when it is.',

  'bottle-empty': (m) => `Noted: bottle ${m.bottle} is empty.${m.was ? ` It held ${the(m.was)}.` : ''}`,
  'bottle-noted': (m) =>
    sentences(
      m.volumeAssumed
        ? `Bottle ${m.bottle} holds ${m.bath.name}. You did not say how much: I take ${spokenVolume(m.volumeMl)} until you do.`
        : `Bottle ${m.bottle} holds ${spokenVolume(m.volumeMl)} of ${m.bath.name}, out of ${spokenVolume(m.capacityMl)}.`,
      m.was && `I had ${the(m.was)} there.`,
    ),
  'bottle-takes': (m) => `Bottle ${m.bottle} takes ${spokenVolume(m.capacityMl)}.`,
  'bottle-holds-what': (m) =>
    `I do not know what bottle ${m.bottle} holds. Say: bottle ${m.bottle} holds, and the bath.`,
  'bottle-doubt': (m) =>
    `By my record bottle ${m.bottle} holds ${m.holds ? the(m.holds) : 'something else'}. Confirm that it holds ${the(m.bath)}, or cancel.`,
  'bad-bottle': (m) =>
    ({
      volume: doesNotFit(m),
      capacity: `A bottle cannot take ${spokenVolume(m.capacityMl)}. How much does it take?`,
      number: 'Bottles are numbered from 1 to 99. Which one is it?',
    })[m.why],
  'no-such-liquid': (m) => `This sheet has no ${m.said}. It has ${list(m.known)}.`,
  'thermometer-noted': ({ errorC, wasC }) =>
    errorC === 0
      ? sentences(
          `What ${wasC === undefined ? 'your' : 'the new'} thermometer shows counts as it is${wasC === undefined ? ', also in the readings from before' : ''}.`,
          !!wasC &&
            `The old one read ${spokenTemp(Math.abs(wasC))} too ${wasC > 0 ? 'high' : 'low'}: does that still hold? Then say it again.`,
          'In ice water it should read zero.',
        )
      : `Noted: your thermometer reads ${spokenTemp(Math.abs(errorC))} too ${errorC > 0 ? 'high' : 'low'}. Tell me what it shows: I ${errorC > 0 ? 'take that off' : 'add that to'} every reading${wasC === undefined ? ', also those from before' : ''}.`,
  'tank-noted': (m) =>
    sentences(
      `The tank takes ${spokenVolume(m.volumeMl)}.`,
      m.least &&
        `Bottle ${m.least.bottle} holds ${spokenVolume(m.least.ml)}, too little to fill it, as far as I know.`,
      m.over && `I took ${spokenVolume(m.over.ml)} of ${m.over.bath.name} to be in it. How much went in?`,
    ),
  'bad-tank': (m) =>
    `${spokenVolume(m.volumeMl)} is not a tank I can believe. Expected 50 millilitres to 10 litres. How much is it?`,
  'tank-used': (m) =>
    `Tank ${m.tank} from here on. It takes ${spokenVolume(m.volumeMl)}${m.told ? '' : ', unless you say otherwise'}.${m.film ? ' Film is in it.' : ''}`,
  'tank-size': (m) =>
    `I know ${m.aside === 0 ? 'one tank' : 'tanks'} and no sizes to tell them by; this one takes ${spokenVolume(m.volumeMl)}. Say: the tank takes, and how much.`,
  'tank-busy': (m) => andNow(`Tank ${m.tank} is at work: finish its film first.`, m.now),
  'spill-open': (m) =>
    sentences(
      m.aid && sayAid([m.aid]),
      m.cautions.length === 0 && (m.further ?? []).join(' '),
      `Spill noted: ${m.allOf ? `all of bottle ${m.allOf.bottle}, by my record ` : ''}${m.volumeMl === null ? '' : `${spokenVolume(m.volumeMl)} of `}${m.bath?.name ?? 'a bath'}${m.place ? ` ${onPlace(m.place)}` : ''}${m.allOf && !m.allOf.sure ? ', if nobody changed it' : ''}.`,
      m.allOf !== undefined && `If some is left in it, say how much bottle ${m.allOf.bottle} holds.`,
      m.left !== undefined &&
        `${spokenVolume(m.left.ml)} of ${spokenVolume(m.left.ofMl)} are left in the tank: that may not cover the film. Top it up, or turn it without a rest.`,
      ...(m.cautions.length > 0 ? [sayCautions(m.cautions), ...(m.further ?? [])] : []),
      'Then say the spill is cleaned up.',
    ),
  'spill-ask': (m) =>
    sentences(
      m.aid && sayAid([m.aid]),
      m.leak && 'Hold it over the sink, gloves on, and press the lid down.',
      sayCautions(m.cautions),
      ...(m.further ?? []),
      m.missing !== null &&
        {
          nothing: 'Tell me what was lost.',
          liquid: 'What was spilled?',
          volume: 'How much was spilled?',
          both: 'What was spilled, and how much?',
          later: 'Tell me later what it was and how much.',
          'volume-later': 'Tell me later how much.',
        }[m.missing],
    ),
  'spill-cleaned': (m) => sentences('Spill closed.', m.spills.length > 0 && stillSpilled(m.spills)),
  'sink-rinsed': () => 'Noted: water down the sink.',
  met: (m) => sentences(awayFromGas, `${capital(m.bath.name)} met ${m.with.name}.`, ...m.dangers),
  hurt: (m) =>
    sentences(
      m.asks === 'rinsing' && rinseOn(m.hows),
      m.asks === 'call' && callNow(m.hows),
      m.asks === 'lens' && leaveLens,
      m.asks === 'call' ? tellThem : m.asks && m.asks !== 'over' ? thenCall : sayAid(m.hows),
      m.asks === 'over' && 'I keep it open. If it is over, say: nobody is hurt.',
      sayCautions(m.cautions),
      m.hows.length === 0 && m.asks === null && 'Where is it?',
    ),
  'hurt-over': () => `Good. If anything comes back: ${thenCall}`,
  'no-spill': (m) =>
    sentences(
      'No spill is open.',
      m.never && `Never clean up a bath with ${m.never.name}: poison gas may form.`,
      m.never && `Was it done? ${awayFromGas}`,
    ),
  'note-taken': (m) => `Noted: ${m.text.replace(/[.\s]+$/, '') || 'a note'}.`,
  'note-empty': () => 'Say note, and then the words.',
  cautions: (m) => sentences(m.about && `${capital(m.about)}:`, sayCautions(m.cautions)),
  'film-hung': (m) =>
    sentences(
      'Film is hanging.',
      m.missing.length > 0 && `This film never had ${list(m.missing.map(the))}. ${withoutIt(m.missing)}`,
      m.fixerLeft &&
        'The fixer was never washed out of it, and it stains and fades so: wash it, and give the final rinse again.',
      m.backingLeft && 'The backing may still be on: wipe the back while it is wet.',
      'Close the bottles, rinse the tank and wash your hands. Then say close the run.',
    ),
  'closed-without': (m) =>
    `That run is closed. Its film never had ${list(m.missing.map(the))}. ${withoutIt(m.missing)}`,
  'may-hang': (m) =>
    m.fixerLeft || m.missing.length > 0
      ? sentences(
          m.fixerLeft
            ? 'Not yet: fixer is still in the film, and stains and fades it.'
            : `Not yet: this film never had ${list(m.missing.map(the))}.`,
          sayNow(m.now, true),
        )
      : 'Hang it by one clip with a weight below, in still, clean air, for two to four hours. Do not wipe it.',
  'confirm-hang': (m) =>
    `This film never had ${list(m.missing.map(the))}. ${withoutIt(m.missing)} ${sayNow(m.now, true)} Confirm to hang it all the same, or cancel.`,
  'confirm-close': (m) => `The run is not finished. ${sayNow(m.now, true)} Confirm to close it, or cancel.`,
  'run-closed': (m) =>
    sentences(
      m.complete ? 'Run closed.' : 'Run closed before its end.',
      m.missing.length > 0 && `The film never had ${list(m.missing.map(the))}. ${withoutIt(m.missing)}`,
      m.jugs.length > 0 && `Still in jugs: ${list(m.jugs.map((j) => j.name))}.`,
      m.open && m.open.hurt.length > 0 && `Somebody was hurt: ${sayAid(m.open.hurt)}`,
      m.open && m.open.spills.length > 0 && stillSpilled(m.open.spills),
    ),
  'stop-what': () => 'Stop what? Say drain now, or close the run, or cancel.',
  'nothing-to-stop': () => 'Nothing is running.',
  'in-without-run': (m) =>
    `No run is begun, so no clock runs. Say start a run. Then tell me of the film and of the ${m.bath.name}.`,
  'not-now': (m) => andNow('Not yet.', m.now),
};

/** The words for a run message: short, for the ear first. */
export const phraseRun = (message: RunMessage): string => phraseOf(runPhrases, message, 'id');

const SAFE_FROM = {
  air: 'it is aired, and nothing smells or stings',
  fire: 'the fire is out and the smoke is aired away',
  current: 'the current is off at the fuse box',
  mercury: 'the poison centre said how, and the mercury is gone',
};

/** Source: P305+P351+P338 with P337+P313, P302+P352 with P332+P313 (UN GHS rev. 9, annex 3, from memory); 15 minutes: section 4 of safety data sheets. */
const rinseOn = (hows: readonly Exposure[]): string =>
  hows.length > 0 && hows.every((how) => ['eye', 'face', 'skin'].includes(how))
    ? 'Keep rinsing, fifteen minutes in all. If it still hurts then, see a doctor, with the label or data sheet.'
    : 'Keep rinsing: when to stop I cannot say.';

/** Source: P310, P311 and P315 (UN GHS rev. 9, annex 3, from memory). */
const callNow = (hows: readonly Exposure[]): string =>
  hows.includes('animal')
    ? 'Call a vet now.'
    : hows.some((how) => ['eye', 'face', 'skin'].includes(how))
      ? 'Call your poison centre or emergency number now, and keep rinsing.'
      : 'Call your poison centre or emergency number now; if breath or senses fail, the emergency number.';
const tellThem = 'Have the label or the safety data sheet at hand.';
/** Source: P305+P351+P338, P313. */
const leaveLens =
  'If the lens does not come out easily, leave it and keep rinsing, lids open. Then see a doctor.';
