import { type Day, goAhead, heldBack } from './play.js';
import {
  bath,
  begun,
  cleared,
  developed,
  developedBlackAndWhite,
  inDeveloper,
  toBleach,
  toDeveloper,
  toFixer,
  water,
} from './usual.js';

/** What happened is told afterwards, at length and by whoever saw it: it counts as if it had been said at the sink. */
export const recounted: Day[] = [
  {
    name: 'what was read turns out to be of the tub, and the developer was never measured',
    lines: [
      ...begun.slice(0, 2),
      'the film is loaded',
      ['oh wait, that 41.1 was the tub, never had the thermometer in the dev', /tub 41\.1/i],
      ...cleared,
      ['pouring the developer from bottle 2', /only the tub was read/i],
    ],
  },
  {
    name: 'how warm a bath was earlier is no reading of now',
    lines: [
      ...begun,
      '+50m',
      ...cleared,
      ['the dev was 41.1 earlier so, pouring the developer from bottle 2', /last measured 5\d minutes/i],
    ],
  },
  {
    name: 'a bottle that was knocked over with another bath in the tank is lost, and the bath is not',
    lines: [
      ...toBleach,
      'pouring the bleach from bottle 4',
      'bleach in',
      '+60s',
      [
        "elbowed bottle 5, lid was off, the whole lot's gone over the floor",
        /millilitres of fixer on the floor/i,
        /fogged|tank empty/i,
      ],
      ['how long is left', /left/i, /no clock/i],
      ['what is in bottle 5', /empty|nothing/i],
    ],
  },
  {
    name: 'who still holds the jug has not poured, and the bath is not in',
    lines: [
      ...inDeveloper,
      '+5s',
      ["no scratch that, haven't poured it, still holding the jug", /undone/i],
      '+60s',
      ['developer is in', /developer is in: 3 minutes/i],
    ],
  },
  {
    name: 'a developer that stood open is asked about before it is poured, and a fixer that did is not',
    lines: [
      ['the lid was off bottle 5 all night', 'whatever', /oxidised may/i],
      ['I left the lid off bottle 2 all night', /air/i],
      ...toDeveloper,
      ['pouring the developer in from bottle 2', [heldBack, /stood open/], goAhead],
    ],
  },
  {
    name: 'a choice of what is wrong with a developer that nobody made counts against it',
    lines: [
      ...begun,
      ["erm. left the lid off bottle 2 all night and it's gone a sort of pinky brown", 'whatever', goAhead],
      ['can I still use it do you think', /no, not as it is/i],
      ...cleared,
      ['pouring the developer in from bottle 2', heldBack, goAhead],
    ],
  },
  {
    name: 'baths that came and went are told in one line, and each counts from when it was',
    lines: [
      ...toDeveloper,
      '+240s',
      [
        "the developer went in four minutes ago, it was in three minutes, then out, and now the stop's in",
        /stop bath is in/i,
      ],
      ['what has the film had', [/developer 3 minutes/i, /stop bath/i]],
    ],
  },
  {
    name: 'a bath that is told when it is over had its time',
    lines: [
      ...developed,
      '+40s',
      [
        "should have said, stop went in from three straight after, had its half minute, and it's back in three now, tank's empty",
        /tank empty\. next: wash/i,
      ],
      ['did the film get its stop bath', /yes, it had 30 seconds/i],
      ['what is in bottle 3', /stop bath/i],
    ],
  },
  {
    name: 'a wash that has been in for so long is that wash, and not another one',
    lines: [
      ...developed,
      ...bath('stop bath', 3, '+28s'),
      ['water is in', /water is in/i],
      '+90s',
      [
        'got talking to next door, waters been in a good minute, dumping it now, tanks empty',
        'whatever',
        /too short/i,
      ],
      ['pouring the bleach in from bottle 4', goAhead],
    ],
  },
  {
    name: 'when a bath went in is put right, whatever it was called before',
    lines: [
      ...developed,
      '+5s',
      'water is in',
      ['no, that was bottle three', /stop bath/i],
      '+60s',
      ['it went in forty seconds ago actually', /put right/i],
      ['what has the film had', /stop bath 4[01] seconds/i],
    ],
  },
  {
    name: 'a film whose box turns out to say black and white is held from the bleach',
    lines: [
      ...toBleach,
      ['checked the box and it says black and white film', /silver is the picture/i],
      ['pouring the bleach in from bottle 4', [heldBack, /silver/i]],
    ],
  },
  {
    name: 'what is at a small number is that cold, and in no bottle',
    lines: [
      ...begun,
      ['developer is at 12.0', /12\b.*(?:hardly|right)|developer 12\b/i],
      'confirm',
      ['what temperature is the developer', /developer 12\b/i],
    ],
  },
  {
    name: 'the digits of a reading were turned',
    lines: [
      ...begun,
      'developer is 14.1',
      ['no, wrong way round, 41.1', /41\.1 degrees/],
      ['what temperature is the developer', /developer 41\.1/i],
    ],
  },
  {
    name: 'how much ran into a bottle comes last, and what is wrong with it is told',
    lines: [
      ['some stop ran into bottle 2, about 30 ml', /30 millilitres of stop bath in the developer/i],
      ['what is wrong with bottle 2', /30 millilitres of stop bath went into it/i],
    ],
  },
  {
    name: 'who dozed off hears where the bath stands',
    lines: [
      ...inDeveloper,
      '+150s',
      ['oh man I dozed off and the developer is still in', /developer is in|drain|left|over/i],
    ],
  },
  {
    name: 'how much was spilled comes a sentence later, and was more',
    lines: [
      'bottle 5 holds 1 litre of fixer',
      ['I knocked the fixer over putting it away. Lost maybe eighty mil', /80 millilitres of fixer/i],
      ['it was more like a hundred, I have mopped it up now', [/100 millilitres/, /spill closed/i]],
      ['what is in bottle 5', /900 millilitres/],
    ],
  },
  {
    name: 'what stands in a bottle that fell is no spill of so much',
    lines: [
      'bottle 5 holds 1 litre of fixer',
      ['I knocked the fixer over. There are still 700 ml left', null, /spill noted: 700/i],
    ],
  },
  {
    name: 'bottles by number or in order, and amounts by halves and dozens',
    lines: [
      ["number two's had a dozen rolls", /12 films/],
      ['there is only half a litre in the bleach bottle', /500 millilitres of bleach/],
      ['make it one comma five of developer', /1\.5 litres/],
    ],
  },
  {
    name: 'the third of the bottles, and time that was to be twenty',
    lines: [
      ...inDeveloper,
      'add 10 seconds',
      ['no, make it twenty, not ten', /added 20 seconds/i, /bottle/],
      ['another quarter minute', /added 15 seconds/i],
      ['+240s', /drain the developer/i],
      ['back into the second bottle', /developer to bottle 2/],
      ['second one', /developer to bottle 2/],
    ],
  },
  {
    name: 'a number said twice, of warm water by itself, and of what was only asked',
    lines: [
      'start a run',
      'next',
      ['forty-one point one. One!', /question: which is at 41\.1/i],
      ['all of them', [/developer 41\.1/i, /bleach 41\.1/i]],
      ['what temperature is the developer', /41\.1/],
    ],
  },
  {
    name: 'digits without their point, beside what is due',
    lines: ['mix 1 litre of developer', 'next', 'next', ['two oh one', /2\.0 millilitres .*right/]],
  },
  {
    name: 'the batch that was begun is to be smaller',
    lines: [
      'mix 1 litre of fixer',
      ['make it only half a litre', [/put right/i, /500 millilitres of ECN-2 fixer/]],
      ['remind me tomorrow to make up new prebath', /in how long/i, /prebath, \d+ parts/],
    ],
  },
  {
    name: 'an amount that was only asked is no reading',
    lines: [
      'mix 1 litre of prebath',
      'next',
      ["a hundred grams?? That's like the whole bag", null, /is right|stir it in/i],
    ],
  },
  {
    name: 'where it went comes after it, in another word for that',
    lines: [
      'start a run',
      ['I spilled some bleach', /how much/i],
      ["it's on the rug", /how much/i],
      ['20 ml', /20 millilitres of bleach on the carpet/i],
    ],
  },
  {
    name: 'a number that was read before something changed is none of now',
    lines: [
      'mix 1 litre of bleach',
      'next',
      ['thirty nine, sorry, forty, it was thirty nine with the boat off', /\b40\b/, /39/],
    ],
  },
  {
    name: 'somebody else poured the developer, and it is told with its time',
    lines: [
      ...toDeveloper,
      '+95s',
      ['my brother already tipped the developer in, a minute ago', /developer is in/i],
      ['how long left', /1 minute/],
      ['+110s', /drain the developer/i],
    ],
  },
  {
    name: 'a thermometer that lied, before the bath went in',
    lines: [
      ...toDeveloper,
      ['the thermometer was broken, the developer is actually 36.8', /36\.8/],
      ['pouring the developer from bottle 2', [/warning/, /cold/], goAhead],
    ],
  },
  {
    name: 'read again with the right thermometer: the first reading is forgotten',
    lines: [
      'start a run',
      'developer is at 35.2',
      ['sorry, wrong thermometer, the developer is 41.2', /41\.2/],
      'the film is loaded',
      ...cleared,
      ['pouring the developer from bottle 2', goAhead, /35\.2|cold/],
    ],
  },
  {
    name: 'a bath that went into another bottle than was said',
    lines: [
      ...developed,
      ['I just noticed that the developer went into bottle 4, not bottle 2', [/warning/, /bleach/]],
      ["what's in bottle 4", [/developer/, /do not use/i]],
      ["what's in bottle 2", /100 millilitres/],
    ],
  },
  {
    name: 'into an empty bottle instead, and the run goes on',
    lines: [
      ...developed,
      ['I returned the developer to bottle 9 instead of bottle 2', /stop bath/],
      ["what's in bottle 9", [/developer/, /500/]],
    ],
  },
  {
    name: 'two halves into two bottles in one breath',
    lines: [
      ...inDeveloper,
      '+170s',
      ['half of the developer went back into bottle 2 and the rest is in bottle 9', /stop bath/],
      ["what's in bottle 9", [/developer/, /250/]],
      ["what's in bottle 2", /350/],
    ],
  },
  {
    name: 'two facts of one bottle in one breath',
    lines: [
      'bottle 5 holds 900 ml of fixer',
      ['bottle 5 is at 34 and I spilled 150 ml of it', /34/],
      ["what's in bottle 5", /750/],
    ],
  },
  {
    name: 'two bottles stand otherwise today',
    lines: [
      'start a run',
      ['today my bleach is in bottle 6 and the final rinse is in bottle 4', [/bottle 6/i, /bottle 4/i]],
      ["what's in bottle 6", /bleach/],
      ["what's in bottle 4", /final rinse/],
    ],
  },
  {
    name: 'films that nobody told of at the time',
    lines: [
      ['we ran four rolls through bottle 5 last month and forgot to tell you', /4 films/],
      ["what's in bottle 5", /4 films/],
    ],
  },
  {
    name: 'a lid that is not tight: what is left, and where it is missing',
    lines: [
      ...inDeveloper,
      '+50s',
      ['the lid is leaking, some 120 ml of developer ran out', [/380/, /cover/]],
      '+120s',
      'developer back into bottle 2',
      'tank empty',
      ["what's in bottle 2", /480/],
    ],
  },
  {
    name: 'baths that the film had before the first word',
    lines: [
      ...begun,
      ['the prebath and the rinse are done already', /prebath/, /\?/],
      ["what's next", /developer/i],
      ['pouring the developer from bottle 2', goAhead, heldBack],
    ],
  },
  {
    name: 'water that stops, on purpose',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      ['I stop with plain water instead of the stop bath', /water/],
      ...water('+32s'),
      ['pouring the fixer from bottle 3', goAhead, heldBack],
    ],
  },
  {
    name: 'water by mistake for too short stops nothing',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      ['no stop bath, I use water instead', /water/],
      ...water('+8s'),
      ['pouring the fixer from bottle 3', heldBack, goAhead],
    ],
  },
  {
    name: 'the wrong tank: the film has had nothing of it',
    lines: [
      ...inDeveloper,
      '+40s',
      ['the developer went into the wrong tank, the film is not in it', [/nothing/, /bottle 2/]],
      ['+160s', null, /drain/i],
      'developer back into bottle 2',
      ['pouring the developer from bottle 2', goAhead, /warning|already/i],
    ],
  },
];

