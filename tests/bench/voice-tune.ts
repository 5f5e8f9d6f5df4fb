/**
 * Chooses the decoder's constants on development clips: voices made to sound like other talkers, and real people where
 * their packages are installed, in noise. No clip, voice or noise seed of a reported figure is used. The best has the
 * greatest mean, over the sets of clips, of the share heard right, so a large set does not outweigh a small one. Prints
 * the constants in force and the best few; --write stores the best in the model's decoder.json.
 *   npx tsc -p tests/bench/tsconfig.voice.json && node dist/.bench/tests/bench/voice-tune.js [--clips N] [--write] [--model DIR]
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
for (const clip of developmentClips(Number(option('--clips') ?? '14'))) {
  if (!graphs.has(clip.grammar))
    graphs.set(
      clip.grammar,
      phoneGraphOf(acceptorOf(clip.grammar), (w) => lexicon.pronounce(w)),
    );
  heard.push({ clip, logits: await network.run(levelled(clip.pcm())) });
}
interface Tried {
  settings: DecoderSettings;
  /** clips heard right by set */
  right: Map<string, number>;
  /** clips by set */
  sizes: Map<string, number>;
  /** mean over the sets of the share right, 0 to 1 */
  mean: number;
  /** a clip */
  ms: number;
}

/** Every third clip: all sets, voices and conditions, for a first look at settings far apart. */
const few = heard.filter((_, i) => i % 3 === 0);

function scored(settings: DecoderSettings, clips: typeof heard = heard): Tried {
  const right = new Map<string, number>();
  const sizes = new Map<string, number>();
  const bias = new Float32Array(network.tokens.count);
  bias[0] = settings.blankBias;
  const began = performance.now();
  for (const { clip, logits } of clips) {
    sizes.set(clip.set, (sizes.get(clip.set) ?? 0) + 1);
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
    if (best?.words.join(' ') === clip.words) right.set(clip.set, (right.get(clip.set) ?? 0) + 1);
  }
  const shares = [...sizes].map(([set, of]) => (right.get(set) ?? 0) / of);
  const mean = shares.reduce((a, b) => a + b, 0) / shares.length;
  return { settings, right, sizes, mean, ms: (performance.now() - began) / clips.length };
}

const tried = new Map<string, Tried>();
const keyOf = (s: DecoderSettings): string =>
  [s.blankBias, s.wordPenalty, s.floor, s.beam, s.width, s.sum].join(' ');
const tryOut = (settings: DecoderSettings): Tried => {
  const known = tried.get(keyOf(settings)) ?? scored(settings);
  tried.set(keyOf(settings), known);
  return known;
};
/** Best first; of equals the one tried first, so the constants in force give way only to better ones. */
const ranked = (): Tried[] => [...tried.values()].sort((a, b) => b.mean - a.mean);

const inForce = tryOut(started);
const attempt = (...changes: Partial<DecoderSettings>[]): void => {
  const from = ranked()[0]?.settings ?? started;
  for (const change of changes) tryOut({ ...from, ...change });
};
const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
/** Half a step from settings, all ways. */
const around = (settings: DecoderSettings): void => {
  for (const blankBias of range(settings.blankBias - 0.5, settings.blankBias + 0.5, 0.5))
    for (const wordPenalty of range(settings.wordPenalty - 0.5, settings.wordPenalty + 0.5, 0.5)) {
      const inside = blankBias >= -4 && blankBias <= 2 && wordPenalty >= -1 && wordPenalty <= 5;
      if (inside) tryOut({ ...settings, blankBias, wordPenalty });
    }
};
// the two pull against each other, so they are tried together: in whole steps, then in halves around the best
const coarse = range(-4, 2, 1)
  .flatMap((blankBias) => range(-1, 5, 1).map((wordPenalty) => ({ ...started, blankBias, wordPenalty })))
  .map((settings) => scored(settings, few))
  .sort((a, b) => b.mean - a.mean);
for (const { settings } of coarse.slice(0, 6)) tryOut(settings);
for (const { settings } of ranked().slice(0, 2)) around(settings);
attempt(...[-40, -18, -14, -12, -11, -10, -9, -8, -7, -6].map((floor) => ({ floor })));
// the floor softens all scores, which moves where the two balance
around(ranked()[0]?.settings ?? started);
attempt(...[1, 3, 5, 8].map((width) => ({ width })));
attempt({ sum: !started.sum });
attempt(...[14, 18, 24, 30].map((beam) => ({ beam })));

/** Settings that hear the same in every set are one row, the first tried. */
const countsOf = (t: Tried): string => [...t.sizes.keys()].map((set) => t.right.get(set) ?? 0).join(' ');
const shown = ranked()
  .filter((t, i, all) => all.findIndex((o) => countsOf(o) === countsOf(t)) === i)
  .slice(0, 8);
if (!shown.includes(inForce)) shown.push(inForce);
const rowOf = (t: Tried): string[] => [
  t === inForce ? 'in force' : '',
  ...keyOf(t.settings).split(' '),
  ...[...t.sizes].map(([set, of]) => `${t.right.get(set) ?? 0}/${of}`),
  `${(100 * t.mean).toFixed(2)} %`,
  t.ms.toFixed(1),
];
const head = ['', 'blank', 'word', 'floor', 'beam', 'width', 'sum', ...inForce.sizes.keys(), 'mean', 'ms'];
console.log(table(head, shown.map(rowOf)));
const [first] = shown;
// to add up paths takes twice the time, so it must gain a quarter of a point
const plain = ranked().find((t) => !t.settings.sum);
const chosen = first?.settings.sum && plain && first.mean - plain.mean < 0.0025 ? plain : first;
console.log(`best of ${coarse.length + tried.size}`, JSON.stringify(chosen?.settings));
if (process.argv.includes('--write') && chosen) {
  const file = join(modelDir, 'decoder.json');
  const before = JSON.parse(readFileSync(file, 'utf8')) as object;
  writeFileSync(file, `${JSON.stringify({ ...before, ...chosen.settings }, null, 2)}\n`);
}
await network.close();
