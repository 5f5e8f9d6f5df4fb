import { constants } from 'node:fs';
import { type FileHandle, open, writeFile } from 'node:fs/promises';
import wavefile from 'wavefile';
import { limits } from '../limits.js';
import { resample, resampleSteps } from './ears/resample.js';

/** What the ears, the recogniser and the fixtures work in. */
export const SAMPLE_RATE_HZ = 16_000;
const LOWEST_RATE_HZ = 8_000;
const HIGHEST_RATE_HZ = 192_000;

/** Mono sound, −1 to 1. */
export interface Sound {
  readonly pcm: Float32Array;
  /** hertz */
  readonly sampleRate: number;
}

/** One clear sentence: what was wrong, what was expected, what to do. */
export interface Problem {
  readonly problem: string;
}

/** Mono sound at 16 kHz, −1 to 1. */
export interface Recording {
  readonly pcm: Float32Array;
  readonly durationMs: number;
}

export function isProblem(value: object): value is Problem {
  return 'problem' in value;
}

/** So much of a file is in memory at once, beside the sound that comes of it. */
const PIECE_BYTES = 4 * 1024 * 1024;

/** A WAV file that is read piece by piece, mono at 16 kHz. */
export interface OpenWav {
  /** at 16 kHz */
  readonly samples: number;
  /**
   * The sound from its beginning, in pieces of any length; a few of them are in memory at once.
   * @throws what the file layer or the decoder throws
   */
  pieces(): AsyncGenerator<Float32Array>;
  close(): Promise<void>;
}

/**
 * Reads a WAV file whole, as mono 16 kHz. Any rate from 8 to 192 kHz and any number of channels is taken, up
 * to `limits.wavS`; never throws.
 */
export async function readWav(path: string): Promise<Recording | Problem> {
  const wav = await openWav(path);
  if (isProblem(wav)) return wav;
  try {
    if (wav.samples > limits.wavS * SAMPLE_RATE_HZ) return tooLong(path);
    const pcm = new Float32Array(wav.samples);
    let at = 0;
    for await (const piece of wav.pieces()) {
      pcm.set(piece, at);
      at += piece.length;
    }
    return { pcm, durationMs: (pcm.length * 1000) / SAMPLE_RATE_HZ };
  } catch {
    return undecodable(path);
  } finally {
    await wav.close();
  }
}

/** Opens a WAV file of any length; to be closed. Never throws. */
export async function openWav(path: string): Promise<OpenWav | Problem> {
  let file: FileHandle | undefined;
  const bad = async (problem: string): Promise<Problem> => {
    await file?.close();
    return { problem };
  };
  try {
    // a named pipe that nobody writes to would never open
    file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const found = await file.stat();
    if (found.isDirectory()) return await bad(`${UNREADABLE.EISDIR} ${path}. Check the name and try again.`);
    if (!found.isFile()) return await bad(`${path} is no file. Check the name and try again.`);
    if (found.size === 0) return await bad(`${path} is empty. Record it again.`);
    const head = await readAt(file, 0, PIECE_BYTES);
    const layout = readLayout(head, path, found.size);
    if (isProblem(layout)) return await bad(layout.problem);
    const opened = file;
    const frames = layout.dataBytes / ((layout.bits / 8) * layout.channels);
    const samples = Math.floor((frames * SAMPLE_RATE_HZ) / layout.sampleRate);
    return {
      samples,
      pieces: () => piecesOf(opened, head, layout, samples),
      close: () => opened.close(),
    };
  } catch (error) {
    return bad(whyUnreadable(path, error));
  }
}

async function* piecesOf(
  file: FileHandle,
  head: Uint8Array,
  layout: Layout,
  samples: number,
): AsyncGenerator<Float32Array> {
  const frameBytes = (layout.bits / 8) * layout.channels;
  const frames = layout.dataBytes / frameBytes;
  // pieces begin where an output sample falls on an input sample, and overlap by more than the filter's reach
  const { stepFrames, overlapFrames } = resampleSteps(layout.sampleRate, SAMPLE_RATE_HZ);
  const pieceFrames = Math.max(1, Math.floor(PIECE_BYTES / frameBytes / stepFrames)) * stepFrames;
  for (let from = 0; from < frames; from += pieceFrames) {
    const first = Math.max(0, from - overlapFrames);
    const until = Math.min(frames, from + pieceFrames + overlapFrames);
    const bytes = await readAt(file, layout.dataOffset + first * frameBytes, (until - first) * frameBytes);
    const { pcm } = decodeSamples(head, bytes, layout);
    const out = resample(pcm, layout.sampleRate, SAMPLE_RATE_HZ);
    const skip = Math.round(((from - first) * SAMPLE_RATE_HZ) / layout.sampleRate);
    const at = Math.round((from * SAMPLE_RATE_HZ) / layout.sampleRate);
    const wanted = Math.ceil((pieceFrames * SAMPLE_RATE_HZ) / layout.sampleRate);
    yield out.subarray(skip, skip + Math.min(wanted, samples - at));
  }
}

