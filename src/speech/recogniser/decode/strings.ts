/** The word strings met so far, as a tree: equal strings have equal numbers. The empty one is 0, a new one has the next number. */
export class Strings {
  private readonly parent = [-1];
  private readonly word = [-1];
  private readonly known = new Map<number, number>();
  constructor(private readonly vocabulary: number) {}

  after(string: number, word: number): number {
    const key = string * this.vocabulary + word;
    let id = this.known.get(key);
    if (id === undefined) {
      id = this.parent.push(string) - 1;
      this.word.push(word);
      this.known.set(key, id);
    }
    return id;
  }

  spelled(string: number, words: readonly string[]): string[] {
    const out: string[] = [];
    for (let at = string; at > 0; at = this.parent[at] ?? 0) out.push(words[this.word[at] ?? 0] ?? '');
    return out.reverse();
  }
}
