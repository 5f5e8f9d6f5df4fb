import { type Day, goAhead, heldBack } from './play.js';
import {
  bath,
  begun,
  developedBlackAndWhite,
  inDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFinalRinse,
  toFixer,
  water,
} from './usual.js';

const fromBottle6 = 'pouring the final rinse from bottle 6';

/** What was said of a bottle and left open, and what was said of vessels by the way. */
export const sink: Day[] = [
  ...[
    'fixer into bottle six',
    'oh I may have put fixer into bottle 6',
    'poured the fixer into bottle six I think',
  ].map((line) => ({
    name: `a question about a bottle that nobody answered holds it: ${line}`,
    lines: [
      ...toFixer,
      ...bath('fixer', 5, '+116s'),
      [line, /question: /] as const,
      ...water('+122s'),
      ['what is in bottle 6', /left open/i] as const,
      [fromBottle6, [heldBack, /bottle 6/i], goAhead] as const,
      ['yes', goAhead] as const,
      // it was asked about, and that is enough
      ['cancel', null] as const,
      [fromBottle6, goAhead, heldBack] as const,
    ],
  })),
  {
    name: 'words that tell what the bottle holds let go of it',
    lines: [
      ...toFinalRinse,
      ['fixer into bottle six', /question: /],
      'water in',
      '+30s',
      'tank empty',
      ['bottle 6 holds 600 ml of final rinse', /bottle 6 holds/i],
      [fromBottle6, goAhead, heldBack],
    ],
  },
  {
    name: 'a no lets go of it as well, and a late yes does not',
    lines: [
      ...toFinalRinse,
      ['bottle 6 holds fixer', /question: /],
      ['no', null],
      [fromBottle6, goAhead, heldBack],
      'cancel',
      ['bottle 6 holds fixer', /question: /],
      '+90s',
      ['yes', /nothing/i],
      [fromBottle6, heldBack, goAhead],
    ],
  },
  {
    name: 'two bottles that may have changed places, and no answer to it',
    lines: [
      ...toDeveloper,
      ['I mixed up bottles 2 and 3', /question: /],
      ['pouring the developer from bottle 2', heldBack, goAhead],
    ],
  },
  {
    name: 'water told in while the bleach works is asked about',
    lines: [
      ...toBleach,
      'pouring the bleach from bottle 4',
      'bleach in',
      '+100s',
      ["that's the water in now", [/question: /, /bleach/i]],
      ['no', null],
      ['how long left', /left/i],
      ['+30s', /agitate/i],
      ["water's in", /question: /],
      ['yes', [/bleach had 2 minutes 1\d seconds/i, /water is in/i]],
    ],
  },
  {
    name: 'water told in after the call to drain: where the bleach is taken to be is said',
    lines: [
      ...toBleach,
      'pouring the bleach from bottle 4',
      'bleach in',
      '+176s',
      ['water in', [/water is in/i, /bleach is in a jug/i], /question/],
    ],
  },
  ...[
    'topped the developer up with a bit of tap water',
    'added a splash of water to the developer to fill the bottle',
    'filled bottle two up to the neck with cold water',
    "the developer's been watered down a bit",
    "developer's topped up with tap water",
    'I watered the developer down',
  ].map((line) => ({
    name: `water in a bottle, and nobody measured it: ${line}`,
    lines: [
      ...toDeveloper,
      [line, [/warning: /, /water/i, /weaker/i]] as const,
      ['pouring the developer from bottle 2', [heldBack, /water/i], goAhead] as const,
    ],
  })),
  {
    name: 'water in a bottle, and so much of it',
    lines: [
      ...toDeveloper,
      ['topped bottle two up with about 100 ml of water', /100 millilitres of water/i],
      ['what is in bottle 2', [/700 millilitres/, /100 millilitres of water/]],
      ['pouring the developer from bottle 2', heldBack, goAhead],
    ],
  },
];

