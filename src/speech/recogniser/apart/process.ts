/** The recogniser in a process of its own: decoding never holds up a call, and whatever ends it ends no run. */
import type { WordGraph } from '../../../language/types.js';
import { createRecogniser, type OpenRecogniser, type Utterance } from '../index.js';
import { type Answer, type FromRecogniser, type ToRecogniser, unpackGraph } from './messages.js';

/** compiling a grammar leaves some 50 MB behind; by then an answer that was due is under way, ms */
const SETTLED_MS = 1_500;

const graphs = new Map<number, WordGraph>();
let recogniser: OpenRecogniser | null = null;
let open: number | null = null;
let utterance: { id: number; heard: Utterance } | null = null;
let tidying: NodeJS.Timeout | undefined;

const send = (message: FromRecogniser): void => {
  process.send?.(message);
};
const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));

function under(id: number): OpenRecogniser {
  const graph = graphs.get(id);
  if (!recogniser || !graph) throw new Error('The recogniser was asked before it was ready.');
  compile(recogniser, graph);
  if (open !== id) recogniser.setGrammar(graph);
  open = id;
  return recogniser;
}

function compile(by: OpenRecogniser, graph: WordGraph): void {
  if (!by.prepare(graph)) return;
  clearTimeout(tidying);
  tidying = setTimeout(() => globalThis.gc?.(), SETTLED_MS);
}

async function answer(message: Extract<ToRecogniser, { ask: number }>): Promise<Answer> {
  switch (message.type) {
    case 'recognise':
      return under(message.graph).recognise(message.pcm);
    case 'guess':
      return utterance?.id === message.utterance ? utterance.heard.guess() : null;
    case 'openly':
      return recogniser?.openly() ?? [];
    case 'hear':
      if (utterance?.id !== message.utterance) throw new Error('This utterance is no longer known.');
      return utterance.heard.hear(message.samples);
  }
}

async function take(message: ToRecogniser): Promise<void> {
  switch (message.type) {
    case 'load':
      try {
        recogniser = await createRecogniser(message.options);
        send({ type: 'ready' });
      } catch (error) {
        send({ type: 'unusable', sentence: reason(error) });
      }
      return;
    case 'graph':
      graphs.set(message.graph, unpackGraph(message.packed));
      return;
    case 'prepare':
      under(message.graph);
      return;
    case 'begin':
      utterance = { id: message.utterance, heard: under(message.graph).begin(message.amongTalk) };
      return;
    case 'push':
      if (utterance?.id === message.utterance) await utterance.heard.push(message.pcm);
      return;
    default:
      send({ type: 'answer', ask: message.ask, value: await answer(message) });
  }
}

let last: Promise<void> = Promise.resolve();
process.on('message', (message: ToRecogniser) => {
  last = last
    .then(() => take(message))
    .catch((error: unknown) => {
      if ('ask' in message) send({ type: 'failed', ask: message.ask, why: reason(error) });
    });
});
process.on('disconnect', () => process.exit());
