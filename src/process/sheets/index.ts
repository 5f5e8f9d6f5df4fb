import type { ProcessSheet } from '../sheet.js';
import { blackAndWhite } from './black-and-white.js';
import { c41 } from './c41.js';
import { ecn2Ferricyanide } from './ecn2-ferricyanide.js';
import { ecn2FerricyanideHome } from './ecn2-ferricyanide-home.js';

/** The sheets that come with the assistant; the first is the one meant when none is named. */
export const sheets: readonly ProcessSheet[] = [ecn2Ferricyanide, ecn2FerricyanideHome, c41, blackAndWhite];
