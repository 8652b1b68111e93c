/** Writes an exported drawing or page where the user says, and nowhere else. */
import { l10n, Uri, window, workspace } from 'vscode';
import { fillPage } from '../../language/live/index.js';
import { pageLanguage } from '../localize.js';
import type { ServerLink } from '../server-link.js';

/** Asks for the place and writes; nothing where the question is left. */
export async function saveDrawing(circuit: Uri, format: 'svg' | 'png', bytes: Uint8Array): Promise<void> {
  await save(circuit, bytes, {
    title: l10n.t('Save the Drawing'),
    ending: format,
    untitled: `drawing.${format}`,
    filters: format === 'svg' ? { SVG: ['svg'] } : { PNG: ['png'] },
    failed: (why) => l10n.t('The drawing could not be saved: {0}', why),
  });
}

/** Makes the page of a circuit as its text is now, in the editor’s language, asks for the place and writes; `extension` is the folder of the extension. */
export async function exportPage(link: ServerLink, extension: Uri, circuit: Uri): Promise<void> {
  const contents = await link.request('lugwork/page', { uri: circuit.toString() });
  if (contents === null) return void window.showErrorMessage(l10n.t('The circuit can’t be read, so there is no page to save.'));
  const template = await workspace.fs.readFile(Uri.joinPath(extension, 'dist', 'page.html'));
  const page = fillPage(new TextDecoder().decode(template), contents, pageLanguage());
  await save(circuit, new TextEncoder().encode(page), {
    title: l10n.t('Save the Page'),
    // The bench sheet is saved under the circuit’s name.
    ending: 'page.html',
    untitled: 'page.html',
    filters: { HTML: ['html'] },
    failed: (why) => l10n.t('The page could not be saved: {0}', why),
  });
}

interface Saved {
  readonly title: string;
  /** What follows the circuit’s name, in place of `.lug`. */
  readonly ending: string;
  /** The name where the circuit has no file. */
  readonly untitled: string;
  readonly filters: Readonly<Record<string, string[]>>;
  failed(why: string): string;
}

async function save(circuit: Uri, bytes: Uint8Array, { title, ending, untitled, filters, failed }: Saved): Promise<void> {
  const isFile = circuit.scheme !== 'untitled';
  const folder = workspace.workspaceFolders?.[0]?.uri;
  const place = isFile
    ? circuit.with({ path: `${circuit.path.replace(/\.lug$/, '')}.${ending}` })
    : folder && Uri.joinPath(folder, untitled);
  const target = await window.showSaveDialog({ title, filters, ...(place === undefined ? {} : { defaultUri: place }) });
  if (target === undefined) return;
  try {
    await workspace.fs.writeFile(target, bytes);
  } catch (error) {
    await window.showErrorMessage(failed(error instanceof Error ? error.message : String(error)));
  }
}
