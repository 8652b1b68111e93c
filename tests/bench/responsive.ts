/** Whether the server stays able to answer: every feature asked at every line while the mouse hovers, and how long each turn of its event loop takes. */
import { type ChildProcess, fork } from 'node:child_process';
import {
  type CodeAction,
  type CompletionList,
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node.js';
import { generateCircuit } from './circuits.js';
import { milliseconds } from './timing.js';

export const responsiveSizes = [100, 300] as const;
export const responsiveHeads = [
  'parts',
  'feature',
  'asked',
  'turn 99 %',
  'longest',
  'over 10 ms',
  'hover 99 %',
  'longest',
  'answer',
];

/** Seconds for which one feature is asked line after line; the lines that are left are not asked then. */
const patience = 10;
/** Milliseconds of processor time that one turn of the loop is allowed. */
const allowed = 10;

interface Asked {
  readonly uri: string;
  readonly line: number;
  readonly character: number;
  readonly last: number;
  readonly connection: ProtocolConnection;
  readonly before: string;
}

interface Question {
  readonly what: string;
  /** Asked once a line, or once in all. */
  readonly each: 'line' | 'file';
  ask(at: Asked): Promise<unknown>;
}

const onPlace =
  (method: string, more: object = {}) =>
  ({ uri, line, character, connection }: Asked): Promise<unknown> =>
    connection.sendRequest(method, { textDocument: { uri }, position: { line, character }, ...more });
const onFile =
  (method: string, more: (at: Asked) => object = () => ({})) =>
  (at: Asked): Promise<unknown> =>
    at.connection.sendRequest(method, { textDocument: { uri: at.uri }, uri: at.uri, ...more(at) });
const wholeRange = ({ last }: Asked): object => ({
  range: { start: { line: 0, character: 0 }, end: { line: last, character: 0 } },
});
/** Parts of the circuit on which a feature is tried before it is measured. */
const warmSize = 30;
const at = { positions: {}, rotations: {} };

const questions: readonly Question[] = [
  { what: 'opening', each: 'file', ask: () => Promise.resolve() },
  { what: 'hover', each: 'line', ask: onPlace('textDocument/hover') },
  { what: 'code actions', each: 'line', ask: askActions },
  { what: 'completion', each: 'line', ask: askCompletion },
  { what: 'signature help', each: 'line', ask: onPlace('textDocument/signatureHelp') },
  { what: 'definition', each: 'line', ask: onPlace('textDocument/definition') },
  { what: 'references', each: 'line', ask: onPlace('textDocument/references', { context: { includeDeclaration: true } }) },
  { what: 'highlights', each: 'line', ask: onPlace('textDocument/documentHighlight') },
  { what: 'prepare rename', each: 'line', ask: (asked) => onPlace('textDocument/prepareRename')(asked).catch(() => null) },
  {
    what: 'rename',
    each: 'line',
    ask: (asked) => onPlace('textDocument/rename', { newName: 'another' })(asked).catch(() => null),
  },
  {
    what: 'selection ranges',
    each: 'line',
    ask: onFile('textDocument/selectionRange', ({ line, character }) => ({ positions: [{ line, character }] })),
  },
  { what: 'code lens', each: 'file', ask: onFile('textDocument/codeLens') },
  { what: 'inlay hints', each: 'file', ask: onFile('textDocument/inlayHint', wholeRange) },
  { what: 'semantic tokens', each: 'file', ask: onFile('textDocument/semanticTokens/full') },
  { what: 'symbols', each: 'file', ask: onFile('textDocument/documentSymbol') },
  { what: 'links', each: 'file', ask: onFile('textDocument/documentLink') },
  { what: 'folding', each: 'file', ask: onFile('textDocument/foldingRange') },
  {
    what: 'formatting',
    each: 'file',
    ask: onFile('textDocument/formatting', () => ({ options: { tabSize: 2, insertSpaces: true } })),
  },
  { what: 'workspace symbols', each: 'file', ask: onFile('workspace/symbol', () => ({ query: 'vol' })) },
  { what: 'positions', each: 'file', ask: onFile('lugwork/positions') },
  { what: 'expectations', each: 'file', ask: onFile('lugwork/expectations') },
  { what: 'check expectations', each: 'file', ask: onFile('lugwork/checkExpectations') },
  { what: 'locate', each: 'file', ask: onFile('lugwork/locate') },
  {
    what: 'scene',
    each: 'file',
    ask: onFile('lugwork/scene', () => ({ side: 'solder', grounds: 'auto', evenBroken: true })),
  },
  { what: 'overlay', each: 'file', ask: onFile('lugwork/overlay', () => ({ grounds: 'auto', at })) },
  { what: 'response', each: 'file', ask: onFile('lugwork/response', () => ({ grounds: 'auto', at, points: 400 })) },
  { what: 'sheet', each: 'file', ask: onFile('lugwork/sheet', () => ({ evenBroken: true })) },
  { what: 'sheet page', each: 'file', ask: onFile('lugwork/sheetPage', () => ({ form: 'html', number: 1, done: [] })) },
  { what: 'compare', each: 'file', ask: onFile('lugwork/compare', ({ before }) => ({ before: { text: before } })) },
  { what: 'changed lines', each: 'file', ask: onFile('lugwork/changedLines', ({ before }) => ({ before: { text: before } })) },
  { what: 'expectation choices', each: 'file', ask: onFile('lugwork/expectationChoices') },
];

/** A line for each size and feature: turns of the server's loop that did some work, and hover meanwhile. `only` names features. */
export async function* responsiveRows(bundle: string, only: readonly string[] = []): AsyncGenerator<string[]> {
  for (const size of responsiveSizes) {
    for (const question of questions) {
      if (only.length > 0 && !only.includes(question.what)) continue;
      // A server of its own, so that nothing that was solved for another feature answers for this one.
      const client = await connect(bundle);
      try {
        // Another circuit first: what is measured is the work, not the engine's first look at the code.
        await measure(client, document('warm', warmSize), question);
        yield [String(size), question.what, ...(await measure(client, document('bench', size), question))];
      } finally {
        client.end();
      }
    }
  }
}

/** A generated circuit as a document. Without `expect` lines the actions that write them have most to do. */
function document(name: string, parts: number): Document {
  return { uri: `memory:/${name}.lug`, text: generateCircuit(parts).replace(/^expect .*$/gm, '') };
}

async function measure(client: Client, document: Document, { what, each, ask }: Question): Promise<string[]> {
  const { uri, text } = document;
  const lines = text.split('\n');
  const hovers: number[] = [];
  const answers: number[] = [];
  await client.turns();
  const opened = client.open(document);
  if (what !== 'opening') {
    await opened;
    await client.turns();
  }
  let isDone = false;
  const hovering = (async () => {
    for (let i = 0; !isDone; i++) {
      hovers.push(await timed(() => client.hover(document, i)));
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  })();
  const before = text.replace('wire master.2 to output.tip', 'wire master.3 to output.tip');
  const until = performance.now() + patience * 1000;
  for (const [line, written] of lines.entries()) {
    if (performance.now() > until) break;
    const space = written.indexOf(' ');
    const character = space < 0 ? 0 : space + 2;
    const asked = { uri, line, character, last: lines.length, connection: client.connection, before };
    answers.push(await timed(() => ask(asked)));
    if (each === 'file') break;
  }
  await opened;
  isDone = true;
  await hovering;
  const turns = await client.turns();
  await client.close(document);
  const over = turns.filter((turn) => turn > allowed).length;
  const most = (times: readonly number[]): string => milliseconds(Math.max(0, ...times));
  return [String(answers.length), share(turns), most(turns), String(over), share(hovers), most(hovers), most(answers)];
}

/** Code actions of a line, and the edit of each. */
async function askActions({ uri, line, connection }: Asked): Promise<void> {
  const range = { start: { line, character: 0 }, end: { line, character: 0 } };
  const params = { textDocument: { uri }, range, context: { diagnostics: [] } };
  const actions = (await connection.sendRequest<CodeAction[] | null>('textDocument/codeAction', params)) ?? [];
  for (const action of actions) {
    if (action.edit === undefined) await connection.sendRequest('codeAction/resolve', action).catch(() => undefined);
  }
}

/** What can be written at a place, and what is said about the first of it. */
async function askCompletion(asked: Asked): Promise<void> {
  const list = (await onPlace('textDocument/completion')(asked)) as CompletionList | null;
  const [first] = list?.items ?? [];
  if (first !== undefined) await asked.connection.sendRequest('completionItem/resolve', first);
}

interface Document {
  readonly uri: string;
  readonly text: string;
}

interface Client {
  readonly connection: ProtocolConnection;
  /** Resolves when all findings of the document have come. */
  open(document: Document): Promise<void>;
  close(document: Document): Promise<void>;
  /** Over one part after the other. */
  hover(document: Document, number: number): Promise<unknown>;
  /** Milliseconds of each turn of the server's loop since this was last asked. */
  turns(): Promise<readonly number[]>;
  end(): void;
}

/** A client of a server that runs as a process. */
async function connect(bundle: string): Promise<Client> {
  const execArgv = ['--import', new URL('../../tests/bench/responsive-probe.mjs', import.meta.url).href];
  const server: ChildProcess = fork(bundle, ['--stdio'], { stdio: ['pipe', 'pipe', 'inherit', 'ipc'], execArgv });
  const connection = createProtocolConnection(new StreamMessageReader(server.stdout!), new StreamMessageWriter(server.stdin!));
  const checked = new Map<string, () => void>();
  connection.onNotification('lugwork/status', () => undefined);
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => console.error(message));
  connection.onNotification('textDocument/publishDiagnostics', () => undefined);
  connection.onNotification('lugwork/checked', ({ uri }: { uri: string }) => checked.get(uri)?.());
  connection.onRequest('lugwork/readFile', () => null);
  connection.onRequest('lugwork/findFiles', () => [...checked.keys()]);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: {
      textDocument: {
        codeAction: {
          dataSupport: true,
          resolveSupport: { properties: ['edit'] },
          codeActionLiteralSupport: { codeActionKind: { valueSet: [] } },
        },
      },
    },
    initializationOptions: { answersFiles: true, hearsChecked: true },
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    turns: () =>
      new Promise((resolve) => {
        server.once('message', (message) => resolve(message as readonly number[]));
        server.send('turns');
      }),
    async open({ uri, text }) {
      const isChecked = new Promise<void>((resolve) => checked.set(uri, resolve));
      await connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'lugwork', version: 1, text },
      });
      return isChecked;
    },
    async close({ uri }) {
      checked.delete(uri);
      await connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
    },
    hover({ uri, text }, number) {
      const parts = text.split('\n').flatMap((written, line) => (written.startsWith('part ') ? [line] : []));
      const position = { line: parts[number % parts.length]!, character: 6 };
      return connection.sendRequest('textDocument/hover', { textDocument: { uri }, position });
    },
    end: () => {
      connection.dispose();
      server.kill();
    },
  };
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

/** The 99th percentile. */
function share(times: readonly number[]): string {
  const sorted = [...times].sort((a, b) => a - b);
  return milliseconds(sorted[Math.min(sorted.length - 1, Math.floor(0.99 * sorted.length))] ?? 0);
}
