import type { Situation } from '../../process/desk.js';
import { type Interpretation, sayTheWords } from '../interpretation.js';
import type { Grammars } from '../load.js';
import { distinct, type Meaning, meaningsElsewhere, meaningsHere } from '../meaning/meanings.js';
import { isGuarded } from '../meaning/weight.js';
import { type Mending, mendings } from '../slips.js';

/** Most mended sentences that are tried in situations other than the present ones. */
const MOST_ELSEWHERE = 8;

export function mended(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const all = mendings(words, grammars.vocabulary);
  const here = chosen(all, (m, loose) => meaningsHere(m, situations, grammars, loose));
  if (here) return here;
  const there = chosen(all.slice(0, MOST_ELSEWHERE), (m, loose) => meaningsElsewhere(m, grammars, loose));
  return there?.kind === 'understood' ? { ...there, outOfPlace: true } : there;
}

/** What mended sentences mean: one light meaning is taken, several or a weighty one are asked about. */
function chosen(
  all: readonly Mending[],
  meaningsOf: (words: readonly string[], loose: boolean) => Meaning[],
): Interpretation | undefined {
  const found = all.flatMap((mending) => {
    const meanings = [false, true]
      .map((loose) => meaningsOf(mending.words, loose))
      .find((list) => list.length > 0);
    return (meanings ?? []).map((meaning) => ({ meaning, mending }));
  });
  const [first] = found;
  if (!first) return undefined;
  const meanings = distinct(found.map((f) => f.meaning));
  if (meanings.some((m) => m.intent.type === 'override')) return sayTheWords;
  const said = first.mending.words.join(' ');
  if (meanings.length > 1 || first.mending.mustAsk || isGuarded(first.meaning.intent)) {
    return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: said };
  }
  return { kind: 'understood', ...first.meaning, words: said, mended: first.mending.changed };
}
