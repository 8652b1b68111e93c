/** All circuits of the open folders, also where a folder is on no disk and cannot be searched. */
import { FileType, Uri, workspace } from 'vscode';

/** Folders that hold no circuits of the user's own. */
const passedOver = new Set(['node_modules', '.git']);
/** So that a huge virtual folder is not walked without end. */
const mostFolders = 2000;

/** Addresses of the `.lug` files. */
export async function findCircuits(): Promise<readonly Uri[]> {
  const found = await workspace.findFiles('**/*.lug', '**/node_modules/**');
  if (found.length > 0) return found;
  // A virtual folder need not offer a search; reading its folders always works.
  const virtual = (workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme !== 'file' && uri.scheme !== 'vscode-remote');
  return (await Promise.all(virtual.map(({ uri }) => walk(uri)))).flat();
}

async function walk(root: Uri): Promise<Uri[]> {
  const found: Uri[] = [];
  const folders = [root];
  for (let read = 0; read < mostFolders; read++) {
    const folder = folders.shift();
    if (folder === undefined) break;
    for (const [name, type] of await entriesOf(folder)) {
      const uri = Uri.joinPath(folder, name);
      if (type === FileType.Directory && !passedOver.has(name)) folders.push(uri);
      else if (type === FileType.File && name.endsWith('.lug')) found.push(uri);
    }
  }
  return found;
}

async function entriesOf(folder: Uri): Promise<[string, FileType][]> {
  try {
    return await workspace.fs.readDirectory(folder);
  } catch {
    // A folder that may not be read has no circuits to show.
    return [];
  }
}
