import { spokenDuration } from './units.js';
import type { WarmReady, WarmSubject } from './warm-message.js';

/** "the fixer", "bottle 3", "the tub"; the vessel when it holds nothing known. */
export function named(subject: WarmSubject, article: 'the' | '' = ''): string {
  const the = article === 'the' ? 'the ' : '';
  const v = subject.vessel;
  if (v?.kind === 'tank') return subject.liquid ? `${the}${subject.liquid} in the tank` : `${the}tank`;
  if (subject.liquid) return `${the}${subject.liquid}`;
  if (!v) return 'that';
  if (v.kind === 'bottle') return `bottle ${v.number}`;
  return `${the}${v.kind.replace('-', ' ')}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "36.4", "minus 3": a number the ear takes as degrees. */
export const degrees = (tempC: number): string => {
  const text = Math.abs(tempC) >= 100 ? String(Math.round(Math.abs(tempC))) : Math.abs(tempC).toFixed(1);
  return `${tempC < 0 ? 'minus ' : ''}${text.replace(/\.0$/, '')}`;
};

/** A rough time: whole minutes, whole hours from two; `exact` keeps the seconds. */
export function aboutTime(seconds: number, exact = false): string {
  if (exact) return spokenDuration(Math.round(seconds / 5) * 5);
  if (seconds < 45) return 'less than a minute';
  if (seconds < 50 * 60) return spokenDuration(Math.round(seconds / 60) * 60);
  if (seconds < 90 * 60) return spokenDuration(Math.round(seconds / 300) * 300);
  const hours = Math.round(seconds / 1800) / 2;
  return `${hours} hours`;
}

const minutes = (seconds: number): number => Math.round(seconds / 60);

/** "About 11 minutes". */
export const about = (seconds: number): string =>
  capital(seconds < 45 ? aboutTime(seconds) : `about ${aboutTime(seconds)}`);

/** "About 11 minutes to go", and the band when it is wide: ", between 8 and 16". */
export function range(r: Extract<WarmReady, { state: 'coming' }>): string {
  const toGo = `${about(r.inS)} to go`;
  if (r.latestS === null) return `${toGo}, perhaps much longer`;
  const wide = r.latestS - r.earliestS > Math.max(180, 0.4 * r.inS);
  return wide && minutes(r.latestS) > minutes(r.earliestS)
    ? `${toGo}, between ${minutes(r.earliestS)} and ${minutes(r.latestS)}`
    : toGo;
}

/** Shares of hot and cold as parts by volume: "3 parts hot to 2 parts cold". */
export function mostly(hotShare: number): string {
  let best = { hot: 1, cold: 1, off: 1 };
  for (let total = 1; total <= 10; total++) {
    const hot = Math.round(hotShare * total);
    const off = Math.abs(hotShare - hot / total) + total * 0.002;
    if (off < best.off) best = { hot, cold: total - hot, off };
  }
  const part = (n: number): string => `${n} part${n === 1 ? '' : 's'}`;
  if (best.cold === 0) return 'hot water alone';
  if (best.hot === 0) return 'cold water alone';
  return `${part(best.hot)} hot to ${part(best.cold)} cold`;
}
