/** Quantities as short spoken English that is also good to read: digits, full unit words. */

const plural = (n: number, unit: string): string => `${trim(n)} ${unit}${n === 1 ? '' : 's'}`;

/** At most two decimals, no trailing zeros. */
const trim = (n: number): string => String(Math.round(n * 100) / 100);

/** A sentence without its full stop, to stand inside another. */
export const bare = (text: string): string => text.replace(/[.\s]+$/, '');

/** Seconds → "2 minutes 10 seconds", "45 seconds", "1 hour 5 minutes"; rounds to a whole second. */
export function spokenDuration(seconds: number): string {
  const total = Math.max(0, Math.round(seconds));
  const h = Math.floor(total / 3600);
  const m = Math.floor((total % 3600) / 60);
  const s = total % 60;
  const parts = [
    h > 0 && plural(h, 'hour'),
    m > 0 && plural(m, 'minute'),
    s > 0 && h === 0 && plural(s, 'second'),
  ];
  return parts.filter((p) => p !== false).join(' ') || '0 seconds';
}

/** °C → "41.1 degrees". */
export const spokenTemp = (tempC: number): string => `${tempC.toFixed(1)} degrees`;

/** ml → "600 millilitres", "1.5 litres" from 1 litre up; below 20 millilitres, what a syringe measures, to a tenth. */
export const spokenVolume = (volumeMl: number): string =>
  volumeMl >= 1000
    ? plural(Math.round(volumeMl / 10) / 100, 'litre')
    : plural(volumeMl < 20 ? Math.round(volumeMl * 10) / 10 : Math.round(volumeMl), 'millilitre');

/** g → "2.01 grams". Keeps the decimals asked for. */
export const spokenMass = (massG: number, decimals = 2): string =>
  `${massG.toFixed(decimals)} gram${Number(massG.toFixed(decimals)) === 1 ? '' : 's'}`;

/** "The stop bath, the bleach and the fixer". */
export const list = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Sentences in a row, none of them twice: a caution belongs to several parts of what is said. */
export const sentences = (...parts: (string | null | false | undefined)[]): string => {
  const all = parts.flatMap((part) => (part ? part.split(/(?<=[.!?]) (?=[A-Z])/) : []));
  return [...new Set(all)].join(' ');
};
