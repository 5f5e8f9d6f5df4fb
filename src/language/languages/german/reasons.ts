import type { Exposure } from '../../../chemistry/safety/first-aid.js';
import type { Spoken } from '../../../process/message.js';
import type { CautionId, Role } from '../../../world/liquids.js';
import { aidIn } from '../aid.js';
import { cautions, reasons } from '../english/phrases/run-reasons.js';
import { dauer, der, grad, gross, menge, name } from './units.js';

const other = (s: Spoken): string => (s.other ? der(s.other) : 'das Bad davor');
const strange = (s: Spoken): string => (s.other ? name(s.other) : 'ein anderes Bad');
const flasche = (s: Spoken): string => (s.bottle === null ? 'die Flasche' : `Flasche ${s.bottle}`);
const Flasche = (s: Spoken): string => gross(flasche(s));
const off = (s: Spoken): string => grad(Math.abs((s.tempC ?? 0) - (s.aimC ?? 0)));

/** Why a move is right or wrong: one short sentence each. */
export const inGerman: Partial<typeof reasons> = {
  due: () => 'Der Film ist so weit.',
  'water-safe': () => 'Wasser schadet dem Film nicht.',
  'no-film': () => 'Es ist kein Film in der Dose.',
  again: (s) => `Der Film hatte ${der(s.bath)} schon; mehr davon schadet nicht.`,
  'no-use': (s) => `${gross(der(s.bath))} nützt dem Film jetzt nichts.`,
  'image-lost': () => 'Das Bild auf diesem Film ist schon verloren; schlimmer wird es nicht.',
  'backing-already-off': () => 'Die Rückschicht ist schon ab.',
  'backing-in-developer': () => 'Die schwarze Rückschicht ist noch drauf und löst sich sonst im Entwickler.',
  'backing-loose': () =>
    'Die Rückschicht ist lose und würde den Entwickler verschmutzen. Spüle, bis das Wasser klar bleibt.',
  'acid-before-developer': () => 'Säure auf dem Film schwächt den Entwickler. Wässere den Film zuerst.',
  'stop-before-developer': () =>
    'Zuerst kommt der Entwickler. Das Stoppbad bewirkt noch nichts, und sein Rest schwächt den Entwickler.',
  'bleach-kills-latent': () => 'Bleichbad vor dem Entwickler zerstört das Bild.',
  'fixer-kills-latent': () => 'Fixierbad vor dem Entwickler löst das Bild auf.',
  'wetting-early': () => 'Das Schlussbad kommt zuletzt. Wässere den Film, bevor du weitermachst.',
  'prebath-late': () =>
    'Der Film ist entwickelt, und im Vorbad entwickelt er ungleichmäßig weiter. Nimm das Stoppbad.',
  'more-development': () => 'Der Film ist schon entwickelt. Mehr Entwickler lässt sich nicht zurücknehmen.',
  'water-before-stop': () => 'Wasser bremst den Entwickler nur. Als Nächstes kommt das Stoppbad.',
  'developer-in-bleach': () =>
    'Entwickler auf dem Film macht im Bleichbad Flecken. Erst stoppen und wässern.',
  'developer-in-fixer': () => 'Entwickler auf dem Film verdirbt das Fixierbad. Erst stoppen und wässern.',
  'acid-in-bleach': () =>
    'Säure aus dem Stoppbad darf nicht in ein Bleichbad mit Ferricyanid. Wässere den Film zuerst.',
  'fixer-before-bleach': () =>
    'Fixierbad vor dem Bleichbad lässt das Silber drin. Wässern, bleichen und später noch einmal fixieren.',
  'taints-bath': (s) => `Was am Film haftet, verdirbt ${der(s.bath)}. Wässere den Film zuerst.`,
  redevelops: () =>
    'Entwickler nach dem Bleichbad verschleiert das ganze Bild. Der Film muss jetzt fixiert werden.',
  'acid-on-ferricyanide': () =>
    'Am Film haftet noch Bleichbad, und Säure auf Ferricyanid kann giftiges Gas freisetzen. Wässere ihn zuerst.',
  'bleach-in-fixer': () => 'Bleichbad auf dem Film zerstört das Fixierbad. Wässere den Film zuerst.',
  'bleach-in-developer': () => 'Bleichbad auf dem Film zerstört den Entwickler. Wasch es zuerst aus.',
  'nothing-to-develop': () => 'Auf dem Film ist nichts mehr zu entwickeln.',
  'fixer-in-developer': () => 'Fixierbad auf dem Film verdirbt den Entwickler. Wasch es zuerst aus.',
  'fixer-in-bleach': () => 'Fixierbad auf dem Film verbraucht das Bleichbad. Wässere den Film zuerst.',
  'acid-on-fixer': () => 'Säure auf Fixierbad gibt ein erstickendes Gas. Wässere den Film zuerst.',
  'silver-left': () => 'Das Silber ist noch im Film. Erst wässern, bleichen und fixieren.',
  'fixer-left': () => 'Am Film haftet noch Fixierbad und bliebe darin. Wässere ihn zuerst.',
  'finished-film': () => 'Der Film ist fertig. Danach braucht er wieder eine Wässerung und das Schlussbad.',
  'washes-off-rinse': () => 'Wasser wäscht das Schlussbad ab. Gib es danach noch einmal.',
  'wetting-in-developer': () => 'Das Schlussbad am Film schäumt im Entwickler. Wässere den Film zuerst.',
  'prebath-in-developer': () => 'Vorbad auf dem Film verschiebt den Entwickler. Spüle den Film zuerst.',
  'rest-of-development': (s) => `Der Film hatte ${dauer(s.seconds ?? 0)} davon; das gibt ihm den Rest.`,
  'developer-short': (s) =>
    `Der Film hatte erst ${dauer(s.seconds ?? 0)} Entwickler. Das Stoppbad beendet ihn, und das Bild wird dünn.`,
  'bleach-takes-silver': () => 'Auf diesem Film ist das Silber das Bild, und das Bleichbad nimmt es weg.',
  'backing-still-on': () =>
    'Die schwarze Rückschicht ist noch drauf. Gib dem Film das Vorbad und wisch sie unter Wasser ab, vor dem Schlussbad.',
  'temperature-doubted': (s) =>
    `${grad(s.tempC ?? 0)} (${name(s.bath)}) wurde gesagt und nie bestätigt. Miss zuerst noch einmal.`,
  spoilt: (s) => `In ${flasche(s)} ist ${strange(s)}. Benutze sie nicht.`,
  'silver-film': () =>
    'Auf diesem Film ist das Silber das Bild, und dies ist ein Farbprozess: sein Bleichbad nimmt das Bild weg. Nimm einen Schwarzweißprozess.',
  'colour-film': () =>
    'Das ist Farbfilm, und dieser Prozess macht ein Silberbild: die Farben kommen nie. Nimm einen Farbprozess.',
  'backed-film': () =>
    'Dieser Film hat eine schwarze Rückschicht, die in die Bäder abgeht, und der Prozess hat kein Bad, das sie vorher entfernt.',
  oxidised: (s) =>
    `${gross(der(s.bath))} in ${flasche(s)} soll braun sein und ist vielleicht oxidiert. Probiere einen Streifen, oder setze neu an.`,
  'gone-off': (s) =>
    `${gross(der(s.bath))} in ${flasche(s)} soll trüb oder verfärbt sein. Nicht verwenden: setze neu an.`,
  'mixed-wrong': (s) =>
    `${gross(der(s.bath))} in ${flasche(s)} soll falsch angesetzt sein. Bring das in Ordnung, oder setze neu an.`,
  'ph-off': (s) =>
    `Der pH-Wert von ${der(s.bath)} in ${flasche(s)} stimmt nicht. Miss ihn neu, oder setze neu an.`,
  'label-lost': (s) =>
    `Das Etikett von ${flasche(s)} ging ab: ich weiß nicht sicher, dass ${der(s.bath)} darin ist. Prüf es zuerst.`,
  unanswered: (s) =>
    `Eine Frage zu ${flasche(s)} blieb offen: darin ist vielleicht ${s.other ? name(s.other) : 'etwas anderes'} neben ${der(s.bath)}. Wenn du es weißt, sag es.`,
  spilled: (s) =>
    `Aus ${flasche(s)} ist etwas verschüttet, und niemand hat gesagt, wie viel noch darin ist. Sag es.`,
  'film-doubted': (s) =>
    `Vielleicht war es ${s.other ? name(s.other) : 'ein anderes Bad'}: es ist nicht geklärt, was in der Dose war. Wenn du es weißt, sag, welches Bad es war.`,
  'doubtful-mixture': (s) => `In ${flasche(s)} ist ${strange(s)}; ich weiß nicht, was das bewirkt.`,
  'said-against': (s) => `Du sagst: ${s.why ?? ''}. Klär das zuerst.`,
  'faulty-batch': (s) => `Der Ansatz in ${flasche(s)} hat beim Ansetzen seine Prüfung nicht bestanden.`,
  spent: (s) =>
    `${Flasche(s)} hat ${s.films ?? 0} Filme hinter sich und ist erschöpft. Regeneriere, oder setze neu an.`,
  'too-old': (s) => `${Flasche(s)} ist über die Haltbarkeit hinaus.`,
  'own-bottle': (s) => `In ${flasche(s)} ist ${der(s.bath)}.`,
  'empty-bottle': (s) => `${Flasche(s)} ist leer.`,
  'other-label': (s) => `${Flasche(s)} ist leer, doch darin war ${other(s)}. Spül und beschrifte sie zuerst.`,
  'bad-bottle': (s) =>
    `${Flasche(s)} ist nicht zu verwenden${s.other ? `: darin ist ${s.unsettled ? 'vielleicht ' : ''}${name(s.other)}` : ''}. Was hineingeht, ist mit verloren. Nimm einen sauberen Becher.`,
  dilutes: (s) => `Wasser würde verdünnen, was in ${flasche(s)} ist: ${other(s)}.`,
  'prebath-in-developer-bottle': (s) =>
    `In ${flasche(s)} ist Entwickler. Vorbad verschiebt seinen pH-Wert und verdünnt ihn.`,
  'acid-ferricyanide-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Säure und Ferricyanid zusammen können giftiges Gas freisetzen.`,
  'acid-thiosulphate-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Säure und Fixierbad geben ein erstickendes Gas.`,
  'acid-developer-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Säure tötet den Entwickler und kann ein erstickendes Gas geben.`,
  'bleach-fixer-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Bleichbad und Fixierbad zerstören einander.`,
  'bleach-developer-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Bleichbad und Entwickler zerstören einander.`,
  'fixer-developer-bottle': (s) =>
    `In ${flasche(s)} ist ${other(s)}. Fixierbad und Entwickler verderben einander.`,
  'mixes-baths': (s) => `In ${flasche(s)} ist ${other(s)}. ${gross(der(s.bath))} würde es verderben.`,
  'water-bottle': (s) => `${Flasche(s)} ist für Wasser.`,
  tainted: (s) =>
    s.bottle === null
      ? `In dem, was in der Dose ist (${name(s.bath)}), ist ${strange(s)}: es würde seine Flasche verderben.`
      : `In Flasche ${s.bottle} (${name(s.bath)}) kam ${strange(s)}. Entsorge sie und setze neu an.`,
  'wash-water-back': () => 'Gebrauchtes Wasser kommt in keine Flasche zurück.',
  'one-shot-back': (s) =>
    `${gross(der(s.bath))} wird in diesem Prozess nur einmal benutzt und nicht aufgehoben.`,
  waste: () => 'Das wird nicht aufgehoben.',
  'throws-away-good-bath': (s) => `${gross(der(s.bath))} wird in diesem Prozess wieder benutzt.`,
  'top-up': (s) => `Mehr von dem, was drin ist: ${name(s.bath)}.`,
  'developer-cold': (s) =>
    `Der Entwickler hat ${grad(s.tempC ?? 0)}, ${off(s)} zu kalt. Das Bild wird dünn, die Farben kippen.`,
  'developer-hot': (s) =>
    `Der Entwickler hat ${grad(s.tempC ?? 0)}, ${off(s)} zu warm. Das Bild wird dicht und zu hart.`,
  'developer-was-off': (s) =>
    `Der Entwickler hatte bei der Messung vor ${dauer(s.agoS ?? 0)} ${grad(s.tempC ?? 0)}, ${off(s)} daneben. Miss zuerst noch einmal.`,
  'bath-cold': (s) =>
    `${gross(der(s.bath))} hat ${grad(s.tempC ?? 0)}, ${off(s)} zu kalt. Es wirkt viel langsamer und lässt in der üblichen Zeit vielleicht Silber im Film.`,
  'developer-long-unread': (s) =>
    `Die letzte Messung des Entwicklers, ${grad(s.tempC ?? 0)}, ist ${dauer(s.agoS ?? 0)} alt. Miss zuerst noch einmal.`,
  'developer-unread': (s) =>
    `Gemessen ist nur die Wanne, ${grad(s.tempC ?? 0)}; eine Flasche kann Grade dahinter sein. Miss zuerst den Entwickler selbst.`,
  'too-little': (s) => `In ${flasche(s)} sind nur ${menge(s.ml ?? 0)}: zu wenig, um den Film zu bedecken.`,
  'not-covered': (s) =>
    `${menge(s.ml ?? 0)} bedecken den Film nicht${s.ofMl === undefined ? '' : `: die Dose braucht ${menge(s.ofMl)}`}. Gieß sofort den Rest nach, sonst bleibt ein Teil des Films trocken.`,
  'no-headroom': (s) => `In ${flasche(s)} ist nur noch Platz für ${menge(s.ml ?? 0)}.`,
  early: (s) => `Zum Abgießen ist es ${dauer(s.seconds ?? 0)} zu früh.`,
};

