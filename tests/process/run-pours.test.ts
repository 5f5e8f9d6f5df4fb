import { describe, it } from 'vitest';
import {
  atBleach,
  atDeveloper,
  atFixer,
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
import { bottle } from './bench-user.js';

describe('a pour that has happened', () => {
  it.each<Row>([
    [
      'out of the tank that is empty: it is what stands in the jug',
      jugged,
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2) },
          'did | answer poured bath=developer from=jug to=bottle2 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500',
        ],
      ],
    ],
    [
      '… half of it',
      jugged,
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2), share: 0.5 },
          'did | answer poured bath=developer from=jug to=bottle2 | fact poured from=jug to=bottle2 liquid=developer volumeMl=250',
        ],
      ],
    ],
    [
      '… so much of it',
      jugged,
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2), volumeMl: 200 },
          'did | answer poured bath=developer from=jug to=bottle2 | fact poured from=jug to=bottle2 liquid=developer volumeMl=200',
        ],
      ],
    ],
    [
      'out of the tank a while ago',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer', to: bottle(2), agoS: 8 },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=162 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer sinceMs=212000 effectiveS=162',
        ],
      ],
    ],
    [
      'into the bottle of a bath',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', toOf: 'developer' },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      '… of which there is none, or more than one',
      having(withDeveloper, has(7, 'developer', 100), 170),
      [
        [{ type: 'poured', toOf: 'blix' }, 'question poured-what'],
        [
          { type: 'poured', toOf: 'developer' },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'a share of a bath is of its bottle',
      atDeveloper,
      [
        [
          { type: 'poured', liquid: 'fixer', share: 0.5, to: bottle(9) },
          'did | answer poured bath=fixer from=bottle5 to=bottle9 | fact poured from=bottle5 to=bottle9 liquid=fixer volumeMl=300',
        ],
      ],
    ],
    [
      'a share of a bottle',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(5), share: 0.25, to: bottle(9) },
          'did | answer poured bath=fixer from=bottle5 to=bottle9 | fact poured from=bottle5 to=bottle9 liquid=fixer volumeMl=150',
        ],
      ],
    ],
    [
      'a share of the bath in the tank',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer', share: 0.5, to: bottle(2) },
          'did | answer poured bath=developer from=tank to=bottle2 | fact poured from=tank to=bottle2 liquid=developer volumeMl=250 role=developer',
        ],
      ],
    ],
    [
      'some of a bottle',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(5), some: true, to: bottle(9) },
          'question poured-what amount=true | fact bottle-doubted bottle=5 doubt=spilled',
        ],
        [
          { type: 'poured', from: bottle(5), some: true, to: bottle(4) },
          'warning contaminated bath=fixer into=bleach bottle=4 found=[(reason=spoilt about=(bottle=4 why=thiosulphate turns a bleach into a reducer that eats the image silver unevenly bath=bleach other=fixer))] | fact splashed liquid=fixer bottle=4 | fact bottle-doubted bottle=4 doubt=unanswered of=fixer | fact bottle-doubted bottle=5 doubt=spilled',
        ],
        [
          { type: 'poured', from: bottle(5), some: true, to: bottle(9), volumeMl: 100 },
          'did | answer poured bath=fixer from=bottle5 to=bottle9 | fact poured from=bottle5 to=bottle9 liquid=fixer volumeMl=100',
        ],
        [
          { type: 'poured', from: bottle(5), some: true },
          'question poured-what amount=true | fact bottle-doubted bottle=5 doubt=spilled',
        ],
      ],
    ],
    [
      'some of what is in the tank',
      withDeveloper,
      [
        [
          { type: 'poured', some: true, to: bottle(4) },
          'answer contaminated bath=developer into=bleach bottle=4 | fact splashed liquid=developer bottle=4 | fact bottle-doubted bottle=4 doubt=unanswered of=developer',
        ],
        [
          { type: 'poured', some: true, to: bottle(4), volumeMl: 20 },
          'answer contaminated bath=developer into=bleach bottle=4 volumeMl=20 | fact poured from=bottle2 to=bottle4 liquid=developer volumeMl=20',
        ],
        [{ type: 'poured', some: true, to: bottle(2) }, 'answer poured bath=developer from=tank to=bottle2'],
        [{ type: 'poured', some: true }, 'answer poured bath=developer from=tank to=bottle2'],
      ],
    ],
    [
      'some of what was in the tank',
      developed,
      [
        [
          { type: 'poured', some: true, to: bottle(4) },
          'answer contaminated bath=developer into=bleach bottle=4 | fact splashed liquid=developer bottle=4 | fact bottle-doubted bottle=4 doubt=unanswered of=developer',
        ],
        [
          { type: 'poured', some: true, liquid: 'stop', to: bottle(4) },
          'warning contaminated bath=stop into=bleach bottle=4 gas=true why=(reason=acid-ferricyanide-bottle about=(bottle=4 bath=stop other=bleach)) found=[(reason=spoilt about=(bottle=4 why=Ferricyanide with strong acid or heat can give off hydrogen cyanide. Keep every acid away from it. bath=bleach other=stop))] | fact splashed liquid=stop bottle=4 | fact bottle-doubted bottle=4 doubt=unanswered of=stop',
        ],
      ],
    ],
    [
      'what is due, into a jug',
      atDeveloper,
      [
        [
          { type: 'poured', to: the('jug') },
          'did | answer poured bath=developer from=bottle2 to=jug | fact poured from=bottle2 to=jug liquid=developer volumeMl=500',
        ],
        [{ type: 'poured', to: the('jug') }, 'answer now now=pour'],
      ],
    ],
    [
      'a bath that is named, into a jug',
      having(atDeveloper, has(5, 'fixer', 300)),
      [
        [
          { type: 'poured', liquid: 'fixer', to: the('jug') },
          'did | answer poured bath=fixer from=bottle5 to=jug | fact poured from=bottle5 to=jug liquid=fixer volumeMl=300',
        ],
        [{ type: 'poured', liquid: 'fixer', to: the('jug') }, 'answer now now=pour'],
        [{ type: 'poured', to: the('jug') }, 'answer now now=pour'],
      ],
    ],
    [
      'out of a bottle into a jug',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(5), to: the('jug') },
          'did | answer poured bath=fixer from=bottle5 to=jug | fact poured from=bottle5 to=jug liquid=fixer volumeMl=500',
        ],
        [{ type: 'poured', from: bottle(9), to: the('jug') }, 'answer now now=pour'],
      ],
    ],
    [
      'a bath in two bottles, into a jug',
      having(atDeveloper, has(7, 'fixer', 300)),
      [[{ type: 'poured', liquid: 'fixer', to: the('jug') }, 'answer now now=pour']],
    ],
    [
      'what was cleared, into a jug',
      having(developed, into('stop', 3)),
      [
        [
          { type: 'poured', to: the('jug') },
          'did | answer poured bath=stop from=bottle3 to=jug | fact poured from=bottle3 to=jug liquid=stop volumeMl=500',
        ],
        [
          isIn(),
          'did | answer bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) assumed=true agoS=0 | fact step-started stepId=stop liquid=stop | fact poured from=jug to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30',
        ],
      ],
    ],
    [
      'another than was cleared, into a jug',
      having(developed, into('stop', 3)),
      [
        [
          { type: 'poured', liquid: 'fixer', to: the('jug') },
          'did | answer poured bath=fixer from=bottle5 to=jug | fact poured from=bottle5 to=jug liquid=fixer volumeMl=500',
        ],
        [
          isIn(),
          'did | answer bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) assumed=true agoS=0 | fact step-started stepId=stop liquid=stop | fact poured from=bottle3 to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30',
        ],
      ],
    ],
    [
      'so much into a jug',
      atDeveloper,
      [
        [
          { type: 'poured', liquid: 'fixer', to: the('jug'), volumeMl: 100 },
          'did | answer poured bath=fixer from=bottle5 to=jug | fact poured from=bottle5 to=jug liquid=fixer volumeMl=100',
        ],
      ],
    ],
    [
      'out, by its name alone, once it drains',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer' },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      '… a part of it',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer', volumeMl: 300 },
          'did | answer poured bath=developer from=tank to=bottle2 | fact poured from=tank to=bottle2 liquid=developer volumeMl=300 role=developer',
        ],
      ],
    ],
    [
      '… all but a millilitre',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer', volumeMl: 499 },
          'did | answer poured bath=developer from=tank to=bottle2 | fact poured from=tank to=bottle2 liquid=developer volumeMl=499 role=developer',
        ],
      ],
    ],
    [
      '… all but less than that',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', liquid: 'developer', volumeMl: 499.5 },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      '… and not before',
      having(withDeveloper, 100),
      [
        [
          { type: 'poured', liquid: 'developer' },
          'answer bath-already-in bath=developer sinceS=100 leftS=80',
        ],
      ],
    ],
    [
      'water, once it is out',
      having(atFixer, isIn('water'), 120),
      [[{ type: 'poured', from: the('tank') }, 'question ask ask=missing-bottle bath=water']],
    ],
    [
      'a part into its bottle, while all was cleared',
      leaving,
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2), volumeMl: 300 },
          'did | answer poured bath=developer from=tank to=bottle2 | fact poured from=tank to=bottle2 liquid=developer volumeMl=300 role=developer',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour jugged=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=200 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      '… all but a millilitre, to a bottle',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2), volumeMl: 499 },
          'did | answer poured bath=developer from=tank to=bottle2 | fact poured from=tank to=bottle2 liquid=developer volumeMl=499 role=developer',
        ],
      ],
    ],
    [
      '… all but less than that, to a bottle',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', from: the('tank'), to: bottle(2), volumeMl: 499.5 },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'a part down the sink counts for all',
      having(withDeveloper, 170),
      [
        [
          { type: 'poured', from: the('tank'), to: the('sink'), volumeMl: 100 },
          'did | warning poured bath=developer from=tank to=sink warn=(reason=throws-away-good-bath about=(bath=developer)) | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=sink liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'done, while a return was cleared',
      leaving,
      [
        [
          { type: 'poured', agoS: 5 },
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=165 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer sinceMs=215000 effectiveS=165',
        ],
      ],
    ],
    [
      'in, from its bottle, a while ago',
      having(atDeveloper, 30),
      [
        [
          { type: 'poured', from: bottle(2), agoS: 12 },
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=12 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer sinceMs=68000 wantedS=180',
        ],
      ],
    ],
    [
      'in, so much of it',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(2), volumeMl: 300 },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) missingMl=200 agoS=0 warn=(reason=not-covered about=(ml=300 ofMl=500 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=300 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: not-covered reasons=[not-covered]',
        ],
      ],
    ],
    [
      'in, by its name, a while ago',
      having(atDeveloper, 30),
      [
        [
          { type: 'poured', liquid: 'developer', agoS: 12 },
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=12 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer sinceMs=68000 wantedS=180',
        ],
      ],
    ],
    [
      'in, while nobody spoke of film',
      having(fresh, { type: 'begin-run' }),
      [
        [{ type: 'poured', from: bottle(2), to: the('tank') }, 'question film-first bath=developer'],
        [{ type: 'poured', to: the('tank') }, 'answer not-now now=prepare'],
      ],
    ],
    [
      'out of the jug',
      jugged,
      [
        [
          { type: 'poured', to: bottle(2) },
          'did | answer poured bath=developer from=jug to=bottle2 | fact poured from=jug to=bottle2 liquid=developer volumeMl=500',
        ],
      ],
    ],
    [
      'out of the jug, by its own word',
      jugged,
      [
        [
          { type: 'poured', from: the('jug'), to: bottle(9) },
          'did | answer poured bath=developer from=jug to=bottle9 | fact poured from=jug to=bottle9 liquid=developer volumeMl=500',
        ],
      ],
    ],
    [
      'out of the jug, with another bath in the tank',
      having(withDeveloper, { type: 'poured', from: bottle(3), to: the('jug') }),
      [
        [
          { type: 'poured', to: bottle(9) },
          'did | warning tank-is-empty now=pour slip=(kind=short bath=developer doneS=0 aimS=180 effect=-1) | fact step-ended stepId=developer plannedS=180 actualS=0 heldS=0 | fact deviation stepId=developer what=time: 0 s, planned 180 s | fact poured from=tank to=bottle9 liquid=developer volumeMl=500 role=developer effectiveS=0',
        ],
      ],
    ],
    [
      'out of one of two jugs: the one of that bottle',
      having(jugged, { type: 'poured', from: bottle(3), to: the('jug') }),
      [
        [
          { type: 'poured', from: the('jug'), to: bottle(3) },
          'did | answer poured bath=stop from=jug to=bottle3 | fact poured from=jug to=bottle3 liquid=stop volumeMl=500',
        ],
        [
          { type: 'poured', from: the('jug'), to: bottle(9) },
          'did | answer poured bath=developer from=jug to=bottle9 | fact poured from=jug to=bottle9 liquid=developer volumeMl=500',
        ],
      ],
    ],
    [
      'to a bottle, and nobody said what',
      atDeveloper,
      [
        [{ type: 'poured', to: bottle(9) }, 'question poured-what'],
        [{ type: 'poured', from: bottle(9), to: bottle(8) }, 'question poured-what'],
      ],
    ],
    [
      'into the bottle that it stands in',
      atDeveloper,
      [[{ type: 'poured', liquid: 'fixer', to: bottle(5) }, 'answer part-alone bottle=5']],
    ],
    [
      'over the brim of the next bottle',
      having(atDeveloper, has(5, 'fixer', 900)),
      [
        [
          { type: 'poured', from: bottle(5), to: bottle(4) },
          'did | warning poured bath=fixer from=bottle5 to=bottle4 warn=(reason=bleach-fixer-bottle about=(bottle=4 bath=fixer other=bleach)) lostMl=500 | fact poured from=bottle5 to=bottle4 liquid=fixer volumeMl=900',
        ],
      ],
    ],
    [
      'what is no bath of this process',
      atDeveloper,
      [
        [
          { type: 'poured', liquid: 'varnish', to: bottle(9) },
          'question no-such-liquid said=varnish known=[prebath water developer stop bath bleach fixer final rinse]',
        ],
      ],
    ],
  ])('%s', held);
});

