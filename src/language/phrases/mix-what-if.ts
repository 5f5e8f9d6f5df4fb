import type { Finding, WhatIf } from '../../chemistry/contamination.js';

const matter: Readonly<Record<string, string>> = {
  thiosulfate: 'thiosulphate',
  ferricyanide: 'ferricyanide',
  Br: 'bromide',
  cd3: 'developing agent',
  sulfite: 'sulphite',
  borate: 'borate',
  I: 'iodide',
  carbonate: 'carbonate',
  sulfate: 'acid',
  acetate: 'acid',
  citrate: 'acid',
};

const verdicts = {
  use: 'Use it.',
  care: 'Use it with care.',
  discard: 'Discard it.',
} as const;

const percent = (share: number): string => {
  const p = share * 100;
  return `${p < 10 ? p.toFixed(1) : Math.round(p)} percent`;
};

const ruling = (f: Finding): boolean => f.id === 'foreign' || f.id === 'danger';

/** Figures first, then the verdict, then what it rests on. Both baths are taken as fresh, and that is said. */
export function sayWhatIf(w: WhatIf): string {
  const out: string[] = w.dangers.filter((d) => d.danger !== 'foam').map((d) => d.spoken);
  if (w.strengthLost !== null && w.working !== null) {
    out.push(
      `The ${w.into.name} would lose ${percent(w.strengthLost)} of its ${matter[w.working] ?? w.working}.`,
    );
  } else out.push(`The ${w.into.name} would be thinned by ${percent(1 - w.share)}.`);
  for (const r of w.reactions) {
    if (r.id === 'agent-oxidised')
      out.push(`Ferricyanide would burn ${percent(r.share)} of the developing agent.`);
  }
  if (w.filmsLeft !== null && w.verdict !== 'use') {
    const films = Math.floor(w.filmsLeft);
    out.push(
      `What is left could bleach the silver of ${films === 1 ? '1 film' : `${films} films`} at most; more would keep silver.`,
    );
  }
  const ph = w.findings.find((f) => f.id === 'ph');
  if (ph !== undefined && w.phBefore !== null && w.phAfter !== null) {
    const [before, after] = [w.phBefore.toFixed(2), w.phAfter.toFixed(2)];
    out.push(before === after ? `pH stays at ${after}.` : `pH ${before} would go to ${after}.`);
  }
  for (const f of w.findings) {
    if (f.id !== 'foreign' || f.level === 'use') continue;
    out.push(
      `${f.value < 1 ? f.value.toFixed(2) : f.value.toFixed(1)} grams of ${matter[f.of ?? ''] ?? f.of} per litre: ${f.why}.`,
    );
  }
  out.push(verdicts[w.verdict], `That is reckoned for fresh baths; ${restsOn(w)}.`);
  if (w.verdict === 'discard') out.push('Local rules say where it goes.');
  return out.join(' ');
}

/** Short source for the ear: the publication when a figure of it decided, else common practice. */
function restsOn(w: WhatIf): string {
  const published = w.restsOn.some((s) => s.includes('H-24.07'));
  if (w.verdict !== 'use' && w.findings.every((f) => f.level !== w.verdict || ruling(f))) {
    return 'the limit is common practice';
  }
  return published ? 'the limits follow Kodak H-24.07' : 'the limits are common practice';
}
