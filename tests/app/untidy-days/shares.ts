import { type Day, goAhead, heldBack } from './play.js';
import { begun, cleared, inDeveloper, pour, toDeveloper, water } from './usual.js';

/** So much of a bath as a share of what it is a share of, and a bath whose way has to be asked for. */
export const shares: readonly Day[] = [
  {
    name: 'half of what stands in a jug is half of that, and not of its bottle',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      '+12s',
      'tank empty',
      ['I spilled half of the prebath', /250 millilitres of prebath/],
      [
        'how much prebath do I have',
        /250 millilitres of prebath is in a jug\. Bottle 1 holds 100 millilitres/,
      ],
    ],
  },
  {
    name: 'half of it, once it is back in its bottle, is half of that bottle',
    lines: [
      ...begun,
      ...cleared.slice(0, -3),
      ['I spilled half of it', /300 millilitres of prebath/],
      ['how much prebath do I have', /bottle 1 holds 300 millilitres/i],
    ],
  },
  {
    name: 'half of a bath that is in is half of what the tank takes',
    lines: [
      'the tank takes 400 ml',
      ...toDeveloper,
      ['half of the developer is in', [/200 millilitres does not cover/, /takes 400 millilitres/]],
      ['where are we', /200 millilitres of 400 millilitres are in the tank/],
    ],
  },
  {
    name: 'a bath told from the bottle of another: which bottle is its own is said',
    lines: [
      ...toDeveloper,
      [
        'developer in from bottle 5',
        [/bottle 5 is the fixer/i, /say: it was bottle 2/, /say: it was bottle 5/],
      ],
    ],
  },
  {
    name: 'where a bath went is answered by any pour of it, down the sink or into its bottle',
    lines: [
      ...inDeveloper,
      '+172s',
      ['pouring the developer back into bottle 5', heldBack],
      ['tank is empty', /where did the developer go/i],
      ['pouring the developer down the sink', [/developer from the tank to the sink/, /tank empty/i]],
      ['where is the developer', /bottle 2 holds 100 millilitres/i],
      ['undo', /undone/i],
      ['pouring the developer back into bottle 2', [/developer from the tank to bottle 2/, /tank empty/i]],
      ['where is the developer', /bottle 2 holds 600 millilitres/i],
    ],
  },
  {
    name: 'what was on the film is asked about at one pour, and not at each after it',
    lines: [
      ...toDeveloper,
      ["stop's in but it might have been the fixer", /not settled/],
      '+20s',
      'tank empty',
      ...water('+30s'),
      ['pouring the developer from bottle 2', [heldBack, /may have been the fixer/], goAhead],
      'confirm',
      'developer in',
      '+172s',
      'developer into a jug',
      'tank empty',
      ['pouring the stop bath from bottle 3', null, /may have been the fixer/],
    ],
  },
  {
    name: 'half of it went in while somebody was at the door: the rest is asked for, and taken',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ["I've only got half the developer in and the phone's ringing", /pour in the rest now/i],
      '+8s',
      ["okay that's the rest in now", /developer is in/i, /did you mean/i],
    ],
  },
];
