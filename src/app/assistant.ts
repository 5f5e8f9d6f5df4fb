import type { Words } from '../language/languages/words.js';
import { MOVING } from '../language/meaning/situations.js';
import { hurtBy } from '../process/cautions.js';
import type { Desk, DeskEvent, DeskId, Situation, Truth } from '../process/desk.js';
import type { Effect, MessageLike, ReplyKind } from '../process/effect.js';
import type { Intent, IntentOf } from '../process/intent.js';
import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import { fold } from '../world/reduce.js';
import type { BottleRef, LiquidId, VesselRef } from '../world/vessel.js';
import { bottleAt } from '../world/vessels.js';
import { corrected, isTimed, lastMoved, leftAsTold, leftFor, ofWhatWasSaid, spokenOf } from './correct.js';
import { addressees } from './routing.js';

/** A desk together with the words for its messages. */
export interface Post<S = unknown, M extends MessageLike = MessageLike> {
  desk: Desk<S, M>;
  phrase(message: M): string;
  /** what it leaves for "more"; null: nothing */
  more?(message: M): string | null;
}

/** Everything that events change, without the memory of how it came about. Plain data. */
export interface Core {
  /** what is true at the sink: every desk reads it, none keeps a copy */
  world: World;
  desks: Record<DeskId, unknown>;
  wakes: Record<DeskId, number | null>;
  /** the desk that asked last, so that a bare "confirm" reaches it */
  asking: DeskId | null;
  /** something else was said since it asked */
  askedLongAgo: boolean;
  /** the desk that the user did something with last */
  atWork: DeskId | null;
}

/** An event that undo may go back behind. */
interface Remembered {
  event: DeskEvent;
  facts: Fact[];
  /** the user did something by it */
  deed: boolean;
}

/** Plain data: JSON in, JSON out, the same again after a restart. */
export interface AssistantState extends Core {
  /** the core before `recent` */
  base: Core;
  recent: Remembered[];
  /** the core after the first of `recent` that leave next, as long as none of them is told otherwise */
  next?: Core;
  /** what undo took back, newest last: the events, and where they stood in `recent` */
  undone: { index: number; events: DeskEvent[] }[];
  /** an undo that would stop a running clock waits for a yes, or a correction of a bath that is out again */
  undoAsked: boolean | IntentOf<'correct'>;
  /** what was put right last: the events that it took away and those in their place; `last`: nothing was done since */
  mended?: { what: Intent; gone: DeskEvent[]; added: DeskEvent[]; last: boolean };
}

/** One thing to say. `atMs` is when it was due on the bench clock. */
export interface Reply {
  atMs: number;
  kind: ReplyKind;
  text: string;
  /** what "more" says of it */
  more?: string;
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
  /** what a sentence may mean after what was said last, `atMs` on the bench clock; several: it is asked which */
  mayMean(state: AssistantState, intent: Intent, atMs: number): Intent[];
  /** what would be said next if all goes as it should, likeliest first */
  due(state: AssistantState): Intent[];
  nextWakeMs(state: AssistantState): number | null;
}

/** Events that undo can reach behind; older ones are folded into the base in one go. */
const remembered = { most: 160, keep: 80 } as const;
/** So many leave at once. */
const leaving = remembered.most + 1 - remembered.keep;
/** Facts may lead to facts; a chain longer than this is a defect, not a conversation. */
const maxFactRounds = 8;

/** What was read off an instrument and told. */
const READINGS = new Set<Intent['type']>(['temperature', 'reading', 'ph-reading', 'all-at']);

