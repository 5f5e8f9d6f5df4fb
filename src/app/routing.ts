import { FILM_IN_PROCESS } from '../language/meaning/situations.js';
import type { DeskId, Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { leavesTheRoom } from '../process/remarks.js';
import type { LiquidId } from '../world/vessel.js';
import type { Core } from './assistant.js';

/** The situations that each desk opens. */
export type OpenSituations = Partial<Record<DeskId, Situation[]>>;

/** Which desk serves which intent; an intent missing here belongs to the run. */
const served: Partial<Record<Intent['type'], DeskId[]>> = {
  'mix-start': ['mix'],
  'mix-plan': ['mix'],
  'mix-next': ['mix'],
  'mix-where': ['mix'],
  'ask-amount': ['mix'],
  reading: ['mix'],
  dissolved: ['mix'],
  'take-out': ['mix'],
  'scale-zeroed': ['mix'],
  // what was said once is put right before; this is of every weighing
  correct: ['mix'],
  'ph-reading': ['mix'],
  'made-up': ['mix'],
  'ask-label': ['mix'],
  'mix-stop': ['mix'],
  'shelf-have': ['mix'],
  'shelf-add': ['mix'],
  'jar-is': ['mix'],
  // what got into a bath goes before how long it would keep
  'ask-keeping': ['bottles', 'mix'],
  'ask-checks': ['mix'],
  'ask-control': ['mix'],
  'ask-shopping': ['mix'],
  'what-if': ['mix'],
  temperature: ['warm'],
  'all-at': ['warm'],
  'ask-ready': ['warm'],
  'ask-temperature': ['warm'],
  'tub-set': ['warm'],
  heater: ['warm'],
  'vessel-moved': ['warm'],
  'ask-blend': ['warm'],
  'show-curves': ['warm'],
  'ask-bottle': ['bottles'],
  'ask-bottles': ['bottles'],
  'ask-volume': ['bottles'],
  'ask-age': ['bottles'],
  'ask-mixed': ['bottles'],
  'ask-fullest': ['bottles'],
  'ask-life': ['bottles'],
  'ask-next-roll': ['bottles'],
  'ask-replenish': ['bottles'],
  'bath-history': ['bottles'],
  'bath-ph': ['bottles'],
  'bottle-discarded': ['bottles'],
  'bottle-named': ['bottles'],
  'ask-runs': ['bottles'],
  remind: ['timers'],
  'ask-timers': ['timers'],
  'cancel-timer': ['timers'],
};

/** While a mix is open and no film is in the process, these speak to the mixing bench. */
const sharedWithMix: Intent['type'][] = [
  'next-step',
  'skip',
  'ask-next',
  'ask-where',
  'stop',
  'ask-cautions',
];

const answers: Intent['type'][] = ['confirm', 'cancel', 'override'];

/**
 * The desks that hear an intent, in order. A bare confirm, cancel or override goes to the desk that asked last
 * among those with an open question.
 */
export function addressees(
  intent: Intent,
  order: readonly DeskId[],
  open: OpenSituations,
  {
    asking,
    atWork,
    world,
    making,
    inHand,
  }: Pick<Core, 'asking' | 'atWork' | 'world'> & { making: LiquidId | null; inHand: DeskId | null },
): DeskId[] {
  if (answers.includes(intent.type))
    return [whoAsked(order, open, asking, intent.type === 'cancel' ? inHand : null)];
  // a mix that was left open for the run does not catch the run's words
  const mixing = (open.mix?.includes('mixing') ?? false) && (atWork !== 'run' || world.run === null);
  const filmInProcess = (open.run ?? []).some((s) => FILM_IN_PROCESS.includes(s));
  const mixesFirst = mixing && !filmInProcess;
  if (intent.type === 'part' && asking === 'warm' && open.warm?.includes('challenged')) return ['warm'];
  const whereTo = intent.type === 'part' || (intent.type === 'pour-between' && intent.liquid === undefined);
  if (whereTo) return [mixesFirst && !open.run?.includes('challenged') ? 'mix' : 'run'];
  if (intent.type === 'ask-advice' && intent.topic === 'powder-spilled')
    return mixesFirst ? ['mix'] : ['run'];
  if (intent.type === 'ask-advice' && intent.topic === 'good-after-all')
    return [mixesFirst ? 'mix' : 'bottles'];
  if (intent.type === 'ask-advice' && intent.topic === 'how-much-spilled') return ['bottles'];
  if (intent.type === 'ask-advice' && leavesTheRoom(intent.topic))
    return mixesFirst ? ['mix', 'run'] : ['run'];
  // what got into the jug, or into the bath that is being made in it
  if (intent.type === 'contaminated' && making !== null && intent.intoBottle === undefined) {
    const { intoVessel, intoLiquid } = intent;
    if (intoVessel === 'jug' || (intoVessel === undefined && intoLiquid === making && mixing)) return ['mix'];
  }
  // what was made is in a bottle
  if (
    intent.type === 'poured' &&
    mixesFirst &&
    intent.to?.kind === 'bottle' &&
    intent.volumeMl === undefined
  ) {
    const { from, liquid, share } = intent;
    const ofIt = liquid === undefined || liquid === making;
    if (ofIt && share === undefined && (from === undefined || from.kind === 'jug')) return ['mix'];
  }
  // before a run there is none to be closed
  if (intent.type === 'close-run' && mixesFirst && world.run === null) return ['mix'];
  // the water in the mixing jug
  if (intent.type === 'temperature' && intent.of === 'water' && mixesFirst) return ['mix'];
  // while a bath only has to be turned, "next" is of the mix that was begun meanwhile
  const meanwhile =
    atWork === 'mix' &&
    (intent.type === 'next-step' || intent.type === 'skip') &&
    !open.run?.includes('draining');
  if (sharedWithMix.includes(intent.type) && (mixesFirst || (mixing && meanwhile))) return ['mix'];
  if (intent.type === 'ask-cautions' && intent.substance && intent.substance !== 'water') return ['mix'];
  return served[intent.type] ?? ['run'];
}

/** `inHand`: whose act is called off where that is newer than what others asked before. */
function whoAsked(
  order: readonly DeskId[],
  open: OpenSituations,
  asking: DeskId | null,
  inHand: DeskId | null,
): DeskId {
  const challenged = order.filter((id) => open[id]?.includes('challenged'));
  if (asking && challenged.includes(asking)) return asking;
  if (inHand) return inHand;
  if (challenged[0]) return challenged[0];
  return open.mix?.includes('mixing') ? 'mix' : 'run';
}
