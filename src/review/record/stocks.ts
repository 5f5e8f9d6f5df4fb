/** Film stocks by the light they are balanced for; matched in the order given, on the name as the user said it. */
export const balances: readonly { name: RegExp; balance: 'daylight' | 'tungsten'; source: string }[] = [
  {
    name: /\b\d{2,3} ?t\b|tungsten|\b[57]2(?:19|13|18|17|79|74)\b/i,
    balance: 'tungsten',
    source:
      'makers write T after the speed of films balanced for 3200 K: Kodak data sheets of 5219 (500T) and 5213 (200T)',
  },
  {
    name: /\b\d{2,3} ?d\b|daylight|\b[57]2(?:07|03|05|01)\b/i,
    balance: 'daylight',
    source:
      'makers write D after the speed of films balanced for 5500 K: Kodak data sheets of 5207 (250D) and 5203 (50D)',
  },
];

export const balanceOf = (stock: string): 'daylight' | 'tungsten' | null =>
  balances.find((b) => b.name.test(stock))?.balance ?? null;

/** Light named in a note. */
export function lightNoted(notes: string): 'daylight' | 'tungsten' | null {
  if (/\b(day ?light|sun|outdoors?|outside|overcast|shade)\b/i.test(notes)) return 'daylight';
  if (/\b(tungsten|bulbs?|lamp ?light|indoors?|3200)\b/i.test(notes)) return 'tungsten';
  return null;
}

/** An 85 filter or its like turns daylight into tungsten light for the film; then the two agree. source: Kodak Wratten series */
export const filterNoted = (notes: string): boolean =>
  isNoted(notes, /\b(85|80a|conversion|orange|blue) ?b? ?filter\b|\bwratten\b/i);

/** Whether a clause of the notes has it, and does not deny it. */
const isNoted = (notes: string, what: RegExp, denied = DENIED): boolean =>
  notes.split(/[,.;]/).some((clause) => what.test(clause) && !denied.test(clause));
const DENIED = /\b(?:no|not|never|without|nothing)\b|n['’]t\b/i;

/** Years past a date given in a note, such as "expired 2009"; null when none is named. */
export function yearsExpired(notes: string, startedWallMs: number): number | null {
  const said = /(?:expired|exp\.?|dated|best before)\D{0,12}((?:19|20)\d\d)/i.exec(notes);
  if (!said) return null;
  return Math.max(0, new Date(startedWallMs).getUTCFullYear() - Number(said[1]));
}

export const keptWarmNoted = (notes: string): boolean =>
  isNoted(notes, /\b(hot|heat|warm|attic|glove ?box|car)\b/i);

/** A note that an agitation was not done. */
export const agitationForgotten = (note: string): boolean => isNoted(note, FORGOTTEN, NOT_FORGOTTEN);
const FORGOTTEN =
  /\b(?:forgot|missed|skipped|left out|did not|didn.t|no)\b.*\b(?:agitat|inver[st]|shak|turn)|\b(?:agitation|inversions?)\b.*\b(?:forgotten|missed|skipped|left out)\b/i;
const NOT_FORGOTTEN = /\b(?:not|n.t|never|no)\b.*\b(?:forg[eo]t\w*|miss\w*|skip\w*|leave out|left out)\b/i;
