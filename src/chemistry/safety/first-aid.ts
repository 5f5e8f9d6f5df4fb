/** How somebody was hurt, as the first-aid statements of labels tell it apart; the words stand with each language. */
export type Exposure = 'eye' | 'face' | 'skin' | 'swallowed' | 'breathed';
