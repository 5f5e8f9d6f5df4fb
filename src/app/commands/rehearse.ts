import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Command } from 'commander';
import pc from 'picocolors';
import { exitCode, Refusal } from '../exit.js';
import { fixtureDir } from '../paths.js';
import type { Delivered } from '../play-script.js';
import { aside, replyLine } from '../screen.js';
import { loadScript, stamp } from './talk.js';

/** One sound of audio-fixtures/manifest.json. */
export interface Fixture {
  file: string;
  words: string;
  /** false: speech that is no command, and must not be taken for one */
  command: boolean;
  voice: string;
  noise: string;
  snrDb: number;
  madeBy: string;
}

/** A call this late or early on the simulated clock is on time, ms. */
const onTimeMs = 50;

export function registerRehearse(program: Command): void {
  program
    .command('rehearse')
    .description('take a whole run through from recorded sound alone, on a fast clock')
    .option('--script <file>', 'another rehearsal', join(fixtureDir, 'rehearsal.txt'))
    .option('--sheet <id>', 'process sheet', 'ecn2-ferricyanide')
    .option('--out <file.wav>', 'where the spoken side is written', 'tankside-rehearsal.wav')
    .option('--no-wav', 'write no sound')
    .addHelpText('after', '\nExit code 0: all was understood and on time; 3: it was not.')
    .action(rehearse);
}

export function loadManifest(): Fixture[] {
  try {
    return JSON.parse(readFileSync(join(fixtureDir, 'manifest.json'), 'utf8')) as Fixture[];
  } catch {
    throw new Refusal(
      'The recordings of this installation are missing (audio-fixtures). Install tankside again.',
      exitCode.failed,
    );
  }
}

interface RehearseOptions {
  script: string;
  sheet: string;
  out: string;
  wav: boolean;
}

async function rehearse(options: RehearseOptions): Promise<void> {
  const { createBench } = await import('../bench.js');
  const { playScript } = await import('../play-script.js');
  const bench = createBench({ sheet: options.sheet });
  const fixtures = new Map(loadManifest().map((f) => [f.file, f]));
  const tally = new Tally();
  await playScript(loadScript(options.script), {
    bench,
    folder: resolve(options.script, '..'),
    ear: async () => (await import('../hearing.js')).situatedEar(bench.language),
    events: {
      heard(file, hearing, taken, atMs) {
        const fixture = fixtures.get(file);
        const words = hearing.accepted ? (hearing.best?.words ?? '') : null;
        const right = fixture ? tally.heard(fixture, words, bench.language) : false;
        const under = fixture ? ` [${fixture.voice}, ${fixture.noise} ${fixture.snrDb} dB]` : '';
        console.log(aside(`${stamp(atMs)} heard    ${words ?? '(no command)'}${under}`));
        if (!right)
          console.log(pc.red(`         expected ${fixture?.command ? fixture.words : 'no command'}`));
        if (taken.done === 'acted') console.log(aside(`         decided  ${JSON.stringify(taken.intent)}`));
      },
      replied(delivered) {
        tally.replied(delivered);
        console.log(`${stamp(delivered.reply.atMs)} said     ${replyLine(delivered.reply)}`);
      },
    },
  });
  if (options.wav) {
    const { writeSpokenSide } = await import('../spoken-side.js');
    const seconds = await writeSpokenSide(tally.delivered, options.out);
    console.log(
      aside(
        `The spoken side is in ${options.out} (${Math.round(seconds)} s; long silences are cut to one second).`,
      ),
    );
  }
  console.log(tally.summary());
  if (!tally.good) process.exitCode = exitCode.no;
}

/** Counts what a rehearsal must show. */
class Tally {
  readonly delivered: Delivered[] = [];
  #commands = 0;
  #understood = 0;
  #others = 0;
  #ignored = 0;
  #closed = false;

  heard(
    fixture: Fixture,
    words: string | null,
    language: { sameMeaning(a: string, b: string): boolean },
  ): boolean {
    if (!fixture.command) {
      this.#others++;
      if (words === null) this.#ignored++;
      return words === null;
    }
    this.#commands++;
    const right = words !== null && language.sameMeaning(words, fixture.words);
    if (right) this.#understood++;
    return right;
  }

  replied(delivered: Delivered): void {
    this.delivered.push(delivered);
    if (delivered.reply.text.startsWith('Run closed')) this.#closed = true;
  }

  get #lateness(): number[] {
    return this.delivered
      .filter(({ reply }) => reply.kind === 'call')
      .map(({ reply, deliveredAtMs }) => Math.abs(deliveredAtMs - reply.atMs));
  }

  get #refused(): number {
    return this.delivered.filter(({ reply }) => reply.kind === 'warning' && reply.text.startsWith('No.'))
      .length;
  }

  get good(): boolean {
    return (
      this.#closed &&
      this.#understood === this.#commands &&
      this.#ignored === this.#others &&
      this.#refused > 0 &&
      this.#lateness.every((ms) => ms <= onTimeMs)
    );
  }

  summary(): string {
    const calls = this.#lateness;
    const verdict = this.good ? pc.green('The rehearsal is good.') : pc.red('The rehearsal is not good.');
    return [
      `commands understood: ${this.#understood} of ${this.#commands}`,
      `other speech ignored: ${this.#ignored} of ${this.#others}`,
      `calls on time: ${calls.filter((ms) => ms <= onTimeMs).length} of ${calls.length} (worst ${Math.max(0, ...calls).toFixed(0)} ms)`,
      `pours refused: ${this.#refused}`,
      `run closed: ${this.#closed ? 'yes' : 'no'}`,
      verdict,
    ].join('\n');
  }
}
