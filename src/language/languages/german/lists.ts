import type { Exposure } from '../../../chemistry/safety/first-aid.js';

/** Words in any order, as one pattern: "spritz*" for all that begin so, "*spritzt" for all that end so, "mir_ist" for two beside each other. */
export const any = (...lists: readonly string[]): RegExp => new RegExp(`\\b(?:${either(...lists)})\\b`);
const either = (...lists: readonly string[]): string =>
  lists
    .join(' ')
    .split(' ')
    .map((word) => word.replaceAll('*', '[a-z]*').replaceAll('_', ' '))
    .join('|');

/** What is told where every row of words has one in the line, in whatever order. */
export interface Row<T> {
  is: T;
  all: readonly RegExp[];
  not?: RegExp;
}
export const rowsIn = <T>(rows: readonly Row<T>[], line: string): T[] =>
  rows.filter(({ all, not }) => all.every((of) => of.test(line)) && !not?.test(line)).map(({ is }) => is);

// who

const ANIMALS =
  'hund hunde hundes huendin katze katzen kater welpe kaetzchen hamster kaninchen hase vogel papagei wellensittich meerschweinchen haustier';
const CHILDREN =
  'kind kinder kindern sohn soehne tochter toechter baby kleinkind enkel enkelin enkelkind neffe nichte junge jungs maedchen kleine kleiner kleinen zwillinge';
const PEOPLE = `${CHILDREN} mann frau freund freundin bruder schwester mutter vater mama papa oma opa kollege kollegin nachbar nachbarin mitbewohner mitbewohnerin partner partnerin gast`;
export const OF_THE_SPEAKER = any('ich mich mir mein meine meinen meinem meiner meins');
export const OF_ANOTHER = any(
  PEOPLE,
  ANIMALS,
  'er sie ihm ihn ihr ihre ihren ihrem sein seine seinen seinem seiner jemand jemandem jemanden',
);
export const OF_ALL = any('niemand niemandem niemanden keiner keinem alle allen wir uns beide beiden');
const OF_SOMEBODY = new RegExp(`${OF_THE_SPEAKER.source}|${OF_ANOTHER.source}`);

// how it is said

/** Denied, and what is denied of who is in need. */
export const DENIES =
  /\b(?:nicht|nichts|niemand\w*|kein\w*|nie|niemals|beinahe|fast|um ein haar|ohne)\b(?! (?:aufhoer\w*|auf|weg|mehr (?:auf|sehen)|raus|ansprechbar)\b)/;
export const SUPPOSES =
  /^(?:(?:und|aber|also|hm|sag mal) )*(?:wenn|falls|angenommen|was (?:passiert|waere|ist wenn|mache ich wenn|tue ich wenn|tun wenn|wenn)|(?:darf|kann|koennte|soll|sollte|muss|duerfte) (?:ich|man|wir|er|sie|das|die|der)|ist (?:es|das) (?:schlimm|gefaehrlich|giftig|okay|ok|sicher)|wie (?:gefaehrlich|giftig|schlimm)|womit|wird|macht es)\b|\b(?:wenn|falls)\b(?! ich (?:blinzel\w*|schluck\w*|atme\w*|huste\w*|sie|es|dran|draufdrueck\w*)\b)/;
/** What only seems so. */
export const DOUBTS = any(
  'glaube glaub vielleicht vermutlich wahrscheinlich eventuell angeblich sagt meint vermute koennte',
);
export const ALONE_MEANS_NOTHING = new RegExp(
  `^(?:${either('oh ach ah aua autsch au mist scheisse verdammt verflucht ups uups hoppla nein nee ne quatsch falsch bloedsinn vertippt ja okay ok so also moin na moment warte halt stopp hilfe sorry tut_mir_leid oh_gott mein_gott gott himmel naja nun gut bitte danke schnell shit fuck leider kacke ach_so ach_du kurz hey tja menno oje ohje')}| )+$`,
);

/** What a sentence says as well without: none of them denies, doubts or is still to come. */
export const IDLE: ReadonlySet<string> = new Set(
  'jetzt nun mal gerade grade grad eben endlich doch halt_so bitte also so ok okay dann ah oh ups uups mist scheisse verdammt na ach aeh aehm hm eigentlich uebrigens gar danke hey tankside schnell alles_klar gut alles_gut kurz ganz komplett schoen wohl einfach'.split(
    ' ',
  ),
);

