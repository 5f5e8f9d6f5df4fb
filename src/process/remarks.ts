import type { FilmState } from '../world/film.js';
import type { Role } from '../world/liquids.js';
import type { BottleDoubt, RunRecord } from '../world/records.js';
import { filmNow } from '../world/reduce.js';
import { newestRun } from '../world/run-record.js';
import { type LiquidId, vesselKey } from '../world/vessel.js';
import { bottlesFor, readingOf } from '../world/vessels.js';
import { stepFor } from './due.js';
import { filmFinding, fitnessOf } from './guard-checks.js';
import { severity } from './guard-table.js';
import type { IntentOf } from './intent.js';
import type { FilmDoubt, LightStage } from './message.js';
import { nowOf, objectionTo } from './now.js';
import { outcomeOf, sourceOf, worthSaying } from './run-baths.js';
import { thermometerReads } from './run-records.js';
import { developingStep, roleOf } from './sheet.js';
import type { Turn } from './turn.js';

type Remark = IntentOf<'ask-advice'>;

/** What a remark that is answered with advice says of the sink as well, by its topic: it stands where it matters. */
const told: Readonly<Record<string, (turn: Turn, said: Remark) => void>> = {
  'developer-brown': against('oxidised', 'developer'),
  'fixer-milky': against('gone-off', 'fixer'),
  'bleach-blue': against('gone-off', 'bleach'),
  'air-got-in': aired,
  'mixed-wrong': mixedWrong,
  'labels-lost': against('label-lost'),
  thermometer: misread,
  // what was put right ends with it
  'thermometer-broken': (turn) => {
    if (turn.world.thermometerErrorC)
      thermometerReads(turn, { type: 'thermometer-reads', byC: 0, way: 'high', anew: true });
  },
  'thermometer-elsewhere': misread,
  'film-jammed': (turn) => filmOut(turn),
  'light-got-in': lightIn,
  'still-good': stillGood,
  'backing-left': backingLeft,
  milky,
  'powder-spilled': (turn) => turn.fact({ type: 'note', ...turn.runId, text: 'a powder was spilled' }),
  'no-agitation': (turn) => turn.fact({ type: 'note', ...turn.runId, text: notTurned }),
  'over-agitation': agitatedMore,
};

export const lightReached = 'light reached the film';
export const notTurned = 'an agitation was left out';
const turnedMore = 'agitated more than called';

/** Whether light reached the film of this run. */
export const wasLit = (run: RunRecord | undefined): boolean =>
  run?.deviations.some((d) => d.what === lightReached) ?? false;

/** The answer itself is given already. */
export function remarked(turn: Turn, said: Remark) {
  told[said.topic]?.(turn, said);
  turn.did();
}

/** Whether a remark on this topic says anything of the sink, or of the room around it. */
export const tellsSomething = (topic: string): boolean => Object.hasOwn(told, topic) || nobodyStays(topic);

/** A smell or smoke that nobody stays beside: nothing is mixed on. */
export const leavesTheRoom = (topic: string): boolean =>
  ['smoke', 'smell-almonds', 'smell-eggs', 'smell-chlorine'].includes(topic);

/** What keeps everybody off the sink, by the advice for it. */
export const nobodyStays = (topic: string): boolean =>
  leavesTheRoom(topic) || ['fire', 'water-on-fire', 'electric', 'mercury'].includes(topic);

/** Whether the answer itself hangs on the sink. */
export const answersItself = (topic: string): boolean =>
  [
    'light-got-in',
    'still-good',
    'backing-left',
    'milky',
    'over-agitation',
    'mixed-wrong',
    'good-after-all',
    'how-much-spilled',
  ].includes(topic);

