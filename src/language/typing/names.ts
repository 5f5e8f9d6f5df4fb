/** Pieces that the patterns of typed ways of speaking are made of; words are as `normaliseTyped` leaves them. */

/** Every way to type a liquid → how the grammars say it. Longer names come first. */
const LIQUIDS: readonly (readonly [typed: string, said: string])[] = [
  ['backing remover', 'prebath'],
  ['rem jet remover', 'prebath'],
  ['rem jet bath', 'prebath'],
  ['rem jet', 'prebath'],
  ['pre bath', 'prebath'],
  ['prebath', 'prebath'],
  ['color developer', 'developer'],
  ['developer', 'developer'],
  ['dev', 'developer'],
  ['stop bath', 'stop bath'],
  ['stop', 'stop bath'],
  ['bleach bath', 'bleach'],
  ['bleach', 'bleach'],
  ['fixer bath', 'fixer'],
  ['fixer', 'fixer'],
  ['fix', 'fixer'],
  ['final rinse', 'final rinse'],
  ['stabilizer', 'final rinse'],
  ['rinse water', 'water'],
  ['wash water', 'water'],
  ['water', 'water'],
  ['wash', 'water'],
];

const SAID = new Map(LIQUIDS);
/** How the grammars say a typed liquid. */
export const saidLiquid = (typed: string): string => SAID.get(typed) ?? typed;

const NUMBER = [
  'zero|oh|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen',
  'seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|point|and|a|half',
].join('|');

/** Placeholders of the patterns; each but `{the}` and `{me}` captures. */
const PARTS: Record<string, string> = {
  '{liquid}': `(?:(?:the|my|this|some|our) )?(${LIQUIDS.map(([typed]) => typed).join('|')})`,
  '{bottle}': `(?:the )?(bottle (?:number )?(?:${NUMBER}))`,
  '{n}': `((?:${NUMBER})(?: (?:${NUMBER}))*)`,
  '{volume}': `((?:(?:${NUMBER}) )+(?:milliliters?|mils?|liters?))`,
  '{duration}': `((?:(?:${NUMBER}) )+(?:seconds?|minutes?)(?: and (?:(?:${NUMBER}) )+seconds?)?)`,
  '{recipe}': '((?:[a-z]+ ){0,2}(?:prebath|developer|dev|stop|bleach|fixer|fix|rinse|stabilizer)(?: bath)?)',
  '{the}': '(?:(?:the|my|this|our) )?',
  '{me}': "(?:(?:i|i've|i have|we|we've|we have) )?(?:just |now )?",
};

/** A whole line: `{liquid}` and the like stand for their patterns. */
export const line = (pattern: string): RegExp =>
  new RegExp(`^(?:${pattern.replace(/\{[a-z]+\}/g, (part) => PARTS[part] ?? part)})$`);

/** The first liquid named anywhere in the line, as the grammars say it. */
export function liquidIn(words: string): string | undefined {
  const found = new RegExp(`\\b(${LIQUIDS.map(([typed]) => typed).join('|')})\\b`).exec(words);
  return found?.[1] && saidLiquid(found[1]);
}

/** The first volume named anywhere in the line. */
export const volumeIn = (words: string): string | undefined =>
  new RegExp(`\\b${PARTS['{volume}']}`).exec(words)?.[1]?.replace(/^(?:and|a (?=\w+ ))\s*/, '');
