/** What comes too early, too late or with wrong parameters: answered as the Language Server Protocol 3.17 says, for every method there is. */
import { PassThrough } from 'node:stream';
import { StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node.js';
import { createConnection } from 'vscode-languageserver/node.js';
import { describe, expect, test } from 'vitest';
import { gateOptions } from '../../server/lsp/messages/gate.js';
import { mostEntries, mostPoints, notificationParams, requestParams } from '../../server/lsp/params.js';
import { startService } from '../../server/lsp/service.js';
import { twoPickups } from './circuits.js';

/** Codes of "Base Protocol", section "ResponseMessage". */
const [notInitialized, invalidRequest, methodNotFound, invalidParams] = [-32002, -32600, -32601, -32602];

interface Answer {
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** A client that sends whatever it is given, `params` left out where undefined. */
function rawClient() {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  startService(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient), gateOptions()));
  const writer = new StreamMessageWriter(toServer);
  const waiting = new Map<number, (answer: Answer) => void>();
  const log: string[] = [];
  let last = 0;
  new StreamMessageReader(toClient).listen((message) => {
    const { id, method, params } = message as { id?: number; method?: string; params?: { message: string } };
    if (method === 'window/logMessage') log.push(params!.message);
    if (method === undefined && id !== undefined) waiting.get(id)?.(message as Answer);
  });
  const send = (message: object): Promise<void> => writer.write({ jsonrpc: '2.0', ...message });
  return {
    log,
    tell: (method: string, params?: unknown) => send({ method, ...(params === undefined ? {} : { params }) }),
    ask: async (method: string, params?: unknown): Promise<Answer> => {
      const id = ++last;
      const answer = new Promise<Answer>((resolve) => waiting.set(id, resolve));
      await send({ id, method, ...(params === undefined ? {} : { params }) });
      return answer;
    },
  };
}

const hello = { processId: null, rootUri: null, capabilities: {} };
const uri = 'memory:/a.lug';

async function greeted() {
  const client = rawClient();
  await client.ask('initialize', hello);
  await client.tell('initialized', {});
  await client.tell('textDocument/didOpen', { textDocument: { uri, languageId: 'lugwork', version: 1, text: twoPickups() } });
  return client;
}

const textDocument = { uri };
const position = { line: 2, character: 7 };
const range = { start: { line: 0, character: 0 }, end: { line: 3, character: 0 } };
const at = { positions: {}, rotations: {} };
const scene = { uri, side: 'solder', grounds: 'auto', evenBroken: true };
const compare = { uri, before: { text: twoPickups() } };