/** A reason that has no German words yet is given in English. */
export const germanReasons = { ...reasons, ...inGerman };

/** What comes of leaving a bath out. */
export const ohne: Record<Role, string> = {
  'backing-remover': 'Ohne das Vorbad geht die Rückschicht in den Entwickler ab.',
  developer: 'Ohne den Entwickler gibt es kein Bild.',
  stop: 'Ohne das Stoppbad arbeitet der Entwickler im Film weiter und macht im Bleichbad Flecken.',
  bleach: 'Ohne das Bleichbad bleibt das Silber im Bild.',
  fixer: 'Ohne das Fixierbad wird der Film im Licht dunkel.',
  rinse: 'Ohne das Schlussbad trocknet der Film vielleicht fleckig.',
  water: 'Ohne Wässerung kommt das, was am Film haftet, ins nächste Bad.',
};

const warnungen: Record<CautionId, string> = {
  ...cautions,
  gloves: 'Trag Handschuhe.',
  eyes: 'Trag eine Schutzbrille.',
  ventilation: 'Lüfte den Raum.',
  'acid-apart': 'Halte Säure fern von Sulfit und Metabisulfit.',
  'acid-ferricyanide': 'Halte Säure fern von Ferricyanid.',
  'acid-into-water': 'Beim Ansetzen Säure ins Wasser gießen, nie Wasser in die Säure.',
  'developer-skin': 'Entwickler kann eine bleibende Hautallergie auslösen. Lass ihn nicht auf die Haut.',
  'children-food': 'Halte Kinder, Tiere, Essen und Küchengeschirr fern.',
  'spill-wipe': 'Wisch es auf und spüle die Stelle mit Wasser.',
  'spill-stop': 'Es ist Säure: halte sie von Bleichbad und Fixierbad fern und wisch sie mit viel Wasser auf.',
  'spill-bleach':
    'Es ist Ferricyanid: lass keine Säure daran, wisch es auf und tu die Lappen in einen Beutel. War es Haushaltsbleiche? Dann sag es: Säure, Ammoniak oder Fixierbad daran setzt giftiges Gas frei.',
  'spill-fixer': 'Lass weder Säure noch Bleichbad daran und wisch es mit Wasser auf.',
  slippery: 'Vorsicht, nasser Boden.',
  electric: 'Halte es von Steckdosen fern.',
  'data-sheet': 'Es gilt das Sicherheitsdatenblatt.',
  'local-codes': 'Was in den Abfluss darf, bestimmen die örtlichen Regeln.',
  help: 'Bei Kontakt oder Dämpfen dem Sicherheitsdatenblatt folgen und Giftnotruf oder Notruf wählen.',
};

