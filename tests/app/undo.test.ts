import { describe, expect, it } from 'vitest';
import type { AssistantState, Reply } from '../../src/app/assistant.js';
import { type Bench, createBench } from '../../src/app/bench.js';
import type { DeskEvent } from '../../src/process/desk.js';
import type { Intent } from '../../src/process/intent.js';
import type { Fact } from '../../src/world/fact.js';
import { talk, upToDeveloper } from './dialogues/talk.js';

const bottle = (number: number) => ({ kind: 'bottle', number }) as const;
let pure: Bench | null = null;

/** Somebody at the sink with the whole assistant, in intents. */
class User {
  readonly assistant;
  state: AssistantState;
  atMs = 0;
  readonly facts: Fact[] = [];

  constructor() {
    pure ??= createBench({ sheet: 'ecn2-ferricyanide' });
    this.assistant = pure.assistant;
    this.state = this.assistant.initial;
  }
  private give(event: DeskEvent): Reply[] {
    const { state, replies, facts } = this.assistant.apply(this.state, event);
    this.state = state;
    this.facts.push(...facts);
    return replies;
  }
  private get moment() {
    return { atMs: this.atMs, wallMs: Date.UTC(2030, 0, 5, 9) + this.atMs };
  }
  say(intent: Intent): Reply[] {
    const heard = { by: 'typed' as const, words: '', confidence: 1, close: [] };
    return this.give({ type: 'intent', intent, ...this.moment, heard });
  }
  wait(seconds: number): Reply[] {
    const endMs = this.atMs + seconds * 1000;
    const said: Reply[] = [];
    for (;;) {
      const wakeMs = this.assistant.nextWakeMs(this.state);
      if (wakeMs === null || wakeMs > endMs) break;
      this.atMs = Math.max(this.atMs, wakeMs);
      said.push(...this.give({ type: 'time', ...this.moment }));
    }
    this.atMs = endMs;
    return said;
  }
  ready(): this {
    for (const type of ['begin-run', 'next-step', 'next-step', 'film-loaded'] as const) this.say({ type });
    return this;
  }
  inDeveloper(): this {
    this.ready();
    this.say({ type: 'bath-in', liquid: 'prebath' });
    this.wait(10);
    this.say({ type: 'tank-empty' });
    this.say({ type: 'bath-in', liquid: 'water' });
    this.wait(40);
    this.say({ type: 'tank-empty' });
    this.say({ type: 'pour-in', liquid: 'developer', from: bottle(2) });
    this.say({ type: 'bath-in', liquid: 'developer' });
    return this;
  }
  /** Everything that deeds change, as plain data. */
  get standing(): unknown {
    const { world, desks } = this.state;
    return JSON.parse(JSON.stringify({ world, desks }));
  }
}

const calls = (said: Reply[], fromMs: number) =>
  said.filter((r) => r.kind === 'call').map((r) => (r.atMs - fromMs) / 1000);

