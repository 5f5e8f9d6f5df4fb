/** A change of the text that changes nothing that can be seen, and why. Each was argued by itself. */
export interface Equivalent {
  file: string;
  /** the line it stands on, as it is written */
  line: string;
  was: string;
  now: string;
  why: string;
}

export const equivalents: readonly Equivalent[] = [];
