import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { limits } from '../limits.js';
import { celsiusOfFahrenheit } from '../thermal/scales.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import { BoundedLines } from './terminal.js';

/** One settled value of a probe, ready to become a `temperature` event. */
export interface ProbeReading {
  name: string;
  of: LiquidId | VesselRef;
  tempC: number;
  atMs: number;
}

export type ProbeProblem =
  | { why: 'unreadable'; line: string; atMs: number }
  | { why: 'unknown-name'; name: string; atMs: number }
  /** outside what a bath can have, or one of the values by which sensors report a fault */
  | { why: 'absurd'; name: string; tempC: number; atMs: number }
  /** jumped faster than any bath can: pulled out, or dropped into another vessel */
  | { why: 'jumped'; name: string; fromC: number; toC: number; atMs: number }
  | { why: 'vanished'; name: string; silentS: number; atMs: number }
  | { why: 'back'; name: string; atMs: number }
  | { why: 'ended'; atMs: number };

export interface ProbeOptions {
  /** which vessel or liquid a probe's name means; null: unknown */
  target(name: string): LiquidId | VesselRef | null;
  onReading(reading: ProbeReading): void;
  onProblem(problem: ProbeProblem): void;
  /** one reading per probe in this time, the median of all it sent, ms; 60 000 when not given */
  everyMs?: number;
  /** silence after which a probe counts as vanished, ms, or three of its own intervals if that is longer; 30 000 when not given */
  silentMs?: number;
}

export interface Probe {
  line(text: string, atMs: number): void;
  /** looks for vanished probes; call every few seconds */
  tick(atMs: number): void;
  ended(atMs: number): void;
}

interface Stream {
  values: number[];
  sinceMs: number;
  lastMs: number;
  /** its own pace; null: one line so far */
  gapMs: number | null;
  /** null: nothing sane yet */
  lastC: number | null;
  lost: boolean;
  /** faults in a row, so that a bad wire is told once */
  told: boolean;
}

/** Liquid water in a tub or bottle; a probe left in the air of a cold room still passes. */
const plausibleC = { low: 1, high: 65 };
/** source: Maxim DS18B20 data sheet: 85 °C is the power-on value; its common drivers give −127 when unplugged */
const faultValuesC = [85, -127];
const jumpC = 6;
const jumpWithinMs = 20_000;

/** Probes that send once a minute are usual, slower ones are not, ms; so many lines missed are no accident. Source: common practice. */
const slowestMs = 60_000;
const missedLines = 3;

/** A probe that sends nothing but rubbish is told of so often. */
const mostUnreadable = 3;

/** The line protocol without its stream: feed it lines, with the bench clock. */
export function createProbe(options: ProbeOptions): Probe {
  const everyMs = options.everyMs ?? 60_000;
  const silentMs = options.silentMs ?? 30_000;
  const streams = new Map<string, Stream>();
  const unknown = new Set<string>();
  /** lines on end that could not be read */
  let unreadable = 0;

  const take = (name: string, of: LiquidId | VesselRef, tempC: number, atMs: number): void => {
    const known = streams.get(name);
    const stream = known ?? {
      values: [],
      sinceMs: atMs,
      lastMs: atMs,
      gapMs: null,
      lastC: null,
      lost: false,
      told: false,
    };
    streams.set(name, stream);
    const silence = atMs - stream.lastMs;
    stream.lastMs = atMs;
    if (known) stream.gapMs = Math.max(stream.gapMs ?? 0, Math.min(silence, slowestMs));
    if (stream.lost) {
      stream.lost = false;
      options.onProblem({ why: 'back', name, atMs });
    }
    if (faultValuesC.includes(tempC) || tempC < plausibleC.low || tempC > plausibleC.high) {
      if (!stream.told) options.onProblem({ why: 'absurd', name, tempC, atMs });
      stream.told = true;
      return;
    }
    stream.told = false;
    const first = stream.lastC === null;
    if (stream.lastC !== null && silence <= jumpWithinMs && Math.abs(tempC - stream.lastC) > jumpC) {
      options.onProblem({ why: 'jumped', name, fromC: stream.lastC, toC: tempC, atMs });
      stream.values = [];
      stream.sinceMs = atMs;
    }
    stream.lastC = tempC;
    stream.values.push(tempC);
    if (!first && atMs - stream.sinceMs < everyMs) return;
    options.onReading({ name, of, tempC: median(stream.values), atMs });
    stream.values = [];
    stream.sinceMs = atMs;
  };

  return {
    line(whole, atMs) {
      const text = whole.trim();
      if (text === '' || text.startsWith('#')) return;
      const parsed = text.length > limits.probeLineChars ? null : parseProbeLine(text);
      if (!parsed) {
        unreadable += 1;
        if (unreadable <= mostUnreadable)
          options.onProblem({ why: 'unreadable', line: text.slice(0, 80), atMs });
        return;
      }
      unreadable = 0;
      const of = options.target(parsed.name);
      if (of !== null) take(parsed.name, of, parsed.tempC, atMs);
      else if (!unknown.has(parsed.name) && unknown.size < limits.probeUnknownNames) {
        unknown.add(parsed.name);
        options.onProblem({ why: 'unknown-name', name: parsed.name, atMs });
      }
    },
    tick(atMs) {
      for (const [name, stream] of streams) {
        const paceMs = stream.gapMs ?? slowestMs;
        if (stream.lost || atMs - stream.lastMs < Math.max(silentMs, missedLines * paceMs)) continue;
        stream.lost = true;
        options.onProblem({ why: 'vanished', name, silentS: (atMs - stream.lastMs) / 1000, atMs });
      }
    },
    ended(atMs) {
      options.onProblem({ why: 'ended', atMs });
    },
  };
}

