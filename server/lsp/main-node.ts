/** The language server as a process: over stdio or IPC, as its caller's words say (`--stdio`, `--node-ipc`). */
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { startService } from './service.js';

startService(createConnection(ProposedFeatures.all), {
  readFile: async (uri) => {
    if (!uri.startsWith('file:')) return undefined;
    try {
      return await readFile(fileURLToPath(uri), 'utf8');
    } catch {
      // A file that is missing or unreadable is told where it is used.
      return undefined;
    }
  },
});
