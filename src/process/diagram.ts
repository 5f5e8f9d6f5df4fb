import { createRunMachine } from './machine.js';
import type { ProcessSheet } from './sheet.js';

/** The part of a statechart's definition that a drawing needs. */
interface Node {
  key: string;
  id: string;
  type: string;
  initial?: { target: readonly Node[] } | undefined;
  states: Record<string, Node>;
  transitions: Map<string, readonly { target?: readonly Node[] | undefined; guard?: unknown }[]>;
}

const name = (node: Node): string => node.id.replaceAll('.', '_');

/** The run's statechart as a Mermaid state diagram (stateDiagram-v2). A guard stands in brackets after its event. */
export function runDiagram(sheet: ProcessSheet): string {
  const root = createRunMachine(sheet).root as unknown as Node;
  const lines = ['stateDiagram-v2', ...inside(root, 1), ...arrows(root)];
  return `${lines.join('\n')}\n`;
}

function inside(node: Node, depth: number): string[] {
  const pad = '  '.repeat(depth);
  const states = Object.values(node.states);
  const regions = states.map((s) => [
    `${pad}state "${s.key}" as ${name(s)}${Object.keys(s.states).length > 0 ? ' {' : ''}`,
    ...inside(s, depth + 1),
    ...(Object.keys(s.states).length > 0 ? [`${pad}}`] : []),
  ]);
  const first = node.type === 'compound' ? node.initial?.target[0] : undefined;
  const body = regions.flatMap((lines, i) =>
    node.type === 'parallel' && i > 0 ? [`${pad}--`, ...lines] : lines,
  );
  return first ? [`${pad}[*] --> ${name(first)}`, ...body] : body;
}

function arrows(node: Node): string[] {
  const own = [...node.transitions].flatMap(([event, transitions]) =>
    transitions.flatMap(({ target, guard }) =>
      (target ?? []).map(
        (to) => `  ${name(node)} --> ${name(to)} : ${event}${typeof guard === 'string' ? ` [${guard}]` : ''}`,
      ),
    ),
  );
  return [...own, ...Object.values(node.states).flatMap(arrows)];
}
