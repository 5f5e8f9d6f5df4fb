import { type Aloud, englishAloud as aloud } from './languages/english/aloud.js';
import { capital } from './languages/english/phrases/run-reasons.js';

/** How much is said aloud: `brief` one breath, `normal` twice that, `full` everything. The screen always has everything. */
export type Verbosity = 'brief' | 'normal' | 'full';

const MOST_WORDS: Record<Verbosity, number> = {
  brief: 20,
  normal: 40,
  full: Number.POSITIVE_INFINITY,
};

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
  for (const { said, instead, once } of aloud.shorter) {
    const found = short.match(said);
    if (found === null) continue;
    const key = once === 'form' ? said.source : (found.groups?.key?.toLowerCase() ?? found[0]);
    if (once !== undefined && !told.has(key)) known.push([key, found[0].trim()]);
    else short = short.replace(said, instead);
  }
  return { text: short.replace(/^.|(?<=[.?!] )./g, capital), known };
}

const sentencesIn = (text: string): string[] => [...new Set(text.split(aloud.boundary).filter(Boolean))];

const wordsIn = (text: string): number => text.split(/\s+/).filter(Boolean).length;

const aboutIn = (caution: string): Aloud['topics'] => aloud.topics.filter((t) => t.about.test(caution));

/** What a caution is about; its own words where it is about nothing that others are. */
function topicsOf(caution: string): string[] {
  const about = aboutIn(caution).map((t) => t.about.source);
  return about.length > 0 ? about : [caution];
}

/** The gravest of a thing's hazards, or the beginning of a long list, up to so many words; else the sentence itself. */
function listCut(sentence: string, most: number): string {
  const [gravest, less] = sentence.split(aloud.nextHazard);
  if (less !== undefined && /^[^,:]+: /.test(sentence) && wordsIn(sentence) > most && gravest !== undefined)
    if (wordsIn(gravest) <= most && !gravest.includes(',')) return `${gravest}.`;
  const parts = sentence.split(', ');
  if (parts.length < 4 || wordsIn(sentence) <= most) return sentence;
  const fits = parts.findLastIndex((_, i) => wordsIn(parts.slice(0, i + 1).join(' ')) <= most - 2);
  return fits < 1 ? sentence : `${parts.slice(0, fits + 1).join(', ')}${aloud.andMore}`;
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
  const isCaution = (s: string): boolean => aloud.caution.test(s);
  const topicsIn = (all: readonly string[]): string[] => all.filter(isCaution).flatMap(topicsOf);
  const whole = sentencesIn(text);
  if (verbosity === 'full') return { said: text, rest: '', told: topicsIn(whole), owed: [] };
  const most = MOST_WORDS[verbosity];
  const known = (s: string): boolean => isCaution(s) && topicsOf(s).every((t) => told.has(t));
  // a caution that is known stands in the way of what is said shorter
  const news = whole.filter((s, i) => (i === 0 && whole.length === 1) || !known(s));
  const short = verbosity === 'brief' ? shortened(news.join(' '), told) : { text: news.join(' '), known: [] };
  const own = sentencesIn(short.text);
  const sentences = [...own, ...owed.filter((s) => !own.includes(s) && !known(s))];
  const act = sentences.find((s) => aloud.amount.test(s));
  const foremost = (act && isCaution(own[0] ?? '') ? act : sentences[0]) ?? '';
  const others = sentences.filter((s) => s !== foremost);
  const doNow = others.filter((s) => aloud.doNow.test(s));
  const reserved = doNow.reduce((sum, s) => sum + wordsIn(s), 0);
  const first = listCut(foremost, most - reserved);
  const kept = new Set<string>();
  let room = most - wordsIn(first);
  const keep = (s: string): boolean => {
    if (kept.has(s)) return true;
    if (wordsIn(s) > room) return false;
    kept.add(s);
    room -= wordsIn(s);
    return true;
  };
  const cautions = others.filter(isCaution);
  for (const s of doNow) keep(s);
  for (const s of cautions) keep(s);
  const plain = others.filter((s) => !isCaution(s) && !aloud.doNow.test(s));
  const reminders = whole
    .filter(known)
    .flatMap(aboutIn)
    .filter(({ known, unless }) => known !== '' && !(unless?.test(short.text) ?? false));
  const again = [...new Set(reminders.map((t) => t.known))];
  plain.unshift(...again.slice(0, 1));
  // where a caution has to wait, nothing less goes before it
  if (cautions.every((s) => kept.has(s))) plain.every(keep);
  const said = [first, ...[...others, ...again].filter((s) => kept.has(s))];
  const spoken = said.join(' ');
  const left = [...whole, ...owed].filter((s) => !said.includes(s) && !known(s));
  return {
    said: spoken,
    rest: [...new Set(left)].join(' '),
    told: [
      ...topicsIn(said),
      ...short.known.flatMap(([key, words]) => (spoken.includes(words) ? [key] : [])),
    ],
    owed: cautions.filter((s) => !kept.has(s)),
  };
}
