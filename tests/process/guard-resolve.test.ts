import { describe, expect, it } from 'vitest';
import { judge, type Move, type PourRequest } from '../../src/process/guard.js';
import { type AskId, type Resolved, resolve } from '../../src/process/guard-resolve.js';
import type { World } from '../../src/world/records.js';
import { bottle, holds, inTank, jug, sinkhole, sinkOf, tank, tap, viewOf, withJugs } from './sink.js';

const asks = (
  ask: AskId,
  params: Extract<Resolved, { open: true }>['params'] = {},
  proposal: PourRequest | null = null,
  would?: Move,
): Resolved => ({ open: true, ask, params, proposal, ...(would && { would }) });
const goes = (move: Move): Resolved => ({ open: false, move });
const into = (liquid: string, from: Move['from'], volumeMl = 500): Move => ({
  liquid,
  from,
  to: tank,
  volumeMl,
});
const back = (liquid: string, to: Move['to'], volumeMl: number | null = 480, from = tank): Move => ({
  liquid,
  from,
  to,
  volumeMl,
});
const away = (liquid: string, from: Move['from'], volumeMl: number | null): Move => ({
  liquid,
  from,
  to: sinkhole,
  volumeMl,
});

const usual = sinkOf();
const twoDevelopers = sinkOf(holds(8, 'developer', 300));
const noDeveloper = sinkOf(holds(2, 'developer', 0));
const oneLeft = sinkOf(holds(8, 'developer', 0));
const unlabelled: World = {
  ...usual,
  bottles: { ...usual.bottles, 9: { ...usual.bottles[1]!, number: 9, liquid: null } },
};
const developing = inTank(usual, 'developer');
const dev = { liquid: 'developer' };

type Row = readonly [what: string, request: PourRequest, world: World, wanted: Resolved, vouched?: AskId[]];
const check = ([_what, request, world, wanted, vouched = []]: Row) =>
  expect(resolve(request, viewOf(world), vouched)).toEqual(wanted);

const rows = (all: readonly Row[]) => {
  for (const row of all) it(row[0], () => check(row));
};

describe('whatever was said', () => {
  rows([
    [
      'a bath that is not on the sheet',
      { kind: 'in', liquid: 'toner' },
      usual,
      asks('no-such-liquid', { liquid: 'toner' }),
    ],
    ['no volume', { kind: 'in', ...dev, from: bottle(2), volumeMl: 0 }, usual, asks('bad-volume')],
    ['less than nothing', { kind: 'back', volumeMl: -1 }, developing, asks('bad-volume')],
    ['no number', { kind: 'away', volumeMl: Number.NaN }, developing, asks('bad-volume')],
    [
      'more than 20 litres',
      { kind: 'in', ...dev, from: bottle(2), volumeMl: 20_001 },
      usual,
      asks('bad-volume'),
    ],
    [
      '20 litres',
      { kind: 'in', ...dev, from: bottle(2), volumeMl: 20_000 },
      usual,
      goes(into('developer', bottle(2), 20_000)),
    ],
    [
      'a drop',
      { kind: 'in', ...dev, from: bottle(2), volumeMl: 0.05 },
      usual,
      goes(into('developer', bottle(2), 0.05)),
    ],
  ]);
});

