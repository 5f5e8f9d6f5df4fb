import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { compileGrammar } from './jsgf/compile.js';
import { parseJsgf } from './jsgf/parse.js';
import { findRule, references } from './jsgf/resolve.js';
import type { Expansion, Grammar, Rule } from './jsgf/syntax.js';
import { type Grammars, PACKAGE, SITUATIONS } from './load.js';
import { type Fields, runTags } from './meaning/tags.js';
import { sentencesOf } from './sentences.js';
import type { WordGraph } from './types.js';

/** One command: everything that is known of it, read from its rule in the grammars and the comment above it. */
export interface CommandRecord {
  /** full name of its rule, e.g. `tankside.moves.pour-in` */
  id: string;
  rule: Rule;
  grammar: Grammar;
  intent: Intent['type'] | 'none';
  /** fields that the whole rule sets, whatever the sentence */
  fixed: Fields;
  /** the subject under which help lists it (`@group`) */
  group: string;
  /** what it does, one sentence */
  what: string;
  /** sentences to say (`@example`) */
  examples: readonly string[];
  /** the answer to a question of the trade, and the rest of it (`@answer`, `@more`) */
  answer?: string;
  more?: string;
  /** where it makes sense; `anytime` is everywhere */
  situations: readonly Situation[];
}

/** Reads the commands out of the grammars: every rule with a `@group`, in the order of the situations. */
export function commandRecords(grammars: Grammars): CommandRecord[] {
  const spoken = SITUATIONS.flatMap((s) => recordsIn(s, grammars).map((r) => [r.rule, r] as const));
  const unspoken = ['elsewhere', 'further'].flatMap((name) => {
    const grammar = grammars.parsed.get(`${PACKAGE}.${name}`);
    return [...(grammar?.rules.values() ?? [])].flatMap((rule) => (grammar && recordOf(grammar, rule)) ?? []);
  });
  return [
    ...[...new Map(spoken)].map(([rule, record]) => ({
      ...record,
      situations: spoken.filter(([of]) => of === rule).flatMap(([, { situations }]) => situations),
    })),
    ...unspoken.map((r) => ({ ...r, situations: ['anytime' as const] })),
  ];
}

/** The commands that one situation has, in the order of its grammar. */
export function recordsIn(situation: Situation, grammars: Grammars): CommandRecord[] {
  const grammar = grammars.parsed.get(`${PACKAGE}.${situation}`);
  if (!grammar) return [];
  return [...grammar.rules.values()]
    .filter((outer) => outer.isPublic)
    .flatMap((outer) => references(outer.expansion))
    .flatMap(({ name, at }) => {
      const found = findRule(grammar, name, at, (n) => grammars.parsed.get(n));
      const record = recordOf(found.grammar, found.rule);
      return record ? [{ ...record, situations: [situation] }] : [];
    });
}

function recordOf(grammar: Grammar, rule: Rule): CommandRecord | undefined {
  const { doc } = rule;
  const tags = outerTags(rule.expansion);
  const { intent, ...fixed } = runTags(tags.filter((t) => /^[\w.]+=/.test(t)));
  const group = doc?.tags.find((t) => t.name === 'group')?.value;
  if (!doc || group === undefined || typeof intent !== 'string') return undefined;
  const all = (name: string): string[] => doc.tags.filter((t) => t.name === name).map((t) => t.value);
  return {
    id: `${grammar.name}.${rule.name}`,
    rule,
    grammar,
    intent: intent as CommandRecord['intent'],
    fixed,
    group,
    what: doc.text,
    examples: all('example'),
    ...(all('answer')[0] !== undefined && { answer: all('answer').join(' ') }),
    ...(all('more')[0] !== undefined && { more: all('more').join(' ') }),
    situations: [],
  };
}

