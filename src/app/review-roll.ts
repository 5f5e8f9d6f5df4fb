import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { makeFolderOf } from '../ledger/folders.js';
import type { Look } from '../review/positive/look.js';
import type { Rect } from '../review/scan/base.js';
import { type FrameReading, readFrame } from '../review/scan/reading.js';
import { exitCode, Refusal } from './exit.js';
import { type OutputFormat, openImage, readSmall, type TransferName } from './review-images.js';
import type { FrameDone, FrameJob, WorkerSetting } from './review-worker.js';

/** Rectangles as the user gave them, in pixels of the whole scan. */
export interface Marks {
  base?: Rect;
  light?: Rect;
  patches?: { rect: Rect; logE?: number }[];
}

/** Files and the images of folders, in the order of their numbers. */
export function inputsOf(given: readonly string[]): string[] {
  const natural = new Intl.Collator('en', { numeric: true });
  return given.flatMap((path) => {
    if (!existsSync(path)) throw new Refusal(`${path} does not exist. Check the path.`);
    if (!statSync(path).isDirectory()) return [path];
    const inside = readdirSync(path)
      .filter((name) => /\.(?:tiff?|png|jpe?g)$/i.test(name))
      .sort(natural.compare)
      .map((name) => join(path, name));
    if (inside.length === 0) throw new Refusal(`There is no TIFF, PNG or JPEG in the folder ${path}.`);
    return inside;
  });
}

/** Reads up to `most` frames, evenly over the roll. Notes say what was assumed. */
export async function readRoll(
  files: readonly string[],
  marks: Marks,
  options: { most: number; transfer?: TransferName },
): Promise<{ frames: FrameReading[]; read: string[]; notes: string[] }> {
  const step = Math.max(1, files.length / options.most);
  const read: string[] = [];
  for (let i = 0; i < files.length; i += step) read.push(files[Math.floor(i)] as string);
  const frames: FrameReading[] = [];
  const notes = new Set<string>();
  for (const path of read) {
    const file = await openImage(path, options.transfer);
    const { scan, scale } = await readSmall(file);
    const scaled = (r: Rect): Rect => {
      if (r.x + r.width > file.width || r.y + r.height > file.height)
        throw new Refusal(
          `The rectangle ${r.x},${r.y},${r.width},${r.height} reaches beyond ${path}, which is ${file.width} by ${file.height} pixels.`,
        );
      const at = (v: number): number => Math.floor(v * scale);
      return {
        x: at(r.x),
        y: at(r.y),
        width: Math.max(1, at(r.width)),
        height: Math.max(1, at(r.height)),
      };
    };
    for (const note of file.notes) notes.add(note);
    frames.push(
      readFrame(scan, {
        ...(marks.base ? { base: scaled(marks.base) } : {}),
        ...(marks.light ? { light: scaled(marks.light) } : {}),
        ...(marks.patches ? { patches: marks.patches.map((p) => ({ ...p, rect: scaled(p.rect) })) } : {}),
      }),
    );
  }
  return { frames, read, notes: [...notes] };
}

const LOOK_FILE = 'look.json';

/** The look that this folder was begun with; null when it is new. @throws Refusal when the file is not one */
export function lookIn(folder: string): Look | null {
  const path = join(folder, LOOK_FILE);
  if (!existsSync(path)) return null;
  try {
    const look = JSON.parse(readFileSync(path, 'utf8')) as Look;
    const triples = [look.base, look.slope, look.offset];
    if (triples.every((t) => Array.isArray(t) && t.length === 3 && t.every(Number.isFinite))) return look;
  } catch {
    // told below
  }
  throw new Refusal(`${path} is not a look of tankside. Remove it, or give another folder with --out.`);
}

export function keepLook(folder: string, look: Look): void {
  const path = join(folder, LOOK_FILE);
  makeFolderOf(path);
  writeFileSync(path, `${JSON.stringify(look, null, 2)}\n`);
}

export interface RollOptions extends WorkerSetting {
  out: string;
  /** frames done in an earlier go stay as they are */
  resume: boolean;
  jobs?: number;
  /** called after every frame */
  progress?: (done: number, of: number) => void;
}

export interface RollDone {
  made: number;
  kept: number;
  megapixels: number;
  problems: string[];
}

/** `frame_000001.tif` and on, as `ffmpeg -i frame_%06d.tif` reads them. */
export const frameName = (index: number, format: OutputFormat): string =>
  `frame_${String(index + 1).padStart(6, '0')}.${format === 'png' ? 'png' : 'tif'}`;

/** Every frame of a roll through one look: a worker for each core, one frame at a time in each. */
export async function convertRoll(files: readonly string[], options: RollOptions): Promise<RollDone> {
  const { out, format, look, transfer, progress } = options;
  makeFolderOf(join(out, frameName(0, format)));
  const all = files.map((from, i): FrameJob => ({ from, to: join(out, frameName(i, format)) }));
  const jobs = all.filter((j) => !(options.resume && existsSync(j.to)));
  const done: RollDone = { made: 0, kept: all.length - jobs.length, megapixels: 0, problems: [] };
  progress?.(done.kept, all.length);
  const setting: WorkerSetting = { look, format, ...(transfer ? { transfer } : {}) };
  const next = jobs[Symbol.iterator]();
  const hands = Math.max(1, Math.min(options.jobs ?? availableParallelism(), jobs.length));
  const work = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = new Worker(new URL('./review-worker.js', import.meta.url), { workerData: setting });
      const feed = (): void => {
        const { value, done: empty } = next.next();
        if (empty) void worker.terminate().then(() => resolve());
        else worker.postMessage(value);
      };
      worker.on('message', (frame: FrameDone) => {
        if ('problem' in frame) done.problems.push(frame.problem);
        else {
          done.made++;
          done.megapixels += frame.megapixels;
        }
        progress?.(done.kept + done.made + done.problems.length, all.length);
        feed();
      });
      worker.on('error', (error) =>
        reject(new Refusal(`A frame could not be made: ${error.message}.`, exitCode.failed)),
      );
      feed();
    });
  if (jobs.length > 0) await Promise.all(Array.from({ length: hands }, work));
  return done;
}
