import type { Day } from './play.js';

const bleach = ['mix one litre of bleach', 'next', 'next'];

/** What was weighed turns out to be another amount than it was taken for, when it is in the water already. */
export const weighed: readonly Day[] = [
  {
    name: 'weighed on while too much is in question: it counts with the answer, or that it does not is said',
    lines: [
      ...bleach,
      '42 grams',
      ['it is in', /too much potassium ferricyanide is in.*confirm/i],
      ['12 grams', [/none of that down/i, /confirm/i]],
      ['25 grams', [/counts when this is answered/i, /confirm/i], /none of that/i],
      ['cancel', [/left as it is/i, /25\.00 grams of sodium bromide is right/i]],
    ],
  },
  {
    name: 'a batch that is left without its bottle is found when that is told',
    lines: [
      'mix 600 ml of stop bath',
      ...['next', 'next'],
      ['finished', 'whatever', /start a run/i],
      ...['30 ml', 'dissolved', 'made up', 'next'],
      ['all done', /which bottle/i, /is done/i],
      ['next', [/is done/i, /say: bottle 1 holds stop/i]],
      ['bottle seven holds the stop bath', /batch STOP.*in bottle 7/i],
      ['how old is the bath in bottle seven', /less than a day/i],
    ],
  },
  {
    name: 'half a part that went in twice is a whole one, and a part that is still short is weighed on',
    lines: [
      ...bleach,
      '15 grams',
      'it is in',
      [
        'I put it in twice',
        /30\.00 grams of potassium ferricyanide is in.*10\.00 grams more/,
        /too much|batch/i,
      ],
      '10 grams',
      ['it is in', /25\.00 grams of sodium bromide/, /too much/i],
    ],
  },
  {
    name: 'half of it in twice, and nothing more of it is asked for',
    lines: [
      ...bleach,
      '20 grams',
      'it is in',
      ['I put that in twice', /weigh 25\.00 grams of sodium bromide/i, /too much|batch/i],
    ],
  },
  {
    name: 'a jar told to be half as pure after its powder went in: as many grams are in, and the rest is weighed',
    lines: [
      ...bleach,
      '40 grams',
      'it is in',
      [
        'the ferricyanide is 50 percent pure',
        [/40\.00 grams of potassium ferricyanide is in/, /40\.00 grams more/],
      ],
      ['where am I', /40\.00 grams of potassium ferricyanide\./, /80\.00/],
      '40 grams',
      ['it is in', /weigh 25\.00 grams of sodium bromide/i],
    ],
  },
  {
    name: 'the same with another part in the boat: that goes in first, and the rest is asked for next',
    lines: [
      ...bleach,
      '40 grams',
      'it is in',
      '25 grams',
      [
        'the ferricyanide is 80 percent pure',
        [/80 percent pure/, /25\.00 grams of sodium bromide is right/],
        /more/,
      ],
      ['it is in', /weigh 10\.00 grams of potassium ferricyanide/i],
    ],
  },
  {
    name: 'a jar told to be less pure while its powder is on the scale: so much more',
    lines: [
      ...bleach,
      '40 grams',
      ['the ferricyanide is 80 percent pure', /add 10\.00 grams more/i],
      '50 grams',
      ['it is in', /weigh 25\.00 grams of sodium bromide/i],
    ],
  },
  {
    name: 'a hydrate told after as many grams as of the anhydrous powder went in',
    lines: [
      'mix one litre of home developer',
      'next',
      'next',
      '2 grams',
      'it is in',
      ['the sodium sulphite is heptahydrate', /2\.00 grams of .*heptahydrate.* is in.* 2\.00 grams more/i],
    ],
  },
  {
    name: 'what was set aside is asked about again after a stop that was none',
    lines: [
      ...bleach,
      '25 grams',
      ['yes', /aside/i],
      '40 grams',
      ['it is in', /question: .*sodium bromide.*still/i],
      ['stop', /give up/i],
      ['no', /question: .*sodium bromide.*still/i],
      ['yes', /25\.00 grams of sodium bromide is right/i, /without it/i],
    ],
  },
  {
    name: 'what is weighed and right is asked for no second time after a stop that was none',
    lines: [...bleach, '40 grams', 'stop', ['no', /40\.00 grams of potassium ferricyanide is right/i]],
  },
  {
    name: 'too much in the water for a jar told to be pure is right for a weaker one',
    lines: [
      ...bleach,
      '43 grams',
      ['it is in', /3\.00 grams too much/],
      ['the ferricyanide is 93 percent pure', /weigh 25\.00 grams of sodium bromide/i, /spoiled/i],
    ],
  },
  {
    name: 'the figure of a stock is measured for the stock, and the part of it that was taken is in the bath',
    lines: [
      'mix 100 ml of developer',
      'next',
      ['next', /1\.0 millilitres? in 100 millilitres of water and take 20 millilitres/],
      ['1.0 ml', /100 millilitres of water first.*20 millilitres of that/, /too much/i],
      ['it is in', /take 20 millilitres of that/i, /percent|too much/i],
      ['20 ml', /is right/i],
      ['it is in', /part 2 of/i],
    ],
  },
  ...[
    'dumped in 40 grams and then, without thinking, another 40',
    '40 grams went in and I tipped in 40 more on top',
    'I added 40 g, then 40 g again by accident',
  ].map(
    (said): Day => ({
      name: `one powder twice in one breath is judged by both: ${said}`,
      lines: [...bleach, [said, /40\.00 grams too much.*200 percent/, /is right/]],
    }),
  ),
  {
    name: 'in two goes that make the right amount, and one more of what was weighed',
    lines: [
      ...bleach,
      ['I put 25 grams in, then 15 more', /weigh 25\.00 grams of sodium bromide/i, /too much/],
      ['25 grams', /is right/],
      ['oops, added another 5', /5\.00 grams too much sodium bromide is in/],
    ],
  },
  {
    name: 'another figure than the one that was told counts for the part that had it, and nothing drops it',
    lines: [
      ...bleach,
      '40 grams',
      'it is in',
      '25 grams',
      'it is in',
      ['wait, I tipped in 48 not 40', /8\.00 grams too much potassium ferricyanide/],
      ['cancel', /left as it is|spoiled/i],
    ],
  },
  {
    name: 'a weight with a yes in front of it, and water that is in already',
    lines: [
      ...bleach.slice(0, 2),
      ['got the water in the jug', /weigh 40\.00 grams/i],
      ['the water is in', /next, 40\.00 grams/i, /start a run/i],
      ["yes, that's 40", /40\.00 grams of potassium ferricyanide is right/],
    ],
  },
];
