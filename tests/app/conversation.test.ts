import { beforeEach, describe, expect, it } from 'vitest';
import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation, type JournalPort, type SpeechPort } from '../../src/app/conversation.js';
import { letTimePass } from '../../src/app/play-script.js';
import { SpokenSpeech } from '../../src/app/spoken-speech.js';
import type { Hearing, Hypothesis } from '../../src/language/types.js';
import type { Intent } from '../../src/process/intent.js';
import { Mouth } from '../../src/speech/mouth/mouth.js';
import type { Player } from '../../src/speech/mouth/player.js';
import type { Voice } from '../../src/speech/mouth/voice.js';
import type { Fact } from '../../src/world/fact.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide' });

class Recorder implements SpeechPort {
  said: Reply[] = [];
  prepared: string[] = [];
  did: string[] = [];
  say(reply: Reply): void {
    this.said.push(reply);
  }
  prepare(texts: string[]): void {
    this.prepared.push(...texts);
  }
  quiet(): void {
    this.did.push('quiet');
  }
  sayAgain(): void {
    this.did.push('again');
  }
  adjust(change: string): void {
    this.did.push(change);
  }
  get last(): Reply | undefined {
    return this.said.at(-1);
  }
}

const reading = (words: string, confidence: number): Hypothesis => ({
  words,
  confidence,
  score: -0.1,
  wordTimes: [],
});

const hearing = (words: string, others: [string, number][] = [], confidence = 0.95): Hearing => ({
  accepted: true,
  best: reading(words, confidence),
  alternatives: others.map(([w, c]) => reading(w, c)),
  milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
});

let clock: SimulatedClock;
let speech: Recorder;
let broken: string | null;
let written: number;
let talk: Conversation;

beforeEach(() => {
  clock = new SimulatedClock();
  speech = new Recorder();
  broken = null;
  written = 0;
  const journal: JournalPort = {
    append: () => {
      if (broken) return { problem: broken };
      written++;
      return null;
    },
  };
  talk = new Conversation({ ...bench, clock, speech, journal });
});

const developing = (): void => {
  for (const line of [
    'begin the run',
    'next step',
    'next step',
    'film is loaded',
    'prebath is in',
    'tank is empty',
  ])
    talk.typed(line);
  for (const line of ['water is in', 'tank is empty', 'developer is in']) talk.typed(line);
};

