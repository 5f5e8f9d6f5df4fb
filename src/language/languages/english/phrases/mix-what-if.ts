import type { MixMessage } from '../../../../chemistry/coach/messages.js';
import type { Finding, WhatIf } from '../../../../chemistry/contamination.js';
import type { Addition, ChangedTime, Fitness } from '../../../../chemistry/fitness.js';
import { list } from './units.js';

const matter: Readonly<Record<string, string>> = {
  thiosulfate: 'thiosulphate',
  ferricyanide: 'ferricyanide',
  ferrocyanide: 'ferrocyanide',
  Br: 'bromide',
  cd3: 'developing agent',
  cd4: 'developing agent',
  sulfite: 'sulphite',
  borate: 'borate',
  I: 'iodide',
  carbonate: 'carbonate',
  sulfate: 'acid',
  acetate: 'acid',
  citrate: 'acid',
  ammonia: 'ammonia',
  phosphate: 'phosphate',
};

const percent = (share: number): string => {
  const p = share * 100;
  return `${p < 10 ? p.toFixed(1) : Math.round(p)} percent`;
};
const grams = (g: number): string => `${g < 1 ? g.toFixed(2) : g.toFixed(1)} grams`;

/** "0.28 grams of sodium hydroxide", "150 millilitres of fresh ECN-2 developer". */
export const sayAddition = (a: Addition): string =>
  a.dry === true
    ? `the parts of the recipe for ${a.amount} millilitres, without the water`
    : a.unit === 'g'
      ? `${grams(a.amount)} of ${a.name}`
      : `${a.amount < 10 ? a.amount.toFixed(1) : Math.round(a.amount)} millilitres of ${a.name}`;

/** "twice as long, at least 60 seconds". */
export function sayTime(time: ChangedTime): string {
  const times =
    time.factor === 1 ? 'as long' : time.factor === 2 ? 'twice as long' : `${time.factor} times as long`;
  return time.atLeastS === undefined ? times : `${times}, at least ${time.atLeastS} seconds`;
}

/** What to do with a bath, in one or two sentences. */
export function sayVerdict(f: Fitness): string {
  switch (f.verdict) {
    case 'fit':
      return 'Use it.';
    case 'fit-changed-time':
      return f.time === undefined ? 'Use it, longer.' : `Use it ${sayTime(f.time)}: ${f.time.why}.`;
    case 'restorable':
      return `Not as it is. To bring it back, stir in ${list(f.add.map(sayAddition))}.`;
    case 'discard':
      return 'Discard it.';
    case 'unknown':
      return 'Do not use it, and pour nothing on it.';
  }
}

/** Most pairs said of one question; the rest is in the cautions of each. */
const dangersSaid = 2;

/** Dangers and figures first, then the verdict, then what it rests on. Both baths are taken as fresh, and that is said. */
export function sayWhatIf(w: WhatIf): string {
  const { fitness } = w;
  const out: string[] = [];
  const pressure = fitness.openLid ? 'It gives off gas: keep the lid off, and let it foam out.' : null;
  const dangers = w.dangers.filter((d) => d.danger !== 'pressure' || pressure === null);
  out.push(...dangers.slice(0, dangersSaid).map((d) => d.spoken));
  if (pressure !== null) out.push(pressure);
  if (w.into.name === 'water') {
    out.push(
      `That is ${w.poured.name} thinned to ${percent(1 - w.share)}: no bath, but waste. Pour it away.`,
    );
    return out.join(' ');
  }
  const unknown = fitness.findings.filter((f) => f.id === 'unknown');
  if (unknown.length > 0) {
    out.push(...unknown.map((f) => `${capital(f.why)}.`));
    out.push(
      'Do not pour it. If it has happened, treat the bath as spoiled. No acid and no chlorine cleaner ever on bleach or fixer.',
    );
    return out.join(' ');
  }
  out.push(...figures(w), sayVerdict(fitness), `That is reckoned for fresh baths; ${restsOn(w)}.`);
  if (fitness.verdict === 'discard') out.push('Local rules say where it goes.');
  return out.join(' ');
}

const amountSaid = (amount: number, unit: 'g' | 'ml'): string => {
  const digits = amount < 1 ? 2 : amount < 10 ? 1 : 0;
  return `${amount.toFixed(digits)} ${unit === 'g' ? 'grams' : 'millilitres'}`;
};

