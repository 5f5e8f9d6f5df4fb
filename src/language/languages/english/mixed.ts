import type { Situation } from '../../../process/desk.js';
import { FILM_IN_PROCESS } from '../../meaning/situations.js';
import { THING } from './lists.js';
import { NO_THING } from './matter.js';
import { EXCLAIMED, made, madeOf, match, type Reader, words } from './sentence.js';

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

const MUCH = '_(?:num|mass|volume)\\d+';
const WEIGHED =
  '(?:(?:i |we )?(?:have )?(?:just |only |now )*(?<did>put|poured|added|tipped|chucked|dropped|stirred|dumped|threw|dissolved|weighed|weigh|got|have|measured|used|took)(?: (?:in|out|up|off))? |(?:scale |balance |it |that |there )(?:says|reads|shows|is|was|are) )?(?:about |only |exactly |another )*';
const GOES =
  '(?:goes?|lots?|batch(?:es)?|boats?|portions?|parts?|halves|steps?|times|loads?|spoons?|cups?|dishes|dish|papers?|trays?)';
/** "10 grams of sulphite, in two goes of 5", "one gram in one boat and 0.2 in another": together that is one reading. */
const inGoes: Reader = ({ line, situations, substance, amount, number }) => {
  if (!atTheBench(situations)) return undefined;
  const some = `(?:(?<k>_num\\d+)|couple of|few|several) ${GOES}`;
  const each = `(?<each>${MUCH})(?: each)?`;
  const m = match(
    line,
    new RegExp(
      `${LEAD}${WEIGHED}(?<n>${MUCH})(?: of)?(?: (?<s>${PART}))? (?:in|as) ${some}(?: of ${each})?(?: ${IN})?$`,
    ),
    new RegExp(
      `${LEAD}${WEIGHED}${some} of (?<each>_(?:mass|volume)\\d+)(?: each)?(?: of)?(?: (?<s>${PART}))?(?: ${IN})?$`,
    ),
    new RegExp(
      `${LEAD}${WEIGHED}(?<n>${MUCH})(?: of)?(?: (?<s>${PART}))? (?:in|on) (?:first|one|_num\\d+|this) (?:${GOES} )?(?:and|then|plus)(?: then| another)* (?<b>${MUCH}) (?:in|on) (?:another|other|second|next)(?: one| ${GOES})?$`,
    ),
  );
  const [whole, one, more] = [amount(m?.n), amount(m?.each), amount(m?.b)];
  const value = whole ? whole.value + (more?.value ?? 0) : (one?.value ?? 0) * (number(m?.k) ?? 0);
  if (!m || value <= 0) return undefined;
  return made('reading', {
    value: Math.round(value * 1000) / 1000,
    unit: whole?.unit ?? one?.unit ?? more?.unit,
    substance: substance(m.s) ?? m.s,
    ...((IS_IN.test(m.did ?? '') || /\bin$/.test(line)) && { added: true }),
  });
};
const IS_IN = /^(?:put|poured|added|tipped|chucked|dropped|stirred|dumped|threw|dissolved)$/;

const OF_AMOUNTS = words(
  EXCLAIMED,
  'i we it that all there then now is are was were has have had got been gone went goes in into on to of off jug water scale balance boat says reads shows put poured added tipped chucked dropped dumped stirred weighed used yes yep yeah yup no fine sure good done dissolved mean',
  'and plus but also by with without mistake accident thinking first second just only about exactly again more another extra further top too instead not rather than really think must same',
);
const AND_MORE = /\b(?:again|more|another|extra|further|plus|on top)\b/;
const PUT_IN = /\b(?:in|added|tipped|chucked|dropped|dumped|stirred|poured|put)\b/;
const RATHER_THAN = /\b(?:not|instead of|rather than)(?: (?:just|only|about|with))* (?=_)/;
/**
 * "Carbonate 15.4 went in", "20 grams in, then by mistake 20 more", "I put 12 in, not 1.2", "yep, one point two": amounts of one part, in
 * any order of the words around them.
 */
