import { spawnSync } from 'node:child_process';
import { join, resolve } from 'node:path';

export interface FaultCounts {
  /** places at which the day calls the file layer, and those that were made to fail */
  places: number;
  failed: number;
  callsLate: number;
  crashed: number;
  /** starts that were refused, in a sentence */
  refused: number;
  /** days after which an entry was missing, and those of them in which that was not said */
  withLoss: number;
  silentLoss: number;
  problems: string[];
}

interface Line {
  plain?: true;
  calls?: number;
  kind: string;
  errno: number;
  n: number;
  fired: number;
  crashed: string | null;
  refused: string | null;
  callsOnTime: boolean;
  lost: number;
  said: string;
}

/**
 * Builds the failing layer; null where there is no C compiler or it is not Linux. TANKSIDE_FAULT_LAYER names one that
 * was built elsewhere.
 */
export function buildFaults(source: string, dir: string): string | null {
  const elsewhere = process.env.TANKSIDE_FAULT_LAYER;
  if (elsewhere) return resolve(elsewhere);
  const library = join(dir, 'faults.so');
  const built = spawnSync('cc', ['-shared', '-fPIC', '-O1', '-o', library, source, '-ldl']);
  return process.platform === 'linux' && built.status === 0 ? library : null;
}

/** Every `every`-th place, beginning with `first`. */
export function runFaults(library: string, day: string, dir: string, every: number, first = 0): FaultCounts {
  const at = join(dir, 'faulty');
  const out = spawnSync(process.execPath, [day, at, String(every), String(first)], {
    encoding: 'utf8',
    env: { ...process.env, LD_PRELOAD: library, FAULT_DIR: at },
    maxBuffer: 1 << 28,
  });
  const lines = out.stdout
    .split('\n')
    .filter((l) => l.startsWith('{'))
    .map((l) => JSON.parse(l) as Line);
  const [plain, ...places] = lines;
  const bad = (l: Line): boolean =>
    l.crashed !== null ||
    !l.callsOnTime ||
    (l.lost > 0 && l.said === '') ||
    /^(?!Refusal)\w*Error/.test(l.refused ?? '');
  return {
    places: places.length,
    failed: places.filter((l) => l.fired > 0).length,
    callsLate: places.filter((l) => !l.callsOnTime).length,
    crashed: places.filter((l) => l.crashed !== null).length,
    refused: places.filter((l) => l.refused !== null).length,
    withLoss: places.filter((l) => l.lost > 0).length,
    silentLoss: places.filter((l) => l.lost > 0 && l.said === '').length,
    problems: [
      ...(plain?.plain && (plain.calls ?? 0) > 5
        ? []
        : [`the plain day failed: ${out.stderr.slice(0, 500)}`]),
      ...places.filter(bad).map((l) => JSON.stringify(l)),
      ...(out.status === 0 ? [] : [`ended with ${out.status}: ${out.stderr.slice(-500)}`]),
    ],
  };
}
