import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { openImage, readWhole, writePositive } from '../../src/app/review-images.js';
import { convertRoll, readRoll } from '../../src/app/review-roll.js';
import { applyTables, lookOf, positiveTables } from '../../src/review/positive/look.js';
import { findingsOf } from '../../src/review/scan/reading.js';

/**
 * Positives from 16-bit TIFF: megapixels a second of one core beside sharp's own decode of the same file, and memory
 * over a long roll. `review.js [frames of the long roll]`
 */
const frames = Number(process.argv[2] ?? 300);
const folder = mkdtempSync(join(tmpdir(), 'tankside-bench-'));
sharp.concurrency(1);
sharp.cache(false);

async function negative(path: string, width: number, height: number): Promise<void> {
  const data = new Uint16Array(width * height * 3);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      for (let c = 0; c < 3; c++) {
        const light = -1.9 + (1.8 * x) / width + 0.2 * Math.sin(y / 90 + c * (x % 300 > 250 ? 1 : 0));
        const d =
          ([0.18, 0.55, 0.85][c] ?? 0) + (y < height * 0.06 ? 0 : ([0.5, 0.55, 0.6][c] ?? 0) * (light + 2.1));
        data[(y * width + x) * 3 + c] = Math.round(65535 * 10 ** (-d / 2.2));
      }
  await sharp(data, { raw: { width, height, channels: 3 } })
    .toColourspace('rgb16')
    .tiff({ compression: 'none' })
    .toFile(path);
}

const cpuMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
/** Processor time of the whole process, so that a busy machine does not count. */
async function spent(times: number, work: () => Promise<unknown>): Promise<number> {
  await work();
  const all: number[] = [];
  for (let i = 0; i < times; i++) {
    const before = cpuMs();
    await work();
    all.push(cpuMs() - before);
  }
  return all.sort((a, b) => a - b)[Math.floor(times / 2)] as number;
}

const big = join(folder, 'big.tif');
await negative(big, 4000, 3000);
const { frames: read } = await readRoll([big], {}, { most: 1 });
const look = lookOf(findingsOf(read), read, { tone: 'print' });
if (!look) throw new Error('no look');
const file = await openImage(big);
const tables = positiveTables(look, file.codes, file.transfer);
const decodeMs = await spent(7, () =>
  sharp(big, { ignoreIcc: true }).toColourspace('rgb16').raw({ depth: 'ushort' }).toBuffer(),
);
const invertMs = await spent(7, async () => {
  const scan = await readWhole(await openImage(big));
  applyTables(scan.data, tables, scan.data as Uint16Array);
});
const wholeMs = await spent(5, async () => {
  const scan = await readWhole(await openImage(big));
  applyTables(scan.data, tables, scan.data as Uint16Array);
  await writePositive(join(folder, 'big-out.tif'), scan.data as Uint16Array, scan, 'tiff');
});
const rate = (ms: number): string => `${(12 / (ms / 1000)).toFixed(0)} megapixels a second of one core`;
console.log(`12 megapixels, 16-bit TIFF, processor time:`);
console.log(`  sharp's own decode       ${decodeMs.toFixed(0)} ms, ${rate(decodeMs)}`);
console.log(`  decode and inversion     ${invertMs.toFixed(0)} ms, ${rate(invertMs)}`);
console.log(`  and written as TIFF      ${wholeMs.toFixed(0)} ms, ${rate(wholeMs)}`);

const roll = join(folder, 'roll');
mkdirSync(roll);
const small = join(folder, 'small.tif');
await negative(small, 1024, 768);
const inputs = Array.from({ length: frames }, (_, i) => {
  const path = join(roll, `s${i}.tif`);
  symlinkSync(small, path);
  return path;
});
const out = join(folder, 'out');
const resident: number[] = [];
const began = performance.now();
const done = await convertRoll(inputs, {
  look,
  format: 'tiff',
  out,
  resume: false,
  progress: (n) => {
    if (n > 0 && n % Math.ceil(frames / 10) === 0) {
      resident.push(process.memoryUsage.rss() / 1e6);
      // the disk is not what is measured; frames that are being written stay
      for (const name of readdirSync(out)) if (name.endsWith('.tif')) rmSync(join(out, name));
    }
  },
});
console.log(
  `${done.made} frames of 0.8 megapixels in ${((performance.now() - began) / 1000).toFixed(0)} s; resident, each tenth: ${resident.map((m) => m.toFixed(0)).join(' ')} MB`,
);
for (const p of done.problems.slice(0, 3)) console.log(p);
rmSync(folder, { recursive: true, force: true });
