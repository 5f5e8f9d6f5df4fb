import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Conversation, Taken } from '../../src/app/conversation.js';
import { TalkMeter, weigh } from '../../src/app/evidence.js';
import { normaliseTyped } from '../../src/language/languages/english/typed.js';
import { isDeed } from '../../src/language/meaning/weight.js';
import type { Hearing } from '../../src/language/types.js';
import { createRecogniser, type OpenRecogniser } from '../../src/speech/recogniser/index.js';
import { editDistance } from '../../src/speech/recogniser/reject/cues.js';
import { inParts } from './parts.js';
import { judged, readLines, Stage, VERDICTS } from './said/play.js';
import { inNoise } from './voice/noise.js';
import { says } from './voice/product.js';
import { type Clip, hasPrompts, hasSphinxData, promptTalk, sphinxSets } from './voice/real.js';
import { percent } from './voice/stats.js';
import { devVoices, judgeVoices, speaks, synthesise } from './voice/synth.js';
import { everydayTalk } from './voice/talk.js';
import { utterancesOf } from './voice/utterances.js';

/**
 * People's own words spoken by held-back voices in quiet, each in its situation: heard, weighed and answered as a live run does, with the
 * open decode and with the exact grammar alone. Then talk that is for somebody else: how often it is answered, asked about or done.
 * `said-voice.js [FILE…] [--count 200] [--talk 200] [--text FILE] [--dev] [--all] [--parts N]`: of each file so many sentences, evenly
 * drawn; `--text`: talk, a piece a line, in place of the other talk; `--dev` in the voices that constants are chosen on.
 */
const SPEECH_HZ = 16_000;
/** in which talk for somebody else is overheard */
const OVERHEARD_IN = ['idle', 'immersed: developer', 'mixing: sulphite asked for'];
const DONE = ['asked', 'answered', 'acted'] as const;
const NO_TALK = {
  seconds: 0,
  pieces: 0,
  taken: 0,
  asked: 0,
  answered: 0,
  acted: 0,
  askedBefore: 0,
  answeredBefore: 0,
  actedBefore: 0,
};

interface Counted {
  now: { [verdict: string]: number };
  before: { [verdict: string]: number };
  nothingNow: { [verdict: string]: number };
  words: { said: number; wrong: number; sentences: number; whole: number };
  talk: { [condition: string]: typeof NO_TALK };
  milliseconds: string[];
  lines: string[];
}

const { now, before, nothingNow, words, talk, milliseconds, lines } = await inParts(run);
console.log('## Sentences of people in held-back voices, quiet\n');
const row = (name: string, counts: { [verdict: string]: number }): string => {
  const total = VERDICTS.reduce((sum, v) => sum + (counts[v] ?? 0), 0);
  const good = (counts.right ?? 0) + (counts.asked ?? 0);
  return `${name.padEnd(44)}${String(total).padStart(6)}${VERDICTS.map((v) => String(counts[v] ?? 0).padStart(15)).join('')}${percent(good, total).padStart(18)}`;
};
console.log(
  `${''.padEnd(44)}${'spoken'.padStart(6)}${VERDICTS.map((v) => v.padStart(15)).join('')}${'right or asked'.padStart(18)}`,
);
console.log(row('the exact grammar alone', before));
console.log(row('with the open decode', now));
console.log(row('of these, what must do nothing', nothingNow));
console.log(
  `\nThe open decode alone on all of them: ${words.wrong} of ${words.said} words wrong (${percent(words.wrong, words.said)}), ${words.whole} of ${words.sentences} sentences without a fault.`,
);
const sorted = milliseconds.map(Number).sort((a, b) => a - b);
const at = (share: number): string =>
  String(Math.round(sorted[Math.floor(share * (sorted.length - 1))] ?? 0));
console.log(
  `It takes ${at(0.5)} ms at the median for a second of sound ×4, ${at(0.95)} at 95 %, ${at(1)} at most.`,
);
console.log('\n## Talk for somebody else, always listening: in an hour of it\n');
for (const [name, t] of Object.entries(talk)) {
  const hourly = (n: number): string => ((n * 3600) / t.seconds).toFixed(1);
  console.log(
    `${name.padEnd(44)}${(t.seconds / 60).toFixed(1)} minutes, ${t.pieces} pieces: acted ${t.acted} (${hourly(t.acted)}), asked ${t.asked} (${hourly(t.asked)}), answered ${t.answered} (${hourly(t.answered)}); ` +
      `the grammar alone: taken for a command ${t.taken} (${hourly(t.taken)}), acted ${t.actedBefore}, asked ${t.askedBefore}, answered ${t.answeredBefore}`,
  );
}
for (const line of lines) console.log(line);

