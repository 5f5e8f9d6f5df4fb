import type { Exposure } from '../../../chemistry/safety/first-aid.js';
import type { Checks } from '../../../process/guard-checks.js';
import type { AskId } from '../../../process/guard-resolve.js';
import type { ReasonId } from '../../../process/guard-table.js';
import type {
  FilmDoubt,
  Named,
  Now,
  Outlet,
  RunMessage,
  Slip,
  Spoken,
  SpokenMove,
  StillOpen,
} from '../../../process/message.js';
import { type PhrasesOf, phraseOf } from '../phrases.js';
import { dannRuf, germanReasons, hilf, ohne, warnung } from './reasons.js';
import { dauer, den, der, gefaess, grad, gross, liste, menge, name, saetze } from './units.js';

type Of<Id extends RunMessage['id']> = Extract<RunMessage, { id: Id }>;

const sperre = 'Sperre aufheben und trotzdem gießen';
export const wegVomGas = 'Verlass den Raum, lass ihn lüften und bleib aus den Dämpfen.';

const zug = (move: SpokenMove): string =>
  move.to.kind === 'tank'
    ? `${name(move.bath)}${move.from.kind === 'tap' ? '' : `, ${move.from.kind === 'bottle' ? gefaess(move.from) : 'aus dem Messbecher'}`}`
    : `${name(move.bath)} in ${gefaess(move.to)}`;

const wirkung = (share: number): string =>
  `etwa ${Math.max(1, Math.round(Math.abs(share) * 100))} Prozent ${share > 0 ? 'mehr Entwicklung: dichter, mehr Kontrast' : 'weniger Entwicklung: dünner, weniger Kontrast'}`;

const zweifel = ({ of, last, warn }: FilmDoubt): string =>
  saetze(
    `Vielleicht war es ${liste(of.map(name))}${last ? `; nach meinen Notizen war es ${name(last)}` : ''}. Das ist nicht geklärt.`,
    warn && `Wenn ja: ${germanReasons[warn.reason](warn.about)}`,
    'Sieh nach, welche Flasche fehlt, und sag, welches Bad es war.',
  );

const imBecher = (bath: Named): string => `Ich nehme an, im Messbecher ist ${der(bath)}.`;

const rest = (leftS: number): string => (leftS < 0.5 ? 'Die Zeit ist um.' : `Noch ${dauer(leftS)}.`);
const restOderDrueber = (leftS: number): string =>
  leftS < -0.5 ? `Das sind ${dauer(-leftS)} zu lang.` : rest(leftS);

function geprueft(c: Checks): string {
  const t = c.temperature;
  const aim = t && `Ziel ${grad(t.aimC)}.`;
  const warm =
    t === undefined || t.state === 'in'
      ? null
      : t.state === 'unread'
        ? `${t.developer ? 'Nie gemessen. ' : ''}${aim}`
        : t.state === 'old'
          ? `${t.developer ? `Zuletzt vor ${dauer(t.agoS ?? 0)} gemessen: ${grad(t.tempC ?? 0)}. ` : ''}${aim}`
          : t.state === 'near'
            ? t.developer &&
              t.tempC !== null &&
              `${grad(t.tempC)}: nicht weiter daneben, als ein Thermometer sein kann.`
            : `Es waren ${grad(t.tempC ?? 0)}, Ziel ${grad(t.aimC)}.`;
  return saetze(
    c.filter &&
      (c.backing ? 'Durch einen feinen Filter: die Rückschicht ist hinein abgegangen.' : 'Durch den Filter.'),
    c.portions && `In ${c.portions.count} Portionen zu ${menge(c.portions.eachMl)}.`,
    warm,
    c.time && `Es dauert diesmal ${dauer(c.time.seconds)}.`,
    c.openLid && 'Mit dem Rest in der Dose entsteht Gas: lass die Kappe offen, bis es heraus ist.',
    c.localCodes && 'Was in den Abfluss darf, bestimmen die örtlichen Regeln.',
  );
}

function fehler(slip: Slip): string {
  const bad = gross(der(slip.bath));
  if (slip.kind === 'lost')
    return slip.doubted
      ? `War es ${der(slip.bath)}, ist das Bild verloren: Das ist nicht geklärt. Sag mir, welches Bad es war.`
      : `${bad} hat das Bild zerstört: es ist verloren.`;
  const effect = slip.effect === null ? '' : ` ${gross(wirkung(slip.effect))}.`;
  const had = `${bad} hatte ${dauer(slip.doneS)} von ${dauer(slip.aimS)}`;
  if (slip.kind === 'short')
    return `Zu kurz: ${had}.${effect}${slip.restS === null ? '' : ` Gieß es noch einmal für ${dauer(slip.restS)} ein, vor jedem anderen Bad.`}`;
  if (slip.kind === 'weak' || slip.kind === 'strong')
    return `${bad} war zu ${slip.kind === 'weak' ? 'kalt' : 'warm'}.${effect}`;
  return `${slip.effect !== null && slip.effect < 0 ? 'Lang, aber kalt' : 'Zu lang'}: ${had}.${effect}`;
}

const wohin = (o: Outlet): string =>
  o.to === 'sink'
    ? 'Gieß es weg.'
    : `${o.to === 'bottle' ? `Zurück in Flasche ${o.bottle}` : 'Heb es im Messbecher auf'}${o.filter ? ', durch den Filter' : ''}.`;

const ausFlasche = (bottle: number | null): string => (bottle === null ? '' : `, Flasche ${bottle}`);

