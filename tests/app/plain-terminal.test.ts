import { PassThrough } from 'node:stream';
import { expect, it } from 'vitest';
import { Terminal } from '../../src/app/terminal.js';

it('keeps what is typed, and that it has ended, until somebody reads it', async () => {
  const input = new PassThrough();
  const terminal = new Terminal(input, 100);
  input.end('help\nhow long left\n');
  // the sound devices are looked for meanwhile
  await new Promise((done) => setTimeout(done, 50));
  const read: string[] = [];
  for await (const line of terminal.lines) read.push(line);
  expect(read).toEqual(['help', 'how long left']);
});

it('ends the reading when it is told to, typed or not', async () => {
  const terminal = new Terminal(new PassThrough(), 100);
  terminal.end();
  const read: string[] = [];
  for await (const line of terminal.lines) read.push(line);
  expect(read).toEqual([]);
});
