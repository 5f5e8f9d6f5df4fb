import type { Intent, IntentOf, SpokenType } from '../../../process/intent.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import { spokenDuration, spokenMass, spokenTemp, spokenVolume } from './phrases/units.js';

/**
 * An intent as a short phrase to read back or to ask about: "pour the bleach in from bottle 3", "the fixer is at
 * 36.4 degrees". Fits after "Did you mean: ".
 */
export function describeIntent(intent: Intent): string {
  if (intent.type === 'several') return intent.intents.map(describeIntent).join(', and ');
  if (intent.type === 'unsure') return intent.candidates.map(describeIntent).join(', or ');
  return (PHRASES[intent.type] as (i: Intent) => string)(intent);
}

const NAMES: Record<string, string> = { stop: 'stop bath', 'final-rinse': 'final rinse' };

const the = (liquid: LiquidId | undefined): string =>
  liquid === undefined ? 'it' : `the ${NAMES[liquid] ?? liquid.replace(/-\d+$/, '').replaceAll('-', ' ')}`;

const bathOrBottle = ({ liquid, bottle }: { liquid?: LiquidId; bottle?: number }): string =>
  bottle === undefined ? the(liquid) : `bottle ${bottle}`;

const vessel = (v: VesselRef): string => (v.kind === 'bottle' ? `bottle ${v.number}` : `the ${v.kind}`);

const thing = (of: LiquidId | VesselRef): string => (typeof of === 'string' ? the(of) : vessel(of));

/** Phrases with what was said and no gap where something was not. */
const join = (...parts: (string | false | undefined)[]): string => parts.filter(Boolean).join(' ');
const from = (v: VesselRef | undefined): string | undefined => v && `from ${vessel(v)}`;
const into = (v: VesselRef | undefined): string | undefined => v && `into ${vessel(v)}`;
const amount = (ml: number | undefined): string | undefined =>
  ml === undefined ? undefined : spokenVolume(ml);
const ago = (s: number | undefined): string | undefined =>
  s === undefined || s < 1 ? undefined : `${spokenDuration(s)} ago`;
const amountOf = (ml: number | undefined, liquid: LiquidId | undefined): string =>
  ml === undefined
    ? the(liquid)
    : join(spokenVolume(ml), liquid !== undefined && `of ${NAMES[liquid] ?? liquid}`);
const plain = (id: string): string => id.replace(/^ecn2-/, '').replaceAll('-', ' ');

const one = (unit: string, n: number): string => (n === 1 ? unit.replace(/s$/, '') : unit);
const grams = (g: number): string => `${g} ${one('grams', g)}`;

/** places of a spill that are inside something */
const INSIDE = new Set(['sink', 'tub', 'eye', 'mouth']);

const UNITS = {
  g: 'grams',
  kg: 'kilograms',
  mg: 'milligrams',
  oz: 'ounces',
  grain: 'grains',
  ml: 'millilitres',
  l: 'litres',
};

