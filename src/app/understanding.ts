import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { Interpretation } from '../language/interpretation.js';
import { limits } from '../limits.js';
import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import type { InstalledLanguage } from './language.js';
import type { Answered, Asked, Understander } from './understanding-worker.js';

/** What a typed line means, found out where it holds up no call. */
export interface Understanding {
  /** one line at a time */
  typed(line: string, situations: readonly Situation[], due?: readonly Intent[]): Promise<Interpretation>;
  close(): void;
}

/** More memory than this is no sentence, MB. */
const mostMemoryMb = 512;

/** A thread that nothing was typed to for so long, while nothing is at work, is let go with its 40 MB, ms; the next line waits for a new one. */
const idleMs = 60_000;

const tooLong: Interpretation = {
  kind: 'nothing',
  why: 'That took me too long to understand, so I did nothing. Say it in fewer words.',
  near: [],
};

/**
 * `atWork`: whether somebody is in the midst of something, so that the thread is kept however long nothing is typed.
 * A thread that understands, begun anew when a line takes too long or ends it. Where none can be had, `language`
 * does it here.
 */
export function understandingThread(
  language: Pick<InstalledLanguage, 'typed' | 'own' | 'words'>,
  deadlineMs: number = limits.understandingMs,
  atWork: () => boolean = () => false,
  coldMs: number = limits.understandingColdMs,
): Understanding {
  let worker: Worker | null = null;
  /** it has read all that it understands with: until then a line takes as long as the machine is busy */
  let isWarm = false;
  /** what the thread says next */
  let next: (answered: Answered | null) => void = () => {};
  let begins: Promise<boolean> = Promise.resolve(false);

  let idle: NodeJS.Timeout | undefined;
  const rest = (): void => {
    clearTimeout(idle);
    idle = setTimeout(() => (atWork() ? rest() : letGo()), idleMs);
    idle.unref();
  };
  const letGo = (): void => {
    clearTimeout(idle);
    void worker?.terminate();
    worker = null;
  };

  const begin = (): void => {
    const thread = new Worker(workerFile(), {
      workerData: { own: language.own, code: language.words.code } satisfies Understander,
      resourceLimits: {
        maxOldGenerationSizeMb: mostMemoryMb,
        maxYoungGenerationSizeMb: 4,
      },
    });
    worker = thread;
    isWarm = false;
    begins = new Promise((resolve) => {
      next = (answered) => resolve(answered === 'ready');
    });
    thread.unref();
    // a thread that was given up has nothing more to say
    const says = (answered: Answered | null): void => {
      if (worker !== thread) return;
      if (answered === 'warm') isWarm = true;
      else next(answered);
    };
    thread.on('message', says);
    thread.on('error', () => says(null));
    thread.on('exit', () => {
      says(null);
      if (worker === thread) worker = null;
    });
  };
  begin();
  rest();
  return {
    async typed(line, situations, due = []) {
      clearTimeout(idle);
      if (worker === null) begin();
      const thread = worker;
      // the program does not end over a line that is being thought about
      thread?.ref();
      try {
        if (!(await begins) || thread === null) return language.typed(line, situations, due);
        const answered = await new Promise<Answered | null>((resolve) => {
          const late = setTimeout(() => resolve(null), isWarm ? deadlineMs : coldMs);
          next = (came) => {
            clearTimeout(late);
            resolve(came);
          };
          thread.postMessage({ line, situations, due } satisfies Asked);
        });
        if (answered !== null && typeof answered !== 'string') return answered;
        worker = null;
        void thread.terminate();
        return tooLong;
      } finally {
        thread?.unref();
        rest();
      }
    },
    close: letGo,
  };
}

/** Beside this file, or as it was built, where the sources themselves are run. */
function workerFile(): string {
  const beside = fileURLToPath(new URL('./understanding-worker.js', import.meta.url));
  return existsSync(beside)
    ? beside
    : fileURLToPath(new URL('../../dist/app/understanding-worker.js', import.meta.url));
}
