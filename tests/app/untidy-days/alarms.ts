import { away, cyanide, type Day } from './play.js';
import { begun, bleachMixed, inDeveloper, toDeveloper } from './usual.js';

const fixer = ['mix 1 litre of fixer', 'next', 'next'];
const sulphur = /sulphur dioxide/i;
const dry = /touch nothing, keep off the water/i;
const out = /everybody out now/i;
const skin = /rinse the skin/i;
const held = /warning: wait/i;

/** What a thing may have done to the jug, in casual words. */
const casually = (batch: readonly string[], gas: RegExp, said: readonly string[]): Day[] =>
  said.map((line) => ({
    name: `in the jug: ${line}`,
    lines: [...batch, [line, [away, gas]], ['next', away, /is done|mark/i], ['made up', away]],
  }));
/** One sentence after these lines. */
const each = (before: readonly string[], wants: RegExp | readonly RegExp[], said: readonly string[]): Day[] =>
  said.map((line) => ({ name: line, lines: [...before, [line, wants]] }));

/** Acid and what else must not be there, told by the way while a bath is mixed. */
export const inTheJug: Day[] = [
  ...casually(bleachMixed, cyanide, [
    'a splash of vinegar slopped into the bleach jug',
    'I had cleaned the beaker with vinegar and never rinsed it',
    'the same funnel was used for the stop before',
    'sulphuric ran off the dropper into it',
    'there was a drop of lemon juice in the water',
    'I took the unrinsed stop jug',
    'descaler was left in the measuring jug',
    'the spoon was still wet with acid',
    'I swirled it in the stop jug',
    'the ladle had been in the stop',
  ]),
  ...casually(fixer, sulphur, [
    'stop bath trickled in here by accident',
    'the pipette still had sulphuric in it',
    'descaler in the jug, I am afraid',
    'I rinsed the jug with lemon juice first',
  ]),
  {
    name: 'a jug that was rinsed with water, and acid that stands elsewhere, are no danger',
    lines: [
      ...bleachMixed,
      ['the acid is back on its shelf', null, away],
      ['I rinsed the beaker with water after the stop', null, away],
      ['next', /made up/i],
    ],
  },
  {
    name: 'a hurt and a glove that dripped into the jug are both told',
    lines: [...bleachMixed, ['my glove had acid on it and that dripped into the jug', [away, cyanide]]],
  },
  {
    name: 'a fresh bleach of an odd colour, and how long the bath in the jug keeps',
    lines: [
      ...bleachMixed,
      ["it's gone green", [/acid or iron/i]],
      ['how long does it keep', [/bleach keeps 12 months/i], /developer/i],
    ],
  },
];

/** Currents, fires and clothes that burn. */
export const currents: Day[] = [
  ...each(begun, dry, [
    'the socket by the tub is sparking',
    'the extension lead lies in a puddle',
    'water dripped into the adapter',
    'there is a smell of burnt plastic',
    'the tub tingles',
    'the breaker has tripped again',
    'the plug sizzled',
    'my fingers tingle when I touch the tank',
    'can I pull the plug with wet hands',
    'the heater slid into the water',
    'I knocked the kettle into the tub',
    'the sink hums and my arm tingles',
    'my hands are all wet and I need to plug in the heater',
  ]),
  ...each(begun, /never water where a plug/i, ['the heater is burning, do I pour water on it']),
  ...each(begun, /heater on/i, ['the heater is on in the tub']),
  ...each(begun, /windows open.*never sweep.*poison centre/i, [
    'the old glass thermometer smashed and there are beads of mercury on the floor',
    'it was mercury',
  ]),
  ...each(begun, /use another.*was it mercury/i, [
    'the thermometer broke',
    'my thermometer just shattered',
    'I have dropped the thermometer and it is in pieces',
  ]),
  ...each(begun, /never: rinse with water only/i, [
    'can I rinse the tank with vinegar',
    'should I use soap to wash the reels',
    'may I clean the bottles with citric acid',
  ]),
  ...each(
    [],
    [/leave the room/i, /bottle 4 has acid in it. do not use it/i],
    [
      'oh no, wrong jug, the acid went into the bleach',
      'the acid is in the bleach bottle now',
      'I emptied the acid into the bleach bottle',
    ],
  ),
  {
    name: 'a spoiled bottle is named before the list of them all',
    lines: [
      ['what is in my bottles', /bottle 4 holds/i, /do not use/i],
      'some acid got into the bleach',
      ['what is in my bottles', [/do not use bottle 4/i, /bottle 5 holds/i]],
    ],
  },
  ...each(begun, /before the current is off/i, [
    'the tub gave me a shock',
    'my brother cannot let go of the cable',
  ]),
  ...each(begun, /stop, drop, roll/i, ['my cuff caught light', 'her hair is on fire']),
  ...each(begun, out, [
    'the towel went up in flames',
    'there are flames behind the kettle',
    'the curtain is alight',
  ]),
  ...each(begun, /never water where a plug/i, ['should I throw water on the fire']),
  {
    name: 'nobody is called for a heater that is on, or for sparks that are not',
    lines: [...begun, ['the heater is on', /heater on/i, dry], ['no sparks so far', 'whatever', dry]],
  },
];

