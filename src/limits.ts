/**
 * The most of every kind of input that is taken. Beyond it a sentence says so; what is below costs at most 200 ms of
 * the loop that makes the calls (tests/bench/ledger-fuzz.ts measures some). Any room may read this file.
 */
export const limits = {
  /** the number of a bottle; and up to which a bare whole number may be one (as the grammars count), and is one (20 is how warm a bath is, °C) */
  bottles: 99,
  countedBottles: 20,
  fewBottles: 12,
  /** how warm a bath at a sink is read, °C */
  bathLeastC: 5,
  bathMostC: 70,
  /** … and said in degrees Fahrenheit */
  bathMostF: 125,
  /** a typed line, characters; a note may be as long */
  lineChars: 2_000,
  /** a command in a typed line, words; a note may have more */
  commandWords: 60,
  /** what understanding a typed line may take of a thread of its own, ms */
  understandingMs: 5_000,
  /** … while the thread that understands still reads what it needs, beside other work */
  understandingColdMs: 60_000,
  /** a grammar of the user's own, characters, rules, and brackets within brackets */
  grammarChars: 256_000,
  grammarRules: 2_000,
  grammarDepth: 60,
  /** any JSON file that the user names: a process sheet, a plan */
  jsonBytes: 1_000_000,
  /** a process sheet, steps */
  sheetSteps: 100,
  /** a day to plan, films */
  planFilms: 200,
  /** a line of a thermometer, characters; and names that it gave and nobody knows, which are told of */
  probeLineChars: 200,
  probeUnknownNames: 20,
  /** a talk script, bytes, and the time that one may let pass, ms */
  scriptBytes: 1_000_000,
  scriptMs: 7 * 24 * 3_600_000,
  /** a sound file that is taken whole, seconds; its sound takes 64 kB of memory a second */
  wavS: 30 * 60,
  /** a sound file that is heard as one utterance, seconds; a longer one is read piece by piece and cut at its pauses */
  utteranceS: 60,
  /** a scan, pixels: a frame of medium format at 6,400 dpi */
  imagePixels: 400_000_000,
  /** an exchange file: characters in a line, entries in all */
  importLineChars: 1_000_000,
  importEntries: 5_000_000,
} as const;