describe('a pour that is to happen', () => {
  it.each<Row>([
    [
      'of what is due "into" its own bottle is one into the tank',
      atDeveloper,
      [
        [
          { type: 'pour-between', liquid: 'developer', to: bottle(2) },
          'did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
      ],
    ],
    [
      '… unless it says from where',
      atDeveloper,
      [
        [
          { type: 'pour-between', liquid: 'developer', to: bottle(2), from: bottle(7) },
          'question ask ask=bottle-unknown bath=developer bottle=7',
        ],
      ],
    ],
    [
      '… or how much',
      atDeveloper,
      [
        [
          { type: 'pour-between', liquid: 'developer', to: bottle(2), volumeMl: 100 },
          'question ask ask=propose bath=developer bottle=2',
        ],
      ],
    ],
    [
      '… or is of another bath',
      atDeveloper,
      [
        [
          { type: 'pour-between', liquid: 'fixer', to: bottle(5) },
          'question ask ask=propose bath=fixer bottle=5',
        ],
      ],
    ],
    [
      '… or into another bottle',
      atDeveloper,
      [
        [
          { type: 'pour-between', liquid: 'developer', to: bottle(9) },
          'question ask ask=propose bath=developer bottle=9',
        ],
      ],
    ],
    [
      '… or stands in a jug',
      having(atDeveloper, { type: 'poured', from: bottle(2), to: the('jug'), volumeMl: 200 }),
      [
        [
          { type: 'pour-between', liquid: 'developer', to: bottle(2) },
          'question ask ask=propose bath=developer bottle=2',
        ],
      ],
    ],
    [
      'after a step was left out by a word is said to be so',
      having(developed, { type: 'skip' }, yes, isIn('water'), 60, out),
      [
        [
          into('bleach', 4),
          'did | answer clear move=(bath=bleach from=bottle4 to=tank volumeMl=500) reason=due about=(bath=bleach) checks=(temperature=(aimC=38 state=unread) assumed=true)',
        ],
      ],
    ],
    [
      'out of a bottle that nobody settled is asked about once',
      having(atBleach, { type: 'swapped', bottle: 4, other: 5 }),
      [
        [
          into('bleach', 4),
          'warning recoverable move=(bath=bleach from=bottle4 to=tank volumeMl=500) reason=unanswered about=(bottle=4 bath=bleach other=fixer) checks=(temperature=(aimC=38 state=unread) assumed=true)',
        ],
        [
          yes,
          'did | answer overridden move=(bath=bleach from=bottle4 to=tank volumeMl=500) checks=(temperature=(aimC=38 state=unread) assumed=true) | fact bottle-doubted bottle=4 | fact deviation stepId=bleach what=bleach from bottle-4 to tank: unanswered reasons=[unanswered]',
        ],
        [{ type: 'cancel' }, 'did | answer cancelled'],
        [
          into('bleach', 4),
          'did | answer clear move=(bath=bleach from=bottle4 to=tank volumeMl=500) reason=due about=(bath=bleach) checks=(temperature=(aimC=38 state=unread) assumed=true)',
        ],
      ],
    ],
    [
      'while nobody is sure what was on the film is asked about once',
      having(atDeveloper, { type: 'in-doubt', suspect: 'fixer' }),
      [
        [
          into('developer', 2),
          'warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=film-doubted about=(bath=developer other=fixer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
        [
          yes,
          'did | answer overridden move=(bath=developer from=bottle2 to=tank volumeMl=500) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true) | fact film-doubted of=[fixer] asked=true | fact deviation stepId=developer what=developer from bottle-2 to tank: film-doubted reasons=[film-doubted]',
        ],
        [{ type: 'withdraw' }, 'did | answer called-off bath=developer now=pour'],
        [
          into('developer', 2),
          'did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
      ],
    ],
    [
      'with something said against it',
      developed,
      [
        [
          { type: 'pour-in', liquid: 'stop', from: bottle(3), besides: 'it smells' },
          'warning recoverable move=(bath=stop from=bottle3 to=tank volumeMl=500) reason=said-against about=(why=it smells bath=stop) checks=(temperature=(aimC=38 state=unread) assumed=true)',
        ],
        [
          yes,
          'did | answer overridden move=(bath=stop from=bottle3 to=tank volumeMl=500) checks=(temperature=(aimC=38 state=unread) assumed=true) | fact deviation stepId=stop what=stop from bottle-3 to tank: said-against reasons=[said-against]',
        ],
      ],
    ],
    [
      'back, with something said against it',
      having(withDeveloper, 170),
      [
        [
          { type: 'pour-back', liquid: 'developer', to: bottle(2), besides: 'it looks black' },
          'warning recoverable move=(bath=developer from=tank to=bottle2 volumeMl=500) reason=said-against about=(why=it looks black bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [
          yes,
          'did | answer overridden move=(bath=developer from=tank to=bottle2 volumeMl=500) checks=(filter=true portions=(count=2 eachMl=250)) | fact bottle-doubted bottle=2 doubt=unanswered | fact deviation stepId=developer what=developer from tank to bottle-2: said-against',
        ],
      ],
    ],
    [
      'that more speaks against than was agreed to',
      having(atDeveloper, has(2, 'developer', 300), {
        fact: { type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 37 },
      }),
      [
        [
          into('developer', 2),
          'warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=developer-cold about=(tempC=37 aimC=41.1 agoS=0 bath=developer) also=[(reason=too-little about=(bottle=2 ml=300 bath=developer))] checks=(temperature=(aimC=41.1 tempC=37 agoS=0 state=cold effect=-0.313 developer=true))',
        ],
        [
          yes,
          'did | answer overridden move=(bath=developer from=bottle2 to=tank volumeMl=500) checks=(temperature=(aimC=41.1 tempC=37 agoS=0 state=cold effect=-0.313 developer=true)) | fact deviation stepId=developer what=developer from bottle-2 to tank: developer-cold, too-little reasons=[developer-cold too-little]',
        ],
      ],
    ],
    [
      'by the strong word names all that it overrides',
      having(atDeveloper, has(5, 'fixer', 300)),
      [
        [
          into('fixer', 5),
          'warning ruinous move=(bath=fixer from=bottle5 to=tank volumeMl=500) reason=fixer-kills-latent about=(bath=fixer) also=[(reason=too-little about=(bottle=5 ml=300 bath=fixer))]',
        ],
        [
          { type: 'override' },
          'did | answer overridden move=(bath=fixer from=bottle5 to=tank volumeMl=500) checks=(temperature=(aimC=38 state=unread)) overridden=[(reason=fixer-kills-latent about=(bath=fixer)) (reason=too-little about=(bottle=5 ml=300 bath=fixer))] | fact overridden move=fixer from bottle-5 to tank verdict=ruinous why=fixer-kills-latent, too-little',
        ],
      ],
    ],
    [
      'down the sink, of what stands nowhere',
      atDeveloper,
      [
        [
          { type: 'pour-away', liquid: 'developer' },
          'answer where-it-goes lines=[Keep chlorine bleach away from it. It carries a developing agent, which is poison to water life. Collect it in a labelled jug and take it to a collection point for photographic waste. Your local rules and the safety data sheet decide.]',
        ],
        [{ type: 'pour-away', liquid: 'blix' }, 'question ask ask=no-such-liquid bath=blix'],
        [{ type: 'pour-away' }, 'question ask ask=no-such-liquid bath=blix'],
      ],
    ],
    [
      'from one of two bottles',
      having(atDeveloper, has(7, 'developer', 600)),
      [
        [
          { type: 'pour-in', liquid: 'developer' },
          'question ask ask=missing-bottle bath=developer candidates=[2 7]',
        ],
        [
          { type: 'part', vessel: bottle(7) },
          'did | answer clear move=(bath=developer from=bottle7 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true))',
        ],
      ],
    ],
    [
      'in, while another bath is in: a yes says that it is out',
      having(withDeveloper, 170),
      [
        [into('stop', 3), 'question ask ask=tank-not-empty bath=stop holds=developer'],
        [
          yes,
          'did | answer clear move=(bath=stop from=bottle3 to=tank volumeMl=500) reason=due about=(bath=stop) checks=(temperature=(aimC=38 state=unread) assumed=true) | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer inferred=true effectiveS=170',
        ],
        [
          isIn(),
          'did | answer bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) agoS=0 | fact step-started stepId=stop liquid=stop | fact poured from=bottle3 to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30',
        ],
      ],
    ],
    [
      'back, of a part',
      having(withDeveloper, 170),
      [
        [
          { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 498 },
          'did | answer clear move=(bath=developer from=tank to=bottle2 volumeMl=498) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=249))',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour | fact poured from=tank to=bottle2 liquid=developer volumeMl=498 role=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=2 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'back, of all but a millilitre',
      having(withDeveloper, 170),
      [
        [
          { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 499 },
          'did | answer clear move=(bath=developer from=tank to=bottle2 volumeMl=499) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'back, of a part, and the rest elsewhere',
      having(withDeveloper, 170, { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 }),
      [
        [
          { type: 'pour-away', from: the('tank') },
          'warning recoverable move=(bath=developer from=tank to=sink volumeMl=500) reason=throws-away-good-bath about=(bath=developer) checks=(localCodes=true)',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour jugged=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'of a part is judged again with its part',
      having(withDeveloper, 170, { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 }),
      [
        [
          has(2, 'developer', 900),
          'answer bottle-noted bottle=2 bath=developer volumeMl=900 capacityMl=1000 | warning recoverable move=(bath=developer from=tank to=bottle2 volumeMl=300) reason=no-headroom about=(bottle=2 ml=100 bath=developer) checks=(filter=true portions=(count=2 eachMl=150)) | fact bottle-set bottle=2 liquid=developer volumeMl=900 capacityMl=1000',
        ],
        [
          { type: 'bottle-empty', bottle: 2 },
          'answer bottle-empty bottle=2 was=developer | did | answer clear move=(bath=developer from=tank to=bottle2 volumeMl=300) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=150)) | fact bottle-set bottle=2 liquid=developer volumeMl=0 capacityMl=1000',
        ],
        [
          out,
          'did | answer tank-is-empty now=pour | fact poured from=tank to=bottle2 liquid=developer volumeMl=300 role=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=200 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'that was cleared is taken back once the bottle holds another bath',
      having(atDeveloper, into('developer', 2)),
      [
        [
          has(2, 'fixer', 500),
          'question bottle-doubt bottle=2 bath=fixer holds=developer | fact bottle-doubted bottle=2 doubt=unanswered of=fixer',
        ],
        [
          yes,
          'answer bottle-noted bottle=2 bath=fixer volumeMl=500 capacityMl=1000 was=developer | warning ask ask=mismatch bath=developer holds=fixer bottle=2 stake=fixer-kills-latent about=(bath=fixer) | fact bottle-doubted bottle=2 of=fixer | fact bottle-set bottle=2 liquid=fixer volumeMl=500 capacityMl=1000',
        ],
      ],
    ],
    [
      'that was cleared is taken back once the bottle is empty',
      having(atDeveloper, into('developer', 2)),
      [
        [
          { type: 'bottle-empty', bottle: 2 },
          'answer bottle-empty bottle=2 was=developer | question ask ask=bottle-empty bath=developer bottle=2 | fact bottle-set bottle=2 liquid=developer volumeMl=0 capacityMl=1000',
        ],
      ],
    ],
    [
      'of the rest into the tank',
      having(atDeveloper, isIn('developer'), spill({ tank: true, volumeMl: 200, place: 'table' })),
      [
        [
          into('developer', 2),
          'warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=too-little about=(bottle=2 ml=100 bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
        [
          isIn(),
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 warn=(reason=too-little about=(bottle=2 ml=100 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=100 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: too-little reasons=[too-little]',
        ],
      ],
    ],
    [
      'back, against which something came up: a yes empties no tank by itself',
      leaving,
      [
        [
          has(2, 'developer', 900),
          'answer bottle-noted bottle=2 bath=developer volumeMl=900 capacityMl=1000 | warning recoverable move=(bath=developer from=tank to=bottle2 volumeMl=500) reason=no-headroom about=(bottle=2 ml=100 bath=developer) checks=(filter=true portions=(count=2 eachMl=250)) | fact bottle-set bottle=2 liquid=developer volumeMl=900 capacityMl=1000',
        ],
        [
          yes,
          'did | answer overridden move=(bath=developer from=tank to=bottle2 volumeMl=500) checks=(filter=true portions=(count=2 eachMl=250)) lostMl=400 | fact deviation stepId=developer what=developer from tank to bottle-2: no-headroom',
        ],
      ],
    ],
  ])('%s', held);
});

describe('something got in', () => {
  it.each<Row>([
    [
      'in the developer',
      withDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'fixer', intoVessel: 'tank' },
          'did | warning got-into-tank bath=fixer into=developer warn=(reason=fixer-kills-latent about=(bath=fixer other=developer)) | fact splashed liquid=fixer tank=true | fact film-doubted of=[fixer]',
        ],
      ],
    ],
    [
      'in the empty tank, with film that light has yet to be kept from',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'fixer', intoVessel: 'tank' },
          'did | warning got-into-tank bath=fixer warn=(reason=fixer-kills-latent about=(bath=fixer)) | fact splashed liquid=fixer tank=true | fact film-doubted of=[fixer]',
        ],
        [
          { type: 'contaminated', liquid: 'stop', intoVessel: 'tank' },
          'did | warning got-into-tank bath=stop warn=(reason=stop-before-developer about=(bath=stop)) | fact splashed liquid=stop tank=true | fact film-doubted of=[stop]',
        ],
      ],
    ],
    [
      'in the empty tank, once it is developed',
      developed,
      [
        [
          { type: 'contaminated', liquid: 'bleach', intoVessel: 'tank' },
          'did | warning got-into-tank bath=bleach warn=(reason=developer-in-bleach about=(bath=bleach other=developer)) | fact splashed liquid=bleach tank=true | fact film-doubted of=[bleach]',
        ],
        [
          { type: 'contaminated', liquid: 'final-rinse', intoVessel: 'tank' },
          'did | warning got-into-tank bath=final-rinse warn=(reason=wetting-early about=(bath=final-rinse)) | fact splashed liquid=final-rinse tank=true | fact film-doubted of=[final-rinse]',
        ],
      ],
    ],
    [
      'in the fixer',
      having(atFixer, into('fixer', 5), isIn('fixer')),
      [
        [
          { type: 'contaminated', liquid: 'bleach', intoVessel: 'tank' },
          'did | warning got-into-tank bath=bleach into=fixer warn=(reason=fixer-in-bleach about=(bath=bleach other=fixer)) | fact splashed liquid=bleach tank=true | fact film-doubted of=[bleach]',
        ],
        [
          { type: 'contaminated', liquid: 'final-rinse', intoVessel: 'tank' },
          'did | warning got-into-tank bath=final-rinse into=fixer warn=(reason=wetting-early about=(bath=final-rinse other=fixer)) | fact splashed liquid=final-rinse tank=true | fact film-doubted of=[final-rinse]',
        ],
        [
          { type: 'contaminated', liquid: 'developer', intoVessel: 'tank' },
          'did | warning got-into-tank bath=developer into=fixer warn=(reason=redevelops about=(bath=developer other=fixer)) | fact splashed liquid=developer tank=true | fact film-doubted of=[developer]',
        ],
      ],
    ],
    [
      'in the water of the tank',
      having(atDeveloper, isIn('water')),
      [
        [
          { type: 'contaminated', liquid: 'fixer', intoVessel: 'tank' },
          'did | warning got-into-tank bath=fixer into=water warn=(reason=fixer-kills-latent about=(bath=fixer)) | fact splashed liquid=fixer tank=true | fact film-doubted of=[fixer]',
        ],
        [
          { type: 'contaminated', liquid: 'prebath', intoVessel: 'tank' },
          'did | warning got-into-tank bath=prebath into=water | fact splashed liquid=prebath tank=true',
        ],
      ],
    ],
    [
      'of the bath that is in already',
      withDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'developer', intoVessel: 'tank' },
          'answer bath-already-in bath=developer sinceS=0 leftS=180',
        ],
      ],
    ],
    [
      'of the bath that is due',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'developer', intoVessel: 'tank' },
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180',
        ],
      ],
    ],
    [
      'of a thing that gives off a gas',
      having(developed, into('stop', 3), isIn('stop')),
      [
        [
          { type: 'contaminated', liquid: 'chlorine-bleach', intoVessel: 'tank' },
          'did | warning got-into-tank bath=chlorine-bleach into=stop gas=true dangers=[Chlorine cleaner and acid give off chlorine. Never let them meet.] | fact splashed liquid=chlorine-bleach tank=true',
        ],
        [
          { type: 'contaminated', liquid: 'acetone', intoVessel: 'tank' },
          'did | warning got-into-tank bath=acetone into=stop | fact splashed liquid=acetone tank=true',
        ],
        [
          { type: 'contaminated', liquid: 'water', intoVessel: 'tank' },
          'did | warning got-into-tank bath=water into=stop harmless=true thins=true | fact splashed liquid=water tank=true',
        ],
      ],
    ],
    [
      'with no film',
      having(fresh, { type: 'begin-run' }),
      [
        [
          { type: 'contaminated', liquid: 'fixer', intoVessel: 'tank' },
          'did | warning got-into-tank bath=fixer | fact splashed liquid=fixer tank=true',
        ],
      ],
    ],
    [
      'of a powder by its own name',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'sodium-sulphite', intoBottle: 5 },
          'warning contaminated bath=sodium-sulfite-anhydrous into=fixer bottle=5 found=[(reason=spoilt about=(bottle=5 why=more salt than the bath was made with bath=fixer other=sodium-sulfite-anhydrous))] | fact splashed liquid=sodium-sulfite-anhydrous bottle=5',
        ],
        [
          { type: 'contaminated', liquid: 'sulphite', intoBottle: 5 },
          'warning contaminated bath=sulphite into=fixer bottle=5 found=[(reason=doubtful-mixture about=(bottle=5 why=I do not know sulphite bath=fixer other=sulphite))] | fact splashed liquid=sulphite bottle=5',
        ],
      ],
    ],
    [
      'two that went into one bottle',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'fixer', with: 'stop', intoBottle: 5 },
          'answer contaminated bath=stop into=fixer bottle=5 gas=true why=(reason=acid-thiosulphate-bottle about=(bottle=5 bath=stop other=fixer)) | fact splashed liquid=stop bottle=5',
        ],
        [
          { type: 'contaminated', liquid: 'fixer', with: 'stop', intoBottle: 3 },
          'warning contaminated bath=fixer into=stop bottle=3 gas=true why=(reason=acid-thiosulphate-bottle about=(bottle=3 bath=fixer other=stop)) found=[(reason=spoilt about=(bottle=3 why=thiosulphate in acid drops sulphur onto the film within a minute bath=stop other=fixer))] | fact splashed liquid=fixer bottle=3',
        ],
        [
          { type: 'contaminated', liquid: 'fixer', with: 'stop', intoBottle: 4 },
          'warning contaminated bath=fixer into=bleach bottle=4 found=[(reason=spoilt about=(bottle=4 why=thiosulphate turns a bleach into a reducer that eats the image silver unevenly bath=bleach other=fixer))] | fact splashed liquid=fixer bottle=4',
        ],
      ],
    ],
    [
      'two, and nobody said where',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'fixer', with: 'stop' },
          'warning got-into-which bath=fixer both=stop | fact bottle-doubted bottle=1 doubt=unanswered of=fixer | fact bottle-doubted bottle=2 doubt=unanswered of=fixer | fact bottle-doubted bottle=3 doubt=unanswered of=fixer | fact bottle-doubted bottle=4 doubt=unanswered of=fixer | fact bottle-doubted bottle=6 doubt=unanswered of=fixer',
        ],
        [
          { type: 'contaminated', liquid: 'fixer' },
          'warning got-into-which bath=fixer | fact bottle-doubted bottle=1 of=fixer | fact bottle-doubted bottle=2 of=fixer | fact bottle-doubted bottle=3 of=fixer | fact bottle-doubted bottle=4 of=fixer | fact bottle-doubted bottle=6 of=fixer | fact bottle-doubted bottle=1 doubt=unanswered of=fixer | fact bottle-doubted bottle=2 doubt=unanswered of=fixer | fact bottle-doubted bottle=3 doubt=unanswered of=fixer | fact bottle-doubted bottle=4 doubt=unanswered of=fixer | fact bottle-doubted bottle=6 doubt=unanswered of=fixer',
        ],
      ],
    ],
    [
      '… of what is no bath',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'acetone' },
          'warning got-into-which bath=acetone further=[Acetone: highly flammable liquid and vapour, and irritates the eyes badly. Chlorine cleaner and acetone give chloroform, with heat.] | fact bottle-doubted bottle=1 doubt=unanswered of=acetone | fact bottle-doubted bottle=2 doubt=unanswered of=acetone | fact bottle-doubted bottle=3 doubt=unanswered of=acetone | fact bottle-doubted bottle=4 doubt=unanswered of=acetone | fact bottle-doubted bottle=5 doubt=unanswered of=acetone | fact bottle-doubted bottle=6 doubt=unanswered of=acetone',
        ],
      ],
    ],
    [
      'in its own bottle, or one of which nobody said what it holds',
      atDeveloper,
      [
        [{ type: 'contaminated', liquid: 'fixer', intoBottle: 5 }, 'question poured-what'],
        [{ type: 'contaminated', liquid: 'fixer', intoBottle: 9 }, 'question poured-what'],
      ],
    ],
    [
      'what drains went into the bottle of another bath',
      having(withDeveloper, 170),
      [
        [
          { type: 'contaminated', liquid: 'developer', intoLiquid: 'stop' },
          'did | warning poured bath=developer from=tank to=bottle3 warn=(reason=acid-developer-bottle about=(bottle=3 bath=developer other=stop)) gas=true lostMl=100 | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle3 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'what works went into it, all of it',
      having(withDeveloper, 100),
      [
        [
          { type: 'contaminated', liquid: 'developer', intoLiquid: 'stop', all: true },
          'did | warning poured bath=developer from=tank to=bottle3 warn=(reason=acid-developer-bottle about=(bottle=3 bath=developer other=stop)) gas=true lostMl=100 | warning tank-is-empty now=pour slip=(kind=short bath=developer doneS=100 aimS=180 effect=-0.444 restS=80) | fact step-ended stepId=developer plannedS=180 actualS=100 heldS=0 | fact deviation stepId=developer what=time: 100 s, planned 180 s | fact poured from=tank to=bottle3 liquid=developer volumeMl=500 role=developer effectiveS=100',
        ],
      ],
    ],
    [
      '… or some',
      having(withDeveloper, 100),
      [
        [
          { type: 'contaminated', liquid: 'developer', intoLiquid: 'stop' },
          'answer contaminated bath=developer into=stop bottle=3 gas=true why=(reason=acid-developer-bottle about=(bottle=3 bath=developer other=stop)) | fact splashed liquid=developer bottle=3',
        ],
        [
          { type: 'contaminated', liquid: 'developer', intoLiquid: 'stop', volumeMl: 20, all: true },
          'answer contaminated bath=developer into=stop bottle=3 volumeMl=20 gas=true why=(reason=acid-developer-bottle about=(bottle=3 bath=developer other=stop)) | fact poured from=bottle2 to=bottle3 liquid=developer volumeMl=20',
        ],
      ],
    ],
    [
      'of what stands in no bottle',
      atDeveloper,
      [
        [
          { type: 'contaminated', liquid: 'acetone', intoBottle: 5 },
          'warning contaminated bath=acetone into=fixer bottle=5 found=[(reason=doubtful-mixture about=(bottle=5 why=nothing is known of acetone in this bath bath=fixer other=acetone))] | fact splashed liquid=acetone bottle=5',
        ],
        [
          { type: 'contaminated', liquid: 'acetone', intoBottle: 4, volumeMl: 10 },
          'warning contaminated bath=acetone into=bleach bottle=4 volumeMl=10 found=[(reason=doubtful-mixture about=(bottle=4 why=nothing is known of acetone in this bath bath=bleach other=acetone))] | fact poured from=tap to=bottle4 liquid=acetone volumeMl=10',
        ],
        [
          { type: 'contaminated', liquid: 'chlorine-bleach', intoBottle: 3, volumeMl: 5 },
          'warning contaminated bath=chlorine-bleach into=stop bottle=3 volumeMl=5 gas=true gases=[Chlorine cleaner and acid give off chlorine. Never let them meet.] found=[(reason=spoilt about=(bottle=3 why=Chlorine cleaner and acid give off chlorine. Never let them meet. bath=stop other=chlorine-bleach))] | fact poured from=tap to=bottle3 liquid=chlorine-bleach volumeMl=5',
        ],
        [
          { type: 'contaminated', liquid: 'acetone', intoBottle: 2, all: true },
          'warning contaminated bath=acetone into=developer bottle=2 found=[(reason=doubtful-mixture about=(bottle=2 why=nothing is known of acetone in this bath bath=developer other=acetone))] | fact splashed liquid=acetone bottle=2',
        ],
      ],
    ],
    [
      'while a pour waits',
      having(atDeveloper, into('fixer', 5)),
      [
        [
          { type: 'contaminated', liquid: 'fixer', intoBottle: 4, volumeMl: 5 },
          'warning contaminated bath=fixer into=bleach bottle=4 volumeMl=5 found=[(reason=spoilt about=(bottle=4 why=thiosulphate turns a bleach into a reducer that eats the image silver unevenly bath=bleach other=fixer))] | fact poured from=bottle5 to=bottle4 liquid=fixer volumeMl=5',
        ],
        [{ type: 'override' }, 'answer nothing-waiting'],
      ],
    ],
  ])('%s', held);
});