/** Answers that hang on where the film stands, or on what was said just before. */
export const dependsOnNow: Day[] = [
  {
    name: 'light on a film in the developer, and on one that is bleached',
    lines: [
      ...inDeveloper,
      '+30s',
      ['I turned the light on by mistake and the lid was off', /fogged/i, /no harm/i],
      ['what has the film had so far', /light/i],
    ],
  },
  {
    name: 'a look at a bleached film',
    lines: [
      ...toFixer,
      ['I took the lid off to look', /no harm/i, /warning|fogged/i],
      ["what's next", /fixer/i],
    ],
  },
  {
    name: 'a slide film in a process for negatives',
    lines: [...begun, ["it's a slide film", [/negative/, /slide film/]]],
  },
  {
    name: 'film of another process, by its name',
    lines: [...begun, ["oh, that's c-41 film", [/c41/, /colours/], /41 films|41 35/]],
  },
  {
    name: 'a mix begun while the developer works',
    lines: [
      ...inDeveloper,
      '+15s',
      'mix one litre of fixer',
      ['next', /water/, /left/],
      ['how long left', /minute/],
      ['+150s', /drain the developer/i],
    ],
  },
  {
    name: 'half of it',
    lines: [...toDeveloper, 'pouring the developer from bottle 2', ['only half is in', [/250/, /rest/]]],
  },
  {
    name: 'half of it, said after it was said to be in',
    lines: [...inDeveloper, ['only half of it went in', [/250/, /rest/]]],
  },
  {
    name: 'may it still be used',
    lines: [
      ['the developer turned dark brown', /oxidised/],
      ['can I still use it', [/no/i, /oxidised/], /did you mean/i],
      ['is the fixer still good', /fixer/],
    ],
  },
  {
    name: 'another powder went into the mix',
    lines: [
      'mix one litre of developer',
      ...['next', 'next', '2 ml', 'next', '2 g', 'next'],
      ['I used baking soda instead of the sulphite', [/bicarbonate/, /cannot be used/]],
    ],
  },
  {
    name: 'a jar that holds a little less than is wanted',
    lines: [
      'mix one litre of developer',
      ...['next', 'next', '2 ml', 'dissolved'],
      ['1.93 g', /more/],
      ['dissolved', [/short/, /anti-fog/i], /weigh .* more/i],
      ['what is in so far', [/mixing/i, /sulphite/]],
    ],
  },
  {
    name: 'the other one',
    lines: [
      ...toBleach,
      ['pouring the bleach from bottle 5', heldBack],
      ['the other one', /bleach/, /clear/i],
    ],
  },
  {
    name: 'not yet empty, when that is asked',
    lines: [
      ...inDeveloper,
      '+170s',
      'developer back into bottle 2',
      '+12s',
      ['not yet', /empty/i, /called off|undone/i],
      ['tank empty', /stop bath/i, /jug/],
    ],
  },
];
