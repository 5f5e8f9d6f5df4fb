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
const bill = execFileSync('npm', ['sbom', '--sbom-format', 'cyclonedx', '--omit', 'dev', '--package-lock-only'], {
  encoding: 'utf8',
  maxBuffer: 1 << 28,
});
writeFileSync(join(folder, 'sbom.cdx.json'), bill);

const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
const shipped = Object.entries(packages).filter(([path, p]) => path !== '' && !p.dev && existsSync(path));
const parts = shipped.map(([path, p]) => {
  const file = readdirSync(path).find((f) => /^(licen[cs]e|copying)/i.test(f));
  const text = file ? readFileSync(join(path, file), 'utf8').trim() : '(no text comes with the package)';
  return `${path.replace(/^.*node_modules\//, '')} ${p.version}: ${p.license ?? 'see below'}\n\n${text}\n`;
});
writeFileSync(join(folder, 'THIRD-PARTY.txt'), parts.join(`\n${'-'.repeat(80)}\n\n`));
const unnamed = shipped.filter(([, p]) => !p.license).map(([path]) => path);
console.log(`${JSON.parse(bill).components.length} components in ${folder}/sbom.cdx.json, ${parts.length} licences.`);
if (unnamed.length > 0) console.log(`Without a licence named in the lock file: ${unnamed.join(', ')}`);