/** From where on it shows, from where on the bath is gone, why, and what that is worth. */
export function sayTolerance(m: Extract<MixMessage, { id: 'until-spoiled' }>): string {
  const { most } = m;
  const [why] = most.fitness.reasons;
  const [danger] = most.fitness.dangers;
  const because = why === undefined || danger?.spoken === why ? '' : `: ${why}`;
  const unknown = most.fitness.findings.find((f) => f.id === 'unknown');
  if (unknown) return `${capital(unknown.why)}: pour none of it, and none can be called harmless.`;
  if (!most.fitNow)
    return `The ${m.into} is not fit as it is${why === undefined ? '' : `: ${why}`}. ${sayVerdict(most.fitness)}`;
  const bath = `${Math.round(m.volumeMl)} millilitres of ${m.into}`;
  const gone =
    most.spoiledFrom === null
      ? `Even as much ${m.poured} again does not ruin ${bath} by my limits.`
      : most.spoiledFrom === 0
        ? `None: any ${m.poured} ends ${bath}${because}.`
        : `About ${amountSaid(most.spoiledFrom, most.unit)} of ${m.poured}${m.already > 0 ? ' more' : ''} ends ${bath}${because}.`;
  const felt =
    most.feltFrom === null || most.feltFrom === 0 || most.feltFrom === most.spoiledFrom
      ? ''
      : ` It shows from about ${amountSaid(most.feltFrom, most.unit)} on.`;
  const doubt = `That is reckoned for ${m.told ? '' : 'a litre of '}fresh bath${m.already > 0 ? ' with what is in it by my record' : ''}; ${
    most.fitness.sources.length === 0
      ? 'no limit was reached'
      : `the limits are ${limitsFrom(most.fitness.sources)}`
  }, ${most.spoiledFrom === 0 ? 'and a trace' : 'so half of it'} may be too much. It is no leave to pour.`;
  return `${danger ? `${danger.spoken} ` : ''}${gone}${felt} ${doubt}`;
}

function figures(w: WhatIf): string[] {
  const out: string[] = [];
  if (w.strengthLost !== null && w.working !== null) {
    if (w.strengthLost >= 0.0005)
      out.push(
        `The ${w.into.name} would lose ${percent(w.strengthLost)} of its ${matter[w.working] ?? w.working}.`,
      );
  } else if (w.share < 0.9995) out.push(`The ${w.into.name} would be thinned by ${percent(1 - w.share)}.`);
  for (const r of w.reactions) {
    if (r.id === 'agent-oxidised')
      out.push(`Ferricyanide would burn ${percent(r.share)} of the developing agent.`);
  }
  const ph = w.findings.find((f) => f.id === 'ph' && f.unit === 'pH');
  if (ph !== undefined && w.formulaKnown && w.phBefore !== null && w.phAfter !== null) {
    const [before, after] = [w.phBefore.toFixed(2), w.phAfter.toFixed(2)];
    out.push(before === after ? `pH stays at ${after}.` : `pH ${before} would go to ${after}.`);
  }
  const foreign = w.findings.filter((f) => f.id === 'foreign' && f.level !== 'use').sort(worstFirst);
  for (const f of foreign.slice(0, 2)) {
    const named = matter[f.of ?? ''] ?? f.of ?? '';
    if (f.unit === 'g/l') out.push(`${grams(f.value)} of ${named} per litre: ${f.why}.`);
    else if (foreign.length === 1) out.push(`${capital(f.why)}.`);
  }
  return out;
}

const order = { discard: 0, unknown: 1, care: 2, use: 3 } as const;
const worstFirst = (a: Finding, b: Finding): number =>
  order[a.level] - order[b.level] || Number(b.unit === 'g/l') - Number(a.unit === 'g/l');

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Short source for the ear: the publication only where figures of it set the verdict, and how it is known. */
const restsOn = (w: WhatIf): string => `the limits are ${limitsFrom(w.restsOn)}`;

function limitsFrom(sources: readonly string[]): string {
  const from = sources.filter((s) => s.includes('H-24.07'));
  if (from.length === 0) return 'common practice';
  return from.length === sources.length
    ? 'from memory of Kodak H-24.07'
    : 'common practice, and from memory of Kodak H-24.07';
}
