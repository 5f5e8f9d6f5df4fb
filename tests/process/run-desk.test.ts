import { describe, expect, it } from 'vitest';
import { phraseRun } from '../../src/language/languages/english/phrases/run.js';
import { atDeveloper, fresh, having, withDeveloper } from './at-the-sink.js';
import { BenchUser, bottle, ids, type Said } from './bench-user.js';

const first = (said: Said[]) => said[0]?.message;
const pourIn = (liquid: string, number: number) =>
  ({ type: 'pour-in', liquid, from: bottle(number) }) as const;
const pourBack = (liquid: string, number: number) =>
  ({ type: 'pour-back', liquid, to: bottle(number) }) as const;

describe('a refused pour', () => {
  it('stays refused through confirm, and goes only with override, which is a fact', () => {
    const user = atDeveloper();
    expect(user.say(pourIn('bleach', 4))).toMatchObject([
      { kind: 'warning', message: { id: 'ruinous', reason: 'bleach-kills-latent' } },
    ]);
    expect(first(user.say({ type: 'confirm' }))).toMatchObject({ id: 'needs-override' });
    expect(user.context.announced).toBeNull();
    expect(first(user.say({ type: 'override' }))).toMatchObject({ id: 'overridden' });
    expect(user.facts('overridden')).toMatchObject([{ verdict: 'ruinous', why: 'bleach-kills-latent' }]);
    user.say({ type: 'bath-in', liquid: 'bleach' });
    expect(user.facts('poured').at(-1)).toMatchObject({ liquid: 'bleach', overridden: true });
  });
  it('an override of something else, later, lets nothing through', () => {
    const user = atDeveloper();
    user.say(pourIn('bleach', 4));
    user.say({ type: 'cancel' });
    expect(first(user.say({ type: 'override' }))).toMatchObject({ id: 'nothing-waiting' });
  });
  it('an override that was badly heard, or could have been cancel, is asked again', () => {
    const user = atDeveloper();
    user.say(pourIn('bleach', 4));
    const low = user.say({ type: 'override' }, { by: 'voice', confidence: 0.5 });
    const close = user.say(
      { type: 'override' },
      { by: 'voice', confidence: 0.9, close: [{ type: 'cancel' }] },
    );
    expect([...ids(low), ...ids(close)]).toEqual(['say-again-clearly', 'say-again-clearly']);
    expect(user.context.announced).toBeNull();
  });
});

