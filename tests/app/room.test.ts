import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { faults, interrupt, type Stage } from '../bench/room/parts.js';
import { type EchoPath, SoundRoom, whyNoRoom } from '../bench/room/sound-room.js';

/** The room of `npm run bench:room`, in short: what it shows there in figures must hold here at all. */
const why = whyNoRoom();
const echo: EchoPath = { name: 'a loudspeaker', db: -20, delayMs: 60 };

async function inRoom<T>(use: (stage: Stage) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'tankside-short-room-'));
  const room = new SoundRoom();
  try {
    await room.open(echo);
    const [speaker, person] = [room.tap('speaker'), room.tap('person')];
    return await use({ room, speaker, person, folder, voice: 'flite-wasm:slt' });
  } finally {
    room.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

describe.skipIf(why !== null)(`in a real room${why ? ` (skipped: ${why})` : ''}`, () => {
  it('is silenced and commanded over its own voice', async () => {
    const tries = await inRoom((stage) => interrupt(stage, echo, ['quiet', 'where are we', 'stop']));
    expect(tries.filter(({ said, heard }) => heard.includes(said))).not.toEqual([]);
    expect(tries.filter(({ silentAfterMs }) => silentAfterMs !== null)).not.toEqual([]);
  }, 120_000);

  it('goes on, and hears again, after its recorder, player and voice were killed', async () => {
    const outcome = await inRoom((stage) => faults(stage, 12));
    expect(outcome.killed).toBeGreaterThanOrEqual(4);
    expect(outcome.exit).toBe(0);
    expect(outcome.answered).toBe(true);
  }, 120_000);
});
