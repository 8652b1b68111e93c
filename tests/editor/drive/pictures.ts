/** What each picture shows and how the editor is brought there; a step that does not come is an error. */
import { join } from 'node:path';
import { root } from '../hosts/place.js';
import { killServer, type Screen, type ScreenOptions } from './screen.js';

export interface Group {
  readonly options: ScreenOptions;
  readonly pictures: Readonly<Record<string, (screen: Screen) => Promise<void>>>;
}

const examples = join(root, 'examples');
const dark = { 'workbench.colorTheme': 'Default Dark Modern' };

/** One editor a group; its pictures are taken in order. */
export const groups: readonly Group[] = [
  { options: { host: 'node' }, pictures: { 'circuit-light': circuit, 'status-item': statusItem, walkthrough } },
  { options: { host: 'node', settings: dark }, pictures: { 'circuit-dark': circuit, 'markdown-block': markdown } },
  {
    options: { host: 'node' },
    pictures: { error, 'error-hover': errorHover, 'quick-fix': quickFix, 'quick-fix-done': quickFixDone },
  },
  { options: { host: 'node' }, pictures: { hover, completion, definition, outline, rename } },
  { options: { host: 'node', settings: { 'lugwork.inlayHints.nets': true } }, pictures: { 'lens-and-hints': lensAndHints } },
  { options: { host: 'node' }, pictures: { 'testing-view': testingView, 'testing-failure': testingFailure } },
  { options: { host: 'node', workspace: examples }, pictures: { overview, 'testing-folders': testingFolders } },
  { options: { host: 'node' }, pictures: { 'circuit-chosen': circuitChosen, 'pasted-table': pastedTable, task, crash } },
  { options: { host: 'node', packaged: true }, pictures: { 'packaged-error': error, 'packaged-extension': extensionPage } },
  { options: { host: 'web' }, pictures: { 'web-error': error, 'web-testing-view': testingView } },
];

async function circuit({ page, openFile }: Screen): Promise<void> {
  await openFile('two-pickups.lug');
  await page.locator('.statusbar').getByText('Lugwork').waitFor();
}

async function statusItem({ page }: Screen): Promise<void> {
  await page.locator('.statusbar [id="status.languageStatus"]').hover();
  await page.locator('.hover-language-status').getByText('Lugwork: Ready').waitFor();
}

async function walkthrough({ page, command, pick }: Screen): Promise<void> {
  await command('Welcome: Open Walkthrough...');
  await pick('Wire a guitar as text');
  await page.locator('.gettingStartedContainer').getByText('Begin with a circuit').waitFor();
  const media = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  await media.getByText('A circuit is a text').waitFor();
}

async function markdown({ openFile }: Screen): Promise<void> {
  await openFile('notes.md');
}

async function error({ page, openFile, command }: Screen): Promise<void> {
  const editor = await openFile('moved-wire.lug');
  await editor.locator('.squiggly-error').first().waitFor();
  await command('View: Focus Problems');
  await page.locator('.markers-panel').getByText('neck is heard too').waitFor();
}

async function errorHover(screen: Screen): Promise<void> {
  const { page, pointAt } = screen;
  await error(screen);
  await pointAt(page.locator('.monaco-editor .squiggly-error').first());
  await page.locator('.monaco-hover').getByText('neck is heard too').waitFor();
}

async function quickFix({ page, openFile, goTo }: Screen): Promise<void> {
  const editor = await openFile('misspelt.lug');
  await editor.locator('.squiggly-error').first().waitFor();
  await goTo('neck.gro');
  await page.keyboard.press('Control+.');
  await page.locator('.action-widget').getByText('write ground').first().waitFor();
}

async function quickFixDone({ page }: Screen): Promise<void> {
  await page.keyboard.press('Enter');
  const editor = page.locator('.monaco-editor[data-uri$="misspelt.lug"]');
  await editor.locator('.squiggly-error').first().waitFor({ state: 'detached' });
  // What stands over the instrument follows a moment later.
  await editor.locator('.codelens-decoration', { hasText: 'no findings' }).waitFor();
}

