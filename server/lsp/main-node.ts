/** The language server as a process: over stdio or IPC, as its caller's words say (`--stdio`, `--node-ipc`). */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { disk } from './disk.js';
import { startService } from './service.js';

startService(createConnection(ProposedFeatures.all), disk);
