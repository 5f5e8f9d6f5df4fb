import type { Moment } from '../../../process/desk.js';
import { asIntent, type Intent } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import { any } from './lists.js';
import { type Said, saidIn } from './matter.js';

/** Beside its own words a saying has none but these: none of them denies, doubts or asks. */
const FILLER = new Set(
  (
    'ich wir es er sie das der die den dem des ein eine einen mein meine bin ist sind war wurde habe hat haben jetzt nun mal ' +
    'gerade grade grad eben endlich doch schon bereits bitte also so ok okay dann und ja na ah oh aeh aehm hm ganz komplett alles alle ' +
    'wieder nur mit aus von in im ins nach zu zum zur auf bei beim fuer an am eigentlich uebrigens wohl einfach etwa ca circa ungefaehr hier da ' +
    'davon daraus los mir dabei soweit fertig werden wird seit vor direkt sofort schnell langsam is hoppla ups uups mist oje ach nochmal kurz schliesslich scheisse verdammt hey tankside'
  ).split(' '),
);

interface Saying {
  /** one of these words or phrases is in it, outside its names and numbers */
  key: RegExp;
  /** … and it may have these */
  also?: string;
  /** none of these is in it */
  not?: RegExp;
  tell: (said: Said, now: Moment) => Intent | undefined;
}

/** A sentence of which every word is known, in any order of them. */
export function sayingOf(plain: string, asked: boolean, now: Moment, grammars: Grammars): Intent | undefined {
  const said = saidIn(plain, grammars);
  const asks = asked || VERB_FIRST.test(plain);
  for (const { key, also = '', not, tell } of asks ? ASKED : TOLD) {
    if (!key.test(said.rest) || not?.test(plain)) continue;
    const may = new Set(also.split(' '));
    const others = said.rest.replace(new RegExp(key.source, 'g'), ' ').split(' ').filter(Boolean);
    if (!others.every((w) => FILLER.has(w) || may.has(w))) continue;
    const intent = tell(said, now);
    if (intent) return intent;
  }
  return undefined;
}
const VERB_FIRST =
  /^(?:und |aber |also )*(?:(?:ist|sind|war|hat|hatte) (?:der|die|das|es|er|sie|ein|mein|film)\b|wird (?:der|das|es|er)\b|(?:in|aus|nach) welche\w*|(?:kann|soll|darf|muss|koennte|sollte|brauche|habe) (?:ich|man|es|das|der|die|er|sie)\b|(?:was|wie|wieviel|wo|wann|wer|welche\w*|warum|wieso|weshalb|wohin|woher)\b)/;

const liquidOf = ({ liquids }: Said): string | undefined =>
  new Set(liquids).size === 1 ? liquids[0] : undefined;
const whenNamed = (liquid: string | undefined, type: Intent['type']): Intent | undefined =>
  liquid === undefined ? undefined : asIntent(type, { liquid });
const bottlesOf = ({ things }: Said): number[] => things.flatMap((t) => t.bottle ?? []);
const OUT_OF = /^(?:aus|von|vom)$/;
const INTO = /^(?:in|nach|zu|zum|zur|auf)$/;
const bottleAt = ({ things }: Said, where: RegExp) => {
  const number = things.find((t) => t.bottle !== undefined && where.test(t.before))?.bottle;
  return number === undefined ? undefined : ({ kind: 'bottle', number } as const);
};
const vesselOf = ({ things }: Said): string | undefined => things.find((t) => t.vessel)?.vessel;
const moving = ({ situations }: Moment): boolean =>
  situations.some((s) => s === 'immersed' || s === 'draining');
/** In a jug or the tub, and not in the tank. */
const elsewhere = ({ things }: Said): boolean => things.some((t) => t.vessel === 'tub' || t.vessel === 'jug');
const one = (said: Said): boolean => new Set(said.liquids).size < 2 && bottlesOf(said).length < 2;

/** A number that a bath may have, and no other amount. */
const isWarm = ({ value, volumeMl, seconds }: Said): boolean =>
  value !== undefined && value >= 10 && value <= 100 && volumeMl === undefined && seconds === undefined;

const IS = /\b(?:ist|sind|habe|hat|war|wurde|haben)\b/;
const IN =
  'drin drinnen drinne eingefuellt eingegossen reingegossen reingekippt reingeschuettet reingetan reingefuellt hineingegossen eingeschuettet reingegangen reingelaufen reingegeben';
const OUT =
  'leer abgegossen ausgegossen ausgeleert ausgekippt abgelassen entleert geleert rausgekippt abgeschuettet ausgeschuettet rausgegossen draussen';
