/** How Node.js is started for the language server. */

/**
 * New objects get 8 MB in place of 16, since what a keystroke makes is small. With what `server/lsp/main-node.ts` says of old ones the server holds about a third
 * less, for a twentieth more processor time (`npm run bench -- memory`).
 */
export const serverFlags: readonly string[] = ['--max-semi-space-size=8'];
