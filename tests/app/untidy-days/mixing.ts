import { type Day, goAhead, heldBack } from './play.js';
import {
  bath,
  begun,
  bleachMixed,
  inDeveloper,
  mixingDeveloper,
  partsOfDeveloper,
  pour,
  toBleach,
  toFixer,
  water,
} from './usual.js';

const weighed = ['mix half a litre of bleach', 'next', 'next', '20 grams'];
/** A bath that is mixed otherwise than its list has it: what is told is counted as it is, and what cannot be undone stays. */
export const mixing: readonly Day[] = [
  ...[
    'I spilled half of it',
    'about 5 grams of ferricyanide went on the floor',
    'some of the powder spilled on the bench',
  ].map(
    (said): Day => ({
      name: `a powder that went astray counts for nothing: ${said}`,
      lines: [
        ...weighed,
        [
          said,
          [/very toxic gas with acid.*noted: potassium ferricyanide/i, /weigh it anew/i],
          /cannot be used/i,
        ],
        ['dissolved', /not told me a weight/i],
        ['20 grams', /is right/i],
      ],
    }),
  ),
  {
    name: 'made up in other words',
    lines: [
      ...bleachMixed,
      ['finished', /which bottle/i, /not yet/i],
      ['bottle 4', [/is done, in bottle 4/i]],
    ],
  },
  {
    name: 'a powder that is spilled before its turn has its cautions, and the jug is no powder',
    lines: [
      ...weighed.slice(0, 2),
      [
        'I spilled ferricyanide powder on the counter, about 5 grams',
        /very toxic gas with acid/i,
        /did you mean/i,
      ],
      ...weighed.slice(2),
      ['the boat is on the bench', 'whatever', /noted|anew/i],
      ['I knocked the jug over', 'whatever', /weigh it anew/i],
      ['dissolved', /sodium bromide/i],
    ],
  },
  {
    name: 'a powder that went in whole is not taken out again: the batch grows, or is begun anew',
    lines: [
      ...partsOfDeveloper('carbonate'),
      ['30 grams of carbonate', /question/],
      ['dissolved', /say dissolved; if not/],
      ['can I spoon some of it out', /take it off with a dry spoon/i, /undone/i],
      ['no, I mean it is all in the water', [/4\.40 grams too much/, /1\.17 litres/]],
      ['take some out again', [/cannot be taken out/, /1\.17 litres/], /undone/i],
      ['what have I added', /30\.00 grams of anhydrous sodium carbonate/],
      ['yes', /batch is now 1\.17 litres/],
    ],
  },
  {
    name: 'nothing too much is on record, and what is dissolved stays all the same',
    lines: [...partsOfDeveloper('sulfite'), ['take a bit out', /cannot be taken out/, /undone/i]],
  },
  {
    name: 'more water than the whole batch, before any part: poured off, or the batch is made as large',
    lines: [
      'mix one litre of fixer',
      'next',
      ['oh no, I used 1200 ml of water', [/question: 1\.2 litres is more/, /700 millilitres/, /confirm/]],
      ['there are two litres in the jug', /2 litres is more/],
      ['yes', /batch is now 2 litres/],
    ],
  },
  {
    name: 'poured off again',
    lines: [
      'mix one litre of fixer',
      'next',
      ['2 litres', /more than the whole/],
      ['next', /part 1 of 4/i, /2 litres/],
    ],
  },
  {
    name: 'far more water than a batch can grow to is said, and nothing is offered',
    lines: [
      'mix one litre of fixer',
      'next',
      ['I put in 3 litres of water', /warning: 3 litres is more/, /confirm/],
    ],
  },
  {
    name: 'a little more water than the list begins with leaves less room',
    lines: [
      'mix one litre of developer',
      'next',
      ['water is 950 ml', [/not 850 millilitres/, /part 1 of 7/i]],
    ],
  },
  {
    name: 'too much water beside the parts that are in: weaker by so much, and made up to no less',
    lines: [
      ...partsOfDeveloper('CD-3'),
      ['I put in 1200 ml of water', [/83 percent strong/, /confirm/]],
      ['cancel', /CD-3/],
      '4 g',
      ['dissolved', /add water/i],
      ['made up', [/1\.2 litres is more/, /83 percent/]],
      ['I added another 200 ml of water', [/1\.4 litres is more/, /71 percent/]],
    ],
  },
  {
    name: 'a number put right by itself is that of the last reading',
    lines: [
      ...partsOfDeveloper('sulfite'),
      ['sodium sulfite 12', /question/],
      ['no, 1.2', /put right: the scale reads 1\.2/i],
      ['no, 2', [/put right: the scale reads 2 /i, /is right/]],
      'dissolved',
      ['no, it was 3', [/put right: the scale reads 3/i, /too much/]],
    ],
  },
  {
    name: 'a number put right with the name of its part goes to that part',
    lines: [
      ...partsOfDeveloper('bicarbonate'),
      ['actually the carbonate was 18 grams', /18\.00 grams .* 7\.60 grams more/],
      ['7.6', /is right/],
      ['dissolved', /2\.70 grams of sodium bicarbonate/],
      [
        'no wait, the carbonate was 25.5',
        [/25\.60 grams of anhydrous sodium carbonate in this batch/, /2\.70 grams/],
      ],
      ['the sulfite was 3 grams', [/1\.00 gram too much anhydrous sodium sulphite/, /1\.5 litres/]],
      ['no, the sulfite was 2 grams', /2\.70 grams of sodium bicarbonate/],
    ],
  },
  {
    name: 'acid before the water is the wrong order, in whatever words',
    lines: [
      'mix one litre of stop bath',
      'next',
      ['I put the acid in first', [/warning/, /never water into acid/]],
      ['next', null],
    ],
  },
  {
    name: 'acid before the water, told of the water',
    lines: [
      'mix one litre of stop bath',
      'next',
      ['the acid went in before the water', [/warning/, /never water into acid/], /which bottle/i],
    ],
  },
];

