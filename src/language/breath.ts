/** How much is said aloud: `brief` one breath, `normal` twice that, `full` everything. The screen always has everything. */
export type Verbosity = 'brief' | 'normal' | 'full';

const MOST_WORDS: Record<Verbosity, number> = { brief: 20, normal: 40, full: Number.POSITIVE_INFINITY };

/** What labels print beside the work: in full the first time, in three words after that. */
const CAUTION =
  /^(?:Wear gloves|Gloves and goggles|Keep (?:acid|every acid|children|the room)|Acid on|Caustic soda on|Chlorine cleaner|Ferricyanide with|Air the room|When mixing|No food|Local rules|The safety data sheet)/;
const IN_THREE_WORDS = 'Gloves, goggles, air.';
/** What the hands do now, what is said next, and who is called when somebody is hurt: kept whenever there is room. */
const DO_NOW =
  /^(?:(?:Then |Or )?[Ss]ay |Get the bottles ready|Weigh |Measure |Stir |Follow the safety data sheet)/;
const AMOUNT = /^(?:Weigh|Measure) /;
/** Heard once today, these are known. */
const KNOWN_AFTER_ONCE = /^(?:Then|Or) say [^.]+\.$/;
const KNOWN_CLAUSE = /, (?:and|then) say [^.]+\.$/;
/** told by the screen, and by "more" */
const ON_SCREEN = /^Part \d+ of \d+/;

export interface Breath {
  /** what is said now */
  said: string;
  /** what "more" says; empty when nothing was left out */
  rest: string;
  /** cautions that were said in full, and what to say next, for the set of what is known today */
  told: readonly string[];
  /** new cautions for which there was no room: the next answer has them */
  owed: readonly string[];
}

/** Split after a full stop, question or exclamation mark that a space follows: "27.0 degrees" stays whole. */
const sentencesIn = (text: string): string[] => [
  ...new Set(
    text
      .split(/(?<=[.!?])\s+(?!Never let them meet|Keep acids away|Keep every acid away from it)/)
      .filter(Boolean),
  ),
];

const wordsIn = (text: string): number => text.split(/\s+/).filter(Boolean).length;

/** The gravest of a thing's hazards, or the beginning of a long list, up to so many words; else the sentence itself. */
function listCut(sentence: string, most: number): string {
  const [gravest, less] = sentence.split(', and ');
  if (less !== undefined && /^[^,:]+: /.test(sentence) && wordsIn(sentence) > most && gravest !== undefined)
    if (wordsIn(gravest) <= most && !gravest.includes(',')) return `${gravest}.`;
  const parts = sentence.split(', ');
  if (parts.length < 4 || wordsIn(sentence) <= most) return sentence;
  const fits = parts.findLastIndex((_, i) => wordsIn(parts.slice(0, i + 1).join(' ')) <= most - 2);
  return fits < 1 ? sentence : `${parts.slice(0, fits + 1).join(', ')}, and more.`;
}

/**
 * A text cut to one breath of whole sentences: the first one always, then what to do and to say now, then cautions that
 * are new today, `owed` ones too, then the others from the front while they fit. `told` is what was said in full before today.
 */
export function inOneBreath(
  text: string,
  verbosity: Verbosity,
  told: ReadonlySet<string>,
  owed: readonly string[] = [],
): Breath {
  const own = sentencesIn(text);
  if (verbosity === 'full')
    return { said: text, rest: '', told: own.filter((s) => CAUTION.test(s)), owed: [] };
  const most = MOST_WORDS[verbosity];
  const brief = verbosity === 'brief';
  const all = [...own, ...owed.filter((s) => !own.includes(s))];
  const known = (s: string): boolean =>
    told.has(s) && (CAUTION.test(s) || (brief && KNOWN_AFTER_ONCE.test(s)));
  const sentences = all
    .filter((s, i) => i === 0 || !known(s))
    .map((s) => (brief && told.has(KNOWN_CLAUSE.exec(s)?.[0] ?? '') ? s.replace(KNOWN_CLAUSE, '.') : s));
  // the amount goes before a caution beside it
  const act = sentences.find((s) => AMOUNT.test(s));
  const whole = (act && CAUTION.test(own[0] ?? '') ? act : sentences[0]) ?? '';
  const others = sentences.filter((s) => s !== whole && !known(s));
  const doNow = others.filter((s) => DO_NOW.test(s));
  const reserved = doNow.reduce((sum, s) => sum + wordsIn(s), 0);
  const first = listCut(whole, most - reserved);
  const kept = new Set<string>();
  let room = most - wordsIn(first);
  const keep = (s: string): boolean => {
    if (kept.has(s)) return true;
    if (wordsIn(s) > room) return false;
    kept.add(s);
    room -= wordsIn(s);
    return true;
  };
  const cautions = others.filter((s) => CAUTION.test(s));
  for (const s of doNow) keep(s);
  for (const s of cautions) keep(s);
  const plain = others.filter((s) => !CAUTION.test(s) && !DO_NOW.test(s));
  if (all.some((s) => CAUTION.test(s) && told.has(s))) plain.push(IN_THREE_WORDS);
  // where a caution has to wait, nothing less goes before it
  if (cautions.every((s) => kept.has(s))) plain.filter((s) => !(brief && ON_SCREEN.test(s))).every(keep);
  const said = [first, ...[...others, IN_THREE_WORDS].filter((s) => kept.has(s))];
  return {
    said: said.join(' '),
    rest: [...(first === whole ? [] : [whole]), ...others.filter((s) => !kept.has(s))].join(' '),
    told: said.flatMap((s) =>
      CAUTION.test(s) || KNOWN_AFTER_ONCE.test(s) ? [s] : (KNOWN_CLAUSE.exec(s) ?? []),
    ),
    owed: cautions.filter((s) => !kept.has(s)),
  };
}
