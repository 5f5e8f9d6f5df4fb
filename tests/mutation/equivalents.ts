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
    line: 'change < 0',
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
  ...['>=', '<='].map((was) => ({
    file: 'src/process/temperature.ts',
    line: "if (tempC >= aim.minC - tiny && tempC <= aim.maxC + tiny) return 'in';",
    was,
    now: was.slice(0, 1),
    why: 'a billionth of a degree is room for rounding, no limit that a reading could meet',
  })),
  {
    file: 'src/process/temperature.ts',
    line: 'const outC = tempC < aim.minC ? aim.minC - tempC : tempC - aim.maxC;',
    was: '<',
    now: '<=',
    why: 'at the limit itself the reading is in, and was answered the line before',
  },
  {
    file: 'src/process/temperature.ts',
    line: "return tempC < aim.minC ? 'cold' : 'hot';",
    was: '<',
    now: '<=',
    why: 'at the limit itself the reading is in, and was answered before',
  },
  {
    file: 'src/process/temperature.ts',
    line: "if (outC <= errorC + tiny) return 'near';",
    was: '<=',
    now: '<',
    why: 'a billionth of a degree is room for rounding, no limit that a reading could meet',
  },
  {
    file: 'src/process/due.ts',
    line: 'id === null ? undefined : stepsOf(sheet).find((s) => s.id === id);',
    was: 'undefined',
    now: 'stepsOf(sheet).find((s) => s.id === id)',
    why: 'no step has the id null',
  },
  {
    file: 'src/process/due.ts',
    line: 'step.time ? Math.max(fillS, washShare * step.time.minS) : fillS * (step.fills ?? 1);',
    was: '1',
    now: '0',
    why: 'water counts only once nothing clings, which takes the ten seconds of one fill',
  },
  {
    file: 'src/process/guard-table.ts',
    line: 'export const severity: Record<Verdict, number> = { clear: 0, harmless: 1, recoverable: 2, ruinous: 3 };',
    was: '3',
    now: '30',
    why: 'the numbers are only ever held against one another, and their order stays',
  },
  {
    file: 'src/process/run-baths.ts',
    line: 'if (!bath) return null;',
    was: 'if (!bath) return null;',
    now: ';',
    why: 'everyone who empties the tank has looked that a bath is in it; the line is there for the compiler',
  },
  {
    file: 'src/process/run-baths.ts',
    line: 'if (!clock) return;',
    was: 'if (!clock) return;',
    now: ';',
    why: 'it is said only of a bath in the tank, which has a clock; the line is there for the compiler',
  },
  {
    file: 'src/process/run-flow.ts',
    line: 'bottles: untouched ? bottles.slice(0, bottledLiquids(sheet).length) : bottles,',
    was: 'bottles.slice(0, bottledLiquids(sheet).length)',
    now: 'bottles',
    why: 'where all is taken for granted there is just one bottle for each bath of the sheet',
  },
  {
    file: 'src/process/run-flow.ts',
    line: "const cleared = announced?.kind === 'in' ? announced : null;",
    was: 'null',
    now: 'announced',
    why: 'before the film is loaded no bath is in the tank, and none can be on its way out',
  },
  {
    file: 'src/process/run-flow.ts',
    line: 'return missing(film, turn.sheet).flatMap((s) => (s.liquid === null ? [] : [turn.named(s.liquid)]));',
    was: '[]',
    now: '[turn.named(s.liquid)]',
    why: 'a step that is missing is a bath; the case is there for the compiler',
  },
  ...(
    [
      ['1', '2'],
      ['0', '1'],
    ] as const
  ).map(([was, now]) => ({
    file: 'src/process/run-records.ts',
    line: 'if (badBottle(number, 0, 1))',
    was,
    now,
    why: 'only the number is in question here: any volume that fits any capacity will do',
  })),
  {
    file: 'src/process/run-baths.ts',
    line: 'const tooLong = actualS > longS || (actualS > longS - handsS && effect !== null && effect > worthSaying);',
    was: '>',
    nth: 3,
    now: '>=',
    why: 'a quotient above 1 less 1 is a whole number of 2^-52, which 0.05 is not',
  },
  {
    file: 'src/process/guard-checks.ts',
    line: 'const seconds = Math.max(step.time.aimS * changed.factor, changed.atLeastS ?? 0);',
    was: '0',
    now: '1',
    why: 'a time that is more than the sheet’s is more than a second, and any other is not taken',
  },
  {
    file: 'src/process/run-flow.ts',
    line: "if (turn.place === 'pouring' && step?.id === pending.stepId) return askSkip(turn, step);",
    was: '&&',
    now: '||',
    why: 'a question whether to leave a step out is settled by whatever moves the film on, so both hold or neither',
  },
  ...(
    [
      [
        "startClock: assign(({ event }) => ('atMs' in event ? clockFrom(event.atMs) : {})),",
        '{}',
        'clockFrom(event.atMs)',
      ],
      [
        "called: assign(({ event }) => (event.type === 'CALLED' ? { calledMs: event.atMs } : {})),",
        '{}',
        '{ calledMs: event.atMs }',
      ],
      [
        "event.type === 'ADD' ? { addedS: context.addedS + event.seconds, drainMs: null } : {},",
        '{}',
        '{ addedS: context.addedS + event.seconds, drainMs: null }',
      ],
      [
        "drain: assign(({ event }) => ('atMs' in event ? { drainMs: event.atMs } : {})),",
        '{}',
        '{ drainMs: event.atMs }',
      ],
      [
        "event.type === 'CLEARED' ? { announced: event.announced, pending: null } : {},",
        '{}',
        '{ announced: event.announced, pending: null }',
      ],
      [
        "challenge: assign(({ event }) => (event.type === 'CHALLENGE' ? { pending: event.pending } : {})),",
        '{}',
        '{ pending: event.pending }',
      ],
      [
        "spill: assign(({ event }) => (event.type === 'SPILLED' ? { spill: event.spill } : {})),",
        '{}',
        '{ spill: event.spill }',
      ],
    ] as const
  ).map(([line, was, now]) => ({
    file: 'src/process/machine.ts',
    line,
    was,
    now,
    why: 'the action stands at that event only',
  })),
  ...['1e-8', '5e-10'].map((now) => ({
    file: 'src/process/temperature.ts',
    line: 'const tiny = 1e-9;',
    was: '1e-9',
    now,
    why: 'either is far above what a subtraction rounds by, and far below what anybody reads',
  })),
  {
    file: 'src/process/run-answers.ts',
    line: 'if (!reading || aimC === undefined) return false;',
    was: 'if (!reading || aimC === undefined) return false;',
    now: ';',
    why: 'a developer is found cold or hot by a reading against an aim alone; the line is there for the compiler',
  },
  {
    file: 'src/process/run-answers.ts',
    line: 'if (!reading || aimC === undefined) return false;',
    was: '||',
    now: '&&',
    why: 'a developer is found cold or hot by a reading against an aim alone; the line is there for the compiler',
  },
  {
    file: 'src/process/temperature.ts',
    line: 'const between = readings.filter((r) => r.atMs > fromMs && r.atMs < toMs);',
    was: '<',
    now: '<=',
    why: 'the reading at the very end is the last point already: between the two no time passes',
  },
  {
    file: 'src/process/guard-resolve.ts',
    line: "const bottleParam = (v: VesselRef): AskParams => (v.kind === 'bottle' ? { bottle: v.number } : {});",
    was: '{}',
    now: '{ bottle: v.number }',
    why: 'what is no bottle has no number',
  },
  {
    file: 'src/process/guard-checks.ts',
    line: "const place = move.from.kind === 'bottle' ? { bottle: move.from.number } : {};",
    was: '{}',
    now: '{ bottle: move.from.number }',
    why: 'what is no bottle has no number',
  },
  {
    file: 'src/world/life.ts',
    line: 'const films = (area: number): number => Math.floor(area / areaM2 + 1e-9);',
    was: '1e-9',
    now: '5e-10',
    why: 'either is far above what a division rounds by',
  },
  {
    file: 'src/process/timing.ts',
    line: 'const overS = (step?.time?.aimS ?? 0) - (step?.drain.leadS ?? 0);',
    was: '0',
    nth: 1,
    now: '1',
    why: 'a step without a time is asked about once: a second is less than that asks after as well',
  },
  {
    file: 'src/process/timing.ts',
    line: 'const overS = (step?.time?.aimS ?? 0) - (step?.drain.leadS ?? 0);',
    was: '0',
    nth: 2,
    now: '1',
    why: 'without a step there is no time to take a lead off either',
  },
  {
    file: 'src/process/run-baths.ts',
    line: "if (seconds < 0 && turn.place !== 'immersed') return sayIn(turn);",
    was: '<',
    now: '<=',
    why: 'a change by less than a second was turned away on the line before',
  },
  {
    file: 'src/process/run-desk.ts',
    line: "due.some((d) => d.call === 'drain') &&",
    was: 'some',
    now: 'every',
    why: 'no other call falls on the moment of draining: the last of them comes ten seconds before it',
  },
  ...['immersedCalls(clock)', 'drainingCalls(clock, position)'].map((now) => ({
    file: 'src/process/timing.ts',
    line: `return clock ? ${now} : [];`,
    was: '[]',
    now,
    why: 'a bath is in the tank there, and has a clock; the line is there for the compiler',
  })),
];
