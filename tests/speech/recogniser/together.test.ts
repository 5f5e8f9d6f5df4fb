import { expect, test } from 'vitest';
import { Together } from '../../../src/speech/recogniser/apart/together.js';

test('sound is given on in fewer pieces at once while somebody may be waiting for the end of it', () => {
  const given: number[] = [];
  const together = new Together((pcm) => given.push(pcm.length));
  const come = (pieces: number): void => {
    for (let i = 0; i < pieces; i++) together.push(new Float32Array(512));
  };
  come(5);
  expect(given.splice(0)).toEqual([2048]);
  together.hurry();
  expect(given.splice(0)).toEqual([512]);
  come(8);
  expect(given.splice(0)).toEqual([1024, 1024, 1024, 1024]);
  come(9);
  together.flush();
  together.flush();
  expect(given).toEqual([2048, 2048, 512]);
});
