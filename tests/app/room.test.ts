import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Faults, faults, type Interruption, interrupt, type Stage } from '../bench/room/parts.js';
import { type EchoPath, SoundRoom, whyNoRoom } from '../bench/room/sound-room.js';

/** The room of `npm run bench:room`, in short: what it shows there in figures must hold here at all, and not by chance. */
const why = whyNoRoom();
const echo: EchoPath = { name: 'a loudspeaker', db: -20, delayMs: 60 };

async function inRoom<T>(env: Record<string, string>, use: (stage: Stage) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'tankside-short-room-'));
  const room = new SoundRoom();
  try {
    await room.open(echo);
    const taps = { speaker: room.tap('speaker'), person: room.tap('person'), microphone: room.tap('mixed') };
    return await use({ room, folder, voice: 'flite-wasm:slt', env, ...taps });
  } finally {
    room.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** How many were understood over its voice, and before how many it fell silent. */
const barged = (tries: readonly Interruption[]) => ({
  heard: tries.filter(({ understood }) => understood).length,
  silent: tries.filter(({ silentAfterMs }) => silentAfterMs !== null).length,
});

const lives = ({ exit, answered }: Faults): boolean => exit === 0 && answered;

describe.skipIf(why !== null)(`in a real room${why ? ` (skipped: ${why})` : ''}`, () => {
  const said = ['quiet', 'where are we', 'stop'];

  it('is silenced and commanded over its own voice', async () => {
    const { heard, silent } = barged(await inRoom({}, (stage) => interrupt(stage, echo, said)));
    expect(heard).toBeGreaterThan(0);
    expect(silent).toBeGreaterThan(0);
  }, 300_000);

  it('is not, with barge-in left out: what is measured here is that', async () => {
    const tries = await inRoom({ TANKSIDE_WITHOUT: 'barge-in' }, (stage) => interrupt(stage, echo, said));
    // what falls into a pause between its sentences may be heard; nothing that is said over them is understood
    const over = tries.filter((t) => t.over);
    expect(over.length).toBeGreaterThan(0);
    expect(barged(over).heard).toBe(0);
  }, 300_000);

  it('goes on, and hears again, after its recorder, player, voice and recogniser were killed', async () => {
    const outcome = await inRoom({}, (stage) => faults(stage, 12));
    expect(outcome.killed).toBeGreaterThanOrEqual(4);
    expect(lives(outcome)).toBe(true);
  }, 300_000);

  it('does not, with supervision left out', async () => {
    const outcome = await inRoom({ TANKSIDE_WITHOUT: 'supervision' }, (stage) => faults(stage, 12));
    expect(outcome.killed).toBeGreaterThanOrEqual(1);
    expect(lives(outcome)).toBe(false);
  }, 300_000);
});
