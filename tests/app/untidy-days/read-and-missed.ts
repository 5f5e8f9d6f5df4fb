import { type Day, goAhead, heldBack } from './play.js';
import { bath, begun, toDeveloper, water } from './usual.js';

/** Readings that cannot be relied on, what was left out, and what to pour in the place of a bath that is lost. */
export const readAndMissed: readonly Day[] = [
  {
    name: 'with the heater off a developer that was read half an hour ago is read again before it is poured',
    lines: [
      'start a run',
      'developer is at 41.1',
      ['the heater is off', /heater off/i],
      '+30m',
      'the film is loaded',
      ...bath('prebath', 1, '+12s'),
      ...water('+50s'),
      ['pouring the developer from bottle 2', [heldBack, /read it again first/i], goAhead],
      'cancel',
      ['developer is at 41', null],
      ['pouring the developer from bottle 2', goAhead],
    ],
  },
  {
    name: 'with the heater on again it may be poured as ever',
    lines: [
      'start a run',
      'developer is at 41.1',
      'the heater is off',
      'the heater is on',
      '+20m',
      'the film is loaded',
      ...bath('prebath', 1, '+12s'),
      ...water('+50s'),
      ['pouring the developer from bottle 2', goAhead, /read it again/i],
    ],
  },
  {
    name: 'two thermometers that disagree: which one is asked, and neither is taken',
    lines: [
      ...begun,
      ['for the developer one says 41.1, the other 39', [/question: did you mean/i, /39\.0/, /41\.1/]],
      ['cancel', null],
      ['what is the developer at', /41\.1/, /39/],
      ['my thermometers disagree', /ice water reads zero/i],
    ],
  },
  {
    name: 'the sign of a thermometer is put right',
    lines: [
      'start a run',
      'fixer is at 38',
      ['my thermometer reads half a degree high', /too high/],
      ['no, it reads half a degree low', /0\.5 degrees too low/],
      ['what is the fixer at', /38\.5/],
    ],
  },
  {
    name: 'how warm it is, told beside a question, is not lost in silence',
    lines: [
      'start a run',
      ["may I heat it in the microwave, it's 30 now", [/never on stove/i, /left out .thirty/i]],
      ['may I heat it in the microwave', null, /left out/i],
    ],
  },
  {
    name: 'what was missed is told from the film and the run',
    lines: [
      ...toDeveloper,
      ['what did I forget', [/had: .*prebath/i, /developer/, /step \d/i], /notes stand/],
      ['have I skipped anything', [/still to come/i], /notes stand/],
    ],
  },
  {
    name: 'light before the film was loaded is remembered, and a question about fog records none',
    lines: [
      'start a run',
      ['the light came on while I was loading', /in the open is fogged/i],
      'the film is loaded',
      ['will there be anything on it', /before it was loaded/, /nothing in my record/i],
      ['was it fogged', /before it was loaded/, /light reached it|close it at once/i],
    ],
  },
  {
    name: 'milky negatives are not fixed, in short words too',
    lines: ['negs are milky', 'my negs came out milky', 'negatives looking cloudy'].map(
      (said) => [said, /not fixed: fix it again/, /coloured baths/i] as const,
    ),
  },
  {
    name: 'what to use when the only bottle of a bath is lost',
    lines: [
      ...begun,
      'I dropped some fixer in bottle 1',
      ['so what do I use', [/do not use it/i, /no other bottle holds it/i]],
      'bottle 7 holds prebath',
      ['so what do I use', /bottle 7/, /no other bottle/i],
    ],
  },
  {
    name: 'one funnel for two baths: what got into the second is said when it is asked of',
    lines: [
      'start a run',
      ['is the developer alright', /nothing against the developer/i],
      [
        'I used the same funnel for the fixer and the developer',
        [/bottle 2 has fixer in it/i, /do not use it/i],
      ],
      ['so is the dev alright', [/^warning: no/i, /fixer in it/], /did you mean/i],
      ['is the final rinse all right', /nothing against the final rinse/i],
    ],
  },
];
