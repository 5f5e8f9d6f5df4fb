import { describe, expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';

const bench = createBench({ sheet: 'ecn2-ferricyanide' });
const said = (line: string): string => {
  const meant = bench.language.typed(line, ['immersed', 'anytime']);
  const answer = meant.kind === 'understood' ? bench.talk(meant.intent, 0) : null;
  return answer === null ? '' : 'say' in answer ? answer.say : `as ${answer.as.type}`;
};

describe('talk', () => {
  it('answers every question of the trade from its own record, in at most twenty words', () => {
    const advice = bench.language.records().filter((r) => r.intent === 'ask-advice');
    expect(advice.length).toBeGreaterThan(20);
    for (const r of advice) expect(r.answer?.split(' ').length, r.id).toBeLessThanOrEqual(20);
    // the same topic is asked for both ways round: "do I need gloves", "can I go without"
    for (const r of advice) expect(r.answer, r.id).not.toMatch(/^(?:yes|no)[,.:]/i);
    expect(said('the film jammed on the reel')).toMatch(/^Stay in the dark/);
    expect(said('do I add acid to water or water to acid')).toMatch(/^Acid into water/);
  });

  it('judges a temperature by the sheet; what is due, and for how long, is the run’s, which knows what is in the bottle', () => {
    expect(said('is 39 too cold for the developer')).toMatch(/too cold: aim 41\.1/);
    expect(said('what temperature should the developer be')).toBe('');
    expect(said('how long does the developer stay in')).toBe('');
  });

  it('hands on what a desk can answer, and leaves deeds alone', () => {
    expect(said('when will i be done')).toBe('as ask-where');
    expect(said('the tank is empty')).toBe('');
  });
});
