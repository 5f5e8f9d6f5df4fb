import { performance } from 'node:perf_hooks';
import { installedLanguage } from '../../../src/app/language.js';
import type { Passed } from '../../../src/speech/stages.js';
import { isProblem, readWav, toInt16 } from '../../../src/speech/wav.js';
import { seeded } from '../voice/random.js';
import { everydayTalk } from '../voice/talk.js';
import { hush, LiveRun, STRANGERS, sentenceFile, type Use } from './live.js';
import { prepareRun, type RunPart } from './prepared-run.js';
import { type EchoPath, pause, type SoundRoom, type Tap } from './sound-room.js';

export interface Stage {
  room: SoundRoom;
  speaker: Tap;
  person: Tap;
  /** what the assistant's microphone hears */
  microphone: Tap;
  folder: string;
  /** which voice the assistant speaks with */
  voice: string;
  /** further variables of its environment */
  env?: Readonly<Record<string, string>>;
}

export const PATHS: readonly EchoPath[] = [
  { name: '-12 dB after 150 ms', db: -12, delayMs: 150 },
  { name: '-20 dB after 60 ms', db: -20, delayMs: 60 },
  { name: 'none (headphones)', db: null, delayMs: 0 },
];
const stranger = (i: number): string => STRANGERS[i % STRANGERS.length] ?? '';

export interface Interruption {
  said: string;
  heard: string[];
  /** whether that means what was said */
  understood: boolean;
  /** whether it was sounding just then, and not pausing between two sentences */
  over: boolean;
  /** from the beginning of the person's voice at the microphone to the assistant's silence, ms; null when it went on, or paused */
  silentAfterMs: number | null;
  /** what the ears made of it, with the time since the voice began, ms */
  made: string[];
  /** what the room's virtual devices, not its air, took to bring the voice there, ms; null: it could not be told */
  broughtMs: number | null;
}

/** Of a clip so much tells where it sounded, s */
const TOLD_BY_S = 0.5;

/** How much later than the person the microphone heard this clip, ms; null where either cannot be told. */
async function broughtAfter(
  { person, microphone }: Stage,
  clip: string,
  sinceMs: number,
): Promise<number | null> {
  const sound = await readWav(clip);
  if (isProblem(sound)) return null;
  const begins = toInt16(sound.pcm.subarray(0, TOLD_BY_S * 16_000));
  const saidMs = person.whenSounded(begins, sinceMs);
  const heardMs = saidMs === null ? null : microphone.whenSounded(begins, saidMs);
  return saidMs === null || heardMs === null ? null : heardMs - saidMs;
}

/** A long answer is interrupted with each of the sentences in turn. */
export async function interrupt(
  stage: Stage,
  path: EchoPath,
  said: readonly string[],
): Promise<Interruption[]> {
  const { room, speaker, person, folder } = stage;
  await room.setEcho(path);
  const run = new LiveRun(room, stage.voice, [], stage.env);
  const out: Interruption[] = [];
  await run.until(/^I am listening/, 30_000);
  run.type('begin the run');
  await pause(4_000);
  for (const [i, words] of said.entries()) {
    run.type('quiet');
    await hush(speaker, 600);
    const clip = await sentenceFile(folder, stranger(i), words);
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
    const broughtMs = await broughtAfter(stage, clip, sinceMs - 100);
    const heard = run.heardSince(sinceMs);
    out.push({
      said: words,
      heard,
      understood: heard.some((h) => language.sameMeaning(h, words)),
      over: over !== undefined,
      made: run.stages
        .filter(({ stage, atMs }) => atMs > beganMs && (stage === 'heard' || stage === 'own-voice'))
        .map(({ stage, atMs, text }) => `${stage} ${text} after ${(atMs - beganMs).toFixed(0)}`),
      silentAfterMs: over && over.toMs < spokenMs + 1_000 ? over.toMs - beganMs - (broughtMs ?? 0) : null,
      broughtMs,
    });
  }
  const exit = await run.leave();
  if (exit !== 0) throw new Error(`the run ended with ${exit}`);
  return out;
}

/** From the end of a question, ms: until its answer sounded; null: it did not. */
export interface Answered {
  said: string;
  soundedMs: number | null;
  /** until each stage was passed on the way there */
  stages: Partial<Record<Passed['stage'], number>>;
}

