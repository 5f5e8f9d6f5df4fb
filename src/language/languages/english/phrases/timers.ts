import type { TimerMessage } from '../../../../process/timer-desk.js';
import { spokenDuration } from './units.js';

/** What is said of reminders and plain timers. */
export function phraseTimers(m: TimerMessage): string {
  const about = (text: string | undefined): string => (text === undefined ? '' : ` to ${text}`);
  switch (m.id) {
    case 'timer-set':
      return `In ${spokenDuration(m.forS)} I remind you${about(m.text)}.`;
    case 'timer-due':
      return m.text === undefined
        ? `Your ${spokenDuration(m.forS)} are up.`
        : `Reminder: ${m.text.replace(/^to /, '')}.`;
    case 'timer-when':
      return 'In how long? Say, for example, remind me in ten minutes.';
    case 'timers':
      return m.left.length === 0
        ? 'No reminder is set.'
        : `${m.left.map((t) => `In ${spokenDuration(t.leftS)}${t.text === undefined ? '' : `: ${t.text}`}`).join('. ')}.`;
    case 'timers-cancelled':
      return m.count === 0
        ? 'There is no such reminder.'
        : m.count === 1
          ? 'The reminder is cancelled.'
          : `${m.count} reminders are cancelled.`;
    case 'too-many-timers':
      return `${m.most} reminders are set already. Cancel one first.`;
  }
}
