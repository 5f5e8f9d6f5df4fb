import { type ChildProcess, fork } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Hearing, OpenReading, WordGraph } from '../../../language/types.js';
import { joined } from '../../wav.js';
import { without } from '../../without.js';
import type { Guess, RecogniserOptions } from '../index.js';
import { type Answer, type FromRecogniser, packGraph, type ToRecogniser } from './messages.js';
import { Together } from './together.js';

/** A recogniser in a process of its own. One that ends is told of, and started anew. */
export interface RecogniserApart {
  /** its process, null while there is none */
  readonly pid: number | null;
  /** compiles a grammar ahead */
  prepare(graph: WordGraph): void;
  recognise(pcm: Float32Array, graph: WordGraph): Promise<Hearing>;
  /** what was heard last, over the whole vocabulary; none where that is no longer known */
  openly(): Promise<readonly OpenReading[]>;
  /** sound that is still coming; one utterance at a time. `amongTalk`: what begins like no sentence is let go */
  begin(graph: WordGraph, amongTalk: boolean): UtteranceApart;
  close(): Promise<void>;
}

export interface UtteranceApart {
  push(pcm: Float32Array): void;
  guess(): Promise<Guess>;
  /** what was said in its first samples */
  hear(samples: number): Promise<Hearing>;
}

export interface ApartOptions {
  recogniser?: RecogniserOptions;
  /** one line when it ended and starts again */
  notice?(sentence: string): void;
  /** waits before each new start, ms; the last one is kept */
  restartMs?: readonly number[];
  /** longer than any answer takes even on a busy machine: then it hangs, ms */
  longestMs?: number;
}

const RESTART_MS = [100, 500, 2_000, 10_000] as const;
/** one that worked for so long begins again with the first wait, ms */
const WORKED_MS = 60_000;
const LONGEST_MS = 45_000;
/** what ends it twice is not asked a third time */
const TRIES = 2;

/** glibc would keep what loading and decoding leave behind, in a heap for every thread: some 25 MB. Others ignore it. */
const FRUGAL = { MALLOC_ARENA_MAX: '1', MALLOC_TRIM_THRESHOLD_: '131072', MALLOC_MMAP_THRESHOLD_: '131072' };

const NO_GUESS: Guess = { words: '', whole: false, mayGoOn: true, hopeless: false };

/** Under a test runner this file is TypeScript, which a process of its own cannot load: then the built one is used. */
function processFile(): string {
  const beside = fileURLToPath(new URL('./process.js', import.meta.url));
  return existsSync(beside)
    ? beside
    : fileURLToPath(new URL('../../../../dist/speech/recogniser/apart/process.js', import.meta.url));
}

/** What is sent for a question, and what instead when it has to be asked of a new process; null: it is of no use then. */
interface Question {
  ask: (id: number) => ToRecogniser;
  again: ((id: number) => ToRecogniser) | null;
  answered: (value: Answer) => void;
  failed: (why: string) => void;
  tries: number;
  timer?: NodeJS.Timeout;
}

/** @throws Error with one clear sentence when the model or a word list is missing or damaged */
export async function recogniserApart(options: ApartOptions = {}): Promise<RecogniserApart> {
  const apart = new Apart(options);
  await apart.start();
  return apart;
}

class Apart implements RecogniserApart {
  private child: ChildProcess | null = null;
  private closed = false;
  private ready = false;
  private began = 0;
  private failures = 0;
  private next = 1;
  /** what a new process has ready before it is asked */
  private latest: WordGraph | null = null;
  private restarting: NodeJS.Timeout | undefined;
  private readonly ids = new WeakMap<WordGraph, number>();
  /** graphs that this process knows */
  private readonly known = new Set<number>();
  private readonly open = new Map<number, Question>();

  constructor(private readonly options: ApartOptions) {}

  get pid(): number | null {
    return this.child?.pid ?? null;
  }

  start(): Promise<void> {
    return new Promise((resolve, reject) => {
      this.launch(resolve, (why) => {
        this.closed = true;
        reject(new Error(why));
      });
    });
  }

  prepare(graph: WordGraph): void {
    this.send({ type: 'prepare', graph: this.idOf(graph) });
  }

  recognise(pcm: Float32Array, graph: WordGraph): Promise<Hearing> {
    return this.hearing(this.recognising(pcm, graph), this.recognising(pcm, graph));
  }

  async openly(): Promise<readonly OpenReading[]> {
    const readings = await this.ask((ask) => ({ type: 'openly', ask }), null).catch(() => []);
    return readings as readonly OpenReading[];
  }

