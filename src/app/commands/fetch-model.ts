import { performance } from 'node:perf_hooks';
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
      const { DEFAULT_MODEL, fetchModel } = await import('../../speech/second-opinion/fetch.js');
      const { loadWhisper } = await import('../../speech/second-opinion/whisper.js');
      const { secondOpinionDir } = await import('../second-opinion.js');
      const bar = progressBar(process.stdout);
      console.log(`Fetching ${options.name ?? DEFAULT_MODEL}.`);
      const fetched = await fetchModel(secondOpinionDir(dataDir(options.data)), {
        ...(options.name ? { name: options.name } : {}),
        ...(options.host ? { host: options.host } : {}),
        onProgress: bar.show,
      });
      bar.end();
      if (typeof fetched !== 'string') throw new Refusal(fetched.problem, exitCode.failed);
      const loaded = await loadWhisper(fetched);
      if ('problem' in loaded) throw new Refusal(loaded.problem, exitCode.failed);
      console.log(`The model is in ${fetched} and loads. From the next start it is asked about every pour.`);
    });
}

/** One line that fills on a terminal; one line a file elsewhere. */
function progressBar(out: NodeJS.WriteStream) {
  const width = 30;
  let file = '';
  let shownMs = 0;
  const end = (): void => {
    if (file !== '') out.write('\n');
    file = '';
  };
  return {
    show(name: string, bytes: number, share: number | null): void {
      if (name !== file) {
        end();
        file = name;
        shownMs = 0;
        if (!out.isTTY) out.write(name);
      }
      if (!out.isTTY || (performance.now() - shownMs < 100 && share !== 1)) return;
      shownMs = performance.now();
      const full = share === null ? 0 : Math.round(share * width);
      const filled = '#'.repeat(full) + '.'.repeat(width - full);
      out.write(`\r[${filled}] ${(bytes / 1e6).toFixed(1).padStart(6)} MB  ${name}`);
    },
    end,
  };
}
