import { z } from 'zod';
import { limits } from '../limits.js';
import { type RateId, rateLaws } from '../thermal/rate-data.js';
import { type FilmKind, motionPictureFilm } from '../world/film.js';
import { cautionIds, type Liquid, liquids, type Role, roles } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';

const source = z
  .string('expected where the number comes from, in words')
  .min(1, 'expected where the number comes from; "common practice" will do');
const measure = (unit: string, min: number, max: number) =>
  z
    .number(`expected ${unit}, a number from ${min} to ${max}`)
    .min(min, `expected at least ${min} ${unit}`)
    .max(max, `expected at most ${max} ${unit}`);
const seconds = (min: number, max: number) => measure('seconds', min, max);
const celsius = measure('degrees Celsius', 0, 60);
const flag = z.boolean('expected true or false');
const words = z.string('expected words').min(1, 'expected at least one word');
const idText = z
  .string('expected an id')
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'expected lower-case letters, digits and hyphens, such as first-wash');

const time = z
  .strictObject({
    aimS: seconds(1, 7200),
    minS: seconds(0, 7200),
    maxS: seconds(1, 7200),
    source,
    /** the tolerance often has another source than the aim */
    toleranceSource: source,
  })
  .refine((t) => t.minS <= t.aimS && t.aimS <= t.maxS, 'expected minS ≤ aimS ≤ maxS');

const temp = z
  .strictObject({ aimC: celsius, minC: celsius, maxC: celsius, source })
  .refine((t) => t.minC <= t.aimC && t.aimC <= t.maxC, 'expected minC ≤ aimC ≤ maxC');

const agitation = z.strictObject({
  style: z.enum(['inversion', 'swirl', 'still'], 'expected inversion, swirl or still'),
  /** continuous at first, s */
  initialS: seconds(0, 600),
  /** then once every so many seconds; null: no more calls */
  everyS: seconds(5, 600).nullable(),
  /** how many turns each time */
  inversions: z.int('expected a whole number of inversions').min(0).max(30, 'expected at most 30 inversions'),
  source,
});

const caution = z.enum(cautionIds, `expected a caution out of ${cautionIds.join(', ')}`);
const role = z.enum(roles, `expected one of ${roles.join(', ')}`);

const step = z
  .strictObject({
    id: idText,
    /** as spoken */
    name: words,
    /** `rinse` has no clock: it ends when the user says so */
    kind: z.enum(['soak', 'bath', 'wash', 'rinse', 'hang'], 'expected one of soak, bath, wash, rinse, hang'),
    /** null: none (hanging) */
    liquid: idText.nullable(),
    time: time.nullable(),
    temp: temp.nullable(),
    agitation: agitation.nullable(),
    /** the call to drain comes this long before the time is up, s */
    drain: z.strictObject({ leadS: seconds(0, 120), source }),
    reusable: flag,
    returnsToBottle: flag,
    /** pour back through a filter */
    filter: flag,
    /** plain water between this bath and the next, before the next step */
    rinseAfter: z
      .strictObject({
        fills: z.int('expected a whole number of fills').min(1).max(20, 'expected at most 20 fills'),
        temp: temp.nullable(),
        source,
      })
      .nullable(),
    cautions: z.array(caution),
  })
  .refine((s) => s.kind === 'hang' || s.liquid !== null, 'expected a liquid: only hanging has none')
  .refine(
    (s) => s.time === null || s.drain.leadS < s.time.aimS,
    'expected a drain lead shorter than the time in the bath',
  );

const ownLiquid = z.strictObject({
  id: idText,
  name: words,
  spoken: z.array(words).min(1, 'expected at least one spoken name').readonly(),
  role,
  plausibleC: z.strictObject({ minC: celsius, maxC: celsius }),
  cautions: z.array(caution).readonly().default(['gloves', 'eyes', 'ventilation']),
  onSpill: z.array(caution).readonly().default(['gloves', 'spill-wipe']),
  /** what may cling to the film when it goes in: a bleach that stops development, say */
  tolerates: z.array(role).readonly().optional(),
  /** a bleach: whether it holds ferricyanide, which no acid may meet; left out, it is taken to */
  ferricyanide: flag.optional(),
  /** 135-36 films, or their area, that a litre does */
  capacity: z
    .strictObject({
      filmsPerLitre: z.number('expected how many films a litre does').min(0.1).max(1000),
      source,
    })
    .optional(),
});

