/**
 * The voice bench: how often sentences are heard right, by voice and noise, on synthetic voices and real people that
 * neither training nor tuning has met; false commands on unrelated speech; -teen against -ty; time by stage; beside
 * PocketSphinx on the same clips where it is installed. Prints Markdown.
 *   npx tsc -p tests/bench/tsconfig.voice.json && node dist/.bench/tests/bench/voice.js [--quick] [--model DIR]
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
console.log(await costs(recogniser, readyMs));
console.log(await commandsByVoice(recogniser, quick));
console.log(await confusions(recogniser, quick));
console.log(await realPeople(recogniser, quick));
console.log(await falseCommands(recogniser));
await recogniser.close();