describe('what is missing or doubtful is asked', () => {
  it.each([
    ['nothing', { type: 'pour-in' }, 'missing-liquid'],
    ['a bottle nobody named', pourIn('developer', 8), 'bottle-unknown'],
    ['another bath in that bottle', pourIn('developer', 4), 'mismatch'],
    ['a bath not on the sheet', pourIn('toner', 2), 'no-such-liquid'],
    ['a jug nobody filled', { type: 'pour-in', liquid: 'developer', from: { kind: 'jug' } }, 'jug-unknown'],
    ['nothing in the tank', pourBack('developer', 2), 'nothing-to-pour'],
  ] as const)('%s', (_, intent, why) => {
    const user = atDeveloper();
    for (const jug of Object.keys(user.world.jugs)) user.say(pourBack(jug, 1));
    expect(first(user.say(intent))).toMatchObject({ id: 'ask', ask: why });
    expect(user.context.announced).toBeNull();
    expect(first(user.say({ type: 'override' }))).toMatchObject({ id: 'needs-answer' });
  });
  it('one bottle holds the bath that was named, or the label names the bath: cleared, and both are said', () => {
    for (const said of [
      { type: 'pour-in', liquid: 'developer' },
      { type: 'pour-in', from: bottle(2) },
    ] as const) {
      expect(first(atDeveloper().say(said))).toMatchObject({
        id: 'clear',
        move: { bath: { id: 'developer' }, from: bottle(2) },
      });
    }
  });
  it('two bottles with that bath: asked which', () => {
    const user = atDeveloper();
    user.say({ type: 'bottle-holds', bottle: 7, liquid: 'developer', volumeMl: 600 });
    expect(first(user.say({ type: 'pour-in', liquid: 'developer' }))).toMatchObject({
      id: 'ask',
      ask: 'missing-bottle',
    });
  });
  it('what would ruin the film is refused at once, though a part was not said', () => {
    for (const said of [
      { type: 'pour-in', liquid: 'bleach' },
      { type: 'pour-in', from: bottle(4) },
    ] as const) {
      const user = atDeveloper();
      expect(first(user.say(said))).toMatchObject({ id: 'ruinous', reason: 'bleach-kills-latent' });
      user.say({ type: 'confirm' });
      expect(user.context.announced).toBeNull();
    }
  });
  it('the missing part alone answers the question', () => {
    const user = atDeveloper();
    user.say({ type: 'pour-in' });
    expect(first(user.say({ type: 'pour-in', from: bottle(2) }))).toMatchObject({ id: 'clear' });
  });
  it('a bottle named anew against the record is asked about, then believed, and the pour judged again', () => {
    const user = atDeveloper();
    user.say(pourIn('developer', 4));
    expect(ids(user.say({ type: 'bottle-holds', bottle: 4, liquid: 'developer' }))).toEqual(['bottle-doubt']);
    expect(ids(user.say({ type: 'confirm' }))).toEqual(['bottle-noted', 'clear']);
  });
  it('a cleared pour is taken back when its bottle turns out to hold something else', () => {
    const user = atDeveloper();
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({ id: 'clear' });
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'bleach' });
    expect(ids(user.say({ type: 'confirm' }))).toEqual(['bottle-noted', 'ask']);
    expect(user.context.announced).toBeNull();
  });
  it('a pour cleared without film is judged again when film comes', () => {
    const user = new BenchUser();
    for (const type of ['begin-run', 'next-step', 'next-step'] as const) user.say({ type });
    user.say(pourIn('bleach', 4));
    expect(first(user.say({ type: 'no-film' }))).toMatchObject({ id: 'clear', harmless: true });
    expect(ids(user.say({ type: 'film-loaded' }))).toEqual(['film-loaded', 'ruinous']);
    expect(user.context.announced).toBeNull();
  });
  it('a bath or a bottle by itself answers what was asked, and is judged', () => {
    const user = atDeveloper();
    user.say(pourIn('developer', 4));
    expect(first(user.say({ type: 'part', liquid: 'bleach' }))).toMatchObject({ id: 'ruinous' });
    expect(first(user.say({ type: 'part', vessel: bottle(2) }))).toMatchObject({
      id: 'ask',
      ask: 'mismatch',
    });
    expect(first(user.say({ type: 'part', liquid: 'developer' }))).toMatchObject({ id: 'clear' });
    // with a pour in hand it says that one otherwise: judged afresh, and the clearance is gone
    expect(first(user.say({ type: 'part', liquid: 'bleach' }))).toMatchObject({ id: 'ask', ask: 'mismatch' });
    expect(user.context.announced).toBeNull();
    user.say({ type: 'cancel' });
    expect(first(user.say({ type: 'part', liquid: 'bleach' }))).toMatchObject({ id: 'part-alone' });
  });
  it('a jug known to hold another bath is named, with what that would do', () => {
    const user = atDeveloper();
    user.fact({
      type: 'poured',
      from: bottle(4),
      to: { kind: 'jug' },
      liquid: 'bleach',
      volumeMl: 600,
      overridden: false,
    });
    const said = user.say({ type: 'pour-in', liquid: 'developer', from: { kind: 'jug' } });
    expect(first(said)).toMatchObject({
      id: 'ask',
      ask: 'jug-unknown',
      holds: { id: 'bleach' },
      stake: 'bleach-kills-latent',
    });
  });
  it('a pour that was only too early is cleared when its time comes', () => {
    const user = atDeveloper();
    user.say(pourIn('developer', 2));
    user.say({ type: 'bath-in' });
    user.wait(150);
    const back = { type: 'pour-back', liquid: 'developer', to: bottle(2) } as const;
    expect(first(user.say(back))).toMatchObject({ id: 'recoverable', reason: 'early' });
    expect(ids(user.wait(22))).toEqual(['ten-seconds', 'drain', 'clear']);
  });
  it('two liquids heard alike are read back, and a confirm means the one read back', () => {
    const user = atDeveloper();
    const said = user.say(pourIn('developer', 2), {
      by: 'voice',
      confidence: 0.9,
      close: [pourIn('fixer', 5)],
    });
    expect(first(said)).toMatchObject({
      id: 'ask',
      ask: 'heard-two',
      heard: [{ id: 'developer' }, { id: 'fixer' }],
    });
    expect(first(user.say({ type: 'confirm' }, { by: 'voice', confidence: 0.9 }))).toMatchObject({
      id: 'clear',
      move: { bath: { id: 'developer' } },
    });
  });
  it('a pour hardly heard is asked about, and still judged once confirmed', () => {
    const user = atDeveloper();
    const said = user.say(pourIn('bleach', 4), { by: 'voice', confidence: 0.55 });
    expect(first(said)).toMatchObject({ id: 'ask', ask: 'unsure-heard' });
    expect(first(user.say({ type: 'confirm' }))).toMatchObject({ id: 'ruinous' });
  });
  it('an unexpected bath that was badly heard to be in is asked about before anything is believed', () => {
    const user = atDeveloper();
    user.say(pourIn('developer', 2));
    const said = user.say(
      { type: 'bath-in', liquid: 'bleach' },
      { by: 'voice', confidence: 0.9, close: [{ type: 'bath-in', liquid: 'developer' }] },
    );
    expect(first(said)).toMatchObject({ id: 'confirm-bath-in' });
    expect(user.world.tank.bath).toBeNull();
    expect(first(user.say({ type: 'bath-in', liquid: 'developer' }))).toMatchObject({
      id: 'bath-in',
      warn: null,
    });
  });
});

