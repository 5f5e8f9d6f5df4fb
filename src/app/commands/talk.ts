import { dirname, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { LanguageCode } from '../../language/languages/words.js';
import type { Reply } from '../assistant.js';
import type { Taken } from '../conversation.js';
import { Refusal } from '../exit.js';
import { readText } from '../read-text.js';
import { readScript, type ScriptStep } from '../script.js';

export function registerTalk(program: Command): void {
  program
    .command('talk')
    .description('play a script of typed and heard lines on a simulated clock, and print every reply')
    .requiredOption('--script <file>', 'lines to type, “hear: x.wav”, “+90s” to let time pass')
    .option('--sheet <id>', 'process sheet: an id, or a JSON file of your own', 'ecn2-ferricyanide')
    .addOption(
      new Option('--language <code>', 'of what is typed, answered and shown')
        .choices(['en', 'de'])
        .default('en'),
    )
    .option(
      '--json',
      'print replies as JSON lines: {"atMs","kind","text"}, and what each line of words meant: {"kind":"heard","words","intent"}',
    )
    .action(async (options: { script: string; sheet: string; language: LanguageCode; json?: boolean }) => {
      const steps = loadScript(options.script);
      const { createBench } = await import('../bench.js');
      const { playScript } = await import('../play-script.js');
      const { wordsOf } = await import('../hearing.js');
      const bench = createBench(options);
      const aside = (line: string): void => {
        if (!options.json) console.log(line);
      };
      await playScript(steps, {
        bench,
        folder: dirname(resolve(options.script)),
        ear: async () => (await import('../hearing.js')).situatedEar(bench.language),
        events: {
          line: (shown) => aside(`> ${shown}`),
          typed: (line, taken) => {
            if (options.json) console.log(heardLine(line, taken));
          },
          heard: (_file, hearing, taken) => {
            if (options.json) console.log(heardLine(wordsOf(hearing) ?? '', taken));
          },
          replied: ({ reply }) => console.log(options.json ? jsonLine(reply) : plainLine(reply)),
        },
      });
    });
}

export function loadScript(path: string): ScriptStep[] {
  const script = readScript(
    readText(path, `The script ${path} cannot be read. Check the path; it should be a text file.`),
  );
  if ('problem' in script) throw new Refusal(`${path}: ${script.problem}`);
  return script.steps;
}

export const jsonLine = (r: Reply): string =>
  JSON.stringify({ atMs: Math.round(r.atMs), kind: r.kind, text: r.text });

/** What became of one line of words. */
export const heardLine = (words: string, taken: Taken): string =>
  JSON.stringify({
    kind: 'heard',
    words,
    intent:
      taken.done === 'acted'
        ? taken.intent
        : taken.done === 'asked'
          ? { type: 'unsure', candidates: taken.candidates }
          : null,
  });

export const plainLine = (r: Reply): string => `${stamp(r.atMs)}  ${r.kind.padEnd(8)}  ${r.text}`;

/** ms → "00:03:10" */
export function stamp(atMs: number): string {
  const s = Math.floor(atMs / 1000);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(Math.floor(s / 3600))}:${two(Math.floor((s % 3600) / 60))}:${two(s % 60)}`;
}
