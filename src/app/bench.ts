import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AssumedBottle } from '../ledger/state.js';
import { type ProcessSheet, parseSheet } from '../process/sheet.js';
import { sheets as ownSheets } from '../process/sheets/index.js';
import { pronunciations } from '../speech/recogniser/lexicon/lexicon.js';
import { type Assistant, createAssistant } from './assistant.js';
import { Refusal } from './exit.js';
import { type InstalledLanguage, installedLanguage } from './language.js';
import { modelDir } from './paths.js';
import { assumedBottles, postsFor } from './posts.js';

export interface BenchOptions {
  /** process sheet id, or the path of a sheet of the user's own (JSON) */
  sheet: string;
  /** what the bottles were taken to hold when the journal began; the sheet's own layout when not given */
  assumed?: readonly AssumedBottle[];
}

/** The pure parts of the assistant, put together: desks with their words, and the grammars. */
export interface Bench {
  assistant: Assistant;
  /** the chosen sheet first */
  sheets: readonly ProcessSheet[];
  language: InstalledLanguage;
  /** what the bottles are taken to hold until somebody says otherwise */
  assumed: readonly AssumedBottle[];
}

/** @throws Refusal for an unknown or faulty sheet */
export function createBench(options: BenchOptions): Bench {
  const sheets = sheetsFor(options.sheet);
  const assumed = options.assumed ?? assumedFor(sheets);
  return {
    assistant: createAssistant(postsFor(sheets, assumed, soundsOf)),
    sheets,
    language: installedLanguage(),
    assumed,
  };
}

export const assumedFor = ([sheet]: readonly ProcessSheet[]): AssumedBottle[] =>
  sheet ? assumedBottles(sheet) : [];

let say: ((word: string) => string[]) | null = null;

/** How a word sounds, for telling confusable bottle names apart; the dictionary is opened when first needed. */
function soundsOf(word: string): readonly string[] | undefined {
  say ??= pronunciations({
    ownWords: join(modelDir, 'lexicon', 'trade-words.dict'),
    letterRules: join(modelDir, 'lexicon', 'letter-to-sound.json'),
  });
  try {
    return say(word)[0]?.split(' ');
  } catch {
    return undefined;
  }
}

/** The chosen sheet first, then the others that come with the installation. */
export function sheetsFor(asked: string): ProcessSheet[] {
  const known = ownSheets.find((s) => s.id === asked);
  if (known) return [known, ...ownSheets.filter((s) => s !== known)];
  if (!asked.endsWith('.json')) {
    const ids = ownSheets.map((s) => s.id).join(', ');
    throw new Refusal(`There is no process sheet “${asked}”. Choose one of ${ids}, or give a .json file.`);
  }
  return [ownSheet(asked), ...ownSheets];
}

function ownSheet(path: string): ProcessSheet {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    throw new Refusal(`The process sheet ${path} cannot be read. Check the path.`);
  }
  const result = parseSheet(text);
  if (result.ok) return result.sheet;
  throw new Refusal(`The process sheet ${path} cannot be used: ${result.problems.join(' ')}`);
}
