/**
 * Looks over the lock file: every package must be pinned by a checksum (a failure here fails CI), and known faults are
 * told where the registry answers such questions. It tells, and does not fail, for most have no bearing on this use.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8'));
const loose = Object.entries(packages).filter(([path, p]) => path !== '' && !p.link && !p.inBundle && !p.integrity);
if (loose.length > 0) {
  console.error(`Not pinned by a checksum in package-lock.json: ${loose.map(([path]) => path).join(', ')}`);
  process.exitCode = 1;
}
const asked = spawnSync('npm', ['audit', '--omit', 'dev', '--package-lock-only', '--json'], {
  encoding: 'utf8',
  timeout: 60_000,
  maxBuffer: 1 << 28,
});
const found = (() => {
  try {
    return JSON.parse(asked.stdout).metadata?.vulnerabilities;
  } catch {
    return undefined;
  }
})();
console.log(
  found
    ? `Known faults in shipped packages: ${Object.entries(found).map(([level, n]) => `${level} ${n}`).join(', ')}.`
    : 'The registry answers no audit, so known faults were not looked up.',
);
