/** Finds the user-facing texts of the product's TypeScript sources: string literals and templates with the look of prose. */
import ts from 'typescript';
import { read, sources } from '../harness/checkout.js';

/** One text that a person reads: its file from the root, its line from 1, and its words, each inserted value as `{name}`. */
export interface UserText {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** The texts of all hand-written sources in `language/`, `server/` and `extension/`, by file and line. */
export function sourceTexts(): UserText[] {
  return sources('language', 'server', 'extension')
    .filter((file) => !file.endsWith('.d.ts'))
    .sort()
    .flatMap((file) => textsOf(file, read(file)));
}

/** The texts of one source. */
export function textsOf(file: string, code: string): UserText[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.ES2022, true);
  const found: UserText[] = [];
  visit(source);
  return found;

  function visit(node: ts.Node): void {
    if (isOutside(node)) return;
    const text = textOf(node);
    if (text !== undefined && isProse(text))
      found.push({
        file,
        line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1,
        text: text.replace(/\s+/g, ' ').trim(),
      });
    ts.forEachChild(node, visit);
  }
}

/** Where a string is a name for the program: an import, a type, a key, or one side of a comparison. */
function isOutside(node: ts.Node): boolean {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return true;
  if (!ts.isStringLiteralLike(node)) return false;
  const parent = node.parent;
  if (ts.isBinaryExpression(parent)) return parent.operatorToken.kind === ts.SyntaxKind.EqualsEqualsEqualsToken;
  return (
    (ts.isPropertyAssignment(parent) && parent.name === node) || ts.isElementAccessExpression(parent) || ts.isCaseClause(parent)
  );
}

function textOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return node.head.text + node.templateSpans.map((span) => `{${nameOf(span.expression)}}${span.literal.text}`).join('');
}

/** What replaces an inserted value: its name, that of the function it comes from, or an ellipsis. */
function nameOf(expression: ts.Expression): string {
  if (ts.isIdentifier(expression)) return expression.text;
  if (ts.isPropertyAccessExpression(expression)) return expression.name.text;
  if (ts.isCallExpression(expression)) return nameOf(expression.expression);
  return '…';
}

/** Replaces an inserted value while a text is judged. */
const value = '\u{fffc}';

/** Two words in a row, or a word beside an inserted value; code, markup, style sheets and lists of class names are none. */
function isProse(text: string): boolean {
  const bare = text
    .replace(/<[^<>]*>/g, ' ')
    .replace(/\{[^{}]*\}/g, value)
    .trim();
  const isCode = /;\s*$|=>|\{|^\.|^--/.test(bare) || /^[a-z]+(-[a-z]+)+( [a-z]+(-[a-z]+)*)*$/.test(bare);
  if (isCode) return false;
  if (/\p{L}[\p{L}’'-]*[,;:.!?)”"]* [(“"]?\p{L}{2,}/u.test(bare)) return true;
  return bare.includes(value) && bare.includes(' ') && /(^|[\u{fffc}\s])\p{L}{2,}[,.]?( |$)/u.test(bare);
}
