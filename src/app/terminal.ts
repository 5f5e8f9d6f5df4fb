import { openSync } from 'node:fs';
import { createInterface, type Interface } from 'node:readline';
import { PassThrough, type Readable, Transform } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import { ReadStream } from 'node:tty';
import type { ScreenLine } from '../screen/view.js';
import { harmless, plainLine } from './screen.js';
import type { Console } from './screens.js';

/** Where a person types when standard input belongs to the thermometer; nowhere, where there is no terminal. */
export function keyboard(): Keyboard {
  try {
    return new ReadStream(openSync('/dev/tty', 'r'));
  } catch {
    return new PassThrough();
  }
}

type Keyboard = Readable & { isTTY?: boolean; setRawMode?(raw: boolean): unknown };

/** The place of typed lines and of what is shown: a prompt for a person, plain lines for a pipe. */
export class Terminal implements Console {
  /** what is typed, from the first moment on: whoever reads it later loses nothing, nor that it has ended */
  readonly lines: AsyncIterable<string>;
  readonly #editor: Interface;
  readonly #interactive: boolean;
  readonly #input: Keyboard;
  /** returns true when the key was for the ears and should not be typed */
  onKey: (key: string) => boolean = () => false;
  /** Ctrl-C or Ctrl-D */
  onLeave: () => void = () => this.#editor.close();
  /** running again after Ctrl-Z, or after another program stopped this one */
  onResumed: () => void = () => {};

  constructor(input: Keyboard, mostChars: number) {
    this.#input = input;
    this.#interactive = (input.isTTY ?? false) && process.stdout.isTTY;
    const bounded = boundedLines(input, mostChars, this.#interactive, (sentence) => this.print(sentence));
    this.#editor = createInterface({ input: bounded, output: process.stdout, terminal: this.#interactive });
    const typed = this.#editor[Symbol.asyncIterator]();
    this.lines = { [Symbol.asyncIterator]: () => typed };
    if (!this.#interactive) return;
    bounded.leaveKey = () => this.onLeave();
    this.#editor.setPrompt('› ');
    this.#editor.prompt();
    this.#editor.on('line', () => this.#editor.prompt());
    this.#editor.on('SIGINT', () => this.onLeave());
    this.#editor.on('SIGTSTP', () => this.#stop());
    process.on('SIGCONT', this.#resumed);
    bounded.on('keypress', (_text, key: { name?: string }) => this.#keyPressed(key.name ?? ''));
  }
  /** A key for the ears, at the beginning of a line, leaves no trace in it. */
  #keyPressed(name: string): void {
    if (this.#editor.line.trim() !== '' || !this.onKey(name)) return;
    setImmediate(() => this.#editor.write(null, { ctrl: true, name: 'u' }));
  }
  /** Ctrl-Z: the shell gets its terminal as it was, and is told what that means. */
  #stop(): void {
    process.stdout.write('\r\u001b[KStopped: no calls until you bring me back with fg.\n');
    this.#input.setRawMode?.(false);
    process.kill(process.pid, 'SIGSTOP');
  }
  readonly #resumed = (): void => {
    // the mode is believed to be raw still, so it is set anew
    this.#input.setRawMode?.(false);
    this.#input.setRawMode?.(true);
    this.#editor.prompt(true);
    this.onResumed();
  };
  print(line: string): void {
    if (!this.#interactive) {
      console.log(line);
      return;
    }
    process.stdout.write(`\r\u001b[K${harmless(line)}\n`);
    this.#editor.prompt(true);
  }
  line(line: ScreenLine): void {
    this.print(plainLine(line));
  }
  end(): void {
    this.#editor.close();
  }
  close(): void {
    process.off('SIGCONT', this.#resumed);
    this.#editor.close();
    this.#input.unpipe();
    this.#input.pause();
  }
}

/** The input with its lines bounded; it takes the place of the terminal. */
export function boundedLines(
  input: Keyboard,
  mostChars: number,
  interactive: boolean,
  tell: (sentence: string) => void,
): BoundedLines & { setRawMode(raw: boolean): unknown } {
  const bounded = new BoundedLines(mostChars, (lost) =>
    tell(`That line is too long: I dropped ${lost} characters after the first ${mostChars}.`),
  );
  input.pipe(bounded);
  return Object.assign(bounded, {
    isTTY: interactive,
    setRawMode: (raw: boolean) => input.setRawMode?.(raw),
  });
}

/** So much of what is pasted goes through at once; calls come between two pieces. */
const pieceChars = 1_000;

/**
 * Stands before the line editor: of a line that is too long the beginning goes through and the rest is dropped, since
 * the editor redraws the whole line with every character that is pasted.
 */
export class BoundedLines extends Transform {
  #length = 0;
  /** takes Ctrl-D, where a person types */
  leaveKey: (() => void) | null = null;
  readonly #mostChars: number;
  readonly #dropped: (chars: number) => void;
  #lost = 0;

  constructor(mostChars: number, dropped: (chars: number) => void) {
    super({ decodeStrings: false, encoding: 'utf8' });
    this.#mostChars = mostChars;
    this.#dropped = dropped;
  }
  override _transform(chunk: Buffer | string, _encoding: string, done: () => void): void {
    let kept = '';
    for (const char of this.#decoder.write(chunk as Buffer)) {
      if (char === endOfInput && this.leaveKey) {
        this.leaveKey();
        continue;
      }
      if (lineEnds.has(char)) this.#ended();
      else if (erases.has(char)) this.#length = Math.max(0, this.#length - 1);
      else if (this.#length >= this.#mostChars) {
        this.#lost++;
        continue;
      } else this.#length++;
      kept += char;
    }
    this.#pass(kept, done);
  }
  #pass(text: string, done: () => void): void {
    // a character outside the basic plane is two units, which stay together
    const end = /[\ud800-\udbff]/.test(text.charAt(pieceChars - 1)) ? pieceChars + 1 : pieceChars;
    if (text !== '') this.push(text.slice(0, end));
    if (text.length <= end) done();
    else setImmediate(() => this.#pass(text.slice(end), done));
  }
  override _flush(done: () => void): void {
    this.#ended();
    done();
  }
  readonly #decoder = new StringDecoder('utf8');
  #ended(): void {
    if (this.#lost > 0) this.#dropped(this.#lost);
    this.#lost = 0;
    this.#length = 0;
  }
}

const endOfInput = '\u0004';
/** line feed, return, and the keys that empty the line or leave it */
const lineEnds = new Set(['\n', '\r', '\u0003', '\u0004', '\u0015']);
const erases = new Set(['\b', '\u007f']);
