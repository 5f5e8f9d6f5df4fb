import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom';

/** A picture's few colours. Series differ by dash and by a name at their end, too. */
export interface Look {
  ground: string;
  ink: string;
  soft: string;
  series: readonly string[];
}

/** Okabe and Ito's colours, told apart by most colour-blind eyes; the yellow ones darkened for white ground. */
export const day: Look = {
  ground: '#ffffff',
  ink: '#0c1738',
  soft: '#5a6480',
  series: ['#0072b2', '#b34700', '#00785a', '#a3527e', '#2b7fa8', '#8a6100', '#0c1738', '#6f6200'],
};
/** Red on black only. */
export const night: Look = {
  ground: '#000000',
  ink: '#ff5a45',
  soft: '#e84f3c',
  series: ['#ff5a45', '#ff8a78', '#e84f3c', '#ffb0a3', '#d9463a', '#ff7a66', '#ff9d8e', '#f26a58'],
};

export const dashes = ['none', '7 3', '2 3', '9 3 2 3', '4 2', '12 4', '1 2', '6 2 1 2'] as const;
export const colourOf = (look: Look, i: number): string => look.series[i % look.series.length] ?? look.ink;
export const dashOf = (i: number): string => dashes[i % dashes.length] ?? 'none';

export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

/** The little that is used of an element, so that the room needs no browser's types. */
interface SvgElement {
  innerHTML: string;
  readonly outerHTML: string;
  setAttribute(name: string, value: string): void;
  removeAttribute(name: string): void;
  querySelector(selector: string): { remove(): void } | null;
}

const family = '"Avenir Next","Segoe UI","Noto Sans","DejaVu Sans",sans-serif';

/**
 * A plot as an SVG that stands alone: no script, no outside font, a title and a description for a screen reader. Made
 * by Observable Plot on a document without a browser.
 */
export function svgOf(options: Plot.PlotOptions, look: Look, title: string, description: string): string {
  const { document } = parseHTML('<html><body></body></html>');
  const { width = 860, height = 420 } = options;
  const svg = Plot.plot({
    ...options,
    document: document as unknown as NonNullable<Plot.PlotOptions['document']>,
    width,
    height,
    style: { background: look.ground, color: look.ink, fontFamily: family, fontSize: '13px' },
  }) as unknown as SvgElement;
  svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  svg.setAttribute('role', 'img');
  svg.setAttribute('font-family', family);
  svg.setAttribute('font-size', '13');
  svg.removeAttribute('style');
  svg.setAttribute('fill', look.ink);
  svg.querySelector('style')?.remove();
  const inside = svg.innerHTML;
  svg.innerHTML = '';
  const open = svg.outerHTML.replace(/<\/svg>$/, '').replace(/\/>$/, '>');
  return `${open}<title>${escaped(title)}</title><desc>${escaped(description)}</desc><rect width="${width}" height="${height}" fill="${look.ground}"/>${inside}</svg>`;
}
