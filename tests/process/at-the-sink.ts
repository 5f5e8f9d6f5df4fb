import { stepById } from '../../src/process/due.js';
import type { Intent } from '../../src/process/intent.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import type { Fact } from '../../src/world/fact.js';
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

export const atDeveloper = (config = {}) => new BenchUser(config).ready().bath('prebath', 1, 10).water(40);
export const withDeveloper = (config = {}) => {
  const user = atDeveloper(config);
  user.say(into('developer', 2));
  user.say(isIn('developer'));
  return user;
};
/** Developed and poured back: the stop bath is due, and developer clings to the film. */
export const developed = () => {
  const user = withDeveloper();
  user.wait(170);
  user.say(back('developer', 2));
  user.say(out);
  return user;
};
/** Developed and stopped; 30 s of water: the bleach is due. */
export const atBleach = () => developed().bath('stop', 3, 30).water(30);
export const atFixer = () => atBleach().bath('bleach', 4, 180).water(60);
export const hanging = () => atFixer().bath('fixer', 5, 120).water(120).bath('final-rinse', 6, 12);
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
