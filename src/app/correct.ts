import { limits } from '../limits.js';
import type { DeskEvent } from '../process/desk.js';
import type { Intent, IntentOf } from '../process/intent.js';
import type { Fact } from '../world/fact.js';
import { type VesselRef, vesselKey } from '../world/vessel.js';

type Correction = Partial<Omit<IntentOf<'correct'>, 'type' | 'asTold'>>;

/** An intent with one of its parts replaced; null: it has no such part. */
type Mend<T extends Intent['type']> = (said: IntentOf<T>, meant: Correction) => Intent | null;

const some = <T extends object>(fields: T): T | null => (Object.keys(fields).length > 0 ? fields : null);

/** Only what was given, under its own name. */
function parts(values: Record<string, unknown>): Record<string, unknown> | null {
  return some(Object.fromEntries(Object.entries(values).filter(([, v]) => v !== undefined)));
}

const put = <T extends Intent>(said: T, values: Record<string, unknown>): Intent | null => {
  const changed = parts(values);
  return changed && ({ ...said, ...changed } as Intent);
};

const isBottle = (value: number | undefined): value is number =>
  value !== undefined && Number.isInteger(value) && value >= 1 && value <= limits.countedBottles;

/** The vessel of a pour: as named, or the bottle of a bare number. */
const vessel = ({ vessel: named, value }: Correction): VesselRef | undefined =>
  named ?? (isBottle(value) ? { kind: 'bottle', number: value } : undefined);

/** A reading by a bare number; the number of a bottle is none, where it was warm, nor is an amount. */
const reading = ({ tempC, value }: Correction, saidC: number): number | undefined =>
  tempC ??
  ((isBottle(value) && value <= limits.fewBottles && saidC > limits.fewBottles) || !isWarmth(value)
    ? undefined
    : value);
const isWarmth = (value: number = limits.bathLeastC): boolean =>
  value >= limits.bathLeastC && value <= limits.bathMostC;

/** The amount that went in: a bare number that no bottle has. */
const amount = ({ volumeMl, value }: Correction): number | undefined =>
  volumeMl ?? ((value ?? 0) > limits.fewBottles ? value : undefined);

const bottle = ({ vessel: named }: Correction): number | undefined =>
  named?.kind === 'bottle' ? named.number : undefined;

/** Another bath is meant, and no bottle was said: that of the one that was named goes with it. */
const leaves = (said: VesselRef | undefined, { liquid }: Correction): boolean =>
  liquid !== undefined && said?.kind === 'bottle';

