import { parentPort, workerData } from 'node:worker_threads';
import sharp from 'sharp';
import { applyTables, type Look, positiveTables } from '../review/positive/look.js';
import type { Transfer } from '../review/scan/density.js';
import {
  type OutputFormat,
  openImage,
  readWhole,
  type TransferName,
  writePositive,
} from './review-images.js';

/** What every frame of the roll has in common. */
export interface WorkerSetting {
  look: Look;
  format: OutputFormat;
  transfer?: TransferName;
}
export interface FrameJob {
  from: string;
  to: string;
}
/** `megapixels` of the frame, or a sentence that says why there is no positive of it. */
export type FrameDone = { job: FrameJob; megapixels: number } | { job: FrameJob; problem: string };

const setting = workerData as WorkerSetting;
// one thread of libvips for each worker: the cores are shared out by frames
sharp.concurrency(1);
sharp.cache(false);

const kept = new Map<Transfer, Map<number, ReturnType<typeof positiveTables>>>();

function tablesFor(codes: 256 | 65536, transfer: Transfer): ReturnType<typeof positiveTables> {
  const byCodes = kept.get(transfer) ?? new Map<number, ReturnType<typeof positiveTables>>();
  kept.set(transfer, byCodes);
  const known = byCodes.get(codes) ?? positiveTables(setting.look, codes, transfer);
  byCodes.set(codes, known);
  return known;
}

async function convert(job: FrameJob): Promise<FrameDone> {
  try {
    const file = await openImage(job.from, setting.transfer);
    const { data, width, height, codes, transfer } = await readWhole(file);
    const out = data instanceof Uint16Array ? data : new Uint16Array(data.length);
    applyTables(data, tablesFor(codes, transfer), out);
    await writePositive(job.to, out, { width, height }, setting.format);
    return { job, megapixels: (width * height) / 1e6 };
  } catch (error) {
    return { job, problem: error instanceof Error ? error.message : String(error) };
  }
}

parentPort?.on('message', async (job: FrameJob) => parentPort?.postMessage(await convert(job)));
