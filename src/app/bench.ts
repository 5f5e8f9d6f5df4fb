import { readFileSync } from 'node:fs';
import type { AssumedBottle } from '../ledger/state.js';
import { type ProcessSheet, parseSheet } from '../process/sheet.js';
import { sheets as ownSheets } from '../process/sheets/index.js';
import { type Assistant, createAssistant } from './assistant.js';
import { Refusal } from './exit.js';
import { type InstalledLanguage, installedLanguage } from './language.js';
import { assumedBottles, postsFor } from './posts.js';

export interface BenchOptions {
  /** process sheet id, or the path of a sheet of the user's own (JSON) */
  sheet: string;
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
  const [sheet] = sheets;
  return {
    assistant: createAssistant(postsFor(sheets)),
    sheets,
    language: installedLanguage(),
    assumed: sheet ? assumedBottles(sheet) : [],
  };
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
