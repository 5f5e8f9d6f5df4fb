import type { TimerMessage } from '../../../../process/timer-desk.js';
import { type PhrasesOf, phraseOf } from '../../phrases.js';
import { spokenDuration } from './units.js';

/** What is said of reminders and plain timers. */
export const phraseTimers = (m: TimerMessage): string => phraseOf(phrases, m, 'id');
const about = (text: string | undefined): string => (text === undefined ? '' : ` to ${text}`);

const phrases: PhrasesOf<TimerMessage> = {
  'timer-set': (m) => `In ${spokenDuration(m.forS)} I remind you${about(m.text)}.`,
  'timer-due': (m) =>
    m.text === undefined
      ? `Your ${spokenDuration(m.forS)} are up.`
      : `Reminder: ${m.text.replace(/^to /, '')}.`,
  'timer-when': () => 'In how long? Say, for example, remind me in ten minutes.',
  timers: (m) =>
    m.left.length === 0
      ? 'No reminder is set.'
      : `${m.left.map((t) => `In ${spokenDuration(t.leftS)}${t.text === undefined ? '' : `: ${t.text}`}`).join('. ')}.`,
  'timers-cancelled': (m) =>
    m.count === 0
      ? 'There is no such reminder.'
      : m.count === 1
        ? 'The reminder is cancelled.'
        : `${m.count} reminders are cancelled.`,
  'too-many-timers': (m) => `${m.most} reminders are set already. Cancel one first.`,
};
