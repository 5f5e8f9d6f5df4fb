import { describe, it } from 'vitest';
import {
  atBleach,
  atDeveloper,
  atFixer,
  back,
  developed,
  fresh,
  has,
  having,
  held,
  into,
  isIn,
  jugged,
  leaving,
  out,
  type Row,
  spill,
  the,
  withDeveloper,
  yes,
} from './at-the-sink.js';

describe('bottles, tanks and the thermometer, as they are told of', () => {
  it.each<Row>([
    [
      'a bath alone is told of its one bottle',
      atDeveloper,
      [
        [
          { type: 'bottle-holds', liquid: 'fixer', volumeMl: 500 },
          'answer bottle-noted bottle=5 bath=fixer volumeMl=500 capacityMl=1000 | fact bottle-set bottle=5 liquid=fixer volumeMl=500 capacityMl=1000',
        ],
      ],
    ],
    [
      'of nothing, or of two bottles, it is asked',
      having(atDeveloper, has(7, 'fixer', 300)),
      [
        [{ type: 'bottle-holds', volumeMl: 500 }, 'question poured-what'],
        [{ type: 'bottle-holds', liquid: 'fixer', volumeMl: 500 }, 'question poured-what'],
      ],
    ],
    [
      'what stood in a jug is back in its bottle by a word',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 2, liquid: 'developer' },
          'did | answer poured bath=developer from=jug to=bottle2 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500',
        ],
      ],
    ],
    [
      '… and its volume counts as told',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 2, volumeMl: 600 },
          'did | answer poured bath=developer from=jug to=bottle2 | answer bottle-noted bottle=2 bath=developer volumeMl=600 capacityMl=1000 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500 | fact bottle-set bottle=2 liquid=developer volumeMl=600 capacityMl=1000',
        ],
      ],
    ],
    [
      '… its size as well',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 2, capacityMl: 1500 },
          'did | answer poured bath=developer from=jug to=bottle2 | answer bottle-takes bottle=2 capacityMl=1500 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500 | fact bottle-set bottle=2 liquid=developer volumeMl=600 capacityMl=1500 capacityTold=true volumeAssumed=true assumed=true',
        ],
      ],
    ],
    [
      '… less than stood there is no word of the jug',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 2, volumeMl: 599 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=599 capacityMl=1000 | fact bottle-set bottle=2 liquid=developer volumeMl=599 capacityMl=1000',
        ],
      ],
    ],
    [
      '… nor is a share',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 2, share: 0.5 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=300 capacityMl=1000 volumeAssumed=true | fact bottle-set bottle=2 liquid=developer volumeMl=300 capacityMl=1000 volumeAssumed=true',
        ],
      ],
    ],
    [
      '… nor another bath',
      jugged,
      [
        [
          { type: 'bottle-holds', bottle: 3, volumeMl: 550 },
          'answer bottle-noted bottle=3 bath=stop volumeMl=550 capacityMl=1000 | fact bottle-set bottle=3 liquid=stop volumeMl=550 capacityMl=1000',
        ],
      ],
    ],
    [
      '… and what was left in the bottle is counted',
      having(jugged, has(2, 'developer', 100)),
      [
        [
          { type: 'bottle-holds', bottle: 2, volumeMl: 650 },
          'did | answer poured bath=developer from=jug to=bottle2 | answer bottle-noted bottle=2 bath=developer volumeMl=650 capacityMl=1000 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500 | fact bottle-set bottle=2 liquid=developer volumeMl=650 capacityMl=1000',
        ],
        [
          { type: 'bottle-holds', bottle: 2, volumeMl: 700 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=700 capacityMl=1000 | fact bottle-set bottle=2 liquid=developer volumeMl=700 capacityMl=1000',
        ],
      ],
    ],
    [
      'full is to the brim where its size was told',
      having(atDeveloper, {
        type: 'bottle-holds',
        bottle: 4,
        liquid: 'bleach',
        volumeMl: 800,
        capacityMl: 1500,
      }),
      [
        [
          { type: 'bottle-holds', bottle: 4, full: true },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=1500 capacityMl=1500 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=1500 capacityMl=1500 volumeAssumed=true',
        ],
        [
          { type: 'bottle-holds', bottle: 4, share: 0.5 },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=750 capacityMl=1500 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=750 capacityMl=1500 volumeAssumed=true',
        ],
      ],
    ],
    [
      'a share is of how full it usually is',
      having(atDeveloper, has(4, 'bleach', 800)),
      [
        [
          { type: 'bottle-holds', bottle: 4, share: 0.5 },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=400 capacityMl=1000 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=400 capacityMl=1000 volumeAssumed=true',
        ],
      ],
    ],
    [
      'what nobody measured stays so',
      atDeveloper,
      [
        [
          { type: 'bottle-holds', bottle: 4, liquid: 'bleach' },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=600 capacityMl=1000 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=600 capacityMl=1000 volumeAssumed=true',
        ],
        [
          has(4, 'bleach', 600),
          'answer bottle-noted bottle=4 bath=bleach volumeMl=600 capacityMl=1000 | fact bottle-set bottle=4 liquid=bleach volumeMl=600 capacityMl=1000',
        ],
        [
          { type: 'bottle-holds', bottle: 4, liquid: 'bleach' },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=600 capacityMl=1000 | fact bottle-set bottle=4 liquid=bleach volumeMl=600 capacityMl=1000',
        ],
        [
          { type: 'bottle-holds', bottle: 4, share: 0.25 },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=150 capacityMl=1000 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=150 capacityMl=1000 volumeAssumed=true',
        ],
        [
          { type: 'bottle-holds', bottle: 4, liquid: 'bleach' },
          'answer bottle-noted bottle=4 bath=bleach volumeMl=150 capacityMl=1000 volumeAssumed=true | fact bottle-set bottle=4 liquid=bleach volumeMl=150 capacityMl=1000 volumeAssumed=true',
        ],
      ],
    ],
    [
      'too much for it',
      having(atDeveloper, {
        type: 'bottle-holds',
        bottle: 4,
        liquid: 'bleach',
        volumeMl: 500,
        capacityMl: 800,
      }),
      [
        [
          { type: 'bottle-holds', bottle: 4, volumeMl: 900 },
          'question bad-bottle why=volume volumeMl=900 capacityMl=800 of=(bottle=4 told=true)',
        ],
        [
          { type: 'bottle-holds', bottle: 5, volumeMl: 9000 },
          'question bad-bottle why=volume volumeMl=9000 capacityMl=1000 of=(bottle=5)',
        ],
        [
          { type: 'bottle-holds', bottle: 5, volumeMl: 9000, capacityMl: 1000 },
          'question bad-bottle why=volume volumeMl=9000 capacityMl=1000 of=(bottle=5 told=true)',
        ],
        [
          { type: 'bottle-holds', bottle: 5, capacityMl: 30000 },
          'question bad-bottle why=capacity volumeMl=600 capacityMl=30000',
        ],
        [
          { type: 'bottle-holds', bottle: 5, capacityMl: 20000 },
          'answer bottle-takes bottle=5 capacityMl=20000 | fact bottle-set bottle=5 liquid=fixer volumeMl=600 capacityMl=20000 capacityTold=true volumeAssumed=true assumed=true',
        ],
      ],
    ],
    [
      'a bottle of which nothing is known',
      atDeveloper,
      [
        [{ type: 'bottle-holds', bottle: 9 }, 'question bottle-holds-what bottle=9'],
        [
          { type: 'bottle-holds', bottle: 9, capacityMl: 500, volumeMl: 100 },
          'question bottle-holds-what bottle=9',
        ],
        [
          { type: 'bottle-holds', bottle: 9, capacityMl: 25000 },
          'question bad-bottle why=capacity volumeMl=0 capacityMl=25000',
        ],
        [
          { type: 'bottle-holds', bottle: 9, capacityMl: 500 },
          'answer bottle-takes bottle=9 capacityMl=500 | fact bottle-set bottle=9 volumeMl=0 capacityMl=500 capacityTold=true assumed=true',
        ],
      ],
    ],
    [
      'a pour that waits for more is judged again',
      having(atDeveloper, has(2, 'developer', 300)),
      [
        [
          into('developer', 2),
          'warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=too-little about=(bottle=2 ml=300 bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true))',
        ],
        [
          { type: 'bottle-holds', bottle: 2, volumeMl: 600 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=600 capacityMl=1000 | did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true)) | fact bottle-set bottle=2 liquid=developer volumeMl=600 capacityMl=1000',
        ],
      ],
    ],
    [
      '… for room',
      having(leaving, {
        type: 'bottle-holds',
        bottle: 7,
        liquid: 'developer',
        volumeMl: 500,
        capacityMl: 1000,
      }),
      [
        [
          back('developer', 7),
          'did | answer clear move=(bath=developer from=tank to=bottle7 volumeMl=500) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [
          { type: 'bottle-holds', bottle: 7, capacityMl: 1500 },
          'answer bottle-takes bottle=7 capacityMl=1500 | fact bottle-set bottle=7 liquid=developer volumeMl=500 capacityMl=1500 capacityTold=true',
        ],
      ],
    ],
    [
      '… for an empty bottle',
      having(leaving, {
        type: 'bottle-holds',
        bottle: 7,
        liquid: 'developer',
        volumeMl: 500,
        capacityMl: 1000,
      }),
      [
        [
          back('developer', 7),
          'did | answer clear move=(bath=developer from=tank to=bottle7 volumeMl=500) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [
          { type: 'bottle-empty', bottle: 7 },
          'answer bottle-empty bottle=7 was=developer | fact bottle-set bottle=7 liquid=developer volumeMl=0 capacityMl=1000',
        ],
      ],
    ],
    [
      'an empty bottle keeps its bath',
      atDeveloper,
      [
        [
          { type: 'bottle-empty', bottle: 5 },
          'answer bottle-empty bottle=5 was=fixer | fact bottle-set bottle=5 liquid=fixer volumeMl=0 capacityMl=1000',
        ],
        [
          { type: 'bottle-empty', bottle: 9 },
          'answer bottle-empty bottle=9 | fact bottle-set bottle=9 volumeMl=0 capacityMl=1000',
        ],
      ],
    ],
    [
      'how much came back, while it runs',
      leaving,
      [
        [
          { type: 'poured', from: the('tank'), volumeMl: 550 },
          'did | answer tank-is-empty now=pour | answer bottle-noted bottle=2 bath=developer volumeMl=550 capacityMl=1000 | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170 | fact bottle-set bottle=2 liquid=developer volumeMl=550 capacityMl=1000',
        ],
      ],
    ],
    [
      '… of that bath',
      leaving,
      [
        [
          { type: 'poured', liquid: 'developer', from: the('tank'), volumeMl: 550 },
          'did | answer tank-is-empty now=pour | answer bottle-noted bottle=2 bath=developer volumeMl=550 capacityMl=1000 | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170 | fact bottle-set bottle=2 liquid=developer volumeMl=550 capacityMl=1000',
        ],
      ],
    ],
    [
      '… or later',
      developed,
      [
        [
          { type: 'poured', from: the('tank'), volumeMl: 500 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=600 capacityMl=1000 | fact bottle-set bottle=2 liquid=developer volumeMl=600 capacityMl=1000',
        ],
      ],
    ],
    [
      '… beside what was left there',
      having(atDeveloper, has(2, 'developer', 700)),
      [
        [
          into('developer', 2),
          'did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true))',
        ],
        [
          isIn('developer'),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180',
        ],
        [170],
        [
          back('developer', 2),
          'did | answer clear move=(bath=developer from=tank to=bottle2 volumeMl=500) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
        [
          { type: 'poured', from: the('tank'), volumeMl: 600 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=600 capacityMl=1000 | fact bottle-set bottle=2 liquid=developer volumeMl=600 capacityMl=1000',
        ],
        [
          { type: 'poured', liquid: 'developer', from: the('tank'), volumeMl: 650 },
          'answer bottle-noted bottle=2 bath=developer volumeMl=650 capacityMl=1000 | fact bottle-set bottle=2 liquid=developer volumeMl=650 capacityMl=1000',
        ],
      ],
    ],
    [
      'two that changed places',
      atDeveloper,
      [
        [{ type: 'swapped', bottle: 4 }, 'question swap-what'],
        [{ type: 'swapped', other: 4 }, 'question swap-what'],
        [{ type: 'swapped', bottle: 4, other: 4 }, 'question swap-what'],
        [
          { type: 'swapped', bottle: 4, other: 5 },
          'question swap-asked bottles=[(bottle=4 bath=fixer) (bottle=5 bath=bleach)] | fact bottle-doubted bottle=4 doubt=unanswered of=fixer | fact bottle-doubted bottle=5 doubt=unanswered of=bleach',
        ],
        [
          yes,
          'did | answer swapped bottles=[(bottle=4 bath=fixer) (bottle=5 bath=bleach)] | fact bottle-doubted bottle=4 of=fixer | fact bottle-doubted bottle=5 of=bleach | fact bottles-swapped bottle=4 other=5',
        ],
      ],
    ],
    [
      '… surely',
      atDeveloper,
      [
        [
          { type: 'swapped', bottle: 4, other: 5, sure: true },
          'did | answer swapped bottles=[(bottle=4 bath=fixer) (bottle=5 bath=bleach)] | fact bottles-swapped bottle=4 other=5',
        ],
      ],
    ],
    [
      '… neither takes more than it holds',
      having(
        atDeveloper,
        { type: 'bottle-holds', bottle: 4, liquid: 'bleach', volumeMl: 300, capacityMl: 500 },
        has(5, 'fixer', 600),
      ),
      [
        [
          { type: 'swapped', bottle: 4, other: 5 },
          'question bad-bottle why=volume volumeMl=600 capacityMl=500 of=(bottle=4 told=true)',
        ],
      ],
    ],
    [
      '… with a pour that waits',
      having(atDeveloper, into('fixer', 2)),
      [
        [
          { type: 'swapped', bottle: 2, other: 5, sure: true },
          'did | answer swapped bottles=[(bottle=2 bath=fixer) (bottle=5 bath=developer)] | fact bottles-swapped bottle=2 other=5',
        ],
      ],
    ],
    [
      'thermometer',
      atDeveloper,
      [
        [
          { type: 'thermometer-reads', byC: 0.5, way: 'high' },
          'answer thermometer-noted errorC=0.5 | fact thermometer-told errorC=0.5 shiftC=-0.5',
        ],
        [
          { type: 'thermometer-reads', byC: 0.3, way: 'low' },
          'answer thermometer-noted errorC=-0.3 | fact thermometer-told errorC=-0.3 shiftC=0.8',
        ],
      ],
    ],
    [
      'tanks by their size',
      having(fresh, { type: 'tank-takes', volumeMl: 1000 }),
      [
        [{ type: 'use-tank', size: 'small' }, 'answer tank-size volumeMl=1000 aside=0'],
        [{ type: 'use-tank', tank: 2 }, 'answer tank-used tank=2 volumeMl=500 | fact tank-chosen tank=2'],
        [
          { type: 'use-tank', size: 'small' },
          'answer tank-used tank=2 volumeMl=500 | fact tank-chosen tank=2',
        ],
        [
          { type: 'tank-takes', volumeMl: 500 },
          'answer tank-noted volumeMl=500 | fact tank-told volumeMl=500',
        ],
        [
          { type: 'use-tank', size: 'large' },
          'answer tank-used tank=1 volumeMl=1000 told=true | fact tank-chosen tank=1',
        ],
        [
          { type: 'use-tank', size: 'small' },
          'answer tank-used tank=2 volumeMl=500 told=true | fact tank-chosen tank=2',
        ],
        [{ type: 'use-tank', tank: 3 }, 'answer tank-used tank=3 volumeMl=500 | fact tank-chosen tank=3'],
        [{ type: 'use-tank', size: 'large' }, 'answer tank-size volumeMl=500 aside=2'],
        [
          { type: 'tank-takes', volumeMl: 700 },
          'answer tank-noted volumeMl=700 | fact tank-told volumeMl=700',
        ],
        [{ type: 'use-tank', size: 'large' }, 'answer tank-size volumeMl=700 aside=2'],
      ],
    ],
    [
      'tanks of one size',
      having(
        fresh,
        { type: 'tank-takes', volumeMl: 500 },
        { type: 'use-tank', tank: 2 },
        { type: 'tank-takes', volumeMl: 500 },
      ),
      [[{ type: 'use-tank', size: 'large' }, 'answer tank-size volumeMl=500 aside=1']],
    ],
    [
      'another tank while warming',
      having(fresh, { type: 'begin-run' }, { type: 'next-step' }),
      [[{ type: 'use-tank', tank: 2 }, 'answer tank-used tank=2 volumeMl=500 | fact tank-chosen tank=2']],
    ],
    [
      'another tank once loaded',
      atDeveloper,
      [
        [{ type: 'use-tank', tank: 2 }, 'question tank-busy tank=1 now=pour'],
        [
          { type: 'use-tank' },
          'answer tank-used tank=1 volumeMl=500 told=true film=true | fact tank-chosen tank=1',
        ],
        [
          { type: 'use-tank', tank: 1 },
          'answer tank-used tank=1 volumeMl=500 told=true film=true | fact tank-chosen tank=1',
        ],
      ],
    ],
    [
      'another tank while closed',
      having(atDeveloper, { type: 'close-run' }, yes),
      [[{ type: 'use-tank', tank: 2 }, 'answer tank-used tank=2 volumeMl=500 | fact tank-chosen tank=2']],
    ],
  ])('%s', held);
});

