import { bottledLiquids } from '../../process/sheet.js';
import { formulasHold } from '../../world/contamination.js';
import { filmsAreaM2, HUNDRED_FEET_35MM_M2 } from '../../world/film-area.js';
import { bottleLife } from '../../world/life.js';
import { rateOf } from '../../world/life-data.js';
import type { LiquidId } from '../../world/vessel.js';
import { type Load, loadsFor } from './loads.js';
import { bathsFor, freshMl, Stock } from './stock.js';
import { handling, sheetSeconds, waterFills } from './times.js';
import type { DayBreak, DayPlan, DayRequest, LiquidNeed, PlannedRun } from './types.js';

const empty = { runs: [], totalS: 0, waterMl: 0, needs: [], runsOut: [], notes: [] };

/** Plans a day at the sink. A day that cannot work is planned up to the run where it breaks, and says why. Pure. */
export function planDay(request: DayRequest): DayPlan {
  const loads = loadsFor(request);
  if (!Array.isArray(loads)) return { ...empty, breaks: loads };
  if (loads.length === 0)
    return {
      ...empty,
      breaks: { run: 1, sentence: 'There is no film to process.', remedy: 'Name at least one film.' },
    };
  const stock = new Stock(request);
  const runs: PlannedRun[] = [];
  const runsOut: DayPlan['runsOut'] = [];
  let waterMl = 0;
  let at = request.startsWallMs + handling.warmUpS.seconds * 1000;
  let breaks: DayBreak | null = null;
  for (const [index, load] of loads.entries()) {
    const sheet = request.sheets.find((one) => one.id === load.sheetId);
    const number = index + 1;
    if (sheet === undefined) {
      breaks = unknownSheet(number, load, request);
      break;
    }
    const waits = index > 0 && index % Math.max(1, request.reelSets) === 0;
    const starts = at + (waits ? handling.dryReelsS.seconds * 1000 : 0);
    const ends = starts + sheetSeconds(sheet) * 1000;
    breaks = tooLate(number, ends, request) ?? stock.use(number, sheet, filmsAreaM2(load.films), starts);
    if (breaks !== null) break;
    const areaM2 = filmsAreaM2(load.films);
    runs.push({
      number,
      sheetId: sheet.id,
      films: load.films,
      pushStops: load.pushStops,
      areaM2,
      startsWallMs: starts,
      endsWallMs: ends,
    });
    waterMl += waterFills(sheet) * request.tank.volumeMl;
    runsOut.push(...stock.usedUp(number, ends));
    at = ends;
  }
  return {
    runs,
    totalS: (at - request.startsWallMs) / 1000,
    waterMl,
    needs: needsOf(loads, request),
    runsOut,
    breaks,
    notes: notesOf(loads),
  };
}

const unknownSheet = (run: number, load: Load, request: DayRequest): DayBreak => ({
  run,
  sentence: `There is no process sheet called ${load.sheetId}.`,
  remedy: `Use one of ${request.sheets.map((one) => one.id).join(', ')}.`,
});

function tooLate(run: number, endsWallMs: number, request: DayRequest): DayBreak | null {
  if (request.endsByWallMs === null || endsWallMs <= request.endsByWallMs) return null;
  const overMin = Math.ceil((endsWallMs - request.endsByWallMs) / 60_000);
  return {
    run,
    sentence: `Run ${run} would end ${overMin} minutes after you want to stop.`,
    remedy: `Stop after run ${run - 1}, start earlier, or use a second set of reels.`,
  };
}

/** What the whole day asks of each bath, whether or not it can be had. */
function needsOf(loads: readonly Load[], request: DayRequest): LiquidNeed[] {
  const areas = new Map<LiquidId, number>();
  for (const load of loads) {
    const sheet = request.sheets.find((one) => one.id === load.sheetId);
    for (const liquid of sheet === undefined ? [] : bottledLiquids(sheet))
      areas.set(liquid, (areas.get(liquid) ?? 0) + filmsAreaM2(load.films));
  }
  return [...areas].map(([liquid, areaM2]) => {
    const held = request.bottles.filter((one) => one.liquid === liquid);
    const haveMl = held.reduce((sum, one) => sum + one.contents.volumeMl, 0);
    const baths = bathsFor(request, liquid);
    const good = held
      .map((bottle) => ({ bottle, life: bottleLife(bottle, request.startsWallMs, baths) }))
      .filter(({ life }) => life.limit === 'film' || life.limit === 'unknown');
    const canTakeM2 = good
      .filter(({ life }) => life.limit === 'film')
      .reduce((sum, { life }) => sum + life.areaLeftM2.usual, 0);
    const rate = formulasHold(baths) ? rateOf(liquid) : undefined;
    const tankfulMl = request.tank.volumeMl;
    const short = good.some(({ life }) => life.limit === 'unknown') ? 0 : areaM2 - canTakeM2;
    return {
      liquid,
      tankfulMl,
      areaM2,
      canTakeM2,
      haveMl,
      replenishMl: rate === undefined ? 0 : Math.round((areaM2 / HUNDRED_FEET_35MM_M2) * rate.per100ftMl),
      mixMl:
        short <= 1e-9 && good.some(({ bottle }) => bottle.contents.volumeMl >= tankfulMl)
          ? 0
          : freshMl({ liquid, recipe: null }, baths, Math.max(0, short), tankfulMl),
    };
  });
}

const notesOf = (loads: readonly Load[]): string[] => {
  const pushed = loads.some((load) => load.pushStops !== 0);
  return pushed
    ? [
        'Pushed or pulled films run apart from the others; their developer time is yours to set, the sheet states none.',
      ]
    : [];
};