/** How warm something is, and not what: asked for, unless it can be only one thing. */
export const nameless: readonly Day[] = [
  {
    name: 'another thermometer, and nobody said in which bath',
    lines: [
      'start a run',
      ['I borrowed a sugar thermometer, it says 40.5', /question: which is at 40\.5/i, /developer 40/i],
      ['yes', /question: which is at 40\.5/i],
      ["it's the developer's", /developer 40\.5/i],
      ['found a new probe, that shows 105', /question: which is at 105/i],
      ['bottle 5', /sounds like fahrenheit/i],
      ['confirm', /fixer 40\.6/i],
      ['one more says 44', 'whatever', /prebath 44|bleach 44/i],
      ['all bottles are at 38', [/prebath 38/i, /developer 38/i, /final rinse 38/i]],
    ],
  },
  {
    name: 'one that was asked for, and one that is known to be about so warm',
    lines: [
      'start a run',
      ['how warm is the fixer', /read it and tell me/i],
      ['the thermometer says 37.8', /fixer 37\.8/i],
      ['prebath is 27', /prebath 27/i],
      '+1m',
      ['my other one reads 27.1', /prebath 27\.1/i],
    ],
  },
  {
    name: 'a minute later it is warmer',
    lines: [
      'start a run',
      ['dev 40.4', /developer 40\.4/i],
      '+2m',
      ['41 now', /developer 41\./i, /tub set/i],
      ['it has crept up to 41.2', /developer 41\.2/i, /tub set/i],
      ['the tub is at 43', /tub 43/i],
      ['down to 42.5 now', /tub 42\.5/i],
      ['how warm is the developer', /41\.2/],
    ],
  },
];

/** What stands on the sheet and was never read. */
export const unmeasured: readonly Day[] = [
  ...[
    'I never really measured that',
    'the 41.1 was just what the sheet says',
    "no, that's only the target, I haven't read it",
  ].map(
    (taken): Day => ({
      name: `${taken}: no reading`,
      lines: [
        'start a run',
        'bleach is 38',
        'developer is 41.1',
        [taken, /undone: the developer/i],
        ['how warm is the developer', /no reading of the developer/i],
        ['how warm is the bleach', /bleach 38/i],
      ],
    }),
  ),
  {
    name: 'a figure that no temperature has is how much goes in',
    lines: [
      'start a run',
      ['the tank is 600', /tank takes 600/i],
      ['bottle 4 is 500', /bottle 4 holds 500/i],
      ['the tank is at 411', /did you mean 41\.1/i],
    ],
  },
];

