import { readFileSync, writeFileSync } from 'node:fs';
import { loadGrammars } from '../language/load.js';
import { nameOf, packLearnt } from '../language/open/packed.js';
import { learn } from '../language/open/understand.js';
import { readWordings } from '../language/records.js';
import { grammarTexts } from './language.js';
import { learntFile, wordingsFile } from './paths.js';

/** The last step of the build: learns the open understanding from the grammars and the wordings beside them, and keeps it beside the program. */
const texts = grammarTexts();
const loaded = loadGrammars(texts);
if (!loaded.ok) throw new Error(loaded.problems.map((p) => p.message).join('\n'));
writeFileSync(
  learntFile,
  packLearnt(learn(loaded.grammars, readWordings(readFileSync(wordingsFile, 'utf8'))), nameOf(texts)),
);