/** What "I meant" can change in each kind of sentence; a kind that is missing has nothing to put right. */
const mends: { [T in Intent['type']]?: Mend<T> } = {
  'pour-in': ({ from, ...i }, m) =>
    put(leaves(from, m) ? i : { ...i, ...(from && { from }) }, { liquid: m.liquid, from: vessel(m) }),
  'pour-back': ({ to, ...i }, m) =>
    put(leaves(to, m) ? i : { ...i, ...(to && { to }) }, {
      liquid: m.liquid,
      to: vessel(m),
      volumeMl: m.volumeMl,
    }),
  'pour-between': (i, m) => put(i, { liquid: m.liquid, to: vessel(m), volumeMl: m.volumeMl }),
  'pour-away': (i, m) => put(i, { liquid: m.liquid, from: vessel(m) }),
  // a bath that is in came out of the bottle that is meant, whatever it was called
  poured: ({ liquid, ...i }, m) => {
    const intoTank = i.to?.kind === 'tank';
    const named = liquid !== undefined && !(intoTank && vessel(m)?.kind === 'bottle');
    return put(named ? { ...i, liquid } : i, {
      liquid: m.liquid,
      [intoTank ? 'from' : 'to']: vessel(m),
      volumeMl: m.volumeMl,
      agoS: m.agoS,
    });
  },
  'bath-in': (i, m) =>
    vessel(m)?.kind === 'bottle' && i.agoS === undefined
      ? put({ type: 'poured', to: { kind: 'tank' } }, { from: vessel(m) })
      : put(i, {
          liquid: m.liquid,
          agoS: m.agoS,
          volumeMl: amount(m),
          share: m.share,
          ...(m.liquid !== undefined && { instead: true }),
        }),
  'tank-empty': (i, m) => put(i, { agoS: m.agoS }),
  temperature: (i, m) => put(i, { of: m.liquid ?? m.vessel, tempC: reading(m, i.tempC) }),
  'tub-set': (i, m) => put(i, { tempC: reading(m, i.tempC) }),
  'bottle-holds': (i, m) => put(i, { liquid: m.liquid, bottle: bottle(m), volumeMl: m.volumeMl ?? m.value }),
  'bottle-empty': (i, m) => put(i, { bottle: bottle(m) }),
  'tank-takes': (i, m) => put(i, { volumeMl: m.volumeMl ?? m.value }),
  contaminated: (i, m) =>
    put(i, { liquid: m.liquid, intoBottle: bottle(m), volumeMl: m.volumeMl ?? m.value }),
  // a share of what nobody named was of what is in the tank
  spill: ({ share, ...i }, m) => {
    const volumeMl = m.volumeMl ?? m.value;
    const kept = volumeMl === undefined ? { share } : i.liquid === undefined && { tank: true as const };
    return put(share === undefined ? i : { ...i, ...kept }, { liquid: m.liquid, volumeMl });
  },
  'add-time': (i, m) => put(i, { seconds: m.seconds ?? m.value }),
  shorten: (i, m) => put(i, { seconds: m.seconds ?? m.value }),
  'bottle-named': (i, m) => put(i, { bottle: bottle(m) }),
  // an amount is grams whatever the scale showed
  reading: (i, m) =>
    (m.unit !== undefined && i.unit === 'ml') || (m.volumeMl !== undefined && i.unit && i.unit !== 'ml')
      ? null
      : put(i, {
          value: m.value ?? m.massG ?? m.volumeMl,
          unit: m.unit ?? (m.massG === undefined ? undefined : 'g'),
        }),
  // what was put right of a part is put right once more
  correct: (i, m) => {
    const value = m.value ?? m.massG ?? m.volumeMl;
    const field = (['massG', 'volumeMl', 'value'] as const).find((f) => i[f] !== undefined);
    return i.substance === undefined || field === undefined ? null : put(i, { [field]: value });
  },
  remind: (i, m) => put(i, { seconds: m.seconds }),
  part: (i, m) => put(i, { liquid: m.liquid, vessel: m.vessel }),
  skip: (i, m) => put(i, { liquid: m.liquid }),
  'mix-start': (i, m) => put(i, { volumeMl: m.volumeMl }),
  'ask-bottle': (i, m) => put(i, { bottle: bottle(m) }),
  'bottle-discarded': (i, m) => put(i, { bottle: bottle(m) }),
  'ask-temperature': (i, m) => put(i, { of: m.liquid ?? m.vessel }),
  'vessel-moved': (i, m) => put(i, { of: m.liquid ?? m.vessel }),
  films: (i, m) => put(i, { count: m.value }),
  'bath-history': ({ ageDays, weekday, month, day, ...i }, m) =>
    m.ageDays === undefined ? null : put(i, { ageDays: m.ageDays }),
};

/** What has a time of its own that can be put right. */
export const isTimed = (
  i: Intent,
): i is IntentOf<'add-time' | 'shorten'> | (IntentOf<'remind'> & { seconds: number }) =>
  (i.type === 'add-time' || i.type === 'shorten' || i.type === 'remind') && i.seconds !== undefined;

/**
 * What a number or a time by itself puts right, by what was said last: a time is a time in the unit it was said in, and a number
 * that may be seconds or minutes is both; `bath`: the one that is in, and how long it should be, s; `justPoured`: it went in just now.
 */
