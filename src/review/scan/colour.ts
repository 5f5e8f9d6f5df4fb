/** Colour arithmetic. Channels and tristimulus values 0 to 1; white is D65 (0.3127, 0.3290). */
export type Triple = readonly [number, number, number];

/** Code value to light, both 0 to 1. source: IEC 61966-2-1 */
export const srgbToLinear = (v: number): number => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);

/** Light to code value, both 0 to 1. source: IEC 61966-2-1 */
export const linearToSrgb = (v: number): number =>
  v <= 0.0031308 ? v * 12.92 : 1.055 * v ** (1 / 2.4) - 0.055;

/** Linear sRGB to XYZ, Y of white = 1. source: IEC 61966-2-1 primaries and D65, computed to seven places */
export const linearToXyz = ([r, g, b]: Triple): Triple => [
  0.4123908 * r + 0.3575843 * g + 0.1804808 * b,
  0.212639 * r + 0.7151687 * g + 0.0721923 * b,
  0.0193308 * r + 0.1191948 * g + 0.9505322 * b,
];

const whiteXyz: Triple = linearToXyz([1, 1, 1]);
const cube = (216 / 24389) as number;
const f = (t: number): number => (t > cube ? Math.cbrt(t) : (t * (24389 / 27) + 16) / 116);

export interface Lab {
  /** lightness, 0 to 100 */
  l: number;
  /** green (−) to red (+) */
  a: number;
  /** blue (−) to yellow (+) */
  b: number;
}

/** CIELAB of XYZ. source: ISO/CIE 11664-4 */
export function xyzToLab([x, y, z]: Triple, white: Triple = whiteXyz): Lab {
  const [fx, fy, fz] = [f(x / white[0]), f(y / white[1]), f(z / white[2])];
  return { l: 116 * fy - 16, a: 500 * (fx - fy), b: 200 * (fy - fz) };
}

export const linearToLab = (rgb: Triple): Lab => xyzToLab(linearToXyz(rgb));

const rad = Math.PI / 180;

/** Colour difference CIEDE2000, unit weights. source: ISO/CIE 11664-6 */
export function deltaE2000(one: Lab, two: Lab): number {
  const c1 = Math.hypot(one.a, one.b);
  const c2 = Math.hypot(two.a, two.b);
  const c7 = ((c1 + c2) / 2) ** 7;
  const g = 0.5 * (1 - Math.sqrt(c7 / (c7 + 25 ** 7)));
  const a1 = one.a * (1 + g);
  const a2 = two.a * (1 + g);
  const cp1 = Math.hypot(a1, one.b);
  const cp2 = Math.hypot(a2, two.b);
  const h1 = hue(a1, one.b);
  const h2 = hue(a2, two.b);
  const grey = cp1 * cp2 === 0;
  const apart = h2 - h1;
  const dh = grey ? 0 : Math.abs(apart) <= 180 ? apart : apart > 180 ? apart - 360 : apart + 360;
  const sum = h1 + h2;
  const hMean = grey ? sum : Math.abs(apart) <= 180 ? sum / 2 : sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
  const dL = two.l - one.l;
  const dC = cp2 - cp1;
  const dH = 2 * Math.sqrt(cp1 * cp2) * Math.sin((dh / 2) * rad);
  const lMean = (one.l + two.l) / 2;
  const cMean = (cp1 + cp2) / 2;
  const t =
    1 -
    0.17 * Math.cos((hMean - 30) * rad) +
    0.24 * Math.cos(2 * hMean * rad) +
    0.32 * Math.cos((3 * hMean + 6) * rad) -
    0.2 * Math.cos((4 * hMean - 63) * rad);
  const sL = 1 + (0.015 * (lMean - 50) ** 2) / Math.sqrt(20 + (lMean - 50) ** 2);
  const sC = 1 + 0.045 * cMean;
  const sH = 1 + 0.015 * cMean * t;
  const turn = 30 * Math.exp(-(((hMean - 275) / 25) ** 2));
  const m7 = cMean ** 7;
  const rT = -2 * Math.sqrt(m7 / (m7 + 25 ** 7)) * Math.sin(2 * turn * rad);
  return Math.sqrt((dL / sL) ** 2 + (dC / sC) ** 2 + (dH / sH) ** 2 + rT * (dC / sC) * (dH / sH));
}

const hue = (a: number, b: number): number => {
  if (a === 0 && b === 0) return 0;
  const h = Math.atan2(b, a) / rad;
  return h < 0 ? h + 360 : h;
};

/** The everyday name of a cast; '' when it is too small to name, below about two units of CIELAB. */
export function castName({ a, b }: Pick<Lab, 'a' | 'b'>): string {
  if (Math.hypot(a, b) < 2) return '';
  const names = ['red', 'orange', 'yellow', 'green', 'cyan', 'blue', 'blue', 'magenta'] as const;
  return names[Math.round(hue(a, b) / 45) % 8] ?? '';
}
