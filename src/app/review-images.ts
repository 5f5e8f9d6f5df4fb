import { createHash } from 'node:crypto';
import { statSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { limits } from '../limits.js';
import type { Scan, Transfer } from '../review/scan/density.js';
import { gammaTransfer, linearTransfer, srgbTransfer, transferOfIcc } from '../review/scan/icc.js';
import { Refusal } from './exit.js';

/** How codes become light when the file itself does not say, or is not to be believed. */
export const transfers = {
  srgb: srgbTransfer,
  linear: linearTransfer,
  'gamma-1.8': gammaTransfer(1.8),
  'gamma-2.2': gammaTransfer(2.2),
} as const;
export type TransferName = keyof typeof transfers;

/** What is known of an image file before its pixels are read. */
export interface ImageFile {
  path: string;
  width: number;
  height: number;
  codes: 256 | 65536;
  transfer: Transfer;
  notes: string[];
}

/** Smallest side of a picture that can be read as one, pixels. */
const LEAST_PX = 32;
/** Longest side of the copy a negative is read from, pixels. */
const READ_PX = 720;

/**
 * Opens an image for reading a negative.
 * @throws Refusal: a sentence about a file that is no image, too small, CMYK, of one channel, or of 32-bit floats
 */
export async function openImage(path: string, asked?: TransferName): Promise<ImageFile> {
  try {
    if (!statSync(path).isFile()) throw new Refusal(`${path} is a folder, not an image. Give files.`);
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${path} cannot be read. Check the path.`);
  }
  const meta = await sharp(path, { limitInputPixels: false })
    .metadata()
    .catch(() => {
      throw new Refusal(`${path} is not an image that can be read here. Expected PNG, JPEG or TIFF.`);
    });
  const { width, height, space, depth, channels, icc, hasAlpha } = meta;
  if (width * height > limits.imagePixels)
    throw new Refusal(
      `${path} says it is ${width} by ${height} pixels; at most ${limits.imagePixels / 1e6} million are taken. Scan at a lower resolution.`,
    );
  if (space === 'cmyk')
    throw new Refusal(`${path} is CMYK, made for printing ink. Export the scan as RGB, 16 bits a channel.`);
  if (depth === 'float' || depth === 'double')
    throw new Refusal(
      `${path} holds floating-point numbers. Save the scan as TIFF or PNG with 16 bits a channel.`,
    );
  if (depth !== 'uchar' && depth !== 'ushort')
    throw new Refusal(`${path} has samples of kind ${depth}. Save the scan with 8 or 16 bits a channel.`);
  if (channels < 3)
    throw new Refusal(`${path} has one channel only. Scan a colour negative in colour, as RGB.`);
  if (space === 'lab' || space === 'labs')
    throw new Refusal(`${path} is in CIELAB. Export the scan as RGB, 16 bits a channel.`);
  if (Math.min(width, height) < LEAST_PX)
    throw new Refusal(
      `${path} is ${width} by ${height} pixels. A picture needs at least ${LEAST_PX} a side; was it a preview?`,
    );
  const fromIcc = icc ? transferKept(icc) : null;
  return {
    path,
    width,
    height,
    codes: depth === 'ushort' ? 65536 : 256,
    transfer: asked ? transfers[asked] : (fromIcc ?? srgbTransfer),
    notes: [
      ...(hasAlpha ? [`${path} has an alpha channel, which is left out.`] : []),
      ...(icc && !fromIcc && !asked
        ? [`${path} has a profile without tone curves; sRGB is taken for its curve. --transfer sets another.`]
        : []),
    ],
  };
}

const profiles = new Map<string, Transfer | null>();

/** One transfer for one profile, however many frames carry it: tables are kept by it. */
function transferKept(icc: Uint8Array): Transfer | null {
  const key = createHash('sha1').update(icc).digest('hex');
  const known = profiles.get(key);
  if (known !== undefined) return known;
  const fresh = transferOfIcc(icc);
  profiles.set(key, fresh);
  return fresh;
}

/** Pixels as they are in the file: no colour management, alpha left out. */
const pixels = (file: ImageFile): Sharp => {
  const image = sharp(file.path, {
    ignoreIcc: true,
    failOn: 'truncated',
    limitInputPixels: false,
  }).removeAlpha();
  return file.codes === 65536 ? image.toColourspace('rgb16') : image.toColourspace('srgb');
};

/** A copy of at most 720 pixels for reading. */
export async function readSmall(file: ImageFile): Promise<{ scan: Scan; scale: number }> {
  const scale = Math.min(1, READ_PX / Math.max(file.width, file.height));
  const image = pixels(file);
  const small =
    scale < 1
      ? image.resize(
          Math.max(1, Math.round(file.width * scale)),
          Math.max(1, Math.round(file.height * scale)),
          {
            fit: 'fill',
            kernel: 'linear',
          },
        )
      : image;
  return { scan: await scanOf(file, small), scale };
}

/** Every pixel. */
export const readWhole = (file: ImageFile): Promise<Scan> => scanOf(file, pixels(file));

async function scanOf(file: ImageFile, image: Sharp): Promise<Scan> {
  const { codes, transfer } = file;
  const { data, info } = await image
    .raw({ depth: codes === 65536 ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true })
    .catch((error: Error) => {
      throw new Refusal(
        `${file.path} breaks off or is damaged (${error.message.split('\n')[0]}). Copy or scan it again.`,
      );
    });
  if (info.channels !== 3)
    throw new Refusal(`${file.path} does not come out as RGB. Export it as plain RGB.`);
  const { width, height } = info;
  return codes === 65536
    ? { width, height, codes, transfer, data: new Uint16Array(data.buffer, data.byteOffset, data.length / 2) }
    : { width, height, codes, transfer, data: new Uint8Array(data.buffer, data.byteOffset, data.length) };
}

export type OutputFormat = 'tiff' | 'png';

/** Writes 16-bit sRGB pixels. The file appears whole or not at all. */
export async function writePositive(
  path: string,
  data: Uint16Array,
  size: { width: number; height: number },
  format: OutputFormat,
): Promise<void> {
  const { rename } = await import('node:fs/promises');
  const image = sharp(data, { raw: { ...size, channels: 3 } })
    .toColourspace('rgb16')
    .withIccProfile('srgb');
  const part = `${path}.part`;
  await (format === 'png' ? image.png({ compressionLevel: 3 }) : image.tiff({ compression: 'none' })).toFile(
    part,
  );
  await rename(part, path);
}

/** A small JPEG as text for an HTML page, from 16-bit sRGB or 8-bit pixels. */
export async function thumbnail(
  data: Uint8Array | Uint16Array,
  size: { width: number; height: number },
  widthPx: number,
): Promise<string> {
  const { width, height } = size;
  const jpeg = await sharp(data, { raw: { width, height, channels: 3 } })
    .toColourspace('srgb')
    .resize({ width: widthPx, withoutEnlargement: true })
    .jpeg({ quality: 82 })
    .toBuffer();
  return `data:image/jpeg;base64,${jpeg.toString('base64')}`;
}
