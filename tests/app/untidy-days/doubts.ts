import { type Day, heldBack } from './play.js';
import { developed, inDeveloper, toDeveloper } from './usual.js';

const maybeFixer = /the fixer may have been in the tank; by my record it was the stop bath/i;
/** What a line tells and doubts at once, and that both are kept. */
const bothKept = (before: readonly string[], said: readonly string[], fact: RegExp, doubt: RegExp): Day[] =>
  said.map((line) => ({
    name: line,
    lines: [...before, [line, [fact, doubt]], ['is the film ok', /I cannot say/, /should come out/i]],
  }));

/** A doubt in the same line as a fact: the fact stands, and the doubt counts until it is settled. */
export const doubts: Day[] = [
  ...bothKept(
    developed,
    [
      "stop's in, or maybe that was the fixer",
      'the stop is in but it could have been the fixer',
      'poured the stop, not sure if it was three or five',
      "stop bath in, though i'm worried it was the fixer",
    ],
    /stop bath is in/i,
    maybeFixer,
  ),
  ...bothKept(
    toDeveloper,
    ["dev's in but maybe i grabbed bleach", "developer's in i think it could be the bleach though"],
    /developer is in: 3 minutes/i,
    /bleach may have been in the tank.*destroys the picture/i,
  ),
  ...bothKept(
    inDeveloper,
    ['i think it was the bleach', 'it was the bleach i think', 'it was bottle four maybe'],
    /by my record it was the developer/i,
    /bleach may have been in the tank/i,
  ),
  {
    name: 'a doubt that was told with the fact holds the next pour',
    lines: [
      ...developed,
      ["the stop's in but it might have been the final rinse", /final rinse may have been/i],
      '+28s',
      'stop bath back into bottle 3',
      'tank empty',
      'water in',
      '+34s',
      'tank empty',
      ['pouring the bleach from bottle 4', [heldBack, /not settled/i]],
    ],
  },
  {
    name: 'what is only believed to have ruined the film may have',
    lines: [
      ...toDeveloper,
      ['bleach is in, i think', [/get it out now/i, /developer may have been in the tank/i]],
      '+5s',
      ['tank is empty', /may be lost/i, /picture is lost\.|destroyed/i],
      ['is the film ok', /may be lost/i, /nothing brings it back/i],
    ],
  },
  {
    name: 'a bath that was due and is in, as far as somebody thinks, is in',
    lines: [...toDeveloper, ["developer's in, i think", /developer is in: 3 minutes/i, /may have been/i]],
  },
];
