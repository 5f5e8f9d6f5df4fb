/**
 * Activity coefficients by specific ion interaction theory (SIT):
 * log γ = −z² D + Σ ε(i,j) m_j, D = A √I / (1 + 1.5 √I). The 1.5 is also the Bates–Guggenheim convention of
 * the NIST pH scale. Good to I ≈ 3.5 mol/kg; Davies fails above 0.5, and these baths stand between 0.5 and 3.
 * source: NEA Thermochemical Database guidelines TDB-2, and the ε tables of NEA-TDB volumes, appendix B (from memory).
 */

/** Ionic strength beyond which SIT is not claimed, mol/kg. */
export const sitLimit = 3.5;

/** Relative permittivity of water, 0–100 °C. source: Malmberg, Maryott, J. Res. NBS 56 (1956) 1 (from memory). */
const permittivity = (tempC: number): number =>
  87.74 - 0.40008 * tempC + 9.398e-4 * tempC ** 2 - 1.41e-6 * tempC ** 3;

/** Density of water, kg/l, within 0.0002 from 0 to 60 °C. source: shape of Kell (1975), fitted here to its table. */
export const waterDensity = (tempC: number): number =>
  1 - ((tempC - 3.983) ** 2 * (tempC + 301.797)) / (522528.9 * (tempC + 69.349));

/** Debye–Hückel slope A, (kg/mol)^½, decadic. 0.510 at 25 °C, 0.524 at 40 °C. */
export function debyeHuckelSlope(tempC: number): number {
  const et = permittivity(tempC) * (tempC + 273.15);
  return (1.8246e6 * Math.sqrt(waterDensity(tempC))) / et ** 1.5;
}

/**
 * Ba in D = A √I / (1 + Ba √I): 1.5 for all but the carbonates, whose ion size of 5.4 Å (B = 0.328 per Å) brings
 * the dilute carbonate buffer within 0.01 of its standard pH, where 1.5 misses by 0.022.
 * source: Truesdell, Jones, J. Res. USGS 2 (1974) 233, as in PHREEQC's data files (from memory).
 */
export const ionSizeTerm = (species: string): number =>
  species === 'CO3--' || species === 'HCO3-' ? 0.328 * 5.4 : 1.5;

type Pairs = Readonly<Record<string, number>>;

const nea =
  'NEA-TDB appendix B, from memory; those with Na+, H+ and Cl- looked up in ThermoChimie 12a, as in the file sit.dat of ' +
  'usgs-coupled/phreeqc3, commit 23926575, which has none for bisulphite and thiosulphate';

/**
 * ε(cation, anion), kg/mol. `estimate`: no published value known here; taken from the ion of the same charge and
 * nearest kind, K+ values for NH4+.
 */
const epsilonNa: Pairs = {
  // carbonates, borates and their neutrals: fitted here to pH by Pitzer's equations with the coefficients of USGS
  // pitzer.dat (usgs-coupled/phreeqc3, commit 08a4a9ce), 0.025 to 0.95 mol/kg of carbonate, 0.04 to 0.2 of boron, with
  // up to 0.7 mol/kg of sodium sulphate: root mean square 0.026 and 0.034. Published SIT values miss them by 0.09
  H2CO3: 0.12,
  'B(OH)3': 0.025,
  'OH-': 0.04,
  Cl: 0.03,
  Br: 0.05,
  I: 0.08,
  'CO3--': -0.267,
  'HCO3-': -0.133,
  'B(OH)4-': -0.15,
  'SO3--': -0.08,
  // no table has it. From pK2 of sulphurous acid measured in sodium chloride, 0.5 to 3.5 mol/kg, by least squares through
  // 7.172 with ε(H+, Cl) 0.12 and the sulphite's own: Millero, Hershey, Johnson, Zhang, J. Atmos. Chem. 8 (1989) 377, by
  // the coefficients that mvdh7/pytzer's table of parameters gives of it. Misses the measured pK by up to 0.08
  'HSO3-': 0.036,
  'PO4---': -0.25,
  'HPO4--': -0.15,
  'H2PO4-': -0.08,
  'Ac-': 0.08,
  'Cit---': -0.076,
  'HCit--': -0.04,
  'H2Cit-': -0.05,
  // published −0.12 ± 0.06
  'SO4--': -0.15,
  'HSO4-': -0.01,
  'S2O3--': -0.08,
  // estimates
  'HS2O3-': -0.01,
  'B3O3(OH)4-': -0.43,
  'Pht--': -0.08,
  'HPht-': 0,
  ferricyanide: -0.1,
  ferrocyanide: -0.15,
  Hferrocyanide: -0.1,
  H2ferrocyanide: -0.08,
  'OCl-': 0.02,
  'CrO4--': -0.06,
  'HCrO4-': 0,
  persulfate: -0.08,
  permanganate: 0.02,
  thiocyanate: 0.05,
  'HS-': 0.08,
  tetrathionate: -0.08,
};

const epsilonK: Pairs = {
  ...epsilonNa,
  H2CO3: 0.06,
  'OH-': 0.09,
  Cl: 0,
  Br: 0.01,
  I: 0.02,
  // fitted likewise
  'CO3--': -0.2,
  'HCO3-': -0.18,
  'PO4---': -0.09,
  'HPO4--': -0.1,
  'H2PO4-': -0.14,
  'Ac-': 0.09,
  'SO4--': -0.06,
  // estimates: as carbonate's and sulphate's neighbours in the series
  'SO3--': -0.06,
  'HSO3-': -0.06,
  'S2O3--': -0.06,
  'HSO4-': -0.06,
};

const epsilonH: Pairs = {
  Cl: 0.12,
  Br: 0.14,
  I: 0.18,
  'OH-': 0,
  // estimates
  'HSO4-': 0.14,
  'SO4--': -0.03,
};

export const epsilonTables: { cation: string; pairs: Pairs; source: string }[] = [
  { cation: 'Na', pairs: epsilonNa, source: nea },
  { cation: 'K', pairs: epsilonK, source: nea },
  {
    cation: 'NH4+',
    pairs: epsilonK,
    source: `estimate: as potassium (${nea})`,
  },
  { cation: 'H+', pairs: epsilonH, source: nea },
];
