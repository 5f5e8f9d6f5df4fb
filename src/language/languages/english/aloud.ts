/** A saying that brief speech shortens. The screen, and "more", have it as it was. */
export interface Shorter {
  readonly said: RegExp;
  /** what is said in its place; `$1` and so on stand for the groups */
  readonly instead: string;
  /** only where these words, or what is called `key` of them, or a saying of this form, were heard in full today */
  readonly once?: 'words' | 'form';
}

/** What brief speech must know of a language to leave out what can wait. */
export interface Aloud {
  /** what labels print beside the work: in full the first time, in three words after that */
  readonly caution: RegExp;
  /** what a caution is about, and the three words for it: one that says nothing new today is known, in whatever words */
  readonly topics: readonly {
    readonly about: RegExp;
    readonly known: string;
    /** what is said beside it says this too */
    readonly unless?: RegExp;
  }[];
  /** what the hands do now, what is said next, and who is called when somebody is hurt: kept whenever there is room */
  readonly doNow: RegExp;
  /** goes before a caution beside it */
  readonly amount: RegExp;
  /** between sentences that belong together nothing is cut */
  readonly boundary: RegExp;
  /** between the hazards of one thing, the gravest first */
  readonly nextHazard: string;
  /** ends a list that was cut */
  readonly andMore: string;
  /** in the order in which they are tried; several may shorten one text */
  readonly shorter: readonly Shorter[];
}

const WITH_ACID = /\bgas with acid\b/;

