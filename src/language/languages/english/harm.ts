import type { Exposure, Person } from '../../../chemistry/safety/first-aid.js';
import { asIntent, type Intent, type IntentOf } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import { clausesOf } from './clauses.js';
import {
  ALL_CLEAR,
  ALL_OUT,
  ASKS_BACK_IN,
  BODY,
  CHILDREN_AT_IT,
  ELECTRIC,
  EVERYBODY_OUT,
  FALSE_ALARM,
  FIRE,
  HAND_IN,
  HURTS_STILL,
  howsHurt,
  IS_BACK,
  IS_OUTSIDE,
  IS_SAFE,
  LENS_STUCK,
  MISSED_NARROWLY,
  NO_CURRENT,
  NOBODY_HURT,
  OF_CONTACT_LENS,
  OF_THE_WAY_BACK,
  OF_THE_WORK,
  ON_SOMEBODY,
  ONTO,
  PLAYED_DOWN,
  REACHES_IN,
  RINSED,
  SMELL_GONE,
  SOMEBODY,
  STILL_HURTS,
  UNHURT,
  WATER_ON_FIRE,
  WHO_TO_CALL,
  WRONG_GLASS,
} from './lists.js';
import { aboutMatter, matterIn } from './matter.js';
import { normaliseTyped } from './typed.js';

/** What a line tells of fire, of a current and of people who are hurt, and what else stands beside it, in its own words. */
export interface Harm {
  intent: Intent;
  beside: string;
}

/**
 * A fire, a current, who lies there, and every place of a body that a line names: that comes first, whatever else is told in
 * the same breath ("water in, ouch it splashed in my eye", "60 ml went on the floor and some on my foot"). Undefined:
 * nothing of it, or one place and nothing else, which other readers take with what it was and how much. What is due tells
 * whether everybody was sent out.
 */