const sheetSchema = z
  .strictObject({
    id: idText,
    name: words,
    /** other ways to say its name, lower case */
    spoken: z.array(words),
    source,
    /** the kind of film it is for; left out: motion-picture colour negative with its backing */
    film: z
      .strictObject({
        backing: flag,
        image: z.enum(['dye', 'silver'], 'expected dye (colour) or silver (black and white)'),
      })
      .optional(),
    /** the law by which development follows temperature; left out: none is known */
    rate: z
      .enum(
        Object.keys(rateLaws) as [RateId, ...RateId[]],
        `expected one of ${Object.keys(rateLaws).join(', ')}`,
      )
      .optional(),
    /** liquids beyond the well-known ones, and more about those */
    liquids: z.array(ownLiquid).optional(),
    steps: z
      .array(step)
      .min(1, 'expected at least one step')
      .max(limits.sheetSteps, `expected at most ${limits.sheetSteps} steps`),
  })
  .superRefine((sheet, ctx) => {
    const wrong = (path: (string | number)[], message: string) =>
      ctx.addIssue({ code: 'custom', path, message });
    sheet.liquids?.forEach((own, i) => {
      // the guard reasons from the role: what is said to be developer must not be water to it
      for (const well of liquids) {
        const taken = [own.id, own.name, ...own.spoken].find((n) => namesOf(well).includes(n.toLowerCase()));
        if (taken !== undefined && own.role !== well.role)
          wrong(
            ['liquids', i, 'role'],
            `"${taken}" is the well-known ${well.name}, whose role is ${well.role}; expected that role, or another name`,
          );
      }
    });
    sheet.liquids?.forEach((own, i) => {
      const named = [own.id.replaceAll('-', ' '), own.name, ...own.spoken].find((n) =>
        contradicts(n, own.role),
      );
      const well = named === undefined ? undefined : namedBath(named);
      // one that bears the very name was told of above
      if (well !== undefined && namesOf(well).every((n) => n !== named?.toLowerCase()))
        wrong(
          ['liquids', i, 'role'],
          `"${named}" is a ${well.name} by its name, and its role here is ${own.role}; expected the role ${well.role}, or another name`,
        );
    });
    sheet.steps.forEach((s, i) => {
      const poured = liquidOf(sheet, s.liquid);
      const why = poured && contradiction(s, poured);
      if (why) wrong(['steps', i, 'liquid'], why);
    });
    const known = new Set([...liquids, ...(sheet.liquids ?? [])].map((l) => l.id));
    const seen = new Set<string>();
    sheet.steps.forEach((s, i) => {
      if (seen.has(s.id)) wrong(['steps', i, 'id'], `"${s.id}" is used twice`);
      seen.add(s.id);
      if (s.liquid !== null && !known.has(s.liquid))
        wrong(
          ['steps', i, 'liquid'],
          `"${s.liquid}" is not a known liquid; expected one of ${[...known].join(', ')}, or describe it under liquids`,
        );
      if (s.kind === 'hang' && i !== sheet.steps.length - 1)
        wrong(['steps', i, 'kind'], 'hanging must be the last step');
    });
  });

const namesOf = (l: Liquid): string[] => [l.id, l.name, ...l.spoken].map((n) => n.toLowerCase());

/** The well-known bath that a name ends with: "colour developer" is a developer, "bleach fix" nothing of the kind. */
function namedBath(name: string): Liquid | undefined {
  const said = name.toLowerCase();
  if (/\bbleach[ -]?fix\b/.test(said)) return undefined;
  return liquids.find((l) => namesOf(l).some((n) => said === n || said.endsWith(` ${n}`)));
}

/** Water may do another bath's work by its name only where films stop or are rinsed in it. */
const contradicts = (name: string, role: Role): boolean => {
  const bath = namedBath(name)?.role;
  return bath !== undefined && bath !== role && !(role === 'water' && (bath === 'stop' || bath === 'rinse'));
};

/** What each kind of step may pour; a bath anything but what its name denies. */
const pouredIn: Partial<Record<string, readonly Role[]>> = {
  wash: ['water', 'rinse'],
  rinse: ['water', 'rinse'],
  soak: ['water', 'rinse', 'backing-remover'],
};

