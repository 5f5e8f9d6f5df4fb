import { away, type Day, goAhead, heldBack } from './play.js';
import {
  begun,
  developed,
  developedBlackAndWhite,
  inDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFixer,
  water,
  wholeRoll,
} from './usual.js';

/** A bath other than the one that is due, or one too many. */
export const wrongBath: Day[] = [
  {
    name: 'stop bath instead of the water after the prebath, noticed and rinsed off',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      '+12s',
      'tank empty',
      ['stop bath in', heldBack],
      '+20s',
      'tank empty',
      'water in',
      '+50s',
      ['tank empty', null, /next: (the )?bleach|bleach in now/i],
      ['pouring the bleach from bottle 4', [heldBack, /bleach/i], goAhead],
      'cancel',
      ["what's next", /developer/, /next: (the )?bleach/i],
    ],
  },
  {
    name: 'fixer where the bleach was due',
    lines: [
      ...toBleach,
      ['fixer in', /warning: /],
      '+90s',
      ['tank empty', /water|wash/i, /bleach in now|next: (the )?bleach/i],
      ['pouring the bleach from bottle 4', [heldBack, /wash|fixer/i], goAhead],
    ],
  },
  {
    name: 'bleach onto undeveloped film, out at once',
    lines: [
      ...toDeveloper,
      ['bleach in', /warning: /],
      '+4s',
      ['tank empty', /lost|gone/i, /next: the developer/i],
    ],
  },
  {
    name: 'said to be in, and then which bottle it was: what happened is put right, and counts against the film',
    sheet: 'black-and-white',
    lines: [
      'start a run',
      'the film is loaded',
      'pouring the developer',
      'in',
      '+20s',
      ['it was the fixer', [/get it out now/i, /dissolves the picture/i]],
      ['is the film ok', /lost/i, /should come out|next: the developer/i],
      ['what is in bottle 3', /100 millilitres of fixer/i],
    ],
  },
  {
    name: 'the same, where the bath that was in its place does the film less harm',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      'pouring the stop bath',
      'in',
      ['it was the fixer', [/warning: /, /developer left on the film/i]],
      ['is the film ok', /not lost/i, /should come out/i],
      '+30s',
      ['tank empty', /too short: the fixer/i],
      ['oops that was the fixer I had in there', /left as it was/i, /fixer is in/i],
    ],
  },
  {
    name: 'told after it ran out which bath it was',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      ...pour('stop bath', 2),
      '+30s',
      'tank empty',
      ['oops that was the fixer I had in there', /would do harm/i],
      ['confirm', /put right/i],
      ['is the film ok', /not lost/i, /should come out/i],
    ],
  },
  {
    name: 'water that was out too soon: what it left counts before the next bath, and one more wash makes it good',
    sheet: 'c41',
    lines: [
      'start a run',
      'the film is loaded',
      ...pour('developer', 1),
      '+195s',
      'tank empty',
      ...pour('bleach', 2),
      '+390s',
      'tank empty',
      ...water('+30s'),
      ['did I wash it enough', /seconds of water.*too short/i],
      ['pouring the fixer', [heldBack, /bleach left on the film/i], goAhead],
      'cancel',
      ...water('+160s'),
      ['did I wash it enough', /long enough/i],
      ['pouring the fixer', goAhead, heldBack],
    ],
  },
  {
    name: 'a wash that is in for longer than it needs is not over its time',
    sheet: 'c41',
    lines: [
      'start a run',
      'the film is loaded',
      ...pour('developer', 1),
      '+195s',
      'tank empty',
      ...pour('bleach', 2),
      '+390s',
      'tank empty',
      'water in',
      '+240s',
      ['resume the clock', [/answer: /, /water has been in/i], /warning: |drain it now/i],
    ],
  },
  {
    name: 'the last wash out after a tenth of its time',
    sheet: 'black-and-white',
    lines: [
      ...developedBlackAndWhite,
      ...pour('stop bath', 2),
      '+30s',
      'tank empty',
      ...pour('fixer', 3),
      '+420s',
      'tank empty',
      ...water('+60s'),
      ['final rinse in', [/warning: /, /fixer is still on the film/i]],
    ],
  },
  {
    name: 'the whole tank spilled: nothing is in it from then on, and the film had no more of it',
    sheet: 'black-and-white',
    lines: [
      'start a run',
      'the film is loaded',
      ...pour('developer', 1),
      '+60s',
      ['the whole tank spilled', [/500 millilitres of developer/i, /tank empty/i, /less development/i]],
      ['is the film ok', /less development/i, /should come out/i],
    ],
  },
  {
    name: 'a reading that is not to count',
    lines: [
      'developer is at 41.1',
      'bottle 7 holds 500 ml of fixer',
      ['no, ignore that reading', /undone/i],
      ['how warm is the developer', null, /41\.1 degrees/i],
      ['what is in bottle 7', /500 millilitres of fixer/i],
      ['ignore that reading', /nothing/i],
    ],
  },
  ...['c41', 'black-and-white'].map((sheet) => ({
    name: `a word that starts clocks, and nothing was poured: ${sheet}`,
    sheet,
    lines: [
      'start a run',
      'the film is loaded',
      ['go', /question: is the developer in/i, /developer is in/i],
      'cancel',
      ["what's next", /next: (the )?developer/i],
      ['go', /question: is the developer in/i],
      ['confirm', /developer is in/i],
    ] as const,
  })),
  {
    name: 'so warm it was when it went in: what that does, and what makes up for it',
    lines: [
      ...inDeveloper,
      '+60s',
      [
        'i have to admit the developer was only thirty eight when i poured it, not forty one',
        [/3\.1 degrees too cold/i, /more would make up/i],
        /38 millilitres/i,
      ],
      ['what do i do now', /3\.1 degrees too cold/i],
      ['confirm', /added/i],
    ],
  },
  {
    name: 'a yes that tells that it is in starts the clock',
    lines: [
      ...toDeveloper,
      'developer is 43',
      ['pouring the developer from bottle 2', heldBack, goAhead],
      ["yes it's in", /developer is in: 3 minutes/i],
    ],
  },
  {
    name: 'rinsed, and told of afterwards',
    lines: [
      ...begun,
      'film is loaded',
      ...pour('prebath', 1),
      '+10s',
      'prebath back in bottle 1',
      'tank is empty',
      '+50s',
      [
        'I rinsed it already, forty five seconds of water and out again, I just never told you',
        /has had water/i,
      ],
      ['pouring the developer from bottle 2', goAhead, heldBack],
    ],
  },
  {
    name: 'one bath in the bottle of another, and asked about in any words: of what stands there',
    sheet: 'black-and-white',
    lines: [
      'start a run',
      ['I put the fixer in bottle two', heldBack],
      ['it mixed, can I use it', /bottle 2 has fixer in it/i, /nothing against/i],
    ],
  },
  {
    name: 'its bottle was spoiled while it was in the tank: the call does not send it back there',
    sheet: 'black-and-white',
    lines: [
      'start a run',
      'the film is loaded',
      ...pour('developer', 1),
      ['ten millilitres of fixer got into bottle 1', heldBack],
      ['+400s', /drain the developer now/i, /back to bottle 1/i],
    ],
  },
  {
    name: 'a refused pour, and a word that starts clocks',
    lines: [
      ...toDeveloper,
      ['pouring the bleach from bottle 4', /warning: no/i, goAhead],
      ['go', /not|no clock|which|question: /i, /developer is in/i],
    ],
  },
  {
    name: 'bleach from the jug that the developer got into',
    lines: [
      ...developed,
      'bleach in',
      '+6s',
      'tank empty',
      ...water('+50s'),
      'stop bath in',
      '+28s',
      'stop bath back into bottle 3',
      'tank empty',
      ...water('+34s'),
      ['pouring the bleach from the jug', [heldBack, /developer|spoil|mix/i], goAhead],
    ],
  },
  {
    name: 'ten seconds of water in the place of the stop bath',
    lines: [
      ...developed,
      ...water('+8s'),
      ['pouring the bleach from bottle 4', [heldBack, /stop|developer/i], goAhead],
    ],
  },
  {
    name: 'everything after the bleach left out, and the film hung',
    lines: [
      ...toFixer,
      'next step',
      'yes',
      'next step',
      'yes',
      'next step',
      'yes',
      ['the film is hung', /fix|halide|silver/i],
    ],
  },
  {
    name: 'a film loaded and told of after the run was closed',
    lines: [
      ...wholeRoll,
      'the film is loaded',
      ['pouring the bleach from bottle 4', null, /no film|no harm/i],
    ],
  },
];

