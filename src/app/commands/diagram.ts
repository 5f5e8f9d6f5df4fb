import type { Command } from 'commander';

export function registerDiagram(program: Command): void {
  program
    .command('diagram')
    .description('print the statechart of a run as a Mermaid diagram')
    .option('--sheet <id>', 'process sheet: an id, or a JSON file of your own', 'ecn2-ferricyanide')
    .action(async (options: { sheet: string }) => {
      const { runDiagram } = await import('../../process/diagram.js');
      const { sheetsFor } = await import('../bench.js');
      process.stdout.write(runDiagram(sheetsFor(options.sheet)[0]));
    });
}
