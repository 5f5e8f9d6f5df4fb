import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** Debian's browser; without it the checks that need one are skipped and say so. */
const browserPath = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((p) =>
  existsSync(p),
);
export const noBrowser = browserPath === undefined;
export const why = noBrowser ? ' (skipped: no Chromium here; apt install chromium)' : '';

export async function browser(args: string[] = []): Promise<Browser> {
  return chromium.launch({
    executablePath: browserPath ?? '',
    args: ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', ...args],
  });
}

export interface Watched {
  child: ChildProcessWithoutNullStreams;
  /** address with the newest code */
  link(): string;
  out(): string;
  say(line: string): void;
  until(words: string): Promise<void>;
  kill(): Promise<void>;
}

/** The real command, serving its page. `port` 0 lets it choose. */
export async function watched(
  data: string,
  args: string[] = ['--text'],
  port = 0,
  env: NodeJS.ProcessEnv = {},
): Promise<Watched> {
  const child = spawn(
    process.execPath,
    [
      join(process.cwd(), 'dist', 'app', 'main.js'),
      'run',
      '--screen',
      '--screen-port',
      String(port),
      '--data',
      data,
      ...args,
    ],
    {
      env: { ...process.env, NO_COLOR: '1', ...env },
      stdio: 'pipe',
    },
  );
  let out = '';
  const waiting: { words: string; done: () => void }[] = [];
  const heard = (chunk: Buffer): void => {
    out += chunk.toString();
    for (const w of waiting) if (out.includes(w.words)) w.done();
  };
  child.stdout.on('data', heard);
  child.stderr.on('data', heard);
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  const until = (words: string): Promise<void> =>
    out.includes(words) ? Promise.resolve() : new Promise((done) => waiting.push({ words, done }));
  await until('lets in one screen');
  return {
    child,
    out: () => out,
    link: () => [...out.matchAll(/open (https?:\S+#\d+) in/g)].at(-1)?.[1] ?? '',
    say: (line) => child.stdin.write(`${line}\n`),
    until,
    async kill() {
      child.kill('SIGKILL');
      await ended;
    },
  };
}

/** A page that is let in. */
export async function pairedPage(context: BrowserContext, run: Watched): Promise<Page> {
  const page = await context.newPage();
  await page.goto(run.link());
  await page.locator('#stand').waitFor({ state: 'visible' });
  return page;
}

export const docs = (file: string): string => join(process.cwd(), 'docs', 'screens', file);

/** Presses, and waits until the buttons are those of the next moment; `within`: how long for the button to come, ms. */
export async function press(page: Page, label: string | RegExp, within?: number): Promise<void> {
  const box = page.locator('#offers');
  const button = box.locator('button', { hasText: label }).first();
  const patience = within === undefined ? {} : { timeout: within };
  await button.waitFor(patience);
  const before = await box.getAttribute('data-key');
  await button.click(patience);
  for (let tries = 0; (await box.getAttribute('data-key')) === before; tries++) {
    if (tries > 300) throw new Error(`“${label}” was pressed and nothing came of it`);
    await page.waitForTimeout(50);
  }
}
