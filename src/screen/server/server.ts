import {
  createServer,
  type IncomingMessage,
  type RequestListener,
  type Server,
  type ServerResponse,
} from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import type { ScreenLine, ScreenView } from '../view.js';
import { localAddresses } from './addresses.js';
import { Budget } from './budget.js';
import { ownCertificate } from './certificate.js';
import { type ServedFile, servedFiles } from './files.js';
import { Gate, secretOf } from './gate.js';
import { Hub, type HubOptions, mostScreens } from './hub.js';
import { Pairing } from './pairing.js';
import { addressOf } from './wire.js';

export interface PageOptions extends HubOptions {
  /** false: only this machine; true: the local network too, by HTTPS */
  lan: boolean;
  /** 0: any free one */
  port: number;
  /** the built screen room, which holds the page's files */
  site: string;
  /** where the certificate and the sessions are kept */
  folder: string;
  wallMs(): number;
  /** an SVG by name; null: there is no such picture */
  picture(name: string, night: boolean): Promise<string | null>;
  /** something about pairing to tell the person at the computer */
  notice(sentence: string): void;
}

export interface Page {
  /** where a browser finds it, with the one-time code behind it */
  readonly link: string;
  readonly code: string;
  /** SHA-256 of the certificate; null: no HTTPS */
  readonly fingerprint: string | null;
  readonly screens: string[];
  /** how many screens play sound */
  readonly speakers: number;
  /** sends the view to all screens */
  show(view: ScreenView): void;
  line(line: ScreenLine): void;
  level(db: number): void;
  /** to the screens that play sound; false: there is none */
  play(id: number, pcm: Int16Array, rate: number): boolean;
  hush(): void;
  /** shuts out all screens */
  revoke(): void;
  close(): void;
}

const headers: Readonly<Record<string, string>> = {
  'Content-Security-Policy':
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'microphone=(self), camera=(), geolocation=()',
};

const thisMachine = ['127.0.0.1', 'localhost'];

/** Serves the page. @throws when the port is taken or cannot be had, with the system's reason */
export async function openPage(options: PageOptions): Promise<Page> {
  const own = options.lan ? localAddresses() : [];
  if (options.lan && own.length === 0)
    options.notice(
      'This computer has no address on a local network, so only its own browsers can open the page. Connect it, then start again.',
    );
  const names = options.lan ? [...own, hostname(), `${hostname()}.local`, ...thisMachine] : thisMachine;
  const certificate = options.lan ? await ownCertificate(options.folder, names, options.wallMs()) : null;
  const pairing = new Pairing(join(options.folder, 'screens.json'), options.wallMs, (why) => {
    if (why === 'spent')
      options.notice(
        'Too many wrong codes for a screen. Nobody can pair for a while, and the code has changed.',
      );
  });
  const hub = new Hub(options);
  const site = new Site(options, pairing, hub);
  const make = (): Server =>
    certificate
      ? createSecureServer({ key: certificate.key, cert: certificate.cert }, site.answer)
      : createServer(site.answer);
  const { servers, port } = await listen(make, [...own, '127.0.0.1'], options.port);
  site.gate = new Gate(certificate ? 'https' : 'http', names, port);
  for (const server of servers) server.on('upgrade', site.upgrade);
  const address = `${site.gate.scheme}://${own[0] ?? '127.0.0.1'}:${port}/`;
  return {
    get link() {
      return `${address}#${pairing.code}`;
    },
    get code() {
      return pairing.code;
    },
    fingerprint: certificate?.fingerprint ?? null,
    get screens() {
      return hub.names;
    },
    get speakers() {
      return hub.speakers;
    },
    show: (view) => hub.toAll({ type: 'view', view }),
    line: (line) => hub.toAll({ type: 'lines', lines: [line] }),
    level: (db) => hub.toAll({ type: 'level', db }),
    play: (id, pcm, rate) => hub.play(id, pcm, rate),
    hush: () => hub.toAll({ type: 'hush' }),
    revoke() {
      pairing.revoke();
      hub.shutOut();
    },
    close() {
      hub.close();
      for (const server of servers) {
        server.close();
        // what a socket still has to say goes out first
        setImmediate(() => server.closeAllConnections());
      }
    },
  };
}

/** One server for each address, all on one port. */
async function listen(
  make: () => Server,
  addresses: readonly string[],
  wanted: number,
): Promise<{ servers: Server[]; port: number }> {
  const servers: Server[] = [];
  let port = wanted;
  for (const address of addresses) {
    const server = make();
    server.requestTimeout = 10_000;
    server.headersTimeout = 10_000;
    server.maxConnections = 64;
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(port, address, resolve);
    });
    const bound = server.address();
    if (bound !== null && typeof bound === 'object') port = bound.port;
    servers.push(server);
  }
  return { servers, port };
}

