import type { RateLaw } from '../../thermal/rate-data.js';
import type { RunHistory } from '../record/history.js';
import { deviationsOf } from './deviations.js';
import type { Evidence, EvidenceId, Observed } from './evidence.js';
import { type RankedCause, rankCauses, type Verdict } from './rank.js';
import { recordEvidence } from './record-evidence.js';

export interface WhyQuestion {
  /** the look complained of: green, magenta, red, cyan, blue, yellow, orange, dark, light, flat */
  cast?: string;
  about?: 'cause' | 'change';
}

/** What a complaint says of the negative, as weak evidence: an eye saw it in some positive. */
const complaints: Readonly<Record<string, { id: EvidenceId; words: string }>> = {
  green: { id: 'cast-green', words: 'you see green' },
  magenta: { id: 'cast-magenta', words: 'you see magenta' },
  blue: { id: 'cast-blue', words: 'you see blue' },
  cyan: { id: 'red-flat', words: 'you see cyan' },
  red: { id: 'red-steep', words: 'you see red' },
  yellow: { id: 'blue-flat', words: 'you see yellow' },
  orange: { id: 'cast-orange', words: 'you see orange' },
  dark: { id: 'image-thin', words: 'you see a dark picture' },
  light: { id: 'image-dense', words: 'you see a light picture' },
  flat: { id: 'contrast-low', words: 'you see a flat picture' },
};
/** An eye's report counts this much of a measurement. source: common practice */
const BY_EYE = 0.5;

/** Everything known together; a scan's measurement stands before what an eye saw. */
export function allEvidence(
  history: RunHistory | null,
  scan: Observed | null,
  law: RateLaw,
  cast?: string,
): Observed {
  const seen = new Map<EvidenceId, Evidence>(history ? recordEvidence(history, law) : []);
  for (const [id, e] of scan ?? []) seen.set(id, e);
  const said = cast === undefined ? undefined : complaints[cast];
  if (said && !seen.has(said.id))
    seen.set(said.id, { id: said.id, value: BY_EYE, strength: BY_EYE, said: '', words: said.words });
  return seen;
}

/** "Why is it so green", "what went wrong", "what should I change": two sentences. */
export function answerWhy(
  history: RunHistory | null,
  scan: Observed | null,
  question: WhyQuestion,
  law: RateLaw,
): string {
  const verdict = rankCauses(allEvidence(history, scan, law, question.cast));
  if (question.about === 'change') return changeWords(verdict);
  const off = history === null ? [] : deviationsOf(history, law).map((d) => d.what);
  const closed = history?.closedBefore;
  const short = closed === undefined ? '' : `That run was closed before the ${closed}. `;
  return `${short}${causeWords(verdict, scan !== null, off)}`;
}

/** So many slips are named at a time. */
const NAMED = 4;

function causeWords(verdict: Verdict, scanned: boolean, off: readonly string[]): string {
  const [first, second] = verdict.ranked;
  const isQuiet = !first || verdict.nothingWrong >= first.probability;
  if (isQuiet && off.length > 0) {
    const more = off.length > NAMED ? `; and ${off.length - NAMED} more` : '';
    return `Not as the sheet has it: ${off.slice(0, NAMED).join('; ')}${more}.${scanned ? '' : ' A scan would tell what it did: tankside why --scan FILE.'}`;
  }
  if (isQuiet)
    return scanned
      ? `Record and scan show nothing out of the ordinary. ${testWords(verdict, 'To be sure')}`
      : `The record shows nothing out of the ordinary. A scan would tell more: tankside why --scan FILE.`;
  if (verdict.besides)
    return `Likely two things: ${first.name}, and ${verdict.besides.name}. ${testWords(verdict, 'To be sure')}`;
  if (verdict.tied.length > 0 && second)
    return `Likely ${first.name}, or ${second.name}. ${testWords(verdict, 'To find out')}`;
  return `${sure(first)} ${first.name}${because(first)}. ${testWords(verdict, 'To be sure')}`;
}

const changeWords = (verdict: Verdict): string => {
  const [first] = verdict.ranked;
  if (!first || verdict.nothingWrong >= first.probability)
    return `Nothing on record asks for a change. ${testWords(verdict, 'To be sure')}`;
  if (verdict.besides) return `${first.change}. Also: ${lower(verdict.besides.change)}.`;
  return `${first.change}. That answers the likeliest cause, ${Math.round(first.probability * 100)} in a hundred: ${first.name}.`;
};

const sure = (c: RankedCause): string =>
  c.probability > 0.85 ? 'Very likely' : c.probability > 0.6 ? 'Likely' : 'Perhaps';

const because = (c: RankedCause): string => (c.for.length === 0 ? '' : `: by the record ${c.for[0]?.words}`);

const testWords = (verdict: Verdict, lead: string): string =>
  verdict.nextTest
    ? `${lead}, ${verdict.nextTest.does.split(': ')[0]}.`
    : 'A control strip with the next film would tell more.';

const lower = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);