/** What a slip of the finger is mended to. */
export const MENDED_TO =
  'entwickler stoppbad bleichbad bleiche fixierbad fixierer schlussbad vorbad wasserbad flasche eingelegt eingelegt zurueck rueckgaengig verschuettet getrunken geschluckt verschluckt aufgewischt temperatur thermometer abgiessen eingiessen messbecher spritzer gespritzt chlorreiniger steckdose verletzt boden milliliter daempfe eingeatmet schwindlig notruf'.split(
    ' ',
  );
/** Words of the trade that are no slips of those. */
export const NO_SLIPS = new Set(
  'falsche falschen falsches falscher entwickelt entwickeln entwickle entwicklung bleichen bleicht gebleicht bleich fixieren fixiert fixier fixierung gestoppt stoppen waessern flaschen weitere weiteren weitem heiter gespritz verletze boeden verschuetten trinken getrunkene mittel leiter leitern milliliters bleibe bleibt weite eingiesse abgiesse spritzt spritzen'.split(
    ' ',
  ),
);

// parts and verbs

const EYES =
  'auge augen auges aug augapfel augenlid lid lider kontaktlinse kontaktlinsen unter_der_brille hinter_der_brille unter_die_brille hinter_die_brille';
const SKIN =
  'hand haende haenden finger fingern fingernagel daumen haut arm arme armen unterarm handgelenk ellbogen ellenbogen bein beine oberschenkel fuss fuesse fuessen zeh zehen knie hals nacken stirn wange kinn ohr haare haaren bauch schulter';
const CLOTHES =
  'hose hemd shirt tshirt pulli pullover aermel socke socken schuh schuhe jeans kleidung klamotten kleid jacke kittel schuerze';
/** In it or on it something got. */
const WETS =
  '*gespritzt spritzt spritzte spritzer spritz *gelaufen laeuft lief *gekommen *bekommen *gekriegt *getropft tropft tropfen *geflogen flog *gegossen *gekippt *geschuettet *verschuettet *gekleckert *gesprueht drauf_bekommen voll nass getraenkt durchtraenkt abgekriegt abbekommen *geraten *geschwappt schwappte gelangt platschte';
const FEELS =
  'brennt brennen brannte beisst beissen juckt jucken schmerz schmerzen schmerzt tut_weh tun_weh tut_mir_weh tut_so_weh tut_hoellisch_weh weh traent traenen rot rote geroetet geschwollen schwillt wund taub kribbelt kribbeln sticht gereizt blasen';
export const HURTS = any(FEELS);
/** What stands in a hand is held, and a hand may be what did it. */
export const HELD = new RegExp(
  `\\b(?:in|bei|von|zur|aus|an) (?:der |die |meiner |meine |seiner )?(?:rechten |linken )?hand\\b(?= *$| (?:halte|und|hab|gehalten|genommen)\\b)|\\b(?:zur|aus der|von) hand\\b|\\bmit (?:dem|der|den|meine[mr]?|seine[mr]?|ihre[mr]?|einem|nassen|blossen)(?: blossen| nackten| nassen)? (?:${either(SKIN, CLOTHES)})\\b|\\bhand ?voll\\b`,
  'g',
);

const LIES_THERE =
  'bewusstlos ohnmaechtig zusammengebrochen bricht_zusammen weggetreten krampft krampfanfall reagiert_nicht nicht_ansprechbar wacht_nicht_auf ohnmacht kollabiert atmet_nicht keinen_puls atmet_kaum blau_angelaufen lippen_blau blaue_lippen lippen_sind_blau';
const NO_BREATH =
  'keine_luft kaum_luft kaum_noch_luft schlecht_luft schwer_luft keine_luft_mehr luftnot atemnot erstick* kann_nicht_atmen nicht_mehr_atmen kann_kaum_atmen bleibt_die_luft_weg schwer_atmen nicht_atmen';
const DRINKS =
  'getrunken trinkt trank geschluckt verschluckt schluckt schluckte genippt gegessen isst gelutscht geleckt abgeleckt geschlabbert gesoffen probiert gekostet angenommen_getrunken nuckelt';
const MEALS =
  'kaffee tee bier wein saft milch cola limo limonade fruehstueck mittag mittagessen abendessen brot kuchen pizza suppe apfel';
const FALSE_GLASS =
  /\b(?:aus (?:dem|der) falschen|falsche[ns]? (?:glas|becher|tasse|flasche)|statt (?:wasser|tee|kaffee|saft))\b/;
