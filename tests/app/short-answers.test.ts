import { expect, it } from 'vitest';
import { talk, upToDeveloper } from './dialogues/talk.js';

it('takes a fact that is told twice in one breath once, as it was told more fully', async () => {
  const d = await talk(
    `${upToDeveloper}pouring the developer from bottle 2\nin, started pouring about five seconds ago\n`,
  );
  const text = d.text('in, started pouring about five seconds ago');
  expect(text).toMatch(/^Developer is in, since 5 seconds/);
  expect(text).not.toContain('already');
});

it('names a word that nobody knows, and no word of a sentence that is only worded otherwise', async () => {
  const d = await talk('what is a flumph\njust a moment the funnel is in the dishwasher\n');
  expect(d.text('what is a flumph')).toContain('"flumph"');
  expect(d.text('just a moment the funnel is in the dishwasher')).not.toContain('do not know the word');
});