describe('into the tank', () => {
  rows([
    ['nothing said', { kind: 'in' }, usual, asks('missing-liquid')],
    ['water, from the tap', { kind: 'in', liquid: 'water' }, usual, goes(into('water', tap))],
    [
      'one bottle has it',
      { kind: 'in', ...dev },
      usual,
      asks('propose', { ...dev, bottle: 2 }, { kind: 'in', ...dev, from: bottle(2) }),
    ],
    [
      'two have it',
      { kind: 'in', ...dev },
      twoDevelopers,
      asks('missing-bottle', { ...dev, candidates: [2, 8] }),
    ],
    ['none has it any more', { kind: 'in', ...dev }, noDeveloper, asks('missing-bottle', dev)],
    [
      'of two one is empty',
      { kind: 'in', ...dev },
      oneLeft,
      asks('propose', { ...dev, bottle: 2 }, { kind: 'in', ...dev, from: bottle(2) }),
    ],
    ['from the tank', { kind: 'in', ...dev, from: tank }, usual, asks('no-such-vessel', dev)],
    ['from the sink', { kind: 'in', from: sinkhole }, usual, asks('no-such-vessel')],
    [
      'from a bottle',
      { kind: 'in', from: bottle(4) },
      usual,
      asks('propose', { liquid: 'bleach', bottle: 4 }, { kind: 'in', liquid: 'bleach', from: bottle(4) }),
    ],
    [
      'from a bottle nobody spoke of',
      { kind: 'in', from: bottle(9) },
      usual,
      asks('missing-liquid', { bottle: 9 }),
    ],
    [
      'from a bottle without a label',
      { kind: 'in', from: bottle(9) },
      unlabelled,
      asks('missing-liquid', { bottle: 9 }),
    ],
    [
      'from the jug',
      { kind: 'in', from: jug },
      withJugs(usual, 'stop'),
      asks('propose', { liquid: 'stop' }, { kind: 'in', liquid: 'stop', from: jug }),
    ],
    ['from a jug nobody filled', { kind: 'in', from: jug }, usual, asks('missing-liquid')],
    [
      'from the tap',
      { kind: 'in', from: tap },
      usual,
      asks('propose', { liquid: 'water' }, { kind: 'in', liquid: 'water', from: tap }),
    ],
    ['bath and bottle', { kind: 'in', ...dev, from: bottle(2) }, usual, goes(into('developer', bottle(2)))],
    [
      'so much of it',
      { kind: 'in', ...dev, from: bottle(2), volumeMl: 250 },
      usual,
      goes(into('developer', bottle(2), 250)),
    ],
    [
      'a bottle that holds another',
      { kind: 'in', ...dev, from: bottle(4) },
      usual,
      asks('mismatch', { ...dev, bottle: 4, holds: 'bleach' }, null, into('bleach', bottle(4))),
    ],
    [
      'a bottle nobody spoke of',
      { kind: 'in', ...dev, from: bottle(9) },
      usual,
      asks('bottle-unknown', { ...dev, bottle: 9 }),
    ],
    [
      'a bottle without a label',
      { kind: 'in', ...dev, from: bottle(9) },
      unlabelled,
      asks('bottle-unknown', { ...dev, bottle: 9 }),
    ],
    [
      'an empty bottle',
      { kind: 'in', ...dev, from: bottle(2) },
      noDeveloper,
      asks('bottle-empty', { ...dev, bottle: 2 }),
    ],
    [
      'a jug of it',
      { kind: 'in', ...dev, from: jug },
      withJugs(usual, 'stop', 'developer'),
      goes(into('developer', jug)),
    ],
    [
      'a jug that nobody filled',
      { kind: 'in', ...dev, from: jug },
      usual,
      asks('jug-unknown', dev, { kind: 'in', ...dev, from: jug }, into('developer', jug)),
    ],
    [
      'a jug of another bath',
      { kind: 'in', ...dev, from: jug },
      withJugs(usual, 'bleach'),
      asks(
        'jug-unknown',
        { ...dev, holds: 'bleach' },
        { kind: 'in', ...dev, from: jug },
        into('bleach', jug),
      ),
    ],
    [
      'a jug that was vouched for',
      { kind: 'in', ...dev, from: jug },
      withJugs(usual, 'bleach'),
      goes(into('developer', jug)),
      ['jug-unknown'],
    ],
    [
      'on top of another bath',
      { kind: 'in', liquid: 'stop', from: bottle(3) },
      developing,
      asks(
        'tank-not-empty',
        { liquid: 'stop', holds: 'developer' },
        { kind: 'in', liquid: 'stop', from: bottle(3) },
        into('stop', bottle(3)),
      ),
    ],
    [
      'on top of another bath, vouched for',
      { kind: 'in', liquid: 'stop', from: bottle(3) },
      developing,
      goes(into('stop', bottle(3))),
      ['tank-not-empty'],
    ],
    [
      'on top of the same',
      { kind: 'in', ...dev, from: bottle(2) },
      developing,
      goes(into('developer', bottle(2))),
    ],
    [
      'said as a move between vessels',
      { kind: 'between', ...dev, from: bottle(2), to: tank },
      usual,
      goes(into('developer', bottle(2))),
    ],
  ]);

  it('with no word of film, all but water is asked about', () => {
    const view = viewOf(usual, { filmKnown: false });
    const request: PourRequest = { kind: 'in', ...dev, from: bottle(2) };
    expect(resolve(request, view, [])).toEqual(asks('film-unknown', { ...dev, bottle: 2 }));
    expect(resolve(request, view, ['film-unknown'])).toEqual(goes(into('developer', bottle(2))));
    expect(resolve({ kind: 'in', liquid: 'water', from: tap }, view, [])).toEqual(goes(into('water', tap)));
  });
});

