import { join } from 'node:path';
import { loadTwoSileros } from '../../../src/speech/ears/silero.js';
import { lexiconFiles, modelsDir } from '../../../src/speech/installed.js';
import { loadDenoiser } from '../../../src/speech/recogniser/acoustics/denoiser.js';
import { loadNetwork } from '../../../src/speech/recogniser/acoustics/network.js';
import { freePathOf, posteriorsOf } from '../../../src/speech/recogniser/acoustics/posteriors.js';
import { levelled } from '../../../src/speech/recogniser/acoustics/sound.js';
import { align } from '../../../src/speech/recogniser/decode/align.js';
import { SphinxModels } from '../../../src/speech/recogniser/hmm/sphinx.js';
import { lexiconFor, pronunciations } from '../../../src/speech/recogniser/lexicon/lexicon.js';
import { Ongoing } from '../../../src/speech/recogniser/ongoing.js';
import { readDecoderSettings } from '../../../src/speech/recogniser/settings.js';
import { isProblem } from '../../../src/speech/wav.js';
import { speechRms } from './noise.js';

/** One word of a sentence that is known, where the network places it, and what became of its phones. */
export interface PlacedWord {
  word: string;
  fromMs: number;
  toMs: number;
  phones: number;
  /** phones of which the network sees nothing: less than 5 % at their best */
  dropped: number;
  /** of these, the ones where it is sure of another phone instead */
  swapped: number;
  /** natural log below the best phones of all, of the word's stretch */
  lost: number;
}

/** A sentence in a sound, with the span that the recogniser cut out. Times in ms from the start of the sound. */
export interface Placed {
  words: PlacedWord[];
  spanMs: [number, number];
  /** of the speech, dB of full scale */
  levelDb: number;
}

const SEEN = Math.log(0.05);
const SURE = Math.log(0.5);

/** Places sentences in sounds as the recogniser does, and keeps how its phones fared. */
export async function placer(): Promise<(pcm: Float32Array, words: readonly string[]) => Promise<Placed[]>> {
  const modelDir = join(modelsDir(), 'tankside-acoustic');
  const files = lexiconFiles();
  const network = await loadNetwork(modelDir);
  const lexicon = lexiconFor(network.tokens, files);
  const denoiser = await loadDenoiser(join(modelsDir(), 'dtln'));
  const hmm = await SphinxModels.load(join(modelsDir(), 'en-us-hmm'), pronunciations(files));
  const silero = await loadTwoSileros();
  const bias = new Float32Array(network.tokens.count);
  const settings = readDecoderSettings(modelDir);
  bias[0] = settings.blankBias;
  return async (pcm, sentences) => {
    const ongoing = new Ongoing(denoiser, isProblem(silero) ? null : silero, hmm, () => settings);
    await ongoing.push(pcm);
    const span = await ongoing.span();
    const { data, frames, frameMs } = await network.run(levelled(ongoing.part(span)));
    const tokens = network.tokens.count;
    const posteriors = posteriorsOf(data, frames, tokens, frameMs, bias, settings.floor);
    const free = freePathOf(posteriors);
    const beginMs = span.from / 16;
    return sentences.map((sentence) => {
      const names = sentence.split(' ');
      const found = align(
        posteriors,
        names.map((w) => lexicon.pronounce(w)),
      );
      const words = names.map((word, i): PlacedWord => {
        const phones = (found?.phones ?? []).filter((p) => p.word === i);
        const from = phones[0]?.from ?? 0;
        const to = phones.at(-1)?.to ?? 0;
        let dropped = 0;
        let swapped = 0;
        let lost = 0;
        for (const p of phones) {
          const at = (t: number): number => posteriors.logProb[t * tokens + p.token] as number;
          const stretch = Array.from({ length: p.to - p.from + 1 }, (_, t) => p.from + t);
          lost += stretch.reduce((sum, t) => sum + at(t) - (free.logProb[t] as number), 0);
          if (Math.max(...stretch.map(at)) >= SEEN) continue;
          dropped++;
          if (stretch.some((t) => free.token[t] !== 0 && (free.logProb[t] as number) > SURE)) swapped++;
        }
        const ms = (t: number): number => Math.round(beginMs + t * frameMs);
        return {
          word,
          fromMs: ms(from),
          toMs: ms(to + 1),
          phones: phones.length,
          dropped,
          swapped,
          lost,
        };
      });
      return {
        words,
        spanMs: [Math.round(beginMs), Math.round(span.to / 16)],
        levelDb: 20 * Math.log10(speechRms(pcm)),
      };
    });
  };
}

