import { type Day, goAhead, heldBack } from './play.js';
import {
  bath,
  begun,
  developed,
  inDeveloper,
  pour,
  toBleach,
  toDeveloper,
  toFinalRinse,
  toFixer,
  water,
} from './usual.js';

/** What hands have just done, told in the perfect and in any order: each is a fact, and none is asked about. */
export const handled: Day[] = [
  ...[
    'i have loaded the film now',
    'loaded up both films and shut the lid',
    "we've wound the roll on the reel",
  ].map((line) => ({
    name: `film loaded: ${line}`,
    lines: [
      'start a run',
      'developer is at 41.1',
      [line, /film loaded/i, heldBack] as const,
      ['the prebath is in', /prebath is in/i, heldBack] as const,
    ],
  })),
  ...[
    "i've poured the prebath in from 1",
    'we poured in the prebath out of bottle one',
    'put the prebath in from bottle one',
    "the prebath's in from 1",
    'prebath went in out of bottle one',
  ].map((line) => ({
    name: `a bath poured in: ${line}`,
    lines: [...begun, [line, /prebath is in/i, heldBack] as const, ['+11s', /drain the prebath/i] as const],
  })),
  ...[
    "prebath's out, back in its bottle, bottle one",
    "i've poured the prebath back into one",
    'the prebath has gone back to bottle one, tank is empty',
  ].map((line) => ({
    name: `a bath back in its bottle: ${line}`,
    lines: [
      ...begun,
      'the prebath is in',
      '+11s',
      [line, /tank empty/i, /question: |empty already/i] as const,
      ['what is in bottle 1', /600 millilitres of prebath/i] as const,
    ],
  })),
  ...["it's in, the developer", "that's in, the developer", "it's in the developer"].map((line) => ({
    name: `a pronoun and its bath: ${line}`,
    lines: [
      ...toDeveloper,
      ['pouring the developer from bottle 2', goAhead] as const,
      [line, /developer is in: 3 minutes/i, /warning|question/i] as const,
      ['+60s', /agitate/i] as const,
    ],
  })),
  ...[
    "the developer's gone back in two and the stop is in already",
    'the developer went back to bottle two and the stop bath is in',
    "i've put the developer back in 2 and the stop's in",
  ].map((line) => ({
    name: `out and in in one breath: ${line}`,
    lines: [
      ...inDeveloper,
      '+172s',
      [line, /stop bath is in/i, /question: /] as const,
      ['+30s', /drain the stop/i] as const,
    ],
  })),
  ...[
    'how much is left in 3',
    'what have i got left in two',
    'so how much do i still have in bottle two',
  ].map((line) => ({
    name: `a bottle by its number: ${line}`,
    lines: [...toDeveloper, [line, /three|two|bottle [23] holds/i, /question|bottle 4/i] as const],
  })),
  ...[
    'i kicked bottle four over and lost 100 ml',
    "i've knocked bottle 4, a hundred ml of bleach is gone on the worktop",
    'bumped bottle four over, about a hundred ml went on the floor',
  ].map((line) => ({
    name: `a bottle knocked over: ${line}`,
    lines: [
      'start a run',
      'bottle 4 holds 600 ml of bleach',
      [line, /warning/i, /question: /] as const,
      ['what is in bottle 4', /500 millilitres/i] as const,
    ],
  })),
  ...[
    "bottle one's cracked so the prebath's in bottle seven today",
    'the prebath is in bottle seven instead',
    "bottle one is leaking so i've put the prebath in bottle seven",
  ].map((line) => ({
    name: `a bath that stands elsewhere: ${line}`,
    lines: [
      'start a run',
      [line, /bottle 7/i, /question: /] as const,
      'developer is at 41.1',
      'the film is loaded',
      ['the prebath is in', /prebath is in/i, heldBack] as const,
      ['+11s', /drain the prebath/i, /to bottle 1\b/] as const,
      'tank empty',
      ...water('+50s'),
    ],
  })),
  ...[
    "oh bugger, about 10 ml of fixer's just splashed into the developer bottle",
    'oh hell, 10 ml of fixer has gone into bottle two',
    'oh my god, a splash of fixer is in the developer bottle',
  ].map((line) => ({
    name: `cried out and told: ${line}`,
    lines: [
      'start a run',
      [line, [/fixer/i, /developer/i], /how much was spilled/i] as const,
      'developer is at 41.1',
      'the film is loaded',
      'the film had the prebath and the rinse',
      ['pouring the developer from bottle 2', [heldBack, /fixer/i], goAhead] as const,
    ],
  })),
  ...[
    'wait, i said that too soon, it is only going in',
    'i told you too early, i have only poured it in',
  ].map((line) => ({
    name: `said before it was in: ${line}`,
    lines: [
      ...inDeveloper,
      '+30s',
      [line, null, /question: /] as const,
      ['how long left', /2 minutes 5\d|3 minutes/i] as const,
    ],
  })),
  ...["no, ignore that, it's still in there", "wait, it isn't, scrap that, the developer is still in"].map(
    (line) => ({
      name: `an emptied tank taken back: ${line}`,
      lines: [
        ...inDeveloper,
        '+120s',
        'tank empty',
        [line, null, /question: /] as const,
        ['what is in the tank', /developer/i, /rest of the developer/i] as const,
        ['+52s', /drain the developer/i] as const,
      ],
    }),
  ),
  {
    name: 'a bath that did more than it takes',
    lines: [
      'start a run',
      ["the developer's had 30 rolls through it and i never topped it up", /developer/i, /question: /],
    ],
  },
  ...[
    "my thermometer's in fahrenheit, the developer's 106 fahrenheit",
    'the thermometer reads fahrenheit and the developer is 106 fahrenheit',
  ].map((line) => ({
    name: `in Fahrenheit: ${line}`,
    lines: ['start a run', [line, /41\.1/] as const],
  })),
  {
    name: 'what goes in next is of the run, where nothing is mixed',
    lines: [...toDeveloper, ['what goes in next then', /developer/i, /mix/i]],
  },
  {
    name: 'a cleared bath that is back in its own bottle was in, however soon that is told',
    lines: [
      ...begun,
      'pouring the prebath in from bottle 1',
      '+10s',
      ['prebath is back in bottle one now', /tank empty/i, /what about it/i],
      ['water in', /water is in/i],
    ],
  },
  ...['no wait, i have not poured it yet', "oh, i didn't pour the developer yet"].map((line) => ({
    name: `not in after all: ${line}`,
    lines: [...inDeveloper, '+5s', [line, /undone/i, /did you mean|confirm/i] as const],
  })),
  ...['only 400 ml went in, the rest is still in bottle 2', 'so only about 400 ml of it is in'].map(
    (line) => ({
      name: `a bath of less: ${line}`,
      lines: [
        ...toDeveloper,
        "the developer's in from bottle 2",
        [line, /400 millilitres/i, /spill/i] as const,
        ['what is in bottle 2', /200 millilitres/i] as const,
      ],
    }),
  ),
  ...[
    'the film it is loaded and my developer it has 41.1',
    'the film is loaded and the developer is at 41.1',
  ].map((line) => ({
    name: `two facts in a line, one of them early: that one is asked about: ${line}`,
    lines: [
      'start a run',
      [line, /developer 41\.1.*did you also mean: the film is loaded/is] as const,
      ['yes', /film loaded/i] as const,
      ['pouring the prebath in from bottle 1', /clear: prebath/i, heldBack] as const,
    ],
  })),
  ...["hold on, it's not in yet, still in the jug", 'wait, the developer is still in the beaker'].map(
    (line) => ({
      name: `not in yet: ${line}`,
      lines: [
        ...inDeveloper,
        [line, /undone: the developer is in/i, heldBack] as const,
        ['+60s', /is the developer in/i, /agitate/i] as const,
        ['developer is in', /is in: 3 minutes/i] as const,
      ],
    }),
  ),
  ...[
    "i've moved the bleach, it's in seven now, four's been rinsed and is empty",
    "i've moved the bleach to bottle seven",
  ].map((line) => ({
    name: `a bath moved: ${line}`,
    lines: [
      'start a run',
      [line, /bleach from bottle 4 to bottle 7/i, heldBack] as const,
      ['what is in bottle 7', /bleach/i] as const,
      ['what is in bottle 4', /empty/i] as const,
    ],
  })),
  ...[
    'that bleach in bottle four, i mixed it two months ago',
    'the bleach, we made that two months back',
  ].map((line) => ({
    name: `a bath named before what is told of it: ${line}`,
    lines: [
      [line, /bottle 4 is 2 months old/i, heldBack] as const,
      ['how old is the bleach', /2 months/i] as const,
    ],
  })),
  {
    name: 'a film known by its name, and the bleach asked for',
    lines: [
      ...begun,
      ["this one's double-x, you know, the black and white stuff", /silver is the picture/i],
      ['can i put it through the bleach like the others', /no\. /i, /^answer: yes/i],
    ],
  },
  {
    name: 'a reading that no bath has',
    lines: [
      'start a run',
      ['bleach is 3.8', /did you mean 38/i],
      ['what is the bleach at', /no reading/i],
      ['confirm', /bleach 38/i],
      ['prebath is 7 degrees', /is it right/i],
      ['prebath is 7 degrees', /prebath 7\./i, /question/i],
    ],
  },
  {
    name: 'the words that override, behind why',
    lines: [
      ...developed,
      ['bleach going in from bottle 4', /do not pour/i],
      ['do not override the guard and pour anyway', /the words are/i, /overridden/i],
      ['what if i say: override the guard and pour anyway', /the words are/i, /overridden/i],
      ["i know, i haven't any stop bath. override the guard and pour anyway", /go ahead.*overridden/i],
    ],
  },
  {
    name: 'a pour that is hardly meant and would be refused',
    lines: [...begun, ['developer next i reckon, going in from bottle two', /backing/i, /did you mean/i]],
  },
  {
    name: 'anyway, where nothing was refused',
    lines: [['ok start a run anyway', /run started/i, /override/i]],
  },
  ...[
    "I've tipped it into the fixer bottle",
    "it went in the fixer's bottle instead",
    'emptied the lot into the fixer',
  ].map(
    (line): Day => ({
      name: `a bath that leaves the tank for another one's bottle: ${line}`,
      lines: [
        ...toBleach,
        ...pour('bleach', 4),
        '+176s',
        [line, /warning: bottle 5 holds the fixer.*destroy each other/i, /in the tank|fixer is in/i],
        ['is the fixer still good', /bleach/i, /answer: yes/i],
      ],
    }),
  ),
  ...[
    "the stop's back",
    'put it back in the stop bottle',
    'all out, stop is back in its bottle',
    "it's all back in the bottle, tank's empty",
  ].map(
    (line): Day => ({
      name: `a bath that is back in its bottle, whichever that is: ${line}`,
      lines: [
        ...developed,
        ...pour('stop bath', 3),
        '+28s',
        [line, /tank empty\. next: wash/i, /already in|clear:/i],
        ['what is in bottle 3', /stop bath/i],
      ],
    }),
  ),
  {
    name: 'how long a bath is to stay in all',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+60s',
      ['make it five minutes', /added 2 minutes/i],
      ['leave it in four minutes altogether', /added 1 minute.*2 minutes 5\d seconds left/i],
      ['how long left', /2 minutes 5\d/i],
    ],
  },
  {
    name: 'a bath that went in some seconds before it was said',
    lines: [
      ...developed,
      'pouring the stop bath from bottle 3',
      '+20s',
      ['I poured it before telling you, some eight seconds back', /since 8 seconds/i],
    ],
  },
  {
    name: 'the water of a wash that is changed washes on',
    lines: [
      ...toFixer,
      ...bath('fixer', 5, '+116s'),
      'water in',
      '+40s',
      ["new water's in", /1 minute (?:19|20) seconds, because the wash goes on/i, /too short/i],
      '+80s',
      ['tank empty', /next: the final rinse/i, /too short/i],
    ],
  },
  {
    name: 'one more water is no bottle',
    lines: [...toDeveloper, ['one more rinse please, it is still grey', null, /bottle 1/i]],
  },
  {
    name: 'a bottle that fell over where the bottles stand',
    lines: ['start a run', ['bottle four fell over in the tub', /all of bottle 4/i]],
  },
  {
    name: 'a return to the wrong bottle that was refused, and has happened',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+176s',
      ['into bottle 5', /no\. bottle 5 holds the fixer/i],
      ["yes, it's in five", /destroy each other.*noted/i],
      ['is bottle 5 ok', /bleach/i, /know of nothing against/i],
    ],
  },
  {
    name: 'a bath that is out after its return was refused, and nobody says where it is',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      '+176s',
      'into bottle 5',
      ['tank empty', /where did the bleach go/i],
      ['is bottle 5 ok', null, /know of nothing against/i],
    ],
  },
  {
    name: 'a bath that is out of the tank and not yet back is what goes into a bottle',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank empty',
      ['into bottle 4', /no\. bottle 4 holds the bleach/i],
      'cancel',
      [
        'I poured it into bottle 5',
        /fixer and developer spoil each other.*developer from the jug to bottle 5/i,
      ],
      ['what is in bottle 5', /do not use it/i],
    ],
  },
  {
    name: 'a bath out and the next one in, in one breath',
    lines: [
      ...begun,
      ...bath('prebath', 1, '+12s'),
      'water in',
      '+50s',
      ["water out and developer's in", /tank empty.*developer is in: 3 minutes/i, /did you mean/i],
      '+172s',
      ["developer out into two, stop bath's in", /tank empty.*stop bath is in/i, /did you mean/i],
      ['what is in bottle 2', /developer/i],
    ],
  },
  {
    name: 'more time in the developer, and what it does',
    lines: [...inDeveloper, '+60s', ['five more minutes', /warning: added 5 minutes.*more development/i]],
  },
  {
    name: 'all bottles are as warm but one',
    lines: [
      'start a run',
      ['everything is at 38 except the developer', /bleach 38/i, /developer 38/i],
      ['all 38 but the fixer', /developer 38/i, /fixer 38/i],
      [
        'everything is on 38 but the developer, which reads 38.4',
        [/fixer 38/i, /developer 38\.4/i],
        /question: /,
      ],
      ['how warm is the developer', /38\.4/],
      [
        'stop, fix and bleach are all at 37.5',
        [/stop bath 37\.5/i, /bleach 37\.5/i, /fixer 37\.5/i],
        /rinse/i,
      ],
    ],
  },
  {
    name: 'what is said of the others is not held against what was read',
    lines: [
      'start a run',
      'the developer is at 41',
      ['the rest are on 38', [/bleach 38/i, /final rinse 38/i], /developer 38|question: /i],
      ['how warm is the developer', /developer 41/i, /never confirmed/],
      '+3m',
      ['fixer is 36.5', /fixer 36\.5/i],
      ['the other bottles are all at 38', /bleach 38/i, /fixer 38|developer 38/i],
    ],
  },
  {
    name: 'a doubt of what was poured is no injury',
    lines: [...inDeveloper, '+30s', ['I think I poured the bleach', /may have been in the tank/i, /rinse/i]],
  },
  {
    name: 'who is loading has not loaded, and asks for no light',
    lines: [
      'start a run',
      'next',
      'next',
      ['loading it now', null, /film loaded/i],
      ['lights on?', /only when the film is in the tank/i, /did you mean/i],
    ],
  },
  {
    name: 'a thermometer that reads high',
    lines: [
      ['my thermometer reads high', /by how much/i],
      ['my thermometer reads two degrees too high', /take that off every reading/i],
    ],
  },
  {
    name: 'another acid is not the one that is asked for',
    lines: [
      'mix 500 ml of stop bath',
      'next',
      ['I only have 37 percent hydrochloric instead', null, /noted/i],
    ],
  },
  {
    name: 'a reading that is put right is no bottle of a pour before it',
    lines: [
      ...toFinalRinse,
      ...pour('final rinse', 6),
      '+11s',
      'final rinse back into bottle 6',
      'bleach is at 26',
      ['I said 20.0', /the bleach is at 20/i, /bottle 20/i],
    ],
  },
];
