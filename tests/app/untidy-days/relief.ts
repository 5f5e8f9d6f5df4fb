import type { Day } from './play.js';

const eye = ['start a run', 'some bleach splashed in my eye'];
const aid = /warning: (?:rinse|take off|keep rinsing|get out)/i;
const openStill = /somebody is hurt/i;
const where = 'where are we';

/** Nobody is hurt any more: told plainly that ends an alarm; what makes little of it, or tells of something else, ends nothing. */
export const relief: readonly Day[] = [
  ...[
    'nobody was hurt',
    'nobody got injured after all',
    "everyone's fine",
    'we are all okay now',
    'all is well again',
    'sorry, false alarm',
    'I did not get any in my eye',
  ].map(
    (said): Day => ({
      name: said,
      lines: [...eye, [said, /answer: good\./i, aid], [where, null, openStill]],
    }),
  ),
  ...[
    'it was nothing',
    'never mind, I am fine',
    'she says it is fine',
    'I was only joking',
    'the kid only touched the bottle',
    'I think it is gone',
    'not quite fine yet',
    'the film is fine now',
    'the bleach is okay',
    'nobody is hurt but my arm burns',
    'everybody is fine except me, my eye stings',
    'nearly got some on my hand',
  ].map((said): Day => ({ name: `ends nothing: ${said}`, lines: [...eye, said, [where, openStill]] })),
  {
    name: 'who is well himself ends nothing for somebody else',
    lines: [
      'start a run',
      ['my son got some fixer in his eye', aid],
      ["I'm okay", [/keep it open/i, /nobody is hurt/i], /^answer: good/i],
      [where, openStill],
      ['nobody is hurt', /good\./i],
      [where, null, openStill],
    ],
  },
  {
    name: 'two have it in an eye: each ends his own alarm alone',
    lines: [
      ...eye,
      ['my flatmate has bleach in her eye too', aid],
      ["my eye's fine now", [/keep it open/i], /good\./i],
      ['I did not get any in my eye', /keep it open/i, /good\./i],
      [where, openStill],
      ['she is fine now', /good\./i],
      [where, null, openStill],
    ],
  },
  {
    name: 'of whom nobody said that he is hurt, one alone does not end it',
    lines: [
      'start a run',
      ['some bleach splashed in an eye', aid],
      ["I'm okay", /keep it open/i, /good\./i],
      ['it stopped stinging', /good\./i],
    ],
  },
  {
    name: 'of several hurts the one that is denied is over, and the others are not',
    lines: [
      ...eye,
      ['I cut my thumb on the glass', /wound/i],
      ['there is nothing in my eye', [/wound/i, /keep it open/i], /rinse the eye/i],
      [where, [openStill, /wound/i], /rinse the eye/i],
      ['nobody is hurt', /good\./i],
      [where, null, openStill],
    ],
  },
  ...[
    'I nearly got fixer in my eye',
    'almost spilled the acid on my foot',
    'a drop nearly hit my face',
    'the dog almost drank the fixer',
    'phew, the developer nearly went over my hand',
  ].map(
    (said): Day => ({
      name: said,
      lines: ['start a run', [said, /goggles on/i, aid], [where, null, openStill]],
    }),
  ),
  ...[
    'I nearly fainted',
    'almost all of the bleach went in my eye',
    'it nearly went in my eye but a bit got on my arm',
    'almost got it in my eye and it stings',
    'I nearly dropped the bottle and it splashed in my eye',
    'nearly got it in both eyes, only the left one',
    'I almost got it all out of my eye',
  ].map(
    (said): Day => ({
      name: `no near miss: ${said}`,
      lines: ['start a run', [said, /warning: /i, /^answer: good/i]],
    }),
  ),
];