/** Binds the desks into one assistant. The order of `posts` is the order in which desks hear an event. */
export function createAssistant(posts: readonly Post[], world: World, words: Words['assistant']): Assistant {
  const byId = new Map(posts.map((p) => [p.desk.id, p]));
  const order = posts.map((p) => p.desk.id);
  const core: Core = {
    world,
    desks: record(posts, (p) => p.desk.initial),
    wakes: record(posts, () => null),
    asking: null,
    askedLongAgo: false,
    atWork: null,
  };

  const situationsByDesk = (at: Core): OpenSituations =>
    Object.fromEntries(posts.map((p) => [p.desk.id, p.desk.situations(stateOf(at, p))]));

  const making = (at: Core): LiquidId | null =>
    posts.map((p) => p.desk.making?.(stateOf(at, p)) ?? null).find((of) => of !== null) ?? null;

  const inHand = (at: Core): DeskId | null =>
    posts.find((p) => p.desk.inHand?.(stateOf(at, p)))?.desk.id ?? null;

  /** One event through the desks, and the facts that come of it through the others. */
  function run(before: Core, said: DeskEvent): Step {
    const event = said.type === 'intent' ? { ...said, intent: asItIs(said.intent, before.world) } : said;
    const step: Step = {
      core: { ...coreOf(before), desks: { ...before.desks }, wakes: { ...before.wakes } },
      replies: [],
      facts: [],
      deed: false,
    };
    if (event.type === 'intent' && event.intent.type === 'several') {
      for (const intent of event.intent.intents) merge(step, run(step.core, { ...event, intent }));
      return step;
    }
    const { atMs, wallMs, past } = event;
    const told: { fact: Fact; by: DeskId | null; world: World }[] = [];
    const tell = (said: Fact, by: DeskId | null) => {
      const fact = inRun(said, step.core.world);
      step.core.world = fold(step.core.world, { fact, atMs: event.atMs, wallMs: event.wallMs });
      step.facts.push(fact);
      told.push({ fact, by, world: step.core.world });
    };
    if (event.type === 'fact') tell(event.fact, null);
    /** `asOf`: the world as it was right after the fact that is told, until the desk tells one itself. */
    const through = (id: DeskId, one: DeskEvent, asOf?: World) => {
      const post = byId.get(id);
      if (!post) return;
      let seen = asOf;
      const truth: Truth = {
        get world() {
          return seen ?? step.core.world;
        },
        tell: (fact) => {
          tell(fact, id);
          seen = undefined;
        },
      };
      const { state, effects } = post.desk.apply(stateOf(step.core, post), one, truth);
      step.core.desks[id] = state;
      file(step, post, effects, one.past === true);
    };
    if (event.type !== 'fact') {
      const targets =
        event.type === 'intent'
          ? addressees(event.intent, order, situationsByDesk(before), {
              ...before,
              making: making(before),
              inHand: inHand(before),
            })
          : order;

      const late = event.type === 'intent' && before.askedLongAgo;
      for (const id of targets) through(id, late ? { ...event, late: true } : event);
      if (event.type === 'intent' && isWork(event.intent))
        step.core.atWork = atWorkAfter(before, targets[0], step.core.world);
    }
    for (let round = 0; told.length > 0 && round < maxFactRounds; round++)
      for (const { fact, by, world: asOf } of told.splice(0))
        for (const id of order)
          if (id !== by) through(id, { type: 'fact', fact, atMs, wallMs, ...(past && { past }) }, asOf);
    step.deed ||= step.facts.length > 0 && event.type === 'intent';
    attend(step, event);
    step.replies.sort((a, b) => a.atMs - b.atMs);
    return step;
  }

  /** The core after each event that this assistant went through; one that a snapshot brought is not here. */
  const coreAfter = new WeakMap<Remembered, Core>();
  const remember = (event: DeskEvent, { core, facts, deed }: Step): Remembered => {
    const one = { event, facts, deed };
    coreAfter.set(one, core);
    return one;
  };

  /** The core after these events, of which those that are as they were in `known` are not gone through again. */
  const replay = (
    from: Core,
    events: readonly DeskEvent[],
    known: readonly Remembered[],
  ): { core: Core; recent: Remembered[] } => {
    const changed = events.findIndex((event, i) => event !== known[i]?.event);
    const same = known.slice(0, changed < 0 ? events.length : changed);
    const through = same.findLastIndex((one) => coreAfter.has(one)) + 1;
    const recent = same.slice(0, through);
    const last = recent.at(-1);
    let at = (last && coreAfter.get(last)) ?? from;
    for (const event of events.slice(through)) {
      const step = run(at, event);
      recent.push(remember(event, step));
      at = step.core;
    }
    return { core: at, recent };
  };

  const ordinary = (state: AssistantState, event: DeskEvent): Outcome => {
    const step = run(state, event);
    const done = step.deed && event.type === 'intent';
    const undone = done ? [] : state.undone;
    const { mended } = state;
    const recent = [...state.recent, remember(event, step)];
    return {
      state: slid({
        ...step.core,
        base: state.base,
        recent,
        ...(recent.length === leaving ? { next: step.core } : state.next && { next: state.next }),
        undone,
        undoAsked: false,
        ...(mended && { mended: { ...mended, last: mended.last && !done } }),
      }),
      replies: step.replies,
      facts: step.facts,
    };
  };

  /** Old events leave the window in one go. They are gone through again only when some of them were told otherwise. */
  const slid = (state: AssistantState): AssistantState => {
    if (state.recent.length <= remembered.most) return state;
    const { next, ...rest } = state;
    const old = state.recent.slice(0, -remembered.keep);
    const last = old.at(-1);
    const known = (last && coreAfter.get(last)) ?? (old.length === leaving ? next : undefined);
    const base =
      known ??
      replay(
        state.base,
        old.map((one) => one.event),
        old,
      ).core;
    return { ...rest, base, recent: state.recent.slice(-remembered.keep), undone: [] };
  };

  /** The state with another list of events, and the facts that this takes back and adds. */
  const retold = (
    state: AssistantState,
    events: readonly DeskEvent[],
    what: string,
  ): { state: AssistantState; facts: Fact[]; deeds: number[] } => {
    const { core: at, recent } = replay(state.base, events, state.recent);
    const before = state.recent.flatMap((r) => r.facts);
    const after = recent.flatMap((r) => r.facts);
    const runId = at.world.run?.runId ?? state.world.run?.runId;
    const { next: _stale, ...rest } = state;
    return {
      state: { ...rest, ...at, recent, undoAsked: false },
      deeds: recent.flatMap((r, i) => (r.deed && r.facts.some((f) => f.type === 'poured') ? [i] : [])),
      facts: [
        { type: 'undone', ...(runId !== undefined && { runId }), what, facts: without(before, after) },
        ...without(after, before),
      ],
    };
  };

  const say = (event: DeskEvent, text: string, kind: ReplyKind = 'answer'): Reply[] => [
    { atMs: event.atMs, kind, text, desk: 'talk' },
  ];

  /** Where that leaves the user, as the desk at work has it. */
  const whereNow = (state: AssistantState, event: DeskEvent): string => {
    if (event.past) return ''; // nobody hears it
    const mixing = state.atWork === 'mix';
    if (!mixing && state.world.run === null) return '';
    const intent: Intent = { type: mixing ? 'mix-where' : 'ask-where' };
    const where: DeskEvent = { ...(event as Extract<DeskEvent, { type: 'intent' }>), intent };
    return run(state, where)
      .replies.filter((r) => r.kind === 'answer')
      .map((r) => r.text)
      .join(' ');
  };

  function undo(state: AssistantState, event: DeskEvent, agreed: boolean): Outcome {
    const { reading, spill } = event.type === 'intent' && event.intent.type === 'undo' ? event.intent : {};
    const spills = spill ? lastSpill(state.recent) : null;
    const end = spills
      ? state.recent.indexOf(spills.at(-1) as Remembered)
      : state.recent.findLastIndex(
          (r) => r.deed && r.event.type === 'intent' && (!reading || READINGS.has(r.event.intent.type)),
        );
    const start = spills ? end : askedBy(state.recent, end);
    const first = state.recent[start]?.event;
    if (first?.type !== 'intent') return { state, replies: say(event, words.nothingTo('undo')), facts: [] };
    const what = words.describe(first.intent);
    const gone = spills ?? state.recent.slice(start, end + 1).filter((r) => r.event.type === 'intent');
    const events = state.recent.filter((r) => !gone.includes(r)).map((r) => r.event);
    const after = retold(state, [...events, timeAt(event)], what);
    const clock = state.world.tank.bath;
    const clockLost =
      clock !== null && clock.role !== 'water' && after.state.world.tank.bath?.sinceMs !== clock.sinceMs;
    if (clockLost && !agreed) {
      const text = words.stopsClock(what, (event.atMs - clock.sinceMs) / 1000);
      return { state: { ...state, undoAsked: true }, replies: say(event, text, 'question'), facts: [] };
    }
    const undone = [...state.undone, { index: start, events: gone.map((r) => r.event) }];
    const next = { ...after.state, undone };
    const text = [words.undone(what), whereNow(next, event)].filter(Boolean).join(' ');
    return { state: next, replies: say(event, text), facts: after.facts };
  }

  function redo(state: AssistantState, event: DeskEvent): Outcome {
    const last = state.undone.at(-1);
    const [first] = last?.events ?? [];
    if (!last || first?.type !== 'intent')
      return { state, replies: say(event, words.nothingTo('redo')), facts: [] };
    const what = words.describe(first.intent);
    const events = state.recent.map((r) => r.event).toSpliced(last.index, 0, ...last.events);
    const after = retold(state, [...events, timeAt(event)], what);
    const next = { ...after.state, undone: state.undone.slice(0, -1) };
    const text = [words.redone(what), whereNow(next, event)].filter(Boolean).join(' ');
    return { state: next, replies: say(event, text), facts: after.facts };
  }

  /** Puts right what was said last: the same day again, with that one sentence as it was meant. */
  function correct(
    state: AssistantState,
    event: Extract<DeskEvent, { type: 'intent' }>,
    wrong?: (said: Intent, facts: readonly Fact[]) => boolean,
    agreed = false,
  ): Outcome | null {
    if (event.intent.type !== 'correct') return null;
    const { asTold, ...meantNow } = event.intent;
    let intent: IntentOf<'correct'> = meantNow;
    // how long a bath is to have is told of the one that is in
    const wentInAt =
      intent.seconds === undefined
        ? -1
        : state.recent.findLastIndex(({ facts }) =>
            facts.some((f) => f.type === 'poured' && f.to.kind === 'tank'),
          );
    // water that is out again came of no bottle
    const isGone = (i: Intent): boolean =>
      i.type === 'bath-in' && i.liquid === 'water' && intent.vessel !== undefined && !state.world.tank.bath;
    const spoken = state.recent.map((r, i) =>
      i > wentInAt && r.event.type === 'intent' && !isGone(r.event.intent) ? r.event.intent : null,
    );
    const named = wrong
      ? state.recent.findLastIndex((r) => r.event.type === 'intent' && wrong(r.event.intent, r.facts))
      : spokenOf(spoken, intent);
    // a pour that was cleared and has happened since is put right as what happened, and not cleared anew
    const went =
      spoken[named]?.type === 'pour-in' && (intent.liquid ?? intent.vessel)
        ? state.recent.findIndex(
            ({ facts }, i) =>
              i > named &&
              spoken[i]?.type === 'bath-in' &&
              facts.some((f) => f.type === 'poured' && f.to.kind === 'tank'),
          )
        : -1;
    const index = Math.max(named, went);
    const cleared = spoken.findLastIndex((i) => i?.type === 'pour-in');
    if (intent.agoS !== undefined && !asTold && cleared > index)
      return wentIn(state, event, cleared, intent.agoS);
    const said = state.recent[index]?.event;
    if (asTold && intent.agoS !== undefined && said)
      intent = { ...intent, agoS: intent.agoS + (event.atMs - said.atMs) / 1000 };
    // so long ago from now, not from when it was first said
    const beforeSaidS = (intent.agoS ?? 0) - (event.atMs - (said?.atMs ?? event.atMs)) / 1000;
    const right = intent.agoS === undefined ? intent : { ...intent, agoS: Math.max(0, beforeSaidS) };
    const meant = said?.type === 'intent' ? corrected(said.intent, right) : null;
    if (
      intent.agoS !== undefined &&
      beforeSaidS < 0 &&
      (meant?.type === 'bath-in' || meant?.type === 'poured')
    )
      return wentIn(state, event, index, intent.agoS, meant);
    if (said?.type !== 'intent' || meant === null || event.atMs - said.atMs > correctWithinMs) return null;
    // it is on record as it is told
    const { type: _, liquid, ...others } = intent;
    if (liquid && said.intent.type === 'bath-in' && said.intent.liquid === liquid && isEmpty(others))
      return { state, replies: say(event, words.kept()), facts: [] };
    const lead = say(event, words.corrected(words.describe(meant)));
    // a pour that was called off since begins anew
    const since = spoken.slice(index + 1);
    const poured = state.recent.slice(index).some((r) => r.facts.some((f) => f.type === 'poured'));
    if (isPour(meant) && !poured && since.some((i) => i !== null && callsOff.includes(i.type))) {
      const anew = ordinary(state, { ...event, intent: meant });
      return { ...anew, replies: [...lead, ...anew.replies] };
    }
    const events = state.recent.map((r) => r.event).with(index, { ...said, intent: meant });
    const after = retold(state, [...events, timeAt(event)], words.describe(said.intent));
    // what the sentence itself would have been answered, had it been said so
    const again =
      intent.agoS === undefined
        ? { ...said, intent: meant }
        : { ...event, intent: corrected(said.intent, intent) ?? meant };
    const answer = run(replay(state.base, events.slice(0, index), state.recent).core, again).replies;
    // it has been in and is out, and with another bath there harm was done: nobody knows which one was meant
    const isOut = state.recent
      .slice(index)
      .some((r) => r.facts.some((f) => f.type === 'poured' && f.from.kind === 'tank'));
    if (!agreed && meant.type === 'bath-in' && isOut && answer.some((r) => r.kind === 'warning')) {
      const text = words.asksIfMeant(words.describe(said.intent), words.describe(meant));
      return { state: { ...state, undoAsked: intent }, replies: say(event, text, 'question'), facts: [] };
    }
    // what has happened since is not cleared again
    const overtaken = isPour(meant) && after.deeds.some((at) => at > index);
    // so long after, what was to be done then is past
    const past = (meant.type === 'poured' || meant.type === 'bath-in') && event.atMs - said.atMs > justNowMs;
    // what is to be done at the bench is past when the mix is
    const mixed =
      meant.type === 'reading' && !Object.values(situationsByDesk(after.state)).flat().includes('mixing');
    const where = () => say(event, whereNow(after.state, event)).filter((r) => r.text !== '');
    const more =
      overtaken || mixed
        ? where()
        : past
          ? [...answer.filter((r) => r.kind === 'warning'), ...where()]
          : answer.filter((r) => r.kind !== 'call');
    return {
      state: after.state,
      replies: [...lead, ...more.map((r) => ({ ...r, atMs: event.atMs }))],
      facts: after.facts,
    };
  }

  /** A cleared pour that nobody said was in, or a bath that was said to be in too early: the same day again, with that said when it happened. */
  function wentIn(
    state: AssistantState,
    event: Extract<DeskEvent, { type: 'intent' }>,
    from: number,
    agoS: number,
    instead: Intent | null = null,
  ): Outcome {
    const all = state.recent.map((r) => r.event);
    const backMs = Math.min(agoS * 1000, event.atMs - (all[from]?.atMs ?? event.atMs));
    const then = { ...event, atMs: event.atMs - backMs, wallMs: event.wallMs - backMs };
    const events = instead ? all.toSpliced(from, 1) : all;
    const later = events.findIndex((e, i) => i >= from && e.atMs > then.atMs);
    const meant = instead ?? { type: 'bath-in' };
    const told = events.toSpliced(later < 0 ? events.length : later, 0, { ...then, intent: meant });
    const what = words.describe(meant);
    const after = retold(state, [...told, timeAt(event)], what);
    const text = `${words.corrected(what)} ${whereNow(after.state, event)}`;
    return { state: after.state, replies: say(event, text), facts: after.facts };
  }

  /** A bath left for another place than was said: the same day again with that. Null: none left for there. */
  function wentElsewhere(
    state: AssistantState,
    event: Extract<DeskEvent, { type: 'intent' }>,
    meant: IntentOf<'poured'>,
  ): Outcome | null {
    const index = state.recent.findLastIndex((r) => r.facts.some((f) => leftAsTold(f, meant)));
    const told = state.recent[index];
    const fact = told?.facts.findLast((f) => leftAsTold(f, meant));
    if (!told || !fact || told.event.type !== 'intent' || event.atMs - told.event.atMs > correctWithinMs)
      return null;
    const intent = leftFor(told.event.intent, fact, meant);
    const then = { ...told.event, intent };
    const all = state.recent.map((r) => r.event);
    const alone = !told.facts.some((f) => f.type === 'poured' && f.to.kind === 'tank');
    const events = alone ? all.with(index, then) : all.toSpliced(index, 0, then);
    const what = words.describe(intent);
    const after = retold(state, [...events, timeAt(event)], what);
    const { replies } = run(replay(state.base, events.slice(0, index), state.recent).core, then);
    const harm = replies.filter((r) => r.kind === 'warning').map((r) => ({ ...r, atMs: event.atMs }));
    const where = say(event, whereNow(after.state, event)).filter((r) => r.text !== '');
    return {
      state: after.state,
      replies: [...say(event, words.corrected(what)), ...harm, ...where],
      facts: after.facts,
    };
  }

  /** The state with what was put right in it, so that it can be taken back. */
  const putRight = (before: AssistantState, after: Outcome | null, what: Intent): Outcome | null => {
    if (after === null || after.facts.length === 0) return after;
    const [old, now] = [before, after.state].map((s) => s.recent.map((r) => r.event));
    const only = (these: DeskEvent[] = [], others: DeskEvent[] = []) =>
      these.filter((e) => e.type === 'intent' && !others.includes(e));
    const mended = { what, gone: only(old, now), added: only(now, old), last: true };
    return { ...after, state: { ...after.state, mended } };
  };

  /** What was put right last was right before. */
  function asFirstSaid(state: AssistantState, event: DeskEvent): Outcome {
    const { mended, ...rest } = state;
    const all = state.recent.map((r) => r.event);
    const isAdded = (e: DeskEvent): boolean =>
      mended?.added.some((a) => a === e || JSON.stringify(a) === JSON.stringify(e)) ?? false;
    const at = all.findIndex(isAdded);
    if (!mended || at < 0) return { state, replies: say(event, words.nothingTo('undo')), facts: [] };
    const events = all.filter((e) => !isAdded(e)).toSpliced(at, 0, ...mended.gone);
    const after = retold(rest, [...events, timeAt(event)], words.describe(mended.what));
    const text = [words.undone(words.describe(mended.what)), whereNow(after.state, event)];
    return { ...after, replies: say(event, text.filter(Boolean).join(' ')) };
  }

  /** What left for a bottle, put right; null: it is told for the first time, or still to happen. */
  function otherPlace(
    state: AssistantState,
    event: Extract<DeskEvent, { type: 'intent' }>,
    meant: IntentOf<'poured'>,
  ): Outcome | null {
    if (meant.instead === undefined) return null;
    const { bath } = state.world.tank;
    const open = Object.values(situationsByDesk(state)).flat();
    const leaving =
      meant.instead === true &&
      bath !== null &&
      (meant.liquid === undefined || meant.liquid === bath.liquid) &&
      (open.includes('draining') || open.includes('challenged'));
    if (leaving) return null;
    const now = caughtUp(state, event);
    const { instead: _, ...said } = meant;
    return putRight(now, wentElsewhere(now, event, meant), said);
  }

  const due = (state: AssistantState): Intent[] =>
    posts.flatMap((p) => p.desk.due?.(stateOf(state, p), state.world) ?? []);

  return {
    initial: { ...core, base: core, recent: [], undone: [], undoAsked: false },
    apply(state, event) {
      if (event.type !== 'intent') return ordinary(state, event);
      const intent = ofTopic(state, event.intent, () => due(state));
      event = { ...event, intent };
      const { undoAsked: asked } = state;
      if (asked && intent.type === 'confirm') {
        const now = caughtUp(state, event);
        const agreed =
          asked === true
            ? undo(now, event, true)
            : correct(now, { ...event, intent: asked }, undefined, true);
        if (agreed) return agreed;
      }
      if (asked && intent.type === 'cancel')
        return { state: { ...state, undoAsked: false }, replies: say(event, words.kept()), facts: [] };
      if (intent.type === 'undo' && intent.spill && !lastSpill(state.recent))
        return ordinary(state, { ...event, intent: { type: 'spill-cleaned' } });
      if (
        intent.type === 'undo' &&
        (intent.mended || (state.mended?.last && !intent.reading && !intent.denied && !intent.spill))
      )
        return asFirstSaid(caughtUp(state, event), event);
      if (intent.type === 'undo')
        return undo(caughtUp(state, event), event, intent.denied === true && justIn(state, event));
      if (intent.type === 'withdraw' && intent.yet && justIn(state, event))
        return undo(caughtUp(state, event), event, true);
      if (intent.type === 'redo') return redo(caughtUp(state, event), event);
      // every weighing of a mix, or all of one part, not a sentence that was told
      const ofPart =
        intent.type === 'correct' && intent.substance !== undefined
          ? (intent.massG ?? intent.volumeMl ?? intent.value)
          : undefined;
      if (intent.type === 'correct' && (intent.all || ofPart !== undefined)) return ordinary(state, event);
      const moved =
        intent.type === 'correct' ? lastMoved(state.recent, intent, state.world.tank.bath !== null) : null;
      const other = moved?.to && otherPlace(state, event, moved.to);
      if (other) return other;
      const meant = settling(state.world, intent);
      if (meant?.type === 'part') return ordinary(state, { ...event, intent: meant });
      if (meant?.type === 'correct') {
        const doubted = meant === intent ? null : state.world.film.doubt?.last;
        const isIt = (_said: Intent, facts: readonly Fact[]): boolean =>
          facts.some((f) => f.type === 'poured' && f.to.kind === 'tank' && f.liquid === doubted);
        const now = caughtUp(state, event);
        const wrong = doubted ? isIt : moved?.isIt;
        const right = putRight(now, correct(now, { ...event, intent: meant }, wrong), meant);
        if (right) return right;
        const { vessel } = meant;
        if (meant.moved === 'from' && vessel)
          return ordinary(state, {
            ...event,
            intent: { type: 'poured', from: vessel, to: { kind: 'tank' } },
          });
        // "make it four minutes": so long in all
        const { type: _, ...of } = meant;
        if (of.seconds !== undefined && Object.keys(of).length === 1 && state.world.tank.bath)
          return ordinary(state, {
            ...event,
            intent: { type: 'add-time', seconds: of.seconds, inAll: true },
          });
        return { state, replies: say(event, words.nothingTo('correct'), 'question'), facts: [] };
      }
      const earlier = longerAgo(state, intent, event.atMs);
      const late =
        earlier && correct(caughtUp(state, event), { ...event, intent: earlier.meant }, earlier.isIt);
      if (late) return late;
      const elsewhere = intent.type === 'poured' ? otherPlace(state, event, intent) : null;
      if (intent.type === 'temperature' && intent.anew) {
        const isIt = (i: Intent): boolean =>
          i.type === 'temperature' && JSON.stringify(i.of) === JSON.stringify(intent.of);
        const meant: Intent = { type: 'correct', tempC: intent.tempC };
        const right = correct(caughtUp(state, event), { ...event, intent: meant }, isIt);
        if (right) return right;
      }
      return elsewhere ?? ordinary({ ...state, undoAsked: false }, event);
    },
    situations(state) {
      const open = Object.values(situationsByDesk(state)).flat();
      if (state.undoAsked) open.push('challenged');
      // a mix that was left open for the run comes after all else
      const aside = state.atWork === 'run' && state.world.run !== null;
      const others = open.filter((s) => s !== 'mixing');
      const mix = open.filter((s) => s === 'mixing');
      return [...new Set<Situation>(aside ? [...others, 'anytime', ...mix] : [...mix, 'anytime', ...others])];
    },
    due,
    mayMean(state, intent, atMs) {
      const open = this.situations(state);
      if (intent.type !== 'correct' || open.includes('spill') || !open.some((s) => MOVING.has(s)))
        return [intent];
      const last = state.recent.findLast(
        ({ event, deed }) => event.type === 'intent' && (deed || isTimed(event.intent)),
      );
      const said = last?.event.type === 'intent' ? last.event.intent : undefined;
      const justPoured =
        last !== undefined &&
        atMs - last.event.atMs <= justNowMs &&
        last.facts.some((f) => f.type === 'poured' && f.to.kind === 'tank');
      if (said?.type === 'reading' || (said?.type === 'correct' && said.substance)) return [intent];
      return ofWhatWasSaid(intent, said, state.world.tank.bath, justPoured);
    },
    nextWakeMs(state) {
      const due = Object.values(state.wakes).filter((w): w is number => w !== null);
      return due.length > 0 ? Math.min(...due) : null;
    },
  };

  /** "Not yet": a bath was said to be in, or the tank to be empty, a moment ago, and nothing else since. */
  function justIn({ recent, world }: AssistantState, event: DeskEvent): boolean {
    const last = recent.findLast((r) => r.event.type === 'intent');
    if (!last?.deed || last.event.type !== 'intent' || event.atMs - last.event.atMs > justNowMs) return false;
    const said = last.event.intent.type;
    return world.tank.bath ? said === 'bath-in' || said === 'poured' : said === 'tank-empty';
  }

  /** Calls that fell due before these words were said count as made. */
  function caughtUp(state: AssistantState, event: DeskEvent): AssistantState {
    return ordinary(state, timeAt(event)).state;
  }
}

