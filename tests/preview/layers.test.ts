/** The panel's script is drawing and input: with the extension it shares types alone, and it sees scenes, never circuits. */
import { expect, test } from 'vitest';
import { importsOf, sources, targetOf } from '../harness/checkout.js';

const script = sources('extension').filter((path) => path.startsWith('extension/preview/webview/'));

test('the script imports itself, the drawing’s renderer, its plot, and types', () => {
  const isAllowed = (path: string, from: string): boolean =>
    from === 'uplot' || /^(extension\/preview\/webview|language\/drawing)\//.test(targetOf(path, from));
  const others = script.flatMap((path) =>
    importsOf(path)
      .filter(({ from, isType }) => !isType && !isAllowed(path, from))
      .map(({ from }) => `${path} imports ${from}`),
  );
  expect(script.length).toBeGreaterThan(5);
  expect(others).toEqual([]);
});

test('nothing of the script is imported by the extension, though other panels’ scripts may share its pieces', () => {
  const host = sources('extension').filter((path) => !path.includes('/webview/'));
  const crossing = host.flatMap((path) => importsOf(path).filter(({ from }) => from.includes('/webview/')));
  expect(crossing).toEqual([]);
});
