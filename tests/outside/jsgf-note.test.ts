import { describe, expect, it } from 'vitest';
import { compileGrammar } from '../../src/language/jsgf/compile.js';
import { parseJsgf } from '../../src/language/jsgf/parse.js';
import type { Grammar } from '../../src/language/jsgf/syntax.js';
import { sentencesOf } from '../../src/language/sentences.js';
import type { WordGraph } from '../../src/language/types.js';
import { tagPaths } from '../../src/language/walk.js';
import { countSentences } from '../language/count-sentences.js';

/**
 * JSpeech Grammar Format, W3C Note of 5 June 2000. The section is named beside each check; the grammars are from
 * memory of the Note's own examples (its opening pages could be read when these were written, the rest not).
 */

function graphOf(body: string, imports: string[] = [], rule?: string): WordGraph {
  const others = new Map(imports.map((t) => parsed(t)).map((g) => [g.name, g]));
  const source = body.startsWith('#JSGF') ? body : `#JSGF V1.0;\ngrammar test;\n${body}`;
  const result = compileGrammar(source, (name) => others.get(name), rule === undefined ? {} : { rule });
  if (!result.ok) throw new Error(result.problem.message);
  return result.graph;
}

function parsed(text: string): Grammar {
  const result = parseJsgf(text);
  if (!result.ok) throw new Error(result.problem.message);
  return result.grammar;
}

const says = (g: WordGraph, sentence: string): boolean =>
  tagPaths(g, sentence.split(' ').filter(Boolean)).length > 0;
const tags = (g: WordGraph, sentence: string): string[][] => tagPaths(g, sentence.split(' ').filter(Boolean));
const all = (g: WordGraph): string[] =>
  [...sentencesOf(g, { limit: 1000 })].map((s) => s.words.join(' ')).sort();
const refusal = (body: string): string => {
  const result = compileGrammar(`#JSGF V1.0;\ngrammar test;\n${body}`, () => undefined);
  return result.ok ? 'accepted' : result.problem.message;
};

