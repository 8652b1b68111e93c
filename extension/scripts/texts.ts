/** Keeps `extension/l10n/bundle.l10n.json` true to the sources: every text that goes through `l10n.t`, or through `t` in a panel's page. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

/** The bundle's path in the checkout, and its text as the sources are now. */
export function textBundleFile(root: string): [path: string, text: string] {
  const texts = sourcesIn(root, 'extension').flatMap((file) => translatedTexts(file, readFileSync(join(root, file), 'utf8')));
  const sorted = [...new Set(texts)].sort((a, b) => a.localeCompare(b, 'en'));
  const bundle = Object.fromEntries(sorted.map((text) => [text, text]));
  return ['extension/l10n/bundle.l10n.json', `${JSON.stringify(bundle, undefined, 2)}\n`];
}

/** The texts that a source hands to a translating function; one that is not written out cannot be translated, and throws. */
export function translatedTexts(file: string, code: string): string[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.ES2022, true);
  const found: string[] = [];
  visit(source);
  return found;

  function visit(node: ts.Node): void {
    if (ts.isCallExpression(node) && ['t', 'l10n.t'].includes(node.expression.getText(source))) {
      const [text] = node.arguments;
      if (text === undefined || !ts.isStringLiteralLike(text))
        throw new Error(`${file}: ${node.getText(source)} has no text that is written out.`);
      found.push(text.text);
    }
    ts.forEachChild(node, visit);
  }
}

function sourcesIn(root: string, folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return sourcesIn(root, path);
    return path.endsWith('.ts') ? [path] : [];
  });
}
