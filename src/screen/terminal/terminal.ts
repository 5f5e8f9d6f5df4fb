import { emitKeypressEvents, type Key } from 'node:readline';
import type { Readable } from 'node:stream';
import pc from 'picocolors';
import { digitsAt } from '../time.js';
import type { ScreenLine, ScreenView } from '../view.js';
import { lineTags } from '../words.js';
import { levelBars, type Row, type Shown, screenRows, type Tone } from './layout.js';

export interface TerminalOptions {
  stdin: Readable & { setRawMode(raw: boolean): unknown };
  stdout: NodeJS.WritableStream & { columns: number; rows: number };
  benchMs(): number;
  /** a key at the beginning of a line; true: it was for the ears and is not typed */
  key(name: string): boolean;
  /** a whole line was typed */
  line(text: string): void;
  /** Ctrl-C or Ctrl-D */
  leave(): void;
  /** running again after Ctrl-Z */
  resumed(): void;
  /** a typed line holds no more than this; what is longer is dropped */
  mostChars: number;
}

export interface Terminal {
  show(view: ScreenView): void;
  line(line: ScreenLine): void;
  level(db: number): void;
  close(): void;
}

const linesKept = 200;
const linesLeft = 8;
const historyKept = 50;
/** Changes within so long are drawn together, ms. */
const frameMs = 40;

/** ECMA-48 and DEC private modes: the alternate screen, the cursor, and a frame that is shown at once. */
const csi = '\u001b[';
const enterScreen = `${csi}?1049h${csi}?25l${csi}2J`;
const leaveScreen = `${csi}?25h${csi}?1049l`;
const frameBegins = `${csi}?2026h`;
const frameEnds = `${csi}?2026l`;

const looks: Readonly<Record<Tone, (text: string) => string>> = {
  plain: (text) => text,
  strong: pc.bold,
  soft: pc.dim,
  warning: (text) => pc.bold(pc.black(pc.bgYellow(text))),
  question: pc.yellow,
  call: (text) => pc.bold(pc.green(text)),
  good: pc.green,
  bad: (text) => pc.bold(pc.red(text)),
};

/** What steers a terminal is never sent as part of a text. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const steering = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

const painted = (row: Row): string =>
  row.map(({ text, tone }) => looks[tone](text.replace(steering, '�'))).join('');

/** The screen in the terminal, on the alternate screen, so that what stood there before comes back at the end. */
export function openTerminal(options: TerminalOptions): Terminal {
  return new Painter(options);
}

/** Sends only the rows that changed, each to its place: nothing is cleared, so nothing flickers. */
class Painter implements Terminal {
  readonly #options: TerminalOptions;
  #shown: Shown = { view: null, lines: [], levelDb: null, input: '', back: 0 };
  #before: string[] = [];
  #drawing: NodeJS.Timeout | null = null;
  #ticking: NodeJS.Timeout | null = null;
  #history: string[] = [];
  /** how far back in the history the prompt is; 0: a new line */
  #at = 0;