describe('W3C Note on JSGF', () => {
  it('2.2, 4.1: rule names may hold signs and letters of any script, and case counts', () => {
    const g = parsed(
      '#JSGF V1.0;\ngrammar t;\n<hello> = a;\n<Zürich> = b;\n<user_test> = c;\n<$100> = d;\n<1+2=3> = e;\n<Hello> = f;',
    );
    expect([...g.rules.keys()]).toEqual(['hello', 'Zürich', 'user_test', '$100', '1+2=3', 'Hello']);
  });

  it('2.3: quoted tokens keep their white space and their escapes', () => {
    expect(all(graphOf('public <city> = "San Francisco" | "New York" | hello;'))).toEqual([
      'hello',
      'new york',
      'san francisco',
    ]);
    expect(all(graphOf('public <q> = "\\"" | "a\\\\b";'))).toEqual(['"', 'a\\b']);
  });

  it('2.4: comments of both kinds may stand anywhere between tokens', () => {
    expect(all(graphOf('// one line\npublic /* here */ <a> = b /* and\nhere */ c; // end'))).toEqual(['b c']);
  });

  it('3.1: the header carries version, encoding and locale, and stands first', () => {
    expect(parsed('#JSGF V1.0 ISO8859-5 en;\ngrammar a;')).toMatchObject({
      version: 'V1.0',
      encoding: 'ISO8859-5',
      locale: 'en',
    });
    expect(parsed('#JSGF V1.0 JIS ja;\ngrammar a;')).toMatchObject({ encoding: 'JIS', locale: 'ja' });
    expect(parsed('#JSGF V1.0;\ngrammar a;').encoding).toBeUndefined();
    expect(parseJsgf('// first\n#JSGF V1.0;\ngrammar a;').ok).toBe(false);
  });

  it('3.2: grammar names are simple or packaged', () => {
    expect(parsed('#JSGF V1.0;\ngrammar robot;').name).toBe('robot');
    expect(parsed('#JSGF V1.0;\ngrammar com.acme.politeness;').name).toBe('com.acme.politeness');
  });

  it('3.3: imports of one rule or of all, named simply, partly or in full', () => {
    const politeness =
      '#JSGF V1.0;\ngrammar com.acme.politeness;\npublic <startPolite> = please;\n<secret> = x;';
    for (const name of ['startPolite', 'politeness.startPolite', 'com.acme.politeness.startPolite']) {
      for (const imported of ['com.acme.politeness.startPolite', 'com.acme.politeness.*']) {
        expect(all(graphOf(`import <${imported}>;\npublic <a> = <${name}> go;`, [politeness]))).toEqual([
          'please go',
        ]);
      }
    }
    // only public rules can be imported, and a full name does not replace the import
    expect(() =>
      graphOf('import <com.acme.politeness.secret>;\npublic <a> = <secret>;', [politeness]),
    ).toThrow('not public');
    expect(() => graphOf('public <a> = <com.acme.politeness.startPolite>;', [politeness])).toThrow(
      'not defined',
    );
  });

  it('4.2, 5.2: a local rule goes before an imported one; two imported ones that fit are an error', () => {
    const one = '#JSGF V1.0;\ngrammar one;\npublic <x> = from one;';
    const two = '#JSGF V1.0;\ngrammar two;\npublic <x> = from two;';
    expect(all(graphOf('import <one.x>;\npublic <a> = <x>;\n<x> = here;', [one, two]))).toEqual(['here']);
    expect(() => graphOf('import <one.*>;\nimport <two.*>;\npublic <a> = <x>;', [one, two])).toThrow(
      'could be <one.x> and <two.x>',
    );
    expect(all(graphOf('import <one.*>;\nimport <two.*>;\npublic <a> = <two.x>;', [one, two]))).toEqual([
      'from two',
    ]);
  });

  it('4.3.1: a sequence is said in its order', () => {
    const g = graphOf('public <s> = I live in (Boston | "New York");');
    expect(all(g)).toEqual(['i live in boston', 'i live in new york']);
    expect(says(g, 'live i in boston')).toBe(false);
  });

  it('4.3.2: alternatives, and "|" binds less than a sequence', () => {
    expect(all(graphOf('public <name> = Michael | Yuriko | Mary | Duke;'))).toHaveLength(4);
    expect(all(graphOf('public <a> = south | north pole | east;'))).toEqual(['east', 'north pole', 'south']);
  });

  it('4.3.3: weights of every number form; none of them below zero, not all zero, all or none given', () => {
    const g = graphOf('public <size> = /10/ small | /2/ medium | /1/ large;');
    const weights = Object.fromEntries(
      g.arcs.flatMap((a) => (a.weight ? [[g.arcs.find((b) => b.from === a.to)?.word, a.weight]] : [])),
    );
    expect(weights).toEqual({ small: 10, medium: 2 });
    expect(all(graphOf('public <w> = /56/ a | /0.056/ b | /3.14e3/ c | /3.14f/ d;'))).toEqual([
      'a',
      'b',
      'c',
      'd',
    ]);
    expect(all(graphOf('public <w> = /0/ never | /1/ always;'))).toEqual(['always']);
    expect(refusal('public <w> = /0/ a | /0/ b;')).toContain('at least one weight above 0');
    expect(refusal('public <w> = /2/ a | b;')).toContain('a weight on every alternative');
    expect(refusal('public <w> = /-1/ a | /1/ b;')).toContain('a number from 0 up');
  });

  it('4.4: round brackets group, square brackets make optional', () => {
    expect(all(graphOf('public <c> = (open | close) [the] [immediately] window;'))).toHaveLength(8);
    expect(all(graphOf("public <c> = [please | kindly] don't crash;"))).toEqual([
      "don't crash",
      "kindly don't crash",
      "please don't crash",
    ]);
  });

  it('4.5: "*" is none or more, "+" one or more, and each binds to what stands just before', () => {
    const star = graphOf(
      "public <c> = <polite>* don't crash;\n<polite> = please | kindly | oh mighty computer;",
    );
    for (const s of [
      "don't crash",
      "please don't crash",
      "oh mighty computer kindly please please don't crash",
    ]) {
      expect(says(star, s)).toBe(true);
    }
    const plus = graphOf("public <c> = <polite>+ don't crash;\n<polite> = please;");
    expect([says(plus, "don't crash"), says(plus, "please please don't crash")]).toEqual([false, true]);
    const last = graphOf('public <d> = sing la*;');
    expect([says(last, 'sing la la'), says(last, 'sing la sing la'), says(last, 'sing')]).toEqual([
      true,
      false,
      true,
    ]);
    expect(countSentences(star)).toBe(Number.POSITIVE_INFINITY);
    expect(refusal('public <c> = a*+;')).toContain('one of * and +');
  });

  it('4.6: a tag belongs to the part before it, several may follow, and braces inside are escaped', () => {
    const g = graphOf('public <c> = please (open {OPEN} | close {CLOSE}) the file;');
    expect(tags(g, 'please open the file')).toEqual([['OPEN']]);
    const country = graphOf(
      'public <country> = Australia {Oz} | (United States) {USA} | America {USA} | (U S of A) {USA};',
    );
    for (const s of ['united states', 'america', 'u s of a']) expect(tags(country, s)).toEqual([['USA']]);
    expect(tags(graphOf('public <a> = (go north {ONE} | stay) {TWO} {THREE};'), 'go north')).toEqual([
      ['ONE', 'TWO', 'THREE'],
    ]);
    expect(tags(graphOf('public <n> = x {{nasty looking \\} tag\\\\};'), 'x')).toEqual([
      ['{nasty looking } tag\\'],
    ]);
    expect(tags(graphOf('public <n> = (a | b)* {many};'), 'a b a')).toEqual([['many']]);
  });

  it('4.7: token, brackets, unary signs, sequence, alternatives, in that order', () => {
    const g = graphOf('public <p> = a b* | c d {T};');
    expect([says(g, 'a b b'), says(g, 'a b a b'), says(g, 'c d'), says(g, 'a d')]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect(tags(g, 'c d')).toEqual([['T']]);
    expect(tags(g, 'a b')).toEqual([[]]);
  });

  it('4.8: right recursion, nested too, is a loop; other recursion is refused', () => {
    const command = graphOf(
      'public <command> = <action> | (<action> and <command>);\n<action> = stop | start | pause | finish;',
    );
    expect(says(command, 'stop and start and pause and finish')).toBe(true);
    expect([says(command, 'stop and'), says(command, 'and stop')]).toEqual([false, false]);
    const nested = graphOf('public <X> = something | <Y>;\n<Y> = another thing <X>;');
    expect(says(nested, 'another thing another thing something')).toBe(true);
    expect(says(nested, 'another thing')).toBe(false);
    expect(refusal('public <b> = <b> stuff | stuff;')).toContain('left recursion');
    expect(refusal('public <e> = ( <e> ) | x <e> y | x;')).toMatch(/recursion/);
    expect(refusal('public <e> = x <e> y | x;')).toContain('with something after it');
  });

  it('4.9: <NULL> is said by saying nothing, <VOID> is never said', () => {
    expect(all(graphOf('public <a> = (b | <NULL>) c;'))).toEqual(['b c', 'c']);
    expect(all(graphOf('public <a> = b <VOID> | c;'))).toEqual(['c']);
    expect(all(graphOf('public <a> = <VOID> | go;'))).toEqual(['go']);
    expect(refusal('public <NULL> = a;')).toContain('already defined');
  });

  it('4.10: a documentation comment belongs to what follows it, with its tags', () => {
    const g = parsed(`#JSGF V1.0;
/**
 * Commands for a window.
 * @version 1.0
 */
grammar windows;
/**
 * Do something to a window.
 * @example open the window
 * @example close it
 * @see <object>
 */
public <command> = open | close;
/* not documentation */
<object> = window;`);
    expect(g.doc?.text).toBe('Commands for a window.');
    expect(g.rules.get('command')?.doc).toEqual({
      text: 'Do something to a window.',
      tags: [
        { name: 'example', value: 'open the window' },
        { name: 'example', value: 'close it' },
        { name: 'see', value: '<object>' },
      ],
    });
    expect(g.rules.get('object')?.doc).toBeUndefined();
  });

  it('5.1: the simple command grammar, over two files', () => {
    const politeness = `#JSGF V1.0 ISO8859-1 en;
grammar com.acme.politeness;
public <startPolite> = (please | kindly | could you | oh  mighty  computer) *;
public <endPolite> = [ please | thanks | thank you ];`;
    const commands = `#JSGF V1.0 ISO8859-1 en;
grammar com.acme.commands;
import <com.acme.politeness.startPolite>;
import <com.acme.politeness.endPolite>;
public <basicCmd> = <startPolite> <command> <endPolite>;
<command> = <action> <object>;
<action> = /10/ open |/2/ close |/1/ delete |/1/ move;
<object> = [the | a] (window | file | menu);`;
    const g = graphOf(commands, [politeness]);
    for (const s of [
      'open a window',
      'oh mighty computer please open a menu',
      'please kindly close the file thank you',
      'delete menu thanks',
    ]) {
      expect(says(g, s)).toBe(true);
    }
    for (const s of ['open', 'the window', 'thanks open a window', 'open a window please thanks'])
      expect(says(g, s)).toBe(false);
  });
});