async function hover({ page, openFile, goTo }: Screen): Promise<void> {
  await openFile('two-pickups.lug');
  await goTo('wire neck');
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  await page.locator('.monaco-hover').getByText('6.1').first().waitFor();
}

async function completion({ page, openFile }: Screen): Promise<void> {
  await openFile('two-pickups.lug');
  await page.keyboard.press('Control+End');
  await page.keyboard.type('wire neck.');
  await page.locator('.suggest-widget.visible').getByText('ground').first().waitFor();
}

async function definition({ page, openFile, goTo, command }: Screen): Promise<void> {
  await page.keyboard.press('Escape');
  await openFile('two-pickups.lug');
  await goTo('lever-3');
  await command('Go to Definition');
  await page.locator('.monaco-editor[data-uri^="lugwork:/parts/levers.lug"]').getByText('type').first().waitFor();
}

async function outline({ page, openFile, command }: Screen): Promise<void> {
  await openFile('two-pickups.lug');
  await command('Explorer: Focus on Outline View');
  await page.locator('.outline-tree').getByText('selector').first().waitFor();
}

async function rename({ page, openFile, goTo }: Screen): Promise<void> {
  const editor = await openFile('two-pickups.lug');
  // Before the server has answered for the first time nothing can be renamed.
  await editor.locator('.codelens-decoration').first().waitFor();
  await goTo('wire neck');
  await page.keyboard.press('F2');
  // The box takes the keyboard a moment after it is there.
  await page.locator('.rename-box input:focus').waitFor();
  await page.keyboard.type('front');
  await page.locator('.rename-box:visible').waitFor();
}

async function lensAndHints({ openFile }: Screen): Promise<void> {
  const editor = await openFile('two-pickups.lug');
  await editor.locator('.codelens-decoration').first().waitFor();
}

async function testingView({ page, openFile, command }: Screen): Promise<void> {
  const editor = await openFile('moved-wire.lug');
  await editor.locator('.squiggly-error').first().waitFor();
  await command('Testing: Focus on Test Explorer View');
  await page.locator('.test-explorer').getByText('moved-wire.lug').waitFor();
  // Opened before the run, so that the row is not read anew in the middle of it.
  await page.locator('.test-explorer .monaco-list-row', { hasText: 'moved-wire.lug' }).locator('.monaco-tl-twistie').click();
  await page.locator('.test-explorer').getByText('selector "neck"').waitFor();
  await command('Test: Run All Tests');
  await page.locator('.test-explorer .codicon-testing-failed-icon').first().waitFor();
  // In this file some expectations hold; other files may not have been found when all were run.
  await page.locator('.test-explorer .codicon-testing-passed-icon').first().waitFor();
}

async function testingFailure({ page }: Screen): Promise<void> {
  await page.locator('.test-explorer').getByText('selector "both" : sounds', { exact: false }).first().dblclick();
  await page.locator('.test-output-peek, .testing-diff-editor, .zone-widget').first().waitFor();
}

async function testingFolders({ page, openFile, command }: Screen): Promise<void> {
  await openFile('two-single-coils-lever-3.lug');
  await command('Testing: Focus on Test Explorer View');
  await page.locator('.test-explorer').getByText('faulty').waitFor();
  await command('Test: Run All Tests');
  await page
    .locator('.test-explorer .monaco-list-row', { hasText: 'two-single-coils-lever-3.lug' })
    .locator('.codicon-testing-passed-icon')
    .waitFor();
  // Faulty examples are there to be looked at, not to be run with the rest.
  await page.locator('.test-explorer .monaco-list-row', { hasText: 'faulty' }).locator('.codicon-testing-unset-icon').waitFor();
}

