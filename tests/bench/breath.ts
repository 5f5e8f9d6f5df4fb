import { SpokenSpeech } from '../../src/app/spoken-speech.js';
import type { Verbosity } from '../../src/language/breath.js';
import { Mouth } from '../../src/speech/mouth/mouth.js';
import { talkingDay } from '../app/talking-day.js';

/**
 * How much is said aloud over a whole day, six mixes and one run, in each verbosity: answers, words, and talking time at
 * 160 words a minute beside what full answers would take.
 */
const WORDS_PER_MINUTE = 160;
/** What the program said on the same day before there was brief speech (commit c791c4f, 163 replies). */
const WORDS_BEFORE = 2931;

const words = (text: string): number => text.split(/\s+/).filter(Boolean).length;
const replies = await talkingDay();

/** What the live run would say of it, read off a mouth without a voice. */
function aloud(level: Verbosity): string[] {
  const said: string[] = [];
  const mouth = new Mouth({
    voice: null,
    player: null,
    now: () => 0,
    onEvent: (event) => {
      if (event.type === 'stopped') said.push(event.line.text);
    },
  });
  const speech = new SpokenSpeech(
    mouth,
    () => {},
    () => 0,
  );
  speech.verbosity(level);
  for (const reply of replies) speech.say(reply);
  return said;
}

const full = aloud('full').reduce((sum, t) => sum + words(t), 0);
console.log('verbosity   answers   median words   most words   over 20   talking time   of full   of before');
for (const level of ['full', 'normal', 'brief'] as const) {
  const each = aloud(level);
  const counts = each.map(words).sort((a, b) => a - b);
  const sum = counts.reduce((a, b) => a + b, 0);
  const row = [
    each.length,
    counts[counts.length >> 1],
    counts.at(-1),
    counts.filter((n) => n > 20).length,
    `${(sum / WORDS_PER_MINUTE).toFixed(1)} min`,
    `${((100 * sum) / full).toFixed(0)} %`,
    `${((100 * sum) / WORDS_BEFORE).toFixed(1)} %`,
  ];
  console.log(level.padEnd(10) + row.map((c) => String(c).padStart(12)).join(''));
}
for (const text of aloud('brief').filter((t) => words(t) > 20)) console.log(`${words(text)} words: ${text}`);
