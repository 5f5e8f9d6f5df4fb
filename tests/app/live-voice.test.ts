import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { main, root, scratch } from './cli.js';
import { fakeRoom } from './fakes/room.js';

it('hears a microphone, answers aloud, does not hear its own answer, and keeps quiet about the radio', async () => {
  const folder = scratch();
  const fixtures = ['02-next-step.wav', 'other-1.wav'].map((f) => join(root, 'audio-fixtures', f));
  const room = await fakeRoom(folder, fixtures);
  const child = spawn(
    process.execPath,
    [main, 'run', '--voice', 'flite-wasm:slt', '--data', join(folder, 'data')],
    {
      env: { ...process.env, PATH: room.path, NO_COLOR: '1' },
    },
  );
  let out = '';
  child.stdout.on('data', (chunk: Buffer) => {
    out += chunk.toString();
  });
  const until = async (words: string): Promise<void> => {
    for (let i = 0; i < 400 && !out.includes(words); i++) await new Promise((r) => setTimeout(r, 100));
    expect(out).toContain(words);
  };
  await until('I am listening.');
  await until('heard: next step');
  await new Promise((r) => setTimeout(r, 9_000));
  child.stdin.end('exit\n');
  await new Promise((r) => child.on('close', r));
  expect(out.match(/heard: /g)).toHaveLength(1);
  expect(readFileSync(room.playedLog, 'utf8').trim().split('\n').length).toBeGreaterThanOrEqual(1);
});