export const englishAloud: Aloud = {
  caution:
    /^(?:Wear gloves|Gloves and goggles|Keep (?:acid|every acid|children|the room)|Acid on|Caustic soda on|Chlorine cleaner|Ferricyanide with|Air the room|Open a window|When mixing|No food|Local rules|The safety data sheet|Pour the acid slowly|Acid slowly into)/,
  topics: [
    { about: /\bgloves\b/i, known: 'Gloves, goggles, air.' },
    { about: /\b(?:goggles|eye protection)\b/i, known: 'Gloves, goggles, air.' },
    { about: /\b(?:aired|air the room|open a window)\b/i, known: 'Gloves, goggles, air.' },
    {
      about: /\bacid\b.*sulphite|^air the room and keep acids away/i,
      known: 'No acid near.',
      unless: WITH_ACID,
    },
    { about: /\bacid.*ferricyanide|ferricyanide with .*acid/i, known: 'No acid near.', unless: WITH_ACID },
    { about: /^acid on (?:fixer|carbonate)\b/i, known: 'No acid near.', unless: WITH_ACID },
    { about: /^chlorine cleaner\b/i, known: 'No chlorine near.' },
    { about: /^caustic soda on ammonium/i, known: 'No ammonium near.' },
    { about: /\bfood\b/i, known: '' },
    { about: /\bchildren\b/i, known: '' },
    { about: /\bacid (?:slowly )?into (?:the )?water\b/i, known: '' },
    { about: /\bsafety data sheet\b/i, known: '' },
    { about: /\blocal rules\b/i, known: '' },
  ],
  doNow:
    /^(?:(?:Then |Or )?[Ss]ay |Get the bottles ready|Weigh |Measure |Stir|Scale to grams|Set the scale |Take each out |Acid slowly into |Label |Follow the safety data sheet)/,
  amount: /^(?:Weigh|Measure) /,
  boundary: /(?<=[.!?])\s+(?!Never let them meet|Keep acids away|Keep every acid away from it)/,
  nextHazard: ', and ',
  andMore: ', and more.',
  shorter: [
    { said: /(?<=^[\d.]+ \w+) of [^.]+ is right\./, instead: ', right.' },
    {
      said: /(?<=^[\d.]+) \w+, right\. Stir it in(?:, and say dissolved when it is clear)?\./,
      instead: ', right.',
      once: 'form',
    },
    // what to say next is learnt at once
    { said: /, (?:and|then) (?<key>say [^.]+)\.$/, instead: '.', once: 'words' },
    { said: / ?\b(?:Then|Or) (?<key>say [^.]+)\.$/, instead: '', once: 'words' },
    { said: / (?:Otherwise )?(?<key>say next)(?: when ready)?\.$/i, instead: '', once: 'words' },
    {
      said: /^(.+) is in\. Say drain now or tank is empty when it is done\.$/,
      instead: '$1 in. Say drain now or tank is empty.',
    },
    { said: / Say drain now or tank is empty\.$/, instead: '', once: 'words' },
    // mixing: the amount is what can have been misheard; a hazard is told once, with the name of the substance once
    { said: /(?<=^[\d.]+ (?:litres?|millilitres) of )ECN-2 /, instead: '' },
    { said: /(?<=^[\d.]+ (?:litres?|millilitres) of [^,.]+), (?:one|\d+) parts?(?=\.)/, instead: '' },
    { said: /^The shelf is short of (?:[^.]|\.\d)+\./, instead: 'Shelf short.' },
    { said: /(?<= eyes) (?:badly|severely)\b/g, instead: '' },
    { said: /, and (?:eats metal|irritates the eyes|harmful to water life, for long)(?=\.)/, instead: '' },
    {
      said: /^[^.:]+: (?:may|burns|irritates|gives off|toxic|harmful|can|damages|eats|catches)[^.]*\. /,
      instead: '',
      once: 'words',
    },
    { said: /^([^.:]+)(: [^.]+\.(?: .+)? (?:Weigh|Measure) [\d.]+ \w+) of \1\./i, instead: '$1$2.' },
    { said: /^Put ([\d.]+ \w+) of water at (.+) degrees in the jug\./, instead: 'Water: $1, $2.' },
    {
      said: /^You need [\d.]+ \w+ of ([^,]+), too little to measure\. Put ([^;]+); the rest keeps as stock\./,
      instead: '$1: put $2.',
    },
    { said: /(?<=Measure [\d.]+ millilitres of [^.]+) solution\./, instead: '.' },
    {
      said: /(?<=: put [\d.]+ millilitres in [\d.]+) millilitres of water and take ([\d.]+) millilitres of that/,
      instead: ' of water, take $1',
    },
    {
      said: /(?<=\d)(?:\.0+|(?<=\.\d*[1-9])0+)(?= (?:grams?|millilitres|degrees)\b|, right\.)/g,
      instead: '',
    },
    { said: / Set the scale to grams[^.]+\./, instead: ' Scale to grams, boat on, zero it.' },
    { said: / Scale to grams[^.]+\./, instead: '', once: 'words' },
    {
      said: /^All is in\. Let it come to room temperature, add water up to ([^,]+), .+ say made up\.$/,
      instead: 'All in. Cool, fill to $1.',
    },
    { said: /^All in\. Cool, fill/, instead: 'Fill', once: 'form' },
    {
      said: /Pour the acid slowly into the water, never water into acid\./,
      instead: 'Acid slowly into the water, never the reverse.',
    },
    {
      said: /^If you have a meter or strips: what is the pH, cooled to (\d+) degrees\?/,
      instead: 'With a meter or strips: pH, cooled to $1?',
    },
    { said: /^With a meter or strips: pH, cooled to .+\?/, instead: 'pH?', once: 'form' },
    {
      said: /^[\d.]+ (?:litres?|millilitres) of (.+) is ready\. Which bottle does it go in\?/,
      instead: 'Which bottle for the $1?',
    },
    { said: /(?<=^Which bottle) for the [^?]+\?/, instead: '?', once: 'form' },
    { said: /^[^,.]+, batch [^,]+, is done, in (bottle \d+)\./, instead: 'In $1.' },
    // told by the screen, and by "more"; only where a part, the pH or the bottle is asked for: what comes of skipping a bath stays
    {
      said: /(?<=^(?:[^.:]+: [^.]*\. )?(?:Weigh|Measure|pH\?|With a meter|In bottle|[^.:]+: put ).*) (?:Part \d+ of \d+|That looks like|It should be|A hydrometer|Without it|Leave it out|Slow to|Keep it until|It guards|Sulphite before|Sprinkle it)(?:[^.]|\.\d)*\./g,
      instead: '',
    },
    {
      said: /^In (.+)\. Put the label on now: say read me the label\./,
      instead: 'Label $1: say read me the label.',
    },
    { said: /(?<=^Label bottle \d+): say read me the label\./, instead: '.', once: 'form' },
    { said: / Keep every acid away from it\./, instead: ' Keep acids away.' },
    { said: /^You can say now: /, instead: 'Say ' },
    // the run: what comes next is said again when the tank is empty, its temperature not again when it is cleared
    { said: /(?<=^Bring to temperature: .*\d(?:\.[1-9])?)(?:\.0)? degrees(?=[,.])/g, instead: '' },
    {
      said: /(?<=^Bring to temperature: .*?), [^,.\d]+ ([\d.]+)(?:, [^,.\d]+ \1)+(?=\.)/,
      instead: ', all others $1',
    },
    {
      said: /^At [\d.]+ the tub gets too warm for .+, .+ and [^.]+\. Take/,
      instead: 'Too warm for the others: take',
    },
    { said: /(?<=^Run started: [^.]+?) with [^.]+(?=\.)/, instead: '' },
    { said: /(?<=^Run started: .*) The tank takes (?:[^.]|\.\d)+\./, instead: '' },
    { said: /^(Tub [\d.]+\.) Noted\.$/, instead: '$1' },
    { said: /(?<=^Drain [^.]+ now\.(?: Back [^.]+\.)?) Next: [^.]+\.$/, instead: '' },
    {
      said: /^(Drain [^.]+) now\. Back to (bottle \d+)(?:, through the filter)?\.$/,
      instead: '$1. $2.',
      once: 'form',
    },
    { said: /^(Drain water) now\.$/, instead: '$1.', once: 'form' },
    { said: /\. Through the filter(?=\. Pour in \d)/, instead: ', filter', once: 'words' },
    { said: /(?<=^Clear: .+\. Pour in \d+ portions) of [^.]+\.$/, instead: '.' },
    { said: /(?<=^Clear: .+)\. Pour in \d+ portions\.$/, instead: '.', once: 'words' },
    { said: /^(Clear: [^.]+, bottle \d+)\. Aim [\d.]+ degrees\./, instead: '$1.' },
    {
      said: /^(?:Tank empty|No clock runs|Film loaded|Film is hanging)\. (?=Next: |Hang |Close )/,
      instead: '',
    },
    { said: /^Next: [^,.]+, water, /, instead: 'Next: water, ' },
    { said: /(?<=\bNext: )the /, instead: '' },
    { said: /(?<=^Next: [^,.]+, [\d.]+) degrees\.$/, instead: '.' },
    { said: /(?<=^Next: [^,.]+), [\d.]+\.$/, instead: '.', once: 'words' },
    {
      said: /^I take the tub to warm to [\d.]+; tell me what it is set to\./,
      instead: 'What is the tub set to?',
    },
    { said: /^(.+) is in: ([^.]+)\. Agitate for [^.]+\.$/, instead: '$1 in: $2. Agitate.' },
    { said: /^(Agitate): \d+ inversions\./, instead: '$1.', once: 'words' },
    { said: / to drain\.$/, instead: '.', once: 'words' },
    { said: /^Tank empty\? Then (.+) in now\b/, instead: 'Empty? $1 in' },
  ],
};
