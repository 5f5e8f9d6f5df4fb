/**
 * The live assistant in a room: the real command on a real sound server with virtual devices. It runs in real time, so
 * other work on the machine makes every figure worse. `node room.js [part…]`: barge, latency, calls, faults, use.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runCommand } from '../../src/speech/commands.js';
import { LiveRun } from './room/live.js';
import { calls, faults, interrupt, latencies, PATHS, type Stage } from './room/parts.js';
import { SoundRoom, whyNoRoom } from './room/sound-room.js';

const why = whyNoRoom();
if (why) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}
const asked = process.argv.slice(2);
const wants = (part: string): boolean => asked.length === 0 || asked.includes(part);
const rounds = Number(process.env.ROUNDS ?? 8);
const voices = (process.env.VOICES ?? 'flite-wasm:slt,espeak-ng').split(',');
const STOPS = ['quiet', 'stop'];
const COMMANDS = ['what is next', 'next step', 'where are we', 'undo that', 'take a note', 'slower'];
const cycle = (list: readonly string[]): string[] =>
  Array.from({ length: rounds }, (_, i) => list[i % list.length] ?? '');
const sorted = (ms: readonly (number | null)[]): number[] =>
  ms.filter((v) => v !== null).sort((a, b) => a - b);
const at = (ms: readonly (number | null)[], share: number): string => {
  const all = sorted(ms);
  return all.length === 0
    ? 'none'
    : `${Math.round(all[Math.min(all.length - 1, Math.floor(all.length * share))] ?? 0)} ms`;
};
const row = (...cells: (string | number)[]): void => console.log(`| ${cells.join(' | ')} |`);

const folder = mkdtempSync(join(tmpdir(), 'tankside-room-'));
const room = new SoundRoom();
try {
  await room.open(PATHS[0] ?? { name: 'none', db: null, delayMs: 0 });
  const stageFor = (voice: string): Stage => ({ room, folder, voice, speaker, person });
  const [speaker, person] = [room.tap('speaker'), room.tap('person')];
  row('what', 'voice', 'echo', 'value', 'wanted');
  row('---', '---', '---', '---', '---');
  for (const voice of voices) {
    const stage = stageFor(voice);
    if (wants('barge'))
      for (const path of PATHS)
        for (const [name, list] of [
          ['quiet, stop', STOPS],
          ['other commands', COMMANDS],
        ] as const) {
          const tries = await interrupt(stage, path, cycle(list));
          const heard = tries.filter((t) => t.heard.some((h) => h.startsWith(t.said))).length;
          const silent = tries.map((t) => t.silentAfterMs);
          row(
            `heard over its voice: ${name}`,
            voice,
            path.name,
            `${heard} of ${tries.length}`,
            name === 'quiet, stop' ? '95 %' : '85 %',
          );
          row(
            'silent after the voice began',
            voice,
            path.name,
            `${sorted(silent).length} of ${tries.length}, median ${at(silent, 0.5)}, 95 % ${at(silent, 0.95)}`,
            '200 ms',
          );
          for (const t of tries)
            if (process.env.SHOW)
              console.log(`    ${t.said} → ${t.heard.join('; ') || '-'}, ${t.silentAfterMs?.toFixed(0)}`);
        }
    if (wants('latency')) {
      const ms = await latencies(stage, PATHS[1] ?? { name: 'none', db: null, delayMs: 0 }, rounds);
      row(
        'end of speech to first sound',
        voice,
        PATHS[1]?.name ?? '',
        `${sorted(ms).length} of ${ms.length} answered, median ${at(ms, 0.5)}, 95 % ${at(ms, 0.95)}`,
        '500 ms, 800 ms',
      );
    }
    if (wants('calls')) {
      const ms = await calls(stage, 75);
      row(
        'calls sound late, with a warning before each',
        voice,
        '',
        `${sorted(ms).length} of ${ms.length}, most ${at(ms, 1)}`,
        '300 ms',
      );
    }
    if (wants('faults')) {
      const f = await faults(stage, rounds, childrenOf);
      row(
        'parts killed while it talks',
        voice,
        '',
        `${f.killed} killed, it ended with ${f.exit}, ${f.answered ? 'hears' : 'deaf'} after`,
        'ends with 0, hears',
      );
    }
    if (wants('use')) {
      const run = new LiveRun(room, voice);
      await run.until(/^I am listening/, 30_000);
      const quiet = await run.use(20_000);
      row(
        'a quiet room',
        voice,
        '',
        `${(100 * quiet.coreShare).toFixed(1)} % of a core, ${quiet.memoryMb.toFixed(0)} MB`,
        '10 %, 200 MB',
      );
      await run.leave();
    }
  }
} finally {
  room.close();
  rmSync(folder, { recursive: true, force: true });
}
process.exit(0);

async function childrenOf(pid: number): Promise<number[]> {
  const { stdout } = await runCommand('ps', ['-o', 'pid=', '--ppid', String(pid)]);
  return stdout
    .toString()
    .split('\n')
    .map(Number)
    .filter((n) => n > 0);
}
