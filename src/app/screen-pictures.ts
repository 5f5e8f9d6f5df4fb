import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { PicturesView } from '../screen/view.js';

/** A picture by the name that the page asks for; null: there is none. Loaded when the first one is drawn. */
export async function pictureSvg(name: string, view: PicturesView, atNight: boolean): Promise<string | null> {
  const { day, night } = await import('../screen/pictures/plot.js');
  const look = atNight ? night : day;
  switch (name) {
    case 'curves':
      return (await import('../screen/pictures/curves.js')).curvesSvg(view.curves, look);
    case 'run':
      return (
        view.timeline && (await import('../screen/pictures/timeline.js')).timelineSvg(view.timeline, look)
      );
    case 'bottles':
      return (await import('../screen/pictures/bottles.js')).bottlesSvg(view.bottles, look);
    default:
      return null;
  }
}

/** Writes a picture as SVG and PNG; one sentence says where they are, or why they are not. */
export async function keepPicture(folder: string, name: string, svg: string): Promise<string> {
  const path = join(folder, `${name}.svg`);
  try {
    writeFileSync(path, svg);
    const { default: sharp } = await import('sharp');
    await sharp(Buffer.from(svg), { density: 144 })
      .png()
      .toFile(join(folder, `${name}.png`));
    return `The picture is in ${path}, and beside it as PNG.`;
  } catch (error) {
    return `The picture was not kept: ${path} cannot be written (${error instanceof Error ? error.message : error}).`;
  }
}
