import type { Dice } from './dice.js';

/** Log light of a made scene, red, green and blue in turn: fields of colour of many sizes under uneven light. */
export function someScene(dice: Dice, width: number, height: number): Float32Array {
  const out = new Float32Array(width * height * 3);
  const shade = new Float32Array(width * height);
  const colour = new Float32Array(width * height * 3);
  const contrast = dice.between(0.8, 1.15);
  const fill = (x0: number, y0: number, w: number, h: number): void => {
    // log reflectance, most of it between 3 and 90 percent
    const grey = -0.72 + dice.normal(0.42) * contrast;
    const vivid = dice.chance(0.25) ? dice.between(0.08, 0.3) : dice.between(0, 0.07);
    const turn = dice.between(0, 2 * Math.PI);
    const tint = [0, 1, 2].map((c) => vivid * Math.cos(turn + (c * 2 * Math.PI) / 3));
    const slope = dice.normal(0.15);
    for (let y = Math.max(0, y0); y < Math.min(height, y0 + h); y++)
      for (let x = Math.max(0, x0); x < Math.min(width, x0 + w); x++) {
        const i = y * width + x;
        shade[i] = grey + (slope * (x - x0)) / Math.max(1, w);
        for (let c = 0; c < 3; c++) colour[i * 3 + c] = tint[c] as number;
      }
  };
  fill(0, 0, width, height);
  for (let k = 0; k < 60; k++) {
    const size = 2 ** dice.between(2.5, 5.5);
    fill(
      Math.floor(dice.between(-size / 2, width)),
      Math.floor(dice.between(-size / 2, height)),
      Math.ceil(size * dice.between(0.6, 1.6)),
      Math.ceil(size * dice.between(0.6, 1.6)),
    );
  }
  const lightTurn = dice.between(0, 2 * Math.PI);
  const lightSlope = dice.between(0, 0.35);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const light =
        lightSlope * ((x / width - 0.5) * Math.cos(lightTurn) + (y / height - 0.5) * Math.sin(lightTurn));
      for (let c = 0; c < 3; c++)
        out[i * 3 + c] = Math.min(
          0.1,
          Math.max(-2.6, (shade[i] as number) + (colour[i * 3 + c] as number) + light + dice.normal(0.02)),
        );
    }
  return out;
}
