import { Box, render, Text, useInput, useStdout } from 'ink';
import { useEffect, useState, useSyncExternalStore } from 'react';
import { digitsAt } from '../time.js';
import type { ScreenLine, ScreenView } from '../view.js';
import { lineTags } from '../words.js';
import { type Row, type Shown, screenRows, type Tone } from './layout.js';

export interface TerminalOptions {
  stdin: NodeJS.ReadStream;
  stdout: NodeJS.WriteStream;
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
const enterScreen = '\u001b[?1049h\u001b[H';
const leaveScreen = '\u001b[?1049l';

/** The screen in the terminal, on the alternate screen, so that what stood there before comes back at the end. */
export function openTerminal(options: TerminalOptions): Terminal {
  const store = new Store();
  const frames = overwriting(options.stdout);
  const resumed = (): void => {
    // the mode is believed to be raw still, so it is set anew
    options.stdin.setRawMode(false);
    options.stdin.setRawMode(true);
    options.stdout.write(enterScreen + clearAll);
    frames.forget();
    store.set({});
    options.resumed();
  };
  process.on('SIGCONT', resumed);
  options.stdout.write(enterScreen);
  const app = render(<Screen store={store} options={options} />, {
    stdout: frames.stdout,
    stdin: options.stdin,
    exitOnCtrlC: false,
    patchConsole: false,
    maxFps: 20,
  });
  return {
    show: (view) => store.set({ view }),
    line: (line) => store.set({ lines: [...store.shown.lines, line].slice(-linesKept), back: 0 }),
    level: (levelDb) => store.set({ levelDb }),
    close() {
      process.off('SIGCONT', resumed);
      app.unmount();
      // what was said last stays readable after the screen is gone
      const last = store.shown.lines.slice(-linesLeft).map((line) => lineTags[line.kind] + line.text);
      options.stdout.write(`${leaveScreen}${last.join('\n')}\n`);
    },
  };
}

/** What Ink sends before a frame that fills the screen: clear it, its past too, and go home. */
const clearAll = '\u001b[2J\u001b[3J\u001b[H';

/** Switches a mode of the terminal, such as its cursor, and writes nothing. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: the escape is what is looked for
const modeOnly = /^\u001b\[\?\d+[hl]$/;

/**
 * Ink clears the terminal before each frame that fills it, which flickers. Here a frame overwrites the one before, and
 * only the rows that changed are sent.
 */
function overwriting(stdout: NodeJS.WriteStream): { stdout: NodeJS.WriteStream; forget(): void } {
  let before: string[] = [];
  const write = (chunk: string): boolean => {
    if (!chunk.startsWith(clearAll)) {
      if (!modeOnly.test(chunk)) before = [];
      return stdout.write(chunk);
    }
    const rows = chunk.slice(clearAll.length).split('\n');
    const changed = rows
      .map((row, i) => (row === before[i] ? '' : `\u001b[${i + 1};1H${row}\u001b[K`))
      .join('');
    before = rows;
    return changed === '' || stdout.write(changed);
  };
  return {
    stdout: Object.create(stdout, { write: { value: write } }) as NodeJS.WriteStream,
    forget() {
      before = [];
    },
  };
}

/** What is shown, outside React, so that the programme can change it at any time. */
class Store {
  shown: Shown = { view: null, lines: [], levelDb: null, input: '', back: 0 };
  readonly #watchers = new Set<() => void>();
  set(change: Partial<Shown>): void {
    this.shown = { ...this.shown, ...change };
    for (const watcher of this.#watchers) watcher();
  }
  readonly watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };
}

function Screen({ store, options }: { store: Store; options: TerminalOptions }) {
  const shown = useSyncExternalStore(store.watch, () => store.shown);
  const { columns, rows } = useSize();
  const benchMs = useBenchClock(shown.view, options);
  useTyping(store, options);
  const drawn = screenRows(shown, columns, rows, benchMs);
  return (
    <Box flexDirection="column" width={columns} height={rows}>
      {drawn.map((row, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row of the screen is its place
        <RowText key={i} row={row} />
      ))}
    </Box>
  );
}

const looks: Readonly<Record<Tone, Record<string, unknown>>> = {
  plain: {},
  strong: { bold: true },
  soft: { dimColor: true },
  warning: { color: 'black', backgroundColor: 'yellow', bold: true },
  question: { color: 'yellow' },
  call: { color: 'green', bold: true },
  good: { color: 'green' },
  bad: { color: 'red', bold: true },
};

function RowText({ row }: { row: Row }) {
  if (row.length === 0) return <Text> </Text>;
  return (
    <Text wrap="truncate">
      {row.map((piece, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a piece of a row is its place
        <Text key={i} {...looks[piece.tone]}>
          {piece.text}
        </Text>
      ))}
    </Text>
  );
}

function useSize(): { columns: number; rows: number } {
  const { stdout } = useStdout();
  const size = () => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 });
  const [now, setNow] = useState(size);
  useEffect(() => {
    const resized = () => setNow(size());
    stdout.on('resize', resized);
    return () => {
      stdout.off('resize', resized);
    };
  });
  return now;
}

