import { beforeEach, describe, expect, it } from 'vitest';
import { Mouth, type MouthEvent } from '../../../src/speech/mouth/mouth.js';
import type { PlaybackEnd, Player } from '../../../src/speech/mouth/player.js';
import { Prepared } from '../../../src/speech/mouth/prepared.js';
import type { Voice } from '../../../src/speech/mouth/voice.js';
import type { Problem, Sound } from '../../../src/speech/wav.js';

interface Played {
  sound: Sound;
  stopped: boolean;
  end(how?: PlaybackEnd): void;
}

let nowMs = 0;
let played: Played[] = [];
let made: { text: string; rate: number }[] = [];
let events: MouthEvent[] = [];
let hold: Promise<void> | null = null;
let sound: Sound;

const settle = async () => {
  for (let i = 0; i < 3; i++) await new Promise((r) => setImmediate(r));
};

const voice: Voice = {
  id: 'test',
  label: 'test voice',
  async synthesise(text, rate): Promise<Sound | Problem> {
    made.push({ text, rate });
    await hold;
    if (text === 'unspeakable') return { problem: 'The voice broke.' };
    return sound;
  },
  close() {},
};

const player: Player = {
  id: 'test',
  play(sound) {
    let resolve: (end: PlaybackEnd) => void = () => {};
    const done = new Promise<PlaybackEnd>((r) => {
      resolve = r;
    });
    const entry: Played = { sound, stopped: false, end: (how = 'ended') => resolve(how) };
    played.push(entry);
    return {
      done,
      stop() {
        entry.stopped = true;
        resolve('stopped');
      },
    };
  },
};

const mouth = (parts: { voice?: Voice | null; player?: Player | null } = {}) =>
  new Mouth({ voice, player, now: () => nowMs, onEvent: (e) => events.push(e), ...parts });

const spoken = () => events.flatMap((e) => (e.type === 'started' ? [e.line.text] : []));
const outcomes = () => events.flatMap((e) => (e.type === 'stopped' ? [`${e.line.text}: ${e.outcome}`] : []));

beforeEach(() => {
  nowMs = 0;
  played = [];
  made = [];
  events = [];
  hold = null;
  sound = { pcm: new Float32Array(100).fill(0.5), sampleRate: 16000 };
});

describe('what is said first', () => {
  it('gives a sound that is ready to the player at once: who asked writes the journal next, and the loop with it', async () => {
    const m = mouth();
    await m.prepare(['Drain now.']);
    m.say('call', 'Drain now.');
    expect(played).toHaveLength(1);
    expect(spoken()).toEqual(['Drain now.']);
  });

  it('lets a call cut off a warning at once, and the warning go on after', async () => {
    const m = mouth();
    m.say('warning', 'That is bleach.');
    await settle();
    m.say('call', 'Drain now.');
    await settle();
    expect(played[0]?.stopped).toBe(true);
    played[1]?.end();
    await settle();
    played[2]?.end();
    await settle();
    expect(outcomes()).toEqual(['That is bleach.: cut', 'Drain now.: ended', 'That is bleach.: ended']);
    expect(m.speaking).toBe(false);
  });

  it('lets a warning go on after the first breath of a call, and the rest of the call after the warning', async () => {
    const m = mouth();
    m.say('call', 'Drain now. Back to bottle 2.');
    await settle();
    m.say('warning', 'That is bleach.');
    await settle();
    expect(played[0]?.stopped).toBe(false);
    for (let i = 0; i < 3; i++) {
      played[i]?.end();
      await settle();
    }
    const ends = ['That is bleach.: ended', 'Drain now. Back to bottle 2.: ended'];
    expect(outcomes()).toEqual(ends);
  });

  it('goes on with a line that was cut at the last pause, not at its beginning', async () => {
    sound = { pcm: new Float32Array(32_000).fill(0.5).fill(0, 15_000, 16_000), sampleRate: 16_000 };
    const m = mouth();
    m.say('answer', 'first, second');
    await settle();
    nowMs = 1500;
    m.say('call', 'Drain now.');
    await settle();
    played[1]?.end();
    await settle();
    expect(played[2]?.sound.pcm).toHaveLength(16_000);
  });

  it('does not let one warning cut off another', async () => {
    const m = mouth();
    m.say('warning', 'one');
    await settle();
    m.say('warning', 'two');
    await settle();
    expect(played).toHaveLength(1);
    played[0]?.end();
    await settle();
    expect(spoken()).toEqual(['one', 'two']);
  });

  it('says calls before warnings before questions before answers, each in the order asked', async () => {
    const m = mouth();
    m.say('call', 'c');
    m.say('warning', 'w');
    for (const [kind, text] of [
      ['answer', 'a1'],
      ['question', 'q'],
      ['answer', 'a2'],
    ] as const) {
      m.say(kind, text);
    }
    for (let i = 0; i < 5; i++) {
      await settle();
      played[i]?.end();
    }
    await settle();
    expect(spoken()).toEqual(['c', 'w', 'q', 'a1', 'a2']);
  });

  it('drops an answer that waited too long to be of use, but never a question or a call', async () => {
    const m = mouth();
    m.say('warning', 'w');
    m.say('answer', 'old');
    m.say('question', 'Which bottle?');
    await settle();
    nowMs = 60_000;
    played[0]?.end();
    await settle();
    expect(spoken()).toEqual(['w', 'Which bottle?']);
    expect(outcomes()).toContain('old: stale');
  });

  it('a line cut off while its sound is still being made plays once only', async () => {
    let release = () => {};
    hold = new Promise((r) => {
      release = r;
    });
    const m = mouth();
    m.say('answer', 'slow to make');
    m.say('call', 'Drain now.');
    release();
    await settle();
    expect(spoken()).toEqual(['Drain now.']);
    played[0]?.end();
    await settle();
    expect(spoken()).toEqual(['Drain now.', 'slow to make']);
    expect(played).toHaveLength(2);
  });
});

