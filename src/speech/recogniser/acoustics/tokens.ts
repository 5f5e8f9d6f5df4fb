/**
 * The network's phone tokens. Models may or may not tell stress apart ("AH0" / "AH1"); a dictionary phone is
 * matched by the nearest the model has.
 */
export class Tokens {
  private readonly ids: Map<string, number>;

  constructor(readonly names: readonly string[]) {
    this.ids = new Map(names.map((name, i) => [name, i]));
  }

  get count(): number {
    return this.names.length;
  }

  /** Token of an ARPAbet phone such as "AH0" or "T"; undefined when the model knows nothing like it. */
  of(phone: string): number | undefined {
    const plain = phone.replace(/[0-2]$/, '');
    const tries = phone.endsWith('2')
      ? [phone, plain, `${plain}1`]
      : phone === plain
        ? [plain, `${plain}1`]
        : [phone, plain];
    for (const name of tries) {
      const id = this.ids.get(name);
      if (id !== undefined) return id;
    }
    return undefined;
  }

  /** Tokens of "F IH0 F T IY1 N". @throws Error naming a phone the model does not know */
  sequence(phones: string): number[] {
    return phones
      .trim()
      .split(/\s+/)
      .map((phone) => {
        const id = this.of(phone);
        if (id === undefined) throw new Error(`The acoustic model has no phone "${phone}".`);
        return id;
      });
  }
}
