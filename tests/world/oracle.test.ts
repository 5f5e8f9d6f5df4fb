import { describe, expect, it } from 'vitest';
import { seeded } from '../seeded.js';
import { Episode, kinds } from './users.js';

/** TANKSIDE_ORACLE_UTTERANCES=100000 for a long run. */
const wanted = Number(process.env.TANKSIDE_ORACLE_UTTERANCES ?? 3000);

describe('against what really happens at the sink', () => {
  it.each(kinds)(
    'a film of the %s user comes to its end, nothing ruinous is cleared, and every volume is accounted for',
    (kind) => {
      const count = { films: 0, utterances: 0, cleared: 0, refused: 0, slips: 0, hung: 0, lost: 0 };
      const faults: string[] = [];
      for (let seed = 1; count.utterances < wanted / kinds.length; seed++) {
        const film = new Episode(kind, seeded(seed)).play();
        count.films++;
        count.utterances += film.utterances;
        count.cleared += film.cleared;
        count.refused += film.refused;
        count.slips += film.slips;
        if (film.ended !== null) count[film.ended]++;
        faults.push(...film.faults.map((f) => `seed ${seed}, ${f}`));
      }
      if (process.env.TANKSIDE_ORACLE_UTTERANCES) console.log(kind, count, `${faults.length} faults`);
      expect(faults.slice(0, 5)).toEqual([]);
      expect(count.cleared).toBeGreaterThan(count.films * 2);
      if (kind !== 'honest') expect(Math.min(count.refused, count.slips)).toBeGreaterThan(count.films / 4);
    },
    // a bound for the test runner, no property: a long run takes long
    3_600_000,
  );
});