/**
 * `name temperature`, e.g. "fixer 36.4", "bottle 3: 37,8 C", "tub=100.0F"; null when it is neither. Names are
 * lower-cased, with single blanks. Without a letter the number is °C.
 */
export function parseProbeLine(line: string): { name: string; tempC: number } | null {
  const match = /^\s*([\p{L}][\p{L}\p{N} _-]*?)\s*[\s:=,]\s*([+-]?\d+(?:[.,]\d+)?)\s*°?\s*([cf])?\s*$/iu.exec(
    line,
  );
  const [, name, digits, scale] = match ?? [];
  if (name === undefined || digits === undefined) return null;
  const value = Number(digits.replace(',', '.'));
  return {
    name: name
      .toLowerCase()
      .replaceAll(/[\s_]+/g, ' ')
      .trim(),
    tempC: scale?.toLowerCase() === 'f' ? celsiusOfFahrenheit(value) : value,
  };
}

const vesselNames: readonly string[] = ['tank', 'jug', 'tub', 'tap'];

/** Usual meaning of a probe's name: a vessel, the room, or a liquid by id or spoken name. */
export function probeTarget(
  name: string,
  liquids: readonly { id: LiquidId; spoken: readonly string[] }[],
): LiquidId | VesselRef | null {
  const bottle = /^bottle[ -]?(\d{1,2})$/.exec(name);
  if (bottle) return { kind: 'bottle', number: Number(bottle[1]) };
  if (vesselNames.includes(name)) return { kind: name as 'tank' | 'jug' | 'tub' | 'tap' };
  if (name === 'bath') return { kind: 'tub' };
  if (name === 'room' || name === 'air') return 'room';
  return liquids.find((l) => l.id === name.replaceAll(' ', '-') || l.spoken.includes(name))?.id ?? null;
}

/** What to say of a problem: what is wrong and what to do. */
export function probeWords(p: ProbeProblem): string {
  switch (p.why) {
    case 'unreadable':
      return `The probe sent "${p.line}". I expect a name and a temperature, such as: fixer 36.4.`;
    case 'unknown-name':
      return `I do not know the probe "${p.name}". Name it after a bath, a bottle, the tub or the room.`;
    case 'absurd':
      return `The ${p.name} probe shows ${p.tempC}. That cannot be; check its wire. I am leaving it out.`;
    case 'jumped':
      return `The ${p.name} probe jumped from ${p.fromC.toFixed(1)} to ${p.toC.toFixed(1)}. Is it still in the ${p.name}?`;
    case 'vanished':
      return `The ${p.name} probe has been silent for ${Math.round(p.silentS)} seconds. Tell me its temperature yourself.`;
    case 'back':
      return `The ${p.name} probe is back.`;
    case 'ended':
      return 'The probe source has closed. Tell me the temperatures yourself.';
  }
}

/** Reads a probe from a stream of lines (standard input, a serial device) until it ends or `stop` is called. */
export function readProbe(
  stream: Readable,
  options: ProbeOptions & { now(): number; tickMs?: number },
): { stop(): void; done: Promise<void> } {
  const probe = createProbe(options);
  const bounded = stream.pipe(new BoundedLines(limits.probeLineChars + 1, () => {}));
  const lines = createInterface({ input: bounded, crlfDelay: Number.POSITIVE_INFINITY });
  const timer = setInterval(() => probe.tick(options.now()), options.tickMs ?? 5000);
  timer.unref();
  let stopped = false;
  const done = new Promise<void>((resolve) => {
    const finish = (): void => {
      clearInterval(timer);
      if (!stopped) probe.ended(options.now());
      stopped = true;
      resolve();
    };
    lines.on('line', (line) => probe.line(line, options.now()));
    lines.on('close', finish);
    stream.on('error', () => lines.close());
  });
  return {
    stop: () => {
      stopped = true;
      lines.close();
    },
    done,
  };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const mid = Math.floor(sorted.length / 2);
  const high = sorted[mid] ?? Number.NaN;
  return sorted.length % 2 === 1 ? high : (high + (sorted[mid - 1] ?? high)) / 2;
}
