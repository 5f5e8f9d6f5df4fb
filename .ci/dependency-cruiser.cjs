/**
 * The arrows between the rooms, as DEVELOPERS.md draws them: each room lists the rooms it may import.
 * `language` may take types (not code) from the rooms whose messages it puts into words, and the table of intents.
 */
const rooms = {
  chemistry: [],
  thermal: [],
  world: ['chemistry', 'thermal'],
  process: ['world', 'chemistry', 'thermal'],
  ledger: ['world', 'process', 'chemistry'],
  review: ['world', 'ledger', 'process', 'chemistry', 'thermal'],
  language: [],
  speech: ['language'],
  screen: [],
};
const typeOnly = { language: ['world', 'process', 'chemistry', 'thermal', 'ledger', 'review'] };
const pure = '^src/(chemistry|thermal|world|process|language|review)/';

const forbidden = Object.entries(rooms).map(([room, allowed]) => ({
  name: `arrows-${room}`,
  severity: 'error',
  comment: `src/${room} may import ${allowed.length ? allowed.join(', ') : 'no other room'}`,
  from: { path: `^src/${room}/` },
  to: {
    path: '^src/',
    pathNot: ['^src/limits.ts$', `^src/${room}/`, ...allowed.map((r) => `^src/${r}/`), ...(typeOnly[room] ?? []).map((r) => `^src/${r}/`)],
  },
}));

for (const [room, allowed] of Object.entries(typeOnly)) {
  forbidden.push({
    name: `types-only-${room}`,
    severity: 'error',
    comment: `src/${room} may take types, not code, from ${allowed.join(', ')}`,
    from: { path: `^src/${room}/` },
    to: { path: `^src/(${allowed.join('|')})/`, pathNot: '^src/process/intent.ts$', dependencyTypesNot: ['type-only'] },
  });
}

forbidden.push(
  { name: 'no-cycles', severity: 'error', from: { path: '^src/' }, to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } } },
  {
    name: 'pure-rooms',
    severity: 'error',
    comment: 'pure rooms know no clock, file, process or console: those are passed in by src/app',
    from: { path: pure },
    to: { dependencyTypes: ['core'] },
  },
  { name: 'no-tests-in-src', severity: 'error', from: { path: '^src/' }, to: { path: '^tests/' } },
);

module.exports = {
  forbidden,
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default'] },
  },
};
