/** The sounds of a word as ARPAbet phones without stress marks; undefined when the word is not known. */
export type PhonesOf = (word: string) => readonly string[] | undefined;

/** Cost of hearing phone `b` for `a`, 0 (the same to the ear) to 1 (never taken for each other). */
export type PhoneCost = (a: string, b: string) => number;

export interface NameClash {
  /** the words it is mistaken for */
  with: string;
  /** weighted phone distance over the longer word's length, 0 (the same sound) to 1 */
  distance: number;
}

/** Below this two names are too close to shout across a running tap. source: set on the pairs in the tests */
export const TOO_CLOSE = 0.4;

const classes: readonly (readonly string[])[] = [
  ['P', 'T', 'K', 'B', 'D', 'G'],
  ['F', 'TH', 'S', 'SH', 'HH', 'V', 'DH', 'Z', 'ZH', 'CH', 'JH'],
  ['M', 'N', 'NG'],
  ['L', 'R', 'W', 'Y'],
  ['IY', 'IH', 'EY', 'EH', 'AE'],
  ['AA', 'AO', 'AH', 'OW', 'UH', 'UW', 'ER'],
  ['AY', 'AW', 'OY'],
];
const vowels = new Set(classes.slice(4).flat());
const classOf = (phone: string): number => classes.findIndex((group) => group.includes(phone));

/** Costs by manner of speaking, for when a recogniser has not been counted yet. source: common practice in phonetics */
export const costByManner: PhoneCost = (a, b) => {
  if (a === b) return 0;
  if (classOf(a) === classOf(b)) return 0.4;
  return vowels.has(a) === vowels.has(b) ? 0.8 : 1;
};

/** A sound missed or made up, against one taken for another. */
const GAP = 0.8;

/** Weighted edit distance between two phone strings over the longer length. */
export function phoneDistance(a: readonly string[], b: readonly string[], cost: PhoneCost): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j * GAP);
  a.forEach((from, i) => {
    const next = [(i + 1) * GAP];
    b.forEach((to, j) => {
      const swap = (row[j] ?? 0) + cost(from, to);
      const drop = (row[j + 1] ?? 0) + GAP;
      const add = (next[j] ?? 0) + GAP;
      next.push(Math.min(swap, drop, add));
    });
    row = next;
  });
  return (row[b.length] ?? 0) / Math.max(1, a.length, b.length);
}

export interface NameVerdict {
  /** null: the name is clear enough */
  clash: NameClash | null;
  /** words with no known sound; the name cannot be heard until they are spelt otherwise */
  unknown: string[];
  /** a name that is clear of everything in use, when the wished one is not */
  better: string | null;
}

/** Short words of two syllables or so that lie far from each other and from the trade's vocabulary. */
const spareNames = [
  'amber',
  'juniper',
  'violet',
  'harbour',
  'granite',
  'coral',
  'meadow',
  'indigo',
  'orchid',
  'falcon',
];

const speak = (name: string, phonesOf: PhonesOf): readonly string[] | null => {
  const words = name.toLowerCase().split(/\s+/).filter(Boolean);
  const phones = words.map((word) => phonesOf(word));
  return phones.some((p) => p === undefined) ? null : phones.flatMap((p) => p ?? []);
};

function nearest(
  name: string,
  taken: readonly string[],
  phonesOf: PhonesOf,
  cost: PhoneCost,
): NameClash | null {
  const sound = speak(name, phonesOf);
  if (sound === null) return null;
  let best: NameClash | null = null;
  for (const other of taken) {
    const theirs = speak(other, phonesOf);
    if (theirs === null) continue;
    const distance = phoneDistance(sound, theirs, cost);
    if (best === null || distance < best.distance) best = { with: other, distance };
  }
  return best;
}

/** Checks a spoken name against the names and command words already in use, and proposes a better one. */
export function checkName(
  name: string,
  taken: readonly string[],
  phonesOf: PhonesOf,
  cost: PhoneCost = costByManner,
): NameVerdict {
  const unknown = name
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '' && phonesOf(word) === undefined);
  const near = nearest(name, taken, phonesOf, cost);
  const clash = near !== null && near.distance < TOO_CLOSE ? near : null;
  if (clash === null && unknown.length === 0) return { clash, unknown, better: null };
  const better = spareNames
    .filter((spare) => speak(spare, phonesOf) !== null)
    .map((spare) => ({ spare, distance: nearest(spare, taken, phonesOf, cost)?.distance ?? 1 }))
    .filter((one) => one.distance >= TOO_CLOSE)
    .sort((a, b) => b.distance - a.distance)[0];
  return { clash, unknown, better: better?.spare ?? null };
}
