import { srgbToLinear } from './colour.js';
import type { Curve, Transfer } from './density.js';

export const srgbTransfer: Transfer = [srgbToLinear, srgbToLinear, srgbToLinear];
export const linearTransfer: Transfer = [(v) => v, (v) => v, (v) => v];
export const gammaTransfer = (gamma: number): Transfer => {
  const curve: Curve = (v) => v ** gamma;
  return [curve, curve, curve];
};

/**
 * The tone curves of a matrix profile; null when the profile has none (a table-based profile, or not a profile).
 * source: ICC.1:2022, 10.6 curveType and 10.18 parametricCurveType
 */
export function transferOfIcc(profile: Uint8Array): Transfer | null {
  if (profile.length < 132) return null;
  const view = new DataView(profile.buffer, profile.byteOffset, profile.byteLength);
  const count = view.getUint32(128);
  const tags = new Map<string, number>();
  for (let i = 0; i < count && 132 + i * 12 + 12 <= profile.length; i++) {
    const at = 132 + i * 12;
    tags.set(ascii(profile, at), view.getUint32(at + 4));
  }
  const curve = (tag: string): Curve | null => {
    const at = tags.get(tag) ?? tags.get('kTRC');
    return at === undefined || at + 12 > profile.length ? null : curveAt(view, profile, at);
  };
  const [r, g, b] = [curve('rTRC'), curve('gTRC'), curve('bTRC')];
  return r && g && b ? [r, g, b] : null;
}

const ascii = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
const fixed = (view: DataView, at: number): number => view.getInt32(at) / 65536;

function curveAt(view: DataView, bytes: Uint8Array, at: number): Curve | null {
  const type = ascii(bytes, at);
  if (type === 'curv') return sampled(view, at);
  if (type === 'para') return parametric(view, at);
  return null;
}

function sampled(view: DataView, at: number): Curve | null {
  const n = view.getUint32(at + 8);
  if (n === 0) return (v) => v;
  if (at + 12 + 2 * n > view.byteLength) return null;
  if (n === 1) {
    const gamma = view.getUint16(at + 12) / 256;
    return (v) => v ** gamma;
  }
  const points = Float64Array.from({ length: n }, (_, i) => view.getUint16(at + 12 + 2 * i) / 65535);
  return (v) => {
    const x = Math.min(1, Math.max(0, v)) * (n - 1);
    const i = Math.min(n - 2, Math.floor(x));
    const low = points[i] ?? 0;
    return low + (x - i) * ((points[i + 1] ?? low) - low);
  };
}

/** How many parameters each function type has. */
const parameters = [1, 3, 4, 5, 7] as const;

function parametric(view: DataView, at: number): Curve | null {
  const kind = view.getUint16(at + 8);
  const n = parameters[kind];
  if (n === undefined || at + 12 + 4 * n > view.byteLength) return null;
  const [g = 1, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = Array.from({ length: n }, (_, i) =>
    fixed(view, at + 12 + 4 * i),
  );
  switch (kind) {
    case 0:
      return (v) => v ** g;
    case 1:
      return (v) => (v >= -b / a ? (a * v + b) ** g : 0);
    case 2:
      return (v) => (v >= -b / a ? (a * v + b) ** g + c : c);
    case 3:
      return (v) => (v >= d ? (a * v + b) ** g : c * v);
    default:
      return (v) => (v >= d ? (a * v + b) ** g + e : c * v + f);
  }
}
