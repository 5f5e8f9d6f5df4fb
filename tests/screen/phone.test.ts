/// <reference lib="dom" />
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fixtureDir } from '../../src/app/paths.js';
import { decodeWav, encodeWav, isProblem } from '../../src/speech/wav.js';
import { scratch } from '../app/cli.js';
import { browser, noBrowser, pairedPage, press, type Watched, watched, why } from './watched.js';

/** What the browser's make-believe microphone hears: quiet, a command from the recordings, quiet. */
function spoken(file: string, folder: string): string {
  const recording = decodeWav(readFileSync(join(fixtureDir, file)), file);
  if (isProblem(recording)) throw new Error(recording.problem);
  const quiet = Math.round(1.5 * recording.sampleRate);
  const pcm = new Float32Array(recording.pcm.length + 2 * quiet);
  for (let i = 0; i < pcm.length; i++) pcm[i] = Math.sin(i * i) * 2e-4;
  recording.pcm.forEach((v, i) => {
    pcm[i + quiet] = v;
  });
  const path = join(folder, 'spoken.wav');
  writeFileSync(path, encodeWav(pcm, recording.sampleRate));
  return path;
}

describe.skipIf(noBrowser)(`the phone by the sink${why}`, () => {
  let chrome: Browser;
  let run: Watched;
  let page: Page;
  const data = scratch();

  beforeAll(async () => {
    chrome = await browser([
      '--use-fake-device-for-media-stream',
      '--use-fake-ui-for-media-stream',
      `--use-file-for-fake-audio-capture=${spoken('01-begin-the-run.wav', data)}%noloop`,
      '--autoplay-policy=no-user-gesture-required',
    ]);
    // neither a recorder nor a player on this computer: the phone is both
    run = await watched(data, [], 0, { PATH: dirname(process.execPath) });
    const context = await chrome.newContext({
      viewport: { width: 390, height: 844 },
      permissions: ['microphone'],
    });
    page = await pairedPage(context, run);
    await page.evaluate(() => {
      const seen = globalThis as unknown as { sounded: number[]; shaken: number };
      seen.sounded = [];
      seen.shaken = 0;
      const start = AudioBufferSourceNode.prototype.start;
      AudioBufferSourceNode.prototype.start = function (...when) {
        seen.sounded.push(this.buffer?.duration ?? 0);
        return start.apply(this, when);
      };
      navigator.vibrate = () => {
        seen.shaken++;
        return true;
      };
    });
  }, 120_000);
  afterAll(async () => {
    await run?.kill();
    await chrome?.close();
  });

  it('is the microphone while the field is held: what is spoken is understood and done, and answered aloud there', async () => {
    await page.click('#speaker');
    await page.locator('#hold').scrollIntoViewIfNeeded();
    await page.locator('#hold').hover();
    await page.mouse.down();
    await page.locator('#ears', { hasText: 'This screen is the microphone' }).waitFor();
    await page.locator('#heard', { hasText: '“begin the run”' }).waitFor({ timeout: 40_000 });
    await page.mouse.up();
    await page.locator('#act', { hasText: 'Get the bottles ready' }).waitFor();
    await page.locator('#ears', { hasText: 'The computer listens' }).waitFor();
    expect(run.out()).toContain('heard: begin the run');
    await expect
      // the first piece of an answer may be short: pieces are cut where a sentence ends
      .poll(
        () =>
          page.evaluate(() =>
            (globalThis as unknown as { sounded: number[] }).sounded.reduce(
              (sum, seconds) => sum + seconds,
              0,
            ),
          ),
        { timeout: 40_000 },
      )
      .toBeGreaterThan(2);
  }, 120_000);

  it('shakes for a call', async () => {
    for (const label of ['Next step', 'Next step', 'Film is loaded', /I am about to pour/, 'Prebath is in'])
      await press(page, label);
    await page.locator('#lines .call', { hasText: 'Drain the prebath now' }).waitFor({ timeout: 40_000 });
    expect(await page.evaluate(() => (globalThis as unknown as { shaken: number }).shaken)).toBeGreaterThan(
      0,
    );
  }, 120_000);
});
