/** The words for each message of a kind, which its `K` tells apart. */
export type PhrasesOf<M, K extends keyof M = 'id' & keyof M> = {
  [V in M[K] & string]: (m: Extract<M, Record<K, V>>) => string;
};

/** The phrase that a table has for a message. */
export const phraseOf = <M, K extends keyof M>(phrases: PhrasesOf<M, K>, m: M, kind: K): string =>
  (phrases[m[kind] as M[K] & string] as (m: M) => string)(m);
