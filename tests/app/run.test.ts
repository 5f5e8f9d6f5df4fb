import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { jsonLines, scratch, startAssistant, tankside } from './cli.js';

const toDeveloper = [
  'begin the run',
  'next step',
  'next step',
  'film is loaded',
  'prebath is in',
  'tank is empty',
  'water is in',
  'tank is empty',
  'developer is in',
];

describe('tankside run, killed and started again', () => {
  it('offers the unfinished run with the time that really passed, and nothing lost', async () => {
    const data = scratch();
    const first = startAssistant(data);
    for (const line of toDeveloper) first.say(line);
    await first.until('Developer is in');
    const startedAt = Date.now();
    first.child.kill('SIGKILL');
    await first.ended;

    const second = startAssistant(data);
    await second.until('An unfinished run is here');
    second.say('how long left');
    await second.until('left.');
    second.say('exit');
    await second.until('nobody calls');
    second.say('exit');
    expect(await second.ended).toBe(0);
    const [, minutes, seconds] =
      /developer is in\. (?:(\d) minutes? ?)?(?:(\d+) seconds?)? ?left/i.exec(second.out) ?? [];
    const leftS = Number(minutes ?? 0) * 60 + Number(seconds ?? 0);
    const passedS = (Date.now() - startedAt) / 1000;
    expect(leftS).toBeGreaterThan(180 - passedS - 2);
    expect(leftS).toBeLessThanOrEqual(180);
  });

  it('does not start twice on one journal', async () => {
    const data = scratch();
    const first = startAssistant(data);
    await first.until('Text only');
    first.say('begin the run');
    await first.until('Run started');
    const second = tankside(['run', '--text', '--data', data], { input: 'where are we\n' });
    expect(second.code).toBe(1);
    expect(second.err).toMatch(/Another tankside .* is already/);
    first.say('exit');
    expect(await first.ended).toBe(0);
  });

  it('says the cautions before anything else', () => {
    const ran = tankside(['run', '--text', '--data', scratch()]);
    expect(ran.out).toMatch(/gloves.*ferricyanide.*safety data sheet/s);
  });

  it('says which folder it cannot write to', () => {
    const file = join(scratch(), 'a-file');
    writeFileSync(file, 'not a folder');
    const ran = tankside(['run', '--text', '--data', join(file, 'data')]);
    expect(ran.code).toBe(1);
    expect(ran.err).toContain(file);
    expect(ran.err).not.toMatch(/ at .*:\d+/);
  });
});

describe('tankside talk', () => {
  const talk = (lines: string[]): Record<string, unknown>[] => {
    const script = join(scratch(), 's.txt');
    writeFileSync(script, lines.join('\n'));
    return jsonLines(tankside(['talk', '--script', script, '--json']).out).filter((l) => l.kind !== 'heard');
  };

  it('prints each reply with its time, kind and text, calls at their due times', () => {
    const replies = talk([...toDeveloper, '+3m']);
    for (const r of replies) expect(Object.keys(r)).toEqual(['atMs', 'kind', 'text']);
    const drain = replies.find((r) => r.kind === 'call' && /Drain the developer/.test(String(r.text)));
    expect(drain?.atMs).toBe(180_000 - 15_000);
  });

  it('refuses a wrong pour in each direction until the override is said', () => {
    const replies = talk([
      ...toDeveloper.slice(0, 4),
      'pouring the bleach in from bottle four',
      'confirm',
      'cancel',
      ...toDeveloper.slice(4),
      '+165s',
      'returning the developer to bottle four',
      'yes',
      'override the guard and pour anyway',
    ]);
    const texts = replies.map((r) => `${String(r.kind)}: ${String(r.text)}`);
    expect(texts.filter((t) => t.startsWith('warning: No.')).length).toBeGreaterThanOrEqual(2);
    expect(texts.filter((t) => /clear/i.test(t) && /bleach/.test(t))).toEqual([]);
    expect(texts.at(-1)).toMatch(/Go ahead: developer to bottle 4/);
  });

  it('suggests what may have been meant by words it does not know', () => {
    const [reply] = talk(['pouring the blaech in from bottle four']);
    expect(reply?.kind).toBe('question');
  });

  it('names a script line that it cannot read', () => {
    const script = join(scratch(), 's.txt');
    writeFileSync(script, 'next step\n+soon\n');
    const ran = tankside(['talk', '--script', script]);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/Line 2: “\+soon”/);
  });
});

describe('the command line', () => {
  it('has help everywhere', () => {
    for (const command of ['run', 'talk', 'hear', 'rehearse']) {
      const ran = tankside([command, '--help']);
      expect(ran.code, command).toBe(0);
      expect(ran.out, command).toMatch(/Usage: tankside/);
    }
  });
  it('refuses an unknown command with the way out', () => {
    const ran = tankside(['develop-for-me']);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/“develop-for-me” is no command.*--help/);
    expect(ran.err).not.toContain('run');
  });
});