const THINGS_CUT = 'film filmstreifen streifen papier negativ negative brot kabel';

/** How somebody is hurt. `matter` is said of the rows below by a bath or a chemical in the line. */
export const NEEDS_HELP: readonly Row<Exposure>[] = [
  { is: 'breathless', all: [any(NO_BREATH)], not: new RegExp(`${OF_ANOTHER.source}|\\b(?:flasche|dose)\\b`) },
  {
    is: 'breathless',
    all: [any(LIES_THERE, 'kippe_um kippe_gleich_um werde_ohnmaechtig gleich_ohnmaechtig'), any('ich mir')],
    not: OF_ANOTHER,
  },
  { is: 'collapsed', all: [any(NO_BREATH, LIES_THERE), OF_ANOTHER] },
  {
    is: 'collapsed',
    all: [
      any('umgekippt umgefallen liegt_da liegt_auf_dem_boden zittert_am_ganzen'),
      any(PEOPLE, 'er sie jemand'),
    ],
    not: any('flasche becher dose entwickler bleichbad fixierbad stoppbad bleiche hat_die hat_den hat_das'),
  },
  {
    is: 'eye',
    all: [any(EYES), any('nicht_auf nichts_mehr nicht_mehr_auf nicht_oeffnen')],
    not: any('brennt_nichts'),
  },
];
/** Told without a bath. */
export const HURT: readonly Row<Exposure>[] = [
  {
    is: 'alight',
    all: [any(CLOTHES, 'haare bart'), any('brennt brennen flammen feuer angebrannt kokelt')],
    not: any('haut auge'),
  },
  { is: 'alight', all: [any('in_flammen brennt_lichterloh feuer_gefangen'), any(PEOPLE, 'ich er mein_arm')] },
  {
    is: 'shocked',
    all: [
      any(
        'stromschlag stromstoss elektrischen_schlag elektroschock stromschlaege eine_gewischt_bekommen eine_gewischt_gekriegt einen_gewischt_bekommen eine_geschossen_bekommen schlag_bekommen schlag_gekriegt einen_schlag_vom strom_abbekommen',
      ),
    ],
  },
  {
    is: 'burnt',
    all: [
      any('verbrueht verbruehe verbruehung verbrannt verbrenne verbrennung'),
      any('mich sich mir ich er sie', SKIN),
    ],
    not: any('saeure lauge chemisch', THINGS_CUT),
  },
  {
    is: 'burnt',
    all: [
      any('heisses_wasser kochendes_wasser heissem_wasser kochwasser dampf'),
      any(SKIN, 'gesicht'),
      any(WETS),
    ],
  },
  {
    is: 'animal',
    all: [
      any(ANIMALS),
      any(
        DRINKS,
        WETS,
        FEELS,
        'gefressen frisst schlabbert reingetreten reingelaufen durchgelaufen getappt pfoten pfote fell erbricht kotzt torkelt taumelt zittert speichelt',
      ),
    ],
  },
  {
    is: 'eye',
    all: [
      any(EYES),
      any(FEELS, WETS, 'drin sehe_nichts sehe_verschwommen verschwommen nicht_auf nichts_mehr_sehen'),
    ],
  },
  { is: 'eye', all: [any('sehe sehen'), any('verschwommen doppelt')], not: any('film bild negativ') },
  { is: 'eye', all: [any(EYES), any('aua autsch hilfe')] },
  { is: 'face', all: [any('gesicht gesichts'), any(FEELS, WETS)] },
  { is: 'swallowed', all: [any(DRINKS), FALSE_GLASS] },
  {
    is: 'swallowed',
    all: [any('verschluckt geschluckt schluckt im_mund in_den_mund auf_der_zunge schluck_genommen')],
    not: any(MEALS, 'spucke'),
  },
  {
    is: 'swallowed',
    all: [
      any(DRINKS),
      OF_SOMEBODY,
      any(
        'davon daraus daran was etwas flasche becher messbecher zeug chemie chemikalien chemikalie pulver loesung',
      ),
    ],
    not: any(MEALS),
  },
  {
    is: 'breathed',
    all: [
      any(
        'eingeatmet atme_ein inhaliert eingeatmed schwindlig schwindelig schwindel schwummrig benommen duselig',
      ),
    ],
  },
  {
    is: 'breathed',
    all: [
      any('uebel schlecht kopfschmerzen kopfweh brechen uebergeben kotzen kotzuebel'),
      any('mir ihm ihr ich er sie', PEOPLE),
    ],
  },
  {
    is: 'breathed',
    all: [
      any('huste husten hustet hustenreiz kratzt reizt beisst brennt sticht'),
      any('ich er sie muss hals nase lunge rachen atemwege brust beim_atmen'),
    ],
    not: any('film'),
  },
  {
    is: 'wound',
    all: [
      any('geschnitten schnittwunde schnitt blutet blute blut blutende gestochen aufgeschlitzt'),
      any('mich sich mir mein meine ich er sie', SKIN, PEOPLE),
    ],
    not: any(THINGS_CUT, 'blutrot bluttest'),
  },
  { is: 'skin', all: [any(SKIN), any(FEELS)], not: any('licht rot_beleuchtet') },
  {
    is: 'skin',
    all: [any('veraetzt veraetzung veraetzungen aetzt ausschlag hautausschlag quaddeln ekzem'), OF_SOMEBODY],
  },
  { is: 'skin', all: [/^(?:(?:hilfe|aua|hab|habe|ich) )*(?:verbrannt und )?veraetzt$/] },
  { is: 'skin', all: [any(SKIN), any('veraetzt veraetze saeure lauge')] },
];
/** What is no bath and is none the better. */
export const STUFF = any('pulver staub saeure lauge natronlauge zeug chemie chemikalie chemikalien spritzer');
/** Told with a bath or a chemical. */
export const HURT_BY: readonly Row<Exposure>[] = [
  { is: 'animal', all: [any(ANIMALS), any('in durch hat ist an')] },
  { is: 'eye', all: [any(EYES)] },
  { is: 'face', all: [any('gesicht')] },
  { is: 'swallowed', all: [any(DRINKS, 'mund zunge lippe lippen schluck')] },
  { is: 'breathed', all: [any('eingeatmet inhaliert daempfe_abbekommen in_die_nase in_der_nase nase')] },
  { is: 'skin', all: [any(SKIN, CLOTHES), any('auf an am ueber in im ins unter aufm', WETS, FEELS)] },
  {
    is: 'skin',
    all: [
      any(
        'angefasst beruehrt reingefasst reingegriffen hineingefasst hineingegriffen gefasst gegriffen gelangt bespritzt',
      ),
    ],
    not: any('handschuhen handschuhe'),
  },
  { is: 'skin', all: [any('mich mir'), any('bespritzt uebergossen vollgespritzt ueber_mich')] },
];
/** What a wound, an animal or a current is of, nothing else is told of it. */
export const COVERS: Readonly<Partial<Record<Exposure, readonly Exposure[]>>> = {
  animal: ['eye', 'face', 'swallowed', 'breathed', 'wound', 'skin'],
  collapsed: ['breathed', 'swallowed'],
  breathless: ['breathed'],
  face: ['eye', 'skin'],
  wound: ['skin'],
  alight: ['skin', 'face', 'breathed'],
  shocked: ['skin', 'breathed'],
  burnt: ['skin', 'wound'],
};

