import type { Situation } from '../../../process/desk.js';
import { asIntent, type Intent } from '../../../process/intent.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { type Numbered, numbered, type Slot, type SlotRules, slotSpotter } from '../../open/slots.js';
import {
  BODY,
  HAND_IN,
  howHurt,
  IDLE_OF_MATTER,
  isEmergency,
  KITCHEN_NAMES,
  MEALS,
  ON_A_PART,
  ONTO,
  PART_OF_SOMEBODY,
  SALTS,
  SOMEBODY,
  WIPES,
} from './lists.js';

/**
 * Questions and reports about things meeting, getting out or getting on somebody, in anybody's words: "can I rinse the
 * tank with vinegar", "what if lemon juice gets into the fixer", "spilled some turpentine on the table". A thing that
 * no grammar knows keeps its own name, so that chemistry may know it, or say that it does not. Nothing here is a pour.
 */
export function aboutMatter(plain: string, grammars: Grammars): Interpretation | undefined {
  const lead = /^(?:(?:so|and|but|hey|well|okay|oh no|oh|tell me|quick|help) )+/;
  const { line, slots } = matterIn(plain.replace(lead, ''), grammars);
  for (const read of READERS) {
    const found = read(line, slots, plain);
    const meant = found && understood(asReport(found, line), plain);
    if (meant) return meant;
  }
  return undefined;
}

function understood({ type, ...fields }: Found, words: string): Understood | undefined {
  const { both, ...own } = fields;
  const each = both ? both.flatMap(({ type: of = type, ...f }) => asIntent(of, f) ?? []) : [];
  const intent: Intent | undefined = both ? { type: 'several', intents: each } : asIntent(type, own);
  return intent && { kind: 'understood', intent, words, situation: 'anytime' };
}

/** A sentence with its things and amounts as slots, and without articles. */
export const matterIn = (plain: string, grammars: Grammars): Numbered =>
  numbered(slotSpotter(grammars, RULES)(plain.split(' ').filter((w) => w !== '' && !IDLE_OF_MATTER.has(w))));

/** What a reader finds; `asIntent` holds it against the intent's own fields. */
type Found = OfOne & { type: Intent['type']; both?: readonly OfOne[] };
type OfOne = { type?: Intent['type'] } & Record<string, unknown>;
type Reader = (line: string, slots: ReadonlyMap<string, Slot>, plain: string) => Found | undefined;

const RULES: SlotRules = [
  ['_bottle', 'vessels', 'bottle'],
  ['_matter', 'what-if', 'matter'],
  ['_place', 'places', 'place'],
  ['_volume', 'quantities', 'volume'],
  ['_mass', 'quantities', 'mass'],
];

/** Begins a question, or a case that is thought through. */
const ASKS =
  "(?:what(?: would| will| does| do)? happens?(?: if| when)?|what if|what do|what does|what would|what when|can|could|may|might|should|shall|must|will|would|is it (?:safe|okay|ok|bad|dangerous|fine|alright|possible|a problem|harmful|wise)(?: to| if)?|am i allowed to|is|are|do|does|how about|how do|how can|if|why (?:can't|cannot|not|should|must|may|does|do|is)|never|do i)";
const MEETS =
  '(?:pour(?:ed|ing)?|mix(?:ed|ing)?|add(?:ed|ing)?|put(?:ting)?|spill(?:ed|ing)?|spilt|combine(?:d)?|drop(?:ped)?|splash(?:ed)?|tip(?:ped)?|dump(?:ed)?|stir(?:red)?|use|using|blend(?:ed)?|dilute(?:d)?|store(?:d)?|keep|get(?:ting)?|got)';
const INTO =
  '(?:together with|in contact with|on top of|mixed with|next to|into|onto|with|in|to|on|over|and|plus)';
const WASHES =
  '(?:clean(?:ed|ing)?|wash(?:ed|ing)?|rins(?:e|ed|ing)|wip(?:e|ed|ing)|scrub(?:bed)?|mop(?:ped)?|neutrali[sz](?:e|ed|ing)|disinfect(?:ed)?)(?: (?:up|out|off))?';

/** No name of a thing: what such words stand for is answered elsewhere. */
export const NO_THING =
  /\b(?:it|them|heaters?|circulator|pump|lamp|lino|tiles|rug|carpet|worktop|cupboard|everything|something|anything|nothing|tank|film|films|reel|spiral|lid|tub|light|room|minutes?|seconds?|hours?|degrees|time|longer|shorter|later|now|again|already|yet|first|earlier|early|late|out|run|step|shelf|scale|meter|temperature|here|there|before|after|twice|half|stop bath time|i|we|you|is|was|are|one|two|three|four|five|six|ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|bottle|can|tin|jar|jug|bucket|container|canister|point|zero|hands?|do|does|done|be|with|not|if|happens?|instead|as|bit|little|lot|splash|drops?|mess|chips|fish|salad|lunch|dinner|pizza|sandwich\w*|supper|slowly|carefully|gently|quickly|fine|nicely|well)\b/;
const TRIMS =
  /^(?:(?:tap|distilled|deionized|demineralized|hot|cold|warm|rain|of|some|little|bit|few|drops?|drop|splash|dash|cup|glass|spoon|spoonful|teaspoon|tablespoon|capful|shot|more|another|fresh|used|old|spent|leftover|left over|all|by mistake|accidentally|in|up) )+|(?: (?:together|up|by mistake|accidentally|instead|too|at once|not|never|down|in same (?:jug|bottle|jar|bucket)|in one (?:jug|bottle|jar)|for|safely))+$/g;

/** The same thing, dry or dissolved. */
const OF_A_THING =
  /^(_matter\d+) (?:powder|crystals?|granules|solution|stuff|spills?|stains?|puddles?|mess|leftovers?|waste|residue)$/;

interface Thing {
  id?: string;
  bottle?: number;
  volumeMl?: number;
  massG?: number;
  /** a name of the grammars, and not merely words where a thing should be */
  known: boolean;
}

