import type { AskId } from '../../process/guard-resolve.js';
import type { Now, RunMessage } from '../../process/message.js';
import type { DeedId } from '../../process/run-state.js';
import { sayAgitation, sayAsk, sayChecks, sayCount, sayMove, sayNow, sayOutlet } from './run-parts.js';
import { capital, reasons, sayCautions, the } from './run-reasons.js';
import { spokenDuration, spokenTemp, spokenVolume } from './units.js';

type Phrases = { [Id in RunMessage['id']]: (m: Extract<RunMessage, { id: Id }>) => string };

const list = (names: string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
const sentences = (...parts: (string | null | false)[]): string => parts.filter(Boolean).join(' ');
const andNow = (lead: string, now: Now): string => `${lead} ${sayNow(now, true)}`;

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

const deeds: Record<DeedId, string> = {
  begin: 'the start of the run',
  next: 'the last step forward',
  'film-loaded': 'film loaded',
  'pour-cleared': 'the last cleared pour',
  poured: 'the last pour',
  'bath-in': 'the bath going in',
  hold: 'holding the clock',
  resume: 'resuming the clock',
  'add-time': 'the added time',
  drain: 'draining',
  'tank-empty': 'tank empty',
  rinsed: 'the rinse',
  skip: 'the skipped step',
  bottle: 'what the bottle holds',
  tank: 'what the tank takes',
  temperature: 'the temperature',
  spill: 'the spill',
  'spill-cleaned': 'spill cleaned',
  note: 'the note',
  hung: 'film hung',
  close: 'closing the run',
};

const phrases: Phrases = {
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
      m.now.do === 'begin' ? null : `Step ${m.step} of ${m.of}.`,
      sayNow(m.now, true),
      m.jugs.length > 0 && `In jugs: ${list(m.jugs.map((j) => j.name))}.`,
      m.spill && 'A spill is still open.',
    ),
  next: (m) => sentences(`Next: ${m.step}.`, m.after && `After that, ${the(m.after)}.`),
  'film-loaded': (m) => (m.now ? andNow('Film loaded.', m.now) : 'Film loaded.'),
  'film-already-loaded': () => 'The film is already loaded.',

  clear: (m) =>
    sentences(
      `${m.harmless ? 'No harm' : 'Clear'}: ${sayMove(m.move)}.`,
      m.harmless && reasons[m.reason](m.about),
      sayChecks(m.checks),
    ),
  recoverable: (m) =>
    sentences(
      `Wait. ${reasons[m.reason](m.about)}`,
      ...m.also.map((a) => reasons[a.reason](a.about)),
      m.checks.localCodes && 'Local rules decide what may go down the drain.',
      'Say confirm to do it anyway, or cancel.',
    ),
  ruinous: (m) => `No. ${reasons[m.reason](m.about)} Do not pour. Cancel, or say: ${overrideWords}.`,
  ask: sayAsk,
  overridden: (m) => sentences(`Noted. Go ahead: ${sayMove(m.move)}.`, sayChecks(m.checks)),
  'needs-override': () => `That pour is refused, and yes is not enough. Cancel, or say: ${overrideWords}.`,
  'needs-answer': (m) => needed[m.ask] ?? 'I need the answer first: which bath, and which bottle?',
  'nothing-waiting': () => 'Nothing is waiting for that.',
  cancelled: () => 'Cancelled.',
  'say-again-clearly': (m) =>
    `I am not sure I heard you. Say ${m.word === 'override' ? overrideWords : m.word} again, or cancel.`,

  'bath-in': (m) =>
    sentences(
      m.warn && reasons[m.warn.reason](m.warn.about),
      `${capital(m.bath.name)} is in${m.aimS === null ? '.' : `: ${spokenDuration(m.aimS)}.`}`,
      m.aimS === null && 'Say drain now or tank is empty when it is done.',
      sayAgitation(m.agitation),
      m.assumed && 'If it is another bath, say which bath is in.',
    ),
  'wrong-bath-in': (m) =>
    sentences(
      `Get it out now! ${reasons[m.reason](m.about)}`,
      sayOutlet(m.outlet),
      'Wash the film, and say tank is empty.',
      m.due && `${capital(the(m.due))} was due.`,
    ),
  'bath-already-in': (m) => `${capital(the(m.bath))} is already in.`,
  'confirm-bath-in': (m) =>
    m.heard.length > 0
      ? `Is it ${the(m.bath)} that is in, or ${list(m.heard.map(the))}? Confirm ${the(m.bath)}, or say it again.`
      : `Is ${the(m.bath)} in? Confirm or cancel.`,
  'which-bath-in': () => 'Which bath is in?',
  'part-alone': (m) =>
    m.bath
      ? `${capital(m.bath.name)}: is it going in, or is it in? Say pouring ${the(m.bath)} in, or ${m.bath.name} is in.`
      : m.bottle === null
        ? 'Say what you are pouring, and from where.'
        : `Bottle ${m.bottle}: what about it? Say from bottle ${m.bottle}, or what is in bottle ${m.bottle}.`,
  'film-first': (m) =>
    `${capital(the(m.bath))} is in, with the film in the tank? Then say film is loaded, or cancel.`,
  'tank-is-empty': (m) =>
    sentences('Tank empty.', m.jugged && `I take it ${the(m.jugged)} is in a jug.`, sayNow(m.now)),
  'tank-already-empty': (m) => andNow('The tank is empty already.', m.now),
  'confirm-early': (m) =>
    `${capital(the(m.bath))} has had ${spokenDuration(m.doneS)} of ${spokenDuration(m.aimS)}. Confirm to drain early, or cancel.`,
  'confirm-skip': (m) => `To skip ${m.step}, say confirm.`,
  skipped: (m) => andNow(`Skipped ${m.step}.`, m.now),

  held: (m) =>
    `Clock held at ${spokenDuration(m.doneS)}${m.aimS === null ? '' : ` of ${spokenDuration(m.aimS)}`}. ${capital(the(m.bath))} keeps working on the film.`,
  resumed: (m) => `Clock runs.${m.leftS === null ? '' : ` ${sayCount(m.leftS)}`}`,
  'clock-runs': (m) => `The clock runs.${m.leftS === null ? '' : ` ${sayCount(m.leftS)}`}`,
  'no-clock': (m) => andNow('No clock runs.', m.now),
  'time-added': (m) => `Added ${spokenDuration(m.seconds)}. ${sayCount(m.leftS)}`,
  'bad-seconds': () => 'I can add from 1 second to 30 minutes. How much?',
  'time-left': (m) =>
    m.leftS === null
      ? `${capital(the(m.bath))} has no set time.`
      : `${sayCount(m.leftS)}${m.held ? ' The clock is held.' : ''}`,
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
  'pour-next': (m) => `${capital(m.bath.name)} in now${m.bottle === null ? '' : `, bottle ${m.bottle}`}.`,
  overdue: (m) => `${capital(the(m.bath))} is still in. Drain it.`,

  temperature: (m) =>
    m.aimC === null
      ? `${capital(m.of)}: ${spokenTemp(m.tempC)}.`
      : m.offC === null
        ? `${capital(m.of)}: ${spokenTemp(m.tempC)}. Within limits.`
        : `${capital(m.of)}: ${spokenTemp(m.tempC)}, ${spokenTemp(Math.abs(m.offC))} ${m.offC < 0 ? 'below' : 'above'} the aim of ${spokenTemp(m.aimC)}.`,
  'temperature-doubt': (m) =>
    m.tempC >= m.minC && m.tempC <= m.maxC
      ? `Did you say ${m.of} is ${spokenTemp(m.tempC)}? Confirm, or say it again.`
      : `${spokenTemp(m.tempC)} for ${m.of} is outside ${m.minC} to ${m.maxC}. Confirm, or say it again.`,
  'bottle-noted': (m) =>
    sentences(
      `Bottle ${m.bottle} holds ${spokenVolume(m.volumeMl)} of ${m.bath.name}, out of ${spokenVolume(m.capacityMl)}.`,
      m.was && `I had ${the(m.was)} there.`,
    ),
  'bottle-holds-what': (m) =>
    `I do not know what bottle ${m.bottle} holds. Say: bottle ${m.bottle} holds, and the bath.`,
  'bottle-doubt': (m) =>
    `By my record bottle ${m.bottle} holds ${m.holds ? the(m.holds) : 'something else'}. Confirm that it holds ${the(m.bath)}, or cancel.`,
  'bad-bottle': (m) =>
    ({
      volume: `${spokenVolume(m.volumeMl)} does not fit ${spokenVolume(m.capacityMl)}. How much is it?`,
      capacity: `A bottle cannot take ${spokenVolume(m.capacityMl)}. How much does it take?`,
      number: 'Bottles are numbered from 1 to 99. Which one is it?',
    })[m.why],
  'no-such-liquid': (m) => `I do not know ${m.said}. This sheet has ${list(m.known)}.`,
  'tank-noted': (m) => `The tank takes ${spokenVolume(m.volumeMl)}.`,
  'bad-tank': (m) =>
    `${spokenVolume(m.volumeMl)} is not a tank I can believe. Expected 50 millilitres to 10 litres. How much is it?`,
  'spill-open': (m) =>
    sentences(
      `Spill noted: ${m.volumeMl === null ? '' : `${spokenVolume(m.volumeMl)} of `}${m.bath?.name ?? 'a bath'}${m.place ? ` ${onPlace(m.place)}` : ''}.`,
      sayCautions(m.cautions),
      'Then say the spill is cleaned up.',
    ),
  'spill-ask': (m) =>
    sentences(
      sayCautions(m.cautions),
      {
        liquid: 'What was spilled?',
        volume: 'How much was spilled?',
        both: 'What was spilled, and how much?',
        later: 'Tell me later what it was and how much.',
      }[m.missing],
    ),
  'spill-cleaned': () => 'Spill closed.',
  'no-spill': () => 'No spill is open.',
  'note-taken': (m) => `Noted: ${m.text.replace(/[.\s]+$/, '') || 'a note'}.`,
  'note-empty': () => 'Say note, and then the words.',
  cautions: (m) => sentences(m.about && `${capital(m.about)}:`, sayCautions(m.cautions)),
  undone: (m) => andNow(`Undone: ${deeds[m.what]}.`, m.now),
  'nothing-to-undo': () => 'There is nothing to undo.',

  'film-hung': (m) =>
    sentences(
      'Film is hanging.',
      m.backingLeft && 'The backing may still be on: wipe the back while it is wet.',
      'Close the bottles, rinse the tank and wash your hands. Then say close the run.',
    ),
  'confirm-close': () => 'The run is not finished. Confirm to close it, or cancel.',
  'run-closed': (m) =>
    sentences(
      m.complete ? 'Run closed.' : 'Run closed before its end.',
      m.jugs.length > 0 && `Still in jugs: ${list(m.jugs.map((j) => j.name))}.`,
    ),
  'stop-what': () => 'Stop what? Say hold the clock, drain now, close the run, or cancel.',
  'nothing-to-stop': () => 'Nothing is running.',
  'not-now': (m) => andNow('Not yet.', m.now),
};

/** The words for a run message: short, for the ear first. */
export function phraseRun(message: RunMessage): string {
  return (phrases[message.id] as (m: RunMessage) => string)(message);
}
