import type { MixMessage } from '../../../chemistry/coach/messages.js';
import type { BottleLine, BottlesMessage } from '../../../ledger/messages.js';
import type { TimerMessage } from '../../../process/timer-desk.js';
import type { WarmItem, WarmMessage, WarmSubject } from '../english/phrases/warm-message.js';
import type { PhrasesOf } from '../phrases.js';
import { dannRuf } from './reasons.js';
import { wegVomGas } from './run.js';
import { dauer, grad, gross, liste, menge, saetze, vomNamen } from './units.js';

/** Gründe des Wächters, aus denen zwei Bäder einander verderben. */
const VERDERBEN = new Set(['bleach-fixer-bottle', 'bleach-developer-bottle', 'fixer-developer-bottle']);

const wovon = (s: WarmSubject): string =>
  s.liquid !== null
    ? vomNamen(s.liquid)
    : s.vessel?.kind === 'bottle'
      ? `Flasche ${s.vessel.number}`
      : s.vessel?.kind === 'tank'
        ? 'die Dose'
        : s.vessel?.kind === 'tub'
          ? 'das Wasserbad'
          : 'die Messstelle';
const namen = (subjects: readonly WarmSubject[]): string => liste(subjects.map(wovon));
const etwa = (seconds: number): string =>
  seconds < 45 ? 'weniger als eine Minute' : `etwa ${dauer(Math.round(seconds / 60) * 60)}`;
const vor = (seconds: number): string =>
  seconds < 45 ? 'gerade eben' : `vor ${dauer(Math.round(seconds / 60) * 60)}`;

/** What is ahead of one bath. */
function aussicht(item: WarmItem): string {
  const r = item.ready;
  if (r.state === 'no-aim') return '';
  if (r.state === 'in')
    return r.leavesInS !== null && r.leavesInS < 3600
      ? `Im Bereich, noch ${etwa(r.leavesInS)}.`
      : 'Im Bereich.';
  if (r.state === 'coming') return `Noch ${etwa(r.inS)}.`;
  return r.from === 'below'
    ? `So wird es nicht warm genug: es bleibt bei ${grad(r.endC)}, Ziel ${grad(r.aimC)}.`
    : 'So bleibt es zu warm.';
}

const ungemessen = (item: WarmItem): string =>
  `Dafür habe ich keine Messung: ${wovon(item.subject)}. Miss es und sag es mir.`;
const steht = (item: WarmItem): string =>
  `${gross(wovon(item.subject))}: etwa ${grad(item.tempC)}, gemessen ${vor(item.readAgoS ?? 0)}.`;