const stay = /stay away, and go back for nothing/i;
const air = /\bout into fresh air|leave the room|everybody out/i;
const aired = /go in only once it is aired/i;
const called = /call: (?:agitate|rest|drain|10 seconds|the developer is still in)/i;
const alarms = ['there is a fire', 'the jug smells of chlorine', 'the socket is sparking', 'I feel dizzy'];
/** Nobody is called to a sink that everybody was sent away from; who is back is told how the film stands. */
export const outside: Day[] = [
  ...[...alarms, 'I poured vinegar into the bleach', 'mercury ran out of the thermometer'].map((alarm) => ({
    name: `nobody is called back by: ${alarm}`,
    lines: [
      ...inDeveloper,
      alarm,
      ['+60s', [stay, /film can wait/i], called],
      ['+60s', 'whatever', new RegExp(`${stay.source}|${called.source}`, 'i')],
      ["I'm outside now", [stay]],
      ['can I nip back in for the dog', [stay]],
      ['+120s', 'whatever', called],
      ["we're back, the air's clear", /too long|over/i, stay],
      ['+60s', called],
    ] satisfies Day['lines'],
  })),
  ...[
    'I got some developer in my eye',
    "it splashed in my son's face",
    'my daughter swallowed a bit of fixer',
    'I scalded my arm with the kettle',
  ].map((said) => ({
    name: `whoever is hurt goes before the calls: ${said}`,
    lines: [
      ...inDeveloper,
      said,
      ['+60s', [/call: first whoever is hurt/i, /film can wait/i], called],
      ['+60s', 'whatever', /call: /i],
      ['what now', /rins|cool|poison|warning/i, /stop bath/i],
      ["I'm back", /drain|too long|left/i],
      ['+60s', called],
    ] satisfies Day['lines'],
  })),
  {
    name: 'a splash on a hand, and hands at the tank again, silence nothing',
    lines: [
      ...inDeveloper,
      'I got developer on my thumb',
      ['+30s', /call: agitate/i],
      'something flew into my eye',
      ['+30s', /first whoever is hurt/i],
      'it is all better now',
      ['+30s', /call: agitate/i],
    ],
  },
  ...['false alarm', "it's aired through", 'the air is clear now'].map((line) => ({
    name: `the calls go on after: ${line}`,
    lines: [
      ...inDeveloper,
      ...alarms.slice(1, 2),
      '+30s',
      [line, /left/i],
      ['+60s', called],
    ] satisfies Day['lines'],
  })),
  ...[
    ...["I'm back", 'the smell is gone', "ok we're all back", 'we are going back in', 'I came back inside'],
    ...[
      'is it safe now',
      'are we safe',
      'is the film ok',
      'next step',
      'what about the film',
      'going in again',
    ],
    ...['nothing to smell now', 'what now', 'how will the film come out'],
  ].map((line) => ({
    name: `whether it is aired is asked before the film, after: ${line}`,
    lines: [
      ...inDeveloper,
      ...alarms.slice(1, 2),
      '+30s',
      [line, aired, /left|nothing in my record/i],
      ['+60s', 'whatever', called],
      ['no', stay],
      [line, aired],
      ['yes', /over|left/i],
      ['+60s', called],
    ] satisfies Day['lines'],
  })),
  ...[
    ['there is a fire', /once the fire is out/i] as const,
    ['the socket is sparking', /current is off/i] as const,
  ].map(([alarm, asked]) => ({
    name: `what is asked of who is back fits: ${alarm}`,
    lines: [...inDeveloper, alarm, "I'm outside", ["I'm back", asked]] satisfies Day['lines'],
  })),
  ...[
    ...['everyone out', 'everybody get out', 'out, everybody out', 'evacuate', 'we need to get out of here'],
    ...['get out, get out', 'run, everybody', "let's get out", 'everyone out, the bleach is fizzing'],
  ].map((line) => ({
    name: `nobody's tank, and nobody is called: ${line}`,
    lines: [
      ...inDeveloper,
      [line, /everybody out now.*i am back/i, /tank empty/i],
      ['all out', stay],
      ['+120s', 'whatever', called],
      ['how long is left', null, /no clock/i],
    ] satisfies Day['lines'],
  })),
  ...each(inDeveloper, air, [
    'the bleach is fizzing',
    'my bleach went all fizzy',
    'there is fizz coming off the bleach',
  ]),
  {
    name: 'the tank is all out where nothing was wrong, and a bath or a friend goes out',
    lines: [
      ...inDeveloper,
      ["the bleach isn't fizzing", 'whatever', /leave the room now/i],
      ['everyone is out tonight', 'whatever', /everybody out now/i],
      ['get it out', 'whatever', /everybody out now/i],
      ['all out', /tank empty/i],
    ],
  },
  {
    name: 'hands that are at the tank again need no word for it',
    lines: [
      ...inDeveloper,
      ...alarms.slice(1, 2),
      '+60s',
      ['tank is empty', /tank empty/i, stay],
      ['pouring the stop bath from bottle 3', null, stay],
    ],
  },
  {
    name: 'who is out, or back, where nobody was sent out',
    lines: [
      ...inDeveloper,
      ["I'm outside now", /goes on while you are away/i, stay],
      ["I'm back", /left/i],
      ['+60s', called, stay],
    ],
  },
];