describe('what went down the sink', () => {
  it.each<Row>([
    [
      'what meets in the trap of a sink',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(3), to: the('sink') },
          'did | answer poured bath=stop from=bottle3 to=sink | fact poured from=bottle3 to=sink liquid=stop volumeMl=600',
        ],
        [
          { type: 'poured', from: bottle(5), to: the('sink') },
          'did | answer poured bath=fixer from=bottle5 to=sink | warning met bath=fixer with=stop gas=true dangers=[Acid on fixer gives off sulphur dioxide and drops sulphur. Keep acids away.] | fact poured from=bottle5 to=sink liquid=fixer volumeMl=600',
        ],
      ],
    ],
    [
      '… with water between',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(3), to: the('sink') },
          'did | answer poured bath=stop from=bottle3 to=sink | fact poured from=bottle3 to=sink liquid=stop volumeMl=600',
        ],
        [{ type: 'poured', liquid: 'water', to: the('sink') }, 'did | answer sink-rinsed'],
        [
          { type: 'poured', from: bottle(5), to: the('sink') },
          'did | answer poured bath=fixer from=bottle5 to=sink | fact poured from=bottle5 to=sink liquid=fixer volumeMl=600',
        ],
      ],
    ],
    [
      '… half an hour later',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(3), to: the('sink') },
          'did | answer poured bath=stop from=bottle3 to=sink | fact poured from=bottle3 to=sink liquid=stop volumeMl=600',
        ],
        [1800],
        [
          { type: 'poured', from: bottle(5), to: the('sink') },
          'did | answer poured bath=fixer from=bottle5 to=sink | fact poured from=bottle5 to=sink liquid=fixer volumeMl=600',
        ],
      ],
    ],
    [
      '… a second before that',
      atDeveloper,
      [
        [
          { type: 'poured', from: bottle(3), to: the('sink') },
          'did | answer poured bath=stop from=bottle3 to=sink | fact poured from=bottle3 to=sink liquid=stop volumeMl=600',
        ],
        [1799],
        [
          { type: 'poured', from: bottle(5), to: the('sink') },
          'did | answer poured bath=fixer from=bottle5 to=sink | warning met bath=fixer with=stop gas=true dangers=[Acid on fixer gives off sulphur dioxide and drops sulphur. Keep acids away.] | fact poured from=bottle5 to=sink liquid=fixer volumeMl=600',
        ],
      ],
    ],
  ])('%s', held);
});
