/** The tests of a file, as the server sees its `expect` lines. */
import { Range, workspace, type TestController, type TestItem, type Uri } from 'vscode';
import type { ExpectationItem, TextRange } from '../../server/protocol.js';
import type { ServerLink } from '../server-link.js';

/** The item of a file, made where there is none yet. */
export function fileItem(controller: TestController, uri: Uri): TestItem {
  const id = uri.toString();
  const known = controller.items.get(id);
  if (known !== undefined) return known;
  const item = controller.createTestItem(id, workspace.asRelativePath(uri), uri);
  item.canResolveChildren = true;
  controller.items.add(item);
  return item;
}

/** Takes a file out of the view. */
export function removeFile(controller: TestController, uri: Uri): void {
  controller.items.delete(uri.toString());
}

/** Asks for the file's `expect` lines and shows them; a file that is not open and has none keeps its empty item. */
export async function refreshFile(controller: TestController, link: ServerLink, uri: Uri): Promise<void> {
  if (link.state !== 'ready' && link.state !== 'checking') return;
  const found = await link.request('lugwork/expectations', { uri: uri.toString() });
  if (found.length === 0 && controller.items.get(uri.toString()) === undefined) return;
  const file = fileItem(controller, uri);
  // Named by its words, not its line, so that a result stays with a test that moves; twins are distinguished by their order.
  const twins = new Map<string, number>();
  file.children.replace(
    found.map((expectation, index) => {
      const before = twins.get(expectation.label) ?? 0;
      twins.set(expectation.label, before + 1);
      const item = lineItem(controller, file, uri, `${expectation.label}#${before}`, expectation);
      item.sortText = String(index).padStart(6, '0');
      return item;
    }),
  );
}

/** The editor's range. */
export function toRange({ start, end }: TextRange): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

/** The item of a line. One that is there already stays the same, so that a run that is under way finds it. */
function lineItem(
  controller: TestController,
  file: TestItem,
  uri: Uri,
  name: string,
  { label, range }: ExpectationItem,
): TestItem {
  const id = `${uri.toString()}#${name}`;
  const item = file.children.get(id) ?? controller.createTestItem(id, label, uri);
  item.range = toRange(range);
  return item;
}
