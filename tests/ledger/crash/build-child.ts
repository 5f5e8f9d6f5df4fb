import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The project, found from the source or from a compiled copy of this file. */
const root = ((): string => {
  const here = dirname(fileURLToPath(import.meta.url));
  const at = here.lastIndexOf(`${join('tests', 'ledger', 'crash')}`);
  const base = here.slice(0, at);
  return base.includes('dist') ? resolve(base, '..', '..') : base;
})();

/** Compiles a child program and what it imports into `out`, so that plain Node can run it. The path to run. */
export function buildChild(out: string, source = 'tests/ledger/crash/child.ts'): string {
  const done = new Set<string>();
  const todo = [join(root, source)];
  for (let file = todo.pop(); file !== undefined; file = todo.pop()) {
    if (done.has(file)) continue;
    done.add(file);
    const text = readFileSync(file, 'utf8');
    const { outputText } = ts.transpileModule(text, {
      compilerOptions: {
        module: ts.ModuleKind.ES2022,
        target: ts.ScriptTarget.ES2022,
        verbatimModuleSyntax: true,
      },
    });
    const target = join(out, relative(root, file)).replace(/\.ts$/, '.js');
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, outputText);
    for (const [, path] of outputText.matchAll(/from '(\.[^']+)\.js'/g))
      todo.push(resolve(dirname(file), `${path}.ts`));
  }
  writeFileSync(join(out, 'package.json'), '{"type":"module"}');
  symlinkSync(join(root, 'node_modules'), join(out, 'node_modules'), 'junction');
  return join(out, source).replace(/\.ts$/, '.js');
}
