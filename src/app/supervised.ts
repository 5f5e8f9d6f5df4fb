import { performance } from 'node:perf_hooks';
import { without } from '../speech/without.js';

/** waits before each new start, ms; the last one is kept. A part that worked for a while begins again with the first. */
const RESTART_MS = [200, 1_000, 5_000, 20_000] as const;
const WORKED_MS = 60_000;

/**
 * Runs a part of the assistant until it comes to its own end or `signal` aborts. A part that throws is told of, each
 * reason twice at most, and started anew; it never throws to the caller.
 */
export async function supervised(
  part: string,
  notice: (sentence: string) => void,
  signal: AbortSignal,
  run: () => Promise<void>,
  restartMs: readonly number[] = RESTART_MS,
): Promise<void> {
  const tell = sparing(notice);
  let failures = 0;
  while (!signal.aborted) {
    const began = performance.now();
    try {
      return await run();
    } catch (error) {
      if (signal.aborted || without('supervision')) return;
      if (performance.now() - began > WORKED_MS) failures = 0;
      const why = error instanceof Error ? error.message : String(error);
      tell(`${part} failed (${why}) and start again.`);
      const waitMs = restartMs[Math.min(failures++, restartMs.length - 1)] ?? 1_000;
      await pause(waitMs, signal);
    }
  }
}

function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const end = () => {
      clearTimeout(timer);
      signal.removeEventListener('abort', end);
      resolve();
    };
    const timer = setTimeout(end, ms);
    signal.addEventListener('abort', end);
  });
}

/** Says no sentence more than twice. */
export function sparing(notice: (sentence: string) => void): (sentence: string) => void {
  const told = new Map<string, number>();
  return (sentence) => {
    const times = told.get(sentence) ?? 0;
    told.set(sentence, times + 1);
    if (times < 2) notice(sentence);
  };
}

/**
 * The last net under a run: an error that nothing caught is told of, and the clock and the calls go on. A screen that
 * is gone cannot be told anything: then the program ends as it would have.
 */
export function lastNet(notice: (sentence: string) => void): () => void {
  const tell = sparing(notice);
  const caught = (error: unknown): void => {
    if (error instanceof Error && 'code' in error && error.code === 'EPIPE') process.exit(1);
    tell(`Something failed (${error instanceof Error ? error.message : String(error)}). The run goes on.`);
  };
  process.on('uncaughtException', caught);
  process.on('unhandledRejection', caught);
  return () => {
    process.off('uncaughtException', caught);
    process.off('unhandledRejection', caught);
  };
}
