import { describe, expect, it } from 'vitest';
import { helpEntries, helpText } from '../../src/language/help.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { SITUATIONS } from '../../src/language/load.js';
import { INTENT_TYPES } from '../../src/process/intent.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();

describe('help, drawn from the grammars', () => {
  it('mentions every intent in some situation', () => {
    const shown = new Set(SITUATIONS.flatMap((s) => helpEntries([s], grammars).map((e) => e.intent)));
    expect(INTENT_TYPES.filter((t) => !shown.has(t))).toEqual([]);
  });

  it.each(SITUATIONS)('in %s each example is understood as what it is the example of', (situation) => {
    for (const entry of helpEntries([situation], grammars)) {
      expect(entry.examples.length, entry.intent).toBeGreaterThan(0);
      expect(entry.what, entry.intent).toMatch(/^[A-Z].*\.$/);
      for (const example of entry.examples) {
        const r = interpretTyped(example, [situation], grammars);
        expect(r, example).toMatchObject({ kind: 'understood' });
        if (r.kind !== 'understood') continue;
        // at the mixing bench "what's next", "what's left" and "where are we" are about the mix
        const aboutMix = situation === 'mixing' && /^mix-(next|where)$/.test(r.intent.type);
        if (!aboutMix) expect(r.intent.type, example).toBe(entry.intent);
        expect(r.outOfPlace, example).toBeUndefined();
      }
    }
  });

  it.each(SITUATIONS)('in %s names three things to say at most, then the subjects', (situation) => {
    const { text, more } = helpText([situation], grammars);
    expect(text).toMatch(/^You can say now: "[^"]+"(?:, "[^"]+"){0,2}\. Or "more"\.$/);
    expect(text.split(' ').length).toBeLessThanOrEqual(30);
    expect(more).toMatch(/^Say "help with" and one of these: .* or .*\.$/);
  });

  it('tells the sentences of one subject', () => {
    const one = helpText(['pouring'], grammars, 'spills').text;
    expect(one).toMatch(/"spilled twenty mils of bleach on the table" or "log a spill" or .*: Logs a spill/);
    expect(helpText(['pouring'], grammars, 'cooking').text).toMatch(
      /^There is no help about "cooking" now\. Ask about .* or .*\.$/,
    );
  });

  it('has help for every topic that can be asked for', () => {
    const groups = new Set(SITUATIONS.flatMap((s) => helpEntries([s], grammars).map((e) => e.group)));
    for (const topic of groups) {
      const r = interpretTyped(`help with ${topic}`, ['pouring'], grammars);
      expect(r, topic).toMatchObject({ kind: 'understood', intent: { type: 'help', topic } });
    }
  });
});