const toMix = (bath: string): string[] => [`mix 1 litre of ${bath}`, 'next'];
const apart = /stays stopped/i;
/** A gas or heat that comes off while a bath is mixed: out, and nothing more is put in. */
export const gases: Day[] = [
  ...[
    'I smell sulphur',
    'a choking smell is coming from the beaker',
    'yellow green fumes over the jug',
    'the air is getting hazy',
    'it is giving off white fumes',
    "it's spitting",
    "it's fizzing",
    "it's boiling over",
    'the jug is burning hot',
  ].map((line) => ({
    name: `while a stop bath is mixed: ${line}`,
    lines: [...toMix('stop bath'), [line, air], ['next', apart]] satisfies Day['lines'],
  })),
  ...['it smells of nothing', 'the smell is gone', 'the kettle is boiling'].map((line) => ({
    name: `no gas: ${line}`,
    lines: [...toMix('stop bath'), [line, 'whatever', air], ['next', null, apart]] satisfies Day['lines'],
  })),
];

const reach = /power off first/i;
const kept = /get them away from it/i;
const soak = /neutralise nothing/i;
const wipe = /how much was spilled/i;
/** Hands in live water, children and animals at the baths, what is put on a spill, and what lies there without a verb. */
export const near: Day[] = [
  ...each(begun, reach, [
    'can I reach in and pull the plug out',
    'should I fish the lamp out of the water',
    'is it ok to stick my hand in while the heater is broken',
  ]),
  ...each(begun, /cool it under running water/i, [
    'I stuck my hand on the heater',
    'her fingers touched the hot kettle',
  ]),
  ...each(begun, /never water where/i, [
    'throw water on it, the plug is on fire',
    'can I put water on a burning drum of powder',
    'the extension lead is burning, do I splash water on it',
  ]),
  ...each(begun, kept, [
    'the kids are playing with the acid',
    'the toddler got hold of the bottle of bleach',
    'my daughter opened the fixer',
  ]),
  ...each(begun, /call a vet/i, ['kitten stepped in developer', "dog's been at the bleach"]),
  ...each(begun, soak, [
    'should I neutralise it with baking soda',
    'do I tip vinegar over the caustic',
    'would bicarb help on the spill',
  ]),
  ...each(begun, wipe, ['acid on the floor', 'lye on the worktop', 'a puddle of fixer on the carpet']),
  {
    name: 'a heater that hangs in the water as it should, and who is nowhere near a bath',
    lines: [
      ...begun,
      ['I dropped the heater in the tub and set it to 41', 'whatever', /touch nothing|i do not know heater/i],
      ['can I pull the plug of the tub', 'whatever', reach],
      ['the kids are at school', 'whatever', kept],
      ['the dog ate his dinner', 'whatever', /vet/i],
      ['the acid is on the shelf', 'whatever', wipe],
      ['my mate got a shock when he saw the bill', 'whatever', /before the current is off/i],
    ],
  },
];

