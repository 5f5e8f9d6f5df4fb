import { expect, test } from 'vitest';
import {
  levelDb,
  type Span,
  speechSpan,
  VOICE_FRAME,
  type VoiceFrame,
} from '../../../src/speech/recogniser/acoustics/speech-span.js';

const FRAMES = 100;
const MARGIN = { before: 4000, after: 1600 };

interface Sound {
  from: number;
  to: number;
  level: number;
  /** what the denoiser leaves of it, of 1 */
  left?: number;
  probability?: number;
}

/** A recording whose frames from…to sound at a level: its samples, and its frames with the probabilities that a voice model would give. */
function recording(...sounds: Sound[]): [number, VoiceFrame[]] {
  const came = new Float32Array(FRAMES * VOICE_FRAME);
  const clean = new Float32Array(FRAMES * VOICE_FRAME);
  const speech = new Array<number>(FRAMES).fill(0.02);
  for (const { from, to, level, left = 1, probability = 0.9 } of sounds) {
    for (let i = from * VOICE_FRAME; i < to * VOICE_FRAME; i++) {
      came[i] = level * (i % 2 ? 1 : -1);
      clean[i] = left * (came[i] as number);
    }
    speech.fill(probability, from, to);
  }
  const frame = (p: number, i: number): VoiceFrame => ({
    speech: p,
    cameDb: levelDb(came, i * VOICE_FRAME),
    cleanDb: levelDb(clean, i * VOICE_FRAME),
  });
  return [came.length, speech.map(frame)];
}

const found = ([samples, frames]: [number, VoiceFrame[]]): Span | null =>
  speechSpan(samples, frames, { weakerDb: 18, lessPerS: 20, farWeakerDb: 3 });

test('from the first to the last word, pauses between included, a quarter of a second around', () => {
  const span = found(recording({ from: 30, to: 40, level: 0.1 }, { from: 60, to: 70, level: 0.08 }));
  expect(span).toEqual({ from: 30 * VOICE_FRAME - MARGIN.before, to: 70 * VOICE_FRAME + MARGIN.after });
});

test('a far softer voice before or after is somebody else', () => {
  const span = found(
    recording(
      { from: 5, to: 15, level: 0.01 },
      { from: 30, to: 60, level: 0.1 },
      { from: 80, to: 90, level: 0.012 },
    ),
  );
  expect(span).toEqual({ from: 30 * VOICE_FRAME - MARGIN.before, to: 60 * VOICE_FRAME + MARGIN.after });
});

test.each([
  { gapFrames: 5, end: 70 },
  { gapFrames: 30, end: 55 },
])(
  'what is softer belongs to the voice soon after it, not long after: $gapFrames frames',
  ({ gapFrames, end }) => {
    const from = 55 + gapFrames;
    const span = found(recording({ from: 30, to: 55, level: 0.1 }, { from, to: from + 10, level: 0.02 }));
    expect(span?.to).toBe(end * VOICE_FRAME + MARGIN.after);
  },
);

test('a breath between two words, or a word that the voice model doubts in a quiet room, ends nothing', () => {
  const span = found(
    recording(
      { from: 30, to: 50, level: 0.1 },
      { from: 52, to: 56, level: 0.005 },
      { from: 58, to: 70, level: 0.1, probability: 0.6 },
    ),
  );
  expect(span?.to).toBe(70 * VOICE_FRAME + MARGIN.after);
});

test('an equally loud voice belongs to it even after a long pause', () => {
  const span = found(recording({ from: 5, to: 30, level: 0.1 }, { from: 80, to: 90, level: 0.08 }));
  expect(span?.to).toBe(90 * VOICE_FRAME + MARGIN.after);
});

test('a click is no speech, and where nobody speaks there is nothing to cut to', () => {
  expect(found(recording({ from: 30, to: 32, level: 0.5 }))).toBeNull();
  expect(found(recording())).toBeNull();
});

test('never beyond the recording', () => {
  const span = found(recording({ from: 0, to: FRAMES, level: 0.1 }));
  expect(span).toEqual({ from: 0, to: FRAMES * VOICE_FRAME });
});

test('a voice that wavers goes on until it is clearly gone', () => {
  const [samples, frames] = recording({ from: 30, to: 60, level: 0.1 });
  const wavering = frames.map((f, i) => (i >= 40 && i < 50 ? { ...f, speech: 0.4 } : f));
  expect(found([samples, wavering])).toEqual({
    from: 30 * VOICE_FRAME - MARGIN.before,
    to: 60 * VOICE_FRAME + MARGIN.after,
  });
});

test.each([
  { name: 'of which the denoiser took the most', left: 0.2 },
  { name: 'that is hardly a voice', probability: 0.6, left: 0.75 },
])('as loud as the voice, a noise after it $name is left out', ({ name: _, ...noise }) => {
  const span = found(recording({ from: 30, to: 60, level: 0.1 }, { from: 75, to: 90, level: 0.1, ...noise }));
  expect(span?.to).toBe(60 * VOICE_FRAME + MARGIN.after);
});
