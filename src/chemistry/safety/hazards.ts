import { type Substance, substanceById } from '../substances.js';

/**
 * Hazard statements by code. source: UN Globally Harmonized System, rev. 9 (2021), annex 3, and CLP Regulation (EC)
 * 1272/2008, annexes II and III (EUH codes), from memory. `spoken` is our short form for wet hands.
 */
export const hazardStatements: Readonly<Record<string, { class: string; spoken: string }>> = {
  H226: {
    class: 'flammable liquid, category 3',
    spoken: 'flammable liquid and vapour',
  },
  H290: { class: 'corrosive to metals, category 1', spoken: 'eats metal' },
  H301: {
    class: 'acute toxicity, oral, category 3',
    spoken: 'toxic if swallowed',
  },
  H302: {
    class: 'acute toxicity, oral, category 4',
    spoken: 'harmful if swallowed',
  },
  H314: {
    class: 'skin corrosion, category 1',
    spoken: 'burns skin and eyes severely',
  },
  H315: { class: 'skin irritation, category 2', spoken: 'irritates the skin' },
  H317: {
    class: 'skin sensitisation, category 1',
    spoken: 'can cause a lasting skin allergy',
  },
  H318: {
    class: 'serious eye damage, category 1',
    spoken: 'damages the eyes severely',
  },
  H319: {
    class: 'eye irritation, category 2',
    spoken: 'irritates the eyes badly',
  },
  H335: {
    class: 'single-exposure organ toxicity, category 3',
    spoken: 'irritates the airways',
  },
  H360FD: {
    class: 'reproductive toxicity, category 1B',
    spoken: 'may harm fertility and the unborn child',
  },
  H372: {
    class: 'repeated-exposure organ toxicity, category 1',
    spoken: 'harms organs when swallowed again and again',
  },
  H410: {
    class: 'aquatic chronic hazard, category 1',
    spoken: 'very toxic to water life, for long',
  },
  H411: {
    class: 'hazardous to water, chronic, category 2',
    spoken: 'harmful to water life, for long',
  },
  H412: {
    class: 'aquatic chronic hazard, category 3',
    spoken: 'harmful to water life, for long',
  },
  H225: {
    class: 'flammable liquid, category 2',
    spoken: 'highly flammable liquid and vapour',
  },
  H272: { class: 'oxidising solid, category 3', spoken: 'feeds fire' },
  H304: {
    class: 'aspiration hazard, category 1',
    spoken: 'can kill when swallowed and drawn into the lungs',
  },
  H311: {
    class: 'acute toxicity, skin, category 3',
    spoken: 'toxic on the skin',
  },
  H312: {
    class: 'acute toxicity, skin, category 4',
    spoken: 'harmful on the skin',
  },
  H330: {
    class: 'acute toxicity, inhalation, category 1 or 2',
    spoken: 'fatal to breathe',
  },
  H331: {
    class: 'acute toxicity, inhalation, category 3',
    spoken: 'toxic to breathe',
  },
  H332: {
    class: 'acute toxicity, inhalation, category 4',
    spoken: 'harmful to breathe',
  },
  H334: {
    class: 'respiratory sensitisation, category 1',
    spoken: 'can cause asthma when breathed',
  },
  H336: {
    class: 'single-exposure organ toxicity, category 3',
    spoken: 'makes drowsy',
  },
  H340: {
    class: 'germ cell mutagenicity, category 1B',
    spoken: 'may damage genes',
  },
  H341: {
    class: 'germ cell mutagenicity, category 2',
    spoken: 'suspected of damaging genes',
  },
  H350: { class: 'carcinogenicity, category 1B', spoken: 'may cause cancer' },
  H361d: {
    class: 'reproductive toxicity, category 2',
    spoken: 'suspected of harming the unborn child',
  },
  H373: {
    class: 'repeated-exposure organ toxicity, category 2',
    spoken: 'may harm organs when met again and again',
  },
  H400: {
    class: 'aquatic acute hazard, category 1',
    spoken: 'very toxic to water life',
  },
  H200: { class: 'unstable explosive', spoken: 'can explode' },
  H220: { class: 'flammable gas, category 1', spoken: 'burns as a gas' },
  H270: { class: 'oxidising gas, category 1', spoken: 'feeds fire as a gas' },
  H271: {
    class: 'oxidiser, category 1',
    spoken: 'can cause fire or explosion',
  },
  H280: { class: 'gas under pressure', spoken: 'gas under pressure' },
  H300: {
    class: 'acute toxicity, oral, category 1 or 2',
    spoken: 'fatal if swallowed',
  },
  H310: {
    class: 'acute toxicity, skin, category 1 or 2',
    spoken: 'fatal on the skin',
  },
  H351: {
    class: 'carcinogenicity, category 2',
    spoken: 'suspected of causing cancer',
  },
  EUH031: { class: 'supplemental', spoken: 'gives off a toxic gas with acid' },
  EUH032: {
    class: 'supplemental',
    spoken: 'gives off a very toxic gas with acid',
  },
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
    .map((code) => ({ code, spoken: hazardStatements[code]?.spoken ?? code }));
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
    ([code, names]) => `${hazardStatements[code]?.spoken ?? code} (${code}: ${[...names].join(', ')})`,
  );
}
