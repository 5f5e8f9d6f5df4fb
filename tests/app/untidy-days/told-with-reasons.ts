import { type Day, heldBack } from './play.js';
import { begun, developed, inDeveloper, pour, toBleach, toDeveloper } from './usual.js';

const stopIn = [...developed, ...pour('stop bath', 3)];
const bleachIn = [...toBleach, ...pour('bleach', 4)];

/** A fact with why or how it came beside it, in the same breath. */
const withReasons: Day[] = [
  {
    name: 'what was poured is not lost behind why it was',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank empty',
      ['the neck is clean again, I have poured the developer from the jug back into bottle 2', /noted/i],
      ["what's in bottle 2", /600 millilitres/],
    ],
  },
  {
    name: 'behind a reason that names no bath, nothing is taken for an answer',
    lines: [
      ...inDeveloper,
      ['no love, the eggs come last', 'whatever', /cancelled|undone/i],
      ['yes, put it over there', 'whatever', /confirmed/i],
      ['help, there is smoke and flames', /everybody out now/i],
    ],
  },
  {
    name: 'labels that changed places, with what each holds',
    lines: [
      'start a run',
      [
        'the labels of 2 and 3 are the wrong way round, developer is in 3 and stop is in 2',
        /bottle 3 holds the developer/i,
      ],
      ["what's in bottle 2", /stop bath/],
    ],
  },
  {
    name: 'caps that may have changed places are asked about, and held against the pour',
    lines: [
      ...begun,
      ['I think I muddled up the lids, 2 might be the fixer and 5 the developer', /question: .*bottle 2/i],
      ...pour('prebath', 1),
      '+12s',
      'tank empty',
      'water in',
      '+50s',
      'tank empty',
      ['pouring the developer in from bottle 2', heldBack],
    ],
  },
];

/** What a thermometer read was not what it was told of. */
const misread: Day[] = [
  {
    name: 'the reading was of something else',
    lines: [
      ...begun,
      ['hang on, that 41.1 was the tub, I have not had it in the developer', /put right: the tub/i],
      ['how warm is the developer', /no reading/i],
      ['the probe is really in the developer now, 40.9', /developer 40\.9/i],
    ],
  },
  {
    name: 'ice water is at zero',
    lines: [
      ...begun,
      ['I held it in melting ice and the thermometer says two degrees', /2\.0 degrees too high/],
      ['how warm is the developer', /39\.1/],
      ['what should a thermometer say in ice water', null, /degrees too (?:high|low)/],
    ],
  },
];

/** What went in, when, and what stands mixed is not as it was told. */
const putRight: Day[] = [
  {
    name: 'only water went in, and the developer is whole',
    lines: [
      ...inDeveloper,
      '+30s',
      ['oh no, I took the jug with tap water instead of the developer', /put right: the water/i],
      ["what's in bottle 2", /600 millilitres of developer/],
      'tank empty',
      ['what next', /developer/i],
    ],
  },
  {
    name: 'said too early: its time begins now',
    lines: [
      ...inDeveloper,
      '+40s',
      ['I said that too early, it was not in yet, it only went in just now', /2 minutes 59 seconds left/],
    ],
  },
  {
    name: 'the tank was not empty',
    lines: [
      ...inDeveloper,
      '+60s',
      'tank empty',
      ['no wait, I meant the jug is empty, the developer is still in', /undone/i],
      ['how long left', /1 minute 5\d seconds left in all/i],
    ],
  },
  {
    name: 'a bath that was mixed wrong is held against its pour',
    lines: [
      ...toDeveloper,
      ['oh dear, I forgot to put the CD-3 into the developer', [/warning: /, /on no film/i]],
      ['pouring the developer in from bottle 2', heldBack],
      'cancel',
      ['is the developer alright', /mixed wrong/],
    ],
  },
  {
    name: 'powders for less water than they went into',
    lines: [
      ...begun,
      ['I dissolved the powders for 500 ml of developer in 1 litre of water', /on no film/i],
      ["what's in bottle 2", /mixed wrong/],
    ],
  },
  {
    name: 'what was in a funnel is in the bottle that was filled through it',
    lines: [
      ...developed,
      [
        'the funnel I poured it back through had some fixer left in it, 5 ml',
        [/fixer in the developer, bottle 2/i],
      ],
      ['can I still use that developer for this film', /warning: no/i],
    ],
  },
  {
    name: 'a bath with water in it is not let back into its bottle unasked',
    lines: [...stopIn, '+20s', 'I topped the tank up with water', ['stop bath back into bottle 3', heldBack]],
  },
];

/** What is told of waiting does no harm, and is no reason to nag. */
const waited: Day[] = [
  {
    name: 'bleach may be in for longer',
    lines: [
      ...bleachIn,
      '+9m',
      ['did I ruin the film', /nothing in my record is against/i],
      ['tank empty', /longer does it no harm/i, /warning|too long/i],
    ],
  },
  {
    name: 'called away in a wash that is over',
    lines: [
      ...toBleach.slice(0, -1),
      ['have to take the phone, back in a minute', /do no harm/i, /warning|drain it now/i],
    ],
  },
  {
    name: 'loaded the night before',
    lines: [
      'start a run',
      ['the film has been in the tank since yesterday evening', /film loaded/i, /question/i],
    ],
  },
  {
    name: 'no film was in, and then there is',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      '+12s',
      'tank empty',
      ['believe it or not, the reel is empty and the film is still in its can', null, /\bfilm is safe/i],
      ['lights out again, now the film is loaded for real', /film loaded/i],
    ],
  },
  {
    name: 'the power is back, and the heater with it',
    lines: [...begun, 'the heater is off', ['the power is back on', /heater on/i]],
  },
];

export const toldWithReasons: readonly Day[] = [...withReasons, ...misread, ...putRight, ...waited];
