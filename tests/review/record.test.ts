import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { Hushed } from '../../src/app/live.js';
import { letTimePass } from '../../src/app/play-script.js';
import { historyFrom } from '../../src/app/review-record.js';
import { keepScanEvidence, keptScanEvidence, whyFiles, whyWithReport } from '../../src/app/why-report.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { agitationForgotten, filterNoted, keptWarmNoted } from '../../src/review/record/stocks.js';
import { deviationsOf } from '../../src/review/why/deviations.js';
import { observed } from '../../src/review/why/evidence.js';
import { effectiveS } from '../../src/review/why/record-evidence.js';
import { rateLaws } from '../../src/thermal/rate-data.js';
import { main } from '../app/cli.js';

const folder = mkdtempSync(join(tmpdir(), 'tankside-record-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A whole assistant on a simulated clock with a real journal in its own folder. */
class Sink {
  readonly folder = mkdtempSync(join(folder, 'day-'));
  readonly bench = createBench({ sheet: 'ecn2-ferricyanide' });
  readonly clock = new SimulatedClock();
  readonly speech = new Hushed();
  readonly journal: Journal;
  readonly conversation: Conversation;
  readonly asides: string[] = [];

  constructor() {
    const journal = openJournal(this.folder);
    if (isProblem(journal)) throw new Error(journal.sentence);
    journal.assume(this.bench.assumed);
    this.journal = journal;
    this.conversation = new Conversation({
      ...this.bench,
      clock: this.clock,
      speech: this.speech,
      journal: {
        append: (event, facts) => {
          journal.append([{ event, source: event.type === 'time' ? 'clock' : 'typed', facts }]);
          return null;
        },
      },
      why: whyWithReport(
        { journal, bench: this.bench },
        { folder: this.folder, sheet: 'ecn2-ferricyanide', said: (s) => this.asides.push(s) },
      ),
    });
  }

  say(...lines: string[]): this {
    for (const line of lines) this.conversation.typed(line);
    return this;
  }
  pass(seconds: number): this {
    letTimePass(this.conversation, this.clock, seconds * 1000);
    return this;
  }
  /** the programme was off so long: what was due meanwhile is met at once, late */
  off(seconds: number): this {
    this.clock.moveTo(this.clock.nowMs() + seconds * 1000);
    this.conversation.timePassed();
    return this;
  }
  toDeveloper(developerC: number): this {
    return this.say('begin the run', 'next step', `developer is ${developerC}`, 'next step', 'film is loaded')
      .say('prebath is in')
      .pass(10)
      .say('returning the prebath to bottle one', 'tank is empty', 'water is in')
      .pass(40)
      .say('tank is empty', 'developer is in');
  }
  endDeveloper(): this {
    return this.say('returning the developer to bottle two', 'confirm', 'tank is empty', 'confirm');
  }
  history() {
    const [run] = this.journal.runs({ limit: 1 });
    if (!run) throw new Error('no run');
    return historyFrom(this.journal, run, this.bench.sheets);
  }
  developer() {
    const step = this.history().steps.find((s) => s.role === 'developer');
    if (!step) throw new Error('no developer');
    return step;
  }
  last(): string {
    return this.speech.replies.at(-1)?.text ?? '';
  }
}

describe('what the record says of agitation', () => {
  it('every call went out: none was left out', () => {
    const { agitation } = new Sink().toDeveloper(41.1).pass(180).endDeveloper().developer();
    expect(agitation?.calls).toBeGreaterThan(2);
    expect(agitation?.missed).toBe(0);
  });
  it('calls that fell into a time when the programme was off were not made', () => {
    const { agitation } = new Sink().toDeveloper(41.1).pass(20).off(120).pass(40).endDeveloper().developer();
    expect(agitation?.missed).toBeGreaterThanOrEqual(2);
    expect(agitation?.missed).toBeLessThan(agitation?.calls ?? 0);
  });
  it('one that was said to be forgotten counts, and the picture’s causes know of it', () => {
    const day = new Sink().toDeveloper(41.1).pass(100).say('i forgot to agitate').pass(80).endDeveloper();
    expect(day.developer().agitation?.missed).toBe(1);
    expect(day.history().slips.map((s) => s.what)).toContain('an agitation was left out');
  });
});

describe('what a note says', () => {
  it.each([
    ['no leaks, turned at every call', false],
    ['did not forget any inversion', false],
    ['no problem, agitated as called', false],
    ['forgot one inversion', true],
    ['no agitation in the last minute', true],
  ])('of agitation: %s', (note, forgotten) => expect(agitationForgotten(note)).toBe(forgotten));
  it.each([
    ['in the fridge, not warm', false],
    ['never in a hot car', false],
    ['a week in a hot car', true],
  ])('of how film was kept: %s', (note, warm) => expect(keptWarmNoted(note)).toBe(warm));
  it.each([
    ['no 85 filter', false],
    ['shot without the orange filter', false],
    ['85 filter, overcast', true],
  ])('of a filter: %s', (note, filter) => expect(filterNoted(note)).toBe(filter));
});

describe('what the record says of a step that the film goes without', () => {
  const rolesOf = (day: Sink) => day.history().steps.map((s) => s.role);

  it('is not told of before it is due, and is at once when water takes its place', () => {
    const day = new Sink().toDeveloper(41.1).pass(100);
    expect(rolesOf(day)).not.toContain('stop');
    day.say('water instead of the stop');
    expect(rolesOf(day)).toContain('stop');
    expect(rolesOf(day)).not.toContain('bleach');
  });
});

describe('time and temperature of the developer as one number', () => {
  it('is the time itself at the sheet’s temperature', () => {
    const step = new Sink().toDeveloper(41.1).pass(180).endDeveloper().developer();
    expect(effectiveS(step, rateLaws['ecn-2']) ?? 0).toBeCloseTo(180, -1);
  });
  it('follows readings in the tank: half of the time three degrees cold', () => {
    const day = new Sink().toDeveloper(41.1).pass(1).say('tank is 41.1').pass(88).say('tank is 41.1').pass(1);
    const step = day.say('tank is 38.1', 'confirm').pass(90).endDeveloper().developer();
    const law = rateLaws['ecn-2'];
    // by hand: 90 s at speed 1 and 90 s at q10^(-0.3)
    const wanted = 90 + 90 * law.q10 ** -0.3;
    expect(effectiveS(step, law) ?? 0).toBeCloseTo(wanted, -1);
    const said = deviationsOf(day.history(), law).map((d) => d.what);
    expect(said.some((s) => /did the work of 1[56]\d seconds at 41.1 degrees/.test(s))).toBe(true);
  });
});

/** A litre of home developer into bottle 2; `cd3`: how its last part is told of and weighed. */
const mixed = (...cd3: string[]): Sink => {
  const parts = ['2 grams', '1.39 grams', '25.6 grams', '2.7 grams'].flatMap((line) => [line, 'it is in']);
  return new Sink()
    .say('mix one litre of home developer', 'next', 'next', ...parts, ...cd3, 'it is in')
    .say('made up', '10.25', 'bottle 2');
};
const bathOf = (day: Sink) =>
  day
    .toDeveloper(41.1)
    .history()
    .baths.find((b) => b.role === 'developer');

describe('what the record says of how a bath was mixed', () => {
  it('too much of a part is known', () => {
    const [cd3, ...others] = bathOf(mixed('4.3 grams', 'it is in', 'cancel'))?.mixing ?? [];
    expect(cd3?.ratio).toBeCloseTo(1.075, 6);
    expect(others).toEqual([]);
  });
  it('of a jar that is not pure so much more was right', () => {
    const bath = bathOf(mixed('the cd3 is 80 percent pure', '5 grams'));
    expect(bath?.mixing).toEqual([]);
    expect(bath?.strength).toBeCloseTo(1, 6);
  });
  it('a bottle that was taken back and told again holds what was weighed once', () => {
    const bath = bathOf(mixed('4 grams').say('undo that', 'bottle 2'));
    expect(bath?.mixing).toEqual([]);
    expect(bath?.strength).toBeCloseTo(1, 6);
  });
});

describe('asked in conversation', () => {
  it('answers in two sentences with the report’s path, and the report is written by the real command', {
    timeout: 60_000,
  }, async () => {
    const day = new Sink().toDeveloper(37.9).pass(180).endDeveloper().say('why is it so green');
    const { report } = whyFiles(day.folder, day.history().runId);
    expect(day.last()).toMatch(/too cold/);
    expect(day.last().endsWith(`the report is in ${report}.`)).toBe(true);
    expect(
      day
        .last()
        .replace(report, '')
        .split(/[.?!](?:\s|$)/)
        .filter(Boolean),
    ).toHaveLength(2);
    await expect.poll(() => readIf(report), { timeout: 30_000 }).toContain('The developer was too cold');
    expect(day.asides).toEqual([]);
  });
  it('knows what a scan of that film has shown since', () => {
    const day = new Sink().toDeveloper(41.1).pass(180).endDeveloper();
    day.say('why is it so blue');
    expect(day.last()).toMatch(/nothing out of the ordinary|eye|you see/i);
    const { scan } = whyFiles(day.folder, day.history().runId);
    const seen = [
      observed('mask-missing', 1, 'all'),
      observed('levels-stretched', 1, 'all'),
      observed('clipped', 0.02, '2 percent'),
    ];
    execFileSync('mkdir', ['-p', join(day.folder, 'reports')]);
    keepScanEvidence(scan, new Map(seen.map((e) => [e.id, e])));
    expect(keptScanEvidence(scan)?.size).toBe(3);
    day.say('what went wrong');
    expect(day.last()).toContain('automatic levels');
  });
  it('a kept scan that is no such file is passed over', () => {
    expect(keptScanEvidence(main)).toBeNull();
  });
});

function readIf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
