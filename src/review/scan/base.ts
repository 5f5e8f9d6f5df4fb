import type { Triple } from './colour.js';
import type { Scan, Tables } from './density.js';
import { quantile, sorted, spread } from './statistics.js';

/** Part of a scan, pixels from the upper left corner. */
export interface Rect {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A small square of the scan: its mean densities as scanned, and how much the green one varies inside. */
export interface Tile {
  col: number;
  row: number;
  density: Triple;
  rough: number;
}

export interface Tiles {
  cols: number;
  rows: number;
  sizePx: number;
  tiles: Tile[];
}

/** The scan in about 64 by 48 squares, never smaller than 2 pixels. */
export function tilesOf(scan: Scan, tables: Tables): Tiles {
  const sizePx = Math.max(2, Math.floor(Math.min(scan.width / 64, scan.height / 43)));
  const cols = Math.max(1, Math.floor(scan.width / sizePx));
  const rows = Math.max(1, Math.floor(scan.height / sizePx));
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++)
    for (let col = 0; col < cols; col++)
      tiles.push({
        col,
        row,
        ...meanIn(scan, tables, { x: col * sizePx, y: row * sizePx, width: sizePx, height: sizePx }),
      });
  return { cols, rows, sizePx, tiles };
}

/** Mean density in a rectangle and the standard deviation of the green one. */
export function meanIn(scan: Scan, tables: Tables, rect: Rect): { density: Triple; rough: number } {
  const sum = [0, 0, 0];
  let squares = 0;
  let n = 0;
  const right = Math.min(scan.width, rect.x + rect.width);
  const bottom = Math.min(scan.height, rect.y + rect.height);
  for (let y = Math.max(0, rect.y); y < bottom; y++)
    for (let x = Math.max(0, rect.x); x < right; x++) {
      const at = (y * scan.width + x) * 3;
      for (let c = 0; c < 3; c++) {
        const d = tables[c as 0]?.[scan.data[at + c] as number] as number;
        sum[c] = (sum[c] as number) + d;
        if (c === 1) squares += d * d;
      }
      n++;
    }
  const at = (c: number): number => (sum[c] as number) / Math.max(1, n);
  return {
    density: [at(0), at(1), at(2)],
    rough: Math.sqrt(Math.max(0, squares / Math.max(1, n) - at(1) ** 2)),
  };
}

export interface Base {
  /** found: a clear, even, lightest part; guessed: the lightest densities of each channel, no base in sight */
  by: 'found' | 'given' | 'guessed';
  /** densities as scanned */
  density: Triple;
  /** density of bare light beside the film, where some is seen or given */
  light: Triple | null;
  /** tiles of base and of bare light; for leaving them out of the picture */
  tiles: Set<Tile>;
  /** clipped: the base is at the top of the scan's range, so its true density is not in the file */
  clipped: boolean;
}

/** Inside such a square nothing is drawn. source: measured on grain and on rendered skies */
const FLAT = 0.035;
/** Squares of one thing are this near in density. */
const SAME = 0.05;
/** At least this share of the squares, and three, make a base and not a highlight of the scan. */
const LEAST_SHARE = 0.004;
/** Film that adds this much more blue than red density is masked. */
const ORANGE = 0.2;
/** Bare light comes near the top of a scan in one colour at least. */
const NEAR_TOP = 0.12;
/** Codes this near the top of the range are cut off. */
const CLIP_D = 0.004;

interface Group {
  density: Triple;
  tiles: Tile[];
}

/** The clear film around the picture, and bare light where holes or the gate show it; null: nothing even and light enough. */
export function findBase({ tiles }: Tiles): Base | null {
  const groups = lightestGroups(tiles);
  const [first, second] = groups;
  if (!first) return null;
  // film over bare light is orange whatever the light's own colour, and clearly denser in every layer
  const masked = (over: Group, under: Group): boolean =>
    blueOverRed(over) - blueOverRed(under) > ORANGE &&
    over.density.every((d, c) => d > (under.density[c as 0] as number) + SAME);
  const atTop = Math.min(...first.density) < NEAR_TOP;
  const light = second && atTop && masked(second, first) ? first : null;
  const base = light && second ? second : first;
  // densities well below an even part, other than bare light: the even part is in the picture
  const lit = new Set(light?.tiles);
  const below = tiles.filter((t) => t.rough < 2 * FLAT && !lit.has(t) && meanOf(t) < meanOf(base) - 3 * SAME);
  if (below.length > Math.max(3, tiles.length * LEAST_SHARE)) return null;
  return {
    by: 'found',
    density: base.density,
    light: light?.density ?? null,
    tiles: new Set([...base.tiles, ...(light?.tiles ?? [])]),
    clipped: base.density.filter((d) => d < CLIP_D).length >= 2,
  };
}

