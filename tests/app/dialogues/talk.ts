import { type Bench, createBench } from '../../../src/app/bench.js';
import { playScript } from '../../../src/app/play-script.js';
import { readScript } from '../../../src/app/script.js';
import type { ReplyKind } from '../../../src/process/effect.js';

/** What one typed line brought: the intent it was taken for, and what was said until the next line. */
export interface Turn {
  line: string;
  intent: string;
  replies: { kind: ReplyKind; text: string; atS: number }[];
}

export class Dialogue {
  constructor(readonly turns: readonly Turn[]) {}

  /** The answers to the nth line that reads so, counted from 1. */
  to(line: string, nth = 1): Turn {
    const found = this.turns.filter((t) => t.line === line)[nth - 1];
    if (!found) throw new Error(`the script has no line “${line}” number ${nth}`);
    return found;
  }
  text(line: string, nth = 1): string {
    return this.to(line, nth)
      .replies.map((r) => r.text)
      .join(' ');
  }
  kind(line: string, nth = 1): ReplyKind | undefined {
    return this.to(line, nth).replies[0]?.kind;
  }
  get everything(): string {
    return this.turns.flatMap((t) => t.replies.map((r) => r.text)).join('\n');
  }
}

/** Pure parts, shared: a bench keeps nothing between conversations. */
const benches = new Map<string, Bench>();

/** Plays typed lines (and “+90s” between them) on the simulated clock through the whole assistant. */
export async function talk(script: string, sheet = 'ecn2-ferricyanide'): Promise<Dialogue> {
  const read = readScript(script);
  if ('problem' in read) throw new Error(read.problem);
  const turns: Turn[] = [];
  let early: Turn['replies'] = [];
  const bench = benches.get(sheet) ?? createBench({ sheet });
  benches.set(sheet, bench);
  await playScript(read.steps, {
    bench,
    folder: '.',
    ear: () => Promise.reject(new Error('these scripts are typed')),
    events: {
      // replies to a line come before the line itself is reported; calls come while time passes
      typed: (line, taken) => {
        turns.push({ line, intent: taken.done === 'acted' ? taken.intent.type : taken.done, replies: early });
        early = [];
      },
      replied: ({ reply, deliveredAtMs }) => {
        early.push({ kind: reply.kind, text: reply.text, atS: deliveredAtMs / 1000 });
      },
    },
  });
  return new Dialogue(turns);
}

/** Film loaded, prebath and backing done: the developer is due. */
export const upToDeveloper = `
start a run
next
next
film loaded
prebath in
+10s
back into bottle 1
tank empty
water in
+30s
tank empty
`;
