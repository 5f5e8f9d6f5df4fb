import { describe, expect, it } from 'vitest';
import { defaultConfig, guardView, Sheets, startState } from '../../src/process/run-state.js';
import { runView } from '../../src/process/run-view.js';
import { c41 } from '../../src/process/sheets/c41.js';
import { ecn2Ferricyanide as ecn2 } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { sheets } from '../../src/process/sheets/index.js';
import { emptyWorld } from '../../src/world/reduce.js';
import {
  atDeveloper,
  atFixer,
  hanging,
  into,
  isIn,
  out,
  pourNow,
  toBottle,
  waitFor,
  withDeveloper,
} from './at-the-sink.js';
import { BenchUser } from './bench-user.js';

const look = (user: BenchUser) =>
  runView(user.state, user.world, sheets, { atMs: user.atMs, wallMs: user.wallMs + user.atMs });

describe('the run as it stands, to be looked at', () => {
  it('before it begins', () => {
    expect(look(new BenchUser())).toMatchObject({
      sheet: { id: ecn2.id },
      place: 'idle',
      clock: null,
      now: { do: 'begin' },
      tankMl: 500,
      calls: [],
    });
  });
  it('a bath that is due, in hand, in the tank, and running out', () => {
    const user = atDeveloper();
    const view = look(user);
    expect(view).toMatchObject({
      place: 'pouring',
      clock: null,
      due: { step: { id: 'developer' }, wash: null },
      now: pourNow('developer', 2, 41.1),
      next: { id: 'stop' },
      calls: [],
    });
    expect(view.outletOf('developer')).toEqual(toBottle(2, true));
    expect(view.outletOf('water')).toEqual({ to: 'sink' });
    expect(view.bottleFor('bleach')).toBe(4);
    expect(view.bottleFor('toner')).toBeNull();
    user.say(into('developer', 2));
    expect(look(user)).toMatchObject({
      context: { announced: { liquid: 'developer' } },
      calls: [{ call: 'in-asked' }, { call: 'in-asked' }],
    });
    user.say(isIn());
    user.wait(20);
    expect(look(user)).toMatchObject({
      place: 'immersed',
      clock: { aimS: 180 },
      now: waitFor('developer', 160),
      next: { id: 'stop' },
    });
    expect(look(user).calls[0]).toEqual({ call: 'agitate', dueMs: user.atMs + 10_000 });
    user.wait(150);
    expect(look(user)).toMatchObject({ place: 'draining', next: { id: 'stop' }, now: { do: 'drain' } });
  });
  it('what comes after a step out of turn is read from the step in the tank', () => {
    const user = atDeveloper();
    user.say(isIn('stop'));
    expect(look(user).next?.id).toBe('wash-after-stop');
    user.wait(30);
    user.say(out);
    expect(look(user)).toMatchObject({ due: { step: { id: 'developer' }, wash: 'acid-before-developer' } });
  });
  it('the end: nothing follows hanging, and nothing a lost film', () => {
    expect(look(hanging())).toMatchObject({ place: 'hanging', next: { id: 'hang' } });
    const rinse = atFixer().bath('fixer', 5, 120).water(120);
    rinse.say(isIn('final-rinse'));
    expect(look(rinse).next?.id).toBe('hang');
    const lost = atDeveloper();
    lost.say(isIn('bleach'));
    lost.wait(5);
    lost.say(out);
    expect(look(lost)).toMatchObject({ next: null, due: { step: null } });
    const loading = new BenchUser();
    loading.say({ type: 'begin-run' });
    expect(look(loading)).toMatchObject({ place: 'preparing', next: { id: expect.any(String) } });
  });
  it('a tank that was told, and what its size is until then', () => {
    const user = withDeveloper();
    user.say({ type: 'tank-takes', volumeMl: 800 });
    expect(look(user).tankMl).toBe(800);
    const view = (world = emptyWorld(), config = {}) =>
      guardView(
        startState(new Sheets(sheets)).position,
        world,
        ecn2,
        { ...defaultConfig, sheets, ...config },
        { atMs: 5, wallMs: 9 },
      );
    expect(view()).toMatchObject({
      tankMl: 500,
      funnelMl: 250,
      filmKnown: false,
      earlyS: null,
      atMs: 5,
      wallMs: 9,
    });
    expect(view({ ...emptyWorld(), tankMl: 700 })).toMatchObject({ tankMl: 700 });
    const started = withDeveloper();
    started.wait(100);
    const at = { atMs: started.atMs, wallMs: 0 };
    const config = { ...defaultConfig, sheets };
    expect(guardView(started.state.position, started.world, ecn2, config, at)).toMatchObject({
      earlyS: 60,
      film: { developedS: 100 },
    });
    started.say({ type: 'drain-now' });
    started.say({ type: 'confirm' });
    expect(guardView(started.state.position, started.world, ecn2, config, at).earlyS).toBeNull();
  });
});

describe('the sheets', () => {
  const all = new Sheets(sheets);
  it('are found by id, name or spoken name; the first when nothing was said', () => {
    expect(all.find(undefined)).toBe(sheets[0]);
    expect(all.find('C41')).toBe(c41);
    expect(all.find('c-41')).toBe(c41);
    expect(all.find('C forty one')).toBe(c41);
    expect(all.find('e6')).toBeUndefined();
    expect(all.get('c41')).toBe(c41);
    expect(all.get('e6')).toBe(sheets[0]);
    expect(() => new Sheets([])).toThrow('expected at least one process sheet');
  });
  it('a run goes on with the sheet it was begun with, as it was then', () => {
    const run = (sheet: Record<string, unknown> | null, sheetId = 'c41') => ({
      ...emptyWorld(),
      run: { runId: 'r', sheetId, sheet },
    });
    expect(all.of(emptyWorld(), 'c41')).toBe(c41);
    expect(all.of(run(null), ecn2.id)).toBe(c41);
    expect(all.of(run(c41 as never), ecn2.id)).toBe(c41);
    const kept = JSON.parse(JSON.stringify({ ...ecn2, name: 'as it was' }));
    const world = run(kept, 'mine');
    expect(all.of(world, 'c41')).toMatchObject({ id: ecn2.id, name: 'as it was' });
    expect(all.of(world, 'c41')).toBe(all.of(world, 'c41'));
    expect(all.of(run({ id: 'broken' }), 'c41')).toBe(c41);
  });
  it('have one machine each', () => {
    expect(all.machine(ecn2)).toBe(all.machine(ecn2));
    expect(all.machine(c41)).not.toBe(all.machine(ecn2));
  });
  it('start where nothing happened, with what a bench usually is', () => {
    expect(startState(all)).toEqual({
      position: expect.objectContaining({ value: { run: 'idle', pour: 'none', spill: 'none' } }),
      sheetId: ecn2.id,
      wakeMs: null,
    });
    expect(defaultConfig).toEqual({
      tankMl: 500,
      bottleVolumeMl: 600,
      bottleCapacityMl: 1000,
      funnelMl: 250,
      confidenceFloor: 0.65,
      films: [],
    });
  });
});
