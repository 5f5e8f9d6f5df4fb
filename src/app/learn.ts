import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadGrammars } from '../language/load.js';
import { nameOf, packLearnt } from '../language/open/packed.js';
import { dice, learn } from '../language/open/understand.js';
import { neverSaidIn, readSaid, readWordings } from '../language/records.js';
import { learnWords } from '../language/spoken/text.js';
import { lexiconFiles, modelsDir, vocabularyFile } from '../speech/installed.js';
import { readTokens } from '../speech/recogniser/acoustics/network.js';
import { lexiconFor } from '../speech/recogniser/lexicon/lexicon.js';
import { packVocabulary } from '../speech/recogniser/open/vocabulary.js';
import { wordTreeOf } from '../speech/recogniser/open/word-tree.js';
import { grammarTexts } from './language.js';
import { learntFile, saidDir, wordingsFile } from './paths.js';

/**
 * The last step of the build: learns the open understanding from the grammars, the wordings and what people said, and
 * keeps it beside the program. `learn.js --without b` leaves one writer's sentences out, to judge it by them.
 */
const without = process.argv[2] === '--without' ? (process.argv[3]?.split(',') ?? []) : [];
const texts = grammarTexts();
const loaded = loadGrammars(texts);
if (!loaded.ok) throw new Error(loaded.problems.map((p) => p.message).join('\n'));
const people = readdirSync(saidDir)
  .filter((f) => f.endsWith('.tsv') && !without.includes(f.slice(0, -4)))
  .map((f) => readFileSync(join(saidDir, f), 'utf8'))
  .join('\n');
const said = readSaid(people);
const wordings = readWordings(readFileSync(wordingsFile, 'utf8'));
const learnt = learn(loaded.grammars, wordings, said, neverSaidIn(people));
writeFileSync(learntFile, packLearnt(learnt, nameOf(texts)));

const model = learnWords(loaded.grammars, wordings, said, dice(7));
const tokens = readTokens(join(modelsDir(), 'tankside-acoustic', 'phones.json'));
const lexicon = lexiconFor(tokens, lexiconFiles());
const tree = wordTreeOf(model, (word) => lexicon.pronounce(word));
writeFileSync(vocabularyFile(), packVocabulary({ model, tree }, tokens.names));
