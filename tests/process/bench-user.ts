import type { DeskEvent, Heard } from '../../src/process/desk.js';
import type { Effect } from '../../src/process/effect.js';
import type { Intent } from '../../src/process/intent.js';
import type { RunMessage } from '../../src/process/message.js';
import { createRunDesk } from '../../src/process/run-desk.js';
import type { RunConfig, RunState } from '../../src/process/run-state.js';
import type { Fact } from '../../src/world/fact.js';
import type { World } from '../../src/world/records.js';
import { type TestTruth, truthOf } from './truth.js';

export type Said = { kind: string; message: RunMessage; dueMs: number; atMs: number };
export const typed: Heard = { by: 'typed', words: '', confidence: 1, close: [] };
export const bottle = (number: number) => ({ kind: 'bottle', number }) as const;

/** Someone at the sink: says things, lets time pass, and keeps what was answered. */
export class BenchUser {
  readonly desk;
  state: RunState;
  atMs = 0;
  readonly events: DeskEvent[] = [];
  readonly effects: Effect<RunMessage>[] = [];
  readonly truth: TestTruth = truthOf();
  readonly wallMs = Date.UTC(2030, 0, 5, 9, 0, 0);

  constructor(config: Partial<RunConfig> = {}) {
    this.desk = createRunDesk(config);
    this.state = this.desk.initial;
  }

  /** Somebody else who stands where this one does: what either says is nothing to the other. */
  copy(): BenchUser {
    const { facts, world } = this.truth;
    const truth = truthOf(world);
    truth.facts.push(...facts);
    truth.news();
    const own = { events: [...this.events], effects: [...this.effects], truth };
    return Object.assign(Object.create(BenchUser.prototype) as BenchUser, this, own);
  }

  get world(): World {
    return this.truth.world;
  }
  get context() {
    return this.state.position.context;
  }

  give(event: DeskEvent): Said[] {
    this.events.push(event);
    const truth = this.truth.at(event);
    if (event.type === 'fact') truth.tell(event.fact);
    const { state, effects } = this.desk.apply(this.state, event, truth);
    this.state = state;
    this.effects.push(...effects);
    return effects.flatMap((e) =>
      e.type === 'say' ? [{ kind: e.kind, message: e.message, dueMs: e.dueMs, atMs: this.atMs }] : [],
    );
  }
  say(intent: Intent, heard: Partial<Heard> = {}): Said[] {
    return this.give({
      type: 'intent',
      intent,
      atMs: this.atMs,
      wallMs: this.wallMs + this.atMs,
      heard: { ...typed, ...heard },
    });
  }
  /** Lets time pass, waking the desk when it asked for it. */
  wait(seconds: number): Said[] {
    const endMs = this.atMs + seconds * 1000;
    const said: Said[] = [];
    while (this.state.wakeMs !== null && this.state.wakeMs <= endMs) {
      this.atMs = Math.max(this.atMs, this.state.wakeMs);
      said.push(...this.give({ type: 'time', atMs: this.atMs, wallMs: this.wallMs + this.atMs }));
    }
    this.atMs = endMs;
    return said;
  }
  fact(fact: Fact): Said[] {
    return this.give({ type: 'fact', fact, atMs: this.atMs, wallMs: this.wallMs + this.atMs });
  }
  facts<T extends Fact['type']>(type: T): Extract<Fact, { type: T }>[] {
    return this.truth.facts.flatMap((f) => (f.type === type ? [f as Extract<Fact, { type: T }>] : []));
  }
  /** Started, warmed, film in the tank, first step due. */
  ready(sheet?: string): this {
    this.say({ type: 'begin-run', ...(sheet && { sheet }) });
    this.say({ type: 'next-step' });
    this.say({ type: 'next-step' });
    this.say({ type: 'film-loaded' });
    return this;
  }
  /** Asks, pours, waits out the time, drains and pours back: one bath as it should go. */
  bath(liquid: string, number: number, seconds: number): this {
    this.say({ type: 'pour-in', liquid, from: bottle(number) });
    this.say({ type: 'bath-in', liquid });
    this.wait(seconds);
    this.say({ type: 'pour-back', liquid, to: bottle(number) });
    this.say({ type: 'tank-empty' });
    return this;
  }
  water(seconds: number): this {
    this.say({ type: 'bath-in', liquid: 'water' });
    this.wait(seconds);
    this.say({ type: 'tank-empty' });
    return this;
  }
}

export const ids = (said: Said[]): string[] => said.map((s) => s.message.id);
