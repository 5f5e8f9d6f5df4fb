/**
 * The live assistant in a room: the real command on a real sound server with virtual devices. It runs in real time, so other
 * work on the machine makes every figure worse.
 *   npm run bench:room [-- --only barge,latency,calls,faults,use,talk,run] [--voice flite-wasm:slt] [--rounds 8]
 *     [--minutes 1] [--path 0] [--part 0/4] [--noise quiet] [--show]
 * `--voice`, `--path`: one of the assistant's voices, one of the echo paths, instead of all. `--minutes`: of parts killed, and
 * of talk. `--part`: which share of the talk, of the killing and of the run, for several rooms at once; a part of the run goes on from what
 * stands before it in the script. `--noise`: whether the run is said in a quiet room or beside water, instead of in both. A whole run
 * takes twenty minutes, an eighth of it three to five.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { loadManifest } from '../../src/app/commands/rehearse.js';
import { IN_TURN } from '../../src/speech/stages.js';
import { toInt16 } from '../../src/speech/wav.js';
import { LiveRun, type Use } from './room/live.js';
import { calls, faults, interrupt, latencies, PATHS, type Stage, talk, wholeRun } from './room/parts.js';
import { partOf } from './room/prepared-run.js';
import { rehearsalScript } from './room/rehearsal-script.js';
import { type EchoPath, SoundRoom, whyNoRoom } from './room/sound-room.js';
import { noiseAlone, rms } from './voice/noise.js';

const why = whyNoRoom();
if (why) {
  console.log(`skipped: ${why}`);
  process.exit(0);
}
const { values: asked } = parseArgs({
  options: {
    only: { type: 'string', default: 'barge,latency,calls,faults,use,talk,run' },
    voice: { type: 'string', default: 'flite-wasm:slt,espeak-ng' },
    rounds: { type: 'string', default: '8' },
    minutes: { type: 'string', default: '1' },
    path: { type: 'string', default: '' },
    part: { type: 'string', default: '0/1' },
    noise: { type: 'string', default: 'quiet,water' },
    show: { type: 'boolean', default: false },
  },
});
const wants = (part: string): boolean => asked.only.split(',').includes(part);
const rounds = Number(asked.rounds);
const minutes = Number(asked.minutes);
const [part = 0, parts = 1] = asked.part.split('/').map(Number);
const paths =
  asked.path === '' ? PATHS : PATHS.filter((_, i) => asked.path.split(',').map(Number).includes(i));
const STOPS = ['quiet', 'stop'];
// no note among them: what is said after “take a note” is the note
const COMMANDS = ['what is next', 'next step', 'where are we', 'undo that', 'how long left', 'slower'];
const WATER_DB = -36;
/** what stood before a call that is so late is shown, ms */
const SHOWN_LATE_MS = 100;
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
const show = (line: string): void => {
  if (asked.show) console.log(`    ${line}`);
};

const folder = mkdtempSync(join(tmpdir(), 'tankside-room-'));
const room = new SoundRoom();
try {
  await room.open(PATHS[0] ?? { name: 'none', db: null, delayMs: 0 });
  const taps = { speaker: room.tap('speaker'), person: room.tap('person'), microphone: room.tap('mixed') };
  row('what', 'voice', 'where', 'value', 'wanted');
  row('---', '---', '---', '---', '---');
  for (const voice of asked.voice.split(',')) await measure({ room, folder, voice, ...taps });
} finally {
  room.close();
  rmSync(folder, { recursive: true, force: true });
}
process.exit(0);

