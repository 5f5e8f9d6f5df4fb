import { readFileSync } from 'node:fs';

/**
 * Rules learnt from the dictionary (see learn-letter-to-sound.ts): a tree that looks at a letter, then at its
 * neighbours in the order of `LOOK`, and stops where more context no longer changes the sound.
 */
export interface LetterRules {
  /** phones a letter may stand for, joined by blanks; '' is a mute letter */
  readonly sounds: readonly string[];
  /** by letter */
  readonly tree: { readonly [letter: string]: Rule };
}

/** A sound's index, or that with the next letter's cases under it. */
export type Rule = number | readonly [number, { readonly [letter: string]: Rule }];

/** Offsets of the neighbours, in the order they are looked at. */
export const LOOK = [1, -1, 2, -2, 3, -3, 4, -4] as const;
const OUTSIDE = '#';

export const letterAt = (word: string, at: number): string => word[at] ?? OUTSIDE;

/** @returns phones with stress digits, such as "P R IY1 B AE2 TH"; '' when the word has no letters a to z */
export function soundsOf(word: string, rules: LetterRules): string {
  const out: string[] = [];
  for (let at = 0; at < word.length; at++) {
    let rule: Rule | undefined = rules.tree[letterAt(word, at)];
    let sound = -1;
    for (let depth = 0; rule !== undefined; depth++) {
      if (typeof rule === 'number') {
        sound = rule;
        break;
      }
      sound = rule[0];
      const offset: number | undefined = LOOK[depth];
      rule = offset === undefined ? undefined : rule[1][letterAt(word, at + offset)];
    }
    const phones = rules.sounds[sound];
    if (phones) out.push(phones);
  }
  return out.join(' ');
}

/** @throws Error when the file is missing or damaged */
export function readLetterRules(file: string): LetterRules {
  try {
    const rules = JSON.parse(readFileSync(file, 'utf8')) as LetterRules;
    if (Array.isArray(rules.sounds) && typeof rules.tree === 'object') return rules;
  } catch (cause) {
    throw new Error(
      `The letter-to-sound rules "${file}" cannot be read; restore the models folder (git checkout models).`,
      {
        cause,
      },
    );
  }
  throw new Error(
    `The letter-to-sound rules "${file}" are damaged; restore the models folder (git checkout models).`,
  );
}
