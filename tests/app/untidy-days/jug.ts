import { away, cyanide, type Day } from './play.js';
import { bleachMixed, mixingBleach, mixingDeveloper } from './usual.js';

const prebath = ['mix 1 litre of prebath', 'next', 'next', '20 grams', 'dissolved'] as const;
const stop = ['mix 1 litre of stop bath', 'next', 'next'] as const;
const stopIn = [...stop, '50 ml', 'dissolved'] as const;
const fixer = ['mix 1 litre of fixer', 'next', 'next', '2 ml', 'dissolved', '185 ml', 'dissolved'] as const;
const developer = [
  ...mixingDeveloper,
  ...['0.22 g', 'dissolved', '1.2 g', 'dissolved', '25.6 g', 'dissolved'],
] as const;

const stopped = /warning: .*(stays stopped|add nothing more)/i;
const finished = /is done|is ready/i;

/** What is in the jug, or may be put there, and must not meet. */
export const jug: Day[] = [
  {
    name: 'an acid for the bleach that is being mixed is refused, whatever it is called and for',
    lines: [
      ...mixingBleach,
      ['can I add acid to it', [cyanide, /no: keep them apart/i], /acid into water, slowly/i],
      ["I'll put a splash of vinegar in to bring the ph down", [cyanide, /no/i], /slowly, never/i],
      ['citric acid to lower the ph?', [cyanide], /acid into water/i],
      ['12.5 grams', /is right/i],
    ],
  },
  {
    name: 'an acid for a developer frees sulphur dioxide of its sulphite',
    lines: [
      ...developer,
      [
        'sulphuric acid to get the ph down?',
        [/sulphur dioxide/i, /no: keep them apart/i],
        /acid into water/i,
      ],
    ],
  },
  {
    name: 'an acid for a bath that stands in a bottle, meant and not asked',
    lines: [
      [
        "I'm going to add some acid to the bleach to get the ph down",
        [cyanide, /no/i],
        /slowly, never water/i,
      ],
      ["I'll pour the stop into the fixer", [/sulphur dioxide/i]],
    ],
  },
  {
    name: 'bleach filled up with the stop bath stays stopped until it is given up',
    lines: [
      ...bleachMixed,
      ['I filled it up with the stop bath instead of water', [away, cyanide], finished],
      ['made up to 500', [away, cyanide], finished],
      ['bottle 4', [away], finished],
      ['cancel', [away], finished],
      ['confirm', /given up/i],
      ['begin the run', /run started/i],
    ],
  },
  {
    name: 'a jug that had acid in it, told when the bleach is made up',
    lines: [
      ...bleachMixed,
      'made up',
      ['I took the stop jug, and there was still acid in it', [away, cyanide], finished],
      ['next', [cyanide], finished],
      ['undo that', /undone|as before|back/i],
      ['bottle 4', /is done|bottle 4/i],
    ],
  },
  {
    name: 'acid in a fixer is none of its parts, though metabisulphite is one',
    lines: [...fixer, ['I added some acid', [away, /sulphur dioxide/i], /have not told me a weight/i]],
  },
  {
    name: 'the acid of a stop bath is asked after: it is in, and no more of it',
    lines: [
      ...stop,
      ['should I add the acid to it now', /50 millilitres/i, /keep them apart/i],
      '50 ml',
      'dissolved',
      ['can I add some more acid to it', [/is in already/i, /no more/i]],
    ],
  },
  {
    name: 'sulphite on the scale beside the acid, and then in it: the batch is held',
    lines: [
      ...stopIn,
      ['sulfite 1.2 g', [/do not put it in/i, /sulphur dioxide/i]],
      ['made up', [/do not put it in/i], finished],
      ['dissolved', [away, /sulphur dioxide/i, /cannot be used/i]],
      ['made up', [away], finished],
      ['next', [away], finished],
      ['bottle 3', [away], finished],
    ],
  },
  {
    name: 'the same when the bath waits for its bottle',
    lines: [
      ...stopIn,
      'made up',
      'next',
      ['sulfite 1.2 g', [/do not put it in/i]],
      ['dissolved', [away, /sulphur dioxide/i]],
      ['bottle 3', [away], finished],
    ],
  },
  {
    name: 'water onto acid: nothing more is measured until the mix is given up',
    lines: [
      ...stop,
      ['I put the acid in first and then the water', [/pour nothing more/i, /never water into acid/i]],
      ['10 ml', stopped, /add \d+ millilitres more/i],
      ['dissolved', stopped, /is in/i],
      ['made up', stopped, finished],
      ['cancel', stopped],
      ['stop mixing', /given up/i],
    ],
  },
  {
    name: 'a mix that smokes stays stopped, and what was said by mistake is taken back',
    lines: [
      ...stop,
      ['it is smoking', [/leave the room/i, /touch nothing more/i]],
      ['10 ml', stopped, /add \d+ millilitres more/i],
      ['next', stopped],
      ['undo that', /./],
      ['undo that', /./],
      ['50 ml', /is right/i],
    ],
  },
  {
    name: 'water that is in is no acid',
    lines: [
      ...stop,
      ['25 ml of water in', /measure 50 millilitres/i, /add 25|25 millilitres\. /i],
      ['50 ml', /is right/i],
    ],
  },
  {
    name: 'another powder in the place of the one before, with no word of which',
    lines: [
      ...prebath,
      ['I used boric acid instead', [/boric acid/i, /cannot be used/i], /another hydrate/i],
      ['cancel', /marked as spoiled/i],
    ],
  },
  {
    name: 'a part that went in twice',
    lines: [
      ...developer,
      ['I put that in twice', [/25\.60 grams too much anhydrous sodium carbonate/i, /cannot become right/i]],
      ['cancel', /too much anhydrous sodium carbonate/i],
      ['I added the bromide twice', [/1\.20 grams too much sodium bromide/i]],
      ['confirm', /given up/i],
    ],
  },
  {
    name: 'a weight that went in twice, and a part by its formula or by a short name',
    lines: [
      'mix one litre of prebath',
      'next',
      'next',
      ['i poured in twenty grams twice', [/20\.00 grams too much borax/i, /cannot become right/i]],
      ['cancel', /marked as spoiled/i],
      'one hundred grams',
      'dissolved',
      ['1 gram of naoh', /1\.00 gram of sodium hydroxide is right/i],
    ],
  },
  {
    name: 'a powder that was another one stays against its batch',
    lines: [
      ...developer,
      ['oh no that was the bicarb not the carbonate', [/bicarbonate/i, /cannot be used/i]],
      ['cancel', /marked as spoiled/i],
      ['what did i put in', /it is spoiled/i],
    ],
  },
  {
    name: 'some of the acid in the jug got into the bleach',
    lines: [
      ...stopIn,
      'bottle 4 holds 600 ml of bleach',
      ['I poured some of it into bottle 4, say 20 ml', [away, cyanide]],
      ["what's in bottle 4", [/20 millilitres of stop bath/i, /do not use it/i]],
    ],
  },
];