async function run({ index, of }: { index: number; of: number }, rest: readonly string[]): Promise<Counted> {
  const option = (name: string, otherwise: number): number => {
    const i = rest.indexOf(name);
    return i < 0 ? otherwise : Number(rest[i + 1]);
  };
  const files = rest.filter(
    (a, i) => !a.startsWith('--') && !/^--(?:count|talk|text)$/.test(rest[i - 1] ?? ''),
  );
  const voices = (rest.includes('--dev') ? devVoices : judgeVoices).filter(speaks);
  const counted: Counted = {
    now: {},
    before: {},
    nothingNow: {},
    words: { said: 0, wrong: 0, sentences: 0, whole: 0 },
    talk: {},
    milliseconds: [],
    lines: [],
  };
  const recogniser = await createRecogniser();
  const stage = new Stage();
  const spoken = (files.length > 0 ? files : ['tests/bench/said/strangers-b.tsv']).flatMap((file) => {
    const all = readLines(readFileSync(file, 'utf8'));
    const count = Math.min(all.length, option('--count', 200));
    return Array.from({ length: count }, (_, i) => all[Math.floor((i * all.length) / count)]).flatMap(
      (l) => l ?? [],
    );
  });
  for (const [i, line] of spoken.entries()) {
    if (i % of !== index) continue;
    const voice = voices[i % voices.length] ?? '';
    const conversation = stage.at(line.situation);
    const pcm = synthesise(voice, line.words);
    const hearing = await heard(recogniser, stage, conversation, pcm);
    const alone = judged(take(stage.at(line.situation), { ...hearing, open: [] }), line.expected);
    const { verdict, taken } = judged(take(conversation, hearing), line.expected);
    count(counted.before, alone.verdict);
    count(counted.now, verdict);
    if (line.expected.nothing) count(counted.nothingNow, verdict);
    const began = performance.now();
    const open = recogniser.openly()[0]?.words ?? '';
    counted.milliseconds.push(String(((performance.now() - began) * 4 * SPEECH_HZ) / pcm.length));
    const reference = normaliseTyped(line.words).split(' ');
    const wrong = editDistance(reference, open.split(' '));
    counted.words.said += reference.length;
    counted.words.wrong += wrong;
    counted.words.sentences++;
    if (wrong === 0) counted.words.whole++;
    if (rest.includes('--all') || verdict.startsWith('wrong'))
      counted.lines.push(
        `${verdict.padEnd(15)} ${line.situation}\t${line.words}\n${' '.repeat(16)}${voice}: ${hearing.accepted ? hearing.best?.words : open}\n${' '.repeat(16)}${taken}  (may be: ${line.expected.alternatives.join(' | ') || 'nothing'})`,
      );
  }
  const text = rest.includes('--text') ? (rest[rest.indexOf('--text') + 1] ?? '') : null;
  for (const [source, clips] of text === null
    ? talks(option('--talk', 200), voices)
    : readOut(text, voices)) {
    // each part hears a stretch of its own
    const own = clips.filter((_, i) => Math.floor((i * of) / clips.length) === index);
    for (const situation of OVERHEARD_IN) await overhear(source, situation, own);
  }
  await recogniser.close();
  return counted;

  /** Talk for somebody else in a situation, as it comes without a pause and each piece as a remark by itself. */
  async function overhear(source: string, situation: string, clips: readonly Talk[]): Promise<void> {
    const name = `${source}, ${situation}`;
    const [flowing, remarks] = [{ ...NO_TALK }, { ...NO_TALK }];
    counted.talk[`${name}, without a pause`] = flowing;
    counted.talk[`${name}, a remark now and then`] = remarks;
    const meter = new TalkMeter();
    const graph = stage.bench.language.graph(stage.at(situation).situations());
    let clock = 0;
    // a few bits of talk are commands word for word
    const talk = clips.filter(({ words: said }) => !says(graph, normaliseTyped(said)));
    for (const { words: said, pcm } of talk)
      for (const piece of await utterancesOf(pcm(), recogniser, graph)) await remark(said, piece);

    async function remark(said: string, pcm: Float32Array): Promise<void> {
      const hearing = await heard(recogniser, stage, stage.at(situation), pcm);
      const ms = (1000 * pcm.length) / SPEECH_HZ;
      const inFlow = tally(flowing, hearing, situation, ms, meter.goesOn(clock + ms));
      if (!isTaken(inFlow)) meter.heard(clock, clock + ms);
      const alone = tally(remarks, hearing, situation, ms, false);
      if (hearing.accepted || isTaken(alone))
        counted.lines.push(
          `talk, ${situation}: ${alone.done}${hearing.accepted ? ' by the grammar' : ''}: “${said}” as “${hearing.accepted ? hearing.best?.words : hearing.open?.[0]?.words}”  ${JSON.stringify(alone)}`,
        );
      clock += ms + 500;
    }
  }

  function tally(
    sum: typeof NO_TALK,
    hearing: Hearing,
    situation: string,
    ms: number,
    goesOn: boolean,
  ): Taken {
    const closed = { ...hearing, open: [] };
    const [now, alone] = [goesOn ? closed : hearing, closed].map((h) => {
      const conversation = stage.at(situation);
      const taken = take(conversation, h, goesOn);
      // a weight far from what is due is asked about, not written down
      const asks = taken.done === 'acted' && conversation.situations().includes('challenged');
      return { taken, done: isQuiet(taken) ? 'answered' : asks ? 'asked' : taken.done } as Met;
    }) as [Met, Met];
    sum.seconds += ms / 1000;
    sum.pieces++;
    if (hearing.accepted) sum.taken++;
    for (const done of DONE) {
      if (now.done === done) sum[done]++;
      if (alone.done === done) sum[`${done}Before`]++;
    }
    return now.taken;
  }
}
interface Met {
  taken: Taken;
  done: Taken['done'] | 'answered';
}