/** The developer: said late, too short, too long, twice, not measured. */
export const developer: Day[] = [
  {
    name: 'nobody said that the developer was in',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['+178s', /developer/i],
      ['developer back into bottle 2', /take it|developer/i],
      'tank empty',
      'stop bath in',
      '+35s',
      'tank empty',
      ...water('+34s'),
      ['pouring the developer from bottle 2', heldBack, goAhead],
    ],
  },
  {
    name: 'developer announced again after it was returned',
    lines: [
      ...inDeveloper,
      '+170s',
      'developer back into bottle 2',
      '+12s',
      ['pouring the developer from bottle 2', heldBack, goAhead],
      ['developer in', /warning: /, /already in/i],
    ],
  },
  {
    name: 'a hold does not hold the developer',
    lines: [
      ...inDeveloper,
      '+45s',
      'wait',
      ['+480s', /(call|warning|question): [^/]*(develop|drain)/i],
      ['resume', /too long|drain/i],
      ['tank empty', /over|too long|dense|contrast/i],
    ],
  },
  {
    name: 'nearly five minutes',
    lines: [...inDeveloper, '+290s', ['tank empty', /over|too long|dense|contrast/i]],
  },
  {
    name: 'twelve seconds',
    lines: [
      ...inDeveloper,
      '+11s',
      ['tank empty', /early|short|only|seconds of/i],
      ['where are we', /developer/i, /next: the stop bath/i],
    ],
  },
  {
    name: 'the stop bath at seventy seconds',
    lines: [...inDeveloper, '+69s', ['stop bath in', /early|short|only|thin|of 3 minutes/i]],
  },
  {
    name: 'drained at twenty-five seconds, and on with it',
    lines: [
      ...inDeveloper,
      '+24s',
      'tank empty',
      ['pouring the developer from bottle 2', /rest of|little|jug|seconds/i, /already developed|override/i],
    ],
  },
  {
    name: 'cold at the last reading, and that a quarter of an hour ago',
    lines: [
      'start a run',
      'the film is loaded',
      ...toDeveloper.slice(3),
      'developer is at 26',
      ['pouring the developer from bottle 2', [heldBack, /cold|26/i], goAhead],
      'cancel',
      '+1000s',
      ['pouring the developer from bottle 2', /measur|read|minutes ago|26|cold|temperature/i],
    ],
  },
  {
    name: 'never measured',
    lines: [
      'start a run',
      'the film is loaded',
      ...toDeveloper.slice(3),
      ['pouring the developer from bottle 2', /measur|read|thermometer|temperature/i],
    ],
  },
  {
    name: 'a slip of the tongue while it is in',
    lines: [
      ...inDeveloper,
      '+60s',
      'scratch that',
      '+15s',
      ['developer in', /already|so far|since|\?/i, /is in: 3 min/i],
    ],
  },
  {
    name: 'heat lost is no bath spilled',
    lines: [
      ...inDeveloper,
      '+50s',
      ['the temperature dropped to 39.4', null, /spill/i],
      ['where are we', /developer/i, /spill/i],
    ],
  },
  {
    name: 'most of it on the table after it was cleared',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      'spilled 380 ml of developer on the table',
      ['developer in', /220|little|enough|cover|short/i],
    ],
  },
];

