import { describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { Hushed } from '../../src/app/live.js';
import { letTimePass } from '../../src/app/play-script.js';
import { readScript } from '../../src/app/script.js';
import { type Fact, factSchema } from '../../src/world/fact.js';
import { inDeveloper, wholeRoll } from './untidy-days/usual.js';

const untidy = [
  'spilled 20 ml of developer',
  'the thermometer reads half a degree too high',
  'developer is at 60',
  'the bleach in bottle four is 12 days old and has done three films',
  'the pH of the developer in bottle two is 10.2',
  'some fixer got into bottle 6',
  'bottles 4 and 5 changed places',
  'call bottle 3 blue cap',
  'note the tank leaks',
  'undo',
];

function factsOf(lines: readonly string[]): Fact[] {
  const facts: Fact[] = [];
  const clock = new SimulatedClock();
  const conversation = new Conversation({
    ...createBench({ sheet: 'ecn2-ferricyanide' }),
    clock,
    speech: new Hushed(),
    journal: {
      append: (_event, found) => {
        facts.push(...found);
        return null;
      },
    },
  });
  const read = readScript(lines.join('\n'));
  if ('problem' in read) throw new Error(read.problem);
  for (const step of read.steps)
    if (step.do === 'wait') letTimePass(conversation, clock, step.ms);
    else if (step.do === 'type') conversation.typed(step.line);
  return facts;
}

describe('facts on their way through a file', () => {
  it.each([
    ['as it should be', wholeRoll, 30],
    ['untidy', [...inDeveloper, ...untidy], 20],
  ])('of a day %s are what they were', (_, lines, least) => {
    const facts = factsOf(lines);
    expect(facts.length).toBeGreaterThan(least);
    for (const fact of JSON.parse(JSON.stringify(facts)) as Fact[])
      expect(factSchema.parse(fact)).toEqual(fact);
  });

  it('keep what a newer program has put into them, however deep', () => {
    const film = { stock: 'a film', format: '35mm', base: 'thin' };
    const told = { type: 'films-told', films: [film], by: 'label' };
    const undone = { type: 'undone', what: 'x', facts: [told], later: 1 };
    expect(factSchema.parse(undone)).toEqual(undone);
  });

  it.each([
    { type: 'poured', liquid: 'developer' },
    { type: 'temperature', vessel: { kind: 'bottle', number: 2 }, tempC: 'warm' },
    { type: 'temperature', vessel: { kind: 'bucket' }, tempC: 20 },
    { type: 'undone', what: 'x', facts: [{ type: 'heater-told', on: 1 }] },
    { type: 'of-no-program' },
  ])('that are none are refused: %o', (fact) => {
    expect(factSchema.safeParse(fact).success).toBe(false);
  });
});