/** `brief` leaves out the lists that were said when the part began. */
function jetzt(now: Now, brief = false): string {
  const steps: PhrasesOf<Now, 'do'> = {
    begin: () => 'Sag: Lauf beginnen, wenn du so weit bist.',
    prepare: () => 'Stell Flaschen, Dose und Wasser bereit, dann sag: weiter.',
    warm: (now) =>
      brief
        ? 'Bring die Flaschen auf Temperatur, dann sag: weiter.'
        : `Auf Temperatur bringen: ${now.targets.map((t) => `${name(t.bath)} ${grad(t.tempC)}`).join(', ')}. ${warnung(now.cautions)} Dann sag: weiter.`,
    load: () => 'Leg den Film im Dunkeln ein und schließ die Dose. Dann sag: Film ist eingelegt.',
    pour: (now) => {
      const unfit = now.unfit
        ? `${germanReasons[now.unfit.reason](now.unfit.about)} In keiner anderen Flasche ist es vermerkt: setz es neu an. `
        : '';
      if (now.announced)
        return (now.agoS ?? 0) < 15
          ? `Gieß ${den(now.bath)} ein und sag: ${name(now.bath)} ist drin.`
          : `${gross(der(now.bath))} sollte vor ${dauer(now.agoS ?? 0)} hinein, und niemand hat es bestätigt. Sag: ${name(now.bath)} ist drin, oder: ${name(now.bath)} ist noch nicht drin.`;
      if (now.restS !== null)
        return `${unfit}Als Nächstes der Rest: ${name(now.bath)}, ${dauer(now.restS)}${ausFlasche(now.bottle)}.`;
      return `${unfit}${now.because === undefined ? '' : 'Die schwarze Rückschicht ist noch drauf. '}${now.clingsS === undefined ? '' : `Der Entwickler im Film arbeitet seit ${dauer(now.clingsS)} weiter: sofort weitermachen. `}Als Nächstes: ${name(now.bath)}${ausFlasche(now.bottle)}${now.tempC === null ? '' : `, ${grad(now.tempC)}`}.`;
    },
    wash: (now) =>
      `${germanReasons[now.reason](now.about)} Als Nächstes mit Wasser wässern, dann ${der(now.next)}.`,
    lost: (now) =>
      now.doubted
        ? 'Das Bild auf diesem Film ist vielleicht verloren. Beende den Lauf, oder mach weiter.'
        : 'Das Bild auf diesem Film ist verloren. Beende den Lauf, oder mach zur Übung weiter.',
    wait: (now) =>
      now.secondsLeft === null
        ? `${gross(der(now.bath))} ist drin. Wenn es fertig ist, sag: abgießen.`
        : `${gross(der(now.bath))} ist drin. ${rest(now.secondsLeft)}`,
    drain: (now) => `Gieß ab: ${name(now.bath)}. ${wohin(now.outlet)} Dann sag: Dose ist leer.`,
    rinse: (now) =>
      `Spülen: mit Wasser füllen, schütteln und leeren, ${now.fills} Mal${now.tempC === null ? '' : `, bei ${grad(now.tempC)}`}. Dann sag: weiter.`,
    hang: () => 'Häng den Film zum Trocknen auf und sag: Film hängt.',
    close: () => 'Räum auf, dann sag: Lauf beenden.',
  };
  return phraseOf(steps, now, 'do');
}

const undJetzt = (lead: string, now: Now): string => `${lead} ${jetzt(now, true)}`;
const auch = (also: { reason: ReasonId; about: Spoken }[]): string =>
  also.map((a) => germanReasons[a.reason](a.about)).join(' ');

const noetig: Partial<Record<AskId, string>> = {
  'film-unknown': 'Ja genügt nicht. Sag: Film ist eingelegt, oder: es ist kein Film drin.',
  'nothing-to-pour': 'Sag mir zuerst, welches Bad in der Dose ist.',
  'bottle-empty': 'Sag mir zuerst, was in der Flasche ist.',
  'bottle-unknown': 'Sag mir zuerst, was in der Flasche ist.',
  'bad-volume': 'Sag mir zuerst, wie viel es ist.',
};

function frage(m: Of<'ask'>): string {
  const flasche = m.bottle === null ? '' : `Flasche ${m.bottle}`;
  const bad = m.bath ? der(m.bath) : 'das Bad';
  const stake = m.stake && m.about ? ` ${germanReasons[m.stake](m.about)}` : '';
  const meinst = (): string =>
    `Meinst du ${m.bath ? den(m.bath) : 'das Bad'}${flasche ? `, ${flasche}` : ''}? Sag ja, oder sag es noch einmal.`;
  const asks: Record<AskId, () => string> = {
    'missing-liquid': () => (flasche ? `Welches Bad, ${flasche}?` : 'Welches Bad?'),
    'missing-bottle': () =>
      m.candidates.length > 0
        ? `Welche Flasche? ${gross(bad)} ist in den Flaschen ${liste(m.candidates.map(String))}.`
        : `Welche Flasche: ${m.bath ? name(m.bath) : 'das Bad'}?`,
    propose: () => `${gross(bad)}${flasche ? `, ${flasche}` : ''}? Sag ja, oder welches.`,
    'no-such-liquid': () => `Ich kenne ${m.bath?.name ?? 'dieses Bad'} nicht. Welches Bad ist es?`,
    'no-such-vessel': () => 'Woher, und wohin? Nenne das Bad und die Flasche.',
    'bottle-unknown': () =>
      `Ich weiß nicht, was in ${flasche || 'dieser Flasche'} ist. Sag: in ${flasche || 'Flasche 1'} ist, und das Bad.`,
    'bottle-empty': () =>
      `${gross(flasche || 'diese Flasche')} ist nach meinen Notizen leer. Wenn nicht, sag: in ${flasche || 'Flasche 1'} ist, und das Bad.`,
    mismatch: () =>
      `Warte. In ${flasche || 'dieser Flasche'} ist ${m.holds ? der(m.holds) : 'etwas anderes'}, nicht ${bad}.${stake} Was stimmt?`,
    'jug-unknown': () =>
      m.holds
        ? `Nach meinen Notizen ist im Messbecher ${der(m.holds)}.${stake} Ist es ${bad}? Sag ja oder nein.`
        : `Ich weiß nicht, was im Messbecher ist. Ist es ${bad}? Sag ja oder nein.`,
    'film-unknown': () => 'Ist ein Film in der Dose? Sag: Film ist eingelegt, oder: es ist kein Film drin.',
    'tank-not-empty': () =>
      `${m.holds ? gross(der(m.holds)) : 'Ein Bad'} ist nach meinen Notizen noch in der Dose.${stake} Ist die Dose leer? Sag ja oder nein.`,
    'nothing-to-pour': () => 'Nach meinen Notizen ist nichts zu gießen. Was gießt du?',
    'tank-mismatch': () =>
      m.holds
        ? `In der Dose ist ${der(m.holds)}, nicht ${bad}. Was stimmt?`
        : `Nach meinen Notizen ist nicht ${bad} in der Dose. Welches Bad ist es?`,
    'bad-volume': () => 'Die Menge habe ich nicht verstanden. Wie viele Milliliter?',
    'unsure-heard': meinst,
    'heard-two': meinst,
  };
  return asks[m.ask]();
}

const fehlt = (missing: Named[]): string =>
  missing.some((b) => b.id.includes('fix'))
    ? 'Ein unfixierter Film wird im Licht dunkel: fixiere und wässere ihn.'
    : missing.some((b) => b.id.includes('bleach'))
      ? 'Das Silber ist noch drin: bleiche und fixiere ihn.'
      : 'Das lässt sich noch nachholen.';

