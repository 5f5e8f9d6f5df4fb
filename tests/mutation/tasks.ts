/** A file's text with a fault in it, and the tests to try it by, as starts of paths in the order to run. */
export interface Task {
  id: number;
  file: string;
  /** null: the file as it is */
  text: string | null;
  tests: readonly string[];
  /** test files that fail without any fault: they say nothing */
  without: readonly string[];
}

export interface Answer {
  id: number;
  seconds: number;
  /** test files that passed */
  passed: number;
  /** the first test that failed; null: none did */
  caughtBy: string | null;
}
