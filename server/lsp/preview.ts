/** What the drawing panel asks: the scene, what a setting lights in it, what a setting sounds like. */
import type { Circuit } from '../../language/circuit/index.js';
import { createDiagram, draw, highlightOf, simpleLayout, type Diagram, type Highlight } from '../../language/drawing/index.js';
import { response, restingSetting, withPosition, withRotation, type Setting } from '../../language/electrics/index.js';
import type { DrawInThread } from '../drawing-thread.js';
import type {
  ControlsAt,
  DrawnControl,
  DrawnScene,
  ResponseCurve,
  SceneParams,
  ServerRequests,
  SettingParams,
} from '../protocol.js';
import type { Service } from './features/feature.js';
import { drawnPlaces } from './preview-places.js';
import type { ServiceHost } from './workspace.js';

type Grounds = SceneParams['grounds'];

/** Documents whose drawings are remembered. */
const mostDrawn = 8;

/** Answers the panel's requests on the service's connection. */
export function registerPreview({ connection, guard, workspace }: Service, host: ServiceHost): void {
  const drawn = createDrawnDocuments();
  const drawHere: DrawInThread = (_, circuit, options) => draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);
  const whole = async (uri: string): Promise<Circuit | undefined> => {
    const snapshot = await workspace.snapshot(uri);
    return snapshot === undefined ? undefined : drawn.of(uri).whole(snapshot.circuit);
  };

  connection.onRequest(
    'lugwork/scene',
    guard.request<SceneParams, DrawnScene | null>('lugwork/scene', null, async ({ uri, side, grounds, evenBroken }) => {
      const snapshot = await workspace.snapshot(uri);
      if (snapshot === undefined) return null;
      const { circuit, document } = snapshot;
      const documentDrawn = drawn.of(uri);
      const faults = faultsOf(circuit);
      const drawIn = host.draw?.(workspace.client) ?? drawHere;
      documentDrawn.whole(circuit);
      const drawing = faults === 0 || evenBroken ? await drawIn(`${grounds} ${uri}`, circuit, { grounds, side }) : undefined;
      return {
        version: document.version,
        ...(drawing === undefined ? {} : { scene: drawing.scene }),
        faults,
        places: drawnPlaces(circuit, drawing?.diagram ?? documentDrawn.diagram(circuit, grounds)),
        controls: controlsOf(circuit),
        remarks: drawing?.remarks ?? [],
      };
    }),
  );
  connection.onRequest(
    'lugwork/overlay',
    guard.request<SettingParams, Highlight | null>('lugwork/overlay', null, async ({ uri, grounds, at }) => {
      const circuit = await whole(uri);
      return circuit === undefined ? null : highlightOf(circuit, drawn.of(uri).diagram(circuit, grounds), settingAt(circuit, at));
    }),
  );
  connection.onRequest(
    'lugwork/response',
    guard.request<ServerRequests['lugwork/response']['params'], ResponseCurve | null>(
      'lugwork/response',
      null,
      async ({ uri, at, points: count }) => {
        const circuit = await whole(uri);
        if (circuit === undefined) return null;
        const { points, ...summary } = response(circuit, settingAt(circuit, at), { points: count });
        return { ...summary, hz: points.map(({ hz }) => hz), db: points.map(({ db }) => db) };
      },
    ),
  );
}

/** Faults of the text that take something out of the circuit. */
export function faultsOf({ problems, aside = [] }: Circuit): number {
  const isAside = (line: number, uri: string): boolean =>
    aside.some((range) => range.uri === uri && range.start.line <= line && line <= range.end.line);
  return problems.filter(({ severity, range }) => severity === 'error' && !isAside(range.start.line, range.uri)).length;
}

/** The setting that names ask for; names that the circuit has not are passed over. */
export function settingAt(circuit: Circuit, { positions, rotations }: ControlsAt): Setting {
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
      part: partId(circuit, part),
      positions: positions.map(({ key, label }) => ({ key, label })),
      rest: positions[rest ?? 0]!.key,
      returns: rest !== undefined,
    }));
  const shafts = circuit.shafts.map(({ name, part, rest, turn }): DrawnControl => ({
    kind: 'shaft',
    name,
    part: partId(circuit, part),
    rest,
    turn,
  }));
  return [...switches, ...shafts];
}

function partId(circuit: Circuit, part: number): string {
  return `part:${circuit.parts[part]!.name}`;
}

interface DrawnDocument {
  /** The circuit itself where its text is whole, else the last one that was. */
  whole(circuit: Circuit): Circuit;
  diagram(circuit: Circuit, grounds: Grounds): Diagram;
}

function createDrawnDocuments(): { of(uri: string): DrawnDocument } {
  const kept = new Map<string, DrawnDocument>();
  return {
    of(uri) {
      const document = kept.get(uri) ?? createDrawnDocument();
      kept.delete(uri);
      kept.set(uri, document);
      if (kept.size > mostDrawn) kept.delete(kept.keys().next().value!);
      return document;
    },
  };
}

function createDrawnDocument(): DrawnDocument {
  let last: Circuit | undefined;
  let made: { readonly circuit: Circuit; readonly diagrams: Map<Grounds, Diagram> } | undefined;
  return {
    whole(circuit) {
      if (faultsOf(circuit) === 0) last = circuit;
      return last ?? circuit;
    },
    diagram(circuit, grounds) {
      if (made?.circuit !== circuit) made = { circuit, diagrams: new Map() };
      const diagram = made.diagrams.get(grounds) ?? createDiagram(circuit, { grounds });
      made.diagrams.set(grounds, diagram);
      return diagram;
    },
  };
}
