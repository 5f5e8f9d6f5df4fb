import { mkdtempSync, readFileSync, statSync } from 'node:fs';
import { request as plainRequest } from 'node:http';
import { request as secureRequest } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { afterEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { pageDir } from '../../src/app/paths.js';
import { localAddresses } from '../../src/screen/server/addresses.js';
import { openPage, type Page, type PageOptions } from '../../src/screen/server/server.js';
import type { ToScreen } from '../../src/screen/server/wire.js';
import type { ScreenView } from '../../src/screen/view.js';

const view: ScreenView = {
  atMs: 0,
  wallMs: 0,
  moment: 'pouring|3',
  sheet: 'a sheet',
  place: 'pouring',
  bath: null,
  act: { words: 'Pour the fixer in', dueMs: null },
  acts: [],
  motion: null,
  next: null,
  vessels: [],
  open: null,
  heard: null,
  ears: { microphone: null, screen: null },
  offers: [],
};

const open: Page[] = [];
afterEach(() => {
  for (const page of open.splice(0)) page.close();
});

async function served(change: Partial<PageOptions> = {}) {
  const said: string[] = [];
  const lost: string[] = [];
  const holders: (string | null)[] = [];
  const heard: number[] = [];
  let wallMs = Date.UTC(2026, 4, 2);
  const page = await openPage({
    lan: false,
    port: 0,
    site: pageDir,
    folder: mkdtempSync(join(tmpdir(), 'tankside-screen-')),
    benchMs: () => 1234,
    wallMs: () => wallMs,
    view: () => view,
    lines: () => [],
    picture: async (name) => (name === 'curves' ? '<svg xmlns="http://www.w3.org/2000/svg"/>' : null),
    say: (words, screen) => said.push(`${screen}: ${words}`),
    microphone: (screen) => holders.push(screen),
    heard: (pcm) => heard.push(pcm.length),
    playing: () => {},
    lost: ({ name }) => lost.push(name),
    notice: () => {},
    ...change,
  });
  open.push(page);
  const { protocol, host } = new URL(page.link);
  const site = `${protocol}//${host}`;
  return { page, site, host, said, lost, holders, heard, later: (ms: number) => (wallMs += ms) };
}

interface Answer {
  status: number;
  headers: Record<string, string | string[] | undefined>;
  body: string;
}

/** A request with any header, as no browser would let a page make it. */
const ask = (url: string, headers: Record<string, string> = {}, method = 'GET', body = ''): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const make = url.startsWith('https') ? secureRequest : plainRequest;
    const sent = make(url, { method, headers, rejectUnauthorized: false }, (response) => {
      let text = '';
      response.on('data', (chunk: Buffer) => {
        text += String(chunk);
      });
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: text }),
      );
    });
    sent.on('error', reject);
    sent.end(body);
  });

async function paired(at: { page: Page; site: string }): Promise<string> {
  const answer = await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', at.page.code);
  expect(answer.status).toBe(200);
  return String(answer.headers['set-cookie']).split(';')[0] ?? '';
}

/** A screen; `refused` when it was not let in. */
async function screen(site: string, headers: Record<string, string>) {
  const socket = new WebSocket(`${site.replace('http', 'ws')}/live`, { headers, rejectUnauthorized: false });
  const messages: ToScreen[] = [];
  socket.on('message', (data, binary) => {
    if (!binary) messages.push(JSON.parse(String(data)) as ToScreen);
  });
  const status = await new Promise<number>((resolve) => {
    socket.on('open', () => resolve(101));
    socket.on('unexpected-response', (_request, response) => resolve(response.statusCode ?? 0));
    socket.on('error', () => resolve(0));
  });
  const until = async (type: ToScreen['type']): Promise<ToScreen> => {
    for (;;) {
      const found = messages.find((m) => m.type === type);
      if (found) return found;
      await new Promise((r) => setTimeout(r, 10));
    }
  };
  return { socket, status, messages, until };
}

