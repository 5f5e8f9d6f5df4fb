import type { Command } from 'commander';
import { exitCode, Refusal } from '../exit.js';
import { dataDir } from '../paths.js';

export function registerFetchModel(program: Command): void {
  program
    .command('fetch-model')
    .description('download a Whisper model as a second opinion on pours; only now, only because you ask')
    .option('--name <model>', 'a model of the hub in the layout of @xenova/transformers')
    .option('--host <url>', 'another host that serves the same files')
    .option('--data <folder>', 'where it is kept')
    .action(async (options: { name?: string; host?: string; data?: string }) => {
      const { fetchModel } = await import('../../speech/second-opinion/whisper.js');
      const { secondOpinionDir } = await import('../second-opinion.js');
      let shown = '';
      const fetched = await fetchModel(secondOpinionDir(dataDir(options.data)), {
        ...(options.name ? { name: options.name } : {}),
        ...(options.host ? { host: options.host } : {}),
        onProgress: (file) => {
          if (String(file) !== shown) console.log(String(file));
          shown = String(file);
        },
      });
      if (typeof fetched !== 'string') throw new Refusal(fetched.problem, exitCode.failed);
      console.log(`The model is in ${fetched}. From the next start it is asked about every pour.`);
    });
}