/** The bench clock, looked at anew when the digits change, and once a second at least while a bath stands. */
function useBenchClock(view: ScreenView | null, options: TerminalOptions): number {
  const [, tick] = useState(0);
  const benchMs = options.benchMs();
  useEffect(() => {
    const changesMs = view ? digitsAt(view, benchMs).changesMs : null;
    if (changesMs === null) return;
    const timer = setTimeout(() => tick((n) => n + 1), Math.max(1, changesMs - options.benchMs() + 1));
    return () => clearTimeout(timer);
  });
  return benchMs;
}

/** Ctrl-Z: the shell gets its terminal as it was, and is told what that means. */
function stop({ stdin, stdout }: TerminalOptions): void {
  stdout.write(`${leaveScreen}Stopped: no calls until you bring me back with fg.\n`);
  stdin.setRawMode(false);
  process.kill(process.pid, 'SIGSTOP');
}

function useTyping(store: Store, options: TerminalOptions): void {
  const [history, setHistory] = useState<string[]>([]);
  const [at, setAt] = useState(0);
  useInput((input, key) => {
    const { shown } = store;
    if (key.ctrl && (input === 'c' || input === 'd')) return options.leave();
    if (key.ctrl && input === 'z') return stop(options);
    if (key.return) {
      const text = shown.input;
      store.set({ input: '', back: 0 });
      if (text.trim() !== '') setHistory((past) => [...past, text].slice(-50));
      setAt(0);
      return options.line(text);
    }
    if (key.upArrow || key.downArrow) {
      const next = Math.max(0, Math.min(history.length, at + (key.upArrow ? 1 : -1)));
      setAt(next);
      return store.set({ input: next === 0 ? '' : (history.at(-next) ?? '') });
    }
    if (key.pageUp) return store.set({ back: shown.back + 8 });
    if (key.pageDown) return store.set({ back: Math.max(0, shown.back - 8) });
    if (key.backspace || key.delete) return store.set({ input: [...shown.input].slice(0, -1).join('') });
    if (key.ctrl && input === 'u') return store.set({ input: '' });
    if (key.ctrl || key.meta || input === '') return;
    if (shown.input === '' && options.key(input === ' ' ? 'space' : input)) return;
    // what is pasted or typed fast comes in one piece
    for (const char of input) {
      const text = store.shown.input;
      if (char === '\r' || char === '\n') {
        store.set({ input: '', back: 0 });
        options.line(text);
      } else if (char === '\u007f' || char === '\b') store.set({ input: [...text].slice(0, -1).join('') });
      else if (char >= ' ' && [...text].length < options.mostChars) store.set({ input: text + char });
    }
  });
}
