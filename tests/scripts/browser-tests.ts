/** Which test files open a browser: those that import, by whatever way, the module that starts one. */
import { relative } from 'node:path';
import { importsOf, root, targetOf } from '../harness/checkout.js';

const browser = 'tests/editor/hosts/browser.ts';

/** Those of the test files that open a browser, as paths from the root. */
export function browserTestsAmong(files: readonly string[]): string[] {
  const known = new Map<string, boolean>([[browser, true]]);
  return files.map((file) => relative(root, file).replaceAll('\\', '/')).filter((file) => opensBrowser(file, known));
}

function opensBrowser(file: string, known: Map<string, boolean>): boolean {
  const answer = known.get(file);
  if (answer !== undefined) return answer;
  known.set(file, false);
  const opens = importsOf(file)
    .filter(({ from, isType }) => !isType && from.startsWith('.'))
    .map(({ from }) => targetOf(file, from))
    .some((target) => target.startsWith('tests/') && target.endsWith('.ts') && opensBrowser(target, known));
  known.set(file, opens);
  return opens;
}
