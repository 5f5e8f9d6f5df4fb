import { englishWords } from './english/words.js';
import { germanWords } from './german/words.js';
import type { LanguageCode, Words } from './words.js';

export const languages: Readonly<Record<LanguageCode, Words>> = { en: englishWords, de: germanWords };
