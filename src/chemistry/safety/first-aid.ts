/**
 * How somebody was hurt, as the first-aid statements of labels tell it apart, and whom no label helps: who lies there or
 * cannot breathe, clothes that burn, a current, a burn by heat, a wound, an animal. The words stand with each language.
 */
export const EXPOSURES = [
  'collapsed',
  'breathless',
  'alight',
  'shocked',
  'burnt',
  'eye',
  'face',
  'swallowed',
  'breathed',
  'skin',
  'wound',
  'animal',
] as const;
export type Exposure = (typeof EXPOSURES)[number];

/** Who was hurt, as it was told: whoever speaks, or somebody else. */
export const PERSONS = ['speaker', 'another'] as const;
export type Person = (typeof PERSONS)[number];
