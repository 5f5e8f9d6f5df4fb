import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isProblem, readWav, toInt16 } from '../../../src/speech/wav.js';

export interface FakeRoom {
  path: string;
  /** a line for each sound: when it began, ms since 1970 */
  playedLog: string;
  /** when the recorder was last started, ms since 1970 */
  recorderLog: string;
  /** where each recording begins in the room, and how long the room lasts, ms */
  startsMs: number[];
  lengthMs: number;
}

/**
 * A folder for PATH with a recorder that plays the given recordings at the pace of a real microphone, some
 * seconds of quiet between them, and a player that takes as long as the sound lasts and notes when it began.
 */
export async function fakeRoom(folder: string, recordings: string[], pauseS = 2): Promise<FakeRoom> {
  const bin = join(folder, 'bin');
  mkdirSync(bin, { recursive: true });
  const quiet = Int16Array.from({ length: 16_000 }, (_, i) => ((i * 7919) % 13) - 6);
  const pause = Array.from({ length: pauseS }, () => quiet);
  const parts: Int16Array[] = [...pause];
  const startsMs: number[] = [];
  const lengthMs = (): number => parts.reduce((n, p) => n + p.length, 0) / 16;
  for (const file of recordings) {
    startsMs.push(lengthMs());
    const sound = await readWav(file);
    if (isProblem(sound)) throw new Error(sound.problem);
    parts.push(toInt16(sound.pcm), ...pause);
  }
  const raw = Buffer.concat(parts.map((p) => Buffer.from(p.buffer, p.byteOffset, p.byteLength)));
  writeFileSync(join(folder, 'room.raw'), raw);
  const playedLog = join(folder, 'played.log');
  const recorderLog = join(folder, 'recorder.log');
  writeFileSync(playedLog, '');
  script(
    join(bin, 'arecord'),
    `const room = require('fs').readFileSync(${JSON.stringify(join(folder, 'room.raw'))});
     const began = Date.now(); let sent = 0;
     require('fs').writeFileSync(${JSON.stringify(recorderLog)}, String(began));
     setInterval(() => {
       const due = Math.floor((Date.now() - began) * 16) * 2;
       while (sent < due) {
         const take = Math.min(due - sent, 1024);
         const at = sent % room.length;
         const live = sent < room.length ? room.subarray(at, at + take) : Buffer.alloc(take, 3);
         process.stdout.write(live); sent += live.length;
       }
     }, 16);`,
  );
  script(
    join(bin, 'aplay'),
    `const rate = Number(process.argv[process.argv.indexOf('-r') + 1]); let bytes = 0;
     process.stdin.once('data', () => require('fs').appendFileSync(${JSON.stringify(playedLog)}, Date.now() + '\\n'));
     process.stdin.on('data', (d) => { bytes += d.length; });
     process.stdin.on('end', () => setTimeout(() => {}, bytes / 2 / rate * 1000));`,
  );
  return { path: `${bin}:${process.env.PATH ?? ''}`, playedLog, recorderLog, startsMs, lengthMs: lengthMs() };
}

function script(path: string, code: string): void {
  writeFileSync(path, `#!${process.execPath}\n${code}\n`);
  chmodSync(path, 0o755);
}
