import type { Day } from './play.js';
import { toDeveloper } from './usual.js';

const asked = 'what is the thing with the wash';

/** A question that may mean one of several is answered as the likeliest, and the others are offered behind it. */
export const offered: Day[] = [
  {
    name: 'a doubtful question is answered at once, and another meaning is picked by its place',
    lines: [
      ...toDeveloper,
      [asked, [/answer: water/i, /or did you mean: .*type second/i], /question: /],
      ['second', /degrees|next: /i, /or did you mean/i],
    ],
  },
  {
    name: 'an offer lapses with the next line, and a yes is none to it',
    lines: [
      ...toDeveloper,
      [asked, /or did you mean/i],
      ['pouring the developer in from bottle 2', /clear: developer/i],
      ['second', 'whatever', /water at/i],
    ],
  },
];
