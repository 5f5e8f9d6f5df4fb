import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { openSession, type Session } from '../../src/app/session.js';
import type { DeskEvent } from '../../src/process/desk.js';

let parent: string;
let folder: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'tankside-session-'));
  folder = join(parent, 'journal');
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

const opened = (): Session =>
  openSession(folder, [], (assumed) => createBench({ sheet: 'ecn2-ferricyanide', assumed }));

const timeAt = (atMs: number): DeskEvent => ({ type: 'time', atMs, wallMs: 1_700_000_000_000 + atMs });

/** An event that does something at the moment when it is written down, inside the transaction. */
const withDeed = (event: DeskEvent, deed: () => void): DeskEvent => {
  let done = false;
  return Object.defineProperty({ ...event }, 'wallMs', {
    enumerable: true,
    get() {
      if (!done) deed();
      done = true;
      return event.wallMs;
    },
  });
};

const entriesOf = (session: Session): number[] =>
  [...session.journal.entriesAfter(0)].map((entry) => entry.event.atMs);

describe('a session whose journal is taken away in the middle of an entry', () => {
  const taken = (session: Session) =>
    session.port.append(
      withDeed(timeAt(2), () => {
        rmSync(folder, { recursive: true });
        writeFileSync(folder, 'no folder');
      }),
      [],
      session.state,
    );

  it('writes the entry once, whether the files come back with the next entry or at the end', async () => {
    const session = opened();
    expect(session.port.append(timeAt(1), [], session.state)).toBeNull();
    expect(await taken(session)).toMatchObject({
      problem: expect.stringMatching(/^The journal was taken away/),
    });
    rmSync(folder);
    session.port.append(timeAt(3), [], session.state);
    expect(session.close()).toBeNull();
    const again = opened();
    expect(entriesOf(again)).toEqual([1, 2, 3]);
    again.close();
  });

  it('puts the files back at the end, though no entry waits', () => {
    const session = opened();
    session.port.append(timeAt(1), [], session.state);
    taken(session);
    rmSync(folder);
    expect(session.close()).toBeNull();
    const again = opened();
    expect(entriesOf(again)).toEqual([1, 2]);
    again.close();
  });

  it('says at the end that the last entry is lost when the place stays taken', () => {
    const session = opened();
    session.port.append(timeAt(1), [], session.state);
    taken(session);
    expect(session.close()).toMatch(/the last entry could not be written and is lost/);
  });
});
