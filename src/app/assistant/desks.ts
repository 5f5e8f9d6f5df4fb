import type { Desk, DeskEvent, DeskId, Said, Situation, Truth } from '../../process/desk.js';
import type { Effect, MessageLike } from '../../process/effect.js';
import type { Intent } from '../../process/intent.js';
import type { Fact } from '../../world/fact.js';
import type { World } from '../../world/records.js';
import { fold } from '../../world/reduce.js';
import type { LiquidId } from '../../world/vessel.js';
import type { Core, Reply } from '../assistant.js';
import { addressees, type OpenSituations } from '../routing.js';

/** A desk together with the words for its messages. */
export interface Post<S = unknown, M extends MessageLike = MessageLike> {
  desk: Desk<S, M>;
  phrase(message: M): string;
  /** what it leaves for "more"; null: nothing */
  more?(message: M): string | null;
}

/** What one event brought. */
export interface Step {
  core: Core;
  replies: Reply[];
  facts: Fact[];
  /** the user did something by it */
  deed: boolean;
}

/** Facts may lead to facts; a chain longer than this is a defect, not a conversation. */
const maxFactRounds = 8;

/** The desks as one: an event goes to those that it is for, and the facts that come of it to the others, in the order of `posts`. */
export class Desks {
  readonly initial: Core;
  readonly #posts: readonly Post[];
  readonly #order: readonly DeskId[];

  constructor(posts: readonly Post[], world: World) {
    this.#posts = posts;
    this.#order = posts.map((p) => p.desk.id);
    this.initial = {
      world,
      desks: record(posts, (p) => p.desk.initial),
      wakes: record(posts, () => null),
      asking: null,
      askedLongAgo: false,
      atWork: null,
    };
  }

  situations(at: Core): Situation[] {
    return Object.values(this.#open(at)).flat();
  }

  /** What would be said next if all goes as it should, likeliest first. */
  due(at: Core): Intent[] {
    return this.#posts.flatMap((p) => p.desk.due?.(stateOf(at, p), at.world) ?? []);
  }

  run(before: Core, event: DeskEvent): Step {
    const step: Step = {
      core: { ...coreOf(before), desks: { ...before.desks }, wakes: { ...before.wakes } },
      replies: [],
      facts: [],
      deed: false,
    };
    if (event.type === 'intent' && event.intent.type === 'several')
      for (const intent of event.intent.intents) merge(step, this.run(step.core, { ...event, intent }));
    else if (event.type === 'intent')
      this.#through(before, { ...event, intent: asItIs(event.intent, before.world) }, step);
    else this.#through(before, event, step);
    return step;
  }

  #through(before: Core, event: DeskEvent, step: Step): void {
    const { atMs, wallMs, past } = event;
    const told: { fact: Fact; by: DeskId | null; world: World }[] = [];
    const tell = (said: Fact, by: DeskId | null) => {
      const fact = inRun(said, step.core.world);
      step.core.world = fold(step.core.world, { fact, atMs, wallMs });
      step.facts.push(fact);
      told.push({ fact, by, world: step.core.world });
    };
    /** `asOf`: the world as it was right after the fact that is told, until the desk tells one itself. */
    const through = (post: Post, one: DeskEvent, asOf?: World) => {
      let seen = asOf;
      const truth: Truth = {
        get world() {
          return seen ?? step.core.world;
        },
        tell: (fact) => {
          tell(fact, post.desk.id);
          seen = undefined;
        },
      };
      const { state, effects } = post.desk.apply(stateOf(step.core, post), one, truth);
      step.core.desks[post.desk.id] = state;
      file(step, post, effects, one.past === true);
    };
    if (event.type === 'fact') tell(event.fact, null);
    else {
      const targets = event.type === 'intent' ? this.#addressees(event.intent, before) : this.#order;
      const late = event.type === 'intent' && before.askedLongAgo;
      for (const id of targets)
        for (const post of this.#posts)
          if (post.desk.id === id) through(post, late ? { ...event, late: true } : event);
      if (event.type === 'intent' && isWork(event.intent))
        step.core.atWork = atWorkAfter(before, targets[0], step.core.world);
    }
    for (let round = 0; told.length > 0 && round < maxFactRounds; round++)
      for (const { fact, by, world: asOf } of told.splice(0))
        for (const post of this.#posts)
          if (post.desk.id !== by)
            through(post, { type: 'fact', fact, atMs, wallMs, ...(past && { past }) }, asOf);
    step.deed ||= step.facts.length > 0 && event.type === 'intent';
    attend(step, event);
    step.replies.sort((a, b) => a.atMs - b.atMs);
  }

  /** Where that leaves the user, as the desk at work has it. */
  where(at: Core, said: Said): string {
    if (said.past) return ''; // nobody hears it
    const mixing = at.atWork === 'mix';
    if (!mixing && at.world.run === null) return '';
    return this.run(at, { ...said, intent: { type: mixing ? 'mix-where' : 'ask-where' } })
      .replies.filter((r) => r.kind === 'answer')
      .map((r) => r.text)
      .join(' ');
  }

  #open(at: Core): OpenSituations {
    return Object.fromEntries(this.#posts.map((p) => [p.desk.id, p.desk.situations(stateOf(at, p))]));
  }

  #addressees(intent: Intent, at: Core): DeskId[] {
    const making = this.#posts.map((p): LiquidId | null => p.desk.making?.(stateOf(at, p)) ?? null);
    const inHand = this.#posts.find((p) => p.desk.inHand?.(stateOf(at, p)));
    return addressees(intent, this.#order, this.#open(at), {
      ...at,
      making: making.find((of) => of !== null) ?? null,
      inHand: inHand?.desk.id ?? null,
    });
  }
}

