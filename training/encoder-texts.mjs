/**
 * What the sentence encoder is trained on, as `encoder.py` reads it: the sentences of people in `said/` and as many drawn
 * from the grammars and wordings, in the words that the open understanding gives the encoder.
 * node encoder-texts.mjs --out texts.json [--without b]
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';

const from = (path) => import(new URL(`../dist/${path}`, import.meta.url).href);
const { values } = parseArgs({ options: { out: { type: 'string' }, without: { type: 'string', default: '' } } });
const { grammarTexts } = await from('app/language.js');
const { loadGrammars } = await from('language/load.js');
const { commandRecords, lessonsOf, readWordings, saidLines } = await from('language/records.js');
const { normaliseTyped } = await from('language/languages/english/typed.js');

const here = (path) => new URL(path, import.meta.url);
const loaded = loadGrammars(grammarTexts());
if (!loaded.ok) throw new Error('The grammars cannot be read.');
const records = commandRecords(loaded.grammars);
let seed = 7;
const random = () => {
  seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
  return seed / 4_294_967_296;
};
/** Words in the place of each slot: the encoder reads English, not tokens. */
const FILLERS = {
  _liquid: ['developer', 'bleach', 'fixer', 'stop bath', 'prebath', 'final rinse'],
  _bottle: ['bottle two', 'bottle four', 'number five', 'bottle one', 'bottle seven'],
  _substance: ['sodium carbonate', 'potassium bromide', 'borax', 'sulfite', 'c d three'],
  _degrees: ['forty one degrees', 'thirty eight degrees', 'twenty seven degrees'],
  _num: ['two', 'thirty eight', 'five', 'four', 'forty one point one', 'twelve', 'one'],
  _volume: ['fifty milliliters', 'one liter', 'six hundred milliliters'],
  _mass: ['two grams', 'twenty five point six grams'],
  _duration: ['three minutes', 'thirty seconds', 'ten minutes', 'two hours'],
  _place: ['on the floor', 'on my hand', 'on the table'],
  _name: ['old faithful', 'grandpa'],
  _stock: ['five hundred t', 'fifty d'],
  _format: ['thirty five millimeter', 'sixteen millimeter'],
};
const filled = (word) => FILLERS[word]?.[Math.floor(random() * FILLERS[word].length)] ?? word;
const wordings = readWordings(readFileSync(here('wordings.txt'), 'utf8'));
const drawn = lessonsOf(records, wordings, loaded.grammars, random).flatMap(({ record, sentences }) =>
  sentences.map((words) => ({ labels: [record.id], text: words.map(filled).join(' ') })),
);
const said = readdirSync(here('said/'))
  .filter((f) => f.endsWith('.tsv'))
  .flatMap((f) =>
    saidLines(readFileSync(here(`said/${f}`), 'utf8')).map(({ ids, words, moment }) => ({
      labels: [...new Set(ids)],
      text: normaliseTyped(words),
      writer: f.slice(0, -4),
      ...(moment && { moment }),
    })),
  );
writeFileSync(
  values.out,
  JSON.stringify({
    labels: records.map((r) => r.id).sort(),
    moments: [...new Set(said.flatMap((s) => s.moment ?? []))].sort(),
    drawn,
    said: said.filter((s) => !values.without.includes(s.writer)),
    heldOut: said.filter((s) => values.without.includes(s.writer)),
  }),
);