export function harmTold(line: string, grammars: Grammars, due: readonly Intent[]): Harm | undefined {
  const plain = normaliseTyped(line);
  const isOut = due.some((d) => d.type === 'room');
  const isHurt = due.some((d) => d.type === 'hurt');
  const whom = (isHurt || isOut || howsHurt(plain).length > 0) && WHO_TO_CALL.test(plain);
  if (whom) return hurtGoesOn('call');
  const drunk = WRONG_GLASS.test(plain) ? asIntent('hurt', { how: 'swallowed' }) : undefined;
  if (drunk) return { intent: drunk, beside: '' };
  if ((isHurt || CONTACT.test(plain)) && LENS_STUCK.test(plain)) return hurtGoesOn('lens');
  if (NOBODY_HURT.test(plain) || (isHurt && ALL_CLEAR.test(plain))) return hurtGoesOn(endOf(plain));
  if (isHurt && PLAYED_DOWN.test(plain)) return hurtGoesOn('unsure');
  if (isHurt && NOT_WELL.test(plain)) return hurtGoesOn('still');
  if (isHurt && !OVER.test(plain) && RINSED.test(plain)) return hurtGoesOn('rinsing');
  if (
    HURTS_STILL.test(plain) ||
    (isHurt && STILL_HURTS.test(plain) && !OVER.test(plain) && !ANEW.test(plain))
  )
    return hurtGoesOn('still');
  if (isOut && OF_THE_WAY_BACK.test(plain)) return ofTheRoom('back');
  const topic = alarm(plain);
  const danger = topic === undefined ? undefined : asIntent('ask-advice', { topic });
  const back = ASKS_BACK_IN.test(plain) ? asIntent('room', { is: 'asks' }) : undefined;
  if (back) return { intent: danger ?? back, beside: '' };
  if (SUPPOSES.test(plain)) return danger && { intent: danger, beside: '' };
  const lens = OF_CONTACT_LENS.test(plain) ? asIntent('hurt', { how: 'eye' }) : undefined;
  if (lens) return { intent: lens, beside: '' };
  const hows = new Set<Exposure>();
  const beside: string[] = [];
  const liquids = new Set<unknown>();
  let [open, sure, stings, unhurt, elseHurt] = [false, false, false, false, false];
  let denied: readonly Exposure[] = [];
  for (const said of clausesOf(line).flatMap(apart)) {
    const clause = normaliseTyped(said).replace(CRIES, '').replace(KNOCKED_WITH, '');
    if (UNHURT.test(normaliseTyped(said))) {
      [unhurt, open] = [true, true];
      denied = howsHurt(normaliseTyped(said));
      continue;
    }
    if (MISSED_NARROWLY.test(clause) && !BUT_SOME.test(plain)) {
      [unhurt, open] = [true, true];
      continue;
    }
    if (FALSE_ALARM.test(clause)) continue;
    // "I did not drink it, my son did"
    if (unhurt && SOMEBODY_ELSE_DID.test(clause)) {
      elseHurt = true;
      for (const how of denied) hows.add(how);
    }
    const hurts = hurtIn(clause, open, grammars);
    for (const how of hurts.hows) hows.add(how);
    sure ||= hurts.sure;
    if (STINGS.test(clause)) stings = true;
    else if (hurts.hows.length === 0) beside.push(said);
    if (hurts.hows.length > 0 || WHAT_IT_IS.test(clause))
      for (const of of liquidsIn(clause, grammars)) liquids.add(of);
    open = howsHurt(clause).length > 0 || SPILLED.test(clause);
  }
  const [how, ...also] = hows;
  const [liquid] = liquids.size === 1 ? liquids : [];
  // people first
  if (danger && !hows.has('alight') && !hows.has('shocked'))
    return { intent: danger, beside: withoutAlarm(beside) };
  if (how === undefined) {
    const over =
      OVER.test(plain) && !OF_THE_WORK.test(plain) ? asIntent('hurt', { about: endOf(plain) }) : undefined;
    const still =
      stings && (liquid !== undefined || unhurt)
        ? asIntent('hurt', liquid === undefined ? {} : { liquid })
        : undefined;
    const intent = over ?? still ?? (elseHurt ? asIntent('hurt', {}) : undefined);
    const atIt = CHILDREN_AT_IT.test(plain) ? asIntent('ask-advice', { topic: 'children' }) : undefined;
    if (atIt) return { intent: atIt, beside: withoutChildren(beside) };
    if (intent) return { intent, beside: '' };
    const [first, ...others] = denied;
    if (isHurt && first !== undefined) {
      const gone = asIntent('hurt', {
        about: 'over',
        how: first,
        ...(others.length > 0 && { also: others }),
      });
      if (gone) return { intent: gone, beside: beside.join(', ') };
    }
    const good = unhurt ? asIntent('ask-advice', { topic: 'nobody-hurt' }) : undefined;
    return good ? { intent: good, beside: beside.join(', ') } : roomTold(line, isOut);
  }
  if (!unhurt && also.length === 0 && beside.length === 0 && !sure) return undefined;
  const intent = asIntent('hurt', {
    how,
    ...(also.length > 0 && { also }),
    ...(liquid !== undefined && { liquid }),
  });
  return intent && { intent, beside: beside.join(', ') };
}

/** Whether everybody is out of the room, or back in it; other clauses tell of something else, which being back alone only leads up to. */
function roomTold(line: string, isOut: boolean): Harm | undefined {
  const whole = normaliseTyped(line);
  const clauses = clausesOf(line).map((said) => ({ said, plain: normaliseTyped(said) }));
  const rest = isOfRoom(whole) ? [] : clauses.filter(({ plain }) => !isOfRoom(plain));
  const beside = rest.map(({ said }) => said).join(', ');
  const is = (of: RegExp): boolean => of.test(whole) || clauses.some(({ plain }) => of.test(plain));
  if (is(EVERYBODY_OUT)) return ofTheRoom('out', beside);
  if (is(IS_SAFE)) return ofTheRoom('safe', beside);
  if (is(IS_OUTSIDE)) return ofTheRoom('left', beside);
  if (isOut && ALL_OUT.test(whole)) return ofTheRoom('left');
  const back = is(SMELL_GONE) || (rest.length === 0 && is(IS_BACK));
  return back ? ofTheRoom('back', beside) : undefined;
}
const ROOM = [EVERYBODY_OUT, IS_SAFE, IS_OUTSIDE, SMELL_GONE, IS_BACK];
const isOfRoom = (plain: string): boolean => ROOM.some((of) => of.test(plain));
function ofTheRoom(is: IntentOf<'room'>['is'], beside = ''): Harm | undefined {
  const intent = asIntent('room', { is });
  return intent && { intent, beside };
}

