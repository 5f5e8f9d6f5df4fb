import { type Day, heldBack } from './play.js';
import { bath, begun, developed, inDeveloper, pour, toBleach, toDeveloper } from './usual.js';

const maybeFixer = /the fixer may have been in the tank; by my record it was the stop bath/i;
/** What a line tells and doubts at once, and that both are kept. */
const bothKept = (before: readonly string[], said: readonly string[], fact: RegExp, doubt: RegExp): Day[] =>
  said.map((line) => ({
    name: line,
    lines: [...before, [line, [fact, doubt]], ['is the film ok', /I cannot say/, /should come out/i]],
  }));

/** A doubt in the same line as a fact: the fact stands, and the doubt counts until it is settled. */
export const doubts: Day[] = [
  ...bothKept(
    developed,
    [
      "stop's in, or maybe that was the fixer",
      'the stop is in but it could have been the fixer',
      'poured the stop, not sure if it was three or five',
      "stop bath in, though i'm worried it was the fixer",
    ],
    /stop bath is in/i,
    maybeFixer,
  ),
  ...bothKept(
    toDeveloper,
    ["dev's in but maybe i grabbed bleach", "developer's in i think it could be the bleach though"],
    /developer is in: 3 minutes/i,
    /bleach may have been in the tank.*destroys the picture/i,
  ),
  ...bothKept(
    inDeveloper,
    ['i think it was the bleach', 'it was the bleach i think', 'it was bottle four maybe'],
    /by my record it was the developer/i,
    /bleach may have been in the tank/i,
  ),
  {
    name: 'a doubt that was told with the fact holds the next pour',
    lines: [
      ...developed,
      ["the stop's in but it might have been the final rinse", /final rinse may have been/i],
      '+28s',
      'stop bath back into bottle 3',
      'tank empty',
      'water in',
      '+34s',
      'tank empty',
      ['pouring the bleach from bottle 4', [heldBack, /not settled/i]],
    ],
  },
  {
    name: 'what is only believed to have ruined the film may have',
    lines: [
      ...toDeveloper,
      ['bleach is in, i think', [/get it out now/i, /developer may have been in the tank/i]],
      '+5s',
      ['tank is empty', /may be lost/i, /picture is lost\.|destroyed/i],
      ['is the film ok', /may be lost/i, /nothing brings it back/i],
    ],
  },
  {
    name: 'a bath that was due and is in, as far as somebody thinks, is in',
    lines: [...toDeveloper, ["developer's in, i think", /developer is in: 3 minutes/i, /may have been/i]],
  },
];

const gone = (said: string, bottle: number): Day => ({
  name: said,
  lines: [
    ...toBleach,
    [said, /to the sink/i, /did you mean/i],
    [`what's in ${bottle}`, new RegExp(`bottle ${bottle} is empty`, 'i')],
  ],
});
/** What was thrown away is gone from its bottle, in whatever words; of a bath in the tank it is the tank that is empty. */
export const thrownAway: Day[] = [
  gone('threw the bleach out', 4),
  gone('dumped the stop', 3),
  gone('poured the rest of the fixer down the sink', 5),
  gone('got rid of the old fixer', 5),
  gone('flushed the fixer down the loo', 5),
  gone('emptied the fixer into the sink', 5),
  gone('the bleach went in the waste bucket', 4),
  gone("i've thrown away the final rinse", 6),
  gone('bottle five is down the drain', 5),
  {
    name: 'a bath in the tank that is thrown out leaves it empty, and its bottle as it is',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+176s',
      ['threw the bleach out', /tank empty/i],
      ["what's in four", null, /is empty/i],
    ],
  },
  {
    name: 'thrown away is no question, and one is asked about where no bath is named',
    lines: [
      ...begun,
      ['can I pour the fixer down the drain', null, /noted/i],
      ['poured the rest down the sink', /which|what went where/i],
      ["what's in five", null, /is empty/i],
    ],
  },
];