/** Undo of one thing, with the developer in for two minutes: the developer stays. */
const undone = (name: string, slip: string): Day => ({
  name: `undo of ${name} with the developer in`,
  lines: [
    ...inDeveloper,
    '+110s',
    slip,
    ['undo', null, /going in|pour the developer/i],
    ['how much time is left', /1 minute/, /no clock/i],
    ['+60s', /call: [^/]*drain the developer/i],
  ],
});

/** A word too many, too late, or taken back. */
export const words: Day[] = [
  {
    name: 'a time that is made longer, and why; and which bottle one bath is in',
    lines: [
      ...inDeveloper,
      ['make it three and three quarter minutes, I underexposed', /added 45 seconds/i, /taken off|shorter/i],
      ['where does the bleach go', /bottle 4 holds/i, /bottle 5/i],
    ],
  },
  {
    name: 'a time that was told of the bath before is not the one that is put right',
    lines: [
      ...inDeveloper,
      'give it fourteen seconds more',
      '+194s',
      'tank empty',
      'pouring the stop bath from bottle 3',
      'stop bath in',
      ['make it forty seconds', /added 10 seconds/i, /put right|14|40 seconds left/i],
    ],
  },
  {
    name: 'numbers that were begun anew or go on',
    lines: [
      'mix a liter of developer',
      'next',
      'next',
      ['plus 0.6', /add 1\.4 milli/i],
      ['two... two point one ml', /2\.1 millilitres .* is right/i],
    ],
  },
  {
    name: 'a number that puts right a number is of what that number was said of',
    lines: [
      'bottle 14 holds 1 liter of developer',
      'bottle 15 holds 1 liter of developer',
      ...toDeveloper,
      'pouring the developer from bottle 14',
      ['no, fifteen', /from bottle 15/i],
      'cancel',
      'pouring the developer from bottle 14',
      ['make it two, not fourteen', /from bottle 2\b/i],
      'developer in',
      'give it fourteen seconds more',
      ['make it twenty, not fourteen', /add 20 seconds/i, /bottle 20/],
      'the tub is at 39',
      ['make it 40, not 39', /tub is at 40/i],
    ],
  },
  undone('a reading', 'fixer is at 31.6'),
  undone('the tub', 'set the tub to 37 degrees'),
  undone('a name', 'call bottle 2 pelican'),
  {
    name: 'a yes that comes five minutes late skips nothing',
    lines: [
      ...toDeveloper,
      'ready',
      '+290s',
      "what's in bottle 3",
      'how long left',
      ['yes', null, /^(?!.*question: ).*skipped/i],
    ],
  },
  {
    name: 'a yes that comes late closes nothing',
    lines: [
      ...inDeveloper,
      '+40s',
      'close the run',
      '+50s',
      'how long left',
      ['yes', null, /^(?!.*question: ).*closed/i],
    ],
  },
  {
    name: 'stop is no bath once the bottle is in the hand',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['stop', /stop|cancel|called off|not/i, /(^|[.:] )pour the developer/i],
    ],
  },
  {
    name: 'skip it is no yes',
    lines: [
      'start a run',
      'the film is loaded',
      'developer is at 37.5',
      ...toDeveloper.slice(3),
      ['pouring the developer from bottle 2', heldBack],
      ['skip it', null, goAhead],
    ],
  },
  {
    name: 'the label is read after the clear',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['from bottle three', [heldBack, /stop|acid/i], goAhead],
      'cancel',
      ['where are we', /developer/i],
      'pouring the developer from bottle 2',
      ['wrong bottle', /called off|cancel|which/i, /(^|[.:] )pour the developer/i],
    ],
  },
  {
    name: 'a bath said before there was a film',
    lines: [
      'start a run',
      'next step',
      'developer in',
      '+500s',
      ['the film is loaded', /film/i, /developer is in/i],
      ['pouring the prebath from bottle 1', /prebath/i],
    ],
  },
  {
    name: 'a mix left open, and next step meant for the run',
    lines: [
      'mix one litre of final rinse',
      'next',
      'next',
      'start a run',
      'next step',
      ['next step', /temperature|film|run\b|which/i],
    ],
  },
  {
    name: 'a sentence of nothing beside a report takes nothing from it',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      '+12s',
      'prebath back into bottle 1',
      ["Tank's empty. That took the whole of a song.", /tank empty/i],
    ],
  },
  {
    name: 'of two of a kind the one is put right by the other, and a lid says nothing of a wet film',
    lines: [
      ...inDeveloper,
      ['spilled 50 ml of developer on the floor', /50 millilitres/i],
      ['No, fifteen millilitres, not fifty, it only looked like a lake.', /spill of 15 millilitres/i],
      '+170s',
      ["that's in two and lid on", /tank empty/i, /film loaded/i],
      ['what is in bottle 2', /developer/i],
    ],
  },
  {
    name: 'more that is spilled puts nothing right',
    lines: [
      ...inDeveloper,
      'spilled 50 ml of developer on the floor',
      ['I spilled some more, about ten mils', /what was spilled|10 millilitres/i, /put right/i],
    ],
  },
  {
    name: 'of on and off the last is meant',
    lines: [
      'start a run',
      'next',
      'heater is on',
      ["I've said off, but I mean on. The heater, on.", /heater (?:is )?on/i, /heater (?:is )?off/i],
    ],
  },
  {
    name: 'how much life is left in a bath is no thing that got into it',
    lines: [
      ...toDeveloper,
      ['bleach got some life left in it', null, /life left in the bleach/i],
      ["there's some life left in the fixer", null, /life left in the fixer/i],
      ['pouring the developer from bottle 2', goAhead],
    ],
  },
];

