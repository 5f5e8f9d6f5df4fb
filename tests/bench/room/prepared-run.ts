import { createBench } from '../../../src/app/bench.js';
import { SimulatedClock } from '../../../src/app/clock.js';
import { Conversation } from '../../../src/app/conversation.js';
import { Hushed } from '../../../src/app/live.js';
import { letTimePass } from '../../../src/app/play-script.js';
import type { NewEntry } from '../../../src/ledger/entry.js';
import { openJournal } from '../../../src/ledger/journal.js';
import { isProblem } from '../../../src/ledger/problem.js';
import { systemMoment } from '../../../src/ledger/system-clock.js';
import type { ScriptLine } from './rehearsal-script.js';

/** what a sentence takes when it is said: itself, its answer and the quiet between, about, s */
const SENTENCE_S = 11;

/** What has been done when a part of the run begins, and what is said in it. */
export interface RunPart {
  before: readonly ScriptLine[];
  lines: readonly ScriptLine[];
}

/** One of so many parts, about as long as each other. Each begins where the script lets time pass. */
export function partOf(script: readonly ScriptLine[], part: number, parts: number): RunPart {
  const seconds = script.map((line) => ('waitS' in line ? line.waitS : SENTENCE_S));
  const whole = seconds.reduce((sum, s) => sum + s, 0);
  const begins = Array.from({ length: parts + 1 }, (_, i) => (i === parts ? script.length : 0));
  let passed = 0;
  for (const [i, line] of script.entries()) {
    const next = begins.indexOf(0, 1);
    if (next > 0 && 'waitS' in line && passed >= (whole * next) / parts - SENTENCE_S) begins[next] = i;
    passed += seconds[i] ?? 0;
  }
  const [from, to] = [begins[part] ?? 0, begins[part + 1] ?? script.length];
  return { before: script.slice(0, from), lines: script.slice(from, to) };
}

/**
 * Leaves in `folder` the journal of a run in which these lines were typed, the last of them just now.
 * @throws Error when the journal cannot be written
 */
export function prepareRun(folder: string, lines: readonly ScriptLine[]): void {
  const bench = createBench({ sheet: 'ecn2-ferricyanide' });
  const ms = 1_000 * lines.reduce((sum, line) => sum + ('waitS' in line ? line.waitS : 0), 0);
  const clock = new SimulatedClock(Date.now() - ms);
  const { upMs, bootId } = systemMoment();
  const entries: NewEntry[] = [];
  const conversation = new Conversation({
    ...bench,
    clock,
    speech: new Hushed(),
    journal: {
      append(event, facts) {
        const source = event.type === 'intent' ? 'typed' : event.type === 'time' ? 'clock' : 'command';
        entries.push({ event, source, facts, upMs: upMs - (ms - event.atMs), bootId });
        return null;
      },
    },
  });
  for (const line of lines)
    if ('waitS' in line) letTimePass(conversation, clock, 1_000 * line.waitS);
    else conversation.typed(line.words);
  const journal = openJournal(folder, { stateVersion: '2', assumed: bench.assumed });
  if (isProblem(journal)) throw new Error(journal.sentence);
  const written = journal.append(entries);
  if (isProblem(written)) throw new Error(written.sentence);
  journal.close();
}