async function measure(stage: Stage): Promise<void> {
  const { voice } = stage;
  for (const path of paths) {
    if (wants('barge')) await barge(stage, path);
    if (wants('latency')) {
      const all = await latencies(stage, path, rounds);
      const ms = all.map((a) => a.soundedMs);
      const answered = `${sorted(ms).length} of ${ms.length} answered`;
      const value = `${answered}, median ${at(ms, 0.5)}, 95 % ${at(ms, 0.95)}`;
      row('end of speech to first sound', voice, path.name, value, '500 ms, 800 ms');
      for (const a of all)
        show(
          `${a.said}: ${IN_TURN.map((stage) => `${stage} ${a.stages[stage]?.toFixed(0) ?? '-'}`).join(', ')}, sounded ${a.soundedMs?.toFixed(0) ?? '-'}`,
        );
      for (const stage of IN_TURN) {
        const passedMs = all.map((a) => a.stages[stage] ?? null);
        row(
          `of which until ${stage}`,
          voice,
          path.name,
          `median ${at(passedMs, 0.5)}, 95 % ${at(passedMs, 0.95)}`,
          '',
        );
      }
    }
  }
  const near = paths.find((p) => p === PATHS[1]) ?? paths[0] ?? { name: 'none', db: null, delayMs: 0 };
  await room.setEcho(near);
  if (wants('calls')) {
    const ms = await calls(stage, 165);
    const value = `${sorted(ms).length} of ${ms.length}, median ${at(ms, 0.5)}, most ${at(ms, 1)}`;
    row('calls sound late, a warning before each', voice, near.name, value, '300 ms');
  }
  if (wants('faults')) {
    const f = await faults(stage, 60 * minutes, 5 + part, (after, so) => {
      const state = so.exit === null ? 'runs' : `ended with ${so.exit}`;
      const value = `${so.killed} killed, ${state}, called ${so.called} times of ${so.wanted}`;
      row(`after ${after} minutes of parts killed`, voice, near.name, value, '');
    });
    const value = `${f.killed} killed, ended with ${f.exit}, called ${f.called} times of ${f.wanted}, ${f.answered ? 'hears' : 'deaf'} after`;
    row(`${minutes} minutes of parts killed`, voice, near.name, value, 'ends with 0, hears');
  }
  if (wants('use')) {
    const run = new LiveRun(room, voice);
    await run.until(/^I am listening/, 60_000);
    await new Promise((settled) => setTimeout(settled, 15_000));
    const quiet = await run.use(60_000);
    await run.leave();
    const value = `${(100 * quiet.coreShare).toFixed(1)} % of a core, ${quiet.memoryMb.toFixed(0)} MB`;
    row('a quiet room', voice, near.name, value, '10 %, 200 MB');
    showThreads(quiet);
  }
  if (wants('talk')) {
    const t = await talk(stage, minutes, 100 + part);
    const heard =
      t.heard.length === 0 ? 'nothing taken for a command' : `taken for commands: ${t.heard.join('; ')}`;
    const value = `${heard}; ${(100 * t.coreShare).toFixed(1)} % of a core, ${t.memoryMb.toFixed(0)} MB, ended with ${t.exit}`;
    row(`${minutes} minutes of other talk`, voice, near.name, value, '1 an hour, none that steers; 25 %');
    showThreads(t);
  }
  if (wants('run'))
    for (const noise of asked.noise.split(',')) {
      const tap = noise === 'water' ? await water() : null;
      const where = tap === null ? 'quiet' : 'water 10 dB';
      const r = await wholeRun(
        stage,
        partOf(rehearsalScript(loadManifest()), part, parts),
        tap,
        ({ first, of, asked }) => {
          const value = `${first} of ${of} the first time, asked ${asked} times`;
          if (of % 10 === 0) row('a whole run by voice, so far', voice, where, value, '');
        },
      );
      const value = `${r.first} of ${r.of} the first time (${((100 * r.first) / r.of).toFixed(1)} %), asked ${r.asked} times, ${r.closed ? 'closed' : 'not closed'}, ended with ${r.exit}`;
      row('a whole run by voice', voice, where, value, tap === null ? '95 %' : '90 %');
      for (const timed of [true, false]) {
        const late = r.calls.filter((c) => c.timed === timed).map(({ lateMs }) => lateMs);
        const value = `${sorted(late).length} of ${late.length}, median ${at(late, 0.5)}, most ${at(late, 1)}`;
        row(
          timed ? 'its timed calls sound late' : 'calls that answer sound after',
          voice,
          where,
          value,
          timed ? '300 ms' : '',
        );
      }
      for (const { text, timed, lateMs, around } of r.calls) {
        show(`${lateMs?.toFixed(0) ?? 'not'} late, ${timed ? 'timed' : 'an answer'}: ${text}`);
        if ((lateMs ?? Number.POSITIVE_INFINITY) > SHOWN_LATE_MS) for (const a of around) show(`    ${a}`);
      }
      for (const m of r.misheard) show(`${m.said} → ${m.heard}${m.over ? ', over its voice' : ''}`);
    }
}

async function barge(stage: Stage, path: EchoPath): Promise<void> {
  const kinds = [
    { name: 'quiet, stop', list: STOPS, wanted: '95 %' },
    { name: 'other commands', list: COMMANDS, wanted: '85 %' },
  ];
  for (const { name, list, wanted } of kinds) {
    const tries = await interrupt(stage, path, cycle(list));
    const heard = tries.filter((t) => t.understood).length;
    const silent = tries.map((t) => t.silentAfterMs);
    row(`heard over its voice: ${name}`, stage.voice, path.name, `${heard} of ${tries.length}`, wanted);
    const over = tries.filter((t) => t.over).length;
    const value = `${sorted(silent).length} of ${over} that began over it, median ${at(silent, 0.5)}, 95 % ${at(silent, 0.95)}`;
    row('silent after the voice reached the microphone', stage.voice, path.name, value, '200 ms');
    const brought = tries.map((t) => t.broughtMs);
    const devices = `${sorted(brought).length} of ${tries.length}, median ${at(brought, 0.5)}, 95 % ${at(brought, 0.95)}`;
    row('which the virtual devices took', stage.voice, path.name, devices, '');
    for (const t of tries) {
      const silent = t.silentAfterMs?.toFixed(0) ?? (t.over ? 'on' : 'in a pause');
      show(
        `${t.said} → ${t.heard.join('; ') || '-'}, ${silent}, brought after ${t.broughtMs?.toFixed(0) ?? '-'}`,
      );
      if (!t.understood || (t.silentAfterMs ?? 0) > 200) for (const m of t.made) show(`    ${m}`);
    }
  }
}

function showThreads({ threads }: Use): void {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const total = ({ user, system }: Use['threads'][number]): number => user + system;
  for (const t of threads.sort((a, b) => total(b) - total(a)))
    show(`${t.id}: ${percent(t.user)} and ${percent(t.system)} in the kernel`);
}

/** A running tap, ten decibels below the strangers, as raw sound. */
async function water(): Promise<string> {
  const sound = noiseAlone('water', 60, 7);
  const gain = 10 ** (WATER_DB / 20) / rms(sound);
  const samples = toInt16(sound.map((v) => v * gain));
  const file = join(folder, 'water.raw');
  writeFileSync(file, Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength));
  return file;
}
