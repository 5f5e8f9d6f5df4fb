import { existsSync } from 'node:fs';
import type { Command } from 'commander';
import { SITUATIONS } from '../../language/load.js';
import type { Hearing, WordGraph } from '../../language/types.js';
import type { Situation } from '../../process/desk.js';
import type { Intent } from '../../process/intent.js';
import { exitCode, Refusal } from '../exit.js';
import type { InstalledLanguage } from '../language.js';
import type { Opened } from '../openly.js';

/** One line of `tankside hear --json`. */
export interface HeardLine {
  file: string;
  /** where in the file it begins; only of a file so long that it is cut at its pauses */
  atMs?: number;
  words: string;
  accepted: boolean;
  confidence: number;
  alternatives: { words: string; confidence: number }[];
  intent: Intent | null;
  /** what no grammar has: the words over the whole vocabulary, what may be meant, and whether that is asked first */
  open?: { words: string; intents: Intent[]; ask: boolean };
  milliseconds: number;
  why?: string;
}

export function registerHear(program: Command): void {
  program
    .command('hear <files...>')
    .description('recognise sound files and say what each means')
    .option(
      '--grammar <name|path>',
      'a situation (see grammars/) or a .jsgf file to judge against; else all commands',
    )
    .option('--json', 'one JSON line a file')
    .addHelpText(
      'after',
      '\nExit code 0: every file was heard, whether a command or not; 2: a file could not be used.',
    )
    .action(async (files: string[], options: { grammar?: string; json?: boolean }) => {
      const { installedLanguage, meaningIn } = await import('../language.js');
      const { deaf, opening, situatedEar } = await import('../hearing.js');
      const { opened, worthReading } = await import('../openly.js');
      const { hearWhole } = await import('../hear-file.js');
      const language = installedLanguage();
      const { graph, situations } = chosen(language, options.grammar);
      const ear = await situatedEar(language);
      const hear = async (pcm: Float32Array): Promise<Hearing> => {
        const hearing = await ear.hearUnder(pcm, graph);
        return situations.length > 0 ? opening(ear, hearing) : hearing;
      };
      for (const file of files) {
        for await (const { atMs, hearing, bad } of hearWhole(file, hear)) {
          const readings = worthReading(hearing);
          const meanings = readings.map((r) => language.typed(r.words, situations));
          const line = heardLine(
            file,
            atMs,
            bad ? deaf(bad) : hearing,
            (words) => meaningIn(graph, words),
            opened(readings, meanings),
          );
          console.log(options.json ? JSON.stringify(line) : plain(line));
          if (bad) process.exitCode = exitCode.badInput;
        }
      }
      await ear.close();
    });
}

/** The grammar that was asked for, and the situations in which more is understood than it has; none for one of the user's own. */
function chosen(
  language: InstalledLanguage,
  asked?: string,
): { graph: WordGraph; situations: readonly Situation[] } {
  if (!asked) return { graph: language.everything(), situations: SITUATIONS };
  const known = language.byName(asked);
  if (known) return { graph: known, situations: SITUATIONS.filter((s) => s === asked) };
  if (!existsSync(asked)) {
    throw new Refusal(
      `There is no grammar “${asked}”. Give a .jsgf file, or one of: ${language.names.join(', ')}.`,
    );
  }
  const own = language.compileFile(asked);
  if ('problem' in own) throw new Refusal(own.problem);
  return { graph: own.graph, situations: [] };
}

function heardLine(
  file: string,
  atMs: number | null,
  hearing: Hearing,
  meaning: (words: string) => Intent | null,
  open: Opened | null,
): HeardLine {
  const words = hearing.best?.words ?? '';
  return {
    file,
    ...(atMs !== null && { atMs: Math.round(atMs) }),
    words,
    accepted: hearing.accepted,
    confidence: rounded(hearing.best?.confidence ?? 0),
    alternatives: hearing.alternatives.map((a) => ({ words: a.words, confidence: rounded(a.confidence) })),
    intent: hearing.accepted ? meaning(words) : null,
    ...(open && { open: openPart(open) }),
    milliseconds: Math.round(hearing.milliseconds.total),
    ...(hearing.why ? { why: hearing.why } : {}),
  };
}

const openPart = ({ understood, ask, reading }: Opened): NonNullable<HeardLine['open']> => ({
  words: reading.words,
  intents: understood.kind === 'understood' ? [understood.intent] : understood.candidates,
  ask,
});

const rounded = (n: number): number => Math.round(n * 1000) / 1000;

function plain(line: HeardLine): string {
  const where = line.atMs === undefined ? line.file : `${line.file} at ${clock(line.atMs)}`;
  if (line.open) {
    const meant = line.open.intents.map((i) => JSON.stringify(i)).join(' or ');
    return `${where}: “${line.open.words}” (no sentence of the grammar) → ${line.open.ask ? 'asks: ' : ''}${meant}`;
  }
  if (!line.accepted) return `${where}: no command. ${line.why ?? `Nearest: “${line.words}”.`}`;
  const sure = `${Math.round(line.confidence * 100)} %`;
  const meaning = line.intent ? ` → ${JSON.stringify(line.intent)}` : '';
  return `${where}: “${line.words}” (${sure}, ${line.milliseconds} ms)${meaning}`;
}

/** "0:04:07.3" */
function clock(ms: number): string {
  const two = (n: number): string => String(Math.floor(n)).padStart(2, '0');
  return `${Math.floor(ms / 3_600_000)}:${two((ms / 60_000) % 60)}:${two((ms / 1000) % 60)}.${Math.floor((ms / 100) % 10)}`;
}