// of whoever is hurt

type About = 'rinsing' | 'over' | 'still' | 'call' | 'lens' | 'unsure';
const CALLS =
  'notruf giftnotruf giftnotrufzentrale giftzentrale notarzt arzt aerztin doktor krankenwagen rettungswagen krankenhaus rettung notaufnahme augenarzt';
export const WHOM_TO_CALL = new RegExp(
  `${any(CALLS).source}|\\b(?:wen|wo) (?:soll|muss|kann|rufe?) (?:ich|wir)\\b.* ?(?:an|anrufen|rufen)?\\b|\\bwen anrufen\\b|\\b(?:welche|was fuer eine|wie ist die) (?:notruf|telefon)?nummer\\b`,
);
const OF_THE_WORK = any(
  'film dose tank bad baeder entwickler bleichbad bleiche fixierbad fixierer stoppbad vorbad schlussbad flasche wasser thermometer waage ansatz pulver temperatur deckel spirale',
);
/** Said while somebody is hurt. The first row counts. */
export const OF_THE_HURT: readonly Row<About>[] = [
  {
    is: 'lens',
    all: [
      any('linse linsen kontaktlinse kontaktlinsen'),
      any('nicht_raus geht_nicht klemmt klebt fest sitzt_fest krieg bekomme nicht_heraus'),
    ],
    not: any('kamera objektiv'),
  },
  {
    is: 'still',
    all: [
      any('immer_noch noch schlimmer staerker nicht_besser nicht_gut nicht_weg nicht_auf geht_nicht_weg'),
      any(FEELS, 'schlimmer schlecht schlechter besser uebel schwindlig schwindelig sehe gut weg auf'),
    ],
    not: any('wie_lange brennt_nicht_mehr tut_nicht_mehr'),
  },
  { is: 'still', all: [any('sehe sehen'), any('verschwommen nichts nicht kaum unscharf')] },
  {
    is: 'rinsing',
    all: [
      any(
        'gespuelt ausgespuelt abgespuelt gewaschen abgewaschen ausgewaschen abgeduscht unterm_wasserhahn spuele spuelen spuel weiterspuelen',
      ),
    ],
    not: any('film dose flasche'),
  },
  {
    is: 'unsure',
    all: [
      any(
        'halb_so_schlimm nicht_so_schlimm nicht_schlimm nur_ein_tropfen nur_ein_spritzer war_nichts ist_nichts nichts_passiert geht_schon wird_schon nur_spass scherz',
      ),
    ],
  },
  {
    is: 'unsure',
    all: [
      any('glaube glaub denke vielleicht wahrscheinlich hoffe meint sagt'),
      any('gut besser vorbei okay ok weg wieder'),
    ],
  },
  {
    is: 'over',
    all: [
      any(
        'brennt_nicht_mehr brennt_nichts_mehr tut_nicht_mehr_weh juckt_nicht_mehr tut_nichts_mehr_weh keine_schmerzen schmerz_ist_weg schmerzen_sind_weg',
      ),
      /./,
    ],
  },
  {
    is: 'over',
    all: [
      any(
        'geht_wieder geht_es_wieder gehts_wieder wieder_gut alles_gut besser vorbei fehlalarm falscher_alarm alles_okay alles_ok alles_in_ordnung geht_gut geht_es_gut gehts_gut gehts_besser okay_wieder wieder_okay wieder_ok wieder_fit wieder_wach wieder_da_und_wach atmet_wieder',
      ),
    ],
    not: OF_THE_WORK,
  },
];
export const NOBODY_HURT =
  /\b(?:niemand\w*|keine[rm]?) (?:ist |hat |wurde |sonst |ist etwas |sich )*(?:verletzt|was abbekommen|etwas abbekommen|was passiert|etwas passiert|weh getan)\b|\bniemandem (?:ist )?(?:etwas |was )?passiert\b/;
