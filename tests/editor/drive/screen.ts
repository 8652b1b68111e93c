/** A real editor on a screen: opened, driven by its keyboard and palette, photographed. */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { openBrowser } from '../hosts/browser.js';
import { editorSettings } from '../hosts/host.js';
import { installPackage, startNodeHost } from '../hosts/node-host.js';
import { createRunFolder, root, screensFolder } from '../hosts/place.js';
import { packExtension, stageExtension } from '../hosts/stage.js';
import { startWebHost } from '../hosts/web-host.js';
import { stageStart } from '../start/stage.js';

export interface Screen {
  readonly page: Page;
  /** The run's short-lived folder: the paths of its processes begin with it. */
  readonly folder: string;
  /** Opens a file of the folder and gives its editor. */
  openFile(name: string): Promise<Locator>;
  /** Runs a command by its title in the palette. */
  command(title: string): Promise<void>;
  /** Takes the row of the open list that holds the text. */
  pick(text: string): Promise<void>;
  /** Puts the cursor behind the first place where the text stands, by the editor's own find. */
  goTo(text: string): Promise<void>;
  /** Rests with the mouse on a place; the editor must not be scrolled from outside. */
  pointAt(target: Locator): Promise<void>;
  /** Takes a picture into the folder of screens and gives its path. */
  shot(name: string): Promise<string>;
  /** Addresses outside this machine that the editor asked for. */
  readonly refused: readonly string[];
  close(): Promise<void>;
}

export interface ScreenOptions {
  readonly host: 'node' | 'web';
  /** The packaged extension, installed, instead of the staged one under development. */
  readonly packaged?: boolean;
  /** As `npm start` shows it: both installed, the extension and the small one that greets. */
  readonly greeted?: boolean;
  readonly workspace?: string;
  readonly size?: { width: number; height: number };
  readonly settings?: Readonly<Record<string, unknown>>;
}

/** Opens the editor on a copy of the workspace; the caller closes it. */
export async function openScreen(options: ScreenOptions): Promise<Screen> {
  const folder = createRunFolder();
  const workspace = join(folder, 'workspace');
  cpSync(options.workspace ?? join(root, 'tests', 'editor', 'workspace'), workspace, { recursive: true });
  const extension = join(folder, 'extension');
  const isInstalled = options.packaged === true || options.greeted === true;
  if (options.packaged === true) await installPackage(await packExtension(folder), folder);
  else if (options.greeted === true) await stageStart(join(folder, 'exts'));
  else {
    mkdirSync(extension);
    await stageExtension(extension);
  }
  const settings = { ...editorSettings, ...options.settings };
  if (options.host === 'web') {
    // The web host has no settings of the user; those of the folder do as well.
    mkdirSync(join(workspace, '.vscode'));
    writeFileSync(join(workspace, '.vscode', 'settings.json'), JSON.stringify(settings));
  }
  const start = options.host === 'node' ? startNodeHost : startWebHost;
  const host = await start({
    workspace,
    folder,
    settings: options.settings,
    ...(isInstalled ? {} : { extension }),
  });
  const browser = await openBrowser(folder, options.size);
  const { page } = browser;
  page.setDefaultTimeout(30_000);
  await page.goto(host.url);
  await page.locator('.monaco-workbench .part.editor').waitFor();
  mkdirSync(screensFolder, { recursive: true });

  return {
    page,
    folder,
    refused: browser.refused,
    openFile: async (name) => {
      // The tree of files, for a virtual folder need not offer a search.
      await quickInput(page, 'F1', '>View: Show Explorer');
      await page.locator('.explorer-folders-view .monaco-list-row', { hasText: name }).first().dblclick();
      const editor = page.locator(`.monaco-editor[data-uri$="${name}"]`).first();
      await editor.locator('.view-line').first().waitFor();
      // Colours come a moment after the text.
      await editor.locator('.view-line [class^="mtk"]:not(.mtk1)').first().waitFor();
      return editor;
    },
    command: (title) => quickInput(page, 'F1', `>${title}`),
    pick: (text) => pick(page, text),
    pointAt: async (target) => {
      const box = await target.boundingBox();
      if (box === null) throw new Error('what is to be pointed at is not there');
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    },
    goTo: async (text) => {
      await focusText(page);
      await page.keyboard.press('Control+f');
      const widget = page.locator('.find-widget.visible');
      await widget.waitFor();
      await widget.locator('.find-part textarea').fill(text);
      await page.keyboard.press('Enter');
      await page.keyboard.press('Escape');
      await widget.waitFor({ state: 'hidden' });
      // The find leaves the place selected; the cursor belongs behind it.
      await page.keyboard.press('ArrowRight');
    },
    shot: async (name) => {
      const path = join(screensFolder, `${name}.png`);
      await page.screenshot({ path, animations: 'disabled' });
      return path;
    },
    close: async () => {
      await browser.close();
      await host.stop();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/**
 * Gives the keyboard to the text where a panel beside it has it.
 *
 * A click on a text that is scrolled would move the editor from outside, and a key pressed while a panel loads reaches nobody.
 */
export async function focusText(page: Page): Promise<void> {
  await eventually(async () => {
    await page.keyboard.press('Control+1');
    const focused = page.locator('.part.editor .monaco-editor.focused').first();
    return focused.waitFor({ timeout: 1000 }).then(
      () => true,
      () => false,
    );
  });
}

/** Kills the language server of the editor whose run folder this is; nothing else on the machine has that path. */
export function killServer(folder: string): void {
  const lines = execFileSync('ps', ['-A', '-o', 'pid=,args='], { encoding: 'utf8' }).split('\n');
  const servers = lines.filter((line) => line.includes(folder) && line.includes('server.cjs'));
  if (servers.length !== 1) throw new Error(`${servers.length} language servers run below ${folder}`);
  process.kill(Number.parseInt(servers[0]!, 10), 'SIGKILL');
}

/**
 * Opens the editor's input with a key, types, and takes the row that matches.
 *
 * A key pressed while the focus is on its way into a panel reaches nobody, so it is pressed again until the input opens.
 */
async function quickInput(page: Page, key: string, text: string): Promise<void> {
  const input = page.locator('.quick-input-widget input.input').first();
  await eventually(async () => {
    if (await input.isVisible()) return true;
    await page.keyboard.press(key);
    return input.waitFor({ timeout: 2000 }).then(
      () => true,
      () => false,
    );
  });
  await pick(page, text);
}

/** Types into the open input, waits for the row that holds the text and takes it. */
async function pick(page: Page, text: string): Promise<void> {
  const widget = page.locator('.quick-input-widget');
  await widget.locator('input.input').first().fill(text);
  const wanted = widget.locator('.quick-input-list .monaco-list-row', { hasText: text.replace(/^>/, '') }).first();
  await wanted.waitFor();
  await wanted.click();
}

/** Waits until it is so; an error after ten seconds of tries. */
export async function eventually(isSo: () => Promise<boolean>): Promise<void> {
  for (let tries = 0; !(await isSo()); tries++) {
    if (tries > 100) throw new Error(`not so: ${String(isSo)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
