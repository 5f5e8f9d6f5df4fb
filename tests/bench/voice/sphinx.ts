import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import { lexiconFiles } from '../../../src/speech/installed.js';
import { pronunciations } from '../../../src/speech/recogniser/lexicon/lexicon.js';
import { installed } from './synth.js';

const models = '/usr/share/pocketsphinx/model/en-us';
const RATE = 16_000;

export const hasSphinx = (): boolean => installed('pocketsphinx_batch');

/**
 * PocketSphinx's best readings of clips under a grammar, with its own en-us model and dictionary; ours for the words that
 * its own lacks.
 * @throws Error with what it said itself when it ends with a failure
 */
export function sphinxReads(grammar: WordGraph, clips: readonly Float32Array[]): string[] {
  const dir = mkdtempSync(join(tmpdir(), 'sphinx-'));
  try {
    writeFileSync(join(dir, 'words.dict'), dictionaryOf(grammar));
    writeFileSync(join(dir, 'g.fsg'), fsg(grammar));
    clips.forEach((pcm, i) => {
      writeFileSync(join(dir, `${i}.raw`), pcm16(pcm));
    });
    writeFileSync(join(dir, 'ctl'), clips.map((_, i) => `${i}\n`).join(''));
    const settings = {
      hmm: join(models, 'en-us'),
      dict: join(dir, 'words.dict'),
      fsg: join(dir, 'g.fsg'),
      adcin: 'yes',
      cepdir: dir,
      cepext: '.raw',
      ctl: join(dir, 'ctl'),
      hyp: join(dir, 'hyp'),
      samprate: String(RATE),
    };
    const { status, error, stderr } = spawnSync(
      'pocketsphinx_batch',
      Object.entries(settings).flatMap(([name, value]) => [`-${name}`, value]),
      { encoding: 'utf8', maxBuffer: 1 << 28 },
    );
    if (status !== 0)
      throw new Error(
        `pocketsphinx_batch failed: ${error?.message ?? `it ended with ${status}`}\n${stderr?.slice(-3000) ?? ''}`,
      );
    const read = new Map(
      readFileSync(join(dir, 'hyp'), 'utf8')
        .split('\n')
        .flatMap((line): [number, string][] => {
          const m = /^(.*)\((\d+) -?[\d.e+-]+\)$/.exec(line);
          return m ? [[Number(m[2]), (m[1] ?? '').replace(/\(\d+\)/g, '').trim()]] : [];
        }),
    );
    return clips.map((_, i) => read.get(i) ?? '');
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

/** The words of a grammar as PocketSphinx says them: its phones carry no stress. */
function dictionaryOf(grammar: WordGraph): string {
  const words = new Set(grammar.arcs.flatMap((a) => (a.word === null ? [] : [a.word])));
  const own = new Map<string, string[]>();
  for (const line of readFileSync(join(models, 'cmudict-en-us.dict'), 'utf8').split('\n')) {
    const [, word = '', phones = ''] = /^([^\s(]+)(?:\(\d+\))?\s+(.*)$/.exec(line) ?? [];
    if (words.has(word)) own.set(word, [...(own.get(word) ?? []), phones]);
  }
  const ours = pronunciations(lexiconFiles());
  const plain = (word: string): string[] => [...new Set(ours(word).map((p) => p.replace(/\d/g, '')))];
  const lines = [...words].flatMap((word) =>
    (own.get(word) ?? plain(word)).map((phones, i) => `${word}${i ? `(${i + 1})` : ''} ${phones}`),
  );
  return `${lines.join('\n')}\n`;
}

function fsg(g: WordGraph): string {
  // every way out of a node equally likely, as PocketSphinx itself makes of a JSGF grammar without weights
  const ways = new Map<number, number>();
  for (const a of g.arcs) ways.set(a.from, (ways.get(a.from) ?? 0) + 1);
  const arcs = g.arcs.map(
    (a) =>
      `TRANSITION ${a.from} ${a.to} ${(1 / (ways.get(a.from) ?? 1)).toFixed(6)}${a.word === null ? '' : ` ${a.word}`}`,
  );
  return `FSG_BEGIN <g>\nNUM_STATES ${g.nodeCount}\nSTART_STATE ${g.start}\nFINAL_STATE ${g.end}\n${arcs.join('\n')}\nFSG_END\n`;
}

function pcm16(pcm: Float32Array): Buffer {
  const out = Buffer.alloc(pcm.length * 2);
  pcm.forEach((v, i) => {
    out.writeInt16LE(Math.max(-32768, Math.min(32767, Math.round(v * 32767))), 2 * i);
  });
  return out;
}
