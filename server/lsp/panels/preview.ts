/** What the drawing panel asks: the scene, what a setting lights in it, what a setting sounds like. */
import type { CancellationToken } from 'vscode-languageserver';
import type { AnalysedCircuit } from '../../../language/circuit/index.js';
import {
  draw,
  highlightSteps,
  simpleLayout,
  type Diagram,
  type Drawing,
  type Highlight,
} from '../../../language/drawing/index.js';
import { responseSteps, type Setting } from '../../../language/electrics/index.js';
import { controlsOf, curveOf, pageSteps, settingAt, type PageContents } from '../../../language/live/index.js';
import type { Steps } from '../../../language/steps.js';
import type { DrawInThread } from '../../drawing-thread.js';
import type { DocumentParams, DrawnScene, ResponseCurve, SceneParams, ServerRequests, SettingParams } from '../../protocol.js';
import { createDrawnDocuments, faultsOf, type DrawnDocument } from './drawn-documents.js';
import type { Service } from '../feature.js';
import { inSlices } from '../messages/pause.js';
import { drawnPlaces } from './preview-places.js';
import type { ServiceHost, Snapshot, Workspace } from '../workspace.js';

/** Drawings of the open documents, each made once for as long as its circuit is the same. */
interface Drawings {
  of(uri: string): DrawnDocument;
  drawing(uri: string, circuit: AnalysedCircuit, look: Pick<SceneParams, 'side' | 'grounds'>): Promise<Drawing>;
  /** The last circuit of a document without faults, else its circuit as it is. */
  circuit(uri: string): Promise<AnalysedCircuit | undefined>;
}

function createDrawings(workspace: Workspace, host: ServiceHost): Drawings {
  const drawn = createDrawnDocuments();
  const drawHere: DrawInThread = (_, circuit, options) => draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
  return {
    of: (uri) => drawn.of(uri),
    drawing(uri, circuit, { side, grounds }) {
      const drawIn = host.draw?.(workspace.client) ?? drawHere;
      return drawn.of(uri).drawing(circuit, { side, grounds }, () => drawIn(`${grounds} ${uri}`, circuit, { grounds, side }));
    },
    async circuit(uri) {
      const snapshot = await workspace.snapshot(uri);
      return snapshot === undefined ? undefined : drawn.of(uri).whole(snapshot.circuit);
    },
  };
}

/** Answers the panel's requests on the service's connection. */
export function registerPreview({ connection, guard, workspace }: Service, host: ServiceHost): void {
  const drawings = createDrawings(workspace, host);
  connection.onRequest(
    'lugwork/scene',
    guard.request<SceneParams, DrawnScene | null>('lugwork/scene', null, async (params, token) => {
      const snapshot = await workspace.snapshot(params.uri);
      return snapshot === undefined ? null : sceneOf(snapshot, drawings, params, token);
    }),
  );
  connection.onRequest(
    'lugwork/prepareScene',
    guard.request<SceneParams, null>('lugwork/prepareScene', null, async (params) => {
      const snapshot = await workspace.snapshot(params.uri);
      if (snapshot !== undefined) await drawings.drawing(params.uri, snapshot.circuit, params);
      return null;
    }),
  );
  connection.onRequest(
    'lugwork/overlay',
    guard.request<SettingParams, Highlight | null>('lugwork/overlay', null, async ({ uri, grounds, at }, token) => {
      const circuit = await drawings.circuit(uri);
      if (circuit === undefined) return null;
      const steps = overlaySteps(circuit, drawings.of(uri).diagramSteps(circuit, grounds), settingAt(circuit, at));
      return (await inSlices(steps, () => token.isCancellationRequested)) ?? null;
    }),
  );
  connection.onRequest(
    'lugwork/response',
    guard.request<ResponseParams, ResponseCurve | null>('lugwork/response', null, async (params, token) => {
      const circuit = await drawings.circuit(params.uri);
      return circuit === undefined ? null : answerResponse(circuit, params, token);
    }),
  );
  connection.onRequest(
    'lugwork/page',
    guard.request<DocumentParams, PageContents | null>('lugwork/page', null, async ({ uri }, token) => {
      const circuit = (await workspace.snapshot(uri))?.circuit;
      if (circuit === undefined) return null;
      const isGivenUp = (): boolean => token.isCancellationRequested;
      const drawing = await drawings.drawing(uri, circuit, { side: 'solder', grounds: 'auto' });
      const table = await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp);
      return (table && (await inSlices(pageSteps(circuit, drawing, table), isGivenUp))) ?? null;
    }),
  );
}

type ResponseParams = ServerRequests['lugwork/response']['params'];

/** What the panel shows of a document: its drawing unless it has faults, and where its items are. */
async function sceneOf(
  { circuit, document }: Snapshot,
  drawings: Drawings,
  params: SceneParams,
  token: CancellationToken,
): Promise<DrawnScene | null> {
  const { uri, grounds, evenBroken } = params;
  const drawn = drawings.of(uri);
  const faults = faultsOf(circuit);
  drawn.whole(circuit);
  const drawing = faults === 0 || evenBroken ? await drawings.drawing(uri, circuit, params) : undefined;
  const diagram = drawing?.diagram ?? (await inSlices(drawn.diagramSteps(circuit, grounds), () => token.isCancellationRequested));
  if (diagram === undefined) return null;
  return {
    version: document.version,
    ...(drawing === undefined ? {} : { scene: drawing.scene }),
    faults,
    places: drawnPlaces(circuit, diagram),
    controls: controlsOf(circuit),
    remarks: drawing?.remarks ?? [],
  };
}

async function answerResponse(
  circuit: AnalysedCircuit,
  { at, points: count }: ResponseParams,
  token: CancellationToken,
): Promise<ResponseCurve | null> {
  const steps = responseSteps(circuit, settingAt(circuit, at), { points: count });
  const found = await inSlices(steps, () => token.isCancellationRequested);
  return found === undefined ? null : curveOf(found);
}

function* overlaySteps(circuit: AnalysedCircuit, diagram: Steps<Diagram>, setting: Setting): Steps<Highlight> {
  return yield* highlightSteps(circuit, yield* diagram, setting);
}
