/** Hostile texts in what an editor shows: hovers and completion as Markdown, lenses, outline and the Testing view as plain lines. */
import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import type {
  CodeLens,
  CompletionItem,
  CompletionList,
  DocumentSymbol,
  Hover,
  MarkupContent,
} from 'vscode-languageserver-protocol';
import type { ExpectationItem, PositionTable } from '../../server/protocol.js';
import { startEditor } from './harness.js';

/** It comes without types. */
const MarkdownIt = createRequire(import.meta.url)('markdown-it') as new (options: object) => { render(text: string): string };

const evil =
  '<img src=x onerror=alert(1)> [a](command:workbench.action.quit) ![p](http://example.org/x.png) x` `` ``` | **b** [r]: http://e.org \u202e\u001b[31m';

const text = `/** ${evil} */
instrument "${evil}"
/** ${evil}
 *
 * [a](command:x) */
part pickup : single-coil 6k 2H 100pF
/** ${evil} */
type odd : switch {
  lugs a b
  positions "${evil}" "b"
  at "${evil}" joins a b
}
part selector : lever-3 { positions "${evil}" "both" "three" }
part kill : odd
part output : jack
wire pickup.hot to selector.A1
wire selector.A0 to output.tip
wire pickup.ground to output.sleeve
expect selector "${evil}" : sounds pickup
allow idle-switch on kill "${evil}"
`;

test('nowhere a link, a picture, a tag or a sign that cannot be seen', async () => {
  const editor = await startEditor();
  const { uri } = await editor.open('hostile.lug', text);
  await editor.diagnostics(uri);
  const textDocument = { uri };
  const shown: string[] = [];
  const lines = text.split('\n');
  for (const [line, whole] of lines.entries()) {
    for (const character of [1, 7, whole.indexOf(':') + 3, whole.indexOf('"') + 3, whole.indexOf('.') + 1]) {
      const hover = await editor.ask<Hover | null>('textDocument/hover', { textDocument, position: { line, character } });
      if (hover !== null) shown.push((hover.contents as MarkupContent).value);
    }
  }
  for (const line of [16, 17]) {
    const position = { line, character: line === 17 ? 16 : 8 };
    const found = await editor.ask<CompletionList | CompletionItem[]>('textDocument/completion', { textDocument, position });
    const items = Array.isArray(found) ? found : found.items;
    for (const item of items.slice(0, 40)) {
      const { documentation } = await editor.ask<CompletionItem>('completionItem/resolve', item).catch(() => item);
      if (documentation !== undefined) shown.push(typeof documentation === 'string' ? documentation : documentation.value);
    }
  }
  expect(shown.length).toBeGreaterThan(10);
  const markdown = new MarkdownIt({ html: true, linkify: false });
  for (const value of shown) {
    expect(markdown.render(value).match(/<(img|script|a href="(?!lugwork:))[^>]*>/gi) ?? [], value).toEqual([]);
  }
  const plain = JSON.stringify([
    await editor.ask<CodeLens[]>('textDocument/codeLens', { textDocument }),
    await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument }),
    await editor.ask<readonly ExpectationItem[]>('lugwork/expectations', { uri }),
    await editor.ask<PositionTable>('lugwork/positions', { uri }),
  ]);
  for (const value of [...shown, plain]) expect(/\p{Cc}|\u202e|\\u001b/u.exec(value.replaceAll('\n', ' '))?.[0]).toBeUndefined();
  expect(editor.log).toEqual([]);
});