describe('undo', () => {
  it('brings back exactly the state before, deed by deed, and names the facts it takes back', () => {
    const user = new User().ready();
    const deeds: Intent[] = [
      { type: 'pour-in', liquid: 'prebath', from: bottle(1) },
      { type: 'bath-in', liquid: 'prebath' },
      { type: 'pour-back', liquid: 'prebath', to: bottle(1) },
      { type: 'tank-empty' },
      { type: 'bottle-holds', bottle: 7, liquid: 'fixer' },
      { type: 'spill', liquid: 'stop', volumeMl: 20 },
      { type: 'note', text: 'tape on the reel' },
      { type: 'tank-takes', volumeMl: 400 },
    ];
    const trail: unknown[] = [user.standing];
    for (const deed of deeds) {
      user.say(deed);
      if (deed.type === 'bath-in') user.wait(10);
      expect(user.standing, deed.type).not.toEqual(trail.at(-1));
      trail.push(user.standing);
    }
    for (const before of trail.slice(0, -1).reverse()) {
      if (user.say({ type: 'undo' })[0]?.kind === 'question') user.say({ type: 'confirm' });
      const { world } = user.standing as AssistantState;
      expect(world).toEqual((before as AssistantState).world);
    }
    const undone = user.facts.flatMap((f) => (f.type === 'undone' ? f.facts.map((g) => g.type) : []));
    expect(undone).toEqual(
      expect.arrayContaining([
        'poured',
        'step-started',
        'step-ended',
        'spilled',
        'note',
        'bottle-set',
        'tank-told',
      ]),
    );
    expect(undone).not.toContain('undone');
  });

  it('with no time between, every desk stands as it stood', () => {
    const user = new User().ready();
    const before = user.standing;
    const deeds: Intent[] = [
      { type: 'note', text: 'tape on the reel' },
      { type: 'pour-in', liquid: 'prebath', from: bottle(1) },
      { type: 'bottle-holds', bottle: 7, liquid: 'fixer' },
      { type: 'shelf-add', substance: 'potassium-bromide', massG: 100 },
      { type: 'temperature', of: 'developer', tempC: 30 },
    ];
    for (const deed of deeds) user.say(deed);
    for (const _ of deeds) user.say({ type: 'undo' });
    expect(user.standing).toEqual(before);
  });

  it('a drain said too early is taken back and the clock has lost nothing', () => {
    const user = new User().inDeveloper();
    const t0 = user.atMs;
    user.wait(100);
    user.say({ type: 'drain-now' });
    user.say({ type: 'confirm' });
    user.wait(5);
    expect(user.say({ type: 'undo' })[0]?.text).toMatch(/^Undone/);
    const due = calls(user.wait(70), t0);
    expect(due.slice(0, 2)).toEqual([120, 135]);
    expect(due).toContain(165);
  });

  it('and no question of before it waits for a stray yes', () => {
    const user = new User().inDeveloper();
    user.wait(100);
    user.say({ type: 'drain-now' });
    user.say({ type: 'confirm' });
    user.say({ type: 'undo' });
    expect(user.assistant.situations(user.state)).not.toContain('challenged');
    user.say({ type: 'confirm' });
    expect(user.assistant.situations(user.state)).toContain('immersed');
  });

  it('a film thought lost through a misheard bath is safe again', () => {
    const user = new User().ready();
    user.say({ type: 'bath-in', liquid: 'bleach' });
    user.wait(10);
    user.say({ type: 'tank-empty' });
    expect(user.state.world.film.image).toBe('lost');
    for (const _ of ['tank empty', 'bleach in'])
      if (user.say({ type: 'undo' })[0]?.kind === 'question') user.say({ type: 'confirm' });
    expect(user.state.world.film.image).toBe('latent');
    expect(user.state.world.bottles[4]?.contents.volumeMl).toBe(600);
  });

  it('an undo that would stop a running clock is asked, and cancel leaves the clock as it was', () => {
    const user = new User().inDeveloper();
    const t0 = user.atMs;
    user.wait(60);
    expect(user.say({ type: 'undo' })).toMatchObject([
      { kind: 'question', text: expect.stringMatching(/its clock, 1 minute so far/) },
    ]);
    expect(user.say({ type: 'cancel' })[0]?.text).toBe('Left as it was.');
    expect(user.state.world.tank.bath).toMatchObject({ liquid: 'developer', sinceMs: t0 });
    expect(calls(user.wait(110), t0)).toContain(165);
  });

  it('leaves alone what another desk was told between', () => {
    const user = new User().ready();
    const mixed: Fact = {
      type: 'mixed',
      batch: 'a1',
      recipe: 'ecn2-developer',
      liquid: 'developer',
      volumeMl: 900,
      bottle: 9,
    };
    user.say({ type: 'pour-in', liquid: 'prebath', from: bottle(1) });
    const { state } = user.assistant.apply(user.state, { type: 'fact', fact: mixed, atMs: 0, wallMs: 0 });
    user.state = state;
    user.say({ type: 'undo' });
    expect(user.state.world.bottles[9]).toMatchObject({ liquid: 'developer', contents: { volumeMl: 900 } });
  });

  it('takes one deed at the mixing bench back', () => {
    const user = new User();
    user.say({ type: 'mix-start', recipe: 'ecn2-bleach', volumeMl: 500 });
    user.say({ type: 'mix-next' });
    user.say({ type: 'mix-next' });
    const before = user.standing;
    user.say({ type: 'reading', value: 20 });
    user.say({ type: 'dissolved' });
    expect(user.standing).not.toEqual(before);
    user.say({ type: 'undo' });
    user.say({ type: 'undo' });
    expect(user.standing).toEqual(before);
  });

  it('a reading that is taken back leaves no trace in the warming', () => {
    const user = new User();
    user.say({ type: 'temperature', of: { kind: 'tub' }, tempC: 41 });
    user.say({ type: 'temperature', of: 'fixer', tempC: 25 });
    const before = user.standing;
    user.say({ type: 'temperature', of: 'fixer', tempC: 25.4 });
    expect(user.state.world.readings['liquid:fixer']?.tempC).toBe(25.4);
    user.say({ type: 'undo' });
    expect(user.standing).toEqual(before);
  });
});

