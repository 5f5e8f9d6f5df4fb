import { X509Certificate } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export interface Certificate {
  key: string;
  cert: string;
  /** SHA-256 of the certificate, for comparing with what the browser shows */
  fingerprint: string;
}

const livesDays = 397;
/** renewed when it has less than this left */
const leastLeftMs = 7 * 86_400_000;

/**
 * A certificate of this machine's own for these names and addresses. It is kept, so that a browser that was told to
 * trust it once does not ask again; it is made anew when an address is missing from it or its time is nearly up.
 */
export async function ownCertificate(
  folder: string,
  hosts: readonly string[],
  wallMs: number,
): Promise<Certificate> {
  const keyFile = join(folder, 'screen-key.pem');
  const certFile = join(folder, 'screen-cert.pem');
  const kept = read(keyFile, certFile);
  if (kept && covers(kept.cert, hosts, wallMs)) return withFingerprint(kept);
  const { generate } = await import('selfsigned');
  const made = await generate([{ name: 'commonName', value: 'tankside' }], {
    keyType: 'ec',
    algorithm: 'sha256',
    notBeforeDate: new Date(wallMs - 3_600_000),
    notAfterDate: new Date(wallMs + livesDays * 86_400_000),
    extensions: [
      { name: 'basicConstraints', cA: false },
      { name: 'keyUsage', digitalSignature: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: hosts.map((host) =>
          /^[\d.]+$|:/.test(host) ? { type: 7 as const, ip: host } : { type: 2 as const, value: host },
        ),
      },
    ],
  });
  const pair = { key: made.private, cert: made.cert };
  try {
    writeFileSync(keyFile, pair.key, { mode: 0o600 });
    writeFileSync(certFile, pair.cert);
  } catch {
    // then the browser asks again next time
  }
  return withFingerprint(pair);
}

function read(keyFile: string, certFile: string): { key: string; cert: string } | null {
  try {
    return { key: readFileSync(keyFile, 'utf8'), cert: readFileSync(certFile, 'utf8') };
  } catch {
    return null;
  }
}

function covers(pem: string, hosts: readonly string[], wallMs: number): boolean {
  try {
    const cert = new X509Certificate(pem);
    const named = hosts.every(
      (h) => (/^[\d.]+$|:/.test(h) ? cert.checkIP(h) : cert.checkHost(h)) !== undefined,
    );
    return named && new Date(cert.validTo).getTime() - wallMs > leastLeftMs;
  } catch {
    return false;
  }
}

const withFingerprint = (pair: { key: string; cert: string }): Certificate => ({
  ...pair,
  fingerprint: new X509Certificate(pair.cert).fingerprint256,
});
