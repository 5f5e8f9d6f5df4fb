import { capital, named } from '../language/phrases/warm-words.js';
import type { DayPlan } from '../ledger/plan/types.js';
import { aimMs, type Bath, firstMultiple, tenSecondsS } from '../process/bath.js';
import { bottleOf } from '../process/bench.js';
import type { Situation } from '../process/desk.js';
import { liquidName } from '../process/guard-checks.js';
import { placeOf } from '../process/machine.js';
import { nowOf, outletOf } from '../process/now.js';
import type { RunCore, RunState } from '../process/run-state.js';
import { liquidOf, type ProcessSheet } from '../process/sheet.js';
import type {
  ActView,
  BathView,
  BottleView,
  DayView,
  EarsView,
  HeardView,
  Known,
  Motion,
  Offer,
  PicturesView,
  ScreenView,
  TimedAct,
  TimelineView,
  VesselView,
} from '../screen/view.js';
import { bottleLife } from '../world/life.js';
import type { BottleRecord, RunRecord } from '../world/records.js';
import { vesselKey } from '../world/vessel.js';
import type { AssistantState } from './assistant.js';
import type { Bench } from './bench.js';
import { outlookOf, type Bath as WarmBath } from './desks/warm/items.js';
import { plotOf } from './desks/warm/plot-data.js';
import type { WarmState } from './desks/warm-desk.js';

/** What the screens know beside the assistant's state: what was said last, and how figures came in. */
export interface Seen {
  /** the last warning or question that somebody was given; it is shown for as long as it is open */
  asked: string | null;
  heard: HeardView | null;
  ears: EarsView;
  /** how the last temperature of each vessel came in, by vessel key */
  readBy: Readonly<Record<string, 'measured' | 'told'>>;
  /** calls of this run, for its timeline */
  calls: readonly { text: string; atMs: number }[];
}

export interface ViewSource {
  state: AssistantState;
  situations: readonly Situation[];
  bench: Bench;
  seen: Seen;
  atMs: number;
  wallMs: number;
}

/** The screens' view of the assistant as it is. The one place that knows how its state is kept. */
export function screenView(source: ViewSource): ScreenView {
  const { state, bench, seen, atMs, wallMs } = source;
  const core = (state.desks.run as RunState).core;
  const sheet = bench.sheets.find((s) => s.id === core.sheetId) ?? bench.sheets[0];
  const { bath } = core.position.context;
  const place = placeOf(core.position);
  const acts = bath === null ? [] : timedActs(core, sheet, bath, atMs);
  const open = openOf(source, core);
  const pouring = acts.find((a) => a.kind === 'pour');
  return {
    atMs,
    wallMs,
    moment: [
      place,
      core.position.context.stepIndex,
      bath?.startedMs ?? '',
      core.announced?.kind ?? '',
      open?.text ?? '',
    ].join('|'),
    sheet: sheet.name,
    place,
    bath: bath && bathView(core, sheet, bath),
    act:
      place === 'immersed' || place === 'draining'
        ? nextAct(core, sheet, acts, atMs, pouring)
        : actOf(core, sheet, atMs),
    acts,
    motion: bath && place === 'immersed' ? motionOf(bath, atMs) : null,
    next: nextBath(core, sheet),
    vessels: vesselsOf(source, core, sheet),
    open,
    heard: seen.heard,
    ears: seen.ears,
    offers: offersOf(source, core, sheet),
  };
}

const bathView = (core: RunCore, sheet: ProcessSheet, bath: Bath): BathView => ({
  name: liquidName({ sheet }, bath.liquid),
  vessel: `tank, ${core.bench.tankMl} ml`,
  startedMs: bath.startedMs + bath.heldMs,
  endsMs: aimMs(bath),
  stoppedMs: bath.heldAtMs,
});