/** Whether a bath may still be used: of the one that was named, or stands in that bottle, else of those that something speaks against; with none, how the film stands. */
function stillGood(turn: Turn, { liquid: named, bottle: number }: Remark) {
  const { bottles } = turn.world;
  const held = number === undefined ? undefined : bottles[number];
  const liquid = held?.liquid ?? named;
  const all = held?.liquid
    ? [held]
    : Object.values(bottles).filter(
        (b) => b.liquid !== null && (liquid === undefined || b.liquid === liquid),
      );
  for (const bottle of all) {
    const [first] = fitnessOf(bottle, turn);
    if (!first || bottle.liquid === null) continue;
    const found = objectionTo(bottle.liquid, first, turn.view);
    return turn.say('warning', { id: 'still-good', bath: turn.named(bottle.liquid), found });
  }
  if (liquid !== undefined && sayOffTemp(turn, liquid)) return;
  if (liquid === undefined && turn.world.film.loaded) return outlook(turn);
  turn.say(liquid === undefined ? 'question' : 'answer', {
    id: 'still-good',
    bath: liquid === undefined ? null : turn.named(liquid),
    found: null,
  });
}

/** A bath that was read too warm or too cold is well only once it is warmed or cooled. */
function sayOffTemp(turn: Turn, liquid: LiquidId): boolean {
  const temp = stepFor(turn.sheet, liquid)?.temp;
  const tempC = readingOf(turn.world, liquid, sourceOf(turn, liquid))?.tempC;
  if (!temp || tempC === undefined || (tempC >= temp.minC && tempC <= temp.maxC)) return false;
  const { aimC } = temp;
  turn.say('answer', { id: 'warm-it', bath: turn.named(liquid), tempC, aimC, hot: tempC > aimC });
  return true;
}

/** What may have been on the film and is not settled, with what it would have done. */
export function doubtOnFilm(turn: Turn): { doubt?: FilmDoubt } {
  const { film, tank } = turn.world;
  if (!film.doubt) return {};
  const { of, last } = film.doubt;
  const harm = of
    .map((liquid) => ({ liquid, found: filmFinding(liquid, turn.view, tank.bath?.filmBefore ?? film) }))
    .find(({ found }) => severity[found.entry[0]] >= severity.recoverable);
  return {
    doubt: {
      of: of.map((liquid) => turn.named(liquid)),
      last: last === null ? null : turn.named(last),
      warn: harm ? objectionTo(harm.liquid, harm.found, turn.view) : null,
    },
  };
}

/** How the film will come out, by what its record has against it. */
export function outlook(turn: Turn) {
  const { world, clock } = turn;
  const film = filmNow(world, turn.atMs);
  const run = newestRun(world);
  const developing = clock?.role === 'developer';
  const whole = film.developedS / (developingStep(turn.sheet)?.time?.aimS ?? Number.NaN) - 1;
  const planned = developing ? (outcomeOf(turn)?.effect ?? Math.max(0, whole)) : whole;
  const effect = Math.abs(planned) > worthSaying && film.developedS > 0 ? planned : null;
  const lost = film.image === 'lost';
  turn.say('answer', {
    id: 'outlook',
    loaded: film.loaded || run !== undefined,
    ...doubtOnFilm(turn),
    lost,
    effect: film.image === 'latent' && !developing ? null : effect,
    light: wasLit(run),
    lightBefore: run?.deviations.some((d) => d.what === lightBefore) ?? false,
    notTurned: run?.notes.some((n) => n.text === notTurned) ?? false,
    turnedMore: run?.notes.some((n) => n.text === turnedMore) ?? false,
    reasons: [...new Set(run?.deviations.flatMap((d) => d.reasons ?? []) ?? [])],
    bath: clock && turn.place === 'immersed' ? turn.named(clock.liquid) : null,
    now: film.loaded && !lost && turn.place !== 'immersed' ? nowOf(turn) : null,
  });
}

/** Black in the rinse, or on the film: before the developer the rinse goes on, in the closed tank; later it is wiped off. */
function backingLeft(turn: Turn) {
  const film = filmNow(turn.world, turn.atMs);
  const rinsing =
    film.loaded && film.kind.backing && film.image === 'latent' && turn.clock?.role !== 'developer';
  if (rinsing) turn.fact({ type: 'backing-seen', ...turn.runId });
  const stage = rinsing ? 'rinsing' : film.loaded && film.halide ? 'dark' : 'light';
  turn.say('answer', { id: 'backing-left', stage, now: rinsing && !turn.clock ? nowOf(turn) : null });
}

