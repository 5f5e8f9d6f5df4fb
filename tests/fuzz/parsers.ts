import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBench } from '../../src/app/bench.js';
import { createProbe } from '../../src/app/probe.js';
import { harmless } from '../../src/app/screen.js';
import { readScript, readSpan } from '../../src/app/script.js';
import { BoundedLines } from '../../src/app/terminal.js';
import { drifts, plotLines, readStrips } from '../../src/chemistry/control-strip.js';
import { parseMassG, parseVolumeMl } from '../../src/chemistry/quantities.js';
import { findRecipe } from '../../src/chemistry/recipes/index.js';
import { parseJsgf } from '../../src/language/jsgf/parse.js';
import { wordsToNumber, writtenLines } from '../../src/language/languages/english/numbers.js';
import { readTag } from '../../src/language/meaning/tags.js';
import { readDay } from '../../src/ledger/plan/request.js';
import { asIntent } from '../../src/process/intent.js';
import { parseSheet } from '../../src/process/sheet.js';
import { sheets } from '../../src/process/sheets/index.js';
import { decodeWav, encodeWav } from '../../src/speech/wav.js';
import { seeded } from '../seeded.js';
import { fileParsers } from './files.js';

/** Everything that reads what a person or a file gives, by name; a share of the inputs goes to each. */
export interface Parser {
  name: string;
  share: number;
  seeds: readonly string[];
  /** a promise is waited for */
  read(text: string): unknown;
}

export interface FuzzCounts {
  inputs: number;
  crashed: number;
  slow: number;
  slowestMs: number;
  problems: string[];
}

/** The most that one input may take of the loop that makes the calls. */
const MOST_MS = 200;

const commands = [
  ...[
    'begin the run',
    'pouring the bleach in from bottle four',
    'developer is 41,1',
    'spilled 1,000 ml of developer',
  ],
  ...[
    'note the tub is warm and the clock on the wall is five minutes late',
    'call bottle 2 old faithful',
    '2.013 g',
  ],
  ...[
    'what if I poured 80 ml of prebath into 600 ml of developer',
    'how long left?',
    'add 2:30',
    "1'000 g of borax",
  ],
];

function parsers(): Parser[] {
  const bench = createBench({ sheet: 'ecn2-ferricyanide' });
  const sheet = JSON.stringify(sheets[0]);
  const day =
    '{"films":[{"stock":"a","format":"35mm","count":2}],"tank":{"volumeMl":600,"holds":{"35mm":2}}}';
  const grammar =
    '#JSGF V1.0;\ngrammar a.b;\nimport <a.c.*>;\npublic <x> = /2/ (go [now] | <y>)+ {tag} | "a b"*;\n<y> = z;';
  const wav = Buffer.from(
    encodeWav(
      Float32Array.from({ length: 400 }, (_, i) => Math.sin(i)),
      16_000,
    ),
  ).toString('latin1');
  const context = { bottles: [], sheets, midnightWallMs: 0, nowWallMs: 0 };
  let lines = 0;
  const probe = createProbe({ target: () => 'developer', onReading: () => {}, onProblem: () => {} });
  return [
    {
      name: 'typed line',
      share: 20,
      seeds: commands,
      read: (t) => bench.language.typed(t, ['mixing', 'immersed']),
    },
    {
      name: 'heard words',
      share: 10,
      seeds: commands,
      read: (t) => bench.language.heard(t, ['pouring', 'immersed']),
    },
    { name: 'written numbers', share: 30, seeds: commands, read: writtenLines },
    {
      name: 'number words',
      share: 20,
      seeds: ['nine thousand and forty one point five', 'a hundred and a half'],
      read: wordsToNumber,
    },
    {
      name: 'quantities',
      share: 20,
      seeds: ['600ml', '1,5 kg', '20.000 oz'],
      read: (t) => [parseMassG(t), parseVolumeMl(t)],
    },
    { name: 'JSGF', share: 20, seeds: [grammar, '('.repeat(300)], read: (t) => parseJsgf(t) },
    {
      name: 'tags',
      share: 20,
      seeds: ['+5', 'x1000', 'intent = reading', 'tempC = (n - 32) * 5/9'],
      read: readTag,
    },
    { name: 'process sheet', share: 8, seeds: [sheet], read: parseSheet },
    { name: 'plan of a day', share: 10, seeds: [day], read: (t) => readDay(t, context) },
    {
      name: 'script',
      share: 20,
      seeds: ['begin the run\n+1m30s\n# x\nhear: a.wav\n', '+1h2m'],
      read: (t) => [readScript(t), readSpan(t)],
    },
    {
      name: 'probe',
      share: 20,
      seeds: ['tub 41,2', 'bottle 3: 38.1 C', 'fixer=97F'],
      read: (t) => probe.line(t, ++lines * 1000),
    },
    { name: 'WAV', share: 8, seeds: [wav], read: (t) => decodeWav(Buffer.from(t, 'latin1'), 'a.wav') },
    { name: 'intent', share: 10, seeds: ['{"type":"reading","value":1,"unit":"g"}'], read: intentFrom },
    {
      name: 'terminal bytes',
      share: 20,
      seeds: ['\u001b[200~developer is 41\u001b[201~\r', 'a\b\u0004\u0015'],
      read: (t) => new BoundedLines(100, () => {}).end(Buffer.from(t, 'latin1')),
    },
    {
      name: 'control strips',
      share: 20,
      seeds: [
        'date,patch,red,green,blue\n2026-01-01,dMin,0.1,0.2,0.3\n2026-01-01,lowDensity,1,1,1\n2026-01-01,highDensity,2,2,2\n',
      ],
      read: (t) => stripsShown(t),
    },
    { name: 'recipe name', share: 20, seeds: ['ecn2-developer', 'the fixer'], read: findRecipe },
    { name: 'printed text', share: 20, seeds: ['a\u001b[1mb\u202e'], read: harmless },
  ];
}

