import { limits } from '../limits.js';

/** One line of a talk script: a typed line, a sound file to hear, or time passing. */
export type ScriptStep =
  | { do: 'type'; line: string; at: number }
  | { do: 'hear'; file: string; at: number }
  | { do: 'wait'; ms: number; at: number };

const units: Record<string, number> = { ms: 1, s: 1000, m: 60_000, min: 60_000, h: 3_600_000 };

/**
 * Reads a talk script. Lines: words (typed), `hear: FILE.wav`, `+90s` / `+1m30s` / `+500ms` (time passes),
 * `# comment`; blank lines are skipped. A bad line is a sentence naming its number.
 */
export function readScript(text: string): { steps: ScriptStep[] } | { problem: string } {
  const steps: ScriptStep[] = [];
  let waitMs = 0;
  for (const [index, raw] of text.split(/\r?\n/).entries()) {
    const line = raw.trim();
    const at = index + 1;
    if (line === '' || line.startsWith('#')) continue;
    if (line.startsWith('+')) {
      const ms = readSpan(line.slice(1));
      if (ms === null) {
        return {
          problem: `Line ${at}: “${line}” is not a span of time. Write it like +90s, +1m30s or +500ms.`,
        };
      }
      waitMs += ms;
      if (waitMs > limits.scriptMs)
        return { problem: `Line ${at}: the script lets more than a week pass. Make it shorter.` };
      steps.push({ do: 'wait', ms, at });
      continue;
    }
    const hear = /^hear:\s*(.*)$/i.exec(line);
    if (!hear) steps.push({ do: 'type', line, at });
    else if (hear[1]) steps.push({ do: 'hear', file: hear[1], at });
    else return { problem: `Line ${at}: “hear:” needs a WAV file after it, like hear: next.wav.` };
  }
  return { steps };
}

/** "90s", "1m30s", "1.5m" → ms; null when it is none. */
export function readSpan(text: string): number | null {
  const parts = [...text.matchAll(/(\d+(?:\.\d+)?)\s*(ms|min|s|m|h)/g)];
  if (parts.length === 0 || parts.map((p) => p[0]).join('') !== text.replace(/\s+(?=\d)/g, '').trim())
    return null;
  return parts.reduce((sum, p) => sum + Number(p[1]) * (units[p[2] ?? ''] ?? 0), 0);
}
