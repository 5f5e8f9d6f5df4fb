import { expose, freshFilm, noFilm } from '../world/film.js';
import { forgetMissed } from './bath.js';
import { defaultBench } from './bench.js';
import { atStart } from './cautions.js';
import type { IntentOf } from './intent.js';
import { named, nowOf } from './now.js';
import { takeIn } from './run-bath.js';
import { drain, tankEmpty } from './run-clock.js';
import { challenge, decide, deviate } from './run-moves.js';
import { bottledLiquids } from './sheet.js';
import { type Deadline, nextDeadline } from './timing.js';
import type { Turn } from './turn.js';

const now = (turn: Turn) => nowOf(turn.core, turn.sheet, turn.atMs);
const sayNow = (turn: Turn) => turn.say('answer', { id: 'now', now: now(turn) });
const isActive = (turn: Turn): boolean => turn.place !== 'idle' && turn.place !== 'closed';

export function begin(turn: Turn, intent: IntentOf<'begin-run'>) {
  if (isActive(turn)) return turn.say('answer', { id: 'run-already', now: now(turn) });
  const sheet = turn.sheets.find(intent.sheet);
  if (!sheet) {
    const known = turn.sheets.all.map((s) => s.name);
    return turn.say('question', { id: 'no-such-sheet', said: intent.sheet ?? '', known });
  }
  const untouched = Object.values(turn.core.bench.bottles).every((b) => b.assumed);
  const runId = `run-${new Date(turn.wallMs).toISOString().replace(/[-:]|\.\d+Z$/g, '')}`;
  turn.set({
    sheetId: sheet.id,
    runId,
    film: noFilm,
    announced: null,
    ...(untouched && { bench: { ...defaultBench(sheet, turn.config), tankMl: turn.core.bench.tankMl } }),
  });
  turn.send({ type: 'BEGIN' });
  turn.deed('begin');
  const { tankMl } = turn.core.bench;
  turn.fact({ type: 'run-started', runId, sheetId: sheet.id, tankMl, films: turn.config.films });
  const bottles = Object.entries(turn.core.bench.bottles).flatMap(([n, b]) =>
    b.liquid === null ? [] : [{ bottle: Number(n), bath: named(sheet, b.liquid) }],
  );
  turn.say('answer', {
    id: 'run-begun',
    sheet: sheet.name,
    cautions: [...atStart],
    bottles: untouched ? bottles.slice(0, bottledLiquids(sheet).length) : bottles,
    assumed: untouched,
    tankMl,
  });
}

export function filmLoaded(turn: Turn) {
  if (!['preparing', 'warming', 'loading'].includes(turn.place)) {
    if (turn.core.film.loaded) return turn.say('answer', { id: 'film-already-loaded' });
    return turn.say('answer', { id: 'not-now', now: now(turn) });
  }
  const { pending } = turn.context;
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'LOADED' });
  turn.set({ film: { ...freshFilm, carry: turn.core.film.carry } });
  turn.deed('film-loaded');
  if (turn.core.runId !== null) turn.fact({ type: 'film-loaded', runId: turn.core.runId });
  // what was cleared without film is judged again with it
  const cleared = turn.core.announced?.kind === 'in' ? turn.core.announced : null;
  if (cleared) turn.set({ announced: null });
  const waiting = cleared !== null || pending?.kind === 'bath-in' || pending?.kind === 'pour';
  turn.say('answer', { id: 'film-loaded', now: waiting ? null : now(turn) });
  // what was said before the film was there is taken up now
  if (pending?.kind === 'bath-in') takeIn(turn, pending.liquid, false, pending.atMs);
  else if (pending?.kind === 'pour') decide(turn, pending.request, []);
  else if (cleared) decide(turn, { kind: 'in', liquid: cleared.liquid, from: cleared.from }, []);
}

