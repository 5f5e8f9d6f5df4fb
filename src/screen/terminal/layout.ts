import cliTruncate from 'cli-truncate';
import stringWidth from 'string-width';
import wrapAnsi from 'wrap-ansi';
import { inBlocks } from '../digits.js';
import { digitsAt, shareLeft } from '../time.js';
import type { ScreenLine, ScreenView, VesselView } from '../view.js';
import {
  bathWords,
  capital,
  fitSigns,
  fitWords,
  headline,
  heardWords,
  holdsWords,
  knownWords,
  lineTags,
  nextWords,
  openWords,
  readyWords,
  say,
  tempWords,
  thenWords,
} from '../words.js';

/** How a piece of a row looks; without any colour the words still say it. */
export type Tone = 'plain' | 'strong' | 'soft' | 'warning' | 'call' | 'question' | 'good' | 'bad';

export interface Piece {
  text: string;
  tone: Tone;
}

/** One row of the terminal; never longer than it was made for. */
export type Row = readonly Piece[];

export interface Shown {
  view: ScreenView | null;
  lines: readonly ScreenLine[];
  /** the microphone's level, dB below full scale; null: none */
  levelDb: number | null;
  input: string;
  /** rows that the conversation is scrolled back */
  back: number;
}

const piece = (text: string, tone: Tone = 'plain'): Piece => ({ text, tone });
/** Columns that a text takes; some writing takes two a sign. */
const long = (text: string): number => stringWidth(text);
const cut = (text: string, columns: number): string => cliTruncate(text, Math.max(0, columns));
const pad = (text: string, columns: number): string => {
  const short = cut(text, columns);
  return short + ' '.repeat(Math.max(0, columns - long(short)));
};

/** Lines stay on the screen for many frames: what was wrapped once is kept. */
const wrapped = new Map<string, readonly string[]>();
const mostWrapped = 400;

/** Breaks at spaces; only a word that is longer than a row is broken itself. */
export function wrap(text: string, columns: number, indent = 0): readonly string[] {
  const key = `${columns} ${indent} ${text}`;
  const known = wrapped.get(key);
  if (known) return known;
  const rows = wrapAnsi(text.replace(/[^\S\n]+/g, ' '), Math.max(1, columns - indent), { hard: true })
    .split('\n')
    .map((row, i) => (i > 0 && indent > 0 ? ' '.repeat(indent) + row : row));
  if (wrapped.size >= mostWrapped) wrapped.clear();
  wrapped.set(key, rows);
  return rows;
}

/** From so many columns on the conversation has room beside the standing area. */
const besideFrom = 110;

/** The whole screen as rows: the standing area with the conversation below it, or beside it where there is room. */
export function screenRows(shown: Shown, columns: number, rows: number, benchMs: number): Row[] {
  const prompt: Row = [piece(cut(`› ${shown.input}▏`, columns), 'strong')];
  if (columns >= besideFrom) {
    const left = Math.min(92, Math.floor(columns * 0.56));
    const right = columns - left - 3;
    const standing = standingRows(shown, left, rows, benchMs);
    const said = conversation(shown, right, rows - 1);
    return Array.from({ length: rows }, (_, i) => [
      ...filled(standing[i] ?? [], left),
      piece(' │ ', 'soft'),
      ...(i === rows - 1 ? [piece(cut(`› ${shown.input}▏`, right), 'strong')] : (said[i] ?? [])),
    ]);
  }
  // the conversation keeps a third of the rows, and more where the standing area needs less
  const most = rows - 1 - Math.max(4, Math.floor(rows / 3)) - 1;
  const standing = standingRows(shown, columns, most, benchMs).slice(0, most);
  const rule: Row = [piece('─'.repeat(columns), 'soft')];
  return [...standing, rule, ...conversation(shown, columns, rows - 2 - standing.length), prompt];
}

function filled(row: Row, columns: number): Row {
  const used = row.reduce((sum, p) => sum + long(p.text), 0);
  return used >= columns ? row : [...row, piece(' '.repeat(columns - used))];
}