/** What the status bar says, and what a click on it opens. */
async function overview({ page, openFile }: Screen): Promise<void> {
  await openFile('two-single-coils-lever-3.lug');
  const item = page.locator('.statusbar [id$="overview"]', { hasText: '3 positions, no findings' });
  await item.click();
  const panel = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  await panel.locator('summary:focus', { hasText: 'Positions' }).waitFor();
}

/** The chooser by keyboard alone: every circuit has its drawing, and Enter opens the one that has the focus. */
async function circuitChosen({ page, command, openFile, shot }: Screen): Promise<void> {
  // The palette offers the command once the extension is there.
  await openFile('two-pickups.lug');
  await command('Lugwork: Choose a Circuit to Start From');
  const chooser = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  const links = chooser.getByRole('link');
  const lever = chooser.getByRole('link', { name: 'Two pickups on a lever with three positions' });
  await lever.waitFor();
  // A link is there before its drawing is decoded.
  const sizes = await links.locator('img').evaluateAll((all) =>
    Promise.all(
      all.map(async (element) => {
        const img = element as unknown as { decode: () => Promise<void>; naturalWidth: number };
        await img.decode();
        return img.naturalWidth;
      }),
    ),
  );
  if (sizes.length < 8 || sizes.includes(0)) throw new Error(`the chooser shows drawings of these widths: ${sizes.join(' ')}`);
  await shot('circuit-chooser');
  await lever.focus();
  await lever.press('Enter');
  await page.locator('.monaco-editor .view-line', { hasText: 'lever-3' }).first().waitFor();
}

/** A table as a spreadsheet copies it becomes wires; the button beside them puts the plain text in their place. */
async function pastedTable({ page, command, openFile }: Screen): Promise<void> {
  const editor = await openFile('two-pickups.lug');
  await editor.locator('.codelens-decoration').first().waitFor();
  await page.keyboard.press('Control+End');
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.evaluate(`navigator.clipboard.write([new ClipboardItem({
    'text/plain': new Blob(['From\\tTo\\tColour\\nNeck PU.hot\\tvolume.3\\twhite\\nNeck PU.ground\\tvolume.case\\t\\n'], { type: 'text/plain' }),
    'text/html': new Blob(['<table><tr><td>From</td></tr></table>'], { type: 'text/html' }),
  })])`);
  await page.keyboard.press('Control+v');
  await editor.locator('.view-line', { hasText: /^wire.neck-pu\.ground.to.volume\.case$/ }).waitFor();
  await editor.locator('.view-line', { hasText: /^wire.neck-pu\.hot\s+to.volume\.3.white$/ }).waitFor();
  await page.locator('.post-edit-widget').click();
  await page.locator('.action-widget').getByText('Insert Plain Text').waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  const plain = editor.locator('.view-line', { hasText: /Neck.PU\.ground.*volume\.case/ });
  await plain.waitFor();
  // The screens that come after it work on the same file.
  await command('File: Revert File');
  await plain.waitFor({ state: 'detached' });
}

async function task({ page, command, openFile }: Screen): Promise<void> {
  await openFile('two-pickups.lug');
  await command('Lugwork: Check All Circuits in the Folder');
  // The terminal takes the focus when it comes; the count, of causes alone, comes when it is done.
  await page.locator('.statusbar [id="status.problems"]', { hasText: '2' }).waitFor();
  await command('View: Focus Problems');
  await page.locator('.markers-panel').getByText('neck is heard too').waitFor();
}

async function crash({ page, folder, openFile }: Screen): Promise<void> {
  const editor = await openFile('moved-wire.lug');
  await editor.locator('.squiggly-error').first().waitFor();
  killServer(folder);
  await page.locator('.notification-toast').getByText('stopped unexpectedly').waitFor();
}

async function extensionPage({ page, command }: Screen): Promise<void> {
  await command('View: Show Extensions');
  await page.locator('.extension-list-item', { hasText: 'Lugwork' }).first().click();
  const readme = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  await readme.getByText('Lugwork in the editor').waitFor();
}