/** The tags of the whole rule, or of its first alternative that has any intent at all. */
function outerTags(e: Expansion): readonly string[] {
  if (e.kind === 'tagged') return [...(e.of.kind === 'tagged' ? outerTags(e.of) : []), ...e.tags];
  if (e.kind === 'sequence')
    return e.items.flatMap((i) => (i.kind === 'tagged' && setsIntent(i) ? outerTags(i) : []));
  if (e.kind === 'alternatives')
    return e.items.map((i) => outerTags(i.expansion)).find((t) => t.length > 0) ?? [];
  return [];
}

const setsIntent = (e: Expansion): boolean =>
  e.kind === 'tagged' && (e.tags.some((t) => t.startsWith('intent=')) || setsIntent(e.of));

/** Rules whose words are one slot to the open understanding → the token that stands for them. */
const SLOT_RULES: Readonly<Record<string, string>> = {
  'liquids.liquid': '_liquid',
  'liquids.alone': '_liquid',
  'liquids.contracted': '_liquid is',
  'vessels.bottle': '_bottle',
  'quantities.temperature': '_degrees',
  'quantities.bath-temperature': '_num',
  'quantities.volume': '_volume',
  'quantities.mass': '_mass',
  'quantities.duration': '_duration',
  'quantities.hours': '_duration',
  'substances.substance': '_substance',
  'recipes.recipe': '_liquid',
  'places.place': '_place',
  'names.name': '_name',
  'world.stock': '_stock',
  'world.format': '_format',
};

/** The slots that a wording may name. */
const OPEN_SLOTS = [
  ...['liquid', 'bottle', 'degrees', 'num', 'volume', 'mass', 'duration', 'substance', 'place', 'name'],
  ...['stock', 'format'],
]
  .map((slot) => `<${slot}> = _${slot};`)
  .join('\n');

const rulesOf = (grammar: Grammar): Map<string, Rule> => new Map(grammar.rules);

/** The grammars with one token in place of every liquid, vessel, number and amount. */
function abstracted(grammars: Grammars): (name: string) => Grammar | undefined {
  const swapped = new Map<string, Grammar>();
  for (const [name, grammar] of grammars.parsed) {
    const short = name.slice(PACKAGE.length + 1);
    const rules = rulesOf(grammar);
    for (const [ruleName, rule] of rules) {
      const token =
        SLOT_RULES[`${short}.${ruleName}`] ?? (short === 'numbers' && rule.isPublic ? '_num' : undefined);
      if (token === undefined) continue;
      const items = token.split(' ').map((text) => ({ kind: 'token', text, at: rule.at }) as const);
      rules.set(ruleName, { ...rule, expansion: { kind: 'sequence', items } });
    }
    swapped.set(name, { ...grammar, rules });
  }
  return (name) => swapped.get(name);
}

/** What there is to learn a command from; slots are tokens. */
export interface Lesson {
  record: CommandRecord;
  sentences: readonly (readonly string[])[];
  /** every word of its wordings, also of those that were not drawn */
  words: ReadonlySet<string>;
}

/** At most this many sentences are taken of a record's grammar, and of each of its open wordings. */
const MOST = 36;

/** What people say beside the grammar, JSGF over words and `<slots>`, by the record that is meant. */
export type Wordings = ReadonlyMap<string, readonly string[]>;

/** Reads wordings: “= grammar.rule” and below it a wording a line; `#` begins a comment. */
export function readWordings(text: string): Wordings {
  const found = new Map<string, string[]>();
  let wordings: string[] = [];
  for (const line of text.split('\n').map((l) => l.trim())) {
    if (line === '' || line.startsWith('#')) continue;
    const id = /^= ([\w-]+\.[\w-]+)$/.exec(line)?.[1];
    if (id === undefined) wordings.push(line);
    else {
      wordings = found.get(`${PACKAGE}.${id}`) ?? [];
      found.set(`${PACKAGE}.${id}`, wordings);
    }
  }
  return found;
}

/** Sentences of people who had not seen the grammars, by the record that is meant. */
export type Said = ReadonlyMap<string, readonly string[]>;

/** What somebody said: records that are meant, one as a rule; where it is known, the moment. */
interface SaidLine {
  readonly ids: readonly string[];
  readonly words: string;
  readonly moment?: string;
}

