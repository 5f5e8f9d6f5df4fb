/**
 * The voice bench: how often sentences are heard right, by voice and noise, on synthetic voices and real people that
 * neither training nor tuning has met; false commands on unrelated speech; -teen against -ty; time by stage; beside
 * PocketSphinx on the same clips where it is installed. Prints Markdown.
 *   npx tsc -p tests/bench/tsconfig.voice.json && node dist/.bench/tests/bench/voice.js [--quick] [--model DIR]
 *     [--only cost,commands,teens,real,false]
 */
import { createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { commandsByVoice, realPeople } from './voice/accuracy.js';
import { confusions } from './voice/confusions.js';
import { costs } from './voice/costs.js';
import { falseCommands } from './voice/false-commands.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const quick = process.argv.includes('--quick');
const modelDir = option('--model');

const began = performance.now();
const recogniser = await createRecogniser(modelDir === undefined ? {} : { modelDir });
const readyMs = performance.now() - began;
console.log('# Voice bench\n');
const parts: Record<string, () => Promise<string>> = {
  cost: () => costs(recogniser, readyMs),
  commands: () => commandsByVoice(recogniser, quick),
  teens: () => confusions(recogniser, quick),
  real: () => realPeople(recogniser, quick),
  false: () => falseCommands(recogniser),
};
const wanted = option('--only')?.split(',') ?? Object.keys(parts);
for (const [name, part] of Object.entries(parts)) if (wanted.includes(name)) console.log(await part());
await recogniser.close();
