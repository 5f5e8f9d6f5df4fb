/// <reference lib="dom" />
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { scratch } from '../app/cli.js';
import { shortSheet } from './short-sheet.js';
import { browser, docs, noBrowser, pairedPage, press, type Watched, watched, why } from './watched.js';

const sizes = { wall: [1280, 800], phone: [390, 844], small: [320, 568] } as const;

/** Keeps what a state looks like at three sizes, when asked to; looked at by eye, not compared. */
async function keepLooks(page: Page, state: string): Promise<void> {
  if (process.env.TANKSIDE_LOOKS !== '1') return;
  for (const [name, [width, height]] of Object.entries(sizes)) {
    await page.setViewportSize({ width, height });
    await page.evaluate(() => scrollTo(0, 0));
    await page.waitForTimeout(300);
    await page.screenshot({ path: docs(`${state}-${name}.png`) });
  }
}

/** What axe finds; it is put in through the browser's own door, since the page lets no foreign script in. */
async function faults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    }),
  );
  return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`);
}

/** How long a machine that does much else may take for what takes this one a second: nothing here is about speed, ms. */
const PATIENCE_MS = 120_000;
vi.setConfig({ testTimeout: 3 * PATIENCE_MS });

const digits = (page: Page) => page.locator('#spoken-clock').textContent();

describe.skipIf(noBrowser)(`the page${why}`, () => {
  let chrome: Browser;
  let run: Watched;
  let near: BrowserContext;
  let far: BrowserContext;
  let page: Page;
  let other: Page;
  const data = scratch();
  const args = ['--text', '--sheet', shortSheet(data)];

  beforeAll(async () => {
    chrome = await browser();
    run = await watched(data, args);
    near = await chrome.newContext({ viewport: { width: 1280, height: 800 } });
    far = await chrome.newContext({ viewport: { width: 320, height: 568 }, reducedMotion: 'reduce' });
    for (const context of [near, far]) context.setDefaultTimeout(PATIENCE_MS);
  });
  afterAll(async () => {
    await run?.kill();
    await chrome?.close();
  });

  it('lets nobody in with a wrong code, and says so', async () => {
    page = await near.newPage();
    await page.goto(`${run.link().split('#')[0]}#00000000`);
    await page.locator('#pair-problem', { hasText: 'not the code' }).waitFor();
    expect(await page.locator('#stand').isVisible()).toBe(false);
    expect(new URL(page.url()).hash).toBe('');
    expect(await faults(page)).toEqual([]);
    await keepLooks(page, 'pairing');
    const code = /#(\d+)$/.exec(run.link())?.[1] ?? '';
    await page.fill('#code', `${code.slice(0, 4)} ${code.slice(4)}`);
    await page.click('text=Let in');
    await page.locator('#stand').waitFor();
  });

  it('has a second screen show the same; a warning stands on both until either answers', async () => {
    run.say('screen');
    const before = run.link();
    await expect.poll(() => run.link(), { timeout: PATIENCE_MS }).not.toBe(before);
    other = await pairedPage(far, run);
    for (const label of ['Begin the run', 'Next step', 'Next step', 'Film is loaded'])
      await press(page, label);
    await other.locator('#act', { hasText: 'Pour the prebath in from bottle 1' }).waitFor();
    await page.fill('#words', 'pouring the bleach in from bottle four');
    await page.keyboard.press('Enter');
    for (const screen of [page, other])
      await screen.locator('#open', { hasText: /WARNING.*Bleach before the developer destroys/ }).waitFor();
    expect(await faults(page)).toEqual([]);
    await keepLooks(page, 'warning');
    await press(other, 'Cancel');
    for (const screen of [page, other]) await screen.locator('#open').waitFor({ state: 'hidden' });
  });

  it('refuses a button that was drawn for another moment', async () => {
    await page.evaluate(() => {
      document.querySelector('#offers')?.setAttribute('data-kept', 'yes');
    });
    const stale = await page
      .locator('#offers button')
      .first()
      .evaluateHandle((b) => b as HTMLButtonElement);
    await press(other, /I am about to pour the prebath/);
    await page.locator('#offers button', { hasText: 'Prebath is in' }).waitFor();
    await stale.evaluate((button) => button.click());
    await page.locator('#link', { hasText: 'moved on' }).waitFor();
  });

  it('can be used on 320 pixels and with the keyboard alone, and shows the time over a fifth of the height', async () => {
    await press(other, 'Prebath is in');
    await expect.poll(() => digits(other), { timeout: PATIENCE_MS }).toMatch(/left/);
    for (const [width, height] of Object.values(sizes)) {
      await other.setViewportSize({ width, height });
      // the page is laid out anew a moment after its size has changed
      const share = async () => ((await other.locator('#digits path').boundingBox())?.height ?? 0) / height;
      await expect.poll(share, { timeout: PATIENCE_MS }).toBeGreaterThan(0.2);
      const wide = () => other.evaluate(() => document.documentElement.scrollWidth);
      await expect.poll(wide, { timeout: PATIENCE_MS }).toBeLessThanOrEqual(width);
    }
    await other.setViewportSize({ width: 320, height: 568 });
    await other.locator('body').press('Tab');
    const focused = [];
    for (let i = 0; i < 24; i++) {
      focused.push(
        await other.evaluate(() => document.activeElement?.id || document.activeElement?.textContent || ''),
      );
      await other.keyboard.press('Tab');
    }
    for (const id of ['night', 'hold', 'listen', 'speaker', 'words']) expect(focused).toContain(id);
  });

  it('goes by night: red on black, with the caution that it is no safelight', async () => {
    await other.click('#night');
    await other.locator('#night-caution', { hasText: 'no light is safe' }).waitFor();
    expect(await faults(other)).toEqual([]);
    const colours = await other.evaluate(() =>
      [...document.querySelectorAll('body *')].flatMap((e) => {
        const s = getComputedStyle(e);
        return [s.color, s.backgroundColor, s.borderTopColor];
      }),
    );
    for (const colour of new Set(colours)) {
      const [r = 0, g = 0, b = 0, alpha = 1] = [...colour.matchAll(/[\d.]+/g)].map(Number);
      // nothing is lit but by red
      if (alpha > 0) expect(Math.max(g, b), colour).toBeLessThanOrEqual(Math.max(r * 0.55, 3));
    }
    await keepLooks(other, 'night');
    await other.setViewportSize({ width: 320, height: 568 });
    await other.click('#night');
  });

  it('is there again after a reload in the middle of a bath', async () => {
    await page.locator('#offers button', { hasText: 'I am about to return' }).waitFor();
    for (const label of ['I am about to return', 'Tank is empty', 'Water is in']) await press(page, label);
    await page.waitForTimeout(11_000);
    await press(page, 'I drain now');
    await press(page, 'Tank is empty');
    await press(page, /I am about to pour the developer/);
    await press(page, 'Developer is in');
    await page.locator('#bath', { hasText: 'Developer in the tank' }).waitFor();
    await page.reload();
    await page.locator('#bath', { hasText: 'Developer in the tank' }).waitFor();
    const first = await digits(page);
    await expect.poll(() => digits(page), { timeout: PATIENCE_MS }).not.toBe(first);
    expect(await page.locator('#lines li').count()).toBeGreaterThan(5);
    expect(await faults(page)).toEqual([]);
    await keepLooks(page, 'bath');
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  it('says that it is stale when the computer is gone, goes on counting, and comes back by itself', async () => {
    const port = Number(new URL(run.link()).port);
    await run.kill();
    await page.locator('#link', { hasText: 'No word from the computer' }).waitFor();
    expect(await page.evaluate(() => document.body.dataset.stale)).toBe('yes');
    const first = await digits(page);
    await expect.poll(() => digits(page), { timeout: PATIENCE_MS }).not.toBe(first);
    await keepLooks(page, 'stale');
    await page.setViewportSize({ width: 1280, height: 800 });
    // opened anew while the computer is gone: the page itself was kept, and says what it is
    const kept = await near.newPage();
    await kept.goto(page.url());
    await kept.locator('#gone', { hasText: 'The computer is not there' }).waitFor();
    await kept.locator('#link', { hasText: 'No word from the computer' }).waitFor();
    expect(await kept.locator('#stand').isVisible()).toBe(false);
    expect(await faults(kept)).toEqual([]);
    await keepLooks(kept, 'gone');
    run = await watched(data, args, port);
    await expect
      .poll(() => page.evaluate(() => document.body.dataset.stale), { timeout: PATIENCE_MS })
      .toBe('no');
    await other.locator('#bath', { hasText: 'Developer in the tank' }).waitFor();
    await kept.locator('#bath', { hasText: 'Developer in the tank' }).waitFor();
    await kept.close();
    expect(run.out()).toContain('An unfinished run is here');
  });

  it('takes the run to its end by touch, and the run leaves a report', async () => {
    for (let waited = 0; !run.out().includes('The report of this run') && waited < 400; ) {
      const moment = () => page.locator('#offers').getAttribute('data-key');
      const before = await moment();
      const label = (await page.locator('#offers button.first').textContent()) ?? '';
      const untimed = /so far/.test((await page.locator('#then').textContent()) ?? '');
      if (label === 'I drain now' && !(untimed && waited > 24)) {
        waited++;
        await page.waitForTimeout(500);
        continue;
      }
      waited = 0;
      const button = label.startsWith('No, cancel') ? 'Yes, confirm' : label;
      // buttons change by the clock too: one that has gone since it was read is no fault
      await press(page, button, 5000).catch(async (gone) => {
        if ((await moment()) === before) throw gone;
      });
    }
    await run.until('The report of this run');
    const [file] = readdirSync(join(data, 'reports'));
    const report = readFileSync(join(data, 'reports', file ?? ''), 'utf8');
    expect(report.match(/<svg /g)?.length).toBeGreaterThanOrEqual(2);
    expect(report).not.toMatch(/<script|src=|@import|url\(/);
    expect(report).toContain('aria-label="tick"');
    expect(report).toContain('developer');
    for (const name of ['This run', 'Bottles', 'Warming']) {
      await page.click(`#choose >> text=${name}`);
      await expect
        .poll(() => page.locator('#picture').evaluate((i) => (i as HTMLImageElement).naturalWidth), {
          timeout: PATIENCE_MS,
        })
        .toBeGreaterThan(100);
    }
    expect(await faults(page)).toEqual([]);
  }, 300_000);
});
