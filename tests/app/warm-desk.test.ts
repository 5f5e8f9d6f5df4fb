import { describe, expect, it } from 'vitest';
import { newtonTempC } from '../../src/thermal/newton.js';
import { Sink } from './untidy-days/play.js';
import { WarmBench, warmConfig } from './warm-bench.js';

const reading = (of: string, tempC: number) => ({ type: 'temperature' as const, of, tempC });
const tub = (tempC: number) => ({ type: 'temperature' as const, of: { kind: 'tub' as const }, tempC });

/** A bench read at 0, 3 and 6 minutes: tub steady, bottles with a time constant of ten minutes. */
function warmed(config = warmConfig): WarmBench {
  const b = new WarmBench(config);
  for (const m of [0, 3, 6]) {
    b.say(tub(41.3), m);
    for (const [name, start] of [
      ['developer', 25],
      ['bleach', 21],
      ['fixer', 20],
    ] as const) {
      const t = newtonTempC(start, 41.3, 600, m * 60);
      b.say(reading(name, Math.round(t * 10) / 10), m + 0.1);
    }
  }
  return b;
}

describe('readings by voice', () => {
  it('answers a reading with the reading and the time to go', () => {
    const b = warmed();
    const [words] = b.say(reading('fixer', 33.2), 10);
    expect(words).toMatch(/^Fixer 33\.2\. About \d+ minutes to go/);
    expect(b.facts.at(-1)).toEqual({
      type: 'temperature',
      vessel: { kind: 'bottle', number: 3 },
      liquid: 'fixer',
      tempC: 33.2,
    });
  });

  it('speaks the reading that was heard, not what the fit makes of it', () => {
    const b = warmed();
    expect(b.say(reading('fixer', 31.9), 9)[0]).toMatch(/^Fixer 31\.9\./);
  });

  it.each([
    [reading('fixer', 410), /Did you mean 41\?/],
    [reading('fixer', -3), /minus 3 .*cannot be/],
    [reading('room', 41), /41 for the room\?/],
    [reading('developer', 99), /Fahrenheit/],
    [reading('fixer', 44), /Is it the fixer\?|Is 44 right\?/],
  ])('questions %o and swallows nothing', (intent, words) => {
    const b = warmed();
    const before = b.state.bench;
    const taken = b.facts.filter((f) => f.type === 'temperature').length;
    expect(b.say(intent, 7)[0]).toMatch(words);
    expect(b.said.at(-1)?.kind).toBe('question');
    expect(b.desk.situations(b.state)).toContain('challenged');
    expect(b.state.bench).toEqual(before);
    expect(b.facts.filter((f) => f.type === 'temperature')).toHaveLength(taken);
    expect(b.say({ type: 'cancel' }, 7.2)[0]).toMatch(/^Dropped/);
    expect(b.state.bench).toEqual(before);
    expect(b.desk.situations(b.state)).not.toContain('challenged');
  });

  it('a confirmed slip takes what was meant', () => {
    const b = warmed();
    b.say(reading('fixer', 305), 7);
    expect(b.say({ type: 'confirm' }, 7.1)[0]).toMatch(/^Fixer 30\.5\./);
    expect(b.facts.at(-1)).toMatchObject({ tempC: 30.5 });
  });

  it('what cannot be true is not taken by a confirm', () => {
    const b = warmed();
    const taken = b.facts.filter((f) => f.type === 'temperature').length;
    b.say(reading('fixer', -3), 7);
    expect(b.say({ type: 'confirm' }, 7.1)[0]).toMatch(/Read the fixer again/);
    expect(b.desk.situations(b.state)).toContain('challenged');
    expect(b.facts.filter((f) => f.type === 'temperature')).toHaveLength(taken);
    expect(b.say(reading('fixer', 30), 7.2).join(' ')).toMatch(/Not taking the minus 3\. Fixer 30\./);
    expect(b.desk.situations(b.state)).not.toContain('challenged');
  });

  it('a surprising reading, confirmed, is believed over the model', () => {
    const b = warmed();
    expect(b.say(reading('developer', 26), 8)[0]).toMatch(/Confirm or cancel/);
    expect(b.say({ type: 'confirm' }, 8.1)[0]).toMatch(/^Developer 26\./);
    expect(b.say({ type: 'ask-temperature', of: 'developer' }, 8.2)[0]).toMatch(/26, read just now/);
  });

  it('offers the vessel that a swapped reading would suit', () => {
    const b = new WarmBench();
    b.say(tub(41.3), 0);
    b.say(reading('developer', 39), 0.1);
    b.say(reading('fixer', 21), 0.2);
    expect(b.say(reading('developer', 22), 1)[0]).toMatch(/would suit the fixer/);
  });

  it('does not know a liquid that stands nowhere, and says how to tell it', () => {
    expect(new WarmBench().say(reading('stop', 30), 0)[0]).toMatch(/do not know where the stop is/);
  });

  it('notes the room, the taps and a vessel nobody mentioned', () => {
    const b = new WarmBench();
    expect(b.say(reading('room', 19.5), 0)[0]).toBe('Room 19.5. Noted.');
    expect(b.say({ type: 'temperature', of: { kind: 'tap' }, tempC: 52 }, 0)[0]).toBe('Hot tap 52. Noted.');
    expect(b.say({ type: 'temperature', of: { kind: 'jug' }, tempC: 30 }, 0)[0]).toBe('Jug 30. Noted.');
  });
});

