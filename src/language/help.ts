import type { Situation } from '../process/desk.js';
import type { Grammars } from './load.js';
import { type CommandRecord, recordsIn } from './records.js';

/** Everything that can be said in these situations and at any time, subjects in the order of the grammars. */
export function helpEntries(situations: readonly Situation[], grammars: Grammars): CommandRecord[] {
  const open = [...new Set<Situation>([...situations, 'anytime'])].flatMap((s) => recordsIn(s, grammars));
  return [...new Map(open.map((record) => [record.id, record])).values()];
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

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
