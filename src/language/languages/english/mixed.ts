import { FILM_IN_PROCESS } from '../../meaning/situations.js';
import { made, match, type Reader } from './sentence.js';

/** What is told while a bath is mixed, in the few words that hands in gloves leave: that a part is in, which one, and how much of it. */

const LEAD = '^(?:(?:okay|right|there|now|then|so|yes|and|that is it|all) )*';
/** A part, by its name or by the short one that a recipe has but one of. */
const PART = '(?:_substance\\d+|carbonate|bicarbonate|sulfite|bromide)';
const IN = '(?:in|in water|in jug|in there|in now|added)';

/** "It's in", "poured", "tipped it in": the part in hand is in the water, or what was asked for is done. */
const isIn: Reader = ({ line, situations, due }) => {
  if (!situations.includes('mixing') || situations.some((s) => FILM_IN_PROCESS.includes(s))) return undefined;
  const told = new RegExp(
    `${LEAD}(?:(?:it|that|this|powder|acid|all of it|_substance\\d+) (?:is|are|has|went|all|now|gone) (?:gone |all |been )?)?(?:${IN}|(?:i |we )?(?:have )?(?:poured|put|tipped|stirred|dropped|added)(?: (?:it|that|them|this|all of it))?(?: ${IN})?)(?: now| too)*$`,
  ).test(line);
  if (!told) return undefined;
  const [first] = due;
  return first?.type === 'mix-next' ? first : made('dissolved', {});
};

/** "Carbonate 15.4 went in", "0.6 of bromide is in": so much of that part. */
const soMuchIn: Reader = ({ line, situations, substance, amount, due }) => {
  if (!situations.includes('mixing')) return undefined;
  const much = '(?:only |about )*(?<n>_(?:num|mass|volume)\\d+)';
  const went = '(?:is in|are in|went in|has gone in|have gone in|is added|in|went in water|is in water)';
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

export const IN_THE_MIX: readonly Reader[] = [isIn, soMuchIn, skipsPart];
