import {
  createWarmDesk,
  seen,
  type WarmConfig,
  type WarmKept,
  type WarmState,
} from '../../src/app/desks/warm-desk.js';
import { phraseWarm } from '../../src/language/languages/english/phrases/warm.js';
import type { DeskEvent } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';
import { smallPlasticTank } from '../../src/thermal/tank.js';
import type { Fact } from '../../src/world/fact.js';
import { type TestTruth, truthOf } from '../process/truth.js';

export const warmConfig: WarmConfig = {
  liquids: {
    developer: { aimC: 41.1, lowC: 40.8, highC: 41.4, volumeMl: 1000, bottle: 1, material: 'glass' },
    bleach: { aimC: 39, lowC: 37, highC: 42, volumeMl: 1000, bottle: 2 },
    fixer: { aimC: 39, lowC: 37, highC: 42, volumeMl: 1000, bottle: 3 },
  },
  tub: { targetC: 41.3, waterMl: 10_000, heaterW: 1000 },
  rate: 'ecn-2',
  developS: 180,
  tank: { volumeMl: 600, build: smallPlasticTank, standsInTub: false },
};

const heard = { by: 'typed' as const, words: '', confidence: 1, close: [] };

/** The bottles of a bench as the sheet takes them for granted. */
const assumed = (config: WarmConfig): Fact[] =>
  Object.entries(config.liquids).flatMap(([liquid, { bottle, volumeMl }]): Fact[] =>
    bottle === undefined
      ? []
      : [{ type: 'bottle-set', bottle, liquid, volumeMl, capacityMl: volumeMl, assumed: true }],
  );

/** Drives the desk as the assistant does, and keeps its state as JSON between events. */
export class WarmBench {
  readonly desk;
  readonly truth: TestTruth;
  kept: WarmKept;
  wakeMs: number | null = null;
  readonly said: { atMin: number; kind: string; text: string }[] = [];
  /** what the desk told */
  readonly facts: Fact[] = [];

  constructor(readonly config: WarmConfig = warmConfig) {
    this.desk = createWarmDesk(config);
    this.kept = this.desk.initial;
    this.truth = truthOf(undefined, assumed(config));
  }

  /** With what the world says stands in each vessel. */
  get state(): WarmState {
    return seen(this.kept, this.truth.world);
  }

  /** One sentence of the user at `minute`; wakes due before it come first. Gives what was said in answer. */
  say(intent: Intent, minute: number): string[] {
    this.until(minute);
    return this.apply({ type: 'intent', intent, atMs: minute * 60_000, wallMs: 0, heard });
  }

  hear(fact: Fact, minute: number): string[] {
    this.until(minute);
    const moment = { atMs: minute * 60_000, wallMs: 0 };
    this.truth.at(moment).tell(fact);
    this.truth.news();
    return this.apply({ type: 'fact', fact, ...moment });
  }

  /** Lets time pass. */
  until(minute: number): string[] {
    const words: string[] = [];
    while (this.wakeMs !== null && this.wakeMs <= minute * 60_000) {
      const atMs = this.wakeMs;
      this.wakeMs = null;
      words.push(...this.apply({ type: 'time', atMs, wallMs: 0 }));
    }
    return words;
  }

  private apply(event: DeskEvent): string[] {
    const { state, effects } = this.desk.apply(this.kept, event, this.truth.at(event));
    this.kept = JSON.parse(JSON.stringify(state)) as WarmKept;
    this.facts.push(...this.truth.news());
    const words: string[] = [];
    for (const e of effects) {
      if (e.type === 'wake') this.wakeMs = e.atMs;
      if (e.type !== 'say') continue;
      const text = phraseWarm(e.message);
      words.push(text);
      this.said.push({ atMin: event.atMs / 60_000, kind: e.kind, text });
    }
    return words;
  }
}