describe('while somebody speaks over it', () => {
  it('falls silent, and goes on when that was no command', async () => {
    const m = mouth();
    m.say('answer', 'x');
    await settle();
    expect(m.giveWay()).toBe(true);
    expect(played[0]?.stopped).toBe(true);
    m.say('answer', 'y');
    await settle();
    expect(played).toHaveLength(1);
    m.goOn();
    await settle();
    expect(spoken()).toEqual(['x', 'x']);
  });

  it('drops what it was answering when that was a command, and goes on with a warning', async () => {
    const m = mouth();
    m.say('answer', 'x');
    await settle();
    m.giveWay();
    m.drop();
    expect(outcomes()).toEqual(['x: cut']);
    m.say('warning', 'w');
    await settle();
    m.giveWay();
    m.drop();
    await settle();
    expect(spoken()).toEqual(['x', 'w', 'w']);
  });

  it('says a call in time all the same', async () => {
    const m = mouth();
    m.say('answer', 'x');
    await settle();
    m.giveWay();
    m.say('call', 'Drain now.');
    await settle();
    expect(spoken()).toEqual(['x', 'Drain now.']);
    expect(m.giveWay()).toBe(false);
  });
});

describe('quiet', () => {
  it('silences at once in mid-sentence, drops what waited, and speaks again later', async () => {
    const m = mouth();
    m.say('warning', 'w');
    m.say('answer', 'c');
    await settle();
    m.quiet();
    expect(played[0]?.stopped).toBe(true);
    expect(m.speaking).toBe(false);
    await settle();
    expect(spoken()).toEqual(['w']);
    expect(outcomes()).toEqual(['w: silenced', 'c: silenced']);
    m.say('call', 'later');
    await settle();
    expect(spoken()).toEqual(['w', 'later']);
  });

  it('also while the sound is still being made', async () => {
    let release = () => {};
    hold = new Promise((r) => {
      release = r;
    });
    const m = mouth();
    m.say('answer', 'long');
    m.quiet();
    release();
    await settle();
    expect(played).toHaveLength(0);
  });

  it('does no harm when nothing is said', () => {
    mouth().quiet();
    expect(events).toEqual([]);
  });
});

describe('how it is said', () => {
  it('steps the volume, and says when the end of the range is reached', async () => {
    const m = mouth();
    const levels: number[] = [];
    for (const turn of ['softer', 'louder', 'louder', 'louder', 'louder'] as const) {
      m[turn]();
      m.say('answer', `${levels.length}`);
      await settle();
      levels.push(played.at(-1)?.sound.pcm[0] ?? 0);
      played.at(-1)?.end();
      await settle();
    }
    expect(levels[1]).toBeGreaterThan(levels[0] ?? 1);
    expect(levels[2]).toBeGreaterThan(levels[1] ?? 1);
    expect(levels.at(-1)).toBeCloseTo(0.5);
    expect(m.louder()).toBe(false);
    for (let i = 0; i < 10; i++) m.softer();
    expect(m.softer()).toBe(false);
    expect(m.volume).toBe(-24);
  });

  it('changes speed within 0.5 to 2 and makes the sentence anew', async () => {
    const m = mouth();
    await m.prepare(['x']);
    expect(m.slower()).toBe(true);
    m.say('answer', 'x');
    await settle();
    expect(made.map((x) => x.rate)).toEqual([1, 1 / 1.15]);
    for (let i = 0; i < 20; i++) m.faster();
    expect(m.rate).toBe(2);
    expect(m.faster()).toBe(false);
  });

  it('says the last line again, but not its answers about itself', async () => {
    const m = mouth();
    expect(m.sayAgain()).toBe(false);
    m.say('call', 'Drain now.');
    m.say('answer', 'Louder.', false);
    await settle();
    played[0]?.end();
    await settle();
    played[1]?.end();
    await settle();
    m.sayAgain();
    await settle();
    expect(spoken().at(-1)).toBe('Drain now.');
  });
});