const amountsOf: Reader = ({ line, situations, due, substance, amount }) => {
  const [part, ...parts] = new Set(line.match(new RegExp(PART, 'g')));
  const bench = atTheBench(situations) || (part !== undefined && situations.includes('mixing'));
  if (
    !bench ||
    parts.length > 0 ||
    !madeOf(line, OF_AMOUNTS, new RegExp(`^(?:${PART}|${MUCH}|_liquid\\d+)$`))
  )
    return undefined;
  const [told = '', denied = ''] = line.split(RATHER_THAN);
  const all = (text: string) => [...text.matchAll(new RegExp(MUCH, 'g'))].flatMap(([t]) => amount(t) ?? []);
  const [first, second, ...others] = all(told);
  const [wrong] = all(denied);
  if (!first || others.length > 0 || /\b(?:not|no)\b/.test(told)) return undefined;
  const [asked] = due;
  const weighed = due.find((d) => d.type === 'reading');
  const unit = first.unit ?? second?.unit ?? wrong?.unit ?? (part === undefined ? weighed?.unit : undefined);
  const isIn = PUT_IN.test(told);
  const read = (value: number, more: { more?: number; instead?: number } = {}) =>
    made('reading', {
      value,
      unit,
      substance: substance(part) ?? part,
      ...(isIn && { added: true }),
      ...more,
    });
  if (wrong) return isIn && !second ? read(first.value, { instead: wrong.value }) : undefined;
  if (!AND_MORE.test(told)) {
    const yes =
      /^(?:yes|yep|yeah|yup)\b/.test(told) && asked === weighed && !situations.includes('challenged');
    return !second && (isIn || yes) ? read(first.value) : undefined;
  }
  if (second) return isIn ? read(first.value, { more: second.value }) : read(first.value + second.value);
  return isIn && (part || asked?.type === 'dissolved') ? read(0, { more: first.value }) : undefined;
};

