import type { Recogniser, WordGraph } from '../../../src/language/types.js';
import { lexiconFiles } from '../../../src/speech/installed.js';
import { pronunciations } from '../../../src/speech/recogniser/lexicon/lexicon.js';
import { commandGrammar } from './commands.js';
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
import { hasSphinx, sphinxReads } from './sphinx.js';
import { paired, share, table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';

type Condition = { kind: NoiseKind; snrDb: number } | null;

const nameOf = (c: Condition): string => (c ? `${c.kind} ${c.snrDb} dB` : 'quiet');

interface Scored {
  right: boolean[];
  accepted: boolean[];
}

async function ours(
  recogniser: Recogniser,
  grammar: WordGraph,
  clips: { words: string; pcm: Float32Array }[],
): Promise<Scored> {
  recogniser.setGrammar(grammar);
  const out: Scored = { right: [], accepted: [] };
  for (const { words, pcm } of clips) {
    const { best, accepted } = await recogniser.recognise(pcm);
    out.right.push(best?.words === words);
    out.accepted.push(accepted);
  }
  return out;
}

const sayings = (): ((word: string) => string[]) => pronunciations(lexiconFiles());

function theirs(grammar: WordGraph, clips: { words: string; pcm: Float32Array }[]): boolean[] {
  const say = sayings();
  const read = sphinxReads(
    grammar,
    clips.map((c) => c.pcm),
    (w) => [...new Set(say(w).map((p) => p.replace(/\d/g, '')))],
  );
  return clips.map((c, i) => read[i] === c.words);
}

const count = (list: readonly boolean[]): number => list.filter(Boolean).length;

/** Talk for the babble: sentences in held-back voices, never those being judged at the time. */
function talkers(voices: readonly string[]): Float32Array[] {
  return everydayTalk(24, 555).map((text, i) => synthesise(voices[i % voices.length] ?? '', text));
}

/** Sentences of the bench's command grammar and the product's own example sentences, by voice and by noise. */
export async function commandsByVoice(recogniser: Recogniser, quick: boolean): Promise<string> {
  const voices = judgeVoices.filter(speaks);
  const perVoice = quick ? 6 : 40;
  const random = seeded(2024);
  const ourProduct = product();
  const talk = talkers(voices);
  const clean: { voice: string; set: string; grammar: WordGraph; words: string; pcm: Float32Array }[] = [];
  for (const voice of voices) {
    for (let i = 0; i < perVoice; i++) {
      const words = sentenceOf(commandGrammar, random);
      clean.push({ voice, set: 'commands', grammar: commandGrammar, words, pcm: synthesise(voice, words) });
    }
    for (const words of ourProduct.examples.filter((_, i) => !quick || i % 8 === 0))
      clean.push({
        voice,
        set: 'product',
        grammar: ourProduct.immersed,
        words,
        pcm: synthesise(voice, words),
      });
  }
  const conditions: Condition[] = [
    null,
    ...(quick ? [10, 0] : [20, 10, 5, 0]).flatMap((snrDb) => noiseKinds.map((kind) => ({ kind, snrDb }))),
  ];
  const rows: string[][] = [];
  const byVoice: string[][] = voices.map((v) => [v]);
  const compared: string[][] = [];
  for (const condition of conditions) {
    const row = [nameOf(condition)];
    for (const set of ['commands', 'product']) {
      const clips = clean
        .filter((c) => c.set === set)
        .map((c, i) => ({ ...c, pcm: inNoise(c.pcm, condition, 7000 + i, talk) }));
      const grammar = clips[0]?.grammar ?? commandGrammar;
      const { right, accepted } = await ours(recogniser, grammar, clips);
      row.push(
        share(count(right), right.length),
        share(right.filter((r, i) => r && !accepted[i]).length, count(right)),
        String(right.filter((r, i) => !r && accepted[i]).length),
      );
      if (set !== 'commands') continue;
      const name = nameOf(condition);
      if (name === 'quiet' || name === 'water 0 dB' || name === 'babble 5 dB')
        voices.forEach((v, i) => {
          const mine = clips.flatMap((c, j) => (c.voice === v ? [right[j] === true] : []));
          byVoice[i]?.push(`${count(mine)}/${mine.length}`);
        });
      if (hasSphinx() && (condition === null || condition.snrDb === 10)) {
        const peer = theirs(grammar, clips);
        compared.push([name, ...compareRow(right, peer)]);
      }
    }
    rows.push(row);
  }
  return [
    `## Command sentences, ${voices.length} voices never trained or tuned on\n`,
    table(
      [
        'noise',
        'commands right',
        'right but refused',
        'wrong but accepted',
        'product examples right',
        'right but refused',
        'wrong but accepted',
      ],
      rows,
    ),
    '\nBy voice (commands):\n',
    table(['voice', ...(quick ? ['quiet', 'water 0 dB'] : ['quiet', 'babble 5 dB', 'water 0 dB'])], byVoice),
    compared.length > 0
      ? `\nAgainst PocketSphinx, same clips and grammar:\n\n${table(['noise', ...compareHead], compared)}`
      : '',
    '',
  ].join('\n');
}

const compareHead = ['ours', 'PocketSphinx', 'only ours / only theirs', 'McNemar p', 'we are'];

function compareRow(right: boolean[], peer: boolean[]): string[] {
  const p = paired(right, peer);
  return [
    share(count(right), right.length),
    share(count(peer), peer.length),
    `${p.onlyA} / ${p.onlyB}`,
    p.p < 0.001 ? '< 0.001' : p.p.toFixed(3),
    p.verdict === 'tie' ? 'tie' : p.verdict,
  ];
}

/** Recordings of people, in quiet and in noise, beside PocketSphinx. */
export async function realPeople(recogniser: Recogniser, quick: boolean): Promise<string> {
  const sets: RealSet[] = [
    ...(hasPrompts() ? [...promptNumbers(), promptAlphabet(), promptSentences()] : []),
    ...(hasSphinxData() ? sphinxSets() : []),
  ];
  if (sets.length === 0) return 'No recordings of real people are installed.\n';
  const talk = talkers(judgeVoices.filter(speaks));
  const conditions: Condition[] = quick
    ? [null]
    : [null, { kind: 'water', snrDb: 10 }, { kind: 'water', snrDb: 5 }, { kind: 'babble', snrDb: 5 }];
  const rows: string[][] = [];
  for (const set of sets)
    for (const condition of set.clips.length < 20 ? [null] : conditions) {
      const clips = set.clips.map((c, i) => ({
        words: c.words,
        pcm: inNoise(c.pcm, condition, 8000 + i, talk),
      }));
      const { right, accepted } = await ours(recogniser, set.grammar, clips);
      const refused = right.filter((r, i) => r && !accepted[i]).length;
      const peer = hasSphinx()
        ? compareRow(right, theirs(set.grammar, clips))
        : [share(count(right), right.length), '', '', '', ''];
      rows.push([set.name, nameOf(condition), ...peer, String(refused)]);
    }
  return [
    '## Recordings of real people (Debian packages asterisk-core-sounds-en-g722 and pocketsphinx-testdata)\n',
    table(['set', 'noise', ...compareHead, 'right but refused'], rows),
    '',
  ].join('\n');
}
