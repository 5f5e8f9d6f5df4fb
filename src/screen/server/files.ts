import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** All that a browser may load; nothing else of the disk can be named. Folders are relative to the built screen room. */
const served: Readonly<Record<string, [file: string, type: string]>> = {
  '/': ['client/page.html', 'text/html; charset=utf-8'],
  '/client/page.css': ['client/page.css', 'text/css; charset=utf-8'],
  '/client/icon.svg': ['client/icon.svg', 'image/svg+xml'],
  '/client/manifest.webmanifest': ['client/manifest.webmanifest', 'application/manifest+json'],
  ...Object.fromEntries(
    [
      'client/main',
      'client/link',
      'client/draw',
      'client/sound',
      'client/pickup',
      'time',
      'digits',
      'words',
    ].map((m) => [`/${m}.js`, [`${m}.js`, 'text/javascript; charset=utf-8']]),
  ),
};

export interface ServedFile {
  type: string;
  body: Buffer;
  packed: Buffer;
  tag: string;
}

/** `folder`: the built screen room. @throws when the installation lacks one of them */
export function servedFiles(folder: string): Map<string, ServedFile> {
  return new Map(
    Object.entries(served).map(([path, [file, type]]) => {
      const body = readFileSync(join(folder, file));
      const tag = `"${createHash('sha256').update(body).digest('base64url').slice(0, 16)}"`;
      return [path, { type, body, packed: gzipSync(body), tag }];
    }),
  );
}
