import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { intentKey } from '../language/interpret.js';
import { compileGrammar } from '../language/jsgf/compile.js';
import { parseJsgf } from '../language/jsgf/parse.js';
import type { Grammar } from '../language/jsgf/syntax.js';
import { languages } from '../language/languages/index.js';
import type { LanguageCode, Words } from '../language/languages/words.js';
import { type Grammars, loadGrammars, SITUATIONS } from '../language/load.js';
import { readTag, runTags } from '../language/meaning/tags.js';
import { type Encoder, type EncoderFile, openEncoder } from '../language/open/encoder.js';
import { nameOf, unpackLearnt } from '../language/open/packed.js';
import { rankerOf } from '../language/open/ranker.js';
import { giveLearnt, learn } from '../language/open/understand.js';
import type { WordGraph } from '../language/types.js';
import { createLanguage, type Language } from '../language/understanding.js';
import { tagPaths } from '../language/walk.js';
import { limits } from '../limits.js';
import { asIntent, type Intent } from '../process/intent.js';
import type { ProcessSheet } from '../process/sheet.js';
import { type Liquid, liquidById } from '../world/liquids.js';
import { exitCode, Refusal } from './exit.js';
import { encoderDir, grammarDir, learntFile, rankerFile } from './paths.js';
import { readText } from './read-text.js';

/** The language room with the grammars of this installation. */
export interface InstalledLanguage extends Language {
  /** baths that the grammars have from the chosen sheet */
  readonly own: readonly OwnBath[];
  /** the situations, for a person to choose from */
  readonly names: readonly string[];
  /** everything that can be said in any situation */
  everything(): WordGraph;
  byName(name: string): WordGraph | null;
  /** whether two sentences mean the same, whatever the situation */
  sameMeaning(a: string, b: string): boolean;
  /** a grammar of the user's own; its imports are looked for among ours */
  compileFile(path: string): { graph: WordGraph } | { problem: string };
}

/**
 * `own`: baths of the chosen sheet that are none of the well-known ones; they can be said by their names.
 * @throws Refusal when the installation's grammars are missing or damaged
 */
export function installedLanguage(
  own: readonly OwnBath[] = [],
  code: LanguageCode = 'en',
): InstalledLanguage {
  const words = languages[code];
  const grammars = readGrammars(own, words);
  const language = createLanguage(grammars, words);
  const situation = (name: string) => SITUATIONS.find((s) => s === name);
  return {
    ...language,
    own,
    names: SITUATIONS,
    everything: () => language.graph(SITUATIONS),
    byName: (name) => {
      const known = situation(name);
      return known ? language.graph([known]) : null;
    },
    sameMeaning: (a, b) => a === b || sameMeaning(language, a, b),
    compileFile: (path) => compileFile(path, grammars.parsed),
  };
}

/** The texts of this installation's grammars, by file; `folder`: of another language. */
export function grammarTexts(folder = ''): Record<string, string> {
  const files = readdirSync(join(grammarDir, folder)).filter((f) => f.endsWith('.jsgf'));
  return Object.fromEntries(files.map((f) => [f, readFileSync(join(grammarDir, folder, f), 'utf8')]));
}

/** A bath as a sheet names it. */
export type OwnBath = Pick<Liquid, 'id' | 'spoken'>;

/** The baths of a sheet that no grammar of ours has. */
export const ownBaths = ({ liquids = [] }: ProcessSheet): OwnBath[] =>
  liquids
    .filter((l) => liquidById(l.id) === undefined)
    .map(({ id, spoken }) => ({ id, spoken: [...spoken] }));

const beginOfLiquids = 'public <alone> = ';

/** The grammar of liquids with these among them. A name is said in words: letters and apostrophes. */
function withBaths(grammar: string, own: readonly OwnBath[]): string {
  const rules = own.flatMap(({ id, spoken }) => {
    const names = spoken
      .map((n) =>
        n
          .toLowerCase()
          .replace(/[^a-z']+/g, ' ')
          .trim(),
      )
      .filter(Boolean);
    return names.length === 0 ? [] : [`(${names.join(' | ')}) {liquid=${id}} | `];
  });
  return grammar.replace(beginOfLiquids, () => beginOfLiquids + rules.join(''));
}

function readGrammars(own: readonly OwnBath[], { grammars: folder }: Words): Grammars {
  const texts = grammarTexts();
  const liquids = withBaths(texts['liquids.jsgf'] ?? '', own);
  const loaded = loadGrammars(
    { ...texts, 'liquids.jsgf': liquids },
    folder === undefined ? {} : grammarTexts(folder),
  );
  if (!loaded.ok) {
    throw new Refusal(
      `The grammars of this installation are damaged: ${loaded.problems[0]?.message ?? 'none were found'}. Install tankside again.`,
      exitCode.failed,
    );
  }
  if (folder === undefined) teach(loaded.grammars, texts);
  return loaded.grammars;
}

/**
 * Gives the grammars what the build learnt from them, read when the first typed line asks for it; where that is of other grammars they
 * learn anew, in seconds.
 */
export function teach(grammars: Grammars, texts: Readonly<Record<string, string>>): void {
  if (!existsSync(learntFile)) return;
  giveLearnt(grammars, () => ({
    ...(unpackLearnt(readFileSync(learntFile, 'utf8'), nameOf(texts)) ?? learn(grammars)),
    encoder: installedEncoder(),
    rank: rankerOf(JSON.parse(readFileSync(rankerFile, 'utf8')) as Record<string, number>),
  }));
}

/** @throws Error when the installation's encoder is missing or damaged */
function installedEncoder(): Encoder {
  const read = (name: string): Buffer => readFileSync(join(encoderDir, name));
  const file = JSON.parse(read('encoder.json').toString('utf8')) as EncoderFile;
  return openEncoder(file, read('encoder.bin'), read('times.wasm'));
}

function compileFile(
  path: string,
  ours: ReadonlyMap<string, Grammar>,
): { graph: WordGraph } | { problem: string } {
  const text = readText(
    path,
    `The grammar ${path} cannot be read. Check the path; it should be a JSGF text file.`,
    limits.grammarChars * 4,
  );
  const parsed = parseJsgf(text, path);
  if (!parsed.ok) return { problem: parsed.problem.message };
  const compiled = compileGrammar(parsed.grammar, (name) => ours.get(name));
  return compiled.ok ? { graph: compiled.graph } : { problem: compiled.problem.message };
}

/** What words mean under one graph alone, by its tags; null when they name no intent of ours. */
export function meaningIn(graph: WordGraph, words: string): Intent | null {
  const readings = tagPaths(graph, words.split(' ').filter(Boolean)).flatMap((tags) => {
    if (!tags.every(readTag)) return [];
    const { intent, ...fields } = runTags(tags);
    const meant = asIntent(intent, fields);
    return meant ? [meant] : [];
  });
  const distinct = [...new Map(readings.map((i) => [JSON.stringify(i), i])).values()];
  if (distinct.length > 1) return { type: 'unsure', candidates: distinct };
  return distinct[0] ?? null;
}

function sameMeaning(language: Language, a: string, b: string): boolean {
  const [x, y] = [language.heard(a, SITUATIONS), language.heard(b, SITUATIONS)];
  return x.kind === 'understood' && y.kind === 'understood' && intentKey(x.intent) === intentKey(y.intent);
}
