import { glyphHigh, laidOut, pathOf } from '../digits.js';
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

export const byId = <T extends Element = HTMLElement>(id: string): T => {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found as unknown as T;
};

type Child = Node | string;

export function make(tag: string, className = '', ...children: Child[]): HTMLElement {
  const element = document.createElement(tag);
  if (className) element.className = className;
  element.append(...children);
  return element;
}

function put(id: string, text: string): void {
  const element = byId(id);
  if (element.textContent !== text) element.textContent = text;
}

const margin = 0.6;
const tallest = 1.7;

/** Height over width of the room for the digits. */
let room = 0.4;
export function watchRoom(redraw: () => void): void {
  new ResizeObserver(([entry]) => {
    const box = entry?.contentRect;
    if (!box || box.width === 0) return;
    room = box.height / box.width;
    redraw();
  }).observe(byId<SVGElement>('digits'));
}

/** Digits and level at a bench time; returns when they change next, or null. */
export function drawClock(view: ScreenView, benchMs: number): number | null {
  const digits = digitsAt(view, benchMs);
  const svg = byId<SVGElement>('digits');
  const drawn = `${digits.text} ${room}`;
  if (svg.dataset.drawn !== drawn) {
    const { wide, strokes } = laidOut(digits.text);
    svg.dataset.drawn = drawn;
    // where there is more height than width, the digits grow taller and keep their stroke
    const stretch = Math.min(tallest, Math.max(1, (room * (wide + 2 * margin) - 2 * margin) / glyphHigh));
    const tall = strokes.map((stroke) => stroke.map(([x, y]) => [x, y * stretch] as const));
    svg.setAttribute(
      'viewBox',
      `${-margin} ${-margin} ${wide + 2 * margin} ${glyphHigh * stretch + 2 * margin}`,
    );
    svg.setAttribute('preserveAspectRatio', 'xMinYMid meet');
    svg.firstElementChild?.setAttribute('d', pathOf(tall));
    put('spoken-clock', digits.text === '' ? '' : `${digits.text} ${say(view, senseWords[digits.sense])}`);
  }
  byId('basin').classList.toggle('wordy', digits.text === '');
  document.body.dataset.late = digits.sense === 'late' ? 'yes' : 'no';
  const share = shareLeft(view, benchMs);
  byId('liquid').style.transform = `scaleY(${(share ?? 0).toFixed(4)})`;
  put('act', headline(view, benchMs));
  put('then', thenWords(view, benchMs));
  return digits.changesMs;
}

const senseWords = { early: 'left', late: 'late', since: 'in the tank', none: '' } as const;

/** All but the clock. */
export function drawView(view: ScreenView): void {
  put('bath', bathWords(view));
  put('next', nextWords(view));
  byId('loading-caution').hidden = view.place !== 'loading';
  drawMarks(view);
  drawOpen(view);
  drawVessels(view);
  put('heard', heardWords(view));
}

function drawMarks({ bath, acts }: ScreenView): void {
  const list = byId('marks');
  const key = JSON.stringify([bath?.startedMs, bath?.endsMs, acts.map((a) => a.dueMs)]);
  if (list.dataset.key === key) return;
  list.dataset.key = key;
  list.replaceChildren();
  if (!bath || bath.endsMs === null) return;
  for (const act of acts) {
    const share = (bath.endsMs - act.dueMs) / (bath.endsMs - bath.startedMs);
    if (share < 0 || share > 1) continue;
    const mark = make('li', act.kind);
    mark.style.bottom = `${(share * 100).toFixed(2)}%`;
    list.append(mark);
  }
}

function drawOpen(view: ScreenView): void {
  const { open } = view;
  const box = byId('open');
  const key = open ? `${open.kind}|${open.text}` : '';
  if (box.dataset.key === key) return;
  box.dataset.key = key;
  box.hidden = open === null;
  box.replaceChildren(...(open ? [make('strong', '', say(view, openWords[open.kind])), open.text] : []));
}