/** Questions are asked in a quiet room. */
export async function latencies(stage: Stage, path: EchoPath, rounds: number): Promise<Answered[]> {
  const { room, speaker, person, folder } = stage;
  const questions = [
    'what is next',
    'where are we',
    'how long left',
    'what is in bottle three',
    'say that again',
  ];
  await room.setEcho(path);
  const run = new LiveRun(room, stage.voice, [], stage.env);
  await run.until(/^I am listening/, 30_000);
  run.type('begin the run');
  await pause(3_000);
  run.type('quiet');
  const out: Answered[] = [];
  for (let i = 0; i < rounds; i++) {
    await hush(speaker);
    const said = questions[i % questions.length] ?? '';
    const clip = await sentenceFile(folder, stranger(i + Math.floor(i / 5)), said);
    await pause(500);
    await room.play(clip);
    await pause(2_500);
    const endMs = person.lastMs;
    const first = speaker.stretches.find(({ fromMs }) => fromMs > endMs - 100);
    out.push({
      said,
      soundedMs: first ? first.fromMs - endMs : null,
      // of several the first: an answer may have more than one piece
      stages: Object.fromEntries(
        run.stages
          .filter(({ atMs }) => atMs > endMs && atMs < endMs + 2_500)
          .reverse()
          .map(({ stage, atMs }) => [stage, atMs - endMs]),
      ),
    });
    run.type('quiet');
  }
  const exit = await run.leave();
  if (exit !== 0) throw new Error(`the run ended with ${exit}`);
  return out;
}

const language = installedLanguage();

/** Typed just before a call is due: it makes a warning. */
const WARNING = 'spilled twenty ml of developer on the table';

/** Takes a run by typing to where the developer is in; the time at which it is. */
async function toDeveloper(run: LiveRun): Promise<number> {
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
  return (await run.until(/[Dd]eveloper is in: /, 10_000, typedMs))?.atMs ?? typedMs;
}

/**
 * A developer with a call every quarter of a minute, and a warning begun just before each: how late each call sounds after the
 * time that its bath's clock gives, ms; null: it did not.
 */
export async function calls(stage: Stage, seconds: number): Promise<(number | null)[]> {
  const { room, speaker } = stage;
  const run = new LiveRun(room, stage.voice, ['--no-mic'], stage.env);
  await run.until(/I speak with/, 30_000);
  const beganMs = await toDeveloper(run);
  const out: (number | null)[] = [];
  const call = /^(NOW +)?(Agitate: |Rest\.|10 seconds to drain|Drain the)/;
  for (let dueMs = beganMs + 15_000; dueMs < beganMs + 1_000 * seconds; dueMs += 15_000) {
    await pause(dueMs - 1_200 - performance.now());
    run.type(WARNING);
    const said = await run.until(call, 4_000, dueMs - 500);
    await pause(2_000);
    // nothing parts the call from the warning that it cuts off: it is found by its own sound
    const given = run.stages.find(
      ({ stage, atMs }) => said && stage === 'sound-played' && atMs > said.atMs - 20,
    );
    const soundedMs = given ? speaker.whenSounded(given.begins, given.atMs - 20) : null;
    out.push(said && soundedMs !== null ? Math.max(0, soundedMs - Math.min(dueMs, said.atMs)) : null);
  }
  await run.leave();
  return out;
}

export interface Faults {
  killed: number;
  exit: number | string | null;
  answered: boolean;
  /** times that the developer's clock called, and times that it should have, while parts were killed */
  called: number;
  wanted: number;
}

/** A part that was killed again and again waits longer and longer before it starts: so often is asked whether it hears. */
const PATIENCE = 12;

/**
 * Kills recorders, players, the voice's process and the recogniser's while it talks, listens and develops; then asks whether it still
 * hears. `sofar` is told the counts after each minute, so that a bench that is cut off has some.
 */
