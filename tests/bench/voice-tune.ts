/**
 * Chooses the decoder's constants on development clips: voices that training may use, made to sound like other
 * talkers, in noise. No clip, voice or noise seed of a reported figure is used. Prints a table; --write stores the
 * best in the model's decoder.json.
 *   npx tsc -p tests/bench/tsconfig.voice.json && node dist/.bench/tests/bench/voice-tune.js [--write] [--model DIR]
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { WordGraph } from '../../src/language/types.js';
import { lexiconFiles, modelsDir } from '../../src/speech/installed.js';
import { type Logits, loadNetwork } from '../../src/speech/recogniser/acoustics/network.js';
import { posteriorsOf } from '../../src/speech/recogniser/acoustics/posteriors.js';
import { levelled } from '../../src/speech/recogniser/acoustics/sound.js';
import { search } from '../../src/speech/recogniser/decode/search.js';
import { acceptorOf } from '../../src/speech/recogniser/graph/acceptor.js';
import { phoneGraphOf } from '../../src/speech/recogniser/graph/phone-graph.js';
import { lexiconFor } from '../../src/speech/recogniser/lexicon/lexicon.js';
import { type DecoderSettings, readDecoderSettings } from '../../src/speech/recogniser/settings.js';
import { type DevelopmentClip, developmentClips } from './voice/development.js';
import { table } from './voice/stats.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const modelDir = option('--model') ?? join(modelsDir(), 'tankside-acoustic');
const network = await loadNetwork(modelDir);
const lexicon = lexiconFor(network.tokens, lexiconFiles());
const started = readDecoderSettings(modelDir);

const graphs = new Map<WordGraph, ReturnType<typeof phoneGraphOf>>();
const heard: { clip: DevelopmentClip; logits: Logits }[] = [];
for (const clip of developmentClips(Number(option('--clips') ?? '12'))) {
  if (!graphs.has(clip.grammar))
    graphs.set(
      clip.grammar,
      phoneGraphOf(acceptorOf(clip.grammar), (w) => lexicon.pronounce(w)),
    );
  heard.push({ clip, logits: await network.run(levelled(clip.pcm)) });
}
const sets = [...new Set(heard.map((h) => h.clip.set))];

function scored(settings: DecoderSettings): { right: Map<string, number>; total: number; ms: number } {
  const right = new Map<string, number>();
  const bias = new Float32Array(network.tokens.count);
  bias[0] = settings.blankBias;
  const began = performance.now();
  let total = 0;
  for (const { clip, logits } of heard) {
    const posteriors = posteriorsOf(
      logits.data,
      logits.frames,
      network.tokens.count,
      logits.frameMs,
      bias,
      settings.floor,
    );
    const graph = graphs.get(clip.grammar);
    const [best] = graph ? search(posteriors, graph, settings) : [];
    if (best?.words.join(' ') !== clip.words) continue;
    total++;
    right.set(clip.set, (right.get(clip.set) ?? 0) + 1);
  }
  return { right, total, ms: (performance.now() - began) / heard.length };
}

const rows: string[][] = [];
let best: { settings: DecoderSettings; total: number } | null = null;
const attempt = (change: Partial<DecoderSettings>): void => {
  const settings = { ...started, ...best?.settings, ...change };
  const { right, total, ms } = scored(settings);
  if (!best || total > best.total) best = { settings, total };
  rows.push([
    String(settings.blankBias),
    String(settings.wordPenalty),
    String(settings.floor),
    String(settings.beam),
    String(settings.width),
    String(settings.sum),
    ...sets.map((s) => String(right.get(s) ?? 0)),
    `${total}/${heard.length}`,
    ms.toFixed(1),
  ]);
};
attempt({});
for (const floor of [-40, -14, -11, -9, -8, -7, -6]) attempt({ floor });
// the two pull against each other, so they are tried together
for (const blankBias of [-2, -1.5, -1, -0.5, 0, 0.5])
  for (const wordPenalty of [0, 1, 2, 3, 4, 5]) attempt({ blankBias, wordPenalty });
for (const floor of [-14, -11, -9, -8, -7, -6]) attempt({ floor });
attempt({ sum: !started.sum });
for (const beam of [14, 18, 24, 30]) attempt({ beam });
console.log(table(['blank', 'word', 'floor', 'beam', 'width', 'sum', ...sets, 'all', 'ms'], rows));
const chosen = best as { settings: DecoderSettings } | null;
console.log('best', JSON.stringify(chosen?.settings));
if (process.argv.includes('--write') && chosen) {
  const file = join(modelDir, 'decoder.json');
  const before = JSON.parse(readFileSync(file, 'utf8')) as object;
  writeFileSync(file, `${JSON.stringify({ ...before, ...chosen.settings }, null, 2)}\n`);
}
await network.close();
