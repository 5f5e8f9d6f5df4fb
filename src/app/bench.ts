import type { LanguageCode } from '../language/languages/words.js';
import { type AssumedBottle, emptyLedger } from '../ledger/state.js';
import type { Intent, IntentOf } from '../process/intent.js';
import { type ProcessSheet, parseSheet } from '../process/sheet.js';
import { sheets as ownSheets } from '../process/sheets/index.js';
import { lexiconFiles } from '../speech/installed.js';
import { pronunciations } from '../speech/recogniser/lexicon/lexicon.js';
import { type Assistant, type AssistantState, createAssistant } from './assistant.js';
import type { WarmConfig } from './desks/warm-desk.js';
import { Refusal } from './exit.js';
import { type InstalledLanguage, installedLanguage, ownBaths } from './language.js';
import { assumedBottles, postsFor, warmConfig } from './posts.js';
import { readText } from './read-text.js';
import { type TalkAnswer, talkAnswer } from './talk.js';
import { whyAnswer } from './why.js';

export interface BenchOptions {
  /** process sheet id, or the path of a sheet of the user's own (JSON) */
  sheet: string;
  /** what the bottles were taken to hold when the journal began; the sheet's own layout when not given */
  assumed?: readonly AssumedBottle[];
  /** of what is typed, answered and shown; English when not given */
  language?: LanguageCode;
}

/** Never empty. */
export type Sheets = readonly [ProcessSheet, ...ProcessSheet[]];

/** The pure parts of the assistant, put together: desks with their words, and the grammars. */
export interface Bench {
  assistant: Assistant;
  /** the chosen sheet first */
  sheets: Sheets;
  warm: WarmConfig;
  language: InstalledLanguage;
  /** what the bottles are taken to hold until somebody says otherwise */
  assumed: readonly AssumedBottle[];
  /** why the picture of the last run is off, in two sentences */
  why(intent: IntentOf<'ask-why'>, state: AssistantState): string;
  /** answers to talk and to questions of the trade */
  talk(intent: Intent, wallMs: number): TalkAnswer | null;
}

/** @throws Refusal for an unknown or faulty sheet */
export function createBench(options: BenchOptions): Bench {
  const sheets = sheetsFor(options.sheet);
  const assumed = options.assumed ?? assumedBottles(sheets[0]);
  const warm = warmConfig(sheets[0], assumed);
  const language = installedLanguage(ownBaths(sheets[0]), options.language);
  const { words } = language;
  return {
    assistant: createAssistant(
      postsFor(sheets, warm, soundsOf, words.desks),
      emptyLedger(assumed).bench,
      words.assistant,
    ),
    sheets,
    warm,
    language,
    assumed,
    why: (intent, state) => whyAnswer(intent, state, sheets),
    talk(intent, wallMs) {
      const say = words.talk?.(intent, sheets[0]) ?? null;
      return say === null
        ? talkAnswer(intent, { records: language.records(), sheet: sheets[0], wallMs })
        : { say };
    },
  };
}

let say: ((word: string) => string[]) | null = null;

/** How a word sounds, for telling confusable bottle names apart; the dictionary is opened when first needed. */
function soundsOf(word: string): readonly string[] | undefined {
  say ??= pronunciations(lexiconFiles());
  try {
    return say(word)[0]?.split(' ');
  } catch {
    return undefined;
  }
}

/** The chosen sheet first, then the others that come with the installation. */
export function sheetsFor(asked: string): Sheets {
  const known = ownSheets.find((s) => s.id === asked);
  if (known) return [known, ...ownSheets.filter((s) => s !== known)];
  if (!asked.endsWith('.json')) {
    const ids = ownSheets.map((s) => s.id).join(', ');
    throw new Refusal(`There is no process sheet “${asked}”. Choose one of ${ids}, or give a .json file.`);
  }
  return [ownSheet(asked), ...ownSheets];
}

function ownSheet(path: string): ProcessSheet {
  const result = parseSheet(readText(path, `The process sheet ${path} cannot be read. Check the path.`));
  if (result.ok) return result.sheet;
  throw new Refusal(`The process sheet ${path} cannot be used: ${result.problems.join(' ')}`);
}