describe('a spill', () => {
  it.each<Row>([
    [
      'half of what is in the tank',
      withDeveloper,
      [
        [
          spill({ share: 0.5, tank: true, place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=250 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=250 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=250 place=floor',
        ],
      ],
    ],
    [
      'a share of what leaves it',
      leaving,
      [
        [
          spill({ share: 0.1, liquid: 'developer', place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=50 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=tank liquid=developer volumeMl=50 place=floor',
        ],
      ],
    ],
    [
      'a share of nothing named is of the tank',
      withDeveloper,
      [
        [
          spill({ share: 0.1 }),
          'did | warning spill-open bath=developer volumeMl=50 cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=450 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=50',
        ],
      ],
    ],
    [
      'a share of another bath than the one in the tank is of its bottle',
      withDeveloper,
      [
        [
          spill({ share: 0.25, liquid: 'fixer', place: 'table' }),
          'did | warning spill-open bath=fixer volumeMl=150 place=table cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=150 place=table',
        ],
      ],
    ],
    [
      'a share of a bath that stands in a jug',
      jugged,
      [
        [
          spill({ share: 0.5, liquid: 'developer', place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=250 place=table cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=jug liquid=developer volumeMl=250 place=table',
        ],
      ],
    ],
    [
      '… and of its bottle, where that is named',
      having(jugged, has(2, 'developer', 100)),
      [
        [
          spill({ share: 0.5, bottle: 2, liquid: 'developer', place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=50 place=table cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=bottle2 liquid=developer volumeMl=50 place=table',
        ],
      ],
    ],
    [
      'a share of an empty bottle',
      having(atDeveloper, { type: 'bottle-empty', bottle: 5 }),
      [
        [
          spill({ share: 0.5, bottle: 5 }),
          'did | warning spill-ask missing=both cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet]',
        ],
      ],
    ],
    [
      'a share of what nobody knows',
      atDeveloper,
      [
        [
          spill({ share: 0.5 }),
          'did | warning spill-ask missing=both cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet]',
        ],
      ],
    ],
    [
      'some of a bath',
      atDeveloper,
      [
        [
          spill({ some: true, liquid: 'fixer' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet] | fact bottle-doubted bottle=5 doubt=spilled',
        ],
      ],
    ],
    [
      'some of a bottle',
      atDeveloper,
      [
        [
          spill({ some: true, bottle: 5, place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet] | fact bottle-doubted bottle=5 doubt=spilled',
        ],
      ],
    ],
    [
      'some, right after a return',
      developed,
      [
        [
          spill({ some: true }),
          'did | warning spill-ask missing=volume cautions=[gloves developer-skin spill-wipe data-sheet] | fact bottle-doubted bottle=2 doubt=spilled',
        ],
      ],
    ],
    [
      'a whole bottle, taken for granted or told of',
      having(atDeveloper, has(5, 'fixer', 500), { type: 'bottle-holds', bottle: 4, liquid: 'bleach' }),
      [
        [
          spill({ bottle: 5 }),
          'did | warning spill-open bath=fixer volumeMl=500 cautions=[gloves spill-fixer data-sheet] allOf=(bottle=5 sure=true) | fact spilled from=bottle5 liquid=fixer volumeMl=500',
        ],
        [
          spill({ bottle: 6 }),
          'did | warning spill-open bath=final-rinse volumeMl=600 cautions=[gloves spill-wipe data-sheet] allOf=(bottle=6) | fact spilled from=bottle6 liquid=final-rinse volumeMl=600',
        ],
        [
          spill({ bottle: 4, place: 'floor' }),
          'did | warning spill-open bath=bleach volumeMl=600 place=floor cautions=[gloves spill-bleach data-sheet] allOf=(bottle=4) | fact spilled from=bottle4 liquid=bleach volumeMl=600 place=floor',
        ],
      ],
    ],
    [
      'so much of a bottle',
      atDeveloper,
      [
        [
          spill({ bottle: 5, volumeMl: 100, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=100 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=100 place=floor',
        ],
      ],
    ],
    [
      'a bottle with a drop in it',
      having(atDeveloper, has(5, 'fixer', 0.5)),
      [
        [
          spill({ bottle: 5, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=0.5 place=floor cautions=[gloves spill-fixer data-sheet] allOf=(bottle=5 sure=true) | fact spilled from=bottle5 liquid=fixer volumeMl=0.5 place=floor',
        ],
      ],
    ],
    [
      'an empty bottle',
      having(atDeveloper, { type: 'bottle-empty', bottle: 5 }),
      [
        [
          spill({ bottle: 5 }),
          'did | warning spill-ask missing=both cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet]',
        ],
      ],
    ],
    [
      'what is spilled while a bath moves is of it',
      having(developed, into('stop', 3)),
      [
        [
          spill({ volumeMl: 50, place: 'floor' }),
          'did | warning spill-open bath=stop volumeMl=50 place=floor cautions=[gloves spill-stop ventilation data-sheet] | fact spilled from=bottle3 liquid=stop volumeMl=50 place=floor',
        ],
      ],
    ],
    [
      '… unless it goes on about another',
      having(developed, spill({ liquid: 'fixer' }), into('stop', 3)),
      [
        [
          spill({ volumeMl: 50 }),
          'did | warning spill-open bath=fixer volumeMl=50 | fact spilled from=bottle5 liquid=fixer volumeMl=50',
        ],
      ],
    ],
    [
      'with nothing said and nothing moving',
      atDeveloper,
      [
        [
          spill(),
          'did | warning spill-ask missing=both cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet]',
        ],
        [spill({ volumeMl: 50 }), 'did | warning spill-ask missing=liquid'],
        [
          spill({ liquid: 'bleach' }),
          'did | warning spill-open bath=bleach volumeMl=50 cautions=[gloves spill-bleach data-sheet] | fact spilled from=bottle4 liquid=bleach volumeMl=50',
        ],
      ],
    ],
    [
      'a tank that is not tight',
      withDeveloper,
      [
        [
          spill({ tank: true }),
          'did | warning spill-ask missing=volume leak=true cautions=[gloves developer-skin spill-wipe data-sheet]',
        ],
        [
          spill({ volumeMl: 100 }),
          'did | warning spill-open bath=developer volumeMl=100 | fact spilled from=tank liquid=developer volumeMl=100',
        ],
      ],
    ],
    ['… and empty', atDeveloper, [[spill({ tank: true }), 'answer spill-ask missing=nothing leak=true']]],
    [
      '… and empty, with another open',
      having(atDeveloper, spill({ liquid: 'fixer' })),
      [[spill({ tank: true }), 'did | warning spill-ask missing=volume leak=true']],
    ],
    [
      '… with its amount',
      withDeveloper,
      [
        [
          spill({ tank: true, volumeMl: 100, place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=100 place=table cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=400 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=100 place=table',
        ],
      ],
    ],
    [
      '… of another bath than is in it',
      withDeveloper,
      [
        [
          spill({ tank: true, liquid: 'fixer', volumeMl: 100, place: 'table' }),
          'did | warning spill-open bath=fixer volumeMl=100 place=table cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=100 place=table',
        ],
      ],
    ],
    [
      '… all but a millilitre',
      withDeveloper,
      [
        [
          spill({ tank: true, volumeMl: 499, place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=499 place=table cautions=[gloves developer-skin spill-wipe data-sheet] | warning tank-is-empty now=pour slip=(kind=short bath=developer doneS=0 aimS=180 effect=-1) | fact step-ended stepId=developer plannedS=180 actualS=0 heldS=0 | fact deviation stepId=developer what=time: 0 s, planned 180 s | fact poured from=tank to=sink liquid=developer volumeMl=500 role=developer effectiveS=0 | fact spilled liquid=developer volumeMl=499 place=table',
        ],
      ],
    ],
    [
      '… all but more than that',
      withDeveloper,
      [
        [
          spill({ tank: true, volumeMl: 498.5, place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=498.5 place=table cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=1.5 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=498.5 place=table',
        ],
      ],
    ],
    [
      '… of water',
      having(atFixer, isIn('water')),
      [
        [
          spill({ tank: true }),
          'did | warning spill-ask missing=volume leak=true cautions=[slippery electric]',
        ],
      ],
    ],
    [
      'no bench holds so much',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer', volumeMl: 20001 }),
          'question bad-bottle why=volume volumeMl=20001 capacityMl=20000',
        ],
      ],
    ],
    [
      'water, with a spill open and a wash due',
      having(
        atBleach,
        into('bleach', 4),
        isIn('bleach'),
        180,
        back('bleach', 4),
        out,
        spill({ liquid: 'fixer' }),
      ),
      [[spill({ liquid: 'water' }), 'question part-alone bath=water']],
    ],
    [
      'water, with a spill open and a bath due',
      having(atDeveloper, spill({ liquid: 'fixer' })),
      [
        [
          spill({ liquid: 'water' }),
          'did | answer spill-ask cautions=[slippery electric] | fact spilled liquid=fixer volumeMl=0',
        ],
      ],
    ],
    [
      'one spill is told in parts',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ volumeMl: 100 }),
          'did | warning spill-open bath=fixer volumeMl=100 | fact spilled from=bottle5 liquid=fixer volumeMl=100',
        ],
      ],
    ],
    [
      'the place later, with nothing else',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ liquid: 'fixer', volumeMl: 30 }),
          'did | warning spill-open bath=fixer volumeMl=30 place=floor | fact spilled from=bottle5 liquid=fixer volumeMl=30 place=floor',
        ],
      ],
    ],
    [
      'another bath is another spill',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer', place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ liquid: 'bleach', volumeMl: 20 }),
          'did | warning spill-open bath=bleach volumeMl=20 cautions=[gloves spill-bleach data-sheet] | fact spilled liquid=fixer volumeMl=0 place=floor | fact spilled from=bottle4 liquid=bleach volumeMl=20',
        ],
      ],
    ],
    [
      '… another amount too',
      atDeveloper,
      [
        [
          spill({ volumeMl: 20 }),
          'did | warning spill-ask missing=liquid cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet]',
        ],
        [
          spill({ volumeMl: 30 }),
          'did | warning spill-ask missing=liquid cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet] | fact spilled liquid=unknown volumeMl=20',
        ],
      ],
    ],
    [
      '… another place too',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer', place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ liquid: 'fixer', place: 'table' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet] | fact spilled liquid=fixer volumeMl=0 place=floor',
        ],
      ],
    ],
    [
      '… unless it is the same',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer', place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-fixer data-sheet]',
        ],
        [
          spill({ liquid: 'stop', again: true }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-stop ventilation data-sheet]',
        ],
      ],
    ],
    [
      'after one whose amount is known',
      atDeveloper,
      [
        [
          spill({ liquid: 'fixer', volumeMl: 20, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=20 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=20 place=floor',
        ],
        [
          spill({ liquid: 'bleach', place: 'table' }),
          'did | warning spill-ask missing=volume cautions=[gloves spill-bleach data-sheet]',
        ],
      ],
    ],
    [
      'on somebody',
      atDeveloper,
      [
        [
          spill({ liquid: 'developer', place: 'hand' }),
          'did | warning spill-ask missing=volume-later cautions=[developer-skin] aid=skin | fact note text=somebody was hurt: skin',
        ],
        [
          spill({ volumeMl: 20 }),
          'did | warning spill-ask missing=liquid cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet] | fact spilled liquid=developer volumeMl=0 place=hand',
        ],
      ],
    ],
    [
      'on somebody, of what is not known',
      atDeveloper,
      [
        [
          spill({ place: 'eye' }),
          'did | warning spill-ask missing=later aid=eye | fact note text=somebody was hurt: eye',
        ],
        [
          spill({ liquid: 'fixer', place: 'eye' }),
          'did | warning spill-ask missing=volume-later aid=eye | fact note text=somebody was hurt: eye',
        ],
        [
          spill({ place: 'eye' }),
          'did | warning spill-ask missing=volume-later aid=eye | fact note text=somebody was hurt: eye',
        ],
      ],
    ],
    [
      'on somebody, in no run',
      fresh,
      [
        [
          spill({ liquid: 'fixer', place: 'skin', volumeMl: 10 }),
          'did | warning spill-open bath=fixer volumeMl=10 place=skin aid=skin | fact spilled liquid=fixer volumeMl=10 place=skin',
        ],
      ],
    ],
    [
      'water on somebody',
      atDeveloper,
      [
        [
          spill({ liquid: 'water', place: 'hand' }),
          'did | warning spill-ask missing=volume cautions=[slippery electric]',
        ],
      ],
    ],
    [
      'what is no bath',
      atDeveloper,
      [
        [
          spill({ liquid: 'acetone', place: 'floor' }),
          'did | warning spill-ask missing=volume cautions=[gloves acid-ferricyanide acid-apart ventilation data-sheet] further=[Acetone: highly flammable liquid and vapour, and irritates the eyes badly. Chlorine cleaner and acetone give chloroform, with heat.]',
        ],
        [
          spill({ liquid: 'acetone', volumeMl: 20, again: true }),
          'did | warning spill-open bath=acetone volumeMl=20 place=floor | fact spilled liquid=acetone volumeMl=20 place=floor',
        ],
      ],
    ],
    [
      '… on somebody',
      atDeveloper,
      [
        [
          spill({ liquid: 'acetone', place: 'hand' }),
          'did | warning spill-ask missing=volume-later aid=skin | fact note text=somebody was hurt: skin',
        ],
      ],
    ],
    [
      'water',
      atDeveloper,
      [
        [spill({ liquid: 'water' }), 'did | answer spill-ask cautions=[slippery electric]'],
        [{ type: 'spill-cleaned' }, 'did | answer spill-cleaned | fact spilled liquid=water volumeMl=0'],
        [spill({ liquid: 'water', place: 'floor' }), 'did | answer spill-ask cautions=[slippery electric]'],
        [
          { type: 'spill-cleaned' },
          'did | answer spill-cleaned | fact spilled liquid=water volumeMl=0 place=floor',
        ],
        [
          spill({ liquid: 'water', place: 'lamp' }),
          'did | warning spill-ask missing=volume cautions=[slippery electric]',
        ],
      ],
    ],
    [
      'out of the one bottle that has so much',
      having(atDeveloper, has(7, 'fixer', 100)),
      [
        [
          spill({ liquid: 'fixer', volumeMl: 300, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=300 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=300 place=floor',
        ],
      ],
    ],
    [
      '… or either',
      having(atDeveloper, has(7, 'fixer', 100)),
      [
        [
          spill({ liquid: 'fixer', volumeMl: 100, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=100 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled liquid=fixer volumeMl=100 place=floor',
        ],
      ],
    ],
    [
      '… or none',
      having(atDeveloper, has(7, 'fixer', 100)),
      [
        [
          spill({ liquid: 'fixer', volumeMl: 700, place: 'floor' }),
          'did | warning spill-open bath=fixer volumeMl=700 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled liquid=fixer volumeMl=700 place=floor',
        ],
      ],
    ],
    [
      'out of the tank on the way out, though a bottle has some',
      having(leaving, has(7, 'developer', 500)),
      [
        [
          spill({ liquid: 'developer', volumeMl: 50, place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=50 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=tank liquid=developer volumeMl=50 place=floor',
        ],
      ],
    ],
    [
      'out of a jug that holds as much, though a bottle has it too',
      having(jugged, has(7, 'developer', 900)),
      [
        [
          spill({ liquid: 'developer', volumeMl: 500, place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=500 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=jug liquid=developer volumeMl=500 place=floor',
        ],
      ],
    ],
    [
      'more than the jug holds',
      having(jugged, has(7, 'developer', 900)),
      [
        [
          spill({ liquid: 'developer', volumeMl: 501, place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=501 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled from=bottle7 liquid=developer volumeMl=501 place=floor',
        ],
      ],
    ],
    [
      'more than all jugs hold',
      having(jugged, has(7, 'developer', 50)),
      [
        [
          spill({ liquid: 'developer', volumeMl: 600, place: 'floor' }),
          'did | warning spill-open bath=developer volumeMl=600 place=floor cautions=[gloves developer-skin spill-wipe data-sheet] | fact spilled liquid=developer volumeMl=600 place=floor',
        ],
      ],
    ],
    [
      'cleaned, and nothing was',
      atDeveloper,
      [
        [{ type: 'spill-cleaned' }, 'answer no-spill'],
        [{ type: 'spill-cleaned', by: 'chlorine-bleach' }, 'warning no-spill never=chlorine-bleach'],
        [{ type: 'spill-cleaned', by: 'acetone' }, 'answer no-spill'],
        [{ type: 'spill-cleaned', by: 'water' }, 'answer no-spill'],
      ],
    ],
    [
      '… with what makes a gas of it',
      having(atDeveloper, spill({ liquid: 'stop', volumeMl: 20, place: 'floor' })),
      [
        [
          { type: 'spill-cleaned', by: 'chlorine-bleach' },
          'warning met bath=chlorine-bleach with=stop gas=true dangers=[Chlorine cleaner and acid give off chlorine. Never let them meet.]',
        ],
        [{ type: 'spill-cleaned', by: 'water' }, 'did | answer spill-cleaned'],
      ],
    ],
    [
      '… of what is not known with acid',
      having(atDeveloper, spill({ place: 'floor' })),
      [
        [
          { type: 'spill-cleaned', by: 'stop' },
          'warning met bath=stop with=chlorine-bleach gas=true dangers=[Chlorine cleaner and acid give off chlorine. Never let them meet.]',
        ],
      ],
    ],
    [
      '… another bath than the open one',
      having(atDeveloper, spill({ liquid: 'fixer', volumeMl: 20, place: 'floor' })),
      [
        [
          { type: 'spill-cleaned', by: 'chlorine-bleach', liquid: 'stop' },
          'warning met bath=chlorine-bleach with=stop gas=true dangers=[Chlorine cleaner and acid give off chlorine. Never let them meet.]',
        ],
      ],
    ],
    [
      '… one of two',
      having(
        atDeveloper,
        spill({ liquid: 'fixer', volumeMl: 20, place: 'floor' }),
        spill({ liquid: 'bleach', volumeMl: 20, place: 'table' }),
      ),
      [
        [{ type: 'spill-cleaned' }, 'did | answer spill-cleaned spills=[(bath=fixer place=floor)]'],
        [{ type: 'spill-cleaned' }, 'did | answer spill-cleaned'],
      ],
    ],
    [
      '… of unknown amount',
      having(atDeveloper, spill({ liquid: 'fixer', place: 'floor' })),
      [
        [
          { type: 'spill-cleaned' },
          'did | answer spill-cleaned | fact spilled liquid=fixer volumeMl=0 place=floor',
        ],
      ],
    ],
    [
      '… of what nobody knows',
      having(atDeveloper, spill({ volumeMl: 20, place: 'floor' }), spill({ volumeMl: 30, place: 'table' })),
      [
        [
          { type: 'spill-cleaned' },
          'did | answer spill-cleaned spills=[(place=floor)] | fact spilled liquid=unknown volumeMl=30 place=table',
        ],
      ],
    ],
    [
      '… while somebody is hurt',
      having(atDeveloper, spill({ liquid: 'fixer', place: 'eye' })),
      [[{ type: 'spill-cleaned' }, 'warning hurt hows=[eye] asks=rinsing']],
    ],
    [
      '… the last hurt first',
      having(atDeveloper, { type: 'hurt', how: 'eye' }, { type: 'hurt', how: 'wound' }),
      [[{ type: 'spill-cleaned' }, 'warning hurt hows=[wound] asks=rinsing']],
    ],
    [
      '… the floor, and what is on somebody stays',
      having(
        atDeveloper,
        spill({ liquid: 'fixer', volumeMl: 20, place: 'floor' }),
        spill({ liquid: 'fixer', volumeMl: 20, place: 'hand' }),
      ),
      [[{ type: 'spill-cleaned' }, 'did | answer spill-cleaned']],
    ],
    [
      'its bath, named by itself',
      having(atDeveloper, spill({ volumeMl: 20, place: 'floor' })),
      [
        [
          { type: 'part', liquid: 'fixer' },
          'did | warning spill-open bath=fixer volumeMl=20 place=floor cautions=[gloves spill-fixer data-sheet] | fact spilled from=bottle5 liquid=fixer volumeMl=20 place=floor',
        ],
      ],
    ],
  ])('%s', held);
});
