import { limits } from '../limits.js';
import type { ScreenLine, ScreenView } from '../screen/view.js';
import { harmless } from './screen.js';
import type { Console } from './screens.js';
import { boundedLines, keyboard, Terminal } from './terminal.js';

/** Lines as they come from a screen that is not a stream. */
class Typed implements AsyncIterable<string> {
  #queue: string[] = [];
  #wake: () => void = () => {};
  #over = false;

  push(line: string): void {
    this.#queue.push(line);
    this.#wake();
  }
  end(): void {
    this.#over = true;
    this.#wake();
  }
  async *[Symbol.asyncIterator](): AsyncIterator<string> {
    for (;;) {
      const line = this.#queue.shift();
      if (line !== undefined) yield line;
      else if (this.#over) return;
      else
        await new Promise<void>((resolve) => {
          this.#wake = resolve;
        });
    }
  }
}

/** A screen where a person sits at a terminal; plain lines for a pipe, a simple terminal, or where they were asked for. */
export async function openConsole(options: {
  plain: boolean;
  /** standard input belongs to the thermometer */
  probeOnInput: boolean;
  benchMs(): number;
}): Promise<Console> {
  const input = options.probeOnInput ? keyboard() : process.stdin;
  const simple = !process.stdout.isTTY || !input.isTTY || process.env.TERM === 'dumb';
  if (options.plain || simple) return new Terminal(input, limits.lineChars);
  const { openTerminal } = await import('../screen/terminal/terminal.js');
  const lines = new Typed();
  const console: Console = {
    lines,
    onKey: () => false,
    onLeave: () => lines.end(),
    onResumed: () => {},
    line: (line: ScreenLine) => terminal.line({ ...line, text: harmless(line.text) }),
    show: (view: ScreenView) => terminal.show(view),
    level: (db: number) => terminal.level(db),
    end: () => lines.end(),
    close() {
      lines.end();
      terminal.close();
      input.unpipe();
      input.pause();
    },
  };
  const terminal = openTerminal({
    stdin: boundedLines(input, limits.lineChars, true, (text) =>
      terminal.line({ id: 0, kind: 'aside', text, atMs: options.benchMs() }),
    ),
    stdout: process.stdout,
    benchMs: options.benchMs,
    key: (name) => console.onKey(name),
    line: (text) => lines.push(text),
    leave: () => console.onLeave(),
    resumed: () => console.onResumed(),
    mostChars: limits.lineChars,
  });
  return console;
}
