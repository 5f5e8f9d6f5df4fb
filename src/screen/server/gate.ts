import type { IncomingMessage } from 'node:http';

const cookieName = 'tankside-screen';

/** Who may knock: only pages of this very server, under its own names. */
export class Gate {
  readonly #hosts: ReadonlySet<string>;

  constructor(
    readonly scheme: 'http' | 'https',
    names: readonly string[],
    port: number,
  ) {
    this.#hosts = new Set(names.map((name) => `${name.toLowerCase()}:${port}`));
  }

  /**
   * The status to refuse a request with; null: it may pass. `acts`: it could change something, so it must say where it
   * comes from. A name that is not ours (a rebound DNS name) and a foreign or missing origin never reach anything.
   */
  refusal(request: IncomingMessage, acts: boolean): number | null {
    const host = request.headers.host?.toLowerCase() ?? '';
    if (!this.#hosts.has(host)) return 421;
    const { origin } = request.headers;
    if (origin === undefined ? acts : origin.toLowerCase() !== `${this.scheme}://${host}`) return 403;
    const site = request.headers['sec-fetch-site'];
    if (site === undefined || site === 'same-origin') return null;
    return !acts && (site === 'none' || isNavigation(request)) ? null : 403;
  }

  cookie(secret: string | null): string {
    const age = secret === null ? 0 : 86_400;
    const secure = this.scheme === 'https' ? '; Secure' : '';
    return `${cookieName}=${secret ?? ''}; HttpOnly; SameSite=Strict; Path=/; Max-Age=${age}${secure}`;
  }
}

export function secretOf(request: IncomingMessage): string | null {
  const cookie = new RegExp(`(?:^|;\\s*)${cookieName}=([A-Za-z0-9_-]{20,80})(?:;|$)`);
  return cookie.exec(request.headers.cookie ?? '')?.[1] ?? null;
}

/** Following a link from elsewhere, such as a QR code reader's, loads the page; it carries no cookie and no data. */
const isNavigation = (request: IncomingMessage): boolean =>
  request.headers['sec-fetch-mode'] === 'navigate' && request.url === '/';
