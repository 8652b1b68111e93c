/** The documents that hold blocks made from the code, each with its blocks, and the guides. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fillBlocks } from './blocks.js';
import { commandTable } from './commands.js';
import { firstCircuit } from './first-circuit.js';
import { guides } from './guides.js';
import { partTables } from './parts.js';
import { ruleTable } from './rules.js';
import { bodyTable, statementTable } from './statements.js';

/** Path from the root and fresh text of each document. Pure but for reading the documents and the README's circuit. */
export async function documents(root: string): Promise<Map<string, string>> {
  const read = (path: string) => readFileSync(join(root, path), 'utf8');
  const fill = (path: string, blocks: Record<string, string>): [string, string] => [
    path,
    fillBlocks(read(path), new Map(Object.entries(blocks))),
  ];
  return new Map([
    fill('README.md', await firstCircuit(root)),
    fill('language/reference.md', { statements: statementTable(), body: bodyTable() }),
    fill('language/reference-parts.md', { parts: partTables() }),
    fill('language/reference-rules.md', { rules: ruleTable() }),
    fill('language/reference-command.md', { commands: commandTable() }),
    ...(await guides(root)),
  ]);
}
