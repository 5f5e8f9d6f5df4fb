import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root, scratch, tankside } from './cli.js';

const folder = join(root, 'audio-fixtures');
const manifest = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8')) as Record<string, unknown>[];

describe('the recordings', () => {
  it('are each described, and nothing else lies there', () => {
    const sounds = readdirSync(folder).filter((f) => f.endsWith('.wav'));
    expect(manifest.map((m) => m.file).sort()).toEqual(sounds.sort());
    for (const m of manifest) {
      expect(m).toMatchObject({
        words: expect.stringMatching(/^[a-z' ]+$/),
        voice: expect.stringMatching(/^(flite|espeak-ng):/),
        noise: expect.any(String),
        madeBy: expect.stringMatching(/make\.mjs/),
      });
    }
  });
  it('stay under 20 MB', () => {
    const bytes = readdirSync(folder).reduce((n, f) => n + statSync(join(folder, f)).size, 0);
    expect(bytes).toBeLessThan(20e6);
  });
});

describe('tankside rehearse', () => {
  it('takes a whole run through from sound alone: all understood, calls on time, wrong pours stopped', () => {
    const ran = tankside(['rehearse', '--no-wav']);
    const commands = manifest.filter((m) => m.command).length;
    expect(ran.out).toContain(`commands understood: ${commands} of ${commands}`);
    expect(ran.out).toMatch(/calls on time: (\d+) of \1 /);
    expect(ran.out).toMatch(/other speech ignored: (\d+) of \1/);
    expect(ran.out).toMatch(/No\. Bleach before the developer/);
    expect(ran.out).toMatch(/No\. Bottle 4 holds the bleach/);
    expect(ran.code).toBe(0);
  }, 300_000);

  it('writes the spoken side to a WAV', () => {
    const at = scratch();
    const script = join(folder, 'rehearsal-short.txt');
    const out = join(at, 'said.wav');
    const ran = tankside(['rehearse', '--script', script, '--out', out]);
    expect(ran.out).toMatch(/The spoken side is in /);
    expect(existsSync(out) && statSync(out).size).toBeGreaterThan(50_000);
    expect(ran.code).toBe(3);
  });

  it('says so when a rehearsal has no such file', () => {
    const ran = tankside(['rehearse', '--script', join(scratch(), 'none.txt')]);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/cannot be read/);
  });
});
