/** The server as a process over stdio, for any client: it reads the disk itself where the client does not answer for files. */
import { spawn, type ChildProcess } from 'node:child_process';
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type Location,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type SymbolInformation,
} from 'vscode-languageserver-protocol/node.js';
import { afterEach, expect, test } from 'vitest';
import { root } from '../harness/checkout.js';
import { folderWith } from '../harness/process.js';
import { twoPickups } from './circuits.js';

interface Running {
  readonly process: ChildProcess;
  readonly connection: ProtocolConnection;
  readonly ended: Promise<number | null>;
}

const started: Running[] = [];
afterEach(async () => {
  for (const { process, connection, ended } of started.splice(0)) {
    connection.dispose();
    process.kill();
    await ended;
  }
});

/** Starts the built server in a folder, and greets it as a plain client does. */
async function start(folder: string): Promise<Running> {
  const process = spawn(globalThis.process.execPath, [join(root, 'dist', 'server.cjs'), '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise<number | null>((resolve) => process.once('exit', resolve));
  const connection = createProtocolConnection(new StreamMessageReader(process.stdout), new StreamMessageWriter(process.stdin));
  connection.onNotification('lugwork/status', () => undefined);
  connection.listen();
  const running = { process, connection, ended };
  started.push(running);
  const rootUri = pathToFileURL(folder).href;
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri,
    capabilities: {},
    workspaceFolders: [{ uri: rootUri, name: 'folder' }],
  });
  await connection.sendNotification('initialized', {});
  return running;
}

const house = 'type dark : single-coil { takes resistance 8k }\n';
const text = twoPickups({
  'instrument "Alder': 'use "parts/house.lug"\ninstrument "Alder',
  'neck     : single-coil': 'neck     : dark',
  'wire saddle         to volume.case black\n': '',
});

test('finds what is wrong, in a file and those that it uses', async () => {
  const folder = folderWith({ 'parts/house.lug': house, 'a.lug': text, 'node_modules/x/b.lug': 'part hidden : pot\n' });
  const { connection, ended } = await start(folder);
  const uri = pathToFileURL(join(folder, 'a.lug')).href;
  const published = new Promise<PublishDiagnosticsParams>((resolve) => {
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      if (params.diagnostics.length > 0) resolve(params);
    });
  });
  await connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'lugwork', version: 1, text } });
  const { diagnostics } = await published;
  expect(diagnostics.map(({ code }) => code)).toEqual(['floating-metal']);

  const lines = text.split('\n');
  const line = lines.findIndex((one) => one.includes(': dark'));
  const position = { line, character: lines[line]!.indexOf('dark') };
  const found = await connection.sendRequest<Location>('textDocument/definition', { textDocument: { uri }, position });
  expect(found.uri).toBe(pathToFileURL(join(folder, 'parts', 'house.lug')).href);

  const symbols = await connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: '' });
  expect(symbols.map(({ name }) => name)).toEqual(expect.arrayContaining(['dark', 'volume']));
  expect(symbols.map(({ name }) => name)).not.toContain('hidden');

  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  expect(await ended).toBe(0);
});

test('exit without shutdown ends with code 1, as the protocol asks', async () => {
  // Language Server Protocol 3.17, "Exit Notification".
  const { connection, ended } = await start(folderWith({ 'a.lug': text }));
  await connection.sendNotification('exit');
  expect(await ended).toBe(1);
});

test('a link counts as what it leads to: one that leads out of the folder is not read, one that stays inside is', async () => {
  const outside = 'type mine : resistor { takes resistance 1k }\n';
  const folder = folderWith({ 'outside.lug': outside, 'project/parts/house.lug': house });
  symlinkSync('../outside.lug', join(folder, 'project/out.lug'));
  symlinkSync('parts/house.lug', join(folder, 'project/in.lug'));
  symlinkSync('self.lug', join(folder, 'project/self.lug'));
  const { connection } = await start(join(folder, 'project'));
  const reported = async (name: string): Promise<string> => {
    const uri = pathToFileURL(join(folder, 'project', `uses-${name}`)).href;
    const published = new Promise<string>((resolve) => {
      connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
        const about = params.diagnostics.filter(({ code }) => code === 'use').map(({ message }) => message);
        if (params.uri === uri && params.diagnostics.length > 0) resolve(about.join());
      });
    });
    const text = `use "${name}"\npart a, a : resistor 1k\n`;
    await connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'lugwork', version: 1, text } });
    return published;
  };
  expect(await reported('out.lug')).toContain('`out.lug` is outside the open folder');
  expect(await reported('in.lug')).toBe('');
  expect(await reported('self.lug')).toContain('self.lug');
});
