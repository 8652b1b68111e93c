/** The editor's latency, through the protocol with the built server as a process: from a keystroke to its findings, and hover. */
import { spawn } from 'node:child_process';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node.js';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { serverFlags } from '../../extension/server-flags.js';
import { generateCircuit } from './circuits.js';
import { milliseconds } from './timing.js';

export const latencySizes = [30, 100, 300] as const;
export const latencyHeads = [
  'parts',
  'keystroke',
  'first findings',
  '95 %',
  'all findings',
  '95 %',
  'searched',
  '95 %',
  'hover',
  '95 %',
];

/** Measured after so many that warm up; a slow one less often, so that the whole ends in time. */
const warmUps = 10;
const runs = 40;
const patience = 15_000;

/** What is typed into the circuit, in each run something else, so that nothing that was solved before answers for it. */
interface Keystroke {
  readonly what: string;
  /** Stands once in the text. */
  readonly before: string;
  after(run: number): string;
}

const keystrokes: readonly Keystroke[] = [
  { what: 'in a comment', before: 'Measured', after: (run) => `Measured ${run}` },
  {
    what: 'in a colour',
    before: 'master.2 to output.tip white',
    after: (run) => `master.2 to output.tip ${run % 2 === 0 ? 'red' : 'blue'}`,
  },
  { what: 'in a value', before: 'part master : pot 500k', after: (run) => `part master : pot ${400 + run}k` },
  {
    what: 'in a wire',
    before: 'wire master.2 to output.tip',
    after: (run) => `wire master.2 to volume${1 + (run % 6)}.${1 + (run % 5 === 0 ? 0 : run % 3)}`,
  },
];

/**
 * A line for each size and kind of keystroke, the middle and the 95th percentile: until the first findings of the text are sent, until those are sent after which no
 * others come, until the search for repairs is through, and of hover after it.
 */
export async function latencyRows(bundle: string): Promise<string[][]> {
  const rows: string[][] = [];
  for (const size of latencySizes) {
    for (const keystroke of keystrokes) {
      const { first, all, searched, hover } = await measure(bundle, `// Measured\n${generateCircuit(size)}`, keystroke);
      rows.push([
        String(size),
        keystroke.what,
        ...[first, all, searched, hover].flatMap((times) => [at(times, 0.5), at(times, 0.95)]),
      ]);
    }
  }
  return rows;
}

/** Milliseconds at a share of the runs. */
function at(times: readonly number[], share: number): string {
  const sorted = [...times].sort((a, b) => a - b);
  return milliseconds(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!);
}

async function measure(bundle: string, text: string, { before, after }: Keystroke) {
  const client = await connect(bundle);
  const place = text.indexOf(before);
  if (place < 0) throw new Error(`The generated circuit has no \`${before}\``);
  let written = before;
  let document = TextDocument.create('memory:/bench.lug', 'lugwork', 1, text);
  await client.open(document);
  const times = { first: [] as number[], all: [] as number[], searched: [] as number[], hover: [] as number[] };
  const until = performance.now() + patience;
  for (let run = 0; run < warmUps + runs && (run < 2 * warmUps || performance.now() < until); run++) {
    const now = after(run);
    const change = { range: { start: document.positionAt(place), end: document.positionAt(place + written.length) }, text: now };
    written = now;
    document = TextDocument.update(document, [change], document.version + 1);
    const { first, all, searched } = await client.change(document, change);
    const hover = await client.hover(document.positionAt(document.getText().indexOf('master') + 1));
    if (run < warmUps) continue;
    times.first.push(first);
    times.all.push(all);
    times.searched.push(searched);
    times.hover.push(hover);
  }
  await client.end();
  return times;
}

/** A client of a server that runs as a process. */
export async function connect(bundle: string) {
  const server = spawn(process.execPath, [...serverFlags, bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
  const uri = 'memory:/bench.lug';
  let waits: { version: number; published: number[]; done: (at: number) => void } | undefined;
  connection.onNotification('lugwork/status', () => undefined);
  connection.onNotification('textDocument/publishDiagnostics', ({ version }: { version?: number }) => {
    if (waits !== undefined && version === waits.version) waits.published.push(performance.now());
  });
  connection.onNotification('lugwork/checked', ({ version }: { version: number }) => {
    if (version === waits?.version) waits.done(performance.now());
  });
  connection.onRequest('lugwork/readFile', () => null);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: {},
    initializationOptions: { answersFiles: true, hearsChecked: true },
  });
  await connection.sendNotification('initialized', {});
  const checked = async (version: number, send: () => Promise<void>) => {
    const began = performance.now();
    const done = new Promise<number>((resolve) => {
      waits = { version, published: [], done: resolve };
    });
    await send();
    const searched = (await done) - began;
    const published = (waits?.published ?? []).map((at) => at - began);
    return { first: published[0] ?? searched, all: published.at(-1) ?? searched, searched };
  };
  return {
    pid: server.pid!,
    open: (document: TextDocument) =>
      checked(document.version, () =>
        connection.sendNotification('textDocument/didOpen', {
          textDocument: { uri, languageId: 'lugwork', version: document.version, text: document.getText() },
        }),
      ),
    change: (document: TextDocument, change: object) =>
      checked(document.version, () =>
        connection.sendNotification('textDocument/didChange', {
          textDocument: { uri, version: document.version },
          contentChanges: [change],
        }),
      ),
    async hover(position: { readonly line: number; readonly character: number }) {
      const began = performance.now();
      const found = await connection.sendRequest('textDocument/hover', { textDocument: { uri }, position });
      if (found === null) throw new Error('Nothing is told of a part');
      return performance.now() - began;
    },
    async end() {
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      connection.dispose();
    },
  };
}
