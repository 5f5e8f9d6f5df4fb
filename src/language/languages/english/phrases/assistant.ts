import type { Intent } from '../../../../process/intent.js';
import { describeIntent } from '../describe.js';
import { spokenDuration } from './units.js';

/** What is said of taking back, doing again and putting right. */
export const assistantWords = {
  describe: (intent: Intent): string => describeIntent(intent),
  undone: (what: string): string => `Undone: ${what}.`,
  redone: (what: string): string => `Done again: ${what}.`,
  corrected: (what: string): string => `Put right: ${what}.`,
  nothingTo: (what: 'undo' | 'redo' | 'correct'): string =>
    ({
      undo: 'There is nothing to undo.',
      redo: 'There is nothing to do again.',
      correct: 'I do not know what to put right. Say it again as it should be.',
    })[what],
  stopsClock: (what: string, seconds: number): string =>
    `That would take back: ${what}, and its clock, ${spokenDuration(seconds)} so far. The bath keeps working. Confirm, or cancel.`,
  asksIfMeant: (said: string, meant: string): string =>
    `You said: ${said}. Was it: ${meant}? That would do harm, and it is out again. Confirm that it was so, or cancel.`,
  kept: (): string => 'Left as it was.',
};
