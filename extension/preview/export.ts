/** Writes an exported drawing where the user says, and nowhere else. */
import { l10n, Uri, window, workspace } from 'vscode';

/** Asks for the place and writes; nothing where the question is left. */
export async function saveDrawing(circuit: Uri, format: 'svg' | 'png', bytes: Uint8Array): Promise<void> {
  const name = circuit.path.replace(/\.lug$/, '') + `.${format}`;
  const isFile = circuit.scheme !== 'untitled';
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const place = isFile ? circuit.with({ path: name }) : folder && Uri.joinPath(folder, `drawing.${format}`);
  const target = await window.showSaveDialog({
    title: l10n.t('Save the Drawing'),
    filters: format === 'svg' ? { SVG: ['svg'] } : { PNG: ['png'] },
    ...(place === undefined ? {} : { defaultUri: place }),
  });
  if (target === undefined) return;
  try {
    await workspace.fs.writeFile(target, bytes);
  } catch (error) {
    await window.showErrorMessage(
      l10n.t('The drawing could not be saved: {0}', error instanceof Error ? error.message : String(error)),
    );
  }
}
