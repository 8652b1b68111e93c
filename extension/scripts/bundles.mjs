// What is bundled for the editor: extension and language server, each for the desktop and for the browser.
import { inOnePage } from './one-page.mjs';

const common = { external: ['vscode'] };
const node = { ...common, platform: 'node', target: 'node20.19', format: 'cjs' };
const browser = { ...common, platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };

/** The script of a page, as small as it gets: no trace of it is reported. */
const script = { ...browser, format: 'iife', minifyIdentifiers: true };

/** The layout engine is larger than all the rest and only drawings need it: one script for the command, the server and the browser. */
export const drawingBundle = {
  ...browser,
  external: ['node:worker_threads'],
  format: 'iife',
  entryPoints: ['server/drawing-worker.ts'],
  outfile: 'dist/drawing.js',
};

/** The page that stands by itself, as a template: the command and the extension fill in an instrument. */
export const pageBundle = {
  ...script,
  legalComments: 'none',
  entryPoints: ['extension/page/webview/main.ts'],
  outfile: 'dist/page.js',
  plugins: [inOnePage(['uplot'])],
};

/** Options of esbuild, one entry a bundle; `package.json` and the extension's entries name the same files. */
export const extensionBundles = [
  { ...node, entryPoints: ['extension/desktop.ts'], outfile: 'dist/desktop.cjs' },
  { ...node, entryPoints: ['server/lsp/main-node.ts'], outfile: 'dist/server.cjs' },
  { ...browser, format: 'cjs', entryPoints: ['extension/browser.ts'], outfile: 'dist/browser.cjs' },
  { ...browser, format: 'iife', entryPoints: ['server/lsp/main-web.ts'], outfile: 'dist/server-web.js' },
  drawingBundle,
  pageBundle,
  { ...script, entryPoints: ['extension/preview/webview/main.ts'], outfile: 'dist/drawing-panel.js' },
  { ...script, entryPoints: ['extension/sheet/webview/main.ts'], outfile: 'dist/sheet-panel.js' },
  { ...script, entryPoints: ['extension/compare/webview/main.ts'], outfile: 'dist/compare-panel.js' },
  { ...browser, entryPoints: ['extension/compare/webview/compare.css'], outfile: 'dist/compare-panel.css' },
  { ...browser, entryPoints: ['extension/sheet/webview/sheet.css'], outfile: 'dist/sheet-panel.css' },
  { ...browser, entryPoints: ['extension/preview/webview/panel.css'], outfile: 'dist/drawing-panel.css' },
];