describe('back to where it came from', () => {
  const said = (more: Partial<PourRequest> = {}): PourRequest => ({ kind: 'back', ...more });
  const jugs = withJugs(usual, 'developer', 'stop');
  rows([
    ['nothing there', said(), usual, asks('nothing-to-pour')],
    ['nothing there, and named', said(dev), usual, asks('nothing-to-pour')],
    [
      'nothing said',
      said(),
      developing,
      asks('propose', { ...dev, bottle: 2 }, said({ ...dev, to: bottle(2), from: tank })),
    ],
    [
      'named',
      said(dev),
      developing,
      asks('propose', { ...dev, bottle: 2 }, said({ ...dev, to: bottle(2), from: tank })),
    ],
    ['into its bottle', said({ to: bottle(2) }), developing, goes(back('developer', bottle(2)))],
    [
      'into another bottle, not named',
      said({ to: bottle(4) }),
      developing,
      asks('propose', { ...dev, bottle: 4 }, said({ ...dev, to: bottle(4), from: tank })),
    ],
    [
      'into another bottle, named',
      said({ ...dev, to: bottle(4) }),
      developing,
      goes(back('developer', bottle(4))),
    ],
    [
      'so much of it',
      said({ ...dev, to: bottle(2), volumeMl: 300 }),
      developing,
      goes(back('developer', bottle(2), 300)),
    ],
    ['two bottles of it', said(), inTank(twoDevelopers, 'developer'), asks('missing-bottle', dev)],
    [
      'no bottle of it',
      said({ liquid: 'water' }),
      inTank(usual, 'water'),
      asks('missing-bottle', { liquid: 'water' }),
    ],
    [
      'another bath than what is in',
      said({ liquid: 'fixer', to: bottle(5) }),
      developing,
      asks('tank-mismatch', { liquid: 'fixer', holds: 'developer' }),
    ],
    [
      'a bath that is in no jug',
      said({ liquid: 'fixer', to: bottle(5) }),
      jugs,
      asks('tank-mismatch', { liquid: 'fixer' }),
    ],
    [
      'one jug',
      said(),
      withJugs(usual, 'stop'),
      asks('propose', { liquid: 'stop', bottle: 3 }, said({ liquid: 'stop', to: bottle(3), from: jug })),
    ],
    ['two jugs', said(), jugs, asks('missing-liquid')],
    [
      'one of two jugs',
      said({ liquid: 'stop', to: bottle(3) }),
      jugs,
      goes(back('stop', bottle(3), 450, jug)),
    ],
    [
      'in the tank and in a jug',
      said({ ...dev, to: bottle(2) }),
      withJugs(developing, 'developer'),
      goes(back('developer', bottle(2))),
    ],
    [
      'in both, and the jug is named',
      said({ ...dev, from: jug, to: bottle(2) }),
      withJugs(developing, 'developer'),
      goes(back('developer', bottle(2), 450, jug)),
    ],
    [
      'from a jug that has it not',
      said({ ...dev, from: jug, to: bottle(2) }),
      developing,
      asks('tank-mismatch', { ...dev, holds: 'developer' }),
    ],
    [
      'into a bottle nobody spoke of',
      said({ ...dev, to: bottle(9) }),
      developing,
      asks('bottle-unknown', { ...dev, bottle: 9 }),
    ],
    [
      'into an empty bottle',
      said({ ...dev, to: bottle(2) }),
      inTank(noDeveloper, 'developer'),
      goes(back('developer', bottle(2))),
    ],
    ['into a jug', said({ ...dev, to: jug }), developing, asks('no-such-vessel', dev)],
    ['to the sink', said({ to: sinkhole }), developing, goes(away('developer', tank, 480))],
    [
      'said as a move between vessels',
      { kind: 'between', ...dev, from: tank, to: bottle(2) },
      developing,
      goes(back('developer', bottle(2))),
    ],
  ]);
});

