import type { Intent } from '../../../process/intent.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import { describeIntent } from '../english/describe.js';
import type { PhrasesOf } from '../phrases.js';
import { dauer, den, der, gefaess, grad, menge, name, vomNamen } from './units.js';

const bad = (id: LiquidId | undefined): { id: LiquidId; name: string } => ({
  id: id ?? '',
  name: id ?? 'das Bad',
});
const wer = (id: LiquidId | undefined): string => (id === undefined ? 'es' : der(bad(id)));
const wen = (id: LiquidId | undefined): string => (id === undefined ? 'es' : den(bad(id)));
const aus = (v: VesselRef | undefined): string => (v?.kind === 'bottle' ? ` aus Flasche ${v.number}` : '');
const nach = (v: VesselRef | undefined): string => (v === undefined ? '' : ` in ${gefaess(v)}`);

/** An intent as a short phrase to read back; one that German cannot type is named in English. */
export const beschreibe = (intent: Intent): string =>
  (phrases[intent.type] as ((intent: Intent) => string) | undefined)?.(intent) ?? describeIntent(intent);

const phrases: Partial<PhrasesOf<Intent, 'type'>> = {
  several: (intent) => intent.intents.map(beschreibe).join(', und '),
  unsure: (intent) => intent.candidates.map(beschreibe).join(', oder '),
  'begin-run': () => 'einen Lauf beginnen',
  'film-loaded': () => 'der Film ist eingelegt',
  'no-film': () => 'kein Film in der Dose',
  'next-step': () => 'weiter zum nächsten Schritt',
  'bath-in': (intent) => `${wer(intent.liquid)} ist drin`,
  'tank-empty': () => 'die Dose ist leer',
  'drain-now': () => 'jetzt abgießen',
  'pour-in': (intent) => `${wen(intent.liquid)} eingießen${aus(intent.from)}`,
  'pour-back': (intent) => `${wen(intent.liquid)} zurückgießen${nach(intent.to)}`,
  'pour-away': (intent) => `${wen(intent.liquid)} weggießen`,
  temperature: (intent) =>
    `${typeof intent.of === 'string' ? `${wer(intent.of)} hat ` : ''}${intent.tempC === undefined ? 'eine Temperatur' : grad(intent.tempC)}`,
  spill: (intent) => `verschüttet${intent.volumeMl === undefined ? '' : `: ${menge(intent.volumeMl)}`}`,
  'spill-cleaned': () => 'alles aufgewischt',
  'film-hung': () => 'der Film hängt',
  'close-run': () => 'den Lauf beenden',
  'hold-clock': () => 'die Uhr anhalten',
  'resume-clock': () => 'die Uhr weiterlaufen lassen',
  'bottle-holds': (intent) => `in Flasche ${intent.bottle ?? '?'} ist ${wer(intent.liquid)}`,
  poured: (intent) =>
    `${wer(intent.liquid)} kam${aus(intent.from)}${intent.to?.kind === 'tank' ? ' in die Dose' : nach(intent.to)}`,
  'bottle-empty': (intent) => `Flasche ${intent.bottle} ist leer`,
  contaminated: (intent) => `etwas kam hinein: ${vomNamen(intent.liquid)}`,
  hurt: () => 'jemand ist verletzt',
  'in-doubt': () => 'nicht sicher, was in der Dose ist',
  swapped: () => 'zwei Flaschen sind vertauscht',
  'left-out': (intent) => `ausgelassen: ${name(bad(intent.liquid))}`,
  'thermometer-reads': () => 'das Thermometer zeigt falsch',
  'tank-takes': (intent) => `die Dose fasst ${menge(intent.volumeMl)}`,
  'add-time': (intent) => `${dauer(intent.seconds)} mehr`,
  shorten: (intent) => `${dauer(intent.seconds)} weniger`,
  heater: (intent) => `die Heizung ist ${intent.on ? 'an' : 'aus'}`,
  away: () => 'kurz weg',
  undo: () => 'zurücknehmen',
  confirm: () => 'ja',
  cancel: () => 'nein',
};
