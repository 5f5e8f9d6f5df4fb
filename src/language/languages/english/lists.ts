import type { Exposure } from '../../../chemistry/index.js';
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

/** Between a value and the one that was meant instead. */
export const REPAIR =
  /^(?=.*\b(?:no|wait|sorry|rather|mean|make that|actually)\b)(?:(?:no|not|wait|sorry|rather|i mean|i think|make that|hang on|actually|yes|oh|uh|um|er|it is|that is|is) ?)+$/;
export const PERHAPS = /^(?:maybe|perhaps|probably)$/;
export const ASKS_LEAVE = /^(?:can|may|could|should|shall) /;

/** Where a liquid is no matter of the floor. */
export const ON_SOMEBODY = set('skin hand face eye mouth');

/** Parts of somebody, and what is worn on them, where what gets on it gets on the skin. */
const SKIN =
  'skin|hands?|arms?|forearms?|elbows?|fingers?|thumbs?|knuckles|wrists?|legs?|knees?|shins?|ankles?|feet|foot|toes?|necks?|palms?|clothes|shirt|trousers|jeans|sleeves?|lap';
/** Every part of somebody that a bath may get on or into. */
export const BODY = `${SKIN}|eyes?|face|mouth|lips?|tongue`;
/** How somebody is hurt, by the words for it: what is told of an eye, a face or a mouth goes before the skin. */
const HURT: readonly (readonly [RegExp, Exposure])[] = [
  [/\b(?:my|our|the) (?:\w+ )?(?:cat|dog|kitten|puppy|pet|rabbit|hamster|bird|parrot|budgie)s?\b/, 'animal'],
  [/\beye(?:s|ball|lids?)?\b/, 'eye'],
  [/\bface\b/, 'face'],
  [
    /\b(?:swallow\w*|swallied|drank|drunk|drinking|gulp\w*|swig\w*|ingest\w*|mouth|mouthful|sip\w*|lips?|tongue|ate|eaten|lick\w*|lapp\w*|tasted|tea|mug)\b/,
    'swallowed',
  ],
  [
    /\b(?:breath\w*|inhal\w*|fumes?|gas|vapou?rs?|dizzy|giddy|light ?headed|woozy|sick|faint\w*|cough\w*|wheez\w*|chok\w*|unconscious|passed out|lungs?|lungful|nose|noseful|throat|chest|head|headache|nause\w*|spinning|swimm?\w*|going round)\b/,
    'breathed',
  ],
  [/\b(?:cuts?|bleeding|bled|blood|gash\w*|sliced|stabbed|pricked)\b/, 'wound'],
  [new RegExp(`\\b(?:${SKIN}|gloves?|cut|burnt|scald\\w*|rash|blister\\w*|eczema|touched)\\b`), 'skin'],
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
  };
  const covered = told.flatMap((how) => covers[how] ?? []);
  return told.filter((how) => !covered.includes(how));
}
export const howHurt = (line: string): Exposure | undefined => howsHurt(line)[0];

/** Whoever is spoken of at the sink. */
export const SOMEBODY =
  '(?:(?:my|our|the) (?:\\w+ )?(?:daughter|son|kids?|child|children|baby|boy|girl|wife|husband|partner|friend|mate|colleague|assistant|flatmate|girlfriend|boyfriend|brother|sister|mother|father|mum|mom|dad|dog|cat)|he|she|they|somebody|someone|(?:a|the) (?:man|woman|person|student))';

/** Who does not breathe, or lies there, and who says of himself that he soon will. */
const NO_BREATH =
  /\b(?:not|isn't|aren't|stopped|stops|no longer) breathing\b|\b(?:can't|cannot|can not|can hardly|can barely|hardly|barely) (?:breathe|get (?:any |enough )?air)\b|\b(?:trouble|difficulty|hard time|struggling|hard) (?:(?:to|with) )?breath(?:e|ing)\b|\bshort of breath\b|\bno pulse\b|\b(?:am|is|are|i'm|he's|she's) (?:choking|suffocating)\b/;
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

/** Something burns that should not; what only may burn is no fire. */
export const FIRE =
  /^(?:(?:oh|no|god|help|quick|shit) )*fire(?: (?:fire|help))*$|\b(?:there is|there's|we have|we've got|i have|i've got|i see|started) (?!no )(?:an? |some )?(?:(?!no )\w+ )?(?:fire|flames)\b(?! (?:hazard|risk|alarm|extinguisher|exit|blanket|door))|\b(?:caught|catches|catching|is on|are on|went up in|is in|are in|set \w+ \w+ on) (?:fire|flames)\b|\b(?:towel|rag|cloth|paper|curtain|kitchen|bench|table|heater|plug|socket|cable|room|house|bin|wire|apron|sleeve)s? (?:is|are|was|started|starts) burning\b/;

/** What was said to hurt, wherever that is: nobody is hurt where no word says whom, or what he feels. */
export const SOMEBODY_HURT =
  /\b(?:i|i'm|i've|me|my|he|he's|she|she's|his|her|him|they|somebody|someone|mummy|little one|sons?|daughters?|kids?|child|children|baby|wife|husband|dogs?|cats?)\b|\b(?:it|that|this)\b.*\b(?:burn(?:s|ing)|sting\w*|itch\w*|hurt\w*|smart\w*|prickl\w*|tingl\w*|sore|pain\w*)\b|\b(?:ow|ouch|poisoned)\b/;
/** What got wet with it, or was cut: a part of somebody. */
export const ON_A_PART = new RegExp(
  `\\b(?:splash\\w*|spill\\w*|spilt|soak\\w*|spray\\w*|squirt\\w*|cut|burnt|burned|scalded|pricked|scratched|sliced|grazed) (?:my|his|her|their) (?:\\w+ )?(?:${SKIN}|eyes?|face|mouth)\\b`,
);
/** Toast and film are burnt and cut as well. */
export const OF_A_THING_CUT = new RegExp(
  `^(?!.*\\b(?:${BODY}|throat|me|\\w+self)\\b).*\\b(?:burned|burnt|scalded|cut|sliced|scratched)\\b`,
);
/** No thing that could meet another. */
export const PART_OF_SOMEBODY = new RegExp(`\\b(?:${SKIN}|eyes?|face|mouth|lips?|gloves?|apron)\\b`);

/** Calls the assistant, at the beginning of a sentence. */
export const CALLS = ['tank side', 'hey tank side', 'okay tank side'].map((call) => call.split(' '));

/** A line that is for the terminal: it leaves, or draws a picture. */
export const LEAVES = /^(exit|quit|bye|good ?bye)[.!]?$/i;
export const DRAWS = /^(?:show|draw)(?: me)?(?: the| this| my)? (run|timeline|bottles)$/;

/** A bath is read within these, °C. */
export const [LEAST_C, MOST_C] = [5, 70];
