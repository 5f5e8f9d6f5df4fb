import type { MixMessage } from '../../chemistry/coach/messages.js';
import type { Person } from '../../chemistry/safety/first-aid.js';
import type { BottlesMessage } from '../../ledger/messages.js';
import type { Situation } from '../../process/desk.js';
import type { Intent, IntentOf } from '../../process/intent.js';
import type { RunMessage } from '../../process/message.js';
import type { ProcessSheet } from '../../process/sheet.js';
import type { TimerMessage } from '../../process/timer-desk.js';
import type { Interpretation } from '../interpretation.js';
import type { Grammars } from '../load.js';
import type { WarmMessage } from './english/phrases/warm-message.js';

/** ISO 639-1 */
export type LanguageCode = 'en' | 'de';

/** One language: how what is typed in it is read, and its words for everything that is said and shown. Beside it stand its grammars. */
export interface Words {
  readonly code: LanguageCode;
  /** whether the voice and the ears have it */
  readonly spoken: boolean;
  /** the folder of its own grammars, whose rules are added to the English ones */
  readonly grammars?: string;
  typed(
    line: string,
    situations: readonly Situation[],
    grammars: Grammars,
    due?: readonly Intent[],
  ): Interpretation;
  /** of whom a line tells that is hurt or well; undefined: of all, or of nobody by himself */
  whoIsHurt(line: string, told: IntentOf<'hurt' | 'spill'>): Person | undefined;
  /** of which film a question is, by its place among those of the day */
  whichFilm?(line: string): Pick<IntentOf<'ask-why'>, 'film'>;
  describe(intent: Intent): string;
  help(situations: readonly Situation[], grammars: Grammars, topic?: string): { text: string; more: string };
  readonly desks: {
    run(message: RunMessage): string;
    mix(message: MixMessage): string;
    /** what "more" says of it; null: that was all */
    moreOfMix(message: MixMessage): string | null;
    warm(message: WarmMessage): string;
    bottles(message: BottlesMessage): string;
    timers(message: TimerMessage): string;
  };
  /** of taking back, doing again and putting right */
  readonly assistant: {
    describe(intent: Intent): string;
    undone(what: string): string;
    redone(what: string): string;
    corrected(what: string): string;
    nothingTo(what: 'undo' | 'redo' | 'correct'): string;
    stopsClock(what: string, seconds: number): string;
    asksIfMeant(said: string, meant: string): string;
    kept(): string;
  };
  /** of what needs no desk, where the language has its own; English has its records' */
  talk?(intent: Intent, sheet: ProcessSheet): string | null;
  /** how several meanings are told apart by their place */
  readonly ordinals: readonly string[];
  /** the place or the number in an answer to which of several was meant */
  readonly choice: RegExp;
  /** asks which of these was meant; `again`: before something else is done or answered */
  didYouMean(said: readonly string[], typed: boolean, again: boolean): string;
  /** says what of a line was not taken, in its own words */
  leftOut(words: string): string;
  /** asks, behind what is done, whether this was told as well */
  alsoMean(said: string): string;
  /** offers, behind an answer, what else may have been asked; `said`: the answered meaning first */
  orDidYouMean(said: readonly string[]): string;
  readonly thatWasAll: string;
  readonly nothingChanged: string;
  /** a pour that waited for an answer, by its bath where that is known */
  notCleared(bath?: string): string;
  /** texts of the screens, by their English; `{}` stands for a name or a number. What is not there stays English */
  readonly screen: Readonly<Record<string, string>>;
  /** a bath by its id, and as its sheet names it */
  bath(id: string, name: string): string;
}
