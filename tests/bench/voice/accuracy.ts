import type { WordGraph } from '../../../src/language/types.js';
import { resample } from '../../../src/speech/ears/resample.js';
import { commandGrammar, digitGrammar } from './commands.js';
import { sentenceOf } from './grammar.js';
import { inNoise, type NoiseKind, noiseKinds } from './noise.js';
import { product } from './product.js';
import { seeded } from './random.js';
import {
  hasPrompts,
  hasSphinxData,
  promptAlphabet,
  promptNumbers,
  promptSentences,
  type RealSet,
  sphinxSets,
} from './real.js';
import { recordedDigits, speakers } from './recorded.js';
import { hasSphinx, sphinxReads } from './sphinx.js';
import { joined } from './spoken.js';
import { beside, besideHead, share, table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';
import type { Trials } from './tunings.js';

type Condition = { kind: NoiseKind; snrDb: number } | null;

const nameOf = (c: Condition): string => (c ? `${c.kind} ${c.snrDb} dB` : 'quiet');

interface Clip {
  /** which set of clips, and who speaks */
  set: string;
  voice: string;
  words: string;
  grammar: WordGraph;
  pcm(): Float32Array;
}

/** A clip in one condition, and how it went. */
export interface Heard {
  set: string;
  voice: string;
  noise: string;
  right: boolean;
  accepted: boolean;
  /** whether PocketSphinx has it right; null where it was not asked */
  theirs: boolean | null;
}

/** Which clips a part of the bench takes. */
export type Takes = (clip: number) => boolean;

async function hearAll(
  trials: Trials,
  clips: readonly Clip[],
  {
    seed,
    conditions,
    peer,
    takes,
  }: { seed: number; conditions: Condition[]; peer: Condition[]; takes: Takes },
): Promise<Heard[]> {
  const talk = talkers(judgeVoices.filter(speaks));
  const heard: Heard[] = [];
  const mine = [...clips.entries()].filter(([i]) => takes(i));
  for (const condition of conditions) {
    const sounds = mine.map(([i, clip]) => ({
      ...clip,
      pcm: inNoise(clip.pcm(), condition, seed + i, talk),
    }));
    const read = hasSphinx() && peer.includes(condition) ? readsByGrammar(sounds) : null;
    for (const { set, voice, words, grammar, pcm } of sounds) {
      trials.recogniser.setGrammar(grammar);
      const theirs = read && read.get(pcm) === words;
      for (const [t, { best, accepted }] of (await trials.hear(pcm)).entries()) {
        const right = best?.words === words;
        heard.push({ set: trials.titled(set, t), voice, noise: nameOf(condition), right, accepted, theirs });
      }
    }
  }
  return heard;
}

function readsByGrammar(
  sounds: readonly { grammar: WordGraph; pcm: Float32Array }[],
): Map<Float32Array, string> {
  const read = new Map<Float32Array, string>();
  for (const grammar of new Set(sounds.map((s) => s.grammar))) {
    const pcm = sounds.filter((s) => s.grammar === grammar).map((s) => s.pcm);
    for (const [i, words] of sphinxReads(grammar, pcm).entries()) read.set(pcm[i] as Float32Array, words);
  }
  return read;
}

/** Talk for the babble: sentences in held-back voices. */
function talkers(voices: readonly string[]): Float32Array[] {
  return everydayTalk(24, 555).map((text, i) => synthesise(voices[i % voices.length] ?? '', text));
}

/** Sentences of the bench's command grammar, by voice and by noise. */
export function commandsHeard(trials: Trials, quick: boolean, takes: Takes): Promise<Heard[]> {
  const random = seeded(2024);
  const clips = judgeVoices.filter(speaks).flatMap((voice) =>
    Array.from({ length: quick ? 6 : 40 }, (): Clip => {
      const words = sentenceOf(commandGrammar, random);
      return { set: 'commands', voice, words, grammar: commandGrammar, pcm: () => synthesise(voice, words) };
    }),
  );
  const conditions: Condition[] = [
    null,
    ...(quick ? [10, 0] : [20, 10, 5, 0]).flatMap((snrDb) => noiseKinds.map((kind) => ({ kind, snrDb }))),
  ];
  const peer = conditions.filter((c) => c === null || c.snrDb === 10);
  return hearAll(trials, clips, { seed: 7000, conditions, peer, takes });
}

/** The product's own example sentences under its own grammar. */
export function examplesHeard(trials: Trials, quick: boolean, takes: Takes): Promise<Heard[]> {
  const { examples, immersed } = product();
  const clips = judgeVoices.filter(speaks).flatMap((voice) =>
    examples
      .filter((_, i) => !quick || i % 8 === 0)
      .map(
        (words): Clip => ({
          ...{ set: 'product', voice, words, grammar: immersed },
          pcm: () => synthesise(voice, words),
        }),
      ),
  );
  const conditions: Condition[] = [null, { kind: 'water', snrDb: 10 }, { kind: 'water', snrDb: 0 }];
  return hearAll(trials, clips, { seed: 9000, conditions, peer: [], takes });
}

/**
 * Strings of three to six digits: said in one go, and word by word as a caller dictates, in held-back voices, the latter over
 * the telephone's band too; and two development speakers' recorded words, one after another.
 */
export function digitsHeard(trials: Trials, quick: boolean, takes: Takes): Promise<Heard[]> {
  const random = seeded(88);
  const count = quick ? 4 : 20;
  const base = { words: '', grammar: digitGrammar };
  const clips = judgeVoices.filter(speaks).flatMap((voice) =>
    Array.from({ length: count }, (): Clip[] => {
      const digits = Array.from({ length: 3 + Math.floor(4 * random()) }, () => pick(DIGITS, random));
      const words = digits.join(' ');
      const one = (): Float32Array =>
        joined(
          digits.map((digit) => synthesise(voice, digit)),
          seeded(digits.length),
        );
      const narrow = (): Float32Array => resample(resample(one(), 16_000, 8_000), 8_000, 16_000);
      return [
        { ...base, set: 'digits in one go', voice, words, pcm: () => synthesise(voice, words) },
        { ...base, set: 'digits word by word', voice, words, pcm: one },
        { ...base, set: 'digits word by word, 8 kHz', voice, words, pcm: narrow },
      ];
    }).flat(),
  );
  const recorded = speakers().flatMap((speaker) =>
    Array.from({ length: 3 * count }, (): Clip => {
      const { words, pcm } = recordedDigits(speaker, random);
      return {
        ...base,
        set: `recorded digits, ${speaker.name} (development)`,
        voice: '',
        words,
        pcm: () => pcm,
      };
    }),
  );
  const conditions: Condition[] = [null, { kind: 'water', snrDb: 10 }];
  return hearAll(trials, [...clips, ...recorded], { seed: 6000, conditions, peer: conditions, takes });
}

const DIGITS = ['zero', 'oh', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const pick = (list: readonly string[], random: () => number): string =>
  list[Math.floor(random() * list.length)] ?? '';

/** Recordings of people, in quiet and in noise. */
export function peopleHeard(trials: Trials, quick: boolean, takes: Takes): Promise<Heard[]> {
  const sets: RealSet[] = [
    ...(hasPrompts() ? [...promptNumbers(), promptAlphabet(), promptSentences()] : []),
    ...(hasSphinxData() ? sphinxSets() : []),
  ];
  const clips = sets.flatMap((set) =>
    set.clips.map(
      ({ words, pcm }): Clip => ({
        ...{ set: set.name, voice: '', words, grammar: set.grammar },
        pcm: () => pcm,
      }),
    ),
  );
  const conditions: Condition[] = quick
    ? [null]
    : [null, { kind: 'water', snrDb: 10 }, { kind: 'water', snrDb: 5 }, { kind: 'babble', snrDb: 5 }];
  return hearAll(trials, clips, { seed: 8000, conditions, peer: conditions, takes });
}

const grouped = (heard: readonly Heard[], key: (h: Heard) => string): [string, Heard[]][] => {
  const groups = new Map<string, Heard[]>();
  for (const h of heard) groups.set(key(h), [...(groups.get(key(h)) ?? []), h]);
  return [...groups];
};

const count = (list: readonly Heard[], what: (h: Heard) => boolean): number => list.filter(what).length;

/** How often sentences were heard right, by noise; by voice where they have some; beside PocketSphinx. */
export function heardTable(heard: readonly Heard[], title: string): string {
  const compared = grouped(
    heard.filter((h) => h.theirs !== null),
    (h) => `${h.set} | ${h.noise}`,
  );
  const voices = grouped(
    heard.filter((h) => h.voice !== ''),
    (h) => h.voice,
  );
  const noises = [...new Set(heard.map((h) => h.noise))];
  return [
    `## ${title}\n`,
    table(
      ['set', 'noise', 'right', 'right but refused', 'wrong but accepted'],
      grouped(heard, (h) => `${h.set} | ${h.noise}`).map(([name, list]) => [
        name,
        share(
          count(list, (h) => h.right),
          list.length,
        ),
        String(count(list, (h) => h.right && !h.accepted)),
        String(count(list, (h) => !h.right && h.accepted)),
      ]),
    ),
    voices.length === 0
      ? ''
      : `\n${table(
          ['voice', ...noises],
          voices.map(([voice, list]) => [
            voice,
            ...noises.map((noise) => {
              const here = list.filter((h) => h.noise === noise);
              return `${count(here, (h) => h.right)}/${here.length}`;
            }),
          ]),
        )}`,
    compared.length === 0
      ? ''
      : `\nPocketSphinx, same clips and grammar:\n\n${table(
          ['set', 'noise', 'ours', ...besideHead],
          compared.map(([name, list]) => [
            name,
            share(
              count(list, (h) => h.right),
              list.length,
            ),
            ...beside(
              list.map((h) => h.right),
              list.map((h) => h.theirs === true),
            ),
          ]),
        )}`,
    '',
  ].join('\n');
}
