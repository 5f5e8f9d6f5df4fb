import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Fixture } from '../../../src/app/commands/rehearse.js';
import { fixtureDir } from '../../../src/app/paths.js';

/** One step of the rehearsal's run: what somebody says, or time that passes. */
export type ScriptLine = { words: string } | { waitS: number };

/** The rehearsal as words to say, without the talk that is no command. */
export function rehearsalScript(clips: readonly Fixture[]): ScriptLine[] {
  const byFile = new Map(clips.map((clip) => [clip.file, clip]));
  return readFileSync(join(fixtureDir, 'rehearsal.txt'), 'utf8')
    .split('\n')
    .flatMap((line): ScriptLine[] => {
      const wait = /^\+(\d+)s$/.exec(line);
      if (wait) return [{ waitS: Number(wait[1]) }];
      const clip = byFile.get(/^hear: (.*)$/.exec(line)?.[1] ?? '');
      return clip?.command ? [{ words: clip.words }] : [];
    });
}