describe('before anybody said that the film is in the tank', () => {
  const warming = () => {
    const user = new BenchUser();
    user.say({ type: 'begin-run' });
    user.say({ type: 'next-step' });
    return user;
  };
  it('a pour is asked about, and "film is loaded" has it judged with the film there', () => {
    const user = warming();
    expect(first(user.say(pourIn('bleach', 4)))).toMatchObject({ id: 'ask', ask: 'film-unknown' });
    expect(ids(user.say({ type: 'film-loaded' }))).toEqual(['film-loaded', 'ruinous']);
  });
  it('only the words say that there is none: yes could mean either', () => {
    const user = warming();
    user.say(pourIn('developer', 2));
    expect(first(user.say({ type: 'confirm' }))).toMatchObject({ id: 'needs-answer' });
    expect(first(user.say({ type: 'no-film' }))).toMatchObject({
      id: 'clear',
      harmless: true,
      reason: 'no-film',
    });
  });
  it('a bath said to be in counts from then, once the film is said to be there', () => {
    const user = warming();
    expect(ids(user.say({ type: 'bath-in', liquid: 'prebath' }))).toEqual(['film-first']);
    user.wait(4);
    expect(ids(user.say({ type: 'film-loaded' }))).toEqual(['film-loaded', 'bath-in']);
    expect(user.wait(20).find((s) => s.message.id === 'drain')?.dueMs).toBe(10_000);
  });
  it('a bath asked about counts from when it was said, not from the confirm', () => {
    const sure = atDeveloper();
    sure.say({ type: 'bath-in', liquid: 'developer' }, { by: 'voice', confidence: 0.9 });
    expect(sure.world.tank.bath?.sinceMs).toBe(sure.atMs);
    const user = atDeveloper();
    const saidMs = user.atMs;
    expect(ids(user.say({ type: 'bath-in', liquid: 'stop' }, { by: 'voice', confidence: 0.5 }))).toEqual([
      'confirm-bath-in',
    ]);
    user.wait(3);
    user.say({ type: 'confirm' });
    expect(user.world.tank.bath?.sinceMs).toBe(saidMs);
  });
});

