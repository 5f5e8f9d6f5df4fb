import { dictionary } from 'cmu-pronouncing-dictionary';
import { describe, expect, it } from 'vitest';
import { findSubstance } from '../../src/chemistry/substances.js';
import { interpretHeard } from '../../src/language/interpret.js';
import { compileGrammar } from '../../src/language/jsgf/compile.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { SITUATIONS } from '../../src/language/load.js';
import { sentencesOf } from '../../src/language/sentences.js';
import { liquids } from '../../src/world/liquids.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();

/** Trade words and a few British ones that the CMU dictionary lacks; src/speech keeps their sounds. */
const OWN_LEXICON = [
  'anhydrous',
  'bisulfite',
  'decahydrate',
  'ferricyanide',
  "fixer's",
  'heptahydrate',
  'hexametaphosphate',
  'hydrochloric',
  'isopropyl',
  'metabisulfite',
  'monohydrate',
  'muriatic',
  'nought',
  'pentahydrate',
  'permanganate',
  'persulfate',
  'prebath',
  'replenisher',
  'shush',
  'tared',
  'thiocyanate',
  'thiosulfate',
  'trisodium',
  'worktop',
];

describe('the words of the grammars', () => {
  it('are in the CMU Pronouncing Dictionary, but for a known few', () => {
    const missing = [...grammars.vocabulary].filter((w) => !Object.hasOwn(dictionary, w)).sort();
    expect(missing).toEqual(OWN_LEXICON);
  });

  it('are lower case and free of signs', () => {
    for (const w of grammars.vocabulary) expect(w).toMatch(/^[a-z]+('[a-z]+)?$/);
  });
});

describe('ids in tags', () => {
  const tagged = (grammar: string, rule: string, key: string): string[] => {
    const g = grammars.parsed.get(grammar);
    const compiled = g && compileGrammar(g, (n) => grammars.parsed.get(n), { rule });
    if (!compiled?.ok) throw new Error(rule);
    const sentences = [...sentencesOf(compiled.graph, { limit: 5000 })];
    return [...new Set(sentences.map((s) => s.tags.filter((t) => t.startsWith(`${key}=`)).at(-1) ?? ''))].map(
      (t) => t.slice(key.length + 1),
    );
  };

  it('substances are ones that chemistry knows', () => {
    const ids = tagged('tankside.substances', 'substance', 'substance');
    expect(ids.length).toBeGreaterThan(25);
    expect(ids.filter((id) => !findSubstance(id))).toEqual([]);
  });

  it('liquids are those of the process, by every name they are given there', () => {
    expect(tagged('tankside.liquids', 'liquid', 'liquid').sort()).toEqual(liquids.map((l) => l.id).sort());
    for (const { id, spoken } of liquids) {
      for (const name of spoken) {
        const r = interpretTyped(`pouring the ${name} in`, ['pouring'], grammars);
        expect(r, name).toMatchObject({ kind: 'understood', intent: { type: 'pour-in', liquid: id } });
      }
    }
  });

  it('and no grammar has a name for one that its own record lacks', () => {
    const g = grammars.parsed.get('tankside.liquids');
    const compiled = g && compileGrammar(g, (n) => grammars.parsed.get(n), { rule: 'liquid' });
    if (!compiled?.ok) throw new Error('liquid');
    for (const { words, tags } of sentencesOf(compiled.graph, { limit: 5000 })) {
      const id = tags.findLast((t) => t.startsWith('liquid='))?.slice('liquid='.length);
      const name = words.filter((w, i) => i > 0 || !['the', 'this'].includes(w)).join(' ');
      expect(liquids.find((l) => l.id === id)?.spoken, `${name}: ${id}`).toContain(name);
    }
  });
});

describe('what must always get through does', () => {
  it.each(SITUATIONS)('in %s', (situation) => {
    for (const [words, type] of [
      ['quiet', 'quiet'],
      ['stop', 'stop'],
      ['help', 'help'],
      ['no', 'cancel'],
      ['yes', 'confirm'],
      ['undo that', 'undo'],
      ['log a spill', 'spill'],
    ]) {
      expect(interpretHeard(words ?? '', [situation], grammars)).toMatchObject({ intent: { type } });
    }
  });
});