/** It is better, or told anew. */
const ANEW =
  /^(?:(?:it|that|this) )?(?:burns|burning|hurts|hurting|stings|stinging|itches|itching)$|^(?:(?:ok|okay|it|it's|is|that|much|feels|all|now|a|bit|lot|getting|already) )*better\b/;
function hurtGoesOn(about: IntentOf<'hurt'>['about']): Harm | undefined {
  const intent = asIntent('hurt', { about, ...(about === 'lens' && { how: 'eye' }) });
  return intent && { intent, beside: '' };
}

const SOMEBODY_ELSE_DID =
  /^(?:but )?(?:(?:my|our|his|her) \w+|the (?:dog|cat|puppy|kitten|kids?|child|children|baby|boy|girl|lad|little one)|(?!it\b|the\b|a\b|that\b|this\b|what\b|there\b|so\b|as\b)\w+) (?:\w+ )?(?:did|do|does|has|have|was|were|is)(?: (?:it|too|though|instead))?$/;
/** What is denied is apart from what is told behind it: "nobody came and it is in my eye". */
const apart = (clause: string): readonly string[] =>
  DENIES.test(clause) ? clause.split(/ (?:and|but) (?=(?:it|i|he|she|they|the|my|some)\b)/i) : [clause];

/** A near miss, and not for all of it. */
const BUT_SOME = /\b(?:only|except|apart from|but)\b.*\b(?:one|left|right|bit|drops?|little|some)\b/;
const NOT_WELL =
  /\b(?:not|isn't|aren't|nobody is|nobody's) (?:\w+ )?(?:fine|ok|okay|all right|alright|well|better|over|good)\b/;
/** Who is well, and not better, says nothing of somebody else who may be hurt: that ends nothing. */
const endOf = (plain: string): 'over' | 'unsure' =>
  /\b(?:i|i'm)\b/.test(plain) && !/\bbetter\b/.test(plain) ? 'unsure' : 'over';
/** Of whom a line tells that is hurt or well: whoever speaks, or somebody else; of both, of all or in doubt it tells of neither. */
export function whoIsHurt(line: string, told: IntentOf<'hurt' | 'spill'>): Person | undefined {
  if (told.type === 'spill' && !ON_SOMEBODY.has(told.place ?? '')) return undefined;
  const plain = normaliseTyped(line);
  if ([PLAYED_DOWN, NOT_WELL, OF_ALL].some((all) => all.test(plain))) return undefined;
  const [mine, others] = [OF_THE_SPEAKER.test(plain), OF_ANOTHER.test(plain)];
  return mine === others ? undefined : mine ? 'speaker' : 'another';
}
const OF_ALL =
  /\b(?:never mind|nobody|no one|noone|none of|neither of|everybody|everyone|all|we|we're|both)\b/;
const OF_THE_SPEAKER = new RegExp(`\\b(?:i|i'(?:m|ve|d|ll)|me|myself|my (?:\\w+ )?(?:${BODY}))\\b`);
const OF_ANOTHER = new RegExp(`\\b(?:${SOMEBODY}|he's|she's|his|her|him|their|them)\\b`);
/** Whether what was taken for a relief may be told of something else, of one alone, or denied: then nothing is over. */
export const mayBeRelief = (plain: string): boolean =>
  endOf(plain) === 'over' && !OF_THE_WORK.test(plain) && !NOT_WELL.test(plain);

const CONTACT = /\bcontacts?\b/;

const withoutChildren = (clauses: readonly string[]): string => {
  const rest = clauses.filter((said) => !CHILDREN_AT_IT.test(normaliseTyped(said))).join(', ');
  return CHILDREN_AT_IT.test(normaliseTyped(rest)) ? '' : rest;
};

/** What else was told; of an alarm that its clauses give only together, nothing. */
function withoutAlarm(clauses: readonly string[]): string {
  const rest = clauses.filter((said) => alarm(normaliseTyped(said)) === undefined).join(', ');
  return alarm(normaliseTyped(rest)) === undefined ? rest : '';
}

/** What everybody gets away from, by the advice for it. */
const alarm = (plain: string): string | undefined =>
  WATER_ON_FIRE.test(plain)
    ? 'water-on-fire'
    : FIRE.test(plain)
      ? 'fire'
      : REACHES_IN.test(plain)
        ? 'reach-in'
        : ELECTRIC.test(plain) && !NO_CURRENT.test(plain)
          ? 'electric'
          : undefined;

/** The elbow that knocked a bottle over is not hurt. */
const KNOCKED_WITH =
  /(?<=\b(?:knocked|nudged|caught|bumped|kicked|tipped|pushed|swept)\b.*) with (?:my|his|her|an|a|the) (?:elbow|arm|forearm|hand|sleeve|foot|knee|hip|shoulder|fingers?)\b/;

/** How a clause says that somebody is hurt; `open`: the one before told of something spilled or of somebody hurt; `sure`: no other reader has as much of it. */
function hurtIn(clause: string, open: boolean, grammars: Grammars): { hows: Exposure[]; sure: boolean } {
  const hows = howsHurt(clause);
  const [how] = hows;
  if (how === 'collapsed' || how === 'breathless') return { hows, sure: true };
  if (how === undefined || DENIES.test(clause)) return { hows: [], sure: false };
  if (AT_ONCE.has(how) || ILL.test(clause) || IN_AN_EYE.test(clause)) return { hows, sure: true };
  if (open && MORE_OF_IT.test(clause)) return { hows, sure: false };
  const meant = aboutMatter(clause, grammars);
  const intent = meant?.kind === 'understood' ? meant.intent : undefined;
  const hurt = intent?.type === 'hurt' || (intent?.type === 'spill' && ON_SOMEBODY.has(intent.place ?? ''));
  if (hurt) return { hows, sure: ALONE.has(how) || HAND_IN.test(clause) };
  const wet = OF_HIS_BODY.test(clause) && (WETS.test(clause) || liquidsIn(clause, grammars).length > 0);
  return wet && !HOLDS.test(clause) ? { hows, sure: true } : { hows: [], sure: false };
}

const IN_AN_EYE =
  /\b(?:it|this|that|stuff|something|some)(?:'s| is| has got| got)? in (?:my|his|her|their) eyes?\b/;
/** Nothing else could be meant: a wound of one's own, a rash, a beast that lies there or went through it. */
const ILL = new RegExp(
  `\\b(?:got|had|took|get|caught) (?:a |an )?(?:\\w+ )?(?:faceful|eyeful|lungful|noseful) of\\b|\\bsplash\\w* got me\\b|\\bgot me in the (?:eye|face|mouth)\\b|\\b(?:cut|burnt|burned|stabbed|pricked) (?:my|him|her|your)sel(?:f|ves)\\b|\\b(?:i|i've|he|he's|she|she's|we|my ${BODY})\\b.*\\b(?:rash|hives|eczema|blisters?)\\b|\\b(?:my|his|her) (?:\\w+ )?(?:${BODY})(?: is| are|'s|'re)(?: \\w+){0,2} (?:soaked|drenched|dripping|covered|full|wet) (?:in|with|of|from) (?!water|sweat|tears|soap|bags?)|\\b(?:in|into|on) (?:a|my|the|his|her) (?:\\w+ )?(?:cut|wound|graze|scratch)$|\\b(?:cat|dog|kitten|puppy|pet|rabbit|hamster|bird|parrot|budgie)(?:'s)?\\b.* (?:(?:stepped|trod|trodden|been|wading|waded) (?:at|in|into|on|through)|drink\\w+|drank|lick\\w*|lapp\\w*|at(?:e|en) (?!(?:his|her|its|my|a|an|some)\\b)|chew\\w*|(?:got |is |all )(?:wet|soaked|covered)|(?:gone|going|acting) (?:funny|quiet|limp|strange|weird)|lying on (?:its|his|her) (?:back|side)|not moving|twitching|paws? .*(?:wet|bleach|developer|fixer|stop|acid)|convulsing|vomiting|throwing up|foaming|wobbl\\w+|stagger\\w+|(?:walked|ran|stepped|rolled|jumped) (?:through|in|into) (?:(?:the|my|some|that) )?(?:it|puddle|spill|chemicals?|bath|tray|powder|mess|developer|bleach|fixer|fix|stop|prebath|acid))\\b`,
);

/** The baths and chemicals that are named, but water. */
const liquidsIn = (clause: string, grammars: Grammars): unknown[] =>
  [...matterIn(clause, grammars).slots.entries()]
    .filter(([token, { fields }]) => token.startsWith('_matter') && fields.liquid !== 'water')
    .map(([, { fields }]) => fields.liquid);

const AT_ONCE: ReadonlySet<Exposure> = new Set(['alight', 'shocked', 'burnt']);
/** Told by one clause alone, no other reader has as much of them. */
const ALONE: ReadonlySet<Exposure> = new Set(['wound', 'animal']);
const CRIES = /^(?:(?:ouch|ow|oh|no|god|help|shit|damn|hell|oops|aah*|argh|quick|quickly|and|also|now) )+/;
const SUPPOSES =
  /^(?:if|what if|what happens|when|can|could|would|may|should|is|are|does|do|will)\b|\bif\b|\bin case\b/;
const DENIES =
  /\b(?:almost|nearly|nobody|no one|never|no longer burn\w*)\b|\b(?:not|\w+n't|nothing|none)\b(?! (?:breath|respond|wak|see\b|stop|open|let go))|\blicked clean\b|\bup to my\b|\bha ha\b|\b(?:joking|kidding)\b/;
const SPILLED = /\b(?:spill\w*|spilt|splash\w*|went|got|dripped|ran|leaked|tipped|sprayed|flew)\b/;
/** A further place of what was told before it: "some on my foot", "my leg", "his eyes too". */
const MORE_OF_IT = new RegExp(
  `^(?:(?:some|a bit|a little|a few drops|drops|the rest|it(?:'s)?|more|most|splashes)(?: of it)? )?(?:(?:went|got|ran|is|landed|splashed) )?(?:(?:all )?(?:in|into|on|onto|over|down) )?(?:(?:my|his|her|their|the|both|left|right|bare|one|whole) )*(?:${BODY})(?: (?:too|also|as well|now))*$`,
);
const OF_HIS_BODY = new RegExp(
  `\\b${ONTO} (?:my|his|her|their)(?: \\w+)? (?:${BODY}|nose|nostrils|throat|back|collar|chest|ring|watch|glasses|goggles|(?<=(?:into|inside|through) .*)gloves?)\\b`,
);
const WETS =
  /\b(?:running|runs|ran|dripping|drips|dripped|trickl\w*|splash\w*|spill\w*|spilt|soak\w*|squirt\w*|spray\w*|leak\w*|pour\w*|shot|blew|blown|flew|gush\w*|seep\w*|slosh\w*|tipped|all over|got|went)\b/;
/** What lies or is held there, and what is only water. */
const HOLDS =
  /\b(?:film|reel|spiral|tank|lid|bottle|jug|thermometer|timer|phone|towel|water|smell\w*|whiff|soot|black|ink|cup|cat|tears?|sweat|in (?:my|his|her) (?:left |right )?hands?)\b/;
const STINGS =
  /^(?:(?:it|that|this|and|really|still|just|god|now|it's) )*(?:stings?|stinging|burns|burning|hurts|hurting|itch(?:es|ing)|smarts|tingl\w+)(?: (?:a lot|a bit|badly|like \w+|so much|really|still|quite|now|too|much|loads))*$/;
const WHAT_IT_IS = /^(?:it|that|this)(?: is| was|'s) /;
/** Nobody is hurt any more. */
const OVER =
  /^(?:(?:ok|okay|right|so|and|but|phew|good|thanks|yes|yeah|no|don't worry|actually) )*(?:(?:i|i'm|he|he's|she|she's|we|we're|the \w+|my \w+|it|it's)(?: (?:am|is|are|feels?|feeling|looks?|seems?))*(?: (?:much|all|a lot|totally|quite|perfectly|completely|now))* (?:better|fine|okay|ok|all right|alright|recovered)(?: (?:now|again|thanks|though|really))+|i feel (?:much |a lot )?better|i'm (?:fine|okay|ok|all right|alright)|(?:it|that)(?:'s| has| is)? stopped (?:burning|stinging|hurting|itching|tingling)|(?:the )?(?:pain|stinging|burning|dizziness|rash|itch\w*|cough\w*)(?: is|'s| has)? (?:gone|over|stopped|passed|away|better)(?: (?:now|away))*|(?:it|my \w+|his \w+|her \w+) (?:doesn't|does not|don't|no longer) (?:hurts?|stings?|burns?|itch\w*)(?: (?:any ?more|now|at all))*|(?:he|she|everybody|everyone)(?: is|'s) (?:breathing|awake|conscious|ok|okay|fine)(?: (?:again|now|normally))*)$/;
