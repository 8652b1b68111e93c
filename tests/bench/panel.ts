/** The drawing panel as a user waits for it: built server as a process, panel in a browser, between them what the extension does. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node.js';
import type { FromPanel, ToPanel } from '../../extension/preview/protocol.js';
import type { ClientOptions, ServerRequests } from '../../server/protocol.js';
import { openPanel, atRest, type PanelPage } from '../preview/harness.js';
import { milliseconds } from './timing.js';

const turns = 20;
const grounds = 'auto';

/** First drawing, position chosen, pot turned: each from the request or the input to the frame that shows it. */
export async function panelRows(bundle: string, file: string): Promise<string[][]> {
  const uri = pathToFileURL(resolve(file)).href;
  const text = readFileSync(file, 'utf8');
  const server = await startServer(bundle);
  const panel = await openPanel();
  try {
    const draw = async (): Promise<ToPanel> => {
      const drawn = await server.ask('lugwork/scene', { uri, side: 'solder', grounds, evenBroken: true });
      return { kind: 'picture', scene: drawn!.scene!, controls: drawn!.controls, remarks: drawn!.remarks };
    };
    server.open(uri, text);
    const first = await timed(async () => shown(panel, await draw(), '.frame svg'));
    const again = await timed(async () => shown(panel, await draw(), '.frame svg'));
    const table = await server.ask('lugwork/positions', { uri });
    await panel.send({ kind: 'table', ...table });

    await panel.page.exposeFunction('heard', async (message: FromPanel) => {
      if (message.kind !== 'set') return;
      const asked = { uri, grounds, at: message.at } as const;
      const [highlight, curve] = await Promise.all([
        server.ask('lugwork/overlay', asked),
        server.ask('lugwork/response', { ...asked, points: 240 }),
      ]);
      await panel.send({ kind: 'played', at: message.at, highlight: highlight!, curve: curve! });
    });
    await panel.page.evaluate('window.sent.push = (message) => void heard(message)');
    await panel.send({ kind: 'state', state: { uri, side: 'solder', grounds, at: atRest } });
    const turned: number[] = [];
    for (let turn = 0; turn < turns; turn++) turned.push(await acted(panel, turnPot(10 - (turn + 1) / 4)));
    const chosen: number[] = [];
    for (let turn = 0; turn < turns; turn++) chosen.push(await acted(panel, choosePosition(turn + 1)));
    return [
      ['first drawing, its thread started for it', milliseconds(first), ''],
      ['drawing again, nothing joined otherwise', milliseconds(again), ''],
      ['a pot turned, to the frame with its curve', middle(turned), milliseconds(Math.max(...turned))],
      ['a position chosen in the table, to the frame with its path', middle(chosen), milliseconds(Math.max(...chosen))],
    ];
  } finally {
    await panel.close();
    server.stop();
  }
}

/** Runs in the page: moves the first slider. */
function turnPot(to: number): string {
  return `const input = document.querySelector('.shaft input');
    input.value = '${to}';
    input.dispatchEvent(new Event('input', { bubbles: true }));`;
}

/** Runs in the page: takes a row. */
function choosePosition(row: number): string {
  return `const rows = document.querySelectorAll('.positions tbody tr');
    rows[${row} % rows.length].click();`;
}

/** Milliseconds from the act to the frame after its answer. */
function acted(panel: PanelPage, act: string): Promise<number> {
  return panel.page.evaluate(`new Promise((resolve) => {
    const began = performance.now();
    new MutationObserver((_, observer) => {
      observer.disconnect();
      requestAnimationFrame(() => resolve(performance.now() - began));
    }).observe(document.querySelector('.says'), { childList: true });
    ${act}
  })`);
}

async function shown(panel: PanelPage, message: ToPanel, selector: string): Promise<void> {
  await panel.send(message);
  await panel.page.locator(selector).waitFor();
  await panel.page.evaluate('new Promise((resolve) => requestAnimationFrame(resolve))');
}

async function timed(work: () => Promise<void>): Promise<number> {
  const began = performance.now();
  await work();
  return performance.now() - began;
}

function middle(times: readonly number[]): string {
  return milliseconds([...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!);
}

async function startServer(bundle: string) {
  const child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  connection.onRequest('workspace/configuration', () => [null]);
  connection.onRequest('client/registerCapability', () => null);
  connection.listen();
  const initializationOptions: ClientOptions = { answersFiles: false };
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
