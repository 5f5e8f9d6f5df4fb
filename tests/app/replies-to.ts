import type { Reply } from '../../src/app/assistant.js';
import type { Bench } from '../../src/app/bench.js';
import { playScript } from '../../src/app/play-script.js';
import { readScript } from '../../src/app/script.js';

/** All answers and calls to typed lines (and “+90s” between them) on the simulated clock. */
export async function repliesTo(bench: Bench, lines: readonly string[]): Promise<Reply[]> {
  const read = readScript(lines.join('\n'));
  if ('problem' in read) throw new Error(read.problem);
  const replies: Reply[] = [];
  await playScript(read.steps, {
    bench,
    folder: '.',
    ear: () => Promise.reject(new Error('No ear is needed.')),
    events: { replied: ({ reply }) => replies.push(reply) },
  });
  return replies;
}
