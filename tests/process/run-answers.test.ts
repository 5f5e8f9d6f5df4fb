import { describe, it } from 'vitest';
import {
  atBleach,
  atDeveloper,
  atFixer,
  back,
  developed,
  fresh,
  hanging,
  has,
  having,
  held,
  into,
  isIn,
  jugged,
  out,
  type Row,
  spill,
  withDeveloper,
  yes,
} from './at-the-sink.js';
import { bottle } from './bench-user.js';

describe('answers', () => {
  it.each<Row>([
    ['what is next, before the run', fresh, [[{ type: 'ask-next' }, 'answer now now=begin brief=true']]],
    [
      'what is next, once it is begun',
      having(fresh, { type: 'begin-run' }),
      [[{ type: 'ask-next' }, 'answer now now=prepare brief=true']],
    ],
    [
      'what is next, with the film in the tank',
      atDeveloper,
      [
        [{ type: 'ask-next' }, 'answer next step=developer bath=developer after=stop'],
        [
          into('developer', 2),
          'did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
        [{ type: 'ask-next' }, 'answer next step=developer bath=developer after=stop'],
        [
          isIn('developer'),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180',
        ],
        [{ type: 'ask-next' }, 'answer next step=stop bath bath=stop after=water'],
        [170],
        [{ type: 'ask-next' }, 'answer next step=stop bath bath=stop after=water'],
        [
          back('developer', 2),
          'did | answer clear move=(bath=developer from=tank to=bottle2 volumeMl=500) reason=own-bottle about=(bath=developer) checks=(filter=true portions=(count=2 eachMl=250))',
        ],
        [{ type: 'ask-next' }, 'answer next step=stop bath bath=stop after=water'],
        [
          out,
          'did | answer tank-is-empty now=pour | fact step-ended stepId=developer plannedS=180 actualS=170 heldS=0 | fact poured from=tank to=bottle2 liquid=developer volumeMl=500 role=developer effectiveS=170',
        ],
        [{ type: 'ask-next' }, 'answer next step=stop bath bath=stop after=water'],
      ],
    ],
    [
      'what is next, with a step left out',
      having(developed, { type: 'skip' }, yes, isIn('water'), 60, out),
      [[{ type: 'ask-next' }, 'answer next step=bleach bath=bleach after=water']],
    ],
    [
      'what is next, with a bath that was passed over',
      having(developed, isIn('water'), 60, out, isIn('bleach')),
      [
        [
          { type: 'ask-next' },
          'answer next step=wash after the bleach bath=water after=fixer omitted=[stop]',
        ],
        [180],
        [
          { type: 'ask-next' },
          'answer next step=wash after the bleach bath=water after=fixer omitted=[stop]',
        ],
      ],
    ],
    [
      'what is next, with a wrong bath in',
      having(atDeveloper, into('fixer', 5), { type: 'override' }, isIn()),
      [[{ type: 'ask-next' }, 'answer now now=wait']],
    ],
    [
      'what is next, with gas made in a bottle',
      having(atDeveloper, { type: 'contaminated', liquid: 'stop', intoBottle: 4, volumeMl: 5 }),
      [
        [{ type: 'ask-next' }, 'warning gas-there bottle=4 bath=stop into=bleach'],
        [899],
        [{ type: 'ask-next' }, 'warning gas-there bottle=4 bath=stop into=bleach'],
        [2],
        [{ type: 'ask-next' }, 'question aired from=air'],
      ],
    ],
    [
      'what is next, with a wash due',
      having(atBleach, into('bleach', 4), isIn('bleach'), 180, back('bleach', 4), out),
      [[{ type: 'ask-next' }, 'answer next step=wash after the bleach bath=water after=fixer']],
    ],
    [
      'what is next at the end',
      hanging,
      [
        [{ type: 'ask-next' }, 'answer now now=hang brief=true'],
        [{ type: 'film-hung' }, 'answer film-hung | fact film-hung'],
        [{ type: 'ask-next' }, 'answer now now=close brief=true'],
      ],
    ],
    [
      'what is next, while a developer that is warm waits for a word',
      having(atDeveloper, {
        fact: { type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 44 },
      }),
      [
        [
          into('developer', 2),
          'warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=developer-hot about=(tempC=44 aimC=41.1 agoS=0 bath=developer) checks=(temperature=(aimC=41.1 tempC=44 agoS=0 state=hot effect=0.304 developer=true) assumed=true)',
        ],
        [{ type: 'ask-next' }, 'answer warm-it bath=developer tempC=44 aimC=41.1 hot=true'],
      ],
    ],
    [
      '… or a cold one of which it is asked where it stands',
      having(
        atDeveloper,
        { fact: { type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 37 } },
        into('developer', 2),
      ),
      [
        [
          has(7, 'developer', 600),
          'answer bottle-noted bottle=7 bath=developer volumeMl=600 capacityMl=1000 | warning recoverable move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=developer-cold about=(tempC=37 aimC=41.1 agoS=0 bath=developer) checks=(temperature=(aimC=41.1 tempC=37 agoS=0 state=cold effect=-0.313 developer=true) assumed=true) | fact bottle-set bottle=7 liquid=developer volumeMl=600 capacityMl=1000',
        ],
        [{ type: 'ask-next' }, 'answer warm-it bath=developer tempC=37 aimC=41.1'],
      ],
    ],
    [
      'where it is, with the film in the tank',
      atDeveloper,
      [
        [{ type: 'ask-where' }, 'answer where now=pour step=3 of=11 inTank=(ml=0 ofMl=500)'],
        [
          isIn('developer'),
          'did | answer bath-in bath=developer aimS=180 agitation=(style=inversion initialS=15 everyS=15 inversions=2) agoS=0 | fact step-started stepId=developer liquid=developer | fact poured from=bottle2 to=tank liquid=developer volumeMl=500 role=developer stepId=developer wantedS=180',
        ],
        [{ type: 'ask-where' }, 'answer where now=wait step=3 of=11'],
        [
          spill({ tank: true, volumeMl: 1, place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=1 place=table cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=499 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=1 place=table',
        ],
        [{ type: 'ask-where' }, 'answer where now=wait step=3 of=11 spill=true'],
        [
          spill({ tank: true, volumeMl: 0.5, place: 'table' }),
          'did | warning spill-open bath=developer volumeMl=0.5 place=table cautions=[gloves developer-skin spill-wipe data-sheet] left=(ml=498.5 ofMl=500) | fact spilled from=tank liquid=developer volumeMl=0.5 place=table',
        ],
        [{ type: 'ask-where' }, 'answer where now=wait step=3 of=11 spill=true inTank=(ml=498.5 ofMl=500)'],
        [100],
        [{ type: 'ask-where' }, 'answer where now=wait step=3 of=11 spill=true inTank=(ml=498.5 ofMl=500)'],
      ],
    ],
    [
      'where it is, with somebody hurt and a bath in a jug',
      having(jugged, { type: 'hurt', how: 'eye' }),
      [
        [
          { type: 'ask-where' },
          'answer where now=pour step=4 of=11 hurt=[eye] inTank=(ml=0 ofMl=500) jugs=[developer]',
        ],
      ],
    ],
    [
      'where it is, at the end',
      hanging,
      [[{ type: 'ask-where' }, 'answer where now=hang step=11 of=11 inTank=(ml=0 ofMl=500)']],
    ],
    [
      'where it is, while nobody is sure what was on the film',
      having(atDeveloper, { type: 'in-doubt', suspect: 'fixer' }),
      [
        [
          { type: 'ask-where' },
          'answer where now=pour step=3 of=11 inTank=(ml=0 ofMl=500) doubt=(of=[fixer] last=prebath warn=(reason=fixer-kills-latent about=(bath=fixer)))',
        ],
      ],
    ],
    [
      'somebody is hurt, and it is over',
      atDeveloper,
      [
        [
          { type: 'hurt', how: 'eye', also: ['skin'] },
          'did | warning hurt hows=[eye skin] | fact note text=somebody was hurt: eye | fact note text=somebody was hurt: skin',
        ],
        [{ type: 'hurt', about: 'over', how: 'skin' }, 'warning hurt hows=[eye] asks=over'],
        [{ type: 'hurt', about: 'over' }, 'answer hurt-over'],
      ],
    ],
    [
      'somebody is hurt, and it goes on',
      atDeveloper,
      [
        [
          { type: 'hurt', how: 'eye' },
          'did | warning hurt hows=[eye] | fact note text=somebody was hurt: eye',
        ],
        [{ type: 'hurt', about: 'still' }, 'did | warning hurt hows=[eye] asks=rinsing'],
        [
          { type: 'hurt', how: 'wound' },
          'did | warning hurt hows=[wound] | fact note text=somebody was hurt: wound',
        ],
        [{ type: 'hurt', about: 'still' }, 'did | warning hurt hows=[wound]'],
        [
          { type: 'hurt', how: 'face' },
          'did | warning hurt hows=[face] | fact note text=somebody was hurt: face',
        ],
        [{ type: 'hurt', about: 'still' }, 'did | warning hurt hows=[face] asks=rinsing'],
        [{ type: 'hurt', about: 'rinsing' }, 'did | warning hurt hows=[face] asks=rinsing'],
        [{ type: 'hurt', about: 'unsure' }, 'did | warning hurt hows=[face] asks=over'],
        [{ type: 'hurt', about: 'call' }, 'warning hurt hows=[face] asks=call'],
        [{ type: 'hurt', about: 'lens' }, 'did | warning hurt hows=[face] asks=lens'],
      ],
    ],
    [
      'what if somebody were hurt',
      atDeveloper,
      [
        [{ type: 'hurt', how: 'eye', about: 'if' }, 'warning hurt hows=[eye]'],
        [
          { type: 'hurt', how: 'skin', liquid: 'developer', about: 'if' },
          'warning hurt hows=[skin] cautions=[developer-skin]',
        ],
        [{ type: 'hurt', how: 'eye', liquid: 'developer', about: 'if' }, 'warning hurt hows=[eye]'],
        [{ type: 'hurt', about: 'call' }, 'warning hurt asks=call'],
        [{ type: 'hurt', about: 'unsure' }, 'answer hurt-over'],
      ],
    ],
    [
      'on the skin, of a developer',
      atDeveloper,
      [
        [
          { type: 'hurt', how: 'skin', liquid: 'developer' },
          'did | warning hurt hows=[skin] cautions=[developer-skin] | fact note text=somebody was hurt: skin',
        ],
        [
          { type: 'hurt', how: 'skin', liquid: 'fixer' },
          'did | warning hurt hows=[skin] | fact note text=somebody was hurt: skin',
        ],
        [
          { type: 'hurt', how: 'skin' },
          'did | warning hurt hows=[skin] | fact note text=somebody was hurt: skin',
        ],
      ],
    ],
    [
      'how long to rinse, with nobody hurt, is of the film',
      having(atFixer, isIn('water')),
      [[{ type: 'hurt', about: 'rinsing' }, 'answer time-left bath=water']],
    ],
    [
      '… and in no run of somebody',
      fresh,
      [[{ type: 'hurt', about: 'rinsing' }, 'did | warning hurt asks=rinsing']],
    ],
    [
      'what the film had',
      atFixer,
      [
        [
          { type: 'ask-film' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60)] missing=[fixer final-rinse] off=0',
        ],
        [
          { type: 'ask-film', liquid: 'stop' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60)] missing=[fixer final-rinse] asked=stop off=0',
        ],
        [
          { type: 'ask-film', about: 'time' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60)] missing=[fixer final-rinse] asked=bleach time=(aimS=180 minS=175 maxS=240) off=0',
        ],
        [
          { type: 'ask-film', liquid: 'developer', about: 'time' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60)] missing=[fixer final-rinse] asked=developer time=(aimS=180 minS=175 maxS=185) off=0',
        ],
      ],
    ],
    [
      'what the film had, with the bath that is in',
      having(atFixer, into('fixer', 5), isIn('fixer')),
      [
        [
          { type: 'ask-film', liquid: 'fixer' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60) (bath=fixer seconds=0)] missing=[fixer final-rinse] asked=fixer inNow=true off=0',
        ],
        [
          { type: 'ask-film', liquid: 'stop' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60) (bath=fixer seconds=0)] missing=[fixer final-rinse] asked=stop off=0',
        ],
        [50],
        [
          { type: 'ask-film', about: 'time' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60) (bath=fixer seconds=50)] missing=[fixer final-rinse] asked=fixer time=(aimS=120 minS=115 maxS=180) inNow=true off=0',
        ],
      ],
    ],
    [
      'what the film had, while nobody is sure of it',
      having(atDeveloper, { type: 'in-doubt', suspect: 'fixer' }),
      [
        [
          { type: 'ask-film' },
          'answer outlook loaded=true doubt=(of=[fixer] last=prebath warn=(reason=fixer-kills-latent about=(bath=fixer))) now=pour',
        ],
        [
          { type: 'ask-film', liquid: 'prebath' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40)] missing=[developer stop bleach fixer final-rinse] asked=prebath off=0',
        ],
        [
          { type: 'ask-film', about: 'outlook' },
          'answer outlook loaded=true doubt=(of=[fixer] last=prebath warn=(reason=fixer-kills-latent about=(bath=fixer))) now=pour',
        ],
      ],
    ],
    [
      'how it will come out',
      atFixer,
      [[{ type: 'ask-film', about: 'outlook' }, 'answer outlook loaded=true effect=-0.056 now=pour']],
    ],
    [
      'what the film had, once it hangs',
      having(hanging, { type: 'film-hung' }, yes),
      [
        [
          { type: 'ask-film' },
          'answer film-so-far had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60) (bath=fixer seconds=120) (bath=water seconds=120) (bath=final-rinse seconds=12)] hung=true off=0',
        ],
        [
          { type: 'ask-film', liquid: 'fixer' },
          'answer film-so-far had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=170) (bath=stop seconds=30) (bath=water seconds=30) (bath=bleach seconds=180) (bath=water seconds=60) (bath=fixer seconds=120) (bath=water seconds=120) (bath=final-rinse seconds=12)] hung=true asked=fixer off=0',
        ],
      ],
    ],
    [
      'what the film had, where a bath was short',
      having(withDeveloper, 100, out),
      [
        [
          { type: 'ask-film' },
          'answer film-so-far loaded=true had=[(bath=prebath seconds=10) (bath=water seconds=40) (bath=developer seconds=100)] missing=[developer stop bleach fixer final-rinse] off=1',
        ],
      ],
    ],
    [
      'what the film had, with none',
      fresh,
      [
        [
          { type: 'ask-film' },
          'answer film-so-far missing=[prebath developer stop bleach fixer final-rinse] off=0',
        ],
        [
          { type: 'ask-film', liquid: 'fixer' },
          'answer film-so-far missing=[prebath developer stop bleach fixer final-rinse] asked=fixer off=0',
        ],
      ],
    ],
    [
      'cautions',
      atDeveloper,
      [
        [
          { type: 'ask-cautions' },
          'answer cautions cautions=[gloves eyes ventilation acid-ferricyanide acid-apart data-sheet local-codes help]',
        ],
        [
          { type: 'ask-cautions', substance: 'stop' },
          'answer cautions about=stop bath cautions=[acid-ferricyanide acid-apart ventilation eyes data-sheet local-codes help]',
        ],
        [
          { type: 'ask-cautions', substance: 'Fixer' },
          'answer cautions about=fixer cautions=[acid-apart ventilation gloves data-sheet local-codes help]',
        ],
        [
          { type: 'ask-cautions', substance: 'blix' },
          'answer cautions about=blix cautions=[gloves eyes ventilation data-sheet local-codes help]',
        ],
        [
          { type: 'ask-cautions', substance: 'stop bath' },
          'answer cautions about=stop bath cautions=[acid-ferricyanide acid-apart ventilation eyes data-sheet local-codes help]',
        ],
        [
          { type: 'ask-cautions', substance: 'varnish' },
          'answer cautions about=varnish cautions=[gloves eyes ventilation data-sheet local-codes help]',
        ],
      ],
    ],
    [
      'how long a bath takes',
      atDeveloper,
      [
        [{ type: 'ask-duration', liquid: 'fixer' }, 'answer duration bath=fixer seconds=120'],
        [{ type: 'ask-duration', liquid: 'final-rinse' }, 'answer duration bath=final-rinse seconds=10'],
        [
          { type: 'ask-duration', liquid: 'blix' },
          'question no-such-liquid said=blix known=[prebath water developer stop bath bleach fixer final rinse]',
        ],
        [{ type: 'ask-duration' }, 'answer next step=developer bath=developer after=stop'],
        [
          into('developer', 2),
          'did | answer clear move=(bath=developer from=bottle2 to=tank volumeMl=500) reason=due about=(bath=developer) checks=(temperature=(aimC=41.1 state=unread developer=true) assumed=true)',
        ],
        [{ type: 'ask-duration' }, 'answer duration bath=developer seconds=180'],
      ],
    ],
    [
      'how long it is until a bath',
      having(withDeveloper, 60),
      [
        [{ type: 'ask-time-until', liquid: 'fixer' }, 'answer time-until bath=fixer seconds=420'],
        [{ type: 'ask-time-until', liquid: 'stop' }, 'answer time-until bath=stop seconds=120'],
        [{ type: 'ask-time-until', liquid: 'developer' }, 'answer time-until-none bath=developer why=in-it'],
        [{ type: 'ask-time-until', liquid: 'prebath' }, 'answer time-until-none bath=prebath why=done'],
        [
          { type: 'ask-time-until', liquid: 'blix' },
          'question no-such-liquid said=blix known=[prebath water developer stop bath bleach fixer final rinse]',
        ],
        [200],
        [{ type: 'ask-time-until', liquid: 'stop' }, 'answer time-until bath=stop seconds=0'],
      ],
    ],
    [
      'how long it is until a bath, before anything is in',
      atBleach,
      [
        [{ type: 'ask-time-until', liquid: 'fixer' }, 'answer time-until bath=fixer seconds=240'],
        [{ type: 'ask-time-until', liquid: 'final-rinse' }, 'answer time-until bath=final-rinse seconds=480'],
      ],
    ],
    [
      'how long it is until a bath, before the run',
      fresh,
      [[{ type: 'ask-time-until', liquid: 'stop' }, 'answer time-until bath=stop seconds=190 atLeast=true']],
    ],
    [
      'how long it is until a bath, at the end',
      hanging,
      [[{ type: 'ask-time-until', liquid: 'fixer' }, 'answer time-until-none bath=fixer why=done']],
    ],
    [
      'how long it is until a bath, out of the last of all',
      having(
        atFixer,
        into('fixer', 5),
        isIn('fixer'),
        120,
        back('fixer', 5),
        out,
        isIn('water'),
        120,
        out,
        into('final-rinse', 6),
        isIn(),
      ),
      [
        [{ type: 'ask-time-until', liquid: 'fixer' }, 'answer time-until-none bath=fixer why=done'],
        [{ type: 'ask-next' }, 'answer next step=hang to dry'],
      ],
    ],
    [
      'away from the sink',
      having(withDeveloper, 60),
      [
        [{ type: 'away' }, 'answer away bath=developer drainS=105 overS=0 now=wait | fact note text=away'],
        [
          { type: 'away', seconds: 60 },
          'answer away bath=developer backS=60 drainS=105 overS=0 effect=-0.333 now=wait | fact note text=away for 60 s',
        ],
        [
          { type: 'away', seconds: 300 },
          'warning away bath=developer backS=300 drainS=105 overS=180 effect=1 now=wait | fact note text=away for 300 s',
        ],
      ],
    ],
    [
      'away from the sink, with developer on the film',
      developed,
      [
        [
          { type: 'away', seconds: 60 },
          'warning away backS=60 first=stop now=pour | fact note text=away for 60 s',
        ],
      ],
    ],
    [
      'away from the sink, before anything',
      fresh,
      [[{ type: 'away' }, 'answer away now=begin | fact note text=away']],
    ],
    [
      'a bath left out',
      developed,
      [
        [
          { type: 'left-out', liquid: 'stop' },
          'warning left-out bath=stop role=stop reason=developer-in-bleach about=(bath=bleach other=developer) hadS=0 now=pour',
        ],
        [
          { type: 'left-out', liquid: 'water' },
          'answer left-out bath=water role=water about=(bath=stop) hadS=0 now=pour',
        ],
        [
          { type: 'left-out' },
          'warning left-out bath=stop role=stop reason=developer-in-bleach about=(bath=bleach other=developer) hadS=0 now=pour',
        ],
        [
          { type: 'left-out', liquid: 'bleach' },
          'answer left-out bath=bleach role=bleach about=(bath=stop) hadS=0 now=pour',
        ],
        [
          { type: 'left-out', liquid: 'blix' },
          'question no-such-liquid said=blix known=[prebath water developer stop bath bleach fixer final rinse]',
        ],
      ],
    ],
    [
      'a bath left out before the one that is in',
      having(developed, isIn('water'), 60, out, isIn('bleach'), 20),
      [
        [
          { type: 'left-out', liquid: 'stop' },
          'answer left-out bath=stop role=stop about=(bath=bleach) inNow=bleach hadS=0 now=wait',
        ],
        [
          { type: 'left-out', liquid: 'bleach' },
          'answer left-out bath=bleach role=bleach about=(bath=stop) hadS=0 now=wait',
        ],
        [
          { type: 'left-out', liquid: 'water' },
          'answer left-out bath=water role=water about=(bath=bleach) inNow=bleach hadS=60 now=wait',
        ],
      ],
    ],
    [
      'a wash left out, with water in',
      having(atFixer, isIn('water'), 20),
      [
        [
          { type: 'left-out', liquid: 'water' },
          'answer left-out bath=water role=water about=(bath=fixer) hadS=60 now=wait',
        ],
        [
          { type: 'left-out', liquid: 'bleach' },
          'answer left-out bath=bleach role=bleach about=(bath=fixer) hadS=180 now=wait',
        ],
      ],
    ],
    [
      'the last of all left out',
      hanging,
      [
        [
          { type: 'left-out', liquid: 'final-rinse' },
          'answer left-out bath=final-rinse role=rinse about=(bath=final-rinse) hadS=12 now=hang',
        ],
        [{ type: 'left-out' }, 'answer left-out bath=water role=water about=(bath=water) hadS=0 now=hang'],
      ],
    ],
    [
      'nobody is sure what is in the tank',
      withDeveloper,
      [
        [20],
        [{ type: 'in-doubt' }, 'answer in-doubt now=wait holds=(bath=developer sinceS=20)'],
        [
          { type: 'in-doubt', liquid: 'developer' },
          'answer in-doubt now=wait holds=(bath=developer sinceS=20)',
        ],
        [
          { type: 'in-doubt', suspect: 'fixer' },
          'warning in-doubt doubt=(of=[fixer] last=developer warn=(reason=fixer-kills-latent about=(bath=fixer))) now=wait holds=(bath=developer sinceS=20) | fact film-doubted of=[fixer]',
        ],
        [
          { type: 'in-doubt', suspect: 'developer' },
          'warning in-doubt doubt=(of=[fixer] last=developer warn=(reason=fixer-kills-latent about=(bath=fixer))) now=wait holds=(bath=developer sinceS=20)',
        ],
        [{ type: 'ask-next' }, 'answer next step=stop bath bath=stop after=water'],
      ],
    ],
    [
      'nobody is sure, and then it was the one on record',
      having(withDeveloper, 20, { type: 'in-doubt', suspect: 'fixer', other: 'developer' }),
      [
        [
          { type: 'part', liquid: 'developer' },
          'did | answer film-settled bath=developer now=wait | fact film-doubted',
        ],
      ],
    ],
    [
      'nobody is sure, with the tank empty',
      atDeveloper,
      [
        [{ type: 'in-doubt' }, 'answer in-doubt now=pour'],
        [
          { type: 'in-doubt', suspect: bottle(5) },
          'warning in-doubt doubt=(of=[fixer] last=prebath warn=(reason=fixer-kills-latent about=(bath=fixer))) now=pour | fact film-doubted of=[fixer]',
        ],
      ],
    ],
  ])('%s', held);
});