export const waermePhrases: Partial<PhrasesOf<WarmMessage>> = {
  'warm-reading': (m) =>
    saetze(
      m.instead && `${grad(m.instead.heardC)} nehme ich nicht.`,
      `${gross(wovon(m.item.subject))}: ${grad(m.item.tempC)}.`,
      m.item.ready.state === 'no-aim' || m.item.aim === null
        ? 'Vermerkt.'
        : m.item.read === 'near'
          ? 'Nicht weiter daneben, als ein Thermometer sein kann.'
          : m.item.read === 'in'
            ? 'Im Bereich.'
            : m.item.subject.vessel?.kind === 'tank'
              ? `Ziel ${grad(m.item.aim.aimC)}.`
              : m.item.read === 'hot' && m.item.ready.state === 'coming'
                ? `Zu warm: lass es außerhalb des Wasserbads abkühlen. ${aussicht(m.item)}`
                : aussicht(m.item),
      m.allReady && 'Alles ist im Bereich.',
    ),
  'warm-noted': (m) => `${gross(wovon(m.subject))}: ${grad(m.tempC)}. Vermerkt.`,
  'warm-question': (m) =>
    m.doubt.why === 'which'
      ? `Welches Bad hat ${grad(m.heardC)}? Sag den Namen.`
      : m.doubt.why === 'fahrenheit'
        ? `${gross(wovon(m.subject))}: ${grad(m.heardC)}? Meinst du Fahrenheit, also ${grad(m.doubt.meantC)}? Sag ja, oder miss noch einmal.`
        : m.doubt.why === 'other-vessel' || (m.doubt.why === 'not-a-room' && m.doubt.fits)
          ? `${gross(wovon(m.subject))}: ${grad(m.heardC)}? Das passt eher hierzu: ${wovon(m.doubt.fits ?? m.subject)}. Sag ja, wenn das gemeint ist, oder nein.`
          : m.doubt.why === 'unexpected'
            ? `${gross(wovon(m.subject))}: ${grad(m.heardC)}? Erwartet hatte ich etwa ${grad(m.doubt.expectedC)}. Sag ja, oder miss noch einmal.`
            : m.doubt.why === 'unlikely'
              ? `${gross(wovon(m.subject))}: ${grad(m.heardC)}? ${m.doubt.meantC === null ? 'Das hat kaum ein Bad.' : `Meinst du ${grad(m.doubt.meantC)}?`} Sag ja, oder sag es noch einmal.`
              : `${gross(wovon(m.subject))}: ${grad(m.heardC)} kann nicht stimmen. Miss noch einmal.`,
  'warm-still-asking': (m) =>
    `${grad(m.heardC)} kann nicht stimmen: ${wovon(m.subject)}. Miss noch einmal, oder sag abbrechen.`,
  'warm-dropped': (m) => `Verworfen: ${wovon(m.subject)}, ${grad(m.heardC)}.`,
  'warm-all': (m) =>
    m.items.length === 0
      ? 'Es steht noch kein Bad bereit.'
      : saetze(
          ...m.items.map((i) =>
            i.readAgoS === null
              ? `${gross(wovon(i.subject))}: nicht gemessen.`
              : `${gross(wovon(i.subject))}: etwa ${grad(i.tempC)}. ${aussicht(i)}`,
          ),
        ),
  'warm-one': (m) =>
    m.item.readAgoS === null
      ? ungemessen(m.item)
      : saetze(
          steht(m.item),
          aussicht(m.item),
          m.pour &&
            !m.pour.prewarm &&
            `Die Dose nimmt etwa ${grad(m.pour.lossC)}: gieß es mit ${grad(m.pour.pourC)} ein.`,
        ),
  'warm-temperature': (m) => (m.item.readAgoS === null ? ungemessen(m.item) : steht(m.item)),
  'warm-doubted': (m) =>
    `${grad(m.tempC)} wurde gesagt und nie bestätigt: ${wovon(m.subject)}. Miss noch einmal und sag es mir.`,
  'warm-unknown': (m) => `Ich weiß nicht, wo das steht: ${wovon(m.subject)}. Sag, in welcher Flasche es ist.`,
  'warm-nothing': () => 'Es steht noch kein Bad bereit. Sag, was in welcher Flasche ist.',
  'warm-tub-set': (m) =>
    saetze(
      `Wasserbad auf ${grad(m.setC)} gestellt.`,
      m.inS !== null && (m.inS < 60 ? 'Es ist etwa so weit.' : `Noch ${etwa(m.inS)}.`),
    ),
  'warm-set-point': (m) => {
    const needs = `${wovon(m.subject)} braucht ${grad(m.aimC)}`;
    return m.verdict === 'slow'
      ? `${m.assumed ? `Ich nehme an, das Wasserbad wird ${grad(m.setC)} warm; sag mir, worauf es steht. ` : ''}Bei ${grad(m.holdsC)} dauern die letzten Zehntel sehr lang: ${wovon(m.subject)}. Stell es auf ${grad(m.setToC)}.`
      : `Das Wasserbad hält ${grad(m.holdsC)}, aber ${needs}. ${m.verdict === 'too-low' ? 'So wird es nie warm genug.' : 'So wird es zu warm.'} Stell es auf ${grad(m.setToC)}.`;
  },
  'warm-moved': (m) =>
    saetze(
      `${gross(wovon(m.item.subject))}: ${m.into ? 'ins Wasserbad' : 'aus dem Wasserbad'}.`,
      aussicht(m.item),
    ),
  'warm-all-ready': (m) =>
    saetze(
      `Nach meiner Rechnung ist alles so weit, zuletzt: ${wovon(m.last.subject)}.`,
      (m.last.readAgoS === null || m.last.readAgoS >= 60) && 'Miss es zur Sicherheit.',
      m.out.length > 0 && `Nicht im Bereich: ${namen(m.out)}.`,
      m.unread.length > 0 && `Nicht gemessen: ${namen(m.unread)}.`,
    ),
  'warm-drift': (m) =>
    `${gross(wovon(m.item.subject))} dürfte zu ${m.way === 'hot' ? 'warm' : 'kalt'} werden, etwa ${grad(m.item.tempC)}. ${m.way === 'hot' && m.inTub ? 'Nimm es aus dem Wasserbad.' : 'Miss es.'}`,
  'warm-take-out': (m) =>
    `Bei ${grad(m.setC)} wird das Wasserbad zu warm für: ${namen(m.subjects)}. Nimm sie heraus, wenn ich rufe.`,
};

function enthaelt(line: BottleLine): string {
  const wer = line.name === null ? `Flasche ${line.bottle}` : `Flasche ${line.bottle}, ${line.name}`;
  if (line.volumeMl <= 0) return `${wer}: leer.`;
  const was = line.liquid === null ? 'etwas ohne Etikett' : vomNamen(line.liquid);
  return `${wer}: ${menge(line.volumeMl)} ${was}${line.volumeAssumed ? ' (angenommen)' : line.assumed ? ', wenn niemand es geändert hat' : ''}.`;
}