/** What a short word belongs to: to what was said last, and a doubt to nothing but itself. */
export const afterwards: Day[] = [
  {
    name: 'a number that puts a time right is a time, and is asked about where it may be seconds or minutes',
    lines: [
      ...inDeveloper,
      '+20s',
      'add thirty seconds',
      ['no, four', /4 minutes in all; or .*4 seconds/i, /bottle 4/i],
      ['first', /3 minutes 3\d seconds left/i],
      ['add a minute', /added 1 minute/i],
      ['no two', /add 2 minutes/i, /bottle 2/i],
    ],
  },
  {
    name: 'how long a bath is to have in all, said behind a time that was added',
    lines: [
      ...inDeveloper,
      '+20s',
      'add thirty seconds',
      ['make it four minutes', /3 minutes 3\d seconds left/i, /added 4 minutes/i],
      ['make it five', /4 minutes 3\d seconds left/i, /bottle/i],
    ],
  },
  {
    name: 'a reminder that is put right, and nothing is poured',
    lines: [
      ...inDeveloper,
      'remind me in five minutes to call back',
      ['no four', /in 4 minutes I remind/i, /bottle 4/i],
    ],
  },
  {
    name: 'a number behind a pour is its bottle',
    lines: [
      ...toDeveloper,
      "developer's in from three",
      ['no two', /from bottle 2 into the tank.*developer is in/i],
    ],
  },
  {
    name: 'a bottle that is thought to be the wrong one is a doubt, and its end',
    lines: [
      ...inDeveloper,
      '+60s',
      ['I think that was bottle 4', /warning: .*may have been in the tank/i, /get it out/i],
      ['no it was two', /good: it was the developer/i],
      ['crap I think that was bottle four I poured', /warning: .*may have been in the tank/i],
      ['no sorry it was bottle two after all', /good: it was the developer/i],
      ['how long left', /1 minute 5\d seconds left/i],
    ],
  },
  {
    name: 'told long after that it was another bottle: what is to be done is what is so now',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+210s',
      ['it was bottle 5', /warning: .*fixer before the bleach.*drain the fixer/i],
      ['is it ruined', /drain the fixer/i, /until I call/i],
    ],
  },
  {
    name: 'the bath in its own bottle is not in the tank',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank empty',
      ['developer in the stop bottle', null],
      ["sorry it's in the developer bottle", /to bottle 2/i, /get it out/i],
    ],
  },
  {
    name: 'a return that was booked is taken to the bottle that was meant',
    lines: [
      ...inDeveloper,
      '+172s',
      ['ok out, back into three', /warning: /],
      ['two I mean', /into bottle 2/i, /override/i],
      ['what is in bottle 2', /developer/i],
      ['what is in bottle 3', /stop bath/i, /do not use it/i],
    ],
  },
];

