/** The parts of a JSGF grammar, after the W3C Note of 5 June 2000 (JSpeech Grammar Format). */

/** A place in the text; both from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export type Expansion =
  | { readonly kind: 'token'; readonly text: string; readonly at: Place }
  | { readonly kind: 'rule'; readonly name: string; readonly at: Place }
  | { readonly kind: 'sequence'; readonly items: readonly Expansion[] }
  | { readonly kind: 'alternatives'; readonly items: readonly Alternative[] }
  | { readonly kind: 'optional'; readonly of: Expansion }
  /** `*` has least 0, `+` has least 1 */
  | { readonly kind: 'repeat'; readonly of: Expansion; readonly least: 0 | 1 }
  | { readonly kind: 'tagged'; readonly of: Expansion; readonly tags: readonly string[] };

export interface Alternative {
  readonly expansion: Expansion;
  /** as written between slashes; absent when the set carries no weights */
  readonly weight?: number;
}

/** A documentation comment: its text, and its `@tag value` lines in order. */
export interface Doc {
  readonly text: string;
  readonly tags: readonly { readonly name: string; readonly value: string }[];
}

export interface Rule {
  readonly name: string;
  readonly isPublic: boolean;
  readonly expansion: Expansion;
  readonly at: Place;
  readonly doc?: Doc;
  /** where it was added to a grammar of another language: its own */
  readonly locale?: string;
}

export interface Import {
  /** full grammar name, e.g. `tankside.numbers` */
  readonly grammar: string;
  /** a rule's name, or `*` for every public rule */
  readonly rule: string;
  readonly at: Place;
}

export interface Grammar {
  readonly version: string;
  readonly encoding?: string;
  readonly locale?: string;
  /** full name with its package, e.g. `tankside.pouring` */
  readonly name: string;
  readonly imports: readonly Import[];
  readonly rules: ReadonlyMap<string, Rule>;
  readonly doc?: Doc;
}

/** What is wrong in a grammar, where, and what was expected there. `message` is the whole sentence. */
export interface GrammarProblem {
  readonly grammar: string;
  readonly line: number;
  readonly column: number;
  readonly expected: string;
  readonly message: string;
}

export type Parsed = { ok: true; grammar: Grammar } | { ok: false; problem: GrammarProblem };
