import {
  AFTER_A_BATH,
  AFTER_ONE,
  BEFORE_A_BATH,
  BEFORE_A_MINUTE,
  BEFORE_A_VERB,
  BEFORE_ONE,
  NUMBERED_TOO,
  OF_DEGREES,
} from '../languages/english/lists.js';
import { type Grammars, ruleGraph } from '../load.js';
import { type Fields, runTags } from '../meaning/tags.js';
import type { WordGraph } from '../types.js';
import { arcsFrom } from '../walk.js';

/** A part of a sentence that carries a value: a bath, a vessel, an amount. */
export interface Slot {
  /** the token that stands for it, e.g. `_liquid`, or `tub` */
  token: string;
  fields: Fields;
  /** words from `from` to before `to` */
  from: number;
  to: number;
}

export interface Spotted {
  words: readonly string[];
  /** the words as they were said */
  line?: readonly string[];
  /** the words with every slot as its token */
  tokens: readonly string[];
  slots: readonly Slot[];
}

/** A sentence with every slot as its token, which a number tells from others, e.g. `_liquid2`, and what each says. */
export interface Numbered {
  line: string;
  slots: ReadonlyMap<string, Slot>;
}

/** For patterns over a whole sentence: slots whose token is a plain word stay that word. */
export function numbered(said: Spotted): Numbered {
  const slots = new Map<string, Slot>();
  let next = 0;
  const line = said.tokens
    .map((t, i) => {
      const slot = said.slots[next];
      if (slot?.token !== t) return t;
      next++;
      if (!t.startsWith('_')) return t;
      slots.set(`${t}${i}`, slot);
      return `${t}${i}`;
    })
    .join(' ');
  return { line, slots };
}

/** The slots and the rules that say them; of two as long the earlier wins. */
export type SlotRules = readonly (readonly [token: string, grammar: string, rule: string])[];
export const SLOTS: SlotRules = [
  ['_bottle', 'vessels', 'bottle'],
  ['tub', 'vessels', 'tub'],
  ['jug', 'vessels', 'jug'],
  ['tap', 'vessels', 'tap'],
  ['tank', 'vessels', 'tank'],
  ['_liquid', 'liquids', 'liquid'],
  ['_substance', 'substances', 'substance'],
  ['_format', 'world', 'format'],
  ['_stock', 'world', 'stock'],
  ['_place', 'places', 'place'],
  ['_volume', 'quantities', 'volume'],
  ['_mass', 'quantities', 'mass'],
  ['_duration', 'quantities', 'duration'],
  ['_duration', 'quantities', 'hours'],
  ['_degrees', 'quantities', 'temperature'],
  ['_num', 'numbers', 'spoken-number'],
  ['_num', 'numbers', 'any'],
];

type Spotter = (words: readonly string[]) => Spotted;
const spotters = new WeakMap<Grammars, Map<SlotRules, Spotter>>();

/** Finds the slots of a sentence, longest first from the left; made once for the same grammars and rules. */
export function slotSpotter(grammars: Grammars, rules: SlotRules = SLOTS): Spotter {
  const made = spotters.get(grammars) ?? new Map<SlotRules, Spotter>();
  spotters.set(grammars, made);
  const spot = made.get(rules) ?? compiledSpotter(grammars, rules);
  made.set(rules, spot);
  return spot;
}

function compiledSpotter(grammars: Grammars, rules: SlotRules): Spotter {
  const graphs = rules.map(([token, grammar, rule]) => ({
    token,
    graph: ruleGraph(grammars, grammar, rule),
  }));
  const starts = new Set(graphs.flatMap(({ graph }) => [...firstWords(graph)]));
  return (words) => {
    const tokens: string[] = [];
    const slots: Slot[] = [];
    for (let i = 0; i < words.length; ) {
      const slot = starts.has(words[i] ?? '') ? longest(graphs, words, i) : undefined;
      if (slot && isMeant(slot, words)) {
        tokens.push(slot.token);
        slots.push(slot);
        i = slot.to;
      } else tokens.push(words[i++] ?? '');
    }
    return { words, tokens, slots };
  };
}

function isMeant({ token, from, to }: Slot, words: readonly string[]): boolean {
  const said = words.slice(from, to).join(' ');
  const [before = '', after = ''] = [words[from - 1] ?? '', words[to] ?? ''];
  if (token === '_liquid' && (said === 'stop' || said === 'fix')) {
    return BEFORE_A_BATH.has(before) || (AFTER_A_BATH.has(after) && !BEFORE_A_VERB.has(before));
  }
  if (said === 'wash' || said === 'the water')
    return said !== 'wash' || BEFORE_A_BATH.has(before) || words.length === 1;
  if (said === 'one')
    return (
      before === '' ||
      BEFORE_ONE.has(before) ||
      (AFTER_ONE.has(after) && (after !== 'of' || BEFORE_ONE.has(before)))
    );
  if (token === '_bottle' && /^(?:the )?number/.test(said)) return !NUMBERED_TOO.has(before);
  // of the clock
  if (after === "o'clock") return false;
  return said !== 'oh' && (said !== 'a minute' || !BEFORE_A_MINUTE.has(before));
}

function longest(
  graphs: readonly { token: string; graph: WordGraph }[],
  words: readonly string[],
  from: number,
): Slot | undefined {
  let best: Slot | undefined;
  for (const { token, graph } of graphs) {
    const found = longestMatch(graph, words, from);
    if (!found || (best && best.to >= found.to)) continue;
    const unit = token !== '_degrees' || OF_DEGREES.test(words.slice(from, found.to).join(' '));
    if (unit)
      best = {
        token,
        fields: runTags(token === '_num' ? [...found.tags, '>value'] : found.tags),
        from,
        to: found.to,
      };
  }
  return best;
}

function firstWords(graph: WordGraph): Set<string> {
  const out = arcsFrom(graph);
  const found = new Set<string>();
  const seen = new Set<number>();
  const visit = (node: number): void => {
    if (seen.has(node)) return;
    seen.add(node);
    for (const a of out[node] ?? [])
      if (a.word === null) visit(a.to);
      else found.add(a.word);
  };
  visit(graph.start);
  return found;
}

/** The longest run of words from here that the graph says, with its tags. */
function longestMatch(
  graph: WordGraph,
  words: readonly string[],
  from: number,
): { to: number; tags: readonly string[] } | undefined {
  const out = arcsFrom(graph);
  let best: { to: number; tags: readonly string[] } | undefined;
  const follow = (node: number, at: number, tags: readonly string[]): void => {
    if (node === graph.end && at > from && at > (best?.to ?? from)) best = { to: at, tags };
    for (const a of out[node] ?? []) {
      const further = a.tags ? [...tags, ...a.tags] : tags;
      if (a.word === null) follow(a.to, at, further);
      else if (a.word === words[at]) follow(a.to, at + 1, further);
    }
  };
  follow(graph.start, from, []);
  return best;
}
