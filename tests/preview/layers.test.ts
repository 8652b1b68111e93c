/** The panel's script is drawing and input: with the extension it shares types alone, and it sees scenes, never circuits. */
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import { expect, test } from 'vitest';
import { importsOf, root, sources, targetOf } from '../harness/checkout.js';

const script = sources('extension').filter((path) => path.startsWith('extension/preview/webview/'));

test('the script imports itself, the drawing’s renderer, its plot, the samples that are heard, the helpers for lists and markup, and types', () => {
  const isAllowed = (path: string, from: string): boolean =>
    from === 'uplot' ||
    /^(extension\/preview\/webview\/|language\/(drawing|hear)\/|language\/(collections|escape)\.ts$)/.test(targetOf(path, from));
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

test('no panel’s script carries a parser, a solver or the layout engine', async () => {
  const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
    extensionBundles: (BuildOptions & { outfile: string })[];
  };
  const panels = extensionBundles.filter(({ outfile }) => outfile.endsWith('-panel.js'));
  expect(panels).toHaveLength(3);
  const heavy =
    /^language\/(parts|grammar|circuit|electrics|checks|intent)\/|^node_modules\/(langium|chevrotain|@chevrotain|elkjs)\//;
  for (const options of panels) {
    const { metafile } = await build({ ...options, absWorkingDir: root, bundle: true, write: false, metafile: true });
    const carried = Object.values(metafile.outputs).flatMap(({ inputs }) =>
      Object.keys(inputs).filter((path) => inputs[path]!.bytesInOutput > 0),
    );
    expect(carried.filter((path) => heavy.test(path))).toEqual([]);
  }
});
