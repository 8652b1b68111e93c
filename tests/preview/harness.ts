/** The panel in a browser with a stand-in for the editor: real bundles, the real page and policy. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import type { Page } from 'playwright-core';
import { createNonce, panelPage } from '../../extension/preview/html.js';
import type { FromPanel, ToPanel } from '../../extension/preview/protocol.js';
import { openBrowser } from '../editor/hosts/browser.js';
import { root } from '../harness/checkout.js';

const origin = 'http://panel.localhost';

export interface PanelPage {
  readonly page: Page;
  /** What the page complained about: the policy's refusals, exceptions. */
  readonly complaints: readonly string[];
  send(message: ToPanel): Promise<void>;
  /** Messages of a kind that the panel has sent so far. */
  sent<K extends FromPanel['kind']>(kind: K): Promise<Extract<FromPanel, { kind: K }>[]>;
  /** What the panel would have the editor keep. */
  kept(): Promise<unknown>;
  close(): Promise<void>;
}

/** Opens the panel; `theme` is the class that the editor gives its body. */
export async function openPanel(theme = 'vscode-light', kept?: unknown): Promise<PanelPage> {
  const folder = mkdtempSync(join(tmpdir(), 'lw-panel-'));
  const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
    extensionBundles: (BuildOptions & { outfile: string })[];
  };
  const panelBundles = extensionBundles.filter(({ outfile }) => outfile.includes('drawing-panel'));
  for (const options of panelBundles) {
    await build({
      absWorkingDir: root,
      bundle: true,
      logLevel: 'warning',
      ...options,
      outfile: join(folder, options.outfile.split('/').at(-1)!),
    });
  }
  const html = panelPage({
    title: 'Wiring drawing',
    script: `${origin}/drawing-panel.js`,
    style: `${origin}/drawing-panel.css`,
    source: origin,
    nonce: createNonce(),
  });
  const browser = await openBrowser(folder, { width: 900, height: 1100 });
  const { page } = browser;
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route(`${origin}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === '') return route.fulfill({ contentType: 'text/html', body: html.replace('<body>', `<body class="${theme}">`) });
    if (!name.startsWith('drawing-panel')) return route.fulfill({ status: 204 });
    const contentType = name.endsWith('.css') ? 'text/css' : 'text/javascript';
    return route.fulfill({ contentType, body: readFileSync(join(folder, name)) });
  });
  await page.addInitScript(`
    window.sent = [];
    window.kept = ${JSON.stringify(kept) ?? 'undefined'};
    window.acquireVsCodeApi = () => ({
      postMessage: (message) => window.sent.push(message),
      getState: () => window.kept,
      setState: (state) => (window.kept = state),
    });`);
  await page.goto(`${origin}/`);
  await page.locator('main').waitFor();
  return {
    page,
    complaints,
    send: (message) => page.evaluate(`window.postMessage(${JSON.stringify(message)}, '*')`),
    sent: async (kind) => page.evaluate(`window.sent.filter((message) => message.kind === ${JSON.stringify(kind)})`),
    kept: () => page.evaluate('window.kept'),
    close: async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}