/** A noun phrase with its amount; undefined when it cannot be the name of a thing. */
export function thing(phrase: string, slots: ReadonlyMap<string, Slot>): Thing | undefined {
  const amount: Pick<Thing, 'volumeMl' | 'massG'> = {};
  let rest = phrase.trim().replace(/_(?:volume|mass)\d+(?: of)?/, (m) => {
    const fields = slots.get(m.split(' ')[0] ?? '')?.fields;
    if (typeof fields?.volumeMl === 'number') amount.volumeMl = fields.volumeMl;
    if (typeof fields?.massG === 'number') amount.massG = fields.massG;
    return '';
  });
  for (let before = ''; before !== rest; )
    [before, rest] = [rest, rest.trim().replace(TRIMS, '').replace(OF_A_THING, '$1')];
  const slot = slots.get(rest);
  if (rest.startsWith('_matter') && slot) return { id: String(slot.fields.liquid), known: true, ...amount };
  if (rest.startsWith('_bottle') && slot) {
    const { vessel } = slot.fields;
    return typeof vessel === 'object' && typeof vessel.number === 'number'
      ? { bottle: vessel.number, known: true, ...amount }
      : undefined;
  }
  const name = rest.replace(/_matter\d+/g, (m) => String(slots.get(m)?.fields.liquid ?? ''));
  if (!/^[a-z][a-z' -]*$/.test(name) || name.split(' ').length > 4 || NO_THING.test(name)) return undefined;
  if (PART_OF_SOMEBODY.test(name)) return undefined;
  return {
    id: name.replace(/'/g, '').replace(/[^a-z]+/g, '-'),
    known: false,
    ...amount,
  };
}

/** What was put or got into a bath or a bottle, told as done, has changed it; other things have met; anything else is only thought of. */
function asReport(found: Found, line: string): Found {
  const { liquid, volumeMl, intoLiquid, intoBottle, massG } = found;
  const into = intoBottle !== undefined || BATHS.test(String(intoLiquid));
  if (found.type !== 'what-if' || !TOLD.test(line) || hypothetical(line)) return found;
  if (massG !== undefined || !into || WASTE.test(line)) return { ...found, done: true };
  return {
    type: 'contaminated',
    liquid,
    ...(volumeMl !== undefined && { volumeMl }),
    ...(intoLiquid !== undefined && { intoLiquid }),
    ...(intoBottle !== undefined && { intoBottle }),
  };
}
const TOLD =
  /^(?:(?:oh|no|oops|damn|sorry|wait|help|wrong (?:jug|bottle|one|funnel)) )*(?:(?:i|we)(?:'ve| have| just| accidentally)* (?:poured|added|put|topped|filled|diluted|thinned|tipped|dropped|splashed|spilled|mixed|got|emptied|decanted)|(?:some|_volume\d+|(?:the |my )?_matter\d+|little|bit|few drops|drop)\b.* (?:got|fell|ran|leaked|splashed|dripped|went|dropped|ended up|gone)|(?:the |my )?_matter\d+(?: is|'s| are)(?: now| already)? in(?:to)?)\b/;

/** Where nothing is kept. */
const WASTE = /\b(?:sink|drain|bucket|waste|bin|toilet|basin|bowl|floor|canister|container)\b|_place\d+/;

/** Two things, one at least known by name. */
function meeting(a: string, b: string, slots: ReadonlyMap<string, Slot>): Found | undefined {
  const [poured, into] = [thing(a, slots), thing(b, slots)];
  if (!poured || !into || !(poured.known || into.known) || poured.id === undefined) return undefined;
  if (into.id === undefined && into.bottle === undefined) return undefined;
  // water is in every bath: without amounts it is asked of for another reason, but for acid
  const wet =
    [poured.id, into.id].includes('water') && poured.volumeMl === undefined && into.volumeMl === undefined;
  if (wet && [poured.id, into.id].some((id) => BATHS.test(id ?? '') && id !== 'water')) return undefined;
  if (wet && !(poured.known && into.known)) return undefined;
  return {
    type: 'what-if',
    liquid: poured.id,
    ...(poured.volumeMl !== undefined && { volumeMl: poured.volumeMl }),
    ...(poured.massG !== undefined && { massG: poured.massG }),
    ...goingInto(into),
    ...(into.volumeMl !== undefined && { intoVolumeMl: into.volumeMl }),
  };
}

const goingInto = ({ id, bottle }: Thing): Record<string, unknown> => ({
  ...(id !== undefined && { intoLiquid: id }),
  ...(bottle !== undefined && { intoBottle: bottle }),
});

const DRAIN =
  /\b(?:down|into|in|to|on) (?:\S+ )?(?:drain|toilet|gutter|garden|bin|trash|garbage|sewer|septic tank|sink)\b|_place\d+/;
const GETS_RID =
  /\b(?:dispos\w*|get(?:ting)? rid|throw(?:n|ing)? (?:\S+ ){0,3}(?:away|out)|discard\w*|dump\w*|recycle\w*|hazardous waste)\b/;

/** The first thing that is named. */
const named = (line: string, slots: ReadonlyMap<string, Slot>): string | undefined => {
  const at = /_matter\d+/.exec(line)?.[0];
  const id = at === undefined ? undefined : slots.get(at)?.fields.liquid;
  return id === undefined ? undefined : String(id);
};
const count = (line: string): number => line.match(/_matter\d+/g)?.length ?? 0;

const ON_A_BODY = new RegExp(`\\b${ONTO} (?:\\S+ )?(${BODY})\\b`);
const placeOf = (line: string, slots: ReadonlyMap<string, Slot>): string | undefined => {
  const at = /_place\d+/.exec(line)?.[0];
  const place = at === undefined ? undefined : slots.get(at)?.fields.place;
  return place === undefined ? ON_A_BODY.exec(line)?.[1] : String(place);
};
/** A part of a body, as the grammar of places names it. */
const bodyOf = (place: string | undefined): string | undefined => {
  if (place === undefined || !A_PART.test(place)) return undefined;
  const how = howHurt(place);
  return how === 'swallowed'
    ? 'mouth'
    : how === 'skin'
      ? /^(?:hand|finger)/.test(place)
        ? 'hand'
        : 'skin'
      : how;
};
/** The lip of a jug is none. */
const A_PART = new RegExp(`^(?!lip$)(?:${BODY})$`);
const SPILLS =
  /\b(?:spill(?:ed|t|ing)?|spilt|slopp(?:ed|ing)|slosh(?:ed|ing)|splash(?:ed)?|knocked|tipped|leak(?:ed|ing|s)?|dripped|dropped(?! to\b)|all over)\b/;
const hypothetical = (line: string): boolean => new RegExp(`^(?:${ASKS}|what|how|where|which)\\b`).test(line);

/** Somebody swallowed or breathed it, or has it in an eye or on the skin; for an animal others are called. */
const hurt: Reader = (line, slots, plain) => {
  const found = whereHurt(line, slots, plain);
  return found?.type === 'hurt' && howHurt(plain) === 'animal' ? { ...found, how: 'animal' } : found;
};
const whereHurt: Reader = (line, slots, plain) => {
  if (isEmergency(plain)) return { type: 'hurt', how: howHurt(plain) };
  if (
    /\b(?:swallow(?:ed)?|drank|drunk|ate|eaten|lick(?:ed|ing)|suck(?:ed|ing)|gulped)\b/.test(line) &&
    !/^(?:can|what|if|is|should)\b/.test(line) &&
    !(count(line) === 0 && MEALS.test(plain))
  )
    return { type: 'hurt', how: 'swallowed', ...matterOf(line, slots) };
  const sore = SORE.exec(plain)?.[0];
  if (sore !== undefined) return { type: 'hurt', how: howHurt(sore) ?? 'skin' };
  const part = ON_A_PART.exec(plain)?.[0];
  if (part !== undefined) return { type: 'hurt', how: howHurt(part) ?? 'skin', ...matterOf(line, slots) };
  if (BLEEDS.test(plain)) return { type: 'hurt', how: howHurt(plain) ?? 'wound' };
  const bathed =
    HAND_IN.test(plain) && !hypothetical(line) && !/\b(?:not|never|glove\w*|\w+n't)\b/.test(plain);
  if (bathed && (A_BATH.test(plain) || (count(line) === 1 && named(line, slots) !== 'water')))
    return { type: 'hurt', how: 'skin', ...matterOf(line, slots) };
  if (TOUCHED.test(plain) && count(line) === 1 && named(line, slots) !== 'water')
    return { type: 'hurt', how: 'skin', ...matterOf(line, slots) };
  if (RASH.test(line) || (CLOTHED.test(line) && !hypothetical(line) && named(line, slots) !== 'water'))
    if (count(line) === 1) return { type: 'hurt', how: 'skin', ...matterOf(line, slots) };
  if (BREATHES.test(line) || FELT.test(line))
    return { type: 'hurt', how: 'breathed', ...matterOf(line, slots) };
  const place = bodyOf(placeOf(line, slots));
  // what lies in a hand is held
  if (
    place === undefined ||
    hypothetical(line) ||
    /\b(?:not|never|in (?:me |left |right )?hands?)\b/.test(line)
  )
    return undefined;
  const liquid = named(line, slots);
  const wet = (liquid !== undefined && liquid !== 'water') || SPILLS.test(line) || FLEW.test(line);
  const at = /_volume\d+/.exec(line)?.[0];
  const volumeMl = at === undefined ? undefined : slots.get(at)?.fields.volumeMl;
  return wet && count(line) < 2
    ? { type: 'spill', ...matterOf(line, slots), place, ...(volumeMl !== undefined && { volumeMl }) }
    : undefined;
};
const SORE = new RegExp(
  `\\b(?:my|his|her|their|\\w+'s) (?:\\w+ )?(?:(?:eyes?|hands?|skin|face|arms?|fingers?|throat|nose|lungs?|chest)\\b.* (?:hurts?|red(?! from)|swollen|sore)|(?:throat|nose|nostrils|lungs?|chest)\\b.* (?:burn\\w*|sting\\w*|numb)|(?:${BODY}|lens(?:es)?)\\b.* (?:itch\\w*|burn\\w*|sting\\w*|rash|blister\\w*|numb|tingl\\w*|prickl\\w*|peel\\w*|watering))\\b`,
);
const FLEW = /\b(?:got|get|burns?|blew|blown|flew|puffed|exploded|sprayed|squirted|burst|shot|spat)\b/;
/** A wound, and no colour. */
const BLEEDS =
  /\b(?:i am|i'm|he is|he's|she is|she's|(?:my|his|her) \w+ is|it is|it's) (?:\w+ ){0,2}bleeding\b(?! (?:into|out of the (?:frame|edge)))/;
/** Whoever put a bare hand to it. */
const TOUCHED = new RegExp(
  `^(?:${SOMEBODY}|i|we) (?:has |have |just |accidentally |only |must have )*(?:touched|grabbed|(?:put|stuck|dipped) (?:a|my|his|her|their|the) (?:\\w+ )?(?:hands?|fingers?|thumb|arm) (?:in|into|on))\\b`,
);
/** A bath by no name of ours. */
const A_BATH =
  /\b(?:sour|acid\w*|caustic|alkaline|chemical|smelly|orange|yellow|used|hot) (?:bath|tray|jug|bucket|tank)$/;
/** Fumes that somebody feels, and what a bath does to a skin. */
const FELT = /\b(?:makes?|made|making) me (?:cough|dizzy|sick|choke|wheeze)\b/;
const RASH = /\b(?:gave|given|gives|giving) me (?:a |an )?(?:rash|burn|blisters?|eczema)\b/;
const CLOTHED =
  /\b(?:on|over|down|onto) (?:my )?(?:trousers|jeans|shirt|sleeve|clothes|jumper|sweater|apron|socks?|shoes?|lap)\b/;
const BREATHES = /\b(?:inhaled|breathed (?:in|some|fumes|gas)|can't breathe|cannot breathe|coughing)\b/;

/** A smell or a reaction that is going on: the advice for the worst that it may be. */
const smell: Reader = (line, slots, plain) => {
  const found = NO_SMELL.test(plain) ? undefined : SMELLS.find(([of]) => of.test(plain));
  // of two that met it is told what they do
  const met = found && count(line) > 1 ? meet(line, slots, plain) : undefined;
  if (met) return met;
  return found && { type: 'ask-advice', topic: found[1] };
};
/** What is made in a jug or kept in a bottle, by any word. */
const MIXED =
  '(?<!kettle.*)(?:it|this|that|the stuff|mix|mixture|jug|beaker|bottle|solution|powder|batch|developer|bleach|fixer|stop|acid|lye|caustic)';
const SMELT = '\\b(?:smell\\w*|smelt|odou?r|whiff|stinks?|stinking|stench|reek\\w*)\\b';
const NO_SMELL =
  /\b(?:no|not|never|nothing|nobody|none|without|(?:is|does|do|did|was|has|wo)n't|stopped|used to|normal(?:ly)?|supposed|always|yesterday|(?<!like a )kettle|tea|coffee|potatoes|pasta|eggs? (?:are|is)|water (?:is|for))\b|\b(?:smell|stink|stench|fumes?|gas|smoke|steam|it)(?:'s| is| has| are| have)?(?: all)? (?:gone|cleared)\b/;
const SMELLS: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:bucket|waste|canister|drum)\b.* (?:getting|got|gets|is|feels|went|turned) (?:\w+ )?(?:hot|warm)\b/,
    'smoke',
  ],
  [
    /\b(?:bucket|waste|canister|drum)\b.* (?:popped|burst|exploded|swell\w*|swollen|bulg\w*|bubbl\w*|hiss\w*|foam\w*|fizz\w*)\b/,
    'foaming',
  ],
  [new RegExp(`${SMELT}.*\\b(?:almonds?|marzipan)\\b|\\balmondy?\\b.* ${SMELT}`), 'smell-almonds'],
  [new RegExp(`${SMELT}.*\\b(?:eggs?|eggy|stink bombs?)\\b|\\begg(?:s|y)? ${SMELT}`), 'smell-eggs'],
  [
    new RegExp(
      `${SMELT}.*\\b(?:chlorine|swimming (?:pool|baths?)|pool|match(?:es)?|matchsticks?|sul(?:f|ph)ur\\w*|bromine|burnt|chemical burn|fireworks?|gunpowder)\\b|\\b(?:chlorine|sul(?:f|ph)ur\\w*|pool)(?: \\w+)? ${SMELT}|\\b(?:chok\\w+|acrid|pungent|suffocating|stinging|biting)\\b.* (?:smell\\w*|stench|stink|odou?r|gas|fumes?|air|vapou?rs?)\\b|\\bsomething (?:acrid|pungent|choking|biting)\\b|${SMELT}.* (?:takes|took|taking) (?:my|his|her|your) breath\\b`,
    ),
    'smell-chlorine',
  ],
  [/\b(?:smell(?:s|ing)?|smelt) (?:of |the )?gas\b|\bgas (?:leak\w*|smell)\b|\bleaking gas\b/, 'smoke'],
  [
    /^(?:there (?:is|are)|there's|it gives off|i (?:can )?(?:see|smell)) .*\b(?:smoke|fumes?|vapou?r)\b/,
    'smoke',
  ],
  [
    /\b(?:yellow\w*|green\w*|brown\w*|orange\w*|white|grey|thick|purple|coloured)(?: \w+)? (?:gas(?:es)?|fumes?|vapou?rs?|smoke|cloud|mist|fog|haze|steam)\b|\b(?:gas|fumes?|vapou?rs?|smoke)(?: \w+)? (?:is |are |keeps? )?(?:coming|comes?|came|rising|rises?|pouring|billow\w*|filling|everywhere|drifting)\b|\b(?:gives?|giving|gave|throws?|throwing|letting|lets) off (?:\w+ ){0,3}(?:fumes?|gas|smoke|vapou?rs?|steam)\b|\b(?:air|room|kitchen|bathroom)(?:'s| is| has)? (?:(?:all|going|gone|getting|turning|full|turned) )*(?:yellow\w*|green\w*|brown\w*|thick|hazy|foggy|smoky|of (?:smoke|fumes?|gas|vapou?r))\b|\bgetting (?:thick|hazy|foggy|smoky) in here\b/,
    'smoke',
  ],
  [
    new RegExp(
      `\\b${MIXED}(?:'s| is| are| has| have| just| all| started| starts| began| keeps| now)*(?: to)? (?:smok(?:e|es|ing)|fum(?:es|ing)|boil(?:s|ed|ing)?|spit(?:s|ting)?|spat|erupt\\w*|steaming|getting (?:(?:very|really|too|so) )?(?:hot|warm))\\b(?! (?:in (?:here|this|the heat)|outside|today))|\\b${MIXED}(?:'s| is| got| gets| went| goes| has gone| has got)(?: \\w+){0,2} (?:hot|warm)\\b.*(?:all of a sudden|suddenly|by itself|on its own|to hold|to touch)\\b|\\b${MIXED}(?:'s| is) (?:boiling|red|burning|scalding) hot\\b|\\bsteam (?:is )?(?:coming|rising)\\b|\\b(?:boiling|bubbled|foamed) (?:up and )?over\\b`,
    ),
    'smoke',
  ],
  [
    /\b(?:white|brown|yellow|green|grey|thick)? ?(?:cloud|mist|fog|haze|vapou?r|steam|smoke|fumes?)\b.* (?:over|above|from|off|out of|coming|rising) .*\b(?:jug|bucket|sink|beaker|mix|bottle|can|canister|drain|waste|bowl|it)\b/,
    'smoke',
  ],
  // acid got into it
  [
    /\b(?:bleach|ferricyanide)\b(?:(?: bath| bottle| jug| mix| solution|'s| is| has| just| all| started| starts| began| keeps| went| goes| gone)*(?: to)?|.* (?:is|started|starts|went)) (?:fizz\w*|foam\w*|bubbl\w*|hiss\w*|froth\w*)|\b(?:fizz\w*|foam\w*|bubbl\w*|hiss\w*)\b.* (?:from|in|off|out of|on) (?:the |my )?(?:\w+ )?(?:bleach|ferricyanide)\b/,
    'smoke',
  ],
  [/^there (?:is|are) .*\b(?:foam|bubbles|fizz)\b/, 'foaming'],
  [
    /^(?!.*\b(?:eggs?|almond\w*|marzipan|amaretto|pool|chlorine|match\w*|sulph\w*|sulf\w*|ammonia|baking)\b)(?:.*\b(?:smell\w*|stink\w*|stench|reek\w*)\b.* (?:bucket|waste|drain|sink|canister)\b|.*\b(?:bucket|waste|drain|canister)\b.* (?:smells|stinks|reeks)\b)/,
    'odd-smell',
  ],
  [
    /(?:'s|\b(?:is|started|starts)) (?:hissing|foaming|fizzing|bubbling|frothing|bulging|swelling)\b/,
    'foaming',
  ],
];

/** What to keep a bath in, and that nobody eats there. */
const advice: Reader = (_line, _slots, plain) => {
  const found = /^(?:can|may|could|should|what|is|do|does|in what|which)\b/.test(plain)
    ? ADVICE.find(([of]) => of.test(plain))
    : undefined;
  return found && { type: 'ask-advice', topic: found[1] };
};
const ADVICE: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:store|keep|put|mix|fill|pour|okay|safe|use)\b.*\b(?:metal|steel|alumin\w+|iron|copper|brass|tin|can|soda bottle|drinks? bottle|milk bottle|food container|kitchen|drinking)\b/,
    'containers',
  ],
  [
    /\b(?:metal|steel|alumin\w+|copper|soda bottle|drinks? bottle)\b.*\b(?:okay|safe|fine|good|work)\b/,
    'containers',
  ],
  [/\b(?:i|we|you) (?:drink|eat|smoke|snack|have lunch|have coffee)\b/, 'food'],
];

/** "Where does used fixer go", "can I pour the bleach down the drain". */
const disposal: Reader = (line, slots) => {
  if (!hypothetical(line) && !/^(?:used|old|spent|_matter\d+) .*\b(?:goes|go|drain)\b/.test(line))
    return undefined;
  const away =
    GETS_RID.test(line) ||
    (/\b(?:used|old|spent|finished|exhausted|leftovers?)\b/.test(line) &&
      /\b(?:go|goes|put|take|do with)\b/.test(line)) ||
    toSink(line, slots);
  if (!(away || (/\bneutrali[sz]\w*\b/.test(line) && count(line) === 1)) || /\btank\b/.test(line))
    return undefined;
  const [a, b] = line.match(/_matter\d+/g) ?? [];
  // two baths of the process and one sink: where used baths go, each in its own jug
  const baths = [a, b].every((t) =>
    /^(?:fixer|bleach|developer)$/.test(String(slots.get(t ?? '')?.fields.liquid)),
  );
  if (baths && toSink(line, slots)) return { type: 'ask-disposal' };
  return a !== undefined && b !== undefined
    ? meeting(a, b, slots)
    : { type: 'ask-disposal', ...matterOf(line, slots) };
};

/** "Can I pour used fixer and used bleach together": where each of them goes. */
const wasteTogether: Reader = (line, slots) =>
  hypothetical(line) &&
  /\b(?:used|old|spent|exhausted)\b.*\b(?:together|(?:one|same) (?:jug|bottle|container|canister))\b/.test(
    line,
  ) &&
  count(line) === 2 &&
  (line.match(/_matter\d+/g) ?? []).every((t) => BATHS.test(String(slots.get(t)?.fields.liquid)))
    ? { type: 'ask-disposal' }
    : undefined;

/** "What must not touch ferricyanide", "is persulphate dangerous", "what are the dangers of formalin". */
const cautions: Reader = (line, slots) => {
  if (count(line) > 1) return undefined;
  const asked = ASKS_DANGER.find((of) => of.test(line));
  if (asked === undefined) return undefined;
  const substance = named(line, slots) ?? thing(asked.exec(line)?.[1] ?? '', slots)?.id;
  return substance === undefined ? undefined : { type: 'ask-cautions', substance };
};
const ASKS_DANGER: readonly RegExp[] = [
  /^(?:what|which)\b.*\b(?:not|never|can't|can not|cannot|shouldn't|mustn't|don't)\b.*\b(?:meet|touch|mix|mixed|go|react|near|contact|together|with|pour|store)\b/,
  /^(?:what|which)(?: things?| chemicals?| else)? (?:reacts?|attacks?|should i keep away|is incompatible|are incompatible)\b/,
  /^(?:how|is|are) (.+?) (?:dangerous|toxic|poisonous|harmful|harmless|safe|flammable|corrosive|hazardous|bad for me|explosive|carcinogenic)\b/,
  /^how (?:dangerous|toxic|poisonous|harmful|flammable|corrosive|hazardous|safe) (?:is|are) (.+)$/,
  /\b(?:dangers?|hazards?|risks?|cautions?|warnings?|safety)\b.*\b(?:of|with|about|for|from) (.+)$/,
  /^what (?:do|should|must) i (?:need to )?(?:watch|know|mind|look|be careful)\b/,
  /^(?:what|can|is|are|does|do|should|will|may|could)\b.*\b(?:heat|freeze|smell|sniff|taste|cyanide|poison\w*|gas|fumes|explode|burn|catch fire)\b/,
];

/** "Clean the tank with bleach": in such a sentence bleach is the cleaner. */
const cleaning: Reader = (line, slots) => {
  const with_ = new RegExp(`${WASHES} (.+?) (?:with|using|in) (.+)$`).exec(line);
  const for_ = new RegExp(`(?:use|using|put|pour) (.+?) (?:to|for) ${WASHES}(?: (.+))?$`).exec(line);
  const [cleaned, cleaner] = with_ ? [with_[1], with_[2]] : [for_?.[2] ?? 'tank', for_?.[1]];
  const by = thing(cleaner ?? '', slots);
  if (cleaner === undefined || by?.id === undefined || by.id === 'water') return undefined;
  if (by.id === 'bleach' || by.id === 'chlorine-bleach')
    return { type: 'ask-advice', topic: 'clean-with-chlorine' };
  const where = (cleaned ?? '').replace(/ (?:spill|stain|mess|bottle|jug|tank|bath)s?$/, '');
  if (thing(where, slots)?.known) return meeting(cleaner, where, slots);
  const cautions: Found = { type: 'ask-cautions', substance: by.id };
  return OF_THE_BENCH.test(cleaned ?? '') && hypothetical(line)
    ? { ...cautions, both: [{ type: 'ask-advice', topic: 'clean-with-other' }, cautions] }
    : cautions;
};
/** What touches film or baths. */
const OF_THE_BENCH =
  /\b(?:tanks?|reels?|spirals?|lids?|bottles?|jugs?|funnels?|beakers?|graduates?|cylinders?|everything|things)\b/;

/** "Spilled fifty millilitres of household bleach on the table". */
const spill: Reader = (line, slots) => {
  const astray = GOT_OUT.test(line) ? placeOf(line, slots) : undefined;
  if (astray !== undefined && astray !== 'sink' && count(line) === 0) return { type: 'spill', place: astray };
  const lies = LIES.exec(line)?.groups;
  if (lies && named(line, slots) !== 'water' && !/^(?:sink|tub|scale)$/.test(placeOf(line, slots) ?? ''))
    return { type: 'spill', ...matterOf(line, slots), ...astrayAt(lies.at, line, slots) };
  const both = SPILLS.test(line) && !hypothetical(line) ? SPILLED_BOTH.exec(line)?.groups : undefined;
  const two = [both?.a, both?.b].flatMap((of) => thing(of ?? '', slots) ?? []);
  if (two.length === 2 && two.every(({ id, known }) => known && id !== undefined)) {
    const at = placeOf(line, slots);
    return {
      type: 'spill',
      both: two.map(({ id, volumeMl }) => ({
        ...(id !== undefined && { liquid: id }),
        ...(volumeMl !== undefined && { volumeMl }),
        ...(at !== undefined && { place: at }),
      })),
    };
  }
  if (
    !SPILLS.test(line) ||
    hypothetical(line) ||
    count(line) > 1 ||
    /\b(?:powder|water)\b|\binto _bottle/.test(line)
  )
    return undefined;
  const m = SPILLED.exec(line);
  const known = named(line, slots);
  const out = thing(m?.[1] ?? '', slots) ?? (known === undefined ? undefined : { id: known, known: true });
  const place = placeOf(line, slots);
  // "a bit on my glove": what it is, somebody who asks will hear
  if (out === undefined && place !== undefined && /\b(?:bit|little|lot|drops?)\b/.test(m?.[1] ?? ''))
    return { type: 'spill', place };
  if (out?.id === undefined || (!out.known && !/\bof\b|_place/.test(line))) return undefined;
  return {
    type: 'spill',
    liquid: out.id,
    ...(out.volumeMl !== undefined && { volumeMl: out.volumeMl }),
    ...(place !== undefined && { place }),
  };
};
/** It lies where nobody keeps it; a bottle stands there. */
const LIES =
  /^(?:(?:oh|no|god|help|oops|damn|there (?:is|are)|there's|i have|i've got|we have|we've got|got|now) )*(?:(?:some|lots?|puddle|pool|drops?|bits?|splash|spots?|whole lot|bunch)(?: of)? )*_matter\d+(?: powder)? (?:(?:right|straight|(?:is )?all) )*(?<at>everywhere|_place\d+|(?:over|across|down|under|underneath|along|on|by|all over) (?:lino|tiles?|boards|stairs|doorstep|cupboard|wall|front|door|cooker|drawers?|table|bench|sink|fridge|chair))(?: (?:by|under|near|in front of) (?:sink|tub|door|table|bench|fridge))?(?: (?:help|quick|what now|what do i do|now))*$/;
const astrayAt = (at: string | undefined, line: string, slots: ReadonlyMap<string, Slot>) => {
  const place =
    placeOf(line, slots) ??
    (/\b(?:lino|tiles?|rug|carpet|mat|boards|stairs)\b/.test(at ?? '') ? 'floor' : undefined);
  return place === undefined ? {} : { place };
};
/** What it is was not said. */
const GOT_OUT =
  /^(?:some|something|bit|little|few drops?|drops?)(?: of it)? (?:has |have )?(?:got|gone|went|ran|run|dripped|splashed|landed|fell|spilled|leaked) (?:out )?_place\d+$/;
const SPILLED =
  /(?:spill(?:ed|t|ing)?|spilt|slopped|sloshed|splashed|knocked(?: over)?|tipped(?: over)?|dripped|leaked|dropped) (?:over |about |around |roughly |maybe |nearly |almost )*(.+?)(?: (?:_place\d+|everywhere|all over.*|here|over|(?:on|onto|down) my .*))?$/;

/** Two baths that were spilled in one breath. */
const SPILLED_BOTH =
  /^(?:(?:i|we|have|just|oh|no|oops) )*(?:spilled|spilt|slopped|dripped|knocked over|tipped over) (?:over |about |around |roughly |maybe )*(?<a>(?:(?:some|bit|little|lot|few drops|drops|splash)(?: of)? )?(?:_volume\d+ (?:of )?)?_matter\d+) and (?:also )?(?<b>(?:(?:some|bit|little|lot|few drops|drops|splash)(?: of)? )?(?:_volume\d+ (?:of )?)?_matter\d+)(?: (?:too|as well|_place\d+|everywhere))*$/;

/** "Do I add the acid to the water": which goes first. */
const acidOrder: Reader = (_line, _slots, plain) =>
  /^(?:do|should|must|shall) (?:i|we) (?:add|pour|put) (?:the )?(?:acid (?:in|into|to) (?:the )?water|water (?:in|into|to) (?:the )?acid)$/.test(
    plain,
  )
    ? { type: 'ask-advice', topic: 'acid-order' }
    : undefined;

/** "What if I poured X into Y", "can X and Y meet", "some vinegar got into the fixer". */
const meet: Reader = (line, slots) => {
  if (count(line) === 0 || /\b(?:smells?|tastes?|looks?)\b/.test(line)) return undefined;
  // "is the developer in bottle two" asks after a bottle
  if (/^(?:is|are|was|were|do|does)\b.*_bottle/.test(line)) return undefined;
  if (count(line) === 1 && strange(line, slots)) {
    const pours = POURED_IN.exec(line)?.groups;
    if (pours?.done !== undefined && !/\btank\b/.test(line))
      return { type: 'contaminated', ...matterOf(line, slots) };
    if (pours) return { type: 'ask-cautions', substance: named(line, slots) };
  }
  const topped =
    /\b(?:top(?:ped)?(?: up)?|dilut(?:e|ed)|fill(?:ed)?(?: up)?|thin(?:ned)?) (.+?)(?: up)? with (.+)$/.exec(
      line,
    );
  if (topped) {
    const [by, into] = [thing(topped[2] ?? '', slots), thing(topped[1] ?? '', slots)];
    if (TOLD.test(line) && by?.id !== undefined && into !== undefined)
      return {
        type: 'what-if',
        liquid: by.id,
        ...(by.volumeMl !== undefined && { volumeMl: by.volumeMl }),
        ...goingInto(into),
      };
    return meeting(topped[2] ?? '', topped[1] ?? '', slots);
  }
  const asked = hypothetical(line);
  // a report is one of its own only when something that is no bath is in it
  const watered = TOLD.test(line) && named(line, slots) === 'water';
  if (!asked && !watered && !strange(line, slots)) return undefined;
  const lead = asked ? `^${ASKS}\\b.*?\\b` : '^.*?\\b';
  const verbed = new RegExp(`${lead}${MEETS} (.+?) ${INTO} (.+)$`).exec(line);
  const first = verbed && meeting(verbed[1] ?? '', verbed[2] ?? '', slots);
  if (first) return first;
  const met = new RegExp(`^${asked ? `${ASKS}\\b` : ''}(?: i| we)? ?(.+?) ${TOUCHES} (.+?)${TAIL}$`).exec(
    line,
  );
  const second = met && meeting(met[1] ?? '', met[2] ?? '', slots);
  if (second || count(line) !== 2 || /\b(?:how (?:much|many)|need|recipe|shelf|weigh)\b/.test(line))
    return second ?? undefined;
  const [a, b] = line.match(/_matter\d+/g) ?? [];
  return strange(line, slots) ? meeting(a ?? '', b ?? '', slots) : undefined;
};
/** Something that is no bath goes in, or has gone in, and where that is was not said. */
const POURED_IN =
  /^(?:i am |i |we )?(?:accidentally |just )*(?:(?<done>poured|put in|put|added|dropped|tipped|spilled)|pour|pouring|putting|add|adding)(?: in)? (?:(?:some|little|bit|drops?|_volume\d+)(?: of)? )?_matter\d+(?: (?:in|to|into|in to))?(?: (?:tank|it|there))?(?: by mistake)?$/;
/** Two that met where nothing is kept, or one upon the other: "I've mixed stop and fixer in the waste bucket". */
const metInWaste: Reader = (line, slots) => {
  const idOf = (t: string): string => thing(t, slots)?.id ?? '';
  const all = [...new Set(line.match(NAMED_THING) ?? [])].filter((t) => idOf(t) !== 'water');
  // of more than two what frees gas of the others, of a bleach first
  const acid = all.find((t) => !NO_ACID.test(idOf(t)));
  const [a, b] =
    all.length > 2 ? [all.find((t) => idOf(t) === 'bleach') ?? all.find((t) => t !== acid), acid] : all;
  if (!a || !b || (all.length > 2 && !WASTE.test(line)) || hypothetical(line) || UNMET.test(line))
    return undefined;
  // of these none is acid or chlorine
  if (!SMELLS_OF_IT.test(line) && [a, b].every((t) => NO_ACID.test(idOf(t)))) return undefined;
  if (WILL_MEET.test(line)) return WASTE.test(line) ? meeting(a, b, slots) : undefined;
  if (!(WASTE.test(line) && MET.test(line)) && !UPON.test(line)) return undefined;
  const found = meeting(a, b, slots);
  return found && { ...found, done: true };
};
const NAMED_THING = new RegExp(`_matter\\d+|\\b${KITCHEN_NAMES}\\b`, 'g');
const UNMET =
  /\b(?:not|never|no|nothing|\w+n't|nearly|almost|separate\w*|before|instead of|what would|what will|wanted to)\b|_bottle/;
const NO_ACID = /^(?:fixer|bleach|developer|prebath|final-rinse)$/;
const SMELLS_OF_IT = /\b(?:smell\w*|stinks?|fizz\w*|bubbl\w*|fum\w*|foam\w*|steam\w*|chok\w*)\b/;
const WILL_MEET = /\b(?:going to|gonna|about to|i'll|want to|have to|need to|planning to|let me)\b/;
const MET =
  /\b(?:mixed|poured|put|tipped|dumped|drained|threw|thrown|emptied|flushed|rinsed|spilled|spilt|went|got|gone|ended up|met|ran|leaked|used|has|had|are|is|there's)\b/;
/** Together where nobody keeps them, whatever the place. */
const UPON =
  /\b(?:poured|tipped|emptied|dumped|drained|flushed|spilled|spilt|dropped|went|threw|wiped|mopped|cleaned|put|got|ran|are|is)\b.*\b(?:on top of|(?:same|one) (?:can|drum|barrel|tin|pail|bin|bag|pot|place)|together|down after|puddle|old|used|dirty|waste|stain|spill|cloth|rag|flush\w*)\b|\b(?:poured|tipped|emptied|rinsed|washed)\b.* (?:away|down|out)\b.* (?:then|right after|straight after|followed by)\b|\bflushed\b.* (?:and|then|after)\b|\bdown\b.* (?:then|after|followed by)\b.* down\b|^_matter\d+(?: bath)? (?:and|with|plus|then) _matter\d+(?: bath)? (?:together )?(?:in|into|both down) (?:same|one)\b|\b(?:keep|have|put|collect) _matter\d+(?: bath)? and _matter\d+(?: bath)? in (?:same|one)\b/;

/** Everything that is used, in one vessel. */
const allInOne: Reader = (line, slots, plain) => {
  if (!ALL_IN_ONE.test(plain)) return undefined;
  const [a, b] = line.match(/_matter\d+/g) ?? [];
  return a !== undefined && b !== undefined
    ? meeting(a, b, slots)
    : { type: 'ask-advice', topic: 'waste-together' };
};
const ALL_IN_ONE =
  /\b(?:all|everything|both|lot|leftovers?|waste|wastes|scraps|used (?:baths|chemicals)|old (?:baths|chemicals)|the rest)\b.* (?:in|into|to) (?:the |a |my )?(?:same|one|single) (?:big |waste |old )?(?:bucket|canister|container|drum|barrel|jerrycan|bag|can|bin|jug|jar|pail|tin)\b|\b(?:everything|all of it|it all|the lot|all (?:the )?(?:baths|waste|leftovers))(?: \w+)? (?:went|got|is|are|gone|poured|tipped)(?: \w+)? together\b|\bcombined (?:all )?(?:the |my )?(?:leftovers|waste|wastes|old baths|used baths)\b|\b(?:mixed|poured|put|tipped|threw|dumped|mix|pour|put|tip|combine) (?:up )?(?:all )?(?:of )?(?:the |my )?(?:old |used )?(?:waste|wastes|leftovers|used baths)(?: all)? together\b|\b(?:does it matter if|can|may|could|is it (?:ok|okay|safe)).* (?:go|goes|put|pour|keep) .*(?:in|into|down) (?:the )?(?:same|one) (?:bucket|canister|container|drum|bin)\b/;

/** One bath into another, as an order: what that would do. */
const ordered: Reader = (line, slots) => {
  const [, poured, into] = ORDERED.exec(line) ?? [];
  return poured === undefined || into === undefined ? undefined : meeting(poured, into, slots);
};
const ORDERED =
  /^(?:please )?(?:put|pour|tip|add|mix|dump|empty) (_matter\d+) (?:in|into|to|with|and|on) (_matter\d+)(?: bottle| bath| together)?(?: to neutrali[sz]e.*)?$/;
const TOUCHES =
  '(?:and|with|plus|meets?|touch(?:es)?|reacts? with|mix(?:es)? with|(?:harms?|spoils?|hurts?|damages?|ruins?|affects?|neutrali[sz]es?|eats?)|(?:gets?|got|goes|go|went|falls?|fell|runs?|ran|splash(?:es|ed)?|spill(?:s|ed)?|drip(?:s|ped)?|leak(?:s|ed)?) (?:in|into|on|onto|with)|ends? up in|comes? (?:into|in) contact with|do(?:es)? to|(?:safe|compatible) with|on|in|into)';
const TAIL =
  '(?: (?:what happens|what then|mix|meet|touch|react|compatible|safe|dangerous|bad|okay|ok|combine|combined|mixed|toxic|get along|together|reaction))*';
const BATHS = /^(?:prebath|developer|stop|bleach|fixer|final-rinse|water|ecn2-)/;
export const isBath = (id: string): boolean => BATHS.test(id);
const strange = (line: string, slots: ReadonlyMap<string, Slot>): boolean =>
  /^_matter\d+ (?:and|plus|with) _matter\d+ (?:together|mixed|reaction)$/.test(line) ||
  (line.match(/_matter\d+/g) ?? []).some((m) => !BATHS.test(String(slots.get(m)?.fields.liquid)));

/** "Can I use table salt instead of bromide": one thing in the place of another. */
const instead: Reader = (_line, _slots, plain) =>
  /\buse (?:\w+ )?tap water\b/.test(plain)
    ? { type: 'ask-advice', topic: 'tap-water' }
    : /^(?:can|could|may|is|does|what|should|would|will)\b.* (?:instead of|in place of|substitute for|replacement for) /.test(
          plain,
        ) || /^(?:can|could|may|should|what if)\b.* use .* (?:as|for) /.test(plain)
      ? { type: 'ask-advice', topic: 'instead' }
      : undefined;

/** "How much more fixer in the developer until it is ruined", "how much prebath can the developer take". */
const untilSpoiled: Reader = (line, slots) => {
  if (
    !/^how (?:much|many)\b/.test(line) ||
    !/\b(?:takes?|stand|tolerate|bear|until|before|till|ruins?|spoils?|kills?)\b/.test(line)
  )
    return undefined;
  const asked = line.replace(/^how (?:much|many \S+ of) (?:more )?/, 'how much ');
  const m = ENDS.map((end) => end.exec(asked)).find(Boolean);
  const [poured, into] = [thing(m?.[1] ?? '', slots), thing(m?.[2] ?? '', slots)];
  if (!poured?.known || !into?.known || poured.id === undefined) return undefined;
  return {
    type: 'what-if',
    untilSpoiled: true,
    liquid: poured.id,
    ...goingInto(into),
    ...(into.volumeMl !== undefined && { intoVolumeMl: into.volumeMl }),
  };
};
const ENDS: readonly RegExp[] = [
  /^how much (.+?) (?:can|may|could|will|does) (.+?) (?:takes?|stand|tolerate|bear)\b/,
  /^how much (.+?) (?:(?:can|may|could) )?(?:i )?(?:be |get |gets |got |go |goes |come |comes |pour |put |add |spill |carry over )*(?:in|into|to) (.+?) (?:until|before|till|and it)\b/,
  /^how much (.+?) (?:ruins?|spoils?|kills?|wrecks?|contaminates?) (.+)$/,
  /^how much (.+?) (?:until|before|till) (.+?) (?:is|gets|goes|are)\b/,
];

const READERS: readonly Reader[] = [
  hurt,
  acidOrder,
  untilSpoiled,
  smell,
  advice,
  wasteTogether,
  disposal,
  ordered,
  cleaning,
  instead,
  spill,
  meet,
  cautions,
];

const matterOf = (line: string, slots: ReadonlyMap<string, Slot>): { liquid?: string } => {
  const liquid = named(line, slots);
  return liquid === undefined ? {} : { liquid };
};
const toSink = (line: string, slots: ReadonlyMap<string, Slot>): boolean =>
  DRAIN.test(line) && (!/_place/.test(line) || placeOf(line, slots) === 'sink');

/** The bleach of the laundry by any of its names, in one that the grammars know: it is never the bath of the process; and an acid by half its name. */
export const withHouseholdBleach = (plain: string): string =>
  plain
    .replace(HOUSEHOLD_BLEACH, 'household bleach')
    .replace(/\bsulfuric\b(?! acid)/g, 'sulfuric acid')
    .replace(/\blye\b/g, 'caustic soda');
const HOUSEHOLD_BLEACH =
  /\b(?:(?:laundry|toilet|loo|bathroom|clothes|washing|domestic|disinfect\w*|cleaning|thick|white) bleach|bleach(?:ing)? (?:cleaner|spray|powder|tablets?)|bleach (?:for|from|out of|under) (?:\w+ ){0,2}(?:laundry|toilet|bathroom|kitchen|clothes|washing|sink|cupboard|supermarket)|(?:\w+ )?(?:cleaner|spray|product|wipes?) with bleach|javel(?:le)? water)\b/g;

/** Questions of what keeps somebody whole, by what they ask of. */
const KEEPS_WHOLE: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:pregnan\w*|expecting|breast ?feeding|nursing|asthma\w*|allerg(?:y|ies|ic)|epilep\w*|copd|(?:heart|lung|skin) (?:condition|disease|trouble|problem)|pacemaker|eczema|(?:safe|dangerous|bad|harmful|okay|ok) (?:for|around|near) (?:\w+ )?(?:kids?|children|child|baby|toddler|cats?|dogs?|pets?))\b/,
    'health',
  ],
  [
    /\b(?:kids?|child(?:ren)?|son|daughter|boy|girl) (?:help|do|mix|pour|watch|join|stir|have a go)\b/,
    'health',
  ],
  [
    /\b(?:cups?|mugs?|glasses|spoons?|bowls?|pans?|kitchen \w+|jugs?)\b.*\b(?:for (?:coffee|food|tea|cooking|eating|drinking|cooking again)|(?:cook|eat|drink|bake) (?:with|from|out of)|in the kitchen (?:again|afterwards))\b/,
    'containers',
  ],
  [
    /(?=.*\b(?:gloves?|goggles|mask|apron|eye protection|bare hands|bare handed)\b).*\b(?:without|no|none|go bare|bare|off|torn|ripped|holes?)\b/,
    'wear',
  ],
  [
    /\b(?:leave|keep|have|with) (?:the |my |all )?windows? (?:shut|closed)\b|\bwithout (?:a |an |any )?(?:fan|open window|ventilation|airing)\b/,
    'wear',
  ],
  [
    /\b(?:microwave|stove|hob|hot ?plate)\b|\b(?:heat|boil|cook) (?:up )?(?:the |my )?(?:bleach|fixer|fix|developer|stop|prebath)\b/,
    'heating',
  ],
  [
    /\b(?:breathe|inhale)\b.*\b(?:it|this|that|fumes|vapou?rs?|stuff)\b|\b(?:fumes|vapou?rs?)\b.*\b(?:bad|harmful|dangerous|toxic|poisonous|safe|hurt)\b|\b(?:put|stick|dip|reach) (?:my |a |the )?(?:hands?|fingers?|arm) in(?:to)?\b(?!.*\bbag\b)/,
    'wear',
  ],
  [
    /\b(?:sniff|taste|lick) (?:it|them|this|that|one|the|to)\b|\bsmell (?:it|them) to (?:see|tell|check|know)\b/,
    'taste',
  ],
  [
    /(?=.*\b(?:jugs?|funnels?|beakers?|cylinders?|graduates?|buckets?|thermometer|measuring cup)\b).*\b(?:without (?:rinsing|washing|cleaning)|(?:have|need) to (?:rinse|wash|clean)|(?:reuse|same)\b.*\bfor|(?:rinse|wash|clean)\b.*\bbetween)\b/,
    'rinse-between',
  ],
  [
    /\b(?:rinse|wash|treat|flush|bathe|neutrali[sz]e)\b.*\b(?:burns?|wound|eyes?|skin|face|arm|leg)\b.*\b(?:with|using) (?!.*\bwater\b)|\b(?:put|use|pour|dab|rub)\b (?!.*\bwater\b).*\bon (?:the|my|his|her) (?:\w+ )?(?:burns?|wound|eyes?|skin|face)\b/,
    'water-only',
  ],
];
/** A spill that was wiped up, or covered, with something: what these do to each other is no neutralising. */
const wipedWith = (
  line: string,
  slots: ReadonlyMap<string, Slot>,
  plain: string,
  spilt: boolean,
): Found | undefined => {
  const m = WIPED.exec(line)?.groups ?? (spilt ? USED_ON_IT.exec(line)?.groups : undefined);
  const what = m?.by ?? m?.on;
  if (what === undefined) return undefined;
  const told = thing(what, slots);
  const known = told?.id !== undefined && (told.known || IN_THE_KITCHEN.test(plain));
  // beside an open spill whatever nobody knows to be harmless may be a cleaner
  const named = m?.by !== undefined || told?.id !== undefined;
  if (!known && !(spilt && named && mayBeCleaner(what, slots))) return undefined;
  const by = { id: told?.id ?? 'any-cleaner' };
  if (by.id === 'water') return undefined;
  const of = (line.match(/_matter\d+/g) ?? []).map((t) => thing(t, slots)?.id).find((id) => id !== by.id);
  // bleach that cleans is the one of the household
  return {
    type: 'spill-cleaned',
    by: by.id === 'bleach' ? 'chlorine-bleach' : by.id,
    ...(of !== undefined && of !== 'water' && { liquid: of }),
  };
};
/** Some of it neither wipes nor is known. */
const mayBeCleaner = (what: string, slots: ReadonlyMap<string, Slot>): boolean =>
  what.split(OF_WHICH).some((part) => {
    const name = part.trim();
    return name !== '' && !ONLY_WIPES.test(name) && !thing(name, slots)?.known;
  });
const OF_WHICH = / (?:and|plus|then|with|in|of|from|dipped|soaked|wet|dampened|full)\b/;
const ONLY_WIPES = new RegExp(`(?:^|[ -])(?:${WIPES})(?: (?:only|alone|first|now|again|instead))*$`);
const USED_ON_IT =
  /^(?:and |then |so |ok |okay )*(?:i |we |i've |we've |have |just |already )*(?:(?:used|sprayed(?: on)?) (?!_)(?<by>[a-z' -]+?)(?: (?:on|for) (?:it|that|spill|puddle))?|(?:put|poured|tipped|splashed|threw) (?<on>[a-z' -]+?) (?:on|onto|over)(?: top of)? (?:it|that|spill|puddle|stain))$/;
const IN_THE_KITCHEN = new RegExp(`\\b${KITCHEN_NAMES}\\b`);
const OF_A_SPILL =
  '(?:it|that|lot|whole lot|spill|puddle|mess|stain|floor|table|worktop|bench|everything|_place\\d+|_matter\\d+(?: bath)? (?:spill|puddle|mess|stain))';
const WIPED = new RegExp(
  `^(?:and |then |so |ok |okay )*(?:i |we |i've |we've |have |just |already )*(?:wiped|cleaned|mopped|washed|rinsed|scrubbed|soaked|treated|covered|sprayed)(?: (?:${OF_A_SPILL}|_matter\\d+))?(?: (?:up|off|down|away))?(?: (?:${OF_A_SPILL}|_matter\\d+))?(?: (?:up|off|down|away))? (?:with|using|in) (?<by>.+)$|^(?:and |then |so )*(?:(?:i |we |i've |we've )(?:have |just |already )*|(?=used ))(?:put|poured|used|tipped|threw|splashed|sprayed|emptied) (?<on>.+?) (?:on|onto|over)(?: top of)? (?:${OF_A_SPILL}|(?<=used .*)_matter\\d+)$`,
);
/** Caustic on acid, acid on caustic, or soda on either, where it lies. */
const NEUTRALISES =
  /^(?!.*\b(?:eyes?|skin|hands?|face|arms?|legs?|burns?|wound|used|spent|stop bath|bleach|fixer|developer)\b).*(?:\bneutrali[sz]\w* (?:it|that|this|(?:the |my )?(?:spill|puddle|mess|acid|lye|caustic)(?: \w+)?) (?:with|using|by)\b|\b(?:baking soda|bicarb\w*|washing soda|soda|vinegar|lye|caustic(?: soda)?|lime|chalk|lemon juice|ammonia)\b.* (?:to neutrali[sz]e (?:it|that|this|the \w+)|(?:on|onto|over) (?:it|that|this|(?:the )?(?:\w+ )?(?:spill|puddle|mess|acid|lye|caustic))\b|help\b.* (?:spill|it|acid|puddle)))/;
/** Somebody needs help at once, whatever it was. */
const IN_NEED =
  /^(?:help |this is |it is |it's )*(?:an )?emergency(?: help| now)*$|\b(?:someone|somebody|he|she|my \w+|i)(?:'s|'m| is| am| got| has| have)(?: been| got)?(?: badly| seriously| feeling)? (?:hurt|injured|poisoned|unconscious|not breathing|collapsed|light headed|woozy)\b|\b(?:call|need|get)(?: me| us)?(?: an| a| the)? (?:ambulance|paramedics?)\b|\bi need a doctor\b|\b(?:go|get|taken?|taking|drive)(?: (?:him|her|me|us))? to (?:a |the )?(?:hospital|doctor|emergency room)\b/;
const ASKS_LEAVE_OF_DANGER =
  /^(?:is|are) (?:the|these|this|those) (?:fumes|vapou?rs?|gas|smell)\b|\b(?:can|may|could|should|must|shall|do|am) (?:i|we|you|they|she|he|it)\b|^(?:can|may|could|should) (?:my|our|the) \w+\b|\bis (?:it|this|that|the \w+) (?:still |too )?(?:ok|okay|safe|fine|bad|dangerous|harmful|alright|all right)\b|^what (?:if|happens)\b/;

/**
 * Questions of danger go before everything else that their words may be: what keeps somebody whole, and where it goes ("can
 * I pour the fixer down the drain"; the guard is asked for a pour by what is to be poured).
 */
export function asksOfDanger(
  plain: string,
  grammars: Grammars,
  situations: readonly Situation[],
): Interpretation | undefined {
  const how = howHurt(plain);
  const need = IN_NEED.test(plain) ? understood({ type: 'hurt', ...(how && { how }) }, plain) : undefined;
  if (need) return need;
  const { line: told_, slots: things } = matterIn(plain, grammars);
  const wiped = wipedWith(told_, things, plain, situations.includes('spill'));
  if (wiped) return understood(wiped, plain);
  if (NEUTRALISES.test(plain)) return understood({ type: 'ask-advice', topic: 'neutralise' }, plain);
  const topic = ASKS_LEAVE_OF_DANGER.test(plain) && KEEPS_WHOLE.find(([of]) => of.test(plain))?.[1];
  const advice = topic ? understood({ type: 'ask-advice', topic }, plain) : undefined;
  if (advice) return advice;
  const { line, slots } = matterIn(plain, grammars);
  const told = [metInWaste, allInOne, leftOut, ...(WASTE.test(line) ? [smell] : [])]
    .map((read) => read(line, slots, plain))
    .find(Boolean);
  const met = told && understood(told, plain);
  if (met) return told?.type === 'what-if' && told.done ? withSmell(met, plain) : met;
  // a face that turns blue is another matter than a bath
  if (BLUE.test(plain)) return { kind: 'unsure', candidates: [...BLUE_IS], words: plain };
  return /^(?:can|may|could|should|is it|am i|what|where|how)\b.*\b(?:drain|sink|toilet|bin|trash)\b/.test(
    plain,
  )
    ? aboutMatter(plain, grammars)
    : undefined;
}
/** What is smelt or seen of it is answered beside it. */
function withSmell(met: Understood, plain: string): Understood {
  const air = SMELLS_OF_IT.test(plain) ? asIntent('ask-advice', { topic: 'odd-smell' }) : undefined;
  return air ? { ...met, intent: { type: 'several', intents: [met.intent, air] } } : met;
}

/** Whether a bath, or a part of one, may be left out. */
const leftOut: Reader = (line, slots) => {
  if (!ASKS_TO_SKIP.test(line)) return undefined;
  const of = named(line, slots);
  if (of === 'water') return undefined;
  return of !== undefined && isBath(of) && !A_SALT.test(line)
    ? { type: 'left-out', liquid: of }
    : { type: 'ask-advice', topic: 'part-left-out' };
};
const A_SALT = new RegExp(`\\b${SALTS}\\b`);
const LEFT_OUT = `(?:_matter\\d+|${SALTS})`;
const ASKS_TO_SKIP = new RegExp(
  `^(?:(?:can|could|may|should|shall)(?! you)|is it (?:ok|okay|fine|safe|possible) (?:to|if)|what if|what happens (?:if|when)|does it matter if|do)\\b.*\\b(?:(?:skip|omit|do without|go without|leave out|left out|miss out|drop) ${LEFT_OUT}|(?:leave|left|leaving) ${LEFT_OUT} out)\\b(?! for)|^do (?:i|we|you) (?:even |actually |always )*need ${LEFT_OUT}(?: (?:at all|bath|too|anyway))*$|^is ${LEFT_OUT}(?: bath)? (?:actually |even |always |really )*(?:necessary|needed|required|optional)\\b`,
);
type Understood = Extract<Interpretation, { kind: 'understood' }>;
const BLUE = /^(?:all )?(?:turning|going) (?:all |a bit |quite )?blue$/;
const BLUE_IS: readonly Intent[] = [
  { type: 'hurt', how: 'collapsed' },
  { type: 'ask-advice', topic: 'odd-colour' },
];
