import { type Day, goAhead, heldBack } from './play.js';
import {
  begun,
  developed,
  inDeveloper,
  mixingDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFixer,
} from './usual.js';

/** Words that contradict what is believed, or leave open what nobody knows. */
export const believed: Day[] = [
  {
    name: 'a bath told to be in for longer than the one that is in',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+50s',
      ['the developer has been in for two minutes', [/question: /, /bleach/, /you said so/i], /get it out/i],
      'cancel',
      ['what is in the tank', /bleach is in/i],
      ['how long left', /left/],
    ],
  },
  {
    name: 'another bath said in the middle of one, and it was so',
    lines: [
      ...inDeveloper,
      '+40s',
      ['fixer in', [/question: /, /developer/]],
      ['confirm', /fixer/i],
      ['what is in the tank', /fixer/i],
    ],
  },
  {
    name: 'the next bath early is taken at its word',
    lines: [
      ...inDeveloper,
      '+60s',
      ['stop bath in', /too short/i, /question: /],
      ['how long left', /\d+ seconds/],
    ],
  },
  {
    name: 'in and empty in one breath',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['the developer is in and the tank is empty', /question: /, /too short/i],
      ['what is in the tank', /developer is in/i],
    ],
  },
  {
    name: 'a drop that nobody measured stays unmeasured',
    lines: [
      ...begun,
      ['some developer dripped into the bleach', /not known|how much/i, /\d+ millilitres/],
      ["what's in bottle 4", [/600 millilitres/, /nobody measured/i], /\b(20|620) millilitres/],
      ["what's in bottle 2", /600 millilitres/],
    ],
  },
  {
    name: 'what got in last is answered, not what got in before',
    lines: [
      ...begun,
      '30 ml of fixer got into bottle 2',
      ['10 ml of prebath got into bottle 2', [/prebath/], /fixer|thiosulphate/i],
      ['pouring the developer from bottle 2', heldBack],
    ],
  },
  {
    name: 'water that was put in a bottle is in it',
    lines: [
      ...toDeveloper,
      ['I added 200 ml of water to bottle 2', /water/i],
      ["what's in bottle 2", /800 millilitres/],
      ['pouring the developer from bottle 2', [heldBack, /water/i], goAhead],
    ],
  },
  {
    name: 'a bottle told without an amount',
    lines: [
      ['bottle two holds developer', /did not say how much/i],
      ["what's in bottle two", /nobody said how much/i],
      'bottle two holds 450 ml of developer',
      ["what's in bottle two", /450 millilitres/, /nobody said/i],
    ],
  },
  {
    name: 'empty, and then full',
    lines: [
      'bottle three is empty',
      ['bottle three is full', /did not say how much/i, /\b0 millilitres/],
      ["what's in bottle three", /stop bath/i, /is empty/i],
    ],
  },
  {
    name: 'two bottles swapped in one sentence: one yes for both',
    lines: [
      ...begun,
      ['bottle 4 is fixer and bottle 5 is bleach', [/bottle 4/, /bottle 5/, /question: /]],
      'confirm',
      ["what's in bottle 4", /fixer/i],
      ["what's in bottle 5", /bleach/i],
    ],
  },
  {
    name: 'the tub as it was read',
    lines: [
      ['the tub is at 42', /42/, /41\.[12]/],
      ['how warm is the tub', /42/],
      ['the tub is at 39.5', /39\.5/],
      ['how warm is the tub', /39\.5/, /41|42/],
    ],
  },
];

/** The hands stop, hurry, leave or doubt. */
export const hands: Day[] = [
  {
    name: 'wait, and go on, in the developer',
    lines: [
      ...inDeveloper,
      '+45s',
      ['wait', /keeps working/i],
      ['go on', /2 minutes 1\d seconds left/i, heldBack],
      ['next', /left/, heldBack],
    ],
  },
  {
    name: 'away while the developer is in',
    lines: [
      ...inDeveloper,
      '+30s',
      ['I have to leave for five minutes', [/warning: /, /come out in/i, /more development/i]],
      ['how long left', /left/],
    ],
  },
  {
    name: 'away while the fixer is in: no harm worth a word',
    lines: [
      ...toFixer,
      ...pour('fixer', 5),
      '+20s',
      ["I'll be back in one minute", /come out in/i, heldBack],
    ],
  },
  {
    name: 'away with the developer clinging to the film',
    lines: [...developed, ['I have to leave for ten minutes', [/stop bath/i, /goes on|works on|working/i]]],
  },
  {
    name: 'the wrong bottle, while it is in',
    lines: [
      ...inDeveloper,
      '+20s',
      ['oops wrong bottle', [/question: /, /developer/], /take your time/i],
      ['that was bottle three', /stop bath/i],
      ['what is in the tank', /stop bath/i],
    ],
  },
  {
    name: 'the wrong bottle, before it is in',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['I think I grabbed the wrong bottle', /called off/i],
      ['where are we', /next: the developer/i],
    ],
  },
  {
    name: 'nobody is sure whether it is in',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      '+30s',
      ["I'm not sure if the developer is in", /nobody has said/i, /developer is in:/i],
      ['what is in the tank', /nobody has said/i],
      ['it went in twenty seconds ago', /developer is in/i],
    ],
  },
  {
    name: 'poured late, and counted from the pour',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      '+40s',
      ['I poured it in 30 seconds late', /developer is in: 3 minutes/i, /drained/i],
    ],
  },
  {
    name: 'emptied a minute before it was said',
    lines: [
      ...inDeveloper,
      '+260s',
      ['I emptied the tank a minute ago', /3 minutes \d+ seconds of 3 minutes/i],
    ],
  },
  {
    name: 'the stop bath went in when it was called, and nobody said so',
    lines: [
      ...inDeveloper,
      ['+180s', /tank empty\? then stop bath in now/i],
      '+40s',
      ['returning the stop bath to bottle 3', [/developer came out/i, /stop bath went in/i]],
      ['tank is empty', /wash/i],
      ['has the film had the stop bath', /yes/i],
    ],
  },
  {
    name: 'a bath that was in question is not in an empty tank',
    lines: [
      'start a run',
      ['prebath in', /question: /],
      '+12s',
      'tank empty',
      ['the film is loaded', /next: the prebath/i, /prebath is in/i],
    ],
  },
  {
    name: 'next with the mix open: to what the hands are at',
    lines: [
      'mix one litre of final rinse',
      'next',
      'start a run',
      'developer is at 41.1',
      ['next', /temperature|prebath|run\b/i, /additive|litre/i],
    ],
  },
  {
    name: 'dissolved, while its weight is in question',
    lines: [
      ...mixingDeveloper,
      ['3', /over/i],
      ['dissolved', [/you told me 3/i, /confirm/i], /have not told/i],
    ],
  },
];