/** A return that was refused, or that nobody asked about, has happened. */
export const allTheSame: Day[] = [
  ...[
    'already did it',
    'too late',
    "oops it's in already",
    "I've done it",
    'it went in anyway',
    'yeah too late',
  ].map(
    (said): Day => ({
      name: `to a return that was refused: ${said}`,
      lines: [
        ...inDeveloper,
        '+172s',
        ['returning the developer to bottle three', /no\. bottle 3 holds the stop bath/i],
        [said, [away, /from the tank to bottle 3.*tank empty/i], /the words are/i],
        ['what is in bottle 3', /do not use it/i],
      ],
    }),
  ),
  {
    name: 'put it in anyway: the words that override are said, and nothing is booked',
    lines: [
      ...inDeveloper,
      '+172s',
      'returning the developer to bottle three',
      ['put it in anyway', null, /noted|tank empty/i],
    ],
  },
  {
    name: 'who swears behind a return has poured it',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+176s',
      ['bleach out to bottle five oops', /destroy each other.*noted: bleach from the tank to bottle 5/i],
      ['what is in bottle 5', /do not use it/i],
    ],
  },
  {
    name: 'tipped into the bottle of another bath before its call',
    lines: [
      ...inDeveloper,
      '+100s',
      ['I tipped it into the stop bottle', [away, /from the tank to bottle 3.*too short/i]],
    ],
  },
];

