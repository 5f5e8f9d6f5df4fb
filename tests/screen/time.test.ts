import { describe, expect, it } from 'vitest';
import { inBlocks, laidOut } from '../../src/screen/digits.js';
import { clockText, digitsAt } from '../../src/screen/time.js';

const at = (dueMs: number | null, nowMs: number, stoppedMs: number | null = null) =>
  digitsAt(
    {
      act: { words: 'Drain', dueMs },
      bath: { name: 'stop bath', vessel: 'tank', startedMs: 0, endsMs: null, stoppedMs },
    },
    nowMs,
  );

describe('the digits', () => {
  it('reach 0:00 at the very millisecond that the act is due, and count the delay after a second', () => {
    expect(at(10_000, 9_999)).toMatchObject({ text: '0:01', sense: 'early', changesMs: 10_000 });
    expect(at(10_000, 10_000)).toMatchObject({ text: '0:00', sense: 'early', changesMs: 11_000 });
    expect(at(10_000, 11_000)).toMatchObject({ text: '+0:01', sense: 'late', changesMs: 12_000 });
    expect(at(10_000, 0)).toMatchObject({ text: '0:10', changesMs: 1_000 });
  });

  it('change exactly when they say they will', () => {
    for (let nowMs = 0; nowMs < 75_000; nowMs += 137) {
      const now = at(61_500, nowMs);
      const changesMs = now.changesMs ?? 0;
      expect(changesMs).toBeGreaterThan(nowMs);
      expect(at(61_500, changesMs - 0.01).text).toBe(now.text);
      expect(at(61_500, changesMs).text).not.toBe(now.text);
    }
  });

  it('write minutes and hours', () => {
    expect([0, 9, 60, 754, 3_725].map(clockText)).toEqual(['0:00', '0:09', '1:00', '12:34', '1:02:05']);
  });

  it('are told apart at every size, in the terminal too', () => {
    for (const rows of [4, 5, 7, 11]) {
      const shapes = [...'0123456789'].map((d) => inBlocks(d, rows).join('\n'));
      expect(new Set(shapes).size).toBe(10);
      expect(shapes.every((s) => s.split('\n').length === rows)).toBe(true);
    }
    expect(laidOut('2:35').strokes.length).toBe(5);
  });
});
