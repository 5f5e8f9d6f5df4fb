import type { Named } from '../../../process/message.js';
import type { VesselRef } from '../../../world/vessel.js';

const decimal = (n: number, places: number): string => n.toFixed(places).replace('.', ',');
const short = (n: number): string => String(Math.round(n * 100) / 100).replace('.', ',');
const many = (n: number, one: string, more = `${one}n`): string => `${short(n)} ${n === 1 ? one : more}`;

/** Seconds → „2 Minuten 10 Sekunden“; rounds to a whole second. */
export function dauer(seconds: number): string {
  const total = Math.max(0, Math.round(seconds));
  const [h, m, s] = [Math.floor(total / 3600), Math.floor((total % 3600) / 60), total % 60];
  const parts = [
    h > 0 && many(h, 'Stunde'),
    m > 0 && many(m, 'Minute'),
    s > 0 && h === 0 && many(s, 'Sekunde'),
  ];
  return parts.filter(Boolean).join(' ') || '0 Sekunden';
}

/** °C → „41,1 Grad“. */
export const grad = (tempC: number): string => `${decimal(tempC, 1)} Grad`;

/** ml → „600 Milliliter“, „1,5 Liter“ from 1 litre up. */
export const menge = (volumeMl: number): string =>
  volumeMl >= 1000
    ? `${short(Math.round(volumeMl / 10) / 100)} Liter`
    : `${short(volumeMl < 20 ? Math.round(volumeMl * 10) / 10 : Math.round(volumeMl))} Milliliter`;

/** The well-known baths; one of a sheet of the user's own keeps its name. */
const NAMES: Readonly<Record<string, string>> = {
  prebath: 'Vorbad',
  developer: 'Entwickler',
  stop: 'Stoppbad',
  bleach: 'Bleichbad',
  fixer: 'Fixierbad',
  'final-rinse': 'Schlussbad',
  water: 'Wasser',
  'first-developer': 'Erstentwickler',
  'black-and-white-developer': 'Entwickler',
  'chlorine-bleach': 'Chlorreiniger',
  'vinegar-5': 'Essig',
  'any-acid': 'Säure',
  'any-alkali': 'Lauge',
  'any-cleaner': 'Reiniger',
  'household-ammonia': 'Ammoniak',
  'acid-cleaner': 'saurer Reiniger',
  'drain-cleaner': 'Abflussreiniger',
  'oven-cleaner': 'Backofenreiniger',
  'window-cleaner': 'Glasreiniger',
  'oxygen-bleach': 'Sauerstoffbleiche',
  'washing-up-liquid': 'Spülmittel',
  'methylated-spirit': 'Spiritus',
  'isopropyl-alcohol': 'Isopropanol',
  'hydrogen-peroxide-3': 'Wasserstoffperoxid',
  'lemon-juice': 'Zitronensaft',
  'sodium-bicarbonate': 'Natron',
};
/** Where only the English name of a bath came along. */
export const vomNamen = (english: string): string =>
  NAMES[english.replace(/ bath$/, '').replaceAll(' ', '-')] ?? NAMES[english.replaceAll(' ', '-')] ?? english;

const masculine = (name: string): boolean => name.toLowerCase().endsWith('entwickler');

export const name = (bath: Named): string => NAMES[bath.id] ?? bath.name;
/** nominative: „der Entwickler“ */
export const der = (bath: Named): string => {
  const said = name(bath);
  return bath.id === 'water' ? said : `${masculine(said) ? 'der' : 'das'} ${said}`;
};
/** accusative: „den Entwickler“ */
export const den = (bath: Named): string => der(bath).replace(/^der /, 'den ');

export const gross = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
export const liste = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} und ${words.at(-1)}`;
export const saetze = (...parts: (string | null | undefined | false)[]): string =>
  parts.filter(Boolean).join(' ');

const VESSELS: Readonly<Record<Exclude<VesselRef['kind'], 'bottle'>, string>> = {
  tank: 'die Dose',
  jug: 'den Messbecher',
  tub: 'das Wasserbad',
  tap: 'den Hahn',
  sink: 'den Ausguss',
} as Record<Exclude<VesselRef['kind'], 'bottle'>, string>;
/** accusative */
export const gefaess = (v: VesselRef): string =>
  v.kind === 'bottle' ? `Flasche ${v.number}` : VESSELS[v.kind];
