import { type Day, goAhead, heldBack } from './play.js';
import { begun, inDeveloper, pour, toBleach, toDeveloper, toFixer } from './usual.js';

const open = [/cannot say/i, /fixer/i] as const;
const allClear = /nothing in my record is against/i;

/** What may have been in the tank, or in a bottle, and was not settled. */
export const unsettled: Day[] = [
  {
    name: 'it may have been the fixer: the film is not called well, and the next pour waits once',
    lines: [
      ...toBleach,
      ['I think it was the fixer I poured in instead of the stop', /silver|not settled/i],
      ['is the film ok', open, allClear],
      ['pouring the bleach from bottle 4', [heldBack, /fixer/i], goAhead],
      ['confirm', goAhead],
      'bleach is in',
      ['is it ruined', open, allClear],
      ['no, it was the stop', /stop bath, as I have it/i],
      ['is it ruined', allClear],
    ],
  },
  {
    name: 'a bottle that may have been the wrong one is told, and put right afterwards',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      ['could have been bottle 5 that went in', /not settled/i],
      ['is it ruined', open, allClear],
      ['it was bottle 5', /put right/i],
      ['is it ruined', /silver/i, allClear],
    ],
  },
  {
    name: 'that it is not settled what was in is said once, of baths that are told as well, and puts no words into a mouth',
    lines: [
      ...toBleach,
      'I think it was the fixer I poured in instead of the stop',
      ['bleach in', /it may have been the fixer/i, /you said/i],
      '+176s',
      ['it is back in bottle 4', null, /may have been/i],
      ['water in', null, /may have been/i],
      ['is it ruined', open, allClear],
    ],
  },
  {
    name: 'how long the last water had is of no other bath',
    lines: [
      ...toFixer,
      ['that last water had only ten seconds', /question: /],
      ['pouring the fixer from bottle 5', null, /may have been/i],
    ],
  },
  {
    name: 'a question about the tank that nobody answers',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      ['fixer in', /question: .*fixer/i],
      ['is the film ok', open, allClear],
      ['cancel', null],
      ['is the film ok', allClear],
    ],
  },
  {
    name: 'what is not settled keeps the bath out of its bottle as well',
    lines: [
      ...inDeveloper,
      ['hm, I may have put in the stop instead', /not settled/i],
      '+165s',
      ['returning the developer to bottle 2', [heldBack, /stop bath/i], goAhead],
      ['that was the developer', /developer, as I have it/i],
      ['returning the developer to bottle 2', goAhead],
    ],
  },
  {
    name: 'what may have got into a bottle is named until it is settled',
    lines: [
      ...inDeveloper,
      '+165s',
      'returning the developer to bottle 2',
      'tank is empty',
      ['I put the developer in bottle 3 by mistake', /question: /i],
      ['what is in bottle 3', [/developer may be in it/i, /do not use/i]],
    ],
  },
  {
    name: 'a bath that just left the tank went into another bottle: all of it',
    lines: [
      ...inDeveloper,
      '+165s',
      'tank is empty',
      ['I put the developer in bottle 3 by mistake', /warning: /i],
      ['what is in bottle 3', /500 millilitres of developer/i],
      ['what is in bottle 2', /100 millilitres of developer/i],
    ],
  },
];

/** Some of a bath is on the floor. */
export const lost: Day[] = [
  {
    name: 'half of a bottle, told in one breath with how it came about',
    lines: [
      ...toFixer,
      ['ah no, knocked bottle six over with my elbow, half of it is on the floor', /spill noted: 300 milli/i],
      ['what is in bottle 6', /300 milli/i],
      'bottle six fell over, about half ran out',
      ['what is in bottle 6', /150 milli/i],
    ],
  },
  {
    name: 'some of a bottle, and nobody knows how much',
    lines: [
      ...toFixer,
      ['spilled some of bottle five', /how much/i],
      ['what is in bottle 5', /nobody said how much is left/i],
      ['pouring the fixer from bottle 5', [heldBack, /spilled/i], goAhead],
      ['bottle 5 holds 550 ml', null],
      ['pouring the fixer from bottle 5', goAhead],
    ],
  },
  {
    name: 'half of what runs back goes astray',
    lines: [
      ...inDeveloper,
      '+165s',
      'returning the developer to bottle 2',
      ['half of it went on the floor', /250 milli/i],
      'tank is empty',
      ['what is in bottle 2', /350 milli/i],
    ],
  },
  {
    name: 'the tank falls, and all of its bath is gone: the film had that little of it',
    lines: [
      ...inDeveloper,
      ['the tank fell over, all of it on the floor', [/500 milli/i, /tank empty/i, /lid/i], /film fell/i],
      ["what's in the tank", /empty/i],
    ],
  },
  {
    name: 'a bottle that is not known, knocked over before a run',
    lines: [...begun, ['knocked over bottle seven, about half', /what was spilled/i]],
  },
  {
    name: 'a question that has no bearing on a pour does not hold it up',
    lines: [
      ...toDeveloper,
      ['pouring the bleach from bottle 4', heldBack, goAhead],
      "nope, I've set it down again",
      ['pouring the developer from bottle 2', goAhead, /still open/i],
    ],
  },
  {
    name: 'a bath of another process is never taken for the one that is due',
    lines: [
      ...toDeveloper,
      ['conditioner is in', /has no conditioner/, /developer is in/i],
      ['pouring the blix in now', [/blix/, /which bath/i], goAhead],
    ],
  },
  {
    name: 'another tank and how much it takes are both told in one sentence',
    lines: [
      ...begun,
      ["it's the big tank today, it takes a litre", /1 litre/, /did you mean/i],
      ['pouring the prebath from bottle 1', heldBack],
    ],
  },
];
