/** The items of the Testing view: folders, the circuits in them, and the tests of a circuit as the server sees its `expect` lines. */
import { Range, Uri, workspace, type TestController, type TestItem, type TestItemCollection } from 'vscode';
import type { ExpectationItem, TextRange } from '../../server/protocol.js';
import type { ServerLink } from '../server-link.js';

export interface Items {
  /** The item of a file, made with its folders where there is none yet. */
  file(uri: Uri): TestItem;
  /** Takes a file out of the view, and the folders that it leaves empty. */
  remove(uri: Uri): void;
  /** Asks for the file's `expect` lines and shows them; a file that is not in the view and has none stays out of it. */
  refresh(uri: Uri): Promise<void>;
  /** The files in or below an item, or of the whole view. */
  filesBelow(item?: TestItem): TestItem[];
}

export function createItems(controller: TestController, link: ServerLink): Items {
  const files = new Map<string, TestItem>();

  const file = (uri: Uri): TestItem => {
    const id = uri.toString();
    const known = files.get(id);
    if (known !== undefined) return known;
    const { folders, name } = pathOf(uri);
    let among = controller.items;
    folders.forEach((folder, depth) => (among = folderItem(controller, among, uri, folder, folders.length - depth).children));
    const item = controller.createTestItem(id, name, uri);
    item.canResolveChildren = true;
    among.add(item);
    files.set(id, item);
    return item;
  };

  return {
    file,
    remove(uri) {
      const id = uri.toString();
      let item = files.get(id);
      files.delete(id);
      while (item !== undefined) {
        const { parent }: TestItem = item;
        (parent?.children ?? controller.items).delete(item.id);
        item = parent?.children.size === 0 ? parent : undefined;
      }
    },
    async refresh(uri) {
      if (link.state !== 'ready' && link.state !== 'checking') return;
      const found = await link.request('lugwork/expectations', { uri: uri.toString() });
      if (found.length === 0 && !files.has(uri.toString())) return;
      showLines(controller, file(uri), uri, found);
    },
    filesBelow: (item) => (item === undefined ? [...files.values()] : [...files.values()].filter((one) => isBelow(one, item))),
  };
}

/** The editor's range. */
export function toRange({ start, end }: TextRange): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

/** The folders between the workspace and a file, with the workspace's own where there are several, and the file's name. */
function pathOf(uri: Uri): { readonly folders: readonly string[]; readonly name: string } {
  const steps = workspace
    .asRelativePath(uri)
    .split('/')
    .filter((step) => step !== '');
  return { folders: workspace.getWorkspaceFolder(uri) === undefined ? [] : steps.slice(0, -1), name: steps.at(-1) ?? uri.path };
}

/** The item of a folder that lies `up` steps above a file. */
function folderItem(controller: TestController, among: TestItemCollection, file: Uri, name: string, up: number): TestItem {
  const uri = Uri.joinPath(file, ...Array<string>(up).fill('..'));
  const id = `${uri.toString()}/`;
  const item = among.get(id) ?? controller.createTestItem(id, name, uri);
  // Folders come before the files beside them.
  item.sortText = ` ${name}`;
  among.add(item);
  return item;
}

function isBelow(item: TestItem, above: TestItem): boolean {
  for (let one: TestItem | undefined = item; one !== undefined; one = one.parent) if (one === above) return true;
  return false;
}

function showLines(controller: TestController, file: TestItem, uri: Uri, found: readonly ExpectationItem[]): void {
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
