import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { encodeWav, isProblem, readWav } from '../../src/speech/wav.js';
import { jsonLines, root, scratch, tankside } from './cli.js';

const folder = scratch();
const file = (name: string): string => join(folder, name);
const tone = (seconds: number, rate: number): Float32Array =>
  Float32Array.from(
    { length: Math.round(seconds * rate) },
    (_, i) => 0.2 * Math.sin((i * 2 * Math.PI * 440) / rate),
  );

beforeAll(() => {
  mkdirSync(folder, { recursive: true });
  writeFileSync(file('empty.wav'), '');
  writeFileSync(file('silence.wav'), encodeWav(new Float32Array(16_000), 16_000));
  writeFileSync(file('tone.wav'), encodeWav(tone(1, 16_000), 16_000));
  writeFileSync(file('slow.wav'), encodeWav(tone(1, 4_000), 4_000));
  writeFileSync(file('text.wav'), 'this is no sound at all, only words in a file');
  writeFileSync(file('cut.wav'), encodeWav(tone(1, 16_000), 16_000).slice(0, 30));
});

describe('tankside hear', () => {
  it('gives every bad file one clear sentence and goes on with the next', () => {
    const bad = ['empty.wav', 'slow.wav', 'text.wav', 'cut.wav', 'not-there.wav'].map(file);
    const good = join(root, 'audio-fixtures', 'other-1.wav');
    const ran = tankside(['hear', ...bad, good, '--json']);
    const lines = jsonLines(ran.out);
    expect(lines).toHaveLength(6);
    for (const line of lines.slice(0, 5)) {
      expect(line).toMatchObject({ accepted: false, words: '', intent: null });
      expect(line.why).toMatch(/^\S.* .*\.$/);
    }
    expect(lines[5]).toMatchObject({ file: good, accepted: false });
    expect(ran.code).toBe(2);
    expect(ran.err).toBe('');
  });

  it('takes neither silence nor a tone for a command', () => {
    const ran = tankside(['hear', file('silence.wav'), file('tone.wav'), '--json']);
    expect(ran.code).toBe(0);
    for (const line of jsonLines(ran.out)) expect(line).toMatchObject({ accepted: false, intent: null });
  });

  it('cuts a file of minutes at its pauses, and tells where each command begins', async () => {
    const minute = 60 * 16_000;
    const pcm = Float32Array.from({ length: 2.5 * minute }, (_, i) => Math.sin(i * i) * 3e-4);
    for (const [name, at] of [
      ['02-next-step', 0.5 * minute],
      ['01-begin-the-run', 2 * minute],
    ] as const) {
      const sound = await readWav(join(root, 'audio-fixtures', `${name}.wav`));
      if (isProblem(sound)) throw new Error(sound.problem);
      pcm.set(sound.pcm, at);
    }
    writeFileSync(file('minutes.wav'), encodeWav(pcm, 16_000));
    const lines = jsonLines(tankside(['hear', file('minutes.wav'), '--json']).out);
    expect(lines.map((l) => l.words)).toEqual(['next step', 'begin the run']);
    expect(lines.map((l) => Math.round(Number(l.atMs) / 2000) * 2)).toEqual([30, 120]);
  });

  it('judges a file against a grammar given by path alone', () => {
    writeFileSync(
      file('two.jsgf'),
      '#JSGF V1.0;\ngrammar two;\npublic <two> = next step | (clean the lens);\n',
    );
    const [line] = jsonLines(
      tankside([
        'hear',
        join(root, 'audio-fixtures', '02-next-step.wav'),
        '--grammar',
        file('two.jsgf'),
        '--json',
      ]).out,
    );
    expect(line).toMatchObject({ words: 'next step', accepted: true, intent: null });
    expect(Object.keys(line ?? {})).toEqual(
      expect.arrayContaining([
        'file',
        'words',
        'accepted',
        'confidence',
        'alternatives',
        'intent',
        'milliseconds',
      ]),
    );
  });

  it('names the line of a grammar that cannot be read, and an unknown grammar', () => {
    writeFileSync(file('bad.jsgf'), '#JSGF V1.0;\ngrammar bad;\npublic <a> = ( next step;\n');
    const wav = join(root, 'audio-fixtures', '02-next-step.wav');
    const bad = tankside(['hear', wav, '--grammar', file('bad.jsgf')]);
    expect(bad.code).toBe(2);
    expect(bad.err).toMatch(/line 3/);
    const unknown = tankside(['hear', wav, '--grammar', 'nonsense']);
    expect(unknown.code).toBe(2);
    expect(unknown.err).toMatch(/There is no grammar “nonsense”/);
  });
});
