import type { Grammars } from '../../load.js';
import { type SlotRules, slotSpotter } from '../../open/slots.js';

/** What a clause names: baths and chemicals, vessels, places and amounts, and its other words. */
export interface Said {
  plain: string;
  words: readonly string[];
  /** baths and chemicals by their ids */
  liquids: readonly string[];
  /** each with its place among the words and the word before it */
  things: readonly Thing[];
  volumeMl?: number;
  place?: string;
  seconds?: number;
  /** a number that is none of those, in degrees or bare */
  value?: number;
  /** the words that are in none of these */
  rest: string;
}
interface Thing {
  from: number;
  to: number;
  before: string;
  liquid?: string;
  bottle?: number;
  /** tank, jug or tub */
  vessel?: string;
}

const RULES: SlotRules = [
  ['_bottle', 'vessels', 'bottle'],
  ['_vessel', 'vessels', 'tub'],
  ['_vessel', 'vessels', 'jug'],
  ['_vessel', 'vessels', 'tank'],
  ['_matter', 'what-if', 'stoff'],
  ['_matter', 'what-if', 'matter'],
  ['_place', 'places', 'place'],
  ['_volume', 'quantities', 'volume'],
  ['_duration', 'quantities', 'duration'],
  ['_degrees', 'quantities', 'temperature'],
  ['_num', 'numbers', 'spoken-number'],
  ['_num', 'numbers', 'any'],
];

export function saidIn(plain: string, grammars: Grammars): Said {
  const { words, tokens, slots } = slotSpotter(grammars, RULES)(plain.split(' ').filter(Boolean));
  const things: Thing[] = [];
  const said: { -readonly [K in 'volumeMl' | 'place' | 'seconds' | 'value']?: Said[K] } = {};
  for (const { token, from, to, fields } of slots) {
    const at = { from, to, before: words[from - 1] ?? '' };
    const { vessel, volumeMl, place, seconds, tempC, value } = fields;
    if (token === '_matter') things.push({ ...at, liquid: String(fields.liquid) });
    if (typeof vessel === 'object')
      things.push(
        typeof vessel.number === 'number'
          ? { ...at, bottle: vessel.number }
          : { ...at, vessel: String(vessel.kind) },
      );
    if (typeof volumeMl === 'number') said.volumeMl ??= volumeMl;
    if (typeof place === 'string') said.place ??= place;
    if (typeof seconds === 'number') said.seconds ??= seconds;
    const number = tempC ?? value;
    if (typeof number === 'number') said.value ??= number;
  }
  return {
    plain,
    words,
    things,
    liquids: things.flatMap((t) => t.liquid ?? []),
    rest: tokens.filter((t) => !t.startsWith('_')).join(' '),
    ...said,
  };
}
