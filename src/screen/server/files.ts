import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { pageFiles } from '../page-files.js';

export interface ServedFile {
  type: string;
  body: Buffer;
  packed: Buffer;
  tag: string;
}

/** `folder`: the built screen room. @throws when the installation lacks one of them */
export function servedFiles(folder: string): Map<string, ServedFile> {
  return new Map(
    Object.entries(pageFiles).map(([path, [file, type]]) => {
      const body = readFileSync(join(folder, file));
      const tag = `"${createHash('sha256').update(body).digest('base64url').slice(0, 16)}"`;
      return [path, { type, body, packed: gzipSync(body), tag }];
    }),
  );
}
