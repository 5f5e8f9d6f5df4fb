import { gramsPer, kitchenMl } from '../chemistry/quantities.js';
import { disposalOf } from '../chemistry/safety/disposal.js';
import { otherForm, substanceById } from '../chemistry/substances.js';
import {
  spokenDuration,
  spokenMass,
  spokenTemp,
  spokenVolume,
} from '../language/languages/english/phrases/units.js';
import type { CommandRecord } from '../language/records.js';
import type { ConvertUnit, Intent } from '../process/intent.js';
import { answersItself, tellsSomething } from '../process/remarks.js';
import type { ProcessSheet } from '../process/sheet.js';
import { tempState } from '../process/temperature.js';
import { celsiusOfFahrenheit, fahrenheitOf } from '../thermal/scales.js';
import { formulasHold } from '../world/contamination.js';
import { liquidById } from '../world/liquids.js';

/** An answer to talk: a sentence, and what it tells of the sink; or the intent of a desk that can answer it. */
export type TalkAnswer = { say: string; tells?: Intent } | { as: Intent };

export interface TalkContext {
  records: readonly CommandRecord[];
  sheet: ProcessSheet;
  /** the wall clock, ms since 1970, and how it is shown */
  wallMs: number;
}

/** The answers that need no desk; null for what is not talk. Pure. */
export function talkAnswer(intent: Intent, { records, sheet, wallMs }: TalkContext): TalkAnswer | null {
  switch (intent.type) {
    case 'ask-advice': {
      // this hangs on where the film stands, and on what a bottle has been through
      if (answersItself(intent.topic)) return null;
      if (intent.topic === 'leaking') return { as: { type: 'spill', tank: true } };
      // another form of the same salt is no other salt
      if (intent.topic === 'instead' && intent.liquid && otherForm(intent.liquid, intent.substance))
        return { as: { type: 'ask-amount', substance: intent.liquid } };
      const record = records.find((r) => r.fixed.topic === intent.topic);
      return record?.answer === undefined
        ? null
        : {
            say: [record.answer, record.more].filter(Boolean).join(' '),
            ...(tellsSomething(intent.topic) && { tells: intent }),
          };
    }
    case 'ask-target':
      return intent.tempC === undefined ? null : { say: verdictOn(intent.tempC, intent.liquid, sheet) };
    case 'ask-clock':
      return { say: `It is ${new Date(wallMs).toTimeString().slice(0, 5)}.` };
    case 'ask-convert':
      return { say: converted(intent.value, intent.unit) };
    case 'ask-bottle-of':
      return { as: intent.liquid === undefined ? { type: 'ask-next' } : { ...intent, type: 'ask-volume' } };
    case 'ask-actual':
      return { as: { ...intent, type: 'ask-film', ...(intent.liquid && { about: 'time' }) } };
    case 'ask-end':
      return { as: { type: 'ask-where' } };
    case 'ask-agitation':
      return {
        say: 'I call every agitation: at the start for longer, then at each interval. Until the call, rest.',
      };
    case 'ask-reason':
      return { as: { type: 'say-again' } };
    case 'ask-disposal':
      return { say: disposalOf(intent.liquid, !formulasHold(sheet)).join(' ') };
    case 'ask-notes':
      return { say: 'Your notes stand with the run; tankside runs shows them.' };
    case 'drained-late':
      return { as: { type: 'note', text: `drained ${spokenDuration(intent.seconds)} late` } };
    case 'contaminated': {
      const { type: _type, intoVessel, ...met } = intent;
      const { intoBottle, intoLiquid } = met;
      // what is known changes what stands at the sink, and into which bottle is asked; anything else is reckoned
      const told = [intoVessel, intoBottle, intoLiquid].some((into) => into !== undefined);
      return told || liquidById(intent.liquid) || substanceById(intent.liquid)
        ? null
        : { as: { type: 'what-if', ...met } };
    }
    case 'greeting':
      return { say: 'Hello there.' };
    case 'thanks':
      return { say: "You're welcome." };
    case 'busy':
      return { as: { type: 'away' } };
    case 'ask-identity':
      return { say: 'I am tankside, the assistant at your sink. Say help to hear what you can say.' };
    default:
      return null;
  }
}

/** How a temperature stands to the bath that was named, else to the one whose aim is nearest. */
function verdictOn(tempC: number, liquid: string | undefined, { steps }: ProcessSheet): string {
  const [nearest] = steps
    .flatMap(({ temp, name, liquid: of, kind }) =>
      temp && kind === 'bath' && (liquid ?? of) === of ? [{ temp, name }] : [],
    )
    .toSorted((a, b) => Math.abs(a.temp.aimC - tempC) - Math.abs(b.temp.aimC - tempC));
  if (!nearest) return 'The sheet gives no temperature for that.';
  const { temp, name } = nearest;
  const state = tempState(temp, tempC);
  const at = `${spokenTemp(tempC)} for the ${name}`;
  if (state === 'in') return `${at}: in tolerance.`;
  if (state === 'near') return `${at}: off by no more than a thermometer can be.`;
  return `${at} is ${spokenTemp(Math.abs(tempC - temp.aimC))} too ${state}: aim ${spokenTemp(temp.aimC)}.`;
}

/** "100 Fahrenheit is 37.8 degrees." Kitchen measures differ between countries: both are said. */
function converted(value: number, unit: ConvertUnit): string {
  if (unit === 'fahrenheit') return `${value} Fahrenheit is ${spokenTemp(celsiusOfFahrenheit(value))}.`;
  if (unit === 'celsius') return `${value} degrees is ${fahrenheitOf(value).toFixed(1)} Fahrenheit.`;
  const name = `${value} ${unit === 'oz' ? 'ounce' : unit.replace('-', ' ')}${value === 1 ? '' : 's'}`;
  const gram = gramsPer(unit);
  if (gram !== undefined) return `${name} is ${spokenMass(value * gram)}.`;
  const ml = kitchenMl[unit];
  if (ml === undefined) throw new Error(`No measure ${unit}.`);
  return `${name} is ${spokenVolume(value * ml.us)} in America, ${spokenVolume(value * ml.imperial)} in Britain.`;
}
