import { performance } from 'node:perf_hooks';
import { takeReading } from '../../src/thermal/bench/estimate.js';
import { curveOf, forecast, readiness } from '../../src/thermal/bench/forecast.js';
import { seeded } from '../seeded.js';
import { drawTruth, type Outcome, observe, quantile, score, thermometers } from '../thermal/synthetic.js';

/**
 * Forecasts against synthetic truth, and the time a fit takes. Build, then
 * `node … thermal.js [benches] [rounds]`: 2000 benches and three rounds of readings when not given.
 */
const benches = Number(process.argv[2] ?? 2000);
const roundsAsked = (process.argv[3] ?? '3').split(',').map(Number);

function report(name: string, outcomes: readonly Outcome[]): void {
  const errors = outcomes.flatMap((o) => (o.errorS === null ? [] : [Math.abs(o.errorS)]));
  const signed = outcomes.flatMap((o) => (o.errorS === null ? [] : [o.errorS]));
  const held = outcomes.filter((o) => o.inBand).length / outcomes.length;
  const bands = outcomes.map((o) => o.bandS);
  console.log(
    [
      `  ${name}: ${outcomes.length} forecasts`,
      `median |error| ${quantile(errors, 0.5).toFixed(0)} s`,
      `median error ${quantile(signed, 0.5).toFixed(0)} s`,
      `90 % of |errors| below ${quantile(errors, 0.9).toFixed(0)} s`,
      `band holds ${(100 * held).toFixed(1)} %`,
      `median band ${quantile(bands, 0.5).toFixed(0)} s`,
      `no time given ${outcomes.length - errors.length}`,
    ].join(', '),
  );
}

for (const thermometer of Object.values(thermometers)) {
  for (const rounds of roundsAsked) {
    const random = seeded(41);
    const outcomes: Outcome[] = [];
    for (let b = 0; b < benches; b++) {
      const truth = drawTruth(random);
      const { estimate, atS } = observe(truth, random, rounds, 180, thermometer);
      outcomes.push(...score(b, truth, estimate, atS));
    }
    console.log(`${benches} benches, ${thermometer.name}, ${rounds} readings of each, 3 minutes apart`);
    report('every vessel', outcomes);
    report(
      'tub warm at the start',
      outcomes.filter((o) => o.tubStartC >= 33),
    );
    report(
      'tub cold at the start',
      outcomes.filter((o) => o.tubStartC < 33),
    );
    report(
      'tight (developer ±0.3 °C)',
      outcomes.filter((o) => o.vessel === 0),
    );
    report(
      'others (±1 to ±2 °C)',
      outcomes.filter((o) => o.vessel !== 0),
    );
  }
}

/** Fastest of five, ms: other work on the machine only ever adds. */
function fastest(work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 5; i++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

const random = seeded(7);
const fits: number[] = [];
const forecasts: number[] = [];
for (let b = 0; b < 100; b++) {
  const truth = drawTruth(random);
  const { estimate, atS } = observe(truth, random, 1 + (b % 6), 180, thermometers.normal);
  const tempC = truth.curves[1]?.[atS] ?? 0;
  const reading = { key: 'bottle-1', tempC, atMs: atS * 1000, sdC: 0.2 };
  const fitted = takeReading(estimate, reading);
  fits.push(fastest(() => takeReading(estimate, reading)));
  forecasts.push(
    fastest(() => {
      const f = forecast(fitted, atS * 1000);
      truth.vessels.forEach((v, i) => {
        const curve = curveOf(f, v.key);
        const aim = truth.aims[i];
        if (curve && aim) readiness(f, curve, aim);
      });
    }),
  );
}
console.log(
  `fit of all vessels after a reading: median ${quantile(fits, 0.5).toFixed(2)} ms, 95 % ${quantile(fits, 0.95).toFixed(2)} ms; ` +
    `forecast of four hours: median ${quantile(forecasts, 0.5).toFixed(2)} ms, 95 % ${quantile(forecasts, 0.95).toFixed(2)} ms`,
);