const nochVerschuettet = (spills: StillOpen['spills']): string =>
  `Noch offen, verschüttet: ${liste(spills.map((s) => `${s.bath ? name(s.bath) : 'ein Bad'}${s.place ? ` ${ORTE[s.place] ?? ''}` : ''}`))}. Wisch es mit Handschuhen auf, dann sag: alles aufgewischt.`;
const nie = (missing: Named[]): string =>
  `Dieser Film hatte nie: ${liste(missing.map(name))}. ${fehlt(missing)}`;

const ORTE: Readonly<Record<string, string>> = {
  table: 'auf dem Tisch',
  floor: 'auf dem Boden',
  counter: 'auf der Arbeitsplatte',
  hand: 'auf der Hand',
  skin: 'auf der Haut',
  glove: 'auf dem Handschuh',
  clothes: 'auf der Kleidung',
  carpet: 'auf dem Teppich',
  scale: 'auf der Waage',
  sink: 'im Ausguss',
  mouth: 'im Mund',
  tub: 'im Wasserbad',
  eye: 'im Auge',
  face: 'im Gesicht',
};

export const laufPhrases: Partial<PhrasesOf<RunMessage>> = {
  'run-begun': (m) =>
    saetze(
      `Lauf begonnen: ${m.sheet}.`,
      warnung(m.cautions),
      m.assumed && m.bottles.length > 0
        ? `Wenn du nichts anderes sagst: ${liste(m.bottles.map((b) => `Flasche ${b.bottle} ${name(b.bath)}`))}, und die Dose fasst ${menge(m.tankMl)}.`
        : `Die Dose fasst ${menge(m.tankMl)}.`,
      'Stell die Flaschen bereit, dann sag: weiter.',
    ),
  'run-already': (m) => undJetzt('Ein Lauf ist im Gang.', m.now),
  'no-such-sheet': (m) => `Einen Prozess ${m.said} habe ich nicht. Ich habe: ${liste(m.known)}.`,
  now: (m) => jetzt(m.now, m.brief),
  where: (m) =>
    saetze(
      m.step === null ? null : `Schritt ${m.step} von ${m.of}.`,
      m.inTank?.ml === 0 && 'Die Dose ist leer.',
      jetzt(m.now, true),
      m.jugs.length > 0 && `In Messbechern: ${liste(m.jugs.map(name))}.`,
      m.spill && 'Etwas Verschüttetes ist noch offen.',
      m.hurt !== undefined && `Jemand ist verletzt: ${hilf(m.hurt)}`,
    ),
  next: (m) =>
    saetze(
      m.omitted !== undefined && `Nach meinen Notizen ausgelassen: ${liste(m.omitted.map(name))}.`,
      `Als Nächstes: ${m.bath ? name(m.bath) : m.step}.`,
      m.after && `Danach: ${name(m.after)}.`,
    ),
  'film-loaded': (m) => (m.now ? undJetzt('Film eingelegt.', m.now) : 'Film eingelegt.'),
  'film-already-loaded': () => 'Der Film ist schon eingelegt.',
  'film-loaded-no-run': () => 'Film eingelegt, aber kein Lauf ist im Gang. Sag: Lauf beginnen.',
  clear: (m) =>
    saetze(
      `${m.leftOut ? 'Weiter mit einem ausgelassenen Bad' : m.harmless ? 'Kein Schaden' : 'Frei'}: ${zug(m.move)}.`,
      (m.harmless || m.reason === 'rest-of-development') && germanReasons[m.reason](m.about),
      geprueft(m.checks),
    ),
  recoverable: (m) =>
    saetze(
      `Warte. ${germanReasons[m.reason](m.about)}`,
      auch(m.also),
      'Sag ja, um es trotzdem zu tun, oder nein.',
    ),
  ruinous: (m) =>
    saetze(
      `Nein. ${germanReasons[m.reason](m.about)}`,
      auch(m.also),
      `Nicht gießen. Sag: abbrechen, oder: ${sperre}.`,
    ),
  ask: frage,
  overridden: (m) =>
    saetze(
      `Vermerkt. Mach: ${zug(m.move)}.`,
      m.overridden.length > 0 && `Aufgehoben: ${auch(m.overridden)}`,
      m.lostMl !== undefined && `${menge(m.lostMl)} laufen über und sind verloren.`,
      geprueft(m.checks),
    ),
  'where-went': (m) =>
    saetze(
      `Wohin kam ${der(m.bath)}? Flasche ${m.bottle} hatte ich abgelehnt. ${germanReasons[m.reason](m.about)}`,
      m.gas && `Falls etwas davon hineinkam: ${wegVomGas}`,
      'Nenne die Flasche, oder sag abbrechen, wenn es im Messbecher steht.',
    ),
  'needs-override': () => `Das ist abgelehnt, und ja genügt nicht. Sag: abbrechen, oder: ${sperre}.`,
  'needs-answer': (m) => noetig[m.ask] ?? 'Ich brauche zuerst die Antwort: welches Bad, welche Flasche?',
  'nothing-waiting': () => 'Darauf wartet gerade nichts.',
  cancelled: () => 'Abgebrochen.',
  'called-off': (m) =>
    undJetzt(m.bath ? `Abgesagt: ${name(m.bath)} wird nicht gegossen.` : 'Abgesagt.', m.now),
  'was-it-in': (m) =>
    `Du wolltest vor ${dauer(m.agoS)} ${den(m.bath)} eingießen. Kam es hinein? Sag ja oder nein.`,
  'taken-in': (m) =>
    `Ich nehme an, ${der(m.bath)} kam vor ${dauer(m.agoS)} hinein. Wenn nicht, sag: rückgängig.`,
  'taken-next': (m) =>
    `Ich nehme an, ${m.out === null ? '' : `${der(m.out)} kam heraus und `}${der(m.bath)} kam vor ${dauer(m.agoS)} hinein. Wenn nicht, sag: rückgängig.`,
  'taken-out': (m) => `Ich nehme an, ${der(m.bath)} ist zurück in: ${gefaess(m.to)}.`,
  poured: (m) =>
    saetze(
      m.gas && wegVomGas,
      m.warn && germanReasons[m.warn.reason](m.warn.about),
      `Vermerkt: ${name(m.bath)} in ${gefaess(m.to)}.`,
      m.lostMl !== undefined &&
        `${menge(m.lostMl)} mehr, als ${m.sizeTold ? 'hineingeht: übergelaufen und verloren' : 'nach meiner Annahme hineingeht. Sag mir, was sie fasst'}.`,
    ),
  'film-so-far': (m) => {
    const times = m.had.filter((h) => h.bath.id === m.asked?.id);
    if (m.asked !== null)
      return times.length > 0
        ? `Ja: ${name(m.asked)}, ${dauer(times.reduce((sum, h) => sum + h.seconds, 0))}.`
        : `Nein, ${den(m.asked)} hatte der Film nicht.`;
    return saetze(
      m.had.length === 0
        ? m.loaded
          ? 'Der Film ist eingelegt und hatte noch nichts.'
          : 'Nach dem, was ich weiß, ist kein Film in der Dose.'
        : `Der Film hatte: ${liste(m.had.map((h) => `${name(h.bath)} ${dauer(h.seconds)}`))}.`,
      m.missing.length > 0 && `${m.hung ? 'Nie bekam er' : 'Es fehlt noch'}: ${liste(m.missing.map(name))}.`,
      m.light && 'Licht kam daran: was verschleiert ist, bleibt es. Mach bis zum Ende weiter.',
    );
  },
  outlook: (m) =>
    !m.loaded
      ? 'In der Dose war noch kein Film.'
      : m.lost
        ? `Das Bild ist ${m.doubt ? 'vielleicht ' : ''}verloren.`
        : saetze(
            m.doubt
              ? zweifel(m.doubt)
              : m.effect === null &&
                  !m.light &&
                  !m.lightBefore &&
                  !m.notTurned &&
                  !m.turnedMore &&
                  m.reasons.length === 0
                ? 'Es steht nichts gegen den Film: er sollte gut werden.'
                : 'Das Bild ist nicht verloren.',
            m.effect !== null && `${gross(wirkung(m.effect))}.`,
            m.lightBefore &&
              'Vor dem Laden ging Licht an: was offen lag, ist verschleiert, was in der Dose war, ist heil.',
            m.light && 'Licht kam daran: was verschleiert ist, bleibt es.',
            m.turnedMore && 'Er wurde mehr bewegt als nötig: mehr Kontrast, wenn das im Entwickler war.',
            m.notTurned && 'Er wurde zu wenig bewegt: Streifen oder ungleiche Dichte sind möglich.',
            m.reasons.length > 0 &&
              'Nicht jedes Bad war, wie es sein soll: Flecken oder falsche Farben sind möglich.',
          ),
  'film-settled': (m) => undJetzt(`Gut: es war ${der(m.bath)}, wie ich es habe.`, m.now),
  'no-film-in': () => 'Dann hat der Film noch nichts abbekommen.',
  'say-again-clearly': (m) =>
    `Ich bin nicht sicher, ob ich dich verstanden habe. Sag noch einmal: ${m.word === 'override' ? sperre : 'ja'}, oder: abbrechen.`,
  'bath-in': (m) =>
    saetze(
      m.named?.own !== undefined &&
        `Nach meinen Notizen ist in Flasche ${m.named.bottle} ${m.named.holds ? der(m.named.holds) : 'ein anderes Bad'}: wenn das stimmt, sofort heraus damit! Sag ${m.named.own === null ? '' : `„aus Flasche ${m.named.own}“ oder `}„aus Flasche ${m.named.bottle}“.`,
      m.slip && fehler(m.slip),
      m.jugged && imBecher(m.jugged),
      m.warn && germanReasons[m.warn.reason](m.warn.about),
      m.missingMl !== undefined &&
        `${menge(m.missingMl)} zu wenig: ein Teil des Films ist trocken. Gieß jetzt den Rest nach und sag, dass es drin ist.`,
      `${gross(name(m.bath))} ist drin${m.agoS < 1 ? '' : `, seit ${dauer(m.agoS)}`}${m.aimS === null ? '.' : `: ${dauer(m.aimS)}.`}`,
      m.aimS === null && 'Wenn es fertig ist, sag: abgießen, oder: Dose ist leer.',
      m.agitation && m.agitation.style !== 'still' && m.agitation.initialS > 0
        ? `${dauer(m.agitation.initialS)} bewegen.`
        : null,
      m.assumed && 'Wenn es ein anderes Bad ist, nenne es.',
    ),
  'wrong-bath-in': (m) =>
    saetze(
      `Sofort heraus damit! ${germanReasons[m.reason](m.about)}`,
      wohin(m.outlet),
      'Wässere den Film und sag: Dose ist leer.',
      m.due && `Dran war: ${name(m.due)}.`,
    ),
  'bath-already-in': (m) =>
    saetze(
      `${gross(der(m.bath))} ist schon drin, seit ${dauer(m.sinceS)}.`,
      m.leftS !== null && rest(m.leftS),
    ),
  'confirm-bath-in': (m) => `Ist ${der(m.bath)} drin? Sag ja oder nein.`,
  'in-instead': (m) =>
    `Nach meinen Notizen ist seit ${dauer(m.sinceS)} ${der(m.holds)} in der Dose. Ist stattdessen ${der(m.bath)} drin? Sag ja; bei nein bleibt es dabei.`,
  'in-and-empty': (m) =>
    `Du sagst, ${der(m.bath)} ist drin, und die Dose ist leer. Ich nehme an, dass es drin ist. Wenn nicht, sag: Dose ist leer.`,
  'which-bath-in': () => 'Welches Bad ist drin?',
  'part-alone': (m) =>
    m.bath
      ? `${gross(name(m.bath))}: kommt es hinein, oder ist es drin? Sag: ich gieße ${den(m.bath)} ein, oder: ${name(m.bath)} ist drin.`
      : m.bottle === null
        ? 'Sag, was du gießt, und woher.'
        : `Flasche ${m.bottle}: was ist damit? Sag: aus Flasche ${m.bottle}, oder: was ist in Flasche ${m.bottle}.`,
  'film-first': (m) =>
    `${gross(der(m.bath))} ist drin, mit dem Film in der Dose? Dann sag: Film ist eingelegt, oder: abbrechen.`,
  'tank-is-empty': (m) =>
    saetze(
      'Dose leer.',
      m.slip && fehler(m.slip),
      m.jugged && imBecher(m.jugged),
      (m.slip === null || m.slip.restS === null) && jetzt(m.now),
    ),
  'tank-already-empty': (m) => undJetzt('Die Dose ist schon leer.', m.now),
  'confirm-early': (m) =>
    `${gross(der(m.bath))} hatte ${dauer(m.doneS)} von ${dauer(m.aimS)}. Sag ja, um früher abzugießen, oder nein.`,
  'confirm-skip': (m) => saetze(m.role && ohne[m.role], `Um ${m.step} auszulassen, sag ja.`),
  skipped: (m) => undJetzt(`Ausgelassen: ${m.step}.`, m.now),
  'had-before': (m) =>
    `Notiert: Der Film hatte schon ${den(m.bath)}.${m.lost ? ' Das war vor der Zeit: Das Bild ist verloren.' : ''}`,
  'water-stops': (m) =>
    undJetzt(
      `Notiert: Wasser statt ${m.step}. Mindestens ${dauer(m.seconds)}, in Bewegung: Der Entwickler arbeitet weiter, bis er aus dem Film ist.`,
      m.now,
    ),
  'tank-without-film': (m) =>
    undJetzt(
      `Dann hatte der Film nichts davon: ${name(m.bath)}. Die Uhr steht, das Bad ist so gut wie vorher. ${wohin(m.outlet)}`,
      m.now,
    ),
  outside: (m) =>
    m.leave
      ? `Alle jetzt hinaus, und geht für nichts zurück. ${m.film ? 'Der Film kann warten. ' : ''}Dann sag: Ich bin zurück.`
      : `Bleib weg und geh für nichts zurück, bis es sicher ist. ${m.film ? 'Der Film kann warten. ' : ''}Dann sag: Ich bin zurück.`,
  'hands-full': (m) =>
    `Erst wer verletzt ist. ${m.film ? 'Der Film kann warten: Ich rufe nichts mehr. ' : ''}Dann sag: Ich bin zurück.`,
  aired: (m) => `Geh erst hinein, wenn ${SICHER[m.from]}. Ist das so? Sag ja oder nein.`,
  'held-up': (m) =>
    saetze(
      `Lass dir Zeit, aber ${der(m.bath)} arbeitet weiter am Film.`,
      m.leftS !== null && restOderDrueber(m.leftS),
      'Ich rufe weiter.',
    ),
  'clock-runs': (m) =>
    saetze(
      `${gross(der(m.bath))} ist seit ${dauer(m.sinceS)} drin.`,
      m.leftS !== null && restOderDrueber(m.leftS),
      m.leftS !== null && m.leftS < 0 && 'Gieß jetzt ab.',
    ),
  'in-doubt': (m) =>
    m.doubt
      ? zweifel(m.doubt)
      : saetze(
          m.holds
            ? `Nach meinen Notizen ist ${der(m.holds.bath)} seit ${dauer(m.holds.sinceS)} drin.`
            : `Nach meinen Notizen ist die Dose leer. ${jetzt(m.now, true)}`,
          'Heb die Dose an: eine volle ist schwer und schwappt. Lass sie zu.',
          m.holds ? 'Ist sie leer, sag: Dose ist leer.' : 'Ist etwas drin, sag, welches Bad, und seit wann.',
        ),
  'no-clock': (m) => undJetzt('Es läuft keine Uhr.', m.now),
  'time-added': (m) =>
    `${m.seconds < 0 ? 'Abgezogen' : 'Dazu'}: ${dauer(Math.abs(m.seconds))}. ${rest(m.leftS)}${m.effect === null ? '' : ` Dann ${wirkung(m.effect)}.`}`,
  'tank-off': (m) =>
    saetze(
      `${grad(Math.abs(m.offC))} zu ${m.offC < 0 ? 'kalt' : 'warm'} in der Dose.`,
      m.effect !== null && `In der geplanten Zeit ${wirkung(m.effect)}.`,
      m.changeS !== null &&
        `${dauer(Math.abs(m.changeS))} ${m.changeS < 0 ? 'weniger' : 'mehr'} gleicht ${m.colour ? 'den Kontrast aus, aber nicht die ganze Farbe' : 'es aus'}. Sag ja; bei nein bleibt die Zeit.`,
    ),
  target: (m) =>
    m.temp
      ? `${gross(der(m.bath))} bei ${grad(m.temp.aimC)}, zwischen ${grad(m.temp.minC)} und ${grad(m.temp.maxC)}.`
      : `Das Blatt nennt dafür keine Temperatur: ${der(m.bath)}.`,
  'tank-slow': (m) =>
    saetze(
      `${grad(-m.offC)} zu kalt: es wirkt langsamer, und Silber kann bleiben.`,
      'Wärm die Dose.',
      m.longerS !== null && `${dauer(m.longerS)} länger? Sag ja oder nein.`,
    ),
  'bad-seconds': () => 'Ich kann die Zeit um 1 Sekunde bis 30 Minuten ändern. Um wie viel?',
  'time-left': (m) =>
    m.leftS === null
      ? `Dafür ist keine Zeit festgelegt: ${name(m.bath)}.`
      : m.leftS < -0.5 || m.drainS === null || m.drainS <= 0 || m.leftS - m.drainS < 1
        ? restOderDrueber(m.leftS)
        : `${gross(dauer(m.drainS))} bis zum Abgießen, ${dauer(m.leftS)} insgesamt.`,
  'time-until': (m) =>
    m.seconds < 1 && !m.atLeast
      ? `${gross(der(m.bath))} ist jetzt dran.`
      : m.seconds < 1
        ? `Das hängt von dir ab: keine feste Zeit, bis ${der(m.bath)} dran ist.`
        : `${m.atLeast ? 'Mindestens ' : ''}${dauer(m.seconds)}, bis ${der(m.bath)} dran ist.`,
  'time-until-none': (m) =>
    ({
      'not-in-sheet': `In diesem Prozess kommt ${der(m.bath)} nicht vor.`,
      done: `Schon vorbei: ${name(m.bath)}.`,
      'in-it': `${gross(der(m.bath))} ist gerade drin.`,
    })[m.why],
  duration: (m) =>
    m.seconds === null
      ? `Der Prozess nennt keine Zeit: ${name(m.bath)}.`
      : `${gross(name(m.bath))}: ${dauer(m.seconds)}.`,
  'gas-there': (m) =>
    `In Flasche ${m.bottle} sind ${name(m.bath)} und ${name(m.into)} zusammen. ${wegVomGas} Bewege sie nicht und verschließ sie nicht dicht. Ist die Luft klar, sammle es getrennt und beschriftet; nimm es für keinen Film. Ist dir unwohl, wähle Giftnotruf oder Notruf.`,
  'warm-it': (m) =>
    `Stell die Flasche (${name(m.bath)}) in ${m.hot ? 'kühleres' : 'warmes'} Wasser, von ${grad(m.tempC)} auf ${grad(m.aimC)}, und miss noch einmal. Dann sag das Gießen noch einmal an.`,
  'got-into-which': (m) =>
    `In welche Flasche kam ${m.both === null ? der(m.bath) : `${der(m.bath)} und ${der(m.both)}`}, und wie viel? Bis du es sagst, benutze keine davon.`,
  'went-elsewhere': (m) =>
    `Nach meinen Notizen kam ${der(m.bath)} aus der Dose in Flasche ${m.stands}. Kam es stattdessen in Flasche ${m.bottle}? Sag: rückgängig, und dann, was stimmt.`,
  agitate: (m) => (m.style === 'inversion' && m.turns > 0 ? `Bewegen: ${m.turns} Mal kippen.` : 'Bewegen.'),
  rest: () => 'Ruhen.',
  'ten-seconds': () => 'Noch 10 Sekunden bis zum Abgießen.',
  drain: (m) =>
    saetze(
      `Jetzt abgießen: ${name(m.bath)}.`,
      m.outlet.to === 'sink' ? null : wohin(m.outlet),
      m.next && `Danach: ${name(m.next)}.`,
    ),
  'pour-next': (m) => `Dose leer? Dann jetzt hinein: ${name(m.bath)}${ausFlasche(m.bottle)}.`,
  overdue: (m) =>
    saetze(
      `${gross(der(m.bath))} ist noch drin, ${dauer(m.overS)} zu lang. Gieß ab, oder sag: Dose ist leer.`,
      m.effect !== null && m.effect > 0.03 && `${gross(wirkung(m.effect))}.`,
    ),
  'get-out': (m) => `${gross(der(m.bath))} ist noch drin. Heraus damit.`,
  'in-asked': (m) =>
    `Ist ${der(m.bath)} drin? Sag: ${name(m.bath)} ist drin, oder: ${name(m.bath)} ist noch nicht drin.`,
  'empty-asked': () => 'Ist die Dose leer? Dann sag: Dose ist leer.',
  'bottle-empty': (m) =>
    saetze(`Vermerkt: Flasche ${m.bottle} ist leer.`, m.was && `Darin war ${der(m.was)}.`),
  'bottle-noted': (m) =>
    saetze(
      m.volumeAssumed
        ? `In Flasche ${m.bottle} ist ${der(m.bath)}. Du hast nicht gesagt, wie viel: ich nehme ${menge(m.volumeMl)} an.`
        : `In Flasche ${m.bottle} ist ${der(m.bath)}: ${menge(m.volumeMl)} von ${menge(m.capacityMl)}.`,
      m.was && `Bisher hatte ich dort: ${name(m.was)}.`,
    ),
  'bottle-takes': (m) => `Flasche ${m.bottle} fasst ${menge(m.capacityMl)}.`,
  'bottle-holds-what': (m) =>
    `Ich weiß nicht, was in Flasche ${m.bottle} ist. Sag: in Flasche ${m.bottle} ist, und das Bad.`,
  'bottle-doubt': (m) =>
    `Nach meinen Notizen ist in Flasche ${m.bottle} ${m.holds ? der(m.holds) : 'etwas anderes'}. Sag ja, wenn ${der(m.bath)} darin ist, oder nein.`,
  'bad-bottle': (m) =>
    ({
      volume: `${menge(m.volumeMl)} passen nicht in ${menge(m.capacityMl)}. Wie viel ist es?`,
      capacity: `Eine Flasche kann nicht ${menge(m.capacityMl)} fassen. Wie viel fasst sie?`,
      number: 'Flaschen haben Nummern von 1 bis 99. Welche ist es?',
    })[m.why],
  'no-such-liquid': (m) => `Ich kenne ${m.said} nicht.`,
  'thermometer-noted': (m) =>
    m.errorC === 0
      ? saetze(
          `Was das Thermometer zeigt, gilt so, wie es ist${m.wasC === undefined ? ', auch bei den Messungen von vorher' : ''}.`,
          !!m.wasC &&
            `Das alte zeigte ${grad(Math.abs(m.wasC))} zu ${m.wasC > 0 ? 'viel' : 'wenig'}: gilt das noch? Dann sag es noch einmal.`,
        )
      : `Notiert: dein Thermometer zeigt ${grad(Math.abs(m.errorC))} zu ${m.errorC > 0 ? 'viel' : 'wenig'}. Sag, was es zeigt: ich rechne das bei jeder Messung ${m.errorC > 0 ? 'ab' : 'dazu'}, auch bei denen von vorher.`,
  'tank-noted': (m) =>
    saetze(
      `Die Dose fasst ${menge(m.volumeMl)}.`,
      m.over && `Ich hatte ${menge(m.over.ml)} darin: ${name(m.over.bath)}. Wie viel kam hinein?`,
    ),
  'bad-tank': (m) =>
    `${menge(m.volumeMl)} glaube ich einer Dose nicht: 50 Milliliter bis 10 Liter. Wie viel fasst sie?`,
  'spill-open': (m) =>
    saetze(
      m.aid && hilf([m.aid]),
      m.cautions.length === 0 && (m.further ?? []).join(' '),
      `Vermerkt, verschüttet: ${m.volumeMl === null ? '' : `${menge(m.volumeMl)} `}${m.bath ? name(m.bath) : 'ein Bad'}${m.place ? ` ${ORTE[m.place] ?? ''}` : ''}.`,
      ...(m.cautions.length > 0 ? [warnung(m.cautions), ...(m.further ?? [])] : []),
      'Wenn es weg ist, sag: alles aufgewischt.',
    ),
  'backing-left': (m) =>
    m.stage === 'rinsing'
      ? saetze(
          'Dann löst sie sich noch: lass die Dose zu und spüle mit frischem Wasser weiter, bis es klar bleibt.',
          m.now && jetzt(m.now),
        )
      : `${m.stage === 'dark' ? 'Erst wenn er fixiert ist, denn Licht würde ihm schaden: mach' : 'Mach'} ihn nass, wisch diese Seite sanft mit einem weichen, nassen Tuch ab und spüle noch einmal.`,
  'agitated-more': (m) =>
    m.developing
      ? 'Lass ihn jetzt ruhen, bis ich rufe, und halte die Zeit ein. Mehr Bewegung im Entwickler gibt mehr Kontrast.'
      : 'Das schadet in diesem Bad nicht: nur im Entwickler wirkt es.',
  milky: (m) =>
    ({
      before: 'Vor dem Fixierbad ist ein Film milchig: das muss so sein. Lass ihn im Dunkeln.',
      fixing:
        'Dann ist er noch nicht fixiert: lass ihn drin, in Bewegung, doppelt so lange, wie er zum Klaren braucht. Bleibt er milchig, ist das Fixierbad schwach: nimm ein frisches.',
      after:
        'Ein milchiger Film ist nicht fixiert: fixiere ihn noch einmal in frischem Fixierbad und wässere ihn.',
    })[m.stage],
  'spill-ask': (m) =>
    saetze(
      m.aid && hilf([m.aid]),
      m.leak && 'Halte die Dose über die Spüle, mit Handschuhen, und drück den Deckel fest.',
      warnung(m.cautions),
      ...(m.further ?? []),
      m.missing !== null &&
        {
          nothing: 'Sag mir, wie viel verloren ging.',
          liquid: 'Was wurde verschüttet?',
          volume: 'Wie viel wurde verschüttet?',
          both: 'Was wurde verschüttet, und wie viel?',
          later: 'Sag mir später, was es war und wie viel.',
          'volume-later': 'Sag mir später, wie viel.',
        }[m.missing],
    ),
  contaminated: (m) =>
    saetze(
      m.gas && `${wegVomGas} Daraus kann giftiges Gas kommen.`,
      m.why && germanReasons[m.why.reason](m.why.about),
      `Vermerkt: in ${den(m.into)}${m.bottle === null ? '' : `, Flasche ${m.bottle}`}, ist etwas anderes geraten.`,
      m.found.length > 0
        ? 'Benutze sie nicht.'
        : 'Ein Spritzer schadet nach meiner Rechnung nicht, mehr vielleicht schon.',
    ),
  'spill-cleaned': (m) =>
    saetze('Verschüttetes abgeschlossen.', m.spills.length > 0 && nochVerschuettet(m.spills)),
  'sink-rinsed': () => 'Vermerkt: Wasser im Ausguss.',
  met: (m) =>
    saetze(
      wegVomGas,
      `${gross(name(m.bath))} und ${name(m.with)} sind zusammengekommen: daraus kann giftiges Gas kommen.`,
    ),
  hurt: (m) =>
    saetze(
      m.asks === 'rinsing' && spuelWeiter(m.hows),
      m.asks === 'call' && rufJetzt(m.hows),
      m.asks === 'lens' && lassLinse,
      m.asks === 'call' ? sagDort : m.asks && m.asks !== 'over' ? dannRuf : hilf(m.hows),
      m.asks === 'over' && 'Das bleibt offen. Ist es vorbei, sag: niemand ist verletzt.',
      warnung(m.cautions),
      m.hows.length === 0 && m.asks === null && 'Wo ist es?',
    ),
  'hurt-over': () => `Gut. Wenn etwas wiederkommt: ${dannRuf}`,
  'no-spill': (m) =>
    saetze(
      'Es ist nichts Verschüttetes offen.',
      m.never && `Nimm dafür nie ${name(m.never)}: Giftgas kann entstehen. Schon geschehen? ${wegVomGas}`,
    ),
  'note-taken': (m) => `Vermerkt: ${m.text.replace(/[.\s]+$/, '')}.`,
  'note-empty': () => 'Sag: Notiz, und dann die Worte.',
  cautions: (m) => warnung(m.cautions),
  'film-hung': (m) =>
    saetze(
      'Der Film hängt.',
      m.missing.length > 0 && nie(m.missing),
      m.fixerLeft &&
        'Das Fixierbad wurde nie ausgewässert und macht Flecken: wässere ihn, und gib das Schlussbad noch einmal.',
      m.backingLeft &&
        'Vielleicht ist die Rückschicht noch drauf: wisch die Rückseite ab, solange sie nass ist.',
      'Schließ die Flaschen, spüle die Dose, wasch dir die Hände. Dann sag: Lauf beenden.',
    ),
  'closed-without': (m) => `Dieser Lauf ist beendet. ${nie(m.missing)}`,
  'may-hang': (m) =>
    m.fixerLeft || m.missing.length > 0
      ? saetze(
          m.fixerLeft
            ? 'Noch nicht: Im Film ist noch Fixierbad, es macht Flecken und bleicht ihn.'
            : `Noch nicht. ${nie(m.missing)}`,
          jetzt(m.now, true),
        )
      : 'Häng ihn an einer Klammer auf, unten ein Gewicht, in stiller, sauberer Luft, zwei bis vier Stunden. Nicht abwischen.',
  'confirm-hang': (m) =>
    `${nie(m.missing)} ${jetzt(m.now, true)} Sag ja, um ihn trotzdem aufzuhängen, oder nein.`,
  'confirm-close': (m) =>
    `Der Lauf ist nicht zu Ende. ${jetzt(m.now, true)} Sag ja, um ihn trotzdem zu beenden, oder nein.`,
  'run-closed': (m) =>
    saetze(
      m.complete ? 'Lauf beendet.' : 'Lauf vor seinem Ende beendet.',
      m.missing.length > 0 && nie(m.missing),
      m.jugs.length > 0 && `Noch in Messbechern: ${liste(m.jugs.map(name))}.`,
      m.open && m.open.hurt.length > 0 && `Jemand war verletzt: ${hilf(m.open.hurt)}`,
      m.open && m.open.spills.length > 0 && nochVerschuettet(m.open.spills),
    ),
  'stop-what': () => 'Was soll aufhören? Sag: abgießen, Lauf beenden, oder: abbrechen.',
  'nothing-to-stop': () => 'Es läuft nichts.',
  'in-without-run': (m) =>
    `Kein Lauf hat begonnen, also läuft keine Uhr. Ist ein Film darin? Sag: Lauf starten, Film ist drin, ${m.bath.name} ist drin.`,
  'not-now': (m) => undJetzt('Noch nicht.', m.now),
  'where-it-goes': () =>
    'Sammle jedes verbrauchte Bad für sich, Säure nie zu Bleichbad oder Fixierbad. Was in den Abfluss darf, bestimmen die örtlichen Regeln.',
  'films-what': () => 'Welcher Film ist es, und wie viele?',
  'time-at-what': () => 'Bei wie viel Grad?',
  'swap-asked': (m) =>
    `${gross(liste(m.bottles.map((b) => `in Flasche ${b.bottle} ist dann ${b.bath ? der(b.bath) : 'nichts'}`)))}. Sag ja oder nein.`,
  swapped: (m) =>
    `Vermerkt: ${liste(m.bottles.map((b) => `in Flasche ${b.bottle} ist ${b.bath ? der(b.bath) : 'nichts'}`))}. Beschrifte sie.`,
  'swap-what': () =>
    'Welche zwei Flaschen sind vertauscht? Sag: Flasche 3 und Flasche 4 sind vertauscht, mit ihren Nummern.',
  'film-out': (m) =>
    saetze(
      `Leg den Film zurück: er hatte ${dauer(m.doneS)} (${name(m.bath)})${m.leftS !== null && m.leftS > 0 ? `, und ${dauer(m.leftS)} fehlen` : ''}.`,
      m.light && 'Im Dunkeln, wenn Licht ihn noch treffen kann: was verschleiert ist, bleibt es.',
      'Ist das Bad schon heraus, sag: Dose ist leer.',
    ),
  'poured-what': (m) =>
    m.amount ? 'Wie viele Milliliter davon?' : 'Was ging wohin? Nenne das Bad und beide Flaschen.',
  'got-into-tank': (m) =>
    saetze(
      m.gas && wegVomGas,
      `${gross(name(m.bath))} kam in ${m.into === null ? 'die leere Dose' : `die Dose, in der ${der(m.into)} ist`}.`,
      m.warn && germanReasons[m.warn.reason](m.warn.about),
      m.thins
        ? 'Verdünnt wirkt es schwächer, wie viel, weiß niemand. Gib ihm die volle Zeit und heb es danach gesondert auf.'
        : m.harmless
          ? 'Ein wenig davon schadet dort nach meiner Rechnung nicht.'
          : m.into === null || m.into.id === 'water'
            ? 'Gieß es weg und spüle die Dose mit frischem Wasser vor dem nächsten Bad.'
            : `Gieß jetzt ab, nicht in die Flasche zurück: heb ${den(m.into)} gesondert im Messbecher auf. Dann wässern.`,
    ),
  'still-good': (m) =>
    m.bath === null
      ? 'Welches Bad meinst du? Ich weiß von nichts, was gegen eines spricht.'
      : m.found
        ? `Nein, so nicht. ${germanReasons[m.found.reason](m.found.about)}`
        : `Ich weiß von nichts, was gegen ${den(m.bath)} spricht.`,
  'light-in': (m) =>
    saetze(
      {
        'no-film': 'Film, der offen lag, ist verschleiert; in seiner Patrone ist er sicher.',
        fixed: 'Der Film ist fixiert: Licht schadet ihm nicht. Schließ die Dose und mach weiter.',
        fixing:
          'Etwas Licht schadet kaum noch, aber er ist nicht durchfixiert. Schließ die Dose und lass ihn bis zum Ruf darin.',
        bleached: 'Nach dem Bleichbad schadet etwas Licht nicht. Schließ die Dose und mach weiter.',
        bleaching:
          'Sofort schließen. Das Bleichbad ist noch nicht fertig: was Licht bekam, ist vielleicht verschleiert. Vermerkt.',
        sensitive:
          'Sofort schließen, im Dunkeln. Was Licht bekam, ist verschleiert, der Rest vielleicht zu retten.',
      }[m.stage],
      (m.stage === 'sensitive' || m.stage === 'bleaching') &&
        m.bath &&
        `Mach weiter: ${der(m.bath)} arbeitet wie zuvor.`,
      m.now && jetzt(m.now, true),
    ),
  'mixed-wrong': (m) =>
    `Gieß ${den(m.bath)} noch über keinen Film. Was fehlt, kommt gewogen hinein und wird klar gerührt. Was zu viel oder zu dünn ist, wird nicht mehr gut: setz neu an.`,
  away: (m) =>
    m.bath === null
      ? m.first === null
        ? undJetzt('In der Dose arbeitet nichts.', m.now)
        : `Noch nicht: der Entwickler im Film arbeitet weiter. Zuerst hinein: ${name(m.first)}.`
      : saetze(
          `${gross(der(m.bath))} arbeitet weiter, während du weg bist.`,
          m.drainS !== null &&
            (m.drainS > 0
              ? `In ${dauer(m.drainS)} muss es heraus.`
              : m.harmless
                ? 'Die Zeit ist um; ein paar Minuten mehr schaden nicht.'
                : 'Gieß jetzt ab, und geh dann.'),
          m.overS !== null &&
            m.overS >= 1 &&
            !(m.harmless && (m.drainS ?? 0) <= 0) &&
            `In ${dauer(m.backS ?? 0)} wären es ${dauer(m.overS)} zu viel.`,
          'Ich rufe weiter.',
        ),
  'wrong-bottle': (m) =>
    `Nach meinen Notizen ist ${der(m.bath)} in der Dose${ausFlasche(m.bottle)}. Was ist es wirklich? Sag: das war Flasche, und ihre Nummer; oder: Dose ist leer.`,
  'left-out': (m) =>
    saetze(
      m.hadS >= 1 && `Nach meinen Notizen hatte der Film ${dauer(m.hadS)} davon: ${name(m.bath)}.`,
      m.reason === null
        ? m.role === 'water'
          ? 'So, wie der Film jetzt ist, schadet das nicht.'
          : ohne[m.role]
        : germanReasons[m.reason](m.about),
      m.inNow !== null && m.reason !== null
        ? `${gross(der(m.inNow))} ist schon drin: das lässt sich nicht zurücknehmen. Heb es danach gesondert auf und wässere den Film gut.`
        : jetzt(m.now, true),
    ),
  'tank-used': (m) =>
    `Von jetzt an Dose ${m.tank}. Sie fasst ${menge(m.volumeMl)}${m.told ? '' : ', wenn du nichts anderes sagst'}.${m.film ? ' Film ist darin.' : ''}`,
  'tank-busy': (m) => undJetzt(`Dose ${m.tank} ist in Arbeit: mach zuerst ihren Film fertig.`, m.now),
};