/** The first minute: the German wording of the GHS statements that the English ones name, and common practice as theirs. */
const ersteHilfe: Readonly<Record<Exposure, string>> = {
  collapsed: 'Ruf jetzt den Notruf. Bring ihn an die frische Luft, nur wo es für dich sicher ist.',
  breathless: 'Geh an die frische Luft und ruf den Notruf, jetzt.',
  alight:
    'Stehen bleiben, hinlegen, wälzen; ersticke die Flammen. Dann mit viel Wasser kühlen und den Notruf rufen.',
  shocked: 'Fass niemanden an, ehe der Strom aus ist. Dann ruf den Notruf, auch wenn alles gut scheint.',
  burnt: 'Kühle es jetzt unter fließendem Wasser, und kühle weiter. Ist es groß oder tief, ruf den Notruf.',
  eye: 'Spüle das Auge jetzt mit Wasser, bei offenen Lidern. Kontaktlinsen heraus, wenn es geht. Spüle viele Minuten weiter.',
  face: 'Spüle Gesicht und Augen jetzt mit Wasser, bei offenen Lidern. Kontaktlinsen heraus, wenn es geht. Dann an die frische Luft.',
  swallowed: 'Spüle den Mund aus. Führe kein Erbrechen herbei.',
  breathed: 'Jetzt an die frische Luft, und ausruhen.',
  skin: 'Zieh aus, was getränkt ist; wasche die Haut jetzt mit Wasser.',
  wound:
    'Spüle die Wunde mit sauberem Wasser, deck sie ab, und lass kein Bad daran. Blutet sie stark, ruf den Notruf.',
  animal:
    'Halt es fern von dem, was es erwischt hat, und ruf jetzt eine Tierärztin an; sag ihr, welches Bad es war.',
};
const irgendwo =
  'Auf der Haut oder im Auge: jetzt mit Wasser spülen, und weiterspülen. Bei Dämpfen: an die frische Luft.';
export const dannRuf = 'Folge dem Sicherheitsdatenblatt; ruf den Giftnotruf oder den Notruf.';
export const hilf = aidIn({ first: ersteHilfe, unsaid: irgendwo, thenCall: dannRuf });

const zusammen: readonly { ids: readonly CautionId[]; say: string }[] = [
  { ids: ['gloves', 'eyes', 'ventilation'], say: 'Trag Handschuhe und Schutzbrille, und lüfte den Raum.' },
  {
    ids: ['acid-ferricyanide', 'acid-apart'],
    say: 'Halte Säure fern von Ferricyanid, Sulfit und Metabisulfit.',
  },
];

export function warnung(ids: readonly CautionId[]): string {
  const groups = zusammen.filter((g) => g.ids.every((id) => ids.includes(id)));
  return [...new Set(ids.map((id) => groups.find((g) => g.ids.includes(id))?.say ?? warnungen[id]))].join(
    ' ',
  );
}