/** Why a step cannot pour this: the guard reasons from the role, and would clear it. */
function contradiction(
  step: { id: string; name: string; kind: string },
  { name, role }: Liquid,
): string | null {
  const may = pouredIn[step.kind];
  if (may && !may.includes(role))
    return `a ${step.kind} pours ${name}, whose role is ${role}; expected a liquid whose role is ${may.join(' or ')}, or another kind of step`;
  const named = [step.id.replaceAll('-', ' '), step.name].find((n) => contradicts(n, role));
  if (step.kind !== 'bath' || named === undefined) return null;
  return `the step "${named}" pours ${name}, whose role is ${role}; expected a liquid whose role is ${namedBath(named)?.role}, or another name for the step`;
}

export type ProcessSheet = z.infer<typeof sheetSchema>;
export type SheetStep = ProcessSheet['steps'][number];
export type Agitation = NonNullable<SheetStep['agitation']>;

export type SheetResult = { ok: true; sheet: ProcessSheet } | { ok: false; problems: string[] };

/**
 * Reads a process sheet from JSON text. Every problem is one sentence that names the step, the field, and what
 * was expected; nothing is half-applied.
 */
export function parseSheet(text: string): SheetResult {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      problems: [`The process sheet is not JSON (${why}). Check commas, quotes and brackets.`],
    };
  }
  return checkSheet(data);
}

/** The same check for data that is already read. */
export function checkSheet(data: unknown): SheetResult {
  const result = sheetSchema.safeParse(data, { reportInput: true });
  if (result.success) return { ok: true, sheet: result.data };
  return { ok: false, problems: result.error.issues.map((issue) => sentence(issue, data)) };
}

function sentence(issue: z.core.$ZodIssue, data: unknown): string {
  const [first, index, ...rest] = issue.path;
  const where =
    first === 'steps' && typeof index === 'number'
      ? `Step ${index + 1}${stepName(data, index)}${rest.length > 0 ? `, ${rest.join('.')}` : ''}`
      : issue.path.length > 0
        ? `The field ${issue.path.join('.')}`
        : 'The process sheet';
  if (issue.code === 'unrecognized_keys')
    return `${where}: ${issue.keys.map((k) => `"${k}"`).join(', ')} is not a field I know. Remove it or check its spelling.`;
  const got = issue.code === 'custom' ? '' : gotText(issue.input);
  return `${where}: ${issue.message}${got}.`;
}

const gotText = (input: unknown): string =>
  input === undefined
    ? ', but it is missing'
    : `, got ${JSON.stringify(input)?.slice(0, 60) ?? typeof input}`;

function stepName(data: unknown, index: number): string {
  const steps = (data as { steps?: { name?: unknown }[] } | null)?.steps;
  const name = steps?.[index]?.name;
  return typeof name === 'string' ? ` (${name})` : '';
}

/** A sheet's liquid: its own description first, then the well-known ones. */
export const liquidOf = (
  sheet: { liquids?: readonly Liquid[] | undefined },
  id: LiquidId | null,
): Liquid | undefined => sheet.liquids?.find((l) => l.id === id) ?? liquids.find((l) => l.id === id);

export const filmKindOf = (sheet: ProcessSheet): FilmKind => sheet.film ?? motionPictureFilm;

export const roleOf = (sheet: ProcessSheet, id: LiquidId | null): Role | undefined =>
  liquidOf(sheet, id)?.role;

/** The step in which film is developed; the first, when there are several. */
export const developingStep = (sheet: ProcessSheet): SheetStep | undefined =>
  sheet.steps.find((s) => roleOf(sheet, s.liquid) === 'developer');

/** The liquids that a sheet pours, in order, each once. */
export const liquidsUsed = ({ steps }: Pick<ProcessSheet, 'steps'>): LiquidId[] => [
  ...new Set(steps.flatMap((s) => s.liquid ?? [])),
];

/** The baths a sheet pours from bottles, in order, each once; water comes from the tap. */
export const bottledLiquids = (sheet: ProcessSheet): LiquidId[] =>
  liquidsUsed(sheet).filter((id) => roleOf(sheet, id) !== 'water');
