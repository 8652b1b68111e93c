/** The drawing panel as a user waits for it: built server as a process, panel in a browser, between them what the extension does. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node.js';
import type { FromPanel, ToPanel } from '../../extension/preview/protocol.js';
import type { ClientOptions, ServerRequests } from '../../server/protocol.js';
import { openPanel, type PanelPage } from '../preview/harness.js';
import { atRest } from '../preview/messages.js';
import { choosePosition, framesOf, turnPot } from './panel-acts.js';
import { milliseconds } from './timing.js';

const look = { side: 'solder', grounds: 'auto' } as const;
const turns = 20;

/** First drawing, position chosen, pot turned: each from the request or the input to the frame that shows it. */
export async function panelRows(bundle: string, file: string): Promise<string[][]> {
  const uri = pathToFileURL(resolve(file)).href;
  const text = readFileSync(file, 'utf8');
  const cold = await firstDrawing(bundle, uri, text, false, async () => []);
  const looked = await firstDrawing(bundle, uri, text, true, async (server, panel) => {
    await answerControls(server, panel, uri);
    const frames = (act: (turn: number) => string): Promise<number[]> =>
      framesOf((script) => panel.page.evaluate(script), act, turns);
    return [
      ['a pot turned, to the frame with its curve', ...middle(await frames(turnPot))],
      ['a position chosen in the table, to the frame with its path', ...middle(await frames(choosePosition))],
    ];
  });
  return [
    ['first drawing of a circuit that is being looked at: it was drawn beforehand', milliseconds(looked.first), ''],
    ['first drawing asked for in the moment in which the circuit is opened', milliseconds(cold.first), ''],
    ...looked.rows,
  ];
}

type Server = Awaited<ReturnType<typeof startServer>>;

/** With a server and a panel of its own, both running already: a user opens the editor long before a drawing. */
async function firstDrawing(
  bundle: string,
  uri: string,
  text: string,
  isLookedAt: boolean,
  more: (server: Server, panel: PanelPage) => Promise<string[][]>,
): Promise<{ first: number; rows: string[][] }> {
  const server = await startServer(bundle);
  const panel = await openPanel();
  try {
    server.open(uri, text);
    if (isLookedAt) await server.ask('lugwork/prepareScene', { uri, ...look, evenBroken: false });
    const began = performance.now();
    const drawn = await server.ask('lugwork/scene', { uri, ...look, evenBroken: true });
    await panel.send({ kind: 'picture', scene: drawn!.scene!, controls: drawn!.controls, remarks: drawn!.remarks });
    await panel.page.locator('.frame svg').waitFor();
    await panel.page.evaluate('new Promise((resolve) => requestAnimationFrame(resolve))');
    return { first: performance.now() - began, rows: await more(server, panel) };
  } finally {
    await panel.close();
    server.stop();
  }
}

/** Does for the panel what the extension does when something is turned. */
async function answerControls(server: Server, panel: PanelPage, uri: string): Promise<void> {
  await panel.send({ kind: 'table', ...(await server.ask('lugwork/positions', { uri })) });
  await panel.page.exposeFunction('heard', async (message: FromPanel) => {
    if (message.kind !== 'set') return;
    const asked = { uri, grounds: look.grounds, at: message.at };
    const [highlight, curve] = await Promise.all([
      server.ask('lugwork/overlay', asked),
      server.ask('lugwork/response', { ...asked, points: 240 }),
    ]);
    const played: ToPanel = { kind: 'played', at: message.at, highlight: highlight!, curve: curve! };
    await panel.send(played);
  });
  await panel.page.evaluate('window.sent.push = (message) => void heard(message)');
  await panel.send({ kind: 'state', state: { uri, ...look, at: atRest } });
}

/** The middle of them and the slowest. */
export function middle(times: readonly number[]): [string, string] {
  const sorted = [...times].sort((a, b) => a - b);
  return [milliseconds(sorted[Math.floor(sorted.length / 2)]!), milliseconds(sorted.at(-1)!)];
}

async function startServer(bundle: string) {
  const child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  connection.onRequest('workspace/configuration', () => [null]);
  connection.onRequest('client/registerCapability', () => null);
  connection.listen();
  const initializationOptions: ClientOptions = { answersFiles: false, showsDrawings: true };
  await connection.sendRequest('initialize', { processId: null, rootUri: null, capabilities: {}, initializationOptions });
  await connection.sendNotification('initialized', {});
  return {
    open: (uri: string, text: string) =>
      void connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'lugwork', version: 1, text },
      }),
    ask: <M extends keyof ServerRequests>(method: M, params: ServerRequests[M]['params']) =>
      connection.sendRequest<ServerRequests[M]['result']>(method, params),
    stop: () => {
      connection.dispose();
      child.kill();
    },
  };
}
