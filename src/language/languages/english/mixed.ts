import type { Situation } from '../../../process/desk.js';
import { FILM_IN_PROCESS } from '../../meaning/situations.js';
import { made, match, type Reader } from './sentence.js';

/** What is told while a bath is mixed, in the few words that hands in gloves leave: that a part is in, which one, and how much of it. */

const LEAD = '^(?:(?:okay|right|there|now|then|so|yes|and|that is it|all|no|i mean|but) )*';
/** A part, by its name or by the short one that a recipe has but one of. */
const PART = '(?:_substance\\d+|carbonate|bicarbonate|sulfite|bromide)';
const IN = '(?:in|in _liquid\\d+|in jug|in there|in now|added|dissolved)';

const atTheBench = (situations: readonly Situation[]): boolean =>
  situations.includes('mixing') && !situations.some((s) => FILM_IN_PROCESS.includes(s));

/** "It's in", "poured", "tipped it in": the part in hand is in the water, or what was asked for is done. */
const isIn: Reader = ({ line, situations, due }) => {
  if (!atTheBench(situations)) return undefined;
  const told = new RegExp(
    `${LEAD}(?:(?:it|that|this|powder|acid|all of it|_substance\\d+) (?:is|are|has|went|all|now|gone) (?:gone |all |been |dissolved )*)?(?:${IN}|(?:i |we )?(?:have )?(?:poured|put|tipped|stirred|dropped|added)(?: (?:it|that|them|this|all of it))?(?: ${IN})?)(?: now| too)*$`,
  ).test(line);
  if (!told) return undefined;
  const [first] = due;
  return first?.type === 'mix-next' ? first : made('dissolved', {});
};

/** "Carbonate 15.4 went in", "0.6 of bromide is in": so much of that part. */
const soMuchIn: Reader = ({ line, situations, substance, amount, due }) => {
  if (!situations.includes('mixing')) return undefined;
  const much = '(?:only |about )*(?<n>_(?:num|mass|volume)\\d+)';
  const went =
    '(?:is in|are in|went in|has gone in|have gone in|is added|in|went in _liquid\\d+|is in _liquid\\d+)';
  const m = match(
    line,
    new RegExp(`${LEAD}(?:i (?:put |poured |added )?)?(?<s>${PART}) ${much} ${went}$`),
    new RegExp(`${LEAD}${much} (?:of )?(?<s>${PART}) ${went}$`),
    new RegExp(
      `${LEAD}(?:i |we )?(?:have )?(?:poured|put|tipped|added|chucked)(?: in)? ${much}(?: (?:of )?(?<s>${PART}))?(?: ${IN})?$`,
    ),
    new RegExp(`${LEAD}${much} (?:went in|has gone in|is in)$`),
  );
  const told = m && amount(m.n);
  if (!told) return undefined;
  const asked = due.find((d) => d.type === 'reading');
  return made('reading', {
    ...told,
    unit: told.unit ?? (m.s === undefined ? asked?.unit : undefined),
    substance: substance(m.s) ?? m.s,
    added: true,
  });
};

/** "Skip the bromide": that part, and no other that is in hand. */
const skipsPart: Reader = ({ line, situations, substance }) => {
  if (!situations.includes('mixing')) return undefined;
  const m = match(
    line,
    new RegExp(
      `^(?:(?:i will|i am|can i|let us) )?(?:skip|skipping|leave out|leaving out|omit|no|without|forget)(?: out)? (?<s>${PART})$`,
    ),
  );
  return m && made('skip', { substance: substance(m.s) ?? m.s });
};

const I_PUT =
  '(?:i |we )?(?:have |just |accidentally |only )*(?:put|poured|filled|used|took|added|tipped|measured)';
const INTO = '(?: (?:in|into|to|up|with|it|there|jug))*';
const WATER = '(?: (?:of |tap |distilled |warm |hot |cold |plain )*(?<w>_liquid\\d+))';

