import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import { digitGrammar, numberGrammar } from './commands.js';
import { graphOf } from './grammar.js';
import { below100, small, tens } from './numerals.js';
import { joined } from './spoken.js';
import { floats } from './synth.js';

/** Words of one real person, put together into numbers; for choosing constants only, never reported, never trained on. */
export interface Speaker {
  name: string;
  /** word to its recording */
  files: Map<string, string>;
  /** said after a number; none where no unit is recorded */
  units: string[];
}

/** Debian's csmash-data (GPL-2+): a table tennis umpire counts from zero to twenty, then thirty. */
const csmash = '/usr/share/games/csmash/wav';
/** Debian's saytime (sounds by David C Dawson, GPL-2+): a speaking clock, 8 kHz mu-law. */
const saytime = '/usr/share/saytime';

/** Speakers whose packages are installed. */
export function speakers(): Speaker[] {
  const counted = new Map([...small, ...tens].map((w) => [w, join(csmash, `${w}.wav`)]));
  const clock = new Map([
    ...small.map((w, n): [string, string] => [w, join(saytime, `${n}.au`)]),
    ...tens.map((w, n): [string, string] => [w, join(saytime, `${20 + 10 * n}.au`)]),
    ...['minutes', 'seconds'].map((w): [string, string] => [w, join(saytime, `${w}.au`)]),
  ]);
  return [
    { name: 'csmash', files: counted, units: [] },
    { name: 'saytime', files: clock, units: ['minutes', 'seconds'] },
  ].flatMap(({ name, files, units }) => {
    const there = new Map([...files].filter(([, file]) => existsSync(file)));
    return there.size > 0 ? [{ name, files: there, units }] : [];
  });
}

const bareNumber = graphOf('bare numbers', below100);

/** A recording at 16 kHz, −1 to 1. */
export function recording(file: string): Float32Array {
  const form = ['-r', '16000', '-c', '1', '-e', 'float', '-b', '32', '-t', 'raw', '-'];
  // the clock's files are bare mu-law, whatever their ending says
  const coded = file.endsWith('.au') ? ['-t', 'ul', '-r', '8000', '-c', '1', file] : [file];
  return floats(
    execFileSync('sox', [...coded, ...form], { maxBuffer: 1 << 27, stdio: ['ignore', 'pipe', 'ignore'] }),
  );
}

/** a speaker's few words, which are put together again and again */
const words = new Map<string, Float32Array>();

function wordIn(file: string): Float32Array {
  const pcm = words.get(file) ?? recording(file);
  words.set(file, pcm);
  return pcm;
}

export interface Said {
  grammar: WordGraph;
  words: string;
  pcm: Float32Array;
}

const said = (speaker: Speaker, grammar: WordGraph, sentence: string[], random: () => number): Said => ({
  grammar,
  words: sentence.join(' '),
  pcm: joined(
    sentence.map((w) => wordIn(speaker.files.get(w) ?? '')),
    random,
  ),
});

/** Three digits, or four to six, one recorded word after another. */
export function recordedDigits(speaker: Speaker, random: () => number): Said {
  const can = small.slice(0, 10).filter((w) => speaker.files.has(w));
  const length = random() < 0.5 ? 3 : 4 + Math.floor(3 * random());
  const words = Array.from({ length }, () => can[Math.floor(random() * can.length)] ?? '');
  return said(speaker, digitGrammar, words, random);
}

/** A number below a hundred that the speaker's words can say, with a unit where one is recorded. */
export function recordedNumber(speaker: Speaker, random: () => number): Said {
  const pick = (list: readonly string[]): string => list[Math.floor(random() * list.length)] ?? '';
  const can = (list: readonly string[]): string[] => list.filter((w) => speaker.files.has(w));
  const words = random() < 0.5 ? [pick(can(small))] : [pick(can(tens))];
  if (tens.includes(words[0] ?? '') && random() < 0.75) words.push(pick(can(small.slice(1, 10))));
  if (speaker.units.length === 0) return said(speaker, bareNumber, words, random);
  return said(speaker, numberGrammar, [...words, pick(can(speaker.units))], random);
}
