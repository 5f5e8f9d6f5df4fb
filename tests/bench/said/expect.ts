import type { Intent } from '../../../src/process/intent.js';

/**
 * What a sentence may be taken for, in one line: `type field=value …`, alternatives parted by “ | ”, several facts by “ + ”.
 * `field=*` any value, `field?=value` may also be left out; `type *` with any fields, else a field that is not named must not be there. `nothing`: it
 * must do nothing; `asked`: to be asked back is right. Which bath or bottle a question of the trade was asked of, and whether a weighed
 * powder was named beside its amount, is not judged.
 */
export interface Expected {
  alternatives: readonly string[];
  nothing: boolean;
  askedIsRight: boolean;
}

export function readExpected(column: string): Expected {
  const alternatives = column
    .split('|')
    .map((a) => a.trim())
    .filter(Boolean);
  if (alternatives.length === 0) throw new Error('A sentence without an expected meaning.');
  return {
    alternatives: alternatives.filter((a) => a !== 'nothing' && a !== 'asked'),
    nothing: alternatives.includes('nothing'),
    askedIsRight: alternatives.includes('asked'),
  };
}

export const matches = (intent: Intent, { alternatives }: Expected): boolean =>
  alternatives.some((a) => matchesOne(intent, a));

function matchesOne(intent: Intent, wanted: string): boolean {
  if (wanted.includes(' + ')) {
    const parts = wanted.split(' + ');
    return (
      intent.type === 'several' &&
      intent.intents.length === parts.length &&
      parts.every((part) => intent.intents.some((i) => matchesOne(i, part)))
    );
  }
  const [type, ...fields] = wanted.trim().split(/\s+/);
  if (type !== intent.type) return false;
  if (fields[0] === '*') return true;
  const said = new Map(
    Object.entries(intent)
      .filter(([name]) => name !== 'type')
      .map(([name, value]) => [name, plain(value)]),
  );
  for (const field of fields) {
    const [, name = '', optional, value = ''] = /^(\w+)(\?)?=(.*)$/.exec(field) ?? [];
    const found = said.get(name);
    said.delete(name);
    if (found === undefined ? optional === undefined : value !== '*' && found !== value) return false;
  }
  for (const name of UNJUDGED[type ?? ''] ?? []) said.delete(name);
  return said.size === 0;
}

const UNJUDGED: Readonly<Record<string, readonly string[]>> = {
  'ask-advice': ['liquid', 'bottle'],
  reading: ['substance', 'added'],
  hurt: ['who'],
  spill: ['who'],
};

/** A field's value in one word: `bottle:2`, `tank`, `41.1`. */
function plain(value: unknown): string {
  if (typeof value === 'number') return String(Math.round(value * 100) / 100);
  if (typeof value !== 'object' || value === null) return String(value).replace(/\s+/g, '_');
  const vessel = value as { kind?: string; number?: number };
  return vessel.number === undefined ? String(vessel.kind) : `${vessel.kind}:${vessel.number}`;
}

/** An intent in the notation of the tables. */
export function written(intent: Intent): string {
  if (intent.type === 'several') return intent.intents.map(written).join(' + ');
  const fields = Object.entries(intent).filter(([name]) => name !== 'type');
  return [intent.type, ...fields.map(([name, value]) => `${name}=${plain(value)}`)].join(' ');
}