/** It came near somebody, and no nearer. */
export const MISSED = new RegExp(
  `\\b(?:nichts|niemand\\w*|keine[rmn]?|nicht|fast|beinahe|um ein haar)\\b.*\\b(?:${either(EYES, SKIN, 'gesicht mund', DRINKS, 'abbekommen eingeatmet')})\\b|\\b(?:${either(EYES, SKIN, 'gesicht mund')})\\b.*\\b(?:nichts|nicht|verfehlt)\\b`,
);

// rooms

type Room = 'out' | 'left' | 'asks' | 'back' | 'safe';
export const ROOM: readonly Row<Room>[] = [
  {
    is: 'asks',
    all: [
      any('darf kann koennen duerfen wann'),
      any(
        'wieder_rein wieder_hinein zurueck_rein zurueck_in_den wieder_reingehen reingehen wieder_zurueck rein_gehen hineingehen',
      ),
    ],
  },
  {
    is: 'out',
    all: [
      any(
        'alle_raus alle_hinaus raus_hier alles_raus_hier raus_aus_dem_zimmer raus_aus_dem_raum sofort_raus',
      ),
      any('alle hier sofort zimmer raum schnell kinder'),
    ],
    not: any('film entwickler bleiche bleichbad fixierer fixierbad luft wasser damit'),
  },
  {
    is: 'left',
    all: [
      any('draussen rausgegangen rausgerannt vor_der_tuer im_flur im_garten auf_dem_balkon im_treppenhaus'),
      any('ich bin wir sind alle'),
    ],
    not: any('film entwickler bleiche flasche'),
  },
  {
    is: 'safe',
    all: [
      any(
        'gelueftet durchgelueftet luft_ist_rein luft_ist_klar luft_ist_wieder luft_ist_gut luft_rein alles_sicher entwarnung',
      ),
    ],
    not: DENIES,
  },
  {
    is: 'back',
    all: [
      any(
        'riecht_nicht_mehr stinkt_nicht_mehr riecht_nichts_mehr geruch_ist_weg gestank_ist_weg qualm_ist_weg rauch_ist_weg rieche_nichts_mehr',
      ),
    ],
  },
];
/** Said while everybody is out. */
export const WAY_BACK =
  /^(?:(?:so|okay|ok|bin|ich|wir|sind|jetzt|alle|da) )*(?:wieder (?:da|drin|rein|zurueck|hier)|zurueck|zurueck (?:am|an der|in der|im) \w+)$/;

