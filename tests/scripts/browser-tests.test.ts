/** Which test files need a browser is found from what they import. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { filesUnder, read, root } from '../harness/checkout.js';
import { browserTestsAmong } from './browser-tests.js';

const all = filesUnder('tests').filter((path) => path.endsWith('.test.ts'));

test('the files that call for a page of a browser, and no others', () => {
  const pages = all.filter((path) => /\bawait (openBrowser|openPanel|openPage)\(/.test(read(path)));
  expect(pages.length).toBeGreaterThan(3);
  expect(browserTestsAmong(all.map((path) => join(root, path)))).toEqual(pages);
});

test('what only reads messages or a package opens none', () => {
  expect(
    browserTestsAmong([join(root, 'tests/preview/read-message.test.ts'), join(root, 'tests/editor/package.test.ts')]),
  ).toEqual([]);
});
