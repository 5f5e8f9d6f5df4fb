import { createReadStream } from 'node:fs';
import type { Readable } from 'node:stream';
import { liquids } from '../world/liquids.js';
import type { Bench } from './bench.js';
import { seen, type WarmKept, warmVesselOf } from './desks/warm-desk.js';
import type { LiveConversation } from './live.js';
import { probeTarget, probeWords, readProbe } from './probe.js';

/**
 * Feeds a thermometer's lines (`name temperature`) to the bench: a serial device or pipe by its path, or standard
 * input for "-". Its readings are taken in silence; its faults are said.
 */
export function startThermometer(
  source: string,
  options: { bench: Bench; live: LiveConversation; now(): number; say(sentence: string): void },
): { stop(): void } {
  const { bench, live, now, say } = options;
  const stream: Readable = source === '-' ? process.stdin : createReadStream(source, { encoding: 'utf8' });
  stream.on('error', (error: NodeJS.ErrnoException) => {
    say(
      `The probe source ${source} cannot be read (${error.code ?? error.message}). Check its path and plug.`,
    );
  });
  return readProbe(stream, {
    now,
    target: (name) => probeTarget(name, liquids),
    onReading: ({ of, tempC }) => {
      const { desks, world } = live.conversation.state;
      const state = seen(desks.warm as WarmKept, world);
      const vessel = warmVesselOf(state, bench.warm, of);
      if (!vessel) return;
      live.conversation.noticed({
        type: 'temperature',
        vessel,
        tempC,
        ...(typeof of === 'string' && liquids.some((l) => l.id === of) ? { liquid: of } : {}),
      });
      live.schedule();
    },
    onProblem: (problem) => say(probeWords(problem)),
  });
}
