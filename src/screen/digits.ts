type Point = readonly [x: number, y: number];

/** One character as pen strokes in a box `wide` by 7; a stroke of one point is a dot. */
interface Glyph {
  wide: number;
  strokes: readonly (readonly Point[])[];
}

export const glyphHigh = 7;

/** A character from its strokes, each written as SVG writes the points of a polyline. */
const glyph = (wide: number, ...strokes: string[]): Glyph => ({
  wide,
  strokes: strokes.map((stroke) =>
    stroke.split(' ').map((point): Point => {
      const [x = 0, y = 0] = point.split(',').map(Number);
      return [x, y];
    }),
  ),
});

/** Digits with cut corners, as engraved on a measuring glass. The page draws the strokes, the terminal rasters them. */
const glyphs: Readonly<Record<string, Glyph>> = {
  '0': glyph(4, '1,0 3,0 4,1 4,6 3,7 1,7 0,6 0,1 1,0'),
  '1': glyph(4, '0.8,1.6 2.2,0 2.2,7', '0.9,7 3.5,7'),
  '2': glyph(4, '0,1.2 1,0 3,0 4,1 4,2.6 0,7 4,7'),
  '3': glyph(4, '0.2,0 4,0 1.9,2.8 3,2.8 4,3.8 4,6 3,7 1,7 0,6'),
  '4': glyph(4, '3.2,7 3.2,0 0,4.8 4,4.8'),
  '5': glyph(4, '3.8,0 0.3,0 0.1,3 3,3 4,4 4,6 3,7 1,7 0,6'),
  '6': glyph(4, '3.2,0 0,3.8 0,6 1,7 3,7 4,6 4,4.5 3,3.5 0.4,3.5'),
  '7': glyph(4, '0,0 4,0 1.4,7'),
  '8': glyph(4, '1,0 3,0 4,1 4,2.4 3,3.3 4,4.3 4,6 3,7 1,7 0,6 0,4.3 1,3.3 0,2.4 0,1 1,0', '1,3.3 3,3.3'),
  '9': glyph(4, '0.8,7 4,3.2 4,1 3,0 1,0 0,1 0,2.5 1,3.5 3.6,3.5'),
  ':': glyph(0, '0,2', '0,5.2'),
  '+': glyph(3, '0,3.5 3,3.5', '1.5,2 1.5,5'),
};

/** Between two characters, in the units of the box. */
const gap = 1.4;

/** The characters of a text side by side: strokes moved to their places, and the whole width. */
export function laidOut(text: string): { wide: number; strokes: Point[][] } {
  let x = 0;
  const strokes: Point[][] = [];
  for (const character of text) {
    const sign = glyphs[character];
    if (!sign) continue;
    if (x > 0) x += gap;
    for (const stroke of sign.strokes) strokes.push(stroke.map(([px, py]) => [px + x, py]));
    x += sign.wide;
  }
  return { wide: x, strokes };
}

/** SVG path data; a dot is a stroke of no length, which round caps make visible. */
export const pathOf = (strokes: readonly (readonly Point[])[]): string =>
  strokes
    .map((points) => {
      const [first, ...rest] = points;
      if (!first) return '';
      const to = rest.length > 0 ? rest : [first];
      return `M${first.join(' ')}${to.map((p) => `L${p.join(' ')}`).join('')}`;
    })
    .join('');

/**
 * The text in half-block characters, `rows` lines high (3 or more), each two dots; about 1.1 columns wide for each
 * line of height a digit.
 */
export function inBlocks(text: string, rows: number): readonly string[] {
  const key = `${rows} ${text}`;
  const known = drawn.get(key);
  if (known) return known;
  if (drawn.size > 300) drawn.clear();
  const lines = raster(text, rows);
  drawn.set(key, lines);
  return lines;
}

/** A second's digits are drawn for every change of anything on the screen. */
const drawn = new Map<string, readonly string[]>();

function raster(text: string, rows: number): string[] {
  const { wide, strokes } = laidOut(text);
  const high = rows * 2;
  const scale = (high - 1) / glyphHigh;
  const columns = Math.max(1, Math.ceil(wide * scale) + 1);
  const pen = Math.max(0.62, scale * 0.5);
  const inked = (column: number, row: number): boolean =>
    strokes.some((stroke) => distance(stroke, column / scale, row / scale) * scale <= pen);
  const lines: string[] = [];
  for (let row = 0; row < rows; row++) {
    let line = '';
    for (let column = 0; column < columns; column++) {
      const upper = inked(column, row * 2);
      const lower = inked(column, row * 2 + 1);
      line += upper ? (lower ? '█' : '▀') : lower ? '▄' : ' ';
    }
    lines.push(line);
  }
  return lines;
}

/** From a point to the nearest part of a stroke. */
function distance(stroke: readonly Point[], x: number, y: number): number {
  const first = stroke[0];
  if (!first) return Number.POSITIVE_INFINITY;
  let least = Math.hypot(x - first[0], y - first[1]);
  for (let i = 1; i < stroke.length; i++) {
    const [ax, ay] = stroke[i - 1] as Point;
    const [bx, by] = stroke[i] as Point;
    const span = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = Math.max(0, Math.min(1, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / span));
    least = Math.min(least, Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
  }
  return least;
}
