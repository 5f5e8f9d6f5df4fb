import pc from 'picocolors';
import type { ReplyKind } from '../process/effect.js';
import type { ScreenLine } from '../screen/view.js';
import type { Reply } from './assistant.js';

/** Colour says how much a line wants of the reader; without colour the word before it does. */
const looks: Record<ReplyKind, { mark: string; paint: (s: string) => string }> = {
  warning: { mark: 'WARNING', paint: (s) => pc.bold(pc.red(s)) },
  question: { mark: '?', paint: pc.yellow },
  call: { mark: 'NOW', paint: (s) => pc.bold(pc.green(s)) },
  answer: { mark: '', paint: (s) => s },
};

export function replyLine(reply: Pick<Reply, 'kind' | 'text'>): string {
  const { mark, paint } = looks[reply.kind];
  const text = spelled(reply.text);
  return paint(mark ? `${mark}  ${text}` : text);
}

/** A line of the conversation as plain text for a pipe or a simple terminal. */
export function plainLine({ kind, text }: ScreenLine): string {
  if (kind === 'aside') return aside(text);
  if (kind === 'you') return aside(`> ${text}`);
  return kind === 'picture' ? text : replyLine({ kind, text });
}

export const aside = (text: string): string => pc.dim(spelled(text));

/** C0 and C1 controls but tab and line feed, and the marks that turn the direction of writing. */
const steering =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /\u001b\[(?:1|2|22|3[1239])m|[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

const asNumber = (c: string): string => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** Words of people and files before they are painted: no escape of theirs passes, not even a colour. */
const spelled = (text: string): string => text.replaceAll('\u001b', asNumber);

/**
 * Text as it may be printed: what comes from notes, names and files could steer the terminal, so what would is shown
 * as its number. Colours alone, as this file sets them, pass.
 */
export const harmless = (text: string): string =>
  text.replace(steering, (c) => (c.length > 1 ? c : asNumber(c)));

/** Makes all that is printed through the console harmless, whichever command prints it. */
export function harmlessConsole(): void {
  for (const way of ['log', 'error'] as const) {
    const print = console[way].bind(console);
    console[way] = (...parts: unknown[]) =>
      print(...parts.map((part) => (typeof part === 'string' ? harmless(part) : part)));
  }
}
