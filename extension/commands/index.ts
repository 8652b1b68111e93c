/** All commands, each in a file of its own. */
import { commands, type Disposable } from 'vscode';
import type { ServerLink } from '../server-link.js';
import { checkFolder } from './check-folder.js';
import type { Command } from './command.js';
import { copyLugs } from './copy-lugs.js';
import { locateFault } from './locate-fault.js';
import { newCircuit } from './new-circuit.js';
import { restartServer } from './restart-server.js';
import { showOutput } from './show-output.js';
import { writeExpectations } from './write-expectations.js';

const all: readonly Command[] = [newCircuit, writeExpectations, locateFault, checkFolder, copyLugs, restartServer, showOutput];

/** Registers every command; the manifest names the same ids. */
export function registerCommands(link: ServerLink): Disposable[] {
  return all.map((command) => commands.registerCommand(command.id, (asked?: unknown) => command.run(link, asked)));
}