const PHRASES: { [T in SpokenType]: (i: IntentOf<T>) => string } = {
  'begin-run': () => 'begin a run',
  'film-loaded': () => 'the film is loaded',
  'no-film': () => 'there is no film in the tank',
  'next-step': () => 'go on to the next step',
  'bath-in': (i) =>
    i.volumeMl === undefined
      ? `${the(i.liquid)} is in the tank`
      : `${amountOf(i.volumeMl, i.liquid)} are in the tank`,
  'start-clock': () => 'start the clock',
  'hold-clock': () => 'hold the clock',
  'resume-clock': () => 'let the clock run on',
  'drain-now': () => 'drain now',
  'tank-empty': () => 'the tank is empty',
  'ask-time-left': () => 'how long is left',
  'ask-time-until': (i) => `how long until ${the(i.liquid)}`,
  'ask-next': () => 'what comes next',
  'ask-where': () => 'where we are',
  'ask-film': (i) => (i.about === 'outlook' ? 'how the film will come out' : 'what the film has had'),
  'ask-cautions': (i) => join('the cautions', i.substance !== undefined && `for ${plain(i.substance)}`),
  'pour-in': (i) => join('pour', the(i.liquid), 'in', from(i.from)),
  'pour-back': (i) => join('pour', amountOf(i.volumeMl, i.liquid), 'back', into(i.to)),
  'pour-between': (i) => join('pour', amountOf(i.volumeMl, i.liquid), from(i.from), into(i.to)),
  'pour-away': (i) =>
    join(
      'pour',
      i.liquid === undefined && i.from ? vessel(i.from) : join(the(i.liquid), from(i.from)),
      'away',
    ),
  poured: (i) =>
    join(
      amountOf(i.volumeMl, i.liquid),
      'has gone',
      from(i.from),
      into(i.to),
      i.toOf && `into the bottle of ${the(i.toOf)}`,
      ago(i.agoS),
    ),
  'bottle-empty': (i) => `bottle ${i.bottle} is empty`,
  correct: (i) =>
    join(
      'that it was',
      i.liquid !== undefined && the(i.liquid),
      i.vessel && vessel(i.vessel),
      i.tempC !== undefined && spokenTemp(i.tempC),
      amount(i.volumeMl),
      i.seconds !== undefined && spokenDuration(i.seconds),
      i.massG !== undefined && grams(i.massG),
      i.substance !== undefined && `of ${plain(i.substance)}`,
      i.unit && `in ${UNITS[i.unit]}`,
      i.value !== undefined && String(i.value),
      ago(i.agoS),
    ),
  withdraw: (i) => (i.wrong ? 'it is the wrong bottle' : 'call off the pour'),
  away: (i) => join('away', i.seconds !== undefined && `for ${spokenDuration(i.seconds)}`),
  room: (i) => ROOM[i.is],
  'left-out': (i) => join(the(i.liquid), 'was left out'),
  'in-doubt': (i) =>
    i.suspect === undefined
      ? join('whether', the(i.liquid), 'is in')
      : `that it may have been ${thing(i.suspect)}${i.other === undefined ? '' : ` or ${thing(i.other)}`}`,
  shorten: (i) => `take off ${spokenDuration(i.seconds)}`,
  'drained-late': (i) => `the bath was drained ${spokenDuration(i.seconds)} late`,
  contaminated: (i) =>
    join(
      i.all === true && 'all of',
      amountOf(i.volumeMl, i.liquid),
      i.with !== undefined && `and ${the(i.with)}`,
      'got into',
      i.intoVessel !== undefined
        ? `the ${i.intoVessel}`
        : i.intoBottle === undefined
          ? the(i.intoLiquid)
          : `bottle ${i.intoBottle}`,
    ),
  swapped: (i) =>
    join(
      i.bottle === undefined ? the(i.liquid) : `bottle ${i.bottle}`,
      'and',
      i.other === undefined ? the(i.otherLiquid) : `bottle ${i.other}`,
      'have changed places',
    ),
  'all-at': (i) =>
    `all ${i.others ? 'other ' : ''}bottles${i.except === undefined ? '' : ` but ${the(i.except)}`} are at ${spokenTemp(i.tempC)}`,
  more: () => 'the rest of the answer',
  verbosity: (i) => `${i.level} answers`,
  'ask-advice': (i) => plain(i.topic),
  'ask-target': (i) => `how warm ${the(i.liquid)} has to be`,
  'ask-duration': (i) => `how long ${the(i.liquid)} takes`,
  'ask-time-at': (i) => join('how long to develop', i.tempC !== undefined && `at ${spokenTemp(i.tempC)}`),
  'ask-end': () => 'when we are done',
  'ask-clock': () => 'what time it is',
  'ask-convert': (i) => `what ${i.value} ${i.unit.replace('-', ' ')} is here`,
  'ask-actual': (i) => `how long ${the(i.liquid)} was in`,
  'ask-agitation': () => 'how to agitate',
  'ask-bottle-of': (i) => `which bottle ${the(i.liquid)} is in`,
  'ask-volume': (i) => `how much ${the(i.liquid)} is left`,
  'ask-amount': (i) => `how much ${i.substance === undefined ? 'goes in' : plain(i.substance)}`,
  'ask-reason': () => 'why not',
  'ask-disposal': (i) => `where used ${i.liquid ?? 'baths'} may go`,
  'ask-drying': () => 'how to dry the film',
  'ask-shopping': () => 'what to buy',
  'ask-notes': () => 'your notes',
  remind: (i) =>
    join(
      i.seconds === undefined ? 'a reminder' : `a reminder in ${spokenDuration(i.seconds)}`,
      i.text && `to ${i.text}`,
    ),
  'ask-timers': () => 'which reminders are set',
  'cancel-timer': (i) =>
    i.seconds === undefined ? 'cancel the reminders' : `cancel the reminder of ${spokenDuration(i.seconds)}`,
  hurt: () => 'somebody is hurt',
  greeting: () => 'hello',
  thanks: () => 'thanks',
  busy: () => 'it takes a moment',
  'ask-identity': () => 'who I am',
  redo: () => 'do that again after all',
  skip: (i) => join('leave out', i.substance ? i.substance.replaceAll('-', ' ') : the(i.liquid)),
  'had-before': (i) => `the film has had ${the(i.liquid)}`,
  'tank-without-film': (i) => join(the(i.liquid), 'went into a tank without the film'),
  films: (i) =>
    join(
      i.count !== undefined && (i.count === 1 ? 'one film' : `${i.count} films`),
      i.format,
      i.stock,
      i.lengthM !== undefined && `${i.lengthM} metres`,
      i.pushStops !== undefined && `${i.pushStops < 0 ? 'pulled' : 'pushed'} ${Math.abs(i.pushStops)}`,
      i.name !== undefined && `called ${i.name}`,
    ),
  'ask-why': (i) =>
    i.about === 'change'
      ? 'what to change next time'
      : `why the picture ${i.film === undefined ? '' : `of film ${i.film} `}is ${i.cast ?? 'off'}`,
  'bottle-holds': (i) =>
    join(
      i.bottle === undefined ? 'its bottle holds' : `bottle ${i.bottle} holds`,
      (i.liquid !== undefined || i.volumeMl !== undefined) && amountOf(i.volumeMl, i.liquid),
      i.capacityMl !== undefined && `and takes ${spokenVolume(i.capacityMl)}`,
    ),
  'use-tank': (i) => (i.size ? `the ${i.size} tank is used` : `tank ${i.tank} is used`),
  'tank-takes': (i) => `the tank takes ${spokenVolume(i.volumeMl)}`,
  'thermometer-reads': (i) =>
    `the ${i.anew ? 'new ' : ''}thermometer reads ${i.byC === 0 ? 'right' : `${spokenTemp(i.byC)} too ${i.way}`}`,
  temperature: (i) => `${i.of === undefined ? 'it' : thing(i.of)} is at ${spokenTemp(i.tempC)}`,
  spill: (i) =>
    join(
      'a spill',
      i.share !== undefined && i.share < 1 && 'of a part',
      i.bottle !== undefined && `of bottle ${i.bottle}`,
      (i.volumeMl !== undefined || i.liquid !== undefined) &&
        `of ${amountOf(i.volumeMl, i.liquid).replace(/^the /, '')}`,
      i.place !== undefined && `${INSIDE.has(i.place) ? 'in' : 'on'} the ${i.place}`,
    ),
  'spill-cleaned': (i) => join('the spill is cleaned up', i.by !== undefined && `with ${plain(i.by)}`),
  'add-time': (i) => (i.inAll ? `${spokenDuration(i.seconds)} in all` : `add ${spokenDuration(i.seconds)}`),
  note: (i) => (i.text === undefined ? 'take a note' : `take a note: ${i.text}`),
  part: (i) => (i.vessel ? vessel(i.vessel) : the(i.liquid)),
  undo: () => 'undo that',
  confirm: () => 'yes',
  cancel: () => 'no',
  override: () => 'override the guard and pour anyway',
  stop: () => 'stop',
  'film-hung': () => 'the film is hanging',
  'close-run': () => 'close the run',
  quiet: () => 'be quiet',
  'say-again': () => 'say that again',
  louder: () => 'speak louder',
  softer: () => 'speak more softly',
  slower: () => 'speak more slowly',
  faster: () => 'speak faster',
  help: (i) => join('help', i.topic !== undefined && `with ${i.topic}`),
  'mix-start': (i) => join('mix', amount(i.volumeMl) && `${amount(i.volumeMl)} of`, plain(i.recipe)),
  'mix-plan': (i) => join('what', amount(i.volumeMl) && `${amount(i.volumeMl)} of`, plain(i.recipe), 'needs'),
  'mix-next': () => 'go on to the next component',
  'mix-where': () => 'how far the mix is',
  reading: (i) =>
    i.times !== undefined
      ? join(i.substance === undefined ? 'the last part' : plain(i.substance), `went in ${i.times} times`)
      : join(
          i.added ? `${i.value || `${i.more} more`}` : `the scale reads ${i.value}`,
          i.unit && one(UNITS[i.unit], i.value),
          i.substance !== undefined && `of ${plain(i.substance)}`,
          i.value > 0 && i.more !== undefined && `and ${i.more} more`,
          i.added && 'went in',
        ),
  dissolved: () => 'it has dissolved',
  'take-out': () => 'take some of it out again',
  'scale-zeroed': () => 'the scale is zeroed',
  'ph-reading': (i) => `the pH is ${i.ph}`,
  'made-up': (i) => join('it is made up', i.volumeMl !== undefined && `to ${spokenVolume(i.volumeMl)}`),
  'ask-label': () => 'the label',
  'mix-stop': () => 'stop mixing',
  'shelf-have': (i) =>
    i.substance === undefined ? 'what is on the shelf' : `how much ${plain(i.substance)} there is`,
  'shelf-add': (i) => `put ${grams(i.massG)} of ${plain(i.substance)} on the shelf`,
  'jar-is': (i) =>
    join(
      i.substance === undefined ? 'it' : plain(i.substance),
      'is',
      i.hydrate,
      i.purityPercent !== undefined && `${i.purityPercent} percent pure`,
    ),
  'ask-checks': (i) => `how to check ${the(i.liquid)}`,
  'ask-control': () => 'how the control strips stand',
  'ask-keeping': (i) => `how long ${the(i.liquid)} keeps`,
  'what-if': (i) =>
    join(
      i.untilSpoiled === true && 'how much until it is spoiled,',
      `what if ${i.massG === undefined ? amountOf(i.volumeMl, i.liquid) : `${spokenMass(i.massG)} of ${plain(i.liquid)}`} went into`,
      i.intoBottle === undefined ? amountOf(i.intoVolumeMl, i.intoLiquid) : `bottle ${i.intoBottle}`,
    ),
  'ask-ready': (i) => `whether ${i.liquid === undefined ? 'everything' : the(i.liquid)} is ready`,
  'ask-temperature': (i) => `how warm ${i.of === undefined ? 'it' : thing(i.of)} is`,
  'tub-set': (i) => `the tub is set to ${spokenTemp(i.tempC)}`,
  heater: (i) => `the heater is ${i.on ? 'on' : 'off'}`,
  'vessel-moved': (i) => `${thing(i.of)} is ${i.into ? 'in' : 'out of'} the tub`,
  'ask-blend': (i) => join('how to blend', amount(i.volumeMl) ?? 'water', `to ${spokenTemp(i.tempC)}`),
  'show-curves': () => 'show the curves',
  'ask-bottle': (i) => `what is in bottle ${i.bottle}`,
  'ask-bottles': () => 'what is in the bottles',
  'ask-age': (i) => `how old ${the(i.liquid)} is`,
  'ask-mixed': (i) => `when ${the(i.liquid)} was mixed`,
  'ask-fullest': () => 'which bottle is the fullest',
  'ask-life': (i) =>
    i.films === undefined
      ? `how many films ${bathOrBottle(i)} can still do`
      : `whether ${i.films} more ${i.films === 1 ? 'film' : 'films'} can go through ${bathOrBottle(i)}`,
  'ask-next-roll': (i) =>
    `whether the baths do ${(i.films ?? 1) === 1 ? 'another film' : `${i.films} more films`}`,
  'bath-history': (i) =>
    join(
      bathOrBottle(i),
      i.films !== undefined && `has done ${i.films} films`,
      i.ageDays !== undefined && `is ${i.ageDays} days old`,
      (i.month !== undefined || i.weekday !== undefined) && 'was mixed on that day',
    ),
  'bath-ph': (i) => `${bathOrBottle(i)} has a pH of ${i.ph}${i.by ? `, by a ${i.by}` : ''}`,
  'ask-replenish': (i) => `how to replenish ${the(i.liquid)}`,
  'bottle-discarded': (i) => `mark bottle ${i.bottle} as discarded`,
  'bottle-named': (i) => `call bottle ${i.bottle} ${i.name}`,
  'ask-runs': () => 'list the runs',
};

const ROOM: Readonly<Record<IntentOf<'room'>['is'], string>> = {
  out: 'everybody gets out',
  left: 'you are out of the room',
  asks: 'may you go back in',
  back: 'you are back',
  safe: 'you are back, and the air is clear',
};
