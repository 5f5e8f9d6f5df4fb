// A setup file for vitest: writes what every line of the tests was weighed as, for `ranker.py` to keep as it is.
// KEPT=FILE npx vitest run --config tests/vitest.config.ts --setupFiles training/ranker-kept.mjs tests/app/untidy-days …
import { appendFileSync } from 'node:fs';
import { vi } from 'vitest';

vi.mock('../src/language/open/ranker.ts', async (original) => {
  const real = await original();
  const rankerOf = (weights) => {
    const rank = real.rankerOf(weights);
    return (candidates, line) => {
      const scores = rank(candidates, line);
      const of = candidates.map((c, i) => ({
        score: scores[i],
        features: Object.fromEntries(real.featuresOf(c, line)),
      }));
      appendFileSync(process.env.KEPT, `${JSON.stringify({ words: line.words, of })}\n`);
      return scores;
    };
  };
  return { ...real, rankerOf };
});
