import { basename, resolve } from 'node:path';
import type { Hearing } from '../language/types.js';
import type { Reply } from './assistant.js';
import type { Bench } from './bench.js';
import { SimulatedClock } from './clock.js';
import { Conversation, type Taken } from './conversation.js';
import type { SituatedEar } from './hearing.js';
import { PrintedSpeech } from './printed-speech.js';
import type { ScriptStep } from './script.js';

/** A reply, and when it really came on the simulated clock. */
export interface Delivered {
  reply: Reply;
  deliveredAtMs: number;
}

/** What happened while a script was played, for a screen or a check. */
export interface PlayEvents {
  /** what is typed or was heard, before anything is answered */
  line?(shown: string): void;
  typed?(line: string, taken: Taken, atMs: number): void;
  heard?(file: string, hearing: Hearing, taken: Taken, atMs: number): void;
  replied?(delivered: Delivered): void;
}

export interface PlayOptions {
  bench: Bench;
  /** `hear:` paths are relative to this */
  folder: string;
  /** made at the first `hear:` line, so that a typed script needs no model */
  ear: () => Promise<SituatedEar>;
  events: PlayEvents;
}

/** Plays a script to its end on a simulated clock; every call comes at its own time. */
export async function playScript(steps: readonly ScriptStep[], options: PlayOptions): Promise<Conversation> {
  const { bench, events } = options;
  const { hearFile, wordsOf } = await import('./hearing.js');
  const clock = new SimulatedClock();
  const replied = (reply: Reply): void => events.replied?.({ reply, deliveredAtMs: clock.nowMs() });
  const conversation = new Conversation({
    ...bench,
    clock,
    journal: { append: () => null },
    speech: new PrintedSpeech(replied, clock),
  });
  let ear: SituatedEar | null = null;
  for (const step of steps) {
    if (step.do === 'wait') letTimePass(conversation, clock, step.ms);
    else if (step.do === 'type') {
      events.line?.(step.line);
      const taken = conversation.typed(step.line);
      events.typed?.(step.line, taken, clock.nowMs());
    } else {
      ear ??= await options.ear();
      const path = resolve(options.folder, step.file);
      const hearing = await hearFile(ear, path, conversation.situations());
      const words = (hearing.accepted || hearing.open ? wordsOf(hearing) : hearing.why) ?? 'no command';
      events.line?.(`(${basename(path)}) ${words}`);
      const taken = hearing.open ? conversation.heardOpenly(hearing) : conversation.heard(hearing);
      events.heard?.(basename(path), hearing, taken, clock.nowMs());
    }
  }
  await ear?.close();
  return conversation;
}

/** Visits every deadline on the way. */
export function letTimePass(conversation: Conversation, clock: SimulatedClock, ms: number): void {
  const until = clock.nowMs() + ms;
  for (;;) {
    const due = conversation.nextWakeMs();
    if (due === null || due > until) break;
    clock.moveTo(due);
    conversation.timePassed();
    if (conversation.nextWakeMs() === due)
      throw new Error(`the deadline at ${due} ms was met but is still due`);
  }
  clock.moveTo(until);
}
