import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { blackAndWhite } from '../../src/process/sheets/black-and-white.js';
import { Sink } from './untidy-days/play.js';

/** What only the motion-picture process has, in words. */
const ofEcn2 =
  /ferricyan|ferrocyan|\becn|e c n two|h-24|rem.?jet|black backing|prebath|colour developing agent|CD-3/i;

interface Step {
  bath: string;
  bottle: number | null;
  s: number;
}
const of = (bath: string, bottle: number | null, s: number): Step => ({ bath, bottle, s });

/** What people ask on the way. */
const questions = [
  'where are we',
  'what is next',
  'how long left',
  'cautions',
  'what should I be careful about with the fixer',
  'what should I be careful about with the developer',
  'how many more films can I run through the developer',
  'how many more films can I run through the fixer',
  'is the developer still good',
  'how much replenisher does the developer need',
  'what is in bottle 1',
  'what is in bottle 3',
  'how old is the developer',
  'where does used developer go',
  'where does used fixer go',
  'where does used bleach go',
  'can I rinse the tank with vinegar',
  'shopping list for three films',
  'what do I need for 600 ml of developer',
  'spilled 20 ml of developer on the table',
  'the spill is cleaned up',
  'spilled 20 ml on the table',
  'it was the fixer',
  'what if I poured 80 ml of fixer into 600 ml of developer',
  'how long does the developer keep',
  'how long do I develop at two degrees less',
  'what has the film had',
  'help',
];

/** A film through its sheet; before each bath and after all of them, everything is asked. */
function said(sheet: string, aimC: number, steps: readonly Step[]): string[] {
  const sink = new Sink(sheet);
  const all: string[] = [];
  const say = (line: string) => all.push(...sink.say(line).map((text) => `${line} → ${text}`));
  for (const line of ['start a run', 'next step', `developer is at ${aimC}`, 'next step', 'film is loaded'])
    say(line);
  for (const line of questions) say(line);
  for (const { bath, bottle, s } of steps) {
    if (bottle !== null) say(`pouring the ${bath} from bottle ${bottle}`);
    say(`${bath} in`);
    say('cautions');
    say(`+${s}s`);
    if (bottle !== null) say(`${bath} back into bottle ${bottle}`);
    say('tank empty');
  }
  for (const line of [...questions, 'film is hung', 'close the run', ...questions]) say(line);
  return all;
}

describe('a run of another process, played whole', () => {
  it.each([
    [
      'c41',
      37.8,
      [
        of('developer', 1, 195),
        of('bleach', 2, 390),
        of('water', null, 195),
        of('fixer', 3, 390),
        of('water', null, 195),
        of('final rinse', 4, 90),
      ],
    ],
    [
      'black-and-white',
      20,
      [
        of('developer', 1, 405),
        of('stop bath', 2, 30),
        of('fixer', 3, 420),
        of('water', null, 600),
        of('final rinse', 4, 30),
      ],
    ],
  ] as const)('says nothing that belongs to motion-picture film: %s', (sheet, aimC, steps) => {
    const all = said(sheet, aimC, steps);
    expect(all.filter((text) => ofEcn2.test(text))).toEqual([]);
    expect(all.some((text) => /answer: Film is hanging/.test(text))).toBe(true);
    // each knows how much film its own developer does
    expect(
      all.filter((t) => /^is the developer still good → answer: About \d+ more/.test(t)).length,
    ).toBeGreaterThan(2);
  });

  it('knows what a litre of each developer does, and says when it has done it', () => {
    const through = (sheet: string, films: number) => {
      const sink = new Sink(sheet, false);
      for (const line of ['start a run', 'film is loaded', `${films} rolls of 35 mm film`]) sink.say(line);
      return sink.say('is the developer still good').join(' ');
    };
    // six hundred millilitres: 3 of the motion-picture developer, 4 of C-41, 2 of black and white
    expect(through('ecn2-ferricyanide', 1)).toMatch(/About 3 more/);
    expect(through('c41', 1)).toMatch(/About 4 more/);
    expect(through('black-and-white', 1)).toMatch(/About 2 more/);
  });

  it.each(['c41', 'black-and-white'])(
    'does not speak of ferricyanide to an acid and a bleach without any: %s',
    (sheet) => {
      const sink = new Sink(sheet, false);
      sink.say('bottle 7 holds 200 ml of bleach');
      sink.say('bottle 8 holds 600 ml of stop bath');
      const text = sink.say('pouring bottle 8 into bottle 7').join(' ');
      if (sheet === 'c41') expect(text).not.toMatch(/ferricyan/i);
      expect(text).toMatch(/warning: No\./);
    },
  );
});

describe('a bath that only a sheet of one’s own has', () => {
  it('can be said by each of its names, is called by its own, and is judged by its role', () => {
    const folder = mkdtempSync(join(tmpdir(), 'tankside-own-'));
    const file = join(folder, 'toned.json');
    const toner = {
      id: 'toner',
      name: 'selenium toner',
      spoken: ['selenium toner', 'toner'],
      role: 'rinse',
      plausibleC: { minC: 10, maxC: 50 },
    };
    const rinse = blackAndWhite.steps.find((s) => s.id === 'final-rinse');
    writeFileSync(
      file,
      JSON.stringify({
        ...blackAndWhite,
        id: 'toned',
        name: 'toned',
        liquids: [...(blackAndWhite.liquids ?? []), toner],
        steps: blackAndWhite.steps.flatMap((s) =>
          s.id === 'final-rinse' ? [{ ...rinse, id: 'toner', name: 'toner', liquid: 'toner' }, s] : [s],
        ),
      }),
    );
    const sink = new Sink(file, false);
    const say = (line: string) => sink.say(line).join(' ');
    expect(say('bottle 5 holds 600 ml of toner')).toMatch(/Bottle 5 holds 600 millilitres of selenium toner/);
    expect(say('what is in bottle 5')).toMatch(/selenium toner/);
    say('start a run');
    say('film is loaded');
    expect(say('pouring the selenium toner in from bottle 5')).toMatch(/comes last/);
    expect(say('cancel')).toMatch(/Cancelled/);
    expect(say('spilled 20 ml of toner on the table')).toMatch(/20 millilitres of selenium toner/);
    rmSync(folder, { recursive: true, force: true });
  });
});
