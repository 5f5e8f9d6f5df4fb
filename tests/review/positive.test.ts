import { execFile, spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';

const main = fileURLToPath(new URL('../../dist/app/main.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'tankside-positive-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function tankside(...args: string[]): Promise<{ code: number; text: string }> {
  return new Promise((resolve) =>
    execFile(
      process.execPath,
      [main, ...args],
      { env: { ...process.env, TANKSIDE_DATA: join(folder, 'data') } },
      (error, out, err) =>
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, text: out + err }),
    ),
  );
}

const W = 240;
const H = 160;
/** A negative with a clear edge and fields of grey, `code` bits deep. */
function pixels(depth: 8 | 16, seed = 0): Uint8Array | Uint16Array {
  const out = depth === 16 ? new Uint16Array(W * H * 3) : new Uint8Array(W * H * 3);
  const top = depth === 16 ? 65535 : 255;
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++)
      for (let c = 0; c < 3; c++) {
        const logE = -1.8 + 0.22 * Math.floor(x / 30) + 0.05 * ((Math.floor(y / 20) + seed) % 3);
        const d = [0.18, 0.5, 0.8][c]! + (y < 14 ? 0 : [0.5, 0.55, 0.6][c]! * (logE + 2));
        const v = 10 ** -d;
        out[(y * W + x) * 3 + c] = Math.round(
          top * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055),
        );
      }
  return out;
}
const raw = (depth: 8 | 16, seed = 0) => {
  const image = sharp(pixels(depth, seed), { raw: { width: W, height: H, channels: 3 } });
  return depth === 16 ? image.toColourspace('rgb16') : image;
};
const file = (name: string): string => join(folder, name);

