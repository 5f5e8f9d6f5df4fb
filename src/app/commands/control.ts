import type { Command } from 'commander';
import {
  type Densities,
  deviations,
  drifts,
  isDensity,
  measures,
  plotLines,
  readStrips,
  type Strip,
  writeStrips,
} from '../../chemistry/control-strip.js';
import type { Fact } from '../../world/fact.js';
import { Refusal } from '../exit.js';
import { localDate } from '../local-date.js';
import { readText } from '../read-text.js';

const words = { dMin: 'D-min', speed: 'speed (low density)', contrast: 'contrast (high less low)' } as const;

/** Control strips by hand: Status M densities in, deviations, drift and a plot out. They stand in the journal, and so in its backups. */
export function registerControl(program: Command, deps: ControlDeps): void {
  const control = program
    .command('control')
    .description('control strips: densities by hand, their drift and a plot')
    .addHelpText(
      'after',
      '\nThe first strip is the reference.\nExample: tankside control add --dmin 0.22,0.58,0.90 --low 0.62,1.05,1.40 --high 1.45,2.05,2.50',
    );
  control
    .command('add')
    .description('notes a strip, Status M densities as RED,GREEN,BLUE')
    .requiredOption('--dmin <rgb>', 'the clear patch')
    .requiredOption('--low <rgb>', 'the low-density patch')
    .requiredOption('--high <rgb>', 'the high-density patch')
    .option('--date <day>', 'YYYY-MM-DD; today when not given')
    .action(async (options: { dmin: string; low: string; high: string; date?: string }) => {
      const strips = await deps.readStrips();
      const strip: Strip = {
        date: options.date ?? localDate(Date.now()),
        patches: {
          dMin: densities('--dmin', options.dmin),
          lowDensity: densities('--low', options.low),
          highDensity: densities('--high', options.high),
        },
      };
      await deps.recordFacts([{ type: 'control-strip', ...strip }]);
      if (strips.length === 0) console.log('Noted as the reference that later strips are held against.');
      else for (const line of verdict(strip, strips[0] ?? strip)) console.log(line);
    });
  control
    .command('show')
    .description('plots all strips against the first, and tells drift')
    .action(async () => {
      const strips = await deps.readStrips();
      const [reference] = strips;
      if (reference === undefined) {
        console.log('No strip is noted yet. See: tankside control add --help');
        return;
      }
      for (const measure of measures) {
        console.log(`${words[measure]}, less on the left, more on the right`);
        for (const line of plotLines(strips, reference, measure)) console.log(line);
      }
      const drifting = drifts(strips, reference);
      for (const d of drifting) {
        const left =
          d.stripsLeft === 0 ? 'it is past its limit' : `about ${d.stripsLeft} strips to its limit`;
        console.log(
          `${words[d.measure]}, ${d.channel}: ${d.perStrip > 0 ? '+' : ''}${d.perStrip.toFixed(3)} a strip, ${left}.`,
        );
      }
      if (drifting.length === 0)
        console.log('No drift from strip to strip that stands out from the scatter.');
    });
  control
    .command('export')
    .description('prints all strips as comma-separated values')
    .action(async () => {
      process.stdout.write(writeStrips(await deps.readStrips()));
    });
  control
    .command('import <file>')
    .description('adds the strips of such a file')
    .action(async (file: string) => {
      const read = readStrips(
        readText(file, `${file} cannot be read. It should be what control export prints.`),
      );
      if (!read.ok) throw new Refusal(read.why);
      await deps.recordFacts(read.strips.map((strip) => ({ type: 'control-strip' as const, ...strip })));
      console.log(`${read.strips.length} strips added.`);
    });
}

export interface ControlDeps {
  readStrips(): Promise<Strip[]>;
  recordFacts(facts: Fact[]): Promise<void>;
}

/** @throws Refusal with what was expected */
function densities(option: string, text: string): Densities {
  const [red, green, blue, ...more] = text.split(',').map(Number);
  if (more.length > 0 || !isDensity(red) || !isDensity(green) || !isDensity(blue)) {
    throw new Refusal(
      `${option} takes three Status M densities from 0 to 5, like 0.62,1.05,1.40, not "${text}".`,
    );
  }
  return { red, green, blue };
}

function verdict(strip: Strip, reference: Strip): string[] {
  const off = deviations(strip, reference).filter((d) => d.level !== 'in');
  if (off.length === 0) return ['In control: every patch is within its action limit.'];
  return off.map(
    (d) =>
      `${words[d.measure]}, ${d.channel}: ${d.by > 0 ? '+' : ''}${d.by.toFixed(2)}, ${d.level === 'out' ? 'out of control' : 'over the action limit'}.`,
  );
}