async function readAt(file: FileHandle, at: number, bytes: number): Promise<Uint8Array> {
  const buffer = Buffer.alloc(bytes);
  const { bytesRead } = await file.read(buffer, 0, bytes, at);
  return buffer.subarray(0, bytesRead);
}

/** Decodes WAV bytes at their own rate, mixed down to mono. `name` is used in sentences only. */
export function decodeWav(bytes: Uint8Array, name: string): Sound | Problem {
  if (bytes.length === 0) return { problem: `${name} is empty. Record it again.` };
  const layout = readLayout(bytes, name, bytes.length);
  if (isProblem(layout)) return layout;
  try {
    return decodeSamples(bytes, bytes.subarray(layout.dataOffset), layout);
  } catch {
    return undecodable(name);
  }
}

/** A 16-bit PCM mono WAV file of the sound; values beyond ±1 are clipped. */
export function encodeWav(pcm: Float32Array, sampleRate: number): Uint8Array {
  const wav = new wavefile.WaveFile();
  wav.fromScratch(1, sampleRate, '16', toInt16(pcm));
  return wav.toBuffer();
}

/** Writes a 16-bit PCM mono WAV file; null when it worked. */
export async function writeWav(path: string, pcm: Float32Array, sampleRate: number): Promise<Problem | null> {
  try {
    await writeFile(path, encodeWav(pcm, sampleRate));
    return null;
  } catch (error) {
    return {
      problem: `Cannot write ${path}: ${reason(error)}. Check that the folder exists and has free space.`,
    };
  }
}

/** Pieces of sound in a row, as one. */
export function joined(pieces: readonly Float32Array[]): Float32Array<ArrayBuffer> {
  const whole = new Float32Array(pieces.reduce((n, piece) => n + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

export function toInt16(pcm: Float32Array): Int16Array {
  return Int16Array.from(pcm, (v) => Math.round(Math.max(-1, Math.min(1, v)) * 32767));
}

export function fromInt16(samples: Int16Array): Float32Array {
  return Float32Array.from(samples, (v) => v / 32768);
}

interface Layout {
  formatTag: number;
  formatOffset: number;
  channels: number;
  sampleRate: number;
  bits: number;
  dataOffset: number;
  dataBytes: number;
}

/** What the library calls each (format tag, bits) pair, and how to scale it to ±1. */
const FORMATS: Record<
  string,
  { bits: string; scale: number; offset: number; unpack?: 'fromALaw' | 'fromMuLaw' }
> = {
  '1/8': { bits: '8', scale: 1 / 128, offset: -128 },
  '1/16': { bits: '16', scale: 2 ** -15, offset: 0 },
  '1/24': { bits: '24', scale: 2 ** -23, offset: 0 },
  '1/32': { bits: '32', scale: 2 ** -31, offset: 0 },
  '3/32': { bits: '32f', scale: 1, offset: 0 },
  '3/64': { bits: '64', scale: 1, offset: 0 },
  '6/8': { bits: '8a', scale: 2 ** -15, offset: 0, unpack: 'fromALaw' },
  '7/8': { bits: '8m', scale: 2 ** -15, offset: 0, unpack: 'fromMuLaw' },
};
const FORMAT_EXTENSIBLE = 0xfffe;
/** recorders that write to a pipe cannot know the length and put one of these */
const UNKNOWN_LENGTHS = new Set([0, 0x7fffffff, 0xffffffff, 0x7ffff000, 0x7fffffdb, 0x80000000]);

/** `bytes` is the beginning of a file of `fileBytes`. */
function readLayout(bytes: Uint8Array, name: string, fileBytes: number): Layout | Problem {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const id = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || id(0) !== 'RIFF' || id(8) !== 'WAVE') {
    return { problem: `${name} is not a WAV file. Save it as 16-bit PCM WAV, mono, 16 kilohertz.` };
  }
  let format: Omit<Layout, 'dataOffset' | 'dataBytes'> | null = null;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id(at) === 'fmt ' && body + 16 <= bytes.length) {
      const tag = view.getUint16(body, true);
      const extended = tag === FORMAT_EXTENSIBLE && size >= 26 && body + 26 <= bytes.length;
      format = {
        formatOffset: body,
        formatTag: extended ? view.getUint16(body + 24, true) : tag,
        channels: view.getUint16(body + 2, true),
        sampleRate: view.getUint32(body + 4, true),
        bits: view.getUint16(body + 14, true),
      };
    }
    if (id(at) === 'data') {
      return format ? checked(format, body, size, fileBytes, name) : cutShort(name);
    }
    at = body + size + (size % 2);
  }
  return cutShort(name);
}