/** As much as fits; what matters most stands first. */
function standingRows({ view, levelDb }: Shown, columns: number, rows: number, benchMs: number): Row[] {
  if (!view) return [[piece('tankside', 'strong')]];
  const open = openRows(view, columns);
  const vessels = vesselRows(view, columns);
  const heard = wrap([heardWords(view), earsWords(view, levelDb)].filter(Boolean).join('  '), columns).slice(
    0,
    2,
  );
  const foot = heard.filter((row) => row !== '').map((row): Row => [piece(row, 'soft')]);
  const fixed = 1 + open.length + foot.length;
  const high = digitRows(rows - fixed - vessels.length - 3, columns);
  const clock = clockRows(view, columns, high, benchMs);
  const body = [[piece(pad(bathWords(view), columns), 'strong')], ...open, ...clock];
  const roomy = rows - body.length - vessels.length - foot.length > 2;
  return [...body, ...(roomy ? [[]] : []), ...vessels, ...(roomy ? [[]] : []), ...foot].slice(0, rows);
}

/** Height of the large digits: none, or 4 to 11 rows. */
function digitRows(free: number, columns: number): number {
  if (columns < 50 || free < 4) return 0;
  return Math.min(11, free, Math.floor(columns / 7));
}

function clockRows(view: ScreenView, columns: number, high: number, benchMs: number): Row[] {
  const digits = digitsAt(view, benchMs);
  const late = digits.sense === 'late';
  const words: { text: string; tone: Tone }[] = [
    { text: headline(view, benchMs), tone: 'strong' },
    { text: thenWords(view, benchMs), tone: 'plain' },
    { text: nextWords(view), tone: 'plain' },
  ];
  const gauge = gaugeRow(view, columns, benchMs);
  if (high === 0 || digits.text === '') {
    const text = [digits.text, headline(view, benchMs)].filter(Boolean).join('  ');
    const rows: Row[] = wrap(text, columns).map((row) => [piece(row, late ? 'bad' : 'strong')]);
    for (const { text: more, tone } of words.slice(1))
      if (more) rows.push(...wrap(more, columns).map((row): Row => [piece(row, tone)]));
    return gauge ? [...rows, gauge] : rows;
  }
  let blocks = inBlocks(digits.text, high);
  for (let less = high; (blocks[0]?.length ?? 0) > columns * 0.6 && less > 4; less--)
    blocks = inBlocks(digits.text, less - 1);
  const wide = Math.max(...blocks.map(long)) + 3;
  const beside = words.flatMap(({ text, tone }) =>
    text ? wrap(text, columns - wide).map((row) => piece(row, tone)) : [],
  );
  const rows = Array.from({ length: Math.max(blocks.length, beside.length) }, (_, i): Row => {
    const word = beside[i];
    return [piece(pad(blocks[i] ?? '', wide), late ? 'bad' : 'strong'), ...(word ? [word] : [])];
  });
  return gauge ? [...rows, gauge] : rows;
}

/** What is left of the bath as a bar, with marks where something is to be done. */
function gaugeRow(view: ScreenView, columns: number, benchMs: number): Row | null {
  const share = shareLeft(view, benchMs);
  const { bath } = view;
  if (share === null || !bath || bath.endsMs === null) return null;
  const wide = columns - 2;
  const left = Math.round(share * wide);
  const cells: string[] = Array.from({ length: wide }, (_, i) => (i < left ? '▓' : '░'));
  for (const act of view.acts) {
    const at = Math.round(((bath.endsMs - act.dueMs) / (bath.endsMs - bath.startedMs)) * wide) - 1;
    if (at >= 0 && at < wide) cells[at] = act.kind === 'drain' || act.kind === 'pour' ? '┃' : '╎';
  }
  return [piece(`▕${cells.join('')}▏`)];
}