describe('the conversation', () => {
  it.each([
    ['my eye burns', false],
    ['spilled ten milliliters of fixer in the eye', true],
    ['spilled ten milliliters of fixer in my eye', false],
  ])('heard that somebody is hurt (%s), "I am fine" ends only an alarm of whoever speaks', (cry, still) => {
    developing();
    talk.heard(hearing(cry));
    talk.heard(hearing('i am fine'));
    talk.typed('where are we');
    expect(/Somebody is hurt/.test(speech.last?.text ?? '')).toBe(still);
  });

  it.each([
    ['the developer is in bottle five', /Did you mean: bottle 5 holds the developer; or/],
    ['the developer is back in bottle two', /Tank empty/],
  ])('%s, heard while its clock runs', (line, said) => {
    developing();
    letTimePass(talk, clock, 30_000);
    talk.heard(hearing(line));
    expect(speech.last?.text).toMatch(said);
    talk.typed('cancel');
    letTimePass(talk, clock, 140_000);
    talk.heard(hearing('the developer is in bottle two'));
    expect(speech.said.some((r) => /^Tank empty/.test(r.text))).toBe(true);
  });

  it('goes on when the disk does not, says so, and calls on time', () => {
    developing();
    broken = 'The disk is full: what you say now is only in my memory.';
    const due = talk.nextWakeMs() ?? 0;
    clock.moveTo(due);
    talk.timePassed();
    expect(speech.said.slice(-2)).toMatchObject([
      { kind: 'call', atMs: due },
      { kind: 'warning', text: broken },
    ]);
    talk.typed('how long left');
    expect(speech.last?.kind).toBe('answer');
  });

  it('confirms what was said only when it is written, and calls before it is', () => {
    developing();
    const saidBefore: string[] = [];
    const append = () => {
      saidBefore.push(speech.last?.text ?? '');
      return null;
    };
    const written = new Conversation({ ...bench, clock, speech, journal: { append } }, talk.state);
    clock.moveTo(written.nextWakeMs() ?? 0);
    written.timePassed();
    const call = speech.last;
    expect(call?.kind).toBe('call');
    written.typed('how long left');
    expect(speech.last?.kind).toBe('answer');
    expect(saidBefore).toEqual([call?.text, call?.text]);
  });

  it('makes the sound of the next timed call ahead of its time', () => {
    developing();
    const due = talk.nextWakeMs();
    clock.moveTo(due ?? 0);
    talk.timePassed();
    expect(speech.prepared).toContain(speech.last?.text);
  });

  it('takes a run up again with its next call made into sound before anything is said', async () => {
    developing();
    const made: string[] = [];
    const voice: Voice = {
      ...{ id: 'v', label: 'a voice', close() {} },
      synthesise: async (text) => {
        made.push(text);
        return { pcm: new Float32Array(1000).fill(0.5), sampleRate: 1000 };
      },
    };
    const player: Player = { id: 'p', play: () => ({ done: new Promise(() => {}), stop() {} }) };
    const mouth = new Mouth({ voice, player, now: () => clock.nowMs(), onEvent() {} });
    const aloud = new SpokenSpeech(
      mouth,
      () => {},
      () => clock.nowMs(),
    );
    const resumed = new Conversation(
      { ...bench, clock, speech: aloud, journal: { append: () => null } },
      talk.state,
    );
    aloud.say({ atMs: clock.nowMs(), kind: 'warning', text: 'An unfinished run is here.', desk: 'talk' });
    await new Promise((next) => setTimeout(next, 5));
    expect(resumed.speaksNext).toBe(true);
    clock.moveTo(resumed.nextWakeMs() ?? 0);
    talk.timePassed();
    expect(speech.last?.text).toContain(made[0]);
    expect(made[1]).toBe('An unfinished run is here.');
    mouth.close();
  });

  it.each(['slower', 'faster', 'full answers'])('makes the next call anew after “%s”', (line) => {
    developing();
    speech.prepared = [];
    talk.typed(line);
    const ahead = [...speech.prepared];
    clock.moveTo(talk.nextWakeMs() ?? 0);
    talk.timePassed();
    expect(ahead).toContain(speech.last?.text);
  });

  it('asks when fifteen and fifty are close, and does what is then confirmed by saying it again', () => {
    developing();
    const writtenBefore = written;
    talk.heard(hearing('add fifteen seconds', [['add fifty seconds', 0.1]]));
    expect(speech.last?.kind).toBe('question');
    expect(speech.last?.text).toMatch(/15 seconds.*50 seconds/);
    expect(written).toBe(writtenBefore);
    talk.heard(hearing('add fifteen seconds'));
    expect(speech.last?.text).toMatch(/15 seconds/);
    expect(written).toBe(writtenBefore + 1);
  });

  it('names a close reading once, however close it is', () => {
    developing();
    talk.heard(hearing('add fifteen seconds', [['add fifty seconds', 0.5]]));
    expect(speech.last?.text.match(/50 seconds/g)).toHaveLength(1);
  });

  it('writes down what was noticed without words, such as a probe’s reading', () => {
    const facts: Fact[] = [];
    const probed = new Conversation({
      ...bench,
      clock,
      speech,
      journal: {
        append: (_event, found) => {
          facts.push(...found);
          return null;
        },
      },
    });
    const noticed: Fact = {
      type: 'temperature',
      vessel: { kind: 'bottle', number: 5 },
      liquid: 'fixer',
      tempC: 36.4,
    };
    probed.noticed(noticed);
    expect(facts).toEqual([noticed]);
  });

  it('drops its question on cancel', () => {
    developing();
    talk.heard(hearing('add fifteen seconds', [['add fifty seconds', 0.1]]));
    const writtenBefore = written;
    talk.heard(hearing('cancel'));
    expect(speech.last?.text).toBe('Nothing changed.');
    expect(written).toBe(writtenBefore);
    talk.heard(hearing('confirm'));
    expect(speech.said.some((r) => /added/i.test(r.text))).toBe(false);
  });

  describe('a pour over an open question', () => {
    const noFilm = "hang on, tank's empty, no film in it";
    const pour = 'pouring the prebath in from bottle one';
    const lapsed = 'The pour of the prebath was not cleared: say it again.';
    const texts = (): string[] => speech.said.map((r) => r.text);
    const wait = (seconds: number): void => letTimePass(talk, clock, 1000 * seconds);
    beforeEach(() => {
      for (const line of ['begin the run', 'developer is at 41.1', 'film is loaded', noFilm])
        talk.typed(line);
      speech.said = [];
    });

    it.each([
      ['typed', () => talk.typed(pour)],
      ['heard', () => talk.heard(hearing(pour))],
    ])('waits for the answer when it is %s', (_, say) => {
      say();
      expect(speech.last?.text).toMatch(/^Still open: did you mean: there is no film/);
      talk.heard(hearing('cancel'));
      expect(texts().slice(-2)).toEqual(['Nothing changed.', expect.stringMatching(/^Clear: prebath/)]);
    });

    it.each([
      ['that was poorly heard', () => talk.heard(hearing(pour), false)],
      [
        'of a bottle that was poorly heard',
        () => talk.heard(hearing(pour, [['pouring the prebath in from bottle nine', 0.4]])),
      ],
    ])('%s waits too, and is asked about then', (_, say) => {
      say();
      expect(speech.last?.text).toMatch(/^Still open: did you mean: there is no film/);
      talk.heard(hearing('cancel'));
      expect(speech.last?.text).toMatch(/^Did you mean: pour the prebath in from bottle 1/);
    });

    it('still waits behind the answer to a question that may have meant several things', () => {
      talk.typed(pour);
      talk.typed('what is the thing with the wash');
      expect(speech.last?.text).toMatch(/^Still open: did you mean: there is no film/);
      talk.typed('cancel');
      expect(speech.last?.text).toMatch(/^Clear: prebath/);
    });

    it('is told of once when it lapses, at its own time', () => {
      talk.typed(pour);
      wait(59);
      expect(texts()).not.toContain(lapsed);
      wait(1);
      expect(speech.last).toMatchObject({ kind: 'warning', text: lapsed, atMs: clock.nowMs() });
      wait(600);
      talk.typed('cancel');
      expect(texts().filter((t) => t === lapsed)).toHaveLength(1);
      expect(texts().some((t) => t.startsWith('Clear'))).toBe(false);
    });

    it('is told of when something else is said instead of an answer', () => {
      talk.typed(pour);
      talk.typed('the prebath is 27.2');
      expect(texts().at(-1)).toBe(lapsed);
      talk.typed('cancel');
      expect(texts().some((t) => t.startsWith('Clear'))).toBe(false);
    });

    it('is told of when the next question is of something else', () => {
      talk.typed(pour);
      talk.heard(hearing('spilled twenty milliliters of bleach'), false);
      expect(texts().at(-2)).toBe(lapsed);
    });

    it('goes unsaid when it has happened', () => {
      talk.typed(pour);
      talk.typed('the prebath is in');
      expect(texts()).not.toContain(lapsed);
    });

    it('still waits when a yes does not say which', () => {
      talk.typed(pour);
      talk.typed('confirm');
      expect(speech.last?.text).toMatch(/^Still open: .*Type first or second/);
      talk.typed('cancel');
      expect(speech.last?.text).toMatch(/^Clear: prebath/);
    });

    it('does not outlive what it waits for: a late choice is asked once more', () => {
      wait(61);
      talk.typed('first');
      expect(speech.last?.text).toMatch(/^Still open: did you mean: there is no film/);
      expect(talk.state.world.film.loaded).toBe(true);
      talk.typed('first');
      expect(talk.state.world.film.loaded).toBe(false);
    });
  });

  it.each(['cancel', 'never mind'])('%s to a question that was put again takes its doubt back', (no) => {
    talk.typed('begin the run');
    talk.heard(hearing('spilled twenty milliliters of bleach'), false);
    const doubt = () => talk.state.world.bottles[4]?.doubt ?? null;
    expect(doubt()).toBe(null);
    talk.typed('what is in bottle four');
    expect(doubt()).toBe('spilled');
    expect(speech.last?.text).toMatch(/^Still open/);
    talk.typed(no);
    expect(doubt()).toBe(null);
  });

  describe('what may have been told beside what is done', () => {
    const spill: Intent = { type: 'spill', volumeMl: 20, liquid: 'developer', place: 'floor' };
    const told = (intent: Intent): void => {
      talk.typed('…', { kind: 'understood', intent, beside: spill, words: '…', situation: 'anytime' });
    };
    const spilt = (): boolean => talk.state.world.bottles[2]?.doubt === 'spilled' || said(/spill noted/i);
    const said = (what: RegExp): boolean => speech.said.some((r) => what.test(r.text));
    beforeEach(() => {
      developing();
      speech.said = [];
      told({ type: 'temperature', of: { kind: 'tub' }, tempC: 41 });
    });

    it('is asked about when that is done', () => {
      expect(said(/^Tub 41/)).toBe(true);
      expect(speech.last?.text).toMatch(/^Did you also mean: .*20 millilitres.*\? Say confirm or cancel\.$/);
      expect(spilt()).toBe(false);
    });

    it.each([
      ['typed', () => talk.typed('yes')],
      ['heard', () => talk.heard(hearing('confirm'))],
    ])('is done with a yes that is %s', (_, yes) => {
      yes();
      expect(said(/spill noted: 20 millilitres of developer/i)).toBe(true);
    });

    it.each([
      ['a no', () => talk.typed('no')],
      ['something else is said', () => ['how long left', 'yes'].map((line) => talk.typed(line))],
      ['the yes is late', () => [letTimePass(talk, clock, 61_000), talk.typed('yes')]],
    ])('is left when %s', (_, then) => {
      then();
      expect(spilt()).toBe(false);
    });

    it('is named where what is done asks something itself', () => {
      told({ type: 'drain-now' });
      expect(said(/confirm/i)).toBe(true);
      expect(speech.last?.text).toMatch(/^I left out “.*20 millilitres.*”: say it by itself\.$/);
    });
  });

  it('what was held against a bottle before its question is so after a no', () => {
    talk.typed('begin the run');
    talk.noticed({ type: 'bottle-doubted', bottle: 4, doubt: 'unanswered', of: 'fixer' });
    talk.heard(hearing('spilled twenty milliliters of bleach'), false);
    for (const line of ['what is in bottle four', 'cancel']) talk.typed(line);
    expect(talk.state.world.bottles[4]).toMatchObject({ doubt: 'unanswered', doubtOf: 'fixer' });
  });

  it('a question that is passed over counts against its bottle', () => {
    talk.typed('begin the run');
    talk.heard(hearing('spilled twenty milliliters of bleach'), false);
    for (const line of ['what is in bottle four', 'the prebath is 27.2']) talk.typed(line);
    expect(talk.state.world.bottles[4]?.doubt).toBe('spilled');
  });

  it('does not act on what the recogniser did not accept', () => {
    const taken = talk.heard({ ...hearing('begin the run'), accepted: false });
    expect(taken.done).toBe('ignored');
    expect(speech.said).toEqual([]);
    expect(written).toBe(0);
  });

  it('asks about a pour whose bottle was poorly heard', () => {
    developing();
    talk.typed('drain now');
    talk.heard(
      hearing('returning the developer to bottle two', [['returning the developer to bottle three', 0.4]]),
    );
    expect(speech.last?.kind).toBe('question');
  });

  it('makes an answer into sound before the sentence is over, and changes, writes and says nothing', () => {
    talk.typed('begin the run');
    const before = JSON.stringify(talk.state);
    const [saidBefore, writtenBefore] = [speech.said.length, written];
    speech.prepared = [];
    talk.expect(hearing('next step'), 100);
    expect(JSON.stringify(talk.state)).toBe(before);
    expect([speech.said.length, written]).toEqual([saidBefore, writtenBefore]);
    talk.heard(hearing('next step'));
    expect(speech.prepared).toContain(speech.last?.text);
    talk.expect(hearing('quiet'), 100);
    expect(speech.did).toEqual([]);
  });

  it('leaves quiet, louder and say that again out of the journal', () => {
    for (const line of ['quiet', 'louder', 'say that again']) talk.typed(line);
    expect(speech.did).toEqual(['quiet', 'louder', 'again']);
    expect(written).toBe(0);
  });

  it('says of calls that came too late only the one that matters now', () => {
    developing();
    speech.said = [];
    clock.moveTo(clock.nowMs() + 600_000);
    talk.timePassed();
    const calls = speech.said.filter((r) => r.kind === 'call');
    expect(calls).toHaveLength(1);
  });

  it('keeps its state as plain data, the same after a round through JSON', () => {
    developing();
    const state = JSON.parse(JSON.stringify(talk.state)) as typeof talk.state;
    expect(state).toEqual(talk.state);
    const again = new Conversation({ ...bench, clock, speech, journal: { append: () => null } }, state);
    again.typed('how long left');
    expect(speech.last?.text).toMatch(/3 minutes/);
  });
});
