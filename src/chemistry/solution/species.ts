/**
 * The dissolved species a bath is made of. A *system* is a weak acid or base with all its protonation steps, its
 * species listed from the least to the most protonated; an *ion* takes no part in acid–base equilibrium.
 * Molalities are mol per kg of water; thermodynamic constants refer to infinite dilution, 25 °C.
 */
export interface Dissociation {
  /** acid dissociation constant as pK at 25 °C, infinite dilution */
  pK: number;
  /** enthalpy of dissociation, kJ/mol */
  dH: number;
  /** heat capacity change of dissociation, J/(mol K) */
  dCp: number;
}

export interface AcidSystem {
  id: SystemId;
  /** charge of the species with no proton left */
  baseCharge: number;
  /** species names, fully deprotonated first; one more than there are steps */
  species: readonly string[];
  /** steps in the order protons are taken up: the last pK of the acid first */
  steps: readonly Dissociation[];
  source: string;
}

export type SystemId =
  | 'carbonate'
  | 'borate'
  | 'sulfite'
  | 'phosphate'
  | 'acetate'
  | 'citrate'
  | 'sulfate'
  | 'thiosulfate'
  | 'ammonia'
  | 'phthalate'
  | 'cd3'
  | 'cd4'
  | 'ferrocyanide'
  | 'hypochlorite'
  | 'chromate'
  | 'peroxide'
  | 'sulfide';

export type IonId =
  | 'Na'
  | 'K'
  | 'Cl'
  | 'Br'
  | 'I'
  | 'ferricyanide'
  | 'tetrathionate'
  | 'persulfate'
  | 'permanganate'
  | 'thiocyanate'
  | 'formaldehyde';

/** What a solution is counted in. Totals in these are conserved; protons follow from charge balance. */
export type TotalId = SystemId | IonId;

const goldberg =
  'Goldberg, Kishore, Lennen, "Thermodynamic quantities for the ionization reactions of buffers", ' +
  'J. Phys. Chem. Ref. Data 31 (2002) 231 (from memory of its summary table)';

const step = (pK: number, dH: number, dCp: number): Dissociation => ({
  pK,
  dH,
  dCp,
});

