import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import type { WordGraph } from '../../../src/language/types.js';
import { joined as endToEnd } from '../../../src/speech/wav.js';
import { any, graphOf, maybe, type Piece, repeat } from './grammar.js';
import { below100, small, tens } from './numerals.js';
import { seeded } from './random.js';
import { trimmed } from './spoken.js';
import { floats } from './synth.js';

/** Recordings of real people from Debian packages: for judging only, never for training or for choosing constants. */
const prompts = '/usr/share/asterisk/sounds/en_US_f_Allison';
const promptTexts = '/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz';
const sphinxData = '/usr/share/pocketsphinx/test/data';

export interface Clip {
  id: string;
  words: string;
  pcm: Float32Array;
}

export interface RealSet {
  name: string;
  grammar: WordGraph;
  clips: Clip[];
}

export const hasPrompts = (): boolean =>
  existsSync(join(prompts, 'digits/1.g722')) && existsSync(promptTexts);
export const hasSphinxData = (): boolean => existsSync(join(sphinxData, 'goforward.raw'));

const read = new Map<string, Float32Array>();

/** A prompt at 16 kHz, without the silence around it. */
function prompt(name: string): Float32Array {
  let pcm = read.get(name);
  if (!pcm) {
    const raw = execFileSync(
      'ffmpeg',
      [
        '-v',
        'error',
        '-f',
        'g722',
        '-i',
        join(prompts, `${name}.g722`),
        '-ar',
        '16000',
        '-ac',
        '1',
        '-f',
        'f32le',
        '-',
      ],
      { maxBuffer: 1 << 27 },
    );
    pcm = trimmed(floats(raw));
    read.set(name, pcm);
  }
  return pcm;
}

function joined(names: string[], gapS: number): Float32Array {
  const gap = new Float32Array(Math.round(gapS * 16_000));
  return endToEnd(names.flatMap((n, i) => (i === 0 ? [prompt(n)] : [gap, prompt(n)])));
}

const units = ['seconds', 'minutes', 'hours'];

const numberUnit = graphOf('numbers with units', [
  any(below100, [any(...small.slice(1, 10)), 'hundred', maybe(below100)]),
  any(...units),
]);

/** 120 numbers with units and 120 digit strings put together from one speaker's prompts. */
export function promptNumbers(): RealSet[] {
  const random = seeded(97);
  const pick = (n: number): number => Math.floor(random() * n);
  const spoken = (n: number): { words: string; files: string[] } =>
    n < 20
      ? { words: small[n] ?? '', files: [`digits/${n}`] }
      : n % 10 === 0
        ? { words: tens[n / 10 - 2] ?? '', files: [`digits/${n}`] }
        : {
            words: `${tens[Math.floor(n / 10) - 2]} ${small[n % 10]}`,
            files: [`digits/${n - (n % 10)}`, `digits/${n % 10}`],
          };
  const numbers: Clip[] = [];
  for (let i = 0; i < 120; i++) {
    const unit = units[pick(3)] ?? '';
    // every teen and ty once at least, the rest at random, some with hundreds
    const n = i < 16 ? (i < 8 ? i + 12 : (i - 6) * 10) : 1 + pick(99);
    const tail = spoken(n);
    const head = i % 5 === 4 ? 1 + pick(9) : 0;
    const words = `${head ? `${small[head]} hundred ` : ''}${tail.words} ${unit}`;
    const files = [...(head ? [`digits/${head}`, 'digits/hundred'] : []), ...tail.files, unit];
    numbers.push({ id: `number-${i}`, words, pcm: joined(files, 0.05) });
  }
  const digits: Clip[] = [];
  for (let i = 0; i < 120; i++) {
    const d = Array.from({ length: 3 }, () => pick(10));
    digits.push({
      id: `digits-${i}`,
      words: d.map((n) => small[n]).join(' '),
      pcm: joined(
        d.map((n) => `digits/${n}`),
        0.05,
      ),
    });
  }
  return [
    { name: 'numbers with units (one speaker)', grammar: numberUnit, clips: numbers },
    {
      name: 'three digits (one speaker)',
      grammar: graphOf('digits', repeat(any(...small.slice(0, 10), 'oh'), 8)),
      clips: digits,
    },
  ];
}