const blueOverRed = ({ density }: Group): number => density[2] - density[0];
const meanOf = ({ density }: { density: Triple }): number => (density[0] + density[1] + density[2]) / 3;

/** Even squares of like density, the two lightest sorts of which there are enough. */
function lightestGroups(tiles: readonly Tile[]): Group[] {
  const flat = tiles.filter((t) => t.rough < FLAT).sort((a, b) => meanOf(a) - meanOf(b));
  const least = Math.max(3, tiles.length * LEAST_SHARE);
  const groups: Group[] = [];
  let rest = flat;
  while (rest.length >= least && groups.length < 2) {
    const [lightest] = rest;
    if (!lightest) break;
    const group = rest.filter((t) => near(t.density, lightest.density, 2 * SAME));
    if (group.length >= least) {
      const density = middle(group);
      // the group's own middle decides who belongs to it
      const own = rest.filter((t) => near(t.density, density, SAME));
      groups.push({ density: own.length >= least ? middle(own) : density, tiles: group });
    }
    const taken = new Set(group);
    rest = rest.filter((t) => !taken.has(t));
  }
  return groups;
}

const near = (a: Triple, b: Triple, within: number): boolean =>
  Math.abs(a[0] - b[0]) <= within && Math.abs(a[1] - b[1]) <= within && Math.abs(a[2] - b[2]) <= within;

function middle(tiles: readonly Tile[]): Triple {
  const of = (c: 0 | 1 | 2): number => quantile(sorted(tiles.map((t) => t.density[c])), 0.5);
  return [of(0), of(1), of(2)];
}

/** The lightest densities of each channel, for a scan in which no base is to be seen. */
export function guessBase({ tiles }: Tiles): Base {
  const of = (c: 0 | 1 | 2): number => quantile(sorted(tiles.map((t) => t.density[c])), 0.005);
  return { by: 'guessed', density: [of(0), of(1), of(2)], light: null, tiles: new Set(), clipped: false };
}

export interface Edges {
  /** unevenness of the clear edge in long waves, as density: light has been there */
  fogged: number;
  /** unevenness of the clear edge in blotches, as density: backing, drying marks */
  stained: number;
}

export interface Rebate {
  /** rows and columns that are all rebate */
  lines: Tile[][];
  /** these and the one beside the picture, which may be half of it */
  tiles: Set<Tile>;
  /** along two sides that face each other, as on a strip of film */
  facing: boolean;
}

/** Rows and columns of squares along the borders that are mostly base: the rebate. From the border inwards, without a gap. */
export function rebateOf({ cols, rows, tiles }: Tiles, base: Base): Rebate {
  const shareOf = (line: readonly Tile[]): number =>
    line.filter((t) => base.tiles.has(t)).length / Math.max(1, line.length);
  const inwards = (count: number, at: (i: number) => Tile[]): Tile[][] => {
    const first = [0, 1, 2].map((i) => shareOf(at(i)));
    const most = Math.max(...first);
    const lines: Tile[][] = [];
    for (let i = 0; i < count * 0.2; i++) {
      const line = at(i);
      const share = shareOf(line);
      // the outermost line or two may be the holder's edge
      if (share < 0.3 || share < 0.6 * most) {
        if (i < 2) continue;
        break;
      }
      lines.push(line);
    }
    return lines;
  };
  const row = (r: number): Tile[] => tiles.slice(r * cols, (r + 1) * cols);
  const col = (c: number): Tile[] => Array.from({ length: rows }, (_, r) => tiles[r * cols + c] as Tile);
  const sides = [
    inwards(rows, row),
    inwards(rows, (i) => row(rows - 1 - i)),
    inwards(cols, col),
    inwards(cols, (i) => col(cols - 1 - i)),
  ];
  return {
    // the innermost may be half picture
    lines: sides.flatMap((lines) => (lines.length > 1 ? lines.slice(0, -1) : lines)),
    tiles: new Set(sides.flat(2)),
    facing: [0, 2].some((i) => (sides[i]?.length ?? 0) > 0 && (sides[i + 1]?.length ?? 0) > 0),
  };
}

/** Looks along the rebate. Edge printing is rough inside its squares and does not count. */
export function edgesOf({ lines }: Rebate, base: Base): Edges {
  let fogged = 0;
  let stained = 0;
  for (const l of lines) {
    const values = l
      .filter((t) => t.rough < 2 * FLAT)
      .map((t) => t.density[1] - base.density[1])
      .filter((d) => d > -SAME && d < 0.8);
    if (values.length < 8) continue;
    const all = spread(values);
    const steps = values.slice(1).map((v, i) => v - (values[i] as number));
    const jumpy = Math.sqrt(steps.reduce((s, d) => s + d * d, 0) / steps.length) / Math.SQRT2;
    if (jumpy < 0.45 * all) fogged = Math.max(fogged, all);
    else stained = Math.max(stained, all);
  }
  return { fogged, stained };
}
