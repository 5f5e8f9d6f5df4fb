import { type Day, goAhead, heldBack } from './play.js';
import {
  developed,
  inDeveloper,
  mixingDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFixer,
  water,
} from './usual.js';

/** Facts told in short, of which none may be lost: how much, where to, how old, what changed places. */
export const toldInShort: Day[] = [
  {
    name: 'half of the fixer is in, and then the rest of it',
    lines: [
      ...toFixer,
      ['the fixer is in, but only 240 ml', [/warning: .*240 millilitres/i, /cover/i]],
      '+10s',
      ['I poured in the rest', /fixer is in/i, /warning|question/],
      '+105s',
      'fixer back into bottle 5',
      '+5s',
      'tank empty',
      ["what's in bottle 5", /600/],
    ],
  },
  {
    name: 'the developer goes back into two bottles',
    lines: [
      'bottle 8 is empty',
      ...inDeveloper,
      '+170s',
      ['returning 200 ml of the developer to bottle 2', goAhead],
      ['the rest of the developer goes to bottle 8', /bottle 8/],
      '+6s',
      'tank empty',
      ["what's in bottle 2", /300/],
      ["what's in bottle 8", [/developer/, /300/]],
    ],
  },
  {
    name: 'two bottles changed places: asked, and then every pour goes by it',
    lines: [
      ['bottle 4 and bottle 5 are swapped', [/question: /, /4.*fixer/i, /5.*bleach/i]],
      ['confirm', /noted/i],
      ["what's in bottle 4", /fixer/],
      ...toBleach,
      ['pouring the bleach from bottle 4', heldBack, goAhead],
      ['pouring the bleach from bottle 5', goAhead],
    ],
  },
  {
    name: 'what the baths have done, and how old they are',
    lines: [
      ['the fixer has done 15 films', [/15 films/, /exhausted/i], /unused/],
      ['I mixed the bleach six weeks ago', /42 days/],
      ['the stop bath was mixed yesterday', /1 day/],
      ...toFixer,
      ['pouring the fixer from bottle 5', [/warning: wait/i, /exhausted/i], goAhead],
    ],
  },
  {
    name: 'acid that is also in the bleach bottle: the air first, and what to do about it',
    lines: [
      ['the stop bath is also in bottle 4', [/warning: /, /leave the room/i]],
      ['what do I do', [/leave the room/i, /bottle 4/]],
      ['pouring bottle 3 into bottle 4', /warning: no/i, goAhead],
      ["what's in bottle 4", [/bleach/, /stop bath/]],
    ],
  },
  {
    name: 'a drop of bleach in the developer, measured afterwards',
    lines: [
      ['a few drops of bleach got into bottle 2', [/warning: /, /bleach in the developer/i]],
      ['about 3 ml', /3 millilitres of bleach/],
      ["what's in bottle 2", /do not use it/i],
    ],
  },
  {
    name: 'two baths in one bottle, and which one it was',
    lines: [
      ['I poured the fixer and the bleach into one bottle', [/which bottle/i, /neither/i], /prebath/],
      ['4', [/bottle 4/, /do not use/i]],
    ],
  },
  {
    name: 'water in the bleach, and the rest of the fixer in the developer',
    lines: [
      ['I topped up the bleach with 80 ml of water', /80 millilitres of water/, /say next when ready/i],
      ['the rest of the fixer went into the developer', [/600 millilitres/, /do not use/i, /run over/i]],
      ["what's in bottle 2", /1 litre/],
    ],
  },
  {
    name: 'a bottle that broke: nothing is poured from it again',
    lines: [
      ...toFixer,
      ['I dropped bottle 5 and it broke', [/fixer/, /600 millilitres/]],
      ["what's in bottle 5", /empty/i, /600/],
      ['pouring the fixer from bottle 5', heldBack, goAhead],
    ],
  },
  {
    name: 'a bath moved to another bottle',
    lines: [
      'bottle 9 is empty',
      ['I moved the fixer from bottle 5 to bottle 9', /bottle 9/],
      ["what's in bottle 9", [/fixer/, /600/]],
      ["what's in bottle 5", /empty/i],
    ],
  },
  {
    name: 'fresh developer on top of the old',
    lines: [
      'bottle 2 takes 1 litre',
      ['I topped up bottle 2 with 200 ml of fresh developer', /bottle 2/, /destroy|warning/i],
      ["what's in bottle 2", /800/],
    ],
  },
  {
    name: 'stop bath poured down the sink, and not into a jug',
    lines: [
      ...developed,
      ...pour('stop bath', 3),
      '+28s',
      ['I poured the stop bath down the sink', /tank empty|sink/i, /in a jug/],
      ["what's in bottle 3", /100/],
    ],
  },
];