/** Who is hurt, in other words. */
export const injuries: Day[] = [
  ...each([], /warning: on skin or in an eye: rinse.*where is it/i, [
    'the back door is stuck and he is retching',
    'her chin is all wet and the cap is off',
  ]),
  ...each([], dry, [
    'the reading lamp slid in and it still glows',
    'the sink has overflowed, it is running toward the surge protector',
  ]),
  {
    name: 'nobody is hurt, and only the phone rings',
    lines: [
      ['nobody is dizzy around here', 'whatever', skin],
      ['just a moment, my phone is buzzing', 'whatever', dry],
    ],
  },
  ...each(inDeveloper, skin, [
    'developer is trickling down my wrist',
    "it's seeping through my sock",
    'my shoe is full, it ran into my shoe',
    'I have had a rash on my arms since last week',
  ]),
  ...each(inDeveloper, /cool it under running water/i, ['I scalded my thumb', 'burnt my palm on the kettle']),
  ...each(inDeveloper, /emergency number/i, ['her lips are turning blue', 'he has gone all blue']),
  ...each(inDeveloper, /fresh air/i, ['fixer shot up my nose']),
  ...each(inDeveloper, /vet/i, ['the cat walked through the developer']),
  ...each(inDeveloper, /rinse the eye/i, ['my contact lens is burning']),
  {
    name: 'what it was and that it stings is of the eye; who feels better is not hurt any more',
    lines: [
      ...inDeveloper,
      ['something splashed into my eye', /rinse the eye/i],
      ["it's the bleach, stings badly", /rinse the eye/i],
      ['I feel better now', /if anything comes back/i],
      ['where are we', null, /hurt/i],
    ],
  },
];

/** What met in a bucket or a drain. */
export const wasted: Day[] = [
  ...each(
    [],
    [away, cyanide],
    [
      'I emptied the stop onto the old bleach',
      'the bleach and the stop went into the same can',
      'threw the stop away into the bleach bucket',
      'the slop bucket has fixer, bleach and stop in it',
      'I wiped the bleach up with the vinegar rag',
    ],
  ),
  ...each([], [away, sulphur], ['tipped the fixer in with the vinegar waste']),
  ...each([], /poison gas/i, [
    'I tipped everything into one bucket',
    'may I keep all my old baths in one canister',
  ]),
  ...each([], /leave the room/i, ['the waste canister is getting hot']),
  ...each([], [cyanide, /no: keep them apart/i], ['I am about to pour the stop into the bleach bucket']),
];

