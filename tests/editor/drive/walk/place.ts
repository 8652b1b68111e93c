/** Where the walk takes place: the examples as a workshop keeps them, and the panels in which it is looked and typed. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Frame, Locator } from 'playwright-core';
import { root } from '../../hosts/place.js';
import { eventually, focusText, type Screen } from '../screen.js';

/** Stations by name, in the order of the walk. */
export type Stations = Readonly<Record<string, (screen: Screen) => Promise<void>>>;

/** The circuit of the walk: two pickups, a lever switch, a volume, a tone. */
export const example = 'two-single-coils-lever-3.lug';

/** The examples in a repository with one commit. */
export function committedExamples(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lw-examples-'));
  cpSync(join(root, 'examples'), folder, { recursive: true });
  const names = ['-c', 'user.name=Alder Lane', '-c', 'user.email=bench@example.invalid', '-c', 'commit.gpgsign=false'];
  for (const words of [
    ['init', '-q', '-b', 'main'],
    ['add', '.'],
    ['commit', '-qm', 'As built'],
  ])
    execFileSync('git', [...names, ...words], { cwd: folder });
  return folder;
}

/** The page of the panel that shows such an element; several panels may be open. */
export async function pageWith({ page }: Screen, css: string): Promise<Frame> {
  let found: Frame | undefined;
  await eventually(async () => {
    for (const frame of page.frames()) {
      const isThere = await frame
        .locator(css)
        .first()
        .isVisible()
        .catch(() => false);
      if (isThere && frame !== page.mainFrame()) found = frame;
    }
    return found !== undefined;
  });
  return found!;
}

/** The drawing, once it shows a setting. */
export function drawingOf(screen: Screen): Promise<Frame> {
  return pageWith(screen, '.frame svg.played');
}

export function textOf({ page }: Screen, name: string): Locator {
  return page.locator(`.monaco-editor[data-uri$="${name}"]`).first();
}

/** A line of an editor; its spaces are hard ones there. */
export function lineOf(editor: Locator, text: string): Locator {
  const words = text.split(/\s+/).map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return editor.locator('.view-line', { hasText: new RegExp(words.join('\\s+')) }).first();
}

/** The example with its drawing beside it, the keyboard in the text. */
export async function openExample(screen: Screen): Promise<void> {
  await screen.openFile(example);
  await textOf(screen, example).locator('.codelens-decoration', { hasText: 'no findings' }).waitFor({ timeout: 60_000 });
  await screen.command('Lugwork: Open the Drawing Beside the Text');
  await drawingOf(screen);
  await toText(screen);
}

/** Gives the keyboard to the text of the example. */
export async function toText(screen: Screen): Promise<void> {
  await focusText(screen.page);
  await screen.page.locator(`.monaco-editor.focused[data-uri$="${example}"]`).waitFor();
}

/** The example as it was committed, also where it has been saved since; names are changed in the file that uses it, too. */
export async function revert(screen: Screen): Promise<void> {
  for (const name of [example, example.replace('.lug', '.no-2.lug')])
    cpSync(join(root, 'examples', name), join(screen.folder, 'workspace', name));
  await toText(screen);
  await screen.command('File: Revert File');
  await lineOf(textOf(screen, example), 'wire neck.hot to selector.B3').waitFor();
  await withoutFindings(screen);
}

/** What the status bar says; the line over the instrument may be out of sight. */
export async function withoutFindings({ page }: Screen): Promise<void> {
  await page.locator('.statusbar [id$="overview"]', { hasText: 'no findings' }).waitFor();
}
