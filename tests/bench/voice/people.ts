import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { installedLanguage } from '../../../src/app/language.js';
import type { WordGraph } from '../../../src/language/types.js';
import { any, graphOf, maybe, type Piece } from './grammar.js';
import { rms, speechRms } from './noise.js';
import { seeded } from './random.js';
import { recording } from './recorded.js';

/** What a sentence of the coffee order asks for. */
export type Slots = Record<string, string>;

export interface PersonsClip {
  name: string;
  /** in the order of the names; the odd ones training never heard */
  number: number;
  pcm: Float32Array;
  slots: Slots;
}

export interface People {
  grammar: WordGraph;
  kitchen: Float32Array;
  clips: PersonsClip[];
}

export const CONDITIONS = [
  { name: 'quiet', snrDb: null },
  { name: 'kitchen 10 dB', snrDb: 10 },
  { name: 'kitchen 5 dB', snrDb: 5 },
] as const;

/** @param wanted whether a clip's number is wanted */
export function readPeople(folder: string, wanted: (number: number) => boolean): People {
  const compiled = installedLanguage().compileFile(join(folder, 'order.jsgf'));
  if ('problem' in compiled) throw new Error(compiled.problem);
  const slots = JSON.parse(readFileSync(join(folder, 'commands.json'), 'utf8')) as Record<string, Slots>;
  const clips = readdirSync(join(folder, 'commands'))
    .map((file) => file.replace(/\.flac$/, ''))
    .sort()
    .flatMap((name) => (slots[name] ? [{ name, slots: slots[name] }] : []))
    .map((clip, number) => ({ ...clip, number }))
    .filter(({ number }) => wanted(number))
    .map((clip) => ({
      ...clip,
      pcm: recording(join(folder, 'commands', `${clip.name}.flac`)),
    }));
  return {
    grammar: compiled.graph,
    kitchen: recording(join(folder, 'kitchen.flac')),
    clips,
  };
}

export function slotsOf(words: string): Slots {
  const slots: Slots = {};
  const take = (slot: string, pattern: RegExp, text = words): void => {
    const found = pattern.exec(text)?.[1];
    if (found) slots[slot] = found;
  };
  const [head = '', extras = ''] = words.split(/ with (.*)/s);
  take('size', /\b(large|small|medium)\b(?! roast)/);
  take('size', /\b((?:twelve|eight|twenty|sixteen) ounce)\b/);
  take('roast', /\b((?:light|dark|medium) roast)\b/);
  take('numberOfShots', /\b((?:single|double|triple) shot)\b/);
  take(
    'coffeeDrink',
    /((?:iced |drip |house )?coffee|(?:iced )?mocha|espresso|americano|cappuccino|latte)$/,
    head,
  );
  for (const extra of extras === '' ? [] : extras.split(' and '))
    slots[/milk|cream/.test(extra) ? 'milkAmount' : 'sugarAmount'] = extra;
  return slots;
}

export const sameSlots = (a: Slots, b: Slots): boolean =>
  Object.keys(a).length === Object.keys(b).length && Object.entries(a).every(([k, v]) => b[k] === v);

/** Every sentence of the order grammar that asks for these slots: what was said must be one of them. */
export function sentencesFor({ coffeeDrink = '', ...rest }: Slots): WordGraph {
  const { milkAmount, sugarAmount, ...attributes } = rest;
  const start = any(
    ...['brew', 'can i get', 'can i have', 'i want', 'get me', 'give me'],
    ...["i'd like", 'i would like', 'make me', 'may i have'],
  );
  const extras = [milkAmount, sugarAmount].flatMap((extra) => extra ?? []);
  const kind: Piece = [any(...orders(Object.values(attributes)).map((o) => [...o])), coffeeDrink];
  const added: Piece = any(...orders(extras).map((o) => o.join(' and ')));
  return graphOf('said', [start, maybe(any('a', 'an')), kind, ...(extras.length > 0 ? ['with', added] : [])]);
}

const orders = (list: readonly string[]): string[][] =>
  list.length === 0
    ? [[]]
    : list.flatMap((first, i) => orders(list.filter((_, j) => j !== i)).map((rest) => [first, ...rest]));

/** A clip as it stands, or with a stretch of the kitchen under it at a ratio to the clip's speech. */
export function heardIn(
  clip: Float32Array,
  kitchen: Float32Array,
  snrDb: number | null,
  seed: number,
): Float32Array {
  if (snrDb === null) return clip;
  const from = Math.floor(seeded(seed)() * kitchen.length);
  const noise = clip.map((_, i) => kitchen[(from + i) % kitchen.length] as number);
  const gain = (speechRms(clip) * 10 ** (-snrDb / 20)) / rms(noise);
  const mixed = clip.map((v, i) => v + gain * (noise[i] as number));
  const peak = mixed.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  return peak > 0.95 ? mixed.map((v) => (v * 0.95) / peak) : mixed;
}