const eye = ['I splashed fixer in my eye'];
const rinseOn = /keep rinsing, fifteen minutes.*see a doctor/i;
/** Who rinses is not healed yet; and what met on a spill, or in the sink, by and by. */
export const goesOn: Day[] = [
  ...each([...inDeveloper, ...eye], rinseOn, [
    ...["I've rinsed it", 'rinsed it with water', 'done rinsing', 'I washed it out for two minutes'],
    ...['it still hurts', 'still stings', "it's still red", "can't see properly", 'my eye is no better'],
    ...['how long do I rinse', 'can I stop rinsing', 'do I need a doctor'],
  ]),
  {
    name: 'the spill in an eye is closed once nothing hurts any more',
    lines: [
      ...inDeveloper,
      ...eye,
      ["I've rinsed it", rinseOn, /closed/i],
      ["it doesn't hurt any more", /if anything comes back/i],
      ['the spill is cleaned up', /closed/i],
    ],
  },
  {
    name: 'a film that is rinsed, and a red that hurts nobody',
    lines: [
      ...inDeveloper,
      ["I've rinsed it", 'whatever', rinseOn],
      ["it's still red", 'whatever', rinseOn],
      ['how long do I rinse', 'whatever', rinseOn],
      ['can I stop rinsing', 'whatever', rinseOn],
    ],
  },
  ...each(
    ['I spilled household bleach on the floor'],
    [away, /chlorine/i],
    [
      'wiped it up with vinegar',
      'I cleaned the floor with descaler',
      'mopped it up with lemon juice',
      'I put vinegar on it',
    ],
  ),
  ...each(
    ['I spilled household bleach on the floor'],
    [/closed/i],
    ['I wiped it up with water', 'mopped it up'],
  ),
  ...[
    ['I poured the bleach down the sink', 'then the stop went down the same sink'] as const,
    ['the stop went down the drain', 'I tipped the bleach down the drain too'] as const,
    ['I poured the fixer down the sink', 'stop went down the sink as well'] as const,
    ['poured the bleach away down the sink', 'now the stop has gone down it too'] as const,
  ].map(([before, then]) => ({
    name: `what meets in the trap: ${before}, ${then}`,
    lines: [...begun, before, [then, away]] satisfies Day['lines'],
  })),
  {
    name: 'water between them, or a developer before a stop bath, is no alarm',
    lines: [
      ...begun,
      'I poured the developer down the sink',
      ['the stop went down the same sink', /noted/i, away],
      ['I flushed the sink with water', /noted: water/i],
      ['I poured the bleach down the sink', /noted/i, away],
    ],
  },
  ...each([], /rinse the skin/i, [
    "our Ned's hand is in the sour bath",
    'grandad dipped his hand in the stop',
    "somebody's fingers went into the bleach",
  ]),
];

/** An acid of another strength than the recipe's: reckoned by its density, or not at all. */
export const acids: Day[] = [
  ...each(
    [...toMix('stop bath')],
    [/at 10 percent i cannot reckon/i, /7 normal/i],
    [
      'acid of ten percent, how many ml',
      'the acid is 10 %, how many ml do I need',
      'sulphuric acid at ten percent, how many millilitres',
    ],
  ),
  ...each(
    [...toMix('stop bath')],
    [/37 percent sulphuric acid/i, /millilitres/i],
    ['how much acid if mine is 37 percent', 'my sulphuric acid is 37 percent'],
  ),
  ...each([...toMix('stop bath')], /50 millilitres of 7 normal/i, ['how much acid']),
];

/** What is said against a pour in its own breath. */
export const against: Day[] = [
  ...each(
    toDeveloper,
    [held, /you said/i],
    [
      'pouring the developer from bottle 2 with a splash of stop in it',
      'pouring the developer from bottle 2, half of it is water',
      'pouring the developer from bottle 2, it says fixer on it',
      'pouring the developer from bottle 2, the bottle is swollen',
      'developer from bottle 2, the fizzy one',
      'pouring the developer from bottle 2, it is as hot as soup',
    ],
  ),
  ...each(toDeveloper, /clear: developer/i, [
    'pouring the developer from bottle 2, looks good',
    'pouring the developer from bottle 2, with the lights off',
  ]),
];

/** What may be left out, and what goes with what. */
export const leftAway: Day[] = [
  ...each([], /darkens in the light/i, ['could I skip the fixer', 'do I need the fixer']),
  ...each([], /developer in the film works on/i, ['can I leave the stop out', 'is the stop bath necessary']),
  ...each(bleachMixed, /leave nothing out/i, [
    'can I leave the bromide out',
    'what if I leave out the ferricyanide',
  ]),
  ...each([], /loses its whole picture/i, ['can I do black and white in the developer']),
];