/** Reads sentences: `grammar.rule TAB words TAB moment`; "grammar.rule+grammar.rule" is two commands in one, `nothing` what must do nothing. */
export function saidLines(text: string): SaidLine[] {
  return text.split('\n').flatMap((line) => {
    const [meaning = '', words = '', moment = ''] = line.split('\t');
    if (meaning === '' || words.trim() === '') return [];
    const said = { ids: meaning.split('+').map(idOf), words: words.trim() };
    return [moment === '' ? said : { ...said, moment }];
  });
}

/** Reads the sentences of one command each: two in one teach the encoder alone. */
export function readSaid(text: string): Said {
  const found = new Map<string, string[]>();
  for (const { ids, words } of saidLines(text)) {
    const [id = '', second] = ids;
    if (second === undefined) found.set(id, [...(found.get(id) ?? []), words]);
  }
  return found;
}

/** The moments' places in which nobody said a command, though so many of its sentences tell theirs that some should have. */
export function neverSaidIn(text: string): Map<string, string[]> {
  const said = saidLines(text).flatMap(({ ids, moment }) =>
    ids.map((id) => ({ id, place: moment?.split(' ')[0] ?? '' })),
  );
  const told = said.filter(({ place }) => place !== '');
  const count = (key: 'id' | 'place' | 'both'): Map<string, number> => {
    const found = new Map<string, number>();
    for (const { id, place } of told) {
      const name = key === 'both' ? `${id} ${place}` : key === 'id' ? id : place;
      found.set(name, (found.get(name) ?? 0) + 1);
    }
    return found;
  };
  const [ids, places, both] = [count('id'), count('place'), count('both')];
  return new Map(
    [...ids].map(([id, times]) => [
      id,
      [...places].flatMap(([place, all]) =>
        !both.has(`${id} ${place}`) && (times * all) / told.length >= LEAST_AWAITED ? [place] : [],
      ),
    ]),
  );
}
const LEAST_AWAITED = 2;

/** The record of what must do nothing. */
const NOTHING = `${PACKAGE}.elsewhere.other`;
const idOf = (meaning: string): string => (meaning === 'nothing' ? NOTHING : `${PACKAGE}.${meaning}`);

/** The sentences of every record, from its grammar and its wordings. */
export function lessonsOf(
  records: readonly CommandRecord[],
  wordings: Wordings,
  grammars: Grammars,
  random: () => number,
): Lesson[] {
  const strange = [...wordings.keys()].find((id) => !records.some((r) => r.id === id));
  if (strange !== undefined) throw new Error(`There are wordings of ${strange}, which is no command.`);
  const resolve = abstracted(grammars);
  return records.map((record) => {
    const grammar = resolve(record.grammar.name) ?? record.grammar;
    const spoken = compileGrammar(grammar, resolve, { rule: record.rule.name });
    const graphs = [
      ...(spoken.ok ? [spoken.graph] : []),
      ...(wordings.get(record.id) ?? []).map((wording) => openGraph(record, wording)),
    ];
    const drawn = graphs.flatMap((graph) => {
      const few = [...sentencesOf(graph, { limit: MOST + 1 })];
      return few.length <= MOST ? few : [...sentencesOf(graph, { limit: MOST, random })];
    });
    const sentences = new Map(
      drawn.filter((s) => s.words.length > 0).map((s) => [s.words.join(' '), s.words]),
    );
    const words = new Set(graphs.flatMap((g) => g.arcs.flatMap((a) => a.word ?? [])));
    return { record, sentences: [...sentences.values()], words };
  });
}

function openGraph(record: CommandRecord, wording: string): WordGraph {
  const text = `#JSGF V1.0;\ngrammar open;\npublic <it> = ${wording};\n${OPEN_SLOTS}`;
  const parsed = parseJsgf(text);
  const compiled = parsed.ok ? compileGrammar(parsed.grammar, () => undefined, { rule: 'it' }) : parsed;
  if (!compiled.ok) throw new Error(`${record.id}: “${wording}”: ${compiled.problem.message}`);
  return compiled.graph;
}
