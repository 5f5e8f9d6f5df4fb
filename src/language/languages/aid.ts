import type { Exposure } from '../../chemistry/safety/first-aid.js';

/** What a language says to somebody who is hurt. */
interface AidWords {
  /** the first minute of each */
  first: Readonly<Record<Exposure, string>>;
  /** where it was not said how */
  unsaid: string;
  /** who decides */
  thenCall: string;
}

/** Whom somebody else is called for at once: a data sheet is no help to them. Source: common practice. */
const CALLED: ReadonlySet<Exposure> = new Set([
  'collapsed',
  'breathless',
  'alight',
  'shocked',
  'burnt',
  'wound',
  'animal',
]);

/** The first minute of each, then who decides. */
export const aidIn =
  ({ first, unsaid, thenCall }: AidWords) =>
  (hows: readonly Exposure[]): string =>
    [
      hows.map((how) => first[how]).join(' ') || unsaid,
      ...(hows.length > 0 && hows.every((how) => CALLED.has(how)) ? [] : [thenCall]),
    ].join(' ');