const timeAt = ({ atMs, wallMs, past }: DeskEvent): DeskEvent => ({
  type: 'time',
  atMs,
  wallMs,
  ...(past && { past }),
});

/** What the thermometer in use showed, without what it shows too much. */
function asItIs(intent: Intent, { thermometerErrorC = 0 }: World): Intent {
  return intent.type === 'temperature' && !intent.byOther
    ? { ...intent, tempC: intent.tempC - thermometerErrorC }
    : intent;
}

const isEmpty = (fields: object): boolean => Object.keys(fields).length === 0;

/** All that was told of the spill that was told last, on nobody; null: of none. */
function lastSpill(recent: readonly Remembered[]): Remembered[] | null {
  const told = recent.filter(
    ({ event }) =>
      event.type === 'intent' &&
      event.intent.type === 'spill' &&
      hurtBy(event.intent.place ?? null, null) === null,
  );
  const last = told.at(-1);
  // in one breath, or what it was, how much, where, one after another
  const before = told.findLastIndex(
    (r) => r !== last && r.event.atMs !== last?.event.atMs && r.facts.some((f) => f.type === 'spilled'),
  );
  return last ? told.slice(before + 1) : null;
}

/** A yes or an override is undone with what asked for it. */
function askedBy(recent: readonly Remembered[], index: number): number {
  const answer = recent[index]?.event;
  if (answer?.type !== 'intent' || !['confirm', 'override'].includes(answer.intent.type)) return index;
  const asked = recent.slice(0, index).findLastIndex((r) => r.event.type === 'intent');
  return asked < 0 ? index : askedBy(recent, asked);
}