export function ofWhatWasSaid(
  meant: IntentOf<'correct'>,
  last: Intent | undefined,
  bath: { wantedS: number | null } | null,
  justPoured: boolean,
): Intent[] {
  const { type, value, seconds, ...others } = meant;
  if (Object.keys(others).length > 0) return [meant];
  const inAll = (s: number): Intent => ({ type: 'add-time', seconds: s, inAll: true });
  const time = (s: number): Intent =>
    last?.type === 'add-time' && !last.inAll && bath && s > (bath.wantedS ?? Number.POSITIVE_INFINITY)
      ? inAll(s)
      : { type, seconds: s };
  if (last && isTimed(last)) {
    if (seconds !== undefined) return [time(seconds)];
    if (value === undefined) return [meant];
    if (last.seconds % 60 === 0) return [time(60 * value)];
    if (value >= LEAST_SECONDS) return [time(value)];
    return [bath && last.type !== 'remind' ? inAll(60 * value) : time(60 * value), { type, seconds: value }];
  }
  if (value === undefined) return [meant];
  const named: Intent =
    isBottle(value) && value <= limits.fewBottles
      ? { type, vessel: { kind: 'bottle', number: value } }
      : meant;
  return seconds === undefined || !bath ? [named] : [inAll(seconds), ...(justPoured ? [named] : [])];
}
/** Fewer by themselves may as well be minutes. */
const LEAST_SECONDS = 10;

/** Where the last sentence stands that has what the correction would replace; below 0: none. */
export function spokenOf(said: readonly (Intent | null)[], meant: Correction): number {
  const fits = (i: Intent | null): i is Intent => i !== null && corrected(i, meant) !== null;
  const { wrong } = meant;
  const found = [
    said.findLastIndex((i) => wrong !== undefined && fits(i) && says(i, (n) => n === wrong)),
    said.findLastIndex((i) => fits(i) && speaksOf(i, meant) && isAlike(i, meant)),
    said.findLastIndex((i) => fits(i) && speaksOf(i, meant)),
    said.findLastIndex(fits),
  ];
  return found.find((at) => at >= 0) ?? -1;
}

/** Whether any part of it is such a number. */
const says = (part: unknown, is: (number: number) => boolean): boolean =>
  typeof part === 'number'
    ? is(part)
    : typeof part === 'object' && part !== null && Object.values(part).some((p) => says(p, is));

/** Of a bath a bare number that is no bottle's puts right a number like it: 38 how warm it was, not how much went in. */
const isAlike = (said: Intent, { value = 0, liquid }: Correction): boolean =>
  value > limits.fewBottles &&
  liquid !== undefined &&
  says(said, (n) => n !== value && Math.abs(n - value) <= ALIKE * value);
const ALIKE = 0.3;

