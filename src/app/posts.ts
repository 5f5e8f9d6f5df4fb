import { englishWords } from '../language/languages/english/words.js';
import type { Words } from '../language/languages/words.js';
import type { PhonesOf } from '../ledger/confusable.js';
import type { AssumedBottle } from '../ledger/state.js';
import { bottlesOf } from '../process/bottles.js';
import { liquidName as nameOf } from '../process/guard-checks.js';
import { createRunDesk } from '../process/run-desk.js';
import { defaultConfig } from '../process/run-state.js';
import { liquidOf, type ProcessSheet } from '../process/sheet.js';
import { createTimerDesk } from '../process/timer-desk.js';
import { smallPlasticTank } from '../thermal/tank.js';
import { liquids } from '../world/liquids.js';
import type { Post } from './assistant/desks.js';
import { createBottleDesk } from './desks/bottle-desk.js';
import { createMixDesk } from './desks/mix-desk.js';
import { createWarmDesk, type WarmConfig, type WarmLiquid } from './desks/warm-desk.js';

/** What a bath is called, by the chosen sheet. */
const namesOf =
  (sheet: ProcessSheet) =>
  (id: string): string =>
    nameOf({ sheet }, id);

/** The desks. `warm` is the warming bench of the first sheet, see `warmConfig`. */
export function postsFor(
  sheets: readonly [ProcessSheet, ...ProcessSheet[]],
  warm: WarmConfig,
  phonesOf: PhonesOf,
  words: Words['desks'] = englishWords.desks,
): Post[] {
  const [baths] = sheets;
  const liquidName = namesOf(baths);
  return [
    post({ desk: createRunDesk({ sheets }), phrase: words.run }),
    post({ desk: createMixDesk({ liquidName, baths }), phrase: words.mix, more: words.moreOfMix }),
    post({ desk: createWarmDesk(warm), phrase: words.warm }),
    post({
      desk: createBottleDesk({
        spokenWords: liquids.flatMap((l) => l.spoken),
        liquidName,
        phonesOf,
        baths,
      }),
      phrase: words.bottles,
    }),
    post({ desk: createTimerDesk(), phrase: words.timers }),
  ];
}

/** Desks differ in their states and messages; the assistant handles both only as what they are to it: data. */
const post = <S, M extends { id: string }>(p: Post<S, M>): Post => p as unknown as Post;

/** What the run takes each bottle to hold until somebody says otherwise; it says so when a run begins. */
export const assumedBottles = (sheet: ProcessSheet): AssumedBottle[] => bottlesOf(sheet, defaultConfig);

/** The warming bench of a sheet: each bottled bath's aim and limits, and the tub set for the developer. */
export function warmConfig(sheet: ProcessSheet, assumed: readonly AssumedBottle[]): WarmConfig {
  const liquidName = namesOf(sheet);
  const bottles = new Map(assumed.map((b) => [b.liquid, b]));
  const baths: Record<string, WarmLiquid> = {};
  for (const step of sheet.steps) {
    const bottle = step.liquid === null ? undefined : bottles.get(step.liquid);
    if (!bottle || !step.temp || step.liquid === null) continue;
    const plausibleC = liquidOf(sheet, step.liquid)?.plausibleC;
    baths[step.liquid] ??= {
      aimC: step.temp.aimC,
      lowC: step.temp.minC,
      highC: step.temp.maxC,
      volumeMl: bottle.volumeMl,
      bottle: bottle.bottle,
      ...(plausibleC && { plausibleC }),
    };
  }
  const developer = sheet.steps.find((s) => s.kind === 'bath' && s.liquid === 'developer');
  return {
    liquids: baths,
    tub: { targetC: developer?.temp?.aimC ?? Math.max(...Object.values(baths).map((b) => b.aimC)) },
    ...(sheet.rate && { rate: sheet.rate }),
    tank: { volumeMl: defaultConfig.tankMl, build: smallPlasticTank, standsInTub: true },
    liquidName,
    ...(developer?.time ? { developS: developer.time.aimS } : {}),
  };
}