const notToBeUsed = /not to be used as it is/i;
/** What speaks against a bottle speaks in every answer about it, and not only where it was said. */
export const heldAgainst: Day[] = [
  {
    name: 'a developer that was said to be brown is good for no film, however it is asked',
    lines: [
      'dev is brown',
      ['can i use the developer', notToBeUsed, /about \d/i],
      ['how many films left in two', notToBeUsed, /about \d/i],
      ['can i do another film', [/^answer: no\. the developer/i, notToBeUsed]],
    ],
  },
  {
    name: 'a bath with another in it from the film, put back all the same',
    lines: [
      ...begun,
      'prebath in',
      '+60s',
      'tank empty',
      'developer in',
      '+172s',
      ['developer back into bottle 2', [heldBack, /prebath in it/i]],
      'confirm',
      'tank empty',
      ["what's in two", /do not use it: it has had prebath in it/i],
      ['how many films left in two', notToBeUsed, /about \d/i],
      ["what's in the bottles", /do not use bottle 2/i],
    ],
  },
  {
    name: 'what is said against a return that is made all the same is held against its bottle',
    lines: [
      ...inDeveloper,
      '+172s',
      ["developer back into bottle 2, there's prebath in it", [heldBack, /there's prebath in it/i]],
      'confirm',
      'tank empty',
      ["what's in two", /do not use it/i],
      ['can i use the developer', notToBeUsed],
    ],
  },
  {
    name: 'so many films left in three is of bottle three',
    lines: [['how many films are left in three', /stop bath/i, /^answer: (yes|no|just)/i]],
  },
];

/** How warm it is, told as people do: in a row, twice, of a bottle that cools outside. */
export const readings: Day[] = [
  {
    name: 'several in a row are each a reading',
    lines: [
      'start a run',
      ["fixer's 30 and rinse is 35", [/fixer 30/i, /final rinse 35/i]],
      [
        'stop 38 bleach 37 fixer 31 rinse 35',
        [/stop bath 38/i, /bleach 37/i, /fixer 31/i, /final rinse 35/i],
      ],
      ['what temp is the fixer', /fixer 31, read/i],
    ],
  },
  {
    name: 'what is said twice is meant, and a number by itself is the reading that was asked about',
    lines: [
      'start a run',
      ['developer is 105', /fahrenheit/i],
      ['developer is 105', /^answer: developer 40\.6/i, /not taking|confirm/i],
      ['bleach is 50', /is 50 right/i],
      ['38.5', [/not taking the 50/i, /bleach 38\.5/i]],
    ],
  },
  {
    name: 'a bottle out of the tub may cool as fast as somebody makes it',
    lines: [
      'start a run',
      'prebath is 42.9',
      ['prebath out', /prebath out of the tub/i],
      '+7m',
      ['prebath is 35', /prebath 35/i, /expected|confirm/i],
      '+1m',
      ['prebath 27.5', /in tolerance/i, /expected|confirm/i],
      ['prebath is 41', /expected/i],
    ],
  },
];

const more = /rest now until I call.*more contrast/i;
/** Turned more than was called: less of it, and what it does. */
export const turned: Day[] = [
  ...["I've been shaking it the whole time", 'gave it too much agitation', 'i never stopped turning it'].map(
    (line): Day => ({
      name: line,
      lines: [
        ...inDeveloper,
        '+60s',
        [line, more, /agitate now/i],
        ['is the film ok', /turned more than it should/i],
        ['should i shake it the whole time', null, more],
      ],
    }),
  ),
  {
    name: 'a developer that was drained at its call was not too short',
    lines: [
      ...toDeveloper,
      ...pour('developer', 2),
      '+165s',
      'developer back into bottle 2',
      'tank empty',
      ...bath('stop bath', 3, '+28s'),
      ['why is it so thin', null, /developer was in|165/i],
    ],
  },
];

const developerWeighed = ['mix one litre of developer', 'next', 'next'];
/** A mix told in few words: what is in is in, each part is kept or refused aloud, and no other part is left out. */
export const inFewWords: Day[] = [
  {
    name: 'it is in, in the words of hands in gloves',
    lines: [
      'mix half a litre of bleach',
      'next',
      'next',
      ['in', /what did the scale say/i],
      '20 grams',
      ['in', /weigh 12\.50 grams/i],
      '12.5 grams',
      ['poured', /all is in/i],
    ],
  },
  {
    name: 'parts told ahead are each kept, aloud',
    lines: [
      ...developerWeighed,
      ['bromide 0.6', /already in the water/i],
      ["it's in", /sodium bromide went in before/i],
      ['25 grams carbonate', /already in the water/i],
      ["it's in", /sodium carbonate went in before/i],
      ['where am i', [/0\.60 grams of sodium bromide/i, /25\.00 grams of anhydrous sodium carbonate/i]],
    ],
  },
  {
    name: 'a part that is named is the one that is meant',
    lines: [
      ...developerWeighed,
      ['skip the bromide', /sodium bromide/i, /leave it out|anti-calcium/i],
      ['carbonate 15.4 went in', /carbonate/i, /too much anti-calcium/i],
    ],
  },
  {
    name: 'too much of an acid is asked about until it is settled whether it is in',
    lines: [
      'mix one litre of stop bath',
      'next',
      'next',
      ['300 ml', /too much/i],
      ["ok that's it", /if it is in the water, say dissolved/i, /not in yet/i],
      ['dissolved', /cannot become right/i],
    ],
  },
];

/** When a bath was mixed, put right; and a film that is loaded while all is warm. */
export const datesAndFilm: Day[] = [
  {
    name: 'no, yesterday',
    lines: [
      'I mixed the developer three weeks ago',
      ['no, yesterday', /developer in bottle 2 is 1 day old/i],
      ['no, two weeks ago', /14 days old/i],
    ],
  },
  {
    name: 'everything is at temp and the film is loaded: no bath asks for the film again',
    lines: [
      'start a run',
      ["everything is at temp and film's loaded", /film loaded/i],
      ['prebath in', /prebath is in/i, /is there film/i],
    ],
  },
];