function drawVessels(view: ScreenView): void {
  const { vessels, atMs } = view;
  const list = byId('vessels');
  const key = JSON.stringify(
    vessels.map((v) => ({
      ...v,
      readyMs: v.readyMs === null ? null : Math.round((v.readyMs - atMs) / 15_000),
    })),
  );
  if (list.dataset.key === key) return;
  list.dataset.key = key;
  list.replaceChildren(...vessels.map((v) => vesselItem(view, v)));
}

function vesselItem(view: ScreenView, v: VesselView): HTMLElement {
  const item = make('li', '', make('b', '', `${capital(v.label)}: ${holdsWords(view, v)}`));
  const amount = [
    v.volumeMl === null || v.volumeMl <= 0 ? '' : `${Math.round(v.volumeMl)} ml`,
    v.holds && v.holdsKnown !== 'told' ? say(view, knownWords[v.holdsKnown]) : '',
  ]
    .filter(Boolean)
    .join(', ');
  if (amount) item.append(make('div', 'soft', amount));
  const { tempC, known } = v.temp;
  const fit = v.fit === 'unknown' ? '' : ` ${fitSigns[v.fit]} ${say(view, fitWords[v.fit])}`;
  item.append(make('div', 'temp', `${tempWords(v)}${fit}`));
  const aim = v.aim
    ? say(view, 'aim {}, {} to {}', v.aim.aimC.toFixed(1), v.aim.lowC.toFixed(1), v.aim.highC.toFixed(1))
    : '';
  const ready = readyWords(view, v);
  item.append(
    make(
      'div',
      'soft',
      [say(view, tempC === null ? 'nobody has read it' : knownWords[known]), aim, ready]
        .filter(Boolean)
        .join(' · '),
    ),
  );
  const bar = bandBar(v);
  if (bar) item.append(bar);
  return item;
}

const svgOf = (tag: string, attributes: Record<string, string | number>): SVGElement => {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
  return element;
};

/** The band as a box, the figure as a point on it with its own spread; ten degrees wide, or more for a wide band. */
function bandBar({ aim, temp }: VesselView): SVGElement | null {
  if (!aim) return null;
  const wide = 200;
  const span = Math.max(10, 1.5 * (aim.highC - aim.lowC));
  const from = (aim.lowC + aim.highC - span) / 2;
  const x = (c: number): number => Math.min(wide - 6, Math.max(6, ((c - from) / span) * wide));
  const svg = svgOf('svg', {
    viewBox: `0 0 ${wide} 24`,
    preserveAspectRatio: 'xMinYMid meet',
    'aria-hidden': 'true',
  });
  svg.append(
    svgOf('rect', {
      class: 'band',
      x: x(aim.lowC),
      y: 3,
      width: Math.max(2, x(aim.highC) - x(aim.lowC)),
      height: 18,
    }),
  );
  if (temp.tempC === null) return svg;
  if (temp.lowC !== null && temp.highC !== null)
    svg.append(svgOf('line', { class: 'spread', x1: x(temp.lowC), x2: x(temp.highC), y1: 12, y2: 12 }));
  svg.append(
    svgOf('circle', {
      class: temp.known === 'measured' ? 'point' : 'point open',
      cx: x(temp.tempC),
      cy: 12,
      r: 5,
    }),
  );
  return svg;
}

const linesKept = 60;

export function drawLines(lines: readonly ScreenLine[], whole: boolean): void {
  const list = byId('lines');
  if (whole) list.replaceChildren();
  const known = new Set([...list.children].map((li) => (li as HTMLElement).dataset.id));
  for (const line of lines) {
    if (known.has(String(line.id))) continue;
    const tag = lineTags[line.kind];
    const item = make('li', line.kind, ...(tag ? [make('span', 'tag', tag)] : []), line.text);
    item.dataset.id = String(line.id);
    list.append(item);
  }
  while (list.children.length > linesKept) list.firstElementChild?.remove();
  list.scrollTop = list.scrollHeight;
}