/** "I used 1200 ml of water", "2 litres in the jug": so much stands in the jug; without a name only while water is what is asked for. */
const waterIn: Reader = ({ line, situations, volumeMl, liquid, due }) => {
  if (!atTheBench(situations)) return undefined;
  const ml = '(?:about |only |already |another |more )*(?<v>_volume\\d+)';
  const m = match(
    line,
    new RegExp(`${LEAD}${I_PUT}${INTO} ${ml}${WATER}?${INTO}$`),
    new RegExp(`${LEAD}${ml}${WATER}? (?:(?:is|are|went) )?in${INTO}$`),
    new RegExp(`${LEAD}(?:there (?:is|are) |it is |i have )?${ml}${WATER}?(?: in jug)?$`),
    new RegExp(`${LEAD}(?:(?<w>_liquid\\d+)|jug) (?:is|was|has) (?:at )?${ml}(?: in)?$`),
  );
  const named =
    m?.w === undefined ? /\bjug\b/.test(line) || due[0]?.type === 'mix-next' : liquid(m.w) === 'water';
  const value = named ? volumeMl(m?.v) : undefined;
  return value === undefined
    ? undefined
    : made('reading', { value, unit: 'ml', substance: 'water', added: true });
};

/** "The acid went in before the water": that order heats and spits, whatever it is called. */
const acidFirst: Reader = ({ plain, situations, due }) => {
  if (!atTheBench(situations)) return undefined;
  const before =
    due[0]?.type === 'mix-next' ? '(?:first|before (?:the |any )?water)' : 'before (?:the |any )?water';
  const told = new RegExp(
    `\\b(?:put|poured|added|tipped)(?: in)?(?: \\w+)? acid(?: in| into (?:the )?jug)? ${before}$|\\bacid (?:went|is|was|has gone)(?: in| into (?:the )?jug)* ${before}$`,
  ).test(plain);
  return told ? made('what-if', { liquid: 'water', intoLiquid: 'any-acid', done: true }) : undefined;
};

const AGAIN = '(?:no|nope|sorry|wait|actually|hang on|i mean|i meant|i said|rather|but) ';

/** "Actually the carbonate was 18 grams": of the part that it names, whatever is in hand. */
const partWas: Reader = ({ line, situations, substance, amount }) => {
  if (!situations.includes('mixing')) return undefined;
  const much = '(?:only |about |really )*(?<n>_(?:num|mass|volume)\\d+)';
  const m = match(
    line,
    new RegExp(
      `^(?:${AGAIN})*(?<s>${PART}) (?:was|were)(?: really)? ${much}(?: not _(?:num|mass|volume)\\d+)?$`,
    ),
    new RegExp(
      `^(?:${AGAIN})*(?:it|that) was ${much} (?:of )?(?<s>${PART})(?: not _(?:num|mass|volume)\\d+)?$`,
    ),
    new RegExp(`^(?:${AGAIN})+${much} (?:of )?(?<s>${PART})$`),
    new RegExp(`^(?:${AGAIN})+(?<s>${PART}) (?:is )?${much}$`),
  );
  const told = m && amount(m.n);
  if (!told) return undefined;
  const field = told.unit === 'g' ? 'massG' : told.unit === 'ml' ? 'volumeMl' : 'value';
  return made('correct', { [field]: told.value, substance: substance(m.s) ?? m.s });
};

/** "No, 1.2": of what the scale was last said to read. */
const reallyRead: Reader = ({ line, situations, amount, due }) => {
  if (!atTheBench(situations) || (due[0]?.type !== 'reading' && due[0]?.type !== 'dissolved'))
    return undefined;
  const m = match(
    line,
    new RegExp(`^(?:${AGAIN})+(?:it (?:was|is) |it )?(?:only |really )*(?<n>_(?:num|mass)\\d+)$`),
  );
  const told = m && amount(m.n);
  return told
    ? made('correct', told.unit === 'g' ? { massG: told.value } : { value: told.value })
    : undefined;
};

/** "Spoon a bit out again", "can I take some out" */
const takesOut: Reader = ({ line, situations }) =>
  atTheBench(situations) &&
  /^(?:(?:so |then |can i |could i |should i |shall i |do i |i will |i |let me |let us |just |have )*)(?:take|took|taken|spoon|spooned|scoop|scooped|fish|get|got|remove|removed)(?: (?:it|some|bit|little|half|few grams|rest|excess|extra|too much|_mass\d+|of it|powder|_substance\d+|carbonate|bicarbonate|sulfite|bromide|of))*(?: (?:back )?(?:out|off)(?: (?:again|of it|of water|of jug|of there))*)$/.test(
    line,
  )
    ? made('take-out', {})
    : undefined;

export const IN_THE_MIX: readonly Reader[] = [
  isIn,
  acidFirst,
  waterIn,
  soMuchIn,
  partWas,
  reallyRead,
  takesOut,
  skipsPart,
];
