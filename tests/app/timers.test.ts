import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { letTimePass } from '../../src/app/play-script.js';
import { PrintedSpeech } from '../../src/app/printed-speech.js';
import { openSession } from '../../src/app/session.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide' });
const folder = mkdtempSync(join(tmpdir(), 'tankside-timers-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A sitting on the same journal; everything that was said, with its time in seconds. */
function sitting(clock: SimulatedClock) {
  const session = openSession(folder, bench.assumed, () => bench);
  const said: string[] = [];
  const speech = new PrintedSpeech((r) => said.push(`${r.atMs / 1000} ${r.kind} ${r.text}`), clock);
  const talk = new Conversation({ ...bench, clock, journal: session.port, speech }, session.state);
  return { talk, said, close: () => session.close() };
}

describe('reminders', () => {
  it('come on time, are listed and cancelled, and outlive a restart', () => {
    const clock = new SimulatedClock();
    const before = sitting(clock);
    before.talk.typed('remind me in ten minutes to check the tub');
    before.talk.typed('four minutes');
    before.talk.typed('set a timer for ninety seconds');
    letTimePass(before.talk, clock, 100_000);
    before.talk.typed('what reminders are set');
    before.talk.typed('cancel the four minutes timer');
    expect(before.said.slice(3)).toEqual([
      '90 call Your 1 minute 30 seconds are up.',
      '100 answer In 2 minutes 20 seconds. In 8 minutes 20 seconds: check the tub.',
      '100 answer The reminder is cancelled.',
    ]);
    before.close();

    const after = sitting(clock);
    letTimePass(after.talk, clock, 600_000);
    expect(after.said).toEqual(['600 call Reminder: check the tub.']);
    after.close();
  });

  it('without a time are asked about, and undone like anything else', () => {
    const clock = new SimulatedClock();
    const { talk, said, close } = sitting(clock);
    talk.typed('remind me to look at the lid');
    talk.typed('in five minutes');
    talk.typed('undo');
    letTimePass(talk, clock, 600_000);
    expect(said[0]).toMatch(/question In how long/);
    expect(said[1]).toMatch(/In 5 minutes I remind you to look at the lid/);
    expect(said.filter((s) => s.includes(' call '))).toEqual([]);
    close();
  });
});