/** As the live run hears it, in quiet. */
async function heard(
  recogniser: OpenRecogniser,
  stage: Stage,
  conversation: Conversation,
  pcm: Float32Array,
): Promise<Hearing> {
  recogniser.setGrammar(stage.bench.language.graph(conversation.situations()));
  const hearing = await recogniser.recognise(pcm);
  return hearing.accepted ? hearing : { ...hearing, open: recogniser.openly() };
}

/** As `app/ears.ts` takes it. */
function take(conversation: Conversation, hearing: Hearing, goesOn = false): Taken {
  if (hearing.open?.length) return conversation.heardOpenly(hearing);
  const made = conversation.madeOf(hearing);
  if (made?.understood.kind !== 'understood')
    return goesOn ? { done: 'ignored', why: '' } : conversation.heard(hearing);
  const verdict = weigh({
    intent: made.understood.intent,
    confidence: hearing.best?.confidence ?? 0,
    words: hearing.best?.words ?? '',
    overVoice: false,
    ownWords: '',
    sinceAskedMs: conversation.situations().includes('challenged') ? 0 : Number.POSITIVE_INFINITY,
    talk: goesOn,
    called: false,
  });
  return verdict === 'pass'
    ? { done: 'ignored', why: '' }
    : conversation.heard(hearing, verdict === 'act', made);
}

interface Talk {
  words: string;
  pcm(): Float32Array;
}

function talks(most: number, voices: readonly string[]): [string, Talk[]][] {
  const made = everydayTalk(most, 4242).map((words, i) => ({
    words,
    pcm: () => synthesise(voices[i % voices.length] ?? '', words),
  }));
  const still = ({ words, pcm }: Clip): Talk => ({ words, pcm: () => pcm });
  const sets: [string, Talk[]][] = [['talk in held-back voices', made]];
  if (hasPrompts()) sets.push(['telephone prompts, one speaker', promptTalk()]);
  if (hasSphinxData())
    sets.push([
      'pocketsphinx-testdata',
      sphinxSets()
        .flatMap((s) => s.clips)
        .slice(0, most)
        .map(still),
    ]);
  return sets;
}

/** The lines of a file, each in a room that is quiet. */
function readOut(file: string, voices: readonly string[]): [string, Talk[]][] {
  const lines = readFileSync(file, 'utf8')
    .split('\n')
    .filter((l) => l.trim() !== '');
  const talk = lines.map((words, i) => ({
    words,
    pcm: () => inNoise(synthesise(voices[i % voices.length] ?? '', words), null, i),
  }));
  return [[`${basename(file)} read out`, talk]];
}

function isTaken({ done }: Taken): boolean {
  return done === 'asked' || done === 'acted';
}

function isQuiet(taken: Taken): boolean {
  return taken.done === 'acted' && !isDeed(taken.intent);
}

function count(into: { [name: string]: number }, name: string): void {
  into[name] = (into[name] ?? 0) + 1;
}
