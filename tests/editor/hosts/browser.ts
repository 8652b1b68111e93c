/** Debian's Chromium, driven without a display: a profile of its own, and no way out of this machine. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type BrowserContext, type Page } from 'playwright-core';
import { ensurePrograms, findNeed } from './needs.js';

export interface OpenBrowser {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Addresses outside this machine that a page asked for; each was refused. */
  readonly refused: readonly string[];
  close(): Promise<void>;
}

const quiet = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Opens a browser with one empty page. Its profile lies in `folder`. */
export async function openBrowser(folder: string, size = { width: 1440, height: 900 }): Promise<OpenBrowser> {
  await ensurePrograms(['chromium'], 'a page in a browser');
  const profile = join(folder, 'profile');
  mkdirSync(join(profile, 'Default'), { recursive: true });
  // Without this the service worker of a webview is refused as a third party.
  const preferences = { profile: { block_third_party_cookies: false, cookie_controls_mode: 0 } };
  writeFileSync(join(profile, 'Default', 'Preferences'), JSON.stringify(preferences));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: findNeed('chromium'),
    headless: true,
    viewport: size,
    args: process.getuid?.() === 0 ? [...quiet, '--no-sandbox'] : quiet,
  });
  const refused: string[] = [];
  await context.route('**/*', async (route) => {
    const { protocol, hostname } = new URL(route.request().url());
    if (!protocol.startsWith('http') || hostname === '127.0.0.1' || hostname === 'localhost' || hostname.endsWith('.localhost')) {
      await route.fallback();
    } else {
      refused.push(route.request().url());
      await route.abort();
    }
  });
  const page = context.pages()[0] ?? (await context.newPage());
  return { context, page, refused, close: () => context.close() };
}