describe('redo', () => {
  it('does again what was taken back, at the moment it was done', () => {
    const user = new User().inDeveloper();
    const t0 = user.atMs;
    user.wait(30);
    user.say({ type: 'undo' });
    user.say({ type: 'confirm' });
    expect(user.state.world.tank.bath).toBeNull();
    user.wait(5);
    expect(user.say({ type: 'redo' })[0]?.text).toMatch(/^Done again/);
    expect(user.state.world.tank.bath).toMatchObject({ liquid: 'developer', sinceMs: t0 });
  });
  it('is gone once something else was done', () => {
    const user = new User().ready();
    user.say({ type: 'note', text: 'one' });
    user.say({ type: 'undo' });
    user.say({ type: 'note', text: 'two' });
    expect(user.say({ type: 'redo' })[0]?.text).toBe('There is nothing to do again.');
  });
});

describe('putting right what was said last', () => {
  it('the bath that was meant counts from when it was said', () => {
    const user = new User().ready();
    user.say({ type: 'bath-in', liquid: 'bleach' });
    const saidMs = user.atMs;
    user.wait(4);
    const said = user.say({ type: 'correct', liquid: 'prebath' });
    expect(said[0]?.text).toMatch(/^Put right/);
    expect(user.state.world.tank.bath).toMatchObject({ liquid: 'prebath', sinceMs: saidMs });
    expect(user.state.world.film.image).toBe('latent');
    expect(user.state.world.bottles[4]?.contents.volumeMl).toBe(600);
  });
  it('what has no such part is asked for again', () => {
    const user = new User().ready();
    expect(user.say({ type: 'correct', seconds: 5 })[0]).toMatchObject({ kind: 'question' });
  });
});

describe('typed', () => {
  it('undo says what it took back and where that leaves the user', async () => {
    const d = await talk(`${upToDeveloper}note tape on the reel\nundo\n`);
    expect(d.text('undo')).toMatch(/^Undone: .*\..*[Dd]eveloper/);
  });
  it('with nothing done there is nothing to undo', async () => {
    const d = await talk('undo\nredo\n');
    expect(d.text('undo')).toBe('There is nothing to undo.');
    expect(d.text('redo')).toBe('There is nothing to do again.');
  });
  it('a scale that stood at ounces makes ounces of what was read', async () => {
    const d = await talk(
      'mix a litre of developer\nnext\nnext\n2.0 millilitres\ndissolved\n2.00\nthe scale was in ounces\n',
    );
    expect(d.text('2.00')).toContain('is right');
    // 2.00 avoirdupois ounces of 28.35 g, 2.00 g wanted
    expect(d.text('the scale was in ounces')).toMatch(/2 ounces.*56\.70 grams.*54\.70 grams too much/);
  });
  it('a number that no water reaches is the amount that went in, and what is short is said', async () => {
    const d = await talk(
      `${upToDeveloper}pouring the developer from bottle 2\nit's in\nthat was only 250 though\n+5s\nit is in\n`,
    );
    expect(d.text('that was only 250 though')).toMatch(
      /250 millilitres are in the tank.*250 millilitres short/s,
    );
    expect(d.text('it is in')).not.toContain('short');
  });
  it('counts how long ago it went in from when that is said, not from when it was first told', async () => {
    const told = `${upToDeveloper}pouring the developer from bottle 2\ndeveloper is in\n`;
    const later = await talk(`${told}+60s\nit went in thirty seconds ago\nhow long left\n`);
    expect(later.text('how long left')).toMatch(/2 minutes 30 seconds left/);
    const earlier = await talk(`${told}+40s\nit went in a minute ago\nhow long left\n`);
    expect(earlier.text('how long left')).toMatch(/2 minutes left/);
  });
  it('never takes a bath that is not in, or a question, for a bath that is in', async () => {
    const d = await talk(
      `${upToDeveloper}the developer is not in yet\nis the developer in\nthe tank is not empty\n`,
    );
    expect(d.to('the developer is not in yet').intent).toBe('ask-where');
    expect(d.to('is the developer in').intent).toBe('ask-where');
    expect(d.to('the tank is not empty').intent).toBe('ask-where');
  });
});

describe('a jar while mixing', () => {
  it('takes the strength of a solution for another solution, never for the purity of this one', async () => {
    const d = await talk(
      'mix 500 ml of stop bath\ni only have 98 percent sulphuric acid\nnext\nnext\nmix 500 ml of fixer\n',
    );
    expect(d.text('i only have 98 percent sulphuric acid')).toContain('concentrated sulphuric acid');
    // 25 ml at 7 normal are 0.0875 mol; 98 percent at 1.84 g/ml are 18.4 mol per litre
    expect(d.text('next', 2)).toMatch(/Measure 4\.8 millilitres of concentrated sulphuric acid/);
    const other = await talk('mix 500 ml of fixer\nnext\nnext\ni have the liquid 60 percent\n');
    expect(other.text('i have the liquid 60 percent')).not.toMatch(/pure/);
  });
});
