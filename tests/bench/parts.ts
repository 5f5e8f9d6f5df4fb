import { spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';

/** What a part counted: numbers are added up, but the largest of a `slowest…` or `worst…` is kept; lists are joined. */
export type Counts = { [name: string]: number | readonly string[] | Counts };

export interface Part {
  /** 0 … `of` - 1 */
  index: number;
  of: number;
}

/**
 * Runs a bench in `--parts N` processes at once (`--parts 0`: as many as there are cores) and adds up what they count;
 * without it, whole in this one. `--part I/N` runs one of them alone.
 */
export async function inParts<C extends object>(
  run: (part: Part, rest: readonly string[]) => C | Promise<C>,
): Promise<C> {
  const args = process.argv.slice(2);
  const option = (name: string): string | null => {
    const at = args.indexOf(name);
    return at < 0 ? null : (args.splice(at, 2)[1] ?? '');
  };
  const one = option('--part');
  const many = option('--parts');
  if (one !== null) {
    const [index = 0, of = 1] = one.split('/').map(Number);
    const counts = await run({ index, of }, args);
    if (process.send) process.send(counts);
    return counts;
  }
  if (many === null) return run({ index: 0, of: 1 }, args);
  const of = Number(many) || availableParallelism();
  const parts = await Promise.all(Array.from({ length: of }, (_, index) => part({ index, of }, args)));
  return parts.reduce((a, b) => added(a, b)) as C;
}

function part({ index, of }: Part, args: readonly string[]): Promise<Counts> {
  const program = [...process.execArgv, process.argv[1] ?? '', ...args, '--part', `${index}/${of}`];
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, program, { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    let counts: Counts | null = null;
    child.on('message', (message) => {
      counts = message as Counts;
      child.disconnect();
    });
    child.on('error', reject);
    child.on('exit', (code, signal) => {
      if (counts) resolve(counts);
      else reject(new Error(`part ${index} of ${of} ended without a result (${signal ?? code})`));
    });
  });
}

function added(a: Counts, b: Counts): Counts {
  const sum = (
    name: string,
    x: Counts[string] | undefined,
    y: Counts[string] | undefined,
  ): Counts[string] => {
    if (x === undefined || y === undefined) return x ?? y ?? 0;
    if (typeof x === 'number' && typeof y === 'number')
      return /^(?:slowest|worst)/.test(name) ? Math.max(x, y) : x + y;
    if (Array.isArray(x) && Array.isArray(y)) return [...x, ...y] as string[];
    return added(x as Counts, y as Counts);
  };
  const names = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Object.fromEntries([...names].map((name) => [name, sum(name, a[name], b[name])]));
}
