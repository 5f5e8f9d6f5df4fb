import { vesselKey } from '../world/vessel.js';
import { put, take } from './bench.js';
import type { Heard } from './desk.js';
import { type Judgement, judge, type Move, type PourRequest } from './guard.js';
import type { AskId } from './guard-resolve.js';
import type { ReasonId } from './guard-table.js';
import type { Intent, IntentOf } from './intent.js';
import type { Named, RunMessage } from './message.js';
import { named, spokenMove, spokenReason } from './now.js';
import type { Pending } from './pending.js';
import { emptyTank } from './run-tank.js';
import type { Turn } from './turn.js';

type PourIntent = IntentOf<'pour-in' | 'pour-back' | 'pour-between' | 'pour-away'>;

/** The user says liquid is about to move: judge it, and clear, ask, warn or refuse. */
export function pour(turn: Turn, intent: PourIntent) {
  consider(turn, answering(turn, requestOf(intent)));
}

/** A part alone in answer to a question, or to a warning: the pour with that part in it is judged afresh. */
export function pourWith(turn: Turn, part: IntentOf<'part'>, request: PourRequest) {
  consider(turn, completed(request, part));
}

const completed = (request: PourRequest, { liquid, vessel }: IntentOf<'part'>): PourRequest => {
  const place = request.kind === 'in' || request.kind === 'away' ? 'from' : 'to';
  return { ...request, ...(liquid && { liquid }), ...(vessel && { [place]: vessel }) };
};

function consider(turn: Turn, request: PourRequest) {
  const doubt = heardDoubt(turn, request);
  if (doubt) ask(turn, request, [], doubt.ask, doubt.heard);
  else decide(turn, request, []);
}

function requestOf(intent: PourIntent): PourRequest {
  const { type, ...said } = intent;
  const kinds = {
    'pour-in': 'in',
    'pour-back': 'back',
    'pour-between': 'between',
    'pour-away': 'away',
  } as const;
  return { kind: kinds[type], ...said };
}

/** A part alone, such as "from bottle 2", fills the gap that was asked about; what was said now counts. */
function answering(turn: Turn, said: PourRequest): PourRequest {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour' || pending.verdict !== 'ask' || pending.request.kind !== said.kind)
    return said;
  if (pending.reason === 'heard-two' || pending.reason === 'unsure-heard') return said;
  const complete = said.liquid !== undefined && (said.from !== undefined || said.to !== undefined);
  return complete ? said : { ...pending.request, ...said };
}

const isPour = (intent: Intent): intent is PourIntent =>
  intent.type === 'pour-in' ||
  intent.type === 'pour-back' ||
  intent.type === 'pour-between' ||
  intent.type === 'pour-away';

/** Sound that could have been another bath or bottle, or that was hardly heard at all. */
function heardDoubt(turn: Turn, request: PourRequest): { ask: AskId; heard: Named[] } | null {
  const rivals = turn.heard.close
    .flatMap((i) => (isPour(i) ? [requestOf(i)] : i.type === 'part' ? [completed(request, i)] : []))
    .filter((r) => differs(r, request));
  if (rivals.length > 0) {
    const heard = [request, ...rivals].flatMap((r) =>
      r.liquid === undefined ? [] : [named(turn.sheet, r.liquid)],
    );
    return { ask: 'heard-two', heard };
  }
  return unsure(turn.heard, turn.config.confidenceFloor) ? { ask: 'unsure-heard', heard: [] } : null;
}

/** Two readings contradict each other; one that merely says less does not. */
const differs = (a: PourRequest, b: PourRequest): boolean =>
  a.kind !== b.kind ||
  clash(a.liquid, b.liquid) ||
  clash(a.from && vesselKey(a.from), b.from && vesselKey(b.from)) ||
  clash(a.to && vesselKey(a.to), b.to && vesselKey(b.to));
const clash = (a: string | undefined, b: string | undefined): boolean =>
  a !== undefined && b !== undefined && a !== b;

export const unsure = (heard: Heard, floor: number): boolean =>
  heard.by === 'voice' && !(heard.confidence >= floor);

function ask(turn: Turn, request: PourRequest, vouched: AskId[], id: AskId, heard: Named[]) {
  challenge(turn, { kind: 'pour', request, vouched, verdict: 'ask', reason: id, proposal: request });
  const liquid = request.liquid;
  const place = request.kind === 'in' ? request.from : request.to;
  turn.say('question', {
    id: 'ask',
    ask: id,
    bath: liquid === undefined ? null : named(turn.sheet, liquid),
    holds: null,
    bottle: place?.kind === 'bottle' ? place.number : null,
    candidates: [],
    confirmable: true,
    stake: null,
    about: null,
    heard,
  });
}

