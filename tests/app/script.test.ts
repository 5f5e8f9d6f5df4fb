import { describe, expect, it } from 'vitest';
import { readScript, readSpan } from '../../src/app/script.js';

describe('a talk script', () => {
  it('takes words, sounds, spans and comments', () => {
    const script = readScript('# a run\nnext step\n\nhear: clips/a.wav\n+1m30s\n');
    expect(script).toEqual({
      steps: [
        { do: 'type', line: 'next step', at: 2 },
        { do: 'hear', file: 'clips/a.wav', at: 4 },
        { do: 'wait', ms: 90_000, at: 5 },
      ],
    });
  });
  it.each([
    ['90s', 90_000],
    ['1m30s', 90_000],
    ['500ms', 500],
    ['1.5m', 90_000],
    ['2h', 7_200_000],
    ['90', null],
    ['s', null],
    ['ten seconds', null],
    ['5s later', null],
  ])('reads the span %s', (text, ms) => expect(readSpan(text)).toBe(ms));
  it.each(['+soon', 'hear:'])('names the bad line %s', (line) => {
    expect(readScript(`next step\n${line}`)).toEqual({ problem: expect.stringContaining('Line 2') });
  });
});