export const acidSystems: readonly AcidSystem[] = [
  {
    id: 'carbonate',
    baseCharge: -2,
    species: ['CO3--', 'HCO3-', 'H2CO3'],
    steps: [step(10.329, 14.7, -249), step(6.351, 9.15, -371)],
    source: goldberg,
  },
  {
    id: 'borate',
    baseCharge: -1,
    species: ['B(OH)4-', 'B(OH)3'],
    steps: [step(9.237, 13.8, -240)],
    source: goldberg,
  },
  {
    id: 'sulfite',
    baseCharge: -2,
    species: ['SO3--', 'HSO3-', 'H2SO3'],
    steps: [step(7.172, -3.65, -262), step(1.857, -17.8, -272)],
    source: goldberg,
  },
  {
    id: 'phosphate',
    baseCharge: -3,
    species: ['PO4---', 'HPO4--', 'H2PO4-', 'H3PO4'],
    steps: [step(12.35, 16, -242), step(7.198, 3.6, -230), step(2.148, -8, -141)],
    source: goldberg,
  },
  {
    id: 'acetate',
    baseCharge: -1,
    species: ['Ac-', 'HAc'],
    steps: [step(4.756, -0.41, -142)],
    source: goldberg,
  },
  {
    id: 'citrate',
    baseCharge: -3,
    species: ['Cit---', 'HCit--', 'H2Cit-', 'H3Cit'],
    steps: [step(6.396, -3.38, -254), step(4.761, 2.23, -178), step(3.128, 4.07, -131)],
    source: goldberg,
  },
  {
    id: 'sulfate',
    baseCharge: -2,
    species: ['SO4--', 'HSO4-'],
    steps: [step(1.987, -22.4, -258)],
    source: goldberg,
  },
  {
    id: 'thiosulfate',
    baseCharge: -2,
    species: ['S2O3--', 'HS2O3-', 'H2S2O3'],
    steps: [step(1.6, 0, 0), step(0.6, 0, 0)],
    source:
      'Smith, Martell, "Critical Stability Constants" 4 (1976), thiosulphate (from memory); no enthalpy known',
  },
  {
    id: 'ammonia',
    baseCharge: 0,
    species: ['NH3', 'NH4+'],
    steps: [step(9.245, 51.95, 8)],
    source: goldberg,
  },
  {
    id: 'phthalate',
    baseCharge: -2,
    species: ['Pht--', 'HPht-', 'H2Pht'],
    steps: [step(5.408, -2.17, -295), step(2.95, -2.7, -91)],
    source: goldberg,
  },
  {
    id: 'cd3',
    baseCharge: 0,
    species: ['CD3', 'HCD3+', 'H2CD3++'],
    steps: [step(6.1, 0, 0), step(3, 0, 0)],
    source:
      'p-phenylenediamine developing agents: first amine near pK 6, second near 3; from memory of T. H. James, ' +
      '"The Theory of the Photographic Process", 4th ed. (1977), ch. 11. Far below developer pH, so of no weight there',
  },
  {
    id: 'cd4',
    baseCharge: 0,
    species: ['CD4', 'HCD4+', 'H2CD4++'],
    steps: [step(6.1, 0, 0), step(3, 0, 0)],
    source: 'taken as CD-3',
  },
  {
    id: 'ferrocyanide',
    baseCharge: -4,
    species: ['ferrocyanide', 'Hferrocyanide', 'H2ferrocyanide'],
    steps: [step(4.28, 0, 0), step(2.3, 0, 0)],
    source: 'Jordan, Ewing, Inorg. Chem. 1 (1962) 587 (from memory); no enthalpy known',
  },
  {
    id: 'hypochlorite',
    baseCharge: -1,
    species: ['OCl-', 'HOCl'],
    steps: [step(7.53, 0, 0)],
    source: 'CRC Handbook, dissociation constants of inorganic acids (from memory)',
  },
  {
    id: 'chromate',
    baseCharge: -2,
    species: ['CrO4--', 'HCrO4-'],
    steps: [step(6.49, 0, 0)],
    source:
      'CRC Handbook, dissociation constants of inorganic acids (from memory); dichromate counted as HCrO4-',
  },
  {
    id: 'peroxide',
    baseCharge: -1,
    species: ['HO2-', 'H2O2'],
    steps: [step(11.62, 0, 0)],
    source: 'CRC Handbook, dissociation constants of inorganic acids (from memory)',
  },
  {
    id: 'sulfide',
    baseCharge: -1,
    species: ['HS-', 'H2S'],
    steps: [step(7.0, 0, 0)],
    source: 'USGS pitzer.dat, H2Sg = HSg- + H+, log K -6.994; the second step lies above any bath',
  },
];

/** Charges of the ions that neither take nor give protons in a processing bath. */
export const ionCharges: Readonly<Record<IonId, number>> = {
  Na: 1,
  K: 1,
  Cl: -1,
  Br: -1,
  I: -1,
  ferricyanide: -3,
  tetrathionate: -2,
  persulfate: -2,
  permanganate: -1,
  thiocyanate: -1,
  /** neutral: counted, and without a part in the charge */
  formaldehyde: 0,
};

/** Water: H2O = H+ + OH−. source: Goldberg et al. 2002 (from memory). */
export const waterDissociation: Dissociation = {
  pK: 13.995,
  dH: 55.815,
  dCp: -224,
};

/**
 * Triborate, 2 B(OH)3 + B(OH)4− = B3O3(OH)4− + 3 H2O, log10 K at 25 °C: matters above about 0.1 mol/kg of boron.
 * source: log K −7.528 (3 B(OH)3 = B3O3(OH)4− + H+ + 2 H2O), USGS pitzer.dat (usgs-coupled/phreeqc3, commit 08a4a9ce),
 * after Felmy, Weare, Geochim. Cosmochim. Acta 50 (1986) 2771; and pK 9.237. Taken as constant in temperature.
 */
export const triborateLogK = -7.528 + 9.237;
