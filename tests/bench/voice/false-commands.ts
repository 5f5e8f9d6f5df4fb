import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import type { Takes } from './accuracy.js';
import { commandGrammar } from './commands.js';
import { inNoise, speechRms } from './noise.js';
import { readPeople } from './people.js';
import { product, says } from './product.js';
import { seeded } from './random.js';
import { hasPrompts, hasSphinxData, promptTalk, sphinxSets } from './real.js';
import { recording } from './recorded.js';
import { resized } from './spoken.js';
import { table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';
import type { Trials } from './tunings.js';
import { utterancesOf } from './utterances.js';

const RATE = 16_000;

/** Words that only a command which moves liquid or the process begins with or holds. */
const guarded =
  /\b(pour|pouring|returning|return|next|drain|draining|start|in the tank|is in|going in|ready|empty|loaded)\b/;

/** A piece of unrelated speech under one grammar. */
export interface Overheard {
  speech: string;
  grammar: string;
  seconds: number;
  /** what was said */
  said: string;
  /** what it was taken for; null for nothing */
  taken: string | null;
}

/** What to listen to. */
export interface TalkOptions {
  /** of synthetic talk */
  sentences: number;
  /** folder of strangers' orders, which are no commands of ours; left out where it is not there */
  people: string;
  /** folder of more recordings of anybody's talk in any language, FLAC, WAV or Ogg, each folder in it a source of its own */
  recordings: string | null;
  /** file of plain text that held-back voices read out, sentence after sentence */
  text: string | null;
  /** how often all of it is heard: from the second time at other speeds, every other piece with another one under it */
  rounds: number;
}

interface Talk {
  words: string;
  pcm(): Float32Array;
}

/** Unrelated speech, always listened to. */
export async function overhear(trials: Trials, takes: Takes, options: TalkOptions): Promise<Overheard[]> {
  const sources = sourcesOf(takes, options);
  const grammars: [string, WordGraph][] = [
    ...(options.rounds > 1 ? [] : [['bench commands', commandGrammar] as [string, WordGraph]]),
    ['product, bath in tank', product().immersed],
  ];
  const heard: Overheard[] = [];
  for (let round = 0; round < options.rounds; round++)
    for (const [grammar, graph] of grammars) {
      trials.recogniser.setGrammar(graph);
      for (const [speech, clips] of sources)
        for (const [at, [i, { words, pcm }]] of clips.entries()) {
          // a few bits of talk are commands word for word
          if (says(graph, words)) continue;
          const under = clips[(at + 1 + round) % clips.length]?.[1] ?? null;
          const said = round === 0 ? pcm() : varied(pcm(), under, seeded(1000 * round + i));
          const room = inNoise(said, null, 100_000 * round + i);
          for (const sound of await utterancesOf(room, trials.recogniser, graph)) {
            for (const [t, { accepted, best }] of (await trials.hear(sound)).entries())
              heard.push({
                speech: trials.titled(speech, t),
                grammar,
                seconds: sound.length / RATE,
                said: words,
                taken: accepted && best ? best.words : null,
              });
          }
        }
    }
  return heard;
}

function sourcesOf(
  takes: Takes,
  { sentences, people, recordings, text }: TalkOptions,
): [string, [number, Talk][]][] {
  const voices = judgeVoices.filter(speaks);
  const read = (list: readonly string[]): Talk[] =>
    list.map((words, i) => ({ words, pcm: () => synthesise(voices[i % voices.length] ?? '', words) }));
  const still = (clips: readonly { words: string; pcm: Float32Array }[]): Talk[] =>
    clips.map(({ words, pcm }) => ({ words, pcm: () => pcm }));
  const numbered = (clips: readonly Talk[]): [number, Talk][] =>
    [...clips.entries()].filter(([i]) => takes(i));
  const sources: [string, [number, Talk][]][] = [
    ['talk in held-back synthetic voices', numbered(read(everydayTalk(sentences, 4242)))],
  ];
  if (text !== null)
    sources.push(['text read out by them', numbered(read(sentencesOf(readFileSync(text, 'utf8'))))]);
  if (hasPrompts()) sources.push(['telephone prompts, one speaker', numbered(promptTalk())]);
  if (hasSphinxData())
    sources.push(['pocketsphinx-testdata', numbered(still(sphinxSets().flatMap((s) => s.clips)))]);
  if (existsSync(people)) {
    const orders = readPeople(people, takes).clips;
    sources.push([
      "strangers' orders of coffee",
      orders.map(({ number, name, pcm }) => [number, { words: name, pcm: () => pcm }]),
    ]);
  }
  if (recordings !== null)
    for (const folder of readdirSync(recordings).sort()) {
      const path = join(recordings, folder);
      const files = readdirSync(path).sort();
      const clips = files.map((name) => ({ words: name, pcm: () => recording(join(path, name)) }));
      sources.push([`recordings, ${folder}`, numbered(clips)]);
    }
  return sources;
}

/** Another throat and tempo, and every other time somebody else under it, 3 to 12 dB weaker. */
function varied(said: Float32Array, under: Talk | null, random: () => number): Float32Array {
  const out = resized(said, 0.88 + 0.24 * random());
  if (random() < 0.5 || !under) return out;
  const other = resized(under.pcm(), 0.88 + 0.24 * random());
  const gain = (speechRms(out) / speechRms(other)) * 10 ** (-(3 + 9 * random()) / 20);
  const from = Math.floor(random() * other.length);
  return other.length === 0
    ? out
    : out.map((v, i) => v + gain * (other[(from + i) % other.length] as number));
}

/** Sentences and halves of sentences of two to fourteen plain words. */
const sentencesOf = (text: string): string[] => [
  ...new Set(
    text
      .toLowerCase()
      .split(/[.,!?;:()"%]+|--|\n\s*\n/)
      .map((part) => part.replace(/\s+/g, ' ').trim())
      .filter((part) => /^[a-z']+( [a-z']+){1,13}$/.test(part)),
  ),
];

/** How often unrelated speech is taken for a command, and for one that moves liquid or goes on. */
export function overheardTable(heard: readonly Overheard[]): string {
  const rows = [...new Set(heard.map((h) => `${h.speech} | ${h.grammar}`))].map((name) => {
    const list = heard.filter((h) => `${h.speech} | ${h.grammar}` === name);
    const seconds = list.reduce((sum, h) => sum + h.seconds, 0);
    const taken = list.filter((h) => h.taken !== null);
    const moving = taken.filter((h) => guarded.test(h.taken ?? ''));
    return [
      name,
      String(list.length),
      (seconds / 60).toFixed(1),
      String(taken.length),
      ((taken.length * 3600) / seconds).toFixed(1),
      String(moving.length),
    ];
  });
  const head = [
    'speech',
    'grammar',
    'clips',
    'minutes',
    'taken',
    'per hour',
    'of these a pour or an advance',
  ];
  return [
    '## Unrelated speech taken for a command, always listening\n',
    table(head, rows),
    '',
    ...heard.flatMap((h) =>
      h.taken === null ? [] : [`- ${h.speech}, ${h.grammar}: "${h.said}" as "${h.taken}"`],
    ),
    '',
  ].join('\n');
}
