import { type Day, heldBack } from './play.js';
import { developed, inDeveloper, pour, toBleach, toDeveloper, toFixer } from './usual.js';

const stopDue = [...developed, ...pour('stop bath', 3), '+32s'];

/** An answer or a correction belongs to what was said and answered last, and what happened all the same is taken in. */
export const answered: Day[] = [
  {
    name: 'a bare number after a refused return is the bottle, not an old temperature',
    lines: [
      'start a run',
      'final rinse is at 38',
      ...stopDue.slice(1),
      ['stop bath back into bottle 4', /warning: no/i],
      ['sorry, 3', /clear: stop bath to bottle 3/i, /final rinse|degrees/i],
      ['tank empty', /next: wash/i, /jug/i],
      ["what's in bottle 3", /600 millilitres of stop bath/],
    ],
  },
  {
    name: 'a number after a cleared return is judged as the bottle, and the way back from it holds',
    lines: [
      'start a run',
      'final rinse is at 38',
      ...stopDue.slice(1),
      ['stop bath to bottle 3', /clear/i],
      ['no, 4', [/warning: no/i, /poison gas/i], /degrees/],
      ['cancel', /cancelled/i],
      ['sorry, bottle 3', /clear: stop bath to bottle 3/i],
      ['tank is empty', /tank empty/i, /jug/i],
      ["what's in bottle 3", /600 millilitres of stop bath/],
    ],
  },
  {
    name: 'where a bath came from, said once it is in, clears no second pour',
    lines: [
      ...inDeveloper,
      '+25s',
      ['no, it was bottle 2 after all', /developer is in/i, /clear/i],
      ["what's in the tank", /developer is in/i],
    ],
  },
  {
    name: 'the bottle of a bath that was put right before goes with the bath that is in',
    lines: [
      ...toBleach,
      ...pour('bleach', 4),
      ['that was the fixer', /fixer is in/i],
      ['it was bottle 5', /bottle 5/i, /wait|clear|holds the fixer, not/i],
    ],
  },
  {
    name: 'a refused return and then the next bath: where it went is asked, with the danger',
    lines: [
      ...stopDue,
      ['stop bath back into bottle 4', /warning: no/i],
      ['water in', [/where did the stop bath go/i, /poison gas/i, /fumes/i], /water is in/i],
      ['yes', /where did the stop bath go/i],
      ['into bottle 3', [/to bottle 3/i, /water is in.*: 30 seconds/i]],
      ["what's in bottle 3", /600 millilitres of stop bath/],
      ["what's in bottle 4", /600 millilitres of bleach/, /do not use/i],
    ],
  },
  {
    name: 'a refused return that happened all the same',
    lines: [
      ...stopDue,
      'stop bath back into bottle 4',
      ['tank is empty', /where did the stop bath go/i],
      ['bottle 4', [/leave the room/i, /poison gas/i, /next: wash/i]],
      ["what's in bottle 4", /do not use it/i],
    ],
  },
  {
    name: 'the return and the empty tank in one line',
    lines: [
      ...stopDue,
      ['stop bath to 3, tank is empty', [/tank empty/i, /next: wash/i], /jug/i],
      ["what's in bottle 3", /600 millilitres of stop bath/],
    ],
  },
  {
    name: 'a developer that is too warm, warned of and in all the same: its clock runs, with what makes up for it',
    lines: [
      ...toDeveloper,
      'developer is at 42',
      ['pouring the developer from bottle 2', [heldBack, /too hot/i]],
      ["it's in", [/developer is in: 3 minutes/i, /too hot/i, /seconds less/i], /which bath/i],
      '+20s',
      ["what's in the tank", /developer is in/i],
    ],
  },
  {
    name: 'water that was called out, and the bath in hand is in: then the water is out',
    lines: [
      ...toBleach.slice(0, -1),
      ['bleach from 4', /question: water is still in/i],
      ["it's in", /bleach is in: 3 minutes/i, /already in/i],
    ],
  },
  {
    name: 'out, once its drain was called',
    lines: [
      ...toFixer.slice(0, -1),
      ['out', /tank empty. next: the fixer/i, /did you mean/i],
      ['pouring the fixer from 5', /clear/i],
    ],
  },
  {
    name: 'a refused bath and "in": which one is asked by its name, and its yes is taken',
    lines: [
      ...toDeveloper,
      ['pouring the bleach from bottle 4', /warning: no/i],
      ['in', /question: is the bleach in/i, /developer is in/i],
      ['yes', [/get it out now/i, /destroys the picture/i]],
    ],
  },
  {
    name: 'the developer short and the stop bath in: it is not to go in again',
    lines: [
      ...inDeveloper,
      '+75s',
      ['stop bath in', [/too short/i, /less development/i], /pour it in again/i],
    ],
  },
  {
    name: 'acid in the bleach: the room first, and no amount that nobody told',
    lines: [
      ['oh no I poured the stop into the bleach', [/leave the room/i, /poison gas/i], /\d+ millilitres/],
    ],
  },
  {
    name: 'a developer read too warm while it warms',
    lines: ['start a run', ['developer is at 42.2', /too warm|too hot/i]],
  },
];
