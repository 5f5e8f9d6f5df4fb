import { expect, test } from 'vitest';
import { speechSpan, VOICE_FRAME } from '../../../src/speech/recogniser/acoustics/speech-span.js';

const FRAMES = 100;
const MARGIN = 4000;

/** A recording whose frames from…to sound at a level, with the probabilities that a voice model would give. */
function recording(...voices: { from: number; to: number; level: number }[]): [Float32Array, number[]] {
  const pcm = new Float32Array(FRAMES * VOICE_FRAME);
  const speech = new Array<number>(FRAMES).fill(0.02);
  for (const { from, to, level } of voices) {
    for (let i = from * VOICE_FRAME; i < to * VOICE_FRAME; i++) pcm[i] = level * (i % 2 ? 1 : -1);
    speech.fill(0.9, from, to);
  }
  return [pcm, speech];
}

test('from the first to the last word, pauses between included, a quarter of a second around', () => {
  const span = speechSpan(...recording({ from: 30, to: 40, level: 0.1 }, { from: 60, to: 70, level: 0.08 }));
  expect(span).toEqual({ from: 30 * VOICE_FRAME - MARGIN, to: 70 * VOICE_FRAME + MARGIN });
});

test('a far softer voice before or after is somebody else', () => {
  const span = speechSpan(
    ...recording(
      { from: 5, to: 15, level: 0.01 },
      { from: 30, to: 60, level: 0.1 },
      { from: 80, to: 90, level: 0.012 },
    ),
  );
  expect(span).toEqual({ from: 30 * VOICE_FRAME - MARGIN, to: 60 * VOICE_FRAME + MARGIN });
});

test('a click is no speech, and where nobody speaks there is nothing to cut to', () => {
  expect(speechSpan(...recording({ from: 30, to: 32, level: 0.5 }))).toBeNull();
  expect(speechSpan(...recording())).toBeNull();
});

test('never beyond the recording', () => {
  const span = speechSpan(...recording({ from: 0, to: FRAMES, level: 0.1 }));
  expect(span).toEqual({ from: 0, to: FRAMES * VOICE_FRAME });
});

test('a voice that wavers goes on until it is clearly gone', () => {
  const [pcm, speech] = recording({ from: 30, to: 60, level: 0.1 });
  speech.fill(0.4, 40, 50);
  expect(speechSpan(pcm, speech)).toEqual({
    from: 30 * VOICE_FRAME - MARGIN,
    to: 60 * VOICE_FRAME + MARGIN,
  });
});
