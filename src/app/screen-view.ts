import { capital, named } from '../language/languages/english/phrases/warm-words.js';
import type { Words } from '../language/languages/words.js';
import type { DayPlan } from '../ledger/plan/types.js';
import type { Situation } from '../process/desk.js';
import { liquidName } from '../process/guard-checks.js';
import type { RunState } from '../process/run-state.js';
import { type RunView, runView } from '../process/run-view.js';
import { liquidOf, type ProcessSheet } from '../process/sheet.js';
import { tempState } from '../process/temperature.js';
import { agitationPlan, type BathClock, contactS } from '../process/timing.js';
import type {
  ActView,
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
import { say as inWords } from '../screen/words.js';
import { ageKnown, bottleLife } from '../world/life.js';
import type { BottleRecord, RunRecord } from '../world/records.js';
import { vesselKey } from '../world/vessel.js';
import type { AssistantState } from './assistant.js';
import type { Bench } from './bench.js';
import { outlookOf, type Bath as WarmBath } from './desks/warm/items.js';
import { plotOf } from './desks/warm/plot-data.js';
import { type WarmKept, seen as warmSeen } from './desks/warm-desk.js';

/** What the screens know beside the assistant's state: what was said last, and how figures came in. */
export interface Seen {
  /** the last warning or question that somebody was given; it is shown for as long as it is open */
  asked: string | null;
  heard: HeardView | null;
  ears: EarsView;
  /** how the last temperature of each vessel came in, by vessel key */
  readBy: Readonly<Record<string, 'measured' | 'told'>>;
}

export interface ViewSource {
  state: AssistantState;
  situations: readonly Situation[];
  bench: Bench;
  seen: Seen;
  atMs: number;
  wallMs: number;
}

/** A text of the screen in the chosen language, and the names of baths and of steps. */
type Say = ReturnType<typeof sayIn>;
const sayIn = (words: Words) =>
  Object.assign(
    (text: string, ...parts: (string | number)[]) => inWords({ words: words.screen }, text, ...parts),
    {
      bath: ({ id, name }: { id: string; name: string }) => words.bath(id, name),
      /** a wash or a rinse has a name of its own in English only */
      step: (name: string, liquid: string) => (words.code === 'en' ? name : words.bath(liquid, name)),
    },
  );

/** The screens' view of the assistant as it is. The one place that knows how its state is kept. */
export function screenView(source: ViewSource): ScreenView {
  const { state, bench, seen, atMs, wallMs } = source;
  const run = runView(state.desks.run as RunState, state.world, bench.sheets, { atMs, wallMs });
  const { clock, place, sheet, context } = run;
  const say = sayIn(bench.language.words);
  const acts = timedActs(run, say);
  const open = openOf(source, run, say);
  return {
    atMs,
    wallMs,
    moment: [
      place,
      (clock?.step ?? run.due.step)?.id ?? '',
      clock?.sinceMs ?? '',
      context.announced?.kind ?? '',
      open?.text ?? '',
    ].join('|'),
    sheet: sheet.name,
    place,
    bath: clock && {
      name: say.bath({ id: clock.liquid, name: liquidName({ sheet }, clock.liquid) }),
      vessel: say('tank, {} ml', run.tankMl),
      startedMs: clock.sinceMs,
      endsMs: clock.aimS === null ? null : clock.sinceMs + clock.aimS * 1000,
      stoppedMs: null,
    },
    act: nextAct(run, acts, say),
    acts,
    motion: clock && place === 'immersed' ? motionOf(clock, atMs) : null,
    next: nextBath(run, say),
    vessels: vesselsOf(source, run, say),
    open,
    heard: seen.heard,
    ears: seen.ears,
    offers: offersOf(source, run, say),
    ...(Object.keys(bench.language.words.screen).length > 0 && { words: bench.language.words.screen }),
  };
}

/** Every act still to come in this bath, at the moment the machine will call it. */
function timedActs(run: RunView, say: Say): TimedAct[] {
  const { clock, sheet } = run;
  if (!clock) return [];
  const name = say.bath({ id: clock.liquid, name: liquidName({ sheet }, clock.liquid) });
  const next = nextBath(run, say);
  const pourWords = next ? say('Pour the {}', next.bath) : say('Empty the tank');
  const a = clock.agitation;
  const agitateWords =
    a?.style === 'swirl'
      ? say('Swirl')
      : a?.inversions === 1
        ? say('1 inversion')
        : say('{} inversions', a?.inversions ?? 0);
  const acts = run.calls.flatMap(({ call, dueMs }): TimedAct[] => {
    switch (call) {
      case 'rest':
        return [{ kind: 'rest', words: say('Rest'), dueMs }];
      case 'agitate':
        return [{ kind: 'agitate', words: agitateWords, dueMs }];
      case 'drain':
        return [{ kind: 'drain', words: say('Drain the {}', name), dueMs }];
      case 'pour-next':
        return [{ kind: 'pour', words: pourWords, dueMs }];
      default:
        return [];
    }
  });
  const aimMs = clock.aimS === null ? null : clock.sinceMs + clock.aimS * 1000;
  if (run.place === 'immersed' && clock.leadS > 0 && aimMs !== null)
    acts.push({ kind: 'pour', words: pourWords, dueMs: aimMs });
  return acts.sort((x, y) => x.dueMs - y.dueMs);
}

/** In a bath the next timed act; a bath without a clock, and draining, have words only. */
function nextAct(run: RunView, acts: readonly TimedAct[], say: Say): ActView {
  const words = actWords(run, say);
  if (run.place === 'draining') return { words, dueMs: acts.find((a) => a.kind === 'pour')?.dueMs ?? null };
  const [first] = acts;
  return first ? { words: first.words, dueMs: first.dueMs } : { words, dueMs: null };
}

/** What there is to do, in the fewest words that still say it across a room. */
function actWords({ now }: RunView, say: Say): string {
  switch (now.do) {
    case 'begin':
      return say('Begin the run');
    case 'prepare':
      return say('Get the bottles ready');
    case 'warm':
      return say('Bring the baths to temperature');
    case 'load':
      return say('Load the film in the dark');
    case 'pour':
      return now.bottle === null
        ? say('Pour the {} in', say.bath(now.bath))
        : say('Pour the {} in from bottle {}', say.bath(now.bath), now.bottle);
    case 'wash':
      return say('Wash with water before the {}', say.bath(now.next));
    case 'lost':
      return say(now.doubted ? 'The picture may be lost' : 'The picture is lost');
    case 'wait':
      return say(
        now.secondsLeft === null ? 'Drain the {} when it is done' : 'Wait for the {}',
        say.bath(now.bath),
      );
    case 'drain':
      return now.outlet.to === 'bottle'
        ? say('Drain the {} back to bottle {}', say.bath(now.bath), now.outlet.bottle)
        : say(now.outlet.to === 'sink' ? 'Drain the {}' : 'Drain the {} into a jug', say.bath(now.bath));
    case 'rinse':
      return now.fills === 1 ? say('Rinse with water, 1 fill') : say('Rinse with water, {} fills', now.fills);
    case 'hang':
      return say('Hang the film up');
    case 'close':
      return say('Close the run');
  }
}

function motionOf(clock: BathClock, atMs: number): Motion {
  const { agitation: a } = clock;
  if (!a || a.style === 'still') return 'still';
  if (a.initialS === 0 && a.everyS === null) return null;
  const s = contactS(clock, atMs);
  if (s < a.initialS) return 'agitate';
  // a regular agitation is taken to last as long as its turns, common practice: about 2 s a turn
  const turnsS = a.inversions * 2;
  const drainS = clock.aimS === null ? Number.POSITIVE_INFINITY : clock.aimS - clock.leadS;
  const { againS } = agitationPlan(a, drainS);
  return againS.some((from) => s >= from && s < from + turnsS) ? 'agitate' : 'rest';
}

function nextBath(run: RunView, say: Say): ScreenView['next'] {
  const { place, next: step, sheet } = run;
  if (place === 'idle' || place === 'closed' || place === 'hanging' || place === 'closing') return null;
  if (!step?.liquid) return null;
  return {
    bath:
      step.kind === 'rinse' || step.kind === 'wash'
        ? say.step(step.name, step.liquid)
        : say.bath({ id: step.liquid, name: liquidName({ sheet }, step.liquid) }),
    bottle: run.bottleFor(step.liquid),
    aimC: step.temp?.aimC ?? null,
  };
}

function vesselsOf(source: ViewSource, { sheet }: RunView, say: Say): VesselView[] {
  const name = (id: string): string => say.bath({ id, name: liquidName({ sheet }, id) });
  const { state, bench, atMs } = source;
  const outlook = outlookOf(warmSeen(state.desks.warm as WarmKept, state.world), bench.warm, atMs);
  const warmOf = (key: string): WarmBath | null => outlook?.baths.find((b) => b.key === key) ?? null;
  const bottles = Object.values(state.world.bottles)
    .sort((a, b) => a.number - b.number)
    .map((bottle): VesselView => {
      const key = vesselKey({ kind: 'bottle', number: bottle.number });
      const { volumeMl } = bottle.contents;
      return {
        key,
        label: say('bottle {}', bottle.number),
        holds: bottle.liquid && volumeMl > 0 ? name(bottle.liquid) : null,
        holdsKnown: bottle.liquid === null && volumeMl > 0 ? 'unknown' : bottle.assumed ? 'assumed' : 'told',
        volumeMl,
        ...warmth(source, key, warmOf(key)),
      };
    });
  const { bath, volumeMl } = state.world.tank;
  const tankView: VesselView[] = bath
    ? [
        {
          key: 'tank',
          label: say('tank'),
          holds: name(bath.liquid),
          holdsKnown: bath.inferred ? 'reckoned' : 'told',
          volumeMl,
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
    fit: item.aim ? fits[tempState(aimOf(item.aim), tempC)] : 'unknown',
    readyMs: readiness?.state === 'coming' ? atMs + readiness.inMs : null,
  };
}

/** A reading is shown as read for so long, then what follows from it, s. */
const freshS = 60;
const aimOf = (aim: { aimC: number; lowC: number; highC: number }) => ({
  aimC: aim.aimC,
  minC: aim.lowC,
  maxC: aim.highC,
});
const fits = { in: 'within', near: 'within', cold: 'too-cold', hot: 'too-warm' } as const;

function openOf({ situations, seen }: ViewSource, { context }: RunView, say: Say): ScreenView['open'] {
  const { pending, spill } = context;
  if (situations.includes('challenged')) {
    const refused = pending?.kind === 'pour' && pending.verdict !== 'ask';
    return {
      kind: refused ? 'warning' : 'question',
      text: seen.asked ?? say('A question waits. Say where are we.'),
    };
  }
  if (spill)
    return { kind: 'spill', text: seen.asked ?? say('A spill is open. Say the spill is cleaned up.') };
  return null;
}

function offersOf({ situations }: ViewSource, run: RunView, say: Say): Offer[] {
  const { sheet, clock, now } = run;
  const offers = (...all: [label: string, words: string][]): Offer[] =>
    all.map(([label, words], i) => ({ label: say(label), words, first: i === 0 }));
  const called = (id: string): string => say.bath({ id, name: liquidName({ sheet }, id) });
  const { pending, spill, announced } = run.context;
  if (situations.includes('challenged')) {
    // what would ruin the film or a bath is overridden by words alone
    if (pending?.kind === 'pour' && pending.verdict === 'ruinous') return offers(['Cancel', 'cancel']);
    if (pending?.kind === 'pour' && pending.verdict === 'recoverable')
      return offers(['Cancel', 'cancel'], ['Do it anyway', 'confirm']);
    return offers(['No, cancel', 'cancel'], ['Yes, confirm', 'confirm']);
  }
  const spilled: [string, string][] = spill ? [['Spill is cleaned up', 'the spill is cleaned up']] : [];
  const name = (id: string): string => liquidName({ sheet }, id);
  const water = (id: string): boolean => liquidOf(sheet, id)?.role === 'water';
  switch (run.place) {
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
          [say('{} is in', sentence(called(announced.liquid))), `${name(announced.liquid)} is in`],
          ...spilled,
        );
      const { step, wash } = run.due;
      const liquid = wash ? 'water' : step?.liquid;
      if (!liquid) return offers(['Next step', 'next step']);
      if (step?.fills) return offers(['Rinsed', 'next step'], ['Water is in', 'water is in'], ...spilled);
      if (water(liquid)) return offers(['Water is in', 'water is in'], ...spilled);
      const bottle = now.do === 'pour' ? now.bottle : null;
      const from = bottle === null ? '' : ` from bottle ${bottle}`;
      return offers(
        [
          from === ''
            ? say('I am about to pour the {}', called(liquid))
            : say('I am about to pour the {} from bottle {}', called(liquid), bottle ?? ''),
          `pouring the ${name(liquid)} in${from}`,
        ],
        ...spilled,
      );
    }
    case 'immersed':
      return offers(['I drain now', 'drain now'], ['I am held up', 'hold the clock'], ...spilled);
    case 'draining': {
      const outlet = clock && run.outletOf(clock.liquid);
      if (announced?.kind !== 'out' && clock && outlet?.to === 'bottle')
        return offers(
          [
            say('I am about to return the {} to bottle {}', called(clock.liquid), outlet.bottle),
            `returning the ${name(clock.liquid)} to bottle ${outlet.bottle}`,
          ],
          ['Tank is empty', 'tank is empty'],
          ...spilled,
        );
      return offers(['Tank is empty', 'tank is empty'], ...spilled);
    }
    case 'hanging':
      return offers(['Film is hung up', 'film is hung'], ...spilled);
    case 'closing':
      return offers(['Close the run', 'close the run'], ...spilled);
  }
}