/** What the thermometer in use showed, without what it shows too much. */
function asItIs(intent: Intent, { thermometerErrorC = 0 }: World): Intent {
  return intent.type === 'all-at' || (intent.type === 'temperature' && !intent.byOther)
    ? { ...intent, tempC: intent.tempC - thermometerErrorC }
    : intent;
}

function merge(into: Step, more: Step) {
  into.core = more.core;
  into.replies.push(...more.replies);
  into.facts.push(...more.facts);
  into.deed ||= more.deed;
}

/** What is read while a run goes on belongs into its record, whoever read it. */
const inRun = (fact: Fact, { run }: World): Fact =>
  fact.type === 'temperature' && fact.runId === undefined && run !== null
    ? { ...fact, runId: run.runId }
    : fact;

/** The core of a state, without what stands around it. */
const coreOf = ({ world, desks, wakes, asking, askedLongAgo, atWork }: Core): Core => ({
  world,
  desks,
  wakes,
  asking,
  askedLongAgo,
  atWork,
});

/** A desk that a journal of before does not know begins now. */
const stateOf = (at: Core, { desk }: Post): unknown => at.desks[desk.id] ?? desk.initial;

/** Files a desk's effects. */
function file(step: Step, post: Post, effects: Effect[], past: boolean) {
  for (const effect of effects) {
    if (effect.type === 'wake') step.core.wakes[post.desk.id] = effect.atMs;
    else if (effect.type === 'did') step.deed = true;
    else {
      const text = past ? '' : post.phrase(effect.message); // of what is past nobody hears a word
      const more = past ? null : (post.more?.(effect.message) ?? null);
      step.replies.push({
        atMs: effect.dueMs,
        kind: effect.kind,
        text,
        ...(more !== null && { more }),
        desk: post.desk.id,
      });
    }
  }
}

/** Who asked last, and whether that is long ago. */
function attend(step: Step, event: DeskEvent) {
  const asked = step.replies.findLast((r) => r.kind === 'question' || r.kind === 'warning');
  if (asked && asked.desk !== 'talk') {
    step.core.asking = asked.desk;
    step.core.askedLongAgo = false;
  } else if (event.type === 'intent') step.core.askedLongAgo = true;
}

/** What the hands are at: the mix or the run. A reading, a bottle's memory or a timer are by the way. */
const atWorkAfter = ({ atWork }: Core, target: DeskId | undefined, { run }: World): DeskId | null =>
  target === 'mix' || (target === 'run' && run !== null) ? target : atWork;

/** Something done, not asked: it tells what the user is busy with. */
const isWork = (intent: Intent): boolean =>
  !/^(?:ask-|confirm|cancel|override|undo|redo|what-if|shelf-have|mix-where)/.test(intent.type);

function record<T>(posts: readonly Post[], value: (post: Post) => T): Record<DeskId, T> {
  return Object.fromEntries(posts.map((p) => [p.desk.id, value(p)])) as Record<DeskId, T>;
}
