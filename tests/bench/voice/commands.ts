import { any, graphOf, maybe, type Piece, repeat } from './grammar.js';

/** Command, number and digit grammars of the bench: like the product's own, but fixed, so that figures compare over time. */
const digit = any('zero', 'oh', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine');
const ones = any('one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine');
const teens = any(
  ...[
    'ten',
    'eleven',
    'twelve',
    'thirteen',
    'fourteen',
    'fifteen',
    'sixteen',
    'seventeen',
    'eighteen',
    'nineteen',
  ],
);
const tens: Piece = [
  any('twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'),
  maybe(ones),
];
const below100 = any('zero', ones, teens, tens);
const number = any(below100, [any(ones, 'a'), 'hundred', maybe([maybe('and'), any(ones, teens, tens)])]);
const decimal: Piece = [below100, maybe(['point', digit])];

const bath = any(
  'prebath',
  'backing remover',
  'developer',
  'stop bath',
  'stop',
  'bleach',
  'fixer',
  'wash',
  'final rinse',
  'rinse water',
  'bath of water',
);
const the = maybe('the');
const bottle: Piece = ['bottle', any(ones, 'ten', 'eleven', 'twelve')];
const unit = any('millilitres', 'litres', 'grams', 'seconds', 'minutes', 'degrees');

export const commandGrammar = graphOf(
  'commands',
  any(
    any('next step', 'next bath', 'what is next', 'where are we', 'help', 'repeat that', 'say that again'),
    any('start the clock', 'hold the clock', 'resume the clock', 'carry on', 'drain now', 'tank is empty'),
    [maybe('the'), 'tank is empty'],
    any('how long left', 'how much longer', 'how much time is left', 'time left'),
    any('louder', 'slower', 'quiet', 'stop', 'confirm', 'cancel', 'undo that', 'yes', 'no', 'take a note'),
    ['how long until', the, bath],
    [the, bath, 'is in'],
    ['what is in', bottle],
    ['pouring in', the, bath],
    ['pouring', the, bath, 'in'],
    ['pouring', the, bath, 'from', bottle],
    ['pouring back', the, bath],
    [any('pouring', 'returning'), the, bath, 'back to', bottle],
    [the, bath, 'is', maybe('at'), decimal, maybe('degrees')],
    'log a spill',
    [
      maybe('i'),
      'spilled',
      number,
      'millilitres of',
      bath,
      maybe([any('on', 'in'), the, any('floor', 'sink', 'table')]),
    ],
    ['add', number, 'seconds'],
  ),
);

export const numberGrammar = graphOf('numbers', [number, maybe(['point', digit]), unit]);
export const digitGrammar = graphOf('digits', repeat(digit, 6));

/** Out-of-grammar talk, partly in the words of the trade: what must never be taken for a command. */
export const looseTalk = [
  'the bleach smells awful today',
  'did you see the football last night',
  'i think we should pour the tea before it gets cold',
  'could you pass me the other bottle from the shelf please',
  'my brother developed a bad cough over the weekend',
  'the news at ten said it will rain until friday',
  'we stopped at the garage to fill the tank',
  'it takes about fifteen minutes to walk there',
  'next time remember to close the window',
  'there was a spill on the motorway this morning',
  'how long have you been living in this house',
  'hold on a moment i will be right back',
  'the water bill went up again this year',
  'no i do not want any more coffee thank you',
  'yes that is what she said on the radio',
  'i left my gloves in the car with the dog',
  'what is the name of that film we watched',
  'he started a new job in the city in march',
  'is the kettle on or shall i do it',
  'please leave your message after the tone',
  'the wash is still hanging in the garden',
  'they will fix the roof when the weather is better',
  'ninety people came to the meeting and nobody spoke',
  'turn left at the lights and carry straight on',
  'one hundred and twenty passengers were on the train',
  'this is the shipping forecast for all coastal waters',
  'are we there yet the children kept asking',
  'add some salt and a little pepper to the soup',
  'the developer bought the old factory by the river',
  'you can cancel your subscription at any time',
  'that bottle of wine was far too expensive',
  'the temperature will drop to five degrees tonight',
];
