import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';

/** A screen that was let in. Its secret is kept only as a hash. */
interface Session {
  hash: string;
  name: string;
  seenWallMs: number;
}

export type Paired =
  | { ok: true; secret: string; name: string }
  | { ok: false; why: 'wrong-code' | 'wait'; waitS: number };

/** Five wrong codes spend a code; then nobody is let in for a while, longer each time. */
const triesPerCode = 5;
const pauseMs = [30_000, 60_000, 300_000];
/** A code that nobody used is replaced. */
const codeLivesMs = 10 * 60_000;
/** A screen that did not come back for so long has to be paired anew. */
const sessionLivesMs = 24 * 3_600_000;
const mostSessions = 12;
const codeDigits = 8;

const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

/** Who may look and act: one-time codes, and the sessions that they opened. Sessions outlive a restart. */
export class Pairing {
  #code = newCode();
  #codeMadeMs: number;
  #tries = 0;
  #pauses = 0;
  #closedUntilMs = 0;
  #sessions: Session[];
  #named = 0;

  constructor(
    /** where sessions are kept; null: only in memory */
    private readonly file: string | null,
    private readonly wallMs: () => number,
    /** the code changed: it was used, spent, or too old */
    private readonly changed: (why: 'used' | 'spent' | 'old') => void = () => {},
  ) {
    this.#codeMadeMs = wallMs();
    this.#sessions = file === null ? [] : readSessions(file);
    this.#named = Math.max(0, ...this.#sessions.map((s) => Number(/\d+$/.exec(s.name)?.[0] ?? 0)));
  }

  /** the code that lets in the next screen, once */
  get code(): string {
    if (this.wallMs() - this.#codeMadeMs > codeLivesMs) this.#renew('old');
    return this.#code;
  }

  /** Opens a session for the right code. Wrong ones are counted together, wherever they come from. */
  pair(said: string): Paired {
    const nowMs = this.wallMs();
    if (nowMs < this.#closedUntilMs) {
      return { ok: false, why: 'wait', waitS: Math.ceil((this.#closedUntilMs - nowMs) / 1000) };
    }
    if (!sameText(said.replace(/\D/g, ''), this.code)) {
      this.#tries++;
      if (this.#tries < triesPerCode) return { ok: false, why: 'wrong-code', waitS: 0 };
      const pause = pauseMs[Math.min(this.#pauses, pauseMs.length - 1)] ?? 0;
      this.#pauses++;
      this.#closedUntilMs = nowMs + pause;
      this.#renew('spent');
      return { ok: false, why: 'wait', waitS: Math.ceil(pause / 1000) };
    }
    this.#pauses = 0;
    const secret = randomBytes(32).toString('base64url');
    const name = `screen ${++this.#named}`;
    const session = { hash: hashOf(secret), name, seenWallMs: nowMs };
    this.#sessions = [...this.#alive(), session].slice(-mostSessions);
    this.#keep();
    this.#renew('used');
    return { ok: true, secret, name };
  }

  /** The name of the screen that holds this secret; null: nobody is let in with it. */
  nameOf(secret: string | null): string | null {
    if (secret === null) return null;
    const hash = hashOf(secret);
    const session = this.#alive().find((s) => s.hash === hash);
    if (!session) return null;
    session.seenWallMs = this.wallMs();
    return session.name;
  }

  /** Shuts out one screen, or all of them. */
  revoke(name?: string): void {
    this.#sessions = name === undefined ? [] : this.#sessions.filter((s) => s.name !== name);
    this.#keep();
  }

  get names(): string[] {
    return this.#alive().map((s) => s.name);
  }

  #alive(): Session[] {
    const oldest = this.wallMs() - sessionLivesMs;
    return this.#sessions.filter((s) => s.seenWallMs >= oldest);
  }

  #renew(why: 'used' | 'spent' | 'old'): void {
    this.#code = newCode();
    this.#codeMadeMs = this.wallMs();
    this.#tries = 0;
    this.changed(why);
  }

  #keep(): void {
    if (this.file === null) return;
    try {
      writeFileSync(this.file, JSON.stringify({ sessions: this.#sessions }), { mode: 0o600 });
    } catch {
      // then they are only good until this programme ends
    }
  }
}

const newCode = (): string => String(randomInt(10 ** codeDigits)).padStart(codeDigits, '0');

function sameText(a: string, b: string): boolean {
  return timingSafeEqual(Buffer.from(hashOf(a)), Buffer.from(hashOf(b)));
}

function readSessions(file: string): Session[] {
  try {
    const { sessions } = JSON.parse(readFileSync(file, 'utf8')) as { sessions?: unknown };
    return Array.isArray(sessions) ? sessions.filter(isSession) : [];
  } catch {
    return [];
  }
}

const isSession = (value: unknown): value is Session => {
  const s = value as Partial<Session> | null;
  return typeof s?.hash === 'string' && typeof s.name === 'string' && typeof s.seenWallMs === 'number';
};
