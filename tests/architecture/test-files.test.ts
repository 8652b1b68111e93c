/** What holds test files together: they share a worker and its loaded modules, so none may leave there what the next one would trip over. */
import { expect, test } from 'vitest';
import { importsOf, read, sources } from '../harness/checkout.js';

const written = sources('tests');
const helpers = written.filter((path) => !path.endsWith('.test.ts') && path !== 'tests/harness/each-file.ts');

test('a shared helper sets no hook: it would be run for the first file that imports it alone', () => {
  const hooks = /^import\b[^;]*\b(?:before|after)(?:Each|All)\b[^;]*'vitest';/m;
  expect(helpers.filter((path) => hooks.test(read(path)))).toEqual([]);
  expect(hooks.test("import { afterEach, test } from 'vitest';")).toBe(true);
});

test('nothing replaces a module or changes a setting of the runner: what is loaded stays, and a time limit says nothing', () => {
  const lasting = /\bvi\.(?:mock|doMock|hoisted|resetModules|setConfig)\(/;
  expect(written.filter((path) => lasting.test(read(path)))).toEqual([]);
  expect(lasting.test(['vi', "mock('./module.js')"].join('.'))).toBe(true);
});

test('a helper does not import a test file', () => {
  const imports = written.flatMap((path) => importsOf(path).map(({ from }) => `${path} → ${from}`));
  expect(imports.filter((line) => line.endsWith('.test.js'))).toEqual([]);
});
