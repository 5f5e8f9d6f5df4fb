import type { PhBy } from '../../../chemistry/ph-reading.js';
import type { Exposure } from '../../../chemistry/safety/first-aid.js';
import { ONES, TENS } from './numbers.js';

const set = (words: string): ReadonlySet<string> => new Set(words.split(' '));

/** Numbers that stand for each other where words are learnt: those below ten, those below twenty, the tens. */
export const ALIKE = [ONES.slice(2, 10), ONES.slice(10), TENS.slice(2)];

/** Words that tell nothing apart, and those beside them that a whole sentence, or one about things that meet, does without. */
export const ARTICLES = set('the a an my our just please');
export const IDLE_TOLD = new Set([...ARTICLES, ...set('your this really already now')]);
export const IDLE_OF_MATTER = new Set([...ARTICLES, ...set('your this that really any')]);
/** What a typed sentence may lack, and what it may have, where a grammar has it otherwise. */
export const MAY_LACK = set('the a an of');
export const MAY_HAVE = new Set([...MAY_LACK, ...set('please just now um uh er erm so well then hey')]);

/** Words with which a wrong guess would do harm: a slip near one of these is asked about, never mended. */
export const ANSWER_WORDS = set('yes no yeah yep nope confirm confirmed cancel correct override undo');

/** "stop" and "fix" by themselves are verbs; beside these words they are baths. */
export const BEFORE_A_BATH = set(
  'the this that my our of with pour pouring put mix mixing make in into for and skip save some more use reuse by when until till',
);
export const AFTER_A_BATH = set('is in into from back bath goes going out has went was to now at lost');
/** Behind these both are verbs whatever follows. */
export const BEFORE_A_VERB = set('not it one they');
/** Words of every kind before they are names. */
export const NO_NAMES = new Set([...set('stop fix wash water rinse salt'), 'the water']);

/** What is said beside a pour with the names of baths and vessels and tells nothing ("is" for each 's). */
export const TELLS_NOTHING = set(
  'a about again ahead all alright and are as at back before bottle but by can cap carefully cheers clear coffee come comes ' +
    'do easy filter finally first for from funnel go goes going good got hand here i in into is it its just last lid like ' +
    'mate me mesh my nice now number of off okay on one or orange our out over please ready red right same second slow ' +
    'slowly so steady still straight stuff tall tank tape thanks that the then there this third through time tip to today too ' +
    "up via was we well white with yeah yellow yes you i'm i've it'll tight shut closed",
);

/** What a loss is told with, in whatever order; with any other word the sentence tells of something else too. */
export const OF_A_LOSS = set(
  'i we have has had is are was were be been it that this of from out off over on onto down in and so but with by while when as which ' +
    'about around roughly maybe nearly almost like only just some bit little lot lots good few drop drops splash dribble slug glug half ' +
    'third quarter three quarters most much all everything everywhere whole lot rest gone lost left went ran run fell fallen got tipped tipping ' +
    'knocked kicked caught bumped nudged spilled spilt wasted dropped leaked slopped sloshed broke broken smashed shattered burst split cracked toppled ' +
    'keeled emptied pouring putting returning going coming carrying back bottle bottles tank bath lid elbow arm sleeve hand foot cat dog cable ' +
    'bench worktop side table counter shelf tray mat ah no oh aw man damn oops whoops sorry god shit hell well uh um right accidentally by mistake ' +
    'accident clumsily itself straight now then clean',
);

/** What has a number and is no bottle. */
export const NUMBERED_TOO = set('tank film roll step rule frame shot page batch');

/** Behind these "one" is a number; elsewhere it stands for a thing: "the brown one", "can one do this". */
export const BEFORE_ONE = set(
  'bottle number in into to from is was only just about and or say says reads at got have not no yes wait make',
);
/** What goes on so is a number. */
export const AFTER_ONE = set('point and gram grams milliliter milliliters liter percent roll film half of');

/** Behind these "a minute" is no time. */
export const BEFORE_A_MINUTE = new Set([...set('just me wait in for hold half'), '']);
export const OF_DEGREES = /degrees|fahrenheit|celsius|centigrade/;
/** "Bleach in, four": without a verb. */
export const ELIDED =
  /^(?:(?:number )?_(?:liquid|bottle|num) |rinse )+(?:is )?in(?: now)?(?: (?:from )?(?:number )?_(?:bottle|num))?$/;
/** The stem of an inflected word. */
export const INFLECTED = /^([a-z]{3,}?)(?:ies|es|s|ied|ed|ing|ish|ly|er|y)$/;

export const PERHAPS = /^(?:maybe|perhaps|probably)$/;
/** What is told so is still to be done. */
export const AHEAD = /\b(?:about to|going to|gonna|ready to) (?:\w+ )?(?:pour|tip|put|go|add|empty)\b/;
export const ASKS_LEAVE = /^(?:can|may|could|should|shall) /;

/** Where a bath that is poured away goes, by its names. */
export const SINK = '(?:sink|drains?|plughole|toilet|loo|basin|gutter|gulley)';

/** Where a liquid is no matter of the floor. */
export const ON_SOMEBODY = set('skin hand face eye mouth');

/** Parts of somebody, and what is worn on them, where what gets on it gets on the skin. */
const SKIN =
  'skin|hands?|arms?|forearms?|elbows?|fingers?|fingernails?|nails?|thumbs?|knuckles|wrists?|legs?|thighs?|knees?|shins?|ankles?|feet|foot|toes?|necks?|chins?|cheeks?|foreheads?|hair|ears?|palms?|belly|tummy|clothes|shirt|trousers|jeans|jumper|sweater|sleeves?|socks?|shoes?|slippers?|lap';
/** Every part of somebody that a bath may get on or into. */
export const BODY = `${SKIN}|eyes?|face|mouth|lips?|tongue`;
/** Before what something got onto or into. */
export const ONTO =
  '(?:on|onto|over|down|up|under|behind|into|in|inside|through|off|across|between|soaked|soaking)(?: (?:all|both|of))*';
/** Clothes or hair that burn. */
const WORN =
  '(?:shirt|sleeves?|jumper|sweater|apron|clothes|trousers|jeans|gloves?|hair|beard|coat|dress|scarf|cuffs?|skirt|hood|robe)';
const BURNS = '(?:on fire|alight|aflame|ablaze|in flames|caught (?:fire|light)|catch(?:ing|es) fire)';
const ALIGHT = new RegExp(
  `\\b(?:my|his|her|their|the \\w+'s) (?:\\w+ )?${WORN}(?:'s)?\\b.* (?:${BURNS}|burning|smoulder\\w*|smoking)\\b|\\b(?:i am|i'm|he is|he's|she is|she's|he|she|i|kid is|boy is|girl is)(?: just| has)? ${BURNS}\\b|\\b(?:my|his|her|their) ${WORN}'s burning\\b`,
);
/** Whom a current went through; a surprise is none. */
const SHOCKED =
  /\belectrocuted\b|\belectric(?:al)? shocks?\b|\b(?:got|get|getting|had|gave me|gives me|giving me|gave (?:him|her)) (?:such |quite |a bit of |little )?(?:an? )?(?:\w+ )?(?:shocks?|jolts?|belt|zap)\b(?! (?:when (?:i|he|she|they|we) (?:saw|heard|read|got)|to (?:see|hear|read)|at the (?:price|bill|news)))|\b(?:i|he|she|it|me|got|been|was)(?: just| got| has| have| been)* (?:zapped|shocked) (?:me|him|her|by|off|from|touching|when|on)\b|\bgot zapped\b|\b(?:can't|cannot|can not|won't) let go of (?:the |it|that )?(?:cables?|wires?|plug|heater|leads?|cord|tub|kettle|socket|tap)\b/;
