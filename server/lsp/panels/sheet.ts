/** What the bench sheet in the editor asks: the sheet as data, and as one page with its drawing. */
import type { CancellationToken } from 'vscode-languageserver';
import {
  buildOf,
  sheetHtmlSteps,
  sheetMarkdownSteps,
  sheetSteps,
  type Sheet,
  type SheetOptions,
} from '../../../language/workshop/index.js';
import type { AnalysedCircuit } from '../../../language/circuit/index.js';
import { draw, figuresOf, simpleLayout } from '../../../language/drawing/index.js';
import type { ServerRequests, SheetAnswer } from '../../protocol.js';
import type { Service } from '../feature.js';
import { faultsOf } from './drawn-documents.js';
import { inSlices } from '../messages/pause.js';
import type { ServiceHost } from '../workspace.js';

type ParamsOf<M extends keyof ServerRequests> = ServerRequests[M]['params'];

/** Answers the sheet's requests on the service's connection. */
export function registerSheet({ connection, guard, workspace }: Service, host: ServiceHost): void {
  /** Solves what the sheet needs and makes it, so that other requests are answered meanwhile; undefined where it is no longer wanted. */
  const sheetOf = async (
    circuit: AnalysedCircuit,
    options: SheetOptions,
    token: CancellationToken,
  ): Promise<Sheet | undefined> => {
    const isGivenUp = (): boolean => token.isCancellationRequested;
    const isSolved = (await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp)) !== undefined;
    return isSolved ? inSlices(sheetSteps(buildOf(circuit), options), isGivenUp) : undefined;
  };

  connection.onRequest(
    'lugwork/sheet',
    guard.request<ParamsOf<'lugwork/sheet'>, SheetAnswer | null>('lugwork/sheet', null, async ({ uri, evenBroken }, token) => {
      const circuit = (await workspace.snapshot(uri))?.circuit;
      if (circuit === undefined) return null;
      const faults = faultsOf(circuit);
      const isWanted = faults === 0 || evenBroken;
      const sheet = isWanted ? await sheetOf(circuit, { withoutDrawing: true }, token) : undefined;
      if (isWanted && sheet === undefined) return null;
      return {
        faults,
        batch: circuit.batch,
        isRecord: circuit.record !== undefined,
        ...(sheet === undefined ? {} : { sheet }),
      };
    }),
  );
  connection.onRequest(
    'lugwork/sheetPage',
    guard.request<ParamsOf<'lugwork/sheetPage'>, string | null>(
      'lugwork/sheetPage',
      null,
      async ({ uri, form, number, done }, token) => {
        const circuit = (await workspace.snapshot(uri))?.circuit;
        if (circuit === undefined) return null;
        const options = { number, done: new Set(done) };
        const plain = await sheetOf(circuit, options, token);
        if (plain === undefined) return null;
        const isGivenUp = (): boolean => token.isCancellationRequested;
        if (form === 'markdown') return (await inSlices(sheetMarkdownSteps(plain), isGivenUp)) ?? null;
        const drawIn = host.draw?.(workspace.client);
        const look = { grounds: 'auto', side: 'solder' } as const;
        const made = await (drawIn === undefined
          ? draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), look)
          : drawIn(`sheet ${uri}`, circuit, look));
        const [remark] = made.remarks;
        const drawn = { ...options, drawing: figuresOf(made), ...(remark === undefined ? {} : { drawingNote: remark }) };
        const sheet = await sheetOf(circuit, drawn, token);
        return (sheet && (await inSlices(sheetHtmlSteps(sheet), isGivenUp))) ?? null;
      },
    ),
  );
}
