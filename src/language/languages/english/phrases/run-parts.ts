import type { Checks } from '../../../../process/guard-checks.js';
import type { Now, Outlet, RunMessage, Slip, SpokenMove } from '../../../../process/message.js';
import type { Agitation } from '../../../../process/sheet.js';
import type { VesselRef } from '../../../../world/vessel.js';
import { type PhrasesOf, phraseOf } from '../../phrases.js';
import { capital, reasons, sayCautions, the } from './run-reasons.js';
import { spokenDuration, spokenTemp, spokenVolume } from './units.js';

/** A cleared pour could have happened by now, s. */
const couldBeInS = 15;

const vessel = (v: VesselRef): string => (v.kind === 'bottle' ? `bottle ${v.number}` : `the ${v.kind}`);

export function sayMove(move: SpokenMove): string {
  const from = move.from.kind === 'tap' ? '' : `, ${vessel(move.from)}`;
  if (move.to.kind === 'tank') return `${move.bath.name}${from}`;
  return `${move.bath.name} to ${vessel(move.to)}`;
}

/** What goes with a clear: portions, filter, heat. */
export function sayChecks(checks: Checks): string {
  const parts: string[] = [];
  if (checks.filter)
    parts.push(
      checks.backing ? 'Through a fine filter: the backing has come off into it.' : 'Through the filter.',
    );
  if (checks.portions)
    parts.push(`Pour in ${checks.portions.count} portions of ${spokenVolume(checks.portions.eachMl)}.`);
  const t = checks.temperature;
  if (t) parts.push(sayTemperature(t));
  if (checks.time)
    parts.push(`It takes ${spokenDuration(checks.time.seconds)} this time: ${checks.time.why}.`);
  if (checks.openLid)
    parts.push(
      'Gas comes off with what is left in the tank: leave the cap open until it is out, then close it.',
    );
  if (checks.localCodes) parts.push('Local rules decide what may go down the drain.');
  return parts.filter(Boolean).join(' ');
}

const percent = (share: number): string => `about ${Math.max(1, Math.round(Math.abs(share) * 100))} percent`;

/** How a changed development shows. */
export const sayEffect = (share: number): string =>
  share > 0
    ? `${percent(share)} more development: denser, more contrast`
    : `${percent(share)} less development: thinner, less contrast`;

function sayTemperature(t: NonNullable<Checks['temperature']>): string {
  const aim = `Aim ${spokenTemp(t.aimC)}.`;
  switch (t.state) {
    case 'unread':
      return t.developer ? `Its temperature was never measured. ${aim}` : aim;
    case 'old':
      return t.developer
        ? `Last measured ${spokenDuration(t.agoS ?? 0)} ago: ${spokenTemp(t.tempC ?? 0)}. ${aim}`
        : aim;
    case 'in':
      return '';
    case 'near':
      return t.developer && t.tempC !== null
        ? `At ${spokenTemp(t.tempC)}, off by no more than a thermometer can be.${t.effect === null ? '' : ` ${capital(sayEffect(t.effect))}.`}`
        : '';
    default:
      return `It was ${spokenTemp(t.tempC ?? 0)}, ${sayOff((t.tempC ?? 0) - t.aimC)}: aim ${spokenTemp(t.aimC)}.`;
  }
}

/** "14 degrees too warm" */
const sayOff = (offC: number): string => `${spokenTemp(Math.abs(offC))} too ${offC > 0 ? 'warm' : 'cold'}`;

/** What a bath did not get, or got too much of, and what can still be done. */
export function saySlip(slip: Slip): string {
  const bath = capital(the(slip.bath));
  if (slip.kind === 'lost')
    return slip.doubted
      ? `If it was ${the(slip.bath)}, the picture is lost: that is not settled. See which bottle is short, and say which bath it was.`
      : `${bath} has destroyed the picture: it is lost.`;
  const had = `${bath} had ${spokenDuration(slip.doneS)} of ${spokenDuration(slip.aimS)}`;
  const effect = slip.effect === null ? '' : ` ${capital(sayEffect(slip.effect))}.`;
  if (slip.kind === 'short')
    return `Too short: ${had}.${effect}${slip.restS === null ? '' : ` Pour it in again for ${spokenDuration(slip.restS)}, before any other bath.`}`;
  if (slip.kind === 'weak' || slip.kind === 'strong')
    return `${bath} was too ${slip.kind === 'weak' ? 'cold' : 'warm'}.${effect}`;
  if (slip.harmless) return `${had}: longer does it no harm.`;
  const lead = slip.effect !== null && slip.effect < 0 ? 'Long, but cold' : 'Too long';
  return `${lead}: ${had}.${effect || (slip.effect === null && slip.bath.id.includes('developer') ? ' Denser, more contrast.' : '')}`;
}

