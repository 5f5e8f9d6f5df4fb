import { type Day, goAhead, heldBack } from './play.js';
import { bath, developed, inDeveloper, pour, toDeveloper, toFixer, water } from './usual.js';

/** What was said of a bottle or the film is known where it matters, and the time in a bath decides what it did. */
export const remembered: Day[] = [
  {
    name: 'a quarter of a minute of fixer fixes nothing: it goes in again for the rest',
    lines: [
      ...toFixer,
      ...pour('fixer', 5),
      '+16s',
      'fixer back into bottle 5',
      ['tank empty', [/warning: .*too short/i, /again for 1 minute 4/i], /next: .*(wash|water)/i],
      ['what next', /fixer/, /wash/],
      ['pouring the fixer from bottle 5', goAhead],
      ['fixer in', /1 minute 4\d seconds/],
      '+100s',
      'fixer back into bottle 5',
      ['tank empty', /next: wash after the fixer/i, /warning/],
    ],
  },
  {
    name: 'a bleach of half a minute, and then the whole of it',
    lines: [
      ...developed,
      ...bath('stop bath', 3, '+28s'),
      ...water('+34s'),
      ...bath('bleach', 4, '+30s'),
      ['what next', /bleach/, /wash/],
      ...pour('bleach', 4),
      '+146s',
      'bleach back into bottle 4',
      ['tank empty', /next: wash after the bleach/i, /warning/],
    ],
  },
  {
    name: 'the next bath is never named with a bottle that is spoilt, and a fresh one is',
    lines: [
      ...toDeveloper,
      ['50 ml of bleach got into bottle 2', /do not use it/i],
      ['what next', [/bottle 2 has bleach in it/i, /developer/], /developer, bottle 2/i],
      'bottle 8 holds 600 ml of developer',
      ['where are we', /the developer, bottle 8/i, /bottle 2/],
    ],
  },
  {
    name: 'what a film had is known between its hanging and the close',
    lines: [
      ...toDeveloper,
      'the film is hung',
      ['confirm', /never had/],
      ['has the film had the prebath', /yes/i],
      ['has the film had the fixer', /\bnot?\b/i],
      ['what has the film had', [/prebath/, /never had: developer/i], /still to come/i],
    ],
  },
  {
    name: 'a run is not closed over a film that was never washed without saying so',
    sheet: 'black-and-white',
    lines: [
      ...['start a run', 'developer is 20', 'film is loaded'],
      ...bath('developer', 1, '+6m45s'),
      ...bath('stop bath', 2, '+30s'),
      ...bath('fixer', 3, '+7m'),
      ['film is hung', [heldBack, /wash/]],
      ['close the run', [/question: /, /wash/]],
    ],
  },
  {
    name: 'how much got in is not forgotten while it is asked into which bottle',
    lines: [
      'bottle 8 holds 600 ml of developer',
      ['30 ml of bleach got into the developer', /which/i],
      ['bottle 8', /30 millilitres of bleach/],
      ["what's in bottle 8", /630 millilitres/],
    ],
  },
  {
    name: 'a part of a bath that was cleared stays that part when something else is told',
    lines: [
      ...inDeveloper,
      '+172s',
      'bottle 2 takes 350 ml',
      ['returning 200 ml of the developer to bottle 2', goAhead],
      ['the tub is at 41.1', null, /room for only/],
    ],
  },
  {
    name: 'a month is a date, and not any word of a sentence',
    lines: [
      ['I mixed the fixer when march was still cold', null, /noted/i],
      ['the stop bath was mixed in early january', /noted: .*(month|day)/i],
    ],
  },
];
