import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { faults } from './faults.js';

/** The check itself takes long and runs by hand: here only that it still fits the text it plants its faults in. */
it.each(faults)('the fault “$what” has one place to be planted', ({ file, was }) => {
  expect(readFileSync(file, 'utf8').split(was)).toHaveLength(2);
});