export const sayOutlet = (outlet: Outlet): string => {
  if (outlet.to === 'sink') return 'Pour it away.';
  const filter = outlet.filter ? ', through the filter' : '';
  return outlet.to === 'bottle' ? `Back to bottle ${outlet.bottle}${filter}.` : `Keep it in a jug${filter}.`;
};

export function sayAgitation(a: Agitation | null): string {
  if (!a || a.style === 'still' || (a.initialS <= 0 && !a.everyS)) return '';
  return a.initialS > 0 ? `Agitate for ${spokenDuration(a.initialS)}.` : '';
}

/** Time left, said so that it is plain when it is over. */
export const sayCount = (leftS: number): string =>
  leftS < 0.5 ? 'Time is up.' : `${capital(spokenDuration(leftS))} left.`;

const unfit = (now: Extract<Now, { do: 'pour' }>): string =>
  now.unfit
    ? `${reasons[now.unfit.reason](now.unfit.about)} No other bottle holds it, by my record: mix it anew. `
    : '';

/** `brief` leaves out the lists that were said when the part began. */
export function sayNow(now: Now, brief = false): string {
  const steps: PhrasesOf<Now, 'do'> = {
    begin: () => 'Say start a run when you are ready.',
    prepare: () => 'Get bottles, tank and water ready, then say next step.',
    warm: (now) => {
      if (brief) return 'Bring the bottles to temperature, then say next step.';
      return `Bring to temperature: ${now.targets.map((t) => `${t.bath.name} ${spokenTemp(t.tempC)}`).join(', ')}. ${sayCautions(now.cautions)} Then say next step.`;
    },
    load: () => 'Load the film in the dark and close the tank. Then say film is loaded.',
    pour: (now) => {
      if (now.announced)
        return (now.agoS ?? 0) < couldBeInS
          ? `Pour ${the(now.bath)}, and say ${now.bath.name} is in.`
          : `${capital(the(now.bath))} was to go in ${spokenDuration(now.agoS ?? 0)} ago, and nobody has said that it is in. Say ${now.bath.name} is in, or not yet.`;
      if (now.restS !== null)
        return `${unfit(now)}Next: the rest of ${the(now.bath)}, ${spokenDuration(now.restS)}${now.bottle === null ? '' : `, bottle ${now.bottle}`}.`;
      return `${unfit(now)}${now.because === undefined ? '' : 'The black backing is still on. '}${now.clingsS === undefined ? '' : `The developer in the film has gone on working for ${spokenDuration(now.clingsS)}: on with it at once. `}Next: ${now.step === now.bath.name ? the(now.bath) : `${now.step}, ${now.bath.name}`}${now.bottle === null ? '' : `, bottle ${now.bottle}`}${now.tempC === null ? '' : `, ${spokenTemp(now.tempC)}`}.`;
    },
    wash: (now) => `${reasons[now.reason](now.about)} Next: wash with water, then ${the(now.next)}.`,
    lost: (now) =>
      `The picture on this film ${now.doubted ? 'may be' : 'is'} lost. Close the run, or go on${now.doubted ? '' : ' for practice'}.`,
    wait: (now) =>
      now.secondsLeft === null
        ? `${capital(the(now.bath))} is in. Say drain now when it is done.`
        : `${capital(the(now.bath))} is in. ${sayCount(now.secondsLeft)}`,
    drain: (now) => `Drain ${the(now.bath)}. ${sayOutlet(now.outlet)} Say tank is empty.`,
    rinse: (now) =>
      `Rinse: fill with water, shake and empty, ${now.fills} times${now.tempC === null ? '' : `, at ${spokenTemp(now.tempC)}`}. Then say next step.`,
    hang: () => 'Hang the film to dry, and say film is hanging.',
    close: () => 'Clean up, then say close the run.',
  };
  return phraseOf(steps, now, 'do');
}

type Ask = Extract<RunMessage, { id: 'ask' }>;

