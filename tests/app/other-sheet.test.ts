import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createBench, sheetsFor } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { letTimePass } from '../../src/app/play-script.js';
import { assumedBottles } from '../../src/app/posts.js';
import { PrintedSpeech } from '../../src/app/printed-speech.js';
import { openSession } from '../../src/app/session.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tankside-sheet-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** A start of tankside on the same journal with a sheet of its own choice, as `tankside run --sheet` makes it. */
function start(sheet: string, clock: SimulatedClock) {
  const session = openSession(folder, assumedBottles(sheetsFor(sheet)[0]), (assumed) =>
    createBench({ sheet, assumed }),
  );
  let said: string[] = [];
  const speech = new PrintedSpeech((r) => said.push(r.text), clock);
  const talk = new Conversation({ ...session.bench, clock, journal: session.port, speech }, session.state);
  const heard = (work: () => void): string => {
    said = [];
    work();
    return said.join(' ');
  };
  return {
    say: (line: string) => heard(() => talk.typed(line)),
    wait: (s: number) => heard(() => letTimePass(talk, clock, s * 1000)),
    close: () => session.close(),
  };
}

describe('a restart with another sheet', () => {
  it.each(['c41', 'black-and-white'])(
    'in the middle of a bath goes on with the sheet the run was begun with: %s',
    (other) => {
      const clock = new SimulatedClock();
      const first = start('ecn2-ferricyanide', clock);
      for (const line of ['start a run', 'developer is at 41.1', 'the film is loaded']) first.say(line);
      first.say('pouring the prebath from bottle 1');
      first.say('prebath in');
      first.wait(12);
      for (const line of ['prebath back into bottle 1', 'tank empty', 'water in']) first.say(line);
      first.wait(50);
      for (const line of ['tank empty', 'pouring the developer from bottle 2']) first.say(line);
      expect(first.say('developer in')).toMatch(/3 minutes/);
      first.wait(60);
      first.close();

      const again = start(other, clock);
      expect(again.say('how long left')).toMatch(/2 minutes left/);
      expect(again.wait(112)).toMatch(/Drain the developer now\. Back to bottle 2/);
      again.say('developer back into bottle 2');
      expect(again.say('tank empty')).toMatch(/Next: the stop bath, bottle 3/);
      expect(again.say('pouring the bleach from bottle 4')).toMatch(/^No\./);
      again.say('cancel');
      expect(again.say("what's in bottle 4")).toMatch(/600 millilitres of bleach/);
      again.close();
    },
  );

  it('with no run going on takes the sheet that was chosen', () => {
    const clock = new SimulatedClock();
    const first = start('ecn2-ferricyanide', clock);
    first.say('bottle 2 holds developer');
    first.close();
    const again = start('c41', clock);
    expect(again.say('start a run')).toMatch(/Run started: C-41/);
    again.close();
  });
});