/** "40 grams of table salt", "sugar, 40 grams": what has a name that is none of ours is not the part in hand. */
const ofAnother: Reader = ({ line, plain, situations, amount, mended }) => {
  if (!atTheBench(situations)) return undefined;
  const where =
    '(?<tail>(?: (?:in|into|on|onto|to|jug|water|scale|boat|there|here|it|now|too|already|instead|by mistake|by accident|i think|so far|dissolved))*)';
  const m = match(
    line,
    new RegExp(`${LEAD}${WEIGHED}(?<n>_(?:mass|volume)\\d+) (?:of )+(?<x>[a-z0-9' ]+?)${where}$`),
    new RegExp(`${LEAD}${WEIGHED}(?<n>${MUCH}) (?:of )?(?<x>(?:[a-z']+ ){0,3}${THING})${where}$`),
    new RegExp(
      `${LEAD}(?<x>(?:[a-z']+ ){0,3}${THING}) (?:is |was |at |about )*(?<n>_(?:mass|volume)\\d+)${where}$`,
    ),
  );
  const told = m && amount(m.n);
  if (!told || m.x === undefined) return undefined;
  const own = m.x.split(' ').filter((w) => !BELONGS_TO_NAMES.test(w));
  const name = own.filter((w) => !NAMELESS.test(w)).join(' ');
  if (name === '' || own.length > MOST_IN_A_NAME || NO_THING.test(name)) return undefined;
  // a slip of the fingers may be mended to the part
  if (mended(own).some((words) => new RegExp(`^${PART}$`).test(words))) return undefined;
  if (/^salts?$/.test(name) && new RegExp(`\\bthe ${name}\\b`).test(plain)) return undefined;
  return made('reading', {
    ...told,
    substance: own.join('-').replace(/'/g, ''),
    ...((IS_IN.test(m.did ?? '') || /\b(?:in|into|dissolved)\b/.test(m.tail ?? '')) && { added: true }),
  });
};
const MOST_IN_A_NAME = 4;
const BELONGS_TO_NAMES = /^(?:of|some|ordinary|plain|normal|simple|just|this|that)$/;
/** What is no name, and may be the part that is asked for. */
const NAMELESS =
  /^(?:it|that|this|them|those|these|which|what|each|all|stuff|powders?|crystals?|granules|flakes|grains|solids?|liquid|solution|chemicals?|components?|parts?|next|first|second|third|fourth|fifth|sixth|seventh|last|one|same|right|correct|dry|damp|pure|fine|fresh|new|old|anhydrous|white|orange|red|yellow|brown|blue|green|clear|pink|gr[ea]y|black|purple|seven|normal|acid)$/;

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

const AGAIN = '(?:no|nope|sorry|wait|actually|hang on|i mean|i meant|i said|rather|but) ';
const WAS =
  '(?:(?:really |only )*(?:was|were|is|should have been|ought to have been|should be|must have been)(?: (?:really|only|about))*)';
/** So many litres or millilitres, as a jug shows them. */
const inMl = (n: number | undefined): number | undefined =>
  n === undefined || n > MOST_LITRES ? n : 1000 * n;
const MOST_LITRES = 10;

/** "I used 1200 ml of water", "2 litres in the jug": so much stands in the jug; without a name only while water is what is asked for. */
const waterIn: Reader = ({ line, situations, volumeMl, number, liquid, due }) => {
  if (!atTheBench(situations)) return undefined;
  const ml = '(?:about |only |already |another |more )*(?<v>_volume\\d+)';
  const m = match(
    line,
    new RegExp(`${LEAD}${I_PUT}${INTO} ${ml}${WATER}?${INTO}$`),
    new RegExp(`${LEAD}${ml}${WATER}? (?:(?:is|are|went) )?in${INTO}$`),
    new RegExp(`${LEAD}(?:there (?:is|are) |it is |i have )?${ml}${WATER}?(?: in jug)?$`),
    new RegExp(`${LEAD}(?:(?<w>_liquid\\d+)|jug) (?:is|was|has) (?:at )?${ml}(?: in)?$`),
    new RegExp(
      `^(?:${AGAIN})*(?<w>_liquid\\d+) ${WAS} (?:${ml}|(?<n>_num\\d+))(?: not _(?:num|volume)\\d+)?(?: really)?$`,
    ),
  );
  const named =
    m?.w === undefined ? /\bjug\b/.test(line) || due[0]?.type === 'mix-next' : liquid(m.w) === 'water';
  const told = m?.n === undefined ? volumeMl(m?.v) : inMl(number(m.n));
  const value = named ? told : undefined;
  return value === undefined
    ? undefined
    : made('reading', { value, unit: 'ml', substance: 'water', added: true });
};

const OF_WATER = words(
  EXCLAIMED,
  'i we it is has have got gone went put poured filled tipped in into up with jug there that all full of yes yep now done to mark',
);
/** "Water's in", "got the water in the jug", however late it is said. */
const waterIsIn: Reader = ({ line, situations, liquid, due: [asked] }) => {
  if (!atTheBench(situations) || !madeOf(line, OF_WATER, /^_liquid\d+$/)) return undefined;
  const [water, ...others] = line.match(/_liquid\d+/g) ?? [];
  if (liquid(water) !== 'water' || others.length > 0 || !/\b(?:in|into|full|filled|poured|put)\b/.test(line))
    return undefined;
  return asked?.type === 'mix-next' || asked?.type === 'made-up' ? asked : made('mix-where', {});
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

/** "Actually the carbonate was 18 grams": of the part that it names, whatever is in hand. */
const partWas: Reader = ({ line, situations, substance, amount }) => {
  if (!situations.includes('mixing')) return undefined;
  const much = '(?:only |about |really )*(?<n>_(?:num|mass|volume)\\d+)';
  const m = match(
    line,
    new RegExp(`^(?:${AGAIN})*(?<s>${PART}) ${WAS} ${much}(?: not _(?:num|mass|volume)\\d+)?(?: really)?$`),
    new RegExp(`^(?:${AGAIN})+${much} (?:of )?(?<s>${PART})$`),
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
    new RegExp(
      `^(?:${AGAIN})+(?:it (?:really |only )*(?:was|is) |it )?(?:only |really )*(?<n>_(?:num|mass)\\d+)$`,
    ),
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

/** "Finished", "all done", of what is to be made up. */
const finished: Reader = ({ line, due }) =>
  due[0]?.type === 'made-up' &&
  /^(?:(?:it is|that is|i am|ok|okay|yes|all|now|so) )*(?:done|finished|ready|full|filled up|topped up)(?: now| then)*$/.test(
    line,
  )
    ? made('made-up', {})
    : undefined;

export const IN_THE_MIX: readonly Reader[] = [
  finished,
  isIn,
  acidFirst,
  waterIn,
  waterIsIn,
  amountsOf,
  inGoes,
  ofAnother,
  partWas,
  reallyRead,
  takesOut,
  skipsPart,
];