describe('pouring back', () => {
  it('refuses backing remover into the developer bottle', () => {
    const user = new BenchUser().ready();
    user.say(pourIn('prebath', 1));
    user.say({ type: 'bath-in', liquid: 'prebath' });
    user.wait(10);
    expect(first(user.say(pourBack('prebath', 2)))).toMatchObject({
      id: 'ruinous',
      reason: 'prebath-in-developer-bottle',
      about: { bottle: 2 },
    });
  });
  it('checks headroom, portions and filter', () => {
    const user = withDeveloper();
    user.wait(170);
    expect(first(user.say(pourBack('developer', 2)))).toMatchObject({
      id: 'clear',
      checks: { filter: true, portions: { count: 2, eachMl: 250 } },
    });
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 800 });
    expect(first(user.say(pourBack('developer', 2)))).toMatchObject({
      id: 'recoverable',
      reason: 'no-headroom',
      about: { ml: 200 },
    });
  });
  it('warns when it is too early, and says how much', () => {
    const user = withDeveloper();
    user.wait(60);
    expect(first(user.say(pourBack('developer', 2)))).toMatchObject({
      id: 'recoverable',
      reason: 'early',
      about: { seconds: 100 },
    });
  });
  it('a bath drained into a jug goes back later, while the next one is in', () => {
    const user = withDeveloper();
    user.wait(180);
    expect(first(user.say({ type: 'tank-empty' }))).toMatchObject({ jugged: { id: 'developer' } });
    user.say(pourIn('stop', 3));
    user.say({ type: 'bath-in', liquid: 'stop' });
    expect(first(user.say(pourBack('developer', 2)))).toMatchObject({
      id: 'clear',
      move: { from: { kind: 'jug' }, to: bottle(2) },
    });
    expect(user.world.bottles[2]?.contents.volumeMl).toBe(600);
  });
  it('fixer that met bleach on the film is kept from its bottle', () => {
    const user = withDeveloper();
    user.wait(180);
    user.say({ type: 'tank-empty' });
    user.bath('stop', 3, 30).water(30).bath('bleach', 4, 180);
    expect(first(user.say(pourIn('fixer', 5)))).toMatchObject({
      id: 'recoverable',
      reason: 'bleach-in-fixer',
    });
    user.say({ type: 'confirm' });
    user.say({ type: 'bath-in', liquid: 'fixer' });
    user.wait(120);
    expect(first(user.say(pourBack('fixer', 5)))).toMatchObject({ id: 'recoverable', reason: 'tainted' });
  });
});

describe('a pour nobody announced', () => {
  it('bleach before developer: what to do now, and the picture is lost', () => {
    const user = atDeveloper();
    const said = user.say({ type: 'bath-in', liquid: 'bleach' });
    expect(said).toMatchObject([
      {
        kind: 'warning',
        message: { id: 'wrong-bath-in', reason: 'bleach-kills-latent', due: { id: 'developer' } },
      },
    ]);
    user.wait(5);
    user.say({ type: 'tank-empty' });
    expect(user.world.film.image).toBe('lost');
    expect(user.facts('deviation')[0]?.what).toContain('bleach-kills-latent');
  });
  it('fixer before bleach can be put right: bleach is still due afterwards', () => {
    const user = withDeveloper();
    user.wait(180);
    user.say({ type: 'tank-empty' });
    user.bath('stop', 3, 30).water(30);
    expect(first(user.say({ type: 'bath-in', liquid: 'fixer' }))).toMatchObject({
      id: 'bath-in',
      warn: { reason: 'fixer-before-bleach' },
    });
    user.wait(120);
    user.say({ type: 'tank-empty' });
    user.water(60);
    expect(first(user.say({ type: 'ask-next' }))).toMatchObject({ id: 'next', bath: { id: 'bleach' } });
    expect(first(user.say(pourIn('bleach', 4)))).toMatchObject({ id: 'clear' });
  });
  it('"it is in" with nothing said takes the bath that is due, and says so', () => {
    const user = atDeveloper();
    expect(first(user.say({ type: 'bath-in' }))).toMatchObject({
      id: 'bath-in',
      bath: { id: 'developer' },
      assumed: true,
    });
  });
  it('the next bath poured before "tank is empty" is asked about, and either answer will do', () => {
    for (const answer of [{ type: 'confirm' }, { type: 'tank-empty' }] as const) {
      const user = withDeveloper();
      user.wait(170);
      expect(first(user.say(pourIn('stop', 3)))).toMatchObject({ id: 'ask', ask: 'tank-not-empty' });
      expect(ids(user.say(answer))).toContain('clear');
    }
  });
});

