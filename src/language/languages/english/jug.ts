import type { Situation } from '../../../process/desk.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { isBath, matterIn, thing } from './matter.js';
import { made, match } from './sentence.js';

/**
 * What is told, meant or asked of the jug while a bath is mixed, where "it" is that bath: "I topped it up with the stop",
 * "I'll add some acid to bring it down". Of a thing that is to change a pH, also without a mix.
 */
export function ofTheJug(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
  asked: boolean,
): Interpretation | undefined {
  const mixing = situations.includes('mixing');
  const { line, slots } = matterIn(plain, grammars);
  const idOf = (token: string | undefined): string | undefined =>
    token === undefined ? undefined : thing(token, slots)?.id;
  const volumeOf = (token: string | undefined): unknown =>
    token === undefined ? undefined : slots.get(token)?.fields.volumeMl;
  const intent = (mixing && !asked && told()) || meant();
  return intent && { kind: 'understood', intent, words: plain, situation: situations[0] ?? 'anytime' };

  function told() {
    const water = match(line, ...WATER_IN);
    if (water && idOf(water.what) === 'water')
      return made('reading', { value: volumeOf(water.ml), unit: 'ml', substance: 'water', added: true });
    const order = match(line, ACID_FIRST);
    const acid = idOf(order?.what);
    if (acid !== undefined && acid !== 'water' && !isBath(acid))
      return made('what-if', { liquid: 'water', intoLiquid: acid, done: true });
    const out = match(line, SOME_OF_IT);
    const vessel = out?.to === undefined ? undefined : slots.get(out.to)?.fields.vessel;
    if (vessel)
      return made('pour-between', {
        from: { kind: 'jug' },
        to: vessel,
        volumeMl: volumeOf(out?.ml ?? out?.say),
      });
    if (UNLESS.test(line)) return undefined;
    const got = match(line, ...GOT_IN);
    const what = idOf(got?.what);
    if (what === undefined || what === 'water') return undefined;
    if (got?.place !== undefined && idOf(got.place) !== 'water') return undefined;
    return made('contaminated', { liquid: what, intoVessel: 'jug', volumeMl: volumeOf(got?.ml) });
  }

  function meant() {
    const added = match(line, ...WOULD_ADD);
    // without a mix it is not known what "it" is
    const of = (mixing || added?.into !== undefined ? added : undefined) ?? match(line, ...PH_BY);
    const what = idOf(of?.what);
    if (what === undefined || what === 'water') return undefined;
    // a bath goes into the tank, where nothing else is named; which goes first is another question
    if ((isBath(what) && GOES_IN.test(line)) || WHICH.test(line)) return undefined;
    return made('what-if', { liquid: what, intoLiquid: idOf(of?.into) });
  }
}

const IT = '(?:it|there|jug|mix|mixture|batch|solution|beaker)';
const SOME =
  '(?:(?:some|little|bit|touch|splash|few|drops?|dash|tiny|more|about|bottle|another|(?<ml>_volume\\d+)|_mass\\d+)(?: of)? )*';
/** "The acid stop": the last name is the thing's. */
const WHAT = `${SOME}(?:_matter\\d+ )?(?<what>_matter\\d+)(?: bath)?`;
const I = '(?:i |we )?(?:have |had |just |then |also |accidentally |only )*';
const WATER_IN: readonly RegExp[] = [
  /^(?:about )?(?<ml>_volume\d+)(?: of)? (?<what>_matter\d+) (?:(?:is|are|went|has|have|gone|now|all) )*in(?: it| jug| there)?$/,
  new RegExp(
    `^${I}(?:poured|put|added|filled)(?: in)? (?:about )?(?<ml>_volume\\d+)(?: of)? (?<what>_matter\\d+)(?: (?:in|into|to))?(?: ${IT})?$`,
  ),
];
const ACID_FIRST = new RegExp(
  `\\b(?:poured|put|added|tipped)(?: in)? ${WHAT}(?: went)?(?: in)? first(?: and| then| in)* _matter\\d+(?: (?:after|in|on top|second|onto it|on it))*$`,
);
const SOME_OF_IT =
  /^(?:i |we )?(?:have |accidentally |just )*(?:poured|put|tipped|spilled|spilt|splashed|emptied|got) (?:some|bit|little|(?:about )?(?<ml>_volume\d+)|splash|drops?)(?: of)?(?: (?:it|mix|jug|this))? (?:in|into|to) (?<to>_bottle\d+)(?: (?:by mistake|by accident|say|about|maybe|roughly|around|like|i think|(?<say>_volume\d+)))*$/;