// alarms and advice, by their topic

const BURNING =
  'feuer flammen flamme brand brennt_es es_brennt lichterloh in_flammen angebrannt kokelt schmort';
const PLUGS =
  'steckdose steckdosen stecker mehrfachsteckdose steckdosenleiste steckerleiste verlaengerungskabel verlaengerung kabel netzteil ladegeraet trafo sicherungskasten lichtschalter lampe foen strom stromkabel leitung powerbank akku';
const HEATERS =
  'heizung heizer heizstab tauchsieder wasserkocher umwaelzpumpe pumpe zirkulator thermostat sousvide sous_vide ruehrer herd kochplatte';
const WATERY =
  'wasser wasserbad nass nasse nassen pfuetze wanne bad ueberschwemmt entwickler bleichbad bleiche fixierbad fixierer stoppbad vorbad spuele waschbecken ausgelaufen verschuettet gespritzt gelaufen gefallen getropft tropft reingefallen';
const SMELL = any('riecht rieche stinkt stinken gestank geruch duftet mieft mief muffelt');
const SMELLS_NO_MORE = any('nicht nichts kein keine normal immer_so gestern essen mittagessen kuechen');
export const ALARMS: readonly Row<string>[] = [
  {
    is: 'water-on-fire',
    all: [
      any(BURNING, 'brennt brennend* funken'),
      any('wasser loeschen'),
      any('soll darf kann muss mit giess* gegossen schuett* geschuettet kipp* draufgekippt'),
    ],
    not: any('haut auge hand haende hals tee', 'nicht_mehr'),
  },
  {
    is: 'fire',
    all: [
      any(
        'steht_in_flammen feuer_gefangen in_brand es_ist_feuer da_ist_feuer feuer_ausgebrochen fangt_feuer faengt_feuer rauchmelder feueralarm flammen',
      ),
    ],
    not: any('film_ueber lied'),
  },
  {
    is: 'fire',
    all: [
      /^(?:(?:hilfe|oh gott|oh nein|schnell|achtung) )*(?:feuer|es brennt hier|hier brennt es|hier brennts|die kueche brennt|es brennt lichterloh)(?: feuer| hilfe)*$/,
    ],
  },
  {
    is: 'fire',
    all: [
      any(
        'handtuch lappen tuch papier vorhang kueche tisch stecker steckdose heizung heizer kabel muelleimer eimer haus wohnung regal',
      ),
      any('brennt brennen kokelt'),
    ],
    not: any('licht lampe'),
  },
  {
    is: 'reach-in',
    all: [
      any('darf kann soll muss'),
      any(
        'reingreifen reinfassen hineingreifen hineinfassen rausholen herausholen rausfischen anfassen greifen fassen rausziehen',
      ),
      any(PLUGS, HEATERS),
    ],
  },
  {
    is: 'electric',
    all: [any(PLUGS), any(WATERY)],
    not: any('fern weg_von ziehen aus_dem_wasser trocken nicht'),
  },
  {
    is: 'electric',
    all: [
      any(
        'funken funkt sprueht_funken kurzschluss sicherung_fliegt sicherung_rausgeflogen sicherung_ist_raus sicherung_ist_geflogen fi_ist_geflogen fi_fliegt fi_schalter unter_strom blanke_draehte blankes_kabel wasser_kribbelt knallt_in_der',
      ),
    ],
    not: any('nicht kein keine'),
  },
  {
    is: 'electric',
    all: [
      any(PLUGS, HEATERS),
      any(
        'funken qualmt raucht schmort knistert kribbelt brummt knallt geknallt verschmort angeschmort gesprungen geplatzt',
      ),
    ],
    not: any('kein keine'),
  },
  {
    is: 'electric',
    all: [
      SMELL,
      any(
        'verschmort verschmortem plastik kunststoff kabel gummi elektrik schmorend verbrannte_kabel verbranntem_plastik',
      ),
    ],
  },
  {
    is: 'electric',
    all: [
      any('heizer heizstab tauchsieder radio handy laptop foen'),
      any('ins in'),
      any('wasser wasserbad wanne'),
      any('gefallen gerutscht reingefallen gekippt'),
    ],
    not: any('gestellt gehaengt'),
  },
];
export const TOPICS: readonly Row<string>[] = [
  {
    is: 'light-got-in',
    all: [any('licht'), any('an angegangen'), any('war ging kam ist')],
    not: any('darf kann nicht kein keine fixiert soll wieder'),
  },
  { is: 'light-on', all: [any('licht'), any('darf kann wann'), any('an anmachen einschalten aufmachen')] },
  { is: 'smell-almonds', all: [SMELL, any('bittermandel* mandel* marzipan amaretto')], not: SMELLS_NO_MORE },
  {
    is: 'smell-eggs',
    all: [SMELL, any('ei eier eiern faul faulen stinkbombe schwefelwasserstoff')],
    not: SMELLS_NO_MORE,
  },
  {
    is: 'smell-chlorine',
    all: [
      SMELL,
      any(
        'chlor schwimmbad hallenbad schwefel* streichhoelz* streichholz* brom stechend beissend aetzend boeller feuerwerk',
      ),
    ],
    not: SMELLS_NO_MORE,
  },
  { is: 'smoke', all: [SMELL, any('gas rauch qualm verbrannt')], not: SMELLS_NO_MORE },
  { is: 'odd-smell', all: [SMELL], not: any('nicht nichts kein keine normal immer_so gestern essen kaffee') },
  {
    is: 'smoke',
    all: [
      any(
        'qualmt raucht dampft rauch qualm daempfe nebel gaswolke wolke kocht_ueber wird_heiss ist_heiss_geworden wird_immer_heisser gelbes_gas gelber_rauch weisser_rauch',
      ),
    ],
    not: any('nicht kein keine kaffee tee wasserkocher darf', 'nicht_mehr'),
  },
  {
    is: 'foaming',
    all: [any('schaeumt zischt sprudelt blubbert blaeht ueberschaeumt bubbelt gasblasen')],
    not: any('nicht kein keine darf'),
  },
  { is: 'mercury', all: [any('quecksilber quecksilberthermometer')], not: any('kein keine nicht ohne') },
  { is: 'no-mercury', all: [any('kein_quecksilber ohne_quecksilber alkoholthermometer')] },
  {
    is: 'thermometer-broken',
    all: [
      any('thermometer'),
      any('zerbrochen kaputt zersprungen gebrochen zerdeppert runtergefallen geplatzt'),
    ],
    not: any('flasche bad'),
  },
  {
    is: 'children',
    all: [
      any(CHILDREN),
      any(
        'spielt spielen spielt_mit am an bei hat_die haben_die aufgemacht geoeffnet in_der_hand dran ran nascht',
      ),
      any('chemikalien chemie flasche flaschen pulver entwickler bleichbad bleiche fixierer'),
    ],
    not: DENIES,
  },
  {
    is: 'neutralise',
    all: [
      any('neutralisier* natron soda backpulver kalk'),
      any('drauf darauf drueber neutralisier* verschuettet* saeure lauge pfuetze'),
    ],
  },
  {
    is: 'water-only',
    all: [
      any('darf kann soll hilft womit'),
      any(SKIN, EYES, 'gesicht verbrennung veraetzung wunde'),
      any('essig salbe creme natron milch seife augentropfen oel zahnpasta alkohol'),
    ],
  },
  {
    is: 'waste-together',
    all: [
      any('darf kann soll'),
      any('alles alle abfall abfaelle verbrauchte reste altes alten'),
      any('zusammen in_einen in_einem in_einer ein_kanister einen_kanister'),
    ],
  },
  { is: 'heating', all: [any('darf kann soll geht'), any('mikrowelle herd kochplatte topf aufkochen')] },
  {
    is: 'taste',
    all: [
      any('darf kann soll'),
      any('riechen schnuppern schmecken probieren kosten'),
      any('ob um daran dran welches was'),
    ],
  },
  {
    is: 'containers',
    all: [
      any('darf kann'),
      any(
        'metall* blech* alu* dose_aus edelstahl* getraenkeflasche wasserflasche colaflasche marmeladenglas trinkflasche',
      ),
      any('aufbewahren lagern fuellen abfuellen tun giessen'),
    ],
  },
  {
    is: 'powder-spilled',
    all: [any('pulver staub salz kristalle'), any('verschuettet verstreut runtergefallen daneben ueberall')],
  },
  {
    is: 'light-got-in',
    all: [
      any('licht'),
      any(
        'dran drauf an drangekommen war_an reingekommen hineingekommen eingefallen angemacht angegangen reingefallen rangekommen',
      ),
      any('film dose deckel spirale dunkel* bekommen gekommen angemacht angegangen'),
    ],
    not: any('darf kann nicht kein keine fixiert soll'),
  },
  {
    is: 'light-got-in',
    all: [
      any('deckel'),
      any('ab_gegangen abgegangen aufgegangen offen abgesprungen weggeflogen runtergefallen auf'),
    ],
    not: any('nicht darf kann flasche zu wann'),
  },
  {
    is: 'tank-dropped',
    all: [
      any('dose tank'),
      any('runtergefallen heruntergefallen fallen_gelassen fallen_lassen hingefallen gefallen'),
    ],
  },
  {
    is: 'leaking',
    all: [any('dose tank deckel'), any('leckt undicht tropft leck rinnt')],
    not: any('nicht milliliters'),
  },
  {
    is: 'bottle-broken',
    all: [any('flasche glas glasflasche'), any('zerbrochen zersprungen kaputt zerschellt scherben geplatzt')],
  },
  {
    is: 'labels-lost',
    all: [
      any('etikett etiketten beschriftung aufkleber'),
      any('abgegangen ab verwischt unleserlich weg abgefallen verloren'),
    ],
  },
  {
    is: 'film-jammed',
    all: [any('film'), any('klemmt verklemmt haengt_fest geht_nicht_auf_die verhakt hakt geht_nicht_in_die')],
  },
];