function openRows(view: ScreenView, columns: number): Row[] {
  const { open } = view;
  if (!open) return [];
  const tone: Tone = open.kind === 'question' ? 'question' : 'warning';
  return wrap(`${say(view, openWords[open.kind])}  ${open.text}`, columns - 2, 2)
    .slice(0, 5)
    .map((row) => [piece(pad(`▌ ${row}`, columns), tone)]);
}

const fitTones: Readonly<Record<VesselView['fit'], Tone>> = {
  within: 'good',
  'too-cold': 'bad',
  'too-warm': 'bad',
  unknown: 'soft',
};

/** Each vessel a line; two side by side where a line is long enough for both. */
function vesselRows(view: ScreenView, columns: number): Row[] {
  const aside = columns >= 76;
  const wide = aside ? Math.floor((columns - 2) / 2) : columns;
  const cells = view.vessels.map((v) => vesselCell(view, v, wide));
  if (!aside) return cells;
  const half = Math.ceil(cells.length / 2);
  return Array.from({ length: half }, (_, i) => [
    ...filled(cells[i] ?? [], wide),
    piece('  '),
    ...(cells[half + i] ?? []),
  ]);
}

function vesselCell(view: ScreenView, v: VesselView, columns: number): Row {
  const label = `${capital(v.label)} ${holdsWords(view, v)}${v.holds && v.holdsKnown === 'assumed' ? '?' : ''}`;
  const aim = v.aim ? ` ${say(view, 'of {}', `${v.aim.lowC.toFixed(1)}–${v.aim.highC.toFixed(1)}`)}` : '';
  const known =
    v.temp.tempC === null
      ? say(view, 'not read')
      : [knownWords[v.temp.known], fitWords[v.fit]]
          .filter(Boolean)
          .map((w) => say(view, w))
          .join(', ');
  const figures = `${fitSigns[v.fit]} ${tempWords(v)}${aim}`;
  const ready = readyWords(view, v);
  const wholly = ` ${known}${ready ? `, ${ready}` : ''}`;
  const room = columns - long(figures) - 1;
  const more =
    room - long(label) >= long(wholly) ? wholly : room - long(label) >= long(known) + 1 ? ` ${known}` : '';
  const name = room - long(more);
  return [piece(pad(label, name)), piece(' '), piece(figures, fitTones[v.fit]), piece(more, 'soft')];
}

/** Loudness as 0 to 10 bars; from -60 dB. */
export const levelBars = (db: number): number => Math.max(0, Math.min(10, Math.round((db + 60) / 5)));

function earsWords(view: ScreenView, levelDb: number | null): string {
  const { ears } = view;
  if (ears.microphone === null) return say(view, 'No microphone');
  const who = ears.screen === null ? 'Microphone' : `Microphone: ${ears.screen}`;
  if (levelDb === null) return who;
  const bars = levelBars(levelDb);
  return `${who} ${'▮'.repeat(bars)}${'▯'.repeat(10 - bars)}`;
}

const lineTones: Readonly<Record<ScreenLine['kind'], Tone>> = {
  warning: 'warning',
  question: 'question',
  call: 'call',
  answer: 'plain',
  you: 'strong',
  aside: 'soft',
  picture: 'plain',
};

/** The newest lines that fit, wrapped at words. */
function conversation({ lines, back }: Shown, columns: number, rows: number): Row[] {
  const all: Row[] = [];
  for (let i = lines.length - 1; i >= 0 && all.length < rows + back; i--) {
    const line = lines[i];
    if (!line) continue;
    const text = lineTags[line.kind] + line.text;
    const wrapped =
      line.kind === 'picture' ? line.text.split('\n').map((l) => cut(l, columns)) : wrap(text, columns, 2);
    all.unshift(...wrapped.map((row): Row => [piece(row, lineTones[line.kind])]));
  }
  const end = Math.max(rows, all.length - back);
  const shown = all.slice(Math.max(0, end - rows), end);
  return [...Array.from({ length: Math.max(0, rows - shown.length) }, (): Row => []), ...shown];
}
