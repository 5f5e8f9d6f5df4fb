import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { playScript } from '../../src/app/play-script.js';
import { root } from './cli.js';
import { readmeConversation, replyText } from './readme-conversation.js';

it('the conversation in the README is what tankside really says', async () => {
  const shown = readmeConversation(readFileSync(join(root, 'README.md'), 'utf8'));
  expect(shown.steps.length).toBeGreaterThan(10);
  const said: string[] = [];
  await playScript(shown.steps, {
    bench: createBench({ sheet: 'ecn2-ferricyanide' }),
    folder: root,
    ear: () => Promise.reject(new Error('the README conversation is typed')),
    events: { replied: ({ reply }) => said.push(replyText(reply)) },
  });
  expect(said).toEqual(shown.replies);
});