describe('how long until everything is ready', () => {
  it('says who is last and when', () => {
    const [words] = warmed().say({ type: 'ask-ready' }, 6.5);
    expect(words).toMatch(/Last, the developer: about \d+ minutes to go/);
    expect(words).toMatch(/Bleach/);
  });

  it('never gives a time for a bath that nobody has read', () => {
    const b = new WarmBench();
    expect(b.say({ type: 'ask-ready' }, 0)[0]).toBe(
      'No reading yet of the developer, the bleach and the fixer.',
    );
    expect(b.say({ type: 'ask-ready', liquid: 'developer' }, 0)[0]).toMatch(/no reading of the developer/);
    expect(b.say({ type: 'ask-temperature', of: 'fixer' }, 0)[0]).toMatch(/no reading of the fixer/);
    expect(b.until(240).join(' ')).not.toMatch(/in tolerance/);
  });

  it('calls when the last bath comes into tolerance, near the true moment, once', () => {
    const b = warmed();
    b.until(90);
    const calls = b.said.filter((s) => s.kind === 'call' && /the last bath, the developer/.test(s.text));
    expect(calls).toHaveLength(1);
    // 25 °C to 40.8 °C toward 41.3 °C with a time constant of 600 s
    const trueMin = (600 * Math.log((41.3 - 25) / (41.3 - 40.8))) / 60;
    expect(Math.abs((calls[0]?.atMin ?? 0) - trueMin)).toBeLessThan(8);
  });

  it('the reading that completes the bench says so, and no call follows', () => {
    const b = warmed();
    for (const [name, t] of [
      ['bleach', 41],
      ['fixer', 41],
    ] as const)
      b.say(reading(name, t), 25);
    expect(b.say(reading('developer', 41), 25)[0]).toBe(
      'Developer 41. In tolerance. Everything is in tolerance.',
    );
    b.until(26);
    expect(b.said.filter((s) => s.kind === 'call')).toHaveLength(0);
  });

  it('remembers since when a bath has been ready', () => {
    const b = warmed();
    b.until(40);
    expect(b.say({ type: 'ask-ready' }, 40)[0]).toMatch(
      /Bleach and fixer ready for \d+ minutes|Everything should be/,
    );
  });

  it('a bath that drifts out of tolerance is called', () => {
    const b = warmed();
    for (const name of ['developer', 'bleach', 'fixer']) b.say(reading(name, 41.2), 40);
    expect(b.say({ type: 'heater', on: false }, 41).join(' ')).toMatch(
      /Developer stays in tolerance for about \d+ minutes/,
    );
    b.until(80);
    const calls = b.said.filter((s) => /developer should be getting too cold/.test(s.text));
    expect(calls).toHaveLength(1);
    expect(calls[0]?.kind).toBe('call');
  });

  it('one that leaves it while its reading is fresh is called when that is old', () => {
    const b = warmed();
    for (const name of ['developer', 'bleach', 'fixer']) b.say(reading(name, 41.2), 40);
    b.say({ type: 'heater', on: false }, 41);
    b.until(80);
    b.say(reading('developer', 40.9), 80);
    if (b.state.pending) b.say({ type: 'confirm' }, 80);
    const before = b.said.length;
    b.until(120);
    expect(
      b.said.slice(before).filter((s) => /developer should be getting too cold/.test(s.text)),
    ).toHaveLength(1);
  });
  it('a call is moved by a reading that contradicts it', () => {
    const b = warmed();
    const first = b.wakeMs;
    b.say(reading('developer', 33), 7);
    if (b.state.pending) b.say({ type: 'confirm' }, 7);
    expect(b.wakeMs).not.toBe(first);
  });
});

