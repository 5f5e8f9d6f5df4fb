import { describe, expect, it } from 'vitest';
import { bottleRows, dayRows, timelineRows } from '../../src/screen/pictures/rows.js';
import type { BottleView, TimelineView } from '../../src/screen/view.js';

const minute = 60_000;
const run: TimelineView = {
  runId: 'r',
  sheet: 'ECN-2',
  films: [],
  tankMl: 500,
  startedMs: 0,
  startedWallMs: 0,
  endedMs: null,
  nowMs: 5 * minute,
  complete: null,
  planned: [
    { name: 'prebath', fromMs: 0, toMs: minute },
    { name: 'developer', fromMs: minute, toMs: 4 * minute },
    { name: 'stop', fromMs: 4 * minute, toMs: 4.5 * minute },
  ],
  real: [
    {
      name: 'prebath',
      fromMs: 0,
      toMs: minute,
      plannedS: 60,
      actualS: 60,
      heldS: 0,
      startTempC: 27,
      endTempC: null,
    },
    {
      name: 'developer',
      fromMs: 2 * minute,
      toMs: null,
      plannedS: 180,
      actualS: null,
      heldS: 0,
      startTempC: 41.1,
      endTempC: null,
    },
  ],
  temps: [],
  marks: [
    { kind: 'call', text: 'called', atMs: 3 * minute },
    { kind: 'spill', text: '20 ml of developer spilled', atMs: 2.5 * minute },
  ],
};

describe('pictures in characters', () => {
  it.each([60, 78, 120])(
    'the run fits %i columns, planned and real, with calls and what was noted',
    (columns) => {
      const rows = timelineRows(run, columns).split('\n');
      for (const row of rows) expect([...row].length).toBeLessThanOrEqual(columns);
      const developer = rows.find((r) => r.startsWith('developer')) ?? '';
      expect(developer).toMatch(/░+█+┃█+ .*goes on, 41.1 °C/);
      expect(rows.find((r) => r.startsWith('stop'))).toMatch(/░/);
      expect(rows.find((r) => r.startsWith('stop'))).not.toMatch(/█/);
      // a third of the way into a stay of three minutes: the call stands where it was
      const [from, call, to] = [developer.indexOf('█'), developer.indexOf('┃'), developer.lastIndexOf('█')];
      expect((call - from) / (to - from)).toBeCloseTo(1 / 3, 1);
      expect(rows.join('\n')).toContain('2:30 ● spill: 20 ml of developer spilled');
    },
  );

  it('a bottle’s life as two bars', () => {
    const bottle: BottleView = {
      bottle: 2,
      name: null,
      holds: 'developer',
      known: 'told',
      volumeMl: 500,
      capacityMl: 600,
      ageDays: 3,
      keepDaysLeft: 3,
      doneM2: 0.1,
      leftM2: { low: 0.2, usual: 0.3, high: 0.4 },
      limit: null,
    };
    const [film = '', age = ''] = bottleRows([bottle], 78).split('\n');
    const share = (row: string): number => (row.match(/█/g)?.length ?? 0) / (row.match(/[█░]/g)?.length ?? 1);
    expect(share(film)).toBeCloseTo(0.25, 1);
    expect(share(age)).toBeCloseTo(0.5, 1);
    expect(film).toContain('0.10 of 0.40 m²');
    expect(age).toContain('3 of 6 days');
    expect(bottleRows([{ ...bottle, ageDays: null }])).toContain('not known');
    expect(bottleRows([])).toBe('No bottle is on record.');
  });

  it('the day on a clock, and when a bath is used up', () => {
    const at = (hours: number): number => new Date(2026, 0, 10, 9).getTime() + hours * 3_600_000;
    const rows = dayRows(
      {
        startsWallMs: at(0),
        runs: [
          { label: 'Run 1: 500T', startsWallMs: at(0), endsWallMs: at(1) },
          { label: 'Run 2: 250D', startsWallMs: at(1), endsWallMs: at(2) },
        ],
        marks: [{ text: 'developer used up', wallMs: at(1.5) }],
        note: null,
      },
      78,
    ).split('\n');
    expect(rows[0]?.indexOf('█')).toBeLessThan(rows[1]?.indexOf('█') ?? 0);
    expect(rows[2]).toContain('10:00');
    expect(rows[3]).toBe('10:30  Developer used up');
  });
});
