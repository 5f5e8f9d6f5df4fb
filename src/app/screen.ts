import pc from 'picocolors';
import type { ReplyKind } from '../process/effect.js';
import type { Reply } from './assistant.js';

/** Colour says how much a line wants of the reader; without colour the word before it does. */
const looks: Record<ReplyKind, { mark: string; paint: (s: string) => string }> = {
  warning: { mark: 'WARNING', paint: (s) => pc.bold(pc.red(s)) },
  question: { mark: '?', paint: pc.yellow },
  call: { mark: 'NOW', paint: (s) => pc.bold(pc.green(s)) },
  answer: { mark: '', paint: (s) => s },
};

export function replyLine(reply: Reply): string {
  const { mark, paint } = looks[reply.kind];
  return paint(mark ? `${mark}  ${reply.text}` : reply.text);
}

export const aside = (text: string): string => pc.dim(text);
