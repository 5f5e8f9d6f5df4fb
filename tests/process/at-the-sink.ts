import { expect } from 'vitest';

import { stepById } from '../../src/process/due.js';
import type { Intent } from '../../src/process/intent.js';
import type { RunConfig } from '../../src/process/run-state.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import type { Fact } from '../../src/world/fact.js';
import type { VesselRef } from '../../src/world/vessel.js';
import { BenchUser, bottle, type Said } from './bench-user.js';

export const named = (id: string) => ({
  id,
  name: { stop: 'stop bath', 'final-rinse': 'final rinse' }[id] ?? id,
});
export const about = (id: string, more: object = {}) => ({
  bath: named(id),
  other: null,
  bottle: null,
  tempC: null,
  aimC: null,
  ml: null,
  seconds: null,
  agoS: null,
  films: null,
  why: null,
  ...more,
});
/** What was answered: the tone, and the whole message. */
export const heard = (said: Said[]) => said.map(({ kind, message }) => [kind, message]);
export const into = (liquid: string, number: number): Intent => ({
  type: 'pour-in',
  liquid,
  from: bottle(number),
});
export const back = (liquid: string, number: number): Intent => ({
  type: 'pour-back',
  liquid,
  to: bottle(number),
});
export const isIn = (liquid?: string, agoS?: number): Intent => ({
  type: 'bath-in',
  ...(liquid && { liquid }),
  ...(agoS !== undefined && { agoS }),
});
export const out: Intent = { type: 'tank-empty' };

/** The same start for many tests is gone through once. */
function start(make: (config: Partial<RunConfig>) => BenchUser): (config?: Partial<RunConfig>) => BenchUser {
  let made: BenchUser | undefined;
  return (config) => {
    if (config) return make(config);
    made ??= make({});
    return made.copy();
  };
}

export const atDeveloper = start((config) => new BenchUser(config).ready().bath('prebath', 1, 10).water(40));
export const withDeveloper = start((config) => {
  const user = atDeveloper(config);
  user.say(into('developer', 2));
  user.say(isIn('developer'));
  return user;
});
/** Developed and poured back: the stop bath is due, and developer clings to the film. */
export const developed = start(() => {
  const user = withDeveloper();
  user.wait(170);
  user.say(back('developer', 2));
  user.say(out);
  return user;
});
/** Developed and stopped; 30 s of water: the bleach is due. */
export const atBleach = start(() => developed().bath('stop', 3, 30).water(30));
export const atFixer = start(() => atBleach().bath('bleach', 4, 180).water(60));
export const hanging = start(() => atFixer().bath('fixer', 5, 120).water(120).bath('final-rinse', 6, 12));
export const last = <T extends Fact['type']>(user: BenchUser, type: T) => user.facts(type).at(-1);
export const waitFor = (liquid: string, secondsLeft: number | null) => ({
  do: 'wait',
  bath: named(liquid),
  secondsLeft,
});
export const pourNow = (liquid: string, number: number | null, tempC: number, more: object = {}) => ({
  do: 'pour',
  step: stepById(sheet, liquid)?.name,
  bath: named(liquid),
  bottle: number,
  tempC,
  announced: false,
  restS: null,
  ...more,
});
export const toBottle = (number: number, filter: boolean) => ({ to: 'bottle', bottle: number, filter });
export const known = ['prebath', 'water', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'];

/** A value in one line: what is null, false or empty is left out, a bath is its id. */
function brief(value: unknown): string {
  if (typeof value === 'number') return String(Math.round(value * 1000) / 1000);
  if (Array.isArray(value)) return value.length === 0 ? '' : `[${value.map(brief).join(' ')}]`;
  if (typeof value !== 'object' || value === null) return value ? String(value) : '';
  const fields: Record<string, unknown> = { ...value };
  if (Object.keys(fields).join() === 'id,name') return String(fields.id);
  if ('do' in fields) return String(fields.do);
  if ('kind' in fields && Object.keys(fields).every((k) => k === 'kind' || k === 'number'))
    return [fields.kind, fields.number].join('');
  const told = Object.entries(fields).flatMap(([k, v]) =>
    /source$/i.test(k) || brief(v) === '' ? [] : [`${k}=${brief(v)}`],
  );
  return `(${told.join(' ')})`;
}
const line = (word: string, { id, type, runId: _run, ...rest }: Record<string, unknown>): string =>
  [word, id ?? type, brief(rest).slice(1, -1)].join(' ').trim();

/** Something said, or so many seconds, and all that was answered and told of it then. */
export type Told = readonly [said: Intent | { fact: Fact } | number, lines?: string];
export function linesOf(user: BenchUser, said: Told[0]): string {
  const [facts, effects] = [user.truth.facts.length, user.effects.length];
  if (typeof said === 'number') user.wait(said);
  else if ('fact' in said) user.fact(said.fact);
  else user.say(said);
  return [
    ...user.effects.slice(effects).flatMap((e) => {
      if (e.type === 'did') return ['did'];
      return e.type === 'say' ? [line(e.kind, { ...e.message })] : [];
    }),
    ...user.truth.facts.slice(facts).map((f) => line('fact', { ...f })),
  ].join(' | ');
}
/** Each is answered so, one after another; what has no lines is only said. */
export function held(_title: string, from: () => BenchUser, told: readonly Told[]) {
  const user = from();
  for (const [said, lines] of told) {
    const got = linesOf(user, said);
    if (lines !== undefined) expect(got).toBe(lines);
  }
}
export type Row = readonly [title: string, start: () => BenchUser, told: readonly Told[]];
/** The same after these words. */
export const having = (from: () => BenchUser, ...before: Told[0][]): (() => BenchUser) =>
  start(() => {
    const user = from();
    for (const said of before) linesOf(user, said);
    return user;
  });
export const jugged = having(withDeveloper, 170, out);
export const leaving = having(withDeveloper, 170, back('developer', 2));
export const has = (number: number, liquid: string, volumeMl: number, more: object = {}): Intent => ({
  type: 'bottle-holds',
  bottle: number,
  liquid,
  volumeMl,
  ...more,
});
export const yes: Intent = { type: 'confirm' };
export const fresh = () => new BenchUser();
export const the = (kind: Exclude<VesselRef['kind'], 'bottle'>): VesselRef => ({ kind });
export const spill = (told: object = {}): Intent => ({ type: 'spill', ...told });
