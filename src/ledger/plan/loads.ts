import type { FilmFormat } from '../../world/fact.js';
import type { DayBreak, DayRequest, PlannedFilm } from './types.js';

export interface Load {
  sheetId: string;
  pushStops: number;
  precious: boolean;
  films: PlannedFilm['film'][];
}

/** One film apiece, so that counts above one spread over several tanks. Rolls by number, lengths as they are. */
const single = (one: PlannedFilm): PlannedFilm[] =>
  Array.from({ length: Math.max(1, one.film.count ?? 1) }, () => ({
    ...one,
    film: { ...one.film, count: 1 },
  }));

/**
 * Tank loads in the order to run them: process by process (fewest changes of bath), within each the precious films
 * first while the developer is freshest, then pushes, which lean on it most, then the rest.
 */
export function loadsFor(request: DayRequest): Load[] | DayBreak {
  const bySheet = new Map<string, PlannedFilm[]>();
  for (const film of request.films.flatMap(single))
    bySheet.set(film.sheetId, [...(bySheet.get(film.sheetId) ?? []), film]);
  const sheetsInOrder = [...bySheet].sort(([, a], [, b]) => Number(anyPrecious(b)) - Number(anyPrecious(a)));
  const loads: Load[] = [];
  for (const [sheetId, films] of sheetsInOrder) {
    const ordered = films.toSorted(
      (a, b) => Number(b.precious) - Number(a.precious) || b.pushStops - a.pushStops || order(a) - order(b),
    );
    for (const film of ordered) {
      const share = shareOf(film.film.format, request);
      if (share === null)
        return {
          run: loads.length + 1,
          sentence: `The tank takes no ${film.film.format} film.`,
          remedy: `Say how many it holds under tank.holds, or leave ${film.film.stock} out.`,
        };
      const open = loads.find(
        (load) =>
          load.sheetId === sheetId &&
          load.pushStops === film.pushStops &&
          load.precious === film.precious &&
          filled(load, request) + share <= 1 + 1e-9,
      );
      if (open !== undefined) open.films.push(film.film);
      else loads.push({ sheetId, pushStops: film.pushStops, precious: film.precious, films: [film.film] });
    }
  }
  return loads;
}

const anyPrecious = (films: readonly PlannedFilm[]): boolean => films.some((film) => film.precious);
const formats: FilmFormat[] = ['8x10', '4x5', '120', '35mm', '16mm', 'super-8'];
const order = (one: PlannedFilm): number => formats.indexOf(one.film.format);

function shareOf(format: FilmFormat, request: DayRequest): number | null {
  const holds = request.tank.holds[format];
  return holds === undefined || holds < 1 ? null : 1 / holds;
}

const filled = (load: Load, request: DayRequest): number =>
  load.films.reduce((sum, film) => sum + (shareOf(film.format, request) ?? 1), 0);
