import { describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { repliesTo } from './replies-to.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide', language: 'de' });
/** The last answer to some lines. */
const last = async (...lines: readonly string[]): Promise<string> =>
  (await repliesTo(bench, lines)).at(-1)?.text ?? '';

const begun = ['lauf beginnen'];
const loaded = [...begun, 'weiter', 'weiter', 'film ist eingelegt'];
const water = ['wasser ist drin', '+40s', 'dose ist leer'];
const developing = [
  ...loaded,
  'vorbad ist drin',
  '+12s',
  'dose ist leer',
  ...water,
  'entwickler ist drin',
  '+20s',
];

const eye = /^Spüle das Auge jetzt/;
const skin = /^Zieh aus, was getränkt ist/;
const mouth = /^Spüle den Mund aus/;
const air = /^Jetzt an die frische Luft/;
const dry = /^Fass nichts an, bleib vom Wasser weg/;
const out = /^Alle hinaus, jetzt/;
const leave = /^Verlass den Raum/;

describe('typed German, as it is typed at the sink', () => {
  it('leads with help, in whatever order the words come and with slips in them', async () => {
    for (const [line, first] of [
      ['hab fixirer ins linke auge gekriegt', eye],
      ['autsch, mein auge', eye],
      ['krieg das auge nicht auf', eye],
      ['pulver ins auge geflogen', eye],
      ['das bleichbad ist mir voll übers bein gelaufen', skin],
      ['veraetzt', skin],
      ['hab in die bleiche gefasst', skin],
      ['meine finger jucken seit dem entwickler', skin],
      ['stopbad auf der hose', skin],
      ['mein kleiner bruder hat vom stopbad getrunken', mouth],
      ['hab aus der falschen tasse getrunken', mouth],
      ['die kleine hat an der flasche genippt', mouth],
      ['mir ist so schwindlig', air],
      ['muss dauernd husten', air],
      ['papa ist umgekippt', /^Ruf jetzt den Notruf/],
      ['bekomme keine luft', /^Geh an die frische Luft und ruf den Notruf/],
      ['hab vom heizer einen schlag bekommen', /^Fass niemanden an/],
      ['mein ärmel steht in flammen', /^Stehen bleiben/],
      ['hab mich am kochenden wasser verbrüht', /^Kühle es jetzt/],
      ['in den daumen geschnitten, ich blute', /^Spüle die Wunde/],
      ['unser hund hat den entwickler aufgeschlabbert, er hat davon getrunken', /Tierärztin/],
      ['notarzt', /^Ruf jetzt den Giftnotruf/],
      ['da brennt das papier', out],
      ['brennt der stecker, soll ich wasser drauf kippen', /^Nie Wasser/],
      ['das wasser ist in die steckdose gelaufen', dry],
      ['steckerleiste liegt in der pfütze', dry],
      ['am heizstab sind funken', dry],
      ['darf ich mit der hand rein und den tauchsieder rausholen', /^Noch nicht: erst den Strom aus/],
      ['hier stinkts nach schwimmbad', /Chlor oder Schwefeldioxid/],
      ['riecht irgendwie nach marzipan', /Blausäure/],
      ['hier stinkt es', /^Lüfte/],
      ['aus der flasche kommt gelber rauch', /^Verlass den Raum jetzt/],
      ['die kinder sind an den flaschen', /^Hol sie jetzt davon weg/],
    ] as const)
      expect.soft(await last(...begun, line), line).toMatch(first);
  });

  it('takes nothing for a hurt that is none', async () => {
    for (const line of [
      'der entwickler ist in meiner hand',
      'der hund ist im garten',
      'hab kaffee getrunken',
      'hab den filmstreifen geschnitten',
      'bin fertig mit den nerven',
    ])
      expect
        .soft(await last(...loaded, line), line)
        .not.toMatch(/Spüle|Zieh aus|frische Luft|Notruf|Tierärztin/);
    expect.soft(await last(...begun, 'zum glück ist nichts ins auge gekommen')).toMatch(/^Gut\./);
  });

  it('keeps to whoever is hurt until it is over, and calls again then', async () => {
    const hurt = [...developing, 'oh nein, bleiche ins auge'];
    for (const [line, said] of [
      ['was jetzt', /^Spüle weiter/],
      ['hab gespült', /^Spüle weiter, im Ganzen fünfzehn Minuten/],
      ['brennt immer noch', /^Spüle weiter/],
      ['die linse geht nicht raus', /lass sie und spüle weiter/],
      ['soll ich damit zum augenarzt', /^Ruf jetzt den Giftnotruf/],
      ['ist bestimmt nur halb so schlimm', /Das bleibt offen/],
      ['geht wieder', /^Gut\. Wenn etwas wiederkommt/],
    ] as const)
      expect.soft(await last(...hurt, line), line).toMatch(said);
    expect.soft(await last(...hurt, '+30s', 'geht wieder', '+30s')).toMatch(/^Bewegen/);
    expect
      .soft(await last(...hurt, 'geht wieder', 'wo waren wir'))
      .toMatch(/Entwickler ist drin. Noch 2 Minuten/);
  });

  it('notes what was spilled, and warns of what it was wiped up with', async () => {
    for (const [line, said] of [
      ['bleiche verschüttet 50 ml auf dem boden', /50 Milliliter Bleichbad auf dem Boden/],
      ['mist, entwickler daneben gekippt, so 30 ml', /30 Milliliter Entwickler/],
      ['bleichflasche umgekippt', /Ferricyanid.*Wie viel wurde verschüttet/],
      ['flasche 5 ist vom tisch gefallen, 200 ml ausgelaufen', /200 Milliliter Fixierbad/],
      ['die dose tropft', /Halte die Dose über die Spüle/],
      ['bleiche und stoppbad sind umgekippt und zusammengelaufen', leave],
      ['hab essig ins bleichbad gekippt', leave],
      ['darf ich bleiche mit essig aufwischen', /giftiges Gas.*Also nein/],
    ] as const)
      expect.soft(await last(...begun, line), line).toMatch(said);
    const spilled = [...begun, '50 ml bleiche auf den boden verschüttet'];
    for (const line of [
      'hab mit chlorreiniger gewischt',
      'mit essig drüber geputzt',
      'hab nen badreiniger drauf getan',
    ])
      expect.soft(await last(...spilled, line), line).toMatch(leave);
    expect.soft(await last(...spilled, 'mit blitzblank aufgewischt'), 'unknown').toMatch(leave);
    expect
      .soft(await last(...spilled, 'mit wasser und lappen aufgewischt'))
      .toMatch(/^Verschüttetes abgeschlossen/);
    expect.soft(await last(...begun, 'mit essig gewischt')).toMatch(/nie Essig.*Verlass den Raum/);
  });

  it('follows an untidy run: bottles mixed up, amounts, readings, taking back, what next and how long', async () => {
    for (const [line, said] of [
      ['neuen lauf bitte', /^Ein Lauf ist im Gang|^Lauf begonnen/],
      [
        'flasche 3 und 4 sind vertauscht',
        /In Flasche 3 ist dann das Bleichbad und in Flasche 4 ist dann das Stoppbad/,
      ],
      ['in flasche 8 ist noch alter fixierer, 400 ml', /In Flasche 8 ist das Fixierbad: 400 Milliliter/],
      ['bleiche ist in 5, fixierer in 4', /Nach meinen Notizen ist in Flasche 4|In Flasche 4/],
      ['thermometer zeigt ein grad zu viel', /dein Thermometer zeigt 1,0 Grad zu viel/],
      ['wie warm muss der entwickler sein', /^Entwickler: 41,1 Grad, zwischen/],
      ['darf das licht an', /^Erst wenn der Film in der Dose/],
      ['die heizung ist ausgefallen', /^(?!Das habe ich nicht verstanden)/],
    ] as const)
      expect.soft(await last(...begun, line), line).toMatch(said);
    for (const [line, said] of [
      ['jetzt 40,5', /^Welches Bad hat so viel/],
      ['fertig eingespult, deckel ist drauf', /^(?!Das habe ich nicht verstanden)/],
    ] as const)
      expect.soft(await last(...begun, 'weiter', line), line).toMatch(said);
    for (const [line, said] of [
      ['kipp jetzt vorbad rein', /^Frei: Vorbad, Flasche 1/],
      ['vorbad aus der 1', /^Frei: Vorbad, Flasche 1/],
      ['ich nehm die bleiche aus 4', /^Nein\. Bleichbad vor dem Entwickler/],
      ['vorbad is drin', /^Vorbad ist drin/],
    ] as const)
      expect.soft(await last(...loaded, line), line).toMatch(said);
    for (const [line, said] of [
      ['das war die flasche 4', /Sofort heraus damit/],
      ['das ist nicht der entwickler sondern die bleiche', /Sofort heraus damit/],
      ['glaub da ist bleiche drin', /^Vielleicht war es Bleichbad/],
      ['hab ich bleiche statt entwickler reingekippt?', /^Vielleicht war es Bleichbad/],
      ['hab stoppbad in flasche 2 gekippt', leave],
      ['entwickler jetzt 39', /zu kalt in der Dose/],
      ['dose leckt, bestimmt 100 ml weg', /100 Milliliter Entwickler/],
      ['licht war kurz an', /^Sofort schließen/],
      ['wie viel zeit hab ich noch', /^2 Minuten 25 Sekunden|bis zum Abgießen/],
      ['20 sekunden länger', /^Dazu: 20 Sekunden/],
      ['mach 20 sekunden kürzer', /^Abgezogen: 20 Sekunden/],
      ['nimm das zurück', /^Das nähme zurück/],
      ['muss kurz weg', /^Der Entwickler arbeitet weiter/],
      ['was ist in der dose', /Der Entwickler ist drin/],
      ['wird der film was', /er sollte gut werden/],
      ['raus damit', /^Der Entwickler hatte 20 Sekunden von 3 Minuten/],
    ] as const)
      expect.soft(await last(...developing, line), line).toMatch(said);
  });

  it('does nothing on what is denied, doubted, past, still to come or of another vessel', async () => {
    for (const line of [
      'entwickler ist gleich drin',
      'hab den entwickler nicht reingekippt',
      'der entwickler war drin',
      'entwickler ist im becher',
      'der messbecher ist leer',
      'dose ist fast leer',
      'wenn der entwickler raus ist',
      'er sagt, die dose ist leer',
    ])
      expect.soft(await last(...developing, line, 'wo sind wir'), line).toMatch(/Der Entwickler ist drin/);
    for (const line of [
      'vorbad ist gleich drin',
      'vorbad war drin',
      'vorbad ist im becher',
      'er meint, vorbad ist drin',
    ])
      expect.soft(await last(...loaded, line, 'wo sind wir'), line).toMatch(/Vorbad, Flasche 1/);
  });
});
