/** Random messages to the language server, well formed and not; it must answer on, and well-formed ones must bring no exception. */
import { PassThrough } from 'node:stream';
import {
  CancellationTokenSource,
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type ProtocolConnection,
} from 'vscode-languageserver-protocol/node.js';
import { createConnection } from 'vscode-languageserver/node.js';
import { gateOptions } from '../../server/lsp/messages/gate.js';
import { startService } from '../../server/lsp/service.js';
import { createDice, type Dice } from '../electrics/random-circuit.js';
import { randomText } from './random-text.js';
import type { Watch } from './watch.js';

const uris = [
  'memory:/a.lug',
  'memory:/b.lug',
  'file:///alder/c.lug',
  'untitled:Untitled-1',
  'vscode-vfs://host/d%20e.lug',
  'git:/a.lug?ref=x',
  'lugwork:/parts/pots.lug',
  '',
];
const methods = [
  ...['hover', 'completion', 'signatureHelp', 'definition', 'references', 'prepareRename', 'rename', 'documentHighlight'],
  ...[
    'documentSymbol',
    'documentLink',
    'foldingRange',
    'selectionRange',
    'codeLens',
    'formatting',
    'semanticTokens/full',
    'inlayHint',
    'codeAction',
  ],
].map((name) => `textDocument/${name}`);
const ours = ['lugwork/expectations', 'lugwork/checkExpectations', 'lugwork/positions', 'workspace/symbol', 'lugwork/nothing'];
const junk: readonly unknown[] = [
  null,
  [],
  {},
  7,
  'x',
  { textDocument: null },
  { textDocument: { uri: 7 } },
  { textDocument: { uri: 'memory:/a.lug' }, position: 'x' },
  { textDocument: { uri: 'memory:/a.lug' }, range: {}, position: { line: -1, character: null } },
];

/** Messages between two questions whether the server still answers. */
const stretch = 100;

/** Sends so many messages in all, each stretch to a server that goes on from the one before. */
export async function fuzzProtocol(messages: number, seed: number, watch: Watch, wellFormed: boolean): Promise<void> {
  const { connection, log } = await connect();
  let version = 0;
  for (let sent = 0; sent < messages; sent += stretch) {
    const dice = createDice(seed + sent);
    const answers: Promise<unknown>[] = [];
    for (let i = 0; i < stretch; i++) {
      const answer = message(connection, dice, () => ++version, seed + sent + i, wellFormed);
      answers.push(answer.catch(() => undefined));
    }
    const isAnswered = await Promise.race([Promise.all(answers).then(() => true), late(600_000)]);
    if (isAnswered === undefined) watch.fail('an answer is missing after ten minutes', seed + sent);
    await alive(connection, ++version, seed + sent, watch);
    if (wellFormed) for (const line of log.splice(0)) watch.fail(`the server noted: ${line.slice(0, 400)}`, seed + sent);
  }
  await connection.sendRequest('shutdown');
  connection.dispose();
}

async function alive(connection: ProtocolConnection, version: number, seed: number, watch: Watch): Promise<void> {
  const textDocument = { uri: 'memory:/alive.lug', languageId: 'lugwork', version, text: 'part output : jack\n' };
  await connection.sendNotification('textDocument/didOpen', { textDocument });
  const answer = await Promise.race([
    connection.sendRequest<unknown[]>('textDocument/documentSymbol', { textDocument: { uri: textDocument.uri } }),
    late(600_000),
  ]).catch((error: unknown) => String(error));
  if (!Array.isArray(answer) || answer.length !== 1) watch.fail(`the server answers no longer: ${JSON.stringify(answer)}`, seed);
  await connection.sendNotification('textDocument/didClose', { textDocument: { uri: textDocument.uri } });
}

function late(milliseconds: number): Promise<undefined> {
  return new Promise((resolve) => void setTimeout(() => resolve(undefined), milliseconds).unref());
}

function message(
  connection: ProtocolConnection,
  dice: Dice,
  next: () => number,
  seed: number,
  wellFormed: boolean,
): Promise<unknown> {
  const uri = dice.pick(uris);
  const textDocument = { uri };
  if (!wellFormed && dice.chance(0.5)) {
    const params = dice.pick(junk) as object;
    return dice.chance(0.5)
      ? connection.sendRequest(dice.pick([...methods, ...ours]), params)
      : connection.sendNotification(`textDocument/${dice.pick(['didOpen', 'didChange', 'didClose', 'didSave'])}`, params);
  }
  const roll = dice.next();
  if (roll < 0.15)
    return connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'lugwork', version: next(), text: randomText(seed) },
    });
  if (roll < 0.22) return connection.sendNotification('textDocument/didClose', { textDocument });
  if (roll < 0.5) {
    // Out of order, one in five; places past the end are cut by the protocol.
    const version = dice.chance(0.2) ? Math.floor(dice.next() * 5) : next();
    const change = dice.chance(0.1)
      ? { text: randomText(seed) }
      : { range: rangeOf(dice), text: dice.pick(['', '\n', 'wire a.1 to ', '{', 'x', '"']) };
    return connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [change] });
  }
  if (roll < 0.53)
    return connection.sendNotification('workspace/didChangeConfiguration', {
      settings: { lugwork: { rules: { 'idle-wire': 'off' } } },
    });
  if (roll < 0.56)
    return connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri, type: 1 + Math.floor(dice.next() * 3) }],
    });
  const source = new CancellationTokenSource();
  const params = {
    textDocument,
    position: rangeOf(dice).start,
    range: rangeOf(dice),
    positions: [rangeOf(dice).start],
    context: { diagnostics: [], includeDeclaration: true },
    options: { tabSize: 2, insertSpaces: true },
    newName: dice.pick(['x', '', 'a b', '"']),
    query: 'vol',
  };
  const answer = connection.sendRequest(dice.pick(dice.chance(0.9) ? methods : ours), params, source.token);
  if (dice.chance(0.2)) source.cancel();
  return answer;
}

function rangeOf(dice: Dice) {
  const place = () => ({ line: Math.floor(dice.between(1, 60)) - 1, character: Math.floor(dice.between(1, 100)) - 1 });
  const [start, end] = [place(), place()];
  return start.line < end.line || (start.line === end.line && start.character <= end.character)
    ? { start, end }
    : { start: end, end: start };
}

async function connect(): Promise<{ connection: ProtocolConnection; log: string[] }> {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  startService(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient), gateOptions()));
  const quiet = { error: () => undefined, warn: () => undefined, info: () => undefined, log: () => undefined };
  const connection = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer), quiet);
  const log: string[] = [];
  connection.onNotification(
    'window/logMessage',
    ({ message, type }: { message: string; type: number }) => void (type <= 2 && log.push(message)),
  );
  connection.onRequest('lugwork/readFile', () => null);
  connection.onRequest('lugwork/findFiles', () => uris.slice(0, 2));
  connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) => items.map(() => null));
  connection.onRequest('client/registerCapability', () => null);
  for (const method of ['lugwork/status', 'lugwork/checked', 'textDocument/publishDiagnostics'])
    connection.onNotification(method, () => undefined);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    workspaceFolders: [{ uri: 'memory:/', name: 'memory' }],
    capabilities: { workspace: { configuration: true } },
    initializationOptions: { answersFiles: true, hearsChecked: true },
  });
  await connection.sendNotification('initialized', {});
  return { connection, log };
}
