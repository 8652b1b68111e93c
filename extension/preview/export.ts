/** Writes an exported drawing where the user says, and nowhere else. */
import { Uri, window, workspace } from 'vscode';

/** Asks for the place and writes; nothing where the question is left. */
export async function saveDrawing(circuit: Uri, format: 'svg' | 'png', bytes: Uint8Array): Promise<void> {
  const name = circuit.path.replace(/\.lug$/, '') + `.${format}`;
  const isFile = circuit.scheme !== 'untitled';
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const place = isFile ? circuit.with({ path: name }) : folder && Uri.joinPath(folder, `drawing.${format}`);
  const target = await window.showSaveDialog({
    title: 'Save the Drawing',
    filters: format === 'svg' ? { SVG: ['svg'] } : { PNG: ['png'] },
    ...(place === undefined ? {} : { defaultUri: place }),
  });
  if (target === undefined) return;
  try {
    await workspace.fs.writeFile(target, bytes);
  } catch (error) {
    await window.showErrorMessage(`The drawing could not be saved: ${error instanceof Error ? error.message : String(error)}`);
  }
}
