/** A real editor on a screen: opened, driven by its keyboard and palette, photographed. */
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { openBrowser } from '../hosts/browser.js';
import { installPackage, startNodeHost } from '../hosts/node-host.js';
import { createRunFolder, root, screensFolder } from '../hosts/place.js';
import { packExtension, stageExtension } from '../hosts/stage.js';
import { startWebHost } from '../hosts/web-host.js';

export interface Screen {
  readonly page: Page;
  /** Opens a file of the folder and gives its editor. */
  openFile(name: string): Promise<Locator>;
  /** Runs a command by its title in the palette. */
  command(title: string): Promise<void>;
  /** Takes the row of the open list that holds the text. */
  pick(text: string): Promise<void>;
  /** Puts the cursor behind the first place where the text stands, by the editor's own find. */
  goTo(text: string): Promise<void>;
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
  if (options.packaged === true) await installPackage(await packExtension(folder), folder);
  else {
    mkdirSync(extension);
    await stageExtension(extension);
  }
  const start = options.host === 'node' ? startNodeHost : startWebHost;
  const host = await start({
    workspace,
    folder,
    settings: options.settings,
    ...(options.packaged === true ? {} : { extension }),
  });
  const browser = await openBrowser(folder, options.size);
  const { page } = browser;
  page.setDefaultTimeout(60_000);
  await page.goto(host.url);
  await page.locator('.monaco-workbench .part.editor').waitFor();
  mkdirSync(screensFolder, { recursive: true });

  return {
    page,
    refused: browser.refused,
    openFile: async (name) => {
      await quickInput(page, 'Control+p', name);
      const editor = page.locator(`.monaco-editor[data-uri$="${name}"]`).first();
      await editor.locator('.view-line').first().waitFor();
      // Colours come a moment after the text.
      await editor.locator('.view-line [class^="mtk"]:not(.mtk1)').first().waitFor();
      return editor;
    },
    command: (title) => quickInput(page, 'F1', `>${title}`),
    pick: (text) => pick(page, text),
    goTo: async (text) => {
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
      await page.screenshot({ path });
      return path;
    },
    close: async () => {
      await browser.close();
      await host.stop();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** Opens the editor's input with a key, types, and takes the row that matches. */
async function quickInput(page: Page, key: string, text: string): Promise<void> {
  await page.keyboard.press(key);
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