/** While it is not settled what was in the tank, a bath that is named puts that right, or (`part`) is as it is on record. */
function settling(world: World, intent: Intent): IntentOf<'correct' | 'part'> | null {
  if (intent.type !== 'correct' && intent.type !== 'part') return null;
  const { film } = world;
  const { type, liquid: named, vessel, ...parts } = intent;
  const { moved: _, ...told } = parts as Partial<IntentOf<'correct'>>;
  const liquid = named ?? bottleAt(world, vessel)?.liquid;
  if (liquid == null || !film.doubt || 'tempC' in told) return type === 'correct' ? intent : null;
  // when it went in, and how much of it, goes with the bath
  if (liquid === film.doubt.last && isEmpty(told)) return { type: 'part', liquid };
  return film.doubt.of.includes(liquid) || type === 'correct'
    ? { ...told, type: 'correct', ...(vessel ? { vessel } : { liquid }) }
    : null;
}

/** Questions of one bath: where it is not named, of that which was spoken of last, else of what is in the tank or due. */
function ofTopic({ recent, world }: AssistantState, intent: Intent, due: () => readonly Intent[]): Intent {
  const asked = recent.findLast((r) => r.event.type === 'intent')?.event;
  if (intent.type === 'part' && asked?.type === 'intent' && asked.intent.type.startsWith('ask-')) {
    const { liquid, vessel } = intent;
    const of = liquid ?? vessel;
    const again = asked.intent;
    if ('of' in again && of) return { ...again, of };
    if ('liquid' in again && liquid) return { ...again, liquid };
    if (again.type === 'ask-bottle' && vessel?.kind === 'bottle') return { ...again, bottle: vessel.number };
  }
  const good = intent.type === 'ask-advice' && intent.topic === 'still-good';
  const named =
    ('liquid' in intent && intent.liquid !== undefined) ||
    ('bottle' in intent && intent.bottle !== undefined);
  if (!(good || OF_ONE_BATH.has(intent.type)) || named) return intent;
  const said = recent.flatMap((r) => (r.event.type === 'intent' ? [r.event.intent] : [])).slice(-TOPIC_LASTS);
  const spoken = [...said, intent]
    .map((i) => bathOf(i, world))
    .findLast((of) => of !== undefined && of !== 'water');
  const next = () => due().flatMap((d) => ('liquid' in d && d.liquid ? [d.liquid] : []))[0];
  const liquid = spoken ?? (good ? undefined : (world.tank.bath?.liquid ?? next()));
  return liquid === undefined || liquid === 'water' ? intent : ({ ...intent, liquid } as Intent);
}
const OF_ONE_BATH = new Set<Intent['type']>([
  'ask-life',
  'ask-volume',
  'ask-age',
  'ask-mixed',
  'ask-replenish',
]);
/** So many sentences back "it" may reach. */
const TOPIC_LASTS = 3;

