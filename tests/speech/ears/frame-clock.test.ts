import { describe, expect, it } from 'vitest';
import { FrameClock } from '../../../src/speech/ears/frame-clock.js';
import { LevelWatch } from '../../../src/speech/ears/level-watch.js';

describe('when frames began', () => {
  it('is not moved by a busy machine that takes a second of them late', () => {
    const clock = new FrameClock();
    const times = Array.from({ length: 200 }, (_, i) => {
      const arrived = 1000 + 32 * (i + 1);
      return clock.startOf(i >= 100 && i < 130 ? 1000 + 32 * 131 : arrived);
    });
    times.forEach((ms, i) => {
      expect(ms).toBeCloseTo(1000 + 32 * i);
    });
  });

  it('follows the clock again after samples were lost, and never goes back', () => {
    const clock = new FrameClock();
    let last = 0;
    for (let i = 0; i < 300; i++) {
      const startMs = clock.startOf(1000 + 32 * (i + 1) + (i >= 100 ? 700 : 0));
      expect(startMs).toBeGreaterThanOrEqual(last);
      last = startMs;
    }
    expect(last).toBeCloseTo(1000 + 32 * 299 + 700);
  });
});

describe('what is said of a level', () => {
  const remarks = (frames: number, sample: (i: number) => number): string[] => {
    const watch = new LevelWatch();
    const said = Array.from({ length: frames }, () =>
      watch.remark(Float32Array.from({ length: 512 }, (_, i) => sample(i))),
    );
    return said.filter((s) => s !== null);
  };

  it('is that it is too loud, once', () => {
    expect(remarks(600, (i) => Math.max(-1, Math.min(1, 2 * Math.sin(i / 9))))).toEqual([
      'The microphone is too loud and clips. Turn its level down.',
    ]);
  });

  it('is nothing of a room, however quiet, or of ordinary speech', () => {
    expect(remarks(600, (i) => (((i * 7919) % 13) - 6) / 32768)).toEqual([]);
    expect(remarks(600, (i) => 0.5 * Math.sin(i / 9))).toEqual([]);
  });
});