/** "Next step": moves on where that is safe, and always says what there is to do. */
export function nextStep(turn: Turn) {
  switch (turn.place) {
    case 'idle':
    case 'closed':
      return begin(turn, { type: 'begin-run' });
    case 'preparing':
    case 'warming':
      turn.send({ type: 'NEXT' });
      turn.deed('next');
      return sayNow(turn);
    case 'loading':
      return sayNow(turn);
    case 'pouring': {
      if (turn.core.announced?.kind === 'in') return sayNow(turn);
      const step = turn.dueStep;
      if (!step) return sayNow(turn);
      challenge(turn, { kind: 'skip' });
      turn.say('answer', { id: 'now', now: now(turn) });
      return turn.say('question', { id: 'confirm-skip', step: step.name });
    }
    case 'immersed':
      return drain(turn, false);
    case 'draining':
      return tankEmpty(turn);
    case 'rinsing':
      turn.set({ film: expose(turn.core.film, { role: 'water', seconds: 30 }) });
      turn.send({ type: 'RINSED' });
      turn.deed('rinsed');
      return sayNow(turn);
    case 'hanging':
      return filmHung(turn);
    case 'closing':
      return closeRun(turn, false);
  }
}

export function skip(turn: Turn) {
  const step = turn.dueStep;
  turn.send({ type: 'SETTLE' });
  if (turn.place !== 'pouring' || !step) return sayNow(turn);
  deviate(turn, 'skipped');
  turn.send({ type: 'SKIP' });
  turn.deed('skip');
  turn.say('answer', { id: 'skipped', step: step.name, now: now(turn) });
}

export function filmHung(turn: Turn) {
  if (turn.place !== 'hanging') return turn.say('answer', { id: 'not-now', now: now(turn) });
  turn.send({ type: 'HUNG' });
  turn.deed('hung');
  const backingLeft = turn.core.film.backing !== 'off';
  turn.set({ film: { ...noFilm, carry: turn.core.film.carry } });
  turn.say('answer', { id: 'film-hung', backingLeft });
}

export function closeRun(turn: Turn, agreed: boolean) {
  if (!isActive(turn)) return turn.say('answer', { id: 'not-now', now: now(turn) });
  const complete = turn.place === 'closing';
  if (!complete && !agreed) {
    challenge(turn, { kind: 'close-early' });
    return turn.say('question', { id: 'confirm-close', now: now(turn) });
  }
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'CLOSE' });
  turn.deed('close');
  if (turn.core.runId !== null) turn.fact({ type: 'run-finished', runId: turn.core.runId, complete });
  const jugs = turn.core.bench.jugs.map((j) => named(turn.sheet, j.liquid));
  turn.say('answer', { id: 'run-closed', complete, jugs });
}

/** "Stop" alone: with a clock running it could mean three things. */
export function stop(turn: Turn) {
  if (turn.place !== 'immersed')
    return turn.say('answer', isActive(turn) ? { id: 'now', now: now(turn) } : { id: 'nothing-to-stop' });
  challenge(turn, { kind: 'stop-what' });
  turn.say('question', { id: 'stop-what' });
}

function overdue(turn: Turn): Deadline | null {
  const next = nextDeadline(turn.core.position);
  return next && next.dueMs <= turn.atMs ? next : null;
}

export function undo(turn: Turn) {
  const runId = turn.runId;
  const undone = turn.undo();
  if (!undone) return turn.say('answer', { id: 'nothing-to-undo' });
  const { bath } = turn.context;
  if (bath && turn.place === 'immersed') {
    const { position } = turn.core;
    const context = { ...position.context, bath: forgetMissed(bath, turn.atMs) };
    turn.set({ position: { ...position, context } });
  }
  turn.send({ type: 'SETTLE' });
  // what fell due since was called once already, and the answer says where that leaves us
  for (let due = overdue(turn); due; due = overdue(turn)) turn.send({ type: 'DUE', call: due.call });
  turn.fact({ type: 'undone', ...runId, what: undone.what, facts: undone.facts });
  turn.say('answer', { id: 'undone', what: undone.what, now: now(turn) });
}
