import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';

/** The rooms whose code makes the state: what they make can be kept only as long as they stay as they are. */
const rooms = ['world', 'process', 'chemistry', 'thermal', 'ledger', 'app'];

let known: string | undefined;

/** Names the program that folds entries into a state. State kept by any other is folded anew, never read. */
export function programMark(): string {
  known ??= markOf(new URL('../', import.meta.url));
  return known;
}

function markOf(root: URL): string {
  const hash = createHash('sha256');
  // a program that only keeps a journal has not all of them
  for (const room of rooms.filter((name) => existsSync(new URL(name, root)))) {
    const files = readdirSync(new URL(room, root), { recursive: true, encoding: 'utf8' });
    for (const file of files.filter((name) => /\.[jt]s$/.test(name)).sort())
      hash.update(`\0${file}\0`).update(readFileSync(new URL(`${room}/${file.replaceAll('\\', '/')}`, root)));
  }
  return hash.digest('hex').slice(0, 16);
}

/** Whether the state kept in a journal is another program's; false where none was kept. */
export function keptByAnother(db: Database): boolean {
  const newest = db.prepare('SELECT version FROM snapshots ORDER BY id DESC LIMIT 1').get() as
    | { version: string }
    | undefined;
  return newest !== undefined && !newest.version.endsWith(` ${programMark()}`);
}
