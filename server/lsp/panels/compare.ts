/** What the comparison beside the text asks: both drawings with their marks, and the lines that changed. */
import type { CancellationToken } from 'vscode-languageserver';
import { capChange } from '../../../language/cap-findings.js';
import { itemAt } from '../../../language/collections.js';
import { type AnalysedCircuit, partById } from '../../../language/circuit/index.js';
import {
  changeSections,
  changeSteps,
  linksBetween,
  overlayOf,
  type Side,
  wireEffectSteps,
} from '../../../language/compare/index.js';
import { type Diagram, draw, simpleLayout } from '../../../language/drawing/index.js';
import { setAside } from '../../../language/findings.js';
import { createProject } from '../../../language/project.js';
import type { SourceRange } from '../../../language/source.js';
import type { Steps } from '../../../language/steps.js';
import type { DrawInThread } from '../../drawing-thread.js';
import type { ChangedLine, ComparedCircuits, CompareParams } from '../../protocol.js';
import type { Service } from '../feature.js';
import { inSlices } from '../messages/pause.js';
import type { ServiceHost } from '../workspace.js';

/** Answers on the service's connection. */
export function registerCompare({ connection, guard, workspace }: Service, host: ServiceHost): void {
  const drawHere: DrawInThread = (_, circuit, options) => draw(circuit, (graph) => Promise.resolve(simpleLayout(graph)), options);

  /** An earlier text is read as lying where the file lies, the files that it uses as they are now. */
  const earlier = (uri: string, text: string): AnalysedCircuit | undefined =>
    createProject({ read: (asked) => (asked === uri ? text : workspace.texts.project.text(asked)) }).circuit(uri);
  /** What is found in a circuit; its positions are solved with it. Undefined where that is no longer wanted. */
  const sideOf = async (circuit: AnalysedCircuit, token: CancellationToken): Promise<Side | undefined> => {
    const isGivenUp = (): boolean => token.isCancellationRequested;
    const findings = await inSlices(workspace.analysis.findingSteps(circuit), isGivenUp);
    const table = findings && (await inSlices(workspace.analysis.positionSteps(circuit), isGivenUp));
    return table && { circuit, findings, aside: setAside(circuit) };
  };
  const sides = async (
    { uri, before }: CompareParams,
    token: CancellationToken,
  ): Promise<{ readonly before: Side; readonly after: Side } | undefined> => {
    const now = (await workspace.snapshot(uri))?.circuit;
    const old = 'text' in before ? earlier(uri, before.text) : (await workspace.snapshot(before.uri))?.circuit;
    if (now === undefined || old === undefined) return undefined;
    const [first, second] = [await sideOf(old, token), await sideOf(now, token)];
    return first && second && { before: first, after: second };
  };

  connection.onRequest(
    'lugwork/compare',
    guard.request<CompareParams, ComparedCircuits | null>('lugwork/compare', null, async (params, token) => {
      const both = await sides(params, token);
      if (both === undefined) return null;
      const { before, after } = both;
      const whole = await inSlices(changeSteps(before, after), () => token.isCancellationRequested);
      if (whole === undefined) return null;
      const change = capChange(whole);
      const drawIn = host.draw?.(workspace.client) ?? drawHere;
      // One after the other under one key: what stays joined stays in its place.
      const old = await drawIn(`compare ${params.uri}`, before.circuit, {});
      const now = await drawIn(`compare ${params.uri}`, after.circuit, {});
      return {
        change,
        sections: changeSections(change),
        before: { scene: old.scene, marks: overlayOf(before.circuit, old.diagram, change, 'before').marks },
        after: { scene: now.scene, marks: overlayOf(after.circuit, now.diagram, change).marks },
        links: sceneLinks(before.circuit, old.diagram, after.circuit, now.diagram),
      };
    }),
  );
  connection.onRequest(
    'lugwork/changedLines',
    guard.request<CompareParams, readonly ChangedLine[]>('lugwork/changedLines', [], async (params, token) => {
      const both = await sides(params, token);
      if (both === undefined) return [];
      const lines = changedLineSteps(params.uri, both.before, both.after);
      return (await inSlices(lines, () => token.isCancellationRequested)) ?? [];
    }),
  );
}

function sceneLinks(before: AnalysedCircuit, old: Diagram, after: AnalysedCircuit, now: Diagram): ComparedCircuits['links'] {
  const { parts, joints } = linksBetween(before, after);
  const runOf = (diagram: Diagram): ReadonlyMap<number, string> =>
    new Map(diagram.runs.flatMap(({ id, joints: own }) => own.map((joint) => [joint, id] as const)));
  const [oldRuns, newRuns] = [runOf(old), runOf(now)];
  return [
    ...parts.map(([a, b]) => [`part:${partById(before, a).name}`, `part:${partById(after, b).name}`] as const),
    ...joints.flatMap(([a, b]) => {
      const [x, y] = [oldRuns.get(a), newRuns.get(b)];
      return x === undefined || y === undefined ? [] : [[x, y] as const];
    }),
  ];
}

/** What is gone has no line any more: it is marked at the statement above it, or at the title. */
function* changedLineSteps(uri: string, before: Side, after: Side): Steps<readonly ChangedLine[]> {
  const change = yield* changeSteps(before, after);
  const effects = yield* wireEffectSteps(before.circuit, after.circuit, change);
  const top = after.circuit.titleRange ?? { uri, start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const lines = linesBetween(uri, before.circuit, after.circuit);
  const placed = ({
    before: old,
    after: now,
  }: {
    before?: SourceRange;
    after?: SourceRange;
  }): ChangedLine['range'] | undefined => {
    const range = now ?? (old === undefined ? undefined : nearestAbove(lines, old)) ?? top;
    return range.uri === uri ? { start: range.start, end: range.end } : undefined;
  };
  const items = [
    ...change.parts.map((item) => ({ item, effects: [] as readonly string[] })),
    ...change.wires.map((item, index) => ({ item, effects: effects[index] ?? [] })),
  ];
  return items.flatMap(({ item, effects: own }): ChangedLine[] => {
    const range = placed(item);
    return range === undefined ? [] : [{ range, kind: item.kind, says: item.says, effects: own }];
  });
}

/** The statements of a file that both circuits have: where they stood, and where they stand. */
type Lines = readonly (readonly [SourceRange, SourceRange])[];

function linesBetween(uri: string, before: AnalysedCircuit, after: AnalysedCircuit): Lines {
  const { parts, joints } = linksBetween(before, after);
  const pairs = [
    ...parts.map(([a, b]) => [partById(before, a).range, partById(after, b).range] as const),
    ...joints.map(([a, b]) => [itemAt(before.joints, a).statementRange, itemAt(after.joints, b).statementRange] as const),
  ];
  return pairs.filter(([old, now]) => old.uri === uri && now.uri === uri);
}

/** Where the last statement above a range stands now. */
function nearestAbove(lines: Lines, { uri, start }: SourceRange): SourceRange | undefined {
  let nearest: Lines[number] | undefined;
  for (const pair of lines) {
    const [old] = pair;
    const isAbove = old.uri === uri && old.start.line < start.line;
    if (isAbove && (nearest === undefined || old.start.line > nearest[0].start.line)) nearest = pair;
  }
  return nearest?.[1];
}
