#!/usr/bin/env node
import { exitCode, Refusal } from './exit.js';
import { createProgram } from './program.js';
import { harmlessConsole } from './screen.js';

// what is written down at the sink is its owner's alone
process.umask(0o077);
harmlessConsole();

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // `tankside talk … | head` closes the pipe early; that is no fault.
  if (error.code === 'EPIPE') process.exit(exitCode.ok);
});

try {
  await createProgram().parseAsync();
} catch (error) {
  if (error instanceof Refusal) {
    console.error(error.message);
    process.exitCode = error.code;
  } else {
    console.error(
      `Something went wrong inside tankside: ${error instanceof Error ? error.message : String(error)}`,
    );
    if (process.env.TANKSIDE_DEBUG && error instanceof Error) console.error(error.stack);
    process.exitCode = exitCode.failed;
  }
}
