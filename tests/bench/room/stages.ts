/** Loaded into the run by --import: writes on standard error when an answer passes each stage. */
import { subscribe } from 'node:diagnostics_channel';
import { type Passed, STAGES } from '../../../src/speech/stages.js';

subscribe(STAGES, (message) => {
  const { stage, atMs } = message as Passed;
  process.stderr.write(`stage ${stage} ${atMs}\n`);
});
