import { type Substance, substanceById } from '../substances.js';

/**
 * Hazard statements by code. source: UN Globally Harmonized System, rev. 9 (2021), annex 3, and CLP Regulation (EC)
 * 1272/2008, annexes II and III (EUH codes), from memory; in our short form, for wet hands.
 */
export const hazardStatements: Readonly<Record<string, string>> = {
  H226: 'flammable liquid and vapour',
  H290: 'eats metal',
  H301: 'toxic if swallowed',
  H302: 'harmful if swallowed',
  H314: 'burns skin and eyes severely',
  H315: 'irritates the skin',
  H317: 'can cause a lasting skin allergy',
  H318: 'damages the eyes severely',
  H319: 'irritates the eyes badly',
  H335: 'irritates the airways',
  H360FD: 'may harm fertility and the unborn child',
  H372: 'harms organs when swallowed again and again',
  H410: 'very toxic to water life, for long',
  H411: 'toxic to water life, for long',
  H412: 'harmful to water life, for long',
  H225: 'highly flammable liquid and vapour',
  H272: 'feeds fire',
  H304: 'can kill when swallowed and drawn into the lungs',
  H311: 'toxic on the skin',
  H312: 'harmful on the skin',
  H330: 'fatal to breathe',
  H331: 'toxic to breathe',
  H332: 'harmful to breathe',
  H334: 'can cause asthma when breathed',
  H336: 'makes drowsy',
  H340: 'may damage genes',
  H341: 'suspected of damaging genes',
  H350: 'may cause cancer',
  H361d: 'suspected of harming the unborn child',
  H373: 'may harm organs when met again and again',
  H400: 'very toxic to water life',
  H200: 'can explode',
  H220: 'burns as a gas',
  H270: 'feeds fire as a gas',
  H271: 'can cause fire or explosion',
  H280: 'gas under pressure',
  H300: 'fatal if swallowed',
  H310: 'fatal on the skin',
  H351: 'suspected of causing cancer',
  EUH031: 'gives off a toxic gas with acid',
  EUH032: 'gives off a very toxic gas with acid',
};

/** Which of these asks for more than gloves and goggles. */
const ventilate = new Set(['H335', 'H330', 'H331', 'H334', 'EUH031', 'EUH032', 'H225', 'H226']);

export const deference = 'The safety data sheet and your local rules decide.';
export const emergency =
  'If someone is hurt, follow the safety data sheet and call your poison centre or the emergency number.';

/** Short warnings for one substance, worst first; empty when it is not classified. */
export function hazardsOf(s: Substance): { code: string; spoken: string }[] {
  const worst = [
    'H330',
    'EUH032',
    'H314',
    'H350',
    'H334',
    'H301',
    'H331',
    'H360FD',
    'H317',
    'EUH031',
    'H318',
    'H272',
  ];
  const rank = (c: string): number => (worst.includes(c) ? worst.indexOf(c) : worst.length);
  return [...s.hazards]
    .sort((a, b) => rank(a) - rank(b))
    .map((code) => ({ code, spoken: hazardStatements[code] ?? code }));
}

/** One printed line: name, codes, words. */
export function hazardLine(s: Substance): string | null {
  const found = hazardsOf(s);
  if (found.length === 0) return null;
  return `${s.name}: ${found.map((h) => `${h.spoken} (${h.code})`).join('; ')}`;
}

export const needsAir = (ids: readonly string[]): boolean =>
  ids.some((id) => substanceById(id)?.hazards.some((h) => ventilate.has(h)) === true);

/** A part of a mixture below its limit no longer carries the statement. source: CLP Regulation, annex I, generic and specific concentration limits, from memory */
const concentrationLimits: Readonly<
  Record<string, { percent: number; becomes?: { percent: number; code: string } }>
> = {
  H290: { percent: 5 },
  H301: { percent: 25 },
  H302: { percent: 25 },
  H314: { percent: 5, becomes: { percent: 1, code: 'H319' } },
  H315: { percent: 10 },
  H318: { percent: 3, becomes: { percent: 1, code: 'H319' } },
  H319: { percent: 10 },
  H335: { percent: 20 },
  H372: { percent: 10 },
  H410: { percent: 25, becomes: { percent: 0.25, code: 'H412' } },
  H412: { percent: 25 },
  H360FD: { percent: 0.3 },
  // a sensitiser is named from a tenth of its limit on, EUH208
  H317: { percent: 0.1 },
};

/** Outside these a mixture counts as burning, whatever is in it. source: CLP, annex I, 3.2.3.1.2: pH up to 2 or from 11.5 */
const extremePh = { low: 2, high: 11.5 };

/** Statements a finished bath carries: by the share of each part in it, and by its own pH. Whole lines. */
export function mixtureHazards(
  recipe: { name: string; ph: { aim: number } | null },
  lines: readonly { form: Substance; amount: number }[],
  volumeMl: number,
): string[] {
  const codes = new Map<string, Set<string>>();
  const add = (code: string, name: string): void => {
    codes.set(code, (codes.get(code) ?? new Set()).add(name));
  };
  for (const { form, amount } of lines) {
    const massG =
      form.measure === 'g'
        ? amount
        : amount * (form.liquid?.densityGPerMl ?? 1) * (form.liquid?.massFraction ?? 1);
    const percent = (100 * massG) / volumeMl;
    for (const code of form.hazards) {
      const limit = concentrationLimits[code];
      if (limit === undefined || percent >= limit.percent) add(code, form.name);
      else if (limit.becomes !== undefined && percent >= limit.becomes.percent)
        add(limit.becomes.code, form.name);
    }
  }
  const ph = recipe.ph?.aim ?? 7;
  if (ph <= extremePh.low || ph >= extremePh.high) add('H314', `pH ${ph}`);
  if (codes.has('H314')) codes.delete('H319');
  return [...codes].map(
    ([code, names]) => `${hazardStatements[code] ?? code} (${code}: ${[...names].join(', ')})`,
  );
}