describe('what may knock', () => {
  it('a name that is not this machine reaches nothing, nor does a foreign or missing origin', async () => {
    const at = await served();
    const cookie = await paired(at);
    expect((await ask(`${at.site}/`, { Host: 'evil.example' })).status).toBe(421);
    expect((await ask(`${at.site}/who`, { Cookie: cookie, Host: 'evil.example' })).status).toBe(421);
    expect(
      (await ask(`${at.site}/pair`, { Origin: 'http://evil.example' }, 'POST', at.page.code)).status,
    ).toBe(403);
    expect((await ask(`${at.site}/pair`, {}, 'POST', at.page.code)).status).toBe(403);
    expect((await ask(`${at.site}/who`, { Cookie: cookie, 'Sec-Fetch-Site': 'cross-site' })).status).toBe(
      403,
    );
    expect((await screen(at.site, { Origin: 'http://evil.example', Cookie: cookie })).status).toBe(403);
    expect((await screen(at.site, { Cookie: cookie })).status).toBe(403);
    expect((await screen(at.site, { Origin: at.site })).status).toBe(401);
    expect((await screen(at.site, { Origin: at.site, Cookie: cookie })).status).toBe(101);
  });

  it('files that are not served cannot be named, and no page may be framed', async () => {
    const at = await served();
    for (const path of [
      '/../package.json',
      '/client/../../../package.json',
      '/%2e%2e/%2e%2e/package.json',
      '/server/server.js',
    ])
      expect((await ask(`${at.site}${path}`)).status).toBe(401);
    const page = await ask(`${at.site}/`);
    expect(page.headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(page.body).not.toMatch(/https?:\/\//);
    expect((await ask(`${at.site}/`, { Origin: at.site }, 'PUT')).status).toBe(405);
  });

  it('nothing of the run is seen without pairing', async () => {
    const at = await served();
    for (const path of ['/who', '/picture/curves.svg', '/live'])
      expect((await ask(`${at.site}${path}`)).status).toBe(401);
    const cookie = await paired(at);
    expect((await ask(`${at.site}/picture/curves.svg`, { Cookie: cookie })).body).toContain('<svg');
    expect((await ask(`${at.site}/picture/nothing.svg`, { Cookie: cookie })).status).toBe(404);
  });

  it('the whole page is below 200 kB, unpacked', async () => {
    const at = await served();
    const loaded = new Map<string, number>();
    const load = async (path: string): Promise<void> => {
      if (loaded.has(path)) return;
      const { body, status } = await ask(`${at.site}${path}`);
      expect(status, path).toBe(200);
      loaded.set(path, Buffer.byteLength(body));
      const linked = [...body.matchAll(/(?:src|href)="(\/[^"]+)"|from '(\.[^']+)'|addModule\('([^']+)'\)/g)];
      for (const [, absolute, relative, module] of linked)
        await load(absolute ?? module ?? new URL(relative ?? '', `${at.site}${path}`).pathname);
    };
    await load('/');
    expect(loaded.size).toBeGreaterThan(8);
    expect([...loaded.values()].reduce((a, b) => a + b, 0)).toBeLessThan(200_000);
  });
});

describe('pairing', () => {
  it('a code lets in one screen, once; five wrong ones spend it and nobody is let in for a while', async () => {
    const at = await served();
    const first = at.page.code;
    await paired(at);
    expect(at.page.code).not.toBe(first);
    expect((await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', first)).status).toBe(403);
    const code = at.page.code;
    const wrong = code === '00000000' ? '11111111' : '00000000';
    const tries = [];
    for (let i = 0; i < 5; i++)
      tries.push((await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', wrong)).status);
    expect(tries.slice(-1)).toEqual([429]);
    expect(at.page.code).not.toBe(code);
    expect((await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', at.page.code)).status).toBe(429);
    at.later(31_000);
    expect((await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', at.page.code)).status).toBe(200);
  });

  it('guesses are slowed down, however many come', async () => {
    const at = await served();
    const answers = await Promise.all(
      Array.from({ length: 40 }, () => ask(`${at.site}/pair`, { Origin: at.site }, 'POST', '99999999')),
    );
    expect(answers.filter((a) => a.status === 403).length).toBeLessThanOrEqual(5);
  });

  it('outlives a restart, ends by revoking, by leaving and by age, and keeps only a hash', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tankside-screen-'));
    const at = await served({ folder });
    const cookie = await paired(at);
    const kept = readFileSync(join(folder, 'screens.json'), 'utf8');
    expect(kept).not.toContain(cookie.split('=')[1] ?? '?');
    expect(statSync(join(folder, 'screens.json')).mode & 0o077).toBe(0);
    const again = await served({ folder });
    expect((await ask(`${again.site}/who`, { Cookie: cookie })).body).toBe('{"name":"screen 1"}');
    const shown = await screen(again.site, { Origin: again.site, Cookie: cookie });
    again.page.revoke();
    expect(await shown.until('bye')).toBeTruthy();
    expect((await ask(`${again.site}/who`, { Cookie: cookie })).status).toBe(401);
    const other = await paired(again);
    expect((await ask(`${again.site}/leave`, { Origin: again.site, Cookie: other }, 'POST')).status).toBe(
      204,
    );
    expect((await ask(`${again.site}/who`, { Cookie: other })).status).toBe(401);
    const old = await paired(again);
    again.later(25 * 3_600_000);
    expect((await ask(`${again.site}/who`, { Cookie: old })).status).toBe(401);
  });
});

describe('a screen that is let in', () => {
  it('gets the clock and the view at once, and what it says arrives word for word', async () => {
    const at = await served();
    const { until, socket } = await screen(at.site, { Origin: at.site, Cookie: await paired(at) });
    expect(await until('view')).toEqual({ type: 'view', view });
    expect(await until('beat')).toEqual({ type: 'beat', benchMs: 1234 });
    socket.send(JSON.stringify({ type: 'say', words: ' pouring  the fixer in ', moment: view.moment }));
    await expect.poll(() => at.said).toEqual(['screen 1: pouring the fixer in']);
  });

  it('cannot press a button that was drawn for another moment', async () => {
    const at = await served();
    const { until, socket } = await screen(at.site, { Origin: at.site, Cookie: await paired(at) });
    socket.send(JSON.stringify({ type: 'say', words: 'confirm', moment: 'pouring|2' }));
    expect(await until('refused')).toMatchObject({ why: expect.stringContaining('moved on') });
    expect(at.said).toEqual([]);
  });

  it('is refused what comes too fast, and cut off when it talks nonsense or too much', async () => {
    const at = await served();
    const headers = { Origin: at.site, Cookie: await paired(at) };
    const fast = await screen(at.site, headers);
    for (let i = 0; i < 60; i++)
      fast.socket.send(JSON.stringify({ type: 'say', words: 'status', moment: null }));
    await fast.until('refused');
    expect(at.said.length).toBeLessThan(20);
    for (const nonsense of ['{', '[]', '{"type":"run","code":"1"}', '{"type":"say"}', 'null']) {
      const { socket } = await screen(at.site, headers);
      const closed = new Promise<number>((resolve) => socket.on('close', resolve));
      socket.send(nonsense);
      expect(await closed).toBe(1003);
    }
    const { socket } = await screen(at.site, headers);
    const closed = new Promise<number>((resolve) => socket.on('close', resolve));
    socket.send(Buffer.alloc(100_000));
    expect(await closed).toBe(1009);
  });

  it('is the only microphone while it has it, and its loss is told', async () => {
    const at = await served();
    const first = await screen(at.site, { Origin: at.site, Cookie: await paired(at) });
    const second = await screen(at.site, { Origin: at.site, Cookie: await paired(at) });
    first.socket.send(JSON.stringify({ type: 'microphone', on: true, hold: false }));
    await expect.poll(() => at.holders).toEqual(['screen 1']);
    second.socket.send(new Int16Array(512));
    first.socket.send(new Int16Array(256));
    await expect.poll(() => at.heard).toEqual([256]);
    second.socket.send(JSON.stringify({ type: 'microphone', on: true, hold: true }));
    await expect.poll(() => at.holders).toEqual(['screen 1', 'screen 2']);
    second.socket.terminate();
    await expect.poll(() => at.lost).toEqual(['screen 2']);
    expect(at.holders).toEqual(['screen 1', 'screen 2', null]);
    first.socket.close(1000);
    await new Promise((r) => setTimeout(r, 50));
    expect(at.lost).toEqual(['screen 2']);
  });
});

describe('on the local network', () => {
  it('serves by HTTPS with a certificate that is kept and covers its names', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'tankside-screen-'));
    const at = await served({ lan: true, folder, wallMs: () => Date.now() });
    const again = await served({ lan: true, folder, wallMs: () => Date.now() });
    expect(again.page.fingerprint).toBe(at.page.fingerprint);
    expect(statSync(join(folder, 'screen-key.pem')).mode & 0o077).toBe(0);
    const { port } = new URL(at.site);
    const shown = await new Promise<{ fingerprint256: string; names: string }>((resolve, reject) => {
      const socket = connect({ host: '127.0.0.1', port: Number(port), rejectUnauthorized: false }, () => {
        const { fingerprint256, subjectaltname } = socket.getPeerCertificate();
        socket.end();
        resolve({ fingerprint256, names: subjectaltname ?? '' });
      });
      socket.on('error', reject);
    });
    expect(shown.fingerprint256).toBe(at.page.fingerprint);
    for (const address of ['127.0.0.1', ...localAddresses()]) expect(shown.names).toContain(address);
    const cookie = await ask(`${at.site}/pair`, { Origin: at.site }, 'POST', at.page.code);
    expect(String(cookie.headers['set-cookie'])).toMatch(
      /HttpOnly; SameSite=Strict; Path=\/; Max-Age=86400; Secure/,
    );
  });

  it('never serves an address that the whole world could reach', () => {
    const one = (address: string, internal = false) => ({
      lan: [{ address, internal, family: 'IPv4' as const, netmask: '', mac: '', cidr: null }],
    });
    expect(localAddresses(one('192.168.1.7'))).toEqual(['192.168.1.7']);
    expect(localAddresses(one('172.31.0.2'))).toEqual(['172.31.0.2']);
    expect(localAddresses(one('172.32.0.2'))).toEqual([]);
    expect(localAddresses(one('8.8.8.8'))).toEqual([]);
    expect(localAddresses(one('127.0.0.1', true))).toEqual([]);
  });
});
