import type { Intent } from '../../process/intent.js';
import type { World } from '../../world/records.js';
import type { BottleRef, LiquidId, VesselRef } from '../../world/vessel.js';
import type { AssistantState } from '../assistant.js';

/** Questions of one bath: where it is not named, of that which was spoken of last, else of what is in the tank or due. */
export function ofTopic(
  { recent, world, atWork }: AssistantState,
  intent: Intent,
  due: () => readonly Intent[],
): Intent {
  const asked = recent.findLast((r) => r.event.type === 'intent')?.event;
  if (intent.type === 'part' && asked?.type === 'intent' && asked.intent.type.startsWith('ask-')) {
    const { liquid, vessel } = intent;
    const of = liquid ?? vessel;
    const again = asked.intent;
    if ('of' in again && of) return { ...again, of };
    if ('liquid' in again && liquid) return { ...again, liquid };
    if (again.type === 'ask-bottle' && vessel?.kind === 'bottle') return { ...again, bottle: vessel.number };
  }
  // how warm it has to be: beside a mix that is what comes next of it
  const aim = intent.type === 'ask-target' && intent.liquid === undefined;
  if (aim && atWork === 'mix' && !world.tank.bath) return { type: 'ask-next' };
  const good = intent.type === 'ask-advice' && intent.topic === 'still-good';
  const named =
    ('liquid' in intent && intent.liquid !== undefined) ||
    ('bottle' in intent && intent.bottle !== undefined);
  if (!(good || OF_ONE_BATH.has(intent.type)) || named) return intent;
  const said = recent.flatMap((r) => (r.event.type === 'intent' ? [r.event.intent] : [])).slice(-TOPIC_LASTS);
  const spoken = [...said, intent]
    .map((i) => bathOf(i, world))
    .findLast((of) => of !== undefined && of !== 'water');
  const next = () => due().flatMap((d) => ('liquid' in d && d.liquid ? [d.liquid] : []))[0];
  const liquid = spoken ?? (good ? undefined : (world.tank.bath?.liquid ?? next()));
  return liquid === undefined || liquid === 'water' ? intent : ({ ...intent, liquid } as Intent);
}
const OF_ONE_BATH = new Set<Intent['type']>([
  'ask-life',
  'ask-volume',
  'ask-age',
  'ask-mixed',
  'ask-replenish',
]);
/** So many sentences back "it" may reach. */
const TOPIC_LASTS = 3;

/** The bath that a sentence was of: where something got into another, of that; a bottle stands for what it holds. */
function bathOf(intent: Intent, { bottles }: World): LiquidId | undefined {
  const { intoLiquid, intoBottle, bottle, liquid, of, to } = intent as Intent & Record<string, unknown>;
  const number = intoBottle ?? bottle ?? (to as VesselRef & Partial<BottleRef>)?.number;
  return [intoLiquid, typeof number === 'number' && bottles[number]?.liquid, liquid, of].find(
    (l): l is LiquidId => typeof l === 'string',
  );
}
