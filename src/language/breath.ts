/** How much is said aloud: `brief` one breath, `normal` twice that, `full` everything. The screen always has everything. */
export type Verbosity = 'brief' | 'normal' | 'full';

const MOST_WORDS: Record<Verbosity, number> = { brief: 20, normal: 40, full: Number.POSITIVE_INFINITY };

/** What labels print beside the work: in full the first time, in three words after that. */
const CAUTION =
  /^(?:Wear gloves|Gloves and goggles|Keep (?:acid|children|the room)|Acid on|Air the room|When mixing|No food|Local rules|The safety data sheet)/;
const IN_THREE_WORDS = 'Gloves, goggles, air.';
/** the sentence that says what to say next is kept when there is room */
const INVITES = /^(?:Then )?(?:[Ss]ay|Get the bottles ready, then say) /;

export interface Breath {
  /** what is said now */
  said: string;
  /** what "more" says; empty when nothing was left out */
  rest: string;
  /** cautions that were said in full */
  cautions: readonly string[];
}

/** Split after a full stop, question or exclamation mark that a space follows: "27.0 degrees" stays whole. */
const sentencesIn = (text: string): string[] => text.split(/(?<=[.!?])\s+/).filter(Boolean);

/** Whether the text has a caution that was not yet said in full. */
export const namesNewCaution = (text: string, warned: ReadonlySet<string>): boolean =>
  sentencesIn(text).some((s) => CAUTION.test(s) && !warned.has(s));

const wordsIn = (text: string): number => text.split(/\s+/).filter(Boolean).length;

/**
 * A text cut to one breath: whole sentences from the front, as many as fit, then the invitation at its end. The
 * first sentence is always said whole. `warned` are cautions that were said in full before today.
 */
export function inOneBreath(text: string, verbosity: Verbosity, warned: ReadonlySet<string>): Breath {
  const all = sentencesIn(text);
  const known = verbosity === 'full' ? [] : all.filter((s) => CAUTION.test(s) && warned.has(s));
  const sentences = all.filter((s) => !known.includes(s));
  if (known.length > 0) sentences.push(IN_THREE_WORDS);
  const most = MOST_WORDS[verbosity];
  const last = sentences.at(-1) ?? '';
  const invitation =
    sentences.length > 1 && INVITES.test(last) && wordsIn(last) <= most / 2 ? last : undefined;
  const body = invitation ? sentences.slice(0, -1) : sentences;
  const kept: string[] = [];
  let room = most - wordsIn(invitation ?? '');
  for (const s of body) {
    if (kept.length > 0 && wordsIn(s) > room) break;
    kept.push(s);
    room -= wordsIn(s);
  }
  const rest = body.slice(kept.length).join(' ');
  return {
    said: [...kept, ...(invitation ? [invitation] : [])].join(' '),
    rest,
    cautions: kept.filter((s) => CAUTION.test(s)),
  };
}