export async function faults(
  stage: Stage,
  seconds: number,
  seed = 5,
  sofar: (minutes: number, counts: Pick<Faults, 'killed' | 'called' | 'wanted' | 'exit'>) => void = () => {},
): Promise<Faults> {
  const { room, folder } = stage;
  const random = seeded(seed);
  const run = new LiveRun(room, stage.voice, [], stage.env);
  await run.until(/^I am listening/, 60_000);
  const beganMs = await toDeveloper(run);
  const untilMs = beganMs + 1_000 * seconds;
  const call = /^(NOW +)?(Agitate: |Rest\.|10 seconds to drain|Drain the)/;
  let killed = 0;
  let told = 0;
  const counts = (afterS: number) => ({
    killed,
    called: run.lines.filter(({ atMs, text }) => atMs > beganMs && call.test(text)).length,
    wanted: Math.floor(Math.min(afterS, 150) / 15),
    exit: run.exit,
  });
  while (performance.now() < untilMs && run.exit === null) {
    run.type('help');
    void room.play(await sentenceFile(folder, stranger(killed), 'what is in bottle three'));
    await pause(500 + 4_000 * random());
    const parts = run.tree().slice(1);
    const all = random() < 0.2;
    for (const pid of all ? parts : parts.slice(0, 1 + Math.floor(random() * parts.length)))
      try {
        process.kill(pid, 'SIGKILL');
        killed++;
      } catch {
        // it had ended by itself
      }
    const afterS = (performance.now() - beganMs) / 1_000;
    if (Math.floor(afterS / 60) > told) sofar(++told, counts(afterS));
  }
  const atEnd = counts(seconds);
  run.type('quiet');
  let answered = false;
  for (let i = 0; i < PATIENCE && !answered && run.exit === null; i++) {
    const sinceMs = performance.now();
    await room.play(await sentenceFile(folder, stranger(i), 'where are we'));
    answered = (await run.until(/^heard: where are we/, 6_000, sinceMs)) !== null;
  }
  return { ...atEnd, answered, exit: await run.leave() };
}

export interface Talk extends Use {
  minutes: number;
  /** what was taken for words to it: acted on, or asked about */
  heard: string[];
  exit: number | string | null;
}

/** Unrelated talk in the room while the developer is in and afterwards, while it waits for the bath to be poured out. */
export async function talk(stage: Stage, minutes: number, seed: number): Promise<Talk> {
  const { room, folder } = stage;
  const run = new LiveRun(room, stage.voice, [], stage.env);
  await run.until(/^I am listening/, 60_000);
  const beganMs = await toDeveloper(run);
  const untilMs = beganMs + 60_000 * minutes;
  const measured = run.use(Math.min(60_000 * minutes - 5_000, 240_000));
  const sentences = everydayTalk(400, seed);
  for (let i = 0; performance.now() < untilMs; i++)
    await room.play(
      await sentenceFile(folder, stranger(Math.floor(i / 3)), sentences[i % sentences.length] ?? ''),
    );
  const use = await measured;
  return { minutes, heard: run.heardSince(beganMs), exit: await run.leave(), ...use };
}

export interface WholeRun {
  first: number;
  of: number;
  /** what was not understood the first time, and whether the assistant was speaking when it was said */
  misheard: { said: string; heard: string; over: boolean }[];
  /** how often it asked whether it had heard right */
  asked: number;
  /** calls that the clock made, and calls that answered what somebody said */
  calls: Call[];
  closed: boolean;
  exit: number | string | null;
}

/** a person waits so long for an answer to begin, and for it to end, before the next sentence, ms */
const ANSWER_BEGINS_MS = 2_000;
const ANSWER_LASTS_MS = 15_000;

/**
 * The rehearsal's run, said live by strangers: how many sentences were understood the first time. Who is asked confirms. `sofar` is
 * told the counts after each sentence.
 */
