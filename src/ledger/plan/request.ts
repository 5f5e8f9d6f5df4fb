import { z } from 'zod';
import { limits } from '../../limits.js';
import type { ProcessSheet } from '../../process/sheet.js';
import type { BottleRecord } from '../../world/records.js';
import { emptyWorld, fold } from '../../world/reduce.js';
import type { DayRequest } from './types.js';

const clock = z
  .string('expected a time of day such as "14:30"')
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'expected a time of day such as "14:30"');
const count = z.int('expected a whole number').min(1, 'expected at least 1');
const formats = ['super-8', '16mm', '35mm', '120', '4x5', '8x10'] as const;

const film = z.strictObject({
  stock: z.string('expected the name of the film'),
  format: z.enum(formats, `expected one of ${formats.join(', ')}`),
  count: count.optional(),
  lengthM: z.number('expected metres').positive('expected metres above 0').optional(),
  sheet: z.string('expected the id of a process sheet').optional(),
  push: z.number('expected stops, such as 1 or -1').min(-3).max(3).optional(),
  precious: z.boolean('expected true or false').optional(),
});

const day = z.strictObject({
  films: z.array(film, 'expected a list of films').min(1, 'expected at least one film'),
  tank: z.strictObject(
    {
      volumeMl: z.number('expected millilitres').positive('expected millilitres above 0'),
      holds: z.partialRecord(z.enum(formats), count),
    },
    'expected the tank: {"volumeMl": 600, "holds": {"35mm": 2}}',
  ),
  reelSets: count.optional(),
  startsAt: clock.optional(),
  endsBy: clock.optional(),
  bottles: z
    .array(
      z.strictObject({
        number: count,
        liquid: z.string('expected the id of a liquid'),
        volumeMl: z.number('expected millilitres').min(0),
      }),
    )
    .optional(),
});

export type DayFile = z.infer<typeof day>;

export interface DayContext {
  /** what the ledger knows; used unless the file lists bottles of its own */
  bottles: readonly BottleRecord[];
  sheets: readonly ProcessSheet[];
  /** local midnight of the day, and now */
  midnightWallMs: number;
  nowWallMs: number;
}

/** Reads a day to plan from JSON text; each problem is one sentence that names the field. */
export function readDay(text: string, context: DayContext): DayRequest | { problems: string[] } {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { problems: [`The plan is not JSON (${why}). Check commas, quotes and brackets.`] };
  }
  const parsed = day.safeParse(data);
  if (!parsed.success)
    return {
      problems: parsed.error.issues.map((i) => `${i.path.join('.') || 'The plan'}: ${i.message}.`),
    };
  const films = parsed.data.films.reduce((n, f) => n + (f.count ?? 1), 0);
  if (films > limits.planFilms)
    return {
      problems: [
        `These are ${films} films; a day of at most ${limits.planFilms} can be planned. Plan them as several days.`,
      ],
    };
  return requestOf(parsed.data, context);
}

function requestOf(file: DayFile, context: DayContext): DayRequest {
  const usual = context.sheets[0]?.id ?? 'ecn2-ferricyanide';
  return {
    films: file.films.map(({ sheet, push, precious, stock, format, count: many, lengthM }) => ({
      film: {
        stock,
        format,
        ...(many === undefined ? {} : { count: many }),
        ...(lengthM === undefined ? {} : { lengthM }),
      },
      sheetId: sheet ?? usual,
      pushStops: push ?? 0,
      precious: precious ?? false,
    })),
    tank: { volumeMl: file.tank.volumeMl, holds: holdsOf(file.tank.holds) },
    reelSets: file.reelSets ?? 1,
    bottles: file.bottles === undefined ? context.bottles : bottlesOf(file.bottles, context.nowWallMs),
    sheets: context.sheets,
    startsWallMs: file.startsAt === undefined ? context.nowWallMs : at(file.startsAt, context),
    endsByWallMs: file.endsBy === undefined ? null : at(file.endsBy, context),
  };
}

/** Without the formats that were not named, as the plan wants them. */
const holdsOf = (holds: DayFile['tank']['holds']): DayRequest['tank']['holds'] =>
  Object.fromEntries(Object.entries(holds).filter(([, n]) => n !== undefined));

function at(time: string, context: DayContext): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return context.midnightWallMs + (hours * 60 + minutes) * 60_000;
}

function bottlesOf(listed: NonNullable<DayFile['bottles']>, nowWallMs: number): BottleRecord[] {
  const bench = listed.reduce(
    (b, one) =>
      fold(b, {
        fact: {
          type: 'bottle-set',
          bottle: one.number,
          liquid: one.liquid,
          volumeMl: one.volumeMl,
          capacityMl: one.volumeMl,
        },
        atMs: 0,
        wallMs: nowWallMs,
      }),
    emptyWorld(),
  );
  return Object.values(bench.bottles);
}