/** Every call still to come, at the moment the machine will make it; a running agitation ends in a rest. */
function timedActs(core: RunCore, sheet: ProcessSheet, bath: Bath, atMs: number): TimedAct[] {
  const { pourNextMs } = core.position.context;
  const name = liquidName({ sheet }, bath.liquid);
  const next = nextBath(core, sheet);
  const pour = (dueMs: number): TimedAct => ({
    kind: 'pour',
    words: next ? `Pour the ${next.bath}` : 'Empty the tank',
    dueMs,
  });
  if (placeOf(core.position) === 'draining') return pourNextMs === null ? [] : [pour(pourNextMs)];
  if (bath.stepId === null || bath.aimS === null) return [];
  const base = bath.startedMs + bath.heldMs;
  const drainS = bath.aimS - bath.leadS;
  const acts: TimedAct[] = [];
  const { agitation: a } = bath;
  if (a && a.style !== 'still') {
    const quietFromS = drainS - tenSecondsS;
    if (a.initialS > 0 && a.initialS < quietFromS)
      acts.push({ kind: 'rest', words: 'Rest', dueMs: base + a.initialS * 1000 });
    const each = a.everyS ?? 0;
    for (let i = firstMultiple(a) + bath.agitated; each > 0 && i * each < quietFromS; i++) {
      const words =
        a.style === 'swirl' ? 'Swirl' : `${a.inversions} inversion${a.inversions === 1 ? '' : 's'}`;
      acts.push({ kind: 'agitate', words, dueMs: base + i * each * 1000 });
    }
  }
  acts.push({ kind: 'drain', words: `Drain the ${name}`, dueMs: base + drainS * 1000 });
  if (bath.leadS > 0) acts.push(pour(base + bath.aimS * 1000));
  const clockMs = bath.heldAtMs ?? atMs;
  return acts.filter((act) => act.dueMs > clockMs || act.kind === 'drain').sort((x, y) => x.dueMs - y.dueMs);
}

/** In a bath the next timed act; a bath without a clock, and draining, have words only. */
function nextAct(
  core: RunCore,
  sheet: ProcessSheet,
  acts: readonly TimedAct[],
  atMs: number,
  pour: TimedAct | undefined,
): ActView {
  const plain = actOf(core, sheet, atMs);
  if (placeOf(core.position) === 'draining') return { words: plain.words, dueMs: pour?.dueMs ?? null };
  const [first] = acts;
  return first ? { words: first.words, dueMs: first.dueMs } : { ...plain, dueMs: null };
}

/** What there is to do, in the fewest words that still say it across a room. */
function actOf(core: RunCore, sheet: ProcessSheet, atMs: number): ActView {
  const now = nowOf(core, sheet, atMs);
  const words = (() => {
    switch (now.do) {
      case 'begin':
        return 'Begin the run';
      case 'prepare':
        return 'Get the bottles ready';
      case 'warm':
        return 'Bring the baths to temperature';
      case 'load':
        return 'Load the film in the dark';
      case 'pour':
        return now.bottle === null
          ? `Pour the ${now.bath.name} in`
          : `Pour the ${now.bath.name} in from bottle ${now.bottle}`;
      case 'wait':
        return now.secondsLeft === null
          ? `Drain the ${now.bath.name} when it is done`
          : `Wait for the ${now.bath.name}`;
      case 'drain':
        return now.outlet.to === 'bottle'
          ? `Drain the ${now.bath.name} back to bottle ${now.outlet.bottle}`
          : now.outlet.to === 'sink'
            ? `Drain the ${now.bath.name}`
            : `Drain the ${now.bath.name} into a jug`;
      case 'rinse':
        return `Rinse with water, ${now.fills} fill${now.fills === 1 ? '' : 's'}`;
      case 'hang':
        return 'Hang the film up';
      case 'close':
        return 'Close the run';
    }
  })();
  return { words, dueMs: null };
}

function motionOf(bath: Bath, atMs: number): Motion {
  const { agitation: a } = bath;
  if (!a || a.style === 'still') return 'still';
  if (a.initialS === 0 && a.everyS === null) return null;
  const s = ((bath.heldAtMs ?? atMs) - bath.startedMs - bath.heldMs) / 1000;
  if (s < a.initialS) return 'agitate';
  // a regular agitation is taken to last as long as its turns, common practice: about 2 s a turn
  const turnsS = a.inversions * 2;
  const since = a.everyS ? s % a.everyS : Number.POSITIVE_INFINITY;
  const called = a.everyS !== null && bath.agitated > 0;
  return called && since < turnsS ? 'agitate' : 'rest';
}

function nextBath(core: RunCore, sheet: ProcessSheet): ScreenView['next'] {
  const { bath, stepIndex } = core.position.context;
  const place = placeOf(core.position);
  if (place === 'idle' || place === 'closed' || place === 'hanging' || place === 'closing') return null;
  const step = sheet.steps[bath ? bath.advanceTo : place === 'pouring' ? stepIndex + 1 : stepIndex];
  if (!step?.liquid) return null;
  const holding = Object.entries(core.bench.bottles).filter(([, b]) => b.liquid === step.liquid);
  return {
    bath: step.kind === 'rinse' || step.kind === 'wash' ? step.name : liquidName({ sheet }, step.liquid),
    bottle: holding.length === 1 ? Number(holding[0]?.[0]) : null,
    aimC: step.temp?.aimC ?? null,
  };
}