describe('between vessels', () => {
  const said = (more: Partial<PourRequest> = {}): PourRequest => ({ kind: 'between', ...more });
  rows([
    ['nowhere', said({ from: bottle(2) }), usual, asks('missing-bottle')],
    ['a bath to nowhere', said({ ...dev, from: bottle(2) }), usual, asks('missing-bottle', dev)],
    ['from nowhere', said({ to: bottle(8) }), twoDevelopers, asks('missing-liquid', { bottle: 8 })],
    [
      'a bath from nowhere',
      said({ ...dev, to: bottle(8) }),
      twoDevelopers,
      asks('propose', { ...dev, bottle: 8 }, said({ ...dev, from: jug, to: bottle(8) })),
    ],
    [
      'one bottle into another',
      said({ from: bottle(2), to: bottle(8) }),
      twoDevelopers,
      asks('propose', { ...dev, bottle: 8 }, said({ ...dev, from: bottle(2), to: bottle(8) })),
    ],
    [
      'an unknown bottle into another',
      said({ from: bottle(9), to: bottle(8) }),
      twoDevelopers,
      asks('missing-liquid', { bottle: 9 }),
    ],
    [
      'a bath from one bottle into another',
      said({ ...dev, from: bottle(2), to: bottle(8) }),
      twoDevelopers,
      goes(back('developer', bottle(8), 500, bottle(2))),
    ],
    [
      'so much of it',
      said({ ...dev, from: bottle(2), to: bottle(8), volumeMl: 40 }),
      twoDevelopers,
      goes(back('developer', bottle(8), 40, bottle(2))),
    ],
    [
      'out of the jug',
      said({ ...dev, from: jug, to: bottle(2) }),
      withJugs(usual, 'developer'),
      goes(back('developer', bottle(2), 450, jug)),
    ],
    [
      'out of a jug nobody filled',
      said({ ...dev, from: jug, to: bottle(2) }),
      usual,
      asks(
        'jug-unknown',
        dev,
        said({ ...dev, from: jug, to: bottle(2) }),
        back('developer', bottle(2), null, jug),
      ),
    ],
    [
      'out of such a jug, vouched for',
      said({ ...dev, from: jug, to: bottle(2) }),
      usual,
      goes(back('developer', bottle(2), null, jug)),
      ['jug-unknown'],
    ],
    [
      'another bath than its label says',
      said({ ...dev, from: bottle(4), to: bottle(2) }),
      usual,
      asks(
        'mismatch',
        { ...dev, bottle: 4, holds: 'bleach' },
        null,
        back('bleach', bottle(2), 500, bottle(4)),
      ),
    ],
    [
      'into a bottle nobody spoke of',
      said({ ...dev, from: bottle(2), to: bottle(9) }),
      usual,
      asks('bottle-unknown', { ...dev, bottle: 9 }),
    ],
  ]);
});

