#!/usr/bin/env node
// Starts the `lugwork` command; in a checkout whose build is missing or old it builds first.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const bundle = new URL('../dist/lugwork.mjs', import.meta.url);
const isCheckout = existsSync(new URL('./command/main.ts', import.meta.url));

try {
  if (isCheckout) {
    const { ensureCommandBuilt, isInstalled } = await import('./scripts/setup.mjs');
    if (!isInstalled())
      throw new Error('its dependencies are missing or not those of package-lock.json; run `npm install` in the checkout first');
    await ensureCommandBuilt();
  } else if (!existsSync(bundle)) {
    throw new Error(`${fileURLToPath(bundle)} is missing; install the package again`);
  }
  await import(bundle.href);
} catch (error) {
  console.error(`lugwork cannot start: ${error.message}`);
  process.exit(2);
}
