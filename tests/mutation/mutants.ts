/** Small mistakes that could be in a source, made through the compiler's own tree: each is one replacement in one file. */
import ts from 'typescript';

export interface Mutant {
  readonly path: string;
  /** Of what is replaced, in characters. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly kind: 'boundary' | 'comparison' | 'logic' | 'arithmetic' | 'constant' | 'condition' | 'statement';
}

type Change = Pick<Mutant, 'kind' | 'text'>;

/** Each operator's neighbours: a bound moved by one, and the comparison turned over. */
const swaps: Readonly<Record<string, readonly Change[]>> = {
  '<': [boundary('<='), comparison('>=')],
  '<=': [boundary('<'), comparison('>')],
  '>': [boundary('>='), comparison('<=')],
  '>=': [boundary('>'), comparison('<')],
  '===': [comparison('!==')],
  '!==': [comparison('===')],
  '&&': [{ kind: 'logic', text: '||' }],
  '||': [{ kind: 'logic', text: '&&' }],
  '-': [arithmetic('+')],
  '*': [arithmetic('/')],
  '/': [arithmetic('*')],
  '%': [arithmetic('*')],
  '+=': [arithmetic('-=')],
  '-=': [arithmetic('+=')],
  '*=': [arithmetic('/=')],
  '/=': [arithmetic('*=')],
};

/** Every mutant of the files, in the order of the text. The checker tells sums from joined texts. */
export function mutantsOf(paths: readonly string[], program: ts.Program): Mutant[] {
  const checker = program.getTypeChecker();
  return paths.flatMap((path) => {
    const file = program.getSourceFile(path);
    if (file === undefined) throw new Error(`${path} is not in the program`);
    const found: Mutant[] = [];
    const visit = (node: ts.Node): void => {
      if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isImportDeclaration(node)) return;
      for (const change of changesOf(node, file, checker)) found.push({ path, ...change });
      ts.forEachChild(node, visit);
    };
    visit(file);
    return found.filter(({ start, end, text }) => file.text.slice(start, end) !== text);
  });
}

/** The text with the mistake in it. */
export function applied(text: string, { start, end, text: put }: Mutant): string {
  return text.slice(0, start) + put + text.slice(end);
}

/** `count` of the mutants, the same for the same seed, in the order of the text. */
export function sample(mutants: readonly Mutant[], count: number, seed: number): Mutant[] {
  const next = random(seed);
  const keys = mutants.map((_, index) => ({ index, key: next() }));
  const chosen = keys.sort((a, b) => a.key - b.key).slice(0, count);
  return chosen.sort((a, b) => a.index - b.index).map(({ index }) => mutants[index]!);
}

function changesOf(node: ts.Node, file: ts.SourceFile, checker: ts.TypeChecker): Omit<Mutant, 'path'>[] {
  const on = (target: ts.Node, changes: readonly Change[]): Omit<Mutant, 'path'>[] =>
    changes.map((change) => ({ start: target.getStart(file), end: target.end, ...change }));
  if (ts.isBinaryExpression(node)) {
    const sign = node.operatorToken.getText(file);
    const isSum = sign === '+' && isNumber(node.left, checker) && isNumber(node.right, checker);
    return on(
      node.operatorToken,
      isSum ? [arithmetic('-')] : sign === '+=' && !isNumber(node.left, checker) ? [] : (swaps[sign] ?? []),
    );
  }
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.MinusToken)
    return on(node, [arithmetic(node.operand.getText(file))]);
  if (ts.isNumericLiteral(node))
    return on(node, [constant(node.text === '0' ? '1' : node.text === '1' ? '0' : `(${node.text} * 1.5)`)]);
  if (node.kind === ts.SyntaxKind.TrueKeyword) return on(node, [constant('false')]);
  if (node.kind === ts.SyntaxKind.FalseKeyword) return on(node, [constant('true')]);
  if (ts.isIfStatement(node) || ts.isWhileStatement(node)) return on(node.expression, [negated(node.expression, file)]);
  if (ts.isConditionalExpression(node)) return on(node.condition, [negated(node.condition, file)]);
  const isLeaving = ts.isContinueStatement(node) || ts.isBreakStatement(node) || (ts.isReturnStatement(node) && !node.expression);
  if (isLeaving || ts.isExpressionStatement(node)) return on(node, [{ kind: 'statement', text: ';' }]);
  return [];
}

function isNumber(node: ts.Node, checker: ts.TypeChecker): boolean {
  return (checker.getTypeAtLocation(node).flags & ts.TypeFlags.NumberLike) !== 0;
}

function negated(condition: ts.Expression, file: ts.SourceFile): Change {
  return { kind: 'condition', text: `!(${condition.getText(file)})` };
}

function boundary(text: string): Change {
  return { kind: 'boundary', text };
}

function comparison(text: string): Change {
  return { kind: 'comparison', text };
}

function arithmetic(text: string): Change {
  return { kind: 'arithmetic', text };
}

function constant(text: string): Change {
  return { kind: 'constant', text };
}

/** Numbers from 0 to 1 by a linear congruence (multiplier and increment of D. Knuth and H. W. Lewis, modulus 2³²). */
function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