function stripsShown(text: string): unknown {
  const read = readStrips(text);
  const [first] = read.ok ? read.strips : [];
  if (!read.ok || first === undefined) return read;
  return [drifts(read.strips, first), plotLines(read.strips, first, 'speed')];
}

function intentFrom(text: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof value !== 'object' || value === null) return undefined;
  const { type, ...fields } = value as { type?: unknown };
  return asIntent(type, fields);
}

const scraps = [
  ...[
    '',
    ' ',
    '\n',
    '\0',
    '\u001b',
    '"',
    '{',
    '}',
    '[',
    '(',
    ')',
    '<',
    '>',
    '|',
    ';',
    ',',
    '.',
    '-',
    '+',
    '/',
    '\\',
  ],
  ...[
    '0',
    '1',
    '9',
    '000',
    '1e309',
    '-1',
    'NaN',
    'null',
    '__proto__',
    'constructor',
    '½',
    'é',
    '日本',
    '\ud83d',
    '\u202e',
  ],
  ...['developer', 'bottle', 'ml', 'and', 'not', 'override', 'anyway', 'thousand', '#JSGF', 'RIFF', 'data'],
];

/** An input made from a seed by a few changes, or of scraps alone. */
function mutated(seed: string, random: () => number): string {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  if (random() < 0.15)
    return Array.from({ length: Math.floor(random() * 40) }, () => pick(scraps)).join(pick(['', ' ']));
  let text = seed;
  for (let n = 1 + Math.floor(random() * 4); n > 0; n -= 1) {
    const at = Math.floor(random() * (text.length + 1));
    const to = Math.min(text.length, at + Math.floor(random() * 12));
    const how = random();
    if (how < 0.35) text = text.slice(0, at) + pick(scraps) + text.slice(at);
    else if (how < 0.6) text = text.slice(0, at) + text.slice(to);
    else if (how < 0.8)
      text = text.slice(0, at) + String.fromCharCode(Math.floor(random() * 256)) + text.slice(at + 1);
    else if (how < 0.98) text = text.slice(0, to) + text.slice(at);
    else
      text =
        text
          .slice(at, to)
          .repeat(Math.floor(random() * 2000))
          .slice(0, 100_000) + text;
  }
  return text;
}

export async function fuzz(inputs: number, seed: number): Promise<Record<string, FuzzCounts>> {
  const random = seeded(seed);
  const dir = mkdtempSync(join(tmpdir(), 'tankside-fuzz-'));
  const all = [...parsers(), ...(await fileParsers(dir))];
  const shares = all.reduce((n, p) => n + p.share, 0);
  const done: Record<string, FuzzCounts> = {};
  for (const parser of all) {
    const counts: FuzzCounts = { inputs: 0, crashed: 0, slow: 0, slowestMs: 0, problems: [] };
    // grammars are compiled when first asked for; that is not what is measured
    for (const s of parser.seeds) await parser.read(s);
    for (let left = Math.ceil((inputs * parser.share) / shares); left > 0; left -= 1) {
      const text = mutated(parser.seeds[left % parser.seeds.length] as string, random);
      const began = process.cpuUsage();
      counts.inputs += 1;
      try {
        const read = parser.read(text);
        if (read instanceof Promise) await read;
      } catch (error) {
        counts.crashed += 1;
        counts.problems.push(
          `${error instanceof Error ? error.message : error}: ${JSON.stringify(text).slice(0, 300)}`,
        );
      }
      const { user } = process.cpuUsage(began);
      const ms = user / 1000;
      counts.slowestMs = Math.max(counts.slowestMs, ms);
      if (ms > MOST_MS) {
        counts.slow += 1;
        counts.problems.push(`${Math.round(ms)} ms: ${JSON.stringify(text).slice(0, 300)}`);
      }
    }
    done[parser.name] = counts;
  }
  rmSync(dir, { recursive: true, force: true });
  return done;
}
