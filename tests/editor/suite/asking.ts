/** What a circuit answers when it is asked: hover, completion, definition, outline. */
import {
  commands,
  workspace,
  type CompletionList,
  type DocumentSymbol,
  type Hover,
  type Location,
  type LocationLink,
  type MarkdownString,
} from 'vscode';
import { serverReady } from './activation.js';
import { createCircuit, openCircuit, placeIn } from './documents.js';
import { ensure, eventually, test } from './harness.js';

test('hover on a pickup tells its values', async () => {
  await serverReady();
  const document = await openCircuit('two-pickups.lug');
  const text = await eventually('a hover', async () => {
    const hovers = await commands.executeCommand<Hover[]>(
      'vscode.executeHoverProvider',
      document.uri,
      placeIn(document, 'neck.hot', 1),
    );
    const reported = hovers.flatMap(({ contents }) => contents.map((content) => (content as MarkdownString).value)).join('\n');
    return reported !== '' && reported;
  });
  for (const word of ['6.1', '2.3']) ensure(text.includes(word), `the hover does not say ${word}: ${text}`);
});

test('completion behind a part and its dot offers the lugs of that part', async () => {
  await serverReady();
  const document = await createCircuit('part neck : single-coil 6.2k\npart volume : pot 250k\n\nwire neck.');
  const list = await eventually('a list', async () => {
    const found = await commands.executeCommand<CompletionList>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      document.lineAt(3).range.end,
    );
    return found.items.length > 0 && found;
  });
  const labels = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
  for (const lug of ['hot', 'ground']) ensure(labels.includes(lug), `no ${lug} among ${labels.join(' ')}`);
  ensure(!labels.includes('tip'), 'a lug of another part is offered');
});

test('the definition of a standard type opens the library, which is read only', async () => {
  await serverReady();
  const document = await openCircuit('two-pickups.lug');
  const [place] = await eventually('a definition', async () => {
    const found = await commands.executeCommand<(Location | LocationLink)[]>(
      'vscode.executeDefinitionProvider',
      document.uri,
      placeIn(document, 'lever-3', 2),
    );
    return found.length > 0 && found;
  });
  ensure(place !== undefined, 'no place');
  const uri = 'uri' in place ? place.uri : place.targetUri;
  ensure(uri.scheme === 'lugwork', `the library is at ${uri.toString()}`);
  ensure((await workspace.openTextDocument(uri)).getText().includes('type lever-3'), 'the library does not hold the type');
});

test('the outline lists parts', async () => {
  await serverReady();
  const document = await openCircuit('two-pickups.lug');
  const symbols = await eventually('an outline', async () => {
    const found = await commands.executeCommand<DocumentSymbol[] | undefined>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    return found !== undefined && found.length > 0 && found;
  });
  const names = symbols.flatMap(function all(symbol): string[] {
    return [symbol.name, ...symbol.children.flatMap(all)];
  });
  for (const part of ['bridge', 'neck', 'selector', 'volume']) ensure(names.includes(part), `no ${part} in ${names.join(' ')}`);
});
