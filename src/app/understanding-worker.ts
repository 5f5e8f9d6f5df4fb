import { parentPort, workerData } from 'node:worker_threads';
import type { Interpretation } from '../language/interpretation.js';
import type { LanguageCode } from '../language/languages/words.js';
import { SITUATIONS } from '../language/load.js';
import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { installedLanguage, type OwnBath } from './language.js';

/** A typed line to understand, and what came of it. */
export interface Asked {
  line: string;
  situations: readonly Situation[];
  due: readonly Intent[];
}
export type Answered = 'ready' | 'warm' | Interpretation;

/** What the thread understands with. */
export interface Understander {
  own: readonly OwnBath[];
  code: LanguageCode;
}

const { own, code } = workerData as Understander;
const language = installedLanguage(own, code);
const answer = (answered: Answered): void => parentPort?.postMessage(answered);

parentPort?.on('message', ({ line, situations, due }: Asked) =>
  answer(language.typed(line, situations, due)),
);
answer('ready');

// one step after another, so that a line that is typed meanwhile waits for one at most; what a line outside the grammars needs comes first
const steps = [
  () => language.typed('could you tell me what to do now', ['anytime']),
  ...SITUATIONS.map((situation) => () => language.byName(situation)),
];
for (const step of steps) {
  await new Promise((next) => setImmediate(next));
  step();
}
answer('warm');