function vesselsOf(source: ViewSource, core: RunCore, sheet: ProcessSheet): VesselView[] {
  const { state, bench, atMs } = source;
  const outlook = outlookOf(state.desks.warm as WarmState, bench.warm, atMs);
  const warmOf = (key: string): WarmBath | null => outlook?.baths.find((b) => b.key === key) ?? null;
  const bottles = Object.keys(core.bench.bottles)
    .map(Number)
    .sort((a, b) => a - b)
    .map((number): VesselView => {
      const bottle = bottleOf(core.bench, number);
      const key = vesselKey({ kind: 'bottle', number });
      const holds = bottle?.liquid && bottle.volumeMl > 0 ? liquidName({ sheet }, bottle.liquid) : null;
      return {
        key,
        label: `bottle ${number}`,
        holds,
        holdsKnown:
          !bottle || (bottle.liquid === null && bottle.volumeMl > 0)
            ? 'unknown'
            : bottle.assumed
              ? 'assumed'
              : 'told',
        volumeMl: bottle?.volumeMl ?? null,
        ...warmth(source, key, warmOf(key)),
      };
    });
  const { tank } = core.bench;
  const tankView: VesselView[] = tank
    ? [
        {
          key: 'tank',
          label: 'tank',
          holds: liquidName({ sheet }, tank.liquid),
          holdsKnown: 'told',
          volumeMl: tank.volumeMl,
          ...warmth(source, 'tank', warmOf('tank')),
        },
      ]
    : [];
  return [...tankView, ...bottles];
}

/** A figure that nobody read is no figure. */
function warmth(
  source: ViewSource,
  key: string,
  bath: WarmBath | null,
): Pick<VesselView, 'temp' | 'aim' | 'fit' | 'readyMs'> {
  const { seen, atMs } = source;
  if (!bath || bath.item.readAgoS === null) {
    const none = { known: 'unknown' as Known, tempC: null, lowC: null, highC: null, readMs: null };
    return { temp: none, aim: bath?.item.aim ?? null, fit: 'unknown', readyMs: null };
  }
  const { item, readiness } = bath;
  const fresh = (item.readAgoS ?? 0) <= freshS && item.lastReadC !== null;
  const tempC = fresh ? (item.lastReadC ?? item.tempC) : item.tempC;
  return {
    temp: {
      known: fresh ? (seen.readBy[key] ?? 'told') : 'reckoned',
      tempC,
      lowC: fresh ? tempC : item.tempC - item.halfBandC,
      highC: fresh ? tempC : item.tempC + item.halfBandC,
      readMs: item.readAgoS === null ? null : atMs - item.readAgoS * 1000,
    },
    aim: item.aim,
    fit: !item.aim
      ? 'unknown'
      : tempC < item.aim.lowC - rounding
        ? 'too-cold'
        : tempC > item.aim.highC + rounding
          ? 'too-warm'
          : 'within',
    readyMs: readiness?.state === 'coming' ? atMs + readiness.inMs : null,
  };
}

/** A reading is shown as read for so long, then what follows from it, s. */
const freshS = 60;
/** for sums such as 41.1 − 0.1 */
const rounding = 1e-6;

function openOf({ situations, seen }: ViewSource, core: RunCore): ScreenView['open'] {
  const { pending, spill } = core.position.context;
  if (situations.includes('challenged')) {
    const refused = pending?.kind === 'pour' && pending.verdict !== 'ask';
    return {
      kind: refused ? 'warning' : 'question',
      text: seen.asked ?? 'A question waits. Say where are we.',
    };
  }
  if (spill) return { kind: 'spill', text: seen.asked ?? 'A spill is open. Say the spill is cleaned up.' };
  return null;
}