export function sayAsk(m: Ask): string {
  const bottle = m.bottle === null ? '' : `bottle ${m.bottle}`;
  const bath = m.bath ? the(m.bath) : 'the bath';
  const stake = m.stake && m.about ? ` ${reasons[m.stake](m.about)}` : '';
  const asks: Record<Ask['ask'], () => string> = {
    'missing-liquid': () => (bottle ? `Which bath, ${bottle}?` : 'Which bath?'),
    'missing-bottle': () =>
      m.candidates.length > 0
        ? `Which bottle? ${capital(bath)} is in bottles ${m.candidates.join(' and ')}.`
        : `Which bottle for ${bath}?`,
    propose: () => `${capital(bath)}${bottle ? `, ${bottle}` : ''}? Confirm, or say which.`,
    'no-such-liquid': () => `This sheet has no ${m.bath?.name ?? 'such bath'}. Which bath is it?`,
    'no-such-vessel': () => 'From where to where? Say the bath and the bottle.',
    'bottle-unknown': () =>
      `I do not know what ${bottle || 'that bottle'} holds. Say: ${bottle || 'bottle 1'} holds, and the bath.`,
    'bottle-empty': () =>
      `${capital(bottle || 'that bottle')} is empty by my record. If it is not, say: ${bottle || 'bottle 1'} holds, and the bath.`,
    mismatch: () =>
      `Wait. ${capital(bottle || 'that')} holds ${m.holds ? the(m.holds) : 'something else'}, not ${bath}.${stake} Which is it?`,
    'jug-unknown': () =>
      m.holds
        ? `By my record the jug holds ${the(m.holds)}.${stake} Is it ${bath}? Confirm or cancel.`
        : `I do not know what is in the jug. Is it ${bath}? Confirm or cancel.`,
    'film-unknown': () => 'Is there film in the tank? Say film is loaded, or say there is no film.',
    'tank-not-empty': () =>
      `${m.holds ? capital(the(m.holds)) : 'A bath'} is still in the tank by my record.${stake} Is the tank empty? Confirm or cancel.`,
    'nothing-to-pour': () => 'There is nothing to pour, by my record. What are you pouring?',
    'tank-mismatch': () =>
      m.holds
        ? `The tank holds ${the(m.holds)}, not ${bath}. Which is it?`
        : `I have no ${m.bath?.name ?? 'bath'} in the tank. Which bath is it?`,
    'bad-volume': () => 'I did not get the amount. How many millilitres?',
    'unsure-heard': () => `Did I hear ${bath}${bottle ? `, ${bottle}` : ''}? Confirm, or say it again.`,
    'heard-two': () =>
      m.heard.length > 1 && m.heard.some((h) => h.id !== m.heard[0]?.id)
        ? `Did you say ${[...new Set(m.heard.map(the))].join(', or ')}? Confirm ${bath}${bottle ? `, ${bottle}` : ''}, or say it again.`
        : `Did you say ${bath}${bottle ? `, ${bottle}` : ''}? Confirm, or say it again.`,
  };
  return asks[m.ask]();
}

/** A published time for another temperature, or why there is none. */
export function sayTimeAt(m: Extract<RunMessage, { id: 'time-at' }>): string {
  const { answer } = m;
  const [at, aim] = [spokenTemp(m.tempC), spokenTemp(m.aimC)];
  const bring = `Bring it to ${aim}.`;
  if (answer.offer === 'none-needed')
    return `${at} needs no other time than the sheet's: ${spokenDuration(m.plannedS)}.`;
  if (answer.offer === 'time')
    return `At ${at} develop ${spokenDuration(Math.round(answer.seconds / 5) * 5)}, in place of ${spokenDuration(m.plannedS)} at ${aim}. That follows the makers' charts for black and white; your film's own chart goes before it.`;
  switch (answer.why) {
    case 'layers':
      return `No time is published for ${at}, and I offer none: the layers of a colour film answer differently, and the colours part. In its usual time it would get ${sayEffect(answer.shift)}. ${bring}`;
    case 'outside-table':
      return `The charts run from ${spokenTemp(answer.low)} to ${spokenTemp(answer.high)}; for ${at} I offer no time. ${bring}`;
    case 'no-law':
      return `No law of time and temperature is known for this sheet, so I offer no time. ${bring}`;
  }
}