/** Only a developer does more for it; backing comes off the better. */
function agitatedMore(turn: Turn) {
  const developing = (turn.clock?.role ?? 'developer') === 'developer';
  if (developing) turn.fact({ type: 'note', ...turn.runId, text: turnedMore });
  turn.say('answer', { id: 'agitated-more', developing });
}

/** A film is milky as long as it is not fixed. */
function milky(turn: Turn) {
  const film = filmNow(turn.world, turn.atMs);
  const fixing = turn.clock?.role === 'fixer';
  const fixed = film.history.some((c) => c.role === 'fixer');
  turn.say('answer', { id: 'milky', stage: fixing ? 'fixing' : film.loaded && !fixed ? 'before' : 'after' });
}

/** A bleach that is in has to have worked before light does no harm, and a fixer that is in has not done all of its work. */
function lightStage(film: FilmState, bath: Role | undefined, immersed: boolean): LightStage {
  if (!film.loaded) return 'no-film';
  if (!film.halide) return bath === 'fixer' && immersed ? 'fixing' : 'fixed';
  if (film.bleached) return 'bleached';
  return bath === 'bleach' ? 'bleaching' : 'sensitive';
}

/** Film that lay open, before it was in the tank. */
export const lightBefore = 'light came on before the film was loaded';

/** Light in the tank: what it does hangs on what is still sensitive. */
function lightIn(turn: Turn) {
  const film = filmNow(turn.world, turn.atMs);
  const bath = turn.clock ? turn.named(turn.clock.liquid) : null;
  const stage = lightStage(film, turn.clock?.role, turn.place === 'immersed');
  const reached = stage === 'sensitive' || stage === 'bleaching';
  if (reached) turn.deviate(lightReached);
  if (stage === 'no-film' && film.history.length === 0) turn.deviate(lightBefore);
  turn.say(reached ? 'warning' : 'answer', {
    id: 'light-in',
    stage,
    bath,
    now: bath ? null : nowOf(turn),
  });
}

/** Of the bottles that were named, of those of the bath, or of all: it is asked about once before it is poured. */
function against(doubt: BottleDoubt, usual?: LiquidId) {
  return (turn: Turn, { liquid = usual, bottle, other }: Remark) => {
    const named = [bottle, other].filter((n) => n !== undefined);
    const standing =
      liquid === undefined ? Object.keys(turn.world.bottles).map(Number) : bottlesFor(turn.world, liquid);
    for (const number of named.length > 0 ? named : standing)
      turn.fact({ type: 'bottle-doubted', bottle: number, doubt });
  };
}

/** A bath that stands mixed, with a part missing, or too much or too little of one. */
function mixedWrong(turn: Turn, said: Remark) {
  const liquid = said.liquid ?? 'developer';
  against('mixed-wrong')(turn, { ...said, liquid });
  turn.say('warning', { id: 'mixed-wrong', bath: turn.named(liquid) });
}

/** A developer that stood open may be oxidised; no other bath is soon. */
function aired(turn: Turn, said: Remark) {
  const holds = said.bottle === undefined ? said.liquid : turn.world.bottles[said.bottle]?.liquid;
  if (holds && roleOf(turn.sheet, holds) === 'developer') against('oxidised', holds)(turn, said);
}

/** What a wrong thermometer read is in doubt until it is read again. */
function misread(turn: Turn) {
  for (const number of Object.keys(turn.world.bottles).map(Number)) {
    const vessel = { kind: 'bottle', number } as const;
    const liquid = turn.world.bottles[number]?.liquid;
    const reading = turn.world.readings[vesselKey(vessel)] ?? turn.world.readings[`liquid:${liquid}`];
    if (reading) turn.fact({ type: 'reading-doubted', vessel, tempC: reading.tempC });
  }
}

/** The film is not in the tank after all; once a bath has touched it, it is, unless it is seen elsewhere (`sure`). */
export function filmOut(turn: Turn, sure = false) {
  const { film, tank } = turn.world;
  if (!film.loaded || (!sure && (tank.bath || film.history.length > 0))) return;
  turn.send({ type: 'WITHDRAWN' });
  if (!tank.bath) turn.send({ type: 'UNLOADED' });
  turn.fact({ type: 'film-out', ...turn.runId });
}
