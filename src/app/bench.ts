import { readFileSync } from 'node:fs';
import { phraseRun } from '../language/phrases/run.js';
import { createRunDesk } from '../process/run-desk.js';
import { type ProcessSheet, parseSheet } from '../process/sheet.js';
import { sheets as ownSheets } from '../process/sheets/index.js';
import { type Assistant, createAssistant, type Post } from './assistant.js';
import { Refusal } from './exit.js';
import { type InstalledLanguage, installedLanguage } from './language.js';

export interface BenchOptions {
  /** process sheet id, or the path of a sheet of the user's own (JSON) */
  sheet: string;
}

/** The pure parts of the assistant, put together: desks with their words, and the grammars. */
export interface Bench {
  assistant: Assistant;
  language: InstalledLanguage;
}

/** @throws Refusal for an unknown or faulty sheet */
export function createBench(options: BenchOptions): Bench {
  const sheets = sheetsFor(options.sheet);
  return { assistant: createAssistant(posts(sheets)), language: installedLanguage() };
}

function posts(sheets: readonly ProcessSheet[]): Post[] {
  return [post({ desk: createRunDesk({ sheets }), phrase: phraseRun })];
}

/** Desks differ in their states and messages; the assistant handles both only as what they are to it: data. */
const post = <S, M extends { id: string }>(p: Post<S, M>): Post => p as unknown as Post;

/** The chosen sheet first, then the others that come with the installation. */
function sheetsFor(asked: string): ProcessSheet[] {
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
