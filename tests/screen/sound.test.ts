import { describe, expect, it } from 'vitest';
import { ChosenMicrophone } from '../../src/app/screen-microphone.js';
import { ScreenPlayer } from '../../src/app/screen-player.js';
import { FRAME_SAMPLES, type FrameSource, type SourceEvent } from '../../src/speech/ears/frames.js';
import type { Player } from '../../src/speech/mouth/player.js';

const soon = (ms = 5) => new Promise((resolve) => setTimeout(resolve, ms));

/** A microphone of the computer that hears a steady 0.25. */
function steady() {
  let push: (event: SourceEvent) => void = () => {};
  const queue: SourceEvent[] = [];
  const source: FrameSource = {
    async *open(signal) {
      while (!signal.aborted) {
        const event = queue.shift();
        if (event) yield event;
        else await soon();
      }
    },
  };
  push = (event) => queue.push(event);
  return {
    source,
    frame: () => push({ type: 'frame', pcm: new Float32Array(FRAME_SAMPLES).fill(0.25), startMs: 0 }),
  };
}

function listening(microphone: ChosenMicrophone) {
  const got: SourceEvent[] = [];
  const stop = new AbortController();
  void (async () => {
    for await (const event of microphone.open(stop.signal)) got.push(event);
  })();
  const firsts = () => got.flatMap((e) => (e.type === 'frame' ? [Number((e.pcm[0] ?? 0).toFixed(2))] : []));
  return { got, firsts, stop: () => stop.abort() };
}

describe('one microphone out of several', () => {
  it('is the screen that took it, then the computer again once the last words are through', async () => {
    const own = steady();
    const levels: number[] = [];
    const microphone = new ChosenMicrophone(
      own.source,
      () => performance.now(),
      (db) => levels.push(db),
    );
    const ears = listening(microphone);
    own.frame();
    await expect.poll(ears.firsts).toEqual([0.25]);
    microphone.choose('screen 1');
    own.frame();
    microphone.heard(new Int16Array(300).fill(16_384));
    microphone.heard(new Int16Array(300).fill(16_384));
    await expect.poll(ears.firsts).toEqual([0.25, 0.5]);
    microphone.choose(null);
    microphone.heard(new Int16Array(1024).fill(16_384));
    await expect.poll(() => ears.firsts().length, { timeout: 4000 }).toBeGreaterThan(25);
    expect(
      ears
        .firsts()
        .slice(2, 25)
        .every((v) => v === 0),
    ).toBe(true);
    await soon(200);
    own.frame();
    await expect.poll(() => ears.firsts().at(-1)).toBe(0.25);
    expect(levels.length).toBeGreaterThan(0);
    ears.stop();
  });

  it('hears through one of them only after it was opened anew', async () => {
    const own = steady();
    const microphone = new ChosenMicrophone(
      own.source,
      () => performance.now(),
      () => {},
    );
    const first = listening(microphone);
    await soon(20);
    first.stop();
    await soon(20);
    const second = listening(microphone);
    own.frame();
    await expect.poll(second.firsts).toEqual([0.25]);
    await soon(30);
    expect(first.firsts()).toEqual([]);
    expect(second.firsts()).toEqual([0.25]);
    second.stop();
  });
});

describe('answers on a screen', () => {
  const sound = { pcm: new Float32Array(1600), sampleRate: 16_000 };
  function players(present: boolean) {
    const events: string[] = [];
    const own: Player = {
      id: 'own',
      play: () => {
        events.push('computer');
        return { done: Promise.resolve('ended' as const), stop: () => events.push('computer stops') };
      },
    };
    const page = {
      play: (id: number) => {
        events.push(`screen ${id}`);
        return present;
      },
      hush: () => events.push('hush'),
    };
    return { events, player: new ScreenPlayer(page, own) };
  }

  it('sound there for as long as they last, and stop at once', async () => {
    const { events, player } = players(true);
    const { done } = player.play(sound);
    player.began(1);
    expect(await done).toBe('ended');
    expect(events).toEqual(['screen 1']);
    const second = player.play(sound);
    player.began(2);
    second.stop();
    expect(await second.done).toBe('stopped');
    expect(events).toEqual(['screen 1', 'screen 2', 'hush']);
  });

  it('sound on the computer when no screen is there, or when none reports that it plays', async () => {
    const absent = players(false);
    expect(await absent.player.play(sound).done).toBe('ended');
    expect(absent.events).toEqual(['screen 1', 'computer']);
    const silent = players(true);
    expect(await silent.player.play(sound).done).toBe('ended');
    expect(silent.events).toEqual(['screen 1', 'computer']);
  });
});
