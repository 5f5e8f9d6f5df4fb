import ts from 'typescript';

/** One fault: the text from `start` to `end` of a file is replaced. */
export interface Mutant {
  file: string;
  kind: string;
  line: number;
  start: number;
  end: number;
  was: string;
  now: string;
}

type Change = readonly [kind: string, node: { start: number; end: number }, now: string];

const boundary: Partial<Record<ts.SyntaxKind, string>> = {
  [ts.SyntaxKind.LessThanToken]: '<=',
  [ts.SyntaxKind.LessThanEqualsToken]: '<',
  [ts.SyntaxKind.GreaterThanToken]: '>=',
  [ts.SyntaxKind.GreaterThanEqualsToken]: '>',
};
const opposite: Partial<Record<ts.SyntaxKind, string>> = {
  [ts.SyntaxKind.LessThanToken]: '>=',
  [ts.SyntaxKind.LessThanEqualsToken]: '>',
  [ts.SyntaxKind.GreaterThanToken]: '<=',
  [ts.SyntaxKind.GreaterThanEqualsToken]: '<',
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: '!==',
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: '===',
  [ts.SyntaxKind.AmpersandAmpersandToken]: '||',
  [ts.SyntaxKind.BarBarToken]: '&&',
};
const arithmetic: Partial<Record<ts.SyntaxKind, string>> = {
  [ts.SyntaxKind.PlusToken]: '-',
  [ts.SyntaxKind.MinusToken]: '+',
  [ts.SyntaxKind.AsteriskToken]: '/',
  [ts.SyntaxKind.SlashToken]: '*',
  [ts.SyntaxKind.PlusEqualsToken]: '-=',
  [ts.SyntaxKind.MinusEqualsToken]: '+=',
};
/** A method that does the opposite with the same arguments. */
const otherMethod: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  some: 'every',
  every: 'some',
  floor: 'ceil',
  ceil: 'floor',
};
/** The neighbouring verdict, and the short names that the guard's table gives them. */
const otherVerdict: Readonly<Record<string, string>> = {
  clear: 'recoverable',
  harmless: 'recoverable',
  recoverable: 'clear',
  ruinous: 'recoverable',
};
const otherEntry: Readonly<Record<string, string>> = { c: 'r', h: 'r', r: 'c', x: 'r' };

/** Every single fault of the kinds named here, in the order of the text. */
export function mutantsOf(file: string, text: string): Mutant[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Mutant[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return;
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    for (const [kind, { start, end }, now] of changesOf(node, source)) {
      const line = source.getLineAndCharacterOfPosition(start).line + 1;
      found.push({ file, kind, line, start, end, was: text.slice(start, end), now });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found.sort((a, b) => a.start - b.start || a.now.localeCompare(b.now));
}

function changesOf(node: ts.Node, source: ts.SourceFile): Change[] {
  const at = (n: ts.Node) => ({ start: n.getStart(source), end: n.getEnd() });
  const textOf = (n: ts.Node): string => n.getText(source);
  if (ts.isBinaryExpression(node)) {
    const { operatorToken: token } = node;
    const one = (kind: string, now: string | undefined): Change[] =>
      now === undefined ? [] : [[kind, at(token), now]];
    return [
      ...one('comparison boundary', boundary[token.kind]),
      ...one('opposite comparison', opposite[token.kind]),
      ...one('arithmetic', arithmetic[token.kind]),
      ...(token.kind === ts.SyntaxKind.QuestionQuestionToken
        ? [['only the fallback', at(node), textOf(node.right)] as const]
        : []),
    ];
  }
  if (ts.isIfStatement(node)) {
    const whole = node.elseStatement ? `{ ${textOf(node.elseStatement)} }` : ';';
    return [
      ['negated condition', at(node.expression), `!(${textOf(node.expression)})`],
      ['condition never met', at(node), whole],
    ];
  }
  if (ts.isConditionalExpression(node))
    return [
      ['swapped branch', at(node.whenTrue), textOf(node.whenFalse)],
      ['swapped branch', at(node.whenFalse), textOf(node.whenTrue)],
    ];
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.ExclamationToken)
    return [['negation dropped', at(node), textOf(node.operand)]];
  if (ts.isNumericLiteral(node)) return numbers(Number(node.text)).map((n) => ['number', at(node), n]);
  if (node.kind === ts.SyntaxKind.TrueKeyword) return [['boolean', at(node), 'false']];
  if (node.kind === ts.SyntaxKind.FalseKeyword) return [['boolean', at(node), 'true']];
  if (ts.isExpressionStatement(node) && !ts.isBinaryExpression(node.expression))
    return [['statement removed', at(node), ';']];
  if (ts.isArrayLiteralExpression(node)) return without(node, source);
  if (ts.isStringLiteral(node) && otherVerdict[node.text] && ts.isArrayLiteralExpression(node.parent))
    return [['verdict', at(node), `'${otherVerdict[node.text]}'`]];
  if (ts.isCallExpression(node)) {
    const { expression: called } = node;
    const name = ts.isPropertyAccessExpression(called) ? called.name : called;
    const other = ts.isIdentifier(called) ? otherEntry[called.text] : otherMethod[textOf(name)];
    if (other !== undefined) return [['call', at(name), other]];
  }
  return [];
}

const numbers = (n: number): string[] =>
  n === 0 ? ['1'] : n === 1 ? ['0', '2'] : [String(n * 10), String(n / 2)];

/** An array with one of its elements left out, once for each. */
function without(node: ts.ArrayLiteralExpression, source: ts.SourceFile): Change[] {
  const place = { start: node.getStart(source), end: node.getEnd() };
  // a verdict and its reason are one record: half of it would not compile
  if (node.elements.some((e) => ts.isStringLiteral(e) && otherVerdict[e.text])) return [];
  return node.elements.map((_, i) => {
    const rest = node.elements.filter((_e, j) => j !== i).map((e) => e.getText(source));
    return ['element left out', place, `[${rest.join(', ')}]`];
  });
}
