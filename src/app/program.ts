import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Command } from 'commander';
import { sheets } from '../process/sheets/index.js';
import { registerControl } from './commands/control.js';
import { registerDiagram } from './commands/diagram.js';
import { registerDoctor } from './commands/doctor.js';
import { registerFetchModel } from './commands/fetch-model.js';
import { registerHear } from './commands/hear.js';
import { registerLedger } from './commands/ledger.js';
import { registerMix } from './commands/mix.js';
import { registerPositive } from './commands/positive.js';
import { registerRehearse } from './commands/rehearse.js';
import { registerRun } from './commands/run.js';
import { registerShelf } from './commands/shelf.js';
import { registerTalk } from './commands/talk.js';
import { registerWhy } from './commands/why.js';
import { exitCode } from './exit.js';
import { root } from './paths.js';
import { harmless } from './screen.js';
import { shelfStore } from './shelf-store.js';

/** The command line. Each command loads what it needs only when it runs, so that a start is quick. */
export function createProgram(): Command {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
  const program = new Command('tankside')
    .description('A hands-free voice and chat assistant for processing colour film at home.')
    .version(version)
    .configureOutput({ writeErr: (text) => process.stderr.write(harmless(text)) })
    .showHelpAfterError('Add --help to see how this command is used.')
    .exitOverride((error) => {
      process.exit(error.exitCode === 0 ? exitCode.ok : exitCode.badInput);
    });
  registerRun(program);
  registerTalk(program);
  registerHear(program);
  registerRehearse(program);
  registerMix(program, shelfStore());
  registerShelf(program, shelfStore());
  for (const command of writersOfTheShelf(program))
    command.option('--data <folder>', 'where the journal is kept');
  program.hook('preAction', (_program, command) => {
    const { data } = command.opts<{ data?: string }>();
    if (data) process.env.TANKSIDE_DATA = data;
  });
  registerControl(program, shelfStore());
  registerLedger(program, { sheets: () => sheets });
  registerPositive(program);
  registerWhy(program);
  registerDiagram(program);
  registerDoctor(program);
  registerFetchModel(program);
  return program;
}

const writersOfTheShelf = (program: Command): Command[] =>
  program.commands.flatMap((c) => (c.name() === 'mix' ? [c] : c.name() === 'shelf' ? c.commands : []));
