import { bottledLiquids, liquidOf, type ProcessSheet } from '../../process/sheet.js';
import { ofRecipes, type SheetBaths } from '../../world/contamination.js';
import { filmsAreaM2 } from '../../world/film-area.js';
import { bottleLife, capacityM2PerL, recipeOf } from '../../world/life.js';
import type { BottleRecord } from '../../world/records.js';
import type { LiquidId } from '../../world/vessel.js';
import { handling } from './times.js';
import type { DayBreak, DayPlan, DayRequest } from './types.js';

interface Standing {
  record: BottleRecord;
  volumeMl: number;
  areaLeftM2: number;
  /** its end has been reported */
  told: boolean;
}

/** What the sheets of the day say of a bath; of one that none of them has, what the recipes say. */
export const bathsFor = ({ films, sheets }: DayRequest, liquid: LiquidId | null): SheetBaths =>
  films
    .map((film) => sheets.find((sheet) => sheet.id === film.sheetId))
    .find((sheet) => sheet !== undefined && liquid !== null && bottledLiquids(sheet).includes(liquid)) ??
  ofRecipes;

/** The bottles as the day goes on: what each still holds and can take. */
export class Stock {
  readonly #bottles: Standing[];
  readonly #request: DayRequest;

  constructor(request: DayRequest) {
    this.#request = request;
    this.#bottles = request.bottles.map((record) => {
      const life = bottleLife(record, request.startsWallMs, bathsFor(request, record.liquid));
      // of a bath whose capacity nobody knows no end is foretold
      const areaLeftM2 = life.limit === 'unknown' ? Number.POSITIVE_INFINITY : life.areaLeftM2.usual;
      return { record, volumeMl: record.contents.volumeMl, areaLeftM2, told: false };
    });
  }

  /** Takes a tankful of every bath out and, tired, back; or says what is wanting. */
  use(run: number, sheet: ProcessSheet, areaM2: number, wallMs: number): DayBreak | null {
    const tankMl = this.#request.tank.volumeMl;
    const chosen: Standing[] = [];
    for (const liquid of bottledLiquids(sheet)) {
      const name = liquidOf(sheet, liquid)?.name ?? liquid;
      const held = this.#bottles.filter((one) => one.record.liquid === liquid);
      if (held.length === 0)
        return {
          run,
          sentence: `Run ${run} needs ${name}, and no bottle holds any.`,
          remedy: `Mix at least ${tankMl} millilitres of ${name}.`,
        };
      const full = held.filter((one) => one.volumeMl >= tankMl);
      if (full.length === 0) {
        const most = Math.round(Math.max(...held.map((one) => one.volumeMl)));
        return {
          run,
          sentence: `Run ${run} needs ${tankMl} millilitres of ${name}; the fullest bottle holds ${most}.`,
          remedy: `Top up the ${name} by ${Math.ceil(tankMl - most)} millilitres.`,
        };
      }
      const keeping = full.filter((one) => (bottleLife(one.record, wallMs, sheet).keepDaysLeft ?? 1) >= 0);
      const [first] = keeping;
      if (first === undefined)
        return { run, sentence: `The ${name} is past its keeping time.`, remedy: `Mix ${name} fresh.` };
      const able = keeping.find((one) => one.areaLeftM2 >= areaM2 - 1e-9);
      if (able === undefined)
        return {
          run,
          sentence: `The ${name} is used up before run ${run}.`,
          remedy: `Replenish it or mix ${freshMl(first.record, sheet, areaM2, tankMl)} millilitres fresh.`,
        };
      chosen.push(able);
    }
    for (const bottle of chosen) {
      bottle.areaLeftM2 -= areaM2;
      bottle.volumeMl -= handling.carriedOffMl.ml;
    }
    return null;
  }

  /** Bottles that this run brought to where one more film like a 36-exposure cassette is too many. */
  usedUp(run: number, wallMs: number): DayPlan['runsOut'] {
    const out = this.#bottles.filter(
      (one) =>
        !one.told &&
        one.record.liquid !== null &&
        one.record.contents.volumeMl > 0 &&
        one.areaLeftM2 < A_FILM_M2,
    );
    for (const one of out) one.told = true;
    return out.map((one) => ({
      liquid: one.record.liquid as LiquidId,
      bottle: one.record.number,
      afterRun: run,
      wallMs,
    }));
  }
}

const A_FILM_M2 = filmsAreaM2([{ stock: '', format: '35mm' }]);

/** How much of a bath to mix for so much film, ml: a tankful at least, and just that where nothing is known of its capacity. */
export function freshMl(
  bath: Pick<BottleRecord, 'recipe' | 'liquid'>,
  baths: SheetBaths,
  areaM2: number,
  tankMl: number,
): number {
  const ofSheet = baths.liquids?.find((l) => l.id === bath.liquid)?.capacity;
  const capacity = capacityM2PerL(recipeOf(bath, baths), ofSheet);
  return capacity === null ? tankMl : Math.max(tankMl, Math.ceil((areaM2 / capacity.usual) * 100) * 10);
}
