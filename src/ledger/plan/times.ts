import type { ProcessSheet } from '../../process/sheet.js';

/** Handling that no process sheet states. source: common practice at a sink */
export const handling = {
  warmUpS: { seconds: 45 * 60, source: 'common practice: bottles from room to 41 °C in a tub' },
  loadS: { seconds: 10 * 60, source: 'common practice: reels loaded in the dark' },
  pourS: { seconds: 25, source: 'common practice: one liquid out and the next in, 600 ml' },
  untimedRinseS: { seconds: 3 * 60, source: 'common practice: backing wiped and rinsed off' },
  hangS: { seconds: 5 * 60, source: 'common practice: final rinse, squeegee, clips' },
  dryReelsS: { seconds: 30 * 60, source: 'common practice: reels rinsed and dried with warm air' },
  untimedFills: { fills: 3, source: 'common practice: rinse until the water runs clear' },
  carriedOffMl: { ml: 10, source: 'common practice: what film, reel and tank walls keep of each bath' },
} as const;

/** Time at the sink for one load, s: the sheet's own times and the handling around them. */
export function sheetSeconds(sheet: ProcessSheet): number {
  let total = handling.loadS.seconds;
  for (const step of sheet.steps) {
    if (step.kind === 'hang') total += handling.hangS.seconds;
    else total += (step.time?.aimS ?? handling.untimedRinseS.seconds) + handling.pourS.seconds;
    if (step.rinseAfter !== null) total += step.rinseAfter.fills * handling.pourS.seconds;
  }
  return total;
}

/** Tankfuls of plain water one load takes. */
export function waterFills(sheet: ProcessSheet): number {
  let fills = 0;
  for (const step of sheet.steps) {
    if (step.liquid === 'water') fills += step.time === null ? handling.untimedFills.fills : 1;
    fills += step.rinseAfter?.fills ?? 0;
  }
  return fills;
}