  begin(graph: WordGraph, amongTalk: boolean): UtteranceApart {
    const utterance = this.next++;
    const pieces: Float32Array[] = [];
    const { child } = this;
    const streams = (): boolean => child !== null && child === this.child;
    this.send({ type: 'begin', utterance, graph: this.idOf(graph), amongTalk });
    const whole = (samples: number) => this.recognising(joined(pieces).slice(0, samples), graph);
    const together = new Together((pcm) => {
      if (streams()) this.send({ type: 'push', utterance, pcm });
    });
    return {
      push: (pcm) => {
        pieces.push(pcm);
        together.push(pcm);
      },
      guess: async () => {
        if (!streams()) return NO_GUESS;
        together.hurry();
        const made = await this.ask((ask) => ({ type: 'guess', ask, utterance }), null).catch(() => null);
        return (made as Guess | null) ?? NO_GUESS;
      },
      hear: (samples) => {
        together.flush();
        return this.hearing(
          streams() ? (ask) => ({ type: 'hear', ask, utterance, samples }) : whole(samples),
          (ask) => whole(samples)(ask),
        );
      },
    };
  }

  async close(): Promise<void> {
    this.closed = true;
    clearTimeout(this.restarting);
    const { child } = this;
    this.child = null;
    for (const question of this.open.values()) question.failed('the recogniser was closed');
    this.open.clear();
    child?.kill('SIGKILL');
  }

  private recognising(pcm: Float32Array, graph: WordGraph) {
    return (ask: number): ToRecogniser => ({ type: 'recognise', ask, graph: this.idOf(graph), pcm });
  }

  private async hearing(ask: Question['ask'], again: Question['again']): Promise<Hearing> {
    const began = performance.now();
    try {
      return (await this.ask(ask, again)) as Hearing;
    } catch (error) {
      const total = performance.now() - began;
      return {
        accepted: false,
        best: null,
        alternatives: [],
        why: `I could not make that out (${error instanceof Error ? error.message : String(error)}). Please say it again.`,
        milliseconds: { network: 0, decoder: 0, rejection: 0, total },
      };
    }
  }

  private ask(ask: Question['ask'], again: Question['again']): Promise<Answer> {
    return new Promise((answered, reject) => {
      this.put({ ask, again, answered, failed: (why) => reject(new Error(why)), tries: 0 });
    });
  }

  private put(question: Question): void {
    if (this.closed) {
      question.failed('the recogniser is closed');
      return;
    }
    const id = this.next++;
    this.open.set(id, question);
    if (this.ready) this.pose(id, question);
  }

  private pose(id: number, question: Question): void {
    const { child } = this;
    question.timer = setTimeout(() => child?.kill('SIGKILL'), this.options.longestMs ?? LONGEST_MS);
    question.timer.unref();
    const make = question.tries++ === 0 ? question.ask : question.again;
    if (make) this.send(make(id));
  }

  /** The number of a graph that the process knows. */
  private idOf(graph: WordGraph): number {
    this.latest = graph;
    const id = this.ids.get(graph) ?? this.next++;
    this.ids.set(graph, id);
    if (!this.known.has(id)) {
      this.known.add(id);
      this.send({ type: 'graph', graph: id, packed: packGraph(graph) });
    }
    return id;
  }

  private send(message: ToRecogniser): void {
    const { child } = this;
    // what cannot be sent is sent anew when the end of the process is known
    if (child?.connected) child.send(message, () => {});
  }

  private launch(ready: () => void, unusable: (why: string) => void): void {
    this.ready = false;
    this.known.clear();
    this.began = performance.now();
    const child = fork(processFile(), [], {
      env: { ...process.env, ...FRUGAL },
      execArgv: ['--expose-gc', '--max-semi-space-size=1'],
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    this.child = child;
    child.on('message', (message: FromRecogniser) => {
      if (child !== this.child) return;
      if (message.type === 'unusable') return unusable(message.sentence);
      if (message.type !== 'ready') return this.answered(message);
      this.ready = true;
      if (this.latest) this.prepare(this.latest);
      for (const [id, question] of this.open) this.pose(id, question);
      ready();
    });
    child.on('error', (error) => this.ended(child, error.message));
    child.on('exit', (code, signal) => this.ended(child, String(signal ?? `exit code ${code}`)));
    this.send({ type: 'load', options: this.options.recogniser ?? {} });
  }

  private answered(message: Extract<FromRecogniser, { ask: number }>): void {
    const question = this.open.get(message.ask);
    this.open.delete(message.ask);
    clearTimeout(question?.timer);
    if (message.type === 'answer') question?.answered(message.value);
    else question?.failed(message.why);
  }

  private ended(child: ChildProcess, why: string): void {
    if (child !== this.child) return;
    this.child = null;
    this.ready = false;
    if (this.closed) return;
    for (const [id, question] of [...this.open]) {
      clearTimeout(question.timer);
      if (question.again && question.tries < TRIES) continue;
      this.open.delete(id);
      question.failed(`the recogniser ended: ${why}`);
    }
    if (performance.now() - this.began > WORKED_MS) this.failures = 0;
    const waits = this.options.restartMs ?? RESTART_MS;
    const waitMs = waits[Math.min(this.failures++, waits.length - 1)] ?? 1_000;
    if (without('supervision')) return;
    this.options.notice?.(`The recogniser ended (${why}) and starts again.`);
    this.restarting = setTimeout(() => {
      this.launch(
        () => {},
        (sentence) => this.options.notice?.(`I cannot hear: ${sentence}`),
      );
    }, waitMs);
  }
}
