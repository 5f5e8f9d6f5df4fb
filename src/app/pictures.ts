import { labelText } from '../chemistry/coach/coach.js';
import type { Intent } from '../process/intent.js';
import type { AssistantState } from './assistant.js';
import type { Bench } from './bench.js';
import { curvesBraille, curvesSvg, plotOf } from './curves.js';
import type { MixState } from './desks/mix-desk.js';
import type { WarmState } from './desks/warm-desk.js';

export interface Picture {
  text: string;
  svg?: string;
}

/** What a screen shows beside the words: the bench's curves, a bottle's label; `svg` is a picture to keep. Null: nothing. */
export function pictureFor(
  intent: Intent,
  state: AssistantState,
  bench: Bench,
  atMs: number,
): Picture | null {
  switch (intent.type) {
    case 'show-curves': {
      const plot = plotOf(state.desks.warm as WarmState, bench.warm, atMs);
      return plot.series.length > 0 ? { text: curvesBraille(plot), svg: curvesSvg(plot) } : null;
    }
    case 'ask-label': {
      const { open, last } = state.desks.mix as MixState;
      const mix = open ?? last;
      return mix ? { text: labelText(mix) } : null;
    }
    default:
      return null;
  }
}
