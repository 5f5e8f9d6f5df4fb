import type { Desk, DeskEvent, DeskId, Situation } from '../process/desk.js';
import type { Effect, MessageLike, ReplyKind } from '../process/effect.js';
import type { Fact } from '../world/fact.js';
import { addressees } from './routing.js';

/** A desk together with the words for its messages. */
export interface Post<S = unknown, M extends MessageLike = MessageLike> {
  desk: Desk<S, M>;
  phrase(message: M): string;
}

/** Plain data: JSON in, JSON out, the same again after a restart. */
export interface AssistantState {
  desks: Record<DeskId, unknown>;
  wakes: Record<DeskId, number | null>;
  /** the desk that asked last, so that a bare "confirm" reaches it */
  asking: DeskId | null;
}

/** One thing to say. `atMs` is when it was due on the bench clock. */
export interface Reply {
  atMs: number;
  kind: ReplyKind;
  text: string;
  desk: DeskId | 'talk';
}

export interface Outcome {
  state: AssistantState;
  replies: Reply[];
  facts: Fact[];
}

/** One event in, the next state and what to say out. Pure; `src/app/session.ts` gives it a journal and a clock. */
export interface Assistant {
  readonly initial: AssistantState;
  apply(state: AssistantState, event: DeskEvent): Outcome;
  situations(state: AssistantState): Situation[];
  nextWakeMs(state: AssistantState): number | null;
}

/** Facts may lead to facts; a chain longer than this is a defect, not a conversation. */
const maxFactRounds = 8;

/** Binds the desks into one assistant. The order of `posts` is the order in which desks hear an event. */
export function createAssistant(posts: readonly Post[]): Assistant {
  const byId = new Map(posts.map((p) => [p.desk.id, p]));
  const order = posts.map((p) => p.desk.id);

  const applyTo = (outcome: Outcome, id: DeskId, event: DeskEvent): Fact[] => {
    const post = byId.get(id);
    if (!post) return [];
    const { state, effects } = post.desk.apply(outcome.state.desks[id], event);
    outcome.state.desks[id] = state;
    return collect(outcome, post, effects);
  };

  return {
    initial: {
      desks: record(posts, (p) => p.desk.initial),
      wakes: record(posts, () => null),
      asking: null,
    },
    apply(before, event) {
      const outcome: Outcome = {
        state: { desks: { ...before.desks }, wakes: { ...before.wakes }, asking: before.asking },
        replies: [],
        facts: event.type === 'fact' ? [event.fact] : [],
      };
      const openBefore = situationsByDesk(posts, before);
      const targets =
        event.type === 'intent' ? addressees(event.intent, order, openBefore, before.asking) : order;
      let fresh = targets.flatMap((id) => applyTo(outcome, id, event).map((fact) => ({ fact, by: id })));
      for (let round = 0; fresh.length > 0 && round < maxFactRounds; round++) {
        const told = fresh;
        fresh = [];
        for (const { fact, by } of told) {
          outcome.facts.push(fact);
          for (const id of order) {
            if (id === by) continue;
            const told = applyTo(outcome, id, { type: 'fact', fact, atMs: event.atMs, wallMs: event.wallMs });
            fresh.push(...told.map((f) => ({ fact: f, by: id })));
          }
        }
      }
      outcome.replies.sort((a, b) => a.atMs - b.atMs);
      return outcome;
    },
    situations(state) {
      const open = Object.values(situationsByDesk(posts, state)).flat();
      return [...new Set<Situation>(['anytime', ...open])];
    },
    nextWakeMs(state) {
      const due = Object.values(state.wakes).filter((w): w is number => w !== null);
      return due.length > 0 ? Math.min(...due) : null;
    },
  };
}

/** Files a desk's effects into the outcome; returns the facts, which other desks still have to hear. */
function collect(outcome: Outcome, post: Post, effects: Effect[]): Fact[] {
  const facts: Fact[] = [];
  for (const effect of effects) {
    if (effect.type === 'wake') outcome.state.wakes[post.desk.id] = effect.atMs;
    else if (effect.type === 'fact') facts.push(effect.fact);
    else {
      const text = post.phrase(effect.message);
      outcome.replies.push({ atMs: effect.dueMs, kind: effect.kind, text, desk: post.desk.id });
      if (effect.kind === 'question') outcome.state.asking = post.desk.id;
    }
  }
  return facts;
}

export type OpenSituations = Partial<Record<DeskId, Situation[]>>;

function situationsByDesk(posts: readonly Post[], state: AssistantState): OpenSituations {
  return Object.fromEntries(posts.map((p) => [p.desk.id, p.desk.situations(state.desks[p.desk.id])]));
}

function record<T>(posts: readonly Post[], value: (post: Post) => T): Record<DeskId, T> {
  return Object.fromEntries(posts.map((p) => [p.desk.id, value(p)])) as Record<DeskId, T>;
}
