import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import { runOf } from '../world/run-record.js';
import type { Heard, Truth } from './desk.js';
import { type Due, dueOf } from './due.js';
import type { Effect, ReplyKind } from './effect.js';
import type { GuardView } from './guard.js';
import { liquidName } from './guard-checks.js';
import { questionOpens } from './left-open.js';
import { placeOf, type RunContext, type RunEvent, type RunPlace, step } from './machine.js';
import type { Named, RunMessage } from './message.js';
import type { Question } from './pending.js';
import { guardView, type RunConfig, type RunState, type Sheets } from './run-state.js';
import type { ProcessSheet } from './sheet.js';
import { type BathClock, bathClock } from './timing.js';

/** An event that came without words. */
export const notHeard: Heard = { by: 'typed', words: '', confidence: 1, close: [] };

/** One event at work: gathers the next state and the effects. Lives only inside one `apply`. */
export class Turn {
  state: RunState;
  readonly effects: Effect<RunMessage>[] = [];
  readonly told: Fact[] = [];

  constructor(
    state: RunState,
    readonly truth: Truth,
    readonly atMs: number,
    readonly wallMs: number,
    readonly heard: Heard,
    /** a yes in this event answers no question of ours */
    readonly late: boolean,
    readonly config: RunConfig,
    readonly sheets: Sheets,
  ) {
    this.state = state;
  }

  get world(): World {
    return this.truth.world;
  }
  get sheet(): ProcessSheet {
    return this.sheets.of(this.world, this.state.sheetId);
  }
  get context(): RunContext {
    return this.state.position.context;
  }
  get place(): RunPlace {
    return placeOf(this.state.position);
  }
  get isActive(): boolean {
    return this.place !== 'idle' && this.place !== 'closed';
  }
  get due(): Due {
    return dueOf(this.world.film, this.sheet);
  }
  get clock(): BathClock | null {
    return bathClock(this.world, this.sheet, this.context.addedS);
  }
  get tankMl(): number {
    return this.world.tankMl ?? this.config.tankMl;
  }
  get view(): GuardView {
    return guardView(this.state.position, this.world, this.sheet, this.config, this);
  }
  /** Heard too badly to act on. */
  get unsure(): boolean {
    return this.heard.by === 'voice' && !(this.heard.confidence >= this.config.confidenceFloor);
  }
  get runId(): { runId?: string } {
    return runOf(this.world);
  }

  set(change: Partial<RunState>): void {
    this.state = { ...this.state, ...change };
  }
  send(event: RunEvent): void {
    this.set({ position: step(this.sheets.machine(this.sheet), this.state.position, event) });
  }
  say(kind: ReplyKind, message: RunMessage, dueMs = this.atMs): void {
    this.effects.push({ type: 'say', kind, message, dueMs });
  }
  /** Asks, and keeps what a confirm would mean. */
  ask(pending: Question, kind: ReplyKind, message: RunMessage): void {
    const asked = { ...pending, askedMs: this.atMs };
    this.send({ type: 'CHALLENGE', pending: asked });
    for (const fact of questionOpens(this.world, asked)) this.fact(fact);
    this.say(kind, message);
  }
  fact(fact: Fact): void {
    this.truth.tell(fact);
    this.told.push(fact);
  }
  /** Marks this turn as something the user did, so that undo can take it back. */
  did(): void {
    this.effects.push({ type: 'did' });
  }
  named(id: string): Named {
    return { id, name: liquidName(this, id) };
  }
  /** `reasons`: what spoke against it. */
  deviate(
    what: string,
    stepId = this.world.tank.bath?.stepId ?? this.due.step?.id,
    reasons: readonly string[] = [],
  ): void {
    const run = this.world.run;
    if (run === null || stepId == null) return;
    const why = reasons.length > 0 && { reasons };
    this.fact({ type: 'deviation', runId: run.runId, stepId, what, ...why });
  }
}