const BACK = 'zurueck zurueckgiessen zurueckkippen zurueckschuetten zurueckfuellen zuruecktun zurueckgeben';
const WAS_BACK =
  'zurueckgegossen zurueckgekippt zurueckgeschuettet zurueckgefuellt zurueckgetan zurueckgegeben';
const POURS =
  'giesse kippe schuette fuelle gebe tue giess kipp schuett fuell geb tu giessen kippen schuetten fuellen geben';
const INFINITIVES =
  'reingiessen reinkippen reinschuetten eingiessen einfuellen hineingiessen reingeben reintun einschuetten waessern';

/** What is told or announced. The first that fits. */
const TOLD: readonly Saying[] = [
  {
    key: any('vertauscht verwechselt getauscht umgetauscht'),
    also: 'flaschen baeder zwei beide miteinander etiketten deckel versehentlich versehen',
    tell: (said) => {
      const [bottle, other] = bottlesOf(said);
      const [liquid, otherLiquid] = new Set(said.liquids);
      return asIntent('swapped', { bottle, other, ...(bottle === undefined && { liquid, otherLiquid }) });
    },
  },
  {
    key: any(
      'falsche_flasche falsche_pulle falschen_flasche falsche_bad falsches_bad falsches_erwischt falsche_erwischt',
    ),
    also: 'genommen erwischt gegriffen hab oje mist in hand',
    tell: () => asIntent('withdraw', { wrong: true }),
  },
  {
    key: any(
      'ich_meine ich_meinte ich_mein meinte sondern ich_wollte_sagen soll_heissen vertan verschrieben vertippt nein nee',
    ),
    also: 'nicht gar kein keine sagen heissen hab mich falsch sorry quatsch war natuerlich',
    tell: (said) => {
      const right = said.things.filter((t) => t.before !== 'nicht').at(-1);
      if (right?.bottle !== undefined)
        return asIntent('correct', { vessel: { kind: 'bottle', number: right.bottle } });
      if (right?.liquid !== undefined) return asIntent('correct', { liquid: right.liquid });
      if (said.volumeMl !== undefined) return asIntent('correct', { volumeMl: said.volumeMl });
      return said.value === undefined ? undefined : asIntent('correct', { value: said.value });
    },
  },
  {
    key: any('das_war das_ist das_waren es_war war_doch war_das'),
    also: 'falsch falsche leider ja aus versehen',
    not: any('drin leer raus zurueck alles zu'),
    tell: (said) => {
      const [bottle] = bottlesOf(said);
      const liquid = liquidOf(said);
      if (!one(said) || said.volumeMl !== undefined) return undefined;
      return bottle !== undefined
        ? asIntent('correct', { vessel: { kind: 'bottle', number: bottle } })
        : whenNamed(liquid, 'correct');
    },
  },
  {
    key: any(
      'vielleicht_war koennte vielleicht glaube glaub fuerchte womoeglich weiss_nicht_ob nicht_sicher_ob bin_nicht_sicher',
    ),
    also: 'ob auch gewesen sein drin nicht sicher statt stattdessen doch drinnen gar',
    tell: (said) => {
      const suspect = liquidOf(said);
      return suspect === undefined || !/\b(?:ob|da|war|statt|koennte)\b/.test(said.plain)
        ? undefined
        : asIntent('in-doubt', /\bob\b/.test(said.plain) ? { liquid: suspect } : { suspect });
    },
  },
  {
    key: any('war_nicht war_noch_nicht war_gar_nicht war_noch_gar_nicht'),
    also: 'drin leer raus',
    tell: ({ plain }) =>
      /\b(?:drin|leer|raus)$/.test(plain) ? asIntent('undo', { denied: true }) : undefined,
  },
  {
    key: any('nur bloss erst'),
    also: 'drin dose davon rein gegangen passt waren',
    tell: (said, now) =>
      moving(now) && said.volumeMl !== undefined && bottlesOf(said).length === 0
        ? asIntent('correct', { volumeMl: said.volumeMl })
        : undefined,
  },
  {
    key: any('vergessen ausgelassen uebersprungen weggelassen'),
    also: 'waessern spuelen zwischenwaessern wasser',
    tell: (said) => {
      const liquid = liquidOf(said) ?? (/\b(?:\w*waessern|spuelen)\b/.test(said.plain) ? 'water' : undefined);
      return whenNamed(liquid, 'left-out');
    },
  },
  {
    key: any('ueberspringen auslassen weglassen ueberspring lass_weg lasse_weg ueberspringe'),
    also: 'will moechte kann den schritt diesen',
    tell: (said) => asIntent('skip', { liquid: liquidOf(said) }),
  },
  {
    key: any(WAS_BACK, BACK),
    also: `${POURS} will gleich filter durch trichter flasche komm kommt geht`,
    tell: (said) => {
      const to = bottleAt(said, INTO) ?? (vesselOf(said) === 'jug' ? { kind: 'jug' as const } : undefined);
      if (!one(said)) return undefined;
      const done = to?.kind === 'bottle' && (any(WAS_BACK).test(said.plain) || IS.test(said.plain));
      return asIntent(done ? 'poured' : 'pour-back', { liquid: liquidOf(said), to });
    },
  },
  {
    key: any(
      'beginne fange starte starten anfangen beginnen loslegen leg_los legen_los geht_es_los losgehen neuer_lauf neuen_lauf',
    ),
    also: 'lauf neuen neuer an lass uns film kann mit ecn entwicklung kanns will moechte',
    tell: () => asIntent('begin-run', {}),
  },
  {
    key: any('eingelegt eingespult aufgespult drin drauf zu geschlossen in_der_dose verschlossen geladen'),
    also: 'film deckel spule spirale dose lichtdicht licht kann',
    not: any('flasche entwickler bleichbad fixierbad stoppbad bad wasser lid'),
    tell: ({ plain, liquids }) =>
      /\b(?:film|deckel|spule)\b/.test(plain) && liquids.length === 0
        ? asIntent('film-loaded', {})
        : undefined,
  },
  {
    key: any('aufgehaengt haengt aufgehangen'),
    also: 'film trocknen klammer leine dusche',
    tell: () => asIntent('film-hung', {}),
  },
  {
    key: any(IN, 'rein hinein dose_ist'),
    also: 'kam voll erst erste ueber',
    not: any('war waren hatte'),
    tell: (said, now) => {
      if (!one(said) || elsewhere(said)) return undefined;
      const from = bottleAt(said, OUT_OF);
      const liquid = liquidOf(said);
      if (bottleAt(said, INTO)) return undefined;
      // what is not there yet is announced
      if (!any(IN).test(said.plain) && !IS.test(said.plain))
        return liquid || from ? asIntent('pour-in', { liquid, from }) : undefined;
      const agoS = /\b(?:seit|vor)\b/.test(said.plain) ? said.seconds : undefined;
      if (said.seconds !== undefined && agoS === undefined) return undefined;
      if (from) return asIntent('poured', { liquid, from, to: { kind: 'tank' }, agoS });
      return now.situations.includes('loading') && liquid === undefined
        ? undefined
        : asIntent('bath-in', { liquid, agoS, volumeMl: said.volumeMl });
    },
  },
  {
    key: any(OUT, 'raus heraus'),
    also: 'laeuft dose',
    not: any('bin alle_raus luft war waren'),
    tell: (said, now) => {
      const [bottle] = bottlesOf(said);
      if (!one(said) || elsewhere(said)) return undefined;
      if (bottle !== undefined)
        return /\bleer\b/.test(said.plain) && !liquidOf(said)
          ? asIntent('bottle-empty', { bottle })
          : undefined;
      const done = any(OUT).test(said.plain) || IS.test(said.plain) || now.situations.includes('draining');
      const agoS = /\b(?:seit|vor)\b/.test(said.plain) ? said.seconds : undefined;
      return done ? asIntent('tank-empty', { agoS }) : asIntent('drain-now', {});
    },
  },
  {
    key: any(
      'raus_damit weg_damit abgiessen ausgiessen ausleeren ablassen auskippen leeren ab_damit giesse_ab leere_aus giesse_aus kippe_aus giess_ab kipp_aus rausgiessen rauskippen raus_mit',
    ),
    also: `${POURS} ab will muss gleich dose`,
    tell: (said) => (one(said) && bottlesOf(said).length === 0 ? asIntent('drain-now', {}) : undefined),
  },
  {
    key: any(POURS, INFINITIVES, 'kommt nehme nehm laeuft'),
    also: 'rein ein hinein will moechte werde gleich zuerst als naechstes dose erst',
    not: any('weg ausguss spuele'),
    tell: (said, now) => {
      const from =
        bottleAt(said, OUT_OF) ?? (/\bnehme?\b/.test(said.plain) ? bottleAt(said, /./) : undefined);
      const to = bottleAt(said, INTO);
      const liquid = liquidOf(said) ?? (/\bwaessern\b/.test(said.plain) ? 'water' : undefined);
      if (new Set(said.liquids).size > 1 || (elsewhere(said) && !to)) return undefined;
      if (to && from) return asIntent('pour-between', { liquid, from, to });
      if (to)
        return moving(now)
          ? asIntent('pour-back', { liquid, to })
          : asIntent('pour-between', { liquid, from: { kind: 'jug' }, to });
      if (!liquid && !from) return undefined;
      const filled =
        /\b(?:rein|ein|hinein|kommt|nehme?|dose|tank)\b/.test(said.plain) ||
        any(INFINITIVES).test(said.plain) ||
        from;
      return filled ? asIntent('pour-in', { liquid, from }) : undefined;
    },
  },
  {
    key: any('ist sind hat enthaelt steht stehen drin in'),
    also: 'voll noch flasche kommt alter alte altes alten frischer frisches frische neuer neues milliliter',
    not: any('zurueck leer raus rein grad degrees warm kalt'),
    tell: (said, now) => {
      const [bottle] = bottlesOf(said);
      const liquid = liquidOf(said);
      const told = /\b(?:ist|sind|hat|enthaelt|steht|stehen|drin)\b/.test(said.rest) || !moving(now);
      return bottle !== undefined && liquid !== undefined && one(said) && told
        ? told && /\bwieder\b/.test(said.plain) && said.volumeMl === undefined
          ? asIntent('poured', { liquid, to: { kind: 'bottle', number: bottle } })
          : asIntent('bottle-holds', { bottle, liquid, volumeMl: said.volumeMl })
        : undefined;
    },
  },
  {
    key: any('thermometer'),
    also: 'zeigt geht misst grad degrees viel wenig hoch niedrig tief mein immer falsch um daneben',
    tell: ({ plain, value }) => {
      const high = /\b(?:viel|hoch)\b/.test(plain);
      const low = /\b(?:wenig|niedrig|tief)\b/.test(plain);
      const byC = value ?? (/\b(?:ein|einen) grad\b/.test(plain) ? 1 : undefined);
      return high === low || byC === undefined
        ? undefined
        : asIntent('thermometer-reads', { byC, way: high ? 'high' : 'low' });
    },
  },
  {
    key: any('thermometer'),
    also: 'geht stimmt zeigt richtig genau neue neues anderes',
    tell: ({ plain }) =>
      /\b(?:stimmt|richtig|genau)\b/.test(plain)
        ? asIntent('thermometer-reads', { byC: 0, way: 'high' })
        : undefined,
  },
  {
    key: any('gestellt eingestellt stelle stell steht auf'),
    also: 'heizung thermostat heizer degrees hoch runter',
    tell: ({ things, plain, value }) =>
      value !== undefined &&
      (things.some((t) => t.vessel === 'tub') || /\b(?:heizung|thermostat|heizer)\b/.test(plain)) &&
      /\b(?:gestellt|eingestellt|stelle?)\b/.test(plain)
        ? asIntent('tub-set', { tempC: value })
        : undefined,
  },
  {
    key: /^(?=.)/,
    also: 'zeigt steht misst gemessen messe warm liegt degrees erst mittlerweile thermometer noch inzwischen genau knapp bloss sagt',
    tell: (said) => {
      if (!isWarm(said) || !one(said)) return undefined;
      const [bottle] = bottlesOf(said);
      const vessel = vesselOf(said);
      const of =
        liquidOf(said) ??
        (bottle !== undefined
          ? { kind: 'bottle', number: bottle }
          : vessel && vessel !== 'jug'
            ? { kind: vessel }
            : undefined);
      return of === undefined ? undefined : asIntent('temperature', { of, tempC: said.value });
    },
  },
  {
    key: any('alle alles'),
    also: 'baeder flaschen haben ist degrees warm stehen bis ausser',
    tell: (said) => {
      const except = liquidOf(said);
      if (!isWarm(said) || /\b(?:anderen|uebrigen)\b/.test(said.plain) || bottlesOf(said).length > 0)
        return undefined;
      if (except !== undefined && !/\b(?:bis auf|ausser)\b/.test(said.plain)) return undefined;
      return asIntent('all-at', { tempC: said.value, except });
    },
  },
  {
    key: any('zu_kalt'),
    also: 'viel etwas bisschen leider',
    tell: () => asIntent('ask-advice', { topic: 'too-cold' }),
  },
  {
    key: any('zu_warm zu_heiss'),
    also: 'viel etwas bisschen leider',
    tell: () => asIntent('ask-advice', { topic: 'too-hot' }),
  },
  {
    key: any('weg gleich_wieder_da gleich_zurueck ans_telefon aufs_klo zur_tuer'),
    also: 'kurz muss gleich klingelt es minuten klo tuer telefon ans',
    tell: (said) =>
      /\b(?:bin|muss)\b/.test(said.plain) && said.liquids.length === 0
        ? asIntent('away', { seconds: said.seconds })
        : undefined,
  },
  {
    key: any('wieder_da wieder_zurueck zurueck da_bin_ich'),
    tell: (said) =>
      /\b(?:bin|sind|wieder da)\b/.test(said.plain) && said.things.length === 0
        ? asIntent('room', { is: 'back' })
        : undefined,
  },
  {
    key: any(
      'rueckgaengig nimm_zurueck zuruecknehmen stimmt_nicht war_falsch stimmte_nicht war_ein_fehler letztes_loeschen vertan verschrieben war_nicht_so undo vergiss_das letzte_war_falsch',
    ),
    also: 'mache mach letzte letztes gar das eben gesagte bitte',
    tell: (said) => (said.things.length === 0 ? asIntent('undo', {}) : undefined),
  },
  {
    key: any('heizung heizer heizstab strom stromausfall thermostat'),
    also: 'weg ausgefallen laeuft an ausgeschaltet aus eingeschaltet ausgegangen ausfall wieder_da',
    not: any('steckdose funken stecker schlag'),
    tell: ({ plain }) => {
      const off = /\b(?:weg|ausgefallen|ausgeschaltet|aus|ausgegangen|stromausfall)\b/.test(plain);
      const on = /\b(?:laeuft|an|eingeschaltet|da)\b/.test(plain);
      return on === off ? undefined : asIntent('heater', { on });
    },
  },
  {
    key: any('uhr stoppuhr'),
    also: 'start los laeuft starten',
    tell: ({ plain }) => (/\b(?:los|start|starten)\b/.test(plain) ? asIntent('start-clock', {}) : undefined),
  },
  {
    key: any('zu_spaet spaet'),
    also: 'abgegossen ausgeleert raus geleert seconds minutes sekunden',
    tell: ({ seconds }) => (seconds === undefined ? undefined : asIntent('drained-late', { seconds })),
  },
  {
    key: any('laenger mehr dazu zusaetzlich verlaengern noch'),
    also: 'um drin lassen lasse gib gebe mach mache',
    tell: ({ seconds, plain }) =>
      seconds !== undefined && /\b(?:laenger|mehr|dazu|zusaetzlich|verlaengern)\b/.test(plain)
        ? asIntent('add-time', { seconds })
        : undefined,
  },
  {
    key: any('kuerzer weniger'),
    also: 'mach mache um drin lassen lasse',
    tell: ({ seconds }) => (seconds === undefined ? undefined : asIntent('shorten', { seconds })),
  },
];

