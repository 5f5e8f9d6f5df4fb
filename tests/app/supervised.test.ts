import { getEventListeners } from 'node:events';
import { describe, expect, it } from 'vitest';
import { sparing, supervised } from '../../src/app/supervised.js';

describe('a supervised part', () => {
  it('starts again after it threw, says why, and ends when it comes to its own end', async () => {
    const lines: string[] = [];
    let runs = 0;
    const part = async () => {
      if (++runs < 4) throw new Error(runs === 1 ? 'no room' : 'no device');
    };
    await supervised('The ears', (l) => lines.push(l), new AbortController().signal, part, [1]);
    expect(runs).toBe(4);
    expect(lines).toEqual([
      'The ears failed (no room) and start again.',
      'The ears failed (no device) and start again.',
      'The ears failed (no device) and start again.',
    ]);
  });

  it('that fails for hours leaves nothing behind at the signal that ends it', async () => {
    const { signal } = new AbortController();
    let runs = 0;
    const part = async () => {
      if (++runs < 14) throw new Error('no room');
      expect(getEventListeners(signal, 'abort')).toEqual([]);
    };
    await supervised('The ears', () => {}, signal, part, [1]);
    expect(runs).toBe(14);
  });

  it('ends its wait when the run is over', async () => {
    const stop = new AbortController();
    const part = async () => {
      setTimeout(() => stop.abort(), 5);
      throw new Error('no room');
    };
    await supervised('The ears', () => {}, stop.signal, part, [3_600_000]);
    expect(getEventListeners(stop.signal, 'abort')).toEqual([]);
  });

  it('is let be once the run is over', async () => {
    const stop = new AbortController();
    let runs = 0;
    const part = async () => {
      runs++;
      stop.abort();
      throw new Error('torn down');
    };
    await supervised('The ears', () => {}, stop.signal, part, [1]);
    expect(runs).toBe(1);
  });
});

it('says no sentence more than twice', () => {
  const lines: string[] = [];
  const tell = sparing((l) => lines.push(l));
  for (const line of ['a', 'b', 'a', 'a', 'b', 'b', 'c']) tell(line);
  expect(lines).toEqual(['a', 'b', 'a', 'b', 'c']);
});