export async function wholeRun(
  stage: Stage,
  { before, lines }: RunPart,
  noise: string | null,
  sofar: (counts: Pick<WholeRun, 'first' | 'of' | 'asked'>) => void = () => {},
): Promise<WholeRun> {
  const { room, folder, speaker, person } = stage;
  const run = new LiveRun(
    room,
    stage.voice,
    [],
    stage.env,
    (data) => before.length > 0 && prepareRun(data, before),
  );
  await run.until(/^I am listening/, 60_000);
  const calls: Call[] = [];
  const listening = setInterval(() => calls.push(...lateness(run, stage)), 500);
  const stopNoise = noise === null ? () => {} : room.keepPlaying(noise);
  const misheard: WholeRun['misheard'] = [];
  let [of, asked] = [0, 0];
  const turn = before.length;
  const say = async (words: string, voice: string): Promise<{ heard: string[]; over: boolean }> => {
    const sinceMs = performance.now();
    await room.play(await sentenceFile(folder, voice, words));
    const told = await run.until(/^heard: /, 4_000, sinceMs);
    const heard = run.heardSince(sinceMs);
    const endMs = performance.now() + (told ? ANSWER_BEGINS_MS : 0);
    while (performance.now() < endMs && speaker.lastMs < (told?.atMs ?? 0)) await pause(10);
    await hush(speaker, 500, ANSWER_LASTS_MS);
    const beganMs = person.stretches.findLast(({ toMs }) => toMs > sinceMs)?.fromMs ?? sinceMs;
    const over = speaker.stretches.some(({ fromMs, toMs }) => fromMs < beganMs && toMs > beganMs - 250);
    if (run.lines.some(({ atMs, text }) => atMs > sinceMs && text.includes('Did you mean: '))) {
      asked++;
      await say('confirm', voice);
    }
    return { heard, over };
  };
  for (const line of lines) {
    if ('waitS' in line) {
      await pause(1_000 * line.waitS);
      continue;
    }
    const { words } = line;
    of++;
    await hush(speaker, 500, ANSWER_LASTS_MS);
    for (let attempt = 0; ; attempt++) {
      if (attempt === 2) {
        run.type(words);
        await pause(500);
        break;
      }
      const { heard, over } = await say(words, stranger(of + turn + attempt));
      if (heard.some((h) => language.sameMeaning(h, words))) break;
      if (attempt === 0) misheard.push({ said: words, heard: heard.join('; ') || '-', over });
    }
    sofar({ first: of - misheard.length, of, asked });
  }
  await pause(2_000);
  const closed = run.lines.some(({ text }) => text.includes('Run closed'));
  stopNoise();
  clearInterval(listening);
  return { first: of - misheard.length, of, misheard, asked, calls, closed, exit: await run.leave() };
}

/** A call, and how late it sounded. */
export interface Call {
  text: string;
  /** by the clock, or as the answer to somebody */
  timed: boolean;
  /** after it was due, or decided; ms; null: it did not sound */
  lateMs: number | null;
  /** what was printed, said and passed around it, each with its time from then, ms */
  around: string[];
}

/** a call that did not sound within so long is missed, ms */
const CALL_SOUNDS_MS = 2_500;
/** so long before a call may explain it, ms */
const BEFORE_MS = 2_000;

/** The calls that were due by now and were not looked at before. */
function lateness(run: LiveRun, { speaker, person }: Stage): Call[] {
  const over = performance.now() - CALL_SOUNDS_MS;
  const out: Call[] = [];
  for (const [i, due] of run.stages.entries()) {
    if (due.looked || (due.stage !== 'due' && due.stage !== 'answers') || due.atMs > over) continue;
    due.looked = true;
    const given = run.stages.slice(i).find(({ stage }) => stage === 'sound-played');
    const soundedMs = given ? speaker.whenSounded(given.begins, given.atMs - 20) : null;
    const near = (ms: number): boolean => ms > due.atMs - BEFORE_MS && ms < (soundedMs ?? due.atMs + 500);
    const since = (ms: number): string => (ms - due.atMs).toFixed(0);
    const spans = (who: string, tap: Tap): { atMs: number; what: string }[] =>
      tap.stretches
        .filter(({ fromMs, toMs }) => near(toMs) || near(fromMs))
        .map(({ fromMs, toMs }) => ({ atMs: fromMs, what: `${who} sounds until ${since(toMs)}` }));
    const around = [
      ...spans('speaker', speaker),
      ...spans('person', person),
      ...run.lines.filter(({ atMs }) => near(atMs)).map(({ atMs, text }) => ({ atMs, what: text })),
      ...run.stages
        .filter(({ atMs }) => near(atMs))
        .map(({ atMs, stage, text }) => ({ atMs, what: `${stage} ${text}`.trim() })),
    ];
    out.push({
      text: due.text,
      timed: due.stage === 'due',
      lateMs: soundedMs === null ? null : Math.max(0, soundedMs - due.atMs),
      around: around.sort((a, b) => a.atMs - b.atMs).map(({ atMs, what }) => `${since(atMs)} ${what}`),
    });
  }
  return out;
}
