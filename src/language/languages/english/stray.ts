import type { Situation } from '../../../process/desk.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { THING } from './lists.js';
import { isBath, matterIn, thing } from './matter.js';
import { made, match } from './sentence.js';

/**
 * Something is where it does not belong: "there is vinegar in the jug", "a bit of bleach got into the tank", "I think I
 * poured bathroom cleaner into the fixer". It is told, however unsure: what may be in a bath counts against it until it is
 * taken back. What is told so of a jug in a mix is read by `ofTheJug` before, and after all that may be meant by a part of
 * the recipe once more, for what is added without a word of where.
 */
export function gotAstray(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
  /** `bare`: without a word of where, after all that may be meant by a part of a recipe */
  how: 'told' | 'bare',
): Interpretation | undefined {
  const { line, slots } = matterIn(plain.replace(LEAD, ''), grammars);
  const shared = how === 'told' ? SHARED.exec(line)?.groups : undefined;
  const [a, b] = [shared?.a, shared?.b].map((t) => (t === undefined ? undefined : thing(t, slots)?.id));
  if (a !== undefined && b !== undefined && a !== b && isBath(a) && isBath(b)) {
    const both = made('contaminated', { liquid: a, intoLiquid: b });
    return both && { kind: 'understood', intent: both, words: plain, situation: situations[0] ?? 'anytime' };
  }
  const said = match(line, ...(how === 'told' ? TOLD : BARE));
  const what = said?.what === undefined ? undefined : thing(said.what, slots);
  if (!said?.what || what?.id === undefined || what.id === 'water') return undefined;
  // what is weighed is a reading
  if (what.massG !== undefined && said.did) return undefined;
  const mixing = situations.includes('mixing');
  const where = said.where ?? (mixing ? 'jug' : undefined);
  if (where === undefined) return undefined;
  const into = intoOf(where, said.making !== undefined, mixing);
  if (into === undefined) return undefined;
  // a bath that a hand has poured, or that stands somewhere, is a report that others read, but for one that does not go there
  if (isBath(what.id) && said.did && into.intoVessel !== 'jug' && !SLIPPED.test(said.did)) return undefined;
  if (isBath(what.id) && said.came && !into.intoVessel && WENT.test(said.came)) return undefined;
  // of a name that nobody knows, only a vessel, a bath or its last word says that it is a thing
  if (
    !what.known &&
    (/_|\b(?:replenisher|starter|concentrate|stuff)\b/.test(said.what) ||
      !(said.where ?? THINGS.test(what.id)))
  )
    return undefined;
  const intent = made('contaminated', { liquid: what.id, ...into, volumeMl: what.volumeMl });
  return intent && { kind: 'understood', intent, words: plain, situation: situations[0] ?? 'anytime' };

  function intoOf(vessel: string, making: boolean, open: boolean): Record<string, unknown> | undefined {
    if (JUG.test(vessel)) return open || /mix|batch/.test(vessel) ? { intoVessel: 'jug' } : undefined;
    if (vessel === 'tank') return { intoVessel: 'tank' };
    const bath = thing(vessel.replace(/ (?:bottle|bath)$/, ''), slots);
    if (bath?.bottle !== undefined) return { intoBottle: bath.bottle };
    if (bath?.id === undefined || !bath.known || !isBath(bath.id) || bath.id === what?.id) return undefined;
    return { intoLiquid: bath.id, ...(making && { intoVessel: 'jug' }) };
  }
}

/** One tool for two baths: some of the first got into the second. */
const SHARED =
  /^(?:i |we )?(?:have |had |just |accidentally )*(?:used|took|put) (?:same|one) (?:funnel|filter|strainer|measuring \w+|beaker|syringe|cylinder|spoon) (?:for|in|with) (?:both )?(?<a>_matter\d+)(?: bath)?(?: and(?: then)?| then| before) (?:for )?(?<b>_matter\d+)(?: bath)?(?: (?:without|and (?:did not|didn't|never)) .*)?$/;
const LEAD =
  /^(?:(?:oh no|oh|oops|shit|damn|help|quick|wait|stop|no|so|and|but|hey|well|i think|i fear|i believe|i am afraid|i am sorry|i might have|i may have|maybe|perhaps|looks like|it looks like|that|by mistake|by accident|accidentally|somehow)(?: that)? )+/;
const SLIPPED = /\b(?:dropped|splashed|spilled|spilt|dripped|knocked|squirted|sprayed)\b/;
const WENT = /^(?:went|gone|came|poured|tipped|landed|ended up|ran|run)$/;
const THINGS = new RegExp(`(?:^|-)${THING}$`);
const SURELY =
  '(?:have |must have |may have |might have |could have |accidentally |wrongly |mistakenly |just |only |also |somehow |probably )*';
const JUG = /^(?:jug|mix|mixture|mixing|batch|beaker|bucket|measuring|solution)\b/;
const WHERE = `(?<where>jug|tank|mix|mixture|batch|beaker|bucket|solution|(?:mixing|measuring) (?:jug|beaker|bucket|bottle|vessel|cylinder)|_bottle\\d+|_matter\\d+(?: bottle| bath)?)(?<making> (?:that |which )?(?:i am |am |being )(?:mixing|making|stirring|weighing|mixed|made|stirred)(?: up| now)*)?(?: (?:by mistake|by accident|accidentally|too|as well|instead|now|i think|from .*|when .*|while .*))*`;
const DID = `(?<did>(?:i |we )?${SURELY}(?:poured|put|added|tipped|dropped|splashed|spilled|spilt|dripped|dumped|mixed|stirred|sprayed|squirted|threw|thrown|emptied|knocked)(?: in)?)`;
const CAME = `${SURELY}(?:has |have |is |was |been )*${SURELY}(?<came>got|gotten|gone|splashed|dripped|went|leaked|ran|run|fell|fallen|spilled|slopped|landed|ended up|dropped|came|blown|blew|tipped|poured|trickled)(?: down| over| back)?`;
const TOLD: readonly RegExp[] = [
  new RegExp(
    `^(?<did>there(?: is|'s| was| might be| may be| could be)) (?<what>.+?) (?:in|inside) ${WHERE}$`,
  ),
  new RegExp(`^${WHERE} (?<did>has|got|has got) (?<what>.+?) in it$`),
  new RegExp(`^(?<what>.+?) ${CAME} (?:in|into|inside|in to|onto|on) ${WHERE}$`),
  new RegExp(`^(?:i |we )?${SURELY}(?:got|have got) (?<what>.+?) (?:in|into|inside) ${WHERE}$`),
  new RegExp(`^${DID} (?<what>.+?) (?:in|into|inside|in to|to|with|on) ${WHERE}$`),
];
/** Where it went was not said. */
const BARE: readonly RegExp[] = [
  new RegExp(
    `^${DID} (?<what>.+?)(?: (?:in|in it|to it|in there|into it|instead|by mistake|by accident|too))*$`,
  ),
  new RegExp(`^(?<what>.+?) ${CAME} in(?: it| there)?$`),
];