function offersOf({ situations }: ViewSource, core: RunCore, sheet: ProcessSheet): Offer[] {
  const offers = (...all: [label: string, words: string][]): Offer[] =>
    all.map(([label, words], i) => ({ label, words, first: i === 0 }));
  const { pending, spill, bath } = core.position.context;
  if (situations.includes('challenged')) {
    // what would ruin the film or a bath is overridden by words alone
    if (pending?.kind === 'pour' && pending.verdict === 'ruinous') return offers(['Cancel', 'cancel']);
    if (pending?.kind === 'pour' && pending.verdict === 'recoverable')
      return offers(['Cancel', 'cancel'], ['Do it anyway', 'confirm']);
    return offers(['No, cancel', 'cancel'], ['Yes, confirm', 'confirm']);
  }
  const spilled: [string, string][] = spill ? [['Spill is cleaned up', 'the spill is cleaned up']] : [];
  const announced = core.announced;
  const name = (id: string): string => liquidName({ sheet }, id);
  const water = (id: string): boolean => liquidOf(sheet, id)?.role === 'water';
  switch (placeOf(core.position)) {
    case 'idle':
    case 'closed':
      return offers(['Begin the run', 'begin the run'], ...spilled);
    case 'preparing':
    case 'warming':
      return offers(['Next step', 'next step'], ...spilled);
    case 'loading':
      return offers(['Film is loaded', 'film is loaded'], ...spilled);
    case 'pouring': {
      if (announced?.kind === 'in')
        return offers(
          [`${sentence(name(announced.liquid))} is in`, `${name(announced.liquid)} is in`],
          ...spilled,
        );
      const liquid = sheet.steps[core.position.context.stepIndex]?.liquid;
      if (!liquid) return offers(['Next step', 'next step']);
      if (water(liquid)) return offers(['Water is in', 'water is in'], ...spilled);
      const now = nowOf(core, sheet, 0);
      const from = now.do === 'pour' && now.bottle !== null ? ` from bottle ${now.bottle}` : '';
      return offers(
        [`I am about to pour the ${name(liquid)}${from}`, `pouring the ${name(liquid)} in${from}`],
        ...spilled,
      );
    }
    case 'immersed':
      if (bath?.heldAtMs != null) return offers(['Let the clock run', 'resume the clock'], ...spilled);
      return offers(['I drain now', 'drain now'], ['Hold the clock', 'hold the clock'], ...spilled);
    case 'draining': {
      const outlet = bath && outletOf(core, sheet, bath.liquid);
      if (announced?.kind !== 'out' && bath && outlet?.to === 'bottle')
        return offers(
          [
            `I am about to return the ${name(bath.liquid)} to bottle ${outlet.bottle}`,
            `returning the ${name(bath.liquid)} to bottle ${outlet.bottle}`,
          ],
          ['Tank is empty', 'tank is empty'],
          ...spilled,
        );
      return offers(['Tank is empty', 'tank is empty'], ...spilled);
    }
    case 'rinsing':
      return offers(['Next step', 'next step'], ...spilled);
    case 'hanging':
      return offers(['Film is hung up', 'film is hung'], ...spilled);
    case 'closing':
      return offers(['Close the run', 'close the run'], ...spilled);
  }
}

