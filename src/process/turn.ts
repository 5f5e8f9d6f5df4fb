import type { Fact } from '../world/fact.js';
import type { Heard } from './desk.js';
import type { Effect, ReplyKind } from './effect.js';
import type { GuardView } from './guard.js';
import { placeOf, type RunContext, type RunEvent, type RunPlace, step } from './machine.js';
import type { RunMessage } from './message.js';
import {
  type DeedId,
  guardView,
  type RunConfig,
  type RunCore,
  type RunState,
  type Sheets,
} from './run-state.js';
import type { ProcessSheet, SheetStep } from './sheet.js';

/** How many deeds can be undone. */
const undoDepth = 30;

/** One event at work: gathers the next state and the effects. Lives only inside one `apply`. */
export class Turn {
  core: RunCore;
  readonly effects: Effect<RunMessage>[] = [];
  readonly #before: RunCore;
  readonly #facts: Fact[] = [];
  #deed: DeedId | null = null;
  #undo: RunState['undo'];
  #undid = false;

  constructor(
    state: RunState,
    readonly atMs: number,
    readonly wallMs: number,
    readonly heard: Heard,
    readonly config: RunConfig,
    readonly sheets: Sheets,
  ) {
    this.core = state.core;
    this.#before = state.core;
    this.#undo = state.undo;
  }

  get sheet(): ProcessSheet {
    return this.sheets.get(this.core.sheetId);
  }
  get context(): RunContext {
    return this.core.position.context;
  }
  get place(): RunPlace {
    return placeOf(this.core.position);
  }
  get dueStep(): SheetStep | undefined {
    return this.sheet.steps[this.context.stepIndex];
  }
  get view(): GuardView {
    return guardView(this.core, this.sheet, this.config, this.atMs);
  }
  get runId(): { runId?: string } {
    return this.core.runId === null ? {} : { runId: this.core.runId };
  }

  set(change: Partial<RunCore>): void {
    this.core = { ...this.core, ...change };
  }
  send(event: RunEvent): void {
    this.set({ position: step(this.sheets.machine(this.core.sheetId), this.core.position, event) });
  }
  say(kind: ReplyKind, message: RunMessage, dueMs = this.atMs): void {
    this.effects.push({ type: 'say', kind, message, dueMs });
  }
  fact(fact: Fact): void {
    this.#facts.push(fact);
    this.effects.push({ type: 'fact', fact });
  }
  /** Marks this turn as something the user did, so that undo can take it back. The last mark names it. */
  deed(what: DeedId): void {
    this.#deed = what;
  }

  /** Takes back the newest deed; null when there is none. */
  undo(): { what: DeedId; facts: Fact[] } | null {
    const entry = this.#undo.at(-1);
    if (!entry) return null;
    this.#undo = this.#undo.slice(0, -1);
    this.#undid = true;
    this.core = entry.core;
    return { what: entry.what, facts: entry.facts };
  }

  finish(wakeBefore: number | null, wakeMs: number | null): RunState {
    if (wakeMs !== wakeBefore) this.effects.push({ type: 'wake', atMs: wakeMs });
    return { core: this.core, undo: this.#nextUndo(), wakeMs };
  }

  #nextUndo(): RunState['undo'] {
    if (this.#deed !== null) {
      // a question left open before the deed is not asked again by undoing it
      const entry = { what: this.#deed, core: this.#before, facts: this.#facts };
      return [...this.#undo, entry].slice(-undoDepth);
    }
    const last = this.#undo.at(-1);
    if (!last || this.#undid || this.#facts.length === 0) return this.#undo;
    return [...this.#undo.slice(0, -1), { ...last, facts: [...last.facts, ...this.#facts] }];
  }
}