/** What was taken back, put right or cut short, and how it goes on. */
export const slipsMended: Day[] = [
  {
    name: 'a refused return: a bare number is the bottle, and in is a question where it went',
    lines: [
      ...developed,
      ...pour('stop bath', 3),
      '+28s',
      ['stop bath into bottle 4', /warning: no/i],
      ["it's in", [/where did the stop bath go/i, /leave the room/i]],
      'cancel',
    ],
  },
  {
    name: 'a refused return, and 3',
    lines: [
      ...developed,
      ...pour('stop bath', 3),
      '+28s',
      ['stop bath into bottle 4', /warning: no/i],
      ['3', /clear: stop bath to bottle 3/i],
    ],
  },
  {
    name: 'said to be in too soon, and taken back',
    lines: [
      ...toDeveloper,
      ...pour('developer', 2),
      ['no, not yet', /undone|taken back/i],
      '+15s',
      ['developer is in', /3 minutes/],
      ['how long left', /2 minutes (4|5)/],
    ],
  },
  {
    name: 'two minutes and not one',
    lines: [
      ...toDeveloper,
      ['I poured in the developer a minute ago', /since 1 minute/],
      ['no, two minutes ago', /since 2 minutes/, /rinse/],
    ],
  },
  {
    name: 'out of the tank too soon into a jug, and in again from there',
    lines: [
      ...inDeveloper,
      '+40s',
      ['tank empty', /too short/i],
      ['developer is in', /2 minutes (19|20)/, /holds only/],
      ["what's in bottle 2", /100/],
    ],
  },
  {
    name: 'said to have gone into another bottle than it did',
    lines: [
      ...inDeveloper,
      '+172s',
      'the developer went into bottle 3',
      ['I accidentally put the developer into bottle 1', [/question: /, /bottle 3/, /bottle 1/]],
      ["what's in bottle 1", /600/],
    ],
  },
  {
    name: 'the film taken out of the fixer',
    lines: [
      ...toFixer,
      ...pour('fixer', 5),
      '+25s',
      ['I took the film out', [/put the film back/i, /2[5-7] seconds/], /close it at once/i],
    ],
  },
  {
    name: 'too warm, and what to do about it',
    lines: [
      ...toDeveloper,
      'developer is at 43',
      ['pouring the developer from bottle 2', heldBack],
      ['what do I do', [/cooler water/i, /41\.1/], /next: developer/i],
      '+12m',
      'developer is at 41.2',
      'confirm',
      ['pouring the developer from bottle 2', goAhead],
    ],
  },
  {
    name: 'a reading of many hours ago, and a bleach that is cold',
    lines: [
      ...toBleach,
      'bleach is at 23',
      ['pouring the bleach from bottle 4', [/warning: /, /too cold/i], goAhead],
      '+3h',
      ['pouring the developer from bottle 2', [/warning: /, /hours/], goAhead],
    ],
  },
  {
    name: 'a longer wash is nothing to warn of',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+176s',
      'bleach back into bottle 4',
      'tank empty',
      'water in',
      '+9m',
      ['tank empty', /next: the fixer/i, /warning|too long/i],
      ...water('+5s'),
    ],
  },
  {
    name: 'empty, and the next pour in one line',
    lines: [
      ...toDeveloper.slice(0, -1),
      [
        'the tank is empty and I am pouring the developer in from bottle 2',
        /clear: developer/i,
        /question: /,
      ],
    ],
  },
  {
    name: 'film told when the prebath is in already, and two of them',
    lines: [
      'start a run',
      'developer is at 41.1',
      'pouring the prebath from bottle 1',
      'prebath is in',
      ['the film is already in the tank', /prebath is in/i, /next: the prebath/i],
    ],
  },
  {
    name: 'the wrong powder',
    lines: [...mixingDeveloper, ['I took the wrong powder', /stop|start again/i, /mouth|poison/i]],
  },
  {
    name: 'other processes are begun by word',
    lines: [['start a black and white run', /black and white/i, /ECN-2/]],
  },
];
