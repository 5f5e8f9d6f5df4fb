/** Rewrites what people say into the words that the commands are taught in. */
export interface Plain {
  (words: readonly string[]): string[];
  /** every word that is rewritten */
  readonly words: ReadonlySet<string>;
}

type Rule = readonly [from: readonly string[], to: readonly string[]];

/** `spoken`: “said, said = meant” a line; `alike`: “word: others”, each of which the first stands for. */
export function plainWords(spoken: string, alike: string): Plain {
  const table = (rules: readonly Rule[]): ((words: readonly string[]) => string[]) => {
    const byFirst = new Map<string, Rule[]>();
    for (const rule of rules) {
      const first = rule[0][0] ?? '';
      byFirst.set(
        first,
        [...(byFirst.get(first) ?? []), rule].sort((a, b) => b[0].length - a[0].length),
      );
    }
    return (words) => {
      const out: string[] = [];
      for (let at = 0; at < words.length; ) {
        const found = byFirst
          .get(words[at] ?? '')
          ?.find(([from]) => from.every((w, i) => w === words[at + i]));
        out.push(...(found ? found[1] : [words[at] ?? '']));
        at += found ? found[0].length : 1;
      }
      return out;
    };
  };
  const split = (text: string): string[] => text.trim().split(/\s+/).filter(Boolean);
  const spokenRules = spoken.split('\n').flatMap((line): Rule[] => {
    const [said = '', meant = ''] = line.split('=');
    return said
      .split(',')
      .map(split)
      .filter((from) => from.length > 0)
      .map((from) => [from, split(meant)]);
  });
  const alikeRules = alike.split('\n').flatMap((line): Rule[] => {
    const [meant = '', others = ''] = line.split(':');
    return split(others).map((other) => [[other], [meant.trim()]]);
  });
  const [first, second] = [table(spokenRules), table(alikeRules)];
  const once = (words: readonly string[]): string[] =>
    words.filter((w, i) => w !== 'is' || w !== words[i - 1]);
  return Object.assign((words: readonly string[]) => once(second(first(words))), {
    words: new Set([...spokenRules, ...alikeRules].flatMap(([from]) => from)),
  });
}
