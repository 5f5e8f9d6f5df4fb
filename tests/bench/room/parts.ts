import { performance } from 'node:perf_hooks';
import { hush, LiveRun, sentenceFile } from './live.js';
import { type EchoPath, pause, type SoundRoom, type Tap } from './sound-room.js';

export interface Stage {
  room: SoundRoom;
  speaker: Tap;
  person: Tap;
  folder: string;
  /** which voice the assistant speaks with */
  voice: string;
}

export const PATHS: readonly EchoPath[] = [
  { name: '-12 dB after 150 ms', db: -12, delayMs: 150 },
  { name: '-20 dB after 60 ms', db: -20, delayMs: 60 },
  { name: 'none (headphones)', db: null, delayMs: 0 },
];
const PEOPLE = ['en-us+m2', 'en-gb-x-rp+f4', 'en-us+f2', 'en-gb+m6'];

export interface Interruption {
  said: string;
  heard: string[];
  /** from the beginning of the person's voice to the assistant's silence, ms; null when it went on */
  silentAfterMs: number | null;
}

/** A long answer is interrupted with each of the sentences in turn. */
export async function interrupt(
  stage: Stage,
  path: EchoPath,
  said: readonly string[],
): Promise<Interruption[]> {
  const { room, speaker, person, folder } = stage;
  await room.setEcho(path);
  const run = new LiveRun(room, stage.voice);
  const out: Interruption[] = [];
  await run.until(/^I am listening/, 30_000);
  run.type('begin the run');
  await pause(4_000);
  for (const [i, words] of said.entries()) {
    run.type('quiet');
    await hush(speaker, 600);
    const clip = await sentenceFile(folder, PEOPLE[i % PEOPLE.length] ?? 'en-us', words);
    const askedMs = performance.now();
    run.type('what are the cautions for the bleach');
    for (let n = 0; n < 500 && speaker.lastMs < askedMs; n++) await pause(10);
    await pause([1_000, 1_800, 2_600, 600][i % 4] ?? 1_000);
    const sinceMs = performance.now();
    await room.play(clip);
    await run.until(/^heard: /, 6_000, sinceMs);
    await pause(500);
    const beganMs = person.stretches.find(({ fromMs }) => fromMs > sinceMs - 100)?.fromMs ?? sinceMs;
    const over = speaker.stretches.find(({ fromMs, toMs }) => fromMs < beganMs && toMs > beganMs);
    const spokenMs = person.lastMs;
    out.push({
      said: words,
      heard: run.heardSince(sinceMs),
      silentAfterMs: over && over.toMs < spokenMs + 1_000 ? over.toMs - beganMs : null,
    });
  }
  const exit = await run.leave();
  if (exit !== 0) throw new Error(`the run ended with ${exit}`);
  return out;
}

/** Questions are asked in a quiet room: from the end of each to the first sound of its answer, ms; null: none came. */
export async function latencies(stage: Stage, path: EchoPath, rounds: number): Promise<(number | null)[]> {
  const { room, speaker, person, folder } = stage;
  const questions = [
    'what is next',
    'where are we',
    'how long left',
    'what is in bottle three',
    'say that again',
  ];
  await room.setEcho(path);
  const run = new LiveRun(room, stage.voice);
  await run.until(/^I am listening/, 30_000);
  run.type('begin the run');
  await pause(3_000);
  run.type('quiet');
  const out: (number | null)[] = [];
  for (let i = 0; i < rounds; i++) {
    await hush(speaker);
    const clip = await sentenceFile(folder, PEOPLE[i % 4] ?? 'en-us', questions[i % questions.length] ?? '');
    await pause(500);
    await room.play(clip);
    await pause(2_500);
    const endMs = person.lastMs;
    const first = speaker.stretches.find(({ fromMs }) => fromMs > endMs - 100);
    out.push(first ? first.fromMs - endMs : null);
    run.type('quiet');
  }
  const exit = await run.leave();
  if (exit !== 0) throw new Error(`the run ended with ${exit}`);
  return out;
}

/** A developer with a call every quarter of a minute, and a warning begun just before each: how late each call sounds, ms. */
export async function calls(stage: Stage, seconds: number): Promise<(number | null)[]> {
  const { room, speaker } = stage;
  const run = new LiveRun(room, stage.voice, ['--no-mic']);
  await run.until(/I speak with/, 30_000);
  const lines =
    'begin the run|next step|next step|film is loaded|prebath is in|tank is empty|water is in|tank is empty';
  for (const line of [...lines.split('|'), 'pouring the developer in from bottle two']) {
    run.type(line);
    await pause(400);
  }
  run.type('quiet');
  await pause(300);
  const typedMs = performance.now();
  run.type('developer is in');
  const beganMs = (await run.until(/[Dd]eveloper is in: /, 10_000, typedMs))?.atMs ?? typedMs;
  const out: (number | null)[] = [];
  const call = /^(NOW +)?(Agitate: |Rest\.|10 seconds to drain|Drain the)/;
  for (let dueMs = beganMs + 15_000; dueMs < beganMs + 1_000 * seconds; dueMs += 15_000) {
    await pause(dueMs - 1_200 - performance.now());
    run.type('spilled twenty ml of developer on the table');
    const said = await run.until(call, 4_000, dueMs - 500);
    await pause(2_000);
    const first = speaker.stretches.find(({ fromMs }) => said && fromMs > said.atMs - 60);
    // the warning stops for the call: where no gap parts them the call began where the warning ended
    out.push(said && first ? Math.max(0, first.fromMs - said.atMs) : null);
  }
  await run.leave();
  return out;
}

export interface Faults {
  killed: number;
  exit: number | string | null;
  answered: boolean;
}

/** Kills recorders, players and the voice's process while it talks; then asks whether it still answers. */
export async function faults(
  stage: Stage,
  rounds: number,
  children: (pid: number) => Promise<number[]>,
): Promise<Faults> {
  const { room, folder } = stage;
  const run = new LiveRun(room, stage.voice);
  await run.until(/^I am listening/, 30_000);
  run.type('begin the run');
  let killed = 0;
  for (let i = 0; i < rounds; i++) {
    run.type('help');
    await pause(700 + ((i * 331) % 900));
    for (const pid of await children(run.child.pid ?? 0)) {
      process.kill(pid, 'SIGKILL');
      killed++;
    }
    await pause(300);
  }
  run.type('quiet');
  await pause(4_000);
  const sinceMs = performance.now();
  await room.play(await sentenceFile(folder, PEOPLE[0] ?? 'en-us', 'where are we'));
  const answered = (await run.until(/^heard: where are we/, 5_000, sinceMs)) !== null;
  return { killed, answered, exit: await run.leave() };
}