/** Judges a request and answers; `accepted` is what the user has just agreed to. */
export function decide(
  turn: Turn,
  request: PourRequest,
  vouched: AskId[],
  accepted: { verdict: 'recoverable' | 'ruinous'; reason: ReasonId } | null = null,
) {
  const judgement = judge(request, turn.view, vouched);
  if (judgement.verdict === 'ask') return answerAsk(turn, request, vouched, judgement);
  const { verdict, reason, params, move, checks } = judgement;
  const also = judgement.also.map((a) => ({ reason: a.reason, about: spokenReason(a.params, turn.view) }));
  const about = spokenReason(params, turn.view);
  const spoken = spokenMove(move, turn.view);
  if (verdict === 'clear' || verdict === 'harmless') {
    goAhead(turn, move, vouched, false);
    turn.say('answer', {
      id: 'clear',
      move: spoken,
      reason,
      about,
      checks,
      harmless: verdict === 'harmless',
    });
    return;
  }
  const agreed =
    accepted?.verdict === 'ruinous' || (accepted?.verdict === verdict && accepted.reason === reason);
  if (agreed) {
    const overridden = verdict === 'ruinous';
    if (overridden)
      turn.fact({ type: 'overridden', ...turn.runId, move: describe(move), verdict, why: reason });
    else deviate(turn, `${describe(move)}: ${reason}`);
    goAhead(turn, move, vouched, overridden);
    turn.say('answer', { id: 'overridden', move: spoken, checks });
    return;
  }
  challenge(turn, { kind: 'pour', request, vouched, verdict, reason });
  turn.say(
    'warning',
    verdict === 'ruinous'
      ? { id: 'ruinous', move: spoken, reason, about }
      : { id: 'recoverable', move: spoken, reason, about, also, checks },
  );
}

function answerAsk(
  turn: Turn,
  request: PourRequest,
  vouched: AskId[],
  judgement: Extract<Judgement, { verdict: 'ask' }>,
) {
  const { reason, params, proposal, stake } = judgement;
  challenge(turn, { kind: 'pour', request, vouched, verdict: 'ask', reason, proposal });
  const message: RunMessage = {
    id: 'ask',
    ask: reason,
    bath: params.liquid === undefined ? null : named(turn.sheet, params.liquid),
    holds: params.holds === undefined ? null : named(turn.sheet, params.holds),
    bottle: params.bottle ?? null,
    candidates: params.candidates ?? [],
    confirmable: proposal !== null,
    stake,
    about:
      stake === null ? null : spokenReason({ liquid: params.holds ?? params.liquid ?? 'water' }, turn.view),
    heard: [],
  };
  turn.say(stake === null ? 'question' : 'warning', message);
}

export function challenge(turn: Turn, pending: Pending) {
  turn.send({ type: 'CHALLENGE', pending });
}

const describe = (move: Move): string =>
  `${move.liquid} from ${vesselKey(move.from)} to ${vesselKey(move.to)}`;

export function deviate(turn: Turn, what: string) {
  const stepId = turn.context.bath?.stepId ?? turn.dueStep?.id;
  if (turn.core.runId !== null && stepId !== undefined)
    turn.fact({ type: 'deviation', runId: turn.core.runId, stepId, what });
}

/** A cleared pour: into or out of the tank it is only announced; between vessels it is taken as done. */
function goAhead(turn: Turn, move: Move, vouched: AskId[], overridden: boolean) {
  turn.send({ type: 'SETTLE' });
  if (vouched.includes('tank-not-empty') && turn.core.bench.tank) emptyTank(turn);
  if (move.to.kind === 'tank') {
    turn.set({ announced: { kind: 'in', liquid: move.liquid, from: move.from, overridden } });
    turn.deed('pour-cleared');
    return;
  }
  if (move.from.kind === 'tank') {
    turn.set({ announced: { kind: 'out', liquid: move.liquid, to: move.to, overridden } });
    turn.send({ type: 'DRAIN', atMs: turn.atMs });
    turn.deed('pour-cleared');
    return;
  }
  const [rest, out] = take(turn.core.bench, move.from, move.liquid, move.volumeMl ?? undefined);
  turn.set({ bench: put(rest, move.to, { ...out, liquid: move.liquid }) });
  turn.fact({
    type: 'poured',
    ...turn.runId,
    from: move.from,
    to: move.to,
    liquid: move.liquid,
    volumeMl: out.volumeMl,
    overridden,
  });
  turn.deed('poured');
}
