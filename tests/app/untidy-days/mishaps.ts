import { type Day, goAhead, heldBack } from './play.js';
import { begun, inDeveloper, pour, toBleach, toDeveloper, toFixer } from './usual.js';

const stillOpen = /question: still open: did you mean/i;
const calledOff = /called off|not poured/i;
const maybeNoFilm = "hang on, tank's empty, no film in it";
const shutNothing = 'the spool is lying in the bag still, I have been filling an empty tank';

/** What went otherwise than was said, in people's own order of words, and what was asked of it and not answered. */
export const mishaps: Day[] = [
  {
    name: 'a pour over an open question waits for it, and goes on when it is denied',
    lines: [
      ...begun,
      [maybeNoFilm, /did you mean: there is no film/i],
      ['pouring the prebath from bottle 1', stillOpen, goAhead],
      ['cancel', [/nothing changed/i, goAhead]],
    ],
  },
  {
    name: 'a pour over an open question is judged by what was meant',
    lines: [
      ...begun,
      maybeNoFilm,
      'pouring the prebath from bottle 1',
      ['first', /load the film/i, /clear: prebath\b(?!.*film)/i],
    ],
  },
  {
    name: 'a pour over an open question is not held up twice',
    lines: [
      ...begun,
      maybeNoFilm,
      'pouring the prebath from bottle 1',
      ['pouring the prebath from bottle 1', goAhead, stillOpen],
    ],
  },
  {
    name: 'what is asked over an open question is answered, and the question put once more',
    lines: [
      ...begun,
      maybeNoFilm,
      ['what comes next', [/prebath/i, stillOpen]],
      ['what comes next', /prebath/i, stillOpen],
    ],
  },
  {
    name: 'a question of no fact is not put again',
    lines: [...begun, 'again that one before', ['what comes next', /prebath/i, stillOpen]],
  },
  ...[
    'nothing poured, I moved the thermometer over',
    "haven't tipped any in, just wiping the lid",
    'no I held off',
    'it is all still in the bottle',
  ].map(
    (denial) =>
      ({
        name: `a cleared pour that did not happen: ${denial}`,
        lines: [
          ...toDeveloper,
          'pouring the developer from bottle 2',
          [denial, calledOff],
          ['+6m', null, /is the developer in/i],
        ],
      }) satisfies Day,
  ),
  {
    name: 'not all of it in is no pour called off',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ["I haven't poured it all in", 'whatever', calledOff],
    ],
  },
  ...[
    'oh no wrong jug, it was number three I tipped in there, not two',
    'damn, I grabbed bottle three instead of bottle two',
  ].map(
    (slip) =>
      ({
        name: `another bottle was poured: ${slip}`,
        lines: [
          ...inDeveloper,
          '+10s',
          [slip, [/put right/i, /stop bath/i]],
          ['has the film had any developer', /\b(?:no|not|nothing)\b/i, /yes/i],
          ['what is in bottle 2', /600/],
        ],
      }) satisfies Day,
  ),
  {
    name: 'a bottle that went over the floor was not the one in the tank',
    lines: [
      ...inDeveloper,
      ['bottle three went over the floor, not two', 'whatever', /from bottle 3 into the tank/i],
    ],
  },
  ...[
    'oh no, out of habit I let the developer run down the drain instead of back in the bottle',
    'the developer is gone, straight down the plughole',
  ].map(
    (slip) =>
      ({
        name: `the bath went down the sink: ${slip}`,
        lines: [
          ...inDeveloper,
          '+172s',
          [slip, /sink/i],
          ['what is in bottle 2', /holds 100 millilitres/i, /jug/i],
        ],
      }) satisfies Day,
  ),
  {
    name: 'how and whether it goes down the sink pours nothing away',
    lines: [
      ...inDeveloper,
      ['should I let it run down the drain or not', 'whatever', /noted: developer/i],
      ["don't let it run down the sink", 'whatever', /noted: developer/i],
    ],
  },
  {
    name: 'no film in the tank that was called loaded',
    lines: [
      ...begun,
      [shutNothing, /load the film/i],
      ['is there film in the tank', /\bno\b|not loaded|nothing/i, /film is loaded/i],
      ['pouring the prebath from bottle 1', [/film/i], /^answer: clear/i],
    ],
  },
  {
    name: 'a second roll that waits in its bag empties no tank, nor where the film was before',
    lines: [
      ...begun,
      ['the other roll is still in the bag', 'whatever', /load the film/i],
      ['the film was in the fridge for years', 'whatever', /load the film/i],
    ],
  },
  ...[
    'the probe was sitting in bottle one all along, not in the developer',
    'the thermometer has been in the wrong bottle',
    'that forty one was never the developer',
  ].map(
    (slip) =>
      ({
        name: `a reading of another bottle counts for nothing: ${slip}`,
        lines: [
          ...toDeveloper,
          [slip, /does not count/i],
          ['pouring the developer from bottle 2', heldBack, goAhead],
          ['developer is at 41.1', goAhead],
        ],
      }) satisfies Day,
  ),
  ...['that came out black like ink', 'the rinse ran black'].map(
    (black) =>
      ({
        name: `the rinse is black: ${black}`,
        lines: [
          ...toDeveloper,
          [black, /until it runs clear/i],
          ['what comes next', /backing|water/i, /next: developer/i],
        ],
      }) satisfies Day,
  ),
  {
    name: 'a drink that fell over is nothing of the sink, unless it got into something',
    lines: [
      ...inDeveloper,
      ["spilled my tea, it's nowhere near the bottles", 'whatever', /warning|question/i],
      ['spilled my tea into bottle 3', 'whatever', /takes a moment/i],
      ['what is in bottle 3', /tea/i],
    ],
  },
  {
    name: 'water of the tub on the floor is minded, and nobody asks how much',
    lines: [
      ...inDeveloper,
      ['some of the tub water slopped on the floor', /wet floor/i, /warning|how much/i],
    ],
  },
  {
    name: 'how warm it is, told beside a question, is read',
    lines: [
      ...begun,
      ['poked the probe in the dev again, forty one and a quarter, is that near enough', /developer 41\.3/i],
      ['is the developer at 44 yet', null, /developer 44/i],
      ['the developer should be 43, is it ready', null, /developer 43/i],
    ],
  },
  {
    name: 'a cheer beside a pour does not hold it, what somebody did to the bottle does',
    lines: [
      ...toDeveloper,
      ['number two, glug glug, here it comes', goAhead, heldBack],
      'not yet',
      ['pouring the developer from bottle 2, my brother shook it', heldBack, goAhead],
    ],
  },
  ...[
    'does that hurt it',
    'that does not matter any more does it',
    'did anything go wrong with this roll',
  ].map(
    (asked) =>
      ({
        name: `how the film stands: ${asked}`,
        lines: [...inDeveloper, '+20s', [asked, /record|come out/i, /rinse with water|question: /i]],
      }) satisfies Day,
  ),
  ...(
    [
      ['the heater has dropped into the tub, lead and all, still plugged in', /power|mains|fuse|plug/i],
      ['I get a tingle every time I touch the tap', /power|mains|fuse|plug/i],
      ['smoke is coming out of the socket', /power|mains|fuse|plug/i],
      ['I can smell gas', /leave the room|air/i],
      ['I had a sip from the wrong cup', /rinse the mouth/i],
    ] as const
  ).map(([told, helped]) => ({ name: `danger: ${told}`, lines: [...begun, [told, helped]] }) satisfies Day),
  {
    name: 'a cup that was nearly the wrong one is no alarm',
    lines: [...begun, ['I almost took a sip from the wrong cup', 'whatever', /rinse the mouth/i]],
  },
  {
    name: 'a bath in a jug is read there',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank empty',
      ['the developer is at 36', /36/, /do not know where/i],
      ['pouring the developer from the jug', [/36/, /warning/i], /41\.1 degrees when/i],
    ],
  },
  ...[
    'okay, nothing in the tank now',
    'I drained it, nothing is in the tank now',
    'the reel was in the bag',
  ].map(
    (said) =>
      ({
        name: `a tank that is empty between two baths has its film: ${said}`,
        lines: [...toDeveloper, [said, 'whatever', /nothing has touched the film/i]],
      }) satisfies Day,
  ),
  {
    name: 'a gas behind a fact is told of first',
    lines: [...inDeveloper, ["it's in, the room smells of chlorine", /fresh air/i]],
  },
  ...["I haven't poured anything out, just waiting for the clock", 'it is going down the drain'].map(
    (said) =>
      ({
        name: `what is to come is not done, and stops no clock: ${said}`,
        lines: [...inDeveloper, '+25s', [said, 'whatever', /undone|noted: developer/i]],
      }) satisfies Day,
  ),
  {
    name: 'undo over a pour that waits lets go of the pour alone, and an old one is to be said anew',
    lines: [
      ...begun,
      maybeNoFilm,
      'pouring the prebath from bottle 1',
      ['undo', /nothing changed/i, /undone/i],
      maybeNoFilm,
      'pouring the prebath from bottle 1',
      '+10m',
      ['cancel', /nothing changed/i, goAhead],
    ],
  },
  {
    name: 'a question over a pour that waits is answered, and the pour still waits',
    lines: [
      ...begun,
      maybeNoFilm,
      'pouring the prebath from bottle 1',
      ['what is the developer at', [/41\.1/, stillOpen]],
      ['cancel', goAhead],
    ],
  },
  ...[
    'oops I poured the fixer in instead of the developer',
    'damn, put the fixer in and not the developer',
    'oh crap, that was fixer not developer',
    'no, it was the fixer bottle instead of the developer',
  ].map(
    (said) =>
      ({
        name: `a bath that is in instead of the one that was due is called out: ${said}`,
        lines: [...toDeveloper, [said, /get it out now/i], ['what now', /drain the fixer/i]],
      }) satisfies Day,
  ),
  {
    name: 'what now leads on past no question of which bath was in',
    lines: [
      ...toBleach,
      ['oh no that was the fixer', /question: .*fixer is in the tank/i],
      ['what now', /question: .*fixer is in the tank/i, /next: /i],
    ],
  },
  ...['shaking was late by 20 seconds', 'I turned it half a minute late'].map(
    (said) =>
      ({
        name: `nothing was drained: ${said}`,
        lines: [...inDeveloper, '+60s', [said, 'whatever', /drained/i]],
      }) satisfies Day,
  ),
  ...['the timer on my phone says three minutes are over', 'my stopwatch is up'].map(
    (said) =>
      ({
        name: `time is up: ${said}`,
        lines: [...inDeveloper, '+181s', [said, /drain the developer|too long/i, /remind/i]],
      }) satisfies Day,
  ),
  ...['bottle two leaked, there is only 400 ml left', 'bottle 2 leaks, about 400 ml still in it'].map(
    (said) =>
      ({
        name: `what is left in a bottle that leaked: ${said}`,
        lines: [
          ...inDeveloper,
          [said, /holds 400 millilitres/i, /all of bottle 2/i],
          ["what's in bottle 2", /400/],
        ],
      }) satisfies Day,
  ),
  {
    name: 'a bath told of is no fresh one, and the bath that was in when a run was closed is none that is missing',
    lines: [
      'bottle 4 holds bleach',
      ['how old is the bleach', /nobody told me when/i, /less than a day|months/i],
      ...['start a run', 'the film is loaded', ...pour('prebath', 1), '+10s', 'close the run'],
      ['yes', /never had the developer/i, /never had the prebath/i],
    ],
  },
  {
    name: 'a film with fixer or without its baths is not to be hung yet',
    lines: [
      ['can I hang the film', /by one clip/i],
      ...toFixer,
      ['can I hang the film', /not yet: .*never had the fixer/i, /by one clip/i],
      ...pour('fixer', 5),
      ['how do I hang it', /not yet: fixer/i, /by one clip/i],
    ],
  },
  {
    name: 'a developer that is thinned in the tank, or short there',
    lines: [
      ...inDeveloper,
      ['I topped the tank up with water', /thinned.*weakly/i, /no harm/i],
      ['the tank is only half full', /250 millilitres short/i],
    ],
  },
  {
    name: 'a tank that takes less than what is in it',
    lines: [
      ...inDeveloper,
      ['the tank takes 250 ml', [/takes 250/, /500 millilitres of developer/, /how much/i]],
    ],
  },
  ...['no, it was the stop bottle', 'sorry, that was the stop bath bottle'].map(
    (said) =>
      ({
        name: `the other bottle is the spoiled one: ${said}`,
        lines: [
          ...inDeveloper,
          '+172s',
          'developer is out',
          ['I poured it into the fixer bottle by mistake', /bottle 5/i],
          [said, [/put right/i, /bottle 3/i]],
          ["what's in bottle 5", /fixer/i, /do not use|developer/i],
          ["what's in bottle 3", /do not use/i],
        ],
      }) satisfies Day,
  ),
  ...['black film no images', 'the negatives came out all black'].map(
    (said) => ({ name: said, lines: [[said, /light got in.*bleach and fix/i]] }) satisfies Day,
  ),
  ...["it's in bottle 5 the developer"].map(
    (said) =>
      ({
        name: `where a bath is that works in the tank is asked, and its clock goes on: ${said}`,
        lines: [...inDeveloper, '+25s', [said, /question: .*holds the developer/i, /tank empty/i]],
      }) satisfies Day,
  ),
];