describe('away', () => {
  const said = (more: Partial<PourRequest> = {}): PourRequest => ({ kind: 'away', ...more });
  rows([
    ['what is in the tank', said(), developing, goes(away('developer', tank, 480))],
    ['so much of it', said({ volumeMl: 100 }), developing, goes(away('developer', tank, 100))],
    ['an empty tank', said(), usual, asks('nothing-to-pour')],
    [
      'another bath than what is in',
      said({ liquid: 'fixer' }),
      developing,
      asks('tank-mismatch', { liquid: 'fixer', holds: 'developer' }),
    ],
    ['a bottle', said({ from: bottle(4) }), usual, goes(away('bleach', bottle(4), 500))],
    ['an empty bottle', said({ from: bottle(2) }), noDeveloper, asks('nothing-to-pour', { bottle: 2 })],
    ['a bottle nobody spoke of', said({ from: bottle(9) }), usual, asks('bottle-unknown', { bottle: 9 })],
    [
      'another bath than the label says',
      said({ ...dev, from: bottle(4) }),
      usual,
      asks('mismatch', { ...dev, bottle: 4, holds: 'bleach' }),
    ],
    ['a jug', said({ from: jug }), withJugs(usual, 'stop'), goes(away('stop', jug, 450))],
    [
      'the jug of two that was named',
      said({ liquid: 'stop', from: jug }),
      withJugs(usual, 'developer', 'stop'),
      goes(away('stop', jug, 450)),
    ],
    ['a jug nobody filled', said({ from: jug }), usual, asks('bottle-unknown')],
  ]);
});

describe('the verdict on what is not complete', () => {
  it('in and back: what the records leave is judged as if it had been said', () => {
    expect(judge({ kind: 'in', ...dev }, viewOf(usual))).toMatchObject({
      verdict: 'clear',
      move: into('developer', bottle(2)),
    });
    expect(judge({ kind: 'in', liquid: 'fixer' }, viewOf(usual))).toMatchObject({
      verdict: 'ruinous',
      reason: 'fixer-kills-latent',
    });
    expect(judge({ kind: 'back' }, viewOf(developing))).toMatchObject({ move: back('developer', bottle(2)) });
  });
  it('between vessels it is asked, unless it would do harm', () => {
    expect(judge({ kind: 'between', from: bottle(2), to: bottle(8) }, viewOf(twoDevelopers))).toEqual({
      verdict: 'ask',
      reason: 'propose',
      params: { ...dev, bottle: 8 },
      proposal: { kind: 'between', ...dev, from: bottle(2), to: bottle(8) },
      stake: null,
    });
    expect(judge({ kind: 'between', from: bottle(4), to: bottle(3) }, viewOf(usual))).toMatchObject({
      verdict: 'ruinous',
      reason: 'acid-ferricyanide-bottle',
    });
    const small = viewOf(sinkOf(holds(8, 'developer', 300, 400)));
    expect(judge({ kind: 'between', from: bottle(2), to: bottle(8) }, small)).toMatchObject({
      verdict: 'recoverable',
      reason: 'no-headroom',
    });
  });
  it('says what is at stake only where it cannot be put right', () => {
    expect(judge({ kind: 'in', ...dev, from: bottle(4) }, viewOf(usual))).toEqual({
      verdict: 'ask',
      reason: 'mismatch',
      params: { ...dev, bottle: 4, holds: 'bleach' },
      proposal: null,
      stake: 'bleach-kills-latent',
    });
    expect(judge({ kind: 'in', ...dev, from: bottle(3) }, viewOf(usual))).toMatchObject({
      verdict: 'ask',
      stake: null,
    });
    expect(judge({ kind: 'in', ...dev, from: bottle(9) }, viewOf(usual))).toMatchObject({
      verdict: 'ask',
      stake: null,
    });
  });
  it('an answer that was vouched for is not asked again', () => {
    const request: PourRequest = { kind: 'in', liquid: 'stop', from: bottle(3) };
    expect(judge(request, viewOf(developing)).verdict).toBe('ask');
    expect(judge(request, viewOf(developing), ['tank-not-empty']).verdict).not.toBe('ask');
    expect(judge({ kind: 'in', liquid: 'stop' }, viewOf(developing), ['tank-not-empty']).verdict).not.toBe(
      'ask',
    );
  });
});
