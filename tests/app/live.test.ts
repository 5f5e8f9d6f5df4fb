import { afterEach, describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { LiveConversation } from '../../src/app/live.js';
import { understandingThread } from '../../src/app/understanding.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide' });

describe('the thread that understands', () => {
  it('finds what the language itself finds', async () => {
    const thread = understandingThread(bench.language);
    for (const line of [
      'how long left',
      'please could I know how much time there is',
      'rhubarb',
      'spilled 20 ml of fixer',
    ])
      expect(await thread.typed(line, ['immersed'])).toEqual(bench.language.typed(line, ['immersed']));
    thread.close();
  }, 60_000);

  it('gives up a line that takes too long with a sentence, and takes the next one', async () => {
    const thread = understandingThread(bench.language, 0, () => true, 0);
    for (let n = 0; n < 2; n += 1)
      expect(await thread.typed('how long left', ['immersed'])).toMatchObject({
        kind: 'nothing',
        why: expect.stringContaining('too long to understand'),
      });
    thread.close();
  }, 60_000);

  it('gives the first lines after a start the time that a start takes', async () => {
    const thread = understandingThread(bench.language, 0);
    for (const line of ['where was I', 'how long left'])
      expect(await thread.typed(line, ['immersed'])).toMatchObject({ kind: 'understood' });
    thread.close();
  }, 60_000);

  it('begins anew after it ended', async () => {
    const thread = understandingThread(bench.language);
    expect(await thread.typed('next step', ['loading'])).toMatchObject({ kind: 'understood' });
    thread.close();
    expect(await thread.typed('next step', ['loading'])).toMatchObject({ kind: 'understood' });
    thread.close();
  }, 60_000);
});

describe('a live conversation', () => {
  let live: LiveConversation | null = null;
  afterEach(() => live?.stop());

  /** The assistant at a bench clock that stands still until it is moved. */
  function begun() {
    const said: string[] = [];
    const journaled: string[] = [];
    let nowMs = (): number => 0;
    const clock = { nowMs: () => nowMs(), wallMs: () => 1.77e12 + nowMs() };
    const conversation = new LiveConversation(
      bench,
      {
        clock,
        journal: {
          append: (event) => {
            journaled.push(event.type === 'intent' ? event.heard.words : event.type);
            return null;
          },
        },
        speech: {
          say: ({ kind, text }) => void said.push(`${kind}: ${text}`),
          prepare() {},
          ready: () => void said.push('ready'),
          quiet() {},
          sayAgain() {},
          adjust() {},
        },
      },
      bench.assistant.initial,
    );
    live = conversation;
    return {
      live: conversation,
      said,
      journaled,
      moveTo: (ms: number) => {
        nowMs = () => ms;
      },
      /** from now on it goes on by itself */
      runFrom: (ms: number) => {
        const began = performance.now();
        nowMs = () => ms + performance.now() - began;
      },
    };
  }
  const toPrebath = ['begin the run', 'next step', 'next step', 'film is loaded', 'prebath is in'];

  it('takes lines in the order in which they were typed, however they come', async () => {
    const { live: conversation, journaled } = begun();
    await Promise.all(toPrebath.map((line) => conversation.typed(line)));
    expect(journaled).toEqual(toPrebath);
  }, 60_000);

  it('lets a call go before a line that would hold it up', async () => {
    const { live: conversation, said, runFrom, journaled } = begun();
    for (const line of toPrebath) await conversation.typed(line);
    runFrom(9_900);
    conversation.schedule();
    await conversation.typed('undo that');
    const call = said.findIndex((line) => /^call: Drain the prebath/.test(line));
    expect(call).toBeGreaterThan(0);
    expect(journaled.indexOf('time')).toBeLessThan(journaled.indexOf('undo that'));
    expect(journaled).toContain('undo that');
  }, 60_000);

  it('has the speaker start a second before a call is due, and not for every deadline', async () => {
    const { live: conversation, said, moveTo } = begun();
    for (const line of toPrebath) await conversation.typed(line);
    expect(said).not.toContain('ready');
    const due = conversation.conversation.nextWakeMs() ?? 0;
    moveTo(due - 900);
    conversation.schedule();
    await new Promise((next) => setTimeout(next, 5));
    expect(said.at(-1)).toBe('ready');
    expect(said.filter((line) => line.startsWith('call: Drain'))).toEqual([]);
  }, 60_000);
});