/** Whether a sentence has what a correction would replace: a bottle, a bath, a number. A pour always has a bottle. */
function speaksOf(said: Intent, meant: Correction): boolean {
  if (said.type === 'several') return said.intents.some((one) => speaksOf(one, meant));
  if (said.type === 'temperature' && said.of === undefined) return true;
  const words = JSON.stringify(said);
  const has = (value: unknown, field: RegExp) => value === undefined || field.test(words);
  return (
    has(meant.vessel, /"(?:pour-\w+|poured|bath-in|bottle|intoBottle|number|vessel|tub|tap|jug)"/) &&
    has(meant.liquid, /"(?:liquid|intoLiquid|of)":"/) &&
    has(meant.value ?? meant.massG, isBottle(meant.value) ? /:\d|"pour-|"bath-in/ : /:\d|"pour-/)
  );
}

/** The sentence as it was meant; null: this correction does not speak of such a sentence. */
export function corrected(said: Intent, meant: Correction): Intent | null {
  if (said.type === 'several') {
    const index = said.intents.findLastIndex((one) => corrected(one, meant) !== null);
    const one = said.intents[index];
    const right = one && corrected(one, meant);
    return right ? { ...said, intents: said.intents.with(index, right) } : null;
  }
  // how warm it is puts right nothing but a reading
  if ((meant.reading || meant.tempC !== undefined) && said.type !== 'temperature' && said.type !== 'tub-set')
    return null;
  // nothing is poured out of the tub, and of it alone it was read already
  if (meant.vessel?.kind === 'tub' && (said.type !== 'temperature' || vesselOf(said) === 'tub')) return null;
  const mend = mends[said.type] as ((said: Intent, meant: Correction) => Intent | null) | undefined;
  return mend?.(said, meant) ?? null;
}

const vesselOf = ({ of }: IntentOf<'temperature'>): VesselRef['kind'] | null =>
  typeof of === 'object' ? of.kind : null;

/** Whether something left a vessel, for where the correction says that it did not go. */
export function leftAsTold(fact: Fact, { instead, liquid }: IntentOf<'poured'>): boolean {
  if (fact.type === 'splashed')
    return instead === true && fact.bottle !== undefined && (liquid === undefined || fact.liquid === liquid);
  if (fact.type !== 'poured' || fact.to.kind === 'tank' || fact.from.kind === 'tap') return false;
  if (instead === true ? fact.liquid === 'water' : instead && vesselKey(fact.to) !== vesselKey(instead))
    return false;
  return liquid === undefined || fact.liquid === liquid;
}

/** The pour that this fact came of, as it was meant: it went elsewhere. */
export function leftFor(said: Intent, fact: Fact, meant: IntentOf<'poured'>): Intent {
  const { instead: _, liquid: named, ...place } = meant;
  const { to: vessel } = place;
  if (fact.type !== 'poured' || said.type === 'contaminated')
    return corrected(said, { ...(vessel && { vessel }) }) ?? meant;
  const { volumeMl: _of, ...told } = said.type === 'poured' ? said : { type: 'poured' as const };
  const part = said.type === 'poured' ? said.volumeMl : undefined;
  const volumeMl = meant.volumeMl ?? (fact.from.kind === 'tank' ? part : fact.volumeMl);
  const { to: _to, toOf: _toOf, ...same } = told as IntentOf<'poured'>;
  const liquid = named ?? fact.liquid;
  return { ...same, liquid, from: fact.from, ...place, ...(volumeMl !== undefined && { volumeMl }) };
}

/**
 * What a correction of a vessel is of, where it says that something came or went: the bath that was moved last. `to`: it went
 * there, and not where it was said to go; `isIt`: it was in the tank. `inTank`: a bath is. Null: nothing was moved since a pour was announced.
 */
export function lastMoved(
  recent: readonly { event: DeskEvent; facts: readonly Fact[] }[],
  { moved, vessel }: IntentOf<'correct'>,
  inTank: boolean,
): { to?: IntentOf<'poured'>; isIt?(said: Intent, facts: readonly Fact[]): boolean } | null {
  if (!moved || !vessel) return null;
  const into = (f: Fact): boolean => f.type === 'poured' && f.to.kind === 'tank';
  const isMove = (f: Fact): boolean =>
    f.type === 'poured' &&
    (into(f) ? inTank || f.liquid !== 'water' : moved === 'either' && f.liquid !== 'water');
  const index = recent.findLastIndex((r) => r.facts.some(isMove));
  const announced = recent.findLastIndex(
    ({ event }) => event.type === 'intent' && event.intent.type.startsWith('pour-'),
  );
  if (index < 0 || announced > index) return null;
  const wentIn = recent[index]?.facts.some((f) => into(f) && isMove(f)) ?? false;
  return wentIn
    ? { isIt: (_said, facts) => facts.some((f) => into(f) && isMove(f)) }
    : { to: { type: 'poured', to: vessel, instead: true } };
}