/** What was told later than it happened, and what is heard beside the sink. */
export const toldLate: Day[] = [
  {
    name: 'so long before it was told is counted from when it was told',
    lines: [
      ...inDeveloper,
      '+60s',
      ['I poured it twenty seconds before I told you', /1 minute 3\d seconds left/i],
    ],
  },
  {
    name: 'so long before it was told, after the bottle was put right',
    lines: [
      ...toDeveloper,
      "developer's in from three",
      'no two',
      '+57s',
      ['it went in twenty seconds before I said', /put right/i],
      ['how long left', /1 minute [34]\d seconds left in all/i],
    ],
  },
  {
    name: 'a bath that went in well before it was said to be in',
    lines: [
      ...inDeveloper,
      '+30s',
      ['dev went in 90 seconds ago', /put right.*1 minute (?:29|30) seconds left/i],
    ],
  },
  {
    name: 'a tank that was empty before it was said to be',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank is empty',
      ['actually I drained it twenty seconds ago', /put right.*had 2 minutes 3\d seconds/i],
      ['how long was the developer in', /2 minutes 3\d seconds/i],
    ],
  },
  {
    name: 'who is called away is back in minutes, and not in a bottle',
    lines: [
      ...inDeveloper,
      '+60s',
      ['doorbell, back in five', /while you are away.*in 5 minutes/i, /bottle 5/i],
      ["phone's ringing, I'll be back in 5", /while you are away/i, /bottle 5/i],
    ],
  },
  {
    name: 'another time for the bath that is in, and its end before that',
    lines: [
      ...inDeveloper,
      '+60s',
      ['change the developer to four minutes', /added 1 minute/i],
      ['cut it short', /confirm to drain early/i],
    ],
  },
  {
    name: 'rinses that are done',
    lines: [
      ...developed,
      ...pour('stop bath', 3),
      '+28s',
      'tank empty',
      ['three rinses done', /had water/i],
      ['pouring bleach in from four', goAhead],
    ],
  },
  {
    name: 'the bath that is due in the bottle that it stands in comes from there',
    lines: [
      ...toDeveloper,
      ['pouring developer in bottle two', /developer.*bottle 2/i, /jug/i],
      ["developer's in", /3 minutes/i],
    ],
  },
  {
    name: 'light in the middle of the fixer',
    lines: [...toFixer, ...pour('fixer', 5), '+60s', ["lid's off", /not fixed through.*until I call/i]],
  },
];
