/** A fault made by hand: a piece of text that stands once in its file, and what stands there instead. */
export interface Fault {
  what: string;
  file: string;
  was: string;
  now: string;
}

/** Faults that tests let pass before, or that would do the most harm. */
export const faults: readonly Fault[] = [
  {
    what: 'a confirm accepts any verdict',
    file: 'src/process/run-flow.ts',
    was: "if (pending.verdict === 'ruinous') {",
    now: 'if (false) {',
  },
  {
    what: 'a cleared pour that turned ruinous is not withdrawn',
    file: 'src/process/run-pours.ts',
    was: 'if (news) decide(turn, request, vouched);',
    now: "if (news && found.verdict !== 'ruinous') decide(turn, request, vouched);",
  },
  {
    what: 'a reading is trusted for 150 minutes',
    file: 'src/process/guard-checks.ts',
    was: 'freshMs = 15 * 60_000',
    now: 'freshMs = 150 * 60_000',
  },
  {
    what: 'the time to drain is forgotten once time was added',
    file: 'src/process/timing.ts',
    was: 'leadS: Math.min(',
    now: 'leadS: addedS > 0 ? 0 : Math.min(',
  },
  {
    what: 'the bath does not go on while the person is held up',
    file: 'src/process/run-baths.ts',
    was: "turn.say('answer', { id: 'held-up'",
    now: "turn.send({ type: 'ADD', seconds: 30 });\n  turn.say('answer', { id: 'held-up'",
  },
  {
    what: 'the next bath is called for by the plan, however early the tank began to drain',
    file: 'src/process/timing.ts',
    was: 'dueMs: Math.min(aimMs ?? Number.POSITIVE_INFINITY, began + clock.leadS * 1000)',
    now: 'dueMs: aimMs ?? began',
  },
  {
    what: 'a bath of pH 2.6 is not taken for acid',
    file: 'src/chemistry/mixture.ts',
    was: 'solved.value.ph < acidPh',
    now: 'solved.value.ph < 2.6',
  },
  {
    what: 'a line a tenth short passes when the batch was grown',
    file: 'src/chemistry/coach/step.ts',
    was: 'const settled = left <= line.tolerance ||',
    now: 'const settled = left <= line.amount / 10 ||',
  },
  {
    what: 'whatever is poured into a bottle counts as its replenisher',
    file: 'src/world/vessels.ts',
    was: "(from.kind === 'jug' || from.kind === 'bottle') &&\n    foreignShare(what, label) < 0.5 &&",
    now: '',
  },
  {
    what: 'another bath poured in counts as replenisher',
    file: 'src/world/vessels.ts',
    was: 'foreignShare(what, label) < 0.5 &&',
    now: '',
  },
  {
    what: 'what comes back from the tank counts as replenisher',
    file: 'src/world/vessels.ts',
    was: "(from.kind === 'jug' || from.kind === 'bottle') &&",
    now: '',
  },
  {
    what: 'an earlier stay in the developer is forgotten',
    file: 'src/process/timing.ts',
    was: 'fullS - hadS(bath.filmBefore, bath.role, fullS)',
    now: 'fullS',
  },
  {
    what: 'the clock starts when the bath was said to be in, not when it went in',
    file: 'src/world/reduce.ts',
    was: 'const sinceMs = fact.sinceMs ?? atMs;',
    now: 'const sinceMs = atMs;',
  },
  {
    what: 'the stay in the old bath is not ended by what is poured on top of it',
    file: 'src/world/reduce.ts',
    was: "leaving || (fact.to.kind === 'tank' && !topUp) ? endContact",
    now: 'leaving ? endContact',
  },
  {
    what: 'a film is exposed to the temperature of the bottle, not of the tank',
    file: 'src/process/run-baths.ts',
    was: 'atAimS(turn.sheet.rate, aimC, world.tank.bath?.readings ?? [], clock.sinceMs, atMs)',
    now: 'atAimS(turn.sheet.rate, aimC, world.tank.bath?.readings.slice(0, 1) ?? [], clock.sinceMs, atMs)',
  },
  {
    what: 'a bottle that is emptied and filled anew keeps its old reading',
    file: 'src/world/reduce.ts',
    was: 'return forgetReading(withAccount(empty, { drainedMl }), number, bottle.liquid);',
    now: 'return withAccount(empty, { drainedMl });',
  },
  {
    what: 'a spill that nobody can place is not accounted for',
    file: 'src/world/reduce.ts',
    was: 'return withAccount(before, { foundMl: fact.volumeMl, spilledMl: fact.volumeMl });',
    now: 'return before;',
  },
  {
    what: 'a developer that is too cold or too hot is cleared',
    file: 'src/process/guard-checks.ts',
    was: 'else if (off && !shown.time)',
    now: 'else if (false)',
  },
  {
    what: 'what clung to the film and got into a bath is forgotten when that is poured again',
    file: 'src/process/guard-checks.ts',
    was: 'if (trace) entries.push({ ...trace, params: { ...trace.params, ...place } });',
    now: '',
  },
  {
    what: 'a bath that another one was poured into is cleared',
    file: 'src/process/guard-checks.ts',
    was: "if (mixture && mixture.verdict !== 'use') {",
    now: 'if (false) {',
  },
  {
    what: 'an exhausted bath is cleared',
    file: 'src/process/guard-checks.ts',
    was: 'if (worn)',
    now: 'if (false)',
  },
  {
    what: 'a bath of another process is taken for that of the recipes',
    file: 'src/world/life.ts',
    was: '(formulasHold(baths) ? recipes.find((recipe) => recipe.liquid === bottle.liquid) : undefined)',
    now: 'recipes.find((recipe) => recipe.liquid === bottle.liquid)',
  },
  {
    what: 'the film that goes through a bath is not counted',
    file: 'src/world/reduce.ts',
    was: 'tank: { ...filled.tank, workM2: filled.tank.workM2 + areaM2 }',
    now: 'tank: filled.tank',
  },
  {
    what: 'a splash of water washes off whatever clings',
    file: 'src/world/film.ts',
    was: 'carry: film.washS + seconds >= washedAfterS(film.carry) ? null : film.carry,',
    now: 'carry: null,',
  },
  {
    what: 'a film is developed a second time',
    file: 'src/process/guard-table.ts',
    was: "developer: x('more-development'),",
    now: "developer: c('due'),",
  },
  {
    what: 'a bleached film is developed',
    file: 'src/process/guard-table.ts',
    was: "developer: x('redevelops'),",
    now: "developer: c('due'),",
  },
  {
    what: 'a silver picture is bleached',
    file: 'src/process/guard-table.ts',
    was: "(film.kind.image === 'silver' && silverPicture[stage]?.[role]) ||",
    now: '',
  },
  {
    what: 'a bleach that stands developer is taken for one that does not',
    file: 'src/process/guard-table.ts',
    was: ' || into.tolerates?.includes(clings.role)',
    now: '',
  },
  {
    what: 'bleach goes into the bottle of the developer',
    file: 'src/process/guard-table.ts',
    was: `  bleach: spoils('bleach', {
    developer: x('bleach-developer-bottle'),`,
    now: `  bleach: spoils('bleach', {
    developer: c('own-bottle'),`,
  },
  {
    what: 'a bottle that is emptied and filled anew stays spoilt',
    file: 'src/world/vessels.ts',
    was: `  contaminations: [],
`,
    now: '',
  },
  {
    what: 'what was there and nobody had said so is not accounted for',
    file: 'src/world/vessels.ts',
    was: 'foundMl: whole.volumeMl - taken.volumeMl,',
    now: 'foundMl: 0,',
  },
  {
    what: 'a bath counts for half its time',
    file: 'src/world/reduce.ts',
    was: 'seconds: Math.max(0, atMs - bath.sinceMs) / 1000,',
    now: 'seconds: Math.max(0, atMs - bath.sinceMs) / 2000,',
  },
  {
    what: 'a latent picture outlives the fixer',
    file: 'src/world/film.ts',
    was: "if (film.image === 'latent') return { image: 'lost', halide: false };",
    now: '',
  },
  {
    what: 'a reading that was asked about is believed',
    file: 'src/process/guard-checks.ts',
    was: 'if (doubt && (!reading || doubt.atMs >= reading.atMs))',
    now: 'if (false)',
  },
];
