import type { Situation } from '../process/desk.js';
import { findRule, references } from './jsgf/resolve.js';
import type { Expansion, Rule } from './jsgf/syntax.js';
import { type Grammars, PACKAGE } from './load.js';

/** One thing that can be said, from the documentation comment of its rule. */
export interface HelpEntry {
  /** the subject it belongs to (`@group`), e.g. "pouring" */
  group: string;
  /** the intent its tags name */
  intent: string;
  /** what it does, one sentence */
  what: string;
  /** sentences to say (`@example`) */
  examples: readonly string[];
  /** of a rule that another language added */
  locale?: string;
}

/** Everything that can be said in these situations and at any time, subjects in the order of the grammars. */
export function helpEntries(situations: readonly Situation[], grammars: Grammars): HelpEntry[] {
  const entries = new Map<Rule, HelpEntry>();
  for (const situation of new Set<Situation>([...situations, 'anytime'])) {
    const grammar = grammars.parsed.get(`${PACKAGE}.${situation}`);
    for (const outer of grammar?.rules.values() ?? []) {
      for (const { name, at } of grammar && outer.isPublic ? references(outer.expansion) : []) {
        if (!grammar) continue;
        const { rule } = findRule(grammar, name, at, (n) => grammars.parsed.get(n));
        const entry = entryOf(rule);
        if (entry) entries.set(rule, entry);
      }
    }
  }
  return [...entries.values()];
}

/** Subjects that are no work of the hands. */
const BESIDES = new Set(['advice', 'talking', 'answering', 'asking']);

/**
 * What can be said: with no topic three things that fit now, and as `more` the subjects; with a topic every sentence of
 * that subject with what it does. An unknown topic names the known ones.
 */
export function helpText(
  situations: readonly Situation[],
  grammars: Grammars,
  topic?: string,
): { text: string; more: string } {
  const open = helpEntries(situations, grammars);
  const subjects = [...new Set(open.map((e) => e.group))];
  if (topic !== undefined) {
    const entries = open.filter((e) => e.group === topic);
    const text = entries.map((e) => `${e.examples.map((x) => `"${x}"`).join(' or ')}: ${e.what}`).join('\n');
    return {
      text: text || `There is no help about "${topic}" now. Ask about ${listed(subjects)}.`,
      more: '',
    };
  }
  // a question that is open is answered first
  const asked = situations.includes('challenged');
  // what can only be said now comes before what can be said at any time
  const ever = new Set(helpEntries(['anytime'], grammars).map((e) => e.what));
  const now = open
    .toSorted((a, b) => Number(ever.has(a.what)) - Number(ever.has(b.what)))
    .filter((e) => (asked ? e.group === 'answering' : !BESIDES.has(e.group)))
    .slice(0, 3)
    .flatMap((e) => e.examples.slice(0, 1));
  return {
    text: `You can say now: ${now.map((e) => `"${e}"`).join(', ')}. Or "more".`,
    more: `Say "help with" and one of these: ${listed(subjects)}.`,
  };
}

function entryOf(rule: Rule): HelpEntry | undefined {
  const { doc } = rule;
  const intent = intentTag(rule.expansion);
  if (!doc || intent === undefined) return undefined;
  const tag = (name: string): string[] => doc.tags.filter((t) => t.name === name).map((t) => t.value);
  return {
    group: tag('group')[0] ?? 'other',
    intent,
    what: doc.text,
    examples: tag('example'),
    ...(rule.locale !== undefined && { locale: rule.locale }),
  };
}

function intentTag(e: Expansion): string | undefined {
  switch (e.kind) {
    case 'token':
    case 'rule':
      return undefined;
    case 'sequence':
      return first(e.items.map(intentTag));
    case 'alternatives':
      return first(e.items.map((i) => intentTag(i.expansion)));
    case 'tagged':
      return first(e.tags.map((t) => /^intent=(.+)$/.exec(t)?.[1])) ?? intentTag(e.of);
    default:
      return intentTag(e.of);
  }
}

const first = (found: readonly (string | undefined)[]): string | undefined =>
  found.find((f) => f !== undefined);

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
