import { existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { makeFolderOf } from '../../src/ledger/folders.js';

describe('the folder that a journal is to lie in', () => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-folders-'));
  afterEach(() => rmSync(dir, { recursive: true, force: true }));

  it('is made with those above it, for the user alone', () => {
    const folder = join(dir, 'a', 'b');
    makeFolderOf(join(folder, 'tankside.journal'));
    makeFolderOf(join(folder, 'other.journal'));
    expect(statSync(folder).mode & 0o777).toBe(0o700);
  });

  it.runIf(existsSync('/proc/self'))('is refused at once where the system lets none be made', () => {
    expect(() => makeFolderOf('/proc/nothing/there/tankside.journal')).toThrow(/ENOENT|EACCES|EPERM/);
  });
});
