/** A change of the text that changes nothing that can be seen, and why. Each was argued by itself. */
export interface Equivalent {
  file: string;
  /** the line it stands on, as it is written */
  line: string;
  was: string;
  /** which one, where the line has it more than once */
  nth?: number;
  now: string;
  why: string;
}

const reduce = 'src/world/reduce.ts';
/** Of a bottle that is measured again: `draw` of nothing, or of less, takes nothing and leaves all. */
const drawsNothing =
  'where nothing was lost, nothing was drawn either: what is left is what was there, and 0 is lost';

export const equivalents: readonly Equivalent[] = [
  {
    file: reduce,
    line: 'const run = fact.runId === undefined ? undefined : filled.runs[fact.runId];',
    was: 'undefined',
    now: 'filled.runs[fact.runId]',
    why: 'no run is kept under the name undefined',
  },
  {
    file: reduce,
    line: 'const contents = change < 0 ? left : blend(bottle.contents, fresh(fact.liquid, change));',
    was: '<',
    now: '<=',
    why: drawsNothing,
  },
  {
    file: reduce,
    line: 'const lostMl = change < 0 ? had - left.volumeMl : 0;',
    was: '<',
    now: '<=',
    why: drawsNothing,
  },
  {
    file: reduce,
    line: 'const lostMl = change < 0 ? had - left.volumeMl : 0;',
    was: '0',
    nth: 1,
    now: '1',
    why: drawsNothing,
  },
  {
    file: reduce,
    line: 'const lostMl = change < 0 ? had - left.volumeMl : 0;',
    was: '0',
    nth: 2,
    now: 'had - left.volumeMl',
    why: drawsNothing,
  },
  ...(
    [
      ['<', '<='],
      ['0', '1'],
      ['contents', '{ ...contents, workM2: contents.workM2 + taken.workM2 }'],
    ] as const
  ).map(([was, now]) => ({
    file: reduce,
    line: 'measured.contents = change < 0 ? { ...contents, workM2: contents.workM2 + taken.workM2 } : contents;',
    was,
    now,
    why: 'where nothing was lost, nothing was drawn, and no work with it',
  })),
  {
    file: reduce,
    line: "{ ...fact, type: 'bottle-set', bottle: fact.bottle, capacityMl: known.capacityMl ?? 0 },",
    was: 'known.capacityMl ?? 0',
    now: '0',
    why: 'a bottle that is set with a capacity of 0 keeps the one it has',
  },
  {
    file: reduce,
    line: 'const each = fact.seconds / Math.max(1, fact.fills);',
    was: '1',
    now: '0',
    why: 'with no fills there is no contact that would take the quotient',
  },
  {
    file: 'src/world/vessels.ts',
    line: '.sort((a, b) => a - b);',
    was: '-',
    now: '+',
    why: 'the keys of the record are whole numbers, which come in rising order already; a sort that is stable keeps it',
  },
];
