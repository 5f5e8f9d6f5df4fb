import { describe, expect, it } from 'vitest';
import type { WordGraph } from '../../../src/language/types.js';
import { attend, attention, hears, keyIsDown } from '../../../src/speech/ears/attention.js';

const said = (startMs: number, endMs = startMs + 800) => ({ startMs, endMs });

it('always listening hears all', () => {
  expect(hears(attention(), said(0))).toBe('all');
});

describe('the call word', () => {
  const waiting = attention('call-word');
  it('is wanted first, and opens the ear for a while', () => {
    expect(hears(waiting, said(1000))).toBe('after-call-word');
    const called = attend(waiting, { type: 'called', atMs: 1000 });
    expect(hears(called, said(2000))).toBe('all');
    expect(hears(called, said(9001))).toBe('after-call-word');
  });

  it('is not wanted for the answer to a question', () => {
    expect(hears(attend(waiting, { type: 'asked', atMs: 500 }), said(3000))).toBe('all');
  });

  it('a later event never closes the ear sooner', () => {
    const called = attend(attend(waiting, { type: 'called', atMs: 5000 }), { type: 'asked', atMs: 1000 });
    expect(hears(called, said(12_000))).toBe('all');
  });
});

describe('push to talk', () => {
  const idle = attention('push-to-talk');
  it('hears only what silences, until the key goes down', () => {
    expect(hears(idle, said(0))).toBe('stop-words');
    const down = attend(idle, { type: 'key', atMs: 1000 });
    expect(hears(down, said(1100))).toBe('all');
    expect(hears(down, said(100, 900))).toBe('stop-words');
  });

  it('takes a held key, that repeats, as one press', () => {
    let state = idle;
    for (const atMs of [1000, 1500, 1530, 1560]) state = attend(state, { type: 'key', atMs });
    expect(state.keySinceMs).toBe(1000);
    expect(keyIsDown(state, 2000)).toBe(true);
    expect(keyIsDown(state, 2300)).toBe(false);
    expect(attend(state, { type: 'key', atMs: 9000 }).keySinceMs).toBe(9000);
    expect(keyIsDown(attend(state, { type: 'key-up', atMs: 1600 }), 1601)).toBe(false);
  });
});

it('a change of mode starts anew', () => {
  const called = attend(attention('call-word'), { type: 'called', atMs: 0 });
  const back = attend(attend(called, { type: 'mode', mode: 'always' }), { type: 'mode', mode: 'call-word' });
  expect(hears(back, said(10))).toBe('after-call-word');
});

function _sentences(graph: WordGraph, node = graph.start, words: string[] = []): string[] {
  const here = node === graph.end ? [words.join(' ')] : [];
  const on = graph.arcs
    .filter((arc) => arc.from === node)
    .flatMap((arc) => _sentences(graph, arc.to, arc.word ? [...words, arc.word] : words));
  return [...new Set([...here, ...on])];
}
