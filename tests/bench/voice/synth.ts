import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A voice of an installed synthesiser: "flite:slt", "espeak:en-gb+m3", "festival:voice_kal_diphone". */
export type Voice = string;

/** Voices that no figure is reported on; constants are chosen on these. Training has never heard the first four. */
export const devVoices: Voice[] = [
  'espeak:en-gb+m4',
  'espeak:en-us+f4',
  'espeak:en-gb-scotland+m7',
  'espeak:en-us-nyc+f1',
  'flite:slt',
  'flite:awb',
  'flite:kal16',
  'espeak:en-us+m3',
  'espeak:en-gb+f2',
];

/** Voices kept back from training and tuning; only these are reported. */
export const judgeVoices: Voice[] = [
  'flite:rms',
  'festival:voice_kal_diphone',
  'espeak:en-gb+m6',
  'espeak:en-gb-x-rp+f4',
  'espeak:en-us+m2',
  'espeak:en-us+f2',
];

const cache = join(tmpdir(), 'tankside-voice-bench');

export const installed = (program: string): boolean =>
  spawnSync('which', [program], { stdio: 'ignore' }).status === 0;

export const speaks = (voice: Voice): boolean =>
  installed('sox') &&
  installed(voice.startsWith('flite') ? 'flite' : voice.startsWith('espeak') ? 'espeak-ng' : 'text2wave');

/**
 * Speech at 16 kHz, −1 to 1; kept in the system's temporary folder for the next run.
 * @param rate tempo, 1 as the voice comes
 */
export function synthesise(voice: Voice, text: string, rate = 1): Float32Array {
  const key = createHash('sha1').update(`${voice}|${text}|${rate}`).digest('hex');
  const file = join(cache, `${key}.f32`);
  if (!existsSync(file)) {
    mkdirSync(cache, { recursive: true });
    const wav = join(cache, `${key}.${process.pid}.wav`);
    speak(voice, text, rate, wav);
    const raw = execFileSync(
      'sox',
      [wav, '-r', '16000', '-c', '1', '-e', 'float', '-b', '32', '-t', 'raw', '-'],
      {
        maxBuffer: 1 << 27,
        stdio: ['ignore', 'pipe', 'ignore'],
      },
    );
    execFileSync('rm', ['-f', wav]);
    writeFileSync(`${file}.${process.pid}`, raw);
    renameSync(`${file}.${process.pid}`, file);
  }
  return floats(readFileSync(file));
}

export function floats(bytes: Buffer): Float32Array {
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + (bytes.length & ~3)));
}

function speak(voice: Voice, text: string, rate: number, wav: string): void {
  const [kind, name = ''] = voice.split(/:(.*)/s);
  if (kind === 'flite')
    execFileSync(
      'flite',
      ['-voice', name, '--setf', `duration_stretch=${(1 / rate).toFixed(2)}`, '-t', text, '-o', wav],
      {
        stdio: 'ignore',
      },
    );
  else if (kind === 'espeak')
    execFileSync('espeak-ng', ['-v', name, '-s', String(Math.round(155 * rate)), '-w', wav, text], {
      stdio: 'ignore',
    });
  else
    execFileSync('text2wave', ['-eval', `(${name})`, '-o', wav], {
      input: text,
      stdio: ['pipe', 'ignore', 'ignore'],
    });
}
