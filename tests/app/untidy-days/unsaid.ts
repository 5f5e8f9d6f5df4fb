import { type Day, heldBack } from './play.js';
import {
  bath,
  begun,
  cleared,
  developed,
  inDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFixer,
  water,
  wholeRoll,
} from './usual.js';

/** What nobody said is not known, and what was not done is told. */
export const unsaid: Day[] = [
  {
    name: 'a developer that nobody said anything of is not unused',
    lines: [
      ['is the developer still good', /nobody has told me how old or how used it is/i, /unused/i],
      ['do I have fixer for 3 films', /if it is fresh/i, /^answer: yes|unused/i],
    ],
  },
  {
    name: 'the fixer in before the bleach, the stop bath forgotten: what comes next is the same before and after it is out',
    lines: [
      ...developed,
      'fixer is in',
      [
        'what do I do now',
        [/left out by my record: the stop bath/i, /wash with water. after that, the bleach/i],
      ],
      '+60s',
      ['tank is empty', /next: wash with water, then the bleach/i, /pour it in again/i],
    ],
  },
  {
    name: 'a fixer too long and no last wash: told when it is asked how it went, and what went wrong',
    lines: [
      ...toFixer,
      ...bath('fixer', 5, '+200s'),
      'final rinse in',
      '+11s',
      'tank empty',
      'the film is hung',
      ['how did it go', [/fixer 3 minutes 2\d seconds/i, /2 times: ask what went wrong/i], /nothing yet/i],
      [
        'what went wrong today',
        [/last wash has no time on record/i, /fixer was in for 20\d seconds, not 120/i],
        /out of the ordinary/i,
      ],
      'close the run',
      ['how many runs so far', /2 deviations/i, /0 films/i],
    ],
  },
  {
    name: 'a pour that was overridden and runs over: the rest is lost, and both are named',
    lines: [
      'bottle 3 holds 600 ml stop bath',
      'bottle 2 holds 600 ml developer',
      ['pour bottle 2 into bottle 3', heldBack],
      ['override the guard and pour anyway', /200 millilitres run over and are lost/i],
      ["what's in bottle 3", [/1 litre of stop bath/i, /of developer went into it/i], /1\.2 litres/],
    ],
  },
  {
    name: 'a tub of which nobody said what it is set to',
    lines: [
      [
        "tub's 38",
        [/tub 38\. noted/i, /stays at 38 never gets the developer to 41\.1.*tell me what it is set to/i],
      ],
    ],
  },
  {
    name: 'a forecast from the tub that was read',
    lines: [
      'the tub is at 38',
      ['developer is 37.5', /will not reach 41\.1/i, /minutes to go/i],
      ['the tub is set to 41.3', /tub set to 41\.3/i],
      ['how long until the developer is ready', /minutes to go/i, /will not reach/i],
    ],
  },
  {
    name: 'another powder than the one asked for, by its name',
    lines: [
      'mix one litre of developer',
      'next',
      'next',
      '2 ml',
      ['dissolved', /sodium sulphite/i],
      ['i weighed 2 g of sodium carbonate', /3 parts early/i, /is right/i],
      ['confirm', /aside.*now weigh 2\.00 grams of anhydrous sodium sulphite/i],
      ['sodium sulphite 2 grams', /is right/i],
      'dissolved',
      ['2 grams of citric acid', [/do not put it in/i, /sulphur dioxide/i], /is right/i],
      ['dissolved', [/stop, add nothing more/i, /cannot be used/i]],
    ],
  },
  {
    name: 'a developer that is too cold by the very sentence that pours it',
    lines: [
      ...toDeveloper,
      [
        "pouring the developer in from bottle 2 but it's only at 38",
        /wait\. the developer is at 38\.0 degrees/i,
        /clear:/i,
      ],
    ],
  },
  {
    name: 'a bleach that came out too early goes in again for the rest, and so does a fixer',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+30s',
      ['tank is empty', /pour it in again for 2 minutes \d\d seconds, before any other bath/i],
      ...bath('bleach', 4, '+150s').slice(1),
      ...water('+64s'),
      ...pour('fixer', 5),
      '+40s',
      ['tank is empty', /pour it in again for 1 minute \d\d seconds/i],
    ],
  },
  {
    name: 'what got into a bottle later is not to blame for an earlier film, and is for the next',
    lines: [
      ...wholeRoll,
      '+20m',
      ['60 ml of fixer went into the developer', heldBack],
      ['what went wrong', /nothing out of the ordinary/i, /fixer/i],
      ['what went wrong with the third film', /one film that day/i, /ordinary/i],
      'new film',
      ...begun.slice(1),
      ...cleared,
      'developer from 2',
      'override the guard and pour anyway',
      'developer in',
      '+170s',
      ['what went wrong with the second roll', /fixer/],
      ['why was the first film so dense', /nothing out of the ordinary/i, /fixer/],
    ],
  },
  {
    name: 'it was drained while the power was off: that is no light on the film, and no question',
    lines: [
      ...inDeveloper,
      '+60s',
      ['I emptied the tank when the power went', [/tank empty/i, /too short/i], /did you mean/i],
    ],
  },
  {
    name: 'a bath that is told of before any run is not timed, and that is said',
    lines: [["developer's gone in", [/no clock runs/, /start a run/]]],
  },
];