/** Asked in short of the bath that is in. */
export const asked: readonly Day[] = [
  {
    name: 'how warm it has to be, and a bleach that is too cold in the tank',
    lines: [
      ...toBleach,
      ...['pouring the bleach from bottle 4', 'bleach in', '+20s'],
      ['how warm should this be?', /bleach at 38\.0 degrees, between 37/i],
      ["it's only at 31", [/7\.0 degrees too cold/, /more slowly/, /1 minute longer\?/]],
      ['confirm', /added 1 minute/i],
      ['is it time to drain', /until you drain/i],
      ["it's still just 31 degrees", /more slowly/, /longer\?/],
      ['shall I empty it now?', /until you drain/i, /did you mean/i],
    ],
  },
  {
    name: 'whether it is late, or time',
    lines: [
      ...inDeveloper,
      '+60s',
      ['what do I aim for', /developer at 41\.1/i],
      ['drain now?', /until you drain/i, /did you mean/i],
      '+160s',
      ["we're late, aren't we", /too long/i],
    ],
  },
  {
    name: 'what a thermometer that is off says, as it is',
    lines: [
      'start a run',
      'my thermometer reads one degree too high',
      'fixer is 38.5',
      ['what is that really', /fixer 37\.5/i],
    ],
  },
];

/** A thermometer that is off by a known figure: what it shows is counted as what it is. */
export const thermometer: readonly Day[] = [
  {
    name: 'what it reads too high is taken off every reading, also off those from before, until that is undone',
    lines: [
      'start a run',
      ['developer is at 41.6', /too warm/i],
      ['my thermometer reads half a degree high', [/0\.5 degrees too high/, /every reading/]],
      ['what is the developer at', /developer 41\.1/i],
      ['developer is at 41.5', /developer 41\. In tolerance/i],
      ['undo', /undone/i],
      ['undo', /undone: the thermometer reads/i],
      ['developer is at 41.6', [/41\.6/, /too warm/i]],
    ],
  },
  {
    name: 'the correction of one thermometer is not that of the next',
    lines: [
      'start a run',
      'my thermometer reads a degree and a half too low',
      ['developer is at 39.6', /developer 41\.1/i],
      ['i have got a new thermometer', /old one .*still hold/i],
      ['what is the developer at', /developer 41\.1/i],
      ['developer is at 41.1', /developer 41\.1\. In tolerance/i],
    ],
  },
  {
    name: 'a thermometer in other hands takes nothing back',
    lines: [
      'start a run',
      'my thermometer reads a degree and a half too low',
      ['my wife has another thermometer', null, /counts as it is/i],
      ['developer is at 39.6', /developer 41\.1/i],
    ],
  },
  {
    name: 'what it reads too low is added; told anew, the later figure counts alone',
    lines: [
      'start a run',
      ['fixer is 37', /fixer 37/i],
      ['my thermometer is off by one, too low', /1\.0 degrees too low/],
      ['what is the fixer at', /fixer 38/i],
      ['it reads 2 degrees too low', /2\.0 degrees too low/],
      ['what is the fixer at', /fixer 39/i],
    ],
  },
  {
    name: 'another thermometer is right as it is',
    lines: [
      'start a run',
      ['the thermometer shows one degree too much', /1\.0 degrees too high/],
      ['the other thermometer says 41.1 for the developer', /developer 41\.1\. In tolerance/i],
    ],
  },
  {
    name: 'by how much it is off is asked, and told it leaves no reading in doubt',
    lines: [
      'start a run',
      'developer is at 41.6',
      'the film is loaded',
      ...bath('prebath', 1, '+12s'),
      ...water('+50s'),
      ['the thermometer is off', /by how much/i],
      ['the probe is out by half a degree, it reads high', /0\.5 degrees too high/],
      ['pouring developer from bottle 2', /clear/i, /never confirmed/],
    ],
  },
];