// spills

export const SPILLED = any(
  'leckt undicht verschuett* verkleckert gekleckert vergossen ausgelaufen laeuft_aus *umgekippt umgefallen umgestossen umgeschmissen umgeworfen *runtergefallen heruntergefallen ausgekippt danebengegangen daneben danebengegossen danebengelaufen uebergelaufen ueberlaeuft uebergeschwappt geschwappt verspritzt getropft tropft rausgelaufen rausgetropft rausgeschwappt verloren verschuettet pfuetze lache ausgeschuettet geplatzt zerbrochen zerschlagen lief_aus',
);
export const LEAKS = any('tropft leckt undicht laeuft_aus rinnt ausgelaufen');
export const WIPED = any(
  'aufgewischt weggewischt abgewischt gewischt geputzt aufgeputzt weggeputzt abgeputzt sauber_gemacht saubergemacht weggemacht aufgenommen aufgesaugt gereinigt geschrubbt weggespuelt aufgetupft aufgemacht_mit aufgewaschen trockengelegt',
);
export const WIPES_AHEAD = any(
  'aufwischen wegwischen abwischen wischen putzen saubermachen sauber_machen reinigen wegmachen aufnehmen wegputzen sauber',
);
export const ON_IT = any(
  'drauf darauf drueber darueber draufgekippt draufgeschuettet draufgetan draufgesprueht draufgegossen draufgemacht drueber_gekippt drueber_geschuettet draufgespritzt',
);
export const NOT_OF_A_SPILL = any('dose tank spirale deckel film linse flasche trichter thermometer');
/** What takes up a spill and adds nothing to it. */
export const WIPES = any(
  'wasser tuch tuechern tuechern lappen papier kuechenrolle kuechenpapier zewa schwamm handtuch handtuechern zeitung zeitungspapier mopp wischmopp feudel klopapier toilettenpapier taschentuch taschentuechern saugpapier handschuhen kehrschaufel sand katzenstreu eimer',
);
export const SHARES: readonly (readonly [RegExp, number])[] = [
  [any('die_haelfte haelfte halb halbe'), 0.5],
  [any('drittel ein_drittel'), 1 / 3],
  [any('viertel ein_viertel'), 0.25],
];
export const SOME = any('etwas bisschen wenig tropfen paar_tropfen spritzer schluck schuss was einiges teil');
export const GOES_IN = any(
  '*gekippt *gegossen *geschuettet *gekommen *geraten *gelaufen *getropft *gespritzt *gefallen *getan *gegeben *gemischt *geschwappt ist_in ist_im ist_ins kam lief tropfte drin reingeraten gefuellt *gefuellt',
);
export const MIXES = any(
  'zusammen mischen vermischen mischt zusammenschuetten zusammengiessen zusammenkippen kommt giessen schuetten kippen trifft zu in ins und mit',
);
