import type { Intent } from '../../../process/intent.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import { describeIntent } from '../english/describe.js';
import { den, der, gefaess, grad, menge } from './units.js';

const bad = (id: LiquidId | undefined): { id: LiquidId; name: string } => ({
  id: id ?? '',
  name: id ?? 'das Bad',
});
const wer = (id: LiquidId | undefined): string => (id === undefined ? 'es' : der(bad(id)));
const wen = (id: LiquidId | undefined): string => (id === undefined ? 'es' : den(bad(id)));
const aus = (v: VesselRef | undefined): string => (v?.kind === 'bottle' ? ` aus Flasche ${v.number}` : '');
const nach = (v: VesselRef | undefined): string => (v === undefined ? '' : ` in ${gefaess(v)}`);

/** An intent as a short phrase to read back; one that German cannot type is named in English. */
export function beschreibe(intent: Intent): string {
  switch (intent.type) {
    case 'several':
      return intent.intents.map(beschreibe).join(', und ');
    case 'unsure':
      return intent.candidates.map(beschreibe).join(', oder ');
    case 'begin-run':
      return 'einen Lauf beginnen';
    case 'film-loaded':
      return 'der Film ist eingelegt';
    case 'no-film':
      return 'kein Film in der Dose';
    case 'next-step':
      return 'weiter zum nächsten Schritt';
    case 'bath-in':
      return `${wer(intent.liquid)} ist drin`;
    case 'tank-empty':
      return 'die Dose ist leer';
    case 'drain-now':
      return 'jetzt abgießen';
    case 'pour-in':
      return `${wen(intent.liquid)} eingießen${aus(intent.from)}`;
    case 'pour-back':
      return `${wen(intent.liquid)} zurückgießen${nach(intent.to)}`;
    case 'pour-away':
      return `${wen(intent.liquid)} weggießen`;
    case 'temperature':
      return `${typeof intent.of === 'string' ? `${wer(intent.of)} hat ` : ''}${intent.tempC === undefined ? 'eine Temperatur' : grad(intent.tempC)}`;
    case 'spill':
      return `verschüttet${intent.volumeMl === undefined ? '' : `: ${menge(intent.volumeMl)}`}`;
    case 'spill-cleaned':
      return 'alles aufgewischt';
    case 'film-hung':
      return 'der Film hängt';
    case 'close-run':
      return 'den Lauf beenden';
    case 'hold-clock':
      return 'die Uhr anhalten';
    case 'resume-clock':
      return 'die Uhr weiterlaufen lassen';
    case 'bottle-holds':
      return `in Flasche ${intent.bottle ?? '?'} ist ${wer(intent.liquid)}`;
    case 'confirm':
      return 'ja';
    case 'cancel':
      return 'nein';
    default:
      return describeIntent(intent);
  }
}
