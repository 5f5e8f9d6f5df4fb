/** Words cut into the pieces that an encoder was trained on: the likeliest way, by Viterbi's search. */
export type Pieces = (text: string) => number[];

/** The numbers below stand for what is no piece. */
const RESERVED = 6;
const UNKNOWN = 0;
/** What a letter that is in no piece takes off the log probability. */
const UNKNOWN_SCORE = -20;

export function piecesOf(pieces: readonly (readonly [piece: string, score: number])[]): Pieces {
  const numbers = new Map(pieces.map(([piece], i) => [piece, i] as const).slice(RESERVED));
  const longest = pieces.reduce((most, [piece]) => Math.max(most, piece.length), 1);
  return (text) => {
    const line = `▁${text.replace(/ /g, '▁')}`;
    const best: { score: number; from: number; id: number }[] = [{ score: 0, from: -1, id: -1 }];
    const offer = (to: number, score: number, from: number, id: number): void => {
      const known = best[to];
      if (!known || score > known.score) best[to] = { score, from, id };
    };
    for (let from = 0; from < line.length; from++) {
      const here = best[from];
      if (!here) continue;
      for (let to = from + 1; to <= Math.min(line.length, from + longest); to++) {
        const id = numbers.get(line.slice(from, to));
        if (id !== undefined) offer(to, here.score + (pieces[id]?.[1] ?? 0), from, id);
      }
      if (!numbers.has(line.slice(from, from + 1)))
        offer(from + 1, here.score + UNKNOWN_SCORE, from, UNKNOWN);
    }
    const ids: number[] = [];
    for (let at = line.length; at > 0; ) {
      const step = best[at];
      if (!step) break;
      ids.unshift(step.id);
      at = step.from;
    }
    return ids;
  };
}