/** Parameters that every request is well-formed with, from the protocol's pages and `server/protocol.ts`. */
const good: Readonly<Record<string, object>> = {
  'textDocument/hover': { textDocument, position },
  'textDocument/completion': { textDocument, position },
  'completionItem/resolve': { label: 'x' },
  'textDocument/signatureHelp': { textDocument, position },
  'textDocument/definition': { textDocument, position },
  'textDocument/references': { textDocument, position, context: { includeDeclaration: true } },
  'textDocument/prepareRename': { textDocument, position },
  'textDocument/rename': { textDocument, position, newName: 'x' },
  'textDocument/documentHighlight': { textDocument, position },
  'textDocument/codeAction': { textDocument, range, context: { diagnostics: [] } },
  'codeAction/resolve': { title: 'x' },
  'textDocument/codeLens': { textDocument },
  'textDocument/inlayHint': { textDocument, range },
  'textDocument/semanticTokens/full': { textDocument },
  'textDocument/semanticTokens/full/delta': { textDocument, previousResultId: '1' },
  'textDocument/semanticTokens/range': { textDocument, range },
  'textDocument/documentSymbol': { textDocument },
  'textDocument/documentLink': { textDocument },
  'textDocument/foldingRange': { textDocument },
  'textDocument/selectionRange': { textDocument, positions: [position] },
  'textDocument/formatting': { textDocument, options: { tabSize: 2, insertSpaces: true } },
  'textDocument/rangeFormatting': { textDocument, range, options: { tabSize: 2, insertSpaces: true } },
  'textDocument/onTypeFormatting': { textDocument, position, ch: '\n', options: { tabSize: 2, insertSpaces: true } },
  'workspace/symbol': { query: 'neck' },
  'lugwork/expectations': { uri },
  'lugwork/checkExpectations': { uri, lines: [3] },
  'lugwork/positions': { uri },
  'lugwork/wiresOfTable': { text: 'neck.hot\tvolume.3' },
  'lugwork/builtInText': { uri },
  'lugwork/overview': { uri },
  'lugwork/locate': { uri },
  'lugwork/suspects': { uri },
  'lugwork/writeReading': { uri, line: 'measured : reads …', text: '6k' },
  'lugwork/expectationChoices': { uri },
  'lugwork/compare': compare,
  'lugwork/changedLines': compare,
  'lugwork/scene': scene,
  'lugwork/prepareScene': scene,
  'lugwork/sheet': { uri, evenBroken: true },
  'lugwork/readings': { uri, places: [{ at: '', setting: '' }] },
  'lugwork/takeReading': { uri, place: { at: '', setting: '' }, text: '6.6k' },
  'lugwork/sheetPage': { uri, form: 'markdown', number: 1, done: [] },
  'lugwork/drawWire': { uri, from: 'lug:a', to: 'lug:b' },
  'lugwork/page': { uri },
  'lugwork/overlay': { uri, grounds: 'auto', at },
  'lugwork/response': { uri, grounds: 'auto', at, points: 20 },
};
const requests = Object.keys(requestParams).filter((method) => method !== 'initialize' && method !== 'shutdown');

test('every request that the server answers is tried here', () => {
  expect(Object.keys(good).sort()).toEqual([...requests].sort());
});

test.each(requests)('%s is answered with well-formed parameters', async (method) => {
  const client = await greeted();
  const { error } = await client.ask(method, good[method]);
  // A refusal in words, such as of an unknown action, is an answer too; no method is unknown, and nothing is wrong with these parameters.
  expect([methodNotFound, invalidParams, -32603]).not.toContain(error?.code);
  expect(client.log).toEqual([]);
});

test.each([...requests, 'shutdown', 'lugwork/nothing'])(
  '%s before initialize is answered by ServerNotInitialized',
  async (method) => {
    const client = rawClient();
    for (const params of [good[method], null, undefined])
      expect((await client.ask(method, params)).error?.code).toBe(notInitialized);
    expect((await client.ask('initialize', hello)).error).toBeUndefined();
  },
);

test.each([...requests, 'initialize', 'lugwork/nothing'])('%s after shutdown is an invalid request', async (method) => {
  const client = await greeted();
  expect((await client.ask('shutdown')).error).toBeUndefined();
  expect((await client.ask(method, good[method] ?? hello)).error?.code).toBe(invalidRequest);
});

test('a notification before initialize is dropped', async () => {
  const client = rawClient();
  const opened = { textDocument: { uri, languageId: 'lugwork', version: 1, text: twoPickups() } };
  await client.tell('textDocument/didOpen', opened);
  await client.ask('initialize', hello);
  await client.tell('initialized', {});
  expect((await client.ask('textDocument/documentSymbol', { textDocument })).result).toBeNull();
  await client.tell('textDocument/didOpen', opened);
  expect((await client.ask('textDocument/documentSymbol', { textDocument })).result).not.toBeNull();
});

test('initialize comes once, and only with parameters', async () => {
  const client = rawClient();
  for (const params of [null, undefined, [], 7, {}, { capabilities: null }, { ...hello, workspaceFolders: [7] }])
    expect((await client.ask('initialize', params)).error?.code).toBe(invalidParams);
  expect((await client.ask('initialize', hello)).error).toBeUndefined();
  expect((await client.ask('initialize', hello)).error?.code).toBe(invalidRequest);
});

/** Every object in the value without one of its members, or with another in its place; arrays are left as they are. */
function spoiled(value: object, junk: unknown): object[] {
  return Object.entries(value).flatMap(([name, item]: [string, unknown]) => [
    { ...value, [name]: junk },
    ...(typeof item === 'object' && item !== null && !Array.isArray(item)
      ? spoiled(item, junk).map((inner) => ({ ...value, [name]: inner }))
      : []),
  ]);
}