const sentence = (words: string): string => `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;

/** The pictures' part of the view. `run`: the one to draw, with the times of its calls on the bench clock; null: none. */
export function picturesView(
  source: ViewSource,
  run: RunRecord | null,
  bottles: readonly BottleRecord[],
  calledMs: readonly number[] = [],
): PicturesView {
  const { state, bench, atMs, wallMs } = source;
  const plot = plotOf(warmSeen(state.desks.warm as WarmKept, state.world), bench.warm, atMs);
  const outlook = outlookOf(warmSeen(state.desks.warm as WarmKept, state.world), bench.warm, atMs);
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
    timeline: run && timelineOf(source, run, calledMs),
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
  const life = bottleLife(bottle, wallMs, sheet);
  return {
    bottle: bottle.number,
    name: bottle.name,
    holds: bottle.liquid === null ? 'nothing' : liquidName({ sheet }, bottle.liquid),
    known: bottle.assumed ? 'assumed' : 'told',
    volumeMl: bottle.contents.volumeMl,
    capacityMl: bottle.capacityMl,
    ageDays: ageKnown(life),
    keepDaysLeft: life.keepDaysLeft,
    doneM2: life.areaDoneM2,
    leftM2: life.areaLeftM2,
    limit: limits[life.limit] ?? null,
  };
}

function timelineOf(
  { bench, atMs, wallMs }: ViewSource,
  run: RunRecord,
  calledMs: readonly number[],
): TimelineView {
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
      ...calledMs
        .filter((at) => at >= run.startedAtMs && at <= lastMs)
        .map((at) => ({ kind: 'call' as const, text: 'called', atMs: at })),
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