/** What it says of a file that breaks off or holds what no decoder takes. */
export const undecodable = (name: string): Problem => ({
  problem: `${name} cannot be decoded. Save it as 16-bit PCM WAV.`,
});

const tooLong = (name: string): Problem => ({
  problem: `${name} is longer than the ${limits.wavS / 60} minutes that can be heard at once. Cut it into parts.`,
});

function cutShort(name: string): Problem {
  return { problem: `${name} is cut short: it has a WAV header but no sound. Record it again.` };
}

function checked(
  format: Omit<Layout, 'dataOffset' | 'dataBytes'>,
  dataOffset: number,
  size: number,
  fileBytes: number,
  name: string,
): Layout | Problem {
  const { formatTag, bits, channels, sampleRate } = format;
  if (!FORMATS[`${formatTag}/${bits}`]) {
    return {
      problem: `${name} holds ${bits}-bit sound of WAV format ${formatTag}, which cannot be read. Save it as 16-bit PCM WAV.`,
    };
  }
  if (channels < 1 || channels > 32) {
    return { problem: `${name} claims ${channels} channels. Save it with one or two channels.` };
  }
  if (sampleRate < LOWEST_RATE_HZ || sampleRate > HIGHEST_RATE_HZ) {
    return {
      problem: `${name} is sampled at ${sampleRate} hertz. Speech needs 8000 to 192000; 16000 is best. Record it again.`,
    };
  }
  const there = fileBytes - dataOffset;
  const frameBytes = (bits / 8) * channels;
  if (size > there && !UNKNOWN_LENGTHS.has(size)) {
    const seconds = (n: number) => (n / frameBytes / sampleRate).toFixed(1);
    return {
      problem: `${name} is cut short: its header promises ${seconds(size)} seconds and it holds ${seconds(there)}. Record it again.`,
    };
  }
  const dataBytes = size === 0 || size > there ? there : size;
  if (dataBytes < frameBytes) return { problem: `${name} holds no sound. Record it again.` };
  return { ...format, dataOffset, dataBytes: dataBytes - (dataBytes % frameBytes) };
}

function decodeSamples(head: Uint8Array, data: Uint8Array, layout: Layout): Sound {
  const format = FORMATS[`${layout.formatTag}/${layout.bits}`];
  if (!format) throw new Error('checked before');
  const wav = new wavefile.WaveFile();
  wav.fromBuffer(plainFile(head, data, layout));
  if (format.unpack) wav[format.unpack]('16');
  const samples = wav.getSamples(true, Float64Array);
  const frames = Math.floor(samples.length / layout.channels);
  const pcm = new Float32Array(frames);
  for (let i = 0; i < frames; i++) {
    let sum = 0;
    for (let c = 0; c < layout.channels; c++) {
      sum += ((samples[i * layout.channels + c] ?? 0) + format.offset) * format.scale;
    }
    const mean = sum / layout.channels;
    pcm[i] = Number.isFinite(mean) ? mean : 0;
  }
  return { pcm, sampleRate: layout.sampleRate };
}

/** The same sound behind a plain header: no extension, no other chunks, true lengths. */
function plainFile(head: Uint8Array, data: Uint8Array, layout: Layout): Uint8Array {
  const dataBytes = Math.min(layout.dataBytes, data.length);
  const out = new Uint8Array(44 + dataBytes);
  const view = new DataView(out.buffer);
  const text = (at: number, s: string) => out.set(Buffer.from(s, 'latin1'), at);
  text(0, 'RIFF');
  view.setUint32(4, 36 + dataBytes, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  out.set(head.subarray(layout.formatOffset, layout.formatOffset + 16), 20);
  view.setUint16(20, layout.formatTag, true);
  text(36, 'data');
  view.setUint32(40, dataBytes, true);
  out.set(data.subarray(0, dataBytes), 44);
  return out;
}

const UNREADABLE: Record<string, string> = {
  ENOENT: 'There is no file',
  EISDIR: 'This is a folder, not a WAV file:',
  EACCES: 'You may not read',
};

function whyUnreadable(path: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return `${UNREADABLE[code] ?? `Cannot read (${reason(error)})`} ${path}. Check the name and try again.`;
}

function reason(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error);
}
