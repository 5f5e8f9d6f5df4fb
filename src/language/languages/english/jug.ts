import type { Situation } from '../../../process/desk.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import type { Slot } from '../../open/slots.js';
import { BODY, KITCHEN_NAMES, SALTS } from './lists.js';
import { isBath, matterIn, thing } from './matter.js';
import { wordsToNumber } from './numbers.js';
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
  const { line, slots } = matterIn(
    plain.replace(/(?<=\w)'s (?=got|gone|been|fallen|dripped|leaked|run)/g, ' has '),
    grammars,
  );
  const idOf = (token: string | undefined): string | undefined =>
    token === undefined ? undefined : thing(token, slots)?.id;
  const volumeOf = (token: string | undefined): unknown =>
    token === undefined ? undefined : slots.get(token)?.fields.volumeMl;
  const odd = mixing && !ofFilm(situations) && ODD_COLOUR.test(plain);
  const strength = mixing && !ofFilm(situations) ? acidStrength(plain) : undefined;
  const reacts =
    mixing && !ofFilm(situations) && REACTS.test(plain) && !/_matter/.test(line) && !DENIED.test(plain);
  const spilt = mixing && !asked && !ofFilm(situations) && spiltPowder(plain, line, slots);
  const intent = strength
    ? made('jar-is', strength)
    : spilt
      ? spilt
      : reacts
        ? made('ask-advice', { topic: 'smoke' })
        : odd
          ? made('ask-advice', { topic: 'cloudy-mix' })
          : (mixing && !asked && told()) || meant();
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
    return strayed(plain, line, situations, slots);
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

/** "I spilled ferricyanide powder on the counter, about 5 grams": which powder, where it was named. */
function spiltPowder(plain: string, line: string, slots: ReadonlyMap<string, Slot>) {
  const where = line.replace(/_place\d+/g, (t) => String(slots.get(t)?.fields.place));
  const told = POWDER_GONE.test(where) && (MASS.test(line) || A_POWDER.test(line));
  if (!told || /_(?:volume|bottle)\d+/.test(line) || IN_THE_JUG.test(line) || DENIED.test(line))
    return undefined;
  if (NOT_TOLD.test(plain) || OF_SOMEBODY.test(line)) return undefined;
  const name = line.match(new RegExp(NAMES.source))?.[0];
  return made('ask-advice', { topic: 'powder-spilled', liquid: name && thing(name, slots)?.id });
}
const POWDER_GONE =
  /\b(?:blew|blown|flew|fell|fallen|dropped|went|gone|landed|knocked|tipped|lost)\b.* (?:floor|carpet|counter|bench|side|table|worktop|desk|everywhere|over)\b|\b(?:lies|is|are)(?: \w+)* (?:on )?(?:floor|carpet)\b|\b(?:spilled|spilt|scattered)\b/;
const A_POWDER = new RegExp(`\\b(?:powder|crystals?|grains?|granules|${SALTS})\\b`);
const IN_THE_JUG = /\bin(?:to)? (?:it|jug|mix|mixture|water|solution|there|beaker|batch)\b/;

/** "Acid of ten percent, how many ml": the acid of this mix, as strong as was told. */
function acidStrength(plain: string): { substance: string; purityPercent: number } | undefined {
  if (!/\bacid\b/.test(plain)) return undefined;
  const before = /^(.*?) ?(?:percent|per cent)\b/.exec(plain)?.[1]?.split(' ') ?? [];
  const numbers = [6, 5, 4, 3, 2, 1].map((n) =>
    before.length < n ? undefined : wordsToNumber(before.slice(-n).join(' ')),
  );
  const purityPercent = numbers.find((n) => n !== undefined);
  if (purityPercent === undefined || purityPercent <= 0 || purityPercent > 100) return undefined;
  return { substance: /\bsulf(?:uric)?\b/.test(plain) ? 'sulfuric-acid' : 'any-acid', purityPercent };
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

/**
 * A thing that is no part of the bath touched the jug, in whatever words: it fell in, was left in a vessel that was not
 * rinsed, came with a tool. Which thing is a part of it the recipe knows; here it counts that nobody says the contrary.
 */
function strayed(
  plain: string,
  line: string,
  situations: readonly Situation[],
  slots: ReadonlyMap<string, Slot>,
) {
  const idOf = (name: string): string | undefined => thing(name, slots)?.id;
  const said = line
    .replace(UNRINSED, 'unrinsed')
    .replace(/_matter\d+/g, (t) => (idOf(t) === 'water' ? 'water' : t));
  if (NOT_TOLD.test(plain) || MASS.test(said) || DENIED.test(said) || ELSEWHERE.test(said)) return undefined;
  if (OVER_THE_EDGE.test(said)) return undefined;
  if (OF_SOMEBODY.test(said) && !ENDS_IN_IT.test(said)) return undefined;
  const washed = WASHED.exec(said);
  if (washed && washed.groups?.by === undefined) return undefined;
  const things = [...said.matchAll(NAMES)]
    .map((m) => ({
      id: idOf(m[0]),
      before: said.slice(0, m.index),
      after: said.slice(m.index + m[0].length),
    }))
    .filter(
      ({ id, before, after }) =>
        id !== undefined && !IN_ITS_PLACE.test(before) && !(id === 'stop' && A_VERB.test(after)),
    );
  const own = things.filter(({ before, after }) => !(GOES_TO.test(before) && IS_THE_JUG.test(after)));
  const [found] = own.length > 0 || !HOW_IT_IS_MADE.test(said) ? own : things;
  const into = own.length > 0 ? things.find((t) => !own.includes(t) && isBath(t.id ?? '')) : undefined;
  // beside a film in the process a bath goes into the tank
  const toJug = TOOL.test(said) || (!ofFilm(situations) && INTO_IT.test(said));
  if (found?.id === undefined || !(toJug || into)) return undefined;
  // an acid or a salt may be a part that is put in as it should
  const strange = isBath(found.id) || HOUSEHOLD.test(found.id);
  const ml = /_volume\d+/.exec(said)?.[0];
  const chance = [BY_CHANCE, OF_ANOTHER, USED_FROM].some((of) => of.test(said));
  if (!strange && (ml !== undefined || !chance)) return undefined;
  if (strange && !chance && !BY_THE_WAY.test(said) && !BY_HAND.test(said)) return undefined;
  return made('contaminated', {
    liquid: found.id,
    ...(toJug ? { intoVessel: 'jug' } : { intoLiquid: into?.id }),
    volumeMl: ml === undefined ? undefined : slots.get(ml)?.fields.volumeMl,
  });
}
const ofFilm = (situations: readonly Situation[]): boolean =>
  situations.some((s) => s === 'pouring' || s === 'immersed' || s === 'draining');
/** A gas that comes off while a bath is mixed; bubbles of stirring are none. */
const REACTS =
  /(?:'s|\b(?:is|started|starts|began|keeps))(?: to)?(?: \w+)? (?:fizz\w*|hiss\w*|spit\w*|sizzl\w*|erupt\w*)\b|\b(?:bubbled|foamed|fizzed|boiled) (?:right |straight )?(?:up|over)\b/;
const ODD_COLOUR =
  /^(?!.*\bbleach\b.* (?:blue|green)\b)(?:is it (?:normal|ok|okay|bad|right) (?:that|if) )?(?:why is )?(?:it|it's|it is|mix|the mix|this|jug|the jug|the bleach|the developer|the fixer|the solution)(?: is| has|'s| looks| smells)?(?: (?:gone|turned|turning|going|supposed to be|all|a bit|very|bright|dark))* (?:green|blue|black|brown|purple|pink|red)(?: (?:now|ok|okay|is that ok|is that normal))?$|^should (?:it|the mix) be (?:green|blue|black|brown|purple|pink|red)$/;
const NAMES = new RegExp(`_matter\\d+|\\b(?:${KITCHEN_NAMES}|${SALTS})\\b`, 'g');
const HOUSEHOLD =
  /vinegar|lemon|lime|juice|cleaner|descaler|remover|chlorine|ammonia|peroxide|soap|detergent|cola|coke/;
const UNRINSED =
  /\b(?:not|never|without|wasn't|weren't|isn't|didn't|hadn't|haven't|hasn't|forgot(?:ten)? to|no time to)(?: (?:been|even|really|properly|quite|yet|ever))* (?:rins\w*|wash\w*|clean\w*|wip\w*)(?: (?:it|them|out|off|first|before|properly|at all))*|\bun(?:rinsed|washed|cleaned)\b/g;
const NOT_TOLD =
  /\b(?:can|could|should|do|does|did|is|are|have|would|shall|may) (?:i|we|you|it|that|there|this)\b|\b(?:what|which|how|yesterday|supposing|imagine|used to|recipe|undo|take that|i mean|(?:smell|stink|reek)s? (?:of|like))\b|\bto (?:one|two|three|four|five|six|seven|eight|nine|ten)$|\blast (?:week|time|year|night)\b|^(?:what|if|can|could|may|should|shall|is|are|was|were|do|does|did|will|would|how|why|when|where|which|whether|never)\b|\b(?:if|(?:have|has|had|need|needs|want|going|about|supposed|ready) to|i'll|will|let me|gonna)\b/;
const MASS = /_mass\d+/;
const ENDS_IN_IT = /\bin(?:to)?(?: (?:it|there|here|jug|mix|beaker|batch))?$/;
const DENIED = /\b(?:not|never|no|nothing|none|nobody|\w+n't|away|nearly|almost|kidding|joking)\b/;
const WASHED = new RegExp(
  `\\b(?:rins|wash|clean|wip)\\w*\\b(?:.* (?:with|in|using|by) (?<by>_matter\\d+|${KITCHEN_NAMES}))?`,
);
const ELSEWHERE =
  /_place\d+|_bottle\d+|\b(?:floor|table|bench|worktop|sink|drain|(?<!from )shelf|cupboard|kitchen|fridge|tub|tank|tray|bucket|waste|carpet|stove|front|beside|next to|out of jug|its (?:own )?bottle|back|over there|next door)\b/;
const OF_SOMEBODY = new RegExp(`\\b(?!neck\\b)(?:${BODY}|nose|throat)\\b`);
const OVER_THE_EDGE = /\b(?:over|down) (?:\w+ )?(?:edge|rim|lip|side)\b(?!.*\b(?:in|into)\b)/;
const IN_ITS_PLACE = /\b(?:instead of|in place of|rather than) (?:same )?$/;
const A_VERB = /^ (?:mixing|mix|when|it|here|now|stirring|pouring|that|this)\b/;
const GOES_TO = /\b(?:in|into|to|onto|on|over|inside) (?:same )?$/;
const IS_THE_JUG =
  /^(?: bath)?(?: (?:jug|mix|mixture|beaker|batch|solution|i am|being)\b|$| (?:by|when|while|now|too|sorry)\b)/;
const HOW_IT_IS_MADE =
  /\b(?:used|using|took|taken|made|mixed|mixing|stirred|swirled|shook|measured|grabbed|there|had|has|was)\b/;
const TOOLS =
  'jug|beaker|cup|cylinder|graduate|measure|measuring|pipette|syringe|dropper|spoon|rod|stick|stirrer|paddle|funnel|thermometer|glass|glove|batch|ladle|whisk|scoop|spatula|neck';
const TOOL = new RegExp(`\\b(?:${TOOLS})\\b`);
/** "The acid spoon" */
const OF_ANOTHER = new RegExp(`(?:_matter\\d+|\\b(?:${KITCHEN_NAMES}|${SALTS}))(?: bath)? (?:${TOOLS})\\b`);
const INTO_IT =
  /\b(?:in|into|inside|to|onto|on|over|with|up|of) (?:it|here|there|this|these|water|mix|mixture|solution)\b|\bin(?:to)?(?: (?:by|too|as well|instead|now|sorry|i think|when|while|from|off)\b.*)?$|\b(?:topped|filled|made|diluted|thinned|brought)(?: (?:it|mix|rest))? ?up\b|\b(?:for|as|instead of|thinking it was) water\b|\b(?:poured|put|tipped|added|dropped) in\b|\b(?:used|took) (?:\w+ )+water$/;
/** By chance, by mistake, or left from before. */
const BY_CHANCE =
  /\b(?:got|gotten|fell|fallen|dropped|drip\w*|dribbl\w*|splash\w*|spill\w*|spilt|ran|leak\w*|landed|ended|squirt\w*|squeez\w*|spray\w*|slipped|slosh\w*|slop\w*|blew|trickl\w*|knock\w*|left|still|leftover|residue|traces?|remains|dregs|smear\w*|dirty|wet|unrinsed|mistook|mistake|accident\w*|wrong|straight|had|instead|smel\w*|dipped|dunked|stuck|crust\w*|dried|coated|caked|came from|where|last|used for|(?:rins|wash|clean|wip)\w*|there (?:was|were|might|may|could))\b/;
/** Of what is surely no part also this. */
const BY_THE_WAY =
  /\b(?:drops?|bit|went|gone|has|same|oops|sorry|used|using|thinking|there (?:is|are)|there's|run)\b/;
const USED_FROM = new RegExp(`\\b(?:used|took) (?:same )?(?:\\w+ )?(?:${TOOLS})\\b`);
const BY_HAND =
  /\b(?:poured|put|added|took|topped|filled|made|mixed|stirred|diluted|thinned|threw|thrown|dumped|emptied|tipped|in|was|is)\b/;
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
