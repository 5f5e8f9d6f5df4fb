import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import { installed } from './synth.js';

const model = '/usr/share/pocketsphinx/model/en-us/en-us';
const RATE = 16_000;

export const hasSphinx = (): boolean => installed('pocketsphinx_batch');

/**
 * PocketSphinx's best readings of clips under a grammar, its own en-us model, our pronunciations added so that it
 * knows every word we know.
 */
export function sphinxReads(
  grammar: WordGraph,
  clips: readonly Float32Array[],
  sayings: (word: string) => string[],
): string[] {
  const dir = mkdtempSync(join(tmpdir(), 'sphinx-'));
  try {
    const words = [...new Set(grammar.arcs.flatMap((a) => (a.word === null ? [] : [a.word])))];
    const dict = words.flatMap((w) => sayings(w).map((p, i) => `${w}${i ? `(${i + 1})` : ''} ${p}`));
    writeFileSync(join(dir, 'words.dict'), `${dict.join('\n')}\n`);
    writeFileSync(join(dir, 'g.fsg'), fsg(grammar));
    clips.forEach((pcm, i) => {
      writeFileSync(join(dir, `${i}.raw`), pcm16(pcm));
    });
    writeFileSync(join(dir, 'ctl'), clips.map((_, i) => `${i}\n`).join(''));
    execFileSync(
      'pocketsphinx_batch',
      [
        ...['-hmm', model, '-dict', join(dir, 'words.dict'), '-fsg', join(dir, 'g.fsg')],
        ...[
          '-adcin',
          'yes',
          '-cepdir',
          dir,
          '-cepext',
          '.raw',
          '-ctl',
          join(dir, 'ctl'),
          '-hyp',
          join(dir, 'hyp'),
        ],
        ...['-samprate', String(RATE), '-logfn', join(dir, 'log')],
      ],
      { stdio: 'ignore' },
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
