// What is bundled for the editor: extension and language server, each for the desktop and for the browser.

const common = { external: ['vscode'] };
const node = { ...common, platform: 'node', target: 'node20.19', format: 'cjs' };
// Bundled CommonJS packages still ask for a `require` of Node's own modules.
const banner = { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" };
const browser = { ...common, platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'] };

/** Options of esbuild, one entry a bundle; `package.json` and the extension's entries name the same files. */
export const extensionBundles = [
  { ...node, entryPoints: ['extension/desktop.ts'], outfile: 'dist/desktop.cjs' },
  { ...node, entryPoints: ['server/lsp/main-node.ts'], outfile: 'dist/server.cjs' },
  { ...browser, format: 'cjs', entryPoints: ['extension/browser.ts'], outfile: 'dist/browser.cjs' },
  { ...browser, format: 'iife', entryPoints: ['server/lsp/main-web.ts'], outfile: 'dist/server-web.js' },
  // The layout engine is larger than all the rest, and only drawings need it.
  { ...node, format: 'esm', banner, entryPoints: ['server/draw-thread.ts'], outfile: 'dist/drawing.mjs' },
  { ...browser, format: 'iife', entryPoints: ['server/draw-worker.ts'], outfile: 'dist/drawing-web.js' },
  { ...browser, format: 'iife', entryPoints: ['extension/preview/webview/main.ts'], outfile: 'dist/drawing-panel.js' },
  { ...browser, format: 'iife', entryPoints: ['extension/sheet/webview/main.ts'], outfile: 'dist/sheet-panel.js' },
  { ...browser, entryPoints: ['extension/sheet/webview/sheet.css'], outfile: 'dist/sheet-panel.css' },
  { ...browser, entryPoints: ['extension/preview/webview/panel.css'], outfile: 'dist/drawing-panel.css' },
];