/** The bath that a sentence was of: where something got into another, of that; a bottle stands for what it holds. */
function bathOf(intent: Intent, { bottles }: World): LiquidId | undefined {
  const { intoLiquid, intoBottle, bottle, liquid, of, to } = intent as Intent & Record<string, unknown>;
  const number = intoBottle ?? bottle ?? (to as VesselRef & Partial<BottleRef>)?.number;
  return [intoLiquid, typeof number === 'number' && bottles[number]?.liquid, liquid, of].find(
    (l): l is LiquidId => typeof l === 'string',
  );
}

/** "I drained it twenty seconds ago", of a tank that is empty, or of a bath that is in: it happened before it was said; null: nothing of the kind. */
function longerAgo(
  { world, recent }: AssistantState,
  intent: Intent,
  atMs: number,
): { meant: Intent; isIt(said: Intent, facts: readonly Fact[]): boolean } | null {
  if ((intent.type !== 'tank-empty' && intent.type !== 'bath-in') || !intent.agoS) return null;
  const { bath } = world.tank;
  const isIt = (_said: Intent, facts: readonly Fact[]): boolean =>
    facts.some((f) => f.type === 'poured' && (intent.type === 'tank-empty' ? f.from : f.to).kind === 'tank');
  const told = recent.findLast((r) => r.event.type === 'intent' && isIt(r.event.intent, r.facts));
  const sinceMs = intent.type === 'bath-in' ? bath?.sinceMs : bath ? undefined : told?.event.atMs;
  if (intent.type === 'bath-in' && intent.liquid !== undefined && intent.liquid !== bath?.liquid) return null;
  if (sinceMs === undefined || atMs - intent.agoS * 1000 > sinceMs - NO_MATTER_MS) return null;
  return { meant: { type: 'correct', agoS: intent.agoS }, isIt };
}
/** An act that was told so little late is as it was told, ms. */
const NO_MATTER_MS = 5000;

const isPour = ({ type }: Intent): boolean => type.startsWith('pour-');
/** After these a pour that was cleared or refused is in hand no more. */
const callsOff: readonly Intent['type'][] = ['cancel', 'withdraw', 'stop'];

/** So long "not yet" speaks of what was said last, ms. Source: common practice. */
const justNowMs = 30_000;

/** What was said longer ago than this is not put right by "I meant", ms. */
const correctWithinMs = 10 * 60_000;

interface Step {
  core: Core;
  replies: Reply[];
  facts: Fact[];
  deed: boolean;
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

/** The facts of one telling that the other does not have. */
function without(facts: readonly Fact[], others: readonly Fact[]): Fact[] {
  const left = others.map((f) => JSON.stringify(f));
  return facts.filter((f) => {
    const at = left.indexOf(JSON.stringify(f));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

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

export type OpenSituations = Partial<Record<DeskId, Situation[]>>;

function record<T>(posts: readonly Post[], value: (post: Post) => T): Record<DeskId, T> {
  return Object.fromEntries(posts.map((p) => [p.desk.id, value(p)])) as Record<DeskId, T>;
}
