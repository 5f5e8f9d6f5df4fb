// Makes every sound in this folder from plan.json, and manifest.json beside them. Needs espeak-ng and flite
// (Debian packages of these names). Seeds are fixed: the same plan gives the same files with the same synthesisers.
//   node audio-fixtures/make.mjs
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), 'tankside-fixtures-'));
const rate = 16000;
const plan = JSON.parse(readFileSync(join(here, 'plan.json'), 'utf8'));

/** Mulberry32: small, seeded, good enough for noise. */
function random(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function synthesiser(voice, words, out) {
  const [program, name] = voice.split(':');
  if (program === 'espeak-ng') return ['espeak-ng', ['-v', name, '-s', '155', '-w', out, words]];
  if (program === 'flite') return ['flite', ['-voice', name, '-t', words, '-o', out]];
  throw new Error(`plan.json names the voice ${voice}; voices are espeak-ng:NAME or flite:NAME`);
}

function speak(voice, words) {
  const out = join(scratch, 'one.wav');
  const [program, args] = synthesiser(voice, words, out);
  execFileSync(program, args, { stdio: 'ignore' });
  const pcm = resample(...readWav(out));
  const command = [program, ...args.map((a) => (a === out ? 'OUT.wav' : /[^\w+:.-]/.test(a) ? JSON.stringify(a) : a))].join(' ');
  return { pcm, command };
}

function readWav(path) {
  const b = readFileSync(path);
  const from = b.indexOf('data', 12, 'latin1') + 8;
  const samples = new Float32Array(Math.floor((b.length - from) / 2));
  for (let i = 0; i < samples.length; i++) samples[i] = b.readInt16LE(from + 2 * i) / 32768;
  return [samples, b.readUInt32LE(24)];
}

/** Windowed-sinc resampling to 16 kHz. */
function resample(x, from) {
  if (from === rate) return x;
  const step = from / rate;
  const cut = Math.min(1, 1 / step);
  const half = Math.ceil(16 / cut);
  const y = new Float32Array(Math.floor(x.length / step));
  for (let i = 0; i < y.length; i++) {
    const centre = i * step;
    let sum = 0;
    for (let k = Math.ceil(centre - half); k <= centre + half; k++) {
      if (k < 0 || k >= x.length) continue;
      const d = centre - k;
      const sinc = d === 0 ? cut : Math.sin(Math.PI * d * cut) / (Math.PI * d);
      sum += x[k] * sinc * (0.5 + 0.5 * Math.cos((Math.PI * d) / half));
    }
    y[i] = sum;
  }
  return y;
}

const noises = {
  /** a tap into a basin: bright hiss with many short ringing drops */
  water(n, rnd) {
    const y = new Float32Array(n);
    let low = 0;
    for (let i = 0; i < n; i++) {
      const w = rnd() * 2 - 1;
      low += 0.25 * (w - low);
      y[i] = 0.6 * (w - low) + 0.4 * low;
    }
    for (let drop = 0; drop < n / 90; drop++) {
      const at = Math.floor(rnd() * n);
      const f = 500 + rnd() * 3000;
      const loud = 0.5 + rnd() * 1.5;
      const decay = 0.003 + rnd() * 0.012;
      for (let k = 0; k < rate * decay * 5 && at + k < n; k++) {
        y[at + k] += loud * Math.exp(-k / (rate * decay)) * Math.sin((2 * Math.PI * f * k) / rate);
      }
    }
    return y;
  },
  /** an extractor fan: falling spectrum, slow flutter, blade tones */
  fan(n, rnd) {
    const y = new Float32Array(n);
    let a = 0;
    let b = 0;
    const blade = 90 + rnd() * 40;
    for (let i = 0; i < n; i++) {
      const w = rnd() * 2 - 1;
      a += 0.06 * (w - a);
      b += 0.3 * (w - b);
      const t = i / rate;
      const tone = 0.08 * Math.sin(2 * Math.PI * blade * t) + 0.04 * Math.sin(4 * Math.PI * blade * t);
      y[i] = (3 * a + 0.4 * b) * (1 + 0.15 * Math.sin(2 * Math.PI * 1.7 * t)) + tone;
    }
    return y;
  },
  /** people talking in the next room: three other voices at once */
  speech(n, rnd) {
    const y = new Float32Array(n);
    for (const { voice, words } of plan.babble) {
      const { pcm } = speak(voice, words);
      const shift = Math.floor(rnd() * pcm.length);
      for (let i = 0; i < n; i++) y[i] += pcm[(i + shift) % pcm.length];
    }
    return y;
  },
};

const rms = (x) => Math.sqrt(x.reduce((s, v) => s + v * v, 0) / x.length) || 1;

function mix(voice, noise, snrDb) {
  const gain = (rms(voice) / rms(noise)) * 10 ** (-snrDb / 20);
  return voice.map((v, i) => v + noise[i] * gain);
}

function padded(pcm, leadS = 0.35, tailS = 0.55) {
  const y = new Float32Array(pcm.length + Math.round((leadS + tailS) * rate));
  y.set(pcm, Math.round(leadS * rate));
  return y;
}

function writeWav(path, pcm) {
  const peak = pcm.reduce((m, v) => Math.max(m, Math.abs(v)), 1e-6);
  const gain = Math.min(1, 0.8 / peak);
  const b = Buffer.alloc(44 + 2 * pcm.length);
  b.write('RIFF', 0, 'latin1');
  b.writeUInt32LE(36 + 2 * pcm.length, 4);
  b.write('WAVEfmt ', 8, 'latin1');
  b.writeUInt32LE(16, 16);
  b.writeUInt16LE(1, 20);
  b.writeUInt16LE(1, 22);
  b.writeUInt32LE(rate, 24);
  b.writeUInt32LE(2 * rate, 28);
  b.writeUInt16LE(2, 32);
  b.writeUInt16LE(16, 34);
  b.write('data', 36, 'latin1');
  b.writeUInt32LE(2 * pcm.length, 40);
  pcm.forEach((v, i) => b.writeInt16LE(Math.max(-32768, Math.min(32767, Math.round(v * gain * 32767))), 44 + 2 * i));
  writeFileSync(path, b);
}

for (const old of readdirSync(here)) if (old.endsWith('.wav')) rmSync(join(here, old));
const manifest = [];
for (const [index, item] of plan.utterances.entries()) {
  const said = speak(item.voice, item.says ?? item.words);
  let pcm = padded(said.pcm);
  let command = said.command;
  if (item.noise) {
    pcm = mix(pcm, noises[item.noise](pcm.length, random(1000 + index)), item.snrDb);
    command += ` ; then ${item.noise} noise (seed ${1000 + index}) at ${item.snrDb} dB by audio-fixtures/make.mjs`;
  } else {
    // a quiet room, not digital silence
    pcm = mix(pcm, noises.fan(pcm.length, random(1000 + index)), 35);
    command += ` ; then a quiet room (fan noise, seed ${1000 + index}) at 35 dB by audio-fixtures/make.mjs`;
  }
  const file = `${item.id}.wav`;
  writeWav(join(here, file), pcm);
  manifest.push({
    file,
    words: item.words,
    command: item.command ?? true,
    voice: item.voice,
    noise: item.noise ?? 'quiet room',
    snrDb: item.snrDb ?? 35,
    madeBy: command,
  });
}
writeFileSync(join(here, 'manifest.json'), `${JSON.stringify(manifest, null, 2)}\n`);
rmSync(scratch, { recursive: true });
console.log(`${manifest.length} sounds written`);
