import type { Situation } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';

const bottle = (number: number) => ({ kind: 'bottle', number }) as const;

/** What people say, where, and what it means: at least two ways of saying each kind of thing. */
export const SAID: [Situation, string[], Intent][] = [
  ['preparing', ['start a run', "let's go", 'begin the new run', 'start processing'], { type: 'begin-run' }],
  ['preparing', ['start a run with the home sheet'], { type: 'begin-run', sheet: 'ecn2-ferricyanide-home' }],
  [
    'preparing',
    ['begin the run with the published times'],
    { type: 'begin-run', sheet: 'ecn2-ferricyanide' },
  ],
  [
    'loading',
    ['film is loaded', "film's in the tank", 'the lid is on', 'the film is in', 'loaded'],
    { type: 'film-loaded' },
  ],
  [
    'warming',
    ['next', 'next step', 'next please', 'move on', "i'm ready for the next step"],
    { type: 'next-step' },
  ],
  [
    'pouring',
    [
      "developer's in",
      'the developer is in',
      'developer is now in the tank',
      'developer in',
      "i've poured the developer in",
    ],
    { type: 'bath-in', liquid: 'developer' },
  ],
  ['pouring', ["it's in", 'it is in the tank'], { type: 'bath-in' }],
  ['pouring', ['stop bath is in', 'the stop is in'], { type: 'bath-in', liquid: 'stop' }],
  ['pouring', ['start the clock', 'start timing', 'start the timer please'], { type: 'start-clock' }],
  [
    'immersed',
    ['hold the clock', 'pause', 'pause the timer', 'hold on', 'stop the clock'],
    { type: 'hold-clock' },
  ],
  [
    'immersed',
    ['resume', 'carry on', 'continue', 'start the clock again', 'resume the clock'],
    { type: 'resume-clock' },
  ],
  [
    'immersed',
    ['drain now', 'draining', "i'm draining the tank", 'start draining', 'drain it'],
    { type: 'drain-now' },
  ],
  [
    'draining',
    ['tank is empty', "the tank's empty", "it's empty", 'all out', 'drained', 'the developer is out'],
    { type: 'tank-empty' },
  ],
  [
    'anytime',
    [
      "what's left",
      'how long left',
      'how long is left on the clock',
      'how much longer',
      'how long have i got',
      'time left',
      'how many minutes left',
    ],
    { type: 'ask-time-left' },
  ],
  [
    'anytime',
    [
      'how long until the bleach',
      'when is the bleach due',
      'how long to bleach',
      'when does the bleach go in',
    ],
    { type: 'ask-time-until', liquid: 'bleach' },
  ],
  ['anytime', ["what's next", 'what comes after this', 'what do i do next'], { type: 'ask-next' }],
  [
    'anytime',
    ['where are we', 'what step is this', 'status', "what's happening", 'which step are we on'],
    { type: 'ask-where' },
  ],
  ['anytime', ['what are the cautions', 'cautions', 'safety advice'], { type: 'ask-cautions' }],
  [
    'anytime',
    ['is the bleach dangerous', 'cautions for the bleach', 'how should i handle bleach'],
    { type: 'ask-cautions', substance: 'bleach' },
  ],
  [
    'anytime',
    ['hazards of potassium ferricyanide'],
    { type: 'ask-cautions', substance: 'potassium-ferricyanide' },
  ],
  [
    'pouring',
    [
      "i'm pouring the bleach in from bottle three",
      'pouring bleach from bottle number three',
      'can i pour the bleach into the tank from bottle three',
      'bleach going in from bottle three',
      'now putting the bleach in from the bottle three',
    ],
    { type: 'pour-in', liquid: 'bleach', from: bottle(3) },
  ],
  [
    'pouring',
    ['pouring the developer in', 'going to pour the developer', 'developer is going in', 'pour in developer'],
    { type: 'pour-in', liquid: 'developer' },
  ],
  [
    'pouring',
    ['filling the tank with water', 'pouring the wash water in'],
    { type: 'pour-in', liquid: 'water' },
  ],
  [
    'pouring',
    ['pouring bottle three in', 'pouring in from bottle three', 'from bottle three'],
    { type: 'pour-in', from: bottle(3) },
  ],
  [
    'pouring',
    ['pouring the final rinse in from the jug'],
    { type: 'pour-in', liquid: 'final-rinse', from: { kind: 'jug' } },
  ],
  [
    'draining',
    [
      'going back into bottle two',
      'pouring it back into bottle two',
      'into bottle two',
      'back into bottle two',
      'returning it to bottle two',
    ],
    { type: 'pour-back', to: bottle(2) },
  ],
  [
    'draining',
    [
      'pouring the developer back into bottle two',
      'returning the developer to bottle two',
      'developer going back into bottle two',
      'pouring the developer into bottle two',
    ],
    { type: 'pour-back', liquid: 'developer', to: bottle(2) },
  ],
  [
    'draining',
    ['pouring two hundred mils of fixer back into bottle four'],
    { type: 'pour-back', liquid: 'fixer', to: bottle(4), volumeMl: 200 },
  ],
  [
    'mixing',
    ['pouring the fixer into bottle four', 'pouring the fixer from the jug into bottle four'],
    { type: 'pour-between', liquid: 'fixer', from: { kind: 'jug' }, to: bottle(4) },
  ],
  [
    'preparing',
    ['topping up bottle two from bottle one', 'pouring bottle one into bottle two'],
    { type: 'pour-between', from: bottle(1), to: bottle(2) },
  ],
  [
    'draining',
    [
      'pouring the stop bath away',
      'the stop bath goes down the drain',
      'dumping the stop bath',
      "i'm throwing the stop bath out",
    ],
    { type: 'pour-away', liquid: 'stop' },
  ],
  [
    'closing',
    ['emptying bottle two into the sink', 'pouring bottle two down the drain', 'dump bottle two'],
    { type: 'pour-away', from: bottle(2) },
  ],
  [
    'preparing',
    ['bottle three holds six hundred milliliters of fixer'],
    { type: 'bottle-holds', bottle: 3, liquid: 'fixer', volumeMl: 600 },
  ],
  [
    'preparing',
    ['bottle three has six hundred mils of fixer and takes a liter'],
    { type: 'bottle-holds', bottle: 3, liquid: 'fixer', volumeMl: 600, capacityMl: 1000 },
  ],
  [
    'preparing',
    ['the developer is in bottle one', 'bottle one is developer', 'bottle one is full of developer'],
    { type: 'bottle-holds', bottle: 1, liquid: 'developer' },
  ],
  [
    'preparing',
    ['the tank takes six hundred milliliters', 'my tank holds six hundred mils'],
    { type: 'tank-takes', volumeMl: 600 },
  ],
  [
    'anytime',
    [
      'fixer is thirty five point nine',
      'fixer thirty five point nine',
      'the fixer at thirty five point nine degrees',
      'fixer is now at thirty five point nine degrees celsius',
      "fixer's at thirty five point nine",
    ],
    { type: 'temperature', of: 'fixer', tempC: 35.9 },
  ],
  [
    'anytime',
    ['the tub is forty one degrees', 'the water bath is at forty one'],
    { type: 'temperature', of: { kind: 'tub' }, tempC: 41 },
  ],
  [
    'anytime',
    ['bottle two reads thirty eight and a half'],
    { type: 'temperature', of: bottle(2), tempC: 38.5 },
  ],
  [
    'anytime',
    ['the developer is one hundred and five point eight degrees fahrenheit'],
    { type: 'temperature', of: 'developer', tempC: 41 },
  ],
  ['anytime', ['the developer is four hundred ten'], { type: 'temperature', of: 'developer', tempC: 410 }],
  [
    'anytime',
    [
      'spilled twenty mils of bleach on the table',
      'i spilt twenty milliliters of bleach on the bench',
      'log a spill of twenty mils of bleach on the table',
      'twenty mils of bleach spilled on the table',
    ],
    { type: 'spill', volumeMl: 20, liquid: 'bleach', place: 'table' },
  ],
  ['anytime', ['log a spill', "there's a spill", 'spill', 'i spilled some'], { type: 'spill' }],
  [
    'spill',
    ['about fifty milliliters of fixer on the floor'],
    { type: 'spill', volumeMl: 50, liquid: 'fixer', place: 'floor' },
  ],
  ['spill', ['on my hands'], { type: 'spill', place: 'hand' }],
  ['spill', ['the spill is cleaned up', "it's all wiped up", 'mopped up'], { type: 'spill-cleaned' }],
  [
    'immersed',
    [
      'add fifteen seconds',
      'another fifteen seconds',
      'fifteen seconds more',
      'fifteen more seconds',
      'give it fifteen more seconds',
      'give it another fifteen seconds',
    ],
    { type: 'add-time', seconds: 15 },
  ],
  [
    'immersed',
    [
      'add a minute and a half',
      'add one and a half minutes',
      'add one minute and thirty seconds',
      'add ninety seconds',
    ],
    { type: 'add-time', seconds: 90 },
  ],
  ['anytime', ['take a note', 'note that', 'make a note'], { type: 'note' }],
  ['anytime', ['undo that', 'undo', 'take that back', 'undo the last step'], { type: 'undo' }],
  ['anytime', ['yes', 'yes please', "that's right", 'confirm', 'correct'], { type: 'confirm' }],
  ['anytime', ['no', 'cancel that', 'never mind', 'nope', "that's wrong"], { type: 'cancel' }],
  [
    'challenged',
    ['override the guard and pour anyway', 'i override the guard and go ahead anyway'],
    { type: 'override' },
  ],
  ['anytime', ['stop', 'stop that', 'stop everything'], { type: 'stop' }],
  ['hanging', ['the film is hanging', "film's hung up", "it's hanging"], { type: 'film-hung' }],
  ['closing', ['close the run', "we're all done", 'finish the run', "i'm finished"], { type: 'close-run' }],

  ['anytime', ['quiet', 'be quiet', 'stop talking', 'shush'], { type: 'quiet' }],
  ['anytime', ['say that again', 'repeat that', 'pardon', 'what did you say'], { type: 'say-again' }],
  ['anytime', ['louder', 'speak up', 'turn it up'], { type: 'louder' }],
  ['anytime', ['softer', 'speak quieter', 'turn it down', 'not so loud'], { type: 'softer' }],
  ['anytime', ['slower', 'speak more slowly', 'slow down'], { type: 'slower' }],
  ['anytime', ['faster', 'speed up'], { type: 'faster' }],
  ['anytime', ['help', 'help me', 'what can i say'], { type: 'help' }],
  ['anytime', ['help with pouring', 'what can i say about pouring'], { type: 'help', topic: 'pouring' }],

  [
    'mixing',
    ['mix six hundred milliliters of developer', "let's mix six hundred mils of the developer"],
    { type: 'mix-start', recipe: 'ecn2-developer', volumeMl: 600 },
  ],
  [
    'preparing',
    ["i'm mixing the bleach", 'start mixing bleach', 'make up the bleach'],
    { type: 'mix-start', recipe: 'ecn2-bleach' },
  ],
  [
    'preparing',
    ['mix a liter of vinegar stop'],
    { type: 'mix-start', recipe: 'ecn2-stop-vinegar', volumeMl: 1000 },
  ],
  [
    'mixing',
    ['what do i need for one liter of hypo fixer', 'plan one liter of sodium fixer'],
    { type: 'mix-plan', recipe: 'ecn2-fixer-sodium', volumeMl: 1000 },
  ],
  ['mixing', ['next', 'next component', "what's next", 'next powder'], { type: 'mix-next' }],
  ['mixing', ['where are we', 'what have i added', 'how far are we'], { type: 'mix-where' }],
  [
    'mixing',
    [
      'two point zero one grams',
      'two point oh one grams',
      'the scale says two point oh one grams',
      "it's two point zero one grams",
    ],
    { type: 'reading', value: 2.01, unit: 'g' },
  ],
  ['mixing', ['two point oh one', 'it reads two point zero one'], { type: 'reading', value: 2.01 }],
  ['mixing', ['one hundred and fifty', 'one fifty', 'a hundred fifty'], { type: 'reading', value: 150 }],
  [
    'mixing',
    ['zero point zero seven ounces', 'oh point oh seven ounces', 'point zero seven ounces'],
    { type: 'reading', value: 0.07, unit: 'oz' },
  ],
  ['mixing', ['dissolved', "it's dissolved", 'all dissolved'], { type: 'dissolved' }],
  ['mixing', ['the scale is zeroed', 'i zeroed the scale', 'tared'], { type: 'scale-zeroed' }],
  ['mixing', ['the p h is ten point two', 'p h ten point two'], { type: 'ph-reading', ph: 10.2 }],
  ['mixing', ['made up to one liter', "it's topped up to a liter"], { type: 'made-up', volumeMl: 1000 }],
  ['mixing', ['made up', 'filled up to volume'], { type: 'made-up' }],
  ['mixing', ['read me the label', 'print the label', 'what goes on the label'], { type: 'ask-label' }],
  ['mixing', ['stop mixing', 'abandon the mix'], { type: 'mix-stop' }],
  ['preparing', ["what's on the shelf", 'which chemicals do i have'], { type: 'shelf-have' }],
  [
    'preparing',
    ['how much borax do i have', 'do i have enough borax'],
    { type: 'shelf-have', substance: 'borax' },
  ],
  [
    'preparing',
    ['i bought one kilogram of sodium sulfite', 'put a kilo of sodium sulfite on the shelf'],
    { type: 'shelf-add', substance: 'sodium-sulfite', massG: 1000 },
  ],
  [
    'mixing',
    ['i have twenty five grams of c d three', 'add twenty five grams of c d three to the shelf'],
    { type: 'shelf-add', substance: 'cd3', massG: 25 },
  ],
  [
    'anytime',
    [
      'what if i poured eighty milliliters of backing remover into six hundred milliliters of developer',
      'what happens if i mix eighty mils of the prebath in six hundred mils of developer',
    ],
    { type: 'what-if', volumeMl: 80, liquid: 'prebath', intoVolumeMl: 600, intoLiquid: 'developer' },
  ],
  [
    'anytime',
    ['what if i spilled twenty mils of bleach into bottle two'],
    { type: 'what-if', volumeMl: 20, liquid: 'bleach', intoBottle: 2 },
  ],

  [
    'anytime',
    [
      'is the developer ready',
      'is the developer warm enough',
      'how long until the developer is ready',
      'when will the developer be ready',
    ],
    { type: 'ask-ready', liquid: 'developer' },
  ],
  [
    'anytime',
    [
      'how long until everything is ready',
      'is everything up to temperature',
      'when will everything be ready',
    ],
    { type: 'ask-ready' },
  ],
  [
    'anytime',
    [
      'how warm is the bleach',
      "what's the temperature of the bleach",
      'what temperature is the bleach',
      'temperature of bleach',
    ],
    { type: 'ask-temperature', of: 'bleach' },
  ],
  ['anytime', ['how hot is the tub'], { type: 'ask-temperature', of: { kind: 'tub' } }],
  [
    'warming',
    ['set the tub to forty one degrees', 'the heater is set to forty one', 'the set point is forty one'],
    { type: 'tub-set', tempC: 41 },
  ],
  [
    'warming',
    ['the heater is on', 'i turned the heater on', 'switched on the heater'],
    { type: 'heater', on: true },
  ],
  ['warming', ['the heater is off', 'heater off'], { type: 'heater', on: false }],
  [
    'warming',
    ['i put bottle two in the tub', 'bottle two is in the tub'],
    { type: 'vessel-moved', of: bottle(2), into: true },
  ],
  [
    'warming',
    ['the bleach is out of the tub', "i've taken the bleach out of the tub"],
    { type: 'vessel-moved', of: 'bleach', into: false },
  ],
  [
    'warming',
    [
      'how do i blend water to thirty eight degrees',
      'blend water to thirty eight',
      'how much hot water for thirty eight degrees',
    ],
    { type: 'ask-blend', tempC: 38 },
  ],
  [
    'warming',
    ['how much hot water for two liters at thirty eight degrees'],
    { type: 'ask-blend', tempC: 38, volumeMl: 2000 },
  ],
  ['anytime', ['show the curves', 'plot the temperatures', 'draw the curves'], { type: 'show-curves' }],

  [
    'anytime',
    [
      "what's in bottle three",
      'what is in bottle number three',
      'how full is bottle three',
      'what does bottle three hold',
    ],
    { type: 'ask-bottle', bottle: 3 },
  ],
  [
    'anytime',
    ["what's in the bottles", 'list the bottles', 'which bottles do i have'],
    { type: 'ask-bottles' },
  ],
  ['anytime', ['how old is the fixer', 'how old is this fix'], { type: 'ask-age', liquid: 'fixer' }],
  [
    'anytime',
    ['when did i mix the bleach', 'when was the bleach mixed'],
    { type: 'ask-mixed', liquid: 'bleach' },
  ],
  [
    'anytime',
    ['which bottle is the fullest', "what's the fullest bottle", 'which bottle has the most'],
    { type: 'ask-fullest' },
  ],
  [
    'anytime',
    ['can i run two more films through this developer', 'can the developer do two more films'],
    { type: 'ask-life', liquid: 'developer', films: 2 },
  ],
  [
    'anytime',
    ['can i run another film through the developer', 'can i run a film through this developer'],
    { type: 'ask-life', liquid: 'developer', films: 1 },
  ],
  [
    'anytime',
    [
      'how many films can the fixer still do',
      'how many more films can i do with the fixer',
      'is the fixer still good',
      'how much life is left in the fixer',
    ],
    { type: 'ask-life', liquid: 'fixer' },
  ],
  [
    'anytime',
    [
      'how do i replenish the developer',
      'should i replenish the developer',
      'how much replenisher for the developer',
    ],
    { type: 'ask-replenish', liquid: 'developer' },
  ],
  [
    'closing',
    ['mark bottle two as discarded', 'bottle two was thrown away', 'i threw out bottle two'],
    { type: 'bottle-discarded', bottle: 2 },
  ],
  [
    'preparing',
    ['call bottle two amber', 'name bottle two amber'],
    { type: 'bottle-named', bottle: 2, name: 'amber' },
  ],
  ['anytime', ['show my runs', 'list the runs', 'what runs have i done'], { type: 'ask-runs' }],
  ['challenged', ['bleach', 'the bleach', 'bleach bath'], { type: 'part', liquid: 'bleach' }],
  ['challenged', ['bottle two'], { type: 'part', vessel: { kind: 'bottle', number: 2 } }],
  [
    'mixing',
    ['bottle two', 'in bottle two', "it's in bottle two"],
    { type: 'part', vessel: { kind: 'bottle', number: 2 } },
  ],
  [
    'preparing',
    ['mix citric stop', 'mix the citric acid stop bath'],
    { type: 'mix-start', recipe: 'ecn2-stop-citric' },
  ],
  ['preparing', ['mix the home developer'], { type: 'mix-start', recipe: 'ecn2-developer-home' }],
  ['preparing', ['how much battery acid do i have'], { type: 'shelf-have', substance: 'sulfuric-acid-37' }],
  ['preparing', ['how much anti fog is left'], { type: 'shelf-have', substance: 'anti-fog-9' }],
];