/** What is behind the addresses: the page's files for anybody who may knock, all else for screens that are let in. */
class Site {
  gate = new Gate('http', [], 0);
  readonly #files: ReadonlyMap<string, ServedFile>;
  readonly #sockets = new WebSocketServer({
    noServer: true,
    maxPayload: 64 * 1024,
    perMessageDeflate: false,
  });
  readonly #tries = new Budget(10, 0.5, () => performance.now());

  constructor(
    private readonly options: Pick<PageOptions, 'picture' | 'notice' | 'site'>,
    private readonly pairing: Pairing,
    private readonly hub: Hub,
  ) {
    this.#files = servedFiles(options.site);
  }

  readonly answer: RequestListener = (request, response) => {
    this.#handle(request, response).catch(() => {
      if (!response.headersSent) reply(response, 500);
      response.end();
    });
  };

  readonly upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer): void => {
    socket.on('error', () => socket.destroy());
    const name = this.pairing.nameOf(secretOf(request));
    const refused =
      this.gate.refusal(request, true) ??
      (request.url !== '/live'
        ? 404
        : name === null
          ? 401
          : this.hub.names.length >= mostScreens
            ? 503
            : null);
    if (refused !== null || name === null) {
      socket.end(`HTTP/1.1 ${refused} Refused\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
      return;
    }
    this.#sockets.handleUpgrade(request, socket, head, (ws) => this.hub.enter(ws, name));
  };

  async #handle(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const address = addressOf(request.url);
    if (address === null) return reply(response, 400);
    const { pathname, night } = address;
    const acts = request.method !== 'GET' && request.method !== 'HEAD';
    const refused = this.gate.refusal(request, acts);
    if (refused !== null) return reply(response, refused);
    if (acts) {
      if (request.method === 'POST' && pathname === '/pair') return this.#pair(request, response);
      if (request.method === 'POST' && pathname === '/leave') return this.#leave(request, response);
      return reply(response, 405);
    }
    const file = this.#files.get(pathname);
    if (file) return sendFile(request, response, file);
    const name = this.pairing.nameOf(secretOf(request));
    if (name === null) return reply(response, 401);
    if (pathname === '/who') return json(response, 200, { name });
    const picture = /^\/picture\/([a-z-]+)\.svg$/.exec(pathname)?.[1];
    const svg = picture ? await this.options.picture(picture, night) : null;
    if (svg === null) return reply(response, 404);
    response
      .writeHead(200, { ...headers, 'Content-Type': 'image/svg+xml', 'Cache-Control': 'no-store' })
      .end(svg);
  }

  async #pair(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (!this.#tries.take()) return json(response, 429, { waitS: 5 });
    const made = this.pairing.pair((await bodyOf(request, 200)) ?? '');
    if (!made.ok) return json(response, made.why === 'wait' ? 429 : 403, { waitS: made.waitS });
    this.options.notice(`A screen is paired: ${made.name}. For another one type “screen”.`);
    response.setHeader('Set-Cookie', this.gate.cookie(made.secret));
    json(response, 200, { name: made.name });
  }

  #leave(request: IncomingMessage, response: ServerResponse): void {
    const name = this.pairing.nameOf(secretOf(request));
    if (name !== null) {
      this.pairing.revoke(name);
      this.hub.shutOut(name);
    }
    response.setHeader('Set-Cookie', this.gate.cookie(null));
    reply(response, 204);
  }
}

function reply(response: ServerResponse, status: number): void {
  response.writeHead(status, { ...headers, 'Content-Length': 0 }).end();
}

function json(response: ServerResponse, status: number, value: unknown): void {
  response
    .writeHead(status, { ...headers, 'Content-Type': 'application/json', 'Cache-Control': 'no-store' })
    .end(JSON.stringify(value));
}

function sendFile(request: IncomingMessage, response: ServerResponse, file: ServedFile): void {
  const common = {
    ...headers,
    // the page's worker may keep the page at the root, above its own folder
    'Service-Worker-Allowed': '/',
    ETag: file.tag,
    'Cache-Control': 'no-cache',
    Vary: 'Accept-Encoding',
  };
  if (request.headers['if-none-match'] === file.tag) {
    response.writeHead(304, common).end();
    return;
  }
  const packed = /\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''));
  const body = packed ? file.packed : file.body;
  response.writeHead(200, {
    ...common,
    'Content-Type': file.type,
    'Content-Length': body.length,
    ...(packed && { 'Content-Encoding': 'gzip' }),
  });
  response.end(request.method === 'HEAD' ? undefined : body);
}

/** The request's text, or null when it is longer than `most` characters. */
async function bodyOf(request: IncomingMessage, most: number): Promise<string | null> {
  let text = '';
  for await (const chunk of request) {
    text += String(chunk);
    if (text.length > most) return null;
  }
  return text;
}
