/** The joints of a circuit as one looks at them on the bench, the switches left out. */
import type { Pole } from '../../electrics/index.js';
import type { AnalysedCircuit, LugId } from '../../circuit/model.js';
import { groupBy, valueFor } from '../../collections.js';
import { classOf, groundClass } from './wiring.js';

export interface View {
  readonly circuit: AnalysedCircuit;
  /** Class of a lug: its smallest lug. */
  readonly of: (lug: LugId) => number;
  readonly isWired: (lug: LugId) => boolean;
  readonly members: (classId: number) => readonly LugId[];
  /** Classes of sleeve and tip; −1 without a jack. */
  readonly ground: number;
  readonly tip: number;
  /** True for a class on which a pickup has a lead. */
  readonly isSource: (classId: number) => boolean;
  /** Classes from which a capacitor leads to ground, be it one that a pole chooses. */
  readonly drained: ReadonlySet<number>;
  /** Classes at which a volume takes its input: the far end of a track whose other end is on ground, or its wiper where a pickup is on that. */
  readonly inputs: readonly number[];
  /** How many tracks end on a class. */
  readonly tracksOn: (classId: number) => number;
}

export function createView(circuit: AnalysedCircuit, classes: Int32Array, poles: readonly Pole[]): View {
  const of = (lug: LugId): number => classOf(classes, lug);
  const members = groupBy(
    circuit.lugs.map(({ id }) => id),
    of,
  );
  const ground = groundClass(circuit, classes);
  const sources = new Set(circuit.elements.flatMap(({ kind, a, b }) => (kind === 'coil' ? [of(a), of(b)] : [])));
  sources.delete(ground);
  const { drained, inputs } = drainsOf(circuit, of, ground, sources);
  const chosen = poles.flatMap(({ common, throws }) =>
    common !== undefined && of(common) !== ground && throws.some((lug) => drained.has(of(lug)) && !sources.has(of(lug)))
      ? [of(common)]
      : [],
  );
  for (const classId of chosen) drained.add(classId);
  const tracks = countTracks(circuit, of);
  return {
    circuit,
    of,
    isWired: (lug) => valueFor(members, of(lug)).length > 1,
    members: (classId) => members.get(classId) ?? [],
    ground,
    tip: circuit.output === undefined ? -1 : of(circuit.output.tip),
    isSource: (classId) => sources.has(classId),
    drained,
    inputs,
    tracksOn: (classId) => tracks.get(classId) ?? 0,
  };
}

/** What elements lead to ground: the classes behind capacitors, and those at which volumes take their inputs. */
function drainsOf(
  circuit: AnalysedCircuit,
  of: View['of'],
  ground: number,
  sources: ReadonlySet<number>,
): { readonly drained: Set<number>; readonly inputs: readonly number[] } {
  const drained = new Set<number>();
  const inputs: number[] = [];
  for (const element of circuit.elements) {
    const [a, b] = [of(element.a), of(element.kind === 'track' ? (element.leavesTo ?? element.b) : element.b)];
    const far = a === ground ? b : b === ground ? a : -1;
    if (far < 0) continue;
    if (element.kind === 'capacitor') drained.add(far);
    if (element.kind !== 'track') continue;
    const wiper = of(element.wiper);
    inputs.push(sources.has(wiper) && !sources.has(far) ? wiper : far);
  }
  return { drained, inputs };
}

/** How many tracks end on each class. */
function countTracks(circuit: AnalysedCircuit, of: View['of']): ReadonlyMap<number, number> {
  const tracks = new Map<number, number>();
  for (const element of circuit.elements) {
    if (element.kind !== 'track') continue;
    for (const end of new Set([of(element.a), of(element.b)])) tracks.set(end, (tracks.get(end) ?? 0) + 1);
  }
  return tracks;
}
