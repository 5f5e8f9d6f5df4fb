import { type Day, goAhead, heldBack } from './play.js';
import {
  bath,
  begun,
  cleared,
  developed,
  inDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFinalRinse,
  wholeRoll,
} from './usual.js';

/** Baths left out on purpose or by mistake, and reasons that are named whole. */
export const leftOut: Day[] = [
  {
    name: 'bleach left out with a yes: the fixer is next, and what that means is said',
    lines: [
      ...toBleach,
      ['skip the bleach', /silver/i],
      ['yes', /next: the fixer/i, /hang/i],
      ['pouring the fixer from bottle 5', [/warning: /, /silver/i]],
      'fixer in',
      '+118s',
      'fixer back into bottle 5',
      'tank empty',
      'water in',
      '+122s',
      ['tank empty', /final rinse/i],
      ...pour('final rinse', 6),
      '+12s',
      'final rinse back into bottle 6',
      ['tank empty', /hang/i],
      ['the film is hung', /bleach/i],
      ['close the run', /bleach/i],
    ],
  },
  {
    name: 'prebath and backing left out: the developer is next',
    lines: [
      ...begun,
      'skip the prebath',
      ['yes', /next: the developer/i, /hang/i],
      ['pouring the developer from bottle 2', [/warning: /, /backing/i]],
    ],
  },
  {
    name: 'fixer a second time: the silver is named beside the volume',
    lines: [
      ...toBleach,
      'pouring the fixer from bottle 5',
      'confirm',
      'fixer in',
      '+118s',
      'tank empty',
      ['pouring the fixer from bottle 5', [heldBack, /silver/i, /only 100 millilitres/i]],
    ],
  },
  {
    name: 'a yes is no yes to what came up after it was asked',
    lines: [
      ...toBleach,
      ['pouring the fixer from bottle 5', [heldBack, /silver/i]],
      ['bottle 5 holds 150 ml', [/silver/i, /150 millilitres/]],
      ['confirm', /go ahead/i],
    ],
  },
  {
    name: 'the wash after the stop left out, and asked about',
    lines: [
      ...developed,
      ...bath('stop bath', 3, '+30s'),
      ['I skipped the wash, is that a problem', [/acid/i, /wash|water/i], /normal/i],
    ],
  },
  {
    name: 'the water after the prebath left out, and asked about',
    lines: [
      ...begun,
      ...cleared.slice(0, 5),
      ['I skipped the water rinse, is that OK', [/backing/i, /rinse/i], /normal/i],
    ],
  },
  {
    name: 'the wash left out, with nothing to wash off',
    lines: [...toFinalRinse, ['I skipped the wash, is that a problem', /no harm/i, heldBack]],
  },
];

/** Noticed late, and not too late. */
export const late: Day[] = [
  {
    name: 'put back in what came out too early',
    lines: [
      ...inDeveloper,
      '+100s',
      ['tank empty', [/too short/i, /again/i]],
      ['put it back in', [goAhead, /the rest/i], /bottle 2/i],
      ['developer in', /1 minute 1\d seconds/i],
    ],
  },
  {
    name: 'the final rinse over the fixer, washed after all',
    lines: [
      ...toFinalRinse.slice(0, -3),
      ['final rinse in', /warning: /],
      '+20s',
      ['tank empty', /wash/i, /hang/i],
      ['the film is hung', [/warning: /, /never washed/i]],
    ],
  },
  {
    name: 'the final rinse over the fixer: wash, and rinse again',
    lines: [
      ...toFinalRinse.slice(0, -3),
      'final rinse in',
      '+20s',
      'tank empty',
      'water in',
      '+122s',
      ['tank empty', /next: the final rinse/i],
      'final rinse in',
      '+12s',
      ['tank empty', /hang/i],
      ['the film is hung', /hanging/i, /never/i],
    ],
  },
  {
    name: 'back after five minutes, the developer still in the film',
    lines: [...developed, '+300s', ['I am back', [/gone on working for 5 minutes/i, /stop bath/i]]],
  },
];

/** Not quite as the sheet has it, and nothing to be warned of or asked about. */
export const harmless: Day[] = [
  {
    name: 'two washes in the place of one',
    lines: [
      ...developed,
      ...bath('stop bath', 3, '+30s'),
      ['water in', null, heldBack],
      '+34s',
      ['tank empty', null, heldBack],
      ['water in', null, heldBack],
      '+34s',
      ['tank empty', null, heldBack],
      ['pouring the bleach from bottle 4', goAhead, heldBack],
    ],
  },
  {
    name: 'no bottle named anywhere',
    lines: [
      ...toDeveloper,
      ['pouring the developer', goAhead, heldBack],
      'developer in',
      '+172s',
      ['returning the developer', goAhead, heldBack],
      ['tank empty', /stop bath/i, heldBack],
    ],
  },
  {
    name: 'nothing but in and empty',
    lines: [
      ...toBleach,
      ['in', /bleach is in/i, heldBack],
      '+176s',
      ['empty', /wash/i, heldBack],
      ['in', /water is in/i, heldBack],
      '+64s',
      ['empty', /fixer/i, heldBack],
      ['in', /fixer is in/i, heldBack],
    ],
  },
  {
    name: 'a pause before the wash, and on with it',
    lines: [
      ...developed,
      'stop bath in',
      '+30s',
      'stop bath back into bottle 3',
      'tank empty',
      ['give me a minute', null, heldBack],
      '+50s',
      ['water in', /water is in/i, heldBack],
    ],
  },
  {
    name: 'the bath said to be in twice',
    lines: [...inDeveloper, ['developer is in', /already in/i, heldBack], ['thanks', null, heldBack]],
  },
  {
    name: 'a whole roll, and its bottles asked after',
    lines: [...wholeRoll, ["what's in bottle 2", /1 film/], ["what's in bottle 4", /1 film/]],
  },
];