/** A bath that looks wrong, an old one, and one that stands in a jug. */
export const baths: readonly Day[] = [
  {
    name: 'a fixer that has sulphured is not poured, in whatever words',
    lines: [
      ...toFixer,
      ['is it normal that the fixer is cloudy', [/broken down/, /do not use it/i], /normal:/],
      ['pouring the fixer from bottle 5', [heldBack, /milky/], goAhead],
    ],
  },
  {
    name: 'nor one with a white deposit, and filtering mends nothing',
    lines: [
      'start a run',
      ['white sludge in the fixer', /broken down/, /filter it/i],
      ['what is in bottle 5', /do not use it/i],
    ],
  },
  {
    name: 'while it is mixed',
    lines: ['mix one litre of fixer', 'next', ['my fixer is milky', /broken down/]],
  },
  {
    name: 'a bleach turned blue has one answer, at the sink and while it is mixed, and nobody is hurt by it',
    lines: [
      'start a run',
      ['my bleach turned blue', [/iron or acid/, /do not use it/i], /emergency/i],
      ['what is in bottle 4', /do not use it/i],
      'mix one litre of bleach',
      'next',
      ['the bleach has gone blue', /iron or acid/],
    ],
  },
  {
    name: 'a bath that stands in a jug is there and not in its bottle alone',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      ['where is the prebath', /in the tank/],
      '+12s',
      'tank empty',
      ['where did I put the prebath', /500 millilitres of prebath is in a jug/],
    ],
  },
  {
    name: 'a bath that went in cold, and a thermometer in the tub',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      ['it went in cold, what now', [/more slowly/, /half as long again/]],
      ['the probe fell into the tub', /at the wall/, /light has reached/],
    ],
  },
  {
    name: 'nothing is open, and nothing is begun by a word that goes on',
    lines: [
      ['done', /say start a run/i],
      ['next', /say start a run/i],
      ['where are we', null, /preparing|bring to temperature/i],
    ],
  },
  {
    name: 'numbers that cannot be',
    lines: [
      'start a run',
      ['bottle twenty seven holds developer', /1 to 20/, /did you mean/i],
      ['bottle three is minus three litres', /below zero/],
      ['the tank takes minus three litres', /below zero/],
    ],
  },
  {
    name: 'a bath is as old as the last such day of the week, and of today it is asked which',
    lines: [
      ['I mixed the developer on Monday', /5 days old/],
      ['the bleach was opened last Friday', /1 day old/],
      ['I mixed the fixer on Sunday', /6 days old/],
      ['the stop bath was mixed on Saturday', /question: Today is Saturday: was it today, or a week ago/],
      ['a week ago', /stop bath in bottle 3 is 7 days old/],
      ['no, today', /less than a day old/],
    ],
  },
  ...[
    'nothing wrong with that batch after all',
    'I checked again, it was the right jar',
    'the fixer was mixed properly',
  ].map(
    (said): Day => ({
      name: `said to be mixed wrong, and well after all once that is read back: ${said}`,
      lines: [
        'the powders for 500 ml of fixer went into 1 litre of fixer',
        ["what's in bottle 5", /mixed wrong/],
        [said, /question: bottle 5.*mixed wrong.*confirm/i],
        ['no', /left as it was/i],
        ["what's in bottle 5", /mixed wrong/],
        said,
        ['confirm', /bottle 5 is as it should be/i],
        ["what's in bottle 5", /holds/i, /mixed wrong/],
      ],
    }),
  ),
  {
    name: 'a swapped powder that was none: the mix goes on, once that is read back',
    lines: [
      ...mixingDeveloper.slice(0, 3),
      ['oops, that was the bromide, not the sulphite', /cannot be used/i],
      ['I looked again, it was the right powder', /question: .*should not be.*confirm/i],
      ['yes', /part 1 of 7/i, /spoiled|cannot be used/i],
    ],
  },
  {
    name: 'another form of the same salt has its own weight, and another salt has none',
    lines: [
      ...mixingDeveloper,
      [
        'could I use washing soda in place of the carbonate',
        [/69\.\d\d grams of sodium carbonate decahydrate for 25\.60/i, /how pure yours is/i],
      ],
      ['how much of the monohydrate', /monohydrate for/i],
      ['can I use bicarbonate instead of the carbonate', /put nothing else in its place/i, /grams/],
    ],
  },
];
