import { helpText } from '../../help.js';
import type { Words } from '../words.js';
import { describeIntent } from './describe.js';
import { whoIsHurt } from './harm.js';
import { ONES, ORDINALS } from './numbers.js';
import { assistantWords } from './phrases/assistant.js';
import { bottlesPhrase } from './phrases/bottles.js';
import { moreOfMix, phraseMix } from './phrases/mix.js';
import { phraseRun } from './phrases/run.js';
import { phraseTimers } from './phrases/timers.js';
import { phraseWarm } from './phrases/warm.js';
import { interpretTyped } from './typing.js';

const ordinals = ORDINALS.slice(0, 4);
const FILM = '(?:film|roll|run|reel)';
const WHICH_FILM = new RegExp(
  `\\b(?<nth>${ORDINALS.join('|')}) (?:${FILM}|one)\\b|\\b${FILM} (?:number )?(?<n>${ONES.slice(1, 10).join('|')}|[1-9])\\b`,
);

export const englishWords: Words = {
  code: 'en',
  spoken: true,
  typed: interpretTyped,
  whoIsHurt,
  whichFilm: (line) => {
    const { nth, n } = WHICH_FILM.exec(line.toLowerCase())?.groups ?? {};
    const film = nth === undefined ? ONES.indexOf(n ?? '') || Number(n) : ORDINALS.indexOf(nth) + 1;
    return film > 0 ? { film } : {};
  },
  describe: describeIntent,
  help: helpText,
  desks: {
    run: phraseRun,
    mix: phraseMix,
    moreOfMix,
    warm: phraseWarm,
    bottles: bottlesPhrase,
    timers: phraseTimers,
  },
  assistant: assistantWords,
  ordinals,
  choice: /^(?:the )?(?:(?<place>[a-z]+)(?: one)?|(?<number>\d+(?:\.\d+)?) ?(?:g|grams?|ml|millilitres?)?)$/,
  didYouMean: (said, typed, again) =>
    said.length === 1
      ? `${again ? 'Still open: did' : 'Did'} you mean: ${said[0]}? Say confirm or cancel.`
      : `${again ? 'Still open: did' : 'Did'} you mean: ${said.slice(0, -1).join('; ')}; or ${said.at(-1)}? ${typed ? `Type ${ordinals.slice(0, said.length).join(' or ')}, or say` : 'Say'} it again, or cancel.`,
  leftOut: (words) => `I left out “${words}”: say it by itself.`,
  alsoMean: (said) => `Did you also mean: ${said}? Say confirm or cancel.`,
  orDidYouMean: ([, ...others]) =>
    `Or did you mean: ${others.join('; or ')}? Type ${ordinals.slice(1, others.length + 1).join(' or ')}.`,
  thatWasAll: 'That was all.',
  nothingChanged: 'Nothing changed.',
  notCleared: (bath) => `The pour${bath ? ` of ${bath}` : ''} was not cleared: say it again.`,
  screen: {},
  bath: (_, name) => name,
};
