import { lstatSync, type Stats } from 'node:fs';

/** Which files the journal was opened as, to notice when they are taken away under it. */
export interface Identity {
  /** what has become of them since; null: they are where they were */
  changed(): { journal: string | null; lock: boolean } | null;
}

const statOf = (path: string): Stats | null => {
  try {
    return lstatSync(path);
  } catch {
    return null;
  }
};

/**
 * Remembers the files by device and inode. Neither the main file nor the log ever shrinks while one process writes
 * (the log is written from its beginning again, but not cut below `logMayShrinkToBytes`).
 */
export function identityOf(path: string, logMayShrinkToBytes = 16_777_216): Identity {
  const files = [path, `${path}-wal`, `${path}-shm`, `${path}.lock`];
  const before = new Map(files.map((file) => [file, statOf(file)]));
  const lostOne = (file: string, now: Stats | null): string | null => {
    const then = before.get(file);
    if (!then) {
      before.set(file, now);
      return null;
    }
    const name = file === path ? 'The journal' : 'A file of the journal';
    if (now === null) return `${name} was taken away`;
    if (now.ino !== then.ino || now.dev !== then.dev) return `${name} was replaced`;
    const least = file === path ? then.size : Math.min(then.size, logMayShrinkToBytes);
    if (now.size < least) return `${name} was cut short`;
    before.set(file, now);
    return null;
  };
  return {
    changed() {
      const [lock, ...rest] = [...files].reverse().map((file) => lostOne(file, statOf(file)));
      const journal = rest.findLast((what) => what !== null) ?? null;
      return journal === null && !lock ? null : { journal, lock: Boolean(lock) };
    },
  };
}