  constructor(options: TerminalOptions) {
    this.#options = options;
    const { stdin, stdout } = options;
    emitKeypressEvents(stdin);
    stdin.setRawMode(true);
    stdin.on('keypress', this.#pressed);
    stdin.resume();
    stdout.on('resize', this.#resized);
    process.on('SIGCONT', this.#resumed);
    stdout.write(enterScreen);
    this.#draw();
  }

  show(view: ScreenView): void {
    this.#change({ view });
  }

  line(line: ScreenLine): void {
    this.#change({ lines: [...this.#shown.lines, line].slice(-linesKept), back: 0 });
  }

  level(levelDb: number): void {
    const moved = levelBars(levelDb) !== levelBars(this.#shown.levelDb ?? Number.NEGATIVE_INFINITY);
    if (moved) this.#change({ levelDb });
  }

  close(): void {
    const { stdin, stdout } = this.#options;
    if (this.#drawing) clearTimeout(this.#drawing);
    if (this.#ticking) clearTimeout(this.#ticking);
    stdin.off('keypress', this.#pressed);
    stdout.off('resize', this.#resized);
    process.off('SIGCONT', this.#resumed);
    stdin.setRawMode(false);
    stdin.pause();
    // what was said last stays readable after the screen is gone
    const last = this.#shown.lines.slice(-linesLeft).map((line) => lineTags[line.kind] + line.text);
    stdout.write(`${leaveScreen}${last.join('\n')}\n`);
  }

  #change(change: Partial<Shown>): void {
    this.#shown = { ...this.#shown, ...change };
    this.#drawing ??= setTimeout(() => this.#draw(), frameMs);
  }

  #draw(): void {
    if (this.#drawing) clearTimeout(this.#drawing);
    this.#drawing = null;
    const { stdout, benchMs } = this.#options;
    const nowMs = benchMs();
    const rows = screenRows(this.#shown, stdout.columns || 80, stdout.rows || 24, nowMs).map(painted);
    const changed = rows
      .map((row, i) => (row === this.#before[i] ? '' : `${csi}${i + 1};1H${row}${csi}K`))
      .join('');
    this.#before = rows;
    if (changed !== '') stdout.write(frameBegins + changed + frameEnds);
    this.#tick(nowMs);
  }

  /** Draws again at the very moment when the digits change. */
  #tick(nowMs: number): void {
    if (this.#ticking) clearTimeout(this.#ticking);
    const { view } = this.#shown;
    const changesMs = view ? digitsAt(view, nowMs).changesMs : null;
    this.#ticking =
      changesMs === null ? null : setTimeout(() => this.#draw(), Math.max(1, changesMs - nowMs + 1));
  }

  readonly #resized = (): void => {
    this.#before = [];
    this.#options.stdout.write(`${csi}2J`);
    this.#change({});
  };

  readonly #resumed = (): void => {
    const { stdin, stdout, resumed } = this.#options;
    // the mode is believed to be raw still, so it is set anew
    stdin.setRawMode(false);
    stdin.setRawMode(true);
    this.#before = [];
    stdout.write(enterScreen);
    this.#draw();
    resumed();
  };

  /** Ctrl-Z: the shell gets its terminal as it was, and is told what that means. */
  #stop(): void {
    const { stdin, stdout } = this.#options;
    stdout.write(`${leaveScreen}Stopped: no calls until you bring me back with fg.\n`);
    stdin.setRawMode(false);
    process.kill(process.pid, 'SIGSTOP');
  }

  readonly #pressed = (text: string | undefined, key: Key): void => {
    const { input, back } = this.#shown;
    if (key.ctrl) {
      if (key.name === 'c' || key.name === 'd') this.#options.leave();
      if (key.name === 'z') this.#stop();
      if (key.name === 'u') this.#change({ input: '' });
      return;
    }
    switch (key.name) {
      case 'return':
      case 'enter':
        this.#typed();
        return;
      case 'backspace':
      case 'delete':
        this.#change({ input: [...input].slice(0, -1).join('') });
        return;
      case 'up':
        this.#recall(1);
        return;
      case 'down':
        this.#recall(-1);
        return;
      case 'pageup':
        this.#change({ back: back + 8 });
        return;
      case 'pagedown':
        this.#change({ back: Math.max(0, back - 8) });
        return;
    }
    if (text === undefined || key.meta || text.replace(steering, '') === '') return;
    if (input === '' && this.#options.key(key.name ?? text)) return;
    if ([...input].length < this.#options.mostChars) this.#change({ input: input + text });
  };

  #typed(): void {
    const { input } = this.#shown;
    this.#change({ input: '', back: 0 });
    if (input.trim() !== '') this.#history = [...this.#history, input].slice(-historyKept);
    this.#at = 0;
    this.#options.line(input);
  }

  #recall(by: number): void {
    this.#at = Math.max(0, Math.min(this.#history.length, this.#at + by));
    this.#change({ input: this.#at === 0 ? '' : (this.#history.at(-this.#at) ?? '') });
  }
}