describe('prepared ahead', () => {
  it('plays a prepared sentence without making it again', async () => {
    const m = mouth();
    await m.prepare(['Drain now.', 'Pour in.']);
    expect(made).toHaveLength(2);
    m.say('call', 'Drain now.');
    await settle();
    expect(played).toHaveLength(1);
    expect(made).toHaveLength(2);
  });

  it('keeps within its bytes, letting the longest unused go', async () => {
    const store = new Prepared(450);
    await store.get('a', voice, 1);
    await store.get('b', voice, 1);
    await store.get('a', voice, 1);
    await store.get('c', voice, 1);
    expect(['a', 'b', 'c'].map((text) => store.has(text, voice, 1))).toEqual([true, false, true]);
    expect(store.size).toEqual({ sentences: 2, bytes: 400 });
  });

  it('leaves out the silence that an engine puts before a sentence, and most of that after it', async () => {
    const [before, said, after] = [200, 500, 400];
    const pcm = new Float32Array(before + said + after).fill(0.5, before, before + said);
    const quiet: Voice = { ...voice, synthesise: async () => ({ pcm, sampleRate: 1000 }) };
    const made = await new Prepared().get('a', quiet, 1);
    if (!('pcm' in made)) throw new Error(made.problem);
    expect(made.pcm.findIndex((v) => v > 0)).toBeLessThanOrEqual(10);
    expect(made.pcm.filter((v) => v > 0)).toHaveLength(said);
    expect(made.pcm.length).toBeLessThan(said + 200);
  });

  it('makes one sentence once for two askers', async () => {
    const store = new Prepared();
    await Promise.all([store.get('a', voice, 1), store.get('a', voice, 1)]);
    expect(made).toHaveLength(1);
  });
});

describe('when speech fails', () => {
  it('goes on in text without a voice or a player', () => {
    for (const missing of [{ voice: null }, { player: null }]) {
      events = [];
      const m = mouth(missing);
      expect(m.textOnly).toBe(true);
      m.say('call', 'Drain now.');
      expect(outcomes()).toEqual(['Drain now.: unspoken']);
    }
  });

  it('tells of a broken voice once, and goes on with the next line', async () => {
    const m = mouth();
    m.say('answer', 'unspeakable');
    m.say('answer', 'unspeakable');
    m.say('answer', 'fine');
    await settle();
    await settle();
    await settle();
    expect(events.filter((e) => e.type === 'problem')).toEqual([
      { type: 'problem', sentence: 'The voice broke.' },
    ]);
    expect(spoken()).toEqual(['fine']);
  });

  it('tries a player that failed once more, then tells of a speaker that is gone', async () => {
    const m = mouth();
    m.say('call', 'Drain now.');
    await settle();
    for (const i of [0, 1]) {
      played[i]?.end({ problem: 'No sound came out.' });
      await settle();
    }
    expect(outcomes()).toEqual(['Drain now.: unspoken']);
    expect(events.some((e) => e.type === 'problem')).toBe(true);
  });

  it('falls silent when turned to text only', async () => {
    const m = mouth();
    m.say('answer', 'x');
    await settle();
    m.setTextOnly(true);
    expect(played[0]?.stopped).toBe(true);
    m.say('call', 'y');
    expect(outcomes().at(-1)).toBe('y: unspoken');
    m.setTextOnly(false);
    m.say('call', 'z');
    await settle();
    expect(spoken().at(-1)).toBe('z');
  });

  it('starts a player ahead at the pace of the last sound, and none while one plays', async () => {
    const woken: number[] = [];
    const m = mouth({ player: { ...player, wake: (rate) => woken.push(rate) } });
    m.wake();
    m.say('answer', 'x');
    await settle();
    m.wake();
    expect(woken).toEqual([]);
    played[0]?.end();
    await settle();
    m.wake();
    expect(woken).toEqual([16000]);
    m.say('answer', 'y');
    await settle();
    m.ready();
    expect(woken).toEqual([16000, 16000]);
  });
});
