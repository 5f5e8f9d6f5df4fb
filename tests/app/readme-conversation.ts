import type { Reply } from '../../src/app/assistant.js';
import { readScript, type ScriptStep } from '../../src/app/script.js';

/** A reply as the README shows it. */
export function replyText(reply: Reply): string {
  const s = Math.floor(reply.atMs / 1000);
  const clock = `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
  return `  ${clock}  ${reply.kind === 'answer' ? '' : `[${reply.kind}] `}${reply.text}`;
}

/** The block between the README's marks: lines after › are the script, the rest are replies. */
export function readmeConversation(readme: string): { steps: ScriptStep[]; replies: string[] } {
  const block = /<!-- conversation -->\n```text\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
  const lines = block.split('\n').filter((l) => l.trim() !== '');
  const script = readScript(
    lines
      .filter((l) => l.startsWith('› '))
      .map((l) => l.slice(2))
      .join('\n'),
  );
  if ('problem' in script) throw new Error(script.problem);
  return { steps: script.steps, replies: lines.filter((l) => !l.startsWith('› ')) };
}
