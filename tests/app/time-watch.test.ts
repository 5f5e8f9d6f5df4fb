import { describe, expect, it } from 'vitest';
import { createTimeWatch } from '../../src/app/time-watch.js';

const start = { tickMs: 0, upMs: 1_000_000, wallMs: 1.77e12 };
const passed = (tick: number, up: number, wall: number) => ({
  tickMs: start.tickMs + tick,
  upMs: start.upMs + up,
  wallMs: start.wallMs + wall,
});

describe('what happens to time', () => {
  it.each([
    ['nothing', passed(1_000, 1_010, 1_004), null],
    ['a slow moment', passed(4_000, 4_000, 4_000), null],
    ['sleep', passed(1_500, 121_500, 121_500), /slept for 2 minutes.*baths went on/],
    ['a stopped process', passed(121_000, 121_000, 121_000), /stopped for 2 minutes.*baths went on/],
    ['a calendar set forward', passed(1_000, 1_000, 3_601_000), /set forward by 1 hour.*not affected/],
    ['a calendar set back', passed(1_000, 1_000, -29_000), /set back by 30 seconds.*not affected/],
    ['sleep and a calendar set', passed(1_000, 61_000, 3_661_000), /slept for 60 seconds.*forward by 1 hour/],
  ])('%s', (_what, now, said) => {
    const sentence = createTimeWatch(1_000, start)(now);
    if (said === null) expect(sentence).toBeNull();
    else expect(sentence).toMatch(said);
  });

  it('is said once', () => {
    const watch = createTimeWatch(1_000, start);
    watch(passed(1_000, 61_000, 61_000));
    expect(watch(passed(2_000, 62_000, 62_000))).toBeNull();
  });
});
