import { looseTalk } from './commands.js';
import { inNoise, type NoiseKind } from './noise.js';
import { type Plan, plans, type Random } from './plans.js';
import { seeded } from './random.js';
import { recordedDigits, recordedNumber, type Said, speakers } from './recorded.js';
import { joined, resized } from './spoken.js';
import { devVoices, speaks, synthesise, type Voice } from './synth.js';

/** What is said; the sound is made when asked for where nothing after it hangs on that. */
type Saying = Omit<Said, 'pcm'> & { pcm(): Float32Array };

export interface DevelopmentClip extends Saying {
  set: string;
  voice: string;
  noise: string;
}

/** Every set of clips is heard in all of them; null: quiet. */
export const conditions: ({ kind: NoiseKind; snrDb: number } | null)[] = [
  null,
  { kind: 'water', snrDb: 10 },
  { kind: 'water', snrDb: 5 },
  { kind: 'water', snrDb: 0 },
  { kind: 'fan', snrDb: 5 },
  { kind: 'babble', snrDb: 10 },
  { kind: 'babble', snrDb: 5 },
];

/** Said by one talker made of a voice: a tempo and a throat of its own, so that no voice is quite as trained. */
function spoken(voice: Voice, { grammar, words, dictated }: Plan, random: Random): Saying {
  // few tempos, so that words said one at a time are found in the cache
  const rate = 0.85 + 0.15 * Math.floor(3 * random());
  const size = 0.88 + 0.04 * Math.floor(7 * random());
  const say = (text: string): Float32Array => resized(synthesise(voice, text, rate), size);
  if (!dictated) return { grammar, words, pcm: () => say(words) };
  const pcm = joined(words.split(' ').map(say), random);
  return { grammar, words, pcm: () => pcm };
}

const still = ({ pcm, ...said }: Said): Saying => ({ ...said, pcm: () => pcm });

/**
 * Clips on which constants are chosen: sentences of the bench's and the product's grammars, numbers and digits
 * dictated word by word, and real people's where installed; every set of every voice in all conditions alike.
 * @param perVoice clips of each set in each voice
 * @param only these sets; all when not given
 */
export function developmentClips(perVoice = 14, seed = 1001, only?: readonly string[]): DevelopmentClip[] {
  const random = seeded(seed);
  const talk = developmentTalk(0)
    .slice(0, 24)
    .map((one) => one());
  const clips: DevelopmentClip[] = [];
  const add = (set: string, voice: string, one: () => Saying): void => {
    const first = Math.floor(random() * conditions.length);
    for (let i = 0; i < perVoice; i++) {
      const noise = conditions[(first + i) % conditions.length] ?? null;
      const said = one();
      const from = Math.floor(random() * 2 ** 31);
      const pcm = (): Float32Array => inNoise(said.pcm(), noise, from, talk);
      clips.push({ ...said, set, voice, noise: noise ? `${noise.kind} ${noise.snrDb}` : 'clean', pcm });
    }
  };
  const wanted = (set: string): boolean => only?.includes(set) ?? true;
  const sets = plans().filter(([set]) => wanted(set));
  for (const voice of devVoices.filter(speaks))
    for (const [set, plan] of sets) add(set, voice, () => spoken(voice, plan(random), random));
  for (const speaker of speakers()) {
    if (wanted('real digits')) add('real digits', speaker.name, () => still(recordedDigits(speaker, random)));
    if (wanted('real numbers'))
      add('real numbers', speaker.name, () => still(recordedNumber(speaker, random)));
  }
  return clips;
}

/** Talk that is no command, in the same voices; made when asked for. */
export function developmentTalk(
  seed: number,
  sentences: readonly string[] = looseTalk,
): (() => Float32Array)[] {
  const random = seeded(seed + 77);
  const voices = devVoices.filter(speaks);
  return sentences.map((text, i) => {
    const size = 0.9 + 0.05 * Math.floor(5 * random());
    return () => resized(synthesise(voices[i % voices.length] ?? '', text), size);
  });
}