/** What is known of a clip in one condition, for `causeOf`. */
export interface Outcome {
  good: boolean;
  accepted: boolean;
  heard: string;
  /** the sentence that was said, in quiet and here, and the one that was heard, here */
  quiet: Placed;
  here: Placed;
  instead: Placed | null;
}

export const causes = [
  'right, but refused',
  'nothing heard',
  'voice cut off',
  'noise or breath taken for words',
  'speech masked by noise',
  'function words reduced',
  'phones swapped (accent, pronunciation)',
  'phones dropped',
  'long pause within',
  'soft or distant (level, microphone)',
  'phones there, another sentence scored better',
] as const;
export type Cause = (typeof causes)[number];

const FUNCTION =
  /^(?:a|an|the|of|with|and|i|i'd|me|can|may|would|have|get|some|lot|lots|bit|little|like|want)$/;
const SLACK_MS = 120;
const PAUSE_MS = 350;
const SOFT_DB = -38;

/** Why a clip was not both right and accepted: the first of the causes that holds; null where it was. */
export function causeOf({ good, accepted, heard, quiet, here, instead }: Outcome): Cause | null {
  if (good) return accepted ? null : 'right, but refused';
  if (heard === '' || !instead) return 'nothing heard';
  const first = quiet.words[0];
  const last = quiet.words.at(-1);
  if (!first || !last) return 'nothing heard';
  if (here.spanMs[0] > first.fromMs + SLACK_MS || here.spanMs[1] < last.toMs - SLACK_MS)
    return 'voice cut off';
  const outside = (w: PlacedWord): boolean =>
    w.fromMs > last.toMs + SLACK_MS || w.toMs < first.fromMs - SLACK_MS;
  if (instead.words.some(outside)) return 'noise or breath taken for words';
  const [from, to] = differing(here.words, instead.words);
  const said = here.words.slice(from, to);
  const inQuiet = quiet.words.slice(from, to);
  const total = (list: readonly PlacedWord[], what: 'phones' | 'dropped' | 'swapped'): number =>
    list.reduce((sum, w) => sum + w[what], 0);
  // nothing of what was said is missing: something was put in
  if (said.length === 0) return masked() ? 'speech masked by noise' : 'noise or breath taken for words';
  if (masked()) return 'speech masked by noise';
  const dropped = total(said, 'dropped');
  if (dropped > 0 && said.every((w) => w.dropped === 0 || FUNCTION.test(w.word)))
    return 'function words reduced';
  if (dropped > 0)
    return total(said, 'swapped') * 2 > dropped ? 'phones swapped (accent, pronunciation)' : 'phones dropped';
  if (pausesIn(quiet) > 0) return 'long pause within';
  if (quiet.levelDb < SOFT_DB) return 'soft or distant (level, microphone)';
  return 'phones there, another sentence scored better';

  function masked(): boolean {
    return here !== quiet && total(said, 'dropped') > total(inQuiet, 'dropped');
  }
}

const pausesIn = ({ words }: Placed): number =>
  words.filter((w, i) => w.fromMs - (words[i - 1]?.toMs ?? w.fromMs) > PAUSE_MS).length;

/** What a clip has of each kind of difficulty, whether it was heard right or not. */
export function traitsOf(place: Placed, quiet: Placed): string[] {
  const dropping = (list: readonly PlacedWord[]): boolean => list.some((w) => w.dropped > w.swapped);
  const isFunction = (w: PlacedWord): boolean => FUNCTION.test(w.word);
  const first = quiet.words[0]?.fromMs ?? 0;
  const last = quiet.words.at(-1)?.toMs ?? 0;
  return [
    ...(dropping(place.words.filter((w) => !isFunction(w))) ? ['phones dropped in other words'] : []),
    ...(dropping(place.words.filter(isFunction)) ? ['phones dropped in function words'] : []),
    ...(place.words.some((w) => w.swapped > 0) ? ['phones swapped'] : []),
    ...(pausesIn(quiet) > 0 ? ['pause over 0.35 s within'] : []),
    ...(quiet.levelDb < SOFT_DB ? ['speech below -38 dB of full scale'] : []),
    ...(place.spanMs[1] > last + 600 ? ['over 0.6 s kept after the last word'] : []),
    ...(place.spanMs[0] > first + SLACK_MS || place.spanMs[1] < last - SLACK_MS ? ['voice cut off'] : []),
  ];
}

/** The words of a sentence in which another differs: first, and one after the last. */
function differing(a: readonly PlacedWord[], b: readonly PlacedWord[]): [number, number] {
  let from = 0;
  while (from < a.length && from < b.length && a[from]?.word === b[from]?.word) from++;
  let back = 0;
  while (back < a.length - from && back < b.length - from && a.at(-1 - back)?.word === b.at(-1 - back)?.word)
    back++;
  return [from, a.length - back];
}