test.each(requests)('%s with wrong parameters is answered by InvalidParams, or as usual', async (method) => {
  const client = await greeted();
  for (const params of [null, undefined, [], 7, 'x', true, [1, 2]])
    expect((await client.ask(method, params)).error?.code).toBe(invalidParams);
  for (const junk of [null, -1, 1.5, 1e12, 'x', [], {}, true]) {
    for (const params of spoiled(good[method]!, junk)) {
      const { error } = await client.ask(method, params);
      expect([undefined, invalidParams, -32803], JSON.stringify(params)).toContain(error?.code);
    }
  }
  expect(client.log).toEqual([]);
  expect((await client.ask('textDocument/documentSymbol', { textDocument })).result).not.toBeNull();
});

test.each(requests.filter((method) => 'position' in good[method]!))('%s at a place that is none is refused', async (method) => {
  const client = await greeted();
  for (const line of [-1, 0.5, null, 'x', 2 ** 31])
    expect((await client.ask(method, { ...good[method], position: { line, character: 0 } })).error).toMatchObject({
      code: invalidParams,
      message: expect.stringContaining('position.line') as string,
    });
});

test.each(Object.keys(notificationParams).filter((method) => method !== 'exit'))(
  '%s with wrong parameters ends nothing',
  async (method) => {
    const client = await greeted();
    for (const params of [null, undefined, [], 7, {}, { textDocument: null }, { textDocument: { uri: 7 } }, { changes: 7 }])
      await client.tell(method, params);
    expect((await client.ask('textDocument/documentSymbol', { textDocument })).result).not.toBeNull();
    for (const line of client.log) expect(line).not.toMatch(/\n\s+at /);
  },
);

describe('our own requests', () => {
  test('get no more points than the limit', async () => {
    const client = await greeted();
    const { result } = await client.ask('lugwork/response', { ...good['lugwork/response'], points: 1e9 });
    expect((result as { hz: number[] }).hz).toHaveLength(mostPoints);
  });

  test.each<readonly [string, object, string]>([
    ['lugwork/response', { points: 1 }, 'points must be at least 2, not 1'],
    ['lugwork/response', { points: 'many' }, 'points must be a whole number, not many'],
    [
      'lugwork/response',
      { at: { positions: {}, rotations: { volume: null } } },
      'at.rotations.volume must be a finite number, not null',
    ],
    ['lugwork/response', { uri: 7 }, 'uri must be text, not 7'],
    ['lugwork/overlay', { grounds: 'everywhere' }, 'grounds must be "auto" or "wires" or "marks", not everywhere'],
    ['lugwork/checkExpectations', { lines: new Array(mostEntries + 1).fill(0) }, 'lines has 10,001 entries, more than 10,000'],
    ['lugwork/checkExpectations', { lines: [-3] }, 'lines[0] must be from 0 to 2,147,483,647, not -3'],
    ['lugwork/sheetPage', { number: 0 }, 'number must be from 1 to 100,000, not 0'],
    ['lugwork/wiresOfTable', { text: ' '.repeat(100_001) }, 'text has 100,001 characters, more than 100,000'],
    ['lugwork/compare', { before: { text: null } }, 'before.text must be text, not null'],
  ])('%s says what is wrong with %o', async (method, wrong, says) => {
    const client = await greeted();
    const { error } = await client.ask(method, { ...good[method], ...wrong });
    expect(error).toEqual({ code: invalidParams, message: `${method}: ${says}.` });
  });

  test('pass over positions and names that the circuit does not have', async () => {
    const client = await greeted();
    const strange = { positions: { selector: '99', constructor: '1' }, rotations: { constructor: 5, toString: 2 } };
    const [plain, other] = [at, strange].map((one) => client.ask('lugwork/response', { ...good['lugwork/response'], at: one }));
    expect((await other!).result).toEqual((await plain!).result);
  });
});
