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
