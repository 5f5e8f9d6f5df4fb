import { describe, expect, it } from 'vitest';
import { talk } from './dialogues/talk.js';

describe('other units', () => {
  it('says them in grams, millilitres and degrees', async () => {
    const d = await talk(
      [
        'convert 100 fahrenheit',
        "what's 2 ounces in grams",
        'how many grams in half a pound',
        'how much is 16 fl oz in ml',
        'what is 38 celsius in fahrenheit',
      ].join('\n'),
    );
    // (100 - 32) / 1.8; 2 × 28.3495 g; 453.592 g / 2; 16 × 29.5735 and 28.4131 ml; 38 × 1.8 + 32
    expect(d.text('convert 100 fahrenheit')).toContain('37.8 degrees');
    expect(d.text("what's 2 ounces in grams")).toContain('56.70 grams');
    expect(d.text('how many grams in half a pound')).toContain('226.80 grams');
    expect(d.text('how much is 16 fl oz in ml')).toMatch(/473 millilitres.*455 millilitres/);
    expect(d.text('what is 38 celsius in fahrenheit')).toContain('100.4 Fahrenheit');
  });
  it('a scale that shows something when empty is to be zeroed', async () => {
    const d = await talk('my scale reads 3 grams with nothing on it\n');
    expect(d.text('my scale reads 3 grams with nothing on it')).toMatch(/^Zero it/);
  });
});