describe('the set point', () => {
  it('left two degrees low: noticed from the sheet', () => {
    const b = new WarmBench({ ...warmConfig, tub: { ...warmConfig.tub, targetC: 39.1 } });
    const words = b.say(tub(30), 0).join(' ');
    expect(words).toMatch(
      /set to 39\.1, but the developer needs 41\.1\. It will never get there\. Set the tub to 41\.1/,
    );
    expect(b.said.at(-1)?.kind).toBe('warning');
    expect(b.say(tub(31), 1).join(' ')).not.toMatch(/never get there/);
  });

  it('two degrees off its scale: noticed from the readings', () => {
    const b = new WarmBench();
    b.say({ type: 'tub-set', tempC: 41.3 }, 0);
    const words = [0, 3, 6, 9].flatMap((m) => b.say(tub(39.2), m)).join(' ');
    expect(words).toMatch(
      /tub holds 39\.\d, not 41\.3\. The developer needs 41\.1\. It will never get there\. Turn the tub up by/,
    );
    expect(b.say({ type: 'tub-set', tempC: 43.4 }, 10).join(' ')).not.toMatch(/never get there/);
  });

  it('too warm for the other baths: said once, with what to do', () => {
    const liquids = { ...warmConfig.liquids, fixer: { ...warmConfig.liquids.fixer, highC: 40 } };
    const b = new WarmBench({ ...warmConfig, liquids } as typeof warmConfig);
    expect(b.say(tub(36), 0).join(' ')).toMatch(/too warm for the fixer\. Take it out when I call/);
    expect(b.say(tub(37), 1).join(' ')).not.toMatch(/Take it out/);
  });

  it('set to the aim itself of a narrow developer: the crawl is foretold, with what to set instead', () => {
    const developer = { aimC: 41.1, lowC: 41, highC: 41.2, volumeMl: 600, bottle: 1 };
    const b = new WarmBench({ ...warmConfig, liquids: { developer }, tub: { targetC: 41.1 } });
    expect(b.say(tub(30), 0).join(' ')).toMatch(
      /With the tub at 41\.1, the last tenths of the developer take very long\. Set it to 41\.2\./,
    );
    expect(b.say({ type: 'tub-set', tempC: 41.2 }, 1).join(' ')).not.toMatch(/very long/);
  });

  it('with no setting told, a tub near the aim is taken to stay at what it was read at', () => {
    const b = new WarmBench(warmConfig);
    expect(b.say(tub(38), 0).join(' ')).toMatch(/A tub that stays at 38 never gets the developer to 41\.1/);
    const developer = { type: 'temperature' as const, of: 'developer', tempC: 37.5 };
    expect(b.say(developer, 1)[0]).toMatch(/will not reach 41\.1/);
    expect(b.say({ type: 'tub-set', tempC: 41.3 }, 2).join(' ')).not.toMatch(/never/);
    expect(b.say({ ...developer, tempC: 37.7 }, 3)[0]).toMatch(/minutes to go/);
  });

  it('a cold tub, and one that is seen to warm, go where the sheet wants them', () => {
    for (const read of [
      [22, 30],
      [38, 39],
    ]) {
      const b = new WarmBench(warmConfig);
      read.forEach((tempC, m) => {
        b.say(tub(tempC), m);
      });
      const words = b.say({ type: 'temperature', of: 'developer', tempC: 30 }, 2)[0];
      expect(words, read.join()).toMatch(/minutes to go/);
    }
  });

  it('says how long the tub takes, and what hot water would do', () => {
    const b = new WarmBench();
    b.say(tub(35), 0);
    b.say({ type: 'temperature', of: { kind: 'tap' }, tempC: 60 }, 0);
    expect(b.say({ type: 'tub-set', tempC: 41.3 }, 1)[0]).toMatch(
      /Tub set to 41\.3\. About \d+ minutes to get there\. Or add \d\.\d+ litres of hot water at 60 now\./,
    );
  });
});

