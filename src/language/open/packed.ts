import type { Learnt } from './understand.js';

/** What was learnt, as text for a file: the weights in base 64, everything else as it is. */
export function packLearnt({ model, own, taught, elsewhere }: Learnt, from: string): string {
  return JSON.stringify({
    from,
    classes: model.classes,
    features: [...model.features.keys()].join('\n'),
    starts: base64(model.starts),
    columns: base64(model.columns),
    weights: base64(model.weights),
    step: model.step,
    own: [...own].map(([id, words]) => [id, [...words].join(' ')]),
    taught: [...taught],
    elsewhere: [...elsewhere],
  });
}

/** What `packLearnt` wrote; null when it was learnt from other grammars than `from` names. */
export function unpackLearnt(text: string, from: string): Learnt | null {
  const p = JSON.parse(text) as {
    from: string;
    classes: string[];
    features: string;
    starts: string;
    columns: string;
    weights: string;
    step: number;
    own: [string, string][];
    taught: [string, string[]][];
    elsewhere: [string, string[]][];
  };
  if (p.from !== from) return null;
  return {
    model: {
      classes: p.classes,
      features: new Map(p.features.split('\n').map((f, i) => [f, i])),
      starts: new Uint32Array(bytes(p.starts)),
      columns: new Uint8Array(bytes(p.columns)),
      weights: new Int8Array(bytes(p.weights)),
      step: p.step,
    },
    own: new Map(p.own.map(([id, words]) => [id, new Set(words.split(' '))])),
    taught: new Map(p.taught),
    elsewhere: new Map(p.elsewhere),
  };
}

const base64 = (a: Uint32Array | Uint8Array | Int8Array): string =>
  Buffer.from(a.buffer, a.byteOffset, a.byteLength).toString('base64');

const bytes = (text: string): ArrayBuffer => Uint8Array.from(Buffer.from(text, 'base64')).buffer;

/** Names the texts of some grammars: two sets of texts have one name only when they are the same. */
export function nameOf(texts: Readonly<Record<string, string>>): string {
  const all = Object.entries(texts)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flat()
    .join('\u0000');
  let [a, b] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < all.length; i++) {
    a = Math.imul(a ^ all.charCodeAt(i), 0x01000193);
    b = Math.imul(b ^ all.charCodeAt(i), 0x85ebca6b) ^ (b >>> 13);
  }
  return `${(a >>> 0).toString(16)}-${(b >>> 0).toString(16)}-${all.length}`;
}
