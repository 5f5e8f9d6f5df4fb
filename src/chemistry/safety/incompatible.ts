import type { ReactiveClass, Substance } from '../substances.js';

export interface IncompatiblePair {
  a: ReactiveClass;
  b: ReactiveClass;
  danger: 'deadly gas' | 'toxic gas' | 'heat' | 'foam';
  /** said before a jar of either is opened, and on a spill */
  spoken: string;
  source: string;
}

const bretherick = 'Bretherick’s Handbook of Reactive Chemical Hazards, from memory';
const practice = 'common practice; safety data sheets of the substances';

/** Pairs that must not meet on a bench like this one; worst first. */
export const incompatiblePairs: readonly IncompatiblePair[] = [
  {
    a: 'acid',
    b: 'ferricyanide',
    danger: 'deadly gas',
    spoken:
      'Ferricyanide with strong acid or heat can give off hydrogen cyanide. Keep every acid away from it.',
    source: practice,
  },
  {
    a: 'hypochlorite',
    b: 'ferricyanide',
    danger: 'deadly gas',
    spoken:
      'No household chlorine bleach near ferricyanide or its spills: it can free cyanogen compounds and chlorine.',
    source: practice,
  },
  {
    a: 'acid',
    b: 'hypochlorite',
    danger: 'toxic gas',
    spoken: 'Chlorine cleaner and acid give off chlorine. Never let them meet.',
    source: bretherick,
  },
  {
    a: 'ammonium',
    b: 'hypochlorite',
    danger: 'toxic gas',
    spoken: 'Chlorine cleaner and ammonium fixer give off chloramine gas. Never let them meet.',
    source: bretherick,
  },
  {
    a: 'acid',
    b: 'sulphite',
    danger: 'toxic gas',
    spoken: 'Acid on sulphite or metabisulphite gives off sulphur dioxide. Air the room and keep acids away.',
    source: practice,
  },
  {
    a: 'acid',
    b: 'thiosulphate',
    danger: 'toxic gas',
    spoken: 'Acid on fixer gives off sulphur dioxide and drops sulphur. Keep acids away.',
    source: practice,
  },
  {
    a: 'caustic',
    b: 'ammonium',
    danger: 'toxic gas',
    spoken: 'Caustic soda on ammonium fixer gives off ammonia.',
    source: practice,
  },
  {
    a: 'caustic',
    b: 'acid',
    danger: 'heat',
    spoken: 'Caustic and acid together boil and spit.',
    source: practice,
  },
  {
    a: 'acid',
    b: 'carbonate',
    danger: 'foam',
    spoken: 'Acid on carbonate foams up. Go slowly and away from your face.',
    source: practice,
  },
];

/**
 * Pairs a substance takes part in. Metabisulphite is an acid and a sulphite at once: no enemy of itself, and too weak
 * an acid to warn of heat and foam.
 */
export const pairsFor = (s: Substance): IncompatiblePair[] =>
  incompatiblePairs.filter((p) => {
    const mild = s.classes.includes('acid') && s.classes.includes('sulphite');
    const takesPart = s.classes.includes(p.a) || s.classes.includes(p.b);
    return takesPart && !(mild && (p.danger === 'heat' || p.danger === 'foam'));
  });

/** Pairs that two substances form with each other. */
export const pairsBetween = (s: Substance, t: Substance): IncompatiblePair[] =>
  incompatiblePairs.filter(
    (p) =>
      (s.classes.includes(p.a) && t.classes.includes(p.b)) ||
      (s.classes.includes(p.b) && t.classes.includes(p.a)),
  );
