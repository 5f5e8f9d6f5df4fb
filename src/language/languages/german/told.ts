import { asIntent, type Intent } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import {
  DENIES,
  GOES_IN,
  LEAKS,
  MIXES,
  NOT_OF_A_SPILL,
  ON_IT,
  rowsIn,
  SHARES,
  SOME,
  SPILLED,
  SUPPOSES,
  TOPICS,
  WIPED,
  WIPES,
  WIPES_AHEAD,
} from './lists.js';
import { type Said, saidIn } from './matter.js';

/** What happened at the sink, or is asked of it, by its words in any order: what was spilled, wiped up with something, got into a bath, smells or shines. */
export function toldInAnyOrder(plain: string, grammars: Grammars, spilt: boolean): Intent | undefined {
  const said = saidIn(plain, grammars);
  for (const read of READERS) {
    const intent = read(said, spilt);
    if (intent) return intent;
  }
  return undefined;
}

type Reader = (said: Said, spilt: boolean) => Intent | undefined;

const isBath = (id: string | undefined): boolean =>
  /^(?:prebath|developer|stop|bleach|fixer|final-rinse|water)$/.test(id ?? '');

/** The thing with which, behind "mit", and what it is none of ours is a cleaner. */
function withWhat({ words, things }: Said, spilt: boolean): string | undefined {
  const at = words.indexOf('mit');
  if (at < 0) return undefined;
  const behind = words.slice(at + 1);
  const thing = things.find((t) => t.from > at && t.from <= at + 3 && t.liquid !== undefined);
  if (thing) return thing.liquid;
  const wipes = behind.some((w) => WIPES.test(w));
  return spilt && !wipes && behind.some((w) => w.length > 3 && !WIPED.test(w)) ? 'any-cleaner' : undefined;
}

/** Wiped up, and with what; or what was put on it. */
const cleaned: Reader = (said, spilt) => {
  const { plain, liquids } = said;
  const on = ON_IT.test(plain) && !SUPPOSES.test(plain) && !DENIES.test(plain);
  const stranger = liquids.find((id) => !isBath(id));
  if (on && stranger && GOES_IN.test(`${plain} gekippt`))
    return asIntent('spill-cleaned', { by: stranger, ...of(liquids, stranger) });
  if (SUPPOSES.test(plain) && (WIPES_AHEAD.test(plain) || WIPED.test(plain))) {
    const by = withWhat(said, true);
    const [other] = liquids.filter((id) => id !== by);
    if (by === undefined || by === 'water') return undefined;
    if (other !== undefined) return asIntent('what-if', { liquid: by, intoLiquid: other });
    return asIntent('ask-advice', {
      topic: by === 'chlorine-bleach' || by === 'bleach' ? 'clean-with-chlorine' : 'clean-with-other',
    });
  }
  if (!WIPED.test(plain) || DENIES.test(plain)) return undefined;
  const by = withWhat(said, spilt);
  if (by === undefined || by === 'water')
    return !NOT_OF_A_SPILL.test(plain) ? asIntent('spill-cleaned', {}) : undefined;
  // bleach that cleans is the one of the household
  return asIntent('spill-cleaned', { by: by === 'bleach' ? 'chlorine-bleach' : by, ...of(liquids, by) });
};
const of = (liquids: readonly string[], by: string): { liquid?: string } => {
  const liquid = liquids.find((id) => id !== by && id !== 'water');
  return liquid === undefined ? {} : { liquid };
};

/** Two things that meet, asked or told, or one that got into the other. */
const met: Reader = ({ plain, words, things }) => {
  const [a, b] = things;
  if (!a || !b || things.length > 2) return undefined;
  const behindIn = (t: { from: number }): boolean =>
    words.slice(Math.max(0, t.from - 2), t.from + 1).some((w) => INTO.has(w));
  const [what, into] = behindIn(b) || !behindIn(a) ? [a, b] : [b, a];
  if (what.liquid === undefined || what.liquid === 'water' || into.liquid === 'water') return undefined;
  const where = { intoLiquid: into.liquid, intoBottle: into.bottle };
  if (SUPPOSES.test(plain))
    return MIXES.test(plain) ? asIntent('what-if', { liquid: what.liquid, ...where }) : undefined;
  if (DENIES.test(plain) || AHEAD.test(plain)) return undefined;
  if (TOGETHER.test(plain) && into.liquid)
    return asIntent('what-if', { liquid: what.liquid, ...where, done: true });
  if (!behindIn(into) || !GOES_IN.test(plain) || BACK.test(plain)) return undefined;
  if (isBath(what.liquid) && into.bottle !== undefined)
    return asIntent('poured', { liquid: what.liquid, to: { kind: 'bottle', number: into.bottle } });
  return asIntent('contaminated', { liquid: what.liquid, ...where });
};
const INTO = new Set(['in', 'ins', 'im', 'zum', 'zur', 'zu', 'aufs', 'ueber', 'auf']);
const TOGETHER =
  /\b(?:zusammen\w*|vermischt|gemischt|ineinander\w*|beide[sn]? (?:verschuettet|ausgelaufen|umgekippt))\b/;
const BACK = /\bzurueck\w*\b/;
const AHEAD = /\b(?:giesse|schuette|kippe|gebe|will|moechte|gleich)\b/;

/** What lies where it does not belong. */
const spilled: Reader = ({ plain, liquids, things, volumeMl, place }) => {
  if (!SPILLED.test(plain) || SUPPOSES.test(plain) || DENIES.test(plain)) return undefined;
  const tank = /\b(?:dose|tank)\b/.test(plain) && LEAKS.test(plain);
  const bottle = things.find((t) => t.bottle !== undefined)?.bottle;
  const baths = [...new Set(liquids)];
  const share = SHARES.find(([word]) => word.test(plain))?.[1];
  const spill = (liquid: string | undefined) =>
    asIntent('spill', {
      ...(liquid && { liquid }),
      ...(bottle !== undefined && { bottle }),
      ...(volumeMl !== undefined ? { volumeMl } : share !== undefined ? { share } : {}),
      ...(place && { place }),
      ...(tank && { tank: true }),
      ...(bottle !== undefined &&
        volumeMl === undefined &&
        share === undefined &&
        SOME.test(plain) && { some: true }),
    });
  if (baths.length > 2 || (/\b(?:pulver|staub|thermometer)\b/.test(plain) && baths.length === 0))
    return undefined;
  if (baths.length === 0 && bottle === undefined && volumeMl === undefined && place === undefined && !tank)
    return /\bverschuettet\b|\bverkleckert\b/.test(plain) ? spill(undefined) : undefined;
  const all = (baths.length > 1 ? baths : [baths[0]]).flatMap((liquid) => spill(liquid) ?? []);
  return all.length > 1 ? { type: 'several', intents: all } : all[0];
};

const advice: Reader = ({ plain }) => {
  const [topic] = rowsIn(TOPICS, plain);
  return topic === undefined ? undefined : asIntent('ask-advice', { topic });
};

const READERS: readonly Reader[] = [cleaned, met, spilled, advice];