describe('moving and pouring', () => {
  it('a bottle taken out of the tub is followed there', () => {
    const b = warmed();
    expect(b.say({ type: 'vessel-moved', of: 'fixer', into: false }, 7)[0]).toMatch(
      /^Fixer out of the tub\./,
    );
    const before = b.say({ type: 'ask-temperature', of: 'fixer' }, 7)[0];
    const after = b.say({ type: 'ask-temperature', of: 'fixer' }, 30)[0];
    const degrees = (s: string | undefined): number => Number(/(?:about|Fixer) ([\d.]+)/.exec(s ?? '')?.[1]);
    expect(degrees(after)).toBeLessThan(degrees(before));
  });

  it('facts tell which bottle holds what; one that was told goes before one taken for granted', () => {
    const b = warmed();
    b.hear({ type: 'bottle-set', bottle: 7, liquid: 'fixer', volumeMl: 900, capacityMl: 1000 }, 6.5);
    expect(b.state.holds['bottle-7']).toMatchObject({ liquid: 'fixer', assumed: false });
    expect(b.say(reading('fixer', 33), 7)[0]).toMatch(/^Fixer 33\./);
    expect(b.facts.at(-1)).toMatchObject({ vessel: { kind: 'bottle', number: 7 }, liquid: 'fixer' });
    b.hear({ type: 'bottle-discarded', bottle: 3, liquid: 'fixer', volumeMl: 1000 }, 7.5);
    expect(Object.keys(b.state.holds)).not.toContain('bottle-3');
  });

  it('poured into the tank, a liquid is asked for there, cooler than it was', () => {
    const b = warmed();
    b.say(reading('developer', 41), 35);
    b.hear(
      {
        type: 'poured',
        from: { kind: 'bottle', number: 1 },
        to: { kind: 'tank' },
        liquid: 'developer',
        volumeMl: 600,
        overridden: false,
      },
      36,
    );
    const words = b.say({ type: 'ask-temperature', of: { kind: 'tank' } }, 36)[0] ?? '';
    const tempC = Number(/(?:about|Fixer) ([\d.]+)/.exec(words)?.[1]);
    expect(tempC).toBeGreaterThan(36);
    expect(tempC).toBeLessThan(40.5);
    expect(b.state.holds['bottle-1']?.volumeMl).toBe(400);
    b.hear(
      {
        type: 'poured',
        from: { kind: 'tank' },
        to: { kind: 'bottle', number: 1 },
        liquid: 'developer',
        volumeMl: 590,
        overridden: false,
      },
      40,
    );
    expect(b.state.holds.tank).toBeUndefined();
    expect(b.state.holds['bottle-1']?.volumeMl).toBe(990);
  });

  it('a probe’s fact is taken in silence, a mad one asked about once', () => {
    const b = warmed();
    const fact = (tempC: number) => ({
      type: 'temperature' as const,
      vessel: { kind: 'bottle' as const, number: 3 },
      tempC,
    });
    expect(b.hear(fact(30.2), 7)).toEqual([]);
    expect(b.state.log.at(-1)?.tempC).toBe(30.2);
    expect(b.hear(fact(-127), 7.5)[0]).toMatch(/cannot be/);
    expect(b.hear(fact(-127), 7.6)).toEqual([]);
  });
});

describe('rinse water', () => {
  it('asks for the taps, then blends', () => {
    const b = new WarmBench();
    expect(b.say({ type: 'ask-blend', tempC: 38 }, 0)[0]).toMatch(/how warm the hot and the cold tap are/);
    b.say(reading('hot', 52), 0);
    b.say(reading('cold', 12), 0);
    expect(b.say({ type: 'ask-blend', tempC: 38, volumeMl: 2000 }, 0)[0]).toMatch(
      /1\.31 litres hot and 69\d millilitres cold give 38\.0 degrees/,
    );
    expect(b.say({ type: 'ask-blend', tempC: 38 }, 0)[0]).toBe(
      'For 38.0 degrees: 2 parts hot to 1 part cold.',
    );
    expect(b.say({ type: 'ask-blend', tempC: 55 }, 0)[0]).toMatch(/warmer than the hot tap/);
  });
});

it('rinse water: what a wrong warmth costs the next bath', () => {
  const b = new WarmBench();
  expect(b.say(reading('water', 39), 0)[0]).toBe('Rinse water 39. Good.');
  expect(b.say(reading('water', 22), 0)[0]).toMatch(/It would cool the next bath by about [1-3]/);
  expect(b.say(reading('water', 52), 0)[0]).toMatch(/It would warm the next bath/);
  expect(b.say(reading('water', -4), 0)[0]).toMatch(/cannot be/);
});

it('a developer that was just read is ready', () => {
  const b = warmed();
  b.say(reading('developer', 41.1), 36);
  expect(b.say({ type: 'ask-ready', liquid: 'developer' }, 36.2)[0]).toMatch(
    /^Yes\. Developer 41\.1, read just now\. The tank will take about/,
  );
});

it('the same events give the same state', () => {
  expect(warmed().state).toEqual(warmed().state);
});

describe('a bath that is said to stand in another bottle', () => {
  const words = [
    ['bottle 7 holds fixer', 'is everything ready'],
    ['bottle 7 holds fixer', 'how warm is everything'],
  ];
  it.each(words)('is awaited there and no longer where it was taken to be: %s, %s', (told, asked) => {
    const sink = new Sink();
    sink.say(told);
    const [said = ''] = sink.say(asked);
    expect(said.match(/the fixer/g)).toHaveLength(1);
  });

  it('a reading of it is of that bottle', () => {
    const sink = new Sink();
    sink.say('bottle 7 holds fixer');
    sink.say('fixer is 38');
    expect(sink.state.world.readings['bottle-7']?.tempC).toBe(38);
    expect(sink.state.world.readings['bottle-5']).toBeUndefined();
  });
});