describe('temperature', () => {
  it('a cold developer is challenged with its cost, and a new reading of the warming desk clears it', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 39.9 });
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({
      id: 'recoverable',
      reason: 'developer-cold',
      about: { tempC: 39.9, aimC: 41.1 },
    });
    expect(
      ids(user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 41.1 })),
    ).toEqual(['clear']);
  });
  it('a hot one as well; and a cleared pour is taken back by a reading that is off', () => {
    const user = atDeveloper();
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({ id: 'clear' });
    const said = user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 42 });
    expect(first(said)).toMatchObject({ id: 'recoverable', reason: 'developer-hot' });
    expect(user.context.announced).toBeNull();
  });
  it('an old reading is no reading of now: said to be old, and challenged only if it was off', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 39.9 });
    user.wait(16 * 60);
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({
      id: 'recoverable',
      reason: 'developer-was-off',
      about: { agoS: 960 },
    });
    const right = atDeveloper();
    right.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 41.1 });
    right.wait(16 * 60);
    expect(first(right.say(pourIn('developer', 2)))).toMatchObject({
      id: 'clear',
      checks: { temperature: { state: 'old', agoS: 960 } },
    });
  });
  it('what stands warm or cold says nothing of another bottle that takes its place', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.fact({ type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 600, capacityMl: 1000 });
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({
      id: 'clear',
      checks: { temperature: { state: 'unread' } },
    });
  });
});

describe('spills', () => {
  it('bring cautions, ask for what is missing, become one fact, and block no pour', () => {
    const user = atDeveloper();
    expect(first(user.say({ type: 'spill', liquid: 'bleach' }))).toMatchObject({
      id: 'spill-ask',
      missing: 'volume',
    });
    const told = first(user.say({ type: 'spill', volumeMl: 40, place: 'the floor' }));
    expect(told).toMatchObject({ id: 'spill-open', bath: { id: 'bleach' }, volumeMl: 40 });
    expect(told?.id === 'spill-open' && told.cautions).toContain('spill-bleach');
    expect(user.facts('spilled')).toEqual([
      {
        type: 'spilled',
        runId: user.world.run?.runId,
        from: bottle(4),
        liquid: 'bleach',
        volumeMl: 40,
        place: 'the floor',
      },
    ]);
    expect(user.desk.situations(user.state)).toContain('spill');
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({ id: 'clear' });
    expect(ids(user.say({ type: 'spill-cleaned' }))).toEqual(['spill-cleaned']);
    expect(user.desk.situations(user.state)).not.toContain('spill');
  });
});

describe('a spill on somebody', () => {
  it('sends to the data sheet and to help before anything else', () => {
    const user = atDeveloper();
    const told = first(user.say({ type: 'spill', liquid: 'developer', volumeMl: 5, place: 'eye' }));
    expect(told).toMatchObject({ id: 'spill-open', aid: 'eye' });
    expect(told && phraseRun(told)).toMatch(/^(?:Rinse|Take off)/);
    expect(told && phraseRun(told)).toContain('poison centre or emergency number');
  });
});

describe('the bench', () => {
  it('follows the facts of other desks', () => {
    const user = atDeveloper();
    user.fact({ type: 'bottle-discarded', bottle: 2, liquid: 'developer', volumeMl: 600 });
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({ id: 'ask', ask: 'bottle-empty' });
    user.fact({
      type: 'mixed',
      batch: 'a1',
      recipe: 'developer',
      liquid: 'developer',
      volumeMl: 900,
      bottle: 9,
    });
    expect(first(user.say(pourIn('developer', 9)))).toMatchObject({ id: 'clear' });
  });
  it('a bottle with too little for the tank is warned of', () => {
    const user = atDeveloper();
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 300 });
    expect(first(user.say(pourIn('developer', 2)))).toMatchObject({
      reason: 'too-little',
      about: { ml: 300 },
    });
  });
  it.each([
    [{ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 1500 }, 'bad-bottle'],
    [{ type: 'bottle-holds', bottle: 0, liquid: 'developer' }, 'bad-bottle'],
    [{ type: 'bottle-holds', bottle: 2, liquid: 'tea' }, 'no-such-liquid'],
    [{ type: 'tank-takes', volumeMl: 5 }, 'bad-tank'],
    [{ type: 'add-time', seconds: 10 }, 'no-clock'],
  ] as const)('%o is not believed', (intent, id) => {
    const user = atDeveloper();
    const before = user.world;
    expect(ids(user.say(intent))).toEqual([id]);
    expect(user.world).toEqual(before);
  });
});

