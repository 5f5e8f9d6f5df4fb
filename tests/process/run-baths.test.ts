import { describe, it } from 'vitest';
import {
  atBleach,
  atDeveloper,
  atFixer,
  back,
  hanging,
  has,
  having,
  held,
  into,
  isIn,
  leaving,
  out,
  type Row,
  spill,
  the,
  withDeveloper,
  yes,
} from './at-the-sink.js';
import { bottle } from './bench-user.js';

describe('the bath in the tank', () => {
  it.each<Row>([
    [
      'in, instead of the one that was cleared',
      having(atDeveloper, into('developer', 2)),
      [
        [
          { type: 'bath-in', liquid: 'stop', instead: true },
          'did | warning bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) agoS=0 warn=(reason=stop-before-developer about=(bath=stop)) | fact step-started stepId=stop liquid=stop | fact poured from=bottle3 to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30 | fact deviation stepId=stop what=stop in without asking: stop-before-developer reasons=[stop-before-developer]',
        ],
        [out, 'question in-and-empty bath=stop'],
      ],
    ],
    [
      'in, as it was cleared, and "instead" says nothing',
      having(atDeveloper, into('developer', 2)),
      [
        [
          { type: 'bath-in', liquid: 'developer', instead: true },
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180',
        ],
      ],
    ],
    [
      'in, of a bath with a part missing: the rest of it',
      having(
        atDeveloper,
        has(2, 'developer', 900),
        isIn('developer'),
        spill({ tank: true, volumeMl: 200, place: 'table' }),
      ),
      [
        [
          isIn(),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=200 role=developer stepId=developer wantedS=180',
        ],
        [isIn(), 'answer bath-already-in bath=developer sinceS=0 leftS=180'],
      ],
    ],
    [
      '… with just enough of it',
      having(
        atDeveloper,
        has(2, 'developer', 700),
        isIn('developer'),
        spill({ tank: true, volumeMl: 200, place: 'table' }),
      ),
      [
        [
          isIn(),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=200 role=developer stepId=developer wantedS=180',
        ],
      ],
    ],
    [
      '… with not enough of it',
      having(
        atDeveloper,
        has(2, 'developer', 690),
        isIn('developer'),
        spill({ tank: true, volumeMl: 200, place: 'table' }),
      ),
      [[isIn(), 'answer bath-already-in bath=developer sinceS=0 leftS=180']],
    ],
    [
      '… with hardly a part missing',
      having(
        atDeveloper,
        has(2, 'developer', 900),
        isIn('developer'),
        spill({ tank: true, volumeMl: 20, place: 'table' }),
      ),
      [[isIn(), 'answer bath-already-in bath=developer sinceS=0 leftS=180']],
    ],
    [
      '… with a little more than that missing',
      having(
        atDeveloper,
        has(2, 'developer', 900),
        isIn('developer'),
        spill({ tank: true, volumeMl: 21, place: 'table' }),
      ),
      [
        [
          isIn(),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=21 role=developer stepId=developer wantedS=180',
        ],
      ],
    ],
    [
      '… named',
      having(
        atDeveloper,
        has(2, 'developer', 900),
        isIn('developer'),
        spill({ tank: true, volumeMl: 200, place: 'table' }),
      ),
      [
        [
          isIn('developer'),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=200 role=developer stepId=developer wantedS=180',
        ],
      ],
    ],
    [
      '… of water',
      having(
        atBleach,
        into('bleach', 4),
        isIn('bleach'),
        180,
        back('bleach', 4),
        out,
        isIn('water'),
        spill({ tank: true, volumeMl: 200, place: 'table' }),
      ),
      [[isIn(), 'answer bath-already-in bath=water sinceS=0 leftS=60']],
    ],
    [
      'in, how long it has been so already',
      having(withDeveloper, 30),
      [
        [
          { type: 'bath-in', liquid: 'developer', agoS: 25 },
          'answer bath-already-in bath=developer sinceS=30 leftS=150',
        ],
        [
          { type: 'bath-in', liquid: 'developer', agoS: 19 },
          'answer bath-already-in bath=developer sinceS=30 leftS=150',
        ],
      ],
    ],
    [
      'in, so much, or a share',
      atDeveloper,
      [
        [
          { type: 'bath-in', liquid: 'developer', volumeMl: 300 },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) missingMl=200 agoS=0 warn=(reason=not-covered about=(ml=300 ofMl=500 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=300 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: not-covered reasons=[not-covered]',
        ],
      ],
    ],
    [
      'in, a share',
      atDeveloper,
      [
        [
          { type: 'bath-in', liquid: 'developer', share: 0.5 },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) missingMl=250 agoS=0 warn=(reason=not-covered about=(ml=250 ofMl=500 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=250 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: not-covered reasons=[not-covered]',
        ],
      ],
    ],
    [
      'in, all but what is no part',
      atDeveloper,
      [
        [
          { type: 'bath-in', liquid: 'developer', volumeMl: 480 },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 warn=(reason=not-covered about=(ml=480 ofMl=500 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=480 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: not-covered reasons=[not-covered]',
        ],
      ],
    ],
    [
      'go, with a wash due',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out),
      [
        [{ type: 'start-clock' }, 'question confirm-bath-in bath=water | fact film-doubted of=[water]'],
        [
          yes,
          'did | answer bath-in bath=water aimS=60 agitation=(style=inversion initialS=15 everyS=30 inversions=4) agoS=0 | fact film-doubted | fact step-started stepId=wash-after-bleach liquid=water | fact poured from=tap to=tank liquid=water volumeMl=500 role=water stepId=wash-after-bleach wantedS=60',
        ],
      ],
    ],
    [
      'the water is changed, and the wash goes on',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out, isIn('water')),
      [
        [20],
        [
          isIn('water'),
          'did | answer bath-in bath=water aimS=40 why=the wash goes on agitation=(style=inversion initialS=15 everyS=30 inversions=4) agoS=0 | fact step-ended stepId=wash-after-bleach plannedS=60 actualS=20 heldS=0 | fact deviation stepId=wash-after-bleach what=time: 20 s, planned 60 s | fact poured from=tank to=sink liquid=water volumeMl=500 role=water inferred=true | fact step-started stepId=wash-after-bleach liquid=water | fact poured from=tap to=tank liquid=water volumeMl=500 role=water stepId=wash-after-bleach wantedS=40 aimS=40',
        ],
        [55],
        [
          isIn('water'),
          'did | answer bath-in bath=water agoS=0 | fact step-ended stepId=wash-after-bleach plannedS=40 actualS=55 heldS=0 | fact poured from=tank to=sink liquid=water volumeMl=500 role=water inferred=true | fact poured from=tap to=tank liquid=water volumeMl=500 role=water',
        ],
      ],
    ],
    [
      'the bath before it goes into a jug, and that is said',
      having(withDeveloper, 170),
      [
        [
          isIn('stop'),
          'did | answer bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) agoS=0 jugged=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer inferred=true effectiveS=170 | fact step-started stepId=stop liquid=stop | fact poured from=bottle3 to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30',
        ],
      ],
    ],
    [
      'the bath before it was on its way to its bottle',
      leaving,
      [
        [
          isIn('stop'),
          'did | answer bath-in bath=stop aimS=30 agitation=(style=inversion initialS=20 inversions=0) agoS=0 | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer inferred=true effectiveS=170 | fact step-started stepId=stop liquid=stop | fact poured from=bottle3 to=tank liquid=stop volumeMl=500 role=stop stepId=stop wantedS=30',
        ],
      ],
    ],
    [
      'out of a bottle that holds another bath',
      atDeveloper,
      [
        [
          { type: 'poured', liquid: 'developer', from: bottle(4), to: the('tank') },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 named=(bottle=4 holds=bleach own=2) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180 | fact bottle-doubted bottle=4 doubt=unanswered',
        ],
      ],
    ],
    [
      '… which is empty',
      having(atDeveloper, { type: 'bottle-empty', bottle: 4 }),
      [
        [
          { type: 'poured', liquid: 'developer', from: bottle(4), to: the('tank') },
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 warn=(reason=too-little about=(bottle=4 ml=0 bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle4 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: too-little reasons=[too-little]',
        ],
      ],
    ],
    [
      'a wrong bath, with none due',
      hanging,
      [
        [
          isIn('developer'),
          'did | warning bath-in bath=developer aimS=10 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 warn=(reason=finished-film about=(bath=developer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: finished-film reasons=[finished-film]',
        ],
        [yes, 'answer nothing-waiting'],
      ],
    ],
    [
      'a wrong bath',
      atDeveloper,
      [
        [
          isIn('fixer'),
          'did | warning wrong-bath-in bath=fixer reason=fixer-kills-latent about=(bath=fixer) outlet=(to=bottle bottle=5 filter=true) due=developer | fact poured from=bottle5 to=tank liquid=fixer volumeMl=500 role=fixer wantedS=120 | fact deviation stepId=developer what=fixer in without asking: fixer-kills-latent reasons=[fixer-kills-latent]',
        ],
        [out, 'question in-and-empty bath=fixer'],
      ],
    ],
    [
      'a bath that was in for longer than it should already',
      having(atBleach, 300),
      [
        [
          { type: 'bath-in', liquid: 'bleach', agoS: 200 },
          'did | answer bath-in bath=bleach aimS=180 agoS=200 | call drain bath=bleach outlet=(to=bottle bottle=4 filter=true) next=water | fact step-started stepId=bleach liquid=bleach | fact poured from=bottle4 to=tank liquid=bleach volumeMl=500 role=bleach stepId=bleach sinceMs=380000 wantedS=180',
        ],
      ],
    ],
    [
      'a bath that was in for longer than its first agitation',
      having(atBleach, 300),
      [
        [
          { type: 'bath-in', liquid: 'bleach', agoS: 15 },
          'did | answer bath-in bath=bleach aimS=180 agoS=15 | fact step-started stepId=bleach liquid=bleach | fact poured from=bottle4 to=tank liquid=bleach volumeMl=500 role=bleach stepId=bleach sinceMs=565000 wantedS=180',
        ],
      ],
    ],
    [
      'while nobody is sure of the film',
      having(atDeveloper, { type: 'in-doubt', suspect: 'fixer' }),
      [
        [
          isIn('developer'),
          'did | warning bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 warn=(reason=film-doubted about=(bath=developer other=fixer)) | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180 | fact deviation stepId=developer what=developer in without asking: film-doubted reasons=[film-doubted] | fact film-doubted of=[fixer] asked=true',
        ],
        [out, 'question in-and-empty bath=developer'],
      ],
    ],
    [
      'while nobody is sure of the film, back to another bottle',
      having(withDeveloper, { type: 'in-doubt', suspect: 'fixer' }, 170),
      [
        [
          { type: 'poured', liquid: 'developer', to: bottle(9) },
          'did | warning poured bath=developer from=tank to=bottle9 warn=(reason=film-doubted about=(bath=developer other=fixer)) | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle9 liquid=developer volumeMl=500 role=developer effectiveS=170 | fact film-doubted of=[fixer] asked=true',
        ],
        [
          into('stop', 3),
          'did | answer clear move=(bath=stop from=bottle3 to=tank volumeMl=500) reason=due about=(bath=stop) checks=(temperature=(aimC=38 state=unread) assumed=true)',
        ],
      ],
    ],
    [
      'over the brim of a bottle whose size was told',
      having(
        atDeveloper,
        { type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 700, capacityMl: 800 },
        isIn('developer'),
        170,
        has(2, 'developer', 700),
      ),
      [
        [
          { type: 'poured', liquid: 'developer', to: bottle(2) },
          'did | warning poured bath=developer from=tank to=bottle2 warn=(reason=no-headroom about=(bottle=2 ml=100 bath=developer)) lostMl=400 sizeTold=true | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'so long in all',
      having(atFixer, into('fixer', 5), isIn('fixer'), 20),
      [
        [{ type: 'add-time', seconds: 180, inAll: true }, 'did | answer time-added seconds=60 leftS=160'],
        [{ type: 'add-time', seconds: 180, inAll: true }, 'answer clock-runs bath=fixer sinceS=20 leftS=160'],
        [{ type: 'add-time', seconds: 150, inAll: true }, 'did | answer time-added seconds=-30 leftS=130'],
        [{ type: 'add-time', seconds: 181.4, inAll: true }, 'did | answer time-added seconds=31 leftS=161'],
      ],
    ],
    [
      'so long in all, of nothing',
      atDeveloper,
      [[{ type: 'add-time', seconds: 100, inAll: true }, 'answer no-clock now=pour']],
    ],
    [
      'more time, of which a part is nothing to speak of',
      withDeveloper,
      [
        [{ type: 'add-time', seconds: 9 }, 'did | warning time-added seconds=9 leftS=189 effect=0.05'],
        [{ type: 'add-time', seconds: 1 }, 'did | warning time-added seconds=1 leftS=190 effect=0.056'],
        [{ type: 'add-time', seconds: 0.9 }, 'question bad-seconds seconds=0.9'],
        [{ type: 'add-time', seconds: 100000 }, 'question bad-seconds seconds=100000'],
      ],
    ],
    [
      'more time, of what has no time',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out, isIn('water')),
      [
        [{ type: 'add-time', seconds: 30 }, 'did | answer time-added seconds=30 leftS=90'],
        [{ type: 'resume-clock' }, 'answer clock-runs bath=water sinceS=0 leftS=90'],
      ],
    ],
    [
      'more time, where no developer is',
      having(atFixer, into('fixer', 5), isIn('fixer'), 20),
      [
        [{ type: 'add-time', seconds: 30 }, 'did | answer time-added seconds=30 leftS=130'],
        [{ type: 'shorten', seconds: 10 }, 'did | answer time-added seconds=-10 leftS=120'],
      ],
    ],
    [
      'go on, in water whose time is up',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out, isIn('water'), 200),
      [[{ type: 'resume-clock' }, 'answer clock-runs bath=water sinceS=200 leftS=0']],
    ],
    [
      'go on, in a bath whose time is up',
      having(withDeveloper, 200),
      [
        [{ type: 'resume-clock' }, 'warning clock-runs bath=developer sinceS=200 leftS=-20'],
        [
          { type: 'hold-clock' },
          'answer held-up bath=developer leftS=-20 | fact note text=held up during developer',
        ],
      ],
    ],
    [
      'drain, of what was cleared and never said to be in',
      having(atDeveloper, into('developer', 2), 60),
      [
        [{ type: 'drain-now' }, 'question confirm-bath-in bath=developer | fact film-doubted of=[developer]'],
        [
          yes,
          'did | answer bath-in bath=developer aimS=180 agoS=50 | fact film-doubted | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer sinceMs=60000 tookS=10 wantedS=180',
        ],
      ],
    ],
    ['drain, of nothing', atDeveloper, [[{ type: 'drain-now' }, 'answer now now=pour']]],
    [
      'drain, before a wash',
      having(atBleach, into('bleach', 4), isIn('bleach'), 175),
      [
        [
          { type: 'drain-now' },
          'did | answer drain bath=bleach outlet=(to=bottle bottle=4 filter=true) next=water',
        ],
      ],
    ],
    [
      'drain, at the end of a wash',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out, isIn('water'), 120),
      [[{ type: 'drain-now' }, 'did | answer drain bath=water outlet=(to=sink) next=fixer']],
    ],
    [
      'a part is back, and the rest is out',
      having(withDeveloper, 170, { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 }),
      [
        [
          out,
          'did | answer tank-is-empty now=pour | fact poured from=tank to=bottle2 liquid=developer volumeMl=300 role=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=200 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'a part that is all but a millilitre',
      having(withDeveloper, spill({ tank: true, volumeMl: 200, place: 'table' }), 170, {
        type: 'pour-back',
        liquid: 'developer',
        to: bottle(2),
        volumeMl: 298.9,
      }),
      [
        [
          out,
          'did | answer tank-is-empty now=pour | fact poured from=tank to=bottle2 liquid=developer volumeMl=298.9 role=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=1.1 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'out, before anything was done, on its way from a part',
      having(withDeveloper, 170, { type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 }),
      [
        [
          { type: 'poured', to: the('sink') },
          'did | warning poured bath=developer from=tank to=sink warn=(reason=throws-away-good-bath about=(bath=developer)) | answer tank-is-empty now=pour | fact poured from=tank to=bottle2 liquid=developer volumeMl=300 role=developer | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=sink liquid=developer volumeMl=200 role=developer effectiveS=170',
        ],
      ],
    ],
    [
      'a bleach that was short and is called for again no more',
      having(atBleach, into('bleach', 4), isIn('bleach'), 100),
      [
        [
          out,
          'did | warning tank-is-empty now=pour jugged=bleach slip=(kind=short bath=bleach doneS=100 aimS=180 restS=80) | fact step-ended stepId=bleach plannedS=180 actualS=100 heldS=0 | fact deviation stepId=bleach what=time: 100 s, planned 180 s | fact poured from=tank to=jug liquid=bleach volumeMl=500 role=bleach',
        ],
      ],
    ],
    [
      '… a fixer',
      having(atFixer, into('fixer', 5), isIn('fixer'), 60),
      [
        [
          out,
          'did | warning tank-is-empty now=pour jugged=fixer slip=(kind=short bath=fixer doneS=60 aimS=120 restS=60) | fact step-ended stepId=fixer plannedS=120 actualS=60 heldS=0 | fact deviation stepId=fixer what=time: 60 s, planned 120 s | fact poured from=tank to=jug liquid=fixer volumeMl=500 role=fixer',
        ],
      ],
    ],
    [
      'a film that is lost, while nobody was sure of it',
      having(
        atDeveloper,
        { type: 'in-doubt', suspect: 'stop' },
        into('fixer', 5),
        { type: 'override' },
        isIn(),
        120,
      ),
      [
        [
          out,
          'did | warning tank-is-empty now=lost jugged=fixer slip=(kind=lost bath=fixer doneS=0 aimS=0 doubted=true) | fact step-ended stepId=fixer plannedS=120 actualS=120 heldS=0 | fact poured from=tank to=jug liquid=fixer volumeMl=500 role=fixer',
        ],
      ],
    ],
    [
      'development that is off in the tank',
      having(withDeveloper, 20),
      [
        [
          { fact: { type: 'temperature', vessel: the('tank'), liquid: 'developer', tempC: 39.5 } },
          'warning tank-off bath=developer offC=-1.6 effect=-0.136 changeS=28 colour=true | fact temperature vessel=tank liquid=developer tempC=39.5 | fact deviation stepId=developer what=temperature in the tank: 39.5 °C, aim 41.1 °C',
        ],
        [yes, 'did | answer time-added seconds=28 leftS=188'],
      ],
    ],
    [
      'development that is hot in the tank',
      having(withDeveloper, 20),
      [
        [
          { fact: { type: 'temperature', vessel: the('tank'), liquid: 'developer', tempC: 43.5 } },
          'warning tank-off bath=developer offC=2.4 effect=0.246 changeS=-36 colour=true | fact temperature vessel=tank liquid=developer tempC=43.5 | fact deviation stepId=developer what=temperature in the tank: 43.5 °C, aim 41.1 °C',
        ],
        [yes, 'did | answer time-added seconds=-36 leftS=124'],
      ],
    ],
    [
      'development that is right in the tank',
      having(withDeveloper, 20),
      [
        [
          { fact: { type: 'temperature', vessel: the('tank'), liquid: 'developer', tempC: 41.1 } },
          'fact temperature vessel=tank liquid=developer tempC=41.1',
        ],
      ],
    ],
    [
      'a bath in the tank that is no developer, and cold',
      having(atFixer, into('fixer', 5), isIn('fixer'), 20),
      [
        [
          { fact: { type: 'temperature', vessel: the('tank'), liquid: 'fixer', tempC: 20 } },
          'warning tank-slow bath=fixer offC=-18 longerS=60 | fact temperature vessel=tank liquid=fixer tempC=20',
        ],
      ],
    ],
    [
      'too long by more than hands can keep',
      having(withDeveloper, 191),
      [
        [
          out,
          'did | warning tank-is-empty now=pour jugged=developer slip=(kind=long bath=developer doneS=191 aimS=180 effect=0.061) | fact step-ended stepId=developer plannedS=180 actualS=191 heldS=0 | fact deviation stepId=developer what=time: 191 s, planned 180 s | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer effectiveS=191',
        ],
      ],
    ],
    [
      '… by no more, and yet too much development',
      having(withDeveloper, 190),
      [
        [
          out,
          'did | warning tank-is-empty now=pour jugged=developer slip=(kind=long bath=developer doneS=190 aimS=180 effect=0.056) | fact step-ended stepId=developer plannedS=180 actualS=190 heldS=0 | fact deviation stepId=developer what=time: 190 s, planned 180 s | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer effectiveS=190',
        ],
      ],
    ],
    [
      'too short',
      having(withDeveloper, 157),
      [
        [
          out,
          'did | warning tank-is-empty now=pour jugged=developer slip=(kind=short bath=developer doneS=157 aimS=180 effect=-0.128) | fact step-ended stepId=developer plannedS=180 actualS=157 heldS=0 | fact deviation stepId=developer what=time: 157 s, planned 180 s | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer effectiveS=157',
        ],
      ],
    ],
    [
      '… by no more than the draining takes',
      having(withDeveloper, 158),
      [
        [
          out,
          'did | answer tank-is-empty now=pour jugged=developer | fact step-ended stepId=developer plannedS=180 actualS=158 heldS=0 | fact poured from=tank to=jug liquid=developer volumeMl=500 role=developer effectiveS=158',
        ],
      ],
    ],
    [
      'a wash that was long',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out, isIn('water'), 400),
      [
        [
          out,
          'did | answer tank-is-empty now=pour | fact step-ended stepId=wash-after-bleach plannedS=60 actualS=400 heldS=0 | fact poured from=tank to=sink liquid=water volumeMl=500 role=water',
        ],
      ],
    ],
    [
      'read in the tank, and nobody said that it went in',
      having(atDeveloper, into('developer', 2), 30),
      [
        [
          { fact: { type: 'temperature', vessel: the('tank'), liquid: 'developer', tempC: 41.1 } },
          'did | answer taken-in bath=developer agoS=20 | fact temperature vessel=tank liquid=developer tempC=41.1 | fact step-started stepId=developer liquid=developer tempC=41.1 | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer sinceMs=60000 inferred=true wantedS=180 | fact temperature vessel=tank liquid=developer tempC=41.1',
        ],
      ],
    ],
  ])('%s', held);
});