/** Text of a prompt as words, or null where it holds figures, tones or unclear parts. */
function promptWords(text: string): string | null {
  if (/[[\]\d<>]/.test(text)) return null;
  const words = text
    .toLowerCase()
    .replace(/[^a-z' ]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  return words === '' ? null : words;
}

function promptList(): { name: string; words: string | null }[] {
  return gunzipSync(readFileSync(promptTexts))
    .toString('utf8')
    .split('\n')
    .flatMap((line) => {
      const m = /^([\w/-]+):\s*(.*)$/.exec(line);
      if (
        !m?.[1] ||
        !existsSync(join(prompts, `${m[1]}.g722`)) ||
        /tone|beep|silence|monkeys|weasels/.test(m[1])
      )
        return [];
      return [{ name: m[1], words: promptWords(m[2] ?? '') }];
    });
}

const named = (test: (p: { name: string; words: string }) => boolean): Clip[] =>
  promptList().flatMap(({ name, words }) =>
    words !== null && test({ name, words }) ? [{ id: name, words, pcm: prompt(name) }] : [],
  );

const oneOf = (name: string, clips: Clip[]): RealSet => ({
  name,
  clips,
  grammar: graphOf(name, any(...new Set(clips.map((c) => c.words)))),
});

/** The alphabet words, one at a time. */
export const promptAlphabet = (): RealSet =>
  oneOf(
    'alphabet words (one speaker)',
    named((p) => /^phonetic\/[a-z]_p$/.test(p.name)),
  );

/** Every prompt of two to nine words, heard against all the others. */
export const promptSentences = (): RealSet =>
  oneOf(
    'whole prompts (one speaker)',
    named((p) => !p.name.includes('/') && p.words.split(' ').length >= 2 && p.words.split(' ').length <= 9),
  );

/** Every prompt with two words or more that is no number: talk that is no command. The sound is made when asked for. */
export const promptTalk = (): { words: string; pcm(): Float32Array }[] =>
  promptList()
    .filter(
      ({ name, words }) =>
        !/^(digits|letters|phonetic|silence)\//.test(name) && (words === null || words.includes(' ')),
    )
    .map(({ name, words }) => ({ words: words ?? '', pcm: () => prompt(name) }));

/** pocketsphinx-testdata: card games (several takes), a robot command, digits; each under its own grammar. */
export function sphinxSets(): RealSet[] {
  const rank = any(
    'ace',
    'two',
    'three',
    'four',
    'five',
    'six',
    'seven',
    'eight',
    'nine',
    'ten',
    'jack',
    'queen',
    'king',
    'lady',
  );
  const card: Piece = [rank, maybe('of'), any('clubs', 'hearts', 'diamonds', 'spades')];
  const cards = graphOf('cards', any([card, card, card], [card, card], card, [rank, card], [rank, rank]));
  const distance = any(...small.slice(1, 11));
  const robot = graphOf('robot', ['go', any('forward', 'backward'), distance, maybe(any('meter', 'meters'))]);
  const digits = graphOf('digits', repeat(any(...small.slice(0, 10), 'oh'), 8));
  const transcription = readFileSync(join(sphinxData, 'cards/cards.transcription'), 'utf8');
  const cardClips = [...transcription.matchAll(/<s>\s*(.*?)\s*<\/s>\s*\((\d+)\)/g)].map(
    ([, words = '', id = '']) => ({
      id: `cards-${id}`,
      words: words.trim(),
      pcm: wav(join(sphinxData, `cards/${id}.wav`)),
    }),
  );
  return [
    { name: 'cards', grammar: cards, clips: cardClips },
    {
      name: 'robot',
      grammar: robot,
      clips: [
        { id: 'goforward', words: 'go forward ten meters', pcm: wav(join(sphinxData, 'goforward.raw')) },
      ],
    },
    {
      name: 'digits',
      grammar: digits,
      clips: [
        {
          id: '2934z',
          words: 'two nine three four zero',
          pcm: wav(join(sphinxData, 'tidigits/dhd.2934z.raw')),
        },
      ],
    },
    librivox(),
  ];
}

/** Five read sentences under a loop of their own words. */
function librivox(): RealSet {
  const text = readFileSync(join(sphinxData, 'librivox/transcription'), 'utf8');
  const clips = [...text.matchAll(/<s>\s*(.*?)\s*<\/s>\s*\((\S+)\)/g)].map(([, words = '', id = '']) => ({
    id,
    words: words.trim(),
    pcm: wav(join(sphinxData, `librivox/${id}.wav`)),
  }));
  const names = [...new Set(clips.flatMap((c) => c.words.split(' ')))];
  return {
    name: 'read sentences, any order of their words',
    clips,
    grammar: {
      name: 'read words',
      nodeCount: 2,
      start: 0,
      end: 1,
      arcs: [...names.map((word) => ({ from: 0, to: 1, word })), { from: 1, to: 0, word: null }],
    },
  };
}

function wav(file: string): Float32Array {
  const bytes = readFileSync(file);
  const body = file.endsWith('.wav') ? bytes.subarray(44) : bytes;
  const out = new Float32Array(body.length >> 1);
  for (let i = 0; i < out.length; i++) out[i] = body.readInt16LE(2 * i) / 32768;
  return out;
}
