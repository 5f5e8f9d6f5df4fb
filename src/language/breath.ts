import { capital } from './phrases/run-reasons.js';
import { shorter } from './phrases/shorter.js';

/** How much is said aloud: `brief` one breath, `normal` twice that, `full` everything. The screen always has everything. */
export type Verbosity = 'brief' | 'normal' | 'full';

const MOST_WORDS: Record<Verbosity, number> = {
  brief: 20,
  normal: 40,
  full: Number.POSITIVE_INFINITY,
};

/** What labels print beside the work: in full the first time, in three words after that. */
const CAUTION =
  /^(?:Wear gloves|Gloves and goggles|Keep (?:acid|every acid|children|the room)|Acid on|Caustic soda on|Chlorine cleaner|Ferricyanide with|Air the room|When mixing|No food|Local rules|The safety data sheet)/;
const IN_THREE_WORDS = 'Gloves, goggles, air.';
/** What the hands do now, what is said next, and who is called when somebody is hurt: kept whenever there is room. */
const DO_NOW =
  /^(?:(?:Then |Or )?[Ss]ay |Get the bottles ready|Weigh |Measure |Stir|Set the scale |Label |Follow the safety data sheet)/;
const AMOUNT = /^(?:Weigh|Measure) /;

export interface Breath {
  /** what is said now */
  said: string;
  /** what "more" says; empty when nothing was left out */
  rest: string;
  /** cautions and what can be shorter the next time, for the set of what is known today */
  told: readonly string[];
  /** new cautions for which there was no room: the next answer has them */
  owed: readonly string[];
}

/** The text as brief speech has it, and what of it is known from now on. */
function shortened(
  text: string,
  told: ReadonlySet<string>,
): { text: string; known: [key: string, words: string][] } {
  const known: [key: string, words: string][] = [];
  let short = text;
  for (const { said, instead, once } of shorter) {
    const found = said.exec(short);
    if (found === null) continue;
    const key = once === 'form' ? said.source : found[0];
    if (once !== undefined && !told.has(key)) known.push([key, found[0].trim()]);
    else short = short.replace(said, instead);
  }
  return { text: capital(short), known };
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
  const cautionsIn = (all: readonly string[]): string[] => all.filter((s) => CAUTION.test(s));
  if (verbosity === 'full')
    return {
      said: text,
      rest: '',
      told: cautionsIn(sentencesIn(text)),
      owed: [],
    };
  const most = MOST_WORDS[verbosity];
  const brief = verbosity === 'brief';
  const short = brief ? shortened(text, told) : { text, known: [] };
  const own = sentencesIn(short.text);
  const all = [...own, ...owed.filter((s) => !own.includes(s))];
  const known = (s: string): boolean => told.has(s) && CAUTION.test(s);
  const sentences = all.filter((s, i) => i === 0 || !known(s));
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
  if (cautions.every((s) => kept.has(s))) plain.every(keep);
  const said = [first, ...[...others, IN_THREE_WORDS].filter((s) => kept.has(s))];
  const spoken = said.join(' ');
  const left = [...sentencesIn(text), ...owed].filter((s) => !said.includes(s) && !known(s));
  return {
    said: spoken,
    rest: [...new Set(left)].join(' '),
    told: [
      ...cautionsIn(said),
      ...short.known.flatMap(([key, words]) => (spoken.includes(words) ? [key] : [])),
    ],
    owed: cautions.filter((s) => !kept.has(s)),
  };
}