const ASKING =
  'was wie wo wann lang welche welcher welches welchem lange viel warm heiss kalt muss soll darf kann sollte noch man denn bleibt bleiben drin als naechstes bad flasche film temperatur grad degrees raus sein braucht brauche braucht_es dose heraus haben hatte ist dauert dauern reicht genug hinein rein';

/** What is asked. */
const ASKED: readonly Saying[] = [
  {
    key: any('losgehen anfangen so_weit bereit'),
    also: `${ASKING} kanns koennen wir`,
    tell: (said) =>
      /\bwann\b/.test(said.plain) ? asIntent('ask-ready', { liquid: liquidOf(said) }) : undefined,
  },
  {
    key: any('wird was_geworden'),
    also: `${ASKING} wieder etwas`,
    tell: ({ plain }) => (/\bfilm\b/.test(plain) ? asIntent('ask-film', { about: 'outlook' }) : undefined),
  },
  {
    key: any('statt anstatt stattdessen verwechselt falsche falsches'),
    also: `${IN} ${ASKING} ich jetzt etwa rein gekippt gegossen`,
    tell: (said) => {
      const suspect = said.liquids[0];
      return suspect === undefined ? undefined : asIntent('in-doubt', { suspect });
    },
  },
  {
    key: any('waessern gewaessert spuelen'),
    also: ASKING,
    tell: () => asIntent('ask-duration', { liquid: 'water' }),
  },
  {
    key: any('wie_lange wie_lang wann'),
    also: ASKING,
    not: any('bis'),
    tell: (said) => {
      const liquid = liquidOf(said);
      if (/\b(?:raus|heraus|noch)\b/.test(said.plain) && !/\bdauert\b/.test(said.plain))
        return asIntent('ask-time-left', {});
      return liquid ? asIntent('ask-duration', { liquid }) : asIntent('ask-time-left', {});
    },
  },
  {
    key: any('wie_warm wie_heiss welche_temperatur wieviel_grad wie_viel_grad zieltemperatur'),
    also: ASKING,
    tell: (said) => {
      const liquid = liquidOf(said);
      const aim = /\b(?:muss|soll|sollte|braucht|brauche|sein)\b/.test(said.plain);
      return aim
        ? asIntent('ask-target', { liquid })
        : liquid === undefined
          ? undefined
          : asIntent('ask-temperature', { of: liquid });
    },
  },
  {
    key: any('welche_flasche welcher_flasche wo_ist wo_steht in_welche aus_welcher wohin'),
    also: `${ASKING} ${POURS} damit kommt gehoert zurueck steht`,
    tell: (said) => asIntent('ask-bottle-of', { liquid: liquidOf(said) }),
  },
  {
    key: any('was_ist was_war'),
    also: `${ASKING} gerade da`,
    tell: (said) => {
      const [bottle] = bottlesOf(said);
      if (bottle !== undefined) return asIntent('ask-bottle', { bottle });
      return vesselOf(said) === 'tank' || /\bdrin\b/.test(said.plain) ? asIntent('ask-where', {}) : undefined;
    },
  },
  {
    key: any('bewegen kippen schwenken agitieren schuetteln drehen bewegt'),
    also: `${ASKING} oft jetzt weiter`,
    tell: () => asIntent('ask-agitation', {}),
  },
  {
    key: any('drin leer fertig'),
    also: 'schon noch nicht',
    tell: (said) => (bottlesOf(said).length === 0 ? asIntent('ask-where', {}) : undefined),
  },
  {
    key: any(
      'hin kaputt ruiniert verloren retten gerettet was_geworden schlimm in_ordnung versaut hinueber okay noch_was gut',
    ),
    also: `${ASKING} wird werden etwas nichts das jetzt der bilder zu noch`,
    tell: ({ plain }) =>
      /\b(?:film|bilder|alles|war das)\b/.test(plain)
        ? asIntent('ask-film', { about: 'outlook' })
        : undefined,
  },
  {
    key: any('hatte bekommen gehabt bekam'),
    also: `${ASKING} schon alles bisher`,
    tell: (said) =>
      /\bfilm\b/.test(said.plain) ? asIntent('ask-film', { liquid: liquidOf(said) }) : undefined,
  },
  {
    key: any('benutzen verwenden nehmen brauchbar gut haltbar'),
    also: `${ASKING} wieder noch einmal nochmal weiter den dieses`,
    tell: (said) => {
      const liquid = liquidOf(said);
      return whenNamed(liquid, /\bhaltbar\b/.test(said.plain) ? 'ask-keeping' : 'ask-life');
    },
  },
  { key: any('zu_kalt'), also: 'viel es das', tell: () => asIntent('ask-advice', { topic: 'too-cold' }) },
  {
    key: any('zu_warm zu_heiss'),
    also: 'viel es das',
    tell: () => asIntent('ask-advice', { topic: 'too-hot' }),
  },
  {
    key: any('abfluss ausguss klo toilette entsorgen wegschuetten wegkippen weggiessen entsorge'),
    also: `${ASKING} ${POURS} den alten verbrauchten altes einfach wohin mit hin`,
    tell: (said) => asIntent('ask-disposal', { liquid: liquidOf(said) }),
  },
  {
    key: any('auslassen weglassen ueberspringen weglasse auslasse ueberspringe'),
    also: `${ASKING} wenn passiert ich`,
    tell: (said) => {
      const liquid = liquidOf(said);
      return whenNamed(liquid, 'left-out');
    },
  },
  {
    key: any('wie_viel wieviel'),
    also: `${ASKING} ${POURS} milliliter rein kommt`,
    tell: (said) => {
      const [bottle] = bottlesOf(said);
      if (bottle !== undefined) return asIntent('ask-bottle', { bottle });
      return /\b(?:rein|hinein|dose|brauche)\b/.test(said.plain)
        ? asIntent('ask-volume', { liquid: liquidOf(said) })
        : undefined;
    },
  },
  { key: any('uhr spaet'), also: ASKING, tell: () => asIntent('ask-clock', {}) },
];
