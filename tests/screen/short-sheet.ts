import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ecn2Ferricyanide } from '../../src/process/sheets/ecn2-ferricyanide.js';

/** The published sheet in minutes instead of a quarter of an hour: long enough for every bath to do its work on the film. */
export function shortSheet(folder: string): string {
  const steps = ecn2Ferricyanide.steps.map((step) => ({
    ...step,
    time: step.time && { ...step.time, aimS: seconds(step.kind), minS: 10, maxS: 60 },
    agitation: step.agitation && { ...step.agitation, initialS: 4, everyS: step.agitation.everyS && 6 },
    drain: { ...step.drain, leadS: Math.min(step.drain.leadS, 3) },
  }));
  const path = join(folder, 'short-sheet.json');
  writeFileSync(
    path,
    JSON.stringify({ ...ecn2Ferricyanide, id: 'short', name: 'Short run', spoken: ['short'], steps }),
  );
  return path;
}

const seconds = (kind: string): number => (kind === 'bath' ? 18 : 15);
