/** One line of a formula, in mixing order. Amounts per litre of bath made. */
export interface Component {
  /** substance id of the form the formula names */
  substance: string;
  /** g of a solid or ml of a liquid, per litre */
  perLitre: number;
  note?: string;
  /** analytical tolerance as a fraction of the amount, where one is published or customary */
  tolerance: { fraction: number; source: string };
  /** the bath works without it; the note says what is lost */
  optional?: boolean;
}

export interface PhAim {
  aim: number;
  tolerance: number;
  /** false: nothing in the bath holds the pH, so a reading proves little */
  buffered: boolean;
  source: string;
}

export interface Recipe {
  id: string;
  name: string;
  /** short name for labels and batch numbers */
  short: string;
  /** liquid id in a process sheet */
  liquid: string;
  /** what the bath does its work with, for strength */
  working: WorkingId | null;
  components: readonly Component[];
  /** water to start with, as a fraction of the final volume, and its temperature */
  startWater: { fraction: number; lowC: number; highC: number; source: string };
  ph: PhAim | null;
  specificGravity?: { aim: number; tolerance: number; source: string };
  keeping: { unusedDays: number; usedDays: number; source: string };
  /** 135-36 films, or their area, per litre */
  capacity: { filmsPerLitre: number; source: string };
  /** the step lasts longer with this bath than with the usual one: times as long, and at least so many seconds */
  time?: { factor: number; atLeastS?: number; why: string; source: string };
  /** what matters while mixing this one; hazards of its substances are added from their own data */
  mixing: readonly string[];
  source: string;
}

export type WorkingId =
  | 'borate'
  | 'carbonate'
  | 'cd3'
  | 'sulfate'
  | 'acetate'
  | 'citrate'
  | 'ferricyanide'
  | 'thiosulfate';
