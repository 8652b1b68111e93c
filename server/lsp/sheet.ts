/** What the bench sheet in the editor asks: the sheet as data, and as one page with its drawing. */
import { benchSheet, sheetHtml, sheetMarkdown } from '../../language/bench/index.js';
import { draw, renderSvg, simpleLayout } from '../../language/drawing/index.js';
import type { ServerRequests, SheetAnswer } from '../protocol.js';
import type { Service } from './features/feature.js';
import { faultsOf } from './drawn-documents.js';
import type { ServiceHost } from './workspace.js';

type Asked<M extends keyof ServerRequests> = ServerRequests[M]['params'];

/** Answers the sheet's requests on the service's connection. */
export function registerSheet({ connection, guard, workspace }: Service, host: ServiceHost): void {
  connection.onRequest(
    'lugwork/sheet',
    guard.request<Asked<'lugwork/sheet'>, SheetAnswer | null>('lugwork/sheet', null, async ({ uri, evenBroken }) => {
      const circuit = (await workspace.snapshot(uri))?.circuit;
      if (circuit === undefined) return null;
      const faults = faultsOf(circuit);
      const isWanted = faults === 0 || evenBroken;
      return {
        faults,
        batch: circuit.batch,
        isRecord: circuit.record !== undefined,
        ...(isWanted ? { sheet: benchSheet(circuit, { withoutDrawing: true }) } : {}),
      };
    }),
  );
  connection.onRequest(
    'lugwork/sheetPage',
    guard.request<Asked<'lugwork/sheetPage'>, string | null>('lugwork/sheetPage', null, async ({ uri, form, number, done }) => {
      const circuit = (await workspace.snapshot(uri))?.circuit;
      if (circuit === undefined) return null;
      const options = { number, done: new Set(done) };
      if (form === 'markdown') return sheetMarkdown(benchSheet(circuit, options));
      const drawIn = host.draw?.(workspace.client);
      const look = { grounds: 'auto', side: 'solder' } as const;
      const { scene, remarks } = await (drawIn === undefined
        ? draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), look)
        : drawIn(`sheet ${uri}`, circuit, look));
      const drawing = renderSvg(scene, { scheme: 'light' });
      return sheetHtml(
        benchSheet(circuit, { ...options, drawing, ...(remarks[0] === undefined ? {} : { drawingNote: remarks[0] }) }),
      );
    }),
  );
}
