import { isGuarded } from '../language/interpret.js';
import type { Intent } from '../process/intent.js';

/** What is known of an utterance besides its words. */
export interface Circumstances {
  intent: Intent;
  /** 0 to 1, 0.5 is the recogniser's own line between a command and none */
  confidence: number;
  words: string;
  /** the assistant was speaking, or just had been */
  overVoice: boolean;
  /** what it was saying then; empty when nothing */
  ownWords: string;
  /** since it last asked or warned, ms; infinite when it never did */
  sinceAskedMs: number;
  /** other talk goes on in the room */
  talk: boolean;
  /** the call word was said, or the key held */
  called: boolean;
}

/** `ask`: whether that was meant; `pass`: as if nothing had been said. */
export type Verdict = 'act' | 'ask' | 'pass';

/** so much other talk in half a minute is a radio, or people who do not mean the assistant, s */
const TALK_S = 6;
/** an answer comes within so long of its question, ms */
const ANSWER_WITHIN_MS = 20_000;
const ANSWER_IN_TALK_MS = 8_000;

/**
 * How sure it must be. Questions are answered as soon as the recogniser takes them for a command; what advances,
 * confirms or ends anything needs more; over its own voice, or where talk goes on, more again.
 */
const LEAST = {
  question: { plain: 0.5, overVoice: 0.55, talk: 0.85 },
  steering: { plain: 0.6, overVoice: 0.75 },
  confirm: { plain: 0.6, talk: 0.8 },
} as const;

/** What changes no step, liquid or record that cannot be said again. */
const HARMLESS = new Set<Intent['type']>(['quiet', 'stop', 'say-again', 'withdraw', 'cancel']);

const steers = (intent: Intent): boolean =>
  (isGuarded(intent) && !HARMLESS.has(intent.type)) ||
  /^(begin|close|hold|resume|start|add|film|mix|bottle|several|correct|poured|redo|undo)/.test(intent.type);

/** Whether to act on what was heard. Typed lines never come here. */
export function weigh(c: Circumstances): Verdict {
  const { intent, confidence, words, overVoice, talk } = c;
  if (c.called) return 'act';
  if (intent.type === 'quiet' || intent.type === 'stop')
    return !talk || overVoice || confidence >= 0.8 ? 'act' : 'pass';
  if (intent.type === 'confirm') return confirms(c);
  if (steers(intent)) {
    if (talk) return 'ask';
    if (overVoice && c.ownWords.toLowerCase().includes(words)) return 'ask';
    return confidence >= (overVoice ? LEAST.steering.overVoice : LEAST.steering.plain) ? 'act' : 'ask';
  }
  const least = talk ? LEAST.question.talk : overVoice ? LEAST.question.overVoice : LEAST.question.plain;
  return confidence >= least ? 'act' : 'pass';
}

function confirms(c: Circumstances): Verdict {
  const { talk } = c;
  if (c.sinceAskedMs > (talk ? ANSWER_IN_TALK_MS : ANSWER_WITHIN_MS)) return 'pass';
  if (talk && !/\bconfirm\b/.test(c.words)) return 'pass';
  return c.confidence >= (talk ? LEAST.confirm.talk : LEAST.confirm.plain) ? 'act' : 'ask';
}

/** How much talk that was no command went on within the last half minute. Times are monotonic, ms. */
export class TalkMeter {
  #talk: { endMs: number; lengthMs: number }[] = [];

  /** Speech that was no command. */
  heard(startMs: number, endMs: number): void {
    this.#talk.push({ endMs, lengthMs: endMs - startMs });
  }

  goesOn(nowMs: number): boolean {
    this.#talk = this.#talk.filter(({ endMs }) => nowMs - endMs < 30_000);
    return this.#talk.reduce((sum, { lengthMs }) => sum + lengthMs, 0) / 1000 >= TALK_S;
  }
}