/** Burnt by heat, where no bath did it. */
const SCALDED =
  /\b(?:stuck|put|laid|rested|leant|leaned|brushed|caught|pressed|touched|slapped) (?:\w+ )?(?:my|his|her|their|a) (?:bare |whole )?(?:hands?|fingers?|palm|arm|forearm|elbow|wrist|thumb|leg) (?:on|against|onto) (?:the |a |that )?(?:\w+ )?(?:kettle|hot ?plate|stove|hob|oven|heater|element|radiator|iron)\b|\b(?:hands?|fingers?|palm|arm) (?:touched|hit|brushed) (?:the |a |that )?(?:\w+ )?(?:kettle|hot ?plate|stove|hob|oven|heater|element|radiator|iron)\b|\bgrabbed (?:the |a )?(?:\w+ )?(?:kettle|hot ?plate|heater|element)\b.* hot\b|\bscald\w*\b|\b(?:burnt|burned|burn|singed)\b.*\b(?:on|with|from|by|at|off) (?:the |a |my |that |some )?(?:\w+ )?(?:kettle|hot ?plate|hot water|boiling water|steam|stove|hob|oven|heater|flame|lighter|lamp|match|iron|fire|pan|pot|candle|radiator)\b|\b(?:hot|boiling|scalding) (?:water|steam)\b.*\b(?:over|on|onto|down|across) (?:my|his|her|their)\b/;
/** How somebody is hurt, by the words for it: what is told of an eye, a face or a mouth goes before the skin. */
const HURT: readonly (readonly [RegExp, Exposure])[] = [
  [ALIGHT, 'alight'],
  [SHOCKED, 'shocked'],
  [SCALDED, 'burnt'],
  [/\b(?:cat|dog|kitten|puppy|pet|rabbit|hamster|bird|parrot|budgie|guinea pig)s?\b/, 'animal'],
  [
    /\b(?:eye(?:s|ball|ful|lids?)?|contact lens(?:es)?|(?:behind|under|in|into) (?:my|his|her|the) (?:glasses|goggles))\b/,
    'eye',
  ],
  [/\bface(?:ful)?\b/, 'face'],
  [
    /\b(?:swallow\w*|swallied|drank|drunk|drinking|gulp\w*|swig\w*|ingest\w*|mouth|mouthful|sip\w*|suck\w*|lips?|tongue|ate|eaten|lick\w*|lapp\w*|tasted|tea|mug)\b/,
    'swallowed',
  ],
  [
    /\b(?:breath\w*|inhal\w*|fumes?|gas|vapou?rs?|dizzy|giddy|light ?headed|woozy|sick|faint\w*|cough\w*|wheez\w*|chok\w*|unconscious|passed out|lungs?|lungful|nose|noseful|throat|chest|head|headache|nause\w*|spinning|swimm?\w*|going round)\b/,
    'breathed',
  ],
  [/\b(?:cuts?|bleeding|bled|blood|gash\w*|sliced|stabbed|pricked)\b/, 'wound'],
  [
    new RegExp(
      `\\b(?:${SKIN}|(?:down|under|on) (?:my|his|her) (?:back|collar|chest|ring|watch)|gloves?|cut|burnt|scald\\w*|rash|blister\\w*|eczema|hives|touched)\\b`,
    ),
    'skin',
  ],
];
/** Every way that a line tells of. A face is its eyes too, and a wound is of the skin. */
export function howsHurt(line: string): Exposure[] {
  const emergency = emergencyIn(line);
  const told = [
    ...(emergency ? [emergency] : []),
    ...HURT.filter(([of]) => of.test(line)).map(([, how]) => how),
  ];
  const covers: Readonly<Partial<Record<Exposure, readonly Exposure[]>>> = {
    animal: told.filter((how) => how !== 'animal'),
    collapsed: ['breathed'],
    breathless: ['breathed'],
    face: ['eye'],
    wound: ['skin'],
    alight: ['skin', 'face', 'breathed'],
    shocked: ['skin', 'breathed'],
    burnt: ['skin', 'wound'],
  };
  const covered = told.flatMap((how) => covers[how] ?? []);
  return told.filter((how) => !covered.includes(how));
}
export const howHurt = (line: string): Exposure | undefined => howsHurt(line)[0];

const ANIMALS = 'dogs?|cats?';
const PEOPLE =
  'daughters?|sons?|kids?|child|children|baby|toddler|little one|lad|hubby|missus|nan|gran|grandad|granny|boy|girl|wife|husband|partner|friend|mate|helper|apprentice|student|colleague|assistant|neighbou?r|flatmate|roommate|girlfriend|boyfriend|brother|sister|mother|father|mummy|mum|mom|dad';
const one = (of: string): string =>
  `(?:(?:my|our|the) (?:\\w+ )?(?:${of})|he|she|they|somebody|someone|(?:a|the) (?:man|woman|person|student))`;
/** Whose hands may have done it. */
export const ANOTHER = one(PEOPLE);
/** Whoever is spoken of at the sink. */
export const SOMEBODY = one(`${PEOPLE}|${ANIMALS}`);

