import { describe, expect, it } from 'vitest';
import { seeded } from '../seeded.js';
import { processes } from './oracle.js';
import { Day, kinds } from './users.js';

/**
 * TANKSIDE_ORACLE_UTTERANCES=100000 for a long run, a sheet; TANKSIDE_ORACLE_SHEET=c41 for one sheet only;
 * TANKSIDE_ORACLE_FROM=5000 for other days.
 */
const wanted = Number(process.env.TANKSIDE_ORACLE_UTTERANCES ?? 900);
const only = process.env.TANKSIDE_ORACLE_SHEET;
const from = Number(process.env.TANKSIDE_ORACLE_FROM ?? 1);

describe.each(processes.filter((p) => only === undefined || p.sheet === only))(
  'against what really happens at the sink with $sheet',
  (one) => {
    it.each(kinds)(
      'a day of the %s user comes to its end, nothing ruinous is cleared, and every volume is accounted for',
      (kind) => {
        const count = {
          films: 0,
          utterances: 0,
          cleared: 0,
          refused: 0,
          overridden: 0,
          slips: 0,
          hung: 0,
          lost: 0,
        };
        const counted = Object.keys(count) as (keyof typeof count)[];
        let days = 0;
        const faults: string[] = [];
        for (let seed = from; count.utterances < wanted / kinds.length; seed++) {
          const day = new Day(one, kind, seeded(seed)).play();
          days++;
          for (const key of counted) count[key] += day[key];
          faults.push(...day.faults.map((f) => `seed ${seed}, after ${count.utterances} utterances, ${f}`));
        }
        if (process.env.TANKSIDE_ORACLE_UTTERANCES)
          console.log(one.sheet, kind, { days, ...count }, `${faults.length} faults`);
        expect(faults.slice(0, 5)).toEqual([]);
        expect(count.cleared).toBeGreaterThan(count.films * 2);
        if (kind !== 'honest') expect(Math.min(count.refused, count.slips)).toBeGreaterThan(count.films / 4);
      },
      // a bound for the test runner, no property: a long run takes long
      3_600_000,
    );
  },
);
