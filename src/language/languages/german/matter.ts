import type { Grammars } from '../../load.js';
import { type SlotRules, slotSpotter } from '../../open/slots.js';

/** What a clause names: baths and chemicals, vessels, places and amounts, each with its place among the words. */
export interface Said {
  plain: string;
  words: readonly string[];
  /** baths and chemicals by their ids */
  liquids: readonly string[];
  things: readonly Thing[];
  volumeMl?: number;
  place?: string;
}
interface Thing {
  from: number;
  to: number;
  liquid?: string;
  bottle?: number;
}

const RULES: SlotRules = [
  ['_bottle', 'vessels', 'bottle'],
  ['_matter', 'what-if', 'stoff'],
  ['_matter', 'what-if', 'matter'],
  ['_place', 'places', 'place'],
  ['_volume', 'quantities', 'volume'],
];

export function saidIn(plain: string, grammars: Grammars): Said {
  const { words, slots } = slotSpotter(grammars, RULES)(plain.split(' ').filter(Boolean));
  const things: Thing[] = [];
  let [volumeMl, place]: [number | undefined, string | undefined] = [undefined, undefined];
  for (const { token, from, to, fields } of slots) {
    if (token === '_matter') things.push({ from, to, liquid: String(fields.liquid) });
    const { vessel } = fields;
    if (token === '_bottle' && typeof vessel === 'object' && typeof vessel.number === 'number')
      things.push({ from, to, bottle: vessel.number });
    if (typeof fields.volumeMl === 'number') volumeMl ??= fields.volumeMl;
    if (typeof fields.place === 'string') place ??= fields.place;
  }
  return {
    plain,
    words,
    things,
    liquids: things.flatMap((t) => t.liquid ?? []),
    ...(volumeMl !== undefined && { volumeMl }),
    ...(place !== undefined && { place }),
  };
}
