interface Chosen {
  command: string;
  args: string[];
  env: Record<string, string>;
}

/** What node-record-lpcm16 loads as a recorder: the command and arguments that `recorders.ts` chose. */
export = ({ command, args, env }: Chosen) => ({
  cmd: command,
  args,
  spawnOptions: { env: { ...process.env, ...env } },
});
