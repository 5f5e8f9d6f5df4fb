import type { Situation } from '../../process/desk.js';
import { asIntent, type Intent } from '../../process/intent.js';
import { type Grammars, SITUATIONS } from '../load.js';
import { tagPaths } from '../walk.js';
import { FILM_AT_STAKE } from './situations.js';
import { runTags } from './tags.js';

export interface Meaning {
  intent: Intent;
  situation: Situation;
}

/** Where a sentence out of place may belong; the parts of a spill mean nothing until one is told of. */
const ELSEWHERE = SITUATIONS.filter((s) => s !== 'spill');

export function meaningsHere(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
  loose: boolean,
): Meaning[] {
  for (const rank of ranked(situations)) {
    const meanings = distinct(rank.flatMap((s) => meaningsIn(words, s, grammars, loose)));
    if (meanings.length > 0) return meanings;
  }
  return [];
}

/** What the words mean in any situation but for the parts of a spill. */
export const meaningsElsewhere = (words: readonly string[], grammars: Grammars, loose: boolean): Meaning[] =>
  distinct(ELSEWHERE.flatMap((s) => meaningsIn(words, s, grammars, loose)));

/**
 * The same words may belong to several situations. What was asked comes first; film in the process goes before a
 * mix, a mix before all else unless it is named after `anytime`, for then the hands are at something else; and bottles that stand warming beside it
 * come last but for `anytime`.
 */
function ranked(situations: readonly Situation[]): Situation[][] {
  const open = (...among: readonly Situation[]) => among.filter((s) => situations.includes(s));
  const film = open(...FILM_AT_STAKE);
  const mix = open('mixing');
  const asked = open('challenged', 'spill');
  const idle = open('preparing', 'closing');
  return film.length > 0
    ? [
        [...asked, ...film],
        idle,
        ['warming', 'anytime'].filter(
          (s): s is Situation => s === 'anytime' || situations.includes('warming'),
        ),
        mix,
      ]
    : situations.includes('anytime') && situations.indexOf('mixing') > situations.indexOf('anytime')
      ? [asked, idle, open('warming'), mix, ['anytime']]
      : [[...asked, ...mix], idle, open('warming'), ['anytime']];
}

function meaningsIn(
  words: readonly string[],
  situation: Situation,
  grammars: Grammars,
  loose: boolean,
): Meaning[] {
  if (words.length === 0) return [];
  const paths = tagPaths(grammars.graphs[situation], words, { loose });
  return distinct(
    paths.flatMap((tags) => {
      const { intent: type, ...fields } = runTags(tags);
      const intent = type === 'several' ? joined(words, grammars, loose) : asIntent(type, fields);
      return intent ? [{ intent, situation }] : [];
    }),
  );
}

/** Two facts with "and" between: each means what it means by itself, in the one way that it can. */
function joined(words: readonly string[], grammars: Grammars, loose: boolean): Intent | undefined {
  for (const [at, word] of words.entries()) {
    if (word !== 'and') continue;
    const intents = [words.slice(0, at), words.slice(at + 1)].flatMap((part) => {
      const meanings = meaningsHere(part, ['draining', 'immersed'], grammars, loose);
      return meanings.length === 1 ? meanings.map((m) => m.intent) : [];
    });
    if (intents.length === 2) return { type: 'several', intents };
  }
  return undefined;
}

export function distinct(meanings: readonly Meaning[]): Meaning[] {
  const seen = new Map<string, Meaning>();
  for (const m of meanings) {
    const key = intentKey(m.intent);
    if (!seen.has(key)) seen.set(key, m);
  }
  return [...seen.values()];
}

/** The same text for the same intent, whatever the order of its fields. */
export function intentKey(intent: Intent): string {
  return JSON.stringify(intent, (_, v: unknown) =>
    v !== null && typeof v === 'object' && !Array.isArray(v)
      ? Object.fromEntries(Object.entries(v).sort())
      : v,
  );
}
