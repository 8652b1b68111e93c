// Makes server/lsp/generated/pages.ts: the pages of the rules as a module, so that a finding in the editor leads to its page without a file or a network.
import { readFileSync, readdirSync } from 'node:fs';

const rules = new URL('../../language/checks/rules/', import.meta.url);

/** The module's path in the checkout, and its text. */
export function pagesModule() {
  const names = readdirSync(rules)
    .filter((name) => name.endsWith('.md'))
    .sort();
  const entries = names.map(
    (name) => `  'lugwork:/rules/${name}': ${JSON.stringify(readFileSync(new URL(name, rules), 'utf8'))},`,
  );
  const lines = [
    '/** The pages of the rules by the address under which an editor opens them. Made by server/scripts/embed-pages.mjs. */',
    'export const PAGES: Readonly<Record<string, string>> = {',
    ...entries,
    '};',
    '',
  ];
  return ['server/lsp/generated/pages.ts', lines.join('\n')];
}
