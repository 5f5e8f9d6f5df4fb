import type { Words } from '../../language/languages/words.js';
import type { DeskEvent, Said } from '../../process/desk.js';
import type { ReplyKind } from '../../process/effect.js';
import type { Fact } from '../../world/fact.js';
import type { AssistantState, Core, Outcome, Reply } from '../assistant.js';
import type { Desks, Step } from './desks.js';

/** An event that undo may go back behind. */
export interface Remembered {
  event: DeskEvent;
  facts: Fact[];
  /** the user did something by it */
  deed: boolean;
}

/** Events that undo can reach behind; older ones are folded into the base in one go. */
const remembered = { most: 160, keep: 80 } as const;
/** So many leave at once. */
const leaving = remembered.most + 1 - remembered.keep;

/** The day as it was told: its last events, and the same day with some of them told otherwise. */
export class Day {
  /** the core after each event that was gone through here; one that a snapshot brought is not here */
  readonly #coreAfter = new WeakMap<Remembered, Core>();
  readonly desks: Desks;
  readonly words: Words['assistant'];

  constructor(desks: Desks, words: Words['assistant']) {
    this.desks = desks;
    this.words = words;
  }

  /** The next event. */
  goOn(state: AssistantState, event: DeskEvent): Outcome {
    const step = this.desks.run(state, event);
    const done = step.deed && event.type === 'intent';
    const { mended } = state;
    const recent = [...state.recent, this.#remember(event, step)];
    return {
      state: this.#slid({
        ...step.core,
        base: state.base,
        recent,
        ...(recent.length === leaving ? { next: step.core } : state.next && { next: state.next }),
        undone: done ? [] : state.undone,
        undoAsked: false,
        ...(mended && { mended: { ...mended, last: mended.last && !done } }),
      }),
      replies: step.replies,
      facts: step.facts,
    };
  }

  /** Calls that fell due before these words were said count as made. */
  caughtUp(state: AssistantState, said: Said): AssistantState {
    return this.goOn(state, timeAt(said)).state;
  }

  /** The state with another list of events, up to what is said now; `what`: what is taken back by that. Nothing is said of it yet. */
  retold(state: AssistantState, events: readonly DeskEvent[], what: string, said: Said): Outcome {
    const { core: at, recent } = this.#replay(state.base, [...events, timeAt(said)], state.recent);
    const before = state.recent.flatMap((r) => r.facts);
    const after = recent.flatMap((r) => r.facts);
    const runId = at.world.run?.runId ?? state.world.run?.runId;
    const { next: _stale, ...rest } = state;
    return {
      state: { ...rest, ...at, recent, undoAsked: false },
      replies: [],
      facts: [
        { type: 'undone', ...(runId !== undefined && { runId }), what, facts: without(before, after) },
        ...without(after, before),
      ],
    };
  }

  /** What one event brings after these. */
  after(state: AssistantState, events: readonly DeskEvent[], event: DeskEvent): Step {
    return this.desks.run(this.#replay(state.base, events, state.recent).core, event);
  }

  /** The answer to such a telling: what was done, and where that leaves the user. */
  told(retold: Outcome, said: Said, what: string): Outcome {
    const text = [what, this.desks.where(retold.state, said)].filter(Boolean).join(' ');
    return { ...retold, replies: say(said, text) };
  }

  #remember(event: DeskEvent, { core, facts, deed }: Step): Remembered {
    const one = { event, facts, deed };
    this.#coreAfter.set(one, core);
    return one;
  }

  /** The core after these events, of which those that are as they were in `known` are not gone through again. */
  #replay(
    from: Core,
    events: readonly DeskEvent[],
    known: readonly Remembered[],
  ): { core: Core; recent: Remembered[] } {
    const changed = events.findIndex((event, i) => event !== known[i]?.event);
    const same = known.slice(0, changed < 0 ? events.length : changed);
    const through = same.findLastIndex((one) => this.#coreAfter.has(one)) + 1;
    const recent = same.slice(0, through);
    const last = recent.at(-1);
    let at = (last && this.#coreAfter.get(last)) ?? from;
    for (const event of events.slice(through)) {
      const step = this.desks.run(at, event);
      recent.push(this.#remember(event, step));
      at = step.core;
    }
    return { core: at, recent };
  }

  /** Old events leave the window in one go. They are gone through again only when some of them were told otherwise. */
  #slid(state: AssistantState): AssistantState {
    if (state.recent.length <= remembered.most) return state;
    const { next, ...rest } = state;
    const old = state.recent.slice(0, -remembered.keep);
    const last = old.at(-1);
    const known = (last && this.#coreAfter.get(last)) ?? (old.length === leaving ? next : undefined);
    const base = known ?? this.#replay(state.base, eventsOf(old), old).core;
    return { ...rest, base, recent: state.recent.slice(-remembered.keep), undone: [] };
  }
}

export const eventsOf = (recent: readonly Remembered[]): DeskEvent[] => recent.map((r) => r.event);

export const say = (said: Said, text: string, kind: ReplyKind = 'answer'): Reply[] =>
  text === '' ? [] : [{ atMs: said.atMs, kind, text, desk: 'talk' }];

/** Something is said, and nothing else changes. */
export const onlySay = (
  state: AssistantState,
  said: Said,
  text: string,
  kind: ReplyKind = 'answer',
): Outcome => ({ state, replies: say(said, text, kind), facts: [] });

/** The facts that took something into the tank, or out of it. */
export const intoTank = (facts: readonly Fact[]): boolean =>
  facts.some((f) => f.type === 'poured' && f.to.kind === 'tank');
export const outOfTank = (facts: readonly Fact[]): boolean =>
  facts.some((f) => f.type === 'poured' && f.from.kind === 'tank');

const timeAt = ({ atMs, wallMs, past }: Said): DeskEvent => ({
  type: 'time',
  atMs,
  wallMs,
  ...(past && { past }),
});

/** The facts of one telling that the other does not have. */
function without(facts: readonly Fact[], others: readonly Fact[]): Fact[] {
  const left = others.map((f) => JSON.stringify(f));
  return facts.filter((f) => {
    const at = left.indexOf(JSON.stringify(f));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}
