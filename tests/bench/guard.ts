import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { situatedEar } from '../../src/app/hearing.js';
import { PrintedSpeech } from '../../src/app/printed-speech.js';
import type { Hearing } from '../../src/language/types.js';
import { inNoise, type NoiseKind, noiseKinds } from './voice/noise.js';
import { table } from './voice/stats.js';
import { judgeVoices, speaks, synthesise } from './voice/synth.js';

/**
 * Every wrong pour there is, spoken in every kind and depth of noise by voices that were never trained on: how
 * often was it cleared? And, beside it, how often a right pour was cleared at once. A wrong pour counts as cleared
 * whatever the assistant took it for.
 */
const bench = createBench({ sheet: 'ecn2-ferricyanide' });
const ear = await situatedEar(bench.language);
const voices = judgeVoices.filter(speaks).slice(0, Number(process.argv[2] ?? 3));

const loaded = ['begin the run', 'next step', 'next step', 'film is loaded'];
const atDeveloper = [
  ...loaded,
  'prebath is in',
  '+11',
  'returning the prebath to bottle one',
  'tank is empty',
  'water is in',
  '+40',
  'tank is empty',
];
const developerDrained = [
  ...atDeveloper,
  'developer is at 41.1 degrees',
  'pouring the developer in from bottle two',
  'developer is in',
  '+165',
  'drain now',
];

interface Trial {
  before: string[];
  say: string;
  right: boolean;
}

const names = ['pre bath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'];
const numbers = ['one', 'two', 'three', 'four', 'five', 'six'];
const trials: Trial[] = [
  ...names.flatMap((bath, i) =>
    ['stop bath', 'bleach', 'fixer'].includes(bath)
      ? [{ before: atDeveloper, say: `pouring the ${bath} in from bottle ${numbers[i]}`, right: false }]
      : [],
  ),
  { before: atDeveloper, say: 'pouring the developer in from bottle two', right: true },
  ...numbers.map((n, i) => ({
    before: developerDrained,
    say: `returning the developer to bottle ${n}`,
    right: i === 1,
  })),
];

const cleared = (replies: Reply[]): boolean =>
  replies.some((r) => /^(Clear|No harm|Noted\. Go ahead)/.test(r.text));

const readings = (h: Hearing): string =>
  [h.best, ...h.alternatives]
    .flatMap((r) =>
      r
        ? [
            `${r.words} ${r.confidence.toFixed(2)}: ${r.wordTimes.map((w) => w.confidence.toFixed(2)).join(' ')}`,
          ]
        : [],
    )
    .join(' | ');

async function tryOut(trial: Trial, pcm: Float32Array): Promise<'cleared' | 'stopped' | 'unheard'> {
  const clock = new SimulatedClock();
  const replies: Reply[] = [];
  const talk = new Conversation({
    ...bench,
    clock,
    journal: { append: () => null },
    speech: new PrintedSpeech((r) => replies.push(r), clock),
  });
  for (const line of trial.before) {
    if (line.startsWith('+')) clock.moveTo(clock.nowMs() + Number(line.slice(1)) * 1000);
    else talk.typed(line);
    talk.timePassed();
  }
  replies.length = 0;
  const hearing = await ear.hear(pcm, talk.situations());
  talk.heard(hearing);
  if (cleared(replies)) {
    if (!trial.right)
      console.error(`said “${trial.say}”, heard “${hearing.best?.words}” (${readings(hearing)})`);
    return 'cleared';
  }
  return hearing.accepted ? 'stopped' : 'unheard';
}

const rows: string[][] = [];
let wrongCleared = 0;
let wrongTried = 0;
let seed = 77;
for (const kind of [null, ...noiseKinds] as (NoiseKind | null)[]) {
  for (const snrDb of kind ? [20, 10, 5, 0] : [null]) {
    const counts = { wrong: 0, wrongCleared: 0, wrongUnheard: 0, right: 0, rightCleared: 0, rightAsked: 0 };
    for (const voice of voices) {
      const talk = [synthesise('flite:awb', 'the old harbour wall will be mended after the summer holidays')];
      for (const trial of trials) {
        const clean = synthesise(voice, trial.say);
        const pcm = inNoise(clean, kind && snrDb !== null ? { kind, snrDb } : null, seed++, talk);
        const outcome = await tryOut(trial, pcm);
        if (trial.right) {
          counts.right++;
          if (outcome === 'cleared') counts.rightCleared++;
          if (outcome === 'stopped') counts.rightAsked++;
        } else {
          counts.wrong++;
          if (outcome === 'cleared') counts.wrongCleared++;
          if (outcome === 'unheard') counts.wrongUnheard++;
        }
      }
    }
    wrongCleared += counts.wrongCleared;
    wrongTried += counts.wrong;
    rows.push([
      kind ? `${kind} ${snrDb} dB` : 'quiet',
      `${counts.wrongCleared} of ${counts.wrong}`,
      String(counts.wrongUnheard),
      `${counts.rightCleared} of ${counts.right}`,
      String(counts.rightAsked),
    ]);
  }
}
await ear.close();
console.log(
  table(
    ['condition', 'wrong pours cleared', 'of them unheard', 'right pours cleared', 'right pours asked about'],
    rows,
  ),
);
console.log(`\nwrong pours cleared: ${wrongCleared} of ${wrongTried}; voices: ${voices.join(', ')}`);
if (wrongCleared > 0) process.exitCode = 1;
