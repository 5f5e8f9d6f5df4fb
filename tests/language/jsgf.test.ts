import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileGrammar } from '../../src/language/jsgf/compile.js';
import { parseJsgf } from '../../src/language/jsgf/parse.js';
import { packTags, tidyGraph, uniteGraphs } from '../../src/language/jsgf/tidy.js';
import { loadGrammars } from '../../src/language/load.js';
import { sentencesOf } from '../../src/language/sentences.js';
import type { WordArc, WordGraph } from '../../src/language/types.js';
import { tagPaths } from '../../src/language/walk.js';
import { countSentences } from './count-sentences.js';
import { grammarTexts, loadOwnGrammars } from './grammar-files.js';

describe('what is wrong in a grammar is said with its place', () => {
  const H = '#JSGF V1.0;\ngrammar g;\n';
  it.each([
    ['', 1, 1, 'the header'],
    ['\n#JSGF V1.0;\ngrammar g;', 1, 1, 'as the first thing'],
    ['#JSGF V2.0;\ngrammar g;', 1, 7, 'version V1.0'],
    ['#JSGF V1.0;\npublic <a> = b;', 2, 1, '"grammar name;"'],
    ['#JSGF V1.0;\ngrammar 9x;', 2, 9, 'a grammar name'],
    ['#JSGF V1.0;\ngrammar g', 2, 10, '";" after the grammar name'],
    [`${H}public <a> = b`, 3, 15, '";" at the end of the rule'],
    [`${H}public <a> b;`, 3, 12, '"=" after the rule name'],
    [`${H}public <a> = ;`, 3, 14, 'a word, a <rule>'],
    [`${H}public <a> = b | ;`, 3, 18, 'a word, a <rule>'],
    [`${H}public <a> = (b;`, 3, 16, 'opened at line 3, column 14'],
    [`${H}public <a> = [b);`, 3, 16, '"]" to close'],
    [`${H}public <a> = <b c>;`, 3, 16, '">" to close the rule name'],
    [`${H}public <a> = b {tag;`, 3, 17, '"}" to end this tag'],
    [`${H}public <a> = "b;`, 3, 15, 'a closing quote'],
    [`${H}public <a> = {t};`, 3, 14, 'something for the tag to follow'],
    [`${H}public <a> = b;\n<a> = c;`, 4, 1, 'each rule once'],
    [`${H}public <a> = b;\nimport <x.y>;`, 4, 1, 'imports before the first rule'],
    [`${H}import <x>;`, 3, 1, 'an import such as'],
    [`${H}/* open`, 3, 1, '"*/" to close the comment'],
    [`${H}private <a> = b;`, 3, 1, 'a rule ('],
    [`${H}public <a> = b {t}*;`, 3, 19, 'one of * and +'],
  ])('%j', (text, line, column, expected) => {
    const result = parseJsgf(text, 'file.jsgf');
    if (result.ok) throw new Error('accepted');
    expect(result.problem.expected).toContain(expected);
    expect([result.problem.line, result.problem.column]).toEqual([line, column]);
    expect(result.problem.message).toMatch(/^file\.jsgf, line \d+, column \d+: expected .+, found .+\.$/);
  });

  it('a grammar with no public rule, an unknown rule or a missing import does not compile', () => {
    const refusal = (body: string): string => {
      const r = compileGrammar(`${H}${body}`, () => undefined);
      return r.ok ? 'accepted' : r.problem.message;
    };
    expect(refusal('<a> = b;')).toContain('no rule is public');
    expect(refusal('public <a> = b\n  <c>;')).toContain('line 4, column 3: <c> is not defined');
    expect(refusal('import <x.c>;\npublic <a> = <c>;')).toContain('grammar x was not found');
  });

  it('a grammar that would grow without end is refused, not built', () => {
    const rules = Array.from(
      { length: 60 },
      (_, i) => `<r${i}> = (<r${i + 1}> | x${i}) (<r${i + 1}> | y${i});`,
    );
    const r = compileGrammar(`${H}public <a> = <r0>;\n${rules.join('\n')}\n<r60> = z;`, () => undefined);
    expect(r.ok ? '' : r.problem.message).toContain('too large');
  });

  it('our own grammars refuse repeats, recursion and strange tags, and name a missing situation', () => {
    const broken = (file: string, from: string, to: string): string => {
      const loaded = loadGrammars({ ...grammarTexts, [file]: (grammarTexts[file] ?? '').replace(from, to) });
      return loaded.ok ? 'accepted' : loaded.problems.map((p) => p.message).join('\n');
    };
    expect(broken('talk.jsgf', '(louder |', '(louder+ |')).toContain('a repeat in <louder>');
    expect(broken('talk.jsgf', '(louder |', '(loud <louder> |')).toContain('<louder> within itself');
    expect(broken('talk.jsgf', '{intent=louder}', '{intent louder}')).toContain('the tag {intent louder}');
    const { 'spill.jsgf': _, ...rest } = grammarTexts;
    const loaded = loadGrammars(rest);
    expect(loaded.ok ? '' : loaded.problems[0]?.message).toContain('no grammar tankside.spill');
  });

  it('any text at all gives a grammar or a problem, never a throw', () => {
    const piece = fc.constantFrom(
      '#JSGF V1.0;',
      'grammar g;',
      'public ',
      '<a>',
      '<b>',
      ' = ',
      ';',
      '|',
      '(',
      ')',
      '[',
      ']',
      '*',
      '+',
      '{t}',
      '"q r"',
      '/2/',
      'word ',
      '\n',
      '//',
      '/*',
      '*/',
      '\\',
      '<NULL>',
      '<VOID>',
      'import <g.*>;',
    );
    const text = fc.oneof(
      fc.string(),
      fc.array(piece, { maxLength: 40 }).map((p) => `#JSGF V1.0;\ngrammar g;\npublic <a> = ${p.join('')}`),
    );
    fc.assert(
      fc.property(text, (t) => {
        const r = compileGrammar(t, () => undefined);
        if (!r.ok) expect(r.problem.message.length).toBeGreaterThan(10);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('tidying a graph', () => {
  const arc = fc.record({
    from: fc.nat(6),
    step: fc.integer({ min: 1, max: 3 }),
    word: fc.constantFrom('a', 'b', null),
    tag: fc.option(fc.constantFrom('t', 'u'), { nil: undefined }),
  });
  const graph = fc.array(arc, { maxLength: 14 }).map((list): WordGraph => {
    const arcs: WordArc[] = list.map(({ from, step, word, tag }) => ({
      from,
      to: from + step,
      word,
      ...(tag !== undefined && { tags: [tag] }),
    }));
    return { name: 'g', nodeCount: 10, start: 0, end: 7, arcs };
  });
  const language = (g: WordGraph): string[] =>
    [
      ...new Set(
        [...sentencesOf(g, { limit: 20_000 })].map((s) => `${s.words.join(' ')} / ${s.tags.join(' ')}`),
      ),
    ].sort();

  it('keeps every sentence with its tags, and adds none', () => {
    fc.assert(
      fc.property(graph, (g) => {
        const all = language(g);
        expect(language(tidyGraph(g))).toEqual(all);
        expect(language(packTags(tidyGraph(g)))).toEqual(all);
        expect(tidyGraph(g).arcs.length).toBeLessThanOrEqual(g.arcs.length);
      }),
      { numRuns: 2000 },
    );
  });

  it('a union says what each says', () => {
    fc.assert(
      fc.property(graph, graph, (g, h) => {
        expect(language(uniteGraphs('u', [g, h]))).toEqual(
          [...new Set([...language(g), ...language(h)])].sort(),
        );
      }),
      { numRuns: 500 },
    );
  });

  it('the walk finds exactly the tags of the paths that say the words', () => {
    fc.assert(
      fc.property(graph, (g) => {
        const byWords = new Map<string, Set<string>>();
        for (const s of sentencesOf(g, { limit: 20_000 })) {
          const key = s.words.join(' ');
          byWords.set(key, (byWords.get(key) ?? new Set()).add(s.tags.join(' ')));
        }
        for (const [words, tags] of byWords) {
          const found = tagPaths(g, words.split(' ').filter(Boolean)).map((t) => t.join(' '));
          expect(found.sort()).toEqual([...tags].sort());
        }
      }),
      { numRuns: 1000 },
    );
  });
});

it('our grammars stay small enough to search while someone waits', () => {
  const { graphs } = loadOwnGrammars();
  for (const [name, g] of Object.entries(graphs)) {
    expect(g.arcs.length, name).toBeLessThan(7700);
    expect(countSentences(g), name).toBeLessThan(1e22);
  }
});
