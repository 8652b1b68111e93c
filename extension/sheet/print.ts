/** The sheet on paper: opened in the browser outside the editor, which prints; or saved where the user says. */
import { lastOf } from '../../language/collections.js';
import { env, l10n, UIKind, Uri, window, workspace } from 'vscode';

/** True where a browser of this machine can open a file of the extension's own storage. */
export function opensOutside(storage: Uri): boolean {
  return env.uiKind === UIKind.Desktop && env.remoteName === undefined && storage.scheme === 'file';
}

/** Puts the page of one instrument into the extension's storage and opens it outside. */
export async function openPage(circuit: Uri, number: number, storage: Uri, page: string): Promise<void> {
  await workspace.fs.createDirectory(storage);
  const place = Uri.joinPath(storage, `${nameOf(circuit)}.no-${number}.html`);
  await workspace.fs.writeFile(place, new TextEncoder().encode(page));
  if (await env.openExternal(place))
    window.setStatusBarMessage(l10n.t('The sheet is open in your browser. Print it there.'), 10_000);
  else
    await window.showWarningMessage(l10n.t('The sheet could not be opened in a browser. Save it, then print it from a browser.'));
}

/** Asks where to and what kind, under a title that says what for; nothing where the question is left. */
export async function savePage(
  circuit: Uri,
  page: (form: 'html' | 'markdown') => Promise<string | null>,
  title = l10n.t('Save the Bench Sheet'),
): Promise<void> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const isFile = circuit.scheme !== 'untitled';
  const place = isFile
    ? circuit.with({ path: circuit.path.replace(/\.lug$/, '') + '.html' })
    : folder && Uri.joinPath(folder, 'sheet.html');
  const target = await window.showSaveDialog({
    title,
    filters: { HTML: ['html'], Markdown: ['md'] },
    ...(place === undefined ? {} : { defaultUri: place }),
  });
  if (target === undefined) return;
  const text = await page(target.path.endsWith('.md') ? 'markdown' : 'html');
  if (text === null) return void window.showErrorMessage(l10n.t('The circuit can’t be read, so there is no sheet to save.'));
  try {
    await workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    await window.showErrorMessage(
      l10n.t('The sheet could not be saved: {0}', error instanceof Error ? error.message : String(error)),
    );
  }
}

function nameOf(circuit: Uri): string {
  const name = lastOf(circuit.path.split('/')).replace(/\.lug$/, '');
  return name.replace(/[^\p{L}\p{N}_.-]+/gu, '-').replace(/^[.-]+/, '') || 'sheet';
}