/** The vessel was clean. */
const UNLESS = /\b(?:rinsed|washed|cleaned|clean|not|never|no|did|nothing)\b/;
const GOT_IN: readonly RegExp[] = [
  new RegExp(
    `\\b(?:topped|filled|made|diluted|thinned|brought)(?: (?:it|jug|mix|rest|batch))?(?: up)?(?: (?:it|jug|mix|batch))?(?: to (?:mark|volume|level|top|line|_volume\\d+))? with ${WHAT}(?: (?:instead|rather|by mistake|by accident)(?: .*)?)?$`,
  ),
  new RegExp(
    `^${I}(?:used|took|put in|poured in|added) ${WHAT} (?:instead of|in place of|rather than|for) (?<place>_matter\\d+)$`,
  ),
  new RegExp(
    `\\b(?:there (?:was|is|were)|there's|it had|it has|jug had|jug has|(?:jug|beaker) which had|(?:jug|beaker) had) (?:still |also |already )*${WHAT}(?: (?:left|still|before|left over))*(?: (?:in|inside) ${IT})?(?: before)?$`,
  ),
  new RegExp(
    `\\b(?:used|took|with|in) (?:same |dirty |unrinsed |wet )*${WHAT} (?:jug|beaker|cylinder|graduate|funnel|stirrer|rod|spoon)$`,
  ),
];
const WILL =
  "(?:i'll|i will|i am going to|i'm going to|going to|gonna|i want to|i'd|i would|let me|let us|let's|shall i|should i|can i|could i|may i|must i|do i|what if i|maybe i|i could|i might|i am|i'm|how about|would it help to|is it ok to|is it okay to)";
const PUT = '(?:add|put|pour|use|drop|stir|tip|give|throw|adding|putting|pouring|using)';
const WHICH = / or _matter\d+ /;
const GOES_IN = /\b(?:pour|put|pouring|putting)(?: in)? _matter\d+(?: in| now)*$/;
const WOULD_ADD: readonly RegExp[] = [
  new RegExp(
    `\\b${WILL}(?: (?:now|just|then|also|simply|not))* ${PUT}(?: it| in)? ${WHAT}(?: (?:in|into|to|with)(?: ${IT}| (?<into>_matter\\d+)(?: bath| bottle)?)?)?(?: (?:too|as well|now|instead|first|safely))*(?: (?:to|so|and|until|because|for) .*)?$`,
  ),
];
const CHANGE =
  '(?:get|bring|bringing|lower|lowering|raise|raising|drop|reduce|adjust|correct|set|fix|push|pull|take|move|make)';
/** What is to bring a pH up or down. */
const PH_BY: readonly RegExp[] = [
  new RegExp(
    `\\b${SOME}(?<!\\b(?:to|in|into) )(?<what>_matter\\d+) (?:to|for) ${CHANGE}(?: down| up)? (?:p h|acidity)(?: of (?<into>_matter\\d+))?(?: (?:down|up|right|back|lower|higher|level|more|bit|to _?\\w+))*$`,
  ),
  new RegExp(
    `^(?!how).*\\b${CHANGE}(?: down| up)? (?:p h|acidity)(?: of (?<into>_matter\\d+|it))?(?: down| up| bit)* (?:with|by adding|using|by) ${WHAT}$`,
  ),
];