describe('questions of the user', () => {
  it('time left, time until, next and where', () => {
    const user = withDeveloper();
    user.wait(60);
    expect(first(user.say({ type: 'ask-time-left' }))).toMatchObject({ id: 'time-left', leftS: 120 });
    // 2:00 of developer, 0:30 stop, 0:30 wash
    expect(first(user.say({ type: 'ask-time-until', liquid: 'bleach' }))).toMatchObject({
      seconds: 180,
      atLeast: false,
    });
    expect(first(user.say({ type: 'ask-time-until', liquid: 'prebath' }))).toMatchObject({ why: 'done' });
    expect(first(user.say({ type: 'ask-next' }))).toMatchObject({ id: 'next', bath: { id: 'stop' } });
    expect(first(user.say({ type: 'ask-where' }))).toMatchObject({
      step: 3,
      of: 11,
      now: { do: 'wait', secondsLeft: 120 },
    });
  });
  it('"stop" asks what, while a clock runs', () => {
    const user = withDeveloper();
    expect(first(user.say({ type: 'stop' }))).toMatchObject({ id: 'stop-what' });
    expect(user.desk.situations(user.state)[0]).toBe('challenged');
    expect(ids(user.say({ type: 'hold-clock' }))).toEqual(['held-up']);
    expect(user.desk.situations(user.state)).toEqual(['immersed', 'anytime']);
  });
  it('intents of other desks change nothing', () => {
    const user = withDeveloper();
    const before = user.state;
    for (const type of ['mix-next', 'ask-bottles', 'quiet', 'show-curves'] as const)
      expect(
        user.desk.apply(
          before,
          {
            type: 'intent',
            intent: { type },
            atMs: 1e6,
            wallMs: 0,
            heard: { by: 'typed', words: '', confidence: 1, close: [] },
          },
          user.truth,
        ),
      ).toEqual({ state: before, effects: [] });
  });
});

describe('what is said next', () => {
  const due = (user: BenchUser) => user.desk.due?.(user.state, user.world);
  const situations = (user: BenchUser) => user.desk.situations(user.state);
  const inHand = (user: BenchUser) => user.desk.inHand?.(user.state);
  it('follows from the place, and from the film', () => {
    const loading = having(fresh, { type: 'begin-run' }, { type: 'next-step' }, { type: 'next-step' });
    expect(due(loading())).toEqual([{ type: 'film-loaded' }]);
    const user = atDeveloper();
    expect(due(user)).toEqual([
      { type: 'pour-in', liquid: 'developer' },
      { type: 'bath-in', liquid: 'developer' },
    ]);
    expect(inHand(user)).toBe(false);
    user.say({ type: 'pour-in', liquid: 'developer', from: { kind: 'bottle', number: 2 } });
    expect(due(user)).toEqual([{ type: 'bath-in', liquid: 'developer' }]);
    expect(inHand(user)).toBe(true);
  });
  it('may be of who is hurt, and to nobody in the room that somebody is back', () => {
    const hurt = having(atDeveloper, { type: 'hurt', how: 'eye' });
    expect(due(hurt())?.at(-1)).toEqual({ type: 'hurt', about: 'still' });
    const out = having(atDeveloper, { type: 'room', is: 'out' });
    expect(due(out())).toEqual([{ type: 'room', is: 'back' }]);
  });
  it('has the words of loading where a bath is in and the film was not spoken of', () => {
    const user = having(fresh, { type: 'begin-run' })();
    expect(situations(user)).toEqual(['preparing', 'anytime']);
    user.say({ type: 'bath-in', liquid: 'prebath' });
    expect(situations(user)).toEqual(['challenged', 'preparing', 'loading', 'anytime']);
    const warming = having(fresh, { type: 'begin-run' }, { type: 'next-step' })();
    warming.say({ type: 'bath-in', liquid: 'prebath' });
    expect(situations(warming)).toEqual(['challenged', 'warming', 'loading', 'anytime']);
    const other = having(fresh, { type: 'begin-run' }, { type: 'swapped', bottle: 4, other: 5 });
    expect(situations(other())).toEqual(['challenged', 'preparing', 'anytime']);
    const running = having(atDeveloper, { type: 'start-clock' });
    expect(situations(running())).toEqual(['challenged', 'pouring', 'anytime']);
  });
});
