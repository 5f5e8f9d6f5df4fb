import { freshlyIn, phraseWarm } from '../../../language/languages/english/phrases/warm.js';
import type {
  StartVerdict,
  WarmCost,
  WarmItem,
  WarmMessage,
} from '../../../language/languages/english/phrases/warm-message.js';
import { isWithin } from '../../../thermal/aim.js';
import { compensation } from '../../../thermal/rate.js';
import { rateLaws } from '../../../thermal/rate-data.js';
import { outlookOf } from './items.js';
import { developerOf, opened, targetOf, type WarmConfig, type WarmState } from './state.js';

export interface DeveloperReadiness {
  verdict: StartVerdict;
  item: WarmItem;
  cost: WarmCost | null;
  message: WarmMessage;
  /** the same in words, ready to speak */
  words: string;
}

/** A reading older than this no longer proves that the developer is in tolerance, s. */
const staleAfterS = 15 * 60;

/**
 * May the developer be poured? Null when no vessel is known to hold it. `ready`: read, and within the sheet's limits
 * by reckoning; anything else is a reason to ask before the start.
 */
export function developerReadiness(
  before: WarmState,
  config: WarmConfig,
  atMs: number,
): DeveloperReadiness | null {
  const state = opened(before, config, atMs);
  const target = targetOf(state, config, developerOf(config));
  const bath = outlookOf(state, config, atMs)?.baths.find((b) => b.key === target?.key);
  if (!bath) return null;
  const { item } = bath;
  const verdict = verdictOf(item);
  const cost = verdict === 'too-cold' || verdict === 'too-warm' ? costOf(config, item) : null;
  const message: WarmMessage = { id: 'warm-start', item, verdict, cost };
  return { verdict, item, cost, message, words: phraseWarm(message) };
}

function verdictOf(item: WarmItem): StartVerdict {
  const { aim, readAgoS, tempC } = item;
  if (!aim) return 'ready';
  if (readAgoS === null) return 'unread';
  if (freshlyIn(item)) return 'ready';
  if (!isWithin(aim, tempC)) return tempC < aim.lowC ? 'too-cold' : 'too-warm';
  const sure = item.ready.state === 'in' && item.ready.sure;
  return sure || readAgoS <= staleAfterS ? 'ready' : 'doubtful';
}

function costOf(config: WarmConfig, item: WarmItem): WarmCost | null {
  if (!config.rate || !item.aim) return null;
  const law = rateLaws[config.rate];
  const offer = compensation(law, config.developS ?? 0, item.aim, item.tempC);
  if (offer.offer === 'none-needed') return null;
  return {
    shift: offer.offer === 'no' ? offer.shift : (config.developS ?? 0) / offer.seconds - 1,
    colour: law.colour,
    timeS: offer.offer === 'time' && config.developS ? offer.seconds : null,
  };
}
