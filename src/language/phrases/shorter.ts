/** A saying that brief speech shortens. The screen, and "more", have it as it was. */
export interface Shorter {
  readonly said: RegExp;
  /** what is said in its place; `$1` and so on stand for the groups */
  readonly instead: string;
  /** only where these words, or a saying of this form, were heard in full today */
  readonly once?: 'words' | 'form';
}

/** In the order in which they are tried; several may shorten one text. */
export const shorter: readonly Shorter[] = [
  // what to say next is learnt at once
  { said: /, (?:and|then) say [^.]+\.$/, instead: '.', once: 'words' },
  { said: / ?\b(?:Then|Or) say [^.]+\.$/, instead: '', once: 'words' },
  {
    said: / Say (?:next when ready|drain now or tank is empty when it is done)\.$/,
    instead: '',
    once: 'words',
  },
  // mixing: the amount is what can have been misheard; a hazard is told once, with the name of the substance once
  {
    said: /^[^.:]+: (?:may|burns|irritates|gives off|toxic|harmful|can|damages|eats|catches)[^.]*\. /,
    instead: '',
    once: 'words',
  },
  { said: /^([^.:]+)(: [^.]+\.(?: .+)? (?:Weigh|Measure) [\d.]+ \w+) of \1\./i, instead: '$1$2.' },
  { said: /^([\d.]+ \w+) of [^.]+ is right\./, instead: '$1, right.' },
  { said: / Stir it in\./, instead: ' Stir.', once: 'words' },
  { said: /^Put ([\d.]+ \w+) of water at (.+ degrees) in the jug\./, instead: 'Water: $1, $2.' },
  { said: / Set the scale to grams[^.]+\./, instead: '', once: 'words' },
  {
    said: /^If you have a meter or strips: what is the pH, cooled to (.+)\?/,
    instead: 'The pH, at $1?',
    once: 'form',
  },
  { said: / Otherwise say next\./, instead: '', once: 'words' },
  {
    said: /^[\d.]+ (?:litres?|millilitres) of (?:ECN-2 )?(.+) is ready\. Which bottle does it go in\?/,
    instead: '$1 is ready. Which bottle?',
  },
  { said: /^[^,.]+, batch [^,]+, is done, in (bottle \d+)\./, instead: 'Done, in $1.' },
  { said: / Put the label on now: say read me the label\./, instead: ' Label it.', once: 'words' },
  // told by the screen, and by "more"; only where a part, the pH or the bottle is asked for: what comes of skipping a bath stays
  {
    said: /(?<=^(?:[^.:]+: [^.]*\. )?(?:Weigh|Measure|The pH,|If you have|Done,).*) (?:Part \d+ of \d+|That looks like|It should be|A hydrometer|Without it|Keep it until)(?:[^.]|\.\d)+\./g,
    instead: '',
  },
  // the run: what comes next is said again when the tank is empty, its temperature not again when it is cleared
  {
    said: /^(Drain [^.]+ now\. Back to bottle \d+), through the filter\. Next: [^.]+\.$/,
    instead: '$1.',
    once: 'form',
  },
  {
    said: /^(Drain [^.]+ now\.(?: Back to bottle \d+\.)?) Next: [^.]+\.$/,
    instead: '$1',
  },
  {
    said: /^(Clear: [^.]+ to bottle \d+)\. Through the filter\. Pour in (\d+ portions) of [^.]+\.$/,
    instead: '$1, filter, $2.',
    once: 'form',
  },
  {
    said: /^(Clear: [^.]+, bottle \d+)\. Aim [\d.]+ degrees\./,
    instead: '$1.',
  },
  { said: /^(?:Tank empty|No clock runs)\. Next: /, instead: 'Next: ' },
  { said: /^Next: [^,.]+, water, /, instead: 'Next: water, ' },
  { said: /^(Agitate): \d+ inversions\./, instead: '$1.', once: 'words' },
];
