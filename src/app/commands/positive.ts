import { type Command, Option } from 'commander';
import type { Rect } from '../../review/scan/base.js';
import { exitCode, Refusal } from '../exit.js';
import type { OutputFormat, TransferName } from '../review-images.js';

interface PositiveOptions extends MarkOptions {
  out: string;
  format: OutputFormat;
  tone: 'print' | 'scene';
  jobs?: number;
  again?: boolean;
  sample: number;
}

/** Options that say where things are in a scan; shared with `why`. */
export interface MarkOptions {
  base?: Rect;
  light?: Rect;
  grey: { rect: Rect; logE?: number }[];
  transfer?: TransferName;
}

export const withMarks = (command: Command): Command =>
  command
    .option(
      '--base <x,y,width,height>',
      'where the clear film base is, pixels; found by itself otherwise',
      rectOf,
    )
    .option('--light <x,y,width,height>', 'where bare light is seen beside the film', rectOf)
    .option(
      '--grey <x,y,width,height[@reflectance]>',
      'a grey patch, twice or more; with its reflectance (0.18) the gammas are measured too',
      (text: string, before: MarkOptions['grey']) => [...before, patchOf(text)],
      [],
    )
    .addOption(
      new Option(
        '--transfer <curve>',
        'how codes become light, when the file’s profile is missing or wrong',
      ).choices(['srgb', 'linear', 'gamma-1.8', 'gamma-2.2']),
    );

export function registerPositive(program: Command): void {
  withMarks(
    program
      .command('positive')
      .description('turn scans of a colour negative into positives, one look for the whole roll')
      .argument('<in...>', 'scans (PNG, JPEG, TIFF) or folders of them')
      .requiredOption('--out <folder>', 'where the positives go, numbered frame_000001 and on'),
  )
    .addOption(new Option('--format <format>', '16 bits a channel').choices(['tiff', 'png']).default('tiff'))
    .addOption(
      new Option('--tone <tone>', 'the curve of a print, or light as it was')
        .choices(['print', 'scene'])
        .default('print'),
    )
    .option('--jobs <number>', 'frames at a time; one a core otherwise', wholeNumber)
    .option('--sample <number>', 'frames to judge the roll by', wholeNumber, 24)
    .option('--again', 'make every frame again with a new look, even in a folder already begun')
    .action(async (given: string[], options: PositiveOptions) => positive(given, options));
}

async function positive(given: string[], options: PositiveOptions): Promise<void> {
  const { convertRoll, inputsOf, keepLook, lookIn, readRoll } = await import('../review-roll.js');
  const files = inputsOf(given);
  const marks = {
    ...(options.base ? { base: options.base } : {}),
    ...(options.light ? { light: options.light } : {}),
    ...(options.grey.length > 0 ? { patches: options.grey } : {}),
  };
  const transfer = options.transfer ? { transfer: options.transfer } : {};
  let look = options.again ? null : lookIn(options.out);
  if (look) console.log(`Going on with the look in ${options.out}. --again makes a new one.`);
  else {
    const { lookOf } = await import('../../review/positive/look.js');
    const { findingsOf } = await import('../../review/scan/reading.js');
    const { frames, notes } = await readRoll(files, marks, { most: options.sample, ...transfer });
    const findings = findingsOf(frames);
    for (const note of [...notes, ...findings.warnings]) console.log(note);
    look = findings.positive ? null : lookOf(findings, frames, { tone: options.tone });
    if (!look)
      throw new Refusal('No look can be made from these scans, so nothing was written.', exitCode.no);
    keepLook(options.out, look);
  }
  const done = await withBar(files.length, (progress) =>
    convertRoll(files, {
      look,
      format: options.format,
      ...transfer,
      out: options.out,
      resume: !options.again,
      progress,
      ...(options.jobs ? { jobs: options.jobs } : {}),
    }),
  );
  for (const problem of done.problems.slice(0, 10)) console.error(problem);
  if (done.problems.length > 10) console.error(`And ${done.problems.length - 10} more like these.`);
  const kept = done.kept > 0 ? `, ${done.kept} kept from before` : '';
  console.log(`${done.made} positives in ${options.out}${kept}.`);
  if (files.length > 24)
    console.log(
      `A film of them: ffmpeg -framerate 24 -i ${options.out}/frame_%06d.${options.format === 'png' ? 'png' : 'tif'} film.mov`,
    );
  if (done.problems.length > 0) process.exitCode = exitCode.failed;
}

/** A bar for a person; a line at each tenth for a pipe. */
async function withBar<T>(total: number, work: (progress: (done: number) => void) => Promise<T>): Promise<T> {
  if (!process.stderr.isTTY) {
    let tenth = 0;
    return work((done) => {
      if (total < 20 || Math.floor((done / total) * 10) <= tenth) return;
      tenth = Math.floor((done / total) * 10);
      console.error(`${done} of ${total} frames`);
    });
  }
  const { default: progress } = await import('cli-progress');
  const bar = new progress.SingleBar({
    format: '{bar} {value} of {total} frames, {eta_formatted} to go',
    hideCursor: true,
  });
  bar.start(total, 0);
  try {
    return await work((done) => bar.update(done));
  } finally {
    bar.stop();
  }
}

function rectOf(text: string): Rect {
  const parts = text.split(',').map(Number);
  const [x, y, width, height] = parts;
  if (
    parts.length !== 4 ||
    x === undefined ||
    y === undefined ||
    !width ||
    !height ||
    parts.some((v) => !Number.isInteger(v) || v < 0)
  )
    throw new Refusal(`“${text}” is not a rectangle. Write x,y,width,height in pixels, like 40,20,300,60.`);
  return { x, y, width, height };
}

function patchOf(text: string): { rect: Rect; logE?: number } {
  const [rect = '', share] = text.split('@');
  if (share === undefined) return { rect: rectOf(rect) };
  const reflectance = Number(share);
  if (!(reflectance > 0 && reflectance <= 1))
    throw new Refusal(
      `“${share}” is not a reflectance. Write a share of light above 0 and up to 1, like 0.18.`,
    );
  return { rect: rectOf(rect), logE: Math.log10(reflectance) };
}

function wholeNumber(text: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1) throw new Refusal(`“${text}” is not a whole number above 0.`);
  return n;
}
