import { describe, expect, it } from 'vitest';
import { EndpointCore } from '../../../src/speech/ears/endpoint-core.js';
import { FRAME_MS, FRAME_SAMPLES } from '../../../src/speech/ears/frames.js';
import { Interruption } from '../../../src/speech/ears/interruption.js';

/** A frame by its level, what is left of it above the floor, the model's word on that, and how like the played sound it is. */
interface Frame {
  cameDb: number;
  aboveDb: number;
  voice: number;
  like: number;
}
const OWN: Frame = { cameDb: -30, aboveDb: 3, voice: 0, like: 0.95 };

/** The first frame at which somebody is taken to begin; -1: none. */
function begins(frames: readonly Frame[], soundsFrom = Number.NEGATIVE_INFINITY): number {
  const core = new EndpointCore();
  for (let i = 0; i < 100; i++) core.push(-70, 0);
  let like = 0;
  const interruption = new Interruption({
    soundsAt: (ms) => ms >= soundsFrom,
    likenessUntil: () => like,
  });
  return frames.findIndex(({ cameDb, aboveDb, voice, like: now }, i) => {
    like = now;
    const amplitude = Math.SQRT2 * 10 ** (cameDb / 20);
    const pcm = Float32Array.from(
      { length: FRAME_SAMPLES },
      (_, n) => amplitude * Math.sin(2 * Math.PI * (1_000 / 16_000) * n),
    );
    return interruption.begins(pcm, i * FRAME_MS, { voice, aboveDb, core });
  });
}
const own = (count: number): Frame[] => Array.from({ length: count }, () => OWN);

describe('somebody over its own voice', () => {
  it('is not its own voice, however loud', () => {
    expect(begins([...own(40), { ...OWN, cameDb: -15, aboveDb: 25, voice: 0.5 }])).toBe(-1);
  });

  it('is what the model hears in what is left', () => {
    expect(begins([...own(40), { ...OWN, aboveDb: 12, voice: 0.5, like: 0.8 }])).toBe(40);
  });

  it('is with a mere suspicion what is left so loud', () => {
    expect(begins([...own(40), { ...OWN, aboveDb: 22, voice: 0.06, like: 0.8 }])).toBe(40);
    expect(begins([...own(40), { ...OWN, aboveDb: 22, voice: 0.01, like: 0.8 }])).toBe(-1);
    expect(begins([...own(40), { ...OWN, aboveDb: 35, voice: 0.5, like: 0.92 }])).toBe(40);
  });

  it('is told by a sudden unlikeness where the canceller takes the voice along', () => {
    const taken: Frame = { cameDb: -25, aboveDb: 1, voice: 0, like: 0.4 };
    expect(begins([...own(40), taken])).toBe(40);
    // where nothing was ever like what is played the comparison says nothing
    expect(begins(Array.from({ length: 40 }, () => taken))).toBe(-1);
    expect(begins([...own(40), { ...taken, cameDb: -60 }])).toBe(-1);
  });

  it('is not what a canceller that was at rest begins with', () => {
    const rest = { ...OWN, aboveDb: 28, voice: 0.5, like: 0 };
    expect(begins([rest, rest, rest], 0)).toBe(-1);
  });
});