/** What is asked, told or put right by the way, on days that are closed early or where a word was taken for another. */
export const byTheWay: Day[] = [
  ...['it leaked a bit', 'the tank leaks', "the lid's leaking"].map((line) => ({
    name: `what leaked is lost, and not what is in: ${line}`,
    lines: [
      ...inDeveloper,
      '+20s',
      [line, [/over the sink/i, /how much/i]] as const,
      [
        'maybe 50 ml',
        [/spill noted: 50 millilitres of developer/i, /450 millilitres of 500/],
        /dry/i,
      ] as const,
      ['how much is in the tank', /450 millilitres/] as const,
      ['was that the whole bottle', /bottle 2 holds 100 millilitres/i] as const,
    ],
  })),
  {
    name: 'a lid that leaks over an empty tank is no spill',
    lines: [
      ...toDeveloper,
      ['the lid is leaking', /over the sink/i],
      ['what is in the tank', /tank is empty/i, /spill/i],
    ],
  },
  {
    name: 'a third is lost on the way back',
    lines: [
      ...inDeveloper,
      '+172s',
      'developer back into bottle 2',
      ['lost about a third of it going back', /167 millilitres/],
      'tank empty',
      ['what is in bottle 2', /433 millilitres/],
    ],
  },
  {
    name: 'a jug that was tipped into the wrong bottle holds what it holds, and that is put right',
    lines: [
      ...inDeveloper,
      '+172s',
      ['tank empty', /jug/i],
      ['I tipped the jug into bottle 3', [/warning: /, /developer/i, /gas/i]],
      ['no, I meant bottle 2', /developer from the jug to bottle 2/i],
      ['what is in bottle 2', /600 millilitres of developer/i],
      ['what is in bottle 3', /600 millilitres of stop bath/i, /developer/i],
    ],
  },
  {
    name: 'more than a bottle takes: lost where its size was told, else only by what it is taken to take',
    lines: [
      ...toBleach,
      'bottle 2 takes one litre',
      ['I poured all of the prebath into the developer bottle', [/200 millilitres/, /run over and lost/i]],
    ],
  },
  {
    name: 'more than a bottle of no told size takes',
    lines: [
      ...toBleach,
      [
        'I poured all of the prebath into the developer bottle',
        /200 millilitres more than it takes, by the size I take it to have/i,
        /run over and lost/i,
      ],
    ],
  },
  {
    name: 'a bath that is out again and would have done harm is put right only after a yes',
    lines: [
      ...toBleach,
      ['oh no I meant the developer', [/question: /, /developer/i]],
      ['no', /left as it was/i],
      ['what next', /bleach/i],
      ['oh no I meant the developer', /question: /],
      ['yes', /more developer cannot be taken back/i],
    ],
  },
  {
    name: 'the rinse is still black: it goes on, and that water counts for nothing',
    lines: [
      ...begun,
      ...bath('prebath', 1, '+12s'),
      'water in',
      '+30s',
      ['the rinse is still black', /fresh water until it runs clear/i, /cloth/i],
      '+20s',
      ['tank empty', /next: backing removal/i],
      ['pouring the developer from bottle 2', heldBack, goAhead],
      'cancel',
      ...water('+40s'),
      ['what next', /developer/i],
      ['still black', /next: backing removal/i],
    ],
  },
  {
    name: 'a milky film in the fixer of a black-and-white sheet is not fixed yet',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      ...bath('stop bath', 2, '+28s'),
      ...pour('fixer', 3),
      '+180s',
      ["it's still milky", /not fixed yet/i, /colou?red/i],
    ],
  },
  {
    name: 'a bath that the sheet has no use for is asked about before it is believed',
    sheet: 'black-and-white',
    lines: [
      'start a run',
      ['bottle 4 is bleach', [/question: /, /final rinse/i]],
      ['yes', /bottle 4 holds/i],
    ],
  },
  {
    name: 'a run that was closed early blames no bath that was never used',
    lines: [
      ...toDeveloper,
      'close the run',
      'yes',
      ['what went wrong', /closed before the developer/i, /bleach|fixer/i],
    ],
  },
  {
    name: 'a run that was closed after a short developer blames that one',
    lines: [
      ...inDeveloper,
      '+100s',
      'tank empty',
      'close the run',
      'yes',
      ['what went wrong', [/closed before the stop bath/i, /developer was in too short/i], /bleach|fixer/i],
    ],
  },
  {
    name: 'one verdict for one reading',
    lines: [
      'start a run',
      ['developer is at 41.3', /no more than a thermometer/i],
      ['is 41.3 too hot', /no more than a thermometer/i, /let it cool/i],
      ['is 41.3 all right for the developer', /no more than a thermometer/i],
      ['how long at 41.3', /no other time/i, /bring it/i],
      ['is 42 too hot for the developer', /0\.9 degrees too hot/i],
      ['is 38 fine for the bleach', /in tolerance/i],
    ],
  },
  {
    name: 'a tub that is too warm is said once',
    lines: [
      'start a run',
      'tub is 41.1',
      'developer is at 41',
      ['tub is 42', /too warm/i],
      ['tub is 42.4', /noted/i, /too warm/i],
      ['tub is 41.9', /noted/i, /too warm/i],
      ['the film is loaded', null, /too warm/i],
    ],
  },
  {
    name: 'how much of a part, and what is weighed is not to be weighed again',
    lines: [
      'mix one litre of developer',
      'next',
      'next',
      ['how much CD-3', /4\.00 grams/, /in already/i],
      '2 ml',
      'dissolved',
      '2 g',
      ['where are we', /2\.00 grams of anhydrous sodium sulphite is weighed/i, /next, 2/i],
      'dissolved',
      ['2 g', [/question: /, /sulphite/i, /in already/i], /zeroed/i],
      ['yes', /anti-fog/i],
      ['where are we', /1 of 7|2 of 7/, /4\.00/],
    ],
  },
];