describe('positives of a roll', () => {
  it('come numbered, 16 bits deep and grey, from 8 and 16 bits, and are not made twice', {
    timeout: 120_000,
  }, async () => {
    const roll = file('roll');
    mkdirSync(roll);
    await raw(16, 0).tiff().toFile(join(roll, 'scan2.tif'));
    await raw(16, 1).png().toFile(join(roll, 'scan10.png'));
    await raw(8, 2).jpeg({ quality: 100, chromaSubsampling: '4:4:4' }).toFile(join(roll, 'scan1.jpg'));
    const out = file('out');
    const first = await tankside('positive', roll, '--out', out);
    expect(first.code, first.text).toBe(0);
    expect(first.text).toContain('3 positives');
    for (const i of [1, 2, 3]) {
      const made = sharp(join(out, `frame_00000${i}.tif`));
      const meta = await made.metadata();
      expect([meta.depth, meta.width, meta.height]).toEqual(['ushort', W, H]);
      const { data } = await made
        .toColourspace('rgb16')
        .raw({ depth: 'ushort' })
        .toBuffer({ resolveWithObject: true });
      const codes = new Uint16Array(data.buffer, data.byteOffset, data.length / 2);
      // a field in the middle: neutral within 1.5 percent of the range; JPEG's 8 bits are coarser
      const at = (90 * W + 135) * 3;
      const spread =
        Math.max(codes[at]!, codes[at + 1]!, codes[at + 2]!) -
        Math.min(codes[at]!, codes[at + 1]!, codes[at + 2]!);
      expect(spread).toBeLessThan(i === 1 ? 3000 : 1000);
    }
    const before = statSync(join(out, 'frame_000001.tif')).mtimeMs;
    rmSync(join(out, 'frame_000002.tif'));
    const again = await tankside('positive', roll, '--out', out);
    expect(again.text).toContain('1 positives');
    expect(again.text).toContain('2 kept from before');
    expect(statSync(join(out, 'frame_000001.tif')).mtimeMs).toBe(before);
    expect(existsSync(join(out, 'frame_000002.tif'))).toBe(true);
  });

  it('go on after a kill: no frame is half there, and what is there is not made again', {
    timeout: 180_000,
  }, async () => {
    const roll = file('long');
    mkdirSync(roll);
    const frame = await raw(16, 1).resize(1500, 1000, { kernel: 'nearest' }).tiff().toBuffer();
    for (let i = 0; i < 24; i++) writeFileSync(join(roll, `s${i}.tif`), frame);
    const out = file('long-out');
    const whole = (): string[] => (existsSync(out) ? readdirSync(out).filter((n) => n.endsWith('.tif')) : []);
    const child = spawn(process.execPath, [main, 'positive', roll, '--out', out, '--jobs', '1'], {
      stdio: 'ignore',
    });
    const ended = new Promise((resolve) => child.on('close', resolve));
    await expect.poll(() => whole().length, { timeout: 60_000, interval: 10 }).toBeGreaterThan(3);
    child.kill('SIGKILL');
    await ended;
    const before = new Map(whole().map((n) => [n, statSync(join(out, n)).mtimeMs]));
    expect(before.size).toBeLessThan(24);
    const again = await tankside('positive', roll, '--out', out);
    expect(again.code, again.text).toBe(0);
    expect(again.text).toContain(`Going on with the look in ${out}.`);
    expect(again.text).toContain(`${24 - before.size} positives`);
    expect(again.text).toContain(`${before.size} kept from before`);
    expect(again.text).toMatch(/\d+ of 24 frames/);
    for (const [name, mtimeMs] of before) expect(statSync(join(out, name)).mtimeMs).toBe(mtimeMs);
    expect(whole()).toHaveLength(24);
    for (const name of whole()) expect((await sharp(join(out, name)).stats()).channels).toHaveLength(3);
    expect(readdirSync(out).filter((n) => n.endsWith('.part'))).toEqual([]);
  });

  it('have a report with the frames in it', { timeout: 120_000 }, async () => {
    const report = file('report.html');
    const done = await tankside('why', '--scan', file('roll'), '--report', report);
    expect(done.code, done.text).toBe(0);
    expect(done.text).toContain(`The report is in ${report}.`);
    const html = readFileSync(report, 'utf8');
    expect(html).toContain('data:image/jpeg;base64,');
    expect(html).toContain('<svg');
    expect(html).not.toMatch(/(?:src|href)="https?:/);
  });
});

/** The least TIFF of 32-bit floats. source: TIFF 6.0, sample format 3 */
function floatTiff(width: number, height: number): Buffer {
  const tags: [number, number, number, number][] = [
    [256, 3, 1, width],
    [257, 3, 1, height],
    [258, 3, 1, 32],
    [259, 3, 1, 1],
    [262, 3, 1, 2],
    [273, 4, 1, 200],
    [277, 3, 1, 3],
    [278, 3, 1, height],
    [279, 4, 1, width * height * 12],
    [339, 3, 1, 3],
  ];
  const out = Buffer.alloc(200 + width * height * 12);
  out.write('II*\0', 0, 'latin1');
  out.writeUInt32LE(8, 4);
  out.writeUInt16LE(tags.length, 8);
  tags.forEach(([tag, type, count, value], i) => {
    const at = 10 + i * 12;
    out.writeUInt16LE(tag, at);
    out.writeUInt16LE(type, at + 2);
    // bits and sample format of three samples do not fit a field: one stands for all
    out.writeUInt32LE(count, at + 4);
    out.writeUInt32LE(value, at + 8);
  });
  return out;
}

describe('files that cannot be used', () => {
  const refused = async (name: string, ...words: string[]): Promise<void> => {
    const { code, text } = await tankside('positive', file(name), '--out', file(`no-${name}`));
    expect(code, text).not.toBe(0);
    for (const w of words) expect(text).toContain(w);
    expect(text).not.toMatch(/\bat .*\.js:\d+/);
    expect(existsSync(join(file(`no-${name}`), 'frame_000001.tif'))).toBe(false);
  };

  it('are named with what was expected', { timeout: 240_000 }, async () => {
    writeFileSync(file('words.tif'), 'this is not an image at all');
    await refused('words.tif', 'is not an image', 'Expected PNG, JPEG or TIFF');
    await sharp({ create: { width: 1, height: 1, channels: 3, background: '#888' } })
      .png()
      .toFile(file('one.png'));
    await refused('one.png', '1 by 1 pixels', 'at least 32');
    await sharp({ create: { width: 64, height: 64, channels: 3, background: '#888' } })
      .toColourspace('cmyk')
      .tiff()
      .toFile(file('cmyk.tif'));
    await refused('cmyk.tif', 'CMYK', 'Export the scan as RGB');
    writeFileSync(file('float.tif'), floatTiff(64, 64));
    await refused('float.tif', 'floating-point', '16 bits');
    const whole = await raw(16).tiff({ compression: 'none' }).toBuffer();
    writeFileSync(file('short.tif'), whole.subarray(0, Math.floor(whole.length * 0.6)));
    await refused('short.tif', 'short.tif');
    await refused('missing.tif', 'does not exist');
    await sharp({ create: { width: 200, height: 150, channels: 3, background: '#888' } })
      .png()
      .toFile(file('flat.png'));
    await refused('flat.png', 'too little in the picture');
  });

  it('a positive in place of a negative is not turned over, and nothing is written', {
    timeout: 120_000,
  }, async () => {
    // the roll's own positive, and a picture of the sky without any film
    await tankside('positive', file('roll'), '--out', file('turned'));
    await sharp(join(file('turned'), 'frame_000001.tif'))
      .extract({ left: 0, top: 20, width: W, height: H - 20 })
      .png()
      .toFile(file('positive.png'));
    await refused(
      'positive.png',
      'Nothing shows that this is a negative',
      'may be a positive already',
      '--base',
    );
    const why = await tankside('why', '--scan', file('positive.png'), '--report', file('none.html'));
    expect(why.text).toContain('Nothing shows that this is a negative');
    expect(why.text).not.toMatch(/automatic levels|white balance of the scan/);
    const told = await tankside(
      'positive',
      file('positive.png'),
      '--out',
      file('told'),
      '--base',
      '0,0,20,20',
    );
    expect(told.code, told.text).toBe(0);
  });

  it('one with no clear base in it is turned over by its lightest part, and it is said', {
    timeout: 120_000,
  }, async () => {
    // fields of light in no order, of which no side is clear
    const data = new Uint16Array(W * H * 3);
    for (let y = 0; y < H; y++)
      for (let x = 0; x < W; x++) {
        const logE = -1.8 + (1.7 * ((Math.floor(x / 30) * 5 + Math.floor(y / 20) * 3) % 11)) / 10;
        for (let c = 0; c < 3; c++) {
          const d = [0.2, 0.55, 0.85][c]! + [0.5, 0.55, 0.6][c]! * (logE + 2);
          data[(y * W + x) * 3 + c] = Math.round(65535 * 10 ** (-d / 2.2));
        }
      }
    await sharp(data, { raw: { width: W, height: H, channels: 3 } })
      .toColourspace('rgb16')
      .tiff()
      .toFile(file('cropped.tif'));
    const { code, text } = await tankside(
      'positive',
      file('cropped.tif'),
      '--out',
      file('cropped'),
      '--transfer',
      'gamma-2.2',
    );
    expect(code, text).toBe(0);
    expect(text).toContain(
      'No clear film base is in the scan, so the lightest part of the picture stands for it.',
    );
    expect(text).toContain('--base x,y,width,height');
  });

  it('with an alpha channel are taken without it, and it is said', { timeout: 120_000 }, async () => {
    await raw(8).ensureAlpha().png().toFile(file('alpha.png'));
    const { code, text } = await tankside('positive', file('alpha.png'), '--out', file('alpha'));
    expect(code, text).toBe(0);
    expect(text).toContain('alpha channel, which is left out');
  });

  it('a rectangle that makes no sense, or reaches beyond the scan, is named', {
    timeout: 120_000,
  }, async () => {
    const bad = await tankside('positive', file('roll'), '--out', file('r'), '--base', '1,2,x');
    expect(bad.code).toBe(2);
    expect(bad.text).toContain('is not a rectangle');
    const far = await tankside('positive', file('roll'), '--out', file('r'), '--base', '200,100,300,60');
    expect(far.code).toBe(2);
    expect(far.text).toContain('reaches beyond');
  });
});