const SICHER = {
  air: 'gelüftet ist und nichts mehr riecht oder beißt',
  fire: 'das Feuer aus und der Rauch abgezogen ist',
  current: 'der Strom an der Sicherung aus ist',
  mercury: 'die Giftnotrufzentrale gesagt hat, wie, und das Quecksilber fort ist',
};

const spuelWeiter = (hows: readonly Exposure[]): string =>
  hows.length > 0 && hows.every((how) => ['eye', 'face', 'skin'].includes(how))
    ? 'Spüle weiter, im Ganzen fünfzehn Minuten. Tut es dann noch weh, zum Arzt, mit Etikett oder Datenblatt.'
    : 'Spüle weiter: wann du aufhören kannst, weiß ich nicht.';

const rufJetzt = (hows: readonly Exposure[]): string =>
  hows.includes('animal')
    ? 'Ruf jetzt die Tierärztin oder den Tierarzt.'
    : hows.some((how) => ['eye', 'face', 'skin'].includes(how))
      ? 'Ruf jetzt den Giftnotruf oder den Notruf, und spüle weiter.'
      : 'Ruf jetzt den Giftnotruf oder den Notruf; wer schlecht Luft bekommt oder wegtritt: den Notruf.';
const sagDort = 'Halte das Etikett oder das Sicherheitsdatenblatt bereit.';
const lassLinse =
  'Geht die Linse nicht leicht heraus, lass sie und spüle weiter, Lider offen. Dann zum Arzt.';
