/**
 * Writes what a release carries beside the program: a software bill of materials (CycloneDX, by npm itself, from the
 * lock file) and the licence of every package that is shipped, with its text where the package has one.
 *   node .ci/release-papers.mjs [FOLDER]      dist when not given; works without a network
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2] ?? 'dist';
mkdirSync(folder, { recursive: true });
const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
const nameOf = (path) => path.replace(/^.*node_modules\//, '');
const released = new Map(
  Object.entries(packages).flatMap(([path, p]) => (path === '' || p.dev ? [] : [[`${nameOf(path)}@${p.version}`, p]])),
);
const lockOf = (c) => released.get(`${c.group ? `${c.group}/` : ''}${c.name}@${c.version}`);
const bill = JSON.parse(
  execFileSync('npm', ['sbom', '--sbom-format', 'cyclonedx', '--package-lock-only'], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  }),
);
// npm's own --omit dev leaves out what a development tool needs too
bill.components = bill.components.filter(lockOf);
for (const c of bill.components) c.licenses ??= [{ license: { name: lockOf(c).license ?? 'unknown' } }];
const refs = new Set([bill.metadata.component['bom-ref'], ...bill.components.map((c) => c['bom-ref'])]);
bill.dependencies = bill.dependencies
  .filter((d) => refs.has(d.ref))
  .map((d) => ({ ...d, dependsOn: d.dependsOn?.filter((ref) => refs.has(ref)) }));
writeFileSync(join(folder, 'sbom.cdx.json'), `${JSON.stringify(bill, null, 2)}\n`);

const shipped = Object.entries(packages).filter(([path, p]) => path !== '' && !p.dev && existsSync(path));
const parts = shipped.map(([path, p]) => {
  const file = readdirSync(path).find((f) => /^(licen[cs]e|copying)/i.test(f));
  const text = file ? readFileSync(join(path, file), 'utf8').trim() : '(no text comes with the package)';
  return `${nameOf(path)} ${p.version}: ${p.license ?? 'see below'}\n\n${text}\n`;
});
writeFileSync(join(folder, 'THIRD-PARTY.txt'), parts.join(`\n${'-'.repeat(80)}\n\n`));
const missing = released.size - new Set(bill.components.map((c) => lockOf(c))).size;
if (missing > 0) throw new Error(`${missing} packages of the lock file are not in the bill of materials`);
const unnamed = shipped.filter(([, p]) => !p.license).map(([path]) => path);
console.log(`${bill.components.length} components in ${folder}/sbom.cdx.json, ${parts.length} licences.`);
if (unnamed.length > 0) console.log(`Without a licence named in the lock file: ${unnamed.join(', ')}`);
