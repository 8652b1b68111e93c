/** What the drawing panel asks: the scene, what a setting lights in it, what a setting sounds like. */
import { itemAt } from '../../../language/collections.js';
import { type AnalysedCircuit, partById, type Circuit, type PartId } from '../../../language/circuit/index.js';
import {
  draw,
  highlightSteps,
  simpleLayout,
  type Diagram,
  type Drawing,
  type Highlight,
} from '../../../language/drawing/index.js';
import { responseSteps, restingSetting, withPosition, withRotation, type Setting } from '../../../language/electrics/index.js';
import type { Steps } from '../../../language/steps.js';
import type { DrawInThread } from '../../drawing-thread.js';
import type {
  ControlsAt,
  DrawnControl,
  DrawnScene,
  ResponseCurve,
  SceneParams,
  ServerRequests,
  SettingParams,
} from '../../protocol.js';
import { createDrawnDocuments, faultsOf } from './drawn-documents.js';
import type { Service } from '../feature.js';
import { inSlices } from '../messages/pause.js';
import { drawnPlaces } from './preview-places.js';
import type { ServiceHost } from '../workspace.js';

/** Answers the panel's requests on the service's connection. */
export function registerPreview({ connection, guard, workspace }: Service, host: ServiceHost): void {
  const drawn = createDrawnDocuments();
  const drawHere: DrawInThread = (_, circuit, options) => draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
  /** Made once for as long as the circuit is the same, whoever asks. */
  const drawingOf = (uri: string, circuit: AnalysedCircuit, { side, grounds }: SceneParams): Promise<Drawing> => {
    const drawIn = host.draw?.(workspace.client) ?? drawHere;
    return drawn.of(uri).drawing(circuit, { side, grounds }, () => drawIn(`${grounds} ${uri}`, circuit, { grounds, side }));
  };
  const whole = async (uri: string): Promise<AnalysedCircuit | undefined> => {
    const snapshot = await workspace.snapshot(uri);
    return snapshot === undefined ? undefined : drawn.of(uri).whole(snapshot.circuit);
  };

  connection.onRequest(
    'lugwork/scene',
    guard.request<SceneParams, DrawnScene | null>('lugwork/scene', null, async (params, token) => {
      const { uri, grounds, evenBroken } = params;
      const snapshot = await workspace.snapshot(uri);
      if (snapshot === undefined) return null;
      const { circuit, document } = snapshot;
      const documentDrawn = drawn.of(uri);
      const faults = faultsOf(circuit);
      documentDrawn.whole(circuit);
      const drawing = faults === 0 || evenBroken ? await drawingOf(uri, circuit, params) : undefined;
      const diagram =
        drawing?.diagram ?? (await inSlices(documentDrawn.diagramSteps(circuit, grounds), () => token.isCancellationRequested));
      if (diagram === undefined) return null;
      return {
        version: document.version,
        ...(drawing === undefined ? {} : { scene: drawing.scene }),
        faults,
        places: drawnPlaces(circuit, diagram),
        controls: controlsOf(circuit),
        remarks: drawing?.remarks ?? [],
      };
    }),
  );
  connection.onRequest(
    'lugwork/prepareScene',
    guard.request<SceneParams, null>('lugwork/prepareScene', null, async (params) => {
      const snapshot = await workspace.snapshot(params.uri);
      if (snapshot !== undefined) await drawingOf(params.uri, snapshot.circuit, params);
      return null;
    }),
  );
  connection.onRequest(
    'lugwork/overlay',
    guard.request<SettingParams, Highlight | null>('lugwork/overlay', null, async ({ uri, grounds, at }, token) => {
      const circuit = await whole(uri);
      if (circuit === undefined) return null;
      const steps = overlaySteps(circuit, drawn.of(uri).diagramSteps(circuit, grounds), settingAt(circuit, at));
      return (await inSlices(steps, () => token.isCancellationRequested)) ?? null;
    }),
  );
  connection.onRequest(
    'lugwork/response',
    guard.request<ServerRequests['lugwork/response']['params'], ResponseCurve | null>(
      'lugwork/response',
      null,
      async ({ uri, at, points: count }, token) => {
        const circuit = await whole(uri);
        if (circuit === undefined) return null;
        const steps = responseSteps(circuit, settingAt(circuit, at), { points: count });
        const found = await inSlices(steps, () => token.isCancellationRequested);
        if (found === undefined) return null;
        const { points, ...summary } = found;
        return { ...summary, hz: points.map(({ hz }) => hz), db: points.map(({ db }) => db) };
      },
    ),
  );
}

function* overlaySteps(circuit: AnalysedCircuit, diagram: Steps<Diagram>, setting: Setting): Steps<Highlight> {
  return yield* highlightSteps(circuit, yield* diagram, setting);
}

/** The setting that names ask for; names that the circuit has not are passed over. */
export function settingAt(circuit: AnalysedCircuit, { positions, rotations }: ControlsAt): Setting {
  let setting = restingSetting(circuit);
  for (const device of circuit.switches) {
    const index = device.positions.findIndex(({ key }) => key === positions[device.name]);
    if (index >= 0) setting = withPosition(setting, device.id, index);
  }
  for (const shaft of circuit.shafts) {
    const rotation = rotations[shaft.name];
    if (rotation !== undefined && Number.isFinite(rotation))
      setting = withRotation(setting, shaft.id, Math.min(10, Math.max(0, rotation)));
  }
  return setting;
}

/** What a player sets, in the order of the text. */
export function controlsOf(circuit: Circuit): DrawnControl[] {
  const switches = circuit.switches
    .filter(({ positions }) => positions.length > 1)
    .map(({ name, part, positions, rest }): DrawnControl => ({
      kind: 'switch',
      name,
      part: drawnPart(circuit, part),
      positions: positions.map(({ key, label }) => ({ key, label })),
      rest: itemAt(positions, rest ?? 0).key,
      returns: rest !== undefined,
    }));
  const shafts = circuit.shafts.map(({ name, part, rest, turn }): DrawnControl => ({
    kind: 'shaft',
    name,
    part: drawnPart(circuit, part),
    rest,
    turn,
  }));
  return [...switches, ...shafts];
}

function drawnPart(circuit: Circuit, part: PartId): string {
  return `part:${partById(circuit, part).name}`;
}