export const flaschenPhrases: Partial<PhrasesOf<BottlesMessage>> = {
  'bottle-unknown': (m) =>
    `Von Flasche ${m.bottle} hat mir niemand etwas gesagt. Sag, was darin ist und wie viel.`,
  'bottle-is': (m) =>
    m.discarded
      ? `Flasche ${m.line.bottle} ist leer; ihr Inhalt wurde entsorgt.`
      : saetze(
          enthaelt(m.line),
          m.inJugMl !== undefined && `Weitere ${menge(m.inJugMl)} davon stehen in einer Kanne.`,
          m.films > 0 && (m.films === 1 ? 'Damit lief 1 Film.' : `Damit liefen ${m.films} Filme.`),
          m.problem !== null && 'Benutze sie nicht: der Ansatz hat seine Prüfung nicht bestanden.',
          m.wrongPour !== null &&
            `${m.wrongPour.verdict === 'use' ? 'Hinein kam auch' : 'Vorsicht, hinein kam auch'}: ${vomNamen(m.wrongPour.liquid)}${m.wrongPour.volumeMl === null ? '' : `, ${menge(m.wrongPour.volumeMl)}`}.${m.wrongPour.verdict === 'discard' ? ' Benutze sie nicht.' : ''}`,
        ),
  'bottles-are': (m) =>
    saetze(
      m.inTank && `In der Dose: ${vomNamen(m.inTank)}.`,
      ...(m.inJugs ?? []).map((j) => `In einem Krug: ${vomNamen(j.liquid)}, ${menge(j.volumeMl)}.`),
      m.spoiled && `${liste(m.spoiled.map((b) => `Flasche ${b}`))} nicht verwenden; frag, was darin ist.`,
      ...m.lines.map(enthaelt),
    ),
  'no-bottles': () => 'Ich kenne keine volle Flasche. Sag, was in jeder Flasche ist.',
  'no-such-liquid': (m) => `Ich kenne keine Flasche damit: ${vomNamen(m.liquid)}.`,
  'nothing-to-discard': (m) => `Soviel ich weiß, ist Flasche ${m.bottle} schon leer.`,
  'left-alone': () => 'Bleibt, wie es war.',
  'no-runs': () => 'Noch ist kein Lauf aufgeschrieben.',
};

/** Zwei Dinge, die zusammenkommen: was daraus wird, ohne die englischen Sätze der Chemie. */
export const mischPhrases: Partial<PhrasesOf<MixMessage>> = {
  'mix-unit-known': () => 'Das ist schon eingerechnet.',
  'mix-stock': (m) =>
    `${m.name} kommt zuerst in ${menge(m.inMl)} Wasser. Nimm davon ${menge(m.takeMl)} für das Bad und sag, wie viele Milliliter es waren.`,
  'mix-will-fail': (m) =>
    `${m.still ? 'Der Ansatz bleibt verdorben' : 'Dann geht es weiter, als verdorben vermerkt'}: ${m.stranger ? `${m.name} ist darin` : `zu viel ${m.name}`}.`,
  'may-meet': (m) =>
    m.dangers.length + m.unknown.length === 0 && !m.done
      ? VERDERBEN.has(m.spoils ?? '')
        ? 'Halte sie getrennt: sie verderben einander. Jedes in seinen eigenen Becher.'
        : 'Dazu steht nichts in meiner Tabelle, und das ist keine Erlaubnis: halte sie getrennt. Die Sicherheitsdatenblätter entscheiden, Abschnitt 10.'
      : saetze(
          m.done && (m.gas ? wegVomGas : 'Gieß nichts mehr darauf und bleib mit dem Gesicht weg.'),
          m.gas ? 'Daraus kommt giftiges Gas.' : m.dangers.length > 0 && 'Das reagiert heftig.',
          m.done ? `Benutze nichts davon. ${dannRuf}` : 'Also nein: halte sie getrennt.',
        ),
};

export const weckerPhrases: Partial<PhrasesOf<TimerMessage>> = {
  'timer-set': (m) => `In ${dauer(m.forS)} erinnere ich dich.`,
  'timer-due': (m) => (m.text === undefined ? `Deine ${dauer(m.forS)} sind um.` : `Erinnerung: ${m.text}.`),
  'timer-when': () => 'In welcher Zeit? Sag zum Beispiel: erinnere mich in zehn Minuten.',
  timers: (m) =>
    m.left.length === 0
      ? 'Keine Erinnerung ist gesetzt.'
      : `${m.left.map((t) => `In ${dauer(t.leftS)}`).join('. ')}.`,
  'timers-cancelled': (m) =>
    m.count === 0 ? 'Eine solche Erinnerung gibt es nicht.' : 'Die Erinnerung ist gelöscht.',
  'too-many-timers': (m) => `Schon ${m.most} Erinnerungen sind gesetzt. Lösche zuerst eine.`,
};
