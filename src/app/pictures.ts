import { labelText } from '../chemistry/coach/coach.js';
import type { Intent } from '../process/intent.js';
import { curvesBraille } from '../screen/pictures/braille.js';
import type { AssistantState } from './assistant.js';
import type { Bench } from './bench.js';
import type { MixKept } from './desks/mix-desk.js';
import { plotOf } from './desks/warm/plot-data.js';
import { seen, type WarmKept } from './desks/warm-desk.js';

export interface Picture {
  text: string;
  /** name of the picture that is worth keeping as a file */
  keep?: 'curves';
}

/** What a screen shows beside the words: the bench's curves, a bottle's label; Null: nothing. */
export function pictureFor(
  intent: Intent,
  state: AssistantState,
  bench: Bench,
  atMs: number,
): Picture | null {
  switch (intent.type) {
    case 'show-curves': {
      const plot = plotOf(seen(state.desks.warm as WarmKept, state.world), bench.warm, atMs);
      return plot.series.length > 0 ? { text: curvesBraille(plot), keep: 'curves' } : null;
    }
    case 'ask-label': {
      const { open, last } = state.desks.mix as MixKept;
      const mix = open ?? last;
      return mix ? { text: labelText(mix) } : null;
    }
    default:
      return null;
  }
}