const sentence = (words: string): string => `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;

/** The pictures' part of the view. `run`: the one to draw; null: none. */
export function picturesView(
  source: ViewSource,
  run: RunRecord | null,
  bottles: readonly BottleRecord[],
): PicturesView {
  const { state, bench, atMs, wallMs } = source;
  const plot = plotOf(state.desks.warm as WarmState, bench.warm, atMs);
  const outlook = outlookOf(state.desks.warm as WarmState, bench.warm, atMs);
  const readyByName = new Map(
    (outlook?.baths ?? []).flatMap((b): [string, number][] =>
      b.readiness?.state === 'coming' ? [[capital(named(b.item.subject)), atMs + b.readiness.inMs]] : [],
    ),
  );
  return {
    curves: {
      ...plot,
      series: plot.series.map((s) => ({ ...s, readyMs: readyByName.get(s.name) ?? null })),
    },
    timeline: run && timelineOf(source, run),
    bottles: bottles
      .filter((b) => b.liquid !== null && b.contents.volumeMl > 0)
      .map((b) => bottleView(b, wallMs, bench.sheets[0])),
  };
}

const limits: Readonly<Record<string, string>> = {
  age: 'its age',
  film: 'film put through it',
  silver: 'silver taken up',
  spoiled: 'a wrong pour',
};

function bottleView(bottle: BottleRecord, wallMs: number, sheet: ProcessSheet): BottleView {
  const life = bottleLife(bottle, wallMs);
  return {
    bottle: bottle.number,
    name: bottle.name,
    holds: bottle.liquid === null ? 'nothing' : liquidName({ sheet }, bottle.liquid),
    known: bottle.assumed ? 'assumed' : 'told',
    volumeMl: bottle.contents.volumeMl,
    capacityMl: bottle.capacityMl,
    ageDays: life.ageDays,
    keepDaysLeft: life.keepDaysLeft,
    doneM2: life.areaDoneM2,
    leftM2: life.areaLeftM2,
    limit: limits[life.limit] ?? null,
  };
}

function timelineOf({ bench, seen, atMs, wallMs }: ViewSource, run: RunRecord): TimelineView {
  const sheet = bench.sheets.find((s) => s.id === run.sheetId) ?? bench.sheets[0];
  const benchMs = (wall: number): number => run.startedAtMs + (wall - run.startedWallMs);
  const stepName = (id: string): string => sheet.steps.find((s) => s.id === id)?.name ?? id;
  const endedMs = run.endedWallMs === null ? null : benchMs(run.endedWallMs);
  const firstMs = run.steps[0]?.startedAtMs ?? run.startedAtMs;
  let planMs = firstMs;
  const planned = sheet.steps.flatMap((step) => {
    const aimS = step.time?.aimS ?? run.steps.find((s) => s.stepId === step.id)?.actualS ?? null;
    if (aimS === null) return [];
    const fromMs = planMs;
    planMs += aimS * 1000;
    return [{ name: step.name, fromMs, toMs: planMs }];
  });
  const lastMs = endedMs ?? atMs;
  return {
    runId: run.runId,
    sheet: sheet.name,
    films: run.films.map((f) => [f.stock, f.format].filter(Boolean).join(' ')),
    tankMl: run.tankMl,
    startedMs: run.startedAtMs,
    startedWallMs: run.startedWallMs,
    endedMs,
    nowMs: endedMs ?? benchMs(wallMs),
    complete: run.complete,
    planned,
    real: run.steps.map((s) => ({
      name: stepName(s.stepId),
      fromMs: s.startedAtMs,
      toMs: s.actualS === null ? null : s.startedAtMs + (s.actualS + s.heldS) * 1000,
      plannedS: s.plannedS,
      actualS: s.actualS,
      heldS: s.heldS,
      startTempC: s.startTempC,
      endTempC: s.endTempC,
    })),
    temps: run.temperatures.map((t) => ({
      name: t.liquid === null ? vesselKey(t.vessel).replace('-', ' ') : liquidName({ sheet }, t.liquid),
      atMs: benchMs(t.wallMs),
      tempC: t.tempC,
    })),
    marks: [
      ...seen.calls
        .filter((c) => c.atMs >= run.startedAtMs && c.atMs <= lastMs)
        .map((c) => ({ kind: 'call' as const, ...c })),
      ...run.deviations.map((d) => ({
        kind: 'slip' as const,
        text: `${stepName(d.stepId)}: ${d.what}`,
        atMs: benchMs(d.wallMs),
      })),
      ...run.spills.map((s) => ({
        kind: 'spill' as const,
        text: `${Math.round(s.volumeMl)} ml of ${liquidName({ sheet }, s.liquid)} spilled${s.place ? ` ${s.place}` : ''}`,
        atMs: benchMs(s.wallMs),
      })),
      ...run.overrides.map((o) => ({
        kind: 'override' as const,
        text: `guard overridden: ${o.move}, ${o.why}`,
        atMs: benchMs(o.wallMs),
      })),
      ...run.notes.map((n) => ({ kind: 'note' as const, text: n.text, atMs: benchMs(n.wallMs) })),
      ...run.undone.map((u) => ({
        kind: 'undone' as const,
        text: `taken back: ${u.what}`,
        atMs: benchMs(u.wallMs),
      })),
    ].sort((a, b) => a.atMs - b.atMs),
  };
}

/** A day's plan as its chart shows it. */
export function dayView(plan: DayPlan, sheets: readonly ProcessSheet[]): DayView {
  const sheetName = (id: string): string => sheets.find((s) => s.id === id)?.name ?? id;
  return {
    startsWallMs: plan.runs[0]?.startsWallMs ?? 0,
    runs: plan.runs.map((r) => ({
      label: `Run ${r.number}: ${[...new Set(r.films.map((f) => f.stock))].join(', ') || sheetName(r.sheetId)}`,
      startsWallMs: r.startsWallMs,
      endsWallMs: r.endsWallMs,
    })),
    marks: plan.runsOut.map((o) => ({
      text: `${o.liquid.replaceAll('-', ' ')} used up`,
      wallMs: o.wallMs,
    })),
    note: plan.breaks?.sentence ?? null,
  };
}
