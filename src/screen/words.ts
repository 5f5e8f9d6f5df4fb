import { clockText, digitsAt } from './time.js';
import type { Fit, Known, ScreenLine, ScreenView, VesselView } from './view.js';

/** The screens' own few words. What is said comes from the language room. */
export const knownWords: Readonly<Record<Known, string>> = {
  measured: 'measured',
  told: 'told',
  reckoned: 'reckoned',
  assumed: 'assumed',
  unknown: 'not known',
};
export const fitWords: Readonly<Record<Fit, string>> = {
  within: 'in its band',
  'too-cold': 'too cold',
  'too-warm': 'too warm',
  unknown: '',
};
/** Beside the words: colour is never the only sign, and neither is the word. */
export const fitSigns: Readonly<Record<Fit, string>> = {
  within: '✓',
  'too-cold': '▼',
  'too-warm': '▲',
  unknown: ' ',
};
export const openWords = { warning: 'WARNING', question: 'QUESTION', spill: 'SPILL' } as const;
export const lineTags: Readonly<Record<ScreenLine['kind'], string>> = {
  warning: 'WARNING ',
  question: '? ',
  call: 'NOW ',
  answer: '',
  you: '› ',
  aside: '',
  picture: '',
};

/** A text in the language of the view; each `{}` is one of `parts`. */
export const say = (
  { words }: Pick<ScreenView, 'words'>,
  text: string,
  ...parts: (string | number)[]
): string => parts.reduce<string>((t, part) => t.replace('{}', () => String(part)), words?.[text] ?? text);

export const capital = (words: string): string => `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;

export const bathWords = (view: ScreenView): string =>
  view.bath
    ? say(view, '{} in the {}', capital(view.bath.name), view.bath.vessel)
    : say(view, 'Nothing timed · {}', view.sheet);

export function nextWords(view: ScreenView): string {
  const { next } = view;
  if (!next) return '';
  const parts = [
    next.bath,
    next.bottle === null ? '' : say(view, 'bottle {}', next.bottle),
    next.aimC === null ? '' : `${next.aimC.toFixed(1)} °C`,
  ];
  return say(view, 'Next: {}', parts.filter(Boolean).join(', '));
}

/** What the hands or the tank should be doing now: the largest words. */
export function headline(view: ScreenView, benchMs: number): string {
  if (view.bath && view.bath.stoppedMs !== null) return say(view, '‖ The clock is held');
  if (digitsAt(view, benchMs).sense === 'late') return view.act.words;
  if (view.motion === 'agitate') return say(view, '↻ Agitate');
  if (view.motion === 'rest') return say(view, '▬ Let it rest');
  return view.act.words;
}

/** What the digits count, and what comes after. */
export function thenWords(view: ScreenView, benchMs: number): string {
  const { sense } = digitsAt(view, benchMs);
  if (sense === 'since') return say(view, 'in the tank so far');
  if (sense === 'none') return '';
  if (sense === 'late') return say(view, 'late');
  const [first] = view.acts;
  const then = first && first.dueMs === view.act.dueMs ? say(view, 'then {}', lower(first.words)) : '';
  const drain = view.acts.find((a) => a.kind === 'drain');
  const left =
    drain && drain !== first
      ? say(
          view,
          'drain in {}',
          clockText(Math.max(0, Math.ceil((drain.dueMs - stoppedAt(view, benchMs)) / 1000))),
        )
      : '';
  return [then, left].filter(Boolean).join(' · ');
}

const stoppedAt = (view: ScreenView, benchMs: number): number =>
  Math.min(view.bath?.stoppedMs ?? benchMs, benchMs);
const lower = (words: string): string => `${words[0]?.toLowerCase() ?? ''}${words.slice(1)}`;

export const sureness = (confidence: number): string =>
  `${confidence >= 0.85 ? 'sure' : confidence >= 0.65 ? 'fairly sure' : 'unsure'} (${Math.round(confidence * 100)} of 100)`;

export const heardWords = ({ heard }: ScreenView): string =>
  heard
    ? `Heard: “${heard.words}”, ${sureness(heard.confidence)}${heard.understood ? '' : ', not taken for a command'}`
    : '';

export const holdsWords = (view: ScreenView, v: VesselView): string =>
  v.holds ?? say(view, v.holdsKnown === 'unknown' ? 'not known what' : 'empty');

/** A reckoned figure is marked as one. */
export const tempWords = ({ temp: { tempC, known } }: VesselView): string =>
  tempC === null ? '– °C' : `${known === 'reckoned' ? '≈' : ''}${tempC.toFixed(1)} °C`;

/** Whole minutes, at least one; empty when it is ready or nobody can tell. */
export const readyWords = (view: ScreenView, v: VesselView): string =>
  v.readyMs === null
    ? ''
    : say(view, 'ready in about {} min', Math.max(1, Math.round((v.readyMs - view.atMs) / 60_000)));
