import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { hearWhole } from '../../src/app/hear-file.js';
import { encodeWav } from '../../src/speech/wav.js';

const dir = mkdtempSync(join(tmpdir(), 'tankside-hear-'));
afterAll(() => rmSync(dir, { recursive: true }));

describe('a sound file that is heard', () => {
  it.each([1, 150])('is not called undecodable when the recogniser fails: %i s of it', async (seconds) => {
    const path = join(dir, `${seconds}.wav`);
    const tone = Float32Array.from({ length: seconds * 16_000 }, (_, i) =>
      // half a second of noise in every two is an utterance to the endpointer
      i % 32_000 < 16_000 ? Math.sin(i * i * 0.0007) * 0.4 : 0,
    );
    writeFileSync(path, encodeWav(tone, 16_000));
    const parts = [];
    for await (const part of hearWhole(path, () => Promise.reject(new Error('no memory left'))))
      parts.push(part);
    expect(parts.at(-1)?.bad).toMatch(/the recogniser failed \(no memory left\)/);
    expect(parts.at(-1)?.bad).not.toMatch(/cannot be decoded/);
  });
});