/** What may be of somebody who is hurt, in a line that nobody understood: better asked once too often. */
export const MAY_BE_HURT =
  /^(?!.*\b(?:nobody|no one|never|not|isn't|aren't|joke|song|film|movie|game)\b).*(?:\b(?:gagging|retching|hacking|wheez\w*|chok(?:ed|ing)|numb|blurr(?:y|ed)|woozy|dizzy|screaming|barefoot)\b|\bcan(?:'t|not) see\b|\bup (?:my|his|her) nose\b|\b(?:his|her|their|my) (?:chin|mouth|lips?|face|eyes?|nose|hand)\b.*\b(?:wet|red|full|bath|dripping)\b|\bgr[ea]y at the edges\b)/;

/** Who does not breathe, or lies there, and who says of himself that he soon will. */
const NO_BREATH =
  /\b(?:not|isn't|aren't|stopped|stops|no longer) breathing\b|\b(?:can't|cannot|can not|can hardly|can barely|hardly|barely) (?:breathe|get (?:any |enough )?air)\b|\b(?:trouble|difficulty|hard time|struggling|hard) (?:(?:to|with) )?breath(?:e|ing)\b|\bshort of breath\b|\bno pulse\b|\b(?:lips|face|(?:he|she|they|somebody|someone|my (?!bleach|fixer|developer|stop|bath|mix|film|water|solution)\w+)(?:'s| is| has| are)?)(?: (?:are|is|has|have|just|all|a bit|quite|now))* (?:turn(?:ing|ed)|go(?:ing|ne)|went) (?:all |a bit |quite )?(?:blue|grey|purple)\b|\blips are (?:\w+ )?blue\b|\b(?:am|is|are|i'm|he's|she's) (?:choking|suffocating)\b/;
const LIES_THERE =
  /\b(?:unconscious|unresponsive|passed out|passing out|blacked out|blacking out|fainted|fainting|convulsing|lost consciousness|(?:having|has|had) a (?:seizure|fit))\b/;
const FELL = new RegExp(
  `\\b(?:i|i'm|${SOMEBODY})(?:'s)? (?:\\w+ ){0,2}(?:collapsed|collapsing|keeled over|(?:won't|will not|doesn't|does not|can't) wake(?: up)?|not waking up|(?:isn't|not|doesn't|does not) respond(?:ing)?)\\b`,
);
const WILL_FALL =
  /\b(?:going to|gonna|about to|might|may|will|i'll) (?:pass out|faint|collapse|black out|keel over)\b/;
const OF_HIMSELF = /\b(?:i|i'm|i'll|i've|me|we)\b/;
const OF_NOBODY = /\b(?:nobody|no one|never|what if|if|in case)\b|\b(?:not|n't) (?:pass|faint|collaps)/;
const emergencyIn = (line: string): Exposure | undefined => {
  if (OF_NOBODY.test(line)) return undefined;
  if (![NO_BREATH, LIES_THERE, FELL, WILL_FALL].some((of) => of.test(line))) return undefined;
  return OF_HIMSELF.test(line) && !new RegExp(`\\b${SOMEBODY}\\b`).test(line) ? 'breathless' : 'collapsed';
};
export const isEmergency = (line: string): boolean => emergencyIn(line) !== undefined;

/** Something burns that should not; what only may burn, or is praised for it, is no fire. */
export const FIRE =
  /^(?!.*\b(?:radio|song|movie|singer|band|team|match|game|album|performance|concert|show|playing with|under fire|what an?|dance ?floor|stage|crowd|internet)\b)(?:(?:(?:oh|no|god|help|quick|shit) )*fire(?: (?:fire|help))*$|.*\b(?:there is|there's|we have|we've got|i have|i've got|i see|started) (?!no )(?:an? |some )?(?:(?!no )\w+ )?(?:fire|flames)\b(?! (?:hazard|risk|alarm|extinguisher|exit|blanket|door))|.*\b(?:caught|catches|catching|is on|are on|it's on|went up in|is in|are in|'s in|set \w+ \w+ on) (?:fire|flames)\b|.*\b(?:caught light|(?:is|are|it's|\w+'s) (?:alight|ablaze|in flames)|(?:set|went|goes) (?:\w+ ){0,3}alight|smoulder\w*)\b|.*\bflames? (?:by|at|near|from|in|on|under|behind|out of|coming|everywhere|beside)\b|.*\bfire in the\b|.*\b(?:fire|smoke) alarm(?: is|'s| keeps| started| has)? (?:going(?: off)?|goes off|gone off|ringing|went off|beeping|sounding)\b|.*\b(?:towel|rag|cloth|paper|curtain|kitchen|bench|table|heater|plug|socket|cable|room|house|bin|wire|apron|sleeve)s? (?:is|are|was|started|starts) burning\b)/;
/** Whether water puts that out. */
export const WATER_ON_FIRE =
  /^(?!.*\b(?:no|not|never|kettle|tea|skin|hands?|eyes?|face|arms?|legs?|fingers?|foot|throat|me|him|her)\b)(?=.*\b(?:fire|alight|flames?|sparks?|burning|smoulder\w*)\b)(?:(?=.*\b(?:water|hose)\b)(?:.*\b(?:should|shall|can|could|do|may|must|would) (?:i|we|somebody)\b|.* or not$)?.*\b(?:throw|threw|chuck\w*|pour\w*|put|use|get|fetch|spray\w*|splash\w*|tip|bucket of|hose)\b.*\bwater\b(?! (?:is|was)\b)|.*\bhose (?:it|that)\b)|^(?:should|can|could|shall|do|may|must|would|is it|how about) .*\b(?:throw|chuck|spray|splash|put|pour|use|tip|douse)\w*\b.*\bwater\b.*\b(?:(?:throw|chuck|fire|flames?|plug|socket|heater|outlet|electric\w*|sparks?|cable)\b|(?<=(?:throw|chuck|spray)\w* .*)\b(?:on|over|at) (?:it|that|this)\b)|\b(?:put|douse) (?:it|the fire|the flames?|that) out with water\b|\b(?:on fire|flames?|burning|alight)\b.*\b(?:throw|chuck|spray|pour|put)\b.*\bwater (?:on|over) (?:it|that)\b/;

const LEADS = '(?:(?:ok|okay|right|so|and|hey|oh|phew|yes|yeah|well|good|but|now) )*';
/** Said by who stands outside, by who would go back in, and where the air is clear again; it ends there, for "out" and "back" are said of baths too. */
export const IS_OUTSIDE = new RegExp(
  `^${LEADS}(?:(?:i|we|everybody|everyone|all)(?: am| are| is|'m|'re|'s| have|'ve| has)?(?: (?:all|now|both|safely|already|just|standing|sat|sitting|waiting))* (?:outside|outdoors|out(?: of)? (?:there|the (?:room|kitchen|bathroom|darkroom|house|flat))|(?:out )?(?:in|on) the (?:hall|hallway|corridor|garden|yard|street|stairs|stairwell|balcony|landing|porch|drive)|legged it|ran out|run out|got out|gone out|left the (?:room|house|kitchen|bathroom|flat)|evacuated)|(?:i am|i'm|everybody is|everybody's|everyone is|everyone's|we are all|we're all) out)(?: (?:now|already|safely|safe|of there|with \\w+(?: \\w+)?))*$`,
);
export const ASKS_BACK_IN =
  /\b(?:can|may|could|should|shall|do|might|dare) (?:i|we|somebody|someone)\b(?: \w+){0,2} (?:(?:go|come|nip|run|pop|step|walk|head|dash|get|move) (?:back|inside|in)|return inside|re ?enter)\b(?! (?:a|one|two|with|to)\b)|\b(?:ok|okay|safe|fine|alright|all right) to (?:go|come|head|walk|step|get|be) (?:back|inside|in)\b|\bwhen (?:can|may|could) (?:i|we) (?:go|come|be|get) (?:back|inside|in)\b|^(?:i'll|i will|i'm going to|i am going to|let me|gonna) (?:just )?(?:nip|pop|run|dash|go) back (?:in|inside)(?: (?:for|to get|and get) .*)?$/;
export const IS_BACK = new RegExp(
  `^${LEADS}(?:(?:i|we|all|everybody|everyone)(?: am| are| is|'m|'re|'s)?(?: (?:all|both|now))* back|(?:i|we)(?:'ve| have)? (?:all )?(?:came|come|gone|went) back|(?:i|we)(?: am| are|'m|'re|'ll| will)(?: all| both)? (?:going|go|heading|coming|walking|stepping) back (?:in|inside))(?: (?:in|inside|now|again|here|home|in the \\w+|at the (?:sink|tank)))*$`,
);
/** The smell or the smoke is no more, for a nose that may be numbed. */
export const SMELL_GONE = new RegExp(
  `^${LEADS}(?:(?:the |that )?(?:smell|stink|stench|gas|smoke|fumes|fire|flames)(?:'s| is| are| has| have)?(?: (?:all|been|now|completely|almost|nearly|mostly))* (?:gone|out|over|cleared|fading|less|weaker|blown (?:away|out)|put out|extinguished)|(?:it )?(?:doesn't|does not) (?:smell|stink)(?: of anything)?(?: any ?more| now)|(?:there is |there's )?(?:nothing to smell|no (?:smell|gas|smoke|stink)(?: left)?)|(?:the )?air(?:'s| is| feels)?(?: (?:much|a lot|a bit|all))* (?:better|cleaner|fresher)|(?:i |we )?(?:can't|cannot|can not|don't) smell (?:it|anything|a thing|any of it)(?: any ?more| now))(?: (?:now|again|completely|too|a bit|a little|off|away))*$`,
);
export const IS_SAFE = new RegExp(
  `^${LEADS}(?:(?:the |all the )?(?:air|room|kitchen|bathroom|darkroom|place)(?: here| in here)?(?:'s| is| has been| has|'s been)?(?: (?:all|now|quite|completely|fully|well))* (?:fine|clear|clean air|fresh|aired(?: out| through)?|ventilated|safe|breathable)|(?:it|we)(?:'s| is| has| have|'ve|'s been)?(?: (?:all|been|now|fully|quite|well))* (?:aired(?: (?:out|through|it|it out|the room|the place))*|ventilated(?: it| the room)?)|(?:it was |that was |just )?a? ?false alarm|(?:it's|it is|all|everything is|everything's) safe(?: again)?)(?: (?:now|again|completely|too))*$`,
);
/** Said while everybody is out, of the room and of nothing else. */
export const OF_THE_WAY_BACK = new RegExp(
  `^${LEADS}(?:(?:is|are) (?:it|we|that|all|everything|the (?:room|air|kitchen|bathroom|place))(?: all| still)* (?:safe|ok|okay|fine|clear|good|alright|all right)(?: (?:now|again|yet|already|here|there|in|in there))*|(?:i am |i'm |we are |we're )?(?:going|coming|heading|stepping) (?:back )?in(?:side)?(?: (?:again|now))*|back (?:in|inside|here|again|at the (?:sink|tank)|in the \\w+)(?: now| again)*|(?:right )?back(?: to (?:it|work|the film))?|(?:is|how is|how's|how did|what about|what of|what happened to|what has happened to|did|has|and) (?:the |my )?film(?: (?:survive|survived|make it|ok|okay|fine|all right|alright|safe|lost|ruined|still|good|doing|now))*)$`,
);
/** Said after an alarm: of people, and of no bath. */
export const ALL_OUT =
  /^(?:(?:ok|okay|right|so|that's|that is|we're|we are|they're|they are) )*all out(?: now)?$/;
const EVERYBODY = '(?:everyone|everybody|all of (?:you|us)|you all|both of you|(?:the )?kids)';
const THE_ROOM = '(?:of here|of there|(?:of )?the (?:room|house|kitchen|bathroom|darkroom|flat|building))';
/** Who calls everybody out of the room. */
export const EVERYBODY_OUT = new RegExp(
  `^(?:(?:quick|quickly|help|oh|no|god|ok|okay|right|come on|hurry|fire|gas) )*(?:(?:that is |that's )?${EVERYBODY} (?:has to |have to |needs to |must |should |please |better )*(?:(?:get|go|run|come|move) )?(?:out|outside|leave|evacuate)|(?:out|outside|run|leave|get out|go out)(?: (?:out|now))* ${EVERYBODY}|(?:(?:i'm|i am|we're|we are) )?get(?:ting)? (?:${EVERYBODY}|them|them all) out|(?:we're|we are|i'm|i am) (?:all )?(?:getting out|leaving|evacuating)|(?:leave|get out of) the (?:house|room|kitchen|flat) ${EVERYBODY}|evacuate|(?:get|go|come) out(?: (?:get|go|come) out)+|out out(?: out)*|(?:get|go) (?:the hell )?out ${THE_ROOM}|(?:we|i|you)(?:'d|'ve| had| have| all)* (?:need to|have to|got to|better|must|gotta|should) (?:all )?(?:(?:get|go|run) (?:out|outside)|leave|evacuate)|let(?:'s| us) (?:all )?(?:(?:get|go|run) (?:out|outside)|evacuate)|clear ${THE_ROOM})(?: (?:out|now|quick|quickly|fast|at once|please|immediately|${THE_ROOM}))*$`,
);

const OF_THE_HURT = `(?:it|that|this|he|she|them|(?:my|his|her|the|both|left|right) (?:\\w+ )?(?:${BODY}))`;
/** Of whoever is hurt: rinsed for now, and whether that is enough. */
export const RINSED = new RegExp(
  `^${LEADS}(?:(?:i|we|he|she|i've|i'm|we've|he's|she's)(?: have| has| am| is)? )?(?:(?:all |just |already |now |done |finished |been )*(?:rins(?:ed|ing)|wash(?:ed|ing)|flush(?:ed|ing)|bath(?:ed|ing)))(?: ${OF_THE_HURT})?(?: (?:out|off|well|properly|thoroughly|for (?:a|\\w+|[\\w ]+) (?:minutes?|seconds|while|bit|moment)|with (?:tap |cold |warm |lots of |plenty of )?water|under the tap|now|already|too))*$|^${LEADS}${OF_THE_HURT}(?: is|'s| has been| are)(?: all| now| well)* (?:rinsed|washed|flushed|clean|washed out)(?: out| now| off)*$|\\b(?:how (?:long|much longer)|can i|may i|shall i|should i|do i|when (?:can|may|do) i)\\b.*\\b(?:rins(?:e|ing)|flush(?:ing)?|wash(?:ing)?)\\b(?! the (?:film|tank))`,
);
export const STILL_HURTS = new RegExp(
  `^${LEADS}(?:(?:it|that|${OF_THE_HURT})(?:'s| is| are)? )?(?:(?:still|really|just|only|now|even|getting|no) )*(?:hurts?|hurting|stings?|stinging|burns?|burning|smarts?|smarting|sore|red|swollen|itch\\w*|watering|blurr(?:y|ed)|worse|better)(?: (?:a lot|a bit|like (?:hell|mad|crazy)|badly|so much|very much|too|now|though|and \\w+))*$|^${LEADS}(?:(?:i|he|she) )?(?:can't|cannot|can not|can hardly|can barely) see(?: (?:properly|well|right|a thing|anything|clearly|much|now))*$|\\b(?:do|does|should|shall|must|need)\\b.*\\b(?:doctor|hospital|a&e|emergency room|eye clinic)\\b`,
);
/** The same, of nothing else whoever was hurt. */
export const HURTS_STILL =
  /^(?:(?:ow|ouch|and|but|it|my \w+) )*still (?:hurts?|hurting|stings?|stinging|sore|smarts)(?: (?:a lot|a bit|badly|now|though))*$/;

/** Whom to call, asked by who has somebody to be helped. */
const RINGS = '(?:call|ring|phone|dial|contact|telephone)';
export const WHO_TO_CALL = new RegExp(
  `^(?!.*\\b(?:mum|mom|dad|plumber|you|yourself|me (?:when|if|back)|back)\\b)${LEADS}(?:(?:quick|quickly|help|please|god) )*(?:(?:who|whom|what number|which number|whose number|where)\\b(?: \\w+){0,4} (?:${RINGS}|help|talk to|speak to|ask|turn to|get help|knows?)\\b(?! with\\b).*|(?:(?:what is|what's|tell me|give me|have you got|do you have|is there) )?(?:the |a |any )?(?:emergency |poison (?:centre |center |control )?)?(?:phone )?(?:number|hotline|helpline)(?: (?:for|of|to|again|please)\\b.*)?|(?:is there|do you know|can i ${RINGS}|can we ${RINGS}|should i ${RINGS}|shall i ${RINGS}|do i ${RINGS}|must i ${RINGS}|${RINGS})\\b.*\\b(?:some(?:body|one)|any(?:body|one)|who|doctor|ambulance|hospital|poison\\w*|emergency|999|911|112)\\b.*|(?:i|we|he|she|they) (?:really )?(?:want|need|must have)(?: to see)? (?:a |an |some )?(?:doctor|medic|paramedics?|ambulance|nurse|medical help)(?: now| quick\\w*| please)*|(?:get|fetch|find)(?: me| us| him| her)? (?:a |an )?(?:doctor|medic|ambulance|paramedics?))$`,
);
/** A contact lens that does not come out, or has something behind it; a camera has lenses too. */
export const LENS_STUCK =
  /^(?!.*\b(?:camera|cap|enlarger|zoom|filter|projector)\b).*\b(?:(?:contact )?lens(?:es)?|contacts)\b.*\b(?:stuck|jammed|(?:won't|wont|will not|can't|cannot|can not|doesn't|does not|refuses to|isn't|is not|not) (?:\w+ )?(?:com\w+|budg\w+|mov\w+|get|out|shift\w*|let go))\b|\b(?:can't|cannot|can not|don't|couldn't) (?:get|take|pull|fish|find) (?:\w+ ){0,3}(?:lens(?:es)?|contacts)\b(?!.* (?:camera|cap)\b)/;
export const OF_CONTACT_LENS =
  /\bcontact lens(?:es)?\b.*\b(?:splash\w*|dust|powder|drops?|got|burn\w*|sting\w*)\b|\b(?:splash\w*|dust|powder|drops?|something|got|liquid|bleach|fixer|developer|acid)\b.*\b(?:behind|under|in|on|into) (?:my|his|her|the|a)? ?contact lens(?:es)?\b/;

/** That nothing of it got on anybody: each word stands beside the next, for what is between may tell of another matter. */
const SOME_OF_IT =
  '(?:it|that|any|anything|some|one|(?:a|single) drop|drops?|of it|any of it|of that|of them|of the|the|bleach|developer|fixer|fix|stop|stop bath|prebath|acid|powder|dust|stuff|bath)';
const TO_A_BODY = `(?: (?:in|into|on|onto|near|over|up|down))*(?: (?:my|his|her|their|our|the|your|anybody's|anyone's|both|left|right|other|bare))*(?: (?:${BODY}|me|us|him|anybody|anyone|throat|nose|lungs?))`;
const GETS_ON =
  '(?:got|get|gets|gotten|getting|splash\\w*|touch\\w*|spill\\w*|spilt|hit|land\\w*|go|goes|went|gone|been|reach\\w*|drip\\w*|in|on|into|onto)';
const HARMS =
  '(?:hurt|injured|harmed|burnt|burned|burn (?:myself|himself|herself)|(?:hurt|cut) (?:myself|himself|herself)|swallow\\w*|drank|drunk|drink|ate|eaten|eat|inhaled?|breathed|licked|tasted|touched|fainted|collapsed|passed out|choked)';
const OFTEN = '(?: (?:has|have|had|is|was|are|were|got|ever|even|actually|really|been|once|seems))*';
export const UNHURT = new RegExp(
  `^(?:(?:ok|okay|right|so|and|well|oh|phew|no|yes|yeah|good|a|lucky|luckily|thankfully|fortunately|thank|god|goodness|heavens?|thing|that|just as well|at least|relax|don't worry|all fine|all good|there is|there's|i have|i've got|i had|(?:i'm |i am )?(?:glad|happy|relieved)) )*(?:(?:nobody|no one|noone|none of us|neither of us)${OFTEN} ${HARMS}(?: ${SOME_OF_IT})*(?: in (?:it|here))?|(?:nothing|none|not (?:a|one|any|single)(?: single)?(?: drops?| bit)?|no (?:\\w+ )?(?:splash\\w*|drops?|spills?|drips?|burns?|bleach|fixer|developer|acid|stop|powder|dust))(?: (?:of|of it|of that|of them|of the \\w+))?${OFTEN}(?: ${GETS_ON})?${TO_A_BODY}|(?:i|we|he|she|it|they|the \\w+|\\w+)(?:'ve|'s|'d|'re| have| has| had)? ?(?:just |only )?(?:never|not|n't|\\w+n't|did not|has not|have not|was not|is not)${OFTEN} (?:${GETS_ON}(?: ${SOME_OF_IT})*${TO_A_BODY}|${HARMS}(?: ${SOME_OF_IT})*(?: in)?)|(?:i|it|the \\w+)(?: has| have)?(?: just| only| narrowly)* missed (?:my|his|her|the) (?:\\w+ )?(?:${BODY})|without (?:getting|spilling|splashing)(?: ${SOME_OF_IT})*${TO_A_BODY}|without swallowing(?: ${SOME_OF_IT})*|(?:my|both|both my) (?:\\w+ )?hands?(?: is|'s| are)(?: now| both| still| already| safely)* (?:in|on|inside|round|around|under) (?:my|the|a|these) (?:\\w+ )?(?:bag|gloves?|pockets?|tank|lid|sleeves?|film|reel|spiral|timer|table|bench))(?: (?:at all|this time|today|luckily|thank god|thankfully|though|either|yet|here|tonight|once|so far|good|today|then|carry on))*$`,
);

const RELIEF =
  "(?:(?:ok|okay|right|so|and|but|well|oh|phew|no|yes|yeah|good|thanks|actually|sorry|never mind|don't worry|relax|luckily|thankfully|thank god) )*";
const EVERYONE =
  "(?:(?:everybody|everyone|all of us)(?: is|'s| are)?|we(?:'re| are) (?:all|both)|we both are)";
const WELL = '(?:fine|okay|ok|all right|alright|safe|well|unhurt|unharmed)';
const ENDS = '(?: (?:now|again|here|really|at all|after all|any ?more|thanks|sorry|though|today|luckily))*';
export const FALSE_ALARM = new RegExp(
  `^${RELIEF}(?:(?:it|that) was )?(?:just |only )?(?:a )?false alarm${ENDS}$`,
);
/** What may be fine and is nobody. */
export const OF_THE_WORK =
  /\b(?:films?|tank|reel|spiral|lid|bottles?|jug|tub|heater|water|developer|dev|bleach|fixer|fix|stop|prebath|baths?|rinse|negatives?|temperatures?|scale|thermometer|batch|mix|powder)\b/;
export const NOBODY_HURT = new RegExp(
  `^${RELIEF}(?:nobody|no one|noone|none of us|neither of us)(?: is|'s| was| got| has been| were| are)?(?: actually| really| even)* (?:hurt|injured|harmed)${ENDS}$`,
);
/** All are well: of all who were hurt, where somebody was. */
export const ALL_CLEAR = new RegExp(
  `^${RELIEF}(?:${EVERYONE}(?: all| perfectly| quite)* ${WELL}|all(?: is)? (?:fine|good|okay|ok|clear|well)|(?:i'm|i am)(?: all| perfectly| quite)* ${WELL})${ENDS}$|${FALSE_ALARM.source}`,
);
/** Somebody makes little of it, or others say so: that ends nothing. */
export const PLAYED_DOWN = new RegExp(
  `^${RELIEF}(?:(?:it|that|this)(?: was|'s| is)(?: just| only| probably| really)* (?:nothing|a joke|a drop|not so bad|not that bad|no big deal)|nothing happened|(?:i|he|she|we|they)(?:'m|'s| am| was| were| is)? (?:only |just )*(?:joking|kidding)|(?:just|only) (?:joking|kidding)|(?:(?:he|she|they|my \\w+|the \\w+) (?:says?|said|thinks?|reckons?)|i (?:think|guess|suppose|hope|reckon)|probably|maybe|hopefully) .*\\b(?:nothing|fine|okay|ok|all right|alright|better|well|gone|over)|(?:he|she|they|i|the \\w+) (?:only|just) (?:touched|smelled|sniffed|licked|held) .+)${ENDS}$`,
);
/** It came near somebody and no nearer. What is told beside it may be of another matter. */
export const MISSED_NARROWLY = new RegExp(
  `^(?!.*\\b(?:but|and|still|except|though|out of|off|rinsed|washed|some of|all of|most|now)\\b)${RELIEF}(?:(?:i|he|she|we|they|it|that|(?:the |some |a )?(?:bleach|developer|fixer|fix|stop|stop bath|prebath|acid|powder|dust|stuff|bath|drops?|splash|bit|bit of it)|my \\w+|the (?:kid|boy|girl|child|cat|dog|baby)) )?(?:have |has |had |very |just |only )*(?:almost|nearly|narrowly) (?:got|gotten|get|had|took|taken|splashed|spilled|spilt|poured|tipped|dropped|swallowed|drank|drunk|put|stuck|touched|went|gone|hit|inhaled|breathed|landed|ended|flew|sprayed|squirted|rubbed|wiped|grabbed)\\b.*$`,
);

const CHILDREN =
  '(?:kids?|child(?:ren)?|sons?|daughters?|boys?|girls?|toddlers?|baby|babies|grand(?:sons?|daughters?|kids?)|nephews?|nieces?|twins|lads?|little (?:one|ones|lad|girl|boy))';
const KEPT_FROM_THEM =
  '(?:acids?|bleach|developer|fixer|stop bath|prebath|chemicals?|bottles?|powders?|baths?|jugs?|tray|caustic|lye|hydroxide|ferricyanide|spill|puddle)';
/** Children at what can hurt them; how they were hurt is told otherwise. */
export const CHILDREN_AT_IT = new RegExp(
  `^(?!.*\\b(?:not|never|no|nobody|\\w+n't|can't reach|out of reach|locked|safe|away from|asleep|drew|drawing|picture|story|school|nowhere|kept|keep)\\b)(?!(?:can|may|could|should|is|are|do|does|what|where|how|if)\\b).*\\b${CHILDREN}(?:'s| is| are| has| have|'ve)?(?: \\w+){0,3} (?:playing with|got hold of|got (?:at|into|hold|to)|gets? into|at|in|opened|opening|unscrew\\w*|holding|has|got|have|grabbed|touch\\w*|near|next to|messing with|poking|splashing|dipping|dipped|reached (?:for|into)|reaching (?:for|into)|pour\\w*|drinking|stirring|sniff\\w*|with|by|carrying|walking through|walked through|crawl\\w* (?:in|through|to|towards?))(?: \\w+){0,4} ${KEPT_FROM_THEM}\\b|\\b(?:acid|bleach|developer|fixer|chemicals?|glass|powder|caustic)\\b.*\\b${CHILDREN}(?:'s| is| are) (?:coming|running|crawling|walking|right (?:there|here))\\b`,
);

/** What runs on the mains and should stay dry, and what stands in the water as it should. */
const PLUGGED =
  '(?:plugs?|sockets?|outlets?|power (?:strips?|bars?|boards?|banks?|supply|points?)|(?:extension|power|mains|kettle|multi) (?:leads?|cords?|cables?|sockets?|plugs?|blocks?)|extension|multiplug|adapt[eo]rs?|battery packs?|controllers?|thermostat|chargers?|surge (?:protectors?|strips?)|cables?|cords?|wires?|wiring|lamps?|hair ?dryer|fuse box|light switch|kettle base|safelight|mains|electrics|hot ?plate|stirrer base)';
const IN_WATER =
  '(?:heaters?|heating (?:rods?|coils?)|circulator|pump|stirrer|immersion \\w+|element|aquarium heater|kettle)';
const WATERY = '(?:water|puddle|tub|bath|flood|wet|sink|basin|bucket|bleach|developer|fixer|spill)';
/** What heats water from within or beside it; a circulator is hung into it. */
const HEATS = '(?:heaters?|immersion \\w+|kettle)';
const BREAKS =
  '(?:flash(?:es|ed)?|bang|sizzl\\w*|chewed|gnawed|crackl\\w*|arcing|arced|smok(?:es|ing)|melt\\w*|scorch\\w*|singed|fray\\w*|went (?:bang|pop)|go(?:es|ing|ne) (?:bang|pop)|popped|exploded|blew up|short(?:ed|ing|s) ?(?:out|circuit\\w*)?|short circuit\\w*|live wires?|bare wires?|shocks?|zaps?|tingles?|(?:hot|warm) and brown|burnt out|burn(?:s|ed|t|ing)?|broken open|exposed)';
/** Current where it should not be: water in what must be dry, sparks, a burnt smell of it, somebody's tingling hand. */
export const ELECTRIC = new RegExp(
  [
    `\\b${PLUGGED}\\b.* (?:buzz\\w*|hiss\\w*|hum(?:s|ming)|fizz\\w*|${BREAKS})\\b(?<!lamps?.* burn\\w*)`,
    `\\b${IN_WATER}\\b.* (?:${BREAKS}|crack(?:ed|s)|split)\\b`,
    `\\b${BREAKS} (?:at|from|in|out of|by|on|off|coming) (?:[\\w']+ ){0,3}(?:${PLUGGED}|${IN_WATER})\\b`,
    `\\b${PLUGGED}(?: [\\w']+)?(?:'s| is| are| was| got| gets| has got| sits?| lies| fell| dropped| went| slid| landed| hangs?)(?: [\\w']+){0,3} (?:wet|damp|soaked|soaking|drenched|dripping|(?:in|into|under|on) (?:[\\w']+ ){0,2}${WATERY})\\b(?<!\\bplugs? .*(?:sink|tub|bath))`,
    `\\b(?:dropped|knocked|spilled|spilt|splashed|got|poured) (?:[\\w']+ ){0,3}(?:${PLUGGED}|radio|laptop) (?:in|into) (?:[\\w']+ ){0,2}${WATERY}\\b`,
    `\\b(?:water|wet|puddle|tank|tub|overflow\\w*|bath|bleach|developer|fixer|stop|rinse|flood|spill\\w*|spilt|splash\\w*|leak\\w*|drip\\w*)\\b.* (?:in|into|on|onto|over|under|near|through|all over|reached|towards?|round|around|beside|by) (?:[\\w']+ ){0,2}${PLUGGED}\\b`,
    `\\bwet ${PLUGGED}\\b`,
    `\\bspark(?:s|ing|ed)\\b|\\b(?:bare|live|exposed) (?:wires?|cables?|ends?|copper)\\b|\\bsee (?:the )?copper\\b`,
    `\\b(?:plugs?|sockets?|cables?|cords?|wires?|leads?|adapt[eo]rs?|chargers?|power (?:strip|bank)|battery pack)(?:'s)?(?: is| are| feels?| gets?| got)* (?:\\w+ ){0,3}(?:hot|swelling|swollen|bulging)\\b`,
    `\\b(?:${PLUGGED}|radio|laptop|phone)(?: just| has)* (?:fell|dropped|slipped|slid|went|fallen) (?:right |straight )?in(?:to)?(?: (?:[\\w']+ ){0,2}${WATERY})?(?:$| (?:and|the|so|it|still)\\b)`,
    `\\b${HEATS}(?: just| has)* (?:fell|fallen|dropped|slipped|slid|toppled|tipped) (?:right |straight |over )*in(?:to)?(?: (?:[\\w']+ ){0,2}${WATERY})?$`,
    `\\b(?:dropped|knocked) (?:the |my |our |a )?(?:\\w+ )?${HEATS} (?:right |straight )*in(?:to)? (?:[\\w']+ ){0,2}${WATERY}$`,
    `\\b${HEATS}(?:'s)?(?: just| has| is)* (?:fell|fallen|dropped|slipped|slid|toppled) (?:right |straight |over )*in(?:to)? (?:[\\w']+ ){0,2}${WATERY}\\b.*\\b(?:plugged|whole thing|all of it|plug|cable|still on)\\b`,
    `\\bsmoke(?:'s| is)?(?: coming| pouring| rising)? (?:out of|out|from|off) (?:the |my |that )?(?:${PLUGGED}|${IN_WATER})\\b`,
    "\\b(?:belt|jolt|kick|buzz|zap|shock) (?:off|from) (?:the )?(?:water|tub|tap|heater|tank|sink)\\b|\\btingl\\w* (?:when|whenever|if|(?:each|every) time) i touch\\b|\\bheater(?:'s| is) live\\b",
    "\\b(?:wires?|cables?|cords?|leads?)(?:'s| is| are) (?:all |half |completely )?(?:bare|showing)\\b",
    '\\b(?:tub|bath|sink|tap|water)\\b.*\\bhum\\w*\\b.*\\btingl\\w*|\\bhands are (?:still |all )?wet\\b.*\\b(?:plug|unplug|switch|socket)\\b',
    '\\b(?:power|electricity) (?:went|goes|is) (?:off|out)\\b.* (?:heater|plug|switch\\w*|circulator)\\b',
    '\\b(?:fork|knife|finger|nail|screwdriver|thermometer|tweezers|hairpin)\\b.* (?:in|into) (?:the )?(?:socket|outlet)\\b',
    "\\b(?:unplug|plug|switch)\\b.*\\b(?:floor|everything|bench|table)(?: is|'s) (?:\\w+ )?(?:wet|flooded|soaked)\\b",
    `\\b(?:wires?|cables?|cords?)(?:'s| has| is)? (?:come|came) (?:off|out|loose)\\b`,
    '\\b(?:fuse|breaker|rcd|trip switch)\\b.* (?:trip\\w*|blew|blow\\w*|went|gone|goes|popped)\\b|\\b(?:tripped|trips|tripping|blew|blows|blown) (?:the |a |my )?(?:fuse|breaker|rcd)\\b|\\b(?:fingers?|hands?)(?: are| is)? (?:buzz|tingl|prickl)\\w* (?:when|whenever|if|(?:each|every) time)\\b',
    "\\b(?:tub|water|tap|bath|sink|tank)(?:'s| is| feels)?(?: [\\w']+){0,2} (?:tingl\\w*|(?<='s |is )live|electric|electrified|zaps?|zapping|shocks?|gives me|prickl\\w*)\\b|\\btingl\\w* (?:from|off|in|when i touch) (?:the )?(?:tap|tub|water|heater|tank|sink)\\b",
    '\\b(?:smell\\w*|smelt|stinks?|reeks?)\\b.* (?:burn(?:t|ing|ed)|hot|melt\\w*|scorched|singed) (?:plastic|electrics?|electronics|rubber|wires?|wiring|cables?|insulation|dust)\\b|\\b(?:burn(?:t|ing)|melting) (?:plastic|electrics?|rubber|wires?) smell\\b|\\bburn\\w* smell (?:from|off|by) (?:the )?(?:heater|plug|socket|controller|circulator)\\b',
    `^(?!.*\\b(?:please|for me|will you|would you)\\b).*(?:\\b(?:wet|damp) hands\\b.*\\b(?:plug\\w*|unplug\\w*|switch\\w*|socket|heater)\\b|\\b(?:unplug\\w*|plug|switch|socket)\\b.*\\b(?:wet|damp) hands\\b|\\b(?:plug|unplug|switch)\\b.*\\bhands are (?:still )?wet\\b)`,
    `\\bleads?(?:'s| is| are| has got)(?: \\w+)? (?:wet|soaked|under water|in (?:the )?(?:water|puddle))\\b`,
    `\\b(?:${PLUGGED}|radio|laptop)(?:'s| is)? (?:in|under) (?:the )?(?:water|tub|bath|sink)\\b(?<!\\bplugs?(?:'s| is)? in .*)`,
    `\\b${HEATS}\\b.* (?:its|the|whose) (?:plug|plug end|cable|lead)\\b.* (?:in|under) (?:the )?(?:water|tub|bath|sink)\\b|\\b${HEATS}\\b.*\\bplug(?: end)? and all\\b`,
    `\\b${HEATS} (?:won't|will not|doesn't|does not) (?:quit|stop|switch off|turn off|go off|shut off)\\b`,
    '\\b(?:current|electricity|mains) in (?:the |my )?(?:water|tub|bath|sink)\\b|\\bwater bites\\b',
    `^(?:is it|can i|may i|should i|am i).*\\b(?:touch|grab|fish out|pull out|reach for|reach into) (?:the |that |it )?(?:${PLUGGED}|${IN_WATER})\\b`,
  ]
    .map((p) => `(?:${p})`)
    .join('|'),
);
const ASKS_TO = '^(?:can|may|could|should|shall|do|must|is it (?:ok|okay|safe|fine|alright)|am|would it)\\b';
/** Whether a hand may go into water in which something runs on the mains. */
export const REACHES_IN = new RegExp(
  `${ASKS_TO}.*\\b(?:reach(?:ing)?|(?:hands?|fingers?|arm) in(?:to)?)\\b.*\\b(?:${PLUGGED}|${IN_WATER}|radio)\\b|(?:${ASKS_TO}|\\b(?:do|shall|should|can|may) i\\b).*\\b(?:pull|lift|fish|haul|scoop|grab|get)\\w* (?:the |my |that )?(?:(?!plugs?\\b)${PLUGGED}|radio|laptop)(?: \\w+)? (?:out|up|from)\\b|\\b(?:${PLUGGED}|radio|laptop)\\b.* (?:in|into)\\b.*\\b(?:do|shall|should|can|may) i (?:just )?(?:pull|lift|fish|haul|scoop|grab|get|take) (?:it|that)(?: back)? out\\b|${ASKS_TO}.*\\b(?:pull|lift|fish|haul|scoop|get) (?:the |my |that )?(?:${PLUGGED}|radio|laptop) out of (?:the )?water\\b`,
);

/** No trouble with a current: said not to be so, or of a show. */
export const NO_CURRENT =
  /\b(?:no|not|never|without|isn't|wasn't|aren't|doesn't|nowhere near|well away|movie|song|guitar|show|band)\b|\bkeep\w* .*\b(?:away|dry)\b/;

/** What was said to hurt, wherever that is: nobody is hurt where no word says whom, or what he feels. */
export const SOMEBODY_HURT = new RegExp(
  `\\b(?:i|i'm|i've|me|my|he|he's|she|she's|his|her|him|they|somebody|someone|${PEOPLE}|${ANIMALS})\\b|\\b(?:it|that|this)\\b.*\\b(?:burn(?:s|ing)|sting\\w*|itch\\w*|hurt\\w*|smart\\w*|prickl\\w*|tingl\\w*|sore|pain\\w*)\\b|\\b(?:ow|ouch|poisoned)\\b`,
);
/** What got wet with it, or was cut: a part of somebody. */
export const ON_A_PART = new RegExp(
  `\\b(?:splash\\w*|spill\\w*|spilt|soak\\w*|spray\\w*|squirt\\w*|cut|burnt|burned|scalded|pricked|scratched|sliced|grazed) (?:my|his|her|their) (?:\\w+ )?(?:${SKIN}|eyes?|face|mouth)\\b`,
);
const HANDS = '(?:hands?|fingers?|thumb|arm|elbow|wrist|foot|feet|toes?)';
/** Anybody's hand that is in something: "my brother's hand is in the stop". */
export const HAND_IN = new RegExp(
  `\\b(?:\\w+'s|his|her|their|my) (?:(?:\\w+ )?(?:bare |left |right |whole |little )?)${HANDS}(?: is| are|'s| was| were| went| got| fell| slipped| has been| have been| just| all| right| straight)* (?:in|into|inside)\\b|\\b(?:put|stuck|dipped|plunged|dunked|has|had|got|with) (?:a|his|her|their|my|both|the) (?:\\w+ )?${HANDS} (?:right |straight |all )?(?:in|into|inside)\\b`,
);
/** Drunk by mistake, whatever was in it. */
export const WRONG_GLASS =
  /^(?!.*\b(?:nearly|almost|not|never|nobody|if|could|might|would|don't|didn't|haven't)\b).*\b(?:swig|gulp|gulped|sip|sipped|mouthful|drank|drunk|swallowed|swigged)\b.*\bwrong (?:glass|cup|mug|jug|bottle|beaker|one|stuff)\b/;
/** What is drunk and eaten as it should be. */
export const MEALS =
  /\b(?:drank|drunk|ate|eaten|drinking|eating) (?:up |all |half |some )*(?:of )?(?:my |his |her |the |a |an |last of |cup of |glass of |mug of )*(?:tea|coffee|beer|wine|milk|juice|lunch|dinner|supper|breakfast|sandwich\w*|pizza|cake|toast|biscuits?|soup|pint|lemonade)\b(?!.*\b(?:taste[ds]?|funny|wrong|bitter|bleach|fixer|developer|stop)\b)|\b(?:ate|eaten|drank|drunk)(?: (?:already|yet|before|nothing|too much|well|out|late|early|earlier))*$|\bswallow\w* (?:my|his|her|the|their) (?:pride|words?|spit|breakfast|lunch|dinner|tea|coffee|pills?|tablets?)$/;
/** Toast and film are burnt and cut as well, and who is well, tired or cold is not hurt. */
export const OF_A_THING_CUT = new RegExp(
  `^(?:nobody|no one|none of us)\\b|^(?!.*\\b(?:${BODY}|throat|me|\\w+self)\\b).*\\b(?:burned|burnt|scalded|cut|sliced|scratched)\\b|\\b(?:feel(?:ing)?|am|i'm) (?:\\w+ )?(?:great|good|fine|brilliant|fantastic|happy|tired|cold|hungry|sick (?:of|and tired))\\b|\\b(?:hands?|fingers?|feet|arms?|legs?|eyes?|back|neck) (?:is|are|feels?|gets?) (?:\\w+ )?(?:wet|cold|dry|full|clean|tired|stiff|free|warm)(?: (?:now|again|today|too|already|from \\w+))*$|\\bback (?:hurts|aches)\\b|${MEALS.source}`,
);
/** What stands in kitchens and bathrooms and no grammar names. */
export const KITCHEN_NAMES =
  '(?:(?:lemon|lime|orange|fruit|pickle) juice|lemons?|limes?(?! scale)|(?:(?:loo|toilet|lavatory|drain|oven|tile|kettle|bathroom|kitchen|window|floor|pool|rust|scale|glass|brick|household|acid) )?(?:cleaner|descaler|unblocker|remover|detergent|disinfectant)|cola|coke|soap|washing up liquid|ammonia|peroxide)';
/** What stands in kitchens and bathrooms, by the last word of its name. */
export const THING =
  '(?:juice|cleaner|cleaning|soap|detergent|softener|acid|liquid|spray|oil|spirits?|alcohol|sugar|milk|coffee|tea|cola|coke|beer|wine|lemon|peroxide|polish|descaler|disinfectant|remover|salt|soda|powder|tablets?|vinegar|flour|starch|chalk|plaster|gypsum|sand|cement|cocoa|yeast)';
/** What takes up a spill and adds nothing to it. */
export const WIPES =
  '(?:water|towels?|paper|papers|cloths?|rags?|tissues?|napkins?|roll|wad|sponges?|mops?|newspapers?|squeegee|shirt|t-shirt|tee|sock|sleeve|gloves?|hands?|sand|litter|sawdust|vermiculite|care|dustpan|brush|bucket|labels?|stickers?|tape|thermometer|probe|caps?|stoppers?|clips?|foil|bags?|torch|cover|plate|weight|it|that|them|nothing|gone)';
/** A salt by half its name. */
export const SALTS =
  '(?:(?:meta)?(?:bi)?sulfite|(?:bi)?carbonate|bromide|iodide|chloride|thiosulfate|thiocyanate|ferricyanide|hydroxide|persulfate|hypo)';
/** No thing that could meet another. */
export const PART_OF_SOMEBODY = new RegExp(`\\b(?:${SKIN}|eyes?|face|mouth|lips?|gloves?|apron)\\b`);

/** Calls the assistant, at the beginning of a sentence. */
export const CALLS = ['tank side', 'hey tank side', 'okay tank side'].map((call) => call.split(' '));

/** A line that is for the terminal: it leaves, or draws a picture. */
export const LEAVES = /^(exit|quit|bye|good ?bye)[.!]?$/i;
export const DRAWS = /^(?:show|draw)(?: me)?(?: the| this| my)? (run|timeline|bottles)$/;

/** What a pH was read by, where it was told. */
export const phBy = (line: string): PhBy | undefined =>
  /\b(?:meter|probe|electrode|pen)\b/.test(line)
    ? 'meter'
    : /\b(?:strips?|(?:indicator|litmus|p h|test) papers?|litmus|sticks?)\b/.test(line)
      ? 'strip'
      : undefined;
