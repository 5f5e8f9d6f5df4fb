import type { Exposure } from '../../../chemistry/index.js';
import { ONES, TENS } from './numbers.js';

const set = (words: string): ReadonlySet<string> => new Set(words.split(' '));

/** Numbers that stand for each other where words are learnt: those below ten, those below twenty, the tens. */
export const ALIKE = [ONES.slice(2, 10), ONES.slice(10), TENS.slice(2)];
export const ORDINALS = 'first second third fourth fifth sixth seventh eighth ninth tenth'.split(' ');

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
export const AFTER_A_BATH = set('is in into from back bath goes going out has went was into to now at');
/** Behind these both are verbs whatever follows. */
export const BEFORE_A_VERB = set('not it one they');
/** Words of every kind before they are names. */
export const NO_NAMES = new Set([...set('stop fix wash water rinse salt'), 'the water']);

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
/** How somebody is hurt, by the words for it: what is told of an eye, a face or a mouth goes before the skin. */
const HURT: readonly (readonly [RegExp, Exposure])[] = [
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
  [new RegExp(`\\b(?:${SKIN}|gloves?|cut|burnt|scald\\w*|rash|blister\\w*|eczema|touched)\\b`), 'skin'],
];
export const howHurt = (line: string): Exposure | undefined => HURT.find(([of]) => of.test(line))?.[1];
/** What was said to hurt, wherever that is: nobody is hurt where no word says whom, or what he feels. */
export const SOMEBODY_HURT =
  /\b(?:i|i'm|i've|me|my|he|he's|she|she's|his|her|him|they|somebody|someone|mummy|little one|sons?|daughters?|kids?|child|children|baby|wife|husband|dogs?|cats?)\b|\b(?:it|that|this)\b.*\b(?:burn(?:s|ing)|sting\w*|itch\w*|hurt\w*|smart\w*|prickl\w*|tingl\w*|sore|pain\w*)\b|\b(?:ow|ouch|poisoned)\b/;
/** What got wet with it, or was cut: a part of somebody. */
export const ON_A_PART = new RegExp(
  `\\b(?:splash\\w*|spill\\w*|spilt|soak\\w*|spray\\w*|squirt\\w*|cut|burnt|burned|scalded|pricked|scratched|sliced|grazed) (?:my|his|her|their) (?:\\w+ )?(?:${SKIN}|eyes?|face|mouth)\\b`,
);
/** Toast and film are burnt and cut as well. */
export const OF_A_THING_CUT = new RegExp(
  `^(?!.*\\b(?:${SKIN}|eyes?|face|mouth|lips?|tongue|throat|me|\\w+self)\\b).*\\b(?:burned|burnt|scalded|cut|sliced|scratched)\\b`,
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
