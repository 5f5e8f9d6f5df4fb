/** What stands in the place of words: "say how much", "say its name". */
const NO_WORDS =
  /^(?:otherwise|so\b|its?\b|that\b|what (?:it|is wrong|each|you|to|a bottle)|which|where it|whether|when it|your|how\b|for |first|something|says\b|a name|the (?:bath|stock|question|pour|tank takes)|note, and|.* (?:holds|hält), (?:and|und)|name another)/i;

const clean = (words: string): string =>
  words.replace(/,? (?:(?:to|when|as|and|if|for) .*|instead|again)$|,$/, '').trim();

/** The sentences that a text asks to be said. */
export const invitedIn = (text: string): string[] =>
  [...text.matchAll(/\b[Ss]ay(?: now)?:? ((?:"[^"]+",? ?(?:or )?)+|[^.;?"`'$]+)/g)].flatMap(
    ([, all = '']) => {
      if (all.startsWith('"')) return [...all.matchAll(/"([^"]+)"/g)].map(([, words = '']) => words);
      if (all.startsWith('override')) return [all];
      if (NO_WORDS.test(all)) return [];
      return all
        .split(/,? or (?:say:? )?|, (?:for example|then say) /)
        .map(clean)
        .filter((s) => s !== '' && !NO_WORDS.test(s));
    },
  );
